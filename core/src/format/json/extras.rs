//! Keys of a file that this version does not know: kept when it is read, put back when it is written.

use super::{Object, Value};

/// What `value` says beyond `known`, by the same path; objects only.
pub(super) fn beyond(value: Value, known: &Object) -> Object {
    let Value::Object(object) = value else { return Object::default() };
    let unknown = object.entries.into_iter().filter_map(|(key, value)| match known.get(&key) {
        None => Some((key, value)),
        Some(Value::Object(inner)) => {
            let rest = beyond(value, inner);
            (!rest.entries.is_empty()).then_some((key, Value::Object(rest)))
        }
        Some(_) => None,
    });
    Object { entries: unknown.collect() }
}

/// Puts `extras` after what is known. Where both say something, what is known stands.
pub(super) fn merge(known: &mut Object, extras: &Object) {
    let mut rest = Vec::new();
    for (key, extra) in &extras.entries {
        match (known.get_mut(key), extra) {
            (None, _) => rest.push((key.clone(), extra.clone())),
            (Some(Value::Object(inner)), Value::Object(extras)) => merge(inner, extras),
            (Some(_), _) => {}
        }
    }
    known.entries.extend(rest);
}
