//! Bolt holes clicked in any order, matched with the pattern and the wheelbase.

use super::{
    PhotoError,
    homography::{Homography, HomographyError, widest},
};
use crate::datum::Datum;
use kurbo::{Point, Vec2};

/// The holes in a picture, known one from another.
#[derive(Clone, Debug, PartialEq)]
pub struct Clicked {
    /// For each click the index of its hole in [`Datum::holes`].
    pub holes: Vec<usize>,
    /// From the plane of the holes, mm, to the picture, pixels.
    pub projection: Homography,
    /// How far each click lies from its hole on the deck, mm.
    pub misfits: Vec<f64>,
}

/// A misfit above this, mm, means another pattern, another wheelbase or no bolt hole: a drill wanders by one or two
/// (common practice, no source).
const FARTHEST: f64 = 12.0;
/// A picture in which the deck is shortened more than this one way is not looked at: a tilt of 70°.
const MOST_SHORTENED: f64 = 3.0;
/// What a shortening counts against a misfit, mm for each doubling: of two ways to read four holes the one less tilted.
const SHORTENING: f64 = 2.0;

/// Which hole each click is, and the projection by all of them.
///
/// The deck's top face is seen, so that its left rail is not its right. Its nose is where the pattern alone cannot tell it:
/// to the right in a picture where the deck lies across, up where it stands; the other way round where `turned`. Four clicks
/// fit more than one set of holes: then the least tilted camera is taken.
///
/// # Errors
///
/// [`PhotoError`] where there are fewer than four or more than eight clicks, all but one lie in a line, or they do not fit.
pub fn sort_holes(clicks: &[Point], datum: &Datum, turned: bool) -> Result<Clicked, PhotoError> {
    if clicks.len() > 8 {
        return Err(PhotoError::TooManyHoles(clicks.len()));
    }
    if clicks.len() < 4 {
        return Err(HomographyError::TooFew(clicks.len()).into());
    }
    let quad = widest(clicks).ok_or(HomographyError::InLine)?;
    let holes = datum.holes();
    let mut best: Option<(f64, Vec<usize>)> = None;
    for code in 0..8_usize.pow(4) {
        let tuple = [code & 7, (code >> 3) & 7, (code >> 6) & 7, code >> 9];
        if !turns_alike(quad.map(|i| clicks[i]), tuple.map(|i| holes[i])) {
            continue;
        }
        if let Some((score, order)) = reading(clicks, quad, &holes, tuple, turned)
            && best.as_ref().is_none_or(|(least, _)| score < *least)
        {
            best = Some((score, order));
        }
    }
    let (_, order) = best.ok_or(HomographyError::None)?;
    let places: Vec<Point> = order.iter().map(|&hole| holes[hole]).collect();
    let projection = Homography::fit(&places, clicks)?;
    let back = projection.inverse().ok_or(HomographyError::None)?;
    let off = |(click, place): (&Point, &Point)| (back.apply(*click) - *place).hypot2().sqrt();
    let misfits: Vec<f64> = clicks.iter().zip(&places).map(off).collect();
    let worst = misfits.iter().fold(0.0, |worst: f64, misfit| worst.max(*misfit));
    // Not so for what is not a number.
    if worst <= FARTHEST {
        Ok(Clicked { holes: order, projection, misfits })
    } else {
        Err(PhotoError::Holes(worst))
    }
}

/// Whether every three of four places turn the way their fellows do in the picture, where y runs down.
fn turns_alike(clicks: [Point; 4], holes: [Point; 4]) -> bool {
    [[0, 1, 2], [0, 1, 3], [0, 2, 3], [1, 2, 3]].iter().all(|&[i, j, k]| {
        let turn = |p: &[Point; 4]| (p[j] - p[i]).cross(p[k] - p[i]);
        turn(&clicks) * turn(&holes) < 0.0
    })
}

/// How badly the clicks fit when four of them are those holes, and which holes all of them are then.
fn reading(
    clicks: &[Point],
    quad: [usize; 4],
    holes: &[Point; 8],
    tuple: [usize; 4],
    turned: bool,
) -> Option<(f64, Vec<usize>)> {
    let projection = Homography::fit(&tuple.map(|i| holes[i]), &quad.map(|i| clicks[i])).ok()?;
    let (noseward, shortening) = look(&projection);
    let by_rule = if noseward.x.abs() >= noseward.y.abs() { noseward.x > 0.0 } else { noseward.y < 0.0 };
    let is_seen = shortening <= MOST_SHORTENED; // not so for what is not a number
    if by_rule == turned || !is_seen {
        return None;
    }
    let back = projection.inverse()?;
    let mut order = Vec::with_capacity(clicks.len());
    let mut sum = 0.0;
    for click in clicks {
        let place = back.apply(*click);
        let (hole, square) = nearest(holes, place);
        if order.contains(&hole) {
            return None;
        }
        order.push(hole);
        sum += square;
    }
    Some(((sum / clicks.len() as f64).sqrt() + SHORTENING * (shortening - 1.0), order))
}

fn nearest(holes: &[Point; 8], place: Point) -> (usize, f64) {
    holes.iter().enumerate().fold((0, f64::INFINITY), |best, (i, hole)| {
        let square = (*hole - place).hypot2();
        if square < best.1 { (i, square) } else { best }
    })
}

/// The way to the nose in the picture, and how much longer the picture shows one way than the other.
fn look(projection: &Homography) -> (Vec2, f64) {
    let middle = projection.apply(Point::ORIGIN);
    // A millimetre is small beside a deck, and large beside what rounding leaves.
    let (a, b) =
        (projection.apply(Point::new(1.0, 0.0)) - middle, projection.apply(Point::new(0.0, 1.0)) - middle);
    let (sum, area) = (a.hypot2() + b.hypot2(), a.cross(b).abs());
    let spread = (sum * sum - 4.0 * area * area).max(0.0).sqrt();
    (a, ((sum + spread) / 2.0).sqrt() / ((sum - spread) / 2.0).max(0.0).sqrt())
}
