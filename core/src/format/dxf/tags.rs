//! Group codes and values, two lines each, and the handles by which objects of the file know each other.

use crate::units;
use core::fmt::Display;
use kurbo::Point;

/// Digits after the point of a coordinate: nanometres.
const PLACES: u8 = 6;
/// Digits of a bulge: on the longest chord a picometre of arc height.
const BULGE_PLACES: u8 = 12;

/// A file, or a part of one, as it grows.
#[derive(Default)]
pub(super) struct Tags {
    pub(super) text: String,
    /// Whether it is of release 12, whose objects need no handle, no owner and no markers.
    plain: bool,
    last_handle: u32,
}

impl Tags {
    /// An empty file of release 12.
    pub(super) fn plain() -> Self {
        Self { plain: true, ..Self::default() }
    }

    /// One group: its code and its value.
    pub(super) fn put(&mut self, code: u16, value: impl Display) {
        self.put_any(code, &value);
    }

    fn put_any(&mut self, code: u16, value: &dyn Display) {
        self.text += &format!("{code}\n{value}\n");
    }

    /// A number that is no whole one by its meaning.
    pub(super) fn number(&mut self, code: u16, value: f64) {
        self.put(code, units::decimal(value, PLACES));
    }

    /// A place in the drawing's plane; the other coordinates follow at `code` + 10 and + 20.
    pub(super) fn point(&mut self, code: u16, at: Point) {
        self.flat_point(code, at);
        self.number(code + 20, 0.0);
    }

    /// A place of which only two coordinates are stored.
    pub(super) fn flat_point(&mut self, code: u16, at: Point) {
        self.number(code, at.x);
        self.number(code + 10, at.y);
    }

    /// A point of a polyline.
    pub(super) fn vertex(&mut self, at: Point) {
        self.flat_point(10, at);
    }

    /// The tangent of a quarter of the angle of the arc that leaves the last vertex.
    pub(super) fn bulge(&mut self, bulge: f64) {
        self.put(42, units::decimal(bulge, BULGE_PLACES));
    }

    /// Text that a person wrote. Every character with a meaning of its own in a DXF text, and all but plain ASCII,
    /// is written as `\U+` and its number; what has no number of four digits, as `?`.
    pub(super) fn text(&mut self, code: u16, text: &str) {
        let mut plain = String::with_capacity(text.len());
        for c in text.chars().filter(|c| !c.is_control()) {
            match u32::from(c) {
                _ if matches!(c, ' '..='~') && !matches!(c, '\\' | '%' | '^') => plain.push(c),
                number @ ..=0xffff => plain.push_str(&format!("\\U+{number:04X}")),
                _ => plain.push('?'),
            }
        }
        self.put(code, plain);
    }

    /// The class whose groups follow.
    pub(super) fn marker(&mut self, class: &str) {
        if !self.plain {
            self.put(100, class);
        }
    }

    /// Begins an object that belongs to another, and gives its handle.
    pub(super) fn object(&mut self, kind: &str, owner: u32) -> u32 {
        let handle = self.new_handle();
        self.put(0, kind);
        if self.plain {
            return handle;
        }
        self.own(5, handle, owner);
        handle
    }

    /// The handle of an object, in group `code`, and that of its owner.
    pub(super) fn own(&mut self, code: u16, handle: u32, owner: u32) {
        self.put(code, format_args!("{handle:X}"));
        self.put(330, format_args!("{owner:X}"));
    }

    /// A handle no object has yet; never 0, which means nobody.
    pub(super) fn new_handle(&mut self) -> u32 {
        self.last_handle += 1;
        self.last_handle
    }
}
