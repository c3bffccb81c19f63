//! Quantities as text: rounded for the eye, or exact for the field that edits them.

#[cfg(test)]
mod tests;

use super::number::{decimal_trimmed, grouped, whole, with_point};
use super::{Denominator, MOST_GRAINS, NM_PER_INCH, System, Unit, kind::Symbol, parse, stored};
use crate::{language::figure, tolerance};
use std::fmt;

/// A quantity as shown; `Display` joins number and unit: `8 1/4 in`, `12.1°`, `75.9 %`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The number: `812.8`, `8 1/4`, `≈ 8 9/32`, `−0.4`, `1 236.9`; `–` for a value that does not exist.
    ///
    /// The minus is U+2212, thousands are set apart by U+202F (never in lengths), the digits after the point are of a fixed
    /// number for each unit, so that columns stand still.
    pub text: String,
    /// The symbol of its unit; empty for plain numbers.
    pub unit: &'static str,
    /// Whether the text says the stored value in full. A fraction of an inch that does not begins with `≈ `.
    pub exact: bool,
}

impl Shown {
    /// What stands between number and unit.
    pub(crate) fn space(&self) -> &'static str {
        if self.unit.is_empty() || self.unit == "°" { "" } else { " " }
    }
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)?;
        f.write_str(self.space())?;
        f.write_str(self.unit)
    }
}

/// A value for the eye, rounded half away from zero on its grain: 209.55 mm is `209.6 mm`, `8 1/4 in`.
///
/// Non-finite values, and those beyond 1e15 grains, are shown as `–` without a unit.
pub fn show(value: f64, unit: Unit, system: System) -> Shown {
    round(value, unit, system).map_or_else(none, |rounded| {
        let sign = if rounded.is_zero() || !rounded.negative { "" } else { "−" };
        rounded.signed(sign)
    })
}

/// A difference for the eye: `+ 3.2`, `− 0.4`, and `± 0` where it rounds to nothing at the precision shown.
pub fn show_difference(delta: f64, unit: Unit, system: System) -> Shown {
    round(delta, unit, system).map_or_else(none, |mut rounded| {
        if rounded.is_zero() {
            rounded.digits = "0".to_owned();
            rounded.marked = false;
            return rounded.signed("± ");
        }
        let sign = if rounded.negative { "− " } else { "+ " };
        rounded.signed(sign)
    })
}

/// The shortest text that [`parse`] reads back as exactly the stored value, for the field that edits it.
///
/// `209.55` on a metric page. In inches a fraction where it is one (to 1/64), else decimal inches or, where that is shorter,
/// the metric figure with its unit: `8 1/4`, `8.2578125`, `210 mm`. Has an ASCII minus, as the keyboard does. Empty for a value
/// that [`show`] shows as `–`.
pub fn entry(value: f64, unit: Unit, system: System) -> String {
    let grains = stored(value, unit) as f64;
    if !value.is_finite() || grains.abs() > MOST_GRAINS {
        return String::new();
    }
    if unit == Unit::Length && system != System::Millimetres {
        let rounded = Rounded::fraction(grains, Denominator::SixtyFourths);
        if rounded.exact {
            return format!("{}{}", if grains < 0.0 { "-" } else { "" }, rounded.digits);
        }
    }
    let row = unit.row();
    let here = shortest(grains, &row.page(system)[0], "", unit, system);
    let metric = &row.metric[0];
    if metric.text == unit.symbol(system) {
        return figure(here.unwrap_or_default());
    }
    let there = shortest(grains, metric, &format!(" {}", metric.text), unit, system);
    figure(match (here, there) {
        (Some(here), Some(there)) if there.chars().count() < here.chars().count() => there,
        (here, there) => here.or(there).unwrap_or_default(),
    })
}

/// The symbol to set beside a text of [`entry`]: the page's, none where the text has its own.
///
/// In inches `160 mm` has none, `8 1/4` has `in`.
pub fn entry_symbol(text: &str, unit: Unit, system: System) -> &'static str {
    let (here, metric) = (unit.symbol(system), unit.symbol(System::Millimetres));
    if here != metric && !metric.is_empty() && text.ends_with(metric) { "" } else { here }
}

/// The text of a field for a value that a hand on the drawing has set or that is measured, which may have more digits than
/// anyone types: rounded to 0.01 of its unit, in inches to a fraction, without a mark where it is not exact, so that what
/// is left of it after a change can be read. Within 1 µm of a 64th it is that 64th.
///
/// What it leaves out is never fed back: a field that is left as it was changes nothing.
pub fn rounded_entry(value: f64, unit: Unit, system: System) -> String {
    const PLACES: u8 = 2;
    let grains = stored(value, unit) as f64;
    match system {
        System::Inches { denominator } if unit.is_length() => {
            // What was typed is met to half a micrometre: a 64th that comes back a hair off is that 64th still.
            let sixty_fourth = NM_PER_INCH / 64.0;
            let nearest = (grains / sixty_fourth).round() * sixty_fourth;
            let is_near = (grains - nearest).abs() <= tolerance::SIXTY_FOURTH_NM;
            let finest = if is_near { Denominator::SixtyFourths } else { denominator };
            let fraction = Rounded::fraction(grains, finest);
            let sign = if fraction.is_zero() || !fraction.negative { "" } else { "-" };
            format!("{sign}{}", fraction.digits)
        }
        _ => figure(decimal_trimmed(grains / unit.row().page(system)[0].grains, PLACES)),
    }
}

/// The fewest decimals of a symbol that parse back to the same grains. A metric symbol has them: it is a power of ten of
/// grains. One of inches may need more digits than are written.
fn shortest(grains: f64, symbol: &Symbol, suffix: &str, unit: Unit, system: System) -> Option<String> {
    // A grain is at least 1e-10 of every symbol; two digits more tell neighbours apart after rounding.
    const MOST_PLACES: u8 = 12;
    let write = |places| decimal_trimmed(grains / symbol.grains, places) + suffix;
    let same =
        |text: &String| parse(text, unit, system).is_ok_and(|value| stored(value, unit) == whole(grains));
    (0..=MOST_PLACES).map(write).find(same)
}

fn none() -> Shown {
    Shown { text: "–".to_owned(), unit: "", exact: false }
}

/// A value rounded to what is shown, before its sign.
struct Rounded {
    negative: bool,
    digits: String,
    unit: &'static str,
    exact: bool,
    /// Whether it must be marked when it is not exact: a decimal is known to be rounded, a fraction looks exact.
    marked: bool,
}

/// None where there is nothing to show.
fn round(value: f64, unit: Unit, system: System) -> Option<Rounded> {
    let grains = stored(value, unit) as f64;
    if !value.is_finite() || grains.abs() > MOST_GRAINS {
        return None;
    }
    Some(match system {
        System::Inches { denominator } if unit == Unit::Length => Rounded::fraction(grains, denominator),
        _ => Rounded::decimal(grains, unit, system),
    })
}

impl Rounded {
    fn decimal(grains: f64, unit: Unit, system: System) -> Self {
        let symbols = unit.row().page(system);
        let large = symbols.iter().rev().find(|symbol| grains.abs() >= symbol.grains);
        let symbol = large.unwrap_or(&symbols[0]);
        let scale = 10_f64.powi(i32::from(symbol.places));
        // Both factors are whole numbers in metric units, so a half is a half and not a neighbour of it.
        let scaled = (grains * scale / symbol.grains).round();
        let digits = with_point(scaled, symbol.places);
        Self {
            negative: grains < 0.0,
            digits: figure(if unit.is_length() { digits } else { grouped(&digits) }),
            unit: symbol.text,
            exact: whole(scaled * symbol.grains / scale) == whole(grains),
            marked: false,
        }
    }

    fn fraction(grains: f64, denominator: Denominator) -> Self {
        let denominator = i64::from(denominator.get());
        let part = NM_PER_INCH / denominator as f64;
        let parts = whole((grains / part).abs());
        let (inches, top) = (parts / denominator, parts % denominator);
        // The denominator is a power of two, so its common factor with the top is the top's lowest bit.
        let common = top & -top;
        let digits = match (inches, top) {
            (_, 0) => inches.to_string(),
            (0, _) => format!("{}/{}", top / common, denominator / common),
            _ => format!("{inches} {}/{}", top / common, denominator / common),
        };
        let exact = parts * whole(part) == whole(grains.abs());
        Self { negative: grains < 0.0, digits, unit: "in", exact, marked: !exact }
    }

    fn is_zero(&self) -> bool {
        !self.digits.contains(|digit: char| ('1'..='9').contains(&digit))
    }

    fn signed(self, sign: &str) -> Shown {
        let mark = if self.marked { "≈ " } else { "" };
        Shown { text: format!("{mark}{sign}{}", self.digits), unit: self.unit, exact: self.exact }
    }
}
