//! The press: bolts, torque, and the pressure they make.
//!
//! T = K·F·d with a nut factor K (after Shigley, as mechconcepts.tech and aionlinecalculator.com give it; .20 plain, .15 lubricated, .30 dry); real preloads scatter by a quarter or
//! more (from memory). Forces in N, torques in N·mm, lengths in mm, pressures in MPa.

use super::fault::Fault;
use crate::{
    say,
    units::{System, Unit, show},
};
use core::f64::consts::PI;

/// The share of the proof load to which a bolt that is used again may be tightened (after Shigley; the book was not read).
pub const PROOF_SHARE: f64 = 0.75;

/// A press closed by equal bolts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bolted {
    /// How many bolts.
    pub bolts: f64,
    /// Nominal diameter, mm.
    pub diameter: f64,
    /// Pitch of the thread, mm.
    pub pitch: f64,
    /// Nut factor K.
    pub nut_factor: f64,
    /// Proof stress of the bolt, MPa.
    pub proof_stress: f64,
    /// The standard of its thread.
    pub thread: Thread,
}

/// The standard of a thread, by which its stress area is reckoned.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Thread {
    /// Metric.
    #[default]
    Metric,
    /// Unified inch.
    Inch,
}

impl Thread {
    /// Both by their words in files.
    pub const WORDS: [(&'static str, Self); 2] = [("metric", Self::Metric), ("inch", Self::Inch)];
}

/// A published range of clamping pressure for flat joints.
#[derive(Debug, PartialEq)]
pub struct Range {
    /// Who gives it, for which joint.
    pub source: &'static str,
    /// Low end, MPa.
    pub low: f64,
    /// High end, MPa.
    pub high: f64,
}

impl Range {
    /// Its ends in the units of the page, and who gives it.
    #[must_use]
    pub fn words(&self, system: System) -> String {
        let [low, high] = [self.low, self.high].map(|p| show(p, Unit::Pressure, system));
        let figure = if self.low < self.high { say!("{low} to {high}", low, high) } else { low.to_string() };
        say!("{figure}. {source}", figure, source = self.source)
    }
}

/// What is published for flat joints in hardwood. They disagree; a hand-bolted mould mostly lies below all of them
/// (common practice, no source), and neither is wrong.
pub const PUBLISHED: [Range; 5] = [
    Range {
        source: "FAA AC 43.13-1B (1998), 1-10 b: resorcinol, hardwood (150–200 psi)",
        low: 1.03,
        high: 1.38,
    },
    Range {
        source: "woodmagazine.com, on clamping pressure: PVA, hardwood (175–250 psi)",
        low: 1.21,
        high: 1.72,
    },
    Range {
        source: "An adhesive maker's guide (studylib.net, 18296895): medium hardwood (150–200 psi)",
        low: 1.03,
        high: 1.38,
    },
    Range {
        source: "An adhesive maker's guide (studylib.net, 18296895): hard hardwood (200–300 psi)",
        low: 1.38,
        high: 2.07,
    },
    Range {
        source: "Rabiej and Behm, Wood and Fiber Science, abstract: half the strength across the grain, sugar maple, PVA; a laboratory bound",
        low: 5.0,
        high: 5.0,
    },
];

/// The band shown beside a pressure, MPa: from the lowest of the shop figures to the highest but one; a choice of this
/// page.
pub const BAND: [f64; 2] = [1.0, 1.7];

/// Preload of a bolt from its torque, N.
///
/// # Errors
///
/// [`Fault::Diameter`] without a diameter or a nut factor.
pub fn preload(torque: f64, nut_factor: f64, diameter: f64) -> Result<f64, Fault> {
    let per_newton = nut_factor * diameter;
    if per_newton > 0.0 { Ok(torque / per_newton) } else { Err(Fault::Diameter { found: diameter }) }
}

/// Tensile stress area of a thread, mm²: (π/4)·(d − 0.9382·p)² metric, with 0.9743·p inch, as
/// engineersedge.com 15797 has the areas, from Bickford.
#[must_use]
pub fn stress_area(diameter: f64, pitch: f64, thread: Thread) -> f64 {
    let pitches = match thread {
        Thread::Metric => 0.9382,
        Thread::Inch => 0.9743,
    };
    let d = (diameter - pitches * pitch).max(0.0);
    PI / 4.0 * d * d
}

/// Torque from the friction of thread and nut face apart, N·mm: the long form that K stands for (Shigley ch. 8, from
/// memory). A thread of 60°, a nut face 1.25 diameters wide in the mean.
#[must_use]
pub fn torque_by_friction(force: f64, diameter: f64, pitch: f64, thread: f64, face: f64) -> f64 {
    const SECANT: f64 = 1.154_700_538_379_251_5; // of half the thread's angle, 30°
    let mean = diameter - 0.649_519 * pitch;
    let lead = pitch / (PI * mean);
    let screw = mean / 2.0 * (lead + thread * SECANT) / (1.0 - thread * lead * SECANT);
    force * (screw + 0.625 * face * diameter)
}

impl Bolted {
    /// The load a bolt may take, N: 0.75 of its proof load.
    #[must_use]
    pub fn most_load(&self) -> f64 {
        PROOF_SHARE * self.proof_stress * stress_area(self.diameter, self.pitch, self.thread)
    }

    /// The torque at that load, N·mm.
    #[must_use]
    pub fn most_torque(&self) -> f64 {
        torque(self.most_load(), self.nut_factor, self.diameter)
    }

    /// Load on each bolt at a torque, N.
    ///
    /// # Errors
    ///
    /// [`Fault::Diameter`], and [`Fault::PastProof`] above 0.75 of the proof load.
    pub fn load(&self, torque: f64) -> Result<f64, Fault> {
        let load = preload(torque, self.nut_factor, self.diameter)?;
        self.within_proof(load)
    }

    fn within_proof(&self, load: f64) -> Result<f64, Fault> {
        let limit = self.most_load();
        if load > limit {
            return Err(Fault::PastProof { load, limit, torque: self.most_torque() });
        }
        Ok(load)
    }

    /// Torque on each bolt, N·mm, that presses `area` mm² with `pressure`, of a mould that may take `allowed`.
    ///
    /// # Errors
    ///
    /// No torque is given without the mould's limit ([`Fault::NoMouldLimit`]), past it ([`Fault::PastMould`]), past the
    /// bolts' ([`Fault::PastProof`]), or without bolts ([`Fault::Diameter`], [`Fault::NoBolts`]).
    pub fn torque_for(&self, pressure: f64, area: f64, allowed: Option<f64>) -> Result<f64, Fault> {
        let limit = allowed.ok_or(Fault::NoMouldLimit)?;
        if pressure > limit {
            return Err(Fault::PastMould { field: "wanted-pressure", pressure, limit });
        }
        if self.bolts < 1.0 {
            return Err(Fault::NoBolts);
        }
        if self.diameter * self.nut_factor <= 0.0 {
            return Err(Fault::Diameter { found: self.diameter });
        }
        let load = self.within_proof(pressure * area / self.bolts)?;
        Ok(torque(load, self.nut_factor, self.diameter))
    }
}

/// Where a bolt stands: which pair along the mould, 1 nearest the tail, and on which side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bolt {
    /// Number of its pair, from the tail.
    pub pair: usize,
    /// Whether it stands on the left, seen from above with the nose ahead.
    pub left: bool,
}

/// The order in which bolts that stand in pairs along a mould are tightened, from the middle out and from side to side,
/// each round (common practice, no source). An odd bolt stands alone at the nose.
#[must_use]
pub fn tightening_order(bolts: usize) -> Vec<Bolt> {
    let pairs = bolts.div_ceil(2);
    let mut order = Vec::with_capacity(bolts);
    for step in 0..pairs {
        // Middle, one toward the nose, one toward the tail, two toward the nose, …
        let away = step.div_ceil(2);
        let middle = pairs.div_ceil(2);
        let pair = if step % 2 == 1 { middle + away } else { middle - away };
        let first = step % 2 == 0;
        for left in [first, !first] {
            order.push(Bolt { pair, left });
        }
    }
    if bolts % 2 == 1 {
        order.retain(|bolt| bolt.pair != pairs || bolt.left);
    }
    order
}

/// Smaller of the blank and the mould as seen from above, mm²: what the bolts press on. A blank's `length` and `width` are
/// projected ones.
#[must_use]
pub fn pressed_area(length: f64, width: f64, mould_length: f64, mould_width: f64) -> f64 {
    length.min(mould_length) * width.min(mould_width)
}

/// How a pressure lies to [`BAND`].
#[must_use]
pub fn beside_the_band(pressure: f64) -> &'static str {
    if pressure < BAND[0] {
        "below the published ranges for flat joints, as most hand-bolted moulds are"
    } else if pressure > BAND[1] {
        "above most published ranges for flat joints"
    } else {
        "within the published ranges for flat joints"
    }
}

/// Torque of a bolt for a load, N·mm: T = K·F·d.
#[must_use]
pub fn torque(load: f64, nut_factor: f64, diameter: f64) -> f64 {
    load * nut_factor * diameter
}

/// Relative scatter of a preload set by torque (from memory).
pub const SCATTER: f64 = 0.3;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_bolt_is_tightened_once_and_the_middle_first() {
        for bolts in 0..=15 {
            let order = tightening_order(bolts);
            assert_eq!(order.len(), bolts);
            let pairs = bolts.div_ceil(2);
            for pair in 1..=pairs {
                let of_pair: Vec<_> = order.iter().filter(|bolt| bolt.pair == pair).collect();
                assert_eq!(of_pair.len(), if pair == pairs && bolts % 2 == 1 { 1 } else { 2 });
            }
            // Never farther from the middle before nearer.
            let off = |bolt: &Bolt| (2 * bolt.pair).abs_diff(pairs + 1);
            assert!(order.windows(2).all(|two| off(&two[0]) <= off(&two[1]) + 1), "{bolts}: {order:?}");
        }
        let pairs: Vec<usize> = tightening_order(10).iter().map(|bolt| bolt.pair).collect();
        assert_eq!(pairs, [3, 3, 4, 4, 2, 2, 5, 5, 1, 1]);
    }
}
