//! What goes into the holes of a sentence, and how a template is filled.

use super::said;
use crate::units::{Shown, push_whole};
use core::fmt;

/// What can go into a hole of a sentence.
///
/// A `&'static str` is English and is looked up; a `String` is said already. Borrowed text that may be a person's own
/// words goes in as [`Own`].
pub trait Say {
    /// Writes it in the current language.
    fn say(&self, to: &mut String);
}

/// Words that no catalogue has: a name, a key, a symbol.
#[derive(Clone, Copy, Debug)]
pub struct Own<'a>(
    /// The words, verbatim.
    pub &'a str,
);

impl Say for Own<'_> {
    fn say(&self, to: &mut String) {
        to.push_str(self.0);
    }
}

impl Say for &'static str {
    fn say(&self, to: &mut String) {
        to.push_str(said(self));
    }
}

impl Say for String {
    fn say(&self, to: &mut String) {
        to.push_str(self);
    }
}

impl Say for Shown {
    fn say(&self, to: &mut String) {
        to.push_str(&self.text);
        to.push_str(self.space());
        to.push_str(self.unit);
    }
}

impl<T: Say + ?Sized> Say for &T {
    fn say(&self, to: &mut String) {
        T::say(self, to);
    }
}

macro_rules! say_whole {
    ($($kind:ty),*) => {$(
        impl Say for $kind {
            fn say(&self, to: &mut String) {
                push_whole(to, u64::try_from(self.abs_diff(0)).unwrap_or(u64::MAX), *self < (0 as $kind));
            }
        }
    )*};
}
say_whole!(i32, i64, u8, u16, u32, u64, usize);

/// Implements [`Say`] for messages with [`Words`] or `Display`, which are said in the current language already.
macro_rules! say_displayed {
    ($($name:ty),* $(,)?) => {$(
        impl $crate::language::Say for $name {
            fn say(&self, to: &mut String) {
                to.push_str(&self.to_string());
            }
        }
    )*};
}
pub(crate) use say_displayed;

/// A template with its holes filled. Use [`say!`](crate::say), which checks the holes.
#[must_use]
pub fn fill(template: &'static str, holes: &[&dyn Say]) -> String {
    let mut parts = said(template).split('{');
    let mut text = String::from(parts.next().unwrap_or_default());
    for part in parts {
        let Some((name, after)) = part.split_once('}') else { continue };
        let place = template
            .split('{')
            .skip(1)
            .position(|hole| hole.strip_prefix(name).is_some_and(|rest| rest.starts_with('}')));
        if let Some(hole) = place.and_then(|place| holes.get(place)) {
            hole.say(&mut text);
        }
        text.push_str(after);
    }
    text
}

/// Writes a template with its holes filled, for `Display`. Use [`say!`](crate::say).
///
/// # Errors
///
/// Only those of `f` itself.
pub fn write(f: &mut fmt::Formatter<'_>, template: &'static str, holes: &[&dyn Say]) -> fmt::Result {
    f.write_str(&fill(template, holes))
}

/// Stops the build where the names are not those of the template's holes, in their order, each once.
///
/// # Panics
///
/// Then.
pub const fn check(template: &str, names: &[&str]) {
    let text = template.as_bytes();
    let (mut at, mut hole) = (0, 0);
    while at < text.len() {
        if text[at] == b'{' {
            assert!(hole < names.len(), "the template has a hole more than there are names");
            let name = names[hole].as_bytes();
            let mut i = 0;
            while i < name.len() {
                assert!(text[at + 1 + i] == name[i], "the names are not those of the holes, in their order");
                i += 1;
            }
            assert!(text[at + 1 + i] == b'}', "the names are not those of the holes, in their order");
            hole += 1;
        }
        at += 1;
    }
    assert!(hole == names.len(), "there are more names than holes in the template");
}
