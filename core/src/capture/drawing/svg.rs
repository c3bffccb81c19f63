//! The contours of an SVG file: paths, basic shapes, groups and their transforms, turned so that y runs up.

mod path;
mod transform;

use super::{
    DrawingError, Sketch,
    number::{leading, number},
    strokes::{Contour, Stroke, arc},
    xml::{Element, Tags},
};
use crate::units::inches;
use core::f64::consts::{FRAC_PI_2, TAU};
use kurbo::{Affine, Point, Vec2};

/// Most groups one within another.
const DEEPEST: usize = 64;

/// A group that has been entered.
#[derive(Clone, Copy)]
struct Level {
    transform: Affine,
    named: bool,
    /// Whether what is in it is not drawn where it stands.
    hidden: bool,
}

/// Reads the shapes of an SVG file.
pub(super) fn read(text: &str) -> Result<Sketch, DrawingError> {
    let mut sketch = Sketch::default();
    let mut levels = vec![Level { transform: Affine::FLIP_Y, named: false, hidden: false }];
    let mut tags = Tags::new(text);
    let mut is_svg = false;
    while let Some(element) = tags.next()? {
        if element.ends {
            sketch.read_words(tags.words);
            if levels.len() > 1 {
                levels.pop();
            }
            continue;
        }
        let Some(&outer) = levels.last() else { break };
        if element.name == "svg" && !is_svg {
            is_svg = true;
            sketch.unit = unit(&element);
        }
        let own = element
            .get("transform")
            .map_or(Ok(Affine::IDENTITY), |text| transform::read(text, element.line))?;
        let level = Level {
            transform: outer.transform * own,
            named: outer.named || element.get("id").is_some_and(|id| id.eq_ignore_ascii_case("outline")),
            hidden: outer.hidden || is_hidden(&element),
        };
        if !level.hidden {
            shape(&element, &level, &mut sketch)?;
            sketch.check_size()?;
        }
        if !element.empty {
            if levels.len() > DEEPEST {
                return Err(DrawingError::Line { line: element.line, what: "lies in too many groups" });
            }
            levels.push(level);
        }
    }
    if is_svg { Ok(sketch) } else { Err(DrawingError::Unknown) }
}

/// Definitions are drawn where they are used, if at all.
fn is_hidden(element: &Element<'_>) -> bool {
    const APART: [&str; 8] =
        ["defs", "symbol", "clipPath", "mask", "pattern", "marker", "linearGradient", "metadata"];
    APART.contains(&element.name) || element.get("display") == Some("none")
}

/// Millimetres in a unit of the drawing; none where width and height do not say.
fn unit(svg: &Element<'_>) -> Option<f64> {
    let [mut sizes, mut boxed] = [[None; 2]; 2];
    for (size, key) in sizes.iter_mut().zip(["width", "height"]) {
        *size = svg.get(key).and_then(length);
    }
    if let Some(text) = svg.get("viewBox") {
        let mut numbers = path::Numbers::new(text);
        let all: Vec<f64> = core::iter::from_fn(|| numbers.next()).take(4).collect();
        if let [_, _, width, height] = all.as_slice() {
            boxed = [Some(*width), Some(*height)];
        }
    } else {
        // Without a view box one unit is a pixel, as the standard has it: 1/96 of an inch.
        return sizes[0].or(sizes[1]).map(|_| inches(1.0) / 96.0);
    }
    let scale = |i: usize| Some(sizes[i]? / boxed[i].filter(|size| *size > 0.0)?);
    match (scale(0), scale(1)) {
        (Some(a), Some(b)) => Some(a.min(b)),
        (a, b) => a.or(b),
    }
    .filter(|scale| *scale > 0.0 && scale.is_finite())
}

/// A length with an absolute unit, mm; of pixels it is not known how large they were meant.
fn length(text: &str) -> Option<f64> {
    let text = text.trim();
    let (value, taken) = leading(text.as_bytes())?;
    let mm = match text.get(taken..)?.trim() {
        "mm" => 1.0,
        "cm" => 10.0,
        "in" => inches(1.0),
        "pt" => inches(1.0) / 72.0,
        "pc" => inches(1.0) / 6.0,
        "Q" => 0.25,
        _ => return None,
    };
    Some(value * mm)
}

fn shape(element: &Element<'_>, level: &Level, sketch: &mut Sketch) -> Result<(), DrawingError> {
    let line = element.line;
    let get = |key: &str| match element.get(key) {
        None => Ok(0.0),
        Some(text) => number(text.strip_suffix("px").unwrap_or(text))
            .ok_or(DrawingError::Line { line, what: "has a length that is no plain number" }),
    };
    let mut contours = Vec::new();
    let new = |strokes, closed| Contour { strokes, closed, named: level.named };
    match element.name {
        "path" => {
            if let Some(data) = element.get("d") {
                for (strokes, closed) in path::read(data, line)? {
                    contours.push(new(strokes, closed));
                }
            }
        }
        "line" => {
            let [from, to] = [(get("x1")?, get("y1")?), (get("x2")?, get("y2")?)].map(Point::from);
            contours.push(new(vec![Stroke::line(from, to)], false));
        }
        "polyline" | "polygon" => {
            let mut numbers = path::Numbers::new(element.get("points").unwrap_or_default());
            let mut points: Vec<Point> = Vec::new();
            while let Some(x) = numbers.next() {
                let y =
                    numbers.next().ok_or(DrawingError::Line { line, what: "has a point without its y" })?;
                points.push(Point::new(x, y));
            }
            let mut contour =
                new(points.windows(2).map(|pair| Stroke::line(pair[0], pair[1])).collect(), false);
            if element.name == "polygon" {
                contour.close();
            }
            contours.push(contour);
        }
        "rect" => contours.push(new(rectangle(&get, element)?, true)),
        "circle" | "ellipse" => {
            let centre = Point::new(get("cx")?, get("cy")?);
            let (u, v) =
                if element.name == "circle" { (get("r")?, get("r")?) } else { (get("rx")?, get("ry")?) };
            contours.push(new(arc(centre, Vec2::new(u.abs(), 0.0), Vec2::new(0.0, v.abs()), 0.0, TAU), true));
        }
        _ => {}
    }
    for mut contour in contours {
        contour.map(level.transform);
        sketch.add(contour);
    }
    Ok(())
}

/// A rectangle, which may have round corners.
fn rectangle(
    get: &dyn Fn(&str) -> Result<f64, DrawingError>,
    element: &Element<'_>,
) -> Result<Vec<Stroke>, DrawingError> {
    let (x, y, width, height) = (get("x")?, get("y")?, get("width")?.abs(), get("height")?.abs());
    let (rx, ry) = match (element.get("rx").is_some(), element.get("ry").is_some()) {
        (true, false) => (get("rx")?, get("rx")?),
        (false, true) => (get("ry")?, get("ry")?),
        _ => (get("rx")?, get("ry")?),
    };
    let (rx, ry) = (rx.abs().min(width / 2.0), ry.abs().min(height / 2.0));
    // The centres of the four corners, from where the angle is 0.
    let (right, low) = (x + width - rx, y + height - ry);
    let centres = [(right, low), (x + rx, low), (x + rx, y + ry), (right, y + ry)].map(Point::from);
    let mut strokes: Vec<Stroke> = Vec::new();
    for (i, centre) in centres.into_iter().enumerate() {
        let from = FRAC_PI_2 * i as f64;
        let round = arc(centre, Vec2::new(rx, 0.0), Vec2::new(0.0, ry), from, from + FRAC_PI_2);
        let start = round.first().map_or(centre, |stroke| stroke.curve.p0);
        if let Some(end) = strokes.last().map(|stroke| stroke.curve.p3) {
            strokes.push(Stroke::line(end, start));
        }
        strokes.extend(round);
    }
    if let (Some(first), Some(last)) = (strokes.first(), strokes.last()) {
        strokes.push(Stroke::line(last.curve.p3, first.curve.p0));
    }
    Ok(strokes)
}
