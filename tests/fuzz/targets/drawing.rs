//! Drawings to bring in, SVG and DXF.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| halfbreadth_fuzz::drawing(bytes));
