//! The cross-section of the pressed deck at one station: a strip of plate with a flat middle and two arcs.

use super::laminate::Stiffness;
use crate::{datum::Datum, profile::Profile};

/// A cross-section; mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Half its width.
    pub half_width: f64,
    /// Height of the rail above the centre: the arc of the concave cut to this width.
    pub depth: f64,
    /// Share of the half width that is arc; the rest is the flat strip.
    pub arc: f64,
}

impl Section {
    /// The section at station `x`, `half_width` mm to each side; without the concave where that is not asked for.
    ///
    /// The depth is that of the concave's own arc at the local width; that width is taken as straight, the developed one
    /// being within one part in a hundred of it.
    #[must_use]
    pub fn of(profile: &Profile, datum: &Datum, x: f64, half_width: f64, concave: bool) -> Self {
        let flat = profile.flat_strip / 2.0;
        let full = if concave { profile.concave_at(datum, x) } else { 0.0 };
        let (m, arc) = ((profile.concave_width - profile.flat_strip) / 2.0, half_width - flat);
        if full <= 0.0 || arc <= 0.0 {
            return Self { half_width, depth: 0.0, arc: 0.0 };
        }
        let radius = (m * m + full * full) / (2.0 * full);
        let inside = (radius * radius - arc * arc).max(0.0).sqrt();
        Self { half_width, depth: radius - inside, arc: arc / half_width }
    }

    /// Mean height above the centre, as a share of the depth: a third of the share that is arc.
    fn mean(&self) -> f64 {
        self.arc / 3.0
    }

    /// EI, N·mm²: D·w + (Σ E·t)·w·c²·(φ/5 − φ²/9), φ the share that is arc.
    ///
    /// The last factor is the variance of the height of a shallow (parabolic) arc beside a flat strip: mean φ/3, mean
    /// square φ/5. Without a strip φ = 1 it is 4/45.
    #[must_use]
    pub fn stiffness(&self, plate: &Stiffness) -> f64 {
        let spread = self.arc / 5.0 - self.mean() * self.mean();
        2.0 * self.half_width * (plate.bend + plate.stretch * self.depth * self.depth * spread)
    }

    /// How far the middle of the plate reaches above its section's axis, at the rail, and below, at the centre.
    #[must_use]
    pub fn reach(&self) -> [f64; 2] {
        [self.depth * (1.0 - self.mean()), self.depth * self.mean()]
    }
}
