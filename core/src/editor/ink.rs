//! Drawing by hand: a stroke of the pen over the outline, and what becomes of it.

use super::{Editor, command};
use crate::edit::Edit;
use kurbo::Point;

/// Most places of one stroke that are kept. A pen gives some hundred a second; beyond this every second one goes.
const MOST_SAMPLES: usize = 4000;
/// How near the curve must follow the hand, px: finer than a hand holds still.
const ACCURACY: f64 = 1.5;
/// How far off the edge a stroke may begin and end, px.
const REACH: f64 = 30.0;

/// Begins a stroke.
pub(super) fn begin(editor: &mut Editor, at: Point) {
    editor.ink = vec![at];
    editor.selection = None;
}

/// Goes on with a stroke.
pub(super) fn go_on(editor: &mut Editor, places: &[Point]) {
    if editor.ink.is_empty() {
        return;
    }
    editor.ink.extend(places.iter().copied().filter(|p| p.is_finite()));
    if editor.ink.len() > MOST_SAMPLES {
        let mut keep = false;
        editor.ink.retain(|_| {
            keep = !keep;
            keep
        });
    }
}

/// Ends a stroke: the stretch under it is drawn anew.
pub(super) fn end(editor: &mut Editor) {
    let stroke = core::mem::take(&mut editor.ink);
    if stroke.len() < 2 {
        return;
    }
    let px = 1.0 / editor.view.scale;
    let edit = Edit::Redraw { stroke, accuracy: ACCURACY * px, reach: REACH * px };
    command::apply(editor, "redrew a stretch", &edit);
}
