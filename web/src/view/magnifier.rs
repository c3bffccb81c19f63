//! The magnifier: what a finger has in hand, shown larger above it, with its place in figures. It shows where the thing
//! really is: at a limit that is not where the finger is.

use crate::{dom, input};
use halfbreadth_core::{editor::Editor, units::decimal};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};

/// How far above the finger the middle of the magnifier stands, CSS px: 22 mm on a tablet of 132 px/in to its rim.
const ABOVE: f64 = 150.0;
/// Half its width, CSS px: 30 mm across.
const HALF: f64 = 78.0;
/// Half the width of its figures at their longest, CSS px.
const FIGURES: f64 = 96.0;
/// How much larger it shows things.
const FACTOR: f64 = 2.5;

/// The magnified view under a finger.
pub(super) struct Magnifier {
    frame: HtmlElement,
    view: Element,
    figures: Element,
    shown: bool,
}

impl Magnifier {
    pub(super) fn new() -> Self {
        Self {
            frame: dom::by_id("magnifier").unchecked_into(),
            view: dom::by_id("magnified"),
            figures: dom::by_id("magnifier-figures"),
            shown: false,
        }
    }

    pub(super) fn draw(&mut self, editor: &Editor) {
        let (Some(finger), Some(place)) = (input::finger(), editor.held_at()) else {
            if self.shown {
                dom::set(&self.frame, "hidden", "");
                self.shown = false;
            }
            return;
        };
        // Near the top of the stage it goes beside the finger, toward the middle.
        let size = editor.view().size;
        let (x, y) = if finger.y > ABOVE + HALF {
            (finger.x, finger.y - ABOVE)
        } else {
            let side = if finger.x < size.width / 2.0 { ABOVE } else { -ABOVE };
            (finger.x + side, finger.y.max(HALF))
        };
        let x = x.min(size.width - FIGURES).max(FIGURES);
        let _ = self
            .frame
            .style()
            .set_property("transform", &format!("translate({}px,{}px)", decimal(x, 0), decimal(y, 0)));
        let held = editor.view().to_px(place);
        let (shift_x, shift_y) = (HALF - FACTOR * held.x, HALF - FACTOR * held.y);
        dom::set(
            &self.view,
            "transform",
            &format!(
                "translate({},{}) scale({})",
                decimal(shift_x, 1),
                decimal(shift_y, 1),
                decimal(FACTOR, 1)
            ),
        );
        dom::write(&self.figures, &editor.held_words());
        if !self.shown {
            dom::set_if(&self.frame, "hidden", None);
            self.shown = true;
        }
    }
}
