//! What is wrong or doubtful about the workshop's numbers: each names its field, what was found, the limit and the way
//! out.

use crate::{
    language::said,
    layup::Layup,
    quantities::Quantity,
    say,
    units::{self, System, Unit},
};
use core::fmt;

/// Something wrong or doubtful.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Fault {
    /// There is no ply.
    NoPlies,
    /// A ply is not thicker than nothing.
    Thickness {
        /// Which, 1 the top one.
        ply: usize,
        /// Its thickness, mm.
        found: f64,
    },
    /// All grain runs one way.
    OneGrain,
    /// The upper half of the stack is not the mirror of the lower.
    Unbalanced,
    /// A bend is tighter than its plies like.
    TightBend {
        /// The radius's field.
        field: &'static str,
        /// The radius, mm.
        radius: f64,
        /// The smallest by estimate, mm.
        least: f64,
    },
    /// The blank is smaller than the outline.
    BlankTooSmall {
        /// The blank's length or width.
        field: &'static str,
        /// By how much, mm.
        short: f64,
    },
    /// The blank leaves little round the outline.
    NarrowMargin {
        /// The blank's length or width.
        field: &'static str,
        /// What it leaves on each side, mm.
        margin: f64,
        /// What it should, mm.
        least: f64,
    },
    /// The veneers do not clear the mould's posts.
    Posts {
        /// The clear length less the blank's, mm.
        spare: f64,
    },
    /// Not one veneer comes out of a sheet.
    SheetTooSmall {
        /// The sheet's length.
        field: &'static str,
    },
    /// A torque without a diameter.
    Diameter {
        /// What was found, mm.
        found: f64,
    },
    /// A press without bolts.
    NoBolts,
    /// A bolt loaded past 0.75 of its proof load.
    PastProof {
        /// Its load, N.
        load: f64,
        /// The most it may take, N.
        limit: f64,
        /// The torque at that, N·mm.
        torque: f64,
    },
    /// A torque is asked for without the limit of the mould.
    NoMouldLimit,
    /// A pressure past the limit of the mould.
    PastMould {
        /// What makes the pressure.
        field: &'static str,
        /// The pressure, MPa.
        pressure: f64,
        /// The limit, MPa.
        limit: f64,
    },
    /// The first line is pressed too late.
    TooSlow {
        /// Share of its time used.
        used: f64,
        /// The slowest pace that keeps to it, minutes per line, where there is one.
        pace: Option<f64>,
    },
    /// A thickness beyond the published table.
    OutsideTable {
        /// The thickness, mm.
        thickness: f64,
        /// The thinnest row, mm.
        least: f64,
        /// The thickest row, mm.
        most: f64,
    },
    /// A number of plies that the published table does not have.
    NoTable {
        /// The number.
        plies: usize,
    },
    /// A round-over of half the thickness or more.
    RoundOver {
        /// Its radius, mm.
        found: f64,
        /// Half the thickness, mm.
        most: f64,
    },
    /// An input outside its hard limits.
    OutOfRange {
        /// The input.
        quantity: &'static Quantity,
        /// What was found.
        found: f64,
        /// The limits.
        limits: [f64; 2],
    },
    /// An input that is possible but rare.
    Unusual {
        /// The input.
        quantity: &'static Quantity,
        /// What was found.
        found: f64,
        /// What is usual.
        usual: [f64; 2],
    },
}

impl Fault {
    /// The key of the field it stands beside.
    #[must_use]
    pub fn field(&self) -> &'static str {
        match self {
            Self::NoPlies | Self::OneGrain | Self::Unbalanced | Self::NoTable { .. } => "plies",
            Self::Thickness { .. } | Self::OutsideTable { .. } => "ply-thickness",
            Self::TightBend { field, .. }
            | Self::BlankTooSmall { field, .. }
            | Self::NarrowMargin { field, .. }
            | Self::SheetTooSmall { field }
            | Self::PastMould { field, .. } => field,
            Self::Posts { .. } => "mould-clear-length",
            Self::Diameter { .. } => "bolt-diameter",
            Self::NoBolts => "bolts",
            Self::PastProof { .. } => "bolt-torque",
            Self::NoMouldLimit => "mould-pressure",
            Self::TooSlow { .. } => "minutes-per-line",
            Self::RoundOver { .. } => "round-over",
            Self::OutOfRange { quantity, .. } | Self::Unusual { quantity, .. } => quantity.key,
        }
    }

    /// Whether what depends on it cannot be given; the rest are warnings beside figures that stand.
    #[must_use]
    pub fn refuses(&self) -> bool {
        !matches!(
            self,
            Self::OneGrain
                | Self::Unbalanced
                | Self::TightBend { .. }
                | Self::BlankTooSmall { .. }
                | Self::NarrowMargin { .. }
                | Self::Posts { .. }
                | Self::TooSlow { .. }
                | Self::Unusual { .. }
        )
    }

    /// Why a figure is missing, in a few words that hold no numbers.
    #[must_use]
    pub fn reason(&self) -> &'static str {
        match self {
            Self::NoPlies => "no plies",
            Self::Thickness { .. } => "a ply has no thickness",
            Self::SheetTooSmall { .. } => "no veneer fits the sheet",
            Self::Diameter { .. } => "no bolt diameter",
            Self::NoBolts => "no bolts",
            Self::PastProof { .. } => "past the bolts' limit",
            Self::NoMouldLimit => "the mould's limit is not given",
            Self::PastMould { .. } => "past the mould's limit",
            Self::OutsideTable { .. } | Self::NoTable { .. } => "outside the published table",
            Self::RoundOver { .. } => "rounder than half the thickness",
            _ => "see the warning",
        }
    }

    /// The message, in the units the maker reads.
    #[must_use]
    pub fn message(&self, system: System) -> String {
        let show = |value: f64, unit: Unit| units::show(value, unit, system).to_string();
        let mm = |value: f64| show(value, Unit::Length);
        match *self {
            Self::NoPlies => {
                say!("There are no plies: lay up {least} to {most}.", least = Layup::PLY_COUNT.start(), most = Layup::PLY_COUNT.end())
            }
            Self::Thickness { ply, found } => {
                say!("Ply {ply} is {found} thick: type more than 0.", ply, found = show(found, Unit::Thickness))
            }
            Self::OneGrain => said("All grain runs one way: such a deck splits along it. Turn one ply or more across.").to_owned(),
            Self::Unbalanced => {
                said("The stack is not the same from both faces, so that the deck may twist: mirror it about its middle.").to_owned()
            }
            Self::TightBend { radius, least, .. } => say!("A bend of {radius} is tighter than the {least} estimated for these plies: bend a test strip first, or use thinner plies or a wider radius. Many shops press tighter.", radius = mm(radius), least = mm(least)),
            Self::BlankTooSmall { short, .. } => {
                say!("The blank is {short} smaller than the outline: cut the veneers larger.", short = mm(short))
            }
            Self::NarrowMargin { margin, least, .. } => say!("The blank leaves {margin} on each side: {least} or more leaves room for the saw and for plies that slip.", margin = mm(margin), least = mm(least)),
            Self::Posts { spare } if spare < 0.0 => {
                say!("The veneers are {spare} longer than the mould is clear between its posts: cut them shorter.", spare = mm(-spare))
            }
            Self::Posts { spare } => say!("The veneers clear the posts by {spare} only: {least} or more lets them lie flat.", spare = mm(spare), least = mm(super::blank::POST_CLEARANCE)),
            Self::SheetTooSmall { .. } => {
                said("Not one veneer comes out of such a sheet with its grain the right way: take a larger sheet or a smaller blank.").to_owned()
            }
            Self::Diameter { found } => {
                say!("A torque says nothing with bolts of {found}: type their diameter.", found = mm(found))
            }
            Self::NoBolts => said("A press needs a bolt: type how many, or the force itself.").to_owned(),
            Self::PastProof { load, limit, torque } => say!("{load} on each bolt is past {limit}, three quarters of its proof load: stay below {torque}, or take more or stronger bolts.", load = show(load, Unit::Force), limit = show(limit, Unit::Force), torque = show(torque, Unit::Torque)),
            Self::NoMouldLimit => {
                said("No torque is given without the pressure the mould may take: ask its maker and type it.").to_owned()
            }
            Self::PastMould { pressure, limit, .. } => say!("{pressure} is more than the {limit} the mould may take: ask for less.", pressure = show(pressure, Unit::Pressure), limit = show(limit, Unit::Pressure)),
            Self::TooSlow { used, pace } => {
                let used = show(used, Unit::Share);
                match pace {
                    Some(pace) => say!("The first line uses {used} of its time: lay a line in {pace} or less, or take a slower glue.", used, pace = show(pace, Unit::Minutes)),
                    None => say!("The first line uses {used} of its time: close the press faster, or take a slower glue.", used),
                }
            }
            Self::OutsideTable { thickness, least, most } => say!("{thickness} lies outside the published table ({least} to {most}), which is not carried on: bend a test strip.", thickness = show(thickness, Unit::Thickness), least = show(least, Unit::Thickness), most = show(most, Unit::Thickness)),
            Self::NoTable { plies } => say!("The published table has 3 and 5 plies, not {plies}: bend a test strip.", plies),
            Self::RoundOver { found, most } => {
                say!("A round-over of {found} needs more than twice that of edge: stay below {most}.", found = mm(found), most = mm(most))
            }
            Self::OutOfRange { quantity, found, limits: [least, most] } => {
                let Quantity { label, unit, .. } = *quantity;
                say!("{label} {found} is refused: type {least} to {most}.", label, found = show(found, unit), least = show(least, unit), most = show(most, unit))
            }
            Self::Unusual { quantity, found, usual: [low, high] } => {
                let Quantity { label, unit, .. } = *quantity;
                say!("{label} {found} is unusual: {low} to {high} is common.", label, found = show(found, unit), low = show(low, unit), high = show(high, unit))
            }
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message(System::default()))
    }
}

impl core::error::Error for Fault {}

crate::language::say_displayed!(Fault);
