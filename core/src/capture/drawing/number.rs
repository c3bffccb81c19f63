//! Decimal numbers as files have them.

/// Most digits that are looked at; more say nothing to a double.
const DIGITS: usize = 17;

/// The number at the start of a text, and how many bytes it takes; none where there is none.
///
/// Within two units in the last place of the nearest double: a fortieth of a nanometre on a kilometre.
pub(super) fn leading(text: &[u8]) -> Option<(f64, usize)> {
    let mut at = usize::from(matches!(text.first(), Some(b'-' | b'+')));
    let (mut whole, mut power, mut digits, mut kept) = (0_u64, 0_i32, 0_usize, 0_usize);
    let mut behind = false;
    while let Some(&byte) = text.get(at) {
        if byte == b'.' && !behind {
            behind = true;
        } else if byte.is_ascii_digit() {
            digits += 1;
            if kept < DIGITS {
                whole = whole * 10 + u64::from(byte - b'0');
                kept += usize::from(whole > 0);
                power -= i32::from(behind);
            } else {
                power = power.saturating_add(i32::from(!behind));
            }
        } else {
            break;
        }
        at += 1;
    }
    if digits == 0 {
        return None;
    }
    if matches!(text.get(at), Some(b'e' | b'E')) {
        let signed = usize::from(matches!(text.get(at + 1), Some(b'-' | b'+')));
        let start = at + 1 + signed;
        let mut end = start;
        let mut exponent = 0_i32;
        while let Some(byte) = text.get(end).filter(|byte| byte.is_ascii_digit()) {
            exponent = exponent.saturating_mul(10).saturating_add(i32::from(byte - b'0')).min(1000);
            end += 1;
        }
        if end > start {
            power = power.saturating_add(if text[at + 1] == b'-' { -exponent } else { exponent });
            at = end;
        }
    }
    let size = if power < 0 { whole as f64 / 10_f64.powi(-power) } else { whole as f64 * 10_f64.powi(power) };
    Some((if text.first() == Some(&b'-') { -size } else { size }, at))
}

/// A text that is a number and nothing else but spaces, finite.
pub(super) fn number(text: &str) -> Option<f64> {
    let text = text.trim();
    let (value, length) = leading(text.as_bytes())?;
    (length == text.len() && value.is_finite()).then_some(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_the_standard_library_reads_them() {
        for text in
            ["0", "-0.5", "+12.25", ".5", "5.", "1e3", "-1.5E-2", "123456789.123456789", "0.000001", "400.05"]
        {
            let (found, expected) = (number(text).unwrap(), text.parse::<f64>().unwrap());
            assert!((found - expected).abs() <= 1e-15 * expected.abs(), "{text}: {found}");
        }
        assert_eq!(leading(b"12e"), Some((12.0, 2)));
        assert_eq!(leading(b"1.5.5"), Some((1.5, 3)));
        for text in ["", "-", ".", "e5", "1x", "1e999", "1,5"] {
            assert_eq!(number(text), None, "{text}");
        }
    }
}
