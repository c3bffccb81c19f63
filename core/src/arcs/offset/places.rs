//! Where a parallel cannot be followed back: places of the outline that nothing at that distance reaches.

use crate::{
    arcs::{self, Arc},
    measure::curvature_at,
    outline::{Half, Piece, heading_at},
    tolerance,
};
use kurbo::{ParamCurve, Point, Vec2};

/// A stretch of the left half of the outline that a tool on the parallel does not reach: inward where the edge bulges
/// more tightly than the distance, outward where it hollows more tightly, or where another part of the edge is in the way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// The tightest point of it, or the one that is in the way most.
    pub at: Point,
    /// The radius there, mm: 0 at a corner, none where the edge itself is wide enough and another part is in the way.
    pub radius: Option<f64>,
    /// Its tailward and its noseward end.
    pub ends: [Point; 2],
}

/// Points looked at along each piece.
const SAMPLES: u32 = 32;

/// All such stretches, tail to nose.
pub(super) fn unfollowed(half: &Half, chain: &[Arc], distance: f64) -> Vec<Place> {
    let mut walk = Walk { chain, distance, places: Vec::new(), inside: false, ease: 0.0 };
    let pieces = half.pieces();
    for (i, piece) in pieces.iter().enumerate() {
        let heading = heading_at(&piece.curve, 0.0);
        let before = i.checked_sub(1).map(|i| heading_at(&pieces[i].curve, 1.0));
        // At the tail tip the edge comes from its mirror.
        walk.joint(before.unwrap_or(Vec2::new(-heading.x, heading.y)), heading, piece.curve.p0);
        for k in 0..=SAMPLES {
            walk.point(piece, f64::from(k) / f64::from(SAMPLES));
        }
    }
    if let Some(last) = pieces.last() {
        let heading = heading_at(&last.curve, 1.0);
        walk.joint(heading, Vec2::new(-heading.x, heading.y), last.curve.p3);
    }
    walk.places
}

struct Walk<'a> {
    chain: &'a [Arc],
    distance: f64,
    places: Vec<Place>,
    /// Whether the last point looked at is part of the last place.
    inside: bool,
    /// How far the tightest point of that place is from being followed.
    ease: f64,
}

impl Walk<'_> {
    /// A point within a piece.
    fn point(&mut self, piece: &Piece, t: f64) {
        let (at, curvature) = (piece.curve.eval(t), curvature_at(piece, t));
        // Bulges count positive, and are in the way of an inward parallel.
        let share = -curvature * self.distance;
        if share > 1.0 {
            let radius = 1.0 / curvature.abs();
            return self.found(at, Some(radius), radius);
        }
        let heading = heading_at(&piece.curve, t);
        let outward = Vec2::new(-heading.y, heading.x) / arcs::length(heading);
        let reached = arcs::distance(self.chain, at + self.distance * outward);
        // Also not where the direction is unknown: a piece without length.
        if reached < self.distance.abs() - tolerance::OFFSET {
            // Behind every radius that is too small.
            self.found(at, None, self.distance.abs() + reached);
        } else {
            self.inside = false;
        }
    }

    /// A corner, or a joint that is none.
    fn joint(&mut self, before: Vec2, after: Vec2, at: Point) {
        // The half runs clockwise round the deck, so a corner that bulges turns to the right.
        let turn = before.cross(after) / (arcs::length(before) * arcs::length(after));
        let back = before.dot(after) < 0.0;
        if turn * self.distance > tolerance::TANGENT || (back && turn.abs() <= tolerance::TANGENT) {
            self.found(at, Some(0.0), 0.0);
        }
    }

    /// A point that cannot be followed, and a number that is the smaller, the farther it is from that.
    fn found(&mut self, at: Point, radius: Option<f64>, ease: f64) {
        match self.places.last_mut().filter(|_| self.inside) {
            Some(place) => {
                place.ends[1] = at;
                if ease < self.ease {
                    (place.at, place.radius, self.ease) = (at, radius, ease);
                }
            }
            None => {
                self.places.push(Place { at, radius, ends: [at, at] });
                self.ease = ease;
            }
        }
        self.inside = true;
    }
}
