//! The tags of an XML file, one after another: no more of XML than a drawing needs.

use super::DrawingError;

/// A tag with the line it begins on.
#[derive(Clone, Copy, Debug)]
pub(super) struct Element<'a> {
    /// Its name without a prefix.
    pub(super) name: &'a str,
    attributes: &'a str,
    /// The line it begins on, from 1.
    pub(super) line: usize,
    /// Whether it ends an element that was begun before.
    pub(super) ends: bool,
    /// Whether it is empty: begun and ended at once.
    pub(super) empty: bool,
}

impl<'a> Element<'a> {
    /// The value of an attribute, as it stands.
    pub(super) fn get(&self, key: &str) -> Option<&'a str> {
        let mut rest = self.attributes;
        loop {
            let (name, behind) = rest.split_once('=')?;
            let mut behind = behind.trim_start().chars();
            let quote = behind.next().filter(|c| matches!(c, '"' | '\''))?;
            let (value, after) = behind.as_str().split_once(quote)?;
            if name.trim() == key {
                return Some(value);
            }
            rest = after;
        }
    }
}

/// The tags of a text, and the words between them.
pub(super) struct Tags<'a> {
    text: &'a str,
    at: usize,
    line: usize,
    /// The text before the last tag.
    pub(super) words: &'a str,
}

impl<'a> Tags<'a> {
    pub(super) fn new(text: &'a str) -> Self {
        Self { text, at: 0, line: 1, words: "" }
    }

    /// The next tag; none at the end.
    pub(super) fn next(&mut self) -> Result<Option<Element<'a>>, DrawingError> {
        loop {
            let Some((words, _)) = self.rest().split_once('<') else { return Ok(None) };
            self.words = words;
            self.pass(words.len());
            let line = self.line;
            let rest = self.rest();
            let cut = DrawingError::CutOff;
            // What is passed over, and how it ends.
            let passed = [("<!--", "-->"), ("<![CDATA[", "]]>"), ("<?", "?>")]
                .iter()
                .find(|pair| rest.starts_with(pair.0));
            if let Some((_, end)) = passed {
                let length = find(rest, end).ok_or(cut)?;
                self.pass(length + end.len());
                continue;
            }
            if rest.starts_with("<!") {
                // A document type may hold declarations in brackets.
                let inner = rest.find('[').filter(|bracket| rest.find('>').is_none_or(|end| bracket < &end));
                if let Some(bracket) = inner {
                    self.pass(bracket);
                    let declarations = self.rest().find(']').ok_or(DrawingError::CutOff)?;
                    self.pass(declarations);
                }
                let length = self.rest().find('>').ok_or(cut)?;
                self.pass(length + 1);
                continue;
            }
            let length = end_of_tag(rest.as_bytes()).ok_or(cut)?;
            self.pass(length + 1);
            let inside = rest.get(1..length).unwrap_or_default();
            let ends = inside.starts_with('/');
            let empty = inside.ends_with('/');
            let inside = inside.trim_matches('/').trim();
            let (name, attributes) = inside.split_once(char::is_whitespace).unwrap_or((inside, ""));
            let name = name.split_once(':').map_or(name, |(_, local)| local);
            return Ok(Some(Element { name, attributes, line, ends, empty }));
        }
    }

    /// What comes. Asked for, not indexed: that would bring the words for a text cut within a letter into the page.
    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn pass(&mut self, bytes: usize) {
        let passed = &self.text.as_bytes()[self.at..self.at + bytes];
        self.line += passed.iter().filter(|byte| **byte == b'\n').count();
        self.at += bytes;
    }
}

/// Where some words begin in a text. The standard search is faster on long words, and takes two kilobytes of code for it.
pub(super) fn find(text: &str, words: &str) -> Option<usize> {
    text.as_bytes().windows(words.len()).position(|at| at == words.as_bytes())
}

/// Where a tag's closing bracket stands, outside of quotes.
fn end_of_tag(text: &[u8]) -> Option<usize> {
    let mut quote = None;
    for (i, &byte) in text.iter().enumerate() {
        match (quote, byte) {
            (None, b'>') => return Some(i),
            (None, b'"' | b'\'') => quote = Some(byte),
            (Some(open), _) if open == byte => quote = None,
            _ => {}
        }
    }
    None
}
