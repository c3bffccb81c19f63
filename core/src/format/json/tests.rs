//! The file: identity of the round trip, foreign keys, and every way to refuse.

use super::*;
use crate::{
    demo::{self, cubics},
    design::{Shape, Version},
    format::samples,
    layup::Layup,
    outline::{Joint, Outline},
};
use std::sync::Arc;

fn file() -> Value {
    to_value(&samples::versioned().into())
}

fn json(text: impl ToString) -> Value {
    Value::read(&text.to_string(), 99).unwrap()
}

/// The value at a path like `/shape/outline/nodes/3`.
fn at<'a>(value: &'a mut Value, path: &str) -> &'a mut Value {
    path.split('/').skip(1).fold(value, |value, key| match value {
        Value::Object(object) => object.get_mut(key).unwrap(),
        Value::List(list) => &mut list[key.parse::<usize>().unwrap()],
        _ => panic!("{path} has no entry {key}"),
    })
}

/// The versioned deck's file with the value at `path` replaced; a new value of null takes the key away.
fn changed(path: &str, new: Value) -> Value {
    let mut value = file();
    let (parent, key) = path.rsplit_once('/').unwrap();
    match at(&mut value, parent) {
        Value::Object(object) if new == Value::Null => object.entries.retain(|entry| entry.0 != key),
        parent => *at(parent, &format!("/{key}")) = new,
    }
    value
}

/// Adds an entry to the object at `path`.
fn add(value: &mut Value, path: &str, key: &str, new: &str) {
    let Value::Object(object) = at(value, path) else { panic!("{path} is no object") };
    object.entries.push((key.to_owned(), json(new)));
}

#[track_caller]
fn refuses(value: Value, field: &str, message: &str) {
    let error = from_value(value).unwrap_err();
    assert_eq!((error.field().as_str(), error.to_string().as_str()), (field, message));
}

#[test]
fn a_design_comes_back_from_its_file_to_the_bit() {
    for design in samples::decks() {
        let document = Document::from(design);
        let text = write(&document);
        let again = read(&text).unwrap_or_else(|error| panic!("{error}\n{text}"));
        assert_eq!(again, document);
        assert_eq!(write(&again), text);
    }
}

#[test]
fn every_number_in_a_file_is_whole() {
    fn check(value: &Value) {
        match value {
            Value::Number(number) => assert_eq!(number.whole().unwrap().to_string(), number.to_string()),
            Value::List(list) => list.iter().for_each(check),
            Value::Object(object) => object.entries.iter().for_each(|entry| check(&entry.1)),
            _ => {}
        }
    }
    samples::decks().into_iter().for_each(|design| check(&to_value(&design.into())));
}

#[test]
fn the_layout_of_a_file_stays_as_it_is() {
    let text = write(&demo::dunlin().into());
    let head = r#"{
  "format": "halfbreadth",
  "version": 1,
  "unit": "nm, 1e-7 degree, 1e-8 of the whole, ug/m2",
  "name": "Dunlin",
  "notes": "",
  "shape": {
    "datum": {
      "wheelbase": 304800000,
"#;
    assert!(text.starts_with(head), "{text}");
    let mut value = to_value(&cubics::dunlin().into());
    let mut has_keys = |path: &str, keys: &[&str]| {
        let Value::Object(object) = at(&mut value, path) else { panic!("{path} is no object") };
        assert!(object.entries.iter().map(|entry| &entry.0).eq(keys), "{path}");
    };
    has_keys("/shape", &["datum", "outline", "profile", "layup"]);
    has_keys("/shape/outline", &["twin", "rail-tolerance", "nodes", "spans"]);
    has_keys("/shape/layup", &["blank-length", "blank-width", "spread", "glue-loss", "plies"]);
    let mut says = |path: &str, text: &str| assert_eq!(at(&mut value, path).to_string(), text);
    says("/shape/outline/nodes/3", r#"{"x":240000000,"y":90300000,"joint":"smooth","angle":-80719663}"#);
    says("/shape/outline/spans/1", r#"{"kind":"straight"}"#);
    says("/shape/layup/plies/2", r#"{"thickness":1500000,"grain":"X","wood":"sugar-maple"}"#);
}

#[test]
fn keys_of_others_are_kept_and_written_back() {
    let mut value = file();
    add(&mut value, "", "maker", r#"{ "club": "Saturday class", "ids": [1, 2.50, null] }"#);
    add(&mut value, "/shape/outline", "colour", "\"#0b3d91\"");
    add(&mut value, "/shape/datum", "drill", r#"{ "bit": 5.5 }"#);
    let document = from_value(value.clone()).unwrap();
    assert_eq!(to_value(&document), value);

    // They ride beside whatever becomes of the design.
    let edited = Document { design: document.design.renamed("Other").unwrap(), ..document };
    let again = read(&write(&edited)).unwrap();
    assert_eq!(again, edited);
    let mut extras = Value::Object(again.extras);
    assert_eq!(at(&mut extras, "/shape/outline/colour").as_text(), Some("#0b3d91"));
}

#[test]
fn what_is_known_is_never_overwritten_by_what_is_not() {
    let extras = Object::from_iter([("name", "smuggled".into()), ("shape", "smuggled".into())]);
    let document = Document { design: demo::dunlin(), extras };
    assert_eq!(to_value(&document), to_value(&demo::dunlin().into()));
}

#[test]
fn a_missing_setting_has_its_usual_value() {
    let outline = at(&mut file(), "/shape/outline").clone();
    let bare = Value::object([
        ("format", "halfbreadth".into()),
        ("version", 1.into()),
        ("shape", Value::object([("outline", outline)])),
    ]);
    let design = from_value(bare).unwrap().design;
    assert_eq!((design.name(), design.notes(), design.versions().len()), ("", "", 0));
    assert_eq!(design.shape(), cubics::turnstone().shape());
}

#[test]
fn a_script_may_hold_whole_numbers_as_floats() {
    let value = changed("/shape/datum/wheelbase", json("381000000.0"));
    assert_eq!(from_value(value).unwrap().design.shape().datum.wheelbase.to_bits(), 381_f64.to_bits());
    let value = changed("/shape/outline/nodes/0/y", json("-0.0"));
    assert_eq!(from_value(value).unwrap().design, samples::versioned());
}

#[test]
fn a_handle_given_as_two_numbers_at_a_smooth_node_keeps_its_length() {
    let value = changed("/shape/outline/spans/0/start", json("[0, 83940000]"));
    assert_eq!(from_value(value).unwrap().design, samples::versioned());
}

#[test]
fn whatever_can_be_saved_is_small_enough_to_be_opened() {
    let mut outline = demo::turnstone().shape().outline.clone();
    while outline.nodes.len() < Outline::MOST_NODES {
        let length = |span: &usize| outline.nodes[*span].place.distance(outline.nodes[span + 1].place);
        let longest = (0..outline.spans.len()).max_by(|a, b| length(a).total_cmp(&length(b))).unwrap();
        outline = outline.split(longest, 0.5);
    }
    for node in 0..outline.nodes.len() {
        outline = outline.with_joint(node, false);
    }
    let mut shape = Shape { outline, ..demo::turnstone().shape().clone() };
    shape.layup.plies.resize(*Layup::PLY_COUNT.end(), shape.layup.plies[0].clone());
    let name = "🛹".repeat(Design::LONGEST_NAME);
    let note = "🛹".repeat(Design::LONGEST_NOTES);
    let version = Version { date: name.clone(), name, note, shape: Arc::new(shape.clone()) };
    let length = |versions: Vec<Version>| {
        let design = Design::new(&version.name, &version.note, shape.clone(), versions).unwrap();
        write(&design.into()).len()
    };
    let (bare, with_one) = (length(Vec::new()), length(vec![version.clone()]));
    let largest = bare + Design::MOST_VERSIONS * (with_one - bare);
    assert!(largest < LARGEST, "{largest}");
}

#[test]
fn a_byte_order_mark_is_no_fault() {
    let text = format!("\u{feff}{}", write(&demo::dunlin().into()));
    assert_eq!(read(&text).unwrap().design, demo::dunlin());
}

#[test]
fn a_text_that_is_no_design_is_refused_as_a_whole() {
    let says = |text: &str| read(text).unwrap_err().to_string();
    assert_eq!(says(&" ".repeat(LARGEST + 1)), "this file has 17 MB: a design has at most 16",);
    assert_eq!(
        says("{\"format\":"),
        "this file is damaged or no design (a value is missing in line 1 at character 11): open one that was saved here",
    );
    assert!(
        says(&"[".repeat(100_000)).starts_with("this file is damaged or no design (an end to the nesting")
    );
    let deep = (0..40).fold(Value::Null, |inner, _| [inner].into_iter().collect());
    assert_eq!(
        from_value(deep).unwrap_err().to_string(),
        "this file is nested too deeply (more than 32 levels): open one that was saved here",
    );
    refuses(json("{}"), "format", "this file holds no deck: open one that was saved here");
    refuses(json("[1]"), "", "the file is a list: it must be an object");
}

#[test]
fn a_newer_version_is_refused_with_words() {
    refuses(
        changed("/version", 2.into()),
        "version",
        "this file was saved by a newer version of the page (format 2, this one reads up to 1): reload the page to get \
         the newer version",
    );
    refuses(changed("/version", 0.into()), "version", "version is “0”: it must be “1”");
}

#[test]
fn a_field_that_cannot_be_read_is_named() {
    let missing = |pointer: &str, field: &str| {
        refuses(changed(pointer, Value::Null), field, &format!("{field} is missing: a design needs it"));
    };
    missing("/shape", "shape");
    missing("/shape/outline", "shape.outline");
    missing("/shape/outline/nodes/3/x", "shape.outline.nodes[3].x");
    missing("/shape/outline/nodes/1/angle", "shape.outline.nodes[1].angle");
    missing("/shape/outline/spans/0/end", "shape.outline.spans[0].end");
    missing("/versions/1/shape", "versions[1].shape");

    let wrong = |pointer: &str, new: Value, message: &str| {
        let value = changed(pointer, new);
        let error = from_value(value).unwrap_err();
        assert_eq!(error.to_string(), format!("{} {message}", error.field()));
        assert_eq!(error.field(), pointer[1..].replace("/0", "[0]").replace('/', "."));
    };
    let whole = "it must be a whole number, lengths in nm, angles in 1e-7 degree";
    wrong("/shape/outline/nodes/0/x", "12".into(), "is a text: it must be a whole number");
    wrong("/shape/outline/nodes/0/x", json("1.5"), &format!("is 1.5: {whole}"));
    wrong("/shape/outline/nodes/0/x", json("1e300"), "is 1e300: at most 10000000000 either way");
    wrong("/shape/outline/nodes/0/joint", "wavy".into(), "is “wavy”: it must be “corner” or “smooth”");
    wrong(
        "/shape/outline/spans/0/kind",
        "bow".into(),
        "is “bow”: it must be “straight” or “cubic” or “laid” or “batten”",
    );
    wrong("/shape/outline/spans/0/start", json("[1, 2, 3]"), "has 3 entries: at most 2");
    wrong("/shape/outline/spans/0/start", json("[1]"), "is a list: it must be a length or [along, across]");
    wrong("/shape/outline/twin", 1.into(), "is a number: it must be true or false");
    wrong("/shape/outline/nodes", std::iter::repeat_n(0.into(), 65).collect(), "has 65 entries: at most 64");
    wrong("/shape/datum", json("[]"), "is a list: it must be an object");
    wrong("/shape/layup/plies", std::iter::repeat_n(0.into(), 14).collect(), "has 14 entries: at most 13");
    wrong("/versions", json("{}"), "is an object: it must be a list");
    wrong("/name", true.into(), "is true or false: it must be a text");
    wrong("/unit", "mm".into(), &format!("is “mm”: it must be “{UNIT}”"));
    let quoted = format!("is “{}”: it must be “L” or “X”", "x".repeat(40));
    wrong("/shape/layup/plies/0/grain", "x".repeat(1000).as_str().into(), &quoted);
}

#[test]
fn what_the_door_refuses_is_named_by_its_field() {
    let refused = |pointer: &str, new: Value, field: &str, message: &str| {
        refuses(changed(pointer, new), field, &format!("{field}: {message}"));
    };
    let short = "Wheelbase 1.0 mm is too small (at least 150.0 mm)";
    refused("/shape/datum/wheelbase", 1_000_000.into(), "shape.datum.wheelbase", short);
    refused(
        "/versions/1/shape/datum/wheelbase",
        1_000_000.into(),
        "versions[1].shape.datum.wheelbase",
        short,
    );
    let open =
        "the tip (node 1) lies 5.00 mm off the centreline: put it at 0 across, or the halves stay open";
    refused("/shape/outline/nodes/0/y", 5_000_000.into(), "shape.outline.nodes[0].y", open);
    let spans = "5 nodes need 4 spans between them, not 0";
    refused("/shape/outline/spans", json("[]"), "shape.outline.spans", spans);
    let nodes = "the outline has 0 nodes: draw it with 2 to 64";
    refused("/shape/outline/nodes", json("[]"), "shape.outline.nodes", nodes);
    let handle = "a handle of span 1 is 0.00 mm long: at least 0.10 mm";
    refused("/shape/outline/spans/0/start", 0.into(), "shape.outline.spans[0]", handle);
    refused("/shape/layup/plies", json("[]"), "shape.layup.plies", "0 plies: lay up 3 to 13");
    let ply = "Ply 0.01 mm is too small (at least 0.40 mm)";
    refused("/shape/layup/plies/0/thickness", 10_000.into(), "shape.layup.plies", ply);
    let name = "the name has 81 characters: at most 80";
    refused("/name", "x".repeat(81).as_str().into(), "name", name);
    let date = "the version date has 81 characters: at most 80";
    refused("/versions/0/date", "x".repeat(81).as_str().into(), "versions[0].date", date);
    let long = from_value(changed("/shape/outline/nodes/0/x", (-4_000_000_000).into())).unwrap_err();
    assert_eq!(long.field(), "shape.outline");
    assert!(core::error::Error::source(&long).is_some());
}

#[test]
fn an_angle_is_only_missing_where_nothing_gives_the_tangent() {
    let deck = demo::dunlin();
    let led = deck.shape().outline.nodes.iter().filter(|node| node.joint == Joint::Led).count();
    assert_eq!(led, 4, "amidships, both ends of the straight span, and the tip");
    assert_eq!(read(&write(&deck.clone().into())).unwrap().design, deck);
}

#[test]
fn a_file_cut_off_or_changed_anywhere_is_refused_or_a_valid_design() {
    let text = write(&demo::dunlin().into());
    for cut in (0..text.trim_end().len()).step_by(3) {
        assert!(read(&text[..cut]).is_err(), "{cut}");
    }
    for i in (0..text.len()).step_by(3) {
        for with in ["9", "-", "{", "\"", "e"] {
            let mut other = text.clone();
            other.replace_range(i..=i, with);
            if let Ok(document) = read(&other) {
                assert_eq!(read(&write(&document)).unwrap(), document, "{i} {with}");
            }
        }
    }
}

#[test]
fn sweeps_stand_after_the_spans_and_only_where_there_are_any() {
    assert!(!write(&demo::turnstone().into()).contains("sweeps"));
    let decks = samples::swept();
    let text = write(&decks[decks.len() - 1].clone().into());
    let says = |from: &str, to: &str| {
        assert!(text.contains(from), "{from}");
        read(&text.replacen(from, to, 1)).unwrap_err().to_string()
    };
    let words = "“arc” or “ellipse” or “superellipse” or “clothoid”";
    assert_eq!(
        says("\"family\": \"arc\"", "\"family\": \"bow\""),
        format!("shape.outline.sweeps[0].family is “bow”: it must be {words}")
    );
    let refused = says("\"turn\": ", "\"turn\": 9");
    assert!(refused.starts_with("shape.outline.sweeps[0]: a sweep of that family"), "{refused}");
    let refused = says("\"sweep\": 2", "\"sweep\": 3");
    assert_eq!(refused, "shape.outline.spans[0]: span 1 is laid by a sweep that is not there");
    let refused = says("\"from\": 0", "\"from\": 1000000");
    assert!(
        refused.starts_with("shape.outline.spans[0]: the sweep laid on span 1 would have to"),
        "{refused}"
    );
}
