//! What is stored between typing and showing; and what the tests of both share.

use super::*;

pub(super) const MM: System = System::Millimetres;
pub(super) const IN: System = System::Inches { denominator: Denominator::ThirtySeconds };
pub(super) const IN_64: System = System::Inches { denominator: Denominator::SixtyFourths };

pub(super) const KINDS: [Unit; 19] = [
    Unit::Length,
    Unit::Thickness,
    Unit::Area,
    Unit::Volume,
    Unit::Angle,
    Unit::Curvature,
    Unit::Mass,
    Unit::BodyMass,
    Unit::Share,
    Unit::Ratio,
    Unit::Count,
    Unit::Force,
    Unit::Pressure,
    Unit::Torque,
    Unit::BendingStiffness,
    Unit::MassPerArea,
    Unit::Density,
    Unit::Minutes,
    Unit::Hours,
];

/// Values with unlike bits (Knuth's MMIX generator, constants from memory).
pub(super) struct Random(pub(super) u64);

impl Random {
    pub(super) fn below(&mut self, limit: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        i64::try_from(self.0 >> 1).unwrap() % limit
    }

    pub(super) fn within(&mut self, limit: i64) -> i64 {
        self.below(2 * limit + 1) - limit
    }
}

#[test]
fn every_64th_of_an_inch_and_every_micrometre_is_stored_exactly() {
    for count in -10_240_i32..=10_240 {
        let length = f64::from(count) / 64.0 * 25.4;
        assert_eq!(nm(length), i64::from(count) * 396_875);
        assert_eq!(whole_nm(length).to_bits(), from_nm(nm(length)).to_bits());
    }
    for micrometres in -4_000_000_i32..=4_000_000 {
        assert_eq!(nm(f64::from(micrometres) / 1_000.0), i64::from(micrometres) * 1_000);
    }
}

#[test]
fn stored_numbers_come_back_as_they_were() {
    for near in -2_000..=2_000 {
        for far in [0, 4_000_000_000, -4_000_000_000, 209_550_000] {
            assert_eq!(nm(from_nm(far + near)), far + near);
        }
        for far in [0, 3_600_000_000, -3_600_000_000, 120_000_000] {
            assert_eq!(tenmillionths_deg(from_tenmillionths_deg(far + near)), far + near);
        }
    }
    let mut random = Random(1);
    for _ in 0..200_000 {
        let length = random.within(4_000_000_000);
        assert_eq!(nm(from_nm(length)), length);
        let angle = random.within(3_600_000_000);
        assert_eq!(tenmillionths_deg(from_tenmillionths_deg(angle)), angle);
        for unit in KINDS {
            let most = if unit == Unit::Angle { 100_000_000_000_000 } else { 1_000_000_000_000_000 };
            let grains = random.within(most);
            assert_eq!(stored(from_stored(grains, unit), unit), grains, "{unit:?}");
        }
    }
}

#[test]
fn whole_values_have_the_bits_of_their_decimal_figures() {
    assert_eq!(whole_nm(209.550_000_3).to_bits(), 209.55_f64.to_bits());
    assert_eq!(whole_nm(-1e-9).to_bits(), 0.0_f64.to_bits());
    assert!(whole_nm(f64::NAN).is_nan() && whole_nm(f64::INFINITY).is_infinite());
    assert_eq!(whole_angle(0.209_439_510_3).to_bits(), 12.0_f64.to_radians().to_bits());
    assert_eq!(parse("12.1°", Unit::Angle, MM).unwrap().to_bits(), 12.1_f64.to_radians().to_bits());
}

#[test]
fn nudges_add_up_to_whole_nanometres() {
    for (kind, millimetres, inches) in [
        (Step::Coarse, 5_000_000, 6_350_000),
        (Step::Normal, 500_000, 793_750),
        (Step::Fine, 100_000, 396_875),
    ] {
        for (system, nanometres) in [(MM, millimetres), (IN, inches)] {
            let length = step(system, kind);
            assert_eq!(length.to_bits(), from_nm(nanometres).to_bits());
        }
    }
}

#[test]
fn pointer_positions_snap_to_short_figures() {
    assert_eq!(entry(snap_pointer(104.776_183, MM), Unit::Length, MM), "104.78");
    assert_eq!(entry(snap_pointer(-104.776_183, MM), Unit::Length, MM), "-104.78");
    assert_eq!(nm(snap_pointer(104.776_183, IN)), 104_775_000);
    assert_eq!(nm(snap_pointer(0.1, IN)), 99_219);
    let mut random = Random(3);
    for _ in 0..10_000 {
        let place = from_nm(random.within(500_000_000));
        assert!((snap_pointer(place, MM) - place).abs() <= 0.005_001);
        assert!((snap_pointer(place, IN) - place).abs() <= 25.4 / 512.0 + 1e-6);
        assert_eq!(snap_pointer(snap_pointer(place, IN), IN).to_bits(), snap_pointer(place, IN).to_bits());
    }
}

#[test]
fn numbers_in_files_have_fixed_decimals_and_no_negative_zero() {
    for (value, places, text, trimmed) in [
        (12.5, 2, "12.50", "12.5"),
        (-0.25, 1, "-0.3", "-0.3"),
        (-0.001, 2, "0.00", "0"),
        (-0.0, 0, "0", "0"),
        (100.0, 0, "100", "100"),
        (100.0, 3, "100.000", "100"),
        (0.05, 4, "0.0500", "0.05"),
        (209.55, 6, "209.550000", "209.55"),
        (1e15, 0, "1000000000000000", "1000000000000000"),
        (1e15, 1, "NaN", "NaN"),
        (1e-9, 6, "0.000000", "0"),
        (f64::NAN, 2, "NaN", "NaN"),
        (f64::NEG_INFINITY, 2, "NaN", "NaN"),
    ] {
        assert_eq!(decimal(value, places), text);
        assert_eq!(decimal_trimmed(value, places), trimmed);
    }
    for value in [0.0, 1.0, -1e-300, f64::MAX, f64::MIN_POSITIVE] {
        assert!(!decimal(value, u8::MAX).contains('e'));
    }
}
