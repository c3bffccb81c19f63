//! What the workshop works out: a row for each figure, with its unit, its formula and where that comes from.

mod table;

pub use self::table::FIGURES;
use super::Workshop;
use crate::quantities::{Quantity, Reading};

/// A figure that the workshop works out.
#[derive(Debug)]
pub struct Figure {
    /// What it is; its help text gives the formula.
    pub quantity: Quantity,
    /// Which panel lists it.
    pub panel: Panel,
    /// Where formula and values come from.
    pub source: &'static str,
    /// Whether it is an estimate, to be called one wherever it is shown.
    pub estimate: bool,
    /// Works it out.
    pub read: fn(&Workshop<'_>) -> Reading,
}

/// The panel that lists a figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Panel {
    /// The pressed shape and its mould.
    Profile,
    /// The deck on its trucks.
    Ride,
    /// The stack.
    Layup,
    /// Blank and sheets.
    Blank,
    /// Glue and its clock.
    Glue,
    /// The press.
    Press,
    /// Flex.
    Flex,
    /// Holes, edges, grip.
    Finish,
    /// The run.
    Run,
}

impl Panel {
    /// All panels in the order they are listed, with key and heading.
    pub const ALL: [(Self, &'static str, &'static str); 9] = [
        (Self::Profile, "profile", "Pressed shape and mould"),
        (Self::Ride, "ride", "On its trucks"),
        (Self::Layup, "stack", "Layup"),
        (Self::Blank, "blank", "Blank and veneers"),
        (Self::Glue, "glue", "Glue"),
        (Self::Press, "press", "Press"),
        (Self::Flex, "flex", "Flex"),
        (Self::Finish, "finish", "Drilling and finish"),
        (Self::Run, "run", "Run"),
    ];
}

/// The figure with that key, where there is one.
#[must_use]
pub fn find(key: &str) -> Option<&'static Figure> {
    FIGURES.iter().find(|figure| figure.quantity.key == key)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{demo, measure::Measured, workshop::Inputs};

    #[test]
    fn every_key_stands_once_among_all_tables() {
        for figure in FIGURES {
            let key = figure.quantity.key;
            assert!(find(key).is_some_and(|found| core::ptr::eq(found, figure)), "{key} stands twice");
            let elsewhere = crate::quantities::find_setting(key).is_some()
                || crate::quantities::find_measure(key).is_some()
                || crate::workshop::inputs::table::find(key).is_some();
            assert!(!elsewhere, "{key} stands in another table too");
            assert!(key.bytes().all(|b| b.is_ascii_lowercase() || b == b'-'), "{key}");
            assert!(figure.quantity.help.ends_with('.') && !figure.source.is_empty(), "{key}");
        }
    }

    #[test]
    fn every_figure_of_every_demo_deck_is_a_number_or_says_why_not() {
        for deck in demo::all() {
            let (measured, inputs) = (Measured::of(deck.shape()), Inputs::default());
            let workshop = Workshop::of(deck.shape(), &measured, &inputs);
            for figure in FIGURES {
                let reading = (figure.read)(&workshop);
                let key = figure.quantity.key;
                assert!(reading.value.is_none_or(f64::is_finite), "{key}: {reading:?}");
                assert!(reading.value.is_some() || !reading.remark.is_empty(), "{key} says not why");
            }
        }
    }
}
