//! Mark-outs of shapes whose pieces are known, and of the demo decks.

use super::*;
use crate::{
    arcs::{offset::tests::polygon, tests::near},
    datum::Datum,
    demo,
    outline::Piece,
    projection::Projection,
};
use core::f64::consts::{FRAC_PI_2, PI};
use kurbo::Vec2;

/// A half outline of arcs, each so finely cut that its cubics are off by less than a nanometre.
fn half_of(arcs: &[Arc]) -> Half {
    let cubics = |arc: &Arc| {
        let straight = arc.is_line();
        let finer = (0..4).map(|k| arc.between(f64::from(k) / 4.0, f64::from(k + 1) / 4.0));
        let parts: Vec<Arc> = if straight { vec![*arc] } else { finer.collect() };
        let piece = move |curve| Piece { curve, span: 0, straight, far: false, bends: None };
        parts.into_iter().flat_map(|part| part.cubics()).map(piece).collect::<Vec<_>>()
    };
    Half::from_pieces(arcs.iter().flat_map(cubics).collect())
}

/// A quarter or so of a circle, from one direction to another, about a centre.
fn turn(centre: (f64, f64), radius: f64, from: f64, to: f64) -> Arc {
    let at = |a: f64| Point::from(centre) + radius * Vec2::new(real::cos(a), real::sin(a));
    Arc { p0: at(from), p1: at(to), bulge: real::tan((to - from) / 4.0) }
}

fn stadium() -> [Arc; 3] {
    let (tail, nose) = (turn((-300.0, 0.0), 100.0, PI, FRAC_PI_2), turn((300.0, 0.0), 100.0, FRAC_PI_2, 0.0));
    [tail, Arc::line(tail.p1, nose.p0), nose]
}

#[test]
fn a_stadium_is_two_arcs_and_a_line_and_nothing_off() {
    let made = mark_out(&half_of(&stadium()), USUAL).unwrap();
    assert_eq!(made.pieces.len(), 3);
    for (found, expected) in made.pieces.iter().zip(stadium()) {
        near((found.p1 - expected.p1).hypot(), 0.0, 1e-9);
        near(found.bulge, expected.bulge, 1e-6);
    }
    assert!(made.deviation < 1e-5, "{}", made.deviation);
    assert!(made.kinks.iter().all(|kink| kink.abs() < 1e-5));
}

#[test]
fn a_rectangle_is_three_lines_that_meet_square() {
    let half = polygon(&[(-400.0, 0.0), (-400.0, 100.0), (400.0, 100.0), (400.0, 0.0)]);
    let made = mark_out(&half, LEAST).unwrap();
    assert!(made.pieces.iter().all(Arc::is_line) && made.pieces.len() == 3);
    for kink in made.kinks {
        near(kink, -FRAC_PI_2, 1e-12);
    }
}

#[test]
fn no_chain_has_fewer_pieces_than_the_shape_was_made_of() {
    // Radii so different that no piece can stand for two.
    let shape = [
        turn((-320.0, 0.0), 80.0, PI, 2.0),
        turn((-320.0, 0.0), 80.0, 2.0, FRAC_PI_2),
        Arc::line((-320.0, 80.0).into(), (-100.0, 80.0).into()),
        turn((-100.0, 280.0), 200.0, -FRAC_PI_2, -1.2),
    ];
    let last = shape[3].p1;
    let nose =
        [Arc::line(last, (150.0, 100.0).into()), Arc::line((150.0, 100.0).into(), (400.0, 0.0).into())];
    let arcs: Vec<Arc> = shape.into_iter().chain(nose).collect();
    let half = half_of(&arcs);
    let made = mark_out(&half, LEAST).unwrap();
    assert_eq!(made.pieces.len(), 5, "the first two are one circle");
    // By trying every set of breaks: no four pieces will do.
    let places = places(&half, 25.0);
    assert!(fewest_by_trial(&places, LEAST) >= 5);
}

/// The fewest pieces over all choices of breaks among a few places, by trying them breadth first.
fn fewest_by_trial(places: &[Point], tolerance: f64) -> usize {
    let last = places.len() - 1;
    let mut reached = vec![0];
    let mut pieces = 0;
    while !reached.contains(&last) {
        pieces += 1;
        reached = (1..=last)
            .filter(|&to| {
                reached.iter().any(|&from| from < to && piece::piece(&places[from..=to], tolerance).is_some())
            })
            .collect();
    }
    pieces
}

#[test]
fn the_demo_decks_take_few_pieces_and_say_how_far_they_are_off() {
    for deck in demo::all() {
        let half = deck.shape().outline.resolve();
        let mut last = usize::MAX;
        for tolerance in [0.05, 0.3, 1.0, 2.0] {
            let made = mark_out(&half, tolerance).unwrap();
            assert!(made.deviation <= tolerance, "{} at {tolerance}: {}", deck.name(), made.deviation);
            assert!(made.pieces.len() <= last, "a coarser mark-out has no more pieces");
            last = made.pieces.len();
            assert!(made.pieces.windows(2).all(|pair| pair[0].p1 == pair[1].p0));
            // What it says is what a finer look finds.
            let path = half.path();
            let fine = path.segments().flat_map(|s| (0..=997).map(move |k| s.eval(f64::from(k) / 997.0)));
            let off = fine.map(|p| super::super::distance(&made.pieces, p)).fold(0.0, f64::max);
            near(off.min(made.deviation), off, 1e-4 * tolerance);
            if tolerance == USUAL {
                assert!((5..=14).contains(&last), "{} takes {last}", deck.name());
            }
        }
    }
}

#[test]
fn a_tolerance_outside_its_limits_is_refused_in_words() {
    let half = half_of(&stadium());
    for tolerance in [0.0, -1.0, 0.049, 2.1, f64::NAN, f64::INFINITY] {
        let refused = mark_out(&half, tolerance).unwrap_err();
        assert!(matches!(refused, MarkOutError::Tolerance(_)));
    }
    let text = mark_out(&half, 3.0).unwrap_err().to_string();
    assert_eq!(text, "a mark-out tolerance of 3.00 mm is not between 0.05 mm and 2.00 mm");
    assert_eq!(mark_out(&Half::from_pieces(Vec::new()), 0.3), Err(MarkOutError::NoOutline));
}

#[test]
fn places_are_measured_from_the_nearest_bolt_row() {
    let datum = Datum::default();
    let fix = fixed_from(&datum, Point::new(300.0, -4.0));
    assert_eq!((fix.row, fix.across), ("nose outer row", -4.0));
    near(fix.along, 300.0 - 234.95, 1e-9);
    assert_eq!(fixed_from(&datum, Point::new(-200.0, 1.0)).row, "tail inner row");
}

#[test]
fn the_list_has_a_row_a_piece_and_the_figure_its_compass_points() {
    let made = mark_out(&half_of(&stadium()), USUAL).unwrap();
    let text = csv(&made, &Datum::default(), Projection::Developed);
    let lines: Vec<&str> = text.split("\r\n").collect();
    assert_eq!(lines.len(), 5);
    assert!(
        lines[1].starts_with("1,arc,100.00,tail outer row,-65.05,0.00,tail outer row,-165.05,0.00,"),
        "{}",
        lines[1]
    );
    assert!(
        lines[2]
            .starts_with("2,line,,,,,tail outer row,-65.05,100.00,nose outer row,65.05,100.00,0.00,0.00,")
    );
    let deck = demo::dunlin();
    let figure = drawing(&deck, &made, Projection::Developed, System::default());
    let keys: Vec<&str> = figure.layers.iter().map(|layer| layer.key).collect();
    assert_eq!(
        keys,
        ["mark-out", "mark-out-ends", "mark-out-centres", "mark-out-numbers", "holes", "centreline", "text"]
    );
    assert_eq!((figure.layers[2].entities.len(), figure.layers[3].entities.len()), (6, 3));
    let list = list(&made, &Datum::default(), System::default());
    assert_eq!(
        list[0],
        "Radius 100.0 mm\nabout 65.1 mm to the tail of the tail outer row, 0.0 mm left\n\
         from 165.1 mm to the tail of the tail outer row, 0.0 mm left\n\
         to 65.1 mm to the tail of the tail outer row, 100.0 mm left"
    );
    assert!(list[1].starts_with("Straight\nfrom 65.1 mm to the tail of the tail outer row"), "{}", list[1]);
    let inches = System::Inches { denominator: crate::units::Denominator::ThirtySeconds };
    let list = super::list(&made, &Datum::default(), inches);
    assert!(list[0].starts_with("Radius 3 15/16 in\nabout 2 9/16 in to the tail"), "{}", list[0]);
}

#[test]
fn in_plan_the_bolt_holes_of_the_figure_are_those_of_the_plan() {
    let deck = demo::turnstone();
    let shape = deck.shape();
    for projection in [Projection::Developed, Projection::Plan] {
        let made = mark_out(&projection.half(shape), USUAL).unwrap();
        let figure = drawing(&deck, &made, projection, System::default());
        let holes = &figure.layers.iter().find(|layer| layer.key == "holes").unwrap().entities;
        let left = shape.datum.holes().into_iter().filter(|hole| hole.y > 0.0);
        for (found, hole) in holes.iter().zip(left) {
            let crate::format::drawing::Entity::Circle { centre, .. } = found else { panic!("{found:?}") };
            let from_above = shape.profile.plan(&shape.datum, hole);
            assert_eq!(*centre, if projection == Projection::Plan { from_above } else { hole });
        }
        assert_eq!(holes.len(), 4);
    }
}
