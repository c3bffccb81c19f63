//! Fair curves: the Euler spiral, the batten through pins, and what is built from them.
//!
//! Pure curve mathematics in millimetres and radians, with no knowledge of decks.

pub mod batten;
pub mod fair;
pub mod family;
pub mod fit;
pub(crate) mod least_squares;
pub(crate) mod length;
mod moments;
pub(crate) mod nearest;
mod shape;
pub mod spiral;
