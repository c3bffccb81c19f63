//! The deck on its trucks under the load: how it gives, and how stiff it is along its length. Estimates.

use crate::{
    language::said,
    leaf::{Leaf, Style, Tone},
    say,
    scene::pen::polyline,
    units::{System, Unit, show},
    workshop::{
        Workshop,
        flex::{Beam, Station},
    },
};
use kurbo::{Point, Size};

/// Places along the board at which it is drawn.
const PLACES: usize = 33;
/// Height of each of the two curves as a part of the figure's.
const CURVE: f64 = 0.26;

/// The line of the deck as it gives, many times enlarged, over its bending stiffness from truck to truck; `letters` is the
/// size of the figures. Where there is no stack, the reason.
#[must_use]
pub fn flex(workshop: &Workshop<'_>, system: System, size: Size, letters: f64) -> Leaf {
    let mut leaf = Leaf::new(size);
    let style = Style::plain(letters);
    let (laminate, flex) = match (&workshop.laminate, &workshop.flex) {
        (Ok(laminate), Ok(flex)) => (laminate, flex),
        (_, Err(fault)) | (Err(fault), _) => {
            leaf.words(Point::new(0.0, letters), style.soft(), fault.reason());
            return leaf;
        }
    };
    let Size { width, height } = size;
    let curve = CURVE * height;
    let (left, right) = (letters, width - letters);
    let at = |share: f64| left + share * (right - left);
    let span = workshop.shape.datum.truck_centre();

    // How it gives: straight when nobody stands on it, and the line under the load.
    let top = 1.6 * letters;
    let beam = Beam::of(workshop.shape, workshop.measured, laminate, &workshop.layers);
    let most = flex.deflection.max(f64::MIN_POSITIVE);
    let given: Vec<Point> = (0..PLACES)
        .map(|i| {
            let share = i as f64 / (PLACES - 1) as f64;
            let deflection = beam.deflection(span * (2.0 * share - 1.0), &[(0.0, flex.load)], true);
            Point::new(at(share), top + curve * deflection / most)
        })
        .collect();
    leaf.dashes(polyline(&[Point::new(left, top), Point::new(right, top)]), 0.2, Tone::Soft);
    leaf.stroke(polyline(&given), 0.5, Tone::Red);
    for x in [left, right] {
        let foot = 0.55 * letters;
        let corners = [
            (x - foot, top + 1.6 * foot),
            (x, top),
            (x + foot, top + 1.6 * foot),
            (x - foot, top + 1.6 * foot),
        ];
        leaf.fill(polyline(&corners.map(Point::from)), Tone::Ink);
    }
    let middle = at(0.5);
    let load = say!("load {force}", force = show(flex.load, Unit::Force, system));
    leaf.words_round(Point::new(middle, 0.75 * letters), style, &load);
    let gives = say!("gives {deflection}", deflection = show(flex.deflection, Unit::Thickness, system));
    leaf.words_round(Point::new(middle, top + 0.55 * curve), style.toned(Tone::Red), &gives);

    // How stiff it is, from nothing up.
    let ground = height - 1.3 * letters;
    let stiffest = flex.stations.iter().map(|station| station.stiffness).fold(f64::MIN_POSITIVE, f64::max);
    let height_of = |station: &Station| curve * station.stiffness / stiffest;
    let stiffness: Vec<Point> = flex
        .stations
        .iter()
        .map(|station| Point::new(at((station.x / span + 1.0) / 2.0), ground - height_of(station)))
        .collect();
    let mut area = polyline(&stiffness);
    area.line_to((right, ground));
    area.line_to((left, ground));
    area.close_path();
    leaf.fill(area, Tone::Wood);
    leaf.stroke(polyline(&stiffness), 0.4, Tone::Blue);
    leaf.line((left, ground), (right, ground), 0.2, Tone::Ink);
    let ei = show(flex.middle, Unit::BendingStiffness, system).to_string();
    leaf.words_round(
        Point::new(middle, ground - 0.3 * curve),
        style.toned(Tone::Blue),
        &["EI ", &ei].concat(),
    );
    leaf.words(Point::new(0.0, height - 0.25 * letters), style.soft(), said("tail truck"));
    leaf.words_to(Point::new(width, height - 0.25 * letters), style.soft(), said("nose truck"));
    leaf
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{demo, design::Shape, measure::Measured, workshop::Inputs};

    fn figure(shape: &Shape) -> Leaf {
        let (measured, inputs) = (Measured::of(shape), Inputs::default());
        flex(&Workshop::of(shape, &measured, &inputs), System::default(), Size::new(60.0, 30.0), 2.4)
    }

    #[test]
    fn the_figure_says_the_deflection_and_keeps_to_its_box() {
        for deck in demo::all() {
            let leaf = figure(deck.shape());
            assert!(leaf.texts().any(|(_, text)| text.starts_with("gives ") && text.ends_with(" mm")));
            let inside = leaf.size.to_rect().inflate(1e-9, 1e-9);
            for (area, text) in leaf.texts() {
                assert!(inside.contains_rect(area), "{text} at {area}");
            }
        }
    }

    #[test]
    fn without_a_stack_it_says_why() {
        let mut shape = demo::dunlin().shape().clone();
        shape.layup.plies.clear();
        let leaf = figure(&shape);
        assert_eq!(leaf.texts().map(|(_, text)| text).collect::<Vec<_>>(), ["no plies"]);
    }
}
