//! The build sheet: whatever the deck, all words stand inside the margins and none over another.

use crate::on_designs;
use halfbreadth_core::{
    demo,
    design::Design,
    export::{Export, Kind, Part, SheetOptions},
    language::{self, Catalogue},
    layup::{Grain, Ply},
    leaf::{Leaf, Mark},
    sheet::{MARGIN, Sheet, SheetPaper},
    units::{Denominator, System},
    workshop::{
        INPUTS,
        glue::Basis,
        record::{MEASURED, Record},
        species::SPECIES,
    },
};
use halfbreadth_tests::random::Random;
use kurbo::{Rect, Shape as _};

const SYSTEMS: [System; 2] = [System::Millimetres, System::Inches { denominator: Denominator::SixtyFourths }];
/// What two boxes of words may share, mm: letters do not fill their boxes.
const TOUCH: f64 = 0.05;

fn sheet(seed: u64, design: &Design, system: System, paper: SheetPaper) -> Sheet {
    let options =
        SheetOptions { paper, address: "https://example.org/".to_owned(), ..SheetOptions::default() };
    let export = Export { part: Part::Sheet, sheet: options, ..Export::default() };
    let made = export.make(design, system).unwrap_or_else(|error| panic!("seed {seed}: {error}"));
    let file = made.file(Kind::Pdf).unwrap_or_else(|error| panic!("seed {seed}: {error}"));
    assert_eq!(file.pages, 2);
    made.sheet.expect("the part is the sheet")
}

#[track_caller]
fn check(seed: u64, sheet: &Sheet) {
    for (i, page) in sheet.pages.iter().enumerate() {
        let inside = page.size.to_rect().inflate(0.01 - MARGIN, 0.01 - MARGIN);
        for mark in &page.marks {
            let area = match mark {
                Mark::Stroke { path, .. } | Mark::Fill { path, .. } => path.bounding_box(),
                Mark::Words { .. } => continue,
            };
            assert!(inside.inflate(0.6, 0.6).contains_rect(area), "seed {seed}, page {i}: a line at {area}");
        }
        no_words_over_words(seed, i, page, inside);
    }
}

#[track_caller]
fn no_words_over_words(seed: u64, i: usize, page: &Leaf, inside: Rect) {
    let texts: Vec<(Rect, &str)> = page.texts().collect();
    for (k, (area, text)) in texts.iter().enumerate() {
        assert!(inside.contains_rect(*area), "seed {seed}, page {i}: “{text}” at {area} is outside");
        for (other, words) in &texts[k + 1..] {
            let both = area.intersect(*other);
            let lie_over = both.width() > TOUCH && both.height() > TOUCH;
            assert!(!lie_over, "seed {seed}, page {i}: “{text}” over “{words}” at {both}");
        }
    }
}

/// A design with a random stack, random numbers of the workshop, long texts and a record.
fn worked(random: &mut Random, design: &Design) -> Design {
    let mut shape = design.shape().clone();
    let ply = |random: &mut Random| Ply {
        thickness: random.between(0.5, 3.0),
        grain: random.pick(&[Grain::Along, Grain::Across]),
        species: &SPECIES[random.below(SPECIES.len())],
    };
    shape.layup.plies = (0..3 + random.below(11)).map(|_| ply(random)).collect();
    let mut inputs = design.workshop().clone();
    for input in INPUTS {
        let value = (!input.optional || random.chance(0.5)).then(|| random.between(input.least, input.most));
        (input.set)(&mut inputs, value);
    }
    inputs.glue.basis = random.pick(&[Basis::Line, Basis::BothFaces]);
    inputs.glue.top_first = random.chance(0.5);
    inputs.mould.name = "W".repeat(random.below(80));
    let long = |random: &mut Random, most: usize| {
        let words = ["Wm", "漢字", "kink of the rail", "8 1/4", "supercalifragilistic", "Ärger", "\n"];
        let mut text = String::new();
        while text.chars().count() < most {
            text += random.pick(&words);
            text.push(' ');
        }
        text.chars().take(most).collect::<String>()
    };
    let mut record = Record {
        serial: long(random, 80).replace('\n', " "),
        date: "2026-11-26".to_owned(),
        lots: long(random, 200).replace('\n', " "),
        notes: long(random, 10_000),
        graded: 0x5555,
        metered: 0x3333,
        ..Record::default()
    };
    for (row, value) in MEASURED.iter().zip(&mut record.measured) {
        *value = random.chance(0.7).then(|| random.between(row.least, row.most));
    }
    let (name_length, notes_length) = (random.below(81), random.below(10_001));
    let design = design.with_shape(shape).and_then(|design| design.with_workshop(inputs));
    let design = design.and_then(|design| design.renamed(&long(random, name_length).replace('\n', " ")));
    let design = design.and_then(|design| design.annotated(&long(random, notes_length)));
    let design =
        design.and_then(|design| design.with_version(&"Wide W".repeat(random.below(13)), "2026-11-25"));
    let records = if random.chance(0.5) { vec![record] } else { Vec::new() };
    design.and_then(|design| design.with_records(records)).expect("all of it lies within its limits")
}

#[test]
fn every_design_has_a_sheet_on_which_nothing_lies_over_anything() {
    on_designs(60, |seed, design| {
        let mut random = Random::new(seed);
        let design = worked(&mut random, design);
        let system = SYSTEMS[random.below(2)];
        for (_, _, paper) in SheetPaper::NAMED {
            check(seed, &sheet(seed, &design, system, paper));
        }
    });
}

#[test]
fn plain_designs_have_one_too() {
    on_designs(40, |seed, design| check(seed, &sheet(seed, design, SYSTEMS[0], SheetPaper::Letter)));
    for deck in demo::all() {
        let deck = deck.annotated(&"n".repeat(10_000)).expect("it is as long as notes may be");
        check(0, &sheet(0, &deck, SYSTEMS[1], SheetPaper::A4));
    }
}

/// Its words are longer.
#[test]
fn plain_designs_have_one_in_german_too() {
    let german = include_str!("../../www/page/language/de.json");
    language::speak(Some(Catalogue::read("de", german).expect("the page reads it too")));
    on_designs(24, |seed, design| {
        let system = SYSTEMS[usize::from(seed % 2 == 0)];
        for (_, _, paper) in SheetPaper::NAMED {
            check(seed, &sheet(seed, design, system, paper));
        }
    });
    for deck in demo::all() {
        check(0, &sheet(0, &deck, SYSTEMS[0], SheetPaper::A4));
    }
}
