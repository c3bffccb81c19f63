use super::*;
use crate::{demo, edit::Edit, format::link};

fn sheet_of(design: &Design, system: System, paper: SheetPaper) -> Sheet {
    let link = ["https://example.org/", link::FRAGMENT, &link::encode(design)].concat();
    let input = SheetInput {
        design,
        template: &TemplateOptions { date: "2026-11-26".to_owned(), ..TemplateOptions::default() },
        system,
        paper,
        record: design.records().last(),
        link: &link,
        code: "AbC123",
    };
    Sheet::of(&input).unwrap()
}

fn inches() -> System {
    System::Inches { denominator: crate::units::Denominator::default() }
}

/// Every text inside the margins, and no two over one another.
#[track_caller]
fn check(sheet: &Sheet) {
    for (i, page) in sheet.pages.iter().enumerate() {
        let inside = page.size.to_rect().inflate(-MARGIN, -MARGIN).inflate(0.01, 0.01);
        let texts: Vec<_> = page.texts().collect();
        for (k, (area, text)) in texts.iter().enumerate() {
            assert!(inside.contains_rect(*area), "page {}: “{text}” at {area} is outside {inside}", i + 1);
            for (other, words) in &texts[k + 1..] {
                let both = area.intersect(*other);
                let touch = both.width() > 0.05 && both.height() > 0.05;
                assert!(!touch, "page {}: “{text}” lies over “{words}” at {both}", i + 1);
            }
        }
    }
}

#[test]
fn the_demo_decks_have_sheets_in_both_units_on_both_papers() {
    for deck in demo::all() {
        for system in [System::Millimetres, inches()] {
            for paper in [SheetPaper::A4, SheetPaper::Letter] {
                check(&sheet_of(&deck, system, paper));
            }
        }
    }
}

#[test]
fn long_names_and_notes_are_made_to_fit_and_cut_with_words() {
    let deck = demo::turnstone().renamed(&"Wide W".repeat(13)).unwrap();
    let deck = deck.annotated(&"a word or two\n".repeat(700)).unwrap();
    let sheet = sheet_of(&deck, System::Millimetres, SheetPaper::Letter);
    check(&sheet);
    assert!(sheet.pages[0].texts().any(|(_, text)| text.starts_with("… cut here: ")));
}

#[test]
fn most_plies_still_make_a_sheet() {
    let mut shape = demo::whimbrel().shape().clone();
    let ply = shape.layup.plies[0].clone();
    shape.layup.plies.resize(13, ply);
    let deck = demo::whimbrel().with_shape(shape).unwrap();
    for paper in [SheetPaper::A4, SheetPaper::Letter] {
        check(&sheet_of(&deck, inches(), paper));
    }
    let deck = deck.apply(&Edit::Set { key: "blank-width", value: 190.0 }).unwrap();
    check(&sheet_of(&deck, System::Millimetres, SheetPaper::A4));
}

#[test]
fn no_torque_is_given_without_the_limit_of_the_mould() {
    let sheet = sheet_of(&demo::dunlin(), System::Millimetres, SheetPaper::A4);
    let has = |words: &str| sheet.pages[1].texts().any(|(_, text)| text == words);
    assert!(has("none: the mould's limit is not given") && !has("12.0 N m"));
}

#[test]
fn whatever_the_glue_is_reckoned_from_stands_on_the_sheet() {
    let sheet = sheet_of(&demo::turnstone(), System::Millimetres, SheetPaper::A4);
    let all = |page: usize| {
        sheet.pages[page].texts().map(|(_, text)| text.to_owned()).collect::<Vec<_>>().join(" ")
    };
    let (first, second) = (all(0), all(1));
    for words in ["838.2 × 241.3 mm", "267 g", "243 ml"] {
        assert!(second.contains(words), "{words}: {second}");
    }
    for words in
        ["Glue per line 200 g/m²", "Glue lost 10.0 %", "Glue density 1.100 g/cm³", "Proof stress 225.00 MPa"]
    {
        assert!(first.contains(words), "{words}: {first}");
    }
    assert!(!first.contains("12.0 N m"), "a torque that is not given stands on no page");
}
