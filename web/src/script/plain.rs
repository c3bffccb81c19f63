//! Plain objects of a script as the values of a file, and back.

use crate::dom;
use halfbreadth_core::format::json::{Number, Object, Value};
use js_sys::Array;
use serde::{Serialize, Serializer};
use wasm_bindgen::{JsCast, JsValue};

/// A value as a plain object.
pub(super) struct Plain<'a>(pub(super) &'a Value);

impl Serialize for Plain<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.0 {
            Value::Null => serializer.serialize_none(),
            Value::Flag(flag) => serializer.serialize_bool(*flag),
            // What this program writes is whole; JavaScript itself has no more digits than an f64.
            Value::Number(number) => serializer.serialize_f64(number.whole().unwrap_or_default() as f64),
            Value::Text(text) => serializer.serialize_str(text),
            Value::List(list) => serializer.collect_seq(list.iter().map(Plain)),
            Value::Object(object) => {
                serializer.collect_map(object.entries.iter().map(|(key, value)| (key, Plain(value))))
            }
        }
    }
}

/// The value of a plain object that nests at most `deepest` levels; none where it holds what no file can.
pub(super) fn read(value: &JsValue, deepest: usize) -> Option<Value> {
    let inside = deepest.checked_sub(1)?;
    if value.is_null() || value.is_undefined() {
        Some(Value::Null)
    } else if let Some(flag) = value.as_bool() {
        Some(Value::Flag(flag))
    } else if let Some(number) = value.as_f64() {
        Number::new(&dom::number(number)).map(Value::Number)
    } else if let Some(text) = value.as_string() {
        Some(Value::Text(text))
    } else if let Some(list) = value.dyn_ref::<Array>() {
        list.iter().map(|value| read(&value, inside)).collect::<Option<_>>().map(Value::List)
    } else {
        let object = value.dyn_ref::<js_sys::Object>().filter(|object| !object.is_function())?;
        let entry = |entry: JsValue| {
            let entry: Array = entry.unchecked_into();
            Some((entry.get(0).as_string()?, read(&entry.get(1), inside)?))
        };
        let entries: Option<_> = js_sys::Object::entries(object).iter().map(entry).collect();
        Some(Value::Object(Object { entries: entries? }))
    }
}
