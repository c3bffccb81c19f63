//! The change that each settable quantity owns, planned for one shape: which stations move, and how strongly.

use super::{
    blend::{Blend, Knot},
    flow::{Flow, Part, Weight},
    side::{Side, brow},
};
use crate::{
    design::Shape,
    measure::{Measured, RailRun},
    outline::resolve::extent,
    real,
};
use kurbo::ParamCurve;

/// A family of changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Family {
    /// Both ends move, equally, beyond their outer bolt rows.
    Length,
    /// Half-breadths scale between the shoulders; beyond them less and less, not at the tips.
    Width,
    /// A bump of the half-breadth between the tops of the straight rails, none with its slope and bend at both ends.
    WaistWidth,
    /// The waist stretches along the board; the far ends of the straight rails beside it stay.
    WaistLength,
    /// A straight rail stretches along the board; beside a waist only away from it.
    RailRun(Side),
    /// What lies beyond the bend line moves: the side stretches up to the shoulder, the tip moves as it is.
    KickLength(Side),
    /// The side turns about the bend line, and beyond it the half-breadths shrink or grow to the tip.
    Taper(Side),
    /// Half-breadths scale at the tip, less and less up to the shoulder.
    TipRadius(Side),
    /// The bolt rows move, and with them the bend lines.
    Wheelbase,
}

/// What a family does on one shape.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Plan {
    /// What moves with the amount.
    pub(super) moves: Moves,
    /// Stations at which the chain needs a node first, so that what must stay does and what must move can.
    pub(super) nodes_at: Vec<f64>,
}

/// What moves with the amount of a change.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Moves {
    /// The outline.
    Outline(Flow),
    /// The bolt rows: the wheelbase grows by the amount.
    Wheelbase,
}

/// A node this near to a station, in mm, is at it: a span so short between two would show as a dent.
const NEAR: f64 = 2.0;
/// Of the highest edge of a straight rail, all within this, mm, is its top.
const LEVEL: f64 = 1e-5;
/// A node beyond a seam within this share of the kick's length takes its place.
const SEAM_REACH: f64 = 1.0 / 8.0;
/// Slope, over its whole width, with which a fading stretch may begin; more would overshoot.
const STEEPEST_FADE: f64 = 1.2;

impl Family {
    /// The plan for a shape; `None` where what would move is not there.
    pub(super) fn plan(self, shape: &Shape, measured: &Measured) -> Option<Plan> {
        let mut site = Site { shape, measured, nodes_at: Vec::new() };
        let moves = match self {
            Self::Wheelbase => Moves::Wheelbase,
            Self::Length => {
                let row = shape.datum.outer_row();
                let parts = [Side::Nose, Side::Tail].map(|side| site.lengthened(side, row));
                site.along(parts.into())
            }
            Self::KickLength(side) => {
                let part = site.lengthened(side, side.end(measured).reference);
                site.along(vec![part])
            }
            Self::Width => site.widened(),
            Self::WaistWidth => site.waist_bump()?,
            Self::WaistLength => site.waist_stretch()?,
            Self::RailRun(side) => site.run_stretch(side)?,
            Self::Taper(side) => site.turned(side),
            Self::TipRadius(side) => site.rounded(side),
        };
        Some(Plan { moves, nodes_at: site.nodes_at })
    }
}

impl Family {
    /// Whether it changes what a waist or a straight rail is measured by.
    pub(super) const fn is_of_rails(self) -> bool {
        matches!(self, Self::WaistWidth | Self::WaistLength | Self::RailRun(_))
    }
}

/// A shape at which a change is planned.
struct Site<'a> {
    shape: &'a Shape,
    measured: &'a Measured,
    nodes_at: Vec<f64>,
}

impl Site<'_> {
    fn along(&self, parts: Vec<Part>) -> Moves {
        Moves::Outline(Flow::Along(self.mirrored(parts)))
    }

    fn across(&self, parts: Vec<Part>, at: f64) -> Moves {
        Moves::Outline(Flow::Across { parts: self.mirrored(parts), at })
    }

    /// What moves one half of a twin moves the other.
    fn mirrored(&self, mut parts: Vec<Part>) -> Vec<Part> {
        if self.shape.outline.twin {
            let mirror: Vec<Part> =
                parts.iter().map(|part| Part { sign: -part.sign, ..part.clone() }).collect();
            parts.extend(mirror);
        }
        parts
    }

    /// Moves an end outward from station `from` on: none there with slope and bend, all at the shoulder, so that the
    /// tip moves as it is.
    fn lengthened(&mut self, side: Side, from: f64) -> Part {
        let end = side.end(self.measured);
        let from = self.seam(side, from);
        // A shoulder close by would squeeze the whole change into a short stretch of side.
        let enough = from + (end.end.x - from) / 2.0;
        let to = end.shoulder.map(|s| s.at.x).filter(|x| *x >= enough).unwrap_or(end.end.x);
        let blend = Blend::through([Knot::level(from, 0.0), Knot::level(to, 1.0)]);
        Part { sign: side.sign(), weight: Weight::Stations(blend) }
    }

    fn widened(&self) -> Moves {
        let mut parts = vec![Part { sign: 1.0, weight: Weight::Whole }];
        parts.extend([Side::Nose, Side::Tail].map(|side| self.tip(side, -1.0)));
        self.across(parts, self.measured.envelope.largest())
    }

    fn rounded(&mut self, side: Side) -> Moves {
        let end = side.end(self.measured);
        // A kick drawn as one curve stays one: no node at its shoulder, so that its side gives way a little.
        self.node_within(side, end.reference - NEAR, brow(end).x, end.reference);
        self.across(vec![self.tip(side, 1.0)], brow(end).y)
    }

    /// A weight that acts at the tip and fades to the shoulder.
    fn tip(&self, side: Side, scale: f64) -> Part {
        let end = side.end(self.measured);
        let brow = brow(end);
        // A notch may reach back past the shoulder.
        let half = side.outward(&self.measured.half);
        let first = end.shoulder.map_or(usize::MAX, |s| s.piece);
        let beyond = half.pieces().iter().enumerate().skip(first).fold(brow.x, |least, (i, piece)| {
            let from = end.shoulder.filter(|s| s.piece == i).map_or(0.0, |s| s.t);
            least.min(extent(&piece.curve.subsegment(from..1.0)).x0)
        });
        Part { sign: side.sign(), weight: Weight::Tip { beyond, shoulder: brow.y, scale } }
    }

    fn turned(&mut self, side: Side) -> Moves {
        let end = side.end(self.measured);
        let from = self.seam(side, end.reference);
        // One cubic from the bend line to the tip cannot turn the side and leave the tip.
        let brow = brow(end).x;
        self.node_within(side, (end.reference + brow) / 2.0, end.end.x, brow);
        // 3s² − 2s³: the least bend at the bend line for a side that stays level with itself there, and at the tip
        // a scale that no longer changes.
        let bend = 6.0 / (end.end.x - from).powi(2);
        let blend = Blend::through([
            Knot { at: from, value: 0.0, slope: 0.0, bend },
            Knot { at: end.end.x, value: 1.0, slope: 0.0, bend: -bend },
        ]);
        let part = Part { sign: side.sign(), weight: Weight::Stations(blend) };
        self.across(vec![part], end.taper_rule[0].y)
    }

    fn waist_bump(&mut self) -> Option<Moves> {
        let waist = self.measured.waist()?;
        let tops = self.measured.envelope.stretches().iter().flat_map(|s| [s.start, s.end]);
        let top_beside = |run: &RailRun| {
            let level =
                tops.clone().filter(|p| (run.from..=run.to).contains(&p.x) && p.y >= run.top.y - LEVEL);
            level.map(|p| p.x).min_by(|a, b| (a - waist.at.x).abs().total_cmp(&(b - waist.at.x).abs()))
        };
        let runs = &self.measured.rail_runs;
        let from = top_beside(runs.iter().find(|run| run.to <= waist.from)?)?;
        let to = top_beside(runs.iter().rfind(|run| run.from >= waist.to)?)?;
        for station in [from, to] {
            self.node_within(Side::Nose, station - NEAR, station + NEAR, station);
        }
        // The top of the bump lies at the waist, unless that would make one side too steep.
        let sixth = (to - from) / 6.0;
        let at = real::clamp(waist.at.x, from + sixth, to - sixth);
        self.node_within(Side::Nose, at - sixth, at + sixth, at);
        let top = Knot { at, value: 1.0, slope: 0.0, bend: -6.0 / ((at - from) * (to - at)) };
        let blend = Blend::through([Knot::level(from, 0.0), top, Knot::level(to, 0.0)]);
        let part = Part { sign: 1.0, weight: Weight::Stations(blend) };
        Some(self.across(vec![part], waist.at.y))
    }

    fn waist_stretch(&mut self) -> Option<Moves> {
        let waist = self.measured.waist()?;
        let runs = &self.measured.rail_runs;
        let long = |run: &&RailRun| run.length() >= (waist.to - waist.from) / 4.0;
        let fore = runs.iter().rfind(|run| run.from >= waist.to).filter(long).map(|run| run.to);
        let aft = runs.iter().find(|run| run.to <= waist.from).filter(long).map(|run| run.from);
        let fore = fore.unwrap_or_else(|| self.fade(Side::Nose, waist.to));
        let aft = aft.unwrap_or_else(|| -self.fade(Side::Tail, -waist.from));
        self.node_within(Side::Nose, waist.at.x, fore, waist.to);
        self.node_within(Side::Nose, aft, waist.at.x, waist.from);
        Some(self.stretched(aft, waist.from, waist.to, fore))
    }

    fn run_stretch(&mut self, side: Side) -> Option<Moves> {
        let measured = self.measured;
        let run = match side {
            Side::Nose => measured.fore_run()?,
            Side::Tail => measured.aft_run()?,
        };
        if measured.rail_runs.len() == 1 {
            let fore = self.fade(Side::Nose, run.to);
            let aft = -self.fade(Side::Tail, -run.from);
            return Some(self.stretched(aft, run.from, run.to, fore));
        }
        let (from, to) = match side {
            Side::Nose => (run.from, run.to),
            Side::Tail => (-run.to, -run.from),
        };
        let fade = self.fade(side, to);
        self.node_within(side, from, fade - NEAR, to);
        let blend = Blend::through([Knot::level(from, 0.0), Knot::level(to, 1.0), Knot::level(fade, 0.0)]);
        Some(self.along(vec![Part { sign: side.sign(), weight: Weight::Stations(blend) }]))
    }

    /// Where a slide of station `x` fades out toward an end: at the bend line, so that the kick stays, or at the
    /// shoulder where the bend line is too near.
    fn fade(&mut self, side: Side, x: f64) -> f64 {
        let end = side.end(self.measured);
        let (reference, brow) = (end.reference, brow(end).x);
        if reference - x >= (brow - x) / 2.0 { self.seam(side, reference) } else { brow }
    }

    /// Slides station `from` tailward and `to` noseward, the stretch between them as evenly as it can; what lies at
    /// `aft` and `fore` stays.
    fn stretched(&self, aft: f64, from: f64, to: f64, fore: f64) -> Moves {
        let slope = |width: f64| (2.0 / (to - from)).min(STEEPEST_FADE / width);
        let blend = Blend::through([
            Knot::level(aft, 0.0),
            Knot::rising(from, -1.0, slope(from - aft)),
            Knot::rising(to, 1.0, slope(fore - to)),
            Knot::level(fore, 0.0),
        ]);
        self.along(vec![Part { sign: 1.0, weight: Weight::Stations(blend) }])
    }

    /// Where a change that must leave everything inside station `x` begins: at a node near it, or at a node to be made.
    fn seam(&mut self, side: Side, x: f64) -> f64 {
        let reach = (side.end(self.measured).end.x - x) * SEAM_REACH;
        let nodes = self.side_nodes(side).into_iter().filter(|at| (x - NEAR..=x + reach).contains(at));
        let nearest = nodes.min_by(|a, b| (a - x).abs().total_cmp(&(b - x).abs()));
        nearest.unwrap_or_else(|| {
            self.nodes_at.push(side.sign() * x);
            x
        })
    }

    /// Asks for a node at station `x` where the side has none from `least` to `most`.
    fn node_within(&mut self, side: Side, least: f64, most: f64, x: f64) {
        if !self.side_nodes(side).into_iter().any(|at| (least..=most).contains(&at)) {
            self.nodes_at.push(side.sign() * x);
        }
    }

    /// Stations of all nodes but the tips, outward, also those of the half a twin does not store.
    fn side_nodes(&self, side: Side) -> Vec<f64> {
        let outline = &self.shape.outline;
        let stored = outline.nodes.iter().enumerate().filter(|(i, _)| !outline.is_tip(*i));
        let stations = stored.map(|(_, node)| side.sign() * node.place.x);
        if outline.twin { stations.flat_map(|x| [x, -x]).collect() } else { stations.collect() }
    }
}
