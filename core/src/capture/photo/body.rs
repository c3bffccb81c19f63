//! The deck before the camera as a body: how thick it is, and where its edge bounds what a lens sees of it.
//!
//! The outline is drawn on the top face, but what stands out against the ground is the farther out of the edge's two corners,
//! and of a rounded corner the place where the line of sight touches it.

use crate::{
    design::{Design, Shape},
    real,
    solid::{Spot, Surface},
};
use kurbo::{Point, Vec2};

/// A pressed deck with its thickness and its edges; lengths in mm.
#[derive(Clone, Copy, Debug)]
pub struct Body<'a> {
    /// The shape whose holes, outline and pressed shape it has.
    pub shape: &'a Shape,
    /// From face to face.
    pub thickness: f64,
    /// Radius to which both corners of the edge are rounded.
    pub round_over: f64,
}

/// Half the distance, mm, over which directions on the surface are looked at.
const REACH: f64 = 0.5;

impl<'a> Body<'a> {
    /// The deck of a design, as thick and as round as its workshop says.
    #[must_use]
    pub fn of(design: &'a Design) -> Self {
        let (shape, workshop) = (design.shape(), design.workshop());
        let thickness = workshop.wood.thickness(&shape.layup);
        Self { shape, thickness, round_over: real::clamp(workshop.finish.round_over, 0.0, thickness / 2.0) }
    }

    /// A place of the developed sheet on the top face.
    pub(super) fn at(&self, place: Point) -> Spot {
        self.surface().at(place, 0.0)
    }

    fn surface(&self) -> Surface<'a> {
        Surface { shape: self.shape, thickness: self.thickness }
    }

    /// Where the edge of a deck whose outline runs through `place`, with that unit normal outward, is seen by a lens against
    /// what lies behind it.
    pub(super) fn brim(&self, place: Point, outward: Vec2, lens: Spot) -> Spot {
        let surface = self.surface();
        let toward = |way: Vec2| surface.at(place + way * REACH, 0.0) - surface.at(place - way * REACH, 0.0);
        let top = surface.at(place, 0.0);
        let (along, out) = (toward(outward.turn_90()), toward(outward).unit());
        let down = surface.at(place, 1.0) - top;
        // Square to the edge and to the line of sight: what reaches farthest this way stands against the ground.
        let side = along.cross(top - lens).unit();
        let side = if side.dot(out) < 0.0 { side * -1.0 } else { side };
        let deep = if side.dot(down) > 0.0 { self.thickness - self.round_over } else { self.round_over };
        top + down * deep + (side - out) * self.round_over
    }
}
