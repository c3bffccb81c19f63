//! The projection of a photograph, for scripts.

use super::{TO_SCRIPT, pins, refusal, set, take_design};
use halfbreadth_core::{capture::photo::sort_holes, language::English};
use js_sys::Object;
use serde::Serialize as _;
use wasm_bindgen::{JsValue, prelude::wasm_bindgen};

/// The projection from a picture to the plane of the bolt holes, by least squares over all of them: `imagePoints` are where
/// the holes of the design show, each `[x, y]` in pixels with y down, four to eight in any order. Its `matrix`, three rows of
/// three, takes a place in the picture to one on the deck, mm; `misfits` are how far each point lies from its hole on the
/// deck, mm, and `holes` which hole each is, counted from 0 as the datum lists them: from tail to nose, the left rail first.
///
/// Where the nose is, the holes alone do not say: points given in that order say it, else it lies to the right of the
/// picture, or up where the deck stands.
///
/// # Errors
///
/// Where the design is refused, or the points are not the holes of one deck.
#[wasm_bindgen]
pub fn projection(
    #[wasm_bindgen(js_name = imagePoints)] image_points: &JsValue,
    design: &JsValue,
) -> Result<JsValue, JsValue> {
    let _english = English::only();
    let fault = |message: &str| refusal("imagePoints", message);
    let points = pins::pairs(image_points)
        .ok_or_else(|| fault("give the holes as a list of [x, y], in pixels of the picture"))?;
    let design = take_design(design)?;
    let sorted = |turned| sort_holes(&points, &design.shape().datum, turned);
    let is_in_order = |holes: &[usize]| holes.iter().enumerate().all(|(i, hole)| i == *hole);
    let found = match (sorted(false), sorted(true)) {
        (Ok(_), Ok(turned)) if is_in_order(&turned.holes) => turned,
        (Ok(found), _) | (Err(_), Ok(found)) => found,
        (Err(why), Err(_)) => return Err(fault(&why.to_string())),
    };
    let matrix = found.projection.inverse().ok_or_else(|| fault("the points lie in a line"))?;
    let answer = Object::new();
    set(&answer, "matrix", &matrix.rows().serialize(TO_SCRIPT)?);
    set(&answer, "misfits", &found.misfits.serialize(TO_SCRIPT)?);
    set(&answer, "holes", &found.holes.serialize(TO_SCRIPT)?);
    Ok(answer.into())
}
