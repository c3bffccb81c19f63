//! Files kept in the repository, which what the program makes must equal byte for byte.

use std::{env, fs, path::Path};

/// The variable of the environment that has such files written anew instead of compared: for a change made on purpose.
pub const REWRITE: &str = "HALFBREADTH_REWRITE";

/// Whether files are written anew.
#[must_use]
pub fn is_rewriting() -> bool {
    env::var_os(REWRITE).is_some_and(|value| !value.is_empty())
}

/// The text of a kept file.
///
/// # Panics
///
/// Where it cannot be read.
#[must_use]
#[track_caller]
pub fn text(path: &Path) -> String {
    fs::read_to_string(path)
        .unwrap_or_else(|error| panic!("{}: {error}; {REWRITE}=1 writes it", path.display()))
}

/// Compares a kept file with what is made now, or writes it anew.
///
/// # Panics
///
/// Where they differ, with the first line that does.
#[track_caller]
pub fn check(path: &Path, made: &str) {
    if is_rewriting() {
        fs::write(path, made).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        return;
    }
    let kept = text(path);
    if kept == made {
        return;
    }
    let (mut was, mut is) = (kept.split('\n'), made.split('\n'));
    for number in 1_usize.. {
        let lines = (was.next(), is.next());
        assert!(
            lines.0 == lines.1,
            "{}:{number}\n was {:?}\n is  {:?}\n{REWRITE}=1 keeps what is, if the change is meant",
            path.display(),
            lines.0.unwrap_or("the end"),
            lines.1.unwrap_or("the end"),
        );
    }
}

/// Compares a kept file of any bytes with what is made now, or writes it anew.
///
/// # Panics
///
/// Where they differ, with the first place that does.
#[track_caller]
pub fn check_bytes(path: &Path, made: &[u8]) {
    if is_rewriting() {
        fs::write(path, made).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        return;
    }
    let kept =
        fs::read(path).unwrap_or_else(|error| panic!("{}: {error}; {REWRITE}=1 writes it", path.display()));
    let place = kept.iter().zip(made).position(|(was, is)| was != is);
    let place = place.or_else(|| (kept.len() != made.len()).then_some(kept.len().min(made.len())));
    if let Some(place) = place {
        let around = |bytes: &[u8]| {
            let from = place.saturating_sub(40);
            String::from_utf8_lossy(&bytes[from..bytes.len().min(place + 40)]).into_owned()
        };
        panic!(
            "{} at byte {place}\n was {:?}\n is  {:?}\n{REWRITE}=1 keeps what is, if the change is meant",
            path.display(),
            around(&kept),
            around(made),
        );
    }
}
