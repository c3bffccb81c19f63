//! Every measure of a shape, from the exact curves of its resolved outline.
//!
//! Definitions stand with each field; labels, units and help texts stand in [`crate::quantities`]. Measures are
//! functions of the resolved path alone, so a new kind of span never touches them.

mod compass;
mod curvature;
mod end;
mod envelope;
mod plan;
mod rails;
mod region;

pub(crate) use self::curvature::curvature_at;
pub use self::{
    compass::Compass,
    curvature::{Bend, CombTooth, Fairness, comb},
    end::{End, Shoulder},
    envelope::{Envelope, Stretch},
    rails::{RailRun, Waist},
};
use crate::{design::Shape, outline::Half};
use kurbo::{Point, Rect, Size};

/// All measures of one shape. Lengths in mm, areas in mm², masses in g, angles in radians.
#[derive(Clone, Debug)]
pub struct Measured {
    /// The resolved half outline they were taken from.
    pub half: Half,
    /// The half-breadth as a function of the station.
    pub envelope: Envelope,
    /// Area of the full closed outline on the developed sheet.
    pub area: f64,
    /// Length of the full closed outline.
    pub perimeter: f64,
    /// End to end along the developed sheet.
    pub overall_length: f64,
    /// Twice the largest half-breadth.
    pub overall_width: f64,
    /// End to end seen from straight above.
    pub plan_length: f64,
    /// Rail to rail seen from straight above.
    pub plan_width: f64,
    /// Full width at the nose truck's centre.
    pub nose_axle_width: f64,
    /// Full width at the tail truck's centre.
    pub tail_axle_width: f64,
    /// Flat length on the centreline between the two bend lines, or to the end that lies flat.
    pub platform_length: f64,
    /// Stretches of straight rail, from the nose to the tail.
    pub rail_runs: Vec<RailRun>,
    /// Waists, the deepest first.
    pub waists: Vec<Waist>,
    /// The nose, in a frame whose x runs outward.
    pub nose: End,
    /// The tail, in a frame whose x runs outward.
    pub tail: End,
    /// The tightest outward bend of the edge.
    pub smallest_convex: Option<Bend>,
    /// The tightest inward bend of the edge.
    pub smallest_concave: Option<Bend>,
    /// Corners of the half outline.
    pub corners: Vec<Point>,
    /// What the curvature comb shows, counted.
    pub fairness: Fairness,
    /// The blank round the outline: as far beyond one end as beyond the other.
    pub blank: Rect,
    /// Glue to weigh out for one deck, g.
    pub glue_mass: f64,
    /// Share of the glue that ends up inside the outline.
    pub glue_inside_share: f64,
}

impl Measured {
    /// Takes every measure of `shape`.
    #[must_use]
    pub fn of(shape: &Shape) -> Self {
        Self::of_resolved(shape, shape.outline.resolve())
    }

    /// The same, where it is known what its outline resolves to.
    pub(crate) fn of_resolved(shape: &Shape, half: Half) -> Self {
        let envelope = Envelope::of(&half);
        let Shape { datum, profile, layup, .. } = shape;

        let nose = End::measure(&half, &envelope, datum, &profile.nose);
        let tail = End::measure(&half.turned(), &envelope.turned(), datum, &profile.tail);
        let area = 2.0 * region::area(&half);
        let rail_runs = rails::rail_runs(&envelope, shape.rail_tolerance);
        let waists = rails::waists(&envelope, &rail_runs, shape.rail_tolerance);
        let curvature = curvature::survey(&half);
        let truck = datum.truck_centre();

        Self {
            area,
            perimeter: 2.0 * region::length(&half),
            blank: Rect::from_center_size(
                ((nose.end.x - tail.end.x) / 2.0, 0.0),
                Size::new(layup.blank_length, layup.blank_width),
            ),
            overall_length: nose.end.x + tail.end.x,
            overall_width: 2.0 * envelope.largest(),
            plan_length: profile.side(datum, nose.end.x).0.x - profile.side(datum, -tail.end.x).0.x,
            plan_width: 2.0 * plan::widest(&envelope, shape),
            nose_axle_width: 2.0 * envelope.half_breadth(truck).unwrap_or(0.0),
            tail_axle_width: 2.0 * envelope.half_breadth(-truck).unwrap_or(0.0),
            platform_length: platform_end(&nose, profile.nose.kicks())
                + platform_end(&tail, profile.tail.kicks()),
            rail_runs,
            waists,
            nose,
            tail,
            smallest_convex: curvature.convex,
            smallest_concave: curvature.concave,
            corners: curvature.corners,
            fairness: curvature.fairness,
            glue_mass: layup.glue_mass(),
            glue_inside_share: area / layup.blank_area(),
            half,
            envelope,
        }
    }

    /// The run of straight rail nearest the nose.
    #[must_use]
    pub fn fore_run(&self) -> Option<&RailRun> {
        self.rail_runs.first()
    }

    /// The run of straight rail nearest the tail, where there is more than one.
    #[must_use]
    pub fn aft_run(&self) -> Option<&RailRun> {
        self.rail_runs.get(1..).and_then(<[RailRun]>::last)
    }

    /// The deepest waist.
    #[must_use]
    pub fn waist(&self) -> Option<&Waist> {
        self.waists.first()
    }
}

/// Distance from the origin to where the flat ends: the bend line, or the end that lies flat or does not reach it.
fn platform_end(end: &End, kicks: bool) -> f64 {
    if kicks { end.reference.min(end.end.x) } else { end.end.x }
}
