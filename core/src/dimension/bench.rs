//! A design laid out for changes: each amount gives another design.

use super::{
    carry::{carried, settled},
    plan::{Moves, Plan},
};
use crate::{
    design::{Design, Refusal, Shape},
    measure::Measured,
    outline::{Outline, Piece, Span},
};
use kurbo::{ParamCurve, Point};

/// Several changes of one design, made at once, each with its amount.
pub(super) struct Bench<'a> {
    design: &'a Design,
    shape: Shape,
    moves: Vec<Moves>,
}

impl<'a> Bench<'a> {
    /// Lays out a design with the nodes that the plans ask for.
    pub(super) fn new(design: &'a Design, plans: Vec<Plan>) -> Self {
        let mut shape = design.shape().clone();
        let mut moves = Vec::with_capacity(plans.len());
        for plan in plans {
            for x in plan.nodes_at {
                shape.outline = with_node_at_station(&shape.outline, x);
            }
            moves.push(plan.moves);
        }
        Self { design, shape, moves }
    }

    /// The design after all changes, and its measures.
    ///
    /// # Errors
    ///
    /// The [`Refusal`] of what they would make.
    pub(super) fn changed(&self, amounts: &[f64]) -> Result<(Design, Measured), Refusal> {
        let mut shape = self.shape.clone();
        let mut flows = Vec::with_capacity(amounts.len());
        for (moves, amount) in self.moves.iter().zip(amounts) {
            match moves {
                Moves::Outline(flow) => flows.push((flow, *amount)),
                Moves::Wheelbase => shape.datum.wheelbase += amount,
            }
        }
        if !flows.is_empty() {
            shape.outline = carried(&self.shape.outline, &flows)?;
        }
        let (design, half) = settled(self.design, shape)?;
        let measured = Measured::of_resolved(design.shape(), half);
        Ok((design, measured))
    }
}

/// A node nearer than this to another one, mm, would be of no use.
const APART: f64 = 1.0;

/// The chain with a node on its outermost edge at station `x`; as it is where one is there, or where the edge is
/// straight or laid by a sweep: those are not broken.
fn with_node_at_station(outline: &Outline, x: f64) -> Outline {
    let x = if outline.twin { x.abs() } else { x };
    let half = outline.resolve();
    let mut best: Option<(&Piece, f64, Point)> = None;
    for piece in half.pieces().iter().filter(|piece| !piece.far) {
        for t in piece.at_x(x) {
            let place = piece.curve.eval(t);
            if best.is_none_or(|(_, _, old)| place.y.total_cmp(&old.y).is_ge()) {
                best = Some((piece, t, place));
            }
        }
    }
    let Some((piece, t, place)) = best else { return outline.clone() };
    let gap = (place - piece.curve.p0).hypot2().min((place - piece.curve.p3).hypot2());
    let apart = gap > APART * APART;
    let rigid = piece.straight || matches!(outline.spans[piece.span], Span::Laid { .. });
    if !apart || rigid {
        return outline.clone();
    }
    // A batten has several pieces: the parameter along all of it is not that along the piece.
    let along = match outline.spans[piece.span] {
        Span::Batten { .. } => outline.course(piece.span).nearest(place).0,
        _ => t,
    };
    outline.split(piece.span, along)
}
