//! Plies round a bend.
//!
//! Sources: FAA AC 43.13-1B Table 1-2, p. 1-25 (inches; read in three copies). Lengths of plies and slip: elementary,
//! worked by hand for 20° of 76.2 mm and a stack of 10.5 mm. The smallest dry radius, (t/2)·(MOE/MOR − 1), is worked
//! from *Wood Handbook* Table 5-3a: 57.3 thicknesses of sugar maple, 60.5 of yellow birch, 53.1 of shagbark hickory.

use crate::near;
use halfbreadth_core::{
    layup::Layup,
    profile::Kick,
    workshop::{
        Fault, bend,
        laminate::Layer,
        plywood::{Way, radius},
        species::Species,
    },
};

const INCH: f64 = 25.4;

#[test]
fn every_ply_has_a_length_of_its_own_and_slips() {
    let angle = 20_f64.to_radians();
    for (depth, length) in [(0.0, 26.599), (5.25, 28.431), (10.5, 30.264)] {
        near(bend::length_at(angle, 76.2, depth), length, 5e-4);
    }
    near(bend::slip(angle, 10.5), 3.665, 5e-4);
    let kick = Kick { bend_line: 0.0, radius: 76.2, angle };
    near(kick.run_and_rise(76.2 * angle + 80.0).1, 31.957, 5e-4);
}

#[test]
fn plywood_has_its_published_radii() {
    use Way::{GrainAlongTheBend, GrainRoundTheBend};
    let table = [
        (0.125, 3, GrainRoundTheBend, false, 12.0),
        (0.125, 3, GrainAlongTheBend, false, 7.1),
        (0.035, 3, GrainRoundTheBend, false, 2.0),
        (0.185, 3, GrainAlongTheBend, true, 2.6),
        (0.070, 3, GrainRoundTheBend, true, 1.5),
        (0.160, 5, GrainRoundTheBend, false, 17.0),
        (0.250, 5, GrainAlongTheBend, false, 20.0),
        (0.375, 5, GrainRoundTheBend, true, 21.0),
    ];
    for (thickness, plies, way, soaked, inches) in table {
        near(radius(thickness * INCH, plies, way, soaked).unwrap(), inches * INCH, 1e-9);
    }
}

#[test]
fn a_thicker_plywood_wants_a_wider_bend_and_the_hard_way_a_wider_still() {
    for (plies, from, to) in [(3, 0.889, 4.699), (5, 4.064, 9.525)] {
        for soaked in [false, true] {
            let mut last = [0.0; 2];
            for k in 0..=200 {
                let thickness = f64::min(from + (to - from) * f64::from(k) / 200.0, to);
                let ways = [Way::GrainRoundTheBend, Way::GrainAlongTheBend];
                let [hard, easy] = ways.map(|way| radius(thickness, plies, way, soaked).unwrap());
                assert!(hard > easy && hard > last[0] && easy > last[1], "{thickness}");
                last = [hard, easy];
            }
        }
    }
}

#[test]
fn the_table_of_plywood_is_not_carried_on() {
    for thickness in [0.5, 0.888, 4.7, 20.0, f64::NAN] {
        let fault = radius(thickness, 3, Way::GrainRoundTheBend, false).unwrap_err();
        assert!(matches!(fault, Fault::OutsideTable { least: 0.889, most: 4.699, .. }), "{fault:?}");
    }
    assert_eq!(radius(3.0, 7, Way::GrainRoundTheBend, false), Err(Fault::NoTable { plies: 7 }));
}

#[test]
fn a_dry_ply_bends_to_some_sixty_thicknesses() {
    for (key, thicknesses) in [("sugar-maple", 57.3), ("yellow-birch", 60.5), ("shagbark-hickory", 53.1)] {
        let Species { elasticity, rupture, .. } = *Species::find(key).unwrap();
        near(bend::smallest_radius(1.0, elasticity, rupture), thicknesses, 0.05);
    }
    let maple = Species::find("sugar-maple").unwrap();
    let smallest = |thickness| bend::smallest_radius(thickness, maple.elasticity, maple.rupture);
    near(smallest(1.5), 85.95, 5e-3);
    near(smallest(INCH / 16.0), 91.0, 0.05);
    near(bend::strain(1.5, 76.2), 0.009_75, 5e-6);
    near(bend::strain(1.5, smallest(1.5)), maple.rupture / maple.elasticity, 1e-15);
}

#[test]
fn a_bend_tighter_than_its_plies_like_is_a_warning() {
    let layers = Layer::of_layup(&Layup::default());
    assert_eq!(bend::check("nose-bend-radius", 95.25, &layers), None);
    let fault = bend::check("nose-bend-radius", 76.2, &layers).unwrap();
    assert_eq!((fault.field(), fault.refuses()), ("nose-bend-radius", false));
    assert!(fault.to_string().starts_with("A bend of 76.2 mm is tighter than the 85.9 mm"), "{fault}");
}
