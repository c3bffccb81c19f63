//! Readouts: measures as the page shows them.

use super::Editor;
use crate::{
    quantities::{Group, MEASURES},
    units::{Unit, show},
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
    /// The heading it is listed under.
    pub group: Group,
    /// The figure; a dash where there is none.
    pub text: String,
    /// Its unit as shown, may be empty.
    pub unit: &'static str,
    /// The full value in the unit of the page's hooks: mm, mm², degrees, g, a share; `None` where there is none.
    pub value: Option<f64>,
    /// What else there is to say: why there is none, or that a figure is not what it seems.
    pub remark: &'static str,
}

impl Editor {
    /// All measures of the design in hand, in the order of the table.
    #[must_use]
    pub fn readouts(&self) -> Vec<Readout> {
        MEASURES
            .iter()
            .map(|measure| {
                let reading = (measure.read)(&self.measured);
                let quantity = &measure.quantity;
                let shown = reading.value.map(|value| show(value, quantity.unit, self.settings.system));
                Readout {
                    key: quantity.key,
                    label: quantity.label,
                    help: quantity.help,
                    group: measure.group,
                    unit: shown.as_ref().map_or("", |s| s.unit),
                    text: shown.map_or_else(|| "–".to_owned(), |s| s.text),
                    value: reading.value.map(|value| outside(value, quantity.unit)),
                    remark: reading.remark,
                }
            })
            .collect()
    }
}

/// A value in the unit scripts and hooks speak: degrees for angles, everything else as it is inside.
#[must_use]
pub fn outside(value: f64, unit: Unit) -> f64 {
    if unit == Unit::Angle { value.to_degrees() } else { value }
}
