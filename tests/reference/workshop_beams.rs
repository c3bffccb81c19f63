//! The deck as a beam on its trucks.
//!
//! Sources: *Wood Handbook* Eq 9-2 and Table 9-1 (a load in the middle: P·L³/48EI, and its shear term), *Civil
//! Engineering Formulas* Fig 2.2 case 12 (two equal loads on double overhangs: ends P·a²·(3L + 2a)/6EI downward, middle
//! P·a·L²/8EI upward), a published table of beams (one overhang: P·a²·(L + a)/3EI; hump P·a·L²/(9√3·EI)). Worked figures
//! for a board of 200 × 10.5 mm and 12.6 GPa on 360 mm. The deck's own stiffness is checked by another rule of
//! integration, along the board and across it.

use crate::near;
use halfbreadth_core::{
    datum::Datum,
    demo,
    design::{Design, Shape},
    layup::Grain,
    measure::Measured,
    profile::Profile,
    real,
    workshop::{
        flex::Beam,
        laminate::{Laminate, Layer},
    },
};
use halfbreadth_tests::draw;

/// A board of 200 mm, flat throughout, on supports so far apart, of seven plies so thick.
fn board(span: f64, ply: f64) -> Design {
    let outline = draw::polygon(&[(-350.0, 0.0), (-350.0, 100.0), (350.0, 100.0), (350.0, 0.0)]);
    let pattern_length = Datum::default().pattern_length;
    let datum = Datum { wheelbase: span - pattern_length, ..Datum::default() };
    let mut shape = draw::shape(outline, datum);
    shape.profile.nose.angle = 0.0;
    shape.profile.tail.angle = 0.0;
    shape.profile.concave_depth = 0.0;
    shape.layup.plies.iter_mut().for_each(|of_stack| of_stack.thickness = ply);
    Design::new("Board", "", shape, Vec::new()).unwrap()
}

fn stack(shape: &Shape, one_way: bool) -> (Laminate, Vec<Layer>) {
    let mut layers = Layer::of_layup(&shape.layup);
    for layer in &mut layers {
        if one_way {
            layer.grain = Grain::Along;
        }
    }
    (Laminate::of(&layers).unwrap(), layers)
}

/// Deflection of the board of 10.5 mm on 360 mm at a station under loads, all grain along or the usual stack.
fn deflection(one_way: bool, at: f64, loads: &[(f64, f64)]) -> f64 {
    deflection_of(&board(360.0, 1.5), one_way, at, loads)
}

fn deflection_of(design: &Design, one_way: bool, at: f64, loads: &[(f64, f64)]) -> f64 {
    let measured = Measured::of(design.shape());
    let (laminate, layers) = stack(design.shape(), one_way);
    Beam::of(design.shape(), &measured, &laminate, &layers).deflection(at, loads, true)
}

#[test]
fn a_board_gives_in_the_middle_as_the_formula_says() {
    near(deflection(true, 0.0, &[(0.0, 800.0)]), 3.1987, 5e-5);
    near(deflection(false, 0.0, &[(0.0, 800.0)]), 3.4427, 5e-5);
    near(
        deflection(true, 0.0, &[(0.0, 800.0)]),
        800.0 * 360.0_f64.powi(3) / (48.0 * 12_600.0 * 19_293.75),
        1e-9,
    );
}

/// Why no shear term is added: at a span of 14 depths, where the modulus was measured, shear makes 9.80 % (E/G = 16,
/// *Wood Handbook*). With the true modulus, greater by that, bending and shear together are the plain bending of the
/// published one.
#[test]
fn the_published_modulus_contains_the_shear() {
    let (span, depth, load) = (294.0, 21.0, 800.0);
    let share = 1.2 * 16.0 * (depth / span) * (depth / span);
    near(share, 0.0980, 5e-5);
    let modulus = 12_600.0 * (1.0 + share);
    let bending = load * span.powi(3) / (48.0 * modulus * 200.0 * depth.powi(3) / 12.0);
    let shear = 0.25 * load * span / (modulus / 16.0 * (5.0 * 200.0 * depth / 6.0));
    near(deflection_of(&board(span, depth / 7.0), true, 0.0, &[(0.0, load)]), bending + shear, 1e-9);
    // On the span of a deck shear adds a sixtieth: the worked figure with the term is 3.2505 mm, without it 3.1987.
    let on_deck = 0.25 * load * 360.0 / (0.063 * 12_600.0 * (5.0 * 200.0 * 10.5 / 6.0));
    near(deflection(true, 0.0, &[(0.0, load)]) + on_deck, 3.1987 + 0.0518, 1e-4);
}

#[test]
fn loads_on_both_tips_lift_the_middle() {
    let loads = [(-330.0, 400.0), (330.0, 400.0)];
    near(deflection(true, 330.0, &loads), 8.5150, 5e-5);
    near(deflection(true, -330.0, &loads), 8.5150, 5e-5);
    near(deflection(true, 0.0, &loads), -3.9983, 5e-5);
}

#[test]
fn a_load_on_one_tip_makes_a_hump_between_the_trucks() {
    let loads = [(330.0, 400.0)];
    near(deflection(true, 330.0, &loads), 6.2937, 5e-5);
    // The hump stands L/√3 from the truck that is not loaded.
    near(deflection(true, -180.0 + 360.0 / 3.0_f64.sqrt(), &loads), -2.0519, 5e-5);
}

#[test]
fn a_deflection_is_the_same_with_load_and_place_exchanged() {
    for deck in demo::all() {
        let measured = Measured::of(deck.shape());
        let (laminate, layers) = stack(deck.shape(), false);
        let beam = Beam::of(deck.shape(), &measured, &laminate, &layers);
        let (a, b) =
            (beam.deflection(-250.0, &[(90.0, 1.0)], true), beam.deflection(90.0, &[(-250.0, 1.0)], true));
        near(a / b, 1.0, 1e-12);
    }
}

/// EI of a section by counting: many narrow strips of plate at the height of a shallow arc beside a flat strip.
fn counted_stiffness(shape: &Shape, laminate: &Laminate, x: f64, half_width: f64) -> f64 {
    const STRIPS: i32 = 500;
    let Profile { concave_width, flat_strip, .. } = shape.profile;
    let depth = shape.profile.concave_at(&shape.datum, x);
    let (flat, m) = (flat_strip / 2.0, (concave_width - flat_strip) / 2.0);
    let (mut local, mut height) = (0.0, Box::new(|_: f64| 0.0) as Box<dyn Fn(f64) -> f64>);
    if depth > 0.0 && half_width > flat {
        let radius = (m * m + depth * depth) / (2.0 * depth);
        let arc = half_width - flat;
        local = radius - (radius * radius - arc * arc).sqrt();
        height = Box::new(move |y: f64| local * ((y - flat).max(0.0) / arc).powi(2));
    }
    let heights: Vec<f64> =
        (0..STRIPS).map(|k| height(half_width * (f64::from(k) + 0.5) / f64::from(STRIPS))).collect();
    let mean = heights.iter().sum::<f64>() / f64::from(STRIPS);
    let spread = heights.iter().map(|z| (z - mean).powi(2)).sum::<f64>() / f64::from(STRIPS);
    assert!(local >= mean);
    2.0 * half_width * (laminate.along.bend + laminate.along.stretch * spread)
}

#[test]
fn a_deck_gives_as_much_as_by_another_rule_of_integration() {
    const STEPS: i32 = 1000;
    for (strip, fade) in [(0.0, 40.0), (60.0, 40.0), (110.0, 150.0)] {
        for deck in demo::all() {
            let mut shape = deck.shape().clone();
            shape.profile.flat_strip = strip;
            shape.profile.concave_fade = fade;
            let measured = Measured::of(&shape);
            let (laminate, layers) = stack(&shape, false);
            let found = Beam::of(&shape, &measured, &laminate, &layers).under(800.0);
            let span = shape.datum.truck_centre();
            // Midpoints of equal steps.
            let step = 2.0 * span / f64::from(STEPS);
            let counted: f64 = (0..STEPS)
                .map(|k| {
                    let x = -span + step * (f64::from(k) + 0.5);
                    let half_width = measured.envelope.half_breadth(x).unwrap();
                    let moment = (span - x.abs()) / 2.0;
                    800.0 * moment * moment / counted_stiffness(&shape, &laminate, x, half_width) * step
                })
                .sum();
            near(found.deflection / counted, 1.0, 1e-5);
        }
    }
}

/// The depth is taken at the straight width and the arc as shallow: against the sheet bent to the circle itself, each
/// strip leaning as it does, the deck gives two parts in a hundred less. That is far below what wood scatters by.
#[test]
fn the_shallow_arc_is_within_two_hundredths_of_the_bent_sheet() {
    const STEPS: i32 = 400;
    for deck in demo::all() {
        let shape = deck.shape();
        let measured = Measured::of(shape);
        let (laminate, layers) = stack(shape, false);
        let found = Beam::of(shape, &measured, &laminate, &layers).under(800.0).deflection;
        let span = shape.datum.truck_centre();
        let m = shape.profile.concave_width / 2.0;
        let stiffness = |x: f64, half_width: f64| {
            let depth = shape.profile.concave_at(&shape.datum, x);
            let radius = (m * m + depth * depth) / (2.0 * depth);
            let strips: Vec<(f64, f64)> = (0..STEPS)
                .map(|k| {
                    let turn = half_width * (f64::from(k) + 0.5) / f64::from(STEPS) / radius;
                    (radius * (1.0 - real::cos(turn)), real::cos(turn).powi(2))
                })
                .collect();
            let n = f64::from(STEPS);
            let mean = strips.iter().map(|s| s.0).sum::<f64>() / n;
            let spread = strips.iter().map(|s| (s.0 - mean).powi(2)).sum::<f64>() / n;
            let lean = strips.iter().map(|s| s.1).sum::<f64>() / n;
            2.0 * half_width * (laminate.along.bend * lean + laminate.along.stretch * spread)
        };
        let step = 2.0 * span / f64::from(STEPS);
        let bent: f64 = (0..STEPS)
            .map(|k| {
                let x = -span + step * (f64::from(k) + 0.5);
                let moment = (span - x.abs()) / 2.0;
                800.0 * moment * moment / stiffness(x, measured.envelope.half_breadth(x).unwrap()) * step
            })
            .sum();
        assert!((0.98..1.0).contains(&(found / bent)), "{} {}", deck.name(), found / bent);
    }
}
