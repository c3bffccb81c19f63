//! Which part of the deck the screen shows, and how large.

use crate::real;
use kurbo::{Affine, Point, Rect, Size, Vec2};

/// A window onto the deck: everything that turns millimetres into CSS pixels and back.
///
/// Wide screens show x to the right and y up; upright screens x up and y to the left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// The place in the middle of the stage, mm.
    pub centre: Point,
    /// CSS pixels per mm.
    pub scale: f64,
    /// Whether the board stands nose up.
    pub upright: bool,
    /// Size of the stage, CSS pixels.
    pub size: Size,
}

/// Smallest and largest scale, px/mm: a deck a hand wide, and a node's last hundredth visible.
const SCALES: (f64, f64) = (0.1, 60.0);

impl View {
    /// A window of that size onto a box of the deck, with margins in CSS pixels on each side (for what is drawn at a
    /// constant size round the deck): across the screen left and right, down it top and bottom.
    #[must_use]
    pub fn fitted(size: Size, upright: bool, content: Rect, margins: Margins) -> Self {
        let (mm_wide, mm_high) =
            if upright { (content.height(), content.width()) } else { (content.width(), content.height()) };
        let room = Size::new(
            (size.width - margins.left - margins.right).max(1.0),
            (size.height - margins.top - margins.bottom).max(1.0),
        );
        let scale = real::clamp((room.width / mm_wide).min(room.height / mm_high), SCALES.0, SCALES.1);
        let mut view = Self { centre: content.center(), scale, upright, size };
        let off = Vec2::new(margins.right - margins.left, margins.bottom - margins.top) / 2.0;
        view.centre += view.vector_to_mm(off);
        view
    }

    /// Where a place on the deck shows on the stage, CSS pixels from its top left.
    #[must_use]
    pub fn to_px(&self, place: Point) -> Point {
        self.affine() * place
    }

    /// The place on the deck under a point of the stage, mm.
    #[must_use]
    pub fn to_mm(&self, px: Point) -> Point {
        self.centre + self.vector_to_mm(px - Point::new(self.size.width / 2.0, self.size.height / 2.0))
    }

    /// The distance on the deck that a distance on the stage covers, mm.
    #[must_use]
    pub fn vector_to_mm(&self, px: Vec2) -> Vec2 {
        if self.upright { Vec2::new(-px.y, -px.x) / self.scale } else { Vec2::new(px.x, -px.y) / self.scale }
    }

    /// The map from the deck to the stage.
    #[must_use]
    pub fn affine(&self) -> Affine {
        let s = self.scale;
        let (middle_x, middle_y) = (self.size.width / 2.0, self.size.height / 2.0);
        let Point { x, y } = self.centre;
        if self.upright {
            Affine::new([0.0, -s, -s, 0.0, middle_x + s * y, middle_y + s * x])
        } else {
            Affine::new([s, 0.0, 0.0, -s, middle_x - s * x, middle_y + s * y])
        }
    }

    /// The part of the deck that shows, mm.
    #[must_use]
    pub fn visible(&self) -> Rect {
        Rect::from_points(
            self.to_mm(Point::ORIGIN),
            self.to_mm(Point::new(self.size.width, self.size.height)),
        )
    }

    /// The view after zooming by `factor` with `about` staying where it is on the stage.
    #[must_use]
    pub fn zoomed(&self, about: Point, factor: f64) -> Self {
        let scale = real::clamp(self.scale * factor, SCALES.0, SCALES.1);
        let kept = self.scale / scale;
        Self { centre: about + (self.centre - about) * kept, scale, ..*self }
    }

    /// The view after the deck has been pushed by a distance on it, mm.
    #[must_use]
    pub fn panned(&self, by: Vec2) -> Self {
        Self { centre: self.centre - by, ..*self }
    }
}

/// Room kept free round the deck, CSS pixels on the stage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margins {
    /// Left edge.
    pub left: f64,
    /// Right edge.
    pub right: f64,
    /// Top edge.
    pub top: f64,
    /// Bottom edge.
    pub bottom: f64,
}

#[cfg(test)]
mod tests {
    use super::*;

    fn view(upright: bool) -> View {
        let margins = Margins { left: 40.0, right: 20.0, top: 60.0, bottom: 10.0 };
        View::fitted(Size::new(900.0, 700.0), upright, Rect::new(-410.0, -105.0, 400.0, 105.0), margins)
    }

    #[track_caller]
    fn same(a: Point, b: Point) {
        assert!((a - b).hypot() < 1e-9, "{a:?} {b:?}");
    }

    #[test]
    fn a_place_comes_back_from_the_stage() {
        for upright in [false, true] {
            let view = view(upright);
            let place = Point::new(123.4, -56.7);
            same(view.to_mm(view.to_px(place)), place);
        }
    }

    #[test]
    fn wide_screens_show_the_nose_right_and_upright_ones_show_it_up() {
        let left_rail = Point::new(0.0, 50.0);
        let nose = Point::new(300.0, 0.0);
        let wide = view(false);
        assert!(wide.to_px(nose).x > wide.to_px(left_rail).x && wide.to_px(left_rail).y < wide.to_px(nose).y);
        let upright = view(true);
        assert!(upright.to_px(nose).y < upright.to_px(left_rail).y);
        assert!(upright.to_px(left_rail).x < upright.to_px(nose).x);
    }

    #[test]
    fn the_content_lies_between_the_margins() {
        let view = view(false);
        let (a, b) = (view.to_px((-410.0, 105.0).into()), view.to_px((400.0, -105.0).into()));
        assert!(a.x >= 40.0 - 1e-9 && b.x <= 880.0 + 1e-9 && a.y >= 60.0 - 1e-9 && b.y <= 690.0 + 1e-9);
    }

    #[test]
    fn zooming_keeps_the_place_under_the_finger() {
        let view = view(false);
        let about = Point::new(200.0, 30.0);
        same(view.zoomed(about, 2.5).to_px(about), view.to_px(about));
    }
}
