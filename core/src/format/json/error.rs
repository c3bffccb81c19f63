//! Why a file is not read, in words that name the field, what was found, and the way out.

use super::NotJson;
use crate::{
    design::Refusal,
    language::{Own, said},
    outline::Fault,
    quantities::{self, Part},
    say,
};
use core::fmt;

/// Why a file or a script's object is no design.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum ReadError {
    /// The text is longer than any design.
    TooLong {
        /// Its length in bytes.
        found: usize,
        /// The longest that is read.
        most: usize,
    },
    /// The text is no JSON.
    NotJson {
        /// Where and why.
        reason: NotJson,
    },
    /// Values lie within values too deeply.
    TooDeep {
        /// The most levels that are read.
        most: usize,
    },
    /// It is JSON, but does not say that it is a design.
    NotADesign,
    /// A newer program wrote it, in a layout this one cannot know.
    Newer {
        /// The version it has.
        found: i64,
        /// The newest version that is read.
        known: i64,
    },
    /// A field holds something it cannot hold.
    Field {
        /// The field, as a script would write it: `shape.outline.nodes[3].x`.
        path: String,
        /// What is wrong with it.
        wrong: Wrong,
    },
    /// All fields can be read, but together they are no valid design.
    Refused {
        /// The field nearest to the fault.
        path: String,
        /// Why.
        refusal: Refusal,
    },
}

/// What is wrong with a field.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Wrong {
    /// It is not there.
    Missing,
    /// It holds another kind of value.
    Kind {
        /// What it holds.
        found: &'static str,
        /// What it must hold.
        expected: &'static str,
    },
    /// Its number has a fraction.
    NotWhole {
        /// The beginning of the number, as it is written.
        found: String,
    },
    /// Its number is too large either way.
    OutOfRange {
        /// The beginning of the number, as it is written.
        found: String,
        /// The largest accepted.
        most: i64,
    },
    /// Its word is not one of those that mean something there.
    Word {
        /// The beginning of the word.
        found: String,
        /// The words that do.
        known: Vec<&'static str>,
    },
    /// Its list has too many entries.
    TooMany {
        /// How many it has.
        found: usize,
        /// How many it may have.
        most: usize,
    },
}

impl ReadError {
    /// The field at fault, as a script would write it; empty where it is the whole file.
    #[must_use]
    pub fn field(&self) -> String {
        let field = match self {
            Self::Field { path, .. } | Self::Refused { path, .. } => path,
            Self::Newer { .. } => "version",
            Self::NotADesign => "format",
            Self::TooLong { .. } | Self::NotJson { .. } | Self::TooDeep { .. } => "",
        };
        field.to_owned()
    }

    /// A refusal of the shape or text at `prefix`, with the field it speaks of.
    pub(super) fn refused(prefix: &str, refusal: Refusal) -> Box<Self> {
        let field = match &refusal {
            Refusal::Outline(fault) => format!("shape.outline{}", place_in_outline(fault)),
            Refusal::OutOfRange { quantity, .. } => match quantities::find_setting(quantity.key) {
                Some(setting) if quantity.key == super::PER_PLY => {
                    format!("shape.{}.plies", setting.part.key())
                }
                Some(setting) => format!("shape.{}.{}", setting.part.key(), quantity.key),
                None => format!("shape.{}", Part::Outline.key()), // a measure: only the outline sets it
            },
            Refusal::PlyCount(_) => format!("shape.{}.plies", Part::Layup.key()),
            // In a version its texts are called after it.
            other => {
                let field = other.field();
                field.strip_prefix("version ").unwrap_or(field).to_owned()
            }
        };
        let path = if prefix.is_empty() { field } else { format!("{prefix}.{field}") };
        Box::new(Self::Refused { path, refusal })
    }
}

fn place_in_outline(fault: &Fault) -> String {
    match fault {
        Fault::NodeCount(_) => ".nodes".to_owned(),
        Fault::SpanCount { .. } => ".spans".to_owned(),
        Fault::OpenTip { node, .. } => format!(".nodes[{node}].y"),
        Fault::OffAmidships { .. } => ".nodes[0].x".to_owned(),
        Fault::NotFinite { node } | Fault::NodesTogether { node } => format!(".nodes[{node}]"),
        Fault::Sweeps { .. } => ".sweeps".to_owned(),
        Fault::ShortHandle { span, .. }
        | Fault::NoSweep { span }
        | Fault::Marks { span, .. }
        | Fault::Stretched { span, .. } => format!(".spans[{span}]"),
        _ => String::new(), // the rest is wrong with the curve, not with one of its numbers
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        const MIB: usize = 1 << 20;
        match self {
            Self::TooLong { found, most } => {
                say!(in f, "this file has {found} MB: a design has at most {most}", found = found.div_ceil(MIB), most = most / MIB)
            }
            Self::NotJson { reason } => {
                say!(in f, "this file is damaged or no design ({reason}): open one that was saved here", reason)
            }
            Self::TooDeep { most } => {
                say!(in f, "this file is nested too deeply (more than {most} levels): open one that was saved here", most)
            }
            Self::NotADesign => f.write_str(said("this file holds no deck: open one that was saved here")),
            Self::Newer { found, known } => {
                say!(in f, "this file was saved by a newer version of the page (format {found}, this one reads up to {known}): \
                 reload the page to get the newer version", found, known)
            }
            Self::Field { path, wrong } if path.is_empty() => say!(in f, "the file {wrong}", wrong),
            Self::Field { path, wrong } => write!(f, "{path} {wrong}"),
            Self::Refused { path, refusal } => write!(f, "{path}: {refusal}"),
        }
    }
}

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing => f.write_str(said("is missing: a design needs it")),
            Self::Kind { found, expected } => {
                say!(in f, "is {found}: it must be {expected}", found, expected)
            }
            Self::NotWhole { found } => {
                say!(in f, "is {found}: it must be a whole number, lengths in nm, angles in 1e-7 degree",
                    found
                )
            }
            Self::OutOfRange { found, most } => {
                say!(in f, "is {found}: at most {most} either way", found, most)
            }
            Self::Word { found, known } => {
                say!(in f, "is “{found}”: it must be ", found)?;
                for (i, word) in known.iter().enumerate() {
                    f.write_str(if i == 0 { "" } else { said(" or ") })?;
                    say!(in f, "“{word}”", word = Own(word))?;
                }
                Ok(())
            }
            Self::TooMany { found, most } => {
                say!(in f, "has {found} entries: at most {most}", found, most)
            }
        }
    }
}

crate::language::say_displayed!(ReadError, Wrong);

impl core::error::Error for ReadError {
    fn source(&self) -> Option<&(dyn core::error::Error + 'static)> {
        match self {
            Self::Refused { refusal, .. } => Some(refusal),
            _ => None,
        }
    }
}
