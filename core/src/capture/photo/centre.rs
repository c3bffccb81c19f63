//! The centre of a bolt hole near a click: a dark or bright disc, seen as an ellipse, to a fraction of a pixel.

use super::Picture;
use crate::{order::sort_by_number, real};
use kurbo::Point;

/// A patch this many pixels a side at the most is looked at.
const LARGEST: i64 = 160;
/// Least difference between hole and deck, of 255, that is a hole and not the grain.
const LEAST_CONTRAST: f64 = 12.0;
/// A hole takes up between this many pixels and this share of the patch.
const FEWEST: usize = 6;
const LARGEST_SHARE: f64 = 0.45;

/// The centre of the hole within `reach` pixels of a click: where what differs from the deck round it lies balanced.
/// `None` where nothing there looks like a hole: the click is as good as it is.
#[must_use]
pub fn hole_centre(picture: &Picture<'_>, click: Point, reach: f64) -> Option<Point> {
    let (width, height) = picture.size();
    // Not so for what is not a number.
    if !(click.x >= 0.0 && click.y >= 0.0 && click.x <= width as f64 && click.y <= height as f64) {
        return None;
    }
    let mut place = click;
    // The second round has the hole in the middle, so that the deck is seen evenly all round it.
    for _ in 0..2 {
        place = Patch::round(picture, place, reach).balance()?;
    }
    ((place - click).hypot2() <= reach * reach).then_some(place)
}

/// A square of the picture.
struct Patch {
    left: i64,
    top: i64,
    side: usize,
    grey: Vec<f64>,
    /// How bright the deck is round the hole.
    deck: f64,
}

impl Patch {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "it lies about the picture")]
    fn round(picture: &Picture<'_>, middle: Point, reach: f64) -> Self {
        let half = (reach.max(4.0) as i64).min(LARGEST / 2);
        let (left, top) = (middle.x as i64 - half, middle.y as i64 - half);
        let side = (2 * half + 1) as usize;
        let mut grey = Vec::with_capacity(side * side);
        let mut rim = Vec::with_capacity(4 * side);
        for row in 0..side {
            for column in 0..side {
                let value = picture.grey(left + column as i64, top + row as i64);
                grey.push(value);
                if row.min(column) == 0 || row.max(column) == side - 1 {
                    rim.push(value);
                }
            }
        }
        sort_by_number(&mut rim, |value| *value);
        Self { left, top, side, grey, deck: rim[rim.len() / 2] }
    }

    /// The balance of the spot nearest the middle that differs from the deck, dark or bright.
    fn balance(&self) -> Option<Point> {
        let spot = self.spot()?;
        let level = self.grey[spot] - self.deck;
        let share = |i: usize| (self.grey[i] - self.deck) / level;
        let inside = self.spread(spot, |i| share(i) > 0.5);
        let most = LARGEST_SHARE * self.grey.len() as f64;
        if inside.len() < FEWEST || inside.len() as f64 > most || inside.iter().any(|i| self.is_rim(*i)) {
            return None;
        }
        // With the soft rim round it, each pixel by how much of it is hole: the level is that of the spot's middle.
        let high: Vec<f64> = inside.iter().map(|i| share(*i)).filter(|share| *share > 0.7).collect();
        let full = high.iter().sum::<f64>() / high.len() as f64;
        let mut is_soft = vec![false; self.grey.len()];
        for &i in &inside {
            for near in self.round_about(i, 2) {
                is_soft[near] = true;
            }
        }
        let (mut sum, mut x, mut y) = (0.0, 0.0, 0.0);
        for i in (0..is_soft.len()).filter(|i| is_soft[*i]) {
            let weight = real::clamp(share(i) / full, 0.0, 1.0);
            // What hardly differs from the deck is its grain.
            let weight = if weight < 0.1 { 0.0 } else { weight };
            sum += weight;
            x += weight * ((i % self.side) as f64 + 0.5);
            y += weight * ((i / self.side) as f64 + 0.5);
        }
        Some(Point::new(self.left as f64 + x / sum, self.top as f64 + y / sum))
    }

    /// The pixel that differs most from the deck, those in the middle first.
    fn spot(&self) -> Option<usize> {
        let half = (self.side / 2) as f64;
        let mut best = (0.0, None);
        for (i, value) in self.grey.iter().enumerate() {
            let (x, y) = ((i % self.side) as f64 - half, (i / self.side) as f64 - half);
            let off = (x * x + y * y) / (half * half);
            let difference = (value - self.deck).abs();
            let score = difference * (1.0 - off);
            if difference >= LEAST_CONTRAST && score > best.0 {
                best = (score, Some(i));
            }
        }
        best.1
    }

    /// All pixels of which `is_part` holds that hang together with one.
    fn spread(&self, from: usize, is_part: impl Fn(usize) -> bool) -> Vec<usize> {
        let mut is_taken = vec![false; self.grey.len()];
        let mut taken = vec![from];
        is_taken[from] = true;
        let mut next = 0;
        while let Some(&i) = taken.get(next) {
            next += 1;
            for near in self.round_about(i, 1) {
                if !is_taken[near] && is_part(near) {
                    is_taken[near] = true;
                    taken.push(near);
                }
            }
        }
        taken
    }

    fn round_about(&self, i: usize, by: usize) -> impl Iterator<Item = usize> {
        let (side, row, column) = (self.side, i / self.side, i % self.side);
        let rows = row.saturating_sub(by)..(row + by + 1).min(side);
        rows.flat_map(move |row| {
            (column.saturating_sub(by)..(column + by + 1).min(side)).map(move |column| row * side + column)
        })
    }

    fn is_rim(&self, i: usize) -> bool {
        let (row, column) = (i / self.side, i % self.side);
        row.min(column) == 0 || row.max(column) == self.side - 1
    }
}
