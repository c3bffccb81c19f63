//! Pins of a batten as a script gives them.

use super::refusal;
use halfbreadth_core::curve::batten::End;
use js_sys::{Array, Reflect};
use kurbo::Point;
use wasm_bindgen::{JsCast, JsValue};

/// The places in a list of `[x, y]`, mm.
pub(super) fn places(points: &JsValue) -> Result<Vec<Point>, JsValue> {
    pairs(points).ok_or_else(|| refusal("points", "give the pins as a list of [x, y], in mm"))
}

/// The places in a list of `[x, y]`; none where it is no such list.
pub(super) fn pairs(points: &JsValue) -> Option<Vec<Point>> {
    let list = points.dyn_ref::<Array>()?;
    let place = |point: JsValue| {
        let pair = point.dyn_ref::<Array>().filter(|pair| pair.length() == 2)?;
        Some(Point::new(pair.get(0).as_f64()?, pair.get(1).as_f64()?))
    };
    list.iter().map(place).collect()
}

/// What holds one end: the tangent that `options` names under `key`, in degrees, else nothing.
pub(super) fn end(options: &JsValue, key: &str) -> Result<End, JsValue> {
    // Of what is no object, such as `undefined`, there is nothing to read.
    let given = Reflect::get(options, &key.into()).unwrap_or_default();
    if given.is_undefined() || given.is_null() {
        return Ok(End::Free);
    }
    let angle = given.as_f64().ok_or_else(|| refusal(key, "give the tangent at an end in degrees"))?;
    Ok(End::Tangent(angle.to_radians()))
}
