//! The datum: eight bolt holes that fix the centreline and the origin.
//!
//! The origin lies on the centreline midway between the two *inner* bolt rows. Nothing else in a shape may move the
//! holes by accident, so they are stored as four numbers and never as points.

use kurbo::Point;

/// The bolt pattern of both trucks and the distance between them.
#[derive(Clone, Debug, PartialEq)]
pub struct Datum {
    /// Distance between the two inner bolt rows, mm (common practice, no source).
    pub wheelbase: f64,
    /// Distance between the two rows of one truck, along the board, mm.
    pub pattern_length: f64,
    /// Distance between the two holes of one row, across the board, mm.
    pub pattern_width: f64,
    /// Diameter of a bolt hole, mm.
    pub hole_diameter: f64,
}

impl Default for Datum {
    /// The common newer pattern, 2 1/8 × 1 5/8 in, and holes of 13/64 in (from memory), at 14 1/4 in (common practice, no
    /// source).
    fn default() -> Self {
        Self { wheelbase: 361.95, pattern_length: 53.975, pattern_width: 41.275, hole_diameter: 5.2 }
    }
}

impl Datum {
    /// Distance of an inner bolt row from the origin, mm.
    #[must_use]
    pub fn inner_row(&self) -> f64 {
        self.wheelbase / 2.0
    }

    /// Distance of an outer bolt row from the origin, mm.
    #[must_use]
    pub fn outer_row(&self) -> f64 {
        self.inner_row() + self.pattern_length
    }

    /// Distance of a truck's centre from the origin, mm; the axle is taken there.
    #[must_use]
    pub fn truck_centre(&self) -> f64 {
        self.inner_row() + self.pattern_length / 2.0
    }

    /// Centres of the eight holes, from tail to nose, left rail first.
    #[must_use]
    pub fn holes(&self) -> [Point; 8] {
        let y = self.pattern_width / 2.0;
        let (inner, outer) = (self.inner_row(), self.outer_row());
        let rows = [-outer, -inner, inner, outer];
        core::array::from_fn(|i| Point::new(rows[i / 2], if i % 2 == 0 { y } else { -y }))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_origin_is_midway_between_the_inner_rows() {
        let holes = Datum::default().holes();
        let sum = holes.iter().fold(kurbo::Vec2::ZERO, |sum, hole| sum + hole.to_vec2());
        assert_eq!((sum.x, sum.y), (0.0, 0.0));
        assert_eq!(holes[4].x - holes[2].x, 361.95);
    }
}
