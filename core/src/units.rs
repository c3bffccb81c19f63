//! Quantities as people read and type them: the one place that knows inches, fractions, unit symbols and decimals.
//!
//! Inside the core a quantity is a plain `f64` in the unit that [`Unit`] names (mm, radians, g, N, MPa); text exists
//! only at the edge. Three forms are kept apart:
//!
//! * **stored**: a whole number of *grains* ([`stored`], [`from_stored`]): nanometres, ten-millionths of a degree, millionths
//!   of the metric unit for the rest. Every µm and every 1/64 in is whole, so file, link and undo are identities.
//! * **typed**: [`parse`] reads it and answers with a value on a grain; [`entry`] writes the text that parses back to it.
//! * **shown**: [`show`] rounds for the eye, and [`rounded_entry`] for a field. A shown figure is never read back.
//!
//! ```
//! use halfbreadth_core::units::{self, System, Unit};
//!
//! let inches = System::Inches { denominator: units::Denominator::ThirtySeconds };
//! let width = units::parse("8 1/4", Unit::Length, inches)?;
//! assert_eq!(units::nm(width), 209_550_000);
//! assert_eq!(units::show(width, Unit::Length, inches).to_string(), "8 1/4 in");
//! assert_eq!(units::show(width, Unit::Length, System::Millimetres).to_string(), "209.6 mm");
//! assert_eq!(units::entry(width, Unit::Length, System::Millimetres), "209.55");
//! # Ok::<(), units::ParseError>(())
//! ```

mod kind;
mod number;
mod parse;
mod show;
#[cfg(test)]
mod tests;
mod words;

pub use kind::Unit;
pub use number::{decimal, decimal_trimmed, push_whole};
pub(crate) use parse::common_fraction;
pub use parse::{LONGEST, ParseError, Reason, parse};
pub use show::{Shown, entry, entry_symbol, rounded_entry, show, show_difference};
pub use words::Words;
pub(crate) use words::error_with_words;

/// Nanometres in an inch: exact by definition (25.4 mm).
const NM_PER_INCH: f64 = 25_400_000.0;

/// The largest count of grains that is read or shown. Up to it the two roundings of [`from_stored`] and [`stored`] stay
/// below half a grain together (0.22); in lengths it is 1,000 km.
const MOST_GRAINS: f64 = 1e15;

/// Points of a printed page, 1/72 in, in a millimetre.
pub const POINTS_PER_MM: f64 = 72.0 * 1e6 / NM_PER_INCH;

/// The length of so many inches, in mm.
#[must_use]
pub fn inches(count: f64) -> f64 {
    whole_nm(count * NM_PER_INCH / 1e6)
}

/// The units of a page: what a number without a unit means, and how quantities are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum System {
    /// Metric: lengths in decimal millimetres.
    #[default]
    Millimetres,
    /// The inch system: lengths in inches and common fractions.
    Inches {
        /// The finest fraction shown.
        denominator: Denominator,
    },
}

/// The finest fraction of an inch that is shown; typing may always be finer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Denominator {
    /// Sixteenths: shown lengths are up to 0.79 mm off.
    Sixteenths,
    /// Thirty-seconds: up to 0.40 mm off.
    #[default]
    ThirtySeconds,
    /// Sixty-fourths: up to 0.20 mm off.
    SixtyFourths,
}

impl Denominator {
    /// The number below the bar: 16, 32 or 64.
    pub fn get(self) -> u8 {
        match self {
            Self::Sixteenths => 16,
            Self::ThirtySeconds => 32,
            Self::SixtyFourths => 64,
        }
    }
}

/// The size of one nudge by key or button.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Step {
    /// To get near: 5 mm or 1/4 in.
    Coarse,
    /// The usual one: 0.5 mm or 1/32 in.
    #[default]
    Normal,
    /// To finish: 0.1 mm or 1/64 in.
    Fine,
}

/// The length of one nudge, in mm.
///
/// A step of inches is no whole number of millimetre steps, so each system has its own.
pub fn step(system: System, step: Step) -> f64 {
    match (system, step) {
        (System::Millimetres, Step::Coarse) => 5.0,
        (System::Millimetres, Step::Normal) => 0.5,
        (System::Millimetres, Step::Fine) => 0.1,
        (System::Inches { .. }, Step::Coarse) => 25.4 / 4.0,
        (System::Inches { .. }, Step::Normal) => 25.4 / 32.0,
        (System::Inches { .. }, Step::Fine) => 25.4 / 64.0,
    }
}

/// A pointer position in mm, rounded to 0.01 mm or 1/256 in (0.099 mm), then to whole nanometres.
///
/// Both are finer than a pointer can be aimed and coarse enough for a short figure in the field afterwards.
pub fn snap_pointer(mm: f64, system: System) -> f64 {
    let step = match system {
        System::Millimetres => 10_000.0,
        System::Inches { .. } => NM_PER_INCH / 256.0,
    };
    whole_nm((mm * 1e6 / step).round() * step / 1e6)
}

/// A length in mm rounded to whole nanometres, half away from zero; never −0.
///
/// The answer is the `f64` nearest to the decimal figure: 1/64 in gives the same bits as the literal `0.396875`. Non-finite
/// values pass through, so that they are refused where a design is made.
pub fn whole_nm(mm: f64) -> f64 {
    (mm * 1e6).round() / 1e6 + 0.0
}

/// A length in mm as whole nanometres: [`stored`] for [`Unit::Length`].
pub fn nm(mm: f64) -> i64 {
    stored(mm, Unit::Length)
}

/// Whole nanometres as a length in mm: [`from_stored`] for [`Unit::Length`].
pub fn from_nm(nm: i64) -> f64 {
    from_stored(nm, Unit::Length)
}

/// An angle in radians rounded to whole ten-millionths of a degree; 0 for NaN.
///
/// The answer has the same bits as `f64::to_radians` of the decimal figure: 12° gives `12_f64.to_radians()`.
pub fn whole_angle(angle: f64) -> f64 {
    from_tenmillionths_deg(tenmillionths_deg(angle))
}

/// An angle in radians as whole ten-millionths of a degree: [`stored`] for [`Unit::Angle`].
pub fn tenmillionths_deg(angle: f64) -> i64 {
    stored(angle, Unit::Angle)
}

/// Whole ten-millionths of a degree as an angle in radians: [`from_stored`] for [`Unit::Angle`].
pub fn from_tenmillionths_deg(tenmillionths: i64) -> f64 {
    from_stored(tenmillionths, Unit::Angle)
}

/// A value as the whole number of grains of its kind, rounded half away from zero.
///
/// Saturates beyond `i64` and is 0 for NaN; a caller that may hold such a value asks `is_finite` first.
pub fn stored(value: f64, unit: Unit) -> i64 {
    let value = if unit == Unit::Angle { value.to_degrees() } else { value };
    number::whole(value * unit.row().grains)
}

/// A value rounded to a whole number of grains of its kind; 0 for NaN.
pub fn whole(value: f64, unit: Unit) -> f64 {
    from_stored(stored(value, unit), unit)
}

/// The value of a whole number of grains: the inverse of [`stored`] for every |`grains`| up to 1e15, in angles up to 1e14.
pub fn from_stored(grains: i64, unit: Unit) -> f64 {
    let value = grains as f64 / unit.row().grains;
    if unit == Unit::Angle { value.to_radians() } else { value }
}
