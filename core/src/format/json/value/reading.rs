//! JSON text read as a tree (RFC 8259).

use super::{Number, Object, Value};
use crate::say;
use core::fmt;

/// Why a text is no JSON, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotJson {
    /// The line of the fault, from 1.
    pub line: usize,
    /// The character in that line, from 1.
    pub column: usize,
    /// What is missing there.
    pub missing: &'static str,
}

/// What JSON allows between its signs.
const SPACE: [char; 4] = [' ', '\t', '\n', '\r'];

impl Value {
    /// Reads a text that nests at most `deepest` levels.
    ///
    /// # Errors
    ///
    /// [`NotJson`]: the first place where the text cannot go on as JSON, or nests too deeply.
    pub fn read(text: &str, deepest: usize) -> Result<Self, NotJson> {
        let mut reader = Reader { rest: text.trim_start_matches(SPACE) };
        let value = reader.value(deepest).and_then(|value| match reader.rest {
            "" => Ok(value),
            _ => Err("the end"),
        });
        value.map_err(|missing| {
            let before = text.strip_suffix(reader.rest).unwrap_or_default();
            let (line, column) = before.chars().fold((1, 1), |(line, column), c| match c {
                '\n' => (line + 1, 1),
                _ => (line, column + 1),
            });
            NotJson { line, column, missing }
        })
    }
}

/// What is yet to be read. Every method that fails leaves it where the fault is, and says what is missing there.
struct Reader<'a> {
    rest: &'a str,
}

impl Reader<'_> {
    /// Takes a sign and the space behind it, if it comes next.
    fn take(&mut self, sign: &str) -> bool {
        let rest = self.rest.strip_prefix(sign);
        self.rest = rest.map_or(self.rest, |rest| rest.trim_start_matches(SPACE));
        rest.is_some()
    }

    fn need(&mut self, sign: &'static str) -> Result<(), &'static str> {
        if self.take(sign) { Ok(()) } else { Err(sign) }
    }

    fn value(&mut self, room: usize) -> Result<Value, &'static str> {
        let inside = room.checked_sub(1).ok_or("an end to the nesting")?;
        if self.take("{") {
            let entries = self.entries("}", |reader| {
                let key = reader.text()?;
                reader.need(":")?;
                Ok((key, reader.value(inside)?))
            })?;
            Ok(Value::Object(Object { entries }))
        } else if self.take("[") {
            self.entries("]", |reader| reader.value(inside)).map(Value::List)
        } else if self.rest.starts_with('"') {
            self.text().map(Value::Text)
        } else if self.take("null") {
            Ok(Value::Null)
        } else if self.take("true") {
            Ok(Value::Flag(true))
        } else if self.take("false") {
            Ok(Value::Flag(false))
        } else {
            self.number().map(Value::Number)
        }
    }

    /// Entries between commas, up to the sign `end`.
    fn entries<T>(
        &mut self,
        end: &'static str,
        read: impl Fn(&mut Self) -> Result<T, &'static str>,
    ) -> Result<Vec<T>, &'static str> {
        let mut entries = Vec::new();
        if self.take(end) {
            return Ok(entries);
        }
        loop {
            entries.push(read(self)?);
            if self.take(end) {
                return Ok(entries);
            }
            self.need(",")?;
        }
    }

    fn number(&mut self) -> Result<Number, &'static str> {
        let is_part = |c: char| c.is_ascii_digit() || matches!(c, '+' | '-' | '.' | 'e' | 'E');
        let rest = self.rest.trim_start_matches(is_part);
        let number = self.rest.strip_suffix(rest).and_then(Number::new).ok_or("a value")?;
        self.rest = rest.trim_start_matches(SPACE);
        Ok(number)
    }

    fn text(&mut self) -> Result<String, &'static str> {
        self.rest = self.rest.strip_prefix('"').ok_or("\"")?;
        let mut text = String::new();
        loop {
            match self.next() {
                Some('"') => break,
                Some('\\') => text.push(self.escaped()?),
                Some(c) if c >= ' ' => text.push(c),
                _ => return Err("\""),
            }
        }
        self.rest = self.rest.trim_start_matches(SPACE);
        Ok(text)
    }

    fn next(&mut self) -> Option<char> {
        let mut chars = self.rest.chars();
        let next = chars.next();
        self.rest = chars.as_str();
        next
    }

    /// The character that stands behind a backslash.
    fn escaped(&mut self) -> Result<char, &'static str> {
        Ok(match self.next() {
            Some(c @ ('"' | '\\' | '/')) => c,
            Some('b') => '\u{8}',
            Some('f') => '\u{c}',
            Some('n') => '\n',
            Some('r') => '\r',
            Some('t') => '\t',
            Some('u') => {
                let unit = self.unit()?;
                let is_half = (0xd800..0xdc00).contains(&unit);
                let other_half = self.rest.strip_prefix("\\u").filter(|_| is_half);
                self.rest = other_half.unwrap_or(self.rest);
                let other = if other_half.is_some() { self.unit()? } else { 0 };
                // Half a pair alone is no character.
                char::decode_utf16([unit, other]).next().and_then(Result::ok).ok_or("a character")?
            }
            _ => return Err("a character"),
        })
    }

    /// Four digits to the base 16.
    fn unit(&mut self) -> Result<u16, &'static str> {
        (0..4).try_fold(0, |unit, _| {
            let digit = self.next().and_then(|c| c.to_digit(16)).and_then(|digit| u16::try_from(digit).ok());
            Ok(unit << 4 | digit.ok_or("a character")?)
        })
    }
}

impl fmt::Display for NotJson {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        say!(in f, "{missing} is missing in line {line} at character {column}",
            missing = self.missing,
            line = self.line,
            column = self.column
        )
    }
}

impl core::error::Error for NotJson {}

crate::language::say_displayed!(NotJson);
