//! The drawing as DXF, for routers, laser cutters and drawing programs.
//!
//! Release 2000 (AC1015): the first with a unit in its header, so that a reader need not guess. Outlines are closed
//! polylines of straight and circular pieces, because many readers skip splines; the arcs stay within
//! [`tolerance::EXPORT_ARCS`](crate::tolerance::EXPORT_ARCS) of the curve. Group codes and sections as in the published DXF reference, from memory; a
//! strict reader finds nothing to mend.

mod frame;
mod tags;

use self::tags::Tags;
use super::drawing::{Drawing, Entity, Options};
use crate::{
    arcs::{self, Arc},
    design::Design,
};

/// The full deck of a design as a DXF file, with all a drawing of it can have.
#[must_use]
pub fn export(design: &Design) -> String {
    print(&Drawing::deck(design, &Options::default()))
}

/// Any drawing as a DXF file: [`Drawing::deck`] leaves out what its options say.
#[must_use]
pub fn print(drawing: &Drawing) -> String {
    frame::around(drawing, |tags, model_space| {
        for layer in &drawing.layers {
            let place = Place { layer: layer_name(layer.key), model_space };
            layer.entities.iter().for_each(|entity| place.entity(tags, entity));
        }
    })
}

/// The name of a layer in the capitals of the trade: `BEND_LINES`.
fn layer_name(key: &str) -> String {
    key.to_ascii_uppercase().replace('-', "_")
}

/// Where an entity belongs.
struct Place {
    layer: String,
    model_space: u32,
}

impl Place {
    fn entity(&self, tags: &mut Tags, entity: &Entity) {
        match entity {
            Entity::Symmetric(half) => self.polyline(tags, &arcs::outline(half)),
            Entity::Chain(chain) => self.polyline(tags, chain),
            Entity::Polygon(corners) => {
                let next = corners.iter().cycle().skip(1);
                let sides: Vec<Arc> = corners.iter().zip(next).map(|(a, b)| Arc::line(*a, *b)).collect();
                self.polyline(tags, &sides);
            }
            Entity::Circle { centre, radius } => {
                self.start(tags, "CIRCLE", "AcDbCircle");
                tags.point(10, *centre);
                tags.number(40, *radius);
            }
            Entity::Line(from, to) => {
                self.start(tags, "LINE", "AcDbLine");
                tags.point(10, *from);
                tags.point(11, *to);
            }
            Entity::Text { at, height, text } => {
                self.start(tags, "TEXT", "AcDbText");
                tags.point(10, *at);
                tags.number(40, *height);
                tags.text(1, text);
                tags.put(100, "AcDbText");
            }
        }
    }

    /// A closed polyline along a chain. The last piece ends where the first begins, so no point is said twice.
    fn polyline(&self, tags: &mut Tags, chain: &[Arc]) {
        const CLOSED: u8 = 1;
        self.start(tags, "LWPOLYLINE", "AcDbPolyline");
        tags.put(90, chain.len());
        tags.put(70, CLOSED);
        tags.number(43, 0.0); // no width
        for arc in chain {
            tags.vertex(arc.p0);
            if !arc.is_line() {
                tags.bulge(arc.bulge);
            }
        }
    }

    fn start(&self, tags: &mut Tags, kind: &str, marker: &str) {
        tags.object(kind, self.model_space);
        tags.put(100, "AcDbEntity");
        tags.put(8, &self.layer);
        tags.put(100, marker);
    }
}

#[cfg(test)]
mod tests;
