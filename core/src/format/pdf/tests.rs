//! The parts of the file that a reader of others does not look at closely: its table, its letters, its arcs.

use super::*;
use crate::{demo, format::drawing::Options, real};
use kurbo::{ParamCurve, Point, Rect};

const CAPTION: Caption = Caption { code: "D-1", projection: "DEVELOPED", version: "", picture: None };

fn demo_file() -> Vec<u8> {
    tiles(&Drawing::deck(&demo::turnstone(), &Options::default()), &PaperOptions::default(), CAPTION).unwrap()
}

#[test]
fn the_table_of_objects_points_at_every_object() {
    let file = demo_file();
    let find = |text: &str| file.windows(text.len()).rposition(|window| window == text.as_bytes()).unwrap();
    let table: Vec<&str> = core::str::from_utf8(&file[find("\nxref\n") + 1..]).unwrap().lines().collect();
    let count: usize = table[1].strip_prefix("0 ").unwrap().parse().unwrap();
    for number in 1..count {
        let line = table[2 + number];
        assert_eq!(line.len() + 1, 20);
        let offset: usize = line[..10].parse().unwrap();
        assert!(file[offset..].starts_with(format!("{number} 0 obj\n").as_bytes()), "object {number}");
    }
    let start = table[table.len() - 2].parse::<usize>().unwrap();
    assert!(file[start..].starts_with(b"xref\n"));
}

#[test]
fn every_stream_is_as_long_as_it_says() {
    let file = demo_file();
    let text: String = file.iter().map(|&byte| char::from(byte)).collect();
    let mut streams = 0;
    for part in text.split("/Length ").skip(1) {
        let (length, content) = part.split_once(">>stream\n").unwrap();
        let length: usize = length.parse().unwrap();
        assert!(content[length..].starts_with("\nendstream\nendobj\n"));
        streams += 1;
    }
    assert_eq!(streams, 8); // the drawing, the joins, a map and five tiles
}

#[test]
fn a_page_is_exact_to_a_millionth_of_a_point() {
    assert_eq!(media_box(Size::new(210.0, 297.0)), "[0 0 595.275591 841.889764]");
    assert_eq!(media_box(Size::new(215.9, 279.4)), "[0 0 612 792]");
}

#[test]
fn letters_of_the_base_fonts_are_written_and_others_are_not() {
    assert_eq!(letters::encoded("Aé€ž"), Some(vec![65, 0xE9, 0x80, 0x9E]));
    assert_eq!(letters::encoded("−1\u{202F}000"), Some(vec![0x96, 49, 0xA0, 48, 48, 48]));
    for text in ["漢", "\0", "\n", "\u{7F}", "\u{80}", "\u{9F}", "e\u{301}"] {
        assert_eq!(letters::encoded(text), None, "{text:?}");
    }
    assert_eq!(letters::lossy("a漢b").text, b"a?b");
    assert_eq!(letters::named("漢字, nose", "漢字", &CAPTION).text, b"D-1, nose");
    assert_eq!(letters::named("Knot, nose", "Knot", &CAPTION).text, b"Knot, nose");
    assert!((letters::width(&letters::lossy("Wi")) - 1.166).abs() < 1e-12);
}

#[test]
fn a_circle_of_half_a_metre_is_round_to_a_few_micrometres() {
    let circle = ink::circle(Point::new(3.0, -4.0), 500.0);
    for segment in circle.segments() {
        for i in 0..=20 {
            let v = segment.eval(f64::from(i) / 20.0) - Point::new(3.0, -4.0);
            assert!((real::hypot(v.x, v.y) - 500.0).abs() < 0.003, "{v:?}");
        }
    }
    assert_eq!(circle.segments().count(), 12);
}

#[test]
fn ink_is_found_where_it_is_and_only_there() {
    let drawing = Drawing::deck(
        &demo::turnstone(),
        &Options { centreline: false, bend_lines: false, blank: false, text: false, ..Options::default() },
    );
    let ink = Ink::of(&drawing, &CAPTION);
    let extent = ink.extent();
    assert!((extent.width() - 812.8).abs() < 1e-9, "{extent:?}");
    assert!(ink.touches(Rect::new(412.7, -1.0, 500.0, 1.0)));
    assert!(!ink.touches(Rect::new(412.8, -1.0, 500.0, 1.0)));
    assert!(!ink.touches(Rect::new(-50.0, -50.0, 50.0, 50.0)));
    // A window smaller than any piece of the edge, on the edge and beside it.
    assert!(ink.touches(Rect::new(0.0, 90.0, 0.1, 110.0)));
    assert!(!ink.touches(Rect::new(0.0, 90.0, 0.1, 95.0)));
}
