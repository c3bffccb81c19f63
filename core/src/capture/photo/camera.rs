//! The camera, and where it sees every place of the developed sheet.

use super::{Body, Clicked, PhotoError, homography::HomographyError};
use crate::{curve::least_squares::LeastSquares, real, solid::Spot};
use kurbo::{Point, Vec2};

/// A point or a direction in space: x to the nose, y to the left rail, z up from the flat of the deck, mm.
type Space = [f64; 3];

/// A camera with square pixels that looks through the middle of its picture, bending straight lines a little.
///
/// A ray at tangent `t` off the axis shows at `f·t·(1 + k·r²)` pixels from the middle, `r` in half long sides of the picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    /// Rows: the camera's right, down and forward, in the deck's directions.
    turn: [Space; 3],
    /// The deck's origin as the camera has it, mm.
    shift: Space,
    /// Focal length, pixels.
    focal: f64,
    /// How much the lens bends straight lines.
    bend: f64,
    middle: Point,
    half: f64,
}

/// How the camera stood, as far as the holes tell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sight {
    /// Height of the lens above the deck, mm.
    pub height: f64,
    /// How far that may be off, mm: a standard deviation.
    pub height_off: f64,
    /// How far the camera was tilted from straight down, radians.
    pub tilt: f64,
    /// How far the lens moves a place at the ends of the picture's long side, as a share of half of it; outward positive.
    pub bend: f64,
}

/// A telephone's main lens: its focal length as a share of the long side of the picture, and how far others lie from it, as a
/// logarithm (common practice, no source: 24 to 30 mm on 36).
const USUAL_FOCAL: f64 = 0.75;
const FOCAL_SPREAD: f64 = 0.25;
/// How much a lens bends straight lines after the camera's own correction: one part in a hundred (common practice, no source).
const BEND_SPREAD: f64 = 0.01;
/// How far a refined click lies from its hole: pixels, and as a share of the long side. The drill wanders too.
const CLICK: f64 = 0.2;
const CLICK_SHARE: f64 = 1e-4;
/// How well a typed height is measured, as a share of it: to the lens, which is somewhere in the telephone.
const HEIGHT_SPREAD: f64 = 0.005;
/// Rounds of the search; seven are usual.
const ROUNDS: usize = 40;
const HALVINGS: usize = 8;
/// Nudge of an unknown that shows its part, of its own scale: halfway between rounding and bending, in digits.
const NUDGE: f64 = 1e-6;
/// Turn (3), shift (3), focal length, bend.
const UNKNOWNS: usize = 8;

/// What the camera is found from.
struct Found<'a> {
    places: &'a [Space],
    clicks: &'a [Point],
    /// Deviation of a click, pixels.
    off: f64,
    usual_focal: f64,
    height: Option<f64>,
}

impl Camera {
    /// The camera that took the picture of that size, in which the holes were clicked, and how it stood. `height` is that of
    /// the lens above the deck, mm, where it was measured: seen from straight above the picture cannot tell it.
    ///
    /// # Errors
    ///
    /// [`PhotoError::Projection`] where no camera sees the holes so.
    pub fn find(
        clicked: &Clicked,
        clicks: &[Point],
        body: &Body<'_>,
        (width, height_px): (usize, usize),
        height: Option<f64>,
    ) -> Result<(Self, Sight), PhotoError> {
        let long = width.max(height_px) as f64;
        let middle = Point::new(width as f64 / 2.0, height_px as f64 / 2.0);
        let holes = body.shape.datum.holes();
        let places: Vec<Space> = clicked.holes.iter().map(|&hole| space(body.at(holes[hole]))).collect();
        let off = CLICK + CLICK_SHARE * long;
        let found = Found { places: &places, clicks, off, usual_focal: USUAL_FOCAL * long, height };
        let mut best: Option<(f64, Self)> = None;
        for focal in [Some(found.usual_focal), focal_of(clicked, middle)].into_iter().flatten() {
            let start = Self::from_plane(clicked, focal, middle, long / 2.0);
            if let Some((error, camera)) = start.and_then(|start| found.search(start))
                && best.is_none_or(|(least, _)| error < least)
            {
                best = Some((error, camera));
            }
        }
        let (_, camera) = best.ok_or(HomographyError::None)?;
        let sight = found.sight(&camera).ok_or(HomographyError::None)?;
        Ok((camera, sight))
    }

    /// A camera of that focal length, px, as the projection of the holes' plane has it: nearly right angles made right.
    fn from_plane(clicked: &Clicked, focal: f64, middle: Point, half: f64) -> Option<Self> {
        let rows = clicked.projection.rows();
        let column = |j: usize| -> Space {
            let w = rows[2][j];
            [(rows[0][j] - middle.x * w) / focal, (rows[1][j] - middle.y * w) / focal, w]
        };
        let [a, b, c] = [column(0), column(1), column(2)];
        // The deck lies in front of the camera.
        let scale = (2.0 / (length(a) + length(b))).copysign(c[2]);
        let x = unit(times(a, scale))?;
        let y = times(b, scale);
        let y = unit(minus(y, times(x, dot(x, y))))?;
        let z = cross(x, y);
        let turn = core::array::from_fn(|i| [x[i], y[i], z[i]]);
        let camera = Self { turn, shift: times(c, scale), focal, bend: 0.0, middle, half };
        (camera.height() > 0.0).then_some(camera)
    }

    /// Where a place in space shows, pixels; not finite beside the camera.
    fn sees(&self, place: Space) -> Point {
        let [x, y, z] = core::array::from_fn(|i| dot(self.turn[i], place) + self.shift[i]);
        let off = Vec2::new(x, y) * (self.focal / z);
        self.middle + off * (1.0 + self.bend * off.hypot2() / (self.half * self.half))
    }

    /// Where the lens is.
    fn centre(&self) -> Space {
        core::array::from_fn(|j| -(0..3).map(|i| self.turn[i][j] * self.shift[i]).sum::<f64>())
    }

    fn height(&self) -> f64 {
        self.centre()[2]
    }

    /// The camera after small changes of its unknowns: turns in radians, shifts as shares of the distance, the logarithm of
    /// the focal length, the bend.
    fn moved(&self, by: &[f64]) -> Self {
        let far = length(self.shift);
        let turn = turned([by[0], by[1], by[2]]);
        let rotated = |v: Space| -> Space { core::array::from_fn(|i| dot(turn[i], v)) };
        let columns: [Space; 3] =
            core::array::from_fn(|j| rotated(core::array::from_fn(|i| self.turn[i][j])));
        Self {
            turn: core::array::from_fn(|i| core::array::from_fn(|j| columns[j][i])),
            shift: core::array::from_fn(|i| self.shift[i] + by[3 + i] * far),
            focal: self.focal * real::exp(by[6]),
            bend: self.bend + by[7],
            ..*self
        }
    }
}

impl Found<'_> {
    /// What is off, each in its own deviations: the clicks, what is usual of lenses, the height if it was measured.
    fn misses(&self, camera: &Camera) -> Vec<f64> {
        let mut misses = Vec::with_capacity(2 * self.clicks.len() + 3);
        for (place, click) in self.places.iter().zip(self.clicks) {
            let miss = (camera.sees(*place) - *click) / self.off;
            misses.push(miss.x);
            misses.push(miss.y);
        }
        misses.push(real::ln(camera.focal / self.usual_focal) / FOCAL_SPREAD);
        misses.push(camera.bend / BEND_SPREAD);
        if let Some(height) = self.height {
            misses.push((camera.height() - height) / (HEIGHT_SPREAD * height));
        }
        misses
    }

    /// The least-squares system round a camera.
    fn system(&self, camera: &Camera, misses: &[f64]) -> LeastSquares {
        let nudged: Vec<Vec<f64>> = (0..UNKNOWNS)
            .map(|unknown| {
                let mut by = [0.0; UNKNOWNS];
                by[unknown] = NUDGE;
                self.misses(&camera.moved(&by))
            })
            .collect();
        let mut squares = LeastSquares::new(UNKNOWNS, 1e-9);
        for (i, miss) in misses.iter().enumerate() {
            let row: [f64; UNKNOWNS] = core::array::from_fn(|k| (nudged[k][i] - miss) / NUDGE);
            squares.add(&row, -miss, 1.0);
        }
        squares
    }

    /// Gauss–Newton with steps halved until they gain.
    fn search(&self, mut camera: Camera) -> Option<(f64, Camera)> {
        let sum = |misses: &[f64]| misses.iter().map(|miss| miss * miss).sum::<f64>();
        let mut misses = self.misses(&camera);
        let mut error = sum(&misses);
        for _ in 0..ROUNDS {
            let mut step = self.system(&camera, &misses).solve()?;
            let before = error;
            for _ in 0..HALVINGS {
                let next = camera.moved(&step);
                let missed = self.misses(&next);
                if sum(&missed) < error {
                    (camera, error, misses) = (next, sum(&missed), missed);
                    break;
                }
                step.iter_mut().for_each(|step| *step /= 2.0);
            }
            if before - error <= 1e-9 * before {
                break;
            }
        }
        (error.is_finite() && camera.height() > 0.0).then_some((error, camera))
    }

    fn sight(&self, camera: &Camera) -> Option<Sight> {
        let height = camera.height();
        let uphill: [f64; UNKNOWNS] = core::array::from_fn(|unknown| {
            let mut by = [0.0; UNKNOWNS];
            by[unknown] = NUDGE;
            (camera.moved(&by).height() - height) / NUDGE
        });
        let height_off = self.system(camera, &self.misses(camera)).deviation(&uphill)?;
        let tilt = real::acos(real::clamp(-camera.turn[2][2], -1.0, 1.0));
        Some(Sight { height, height_off, tilt, bend: camera.bend })
    }
}

/// The focal length, px, for which the deck's axes come out square and of one scale; `None` where the picture, taken from
/// nearly straight above, does not tell (Z. Zhang, *A flexible new technique for camera calibration*, 2000).
fn focal_of(clicked: &Clicked, middle: Point) -> Option<f64> {
    let rows = clicked.projection.rows();
    let [a, b] = [0, 1].map(|j| {
        let w = rows[2][j];
        (Vec2::new(rows[0][j] - middle.x * w, rows[1][j] - middle.y * w), w)
    });
    // Both say share · 1/f² + rest = 0.
    let equations = [(a.0.dot(b.0), a.1 * b.1), (a.0.hypot2() - b.0.hypot2(), a.1 * a.1 - b.1 * b.1)];
    let (above, below) =
        equations.iter().fold((0.0, 0.0), |sum, (share, rest)| (sum.0 - share * rest, sum.1 + share * share));
    let focal = (below / above).sqrt();
    (focal.is_finite() && focal > 0.0).then_some(focal)
}

/// How a picture shows the developed sheet of a shape.
#[derive(Clone, Copy, Debug)]
pub struct Seen<'a> {
    /// The camera.
    pub camera: Camera,
    /// The deck it is.
    pub body: Body<'a>,
    /// How much wider the deck is than the holes alone say.
    pub widened: f64,
}

impl Seen<'_> {
    /// Where a place of the developed sheet shows in the picture, pixels.
    #[must_use]
    pub fn at(&self, place: Point) -> Point {
        self.sees(self.body.at(place))
    }

    /// Where the edge of a deck shows whose outline runs through that place with that unit normal outward, pixels: the upper
    /// or the lower corner of the edge, whichever stands farther out there.
    #[must_use]
    pub fn brim(&self, place: Point, outward: Vec2) -> Point {
        let [x, y, z] = self.camera.centre();
        self.sees(self.body.brim(place, outward, Spot::new(x, y * self.widened, z)))
    }

    fn sees(&self, spot: Spot) -> Point {
        self.camera.sees([spot.x, spot.y / self.widened, spot.z])
    }

    /// The place of the outline whose rail shows at a place of the picture; `None` where none does.
    #[must_use]
    pub fn find_rail(&self, px: Point) -> Option<Point> {
        let mut place = self.find(px)?;
        // How far the corner seen lies from the outline changes little from place to place.
        for _ in 0..3 {
            let outward = out_of_the_rail(place);
            place = self.find(px - (self.brim(place, outward) - self.at(place)))?;
        }
        Some(place)
    }

    /// The place of the developed sheet that shows at a place of the picture; `None` where none does.
    #[must_use]
    pub fn find(&self, px: Point) -> Option<Point> {
        const STEP: f64 = 1e-3; // mm
        let mut place = Point::ORIGIN;
        for _ in 0..ROUNDS {
            let off = px - self.at(place);
            let along = (self.at(place + Vec2::new(STEP, 0.0)) - self.at(place)) / STEP;
            let across = (self.at(place + Vec2::new(0.0, STEP)) - self.at(place)) / STEP;
            let area = along.cross(across);
            let step = Vec2::new(off.cross(across) / area, along.cross(off) / area);
            let is_sane = step.hypot2() < 1e8; // not so for what is not a number
            if !is_sane {
                return None;
            }
            // Where the surface bends, a long step leaves what it was reckoned from.
            let size = step.hypot2().sqrt();
            place += step * (100.0 / size.max(100.0));
            if size < 1e-6 {
                return Some(place);
            }
        }
        None
    }

    /// The width straight across over the rails at two places of the outline, outside to outside, mm.
    #[must_use]
    pub fn over_rails(&self, a: Point, b: Point) -> f64 {
        /// As good as straight above, mm.
        const FAR: f64 = 1e9;
        let [a, b] = [a, b].map(|place| {
            let outward = out_of_the_rail(place);
            let spot = self.body.brim(place, outward, Spot::new(place.x, place.y, FAR));
            Point::new(spot.x, spot.y)
        });
        (b - a).hypot2().sqrt()
    }

    /// How far a place may be off for the height of the lens, mm: what stands up shows farther out, the more the lower the
    /// camera.
    #[must_use]
    pub fn off_for_height(&self, place: Point, sight: &Sight) -> f64 {
        let Spot { x, y, z } = self.body.at(place);
        let [cx, cy, height] = self.camera.centre();
        let aside = Vec2::new(x - cx, y - cy).hypot2().sqrt();
        aside * z.abs() / height * (sight.height_off / height)
    }
}

/// The way out of the deck at a place of a rail.
fn out_of_the_rail(place: Point) -> Vec2 {
    Vec2::new(0.0, 1.0_f64.copysign(place.y))
}

fn space(spot: Spot) -> Space {
    [spot.x, spot.y, spot.z]
}

/// The turn about a vector by its length in radians (O. Rodrigues, 1840).
fn turned(about: Space) -> [Space; 3] {
    let angle = length(about);
    let (sin, cos) = real::sincos(angle);
    let (s, c) = if angle > 1e-12 { (sin / angle, (1.0 - cos) / (angle * angle)) } else { (1.0, 0.5) };
    let [x, y, z] = about;
    [
        [cos + c * x * x, c * x * y - s * z, c * x * z + s * y],
        [c * x * y + s * z, cos + c * y * y, c * y * z - s * x],
        [c * x * z - s * y, c * y * z + s * x, cos + c * z * z],
    ]
}

fn dot(a: Space, b: Space) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: Space, b: Space) -> Space {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn times(a: Space, by: f64) -> Space {
    a.map(|a| a * by)
}

fn minus(a: Space, b: Space) -> Space {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

fn length(a: Space) -> f64 {
    dot(a, a).sqrt()
}

fn unit(a: Space) -> Option<Space> {
    let size = length(a);
    (size > 0.0).then(|| times(a, 1.0 / size))
}
