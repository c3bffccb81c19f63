//! Words in the letters of the base fonts: WinAnsi encoding, and the widths of their letters.
//!
//! Source: Windows code page 1252 and the metrics published with the base-14 fonts, from memory; checked against
//! another library's copy of both.

use super::Caption;
use crate::leaf::Face;

/// A line of words: text in WinAnsi encoding, perhaps behind the picture of a name.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Letters {
    /// The width of the picture in front, in sizes of the font; none where there is none.
    pub(super) picture: Option<f64>,
    pub(super) text: Vec<u8>,
}

/// Height of capitals as a part of the font's size.
pub(crate) const CAPITALS: f64 = 0.718;

/// The text, if the font has all its letters.
pub(crate) fn encoded(text: &str) -> Option<Vec<u8>> {
    text.chars().map(letter).collect()
}

/// The text with a question mark for every letter that the font does not have.
pub(super) fn lossy(text: &str) -> Letters {
    Letters { picture: None, text: bytes(text) }
}

/// The same as bytes.
pub(crate) fn bytes(text: &str) -> Vec<u8> {
    text.chars().map(|c| letter(c).unwrap_or(b'?')).collect()
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

/// The length of a line of words in Helvetica of size 1; never 0.
pub(super) fn width(letters: &Letters) -> f64 {
    letters.picture.unwrap_or(0.0) + width_in(Face::Plain, &letters.text)
}

/// The length of a line of words in a font of size 1; never 0.
pub(crate) fn width_in(face: Face, text: &[u8]) -> f64 {
    let table = match face {
        Face::Plain => &ADVANCES,
        Face::Bold => &BOLD,
        Face::Serif => &SERIF,
    };
    let sum: u32 = text.iter().map(|&byte| advance(table, byte)).sum();
    f64::from(sum.max(1)) / 1000.0
}

/// A letter as a page shows it: itself, the nearest that the fonts have, or a question mark.
pub(crate) fn shown(c: char) -> char {
    match letter(c) {
        None => '?',
        Some(0xA0) => ' ',
        Some(0x96) => '–',
        Some(byte @ 32..=126) => char::from(byte),
        Some(_) => c,
    }
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

fn advance(table: &[u16; 224], byte: u8) -> u32 {
    let place = usize::from(byte).saturating_sub(32);
    u32::from(table[place])
}

/// The widths of the bytes from 32 on, in thousandths of the font's size: Helvetica.
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

/// The same of Helvetica-Bold.
const BOLD: [u16; 224] = [
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, //
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, //
    975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778, //
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556, //
    333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611, //
    611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584, 350, //
    556, 350, 278, 556, 500, 1000, 556, 556, 333, 1000, 667, 333, 1000, 350, 611, 350, //
    350, 278, 278, 500, 500, 350, 556, 1000, 333, 1000, 556, 333, 944, 350, 500, 667, //
    278, 333, 556, 556, 556, 556, 280, 556, 333, 737, 370, 556, 584, 333, 737, 333, //
    400, 584, 333, 333, 333, 611, 556, 278, 333, 333, 365, 556, 834, 834, 834, 611, //
    722, 722, 722, 722, 722, 722, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278, //
    722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667, 611, //
    556, 556, 556, 556, 556, 556, 889, 556, 556, 556, 556, 556, 278, 278, 278, 278, //
    611, 611, 611, 611, 611, 611, 611, 584, 611, 611, 611, 611, 611, 556, 611, 556, //
];

/// The same of Times-Roman.
const SERIF: [u16; 224] = [
    250, 333, 408, 500, 500, 833, 778, 180, 333, 333, 500, 564, 250, 333, 250, 278, //
    500, 500, 500, 500, 500, 500, 500, 500, 500, 500, 278, 278, 564, 564, 564, 444, //
    921, 722, 667, 667, 722, 611, 556, 722, 722, 333, 389, 722, 611, 889, 722, 722, //
    556, 722, 667, 556, 611, 722, 722, 944, 722, 722, 611, 333, 278, 333, 469, 500, //
    333, 444, 500, 444, 500, 444, 333, 500, 500, 278, 278, 500, 278, 778, 500, 500, //
    500, 500, 333, 389, 278, 500, 500, 722, 500, 500, 444, 480, 200, 480, 541, 350, //
    500, 350, 333, 500, 444, 1000, 500, 500, 333, 1000, 556, 333, 889, 350, 611, 350, //
    350, 333, 333, 444, 444, 350, 500, 1000, 333, 980, 389, 333, 722, 350, 444, 722, //
    250, 333, 500, 500, 500, 500, 200, 500, 333, 760, 276, 500, 564, 333, 760, 333, //
    400, 564, 300, 300, 333, 500, 453, 250, 333, 300, 310, 500, 750, 750, 750, 444, //
    722, 722, 722, 722, 722, 722, 889, 667, 611, 611, 611, 611, 333, 333, 333, 333, //
    722, 722, 722, 722, 722, 722, 722, 564, 722, 722, 722, 722, 722, 722, 556, 500, //
    444, 444, 444, 444, 444, 444, 667, 444, 444, 444, 444, 444, 278, 278, 278, 278, //
    500, 500, 500, 500, 500, 500, 500, 564, 500, 500, 500, 500, 500, 500, 500, 500, //
];
