//! The demo decks: invented, for a community workshop's Saturday class that presses a run of decks named after shore
//! birds.

use crate::{
    datum::Datum,
    design::{Design, Shape},
    layup::Layup,
    outline::{Handle, Joint, Node, Outline, Span},
    profile::{Kick, Profile},
    real,
};
use core::f64::consts::PI;
use kurbo::Point;

/// A street deck, 32 × 8 1/4 in.
#[must_use]
pub fn turnstone() -> Design {
    let datum = Datum::default();
    let outline = chain(
        &[],
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
        false,
    );
    let kick = |degrees: f64| Kick { bend_line: 19.05, radius: 95.25, angle: degrees * PI / 180.0 };
    let profile = pressed([kick(21.0), kick(20.0)], 10.0, 209.55);
    deck("Turnstone", datum, outline, profile, (838.2, 241.3))
}

/// A cruiser with a tail kick only, 30 × 8 1/2 in. It is drawn in cubics: battens through its tail corners, of 38 mm radius,
/// take pins five millimetres apart, and a pull at one of them sends a wave along the side.
#[must_use]
pub fn whimbrel() -> Design {
    let datum = Datum { wheelbase: 381.0, ..Datum::default() };
    let outline = chain(
        &[
            [(-409.575, 0.0), (-409.575, 15.4), (-408.39, 30.78), (-406.03, 46.0)],
            [(-406.03, 46.0), (-403.9, 59.69), (-394.49, 71.14), (-381.47, 75.88)],
            [(-381.47, 75.88), (-336.57, 92.23), (-292.64, 95.51), (-240.0, 98.2)],
            [(-240.0, 98.2), (-198.39, 100.32), (-36.22, 107.95), (40.0, 107.95)],
            [(40.0, 107.95), (57.94, 107.95), (162.71, 107.53), (235.0, 92.5)],
            [(235.0, 92.5), (337.29, 71.24), (352.425, 25.32), (352.425, 0.0)],
        ],
        &[(352.425, 0.0)],
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
    let mut outline = chain(
        &[
            [(0.0, 91.25), (33.48, 91.25), (58.52, 95.25), (92.0, 95.25)],
            [(92.0, 95.25), (117.33, 95.25), (142.67, 95.25), (168.0, 95.25)],
        ],
        &[
            (168.0, 95.25),
            (209.9, 93.55),
            (240.0, 90.3),
            (291.89, 78.15),
            (319.16, 65.73),
            (354.76, 30.01),
            (361.95, 0.0),
        ],
        true,
    );
    outline.spans[1] = Span::Straight;
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

/// A smooth chain, tail to nose: cubics by their control points where the curve turns in less than pins can follow without
/// a wave on the next pull, and battens through pins for the rest. Of pins only places are given; the first one is the end
/// of the last cubic.
fn chain(cubics: &[[(f64, f64); 4]], pins: &[(f64, f64)], twin: bool) -> Outline {
    let mut outline = Outline { nodes: Vec::new(), spans: Vec::new(), twin, sweeps: Vec::new() };
    let mut arrives = None;
    for cubic in cubics {
        let [p0, p1, p2, p3] = cubic.map(Point::from);
        let leaves = p1 - p0;
        let joint = arrives.map_or(Joint::Led, |before| {
            // The handles at a node are set on one line, the mean of their directions.
            let (a, b) = (real::direction(before), real::direction(leaves));
            Joint::Smooth(a + real::wrapped(b - a) / 2.0)
        });
        outline.nodes.push(Node { place: p0, joint });
        let [start, end] = [leaves, p3 - p2].map(|handle| Handle::Along(handle.hypot()));
        outline.spans.push(Span::Cubic { start, end });
        arrives = Some(p3 - p2);
    }
    let last = pins.len().saturating_sub(1);
    for (i, &pin) in pins.iter().enumerate() {
        let joint = match arrives {
            _ if i == last => Joint::Led,
            Some(before) if i == 0 => Joint::Smooth(real::direction(before)),
            None if i == 0 => Joint::Led,
            // Near enough to start the solve from.
            _ => Joint::Smooth(real::direction(Point::from(pins[i + 1]) - Point::from(pins[i - 1]))),
        };
        outline.nodes.push(Node { place: pin.into(), joint });
    }
    outline.spans.resize(outline.nodes.len() - 1, Span::BATTEN);
    outline.settle();
    outline
        .relax()
        .unwrap_or_else(|_| unreachable!("battens run through the pins of the demo decks; a test lays each"));
    outline
}

#[cfg(test)]
pub(crate) mod cubics;
