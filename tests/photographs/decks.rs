//! The demo decks and random ones, seen from where a person stands.

use super::{clicks, errors, given, percentiles, traced_edge, within_bounds};
use halfbreadth_core::{
    capture::photo::{Body, Given, Traced, trace},
    demo,
    design::{Design, Shape},
    measure::Measured,
};
use halfbreadth_tests::{
    photos::{Shot, body, edge},
    random::{self, Random},
};
use kurbo::{Point, Vec2};

/// Cameras: tilt and the way in which, lens, distortion, blur, noise, roll, and the colours of deck and ground.
fn shots() -> Vec<Shot> {
    let base = Shot::default();
    let pale = [[60.0, 62.0, 80.0], [215.0, 212.0, 205.0]];
    vec![
        Shot { distance: 1100.0, distortion: 0.005, ..base.clone() },
        Shot { distance: 1100.0, tilt: 12.0, toward: 100.0, roll: 8.0, noise: 8.0, ..base.clone() },
        Shot { distance: 1250.0, tilt: 24.0, toward: -140.0, blur: 2.0, colours: pale, ..base.clone() },
        Shot { distance: 1350.0, tilt: 35.0, toward: -60.0, distortion: 0.005, roll: -12.0, ..base.clone() },
        Shot { distance: 1500.0, tilt: 35.0, toward: 0.0, focal: 0.95, noise: 6.0, ..base.clone() },
        // Upright, as one holds a telephone over a deck that lies away from oneself.
        Shot {
            width: 1500,
            height: 2000,
            focal: 1.0,
            distance: 1150.0,
            tilt: 18.0,
            toward: 180.0,
            roll: 90.0,
            ..base
        },
    ]
}

#[test]
fn a_demo_deck_comes_back_from_any_camera() {
    for (i, deck) in [demo::turnstone(), demo::whimbrel(), demo::dunlin()].iter().enumerate() {
        // Each camera sees every other deck or so: rendering takes its time.
        for (k, shot) in shots().iter().enumerate().filter(|(k, _)| (i + k) % 3 != 1) {
            let mut random = Random::new((10 * i + k) as u64);
            let photo = shot.take(deck.shape(), &mut random);
            let given = given(&photo, &mut random);
            let traced = trace(&photo.picture(), &body(deck.shape()), &given, &mut |_| {}).unwrap();
            let what = format!("{} by camera {k}", deck.name());
            within_bounds(&errors(&traced_edge(&traced, deck.shape()), deck.shape()), &what);
            assert!(traced.asymmetry.abs() < 1.0, "{what}: {}", traced.asymmetry);
            // Few pins: a fair curve, not the noise.
            assert!(traced.outline.nodes.len() <= 18, "{what}: {} nodes", traced.outline.nodes.len());
        }
    }
}

#[test]
fn a_deck_never_seen_has_the_measures_of_the_known_one_within_what_is_stated() {
    let mut random = Random::new(42);
    for round in 0..12 {
        let deck = unseen(&mut random);
        let shot =
            Shot { distance: 1250.0, tilt: 5.0 * f64::from(round % 6), toward: 70.0, ..Shot::default() };
        let photo = shot.take(deck.shape(), &mut random);
        let given = given(&photo, &mut random);
        let traced = trace(&photo.picture(), &body(deck.shape()), &given, &mut |_| {}).unwrap();
        let shape = Shape { outline: traced.outline.clone(), ..deck.shape().clone() };
        let (known, found) = (
            Measured::of(deck.shape()),
            Measured::of(Design::new("", "", shape, Vec::new()).unwrap().shape()),
        );
        let rails = (known.overall_width - found.overall_width).abs() / 2.0;
        assert!(
            rails <= traced.rail_error,
            "round {round}: rails {rails} mm off, {} stated",
            traced.rail_error
        );
        let ends = (known.overall_length - found.overall_length).abs();
        // Two standard deviations of each tip, and the rail error for what is off in the plane.
        let stated = 2.0 * (traced.tip_errors[0] + traced.tip_errors[1]) + traced.rail_error;
        assert!(ends <= stated, "round {round}: {ends} mm off in length, {stated} stated");
    }
}

#[test]
fn without_the_height_a_tilted_picture_tells_it_and_a_level_one_says_how_little_it_does() {
    let deck = demo::turnstone();
    let mut random = Random::new(3);
    // A lens much longer than the usual one.
    let shot = Shot { distance: 1500.0, focal: 0.95, tilt: 30.0, toward: 20.0, ..Shot::default() };
    let photo = shot.take(deck.shape(), &mut random);
    let unmeasured = Given { holes: clicks(&photo, &mut random), ..Given::default() };
    let traced = trace(&photo.picture(), &body(deck.shape()), &unmeasured, &mut |_| {}).unwrap();
    within_bounds(&errors(&traced_edge(&traced, deck.shape()), deck.shape()), "tilted");

    let level = Shot { tilt: 0.0, ..shot };
    let photo = level.take(deck.shape(), &mut random);
    let unmeasured = Given { holes: clicks(&photo, &mut random), ..Given::default() };
    let traced = trace(&photo.picture(), &body(deck.shape()), &unmeasured, &mut |_| {}).unwrap();
    let nose = (traced.half.last().unwrap().x - edge(deck.shape(), 1.0).last().unwrap().x).abs();
    assert!(nose > 1.0, "the case must be one in which the height matters: {nose}");
    assert!(nose < 2.0 * traced.tip_errors[1], "{nose} mm off, {:?} stated", traced.tip_errors);
}

#[test]
fn a_measured_width_halves_the_rail_error() {
    let deck = demo::turnstone();
    let mut random = Random::new(5);
    let photo = Shot { distance: 1150.0, ..Shot::default() }.take(deck.shape(), &mut random);
    let mut given = given(&photo, &mut random);
    // The wheelbase was set too large: the whole deck comes out too large by as much.
    let mut shape = deck.shape().clone();
    shape.datum.wheelbase += 4.0;
    let holes_only = trace(&photo.picture(), &body(&shape), &given, &mut |_| {}).unwrap();
    let set = given.set(&body(deck.shape()), (photo.width, photo.height)).unwrap();
    let rail = 104.775;
    let width = set.seen.over_rails(Point::new(0.0, rail), Point::new(0.0, -rail));
    given.rails =
        [rail, -rail].map(|y| set.seen.brim(Point::new(0.0, y), Vec2::new(0.0, y.signum()))).to_vec();
    given.width = Some(width);
    let with_width = trace(&photo.picture(), &body(&shape), &given, &mut |_| {}).unwrap();
    let off = |traced: &Traced| {
        let amidships = traced.half.iter().min_by(|a, b| a.x.abs().total_cmp(&b.x.abs())).unwrap();
        (amidships.y - rail).abs()
    };
    assert!(off(&holes_only) > 0.5, "the case must be one in which the width matters: {}", off(&holes_only));
    assert!(off(&with_width) < off(&holes_only) / 2.0, "{} and {}", off(&with_width), off(&holes_only));
    assert!((with_width.rail_error * 2.0 - holes_only.rail_error).abs() < 1e-9);
}

#[test]
fn random_decks_come_back() {
    let mut random = Random::new(11);
    let mut seen = 0;
    while seen < 8 {
        let deck = random::design(&mut random);
        if !is_plain(deck.shape()) {
            continue;
        }
        seen += 1;
        let (tilt, toward) = (random.between(0.0, 35.0), random.between(-180.0, 180.0));
        let shot = Shot { distance: 1700.0, tilt, toward, ..Shot::default() };
        let photo = shot.take(deck.shape(), &mut random);
        let given = given(&photo, &mut random);
        let traced = trace(&photo.picture(), &body(deck.shape()), &given, &mut |_| {});
        let traced = traced.unwrap_or_else(|why| panic!("deck {seen} at {tilt}°: {why}"));
        within_bounds(
            &errors(&traced.half, deck.shape()),
            &format!("edge of random deck {seen} at {tilt:.0}°"),
        );
    }
}

/// Whether a random outline is one whose edge every ray from the centreline meets once and not too aslant, on a deck that is
/// pressed no more than usual.
fn is_plain(shape: &Shape) -> bool {
    let edge = edge(shape, 2.0);
    let centre = shape.datum.truck_centre();
    edge.windows(2).all(|w| {
        let along = w[1] - w[0];
        let from = Point::new(w[0].x.clamp(-centre, centre), 0.0);
        let ray = w[0] - from;
        let size = (ray.hypot2() * along.hypot2()).sqrt();
        size < 1e-9
            || ray.y < 1.0
            || (along.turn_90().dot(ray) / size > 0.5 && ray.hypot() > 55.0 && ray.hypot() < 300.0)
    }) && shape.profile.nose.angle.max(shape.profile.tail.angle) < 0.45
        && shape.profile.concave_depth < 12.0
}

/// A deck like those of a workshop, but no demo: another length, width, wheelbase and tips.
fn unseen(random: &mut Random) -> Design {
    let deck = random.pick(&[demo::turnstone(), demo::whimbrel(), demo::dunlin()].each_ref()).clone();
    let mut shape = deck.shape().clone();
    shape.outline = shape.outline.untwinned();
    let (long, wide) = (random.between(0.95, 1.08), random.between(0.92, 1.08));
    shape.datum.wheelbase *= long;
    for node in &mut shape.outline.nodes {
        node.place = Point::new(node.place.x * long, node.place.y * wide);
    }
    Design::new("Never seen", "", shape, Vec::new()).unwrap()
}

#[test]
fn thickness_and_rounded_edges_are_taken_out_of_what_is_seen() {
    let deck = demo::turnstone();
    let mut random = Random::new(23);
    for (tilt, thickness, round_over, wall) in
        [(0.0, 13.0, 0.0, 0.9), (20.0, 9.5, 3.2, 1.1), (35.0, 11.5, 4.0, 0.8), (35.0, 11.5, 0.0, 0.75)]
    {
        let shot =
            Shot { distance: 1300.0, tilt, toward: 70.0, thickness, round_over, wall, ..Shot::default() };
        let photo = shot.take(deck.shape(), &mut random);
        let given = given(&photo, &mut random);
        let body = Body { shape: deck.shape(), thickness, round_over };
        let traced = trace(&photo.picture(), &body, &given, &mut |_| {}).unwrap();
        let what = format!("{thickness} mm thick, {round_over} mm round, at {tilt}°");
        within_bounds(&errors(&traced_edge(&traced, deck.shape()), deck.shape()), &what);
        let sheet = Body { thickness: 0.0, round_over: 0.0, ..body };
        let as_a_sheet = trace(&photo.picture(), &sheet, &given, &mut |_| {}).unwrap();
        let off = errors(&as_a_sheet.half, deck.shape());
        assert!(percentiles(&off).1 > 1.0, "{what}: the case must be one in which it matters");
    }
}
