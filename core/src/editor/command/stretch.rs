//! A stretch of the edge: marked between two nodes, and faired.

use super::{Editor, Target, apply};
use crate::{
    edit::Edit,
    language::said,
    say,
    units::{Unit, show},
};

pub(super) fn mark(editor: &mut Editor) {
    let node = match editor.selection {
        Some(Target::Node(node)) => node,
        _ => return,
    };
    let again = editor.stretch_from == Some(node);
    editor.stretch_from = (!again).then_some(node);
    let words = "Now select the node where the stretch ends.";
    editor.say(if again { "No stretch." } else { words });
}

pub(super) fn fair(editor: &mut Editor) {
    let Some((from, to)) = editor.stretch() else { return };
    let bound = editor.settings.fairing_bound;
    let design = editor.history.design();
    let found = design.shape().outline.faired(from, to, bound);
    if !apply(editor, "faired a stretch", &Edit::Fair { from, to, bound }) {
        return;
    }
    editor.stretch_from = None;
    editor.selection = None; // battens bring pins of their own, and the node in hand may have another number
    if let Ok((_, found)) = found {
        let moved = show(found.movement, Unit::Thickness, editor.settings.system);
        let [before, after] = found.swells;
        editor.say(if found.movement > 0.0 {
            say!(
                "Faired: the edge moved {moved} at most; swells {before} before, {after} after.",
                moved,
                before,
                after
            )
        } else {
            said("Nothing to fair within the bound.").to_owned()
        });
    }
}
