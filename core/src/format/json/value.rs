//! JSON as a tree, with every number as it was written.
//!
//! A design has whole numbers only, and the numbers of others are kept, not understood. So a number stays the text it
//! was: it comes back to the letter, and the page is spared all that turns fractions into text and back.

mod number;
mod reading;
mod writing;

pub use self::{number::Number, reading::NotJson};

/// A JSON value.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Nothing.
    Null,
    /// `true` or `false`.
    Flag(bool),
    /// A number.
    Number(Number),
    /// A text.
    Text(String),
    /// Values in a row.
    List(Vec<Self>),
    /// Values by keys.
    Object(Object),
}

/// Values by keys, in the order they are written. Of two entries with one key the first counts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Object {
    /// The keys and their values.
    pub entries: Vec<(String, Value)>,
}

impl Value {
    /// The value under `key`; none where it is missing, or this is no object.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Self> {
        match self {
            Self::Object(object) => object.get(key),
            _ => None,
        }
    }

    /// The text, if it is one.
    #[must_use]
    pub fn as_text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text),
            _ => None,
        }
    }

    /// The whole number, if it is one; see [`Number::whole`].
    #[must_use]
    pub fn as_whole(&self) -> Option<i64> {
        match self {
            Self::Number(number) => number.whole(),
            _ => None,
        }
    }

    /// An object of entries in that order.
    pub fn object<'a>(entries: impl IntoIterator<Item = (&'a str, Self)>) -> Self {
        Self::Object(entries.into_iter().collect())
    }
}

impl Object {
    /// The value under `key`.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Value> {
        self.entries.iter().find(|entry| entry.0 == key).map(|entry| &entry.1)
    }

    /// The value under `key`, to be changed.
    pub fn get_mut(&mut self, key: &str) -> Option<&mut Value> {
        self.entries.iter_mut().find(|entry| entry.0 == key).map(|entry| &mut entry.1)
    }

    /// Puts an entry after the others.
    pub fn push(&mut self, key: &str, value: Value) {
        self.entries.push((key.to_owned(), value));
    }
}

impl<'a> FromIterator<(&'a str, Value)> for Object {
    fn from_iter<I: IntoIterator<Item = (&'a str, Value)>>(entries: I) -> Self {
        let mut object = Self::default();
        for (key, value) in entries {
            object.push(key, value);
        }
        object
    }
}

impl FromIterator<Self> for Value {
    fn from_iter<I: IntoIterator<Item = Self>>(entries: I) -> Self {
        Self::List(entries.into_iter().collect())
    }
}

impl From<bool> for Value {
    fn from(flag: bool) -> Self {
        Self::Flag(flag)
    }
}

impl From<i64> for Value {
    fn from(whole: i64) -> Self {
        Self::Number(whole.into())
    }
}

impl From<&str> for Value {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

#[cfg(test)]
mod tests;
