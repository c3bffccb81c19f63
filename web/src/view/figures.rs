//! The figures on the drawing that are fields: a button over the letters of each, and the field that opens there.

use crate::{dom, input};
use halfbreadth_core::{
    editor::{Editor, Figure},
    scene::Scene,
    units::decimal,
};
use kurbo::{Point, Size};
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Room between letters and the edge of their button, and least size of a button, CSS px.
const ROOM: f64 = 12.0;
const LEAST: f64 = 44.0;
/// Half the size of the field, CSS px, so that it stays on the stage.
const FIELD: Size = Size::new(64.0, 26.0);

/// All figures over the drawing.
pub(super) struct Figures {
    parent: HtmlElement,
    field: HtmlElement,
    shown: Vec<(Figure, HtmlElement)>,
}

impl Figures {
    pub(super) fn new() -> Self {
        let [parent, field] = ["figures", "figure-field"].map(|id| dom::by_id(id).unchecked_into());
        Self { parent, field, shown: Vec::new() }
    }

    pub(super) fn draw(&mut self, editor: &Editor, scene: &Scene) {
        let mut left = core::mem::take(&mut self.shown);
        for figure in editor.figures(scene) {
            let Some(i) = left.iter().position(|(old, _)| old.key == figure.key) else {
                let button = dom::append(&self.parent, "button", "", "");
                dom::set(&button, "type", "button");
                dom::set(&button, "data-figure-field", figure.key);
                write(&button, &figure);
                self.shown.push((figure, button));
                continue;
            };
            let (old, button) = left.remove(i);
            if old != figure {
                write(&button, &figure);
            }
            self.shown.push((figure, button));
        }
        for (_, button) in left {
            button.remove();
        }
        self.place_field(editor);
    }

    /// Keeps the open field at its figure.
    fn place_field(&self, editor: &Editor) {
        let open = input::open_figure();
        if let Some((figure, _)) = self.shown.iter().find(|(figure, _)| Some(figure.key) == open) {
            let Point { x, y } = figure.area.center();
            let Size { width, height } = editor.view().size;
            let x = x.min(width - FIELD.width).max(FIELD.width);
            let y = y.min(height - FIELD.height).max(FIELD.height);
            shift(&self.field, x, y);
            dom::set(&self.field, "aria-label", &figure.label);
        }
    }
}

fn write(button: &HtmlElement, figure: &Figure) {
    let area = figure.area;
    let (width, height) = ((area.width() + 2.0 * ROOM).max(LEAST), (area.height() + 2.0 * ROOM).max(LEAST));
    let middle = area.center();
    dom::set(button, "aria-label", &figure.label);
    shift(button, middle.x - width / 2.0, middle.y - height / 2.0);
    for (name, length) in [("width", width), ("height", height)] {
        let _ = button.style().set_property(name, &format!("{}px", decimal(length, 1)));
    }
}

fn shift(element: &HtmlElement, x: f64, y: f64) {
    let place = format!("{}px {}px", decimal(x, 1), decimal(y, 1));
    let _ = element.style().set_property("translate", &place);
}
