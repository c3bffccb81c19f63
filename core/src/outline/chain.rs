//! What the chain's nodes and handles mean: tangents, offsets, and the canonical form.

use super::{Handle, Joint, Node, Outline, Span, SpanEnd};
use crate::{real, tolerance, units};
use core::f64::consts::FRAC_PI_2;
use kurbo::{Point, Vec2};

impl Outline {
    /// The tangent that a laid sweep, a straight neighbour, the tip or the mirror amidships gives at node `i`, radians.
    pub(super) fn led_tangent(&self, i: usize) -> f64 {
        if let Some(angle) = self.laid_tangent(i).or_else(|| self.straight_tangent(i)) {
            angle
        } else if self.is_amidships(i) {
            0.0
        } else if i == 0 {
            FRAC_PI_2
        } else {
            -FRAC_PI_2
        }
    }

    /// The direction of a straight span that ends at node `i`, the one before it first.
    fn straight_tangent(&self, i: usize) -> Option<f64> {
        let before = i.checked_sub(1).filter(|&s| self.spans[s] == Span::Straight);
        let after = Some(i).filter(|&s| self.spans.get(s) == Some(&Span::Straight));
        before.or(after).map(|s| self.chord(s))
    }

    /// The direction of a laid sweep that ends at node `i`, the one before it first.
    fn laid_tangent(&self, i: usize) -> Option<f64> {
        let before = || Some(self.laid_tangents(i.checked_sub(1)?)?[1]);
        before().or_else(|| Some(self.laid_tangents(i)?[0]))
    }

    /// Whether a laid sweep ends at node `i`.
    fn is_laid(&self, i: usize) -> bool {
        let laid = |s: Option<usize>| {
            s.and_then(|s| self.spans.get(s)).is_some_and(|span| matches!(span, Span::Laid { .. }))
        };
        laid(i.checked_sub(1)) || laid(Some(i))
    }

    /// Direction from node to node along span `s`, radians.
    pub(super) fn chord(&self, s: usize) -> f64 {
        real::direction(self.nodes[s + 1].place - self.nodes[s].place)
    }

    /// Whether something else gives the tangent at node `i`, were it smooth.
    pub(super) fn is_led(&self, i: usize) -> bool {
        self.is_tip(i) || self.is_amidships(i) || self.is_laid(i) || self.straight_tangent(i).is_some()
    }

    /// Whether all that gives the tangent at node `i` agrees on it, so that it can be smooth at all.
    #[must_use]
    pub(crate) fn can_be_smooth(&self, i: usize) -> bool {
        let mut given = Vec::with_capacity(5);
        given.extend(i.checked_sub(1).and_then(|s| self.laid_tangents(s)).map(|tangents| tangents[1]));
        given.extend(self.laid_tangents(i).map(|tangents| tangents[0]));
        if i > 0 && self.spans[i - 1] == Span::Straight {
            given.push(self.chord(i - 1));
        }
        if self.spans.get(i) == Some(&Span::Straight) {
            given.push(self.chord(i));
        }
        if self.is_amidships(i) {
            given.push(0.0);
        } else if self.is_tip(i) {
            given.push(if i == 0 { FRAC_PI_2 } else { -FRAC_PI_2 });
        }
        given.iter().all(|angle| real::wrapped(angle - given[0]).abs() <= tolerance::TANGENT)
    }

    /// Where a handle lies as seen from its node, mm.
    pub(super) fn handle_offset(&self, node: usize, end: SpanEnd, handle: Handle) -> Vec2 {
        match handle {
            Handle::Free(offset) => offset,
            Handle::Along(length) => {
                let outward = real::unit_vector(self.tangent(node).unwrap_or(0.0)) * length;
                match end {
                    SpanEnd::Start => outward,
                    SpanEnd::End => -outward,
                }
            }
        }
    }

    /// Rounds to what a design stores and says nothing twice: tips on the centreline, led tangents not stored, handles
    /// on their tangents. Places and directions stay as they are; only their form changes.
    ///
    /// Indices must be in order ([`super::check`] refuses a chain whose counts are wrong before this is called).
    pub(crate) fn settle(&mut self) {
        let last = self.nodes.len() - 1;
        for (i, node) in self.nodes.iter_mut().enumerate() {
            let x = if i == 0 && self.twin { 0.0 } else { units::whole_nm(node.place.x) };
            let tip = i == last || (i == 0 && !self.twin);
            let y = if tip { 0.0 } else { units::whole_nm(node.place.y) };
            node.place = Point::new(x, y);
        }
        for i in 0..=last {
            self.settle_joint(i);
        }
        for s in 0..self.spans.len() {
            self.spans[s] = match self.spans[s] {
                Span::Straight => Span::Straight,
                Span::Laid { sweep, from, to, flip, reverse } => {
                    Span::Laid { sweep, from: units::whole_nm(from), to: units::whole_nm(to), flip, reverse }
                }
                Span::Cubic { start, end } => Span::Cubic {
                    start: self.settled_handle(s, SpanEnd::Start, start),
                    end: self.settled_handle(s + 1, SpanEnd::End, end),
                },
                Span::Batten { start, end } => Span::Batten {
                    start: self.settled_lean(s, s, start),
                    end: self.settled_lean(s + 1, s, end),
                },
            };
        }
    }

    fn settle_joint(&mut self, i: usize) {
        let joint = self.nodes[i].joint;
        if joint != Joint::Corner && !self.can_be_smooth(i) {
            self.free_handles(i);
        } else if let Joint::Smooth(angle) = joint {
            self.nodes[i].joint =
                if self.is_led(i) { Joint::Led } else { Joint::Smooth(stored_angle(angle)) };
        }
    }

    /// The direction a batten has of its own at a node: at a corner only, there the chord's where none was given.
    fn settled_lean(&self, node: usize, span: usize, lean: Option<f64>) -> Option<f64> {
        let at_corner = self.nodes[node].joint == Joint::Corner;
        at_corner.then(|| stored_angle(lean.unwrap_or_else(|| self.chord(span))))
    }

    fn settled_handle(&self, node: usize, end: SpanEnd, handle: Handle) -> Handle {
        match (handle, self.tangent(node)) {
            (Handle::Free(offset), None) => {
                Handle::Free(Vec2::new(units::whole_nm(offset.x), units::whole_nm(offset.y)))
            }
            (Handle::Along(length), Some(_)) => Handle::Along(units::whole_nm(length)),
            (Handle::Free(offset), Some(_)) => Handle::Along(units::whole_nm(offset.hypot())),
            (Handle::Along(length), None) => {
                let node_to_node = match end {
                    SpanEnd::Start => self.chord(node),
                    SpanEnd::End => self.chord(node - 1) + core::f64::consts::PI,
                };
                let offset = real::unit_vector(node_to_node) * length;
                Handle::Free(Vec2::new(units::whole_nm(offset.x), units::whole_nm(offset.y)))
            }
        }
    }

    /// Makes node `i` a corner without moving the curve.
    pub(super) fn free_handles(&mut self, i: usize) {
        let tangent = self.tangent(i);
        let free = |handle, end| Handle::Free(self.handle_offset(i, end, handle));
        let before = i.checked_sub(1).map(|s| match self.spans[s] {
            rigid @ (Span::Straight | Span::Laid { .. }) => rigid,
            Span::Cubic { start, end } => Span::Cubic { start, end: free(end, SpanEnd::End) },
            Span::Batten { start, end } => Span::Batten { start, end: end.or(tangent) },
        });
        let after = self.spans.get(i).map(|span| match *span {
            rigid @ (Span::Straight | Span::Laid { .. }) => rigid,
            Span::Cubic { start, end } => Span::Cubic { start: free(start, SpanEnd::Start), end },
            Span::Batten { start, end } => Span::Batten { start: start.or(tangent), end },
        });
        if let Some(span) = before {
            self.spans[i - 1] = span;
        }
        if let Some(span) = after {
            self.spans[i] = span;
        }
        self.nodes[i].joint = Joint::Corner;
    }

    /// The chain of the whole half, tail to nose, also for a twin.
    #[must_use]
    pub fn untwinned(&self) -> Self {
        if !self.twin {
            return self.clone();
        }
        let flip = |joint| match joint {
            Joint::Smooth(angle) => Joint::Smooth(-angle),
            other => other,
        };
        let flip_handle = |handle| match handle {
            Handle::Free(offset) => Handle::Free(Vec2::new(-offset.x, offset.y)),
            along @ Handle::Along(_) => along,
        };
        let mut nodes = Vec::with_capacity(2 * self.nodes.len() - 1);
        for node in self.nodes[1..].iter().rev() {
            let place = Point::new(-node.place.x, node.place.y);
            nodes.push(Node { place, joint: flip(node.joint) });
        }
        nodes.extend_from_slice(&self.nodes);
        let mut spans = Vec::with_capacity(2 * self.spans.len());
        for span in self.spans.iter().rev() {
            spans.push(match *span {
                Span::Straight => Span::Straight,
                Span::Laid { sweep, from, to, flip, reverse } => {
                    Span::Laid { sweep, from, to, flip: !flip, reverse: !reverse }
                }
                Span::Cubic { start, end } => {
                    Span::Cubic { start: flip_handle(end), end: flip_handle(start) }
                }
                Span::Batten { start, end } => {
                    Span::Batten { start: end.map(core::ops::Neg::neg), end: start.map(core::ops::Neg::neg) }
                }
            });
        }
        spans.extend_from_slice(&self.spans);
        let middle = &mut nodes[self.spans.len()];
        if middle.joint == Joint::Led {
            middle.joint = Joint::Smooth(0.0);
        }
        let mut whole = Self { nodes, spans, twin: false, sweeps: self.sweeps.clone() };
        whole.settle();
        whole
    }
}

/// A direction as a design stores it: within half a turn of the nose, in whole ten-millionths of a degree.
pub(super) fn stored_angle(angle: f64) -> f64 {
    // Rounding may reach −180°, which is 180°.
    real::wrapped(units::whole_angle(real::wrapped(angle)))
}

/// The twin whose both halves are the nose half of `outline`, with a node amidships where there was none.
///
/// `None` where the half outline does not cross x = 0 exactly once, so that it has no nose half.
#[must_use]
pub fn twin_of(outline: &Outline) -> Option<Outline> {
    if outline.twin {
        return Some(outline.clone());
    }
    let crosses = |s: &usize| {
        let (a, b) = (outline.nodes[*s].place.x, outline.nodes[s + 1].place.x);
        (a < 0.0) != (b < 0.0)
    };
    let mut crossings = (0..outline.spans.len()).filter(crosses);
    let span = crossings.next()?;
    if crossings.next().is_some() {
        return None;
    }
    let (from, to) = (outline.nodes[span].place.x, outline.nodes[span + 1].place.x);
    let mut whole = outline.clone();
    let mut first = span + 1;
    if to > tolerance::NODE_GAP {
        if from < -tolerance::NODE_GAP {
            whole = outline.split(span, outline.course(span).at_station(0.0)?);
        } else {
            first = span;
        }
    }
    let mut nose = Outline {
        nodes: whole.nodes.split_off(first),
        spans: whole.spans.split_off(first),
        twin: true,
        sweeps: whole.sweeps,
    };
    if let Joint::Smooth(_) = nose.nodes[0].joint {
        nose.nodes[0].joint = Joint::Led;
    }
    nose.settle();
    Some(nose)
}

/// The tangent direction of a cubic at `t`, radians; at an end whose handle has no length, the limit.
#[must_use]
pub fn tangent_at(curve: &kurbo::CubicBez, t: f64) -> f64 {
    real::direction(heading_at(curve, t))
}

/// A vector along the tangent of a cubic at `t`; at an end whose handle has no length, along the limit.
#[must_use]
pub(crate) fn heading_at(curve: &kurbo::CubicBez, t: f64) -> Vec2 {
    use kurbo::{ParamCurve, ParamCurveDeriv};
    let v = curve.deriv().eval(t).to_vec2();
    if v.hypot2() > 0.0 {
        return v;
    }
    let away = if t < 0.5 {
        (curve.p2 - curve.p0, curve.p3 - curve.p0)
    } else {
        (curve.p3 - curve.p1, curve.p3 - curve.p0)
    };
    if away.0.hypot2() > 0.0 { away.0 } else { away.1 }
}
