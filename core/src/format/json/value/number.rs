//! A number as its text.

use core::fmt;

/// A number as JSON writes it: of any size, with any number of digits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Number(String);

/// The digits of a number: before the point, behind it, and its power of ten with the sign.
struct Parts<'a> {
    whole: &'a str,
    decimals: &'a str,
    power: &'a str,
}

impl Number {
    /// The number that a text is; none where JSON does not write one like that, such as `NaN`, `.5`, `+1` or `01`.
    #[must_use]
    pub fn new(text: &str) -> Option<Self> {
        let Parts { whole, decimals, power } = Parts::of(text);
        let power = power.strip_prefix(['+', '-']).unwrap_or(power);
        let is_digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
        let is_padded = whole.len() > 1 && whole.starts_with('0');
        let is_number = [whole, decimals, power].into_iter().all(is_digits) && !is_padded;
        is_number.then(|| Self(text.to_owned()))
    }

    /// The whole number it is, however it is written: `12`, `12.0`, `1.2e1`; none where it has a fraction. Saturates beyond
    /// `i64`.
    #[must_use]
    pub fn whole(&self) -> Option<i64> {
        let Parts { whole, decimals, power } = Parts::of(&self.0);
        let digits = [whole, decimals].concat();
        let significant = digits.trim_end_matches('0');
        if significant.is_empty() {
            return Some(0);
        }
        let beyond = if power.starts_with('-') { i32::MIN } else { i32::MAX };
        let power = i64::from(power.parse().unwrap_or(beyond));
        let zeros = power + digits.len() as i64 - significant.len() as i64 - decimals.len() as i64;
        if zeros < 0 {
            return None;
        }
        // From nineteen on all are alike: even a single digit is beyond `i64` then.
        let zeros = (0..zeros.min(19)).map(|_| b'0');
        let sign = if self.0.starts_with('-') { -1 } else { 1 };
        let digits = significant.bytes().chain(zeros).map(|digit| i64::from(digit - b'0'));
        Some(digits.fold(0, |sum: i64, digit| sum.saturating_mul(10).saturating_add(sign * digit)))
    }
}

impl<'a> Parts<'a> {
    fn of(text: &'a str) -> Self {
        let size = text.strip_prefix('-').unwrap_or(text);
        let (digits, power) = size.split_once(['e', 'E']).unwrap_or((size, "0"));
        let (whole, decimals) = digits.split_once('.').unwrap_or((digits, "0"));
        Self { whole, decimals, power }
    }
}

impl From<i64> for Number {
    fn from(whole: i64) -> Self {
        Self(whole.to_string())
    }
}

impl fmt::Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}
