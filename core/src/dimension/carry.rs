//! A chain carried along by moves of the plane.

use super::{
    fit::{self, Target},
    flow::{Flow, Image},
};
use crate::{
    design::{Design, Refusal, Shape},
    outline::{Course, Half, Handle, Joint, Outline, Span, SpanEnd, check_form},
    real,
};
use kurbo::{Point, Vec2};

/// The design with `shape`, settled and checked, and what its outline resolves to: the one place where what the nodes do
/// not store is solved again after they moved.
pub(super) fn settled(design: &Design, mut shape: Shape) -> Result<(Design, Half), Refusal> {
    let outline = &mut shape.outline;
    check_form(outline).and_then(|()| outline.relax()).map_err(Refusal::Outline)?;
    design.with_shape_resolved(shape)
}

/// The chain after moves by their amounts.
///
/// Nodes and tangents go where the moves take them. A cubic span becomes the cubic with those ends and tangents that comes
/// nearest to the image of its curve, in place and in curvature at both ends. A laid sweep stays as it is and goes where its
/// tip goes or, without a tip, by the mean of what its ends go; its neighbours follow. What does not move stays to the
/// bit.
pub(super) fn carried(outline: &Outline, flows: &[(&Flow, f64)]) -> Result<Outline, Refusal> {
    let image = |p: Point| Image::of(p, flows);
    let images: Vec<Image> = outline.nodes.iter().map(|node| image(node.place)).collect();
    if images.iter().any(Image::folds) {
        return Err(FOLDS);
    }
    let mut chain = outline.clone();
    for ((node, image), old) in chain.nodes.iter_mut().zip(&images).zip(&outline.nodes) {
        node.place = image.place;
        if let Joint::Smooth(angle) = old.joint
            && *image != Image::resting(old.place)
        {
            node.joint = Joint::Smooth(real::direction(image.turn(real::unit_vector(angle))));
        }
    }
    chain.lay_anew(outline);
    let bends_a_line = (0..chain.nodes.len()).any(|i| {
        outline.nodes[i].joint != Joint::Corner && outline.can_be_smooth(i) && !chain.can_be_smooth(i)
    });
    if bends_a_line {
        return Err(BENDS_A_LINE);
    }
    for s in 0..outline.spans.len() {
        if let Span::Cubic { .. } = outline.spans[s] {
            carry_handles(outline, &mut chain, s, &images, &image)?;
        }
    }
    Ok(chain)
}

const FOLDS: Refusal = Refusal::Impossible(
    "the edge would fold over there: change it less, or move the nodes there by hand first",
);
const BENDS_A_LINE: Refusal =
    Refusal::Impossible("a straight edge would have to bend: make it a curve first");

/// Sets the handles of cubic span `s` of `chain`, whose nodes have moved already.
fn carry_handles(
    outline: &Outline,
    chain: &mut Outline,
    s: usize,
    images: &[Image],
    image: &impl Fn(Point) -> Image,
) -> Result<(), Refusal> {
    let Course::Cubic(curve) = outline.course(s) else { return Ok(()) };
    let target = Target::of(&curve, image).ok_or(FOLDS)?;
    let rests = [s, s + 1].into_iter().all(|i| images[i] == Image::resting(outline.nodes[i].place));
    if rests && target.rests {
        return Ok(());
    }
    let old = [images[s].turn(curve.p1 - curve.p0), images[s + 1].turn(curve.p2 - curve.p3)];
    let tangents = [(SpanEnd::Start, 1.0), (SpanEnd::End, -1.0)].map(|(end, outward)| {
        let node = Outline::node_of(s, end);
        chain.tangent(node).map(|angle| real::unit_vector(angle) * outward)
    });
    let unit = |v: Vec2| v / v.hypot2().sqrt();
    let arms = [tangents[0].unwrap_or_else(|| unit(old[0])), tangents[1].unwrap_or_else(|| unit(old[1]))];
    let ends = [chain.nodes[s].place, chain.nodes[s + 1].place];
    let lengths = fit::lengths(ends, arms, old.map(|v| v.hypot2().sqrt()), &target);
    let handle = |node: usize, arm: Vec2, length: f64| match chain.nodes[node].joint {
        Joint::Corner => Handle::Free(arm * length),
        Joint::Smooth(_) | Joint::Led => Handle::Along(length),
    };
    chain.spans[s] =
        Span::Cubic { start: handle(s, arms[0], lengths[0]), end: handle(s + 1, arms[1], lengths[1]) };
    Ok(())
}
