//! What a person gives beside the picture, and the camera found from it.

use super::{Body, Camera, Clicked, PhotoError, Seen, Sight, sort_holes};
use kurbo::Point;

/// What a person gives beside the picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Given {
    /// The bolt holes clicked, in any order, pixels.
    pub holes: Vec<Point>,
    /// Whether the nose lies the other way.
    pub turned: bool,
    /// Height of the lens above the deck, mm, if it was measured.
    pub height: Option<f64>,
    /// Places clicked on the rails, pixels; two of them with a width count.
    pub rails: Vec<Point>,
    /// The width over the rails there, measured straight across from outside to outside, mm.
    pub width: Option<f64>,
}

/// A picture with its camera found.
#[derive(Clone, Debug)]
pub struct Set<'a> {
    /// Which hole each click is, and the misfits.
    pub clicked: Clicked,
    /// How the camera stood.
    pub sight: Sight,
    /// Where it sees what.
    pub seen: Seen<'a>,
    /// How far the rails may be off, mm.
    pub rail_error: f64,
}

/// Rails lie about three times as far out as the holes, and so does what is off at the holes.
const RAIL_SHARE: f64 = 3.0;
/// What a measured width leaves of that.
const WITH_WIDTH: f64 = 0.5;
/// A click on a hole is never surer than this, mm, however well few holes fit: of sixty decks in rendered photographs three
/// had rails up to 0.33 mm off where all holes fitted within a tenth.
const SUREST: f64 = 0.12;
/// A measured width this far from what the holes say, as a ratio, belongs to other rails.
const MOST_WIDENED: f64 = 1.15;

impl Given {
    /// Most holes, and most places on the rails.
    pub const MOST: (usize, usize) = (8, 2);

    /// Finds the camera of a picture of that size.
    ///
    /// # Errors
    ///
    /// [`PhotoError`] where the holes do not fit.
    pub fn set<'a>(&self, body: &Body<'a>, size: (usize, usize)) -> Result<Set<'a>, PhotoError> {
        let clicked = sort_holes(&self.holes, &body.shape.datum, self.turned)?;
        let (camera, sight) = Camera::find(&clicked, &self.holes, body, size, self.height)?;
        let mut seen = Seen { camera, body: *body, widened: 1.0 };
        let squares: f64 = clicked.misfits.iter().map(|misfit| misfit * misfit).sum();
        let misfit = (squares / clicked.misfits.len() as f64).sqrt();
        let mut rail_error = RAIL_SHARE * misfit.max(SUREST);
        if let (Some(width), &[a, b]) = (self.width, self.rails.as_slice()) {
            let (a, b) = seen.find_rail(a).zip(seen.find_rail(b)).ok_or(PhotoError::NotADeck)?;
            let widened = width / seen.over_rails(a, b);
            let is_near = widened < MOST_WIDENED && widened > 1.0 / MOST_WIDENED; // not so for what is not a number
            if !is_near {
                return Err(PhotoError::Width(width / widened));
            }
            seen.widened = widened;
            rail_error *= WITH_WIDTH;
        }
        Ok(Set { clicked, sight, seen, rail_error })
    }

    /// All of it as numbers, to be kept and handed on: what is not given is not a number.
    #[must_use]
    pub fn numbers(&self) -> Vec<f64> {
        let known = |value: Option<f64>| value.unwrap_or(f64::NAN);
        let turned = if self.turned { 1.0 } else { 0.0 };
        let mut numbers = vec![turned, known(self.height), known(self.width), self.rails.len() as f64];
        for place in self.rails.iter().chain(&self.holes) {
            numbers.extend_from_slice(&[place.x, place.y]);
        }
        numbers
    }

    /// What [`numbers`](Self::numbers) wrote; nothing given where it did not.
    #[must_use]
    pub fn from_numbers(numbers: &[f64]) -> Self {
        let &[turned, height, width, rails, ref places @ ..] = numbers else { return Self::default() };
        let (most_holes, most_rails) = Self::MOST;
        let mut given = Self {
            turned: turned > 0.0,
            height: Some(height).filter(|height| *height > 0.0),
            width: Some(width).filter(|width| *width > 0.0),
            ..Self::default()
        };
        for pair in places.chunks_exact(2) {
            let place = Point::new(pair[0], pair[1]);
            if (given.rails.len() as f64) < rails && given.rails.len() < most_rails {
                given.rails.push(place);
            } else if given.holes.len() < most_holes {
                given.holes.push(place);
            }
        }
        given
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_given_comes_back_from_its_numbers() {
        let given = Given {
            holes: vec![Point::new(1.5, 2.0), Point::new(3.0, 4.25)],
            turned: true,
            height: None,
            rails: vec![Point::new(5.0, 6.0)],
            width: Some(209.5),
        };
        assert_eq!(Given::from_numbers(&given.numbers()), given);
        assert_eq!(Given::from_numbers(&[]), Given::default());
    }
}
