//! The table of kinds: one row each, with the symbols it is shown and typed in.

use super::{Row, Symbol};
use crate::units::NM_PER_INCH;
use std::f64::consts::PI;

const fn symbol(text: &'static str, grains: f64, places: u8, names: &'static [&'static str]) -> Symbol {
    Symbol { text, grains, places, names }
}

/// A symbol that is read but never shown, so that it needs no digits.
const fn typed(text: &'static str, grains: f64, names: &'static [&'static str]) -> Symbol {
    symbol(text, grains, 0, names)
}

// Exact by definition: the international pound, standard gravity and the US gallon of 231 cubic inches.
const G_PER_LB: f64 = 453.592_37;
const N_PER_LBF: f64 = 4.448_221_615_260_5;
const ML_PER_GALLON: f64 = 3_785.411_784;
const MM2_PER_IN2: f64 = 645.16;
const M2_PER_FT2: f64 = 0.092_903_04;
const CM3_PER_FT3: f64 = 28_316.846_592;

const MM: &[&str] = &["mm", "millimetre", "millimetres", "millimeter", "millimeters"];
const INCH: &[&str] = &["in", "\"", "inch", "inches", "zoll"];
const MORE_LENGTHS: &[Symbol] = &[
    typed("cm", 1e7, &["cm"]),
    typed("m", 1e9, &["m"]),
    // Feet may be followed by inches, which the parser handles itself; the row is for the list in a message.
    typed("ft", 12.0 * NM_PER_INCH, &["ft", "'", "foot", "feet"]),
    typed("µm", 1e3, &["um"]),
];

pub(super) static LENGTH: Row = Row {
    noun: "a length",
    example: "210 mm or 8 1/4 in",
    grains: 1e6,
    metric: &[symbol("mm", 1e6, 1, MM)],
    inch: &[symbol("in", NM_PER_INCH, 3, INCH)],
    typed: MORE_LENGTHS,
};

pub(super) static THICKNESS: Row = Row {
    noun: "a thickness",
    example: "1.5 mm or 1/16 in",
    grains: 1e6,
    metric: &[symbol("mm", 1e6, 2, MM)],
    inch: &[symbol("in", NM_PER_INCH, 3, INCH)],
    typed: MORE_LENGTHS,
};

pub(super) static AREA: Row = Row {
    noun: "an area",
    example: "1236.9 cm² or 191.7 in²",
    grains: 1e4,
    metric: &[symbol("cm²", 1e6, 1, &["cm2", "sqcm"])],
    inch: &[symbol("in²", MM2_PER_IN2 * 1e4, 1, &["in2", "sqin"])],
    typed: &[
        typed("mm²", 1e4, &["mm2", "sqmm"]),
        typed("m²", 1e10, &["m2", "sqm"]),
        typed("ft²", M2_PER_FT2 * 1e10, &["ft2", "sqft"]),
    ],
};

pub(super) static VOLUME: Row = Row {
    noun: "a volume",
    example: "240 ml or 8 fl oz",
    grains: 1e3,
    metric: &[symbol("ml", 1e6, 0, &["ml", "cm3", "cc"]), symbol("l", 1e9, 2, &["l"])],
    inch: &[symbol("fl oz", ML_PER_GALLON / 128.0 * 1e6, 1, &["floz"])],
    typed: &[typed("gal", ML_PER_GALLON * 1e6, &["gal"])],
};

const DEGREE: Symbol = symbol("°", 1e7, 1, &["°", "deg", "degree", "degrees"]);

pub(super) static ANGLE: Row = Row {
    noun: "an angle",
    example: "12.5°",
    grains: 1e7,
    metric: &[DEGREE],
    inch: &[DEGREE],
    typed: &[typed("rad", 180.0 / PI * 1e7, &["rad"])],
};

pub(super) static CURVATURE: Row = Row {
    noun: "a curvature",
    example: "13.6 m⁻¹",
    grains: 1e9,
    metric: &[symbol("m⁻¹", 1e6, 2, &["m-1", "/m"])],
    inch: &[symbol("in⁻¹", 1e6 / 0.025_4, 4, &["in-1", "/in"])],
    typed: &[typed("mm⁻¹", 1e9, &["mm-1", "/mm"])],
};

const GRAMS: Symbol = symbol("g", 1e6, 0, &["g", "gram", "grams"]);
const KILOGRAMS: Symbol = symbol("kg", 1e9, 3, &["kg"]);
const OUNCES: Symbol = symbol("oz", G_PER_LB / 16.0 * 1e6, 1, &["oz"]);
const POUNDS: Symbol = symbol("lb", G_PER_LB * 1e6, 2, &["lb", "lbs"]);

pub(super) static MASS: Row = Row {
    noun: "a mass",
    example: "267 g or 9.4 oz",
    grains: 1e6,
    metric: &[GRAMS, KILOGRAMS],
    inch: &[OUNCES, POUNDS],
    typed: &[],
};

pub(super) static BODY_MASS: Row = Row {
    noun: "a mass",
    example: "75 kg or 165 lb",
    grains: 1e6,
    metric: &[Symbol { places: 1, ..KILOGRAMS }],
    inch: &[Symbol { places: 1, ..POUNDS }],
    typed: &[GRAMS, OUNCES],
};

const PERCENT: Symbol = symbol("%", 1e6, 1, &["%", "percent"]);

pub(super) static SHARE: Row =
    Row { noun: "a share", example: "75 %", grains: 1e8, metric: &[PERCENT], inch: &[PERCENT], typed: &[] };

const NUMBER: Symbol = symbol("", 1e6, 3, &[]);

pub(super) static RATIO: Row = Row {
    noun: "a number",
    example: "0.2 or 1/5",
    grains: 1e6,
    metric: &[NUMBER],
    inch: &[NUMBER],
    typed: &[],
};

const PIECES: Symbol = symbol("", 1.0, 0, &[]);

pub(super) static COUNT: Row =
    Row { noun: "a count", example: "7", grains: 1.0, metric: &[PIECES], inch: &[PIECES], typed: &[] };

pub(super) static FORCE: Row = Row {
    noun: "a force",
    example: "800 N or 180 lbf",
    grains: 1e6,
    metric: &[symbol("N", 1e6, 0, &["n"]), symbol("kN", 1e9, 2, &["kn"])],
    inch: &[symbol("lbf", N_PER_LBF * 1e6, 0, &["lbf", "lb", "lbs"])],
    typed: &[],
};

pub(super) static PRESSURE: Row = Row {
    noun: "a pressure",
    example: "1.2 MPa or 174 psi",
    grains: 1e6,
    metric: &[symbol("MPa", 1e6, 2, &["mpa", "n/mm2"]), symbol("GPa", 1e9, 2, &["gpa"])],
    inch: &[
        symbol("psi", N_PER_LBF / MM2_PER_IN2 * 1e6, 0, &["psi", "lbf/in2"]),
        symbol("ksi", N_PER_LBF / MM2_PER_IN2 * 1e9, 2, &["ksi"]),
    ],
    typed: &[typed("kPa", 1e3, &["kpa"]), typed("bar", 1e5, &["bar"])],
};

pub(super) static TORQUE: Row = Row {
    noun: "a torque",
    example: "12 N m or 106 lbf in",
    grains: 1e3,
    metric: &[symbol("N m", 1e6, 1, &["nm"])],
    inch: &[symbol(
        "lbf in",
        N_PER_LBF * 0.025_4 * 1e6,
        0,
        &["lbfin", "inlbf", "lbin", "inlb", "in-lb", "in-lbs"],
    )],
    typed: &[
        typed("N mm", 1e3, &["nmm"]),
        typed("lbf ft", N_PER_LBF * 0.304_8 * 1e6, &["lbfft", "ftlbf", "lbft", "ftlb", "ft-lb", "ft-lbs"]),
    ],
};

pub(super) static BENDING_STIFFNESS: Row = Row {
    noun: "a bending stiffness",
    example: "240 N m²",
    grains: 1.0,
    metric: &[symbol("N m²", 1e6, 1, &["nm2"])],
    inch: &[symbol("lbf in²", N_PER_LBF * MM2_PER_IN2, 0, &["lbfin2"])],
    typed: &[typed("N mm²", 1.0, &["nmm2"])],
};

pub(super) static MASS_PER_AREA: Row = Row {
    noun: "a spread",
    example: "200 g/m² or 41 lb/1000 ft²",
    grains: 1e12,
    metric: &[symbol("g/m²", 1e6, 0, &["g/m2", "gsm"])],
    inch: &[symbol(
        "lb/1000 ft²",
        G_PER_LB / (1_000.0 * M2_PER_FT2) * 1e6,
        1,
        &["lb/1000ft2", "lb/1000sqft"],
    )],
    typed: &[typed("kg/m²", 1e9, &["kg/m2"])],
};

pub(super) static DENSITY: Row = Row {
    noun: "a density",
    example: "1.1 g/cm³ or 69 lb/ft³",
    grains: 1e9,
    metric: &[symbol("g/cm³", 1e6, 3, &["g/cm3", "g/ml", "kg/l"])],
    inch: &[symbol("lb/ft³", G_PER_LB / CM3_PER_FT3 * 1e6, 1, &["lb/ft3"])],
    typed: &[typed("kg/m³", 1e3, &["kg/m3"]), typed("lb/gal", G_PER_LB / ML_PER_GALLON * 1e6, &["lb/gal"])],
};

const SHOWN_MINUTES: Symbol = symbol("min", 1e6, 1, &["min", "minute", "minutes"]);
const SHOWN_HOURS: Symbol = symbol("h", 6e7, 1, &["h", "hour", "hours"]);
const SECONDS: Symbol = typed("s", 1e6 / 60.0, &["s", "sec", "second", "seconds"]);
const DAYS: Symbol = typed("d", 1_440e6, &["d", "day", "days"]);

pub(super) static MINUTES: Row = Row {
    noun: "a time",
    example: "5 min",
    grains: 1e6,
    metric: &[SHOWN_MINUTES],
    inch: &[SHOWN_MINUTES],
    typed: &[SECONDS, SHOWN_HOURS, DAYS],
};

pub(super) static HOURS: Row = Row {
    noun: "a time",
    example: "24 h",
    grains: 1e6,
    metric: &[SHOWN_HOURS],
    inch: &[SHOWN_HOURS],
    typed: &[SECONDS, SHOWN_MINUTES, DAYS],
};
