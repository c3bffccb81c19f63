//! Typed text read as a quantity: fractions, feet and inches, either decimal mark, and the signs of other keyboards.

mod error;
#[cfg(test)]
mod tests;

pub use error::{ParseError, Reason};

use super::{MOST_GRAINS, NM_PER_INCH, System, Unit, from_stored, kind::Symbol, number::whole};

/// The longest text that is read, in characters; more is a slip or a paste into the wrong field.
pub const LONGEST: usize = 40;

/// Decimals that are looked at: what lies behind them is less than a ten-thousandth of a grain of any unit.
const MOST_DECIMALS: usize = 15;

/// The value of a typed quantity, in the unit of the core that [`Unit`] names, rounded to its grain (lengths to whole nm).
///
/// Reads `8 1/4`, `8-1/4"`, `8¼`, `8.25in`, `8,25`, `.5`, `210mm`, `21 cm`, `1' 2 1/2"`, `-3/16`, `12°`, `75 %` and their
/// typographic forms (U+2212, primes, curly quotes, U+2044, no-break and thin spaces). A unit in the text beats the page's; a
/// bare number is in [`Unit::symbol`]. A sign holds for the whole value. A comma is a decimal mark, in every locale.
///
/// # Errors
/// A [`ParseError`] with a message for the field, where the text has no such meaning or more than one.
pub fn parse(text: &str, unit: Unit, system: System) -> Result<f64, ParseError> {
    grains(text, unit, system).map_err(|reason| {
        let found = text.trim().chars().take(LONGEST).collect();
        ParseError { found, unit, reason }
    })
}

fn grains(text: &str, unit: Unit, system: System) -> Result<f64, Reason> {
    let text = text.trim();
    let length = text.chars().count();
    if length > LONGEST {
        return Err(Reason::TooLong(length));
    }
    let plain = plain(text);
    let plain = plain.trim();
    if plain.is_empty() {
        return Err(Reason::Empty);
    }
    let (sign, size) = match plain.strip_prefix('-') {
        Some(size) => (-1.0, size),
        None => (1.0, plain.strip_prefix('+').unwrap_or(plain)),
    };
    let size = size.trim_start();
    let grains = match feet_and_inches(size, unit) {
        Some(lengths) => lengths?,
        None => single(size, unit, system)?,
    };
    if grains > MOST_GRAINS {
        return Err(Reason::TooLarge);
    }
    if unit == Unit::Count && grains.fract() != 0.0 {
        return Err(Reason::NotWhole);
    }
    Ok(from_stored(whole(sign * grains), unit))
}

/// The text in plain characters: ASCII signs, quotes and lower case, one fraction form, `.` or `,` untouched.
fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(2 * text.len());
    let mut chars = text.chars();
    while let Some(char) = chars.next() {
        match char {
            '\u{2009}' | '\u{202F}' if separates_thousands(&plain, chars.as_str()) => {}
            '−' | '–' | '‐' | '‑' | '⁻' => plain.push('-'),
            '“' | '”' | '„' | '″' => plain.push('"'),
            '\'' | '‘' | '’' | '′' | '´' if plain.ends_with('\'') => {
                plain.pop();
                plain.push('"');
            }
            '‘' | '’' | '′' | '´' => plain.push('\''),
            '⁄' | '∕' => plain.push('/'),
            '¹' => plain.push('1'),
            '²' => plain.push('2'),
            '³' => plain.push('3'),
            'µ' | 'μ' => plain.push('u'),
            'º' | '˚' => plain.push('°'),
            '·' | '⋅' => plain.push(' '),
            _ if char.is_whitespace() => plain.push(' '),
            _ => match common_fraction(char) {
                Some(fraction) => {
                    if plain.ends_with(|last: char| last.is_ascii_digit()) {
                        plain.push(' ');
                    }
                    plain.push_str(fraction);
                    // Keeps a digit that follows out of the denominator.
                    plain.push(' ');
                }
                None => plain.push(char.to_ascii_lowercase()),
            },
        }
    }
    plain
}

/// Whether a thin space stands between thousands, as [`show`](super::show) sets them: a digit before, just three behind.
fn separates_thousands(before: &str, behind: &str) -> bool {
    before.ends_with(|last: char| last.is_ascii_digit())
        && digits(behind).0.len() == 3
        && !digits(behind).1.starts_with(['/', '⁄', '∕'])
}

/// What the sign of a fraction means.
pub(crate) fn common_fraction(char: char) -> Option<&'static str> {
    Some(match char {
        '½' => "1/2",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        _ => return None,
    })
}

/// Grains of a length in feet, with or without inches: `2'`, `1' 2 1/2"`, `1'-2`. None where the text has no feet.
fn feet_and_inches(text: &str, unit: Unit) -> Option<Result<f64, Reason>> {
    if !unit.is_length() {
        return None;
    }
    let (feet, rest) = text.split_at_checked(text.find(['\'', 'f'])?)?;
    let inches = ["'", "feet", "foot", "ft"].iter().find_map(|mark| rest.strip_prefix(mark))?.trim_start();
    let inches = inches.strip_prefix('-').unwrap_or(inches);
    Some(bare(feet).and_then(|feet| {
        let feet = feet.times(12.0 * NM_PER_INCH);
        if inches.is_empty() {
            return Ok(feet);
        }
        let (number, rest) = number(inches)?;
        match symbol(rest, unit)? {
            Some(symbol) if symbol.text != "in" => Err(Reason::Unreadable),
            _ => Ok(feet + number.times(NM_PER_INCH)),
        }
    }))
}

/// Grains of one number with or without a unit.
fn single(text: &str, unit: Unit, system: System) -> Result<f64, Reason> {
    let (number, rest) = number(text)?;
    let symbol = symbol(rest, unit)?.unwrap_or(&unit.row().page(system)[0]);
    Ok(number.times(symbol.grains))
}

/// The unit written behind a number, if any.
fn symbol(text: &str, unit: Unit) -> Result<Option<&'static Symbol>, Reason> {
    let name: String = text.chars().filter(|char| *char != ' ').collect();
    let name = name.trim_end_matches('.');
    if name.is_empty() {
        return Ok(None);
    }
    if let Some(symbol) = unit.row().symbols().find(|symbol| symbol.names.contains(&name)) {
        return Ok(Some(symbol));
    }
    let power = name.strip_prefix('e').map(|power| power.trim_start_matches(['+', '-']));
    if power.is_some_and(|power| power.starts_with(|first: char| first.is_ascii_digit())) {
        return Err(Reason::Exponent);
    }
    if name.starts_with(|first: char| {
        first.is_ascii_digit() || matches!(first, '.' | '/' | ',' | '-' | '+' | '\'' | '"')
    }) {
        return Err(Reason::Unreadable);
    }
    Err(Reason::UnknownUnit(name.to_owned()))
}

/// A number as the ratio it was typed as, so that `8 1/4` in any unit is rounded only once.
struct Number {
    top: f64,
    bottom: f64,
}

impl Number {
    fn times(&self, grains: f64) -> f64 {
        self.top * grains / self.bottom
    }
}

/// A number with nothing behind it.
fn bare(text: &str) -> Result<Number, Reason> {
    let (number, rest) = number(text)?;
    if rest.trim().is_empty() { Ok(number) } else { Err(Reason::Unreadable) }
}

/// The number that a text begins with, and what follows it.
fn number(text: &str) -> Result<(Number, &str), Reason> {
    let (first, rest) = digits(text);
    if let Some(rest) = rest.strip_prefix(['.', ',']) {
        let (decimals, rest) = digits(rest);
        if rest.starts_with(['.', ',']) {
            return Err(Reason::TwoMarks);
        }
        let decimals = decimals.get(..MOST_DECIMALS).unwrap_or(decimals);
        let top = amount(&[first, decimals].concat())?; // refuses only a mark without any digit
        let tens = decimals.bytes().fold(1.0, |tens, _| tens * 10.0);
        return Ok((Number { top, bottom: tens }, rest));
    }
    if let Some(rest) = rest.strip_prefix('/') {
        return fraction("0", first, rest);
    }
    let behind = rest.strip_prefix('-').unwrap_or(rest.trim_start());
    if behind.len() < rest.len() {
        let (top, rest) = digits(behind);
        if let Some(rest) = rest.strip_prefix('/').filter(|_| !top.is_empty()) {
            return fraction(first, top, rest);
        }
    }
    Ok((Number { top: amount(first)?, bottom: 1.0 }, rest))
}

/// The number `units` + `top` / the digits that `text` begins with.
fn fraction<'a>(units: &str, top: &str, text: &'a str) -> Result<(Number, &'a str), Reason> {
    let (bottom, rest) = digits(text);
    let (units, top, bottom) = (amount(units)?, amount(top)?, amount(bottom)?);
    if bottom == 0.0 {
        return Err(Reason::ZeroDenominator);
    }
    if top >= bottom {
        return Err(Reason::LargeFraction);
    }
    Ok((Number { top: units * bottom + top, bottom }, rest))
}

/// The whole number that digits say: exact up to 2^53, above the largest count of grains.
fn amount(digits: &str) -> Result<f64, Reason> {
    if digits.is_empty() {
        return Err(Reason::Unreadable);
    }
    Ok(digits.bytes().fold(0.0, |sum, digit| 10.0 * sum + f64::from(digit - b'0')))
}

/// The digits that a text begins with, and what follows them.
fn digits(text: &str) -> (&str, &str) {
    let end = text.find(|char: char| !char.is_ascii_digit());
    end.and_then(|end| text.split_at_checked(end)).unwrap_or((text, ""))
}
