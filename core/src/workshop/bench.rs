//! The bench timer: what to do now with glue on the hands, what comes next, and how long the glue still waits.
//!
//! A [`Plan`] is the laying order at the glue's clock: one step a line (spread it, lay the next ply on), then closing the
//! press, then waiting. A [`Session`] is a plan under way: it goes on by itself at the pace, or as far as the maker says that
//! a step took longer or less. There is no clock here: what time it is comes in, milliseconds of the Unix epoch.

mod board;
mod kept;
mod words;

use super::{
    assembly::Clock,
    glue::Basis,
    inputs::Glue,
    order::{Laid, Spread, laying_order},
};
use crate::layup::Layup;

pub use self::{
    board::{Board, Cue},
    words::{span, wall_clock},
};

/// What is done in the press of one deck.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The plies as they are laid.
    pub order: Vec<Laid>,
    /// The glue's clock, minutes.
    pub clock: Clock,
    /// Time in the press, minutes.
    pub press_time: f64,
}

/// One step at the bench, seconds from the first touch of glue.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is done.
    pub work: Work,
    /// It begins.
    pub from: f64,
    /// It ends, as it did or as planned; a step that is held has no end.
    pub to: f64,
}

/// What is done in a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Work {
    /// A line is spread, and the next ply laid on it.
    Lay {
        /// The ply that lies on top.
        under: Laid,
        /// The ply that is laid on it.
        over: Laid,
    },
    /// The press is closed.
    Close {
        /// Whether the stack lies head down and is turned before.
        turn: bool,
    },
    /// The glue cures in the press.
    Press,
}

/// A plan under way.
#[derive(Clone, Debug, PartialEq)]
pub struct Session {
    /// What is done.
    pub plan: Plan,
    /// When the countdown began, ms of the Unix epoch.
    pub started: f64,
    /// When each step ended that the maker ended, seconds from the first touch of glue, by its place in the plan.
    ended: Vec<Option<f64>>,
    /// The step that does not end by itself.
    held: Option<usize>,
}

/// Where a session stands at a moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// How far it is.
    pub phase: Phase,
    /// Which step is under way, by its place in the plan: of the countdown the first.
    pub step: usize,
    /// Seconds left of the countdown, the step, or the press; below 0 where a step that is held is over its time.
    pub left: f64,
    /// Seconds that the line that lies open may still do so; none where none does.
    pub open_left: Option<f64>,
    /// Seconds until the stack must be pressed: the first of its lines to have used its budget, the open one covered as
    /// planned. Below 0 where it is too late. None once it is pressed, and before a line is spread.
    pub assembly_left: Option<f64>,
    /// Largest share of its budget that a line has used by now, or had used when it was pressed.
    pub used: f64,
}

/// How far a session is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// Hands are made ready.
    Countdown,
    /// Lines are spread and plies laid.
    Lay,
    /// The press is being closed.
    Close,
    /// The glue cures.
    Press,
    /// The press may be opened.
    Open,
}

/// Seconds from the tap to the first touch of glue.
pub const COUNTDOWN: f64 = 10.0;

const MINUTE: f64 = 60.0;

/// What sums of minutes may be off by: a plan that uses all of its budget to the second is in time.
const ROUNDING: f64 = 1e-9;

impl Plan {
    /// The plan of a layup with a glue.
    #[must_use]
    pub fn of(layup: &Layup, glue: &Glue) -> Self {
        let order = laying_order(layup, glue.top_first, glue.basis == Basis::BothFaces);
        Self { order, clock: glue.clock(), press_time: glue.press_time }
    }

    /// How many lines are glued.
    #[must_use]
    pub fn lines(&self) -> usize {
        self.order.len().saturating_sub(1)
    }

    /// Whether the stack is laid head down.
    #[must_use]
    pub fn is_top_first(&self) -> bool {
        self.order.first().is_some_and(|first| first.ply == 1)
    }

    /// What is done, in order: a step a line, closing, pressing.
    #[must_use]
    pub fn works(&self) -> Vec<Work> {
        let mut works: Vec<Work> =
            self.order.windows(2).map(|pair| Work::Lay { under: pair[0], over: pair[1] }).collect();
        works.extend([Work::Close { turn: self.is_top_first() }, Work::Press]);
        works
    }

    /// Seconds planned for a step.
    #[must_use]
    pub fn planned(&self, work: Work) -> f64 {
        MINUTE
            * match work {
                Work::Lay { .. } => self.clock.per_line,
                Work::Close { .. } => self.clock.closing,
                Work::Press => self.press_time,
            }
    }
}

impl Session {
    /// A session that begins its countdown at that moment, ms.
    #[must_use]
    pub fn start(plan: Plan, now: f64) -> Self {
        let ended = vec![None; plan.lines() + 2];
        Self { plan, started: now.floor(), ended, held: None }
    }

    /// Seconds from the first touch of glue, in whole milliseconds as they are kept; below 0 in the countdown.
    #[must_use]
    pub fn seconds(&self, now: f64) -> f64 {
        ((now - self.started).round() - COUNTDOWN * 1000.0) / 1000.0
    }

    /// The moment of the Unix epoch, ms, so many seconds from the first touch of glue.
    #[must_use]
    pub fn moment(&self, seconds: f64) -> f64 {
        self.started + (seconds + COUNTDOWN) * 1000.0
    }

    /// The steps as they went and as they are to go.
    #[must_use]
    pub fn steps(&self) -> Vec<Step> {
        let mut from = 0.0;
        let mut steps = Vec::with_capacity(self.ended.len());
        for (k, work) in self.plan.works().into_iter().enumerate() {
            let to = match self.ended[k] {
                Some(to) => to,
                None if self.held == Some(k) => f64::INFINITY,
                None => from + self.plan.planned(work),
            };
            steps.push(Step { work, from, to });
            from = to;
        }
        steps
    }

    /// Whether the step under way is held.
    #[must_use]
    pub fn is_held(&self) -> bool {
        self.held.is_some()
    }

    /// When the press may be opened, ms of the Unix epoch; none while a step before is held.
    #[must_use]
    pub fn opens(&self) -> Option<f64> {
        let last = self.steps().last().map(|step| step.to)?;
        last.is_finite().then(|| self.moment(last))
    }

    /// Where the session stands.
    #[must_use]
    pub fn at(&self, now: f64) -> Moment {
        let seconds = self.seconds(now);
        let steps = self.steps();
        let last = steps.len() - 1;
        let step = steps.iter().position(|step| seconds < step.to).unwrap_or(last);
        let phase = match steps[step].work {
            _ if seconds < 0.0 => Phase::Countdown,
            Work::Lay { .. } => Phase::Lay,
            Work::Close { .. } => Phase::Close,
            Work::Press if seconds < steps[step].to => Phase::Press,
            Work::Press => Phase::Open,
        };
        let left = match phase {
            Phase::Countdown => -seconds,
            // A step that is held counts on past its time.
            _ if self.held == Some(step) => steps[step].from + self.plan.planned(steps[step].work) - seconds,
            _ => (steps[step].to - seconds).max(0.0),
        };
        let mut moment = Moment { phase, step, left, open_left: None, assembly_left: None, used: 0.0 };
        let pressed = steps[last].from;
        let (open, total) = (self.plan.clock.open * MINUTE, self.plan.clock.total * MINUTE);
        for line in &steps[..self.plan.lines()] {
            if seconds < line.from {
                break;
            }
            let covered = seconds.min(line.to);
            let closed = (seconds.min(pressed) - line.to).max(0.0);
            let used = (covered - line.from) / open + closed / total;
            moment.used = moment.used.max(used);
            if seconds < pressed {
                // A line that is held may be covered now.
                let to = if line.to.is_finite() { line.to } else { seconds };
                let latest = to + total * (1.0 - (to - line.from) / open);
                let left = latest - seconds;
                moment.assembly_left = Some(moment.assembly_left.map_or(left, |least| least.min(left)));
                if seconds < line.to {
                    moment.open_left = Some(open - (seconds - line.from));
                }
            }
        }
        moment
    }

    /// The step under way is done: the next begins. Nothing in the countdown and in the press.
    pub fn next(&mut self, now: f64) {
        let at = self.at(now);
        if matches!(at.phase, Phase::Lay | Phase::Close) {
            self.held = None;
            self.ended[at.step] = Some(self.seconds(now));
        }
    }

    /// Holds the step under way until it is said to be done, or lets it end at its time again; one that is over its time
    /// ends now. The glue does not wait.
    pub fn hold(&mut self, now: f64) {
        let at = self.at(now);
        if self.held.is_some() {
            if at.left < 0.0 {
                self.next(now);
            }
            self.held = None;
        } else if matches!(at.phase, Phase::Lay | Phase::Close) {
            self.held = Some(at.step);
        }
    }
}

impl Moment {
    /// Whether the glue has waited longer than its budget.
    #[must_use]
    pub fn is_late(&self) -> bool {
        self.used > 1.0 + ROUNDING
    }
}

#[cfg(test)]
mod tests;
