//! Holes: matched in any order, refined to their centres.

use super::clicks;
use halfbreadth_core::{
    capture::photo::{hole_centre, sort_holes},
    datum::Datum,
    demo,
};
use halfbreadth_tests::{photos::Shot, random::Random};
use kurbo::Point;

/// The holes of a deck in a picture from a tilted camera, in the datum's order.
fn seen(shot: &Shot, datum: &Datum) -> Vec<Point> {
    datum.holes().iter().map(|hole| shot.sees([hole.x, hole.y, 0.0])).collect()
}

fn shuffled(count: usize, random: &mut Random) -> Vec<usize> {
    let mut order: Vec<usize> = (0..count).collect();
    (1..count).for_each(|i| order.swap(i, random.below(i + 1)));
    order
}

#[test]
fn holes_clicked_in_any_order_are_told_apart() {
    let mut random = Random::new(1);
    for _ in 0..60 {
        let datum = Datum { wheelbase: random.between(280.0, 420.0), ..Datum::default() };
        let (tilt, toward) = (random.between(0.0, 35.0), random.between(-180.0, 180.0));
        let shot =
            Shot { tilt, toward, distance: 1200.0, roll: random.between(-40.0, 40.0), ..Shot::default() };
        let places = seen(&shot, &datum);
        let order = shuffled(8, &mut random);
        // Of seven, three lie on each side: then no other reading fits as well.
        let order = &order[..7 + random.below(2)];
        let clicks: Vec<Point> = order.iter().map(|&i| places[i]).collect();
        let sorted = sort_holes(&clicks, &datum, false).unwrap();
        assert_eq!(sorted.holes, order);
        assert!(sorted.misfits.iter().all(|misfit| *misfit < 1e-6), "{:?}", sorted.misfits);
    }
}

#[test]
fn four_outer_holes_are_told_from_the_inner_ones_while_the_camera_is_nearly_level() {
    let datum = Datum::default();
    let places = seen(&Shot { tilt: 15.0, toward: 30.0, distance: 1200.0, ..Shot::default() }, &datum);
    let sorted = sort_holes(&[6, 0, 7, 1].map(|i| places[i]), &datum, false).unwrap();
    assert_eq!(sorted.holes, [6, 0, 7, 1]);
}

#[test]
fn the_nose_lies_the_other_way_when_it_is_said_to() {
    let datum = Datum::default();
    let places = seen(&Shot { tilt: 10.0, ..Shot::default() }, &datum);
    let straight = sort_holes(&places, &datum, false).unwrap();
    let turned = sort_holes(&places, &datum, true).unwrap();
    assert_eq!(straight.holes, [0, 1, 2, 3, 4, 5, 6, 7]);
    assert_eq!(turned.holes, [7, 6, 5, 4, 3, 2, 1, 0]);
}

#[test]
fn a_deck_that_stands_in_the_picture_has_its_nose_up() {
    let datum = Datum::default();
    let places = seen(&Shot { roll: 90.0, ..Shot::default() }, &datum);
    let nose_up = places[6].y < places[0].y;
    assert_eq!(sort_holes(&places, &datum, !nose_up).unwrap().holes, [0, 1, 2, 3, 4, 5, 6, 7]);
}

#[test]
fn a_hole_is_found_to_a_fifth_of_a_pixel() {
    let deck = demo::dunlin();
    let mut random = Random::new(9);
    for shot in [
        Shot { distance: 1100.0, ..Shot::default() },
        Shot { distance: 1200.0, tilt: 35.0, toward: 40.0, noise: 8.0, blur: 1.5, ..Shot::default() },
    ] {
        let photo = shot.take(deck.shape(), &mut random);
        for (found, truth) in clicks(&photo, &mut random).iter().zip(&photo.holes) {
            assert!((*found - *truth).hypot() < 0.2, "{found:?} for {truth:?}");
        }
    }
}

#[test]
fn where_there_is_no_hole_none_is_found() {
    let mut random = Random::new(2);
    let photo = Shot { distance: 1100.0, ..Shot::default() }.take(demo::dunlin().shape(), &mut random);
    let picture = photo.picture();
    assert_eq!(hole_centre(&picture, Point::new(1000.0, 750.0), 24.0), None);
    assert_eq!(hole_centre(&picture, Point::new(-5.0, 750.0), 24.0), None);
    assert_eq!(hole_centre(&picture, Point::new(f64::NAN, 750.0), 24.0), None);
}

#[test]
fn holes_in_a_line_are_refused_with_the_way_out() {
    let places = seen(&Shot::default(), &Datum::default());
    let left: Vec<Point> = [0, 2, 4, 6].map(|i| places[i]).to_vec();
    let message = sort_holes(&left, &Datum::default(), false).unwrap_err().to_string();
    assert!(message.ends_with("click two on each side of the centreline, in both trucks"), "{message}");
    let three_and_one: Vec<Point> = [0, 2, 4, 7].map(|i| places[i]).to_vec();
    assert!(sort_holes(&three_and_one, &Datum::default(), false).is_err());
}

#[test]
fn another_wheelbase_is_noticed() {
    let places = seen(&Shot::default(), &Datum::default());
    let other = Datum { pattern_length: 90.0, ..Datum::default() };
    let message = sort_holes(&places, &other, false).unwrap_err().to_string();
    assert!(message.contains("bolt pattern and the wheelbase"), "{message}");
}
