//! A move of the plane with one amount, and its derivative.

use super::blend::Blend;
use kurbo::{Point, Vec2};

/// A family of moves of the plane, one for each amount. An amount is in mm of edge moved; 0 moves nothing.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Flow {
    /// Stations slide: x′ = x + amount × the sum of the parts, each in its own direction.
    Along(Vec<Part>),
    /// Half-breadths scale: y′ = y·(1 + amount / `at` × the sum of the parts).
    Across {
        /// Where and how strongly.
        parts: Vec<Part>,
        /// The half-breadth that moves by the amount itself, mm.
        at: f64,
    },
}

/// Where a flow acts and how strongly, seen along one direction.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Part {
    /// +1 where stations count toward the nose, −1 where they count toward the tail.
    pub(super) sign: f64,
    /// How strongly.
    pub(super) weight: Weight,
}

/// A weight that depends on the place.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Weight {
    /// 1 everywhere.
    Whole,
    /// A function of the station.
    Stations(Blend),
    /// A function of the half-breadth beyond a station: at the tip the scale, at the shoulder none.
    Tip {
        /// The station, outward, mm.
        beyond: f64,
        /// Half-breadth of the shoulder, mm.
        shoulder: f64,
        /// The weight at the tip.
        scale: f64,
    },
}

/// Where a place goes and where its neighbourhood turns: the image of the point and of the unit vectors.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Image {
    pub(super) place: Point,
    x: Vec2,
    y: Vec2,
}

impl Image {
    /// The image of a place that stays.
    pub(super) const fn resting(place: Point) -> Self {
        Self { place, x: Vec2::new(1.0, 0.0), y: Vec2::new(0.0, 1.0) }
    }

    /// The image of `p` under several moves by their amounts. They add up, each taken where `p` was, so that their order
    /// does not matter and a node at which one begins stays at its beginning.
    pub(super) fn of(p: Point, flows: &[(&Flow, f64)]) -> Self {
        let mut image = Self::resting(p);
        for (flow, amount) in flows {
            match flow {
                Flow::Along(parts) => {
                    for part in parts {
                        let (weight, slope) = part.at(p);
                        let by = amount * part.sign;
                        image.place.x += by * weight;
                        image.x.x += by * slope.x;
                        image.y.x += by * slope.y;
                    }
                }
                Flow::Across { parts, at } => {
                    for part in parts {
                        let (weight, slope) = part.at(p);
                        let share = amount / at;
                        image.place.y += p.y * share * weight;
                        image.x.y += p.y * share * slope.x;
                        image.y.y += share * (weight + p.y * slope.y);
                    }
                }
            }
        }
        image
    }

    /// The image of a vector at the place.
    pub(super) fn turn(&self, v: Vec2) -> Vec2 {
        self.x * v.x + self.y * v.y
    }

    /// Whether the neighbourhood is folded over.
    pub(super) fn folds(&self) -> bool {
        // Squeezed to less than a twentieth it would be a cusp in all but name.
        self.x.cross(self.y) < 0.05
    }
}

impl Part {
    /// The weight at `p` and its gradient.
    fn at(&self, p: Point) -> (f64, Vec2) {
        let x = self.sign * p.x;
        match &self.weight {
            Weight::Whole => (1.0, Vec2::ZERO),
            Weight::Stations(blend) => {
                let (value, slope) = blend.at(x);
                (value, Vec2::new(self.sign * slope, 0.0))
            }
            Weight::Tip { beyond, shoulder, scale } => {
                let s = (p.y / shoulder).max(0.0);
                if x < *beyond || s >= 1.0 {
                    return (0.0, Vec2::ZERO);
                }
                // The step that is level with its first two derivatives at both ends.
                let fade = 1.0 - s * s * s * (10.0 - s * (15.0 - 6.0 * s));
                let slope = -30.0 * s * s * (1.0 - s) * (1.0 - s) / shoulder;
                (scale * fade, Vec2::new(0.0, scale * slope))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{super::blend::Knot, *};

    #[test]
    fn the_image_of_a_vector_is_the_derivative_of_the_image_of_a_place() {
        let blend = Blend::through([Knot::level(100.0, 0.0), Knot::level(200.0, 1.0)]);
        let stations = Part { sign: -1.0, weight: Weight::Stations(blend) };
        let tip = Part { sign: -1.0, weight: Weight::Tip { beyond: 120.0, shoulder: 80.0, scale: -0.5 } };
        let along = Flow::Along(vec![stations.clone()]);
        let across = Flow::Across { parts: vec![stations, tip], at: 90.0 };
        let p = Point::new(-140.0, 50.0);
        let flows = [(&along, 7.0), (&across, -4.0)];
        let carry = |p: Point| Image::of(p, &flows);
        for v in [Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0)] {
            let step = 1e-5;
            let slope = (carry(p + v * step).place - carry(p - v * step).place) / (2.0 * step);
            assert!((slope - carry(p).turn(v)).hypot() < 1e-8, "{slope:?}");
        }
    }
}
