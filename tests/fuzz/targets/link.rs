//! Links: any text, and any content with a right checksum.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    halfbreadth_fuzz::link_payload(bytes);
    halfbreadth_fuzz::link_text(bytes);
});
