//! Decks the tests of all formats share: the demo decks, edited ones, and names that try to break out.

use crate::{
    curve::family::Family,
    demo::{self, cubics},
    design::{Design, Shape, Version},
    edit::{Edit, SweepEdit},
    layup::{Grain, Ply},
    outline::SpanEnd,
    workshop::{
        INPUTS,
        glue::Basis,
        press::Thread,
        record::{MEASURED, Record},
        species::SPECIES,
    },
};
use std::sync::Arc;

/// Names with line breaks, quotes, markup, format codes of drawings, and letters from everywhere.
pub(crate) const HOSTILE_NAMES: [&str; 8] = [
    "x\n0\nLINE\n8\n0",
    "\"quoted\" 'twice'",
    "</title><script>alert(1)</script>&amp;]]>",
    "漢字 Ærø ½ 🛹",
    "%%u 100%%% ^J \\P {\\H3;big} \\U+0041",
    "\u{202e}kcab\u{fffe}\u{ffff}",
    "",
    "a\u{0}b\u{7f}c\u{85}d",
];

/// Decks with every kind of joint, span and handle, every setting moved, an odd layup, and versions.
pub(super) fn decks() -> Vec<Design> {
    let mut decks: Vec<Design> = [demo::all(), cubics::all()].concat();
    for deck in cubics::all() {
        decks.extend(edited(&deck));
    }
    decks.extend(HOSTILE_NAMES.map(|name| demo::dunlin().renamed(name).unwrap()));
    decks.push(all_settings_moved());
    decks.extend(swept());
    decks.push(versioned());
    decks.push(told());
    decks
}

/// A deck after each of a run of edits.
fn edited(deck: &Design) -> Vec<Design> {
    let inner = deck.shape().outline.nodes.len() - 2;
    let place = deck.shape().outline.nodes[inner].place;
    let handle = deck.shape().outline.handle_place(inner, SpanEnd::Start).unwrap();
    let edits = [
        Edit::MoveNode { node: inner, to: place + kurbo::Vec2::new(-1.234_567, 0.765_432_1) },
        Edit::MoveHandle { span: inner, end: SpanEnd::Start, to: handle + kurbo::Vec2::new(2.0, 0.37) },
        Edit::AddNode { span: inner, near: place + kurbo::Vec2::new(60.0, -8.0) },
        Edit::SetSmooth { node: inner, smooth: false },
        Edit::SetStraight { span: inner - 1, straight: true },
        Edit::SetTwin(true),
        Edit::SetTwin(false),
        Edit::Annotate("two\nlines\tand a tab".to_owned()),
    ];
    let mut deck = deck.clone();
    edits
        .iter()
        .map(|edit| {
            deck = deck.apply(edit).unwrap_or_else(|refusal| panic!("{}: {edit:?}: {refusal}", deck.name()));
            deck.clone()
        })
        .collect()
}

/// Decks on which sweeps of all kinds are laid, the last also with one that is not.
pub(super) fn swept() -> Vec<Design> {
    let made = |deck: &Design, edit: SweepEdit| {
        let text = format!("{edit:?}");
        deck.apply(&Edit::Sweep(edit)).unwrap_or_else(|refusal| panic!("{text}: {refusal}"))
    };
    let families = [
        Family::Arc { radius: 110.0, turn: 1.3 },
        Family::Ellipse { along: 150.0, across: 95.5 },
        Family::Superellipse { along: 140.0, across: 99.0, exponent: 2.25 },
        Family::Clothoid { radius: 90.0, length: 160.0 },
    ];
    let mut decks = Vec::new();
    for (family, twin) in families.into_iter().zip([false, true, false, true]) {
        let deck = if twin { cubics::dunlin() } else { cubics::turnstone() };
        let nose = deck.shape().outline.nodes[deck.shape().outline.nodes.len() - 1].place;
        let deck = made(&deck, SweepEdit::Add { name: "½ \"round\"\n".to_owned(), family });
        let at = [nose + kurbo::Vec2::new(-125.0, 93.0), nose];
        decks.push(made(&deck, SweepEdit::Lay { sweep: 0, at }));
    }
    let deck = cubics::turnstone().apply(&Edit::SetBatten { span: 3, batten: true }).unwrap();
    let to = deck.shape().outline.nodes.len() - 1;
    let deck = made(&deck, SweepEdit::Add { name: "unused".to_owned(), family: families[0] });
    let deck = made(&deck, SweepEdit::Keep { from: 2, to, name: "nose and rail".to_owned() });
    let deck = made(&deck, SweepEdit::Keep { from: 3, to, name: "nose".to_owned() });
    let at = [(-248.0, 101.0).into(), (-400.0, 0.0).into()];
    decks.push(made(&deck, SweepEdit::Lay { sweep: 2, at }));
    decks
}

/// No setting has the value it has in the first demo deck.
pub(super) fn all_settings_moved() -> Design {
    let mut deck = demo::turnstone();
    for setting in crate::quantities::SETTINGS {
        let value = (setting.get)(deck.shape());
        let step = if value + 1e-3 * setting.most <= setting.most { 1e-3 } else { -1e-3 };
        let edit = Edit::Set { key: setting.quantity.key, value: value + step * setting.most };
        deck = deck.apply(&edit).unwrap();
    }
    let mut layup = deck.shape().layup.clone();
    let thickness = layup.plies[0].thickness;
    layup.plies.push(Ply { thickness, grain: Grain::Across, species: &SPECIES[3] });
    deck.with_shape(Shape { layup, ..deck.shape().clone() }).unwrap()
}

/// Two earlier shapes and notes.
pub(super) fn versioned() -> Design {
    let version = |name: &str, deck: Design| Version {
        name: name.to_owned(),
        note: "rode well\nbut slow".to_owned(),
        date: "2026-03-07".to_owned(),
        shape: Arc::new(deck.shape().clone()),
    };
    let versions = vec![version("first", cubics::whimbrel()), version("second", cubics::dunlin())];
    Design::new("Knot", "third try", cubics::turnstone().shape().clone(), versions).unwrap()
}

/// Nothing of the workshop is as usual, and two decks are pressed.
pub(super) fn told() -> Design {
    let deck = all_settings_moved();
    let mut inputs = deck.workshop().clone();
    for input in INPUTS {
        let usual = (input.get)(&inputs).unwrap_or(input.least);
        let value = if usual + 1.0 <= input.most { input.most.min(usual * 1.01 + 1.0) } else { input.least };
        (input.set)(&mut inputs, Some(value));
    }
    inputs.press.thread = Thread::Inch;
    inputs.glue.basis = Basis::BothFaces;
    inputs.glue.top_first = true;
    inputs.mould.name = "½ \"Saturday\"".to_owned();
    inputs.mould.locked = true;
    let mut record = Record {
        serial: "Knot 7".to_owned(),
        date: "2026-03-14".to_owned(),
        lots: "maple 12; glue 3".to_owned(),
        notes: "quick\nand quiet".to_owned(),
        graded: 0b101,
        metered: 0b1000_0001,
        ..Record::default()
    };
    let records = vec![Record::default(), {
        for (row, value) in MEASURED.iter().zip(&mut record.measured) {
            *value = Some(row.least + 0.37 * (row.most - row.least));
        }
        record
    }];
    deck.with_workshop(inputs).unwrap().with_records(records).unwrap()
}
