//! One end of the deck: kick length, taper, shoulder, tip and fullness.
//!
//! Both ends are measured by one routine in a frame whose x runs outward: the tail is looked at with nose and tail
//! exchanged.

use super::{Compass, Envelope, compass, curvature::curvature_at, region};
use crate::{
    datum::Datum,
    outline::{Half, heading_at, resolve::coefficients, tangent_at},
    profile::Kick,
    real,
    roots::quadratic_roots,
    tolerance,
};
use core::f64::consts::FRAC_PI_2;
use kurbo::{ParamCurve, Point};

/// Measures of one end. Stations are distances outward from the origin, mm.
#[derive(Clone, Debug)]
pub struct End {
    /// The end reference: the bend line, or the outer bolt row of an end that does not kick.
    pub reference: f64,
    /// The farthest point.
    pub end: Point,
    /// Outer bolt row to the end along the surface, mm.
    pub kick_length: f64,
    /// Mean slope of the side between the end reference and midway to the end, radians toward the centreline; `None`
    /// where less than [`tolerance::TAPER_LENGTH`] lie beyond the reference.
    pub taper: Option<f64>,
    /// The two points a rule is laid along to read the taper.
    pub taper_rule: [Point; 2],
    /// Where the edge has turned 45° toward the centreline.
    pub shoulder: Option<Shoulder>,
    /// Curvature at the tip, 1/mm, positive where it bulges outward; `None` at a corner.
    pub tip_curvature: Option<f64>,
    /// The least-squares compass arc from shoulder to shoulder.
    pub compass: Option<Compass>,
    /// Area beyond the end reference ÷ (its length × the full width at the reference).
    pub fullness: Option<f64>,
}

/// The shoulder of a kick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shoulder {
    /// Where.
    pub at: Point,
    /// Index of the piece it lies on, in the outward frame.
    pub piece: usize,
    /// Parameter on that piece.
    pub t: f64,
}

impl End {
    /// Measures the end that lies toward +x of `half`.
    #[must_use]
    pub fn measure(half: &Half, envelope: &Envelope, datum: &Datum, kick: &Kick) -> Self {
        let reference = datum.outer_row() + kick.reference();
        let end = envelope.nose_end();
        let beyond = end.x - reference;
        let at = |x: f64| Point::new(x, envelope.half_breadth(x).unwrap_or(0.0));
        let taper_rule = [at(reference), at(reference + beyond / 2.0)];
        let long_enough = beyond >= tolerance::TAPER_LENGTH;
        let taper = long_enough
            .then(|| real::atan((taper_rule[0].y - taper_rule[1].y) / (taper_rule[1].x - taper_rule[0].x)));
        let shoulder = shoulder(half, reference);
        Self {
            reference,
            end,
            kick_length: end.x - datum.outer_row(),
            taper,
            taper_rule,
            shoulder,
            tip_curvature: tip_curvature(half),
            compass: shoulder.and_then(|s| compass::fit(half, s, datum.outer_row())),
            fullness: long_enough.then(|| region::area_beyond(half, reference) / (beyond * taper_rule[0].y)),
        }
    }
}

/// The first place outward from station `from` where the edge has turned 45° or more toward the centreline.
fn shoulder(half: &Half, from: f64) -> Option<Shoulder> {
    let (first, t_first) = outermost_at(half, from)?;
    for (piece, part) in half.pieces().iter().enumerate().skip(first) {
        let t0 = if piece == first { t_first } else { 0.0 };
        let found = |t: f64| Shoulder { at: part.curve.eval(t), piece, t };
        // Between −45° and −180°: what heads back to the tail, as into a notch, has turned by more than 45°.
        let heading = heading_at(&part.curve, t0);
        if heading.y < 0.0 && heading.x + heading.y <= 0.0 {
            return Some(found(t0));
        }
        // Direction −45°: dx + dy = 0 with dy < 0.
        let [_, c1, c2, c3] = coefficients(&part.curve);
        let sum = [c1.x + c1.y, 2.0 * (c2.x + c2.y), 3.0 * (c3.x + c3.y)];
        let falls = |&t: &f64| c1.y + t * (2.0 * c2.y + t * 3.0 * c3.y) < 0.0;
        if let Some(t) = quadratic_roots(sum, t0, 1.0).find(falls) {
            return Some(found(t));
        }
    }
    None
}

/// Where the half crosses station `x` farthest from the centreline: piece and parameter. Of two pieces that join there
/// it is the one that goes on.
fn outermost_at(half: &Half, x: f64) -> Option<(usize, f64)> {
    let mut outermost: Option<(f64, usize, f64)> = None;
    for (i, piece) in half.pieces().iter().enumerate() {
        for t in piece.at_x(x) {
            let y = piece.curve.eval(t).y;
            if outermost.is_none_or(|(most, ..)| y >= most) {
                outermost = Some((y, i, t));
            }
        }
    }
    outermost.map(|(_, piece, t)| (piece, t))
}

/// Curvature at the nose tip, or `None` where the tangent is not square to the centreline.
fn tip_curvature(half: &Half) -> Option<f64> {
    let last = half.pieces().last()?;
    let square = (tangent_at(&last.curve, 1.0) + FRAC_PI_2).abs() <= tolerance::TANGENT;
    square.then(|| curvature_at(last, 1.0))
}
