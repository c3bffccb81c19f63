//! What must hold of everything a reader lets through, however hostile the bytes.
//!
//! A target finds a panic (overflow and debug assertions included), an input that takes longer than the limit given to
//! the run, memory beyond its limit, and whatever is asserted here.

use base64ct::{Base64UrlUnpadded, Encoding};
use halfbreadth_core::{
    capture::{
        Taken,
        drawing::{self, LengthUnit},
        measured, table,
    },
    demo,
    design::Design,
    editor::{Editor, Settings},
    export::{Export, Kind, Part},
    format::{
        json::{self, Document},
        link,
    },
    history::History,
    units::{self, System, Unit},
};
use kurbo::Size;

/// A whole address, a fragment, or any text, as a person pastes it.
pub fn link_text(bytes: &[u8]) {
    if let Ok(design) = link::decode(&String::from_utf8_lossy(bytes)) {
        opened(&design);
    }
}

/// The content of a link that arrived as it was made: chance alone never meets the checksum.
pub fn link_payload(bytes: &[u8]) {
    let sum = crc32(bytes);
    let content = Base64UrlUnpadded::encode_string(&[bytes, &sum.to_le_bytes()].concat());
    if let Ok(design) = link::decode(&content) {
        opened(&design);
    }
}

/// A design file.
pub fn json(bytes: &[u8]) {
    let Ok(document) = json::read(&String::from_utf8_lossy(bytes)) else { return };
    let written = json::write(&document);
    let again = json::read(&written).expect("what is written can be read");
    assert_eq!(document.design, again.design, "a file and back is the same design");
    assert_eq!(written, json::write(&again), "and the same file");
    opened(&document.design);
}

/// A text typed into a field of any unit, in both systems.
pub fn typed(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    for unit in UNITS {
        for system in [System::Millimetres, System::Inches { denominator: units::Denominator::default() }] {
            let Ok(value) = units::parse(&text, unit, system) else { continue };
            assert!(value.is_finite(), "{text:?} as {unit:?} is {value}");
            let entry = units::entry(value, unit, system);
            assert!(units::parse(&entry, unit, system).is_ok(), "{text:?} is shown as {entry:?}, which cannot be typed");
        }
    }
}

/// A table of measurements, typed, pasted or from a file.
pub fn table(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    for system in [System::Millimetres, System::Inches { denominator: units::Denominator::default() }] {
        let Ok(rows) = table::read(&text, system) else { continue };
        // The fit of many rows takes longer than it takes to find what a reader lets through.
        if rows.len() <= 24 {
            if let Ok(taken) = measured::fit(&rows, &measured::Options::default(), demo::turnstone().shape()) {
                took(&taken);
            }
        }
    }
}

/// A drawing, SVG or DXF, in a unit that its length chooses.
pub fn drawing(bytes: &[u8]) {
    let unit = LengthUnit::ALL.get(bytes.len() % (LengthUnit::ALL.len() + 1)).copied();
    let options = drawing::Options { unit, ..drawing::Options::default() };
    if let Ok(taken) = drawing::read(&String::from_utf8_lossy(bytes), &options, demo::turnstone().shape()) {
        took(&taken);
    }
}

/// A shape that was found: it is taken or refused, and its figures are numbers.
fn took(taken: &Taken) {
    assert!(taken.misfit().is_finite(), "the misfit is {}", taken.misfit());
    let deck = demo::turnstone();
    if let Ok(design) = deck.apply(&taken.edit()) {
        opened(&design);
    }
}

/// A design that was let through: everything the page does on opening it, and every file of it.
pub fn opened(design: &Design) {
    assert_eq!(link::decode(&link::encode(design)).as_ref(), Ok(&design.shared()), "a link and back");
    let document = Document { design: design.clone(), extras: json::Object::default() };
    assert_eq!(json::read(&json::write(&document)).expect("it can be read").design, *design, "a file and back");
    let editor = Editor::new(History::new("opened", design.clone()), Settings::default(), Size::new(1000.0, 600.0));
    let _ = editor.scene();
    let _ = editor.problems();
    let _ = editor.fields();
    for readout in editor.readouts() {
        assert!(readout.value.is_none_or(f64::is_finite), "{} is {:?}", readout.key, readout.value);
    }
    // One part for each design: all of them take a hundred times as long as to read it.
    let part = PARTS[link::encode(design).len() % PARTS.len()];
    if let Ok(made) = (Export { part, ..Export::default() }).make(design, System::Millimetres) {
        for kind in [Kind::Svg, Kind::Dxf, Kind::Pdf, Kind::Csv] {
            if let Ok(file) = made.file(kind) {
                let safe = |c: char| c.is_ascii_alphanumeric() || "-_.".contains(c);
                assert!(file.name.chars().all(safe) && !file.name.starts_with('.'), "{:?}", file.name);
                within_its_format(kind, &file.bytes);
            }
        }
    }
}

/// No name has become part of the file's own language.
fn within_its_format(kind: Kind, bytes: &[u8]) {
    let plain = |b: &u8| matches!(b, b'\n' | b'\r' | 32..127);
    match kind {
        Kind::Svg => {
            let text = std::str::from_utf8(bytes).expect("SVG is UTF-8");
            assert!(!text.contains("<script") && !text.contains("]]>"), "markup from a name");
            let stray = |c: &char| (*c < ' ' && *c != '\n') || matches!(c, '\u{fffe}' | '\u{ffff}');
            assert_eq!(text.chars().find(stray), None, "a character that XML forbids");
        }
        Kind::Dxf => {
            assert!(bytes.iter().all(plain), "DXF is plain ASCII");
            let text = std::str::from_utf8(bytes).expect("it is ASCII");
            let lines: Vec<&str> = text.lines().collect();
            assert_eq!(lines.len() % 2, 0, "every group code has its value");
            assert!(lines.iter().step_by(2).all(|code| code.trim().parse::<u16>().is_ok()), "a value became a code");
        }
        Kind::Csv => assert!(std::str::from_utf8(bytes).is_ok(), "CSV is UTF-8"),
        Kind::Pdf => assert!(bytes.starts_with(b"%PDF-") && bytes.trim_ascii_end().ends_with(b"%%EOF")),
    }
}

const PARTS: [Part; 6] =
    [Part::Deck, Part::HalfTemplate, Part::SawLine, Part::Offsets, Part::MarkOut, Part::Sheet];

const UNITS: [Unit; 18] = [
    Unit::Length,
    Unit::Thickness,
    Unit::Area,
    Unit::Volume,
    Unit::Angle,
    Unit::Curvature,
    Unit::Mass,
    Unit::BodyMass,
    Unit::Share,
    Unit::Ratio,
    Unit::Count,
    Unit::Force,
    Unit::Pressure,
    Unit::Torque,
    Unit::BendingStiffness,
    Unit::MassPerArea,
    Unit::Density,
    Unit::Minutes,
];

/// CRC-32 as in ISO 3309, as the layout of links asks for.
fn crc32(bytes: &[u8]) -> u32 {
    let step = |sum: u32| (sum >> 1) ^ if sum & 1 == 1 { 0xEDB8_8320 } else { 0 };
    !bytes.iter().fold(u32::MAX, |sum, &byte| (0..8).fold(sum ^ u32::from(byte), |sum, _| step(sum)))
}
