//! The bench timer in words.

use super::{Moment, Phase, Plan, Session, Spread, Work};
use crate::{
    language::{figure, said},
    layup::Grain,
    say,
};

fn grain(grain: Grain) -> &'static str {
    match grain {
        Grain::Along => "grain along",
        Grain::Across => "grain across",
    }
}

impl Work {
    /// What is done, as it is read across a bench.
    #[must_use]
    pub fn words(self) -> String {
        match self {
            Self::Lay { under, over } => {
                let spread = match over.spread {
                    Spread::Lower | Spread::Both => {
                        say!(
                            "Spread ply {under}, upper face, and ply {over}, lower face",
                            under = under.ply,
                            over = over.ply
                        )
                    }
                    _ => say!("Spread ply {ply}, upper face", ply = under.ply),
                };
                let face = if over.shows_above { ", better face up" } else { "" };
                say!(
                    "{spread}; lay ply {ply}, {grain}{face}",
                    spread,
                    ply = over.ply,
                    grain = grain(over.grain),
                    face
                )
            }
            Self::Close { turn } => {
                let turn = if turn { "Turn the stack over; close" } else { "Close" };
                say!("{turn} the press: tighten evenly, from the middle out", turn)
            }
            Self::Press => said("Leave it in the press").to_owned(),
        }
    }
}

impl Plan {
    /// What stands ready before the first touch of glue.
    #[must_use]
    pub fn ready_words(&self) -> String {
        self.order.first().map_or(String::new(), |first| {
            let place = if self.is_top_first() { "bench" } else { "mould" };
            say!(
                "Ply {ply} lies on the {place}, {grain}, better face down",
                ply = first.ply,
                place,
                grain = grain(first.grain)
            )
        })
    }

    /// What the bench will take, in a line: `6 lines at 1 min and 3 min to close: 80 % of the glue’s time`.
    #[must_use]
    pub fn words(&self) -> String {
        let [per_line, closing] =
            [self.clock.per_line, self.clock.closing].map(|m| figure(crate::units::decimal_trimmed(m, 1)));
        let used = self.clock.used_share(self.lines());
        say!(
            "{lines} lines at {per_line} min each, {closing} min to close: {used} % of the glue’s time",
            lines = self.lines(),
            per_line,
            closing,
            used = figure(crate::units::decimal(100.0 * used, 0))
        )
    }
}

impl Session {
    /// What is done now.
    #[must_use]
    pub fn now_words(&self, at: &Moment) -> String {
        match at.phase {
            Phase::Countdown => say!("Gloves on, glue open. {ready}", ready = self.plan.ready_words()),
            Phase::Open => said("The press may be opened, evenly").to_owned(),
            _ => self.plan.works()[at.step].words(),
        }
    }

    /// What comes next.
    #[must_use]
    pub fn next_words(&self, at: &Moment) -> String {
        let works = self.plan.works();
        match at.phase {
            Phase::Countdown => works[0].words(),
            Phase::Lay => works[at.step + 1].words(),
            Phase::Close | Phase::Press => said("Open the press").to_owned(),
            Phase::Open => String::new(),
        }
    }

    /// What to do about glue that has waited too long; empty while there is time.
    #[must_use]
    pub fn late_words(&self, at: &Moment) -> &'static str {
        match at.phase {
            _ if !at.is_late() => "",
            Phase::Lay | Phase::Close => {
                "Late: the first line has waited longer than its glue may. Do not press it: scrape the glue off, look \
                 at the glue’s data sheet, and spread fresh."
            }
            _ => {
                "This stack was pressed late: its first line had waited longer than its glue may. Look at the glue’s \
                 data sheet, and do not ride it untested."
            }
        }
    }
}

/// Seconds as minutes and seconds, rounded up so that 0:00 is the end: `1:05`, `−0:12`; from an hour on `23:59:07`.
#[must_use]
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to ten million")]
pub fn span(seconds: f64) -> String {
    let sign = if seconds <= -1.0 { "−" } else { "" };
    // Past the end whole seconds have gone, before it they are still to come.
    let whole = if seconds < 0.0 { (-seconds).floor() } else { seconds.ceil() };
    let whole = whole.min(1e7) as u32;
    let (hours, minutes, seconds) = (whole / 3600, whole / 60 % 60, whole % 60);
    if hours > 0 {
        format!("{sign}{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{sign}{minutes}:{seconds:02}")
    }
}

/// A moment of the Unix epoch, ms, on a wall clock that is `offset` minutes ahead of UTC there, seen from `now` on the same:
/// `today 14:05`, `tomorrow 9:30`, `Saturday 9:30`.
#[must_use]
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "days of the epoch, minutes of a day"
)]
pub fn wall_clock(moment: f64, offset: f64, now: f64, now_offset: f64) -> String {
    const DAY: f64 = 86_400.0;
    const DAYS: [&str; 7] = ["Thursday", "Friday", "Saturday", "Sunday", "Monday", "Tuesday", "Wednesday"];
    // A clock shows a minute until it is over: to open no earlier it is rounded up.
    let local = ((moment / 1000.0 + offset * 60.0) / 60.0).ceil() * 60.0;
    let (day, today) = ((local / DAY).floor(), ((now / 1000.0 + now_offset * 60.0) / DAY).floor());
    let minutes = ((local - day * DAY) / 60.0) as u32;
    let word = match (day - today) as i32 {
        0 => "today",
        1 => "tomorrow",
        // The epoch began on a Thursday.
        _ => DAYS[(day - 7.0 * (day / 7.0).floor()) as usize % 7],
    };
    [said(word), " ", &format!("{}:{:02}", minutes / 60, minutes % 60)].concat()
}
