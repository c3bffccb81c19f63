//! The glue's clock: how much of its open and closed time the bench takes.
//!
//! A line is *open* from spreading until it is covered, then *closed* until the press holds it. The two share one budget
//! in proportion: a third of the open time used leaves two thirds of the closed (a published data sheet for resorcinol
//! glue, read in a manual).

/// Times of a glue and of a bench, minutes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clock {
    /// Longest a spread line may lie open.
    pub open: f64,
    /// Longest from spreading to pressing (total assembly time).
    pub total: f64,
    /// What the bench takes for one line: spread it and lay the next ply on.
    pub per_line: f64,
    /// What closing the press takes after the last ply.
    pub closing: f64,
}

/// One glue line on the bench, minutes from the first touch of glue.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Its number, 1 the first laid.
    pub number: usize,
    /// Spreading begins.
    pub spread: f64,
    /// It is covered by the next ply.
    pub covered: f64,
    /// The press holds it.
    pub pressed: f64,
    /// The latest the press may hold it.
    pub latest: f64,
    /// Share of its budget that is used when the press holds it; above 1 it is too late.
    pub used: f64,
}

impl Clock {
    /// Closed time left, minutes, after a line lay open for `open` minutes; never below 0.
    #[must_use]
    pub fn closed_left(&self, open: f64) -> f64 {
        (self.total * (1.0 - open / self.open)).max(0.0)
    }

    /// Every line of a stack on the bench, the first laid first.
    #[must_use]
    pub fn timeline(&self, lines: usize) -> Vec<Line> {
        let pressed = self.pressed(lines);
        let line = |i: usize| {
            let spread = i as f64 * self.per_line;
            let covered = spread + self.per_line;
            Line {
                number: i + 1,
                spread,
                covered,
                pressed,
                latest: covered + self.closed_left(self.per_line),
                used: self.per_line / self.open + (pressed - covered) / self.total,
            }
        };
        (0..lines).map(line).collect()
    }

    /// When the press holds a stack of so many lines, minutes from the first touch of glue.
    #[must_use]
    pub fn pressed(&self, lines: usize) -> f64 {
        lines as f64 * self.per_line + self.closing
    }

    /// Share of the budget that the first line uses, the worst of all; 0 without a line. Above 1 the glue skins over
    /// before the press is closed.
    #[must_use]
    pub fn used_share(&self, lines: usize) -> f64 {
        if lines == 0 {
            return 0.0;
        }
        let closed = (lines - 1) as f64 * self.per_line + self.closing;
        self.per_line / self.open + closed / self.total
    }

    /// The slowest pace, minutes per line, at which the first line still keeps to its budget; `None` where closing alone
    /// takes too long.
    #[must_use]
    pub fn slowest_pace(&self, lines: usize) -> Option<f64> {
        let left = 1.0 - self.closing / self.total;
        let rate = 1.0 / self.open + lines.saturating_sub(1) as f64 / self.total;
        (lines > 0 && left > 0.0).then(|| left / rate)
    }
}
