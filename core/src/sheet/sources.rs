//! Where figures come from: letters behind them, the list of what the letters stand for, and what has been told.

use crate::language::said;

/// Sources in the order they are first named, and the keys of the quantities that were written.
#[derive(Default)]
pub(super) struct Sources {
    named: Vec<&'static str>,
    told: Vec<&'static str>,
}

impl Sources {
    /// The letter of a source.
    pub(super) fn mark(&mut self, source: &'static str) -> String {
        let place = self.named.iter().position(|known| *known == source).unwrap_or_else(|| {
            self.named.push(source);
            self.named.len() - 1
        });
        letter(place)
    }

    /// Notes that a quantity was written.
    pub(super) fn tell(&mut self, key: &'static str) {
        self.told.push(key);
    }

    /// Whether a quantity was written.
    pub(super) fn told(&self, key: &str) -> bool {
        self.told.contains(&key)
    }

    /// All of them in one text.
    pub(super) fn text(&self) -> String {
        let mut text = said("Sources.").to_owned();
        for (place, source) in self.named.iter().enumerate() {
            text.push(' ');
            text += &letter(place);
            text.push('\u{A0}');
            text += said(source);
            text.push(if place + 1 < self.named.len() { ';' } else { '.' });
        }
        text
    }
}

/// a to z, and then aa, ab: more are never needed.
fn letter(place: usize) -> String {
    let char_of = |i: usize| char::from(b'a' + u8::try_from(i % 26).unwrap_or(0));
    let first = (place >= 26).then(|| char_of(place / 26 - 1));
    first.into_iter().chain([char_of(place)]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_source_has_one_letter_and_stands_once_in_the_list() {
        let mut sources = Sources::default();
        assert_eq!(["by hand", "a table", "by hand"].map(|source| sources.mark(source)), ["a", "b", "a"]);
        assert_eq!(sources.text(), "Sources. a\u{A0}by hand; b\u{A0}a table.");
        assert_eq!([25, 26, 27].map(letter), ["z", "aa", "ab"]);
    }
}
