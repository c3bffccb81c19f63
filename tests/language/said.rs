//! What the program says on the way through all its rooms: none of it is asked for in vain.

use crate::{LANGUAGES, none, root};
use halfbreadth_core::{
    capture::photo::{Body, Given, Picture, trace},
    editor::{Command, Editor, Intent, PressedIntent, Room, Settings, ShopIntent, SweepIntent, Target},
    export::{CHOICES, Kind},
    format::{json, link},
    history::History,
    language::{self, Catalogue},
    scene::Mark,
    units::{Denominator, System, Unit, Words as _, show},
    workshop::bench::{Plan, Session},
};
use halfbreadth_tests::random::{self, Random};
use kurbo::{Point, Size};
use std::fs;

const INCHES: System = System::Inches { denominator: Denominator::ThirtySeconds };

/// Speaks a language of the page from now on in this thread.
fn speak(code: &str) {
    let text = fs::read_to_string(root().join(format!("www/page/language/{code}.json"))).unwrap();
    language::speak(Some(Catalogue::read(code, &text).unwrap()));
}

/// All that the program can be asked to say of what it shows, in one text.
fn everything(editor: &Editor) -> String {
    let scene = editor.scene();
    let mut all: Vec<String> = Vec::new();
    for readout in editor.readouts().into_iter().chain(editor.worked_out()) {
        all.extend([readout.text, readout.change, language::said(readout.remark).to_owned()]);
        all.extend([readout.label, readout.help].map(|text| language::said(text).to_owned()));
    }
    let items = editor.plies().into_iter().chain(editor.record_items());
    let (titles, of_items): (Vec<String>, Vec<_>) = items.map(|item| (item.title, item.fields)).unzip();
    all.extend(titles);
    for field in editor.fields().into_iter().chain(of_items.into_iter().flatten()) {
        all.extend([field.text, field.limits, field.remark]);
        all.extend(field.message);
        all.extend([field.label, field.help].map(|text| language::said(text).to_owned()));
        all.extend(field.options.iter().map(|option| language::said(option.1).to_owned()));
    }
    for handle in editor.handles() {
        all.push(handle.label);
        all.extend(handle.sliders.into_iter().flat_map(|slider| [slider.label, slider.text]));
    }
    all.extend(editor.figures(&scene).into_iter().map(|figure| figure.label));
    all.extend(scene.items.into_iter().filter_map(|item| match item.mark {
        Mark::Text { text, .. } | Mark::Engraved { text, .. } => Some(text),
        Mark::Path(_) => None,
    }));
    all.extend(editor.problems().into_iter().map(|problem| problem.text));
    all.extend(editor.sweeps().into_iter().map(|sweep| sweep.words));
    all.extend(editor.laid_words());
    all.extend(editor.farthest());
    all.extend(editor.differences().into_iter().map(|difference| difference.now));
    all.extend(editor.brought_words());
    all.extend([editor.held_words(), editor.cut_words(), editor.sheet_words(), editor.stack_words()]);
    all.extend(editor.cut_warnings().chain(editor.cut_list()).map(str::to_owned));
    all.extend(editor.file_facts().into_iter().map(|facts| facts.text));
    all.extend([editor.pressure_words(), editor.tightening_words(), editor.wood_words()].concat());
    all.extend(editor.laying_words());
    for (_, leaf) in editor.leaves() {
        all.extend(leaf.texts().map(|(_, text)| text.to_owned()));
    }
    if let Some(view) = editor.pressed() {
        all.extend([view.words, view.station_words, view.section_words]);
    }
    all.push(editor.notice().text.clone());
    all.join("\n")
}

/// What can be typed that is wrong in every way there is.
const ODD: [&str; 10] = ["", "abc", "1,234.5", "8 5/4", "1/0", "1e9", "-5", "0", "123456", "7 parsecs"];

fn editor(seed: u64, system: System) -> Editor {
    let design = random::design(&mut Random::new(seed));
    let settings = Settings { system, ..Settings::default() };
    Editor::new(History::new("opened", design), settings, Size::new(1200.0, 700.0))
}

/// Goes through all rooms, types odd things into all fields, and presses all buttons.
fn walk(seed: u64, system: System) {
    let mut editor = editor(seed, system);
    editor.addressed("https://example.org/".to_owned());
    editor.handle(Intent::Pressed(PressedIntent::Frames([Size::new(300.0, 200.0); 2])));
    editor.handle(Intent::Shop(ShopIntent::BeginRecord { date: "2026-05-16".to_owned() }));
    editor.handle(Intent::KeepVersion { date: "2026-05-16".to_owned() });
    for room in [Room::Draw, Room::LayUp, Room::Press, Room::Cut, Room::Sheet] {
        editor.handle(Intent::Enter(room));
        everything(&editor);
    }
    editor.handle(Intent::Enter(Room::Cut));
    for choice in &CHOICES {
        for option in choice.options {
            editor.handle(Intent::Type { key: choice.key.to_owned(), text: option.0.to_owned() });
            everything(&editor);
            for kind in Kind::ALL {
                let _ = editor.file(kind).map_err(|error| error.said_in(system));
            }
        }
    }
    editor.handle(Intent::Enter(Room::Draw));
    let keys: Vec<String> = editor.fields().into_iter().map(|field| field.key.into_owned()).collect();
    for key in keys {
        for text in ODD {
            editor.handle(Intent::Type { key: key.clone(), text: text.to_owned() });
            everything_typed(&editor);
            if editor.notice().text.is_empty() {
                editor.handle(Intent::Run(Command::Undo));
            }
        }
    }
    let nodes = editor.design().shape().outline.nodes.len();
    for node in 0..nodes {
        editor.handle(Intent::Select(Some(Target::Node(node))));
        everything(&editor);
    }
    for (command, ..) in Command::all() {
        for target in [Target::Node(0), Target::Node(nodes - 1), Target::Span(0, Point::ZERO)] {
            editor.handle(Intent::Select(Some(target)));
            editor.handle(Intent::Run(command));
            let _ = editor.notice();
        }
        everything(&editor);
    }
    editor.handle(Intent::Sweep(SweepIntent::Lay { sweep: 0 }));
    editor.handle(Intent::Sweep(SweepIntent::Free));
    everything(&editor);
}

/// The little that typing changes.
fn everything_typed(editor: &Editor) {
    let _ = (editor.notice(), editor.brought_words(), editor.cut_words(), editor.stack_words());
}

#[test]
fn all_rooms_fields_and_buttons() {
    for code in LANGUAGES {
        speak(code);
        for (seed, system) in [(1, System::Millimetres), (2, INCHES)] {
            walk(seed, system);
        }
        none(code, &language::missed().into_iter().map(str::to_owned).collect::<Vec<_>>());
    }
}

#[test]
fn refused_edits_links_files_and_pictures() {
    for code in LANGUAGES {
        speak(code);
        let random = &mut Random::new(7);
        for seed in 0..40 {
            let design = random::design(&mut Random::new(seed));
            for _ in 0..60 {
                let edit = random::violent_edit(random, &design);
                if let Err(refusal) = design.apply(&edit) {
                    let _ = refusal.said_in(INCHES);
                }
            }
            let (link, file) = (link::encode(&design), json::write(&design.into()));
            for _ in 0..40 {
                let cut = random.below(link.len());
                let _ = link::decode(&link[..cut]).map_err(|error| error.to_string());
                let cut = random.below(file.len());
                let whole = file.is_char_boundary(cut);
                let _ = whole.then(|| json::read(&file[..cut]).map_err(|error| error.to_string()));
                for (from, to) in [("1", "\"x\""), ("[", "{"), ("true", "7"), ("\"", "'"), ("{", "[")] {
                    let _ =
                        json::read(&file.replacen(from, to, 1 + random.below(9))).map_err(|e| e.to_string());
                }
            }
        }
        let deck = random::design(random);
        let pixels = vec![200_u8; 4 * 240 * 320];
        let picture = Picture::new(320, 240, &pixels).unwrap();
        let corners =
            [(20.0, 20.0), (60.0, 20.0), (250.0, 22.0), (290.0, 25.0), (20.0, 200.0), (290.0, 200.0)];
        for count in 0..=corners.len() {
            let holes = corners[..count].iter().map(|corner| Point::from(*corner)).collect();
            let given = Given { holes, ..Given::default() };
            let _ = given
                .set(&Body::of(&deck), picture.size())
                .map(|set| set.said_in(INCHES))
                .map_err(|e| e.to_string());
            let _ = trace(&picture, &Body::of(&deck), &given, &mut |_| {}).map_err(|error| error.to_string());
        }
        none(code, &language::missed().into_iter().map(str::to_owned).collect::<Vec<_>>());
    }
}

#[test]
fn the_bench_from_the_first_glue_to_the_open_press() {
    for code in LANGUAGES {
        speak(code);
        let design = random::design(&mut Random::new(3));
        let plan = Plan::of(&design.shape().layup, &design.workshop().glue);
        let _ = (plan.ready_words(), plan.words());
        let session = Session::start(plan, 0.0);
        for hour in 0..200 {
            let board = session.board(f64::from(hour) * 180_000.0, &|_| 0.0);
            let _ = [board.figure_of, board.late].map(language::said);
        }
        let board = session.board(3.0e8, &|_| 0.0);
        let _ = [board.figure_of, board.late].map(language::said);
        none(code, &language::missed().into_iter().map(str::to_owned).collect::<Vec<_>>());
    }
}

#[test]
fn files_stay_english_and_pages_do_not() {
    speak("de");
    let mut editor = editor(11, System::Millimetres);
    editor.handle(Intent::Enter(Room::Cut));
    editor.handle(Intent::Type { key: "part".to_owned(), text: "offsets".to_owned() });
    let table = String::from_utf8(editor.file(Kind::Csv).unwrap().bytes).unwrap();
    assert!(table.starts_with("Station mm (DEVELOPED),"), "{}", &table[..60]);
    assert!(!editor.cut_words().contains("DEVELOPED") && editor.cut_words().contains("ABWICKLUNG"));
    let sheet = editor.sheet_file().unwrap();
    let bytes = String::from_utf8_lossy(&sheet.bytes).into_owned();
    assert!(bytes.contains("/Lang(de)"));
    assert_eq!(show(812.8, Unit::Length, System::Millimetres).to_string(), "812,8 mm");
}
