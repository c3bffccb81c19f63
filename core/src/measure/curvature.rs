//! Curvature along the edge: tightest bends, corners, and what a comb shows.

use crate::{
    outline::{Half, Piece, resolve::coefficients, tangent_at},
    real, tolerance,
};
use kurbo::{CubicBez, ParamCurve, Point, Vec2};
use polycool::Poly;

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
    for (i, piece) in half.pieces().iter().enumerate() {
        if let Some(before) = i.checked_sub(1).map(|b| &half.pieces()[b]) {
            found.joint(before, piece);
        }
        if piece.straight {
            profile.push(0.0);
            continue;
        }
        let inner = curvature_extrema(&piece.curve);
        for t in core::iter::once(0.0).chain(inner).chain([1.0]) {
            let curvature = curvature_at(&piece.curve, t);
            profile.push(curvature);
            found.bend(curvature, piece.curve.eval(t));
        }
    }
    found.fairness.sign_changes = sign_changes(&profile);
    found.fairness.extrema = extrema(&profile);
    found
}

impl Survey {
    fn bend(&mut self, curvature: f64, at: Point) {
        if curvature.abs() <= tolerance::CURVATURE_NOISE || !curvature.is_finite() {
            return;
        }
        let radius = 1.0 / curvature.abs();
        let slot = if curvature > 0.0 { &mut self.convex } else { &mut self.concave };
        if slot.is_none_or(|bend| radius < bend.radius) {
            *slot = Some(Bend { radius, at });
        }
    }

    fn joint(&mut self, before: &Piece, after: &Piece) {
        let turn = tangent_at(&after.curve, 0.0) - tangent_at(&before.curve, 1.0);
        let turn = real::wrapped(turn).abs();
        if turn > tolerance::TANGENT {
            self.corners.push(after.curve.p0);
            return;
        }
        let curvature = |piece: &Piece, t| if piece.straight { 0.0 } else { curvature_at(&piece.curve, t) };
        let jump = (curvature(after, 0.0) - curvature(before, 1.0)).abs();
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

/// Curvature of a half-outline cubic at `t`, 1/mm, positive where the edge bulges outward.
///
/// The half runs clockwise round the deck, so the sign is that of −(x′y″ − y′x″).
#[must_use]
pub(super) fn curvature_at(curve: &CubicBez, t: f64) -> f64 {
    let [_, c1, c2, c3] = coefficients(curve);
    let first = c1 + t * (2.0 * c2 + 3.0 * t * c3);
    let second = 2.0 * c2 + 6.0 * t * c3;
    let speed = first.hypot();
    -first.cross(second) / (speed * speed * speed)
}

/// Parameters inside 0..1 where the curvature turns: roots of κ′, a polynomial of degree five up to a positive factor.
fn curvature_extrema(curve: &CubicBez) -> impl Iterator<Item = f64> {
    let [_, a, b, c] = coefficients(curve);
    let (b, c) = (2.0 * b, 3.0 * c); // first derivative a + b t + c t²
    let cross = [a.cross(b), 2.0 * a.cross(c), b.cross(c)];
    let speed2 = [a.dot(a), 2.0 * a.dot(b), b.dot(b) + 2.0 * a.dot(c), 2.0 * b.dot(c), c.dot(c)];
    // κ′ ∝ cross′·speed² − 3/2·cross·(speed²)′
    let mut coefficients = [0.0; 6];
    for (i, u) in cross.iter().enumerate() {
        for (j, v) in speed2.iter().enumerate() {
            let (di, dj) = (i as f64, j as f64);
            if i + j > 0 {
                coefficients[i + j - 1] += u * v * (di - 1.5 * dj);
            }
        }
    }
    Poly::new(coefficients).roots_between(0.0, 1.0, 1e-9).into_iter()
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
                curvature: if piece.straight { 0.0 } else { curvature_at(&piece.curve, t) },
            });
        }
    }
    comb
}
