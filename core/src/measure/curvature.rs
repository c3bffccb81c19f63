//! Curvature along the edge: tightest bends, corners, and what a comb shows.

use crate::{
    outline::{Half, Piece, heading_at, resolve::coefficients, tangent_at},
    real,
    roots::quintic_roots,
    tolerance,
};
use kurbo::{CubicBez, ParamCurve, Point, Vec2};

/// A tightest bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bend {
    /// Its radius, mm.
    pub radius: f64,
    /// Where, on the left half.
    pub at: Point,
}

/// What the curvature comb shows of the half outline, counted.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Fairness {
    /// How often the curvature changes sign.
    pub sign_changes: usize,
    /// How often it turns from rising to falling or back.
    pub extrema: usize,
    /// The largest jump of the tangent at a smooth node, radians; corners do not count.
    pub tangent_jump: f64,
    /// The largest jump of the curvature at a node that is no corner, 1/mm.
    pub curvature_jump: f64,
}

/// One tooth of the curvature comb.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CombTooth {
    /// Its root on the edge.
    pub at: Point,
    /// The unit vector that points out of the deck.
    pub outward: Vec2,
    /// The curvature there, 1/mm, positive where the edge bulges outward.
    pub curvature: f64,
}

/// All that one walk along the curvature finds.
pub(super) struct Survey {
    pub(super) convex: Option<Bend>,
    pub(super) concave: Option<Bend>,
    pub(super) corners: Vec<Point>,
    pub(super) fairness: Fairness,
}

/// Walks the half outline tail to nose through the exact extrema of its curvature.
pub(super) fn survey(half: &Half) -> Survey {
    let mut found =
        Survey { convex: None, concave: None, corners: Vec::new(), fairness: Fairness::default() };
    let mut profile: Vec<f64> = Vec::with_capacity(half.pieces().len() * 4);
    let mut before: Option<Passing> = None;
    for Piece { curve, straight, bends, .. } in half.pieces() {
        let terms = if *straight { Terms::STRAIGHT } else { Terms::of(curve) };
        let curvature = |t| bends.map_or_else(|| terms.curvature(t), |bends| even(bends, t));
        let passing = |t| Passing { heading: heading_at(curve, t), curvature: curvature(t) };
        let (start, end) = (passing(0.0), passing(1.0));
        if let Some(before) = before.replace(end) {
            found.joint(&before, &start, curve.p0);
        }
        let mut visit = |t: f64, curvature: f64| {
            profile.push(curvature);
            found.bend(curvature, curve, t);
        };
        visit(0.0, start.curvature);
        // Along a batten the curvature grows evenly from end to end: it has no extremum between.
        if bends.is_none() {
            quintic_roots(terms.derivative(), |t| visit(t, terms.curvature(t)));
        }
        visit(1.0, end.curvature);
    }
    found.fairness.sign_changes = sign_changes(&profile);
    found.fairness.extrema = extrema(&profile);
    found
}

/// How the edge passes through a place.
#[derive(Clone, Copy)]
struct Passing {
    heading: Vec2,
    curvature: f64,
}

impl Survey {
    fn bend(&mut self, curvature: f64, curve: &CubicBez, t: f64) {
        if curvature.abs() <= tolerance::CURVATURE_NOISE || !curvature.is_finite() {
            return;
        }
        let radius = 1.0 / curvature.abs();
        let slot = if curvature > 0.0 { &mut self.convex } else { &mut self.concave };
        if slot.is_none_or(|bend| radius < bend.radius) {
            *slot = Some(Bend { radius, at: curve.eval(t) });
        }
    }

    fn joint(&mut self, before: &Passing, after: &Passing, at: Point) {
        // The tangent of the turn, which for as little as a smooth node may turn is the angle.
        let turn = before.heading.cross(after.heading).abs() / before.heading.dot(after.heading);
        if !(0.0..=tolerance::TANGENT).contains(&turn) {
            self.corners.push(at);
            return;
        }
        let jump = (after.curvature - before.curvature).abs();
        self.fairness.tangent_jump = self.fairness.tangent_jump.max(turn);
        self.fairness.curvature_jump = self.fairness.curvature_jump.max(jump);
    }
}

fn sign_changes(profile: &[f64]) -> usize {
    let signs: Vec<bool> =
        profile.iter().filter(|k| k.abs() > tolerance::CURVATURE_NOISE).map(|k| *k > 0.0).collect();
    signs.windows(2).filter(|pair| pair[0] != pair[1]).count()
}

fn extrema(profile: &[f64]) -> usize {
    let rises: Vec<bool> = profile
        .windows(2)
        .map(|pair| pair[1] - pair[0])
        .filter(|step| step.abs() > tolerance::CURVATURE_NOISE)
        .map(|step| step > 0.0)
        .collect();
    rises.windows(2).filter(|pair| pair[0] != pair[1]).count()
}

/// Curvature of a piece of the half outline at `t`, 1/mm, positive where the edge bulges outward.
#[must_use]
pub(crate) fn curvature_at(piece: &Piece, t: f64) -> f64 {
    match piece.bends {
        Some(bends) => even(bends, t),
        None if piece.straight => 0.0,
        None => Terms::of(&piece.curve).curvature(t),
    }
}

/// A curvature that grows evenly between two values. The cubics of a batten run along it evenly enough for that.
fn even([start, end]: [f64; 2], t: f64) -> f64 {
    start + (end - start) * t
}

/// The polynomials in a cubic's parameter that its curvature is made of, as power-basis coefficients.
struct Terms {
    /// y′x″ − x′y″. The half runs clockwise round the deck, so that this is positive where the edge bulges outward.
    bulge: [f64; 3],
    /// x′² + y′².
    speed2: [f64; 5],
}

impl Terms {
    /// Those of a straight line.
    const STRAIGHT: Self = Self { bulge: [0.0; 3], speed2: [1.0, 0.0, 0.0, 0.0, 0.0] };

    fn of(curve: &CubicBez) -> Self {
        let [_, a, c2, c3] = coefficients(curve);
        let (b, c) = (2.0 * c2, 3.0 * c3); // first derivative a + b t + c t²
        Self {
            bulge: [b.cross(a), 2.0 * c.cross(a), c.cross(b)],
            speed2: [a.dot(a), 2.0 * a.dot(b), b.dot(b) + 2.0 * a.dot(c), 2.0 * b.dot(c), c.dot(c)],
        }
    }

    /// Curvature at `t`: bulge ÷ speed³.
    fn curvature(&self, t: f64) -> f64 {
        let ([u0, u1, u2], [v0, v1, v2, v3, v4]) = (self.bulge, self.speed2);
        let bulge = u0 + t * (u1 + t * u2);
        let speed2 = v0 + t * (v1 + t * (v2 + t * (v3 + t * v4)));
        bulge / (speed2 * speed2.sqrt())
    }

    /// The derivative of the curvature up to a positive factor: bulge′·speed² − 3/2·bulge·(speed²)′.
    fn derivative(&self) -> [f64; 6] {
        let mut derivative = [0.0; 6];
        for (i, u) in self.bulge.iter().enumerate() {
            for (j, v) in self.speed2.iter().enumerate() {
                if i + j > 0 {
                    derivative[i + j - 1] += u * v * (i as f64 - 1.5 * j as f64);
                }
            }
        }
        derivative
    }
}

/// The curvature comb of the half outline: `teeth` to each cubic and one at every joint.
#[must_use]
pub fn comb(half: &Half, teeth: u32) -> Vec<CombTooth> {
    let mut comb = Vec::with_capacity(half.pieces().len() * (teeth as usize + 1));
    for piece in half.pieces() {
        for k in 0..=teeth {
            let t = f64::from(k) / f64::from(teeth);
            let along = real::unit_vector(tangent_at(&piece.curve, t));
            comb.push(CombTooth {
                at: piece.curve.eval(t),
                outward: Vec2::new(-along.y, along.x),
                curvature: curvature_at(piece, t),
            });
        }
    }
    comb
}
