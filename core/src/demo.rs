//! The demo decks: invented, for a community workshop's Saturday class that presses a run of decks named after shore
//! birds.

use crate::{
    datum::Datum,
    design::{Design, Shape},
    layup::Layup,
    outline::{Joint, Node, Outline, Span},
    profile::{Kick, Profile},
    real,
};
use core::f64::consts::PI;
use kurbo::Point;

/// A street deck, 32 × 8 1/4 in.
#[must_use]
pub fn turnstone() -> Design {
    let datum = Datum::default();
    let outline = battens(
        &[
            (-400.05, 0.0),
            (-398.04, 18.88),
            (-389.74, 40.21),
            (-335.27, 82.84),
            (-254.0, 100.2),
            (-212.49, 102.44),
            (-146.83, 103.92),
            (0.0, 104.775),
            (152.15, 103.89),
            (226.39, 102.16),
            (254.0, 100.8),
            (320.67, 90.47),
            (357.91, 76.75),
            (403.72, 35.47),
            (412.75, 0.0),
        ],
        None,
        false,
    );
    let kick = |degrees: f64| Kick { bend_line: 19.05, radius: 95.25, angle: degrees * PI / 180.0 };
    let profile = pressed([kick(21.0), kick(20.0)], 10.0, 209.55);
    deck("Turnstone", datum, outline, profile, (838.2, 241.3))
}

/// A cruiser with a tail kick only, 30 × 8 1/2 in.
#[must_use]
pub fn whimbrel() -> Design {
    let datum = Datum { wheelbase: 381.0, ..Datum::default() };
    let outline = battens(
        &[
            (-409.575, 0.0),
            (-406.39, 43.62),
            (-405.54, 48.48),
            (-383.92, 74.87),
            (-379.55, 76.58),
            (-234.44, 98.48),
            (-20.14, 106.96),
            (40.0, 107.95),
            (120.68, 105.63),
            (201.61, 98.17),
            (279.07, 80.09),
            (315.19, 61.9),
            (347.16, 25.45),
            (352.425, 0.0),
        ],
        None,
        false,
    );
    let nose = Kick { bend_line: 0.0, radius: 101.6, angle: 0.0 };
    let tail = Kick { bend_line: 25.4, radius: 101.6, angle: 18.0 * PI / 180.0 };
    deck("Whimbrel", datum, outline, pressed([nose, tail], 8.0, 215.9), (787.4, 247.65))
}

/// A twin with a waist, 28 1/2 × 7 1/2 in.
#[must_use]
pub fn dunlin() -> Design {
    let datum = Datum { wheelbase: 304.8, ..Datum::default() };
    let outline = battens(
        &[
            (0.0, 91.25),
            (19.61, 91.68),
            (68.92, 94.66),
            (92.0, 95.25),
            (168.0, 95.25),
            (209.9, 93.55),
            (240.0, 90.3),
            (291.89, 78.15),
            (319.16, 65.73),
            (354.76, 30.01),
            (361.95, 0.0),
        ],
        Some(3),
        true,
    );
    let kick = Kick::default();
    deck("Dunlin", datum, outline, pressed([kick.clone(), kick], 8.0, 190.5), (749.3, 222.25))
}

/// All demo decks, the one the page opens on first.
#[must_use]
pub fn all() -> [Design; 3] {
    [turnstone(), whimbrel(), dunlin()]
}

fn pressed([nose, tail]: [Kick; 2], concave_depth: f64, concave_width: f64) -> Profile {
    Profile { nose, tail, concave_depth, concave_width, flat_strip: 0.0, concave_fade: 40.0 }
}

fn deck(name: &str, datum: Datum, outline: Outline, profile: Profile, blank: (f64, f64)) -> Design {
    let layup = Layup { blank_length: blank.0, blank_width: blank.1, ..Layup::default() };
    let shape = Shape { datum, outline, rail_tolerance: 0.5, profile, layup };
    Design::new(name, "", shape, Vec::new())
        .unwrap_or_else(|_| unreachable!("a demo deck is valid; a test opens each"))
}

/// A chain of battens through pins, tail to nose, with a straight rail from the pin of index `straight` to the next. Only
/// places are given: the rest is how a batten runs through them.
fn battens(pins: &[(f64, f64)], straight: Option<usize>, twin: bool) -> Outline {
    let last = pins.len() - 1;
    let mut outline =
        Outline { nodes: Vec::new(), spans: vec![Span::BATTEN; last], twin, sweeps: Vec::new() };
    for (i, &pin) in pins.iter().enumerate() {
        let mut joint = Joint::Led;
        if i > 0 && i < last {
            // Near enough to start the solve from; beside a straight rail it is not looked at.
            joint = Joint::Smooth(real::direction(Point::from(pins[i + 1]) - Point::from(pins[i - 1])));
        }
        outline.nodes.push(Node { place: pin.into(), joint });
    }
    if let Some(span) = straight {
        outline.spans[span] = Span::Straight;
    }
    outline.settle();
    outline
        .relax()
        .unwrap_or_else(|_| unreachable!("battens run through the pins of the demo decks; a test lays each"));
    outline
}

#[cfg(test)]
pub(crate) mod cubics;
