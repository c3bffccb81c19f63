//! A design as a JSON value: the keys in the order they are written.

use super::{FORMAT, Object, PER_PLY, UNIT, VERSION, Value, sweep};
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
    let parts = Part::ALL.map(|part| {
        let (before, after): (Vec<_>, Vec<_>) = match part {
            Part::Datum | Part::Profile => Default::default(),
            Part::Outline => {
                let outline = &shape.outline;
                let nodes = outline.nodes.iter().map(node).collect();
                let spans = outline.spans.iter().map(span).collect();
                let mut after = vec![("nodes", nodes), ("spans", spans)];
                if !outline.sweeps.is_empty() {
                    after.push(("sweeps", outline.sweeps.iter().map(sweep::write).collect()));
                }
                (vec![("twin", outline.twin.into())], after)
            }
            Part::Layup => (Vec::new(), vec![("plies", shape.layup.plies.iter().map(ply).collect())]),
        };
        let settings = SETTINGS.iter().filter(|s| s.part == part && s.quantity.key != PER_PLY);
        let settings = settings.map(|s| (s.quantity.key, grains((s.get)(shape), s.quantity.unit)));
        (part.key(), Value::object(before.into_iter().chain(settings).chain(after)))
    });
    Value::object(parts)
}

fn node(node: &Node) -> Value {
    let word = if node.joint == Joint::Corner { "corner" } else { "smooth" };
    let angle = match node.joint {
        Joint::Smooth(angle) => Some(("angle", grains(angle, Unit::Angle))),
        Joint::Led | Joint::Corner => None,
    };
    let known = [("x", length(node.place.x)), ("y", length(node.place.y)), ("joint", word.into())];
    Value::object(known.into_iter().chain(angle))
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
            let lean = |key, lean: Option<f64>| lean.map(|angle| (key, grains(angle, Unit::Angle)));
            let leans = [lean("start", start), lean("end", end)].into_iter().flatten();
            Value::object([("kind", "batten".into())].into_iter().chain(leans))
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
    Value::object([("thickness", grains(ply.thickness, Unit::Thickness)), ("grain", grain.into())])
}

fn length(mm: f64) -> Value {
    grains(mm, Unit::Length)
}

fn grains(value: f64, unit: Unit) -> Value {
    Value::from(units::stored(value, unit))
}
