//! Moisture in wood.
//!
//! Sources: *Wood Handbook* (USDA Forest Products Laboratory): Eq 5-3 with its printed example for white ash, Eq 4-5
//! (equilibrium moisture; worked at 70 °F), Eq 4-9 (shrinkage), Table 4-3 (shrinkage) and Table 13-5 (2010; change of
//! dimension), all read in transcriptions. The rows of Table 13-5 follow from those of Table 4-3, which checks both.
//! Shrinkage of yellow birch is from memory.

use crate::near;
use halfbreadth_core::{
    layup::Layup,
    workshop::{
        moisture::{
            INTERSECTION, added_by_glue, at_rest_in_air, change_of_width, movement_of_shrinkage, property_at,
            shrinkage_at,
        },
        species::{SPECIES, Species},
    },
};

#[test]
fn white_ash_at_eight_per_cent_is_as_strong_as_printed() {
    near(property_at(0.08, 103_000.0, 66_000.0, 0.24), 119_500.0, 119.5);
    near(property_at(0.08, 103_000.0, 66_000.0, 0.24), 119_473.0, 0.5);
}

#[test]
fn maple_at_eight_per_cent_is_as_worked() {
    near(property_at(0.08, 12_600.0, 10_700.0, INTERSECTION), 13_250.0, 1.0);
    near(property_at(0.08, 109.0, 65.0, INTERSECTION), 127.8, 0.05);
    near(property_at(0.12, 109.0, 65.0, INTERSECTION), 109.0, 1e-12);
}

#[test]
fn wood_at_rest_in_air_takes_the_moisture_of_the_equation() {
    let seventy_fahrenheit = (70.0 - 32.0) / 1.8;
    for (humidity, percent) in [(0.30, 6.17), (0.50, 9.24), (0.65, 11.96), (0.80, 15.99), (0.90, 20.48)] {
        near(at_rest_in_air(seventy_fahrenheit, humidity) * 100.0, percent, 0.02);
    }
}

#[test]
fn the_table_of_movement_follows_from_the_table_of_shrinkage() {
    for key in ["sugar-maple", "yellow-birch", "white-ash"] {
        let species = Species::find(key).unwrap();
        let (shrinkage, movement) = (species.shrinkage.unwrap(), species.movement.unwrap());
        for (to_dry, printed) in shrinkage.into_iter().zip(movement) {
            near(movement_of_shrinkage(to_dry), printed, 5e-4);
        }
    }
    near(movement_of_shrinkage(0.099) / 100.0, 0.003_533, 5e-7);
    near(movement_of_shrinkage(0.048) / 100.0, 0.001_653, 5e-7);
    near(shrinkage_at(0.08, 0.099), 0.0726, 5e-5);
}

#[test]
fn a_veneer_eight_inches_wide_moves_by_its_worked_width() {
    let [_, tangential] = SPECIES[0].movement.unwrap();
    near(change_of_width(203.2, tangential, 0.04), 2.87, 5e-3);
}

/// Six lines of 200 g/m² with half their mass water on seven plies of 1.5 mm: 600 g on 6,615 g of dry wood.
#[test]
fn glue_adds_nine_per_cent_of_moisture() {
    near(added_by_glue(&Layup::default(), 0.5).unwrap(), 600.0 / 6615.0, 1e-12);
    let none = Layup { plies: Vec::new(), ..Layup::default() };
    assert_eq!(added_by_glue(&none, 0.5), None);
}

#[test]
fn the_modulus_across_maple_is_its_published_share() {
    near(SPECIES[0].elasticity_across(), 819.0, 1e-9);
}
