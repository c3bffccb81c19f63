//! Curvature of a clothoid and of circles.
//!
//! Source: on a clothoid curvature grows with arc length, k = s/A² (DLMF 7.2(iii), from memory). With R = L = 100 mm
//! (A = 100) it ends at x = 97.528769, y = 16.371405 and has turned 0.5 rad, by the Fresnel integrals.

use crate::near;
use core::f64::consts::{FRAC_PI_2, PI};
use halfbreadth_core::{
    measure::{Measured, comb},
    real,
};
use halfbreadth_tests::draw::{self, Join, Through, arc_handles};
use kurbo::{ParamCurveArclen, Point, Vec2};

/// The clothoid of A = 100 mm from its start at the origin along +x, turning clockwise, after `s` mm. Simpson's rule.
fn clothoid(s: f64) -> Through {
    const STEPS: u32 = 2000;
    let turn = |u: f64| u * u / 20_000.0;
    let sum = (0..=STEPS).fold(Vec2::ZERO, |sum, k| {
        let weight = if k == 0 || k == STEPS { 1.0 } else { f64::from(2 + 2 * (k % 2)) };
        sum + weight * real::unit_vector(-turn(s * f64::from(k) / f64::from(STEPS)))
    });
    Through { place: (sum * (s / f64::from(STEPS) / 3.0)).to_point(), angle: -turn(s) }
}

#[test]
fn the_clothoid_of_this_file_ends_where_the_fresnel_integrals_say() {
    let end = clothoid(100.0);
    near(end.place.x, 97.528_769, 1e-6);
    near(end.place.y, -16.371_405, 1e-6);
    near(end.angle, -0.5, 1e-12);
}

/// A deck whose side leaves the widest place along a clothoid.
#[test]
fn curvature_grows_with_arc_length_along_a_clothoid() {
    const SPANS: u32 = 20;
    let shift = Vec2::new(120.0, 100.0);
    let on = |k: u32| {
        let node = clothoid(100.0 * f64::from(k) / f64::from(SPANS));
        Through { place: node.place + shift, angle: node.angle }
    };
    let mut nodes = vec![
        Through { place: (-400.0, 0.0).into(), angle: FRAC_PI_2 },
        Through { place: (-300.0, 100.0).into(), angle: 0.0 },
    ];
    let mut joins = vec![arc_handles(100.0, FRAC_PI_2), Join::Line];
    nodes.extend((0..=SPANS).map(on));
    // A span turns by 0.05 rad at most: with handles of a third of its length its curvature is right to 5e-4.
    joins.extend((0..SPANS).map(|_| Join::Handles(5.0 / 3.0, 5.0 / 3.0)));
    nodes.push(Through { place: (400.0, 0.0).into(), angle: -FRAC_PI_2 });
    joins.push(Join::Handles(100.0, 40.0));
    let design = draw::design(draw::smooth(&nodes, &joins), draw::datum_for(400.0, 165.0));
    let half = design.expect("the shape is a valid deck").shape().outline.resolve();

    let first = 2; // the pieces before are the tail and the straight
    let mut s = 0.0;
    for piece in &half.pieces()[first..first + SPANS as usize] {
        let teeth = comb(&halfbreadth_core::outline::Half::from_pieces(vec![*piece]), 2);
        let length = piece.curve.arclen(1e-9);
        for (tooth, share) in teeth.iter().zip([0.0, 0.5, 1.0]) {
            near(tooth.curvature, (s + length * share) / 10_000.0, 5e-6);
        }
        s += length;
    }
    near(s, 100.0, 1e-4);
}

#[test]
fn a_circle_has_one_radius_everywhere() {
    const PARTS: u32 = 24;
    // A stadium: two half circles of 90 mm.
    let arc = |centre: f64, from: f64| -> Vec<Through> {
        let at = |k: u32| {
            let angle = from - FRAC_PI_2 * f64::from(k) / f64::from(PARTS);
            let outward = real::unit_vector(angle + FRAC_PI_2);
            Through { place: Point::new(centre, 0.0) + outward * 90.0, angle }
        };
        (0..=PARTS).map(at).collect()
    };
    let nodes = [arc(-300.0, PI / 2.0), arc(300.0, 0.0)].concat();
    let handles = arc_handles(90.0, FRAC_PI_2 / f64::from(PARTS));
    let mut joins = vec![handles; 2 * PARTS as usize + 1];
    joins[PARTS as usize] = Join::Line;
    let design = draw::design(draw::smooth(&nodes, &joins), draw::datum_for(390.0, 165.0));
    let measured = Measured::of(design.expect("the shape is a valid deck").shape());

    near(measured.smallest_convex.map_or(f64::NAN, |bend| bend.radius), 90.0, 1e-3);
    assert_eq!(measured.smallest_concave, None);
    assert_eq!(measured.corners, []);
    for end in [&measured.nose, &measured.tail] {
        near(1.0 / end.tip_curvature.unwrap_or(f64::NAN), 90.0, 1e-3);
        let compass = end.compass.expect("a round end has a shoulder");
        near(compass.radius, 90.0, 1e-5);
        near(compass.station, 300.0, 1e-5);
        near(compass.misfit, 0.0, 2e-6);
        near(end.shoulder.map_or(f64::NAN, |s| s.at.y), 90.0 / 2.0_f64.sqrt(), 1e-5);
    }
}
