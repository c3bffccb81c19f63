//! The script interface as the wasm offers it, in a real browser: what goes over the border and what is thrown.

use super::*;
use js_sys::{JSON, Reflect, Uint8Array};
use wasm_bindgen::JsCast;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn of(object: &JsValue, key: &str) -> JsValue {
    Reflect::get(object, &key.into()).unwrap()
}

fn json(value: &JsValue) -> String {
    JSON::stringify(value).unwrap().into()
}

/// What was thrown is an `Error` that names `field`.
#[track_caller]
fn check_refused<T: core::fmt::Debug>(outcome: Result<T, JsValue>, field: &str) {
    let error = outcome.unwrap_err();
    assert!(error.is_instance_of::<Error>(), "{error:?}");
    assert_eq!(of(&error, "field").as_string().as_deref(), Some(field));
    assert!(!of(&error, "message").as_string().unwrap_or_default().is_empty());
}

#[wasm_bindgen_test]
fn measures_are_plain_numbers_and_null_where_there_is_none() {
    let measures = measure(&default_design().unwrap()).unwrap();
    let width = of(&measures, "overall-width").as_f64().unwrap();
    assert!((width - 209.55).abs() < 1e-3, "{width}");
    assert!(of(&measures, "waist-width").is_null());
    assert!(!measures.is_instance_of::<js_sys::Map>());
}

#[wasm_bindgen_test]
fn a_design_is_the_json_of_its_file_and_comes_back_from_its_link() {
    let deck = default_design().unwrap();
    let parsed = JSON::parse(&json(&deck)).unwrap();
    assert_eq!(json(&measure(&parsed).unwrap()), json(&measure(&deck).unwrap()));
    let link = encode_link(&deck).unwrap();
    assert!(link.starts_with("#d="), "{link}");
    assert_eq!(json(&of(&decode_link(&link).unwrap(), "shape")), json(&of(&deck, "shape")));
}

#[wasm_bindgen_test]
fn what_is_refused_throws_an_error_that_names_its_field() {
    let deck = default_design().unwrap();
    let datum = of(&of(&deck, "shape"), "datum");
    Reflect::set(&datum, &"wheelbase".into(), &0.into()).unwrap();
    check_refused(measure(&deck), "shape.datum.wheelbase");
    check_refused(decode_link("#d=nothing"), "link");
    check_refused(measure(&JsValue::from_str("a deck")), "design");
    let faults: Array = validate(&deck).unwrap().unchecked_into();
    assert_eq!(of(&faults.get(0), "field").as_string().as_deref(), Some("shape.datum.wheelbase"));
}

#[wasm_bindgen_test]
fn a_typed_dimension_is_met_and_the_nearest_value_is_told() {
    let deck = default_design().unwrap();
    let wider = set_dimension(&deck, "overall-width", 212.0).unwrap();
    let width = of(&measure(&wider).unwrap(), "overall-width").as_f64().unwrap();
    assert!((width - 212.0).abs() < 1e-3, "{width}");
    let error = set_dimension(&deck, "overall-width", 5000.0).unwrap_err();
    let nearest = of(&error, "nearest").as_f64().unwrap();
    let widest = set_dimension(&deck, "overall-width", nearest).unwrap();
    let width = of(&measure(&widest).unwrap(), "overall-width").as_f64().unwrap();
    assert!(nearest > 212.0 && (width - nearest).abs() < 1e-3, "{nearest}, {width}");
}

#[wasm_bindgen_test]
fn files_are_text_and_a_pdf_is_bytes() {
    let deck = default_design().unwrap();
    let file = |kind| export_file(&deck, kind, &JsValue::UNDEFINED).unwrap();
    assert!(file("svg").as_string().unwrap().contains("<svg"));
    assert!(file("dxf").as_string().unwrap().contains("LWPOLYLINE"));
    let pdf: Uint8Array = file("pdf").dyn_into().unwrap();
    assert!(pdf.to_vec().starts_with(b"%PDF-"));
}
