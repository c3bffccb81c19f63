//! Readouts: measures as the page shows them.

use super::Editor;
use crate::{
    dimension,
    quantities::{MEASURES, Measure, Quantity, Reading},
    units::{Unit, show, show_difference},
};

/// A measure as the page shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Readout {
    /// Its key.
    pub key: &'static str,
    /// Its name.
    pub label: &'static str,
    /// Its definition.
    pub help: &'static str,
    /// The figure; a dash where there is none.
    pub text: String,
    /// Its unit as shown, may be empty.
    pub unit: &'static str,
    /// The full value in the unit of the page's hooks: mm, mm², degrees, g, a share; `None` where there is none.
    pub value: Option<f64>,
    /// What else there is to say: why there is none, or that a figure is not what it seems.
    pub remark: &'static str,
    /// How much it differs from the version behind; empty where none is, and where it does not as far as is shown.
    pub change: String,
    /// Whether it is locked; `None` where it cannot be set at all.
    pub locked: Option<bool>,
}

impl Editor {
    /// All measures of the design in hand, in the order of the table.
    #[must_use]
    pub fn readouts(&self) -> Vec<Readout> {
        let of = |measure: &'static Measure| {
            let then = self.behind.as_ref().and_then(|behind| (measure.read)(&behind.measured).value);
            self.readout(&measure.quantity, (measure.read)(&self.measured), then)
        };
        MEASURES.iter().map(of).collect()
    }

    /// A reading as the page shows it, beside what it was on the version behind.
    pub(super) fn readout(
        &self,
        quantity: &'static Quantity,
        reading: Reading,
        then: Option<f64>,
    ) -> Readout {
        let system = self.settings.system;
        let shown = reading.value.map(|value| show(value, quantity.unit, system));
        let change = then.zip(reading.value).map_or(String::new(), |(then, now)| {
            let change = show_difference(now - then, quantity.unit, system).text;
            if change.starts_with('±') { String::new() } else { change }
        });
        Readout {
            key: quantity.key,
            label: quantity.label,
            help: quantity.help,
            unit: shown.as_ref().map_or("", |s| s.unit),
            text: shown.map_or_else(|| "–".to_owned(), |s| s.text),
            value: reading.value.map(|value| outside(value, quantity.unit)),
            remark: reading.remark,
            change,
            locked: dimension::find(quantity.key)
                .map(|dimension| self.design().locks().iter().any(|l| l.key == dimension.key)),
        }
    }
}

/// A value in the unit scripts and hooks speak: degrees for angles, everything else as it is inside.
#[must_use]
pub fn outside(value: f64, unit: Unit) -> f64 {
    if unit == Unit::Angle { value.to_degrees() } else { value }
}

/// A value that scripts give, in the unit the core uses: the inverse of [`outside`].
#[must_use]
pub fn inside(value: f64, unit: Unit) -> f64 {
    if unit == Unit::Angle { value.to_radians() } else { value }
}
