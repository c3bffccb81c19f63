//! Design files.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| halfbreadth_fuzz::json(bytes));
