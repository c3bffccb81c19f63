//! Tilings: they cover, overlap as asked, take the fewest pages, and say what is wrong with a page.

use super::*;

fn on(paper: Paper) -> PaperOptions {
    PaperOptions { paper, ..PaperOptions::default() }
}

fn full(width: f64, height: f64, options: &PaperOptions) -> Result<Tiling, PaperError> {
    Tiling::lay(Rect::new(-width / 2.0, 0.0, width / 2.0, height), options, &|_| true)
}

#[test]
fn cells_cover_the_drawing_once_and_windows_overlap_as_asked() {
    for (width, height, overlap) in [(800.0, 200.0, 10.0), (1234.5, 700.0, 0.0), (90.0, 90.0, 50.0)] {
        let tiling = full(width, height, &PaperOptions { overlap, ..on(Paper::A4) }).unwrap();
        let cells: Vec<Rect> = tiling.tiles.iter().map(|tile| tiling.cell(*tile)).collect();
        let all = cells.iter().copied().reduce(|a, b| a.union(b)).unwrap();
        assert!(all.contains_rect(Rect::new(-width / 2.0, 0.0, width / 2.0, height).inflate(0.99, 0.99)));
        let sum: f64 = cells.iter().map(Rect::area).sum();
        assert!((sum - all.area()).abs() < 1e-6);
        for tile in &tiling.tiles {
            let next = Tile { column: tile.column + 1, ..*tile };
            if tiling.tiles.contains(&next) {
                let shared = tiling.window(*tile).x1 - tiling.window(next).x0;
                assert!((shared - overlap).abs() < 1e-9, "{shared}");
            }
        }
    }
}

#[test]
fn a_page_is_turned_where_that_saves_pages() {
    // One row of upright A4 holds 241.5 mm of height; on their side they would take two.
    let tall = full(800.0, 230.0, &on(Paper::A4)).unwrap();
    assert_eq!((tall.page.width, tall.rows, tall.columns), (210.0, 1, 5));
    let low = full(800.0, 150.0, &on(Paper::A4)).unwrap();
    assert_eq!((low.page.width, low.rows, low.columns), (297.0, 1, 4));
}

#[test]
fn a_roll_is_cut_off_where_the_drawing_ends() {
    let tiling = full(800.0, 230.0, &on(Paper::Roll(610.0))).unwrap();
    assert_eq!((tiling.page.height, tiling.tiles.len()), (610.0, 1));
    assert_eq!(tiling.page.width, 800.0 + 2.0 * EDGE + STRIP + 20.0);
}

#[test]
fn a_tile_without_ink_is_left_out() {
    let ink = |rect: Rect| rect.x0 < 0.0;
    let all = Rect::new(-400.0, 0.0, 400.0, 200.0);
    let tiling = Tiling::lay(all, &on(Paper::A4), &ink).unwrap();
    assert!(tiling.tiles.len() == 3 && tiling.columns == 5, "{tiling:?}");
    assert_eq!(tiling.joins().count(), 2);
    assert_eq!(Tiling::lay(all, &on(Paper::A4), &|_| false), Err(PaperError::Empty));
}

#[test]
fn every_named_paper_is_found_under_its_key_and_has_its_label() {
    for (key, label, paper) in Paper::NAMED {
        assert_eq!((Paper::named(key), paper.label().as_str()), (Some(paper), label));
        assert!(full(800.0, 230.0, &on(paper)).is_ok());
    }
    assert_eq!(Paper::named("foolscap"), None);
    assert_eq!(Paper::Custom(300.0, 450.5).label(), "300 x 450.5 mm");
    assert_eq!(Paper::Roll(700.0).label(), "Roll, 700 mm");
}

#[track_caller]
fn check(options: PaperOptions, field: &str, message: &str) {
    let refused = full(800.0, 230.0, &options).unwrap_err();
    assert_eq!((refused.field(), refused.to_string().as_str()), (field, message));
}

#[test]
fn what_cannot_be_printed_is_refused_with_field_limit_and_way_out() {
    let a4 = on(Paper::A4);
    check(PaperOptions { margin: 50.5, ..a4 }, "margin", "Margin 50.5 mm is too large (at most 50.0 mm)");
    check(
        PaperOptions { margin: -1.0, ..a4 },
        "margin",
        "Margin \u{2212}1.0 mm is too small (at least 0.0 mm)",
    );
    check(
        PaperOptions { overlap: f64::NAN, ..a4 },
        "overlap",
        "Overlap is not a number (from 0.0 mm to 50.0 mm)",
    );
    check(
        on(Paper::Custom(99.0, 200.0)),
        "paper-width",
        "Paper width 99.0 mm is too small (at least 100.0 mm)",
    );
    check(
        on(Paper::Custom(200.0, 6000.0)),
        "paper-height",
        "Paper height 6000.0 mm is too large (at most 5000.0 mm)",
    );
    check(
        PaperOptions { margin: 45.0, ..a4 },
        "margin",
        "a page of 210.0 mm is too small for margins of 45.0 mm and the check bars (at least 214.0 mm): make the \
         margins smaller or take larger paper",
    );
}

#[test]
fn a_drawing_too_large_for_tiles_or_for_a_page_is_refused() {
    let refused = full(9000.0, 9000.0, &on(Paper::A4)).unwrap_err();
    assert!(matches!(refused, PaperError::TooManyTiles { .. }), "{refused}");
    let refused = full(5200.0, 900.0, &on(Paper::Roll(610.0)));
    assert!(refused.is_ok_and(|tiling| tiling.page.width == 610.0), "strips across are short enough");
    for extent in [Rect::ZERO, Rect::new(0.0, 0.0, f64::NAN, 1.0), Rect::new(0.0, 0.0, f64::INFINITY, 1.0)] {
        assert_eq!(Tiling::lay(extent, &on(Paper::A4), &|_| true), Err(PaperError::Empty));
        assert_eq!(Tiling::sheet(extent, 10.0), Err(PaperError::Empty));
    }
}
