//! The language that people read: English where it is used, other languages from a catalogue.
//!
//! English is the key. A sentence with something in it is [`say!`](crate::say); a plain word or sentence is looked up by [`said`]. As
//! a rule, which the page relies on, a `&'static str` is English that nobody has looked up yet, and a `String` is said
//! already, or a person's own words.
//!
//! One catalogue at a time is current in each thread, none at first. Files and scripts are English whatever the page
//! speaks: they are made while [`English`] is held.
//!
//! ```
//! use halfbreadth_core::{language, say};
//!
//! let (ply, face) = (3, "upper face");
//! assert_eq!(say!("Spread ply {ply}, {face}", ply, face), "Spread ply 3, upper face");
//!
//! let german = r#"{"Spread ply {ply}, {face}": "{face} von Lage {ply} einleimen", "upper face": "Oberseite"}"#;
//! language::speak(Some(language::Catalogue::read("de", german)?));
//! assert_eq!(say!("Spread ply {ply}, {face}", ply, face), "Oberseite von Lage 3 einleimen");
//! # Ok::<(), halfbreadth_core::format::json::NotJson>(())
//! ```

mod catalogue;
mod holes;

pub use self::{
    catalogue::Catalogue,
    holes::{Own, Say, check, fill, write},
};

pub(crate) use self::holes::say_displayed;

use core::cell::Cell;
#[cfg(not(target_family = "wasm"))]
use core::cell::RefCell;

thread_local! {
    static CURRENT: Cell<Option<&'static Catalogue>> = const { Cell::new(None) };
    /// Not in the page, where nobody asks for it.
    #[cfg(not(target_family = "wasm"))]
    static MISSED: RefCell<Vec<&'static str>> = const { RefCell::new(Vec::new()) };
}

/// Says everything from now on in this thread as the catalogue does, or in English.
pub fn speak(catalogue: Option<&'static Catalogue>) {
    CURRENT.set(catalogue);
}

/// The code of the current language, as BCP 47 has it: `en`, `de`.
#[must_use]
pub fn code() -> &'static str {
    CURRENT.get().map_or("en", |catalogue| catalogue.code)
}

/// A word or sentence without holes, in the current language; as it stands where the catalogue does not have it.
#[must_use]
pub fn said(english: &'static str) -> &'static str {
    let Some(catalogue) = CURRENT.get() else { return english };
    if let Some(found) = catalogue.find(english) {
        return found;
    }
    #[cfg(not(target_family = "wasm"))]
    miss(english);
    english
}

#[cfg(not(target_family = "wasm"))]
fn miss(english: &'static str) {
    MISSED.with_borrow_mut(|missed| {
        if english.contains(char::is_alphabetic) && !missed.contains(&english) {
            missed.push(english);
        }
    });
}

/// What is in the current language already, or is English that was kept: of that, what the catalogue has for it.
#[must_use]
pub fn looked_up(text: &str) -> &str {
    CURRENT.get().and_then(|catalogue| catalogue.find(text)).unwrap_or(text)
}

/// A label as it stands within a sentence. English writes it small there; other languages as their catalogue has it.
#[must_use]
pub fn within(label: &'static str) -> String {
    match CURRENT.get() {
        None => label.to_ascii_lowercase(),
        Some(_) => said(label).to_owned(),
    }
}

/// A figure with the decimal mark of the current language, from one with a point.
#[must_use]
pub fn figure(digits: String) -> String {
    if CURRENT.get().is_none_or(|catalogue| !catalogue.comma) {
        return digits;
    }
    digits.chars().map(|digit| if digit == '.' { ',' } else { digit }).collect()
}

/// The English texts that were asked for and that a current catalogue did not have: each once, in the order of asking.
///
/// Kept while the thread lives, for tests of a catalogue.
#[cfg(not(target_family = "wasm"))]
#[must_use]
pub fn missed() -> Vec<&'static str> {
    MISSED.with_borrow(Clone::clone)
}

/// While it is held, its thread speaks English: files and scripts do not change with the reader.
#[derive(Debug)]
pub struct English(Option<&'static Catalogue>);

impl English {
    /// Speaks English until the answer is dropped.
    #[must_use]
    pub fn only() -> Self {
        Self(CURRENT.replace(None))
    }
}

impl Drop for English {
    fn drop(&mut self) {
        CURRENT.set(self.0);
    }
}

/// A sentence with holes in it, filled, in the current language.
///
/// `say!("{found} is too small (at least {least})", found = show(value), least)`: the English template, then each hole
/// once, by name, in the order of the template; a variable of the hole's name needs no `=`. What goes into a hole is
/// anything that implements [`Say`]. `say!(in f, …)` writes it into a formatter. A catalogue may put the holes in another order, use one twice or leave one out.
#[macro_export]
macro_rules! say {
    (in $formatter:expr, $template:literal $(, $hole:ident $(= $value:expr)?)* $(,)?) => {{
        const _: () = $crate::language::check($template, &[$(stringify!($hole)),*]);
        $crate::language::write($formatter, $template, &[$($crate::say!(@ $hole $($value)?)),*])
    }};
    ($template:literal $(, $hole:ident $(= $value:expr)?)* $(,)?) => {{
        const _: () = $crate::language::check($template, &[$(stringify!($hole)),*]);
        $crate::language::fill($template, &[$($crate::say!(@ $hole $($value)?)),*])
    }};
    (@ $hole:ident) => { &$hole };
    (@ $hole:ident $value:expr) => { &$value };
}

#[cfg(test)]
mod tests;
