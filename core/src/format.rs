//! A design outside the program: the maker's file, the link in a message, and drawings for other programs and machines.
//!
//! Each format has rules of its own, is versioned where it is read back, and is converted by hand: no format is a
//! by-product of how the core happens to store a thing today. [`json`] and [`link`] are read as well as written,
//! and whatever they read goes through [`Design::new`](crate::design::Design::new). [`svg`], [`dxf`] and [`pdf`] print
//! one [`drawing`].

pub mod csv;
pub mod drawing;
pub mod dxf;
pub mod json;
pub mod link;
pub mod pdf;
pub mod svg;

use crate::outline::{Joint, Outline, Span};

/// The largest count of grains read from outside: 10 m. The handles of the longest deck stay below half of it.
const MOST_GRAINS: i64 = 10_000_000_000;

/// The same for what is no part of a shape: masses, forces, times. 10 t, 10 MN.
const MOST_OF_A_NUMBER: i64 = 1000 * MOST_GRAINS;

/// The first smooth node that stores no tangent and has none given either: by its tip, by the mirror amidships, or by a
/// straight span or a laid sweep beside it.
fn leaderless(outline: &Outline) -> Option<usize> {
    let leads = |span: Option<&Span>| matches!(span, Some(Span::Straight | Span::Laid { .. }));
    let is_led = |i: usize| {
        let before = i.checked_sub(1).and_then(|s| outline.spans.get(s));
        outline.is_tip(i) || outline.is_amidships(i) || leads(before) || leads(outline.spans.get(i))
    };
    outline.nodes.iter().enumerate().position(|(i, node)| node.joint == Joint::Led && !is_led(i))
}

#[cfg(test)]
pub(crate) mod samples;
