//! The search: which stretches of the outline one piece can stand for, and the fewest that make up the whole.
//!
//! In the frame of a chord of length c, the circles through both its ends are x² − c·x + y² − 2·k·y = 0 with their centre at
//! height k; written with m = 1/k, the straight line is the one of m = 0. A place lies within ε of such a circle
//! where (P·m − 2·y)² ≤ 4·ε²·(1 + (c·m/2)²), P = x² − c·x + y², up to terms of ε²: a quadratic in m. Each place leaves an
//! interval of m, and a piece exists where they have one in common.

use crate::arcs::{Arc, length, unit};
use kurbo::Point;

/// The best way to draw the outline up to a place.
#[derive(Clone, Copy)]
struct Best {
    pieces: usize,
    deviation: f64,
    from: usize,
    arc: Arc,
}

/// A chain of the fewest pieces from the first place to the last, each within `tolerance` of the places it passes.
pub(super) fn fewest(places: &[Point], tolerance: f64) -> Vec<Arc> {
    let start = Best { pieces: 0, deviation: 0.0, from: 0, arc: Arc::line(places[0], places[0]) };
    let mut best = vec![start];
    for to in 1..places.len() {
        let mut found: Option<Best> = None;
        for from in (0..to).rev() {
            let before = best[from];
            if found.is_some_and(|found| found.pieces < before.pieces + 1) {
                continue;
            }
            let Some((arc, off)) = piece(&places[from..=to], tolerance) else { continue };
            let (pieces, deviation) = (before.pieces + 1, before.deviation.max(off));
            let is_better = |other: Best| {
                pieces < other.pieces || (pieces == other.pieces && deviation < other.deviation)
            };
            if found.is_none_or(is_better) {
                found = Some(Best { pieces, deviation, from, arc });
            }
        }
        // Between neighbouring places there is always the straight line.
        let line = Arc::line(places[to - 1], places[to]);
        let last = best[to - 1];
        best.push(found.unwrap_or(Best { pieces: last.pieces + 1, from: to - 1, arc: line, ..last }));
    }
    let mut pieces = Vec::new();
    let mut to = places.len() - 1;
    while to > 0 {
        pieces.push(best[to].arc);
        to = best[to].from;
    }
    pieces.reverse();
    pieces
}

/// The line or arc from the first of the places to the last that passes the others within `tolerance`, and how far off
/// it is; none where there is none.
pub(super) fn piece(places: &[Point], tolerance: f64) -> Option<(Arc, f64)> {
    let (p0, p1) = (places[0], places[places.len() - 1]);
    let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
    let chord = Chord { p0, along: unit(p1 - p0), length: length(p1 - p0) };
    let inner = &places[1..places.len() - 1];
    // The middle first: it says the most.
    let order = (0..inner.len()).map(|i| inner[(inner.len() / 2 + i) % inner.len()]);
    for p in order {
        let (from, to) = chord.bends(p, tolerance)?;
        (low, high) = (low.max(from), high.min(to));
        if low > high {
            return None;
        }
    }
    // A straight line where one will do; else through the middle, which is right where the outline is an arc itself.
    let through = inner.get(inner.len() / 2).map_or(0.0, |p| chord.bend_through(*p));
    let line = (low <= 0.0 && high >= 0.0).then_some(0.0);
    [line, Some(through.max(low).min(high))].into_iter().flatten().find_map(|bend| {
        let arc = Arc { p0, p1, bulge: chord.bulge(bend) };
        let off = inner.iter().map(|p| arc.distance(*p)).fold(0.0, f64::max);
        (off <= tolerance).then_some((arc, off))
    })
}

/// The straight line between the ends of a piece.
struct Chord {
    p0: Point,
    along: kurbo::Vec2,
    length: f64,
}

impl Chord {
    /// The coordinates of a place in the chord's frame: P and y.
    fn seen(&self, p: Point) -> (f64, f64) {
        let v = p - self.p0;
        let (x, y) = (v.dot(self.along), self.along.cross(v));
        (x * (x - self.length) + y * y, y)
    }

    /// The bends m of the circles that pass a place within `tolerance`; none where there is none.
    fn bends(&self, p: Point, tolerance: f64) -> Option<(f64, f64)> {
        let (power, y) = self.seen(p);
        let reach = tolerance * self.length;
        let square = power * power - reach * reach;
        if square <= 0.0 {
            // As near to an end of the chord as the tolerance: all bends, or at least what is checked afterwards.
            return Some((f64::NEG_INFINITY, f64::INFINITY));
        }
        // square·m² − 4·P·y·m + 4·(y² − ε²) ≤ 0.
        let half = 2.0 * power * y;
        let root = (half * half - 4.0 * square * (y * y - tolerance * tolerance)).max(0.0).sqrt();
        Some(((half - root) / square, (half + root) / square))
    }

    /// The bend of the circle through a place.
    fn bend_through(&self, p: Point) -> f64 {
        let (power, y) = self.seen(p);
        if power.abs() > 0.0 { 2.0 * y / power } else { 0.0 }
    }

    /// The bulge of the arc of a bend: tan(sweep/4), from its rise over the chord.
    fn bulge(&self, bend: f64) -> f64 {
        let half = 0.5 * self.length * bend;
        let bulge = half / (1.0 + (1.0 + half * half).sqrt());
        if bulge.is_finite() { bulge } else { 0.0 }
    }
}
