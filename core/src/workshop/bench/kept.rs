//! A session as a line of text, so that it goes on after the page was closed.

use super::{Clock, Plan, Session, Spread, laying_order};
use crate::layup::{Grain, Layup, Ply};

/// First word of the line: the version of what follows.
const VERSION: &str = "bench-1";

/// Most plies that are read: what a layup may have.
fn is_count(count: usize) -> bool {
    Layup::PLY_COUNT.contains(&count)
}

impl Session {
    /// The line.
    #[must_use]
    pub fn kept(&self) -> String {
        let Plan { order, clock, press_time } = &self.plan;
        let numbers = [clock.open, clock.total, clock.per_line, clock.closing, *press_time];
        let mut words = vec![VERSION.to_owned(), text(self.started / 1000.0)];
        words.extend(numbers.map(text));
        let both = order.iter().any(|laid| matches!(laid.spread, Spread::Both | Spread::Lower));
        words.push(
            [if self.plan.is_top_first() { 'T' } else { 'B' }, if both { '2' } else { '1' }].iter().collect(),
        );
        words.push(order.iter().map(|laid| if laid.grain == Grain::Along { 'L' } else { 'X' }).collect());
        words.push(self.held.map_or("-".to_owned(), |step| step.to_string()));
        words.extend(self.ended.iter().map(|end| end.map_or("-".to_owned(), text)));
        words.join(" ")
    }

    /// The session of a line; none where the line is none that [`Session::kept`] writes.
    #[must_use]
    pub fn resumed(line: &str) -> Option<Self> {
        let mut words = line.split(' ');
        if words.next()? != VERSION {
            return None;
        }
        let mut numbers = [0.0; 6];
        for number in &mut numbers {
            *number = read(words.next()?)?;
        }
        let [started, open, total, per_line, closing, press_time] = numbers;
        if numbers.iter().any(|number| *number < 0.0) || open <= 0.0 || total <= 0.0 {
            return None;
        }
        let (top_first, both_faces) = match words.next()? {
            "T1" => (true, false),
            "T2" => (true, true),
            "B1" => (false, false),
            "B2" => (false, true),
            _ => return None,
        };
        let grains = words.next()?;
        let mut layup = Layup::default();
        let usual = layup.plies[0].clone();
        layup.plies.clear();
        for letter in grains.chars() {
            let grain = match letter {
                'L' => Grain::Along,
                'X' => Grain::Across,
                _ => return None,
            };
            layup.plies.push(Ply { grain, ..usual.clone() });
        }
        if !is_count(layup.plies.len()) {
            return None;
        }
        if !top_first {
            layup.plies.reverse(); // the order as laid begins with the last ply of the stack
        }
        let clock = Clock { open, total, per_line, closing };
        let order = laying_order(&layup, top_first, both_faces);
        let mut session = Self::start(Plan { order, clock, press_time }, (started * 1000.0).round());
        let held = words.next()?;
        if held != "-" {
            session.held = Some(held.parse().ok().filter(|step| *step <= session.plan.lines())?);
        }
        let mut last = 0.0;
        for end in &mut session.ended {
            let word = words.next()?;
            if word != "-" {
                let found = read(word).filter(|found| *found >= last)?;
                last = found;
                *end = Some(found);
            }
        }
        words.next().is_none().then_some(session)
    }
}

/// Minutes and seconds need no more than thousandths; whole ones, since reading decimals of any kind takes kilobytes.
#[expect(clippy::cast_possible_truncation, reason = "whole thousandths of any time have room")]
fn text(value: f64) -> String {
    ((value * 1000.0).round() as i64).to_string()
}

fn read(word: &str) -> Option<f64> {
    let thousandths: i64 = word.parse().ok()?;
    Some(thousandths as f64 / 1000.0)
}
