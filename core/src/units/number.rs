//! Digits of a number: fixed decimals, without exponent, locale or negative zero.

use super::MOST_GRAINS;

/// Decimal text with exactly `places` digits after the point, for files: `12.50`, `-0.25`, `0.00`.
///
/// A point as the mark, an ASCII minus, no grouping, no exponent and no `-0.00`. Rounds half away from zero as far as the
/// binary value tells a half. A value that is not finite, or of more than fifteen digits with its places, becomes `NaN`,
/// which every reader of a file refuses: a broken file is noticed, a wrong number may end in wood.
pub fn decimal(value: f64, places: u8) -> String {
    let scaled = (value * 10_f64.powi(i32::from(places))).round();
    if scaled.is_nan() || scaled.abs() > MOST_GRAINS {
        return "NaN".to_owned();
    }
    let sign = if scaled < 0.0 { "-" } else { "" };
    format!("{sign}{}", with_point(scaled, places))
}

/// [`decimal`] without its trailing zeros and without a bare point: `12.5`, `12`, `0`.
pub fn decimal_trimmed(value: f64, places: u8) -> String {
    let text = decimal(value, places);
    if places == 0 { text } else { text.trim_end_matches('0').trim_end_matches('.').to_owned() }
}

/// Writes the digits of a whole number behind a text. A drag writes hundreds in a frame, and `write!` goes a long way round
/// for each.
pub fn push_whole(text: &mut String, mut magnitude: u64, is_negative: bool) {
    let mut digits = [0; 20];
    let mut first = digits.len();
    loop {
        first -= 1;
        digits[first] = b'0' + (magnitude % 10).to_le_bytes()[0];
        magnitude /= 10;
        if magnitude == 0 {
            break;
        }
    }
    if is_negative {
        text.push('-');
    }
    text.extend(digits[first..].iter().map(|digit| char::from(*digit)));
}

/// The nearest whole number, half away from zero; saturates, and is 0 for NaN.
#[expect(
    clippy::cast_possible_truncation,
    reason = "rounded to a whole number first, and saturating by intention"
)]
pub(super) fn whole(value: f64) -> i64 {
    value.round() as i64
}

/// The digits of |`scaled`|, a whole number, with the point before the last `places` of them.
pub(super) fn with_point(scaled: f64, places: u8) -> String {
    let places = usize::from(places);
    let mut digits = format!("{:0width$}", whole(scaled.abs()), width = places + 1);
    if places > 0 {
        digits.insert(digits.len() - places, '.');
    }
    digits
}

/// Digits with the thousands before the point set apart by narrow no-break spaces (U+202F): `1 236.9`.
pub(super) fn grouped(digits: &str) -> String {
    let whole = digits.find('.').unwrap_or(digits.len());
    let mut text = String::with_capacity(digits.len() + digits.len());
    for (place, digit) in digits.char_indices() {
        if place > 0 && place < whole && (whole - place).is_multiple_of(3) {
            text.push('\u{202F}');
        }
        text.push(digit);
    }
    text
}
