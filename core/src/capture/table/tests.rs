use super::*;
use crate::units::Denominator;

const MM: System = System::Millimetres;

#[track_caller]
fn check(text: &str, system: System, expected: &[(f64, f64)]) {
    let rows = read(text, system).unwrap();
    let found: Vec<(f64, f64)> = rows.iter().map(|row| (row.station, row.breadth)).collect();
    assert_eq!(found, expected, "{text:?}");
}

#[track_caller]
fn refused(text: &str, expected: &str) {
    let message = read(text, MM).unwrap_err().to_string();
    assert!(message.contains(expected), "{text:?}: {message}");
}

#[test]
fn every_usual_mark_may_stand_between_columns() {
    let expected = [(-100.0, 90.5), (0.0, 95.25)];
    for text in [
        "-100\t90.5\n0\t95.25",
        "-100\t90,5\r\n0\t95,25\r\n",
        "-100;90,5\n0;95,25",
        "-100; 90.5 ;\n\n0; 95.25;",
        "-100,90.5\n0,95.25",
        "-100, 90.5\n0, 95.25\n",
        "-100 90.5\r0 95.25",
        "−100   90,5\n0   95,25",
        "\u{feff}\"-100\",\"90.5\"\n\"0\",\"95.25\"",
        "-100 mm 90.5 mm\n0 mm 95.25 mm",
        "-10 cm;9,05 cm\n0;95,25",
    ] {
        check(text, MM, &expected);
    }
    check("100,80\n200,90", MM, &[(100.0, 80.0), (200.0, 90.0)]);
}

#[test]
fn a_header_in_any_words_is_passed_over() {
    let expected = [(100.0, 80.0)];
    for header in
        ["Station;Half-breadth", "längs; halbe Breite", "x;y", "距離;半幅", "deck of the knot, 2019;"]
    {
        check(&format!("{header}\n100;80"), MM, &expected);
    }
    check("from the datum, half-breadth\n100,80", MM, &expected);
    check("station breadth\n\n100 80", MM, &expected);
}

#[test]
fn inches_and_fractions_are_read_in_every_layout() {
    let inches = System::Inches { denominator: Denominator::default() };
    let expected = [(25.4, 82.55), (50.8, 95.25)];
    for text in [
        "1\t3 1/4\n2\t3 3/4",
        "1;3¼\n2;3¾",
        "1, 3 1/4\n2, 3 3/4",
        "1 3 1/4\n2 3 3/4",
        "1\" 3.25\"\n2\" 3.75\"",
    ] {
        check(text, inches, &expected);
    }
}

#[test]
fn left_and_right_have_columns_of_their_own() {
    let rows = read("station\tleft\tright\n0\t95\t94", MM).unwrap();
    assert_eq!(rows, [Row { line: 2, station: 0.0, breadth: 95.0, right: Some(94.0) }]);
}

#[test]
fn what_cannot_be_read_names_its_line() {
    refused("", "no measurements");
    refused("station breadth", "no measurements");
    refused("0;95\n100;wide", "line 2: “wide” is not a length");
    refused("0;95\n100", "line 2: 1 figure where two");
    refused("0;95\n1;2;3;4", "line 2: 4 figures where two");
    refused("0,5,95,5", "line 1: 4 figures between commas: if a comma is the decimal mark");
    refused("0;-95", "line 1: a breadth cannot be below 0");
    refused(&"0 1\n".repeat(401), "more than 400 rows");
    refused(&"1".repeat(LONGEST + 1), "200 kB");
}
