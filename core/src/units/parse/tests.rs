//! What people type, and what it means.

use super::*;
use crate::units::{
    stored,
    tests::{IN, KINDS, MM, Random},
};

/// `text` is read as so many grains.
#[track_caller]
fn check(text: &str, unit: Unit, system: System, grains: i64) {
    let value = parse(text, unit, system).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(stored(value, unit), grains, "{text}");
    assert_eq!(value.to_bits(), from_stored(grains, unit).to_bits(), "{text} is not on its grain");
}

#[track_caller]
fn refuse(text: &str, unit: Unit, message: &str) {
    let error = parse(text, unit, MM).expect_err(text);
    assert_eq!(error.to_string(), message);
}

#[test]
fn lengths_are_read_as_people_type_them() {
    let vectors = [
        ("8 1/4", IN, 209_550_000),
        ("8-1/4\"", MM, 209_550_000),
        ("8¼", IN, 209_550_000),
        ("8 ¼", IN, 209_550_000),
        ("8¼in", MM, 209_550_000),
        ("8 1⁄4″", MM, 209_550_000),
        ("8\u{a0}1/4\u{a0}in", MM, 209_550_000),
        ("8\u{2009}1/4 in", MM, 209_550_000),
        ("8   1/4   in.", MM, 209_550_000),
        ("8.25in", MM, 209_550_000),
        ("8 1/4 Zoll", MM, 209_550_000),
        ("8.25 IN", MM, 209_550_000),
        ("8.25 inches", MM, 209_550_000),
        ("8,25", IN, 209_550_000),
        ("8,25", MM, 8_250_000),
        ("8.25”", MM, 209_550_000),
        ("8.25''", MM, 209_550_000),
        ("8.25’’", MM, 209_550_000),
        (".5", IN, 12_700_000),
        (",5", IN, 12_700_000),
        ("5.", MM, 5_000_000),
        ("5/8\"", MM, 15_875_000),
        ("⅝", IN, 15_875_000),
        ("0/4", IN, 0),
        ("1/3", IN, 8_466_667),
        ("210mm", MM, 210_000_000),
        ("210mm", IN, 210_000_000),
        ("210 MM", IN, 210_000_000),
        ("210,5", MM, 210_500_000),
        ("1,234", MM, 1_234_000),
        ("21 cm", IN, 210_000_000),
        ("0.21 m", MM, 210_000_000),
        ("150 µm", MM, 150_000),
        ("1' 2 1/2\"", MM, 368_300_000),
        ("1'2 1/2", MM, 368_300_000),
        ("1'-2 1/2\"", MM, 368_300_000),
        ("1′ 2½″", MM, 368_300_000),
        ("1’ 2½”", MM, 368_300_000),
        ("1 ft 2.5 in", MM, 368_300_000),
        ("2'", MM, 609_600_000),
        ("2 feet", MM, 609_600_000),
        ("1 1/2 ft", MM, 457_200_000),
        ("-3/16", IN, -4_762_500),
        ("−3/16", IN, -4_762_500),
        ("–3/16 in", MM, -4_762_500),
        ("− 2 mm", IN, -2_000_000),
        ("-1' 2\"", MM, -355_600_000),
        ("-8-1/4", IN, -209_550_000),
        ("+2", MM, 2_000_000),
        ("-0", MM, 0),
        ("  12.7  ", MM, 12_700_000),
        ("0.0000005", MM, 1),
        ("0.0000004", MM, 0),
        ("1\u{202f}822.0", MM, 1_822_000_000),
        ("0000000000000000000000000000000000000012", MM, 12_000_000),
        ("13/64", IN, 5_159_375),
        ("1/128", IN, 198_438),
    ];
    for (text, system, nm) in vectors {
        check(text, Unit::Length, system, nm);
    }
    check(".004", Unit::Thickness, IN, 101_600);
    check("1/16", Unit::Thickness, IN, 1_587_500);
}

#[test]
fn other_kinds_are_read_with_their_units() {
    let vectors = [
        ("12", Unit::Angle, MM, 120_000_000),
        ("12°", Unit::Angle, IN, 120_000_000),
        ("12 deg", Unit::Angle, MM, 120_000_000),
        ("−7 1/2 º", Unit::Angle, MM, -75_000_000),
        ("1 rad", Unit::Angle, MM, 572_957_795),
        ("75 %", Unit::Share, MM, 75_000_000),
        ("75,9%", Unit::Share, MM, 75_900_000),
        ("1236.9 cm²", Unit::Area, IN, 1_236_900_000),
        ("1\u{202f}236.9", Unit::Area, MM, 1_236_900_000),
        ("10 sq in", Unit::Area, MM, 64_516_000),
        ("8 fl oz", Unit::Volume, MM, 236_588_237),
        ("13.6 m⁻¹", Unit::Curvature, MM, 13_600_000),
        ("267", Unit::Mass, MM, 267_000_000),
        ("1.138 kg", Unit::Mass, MM, 1_138_000_000),
        ("1 lb", Unit::Mass, MM, 453_592_370),
        ("75", Unit::BodyMass, MM, 75_000_000_000),
        ("165", Unit::BodyMass, IN, 74_842_741_050),
        ("0.2", Unit::Ratio, IN, 200_000),
        ("7", Unit::Count, MM, 7),
        ("800", Unit::Force, MM, 800_000_000),
        ("6 kN", Unit::Force, MM, 6_000_000_000),
        ("1.2", Unit::Pressure, MM, 1_200_000),
        ("150 psi", Unit::Pressure, MM, 1_034_214),
        ("12 bar", Unit::Pressure, IN, 1_200_000),
        ("12.6 GPa", Unit::Pressure, MM, 12_600_000_000),
        ("12 N·m", Unit::Torque, IN, 12_000_000),
        ("106 in-lb", Unit::Torque, MM, 11_976_392),
        ("240 N m²", Unit::BendingStiffness, MM, 240_000_000),
        ("200 g/m²", Unit::MassPerArea, IN, 200_000_000),
        ("1 lb/1000 ft²", Unit::MassPerArea, MM, 4_882_428),
        ("1.1", Unit::Density, MM, 1_100_000),
        ("705 kg/m³", Unit::Density, MM, 705_000),
        ("90 s", Unit::Minutes, MM, 1_500_000),
        ("1/2 h", Unit::Minutes, MM, 30_000_000),
        ("24", Unit::Hours, MM, 1_440_000_000),
        ("1 day", Unit::Hours, MM, 1_440_000_000),
    ];
    for (text, unit, system, grains) in vectors {
        check(text, unit, system, grains);
    }
}

#[test]
fn core_units_are_the_documented_ones() {
    let vectors = [
        ("1 cm", Unit::Length, 10.0),
        ("1 cm²", Unit::Area, 100.0),
        ("1 ml", Unit::Volume, 1_000.0),
        ("180°", Unit::Angle, std::f64::consts::PI),
        ("1 m⁻¹", Unit::Curvature, 1e-3),
        ("1 kg", Unit::Mass, 1_000.0),
        ("1 kg", Unit::BodyMass, 1_000.0),
        ("75 %", Unit::Share, 0.75),
        ("1 kN", Unit::Force, 1_000.0),
        ("1 GPa", Unit::Pressure, 1_000.0),
        ("1 N m", Unit::Torque, 1_000.0),
        ("1 N m²", Unit::BendingStiffness, 1e6),
        ("200 g/m²", Unit::MassPerArea, 2e-4),
        ("1.1 g/cm³", Unit::Density, 1.1e-3),
        ("90 s", Unit::Minutes, 1.5),
        ("2 h", Unit::Hours, 120.0),
    ];
    for (text, unit, value) in vectors {
        assert_eq!(parse(text, unit, MM).unwrap().to_bits(), value.to_bits(), "{text}");
    }
}

#[test]
fn what_is_unclear_is_refused_with_words() {
    let marks = "only one decimal mark, and none for thousands, like 1234.5";
    let fraction = "the fraction must be below 1, like 8 1/4";
    let below = "the number below the bar must be above 0, like 8 1/4";
    let digits = "write all digits out, like 1200";
    let example = "write it like 210 mm or 8 1/4 in";
    let units = "is none of its units, mm, in, cm, m, ft or µm";
    for (text, why) in [
        ("8 5/4", fraction),
        ("4/4", fraction),
        ("81/4", fraction),
        ("8-5/4\"", fraction),
        ("1' 8 5/4", fraction),
        ("1/0", below),
        ("8 1/0", below),
        ("1,234.5", marks),
        ("1.234,5", marks),
        ("1,234,567", marks),
        ("1e9", digits),
        ("1E-9", digits),
        ("8 1 4", example),
        ("8 -1/4", example),
        ("8-1", example),
        ("8.5 1/4", example),
        ("8 1/4/2", example),
        ("¼2", example),
        ("8 1/", example),
        ("1/-4", example),
        ("--3", example),
        ("NaN", example),
        ("Infinity", example),
        ("-inf", example),
        ("mm", example),
        (".", example),
        ("-", example),
        ("'", example),
        ("1' 2 mm", example),
        ("1' 2' 3", example),
        ("≈ 8 1/4", example),
    ] {
        refuse(text, Unit::Length, &format!("“{text}” is not a length: {why}"));
    }
    refuse("0x10", Unit::Length, &format!("“0x10” is not a length: “x10” {units}"));
    refuse("12 kg", Unit::Length, &format!("“12 kg” is not a length: “kg” {units}"));
    refuse("12 mm", Unit::Angle, "“12 mm” is not an angle: “mm” is none of its units, ° or rad");
    refuse("5 %", Unit::Ratio, "“5 %” is not a number: leave out “%”, like 0.2 or 1/5");
    refuse("5 g", Unit::Share, "“5 g” is not a share: “g” is none of its units, %");
    refuse("7.5", Unit::Count, "“7.5” is not a count: it must be a whole number, like 7");
    for text in ["", "   ", "\u{a0}\t"] {
        refuse(text, Unit::Length, "nothing is typed: write a length, like 210 mm or 8 1/4 in");
    }
}

#[test]
fn too_long_and_too_large_are_refused() {
    let long = "1".repeat(41);
    let found = "1".repeat(40);
    let why = "41 characters are too many (at most 40)";
    refuse(&long, Unit::Length, &format!("“{found}…” is not a length: {why}"));
    let why = "it is too large; write it like 210 mm or 8 1/4 in";
    refuse(&found, Unit::Length, &format!("“{found}” is not a length: {why}"));
    check("1000000000", Unit::Length, MM, 1_000_000_000_000_000);
}

#[test]
fn any_text_is_read_or_refused_without_a_panic() {
    let pieces: Vec<char> = "0123456789 ./,-+'\"″¼⁄\u{2009}\u{202f}emnift°%²µ−∞\u{0}😀".chars().collect();
    let mut random = Random(7);
    let mut read = 0;
    for _ in 0..15_000 {
        let length = random.below(9);
        let mut next = || pieces[usize::try_from(random.below(1_000)).unwrap() % pieces.len()];
        let text: String = (0..length).map(|_| next()).collect();
        for unit in KINDS {
            read += usize::from(parse(&text, unit, IN).is_ok_and(f64::is_finite));
        }
    }
    assert!(read > 3_000, "the pieces make too little sense: {read}");
}
