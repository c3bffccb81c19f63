//! How a table was measured.

use super::{APART, FARTHEST, MeasuredError, NOTHING};
use crate::{
    capture::{
        develop::developed,
        table::{Fault, Row},
    },
    design::Shape,
};
use kurbo::Point;

/// Where stations are counted from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum From {
    /// Midway between the inner bolt rows, toward the nose positive.
    #[default]
    Datum,
    /// The tail's tip, toward the nose.
    TailTip,
    /// The nose's tip, toward the tail.
    NoseTip,
    /// The tail's outer bolt row, toward the nose; behind it negative.
    TailBolts,
    /// The nose's outer bolt row, toward the tail; before it negative.
    NoseBolts,
}

/// How a table was measured, and how near the edge is to come to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Options {
    /// Where stations are counted from.
    pub from: From,
    /// Whether stations and breadths were taped along the surface; else with a straight rule, as seen from above.
    pub taped: bool,
    /// Whether the whole width was measured; else half of it.
    pub full: bool,
    /// Distance of the tip that stations are counted from to the outer bolt row beside it, measured as they are, mm; else
    /// that of the shape in hand.
    pub tip_to_bolts: Option<f64>,
    /// How near the edge is to come to the measurements, mm.
    pub tolerance: f64,
}

impl Default for Options {
    /// Half-breadths taped from the datum, met to half a millimetre.
    fn default() -> Self {
        Self { from: From::Datum, taped: true, full: false, tip_to_bolts: None, tolerance: 0.5 }
    }
}

impl From {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Datum, Self::TailTip, Self::NoseTip, Self::TailBolts, Self::NoseBolts];

    /// Its name in scripts.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Datum => "datum",
            Self::TailTip => "tail-tip",
            Self::NoseTip => "nose-tip",
            Self::TailBolts => "tail-bolts",
            Self::NoseBolts => "nose-bolts",
        }
    }
}

impl Options {
    /// Least and most that the edge can be asked to come near, mm.
    pub const TOLERANCES: (f64, f64) = (0.05, 5.0);
    /// Least and most distance of a tip from the outer bolts, mm (common practice, no source).
    pub const TIPS: (f64, f64) = (10.0, 500.0);

    pub(super) fn check(&self) -> Result<(), MeasuredError> {
        let within = |mm: f64, (least, most): (f64, f64)| mm >= least && mm <= most;
        if !within(self.tolerance, Self::TOLERANCES) {
            return Err(MeasuredError::Tolerance(self.tolerance));
        }
        match self.tip_to_bolts {
            Some(mm) if !within(mm, Self::TIPS) => Err(MeasuredError::TipToBolts(mm)),
            _ => Ok(()),
        }
    }

    /// The station of the tip that stations are counted from, as measured, mm.
    pub(super) fn tip(&self, shape: &Shape) -> Option<f64> {
        let nodes = &shape.outline.nodes;
        let nose = nodes.last().map_or(0.0, |node| node.place.x);
        let (sign, in_hand) = match self.from {
            From::NoseTip => (1.0, nose),
            From::TailTip if shape.outline.twin => (-1.0, -nose),
            From::TailTip => (-1.0, nodes.first().map_or(0.0, |node| node.place.x)),
            _ => return None,
        };
        let given = self.tip_to_bolts.map(|mm| sign * (shape.datum.outer_row() + mm));
        let seen = |x: f64| if self.taped { x } else { shape.profile.side(&shape.datum, x).0.x };
        Some(given.unwrap_or_else(|| seen(in_hand)))
    }

    /// A station of a tip, as measured, on the developed sheet.
    pub(super) fn place_of_tip(&self, x: f64, shape: &Shape) -> f64 {
        let at = Point::new(x, 0.0);
        if self.taped { x } else { developed(&shape.profile, &shape.datum, at).x }
    }

    /// The place of a row on the left half of the developed sheet.
    pub(super) fn place(&self, row: &Row, shape: &Shape) -> Result<Point, Fault> {
        let outer = shape.datum.outer_row();
        let x = match (self.from, self.tip(shape)) {
            (From::TailTip, Some(tip)) => tip + row.station,
            (From::NoseTip, Some(tip)) => tip - row.station,
            (From::TailBolts, _) => row.station - outer,
            (From::NoseBolts, _) => outer - row.station,
            _ => row.station,
        };
        if row.right.is_some() && self.full {
            return Err(Fault::BothAndFull);
        }
        let apart = row.right.map_or(0.0, |right| (row.breadth - right).abs());
        if apart > APART {
            return Err(Fault::Apart(apart));
        }
        let mean = row.right.map_or(row.breadth, |right| f64::midpoint(row.breadth, right));
        let y = if self.full { mean / 2.0 } else { mean };
        // Not so for what is no number either.
        if !(x.abs() <= FARTHEST && y <= FARTHEST) {
            return Err(Fault::TooFar);
        }
        let y = if y < NOTHING { 0.0 } else { y };
        let at = Point::new(x, y);
        Ok(if self.taped { at } else { developed(&shape.profile, &shape.datum, at) })
    }
}
