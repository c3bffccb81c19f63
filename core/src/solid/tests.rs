use super::*;
use crate::{
    demo,
    design::Design,
    measure::Measured,
    projection::Projection,
    real, tolerance,
    workshop::{Inputs, Workshop},
};
use kurbo::{ParamCurve, ParamCurveNearest, Shape as _};

const THICKNESS: f64 = 11.1;

/// Does something with the solid of a deck.
fn with_solid(deck: &Design, check: impl Fn(&Solid<'_>, &Measured)) {
    let measured = Measured::of(deck.shape());
    check(&Solid::of(deck.shape(), &measured.half, THICKNESS, Detail::Full.chord()), &measured);
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected} within {within}");
}

/// The length of a chain and how much its chords may cut off: of an arc of radius R and angle δ, R·δ³/24 each.
#[test]
fn the_centreline_keeps_the_length_of_the_sheet() {
    for deck in demo::all() {
        with_solid(&deck, |solid, measured| {
            let centreline = solid.centreline();
            let length: f64 = centreline.windows(2).map(|pair| (pair[1] - pair[0]).length()).sum();
            let cut_off: f64 = [&deck.shape().profile.nose, &deck.shape().profile.tail]
                .map(|kick| 5.0 * kick.radius * (kick.angle / 5.0).powi(3) / 24.0)
                .iter()
                .sum();
            near(length, measured.overall_length, cut_off + 1e-9);
            assert!(length < measured.overall_length - 0.1 * cut_off || cut_off == 0.0, "bends are chords");
        });
    }
}

#[test]
fn seen_from_straight_above_the_edge_is_the_plan_outline() {
    for deck in demo::all() {
        with_solid(&deck, |solid, measured| {
            let plan = Projection::Plan.half(deck.shape());
            let mut extent = [f64::MAX, f64::MIN, 0.0_f64];
            for spot in solid.edge() {
                let shown = Stand::ABOVE.shows(spot);
                extent = [extent[0].min(shown.x), extent[1].max(shown.x), extent[2].max(shown.y)];
                let off = plan.pieces().iter().map(|piece| piece.curve.nearest(shown, 1e-9).distance_sq);
                let off = off.fold(f64::MAX, f64::min).sqrt();
                assert!(off <= tolerance::PLAN + 1e-6, "{shown:?} lies {off} mm off the plan outline");
            }
            // The tips are corners of the chain; the widest place lies between two of its corners.
            near(extent[1] - extent[0], measured.plan_length, 1e-6);
            near(2.0 * extent[2], measured.plan_width, 2.0 * Detail::Full.chord());
        });
    }
}

#[test]
fn the_tips_stand_as_high_as_the_workshop_and_the_closed_form_say() {
    for deck in demo::all() {
        with_solid(&deck, |solid, measured| {
            let inputs = Inputs::default();
            let workshop = Workshop::of(deck.shape(), measured, &inputs);
            let profile = &deck.shape().profile;
            let edge = solid.edge();
            for (spot, tip, kick, end) in [
                (edge[edge.len() - 1], workshop.nose, &profile.nose, measured.nose.end.x),
                (edge[0], workshop.tail, &profile.tail, -measured.tail.end.x),
            ] {
                near(spot.z, tip.map_or(0.0, |tip| tip.rise), 1e-9);
                let beyond = end.abs() - deck.shape().datum.outer_row() - kick.bend_line;
                let (sin, cos) = real::sincos(kick.angle);
                let rise = kick.radius * (1.0 - cos) + (beyond - kick.radius * kick.angle) * sin;
                near(spot.z, if kick.kicks() { rise } else { 0.0 }, 1e-9);
                // The lower edge: further out by t·sin θ, higher against the flat's underside by t·(1 − cos θ).
                let below = solid.at(Point::new(end, 0.0), THICKNESS);
                if kick.kicks() {
                    near(below.x, spot.x + THICKNESS * sin * end.signum(), 1e-9);
                    near(below.z, spot.z - THICKNESS * cos, 1e-9);
                }
            }
        });
    }
}

#[test]
fn the_sheet_is_cut_up_without_gap_or_overlap() {
    for deck in demo::all() {
        with_solid(&deck, |solid, measured| {
            near(solid.flat_area(), measured.area, 0.4 * Detail::Full.chord() * measured.perimeter);
            let faces = picture(solid, Stand::ABOVE, 0.0, Detail::Full, kurbo::Size::new(800.0, 300.0));
            let corners =
                faces.0.items.iter().filter(|item| matches!(item.role, crate::scene::Role::Facet(_)));
            assert!(corners.count() > 3, "facets have tints");
        });
    }
}

/// Area between two concentric arcs: t·L + t²·τ for an arc of length L that turns by 2τ; a strip where it is flat.
#[test]
fn a_section_has_the_area_of_its_thickness_and_width() {
    let deck = demo::turnstone();
    let shape = deck.shape();
    let half = shape.outline.resolve();
    let mut flat = shape.clone();
    flat.profile.concave_depth = 0.0;
    for station in [-300.0, -120.0, 0.0, 33.0, 300.0] {
        let section = Section::of(&flat, &half, station, THICKNESS);
        let width = section.strips[0][1] - section.strips[0][0];
        near(section.width, width, 1e-9);
        near(section.band(0.0, THICKNESS).area().abs(), width * THICKNESS, 1e-6);
        let curved = Section::of(shape, &half, station, THICKNESS);
        let turn = shape.profile.lean(&shape.datum, station, width / 2.0);
        let exact = width * THICKNESS + THICKNESS * THICKNESS * turn;
        near(curved.band(0.0, THICKNESS).area().abs(), exact, 1e-3 * exact);
        let bands = plies(&shape.layup.plies, THICKNESS);
        let stacked: f64 = bands.iter().map(|(from, to, _)| curved.band(*from, *to).area().abs()).sum();
        near(stacked, curved.band(0.0, THICKNESS).area().abs(), 1e-6);
    }
}

#[test]
fn a_section_between_the_trucks_has_the_concave_and_one_on_a_kick_has_none() {
    let deck = demo::turnstone();
    let half = deck.shape().outline.resolve();
    let middle = Section::of(deck.shape(), &half, 0.0, THICKNESS);
    let rail = middle.at(middle.strips[0][0], 0.0);
    near(rail.y, middle.depth, 1e-12);
    near(rail.x, middle.width / 2.0, 1e-12);
    assert!(middle.depth > 5.0, "{}", middle.depth);
    let kick = Section::of(deck.shape(), &half, 360.0, THICKNESS);
    assert_eq!(kick.depth, 0.0);
    assert!(kick.words(crate::units::System::Millimetres).contains("on the kick"));
    // Beyond the ends it stays at the tip.
    let tip = Section::of(deck.shape(), &half, 1e6, THICKNESS);
    near(tip.station, half.pieces().last().expect("a half has pieces").curve.eval(1.0).x, 1e-9);
}

#[test]
fn a_turn_goes_round_and_a_tilt_stops() {
    let stand = Stand::default();
    near(stand.with(Turn::Turn, 4.0).turn, 4.0 - core::f64::consts::TAU, 1e-12);
    near(stand.with(Turn::Tilt, 4.0).tilt, core::f64::consts::FRAC_PI_2, 0.0);
    assert_eq!(stand.with(Turn::Turn, f64::NAN), stand);
    // The nearest part of the deck goes with the finger.
    let near_spot = stand.axes()[2];
    let moved = stand.dragged(kurbo::Vec2::new(8.0, 5.0));
    let (was, is) = (stand.shows(near_spot), moved.shows(near_spot));
    assert!(is.x > was.x && is.y < was.y, "{was:?} {is:?}");
}

#[test]
fn the_words_say_where_the_eye_is() {
    assert_eq!(Stand::ABOVE.words(), "Seen from straight above");
    assert_eq!(Stand::SIDE.words(), "Seen from the right rail, level");
    let nose = Stand { turn: core::f64::consts::FRAC_PI_2, tilt: -0.2 };
    assert_eq!(nose.words(), "Seen from the nose, 11° from below");
    assert!(nose.axes()[2].x > 0.9, "the eye is before the nose");
}
