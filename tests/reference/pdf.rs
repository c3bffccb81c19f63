//! Drawings on paper, read by a program of other people.
//!
//! Source: `lopdf` reads the files, independent of what wrote them; a point is 1/72 in, and an inch 25.4 mm (PDF 1.7, 8.3.2.3,
//! from memory); ISO 216 for A3 and A4. What is on the paper is compared with the design's own curves and measures.
//!
//! By hand, with any renderer (PDFium was used): at 300 dpi a check bar is 1181 pixels long, not counting the width of
//! its ends; and of two neighbouring tiles, one moved by a window less the overlap, no pixel is dark without a dark one
//! in the other within a pixel.

pub(crate) mod page;
mod tables;

use self::page::{Page, Stroke, property, read};
use crate::near;
use halfbreadth_core::{
    demo,
    design::Design,
    format::{
        drawing::{Colour, Drawing, Entity, Layer, Options},
        pdf::{self, Caption},
    },
    measure::Measured,
    paper::{Paper, PaperError, PaperOptions},
    projection::Projection,
};
use halfbreadth_tests::random::{self, Random};
use kurbo::{Affine, ParamCurve, PathEl, Point, Rect, Shape as _, Vec2};
use lopdf::Object;

/// What paper must agree to, mm.
const SAME: f64 = 0.01;

const CAPTION: Caption =
    Caption { code: "D-4711", projection: "DEVELOPED", version: "Version 3, 2026-05-02" };

fn decks() -> impl Iterator<Item = Design> {
    demo::all().into_iter().chain((0..6).map(|seed| random::design(&mut Random::new(seed))))
}

fn drawing(design: &Design) -> Drawing {
    Drawing::deck(design, &Options::default())
}

fn on(paper: Paper) -> PaperOptions {
    PaperOptions { paper, ..PaperOptions::default() }
}

/// The pages of a drawing on tiles that show a tile: all but the map.
fn tiles(drawing: &Drawing, options: &PaperOptions) -> Vec<Page> {
    let (_, pages) = read(&pdf::tiles(drawing, options, CAPTION).unwrap());
    let map = usize::from(pages.len() > 1);
    pages.into_iter().skip(map).collect()
}

/// What a page shows of the drawing, and where: the window, and from the drawing to the page.
fn window(page: &Page) -> (Rect, Vec2) {
    let stroke = page.of("D").next().expect("a drawing");
    let [a, b, c, d, x, y] = stroke.place.as_coeffs();
    for (found, expected) in [(a, 1.0), (b, 0.0), (c, 0.0), (d, 1.0)] {
        near(found, expected, 1e-6);
    }
    // The clip of the window alone: the drawing's own bounds may cut it further.
    let form = page.of("D").map(|stroke| stroke.clip).reduce(|a, b| a.union(b));
    (form.unwrap_or(Rect::ZERO), Vec2::new(x, y))
}

fn outline(page: &Page) -> &Stroke {
    page.of("D").next().expect("the outline is drawn first")
}

fn samples(path: &kurbo::BezPath) -> impl Iterator<Item = Point> {
    path.segments().flat_map(|segment| (0..=40).map(move |i| segment.eval(f64::from(i) / 40.0)))
}

/// A square ring and nothing inside it.
fn ring(side: f64) -> Drawing {
    let corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)].map(Point::from).to_vec();
    let layer = Layer { key: "outline", colour: Colour::Red, entities: vec![Entity::Polygon(corners)] };
    Drawing { name: "Ring".to_owned(), part: "ring", projection: Projection::Developed, layers: vec![layer] }
}

#[test]
fn pages_have_the_size_of_their_paper_and_are_not_to_be_scaled() {
    let drawing = drawing(&demo::turnstone());
    for (paper, short, long) in [
        (Paper::A4, 210.0, 297.0),
        (Paper::A3, 297.0, 420.0),
        (Paper::Letter, 8.5 * 25.4, 11.0 * 25.4),
        (Paper::Tabloid, 11.0 * 25.4, 17.0 * 25.4),
        (Paper::Custom(333.3, 200.0), 200.0, 333.3),
    ] {
        let (document, pages) = read(&pdf::tiles(&drawing, &on(paper), CAPTION).unwrap());
        for page in &pages {
            near(page.width.min(page.height), short, SAME);
            near(page.width.max(page.height), long, SAME);
            assert!(page.text().contains("Print at actual size"));
            assert!(page.text().contains("Turnstone, DEVELOPED") && page.text().contains("2026-05-02"));
        }
        let catalog = document.catalog().unwrap();
        let preferences = catalog.get(b"ViewerPreferences").and_then(Object::as_dict).unwrap();
        assert_eq!(preferences.get(b"PrintScaling").and_then(Object::as_name).unwrap(), b"None");
        assert_eq!(property(&document, b"Title"), "Turnstone");
    }
}

#[test]
fn the_first_demo_deck_takes_five_sheets_of_a4_and_a_map() {
    let (_, pages) = read(&pdf::tiles(&drawing(&demo::turnstone()), &on(Paper::A4), CAPTION).unwrap());
    let tiles: Vec<_> = pages.iter().map(Page::tile).collect();
    let row = [None, Some((1, 1)), Some((1, 2)), Some((1, 3)), Some((1, 4)), Some((1, 5))];
    assert_eq!(tiles, row);
    for (_, column) in tiles.into_iter().flatten() {
        let number = format!("1-{column}");
        assert!(pages[0].words.iter().any(|words| words.text == number), "{number} is not on the map");
    }
}

#[test]
fn every_page_has_check_bars_along_both_axes() {
    for design in decks() {
        for page in tiles(&drawing(&design), &on(Paper::A4)) {
            let bars: Vec<Rect> = page.of("").map(|stroke| stroke.path.bounding_box()).collect();
            for length in [100.0, 101.6] {
                let is = |found: f64, other: f64| (found - length).abs() < SAME && other < SAME;
                assert!(bars.iter().any(|bar| is(bar.width(), bar.height())), "no level bar of {length}");
                assert!(bars.iter().any(|bar| is(bar.height(), bar.width())), "no upright bar of {length}");
            }
        }
    }
}

#[test]
fn every_point_of_the_outline_is_on_some_tile_in_its_place() {
    for design in decks() {
        let measured = Measured::of(design.shape());
        let curve = measured.half.closed();
        for paper in [Paper::A4, Paper::Letter, Paper::Custom(145.0, 160.0)] {
            let pages = tiles(&drawing(&design), &on(paper));
            for page in &pages {
                let found = outline(page);
                let (_, shift) = window(page);
                let true_one = Affine::translate(shift) * curve.clone();
                near(found.path.area().abs(), measured.area, SAME * measured.perimeter / 2.0);
                near(found.path.bounding_box().width(), measured.overall_length, SAME);
                near(found.path.bounding_box().height(), measured.overall_width, SAME);
                assert_eq!(found.path.elements().len(), true_one.elements().len());
                for (a, b) in found.path.elements().iter().zip(true_one.elements()) {
                    same_element(a, b);
                }
            }
            let windows: Vec<(Rect, Vec2)> =
                pages.iter().map(|page| (outline(page).clip, window(page).1)).collect();
            for point in samples(&curve) {
                let shown = windows.iter().any(|(clip, shift)| clip.contains(point + *shift));
                assert!(shown, "{point} of {} is on no tile", design.name());
            }
        }
    }
}

#[track_caller]
fn same_element(found: &PathEl, expected: &PathEl) {
    let points = |element: &PathEl| match *element {
        PathEl::MoveTo(p) | PathEl::LineTo(p) => vec![p],
        PathEl::QuadTo(p, q) => vec![p, q],
        PathEl::CurveTo(p, q, r) => vec![p, q, r],
        PathEl::ClosePath => Vec::new(),
    };
    assert_eq!(core::mem::discriminant(found), core::mem::discriminant(expected));
    for (a, b) in points(found).into_iter().zip(points(expected)) {
        near(a.x, b.x, SAME / 10.0);
        near(a.y, b.y, SAME / 10.0);
    }
}

#[test]
fn holes_are_round_and_where_they_are_drilled() {
    for design in decks() {
        let datum = &design.shape().datum;
        let (_, pages) = read(&pdf::sheet(&drawing(&design), 10.0, CAPTION).unwrap());
        let (_, shift) = window(&pages[0]);
        let red: Vec<&Stroke> = pages[0].of("D").filter(|stroke| stroke.colour == "1 0 0").collect();
        assert_eq!(red.len(), 8);
        for (hole, stroke) in datum.holes().into_iter().zip(red) {
            for point in samples(&stroke.path) {
                near((point - shift - hole).hypot(), datum.hole_diameter / 2.0, SAME / 10.0);
            }
        }
    }
}

/// The centres of the diamonds that a page shows whole.
fn diamonds(page: &Page) -> Vec<Point> {
    let whole = |stroke: &&Stroke| {
        let bounds = stroke.path.bounding_box();
        stroke.path.elements().len() == 5 && stroke.clip.contains_rect(bounds)
    };
    page.of("J").filter(whole).map(|stroke| stroke.path.bounding_box().center()).collect()
}

/// What a hand does: one tile is laid over its neighbour until the diamonds meet. Both then show the same in the
/// overlap.
#[test]
fn neighbours_agree_where_their_join_marks_meet() {
    for (drawing, paper) in [
        (drawing(&demo::turnstone()), Paper::A4),
        (drawing(&demo::turnstone()), Paper::Custom(150.0, 200.0)),
        (drawing(&demo::whimbrel()), Paper::Letter),
        (ring(500.0), Paper::A4),
    ] {
        let pages = tiles(&drawing, &on(paper));
        let mut pairs = 0;
        for here in &pages {
            for there in &pages {
                let ((row, column), (r, c)) = (here.tile().unwrap(), there.tile().unwrap());
                if (r, c) != (row, column + 1) && (r, c) != (row + 1, column) {
                    continue;
                }
                let side_by_side = r == row;
                let far = |p: &Point| if side_by_side { -p.x } else { p.y };
                let first_two = |mut marks: Vec<Point>, sign: f64| {
                    marks.sort_by(|a, b| (sign * far(a)).total_cmp(&(sign * far(b))));
                    marks.truncate(2);
                    marks.sort_by(|a, b| (a.x + a.y).total_cmp(&(b.x + b.y)));
                    marks
                };
                let (mine, theirs) = (first_two(diamonds(here), 1.0), first_two(diamonds(there), -1.0));
                let moves: Vec<Vec2> = mine.iter().zip(&theirs).map(|(a, b)| *a - *b).collect();
                assert_eq!(moves.len(), 2);
                near((moves[0] - moves[1]).hypot(), 0.0, SAME / 10.0);
                let (window, _) = window_of_joins(here);
                let (other, _) = window_of_joins(there);
                let overlap = window.intersect(other + moves[0]);
                near(overlap.width().min(overlap.height()), 10.0, SAME);
                same_in(overlap, here, there, moves[0]);
                pairs += 1;
            }
        }
        assert!(pairs >= pages.len() - 1);
    }
}

/// The window of a tile, which the joins and the drawing are seen through.
fn window_of_joins(page: &Page) -> (Rect, Vec2) {
    let (drawing, shift) = window(page);
    let joins = page.of("J").map(|stroke| stroke.clip).reduce(|a, b| a.union(b));
    (joins.map_or(drawing, |joins| joins.union(drawing)), shift)
}

#[track_caller]
fn same_in(overlap: Rect, here: &Page, there: &Page, there_to_here: Vec2) {
    let seen = |page: &Page, to: Vec2, overlap: Rect| -> Vec<Point> {
        let strokes = page.strokes.iter().filter(|stroke| !stroke.form.is_empty());
        let shown = strokes.flat_map(|stroke| {
            let clip = stroke.clip.inflate(SAME, SAME);
            samples(&stroke.path).filter(move |p| clip.contains(*p))
        });
        shown.map(|p| p + to).filter(|p| overlap.contains(*p)).collect()
    };
    let sides = [(here, Vec2::ZERO), (there, there_to_here)];
    for (one, other) in [(sides[0], sides[1]), (sides[1], sides[0])] {
        let within = seen(one.0, one.1, overlap.inflate(-2.0 * SAME, -2.0 * SAME));
        let around = seen(other.0, other.1, overlap);
        assert!(!within.is_empty());
        for point in within {
            let nearest = around.iter().map(|p| p.distance(point)).fold(f64::INFINITY, f64::min);
            assert!(nearest < SAME, "{point} is on one tile only");
        }
    }
}

#[test]
fn all_ink_lies_inside_the_margins() {
    for (margin, paper) in [(10.0, Paper::A4), (4.0, Paper::Custom(145.0, 150.0)), (25.4, Paper::Tabloid)] {
        let options = PaperOptions { margin, ..on(paper) };
        let (_, pages) = read(&pdf::tiles(&drawing(&demo::turnstone()), &options, CAPTION).unwrap());
        for page in pages {
            let inside = Rect::new(0.0, 0.0, page.width, page.height).inflate(SAME - margin, SAME - margin);
            for stroke in &page.strokes {
                let shown = stroke.path.bounding_box().inflate(stroke.width / 2.0, stroke.width / 2.0);
                let shown = shown.intersect(stroke.clip);
                assert!(shown.is_zero_area() || inside.contains_rect(shown), "{shown} is outside {inside}");
            }
            for words in &page.words {
                // Words of the drawing are cut off by the window like its lines.
                let shown = words.form.is_empty() || words.clip.contains(words.at);
                assert!(!shown || inside.contains(words.at), "{:?} is outside", words.text);
            }
        }
    }
}

#[test]
fn lines_are_hairlines_in_the_colours_of_their_layers() {
    let drawing = drawing(&demo::turnstone());
    let page = &tiles(&drawing, &on(Paper::A4))[0];
    let colours: Vec<&str> = page.of("D").map(|stroke| stroke.colour.as_str()).collect();
    for (i, colour) in [(0, "0 0 0"), (1, "1 0 0"), (9, "0 0 1"), (10, "0 1 0")] {
        assert_eq!(colours[i], colour);
    }
    for stroke in &page.strokes {
        near(stroke.width, 0.15, 1e-3);
    }
}

#[test]
fn blank_tiles_are_left_out() {
    let pages = tiles(&ring(900.0), &on(Paper::A4));
    let tiles: Vec<(u32, u32)> = pages.iter().filter_map(Page::tile).collect();
    let foretold = pdf::tiling(&ring(900.0), &on(Paper::A4), CAPTION.code).unwrap().tiles;
    assert_eq!(tiles, foretold.iter().map(|tile| (tile.row + 1, tile.column + 1)).collect::<Vec<_>>());
    let (rows, columns) = tiles.iter().fold((0, 0), |(r, c), tile| (r.max(tile.0), c.max(tile.1)));
    assert_eq!(tiles.len(), usize::try_from(2 * (rows + columns) - 4).unwrap(), "{tiles:?}");
    for tile in tiles {
        assert!(tile.0 == 1 || tile.0 == rows || tile.1 == 1 || tile.1 == columns, "{tile:?} is blank");
    }
}

#[test]
fn a_roll_and_a_plotter_take_the_deck_on_one_page() {
    let deck = demo::turnstone();
    let shape = drawing(&deck);
    for width in [610.0, 914.0, 914.4] {
        let (_, pages) = read(&pdf::tiles(&shape, &on(Paper::Roll(width)), CAPTION).unwrap());
        assert_eq!(pages.len(), 1);
        assert!((pages[0].width - width).abs() < SAME || (pages[0].height - width).abs() < SAME);
    }
    let (_, pages) = read(&pdf::sheet(&shape, 10.0, CAPTION).unwrap());
    assert_eq!(pages.len(), 1);
    let (window, shift) = window(&pages[0]);
    assert!(window.contains_rect(shape.extent() + shift), "{window}");
    assert!(pages[0].width < shape.extent().width() + 40.0);
}

#[test]
fn a_page_that_no_file_can_say_is_refused() {
    // 14,400 points (PDF 1.7, annex C.2, from memory).
    let refused = pdf::sheet(&ring(5_060.0), 10.0, CAPTION).unwrap_err();
    assert!(
        matches!(refused, PaperError::TooLong { most, .. } if (most - 5_080.0).abs() < SAME),
        "{refused}"
    );
    let (_, pages) = read(&pdf::sheet(&ring(5_030.0), 10.0, CAPTION).unwrap());
    assert!(pages[0].width.max(pages[0].height) <= 5_080.0 + SAME);
}

#[test]
fn no_name_breaks_the_file() {
    let deck = drawing(&demo::turnstone());
    let plain = tiles(&deck, &on(Paper::A4)).len();
    for (name, on_the_page) in [
        ("(", "(, DEVELOPED"),
        (")>> endobj \\", ")>> endobj \\, DEVELOPED"),
        ("Knot's \"8¼\" \\) Tj", "Knot's \"8¼\" \\) Tj, DEVELOPED"),
        ("Großer Brachvogel", "Großer Brachvogel, DEVELOPED"),
        ("漢字", "D-4711, DEVELOPED"),
        ("Чайка (2)", "D-4711, DEVELOPED"),
        ("a\u{0}b\nendstream\r%%EOF\u{7f}", "D-4711, DEVELOPED"),
        ("🪶 e\u{301}", "D-4711, DEVELOPED"),
        ("", "DEVELOPED"),
    ] {
        let mut named = deck.clone();
        named.name = name.to_owned();
        for layer in &mut named.layers {
            for entity in &mut layer.entities {
                if let Entity::Text { text, .. } = entity
                    && text == "Turnstone"
                {
                    *text = name.to_owned();
                }
            }
        }
        let (document, pages) = read(&pdf::tiles(&named, &on(Paper::A4), CAPTION).unwrap());
        assert_eq!(pages.len(), plain + 1, "{name:?}");
        for page in &pages {
            assert!(page.words.iter().any(|words| words.text.starts_with(on_the_page)), "{:?}", page.text());
        }
        if !name.is_empty() {
            assert_eq!(property(&document, b"Title"), name);
        }
    }
}

#[test]
fn the_same_drawing_gives_the_same_bytes() {
    let make = || pdf::tiles(&drawing(&demo::dunlin()), &on(Paper::A4), CAPTION).unwrap();
    assert_eq!(make(), make());
}
