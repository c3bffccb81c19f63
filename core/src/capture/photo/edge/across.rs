//! The picture across the deck's edge: where the step from deck to ground is half done.

use crate::{
    capture::photo::{Picture, Seen, picture::Colour},
    real,
};
use kurbo::{Point, Vec2};

/// What is looked at closely to each side of the step from deck to ground, mm, the part of it beside the step that is not taken
/// for what is deck and ground, and the samples in both together and in such a part.
const WINDOW: f64 = 3.0;
const MIDDLE: f64 = 1.5;
const SAMPLES: usize = 61;
const EACH: usize = 16;
/// From this breadth on, mm, a band between top face and ground is deck enough; below the window it is not at all.
const BROAD: f64 = 5.0;

/// The picture across the edge of an outline.
pub(super) struct Across {
    /// Where the edge shows, and a mm outward along the normal there, pixels.
    brim: Point,
    outward: Vec2,
    /// How broad the band between the rim of the top face and the ground shows, mm: the wall, and what is rounded.
    band: f64,
}

impl Across {
    pub(super) fn of(at: Point, normal: Vec2, seen: &Seen<'_>) -> Self {
        let toward = |way: Vec2| (seen.at(at + way) - seen.at(at - way)) / 2.0;
        let (along, outward) = (toward(normal.turn_90()), toward(normal));
        let (brim, rim) = (seen.brim(at, normal), seen.at(at - normal * seen.body.round_over));
        Self { brim, outward, band: along.cross(brim - rim) / along.cross(outward) }
    }

    /// The mean colour between two distances outward of the edge, mm; `None` beyond the picture.
    fn mean(&self, picture: &Picture<'_>, from: f64, to: f64) -> Option<Colour> {
        let mut sum = [0.0; 3];
        for i in 0..EACH {
            let t = from + (to - from) * (i as f64 + 0.5) / EACH as f64;
            let colour = picture.colour(self.brim + self.outward * t)?;
            sum.iter_mut().zip(colour).for_each(|(sum, colour)| *sum += colour / EACH as f64);
        }
        Some(sum)
    }

    /// How far outward of the edge the step from deck to ground is half done, mm; `None` without a clear step.
    ///
    /// The area under the step has the half-way place whatever the blur. A broad band is deck enough to see the step from; a
    /// narrow one takes from that area what it is darker, as a `share` of what the top face differs from the ground; between
    /// the two the one passes into the other.
    pub(super) fn step(&self, picture: &Picture<'_>, share: f64, clear: f64) -> Option<f64> {
        let broad = real::clamp((self.band - WINDOW) / (BROAD - WINDOW), 0.0, 1.0);
        let mut step = 0.0;
        for (weight, band) in [(1.0 - broad, self.band.max(0.0)), (broad, 0.0)] {
            if weight > 0.0 {
                step += weight * (self.half_way(picture, band, clear)? + (1.0 - share) * band);
            }
        }
        Some(step)
    }

    /// Where a step to the ground is half done that has a band of so many mm on its way.
    fn half_way(&self, picture: &Picture<'_>, band: f64, clear: f64) -> Option<f64> {
        let length = band + 2.0 * WINDOW;
        let deck = self.mean(picture, WINDOW - length, -band - MIDDLE)?;
        let ground = self.mean(picture, MIDDLE, WINDOW)?;
        let mut area = 0.0;
        for i in 0..SAMPLES {
            let t = WINDOW - length * (i as f64 + 0.5) / SAMPLES as f64;
            let colour = picture.colour(self.brim + self.outward * t)?;
            area += real::clamp(part(&colour, &deck, &ground), -0.3, 1.3) / SAMPLES as f64;
        }
        let is_clear = difference(&deck, &ground) >= clear;
        is_clear.then_some(length * (area - 1.0) + WINDOW)
    }

    /// How much a broad band differs from the ground, as a share of what the top face beside it does.
    pub(super) fn share(&self, picture: &Picture<'_>, clear: f64) -> Option<f64> {
        if self.band < WINDOW {
            return None;
        }
        let top = self.mean(picture, -self.band - WINDOW, -self.band - MIDDLE)?;
        let ground = self.mean(picture, MIDDLE, WINDOW)?;
        let band = self.mean(picture, MIDDLE / 2.0 - self.band, -MIDDLE)?;
        (difference(&top, &ground) >= clear).then(|| part(&band, &top, &ground))
    }
}

/// Which part of the way from one colour to another a colour lies.
fn part(colour: &Colour, to: &Colour, from: &Colour) -> f64 {
    let (mut along, mut square) = (0.0, 0.0);
    for k in 0..3 {
        along += (colour[k] - from[k]) * (to[k] - from[k]);
        square += (to[k] - from[k]) * (to[k] - from[k]);
    }
    along / square
}

/// How far two colours lie apart.
pub(super) fn difference(a: &Colour, b: &Colour) -> f64 {
    (0..3).map(|k| (a[k] - b[k]) * (a[k] - b[k])).sum::<f64>().sqrt()
}
