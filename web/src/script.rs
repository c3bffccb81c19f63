//! The script interface: the core as plain functions of plain objects, in a page or in Node.
//!
//! A design object *is* the file's JSON. Other values are in mm, degrees and grams; a measure a shape does not have is
//! `null`. What is refused throws an `Error` whose `field` names the key at fault.

mod bring;
mod export;
pub mod photo;
mod pins;
mod plain;
mod workshop;

use halfbreadth_core::{
    arcs::offset,
    compare,
    curve::batten,
    demo,
    design::{Design, Refusal},
    dimension,
    edit::Edit,
    editor::{inside, outside},
    export::Kind,
    format::{
        json::{self, Document, Value},
        link, svg,
    },
    language::English,
    measure::Measured,
    quantities::MEASURES,
};
use js_sys::{Array, Error, Object, Reflect};
use serde::{Serialize, Serializer as _};
use serde_wasm_bindgen::Serializer;
use wasm_bindgen::{JsValue, prelude::wasm_bindgen};

/// Writes plain objects, as JSON has them.
const TO_SCRIPT: &Serializer = &Serializer::json_compatible();

/// The design the page opens on.
///
/// # Errors
///
/// Never; the type is that of all functions here.
#[wasm_bindgen(js_name = defaultDesign)]
pub fn default_design() -> Result<JsValue, JsValue> {
    give_design(&demo::turnstone())
}

/// Every measure of a design under its key, in mm, mm², degrees, g, or as a share; `null` where there is none.
///
/// # Errors
///
/// Where the design is refused.
#[wasm_bindgen]
pub fn measure(design: &JsValue) -> Result<JsValue, JsValue> {
    let _english = English::only();
    give_measures(&measured(design)?)
}

/// The design with a dimension changed to a value, in mm or degrees, by the smallest natural change; what is locked stays.
///
/// # Errors
///
/// Where the design is refused, there is no dimension of that key, or the value cannot be met: then `nearest` of the error
/// is the nearest value that can, `null` where there is none.
#[wasm_bindgen(js_name = setDimension)]
pub fn set_dimension(design: &JsValue, key: &str, value: f64) -> Result<JsValue, JsValue> {
    let _english = English::only();
    let mut document = read_document(design).map_err(thrown)?;
    let Some(dimension) = dimension::find(key) else {
        return Err(refusal("key", &format!("there is no dimension called “{key}”")));
    };
    let unit = dimension.quantity().unit;
    let edit = Edit::Dimension { key: dimension.key, value: inside(value, unit) };
    document.design = document.design.apply(&edit).map_err(|why| {
        let error = refusal(key, &why.to_string());
        let nearest = match &why {
            Refusal::Unmet(unmet) if unmet.quantity() == Some(dimension.quantity()) => unmet.nearest(),
            _ => None,
        };
        set(&error, "nearest", &nearest.map_or(JsValue::NULL, |value| outside(value, unit).into()));
        error
    })?;
    give(&json::to_value(&document))
}

/// SVG path data, in mm with y up, of the batten through `points`, each `[x, y]`. Of `options`, `start` and `end` are the
/// tangents at the first and the last pin in degrees, anticlockwise from +x; an end without one is free.
///
/// # Errors
///
/// Where a point is not two finite numbers, or no batten runs through them.
#[wasm_bindgen]
pub fn batten(points: &JsValue, options: &JsValue) -> Result<String, JsValue> {
    let _english = English::only();
    let pins = pins::places(points)?;
    let ends = [pins::end(options, "start")?, pins::end(options, "end")?];
    let path = batten::path(&pins, ends).map_err(|error| refusal("points", &error.to_string()))?;
    Ok(svg::path(&path))
}

/// Two designs beside one another: `a` and `b`, every measure of each as [`measure`] gives them, and `farthest`, the
/// largest distance between their edges with its place `x` and `y` on the left half, mm.
///
/// # Errors
///
/// Where a design is refused.
#[wasm_bindgen]
pub fn compare(a: &JsValue, b: &JsValue) -> Result<JsValue, JsValue> {
    let _english = English::only();
    let [a, b] = [measured(a)?, measured(b)?];
    let found = compare::farthest(&a.half, &b.half);
    let farthest = Object::new();
    for (key, value) in [("distance", found.distance), ("x", found.at.x), ("y", found.at.y)] {
        set(&farthest, key, &value.into());
    }
    let comparison = Object::new();
    set(&comparison, "a", &give_measures(&a)?);
    set(&comparison, "b", &give_measures(&b)?);
    set(&comparison, "farthest", &farthest);
    Ok(comparison.into())
}

/// A part of the deck as a file of that kind, at true scale: `svg`, `dxf` and `csv` as text, `pdf` as a `Uint8Array`.
/// Of `options`, `part` says which (the deck; of `csv` the table of offsets); words and lengths in mm say how.
///
/// # Errors
///
/// Where the design is refused, or the kind, an option or its value is unknown, or the options do not go together.
#[wasm_bindgen(js_name = exportFile)]
pub fn export_file(design: &JsValue, kind: &str, options: &JsValue) -> Result<JsValue, JsValue> {
    let _english = English::only();
    let design = take_design(design)?;
    let no_kind =
        || refusal("kind", &format!("there is no export of kind “{kind}”: use svg, dxf, pdf or csv"));
    let kind = Kind::named(kind).ok_or_else(no_kind)?;
    export::file(&design, kind, options)
}

/// The parallel of the outline at `distance` mm, outward where positive: its `path` as SVG path data of lines and arcs, in mm
/// with y up, and the places on the left half that it does not follow, `unfollowed`, each with `x`, `y` and the `radius`
/// of the outline there: 0 at a corner, `null` where another part of the edge is in the way.
///
/// # Errors
///
/// Where the design is refused, or there is no such parallel.
#[wasm_bindgen]
pub fn offset(design: &JsValue, distance: f64) -> Result<JsValue, JsValue> {
    let _english = English::only();
    let half = take_design(design)?.shape().outline.resolve();
    let made = offset::offset(&half, distance).map_err(|why| refusal("distance", &why.to_string()))?;
    let chains: Vec<_> = made.contours.iter().flat_map(offset::Contour::whole).collect();
    let unfollowed = Array::new();
    for place in &made.places {
        let entry = Object::new();
        let radius = place.radius.map_or(JsValue::NULL, JsValue::from);
        for (key, value) in [("x", place.at.x.into()), ("y", place.at.y.into()), ("radius", radius)] {
            set(&entry, key, &value);
        }
        unfollowed.push(&entry);
    }
    let parallel = Object::new();
    set(&parallel, "path", &svg::chains(&chains).into());
    set(&parallel, "unfollowed", &unfollowed);
    Ok(parallel.into())
}

/// Every figure of the workshop under its key: each with `value` (mm, degrees, g, N, MPa, …), its `unit`, the `source` of its
/// formula and values, and whether it is an `estimate`. A figure that cannot be given has the value `null` and a `reason`.
///
/// # Errors
///
/// Where the design is refused.
#[wasm_bindgen]
pub fn workshop(design: &JsValue) -> Result<JsValue, JsValue> {
    let _english = English::only();
    Ok(workshop::figures(&take_design(design)?))
}

/// The plate that `plies` make, top face first, each with `thickness` in mm, `along` and `across`, its moduli along and
/// across its grain in MPa, and `angle`, 0 or 90. Gives `thickness`, and for `along` and `across` the board `E`, the
/// modulus of a solid board as thick and as stiff in MPa, and `D`, its bending stiffness in N·mm² for the `width` of
/// `options` (1 mm where none is given).
///
/// # Errors
///
/// Where there is no ply, or one has no thickness, or a number is missing.
#[wasm_bindgen]
pub fn laminate(plies: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let _english = English::only();
    workshop::laminate(plies, options)
}

/// The shape that measurements describe: `rows` are a table's text, or a list of `[station, half-breadth]` or `[station, left,
/// right]`. Gives `design`, `residuals` (mm, outside positive, one a row), `suspects` (indices of rows that lie off a fair
/// edge and were left out), `misfit`, `asymmetry` (mm, or `null`), `points` and `remarks`.
///
/// # Errors
///
/// Where a row or an option cannot be used, or the shape does not fit the design's bolt holes.
#[wasm_bindgen(js_name = fitMeasurements)]
pub fn fit_measurements(rows: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let _english = English::only();
    bring::measurements(rows, options)
}

/// The shape in the text of an SVG or DXF file. Gives `design`, `misfit`, `asymmetry` in mm, `points` and `remarks`.
///
/// # Errors
///
/// Where the drawing cannot be read, does not say its unit and no option does, or holds no deck.
#[wasm_bindgen(js_name = readDrawing)]
pub fn read_drawing(text: &str, options: &JsValue) -> Result<JsValue, JsValue> {
    let _english = English::only();
    bring::drawing(text, options)
}

/// The fragment, `#d=…`, of a link that carries the design's shape and name.
///
/// # Errors
///
/// Where the design is refused.
#[wasm_bindgen(js_name = encodeLink)]
pub fn encode_link(design: &JsValue) -> Result<String, JsValue> {
    let _english = English::only();
    Ok(format!("#d={}", link::encode(&take_design(design)?)))
}

/// The design in a link: a whole address, its fragment, or the code alone.
///
/// # Errors
///
/// Where the link is damaged or the design in it is refused.
#[wasm_bindgen(js_name = decodeLink)]
pub fn decode_link(text: &str) -> Result<JsValue, JsValue> {
    let _english = English::only();
    let design = link::decode(text).map_err(|error| refusal("link", &error.to_string()))?;
    give_design(&design)
}

/// What is wrong with a value as a design: an empty list, or one entry with `field` and `message`.
///
/// # Errors
///
/// Never for plain objects.
#[wasm_bindgen]
pub fn validate(design: &JsValue) -> Result<JsValue, JsValue> {
    let _english = English::only();
    let fault = read_document(design).err();
    let faults = fault.iter().map(|(field, message)| {
        Value::object([("field", field.as_str().into()), ("message", message.as_str().into())])
    });
    give(&faults.collect())
}

fn read_document(design: &JsValue) -> Result<Document, (String, String)> {
    let value = plain::read(design, json::DEEPEST)
        .ok_or_else(|| ("design".to_owned(), "a design is a plain object, as a file holds it".to_owned()))?;
    json::from_value(value).map_err(|error| {
        // What is wrong of the value as a whole has no path in it.
        let field = Some(error.field()).filter(|field| !field.is_empty());
        (field.unwrap_or_else(|| "design".to_owned()), error.to_string())
    })
}

fn take_design(design: &JsValue) -> Result<Design, JsValue> {
    Ok(read_document(design).map_err(thrown)?.design)
}

fn measured(design: &JsValue) -> Result<Measured, JsValue> {
    Ok(Measured::of(take_design(design)?.shape()))
}

fn give_measures(measured: &Measured) -> Result<JsValue, JsValue> {
    let values = MEASURES.iter().map(|measure| {
        let value = (measure.read)(measured).value;
        (measure.quantity.key, value.map(|value| outside(value, measure.quantity.unit)))
    });
    Ok(TO_SCRIPT.collect_map(values)?)
}

fn thrown((field, message): (String, String)) -> JsValue {
    refusal(&field, &message)
}

fn give_design(design: &Design) -> Result<JsValue, JsValue> {
    give(&json::to_value(&design.clone().into()))
}

fn give(value: &Value) -> Result<JsValue, JsValue> {
    Ok(plain::Plain(value).serialize(TO_SCRIPT)?)
}

fn refusal(field: &str, message: &str) -> JsValue {
    let error = Error::new(message);
    set(&error, "field", &field.into());
    error.into()
}

/// Sets a property of an object just made, which cannot fail.
fn set(object: &JsValue, key: &str, value: &JsValue) {
    let _ = Reflect::set(object, &key.into(), value);
}

#[cfg(all(test, target_family = "wasm"))]
#[expect(clippy::unwrap_used, reason = "a test that finds nothing there has failed")]
mod tests;
