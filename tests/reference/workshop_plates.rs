//! The stack as a plate: plywood, balance, springback.
//!
//! Sources: birch plywood's mean bending moduli, *Handbook of Finnish Plywood* (2002, ISBN 952-9506-63-5): the make-up
//! of 1.4 mm veneers was read, the moduli are from memory, and the layered beam gives all eight to the last digit. A
//! pattern of alternate equal plies without stiffness across has 244/343 of the wood's modulus, and seven loose plies a
//! forty-ninth of the glued stack's: both by hand. Springback of n equal laminations is 1/n² (a boatbuilders' rule, read;
//! it is the elastic result). Stiffness across the grain, 0.065 of that along: *Wood Handbook* Table 5-1, sugar maple.

use crate::near;
use halfbreadth_core::{
    layup::{Grain, Layup},
    workshop::{
        Fault, bend,
        laminate::{Laminate, Layer, balance},
    },
};

/// Strength of the wood, MPa; stiffness does not ask it.
const RUPTURE: f64 = 100.0;

/// Plies of one thickness; L along, X across.
fn plies(pattern: &str, thickness: f64, along: f64, across: f64) -> Vec<Layer> {
    let grain = |c| if c == 'X' { Grain::Across } else { Grain::Along };
    pattern.chars().map(|c| Layer { thickness, along, across, rupture: RUPTURE, grain: grain(c) }).collect()
}

fn moduli(layers: &[Layer]) -> (f64, f64) {
    let laminate = Laminate::of(layers).unwrap();
    (laminate.along.modulus(laminate.thickness), laminate.across.modulus(laminate.thickness))
}

#[test]
fn birch_plywood_has_its_published_moduli() {
    let table = [
        ("LXLXL", 12_737.0, 4763.0),
        ("LXLXLXL", 11_395.0, 6105.0),
        ("LXLXLXLXL", 10_719.0, 6781.0),
        ("LXLXLXLXLXL", 10_316.0, 7184.0),
    ];
    for (pattern, along, across) in table {
        let mut layers = plies(pattern, 1.4, 17_500.0, 0.0);
        let last = layers.len() - 1;
        // The faces are sanded.
        layers[0].thickness = 1.1;
        layers[last].thickness = 1.1;
        let found = moduli(&layers);
        near(found.0, along, 1.0);
        near(found.1, across, 1.0);
    }
}

#[test]
fn alternate_plies_have_244_of_343_parts_of_the_wood() {
    let (along, _) = moduli(&plies("LXLXLXL", 1.5, 12_600.0, 0.0));
    near(along / 12_600.0, 244.0 / 343.0, 1e-12);
}

/// Of balanced stacks; an unbalanced one bends about another axis along than across.
#[test]
fn equal_plies_share_the_two_moduli_of_their_wood() {
    for pattern in ["LLXLXLL", "LXLLLXL", "LLLXLLL", "LLLLLLL", "XXLXX", "LXXL"] {
        let (along, across) = moduli(&plies(pattern, 1.5, 12_600.0, 819.0));
        near((along + across) / 13_419.0, 1.0, 1e-9);
    }
}

/// Worked by hand from E = 12,600 and 819 MPa, seven plies of 1.5 mm.
#[test]
fn common_stacks_have_their_worked_stiffness() {
    let table = [
        ("LLLLLLL", 1_215_506.0, 12_600.0, 819.0),
        ("LLXLXLL", 1_129_358.0, 11_707.0, 1712.0),
        ("LXLLLXL", 890_792.0, 9234.0, 4185.0),
        ("LXLXLXL", 887_479.0, 9199.7, 4219.3),
        ("LLLXLLL", 1_212_193.0, 12_565.7, 853.3),
    ];
    for (pattern, bend, along, across) in table {
        let layers = plies(pattern, 1.5, 12_600.0, 819.0);
        near(Laminate::of(&layers).unwrap().along.bend, bend, 0.5);
        let found = moduli(&layers);
        near(found.0, along, 0.5);
        near(found.1, across, 0.5);
    }
}

#[test]
fn seven_loose_plies_are_49_times_softer_than_glued() {
    let plate = Laminate::of(&plies("LLLLLLL", 1.5, 12_600.0, 819.0)).unwrap().along;
    near(plate.bend / plate.loose, 49.0, 1e-12);
}

#[test]
fn springback_of_equal_plies_is_one_over_their_number_squared() {
    for (count, ratio) in [(7, 1.020_833), (5, 1.041_667), (3, 1.125), (2, 4.0 / 3.0)] {
        let share =
            Laminate::of(&plies(&"L".repeat(count), 1.5, 12_600.0, 819.0)).unwrap().along.springback();
        near(share, 1.0 / (count * count) as f64, 1e-12);
        let (_, radius) = bend::deck(0.3, 100.0, share);
        near(radius / 100.0, ratio, 1e-6);
    }
    // Three inches of rise from four laminations: 3/16 in comes back.
    let four = Laminate::of(&plies("LLLL", 3.0, 12_600.0, 819.0)).unwrap();
    near(3.0 * four.along.springback(), 0.1875, 1e-12);
}

#[test]
fn the_usual_stack_of_maple_springs_back_by_its_worked_share() {
    let laminate = Laminate::of(&Layer::of_layup(&Layup::default())).unwrap();
    near(laminate.along.springback(), 0.016_10, 5e-6);
    let share = laminate.along.springback();
    let (angle, radius) = bend::mould(0.35, 95.25, share);
    let (back_angle, back_radius) = bend::deck(angle, radius, share);
    near(back_angle, 0.35, 1e-15);
    near(back_radius, 95.25, 1e-12);
    assert!(angle > 0.35 && radius < 95.25);
}

#[test]
fn bad_stacks_are_named_and_doubtful_ones_too() {
    assert_eq!(Laminate::of(&[]), Err(Fault::NoPlies));
    let mut layers = plies("LLX", 1.5, 12_600.0, 819.0);
    assert_eq!(balance(&layers), [Fault::Unbalanced]);
    assert_eq!(balance(&plies("LLL", 1.5, 12_600.0, 819.0)), [Fault::OneGrain]);
    assert_eq!(balance(&plies("LXL", 1.5, 12_600.0, 819.0)), []);
    layers[1].thickness = -1.0;
    let fault = Laminate::of(&layers).unwrap_err();
    assert_eq!(fault, Fault::Thickness { ply: 2, found: -1.0 });
    assert_eq!(fault.to_string(), "Ply 2 is −1.00 mm thick: type more than 0.");
    assert_eq!((fault.field(), fault.refuses()), ("ply-thickness", true));
}

/// A flat steel between two planks, worked by hand: 12 × 200 mm of 205 GPa and two of 50 × 200 mm of 12 GPa on edge are
/// no layers of a plate but add up as such do when loose.
#[test]
fn a_flitch_beam_adds_up_as_loose_parts_do() {
    let part = |thickness: f64, modulus: f64| modulus * thickness * 200.0_f64.powi(3) / 12.0;
    let by_hand = part(12.0, 205_000.0) + 2.0 * part(50.0, 12_000.0);
    near(by_hand / 1e9, 2440.0, 1e-6);
    let on_edge = |width: f64, modulus: f64| {
        let layer =
            Layer { thickness: 200.0, along: modulus, across: 0.0, rupture: RUPTURE, grain: Grain::Along };
        Laminate::of(&[layer]).unwrap().along.loose * width
    };
    near(on_edge(12.0, 205_000.0) + 2.0 * on_edge(50.0, 12_000.0), by_hand, 1.0);
}
