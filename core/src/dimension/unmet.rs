//! Why a typed dimension cannot be had, and what can be had instead.

use crate::{
    design::Refusal,
    language::{Own, said},
    quantities::Quantity,
    say,
    units::{self, System, Words, error_with_words},
};
use core::fmt;

/// Why a dimension is not met. Values are in the quantity's unit inside the core.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Unmet {
    /// No dimension has that key.
    Unknown(String),
    /// The shape has no such thing as the quantity measures.
    Absent {
        /// The quantity.
        quantity: &'static Quantity,
        /// Why there is none.
        why: &'static str,
    },
    /// The value lies beyond what the shape can be changed to.
    Beyond {
        /// The quantity.
        quantity: &'static Quantity,
        /// The value asked for.
        wanted: f64,
        /// The nearest value that can be met, on the way from the present one.
        nearest: f64,
        /// What stands in the way there.
        why: Obstacle,
    },
}

/// What stands in the way of a change.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Obstacle {
    /// The design beyond would be refused.
    Refused(Refusal),
    /// The quantity itself is none, or the change does not reach it.
    Words(&'static str),
}

impl Unmet {
    /// The quantity, where there is one.
    #[must_use]
    pub fn quantity(&self) -> Option<&'static Quantity> {
        match self {
            Self::Unknown(_) => None,
            Self::Absent { quantity, .. } | Self::Beyond { quantity, .. } => Some(quantity),
        }
    }

    /// The nearest value that can be met, where there is one.
    #[must_use]
    pub fn nearest(&self) -> Option<f64> {
        match self {
            Self::Beyond { nearest, .. } => Some(*nearest),
            Self::Unknown(_) | Self::Absent { .. } => None,
        }
    }
}

impl Words for Unmet {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        match self {
            Self::Unknown(key) => say!(in f, "there is no dimension called “{key}”", key = Own(key)),
            Self::Absent { quantity, why } => {
                say!(in f, "{label}: there is none to set ({why}), draw one first",
                    label = quantity.label,
                    why
                )
            }
            Self::Beyond { quantity, wanted, nearest, why } => {
                let (label, unit) = (quantity.label, quantity.unit);
                // In full, so that it can be typed as it stands.
                let is_wanted =
                    units::show(*nearest, unit, system).text == units::show(*wanted, unit, system).text;
                let nearest = units::entry(*nearest, unit, system);
                let symbol = units::entry_symbol(&nearest, unit, system);
                let space = if matches!(symbol, "" | "°") { "" } else { " " };
                let nearest = [&nearest, space, symbol].concat();
                if wanted.is_finite() {
                    let shown = |value| units::show(value, unit, system);
                    say!(in f, "{label} {wanted} cannot be met: ", label, wanted = shown(*wanted))?;
                    match why {
                        // Its own limit, which the search comes upon a hair beyond.
                        Obstacle::Refused(Refusal::OutOfRange { quantity: limited, least, most, .. })
                            if limited.key == quantity.key =>
                        {
                            say!(in f, "it may be {least} to {most}",
                                least = shown(*least),
                                most = shown(*most)
                            )?;
                        }
                        _ => why.words(f, system)?,
                    }
                    if is_wanted {
                        // To the eye it is what was asked for: no answer to that.
                        f.write_str(said("; let go of a lock, or ask for less"))
                    } else {
                        say!(in f, "; the nearest is {nearest}", nearest)
                    }
                } else {
                    say!(in f, "{label} is not a number: it stays {nearest}", label, nearest)
                }
            }
        }
    }
}

impl Words for Obstacle {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        match self {
            Self::Refused(refusal) => refusal.words(f, system),
            Self::Words(words) => f.write_str(said(words)),
        }
    }
}

error_with_words!(Obstacle);

error_with_words!(Unmet);
