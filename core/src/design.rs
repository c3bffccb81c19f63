//! The design: the one value a maker owns. Everything on screen, in a file or on paper is derived from it.

mod bench;

use crate::{
    datum::Datum,
    dimension::{self, Lock, Unmet},
    language::said,
    layup::Layup,
    outline::{self, Fault, Half, Outline, StrokeError},
    profile::Profile,
    quantities::{self, Quantity},
    say, text,
    units::{self, System, Words, error_with_words},
    workshop::{Inputs, record::Record},
};
use core::fmt;
use std::sync::Arc;

/// A named deck with its shape, its maker's notes and its earlier shapes.
///
/// Immutable and always valid: it can only be had through [`Design::new`] and [`Design::apply`]. Numbers are whole
/// nanometres and whole ten-millionths of a degree, so that file, link and undo are identities.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    name: String,
    notes: String,
    shape: Arc<Shape>,
    locks: Vec<Lock>,
    workshop: Arc<Inputs>,
    records: Vec<Record>,
    versions: Vec<Version>,
}

/// All that makes the deck: what a version keeps and a link carries.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// The bolt holes.
    pub datum: Datum,
    /// The half outline, on the developed sheet.
    pub outline: Outline,
    /// How far the edge may leave its highest point and still count as straight rail, mm.
    pub rail_tolerance: f64,
    /// The pressed shape.
    pub profile: Profile,
    /// The plies, the blank and the glue.
    pub layup: Layup,
}

/// An earlier shape, kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Version {
    /// What the maker calls it.
    pub name: String,
    /// What the maker noted about it.
    pub note: String,
    /// The day it was kept, as YYYY-MM-DD; it comes in from outside, `core` has no clock.
    pub date: String,
    /// The shape as it was.
    pub shape: Arc<Shape>,
}

/// Why a value is not accepted into a design.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Refusal {
    /// The outline is not one.
    Outline(Fault),
    /// A quantity lies outside its hard limits.
    OutOfRange {
        /// The quantity.
        quantity: &'static Quantity,
        /// The value found, in the quantity's unit inside the core.
        found: f64,
        /// Smallest value accepted.
        least: f64,
        /// Largest value accepted.
        most: f64,
    },
    /// A text is too long.
    TextTooLong {
        /// Which text.
        field: &'static str,
        /// Its length in characters.
        found: usize,
        /// The most characters it may have.
        most: usize,
    },
    /// There are too many of something.
    TooMany {
        /// What there is too much of.
        what: &'static str,
        /// How many were found.
        found: usize,
        /// The most there may be.
        most: usize,
    },
    /// The layup has too few plies or too many.
    PlyCount(usize),
    /// A stroke cannot take the place of a stretch.
    Stroke(StrokeError),
    /// A dimension, typed or locked, cannot be met.
    Unmet(Box<Unmet>),
    /// An edit names a node, span or quantity that the design does not have.
    NoSuch(&'static str),
    /// An edit cannot be done on this shape; the text says why and what can be done instead.
    Impossible(&'static str),
}

impl Design {
    /// Most characters of a name.
    pub const LONGEST_NAME: usize = 80;
    /// Most characters of the notes, and of the note to a version.
    pub const LONGEST_NOTES: usize = 10_000;
    /// Most versions kept in one design.
    pub const MOST_VERSIONS: usize = 200;

    /// The one door for designs: cleans the texts, rounds the numbers, checks everything.
    ///
    /// # Errors
    ///
    /// The first [`Refusal`] found.
    pub fn new(name: &str, notes: &str, shape: Shape, versions: Vec<Version>) -> Result<Self, Refusal> {
        if versions.len() > Self::MOST_VERSIONS {
            let found = versions.len();
            return Err(Refusal::TooMany { what: "versions", found, most: Self::MOST_VERSIONS });
        }
        let versions = versions.into_iter().map(Version::checked).collect::<Result<_, _>>()?;
        Ok(Self {
            name: text::line("name", name, Self::LONGEST_NAME)?,
            notes: text::lines("notes", notes, Self::LONGEST_NOTES)?,
            shape: Arc::new(shape.checked()?.0),
            locks: Vec::new(),
            workshop: Arc::default(),
            records: Vec::new(),
            versions,
        })
    }

    /// What the deck is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The maker's notes.
    #[must_use]
    pub fn notes(&self) -> &str {
        &self.notes
    }

    /// The shape as it is now.
    #[must_use]
    pub fn shape(&self) -> &Shape {
        &self.shape
    }

    /// Dimensions that stay while the rest is edited.
    #[must_use]
    pub fn locks(&self) -> &[Lock] {
        &self.locks
    }

    /// The design with other locks. They hold from the next edit on; values are rounded to what a design stores.
    ///
    /// # Errors
    ///
    /// [`Refusal::Unmet`] where a key is no dimension's, [`Refusal::OutOfRange`] where a value is no number.
    pub fn with_locks(&self, locks: Vec<Lock>) -> Result<Self, Refusal> {
        let mut kept: Vec<Lock> = Vec::new();
        for Lock { key, value } in locks {
            let dimension = dimension::find(key)
                .ok_or_else(|| Refusal::Unmet(Box::new(Unmet::Unknown(key.to_owned()))))?;
            let quantity = dimension.quantity();
            quantity.check(value, -LARGEST_LOCK, LARGEST_LOCK)?;
            let value = units::from_stored(units::stored(value, quantity.unit), quantity.unit);
            kept.retain(|lock| lock.key != dimension.key);
            kept.push(Lock { key: dimension.key, value });
        }
        Ok(Self { locks: kept, ..self.clone() })
    }

    /// Earlier shapes, oldest first.
    #[must_use]
    pub fn versions(&self) -> &[Version] {
        &self.versions
    }

    /// The part a link carries: name, shape and the workshop's numbers without prices; no notes, no locks, no records, no
    /// versions, and no sweeps that are not laid.
    #[must_use]
    pub fn shared(&self) -> Self {
        let outline = self.shape.outline.with_used_sweeps();
        Self {
            notes: String::new(),
            locks: Vec::new(),
            workshop: Arc::new(self.workshop.without_prices()),
            records: Vec::new(),
            versions: Vec::new(),
            shape: Arc::new(Shape { outline, ..Shape::clone(&self.shape) }),
            name: self.name.clone(),
        }
    }

    /// The design with another shape.
    ///
    /// # Errors
    ///
    /// The [`Refusal`] of that shape.
    pub fn with_shape(&self, shape: Shape) -> Result<Self, Refusal> {
        Ok(self.with_shape_resolved(shape)?.0)
    }

    /// The design with another shape, and the half outline that shape resolves to.
    ///
    /// # Errors
    ///
    /// As [`Self::with_shape`].
    pub(crate) fn with_shape_resolved(&self, shape: Shape) -> Result<(Self, Half), Refusal> {
        let (shape, half) = shape.checked()?;
        Ok((Self { shape: Arc::new(shape), ..self.clone() }, half))
    }

    /// The design under another name.
    ///
    /// # Errors
    ///
    /// [`Refusal::TextTooLong`].
    pub fn renamed(&self, name: &str) -> Result<Self, Refusal> {
        Ok(Self { name: text::line("name", name, Self::LONGEST_NAME)?, ..self.clone() })
    }

    /// The design with its present shape kept as one more version.
    ///
    /// # Errors
    ///
    /// [`Refusal::TooMany`], [`Refusal::TextTooLong`].
    pub fn with_version(&self, name: &str, date: &str) -> Result<Self, Refusal> {
        let found = self.versions.len() + 1;
        if found > Self::MOST_VERSIONS {
            return Err(Refusal::TooMany { what: "versions", found, most: Self::MOST_VERSIONS });
        }
        let kept = Version {
            name: name.to_owned(),
            note: String::new(),
            date: date.to_owned(),
            shape: Arc::clone(&self.shape),
        };
        let mut design = self.clone();
        design.versions.push(kept.checked()?);
        Ok(design)
    }

    /// The design with the words of a version changed.
    ///
    /// # Errors
    ///
    /// [`Refusal::NoSuch`], [`Refusal::TextTooLong`].
    pub fn with_version_changed(&self, index: usize, change: &dyn Fn(&mut Version)) -> Result<Self, Refusal> {
        let mut version = self.versions.get(index).ok_or(Refusal::NoSuch("version"))?.clone();
        change(&mut version);
        let mut design = self.clone();
        design.versions[index] = version.checked()?;
        Ok(design)
    }

    /// The design with a version's shape as the present one; all versions stay, and so do sweeps kept since, as far as
    /// there is room for them.
    ///
    /// # Errors
    ///
    /// [`Refusal::NoSuch`].
    pub fn gone_back_to(&self, index: usize) -> Result<Self, Refusal> {
        let version = self.versions.get(index).ok_or(Refusal::NoSuch("version"))?;
        let mut shape = Arc::clone(&version.shape);
        for sweep in &self.shape.outline.sweeps {
            if !shape.outline.sweeps.contains(sweep)
                && let Ok(outline) = shape.outline.with_sweep(sweep.clone())
            {
                shape = Arc::new(Shape { outline, ..Shape::clone(&shape) });
            }
        }
        Ok(Self { shape, ..self.clone() })
    }

    /// The design with other notes.
    ///
    /// # Errors
    ///
    /// [`Refusal::TextTooLong`].
    pub fn annotated(&self, notes: &str) -> Result<Self, Refusal> {
        Ok(Self { notes: text::lines("notes", notes, Self::LONGEST_NOTES)?, ..self.clone() })
    }
}

impl Version {
    fn checked(self) -> Result<Self, Refusal> {
        Ok(Self {
            name: text::line("version name", &self.name, Design::LONGEST_NAME)?,
            note: text::lines("version note", &self.note, Design::LONGEST_NOTES)?,
            date: text::line("version date", &self.date, Design::LONGEST_NAME)?,
            shape: Arc::new(Shape::clone(&self.shape).checked()?.0),
        })
    }
}

/// The largest value of any lock, in mm: no deck is longer.
const LARGEST_LOCK: f64 = 5000.0;

/// Least width, mm, that a flat strip leaves for the two arcs of the concave beside it (common practice, no source).
const NARROWEST_ARCS: f64 = 60.0;

impl Shape {
    /// Rounds every number to what a design stores and checks it against its limits; beside it what its outline resolves to.
    fn checked(mut self) -> Result<(Self, Half), Refusal> {
        let plies = self.layup.plies.len();
        if !Layup::PLY_COUNT.contains(&plies) {
            return Err(Refusal::PlyCount(plies));
        }
        for ply in &mut self.layup.plies {
            ply.thickness = units::whole_nm(ply.thickness);
        }
        for setting in quantities::SETTINGS {
            let unit = setting.quantity.unit;
            let found = (setting.get)(&self);
            let stored = units::from_stored(units::stored(found, unit), unit);
            setting.check(stored)?;
            // A setting may stand for several values (all plies): only what must be rounded is written.
            if stored.to_bits() != found.to_bits() {
                (setting.set)(&mut self, stored);
            }
        }
        let strip = quantities::setting("flat-strip");
        let rest = self.profile.concave_width - NARROWEST_ARCS;
        strip.quantity.check(self.profile.flat_strip, strip.least, rest)?;
        for ply in &self.layup.plies {
            quantities::setting("ply-thickness").check(ply.thickness)?;
        }
        outline::check_form(&self.outline).map_err(Refusal::Outline)?;
        self.outline.settle();
        let half = outline::check(&self.outline, &self.datum).map_err(Refusal::Outline)?;
        quantities::check_extent(&self, &half)?;
        Ok((self, half))
    }
}

impl Refusal {
    /// The key of the field at fault, as the page and the script interface name it.
    #[must_use]
    pub fn field(&self) -> &'static str {
        match self {
            Self::Outline(_) | Self::Stroke(_) | Self::Impossible(_) => "outline",
            Self::OutOfRange { quantity, .. } => quantity.key,
            Self::TextTooLong { field, .. } => field,
            Self::TooMany { what, .. } => what,
            Self::PlyCount(_) => "plies",
            Self::Unmet(unmet) => unmet.quantity().map_or("dimension", |quantity| quantity.key),
            Self::NoSuch(what) => what,
        }
    }
}

impl Words for Refusal {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        match self {
            Self::Outline(fault) => fault.words(f, system),
            Self::Stroke(error) => error.words(f, system),
            Self::Unmet(unmet) => unmet.words(f, system),
            Self::OutOfRange { quantity, found, least, most } => {
                let show = |value: f64| units::show(value, quantity.unit, system);
                let label = quantity.label;
                let (limit, words, passed) = if found < least {
                    (show(*least), "at least", "small")
                } else if found > most {
                    (show(*most), "at most", "large")
                } else {
                    return say!(in f, "{label} is not a number (from {least} to {most})",
                        label,
                        least = show(*least),
                        most = show(*most)
                    );
                };
                let found = show(*found);
                if found.text == limit.text {
                    // A search comes upon a limit a hair beyond it: the figure would contradict itself.
                    say!(in f, "{label} goes no further: {words} {limit}", label, words, limit)
                } else {
                    say!(in f, "{label} {found} is too {passed} ({words} {limit})",
                        label,
                        found,
                        passed,
                        words,
                        limit
                    )
                }
            }
            Self::TextTooLong { field, found, most } => {
                say!(in f, "the {field} has {found} characters: at most {most}", field, found, most)
            }
            Self::TooMany { what, found, most } => {
                say!(in f, "{found} {what}: at most {most}", found, what, most)
            }
            Self::PlyCount(found) => say!(in f, "{found} plies: lay up {least} to {most}",
                found,
                least = Layup::PLY_COUNT.start(),
                most = Layup::PLY_COUNT.end()
            ),
            Self::NoSuch(what) => say!(in f, "there is no such {what}", what),
            Self::Impossible(why) => f.write_str(said(why)),
        }
    }
}

error_with_words!(Refusal);
