//! A tree written as JSON text.

use super::Value;
use core::fmt;

impl fmt::Display for Value {
    /// On one line; `{:#}` writes an entry a line, indented by two spaces.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write(f, self, 0)
    }
}

fn write(f: &mut fmt::Formatter<'_>, value: &Value, depth: usize) -> fmt::Result {
    match value {
        Value::Null => f.write_str("null"),
        Value::Flag(true) => f.write_str("true"),
        Value::Flag(false) => f.write_str("false"),
        Value::Number(number) => write!(f, "{number}"),
        Value::Text(text) => quote(f, text),
        Value::List(list) => entries(f, ["[", "]"], depth, list.iter().map(|value| (None, value))),
        Value::Object(object) => {
            let named = object.entries.iter().map(|(key, value)| (Some(key.as_str()), value));
            entries(f, ["{", "}"], depth, named)
        }
    }
}

/// Entries between two signs; those of an object have keys.
fn entries<'a>(
    f: &mut fmt::Formatter<'_>,
    [open, close]: [&str; 2],
    depth: usize,
    entries: impl ExactSizeIterator<Item = (Option<&'a str>, &'a Value)>,
) -> fmt::Result {
    f.write_str(open)?;
    let is_empty = entries.len() == 0;
    for (i, (key, value)) in entries.enumerate() {
        f.write_str(if i == 0 { "" } else { "," })?;
        new_line(f, depth + 1)?;
        if let Some(key) = key {
            quote(f, key)?;
            f.write_str(if f.alternate() { ": " } else { ":" })?;
        }
        write(f, value, depth + 1)?;
    }
    if !is_empty {
        new_line(f, depth)?;
    }
    f.write_str(close)
}

fn new_line(f: &mut fmt::Formatter<'_>, depth: usize) -> fmt::Result {
    if f.alternate() { write!(f, "\n{}", "  ".repeat(depth)) } else { Ok(()) }
}

fn quote(f: &mut fmt::Formatter<'_>, text: &str) -> fmt::Result {
    f.write_str("\"")?;
    for c in text.chars() {
        match c {
            '"' => f.write_str("\\\""),
            '\\' => f.write_str("\\\\"),
            '\n' => f.write_str("\\n"),
            '\r' => f.write_str("\\r"),
            '\t' => f.write_str("\\t"),
            c if c < ' ' => write!(f, "\\u{:04x}", u32::from(c)),
            c => f.write_str(c.encode_utf8(&mut [0; 4])),
        }?;
    }
    f.write_str("\"")
}
