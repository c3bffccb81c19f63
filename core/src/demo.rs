//! The demo decks: invented, for a community workshop's Saturday class that presses a run of decks named after shore
//! birds.
//!
//! Their pins were found by least squares from the figures stated of each deck, with pins spread evenly so that one that
//! is pulled does what the hand does, and are whole hundredths of a millimetre. At the pin where a deck is widest the edge
//! runs along it to the last digit of an angle, so that the overall width is the pin's.

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
            (-396.29, 25.39),
            (-381.97, 51.26),
            (-352.62, 74.66),
            (-314.47, 89.9),
            (-254.0, 100.2),
            (-207.44, 102.61),
            (-95.56, 104.48),
            (0.0, 104.775),
            (98.65, 104.44),
            (203.97, 102.85),
            (254.0, 100.8),
            (309.49, 93.3),
            (351.03, 79.91),
            (387.95, 56.04),
            (404.57, 33.85),
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
            (-407.26, 38.14),
            (-404.37, 52.6),
            (-387.91, 72.78),
            (-373.7, 78.67),
            (-345.14, 86.46),
            (-304.22, 93.39),
            (-244.8, 97.91),
            (-160.32, 101.96),
            (-26.8, 106.76),
            (40.0, 107.95),
            (119.03, 105.73),
            (199.25, 98.49),
            (261.09, 86.06),
            (299.9, 70.94),
            (328.55, 51.26),
            (346.8, 26.28),
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
            (27.41, 92.05),
            (57.69, 94.04),
            (92.0, 95.25),
            (168.0, 95.25),
            (211.52, 93.42),
            (242.83, 89.89),
            (280.93, 81.68),
            (316.12, 67.45),
            (354.66, 30.21),
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
