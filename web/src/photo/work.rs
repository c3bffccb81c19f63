//! What the worker does with a picture. The worker loads the same package and calls these; the page never does.

use halfbreadth_core::{
    capture::photo::{Body, Given, Picture, Sheet, hole_centre, trace},
    design::Design,
    edit::Edit,
    format::json,
    language,
    units::{Denominator, System, Unit, Words, show},
};
use js_sys::{Array, Error, Float64Array, Function, Object, Reflect, Uint8ClampedArray};
use kurbo::{Point, Rect};
use std::cell::RefCell;
use wasm_bindgen::{JsValue, prelude::wasm_bindgen};

/// A hole is looked for within this share of the picture's long side.
const REACH: f64 = 0.02;
/// Pixels for each mm of the sheet that is laid under the drawing.
const PER_MM: f64 = 2.0;
/// Ground shown round the deck's sheet, mm.
const ROUND: f64 = 60.0;
/// Rows of the sheet between two words about progress.
const ROWS: usize = 64;

struct Opened {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
}

thread_local! {
    static OPENED: RefCell<Option<Opened>> = const { RefCell::new(None) };
}

/// Takes a picture: from now on everything is about it.
///
/// # Errors
///
/// Where it is too small or too large.
#[wasm_bindgen(js_name = photoOpen)]
pub fn photo_open(width: u32, height: u32, pixels: Vec<u8>) -> Result<(), JsValue> {
    let opened = Opened { width: width as usize, height: height as usize, pixels };
    Picture::new(opened.width, opened.height, &opened.pixels).map_err(|why| thrown(&why))?;
    OPENED.set(Some(opened));
    Ok(())
}

/// The centre `[x, y]` of the hole near a click, pixels; the click itself where there is none.
///
/// # Errors
///
/// Where no picture is open.
#[wasm_bindgen(js_name = photoHole)]
pub fn photo_hole(x: f64, y: f64) -> Result<JsValue, JsValue> {
    with_picture(|picture| {
        let (width, height) = picture.size();
        let click = Point::new(x, y);
        let centre = hole_centre(picture, click, REACH * width.max(height) as f64).unwrap_or(click);
        Ok(Array::of2(&centre.x.into(), &centre.y.into()).into())
    })
}

/// What the clicks say: `words`, and the `misfits` of the holes as they are to be shown.
///
/// # Errors
///
/// Where they do not fit.
#[wasm_bindgen(js_name = photoLook)]
pub fn photo_look(given: &[f64], design: &str, inches: bool) -> Result<JsValue, JsValue> {
    let (design, system) = (read(design)?, system(inches));
    with_picture(|picture| {
        let given = Given::from_numbers(given);
        let set = given.set(&Body::of(&design), picture.size()).map_err(|why| said(&why, system))?;
        let misfits = Array::new();
        for misfit in &set.clicked.misfits {
            misfits.push(&show(*misfit, Unit::Length, system).to_string().into());
        }
        Ok(object(&[("words", set.said_in(system).into()), ("misfits", misfits.into())]))
    })
}

/// The sheet of the deck in the picture, true to scale: `covers` `[x0, y0, x1, y1]` in mm, `width`, `height` and `pixels`.
///
/// # Errors
///
/// Where the clicks do not fit.
#[wasm_bindgen(js_name = photoSheet)]
pub fn photo_sheet(
    given: &[f64],
    design: &str,
    inches: bool,
    progress: &Function,
) -> Result<JsValue, JsValue> {
    let (design, system) = (read(design)?, system(inches));
    with_picture(|picture| {
        let shape = design.shape();
        let given = Given::from_numbers(given);
        let set = given.set(&Body::of(&design), picture.size()).map_err(|why| said(&why, system))?;
        let mut covers = Rect::ZERO;
        for node in &shape.outline.untwinned().nodes {
            covers = covers.union_pt(node.place);
        }
        let covers = Rect::new(covers.x0, -covers.y1, covers.x1, covers.y1).inflate(ROUND, ROUND);
        let mut sheet = Sheet::new(covers, PER_MM);
        for row in (0..sheet.height).step_by(ROWS) {
            sheet.fill(row..row + ROWS, picture, &set.seen);
            tell(progress, row as f64 / sheet.height as f64);
        }
        let corners = [covers.x0, covers.y0, covers.x1, covers.y1];
        Ok(object(&[
            ("covers", Float64Array::from(corners.as_slice()).into()),
            ("width", (sheet.width as f64).into()),
            ("height", (sheet.height as f64).into()),
            ("pixels", Uint8ClampedArray::from(sheet.pixels.as_slice()).into()),
        ]))
    })
}

/// The deck's edge traced: `words`, and the `design` with the outline found, as a file.
///
/// # Errors
///
/// Where the clicks do not fit, or there is no deck's edge to be seen.
#[wasm_bindgen(js_name = photoTrace)]
pub fn photo_trace(
    given: &[f64],
    design: &str,
    inches: bool,
    progress: &Function,
) -> Result<JsValue, JsValue> {
    let (design, system) = (read(design)?, system(inches));
    with_picture(|picture| {
        let given = Given::from_numbers(given);
        let traced = trace(picture, &Body::of(&design), &given, &mut |share| tell(progress, share))
            .map_err(|why| said(&why, system))?;
        let words = traced.said_in(system);
        let edit = Edit::TakeShape { outline: traced.outline, datum: None };
        let found = design.apply(&edit).map_err(|why| said(&why, system))?;
        Ok(object(&[("words", words.into()), ("design", json::write(&found.into()).into())]))
    })
}

fn with_picture(f: impl FnOnce(&Picture<'_>) -> Result<JsValue, JsValue>) -> Result<JsValue, JsValue> {
    OPENED.with_borrow(|opened| {
        let opened =
            opened.as_ref().ok_or_else(|| JsValue::from(Error::new(language::said("no picture is open"))))?;
        let picture =
            Picture::new(opened.width, opened.height, &opened.pixels).map_err(|why| thrown(&why))?;
        f(&picture)
    })
}

fn read(design: &str) -> Result<Design, JsValue> {
    Ok(json::read(design).map_err(|why| thrown(&why))?.design)
}

fn system(inches: bool) -> System {
    if inches { System::Inches { denominator: Denominator::default() } } else { System::Millimetres }
}

fn said(why: &dyn Words, system: System) -> JsValue {
    Error::new(&why.said_in(system)).into()
}

fn thrown(why: &dyn core::fmt::Display) -> JsValue {
    Error::new(&why.to_string()).into()
}

fn tell(progress: &Function, share: f64) {
    let _ = progress.call1(&JsValue::NULL, &share.into());
}

fn object(entries: &[(&str, JsValue)]) -> JsValue {
    let object = Object::new();
    for (key, value) in entries {
        // Setting a property of an object just made cannot fail.
        let _ = Reflect::set(&object, &(*key).into(), value);
    }
    object.into()
}
