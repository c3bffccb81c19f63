//! A design as a JSON value: the keys in the order they are written.

use super::{FORMAT, Object, PER_PLY, UNIT, VERSION, Value, sweep, workshop};
use crate::{
    design::{Design, Shape, Version},
    dimension::{self, Lock},
    layup::{Grain, Ply},
    outline::{Handle, Joint, Node, Span},
    quantities::{Part, SETTINGS},
    units::{self, Unit},
};

pub(super) fn design(design: &Design) -> Object {
    Object::from_iter([
        ("format", FORMAT.into()),
        ("version", VERSION.into()),
        ("unit", UNIT.into()),
        ("name", design.name().into()),
        ("notes", design.notes().into()),
        ("shape", shape(design.shape())),
        ("locks", Value::object(design.locks().iter().filter_map(lock))),
        ("workshop", workshop::write_inputs(design.workshop())),
        ("records", design.records().iter().map(workshop::write_record).collect()),
        ("versions", design.versions().iter().map(version).collect()),
    ])
}

fn lock(lock: &Lock) -> Option<(&str, Value)> {
    Some((lock.key, grains(lock.value, dimension::find(lock.key)?.quantity().unit)))
}

fn version(version: &Version) -> Value {
    let Version { name, note, date, shape: kept } = version;
    Value::object([
        ("name", name.as_str().into()),
        ("note", note.as_str().into()),
        ("date", date.as_str().into()),
        ("shape", shape(kept)),
    ])
}

fn shape(shape: &Shape) -> Value {
    let Shape { outline, layup, .. } = shape;
    let mut parts = Object::default();
    for part in Part::ALL {
        let mut held = Object::default();
        if part == Part::Outline {
            held.push("twin", outline.twin.into());
        }
        for setting in SETTINGS.iter().filter(|s| s.part == part && s.quantity.key != PER_PLY) {
            held.push(setting.quantity.key, grains((setting.get)(shape), setting.quantity.unit));
        }
        match part {
            Part::Datum | Part::Profile => {}
            Part::Outline => {
                held.push("nodes", outline.nodes.iter().map(node).collect());
                held.push("spans", outline.spans.iter().map(span).collect());
                if !outline.sweeps.is_empty() {
                    held.push("sweeps", outline.sweeps.iter().map(sweep::write).collect());
                }
            }
            Part::Layup => held.push("plies", layup.plies.iter().map(ply).collect()),
        }
        parts.push(part.key(), Value::Object(held));
    }
    Value::Object(parts)
}

fn node(node: &Node) -> Value {
    let word = if node.joint == Joint::Corner { "corner" } else { "smooth" };
    let mut known =
        Object::from_iter([("x", length(node.place.x)), ("y", length(node.place.y)), ("joint", word.into())]);
    if let Joint::Smooth(angle) = node.joint {
        known.push("angle", grains(angle, Unit::Angle));
    }
    Value::Object(known)
}

fn span(span: &Span) -> Value {
    match *span {
        Span::Straight => Value::object([("kind", "straight".into())]),
        Span::Cubic { start, end } => {
            Value::object([("kind", "cubic".into()), ("start", handle(start)), ("end", handle(end))])
        }
        Span::Laid { sweep, from, to, flip, reverse } => Value::object([
            ("kind", "laid".into()),
            ("sweep", Value::from(sweep as i64)),
            ("from", length(from)),
            ("to", length(to)),
            ("flip", flip.into()),
            ("reverse", reverse.into()),
        ]),
        Span::Batten { start, end } => {
            let mut known = Object::from_iter([("kind", "batten".into())]);
            for (key, lean) in [("start", start), ("end", end)] {
                if let Some(angle) = lean {
                    known.push(key, grains(angle, Unit::Angle));
                }
            }
            Value::Object(known)
        }
    }
}

fn handle(handle: Handle) -> Value {
    match handle {
        Handle::Along(distance) => length(distance),
        Handle::Free(offset) => [offset.x, offset.y].into_iter().map(length).collect(),
    }
}

fn ply(ply: &Ply) -> Value {
    let grain = match ply.grain {
        Grain::Along => "L",
        Grain::Across => "X",
    };
    Value::object([
        ("thickness", grains(ply.thickness, Unit::Thickness)),
        ("grain", grain.into()),
        ("wood", ply.species.key.into()),
    ])
}

fn length(mm: f64) -> Value {
    grains(mm, Unit::Length)
}

pub(super) fn grains(value: f64, unit: Unit) -> Value {
    Value::from(units::stored(value, unit))
}
