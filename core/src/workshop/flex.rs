//! How the deck gives under a load: a laminated beam on its two truck centres.
//!
//! Estimates throughout, for comparing decks; no rider is ever certified by them. Plain bending: the published modulus
//! was measured with the shear in it (the Wood Handbook's note to Table 5-3, from memory), so a shear term would count it
//! twice.

use super::{
    laminate::{Laminate, Layer, Stiffness},
    section::Section,
};
use crate::{design::Shape, layup::Grain, measure::Measured, order::sort_by_number};
use kurbo::common::GAUSS_LEGENDRE_COEFFS_16;

/// Stations at which stiffness and stress are listed: some 5 mm apart.
const STATIONS: usize = 81;

/// The deck as a beam.
#[derive(Clone, Debug)]
pub struct Beam<'a> {
    shape: &'a Shape,
    measured: &'a Measured,
    stiffness: Stiffness,
    /// The fibres that are judged, above and below the plate's axis.
    fibres: [Fibre; 2],
}

/// The fibre that is judged on one face.
#[derive(Clone, Copy, Debug)]
struct Fibre {
    /// Distance from the plate's axis, mm.
    distance: f64,
    /// Modulus along the board, MPa.
    modulus: f64,
    /// Strength of its wood (modulus of rupture), MPa.
    rupture: f64,
}

/// The beam at one station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Where, mm.
    pub x: f64,
    /// Bending stiffness EI, N·mm².
    pub stiffness: f64,
    /// Greatest stress along the grain near the top face, at the rails, MPa (pressed).
    pub top: f64,
    /// Greatest stress along the grain near the bottom face, at the centre, MPa (pulled).
    pub bottom: f64,
}

/// The beam under a load midway between its trucks.
#[derive(Clone, Debug, PartialEq)]
pub struct Flex {
    /// The load, N.
    pub load: f64,
    /// How far the middle goes down, mm.
    pub deflection: f64,
    /// The same without the concave, mm.
    pub flat_deflection: f64,
    /// Bending stiffness EI in the middle, N·mm².
    pub middle: f64,
    /// The greatest stress on the top face, MPa.
    pub top: f64,
    /// The greatest stress on the bottom face, MPa.
    pub bottom: f64,
    /// The greater of the two stresses as a share of the strength of the wood it is in.
    pub strength_share: f64,
    /// Along the board from truck to truck.
    pub stations: Vec<Station>,
}

impl<'a> Beam<'a> {
    /// The beam of a shape whose plies are `layers` and make `laminate`.
    #[must_use]
    pub fn of(shape: &'a Shape, measured: &'a Measured, laminate: &Laminate, layers: &[Layer]) -> Self {
        let axis = laminate.along.axis;
        let below = laminate.thickness - axis;
        let fibres = [outermost(layers.iter(), axis), outermost(layers.iter().rev(), below)];
        Self { shape, measured, stiffness: laminate.along, fibres }
    }

    /// Distance of a support from the middle, mm.
    fn half_span(&self) -> f64 {
        self.shape.datum.truck_centre()
    }

    /// The section at a station; flat where `concave` is not asked for.
    fn section(&self, x: f64, concave: bool) -> Section {
        let half_width = self.measured.envelope.half_breadth(x).unwrap_or(0.0);
        Section::of(&self.shape.profile, &self.shape.datum, x, half_width, concave)
    }

    /// EI at station `x`, N·mm².
    #[must_use]
    pub fn stiffness_at(&self, x: f64) -> f64 {
        self.section(x, true).stiffness(&self.stiffness)
    }

    /// Deflection at station `at`, mm, downward positive, under `loads` of N at stations of their own; both may lie
    /// beyond the supports. ∫ M·m ÷ EI, m the moment of a load of one at `at` (virtual work).
    ///
    /// The board is taken as straight also where it kicks up, and its concave where `concave` says so.
    #[must_use]
    pub fn deflection(&self, at: f64, loads: &[(f64, f64)], concave: bool) -> f64 {
        let span = self.half_span();
        let mut sum = 0.0;
        for pair in self.breaks(at, loads).windows(2) {
            let (middle, half) = ((pair[0] + pair[1]) / 2.0, (pair[1] - pair[0]) / 2.0);
            for &(weight, place) in GAUSS_LEGENDRE_COEFFS_16 {
                let x = middle + half * place;
                let moment: f64 = loads.iter().map(|&(s, load)| load * unit_moment(span, s, x)).sum();
                let ei = self.section(x, concave).stiffness(&self.stiffness);
                sum += weight * half * moment * unit_moment(span, at, x) / ei;
            }
        }
        sum
    }

    /// Stations between which everything is smooth: supports, loads, ends of stretches of the edge, of the fade.
    fn breaks(&self, at: f64, loads: &[(f64, f64)]) -> Vec<f64> {
        let span = self.half_span();
        let mut breaks = vec![-span, span, at];
        breaks.extend(loads.iter().map(|&(x, _)| x));
        let (from, to) = breaks.iter().fold((0.0, 0.0), |(a, b): (f64, f64), &x| (a.min(x), b.max(x)));
        let profile = &self.shape.profile;
        for (kick, sign) in [(&profile.nose, 1.0), (&profile.tail, -1.0)] {
            let bend = self.shape.datum.outer_row() + kick.reference();
            breaks.extend([sign * bend, sign * (bend - profile.concave_fade)]);
        }
        breaks.extend(self.measured.envelope.stretches().iter().map(|stretch| stretch.start.x));
        breaks.retain(|&x| from <= x && x <= to);
        sort_by_number(&mut breaks, |x| *x);
        breaks
    }

    /// Stiffness and stresses at station `x` under `load`. Stress is E·(distance from the section's axis)·M/EI at the real
    /// fibre: two thirds of the depth and the half thickness at the rail, a third and the half thickness at the centre.
    fn station(&self, load: f64, x: f64) -> Station {
        let section = self.section(x, true);
        let ei = section.stiffness(&self.stiffness);
        let curvature = load * unit_moment(self.half_span(), 0.0, x) / ei;
        let [above, below] = section.reach();
        let [top, bottom] = self.fibres;
        Station {
            x,
            stiffness: ei,
            top: top.modulus * (above + top.distance) * curvature,
            bottom: bottom.modulus * (below + bottom.distance) * curvature,
        }
    }

    /// The beam under `load` N in the middle.
    #[must_use]
    pub fn under(&self, load: f64) -> Flex {
        let span = self.half_span();
        let place = |i: usize| span * (2.0 * i as f64 / (STATIONS - 1) as f64 - 1.0);
        let stations: Vec<Station> = (0..STATIONS).map(|i| self.station(load, place(i))).collect();
        let most = |stress: fn(&Station) -> f64| stations.iter().map(stress).fold(0.0, f64::max);
        let [top, bottom] = [most(|station| station.top), most(|station| station.bottom)];
        let [above, below] = self.fibres;
        Flex {
            load,
            deflection: self.deflection(0.0, &[(0.0, load)], true),
            flat_deflection: self.deflection(0.0, &[(0.0, load)], false),
            middle: self.stiffness_at(0.0),
            top,
            bottom,
            strength_share: (top / above.rupture).max(bottom / below.rupture),
            stations,
        }
    }
}

/// The outer fibre of the outermost ply along the board, `from` mm from the axis to the face: a cross ply has no published
/// strength to judge it by. The face itself where no ply runs along.
fn outermost<'a>(layers: impl Iterator<Item = &'a Layer>, from: f64) -> Fibre {
    let (mut distance, mut face) = (from, Fibre { distance: from, modulus: 0.0, rupture: f64::INFINITY });
    for layer in layers {
        let rupture = layer.rupture;
        if layer.grain == Grain::Along {
            return Fibre { distance, modulus: layer.along, rupture };
        }
        face = Fibre { modulus: face.modulus.max(layer.across), rupture: face.rupture.min(rupture), ..face };
        distance -= layer.thickness;
    }
    face
}

/// Bending moment at `x`, N·mm, of a load of 1 N at `s` on supports at ±`span`: what stands tailward of `x` turns about it.
fn unit_moment(span: f64, s: f64, x: f64) -> f64 {
    let arm = |from: f64| (x - from).max(0.0);
    let nose = (s + span) / (2.0 * span);
    (1.0 - nose) * arm(-span) + nose * arm(span) - arm(s)
}

impl Flex {
    /// How much stiffer this deck is than another under its own load: 1.2 gives a sixth less way.
    #[must_use]
    pub fn stiffness_ratio(&self, other: &Self) -> f64 {
        (other.deflection / other.load) / (self.deflection / self.load)
    }
}
