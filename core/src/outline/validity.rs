//! What makes a chain a valid outline: a simple closed shape round the bolt holes that meets its mirror at the tips only.

use super::{
    Handle, Outline, Span, Sweep,
    crossing::self_crossing,
    resolve::{Half, coefficients, monotone_parts},
};
use crate::{
    curve::{batten::BattenError, nearest::nearest},
    datum::Datum,
    roots::monotone_cubic_root,
    say, tolerance,
    units::{self, System, Unit, Words, error_with_words, show},
};
use core::fmt;
use kurbo::{CubicBez, ParamCurve, Point};

/// Why a chain is no outline. Places are in mm.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Fault {
    /// The number of nodes is out of range.
    NodeCount(usize),
    /// The spans are not one fewer than the nodes.
    SpanCount {
        /// Number of nodes.
        nodes: usize,
        /// Number of spans.
        spans: usize,
    },
    /// A number is infinite or not a number.
    NotFinite {
        /// Index of the node.
        node: usize,
    },
    /// A tip does not lie on the centreline.
    OpenTip {
        /// Index of the node.
        node: usize,
        /// Its distance from the centreline, mm.
        off: f64,
    },
    /// A twin's first node does not lie amidships.
    OffAmidships {
        /// Its station, mm.
        x: f64,
    },
    /// Two neighbouring nodes lie on one another.
    NodesTogether {
        /// Index of the first.
        node: usize,
    },
    /// A handle is too short to give a direction.
    ShortHandle {
        /// Index of the span.
        span: usize,
        /// Its length, mm.
        length: f64,
    },
    /// No batten runs through the pins from a node on.
    Batten {
        /// Index of the node the batten begins at.
        node: usize,
        /// Why, with the pin counted from there.
        error: BattenError,
    },
    /// There are too many sweeps, or legs of all of them.
    Sweeps {
        /// How many sweeps.
        sweeps: usize,
        /// How many legs.
        legs: usize,
    },
    /// A span is laid by a sweep that is not there.
    NoSweep {
        /// Index of the span.
        span: usize,
    },
    /// The two marks of a laid span do not lie on its sweep, one after the other.
    Marks {
        /// Index of the span.
        span: usize,
        /// The length of the sweep, mm.
        length: f64,
    },
    /// The nodes of a laid span are not as far apart as its marks.
    Stretched {
        /// Index of the span.
        span: usize,
        /// By how much, mm.
        by: f64,
    },
    /// A stretch has too many pins to be faired in one go.
    LongStretch {
        /// How many.
        pins: usize,
        /// The most that can be.
        most: usize,
    },
    /// The half outline comes to or past the centreline between its tips.
    PastCentreline {
        /// Where.
        at: Point,
    },
    /// The outline crosses or touches itself.
    SelfCrossing {
        /// Where.
        at: Point,
    },
    /// A bolt hole is not wholly inside the outline.
    HoleOutside {
        /// Centre of the hole.
        at: Point,
    },
}

/// Checks a chain on its datum and gives the resolved half of a good one.
///
/// # Errors
///
/// The first [`Fault`] found, form before geometry.
pub fn check(outline: &Outline, datum: &Datum) -> Result<Half, Fault> {
    check_form(outline)?;
    let bends = |s: &usize| !matches!(outline.spans[*s], Span::Batten { .. }) || outline.spiral(*s).is_some();
    if let Some(node) = (0..outline.spans.len()).find(|s| !bends(s)) {
        return Err(Fault::Batten { node, error: BattenError::Folds { pin: 0 } });
    }
    let half = outline.resolve();
    if let Some(at) = past_centreline(&half) {
        return Err(Fault::PastCentreline { at });
    }
    if let Some(at) = self_crossing(&half) {
        return Err(Fault::SelfCrossing { at });
    }
    let holes = datum.holes();
    match holes.iter().find(|hole| hole.y > 0.0 && !holds_hole(&half, **hole, datum)) {
        Some(&at) => Err(Fault::HoleOutside { at }),
        None => Ok(half),
    }
}

/// Checks what can be said of a chain without its curve: counts, finite numbers, tips, gaps, handles.
pub(crate) fn check_form(outline: &Outline) -> Result<(), Fault> {
    let (nodes, spans) = (outline.nodes.len(), outline.spans.len());
    if !(Outline::FEWEST_NODES..=Outline::MOST_NODES).contains(&nodes) {
        return Err(Fault::NodeCount(nodes));
    }
    if spans + 1 != nodes {
        return Err(Fault::SpanCount { nodes, spans });
    }
    for (i, node) in outline.nodes.iter().enumerate() {
        let angle_is_finite = !matches!(node.joint, super::Joint::Smooth(a) if !a.is_finite());
        if !node.place.is_finite() || !angle_is_finite {
            return Err(Fault::NotFinite { node: i });
        }
        if outline.is_tip(i) && units::whole_nm(node.place.y) != 0.0 {
            return Err(Fault::OpenTip { node: i, off: node.place.y });
        }
        if outline.is_amidships(i) && units::whole_nm(node.place.x) != 0.0 {
            return Err(Fault::OffAmidships { x: node.place.x });
        }
        let next = outline.nodes.get(i + 1);
        if next.is_some_and(|n| (n.place - node.place).hypot2() < tolerance::NODE_GAP.powi(2)) {
            return Err(Fault::NodesTogether { node: i });
        }
    }
    let (sweeps, legs) = (outline.sweeps.len(), outline.sweeps.iter().map(Sweep::legs).sum());
    if sweeps > Sweep::MOST || legs > Sweep::MOST_LEGS {
        return Err(Fault::Sweeps { sweeps, legs });
    }
    (0..spans).try_for_each(|span| check_laid(outline, span))?;
    outline.spans.iter().enumerate().try_for_each(|(span, kind)| check_handles(span, kind))
}

fn check_laid(outline: &Outline, span: usize) -> Result<(), Fault> {
    let Span::Laid { sweep, from, to, .. } = outline.spans[span] else { return Ok(()) };
    let length = outline.sweeps.get(sweep).ok_or(Fault::NoSweep { span })?.length();
    let lie_on_it = from >= 0.0 && to <= length && to - from >= tolerance::NODE_GAP; // not so for NaN
    if !lie_on_it {
        return Err(Fault::Marks { span, length });
    }
    let by = outline.stretched_by(span);
    if by <= tolerance::RIGID { Ok(()) } else { Err(Fault::Stretched { span, by }) }
}

fn check_handles(span: usize, kind: &Span) -> Result<(), Fault> {
    if let Span::Batten { start, end } = *kind
        && let Some(node) = [(start, span), (end, span + 1)]
            .into_iter()
            .find_map(|(lean, node)| lean.is_some_and(|angle| !angle.is_finite()).then_some(node))
    {
        return Err(Fault::NotFinite { node });
    }
    let Span::Cubic { start, end } = *kind else { return Ok(()) };
    for (handle, node) in [(start, span), (end, span + 1)] {
        let length = match handle {
            Handle::Along(length) => length,
            Handle::Free(offset) => offset.hypot2().sqrt(),
        };
        if !length.is_finite() {
            return Err(Fault::NotFinite { node });
        }
        if length < Outline::SHORTEST_HANDLE {
            return Err(Fault::ShortHandle { span, length });
        }
    }
    Ok(())
}

/// A place between the tips where the half outline has y ≤ 0.
fn past_centreline(half: &Half) -> Option<Point> {
    let last = half.pieces().len() - 1;
    half.pieces().iter().enumerate().find_map(|(i, piece)| {
        monotone_parts(&piece.curve).find_map(|(a, b, part)| {
            let (at_tail_tip, at_nose_tip) = (i == 0 && a == 0.0, i == last && b >= 1.0);
            let starts_low = !at_tail_tip && part.p0.y <= 0.0;
            let ends_low = !at_nose_tip && part.p3.y <= 0.0;
            if starts_low {
                Some(part.p0)
            } else if ends_low || (at_tail_tip && at_nose_tip) {
                Some(part.p3)
            } else {
                None
            }
        })
    })
}

/// Whether a hole lies wholly inside the outline.
fn holds_hole(half: &Half, hole: Point, datum: &Datum) -> bool {
    let radius = datum.hole_diameter / 2.0;
    let mut inside = false;
    for piece in half.pieces() {
        for (_, _, part) in monotone_parts(&piece.curve) {
            // A ray from the hole toward the rail crosses the half outline an odd number of times.
            let spans_x = (part.p0.x <= hole.x) != (part.p3.x <= hole.x);
            let low = part.p0.y.min(part.p3.y);
            let high = part.p0.y.max(part.p3.y);
            if spans_x && high > hole.y && (low > hole.y || height_at(&part, hole.x) > hole.y) {
                inside = !inside;
            }
            let dx = (part.p0.x.min(part.p3.x) - hole.x).max(hole.x - part.p0.x.max(part.p3.x)).max(0.0);
            let dy = (low - hole.y).max(hole.y - high).max(0.0);
            let may_touch = dx * dx + dy * dy <= radius * radius;
            if may_touch && nearest(&part, hole).1 <= radius * radius {
                return false;
            }
        }
    }
    inside
}

/// Height of a monotone part at station `x`.
fn height_at(part: &CubicBez, x: f64) -> f64 {
    let [c0, c1, c2, c3] = coefficients(part).map(|c| c.x);
    part.eval(monotone_cubic_root([c0 - x, c1, c2, c3], 0.0, 1.0)).y
}

impl Words for Fault {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        let length = |mm: f64| show(mm, Unit::Length, system);
        let fine = |mm: f64| show(mm, Unit::Thickness, system);
        let place =
            |at: &Point| say!("{along} along, {across} across", along = length(at.x), across = length(at.y));
        match self {
            Self::NodeCount(found) => {
                say!(in f, "the outline has {found} nodes: draw it with {fewest} to {most}", found, fewest = Outline::FEWEST_NODES, most = Outline::MOST_NODES)
            }
            Self::SpanCount { nodes, spans } => {
                say!(in f, "{nodes} nodes need {needed} spans between them, not {spans}", nodes, needed = nodes.saturating_sub(1), spans)
            }
            Self::NotFinite { node } => {
                say!(in f, "node {node} has a number that is not finite", node = node + 1)
            }
            Self::OpenTip { node, off } => {
                say!(in f, "the tip (node {node}) lies {off} off the centreline: put it at 0 across, or the halves stay open", node = node + 1, off = fine(*off))
            }
            Self::OffAmidships { x } => {
                say!(in f, "a twin's first node lies at {x} along: put it at 0, where the halves mirror", x = fine(*x))
            }
            Self::NodesTogether { node } => {
                say!(in f, "nodes {node} and {next} lie on one another: move one away or delete it", node = node + 1, next = node + 2)
            }
            Self::ShortHandle { span, length } => {
                say!(in f, "a handle of span {span} is {length} long: at least {least}", span = span + 1, length = fine(*length), least = fine(Outline::SHORTEST_HANDLE))
            }
            Self::PastCentreline { at } => {
                say!(in f, "the edge would cross the centreline at {place}: keep it on its own half", place = place(at))
            }
            Self::SelfCrossing { at } => {
                say!(in f, "the edge would cross itself at {place}: open it up there", place = place(at))
            }
            Self::Batten { node, error } => say!(in f, "from node {node} on {error}", node = node + 1, error),
            Self::Sweeps { sweeps, legs } => {
                say!(in f, "{sweeps} sweeps of {legs} pieces together: keep at most {most} of {most_legs}, take some away first", sweeps, legs, most = Sweep::MOST, most_legs = Sweep::MOST_LEGS)
            }
            Self::NoSweep { span } => {
                say!(in f, "span {span} is laid by a sweep that is not there", span = span + 1)
            }
            Self::Marks { span, length: whole } => {
                say!(in f, "the marks of span {span} do not lie one after the other on its sweep, which is {whole} long", span = span + 1, whole = length(*whole))
            }
            Self::Stretched { span, by } => {
                say!(in f, "the sweep laid on span {span} would have to stretch by {by}: move all of it, or set it free first", span = span + 1, by = fine(*by))
            }
            Self::LongStretch { pins, most } => {
                say!(in f, "the stretch has {pins} pins: fair at most {most} at a time, or draw it anew", pins, most)
            }
            Self::HoleOutside { at } => {
                say!(in f, "the bolt hole at {place} would lie outside the edge: keep the edge beyond it", place = place(at))
            }
        }
    }
}

error_with_words!(Fault);
