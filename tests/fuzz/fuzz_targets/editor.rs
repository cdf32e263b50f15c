#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| untaught_fuzz::editor(bytes));
