//! Why measurements give no shape.

use super::{FEWEST, Options};
use crate::{
    capture::table::TableError,
    language::{figure, said},
    say,
    units::decimal_trimmed,
};
use core::fmt;

/// Why measurements give no shape.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum MeasuredError {
    /// The table cannot be used.
    Table(TableError),
    /// There are too few stations where the deck has a breadth.
    TooFew {
        /// How many there are.
        found: usize,
    },
    /// The breadth is nothing at a station between others.
    NothingBetween {
        /// The line of the text.
        line: usize,
    },
    /// A station lies beyond the tip that stations are counted from.
    BeyondTip {
        /// The line of the text.
        line: usize,
    },
    /// No fair edge runs near the measurements.
    Wild,
    /// The tolerance is out of range, mm.
    Tolerance(f64),
    /// The distance of the tip from the bolts is out of range, mm.
    TipToBolts(f64),
}

impl MeasuredError {
    /// The key of the field at fault, as the page and the script interface name it.
    #[must_use]
    pub fn field(&self) -> &'static str {
        match self {
            Self::Tolerance(_) => "tolerance",
            Self::TipToBolts(_) => "tip-to-bolts",
            _ => "rows",
        }
    }
}

impl From<TableError> for MeasuredError {
    fn from(error: TableError) -> Self {
        Self::Table(error)
    }
}

impl fmt::Display for MeasuredError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let range = |f: &mut fmt::Formatter<'_>, what, mm: f64, (least, most): (f64, f64)| {
            let [mm, least, most] = [mm, least, most].map(|mm| figure(decimal_trimmed(mm, 2)));
            say!(in f, "{what} {mm} mm is out of range: from {least} to {most} mm",
                what,
                mm,
                least,
                most
            )
        };
        match self {
            Self::Table(error) => error.fmt(f),
            Self::TooFew { found } => {
                say!(in f, "{found} stations with a breadth are too few to draw from: measure at least {fewest}, better eight", found, fewest = FEWEST)
            }
            Self::NothingBetween { line } => {
                say!(in f, "line {line}: the breadth is 0 between other stations: only a tip has none", line)
            }
            Self::BeyondTip { line } => {
                say!(in f, "line {line}: the station lies beyond the tip that stations are counted from", line)
            }
            Self::Wild => f.write_str(said(
                "no fair edge runs through these stations: check that each is as it was measured",
            )),
            Self::Tolerance(mm) => range(f, "a tolerance of", *mm, Options::TOLERANCES),
            Self::TipToBolts(mm) => range(f, "a tip to the bolts of", *mm, Options::TIPS),
        }
    }
}

impl core::error::Error for MeasuredError {}

crate::language::say_displayed!(MeasuredError);
