//! The figures on the drawing that are fields: which there are, what they are called, and which one a pointer means.

use super::{Editor, handles};
use crate::{
    dimension,
    quantities::{self, Quantity},
    say,
    scene::{Mark, Scene},
    units::Unit,
};
use kurbo::{Point, Rect};

/// A figure on the drawing that is a field.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The key of the field.
    pub key: &'static str,
    /// What it is called: `Set Width: 209.6 mm`.
    pub label: String,
    /// Where its letters stand on the stage, CSS pixels.
    pub area: Rect,
}

/// As near to its middle as this a node is meant, even where a figure lies over it, CSS pixels.
const NODE: f64 = 12.0;

impl Editor {
    /// The figures of a drawing that are fields.
    #[must_use]
    pub fn figures(&self, scene: &Scene) -> Vec<Figure> {
        let mut figures = Vec::new();
        for item in &scene.items {
            if let Mark::Text { text, field: Some(key), .. } = &item.mark
                && let (Some(area), Some(quantity)) = (item.letters(&self.view), quantity(key))
            {
                // The figure of an angle has its unit in it.
                let unit = if quantity.unit == Unit::Angle {
                    ""
                } else {
                    quantity.unit.symbol(self.settings.system)
                };
                let space = if unit.is_empty() { "" } else { " " };
                let figure = [text, space, unit].concat();
                let label = say!("Set {what}: {figure}", what = quantity.label, figure);
                figures.push(Figure { key, label, area });
            }
        }
        figures
    }

    /// The field whose figure on the drawing a tap at `at`, mm, means, where it means no node. It may be half of `reach`, mm,
    /// away from the letters, but only where no node is within all of it.
    #[must_use]
    pub fn figure_at(&self, at: Point, reach: f64) -> Option<&'static str> {
        let px = self.view.to_px(at);
        let reach_px = reach * self.view.scale;
        let mut best: Option<(f64, &'static str)> = None;
        for Figure { key, area, .. } in self.figures(&self.scene()) {
            let away = Point::new(away(px.x, area.x0, area.x1), away(px.y, area.y0, area.y1));
            let distance = away.to_vec2().hypot();
            if distance <= reach_px / 2.0 && best.is_none_or(|(least, _)| distance < least) {
                best = Some((distance, key));
            }
        }
        let (distance, key) = best?;
        let clear = if distance > 0.0 { reach } else { reach.min(NODE / self.view.scale) };
        handles::nearest(self, at, clear).is_none().then_some(key)
    }
}

/// How far `value` lies outside a range.
fn away(value: f64, least: f64, most: f64) -> f64 {
    (least - value).max(value - most).max(0.0)
}

fn quantity(key: &str) -> Option<&'static Quantity> {
    let setting = || quantities::find_setting(key).map(|setting| &setting.quantity);
    dimension::find(key).map(dimension::Dimension::quantity).or_else(setting)
}
