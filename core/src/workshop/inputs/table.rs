//! The table of inputs, in the order the page lists them.

use super::{Group, Input, Inputs};
use crate::{quantities::Quantity, units::Unit, workshop::fault::Fault};
use core::f64::consts::PI;

const PRACTICE: &str = "common practice, no source";
/// Minutes.
const HOUR: f64 = 60.0;

/// Radians of so many degrees.
const fn deg(degrees: f64) -> f64 {
    degrees * PI / 180.0
}

/// How a field that is never empty, and one that may be, is read and written.
macro_rules! access {
    (needed $group:ident $field:ident) => {
        (
            false,
            |inputs| Some(inputs.$group.$field),
            |inputs, v| inputs.$group.$field = v.unwrap_or(inputs.$group.$field),
        )
    };
    (optional $group:ident $field:ident) => {
        (true, |inputs| inputs.$group.$field, |inputs, v| inputs.$group.$field = v)
    };
}

/// Whether it may be empty, its reader, its writer.
type Access = (bool, fn(&Inputs) -> Option<f64>, fn(&mut Inputs, Option<f64>));

/// Rows: need, field, key, label, unit, hard limits and after the arrow what is usual; then help and source.
macro_rules! rows {
    ($($need:ident $group:ident.$field:ident ($part:ident), $key:literal, $label:literal, $unit:ident,
        $least:expr, $most:expr => $low:expr, $high:expr; $help:literal, $source:expr;)*) => {
        /// Every number that a maker tells the workshop.
        pub static INPUTS: &[Input] = &[$({
            const ACCESS: Access = access!($need $group $field);
            Input {
                quantity: Quantity { key: $key, label: $label, help: $help, unit: Unit::$unit },
                group: Group::$part,
                source: $source,
                least: $least,
                most: $most,
                usual: [$low, $high],
                optional: ACCESS.0,
                get: ACCESS.1,
                set: ACCESS.2,
            }
        }),*];
    };
}

rows! {
    needed wood.moisture (Wood), "moisture", "Veneer moisture", Share, 0.03, 0.20 => 0.06, 0.08;
        "Moisture of the veneers before gluing, of their dry mass.",
        "An adhesive maker's guide (studylib.net, 18296895): 6 to 8 %; limits common practice, no source";
    needed wood.bond_line (Wood), "bond-line", "Bond line", Thickness, 0.0, 0.3 => 0.0, 0.3;
        "Thickness of one cured glue line, for the finished thickness.",
        "PVA: 0.05 to 0.15 mm (masterwoodcrafters.com); limits common practice, no source";
    optional wood.measured_thickness (Wood), "measured-thickness", "Measured thickness", Thickness, 1.2, 60.0 => 1.2, 60.0;
        "Thickness of a deck out of this press, where one was measured: it takes the place of the sum of plies and glue lines.",
        "Your own measurement";

    needed mould.length (Mould), "mould-length", "Mould length", Length, 300.0, 1800.0 => 300.0, 1800.0;
        "Length of the mould, seen from straight above.",
        PRACTICE;
    needed mould.width (Mould), "mould-width", "Mould width", Length, 120.0, 400.0 => 120.0, 400.0;
        "Width of the mould.",
        PRACTICE;
    needed mould.clear_length (Mould), "mould-clear-length", "Clear between posts", Length, 300.0, 1800.0 => 300.0, 1800.0;
        "Length between the mould's end posts that a flat veneer has to lie in.",
        PRACTICE;
    optional mould.pressure (Mould), "mould-pressure", "Mould's limit", Pressure, 0.02, 5.0 => 0.02, 5.0;
        "The pressure that the mould may take, from whoever made it. Without it no torque is given.",
        "The mould's maker; there is no usual value";

    needed stock.sheet_length (Stock), "sheet-length", "Sheet length", Length, 300.0, 3000.0 => 300.0, 3000.0;
        "Length of a stock sheet for plies along the board, along its grain.",
        PRACTICE;
    needed stock.sheet_width (Stock), "sheet-width", "Sheet width", Length, 120.0, 3000.0 => 120.0, 3000.0;
        "Width of a stock sheet for plies along the board.",
        PRACTICE;
    needed stock.cross_length (Stock), "cross-sheet-length", "Cross sheet length", Length, 300.0, 3000.0 => 300.0, 3000.0;
        "Length of a stock sheet for cross plies, across its grain.",
        PRACTICE;
    needed stock.cross_width (Stock), "cross-sheet-width", "Cross sheet width", Length, 120.0, 3000.0 => 120.0, 3000.0;
        "Width of a stock sheet for cross plies, along its grain.",
        PRACTICE;
    needed stock.kerf (Stock), "kerf", "Kerf", Thickness, 0.0, 10.0 => 0.0, 10.0;
        "What one cut through a sheet takes, trimming included.",
        PRACTICE;

    needed glue.density (Glue), "glue-density", "Glue density", Density, 0.9e-3, 1.4e-3 => 0.9e-3, 1.4e-3;
        "Density of the wet glue, from its data sheet.",
        "About 1.08 g/cm³: a glue calculator (glama.ai, “glue_consumption”); 1.10 and limits common practice, no source";
    needed glue.solids (Glue), "glue-solids", "Glue solids", Share, 0.2, 1.0 => 0.2, 1.0;
        "Share of the glue's mass that stays when its water has gone, from its data sheet.",
        "Common practice, no source: read the data sheet";
    needed glue.open (Glue), "open-time", "Open time", Minutes, 0.5, 120.0 => 0.5, 120.0;
        "The longest a spread face may lie open, from the glue's data sheet, shorter in a warm room.",
        "PVA in a shop at 20 °C: white 3 to 5, yellow 5 to 6 min (canadianwoodworking.com); makers state more; limits common practice, no source";
    needed glue.total (Glue), "assembly-time", "Assembly time", Minutes, 1.0, 240.0 => 1.0, 240.0;
        "The longest from spreading the first line to full pressure, from the glue's data sheet.",
        "Common practice, no source: read the data sheet";
    needed glue.per_line (Glue), "minutes-per-line", "Minutes per line", Minutes, 0.1, 20.0 => 0.1, 20.0;
        "What the bench takes to spread one line and lay the next ply on it.",
        PRACTICE;
    needed glue.closing (Glue), "closing-time", "Closing the press", Minutes, 0.2, 60.0 => 0.2, 60.0;
        "From the last ply to full pressure.",
        PRACTICE;
    needed glue.press_time (Glue), "press-time", "In the press", Hours, 0.2 * HOUR, 336.0 * HOUR => 24.0 * HOUR, 336.0 * HOUR;
        "How long the deck stays in the press.",
        "An adhesive maker's guide (studylib.net, 18296895): bent laminations 24 h; limits common practice, no source";

    needed press.bolts (Press), "bolts", "Bolts", Count, 2.0, 60.0 => 2.0, 60.0;
        "How many bolts close the mould.",
        PRACTICE;
    needed press.diameter (Press), "bolt-diameter", "Bolt diameter", Length, 5.0, 24.0 => 5.0, 24.0;
        "Nominal diameter of the bolts.",
        PRACTICE;
    needed press.pitch (Press), "bolt-pitch", "Thread pitch", Thickness, 0.5, 4.0 => 0.5, 4.0;
        "Pitch of the bolts' thread: 1.5 mm is the coarse M10.",
        "ISO 261, from memory";
    needed press.nut_factor (Press), "nut-factor", "Nut factor K", Ratio, 0.08, 0.40 => 0.15, 0.30;
        "K in T = K·F·d: 0.20 plain, 0.15 oiled, 0.30 dry or rusty.",
        "After Shigley, as mechconcepts.tech and aionlinecalculator.com give it; the book was not read";
    needed press.torque (Press), "bolt-torque", "Torque", Torque, 200.0, 300_000.0 => 200.0, 300_000.0;
        "Torque on each bolt.",
        PRACTICE;
    needed press.proof_stress (Press), "proof-stress", "Proof stress", Pressure, 100.0, 1000.0 => 100.0, 1000.0;
        "Proof stress of the bolts: that of plain hardware unless the head is marked with a class.",
        "Worked back from a fastener maker's torque table: 3/8-16, 2,558 lb on 0.0775 in²; 225 MPa is class 4.6 of ISO 898-1, from memory";
    optional press.force (Press), "press-force", "Press force", Force, 100.0, 5_000_000.0 => 100.0, 5_000_000.0;
        "The whole force where a jack or a bag gives it; the bolts are then left out.",
        "Your own press";
    optional press.wanted (Press), "wanted-pressure", "Wanted pressure", Pressure, 0.02, 3.0 => 0.02, 3.0;
        "A pressure to find the torque for, below the limits of mould and bolts.",
        "Ranges for flat joints: FAA AC 43.13-1B 1-10 b, woodmagazine.com, an adhesive maker's guide; limits common practice, no source";

    needed ride.axle_height (Ride), "axle-height", "Axle under deck", Length, 30.0, 120.0 => 45.0, 60.0;
        "From the axle's centre up to the underside of the deck, without the riser.",
        PRACTICE;
    needed ride.axle_offset (Ride), "axle-offset", "Axle offset", Length, -20.0, 20.0 => -20.0, 20.0;
        "How far the axle lies outboard of the middle of its bolt pattern.",
        PRACTICE;
    needed ride.riser (Ride), "riser", "Riser", Length, 0.0, 25.0 => 0.0, 25.0;
        "Thickness of the pad between truck and deck.",
        PRACTICE;
    needed ride.wheel_diameter (Ride), "wheel-diameter", "Wheel diameter", Length, 45.0, 110.0 => 45.0, 110.0;
        "Diameter of the wheels.",
        PRACTICE;
    optional ride.wheel_half_width (Ride), "wheel-half-width", "Half width over wheels", Length, 60.0, 200.0 => 60.0, 200.0;
        "Half of the width over the outer faces of the wheels; empty is 3 mm inside the widest place of the deck.",
        PRACTICE;
    needed ride.rider (Ride), "rider", "Load", BodyMass, 20_000.0, 150_000.0 => 20_000.0, 150_000.0;
        "A mass to see the deck give under. No rider mass is certified by any figure here.",
        PRACTICE;
    needed ride.landing (Ride), "landing-factor", "Landing factor", Ratio, 1.0, 6.0 => 1.0, 6.0;
        "How many times the standing load to reckon with; 1 is standing still.",
        PRACTICE;

    needed finish.countersink (Finish), "countersink", "Countersink", Length, 6.0, 16.0 => 6.0, 16.0;
        "Diameter of the countersink for the bolt heads, drilled from the top face.",
        "From memory";
    needed finish.countersink_angle (Finish), "countersink-angle", "Countersink angle", Angle, deg(60.0), deg(120.0) => deg(60.0), deg(120.0);
        "Included angle of the countersink: 90° for metric heads, 82° for inch heads.",
        "From memory";
    needed finish.round_over (Finish), "round-over", "Round-over", Length, 0.0, 6.0 => 2.0, 6.0;
        "Radius of the edges, less than half the thickness.",
        PRACTICE;
    needed finish.grip_overlap (Finish), "grip-overlap", "Grip to cut off", Length, 0.0, 50.0 => 0.0, 50.0;
        "Grip sheet beyond the edge all round, cut off after laying.",
        PRACTICE;

    needed run.decks (Run), "decks", "Decks", Count, 1.0, 1000.0 => 1.0, 1000.0;
        "How many decks to press.",
        "Your own run";
    needed run.moulds (Run), "moulds", "Pressed at a time", Count, 1.0, 50.0 => 1.0, 50.0;
        "How many decks are in the press at the same time.",
        "Your own shop";
    optional run.sheet_price (Run), "sheet-price", "Price of a sheet", Ratio, 0.0, 1e5 => 0.0, 1e5;
        "Price of a stock sheet for plies along the board, in your own money.",
        "Your own supplier";
    optional run.cross_price (Run), "cross-sheet-price", "Price of a cross sheet", Ratio, 0.0, 1e5 => 0.0, 1e5;
        "Price of a stock sheet for cross plies.",
        "Your own supplier";
    optional run.glue_price (Run), "glue-price", "Price of glue", Ratio, 0.0, 1e5 => 0.0, 1e5;
        "Price of a kilogram of glue.",
        "Your own supplier";
    optional run.other_price (Run), "other-price", "All else per deck", Ratio, 0.0, 1e5 => 0.0, 1e5;
        "What else a deck costs: grip, finish, a share of the mould.",
        "Your own books";
}

/// The input with that key, where there is one.
#[must_use]
pub fn find(key: &str) -> Option<&'static Input> {
    INPUTS.iter().find(|input| input.quantity.key == key)
}

impl Input {
    /// Checks a value against the hard limits; an empty one where it may be.
    ///
    /// # Errors
    ///
    /// [`Fault::OutOfRange`], also for what is not a number and for an empty value where one must stand.
    pub fn check(&'static self, value: Option<f64>) -> Result<(), Fault> {
        let Some(found) = value else {
            let missing = Fault::OutOfRange {
                quantity: &self.quantity,
                found: f64::NAN,
                limits: [self.least, self.most],
            };
            return if self.optional { Ok(()) } else { Err(missing) };
        };
        let limits = [self.least, self.most];
        let within = self.quantity.check(found, self.least, self.most);
        within.map_err(|_| Fault::OutOfRange { quantity: &self.quantity, found, limits })
    }

    /// Whether a value is possible but rare.
    #[must_use]
    pub fn rare(&'static self, value: Option<f64>) -> Option<Fault> {
        let found = value?;
        let [low, high] = self.usual;
        let rare = self.quantity.check(found, low, high).is_err();
        rare.then_some(Fault::Unusual { quantity: &self.quantity, found, usual: self.usual })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_input_reads_back_what_was_set_and_its_limits_hold_its_default() {
        for input in INPUTS {
            let mut inputs = Inputs::default();
            let default = (input.get)(&inputs);
            assert_eq!(input.check(default), Ok(()), "{}", input.quantity.key);
            assert_eq!(input.rare(default), None, "{}", input.quantity.key);
            assert!(default.is_some() || input.optional, "{}", input.quantity.key);
            (input.set)(&mut inputs, Some(input.most));
            assert_eq!((input.get)(&inputs), Some(input.most), "{}", input.quantity.key);
            (input.set)(&mut inputs, None);
            assert_eq!((input.get)(&inputs).is_none(), input.optional, "{}", input.quantity.key);
        }
    }

    #[test]
    fn no_input_writes_where_another_reads() {
        for input in INPUTS {
            let mut inputs = Inputs::default();
            (input.set)(&mut inputs, Some(input.most * 0.77));
            let changed =
                INPUTS.iter().filter(|other| (other.get)(&inputs) != (other.get)(&Inputs::default()));
            assert!(changed.map(|other| other.quantity.key).eq([input.quantity.key]));
        }
    }

    #[test]
    fn every_key_stands_once_among_inputs_settings_and_measures() {
        for (i, input) in INPUTS.iter().enumerate() {
            let key = input.quantity.key;
            assert!(find(key).is_some_and(|found| core::ptr::eq(found, input)), "{key} stands twice ({i})");
            assert!(
                crate::quantities::find_setting(key).is_none()
                    && crate::quantities::find_measure(key).is_none(),
                "{key}"
            );
            assert!(input.quantity.help.ends_with('.') && !input.source.is_empty(), "{key}");
            assert!(input.least < input.most && input.usual[0] >= input.least, "{key}");
        }
    }
}
