//! The laying order at the bench: which ply goes down, which of its faces shows, which is spread.

use crate::layup::{Grain, Layup};

/// Which face of a ply is spread with glue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spread {
    /// Neither: the last ply closes the stack.
    Neither,
    /// The face that lies up.
    Upper,
    /// The face that lies down, before it is laid.
    Lower,
    /// Both.
    Both,
}

/// One ply as it is laid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Laid {
    /// Its number in the stack, 1 the top ply of the deck.
    pub ply: usize,
    /// The way its grain runs.
    pub grain: Grain,
    /// Which face is spread.
    pub spread: Spread,
    /// Whether its down-facing face shows on the finished deck: lay the better face down.
    pub shows_below: bool,
    /// Whether its up-facing face shows on the finished deck.
    pub shows_above: bool,
}

/// The plies in the order they are laid on the mould's lower half, which carries the deck's underside: the bottom ply
/// first. With `top_first` the stack is laid head down and turned before it goes in. `both_faces` spreads each line on
/// both faces.
#[must_use]
pub fn laying_order(layup: &Layup, top_first: bool, both_faces: bool) -> Vec<Laid> {
    let count = layup.plies.len();
    let laid = |step: usize| {
        let index = if top_first { step } else { count - 1 - step };
        let (first, last) = (step == 0, step + 1 == count);
        Laid {
            ply: index + 1,
            grain: layup.plies[index].grain,
            spread: match (last, both_faces && !first) {
                (true, true) => Spread::Lower,
                (true, false) => Spread::Neither,
                (false, true) => Spread::Both,
                (false, false) => Spread::Upper,
            },
            shows_below: first,
            shows_above: last,
        }
    };
    (0..count).map(laid).collect()
}

/// How many plies have grain that way.
#[must_use]
pub fn count(layup: &Layup, grain: Grain) -> usize {
    layup.plies.iter().filter(|ply| ply.grain == grain).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Seven plies have six lines: however they are spread, every line gets glue and the outside none.
    #[test]
    fn every_line_is_spread_and_the_outer_faces_stay_dry() {
        let layup = Layup::default();
        for (top_first, both_faces) in [(false, false), (false, true), (true, false), (true, true)] {
            let order = laying_order(&layup, top_first, both_faces);
            let upper = |laid: &Laid| matches!(laid.spread, Spread::Upper | Spread::Both);
            let lower = |laid: &Laid| matches!(laid.spread, Spread::Lower | Spread::Both);
            assert_eq!(order.iter().filter(|laid| upper(laid)).count(), layup.glue_lines());
            assert_eq!(
                order.iter().filter(|laid| lower(laid)).count(),
                if both_faces { layup.glue_lines() } else { 0 }
            );
            assert!(!lower(&order[0]) && !upper(&order[6]));
            assert_eq!(order[0].ply, if top_first { 1 } else { 7 });
        }
    }

    #[test]
    fn nothing_is_laid_of_an_empty_stack() {
        let layup = Layup { plies: Vec::new(), ..Layup::default() };
        assert_eq!(laying_order(&layup, false, true), []);
    }
}
