//! The figures of the demo decks, to the digits that their designer stated.
//!
//! Source: worked out with the outlines, before this program, by counting on 4,000 points to each span. Afterwards the
//! handles at smooth nodes were set on one line, which moved some by up to 0.004 mm: the few figures that feel it have
//! a wider tolerance. The outlines were drawn in cubics, which the fixtures of links of version 1 keep; today they are
//! battens through few pins, with the same figures.

use crate::near;
use halfbreadth_core::{
    compare, demo,
    design::{Design, Shape},
    edit::Edit,
    format::json,
    measure::{End, Measured},
    outline::Span,
    real, tolerance,
};
use halfbreadth_tests::kept;
use kurbo::Vec2;
use std::path::Path;

/// What was stated of one end. Lengths in mm, angles in degrees.
struct EndFigures {
    kick_length: f64,
    half_width_at_reference: f64,
    taper_deg: f64,
    chord_to_shoulder_deg: f64,
    tip_radius: (f64, f64),
    compass_radius: (f64, f64),
    compass_point: Option<f64>,
    compass_misfit: (f64, f64),
    fullness: f64,
}

#[track_caller]
fn check_end(end: &End, expected: &EndFigures) {
    near(end.kick_length, expected.kick_length, 1e-9);
    near(end.taper_rule[0].y, expected.half_width_at_reference, 0.05);
    near(end.taper.unwrap().to_degrees(), expected.taper_deg, 0.05);
    let shoulder = end.shoulder.unwrap().at;
    let rule = end.taper_rule[0];
    let chord = real::atan((rule.y - shoulder.y) / (shoulder.x - rule.x));
    near(chord.to_degrees(), expected.chord_to_shoulder_deg, 0.05);
    near(1.0 / end.tip_curvature.unwrap(), expected.tip_radius.0, expected.tip_radius.1);
    let compass = end.compass.unwrap();
    near(compass.radius, expected.compass_radius.0, expected.compass_radius.1);
    if let Some(point) = expected.compass_point {
        near(compass.point, point, 0.06);
    }
    near(compass.misfit, expected.compass_misfit.0, expected.compass_misfit.1);
    near(end.fullness.unwrap(), expected.fullness, 5e-4);
}

fn measured(design: &Design) -> (&Shape, Measured) {
    (design.shape(), Measured::of(design.shape()))
}

/// Rise of the tip above the flat, mm, from the side view.
fn tip_rise(shape: &Shape, x: f64) -> f64 {
    shape.profile.side(&shape.datum, x).0.y
}

#[test]
fn turnstone_has_its_figures() {
    let design = demo::turnstone();
    let (shape, m) = measured(&design);
    near(m.overall_length, 812.8, 1e-9);
    near(m.overall_width, 209.55, 1e-9);
    near(m.platform_length, 508.0, 1e-9);
    near(m.nose_axle_width, 205.5, 0.05);
    near(m.tail_axle_width, 205.2, 0.05);
    check_end(
        &m.nose,
        &EndFigures {
            kick_length: 177.8,
            half_width_at_reference: 100.8,
            taper_deg: 10.1,
            chord_to_shoulder_deg: 18.8,
            tip_radius: (73.3, 0.05),
            compass_radius: (75.1, 0.05),
            compass_point: Some(102.7),
            compass_misfit: (0.19, 0.005),
            fullness: 0.786,
        },
    );
    check_end(
        &m.tail,
        &EndFigures {
            kick_length: 165.1,
            half_width_at_reference: 100.2,
            taper_deg: 11.0,
            chord_to_shoulder_deg: 19.5,
            tip_radius: (97.2, 0.05),
            compass_radius: (81.3, 0.05),
            compass_point: Some(83.9),
            compass_misfit: (0.19, 0.005),
            fullness: 0.787,
        },
    );
    assert_eq!(m.rail_runs.len(), 1);
    near(m.rail_runs[0].length(), 237.6, 0.05);
    assert_eq!(m.waist(), None);
    near(m.smallest_convex.unwrap().radius, 73.3, 0.05);
    assert_eq!(m.smallest_concave, None);
    near(m.area, 153_580.0, 5.0);
    near(m.perimeter, 1822.0, 0.05);
    near(m.glue_mass, 267.0, 0.5);
    near(m.glue_inside_share, 0.759, 5e-4);
    near(m.plan_length, 796.3, 0.05);
    near(tip_rise(shape, m.nose.end.x), 50.7, 0.05);
    near(tip_rise(shape, -m.tail.end.x), 44.3, 0.05);
}

#[test]
fn whimbrel_has_its_figures() {
    let design = demo::whimbrel();
    let (shape, m) = measured(&design);
    near(m.overall_length, 762.0, 1e-9);
    near(m.overall_width, 215.9, 1e-9);
    near(m.platform_length, 622.3, 1e-9);
    near(m.nose_axle_width, 191.5, 0.05);
    near(m.tail_axle_width, 198.6, 0.05);
    check_end(
        &m.nose,
        &EndFigures {
            kick_length: 107.95,
            half_width_at_reference: 90.4,
            taper_deg: 19.1,
            chord_to_shoulder_deg: 25.6,
            tip_radius: (63.5, 0.05),
            compass_radius: (65.8, 0.05),
            compass_point: Some(42.0),
            compass_misfit: (0.29, 0.005),
            fullness: 0.733,
        },
    );
    check_end(
        &m.tail,
        &EndFigures {
            kick_length: 165.1,
            half_width_at_reference: 96.5,
            taper_deg: 7.2,
            chord_to_shoulder_deg: 13.2,
            tip_radius: (300.0, 1.5),
            compass_radius: (197.0, 0.5),
            compass_point: None,
            compass_misfit: (3.0, 0.05),
            fullness: 0.866,
        },
    );
    assert_eq!(m.rail_runs.len(), 1);
    near(m.rail_runs[0].length(), 77.3, 0.05);
    assert_eq!(m.waist(), None);
    near(m.smallest_convex.unwrap().radius, 37.9, 0.05);
    assert_eq!(m.smallest_concave, None);
    near(m.area, 143_700.0, 5.0);
    near(m.perimeter, 1736.6, 0.05);
    near(m.glue_mass, 257.0, 0.5);
    near(m.glue_inside_share, 0.737, 5e-4);
    near(m.plan_length, 756.2, 0.05);
    near(tip_rise(shape, m.nose.end.x), 0.0, 0.0);
    near(tip_rise(shape, -m.tail.end.x), 38.3, 0.05);
}

#[test]
fn dunlin_has_its_figures() {
    let design = demo::dunlin();
    let (shape, m) = measured(&design);
    near(m.overall_length, 723.9, 1e-9);
    near(m.overall_width, 190.5, 1e-9);
    near(m.platform_length, 450.85, 1e-9);
    for width in [m.nose_axle_width, m.tail_axle_width] {
        near(width, 190.2, 0.05);
    }
    for end in [&m.nose, &m.tail] {
        check_end(
            end,
            &EndFigures {
                kick_length: 155.575,
                half_width_at_reference: 92.1,
                taper_deg: 12.1,
                chord_to_shoulder_deg: 20.3,
                tip_radius: (65.3, 0.05),
                compass_radius: (67.3, 0.05),
                compass_point: Some(88.2),
                compass_misfit: (0.21, 0.005),
                fullness: 0.771,
            },
        );
    }
    assert_eq!(m.rail_runs.len(), 2);
    for run in &m.rail_runs {
        near(run.length(), 119.5, 0.05);
    }
    let waist = m.waist().unwrap();
    near(waist.width(), 182.5, 1e-9);
    near(waist.depth, 4.0, 1e-9);
    near(waist.length(), 141.7, 0.05);
    near(m.smallest_convex.unwrap().radius, 65.3, 0.05);
    near(m.smallest_concave.unwrap().radius, 420.0, 0.5);
    near(m.area, 123_690.0, 5.0);
    near(m.perimeter, 1624.0, 0.05);
    near(m.glue_mass, 220.0, 0.5);
    near(m.glue_inside_share, 0.743, 5e-4);
    near(m.plan_length, 710.1, 0.05);
    near(tip_rise(shape, m.nose.end.x), 41.1, 0.05);
    near(tip_rise(shape, -m.tail.end.x), 41.1, 0.05);
}

#[test]
fn the_battens_run_where_the_cubics_were_drawn() {
    // Pins, mm to the cubics, and how often the curvature turns from rising to falling or back: Whimbrel's cubics jump at
    // both ends of its tail corners, by 0.02 1/mm at once, where a batten takes its time.
    let expected = [(17, 0.1, 2), (18, 0.15, 5), (11, 0.05, 9)];
    for (design, (pins, distance, extrema)) in demo::all().into_iter().zip(expected) {
        let name = design.name();
        let file = format!("links/v1/{}.json", name.to_lowercase());
        let drawn =
            json::read(&kept::text(&Path::new(env!("CARGO_MANIFEST_DIR")).join(file))).unwrap().design;
        let outline = &design.shape().outline;
        let farthest = compare::farthest(&outline.resolve(), &drawn.shape().outline.resolve());
        assert!(farthest.distance < distance, "{name}: {farthest:?}");
        assert_eq!(outline.nodes.len(), pins, "{name}");
        assert!(
            outline.spans.iter().all(|span| matches!(span, Span::Batten { .. } | Span::Straight)),
            "{name}"
        );
        assert!(outline.unfairness() <= tolerance::BATTEN_JUMP, "{name}");
        let [now, then] = [&design, &drawn].map(|deck| Measured::of(deck.shape()).fairness);
        assert_eq!(now.sign_changes, then.sign_changes, "{name}");
        assert!(now.extrema <= extrema, "{name}: {now:?}, in cubics {then:?}");
    }
}

/// As with a real batten, the edge beyond the pins beside it swings back, and by less than the pull.
#[test]
fn a_pin_pulled_out_makes_the_deck_larger_and_pulled_in_smaller() {
    for design in demo::all() {
        let outline = &design.shape().outline;
        let area = Measured::of(design.shape()).area;
        for (node, pin) in outline.nodes.iter().enumerate() {
            let along = real::unit_vector(outline.tangent(node).unwrap());
            let outward = Vec2::new(-along.y, along.x);
            for pull in [-2.0, -0.5, 0.5, 2.0] {
                let pulled = design.apply(&Edit::MoveNode { node, to: pin.place + outward * pull }).unwrap();
                let grown = Measured::of(pulled.shape()).area - area;
                assert!(grown / pull > 20.0, "{}, node {node} by {pull} mm: {grown} mm²", design.name());
            }
        }
    }
}

#[test]
fn every_pin_lies_on_a_whole_hundredth_or_where_a_cubic_began() {
    for design in demo::all() {
        for node in &design.shape().outline.nodes {
            for place in [node.place.x, node.place.y] {
                let whole = (place * 100.0 - (place * 100.0).round()).abs() < 1e-6;
                let tip_or_widest = node.place.y == 0.0 || [104.775, 107.95].contains(&node.place.y);
                assert!(whole || tip_or_widest, "{}: {place}", design.name());
            }
        }
    }
}
