//! Numbers and texts as bytes, as short as they can be without loss. Part of the frozen layout of version 1.
//!
//! * A *count* is a variable-length integer: seven bits a byte, low ones first, the top bit set on all but the last
//!   byte.
//! * A *quantity* is a count of grains of either sign. People work in round steps, so it is written in the coarsest
//!   of [`STEPS`] that divides it, as the count `(zigzag << 2 | step) << 1 | 1`, or in single grains as `zigzag <<
//!   1`, where *zigzag* is 0, −1, 1, −2, … as 0, 1, 2, 3, …
//! * A *text* is the count of its bytes, and the bytes in UTF-8.

use crate::format::{MOST_GRAINS, MOST_OF_A_NUMBER};

/// The steps a quantity may be written in, in grains; of a length: 1 µm, 1/64 in, 0.01 mm, 1 mm.
const STEPS: [i64; 4] = [1_000, 396_875, 10_000, 1_000_000];

/// Appends a count.
pub(super) fn put_count(bytes: &mut Vec<u8>, mut count: u64) {
    loop {
        let [low, ..] = (count & 0x7f).to_le_bytes();
        count >>= 7;
        if count == 0 {
            return bytes.push(low);
        }
        bytes.push(low | 0x80);
    }
}

/// Appends a quantity.
pub(super) fn put_grains(bytes: &mut Vec<u8>, grains: i64) {
    let zigzag = |n: i64| ((n << 1) ^ (n >> 63)).cast_unsigned();
    let fitting = (0_u64..).zip(STEPS).filter(|(_, step)| grains % step == 0);
    let count = match fitting.max_by_key(|(_, step)| *step) {
        Some((code, step)) => (zigzag(grains / step) << 2 | code) << 1 | 1,
        None => zigzag(grains) << 1,
    };
    put_count(bytes, count);
}

/// Appends a text.
pub(super) fn put_text(bytes: &mut Vec<u8>, text: &str) {
    put_count(bytes, text.len() as u64);
    bytes.extend(text.as_bytes());
}

/// Bytes yet to be read. Every method is `None` where they are not what was asked for.
pub(super) struct Source<'a>(pub(super) &'a [u8]);

impl Source<'_> {
    pub(super) fn byte(&mut self) -> Option<u8> {
        let (first, rest) = self.0.split_first()?;
        self.0 = rest;
        Some(*first)
    }

    /// A count of at most 63 bits.
    pub(super) fn count(&mut self) -> Option<u64> {
        let mut count = 0;
        for shift in (0..63).step_by(7) {
            let byte = self.byte()?;
            count |= u64::from(byte & 0x7f) << shift;
            if byte & 0x80 == 0 {
                return Some(count);
            }
        }
        None
    }

    /// A count of things in memory, at most `most`.
    pub(super) fn length(&mut self, most: usize) -> Option<usize> {
        usize::try_from(self.count()?).ok().filter(|found| *found <= most)
    }

    /// A quantity of a shape.
    pub(super) fn grains(&mut self) -> Option<i64> {
        self.number().filter(|grains| grains.unsigned_abs() <= MOST_GRAINS.unsigned_abs())
    }

    /// A quantity of anything else.
    pub(super) fn number(&mut self) -> Option<i64> {
        let count = self.count()?;
        let (zigzag, step) = if count & 1 == 0 {
            (count >> 1, 1)
        } else {
            (count >> 3, STEPS[usize::from(count.to_le_bytes()[0] >> 1 & 3)])
        };
        let steps = (zigzag >> 1).cast_signed() ^ -(zigzag & 1).cast_signed();
        steps.checked_mul(step).filter(|grains| grains.unsigned_abs() <= MOST_OF_A_NUMBER.unsigned_abs())
    }

    pub(super) fn text(&mut self) -> Option<&str> {
        let length = self.length(self.0.len())?;
        let (text, rest) = self.0.split_at_checked(length)?;
        self.0 = rest;
        core::str::from_utf8(text).ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(grains: i64, length: usize) {
        let mut bytes = Vec::new();
        put_grains(&mut bytes, grains);
        assert_eq!(bytes.len(), length, "{grains}");
        let mut source = Source(&bytes);
        assert_eq!((source.grains(), source.0.len()), (Some(grains), 0));
    }

    #[test]
    fn round_steps_are_short_and_nothing_is_lost() {
        check(0, 1);
        check(15_000_000, 2);
        check(-400_050_000, 2); // 15 3/4 in
        check(83_940_000, 3);
        check(83_940_001, 5);
        check(60_000_001, 4);
        check(-1, 1);
        check(MOST_GRAINS, 3);
        check(1 - MOST_GRAINS, 6);
    }

    #[test]
    fn bytes_that_never_end_or_say_too_much_are_no_number() {
        assert_eq!(Source(&[0x80; 12]).count(), None);
        assert_eq!(Source(&[0x80]).count(), None);
        let mut bytes = Vec::new();
        put_grains(&mut bytes, MOST_GRAINS + 1);
        assert_eq!(Source(&bytes).grains(), None);
        put_count(&mut bytes, u64::MAX >> 1);
        assert_eq!(Source(&bytes[6..]).grains(), None);
        assert_eq!(Source(&[3, b'a', b'b']).text(), None);
        assert_eq!(Source(&[1, 0xff]).text(), None);
    }
}
