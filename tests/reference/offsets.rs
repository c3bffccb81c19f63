//! Parallels of outlines against theorems and against another library.
//!
//! Sources: J. Steiner's formula for the parallels of a convex body (*Über parallele Flächen*, 1840, from memory): area
//! A + P d + π d², perimeter P + 2 π d; and the `Buffer` of the `geo` crate on a fine polygon.

use crate::near;
use core::f64::consts::PI;
use geo::{
    Area, Buffer, Coord, LineString, Polygon,
    algorithm::buffer::{BufferStyle, LineJoin},
};
use halfbreadth_core::{
    arcs::{Arc, offset::offset},
    demo,
    design::Design,
    measure::Measured,
    outline::Half,
    tolerance,
};
use halfbreadth_tests::{
    dense,
    random::{self, Random},
};

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
