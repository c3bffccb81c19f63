//! The outlines of the demo decks in cubics, as they were first drawn: for tests that want handles, and to compare with.

pub(crate) use super::whimbrel;
use super::{Outline, chain};
use crate::{
    design::{Design, Shape},
    outline::Span,
};

/// Turnstone in four cubics.
pub(crate) fn turnstone() -> Design {
    let outline = cubic_chain(
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

/// Dunlin in three cubics and a straight rail.
pub(crate) fn dunlin() -> Design {
    let mut outline = cubic_chain(
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

/// A chain of cubics alone.
fn cubic_chain(cubics: &[[(f64, f64); 4]], twin: bool) -> Outline {
    let end = cubics[cubics.len() - 1][3];
    chain(cubics, &[end], twin)
}
