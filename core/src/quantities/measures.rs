//! The table of measures, in the order the page lists them.

use super::{Group, Measure, Quantity, Reading};
use crate::{
    measure::{End, Measured, RailRun, Waist},
    tolerance,
    units::Unit,
};

const NO_WAIST: &str = "no waist";
const SHORT_KICK: &str = "less than 10 mm beyond the reference";
const ONE_RUN: &str = "a single straight rail";

/// A row of the table.
const fn row(
    key: &'static str,
    label: &'static str,
    unit: Unit,
    group: Group,
    read: fn(&Measured) -> Reading,
    help: &'static str,
) -> Measure {
    Measure { quantity: Quantity { key, label, help, unit }, group, read }
}

/// Every quantity that is read off a shape.
pub const MEASURES: &[Measure] = &[
    row(
        "area",
        "Area",
        Unit::Area,
        Group::Whole,
        |m| Reading::of(m.area),
        "Area of the whole outline on the developed sheet, exact on the curves.",
    ),
    row(
        "overall-length",
        "Length",
        Unit::Length,
        Group::Whole,
        |m| Reading::of(m.overall_length),
        "End to end along the developed sheet: what a flexible tape laid on the top face reads.",
    ),
    row(
        "overall-width",
        "Width",
        Unit::Length,
        Group::Whole,
        |m| Reading::of(m.overall_width),
        "Rail to rail at the widest place, on the developed sheet.",
    ),
    row(
        "plan-length",
        "Length in plan",
        Unit::Length,
        Group::Whole,
        |m| Reading::of(m.plan_length),
        "End to end seen from straight above: what callipers over the pressed deck read. No rocker or camber is modelled.",
    ),
    row(
        "plan-width",
        "Width in plan",
        Unit::Length,
        Group::Whole,
        |m| Reading::of(m.plan_width),
        "Rail to rail at the widest place seen from straight above.",
    ),
    row(
        "perimeter",
        "Perimeter",
        Unit::Length,
        Group::Whole,
        |m| Reading::of(m.perimeter),
        "Length of the whole edge on the developed sheet.",
    ),
    row(
        "platform-length",
        "Platform length",
        Unit::Length,
        Group::Whole,
        |m| Reading::of(m.platform_length),
        "Flat length on the centreline between the two bend lines; to the end where an end lies flat. No rocker or camber is modelled.",
    ),
    row(
        "nose-axle-width",
        "Width at nose axle",
        Unit::Length,
        Group::Whole,
        |m| Reading::of(m.nose_axle_width),
        "Full width at the centre of the nose truck's bolt pattern.",
    ),
    row(
        "tail-axle-width",
        "Width at tail axle",
        Unit::Length,
        Group::Whole,
        |m| Reading::of(m.tail_axle_width),
        "Full width at the centre of the tail truck's bolt pattern.",
    ),
    row(
        "rail-run-fore",
        "Straight rail, fore",
        Unit::Length,
        Group::Rail,
        |m| Reading::or_none(m.fore_run().map(RailRun::length), "no straight rail"),
        "Length of edge nearest the nose that stays within the rail tolerance of its highest point: the edge one can stand on with the board on its side.",
    ),
    row(
        "rail-run-aft",
        "Straight rail, aft",
        Unit::Length,
        Group::Rail,
        |m| Reading::or_none(m.aft_run().map(RailRun::length), ONE_RUN),
        "The straight rail nearest the tail, where a waist parts it from the one nearest the nose.",
    ),
    row(
        "waist-width",
        "Waist width",
        Unit::Length,
        Group::Rail,
        |m| Reading::or_none(m.waist().map(Waist::width), NO_WAIST),
        "Full width at the narrowest place between two straight rails.",
    ),
    row(
        "waist-depth",
        "Waist depth, per side",
        Unit::Length,
        Group::Rail,
        |m| Reading::or_none(m.waist().map(|w| w.depth), NO_WAIST),
        "How far the half width at the waist lies below the lower of the highest edges toward nose and tail.",
    ),
    row(
        "waist-length",
        "Waist length",
        Unit::Length,
        Group::Rail,
        |m| Reading::or_none(m.waist().map(Waist::length), NO_WAIST),
        "Distance between the facing ends of the straight rails beside the waist.",
    ),
    row(
        "waists",
        "Waists",
        Unit::Count,
        Group::Rail,
        |m| Reading::of(m.waists.len() as f64),
        "How many waists the outline has; the deepest is the one measured.",
    ),
    row(
        "nose-kick-length",
        "Nose kick length",
        Unit::Length,
        Group::Nose,
        |m| Reading::of(m.nose.kick_length),
        "From the outer bolt row to the end of the nose, along the surface.",
    ),
    row(
        "nose-kick-taper",
        "Nose kick taper",
        Unit::Angle,
        Group::Nose,
        |m| taper(&m.nose),
        "Mean slope of the side from the bend line (or the outer bolt row of a flat end) to midway to the end, as a rule laid along it reads. Negative where the kick widens.",
    ),
    row(
        "nose-tip-radius",
        "Nose tip radius",
        Unit::Length,
        Group::Nose,
        |m| tip_radius(&m.nose),
        "Radius of curvature at the tip of the nose.",
    ),
    row(
        "nose-compass-radius",
        "Nose compass radius",
        Unit::Length,
        Group::Nose,
        |m| compass(&m.nose),
        "Radius of the circle about the centreline that comes nearest to the nose between its shoulders, where the edge has turned 45°.",
    ),
    row(
        "nose-compass-point",
        "Nose compass point",
        Unit::Length,
        Group::Nose,
        |m| Reading::or_none(m.nose.compass.map(|c| c.point), "no shoulder"),
        "Where the compass is set for that circle: distance outward from the outer bolt row.",
    ),
    row(
        "nose-compass-misfit",
        "Nose compass misfit",
        Unit::Thickness,
        Group::Nose,
        |m| Reading::or_none(m.nose.compass.map(|c| c.misfit), "no shoulder"),
        "The farthest the edge of the nose leaves that circle.",
    ),
    row(
        "nose-fullness",
        "Nose fullness",
        Unit::Ratio,
        Group::Nose,
        |m| Reading::or_none(m.nose.fullness, SHORT_KICK),
        "Area of the nose beyond its reference ÷ (its length × the full width there): 1 is a rectangle, 0.785 a half-ellipse.",
    ),
    row(
        "tail-kick-length",
        "Tail kick length",
        Unit::Length,
        Group::Tail,
        |m| Reading::of(m.tail.kick_length),
        "From the outer bolt row to the end of the tail, along the surface.",
    ),
    row(
        "tail-kick-taper",
        "Tail kick taper",
        Unit::Angle,
        Group::Tail,
        |m| taper(&m.tail),
        "Mean slope of the side from the bend line (or the outer bolt row of a flat end) to midway to the end, as a rule laid along it reads. Negative where the kick widens.",
    ),
    row(
        "tail-tip-radius",
        "Tail tip radius",
        Unit::Length,
        Group::Tail,
        |m| tip_radius(&m.tail),
        "Radius of curvature at the tip of the tail.",
    ),
    row(
        "tail-compass-radius",
        "Tail compass radius",
        Unit::Length,
        Group::Tail,
        |m| compass(&m.tail),
        "Radius of the circle about the centreline that comes nearest to the tail between its shoulders, where the edge has turned 45°.",
    ),
    row(
        "tail-compass-point",
        "Tail compass point",
        Unit::Length,
        Group::Tail,
        |m| Reading::or_none(m.tail.compass.map(|c| c.point), "no shoulder"),
        "Where the compass is set for that circle: distance outward from the outer bolt row.",
    ),
    row(
        "tail-compass-misfit",
        "Tail compass misfit",
        Unit::Thickness,
        Group::Tail,
        |m| Reading::or_none(m.tail.compass.map(|c| c.misfit), "no shoulder"),
        "The farthest the edge of the tail leaves that circle.",
    ),
    row(
        "tail-fullness",
        "Tail fullness",
        Unit::Ratio,
        Group::Tail,
        |m| Reading::or_none(m.tail.fullness, SHORT_KICK),
        "Area of the tail beyond its reference ÷ (its length × the full width there): 1 is a rectangle, 0.785 a half-ellipse.",
    ),
    row(
        "smallest-convex-radius",
        "Tightest outward bend",
        Unit::Length,
        Group::Edge,
        |m| Reading::or_none(m.smallest_convex.map(|b| b.radius), "no outward bend"),
        "Smallest radius where the edge bulges outward; corners are listed, not counted.",
    ),
    row(
        "smallest-concave-radius",
        "Tightest inward bend",
        Unit::Length,
        Group::Edge,
        |m| Reading::or_none(m.smallest_concave.map(|b| b.radius), "no inward bend"),
        "Smallest radius where the edge bends inward; a router bit must have a smaller one.",
    ),
    row(
        "corners",
        "Corners",
        Unit::Count,
        Group::Edge,
        |m| Reading::of(m.corners.len() as f64),
        "Corners along one half of the edge.",
    ),
    row(
        "curvature-sign-changes",
        "Turns of the curve",
        Unit::Count,
        Group::Edge,
        |m| Reading::of(m.fairness.sign_changes as f64),
        "How often the edge of one half changes from bulging outward to bending inward or back.",
    ),
    row(
        "curvature-extrema",
        "Swells of the curve",
        Unit::Count,
        Group::Edge,
        |m| Reading::of(m.fairness.extrema as f64),
        "How often the curvature along one half turns from rising to falling or back: the fewer, the fairer.",
    ),
    row(
        "tangent-jump",
        "Largest kink",
        Unit::Angle,
        Group::Edge,
        |m| Reading::of(m.fairness.tangent_jump),
        "Largest jump of direction at a smooth node.",
    ),
    row(
        "curvature-jump",
        "Largest jump of curvature",
        Unit::Curvature,
        Group::Edge,
        |m| Reading::of(m.fairness.curvature_jump),
        "Largest jump of curvature at a node that is no corner.",
    ),
    row(
        "glue-mass",
        "Glue",
        Unit::Mass,
        Group::Glue,
        |m| Reading::of(m.glue_mass),
        "Glue to weigh out for one deck: blank area × glue lines × glue per line, and the loss on top.",
    ),
    row(
        "glue-inside-share",
        "Glue inside the outline",
        Unit::Share,
        Group::Glue,
        |m| Reading::of(m.glue_inside_share),
        "Share of the glue that stays in the deck: area of the outline ÷ area of the blank.",
    ),
];

fn taper(end: &End) -> Reading {
    Reading::or_none(end.taper, SHORT_KICK)
}

fn tip_radius(end: &End) -> Reading {
    match end.tip_curvature {
        None => Reading::none("corner"),
        Some(k) if k < -tolerance::FLAT_CURVATURE => Reading::none("notched"),
        Some(k) if k < tolerance::FLAT_CURVATURE => Reading::none("flat"),
        Some(k) => Reading::of(1.0 / k),
    }
}

fn compass(end: &End) -> Reading {
    match end.compass {
        None => Reading::none("no shoulder"),
        Some(c) if c.misfit > tolerance::ROUND_MISFIT => {
            Reading { value: Some(c.radius), remark: "not round" }
        }
        Some(c) => Reading::of(c.radius),
    }
}
