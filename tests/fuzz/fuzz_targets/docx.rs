#![no_main]

use untaught_documents::Kind;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| untaught_fuzz::check(Kind::Docx, bytes));
