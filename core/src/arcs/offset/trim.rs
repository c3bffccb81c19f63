//! The parallel of a closed chain: every piece moved aside, cut wherever two meet, and what lies too near thrown away.
//!
//! A line has a parallel line and an arc a concentric arc; round a corner on the far side runs an arc about its point. All
//! places at the distance lie on one of these. Cut at all their crossings, a part lies at the distance as a whole or
//! nearer as a whole, which its middle tells; the parts that stay close up to contours.

use crate::{
    arcs::{self, Arc, length, unit},
    order::sort_by_number,
    real,
};
use kurbo::{Point, Rect, Vec2};

/// Pieces shorter than this, mm, have no direction worth the name.
const SHORTEST: f64 = 1e-6;
/// A part this much nearer than the distance, mm, still counts as at it: rounding, and parts of one contour that touch.
const NEARER: f64 = 1e-6;
/// Ends of parts this near to one another, mm, are one: twice as much as crossings at the flattest angle are off.
const JOIN: f64 = 1e-3;
/// An arc that rises over its chord by less than this, mm, is crossed as the chord is: its centre lies so far away that no
/// digits are left for the crossing.
const FLAT: f64 = 1e-5;
/// A gap of at most this, mm, is bridged by a line: where the outline hollows or bulges with very nearly the distance as its
/// radius, parts of some hundredths come out so near to it that rounding decides. Whether the line lies at the distance is
/// checked with all the rest.
const BRIDGE: f64 = 0.05;

/// The contours at `distance` mm from a closed anticlockwise chain, positive outward; none where one does not close.
pub(super) fn parallel(chain: &[Arc], distance: f64) -> Option<Vec<Vec<Arc>>> {
    let chain = without_specks(chain);
    let moved = moved(&chain, distance);
    let mut parts = Vec::new();
    let boxes: Vec<Rect> = moved.iter().map(|arc| arcs::extent(&[*arc]).unwrap_or_default()).collect();
    for (i, arc) in moved.iter().enumerate() {
        let others = moved.iter().enumerate().filter(|(k, _)| *k != i && touch(&boxes[i], &boxes[*k]));
        let mut cuts: Vec<f64> = others.flat_map(|(_, other)| crossings(arc, other)).collect();
        sort_by_number(&mut cuts, |t| *t);
        let speck = SHORTEST / arc.length();
        let mut from = 0.0;
        for to in cuts.into_iter().filter(|t| *t < 1.0 - speck).chain([1.0]) {
            if to - from > speck {
                parts.push(arc.between(from, to));
                from = to;
            }
        }
    }
    parts.retain(|part| arcs::distance(&chain, part.point(0.5)) >= distance.abs() - NEARER);
    closed_up(parts)
}

fn without_specks(chain: &[Arc]) -> Vec<Arc> {
    let mut kept: Vec<Arc> = chain.iter().filter(|arc| length(arc.p1 - arc.p0) > SHORTEST).copied().collect();
    for i in 0..kept.len() {
        kept[i].p0 = kept[(i + kept.len() - 1) % kept.len()].p1;
    }
    kept
}

/// Every piece moved aside, and arcs about the corners that leave a gap. What turns inside out is nearer throughout.
fn moved(chain: &[Arc], distance: f64) -> Vec<Arc> {
    let aside = |p: Point, tangent: Vec2| p + distance * Vec2::new(tangent.y, -tangent.x);
    let mut moved = Vec::with_capacity(chain.len() + 8);
    for (i, arc) in chain.iter().enumerate() {
        let before = chain[(i + chain.len() - 1) % chain.len()].end_tangent();
        let (start, end) = (arc.start_tangent(), arc.end_tangent());
        let turn = real::atan2(before.cross(start), before.dot(start));
        if turn * distance > 0.0 {
            let (p0, p1) = (aside(arc.p0, before), aside(arc.p0, start));
            moved.push(Arc { p0, p1, bulge: real::tan(turn / 4.0) });
        }
        if 1.0 + arc.curvature() * distance > 0.0 {
            moved.push(Arc { p0: aside(arc.p0, start), p1: aside(arc.p1, end), bulge: arc.bulge });
        }
    }
    moved.retain(|arc| length(arc.p1 - arc.p0) > SHORTEST);
    moved
}

fn touch(a: &Rect, b: &Rect) -> bool {
    a.x0 <= b.x1 + NEARER && b.x0 <= a.x1 + NEARER && a.y0 <= b.y1 + NEARER && b.y0 <= a.y1 + NEARER
}

/// The fractions of the length of `a` at which `b` meets it.
fn crossings(a: &Arc, b: &Arc) -> impl Iterator<Item = f64> + use<> {
    let (a, b) = (*a, *b);
    let places = match (Round::of(&a), Round::of(&b)) {
        (None, None) => straight_crossing(&a, &b),
        (Some(round), None) => round.crossings(b.p0, unit(b.p1 - b.p0)),
        (None, Some(round)) => round.crossings(a.p0, unit(a.p1 - a.p0)),
        (Some(round), Some(other)) => {
            let along = other.centre - round.centre;
            let apart = length(along);
            // The common chord stands at this distance from the first centre.
            let foot = ((round.radius - other.radius) * (round.radius + other.radius) / apart + apart) / 2.0;
            let along = unit(along);
            if apart > 0.0 {
                round.crossings(round.centre + foot * along, Vec2::new(-along.y, along.x))
            } else {
                [None; 2]
            }
        }
    };
    places.into_iter().flatten().filter_map(move |p| {
        let (t, s) = (share(&a, p), share(&b, p));
        let (on_a, on_b) = (SHORTEST / a.length(), SHORTEST / b.length());
        let on = (-on_a..=1.0 + on_a).contains(&t) && (-on_b..=1.0 + on_b).contains(&s);
        on.then_some(t)
    })
}

fn straight_crossing(a: &Arc, b: &Arc) -> [Option<Point>; 2] {
    let (u, v) = (a.p1 - a.p0, b.p1 - b.p0);
    let t = (b.p0 - a.p0).cross(v) / u.cross(v);
    [t.is_finite().then(|| a.p0 + t * u), None]
}

/// The circle of an arc.
struct Round {
    centre: Point,
    radius: f64,
}

impl Round {
    /// None for a line, and for what meets others as a line does.
    fn of(arc: &Arc) -> Option<Self> {
        let rise = 0.5 * arc.bulge.abs() * length(arc.p1 - arc.p0);
        let is_round = rise > FLAT;
        arc.centre().zip(arc.radius()).filter(|_| is_round).map(|(centre, radius)| Self { centre, radius })
    }

    /// Where a line through `p` along the unit vector `u` meets it; where it just misses, its nearest point.
    fn crossings(&self, p: Point, u: Vec2) -> [Option<Point>; 2] {
        let foot = p + u * (self.centre - p).dot(u);
        let height = length(foot - self.centre);
        if height > self.radius + NEARER {
            return [None; 2];
        }
        let half = ((self.radius - height) * (self.radius + height)).max(0.0).sqrt();
        [Some(foot + half * u), Some(foot - half * u)]
    }
}

/// The fraction of the length of a piece at which a place on it lies.
fn share(arc: &Arc, p: Point) -> f64 {
    let Some(Round { centre, .. }) = Round::of(arc) else {
        let along = arc.p1 - arc.p0;
        return (p - arc.p0).dot(along) / along.hypot2();
    };
    // From the middle of the arc, so that half turns do not wrap.
    let (middle, v) = (arc.point(0.5) - centre, p - centre);
    0.5 + real::atan2(middle.cross(v), middle.dot(v)) / arc.sweep()
}

/// The parts joined to closed contours; none where one does not close.
fn closed_up(mut parts: Vec<Arc>) -> Option<Vec<Vec<Arc>>> {
    let mut contours = Vec::new();
    while let Some(first) = parts.pop() {
        let mut contour = vec![first];
        let mut end = first.p1;
        loop {
            let home = length(first.p0 - end);
            let nearest = (0..parts.len()).map(|i| (length(parts[i].p0 - end), i));
            let nearest = nearest.reduce(|a, b| if b.0 < a.0 { b } else { a });
            match nearest.filter(|(gap, _)| *gap <= BRIDGE && *gap < home) {
                Some((gap, next)) => {
                    let mut part = parts.swap_remove(next);
                    if gap > JOIN {
                        contour.push(Arc::line(end, part.p0));
                    } else {
                        part.p0 = end;
                    }
                    end = part.p1;
                    contour.push(part);
                }
                None if home <= BRIDGE => break,
                None => return None,
            }
        }
        if length(first.p0 - end) > JOIN {
            contour.push(Arc::line(end, first.p0));
        } else {
            contour[0].p0 = end;
        }
        contours.push(contour);
    }
    Some(contours)
}
