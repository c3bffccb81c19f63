//! Geometry and trade arithmetic for people who press their own skateboard decks.
//!
//! # Axes and units
//!
//! Seen on the top face: x to the nose, y to the left rail, z up; angles anticlockwise from +x. The origin lies on the
//! centreline midway between the inner bolt rows. Lengths are millimetres, angles radians, areas mm², masses grams,
//! plain `f64`; anything else carries its unit in its name.
//!
//! # Accuracy
//!
//! A design stores whole nanometres and whole ten-millionths of a degree. Measures are exact on the curves, in closed
//! form or by quadrature to 1e-9 relative; [`tolerance`] names every accuracy.
//!
//! # A whole example
//!
//! ```
//! use halfbreadth_core::{demo, edit::Edit, measure::Measured};
//!
//! let deck = demo::dunlin();
//! let before = Measured::of(deck.shape());
//! assert!((before.waist().unwrap().width() - 182.5).abs() < 1e-6);
//!
//! // A waist two millimetres deeper on each side.
//! let deeper = deck.apply(&Edit::MoveNode { node: 0, to: (0.0, 89.25).into() })?;
//! let after = Measured::of(deeper.shape());
//! assert!((after.waist().unwrap().width() - 178.5).abs() < 1e-6);
//! assert!(after.area < before.area);
//! # Ok::<(), halfbreadth_core::design::Refusal>(())
//! ```

#![forbid(unsafe_code)]
#![cfg_attr(test, expect(clippy::float_cmp, reason = "tests state exact values"))]

pub mod arcs;
pub mod capture;
pub mod cautions;
pub mod check;
pub mod compare;
pub mod curve;
pub mod datum;
pub mod demo;
pub mod design;
pub mod dimension;
pub mod edit;
pub mod editor;
pub mod export;
pub mod figure;
pub mod format;
pub mod history;
pub mod language;
pub mod layup;
pub mod leaf;
pub mod measure;
mod order;
pub mod outline;
pub mod paper;
pub mod profile;
pub mod projection;
pub mod quantities;
pub mod real;
mod roots;
pub mod scene;
pub mod sheet;
pub mod solid;
pub mod template;
mod text;
pub mod tolerance;
pub mod units;
pub mod view;
pub mod words;
pub mod workshop;

pub use text::file_stem;
