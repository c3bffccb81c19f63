//! Words in the letters of the base fonts: WinAnsi encoding, and the widths of Helvetica.
//!
//! Source: Windows code page 1252 and the metrics published with the base-14 fonts, from memory; checked against
//! another library's copy of both.

use super::Caption;

/// A line of words: text in WinAnsi encoding, perhaps behind the picture of a name.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Letters {
    /// The width of the picture in front, in sizes of the font; none where there is none.
    pub(super) picture: Option<f64>,
    pub(super) text: Vec<u8>,
}

/// Height of capitals as a part of the font's size.
pub(super) const CAPITALS: f64 = 0.718;

/// The text, if the font has all its letters.
pub(super) fn encoded(text: &str) -> Option<Vec<u8>> {
    text.chars().map(letter).collect()
}

/// The text with a question mark for every letter that the font does not have.
pub(super) fn lossy(text: &str) -> Letters {
    Letters { picture: None, text: text.chars().map(|c| letter(c).unwrap_or(b'?')).collect() }
}

/// The text, in which a name at its start that the font cannot write is replaced by its picture, else by its code.
pub(super) fn named(text: &str, name: &str, caption: &Caption) -> Letters {
    match text.strip_prefix(name) {
        Some(rest) if encoded(name).is_none() => match caption.picture {
            Some(picture) => Letters { picture: Some(picture.advance()), ..lossy(rest) },
            None => lossy(&[caption.code, rest].concat()),
        },
        _ => lossy(text),
    }
}

/// The length of a line of words in a font of size 1; never 0.
pub(super) fn width(letters: &Letters) -> f64 {
    let sum: u32 = letters.text.iter().map(|&byte| advance(byte)).sum();
    letters.picture.unwrap_or(0.0) + f64::from(sum.max(1)) / 1000.0
}

fn letter(c: char) -> Option<u8> {
    match c {
        ' '..='~' | '\u{A0}'..='\u{FF}' => u8::try_from(u32::from(c)).ok(),
        // Signs that the pages of this program use, by the nearest that the font has.
        '\u{2009}' | '\u{202F}' => Some(0xA0),
        '\u{2212}' => Some(0x96),
        '≈' => Some(b'~'),
        _ => {
            let place = FROM_128.iter().position(|&known| known == c && c != UNUSED)?;
            u8::try_from(128 + place).ok()
        }
    }
}

const UNUSED: char = '\0';

/// The letters of the bytes 128 to 159.
const FROM_128: [char; 32] = [
    '€', UNUSED, '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', UNUSED, 'Ž', UNUSED, //
    UNUSED, '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', UNUSED, 'ž', 'Ÿ',
];

fn advance(byte: u8) -> u32 {
    let place = usize::from(byte).saturating_sub(32);
    u32::from(ADVANCES[place])
}

/// The widths of the bytes from 32 on, in thousandths of the font's size.
const ADVANCES: [u16; 224] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, // from the space
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, // from 0
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, // from @
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, // from P
    333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, // from the grave
    556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584, 350, // from p
    556, 350, 222, 556, 333, 1000, 556, 556, 333, 1000, 667, 333, 1000, 350, 611, 350, // from the euro
    350, 222, 222, 333, 333, 350, 556, 1000, 333, 1000, 500, 333, 944, 350, 500, 667, // from 144
    278, 333, 556, 556, 556, 556, 260, 556, 333, 737, 370, 556, 584, 333, 737, 333, // from 160
    400, 584, 333, 333, 333, 556, 537, 278, 333, 333, 365, 556, 834, 834, 834, 611, // from the degree
    667, 667, 667, 667, 667, 667, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278, // from À
    722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667, 611, // from Ð
    556, 556, 556, 556, 556, 556, 889, 500, 556, 556, 556, 556, 278, 278, 278, 278, // from à
    556, 556, 556, 556, 556, 556, 556, 584, 611, 556, 556, 556, 556, 500, 556, 500, // from ð
];
