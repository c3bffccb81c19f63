//! What people download changes only on purpose: every file of a deck, byte for byte.
//!
//! Beside each design file `NAME.json` lie the drawings, the link, the measures and the workshop's figures made from it. The design files of the
//! demo decks are made too; `knot.json` is only read and written again, so that no better solver changes it: a twin of
//! battens with a straight rail, with locks, notes, an odd layup, a workshop of its own, a record, versions, and a key of
//! somebody else's. `tests/browser/golden.test.mjs` asks the wasm for the same bytes. `exports.json` lists files of templates, saw lines and tables with the options of scripts.

#![expect(clippy::unwrap_used, reason = "a test fails it that way")]

use halfbreadth_core::{
    demo,
    design::Design,
    editor::outside,
    export::{Choice, Export, Kind, Length},
    format::{
        dxf,
        json::{self, Document},
        link, svg,
    },
    measure::Measured,
    outline::Span,
    quantities::{MEASURES, Quantity, Reading},
    units::System,
    workshop::{FIGURES, Inputs, Workshop},
};
use halfbreadth_tests::kept;
use std::path::{Path, PathBuf};

fn path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("golden").join(name)
}

/// The design in the file of the deck with everything about it.
fn knot() -> Document {
    json::read(&kept::text(&path("knot.json"))).unwrap()
}

/// Checks every file of a deck.
#[track_caller]
fn check(name: &str, document: &Document) {
    let design = &document.design;
    kept::check(&path(&format!("{name}.json")), &json::write(document));
    kept::check(&path(&format!("{name}.svg")), &svg::export(design));
    kept::check(&path(&format!("{name}.dxf")), &dxf::export(design));
    kept::check(&path(&format!("{name}.link")), &format!("{}{}\n", link::FRAGMENT, link::encode(design)));
    kept::check(&path(&format!("{name}.measures.json")), &measures(design));
    kept::check(&path(&format!("{name}.workshop.json")), &figures(design));
}

/// Every measure under its key, in the digits that tell a number from all others.
fn measures(design: &Design) -> String {
    let measured = Measured::of(design.shape());
    listed(MEASURES.iter().map(|m| line(&m.quantity, (m.read)(&measured))))
}

/// Every figure of the workshop, the same way.
fn figures(design: &Design) -> String {
    let measured = Measured::of(design.shape());
    let workshop = Workshop::of(design.shape(), &measured, design.workshop());
    listed(FIGURES.iter().map(|f| line(&f.quantity, (f.read)(&workshop))))
}

fn line(quantity: &Quantity, reading: Reading) -> String {
    let value = reading.value.map(|value| outside(value, quantity.unit));
    format!("  \"{}\": {}", quantity.key, value.map_or("null".to_owned(), |value| value.to_string()))
}

fn listed(lines: impl Iterator<Item = String>) -> String {
    format!("{{\n{}\n}}\n", lines.collect::<Vec<_>>().join(",\n"))
}

#[test]
fn the_files_of_the_first_demo_deck_are_as_they_were() {
    check("turnstone", &demo::turnstone().into());
}

#[test]
fn the_files_of_the_second_demo_deck_are_as_they_were() {
    check("whimbrel", &demo::whimbrel().into());
}

#[test]
fn the_files_of_the_third_demo_deck_are_as_they_were() {
    check("dunlin", &demo::dunlin().into());
}

#[test]
fn the_files_of_a_deck_with_everything_about_it_are_as_they_were() {
    check("knot", &knot());
}

/// The key of a choice that scripts call otherwise.
fn key(option: &str) -> &str {
    match option {
        "dxfVersion" => "dxf-version",
        "paperWidth" => "paper-width",
        "tolerance" => "mark-out-tolerance",
        other => other,
    }
}

#[test]
fn templates_saw_lines_and_tables_leave_as_they_did() {
    let listed: serde_json::Value = serde_json::from_str(&kept::text(&path("exports.json"))).unwrap();
    let listed = listed.as_array().unwrap();
    assert!(listed.len() >= 10);
    for entry in listed {
        let text = |key: &str| entry[key].as_str().unwrap();
        let mut export = Export::default();
        for (option, value) in entry["options"].as_object().unwrap() {
            if option == "date" {
                value.as_str().unwrap().clone_into(&mut export.template.date);
            } else if let Some(choice) = Choice::named(key(option)) {
                choice.set(&mut export, value.as_str().unwrap()).unwrap();
            } else {
                Length::named(key(option)).unwrap().set(&mut export, value.as_f64().unwrap()).unwrap();
            }
        }
        let deck = json::read(&kept::text(&path(&format!("{}.json", text("deck"))))).unwrap().design;
        let made = export.make(&deck, System::default()).unwrap();
        let file = made.file(Kind::named(text("kind")).unwrap()).unwrap();
        kept::check_bytes(&path(text("file")), &file.bytes);
    }
}

#[test]
fn the_deck_with_everything_about_it_has_everything() {
    let Document { design, extras } = knot();
    let outline = &design.shape().outline;
    assert!(outline.twin);
    assert!(outline.spans.iter().filter(|span| matches!(span, Span::Batten { .. })).count() >= 2);
    assert!(outline.spans.contains(&Span::Straight));
    assert!(design.locks().len() >= 2 && design.versions().len() >= 2);
    assert!(design.workshop() != &Inputs::default() && !design.records().is_empty());
    assert!(!design.notes().is_empty() && !extras.entries.is_empty());
}
