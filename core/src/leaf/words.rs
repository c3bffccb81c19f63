//! Words on a leaf: how long they are, and where they break.

use super::{Face, Tone};
use crate::format::pdf::letters::{self, CAPITALS};
use kurbo::{Point, Rect};

/// How words look.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Style {
    /// The face.
    pub face: Face,
    /// Size of the font, mm.
    pub size: f64,
    /// The tone.
    pub tone: Tone,
}

/// How small words are made before they are cut, as a part of their size.
const SMALLEST: f64 = 0.7;
/// How far letters reach under the baseline, as a part of the font's size.
const DEPTH: f64 = 0.212;

impl Style {
    /// Sans serif in ink.
    #[must_use]
    pub const fn plain(size: f64) -> Self {
        Self { face: Face::Plain, size, tone: Tone::Ink }
    }

    /// Bold in ink.
    #[must_use]
    pub const fn bold(size: f64) -> Self {
        Self { face: Face::Bold, ..Self::plain(size) }
    }

    /// Serif in ink.
    #[must_use]
    pub const fn serif(size: f64) -> Self {
        Self { face: Face::Serif, ..Self::plain(size) }
    }

    /// The same in thinned ink.
    #[must_use]
    pub const fn soft(self) -> Self {
        Self { tone: Tone::Soft, ..self }
    }

    /// The same in another tone.
    #[must_use]
    pub const fn toned(self, tone: Tone) -> Self {
        Self { tone, ..self }
    }

    /// How long a line of words is, mm.
    #[must_use]
    pub fn length(&self, text: &str) -> f64 {
        self.size * letters::width_in(self.face, &letters::bytes(text))
    }

    /// The same made smaller where a line of words is longer than `room` mm.
    #[must_use]
    pub fn within(self, room: f64, text: &str) -> Self {
        let length = self.length(text);
        if length > room { Self { size: self.size * room / length, ..self } } else { self }
    }

    /// The same made smaller, and the text cut with a mark where even that is longer than `room` mm.
    #[must_use]
    pub fn cut(self, room: f64, text: &str) -> (Self, String) {
        let style = Self { size: SMALLEST * self.size, ..self };
        let smaller = self.within(room, text);
        if smaller.size >= style.size {
            return (smaller, text.to_owned());
        }
        let mut kept: Vec<char> = text.chars().collect();
        let marked = |kept: &[char]| kept.iter().collect::<String>() + "…";
        while !kept.is_empty() && style.length(&marked(&kept)) > room {
            kept.pop();
        }
        (style, marked(&kept))
    }

    /// Height of the capitals, mm.
    #[must_use]
    pub fn capitals(&self) -> f64 {
        CAPITALS * self.size
    }

    /// The box of a line of words.
    pub(super) fn extent(&self, at: Point, upright: bool, text: &str) -> Rect {
        let (length, up, down) = (self.length(text), self.capitals(), DEPTH * self.size);
        if upright {
            Rect::new(at.x - up, at.y - length, at.x + down, at.y)
        } else {
            Rect::new(at.x, at.y - up, at.x + length, at.y + down)
        }
    }
}

/// A text in lines that are no longer than `room` mm: broken between words, inside one only where it is longer than a line.
#[must_use]
pub fn wrapped(text: &str, style: Style, room: f64) -> Vec<String> {
    let mut lines = Vec::new();
    for paragraph in text.split('\n') {
        let mut line = String::new();
        for word in paragraph.split_whitespace() {
            let before = line.len();
            if before > 0 {
                line.push(' ');
            }
            line.push_str(word);
            if style.length(&line) <= room {
                continue;
            }
            line.truncate(before);
            if before > 0 {
                if style.length(word) > room {
                    line.push(' ');
                } else {
                    lines.push(core::mem::take(&mut line));
                }
            }
            for letter in word.chars() {
                line.push(letter);
                if style.length(&line) > room && line.chars().count() > 1 {
                    line.pop();
                    lines.push(core::mem::take(&mut line).trim_end().to_owned());
                    line.push(letter);
                }
            }
        }
        if !line.is_empty() {
            lines.push(line);
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    const STYLE: Style = Style::plain(3.0);

    #[test]
    fn no_line_is_longer_than_its_room_and_no_word_is_lost() {
        let text = "A wader of the stony shore,\tturning over weed and pebbles\nwith aquickthrustofitsbillthatneverends here";
        for room in [8.0, 20.0, 61.0] {
            let lines = wrapped(text, STYLE, room);
            assert!(lines.iter().all(|line| STYLE.length(line) <= room), "{lines:?}");
            let letters = |text: &str| text.split_whitespace().collect::<String>();
            assert_eq!(letters(&lines.concat()), letters(text));
        }
    }

    #[test]
    fn a_letter_wider_than_the_room_stands_alone() {
        assert_eq!(wrapped("WW", STYLE, 0.1), ["W", "W"]);
        assert_eq!(wrapped(" \n ", STYLE, 10.0), Vec::<String>::new());
    }

    #[test]
    fn words_too_long_for_their_place_are_cut_with_a_mark() {
        let (style, text) =
            STYLE.cut(30.0, "V 114 of the second bale, glue 22-08 and what was left of 22-07");
        assert!(text.starts_with("V 114") && text.ends_with('…') && style.length(&text) <= 30.0, "{text}");
        assert_eq!(STYLE.cut(30.0, "V 114"), (STYLE, "V 114".to_owned()));
    }

    #[test]
    fn words_made_smaller_just_fit() {
        let style = STYLE.within(10.0, "straight rail, fore and aft");
        assert!((style.length("straight rail, fore and aft") - 10.0).abs() < 1e-9);
        assert_eq!(STYLE.within(100.0, "rail"), STYLE);
    }
}
