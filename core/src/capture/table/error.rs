//! Why a text is no table of measurements, with the line at fault.

use super::{LONGEST, MOST_ROWS};
use crate::{
    language::{figure, said},
    say,
    units::ParseError,
};
use core::fmt;

/// Why a text is no table of measurements.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum TableError {
    /// The text is too long; here are its bytes.
    TooLong(usize),
    /// There are more rows than are read.
    TooManyRows,
    /// There is no row with figures.
    Empty,
    /// A line cannot be read.
    Line {
        /// Which, from 1.
        line: usize,
        /// What is wrong with it.
        fault: Fault,
    },
}

/// What is wrong with a line.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Fault {
    /// A cell is no length.
    Unreadable(ParseError),
    /// It has not two or three figures.
    Columns {
        /// How many it has.
        found: usize,
        /// Whether commas may be both decimal marks and between columns.
        comma: bool,
    },
    /// A breadth is below nothing.
    Negative,
    /// Its station is that of an earlier line.
    Duplicate {
        /// That line.
        earlier: usize,
    },
    /// Left and right are too far apart to be of one deck, mm.
    Apart(f64),
    /// Both sides are given where the whole width is said to be.
    BothAndFull,
    /// The station lies farther out than a deck can reach.
    TooFar,
}

impl fmt::Display for TableError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong(bytes) => say!(in f, "the table has {found} kB: at most {most} kB are read",
                found = bytes / 1000,
                most = LONGEST / 1000
            ),
            Self::TooManyRows => {
                say!(in f, "the table has more than {most} rows: leave some out", most = MOST_ROWS)
            }
            Self::Empty => f.write_str(said(
                "there are no measurements: write a station and a half-breadth on each line, like 100 95.5",
            )),
            Self::Line { line, fault } => say!(in f, "line {line}: {fault}", line, fault),
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable(error) => error.fmt(f),
            Self::Columns { found, comma: true } => {
                say!(in f, "{found} figures between commas: if a comma is the decimal mark, put semicolons or tabs between columns", found)
            }
            Self::Columns { found, comma: false } => {
                let figures = if *found == 1 { "figure" } else { "figures" };
                say!(in f, "{found} {figures} where two are wanted, station and half-breadth, or three, station, left and right", found, figures)
            }
            Self::Negative => {
                f.write_str(said("a breadth cannot be below 0: write both sides without a sign"))
            }
            Self::Duplicate { earlier } => {
                say!(in f, "its station stands in line {earlier} already: keep one of the two", earlier)
            }
            Self::Apart(mm) => {
                say!(in f, "left and right differ by {apart} mm: check the figures and which column is which", apart = figure(crate::units::decimal(*mm, 1)))
            }
            Self::BothAndFull => f.write_str(said(
                "left and right are half-breadths: say that halves were measured, or give one width",
            )),
            Self::TooFar => f.write_str(said("no deck reaches so far: check the figure and its unit")),
        }
    }
}

impl core::error::Error for TableError {}

crate::language::say_displayed!(TableError, Fault);
