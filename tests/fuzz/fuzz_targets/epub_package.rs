#![no_main]

use untaught_documents::fuzzing;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let _ = fuzzing::epub_package(bytes.to_vec());
});
