//! How the pressed deck stands before the eye: two angles, and the picture's axes that follow.

use super::Spot;
use crate::{language::said, real, say};
use core::f64::consts::{FRAC_PI_2, PI, TAU};
use kurbo::{Point, Vec2};

/// Two angles. The eye is far away: lines that are parallel on the deck are so in the picture, and lengths along the board can
/// be compared.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// About the upright axis, radians in −π..=π; 0 shows the right rail with the nose to the right, more turns the nose
    /// toward the eye.
    pub turn: f64,
    /// How high the eye is above the flat, radians from −π/2 (straight below) to π/2 (straight above).
    pub tilt: f64,
}

/// One of the two.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// About the upright axis.
    Turn,
    /// Up and down.
    Tilt,
}

impl Default for Stand {
    /// From before the nose, a little above.
    fn default() -> Self {
        Self { turn: 40_f64.to_radians(), tilt: 24_f64.to_radians() }
    }
}

/// Turn for a CSS pixel of a finger's way, radians: half a turn for a hand's width on a telephone.
const PER_PX: f64 = PI / 360.0;

impl Stand {
    /// Straight from above, nose to the right, as the outline is drawn.
    pub const ABOVE: Self = Self { turn: 0.0, tilt: FRAC_PI_2 };

    /// From the right rail, nose to the right: the side view.
    pub const SIDE: Self = Self { turn: 0.0, tilt: 0.0 };

    /// With one of the angles set, radians: a turn goes round, a tilt stops at its limits. What is no number changes nothing.
    #[must_use]
    pub fn with(self, which: Turn, angle: f64) -> Self {
        if !angle.is_finite() {
            return self;
        }
        match which {
            Turn::Turn if angle.abs() <= PI => Self { turn: angle, ..self },
            Turn::Turn => Self { turn: angle - TAU * ((angle + PI) / TAU).floor(), ..self },
            Turn::Tilt => Self { tilt: real::clamp(angle, -FRAC_PI_2, FRAC_PI_2), ..self },
        }
    }

    /// Turned by a finger that went so many CSS pixels right and down: the nearest part of the deck goes with it.
    #[must_use]
    pub fn dragged(self, px: Vec2) -> Self {
        self.with(Turn::Turn, self.turn - px.x * PER_PX).with(Turn::Tilt, self.tilt + px.y * PER_PX)
    }

    /// The picture's axes: right, up, and toward the eye.
    #[must_use]
    pub fn axes(self) -> [Spot; 3] {
        let ((sin, cos), (high, level)) = (real::sincos(self.turn), real::sincos(self.tilt));
        [
            Spot::new(cos, sin, 0.0),
            Spot::new(-sin * high, cos * high, level),
            Spot::new(sin * level, -cos * level, high),
        ]
    }

    /// Where a place shows, mm right and up from the origin.
    #[must_use]
    pub fn shows(self, spot: Spot) -> Point {
        let [right, up, _] = self.axes();
        Point::new(spot.dot(right), spot.dot(up))
    }

    /// From where the deck is seen, in words.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "whole degrees and eighths of a turn")]
    pub fn words(self) -> String {
        let tilt = self.tilt.to_degrees().round() as i32;
        let height = match tilt {
            90 => return said("Seen from straight above").to_owned(),
            -90 => return said("Seen from straight below").to_owned(),
            0 => "level".to_owned(),
            1.. => say!("{tilt}° from above", tilt),
            _ => say!("{tilt}° from below", tilt = -tilt),
        };
        let eighth = ((self.turn / TAU * 8.0).round() as i32).rem_euclid(8) as usize;
        // At 0 the eye looks at the right rail; turning on, the eye walks round toward the nose.
        let place = [
            "the right rail",
            "the right rail and the nose",
            "the nose",
            "the left rail and the nose",
            "the left rail",
            "the left rail and the tail",
            "the tail",
            "the right rail and the tail",
        ][eighth];
        say!("Seen from {place}, {height}", place, height)
    }
}
