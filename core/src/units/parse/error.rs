//! Why a text is no quantity, in words: what was found, what is wrong with it, and a way out.

use super::{LONGEST, Unit};
use std::fmt;

/// Text that could not be read as a quantity. `Display` tells what was found, what is wrong and a way out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ParseError {
    /// The text as typed, cut to [`LONGEST`] characters.
    pub found: String,
    /// The kind that was expected.
    pub unit: Unit,
    /// What is wrong with it.
    pub reason: Reason,
}

/// What is wrong with a text that should be a quantity.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Reason {
    /// Nothing but spaces.
    Empty,
    /// More than [`LONGEST`] characters; here is how many.
    TooLong(usize),
    /// More than one decimal mark, as in `1,234.5`: which one separates thousands is a guess.
    TwoMarks,
    /// A fraction of one or more: `8 5/4`, or `81/4` where a space was forgotten.
    LargeFraction,
    /// A fraction over nothing: `1/0`.
    ZeroDenominator,
    /// A power of ten: `1e9`.
    Exponent,
    /// Part of a thing that comes in whole ones.
    NotWhole,
    /// A unit that this kind of quantity does not have; here it is.
    UnknownUnit(String),
    /// More than can be kept to the last digit.
    TooLarge,
    /// No number, or more than one.
    Unreadable,
}

impl fmt::Display for ParseError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let row = self.unit.row();
        let example = row.example;
        if self.reason == Reason::Empty {
            return write!(f, "nothing is typed: write {}, like {example}", row.noun);
        }
        let dots = if matches!(self.reason, Reason::TooLong(_)) { "…" } else { "" };
        write!(f, "“{}{dots}” is not {}: ", self.found, row.noun)?;
        match &self.reason {
            Reason::TooLong(length) => {
                write!(f, "{length} characters are too many (at most {LONGEST})")
            }
            Reason::TwoMarks => f.write_str("only one decimal mark, and none for thousands, like 1234.5"),
            Reason::LargeFraction => f.write_str("the fraction must be below 1, like 8 1/4"),
            Reason::ZeroDenominator => f.write_str("the number below the bar must be above 0, like 8 1/4"),
            Reason::Exponent => f.write_str("write all digits out, like 1200"),
            Reason::NotWhole => write!(f, "it must be a whole number, like {example}"),
            Reason::TooLarge => write!(f, "it is too large; write it like {example}"),
            Reason::UnknownUnit(name) => {
                let units: Vec<_> =
                    row.symbols().map(|symbol| symbol.text).filter(|text| !text.is_empty()).collect();
                if units.is_empty() {
                    return write!(f, "leave out “{name}”, like {example}");
                }
                write!(f, "“{name}” is none of its units, ")?;
                write_list(f, &units)
            }
            Reason::Empty | Reason::Unreadable => write!(f, "write it like {example}"),
        }
    }
}

impl std::error::Error for ParseError {}

/// `mm, in or cm`, each once: some kinds show one symbol on both pages.
fn write_list(f: &mut fmt::Formatter<'_>, units: &[&str]) -> fmt::Result {
    for (place, unit) in units.iter().enumerate().filter(|(place, unit)| !units[..*place].contains(unit)) {
        let join = match place {
            0 => "",
            _ if place + 1 == units.len() => " or ",
            _ => ", ",
        };
        write!(f, "{join}{unit}")?;
    }
    Ok(())
}
