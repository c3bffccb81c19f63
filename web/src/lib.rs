//! The editor in the page.
//!
//! This crate translates and decides nothing: events become [`halfbreadth_core::editor::Intent`]s, and the scene,
//! handles, readouts and messages of the editor become DOM elements. [`script`] is the same core for scripts, in a
//! page or in Node; importing the package touches no `window`, only [`boot`] does.

mod app;
mod bench;
mod dom;
mod files;
mod input;
mod language;
pub mod photo;
mod picture;
pub mod script;
mod store;
mod view;

use wasm_bindgen::prelude::wasm_bindgen;

/// The memory of the page: the standard allocator does the same at many times the size.
#[cfg(target_family = "wasm")]
#[global_allocator]
static MEMORY: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

pub use language::speak;

/// Starts the editor in the page that loaded the package.
#[wasm_bindgen]
pub fn boot() {
    app::boot();
}
