//! A design written as a file or a link is read back as the same design; damage is noticed.

use crate::on_designs;
use halfbreadth_core::format::{
    json::{self, Document},
    link,
};
use halfbreadth_tests::random::{self, Random};

#[test]
fn a_file_read_back_is_the_same_design_and_writes_the_same_bytes() {
    on_designs(400, |seed, design| {
        let text = json::write(&Document::from(design.clone()));
        let read = json::read(&text).unwrap_or_else(|error| panic!("seed {seed}: {error}"));
        assert_eq!(&read.design, design, "seed {seed}");
        assert_eq!(json::write(&read), text, "seed {seed}");
    });
}

#[test]
fn a_link_opens_to_the_same_shape_and_name() {
    on_designs(400, |seed, design| {
        let text = link::encode(design);
        assert_eq!(link::decode(&text), Ok(design.shared()), "seed {seed}");
    });
}

/// After a run of edits too, when nodes stand where nobody typed them.
#[test]
fn an_edited_design_survives_both() {
    for seed in 0..60 {
        let random = &mut Random::new(seed);
        let mut design = random::design(random);
        for _ in 0..20 {
            let edit = random::edit(random, &design);
            design = design.apply(&edit).unwrap_or(design);
        }
        let text = json::write(&Document::from(design.clone()));
        assert_eq!(json::read(&text).map(|read| read.design).as_ref(), Ok(&design), "seed {seed}");
        assert_eq!(link::decode(&link::encode(&design)), Ok(design.shared()), "seed {seed}");
    }
}

#[test]
fn a_link_with_one_character_changed_or_missing_is_refused() {
    on_designs(60, |seed, design| {
        let random = &mut Random::new(seed + 3_000_000);
        let text = link::encode(design);
        for _ in 0..20 {
            let at = random.below(text.len());
            let mut damaged = text.clone();
            if random.chance(0.5) {
                damaged.remove(at);
            } else {
                let other = random.pick(&["A", "b", "7", "-", "_", "%", "é"]);
                damaged.replace_range(at..=at, other);
            }
            assert!(damaged == text || link::decode(&damaged).is_err(), "seed {seed}: {damaged}");
        }
    });
}

#[test]
fn a_damaged_file_is_refused_or_read_and_never_panics() {
    on_designs(60, |seed, design| {
        let random = &mut Random::new(seed + 4_000_000);
        let text = json::write(&Document::from(design.clone()));
        for _ in 0..20 {
            let mut bytes = text.clone().into_bytes();
            for _ in 0..=random.below(3) {
                let at = random.below(bytes.len());
                bytes[at] = random.pick(b"0123456789-.eE\"{}[]:, ntfu\\\x00");
            }
            let damaged = String::from_utf8(bytes).unwrap();
            if let Ok(read) = json::read(&damaged) {
                _ = json::write(&read);
            }
        }
    });
}
