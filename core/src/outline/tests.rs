//! Battens in the chain: laid fair, kept to the bit, converted within the bound.

use super::*;
use crate::{
    compare::farthest, demo::cubics, design::Design, edit::Edit, measure::Measured, real, tolerance,
};
use core::f64::consts::FRAC_PI_2;

/// Dunlin with its kick as one batten.
fn with_batten() -> Design {
    let deck = cubics::dunlin();
    let outline = deck.shape().outline.battened(2..4).unwrap();
    deck.with_shape(crate::design::Shape { outline, ..deck.shape().clone() }).unwrap()
}

#[test]
fn a_kick_made_a_batten_stays_where_it_was_and_is_fair() {
    let (old, new) = (cubics::dunlin(), with_batten());
    let off = farthest(&old.shape().outline.resolve(), &new.shape().outline.resolve());
    assert!(off.distance <= tolerance::CONVERSION * 1.2, "{off:?}");
    assert!(new.shape().outline.unfairness() <= tolerance::BATTEN_JUMP);
}

#[test]
fn a_batten_made_cubics_stays_where_it_was() {
    let deck = with_batten();
    let mut outline = deck.shape().outline.clone();
    while let Some(s) = outline.spans.iter().position(|span| matches!(span, Span::Batten { .. })) {
        outline = outline.unbattened(s);
    }
    let off = farthest(&deck.shape().outline.resolve(), &outline.resolve());
    assert!(off.distance <= tolerance::CONVERSION, "{off:?}");
}

#[test]
fn moving_a_pin_lays_its_batten_anew_and_leaves_the_rest_to_the_bit() {
    let deck = with_batten();
    let pin = deck.shape().outline.nodes.len() - 4;
    let to = deck.shape().outline.nodes[pin].place + Vec2::new(1.0, 2.0);
    let moved = deck.apply(&Edit::MoveNode { node: pin, to }).unwrap();
    let (before, after) = (&deck.shape().outline, &moved.shape().outline);
    assert!(after.unfairness() <= tolerance::BATTEN_JUMP);
    assert_ne!(
        before.nodes[pin - 1].joint,
        after.nodes[pin - 1].joint,
        "a batten gives along its whole length"
    );
    assert_eq!(before.spans[..2], after.spans[..2]);
    assert_eq!(before.nodes[..2], after.nodes[..2]);
    let back = moved.apply(&Edit::MoveNode { node: pin, to: before.nodes[pin].place }).unwrap();
    let off = farthest(&before.resolve(), &back.shape().outline.resolve());
    assert!(off.distance < 1e-3, "{off:?}");
}

#[test]
fn a_pin_added_to_a_batten_leaves_the_curve() {
    let deck = with_batten();
    let span = deck.shape().outline.spans.len() - 1;
    let near = deck.shape().outline.course(span).point(0.4);
    let more = deck.apply(&Edit::AddNode { span, near }).unwrap();
    let off = farthest(&deck.shape().outline.resolve(), &more.shape().outline.resolve());
    assert!(off.distance < 1e-3, "{off:?}");
}

#[test]
fn a_batten_with_free_ends_through_pins_of_a_circle_is_the_circle() {
    let (radius, centre) = (120.0, Point::new(260.0, -20.0));
    let pin = |degrees: f64| centre + real::unit_vector(degrees.to_radians()) * radius;
    let nodes = [70.0, 50.0, 30.0, 15.0].map(|a| Node { place: pin(a), joint: Joint::Smooth(0.0) });
    let mut outline =
        Outline { nodes: nodes.to_vec(), spans: vec![Span::BATTEN; 3], twin: false, sweeps: Vec::new() };
    outline.nodes[0].joint = Joint::Corner;
    outline.nodes[3].joint = Joint::Corner;
    outline.spans[0] = Span::Batten { start: Some(0.0), end: None };
    outline.spans[2] = Span::Batten { start: None, end: Some(-1.0) };
    outline.relax().unwrap();
    for s in 0..3 {
        for k in 0..=10 {
            let p = outline.course(s).point(f64::from(k) / 10.0);
            assert!(((p - centre).hypot() - radius).abs() < 1e-6);
        }
    }
}

#[test]
fn a_straight_span_made_a_curve_is_a_batten_of_the_same_shape() {
    let deck = cubics::dunlin();
    let curved = deck.apply(&Edit::SetStraight { span: 1, straight: false }).unwrap();
    assert!(matches!(curved.shape().outline.spans[1], Span::Batten { .. }));
    let off = farthest(&deck.shape().outline.resolve(), &curved.shape().outline.resolve());
    assert!(off.distance < 1e-3, "{off:?}");
}

#[test]
fn a_twin_with_battens_opens_out_to_the_same_outline() {
    let twin = with_batten().shape().outline.clone();
    let off = farthest(&twin.resolve(), &twin.untwinned().resolve());
    assert!(off.distance < 1e-3, "{off:?}");
}

/// A stroke along Turnstone's nose, bulged out by `bulge` mm in its middle and trembling by a tenth of a mm.
fn nose_stroke(from: f64, to_tip: bool, bulge: f64) -> Vec<Point> {
    let half = cubics::turnstone().shape().outline.resolve();
    let piece = half.pieces()[3].curve;
    let end = if to_tip { 1.0 } else { 0.8 };
    (0..=400)
        .map(|i| {
            use kurbo::ParamCurve;
            let u = f64::from(i) / 400.0;
            let p = piece.eval(from + (end - from) * u);
            let out = bulge * real::sin(core::f64::consts::PI * u).powi(2)
                + 0.1 * (f64::from(i * 37 % 11) / 5.0 - 1.0);
            p + Vec2::new(0.4, 1.0) * out
        })
        .collect()
}

#[test]
fn a_wobbly_stroke_gives_a_fair_curve_of_few_pins_where_it_was_drawn() {
    let deck = cubics::turnstone();
    let stroke = nose_stroke(0.1, false, 4.0);
    let redrawn = deck.apply(&Edit::Redraw { stroke: stroke.clone(), accuracy: 0.5, reach: 10.0 }).unwrap();
    let outline = &redrawn.shape().outline;
    assert!(outline.nodes.len() <= deck.shape().outline.nodes.len() + 6, "{} nodes", outline.nodes.len());
    let half = outline.resolve();
    for p in &stroke {
        use kurbo::ParamCurveNearest;
        let off = half
            .pieces()
            .iter()
            .map(|q| q.curve.nearest(*p, 1e-3).distance_sq)
            .fold(f64::MAX, f64::min)
            .sqrt();
        assert!(off < 1.2, "{p:?} is {off} mm off");
    }
    let fairness = Measured::of(redrawn.shape()).fairness;
    assert!(fairness.tangent_jump < 1e-6, "joined smoothly: {fairness:?}");
    assert!(outline.unfairness() <= tolerance::BATTEN_JUMP);
}

#[test]
fn a_stroke_that_begins_beside_the_edge_runs_into_it_without_a_notch() {
    let deck = cubics::turnstone();
    for off in [0.0, 0.5, 1.0, 2.0, 4.0, 7.0, 12.0, 20.0] {
        for side in [-1.0, 1.0] {
            // A quarter of an ellipse from beside node 1 round to the tail tip.
            let stroke = (0..60).map(|i| {
                let v = real::unit_vector(FRAC_PI_2 * f64::from(i) / 59.0);
                Point::new(-254.0 - 146.05 * v.y, (100.2 + side * off) * v.x)
            });
            let edit = Edit::Redraw { stroke: stroke.collect(), accuracy: 1.0, reach: 25.0 };
            let measured = Measured::of(deck.apply(&edit).unwrap().shape());
            let tightest = measured.smallest_convex.unwrap().radius;
            let hollow = measured.smallest_concave.map_or(f64::INFINITY, |bend| bend.radius);
            assert!(tightest > 40.0 && hollow > 40.0, "{off} mm off: R {tightest}, hollow {hollow}");
        }
    }
}

#[test]
fn a_stroke_on_the_mirrored_half_drawn_backwards_does_the_same() {
    let deck = cubics::turnstone();
    let stroke = nose_stroke(0.1, false, 4.0);
    let mirrored = stroke.iter().rev().map(|p| Point::new(p.x, -p.y)).collect();
    let there = deck.apply(&Edit::Redraw { stroke, accuracy: 0.5, reach: 10.0 }).unwrap();
    let back = deck.apply(&Edit::Redraw { stroke: mirrored, accuracy: 0.5, reach: 10.0 }).unwrap();
    assert_eq!(there, back);
}

#[test]
fn a_stroke_within_one_span_leaves_the_rest_of_that_span() {
    let deck = cubics::turnstone();
    let half = deck.shape().outline.resolve();
    let curve = half.pieces()[3].curve;
    let places = |from: f64, to: f64, bulge: f64| -> Vec<Point> {
        (0..=200)
            .map(|i| {
                use kurbo::ParamCurve;
                let u = f64::from(i) / 200.0;
                let out = bulge * real::sin(core::f64::consts::PI * u).powi(2);
                curve.eval(from + (to - from) * u) + Vec2::new(0.4, 1.0) * out
            })
            .collect()
    };
    for (from, to) in [(0.2, 0.6), (0.55, 0.9)] {
        let stroke = places(from, to, 2.0);
        let redrawn =
            deck.apply(&Edit::Redraw { stroke: stroke.clone(), accuracy: 0.2, reach: 10.0 }).unwrap();
        let there = redrawn.shape().outline.resolve();
        let off = |p: &Point| {
            use kurbo::ParamCurveNearest;
            let distances = there.pieces().iter().map(|q| q.curve.nearest(*p, 1e-4).distance_sq);
            distances.fold(f64::MAX, f64::min).sqrt()
        };
        for p in places(0.0, from, 0.0).iter().chain(&places(to, 1.0, 0.0)) {
            assert!(off(p) < 0.01, "{from}..{to}: {p:?} is {} mm off", off(p));
        }
        for p in &stroke {
            assert!(off(p) < 0.4, "{from}..{to}: {p:?} is {} mm off", off(p));
        }
    }
}

#[test]
fn a_stroke_past_the_centreline_moves_the_tip_and_keeps_it_square() {
    let deck = cubics::turnstone();
    let mut stroke: Vec<_> =
        nose_stroke(0.05, true, 5.0).iter().map(|p| *p + Vec2::new(0.03 * (p.x - 254.0), 0.0)).collect();
    stroke.extend((1..20).map(|k| Point::new(417.5 - 0.02 * f64::from(k * k), -2.0 * f64::from(k))));
    let redrawn = deck.apply(&Edit::Redraw { stroke, accuracy: 0.5, reach: 10.0 }).unwrap();
    let tip = redrawn.shape().outline.nodes.last().unwrap();
    assert_eq!((tip.joint, tip.place.y), (Joint::Led, 0.0));
    assert!((tip.place.x - 417.5).abs() < 1.0, "{tip:?}");
}

#[test]
fn a_stroke_in_the_air_is_refused_with_words() {
    let deck = cubics::turnstone();
    let stroke = (0..50).map(|i| Point::new(f64::from(i) * 4.0, 150.0)).collect();
    let refused = deck.apply(&Edit::Redraw { stroke, accuracy: 0.5, reach: 10.0 }).unwrap_err();
    assert!(refused.to_string().contains("off the edge"), "{refused}");
}

#[test]
fn fairing_takes_a_bump_out_and_stays_within_its_bound() {
    let deck = with_batten();
    let pin = deck.shape().outline.nodes.len() - 5;
    let to = deck.shape().outline.nodes[pin].place + Vec2::new(0.0, 0.4);
    let bumpy = deck.apply(&Edit::MoveNode { node: pin, to }).unwrap();
    let outline = &bumpy.shape().outline;
    let (faired, found) = outline.faired(3, outline.nodes.len() - 1, 0.5).unwrap();
    assert!(found.movement > 0.0 && found.movement <= 0.5, "{found:?}");
    assert!(found.swells[1] < found.swells[0], "{found:?}");
    assert!(faired.unfairness() <= tolerance::BATTEN_JUMP);
}
