//! A picture as rows of pixels, and the deck's sheet seen in it.

use super::{PhotoError, Seen};
use crate::real;
use kurbo::{Point, Rect};

/// A picture: red, green, blue and a fourth that is not looked at, a byte each, from the top left, row by row.
///
/// The middle of the first pixel lies at (0.5, 0.5).
#[derive(Clone, Copy, Debug)]
pub struct Picture<'a> {
    width: usize,
    height: usize,
    pixels: &'a [u8],
}

/// Fewest pixels of a side, and most of a picture: a telephone's twelve million, and some more.
const SMALLEST: usize = 200;
const LARGEST: usize = 16_000_000;

/// A colour: red, green and blue from 0 to 255.
pub(super) type Colour = [f64; 3];

impl<'a> Picture<'a> {
    /// A picture of that size.
    ///
    /// # Errors
    ///
    /// [`PhotoError::Size`] where it is too small or too large, or the pixels are not as many.
    pub fn new(width: usize, height: usize, pixels: &'a [u8]) -> Result<Self, PhotoError> {
        let count = width.checked_mul(height).filter(|count| *count <= LARGEST);
        let fits = count.is_some_and(|count| pixels.len() == 4 * count);
        if fits && width.min(height) >= SMALLEST {
            Ok(Self { width, height, pixels })
        } else {
            Err(PhotoError::Size(width, height))
        }
    }

    /// Width and height, pixels.
    #[must_use]
    pub fn size(&self) -> (usize, usize) {
        (self.width, self.height)
    }

    /// The colour at a place, between the four nearest pixels; `None` outside.
    #[must_use]
    pub(super) fn colour(&self, place: Point) -> Option<Colour> {
        let (x, y) = (place.x - 0.5, place.y - 0.5);
        // Not so for what is not a number.
        if !(x >= 0.0 && y >= 0.0 && x < (self.width - 1) as f64 && y < (self.height - 1) as f64) {
            return None;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "it lies within the picture"
        )]
        let (column, row) = (x as usize, y as usize);
        let (u, v) = (x - column as f64, y - row as f64);
        let at = 4 * (row * self.width + column);
        let below = at + 4 * self.width;
        Some(core::array::from_fn(|k| {
            let [a, b, c, d] = [at, at + 4, below, below + 4].map(|i| f64::from(self.pixels[i + k]));
            (a + (b - a) * u) * (1.0 - v) + (c + (d - c) * u) * v
        }))
    }

    /// How bright the pixel of that column and row is, 0 to 255; beyond the picture that of its edge.
    pub(super) fn grey(&self, column: i64, row: i64) -> f64 {
        let inside = |i: i64, most: usize| usize::try_from(i).unwrap_or(0).min(most - 1);
        let at = 4 * (inside(row, self.height) * self.width + inside(column, self.width));
        let [r, g, b] = [0, 1, 2].map(|k| f64::from(self.pixels[at + k]));
        (2.0 * r + 3.0 * g + b) / 6.0
    }
}

/// The sheet of the deck as the picture shows it: pixels of the same size everywhere, x to the right and y up.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// What it covers, mm.
    pub covers: Rect,
    /// Width in pixels.
    pub width: usize,
    /// Height in pixels.
    pub height: usize,
    /// Pixels as in a [`Picture`]; clear where the picture does not reach.
    pub pixels: Vec<u8>,
}

/// Places of the sheet whose places in the picture are computed; between them they lie on straight lines, within a fiftieth
/// of a millimetre in the tightest bend.
const KNOTS: usize = 8;

impl Sheet {
    /// An empty sheet that covers a box, with so many pixels a millimetre, but no more than four million.
    #[must_use]
    pub fn new(covers: Rect, per_mm: f64) -> Self {
        const MOST: f64 = 4e6;
        let most = (MOST / covers.area().max(1.0)).sqrt();
        let per_mm = real::clamp(per_mm, 0.01, most);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a few thousand at most, and never negative"
        )]
        let side = |mm: f64| (mm * per_mm).max(1.0) as usize;
        let (width, height) = (side(covers.width()), side(covers.height()));
        Self { covers, width, height, pixels: vec![0; 4 * width * height] }
    }

    /// Fills in some rows; the work is done when all are.
    pub fn fill(&mut self, rows: core::ops::Range<usize>, picture: &Picture<'_>, seen: &Seen<'_>) {
        let (dx, dy) = (self.covers.width() / self.width as f64, self.covers.height() / self.height as f64);
        let rows = rows.start..rows.end.min(self.height);
        let knot =
            |column: usize, y: f64| seen.at(Point::new(self.covers.x0 + (column as f64 + 0.5) * dx, y));
        for row in rows {
            let y = self.covers.y1 - (row as f64 + 0.5) * dy;
            let mut from = knot(0, y);
            for start in (0..self.width).step_by(KNOTS) {
                let to = knot(start + KNOTS, y);
                for column in start..(start + KNOTS).min(self.width) {
                    let place = from.lerp(to, (column - start) as f64 / KNOTS as f64);
                    if let Some(colour) = picture.colour(place) {
                        let at = 4 * (row * self.width + column);
                        for (byte, value) in self.pixels[at..].iter_mut().zip(colour) {
                            *byte = byte_of(value);
                        }
                        self.pixels[at + 3] = 255;
                    }
                }
                from = to;
            }
        }
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "colours lie between 0 and 255")]
fn byte_of(value: f64) -> u8 {
    (value + 0.5) as u8
}
