//! The laying order: which ply goes down next, which of its faces is spread, and ticks for grading and moisture.

use super::{
    Desk,
    column::{Column, LEADING, SMALL},
    sources::Sources,
};
use crate::{
    language::said,
    layup::{Grain, Ply},
    leaf::{Leaf, Style, Tone},
    say,
    scene::pen::polyline,
    units::{Unit, show},
    workshop::{
        glue::Basis,
        order::{self, Laid, Spread},
    },
};
use kurbo::{BezPath, Point, Rect};

/// Type of the laying order: read at arm's length with glue on the hands.
const LAYING: f64 = 4.4;
/// Where its columns begin, as parts of the width.
const TABS: [f64; 7] = [0.0, 0.055, 0.2, 0.42, 0.53, 0.625, 0.815];

/// The laying order with its ticks.
pub(super) fn laying(desk: &Desk<'_>, width: f64, scale: f64) -> Leaf {
    let layup = &desk.workshop.shape.layup;
    let system = desk.input.system;
    let mut column = Column::new(width, scale);
    column.heading(said("Laying order: the first line goes down first"));
    let small = Style::plain(SMALL * scale);
    column.y += small.size;
    for (tab, text) in
        TABS.into_iter().zip(["", "Ply", "Wood", "Grain", "Thick", "Spread glue on", "Graded · moisture"])
    {
        column.leaf.words(Point::new(tab * width, column.y), small, said(text));
    }
    column.gap(0.9);
    let glue = &desk.workshop.inputs.glue;
    let order = order::laying_order(layup, glue.top_first, glue.basis == Basis::BothFaces);
    let size = LAYING * scale;
    for (step, laid) in order.iter().enumerate() {
        column.y += size * LEADING;
        let base = column.y - 0.3 * size;
        let count = layup.plies.len();
        let ply = match laid.ply {
            1 => said("1, top").to_owned(),
            ply if ply == count => say!("{ply}, bottom", ply),
            ply => ply.to_string(),
        };
        let Some(Ply { thickness, species, .. }) = layup.plies.get(laid.ply - 1) else { continue };
        let thickness = show(*thickness, Unit::Thickness, system).to_string();
        let cells = [
            (step + 1).to_string(),
            ply,
            said(species.label).to_owned(),
            said(grain(laid)).to_owned(),
            thickness,
            said(spread(laid)).to_owned(),
        ];
        for (i, cell) in cells.iter().enumerate() {
            let room = (TABS[i + 1] - TABS[i]) * width - 1.5;
            let style = match i {
                0 | 3 | 5 => Style::bold(size),
                _ => Style::plain(size),
            };
            column.leaf.words(Point::new(TABS[i] * width, base), style.within(room, cell), cell);
        }
        let tick = 0.78 * size;
        let x = TABS[6] * width;
        let bit = 1_u32 << (laid.ply - 1).min(31);
        let [graded, metered] = desk
            .input
            .record
            .map_or([false; 2], |record| [record.graded & bit != 0, record.metered & bit != 0]);
        if graded {
            column.leaf.stroke(tick_mark(x, base, tick), 0.5, Tone::Blue);
        }
        if metered {
            column.leaf.stroke(tick_mark(x + 2.0 * tick, base, tick), 0.5, Tone::Blue);
        }
        column.leaf.frame(Rect::new(x, base - tick, x + tick, base), 0.25, Tone::Ink);
        column.leaf.line((x + 2.0 * tick, base), (width - 5.0 * scale, base), 0.2, Tone::Ink);
        column.leaf.words_to(Point::new(width, base), small, "%");
        column.leaf.line((0.0, column.y), (width, column.y), 0.1, Tone::Rule);
    }
    let bottom = if glue.top_first {
        "The top ply goes down first, its better face down; the bottom ply last, its better face up. Turn the stack before it goes into the press."
    } else {
        "The bottom ply lies on the mould's lower half, its better face down; the top ply last, its better face up."
    };
    let wanted = desk.quantity(&mut Sources::default(), "moisture").map_or(String::new(), |row| row.1);
    // Knots and short grain: common practice, no source.
    let text = say!(
        "{order} Veneers at {wanted} moisture; turn knots and short grain away from the bends.",
        order = bottom,
        wanted
    );
    column.gap(0.6);
    column.paragraph(small, &text);
    column.finish()
}

/// A pencil's tick in a box of that side, on the baseline.
fn tick_mark(x: f64, base: f64, side: f64) -> BezPath {
    let at = |right: f64, up: f64| Point::new(x + right * side, base - up * side);
    polyline(&[at(0.15, 0.5), at(0.42, 0.15), at(1.05, 1.1)])
}

fn grain(laid: &Laid) -> &'static str {
    match laid.grain {
        Grain::Along => "along",
        Grain::Across => "across",
    }
}

fn spread(laid: &Laid) -> &'static str {
    match laid.spread {
        Spread::Neither => "nothing: the last",
        Spread::Upper => "upper face",
        Spread::Lower => "lower face",
        Spread::Both => "both faces",
    }
}
