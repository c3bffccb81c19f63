//! What is exported, on the board: every line and letter that the files hold, the sheets of paper, and what to look at.

use super::{
    SceneInput,
    labels::Place,
    pen::{Anchor, Letters, Pen, Role, circle, cross, polyline},
};
use crate::{
    arcs,
    export::Made,
    format::drawing::{Colour, Entity, Layer},
};
use kurbo::{BezPath, Point, Vec2};

/// Radius of the mark of a place to look at, px.
const WARNING: f64 = 10.0;

pub(super) fn draw(pen: &mut Pen, input: &SceneInput<'_>, made: &Made) {
    pen.path("deck", Role::Deck, input.measured.half.closed());
    let mut letters = 0;
    for (i, layer) in made.drawing.layers.iter().enumerate() {
        let mut path = BezPath::new();
        for entity in &layer.entities {
            if let Entity::Text { at, height, text } = entity {
                pen.engrave(format!("engraved-{letters}"), *at, *height, text.clone());
                letters += 1;
            } else {
                trace(&mut path, entity);
            }
        }
        // One name, one look: what is cut of one part only lies beside another.
        let named = if i == 0 { "cut-" } else { "beside-" };
        pen.path(&[named, layer.key].concat(), role(layer, i == 0), path);
    }
    if let Some(tiling) = made.tiling() {
        let mut path = BezPath::new();
        for (a, b) in tiling.joins() {
            path.extend(polyline(&[a, b]));
        }
        pen.path("joins", Role::Join, path);
    }
    for (i, warning) in made.warnings.iter().enumerate() {
        let Some(at) = warning.at else { continue };
        let radius = WARNING * pen.px;
        let mut path = BezPath::new();
        for at in [at, Point::new(at.x, -at.y)] {
            path.extend(circle(at, radius));
            path.extend(cross(at, radius));
        }
        pen.path(&format!("warning-{i}"), Role::Limit, path);
        let text = &(i + 1).to_string();
        let place = Place::level(at + Vec2::new(2.0 * radius, 0.0), Anchor::Middle);
        let id = &format!("warning-text-{i}");
        pen.label_at(&Letters { id, role: Role::DimensionStrong, field: None, text }, place, false);
    }
}

/// The look of a layer; the first is what is cut.
fn role(layer: &Layer, first: bool) -> Role {
    match layer.key {
        _ if first => Role::Edge,
        "holes" => Role::Hole,
        "centreline" => Role::Centreline,
        "bend-lines" => Role::BendLine,
        "blank" => Role::Blank,
        "saw-line" => Role::SawLine,
        _ if layer.colour == Colour::Grey => Role::EdgeMirror,
        _ => Role::Dimension,
    }
}

fn trace(path: &mut BezPath, entity: &Entity) {
    match entity {
        Entity::Symmetric(half) => path.extend(half.closed()),
        Entity::Chain(chain) => {
            arcs::trace(path, chain);
            path.close_path();
        }
        Entity::Open(chain) => arcs::trace(path, chain),
        Entity::Polygon(corners) => {
            path.extend(polyline(corners));
            path.close_path();
        }
        Entity::Circle { centre, radius } => path.extend(circle(*centre, *radius)),
        Entity::Line(a, b) => path.extend(polyline(&[*a, *b])),
        Entity::Text { .. } => {}
    }
}
