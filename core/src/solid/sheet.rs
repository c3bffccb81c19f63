//! The flat sheet cut up: its edge as a chain of chords, and the slabs between the stations of that chain.

use crate::{design::Shape, order::sort_by_number, outline::Half, real};
use kurbo::{CubicBez, ParamCurve, Point};

/// The sheet.
#[derive(Clone, Debug)]
pub(super) struct Sheet {
    /// The edge of the drawn half, tail to nose.
    pub(super) chain: Vec<Point>,
    /// Where slabs meet, tail to nose.
    pub(super) stations: Vec<f64>,
    /// What lies between two stations, tail to nose.
    pub(super) slabs: Vec<Slab>,
}

/// What of the sheet lies between two stations.
#[derive(Clone, Debug)]
pub(super) struct Slab {
    /// The stations.
    pub(super) x: [f64; 2],
    /// Its strips of wood from right to left, each from its right edge to its left one.
    pub(super) strips: Vec<[Rim; 2]>,
}

/// One edge of a strip: its distances from the centreline at the two stations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Rim {
    pub(super) y: [f64; 2],
}

/// Parts of a bend, of a fade, and of what lies between them.
const BEND: u32 = 5;
const FADE: u32 = 5;
/// Stations nearer than this, mm, are one.
const SAME: f64 = 1e-6;
/// Parts of a piece at the most.
const MOST_PARTS: f64 = 40.0;

impl Sheet {
    pub(super) fn of(shape: &Shape, half: &Half, chord: f64) -> Self {
        let cuts = laws(shape);
        let mut chain: Vec<Point> = Vec::new();
        for piece in half.pieces() {
            let mut marks = Vec::new();
            for x in &cuts {
                marks.extend(piece.at_x(*x));
            }
            marks.push(1.0);
            sort_by_number(&mut marks, |t| *t);
            if chain.is_empty() {
                chain.push(piece.curve.p0);
            }
            let parts = if piece.straight { 1.0 } else { parts(&piece.curve, chord) };
            let mut from = 0.0;
            for to in marks {
                let count = ((to - from) * parts).ceil();
                let mut k = 1.0;
                while k <= count {
                    chain.push(piece.curve.eval(from + (to - from) * k / count));
                    k += 1.0;
                }
                from = to;
            }
        }
        let mut stations: Vec<f64> = chain.iter().map(|p| p.x).collect();
        sort_by_number(&mut stations, |x| *x);
        let mut apart: Vec<f64> = Vec::with_capacity(stations.len());
        for x in stations {
            if apart.last().is_none_or(|last| x - last > SAME) {
                apart.push(x);
            }
        }
        let slabs = apart.windows(2).map(|x| Slab::of(&chain, [x[0], x[1]])).collect();
        Self { chain, stations: apart, slabs }
    }

    /// The slab that holds station `x`; of two the noseward one.
    pub(super) fn slab_at(&self, x: f64) -> Option<&Slab> {
        self.slabs.iter().rev().find(|slab| slab.x[0] <= x && x <= slab.x[1])
    }
}

/// How many chords follow a cubic within `chord`: they leave it by at most an eighth of the second derivative.
fn parts(curve: &CubicBez, chord: f64) -> f64 {
    let bend = |a: Point, b: Point, c: Point| ((a - b) + (c - b)).hypot2();
    let bend = bend(curve.p0, curve.p1, curve.p2).max(bend(curve.p1, curve.p2, curve.p3));
    real::clamp((6.0 * bend.sqrt() / (8.0 * chord)).sqrt().ceil(), 1.0, MOST_PARTS)
}

/// Stations at which the pressed shape bends: those of a flat sheet need no more than its edge.
fn laws(shape: &Shape) -> Vec<f64> {
    let mut laws = Vec::new();
    let mut between = |from: f64, to: f64, parts: u32| {
        for k in 0..=parts {
            laws.push(from + (to - from) * f64::from(k) / f64::from(parts));
        }
    };
    for (kick, sign) in [(&shape.profile.nose, 1.0), (&shape.profile.tail, -1.0)] {
        if kick.kicks() {
            let bend = shape.datum.outer_row() + kick.bend_line;
            between(sign * (bend - shape.profile.concave_fade), sign * bend, FADE);
            between(sign * bend, sign * (bend + kick.radius * kick.angle), BEND);
        }
    }
    laws
}

/// Whether a chord of the chain stands square to the centreline, so that it lies in no slab but between two.
pub(super) fn is_square([a, b]: [Point; 2]) -> bool {
    (b.x - a.x).abs() <= SAME
}

impl Slab {
    fn of(chain: &[Point], x: [f64; 2]) -> Self {
        let mut rims: Vec<Rim> = Vec::new();
        for pair in chain.windows(2) {
            let [a, b] = [pair[0], pair[1]];
            let spans = a.x.min(b.x) <= x[0] + SAME && a.x.max(b.x) >= x[1] - SAME;
            if spans && !is_square([a, b]) {
                let y = |x: f64| a.y + (b.y - a.y) * real::clamp((x - a.x) / (b.x - a.x), 0.0, 1.0);
                rims.push(Rim { y: x.map(y) });
            }
        }
        sort_by_number(&mut rims, |rim| rim.y[0] + rim.y[1]);
        // Wood lies between the first two edges from the rail inward, the next two, and so on: what is left is held by the
        // centreline and goes through to the other half.
        let middle = (rims.len() % 2 == 1).then(|| rims.remove(0));
        let mut strips = Vec::with_capacity(rims.len() + 1);
        for pair in rims.chunks_exact(2).rev() {
            strips.push([pair[1].mirrored(), pair[0].mirrored()]);
        }
        strips.extend(middle.map(|rim| [rim.mirrored(), rim]));
        strips.extend(rims.chunks_exact(2).map(|pair| [pair[0], pair[1]]));
        Self { x, strips }
    }
}

impl Rim {
    fn mirrored(self) -> Self {
        Self { y: self.y.map(|y| -y) }
    }

    /// At a share of the way between the stations.
    pub(super) fn at(self, share: f64) -> f64 {
        self.y[0] + (self.y[1] - self.y[0]) * share
    }
}
