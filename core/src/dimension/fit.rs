//! The two handle lengths with which a cubic comes nearest to the image of a curve.

use super::flow::Image;
use crate::outline::resolve::coefficients;
use kurbo::{CubicBez, ParamCurve, Point, Vec2};

/// What a cubic is to come near to.
pub(super) struct Target {
    /// Whether no place of it moved.
    pub(super) rests: bool,
    /// Its places at even steps of the parameter, without the ends.
    places: [Point; SAMPLES],
    /// Its curvature at both ends, 1/mm, positive where it turns left.
    curvatures: [f64; 2],
}

const SAMPLES: usize = 8;
/// How much a miss in curvature counts: the mm it makes over a span of length L are this × L². At a quarter the bend of
/// an edge stays continuous where it was, and a span that cannot have both still follows the place.
const CURVATURE_WEIGHT: f64 = 0.25;
/// Steps of Gauss–Newton. A change of a few percent needs three.
const STEPS: usize = 10;
/// The most by which one step changes a length, as a share of it: a handle never turns round.
const LONGEST_STEP: f64 = 0.4;

impl Target {
    /// The image of `curve`; `None` where it folds over.
    pub(super) fn of(curve: &CubicBez, image: impl Fn(Point) -> Image) -> Option<Self> {
        let mut rests = true;
        let mut places = [Point::ORIGIN; SAMPLES];
        for (k, place) in places.iter_mut().enumerate() {
            let at = curve.eval(step(k));
            let carried = image(at);
            if carried.folds() {
                return None;
            }
            *place = carried.place;
            rests &= carried.place == at;
        }
        let [_, c1, c2, c3] = coefficients(curve);
        let velocity = |t: f64| {
            let along = c1 + t * (2.0 * c2 + t * (3.0 * c3));
            image(curve.eval(t)).turn(along)
        };
        // Differences to the inside: a change may begin at a node, with another bend on its other side.
        let curvature = |t: f64, inside: f64| {
            let (here, near, far) = (velocity(t), velocity(t + inside), velocity(t + 2.0 * inside));
            here.cross(4.0 * near - far) / (2.0 * inside * here.hypot2() * here.hypot2().sqrt())
        };
        Some(Self { rests, places, curvatures: [curvature(0.0, 1e-4), curvature(1.0, -1e-4)] })
    }
}

/// Parameter of sample `k`.
fn step(k: usize) -> f64 {
    (k + 1) as f64 / (SAMPLES + 1) as f64
}

/// Lengths of the handles at the two `ends` along the unit vectors `arms`, which point into the span, mm: least squares
/// of the places and of the curvatures at the ends, from the lengths `first`.
pub(super) fn lengths(ends: [Point; 2], arms: [Vec2; 2], first: [f64; 2], target: &Target) -> [f64; 2] {
    let span = Cubic { ends, arms, target };
    let mut best = (span.normal(first).cost, first);
    let mut here = first;
    for _ in 0..STEPS {
        let Normal { a, b, .. } = span.normal(here);
        let determinant = a[0] * a[2] - a[1] * a[1];
        let by = [(a[2] * b[0] - a[1] * b[1]) / determinant, (a[0] * b[1] - a[1] * b[0]) / determinant];
        let most = (by[0] / here[0]).abs().max((by[1] / here[1]).abs());
        let share = if most > LONGEST_STEP { LONGEST_STEP / most } else { 1.0 };
        here = [here[0] - share * by[0], here[1] - share * by[1]];
        let cost = span.normal(here).cost;
        if cost < best.0 {
            best = (cost, here);
        }
    }
    best.1
}

/// The cubics with given ends and tangents.
struct Cubic<'a> {
    ends: [Point; 2],
    arms: [Vec2; 2],
    target: &'a Target,
}

/// Normal equations: the sum of squares, its second derivatives (symmetric, three of four) and its slope, halved.
#[derive(Default)]
struct Normal {
    cost: f64,
    a: [f64; 3],
    b: [f64; 2],
}

impl Cubic<'_> {
    fn normal(&self, lengths: [f64; 2]) -> Normal {
        let mut sum = Normal::default();
        let [p0, p3] = self.ends;
        let [u, v] = self.arms;
        let (p1, p2) = (p0 + u * lengths[0], p3 + v * lengths[1]);
        let curve = CubicBez::new(p0, p1, p2, p3);
        for (k, place) in self.target.places.iter().enumerate() {
            let t = step(k);
            let miss = curve.eval(t) - *place;
            let (near, far) = (3.0 * t * (1.0 - t) * (1.0 - t), 3.0 * t * t * (1.0 - t));
            sum.add(miss.x, [near * u.x, far * v.x]);
            sum.add(miss.y, [near * u.y, far * v.y]);
        }
        // At its start a cubic bends by 2/3 · u × (p2 − p0) / length²; at its end it is seen from behind.
        let weight = CURVATURE_WEIGHT * (p3 - p0).hypot2();
        let squares = lengths.map(|length| 1.5 * length * length);
        let start = u.cross(p2 - p0) / squares[0];
        let end = -v.cross(p1 - p3) / squares[1];
        let twist = u.cross(v);
        let miss = [start - self.target.curvatures[0], end - self.target.curvatures[1]];
        sum.add(weight * miss[0], [-2.0 * weight * start / lengths[0], weight * twist / squares[0]]);
        sum.add(weight * miss[1], [weight * twist / squares[1], -2.0 * weight * end / lengths[1]]);
        sum
    }
}

impl Normal {
    fn add(&mut self, miss: f64, slope: [f64; 2]) {
        self.cost += miss * miss;
        self.a[0] += slope[0] * slope[0];
        self.a[1] += slope[0] * slope[1];
        self.a[2] += slope[1] * slope[1];
        self.b[0] += slope[0] * miss;
        self.b[1] += slope[1] * miss;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Affine;

    #[test]
    fn an_image_that_is_a_cubic_is_met() {
        let curve = CubicBez::new((0.0, 100.0), (60.0, 98.0), (150.0, 60.0), (150.0, 0.0));
        let target = Target::of(&curve, Image::resting).unwrap();
        assert!(target.rests);
        let unit = |v: Vec2| v / v.hypot();
        let arms = [unit(curve.p1 - curve.p0), unit(curve.p2 - curve.p3)];
        let truth = [(curve.p1 - curve.p0).hypot(), (curve.p2 - curve.p3).hypot()];
        let found = lengths([curve.p0, curve.p3], arms, [0.8 * truth[0], 1.3 * truth[1]], &target);
        assert!(found.iter().zip(truth).all(|(f, t)| (f - t).abs() < 1e-5), "{found:?} {truth:?}");
        // Rigidly moved it is the same curve.
        let turned = Affine::rotate(0.3) * curve;
        let there = Target::of(&turned, Image::resting).unwrap();
        assert!((there.curvatures[0] - target.curvatures[0]).abs() < 1e-12);
    }
}
