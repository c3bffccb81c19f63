//! A valid outline is closed, simple and its own mirror; an outline that is refused deserves it.

use crate::on_designs;
use core::f64::consts::FRAC_PI_2;
use halfbreadth_core::{
    datum::Datum,
    design::Refusal,
    outline::{Fault, Half, tangent_at},
    real,
};
use halfbreadth_tests::{
    dense,
    draw::{self, Through},
    random::{self, Random},
};
use kurbo::{PathEl, Point, Shape as _};

#[test]
fn every_point_of_the_closed_outline_has_its_mirror_to_the_bit() {
    on_designs(400, |seed, design| {
        let closed = design.shape().outline.resolve().closed();
        let points: Vec<Point> = closed
            .elements()
            .iter()
            .flat_map(|el| match *el {
                PathEl::MoveTo(p) | PathEl::LineTo(p) => vec![p],
                PathEl::CurveTo(p, q, r) => vec![p, q, r],
                PathEl::QuadTo(p, q) => vec![p, q],
                PathEl::ClosePath => vec![],
            })
            .collect();
        let same = |a: f64, b: f64| (a + 0.0).to_bits() == (b + 0.0).to_bits();
        for (p, q) in points.iter().zip(points.iter().rev()) {
            assert!(same(p.x, q.x) && same(p.y, -q.y), "seed {seed}: {p} and {q}");
        }
        assert!(closed.area() > 0.0, "seed {seed}: anticlockwise");
    });
}

#[test]
fn an_accepted_outline_is_simple_and_stays_on_its_half() {
    for seed in 0..6000 {
        let Ok(design) = random::candidate(&mut Random::new(seed)) else { continue };
        let half = design.shape().outline.resolve();
        assert_eq!(dense::crossing(&half, 64), None, "seed {seed}");
        let points = dense::half(&half, 64);
        let inner = &points[1..points.len() - 1];
        assert!(inner.iter().all(|p| p.y > 0.0), "seed {seed}");
        assert_eq!((points[0].y, points[points.len() - 1].y), (0.0, 0.0), "seed {seed}");
    }
}

#[test]
fn an_outline_refused_for_a_crossing_has_one_or_nearly() {
    let mut refused = 0;
    for seed in 0..8000 {
        let Err(Refusal::Outline(Fault::SelfCrossing { at })) = random::candidate(&mut Random::new(seed))
        else {
            continue;
        };
        refused += 1;
        let outline = random::outline(&mut Random::new(seed));
        let half = outline.resolve();
        assert!(
            dense::crossing(&half, 256).is_some()
                || nearest_approach(&half, at) < 0.02
                || turns_back(&half, at),
            "seed {seed} at {at}"
        );
    }
    assert!(refused > 20, "only {refused} tried");
}

/// Whether the edge turns straight back, to 5°, at a node near `at`: a spike or a slit without width.
fn turns_back(half: &Half, at: Point) -> bool {
    half.pieces().windows(2).any(|pair| {
        let turn = tangent_at(&pair[1].curve, 0.0) - tangent_at(&pair[0].curve, 1.0);
        pair[1].curve.p0.distance(at) < 0.1 && real::wrapped(turn).abs() > 175_f64.to_radians()
    })
}

/// How near a second stretch of the half comes to `at`, leaving out a twentieth of a millimetre along the edge.
fn nearest_approach(half: &Half, at: Point) -> f64 {
    let points = dense::half(half, 4096);
    let mut stations = vec![0.0];
    for w in points.windows(2) {
        stations.push(stations[stations.len() - 1] + (w[1] - w[0]).hypot());
    }
    let near = |i: &usize| points[*i].distance(at);
    let all = || 0..points.len();
    let here = all().min_by(|a, b| near(a).total_cmp(&near(b))).unwrap_or(0);
    let away = all().filter(|&i| (stations[i] - stations[here]).abs() > 0.05);
    away.map(|i| points[i].distance(points[here])).fold(f64::INFINITY, f64::min)
}

/// A tangent that leans by next to nothing turns the edge back within a hair of its node.
#[test]
fn a_node_at_the_widest_place_may_lean_by_next_to_nothing() {
    for exponent in 0..12 {
        for sign in [-1.0, 1.0] {
            let lean = sign * 0.1_f64.powi(exponent + 1);
            let nodes = [
                Through { place: (-400.0, 0.0).into(), angle: FRAC_PI_2 },
                Through { place: (0.0, 100.0).into(), angle: lean },
                Through { place: (400.0, 0.0).into(), angle: -FRAC_PI_2 },
            ];
            let joins = [draw::Join::Handles(80.0, 150.0), draw::Join::Handles(150.0, 80.0)];
            let design = draw::design(draw::smooth(&nodes, &joins), Datum::default());
            assert!(design.is_ok(), "lean {lean}: {}", design.err().map_or(String::new(), |e| e.to_string()));
        }
    }
}

#[test]
fn a_slit_is_accepted_down_to_a_tenth_of_a_millimetre_and_a_touch_is_refused() {
    // A slit cut into the nose, its two sides `gap` apart.
    let slit = |gap: f64| {
        let corners = [
            (-400.0, 0.0),
            (-400.0, 60.0),
            (0.0, 100.0),
            (400.0, 70.0),
            (400.0, 50.0 + gap),
            (300.0, 50.0 + gap),
            (300.0, 50.0),
            (400.0, 50.0),
            (400.0, 0.0),
        ];
        draw::design(draw::polygon(&corners), Datum::default())
    };
    for gap in [0.1, 1.0, 10.0] {
        assert!(slit(gap).is_ok(), "{gap}");
    }
    // Half a micrometre is no gap: the straight edge stands at 85 mm there.
    let touching =
        [(-400.0, 0.0), (0.0, 100.0), (380.0, 70.0), (190.0, 84.999_5), (380.0, 50.0), (400.0, 0.0)];
    let found = draw::design(draw::polygon(&touching), Datum::default());
    assert!(matches!(found, Err(Refusal::Outline(Fault::SelfCrossing { .. }))), "{found:?}");
}

#[test]
fn an_edge_that_crosses_itself_is_refused() {
    let loops = [[(-400.0, 0.0), (-400.0, 160.0), (400.0, 160.0), (400.0, 0.0)]];
    let fine = draw::design(draw::cornered(&loops), Datum::default());
    assert!(fine.is_ok(), "{fine:?}");
    // One cubic that crosses itself high above the holes, and two spans that cross at their far ends.
    let alone = [
        [(-400.0, 0.0), (-400.0, 60.0), (-200.0, 80.0), (-100.0, 80.0)],
        [(-100.0, 80.0), (260.0, 140.0), (-260.0, 140.0), (100.0, 80.0)],
        [(100.0, 80.0), (200.0, 80.0), (400.0, 60.0), (400.0, 0.0)],
    ];
    let twice = [
        [(-400.0, 0.0), (-400.0, 60.0), (0.0, 150.0), (60.0, 60.0)],
        [(60.0, 60.0), (40.0, 100.0), (-100.0, 90.0), (-120.0, 110.0)],
        [(-120.0, 110.0), (100.0, 150.0), (400.0, 100.0), (400.0, 0.0)],
    ];
    for cubics in [&alone[..], &twice[..]] {
        let found = draw::design(draw::cornered(cubics), Datum::default());
        assert!(
            matches!(found, Err(Refusal::Outline(Fault::SelfCrossing { .. }))),
            "{found:?} for {cubics:?}"
        );
    }
}

#[test]
fn a_spike_without_width_is_refused() {
    let spiked = |width: f64| {
        let corners = [
            (-400.0, 0.0),
            (-400.0, 60.0),
            (0.0, 100.0),
            (width / 2.0, 130.0),
            (width, 100.0),
            (400.0, 60.0),
            (400.0, 0.0),
        ];
        draw::design(draw::polygon(&corners), Datum::default())
    };
    assert!(spiked(10.0).is_ok());
    for width in [1e-3, 1e-2, 0.1] {
        let found = spiked(width);
        assert!(matches!(found, Err(Refusal::Outline(_))), "{width}: {found:?}");
    }
}
