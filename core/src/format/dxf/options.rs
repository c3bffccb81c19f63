//! The kinds of DXF file.

use crate::{
    language::{figure, said},
    quantities::Quantity,
    say, tolerance,
    units::{self, System, Unit, Words, error_with_words},
};
use core::fmt;

/// What kind of file. Checked by [`DxfOptions::check`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DxfOptions {
    /// The release.
    pub release: Release,
    /// How curves are written.
    pub curves: Curves,
    /// How far arcs and lines may lie from the curves they stand for, mm. Splines of an outline are the curves themselves.
    pub tolerance: f64,
}

/// The release of the format.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Release {
    /// 2000, AC1015.
    #[default]
    R2000,
    /// 12, AC1009, for old machines. It knows no unit: the one in the header is read by most programs, not by all.
    R12,
}

/// How curves are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Curves {
    /// Polylines of lines and arcs.
    #[default]
    Arcs,
    /// Cubic splines.
    Splines,
    /// Polylines of lines alone.
    Lines,
}

/// What the tolerance is called.
pub const TOLERANCE: Quantity = Quantity {
    key: "export-tolerance",
    label: "Tolerance of curves",
    help: "How far the arcs or lines of a file may lie from the curves they stand for.",
    unit: Unit::Thickness,
};

/// Limits of the tolerance, mm: finer than a nanometre written can tell, and coarser than a saw.
pub const LIMITS: (f64, f64) = (1e-4, 0.5);

impl Default for DxfOptions {
    /// Release 2000, arcs within [`tolerance::EXPORT_ARCS`].
    fn default() -> Self {
        Self { release: Release::R2000, curves: Curves::Arcs, tolerance: tolerance::EXPORT_ARCS }
    }
}

impl DxfOptions {
    /// Whether the options go together.
    ///
    /// # Errors
    ///
    /// [`DxfError`].
    pub fn check(&self) -> Result<(), DxfError> {
        if self.release == Release::R12 && self.curves == Curves::Splines {
            return Err(DxfError::SplinesInR12);
        }
        if !(LIMITS.0..=LIMITS.1).contains(&self.tolerance) {
            return Err(DxfError::Tolerance(self.tolerance));
        }
        Ok(())
    }
}

impl Release {
    /// Its name in scripts.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::R2000 => "r2000",
            Self::R12 => "r12",
        }
    }
}

impl Curves {
    /// Its name in scripts.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Arcs => "arcs",
            Self::Splines => "splines",
            Self::Lines => "lines",
        }
    }
}

/// Why there is no such file.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum DxfError {
    /// Release 12 has no splines.
    SplinesInR12,
    /// The tolerance lies outside its limits, or is no number.
    Tolerance(f64),
}

impl DxfError {
    /// The key of the field at fault.
    #[must_use]
    pub fn field(&self) -> &'static str {
        match self {
            Self::SplinesInR12 => "curves",
            Self::Tolerance(_) => TOLERANCE.key,
        }
    }
}

impl Words for DxfError {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        match self {
            Self::SplinesInR12 => {
                f.write_str(said("release 12 has no splines: choose arcs, lines, or release 2000"))
            }
            Self::Tolerance(found) => {
                // Finer than lengths are shown.
                let fine = |mm: f64| match system {
                    System::Millimetres => figure(units::decimal_trimmed(mm, 4)),
                    System::Inches { .. } => figure(units::decimal_trimmed(mm / units::inches(1.0), 6)),
                };
                let [found, least, most] = [*found, LIMITS.0, LIMITS.1].map(fine);
                let unit = TOLERANCE.unit.symbol(system);
                let [found, most] = [found, most].map(|figure| [&figure, " ", unit].concat());
                say!(in f, "a tolerance of {found} is not between {least} and {most}",
                    found,
                    least,
                    most
                )
            }
        }
    }
}

error_with_words!(DxfError);
