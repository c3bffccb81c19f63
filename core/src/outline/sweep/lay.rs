//! A sweep laid on the outline by two touches.

use super::{SHORTEST, Sweep};
use crate::{
    design::Refusal,
    outline::{Joint, Outline, Span, SpanEnd},
    real, tolerance, units,
};
use kurbo::{Point, Vec2};

/// Farther off the edge than this, mm, a touch means something else.
const REACH: f64 = 60.0;
/// A touch within this of a tip, mm, means the tip: a finger is no finer.
const TIP: f64 = 12.0;
/// The most a sweep is turned, radians, to stand square at a tip.
const SQUARE: f64 = 0.5;
/// The cosine up to which an end of a sweep counts as square: a thousandth of a turn is no other direction.
const SQUARE_ENOUGH: f64 = 6e-3;
/// The share of a span that must lie between the touches for it to count as under them: a touch at its node does not.
const BARELY: f64 = 0.02;
/// The share of the whole sweep's reach from which on two touches mean all of it: fingers are no rulers.
const NEARLY: f64 = 0.9;
/// Nearer to where it was touched than this, mm, a sweep ends there.
const SAME: f64 = 3.0;
/// Steps along a sweep in which the mark is looked for that lies a distance away.
const STEPS: u32 = 64;
/// A neighbour shorter than this many times the way it has to give, mm, makes a bump: its far node goes.
const LEAST_RUN: f64 = 4.0;

impl Outline {
    /// The chain with a sweep laid between two touches, on any half.
    ///
    /// The first touch is where the sweep stays; the second says which way it goes and how far at most. All of the sweep
    /// is laid, even a little beyond the touch; or, between touches much nearer than that, as much of it, from one of its
    /// ends on, as fits. It lies on the side, and the way round, on which its tangents come nearest to those of the edge.
    /// At a tip it stays at the tip, with the end that stands square in its own frame (that of a tip it was kept at) if it
    /// has one, and is turned to stand square there. The neighbours keep their kind and take its tangent; a straight one that does not run into it
    /// becomes a batten.
    ///
    /// # Errors
    ///
    /// [`Refusal::NoSuch`] sweep; [`Refusal::Impossible`] for touches off the edge or at one place.
    pub fn with_sweep_laid(&self, sweep: usize, at: [Point; 2]) -> Result<Self, Refusal> {
        let laid = self.sweeps.get(sweep).ok_or(Refusal::NoSuch("sweep"))?;
        let touches = self.on_drawn_half(&at);
        let [mut first, mut second] = [self.touched(touches[0])?, self.touched(touches[1])?];
        let along = |place: (usize, f64)| place.0 as f64 + place.1;
        // What is under it may be laid itself: the rest of that is no sweep any more.
        let (low, high) = (along(first).min(along(second)), along(first).max(along(second)));
        let under = (0..self.spans.len()).find(|&s| {
            let start = s as f64;
            matches!(self.spans[s], Span::Laid { .. }) && high.min(start + 1.0) - low.max(start) > BARELY
        });
        if let Some(span) = under {
            return self.freed(span)?.with_sweep_laid(sweep, at);
        }
        // What the centreline holds stays; else the first touch does.
        let ends = [0.0, self.spans.len() as f64];
        if ends.contains(&along(second)) {
            (first, second) = (second, first);
        }
        let place = |(span, t): (usize, f64)| self.course(span).point(t);
        let (stays, goes) = (place(first), place(second) - place(first));
        let distance = goes.hypot2().sqrt();
        let marks = marks(laid, distance);
        let Some(chord) = marks.first().map(|marks| laid.chord(marks[0], marks[1])) else {
            return Err(NO_ROOM);
        };
        // What is laid may end short of the second touch, or a little beyond.
        if (chord - distance).abs() > SAME && !ends.contains(&along(second)) {
            let (span, t, _) = self.nearest(stays + goes * (chord / distance));
            second = (span, t);
        }
        let forward = along(first) < along(second);
        let mut chain = self.clone();
        let (start, end) = if forward { chain.cut(first, second) } else { chain.cut(second, first) };
        if end <= start {
            return Err(NO_ROOM);
        }
        let anchor = if forward { SpanEnd::Start } else { SpanEnd::End };
        Ok(chain.covered(start, end, anchor, &candidates(sweep, &marks)))
    }

    /// The place of the edge that a touch means.
    fn touched(&self, touch: Point) -> Result<(usize, f64), Refusal> {
        let (span, t, distance) = self.nearest(touch);
        if distance > REACH {
            return Err(Refusal::Impossible(
                "a sweep is laid from edge to edge: touch the edge where it is to begin, and where it is to end",
            ));
        }
        let place = self.course(span).point(t);
        let near = |node: usize| (self.nodes[node].place - place).hypot2() < TIP * TIP;
        let last = self.nodes.len() - 1;
        Ok(if near(last) {
            (last - 1, 1.0)
        } else if near(0) {
            (0, 0.0)
        } else {
            (span, t)
        })
    }

    /// The chain with the stretch between two nodes under the laid span that suits it best.
    fn covered(&self, start: usize, end: usize, anchor: SpanEnd, candidates: &[Span]) -> Self {
        let tangents = [self.course(start).tangent(0.0), self.course(end - 1).tangent(1.0)];
        let direction = real::direction(self.nodes[end].place - self.nodes[start].place);
        let tip =
            (self.is_tip(start) && anchor == SpanEnd::Start) || (self.is_tip(end) && anchor == SpanEnd::End);
        let square: Vec<Span> =
            candidates.iter().copied().filter(|span| tip && self.is_square(span, anchor)).collect();
        let candidates = if square.is_empty() { candidates } else { &square };
        let mut best: Option<(f64, Self)> = None;
        for span in candidates {
            let mut chain = self.clone();
            chain.nodes.drain(start + 1..end);
            chain.spans.drain(start + 1..end);
            chain.spans[start] = *span;
            chain.place_laid(start, anchor, direction);
            let Some(found) = chain.laid_tangents(start) else { continue };
            let off = |i: usize| real::wrapped(found[i] - tangents[i]).powi(2);
            let miss = off(0) + off(1);
            if best.as_ref().is_none_or(|(least, _)| miss < *least) {
                best = Some((miss, chain));
            }
        }
        let Some((_, mut chain)) = best else { return self.clone() };
        let tip = SpanEnd::of(anchor, start);
        if chain.is_tip(tip)
            && let Some(turn) = chain.off_square(start, anchor)
            && turn.abs() <= SQUARE
        {
            chain.place_laid(start, anchor, direction + turn);
        }
        let moved = [
            chain.nodes[start].place - self.nodes[start].place,
            chain.nodes[start + 1].place - self.nodes[end].place,
        ];
        chain.join_neighbours(start, self, end);
        chain.settle();
        chain.make_room(start, moved);
        chain
    }

    /// Whether one end of a laid span is an end of its sweep that stands square in the sweep's own frame.
    fn is_square(&self, span: &Span, end: SpanEnd) -> bool {
        let Span::Laid { sweep, from, to, reverse, .. } = *span else { return false };
        let Some(sweep) = self.sweeps.get(sweep) else { return false };
        let first = (end == SpanEnd::Start) != reverse;
        let mark = if first { from } else { to };
        let is_end = if first { from <= 0.0 } else { to >= sweep.length() };
        is_end && real::unit_vector(sweep.angle(mark)).x.abs() < SQUARE_ENOUGH
    }

    /// Puts the nodes of laid span `s` as far apart as its marks, in a direction, one of them where it is; what the
    /// centreline holds stays there.
    fn place_laid(&mut self, s: usize, anchor: SpanEnd, direction: f64) {
        let chord = self.chord_of_marks(s).unwrap_or(0.0);
        let [mut p, mut q] = self.ends_of(s, anchor, direction, chord);
        let mut by = Vec2::ZERO;
        if self.is_amidships(s) {
            by.x = -p.x;
        }
        if self.is_tip(s) {
            by.y = -p.y;
        }
        if self.is_tip(s + 1) {
            by.y = -q.y;
        }
        p += by;
        q += by;
        (self.nodes[s].place, self.nodes[s + 1].place) = (p, q);
    }

    /// Makes the two nodes of laid span `s` smooth unless they were corners, and straight neighbours that do not run into
    /// it battens. `old` is the chain before, in which the second node was `end`.
    fn join_neighbours(&mut self, s: usize, old: &Self, end: usize) {
        let Some(tangents) = self.laid_tangents(s) else { return };
        for (i, node, was) in [(0, s, s), (1, s + 1, end)] {
            if self.is_tip(node) || self.is_amidships(node) {
                self.nodes[node].joint = Joint::Led;
                continue;
            }
            if old.nodes[was].joint == Joint::Corner {
                continue;
            }
            self.nodes[node].joint = Joint::Led;
            let beside = if i == 0 { s - 1 } else { s + 1 };
            let runs_into = real::wrapped(self.chord(beside) - tangents[i]).abs() <= tolerance::TANGENT;
            if self.spans[beside] == Span::Straight && !runs_into {
                let far = if i == 0 { beside } else { beside + 1 };
                let tangent = self.tangent(far);
                self.spans[beside] = Span::Batten { start: tangent, end: tangent };
                self.own_tangent(far, tangent);
            }
        }
    }

    /// Takes away nodes so near to laid span `s` that the edge would have to bend sharply to meet it.
    fn make_room(&mut self, s: usize, moved: [Vec2; 2]) {
        let laid = |chain: &Self, s: usize| matches!(chain.spans.get(s), Some(Span::Laid { .. }));
        let near = |chain: &Self, node: usize, far: usize, way: Vec2| {
            let gap = (chain.nodes[far].place - chain.nodes[node].place).hypot2().sqrt();
            chain.nodes[far].joint != Joint::Corner && gap < LEAST_RUN * way.hypot2().sqrt()
        };
        while s + 3 < self.nodes.len()
            && near(self, s + 1, s + 2, moved[1])
            && !laid(self, s + 1)
            && !laid(self, s + 2)
        {
            let Some(chain) = self.without_node(s + 2) else { break };
            *self = chain;
        }
        let mut s = s;
        while s >= 2 && near(self, s, s - 1, moved[0]) && !laid(self, s - 1) && !laid(self, s - 2) {
            let Some(chain) = self.without_node(s - 1) else { break };
            *self = chain;
            s -= 1;
        }
    }
}

impl SpanEnd {
    /// The node at this end of span `s`.
    fn of(self, s: usize) -> usize {
        Outline::node_of(s, self)
    }
}

const NO_ROOM: Refusal =
    Refusal::Impossible("there is no room for the sweep between the two touches: touch farther apart");

/// The pairs of marks that are tried: the whole sweep, or from either of its ends as much as spans a distance.
fn marks(sweep: &Sweep, distance: f64) -> Vec<[f64; 2]> {
    let length = sweep.length();
    let enough = |marks: &[f64; 2]| sweep.chord(marks[0], marks[1]) >= SHORTEST;
    let whole = [0.0, length];
    if NEARLY * sweep.chord(0.0, length) <= distance && enough(&whole) {
        return vec![whole];
    }
    let from_start = reach(length, distance, |s| sweep.chord(0.0, s));
    let from_end = reach(length, distance, |s| sweep.chord(length - s, length));
    [[0.0, from_start], [units::whole_nm(length - from_end), length]].into_iter().filter(enough).collect()
}

/// The least arc length whose chord is `distance`; where none is so long, that of the longest chord.
fn reach(length: f64, distance: f64, chord: impl Fn(f64) -> f64) -> f64 {
    let step = length / f64::from(STEPS);
    let mut longest = (0.0, 0.0);
    for k in 1..=STEPS {
        let s = step * f64::from(k);
        let found = chord(s);
        if found >= distance {
            let (mut low, mut high) = (s - step, s);
            for _ in 0..50 {
                let middle = low + (high - low) / 2.0;
                if chord(middle) < distance { low = middle } else { high = middle }
            }
            return units::whole_nm(low).min(length);
        }
        if found > longest.1 {
            longest = (s, found);
        }
    }
    units::whole_nm(longest.0).min(length)
}

/// All ways to lay a sweep between those marks.
fn candidates(sweep: usize, marks: &[[f64; 2]]) -> Vec<Span> {
    let mut candidates = Vec::new();
    for &[from, to] in marks {
        for (flip, reverse) in [(false, false), (true, true), (true, false), (false, true)] {
            candidates.push(Span::Laid { sweep, from, to, flip, reverse });
        }
    }
    candidates
}
