use super::*;
use crate::{
    compare,
    demo::{self, cubics},
    design::Design,
    edit::Edit,
    format::{
        drawing as printed,
        dxf::{self, Curves, DxfOptions, Release},
        svg as svg_file,
    },
};

/// The tool's own files of a deck, each with whether it says its unit.
fn files(deck: &Design, projection: Projection) -> Vec<(String, String, bool)> {
    let options = printed::Options { projection, ..printed::Options::default() };
    let drawing = printed::Drawing::deck(deck, &options);
    let mut files = vec![("SVG".to_owned(), svg_file::print(&drawing), true)];
    for release in [Release::R2000, Release::R12] {
        for curves in [Curves::Arcs, Curves::Splines, Curves::Lines] {
            let options = DxfOptions { release, curves, ..DxfOptions::default() };
            if let Ok(text) = dxf::print_with(&drawing, &options) {
                files.push((format!("{} {}", release.key(), curves.key()), text, true));
            }
        }
    }
    files
}

/// Decks with what an edge can have: cubics, battens, straight stretches, corners.
fn decks() -> Vec<Design> {
    let mut decks = [demo::all(), cubics::all()].concat();
    let turnstone = cubics::turnstone();
    decks.push(
        turnstone
            .apply(&Edit::SetSmooth { node: 1, smooth: false })
            .unwrap()
            .apply(&Edit::MoveNode { node: 1, to: (-254.0, 96.0).into() })
            .unwrap(),
    );
    decks.push(turnstone.apply(&Edit::SetStraight { span: 1, straight: true }).unwrap());
    decks.push(turnstone.apply(&Edit::SetBatten { span: 0, batten: true }).unwrap());
    decks
}

#[test]
fn the_tools_own_files_come_back_within_a_hundredth() {
    for deck in decks() {
        for projection in [Projection::Developed, Projection::Plan] {
            for (kind, text, _) in files(&deck, projection) {
                let what = format!("{} {projection:?} {kind}", deck.name());
                let read_as = Options { unit: Some(LengthUnit::Millimetre), ..Options::default() };
                let taken =
                    read(&text, &read_as, deck.shape()).unwrap_or_else(|error| panic!("{what}: {error}"));
                let again = deck.apply(&taken.edit()).unwrap_or_else(|error| panic!("{what}: {error}"));
                let [then, now] = [&deck, &again].map(|deck| deck.shape().outline.resolve());
                let found = compare::farthest(&then, &now);
                assert!(found.distance < 0.01, "{what}: {found:?}, {} nodes", taken.outline.nodes.len());
                for (then, now) in deck.shape().datum.holes().iter().zip(again.shape().datum.holes()) {
                    assert!((*then - now).hypot() < 1e-3, "{what}: {then:?} {now:?}");
                }
            }
        }
    }
}

#[test]
fn the_svg_of_cubics_comes_back_as_the_same_chain() {
    for deck in cubics::all() {
        let taken = read(&svg_file::export(&deck), &Options::default(), demo::whimbrel().shape()).unwrap();
        assert_eq!(taken.outline.nodes.len(), deck.shape().outline.nodes.len(), "{}", deck.name());
        assert_eq!(taken.outline.twin, deck.shape().outline.twin);
    }
}

/// An ellipse of semi-axes 400 and 100 in every element that can draw one, wherever and however it lies.
#[test]
fn one_shape_is_found_however_it_is_drawn() {
    let svg = |size: &str, body: &str| format!("<svg {size}>{body}</svg>");
    let mm = r#"width="900mm" height="900mm" viewBox="0 0 900 900""#;
    let inch = r#"width="36in" height="36in" viewBox="0 0 36 36""#;
    let cases = [
        svg(mm, r#"<ellipse cx="450" cy="450" rx="400" ry="100"/>"#),
        svg(mm, r#"<g transform="translate(450,450) rotate(90)"><circle r="100" transform="scale(4 1)"/></g>"#),
        svg(mm, r#"<path d="M50 450a400,100 0 0 1 800,0A400 100 0 01 50 450z"/>"#),
        svg(mm, r#"<path transform="rotate(33 450 450)" d="M50,450A400,100,0,0,0,850,450"/><path transform="rotate(33 450 450)" d="M850,450A400,100,0,0,0,50,450"/>"#),
        svg(inch, r#"<g transform="matrix(0.03937007874015748 0 0 0.03937007874015748 18 18)"><ellipse rx="400" ry="100"/></g>"#),
        "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n5\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nELLIPSE\n10\n7\n20\n-3\n11\n24\n21\n32\n40\n0.25\n41\n0\n42\n6.283185307179586\n0\nENDSEC\n0\nEOF\n".to_owned(),
    ];
    for text in cases {
        let taken = read(&text, &Options::default(), demo::turnstone().shape())
            .unwrap_or_else(|error| panic!("{text}: {error}"));
        let nodes = &taken.outline.untwinned().nodes;
        let (tail, nose) = (nodes[0].place.x, nodes[nodes.len() - 1].place.x);
        let middle = f64::midpoint(tail, nose);
        assert!((nose - tail - 800.0).abs() < 0.01, "{text}: {tail} {nose}");
        for k in 1..40 {
            let (sin, cos) = crate::real::sincos(f64::from(k) * core::f64::consts::PI / 40.0);
            let off =
                measured::off(&taken.outline.untwinned(), Point::new(middle + 400.0 * cos, 100.0 * sin));
            assert!(off.abs() < 0.01, "{text}: {off}");
        }
    }
}

#[test]
fn a_lopsided_drawing_is_made_symmetrical_and_says_by_how_much() {
    let text = r#"<svg width="900mm" height="400mm" viewBox="0 0 900 400"><path d="M50 200C50 90 150 100 450 100S850 90 850 200S750 303 450 303S50 310 50 200Z"/></svg>"#;
    let taken = read(
        text,
        &Options { centreline: Centreline::Level, ..Options::default() },
        demo::turnstone().shape(),
    )
    .unwrap();
    let most = taken.asymmetry.unwrap().most;
    assert!(most > 0.5 && most < 8.0, "{most}");
    assert!(taken.misfit() < 0.7, "{}", taken.misfit());
    assert!(
        taken.remarks.iter().any(|remark| remark.starts_with("The two halves lie")),
        "{:?}",
        taken.remarks
    );
}

#[track_caller]
fn refused(text: &str, expected: &str) {
    let error = read(text, &Options::default(), demo::turnstone().shape()).unwrap_err();
    assert!(error.to_string().contains(expected), "{text}: {error}");
}

#[test]
fn what_is_no_deck_says_why_and_what_to_do() {
    refused("", "neither an SVG nor a DXF");
    refused("hello\nworld", "line 1 is no group code");
    refused("AutoCAD Binary DXF", "binary");
    refused("<svg", "ends before it is complete");
    refused("<html></html>", "neither an SVG nor a DXF");
    let svg =
        |body: &str| format!("<svg width=\"900mm\" height=\"400mm\" viewBox=\"0 0 900 400\">\n{body}</svg>");
    refused(&svg(""), "no lines or curves");
    refused(&svg("<path d=\"M0 0L10 x\"/>"), "line 2 has path data that cannot be read");
    refused(&svg("<path transform=\"turn(3)\" d=\"M0 0L10 0\"/>"), "line 2 has a transform");
    refused(&svg("<path d=\"M0 200L400 100L800 200L400 303\"/>"), "the smallest gap is 413.0");
    refused(&svg("<circle r=\"20\"/>"), "40.0 by 40.0 mm, which is no deck: check the unit");
    refused(
        "<svg viewBox=\"0 0 900 400\"><ellipse rx=\"16\" ry=\"4\"/></svg>",
        "does not say its unit; the outline is 32 by 8",
    );
    refused("0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n", "ends before it is complete");
    refused("0\nSECTION\n2\nENTITIES\n0\nLINE\n10\nx\n0\nENDSEC\n", "line 8 is no number");
    let own = svg_file::export(&demo::turnstone());
    let holes = Options { centreline: Centreline::Holes, ..Options::default() };
    let bare = own.replace("<circle", "<square");
    let error = read(&bare, &holes, demo::turnstone().shape()).unwrap_err();
    assert!(error.to_string().contains("bolt holes are not there: 0 circles"), "{error}");
}

#[test]
fn files_cut_anywhere_never_panic_nor_hang() {
    let deck = demo::turnstone();
    for (_, text, _) in files(&deck, Projection::Developed) {
        for k in 0..60 {
            let cut = text.len() * k / 60;
            let _ = read(&text[..cut], &Options::default(), deck.shape());
        }
    }
}
