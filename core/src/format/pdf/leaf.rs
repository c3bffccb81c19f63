//! A leaf as a page: y turned up, and an area that opens a link.

use super::{
    content::{Content, Runs, number},
    file::hexadecimal,
    letters,
};
use crate::{
    leaf::{Leaf, Mark, Tone},
    units::POINTS_PER_MM,
};
use kurbo::{Affine, Point, Rect};

pub(super) fn content(leaf: &Leaf) -> Content {
    let mut content = Content::page();
    let height = leaf.size.height;
    let up = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, height]);
    let mut pen: Option<(f64, bool)> = None;
    let mut tone: Option<Tone> = None;
    for mark in &leaf.marks {
        let this = match mark {
            Mark::Stroke { tone, .. } | Mark::Fill { tone, .. } => *tone,
            Mark::Words { style, .. } => style.tone,
        };
        if tone != Some(this) {
            content.rgb(this.rgb().map(|part| f64::from(part) / 255.0));
            tone = Some(this);
        }
        match mark {
            Mark::Stroke { path, width, dashed, .. } => {
                if pen != Some((*width, *dashed)) {
                    content.put(&[*width], "w");
                    if *dashed {
                        content.dashes()
                    } else {
                        content.solid()
                    }
                    pen = Some((*width, *dashed));
                }
                content.path(&(up * path.clone()));
            }
            Mark::Fill { path, .. } => content.inside(&(up * path.clone())),
            Mark::Words { at, style, upright, text } => {
                let runs = if *upright { Runs::Upright } else { Runs::Level };
                let at = Point::new(at.x, height - at.y);
                content.words_in(style.face, at, style.size, runs, &letters::bytes(text));
            }
        }
    }
    content
}

/// What a page says of an area that opens an address: a link annotation (ISO 32000-1, 12.5.6.5, from memory).
pub(super) fn link(leaf: &Leaf, area: Rect, address: &str) -> String {
    let height = leaf.size.height;
    let corners = [area.x0, height - area.y1, area.x1, height - area.y0];
    let corners = corners.map(|mm| number(mm * POINTS_PER_MM)).join(" ");
    let address = hexadecimal(address.bytes());
    format!(
        "/Annots[<</Type/Annot/Subtype/Link/Rect[{corners}]/Border[0 0 0]/A<</Type/Action/S/URI/URI{address}>>>>]"
    )
}
