//! What is cut, glued, pressed and drilled, in three columns in the order of the work.

use super::{
    Desk,
    column::{Column, SMALL, TEXT, is_none, none},
    shape::GUTTER,
    sources::Sources,
};
use crate::{
    figure,
    language::{Own, said},
    leaf::{Leaf, Style},
    say,
    template::{Cut, Guide},
    units::{Unit, show},
    workshop::press,
};
use kurbo::{Point, Size};

/// What is cut, glued, pressed, drilled: three columns.
pub(super) fn columns(desk: &Desk<'_>, sources: &mut Sources, width: f64, scale: f64) -> Leaf {
    let each = (width - 2.0 * GUTTER) / 3.0;
    let parts = [
        blank(desk, sources, Column::new(each, scale)),
        glue(desk, sources, Column::new(each, scale)),
        closing(desk, sources, Column::new(each, scale)),
    ];
    let height = parts.iter().map(|part| part.size.height).fold(0.0, f64::max);
    let mut all = Leaf::new(Size::new(width, height));
    for (i, part) in parts.into_iter().enumerate() {
        all.place(part, Point::new(i as f64 * (each + GUTTER), 0.0));
    }
    all
}

/// Blank, veneers, run.
fn blank(desk: &Desk<'_>, sources: &mut Sources, mut column: Column) -> Leaf {
    let layup = &desk.workshop.shape.layup;
    let length = |mm: f64| show(mm, Unit::Length, desk.input.system);
    let size = [&length(layup.blank_length).text, " × ", &length(layup.blank_width).to_string()].concat();
    column.heading(said("Blank and veneers"));
    column.great(said("Cut every veneer to"), &size, "");
    let small = Style::plain(SMALL * column.scale);
    let across = say!("A cross ply has its grain along the {width}.", width = length(layup.blank_width));
    column.paragraph(small, &across);
    column.quantities(desk, sources, &["end-margin", "side-margin", "post-clearance"]);
    let kicks = &desk.workshop.shape.profile;
    let [nose, tail] = [kicks.nose.kicks(), kicks.tail.kicks()];
    for (key, kicks) in [("nose-ply-slip", nose), ("tail-ply-slip", tail)] {
        if kicks {
            column.quantities(desk, sources, &[key]);
        }
    }
    column.quantities(desk, sources, &["sheet-length", "sheet-width"]);
    column.quantities(
        desk,
        sources,
        &[
            "veneers-per-sheet",
            "offcut-share",
            "cross-sheet-length",
            "cross-sheet-width",
            "cross-veneers-per-sheet",
            "cross-offcut-share",
        ],
    );
    let decks = desk.quantity(sources, "decks").map_or(String::new(), |row| row.1);
    column.heading(&if decks == "1" {
        said("Run of 1 deck").to_owned()
    } else {
        say!("Run of {decks} decks", decks)
    });
    column.quantities(
        desk,
        sources,
        &["veneers-along", "sheets", "veneers-across", "cross-sheets", "run-glue", "presses", "days"],
    );
    column.quantities(desk, sources, &["cost", "deck-cost"]);
    let mould = &desk.workshop.inputs.mould.name;
    column.heading(&if mould.is_empty() {
        said("Mould").to_owned()
    } else {
        say!("Mould: {name}", name = Own(mould))
    });
    column.quantities(desk, sources, &["springback"]);
    if nose {
        column.quantities(desk, sources, &["nose-mould-angle", "nose-mould-radius"]);
    }
    if tail {
        column.quantities(desk, sources, &["tail-mould-angle", "tail-mould-radius"]);
    }
    column.finish()
}

/// Glue, drilling, template, finish.
fn glue(desk: &Desk<'_>, sources: &mut Sources, mut column: Column) -> Leaf {
    column.heading(said("Glue for one deck"));
    if let Some((label, figure, mark)) = desk.quantity(sources, "glue-mass") {
        column.great(&label, &figure, &mark);
    }
    column.quantities(desk, sources, &["glue-per-line", "glue-volume", "glue-saved"]);
    column.quantities(desk, sources, &["open-time", "assembly-time", "minutes-per-line", "closing-time"]);
    column.quantities(desk, sources, &["time-to-press", "assembly-share", "slowest-pace", "press-time"]);
    column.heading(said("Drilling: from the top face, into backing"));
    column.quantities(
        desk,
        sources,
        &["hole-diameter", "countersink", "countersink-angle", "countersink-depth"],
    );
    column.heading(said("Template and saw"));
    let (template, system) = (desk.input.template, desk.input.system);
    let length = |mm: f64| show(mm, Unit::Length, system).to_string();
    let (guide, diameter) = match template.guide {
        Guide::Bushing => ("Guide bushing, outside", template.bushing),
        Guide::Bearing => ("Bearing on the bit", template.bearing),
    };
    column.row(TEXT, said(guide), &length(diameter), "");
    column.row(TEXT, said("Bit"), &length(template.bit), "");
    let edge = template.edge();
    let side = if edge < 0.0 { "Edge inside the outline" } else { "Edge outside the outline" };
    column.row(TEXT, said(side), &show(edge.abs(), Unit::Thickness, system).to_string(), "");
    let kind = match template.cut {
        Cut::Outside => "round the template's outside",
        Cut::WindowDeck => "in a window, the deck is kept",
        Cut::WindowOpening => "in a window, the opening is kept",
    };
    column.row(TEXT, said("Router"), said(kind), "");
    column.row(TEXT, said("Saw outside the outline"), &length(template.saw_line), "");
    column.heading(said("Finish"));
    column.quantities(
        desk,
        sources,
        &["round-over", "seal-area", "seal-area-below", "grip-length", "grip-width"],
    );
    column.finish()
}

/// Press and flex.
fn closing(desk: &Desk<'_>, sources: &mut Sources, mut column: Column) -> Leaf {
    let workshop = desk.workshop;
    let inputs = &workshop.inputs.press;
    column.heading(said("Press"));
    let (label, figure) = desk.torque();
    column.great(said(label), &figure, "");
    let small = Style::plain(SMALL * column.scale);
    if inputs.force.is_some() {
        column.quantities(desk, sources, &["press-force"]);
    } else {
        column.quantities(
            desk,
            sources,
            &["bolts", "bolt-diameter", "nut-factor", "bolt-load", "bolt-load-limit", "torque-limit"],
        );
    }
    column.quantities(desk, sources, &["press-total", "pressed-area", "mould-pressure", "pressure"]);
    let [low, high] = press::BAND.map(|mpa| show(mpa, Unit::Pressure, desk.input.system));
    let band = say!(
        "Published for flat joints: about {low} to {high}; they differ from one another.",
        low = low.text,
        high
    );
    column.paragraph(small, &band);
    if inputs.force.is_none() {
        column.gap(1.4);
        column.line(small, said("Tighten in this order, a little each round:"));
        column.gap(0.4);
        column.figure(figure::tightening(&inputs.order(), Size::new(column.width, 17.0 * column.scale)));
    }
    column.heading(said("Flex, an estimate: no rider mass is certified"));
    column.quantities(desk, sources, &["flex-load", "deflection", "stress-share"]);
    column.gap(0.8);
    let size = Size::new(column.width, 30.0 * column.scale);
    column.figure(figure::flex(workshop, desk.input.system, size, SMALL * column.scale));
    column.finish()
}

impl Desk<'_> {
    /// Whether the sheet gives no torque.
    pub(super) fn gives_no_torque(&self) -> bool {
        is_none(&self.torque().1)
    }

    /// The torque that the sheet gives, or why it gives none: only below the limits of bolts and mould.
    pub(super) fn torque(&self) -> (&'static str, String) {
        let workshop = self.workshop;
        let inputs = &workshop.inputs.press;
        if inputs.force.is_some() {
            return ("Torque on each bolt", none("the force is given"));
        }
        let shown = |torque: f64| show(torque, Unit::Torque, self.input.system).to_string();
        if let Some(wanted) = inputs.wanted {
            let torque = workshop.torque_for(wanted);
            return (
                "Torque for the wanted pressure",
                torque.map_or_else(|fault| none(fault.reason()), shown),
            );
        }
        let label = "Torque on each bolt";
        let Some(limit) = workshop.inputs.mould.pressure else {
            return (label, none("the mould's limit is not given"));
        };
        match workshop.force {
            Err(fault) => (label, none(fault.reason())),
            Ok(force) if force / workshop.pressed_area() > limit => (label, none("past the mould's limit")),
            Ok(_) => (label, shown(inputs.torque)),
        }
    }
}
