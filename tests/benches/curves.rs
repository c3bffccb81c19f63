//! What a batten costs: laying one through 8 and 32 pins, fairing a long one, and fitting one to a stroke of 2,000
//! places, beside kurbo's fit of cubics to the same stroke.

use core::f64::consts::PI;
use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use halfbreadth_core::{
    curve::{
        batten::{End, solve},
        fair::fair,
        fit::fit_stroke,
    },
    edit::Edit,
    format::json,
    real,
};
use halfbreadth_tests::kept;
use kurbo::{BezPath, Point, Vec2, simplify::SimplifyOptions};
use std::hint::black_box;

const ENDS: [End; 2] = [End::Tangent(0.0), End::Tangent(-PI / 2.0)];

/// Places along a kick, each off the curve by up to `wobble` mm.
fn places(count: u32, wobble: f64) -> Vec<Point> {
    (0..count)
        .map(|k| {
            let turn = PI / 2.0 * f64::from(k) / f64::from(count - 1);
            let off = wobble * (f64::from(k * 37 % 11) / 5.0 - 1.0);
            Point::new(250.0 + 160.0 * real::sin(turn), 100.0 * real::cos(turn)) + Vec2::new(0.3, 1.0) * off
        })
        .collect()
}

fn battens(c: &mut Criterion) {
    let mut group = c.benchmark_group("lay a batten");
    for count in [8, 32] {
        let pins = places(count, 0.5);
        group.bench_with_input(BenchmarkId::new("pins", count), &pins, |b, pins| {
            b.iter(|| solve(black_box(pins), ENDS, None));
        });
    }
    group.finish();
}

/// All pins may move, by as much as they wobble, as where a traced edge is taken whole.
fn fairing(c: &mut Criterion) {
    let mut group = c.benchmark_group("fair a stretch");
    group.sample_size(20);
    for count in [8, 20, 32] {
        let pins = places(count, 0.3);
        let faired = fair(&pins, ENDS, 0..=pins.len() - 1, 0.3).expect("the pins carry a batten");
        assert!(faired.extrema[1] < faired.extrema[0], "there is something to fair");
        group.bench_with_input(BenchmarkId::new("pins", count), &pins, |b, pins| {
            b.iter(|| fair(black_box(pins), ENDS, 0..=pins.len() - 1, 0.3));
        });
    }
    // The same as an edit: the whole edge of a deck of battens, one of its pins put out of place, and the checks of the door.
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("links/v1/one-batten.json");
    let deck = json::read(&kept::text(&file)).expect("a fixture can be read").design;
    let node = deck.shape().outline.nodes.len() / 2;
    let to = deck.shape().outline.nodes[node].place + Vec2::new(0.0, 0.4);
    let bumpy = deck.apply(&Edit::MoveNode { node, to }).expect("a pin may be put there");
    let last = bumpy.shape().outline.nodes.len() - 1;
    let edit = Edit::Fair { from: 1, to: last - 1, bound: 0.5 };
    assert!(bumpy.apply(&edit).is_ok_and(|faired| faired != bumpy), "there is something to fair");
    group.bench_function(BenchmarkId::new("as an edit, nodes", last + 1), |b| {
        b.iter(|| black_box(&bumpy).apply(&edit));
    });
    group.finish();
}

fn strokes(c: &mut Criterion) {
    let stroke = places(2000, 0.1);
    let mut path = BezPath::new();
    path.move_to(stroke[0]);
    stroke[1..].iter().for_each(|p| path.line_to(*p));
    let mut group = c.benchmark_group("fit a stroke of 2000");
    group.sample_size(20);
    group.bench_function("batten", |b| b.iter(|| fit_stroke(black_box(&stroke), 0.5, ENDS)));
    group.bench_function("kurbo simplify", |b| {
        b.iter(|| kurbo::simplify::simplify_bezpath(black_box(&path), 0.5, &SimplifyOptions::default()));
    });
    group.finish();
}

criterion_group!(benches, battens, fairing, strokes);
criterion_main!(benches);
