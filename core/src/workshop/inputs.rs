//! What a maker tells the workshop beyond the shape: wood, mould, stock, glue, press, trucks, edges, run.
//!
//! Every group is flat and plain, so that it can be stored by hand; [`table::INPUTS`] has a row for each number; words
//! and choices stand beside it.

pub mod table;

use super::{
    assembly::Clock,
    glue::Basis,
    press::{Bolt, Thread, tightening_order},
};
use crate::{
    layup::Layup,
    quantities::Quantity,
    units::{self, Unit},
};

/// All of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Inputs {
    /// What the plies have in common.
    pub wood: Wood,
    /// The mould.
    pub mould: Mould,
    /// The sheets that veneers are cut from.
    pub stock: Stock,
    /// The glue and its clock.
    pub glue: Glue,
    /// The press.
    pub press: Press,
    /// Trucks, wheels and the load.
    pub ride: Ride,
    /// Holes, edges and grip.
    pub finish: Finish,
    /// How many decks, and prices.
    pub run: Run,
}

impl Inputs {
    /// The same without the maker's prices, which are nobody else's business.
    #[must_use]
    pub fn without_prices(&self) -> Self {
        let run = Run { decks: self.run.decks, moulds: self.run.moulds, ..Run::default() };
        Self { run, ..self.clone() }
    }
}

/// What the plies have in common.
#[derive(Clone, Debug, PartialEq)]
pub struct Wood {
    /// Moisture of the veneers before gluing, a share.
    pub moisture: f64,
    /// Thickness of a glue line when cured, mm.
    pub bond_line: f64,
    /// Thickness of the finished deck where it was measured, mm.
    pub measured_thickness: Option<f64>,
}

/// The mould. Its card also holds what the design says of the pressed shape and of the drill guides: see
/// [`super::card`].
#[derive(Clone, Debug, PartialEq)]
pub struct Mould {
    /// What the maker calls it.
    pub name: String,
    /// Whether its card keeps its fields.
    pub locked: bool,
    /// Length, mm.
    pub length: f64,
    /// Width, mm.
    pub width: f64,
    /// Clear length between its posts, mm.
    pub clear_length: f64,
    /// The pressure it may take, MPa; without it no torque is given.
    pub pressure: Option<f64>,
}

/// The sheets that veneers are cut from, measured the way a blank lies on them.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// Length of a sheet for plies along the board, along its grain, mm.
    pub sheet_length: f64,
    /// Its width, mm.
    pub sheet_width: f64,
    /// Length of a sheet for cross plies, *across* its grain, mm.
    pub cross_length: f64,
    /// Its width, along its grain, mm.
    pub cross_width: f64,
    /// What a cut takes, mm.
    pub kerf: f64,
}

/// The glue and its clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Glue {
    /// What the rate on the data sheet means, and so which faces are spread.
    pub basis: Basis,
    /// Whether the stack is laid top ply first, and turned before it goes into the press.
    pub top_first: bool,
    /// Density, g/mm³.
    pub density: f64,
    /// Solids, a share of the mass.
    pub solids: f64,
    /// Open time, minutes.
    pub open: f64,
    /// Total assembly time, minutes.
    pub total: f64,
    /// What the bench takes for one line, minutes.
    pub per_line: f64,
    /// What closing the press takes, minutes.
    pub closing: f64,
    /// Time in the press, minutes.
    pub press_time: f64,
}

/// The press: bolts with a torque, or a force.
#[derive(Clone, Debug, PartialEq)]
pub struct Press {
    /// How many bolts.
    pub bolts: f64,
    /// Nominal diameter of a bolt, mm.
    pub diameter: f64,
    /// Pitch of its thread, mm.
    pub pitch: f64,
    /// The standard of its thread.
    pub thread: Thread,
    /// Nut factor K.
    pub nut_factor: f64,
    /// Torque on each bolt, N·mm.
    pub torque: f64,
    /// Proof stress of the bolt, MPa.
    pub proof_stress: f64,
    /// The whole force where it is known directly (jack, vacuum bag), N; the bolts are then not asked.
    pub force: Option<f64>,
    /// Pressure for which a torque is asked, MPa.
    pub wanted: Option<f64>,
}

/// Trucks, wheels and the load.
#[derive(Clone, Debug, PartialEq)]
pub struct Ride {
    /// Height of the underside above the axle's centre, without the riser, mm.
    pub axle_height: f64,
    /// The axle's distance outboard of the truck centre, mm.
    pub axle_offset: f64,
    /// Riser between deck and truck, mm.
    pub riser: f64,
    /// Wheel diameter, mm.
    pub wheel_diameter: f64,
    /// Half the width over the wheels, mm; `None` is 3 mm inside the widest place.
    pub wheel_half_width: Option<f64>,
    /// Mass of the rider, g.
    pub rider: f64,
    /// How many times the standing load a landing makes.
    pub landing: f64,
}

/// Holes, edges and grip.
#[derive(Clone, Debug, PartialEq)]
pub struct Finish {
    /// Diameter of the countersink, mm.
    pub countersink: f64,
    /// Its included angle, radians.
    pub countersink_angle: f64,
    /// Radius of the edges, mm.
    pub round_over: f64,
    /// Grip to cut off all round, mm.
    pub grip_overlap: f64,
}

/// How many decks, and prices in the maker's money.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Decks.
    pub decks: f64,
    /// Moulds pressed at a time.
    pub moulds: f64,
    /// Price of a sheet for plies along.
    pub sheet_price: Option<f64>,
    /// Price of a sheet for cross plies.
    pub cross_price: Option<f64>,
    /// Price of a kilogram of glue.
    pub glue_price: Option<f64>,
    /// All else for one deck.
    pub other_price: Option<f64>,
}

/// Standard gravity, m/s² (ISO 80000-3, by definition; from memory).
const GRAVITY: f64 = 9.806_65;

impl Press {
    /// The bolts in the order they are tightened; none where the force is known directly.
    #[must_use]
    pub fn order(&self) -> Vec<Bolt> {
        let bolts = usize::try_from(units::stored(self.bolts, Unit::Count)).unwrap_or(0);
        if self.force.is_some() { Vec::new() } else { tightening_order(bolts) }
    }
}

impl Ride {
    /// The load, N: the rider's weight times the landing factor.
    #[must_use]
    pub fn load(&self) -> f64 {
        self.rider / 1000.0 * GRAVITY * self.landing
    }
}

impl Wood {
    /// Thickness of the finished deck, mm: Σ t + lines × bond line, or as measured.
    #[must_use]
    pub fn thickness(&self, layup: &Layup) -> f64 {
        let built = layup.wood_thickness() + layup.glue_lines() as f64 * self.bond_line;
        self.measured_thickness.unwrap_or(built)
    }
}

impl Glue {
    /// Its clock at this bench.
    #[must_use]
    pub fn clock(&self) -> Clock {
        Clock { open: self.open, total: self.total, per_line: self.per_line, closing: self.closing }
    }
}

impl Default for Wood {
    fn default() -> Self {
        Self { moisture: 0.07, bond_line: 0.1, measured_thickness: None }
    }
}

impl Default for Mould {
    fn default() -> Self {
        Self {
            name: String::new(),
            locked: false,
            length: 850.0,
            width: 250.0,
            clear_length: 845.0,
            pressure: None,
        }
    }
}

impl Default for Stock {
    fn default() -> Self {
        Self { sheet_length: 914.4, sheet_width: 254.0, cross_length: 914.4, cross_width: 254.0, kerf: 2.0 }
    }
}

impl Default for Glue {
    fn default() -> Self {
        Self {
            basis: Basis::Line,
            top_first: false,
            density: 1.1e-3,
            solids: 0.5,
            open: 5.0,
            total: 10.0,
            per_line: 1.0,
            closing: 3.0,
            press_time: 24.0 * 60.0,
        }
    }
}

impl Default for Press {
    fn default() -> Self {
        Self {
            bolts: 10.0,
            diameter: 10.0,
            pitch: 1.5,
            thread: Thread::Metric,
            nut_factor: 0.2,
            torque: 12_000.0,
            proof_stress: 225.0,
            force: None,
            wanted: None,
        }
    }
}

impl Default for Ride {
    fn default() -> Self {
        Self {
            axle_height: 53.0,
            axle_offset: 0.0,
            riser: 0.0,
            wheel_diameter: 53.0,
            wheel_half_width: None,
            rider: 75_000.0,
            landing: 1.0,
        }
    }
}

impl Default for Finish {
    fn default() -> Self {
        Self {
            countersink: 10.0,
            countersink_angle: core::f64::consts::FRAC_PI_2,
            round_over: 3.2,
            grip_overlap: 6.0,
        }
    }
}

impl Default for Run {
    fn default() -> Self {
        Self {
            decks: 10.0,
            moulds: 1.0,
            sheet_price: None,
            cross_price: None,
            glue_price: None,
            other_price: None,
        }
    }
}

/// A number that a maker tells the workshop.
#[derive(Debug)]
pub struct Input {
    /// What it is.
    pub quantity: Quantity,
    /// Which group it belongs to.
    pub group: Group,
    /// Where its default comes from.
    pub source: &'static str,
    /// Smallest value accepted.
    pub least: f64,
    /// Largest value accepted.
    pub most: f64,
    /// What is usual; outside it a value is possible but rare. The limits where nothing is.
    pub usual: [f64; 2],
    /// Whether it may be left empty.
    pub optional: bool,
    /// Reads it; `None` is empty.
    pub get: fn(&Inputs) -> Option<f64>,
    /// Writes it. An empty value is ignored where one must stand.
    pub set: fn(&mut Inputs, Option<f64>),
}

/// The group an input belongs to, and under which a file stores it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// The wood.
    Wood,
    /// The mould.
    Mould,
    /// Stock sheets.
    Stock,
    /// Glue.
    Glue,
    /// The press.
    Press,
    /// Trucks and load.
    Ride,
    /// Holes and edges.
    Finish,
    /// The run.
    Run,
}

impl Group {
    /// All groups in the order they are listed, with heading and key in a file.
    pub const ALL: [(Self, &'static str, &'static str); 8] = [
        (Self::Wood, "Wood", "wood"),
        (Self::Mould, "Mould", "mould"),
        (Self::Stock, "Stock sheets", "stock"),
        (Self::Glue, "Glue", "glue"),
        (Self::Press, "Press", "press"),
        (Self::Ride, "Trucks and load", "ride"),
        (Self::Finish, "Holes and edges", "finish"),
        (Self::Run, "Run", "run"),
    ];
}
