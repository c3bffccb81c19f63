//! Why a drawing cannot be put on paper, in words that name the field, what was found, the limit and the way out.

use crate::{
    design::Refusal,
    language::said,
    say,
    units::{self, System, Unit, Words, error_with_words},
};
use core::fmt;

/// Why there is no file. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum PaperError {
    /// A margin, an overlap or a side of the paper is outside its limits.
    OutOfRange(Refusal),
    /// The margins leave no room for the check bars.
    NoRoom {
        /// The side of the page that is too short.
        found: f64,
        /// The margin on either side of it.
        margin: f64,
        /// What that side must be with such margins.
        least: f64,
    },
    /// A page would be longer than a file can say.
    TooLong {
        /// Its longer side.
        found: f64,
        /// The limit.
        most: f64,
    },
    /// More tiles than anybody tapes together.
    TooManyTiles {
        /// So many.
        found: f64,
        /// The limit.
        most: f64,
    },
    /// There is nothing to print.
    Empty,
}

impl PaperError {
    /// The key of the field to change.
    #[must_use]
    pub fn field(&self) -> &'static str {
        match self {
            Self::OutOfRange(refusal) => refusal.field(),
            Self::NoRoom { .. } => super::MARGIN.key,
            Self::TooLong { .. } | Self::TooManyTiles { .. } => "paper",
            Self::Empty => "part",
        }
    }
}

impl From<Refusal> for PaperError {
    fn from(refusal: Refusal) -> Self {
        Self::OutOfRange(refusal)
    }
}

impl Words for PaperError {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        let mm = |length: f64| units::show(length, Unit::Length, system);
        match self {
            Self::OutOfRange(refusal) => refusal.words(f, system),
            Self::NoRoom { found, margin, least } => {
                say!(in f, "a page of {found} is too small for margins of {margin} and the check bars (at least {least}): \
                 make the margins smaller or take larger paper", found = mm(*found), margin = mm(*margin), least = mm(*least))
            }
            Self::TooLong { found, most } => {
                say!(in f, "the page would be {found} long (at most {most}): print tiles instead", found = mm(*found), most = mm(*most))
            }
            Self::TooManyTiles { found, most } => {
                let count = |count: f64| units::decimal(count, 0);
                say!(in f, "this takes {found} tiles (at most {most}): take larger paper", found = count(*found), most = count(*most))
            }
            Self::Empty => f.write_str(said("there is nothing to print: choose a part that has lines")),
        }
    }
}

error_with_words!(PaperError);
