//! Every measure is a number or none, and agrees with what is counted on a dense polygon.

use crate::on_designs;
use core::f64::consts::{FRAC_PI_4, PI};
use halfbreadth_core::{
    measure::{End, Measured, comb},
    outline::{Half, tangent_at},
    quantities::MEASURES,
    real,
};
use halfbreadth_tests::dense;
use kurbo::{ParamCurve, ParamCurveCurvature, Point};

/// Chords to each cubic: the polygon lies within some micrometres of the curve.
const CHORDS: u32 = 512;

#[test]
fn no_measure_is_ever_infinite_or_no_number() {
    on_designs(1500, |seed, design| {
        let measured = Measured::of(design.shape());
        for measure in MEASURES {
            let reading = (measure.read)(&measured);
            let key = measure.quantity.key;
            assert!(reading.value.is_none_or(f64::is_finite), "seed {seed}: {key} is {reading:?}");
            assert!(reading.value.is_some() || !reading.remark.is_empty(), "seed {seed}: {key} says not why");
        }
        for tooth in comb(&measured.half, 8) {
            assert!(tooth.at.is_finite() && tooth.outward.is_finite(), "seed {seed}: {tooth:?}");
        }
    });
}

#[test]
fn area_perimeter_length_and_width_are_those_of_the_polygon() {
    on_designs(200, |seed, design| {
        let measured = Measured::of(design.shape());
        let half = dense::half(&measured.half, CHORDS);
        let widest = half.iter().map(|p| p.y).fold(0.0, f64::max);
        let nose = half.iter().map(|p| p.x).fold(f64::NEG_INFINITY, f64::max);
        let tail = half.iter().map(|p| p.x).fold(f64::INFINITY, f64::min);
        let near = |a: f64, b: f64, what: &str| {
            assert!((a - b).abs() < 2e-5 * b, "seed {seed}: {what} is {a}, counted {b}");
        };
        near(measured.area, dense::area(&half), "area");
        near(measured.perimeter, dense::perimeter(&half), "perimeter");
        near(measured.overall_length, nose - tail, "length");
        near(measured.overall_width, 2.0 * widest, "width");
    });
}

#[test]
fn the_half_breadth_is_the_farthest_of_all_crossings_at_every_station() {
    on_designs(300, |seed, design| {
        let measured = Measured::of(design.shape());
        let half = dense::half(&measured.half, CHORDS);
        let (tail, nose) = (-measured.tail.end.x, measured.nose.end.x);
        for k in 1..100 {
            let x = tail + (nose - tail) * f64::from(k) / 100.0;
            let found = measured.envelope.half_breadth(x).unwrap_or(f64::NAN);
            // The curve may be steep here, or jump: a hundredth of a millimetre aside is near enough.
            let beside = [-0.01, 0.0, 0.01].map(|d| dense::half_breadth(&half, x + d).unwrap_or(0.0));
            let (low, high) =
                (beside.into_iter().fold(f64::INFINITY, f64::min), beside.into_iter().fold(0.0, f64::max));
            assert!(
                low - 0.01 < found && found < high + 0.01,
                "seed {seed} at {x}: {found}, counted {beside:?}"
            );
        }
        assert_eq!(measured.envelope.half_breadth(nose + 0.1), None, "seed {seed}");
    });
}

/// The half-breadth every tenth of a millimetre.
fn stations(measured: &Measured) -> Vec<Point> {
    let (tail, nose) = (-measured.tail.end.x, measured.nose.end.x);
    let count = ((nose - tail) * 10.0).floor();
    (0..)
        .map(f64::from)
        .take_while(|k| *k < count)
        .filter_map(|k| {
            let x = tail + (nose - tail) * (k + 0.5) / count;
            Some(Point::new(x, measured.envelope.half_breadth(x)?))
        })
        .collect()
}

/// Rail runs by another definition of the same thing: a station is a top if nothing higher can be reached from it
/// without going down by more than `tolerance`.
fn counted_runs(stations: &[Point], tolerance: f64) -> Vec<(f64, f64)> {
    let mut runs: Vec<(f64, f64)> = Vec::new();
    for i in 1..stations.len() - 1 {
        let top = stations[i].y;
        if stations[i - 1].y > top || stations[i + 1].y > top {
            continue;
        }
        let reach = |side: &mut dyn Iterator<Item = &Point>| {
            let inside: Vec<Point> = side.take_while(|p| p.y >= top - tolerance).copied().collect();
            let higher = inside.iter().any(|p| p.y > top);
            (higher, inside.last().map_or(stations[i].x, |p| p.x))
        };
        let (higher_aft, from) = reach(&mut stations[..i].iter().rev());
        let (higher_fore, to) = reach(&mut stations[i..].iter());
        if !higher_aft && !higher_fore && runs.last().is_none_or(|run| run.1 < stations[i].x) {
            runs.push((from, to));
        }
    }
    runs
}

#[test]
fn rail_runs_are_the_stretches_within_the_tolerance_of_a_top() {
    let mut compared = 0;
    on_designs(250, |seed, design| {
        let measured = Measured::of(design.shape());
        let stations = stations(&measured);
        let tolerance = design.shape().rail_tolerance;
        let [narrow, wide] = [-0.01, 0.01].map(|d| counted_runs(&stations, tolerance + d));
        if narrow.len() != wide.len() {
            return; // a top that stands out by just about the tolerance
        }
        compared += 1;
        let found: Vec<(f64, f64)> = measured.rail_runs.iter().rev().map(|run| (run.from, run.to)).collect();
        assert_eq!(found.len(), wide.len(), "seed {seed}: {found:?}, counted {wide:?}");
        for (run, (n, w)) in found.iter().zip(narrow.iter().zip(&wide)) {
            let from = w.0 - 0.2 < run.0 && run.0 < n.0 + 0.2;
            let to = n.1 - 0.2 < run.1 && run.1 < w.1 + 0.2;
            assert!(from && to, "seed {seed}: {run:?}, counted {n:?} to {w:?}");
        }
    });
    assert!(compared > 200, "only {compared} compared");
}

#[test]
fn the_waist_is_the_station_deepest_below_the_highest_edge_on_both_sides() {
    let mut waisted = 0;
    on_designs(400, |seed, design| {
        let measured = Measured::of(design.shape());
        let stations = stations(&measured);
        let mut aft = vec![0.0_f64];
        for p in &stations {
            aft.push(aft[aft.len() - 1].max(p.y));
        }
        let (mut fore, mut deepest) = (0.0_f64, 0.0_f64);
        for (i, p) in stations.iter().enumerate().rev() {
            fore = fore.max(p.y);
            deepest = deepest.max(fore.min(aft[i + 1]) - p.y);
        }
        let tolerance = design.shape().rail_tolerance;
        match measured.waist() {
            Some(waist) => {
                waisted += 1;
                // The deepest station may lie between two that were looked at, on a steep V.
                let found = deepest - 1e-9..deepest + 0.3;
                assert!(found.contains(&waist.depth), "seed {seed}: {waist:?}, counted {deepest}");
                assert!(waist.from < waist.at.x && waist.at.x < waist.to, "seed {seed}: {waist:?}");
            }
            None => assert!(deepest < tolerance + 1e-9, "seed {seed}: none, counted {deepest}"),
        }
    });
    assert!(waisted > 50, "only {waisted} have a waist");
}

/// Both ends of a design, each with the half that looks at it along +x.
fn ends(measured: &Measured) -> [(&End, Half); 2] {
    [(&measured.nose, measured.half.clone()), (&measured.tail, measured.half.turned())]
}

#[test]
fn taper_and_fullness_are_those_of_the_polygon() {
    on_designs(250, |seed, design| {
        let measured = Measured::of(design.shape());
        for (end, half) in ends(&measured) {
            let points = dense::half(&half, CHORDS);
            let beyond = end.end.x - end.reference;
            assert_eq!(end.taper.is_some(), beyond >= 10.0, "seed {seed}");
            let (Some(taper), Some(fullness)) = (end.taper, end.fullness) else { continue };
            let middle = end.reference + beyond / 2.0;
            let at = |x: f64| [-1e-3, 0.0, 1e-3].map(|d| dense::half_breadth(&points, x + d).unwrap_or(0.0));
            let slope = |a: f64, b: f64| real::atan2(a - b, beyond / 2.0);
            let counted: Vec<f64> =
                at(end.reference).iter().flat_map(|&a| at(middle).map(|b| slope(a, b))).collect();
            let (low, high) = (
                counted.iter().copied().fold(f64::INFINITY, f64::min),
                counted.iter().copied().fold(f64::NEG_INFINITY, f64::max),
            );
            assert!(low - 1e-4 < taper && taper < high + 1e-4, "seed {seed}: {taper}, counted {low} {high}");
            let area = area_beyond(&points, end.reference);
            let box_area = beyond * end.taper_rule[0].y;
            assert!((fullness * box_area - area).abs() < 0.5, "seed {seed}: {fullness}, counted {area}");
        }
    });
}

/// Area between a half and the centreline beyond station `x`, mm².
fn area_beyond(half: &[Point], x: f64) -> f64 {
    let cut = |p: Point| Point::new(p.x.max(x), p.y);
    half.windows(2).map(|w| (cut(w[1]).x - cut(w[0]).x) * (w[0].y + w[1].y) / 2.0).sum()
}

#[test]
fn the_shoulder_is_where_the_edge_has_turned_by_an_eighth_of_a_turn() {
    on_designs(400, |seed, design| {
        let measured = Measured::of(design.shape());
        for (end, half) in ends(&measured) {
            let counted = counted_shoulder(&half, end.reference);
            let found = end.shoulder.map(|s| s.at);
            let agree = match (found, counted) {
                (Some(a), Some(b)) => a.distance(b) < 0.5,
                (a, b) => a.is_none() && b.is_none(),
            };
            assert!(agree, "seed {seed}: {found:?}, counted {counted:?} beyond {}", end.reference);
        }
    });
}

/// The first place where the edge has turned 45° or more toward the centreline, walking from the outermost place at
/// station `from` toward the tip in small steps.
fn counted_shoulder(half: &Half, from: f64) -> Option<Point> {
    const STEPS: u32 = 2000;
    let walk = half.pieces().iter().flat_map(|piece| {
        (0..=STEPS).map(move |k| {
            let t = f64::from(k) / f64::from(STEPS);
            (piece.curve.eval(t), tangent_at(&piece.curve, t))
        })
    });
    let walk: Vec<(Point, f64)> = walk.collect();
    let crossings = (1..walk.len()).filter(|&i| (walk[i - 1].0.x <= from) != (walk[i].0.x <= from));
    let start = crossings.max_by(|&i, &j| walk[i].0.y.total_cmp(&walk[j].0.y))?;
    let turned = |&&(_, angle): &&(Point, f64)| -PI < angle && angle <= -FRAC_PI_4 + 1e-9;
    walk[start..].iter().find(turned).map(|w| w.0)
}

#[test]
fn no_sampled_bend_is_tighter_than_the_tightest() {
    on_designs(300, |seed, design| {
        let measured = Measured::of(design.shape());
        let (mut convex, mut concave) = (0.0_f64, 0.0_f64);
        for piece in measured.half.pieces().iter().filter(|piece| !piece.straight) {
            for k in 0..=400 {
                // Positive to the right of the way, and the half runs clockwise round the deck.
                let t = f64::from(k) / 400.0;
                // Of a batten or an arc the curvature is known better than its cubics tell it.
                let curvature = piece
                    .bends
                    .map_or_else(|| piece.curve.curvature(t), |[start, end]| start + t * (end - start));
                convex = convex.max(curvature);
                concave = concave.max(-curvature);
            }
        }
        for (found, sampled) in [(measured.smallest_convex, convex), (measured.smallest_concave, concave)] {
            let found = found.map_or(1e-6, |bend| 1.0 / bend.radius);
            assert!(found * (1.0 + 1e-9) >= sampled, "seed {seed}: {found}, sampled {sampled}");
            assert!(found < sampled * 1.5 + 2e-6, "seed {seed}: {found}, sampled {sampled}");
        }
    });
}
