//! Parallels of outlines against theorems and against another library.
//!
//! Sources: J. Steiner's formula for the parallels of a convex body (*Über parallele Flächen*, 1840, from memory): area
//! A + P d + π d², perimeter P + 2 π d; and the `Buffer` of the `geo` crate on a fine polygon.

use crate::near;
use core::f64::consts::{FRAC_PI_2, PI};
use geo::{
    Area, Buffer, Coord, LineString, Polygon,
    algorithm::buffer::{BufferStyle, LineJoin},
};
use halfbreadth_core::{
    arcs::{Arc, offset::offset},
    demo,
    design::Design,
    measure::Measured,
    outline::{Half, Piece},
    real, tolerance,
};
use halfbreadth_tests::{
    dense,
    random::{self, Random},
};
use kurbo::{Point, Shape as _, Vec2};

fn area_and_perimeter(half: &Half, distance: f64) -> Option<(f64, f64)> {
    let contours = offset(half, distance).ok()?.contours;
    let area = contours.iter().map(|contour| 2.0 * contour.area()).sum();
    let length = contours.iter().flat_map(|contour| &contour.left).map(|arc| 2.0 * Arc::length(arc)).sum();
    Some((area, length))
}

#[test]
fn a_convex_deck_obeys_steiner_both_ways() {
    // Nowhere hollow, and nowhere tighter than 73.3 mm.
    let Measured { half, area, perimeter, smallest_concave, .. } = Measured::of(demo::turnstone().shape());
    assert!(smallest_concave.is_none());
    for d in [-60.0, -15.0, -4.825, -0.01, 0.01, 2.0, 4.825, 15.0, 60.0] {
        let (found, length) = area_and_perimeter(&half, d).unwrap();
        near(found, area + perimeter * d + PI * d * d, tolerance::EXPORT_ARCS * perimeter);
        // An arc follows its curve's direction to first order only, so lengths agree to second.
        near(length, perimeter + 2.0 * PI * d, 0.01);
    }
}

/// A convex half outline of arcs and lines, as long fore as aft, from random turns; with corners or without.
fn convex(random: &mut Random, corners: bool) -> Half {
    let mut aft: Vec<Arc> = Vec::new();
    let (mut at, mut heading) = (Point::ORIGIN, FRAC_PI_2);
    while heading > 0.0 {
        let turn = random.between(0.05, 0.6).min(heading);
        let direction = |angle: f64| Vec2::new(real::cos(angle), real::sin(angle));
        if !corners || random.chance(0.6) {
            let radius = random.between(16.0, 250.0);
            let right = |angle: f64| radius * direction(angle - FRAC_PI_2);
            let end = at + right(heading) - right(heading - turn);
            aft.push(Arc { p0: at, p1: end, bulge: -real::tan(turn / 4.0) });
            at = end;
        }
        heading -= turn;
        let end = at + random.between(5.0, 120.0) * direction(heading);
        aft.push(Arc::line(at, end));
        at = end;
    }
    let fore = aft.iter().rev().map(|arc| {
        let across = |p: Point| Point::new(2.0 * at.x - p.x, p.y);
        Arc { p0: across(arc.p1), p1: across(arc.p0), bulge: arc.bulge }
    });
    let pieces = aft.iter().copied().chain(fore).flat_map(|arc| {
        let straight = arc.is_line();
        let part = move |k: f64| if straight { arc } else { arc.between(k / 8.0, (k + 1.0) / 8.0) };
        let parts: Vec<Arc> = if straight { vec![arc] } else { (0..8).map(|k| part(f64::from(k))).collect() };
        let piece = move |curve| Piece { curve, span: 0, straight, far: false, bends: None };
        parts.into_iter().flat_map(|part| part.cubics()).map(piece)
    });
    Half::from_pieces(pieces.collect())
}

#[test]
fn random_convex_outlines_obey_steiner_at_every_distance_to_15_mm() {
    for seed in 0..60 {
        let random = &mut Random::new(seed);
        let corners = random.chance(0.5);
        let half = convex(random, corners);
        let outline = half.closed();
        let (area, perimeter) = (outline.area().abs(), outline.perimeter(1e-9));
        for _ in 0..4 {
            // Inward a corner leaves no corner of its own; the tightest arc has 16 mm.
            let d = random.between(if corners { 0.0 } else { -15.0 }, 15.0);
            let (found, length) = area_and_perimeter(&half, d).unwrap();
            near(found, area + perimeter * d + PI * d * d, tolerance::EXPORT_ARCS * (perimeter + 100.0));
            near(length, perimeter + 2.0 * PI * d, 0.02);
        }
    }
}

#[test]
fn parallels_have_the_area_of_the_buffer_geo_finds() {
    let random_decks = (0..12).map(|seed| random::design(&mut Random::new(seed)));
    for (i, design) in demo::all().into_iter().chain(random_decks).enumerate() {
        let half = Design::shape(&design).outline.resolve();
        let points = dense::half(&half, 100);
        let left = points.iter().map(|p| Coord { x: p.x, y: p.y });
        let right = points.iter().rev().map(|p| Coord { x: p.x, y: -p.y });
        let polygon = Polygon::new(LineString::new(left.chain(right).collect()), Vec::new());
        for d in [-15.0, -4.825, 2.0, 4.825, 11.175] {
            let style = BufferStyle::new(d).line_join(LineJoin::Round(0.01));
            let buffered = polygon.buffer_with_style(style);
            let expected = buffered.unsigned_area();
            let (found, length) = area_and_perimeter(&half, d).unwrap_or_default();
            // Both are off their true place by less than the tolerance, all round.
            let off = (found - expected).abs();
            assert!(
                off <= tolerance::OFFSET * length.max(1.0),
                "deck {i} at {d}: {found}, geo has {expected}"
            );
        }
    }
}
