//! The half outline as the fewest straight lines and circular arcs within a tolerance: for a rule and a pair of compasses.
//!
//! Every piece starts and ends on the outline, at its nodes or at one of many places between them, and stays within the
//! tolerance of it. Of all such chains one with the fewest pieces is found by dynamic programming (R. Bellman, "On the
//! approximation of curves by line segments using dynamic programming", 1961, from memory), and of those one with the
//! smallest deviation. Neighbouring pieces may meet at a slight angle, which is told: a compass leaves none that an eye
//! finds, and to do without would cost pieces.

mod piece;
mod sheet;

pub use self::sheet::{Fix, csv, drawing, fixed_from, list, rows};
use super::{Arc, length};
use crate::{
    curve::nearest::nearest,
    language::said,
    outline::Half,
    quantities::Quantity,
    real, say,
    units::{System, Unit, Words, error_with_words, show},
};
use core::fmt;
use kurbo::{ParamCurve, Point};

/// What the tolerance is called.
pub const TOLERANCE: Quantity = Quantity {
    key: "mark-out-tolerance",
    label: "Mark-out tolerance",
    help: "How far the lines and arcs of the mark-out may lie from the outline.",
    unit: Unit::Thickness,
};
/// Smallest and largest tolerance, and the usual one, mm: a pencil line (common practice, no source).
pub const LEAST: f64 = 0.05;
/// The largest, mm.
pub const MOST: f64 = 2.0;
/// The usual one, mm.
pub const USUAL: f64 = 0.3;

/// The half outline in lines and arcs, tail to nose.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkOut {
    /// The pieces, in drawing order.
    pub pieces: Vec<Arc>,
    /// By how much each piece turns from the one before, radians, positive anticlockwise; one fewer than the pieces. Where the
    /// half meets its mirror, a tip's arc whose centre lies beside the centreline leaves an angle too.
    pub kinks: Vec<f64>,
    /// The largest distance between the pieces and the outline, both ways, mm.
    pub deviation: f64,
}

/// Why there is no mark-out.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum MarkOutError {
    /// The tolerance lies outside its limits, or is no number.
    Tolerance(f64),
    /// The outline has no length or is not finite.
    NoOutline,
}

/// Places are looked at this far apart along the outline, mm.
const APART: f64 = 4.0;
/// Share of the tolerance kept back for what lies between the places; more each time that was too little.
const RESERVE: f64 = 0.97;
/// How often.
const TRIES: u32 = 6;

/// The fewest pieces within `tolerance` mm of the half outline, [`LEAST`] to [`MOST`].
///
/// # Errors
///
/// [`MarkOutError`].
pub fn mark_out(half: &Half, tolerance: f64) -> Result<MarkOut, MarkOutError> {
    if !(LEAST..=MOST).contains(&tolerance) {
        return Err(MarkOutError::Tolerance(tolerance));
    }
    let is_finite = half.pieces().iter().all(|piece| piece.curve.is_finite());
    let places = if is_finite { places(half, APART) } else { Vec::new() };
    if places.len() < 2 {
        return Err(MarkOutError::NoOutline);
    }
    let mut share = RESERVE;
    let mut made = None;
    for _ in 0..TRIES {
        let pieces = piece::fewest(&places, share * tolerance);
        let deviation = deviation(half, &pieces);
        made = Some((pieces, deviation));
        if deviation <= tolerance {
            break;
        }
        share *= RESERVE;
    }
    let (pieces, deviation) = made.ok_or(MarkOutError::NoOutline)?;
    let kink = |pair: &[Arc]| {
        let (before, after) = (pair[0].end_tangent(), pair[1].start_tangent());
        real::atan2(before.cross(after), before.dot(after))
    };
    Ok(MarkOut { kinks: pieces.windows(2).map(kink).collect(), pieces, deviation })
}

/// Places along the half: its nodes, and between them about `apart` mm from one to the next.
fn places(half: &Half, apart: f64) -> Vec<Point> {
    let mut places: Vec<Point> = half.pieces().first().map(|piece| piece.curve.p0).into_iter().collect();
    for piece in half.pieces() {
        let curve = piece.curve;
        let polygon = length(curve.p1 - curve.p0) + length(curve.p2 - curve.p1) + length(curve.p3 - curve.p2);
        let steps = (polygon / apart).ceil().max(1.0);
        let mut k = 1.0;
        while k < steps {
            places.push(curve.eval(k / steps));
            k += 1.0;
        }
        places.push(curve.p3);
    }
    places.dedup_by(|a, b| length(*a - *b) < 1e-6);
    places
}

/// The largest distance from the outline to the pieces and from the pieces to the outline, mm.
fn deviation(half: &Half, pieces: &[Arc]) -> f64 {
    const FINE: f64 = 0.04; // of `APART`
    let from_outline = places(half, FINE * APART).into_iter().map(|p| super::distance(pieces, p));
    let to_outline = |p: Point| {
        let near = half.pieces().iter().map(|piece| nearest(&piece.curve, p).1);
        near.fold(f64::INFINITY, f64::min).sqrt()
    };
    let steps = 64;
    let on_pieces =
        pieces.iter().flat_map(|arc| (0..=steps).map(|k| arc.point(f64::from(k) / f64::from(steps))));
    from_outline.chain(on_pieces.map(to_outline)).fold(0.0, f64::max)
}

impl Words for MarkOutError {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        match self {
            Self::Tolerance(found) => {
                let length = |mm: f64| show(mm, TOLERANCE.unit, system);
                let (found, least, most) = (length(*found), length(LEAST), length(MOST));
                say!(in f, "a mark-out tolerance of {found} is not between {least} and {most}",
                    found,
                    least,
                    most
                )
            }
            Self::NoOutline => f.write_str(said("there is no outline to mark out")),
        }
    }
}

error_with_words!(MarkOutError);

#[cfg(test)]
mod tests;
