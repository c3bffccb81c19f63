use super::*;
use crate::layup::{Grain, Layup};

const START: f64 = 1_764_100_000_000.0;
const CLOCK: Clock = Clock { open: 5.0, total: 10.0, per_line: 1.0, closing: 3.0 };

/// A glue with that clock.
fn glue() -> Glue {
    let Clock { open, total, per_line, closing } = CLOCK;
    let press_time = 24.0 * 60.0;
    Glue { open, total, per_line, closing, press_time, ..Glue::default() }
}

fn plan() -> Plan {
    Plan::of(&Layup::default(), &glue())
}

fn session() -> Session {
    Session::start(plan(), START)
}

/// The moment so many seconds from the first touch of glue.
fn after(seconds: f64) -> f64 {
    START + (COUNTDOWN + seconds) * 1000.0
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-6, "{found} is not {expected}");
}

/// Seven plies L L X L X L L laid from the bottom: 7 lies, then 6, 5 (a cross ply), 4, 3, 2, 1.
#[test]
fn the_bench_reads_which_face_is_spread_and_which_ply_is_laid() {
    let words: Vec<String> = plan().works().iter().map(|work| work.words()).collect();
    assert_eq!(words[0], "Spread ply 7, upper face; lay ply 6, grain along");
    assert_eq!(words[1], "Spread ply 6, upper face; lay ply 5, grain across");
    assert_eq!(words[5], "Spread ply 2, upper face; lay ply 1, grain along, better face up");
    assert_eq!(words[6], "Close the press: tighten evenly, from the middle out");
    assert_eq!(words.len(), 8);
    let both = Plan::of(&Layup::default(), &Glue { top_first: true, basis: Basis::BothFaces, ..glue() });
    assert_eq!(
        both.works()[0].words(),
        "Spread ply 1, upper face, and ply 2, lower face; lay ply 2, grain along"
    );
    assert!(both.works()[6].words().starts_with("Turn the stack over; close the press"));
    assert_eq!(both.ready_words(), "Ply 1 lies on the bench, grain along, better face down");
    assert_eq!(plan().ready_words(), "Ply 7 lies on the mould, grain along, better face down");
    assert_eq!(plan().words(), "6 lines at 1 min each, 3 min to close: 100 % of the glue’s time");
}

/// Six lines of one minute and three to close, by hand: the press holds it after 9 min; the first line is then 1 min open of 5
/// and 8 min closed of 10, which is all of its budget.
#[test]
fn a_session_goes_on_by_itself_at_the_pace() {
    let session = session();
    let at = |seconds: f64| session.at(after(seconds));
    assert_eq!(at(-10.0).phase, Phase::Countdown);
    near(at(-4.0).left, 4.0);
    assert_eq!((at(0.0).phase, at(0.0).step), (Phase::Lay, 0));
    near(at(0.0).open_left.unwrap(), 300.0);
    // Covered after 1 min, a fifth of its open time, it keeps four fifths of ten minutes.
    near(at(0.0).assembly_left.unwrap(), 60.0 + 480.0);
    assert_eq!(at(150.0).step, 2);
    near(at(150.0).left, 30.0);
    near(at(150.0).open_left.unwrap(), 270.0);
    // The first line: a fifth of its budget open, then 90 s of 600 closed.
    near(at(150.0).used, 0.2 + 0.15);
    near(at(150.0).assembly_left.unwrap(), 0.65 * 600.0);
    assert_eq!(at(359.9).phase, Phase::Lay);
    assert_eq!((at(360.0).phase, at(360.0).open_left), (Phase::Close, None));
    assert_eq!(at(540.0).phase, Phase::Press);
    near(at(540.0).used, 1.0);
    near(at(540.0).left, 24.0 * 3600.0);
    assert_eq!(at(540.0).assembly_left, None);
    assert_eq!(at(540.0 + 86_400.0).phase, Phase::Open);
    near(at(540.0 + 86_401.0).left, 0.0);
    near(session.opens().unwrap(), after(540.0 + 86_400.0));
}

#[test]
fn a_step_that_took_less_brings_all_forward_and_one_that_is_held_puts_all_off() {
    let mut session = session();
    session.next(after(-3.0));
    assert_eq!(session.at(after(0.0)).step, 0, "the countdown is not skipped");
    session.next(after(40.0));
    let at = session.at(after(41.0));
    assert_eq!(at.step, 1);
    near(at.left, 59.0);
    session.hold(after(60.0));
    let at = session.at(after(400.0));
    assert_eq!((at.step, session.is_held(), session.opens()), (1, true, None));
    near(at.left, 100.0 - 400.0);
    near(at.open_left.unwrap(), 300.0 - 360.0);
    assert!(at.is_late() && at.assembly_left.unwrap() < 0.0);
    assert!(session.late_words(&at).contains("scrape the glue off"));
    session.next(after(400.0));
    assert_eq!((session.at(after(401.0)).step, session.is_held()), (2, false));
    near(session.opens().unwrap(), after(400.0 + 4.0 * 60.0 + 180.0 + 86_400.0));
    let pressed = session.at(after(900.0));
    assert!(session.late_words(&pressed).starts_with("This stack was pressed late"));
}

#[test]
fn a_hold_let_go_in_time_changes_nothing() {
    let mut held = session();
    held.hold(after(70.0));
    held.hold(after(90.0));
    assert_eq!(held, session());
    // Past its time it ends now.
    held.hold(after(70.0));
    held.hold(after(130.0));
    near(held.steps()[1].to, 130.0);
}

#[test]
fn a_session_goes_on_from_its_line() {
    for (top_first, both_faces) in [(false, false), (true, true)] {
        let mut layup = Layup::default();
        layup.plies[1].grain = Grain::Across; // no longer the same both ways round
        let basis = if both_faces { Basis::BothFaces } else { Basis::Line };
        let plan = Plan::of(&layup, &Glue { top_first, basis, open: 4.5, press_time: 90.0, ..glue() });
        let mut session = Session::start(plan, START);
        session.next(after(47.125));
        session.hold(after(100.0));
        assert_eq!(Session::resumed(&session.kept()), Some(session.clone()), "{}", session.kept());
    }
}

#[test]
fn a_line_that_no_session_wrote_is_none() {
    let good = session().kept();
    assert!(Session::resumed(&good).is_some());
    let bad = [
        "",
        "bench-2",
        &good.replace("bench-1", "bench-9"),
        &good.replace("LLXLXLL", "LLXLXL"),
        &good.replace("LLXLXLL", "L"),
        &good.replace("LLXLXLL", "LLXQXLL"),
        &good.replace("B1", "C1"),
        &good.replace(" 5000 ", " NaN "),
        &good.replace(" 5000 ", " 0 "),
        &good.replace("B1 LLXLXLL -", "B1 LLXLXLL 7"),
        &[&good, " -"].concat(),
        &good[..good.len() - 2],
    ];
    for line in bad {
        assert_eq!(Session::resumed(line), None, "{line}");
    }
}

#[test]
fn spans_and_wall_clocks_read_as_people_say_them() {
    for (seconds, text) in [
        (65.0, "1:05"),
        (0.2, "0:01"),
        (0.0, "0:00"),
        (-12.4, "−0:12"),
        (86_347.0, "23:59:07"),
        (-0.5, "0:00"),
    ] {
        assert_eq!(span(seconds), text);
    }
    // 2026-01-03 was a Saturday: 20,456 days after the epoch's Thursday.
    let noon = 20_456.0 * 86_400_000.0 + 12.0 * 3_600_000.0;
    assert_eq!(wall_clock(noon, 0.0, noon, 0.0), "today 12:00");
    assert_eq!(wall_clock(noon + 1.0, 120.0, noon, 120.0), "today 14:01");
    assert_eq!(wall_clock(noon + 86_400_000.0, -300.0, noon, -300.0), "tomorrow 7:00");
    assert_eq!(wall_clock(noon + 2.0 * 86_400_000.0, 0.0, noon, 0.0), "Monday 12:00");
    // Summer time begins between: the clock of that day counts.
    assert_eq!(wall_clock(noon, 60.0, noon, 0.0), "today 13:00");
}

#[test]
fn the_board_says_it_all_and_sounds_at_every_step() {
    let session = session();
    let at = |seconds: f64| session.board(after(seconds), &|_| 60.0);
    assert_eq!((at(-3.0).headline.as_str(), at(-3.0).figure.as_str()), ("Make ready", "0:03"));
    let board = at(75.0);
    assert_eq!((board.headline.as_str(), board.figure.as_str()), ("Ply 5 across", "0:45"));
    assert_eq!((board.open.as_str(), board.used_words.as_str()), ("4:45", "23 %"));
    assert!(board.next.starts_with("Spread ply 5") && board.can_step && board.late.is_empty());
    let moments: Vec<Moment> = (-40..2200).map(|k| session.at(after(f64::from(k) / 4.0))).collect();
    let cues: Vec<Cue> = moments.windows(2).filter_map(|pair| Cue::between(&pair[0], &pair[1])).collect();
    let count = |cue: Cue| cues.iter().filter(|found| **found == cue).count();
    // Six lines, closing, pressing; three ticks before each and none in the press.
    assert_eq!((count(Cue::Step), count(Cue::Tick), count(Cue::Late)), (8, 3 * 8, 0));
    for cue in [Cue::Tick, Cue::Step, Cue::Late, Cue::Open] {
        assert!(cue.tones().iter().all(|(hertz, seconds)| *hertz < 4000.0 && *seconds < 1.0));
    }
}
