//! Typed dimensions: a maker gives a measure, and the shape changes to meet it.
//!
//! Every quantity that can be set owns one change, a family of moves with one amount; a search finds the amount at which
//! the quantity, measured as everywhere else, has the value asked for. What moves and what stays is part of the family,
//! so that setting one thing never disturbs another without need:
//!
//! | dimension | what moves | what stays |
//! |---|---|---|
//! | length | both ends, equally, beyond the outer bolt rows | everything between the rows; both tips as they are |
//! | width | half-breadths, in proportion, between the shoulders | all stations; the tips |
//! | waist width | half-breadths between the tops of the straight rails | all stations; the tops and what lies beyond |
//! | waist length | stations of the waist | half-breadths; the far ends of the straight rails |
//! | straight rail | its stations; beside a waist only away from it | half-breadths; the waist |
//! | kick length | all beyond the bend line | all inside it; the tip as it is |
//! | kick taper | half-breadths beyond the bend line | all inside it; all stations |
//! | tip radius | half-breadths beyond the shoulder | all inside the bend line; the end |
//! | wheelbase | bolt rows and bend lines | the outline, to the bit |
//!
//! On a twin both ends move, and a tail's dimension sets the nose's. Where a change must stop at a place that has no node
//! it gets one. A straight edge is not broken: where what stays and what moves lie on one, it turns as a whole. Nodes and
//! tangents go with the moves; between them the curve comes as near to its image as two handles can. A laid sweep is not
//! broken either: it moves as a whole, with its tip where it has one, and what lies beside it follows.
//!
//! ```
//! use halfbreadth_core::{demo, dimension, measure::Measured};
//!
//! let deck = demo::dunlin();
//! let wider = dimension::set(&deck, "overall-width", 193.5)?;
//! assert!((Measured::of(wider.shape()).overall_width - 193.5).abs() < 1e-5);
//!
//! // A waist wider than its rails is none.
//! let refused = dimension::set(&deck, "waist-width", 200.0).unwrap_err();
//! assert!(refused.nearest().unwrap() < 190.0);
//! # Ok::<(), dimension::Unmet>(())
//! ```

mod bench;
mod blend;
mod carry;
mod fit;
mod flow;
mod hold;
mod plan;
mod search;
mod side;
#[cfg(test)]
mod tests;
mod unmet;

pub(crate) use self::hold::{Slopes, keep};
use self::{
    bench::Bench,
    plan::{Family, Plan},
    search::{Aim, search},
    side::Side,
};
pub use self::{
    hold::{Lock, hold},
    unmet::{Obstacle, Unmet},
};
use crate::{
    design::{Design, Refusal, Shape},
    measure::Measured,
    outline::Span,
    quantities::{self, Measure, Quantity, Reading, Setting},
    units::Unit,
};

/// A quantity that can be set to a value by changing the shape.
#[derive(Debug)]
pub struct Dimension {
    /// Its key in the table of measures or of settings.
    pub key: &'static str,
    family: Family,
    /// Least and most that may be typed, in the core's unit, where no shape is refused for it. A drawn one may lie beyond.
    typed: Option<(f64, f64)>,
}

const fn row(key: &'static str, family: Family) -> Dimension {
    Dimension { key, family, typed: None }
}

const fn typed(key: &'static str, family: Family, limits: (f64, f64)) -> Dimension {
    Dimension { key, family, typed: Some(limits) }
}

/// One degree, in radians.
const DEGREE: f64 = core::f64::consts::PI / 180.0;

/// Typed limits of a kick's taper, of a tip's radius and of a waist's length (common practice, no source).
const TAPER: (f64, f64) = (-20.0 * DEGREE, 45.0 * DEGREE);
const TIP_RADIUS: (f64, f64) = (3.0, 400.0);
const WAIST_LENGTH: (f64, f64) = (40.0, 500.0);

/// Every dimension that can be set, in the order of the measures.
pub const DIMENSIONS: &[Dimension] = &[
    row("overall-length", Family::Length),
    row("overall-width", Family::Width),
    row("plan-length", Family::Length),
    row("plan-width", Family::Width),
    row("rail-run-fore", Family::RailRun(Side::Nose)),
    row("rail-run-aft", Family::RailRun(Side::Tail)),
    row("waist-width", Family::WaistWidth),
    typed("waist-length", Family::WaistLength, WAIST_LENGTH),
    row("nose-kick-length", Family::KickLength(Side::Nose)),
    typed("nose-kick-taper", Family::Taper(Side::Nose), TAPER),
    typed("nose-tip-radius", Family::TipRadius(Side::Nose), TIP_RADIUS),
    row("tail-kick-length", Family::KickLength(Side::Tail)),
    typed("tail-kick-taper", Family::Taper(Side::Tail), TAPER),
    typed("tail-tip-radius", Family::TipRadius(Side::Tail), TIP_RADIUS),
    row("wheelbase", Family::Wheelbase),
];

/// The dimension with that key, where there is one.
#[must_use]
pub fn find(key: &str) -> Option<&'static Dimension> {
    DIMENSIONS.iter().find(|dimension| dimension.key == key)
}

/// The design in which dimension `key` measures `value`, in the unit the core uses, by the smallest natural change.
///
/// It is met to 0.5 µm, or 1e-7 rad; where it is so already the design comes back as it is.
///
/// # Errors
///
/// [`Unmet`], with the nearest value that can be met.
pub fn set(design: &Design, key: &str, value: f64) -> Result<Design, Unmet> {
    let dimension = find(key).ok_or_else(|| Unmet::Unknown(key.to_owned()))?;
    dimension.set(design, value)
}

/// How near a dimension is met, in its own unit.
#[derive(Clone, Copy, Debug)]
struct Accuracy {
    /// As near as this is met.
    met: f64,
    /// As near as this needs no more search.
    exact: f64,
    /// The step of a nearest value that is offered.
    offer: f64,
}

impl Accuracy {
    /// Lengths: half a µm; a nearest value is offered in whole µm.
    const LENGTH: Self = Self { met: 5e-4, exact: 2e-7, offer: 1e-3 };
    /// Angles: what moves the side of a kick by some ten nm; a nearest value is offered in thousandths of a degree.
    const ANGLE: Self = Self { met: 1e-7, exact: 2e-9, offer: core::f64::consts::PI / 180_000.0 };

    /// The accuracy of a search that ended between two values so far apart: it offers no finer step than it knows.
    fn of_search(mut self, apart: f64) -> Self {
        while self.offer * STEPS <= apart {
            self.offer *= STEPS;
        }
        self
    }

    /// A value on an even step, from `value` toward `present` so that it can be met for sure; `present`, on its own step as
    /// far as it can be told from one, where no step lies between.
    fn toward(&self, value: f64, present: f64) -> f64 {
        // Half of what is met to either side is the same value: 699.9999999 is 700.
        let slack = self.met / 2.0;
        let round = if value > present { f64::floor } else { f64::ceil };
        let slack = if value > present { slack } else { -slack };
        let offered = round((value + slack) / self.offer) * self.offer;
        if (value > present) == (offered > present) {
            return offered;
        }
        let even = (present / Self::LENGTH.offer).round() * Self::LENGTH.offer;
        if (even - present).abs() <= self.met { even } else { present }
    }
}

/// From one step of an offered value to the next coarser.
const STEPS: f64 = 10.0;

/// What stands in the way where a change takes away what the dimension measures.
const GONE: &str = "a waist, a straight rail or the round of a tip would come or go there";

/// What stands in the way where a change goes no further on a shape with laid sweeps: most likely they do.
const LAID: &str = "a laid sweep does not give way, set it free first";

/// Where a dimension is read.
#[derive(Clone, Copy)]
enum Source {
    Measure(&'static Measure),
    Setting(&'static Setting),
}

impl Dimension {
    /// What it is: label, unit, help.
    #[must_use]
    pub fn quantity(&self) -> &'static Quantity {
        match self.source() {
            Source::Measure(measure) => &measure.quantity,
            Source::Setting(setting) => &setting.quantity,
        }
    }

    /// Its value on a shape of which `measured` holds all measures, or why there is none.
    #[must_use]
    pub fn read(&self, shape: &Shape, measured: &Measured) -> Reading {
        match self.source() {
            Source::Measure(measure) => (measure.read)(measured),
            Source::Setting(setting) => Reading::of((setting.get)(shape)),
        }
    }

    /// The design in which it measures `value`; see [`set`].
    ///
    /// # Errors
    ///
    /// [`Unmet`], with the nearest value that can be met.
    pub fn set(&self, design: &Design, value: f64) -> Result<Design, Unmet> {
        let quantity = self.quantity();
        let measured = Measured::of(design.shape());
        let reading = self.read(design.shape(), &measured);
        let present = reading.value.ok_or(Unmet::Absent { quantity, why: reading.remark })?;
        let accuracy = self.accuracy();
        if (value - present).abs() <= accuracy.exact {
            return Ok(design.clone());
        }
        let unmet = |nearest, why| Unmet::Beyond { quantity, wanted: value, nearest, why };
        if !value.is_finite() {
            return Err(unmet(present, Obstacle::Words("")));
        }
        let bench = Bench::new(design, vec![self.plan(design.shape(), &measured)?]);
        let aim = Aim { present, wanted: value, exact: accuracy.exact, met: accuracy.met };
        let changed = |amount: f64| {
            let (found, now) = bench.changed(&[amount]).map_err(Obstacle::Refused)?;
            let value = self.follow(&measured, found.shape(), &now);
            value.map(|value| (found, value)).ok_or(Obstacle::Words(GONE))
        };
        search(&aim, changed).map_err(|stop| {
            let is_laid = |span: &Span| matches!(span, Span::Laid { .. });
            let why = match stop.why {
                Obstacle::Words(_) if design.shape().outline.spans.iter().any(is_laid) => {
                    Obstacle::Words(LAID)
                }
                why => why,
            };
            unmet(accuracy.toward(stop.nearest, present), why)
        })
    }

    /// Checks a typed value against the limits for typing it, where it has some of its own.
    ///
    /// # Errors
    ///
    /// [`Refusal::OutOfRange`].
    pub fn check(&self, value: f64) -> Result<(), Refusal> {
        self.typed.map_or(Ok(()), |(least, most)| self.quantity().check(value, least, most))
    }

    /// Its value on a changed shape; `None` where what it measured before the change is no longer there.
    fn follow(&self, before: &Measured, changed: &Shape, after: &Measured) -> Option<f64> {
        // With another waist or rail the same name would mean another place.
        let rails = |m: &Measured| (m.rail_runs.len(), m.waists.len());
        let is_there = !self.family.is_of_rails() || rails(before) == rails(after);
        self.read(changed, after).value.filter(|_| is_there)
    }

    fn plan(&self, shape: &Shape, measured: &Measured) -> Result<Plan, Unmet> {
        let why = self.read(shape, measured).remark;
        self.family.plan(shape, measured).ok_or(Unmet::Absent { quantity: self.quantity(), why })
    }

    fn accuracy(&self) -> Accuracy {
        if self.quantity().unit == Unit::Angle { Accuracy::ANGLE } else { Accuracy::LENGTH }
    }

    fn source(&self) -> Source {
        quantities::find_measure(self.key)
            .map_or_else(|| Source::Setting(quantities::setting(self.key)), Source::Measure)
    }
}
