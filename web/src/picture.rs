//! A name drawn with the page's own fonts, for paper whose fonts cannot write it.

use crate::dom;
use halfbreadth_core::{format::pdf::Picture, units::decimal};
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// Size of the letters, pixels: 250 to the inch on a heading.
const SIZE: f64 = 72.0;
/// A pixel as dark as this, of 255, is ink.
const INK: u8 = 128;

/// The picture of a name; none where this browser gives no canvas.
pub(crate) fn of(name: &str) -> Option<Picture> {
    let canvas: HtmlCanvasElement = dom::create("canvas").unchecked_into();
    let pen: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.unchecked_into();
    let font = |size: f64| [&decimal(size, 0), "px sans-serif"].concat();
    pen.set_font(&font(SIZE));
    let long = pen.measure_text(name).ok()?.width();
    let size = SIZE.min(SIZE * 0.98 * Picture::MOST as f64 / long.max(1.0)).floor();
    let [width, height] = [long * size / SIZE, size * (Picture::ABOVE + Picture::BELOW)].map(whole);
    canvas.set_width(width);
    canvas.set_height(height);
    // A canvas forgets its font with its size.
    pen.set_font(&font(size));
    pen.fill_text(name, 0.0, size * Picture::ABOVE).ok()?;
    let pixels = pen.get_image_data(0.0, 0.0, width.into(), height.into()).ok()?.data();
    let (width, height) = (width as usize, height as usize);
    let mut bits = vec![0; width.div_ceil(8) * height];
    for y in 0..height {
        for x in 0..width {
            if pixels.get(4 * (y * width + x) + 3).is_some_and(|alpha| *alpha >= INK) {
                bits[y * width.div_ceil(8) + x / 8] |= 0x80 >> (x % 8);
            }
        }
    }
    Picture::new(width, height, bits)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a canvas is small, and never negative"
)]
fn whole(length: f64) -> u32 {
    length.ceil().max(1.0) as u32
}
