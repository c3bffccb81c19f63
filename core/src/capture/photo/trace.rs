//! A photograph traced: from clicks and pixels to a half outline, with what is doubtful about it.

use super::{Body, Given, PhotoError, Picture, Rays};
use crate::{capture::cornered, order::sort_by_number, outline::Outline};
use kurbo::Point;

/// What a picture says of a deck.
#[derive(Clone, Debug, PartialEq)]
pub struct Traced {
    /// The edge found, both halves in one: places from the tail tip to the nose tip, on the developed sheet, mm.
    pub half: Vec<Point>,
    /// A fair half outline along them.
    pub outline: Outline,
    /// How far the places lie from it at most, mm.
    pub off_curve: f64,
    /// The largest difference of the halves across the edge, mm; positive where the left one reaches farther.
    pub asymmetry: f64,
    /// Where that is on the left half.
    pub asymmetric_at: Point,
    /// The difference of the halves in the middle of all, mm, without its sign.
    pub usual_asymmetry: f64,
    /// How far the rails may be off, mm.
    pub rail_error: f64,
    /// How far the tail tip and the nose tip may be off because the camera's height is not known better, mm.
    pub tip_errors: [f64; 2],
}

/// Halves that differ by more than this over a tenth of the edge, mm, are not one deck's (common practice, no source).
const MOST_LOPSIDED: f64 = 15.0;
/// How near the fair curve must follow the edge found, mm: less than half of the least rail error that is ever stated. At 0.2
/// the curve alone used all of that up; at 0.1 some decks need twenty pins for it, which is to follow the noise.
const ACCURACY: f64 = 0.13;
/// What lies this far from the curve, mm, is not one fair curve's: it has corners.
const HAS_CORNERS: f64 = 1.0;

/// Finds the deck's edge in a picture and lays a fair half outline along it; `progress` hears how much is done, from 0 to 1.
///
/// # Errors
///
/// [`PhotoError`] where the holes do not fit, or the edge is not to be seen or not a deck's.
pub fn trace(
    picture: &Picture<'_>,
    body: &Body<'_>,
    given: &Given,
    progress: &mut dyn FnMut(f64),
) -> Result<Traced, PhotoError> {
    let set = given.set(body, picture.size())?;
    let rays = Rays::of(&body.shape.datum);
    let edge = rays.edge(picture, &set.seen, &mut |share| progress(0.9 * share))?;
    let last = rays.count() - 1;
    let differs = |i: usize| (edge.left[i] - edge.right[i]) * edge.slant[i];
    let mut sizes: Vec<f64> = (0..=last).map(|i| differs(i).abs()).collect();
    sort_by_number(&mut sizes, |size| *size);
    let most_of_it = sizes[last * 9 / 10];
    if most_of_it > MOST_LOPSIDED {
        return Err(PhotoError::Lopsided(most_of_it));
    }
    let worst =
        (0..=last).fold(0, |worst, i| if differs(i).abs() > differs(worst).abs() { i } else { worst });
    let middle = |i: usize| rays.point(i, f64::midpoint(edge.left[i], edge.right[i]));
    let half: Vec<Point> = (0..=last).map(middle).collect();
    let (outline, off_curve) = fitted(&half).ok_or(PhotoError::NotADeck)?;
    progress(1.0);
    let tips = [half[0], half[last]];
    Ok(Traced {
        asymmetry: differs(worst),
        asymmetric_at: half[worst],
        usual_asymmetry: sizes[last / 2],
        rail_error: set.rail_error,
        tip_errors: tips.map(|tip| set.seen.off_for_height(tip, &set.sight)),
        half,
        outline,
        off_curve,
    })
}

/// A fair half outline along dense places from tip to tip, and how far they lie from it at most, mm: one batten where that
/// goes, else battens between the corners.
fn fitted(half: &[Point]) -> Option<(Outline, f64)> {
    let smooth = chain(half, &[]);
    if smooth.as_ref().is_some_and(|(_, off)| *off <= HAS_CORNERS) {
        return smooth;
    }
    let cornered = chain(half, &corners(half)).or_else(|| chain(half, &[half.len() / 2]));
    match (smooth, cornered) {
        (Some(a), Some(b)) => Some(if a.1 <= b.1 { a } else { b }),
        (a, b) => a.or(b),
    }
}

/// Places at which the way turns sharply: more than [`SHARP`] within [`REACH`] places to each side, and most of all there.
fn corners(half: &[Point]) -> Vec<usize> {
    /// Places on each side over which a direction is taken: some 10 mm.
    const REACH: usize = 5;
    /// The sine of the turn that is a corner, or as good as one: 35°.
    const SHARP: f64 = 0.57;
    let turn = |i: usize| {
        let (before, after) = (half[i] - half[i - REACH], half[i + REACH] - half[i]);
        let size = (before.hypot2() * after.hypot2()).sqrt();
        if before.dot(after) <= 0.0 { 1.0 } else { before.cross(after).abs() / size }
    };
    let mut corners: Vec<usize> = Vec::new();
    for i in REACH..half.len().saturating_sub(REACH) {
        if turn(i) < SHARP {
            continue;
        }
        match corners.last_mut() {
            Some(last) if i - *last < 2 * REACH => {
                if turn(i) > turn(*last) {
                    *last = i;
                }
            }
            _ => corners.push(i),
        }
    }
    corners
}

/// The chain from corner to corner, and how far the places lie from it at most, mm.
fn chain(half: &[Point], corners: &[usize]) -> Option<(Outline, f64)> {
    let outline = cornered::chain(half, corners, ACCURACY, cornered::SQUARE)?;
    let courses: Vec<_> = (0..outline.spans.len()).map(|s| outline.course(s)).collect();
    let distance = |p: &Point| courses.iter().fold(f64::INFINITY, |near, c| near.min(c.nearest(*p).1));
    let off = half.iter().fold(0.0, |worst: f64, p| worst.max(distance(p)));
    Some((outline, off))
}
