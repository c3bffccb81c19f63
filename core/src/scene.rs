//! The drawing: a flat, ordered list of things to draw, in mm, with nothing left to decide.
//!
//! The page, and later paper and picture files, draw the same scene, so that they look like one hand. What has a
//! constant size on screen (ticks, gaps, letters) is placed with the view's scale.

mod board;
mod dimensions;
mod pen;
mod rulers;
mod side;
mod sweeps;

use self::pen::Pen;
pub use self::pen::{Anchor, Item, Mark, Role, Scene};
use crate::{
    design::Shape,
    editor::{Limit, Snapped, Target},
    measure::Measured,
    outline::Half,
    units::System,
    view::{Margins, View},
};
use kurbo::{Point, Rect, Size};

/// All that the drawing is made from.
#[derive(Debug)]
pub struct SceneInput<'a> {
    /// The shape in hand.
    pub shape: &'a Shape,
    /// Its measures.
    pub measured: &'a Measured,
    /// The window onto it.
    pub view: View,
    /// Millimetres or inches.
    pub system: System,
    /// Whether the curvature comb is drawn.
    pub comb: bool,
    /// What is selected.
    pub selection: Option<Target>,
    /// Where a gesture is stopped.
    pub limit: Option<Limit>,
    /// What caught a drag.
    pub caught: Option<Snapped>,
    /// The stroke under the pen.
    pub ink: &'a [Point],
    /// The stretch between two nodes that is marked.
    pub stretch: Option<(usize, usize)>,
    /// The first touch of a sweep that is being laid.
    pub laying: Option<Point>,
    /// The edge of the version behind.
    pub behind: Option<&'a Half>,
}

/// Draws a shape.
#[must_use]
pub fn draw(input: &SceneInput<'_>) -> Scene {
    let mut pen = Pen::new(input.view, input.system);
    rulers::grid(&mut pen);
    board::draw(&mut pen, input);
    sweeps::draw(&mut pen, input);
    dimensions::draw(&mut pen, input);
    side::draw(&mut pen, input);
    rulers::draw(&mut pen);
    pen.finish()
}

/// The box in mm that a stage of that size should show, and the room to keep round it for what is drawn at constant
/// size.
#[must_use]
pub fn extent(shape: &Shape, measured: &Measured, stage: Size) -> (Rect, Margins) {
    let side = side::height(shape, measured);
    let tail = measured.blank.x0.min(-measured.tail.end.x);
    let nose = measured.blank.x1.max(measured.nose.end.x);
    let rail = measured.blank.y1.max(measured.overall_width / 2.0);
    let content = Rect::new(tail, -rail - side, nose, rail);
    let upright = stage.height > stage.width;
    let margins = if upright {
        Margins { left: 92.0, right: side::GAP + 44.0, top: 50.0, bottom: 30.0 }
    } else {
        Margins { left: 104.0, right: 48.0, top: 84.0, bottom: side::GAP + 30.0 }
    };
    (content, margins)
}

#[cfg(test)]
mod tests;
