//! Area and perimeter of decks against the `geo` crate on a fine polygon.
//!
//! Source: `geo` (an independent library of planar geometry), its `Area`, `Length` and `Validation`.

use geo::{Area, Coord, Euclidean, Length, LineString, Polygon, Validation};
use halfbreadth_core::{demo, design::Design, measure::Measured};
use halfbreadth_tests::{
    dense,
    random::{self, Random},
};

fn decks() -> impl Iterator<Item = Design> {
    demo::all().into_iter().chain((0..60).map(|seed| random::design(&mut Random::new(seed))))
}

/// The whole outline as a closed polygon, `chords` to each cubic.
fn polygon(measured: &Measured, chords: u32) -> Polygon {
    let half = dense::half(&measured.half, chords);
    let left = half.iter().map(|p| Coord { x: p.x, y: p.y });
    let right = half.iter().rev().map(|p| Coord { x: p.x, y: -p.y });
    let inner = half.len() - 2;
    Polygon::new(LineString::new(left.chain(right.skip(1).take(inner)).collect()), Vec::new())
}

#[test]
fn area_and_perimeter_are_those_geo_finds_on_a_fine_polygon() {
    for (i, design) in decks().enumerate() {
        let measured = Measured::of(design.shape());
        // Both are short by a term in the square of the chord: two polygons tell it, and it is taken off.
        let [coarse, fine] = [500, 1000].map(|chords| {
            let polygon = polygon(&measured, chords);
            [polygon.unsigned_area(), Euclidean.length(polygon.exterior())]
        });
        for (k, found) in [measured.area, measured.perimeter].into_iter().enumerate() {
            let expected = fine[k] + (fine[k] - coarse[k]) / 3.0;
            assert!((found - expected).abs() < 1e-8 * expected, "deck {i}: {found}, geo has {expected}");
        }
    }
}

#[test]
fn geo_finds_every_outline_valid() {
    for (i, design) in decks().enumerate() {
        let polygon = polygon(&Measured::of(design.shape()), 40);
        assert!(polygon.is_valid(), "deck {i}");
    }
}
