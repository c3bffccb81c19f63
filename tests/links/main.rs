//! Every link ever released opens to the same deck for ever.
//!
//! `vN/NAME.link` holds a link of version N, and `vN/NAME.json` the deck it must open to, as a design file. A fixture that
//! is there is never written again: to add one, put its design file there and run with `HALFBREADTH_REWRITE=1`, which
//! writes the links that are missing. Before a version is released its links may be deleted and written so again.

#![expect(clippy::unwrap_used, reason = "a test fails it that way")]

use halfbreadth_core::{
    design::Design,
    format::{json, link},
};
use halfbreadth_tests::kept;
use std::{
    fs,
    path::{Path, PathBuf},
};

/// The design files of all fixtures.
fn fixtures() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("links");
    let entries = |folder: &Path| fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let versions = entries(&folder).filter(|path| path.is_dir());
    let files = versions.flat_map(|version| entries(&version));
    let mut designs: Vec<PathBuf> = files.filter(|path| path.extension() == Some("json".as_ref())).collect();
    designs.sort();
    designs
}

fn design(file: &Path) -> Design {
    json::read(&kept::text(file)).unwrap_or_else(|error| panic!("{}: {error}", file.display())).design
}

/// The link that lies beside a design file; written first if it is missing and that is asked for.
#[track_caller]
fn released(file: &Path) -> String {
    let link = file.with_extension("link");
    if kept::is_rewriting() && !link.exists() {
        fs::write(&link, format!("{}{}\n", link::FRAGMENT, link::encode(&design(file)))).unwrap();
    }
    kept::text(&link)
}

#[test]
fn every_released_link_opens_to_its_deck() {
    let fixtures = fixtures();
    assert!(fixtures.len() >= 10, "fixtures are gone: there are {}", fixtures.len());
    for file in fixtures {
        assert_eq!(link::decode(&released(&file)), Ok(design(&file).shared()), "{}", file.display());
    }
}

/// A deck that came by an old link is sent on by a new one.
#[test]
fn a_deck_from_any_released_link_goes_into_a_link_of_today() {
    for file in fixtures() {
        let opened = link::decode(&released(&file)).unwrap();
        assert_eq!(link::decode(&link::encode(&opened)), Ok(opened), "{}", file.display());
    }
}
