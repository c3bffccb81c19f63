//! What the bench timer shows and sounds at a moment: all of it in words, so that a page has nothing to decide.

use super::{Moment, Phase, Plan, Session, Work, span, wall_clock};
use crate::{language::said, layup::Grain, say, units::decimal};

/// The timer at a moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Board {
    /// How far it is, as styles name it.
    pub phase: &'static str,
    /// What is in hand, in three words at the most.
    pub headline: String,
    /// Time left, as large as the screen allows.
    pub figure: String,
    /// What that is the time of.
    pub figure_of: &'static str,
    /// What is done now.
    pub now: String,
    /// What comes next; empty at the end.
    pub next: String,
    /// How long the line that lies open may still do so.
    pub open: String,
    /// How long the stack may still take.
    pub assembly: String,
    /// Share of the glue’s time that is used, 0 to 1 and above, and in words.
    pub used: f64,
    /// The same in words.
    pub used_words: String,
    /// What to do where the glue has waited too long; empty while there is time.
    pub late: &'static str,
    /// When the press may be opened.
    pub opens: String,
    /// Whether the step under way is held, and whether a step can be ended or held at all.
    pub held: bool,
    /// See [`Board::held`].
    pub can_step: bool,
}

/// A sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cue {
    /// One of the last three seconds of a step.
    Tick,
    /// The next step begins.
    Step,
    /// The glue has waited too long.
    Late,
    /// The press may be opened.
    Open,
}

impl Cue {
    /// Its tones one after another: frequency in Hz, 0 for a rest, and seconds. Two kilohertz are heard best across a noisy
    /// room (common practice of alarms, no source).
    #[must_use]
    pub fn tones(self) -> &'static [(f64, f64)] {
        match self {
            Self::Tick => &[(880.0, 0.08)],
            Self::Step => &[(1320.0, 0.18), (0.0, 0.06), (1980.0, 0.35)],
            Self::Late => &[
                (1980.0, 0.25),
                (0.0, 0.1),
                (990.0, 0.25),
                (0.0, 0.1),
                (1980.0, 0.25),
                (0.0, 0.1),
                (990.0, 0.4),
            ],
            Self::Open => &[(990.0, 0.25), (1320.0, 0.25), (1980.0, 0.6)],
        }
    }

    /// What sounds between two moments of a session, the most important only.
    #[must_use]
    pub fn between(before: &Moment, now: &Moment) -> Option<Self> {
        if now.is_late() && !before.is_late() {
            return Some(Self::Late);
        }
        if (now.phase, now.step) != (before.phase, before.step) {
            return Some(if now.phase == Phase::Open { Self::Open } else { Self::Step });
        }
        let counts = matches!(now.phase, Phase::Countdown | Phase::Lay | Phase::Close);
        let ticks = counts && now.left > 0.0 && now.left <= 3.0 && now.left.ceil() < before.left.ceil();
        ticks.then_some(Self::Tick)
    }
}

impl Session {
    /// The timer now, ms of the Unix epoch; `offset` tells by how many minutes the maker's clocks are ahead of UTC at a moment.
    #[must_use]
    pub fn board(&self, now: f64, offset: &dyn Fn(f64) -> f64) -> Board {
        let at = self.at(now);
        let (phase, figure_of) = match at.phase {
            Phase::Countdown => ("countdown", "until the first touch of glue"),
            Phase::Lay => ("lay", "left for this ply"),
            Phase::Close => ("close", "left to close the press"),
            Phase::Press => ("press", "left in the press"),
            Phase::Open => ("open", "the time is over"),
        };
        let clock = |left: Option<f64>| left.map_or(String::new(), span);
        let opens = self.opens().map_or_else(
            || said("on hold").to_owned(),
            |opens| wall_clock(opens, offset(opens), now, offset(now)),
        );
        Board {
            phase,
            headline: headline(&self.plan, &at),
            figure: span(at.left),
            figure_of: if at.left <= -1.0 { "over its time, held" } else { figure_of },
            now: self.now_words(&at),
            next: self.next_words(&at),
            open: clock(at.open_left),
            assembly: clock(at.assembly_left),
            used: at.used,
            used_words: [&decimal(100.0 * at.used, 0), " %"].concat(),
            late: self.late_words(&at),
            opens,
            held: self.is_held(),
            can_step: matches!(at.phase, Phase::Lay | Phase::Close),
        }
    }
}

fn headline(plan: &Plan, at: &Moment) -> String {
    match plan.works()[at.step] {
        _ if at.phase == Phase::Countdown => said("Make ready").to_owned(),
        Work::Lay { over, .. } => {
            say!(
                "Ply {ply} {grain}",
                ply = over.ply,
                grain = if over.grain == Grain::Along { "along" } else { "across" }
            )
        }
        Work::Close { .. } => said("Close the press").to_owned(),
        Work::Press if at.phase == Phase::Press => said("In the press").to_owned(),
        Work::Press => said("Open the press").to_owned(),
    }
}
