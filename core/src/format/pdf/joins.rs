//! The marks by which tiles are cut and laid together, drawn once on the drawing so that neighbours show the same ones.
//!
//! A join runs along the middle of an overlap: a dashed line to cut one tile along, short solid ends as crop marks, and
//! two diamonds with a cross that close when the other tile lies right.

use super::content::Content;
use crate::paper::Tiling;
use kurbo::{BezPath, Point, Rect, Vec2};

/// Length of a crop mark, mm.
const CROP: f64 = 5.0;
/// Half a diagonal of a diamond, mm.
const DIAMOND: f64 = 3.0;
/// Places of the diamonds, as parts of the join's length.
const PLACES: [f64; 2] = [0.25, 0.75];

/// The marks and what they fit into.
pub(super) fn content(tiling: &Tiling) -> (Rect, Content) {
    let mut content = Content::form();
    content.grey(0.5);
    content.dashes();
    let mut extent = Rect::ZERO;
    for (from, to) in tiling.joins() {
        content.line(from, to);
        extent = extent.union(Rect::from_points(from, to).inflate(2.0 * DIAMOND, 2.0 * DIAMOND));
    }
    content.solid();
    content.grey(0.0);
    for (from, to) in tiling.joins() {
        let along = (to - from) / (to - from).hypot2().sqrt();
        content.line(from, from + CROP * along);
        content.line(to, to - CROP * along);
        for place in PLACES {
            diamond(&mut content, from.lerp(to, place), DIAMOND * along);
        }
    }
    (extent, content)
}

fn diamond(content: &mut Content, centre: Point, along: Vec2) {
    let across = Vec2::new(-along.y, along.x);
    let mut path = BezPath::new();
    path.move_to(centre + along);
    for corner in [across, -along, -across] {
        path.line_to(centre + corner);
    }
    path.close_path();
    content.path(&path);
    content.line(centre - along, centre + along);
    content.line(centre - across, centre + across);
}
