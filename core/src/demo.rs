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
    let outline = smooth_outline(
        &[
            [(-400.05, 0.0), (-400.05, 83.94), (-291.34, 97.13), (-254.0, 100.2)],
            [(-254.0, 100.2), (-228.83, 102.27), (-174.61, 104.775), (0.0, 104.775)],
            [(0.0, 104.775), (118.32, 104.775), (212.72, 103.61), (254.0, 100.8)],
            [(254.0, 100.8), (386.83, 91.76), (412.75, 35.58), (412.75, 0.0)],
        ],
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
    let outline = smooth_outline(
        &[
            [(-409.575, 0.0), (-409.575, 15.4), (-408.39, 30.78), (-406.03, 46.0)],
            [(-406.03, 46.0), (-403.9, 59.69), (-394.49, 71.14), (-381.47, 75.88)],
            [(-381.47, 75.88), (-336.57, 92.23), (-292.64, 95.51), (-240.0, 98.2)],
            [(-240.0, 98.2), (-198.39, 100.32), (-36.22, 107.95), (40.0, 107.95)],
            [(40.0, 107.95), (57.94, 107.95), (162.71, 107.53), (235.0, 92.5)],
            [(235.0, 92.5), (337.29, 71.24), (352.425, 25.32), (352.425, 0.0)],
        ],
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
    let mut outline = smooth_outline(
        &[
            [(0.0, 91.25), (33.48, 91.25), (58.52, 95.25), (92.0, 95.25)],
            [(92.0, 95.25), (117.33, 95.25), (142.67, 95.25), (168.0, 95.25)],
            [(168.0, 95.25), (195.42, 95.25), (221.86, 92.87), (240.0, 90.3)],
            [(240.0, 90.3), (341.22, 75.93), (361.95, 30.04), (361.95, 0.0)],
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

/// A chain of cubics with every node smooth, from control points tail to nose. The handles at a node are set on one
/// line, the mean of their directions.
fn smooth_outline(spans: &[[(f64, f64); 4]], twin: bool) -> Outline {
    let mut outline = Outline { nodes: Vec::new(), spans: Vec::new(), twin, sweeps: Vec::new() };
    let mut last = None;
    for span in spans {
        let [p0, p1, p2, p3] = span.map(Point::from);
        let (leaves, arrives) = (p1 - p0, p3 - p2);
        let joint = last.map_or(Joint::Led, |(_, before)| {
            let (a, b) = (real::direction(before), real::direction(leaves));
            Joint::Smooth(a + real::wrapped(b - a) / 2.0)
        });
        outline.nodes.push(Node { place: p0, joint });
        let [start, end] = [leaves, arrives].map(|handle| Handle::Along(handle.hypot()));
        outline.spans.push(Span::Cubic { start, end });
        last = Some((p3, arrives));
    }
    outline.nodes.extend(last.map(|(place, _)| Node { place, joint: Joint::Led }));
    outline
}
