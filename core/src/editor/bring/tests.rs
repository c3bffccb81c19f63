use crate::{
    demo,
    editor::{Command, Editor, Intent, Settings},
    format::svg,
    history::History,
};
use kurbo::Size;

fn editor() -> Editor {
    Editor::new(History::new("opened", demo::turnstone()), Settings::default(), Size::new(900.0, 700.0))
}

fn type_in(editor: &mut Editor, key: &str, text: &str) {
    editor.handle(Intent::Type { key: key.to_owned(), text: text.to_owned() });
}

fn message(editor: &Editor, key: &str) -> String {
    editor
        .fields()
        .into_iter()
        .find(|field| field.key == key)
        .and_then(|field| field.message)
        .unwrap_or_default()
}

const TABLE: &str = "-390\t60\n-300\t92\n-200\t99\n0\t102\n200\t99\n300\t90\n390\t50\n-410\t0\n412\t0";

#[test]
fn a_table_is_shown_and_changes_nothing_until_it_is_taken() {
    let mut editor = editor();
    let before = editor.history().design().clone();
    type_in(&mut editor, "bring-rows", TABLE);
    assert!(editor.brought().is_some(), "{:?}", editor.notice());
    assert_eq!(editor.history().design(), &before);
    assert!(editor.scene().items.iter().any(|item| item.id == "taken"));
    editor.handle(Intent::Run(Command::TakeShape));
    assert_ne!(editor.history().design().shape().outline, before.shape().outline);
    assert!(editor.brought().is_none());
    editor.handle(Intent::Run(Command::Undo));
    assert_eq!(editor.history().design(), &before);
}

#[test]
fn what_is_left_leaves_no_trace() {
    let mut editor = editor();
    let before = editor.history().design().clone();
    type_in(&mut editor, "bring-rows", TABLE);
    editor.handle(Intent::Run(Command::LeaveShape));
    assert!(editor.brought().is_none() && editor.history().design() == &before);
    assert!(editor.scene().items.iter().all(|item| item.id != "taken"));
}

#[test]
fn a_bad_line_is_named_beside_the_field() {
    let mut editor = editor();
    type_in(&mut editor, "bring-rows", "0;95\n100;wide");
    assert!(message(&editor, "bring-rows").starts_with("Line 2: “wide” is not a length"));
    assert!(editor.notice().refused && editor.brought().is_none());
}

#[test]
fn a_drawing_without_a_unit_asks_for_it() {
    let mut editor = editor();
    let text = svg::export(&demo::dunlin()).replace("mm\"", "\"");
    editor.handle(Intent::BringFile { name: "dunlin.SVG".to_owned(), text: Ok(text) });
    assert!(message(&editor, "bring-unit").contains("does not say its unit"), "{:?}", editor.notice());
    type_in(&mut editor, "bring-unit", "mm");
    assert_eq!(message(&editor, "bring-unit"), "");
    editor.handle(Intent::Run(Command::TakeShape));
    let shape = editor.history().design().shape();
    assert_eq!(shape.datum.wheelbase, 304.8);
    assert!(shape.outline.twin);
}

#[test]
fn files_that_are_no_deck_are_refused_in_words() {
    let mut editor = editor();
    let before = editor.history().design().clone();
    for (name, text, expected) in [
        (
            "deck.dxf",
            Ok("0\nSECTION\n2\nENTITIES\n0\nENDSEC\n0\nEOF\n".to_owned()),
            "holds no lines or curves",
        ),
        ("deck.svg", Ok("<html></html>".to_owned()), "neither an SVG nor a DXF"),
        ("huge.dxf", Err(200_000_000), "200 MB"),
    ] {
        editor.handle(Intent::BringFile { name: name.to_owned(), text });
        let words = editor.brought_words().concat();
        assert!(words.contains(expected), "{name}: {words}");
        assert_eq!(editor.history().design(), &before);
    }
}
