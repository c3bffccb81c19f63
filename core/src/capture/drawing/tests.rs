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
    outline::Span,
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

/// A polygon of two uneven halves, left and right given tail to nose, y of the right one upward too.
fn polygon(left: &[(f64, f64)], right: &[(f64, f64)]) -> String {
    let points = left.iter().copied().chain(right.iter().rev().map(|&(x, y)| (x, -y)));
    let text: String = points.map(|(x, y)| format!("{},{} ", 450.0 + x, 200.0 - y)).collect();
    format!(r#"<svg width="900mm" height="400mm" viewBox="0 0 900 400"><polygon points="{text}"/></svg>"#)
}

#[track_caller]
fn cornered(text: &str, corners: &[(f64, f64)], straights: usize) {
    let options = Options { centreline: Centreline::Level, ..Options::default() };
    let taken = read(text, &options, demo::turnstone().shape()).unwrap();
    let nodes = &taken.outline.nodes;
    let is_corner = |node: &&crate::outline::Node| node.joint == crate::outline::Joint::Corner;
    let found: Vec<Point> = nodes.iter().filter(is_corner).map(|node| node.place).collect();
    // Without holes the middle of its length, here 0, lies where that of the deck in hand is.
    let along = f64::midpoint(nodes[0].place.x, nodes[nodes.len() - 1].place.x);
    assert_eq!(found.len(), corners.len(), "{found:?}");
    for (found, corner) in found.iter().zip(corners) {
        let off = *found - Point::new(corner.0 + along, corner.1);
        assert!(off.hypot() < 1.0, "{found:?} for {corner:?}");
    }
    assert_eq!(taken.outline.spans.iter().filter(|span| **span == Span::Straight).count(), straights);
    assert!(taken.misfit() < 0.5, "{}", taken.misfit());
    assert!(taken.asymmetry.unwrap().most > 1.0);
    assert!(demo::turnstone().apply(&taken.edit()).is_ok());
}

#[test]
fn an_uneven_drawing_keeps_the_corners_that_stand_on_both_of_its_halves() {
    // A coffin's shape, its right half fuller and its corners a little elsewhere.
    let left = [(-400.0, 50.0), (-250.0, 95.0), (250.0, 100.0), (400.0, 60.0)];
    let right = [(-400.0, 54.0), (-246.0, 98.0), (254.0, 103.0), (400.0, 64.0)];
    let mean: Vec<(f64, f64)> =
        left.iter().zip(&right).map(|(a, b)| (f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1))).collect();
    cornered(&polygon(&left, &right), &mean, 5);

    // Points at both ends.
    let ended = |half: [(f64, f64); 2]| [(-400.0, 0.0), half[0], half[1], (400.0, 0.0)];
    let (left, right) = (ended([(-200.0, 95.0), (200.0, 100.0)]), ended([(-203.0, 97.0), (198.0, 100.0)]));
    let half = |points: [(f64, f64); 4]| points[..3].to_vec();
    let mean = [(-400.0, 0.0), (-201.5, 96.0), (199.0, 100.0), (400.0, 0.0)];
    cornered(&polygon(&left, &half(right)[1..]), &mean, 3);

    // Round ends, a corner at each shoulder, and rails between that curve and are not the same.
    let text = r#"<svg width="900mm" height="400mm" viewBox="0 0 900 400"><path d="M50 200C50 150 90 130 150 110C300 90 600 88 760 108C810 130 850 150 850 200C850 252 812 274 764 295C600 315 300 312 147 292C90 272 50 252 50 200Z"/></svg>"#;
    cornered(text, &[(-301.5, 91.0), (312.0, 93.5)], 0);
}

#[test]
fn a_corner_on_one_half_alone_is_averaged_away() {
    let text = r#"<svg width="900mm" height="400mm" viewBox="0 0 900 400"><path d="M50 200C50 90 150 100 450 100S850 90 850 200S750 303 450 303L445 306L440 303C200 303 50 310 50 200Z"/></svg>"#;
    let options = Options { centreline: Centreline::Level, ..Options::default() };
    let taken = read(text, &options, demo::turnstone().shape()).unwrap();
    assert!(taken.outline.nodes.iter().all(|node| node.joint != crate::outline::Joint::Corner));
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
    let insert = |name: &str, more: &str| format!("0\nINSERT\n2\n{name}\n10\n0\n20\n0\n{more}");
    let blocks = |inside: &str, placed: &str| {
        let block = |name: &str, inside: &str| format!("0\nBLOCK\n2\n{name}\n{inside}0\nENDBLK\n");
        let dot = "0\nLINE\n10\n0\n20\n0\n11\n9\n21\n0\n";
        let both = [block("A", inside), block("B", dot)].concat();
        format!(
            "0\nSECTION\n2\nBLOCKS\n{both}0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{placed}0\nENDSEC\n0\nEOF\n"
        )
    };
    refused(&blocks("", &insert("elsewhere", "")), "blocks that are in another file");
    refused(&blocks(&insert("a", ""), &insert("A", "")), "blocks hold one another more than 8 deep");
    refused(&blocks("", &insert("B", "70\n3000000000\n71\n3000000000\n")), "more than 4000 lines and curves");
    let many = insert("B", "70\n40\n").repeat(60);
    refused(&blocks(&many, &insert("A", "70\n30\n")), "more than 4000 lines and curves");
    refused("0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nA\n", "ends before it is complete");
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
