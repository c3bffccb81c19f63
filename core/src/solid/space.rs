//! Places in space, and the surface that the sheet is bent to.

use crate::{design::Shape, real};
use core::ops::{Add, Mul, Sub};
use kurbo::Point;

/// A place or a direction in space, mm: x to the nose, y to the left rail, z up from the flat top face.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spot {
    /// Toward the nose.
    pub x: f64,
    /// Toward the left rail.
    pub y: f64,
    /// Up.
    pub z: f64,
}

impl Spot {
    /// Of three numbers.
    #[must_use]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// The scalar product.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// The vector product.
    #[must_use]
    pub fn cross(self, other: Self) -> Self {
        Self {
            x: self.y * other.z - self.z * other.y,
            y: self.z * other.x - self.x * other.z,
            z: self.x * other.y - self.y * other.x,
        }
    }

    /// The length.
    #[must_use]
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The direction at length 1; none of nothing.
    #[must_use]
    pub fn unit(self) -> Self {
        let length = self.length();
        if length > 0.0 { self * (1.0 / length) } else { self }
    }
}

impl Add for Spot {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y, self.z + other.z)
    }
}

impl Sub for Spot {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        self + other * -1.0
    }
}

impl Mul<f64> for Spot {
    type Output = Self;

    fn mul(self, by: f64) -> Self {
        Self::new(self.x * by, self.y * by, self.z * by)
    }
}

/// The bent sheet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Surface<'a> {
    pub(crate) shape: &'a Shape,
    /// Of the deck, mm.
    pub(crate) thickness: f64,
}

/// Half the distance, mm, over which the fade of the concave is looked at for its slope along the board.
const REACH: f64 = 0.01;

impl Surface<'_> {
    /// The place of `p` on the developed sheet, `depth` mm square below the top face.
    pub(crate) fn at(&self, p: Point, depth: f64) -> Spot {
        let Shape { datum, profile, .. } = self.shape;
        let (side, angle) = profile.side(datum, p.x);
        let (across, height) = profile.across(datum, p.x, p.y);
        let top = Spot::new(side.x, across, side.y + height);
        if depth == 0.0 {
            return top;
        }
        // Where the concave fades the rail sinks along the board. Across it moves by far less, which is left out.
        let height_at = |x: f64| profile.across(datum, x, p.y).1;
        let sinks = (height_at(p.x + REACH) - height_at(p.x - REACH)) / (2.0 * REACH);
        let (sin, cos) = real::sincos(angle);
        let along = Spot::new(cos, 0.0, sin + sinks);
        let (sin, cos) = real::sincos(profile.lean(datum, p.x, p.y));
        top - along.cross(Spot::new(0.0, cos, sin)).unit() * depth
    }
}
