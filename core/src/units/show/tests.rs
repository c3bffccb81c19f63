//! What people read, and what the field to edit it holds.

use super::*;
use crate::units::{
    from_nm, from_stored,
    tests::{IN, IN_64, KINDS, MM, Random},
};

#[test]
fn every_64th_of_an_inch_survives_showing_and_reading() {
    for count in 0..=40 * 64 {
        let length = from_nm(count * 396_875);
        let shown = show(length, Unit::Length, IN_64);
        assert!(shown.exact, "{shown}");
        let read = parse(&shown.to_string(), Unit::Length, MM).unwrap();
        assert_eq!(read.to_bits(), length.to_bits(), "{shown}");
        assert_eq!(show(read, Unit::Length, IN_64), shown);
        assert_eq!(entry(length, Unit::Length, IN), shown.text);
        assert_eq!(entry(-length, Unit::Length, IN).trim_start_matches('-'), shown.text);
    }
}

#[test]
fn entry_reads_back_as_exactly_the_stored_value() {
    let mut random = Random(2);
    for _ in 0..600 {
        for unit in KINDS {
            let grains = random.within(2_000_000_000);
            let value = from_stored(grains, unit);
            for system in [MM, IN] {
                let text = entry(value, unit, system);
                let read = parse(&text, unit, system).unwrap_or_else(|error| panic!("{error}"));
                assert_eq!(read.to_bits(), value.to_bits(), "{unit:?} {grains} as {text}");
            }
        }
    }
}

/// Found by the fuzz target of typed texts: ounces would need more digits than are written.
#[test]
fn entry_of_a_very_large_value_is_metric_where_no_other_text_is_exact() {
    assert_eq!(entry(733_717_024.0, Unit::Mass, IN), "733717024 g");
    let largest = from_stored(1_000_000_000_000_000, Unit::Mass);
    assert_eq!(parse(&entry(largest, Unit::Mass, IN), Unit::Mass, IN), Ok(largest));
}

#[test]
fn entry_is_the_shortest_text() {
    for (nm, millimetres, inches) in [
        (209_550_000, "209.55", "8 1/4"),
        (210_000_000, "210", "210 mm"),
        (-4_762_500, "-4.7625", "-3/16"),
        (209_748_438, "209.748438", "8.2578125"),
        (25_654_000, "25.654", "1.01"),
        (0, "0", "0"),
    ] {
        assert_eq!(entry(from_nm(nm), Unit::Length, MM), millimetres);
        assert_eq!(entry(from_nm(nm), Unit::Length, IN), inches);
    }
    assert_eq!(entry(0.1016, Unit::Thickness, IN), "0.004");
    assert_eq!(entry(12.1_f64.to_radians(), Unit::Angle, IN), "12.1");
    assert_eq!(entry(1.2, Unit::Pressure, IN), "1.2 MPa");
    assert_eq!(entry(2e-4, Unit::MassPerArea, MM), "200");
    assert_eq!(entry(1_440.0, Unit::Hours, MM), "24");
    assert_eq!(entry(f64::NAN, Unit::Length, MM), "");
}

#[test]
fn a_field_shows_no_more_digits_than_a_hand_types() {
    for (nm, millimetres, inches) in [
        (209_550_000, "209.55", "8 1/4"),
        (209_553_217, "209.55", "8 1/4"),
        (-4_762_500, "-4.76", "-3/16"),
        (-4_762_501, "-4.76", "-3/16"),
        (5_159_375, "5.16", "13/64"),
        (210_000_000, "210", "8 9/32"),
        (-3, "0", "0"),
    ] {
        let value = from_nm(nm);
        assert_eq!(rounded_entry(value, Unit::Length, MM), millimetres);
        assert_eq!(rounded_entry(value, Unit::Length, IN), inches);
        for system in [MM, IN] {
            let read = parse(&rounded_entry(value, Unit::Length, system), Unit::Length, system).unwrap();
            assert!((read - value).abs() <= if system == MM { 0.005 } else { 25.4 / 64.0 }, "{read}");
        }
    }
    assert_eq!(rounded_entry(12.123_456_f64.to_radians(), Unit::Angle, IN), "12.12");
}

#[track_caller]
fn check_shown(value: f64, unit: Unit, system: System, text: &str, exact: bool) {
    let shown = show(value, unit, system);
    assert_eq!(shown.to_string(), text);
    assert_eq!(shown.exact, exact, "{text}");
}

#[test]
fn values_are_shown_as_the_trade_reads_them() {
    let sixteenths = System::Inches { denominator: Denominator::Sixteenths };
    check_shown(812.8, Unit::Length, MM, "812.8 mm", true);
    check_shown(812.8, Unit::Length, IN, "32 in", true);
    check_shown(1_822.0, Unit::Length, MM, "1822.0 mm", true);
    check_shown(209.55, Unit::Length, MM, "209.6 mm", false);
    check_shown(-209.55, Unit::Length, MM, "−209.6 mm", false);
    check_shown(209.55, Unit::Length, IN, "8 1/4 in", true);
    check_shown(210.0, Unit::Length, IN, "≈ 8 9/32 in", false);
    check_shown(210.0, Unit::Length, sixteenths, "≈ 8 1/4 in", false);
    check_shown(5.159_375, Unit::Length, IN_64, "13/64 in", true);
    check_shown(-4.7625, Unit::Length, IN, "−3/16 in", true);
    check_shown(25.3, Unit::Length, IN, "≈ 1 in", false);
    check_shown(-0.1, Unit::Length, IN, "≈ 0 in", false);
    check_shown(-0.04, Unit::Length, MM, "0.0 mm", false);
    check_shown(0.35, Unit::Length, MM, "0.4 mm", false);
    check_shown(0.1, Unit::Thickness, MM, "0.10 mm", true);
    check_shown(0.1016, Unit::Thickness, IN, "0.004 in", true);
    check_shown(123_690.0, Unit::Area, MM, "1\u{202f}236.9 cm²", true);
    check_shown(123_690.0, Unit::Area, IN, "191.7 in²", false);
    check_shown(12.1_f64.to_radians(), Unit::Angle, MM, "12.1°", true);
    check_shown(12.25_f64.to_radians(), Unit::Angle, IN, "12.3°", false);
    check_shown(0.759, Unit::Share, MM, "75.9 %", true);
    check_shown(267.0, Unit::Mass, MM, "267 g", true);
    check_shown(1_138.0, Unit::Mass, MM, "1.138 kg", true);
    check_shown(267.0, Unit::Mass, IN, "9.4 oz", false);
    check_shown(1_138.0, Unit::Mass, IN, "2.51 lb", false);
    check_shown(75_000.0, Unit::BodyMass, MM, "75.0 kg", true);
    check_shown(0.786, Unit::Ratio, MM, "0.786", true);
    check_shown(7.0, Unit::Count, IN, "7", true);
    check_shown(225.0, Unit::Pressure, IN, "32.63 ksi", false);
    check_shown(12_600.0, Unit::Pressure, MM, "12.60 GPa", true);
    check_shown(12_000.0, Unit::Torque, MM, "12.0 N m", true);
    check_shown(12_000.0, Unit::Torque, IN, "106 lbf in", false);
    check_shown(2e-4, Unit::MassPerArea, IN, "41.0 lb/1000 ft²", false);
    check_shown(1.1e-3, Unit::Density, MM, "1.100 g/cm³", true);
    check_shown(1_440.0, Unit::Hours, MM, "24.0 h", true);
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300] {
        check_shown(value, Unit::Length, IN, "–", false);
        assert_eq!(show_difference(value, Unit::Area, MM).to_string(), "–");
    }
}

#[test]
fn a_length_a_hair_off_a_64th_is_typed_again_as_that_64th() {
    let typed = parse("8 17/64", Unit::Length, IN).unwrap();
    for (off, text) in
        [(0.0, "8 17/64"), (5e-4, "8 17/64"), (-1e-3, "8 17/64"), (-1.2e-3, "8 1/4"), (0.1, "8 9/32")]
    {
        assert_eq!(rounded_entry(typed + off, Unit::Length, IN), text, "{off}");
    }
}

#[test]
fn a_text_with_a_unit_of_its_own_has_none_beside_it() {
    for (mm, system, text, symbol) in
        [(160.0, IN, "160 mm", ""), (209.55, IN, "8 1/4", "in"), (160.0, MM, "160", "mm")]
    {
        let entry = entry(mm, Unit::Length, system);
        assert_eq!((entry.as_str(), entry_symbol(&entry, Unit::Length, system)), (text, symbol));
    }
}

#[test]
fn whatever_is_shown_exactly_can_be_typed() {
    for unit in KINDS {
        for system in [MM, IN_64] {
            for symbol in unit.row().page(system) {
                let shown = show(from_stored(whole(3.0 * symbol.grains), unit), unit, system);
                assert_eq!(shown.unit, symbol.text);
                let read = parse(&shown.to_string(), unit, MM).unwrap_or_else(|error| panic!("{error}"));
                assert_eq!(stored(read, unit), whole(3.0 * symbol.grains), "{shown}");
            }
        }
    }
}

#[test]
fn differences_carry_their_sign_and_round_to_a_plain_nothing() {
    for (delta, system, text) in [
        (3.2, MM, "+ 3.2 mm"),
        (-0.4, MM, "− 0.4 mm"),
        (0.04, MM, "± 0 mm"),
        (-0.04, MM, "± 0 mm"),
        (0.0, IN, "± 0 in"),
        (0.1, IN, "± 0 in"),
        (-3.175, IN, "− 1/8 in"),
        (3.0, IN, "≈ + 1/8 in"),
    ] {
        assert_eq!(show_difference(delta, Unit::Length, system).to_string(), text);
    }
    assert_eq!(show_difference(-0.4_f64.to_radians(), Unit::Angle, MM).to_string(), "− 0.4°");
}
