//! Tests of the single arc, and the outlines the tests of this room share.

use super::*;
use core::f64::consts::{FRAC_PI_2, PI};
use kurbo::BezPath;

/// Half outlines, tail to nose, as runs of cubic control points: street, cruiser, and the nose half of a waisted twin.
const TURNSTONE: [(f64, f64); 13] = [
    (-400.05, 0.0),
    (-400.05, 83.94),
    (-291.34, 97.13),
    (-254.0, 100.2),
    (-228.83, 102.27),
    (-174.61, 104.775),
    (0.0, 104.775),
    (118.32, 104.775),
    (212.72, 103.61),
    (254.0, 100.8),
    (386.83, 91.76),
    (412.75, 35.58),
    (412.75, 0.0),
];
const WHIMBREL: [(f64, f64); 19] = [
    (-409.575, 0.0),
    (-409.575, 15.4),
    (-408.39, 30.78),
    (-406.03, 46.0),
    (-403.9, 59.69),
    (-394.49, 71.14),
    (-381.47, 75.88),
    (-336.57, 92.23),
    (-292.64, 95.51),
    (-240.0, 98.2),
    (-198.39, 100.32),
    (-36.22, 107.95),
    (40.0, 107.95),
    (57.94, 107.95),
    (162.71, 107.53),
    (235.0, 92.5),
    (337.29, 71.24),
    (352.425, 25.32),
    (352.425, 0.0),
];
const DUNLIN_NOSE: [(f64, f64); 13] = [
    (0.0, 91.25),
    (33.48, 91.25),
    (58.52, 95.25),
    (92.0, 95.25),
    (117.33, 95.25),
    (142.67, 95.25),
    (168.0, 95.25),
    (195.42, 95.25),
    (221.86, 92.87),
    (240.0, 90.3),
    (341.22, 75.93),
    (361.95, 30.04),
    (361.95, 0.0),
];

/// The open half outline through a run of control points.
fn half(points: &[(f64, f64)]) -> BezPath {
    let mut path = BezPath::new();
    path.move_to(points[0]);
    for p in points[1..].chunks_exact(3) {
        path.curve_to(p[0], p[1], p[2]);
    }
    path
}

/// The three demo half outlines, tail to nose.
pub(super) fn halves() -> [BezPath; 3] {
    let tail = DUNLIN_NOSE[1..].iter().rev().map(|(x, y)| (-x, *y));
    let dunlin: Vec<_> = tail.chain(DUNLIN_NOSE).collect();
    [half(&TURNSTONE), half(&WHIMBREL), half(&dunlin)]
}

/// The closed anticlockwise outline of a half: the half itself runs clockwise on the left of the board.
pub(super) fn closed(half: &[Arc]) -> Vec<Arc> {
    let upper = half.iter().rev().map(Arc::reversed);
    let lower = half.iter().map(|arc| arc.reversed().mirrored());
    upper.chain(lower).collect()
}

/// A full circle as two half turns, anticlockwise.
fn circle(centre: (f64, f64), radius: f64) -> Vec<Arc> {
    let (right, left) = (Point::new(centre.0 + radius, centre.1), Point::new(centre.0 - radius, centre.1));
    vec![Arc { p0: right, p1: left, bulge: 1.0 }, Arc { p0: left, p1: right, bulge: 1.0 }]
}

#[track_caller]
pub(super) fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "found {found}, expected {expected} within {within}");
}

#[test]
fn a_half_turn_has_its_radius_centre_length_and_top() {
    let arc = Arc { p0: Point::new(12.0, 5.0), p1: Point::new(8.0, 5.0), bulge: 1.0 };
    near(arc.radius().unwrap(), 2.0, 1e-15);
    near(arc.length(), 2.0 * PI, 1e-14);
    near(arc.centre().unwrap().distance(Point::new(10.0, 5.0)), 0.0, 1e-15);
    near(arc.point(0.5).distance(Point::new(10.0, 7.0)), 0.0, 1e-14);
    near(arc.distance(Point::new(10.0, 9.0)), 2.0, 1e-14);
    near(arc.distance(Point::new(10.0, 1.0)), 20_f64.sqrt(), 1e-14);
    near(arc.sweep(), PI, 1e-15);
    near(signed_area(&circle((3.0, 4.0), 2.0)), 4.0 * PI, 1e-13);
}

#[test]
fn every_arc_agrees_with_the_circle_it_lies_on() {
    for sweep in [-3.1, -1.0, -1e-2, -1e-6, 1e-6, 1e-4, 9.99e-4, 1.01e-3, 0.3, FRAC_PI_2, 3.0] {
        let (radius, start) = (70.0, 0.7);
        let at = |angle: f64| Point::new(radius * real::cos(angle) - 3.0, radius * real::sin(angle) + 8.0);
        let arc = Arc { p0: at(start), p1: at(start + sweep), bulge: real::tan(sweep / 4.0) };
        near(arc.length(), radius * f64::abs(sweep), 1e-12);
        near(1.0 / arc.curvature(), radius * sweep.signum(), 1e-6 * (1.0 + 1e-6 / sweep.abs()));
        for i in 0..=20 {
            let t = f64::from(i) / 20.0;
            near(arc.point(t).distance(at(start + t * sweep)), 0.0, 1e-12);
            near(arc.distance(arc.point(t)), 0.0, 1e-12);
            near(arc.reversed().point(1.0 - t).distance(arc.point(t)), 0.0, 1e-12);
        }
        let again = Arc::leaving(arc.p0, arc.start_tangent(), arc.p1);
        near(again.bulge, arc.bulge, 1e-14);
        near(Arc::arriving(arc.p0, arc.p1, arc.end_tangent()).bulge, arc.bulge, 1e-14);
    }
}

#[test]
fn the_area_beside_a_flat_arc_joins_its_series_to_its_formula() {
    for sweep in [9.9e-4_f64, 1.1e-3] {
        let arc = Arc { p0: Point::ZERO, p1: Point::new(100.0, 0.0), bulge: real::tan(sweep / 4.0) };
        let radius = 50.0 / real::sin(sweep / 2.0);
        let series = radius * radius * sweep.powi(3) / 12.0 * (1.0 - sweep * sweep / 20.0);
        near(segment_area(&arc), series, 1e-6 * series);
    }
}

#[test]
fn a_point_collapsed_to_nothing_has_no_radius_and_no_length() {
    let arc = Arc { p0: Point::new(1.0, 2.0), p1: Point::new(1.0, 2.0), bulge: 0.5 };
    assert_eq!((arc.radius(), arc.centre()), (None, None));
    near(arc.length(), 0.0, 0.0);
    near(arc.distance(Point::new(4.0, 6.0)), 5.0, 1e-15);
    assert_eq!(arc.start_tangent(), Vec2::ZERO);
}

#[test]
fn a_circle_just_fits_into_its_square() {
    let found = extent(&circle((3.0, 4.0), 2.0)).unwrap();
    near(found.x0, 1.0, 1e-12);
    near(found.x1, 5.0, 1e-12);
    near(found.y0, 2.0, 1e-12);
    near(found.y1, 6.0, 1e-12);
    assert_eq!(extent(&[]), None);
}
