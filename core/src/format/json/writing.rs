//! A design as a JSON value: the keys in the order they are written.

use super::{FORMAT, PER_PLY, UNIT, VERSION};
use crate::{
    design::{Design, Shape, Version},
    dimension::{self, Lock},
    layup::{Grain, Ply},
    outline::{Handle, Joint, Node, Span},
    quantities::{Part, SETTINGS},
    units::{self, Unit},
};
use serde_json::{Map, Value, json};

pub(super) fn design(design: &Design) -> Map<String, Value> {
    object([
        ("format", json!(FORMAT)),
        ("version", json!(VERSION)),
        ("unit", json!(UNIT)),
        ("name", json!(design.name())),
        ("notes", json!(design.notes())),
        ("shape", shape(design.shape())),
        ("locks", Value::Object(object(design.locks().iter().filter_map(lock)))),
        ("versions", design.versions().iter().map(version).collect()),
    ])
}

fn lock(lock: &Lock) -> Option<(&str, Value)> {
    Some((lock.key, grains(lock.value, dimension::find(lock.key)?.quantity().unit)))
}

fn version(version: &Version) -> Value {
    let Version { name, note, date, shape: kept } = version;
    json!({ "name": name, "note": note, "date": date, "shape": shape(kept) })
}

fn shape(shape: &Shape) -> Value {
    let parts = Part::ALL.map(|part| {
        let (before, after): (Vec<_>, Vec<_>) = match part {
            Part::Datum | Part::Profile => Default::default(),
            Part::Outline => {
                let outline = &shape.outline;
                let nodes = outline.nodes.iter().map(node).collect();
                let spans = outline.spans.iter().map(span).collect();
                (vec![("twin", json!(outline.twin))], vec![("nodes", nodes), ("spans", spans)])
            }
            Part::Layup => (Vec::new(), vec![("plies", shape.layup.plies.iter().map(ply).collect())]),
        };
        let settings = SETTINGS.iter().filter(|s| s.part == part && s.quantity.key != PER_PLY);
        let settings = settings.map(|s| (s.quantity.key, grains((s.get)(shape), s.quantity.unit)));
        (part.key(), Value::Object(object(before.into_iter().chain(settings).chain(after))))
    });
    Value::Object(object(parts))
}

fn node(node: &Node) -> Value {
    let mut entry = object([("x", length(node.place.x)), ("y", length(node.place.y))]);
    let word = if node.joint == Joint::Corner { "corner" } else { "smooth" };
    entry.insert("joint".to_owned(), json!(word));
    if let Joint::Smooth(angle) = node.joint {
        entry.insert("angle".to_owned(), grains(angle, Unit::Angle));
    }
    Value::Object(entry)
}

fn span(span: &Span) -> Value {
    match *span {
        Span::Straight => json!({ "kind": "straight" }),
        Span::Cubic { start, end } => json!({ "kind": "cubic", "start": handle(start), "end": handle(end) }),
        Span::Batten { start, end } => {
            let mut entry = object([("kind", json!("batten"))]);
            for (key, lean) in [("start", start), ("end", end)] {
                if let Some(angle) = lean {
                    entry.insert(key.to_owned(), grains(angle, Unit::Angle));
                }
            }
            Value::Object(entry)
        }
    }
}

fn handle(handle: Handle) -> Value {
    match handle {
        Handle::Along(distance) => length(distance),
        Handle::Free(offset) => json!([length(offset.x), length(offset.y)]),
    }
}

fn ply(ply: &Ply) -> Value {
    let grain = match ply.grain {
        Grain::Along => "L",
        Grain::Across => "X",
    };
    json!({ "thickness": grains(ply.thickness, Unit::Thickness), "grain": grain })
}

fn length(mm: f64) -> Value {
    grains(mm, Unit::Length)
}

fn grains(value: f64, unit: Unit) -> Value {
    Value::from(units::stored(value, unit))
}

fn object<'a>(entries: impl IntoIterator<Item = (&'a str, Value)>) -> Map<String, Value> {
    entries.into_iter().map(|(key, value)| (key.to_owned(), value)).collect()
}
