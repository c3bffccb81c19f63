//! What a photograph puts on the stage: the rectified picture under the outline, and the outline it proposes.

use crate::dom;
use halfbreadth_core::{format::svg, outline::Outline};
use kurbo::BezPath;
use web_sys::Element;

/// The board counts in micrometres.
const PER_MM: f64 = 1000.0;

/// Lays a picture under the board that covers that box, `[x0, y0, x1, y1]` in mm.
pub(super) fn lay(address: &str, [x0, y0, x1, y1]: [f64; 4]) {
    take_away("photo-under");
    let image = begin("image", "photo-under");
    let numbers = [("x", x0), ("y", -y1), ("width", x1 - x0), ("height", y1 - y0)];
    for (name, mm) in numbers {
        dom::set(&image, name, &dom::number(mm * PER_MM));
    }
    // The board's y runs up, a picture's down.
    dom::set(&image, "transform", "scale(1,-1)");
    dom::set(&image, "preserveAspectRatio", "none");
    dom::set(&image, "href", address);
    let board = dom::by_id("board");
    board.insert_before(&image, board.first_child().as_ref()).expect("a new element goes in");
    dom::set(&dom::body(), "data-photo-under", "");
}

/// Draws an outline that may be taken.
pub(super) fn propose(outline: &Outline) {
    take_away("photo-proposed");
    let half = outline.resolve();
    let mut path = BezPath::new();
    for mirror in [1.0, -1.0] {
        let across = kurbo::Affine::new([1.0, 0.0, 0.0, mirror, 0.0, 0.0]);
        let mut begun = false;
        for piece in half.pieces() {
            let curve = across * piece.curve;
            if !begun {
                path.move_to(curve.p0);
                begun = true;
            }
            path.curve_to(curve.p1, curve.p2, curve.p3);
        }
    }
    let drawn = begin("path", "photo-proposed");
    dom::set(&drawn, "d", &svg::path(&path));
    dom::set(&drawn, "transform", "scale(1000)");
    dom::by_id("board").append_child(&drawn).expect("a new element goes in");
}

/// Takes the proposed outline away.
pub(super) fn withdraw() {
    take_away("photo-proposed");
}

/// Takes the picture away.
pub(super) fn lift() {
    take_away("photo-under");
    dom::set_if(&dom::body(), "data-photo-under", None);
}

fn begin(tag: &str, id: &str) -> Element {
    let element = dom::create_svg(tag);
    dom::set(&element, "id", id);
    element
}

fn take_away(id: &str) {
    if let Some(element) = dom::document().get_element_by_id(id) {
        element.remove();
    }
}
