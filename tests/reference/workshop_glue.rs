//! Glue and its clock.
//!
//! Sources: the pound and the foot by definition (1 lb per 1000 ft² of single glue line is 4.882428 g/m²); a wet film of
//! 6 mil at 1.10 g/cm³ is 167.6 g/m² and 34.3 lb, 8 mil 223.5 g/m², by hand; a resorcinol glue's published table (open 10
//! and closed 60 min at 70 °F, sharing one budget in proportion); seven plies, six lines: 840 × 260 mm at 200 g/m² take
//! 262.1 g.

use crate::near;
use halfbreadth_core::{
    layup::Layup,
    units::{System, Unit, parse},
    workshop::{
        assembly::Clock,
        bench::{COUNTDOWN, Plan, Session},
        blank::{Sheet, Size},
        glue::{Basis, Coverage, of_film},
        inputs::Glue,
    },
};

fn clock() -> Clock {
    Clock { open: 10.0, total: 60.0, per_line: 4.0, closing: 3.0 }
}

#[test]
fn a_wet_film_weighs_what_its_thickness_makes_it() {
    let mil = 0.0254;
    near(of_film(mil, 1.1e-3) * 1e6, 27.94, 5e-3);
    near(of_film(6.0 * mil, 1.1e-3) * 1e6, 167.6, 0.05);
    near(of_film(8.0 * mil, 1.1e-3) * 1e6, 223.5, 0.05);
    let pound = parse("1 lb/1000 ft²", Unit::MassPerArea, System::default()).unwrap();
    near(pound * 1e6, 4.882_428, 1e-6);
    near(of_film(6.0 * mil, 1.1e-3) / pound, 34.3, 0.05);
}

#[test]
fn only_a_rate_for_each_of_two_faces_counts_twice() {
    near(Basis::Line.per_line(200e-6), 200e-6, 0.0);
    near(Basis::OneFace.per_line(200e-6), 200e-6, 0.0);
    near(Basis::BothFaces.per_line(200e-6), 400e-6, 0.0);
}

#[test]
fn six_lines_take_the_worked_glue_and_a_closer_blank_saves_some() {
    let layup = Layup { blank_length: 840.0, blank_width: 260.0, loss: 0.0, ..Layup::default() };
    let smallest = Size { length: 820.0, width: 240.0 };
    let coverage = Coverage::of(&layup, 150_000.0, smallest, 1.1e-3, 0.5);
    near(coverage.mass, 262.1, 0.05);
    near(coverage.volume, 262.08 / 1.1e-3, 1e-6);
    near(coverage.per_line, 262.08 / 6.0, 1e-9);
    near(coverage.inside, 0.15 * 6.0 * 200.0, 1e-9);
    near(coverage.dry, 90.0, 1e-9);
    near(coverage.saved, (0.2184 - 0.1968) * 1200.0, 1e-9);
    // A blank that is no larger than it must be saves nothing.
    near(Coverage::of(&layup, 1e5, Size { length: 900.0, width: 300.0 }, 1.1e-3, 0.5).saved, 0.0, 1e-12);
}

#[test]
fn four_open_minutes_leave_thirty_six_closed() {
    near(clock().closed_left(4.0), 36.0, 1e-12);
    near(clock().closed_left(10.0 / 3.0), 40.0, 1e-12);
    near(clock().closed_left(12.0), 0.0, 0.0);
}

#[test]
fn the_first_line_is_the_worst_and_its_latest_press_is_its_whole_budget() {
    let (clock, lines) = (clock(), 6);
    let timeline = clock.timeline(lines);
    near(timeline[0].used, clock.used_share(lines), 1e-15);
    near(timeline[0].used, 0.4 + 23.0 / 60.0, 1e-15);
    assert!(timeline.windows(2).all(|pair| pair[0].used > pair[1].used));
    for line in &timeline {
        near(line.pressed, 27.0, 1e-12);
        near(line.covered - line.spread, 4.0, 1e-12);
        near(line.latest, line.covered + 36.0, 1e-12);
    }
    assert!(clock.timeline(0).is_empty());
    near(clock.used_share(0), 0.0, 0.0);
}

#[test]
fn the_slowest_pace_just_uses_the_budget_up() {
    for lines in [1, 4, 6, 8] {
        let pace = clock().slowest_pace(lines).unwrap();
        near(Clock { per_line: pace, ..clock() }.used_share(lines), 1.0, 1e-12);
    }
    assert_eq!(Clock { closing: 61.0, ..clock() }.slowest_pace(6), None);
}

/// 36 × 10 in sheets hold one blank of 33 × 9 1/2 in; a sheet of eight by four feet (grain along the eight) two by five.
#[test]
fn veneers_come_out_of_sheets_with_their_grain_right() {
    let blank = Size { length: 838.2, width: 241.3 };
    let strip = Sheet { size: Size { length: 914.4, width: 254.0 }, kerf: 2.0 };
    let cut = strip.cut(blank, 50.0, "sheet-length").unwrap();
    near(cut.per_sheet, 1.0, 0.0);
    near(cut.sheets, 50.0, 0.0);
    near(cut.offcut, 1.0 - 838.2 * 241.3 / (914.4 * 254.0), 1e-12);
    let board = Sheet { size: Size { length: 2438.4, width: 1219.2 }, kerf: 2.0 };
    near(board.per_sheet(blank), 10.0, 0.0);
    near(board.cut(blank, 50.0, "sheet-length").unwrap().sheets, 5.0, 0.0);
    near(board.cut(blank, 51.0, "sheet-length").unwrap().sheets, 6.0, 0.0);
    // The last cut needs no kerf beyond it.
    let tight = Sheet { size: Size { length: 2.0 * 838.2 + 2.0, width: 241.3 }, kerf: 2.0 };
    near(tight.per_sheet(blank), 2.0, 0.0);
    assert_eq!(
        strip.cut(Size { length: 920.0, ..blank }, 1.0, "sheet-length").unwrap_err().field(),
        "sheet-length"
    );
}

/// At the bench: a line of the same resorcinol glue that lay open for 4 min has 36 min left once it is covered.
#[test]
fn the_bench_timer_gives_a_covered_line_what_the_table_leaves_it() {
    let Clock { open, total, per_line, closing } = clock();
    let glue = Glue { open, total, per_line, closing, ..Glue::default() };
    let layup = Layup { plies: Layup::default().plies[..3].to_vec(), ..Layup::default() };
    let session = Session::start(Plan::of(&layup, &glue), 0.0);
    let at = |minutes: f64| session.at((COUNTDOWN + 60.0 * minutes) * 1000.0);
    near(at(4.0).assembly_left.unwrap(), 36.0 * 60.0, 1e-6);
    near(at(4.0).used, 0.4, 1e-12);
    near(at(7.0).assembly_left.unwrap(), 33.0 * 60.0, 1e-6);
    near(at(7.0).open_left.unwrap(), 7.0 * 60.0, 1e-6);
}
