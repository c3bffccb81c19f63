//! What must hold for every design and every edit, tried on many at random. A failure names its seed.

mod bench;
mod edits;
mod exports;
mod measures;
mod offsets;
mod outlines;
mod round_trips;
mod solids;
mod workshop;

use halfbreadth_core::{design::Design, outline::Half};
use halfbreadth_tests::{
    dense,
    random::{self, Random},
};
use kurbo::{ParamCurveNearest, Point};

/// Runs `check` on random designs, each with its seed.
fn on_designs(count: u64, mut check: impl FnMut(u64, &Design)) {
    for seed in 0..count {
        check(seed, &random::design(&mut Random::new(seed)));
    }
}

/// The farthest that the edges of two designs lie apart, mm, from many points of each to the other.
fn curves_apart(a: &Design, b: &Design) -> f64 {
    let (a, b) = (a.shape().outline.resolve(), b.shape().outline.resolve());
    one_way(&a, &b).max(one_way(&b, &a))
}

fn one_way(from: &Half, to: &Half) -> f64 {
    let nearest = |p: Point| {
        let each = to.pieces().iter().map(|piece| piece.curve.nearest(p, 1e-9).distance_sq);
        each.fold(f64::INFINITY, f64::min).sqrt()
    };
    dense::half(from, 7).into_iter().map(nearest).fold(0.0, f64::max)
}
