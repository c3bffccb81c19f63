//! The bench timer: its steps add up, and it uses the glue's time as the workshop's clock says.

use halfbreadth_core::{
    layup::{Grain, Layup},
    workshop::{
        bench::{COUNTDOWN, Cue, Moment, Phase, Plan, Session},
        glue::Basis,
        inputs::Glue,
    },
};
use halfbreadth_tests::random::Random;

const START: f64 = 1.7e12;

fn plan(random: &mut Random) -> Plan {
    let mut layup = Layup::default();
    let usual = layup.plies[0].clone();
    layup.plies = (0..3 + random.below(11))
        .map(|_| {
            let grain = random.pick(&[Grain::Along, Grain::Across]);
            halfbreadth_core::layup::Ply { grain, ..usual.clone() }
        })
        .collect();
    // Thousandths of a minute, as the line in the browser's storage has them.
    let mut minutes = |least: f64, most: f64| (random.between(least, most) * 1000.0).round() / 1000.0;
    let open = minutes(1.0, 60.0);
    let [more, per_line, closing, press_time] =
        [minutes(0.0, 60.0), minutes(0.1, 8.0), minutes(0.0, 20.0), minutes(1.0, 3000.0)];
    let glue = Glue {
        basis: random.pick(&[Basis::Line, Basis::OneFace, Basis::BothFaces]),
        top_first: random.chance(0.5),
        open,
        total: open + more,
        per_line,
        closing,
        press_time,
        ..Glue::default()
    };
    Plan::of(&layup, &glue)
}

/// The moment so many seconds from the first touch of glue.
fn after(seconds: f64) -> f64 {
    START + (COUNTDOWN + seconds) * 1000.0
}

#[track_caller]
fn near(found: f64, expected: f64, seed: u64) {
    assert!(
        (found - expected).abs() <= 1e-6 * (1.0 + expected.abs()),
        "seed {seed}: {found}, not {expected}"
    );
}

#[test]
fn the_steps_add_up_and_use_the_glue_s_time_as_the_clock_says() {
    for seed in 0..400 {
        let plan = plan(&mut Random::new(seed));
        let (clock, lines) = (plan.clock, plan.lines());
        let session = Session::start(plan.clone(), START);
        let steps = session.steps();
        let sum: f64 = steps.iter().map(|step| step.to - step.from).sum();
        near(sum, 60.0 * (clock.pressed(lines) + plan.press_time), seed);
        assert!(steps.windows(2).all(|pair| pair[0].to.to_bits() == pair[1].from.to_bits()), "seed {seed}");
        // Measured in the press, when nothing can change it any more.
        let pressed = session.at(after(60.0 * clock.pressed(lines) + 1.0));
        assert_eq!(pressed.phase, Phase::Press, "seed {seed}");
        near(pressed.used, clock.used_share(lines), seed);
        near((session.opens().unwrap() - after(0.0)) / 1000.0, sum, seed);
        // Each line as the clock's own timeline has it.
        for line in clock.timeline(lines) {
            let step = &steps[line.number - 1];
            near(step.from, 60.0 * line.spread, seed);
            near(step.to, 60.0 * line.covered, seed);
        }
    }
}

#[test]
fn whatever_is_pressed_time_goes_on_and_the_line_brings_it_back() {
    for seed in 0..300 {
        let mut random = Random::new(seed);
        let mut session = Session::start(plan(&mut random), START);
        let mut seconds = -COUNTDOWN;
        let mut last: Option<Moment> = None;
        for _ in 0..40 {
            // Whole milliseconds, as clocks count.
            seconds = ((seconds + random.between(0.0, 90.0)) * 1000.0).round() / 1000.0;
            match random.below(4) {
                0 => session.next(after(seconds)),
                1 => session.hold(after(seconds)),
                _ => {}
            }
            let at = session.at(after(seconds));
            assert!(at.left.is_finite() && at.used >= 0.0, "seed {seed}: {at:?}");
            if let Some(last) = last {
                assert!(at.step >= last.step && at.used >= last.used - 1e-9, "seed {seed}: {last:?} {at:?}");
                let _: Option<Cue> = Cue::between(&last, &at);
            }
            let steps = session.steps();
            assert!(steps.iter().all(|step| step.to >= step.from), "seed {seed}: {steps:?}");
            let board = session.board(after(seconds), &|_| -300.0);
            assert!(!board.figure.is_empty() && !board.now.is_empty(), "seed {seed}");
            assert_eq!(at.is_late(), !board.late.is_empty(), "seed {seed}");
            let back = Session::resumed(&session.kept()).expect("its own line is read");
            assert_eq!(back.kept(), session.kept(), "seed {seed}");
            near(back.at(after(seconds)).left, at.left, seed);
            last = Some(at);
        }
    }
}
