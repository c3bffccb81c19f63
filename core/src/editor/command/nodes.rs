//! The selected node or span: added, deleted, made a corner, straight or a batten.

use super::{Editor, Target, apply};
use crate::{
    design::Refusal,
    edit::Edit,
    outline::{Joint, Span},
};

pub(super) fn add(editor: &mut Editor) {
    if let Some(Target::Span(span, near)) = editor.selection
        && apply(editor, "added a node", &Edit::AddNode { span, near })
    {
        editor.selection = Some(Target::Node(span + 1));
    }
}

pub(super) fn delete(editor: &mut Editor) {
    if let Some(Target::Node(node)) = editor.selection
        && apply(editor, "deleted a node", &Edit::DeleteNode { node })
    {
        editor.selection = None;
    }
}

pub(super) fn toggle_corner(editor: &mut Editor) {
    let Some(Target::Node(node)) = editor.selection else { return };
    let smooth = editor.history.design().shape().outline.nodes[node].joint == Joint::Corner;
    let name = if smooth { "smoothed a corner" } else { "made a corner" };
    let before = editor.revision;
    if apply(editor, name, &Edit::SetSmooth { node, smooth }) && editor.revision == before && smooth {
        editor.refuse(&Refusal::Impossible(
            "the spans here meet in a corner whatever is done: curve one first",
        ));
    }
}

pub(super) fn toggle_straight(editor: &mut Editor) {
    let Some(Target::Span(span, _)) = editor.selection else { return };
    let straight = editor.history.design().shape().outline.spans[span] != Span::Straight;
    let name = if straight { "straightened a span" } else { "made a span a curve" };
    apply(editor, name, &Edit::SetStraight { span, straight });
}

pub(super) fn toggle_batten(editor: &mut Editor) {
    let Some(Target::Span(span, _)) = editor.selection else { return };
    let batten = !matches!(editor.history.design().shape().outline.spans[span], Span::Batten { .. });
    let name = if batten { "laid a batten" } else { "made a batten handles" };
    apply(editor, name, &Edit::SetBatten { span, batten });
}

/// Selects the node so many further toward the nose, round and round.
pub(super) fn walk(editor: &mut Editor, by: isize) {
    let count = editor.history.design().shape().outline.nodes.len();
    let next = match editor.selection {
        Some(Target::Node(i)) => i.checked_add_signed(by).unwrap_or(count - 1) % count,
        _ if by > 0 => 0,
        _ => count - 1,
    };
    editor.selection = Some(Target::Node(next));
}
