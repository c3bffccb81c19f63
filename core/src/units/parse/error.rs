//! Why a text is no quantity, in words: what was found, what is wrong with it, and a way out.

use super::{LONGEST, Unit};
use crate::{language::said, say};
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
            return say!(in f, "nothing is typed: write {noun}, like {example}",
                noun = row.noun,
                example
            );
        }
        let dots = if matches!(self.reason, Reason::TooLong(_)) { "…" } else { "" };
        say!(in f, "“{found}{dots}” is not {noun}: ", found = self.found, dots, noun = row.noun)?;
        match &self.reason {
            Reason::TooLong(length) => say!(in f, "{length} characters are too many (at most {most})",
                length,
                most = LONGEST
            ),
            Reason::TwoMarks => {
                f.write_str(said("only one decimal mark, and none for thousands, like 1234.5"))
            }
            Reason::LargeFraction => f.write_str(said("the fraction must be below 1, like 8 1/4")),
            Reason::ZeroDenominator => {
                f.write_str(said("the number below the bar must be above 0, like 8 1/4"))
            }
            Reason::Exponent => f.write_str(said("write all digits out, like 1200")),
            Reason::NotWhole => say!(in f, "it must be a whole number, like {example}", example),
            Reason::TooLarge => say!(in f, "it is too large; write it like {example}", example),
            Reason::UnknownUnit(name) => {
                let units: Vec<_> =
                    row.symbols().map(|symbol| symbol.text).filter(|text| !text.is_empty()).collect();
                if units.is_empty() {
                    return say!(in f, "leave out “{name}”, like {example}", name, example);
                }
                say!(in f, "“{name}” is none of its units, ", name)?;
                write_list(f, &units)
            }
            Reason::Empty | Reason::Unreadable => say!(in f, "write it like {example}", example),
        }
    }
}

impl std::error::Error for ParseError {}

crate::language::say_displayed!(ParseError);

/// `mm, in or cm`, each once: some kinds show one symbol on both pages.
fn write_list(f: &mut fmt::Formatter<'_>, units: &[&'static str]) -> fmt::Result {
    for (place, unit) in units.iter().enumerate().filter(|(place, unit)| !units[..*place].contains(unit)) {
        let join = match place {
            0 => "",
            _ if place + 1 == units.len() => said(" or "),
            _ => ", ",
        };
        f.write_str(join)?;
        f.write_str(unit)?;
    }
    Ok(())
}
