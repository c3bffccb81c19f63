//! What is not a deck, and clicks at random.

#![expect(clippy::cast_possible_truncation, reason = "colours lie below 256")]

use super::given;
use halfbreadth_core::{
    capture::photo::{Given, PhotoError, Picture, hole_centre, trace},
    demo,
};
use halfbreadth_tests::{
    photos::{Shot, body},
    random::{self, Random},
};
use kurbo::Point;

#[test]
fn a_deck_of_the_colour_of_the_ground_is_refused() {
    let mut random = Random::new(1);
    let shot = Shot { distance: 1150.0, colours: [[120.0; 3], [126.0; 3]], ..Shot::default() };
    let photo = shot.take(demo::dunlin().shape(), &mut random);
    let given = given(&photo, &mut random);
    let refused = trace(&photo.picture(), &body(demo::dunlin().shape()), &given, &mut |_| {});
    assert_eq!(refused, Err(PhotoError::NoContrast));
}

#[test]
fn a_deck_that_is_not_all_in_the_picture_is_refused() {
    let mut random = Random::new(1);
    let shot = Shot { distance: 620.0, ..Shot::default() };
    let photo = shot.take(demo::turnstone().shape(), &mut random);
    let given = given(&photo, &mut random);
    let refused = trace(&photo.picture(), &body(demo::turnstone().shape()), &given, &mut |_| {});
    assert!(matches!(refused, Err(PhotoError::NoEdge(_) | PhotoError::NoContrast)), "{refused:?}");
}

#[test]
fn noise_and_one_colour_are_no_decks() {
    let shape = demo::turnstone().shape().clone();
    let mut random = Random::new(4);
    let holes: Vec<Point> =
        shape.datum.holes().iter().map(|h| Point::new(600.0 + 1.2 * h.x, 400.0 - 1.2 * h.y)).collect();
    let given = Given { holes, ..Given::default() };
    let noise: Vec<u8> = (0..4 * 1200 * 800).map(|_| random.below(256) as u8).collect();
    let plain = vec![90; 4 * 1200 * 800];
    for pixels in [noise, plain] {
        let picture = Picture::new(1200, 800, &pixels).unwrap();
        assert!(trace(&picture, &body(&shape), &given, &mut |_| {}).is_err());
    }
}

#[test]
fn pixels_that_are_not_as_many_as_said_are_no_picture() {
    for (width, height, count) in
        [(400, 300, 5), (10, 10, 400), (0, 0, 0), (usize::MAX, 2, 16), (5000, 5000, 100_000_000)]
    {
        assert_eq!(Picture::new(width, height, &vec![0; count]).err(), Some(PhotoError::Size(width, height)));
    }
}

#[test]
fn clicks_at_random_give_an_answer_and_never_a_panic() {
    let mut random = Random::new(17);
    let pixels: Vec<u8> = (0..4 * 640 * 480).map(|i: u32| (i / 977 % 251) as u8).collect();
    let picture = Picture::new(640, 480, &pixels).unwrap();
    for _ in 0..40 {
        let deck = random::design(&mut random);
        let count = random.below(10);
        let holes: Vec<Point> = (0..count)
            .map(|_| match random.below(12) {
                0 => Point::new(f64::NAN, 3.0),
                1 => Point::new(f64::INFINITY, -1e300),
                2 => Point::new(100.0, 100.0),
                _ => Point::new(random.between(-50.0, 700.0), random.between(-50.0, 500.0)),
            })
            .collect();
        for hole in &holes {
            let _ = hole_centre(&picture, *hole, random.pick(&[-1.0, 0.0, 5.0, 50.0, 1e9, f64::NAN]));
        }
        let height = random.pick(&[None, Some(900.0), Some(0.0), Some(f64::NAN)]);
        let rails = vec![Point::ZERO, Point::new(640.0, 480.0)];
        let width = random.chance(0.3).then_some(200.0);
        let given = Given { holes, turned: random.chance(0.5), height, rails, width };
        if let Ok(traced) = trace(&picture, &body(deck.shape()), &given, &mut |_| {}) {
            assert!(traced.half.iter().all(|p| p.is_finite()));
        }
    }
}

/// The holes of a deck on a picture that is no photograph of one: the edge finder has to say something of every pattern.
#[test]
fn stripes_and_gradients_give_an_answer_and_never_a_panic() {
    let shape = demo::whimbrel().shape().clone();
    for period in [3_u32, 17, 100, 640] {
        let pixels: Vec<u8> = (0..640_u32 * 480)
            .flat_map(|i| {
                let value = (i % 640 % period * 255 / period) as u8;
                [value, 255 - value, (i / 640 / 2) as u8, 255]
            })
            .collect();
        let picture = Picture::new(640, 480, &pixels).unwrap();
        let holes =
            shape.datum.holes().iter().map(|h| Point::new(320.0 + 0.7 * h.x, 240.0 - 0.7 * h.y)).collect();
        let given = Given { holes, ..Given::default() };
        if let Ok(traced) = trace(&picture, &body(&shape), &given, &mut |_| {}) {
            assert!(traced.outline.nodes.iter().all(|node| node.place.is_finite()));
        }
    }
}
