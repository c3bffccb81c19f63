//! What a DXF file of release 12 has round its entities: a header with extents and unit, and the tables it refers to.

use super::{
    frame::{BLACK, colour_number, extents, section, units},
    layer_name,
    tags::Tags,
};
use crate::format::drawing::Drawing;

/// A file whose entities are written by `entities`.
pub(super) fn around(drawing: &Drawing, entities: impl FnOnce(&mut Tags)) -> String {
    let mut tags = Tags::plain();
    section(&mut tags, "HEADER", |tags| {
        tags.put(9, "$ACADVER");
        tags.put(1, "AC1009");
        units(tags);
        extents(tags, drawing);
    });
    section(&mut tags, "TABLES", |tags| {
        table(tags, "LTYPE", &["CONTINUOUS"], |tags, _| {
            tags.put(3, "Solid line");
            tags.put(72, 65); // aligned: the only kind there is
            tags.put(73, 0); // no dashes
            tags.number(40, 0.0);
        });
        let names: Vec<String> = drawing.layers.iter().map(|layer| layer_name(layer.key)).collect();
        let names: Vec<&str> = ["0"].into_iter().chain(names.iter().map(String::as_str)).collect();
        table(tags, "LAYER", &names, |tags, i| {
            let layer = i.checked_sub(1).and_then(|i| drawing.layers.get(i));
            tags.put(62, layer.map_or(BLACK, |layer| colour_number(layer.colour)));
            tags.put(6, "CONTINUOUS");
        });
        table(tags, "STYLE", &["STANDARD"], |tags, _| {
            tags.number(40, 0.0); // no fixed height
            tags.number(41, 1.0);
            tags.number(50, 0.0);
            tags.put(71, 0);
            tags.number(42, 2.5);
            tags.put(3, "txt");
            tags.put(4, "");
        });
    });
    section(&mut tags, "BLOCKS", |_| ());
    section(&mut tags, "ENTITIES", entities);
    tags.put(0, "EOF");
    tags.text
}

fn table(tags: &mut Tags, name: &str, entries: &[&str], particulars: impl Fn(&mut Tags, usize)) {
    tags.put(0, "TABLE");
    tags.put(2, name);
    tags.put(70, entries.len());
    for (i, entry) in entries.iter().enumerate() {
        tags.put(0, name);
        tags.put(2, entry);
        tags.put(70, 0);
        particulars(tags, i);
    }
    tags.put(0, "ENDTAB");
}
