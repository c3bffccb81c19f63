//! Parallels of random outlines against what defines them, by brute force on the exact curves.
//!
//! Each point of a parallel lies at its distance from the outline (nearest point of every cubic by `kurbo`), on its side;
//! and each point at that distance along a true normal, which no other part of the outline is nearer to, lies on it.

use halfbreadth_core::{
    arcs::{
        self, Arc,
        offset::{OffsetError, offset},
    },
    outline::{Half, tangent_at},
    real, tolerance,
};
use halfbreadth_tests::random::{self, Random};
use kurbo::{BezPath, ParamCurve, ParamCurveNearest, PathSeg, Point, Shape, Vec2};

/// Points looked at along each piece of a parallel, and along each cubic.
const SAMPLES: u32 = 4;
const NORMALS: u32 = 16;

fn distance(segments: &[PathSeg], p: Point) -> f64 {
    segments.iter().map(|s| s.nearest(p, 1e-7).distance_sq).fold(f64::INFINITY, f64::min).sqrt()
}

#[track_caller]
fn check(half: &Half, d: f64, seed: u64) {
    let outline: BezPath = half.closed();
    let segments: Vec<PathSeg> = outline.segments().collect();
    let found = match offset(half, d) {
        Ok(found) => found,
        Err(OffsetError::Swallowed { largest, .. }) => {
            assert!(d < 0.0 && largest > d, "{seed} {d}");
            return;
        }
        Err(error) => panic!("{seed} {d}: {error}"),
    };
    let contours: Vec<Vec<Arc>> = found.contours.iter().flat_map(|contour| contour.whole()).collect();
    for arc in found.contours.iter().flat_map(|contour| &contour.left) {
        for k in 0..=SAMPLES {
            let p = arc.point(f64::from(k) / f64::from(SAMPLES));
            let off = distance(&segments, p) - d.abs();
            assert!(off.abs() <= tolerance::OFFSET, "{seed} at {d}: {p} is off by {off}");
            assert_eq!(outline.contains(p), d < 0.0, "{seed} at {d}: {p} is on the wrong side");
        }
    }
    for piece in half.pieces() {
        for k in 0..=NORMALS {
            let t = f64::from(k) / f64::from(NORMALS);
            let heading: Vec2 = real::unit_vector(tangent_at(&piece.curve, t));
            let p = piece.curve.eval(t) + d * Vec2::new(-heading.y, heading.x);
            // A place that is only just reached may be cut off with its loop.
            if distance(&segments, p) < d.abs() - 1e-6 {
                continue;
            }
            let off = contours.iter().map(|contour| arcs::distance(contour, p)).fold(f64::INFINITY, f64::min);
            assert!(off <= tolerance::OFFSET, "{seed} at {d}: {p} is missing, {off} away");
        }
    }
}

#[test]
fn a_parallel_lies_at_its_distance_everywhere() {
    for seed in 0..60 {
        let mut random = Random::new(seed);
        let half = random::design(&mut random).shape().outline.resolve();
        let far = random.between(15.0, 60.0);
        for d in [random.between(-15.0, 0.0), random.between(0.0, 15.0), random.pick(&[-far, far])] {
            check(&half, d, seed);
        }
    }
}
