//! Every quantity a person sets or reads, one row each: key, label, unit, help, and how to get or set it.
//!
//! The page, the files, the link and the script interface take their names, limits and texts from these two tables
//! and from nowhere else.

mod measures;
mod settings;

pub use self::{measures::MEASURES, settings::SETTINGS};
use crate::{
    design::{Refusal, Shape},
    measure::Measured,
    outline::{Half, resolve},
    tolerance,
    units::Unit,
};

/// What a quantity is called and how it is shown.
#[derive(Debug, PartialEq)]
pub struct Quantity {
    /// Its name in files, scripts and the page's hooks: kebab-case, for ever.
    pub key: &'static str,
    /// Its name on screen.
    pub label: &'static str,
    /// Its definition, for whoever asks what it is.
    pub help: &'static str,
    /// The kind of number it is.
    pub unit: Unit,
}

/// A quantity that a person sets and a shape stores.
#[derive(Debug)]
pub struct Setting {
    /// What it is.
    pub quantity: Quantity,
    /// Which part of the shape holds it.
    pub part: Part,
    /// Where its default and its limits come from.
    pub source: &'static str,
    /// Smallest value accepted.
    pub least: f64,
    /// Largest value accepted.
    pub most: f64,
    /// Reads it.
    pub get: fn(&Shape) -> f64,
    /// Writes it.
    pub set: fn(&mut Shape, f64),
}

/// The part of a shape a setting lives in, and in which a file stores it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The bolt holes.
    Datum,
    /// The outline.
    Outline,
    /// The pressed shape.
    Profile,
    /// Plies, blank and glue.
    Layup,
}

/// A quantity that is read off a shape.
#[derive(Debug)]
pub struct Measure {
    /// What it is.
    pub quantity: Quantity,
    /// Which group it is listed in.
    pub group: Group,
    /// Computes it.
    pub read: fn(&Measured) -> Reading,
}

/// The heading a measure is listed under.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// Size of the whole deck.
    Whole,
    /// Rails and waist.
    Rail,
    /// The nose.
    Nose,
    /// The tail.
    Tail,
    /// Bends and fairness of the edge.
    Edge,
    /// Glue.
    Glue,
}

/// A value read off a shape, or the reason why the shape has none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The value in the unit used inside the core; `None` is *none*, never 0 or NaN.
    pub value: Option<f64>,
    /// Why there is none, or what else there is to say; may be empty.
    pub remark: &'static str,
}

impl Group {
    /// All groups in the order they are listed.
    pub const ALL: [Self; 6] = [Self::Whole, Self::Rail, Self::Nose, Self::Tail, Self::Edge, Self::Glue];

    /// Its heading.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Whole => "Whole deck",
            Self::Rail => "Rails and waist",
            Self::Nose => "Nose",
            Self::Tail => "Tail",
            Self::Edge => "Edge",
            Self::Glue => "Glue",
        }
    }
}

impl Part {
    /// All parts in the order they are listed.
    pub const ALL: [Self; 4] = [Self::Datum, Self::Outline, Self::Profile, Self::Layup];

    /// Its heading.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Datum => "Bolt holes",
            Self::Outline => "Straight rail",
            Self::Profile => "Pressed shape",
            Self::Layup => "Blank and glue",
        }
    }

    /// Its key in a file.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Datum => "datum",
            Self::Outline => "outline",
            Self::Profile => "profile",
            Self::Layup => "layup",
        }
    }
}

impl Reading {
    /// A value with nothing to add.
    #[must_use]
    pub const fn of(value: f64) -> Self {
        Self { value: Some(value), remark: "" }
    }

    /// No value, and why.
    #[must_use]
    pub const fn none(why: &'static str) -> Self {
        Self { value: None, remark: why }
    }

    fn or_none(value: Option<f64>, why: &'static str) -> Self {
        value.map_or(Self::none(why), Self::of)
    }
}

impl Quantity {
    /// Checks a value of this quantity against its limits.
    ///
    /// # Errors
    ///
    /// [`Refusal::OutOfRange`], also for what is not a number.
    pub fn check(&'static self, found: f64, least: f64, most: f64) -> Result<(), Refusal> {
        // A limit typed in inches may miss its millimetres by a rounding.
        let slack = tolerance::PARAMETER;
        if found >= least - slack && found <= most + slack {
            Ok(())
        } else {
            Err(Refusal::OutOfRange { quantity: self, found, least, most })
        }
    }
}

impl Setting {
    /// Checks a value against the limits of this setting.
    ///
    /// # Errors
    ///
    /// [`Refusal::OutOfRange`].
    pub fn check(&'static self, found: f64) -> Result<(), Refusal> {
        self.quantity.check(found, self.least, self.most)
    }
}

/// The setting with that key.
///
/// # Panics
///
/// Where there is none: keys in code are literals, and a test asks for every one.
#[must_use]
pub fn setting(key: &str) -> &'static Setting {
    find_setting(key).expect("the key is a literal that stands in the table")
}

/// The setting with that key, where there is one.
#[must_use]
pub fn find_setting(key: &str) -> Option<&'static Setting> {
    SETTINGS.iter().find(|setting| setting.quantity.key == key)
}

/// The measure with that key, where there is one.
#[must_use]
pub fn find_measure(key: &str) -> Option<&'static Measure> {
    MEASURES.iter().find(|measure| measure.quantity.key == key)
}

/// Checks the size of the deck: the hard limits of what this page draws (common practice, no source).
pub(crate) fn check_extent(shape: &Shape, half: &Half) -> Result<(), Refusal> {
    let (mut tail, mut nose, mut top) = (f64::INFINITY, f64::NEG_INFINITY, 0.0_f64);
    for piece in half.pieces() {
        let extent = resolve::extent(&piece.curve);
        (tail, nose, top) = (tail.min(extent.x0), nose.max(extent.x1), top.max(extent.y1));
    }
    let outer = shape.datum.outer_row();
    let limits = [
        ("overall-length", nose - tail, 400.0, 1500.0),
        ("overall-width", 2.0 * top, 120.0, 320.0),
        ("nose-kick-length", nose - outer, 30.0, 300.0),
        ("tail-kick-length", -tail - outer, 30.0, 300.0),
    ];
    limits.into_iter().try_for_each(|(key, found, least, most)| {
        find_measure(key).map_or(Ok(()), |measure| measure.quantity.check(found, least, most))
    })
}

#[cfg(test)]
mod tests;
