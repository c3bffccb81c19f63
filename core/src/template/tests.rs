//! Templates of the demo decks and of a square-ended one: edges, ears, holes, marks, warnings, and what is refused.

use super::*;
use crate::{
    demo,
    format::samples,
    outline::{Joint, Node, Outline, Span},
    quantities,
};

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "found {found}, expected {expected} within {within}");
}

fn template(options: TemplateOptions) -> Template {
    Template::of(&demo::turnstone(), options, System::default()).unwrap()
}

fn full() -> TemplateOptions {
    TemplateOptions { half: false, ..TemplateOptions::default() }
}

/// Turnstone with both ends cut square, at corners 60 mm off the centreline.
fn square_ended() -> Design {
    let corner = |x: f64, y: f64| Node { place: Point::new(x, y), joint: Joint::Corner };
    let nodes = vec![
        corner(-400.0, 0.0),
        corner(-400.0, 60.0),
        corner(-240.0, 100.0),
        corner(0.0, 70.0),
        corner(240.0, 100.0),
        corner(400.0, 60.0),
        corner(400.0, 0.0),
    ];
    let outline =
        Outline { spans: vec![Span::Straight; nodes.len() - 1], nodes, twin: false, sweeps: Vec::new() };
    let deck = demo::turnstone();
    deck.with_shape(Shape { outline, ..deck.shape().clone() }).unwrap()
}

#[test]
fn the_edge_of_an_outside_template_lies_half_the_difference_inside() {
    near(full().edge(), -4.825, 1e-12);
    let extent = arcs::extent(&template(full()).edges[0]).unwrap();
    near(extent.width(), 812.8 - 9.65, 0.002);
    near(extent.height(), 209.55 - 9.65, 0.002);
}

#[test]
fn a_window_is_wider_than_what_it_is_for() {
    for (cut, edge) in [(Cut::WindowDeck, 11.175), (Cut::WindowOpening, 4.825)] {
        let window = template(TemplateOptions { cut, ..full() });
        assert_eq!(window.edges.len(), 2, "the window and its frame");
        let extent = arcs::extent(&window.edges[0]).unwrap();
        near(extent.width(), 812.8 + 2.0 * edge, 0.002);
        assert!(window.holes.is_empty(), "there is no wood in a window");
    }
    // A bearing as wide as its bit follows the outline itself.
    let flush = TemplateOptions { guide: Guide::Bearing, ..full() };
    assert_eq!(flush.edge(), 0.0);
    assert_eq!(template(flush.clone()).edges[0].len(), template(flush).outline.len());
}

#[test]
fn a_half_template_ends_at_the_centreline_between_its_ears() {
    let half = template(TemplateOptions::default());
    let [edge] = &half.edges[..] else { panic!("one edge") };
    let next = edge.iter().cycle().skip(1);
    assert!(edge.iter().zip(next).all(|(arc, next)| arc.p1 == next.p0), "closed");
    let extent = arcs::extent(edge).unwrap();
    near(extent.y0, -25.0, 1e-9);
    near(extent.width(), 812.8 - 9.65, 0.002);
    let centreline: Vec<&Arc> = edge.iter().filter(|arc| arc.p0.y == 0.0 && arc.p1.y == 0.0).collect();
    assert_eq!(centreline.len(), 1);
    // Between the ears, each 25 mm wide where the edge comes in farthest.
    assert!(centreline[0].length() > 700.0 && centreline[0].length() < 812.8 - 9.65 - 50.0);
    assert_eq!(half.holes.len(), 4);
    assert!(half.holes.iter().all(|hole| hole.y > 0.0));
    assert!(half.bend_lines.iter().all(|line| line[0].y == 0.0 && (line[1].y - 95.5).abs() < 1.0));
    // Half the full one and two ears.
    let ears = arcs::signed_area(edge) - arcs::signed_area(&template(full()).edges[0]) / 2.0;
    assert!((2.0 * 25.0 * 25.0..2.0 * 25.0 * 40.0).contains(&ears), "{ears}");
}

#[test]
fn past_the_tip_a_half_template_goes_on_as_the_full_one() {
    let (half, whole) = (template(TemplateOptions::default()), template(full()));
    let past = half.edges[0].iter().filter(|arc| !arc.is_line() && arc.p1.y < 0.0);
    for arc in past {
        near(arcs::distance(&whole.edges[0], arc.point(0.5)), 0.0, 1e-9);
    }
}

#[test]
fn a_bushing_no_wider_than_its_bit_is_refused_in_words() {
    let options = TemplateOptions { bushing: 12.0, bit: 12.0, ..full() };
    let refused = options.checked().unwrap_err();
    assert_eq!(refused.field(), "bushing");
    let text = refused.to_string();
    assert!(text.starts_with("a bit of 12.00 mm does not fit through a bushing of 12.00 mm: "), "{text}");
    let bearing = TemplateOptions { guide: Guide::Bearing, bushing: 12.0, bit: 12.0, ..full() };
    assert!(bearing.checked().is_ok(), "only a bushing goes round its bit");
}

#[test]
fn every_length_has_limits_that_hold_its_default_and_refuse_the_rest() {
    for row in OPTIONS {
        let key = row.quantity.key;
        assert!(row.quantity.help.ends_with('.') && !row.quantity.label.is_empty(), "{key}");
        let default = TemplateOptions::default();
        assert!((row.least..=row.most).contains(&(row.get)(&default)), "{key}");
        assert!(quantities::find_setting(key).is_none() && quantities::find_measure(key).is_none(), "{key}");
        for value in [row.least - 0.01, row.most + 0.01, f64::NAN, f64::INFINITY] {
            let mut options = TemplateOptions { guide: Guide::Bearing, ..default.clone() };
            (row.set)(&mut options, value);
            let refused = options.checked().unwrap_err();
            assert_eq!(refused.field(), key);
            assert!(refused.to_string().starts_with(row.quantity.label), "{refused}");
        }
    }
}

/// Whether a point lies on the wood of a template, by the turns of its edges round it.
fn is_wood(template: &Template, p: Point) -> bool {
    let turns = |edge: &Vec<Arc>| {
        let sides = edge.iter().flat_map(|arc| {
            arc.flattened(0.01).scan(arc.p0, |from, to| Some((core::mem::replace(from, to), to)))
        });
        sides
            .filter(|(a, b)| {
                (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)
            })
            .count()
    };
    template.edges.iter().map(turns).sum::<usize>() % 2 == 1
}

#[test]
fn half_a_window_is_wood_round_the_left_half_with_ears_past_the_centreline() {
    for cut in [Cut::WindowDeck, Cut::WindowOpening] {
        let half = template(TemplateOptions { cut, ..TemplateOptions::default() });
        let whole = template(TemplateOptions { cut, ..full() });
        let [edge] = &half.edges[..] else { panic!("one edge") };
        let next = edge.iter().cycle().skip(1);
        assert!(edge.iter().zip(next).all(|(arc, next)| arc.p1 == next.p0), "closed");
        // Where the whole window has its edge the half one has it too, and as much past the tips as the ears are long.
        let window = &whole.edges[0];
        for arc in window.iter().filter(|arc| arc.p0.y.min(arc.p1.y) >= 0.0) {
            near(arcs::distance(edge, arc.point(0.5)), 0.0, 1e-9);
        }
        near(arcs::extent(edge).unwrap().y0, -25.0, 1e-9);
        let frame = arcs::signed_area(&whole.edges[1]) - arcs::signed_area(window);
        let ears = arcs::signed_area(edge) - frame / 2.0;
        assert!((2.0 * 25.0 * 25.0..2.0 * 25.0 * 40.0).contains(&ears), "{ears}");
        let tip = arcs::extent(window).unwrap();
        for x in [tip.x0 - 1.0, tip.x1 + 1.0] {
            assert!(is_wood(&half, Point::new(x, 1.0)) && is_wood(&half, Point::new(x, -1.0)), "{x}");
        }
        assert!(!is_wood(&half, Point::new(0.0, 50.0)) && is_wood(&half, Point::new(0.0, tip.y1 + 59.0)));
    }
}

#[test]
fn what_is_on_a_window_lies_on_its_wood() {
    for half in [true, false] {
        for cut in [Cut::WindowDeck, Cut::WindowOpening] {
            let made = template(TemplateOptions { cut, half, ..full() });
            let drawing = made.drawing();
            for layer in drawing
                .layers
                .iter()
                .filter(|layer| !["template", "outline", "saw-line"].contains(&layer.key))
            {
                assert!(!layer.entities.is_empty() || layer.key == "holes", "{}", layer.key);
                for entity in &layer.entities {
                    let p = match entity {
                        Entity::Line(a, b) => a.midpoint(*b),
                        Entity::Text { at, .. } => *at,
                        other => panic!("{other:?}"),
                    };
                    assert!(
                        is_wood(&made, p + kurbo::Vec2::new(0.0, 1e-3)),
                        "{cut:?} {half} {}: {entity:?}",
                        layer.key
                    );
                }
            }
            assert_eq!(
                made.saw_line.len(),
                usize::from(cut == Cut::WindowDeck),
                "an opening is not sawn from outside"
            );
        }
    }
}

#[test]
fn texts_say_what_it_is_and_hostile_ones_are_cleaned() {
    for name in samples::HOSTILE_NAMES {
        let deck = demo::dunlin().renamed(name).unwrap();
        let options =
            TemplateOptions { version: name.to_owned(), date: "2026-05-02\n0\nEOF".to_owned(), ..full() };
        let made = Template::of(&deck, options, System::default()).unwrap();
        let texts: Vec<&str> = made
            .texts
            .iter()
            .filter_map(
                |entity| if let Entity::Text { text, .. } = entity { Some(text.as_str()) } else { None },
            )
            .collect();
        assert_eq!(texts[..2], ["NOSE", "TOP FACE"]);
        let texts = &texts[1..];
        assert_eq!(texts[1], "DEVELOPED: flat pattern along the top face");
        assert_eq!(texts[2], "Outside of the template, edge 4.83 mm inside, bit 6.35 mm");
        assert!(texts[3].ends_with("2026-05-02 0 EOF"), "{}", texts[3]);
        assert!(!texts[3].contains('\n'));
    }
}

#[test]
fn texts_and_bars_lie_on_the_template_between_the_trucks() {
    for deck in demo::all() {
        let made = Template::of(&deck, TemplateOptions::default(), System::default()).unwrap();
        let inner = deck.shape().datum.inner_row();
        for entity in made.texts.iter().chain(&made.check_bars) {
            let corners = match entity {
                Entity::Text { at, height, text } => {
                    let width = 4.0 / 3.0 * height * text.chars().count() as f64;
                    [*at, Point::new(at.x + width, at.y + height)]
                }
                Entity::Line(a, b) => [*a, *b],
                other => panic!("{other:?}"),
            };
            for p in corners {
                assert!(p.x.abs() <= inner - 9.9 && p.y > 0.0 && p.y < 85.0, "{entity:?}");
            }
        }
    }
}

#[test]
fn the_check_bars_are_as_long_as_they_say() {
    let bars = template(full()).check_bars;
    let lengths: Vec<f64> = bars
        .iter()
        .filter_map(|bar| if let Entity::Line(a, b) = bar { Some((*b - *a).hypot()) } else { None })
        .filter(|length| *length > 10.0)
        .collect();
    assert_eq!(lengths, [100.0, 101.6]);
}

#[test]
fn places_the_tool_cannot_follow_are_told_with_their_way_out() {
    let made = Template::of(&square_ended(), TemplateOptions { half: false, ..full() }, System::default());
    let warnings = made.unwrap().warnings;
    let about = |key: &str| warnings.iter().filter(|w| w.key == key).map(|w| w.at.unwrap().x).collect();
    // Both square ends, and the corners of the rails.
    let bushing: Vec<f64> = about("bushing");
    assert!(bushing.contains(&-400.0) && bushing.contains(&400.0), "{bushing:?}");
    let bit: Vec<f64> = about("bit");
    assert_eq!(bit, [0.0], "the inner corner amidships");
    let text = &warnings.iter().find(|w| w.key == "bit").unwrap().text;
    assert_eq!(
        text,
        "The edge has an inner corner, and the bit's radius is 3.18 mm: take a thinner bit, or file it."
    );
    assert_eq!(template(full()).warnings, []);
}

#[test]
fn places_the_tool_cannot_follow_are_ringed_in_the_files_too() {
    for (half, sides) in [(false, 2), (true, 1)] {
        let made =
            Template::of(&square_ended(), TemplateOptions { half, ..full() }, System::default()).unwrap();
        let rings = |made: &Template| {
            let layers = made.drawing().layers;
            layers.into_iter().find(|layer| layer.key == "doubtful").map_or(0, |layer| layer.entities.len())
        };
        let places = made.warnings.iter().filter_map(|warning| warning.at);
        let expected: usize = places.map(|at| if at.y > 0.0 { sides } else { 1 }).sum();
        assert!(expected >= 3);
        assert_eq!(rings(&made), expected);
        assert_eq!(rings(&template(full())), 0);
    }
}

#[test]
fn a_thick_template_warns_that_it_will_not_follow_a_kick() {
    let thick = TemplateOptions { thickness: 12.0, ..full() };
    assert_eq!(template(thick.clone()).warnings[0].key, "template-thickness");
    let plan = TemplateOptions { projection: Projection::Plan, ..thick };
    assert_eq!(template(plan).warnings, []);
}

#[test]
fn a_plan_template_is_as_short_as_the_pressed_deck() {
    let plan = template(TemplateOptions { projection: Projection::Plan, ..full() });
    near(arcs::extent(&plan.edges[0]).unwrap().width(), 796.3 - 9.65, 0.05);
    near(arcs::extent(&plan.outline).unwrap().width(), 796.3, 0.05);
}

#[test]
fn the_drawing_has_a_layer_for_each_meaning() {
    let drawing = template(TemplateOptions { holes: HoleKind::Marks, ..full() }).drawing();
    let keys: Vec<&str> = drawing.layers.iter().map(|layer| layer.key).collect();
    let expected =
        ["template", "holes", "saw-line", "outline", "centreline", "bend-lines", "text", "check-bar"];
    assert_eq!(keys, expected);
    assert_eq!(drawing.layers[1].entities.len(), 16, "two lines a mark");
    near(drawing.extent().width(), 812.8 + 4.0, 0.01);
}
