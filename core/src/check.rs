//! What is doubtful about a design: warnings that stand beside it. They never refuse; the door of
//! [`crate::design`] does that.

use crate::{
    curve::nearest::nearest,
    design::Shape,
    measure::{End, Measured},
    say, tolerance,
    units::{System, Unit, show},
    workshop::blank,
};
use kurbo::Point;

/// Something to look at before cutting wood.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// Key of the quantity it is about.
    pub key: &'static str,
    /// What is found, what is usual, and the way out.
    pub text: String,
    /// Where on the deck, if anywhere.
    pub at: Option<Point>,
}

/// Nearest the edge of a hole may come to the rail without a warning, mm (common practice, no source).
const HOLE_TO_RAIL: f64 = 12.0;
/// Tightest bend of an edge that a bit still follows, mm: just above the radius of a 3/8 in bit (common practice, no source).
const TIGHTEST_BEND: f64 = 5.0;
/// Least wood beside the bolt holes' lines anywhere between the outer rows, mm: as much as beside a hole (common practice, no source).
const NECK_MARGIN: f64 = 12.0;
/// Least half-breadth between the shoulders, mm: a neck half as wide as a hand (common practice, no source).
const NARROWEST: f64 = 20.0;
/// Smallest blunt tip, mm (common practice, no source).
const BLUNT_TIP: f64 = 12.0;

/// Usual ranges, mm: outside them a deck is possible but rare (common practice, no source; their middles are those of general
/// articles: about 14 in, 28 to 32 in, 7.25 to 8.5 in).
const USUAL: [(&str, f64, f64, &str); 3] = [
    ("wheelbase", 290.0, 400.0, "wheelbase"),
    ("overall-length", 698.5, 840.0, "length"),
    ("overall-width", 184.0, 222.25, "width"),
];

/// Everything doubtful about a shape, in the units the maker reads.
#[must_use]
pub fn problems(shape: &Shape, measured: &Measured, system: System) -> Vec<Problem> {
    let length = |mm: f64| show(mm, Unit::Length, system);
    let mut found = Vec::new();

    let values = [shape.datum.wheelbase, measured.overall_length, measured.overall_width];
    for ((key, least, most, what), value) in USUAL.into_iter().zip(values) {
        if !(least..=most).contains(&value) {
            found.push(Problem {
                key,
                text: say!(
                    "The {what} of {value} is unusual: most decks have {least} to {most}.",
                    what,
                    value = length(value),
                    least = length(least),
                    most = length(most)
                ),
                at: None,
            });
        }
    }

    let radius = shape.datum.hole_diameter / 2.0;
    let near = shape.datum.holes().into_iter().filter(|hole| hole.y > 0.0).find_map(|hole| {
        let wood = distance_to_edge(measured, hole) - radius;
        (wood < HOLE_TO_RAIL).then_some((hole, wood))
    });
    if let Some((hole, wood)) = near {
        found.push(Problem {
            key: "pattern-width",
            text: say!("Only {wood} of wood between a bolt hole and the edge: {least} or more keeps it from splitting out.", wood = length(wood), least = length(HOLE_TO_RAIL)),
            at: Some(hole),
        });
    }

    for (key, name, end, sign) in
        [("nose-tip-radius", "nose", &measured.nose, 1.0), ("tail-tip-radius", "tail", &measured.tail, -1.0)]
    {
        let sharp = end.tip_curvature.is_none_or(|k| k > 1.0 / BLUNT_TIP);
        if sharp {
            found.push(Problem {
                key,
                text: say!(
                    "The {name} comes to a point: a tip rounder than {least} hurts less and chips less.",
                    name,
                    least = length(BLUNT_TIP)
                ),
                at: Some(Point::new(sign * end.end.x, end.end.y)),
            });
        }
    }

    found.extend(tight_bends(measured, system));
    found.extend(neck(shape, measured, system));
    found.extend(blank_margins(measured, system));
    found
}

/// Where the edge bends tighter than usual bits follow. A tip that does is a point, and said to be one.
fn tight_bends(measured: &Measured, system: System) -> Vec<Problem> {
    let length = |mm: f64| show(mm, Unit::Length, system);
    let mut found = Vec::new();
    for (key, bend) in [
        ("smallest-convex-radius", measured.smallest_convex),
        ("smallest-concave-radius", measured.smallest_concave),
    ] {
        if let Some(bend) = bend.filter(|bend| bend.radius < TIGHTEST_BEND && bend.at.y > tolerance::TOUCH) {
            let (radius, along) = (length(bend.radius), length(bend.at.x));
            let text = say!(
                "The edge bends to a radius of {radius} at {along} along: few bits follow it, and it breaks: smooth it to \
                 {least} or more.",
                radius,
                along,
                least = length(TIGHTEST_BEND)
            );
            found.push(Problem { key, text, at: Some(bend.at) });
        }
    }
    found
}

/// Where the deck is too narrow to carry a foot: between the outer bolt rows, else between the shoulders.
fn neck(shape: &Shape, measured: &Measured, system: System) -> Option<Problem> {
    let row = shape.datum.outer_row();
    let shoulder = |end: &End| end.shoulder.map_or(row, |shoulder| shoulder.at.x.max(row));
    let least_of_rows = shape.datum.pattern_width / 2.0 + NECK_MARGIN;
    for (from, to, least, place) in [
        (-row, row, least_of_rows, "bolt rows"),
        (-shoulder(&measured.tail), shoulder(&measured.nose), NARROWEST, "shoulders"),
    ] {
        let at = narrowest(measured, from, to)?;
        if at.y < least {
            let width = |half: f64| show(2.0 * half, Unit::Length, system);
            let text = say!(
                "Between the {place} the deck is only {width} wide at {along} along: below {least} it breaks under a foot.",
                place,
                width = width(at.y),
                along = show(at.x, Unit::Length, system),
                least = width(least)
            );
            return Some(Problem { key: "overall-width", text, at: Some(at) });
        }
    }
    None
}

/// Where the half-breadth is least between two stations: at one of them, or at an end of a monotone stretch.
fn narrowest(measured: &Measured, from: f64, to: f64) -> Option<Point> {
    let mut least: Option<Point> = None;
    for stretch in measured.envelope.stretches() {
        let reached = [stretch.start.x.max(from), stretch.end.x.min(to)];
        for x in reached.into_iter().filter(|_| reached[0] <= reached[1]) {
            let at = Point::new(x, stretch.height_at(x));
            if least.is_none_or(|least| at.y < least.y) {
                least = Some(at);
            }
        }
    }
    least
}

/// Where the blank is too small for the outline, or leaves too little round it.
fn blank_margins(measured: &Measured, system: System) -> Vec<Problem> {
    let nose = measured.blank.x1 - measured.nose.end.x;
    let side = (measured.blank.height() - measured.overall_width) / 2.0;
    let length = |mm: f64| show(mm, Unit::Length, system);
    let mut found = Vec::new();
    for (key, place, margin) in [("blank-length", "at each end", nose), ("blank-width", "on each side", side)]
    {
        if margin < blank::MARGIN {
            let text = if margin < 0.0 {
                say!(
                    "The blank is {margin} too small {place}: cut the veneers larger.",
                    margin = length(-margin),
                    place
                )
            } else {
                let least = length(blank::MARGIN);
                say!(
                    "The blank leaves {margin} {place}: {least} or more lets the plies slip.",
                    margin = length(margin),
                    place,
                    least
                )
            };
            found.push(Problem { key, text, at: None });
        }
    }
    found
}

fn distance_to_edge(measured: &Measured, from: Point) -> f64 {
    let nearest = measured.half.pieces().iter().map(|piece| nearest(&piece.curve, from).1);
    nearest.fold(f64::INFINITY, f64::min).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        demo::{self, cubics},
        design::Design,
        edit::Edit,
        measure::Bend,
    };

    fn keys(design: &Design) -> Vec<&'static str> {
        let measured = Measured::of(design.shape());
        problems(design.shape(), &measured, System::default()).iter().map(|p| p.key).collect()
    }

    #[test]
    fn the_demo_decks_have_no_problems() {
        for deck in demo::all() {
            assert_eq!(keys(&deck), Vec::<&str>::new(), "{}", deck.name());
        }
    }

    #[test]
    fn a_blank_smaller_than_the_deck_is_named() {
        let deck = demo::turnstone().apply(&Edit::Set { key: "blank-width", value: 200.0 }).unwrap();
        assert_eq!(keys(&deck), ["blank-width"]);
    }

    /// The demo deck with its nose spans drawn through other places.
    #[track_caller]
    fn check_moved(moves: &[(usize, f64, f64)], key: &str, words: &str) {
        let mut deck = cubics::turnstone();
        for &(node, x, y) in moves {
            deck = deck.apply(&Edit::MoveNode { node, to: (x, y).into() }).unwrap();
        }
        let measured = Measured::of(deck.shape());
        let found = problems(deck.shape(), &measured, System::default());
        let problem = found.iter().find(|problem| problem.key == key).unwrap_or_else(|| panic!("{found:?}"));
        assert!(problem.text.contains(words), "{}", problem.text);
    }

    #[test]
    fn a_neck_between_the_bolt_rows_is_named() {
        check_moved(
            &[(2, 0.0, 30.0)],
            "overall-width",
            "Between the bolt rows the deck is only 60.0 mm wide at 0.0 mm",
        );
    }

    #[test]
    fn a_bend_that_no_bit_follows_is_named_and_one_that_a_bit_follows_is_not() {
        let shape = demo::turnstone();
        let mut measured = Measured::of(shape.shape());
        let at = Point::new(100.0, 90.0);
        for (radius, found) in [(4.9, 1), (5.1, 0)] {
            measured.smallest_concave = Some(Bend { radius, at });
            let problems = problems(shape.shape(), &measured, System::default());
            assert_eq!(problems.len(), found, "{problems:?}");
            assert!(problems.iter().all(|p| p.key == "smallest-concave-radius" && p.at == Some(at)));
        }
    }

    #[test]
    fn a_pointed_nose_is_named() {
        let deck = cubics::turnstone().apply(&Edit::SetSmooth { node: 4, smooth: false }).unwrap();
        let to = (400.0, 20.0).into();
        let deck = deck.apply(&Edit::MoveHandle { span: 3, end: crate::outline::SpanEnd::End, to }).unwrap();
        assert_eq!(keys(&deck), ["nose-tip-radius"]);
    }
}
