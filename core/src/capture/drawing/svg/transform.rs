//! The transforms of an SVG element (SVG 1.1, chapter 7).

use super::path::Numbers;
use crate::{capture::drawing::DrawingError, real};
use kurbo::Affine;

/// The product of a list of transforms, as its attribute holds it.
pub(super) fn read(text: &str, line: usize) -> Result<Affine, DrawingError> {
    let fault = DrawingError::Line { line, what: "has a transform that cannot be read" };
    let mut all = Affine::IDENTITY;
    let mut rest = text.trim();
    while !rest.is_empty() {
        let Some((name, behind)) = rest.split_once('(') else { return Err(fault) };
        let Some((inside, after)) = behind.split_once(')') else { return Err(fault) };
        let mut numbers = Numbers::new(inside);
        let given: Vec<f64> = core::iter::from_fn(|| numbers.next()).take(7).collect();
        let name = name.trim_matches(|c: char| c.is_whitespace() || c == ',');
        let one = match (name, given.as_slice()) {
            ("matrix", &[a, b, c, d, e, f]) => Affine::new([a, b, c, d, e, f]),
            ("translate", &[x]) => Affine::translate((x, 0.0)),
            ("translate", &[x, y]) => Affine::translate((x, y)),
            ("scale", &[s]) => Affine::scale(s),
            ("scale", &[x, y]) => Affine::scale_non_uniform(x, y),
            ("rotate", &[degrees]) => turned(degrees),
            ("rotate", &[degrees, x, y]) => {
                Affine::translate((x, y)) * turned(degrees) * Affine::translate((-x, -y))
            }
            ("skewX", &[degrees]) => Affine::new([1.0, 0.0, real::tan(degrees.to_radians()), 1.0, 0.0, 0.0]),
            ("skewY", &[degrees]) => Affine::new([1.0, real::tan(degrees.to_radians()), 0.0, 1.0, 0.0, 0.0]),
            _ => return Err(fault),
        };
        all *= one;
        rest = after.trim();
    }
    if all.is_finite() { Ok(all) } else { Err(fault) }
}

fn turned(degrees: f64) -> Affine {
    let (sin, cos) = real::sincos(degrees.to_radians());
    Affine::new([cos, sin, -sin, cos, 0.0, 0.0])
}
