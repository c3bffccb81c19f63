//! Why a drawing gives no shape, and what to do about it.

use super::{LONGEST, Options, sketch::MOST_STROKES};
use crate::{
    language::{figure, said},
    say,
    units::{decimal, decimal_trimmed},
};
use core::fmt;

/// Why a drawing gives no shape.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum DrawingError {
    /// The text is too long; here are its bytes.
    TooLarge(usize),
    /// It is neither SVG nor DXF.
    Unknown,
    /// It is a DXF file that is not text.
    Binary,
    /// It ends before it is complete.
    CutOff,
    /// A line cannot be read.
    Line {
        /// Which, from 1.
        line: usize,
        /// What is wrong with it.
        what: &'static str,
    },
    /// It has more lines and curves than are read.
    TooMany,
    /// Its blocks hold one another deeper than this, or one holds itself.
    Nested(usize),
    /// It does not say what its numbers count; here are width and height of its largest contour, in them.
    Unit(f64, f64),
    /// It has no closed contour.
    NoContour {
        /// How many lines and curves it has.
        strokes: usize,
        /// How many blocks are placed in it that it does not hold.
        blocks: usize,
        /// The smallest gap that keeps a contour open, mm.
        gap: Option<f64>,
    },
    /// No closed contour is as large as a deck; here are width and height of the largest, mm.
    NoDeck(f64, f64),
    /// The centreline was to be found by the bolt holes, and they are not there.
    Holes {
        /// How many circles have the size of a bolt hole.
        found: usize,
    },
    /// The centreline does not cross the outline at two tips.
    NoTips,
    /// No fair chain follows the outline.
    Wild,
    /// The tolerance is out of range, mm.
    Tolerance(f64),
}

impl DrawingError {
    /// The key of the field at fault, as the page and the script interface name it.
    #[must_use]
    pub fn field(&self) -> &'static str {
        match self {
            Self::Unit(..) | Self::NoDeck(..) => "unit",
            Self::Holes { .. } | Self::NoTips => "centreline",
            Self::Tolerance(_) => "tolerance",
            _ => "text",
        }
    }
}

impl fmt::Display for DrawingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge(bytes) => {
                say!(in f, "the drawing has {found} MB: at most {most} MB are read, and an outline takes a thousandth of it", found = bytes / 1_000_000, most = LONGEST / 1_000_000)
            }
            Self::Unknown => {
                f.write_str(said("this is neither an SVG nor a DXF drawing: save the outline as one of them"))
            }
            Self::Binary => f.write_str(said("this DXF file is binary: save it as text (ASCII)")),
            Self::CutOff => f.write_str(said("the file ends before it is complete: save or copy it again")),
            Self::Line { line, what } => say!(in f, "line {line} {what}", line, what),
            Self::TooMany => {
                say!(in f, "the drawing has more than {most} lines and curves: save a file with the outline alone", most = MOST_STROKES)
            }
            Self::Nested(deepest) => {
                say!(in f, "blocks hold one another more than {most} deep: explode them and save it again", most = deepest)
            }
            Self::Unit(width, height) => {
                let [width, height] = [width, height].map(|size| figure(decimal_trimmed(*size, 2)));
                say!(in f, "the drawing does not say its unit; the outline is {width} by {height}: choose what that counts", width, height)
            }
            Self::NoContour { strokes: 0, blocks, .. } if *blocks > 0 => {
                f.write_str(said("the drawing holds only blocks that are in another file: bind or explode them and save it again"))
            }
            Self::NoContour { strokes: 0, .. } => {
                f.write_str(said("the drawing holds no lines or curves that can be read"))
            }
            Self::NoContour { strokes, gap, .. } => {
                say!(in f, "none of the {strokes} lines and curves close to an outline", strokes)?;
                match gap {
                    Some(gap) => {
                        say!(in f, ": the smallest gap is {gap} mm; join the ends", gap = figure(decimal(*gap, 2)))
                    }
                    None => f.write_str(said(": join their ends")),
                }
            }
            Self::NoDeck(width, height) => {
                let [width, height] = [width, height].map(|size| figure(decimal(*size, 1)));
                say!(in f, "the largest closed contour is {width} by {height} mm, which is no deck: check the unit", width, height)
            }
            Self::Holes { found } => {
                say!(in f, "the eight bolt holes are not there: {found} circles have their size; find the centreline another way", found)
            }
            Self::NoTips => {
                f.write_str(said("the centreline does not run from tip to tip: find it another way"))
            }
            Self::Wild => f.write_str(said(
                "no fair chain follows the outline: check that it is one deck and nothing else",
            )),
            Self::Tolerance(mm) => {
                let (least, most) = Options::TOLERANCES;
                let [mm, least, most] = [*mm, least, most].map(|mm| figure(decimal_trimmed(mm, 2)));
                say!(in f, "a tolerance of {mm} mm is out of range: from {least} to {most} mm", mm, least, most)
            }
        }
    }
}

impl core::error::Error for DrawingError {}

crate::language::say_displayed!(DrawingError);
