//! The script interface: the core as plain functions of plain objects, in a page or in Node.
//!
//! A design object *is* the file's JSON. Other values are in mm, degrees and grams; a measure a shape does not have is
//! `null`. What is refused throws an `Error` whose `field` names the key at fault.

mod plain;

use halfbreadth_core::{
    demo,
    design::Design,
    editor::outside,
    format::{
        dxf,
        json::{self, Value},
        link, svg,
    },
    measure::Measured,
    quantities::MEASURES,
};
use js_sys::{Error, Reflect};
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
    let measured = Measured::of(take_design(design)?.shape());
    let values = MEASURES.iter().map(|measure| {
        let value = (measure.read)(&measured).value;
        (measure.quantity.key, value.map(|value| outside(value, measure.quantity.unit)))
    });
    Ok(TO_SCRIPT.collect_map(values)?)
}

/// The deck as a file of that kind, `svg` or `dxf`, at true scale. No options yet: the deck with its holes, centreline,
/// bend lines and blank, on the developed sheet.
///
/// # Errors
///
/// Where the design is refused or the kind is unknown.
#[wasm_bindgen(js_name = exportFile)]
pub fn export_file(design: &JsValue, kind: &str, _options: &JsValue) -> Result<String, JsValue> {
    let design = take_design(design)?;
    match kind {
        "svg" => Ok(svg::export(&design)),
        "dxf" => Ok(dxf::export(&design)),
        _ => Err(refusal("kind", &format!("there is no export of kind “{kind}”: use svg or dxf"))),
    }
}

/// The fragment, `#d=…`, of a link that carries the design's shape and name.
///
/// # Errors
///
/// Where the design is refused.
#[wasm_bindgen(js_name = encodeLink)]
pub fn encode_link(design: &JsValue) -> Result<String, JsValue> {
    Ok(format!("#d={}", link::encode(&take_design(design)?)))
}

/// The design in a link: a whole address, its fragment, or the code alone.
///
/// # Errors
///
/// Where the link is damaged or the design in it is refused.
#[wasm_bindgen(js_name = decodeLink)]
pub fn decode_link(text: &str) -> Result<JsValue, JsValue> {
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
    let fault = read_design(design).err();
    let faults = fault.iter().map(|(field, message)| {
        Value::object([("field", field.as_str().into()), ("message", message.as_str().into())])
    });
    give(&faults.collect())
}

fn read_design(design: &JsValue) -> Result<Design, (String, String)> {
    let value = plain::read(design, json::DEEPEST)
        .ok_or_else(|| ("design".to_owned(), "a design is a plain object, as a file holds it".to_owned()))?;
    let document = json::from_value(value).map_err(|error| (error.field(), error.to_string()))?;
    Ok(document.design)
}

fn take_design(design: &JsValue) -> Result<Design, JsValue> {
    read_design(design).map_err(|(field, message)| refusal(&field, &message))
}

fn give_design(design: &Design) -> Result<JsValue, JsValue> {
    give(&json::to_value(&design.clone().into()))
}

fn give(value: &Value) -> Result<JsValue, JsValue> {
    Ok(plain::Plain(value).serialize(TO_SCRIPT)?)
}

fn refusal(field: &str, message: &str) -> JsValue {
    let error = Error::new(message);
    // Setting a property of a fresh object cannot fail.
    let _ = Reflect::set(&error, &"field".into(), &field.into());
    error.into()
}
