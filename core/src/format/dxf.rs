//! The drawing as DXF, for routers, laser cutters and drawing programs.
//!
//! By default release 2000 (AC1015), the first with a unit in its header, so that a reader need not guess, and outlines as
//! closed polylines of straight and circular pieces, because many readers skip splines; [`DxfOptions`] has the others.
//! Group codes and sections as in the published DXF reference, from memory; a strict reader finds nothing to mend.

mod curves;
mod frame;
mod options;
mod plain;
mod tags;

pub use self::options::{Curves, DxfError, DxfOptions, LIMITS, Release, TOLERANCE};
use self::{curves::Course, tags::Tags};
use super::drawing::{Drawing, Entity, Options};
use crate::design::Design;

/// The full deck of a design as a DXF file, with all a drawing of it can have.
#[must_use]
pub fn export(design: &Design) -> String {
    print(&Drawing::deck(design, &Options::default()))
}

/// Any drawing as a DXF file: [`Drawing::deck`] leaves out what its options say.
#[must_use]
pub fn print(drawing: &Drawing) -> String {
    write(drawing, &DxfOptions::default())
}

/// Any drawing as a DXF file of a chosen kind.
///
/// # Errors
///
/// [`DxfError`] where the options do not go together.
pub fn print_with(drawing: &Drawing, options: &DxfOptions) -> Result<String, DxfError> {
    options.check()?;
    Ok(write(drawing, options))
}

fn write(drawing: &Drawing, options: &DxfOptions) -> String {
    let entities = |tags: &mut Tags, model_space: u32| {
        for layer in &drawing.layers {
            let place = Place { layer: layer_name(layer.key), model_space, options };
            layer.entities.iter().for_each(|entity| place.entity(tags, entity));
        }
    };
    match options.release {
        Release::R2000 => frame::around(drawing, entities),
        Release::R12 => plain::around(drawing, |tags| entities(tags, 0)),
    }
}

/// The name of a layer in the capitals of the trade: `BEND_LINES`.
fn layer_name(key: &str) -> String {
    key.to_ascii_uppercase().replace('-', "_")
}

/// Where an entity belongs, and how curves are written.
struct Place<'a> {
    layer: String,
    model_space: u32,
    options: &'a DxfOptions,
}

impl Place<'_> {
    fn entity(&self, tags: &mut Tags, entity: &Entity) {
        match entity {
            Entity::Symmetric(_) | Entity::Chain(_) | Entity::Open(_) | Entity::Polygon(_) => {
                match Course::of(entity, self.options) {
                    Course::Spline(places, closed) => self.spline(tags, &places, closed),
                    Course::Chain(chain, closed) => self.polyline(tags, &chain, closed),
                }
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
                tags.marker("AcDbText");
            }
        }
    }

    /// Begins an entity of that kind and class.
    fn start(&self, tags: &mut Tags, kind: &str, class: &str) {
        tags.object(kind, self.model_space);
        tags.marker("AcDbEntity");
        tags.put(8, &self.layer);
        tags.marker(class);
    }
}

#[cfg(test)]
mod tests;
