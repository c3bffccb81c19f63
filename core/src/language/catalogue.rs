//! A catalogue: what each English text is in another language.

use crate::format::json::{NotJson, Value};

/// What each English text is in one other language.
#[derive(Debug)]
pub struct Catalogue {
    pub(super) code: &'static str,
    pub(super) comma: bool,
    /// English and the other, in the order of the bytes of the English.
    pairs: Vec<(String, String)>,
}

impl Catalogue {
    /// The key whose text is the decimal mark.
    const MARK: &'static str = ".";

    /// Reads a flat JSON object, English to the other language, in the order of the bytes of its keys: what stands out of
    /// order may not be found. The entry `"."` is the decimal mark.
    ///
    /// A catalogue is kept for as long as the program runs: its texts stand in for those of the program.
    ///
    /// # Errors
    ///
    /// [`NotJson`], where the text cannot be read. What is no pair of texts is left out.
    pub fn read(code: &str, json: &str) -> Result<&'static Self, NotJson> {
        let mut pairs = Vec::new();
        if let Value::Object(object) = Value::read(json, 2)? {
            for (english, other) in object.entries {
                if let Value::Text(other) = other {
                    pairs.push((english, other));
                }
            }
        }
        let mut catalogue = Self { code: Box::leak(Box::from(code)), comma: false, pairs };
        catalogue.comma = catalogue.get(Self::MARK) == Some(",");
        Ok(Box::leak(Box::new(catalogue)))
    }

    /// The text that stands for an English one.
    pub(super) fn find(&'static self, english: &str) -> Option<&'static str> {
        self.get(english)
    }

    fn get(&self, english: &str) -> Option<&str> {
        let place = self.pairs.binary_search_by(|pair| pair.0.as_str().cmp(english)).ok()?;
        Some(&self.pairs[place].1)
    }

    /// All pairs, English first.
    pub fn pairs(&self) -> impl Iterator<Item = (&str, &str)> {
        self.pairs.iter().map(|(english, other)| (english.as_str(), other.as_str()))
    }
}
