//! The workshop's numbers for scripts.

use super::{refusal, set};
use halfbreadth_core::{
    design::Design,
    editor::outside,
    layup::Grain,
    measure::Measured,
    quantities::{MEASURES, Quantity, Reading},
    workshop::{
        FIGURES, Workshop,
        laminate::{Laminate, Layer, Stiffness},
    },
};
use js_sys::{Array, Object, Reflect};
use wasm_bindgen::{JsCast, JsValue};

/// Every figure under its key: `value` (`null` where there is none, and then `reason`), `unit`, `source`, `estimate`.
pub(super) fn figures(design: &Design) -> JsValue {
    let measured = Measured::of(design.shape());
    let workshop = Workshop::of(design.shape(), &measured, design.workshop());
    let all = Object::new();
    for figure in FIGURES {
        put(&all, &figure.quantity, (figure.read)(&workshop), figure.source, figure.estimate);
    }
    for measure in MEASURES.iter().filter(|measure| OF_THE_BENCH.contains(&measure.quantity.key)) {
        put(&all, &measure.quantity, (measure.read)(&measured), measure.quantity.help, false);
    }
    all.into()
}

/// Measures of the outline that the bench needs too; their help is their definition.
const OF_THE_BENCH: [&str; 5] =
    ["glue-mass", "glue-inside-share", "platform-length", "plan-length", "plan-width"];

fn put(all: &Object, quantity: &Quantity, reading: Reading, source: &str, estimate: bool) {
    let entry = Object::new();
    let value = reading.value.map_or(JsValue::NULL, |value| outside(value, quantity.unit).into());
    for (key, value) in [
        ("value", value),
        ("unit", quantity.unit.script_symbol().into()),
        ("source", source.into()),
        ("estimate", estimate.into()),
    ] {
        set(&entry, key, &value);
    }
    if !reading.remark.is_empty() {
        set(&entry, if reading.value.is_none() { "reason" } else { "remark" }, &reading.remark.into());
    }
    set(all, quantity.key, &entry);
}

/// The plate of a list of plies.
pub(super) fn laminate(plies: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let list = plies
        .dyn_ref::<Array>()
        .ok_or_else(|| refusal("plies", "give the plies as a list, top face first"))?;
    let width = number(options, "width")?.unwrap_or(1.0);
    if !(width > 0.0 && width.is_finite()) {
        return Err(refusal("width", "the width is a length in mm above 0"));
    }
    let layers = list.iter().enumerate().map(|(i, ply)| layer(&ply, i)).collect::<Result<Vec<_>, _>>()?;
    let plate = Laminate::of(&layers).map_err(|fault| refusal(fault.field(), &fault.to_string()))?;
    let made = Object::new();
    set(&made, "thickness", &plate.thickness.into());
    let direction = |stiffness: &Stiffness| {
        let entry = Object::new();
        set(&entry, "E", &stiffness.modulus(plate.thickness).into());
        set(&entry, "D", &(stiffness.bend * width).into());
        entry
    };
    set(&made, "along", &direction(&plate.along));
    set(&made, "across", &direction(&plate.across));
    Ok(made.into())
}

fn layer(ply: &JsValue, index: usize) -> Result<Layer, JsValue> {
    let needed = |key: &str| {
        let value = number(ply, key)?;
        let found = value.filter(|value| value.is_finite() && *value >= 0.0);
        let missing = || refusal(&format!("plies[{index}].{key}"), "a number from 0 is needed here");
        found.ok_or_else(missing)
    };
    let angle = needed("angle")?;
    let runs_at = |degrees: f64| (angle - degrees).abs() < 1e-9;
    let grain = if runs_at(0.0) {
        Grain::Along
    } else if runs_at(90.0) {
        Grain::Across
    } else {
        return Err(refusal(&format!("plies[{index}].angle"), "the grain runs at 0 or 90 degrees"));
    };
    let (thickness, along, across) = (needed("thickness")?, needed("along")?, needed("across")?);
    Ok(Layer { thickness, along, across, rupture: f64::INFINITY, grain })
}

/// The number under a key; of what is no object, such as `undefined`, there is nothing to read.
fn number(object: &JsValue, key: &str) -> Result<Option<f64>, JsValue> {
    let given = Reflect::get(object, &key.into()).unwrap_or_default();
    if given.is_undefined() || given.is_null() {
        return Ok(None);
    }
    given.as_f64().map(Some).ok_or_else(|| refusal(key, "give a number"))
}
