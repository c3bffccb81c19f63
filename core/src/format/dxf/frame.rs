//! What a DXF file of release 2000 must have round its entities: header, tables, blocks and objects.

use super::{layer_name, tags::Tags};
use crate::format::drawing::{Colour, Drawing};
use kurbo::Point;

/// Nobody: the owner of what belongs to the file itself.
const FILE: u32 = 0;
/// The blocks every file has; the first holds the drawing, the second is an empty sheet.
const SPACES: [&str; 2] = ["*Model_Space", "*Paper_Space"];

/// A file whose entities are written by `entities`, which is told the handle of what they belong to.
pub(super) fn around(drawing: &Drawing, entities: impl FnOnce(&mut Tags, u32)) -> String {
    let mut tags = Tags::default();
    section(&mut tags, "CLASSES", |_| ());
    let spaces = section(&mut tags, "TABLES", |tags| tables(tags, drawing));
    section(&mut tags, "BLOCKS", |tags| blocks(tags, spaces));
    section(&mut tags, "ENTITIES", |tags| entities(tags, spaces[0]));
    section(&mut tags, "OBJECTS", objects);
    tags.put(0, "EOF");

    // The header tells the next free handle, so it is written last.
    let next_handle = tags.new_handle();
    let mut head = Tags::default();
    section(&mut head, "HEADER", |tags| header(tags, drawing, next_handle));
    head.text + &tags.text
}

pub(super) fn section<T>(tags: &mut Tags, name: &str, content: impl FnOnce(&mut Tags) -> T) -> T {
    tags.put(0, "SECTION");
    tags.put(2, name);
    let made = content(tags);
    tags.put(0, "ENDSEC");
    made
}

fn header(tags: &mut Tags, drawing: &Drawing, next_handle: u32) {
    tags.put(9, "$ACADVER");
    tags.put(1, "AC1015");
    tags.put(9, "$DWGCODEPAGE");
    tags.put(3, "ANSI_1252");
    units(tags);
    extents(tags, drawing);
    tags.put(9, "$HANDSEED");
    tags.put(5, format_args!("{next_handle:X}"));
}

/// That all lengths are millimetres.
pub(super) fn units(tags: &mut Tags) {
    const MILLIMETRES: u8 = 4;
    const METRIC: u8 = 1;
    tags.put(9, "$INSUNITS");
    tags.put(70, MILLIMETRES);
    tags.put(9, "$MEASUREMENT");
    tags.put(70, METRIC);
}

/// The rectangle everything lies in.
pub(super) fn extents(tags: &mut Tags, drawing: &Drawing) {
    let extent = drawing.extent();
    tags.put(9, "$EXTMIN");
    tags.point(10, extent.origin());
    tags.put(9, "$EXTMAX");
    tags.point(10, Point::new(extent.x1, extent.y1));
}

/// The tables; gives the handles of the two spaces.
fn tables(tags: &mut Tags, drawing: &Drawing) -> [u32; 2] {
    table(tags, "VPORT", &["*ACTIVE"], "AcDbViewportTableRecord", |tags, _| view(tags, drawing));
    table(tags, "LTYPE", &["ByBlock", "ByLayer", "Continuous"], "AcDbLinetypeTableRecord", |tags, _| {
        tags.put(3, "");
        tags.put(72, 65); // aligned: the only kind there is
        tags.put(73, 0); // no dashes
        tags.number(40, 0.0);
    });
    let names: Vec<String> = drawing.layers.iter().map(|layer| layer_name(layer.key)).collect();
    let names: Vec<&str> = ["0"].into_iter().chain(names.iter().map(String::as_str)).collect();
    table(tags, "LAYER", &names, "AcDbLayerTableRecord", |tags, i| {
        let layer = i.checked_sub(1).and_then(|i| drawing.layers.get(i));
        tags.put(62, layer.map_or(BLACK, |layer| colour_number(layer.colour)));
        tags.put(6, "Continuous");
    });
    table(tags, "STYLE", &["Standard"], "AcDbTextStyleTableRecord", |tags, _| {
        tags.number(40, 0.0); // no fixed height
        tags.number(41, 1.0);
        tags.number(50, 0.0);
        tags.put(71, 0);
        tags.number(42, 2.5);
        tags.put(3, "txt");
        tags.put(4, "");
    });
    table(tags, "VIEW", &[], "AcDbViewTableRecord", |_, _| ());
    table(tags, "UCS", &[], "AcDbUCSTableRecord", |_, _| ());
    table(tags, "APPID", &["ACAD"], "AcDbRegAppTableRecord", |_, _| ());
    table(tags, "DIMSTYLE", &["Standard"], "AcDbDimStyleTableRecord", |_, _| ());
    let spaces = table(tags, "BLOCK_RECORD", &SPACES, "AcDbBlockTableRecord", |_, _| ());
    [spaces[0], spaces[1]]
}

/// A table with an entry for each name, whose particulars `particulars` writes; gives the entries' handles.
fn table(
    tags: &mut Tags,
    name: &str,
    entries: &[&str],
    marker: &str,
    mut particulars: impl FnMut(&mut Tags, usize),
) -> Vec<u32> {
    tags.put(0, "TABLE");
    tags.put(2, name);
    let table = tags.new_handle();
    tags.own(5, table, FILE);
    tags.put(100, "AcDbSymbolTable");
    tags.put(70, entries.len());
    let is_dimstyle = name == "DIMSTYLE";
    if is_dimstyle {
        tags.put(100, "AcDbDimStyleTable");
    }
    let mut handles = Vec::with_capacity(entries.len());
    for (i, entry) in entries.iter().enumerate() {
        let handle = tags.new_handle();
        tags.put(0, name);
        tags.own(if is_dimstyle { 105 } else { 5 }, handle, table); // 5 is taken there
        tags.put(100, "AcDbSymbolTableRecord");
        tags.put(100, marker);
        tags.put(2, entry);
        if name != "BLOCK_RECORD" {
            tags.put(70, 0);
        }
        particulars(tags, i);
        handles.push(handle);
    }
    tags.put(0, "ENDTAB");
    handles
}

/// The view a program opens the file with: all of it, with a little air.
fn view(tags: &mut Tags, drawing: &Drawing) {
    const ASPECT: f64 = 1.5;
    let extent = drawing.extent();
    let height = extent.height().max(extent.width() / ASPECT) * 1.1;
    tags.flat_point(10, Point::ZERO);
    tags.flat_point(11, Point::new(1.0, 1.0));
    tags.flat_point(12, extent.center());
    tags.number(40, height);
    tags.number(41, ASPECT);
}

fn blocks(tags: &mut Tags, spaces: [u32; 2]) {
    for (name, space) in SPACES.into_iter().zip(spaces) {
        let entity = |tags: &mut Tags, kind: &str, marker: &str| {
            tags.object(kind, space);
            tags.put(100, "AcDbEntity");
            if name == SPACES[1] {
                tags.put(67, 1); // on paper
            }
            tags.put(8, "0");
            tags.put(100, marker);
        };
        entity(tags, "BLOCK", "AcDbBlockBegin");
        tags.put(2, name);
        tags.put(70, 0);
        tags.point(10, Point::ZERO);
        tags.put(3, name);
        tags.put(1, "");
        entity(tags, "ENDBLK", "AcDbBlockEnd");
    }
}

fn objects(tags: &mut Tags) {
    let root = tags.object("DICTIONARY", FILE);
    let groups = tags.new_handle();
    dictionary(tags);
    tags.put(3, "ACAD_GROUP");
    tags.put(350, format_args!("{groups:X}"));
    tags.put(0, "DICTIONARY");
    tags.own(5, groups, root);
    dictionary(tags);
}

fn dictionary(tags: &mut Tags) {
    tags.put(100, "AcDbDictionary");
    tags.put(281, 1); // of two entries of one name the first is kept
}

/// White on black and black on white.
pub(super) const BLACK: u8 = 7;

pub(super) fn colour_number(colour: Colour) -> u8 {
    match colour {
        Colour::Black => BLACK,
        Colour::Red => 1,
        Colour::Green => 3,
        Colour::Blue => 5,
        Colour::Magenta => 6,
        Colour::Cyan => 4,
        Colour::Grey => 8,
    }
}
