//! The last deck brought in: its shape, taken from measurements, a drawing or a photograph, and how far it lies from them.

mod cornered;
mod develop;
pub mod drawing;
pub mod measured;
pub mod photo;
pub mod table;

use crate::{datum::Datum, edit::Edit, outline::Outline};
use kurbo::Point;

/// A shape as it was found, before anything is changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Taken {
    /// Its half outline, on the developed sheet. It has not been checked against the bolt holes yet.
    pub outline: Outline,
    /// The bolt holes, where they were found with it; else those of the design in hand stay.
    pub datum: Option<Datum>,
    /// What was measured, on the developed sheet, and how far it lies off the outline; of a drawing places along it.
    pub points: Vec<Found>,
    /// How far the two halves lay apart, where both were given.
    pub asymmetry: Option<Asymmetry>,
    /// How it was read, in words: each a sentence of its own.
    pub remarks: Vec<String>,
}

/// A point that was found on the edge of the deck.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// Where, on the left half, mm.
    pub at: Point,
    /// How far outside the outline it lies, mm; inside negative.
    pub residual: f64,
    /// Whether it lies so far off a fair edge that it was left out.
    pub suspect: bool,
    /// The line of the text it came from, from 1; 0 where there is none.
    pub line: usize,
}

/// How far the two halves of a shape lie apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asymmetry {
    /// The largest distance of one edge from the mirror image of the other, mm.
    pub most: f64,
    /// Where, on the left half, mm.
    pub at: Point,
}

impl Taken {
    /// The largest distance of a point that was not left out from the outline, mm.
    #[must_use]
    pub fn misfit(&self) -> f64 {
        let kept = self.points.iter().filter(|found| !found.suspect);
        kept.fold(0.0, |most: f64, found| most.max(found.residual.abs()))
    }

    /// The points that lie off a fair edge.
    pub fn suspects(&self) -> impl Iterator<Item = &Found> {
        self.points.iter().filter(|found| found.suspect)
    }

    /// The change that makes it the shape of a design.
    #[must_use]
    pub fn edit(&self) -> Edit {
        Edit::TakeShape { outline: self.outline.clone(), datum: self.datum.clone() }
    }
}
