//! Short names between the wasm and its JavaScript: nobody reads the long ones, and the hash in each cannot be packed.

use anyhow::{Result, ensure};
use wasm_bindgen_cli_support::Output;

/// The long names, each with its short one.
pub(crate) struct Names(Vec<(String, String)>);

impl Names {
    /// Gives everything that the wasm takes from its JavaScript a name of one or two letters.
    ///
    /// What the package offers to pages and scripts keeps its name: that is exported, not imported.
    pub(crate) fn shorten(bound: &mut Output) -> Self {
        let mut names: Vec<(String, String)> = Vec::new();
        for import in bound.wasm_mut().imports.iter_mut() {
            let short = letters(names.len());
            names.push((std::mem::replace(&mut import.name, short.clone()), short));
        }
        Self(names)
    }

    /// The JavaScript with the same names.
    ///
    /// # Errors
    ///
    /// When it does not have each name exactly once, as a key of its imports.
    pub(crate) fn in_script(&self, script: &str) -> Result<String> {
        let mut script = script.to_owned();
        for (long, short) in &self.0 {
            let key = format!(" {long}: ");
            let found = script.matches(&key).count();
            ensure!(found == 1, "the binding to JavaScript has “{long}” {found} times, not once");
            script = script.replacen(&key, &format!(" {short}: "), 1);
        }
        Ok(script)
    }
}

/// The name of that place in a list: `a`, `b` … `z`, `aa`, `ab`.
fn letters(place: usize) -> String {
    const LETTERS: &[u8] = b"abcdefghijklmnopqrstuvwxyz";
    let (before, last) = (place / LETTERS.len(), place % LETTERS.len());
    let mut name = before.checked_sub(1).map_or(String::new(), letters);
    name.push(char::from(LETTERS[last]));
    name
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_place_has_a_name_of_its_own() {
        let names: Vec<String> = (0..1000).map(letters).collect();
        assert_eq!(
            [0, 25, 26, 27, 701, 702].map(|place| names[place].as_str()),
            ["a", "z", "aa", "ab", "zz", "aaa"]
        );
        let mut sorted = names.clone();
        sorted.sort();
        sorted.dedup();
        assert_eq!(sorted.len(), names.len());
    }

    #[test]
    fn a_name_that_is_not_there_once_is_refused() {
        let names = Names(vec![("long".to_owned(), "a".to_owned())]);
        assert_eq!(names.in_script("{ long: 1, longer: 2 }").unwrap(), "{ a: 1, longer: 2 }");
        assert!(names.in_script("{ longer: 2 }").is_err());
        assert!(names.in_script("{ long: 1, long: 2 }").is_err());
    }
}
