#![no_main]

use untaught_documents::fuzzing;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    let _ = fuzzing::odt_content(bytes.to_vec());
});
