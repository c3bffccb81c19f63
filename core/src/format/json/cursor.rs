//! A place in a JSON tree that knows its path, so that every refusal can name the field.

use super::{ReadError, Value, Wrong};
use crate::{
    design::Refusal,
    format::{MOST_GRAINS, MOST_OF_A_NUMBER},
    units::{self, Unit},
};

/// What is read, or why it is not: boxed, because it climbs through many hands and is rare.
pub(super) type Read<T> = Result<T, Box<ReadError>>;

/// A value and the way to it from the root.
#[derive(Clone, Copy)]
pub(super) struct At<'a> {
    pub(super) value: &'a Value,
    from: Option<(&'a Self, Step<'a>)>,
}

#[derive(Clone, Copy)]
enum Step<'a> {
    Key(&'a str),
    Index(usize),
}

impl<'a> At<'a> {
    pub(super) fn root(value: &'a Value) -> Self {
        Self { value, from: None }
    }

    /// The value under `key`; none where it is missing or null.
    pub(super) fn get(&'a self, key: &'a str) -> Read<Option<Self>> {
        let Value::Object(object) = self.value else { return Err(self.not("an object")) };
        let value = object.get(key).filter(|value| **value != Value::Null);
        Ok(value.map(|value| Self { value, from: Some((self, Step::Key(key))) }))
    }

    /// The value under `key`, which must be there.
    pub(super) fn need(&'a self, key: &'a str) -> Read<Self> {
        let missing = Self { value: &Value::Null, from: Some((self, Step::Key(key))) };
        self.get(key)?.ok_or_else(|| missing.wrong(Wrong::Missing))
    }

    /// The entries of a list of at most `most`, each read by `read`.
    pub(super) fn each<T>(&'a self, most: usize, read: impl Fn(At<'_>) -> Read<T>) -> Read<Vec<T>> {
        let Value::List(list) = self.value else { return Err(self.not("a list")) };
        if list.len() > most {
            return Err(self.wrong(Wrong::TooMany { found: list.len(), most }));
        }
        let mut entries = Vec::new();
        for (i, value) in list.iter().enumerate() {
            entries.push(read(At { value, from: Some((self, Step::Index(i))) })?);
        }
        Ok(entries)
    }

    pub(super) fn text(&self) -> Read<&'a str> {
        self.value.as_text().ok_or_else(|| self.not("a text"))
    }

    pub(super) fn flag(&self) -> Read<bool> {
        match self.value {
            Value::Flag(flag) => Ok(*flag),
            _ => Err(self.not("true or false")),
        }
    }

    /// The quantity stored as a whole number of grains.
    pub(super) fn quantity(&self, unit: Unit) -> Read<f64> {
        self.whole().map(|grains| units::from_stored(grains, unit))
    }

    /// The same for what is no part of a shape.
    pub(super) fn number(&self, unit: Unit) -> Read<f64> {
        self.within(MOST_OF_A_NUMBER).map(|grains| units::from_stored(grains, unit))
    }

    /// A whole number of either sign.
    pub(super) fn whole(&self) -> Read<i64> {
        self.within(MOST_GRAINS)
    }

    /// A whole number of either sign, at most so large. It may be written with a point, as some programs write all numbers.
    fn within(&self, most: i64) -> Read<i64> {
        let Value::Number(number) = self.value else { return Err(self.not("a whole number")) };
        let found = || beginning(&number.to_string());
        match number.whole() {
            None => Err(self.wrong(Wrong::NotWhole { found: found() })),
            Some(whole) if whole.unsigned_abs() > most.unsigned_abs() => {
                Err(self.wrong(Wrong::OutOfRange { found: found(), most }))
            }
            Some(whole) => Ok(whole),
        }
    }

    /// What one of the known words stands for.
    pub(super) fn word<T: Copy>(&self, known: &[(&'static str, T)]) -> Read<T> {
        let found = self.text()?;
        let meaning = known.iter().find(|(word, _)| *word == found).map(|(_, meaning)| *meaning);
        meaning.ok_or_else(|| {
            let known = known.iter().map(|(word, _)| *word).collect();
            self.wrong(Wrong::Word { found: beginning(found), known })
        })
    }

    pub(super) fn not(&self, expected: &'static str) -> Box<ReadError> {
        let found = match self.value {
            Value::Null => "empty",
            Value::Flag(_) => "true or false",
            Value::Number(_) => "a number",
            Value::Text(_) => "a text",
            Value::List(_) => "a list",
            Value::Object(_) => "an object",
        };
        self.wrong(Wrong::Kind { found, expected })
    }

    /// A refusal of what stands here.
    pub(super) fn refused(&self, refusal: Refusal) -> Box<ReadError> {
        Box::new(ReadError::Refused { path: self.path(), refusal })
    }

    pub(super) fn wrong(&self, wrong: Wrong) -> Box<ReadError> {
        Box::new(ReadError::Field { path: self.path(), wrong })
    }

    /// What is wrong with the field `key` of entry `i` of this list.
    pub(super) fn inside(&self, i: usize, key: &str, wrong: Wrong) -> Box<ReadError> {
        Box::new(ReadError::Field { path: format!("{}[{i}].{key}", self.path()), wrong })
    }

    /// The path as a script would write it: `shape.outline.nodes[3].x`.
    fn path(&self) -> String {
        let Some((parent, step)) = self.from else { return String::new() };
        let mut path = parent.path();
        match step {
            Step::Key(key) if path.is_empty() => path.push_str(key),
            Step::Key(key) => path.extend([".", key]),
            Step::Index(i) => path.push_str(&format!("[{i}]")),
        }
        path
    }
}

/// As much of a foreign word or number as a message repeats.
fn beginning(text: &str) -> String {
    text.chars().take(40).collect()
}

/// Whether nothing lies deeper than `most` levels; looked at without recursion, which a hostile value could exhaust.
pub(super) fn is_within_depth(value: &Value, most: usize) -> bool {
    let mut open = vec![(value, 1)];
    while let Some((value, depth)) = open.pop() {
        if depth > most {
            return false;
        }
        match value {
            Value::List(list) => open.extend(list.iter().map(|inner| (inner, depth + 1))),
            Value::Object(object) => open.extend(object.entries.iter().map(|(_, inner)| (inner, depth + 1))),
            _ => {}
        }
    }
    true
}
