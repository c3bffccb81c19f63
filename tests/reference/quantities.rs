//! Units and glue.
//!
//! Sources: the international pound is 453.59237 g and the foot 304.8 mm by definition, so that a pound on a thousand
//! square feet is 453.59237 ÷ 92.90304 = 4.882428 g/m²; the gallon is 231 cubic inches. Seven plies have six glue lines:
//! an 840 × 260 mm blank at 200 g/m² takes 0.2184 m² · 6 · 200 = 262.1 g by hand. Figures of spread are those usual
//! in the trade (30, 40, 50, 60 lb), worked to g/m².

use crate::near;
use halfbreadth_core::{
    layup::Layup,
    units::{System, Unit, parse},
};

fn typed(text: &str, unit: Unit) -> f64 {
    parse(text, unit, System::default()).unwrap()
}

#[test]
fn a_pound_on_a_thousand_square_feet_is_its_grams() {
    near(typed("1 lb/1000 ft²", Unit::MassPerArea) * 1e6, 4.882_428, 1e-6);
    for (pounds, grams) in [(30, 146.5), (40, 195.3), (50, 244.1), (60, 292.9), (70, 341.8)] {
        near(typed(&format!("{pounds} lb/1000 ft²"), Unit::MassPerArea) * 1e6, grams, 0.05);
    }
}

#[test]
fn inch_units_are_what_their_definitions_make_them() {
    near(typed("2 1/8 in", Unit::Length), 53.975, 0.0);
    near(typed("1 5/8 in", Unit::Length), 41.275, 0.0);
    near(typed("13/64 in", Unit::Length), 5.159_375, 0.0);
    near(typed("1 in²", Unit::Area), 645.16, 1e-9);
    near(typed("1 gal", Unit::Volume), 231.0 * 25.4_f64.powi(3), 1e-3);
    near(typed("150 psi", Unit::Pressure), 150.0 * 4.448_221_615_260_5 / 645.16, 1e-6);
    near(typed("106 lbf in", Unit::Torque), 106.0 * 4.448_221_615_260_5 * 25.4, 1e-2);
}

#[test]
fn seven_plies_take_six_lines_of_glue() {
    let layup =
        Layup { blank_length: 840.0, blank_width: 260.0, spread: 200e-6, loss: 0.0, ..Layup::default() };
    assert_eq!((layup.plies.len(), layup.glue_lines()), (7, 6));
    near(layup.glue_mass(), 262.1, 0.05);
    let wasted = Layup { loss: 0.1, ..layup };
    near(wasted.glue_mass(), 262.08 * 1.1, 1e-9);
}
