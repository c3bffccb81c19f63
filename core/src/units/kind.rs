//! The kinds of quantity: for each its unit inside the core, its grain, and the symbols it is typed and shown in.

mod rows;

use super::System;

/// The kind of a quantity, which fixes its unit inside the core, the symbols it may be typed in and the digits shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// A length along or across a board, in mm. Shown to 0.1 mm, or in fractions of an inch.
    Length,
    /// A small length (ply, bond line, deflection, tolerance), in mm. Shown to 0.01 mm or 0.001 in.
    Thickness,
    /// An area, in mm². Shown in cm² or in².
    Area,
    /// A volume, in mm³. Shown in ml or US fluid ounces.
    Volume,
    /// An angle, in radians. Shown in degrees.
    Angle,
    /// A curvature, in 1/mm, convex positive. Shown in 1/m or 1/in.
    Curvature,
    /// A mass of material, in g. Shown in g or oz, from 1 kg or 1 lb on in those.
    Mass,
    /// The mass of a person, in g. Shown and typed in kg or lb.
    BodyMass,
    /// A part of a whole, 0 to 1. Shown in per cent.
    Share,
    /// A plain number: a factor, a coefficient, a fullness.
    Ratio,
    /// A whole number of things.
    Count,
    /// A force, in N. Shown in N, kN or lbf.
    Force,
    /// A pressure, stress or modulus, in MPa. Shown in MPa, GPa, psi or ksi.
    Pressure,
    /// A torque, in N·mm. Shown in N m or lbf in.
    Torque,
    /// A bending stiffness EI, in N·mm². Shown in N m² or lbf in².
    BendingStiffness,
    /// A mass on a surface, such as a glue spread, in g/mm². Shown in g/m² or lb/1000 ft².
    MassPerArea,
    /// A mass in a volume, in g/mm³. Shown in g/cm³ or lb/ft³.
    Density,
    /// A duration typed and shown in minutes, in minutes.
    Minutes,
    /// A duration typed and shown in hours, in *minutes*, so that the two kinds add up.
    Hours,
}

impl Unit {
    /// The symbol of a number typed without one: `mm`, `in`, `°`, `%`; empty for plain numbers.
    pub fn symbol(self, system: System) -> &'static str {
        self.row().page(system)[0].text
    }

    /// The symbol of the unit that scripts and the page's hooks give it in; empty for plain numbers and shares.
    #[must_use]
    pub fn script_symbol(self) -> &'static str {
        match self {
            Self::Length | Self::Thickness => "mm",
            Self::Area => "mm²",
            Self::Volume => "mm³",
            Self::Angle => "°",
            Self::Curvature => "1/mm",
            Self::Mass | Self::BodyMass => "g",
            Self::Share | Self::Ratio | Self::Count => "",
            Self::Force => "N",
            Self::Pressure => "MPa",
            Self::Torque => "N mm",
            Self::BendingStiffness => "N mm²",
            Self::MassPerArea => "g/mm²",
            Self::Density => "g/mm³",
            Self::Minutes | Self::Hours => "min",
        }
    }

    /// Whether it is typed and read as a length, with feet, inches and fractions.
    pub(super) fn is_length(self) -> bool {
        matches!(self, Self::Length | Self::Thickness)
    }

    pub(super) fn row(self) -> &'static Row {
        match self {
            Self::Length => &rows::LENGTH,
            Self::Thickness => &rows::THICKNESS,
            Self::Area => &rows::AREA,
            Self::Volume => &rows::VOLUME,
            Self::Angle => &rows::ANGLE,
            Self::Curvature => &rows::CURVATURE,
            Self::Mass => &rows::MASS,
            Self::BodyMass => &rows::BODY_MASS,
            Self::Share => &rows::SHARE,
            Self::Ratio => &rows::RATIO,
            Self::Count => &rows::COUNT,
            Self::Force => &rows::FORCE,
            Self::Pressure => &rows::PRESSURE,
            Self::Torque => &rows::TORQUE,
            Self::BendingStiffness => &rows::BENDING_STIFFNESS,
            Self::MassPerArea => &rows::MASS_PER_AREA,
            Self::Density => &rows::DENSITY,
            Self::Minutes => &rows::MINUTES,
            Self::Hours => &rows::HOURS,
        }
    }
}

/// All that is known of one kind.
pub(super) struct Row {
    /// Its name in a message, with the article.
    pub(super) noun: &'static str,
    /// Well-formed text, for a message.
    pub(super) example: &'static str,
    /// Grains in one unit of the core; for an angle in one degree.
    pub(super) grains: f64,
    /// The symbols shown on a metric page, smallest first. The first is what a bare number means.
    pub(super) metric: &'static [Symbol],
    /// The same on a page in inches.
    pub(super) inch: &'static [Symbol],
    /// Symbols that are read but never shown.
    pub(super) typed: &'static [Symbol],
}

impl Row {
    /// The symbols shown on a page of that system.
    pub(super) fn page(&self, system: System) -> &'static [Symbol] {
        match system {
            System::Millimetres => self.metric,
            System::Inches { .. } => self.inch,
        }
    }

    /// Every symbol that is read, whatever the page.
    pub(super) fn symbols(&self) -> impl Iterator<Item = &'static Symbol> {
        self.metric.iter().chain(self.inch).chain(self.typed)
    }
}

/// One way to write a unit.
pub(super) struct Symbol {
    /// As shown.
    pub(super) text: &'static str,
    /// Grains in one of it.
    pub(super) grains: f64,
    /// Digits shown after the point.
    pub(super) places: u8,
    /// As typed: lower case, without spaces, with plain digits for raised ones.
    pub(super) names: &'static [&'static str],
}
