//! Decks photographed and traced: rendered through known cameras from known designs, they must come back.

#![expect(clippy::unwrap_used, reason = "a helper of a test fails it that way")]

use halfbreadth_core::{
    capture::photo::{Given, Traced, hole_centre, trace},
    demo,
    design::Shape,
};
use halfbreadth_tests::{
    photos::{Photo, Shot, edge},
    random::Random,
};
use kurbo::{Point, Vec2};

/// Clicks near the holes, as a hand makes them, each refined.
fn clicks(photo: &Photo, random: &mut Random) -> Vec<Point> {
    let picture = photo.picture();
    let reach = 0.012 * photo.width as f64;
    photo
        .holes
        .iter()
        .map(|hole| {
            let click = *hole + Vec2::new(random.between(-5.0, 5.0), random.between(-5.0, 5.0));
            hole_centre(&picture, click, reach).unwrap_or(click)
        })
        .collect()
}

/// Distances of the traced outline from the true one, sorted, mm.
fn errors(traced: &Traced, shape: &Shape) -> Vec<f64> {
    let found = Shape { outline: traced.outline.clone(), ..shape.clone() };
    let truth = edge(shape, 0.5);
    let mut errors: Vec<f64> = edge(&found, 2.0)
        .iter()
        .map(|p| truth.iter().map(|q| (*p - *q).hypot2()).fold(f64::INFINITY, f64::min).sqrt())
        .collect();
    errors.sort_by(f64::total_cmp);
    errors
}

fn report(name: &str, shot: &Shot, shape: &Shape, height: bool) {
    let mut random = Random::new(7);
    let photo = shot.take(shape, &mut random);
    let holes = clicks(&photo, &mut random);
    let off: f64 = holes.iter().zip(&photo.holes).map(|(a, b)| (*a - *b).hypot()).fold(0.0, f64::max);
    let given = Given { holes, height: height.then_some(photo.lens), ..Given::default() };
    let set = given.set(shape, (photo.width, photo.height));
    match trace(&photo.picture(), shape, &given, &mut |_| {}) {
        Ok(traced) => {
            let errors = errors(&traced, shape);
            let set = set.unwrap();
            println!(
                "{name}: median {:.3} p95 {:.3} max {:.3} | holes {off:.2}px misfit {:.3} asym {:.2} rail {:.2} tips {:.2?} lens {:.1}+-{:.1} of {:.1} bend {:.4} nodes {} off {:.2}",
                errors[errors.len() / 2],
                errors[errors.len() * 95 / 100],
                errors[errors.len() - 1],
                set.clicked.misfits.iter().fold(0.0, |a: f64, b| a.max(*b)),
                traced.asymmetry,
                traced.rail_error,
                traced.tip_errors,
                set.sight.height,
                set.sight.height_off,
                photo.lens,
                set.sight.bend,
                traced.outline.nodes.len(),
                traced.off_curve,
            );
        }
        Err(why) => println!("{name}: {why} {set:?}"),
    }
}

#[test]
fn look() {
    for (name, deck) in
        [("turnstone", demo::turnstone()), ("whimbrel", demo::whimbrel()), ("dunlin", demo::dunlin())]
    {
        for (tilt, toward) in [(0.0, 0.0), (15.0, 90.0), (25.0, 30.0), (35.0, -60.0), (35.0, 0.0)] {
            let shot = Shot { tilt, toward, distance: 1050.0 + 8.0 * tilt, ..Shot::default() };
            report(&format!("{name} {tilt} {toward} height"), &shot, deck.shape(), true);
            report(&format!("{name} {tilt} {toward} unknown"), &shot, deck.shape(), false);
            report(
                &format!("{name} {tilt} {toward} bent"),
                &Shot { distortion: 0.005, ..shot.clone() },
                deck.shape(),
                true,
            );
        }
    }
}
