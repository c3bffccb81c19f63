//! Parallels of shapes known in closed form, of the demo decks, and what is refused.

use super::*;
use crate::{
    arcs::{self, tests::near},
    demo,
    outline::Piece,
    real,
};
use core::f64::consts::PI;
use kurbo::{CubicBez, Point};

/// A half outline of straight sides through the given corners, tail to nose.
pub(in crate::arcs) fn polygon(corners: &[(f64, f64)]) -> Half {
    let side = |ends: &[(f64, f64)]| {
        let (a, b) = (Point::from(ends[0]), Point::from(ends[1]));
        let curve = CubicBez::new(a, a.lerp(b, 1.0 / 3.0), a.lerp(b, 2.0 / 3.0), b);
        Piece { curve, span: 0, straight: true, far: false, bends: None }
    };
    Half::from_pieces(corners.windows(2).map(side).collect())
}

fn rectangle() -> Half {
    polygon(&[(-400.0, 0.0), (-400.0, 100.0), (400.0, 100.0), (400.0, 0.0)])
}

fn area(offset: &Offset) -> f64 {
    2.0 * offset.contours.iter().map(Contour::area).sum::<f64>()
}

#[test]
fn a_rectangle_has_its_parallels_to_the_digit() {
    for (distance, expected) in [
        (-10.0, 780.0 * 180.0),
        (0.0, 800.0 * 200.0),
        // Round corners outward: sides and a full circle.
        (10.0, 800.0 * 200.0 + 2000.0 * 10.0 + PI * 100.0),
    ] {
        near(area(&offset(&rectangle(), distance).unwrap()), expected, 1e-6);
    }
}

#[test]
fn a_demo_deck_has_the_area_of_its_parallel_by_steiner() {
    // Turnstone is convex and bends nowhere tighter than 73 mm: A ± P d + π d².
    let measured = crate::measure::Measured::of(demo::turnstone().shape());
    for distance in [-60.0, -15.0, -4.825, -0.5, 0.5, 4.825, 15.0, 100.0] {
        let found = offset(&measured.half, distance).unwrap();
        let expected = measured.area + measured.perimeter * distance + PI * distance * distance;
        near(area(&found), expected, 0.003 * measured.perimeter);
        assert_eq!((found.contours.len(), found.places.len()), (1, 0), "{distance}");
    }
}

#[test]
fn the_left_part_begins_and_ends_on_the_centreline_to_the_bit() {
    for deck in demo::all() {
        let half = deck.shape().outline.resolve();
        for distance in [-40.0, -15.0, -1.0, 1.0, 15.0, 80.0] {
            for contour in offset(&half, distance).unwrap().contours {
                assert!(!contour.closed);
                let (first, last) = (contour.left[0], contour.left[contour.left.len() - 1]);
                assert_eq!((first.p0.y, last.p1.y), (0.0, 0.0));
                let whole = &contour.whole()[0];
                for (here, there) in whole.iter().zip(whole.iter().rev()) {
                    assert_eq!(*here, there.mirrored());
                }
                let next = whole.iter().cycle().skip(1);
                assert!(whole.iter().zip(next).all(|(arc, next)| arc.p1 == next.p0));
            }
        }
    }
}

#[test]
fn every_piece_goes_on_where_the_last_one_headed() {
    // The demo decks have no corner, so that neither has a parallel short of their smallest radius.
    for deck in demo::all() {
        let half = deck.shape().outline.resolve();
        for distance in [-15.0, 15.0] {
            let left = &offset(&half, distance).unwrap().contours[0].left;
            for pair in left.windows(2) {
                near(pair[0].end_tangent().cross(pair[1].start_tangent()), 0.0, 1e-6);
            }
        }
    }
}

#[test]
fn an_offset_that_eats_the_shape_is_refused_with_the_most_that_works() {
    let refused = offset(&rectangle(), -120.0).unwrap_err();
    let OffsetError::Swallowed { distance, largest } = refused else { panic!("{refused}") };
    assert_eq!(distance, -120.0);
    near(largest, -100.0, 2e-3);
    let text = refused.to_string();
    assert_eq!(text, "an offset of 120.0 mm inward leaves nothing of the shape: at most 100.0 mm");
    assert!(offset(&rectangle(), largest).is_ok());
}

#[test]
fn distances_of_any_size_have_a_parallel_or_a_refusal() {
    let measured = crate::measure::Measured::of(demo::whimbrel().shape());
    for exponent in -12..=1 {
        for distance in [10_f64.powi(exponent), -(10_f64.powi(exponent))] {
            let found = offset(&measured.half, distance).unwrap();
            let seam = measured.area + measured.perimeter * distance;
            near(area(&found), seam, 4.0 * distance * distance + 0.003 * measured.perimeter);
        }
    }
    assert_eq!(offset(&measured.half, 1e300).unwrap_err(), OffsetError::TooFar(1e300));
    let OffsetError::Swallowed { largest, .. } = offset(&measured.half, -1e300).unwrap_err() else {
        panic!("nothing is left")
    };
    assert!((-108.0..-90.0).contains(&largest), "{largest}");
}

#[test]
fn what_is_not_finite_is_refused() {
    for distance in [f64::NAN, f64::INFINITY] {
        assert_eq!(offset(&rectangle(), distance).unwrap_err(), OffsetError::NotFinite);
    }
    let broken = polygon(&[(-400.0, 0.0), (0.0, f64::NAN), (400.0, 0.0)]);
    assert_eq!(offset(&broken, 1.0).unwrap_err(), OffsetError::NotFinite);
    assert_eq!(offset(&Half::from_pieces(Vec::new()), 1.0).unwrap_err(), OffsetError::NotFinite);
}

#[test]
fn corners_that_bulge_cannot_be_followed_inward_nor_hollow_ones_outward() {
    let notched = polygon(&[(-400.0, 0.0), (-400.0, 100.0), (0.0, 40.0), (400.0, 100.0), (400.0, 0.0)]);
    let at = |distance: f64| -> Vec<(f64, Option<f64>)> {
        let places = offset(&notched, distance).unwrap().places;
        places.iter().map(|place| (place.at.x, place.radius)).collect()
    };
    assert_eq!(at(-5.0), [(-400.0, Some(0.0)), (400.0, Some(0.0))]);
    assert_eq!(at(5.0), [(0.0, Some(0.0))]);
    // Turning by 0.3 rad it is off by 0.01 mm where the distance is 0.9 mm.
    assert_eq!(at(0.8), []);
    assert_eq!(at(1.0), [(0.0, Some(0.0))]);
}

#[test]
fn the_tight_places_of_a_deck_are_those_of_its_smallest_radii() {
    // Whimbrel's tail corners bend to 37.9 mm, Dunlin's waist hollows to 420 mm.
    let whimbrel = demo::whimbrel().shape().outline.resolve();
    assert!(offset(&whimbrel, -37.0).unwrap().places.is_empty());
    let place = offset(&whimbrel, -39.0).unwrap().places[0];
    near(place.radius.unwrap(), 37.9, 0.1);
    assert!(place.at.x < -380.0 && place.ends[0].x <= place.at.x && place.at.x <= place.ends[1].x);
    let dunlin = demo::dunlin().shape().outline.resolve();
    assert!(offset(&dunlin, 400.0).unwrap().places.is_empty());
    let places = offset(&dunlin, 425.0).unwrap().places;
    assert!(!places.is_empty() && places.iter().all(|place| place.at.x.abs() < 92.0));
    near(places[0].radius.unwrap(), 420.0, 1.0);
}

#[test]
fn a_neck_narrower_than_the_offset_cuts_the_shape_apart() {
    let bone = polygon(&[
        (-400.0, 0.0),
        (-400.0, 100.0),
        (-300.0, 100.0),
        (-50.0, 20.0),
        (50.0, 20.0),
        (300.0, 100.0),
        (400.0, 100.0),
        (400.0, 0.0),
    ]);
    let found = offset(&bone, -30.0).unwrap();
    assert_eq!(found.contours.len(), 2);
    // The neck itself is straight: nothing but the other side of it is in the way.
    assert!(found.places.iter().any(|place| place.radius.is_none() && place.at.x.abs() < 60.0));
    // Two islands that mirror one another, either of them whole on its side.
    let ends = polygon(&[(-400.0, 0.0), (-400.0, 100.0), (0.0, 20.0), (400.0, 100.0), (400.0, 0.0)]);
    assert_eq!(offset(&ends, -30.0).unwrap().contours.len(), 2);
}

#[test]
fn a_notch_that_closes_outward_leaves_a_hole() {
    // A pocket of 60 mm across behind a mouth of 20 mm.
    let pocket = polygon(&[
        (-400.0, 0.0),
        (-400.0, 100.0),
        (400.0, 100.0),
        (400.0, 10.0),
        (380.0, 10.0),
        (380.0, 30.0),
        (320.0, 30.0),
        (320.0, 0.0),
    ]);
    let found = offset(&pocket, 15.0).unwrap();
    let areas: Vec<f64> = found.contours.iter().map(|contour| 2.0 * contour.area()).collect();
    assert_eq!(areas.len(), 2);
    // 30 mm square, and before the mouth the two circles about its corners: 2 ∫ 15 − √(15² − u²) du from 0 to 10.
    let circles = 2.0 * (150.0 - 5.0 * 125_f64.sqrt() - 112.5 * real::asin(10.0 / 15.0));
    near(areas[1], -900.0 - circles, 1e-6);
}

#[test]
fn a_contour_beside_the_centreline_stands_for_two() {
    let ring = arcs::outline(&rectangle(), tolerance::EXPORT_ARCS);
    let off_axis: Vec<Arc> = ring.iter().map(|arc| lifted(arc, 400.0)).collect();
    let [contour] = &contours(&off_axis, -50.0).unwrap()[..] else { panic!("one") };
    assert!(contour.closed);
    let [left, right] = &contour.whole()[..] else { panic!("two") };
    near(signed_area(left), signed_area(right), 1e-9);
}

#[test]
fn arcs_as_flat_as_lines_are_cut_as_lines_are() {
    let notched = polygon(&[(-400.0, 0.0), (-400.0, 100.0), (0.0, 40.0), (400.0, 100.0), (400.0, 0.0)]);
    let straight = arcs::outline(&notched, tolerance::EXPORT_ARCS);
    for bulge in [1e-9, 1e-12, 1e-15, -1e-12] {
        // Up to a radius of 2e17 mm.
        let flat: Vec<Arc> = straight.iter().map(|arc| Arc { bulge, ..*arc }).collect();
        for distance in [-30.0, -5.0, 0.7, 30.0] {
            let [found, expected] = [&flat, &straight]
                .map(|chain| contours(chain, distance).unwrap().iter().map(Contour::area).sum::<f64>());
            near(found, expected, 1e-2);
        }
    }
}

#[test]
fn a_step_of_some_hundredths_is_followed() {
    // As a concave without a fade leaves it in the plan outline.
    let stepped = polygon(&[
        (-400.0, 0.0),
        (-400.0, 60.0),
        (-350.0, 60.0),
        (-350.0, 60.036),
        (-100.0, 80.0),
        (400.0, 80.0),
        (400.0, 0.0),
    ]);
    for distance in [-15.0, -4.825, -0.02, 0.02, 0.7, 14.1] {
        let found = offset(&stepped, distance).unwrap();
        assert_eq!(found.contours.len(), 1);
        assert!(!found.contours[0].closed);
    }
}

fn lifted(arc: &Arc, by: f64) -> Arc {
    let up = |p: Point| Point::new(p.x, p.y + by);
    Arc { p0: up(arc.p0), p1: up(arc.p1), bulge: arc.bulge }
}

#[test]
fn a_part_of_an_arc_lies_on_its_circle() {
    let arc = Arc { p0: Point::new(10.0, 0.0), p1: Point::new(-10.0, 0.0), bulge: 1.0 };
    let part = arc.between(0.25, 0.75);
    near(part.sweep(), PI / 2.0, 1e-12);
    near(part.p0.distance(Point::new(10.0 * real::cos(PI / 4.0), 10.0 * real::sin(PI / 4.0))), 0.0, 1e-12);
    assert_eq!(arc.between(0.0, 1.0).p1, arc.p1);
}
