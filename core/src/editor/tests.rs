//! The editor as a person uses it: grab, drag, drop, cancel, keys, fields, undo.

use super::*;
use crate::{demo::cubics, design::Design, units::Step};
use kurbo::Point;

fn editor() -> Editor {
    let history = History::new("opened", cubics::dunlin());
    Editor::new(history, Settings::default(), Size::new(1000.0, 600.0))
}

fn handle_at(editor: &Editor, id: &str) -> Point {
    editor.handles().into_iter().find(|handle| handle.id == id).unwrap().at
}

fn drag(editor: &mut Editor, id: &str, by: (f64, f64)) {
    let at = handle_at(editor, id);
    editor.handle(Intent::Grab { at, reach: 5.0 });
    editor.handle(Intent::Drag { to: at + kurbo::Vec2::from(by) });
    editor.handle(Intent::Drop);
}

#[test]
fn a_drag_moves_exactly_what_is_under_the_finger() {
    let mut editor = editor();
    let at = handle_at(&editor, "n2");
    let finger = at + kurbo::Vec2::new(1.0, -2.0);
    editor.handle(Intent::Grab { at: finger, reach: 5.0 });
    assert_eq!(handle_at(&editor, "n2"), at, "touching moves nothing");
    editor.handle(Intent::Drag { to: finger + kurbo::Vec2::new(3.0, -1.5) });
    assert!((handle_at(&editor, "n2") - (at + kurbo::Vec2::new(3.0, -1.5))).hypot() < 0.01);
}

#[test]
fn dragging_the_mirrored_tail_copy_moves_the_drawn_node_the_other_way() {
    let mut editor = editor();
    drag(&mut editor, "n2~tail~mirror", (-4.0, -1.0));
    let node = editor.design().shape().outline.nodes[2].place;
    assert_eq!((node.x, node.y), (172.0, 96.25));
}

#[test]
fn a_drag_is_one_step_and_a_cancelled_one_is_none() {
    let mut editor = editor();
    let before = editor.history().clone();
    let at = handle_at(&editor, "n0");
    editor.handle(Intent::Grab { at, reach: 5.0 });
    for k in 1..20 {
        editor.handle(Intent::Drag { to: at - kurbo::Vec2::new(0.0, f64::from(k) / 10.0) });
    }
    editor.handle(Intent::Cancel);
    assert_eq!(editor.history(), &before);
    drag(&mut editor, "n0", (0.0, -2.0));
    assert_eq!(editor.history().steps().len(), 2);
    editor.handle(Intent::Run(Command::Undo));
    assert_eq!(editor.design(), &cubics::dunlin());
}

#[test]
fn a_drag_past_the_holes_stops_at_the_limit_and_says_why() {
    let mut editor = editor();
    let at = handle_at(&editor, "n1");
    editor.handle(Intent::Grab { at, reach: 5.0 });
    editor.handle(Intent::Drag { to: Point::new(at.x, -40.0) });
    assert!(editor.notice().refused, "{:?}", editor.notice());
    let stopped = handle_at(&editor, "n1").y;
    assert!(stopped > 0.0 && stopped < at.y);
    // The limit lies on the way from grab to pointer, however one got there.
    for beyond in [[10.0, -90.0, 60.0], [-90.0, -41.3, -39.9], [-20.0, -200.0, -40.1]] {
        for (k, y) in beyond.into_iter().enumerate() {
            editor.handle(Intent::Drag { to: Point::new(at.x + k as f64, y) });
        }
        editor.handle(Intent::Drag { to: Point::new(at.x, -40.0) });
        assert_eq!(handle_at(&editor, "n1").y, stopped);
    }
}

#[test]
fn a_stopped_drag_names_what_it_met_and_not_what_lies_under_the_pointer() {
    let mut editor = editor();
    let at = handle_at(&editor, "n2");
    editor.handle(Intent::Grab { at, reach: 5.0 });
    editor.handle(Intent::Drag { to: Point::new(at.x, -60.0) });
    assert!(editor.notice().text.contains("bolt hole"), "{:?}", editor.notice());
}

#[test]
fn quick_nudges_of_one_node_are_one_step() {
    let mut editor = editor();
    for k in 0..10 {
        let (direction, step) = (Direction::Outward, Step::Normal);
        editor.handle(Intent::Nudge { target: Target::Node(1), direction, step, at_ms: f64::from(k) * 30.0 });
    }
    assert_eq!(editor.design().shape().outline.nodes[1].place.y, 100.25);
    assert_eq!(editor.history().steps().len(), 2);
    let (direction, step) = (Direction::Inward, Step::Coarse);
    editor.handle(Intent::Nudge { target: Target::Node(1), direction, step, at_ms: 9000.0 });
    assert_eq!(editor.history().steps().len(), 3);
}

#[test]
fn a_field_takes_inches_and_keeps_what_it_refuses() {
    let mut editor = editor();
    editor.handle(Intent::Type { key: "wheelbase".into(), text: "12 1/4 in".into() });
    assert_eq!(editor.design().shape().datum.wheelbase, 311.15);
    editor.handle(Intent::Type { key: "wheelbase".into(), text: "5".into() });
    let field = editor.fields().into_iter().find(|f| f.key == "wheelbase").unwrap();
    assert_eq!(field.text, "5");
    assert_eq!(
        field.message.as_deref(),
        Some("Wheelbase 5.0 mm cannot be met: it may be 150.0 mm to 900.0 mm; the nearest is 150 mm.")
    );
    assert_eq!(editor.design().shape().datum.wheelbase, 311.15);
}

#[test]
fn a_locked_drawing_does_not_move() {
    let mut editor = editor();
    editor.handle(Intent::Run(Command::ToggleLock));
    drag(&mut editor, "n2", (5.0, 5.0));
    assert_eq!(editor.design(), &cubics::dunlin());
}

#[test]
fn a_node_added_and_deleted_leaves_the_shape() {
    let mut editor = editor();
    let area = editor.measured().area;
    editor.handle(Intent::Grab { at: Point::new(300.0, -75.0), reach: 12.0 });
    editor.handle(Intent::Drop);
    assert!(editor.can(Command::AddNode), "{:?}", editor.selection());
    editor.handle(Intent::Run(Command::AddNode));
    assert_eq!(editor.design().shape().outline.nodes.len(), 6);
    assert!((editor.measured().area - area).abs() < 0.01);
    editor.handle(Intent::Run(Command::DeleteNode));
    assert_eq!(editor.design().shape().outline.nodes.len(), 5);
    assert!((editor.measured().area - area).abs() < 0.01);
}

#[test]
fn every_command_has_a_name_of_its_own() {
    let names: std::collections::BTreeSet<_> = Command::all().map(|(_, name, _)| name).collect();
    assert_eq!(names.len(), Command::all().count());
    for (command, name, _) in Command::all() {
        assert_eq!(Command::named(name), Some(command));
    }
}

#[test]
fn a_grip_comes_back_from_its_id() {
    let mut editor = editor();
    editor.handle(Intent::Select(Some(Target::Node(3))));
    for handle in editor.handles() {
        assert_eq!(handle.id.parse(), Ok(handle.grip), "{}", handle.id);
    }
}

#[test]
fn a_stroke_of_the_pen_redraws_in_one_step() {
    let mut editor = editor();
    editor.handle(Intent::Run(Command::ToggleRedraw));
    let edge: Vec<Point> = (0..=80)
        .map(|i| {
            let x = 230.0 + 1.4 * f64::from(i);
            let y = editor.measured().envelope.half_breadth(x).unwrap();
            Point::new(x, y + 0.02 * f64::from(i * (80 - i)) / 4.0)
        })
        .collect();
    editor.handle(Intent::InkBegin { at: edge[0] });
    editor.handle(Intent::Ink { places: edge[1..].to_vec() });
    editor.handle(Intent::InkEnd);
    assert_eq!(editor.history().undo_name(), Some("redrew a stretch"), "{:?}", editor.notice());
    editor.handle(Intent::Run(Command::Undo));
    assert_eq!(editor.design(), &cubics::dunlin());
}

fn laying(deck: Design) -> Editor {
    let mut editor = Editor::new(History::new("opened", deck), Settings::default(), Size::new(1000.0, 600.0));
    editor.handle(Intent::Select(Some(Target::Node(3))));
    editor.handle(Intent::Run(Command::MarkStretch));
    editor.handle(Intent::Select(Some(Target::Node(4))));
    editor.handle(Intent::Sweep(SweepIntent::Keep { name: String::new() }));
    editor.handle(Intent::Sweep(SweepIntent::Lay { sweep: 0 }));
    editor
}

#[test]
fn a_nose_is_kept_and_laid_on_the_tail_by_two_touches() {
    let mut editor = laying(cubics::turnstone());
    assert!(editor.is_laying() && editor.notice().text.contains("“Sweep 1”"), "{:?}", editor.notice());
    editor.handle(Intent::Grab { at: Point::new(-245.0, -104.0), reach: 8.0 });
    editor.handle(Intent::Drop);
    assert!(editor.scene().items.iter().any(|item| item.role == scene::Role::Sweep));
    editor.handle(Intent::Grab { at: Point::new(-404.0, -3.0), reach: 8.0 });
    editor.handle(Intent::Drop);
    assert_eq!(editor.history().undo_name(), Some("laid a sweep"), "{:?}", editor.notice());
    assert!(!editor.is_laying() && !editor.notice().refused);
    let view = &editor.sweeps()[0];
    assert_eq!((view.name.as_str(), view.used), ("Sweep 1", 1));
    assert_eq!(view.words, "own curve, 207.0 mm long, laid once");
    assert_eq!(
        editor.laid_words().as_deref(),
        Some("Selected: “Sweep 1”, used between two marks on its 207.0 mm.")
    );
    assert!(editor.scene().items.iter().any(|item| item.id == "sweep-0"));
    let (steps, before) = (editor.history().steps().len(), editor.design().clone());
    for at_ms in [0.0, 100.0, 200.0] {
        let turn = SweepIntent::Turn { anticlockwise: true, step: Step::Fine, at_ms };
        editor.handle(Intent::Sweep(turn));
    }
    assert_eq!(editor.history().steps().len(), steps + 1, "{:?}", editor.notice());
    assert_ne!(editor.design(), &before);
    editor.handle(Intent::Run(Command::Undo));
    assert_eq!(editor.design(), &before);
    let field = |editor: &Editor, key| {
        editor.fields().into_iter().find(|field| field.key == key).map(|field| field.text).unwrap()
    };
    let whole = field(&editor, "mark-to");
    assert_eq!((field(&editor, "mark-from").as_str(), whole.as_str()), ("0", "206.96"));
    editor.handle(Intent::Type { key: "mark-to".into(), text: "150".into() });
    assert_eq!(field(&editor, "mark-to"), "150", "{:?}", editor.notice());
    editor.handle(Intent::Type { key: "mark-to".into(), text: "300".into() });
    assert!(editor.notice().refused && editor.notice().text.contains("marks lie on the sweep"));
    editor.handle(Intent::Run(Command::Undo));
    assert_eq!(editor.design(), &before);
    editor.handle(Intent::Untype);
    editor.handle(Intent::Sweep(SweepIntent::Free));
    assert_eq!(editor.sweeps()[0].used, 0, "{:?}", editor.notice());
}

#[test]
fn between_two_marked_nodes_a_sweep_is_laid_without_a_touch() {
    let mut editor = laying(cubics::turnstone());
    editor.handle(Intent::Cancel);
    editor.handle(Intent::Select(Some(Target::Node(1))));
    editor.handle(Intent::Run(Command::MarkStretch));
    editor.handle(Intent::Select(Some(Target::Node(0))));
    editor.handle(Intent::Sweep(SweepIntent::Lay { sweep: 0 }));
    assert_eq!(editor.history().undo_name(), Some("laid a sweep"), "{:?}", editor.notice());
    assert!(!editor.is_laying() && editor.laid_words().is_some());
}

#[test]
fn a_sweep_of_a_family_is_sized_until_it_is_laid() {
    let mut editor = editor();
    editor.handle(Intent::Run(Command::AddSuperellipse));
    let texts = |editor: &Editor| -> Vec<String> {
        editor.sweeps()[0].sizes.iter().map(|size| size.text.clone()).collect()
    };
    assert_eq!(texts(&editor), ["160", "100", "2.5"]);
    for (key, text) in [("sweep-1-along", "17 cm"), ("sweep-1-exponent", "2.25"), ("sweep-1-name", "Round")] {
        editor.handle(Intent::Type { key: key.into(), text: text.into() });
        assert!(!editor.notice().refused, "{:?}", editor.notice());
    }
    assert_eq!(texts(&editor), ["170", "100", "2.25"]);
    assert_eq!(editor.sweeps()[0].name, "Round");
    for text in ["0", "-3", "wide", "9999"] {
        editor.handle(Intent::Type { key: "sweep-1-across".into(), text: text.into() });
        assert!(editor.notice().refused, "{text}");
    }
    assert_eq!(texts(&editor), ["170", "100", "2.25"]);
}

#[test]
fn laying_is_left_by_a_cancel_and_a_touch_in_the_air_lays_nothing() {
    let mut editor = laying(cubics::turnstone());
    let before = editor.design().clone();
    editor.handle(Intent::Grab { at: Point::new(-100.0, 40.0), reach: 8.0 });
    assert!(editor.is_laying() && editor.notice().text.contains("edge itself"), "{:?}", editor.notice());
    editor.handle(Intent::Cancel);
    assert!(!editor.is_laying());
    editor.handle(Intent::Sweep(SweepIntent::Flip { over: true }));
    assert!(editor.notice().text.contains("Select a stretch"), "{:?}", editor.notice());
    assert_eq!(editor.design(), &before);
}

#[test]
fn a_version_lies_behind_and_can_be_gone_back_to() {
    let mut editor = editor();
    editor.handle(Intent::KeepVersion { date: "2026-11-25".into() });
    drag(&mut editor, "n0", (0.0, -2.0));
    assert_eq!(editor.behind(), Some("Version 1"));
    let waist = editor.differences().into_iter().find(|d| d.key == "waist-width").unwrap();
    assert_eq!(
        (waist.then.as_str(), waist.now.as_str(), waist.change.as_str()),
        ("182.5 mm", "178.5 mm", "− 4.0")
    );
    editor.handle(Intent::Type { key: "version-1-note".into(), text: "Pops well. Next: wider.".into() });
    editor.handle(Intent::GoBackTo(0));
    assert_eq!(editor.design().shape(), cubics::dunlin().shape());
    assert_eq!(editor.versions()[0].note, "Pops well. Next: wider.");
}

#[test]
fn typed_limits_hold_for_what_no_shape_is_refused_for() {
    for (key, text, words) in [
        ("nose-tip-radius", "2", "Nose tip radius 2.0 mm is too small (at least 3.0 mm)."),
        ("tail-tip-radius", "401", "Tail tip radius 401.0 mm is too large (at most 400.0 mm)."),
        ("nose-kick-taper", "46", "Nose kick taper 46.0° is too large (at most 45.0°)."),
        (
            "wheelbase",
            "149",
            "Wheelbase 149.0 mm cannot be met: it may be 150.0 mm to 900.0 mm; the nearest is 150 mm.",
        ),
    ] {
        let mut editor = editor();
        editor.handle(Intent::Type { key: key.to_owned(), text: text.to_owned() });
        let field = editor.fields().into_iter().find(|field| field.key == key).unwrap();
        assert_eq!(field.message.as_deref(), Some(words));
    }
}

#[test]
fn a_typed_wheelbase_is_met_to_the_nanometre() {
    let mut editor = editor();
    editor.handle(Intent::Type { key: "wheelbase".to_owned(), text: "371.3".to_owned() });
    assert_eq!(editor.design().shape().datum.wheelbase, 371.3);
}

#[test]
fn what_does_not_differ_from_the_version_behind_has_no_change() {
    let mut editor = editor();
    editor.handle(Intent::KeepVersion { date: "2026-07-04".to_owned() });
    editor.handle(Intent::Type { key: "overall-width".to_owned(), text: "193.5".to_owned() });
    let readouts = editor.readouts();
    let change = |key| readouts.iter().find(|readout| readout.key == key).unwrap().change.as_str();
    assert_eq!([change("overall-width"), change("overall-length")], ["+ 3.0", ""]);
}

#[test]
fn a_drag_waits_level_with_another_node_and_says_so() {
    let mut editor = editor();
    let at = handle_at(&editor, "n3");
    editor.handle(Intent::Run(Command::ToggleSnap));
    editor.handle(Intent::Zoom { about: at, factor: 6.0 });
    editor.handle(Intent::Grab { at, reach: 5.0 });
    editor.handle(Intent::Drag { to: Point::new(at.x, 95.25 + 0.4) });
    assert_eq!(handle_at(&editor, "n3").y, 95.25);
    assert_eq!(editor.notice().text, "As wide as node 2.");
    editor.handle(Intent::Cancel);
    editor.handle(Intent::Run(Command::ToggleSnap));
    editor.handle(Intent::Grab { at, reach: 5.0 });
    editor.handle(Intent::Drag { to: Point::new(at.x, 95.25 + 2.0) });
    assert_eq!(handle_at(&editor, "n3").y, 97.25);
}

#[test]
fn a_typed_width_in_inches_is_met_and_a_lock_keeps_it_under_a_drag() {
    let mut editor = editor();
    editor.handle(Intent::Run(Command::Inches));
    editor.handle(Intent::Type { key: "overall-width".into(), text: "7 5/8".into() });
    assert!((editor.measured().overall_width - 193.675).abs() < 1e-3, "{:?}", editor.notice());
    editor.handle(Intent::ToggleLock { key: "overall-width".into() });
    let waist = handle_at(&editor, "n0");
    drag(&mut editor, "n0", (0.0, -2.0));
    assert_ne!(handle_at(&editor, "n0"), waist);
    drag(&mut editor, "n1", (2.0, -1.0));
    assert!((editor.measured().overall_width - 193.675).abs() < 1e-3, "{:?}", editor.notice());
}

#[test]
fn a_waist_is_refused_with_words_where_there_is_none() {
    let mut editor = Editor::new(
        History::new("opened", cubics::turnstone()),
        Settings::default(),
        Size::new(900.0, 600.0),
    );
    editor.handle(Intent::Type { key: "waist-width".into(), text: "180".into() });
    assert!(editor.notice().text.contains("no waist"), "{:?}", editor.notice());
    assert_eq!(editor.design(), &cubics::turnstone());
}

#[test]
fn fields_show_a_place_rounded_and_keep_what_is_typed() {
    let mut editor = editor();
    let at = handle_at(&editor, "n1");
    editor.handle(Intent::Grab { at, reach: 5.0 });
    editor.handle(Intent::Drag { to: Point::new(at.x + 3.0, -40.0) });
    editor.handle(Intent::Drop);
    let stored = editor.design().shape().outline.nodes[1].place.y;
    let text = |editor: &Editor, key: &str| {
        let field = editor.fields().into_iter().find(|field| field.key == key);
        field.unwrap().text
    };
    assert_ne!((stored * 100.0).fract(), 0.0, "a drag stopped on a slant ends anywhere: {stored}");
    assert!((text(&editor, "node-across").parse::<f64>().unwrap() - stored).abs() <= 0.005);
    assert!(text(&editor, "node-across").len() <= 6);
    editor.handle(Intent::Type { key: "node-across".into(), text: "94.1234".into() });
    assert_eq!(editor.design().shape().outline.nodes[1].place.y, 94.1234);
    assert_eq!(text(&editor, "node-across"), "94.12");
    for key in ["overall-width", "nose-kick-taper", "waist-length"] {
        let decimals = text(&editor, key).split_once('.').map_or(0, |(_, decimals)| decimals.len());
        assert!(decimals <= 2, "{key}");
    }
}

#[test]
fn a_tap_on_the_letters_of_a_figure_means_its_field_and_a_node_beside_it_the_node() {
    let editor = editor();
    let figures = editor.figures(&editor.scene());
    let width = figures.iter().find(|figure| figure.key == "overall-width").unwrap();
    assert_eq!(width.label, "Set Width: 190.5 mm");
    let px = 1.0 / editor.view().scale;
    let middle = editor.view().to_mm(width.area.center());
    assert_eq!(editor.figure_at(middle, 12.0 * px), Some("overall-width"));
    let beside = editor.view().to_mm(Point::new(width.area.x0 - 5.0, width.area.center().y));
    assert_eq!(editor.figure_at(beside, 12.0 * px), Some("overall-width"));
    assert_eq!(editor.figure_at(beside, 8.0 * px), None, "half of the reach");
    for handle in editor.handles() {
        assert_eq!(editor.figure_at(handle.at, 30.0 * px), None, "{}", handle.id);
    }
}

#[test]
fn what_is_held_at_a_limit_stands_where_it_was_stopped_on_the_copy_in_hand() {
    let mut editor = editor();
    let at = handle_at(&editor, "n1~mirror");
    assert_eq!(editor.held_at(), None);
    editor.handle(Intent::Grab { at, reach: 5.0 });
    editor.handle(Intent::Drag { to: Point::new(at.x, 40.0) });
    assert!(editor.notice().refused);
    assert_eq!(editor.held_at(), Some(handle_at(&editor, "n1~mirror")));
    assert!(editor.held_at().unwrap().y < 0.0, "stopped on its own side of the centreline");
    assert!(editor.held_words().contains(" · "));
}

#[test]
fn messages_have_the_minus_of_all_other_figures() {
    let mut editor = editor();
    for (found, shown) in [
        ("the bolt hole at -235.0 mm along", "The bolt hole at −235.0 mm along."),
        ("an off-curve point. it stays (-3 to -0.5).", "An off-curve point. it stays (−3 to −0.5)."),
        ("“-3/16 x” is not a length", "“−3/16 x” is not a length."),
    ] {
        editor.refuse_for(&found);
        assert_eq!(editor.notice().text, shown);
    }
}

#[test]
fn what_is_refused_is_said_in_the_units_on_the_screen() {
    let mut editor = editor();
    let refused = |editor: &mut Editor| {
        editor.handle(Intent::Type { key: "overall-width".into(), text: "20 in".into() });
        editor.notice().text.clone()
    };
    let text = refused(&mut editor);
    assert!(text.ends_with("it may be 120.0 mm to 320.0 mm; the nearest is 320 mm."), "{text}");
    editor.handle(Intent::Run(Command::Inches));
    let text = refused(&mut editor);
    assert_eq!(
        text,
        "Width 20 in cannot be met: it may be ≈ 4 23/32 in to ≈ 12 19/32 in; the nearest is 320 mm."
    );
}

#[test]
fn fairing_what_is_fair_changes_nothing_and_says_so() {
    let mut editor = Editor::new(
        History::new("opened", cubics::turnstone()),
        Settings::default(),
        Size::new(1000.0, 600.0),
    );
    editor.handle(Intent::Select(Some(Target::Node(1))));
    editor.handle(Intent::Run(Command::MarkStretch));
    editor.handle(Intent::Select(Some(Target::Node(3))));
    editor.handle(Intent::Run(Command::Fair));
    assert_eq!(editor.notice().text, "Nothing to fair within the bound.");
    assert_eq!(editor.history().undo_name(), None);
}

#[test]
fn a_cancel_with_nothing_under_way_puts_the_pen_down() {
    let mut editor = editor();
    editor.handle(Intent::Run(Command::ToggleRedraw));
    editor.handle(Intent::InkBegin { at: Point::new(0.0, 95.0) });
    editor.handle(Intent::Cancel);
    assert!(editor.redrawing(), "only the stroke is broken off");
    editor.handle(Intent::Cancel);
    assert!(!editor.redrawing());
}

#[test]
fn an_outline_brought_in_is_one_step() {
    let mut editor = editor();
    let before = editor.design().clone();
    let outline = cubics::turnstone().shape().outline.clone();
    editor.handle(Intent::Bring { step: "took it", outline: outline.clone() });
    assert_eq!(editor.design().shape().outline, outline);
    assert_eq!(editor.history().undo_name(), Some("took it"));
    editor.handle(Intent::Run(Command::Undo));
    assert_eq!(*editor.design(), before);
}
