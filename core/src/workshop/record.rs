//! The press-day record: what was done with one deck and what came out, beside what was worked out.

use super::Workshop;
use crate::{
    design::{Design, Refusal},
    quantities::Quantity,
    text,
    units::{self, Unit},
};
use core::f64::consts::PI;

/// One deck's day in the press.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Record {
    /// Its serial number, as it is written on the deck.
    pub serial: String,
    /// The day, as YYYY-MM-DD.
    pub date: String,
    /// Lots of veneer and glue.
    pub lots: String,
    /// What riding it told.
    pub notes: String,
    /// Which plies were graded, bit *i* for ply *i*, the top one first.
    pub graded: u32,
    /// Of which plies the moisture was measured.
    pub metered: u32,
    /// What was measured, in the order of [`MEASURED`]; `None` where nothing was noted.
    pub measured: [Option<f64>; MEASURED.len()],
}

/// A number of the record.
#[derive(Debug)]
pub struct Noted {
    /// What it is.
    pub quantity: Quantity,
    /// Smallest value accepted.
    pub least: f64,
    /// Largest value accepted.
    pub most: f64,
    /// What was worked out for it, where something was.
    pub computed: fn(&Workshop<'_>) -> Option<f64>,
}

/// Rows: key, label, unit, limits, what was worked out, help.
macro_rules! rows {
    ($($key:literal, $label:literal, $unit:ident, $least:expr, $most:expr, $computed:expr; $help:literal;)*) => {
        /// Every number of the record, in the order of the day.
        pub static MEASURED: [Noted; [$($key),*].len()] = [$(Noted {
            quantity: Quantity { key: $key, label: $label, help: $help, unit: Unit::$unit },
            least: $least,
            most: $most,
            computed: $computed,
        }),*];
    };
}

// Limits: what can be at all, common practice, no source.
rows! {
    "day-moisture", "Veneer moisture", Share, 0.0, 0.4, |w| Some(w.inputs.wood.moisture);
        "Moisture of the veneers as metered on the day.";
    "day-temperature", "Room, °C", Ratio, -20.0, 60.0, |_| None;
        "Temperature of the room.";
    "day-humidity", "Air humidity", Share, 0.0, 1.0, |_| None;
        "Relative humidity of the room's air.";
    "day-glue", "Glue used", Mass, 0.0, 100_000.0, |w| Some(w.coverage.mass);
        "Glue weighed out for this deck.";
    "day-minutes", "Spreading to pressure", Minutes, 0.0, 600.0, |w| Some(w.clock.pressed(w.shape.layup.glue_lines()));
        "From spreading the first line to full pressure.";
    "day-torque", "Torque used", Torque, 0.0, 300_000.0,
        |w| w.inputs.press.force.is_none().then_some(w.inputs.press.torque);
        "Torque on each bolt.";
    "day-hours", "In the press", Hours, 0.0, 40_000.0, |w| Some(w.inputs.glue.press_time);
        "From full pressure to opening.";
    "day-thickness", "Thickness", Thickness, 0.5, 80.0, |w| Some(w.thickness);
        "Thickness of the finished deck.";
    "day-mass", "Mass", Mass, 0.0, 20_000.0, |w| Some(w.wood_mass() + w.coverage.dry);
        "Mass of the finished deck, without grip and trucks.";
    "day-nose-angle", "Nose angle", Angle, 0.0, PI / 2.0, |w| kick(w, true);
        "Angle of the nose as it came out of the press.";
    "day-tail-angle", "Tail angle", Angle, 0.0, PI / 2.0, |w| kick(w, false);
        "Angle of the tail as it came out of the press.";
    "day-concave", "Concave", Thickness, 0.0, 60.0, |w| Some(w.shape.profile.concave_depth);
        "Depth of the concave as it came out of the press.";
    "day-twist", "Twist", Thickness, 0.0, 60.0, |_| Some(0.0);
        "How far one corner stands off when the other three lie on a flat table.";
    "day-hole-error", "Holes off by", Thickness, 0.0, 30.0, |_| Some(0.0);
        "The farthest a bolt hole lies from its place.";
}

fn kick(workshop: &Workshop<'_>, nose: bool) -> Option<f64> {
    let profile = &workshop.shape.profile;
    let kick = if nose { &profile.nose } else { &profile.tail };
    kick.kicks().then_some(kick.angle)
}

impl Record {
    /// Most records kept in one design.
    pub const MOST: usize = 500;

    /// Cleans the texts, rounds the numbers and checks everything.
    ///
    /// # Errors
    ///
    /// [`Refusal::TextTooLong`] and [`Refusal::OutOfRange`].
    pub fn checked(mut self) -> Result<Self, Refusal> {
        self.serial = text::line("serial", &self.serial, Design::LONGEST_NAME)?;
        self.date = text::line("date", &self.date, Design::LONGEST_NAME)?;
        self.lots = text::line("lots", &self.lots, Self::LONGEST_LOTS)?;
        self.notes = text::lines("record-notes", &self.notes, Design::LONGEST_NOTES)?;
        for (row, value) in MEASURED.iter().zip(&mut self.measured) {
            if let Some(value) = value {
                row.quantity.check(*value, row.least, row.most)?;
                *value = units::whole(*value, row.quantity.unit);
            }
        }
        Ok(self)
    }

    /// Most characters of the lots.
    pub const LONGEST_LOTS: usize = 200;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{demo, measure::Measured, workshop::Inputs};

    #[test]
    fn a_record_keeps_what_was_typed_and_refuses_what_cannot_be() {
        let mut record = Record { serial: " 7\n".to_owned(), ..Record::default() };
        record.measured[0] = Some(0.071_234_567_89);
        let kept = record.clone().checked().unwrap();
        assert_eq!((kept.serial.as_str(), kept.measured[0]), ("7", Some(0.071_234_57)));
        record.measured[0] = Some(f64::NAN);
        assert!(record.clone().checked().is_err());
        record.measured[0] = Some(0.5);
        assert_eq!(record.checked().unwrap_err().field(), "day-moisture");
    }

    #[test]
    fn what_was_worked_out_lies_within_the_limits_of_what_can_be_noted() {
        for deck in demo::all() {
            let (measured, inputs) = (Measured::of(deck.shape()), Inputs::default());
            let workshop = Workshop::of(deck.shape(), &measured, &inputs);
            for row in &MEASURED {
                let value = (row.computed)(&workshop);
                let fits = value.is_none_or(|value| row.quantity.check(value, row.least, row.most).is_ok());
                assert!(fits, "{}: {value:?}", row.quantity.key);
            }
        }
    }
}
