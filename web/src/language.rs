//! The language of the page: handed over before it boots, and to the worker before it is asked for anything.

use halfbreadth_core::language::{self, Catalogue};
use wasm_bindgen::prelude::wasm_bindgen;

/// Says everything from now on as a catalogue has it: a flat JSON object, English to the language of that code.
///
/// A catalogue that cannot be read leaves the page in English: a page in the wrong language is better than none.
#[wasm_bindgen]
pub fn speak(code: &str, catalogue: &str) {
    language::speak(Catalogue::read(code, catalogue).ok());
}
