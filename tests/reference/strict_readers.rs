//! The DXF and PDF files read by strict programs, and parallels against a third library.
//!
//! Sources: `ezdxf` (its audit finds what a strict reader would have to mend), `pypdf` and `shapely` (GEOS), by the scripts in
//! `python/`. Where no Python has them, the checks are left out, and say so. `HALFBREADTH_PYTHON` names another Python.

use crate::near;
use halfbreadth_core::{
    arcs::offset::{Contour, offset},
    demo,
    export::{Export, Kind, Part},
    format::{
        drawing::{Drawing, Options},
        dxf::{Curves, DxfOptions, Release, print_with},
    },
    measure::Measured,
    paper::Paper,
    projection::Projection,
    template::{Cut, Template, TemplateOptions},
    units::System,
};
use halfbreadth_tests::{
    dense,
    random::{self, Random},
};
use std::{
    fs,
    io::Write,
    path::PathBuf,
    process::{Command, Stdio},
};

/// The output of a script, a line each; none, with a word about it, where there is no such Python.
pub(crate) fn run(
    script: &str,
    modules: &str,
    arguments: &[PathBuf],
    input: &str,
) -> Option<Vec<serde_json::Value>> {
    let python = std::env::var("HALFBREADTH_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let import = format!("import {modules}");
    let has_them = Command::new(&python).args(["-c", &import]).stderr(Stdio::null()).status();
    if !has_them.is_ok_and(|status| status.success()) {
        eprintln!("SKIPPED {script}: {python} does not have {modules}");
        return None;
    }
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("reference").join("python");
    let mut child = Command::new(python)
        .arg(folder.join(script))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success(), "{script} failed");
    let text = String::from_utf8(output.stdout).unwrap();
    Some(text.lines().map(|line| serde_json::from_str(line).unwrap()).collect())
}

fn kinds() -> impl Iterator<Item = DxfOptions> {
    let kind = |release, curves, tolerance| DxfOptions { release, curves, tolerance };
    [
        kind(Release::R2000, Curves::Arcs, 0.002),
        kind(Release::R2000, Curves::Splines, 0.002),
        kind(Release::R2000, Curves::Lines, 0.01),
        kind(Release::R12, Curves::Arcs, 0.002),
        kind(Release::R12, Curves::Lines, 0.01),
    ]
    .into_iter()
}

#[test]
fn a_strict_reader_finds_nothing_to_mend_in_any_kind_of_file() {
    let folder = folder("dxf");
    let (mut files, mut expected) = (Vec::new(), Vec::new());
    for (i, design) in demo::all().into_iter().enumerate() {
        for (k, options) in kinds().enumerate() {
            let measured = Measured::of(design.shape());
            let mut add = |name: &str, drawing: &Drawing, layer: &'static str, area: f64, width: f64| {
                let path = folder.join(format!("{name}-{i}-{k}.dxf"));
                fs::write(&path, print_with(drawing, &options).unwrap()).unwrap();
                files.push(path);
                expected.push((layer, area, width, measured.perimeter, options.release));
            };
            let deck = Drawing::deck(&design, &Options::default());
            add("deck", &deck, "OUTLINE", measured.area, measured.overall_length);
            let plan = Options { projection: Projection::Plan, ..Options::default() };
            add("plan", &Drawing::deck(&design, &plan), "OUTLINE", f64::NAN, measured.plan_length);
            let full = TemplateOptions { half: false, ..TemplateOptions::default() };
            let template = Template::of(&design, full, System::default()).unwrap();
            let edge = template.drawing();
            add("template", &edge, "TEMPLATE", f64::NAN, measured.overall_length - 9.65);
            let half = Template::of(&design, TemplateOptions::default(), System::default()).unwrap();
            add("half", &half.drawing(), "TEMPLATE", f64::NAN, measured.overall_length - 9.65);
        }
    }
    let Some(found) = run("strict.py", "ezdxf, shapely", &files, "") else { return };
    assert_eq!(found.len(), files.len());
    for ((file, found), (layer, area, width, perimeter, release)) in files.iter().zip(found).zip(expected) {
        let name = file.display();
        assert_eq!(found["errors"], serde_json::json!([]), "{name}");
        assert_eq!(found["fixes"], serde_json::json!([]), "{name}");
        assert_eq!(found["units"], 4, "{name}");
        let code = if release == Release::R12 { "AC1009" } else { "AC1015" };
        assert_eq!(found["release"], code, "{name}");
        let curve = &found["curves"][layer][0];
        assert_eq!((&curve["closed"], &curve["valid"]), (&true.into(), &true.into()), "{name}");
        let [x0, x1] = [0, 2].map(|side| curve["box"][side].as_f64().unwrap());
        near(x1 - x0, width, 0.02);
        if area.is_finite() {
            near(curve["area"].as_f64().unwrap(), area, 0.01 * perimeter);
        }
    }
    fs::remove_dir_all(&folder).unwrap();
}

/// A folder of its own for the files of a test.
fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("halfbreadth-{name}-{}", std::process::id()));
    fs::create_dir_all(&folder).unwrap();
    folder
}

/// A name as nobody would have it.
const HOSTILE: &str = "Knot \"8¼\" <b>&\\P{\\fArial;千鳥} %%d $INSUNITS";

#[test]
fn a_strict_reader_finds_nothing_to_mend_in_any_part_of_a_deck_with_a_hostile_name() {
    let folder = folder("parts");
    let deck = demo::whimbrel().renamed(HOSTILE).unwrap();
    let mut files = Vec::new();
    // The build sheet is pages of words and has no DXF.
    for part in Part::ALL.into_iter().filter(|part| *part != Part::Sheet) {
        for cut in [Cut::Outside, Cut::WindowDeck] {
            for (k, dxf) in kinds().enumerate() {
                let mut export = Export { part, dxf, ..Export::default() };
                export.template.cut = cut;
                export.template.version = HOSTILE.to_owned();
                export.template.projection =
                    if k % 2 == 0 { Projection::Plan } else { Projection::Developed };
                let file = export.make(&deck, System::default()).unwrap().file(Kind::Dxf).unwrap();
                let path = folder.join(format!("{}-{}-{k}.dxf", part.key(), cut.key()));
                fs::write(&path, file.bytes).unwrap();
                files.push(path);
            }
        }
    }
    let Some(found) = run("strict.py", "ezdxf, shapely", &files, "") else { return };
    assert_eq!(found.len(), files.len());
    for (file, found) in files.iter().zip(found) {
        let name = file.display();
        assert_eq!(found["errors"], serde_json::json!([]), "{name}");
        assert_eq!(found["fixes"], serde_json::json!([]), "{name}");
        assert_eq!(found["units"], 4, "{name}");
    }
    fs::remove_dir_all(&folder).unwrap();
}

#[test]
fn pypdf_finds_pages_of_the_paper_s_size_that_are_not_to_be_scaled() {
    let folder = folder("pages");
    let deck = demo::turnstone().renamed(HOSTILE).unwrap();
    let (mut files, mut sides) = (Vec::new(), Vec::new());
    // The build sheet has papers of its own and is looked at in `sheet.rs`.
    for part in Part::ALL.into_iter().filter(|part| *part != Part::Sheet) {
        for (key, _, paper) in Paper::NAMED.into_iter().filter(|row| !row.0.starts_with("roll")) {
            let mut export = Export { part, ..Export::default() };
            export.paper.paper = paper;
            let file = export.make(&deck, System::default()).unwrap().file(Kind::Pdf).unwrap();
            let path = folder.join(format!("{}-{key}.pdf", part.key()));
            fs::write(&path, file.bytes).unwrap();
            files.push(path);
            sides.push(match key {
                "a4" => [210.0, 297.0],
                "a3" => [297.0, 420.0],
                "letter" => [8.5 * 25.4, 11.0 * 25.4],
                "tabloid" => [11.0 * 25.4, 17.0 * 25.4],
                other => panic!("{other}"),
            });
        }
    }
    let Some(found) = run("paper.py", "pypdf", &files, "") else { return };
    for ((file, sides), found) in files.iter().zip(sides).zip(found) {
        let name = file.display();
        assert_eq!((&found["scaling"], &found["title"]), (&"/None".into(), &HOSTILE.into()), "{name}");
        let boxes = found["boxes"].as_array().unwrap();
        assert!(!boxes.is_empty());
        for page in boxes {
            let at = |side: usize| page[side].as_f64().unwrap() * 25.4 / 72.0;
            near(at(0).abs() + at(1).abs(), 0.0, 0.01);
            near(at(2).min(at(3)), sides[0], 0.01);
            near(at(2).max(at(3)), sides[1], 0.01);
        }
        let projection = |words: &serde_json::Value| words.as_str().unwrap().contains("DEVELOPED");
        assert!(found["words"].as_array().unwrap().iter().all(projection), "{name} does not say what it is");
    }
    fs::remove_dir_all(&folder).unwrap();
}

#[test]
fn parallels_have_the_area_shapely_finds() {
    const FIXED: [f64; 4] = [-15.0, -4.825, 11.175, 15.0];
    let random_decks = (0..30).map(|seed| random::design(&mut Random::new(seed)));
    let halves: Vec<_> =
        demo::all().into_iter().chain(random_decks).map(|deck| deck.shape().outline.resolve()).collect();
    let mut random = Random::new(4711);
    let mut distances = || {
        let others = [(); 6].map(|()| random.between(-15.0, 15.0));
        FIXED.into_iter().chain(others).collect::<Vec<f64>>()
    };
    let distances: Vec<Vec<f64>> = halves.iter().map(|_| distances()).collect();
    let mut input = String::new();
    for (half, distances) in halves.iter().zip(&distances) {
        let left = dense::half(half, 400);
        let right = left.iter().rev().map(|p| [p.x, -p.y]);
        let points: Vec<[f64; 2]> = left.iter().map(|p| [p.x, p.y]).chain(right).collect();
        input += &serde_json::json!({ "points": points, "distances": distances }).to_string();
        input.push('\n');
    }
    let Some(found) = run("buffers.py", "shapely", &[], &input) else { return };
    for (i, (half, areas)) in halves.iter().zip(found).enumerate() {
        for (k, &distance) in distances[i].iter().enumerate() {
            let contours = offset(half, distance).map(|made| made.contours).unwrap_or_default();
            let area: f64 = contours.iter().map(|contour| 2.0 * contour.area()).sum();
            let edge: f64 =
                contours.iter().flat_map(|c: &Contour| &c.left).map(|arc| 2.0 * arc.length()).sum();
            let expected = areas[k].as_f64().unwrap();
            let off = (area - expected).abs();
            assert!(off <= 0.005 * edge.max(1.0), "deck {i} at {distance}: {area}, shapely has {expected}");
        }
    }
}
