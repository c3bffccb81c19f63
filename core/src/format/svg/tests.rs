//! The SVG file: size, groups, exact curves, and names that mean only themselves.

use super::*;
use crate::{
    demo::{self, cubics},
    format::samples,
};

/// The text between two marks, the first time they occur.
#[track_caller]
fn between<'a>(text: &'a str, before: &str, after: &str) -> &'a str {
    let (_, rest) = text.split_once(before).unwrap_or_else(|| panic!("no {before} in {text}"));
    rest.split_once(after).unwrap().0
}

#[test]
fn width_height_and_view_box_are_the_same_millimetres() {
    let svg = export(&demo::turnstone());
    // The blank, 838.2 × 241.3 mm, and ten millimetres round it.
    assert!(svg.contains(" width=\"858.2mm\" height=\"261.3mm\" viewBox=\"0 0 858.2 261.3\">"), "{svg}");
}

#[test]
fn layers_are_groups_by_name_with_hairlines_of_pure_colour() {
    let svg = export(&demo::turnstone());
    let layers = [
        ("outline", "#000000"),
        ("holes", "#FF0000"),
        ("centreline", "#0000FF"),
        ("bend-lines", "#00FF00"),
        ("blank", "#FF00FF"),
        ("text", "#000000"),
    ];
    for (key, colour) in layers {
        let group = format!("<g id=\"{key}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"0.1\">");
        assert!(svg.contains(&group), "{key}");
    }
    assert_eq!(svg.matches("<circle ").count(), 8);
    assert_eq!(between(&svg, "<title>", "</title>"), "Turnstone, DEVELOPED");
    assert!(between(&svg, "<desc>", "</desc>").starts_with("DEVELOPED deck: flat pattern "));
}

#[test]
fn curves_stay_cubics_straight_rails_stay_lines_and_the_halves_mirror_to_the_digit() {
    let svg = export(&cubics::dunlin());
    let path = between(&svg, "<path d=\"", "\"/>");
    // Four spans, twice for the twin and twice for the halves; one in four is straight.
    assert_eq!((path.matches('C').count(), path.matches('L').count(), path.matches('Z').count()), (12, 4, 1));
    // From the nose tip: 749.3 / 2 + 10 mm across the middle of the sheet, 222.25 / 2 + 10 down.
    assert!(path.starts_with("M746.6,121.125 C746.6,91.085 "), "{path}");

    let digits = |c: char| !(c.is_ascii_digit() || c == '.');
    let numbers: Vec<f64> =
        path.split(digits).filter(|t| !t.is_empty()).map(|t| t.parse().unwrap()).collect();
    let places: Vec<(f64, f64)> = numbers.chunks_exact(2).map(|p| (p[0], p[1])).collect();
    for (there, back) in places.iter().zip(places.iter().rev()) {
        let mirrored = (back.0, units::whole_nm(242.25 - back.1));
        assert_eq!(*there, mirrored);
    }
}

#[test]
fn a_hostile_name_is_only_a_name() {
    for name in samples::HOSTILE_NAMES {
        let svg = export(&demo::dunlin().renamed(name).unwrap());
        let plain = export(&demo::dunlin().renamed("x").unwrap());
        let tags = |svg: &str| svg.matches('<').count() - svg.matches("<text ").count() * 2;
        assert_eq!(tags(&svg), tags(&plain), "{name}");
        assert!(svg.chars().all(|c| c == '\n' || !(c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}'))));
    }
    let svg = export(&demo::dunlin().renamed("<b>'&'</b> \"漢字\"").unwrap());
    assert!(svg.contains("<title>&lt;b&gt;&apos;&amp;&apos;&lt;/b&gt; &quot;漢字&quot;, DEVELOPED</title>"));
}

#[test]
fn a_deck_without_a_name_says_what_it_is() {
    let svg = export(&demo::dunlin().renamed("").unwrap());
    assert_eq!(between(&svg, "<title>", "</title>"), "DEVELOPED");
    assert_eq!(svg.matches("<text ").count(), 1);
}
