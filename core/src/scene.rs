//! The drawing: a flat, ordered list of things to draw, in mm, with nothing left to decide.
//!
//! The page, and later paper and picture files, draw the same scene, so that they look like one hand. What has a
//! constant size on screen (ticks, gaps, letters) is placed with the view's scale.

mod board;
mod cut;
mod dimensions;
mod figures;
mod labels;
pub(crate) mod pen;
mod rulers;
mod shop;
mod side;
mod sweeps;

use self::pen::Pen;
pub use self::pen::{Anchor, Item, Mark, Role, Scene};
use crate::{
    design::Shape,
    editor::{self, Copy, Limit, Snapped, Target},
    export::Made,
    measure::Measured,
    outline::Half,
    units::System,
    view::{Margins, View},
    workshop::Inputs,
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
    /// The room of the page, which gives the board its role.
    pub room: editor::Room,
    /// What the workshop is told.
    pub inputs: &'a Inputs,
    /// What is exported, where the board is shown in that role.
    pub cut: Option<&'a Made>,
}

/// Draws a shape.
#[must_use]
pub fn draw(input: &SceneInput<'_>) -> Scene {
    let mut pen = Pen::new(input.view, input.system);
    let outline = &input.shape.outline;
    for copy in Copy::of(outline) {
        for node in &outline.nodes {
            pen.spare(copy.map(node.place));
        }
    }
    input.shape.datum.holes().into_iter().for_each(|hole| pen.spare(hole));
    let room = Room::of(input.view.size, input.view.upright);
    rulers::grid(&mut pen);
    let [top, left] = rulers::draw(&mut pen);
    if let Some(made) = input.cut {
        cut::draw(&mut pen, input, made);
    } else {
        shop::under(&mut pen, input);
        board::draw(&mut pen, input);
        shop::over(&mut pen, input);
        sweeps::draw(&mut pen, input);
        figures::draw(&mut pen, input, room);
    }
    pen.path("ruler-top", Role::Ruler, top);
    pen.path("ruler-left", Role::Ruler, left);
    pen.finish()
}

/// What a stage has room for round the deck.
#[derive(Clone, Copy)]
struct Room {
    /// How many levels of dimension lines lie under the board.
    levels: u8,
    /// Whether the side view lies under them.
    side: bool,
}

/// A stage lower than this, px across the board, shows the board alone with one level of dimension lines.
const LOW: f64 = 260.0;
/// Room for the figures of a ruler, px: along the top of the stage, and along its left.
const RULERS: (f64, f64) = (27.0, 44.0);
/// Distance of the first dimension line from what it measures, and of each further one, px.
const FIRST: f64 = 18.0;
const LEVEL: f64 = 24.0;
/// Room for half a line of letters and a little more, px.
const CLEAR: f64 = 13.0;

impl Room {
    fn of(stage: Size, upright: bool) -> Self {
        let roomy = if upright { stage.width } else { stage.height } >= LOW;
        Self { levels: if roomy { 2 } else { 1 }, side: roomy }
    }

    /// Distance of the outermost dimension line under the board from it, px.
    fn outermost(self) -> f64 {
        FIRST + LEVEL * f64::from(self.levels - 1)
    }

    fn margins(self, upright: bool) -> Margins {
        // On a low stage what lies above the board finds its place beside it or stays away.
        let above = if self.side { FIRST + CLEAR } else { 4.0 };
        let under = self.outermost() + CLEAR + if self.side { side::UNDER } else { 0.0 };
        let (top, left) = RULERS;
        if upright {
            Margins { left: left + above, right: under, top: top + CLEAR, bottom: FIRST + CLEAR }
        } else {
            Margins { left: left + FIRST + CLEAR, right: 2.0 * CLEAR, top: top + above, bottom: under }
        }
    }
}

/// The window of that size in which the whole deck shows, with room round it for what is drawn at constant size.
#[must_use]
pub fn fitted(shape: &Shape, measured: &Measured, stage: Size, upright: bool) -> View {
    let room = Room::of(stage, upright);
    let side = if room.side { side::height(shape, measured) } else { 0.0 };
    let tail = measured.blank.x0.min(-measured.tail.end.x);
    let nose = measured.blank.x1.max(measured.nose.end.x);
    let rail = measured.blank.y1.max(measured.overall_width / 2.0);
    View::fitted(stage, upright, Rect::new(tail, -rail - side, nose, rail), room.margins(upright))
}

/// The window of that size in which all of an exported drawing shows.
#[must_use]
pub fn fitted_to(drawing: Rect, stage: Size, upright: bool) -> View {
    let (top, left) = RULERS;
    let margins = Margins { left: left + CLEAR, right: 2.0 * CLEAR, top: top + CLEAR, bottom: 3.0 * CLEAR };
    View::fitted(stage, upright, drawing, margins)
}

#[cfg(test)]
mod tests;
