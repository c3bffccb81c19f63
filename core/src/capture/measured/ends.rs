//! The two ends of a measured edge: where its tips lie, and how it meets the centreline there.

use super::{Mark, MeasuredError, Options, options::From};
use crate::{curve::batten::End, design::Shape};
use core::f64::consts::FRAC_PI_2;
use kurbo::Point;

/// Least and most that a tip which was not measured is first sought beyond the last station, in half-breadths there.
const REACH: (f64, f64) = (0.1, 1.5);

/// The tail's end and the nose's.
#[derive(Clone, Debug)]
pub(super) struct Ends {
    /// Where the edge begins and ends: a tip, or the corner of a blunt end.
    places: [Point; 2],
    /// Whether that place was measured.
    known: [bool; 2],
    /// Whether the end is cut straight across, from the centreline to a corner.
    pub(super) blunt: [bool; 2],
}

impl Ends {
    /// Takes what is said of the ends out of the marks, which are in order: a tip's breadth of nothing, or a blunt end's.
    pub(super) fn of(marks: &mut Vec<Mark>, options: &Options, shape: &Shape) -> Result<Self, MeasuredError> {
        let tip = options.tip(shape).map(|x| options.place_of_tip(x, shape));
        let mut ends = Self { places: [Point::ORIGIN; 2], known: [false; 2], blunt: [false; 2] };
        for (end, from) in [(0, From::TailTip), (1, From::NoseTip)] {
            let tip = tip.filter(|_| options.from == from);
            let Some(&outermost) = (if end == 0 { marks.first() } else { marks.last() }) else { break };
            if let Some(tip) = tip {
                let beyond = if end == 0 { tip - outermost.at.x } else { outermost.at.x - tip };
                if beyond > crate::tolerance::NODE_GAP {
                    return Err(MeasuredError::BeyondTip { line: outermost.line });
                }
            }
            let at_tip = tip.is_some_and(|tip| (tip - outermost.at.x).abs() <= crate::tolerance::NODE_GAP);
            if outermost.at.y == 0.0 || at_tip {
                ends.places[end] = outermost.at;
                ends.known[end] = true;
                ends.blunt[end] = outermost.at.y > 0.0;
                if end == 0 {
                    marks.remove(0);
                } else {
                    marks.pop();
                }
            } else if let Some(tip) = tip {
                ends.places[end] = Point::new(tip, 0.0);
                ends.known[end] = true;
            }
        }
        if let Some(mark) = marks.iter().find(|mark| mark.at.y == 0.0) {
            return Err(MeasuredError::NothingBetween { line: mark.line });
        }
        if let [first, second, .., before, last] = marks.as_slice() {
            for (end, outer, inner) in [(0, first, second), (1, last, before)] {
                if !ends.known[end] {
                    ends.places[end] = sought(outer.at, inner.at);
                }
            }
        }
        Ok(ends)
    }

    pub(super) fn first(&self) -> Point {
        self.places[0]
    }

    pub(super) fn last(&self) -> Point {
        self.places[1]
    }

    /// Square to the centreline at a tip, free at the corner of a blunt end.
    pub(super) fn clamps(&self) -> [End; 2] {
        let clamp = |end: usize, angle| if self.blunt[end] { End::Free } else { End::Tangent(angle) };
        [clamp(0, FRAC_PI_2), clamp(1, -FRAC_PI_2)]
    }

    pub(super) fn slides(&self) -> [bool; 2] {
        self.known.map(|known| !known)
    }
}

/// Where an ellipse through the last two stations, as long as it takes, meets the centreline: its square of the breadth
/// falls evenly near the tip.
fn sought(outer: Point, inner: Point) -> Point {
    let (along, fall) = (outer.x - inner.x, inner.y * inner.y - outer.y * outer.y);
    let reach = if fall > 0.0 { outer.y * outer.y * along.abs() / fall } else { outer.y };
    let reach = crate::real::clamp(reach, REACH.0 * outer.y, REACH.1 * outer.y);
    Point::new(outer.x + reach.copysign(along), 0.0)
}
