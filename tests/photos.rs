//! Photographs of decks that are not there: a pressed shape seen by a known camera, filled in line by line.
//!
//! The picture is of the deck with its thickness: its wall, with both corners rounded, is seen wherever it stands out from under
//! the top face. It is rendered with none of the core's photograph code: its own pinhole, its own radial distortion, its own
//! wall, exact coverage of pixels along eight lines each.

#![expect(clippy::cast_possible_truncation, reason = "pixels: a few thousand a side, and 256 levels")]

use crate::random::Random;
use halfbreadth_core::{
    capture::photo::{Body, Picture},
    design::Shape,
    real,
};
use kurbo::{ParamCurve, Point};

/// A camera that looks at a place of the deck.
#[derive(Clone, Debug)]
pub struct Shot {
    /// Pixels.
    pub width: usize,
    /// Pixels.
    pub height: usize,
    /// Focal length as a share of the width.
    pub focal: f64,
    /// Distance of the lens from the place it looks at, mm.
    pub distance: f64,
    /// Tilt from straight down, degrees.
    pub tilt: f64,
    /// The way in which it is tilted, degrees from the nose.
    pub toward: f64,
    /// Turn of the picture, degrees.
    pub roll: f64,
    /// The place in the middle of the picture, mm.
    pub aim: (f64, f64),
    /// Radial distortion: a place at `r` half widths from the middle moves outward by `distortion · r²` of its distance.
    pub distortion: f64,
    /// Standard deviation of the blur, pixels.
    pub blur: f64,
    /// Standard deviation of the noise, of 255.
    pub noise: f64,
    /// Colours of deck and ground.
    pub colours: [[f64; 3]; 2],
    /// How bright the wall is beside the top face, as a share.
    pub wall: f64,
    /// Thickness of the deck, mm.
    pub thickness: f64,
    /// Radius of its edge's corners, mm.
    pub round_over: f64,
}

impl Default for Shot {
    /// A telephone held at arm's length over a maple deck on a dark floor.
    fn default() -> Self {
        Self {
            width: 2000,
            height: 1500,
            focal: 0.75,
            distance: 900.0,
            tilt: 0.0,
            toward: 0.0,
            roll: 0.0,
            aim: (0.0, 0.0),
            distortion: 0.0,
            blur: 0.8,
            noise: 3.0,
            colours: [[205.0, 170.0, 120.0], [52.0, 56.0, 60.0]],
            wall: 0.8,
            thickness: 11.0,
            round_over: 3.2,
        }
    }
}

/// A rendered photograph.
#[derive(Clone, Debug)]
pub struct Photo {
    /// Pixels.
    pub width: usize,
    /// Pixels.
    pub height: usize,
    /// Red, green, blue and 255, row by row.
    pub pixels: Vec<u8>,
    /// Where the centres of the eight holes are, pixels, in the datum's order.
    pub holes: Vec<Point>,
    /// Height of the lens above the deck, mm.
    pub lens: f64,
}

type Space = [f64; 3];

impl Shot {
    fn axes(&self) -> ([Space; 3], Space) {
        let (tilt, toward, roll) = (self.tilt.to_radians(), self.toward.to_radians(), self.roll.to_radians());
        let back =
            [real::sin(tilt) * real::cos(toward), real::sin(tilt) * real::sin(toward), real::cos(tilt)];
        let lens = [
            self.aim.0 + self.distance * back[0],
            self.aim.1 + self.distance * back[1],
            self.distance * back[2],
        ];
        let forward = back.map(|b| -b);
        // To the right is what lies toward the nose, square to the view.
        let dot = forward[0];
        let right = [1.0 - dot * forward[0], -dot * forward[1], -dot * forward[2]];
        let size = right.iter().map(|r| r * r).sum::<f64>().sqrt();
        let right = right.map(|r| r / size);
        let cross = |a: Space, b: Space| {
            [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
        };
        let down = cross(forward, right);
        let turned = |c: f64, s: f64| core::array::from_fn(|i| c * right[i] + s * down[i]);
        ([turned(real::cos(roll), real::sin(roll)), turned(-real::sin(roll), real::cos(roll)), forward], lens)
    }

    /// Where a place in space shows, pixels.
    #[must_use]
    pub fn sees(&self, place: Space) -> Point {
        let (axes, lens) = self.axes();
        let [x, y, z] = axes.map(|axis: Space| (0..3).map(|i| axis[i] * (place[i] - lens[i])).sum::<f64>());
        let half = self.width as f64 / 2.0;
        let (u, v) = (self.focal * 2.0 * x / z, self.focal * 2.0 * y / z);
        let out = half * (1.0 + self.distortion * (u * u + v * v));
        Point::new(half + out * u, self.height as f64 / 2.0 + out * v)
    }

    /// Takes the picture.
    #[must_use]
    pub fn take(&self, shape: &Shape, random: &mut Random) -> Photo {
        let seen = |p: Point| self.sees(on_top(shape, p));
        let half: Vec<Point> = edge(shape, 0.2);
        let mut around = half.clone();
        around.extend(half.iter().rev().skip(1).map(|p| Point::new(p.x, -p.y)));
        around.dedup_by(|next, place| (*next - *place).hypot() < 1e-9);
        around.pop(); // where it began
        // Rings along the edge's own section, from the rim of the top face to that of the bottom.
        let rings: Vec<Vec<Point>> = self
            .section()
            .iter()
            .map(|(inward, below)| {
                let at = |i: usize| self.sees(self.on_wall(shape, &around, i, *inward, *below));
                (0..around.len()).map(at).collect()
            })
            .collect();
        let mut all: Vec<Vec<Point>> = vec![rings[0].clone()];
        for pair in rings.windows(2) {
            for i in 0..around.len() {
                let next = (i + 1) % around.len();
                all.push(vec![pair[0][i], pair[0][next], pair[1][next], pair[1][i]]);
            }
        }
        let mut is_deck = vec![0.0_f32; self.width * self.height];
        self.fill(&mut is_deck, &all);
        let mut is_top = vec![0.0_f32; self.width * self.height];
        self.fill(&mut is_top, &rings[..1]);
        let mut is_hole = vec![0.0_f32; self.width * self.height];
        let holes: Vec<Point> = shape.datum.holes().to_vec();
        for hole in &holes {
            let around = |i: u32| {
                let angle = f64::from(i) / 48.0 * core::f64::consts::TAU;
                let r = shape.datum.hole_diameter / 2.0;
                seen(Point::new(hole.x + r * real::cos(angle), hole.y + r * real::sin(angle)))
            };
            self.fill(&mut is_hole, &[(0..48).map(around).collect::<Vec<_>>()]);
        }
        for layer in [&mut is_deck, &mut is_top, &mut is_hole] {
            blur(layer, self.width, self.height, self.blur);
        }
        let mut pixels = Vec::with_capacity(4 * is_deck.len());
        for ((deck, top), hole) in is_deck.iter().zip(&is_top).zip(&is_hole) {
            let [deck, top, hole] = [*deck, *top, *hole].map(f64::from);
            for k in 0..3 {
                let [on, off] = self.colours.map(|colour| colour[k]);
                let wall = (deck - top).max(0.0);
                let value = (off * (1.0 - deck) + on * (top + self.wall * wall)) * (1.0 - hole) + 20.0 * hole;
                // The sum of four even numbers is near enough to normal noise.
                let noise: f64 = (0..4).map(|_| random.unit() - 0.5).sum::<f64>() * 3.0_f64.sqrt();
                pixels.push(byte(value + self.noise * noise));
            }
            pixels.push(255);
        }
        let lens = self.axes().1[2];
        Photo {
            width: self.width,
            height: self.height,
            pixels,
            holes: holes.iter().map(|h| seen(*h)).collect(),
            lens,
        }
    }

    /// The edge's section: how far inward of the outline, and how far below the top face, mm.
    fn section(&self) -> Vec<(f64, f64)> {
        const STEPS: u32 = 6;
        let (r, t) = (self.round_over, self.thickness);
        if t <= 0.0 {
            return vec![(0.0, 0.0)];
        }
        if r <= 0.0 {
            return vec![(0.0, 0.0), (0.0, t)];
        }
        let arc = |i: u32| {
            let angle = f64::from(i) / f64::from(STEPS) * core::f64::consts::FRAC_PI_2;
            (r * (1.0 - real::sin(angle)), r * (1.0 - real::cos(angle)))
        };
        let upper: Vec<(f64, f64)> = (0..=STEPS).map(arc).collect();
        let lower = upper.iter().rev().map(|(inward, below)| (*inward, t - below));
        upper.iter().copied().chain(lower).collect()
    }

    /// A place of the wall beside place `i` of the outline.
    fn on_wall(&self, shape: &Shape, around: &[Point], i: usize, inward: f64, below: f64) -> Space {
        const NEAR: f64 = 0.01;
        let count = around.len();
        let (here, along) = (around[i], around[(i + 1) % count] - around[(i + count - 1) % count]);
        let out = kurbo::Vec2::new(-along.y, along.x) / along.hypot();
        let slope = |way: kurbo::Vec2| -> Space {
            let (a, b) = (on_top(shape, here + NEAR * way), on_top(shape, here - NEAR * way));
            core::array::from_fn(|k| (a[k] - b[k]) / (2.0 * NEAR))
        };
        let (x, y) = (slope(kurbo::Vec2::new(1.0, 0.0)), slope(kurbo::Vec2::new(0.0, 1.0)));
        let up = [x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0]];
        let size = up.iter().map(|u| u * u).sum::<f64>().sqrt();
        let top = on_top(shape, here);
        core::array::from_fn(|k| top[k] - inward * (out.x * x[k] + out.y * y[k]) - below * up[k] / size)
    }

    /// Fills polygons: each pixel by how much of it any of them covers, along eight lines.
    fn fill(&self, layer: &mut [f32], polygons: &[Vec<Point>]) {
        const LINES: usize = 8;
        let mut covered: Vec<Vec<(f64, f64)>> = vec![Vec::new(); self.height * LINES];
        let line = |y: f64| y * LINES as f64 - 0.5;
        let bounded = |y: f64| (line(y).ceil().max(0.0) as usize).min(self.height * LINES);
        for polygon in polygons {
            let top = polygon.iter().fold(f64::INFINITY, |top, p| top.min(p.y));
            let bottom = polygon.iter().fold(f64::NEG_INFINITY, |bottom, p| bottom.max(p.y));
            let first = bounded(top);
            let mut crossings: Vec<Vec<f64>> = vec![Vec::new(); bounded(bottom).saturating_sub(first)];
            for (i, a) in polygon.iter().enumerate() {
                let b = polygon[(i + 1) % polygon.len()];
                let (top, bottom) = if a.y < b.y { (*a, b) } else { (b, *a) };
                for k in bounded(top.y)..bounded(bottom.y) {
                    let y = (k as f64 + 0.5) / LINES as f64;
                    let x = top.x + (bottom.x - top.x) * (y - top.y) / (bottom.y - top.y);
                    crossings[k - first].push(x);
                }
            }
            for (k, line) in crossings.iter_mut().enumerate() {
                line.sort_by(f64::total_cmp);
                covered[first + k].extend(line.chunks_exact(2).map(|pair| (pair[0], pair[1])));
            }
        }
        for (k, line) in covered.iter_mut().enumerate() {
            line.sort_by(|a, b| a.0.total_cmp(&b.0));
            let row = &mut layer[k / LINES * self.width..][..self.width];
            let mut reached = 0.0_f64;
            for (from, to) in line {
                let (from, to) = (from.max(reached), to.min(self.width as f64));
                if to <= from {
                    continue;
                }
                reached = to;
                for (column, pixel) in
                    row.iter_mut().enumerate().take(to.ceil() as usize).skip(from.floor() as usize)
                {
                    let share = (to.min(column as f64 + 1.0) - from.max(column as f64)).max(0.0);
                    *pixel += share as f32 / LINES as f32;
                }
            }
        }
    }
}

/// The deck of a shape as thick and as round as [`Shot::default`] renders it.
#[must_use]
pub fn body(shape: &Shape) -> Body<'_> {
    let Shot { thickness, round_over, .. } = Shot::default();
    Body { shape, thickness, round_over }
}

/// A place of the developed sheet on the pressed deck's top face.
fn on_top(shape: &Shape, p: Point) -> Space {
    let (side, _) = shape.profile.side(&shape.datum, p.x);
    let (y, z) = shape.profile.across(&shape.datum, p.x, p.y);
    [side.x, y, side.y + z]
}

impl Photo {
    /// As the core takes it.
    ///
    /// # Panics
    ///
    /// Where it is smaller or larger than a picture may be.
    #[must_use]
    pub fn picture(&self) -> Picture<'_> {
        Picture::new(self.width, self.height, &self.pixels).expect("it is of a usual size")
    }
}

/// Places along the half outline, tail to nose, so many mm apart at the most.
#[must_use]
pub fn edge(shape: &Shape, step: f64) -> Vec<Point> {
    let half = shape.outline.resolve();
    let mut places = vec![half.pieces()[0].curve.p0];
    for piece in half.pieces() {
        let c = piece.curve;
        let length = (c.p1 - c.p0).hypot() + (c.p2 - c.p1).hypot() + (c.p3 - c.p2).hypot();
        let count = (length / step).ceil().max(1.0) as usize;
        places.extend((1..=count).map(|i| c.eval(i as f64 / count as f64)));
    }
    places
}

/// Blurs by a bell curve, along the rows and down the columns.
fn blur(layer: &mut [f32], width: usize, height: usize, sigma: f64) {
    if sigma <= 0.0 {
        return;
    }
    let reach = (3.0 * sigma).ceil() as usize;
    let bell: Vec<f32> = (0..=2 * reach)
        .map(|i| real::exp(-(i as f64 - reach as f64).powi(2) / (2.0 * sigma * sigma)) as f32)
        .collect();
    let sum: f32 = bell.iter().sum();
    for (count, length, step, stride) in [(height, width, 1, width), (width, height, width, 1)] {
        for line in 0..count {
            let at = |i: usize| line * stride + i * step;
            let old: Vec<f32> = (0..length).map(|i| layer[at(i)]).collect();
            for i in 0..length {
                let near = |k: usize| old[(i + k).saturating_sub(reach).min(length - 1)];
                layer[at(i)] = bell.iter().enumerate().map(|(k, b)| b * near(k)).sum::<f32>() / sum;
            }
        }
    }
}

fn byte(value: f64) -> u8 {
    value.round().clamp(0.0, 255.0) as u8
}
