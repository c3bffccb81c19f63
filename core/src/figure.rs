//! Small figures beside the numbers, drawn once for the page and for the printed sheet.
//!
//! Each is a [`Leaf`](crate::leaf::Leaf) of the size it is asked for.

mod bolts;
mod flex;

pub use self::{bolts::tightening, flex::flex};
