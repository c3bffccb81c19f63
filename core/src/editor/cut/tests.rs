use super::*;
use crate::{
    demo,
    editor::{Command, Intent, Settings},
    export::Part,
    history::History,
    scene::Mark,
};
use kurbo::{Point, Size};

fn in_cut() -> Editor {
    let history = History::new("opened", demo::turnstone());
    let mut editor = Editor::new(history, Settings::default(), Size::new(1000.0, 600.0));
    editor.handle(Intent::Enter(Room::Cut));
    editor
}

fn type_in(editor: &mut Editor, key: &str, text: &str) {
    editor.handle(Intent::Type { key: key.to_owned(), text: text.to_owned() });
}

fn field(editor: &Editor, key: &str) -> Field {
    let found = editor.fields().into_iter().find(|field| field.key == key);
    found.unwrap_or_else(|| panic!("no field {key}"))
}

#[test]
fn what_is_chosen_is_what_is_shown_counted_and_saved() {
    let mut editor = in_cut();
    for part in Part::ALL {
        type_in(&mut editor, "part", part.key());
        let facts = editor.file_facts();
        for facts in &facts {
            let file = editor.file(facts.kind);
            assert_eq!(file.as_ref().ok().map(|file| file.bytes.len()), facts.bytes);
            assert_eq!(file.ok().map(|file| file.entities), facts.entities);
        }
        let drawing = &editor.made().unwrap().drawing;
        let is_text = |entity: &&crate::format::drawing::Entity| {
            matches!(entity, crate::format::drawing::Entity::Text { .. })
        };
        let texts = drawing.layers.iter().flat_map(|layer| &layer.entities).filter(is_text).count();
        let scene = editor.scene();
        let engraved = scene.items.iter().filter(|item| matches!(item.mark, Mark::Engraved { .. }));
        assert_eq!(engraved.count(), texts, "{part:?}");
        for (i, layer) in drawing.layers.iter().enumerate() {
            if layer.entities.iter().all(|entity| is_text(&entity)) {
                continue;
            }
            let id = format!("{}-{}", if i == 0 { "cut" } else { "beside" }, layer.key);
            assert!(scene.items.iter().any(|item| item.id == id), "{part:?} {id}");
        }
    }
}

#[test]
fn what_does_not_go_together_is_told_beside_its_field_and_disables_saving() {
    let mut editor = in_cut();
    type_in(&mut editor, "part", "half-template");
    type_in(&mut editor, "bushing", "6");
    assert_eq!(
        field(&editor, "bushing").message.unwrap(),
        "A bit of 6.35 mm does not fit through a bushing of 6.00 mm: take a wider bushing or a thinner bit."
    );
    assert!(!editor.can(Command::ExportSvg));
    type_in(&mut editor, "bit", "3");
    assert_eq!(field(&editor, "bushing").message, None);
    assert!(editor.can(Command::ExportSvg) && !editor.can(Command::ExportCsv));
    // A text that is refused leaves all else as it was.
    type_in(&mut editor, "bit", "3000");
    let bit = field(&editor, "bit");
    assert_eq!((bit.text.as_str(), bit.message.is_some()), ("3000", true));
    assert_eq!(editor.export().template.bit, 3.0);
    type_in(&mut editor, "paper", "a4");
    type_in(&mut editor, "margin", "50");
    assert!(field(&editor, "margin").message.unwrap().contains("margins"));
    assert!(editor.can(Command::ExportSvg) && !editor.can(Command::ExportPdf));
}

#[test]
fn lengths_are_typed_in_inches_too() {
    let mut editor = in_cut();
    type_in(&mut editor, "part", "template");
    editor.handle(Intent::Run(Command::Inches));
    assert_eq!(field(&editor, "bit").text, "1/4");
    type_in(&mut editor, "bushing", "5/8");
    assert_eq!(editor.export().template.bushing, 15.875);
}

#[test]
fn what_does_not_go_together_is_told_in_the_units_on_the_screen() {
    let mut editor = in_cut();
    editor.handle(Intent::Run(Command::Inches));
    let said = |editor: &Editor, key: &str| {
        let message = field(editor, key).message.unwrap_or_else(|| panic!("{key} is not refused"));
        assert!(!message.contains(" mm"), "{message}");
        message
    };
    type_in(&mut editor, "part", "half-template");
    type_in(&mut editor, "bushing", "1/4");
    assert!(said(&editor, "bushing").contains("0.250 in does not fit"), "{}", said(&editor, "bushing"));
    type_in(&mut editor, "bushing", "5/8");
    type_in(&mut editor, "margin", "1.9");
    assert!(said(&editor, "margin").contains("check bars"));
    type_in(&mut editor, "margin", "1/4");
    type_in(&mut editor, "export-tolerance", "2");
    assert_eq!(
        said(&editor, "export-tolerance"),
        "A tolerance of 2 in is not between 0.000004 and 0.019685 in."
    );
    type_in(&mut editor, "mark-out-tolerance", "1");
    said(&editor, "mark-out-tolerance");
}

#[test]
fn leaving_the_room_shows_the_board_as_it_is_drawn() {
    let mut editor = in_cut();
    let cut = editor.view();
    assert!(editor.scene().items.iter().any(|item| item.id == "cut-outline"));
    editor.handle(Intent::Enter(Room::Draw));
    assert!(editor.scene().items.iter().all(|item| !item.id.starts_with("cut-")));
    assert!(editor.view() != cut && editor.prepared().is_none());
}

#[test]
fn another_design_is_made_anew_with_the_same_choices() {
    let mut editor = in_cut();
    type_in(&mut editor, "part", "template");
    editor.handle(Intent::Run(Command::OpenDunlin));
    assert_eq!(editor.made().unwrap().drawing.name, "Dunlin");
    assert_eq!(editor.export().part, Part::Template);
}

#[test]
fn full_size_is_as_large_as_a_card_said() {
    let mut editor = in_cut();
    let px = |editor: &Editor| {
        let view = editor.view();
        (view.to_px(Point::new(100.0, 0.0)) - view.to_px(Point::ORIGIN)).hypot()
    };
    editor.handle(Intent::Run(Command::TrueSize));
    assert!((px(&editor) - 9600.0 / 25.4).abs() < 1e-9);
    editor.handle(Intent::Calibrate(2.0 * CARD));
    editor.handle(Intent::Run(Command::CardLonger));
    editor.handle(Intent::Run(Command::TrueSize));
    assert!((px(&editor) - 100.0 * (2.0 + 1.0 / CARD)).abs() < 1e-9);
    // A rule that reads half of what the bar stands for: every pixel is half as long.
    editor.handle(Intent::Calibrate(4.0 * CARD));
    type_in(&mut editor, "card-reads", "26.99");
    assert!((editor.settings().px_per_mm.unwrap() - 8.0).abs() < 1e-9);
    for text in ["0", "-3", "9999", "x", "0.001"] {
        type_in(&mut editor, "card-reads", text);
        assert!(field(&editor, "card-reads").message.is_some(), "{text}");
    }
    assert!((editor.settings().px_per_mm.unwrap() - 8.0).abs() < 1e-9);
}
