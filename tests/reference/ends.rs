//! The compass arc of an end against an independent least-squares fit, and the taper of sides of known slope.
//!
//! Source: the definitions alone; the fit here is a search by golden sections over dense points, with no derivative.

use crate::near;
use halfbreadth_core::{demo, measure::Measured, outline::Half, real};
use halfbreadth_tests::{
    dense, draw,
    random::{self, Random},
};
use kurbo::{ParamCurve, Point};

/// Points from the shoulder to the tip, each with the length it stands for.
fn arc(half: &Half, piece: usize, t: f64) -> Vec<(Point, f64)> {
    const STEPS: u32 = 4000;
    let mut places = Vec::new();
    for (i, p) in half.pieces().iter().enumerate().skip(piece) {
        let from = if i == piece { t } else { 0.0 };
        places
            .extend((0..=STEPS).map(|k| p.curve.eval(from + (1.0 - from) * f64::from(k) / f64::from(STEPS))));
    }
    places.windows(2).map(|w| (w[0].midpoint(w[1]), (w[1] - w[0]).hypot())).collect()
}

/// Radius and mean square miss of the best circle about `station`.
fn best_about(arc: &[(Point, f64)], station: f64) -> (f64, f64) {
    let total: f64 = arc.iter().map(|a| a.1).sum();
    let mean = |f: &dyn Fn(Point) -> f64| arc.iter().map(|&(p, w)| w * f(p)).sum::<f64>() / total;
    let distance = |p: Point| p.distance(Point::new(station, 0.0));
    let radius = mean(&distance);
    (radius, mean(&|p| (distance(p) - radius).powi(2)))
}

/// The station about which the best circle misses least, within `reach` of `around`.
fn search(arc: &[(Point, f64)], around: f64, reach: f64) -> f64 {
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    let (mut low, mut high) = (around - reach, around + reach);
    for _ in 0..60 {
        let (a, b) = (high - golden * (high - low), low + golden * (high - low));
        if best_about(arc, a).1 < best_about(arc, b).1 {
            high = b;
        } else {
            low = a;
        }
    }
    (low + high) / 2.0
}

#[test]
fn the_compass_arc_is_the_least_squares_circle_of_an_independent_search() {
    let random = (0..40).map(|seed| random::design(&mut Random::new(seed)));
    let mut compared = 0;
    for (i, design) in demo::all().into_iter().chain(random).enumerate() {
        let m = Measured::of(design.shape());
        for (end, half) in [(&m.nose, m.half.clone()), (&m.tail, m.half.turned())] {
            let (Some(shoulder), Some(compass)) = (end.shoulder, end.compass) else { continue };
            let arc = arc(&half, shoulder.piece, shoulder.t);
            let reach = (0.3 * compass.radius).min(60.0);
            let station = search(&arc, compass.station, reach);
            let (radius, square) = best_about(&arc, station);
            let miss = |p: Point| (p.distance(Point::new(compass.station, 0.0)) - compass.radius).abs();
            let misfit = arc.iter().map(|&(p, _)| miss(p)).fold(0.0, f64::max);
            // The less the arc is a circle, the harder its centre is to place for both.
            let slack = 1e-3 + 3e-3 * misfit;
            assert!((compass.station - station).abs() < slack, "deck {i}: {compass:?}, searched {station}");
            assert!((compass.radius - radius).abs() < slack, "deck {i}: {compass:?}, searched {radius}");
            assert!(square <= best_about(&arc, compass.station).1 + 1e-9, "deck {i}");
            assert!(misfit <= compass.misfit + 1e-6, "deck {i}: {compass:?}, counted {misfit}");
            assert!(compass.misfit <= misfit * 1.001 + 0.02, "deck {i}: {compass:?}, counted {misfit}");
            compared += 1;
        }
    }
    assert!(compared > 50, "only {compared} compared");
}

/// A deck with sides of slope `slope` from the middle out and square ends.
fn wedge(slope: f64) -> Measured {
    let (length, breadth) = (400.0, 110.0);
    let end = breadth - slope * length;
    let corners = [(-length, 0.0), (-length, end), (0.0, breadth), (length, end), (length, 0.0)];
    let design = draw::design(draw::polygon(&corners), draw::datum_for(length, 165.0));
    Measured::of(design.expect("the wedge is a valid deck").shape())
}

#[test]
fn a_straight_side_tapers_by_its_own_slope_and_fills_a_trapezium() {
    for slope in [-0.05, 0.0, 0.02, 0.1, 0.2] {
        let m = wedge(slope);
        for end in [&m.nose, &m.tail] {
            near(end.taper.unwrap(), real::atan(slope), 1e-12);
            let b = end.taper_rule[0].y;
            let tip = b - slope * (400.0 - end.reference);
            near(end.fullness.unwrap(), (b + tip) / 2.0 / b, 1e-12);
            assert_eq!(end.end, (400.0, 110.0 - slope * 400.0).into());
            // A square corner turns past 45° at once, and there the shoulder is.
            near(end.shoulder.unwrap().at.distance(end.end), 0.0, 1e-9);
            assert!(end.tip_curvature.is_some_and(|k| k.abs() < 1e-12), "a square end is flat");
        }
    }
}

#[test]
fn a_swallow_tail_ends_at_its_points_and_has_its_shoulder_there() {
    for notch in [20.0, 60.0, 200.0] {
        let corners = [(-400.0, 0.0), (-400.0, 60.0), (0.0, 100.0), (400.0, 70.0), (400.0 - notch, 0.0)];
        let design = draw::design(draw::polygon(&corners), draw::datum_for(400.0, 165.0));
        let m = Measured::of(design.expect("the swallow tail is a valid deck").shape());
        assert_eq!(m.nose.end, (400.0, 70.0).into());
        near(m.nose.shoulder.unwrap().at.distance(m.nose.end), 0.0, 1e-9);
        assert_eq!(m.nose.tip_curvature, None);
        near(m.nose.taper.unwrap(), real::atan(0.075), 1e-12);
        let points = dense::half(&m.half, 1);
        near(m.area, dense::area(&points), 1e-9);
    }
}

#[test]
fn a_pointed_end_has_no_tip_radius_and_its_point_is_its_end() {
    let corners = [(-400.0, 0.0), (-300.0, 90.0), (300.0, 90.0), (400.0, 0.0)];
    let design = draw::design(draw::polygon(&corners), draw::datum_for(400.0, 165.0));
    let m = Measured::of(design.expect("the pointed deck is valid").shape());
    for end in [&m.nose, &m.tail] {
        assert_eq!(end.end, (400.0, 0.0).into());
        assert_eq!(end.tip_curvature, None);
    }
    near(m.perimeter, 2.0 * (600.0 + 2.0 * 18_100.0_f64.sqrt()), 1e-9);
    near(m.area, 2.0 * 90.0 * 700.0, 1e-9);
}
