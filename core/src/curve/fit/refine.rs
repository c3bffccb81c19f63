//! The search for the pins whose batten lies closest to a stroke.

use kurbo::{Point, Vec2};

use crate::curve::batten::{End, solve, spirals};
use crate::curve::least_squares::LeastSquares;
use crate::curve::spiral::Spiral;
use crate::order::sort_by_number;
use crate::real;

/// Gauss–Newton rounds for one set of pins. The second brings nearly all there is to gain.
const ROUNDS: usize = 3;

/// A round that lessens the sum of squares by a smaller share is the last.
const GAIN: f64 = 0.02;

/// The nudge of a pin that shows how the curve follows it, as a share of the stroke's step.
const NUDGE: f64 = 1e-3;

/// Keeps the least-squares system regular where two pins do the same work.
const DAMPING: f64 = 1e-6;

/// Steps for the foot of a perpendicular. The first starts a fraction of a step away, and each squares the error.
const FOOT_STEPS: usize = 4;

/// Spans whose misfit exceeds this share of the worst one's get a pin at the same time: fewer rounds of the search.
const NEARLY_WORST: f64 = 0.7;

/// How far past the limit a curve may lie before its pins are refined to make up for a lost one. Refining seldom
/// gains more.
const HOPEFUL: f64 = 3.0;

/// Places over which the direction of the stroke at its end is taken.
const END_REACH: usize = 4;

/// Pins on their way to the best place, and the curve they make.
#[derive(Clone)]
pub(super) struct Fit<'a> {
    places: &'a [Point],
    /// How much each place counts; all 1 where there are none.
    weights: &'a [f64],
    ends: [End; 2],
    /// Whether a clamped end slides across its tangent, its place being a guess.
    slides: [bool; 2],
    pins: Vec<Point>,
    /// For each pin the index of the place it came from.
    marks: Vec<usize>,
    curve: Option<Curve>,
}

/// A batten and where each place of the stroke lies beside it.
#[derive(Clone)]
struct Curve {
    angles: Vec<f64>,
    spirals: Vec<Spiral>,
    feet: Vec<Foot>,
}

/// The nearest point of the curve to a place.
#[derive(Clone, Copy)]
struct Foot {
    span: usize,
    /// Arc length from the start of the span, as a share of it.
    share: f64,
    normal: Vec2,
    /// The signed distance along the normal.
    aside: f64,
    distance: f64,
}

impl<'a> Fit<'a> {
    /// Pins at the two ends of the stroke.
    pub(super) fn new(places: &'a [Point], ends: [End; 2]) -> Self {
        Self::with_marks(places, &[], ends, [false; 2], vec![0, places.len() - 1])
    }

    /// Pins at the places of these indices, the first and the last among them.
    pub(super) fn with_marks(
        places: &'a [Point],
        weights: &'a [f64],
        ends: [End; 2],
        slides: [bool; 2],
        marks: Vec<usize>,
    ) -> Self {
        let pins = marks.iter().map(|&mark| places[mark]).collect();
        let mut fit = Self { places, weights, ends, slides, pins, marks, curve: None };
        fit.curve = fit.curve_of(&fit.pins, None);
        fit
    }

    fn weight(&self, place: usize) -> f64 {
        self.weights.get(place).copied().unwrap_or(1.0)
    }

    /// Whether a place was measured: a guess has little weight.
    fn counts(&self, place: usize) -> bool {
        self.weight(place) > 0.5
    }

    /// The signed distances of the places from the curve, to its left positive; none where the pins carry none.
    pub(super) fn asides(&self) -> Option<Vec<f64>> {
        let curve = self.curve.as_ref()?;
        Some(curve.feet.iter().map(|foot| foot.distance.copysign(foot.aside)).collect())
    }

    /// How unfair the curve is: the square of the change of curvature, summed along it, 1/mm³.
    pub(super) fn unfairness(&self) -> f64 {
        let curve = self.curve.iter().flat_map(|curve| &curve.spirals);
        curve.map(|spiral| spiral.rate() * spiral.rate() * spiral.length()).sum()
    }

    /// How well so few pins foretell places: the generalised cross-validation of Craven and Wahba (1979), mm²; infinite
    /// where there are as many pins as places.
    pub(super) fn score(&self) -> f64 {
        let Some(curve) = &self.curve else { return f64::INFINITY };
        let places = (0..self.places.len()).filter(|&place| self.counts(place)).count() as f64;
        let free = places - (self.pins.len() - 2) as f64;
        if free < 1.0 { f64::INFINITY } else { places * self.sum_of_squares(curve) / (free * free) }
    }

    fn sum_of_squares(&self, curve: &Curve) -> f64 {
        let squares =
            curve.feet.iter().enumerate().map(|(i, foot)| self.weight(i) * foot.distance * foot.distance);
        squares.sum()
    }

    /// The pins as they are.
    pub(super) fn pins(&self) -> &[Point] {
        &self.pins
    }

    /// The pins, the fit being done.
    pub(super) fn into_pins(self) -> Vec<Point> {
        self.pins
    }

    /// The largest distance of a place that counts from the curve; infinite where the pins carry none.
    pub(super) fn worst(&self) -> f64 {
        let Some(curve) = &self.curve else { return f64::INFINITY };
        let counted = curve.feet.iter().enumerate().filter(|(i, _)| self.counts(*i));
        counted.fold(0.0, |w: f64, (_, foot)| w.max(foot.distance))
    }

    /// The standard deviation of what in the distances is uneven from place to place.
    ///
    /// Third differences take out all that is smooth; those of independent numbers have 20 times their variance.
    pub(super) fn jitter(&self) -> f64 {
        let Some(curve) = &self.curve else { return 0.0 };
        let thirds = curve.feet.windows(4).map(|f| f[3].aside - 3.0 * (f[2].aside - f[1].aside) - f[0].aside);
        let sum: f64 = thirds.map(|third| third * third).sum();
        (sum / (20.0 * curve.feet.len() as f64)).sqrt()
    }

    /// Moves the pins across the curve to where the sum of squared distances is least.
    pub(super) fn refine(&mut self) {
        for _ in 0..ROUNDS {
            let Some(curve) = self.curve.take() else { return };
            let before = self.sum_of_squares(&curve);
            let better = self.improved(&curve).filter(|(_, better)| self.sum_of_squares(better) < before);
            let Some((pins, better)) = better else {
                self.curve = Some(curve);
                return;
            };
            let gain = before - self.sum_of_squares(&better);
            self.pins = pins;
            self.curve = Some(better);
            if gain < GAIN * before {
                return;
            }
        }
    }

    /// Adds a pin halfway along each span that fits nearly as badly as the worst, up to `most` pins in all.
    ///
    /// Where the pins carry no curve the longest spans get one. False where no span is long enough to take a pin.
    pub(super) fn add_pins(&mut self, most: usize) -> bool {
        let mut openings: Vec<(f64, usize)> =
            self.marks.windows(2).filter_map(|mark| self.opening(mark[0], mark[1])).collect();
        sort_by_number(&mut openings, |opening| -opening.0);
        let Some(&(worst, _)) = openings.first() else { return false };
        let bad = openings.iter().take_while(|(misfit, _)| *misfit > NEARLY_WORST * worst);
        let marks: Vec<usize> = bad.map(|(_, mark)| *mark).take(most - self.marks.len()).collect();
        self.marks.extend(marks);
        sort_by_number(&mut self.marks, |mark| *mark as f64);
        self.pins = self.marks.iter().map(|&mark| self.places[mark]).collect();
        self.curve = self.curve_of(&self.pins, None);
        true
    }

    /// Takes out each inner pin without which the curve stays within `limit`.
    pub(super) fn drop_pins(&mut self, limit: f64) {
        let mut pin = 1;
        while pin + 1 < self.pins.len() {
            let mut fewer = self.clone();
            fewer.pins.remove(pin);
            fewer.marks.remove(pin);
            fewer.curve = fewer.curve_of(&fewer.pins, None);
            if fewer.worst() < HOPEFUL * limit {
                fewer.refine();
            }
            if fewer.worst() <= limit {
                *self = fewer;
            } else {
                pin += 1;
            }
        }
    }

    /// Takes out the inner pins without which the score stays within `share` of what it is and the curve within `limit`.
    pub(super) fn drop_idle_pins(&mut self, share: f64, limit: f64) {
        let allowed = self.score() * share;
        let mut pin = 1;
        while pin + 1 < self.pins.len() && self.pins.len() > 3 {
            let mut fewer = self.clone();
            fewer.pins.remove(pin);
            fewer.marks.remove(pin);
            fewer.curve = fewer.curve_of(&fewer.pins, None);
            fewer.refine();
            if fewer.score() <= allowed && fewer.worst() <= limit {
                *self = fewer;
            } else {
                pin += 1;
            }
        }
    }

    /// Misfit of the places between two marks, and the place for a pin between them.
    fn opening(&self, before: usize, after: usize) -> Option<(f64, usize)> {
        if after - before < 2 {
            return None;
        }
        let middle = before.midpoint(after);
        let Some(curve) = &self.curve else { return Some(((after - before) as f64, middle)) };
        let misfit = curve.feet[before..=after].iter().fold(0.0, |worst: f64, foot| worst.max(foot.distance));
        Some((misfit, middle))
    }

    /// The pins after one Gauss–Newton step, and their curve.
    fn improved(&self, curve: &Curve) -> Option<(Vec<Point>, Curve)> {
        let last = self.pins.len() - 1;
        let moves = |end: usize| self.ends[end] == End::Free || self.slides[end];
        let movable = usize::from(!moves(0))..(if moves(1) { last + 1 } else { last });
        let nudge = self.step() * NUDGE;
        let normals: Vec<Vec2> = movable.clone().map(|pin| self.normal(pin, curve)).collect();
        let mut columns = Vec::with_capacity(normals.len());
        for (pin, normal) in movable.clone().zip(&normals) {
            let mut pins = self.pins.clone();
            pins[pin] += *normal * nudge;
            let angles = solve(&pins, self.ends, Some(&curve.angles)).ok()?;
            let nudged = spirals(&pins, &angles)?;
            let moved = |foot: &Foot| {
                let at =
                    |spirals: &[Spiral]| spirals[foot.span].point(foot.share * spirals[foot.span].length());
                (at(&nudged) - at(&curve.spirals)).dot(foot.normal) / nudge
            };
            columns.push(curve.feet.iter().map(moved).collect::<Vec<f64>>());
        }
        let mut squares = LeastSquares::new(columns.len(), DAMPING);
        let mut row = vec![0.0; columns.len()];
        for (index, foot) in curve.feet.iter().enumerate() {
            for (value, column) in row.iter_mut().zip(&columns) {
                *value = column[index];
            }
            squares.add(&row, foot.aside, self.weight(index));
        }
        let moves = squares.solve()?;
        let mut pins = self.pins.clone();
        for ((pin, normal), amount) in movable.zip(&normals).zip(moves) {
            pins[pin] += *normal * amount;
        }
        let curve = self.curve_of(&pins, Some(&curve.angles))?;
        Some((pins, curve))
    }

    /// The direction in which a pin moves: across the curve, or at an end across the stroke, so that it cannot creep
    /// along.
    fn normal(&self, pin: usize, curve: &Curve) -> Vec2 {
        let last = self.places.len() - 1;
        let reach = END_REACH.min(last);
        for (end, at) in [(0, 0), (1, self.pins.len() - 1)] {
            if let (true, End::Tangent(angle)) = (pin == at && self.slides[end], self.ends[end]) {
                return real::unit_vector(angle).turn_90();
            }
        }
        let along = match pin {
            0 => self.places[reach] - self.places[0],
            pin if pin + 1 == self.pins.len() => self.places[last] - self.places[last - reach],
            pin => real::unit_vector(curve.angles[pin]),
        };
        along.turn_90() / along.hypot2().sqrt()
    }

    /// The mean distance between neighbouring places.
    fn step(&self) -> f64 {
        let steps = self.places.windows(2).map(|pair| (pair[1] - pair[0]).hypot2().sqrt());
        steps.sum::<f64>() / (self.places.len() - 1) as f64
    }

    /// The batten through `pins` and the feet of all places, each sought on from the one before.
    fn curve_of(&self, pins: &[Point], seed: Option<&[f64]>) -> Option<Curve> {
        let angles = solve(pins, self.ends, seed).ok()?;
        let spirals = spirals(pins, &angles)?;
        let mut feet = Vec::with_capacity(self.places.len());
        let (mut span, mut s, mut before) = (0, 0.0, self.places[0]);
        for place in self.places {
            s += (*place - before).hypot2().sqrt();
            before = *place;
            (span, s) = foot(&spirals, *place, span, s);
            let spiral = &spirals[span];
            let (aside, normal) = (*place - spiral.point(s), real::unit_vector(spiral.angle(s)).turn_90());
            feet.push(Foot {
                span,
                share: s / spiral.length(),
                normal,
                aside: aside.dot(normal),
                distance: aside.hypot2().sqrt(),
            });
        }
        Some(Curve { angles, spirals, feet })
    }
}

/// Span and arc length of the nearest point to `place`, found by walking along the tangent from a place nearby.
fn foot(spirals: &[Spiral], place: Point, mut span: usize, mut s: f64) -> (usize, f64) {
    for step in 0..=FOOT_STEPS {
        while s > spirals[span].length() && span + 1 < spirals.len() {
            s -= spirals[span].length();
            span += 1;
        }
        while s < 0.0 && span > 0 {
            span -= 1;
            s += spirals[span].length();
        }
        let spiral = &spirals[span];
        s = real::clamp(s, 0.0, spiral.length());
        if step < FOOT_STEPS {
            let (aside, tangent) = (place - spiral.point(s), real::unit_vector(spiral.angle(s)));
            // Nearer the centre of curvature a step along the tangent spans more of the curve.
            s += aside.dot(tangent) / (1.0 - spiral.curvature(s) * tangent.cross(aside)).max(0.3);
        }
    }
    (span, s)
}
