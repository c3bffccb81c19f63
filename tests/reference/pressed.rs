//! The pressed shape: kicks and concave.
//!
//! Source: elementary geometry of arcs and tangents, worked by hand: a kick of radius 76.2 mm at 20° with 80 mm of
//! straight runs 101.237 mm and rises 31.957 mm; a concave of 10 mm over 200 mm has a radius of 505 mm.

use crate::near;
use halfbreadth_core::{
    datum::Datum,
    demo,
    profile::{Kick, Profile},
    real,
};

fn profile() -> Profile {
    let kick = Kick { bend_line: 20.0, radius: 76.2, angle: 20_f64.to_radians() };
    Profile {
        nose: kick.clone(),
        tail: kick,
        concave_depth: 10.0,
        concave_width: 200.0,
        flat_strip: 0.0,
        concave_fade: 40.0,
    }
}

#[test]
fn a_kick_runs_and_rises_by_its_arc_and_its_straight() {
    let kick = profile().nose;
    let arc = kick.radius * kick.angle;
    near(arc, 26.599, 5e-4);
    let (run, rise) = kick.run_and_rise(arc + 80.0);
    near(run, 101.237, 5e-4);
    near(rise, 31.957, 5e-4);
    // The same on the deck, from the middle out and toward both ends.
    let datum = Datum::default();
    let bend = datum.outer_row() + 20.0;
    for sign in [-1.0, 1.0] {
        let (at, angle) = profile().side(&datum, sign * (bend + arc + 80.0));
        near(at.x, sign * (bend + run), 1e-9);
        near(at.y, rise, 1e-9);
        near(angle, sign * 20_f64.to_radians(), 1e-12);
    }
}

#[test]
fn the_side_view_keeps_the_length_of_the_sheet() {
    let (datum, profile) = (Datum::default(), profile());
    let steps = 40_000;
    let at = |k: i32| profile.side(&datum, 500.0 * f64::from(k) / f64::from(steps)).0;
    let length: f64 = (0..steps).map(|k| at(k).distance(at(k + 1))).sum();
    near(length, 500.0, 1e-6);
}

#[test]
fn the_concave_is_an_arc_of_five_hundred_and_five() {
    let (datum, profile) = (Datum::default(), profile());
    // The rail of a sheet as wide as the arc is long stands 10 mm high, 100 mm out.
    let half_arc = 505.0 * real::asin(100.0 / 505.0);
    let (y, z) = profile.across(&datum, 0.0, half_arc);
    near(y, 100.0, 1e-9);
    near(z, 10.0, 1e-9);
    for share in [0.2, 0.5, 0.9] {
        let (y, z) = profile.across(&datum, 0.0, half_arc * share);
        near(real::hypot(y, 505.0 - z), 505.0, 1e-9);
    }
}

#[test]
fn the_plan_is_widest_at_one_of_many_stations() {
    for design in demo::all() {
        let shape = design.shape();
        let measured = halfbreadth_core::measure::Measured::of(shape);
        let (tail, nose) = (-measured.tail.end.x, measured.nose.end.x);
        let at = |k: i32| tail + (nose - tail) * f64::from(k) / 20_000.0;
        let plan = |x: f64| {
            let y = measured.envelope.half_breadth(x).unwrap_or(0.0);
            2.0 * shape.profile.across(&shape.datum, x, y).0
        };
        let widest = (0..=20_000).map(|k| plan(at(k))).fold(0.0, f64::max);
        near(measured.plan_width, widest, 2e-3);
    }
}
