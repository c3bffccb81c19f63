//! Where a parallel cannot be followed back: places of the outline that nothing at that distance reaches.

use super::Contour;
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
pub(super) fn unfollowed(half: &Half, contours: &[Contour], distance: f64) -> Vec<Place> {
    let contours = contours.iter().flat_map(Contour::whole).collect();
    let mut walk = Walk { contours, distance, places: Vec::new(), inside: false, ease: 0.0 };
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

struct Walk {
    /// The closed chains of the parallel.
    contours: Vec<Vec<Arc>>,
    distance: f64,
    places: Vec<Place>,
    /// Whether the last point looked at is part of the last place.
    inside: bool,
    /// How far the tightest point of that place is from being followed.
    ease: f64,
}

impl Walk {
    /// A point within a piece.
    fn point(&mut self, piece: &Piece, t: f64) {
        let (at, curvature) = (piece.curve.eval(t), curvature_at(piece, t));
        // Bulges count positive, and are in the way of an inward parallel.
        let share = -curvature * self.distance;
        if share > 1.0 {
            let radius = 1.0 / curvature.abs();
            return self.found(at, Some(radius), radius);
        }
        let whole = self.contours.iter().map(|contour| arcs::distance(contour, at));
        let off = whole.fold(f64::INFINITY, f64::min) - self.distance.abs();
        if off > tolerance::OFFSET {
            // Behind every radius that is too small, the farther the tighter.
            self.found(at, None, self.distance.abs() + 1.0 / off);
        } else {
            self.inside = false;
        }
    }

    /// A corner, or a joint that is none.
    fn joint(&mut self, before: Vec2, after: Vec2, at: Point) {
        let scale = arcs::length(before) * arcs::length(after);
        let (sin, cos) = (before.cross(after) / scale, before.dot(after) / scale);
        // The half runs clockwise round the deck, so a corner that bulges turns to the right. One that turns by φ comes
        // out round, d·(1/cos(φ/2) − 1) or about d·φ²/8 off; what is within the tolerance is followed.
        let off = self.distance.abs() * (1.0 - cos) / 4.0;
        let is_cusp = cos < 0.0 && sin.abs() <= tolerance::TANGENT;
        if off > tolerance::OFFSET && (sin * self.distance > 0.0 || is_cusp) {
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
