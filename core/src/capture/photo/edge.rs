//! The edge of a deck on plain ground, found along rays from its centreline outward.
//!
//! Every ray is divided where what lies inside looks least like the ground, and what lies outside most; neighbours must
//! agree, so that one way round costs least of all (R. Bellman's dynamic programming). Graphics on the deck do no harm as
//! long as they are not of the ground's colour. Then each place is moved to where the step from deck to ground is half done.

mod across;

use self::across::{Across, difference};
use super::{PhotoError, Picture, Seen, picture::Colour};
use crate::{datum::Datum, order::sort_by_number, real};
use kurbo::{Point, Vec2};

/// Rays from the centreline of the sheet outward: those of the left half from the tail to the nose. The right half's are
/// their mirror images.
#[derive(Clone, Debug, PartialEq)]
pub struct Rays {
    /// Where each begins, and its direction.
    half: Vec<(Point, Vec2)>,
    /// Where on a ray the edge may begin to lie, mm: beyond the bolts.
    least: f64,
}

/// The deck's edge: on each ray of the left half its distance from the ray's beginning, mm, and that of the mirrored ray.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// On the left.
    pub left: Vec<f64>,
    /// On the right; the tips, first and last, are both halves'.
    pub right: Vec<f64>,
    /// Cosine between the ray and the edge's normal: what a difference along the ray is across the edge.
    pub slant: Vec<f64>,
}

/// Distance of neighbouring rays at the edge, mm, about.
const SPACING: f64 = 2.0;
/// Where the ends of most decks lie from the fan's centre, mm (common practice, no source): only for how many rays there are.
const USUAL_END: f64 = 150.0;
/// How far rays reach, mm: half the widest deck and ground, and the longest usual kick and ground
/// (common practice, no source).
const REACH: f64 = 190.0;
const REACH_AT_END: f64 = 340.0;
/// Room between the bolts and the nearest edge, mm (common practice, no source).
const BEYOND_BOLTS: f64 = 10.0;
/// Step along a ray, mm: a quarter of what the rays are apart.
const STEP: f64 = 0.5;
/// Samples at the end of a ray that show the ground, 20 mm, and on how many rays each side they are looked at together.
const GROUND_SAMPLES: usize = 40;
const TOGETHER: usize = 15;
/// Samples at the beginning of a ray that show the deck, 12 mm.
const DECK_SAMPLES: usize = 24;
/// Least difference between deck and ground, of 255 in each colour: about what a shadow makes of one colour.
const LEAST_CONTRAST: f64 = 20.0;
/// Farthest that the edge moves from ray to ray, steps: 10 mm, as beside a square tail's corner.
const FARTHEST: usize = 20;
/// Cost of a move by one step, in samples of the wrong side.
const MOVE: f64 = 0.15;
/// A step this part of the contrast or more is a clear one.
const CLEAR: f64 = 0.35;
/// More of the edge than this unclear, and nothing is taken from the picture.
const MOST_UNCLEAR: f64 = 0.12;
/// Rays more aslant to the edge than this cosine are taken as if they were so.
const MOST_ASLANT: f64 = 0.25;

impl Rays {
    /// The rays for a deck with those holes.
    #[must_use]
    pub fn of(datum: &Datum) -> Self {
        let centre = datum.truck_centre();
        let mut half = Vec::new();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "some hundreds")]
        let counted = |length: f64| (length / SPACING).max(8.0) as u32;
        let fan = counted(core::f64::consts::FRAC_PI_2 * USUAL_END);
        for i in 0..fan {
            let along = real::unit_vector(core::f64::consts::PI - turn(i, fan));
            half.push((Point::new(-centre, 0.0), along));
        }
        let sides = counted(2.0 * centre);
        for i in 0..sides {
            let x = -centre + 2.0 * centre * f64::from(i) / f64::from(sides);
            half.push((Point::new(x, 0.0), Vec2::new(0.0, 1.0)));
        }
        for i in 0..=fan {
            let along = real::unit_vector(core::f64::consts::FRAC_PI_2 - turn(i, fan));
            half.push((Point::new(centre, 0.0), along));
        }
        let bolts = Vec2::new(datum.pattern_length, datum.pattern_width) / 2.0;
        Self { half, least: bolts.hypot2().sqrt() + BEYOND_BOLTS }
    }

    /// How many rays a half has.
    #[must_use]
    pub fn count(&self) -> usize {
        self.half.len()
    }

    /// The place on a ray of the left half at a distance from its beginning.
    #[must_use]
    pub fn point(&self, ray: usize, distance: f64) -> Point {
        let (from, along) = self.half[ray];
        from + along * distance
    }

    /// Rays all the way round: to the nose on the left, back on the right.
    fn round(&self) -> usize {
        2 * (self.half.len() - 1)
    }

    fn place(&self, of_round: usize, distance: f64) -> Point {
        let i = of_round % self.round();
        let last = self.half.len() - 1;
        if i <= last {
            return self.point(i, distance);
        }
        let p = self.point(self.round() - i, distance);
        Point::new(p.x, -p.y)
    }

    fn reach(&self, of_round: usize) -> f64 {
        let direction = self.place(of_round, 1.0) - self.place(of_round, 0.0);
        if direction.x.abs() > 1e-3 { REACH_AT_END } else { REACH }
    }

    /// The edge of the deck in a picture; `progress` hears how much is done, from 0 to 1.
    ///
    /// # Errors
    ///
    /// [`PhotoError::NoContrast`] and [`PhotoError::NoEdge`] where there is none to be seen.
    pub fn edge(
        &self,
        picture: &Picture<'_>,
        seen: &Seen<'_>,
        progress: &mut dyn FnMut(f64),
    ) -> Result<Edge, PhotoError> {
        let count = self.round();
        let mut samples: Vec<Vec<Colour>> = Vec::with_capacity(count);
        for i in 0..count {
            samples.push(self.sampled(i, picture, seen));
            if i % 64 == 0 {
                progress(0.7 * i as f64 / count as f64);
            }
        }
        let least = GROUND_SAMPLES;
        let short = samples.iter().filter(|ray| ray.len() < least).count();
        if short as f64 > MOST_UNCLEAR * count as f64 {
            return Err(PhotoError::NoEdge(short as f64 / count as f64));
        }
        let ground = grounds(&samples);
        let contrast = contrast(&samples, &ground);
        if contrast < LEAST_CONTRAST {
            return Err(PhotoError::NoContrast);
        }
        let places = course(&samples, &ground, contrast);
        progress(0.9);
        let mut distances: Vec<f64> = places.iter().map(|i| self.least + STEP * (*i as f64 + 0.5)).collect();
        self.bring_in(&mut distances, seen);
        let mut slant = Vec::new();
        for _ in 0..2 {
            let share = self.band_share(&distances, picture, seen, contrast);
            let (next, aslant, unclear) = self.closer(&distances, picture, seen, contrast, share);
            if unclear > MOST_UNCLEAR {
                return Err(PhotoError::NoEdge(unclear));
            }
            (distances, slant) = (next, aslant);
        }
        progress(1.0);
        let last = self.half.len() - 1;
        let right: Vec<f64> = (0..=last).map(|i| distances[(count - i) % count]).collect();
        distances.truncate(last + 1);
        slant.truncate(last + 1);
        Ok(Edge { left: distances, right, slant })
    }

    /// The colours along a ray as far as the picture goes.
    fn sampled(&self, i: usize, picture: &Picture<'_>, seen: &Seen<'_>) -> Vec<Colour> {
        let mut colours = Vec::new();
        let (mut distance, reach) = (self.least, self.reach(i));
        while distance < reach
            && let Some(colour) = picture.colour(seen.at(self.place(i, distance)))
        {
            colours.push(colour);
            distance += STEP;
        }
        colours
    }

    /// The cosine between a ray and the edge's normal, and that, outward, as the edge runs by its neighbours.
    fn slant(&self, distances: &[f64], i: usize) -> (f64, Vec2) {
        const BESIDE: usize = 3;
        let count = distances.len();
        let at = |i: usize| self.place(i, distances[i % count]);
        let along = at(i + BESIDE) - at(i + count - BESIDE);
        let ray = self.place(i, 1.0) - self.place(i, 0.0);
        // Rays go clockwise round the deck, so that outward is to the left of the way along its edge.
        let normal = along.turn_90() / along.hypot2().sqrt();
        (normal.dot(ray).max(MOST_ASLANT), normal)
    }

    /// Moves places where the edge shows, taken for places of the top face, to where the outline is.
    fn bring_in(&self, distances: &mut [f64], seen: &Seen<'_>) {
        let shown = distances.to_vec();
        for (i, distance) in distances.iter_mut().enumerate() {
            let (slant, normal) = self.slant(&shown, i);
            let place = self.place(i, *distance);
            let toward = |way: Vec2| seen.at(place + way) - seen.at(place - way);
            let (along, outward) = (toward(normal.turn_90()), toward(normal) / 2.0);
            let beyond = along.cross(seen.brim(place, normal) - seen.at(place)) / along.cross(outward);
            *distance -= beyond / slant;
        }
    }

    /// How much wall and rounded corners differ from the ground, as a share of what the top face does: the middle one of all
    /// places where they show broad enough to tell; 1 where none does.
    fn band_share(&self, distances: &[f64], picture: &Picture<'_>, seen: &Seen<'_>, contrast: f64) -> f64 {
        let mut shares = Vec::new();
        for (i, &distance) in distances.iter().enumerate() {
            let (_, normal) = self.slant(distances, i);
            shares.extend(Across::of(self.place(i, distance), normal, seen).share(picture, CLEAR * contrast));
        }
        if shares.is_empty() { 1.0 } else { real::clamp(median(shares), 0.0, 1.3) }
    }

    /// Each place moved along its ray to where the step from deck to ground is half done across the edge; the cosine between
    /// ray and normal; and the share of places without a clear step, which lie between their neighbours.
    fn closer(
        &self,
        distances: &[f64],
        picture: &Picture<'_>,
        seen: &Seen<'_>,
        contrast: f64,
        share: f64,
    ) -> (Vec<f64>, Vec<f64>, f64) {
        let count = distances.len();
        let mut moved: Vec<Option<f64>> = Vec::with_capacity(count);
        let mut slants = Vec::with_capacity(count);
        for (i, &distance) in distances.iter().enumerate() {
            let (slant, normal) = self.slant(distances, i);
            slants.push(slant);
            let across = Across::of(self.place(i, distance), normal, seen);
            let step = across.step(picture, share, CLEAR * contrast);
            moved.push(step.map(|step| distance + step / slant));
        }
        let unclear = moved.iter().filter(|place| place.is_none()).count();
        let filled =
            (0..count).map(|i| moved[i].unwrap_or_else(|| between(&moved, i).unwrap_or(distances[i])));
        (filled.collect(), slants, unclear as f64 / count as f64)
    }
}

/// The turn of ray `i` in a fan of so many.
fn turn(i: u32, fan: u32) -> f64 {
    core::f64::consts::FRAC_PI_2 * f64::from(i) / f64::from(fan)
}

/// What lies between the nearest places known on either side of a place in a ring.
fn between(places: &[Option<f64>], i: usize) -> Option<f64> {
    let count = places.len();
    let find = |step: usize| (1..count).find_map(|k| Some((k as f64, places[(i + k * step) % count]?)));
    let ((after, b), (before, a)) = (find(1)?, find(count - 1)?);
    Some((a * after + b * before) / (after + before))
}

/// The middle one of some numbers; 0 of none.
fn median(mut numbers: Vec<f64>) -> f64 {
    sort_by_number(&mut numbers, |number| *number);
    numbers.get(numbers.len() / 2).copied().unwrap_or_default()
}

/// The colour of the ground where each ray ends, as its neighbours see it too.
fn grounds(samples: &[Vec<Colour>]) -> Vec<Colour> {
    let last = GROUND_SAMPLES;
    let own: Vec<Colour> = samples
        .iter()
        .map(|ray| {
            let end = &ray[ray.len().saturating_sub(last)..];
            core::array::from_fn(|k| median(end.iter().map(|colour| colour[k]).collect()))
        })
        .collect();
    let count = own.len();
    let around = |i: usize| (0..=2 * TOGETHER).map(move |j| (i + count + j - TOGETHER) % count);
    (0..count)
        .map(|i| {
            let some = || around(i).filter(|j| samples[*j].len() >= last);
            core::array::from_fn(|k| median(some().map(|j| own[j][k]).collect()))
        })
        .collect()
}

/// How much the deck differs from the ground, as most rays begin.
fn contrast(samples: &[Vec<Colour>], ground: &[Colour]) -> f64 {
    let of_ray = |(ray, ground): (&Vec<Colour>, &Colour)| {
        median(ray.iter().take(DECK_SAMPLES).map(|colour| difference(colour, ground)).collect())
    };
    median(samples.iter().zip(ground).map(of_ray).collect())
}

/// The way round that divides deck from ground at the least cost: for each ray the last sample that is deck.
fn course(samples: &[Vec<Colour>], ground: &[Colour], contrast: f64) -> Vec<usize> {
    let count = samples.len();
    // A ring has no beginning: a quarter of the way is walked twice, and the ends of the walk are not looked at.
    let (more, skip) = (count / 4, count / 8);
    let most = samples.iter().map(Vec::len).max().unwrap_or_default().max(1);
    let mut before = vec![0.0; most];
    let mut from: Vec<Vec<i8>> = Vec::with_capacity(count + more);
    for i in 0..count + more {
        let (ray, ground) = (&samples[i % count], &ground[i % count]);
        let mut now = costs(ray, ground, contrast, most);
        let mut steps = vec![0_i8; most];
        for (place, cost) in now.iter_mut().enumerate() {
            let (mut best, mut least) = (0, f64::INFINITY);
            let nearest = place.saturating_sub(FARTHEST);
            for (k, cost) in before[nearest..(place + FARTHEST + 1).min(most)].iter().enumerate() {
                let way = cost + MOVE * (nearest + k).abs_diff(place) as f64;
                if way < least {
                    (best, least) = (nearest + k, way);
                }
            }
            *cost += least;
            steps[place] = i8::try_from(best as i64 - place as i64).unwrap_or_default();
        }
        from.push(steps);
        before = now;
    }
    let mut place = (0..most).fold(0, |best, i| if before[i] < before[best] { i } else { best });
    let mut places = vec![0; count];
    for i in (0..count + more).rev() {
        if i >= skip && i < count + skip {
            places[i % count] = place;
        }
        place = place.saturating_add_signed(isize::from(from[i][place]));
    }
    places
}

/// What it costs to divide a ray after each of its samples, by how many lie on the wrong side; beyond the picture it is too
/// dear.
fn costs(ray: &[Colour], ground: &Colour, contrast: f64, most: usize) -> Vec<f64> {
    let mut costs = vec![most as f64 * 10.0; most];
    let unlike: Vec<f64> = ray.iter().map(|c| (difference(c, ground) / contrast).min(1.0)).collect();
    let mut cost: f64 = unlike.iter().sum(); // all of it ground
    for (i, unlike) in unlike.iter().enumerate() {
        cost += 1.0 - 2.0 * unlike;
        costs[i] = cost;
    }
    costs
}
