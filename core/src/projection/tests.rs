//! The plan outline against the map it is made by, and against published figures.

use super::*;
use crate::{demo, measure::Measured, tolerance};
use kurbo::ParamCurveNearest;

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "found {found}, expected {expected} within {within}");
}

#[track_caller]
fn follows(shape: &Shape) {
    let (flat, plan) = (Projection::Developed.half(shape), Projection::Plan.half(shape));
    for piece in flat.pieces() {
        for k in 0..=50 {
            let p = Projection::Plan.point(shape, piece.curve.eval(f64::from(k) / 50.0));
            let to = plan.pieces().iter().map(|piece| piece.curve.nearest(p, 1e-9).distance_sq);
            near(to.fold(f64::INFINITY, f64::min).sqrt(), 0.0, 1.05 * tolerance::PLAN);
        }
    }
    for pair in plan.pieces().windows(2) {
        assert_eq!(pair[0].curve.p3, pair[1].curve.p0);
    }
    let ends = (plan.pieces()[0].curve.p0, plan.pieces()[plan.pieces().len() - 1].curve.p3);
    assert_eq!((ends.0.y, ends.1.y), (0.0, 0.0));
}

#[test]
fn the_plan_outline_is_the_sheet_seen_from_above() {
    for deck in demo::all() {
        follows(deck.shape());
    }
}

#[test]
fn a_concave_that_ends_at_once_leaves_a_step() {
    let mut shape = demo::turnstone().shape().clone();
    shape.profile.concave_fade = 0.0;
    follows(&shape);
    assert!(Projection::Plan.half(&shape).pieces().len() < 60);
}

#[test]
fn turnstone_is_shorter_in_plan_by_its_published_figure() {
    // 812.8 mm along the sheet, 796.3 mm from above.
    let deck = demo::turnstone();
    let plan = Projection::Plan.half(deck.shape());
    let pieces = plan.pieces();
    let length = pieces[pieces.len() - 1].curve.p3.x - pieces[0].curve.p0.x;
    near(length, 796.3, 0.05);
    near(length, Measured::of(deck.shape()).plan_length, 2.0 * tolerance::PLAN);
    assert!(pieces.len() <= 40, "{}", pieces.len());
}

#[test]
fn a_flat_deck_is_the_same_in_both() {
    let mut shape = demo::dunlin().shape().clone();
    for kick in [&mut shape.profile.nose, &mut shape.profile.tail] {
        kick.angle = 0.0;
    }
    shape.profile.concave_depth = 0.0;
    let (flat, plan) = (Projection::Developed.half(&shape), Projection::Plan.half(&shape));
    assert_eq!(flat.pieces().len(), plan.pieces().len());
    for (a, b) in flat.pieces().iter().zip(plan.pieces()) {
        near((a.curve.p1 - b.curve.p1).hypot(), 0.0, 1e-4);
        assert_eq!(a.straight, b.straight);
    }
}
