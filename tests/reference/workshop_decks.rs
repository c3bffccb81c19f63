//! The workshop's figures of the demo decks, to the digits that their designer stated.
//!
//! Source: worked out with the outlines, before this program: seven plies of 1.5 mm of sugar maple, 10.5 mm in all, axles
//! 53 mm below, a load of 800 N. Two of the stated flat deflections, 5.08 and 3.67 mm, were a coarse sum: the integral is
//! 5.0745 and 3.6648 mm, by three rules of integration (see `workshop_beams.rs`), and these are checked here.

use crate::near;
use halfbreadth_core::{
    demo,
    design::{Design, Shape},
    edit::Edit,
    layup::Grain,
    measure::Measured,
    real,
    workshop::{Fault, Inputs, Workshop, figures},
};

/// What was stated of one deck. mm, degrees, g, MPa; the nose first.
struct Stated {
    riser: f64,
    wheel: f64,
    glue: f64,
    inside: f64,
    wood: f64,
    dry_glue: f64,
    plan_length: f64,
    rise: [Option<f64>; 2],
    strike: [Option<f64>; 2],
    flat: f64,
    concave: f64,
    top: f64,
    bottom: f64,
    flat_stress: f64,
}

/// The inputs of the stated figures: the thickness without glue lines, the load of 800 N.
fn inputs(stated: &Stated) -> Inputs {
    let mut inputs = Inputs::default();
    inputs.wood.measured_thickness = Some(10.5);
    inputs.ride.rider = 800.0 / 9.806_65 * 1000.0;
    inputs.ride.riser = stated.riser;
    inputs.ride.wheel_diameter = stated.wheel;
    inputs
}

#[track_caller]
fn check(design: &Design, stated: &Stated) {
    let (measured, inputs) = (Measured::of(design.shape()), inputs(stated));
    let workshop = Workshop::of(design.shape(), &measured, &inputs);
    let value = |key: &str| (figures::find(key).unwrap().read)(&workshop).value;
    let is = |key: &str, stated: f64, half_digit: f64| near(value(key).unwrap(), stated, half_digit);
    near(measured.glue_mass, stated.glue, 0.5);
    near(measured.glue_inside_share, stated.inside, 5e-4);
    near(measured.plan_length, stated.plan_length, 0.05);
    is("wood-mass", stated.wood, 0.5);
    is("glue-dry", stated.dry_glue, 0.5);
    is("deck-mass", stated.wood + stated.dry_glue, 1.0);
    for (key, rise) in ["nose-tip-rise", "tail-tip-rise"].into_iter().zip(stated.rise) {
        assert_eq!(value(key).is_some(), rise.is_some(), "{key}");
        near(value(key).unwrap_or(0.0), rise.unwrap_or(0.0), 0.05);
    }
    for (key, degrees) in ["nose-strike-angle", "tail-strike-angle"].into_iter().zip(stated.strike) {
        assert_eq!(value(key).is_some(), degrees.is_some(), "{key}");
        near(value(key).unwrap_or(0.0).to_degrees(), degrees.unwrap_or(0.0), 0.05);
    }
    is("flat-deflection", stated.flat, 5e-3);
    is("deflection", stated.concave, 5e-3);
    is("top-stress", stated.top, 0.05);
    is("bottom-stress", stated.bottom, 0.05);
    assert_eq!(workshop.faults(), [], "{}", design.name());

    let flat = design.apply(&Edit::Set { key: "concave-depth", value: 0.0 }).unwrap();
    let flat_measured = Measured::of(flat.shape());
    let flat_workshop = Workshop::of(flat.shape(), &flat_measured, &inputs);
    for key in ["top-stress", "bottom-stress"] {
        near((figures::find(key).unwrap().read)(&flat_workshop).value.unwrap(), stated.flat_stress, 0.05);
    }
}

#[test]
fn turnstone_has_its_workshop_figures() {
    check(
        &demo::turnstone(),
        &Stated {
            riser: 0.0,
            wheel: 53.0,
            glue: 267.0,
            inside: 0.759,
            wood: 1138.0,
            dry_glue: 92.0,
            plan_length: 796.3,
            rise: [Some(50.7), Some(44.3)],
            strike: [Some(34.4), Some(34.7)],
            flat: 5.0745,
            concave: 2.89,
            top: 29.9,
            bottom: 21.6,
            flat_stress: 23.3,
        },
    );
}

#[test]
fn whimbrel_has_its_workshop_figures() {
    check(
        &demo::whimbrel(),
        &Stated {
            riser: 3.175,
            wheel: 62.0,
            glue: 257.0,
            inside: 0.737,
            wood: 1065.0,
            dry_glue: 86.0,
            plan_length: 756.2,
            rise: [None, Some(38.3)],
            strike: [None, Some(35.0)],
            flat: 5.70,
            concave: 3.90,
            top: 32.2,
            bottom: 24.1,
            flat_stress: 23.7,
        },
    );
}

#[test]
fn dunlin_has_its_workshop_figures() {
    check(
        &demo::dunlin(),
        &Stated {
            riser: 0.0,
            wheel: 57.0,
            glue: 220.0,
            inside: 0.743,
            wood: 916.0,
            dry_glue: 74.0,
            plan_length: 710.1,
            rise: [Some(41.1), Some(41.1)],
            strike: [Some(35.9), Some(35.9)],
            flat: 3.6648,
            concave: 2.54,
            top: 31.5,
            bottom: 23.9,
            flat_stress: 23.0,
        },
    );
}

#[test]
fn every_bad_input_is_named_beside_its_field_and_spoils_nothing_else() {
    let deck = demo::turnstone();
    let measured = Measured::of(deck.shape());
    let reading = |inputs: &Inputs, key: &str| {
        (figures::find(key).unwrap().read)(&Workshop::of(deck.shape(), &measured, inputs))
    };
    let fields = |inputs: &Inputs| -> Vec<&'static str> {
        let faults = Workshop::of(deck.shape(), &measured, inputs).faults();
        assert!(faults.iter().all(|fault| fault.to_string().ends_with('.')), "{faults:?}");
        faults.iter().map(Fault::field).collect()
    };
    let with = |change: fn(&mut Inputs)| {
        let mut inputs = Inputs::default();
        change(&mut inputs);
        inputs
    };

    assert_eq!(fields(&Inputs::default()), Vec::<&str>::new());
    let past = with(|i| i.press.torque = 25_000.0);
    assert_eq!(fields(&past), ["bolt-torque"]);
    assert_eq!(reading(&past, "pressure").value, None);
    assert_eq!(reading(&past, "pressure").remark, "past the bolts' limit");
    assert!(reading(&past, "deflection").value.is_some());
    let no_diameter = with(|i| i.press.diameter = 0.0);
    assert_eq!(fields(&no_diameter), ["bolt-diameter", "bolt-diameter"]);
    let wanted = with(|i| i.press.wanted = Some(0.2));
    assert_eq!(fields(&wanted), ["mould-pressure"]);
    assert_eq!(reading(&wanted, "wanted-torque").remark, "the mould's limit is not given");
    let below = with(|i| (i.press.wanted, i.mould.pressure) = (Some(0.2), Some(0.5)));
    assert_eq!(fields(&below), Vec::<&str>::new());
    assert!(reading(&below, "wanted-torque").value.is_some());
    assert_eq!(fields(&with(|i| i.mould.pressure = Some(0.1))), ["bolt-torque"]);
    assert_eq!(
        fields(&with(|i| (i.press.force, i.mould.pressure) = (Some(4e4), Some(0.1)))),
        ["press-force"]
    );
    assert_eq!(fields(&with(|i| i.glue.per_line = 2.0)), ["minutes-per-line"]);
    assert_eq!(fields(&with(|i| i.stock.sheet_length = 800.0)), ["sheet-length"]);
    assert_eq!(fields(&with(|i| i.mould.clear_length = 830.0)), ["mould-clear-length"]);
    assert_eq!(fields(&with(|i| i.finish.round_over = f64::NAN)), ["round-over"]);
    assert_eq!(fields(&with(|i| i.press.nut_factor = 0.35)), ["nut-factor"]);
    let thin = with(|i| (i.wood.measured_thickness, i.finish.round_over) = (Some(6.0), 3.2));
    assert_eq!(fields(&thin), ["finished-thickness", "round-over"]);
}

#[test]
fn a_stack_without_plies_loses_its_plate_and_keeps_the_rest() {
    let mut shape = demo::turnstone().shape().clone();
    shape.layup.plies.clear();
    let (measured, inputs) = (Measured::of(&shape), Inputs::default());
    let workshop = Workshop::of(&shape, &measured, &inputs);
    let fields: Vec<_> = workshop.faults().iter().map(Fault::field).collect();
    assert!(fields.contains(&"plies"), "{fields:?}");
    let reading = |key: &str| (figures::find(key).unwrap().read)(&workshop);
    assert_eq!((reading("deflection").value, reading("deflection").remark), (None, "no plies"));
    assert!(reading("pressure").value.is_some() && reading("end-margin").value.is_some());
}

#[test]
fn a_blank_smaller_than_the_outline_says_by_how_much() {
    let deck = demo::turnstone().apply(&Edit::Set { key: "blank-width", value: 200.0 }).unwrap();
    let (measured, inputs) = (Measured::of(deck.shape()), Inputs::default());
    let faults = Workshop::of(deck.shape(), &measured, &inputs).faults();
    assert_eq!(faults.len(), 1);
    assert_eq!(faults[0].field(), "blank-width");
    assert_eq!(
        faults[0].to_string(),
        "The blank is 9.6 mm smaller than the outline: cut the veneers larger."
    );
}

/// Ten Turnstones by hand: fifty veneers along and twenty across, one to a sheet; ten days of 24 hours.
#[test]
fn a_run_of_ten_needs_what_it_needs_by_hand() {
    let deck = demo::turnstone();
    let measured = Measured::of(deck.shape());
    let mut inputs = Inputs::default();
    inputs.run.sheet_price = Some(4.0);
    inputs.run.cross_price = Some(5.0);
    inputs.run.glue_price = Some(10.0);
    let workshop = Workshop::of(deck.shape(), &measured, &inputs);
    let value = |key: &str| (figures::find(key).unwrap().read)(&workshop).value.unwrap();
    near(value("veneers-along"), 50.0, 0.0);
    near(value("veneers-across"), 20.0, 0.0);
    near(value("sheets"), 50.0, 0.0);
    near(value("cross-sheets"), 20.0, 0.0);
    near(value("run-glue"), 2669.8, 0.05);
    near(value("presses"), 10.0, 0.0);
    near(value("days"), 10.0, 1e-12);
    near(value("cost"), 200.0 + 100.0 + 26.698, 5e-3);
    near(value("deck-cost"), 32.67, 5e-3);
    inputs.run.moulds = 3.0;
    let three = Workshop::of(deck.shape(), &measured, &inputs);
    near((figures::find("days").unwrap().read)(&three).value.unwrap(), 4.0, 1e-12);
}

/// Elementary: a hole of 5.2 mm opened to 10 mm at 90° is 2.4 mm deep; at 82° 2.4 ÷ tan 41° = 2.761 mm. Bare wood: both
/// faces and the edge, whose round-overs of 3.2 mm take (4 − π)·3.2 = 2.747 mm of girth.
#[test]
fn holes_edges_and_grip_are_as_by_hand() {
    let deck = demo::turnstone();
    let measured = Measured::of(deck.shape());
    let mut inputs = Inputs::default();
    inputs.wood.measured_thickness = Some(10.5);
    let read = |inputs: &Inputs, key: &str| {
        (figures::find(key).unwrap().read)(&Workshop::of(deck.shape(), &measured, inputs)).value.unwrap()
    };
    near(read(&inputs, "countersink-depth"), 2.4, 1e-12);
    near(read(&inputs, "seal-area"), 2.0 * measured.area + measured.perimeter * (10.5 - 2.747), 1.0);
    near(read(&inputs, "grip-length"), 824.8, 1e-9);
    near(read(&inputs, "grip-width"), 221.55, 1e-9);
    inputs.finish.countersink_angle = 82_f64.to_radians();
    near(read(&inputs, "countersink-depth"), 2.761, 5e-4);
}

/// Turned about the axle by the strike angle, the tip's lower edge touches the ground one wheel radius below: the root of
/// r + b·cos φ − a·sin φ, looked at as a rotation.
#[test]
fn a_tip_turned_by_its_strike_angle_touches_the_ground() {
    for deck in demo::all() {
        let measured = Measured::of(deck.shape());
        for (riser, wheel, offset) in [(0.0, 53.0, 0.0), (6.0, 70.0, 8.0), (0.0, 45.0, -8.0)] {
            let mut inputs = Inputs::default();
            inputs.ride.riser = riser;
            inputs.ride.wheel_diameter = wheel;
            inputs.ride.axle_offset = offset;
            let workshop = Workshop::of(deck.shape(), &measured, &inputs);
            for tip in [workshop.nose, workshop.tail].into_iter().flatten() {
                let above_axle = tip.height - wheel / 2.0;
                let (sin, cos) = real::sincos(-tip.strike);
                near(tip.reach * sin + above_axle * cos, -wheel / 2.0, 1e-9);
            }
        }
    }
}

/// Turnstone by hand: an arc of 553.89 mm stands 9.324 mm high at 101.775 mm, so the gap over a wheel of 53 mm is 53 + 9.324
/// − 26.5 = 35.824 mm, and atan(35.824 ÷ 101.775) is 19.39°. At the nose axle half the deck is 102.75 mm wide.
#[test]
fn wheel_bite_and_wheels_are_as_by_hand() {
    let deck = demo::turnstone();
    let (measured, inputs) = (Measured::of(deck.shape()), Inputs::default());
    let workshop = Workshop::of(deck.shape(), &measured, &inputs);
    let value = |key: &str| (figures::find(key).unwrap().read)(&workshop).value.unwrap();
    near(value("wheel-bite-lean").to_degrees(), 19.39, 5e-3);
    near(value("nose-over-wheels"), 205.5 / 2.0 - 101.775, 0.03);
}

/// With glue lines of 0.1 mm counted the deck is 11.1 mm thick: the nose's lower edge lies 0.6·sin 21° farther out and
/// 0.6·(1 − cos 21°) higher, and strikes at 34.353° instead of 34.376°.
#[test]
fn glue_lines_make_the_deck_thicker() {
    let deck = demo::turnstone();
    let (measured, inputs) = (Measured::of(deck.shape()), Inputs::default());
    let workshop = Workshop::of(deck.shape(), &measured, &inputs);
    near(workshop.thickness, 11.1, 1e-12);
    near(workshop.nose.unwrap().strike.to_degrees(), 34.353, 1e-3);
}

/// A face of cross plies is not judged by the strength along the grain: the ply below it is.
#[test]
fn stress_is_that_of_the_outermost_ply_along_the_board() {
    let deck = demo::turnstone();
    let mut shape = deck.shape().clone();
    let (measured, inputs) = (Measured::of(&shape), Inputs::default());
    shape.profile.concave_depth = 0.0;
    let stress = |shape: &Shape| {
        let workshop = Workshop::of(shape, &measured, &inputs);
        let laminate = workshop.laminate.clone().unwrap();
        let flex = workshop.flex.unwrap();
        let moment = flex.load * shape.datum.truck_centre() / 2.0;
        // Per mm of distance from the middle: E·M/EI with EI = D·w.
        (flex.top, 12_600.0 * moment / (laminate.along.bend * measured.overall_width))
    };
    let (top, per_mm) = stress(&shape);
    near(top, 5.25 * per_mm, 1e-9);
    for i in [0, 6] {
        shape.layup.plies[i].grain = Grain::Across;
    }
    let (top, per_mm) = stress(&shape);
    near(top, 3.75 * per_mm, 1e-9);
}
