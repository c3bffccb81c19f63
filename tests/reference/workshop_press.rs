//! Bolts, torque and pressure.
//!
//! Sources: T = K·F·d with K 0.20 and a preload of 0.75 proof (paraphrases of Shigley, read); an M12 of class 8.8 to 70 %
//! takes 82.14 N m (read, and by hand); a 3/4-16 bolt to 25 kip takes 3,750 lbf in, and 3,551 by the long form (Shigley
//! ch. 8, from memory, and by hand). Stress areas: published tables in mm and inches. A published torque table for
//! 3/8-16 (2,558 lb proof) is 0.75·K·F·d. Press force: a magazine's example, 25 in² at 150 psi make 3,750 lbf; an 840 × 260
//! mm blank at 1 MPa by hand.

use crate::near;
use halfbreadth_core::workshop::{
    Fault,
    press::{
        Bolted, PUBLISHED, Thread, beside_the_band, preload, pressed_area, stress_area, torque,
        torque_by_friction,
    },
};

const INCH: f64 = 25.4;
const POUND: f64 = 4.448_221_615_260_5;

fn bolted() -> Bolted {
    let (diameter, pitch, thread) = (10.0, 1.5, Thread::Metric);
    Bolted { bolts: 10.0, diameter, pitch, nut_factor: 0.2, proof_stress: 225.0, thread }
}

#[test]
fn stress_areas_are_those_of_the_tables() {
    for (diameter, pitch, area) in [(8.0, 1.25, 36.609), (10.0, 1.5, 57.990), (6.0, 1.0, 20.123)] {
        near(stress_area(diameter, pitch, Thread::Metric), area, 2e-3);
    }
    for (diameter, threads, area) in [(0.3125, 18.0, 0.0524), (0.375, 16.0, 0.0775), (0.19, 32.0, 0.0200)] {
        near(stress_area(diameter * INCH, INCH / threads, Thread::Inch) / (INCH * INCH), area, 5e-5);
    }
}

#[test]
fn torque_and_preload_are_as_published() {
    let load = 0.7 * 580.0 * 84.3;
    near(load, 34_226.0, 0.5);
    near(torque(load, 0.2, 12.0) / 1000.0, 82.14, 5e-3);
    near(torque(25_000.0 * POUND, 0.2, 0.75 * INCH) / (POUND * INCH), 3750.0, 1e-9);
    let long = torque_by_friction(25_000.0 * POUND, 0.75 * INCH, INCH / 16.0, 0.15, 0.15);
    near(long / (POUND * INCH), 3551.1, 0.1);
    near(torque(1000.0 * POUND, 0.2, 0.375 * INCH) / (POUND * INCH), 75.0, 1e-9);
    near(torque(1000.0 * POUND, 0.2, 0.375 * INCH) / 1000.0, 8.47, 5e-3);
    near(torque(10_000.0, 0.2, 10.0), 20_000.0, 1e-9);
    near(preload(20_000.0, 0.2, 10.0).unwrap(), 10_000.0, 1e-9);
}

#[test]
fn the_most_torque_is_that_of_the_published_table() {
    for (diameter, threads, proof_load, inch_pounds) in
        [(0.375, 16.0, 2558.0, 143.9), (0.3125, 18.0, 1729.0, 81.1), (0.19, 32.0, 660.0, 18.8)]
    {
        let (diameter, pitch) = (diameter * INCH, INCH / threads);
        let proof_stress = proof_load * POUND / stress_area(diameter, pitch, Thread::Inch);
        let bolt = Bolted { diameter, pitch, proof_stress, thread: Thread::Inch, ..bolted() };
        // The table's proof loads are rounded to a pound: 0.05 lbf in, and as much for its torques.
        near(bolt.most_torque() / (POUND * INCH), inch_pounds, 0.1);
    }
}

#[test]
fn force_is_pressure_on_the_area() {
    let magazine = pressed_area(5.0 * INCH, 5.0 * INCH, 300.0, 300.0);
    near(magazine * (150.0 * POUND / (INCH * INCH)) / POUND, 3750.0, 1e-9);
    let area = pressed_area(840.0, 260.0, 900.0, 300.0);
    near(area * 1.0, 218_400.0, 1e-9);
    near(pressed_area(840.0, 260.0, 800.0, 300.0), 208_000.0, 1e-9);
    // Ten bolts to one MPa: 21.84 kN each, 43.68 N m on a strong M10.
    let strong = Bolted { proof_stress: 600.0, ..bolted() };
    near(strong.torque_for(1.0, area, Some(1.5)).unwrap(), 43_680.0, 1e-6);
}

#[test]
fn a_torque_past_proof_is_refused_with_the_most_there_is() {
    let bolt = bolted();
    near(bolt.most_load(), 0.75 * 225.0 * 57.99, 1.0);
    near(bolt.load(12_000.0).unwrap(), 6000.0, 1e-9);
    let fault = bolt.load(25_000.0).unwrap_err();
    assert!(matches!(fault, Fault::PastProof { load: 12_500.0, .. }), "{fault:?}");
    assert_eq!(fault.field(), "bolt-torque");
    assert!(bolt.load(bolt.most_torque() * (1.0 - 1e-12)).is_ok());
}

#[test]
fn no_torque_is_given_without_the_moulds_limit_or_past_one() {
    let area = 200_000.0;
    assert_eq!(bolted().torque_for(0.3, area, None), Err(Fault::NoMouldLimit));
    let fault = bolted().torque_for(0.3, area, Some(0.2)).unwrap_err();
    assert_eq!(fault, Fault::PastMould { field: "wanted-pressure", pressure: 0.3, limit: 0.2 });
    assert!(matches!(bolted().torque_for(1.0, area, Some(2.0)), Err(Fault::PastProof { .. })));
    assert_eq!(bolted().torque_for(0.3, area, Some(1.0)), Ok(12_000.0));
    let no_diameter = Bolted { diameter: 0.0, ..bolted() };
    assert_eq!(no_diameter.torque_for(0.3, area, Some(1.0)), Err(Fault::Diameter { found: 0.0 }));
    assert_eq!(no_diameter.load(12_000.0), Err(Fault::Diameter { found: 0.0 }));
    let no_bolts = Bolted { bolts: 0.0, ..bolted() };
    assert_eq!(no_bolts.torque_for(0.3, area, Some(1.0)), Err(Fault::NoBolts));
}

/// 150, 200, 175, 250 and 300 psi in MPa, to the digits the ranges are given in.
#[test]
fn published_ranges_are_their_pounds() {
    let psi = |pounds: f64| pounds * POUND / (INCH * INCH);
    let pounds = [(150.0, 200.0), (175.0, 250.0), (150.0, 200.0), (200.0, 300.0)];
    for (range, (low, high)) in PUBLISHED.iter().zip(pounds) {
        near(range.low, psi(low), 0.006);
        near(range.high, psi(high), 0.006);
    }
    assert!(beside_the_band(0.3).starts_with("below") && beside_the_band(2.0).starts_with("above"));
    assert!(beside_the_band(1.2).starts_with("within"));
}
