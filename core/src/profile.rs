//! The pressed shape: kicks and concave, as they are on the finished deck.
//!
//! The outline is drawn on the developed sheet: what a thin flexible pattern shows when it lies on the *top* face.
//! This file maps that sheet to the side view and to the plan (seen from straight above). No rocker or camber is
//! modelled.

use crate::{datum::Datum, real};
use kurbo::Point;

/// How one end is pressed.
#[derive(Clone, Debug, PartialEq)]
pub struct Kick {
    /// Distance of the bend line (where the flat ends and the bend begins) beyond the outer bolt row, mm.
    pub bend_line: f64,
    /// Radius of the bend on the top face, mm.
    pub radius: f64,
    /// Angle of the straight part beyond the bend, radians upward; 0 where the end lies flat and does not kick.
    pub angle: f64,
}

/// The pressed shape of the whole deck.
#[derive(Clone, Debug, PartialEq)]
pub struct Profile {
    /// The nose.
    pub nose: Kick,
    /// The tail.
    pub tail: Kick,
    /// Height of the rail above the centre on the top face, mm, between the trucks.
    pub concave_depth: f64,
    /// Straight width over which that depth is measured, mm.
    pub concave_width: f64,
    /// Width of the flat strip along the middle of the concave, mm.
    pub flat_strip: f64,
    /// Length over which the concave fades to nothing before the bend line, mm.
    pub concave_fade: f64,
}

impl Default for Kick {
    /// Common practice, no source.
    fn default() -> Self {
        Self { bend_line: 19.05, radius: 95.25, angle: 20_f64.to_radians() }
    }
}

impl Kick {
    /// Whether this end is bent up at all.
    #[must_use]
    pub fn kicks(&self) -> bool {
        self.angle > 0.0
    }

    /// Distance of the end reference beyond the outer bolt row, mm: the bend line, or 0 where the end lies flat.
    #[must_use]
    pub fn reference(&self) -> f64 {
        if self.kicks() { self.bend_line } else { 0.0 }
    }

    /// Plan run and rise of the top face at a distance `s` mm along the surface beyond the bend line, mm.
    ///
    /// Arc R·θ with run R·sin θ and rise R·(1 − cos θ), then straight at θ (elementary geometry); `s` shorter than the
    /// arc ends inside the bend.
    #[must_use]
    pub fn run_and_rise(&self, s: f64) -> (f64, f64) {
        let turn = self.angle_at(s);
        let (sin, cos) = real::sincos(turn);
        let straight = (s - self.radius * self.angle).max(0.0);
        let run = self.radius * sin + straight * cos;
        (run, self.radius * (1.0 - cos) + straight * sin)
    }

    /// Angle of the surface at a distance `s` mm beyond the bend line, radians upward.
    #[must_use]
    pub fn angle_at(&self, s: f64) -> f64 {
        self.angle.min(s.max(0.0) / self.radius)
    }
}

impl Profile {
    /// The top face's centreline in the side view at developed station `x`: plan station and height, mm, and the
    /// surface's angle in radians (positive where it rises toward the nose).
    #[must_use]
    pub fn side(&self, datum: &Datum, x: f64) -> (Point, f64) {
        let (kick, sign) = self.kick_of(x);
        let bend = datum.outer_row() + kick.bend_line;
        let beyond = x.abs() - bend;
        if beyond <= 0.0 || !kick.kicks() {
            return (Point::new(x, 0.0), 0.0);
        }
        let (run, rise) = kick.run_and_rise(beyond);
        (Point::new(sign * (bend + run), rise), sign * kick.angle_at(beyond))
    }

    /// Depth of the concave at station `x`, mm, over the full concave width.
    ///
    /// Full between the trucks; fades to nothing at the bend lines with a smooth step, because a kick and a concave
    /// together cannot be developed. Where an end lies flat the concave runs through to it.
    #[must_use]
    pub fn concave_at(&self, datum: &Datum, x: f64) -> f64 {
        let (kick, _) = self.kick_of(x);
        if !kick.kicks() {
            return self.concave_depth;
        }
        let to_bend = datum.outer_row() + kick.bend_line - x.abs();
        if to_bend <= 0.0 {
            return 0.0;
        }
        if to_bend >= self.concave_fade {
            return self.concave_depth;
        }
        let u = to_bend / self.concave_fade;
        self.concave_depth * u * u * (3.0 - 2.0 * u)
    }

    /// Half-breadth seen from straight above, and height above the centre, of a point `y` mm from the centreline on
    /// the developed sheet at station `x`.
    ///
    /// The cross-section is a flat strip with arcs tangent to it, of radius (m² + c²)/(2c), m = (w − f)/2.
    #[must_use]
    pub fn across(&self, datum: &Datum, x: f64, y: f64) -> (f64, f64) {
        let depth = self.concave_at(datum, x);
        let (flat, m) = (self.flat_strip / 2.0, (self.concave_width - self.flat_strip) / 2.0);
        if depth <= 0.0 || y.abs() <= flat {
            return (y, 0.0);
        }
        let radius = (m * m + depth * depth) / (2.0 * depth);
        let turn = (y.abs() - flat) / radius;
        let (sin, cos) = real::sincos(turn);
        ((flat + radius * sin).copysign(y), radius * (1.0 - cos))
    }

    /// Slope of the cross-section of [`Profile::across`] at the same place, radians, positive where it rises with `y`.
    #[must_use]
    pub fn lean(&self, datum: &Datum, x: f64, y: f64) -> f64 {
        let depth = self.concave_at(datum, x);
        let (flat, m) = (self.flat_strip / 2.0, (self.concave_width - self.flat_strip) / 2.0);
        if depth <= 0.0 || y.abs() <= flat {
            return 0.0;
        }
        ((y.abs() - flat) * 2.0 * depth / (m * m + depth * depth)).copysign(y)
    }

    /// The kick at station `x`, and which way is outward there: +1 toward the nose, −1 toward the tail.
    fn kick_of(&self, x: f64) -> (&Kick, f64) {
        if x < 0.0 { (&self.tail, -1.0) } else { (&self.nose, 1.0) }
    }

    /// A point of the developed outline as seen from straight above, mm.
    #[must_use]
    pub fn plan(&self, datum: &Datum, p: Point) -> Point {
        Point::new(self.side(datum, p.x).0.x, self.across(datum, p.x, p.y).0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn demo() -> Profile {
        Profile {
            nose: Kick { angle: 21_f64.to_radians(), ..Kick::default() },
            tail: Kick::default(),
            concave_depth: 10.0,
            concave_width: 209.55,
            flat_strip: 0.0,
            concave_fade: 40.0,
        }
    }

    /// Worked figures of a kick of radius 76.2 mm at 20° with 80 mm of straight: elementary geometry by hand.
    #[test]
    fn a_kick_runs_and_rises_as_by_hand() {
        let kick = Kick { bend_line: 0.0, radius: 76.2, angle: 20_f64.to_radians() };
        let arc = kick.radius * kick.angle;
        assert!((arc - 26.599).abs() < 5e-4);
        let (run, rise) = kick.run_and_rise(arc + 80.0);
        assert!((run - 101.237).abs() < 5e-4, "{run}");
        assert!((rise - 31.957).abs() < 5e-4, "{rise}");
    }

    #[test]
    fn a_kick_shorter_than_its_bend_ends_inside_the_bend() {
        let kick = Kick::default();
        assert!((kick.angle_at(10.0) - 10.0 / 95.25).abs() < 1e-15);
    }

    #[test]
    fn the_concave_reaches_its_depth_at_its_straight_width() {
        let (datum, profile) = (Datum::default(), demo());
        let m: f64 = 104.775;
        let radius = (m * m + 100.0) / 20.0;
        let (y, z) = profile.across(&datum, 0.0, radius * real::asin(m / radius));
        assert!((y - m).abs() < 1e-9 && (z - 10.0).abs() < 1e-9, "{y} {z}");
    }

    #[test]
    fn the_concave_is_gone_at_the_bend_line_and_stays_at_a_flat_end() {
        let (datum, mut profile) = (Datum::default(), demo());
        let bend = datum.outer_row() + profile.nose.bend_line;
        assert_eq!(profile.concave_at(&datum, bend), 0.0);
        profile.nose.angle = 0.0;
        assert_eq!(profile.concave_at(&datum, bend), 10.0);
    }
}
