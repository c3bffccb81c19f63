//! Why a photograph gives no outline.

use super::HomographyError;
use crate::{
    language::{figure, said},
    say,
    units::{System, Unit, Words, decimal, error_with_words, show},
};
use core::fmt::{self, Display as _};

/// Why a photograph gives no outline.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum PhotoError {
    /// The holes give no projection.
    Projection(HomographyError),
    /// More holes than a deck has.
    TooManyHoles(usize),
    /// The holes clicked do not lie as the bolt pattern and the wheelbase say; the worst is that far off, mm.
    Holes(f64),
    /// Two clicks are one hole.
    SameHole,
    /// The picture is none, or too large: width and height in pixels.
    Size(usize, usize),
    /// The deck cannot be told from the ground.
    NoContrast,
    /// The ground round the deck is not in the picture, or not of one colour: the share of the edge that is not clear.
    NoEdge(f64),
    /// The halves differ by so many mm: it is not a deck, or the holes are not its bolt holes.
    Lopsided(f64),
    /// The width measured between the rails is not what the picture shows there, mm.
    Width(f64),
    /// The edge runs where no deck's does.
    NotADeck,
}

impl Words for PhotoError {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        let length = |mm: f64| show(mm, Unit::Length, system);
        match self {
            Self::Projection(why) => why.fmt(f),
            Self::TooManyHoles(found) => say!(in f, "{found} places are clicked, and a deck has eight bolt holes", found),
            Self::Holes(worst) => say!(in f, "the holes do not lie as the bolt pattern and the wheelbase say: one is {worst} off. Set those two, or click again", worst = length(*worst)),
            Self::SameHole => f.write_str(said("two clicks are on one hole: take one out")),
            Self::Size(width, height) => {
                say!(in f, "a picture of {width} by {height} pixels cannot be used: it must have 200 pixels a side, and 16 million at most", width, height)
            }
            Self::NoContrast => f.write_str(said("the deck cannot be told from the ground: lay it on ground of one plain colour that differs from its own")),
            Self::NoEdge(share) => say!(in f, "no clear edge on {share} % of the way round: the whole deck must lie in the picture, on plain ground that shows all round it", share = figure(decimal(share * 100.0, 0))),
            Self::Lopsided(by) => say!(in f, "the two halves differ by {by}: the holes clicked are not this deck’s bolt holes, or this is not a deck", by = length(*by)),
            Self::Width(found) => say!(in f, "the picture shows {found} between the two places on the rails: touch the places that were measured, or set the width", found = length(*found)),
            Self::NotADeck => f.write_str(said("the edge found is not a deck’s: check the holes, the bolt pattern and the wheelbase")),
        }
    }
}

error_with_words!(PhotoError);

impl From<HomographyError> for PhotoError {
    fn from(why: HomographyError) -> Self {
        Self::Projection(why)
    }
}
