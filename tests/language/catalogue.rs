//! What must hold of a catalogue by itself, and beside the texts that are there.

use crate::{LANGUAGES, none, page, pairs, sources};
use std::collections::{BTreeMap, BTreeSet};

/// The holes of a template.
fn holes(text: &str) -> BTreeSet<&str> {
    text.split('{').skip(1).filter_map(|part| part.split_once('}')).map(|(hole, _)| hole).collect()
}

/// What stands before and behind the words of a piece of a sentence.
fn ends(text: &str) -> (bool, bool) {
    (text.starts_with(' '), text.ends_with(' '))
}

#[test]
fn both_texts_of_a_pair_have_the_same_holes_and_the_same_spaces_around_them() {
    for code in LANGUAGES {
        let odd = pairs(code).into_iter().filter(|(english, other)| {
            holes(english) != holes(other) || ends(english) != ends(other) || other.trim().is_empty()
        });
        none(code, &odd.map(|pair| format!("{pair:?}")).collect::<Vec<_>>());
    }
}

/// The page looks up what it finds, and must not find what it has put there itself.
#[test]
fn no_text_stands_for_another_one_by_two_steps() {
    for code in LANGUAGES {
        let pairs: BTreeMap<String, String> = pairs(code).into_iter().collect();
        let chained = pairs.values().filter(|other| pairs.get(*other).is_some_and(|next| next != *other));
        none(code, &chained.cloned().collect::<Vec<_>>());
    }
}

#[test]
fn every_text_of_program_and_page_has_its_pair() {
    let mut wanted: Vec<(String, String)> = sources::for_people();
    wanted.extend(page::texts());
    assert!(wanted.len() > 1400, "only {} texts were found", wanted.len());
    for code in LANGUAGES {
        let known: BTreeSet<String> = pairs(code).into_iter().map(|pair| pair.0).collect();
        let missing = wanted.iter().filter(|(_, text)| !known.contains(text));
        none(code, &missing.map(|(place, text)| format!("{place}: {text:?}")).collect::<Vec<_>>());
    }
}

#[test]
fn every_pair_is_of_a_text_that_is_there() {
    let mut there: BTreeSet<String> = sources::all().into_iter().map(|(_, text)| text).collect();
    // The page takes its texts without the spaces around them.
    there.extend(there.clone().iter().map(|text| text.trim().to_owned()));
    there.extend(page::texts().into_iter().map(|(_, text)| text));
    for code in LANGUAGES {
        let left =
            pairs(code).into_iter().map(|pair| pair.0).filter(|text| text != "." && !there.contains(text));
        none(code, &left.collect::<Vec<_>>());
    }
}
