//! Keys of a file that this version does not know: kept when it is read, put back when it is written.

use serde_json::{Map, Value};

/// What `value` says beyond `known`, by the same path; objects only.
pub(super) fn beyond(value: Value, known: &Map<String, Value>) -> Map<String, Value> {
    let Value::Object(entries) = value else { return Map::new() };
    let unknown = entries.into_iter().filter_map(|(key, value)| match known.get(&key) {
        None => Some((key, value)),
        Some(Value::Object(inner)) => {
            let rest = beyond(value, inner);
            (!rest.is_empty()).then(|| (key, Value::Object(rest)))
        }
        Some(_) => None,
    });
    unknown.collect()
}

/// Puts `extras` after what is known. Where both say something, what is known stands.
pub(super) fn merge(known: &mut Map<String, Value>, extras: &Map<String, Value>) {
    for (key, extra) in extras {
        match (known.get_mut(key), extra) {
            (None, _) => {
                known.insert(key.clone(), extra.clone());
            }
            (Some(Value::Object(inner)), Value::Object(rest)) => merge(inner, rest),
            (Some(_), _) => {}
        }
    }
}
