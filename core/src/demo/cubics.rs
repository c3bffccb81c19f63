//! The outlines of the demo decks in cubics, as they were first drawn: for tests that want handles, and to compare with.

use super::Outline;
use crate::{
    design::{Design, Shape},
    outline::{Handle, Joint, Node, Span},
    real,
};
use kurbo::Point;

/// Turnstone in four cubics.
pub(crate) fn turnstone() -> Design {
    let outline = smooth_outline(
        &[
            [(-400.05, 0.0), (-400.05, 83.94), (-291.34, 97.13), (-254.0, 100.2)],
            [(-254.0, 100.2), (-228.83, 102.27), (-174.61, 104.775), (0.0, 104.775)],
            [(0.0, 104.775), (118.32, 104.775), (212.72, 103.61), (254.0, 100.8)],
            [(254.0, 100.8), (386.83, 91.76), (412.75, 35.58), (412.75, 0.0)],
        ],
        false,
    );
    with_outline(&super::turnstone(), outline)
}

/// Whimbrel in six cubics.
pub(crate) fn whimbrel() -> Design {
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
    with_outline(&super::whimbrel(), outline)
}

/// Dunlin in three cubics and a straight rail.
pub(crate) fn dunlin() -> Design {
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
    with_outline(&super::dunlin(), outline)
}

/// All three, in the order of [`super::all`].
pub(crate) fn all() -> [Design; 3] {
    [turnstone(), whimbrel(), dunlin()]
}

fn with_outline(deck: &Design, outline: Outline) -> Design {
    deck.with_shape(Shape { outline, ..deck.shape().clone() }).unwrap()
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
