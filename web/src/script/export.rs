//! The options of an export as a script names them.

use super::refusal;
use halfbreadth_core::{
    design::Design,
    export::{Choice, Export, ExportError, Kind, Length, Part},
    units::{Denominator, System},
};
use js_sys::{Array, Object, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};

/// Options with the keys of what they choose.
const OPTIONS: [(&str, &str); 18] = [
    ("part", "part"),
    ("projection", "projection"),
    ("cut", "cut"),
    ("bushing", "bushing"),
    ("bearing", "bearing"),
    ("bit", "bit"),
    ("sawLine", "saw-line"),
    ("thickness", "template-thickness"),
    ("holes", "holes"),
    ("drill", "drill"),
    ("dxfVersion", "dxf-version"),
    ("curves", "curves"),
    ("paper", "paper"),
    ("paperWidth", "paper-width"),
    ("paperHeight", "paper-height"),
    ("margin", "margin"),
    ("overlap", "overlap"),
    ("record", "sheet-record"),
];
/// The paper of the build sheet goes by the same name as that of the rest.
const SHEET_PAPER: &str = "sheet-paper";
/// The one option for two accuracies: of a mark-out, else of curves.
const TOLERANCE: &str = "tolerance";
const TOLERANCES: [&str; 2] = ["mark-out-tolerance", "export-tolerance"];

/// The file: a text, or bytes where it is none.
pub(super) fn file(design: &Design, kind: Kind, options: &JsValue) -> Result<JsValue, JsValue> {
    let (export, system) = read(options, kind)?;
    let made = export.make(design, system);
    let file = made.and_then(|made| made.file(kind)).map_err(|error| thrown(&error))?;
    if kind == Kind::Pdf {
        return Ok(Uint8Array::from(file.bytes.as_slice()).into());
    }
    let text = core::str::from_utf8(&file.bytes).expect("all files but that are written as text");
    Ok(text.into())
}

fn read(options: &JsValue, kind: Kind) -> Result<(Export, System), JsValue> {
    let (mut export, mut system) = (Export::default(), System::default());
    if kind == Kind::Csv {
        export.part = Part::Offsets;
    }
    if options.is_undefined() || options.is_null() {
        return Ok((export, system));
    }
    let object = options.dyn_ref::<Object>().filter(|_| options.is_object() && !Array::is_array(options));
    let object = object.ok_or_else(|| refusal("options", "give the options as a plain object"))?;
    let entry = |entry: JsValue| {
        let entry: Array = entry.unchecked_into();
        (entry.get(0).as_string().unwrap_or_default(), entry.get(1))
    };
    let given: Vec<(String, JsValue)> =
        Object::entries(object).iter().map(entry).filter(|(_, value)| !value.is_undefined()).collect();
    let has = |name: &str| given.iter().any(|entry| entry.0 == name);
    if has("bearing") {
        if has("bushing") {
            return Err(refusal("bearing", "a template has one guide: give a bushing or a bearing"));
        }
        choose(&mut export, "guide", "guide", &"bearing".into())?;
    }
    let is_sheet = given
        .iter()
        .any(|(name, value)| name == "part" && value.as_string().as_deref() == Some(Part::Sheet.key()));
    for (name, value) in &given {
        match name.as_str() {
            TOLERANCE => {}
            "units" => system = units(&text(name, value)?)?,
            "link" => {
                let link = text(name, value)?;
                export.sheet.address = link.split('#').next().unwrap_or_default().to_owned();
            }
            "paper" if is_sheet => choose(&mut export, name, SHEET_PAPER, value)?,
            "date" => export.template.date = text(name, value)?,
            "version" => export.template.version = text(name, value)?,
            _ => {
                let key = OPTIONS.iter().find(|option| option.0 == name).map(|option| option.1);
                let key = key.ok_or_else(|| refusal(name, &format!("there is no option “{name}”")))?;
                choose(&mut export, name, key, value)?;
            }
        }
    }
    if let Some((_, value)) = given.iter().find(|entry| entry.0 == TOLERANCE) {
        let key = TOLERANCES[usize::from(export.part != Part::MarkOut)];
        choose(&mut export, TOLERANCE, key, value)?;
    }
    Ok((export, system))
}

fn units(word: &str) -> Result<System, JsValue> {
    match word {
        "mm" => Ok(System::Millimetres),
        "in" => Ok(System::Inches { denominator: Denominator::default() }),
        _ => Err(refusal("units", "give the units as mm or in")),
    }
}

fn choose(export: &mut Export, name: &str, key: &str, value: &JsValue) -> Result<(), JsValue> {
    let outcome = if let Some(choice) = Choice::named(key) {
        choice.set(export, &text(name, value)?)
    } else if let Some(length) = Length::named(key) {
        let mm = value.as_f64().ok_or_else(|| refusal(name, &format!("give {name} as a number of mm")))?;
        length.set(export, mm)
    } else {
        Ok(())
    };
    outcome.map_err(|error| thrown(&error))
}

fn text(name: &str, value: &JsValue) -> Result<String, JsValue> {
    value.as_string().ok_or_else(|| refusal(name, &format!("give {name} as a text")))
}

/// The refusal under the name of the option at fault.
fn thrown(error: &ExportError) -> JsValue {
    let key = error.field();
    let key = if key == SHEET_PAPER { "paper" } else { key };
    let name = OPTIONS.iter().find(|option| option.1 == key).map_or(key, |option| option.0);
    let name = if TOLERANCES.contains(&key) { TOLERANCE } else { name };
    refusal(name, &error.to_string())
}
