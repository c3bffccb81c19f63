//! Straight rails and the waists between them.

use super::Envelope;
use crate::order::sort_by_number;
use kurbo::Point;

/// A stretch of edge that one can stand on with the board on its side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RailRun {
    /// Its tailward end, a station in mm.
    pub from: f64,
    /// Its noseward end, a station in mm.
    pub to: f64,
    /// The highest point it lies round.
    pub top: Point,
}

/// A narrowing between two straight rails.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Waist {
    /// The narrowest point.
    pub at: Point,
    /// How far it lies below the lower of the highest edges on both sides, mm.
    pub depth: f64,
    /// The tailward end of the waist: where the straight rail aft of it ends, a station in mm.
    pub from: f64,
    /// The noseward end of the waist, a station in mm.
    pub to: f64,
}

impl RailRun {
    /// Its length along the board, mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.to - self.from
    }
}

impl Waist {
    /// Full width there, mm.
    #[must_use]
    pub fn width(&self) -> f64 {
        2.0 * self.at.y
    }

    /// Distance between the facing ends of the straight rails beside it, mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.to - self.from
    }
}

/// For each highest point that stands out by more than `tolerance` mm, the widest interval round it in which the edge
/// stays within the tolerance of it; nose to tail.
pub(super) fn rail_runs(envelope: &Envelope, tolerance: f64) -> Vec<RailRun> {
    let turns = turning_points(envelope);
    let mut tops: Vec<usize> = (0..turns.len()).filter(|&i| is_top(&turns, i)).collect();
    sort_by_number(&mut tops, |&i| -turns[i].y);
    let mut runs: Vec<RailRun> = Vec::new();
    for i in tops {
        let top = turns[i];
        let taken = runs.iter().any(|run| (run.from..=run.to).contains(&top.x));
        if !taken && prominence(&turns, i) > tolerance {
            runs.push(run_round(envelope, top, tolerance));
        }
    }
    sort_by_number(&mut runs, |run| -run.from);
    runs
}

/// The narrowest place between each two neighbouring runs, where it is deeper than `tolerance` mm; deepest first.
pub(super) fn waists(envelope: &Envelope, runs: &[RailRun], tolerance: f64) -> Vec<Waist> {
    if runs.len() < 2 {
        return Vec::new();
    }
    let turns = turning_points(envelope);
    let highest =
        |side: &dyn Fn(&Point) -> bool| turns.iter().filter(|p| side(p)).map(|p| p.y).fold(0.0, f64::max);
    let mut waists: Vec<Waist> = Vec::new();
    for pair in runs.windows(2) {
        let (from, to) = (pair[1].to, pair[0].from);
        let between = turns.iter().filter(|p| from < p.x && p.x < to);
        let Some(&at) = between.min_by(|a, b| a.y.total_cmp(&b.y)) else { continue };
        let rim = highest(&|p| p.x >= at.x).min(highest(&|p| p.x <= at.x));
        let depth = rim - at.y;
        if depth > tolerance {
            waists.push(Waist { at, depth, from, to });
        }
    }
    sort_by_number(&mut waists, |waist| waist.at.x.abs()); // the order of equally deep ones
    sort_by_number(&mut waists, |waist| -waist.depth);
    waists
}

/// The ends of all stretches, tail to nose: between two the half-breadth is monotone or jumps.
fn turning_points(envelope: &Envelope) -> Vec<Point> {
    envelope.stretches().iter().flat_map(|s| [s.start, s.end]).collect()
}

/// Whether no neighbour is higher.
fn is_top(turns: &[Point], i: usize) -> bool {
    let beside = [i.checked_sub(1).map(|j| turns[j]), turns.get(i + 1).copied()];
    beside.into_iter().flatten().all(|p| p.y <= turns[i].y)
}

/// How far point `i` stands above the higher of the two lowest places one must cross to reach higher ground. Beyond
/// the ends of the board there is nothing, so the highest point stands out by its whole height.
fn prominence(turns: &[Point], i: usize) -> f64 {
    let top = turns[i].y;
    let pass = |side: &mut dyn Iterator<Item = &Point>| {
        let mut lowest = top;
        for p in side {
            if p.y > top {
                return lowest;
            }
            lowest = lowest.min(p.y);
        }
        0.0
    };
    let tailward = pass(&mut turns[..i].iter().rev());
    let noseward = pass(&mut turns[i + 1..].iter());
    top - tailward.max(noseward)
}

fn run_round(envelope: &Envelope, top: Point, tolerance: f64) -> RailRun {
    let floor = top.y - tolerance;
    let (mut from, mut to) = (top.x, top.x);
    for s in envelope.stretches().iter().filter(|s| s.end.x > top.x) {
        if s.start.y < floor {
            break;
        }
        to = if s.end.y < floor { s.station_at(floor) } else { s.end.x };
        if s.end.y < floor {
            break;
        }
    }
    for s in envelope.stretches().iter().rev().filter(|s| s.start.x < top.x) {
        if s.end.y < floor {
            break;
        }
        from = if s.start.y < floor { s.station_at(floor) } else { s.start.x };
        if s.start.y < floor {
            break;
        }
    }
    RailRun { from, to, top }
}
