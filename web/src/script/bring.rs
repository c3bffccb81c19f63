//! Shapes brought in by a script: from measurements, and from a drawing.

use super::{give_design, refusal, set, take_design};
use halfbreadth_core::{
    capture::{
        Taken,
        drawing::{self, Centreline, LengthUnit},
        measured::{self, From},
        table::{self, Row},
    },
    demo,
    design::Design,
    projection::Projection,
    units::{Denominator, System},
};
use js_sys::{Array, Object, Reflect};
use wasm_bindgen::{JsCast, JsValue};

/// The design, the residuals and what lies off, from rows or the text of a table.
pub(super) fn measurements(rows: &JsValue, options: &JsValue) -> Result<JsValue, JsValue> {
    let given = Given::new(options, &["design", "from", "measured", "breadth", "tip", "tolerance", "unit"])?;
    let mut how = measured::Options::default();
    if let Some(i) = given.word("from", &From::ALL.map(From::key))? {
        how.from = From::ALL[i];
    }
    how.taped = given.word("measured", &["taped", "straight"])? != Some(1);
    how.full = given.word("breadth", &["half", "full"])? == Some(1);
    how.tip_to_bolts = given.number("tip")?;
    how.tolerance = given.number("tolerance")?.unwrap_or(how.tolerance);
    let inch = given.word("unit", &["mm", "in"])? == Some(1);
    let system =
        if inch { System::Inches { denominator: Denominator::default() } } else { System::Millimetres };
    let rows = match rows.as_string() {
        Some(text) => table::read(&text, system).map_err(|error| refusal("rows", &error.to_string()))?,
        None => read_rows(rows, if inch { 25.4 } else { 1.0 })?,
    };
    let design = given.design()?;
    let taken = measured::fit(&rows, &how, design.shape()).map_err(|error| {
        let field = match error.field() {
            "tip-to-bolts" => "tip",
            field => field,
        };
        refusal(field, &error.to_string())
    })?;
    let answer = answer(&taken, &design)?;
    let (residuals, suspects) = (Array::new(), Array::new());
    for (i, row) in rows.iter().enumerate() {
        let found = taken.points.iter().find(|found| found.line == row.line);
        // A tip is met as it was measured.
        residuals.push(&found.map_or(0.0, |found| found.residual).into());
        if found.is_some_and(|found| found.suspect) {
            suspects.push(&JsValue::from(i as f64));
        }
    }
    set(&answer, "residuals", &residuals);
    set(&answer, "suspects", &suspects);
    Ok(answer.into())
}

/// The design in the text of an SVG or DXF file.
pub(super) fn drawing(text: &str, options: &JsValue) -> Result<JsValue, JsValue> {
    let given = Given::new(options, &["design", "unit", "centreline", "projection", "nose", "tolerance"])?;
    let unit = given.word("unit", &LengthUnit::ALL.map(LengthUnit::key))?.map(|i| LengthUnit::ALL[i]);
    let mut how = drawing::Options { unit, ..drawing::Options::default() };
    if let Some(i) = given.word("centreline", &Centreline::ALL.map(Centreline::key))? {
        how.centreline = Centreline::ALL[i];
    }
    let projections = [Projection::Developed, Projection::Plan];
    how.projection = given.word("projection", &projections.map(Projection::key))?.map(|i| projections[i]);
    how.turned = given.word("nose", &["right", "left"])? == Some(1);
    how.tolerance = given.number("tolerance")?.unwrap_or(how.tolerance);
    let design = given.design()?;
    let taken = drawing::read(text, &how, design.shape())
        .map_err(|error| refusal(error.field(), &error.to_string()))?;
    Ok(answer(&taken, &design)?.into())
}

fn answer(taken: &Taken, design: &Design) -> Result<Object, JsValue> {
    let made = design.apply(&taken.edit()).map_err(|why| refusal(why.field(), &why.to_string()))?;
    let answer = Object::new();
    set(&answer, "design", &give_design(&made)?);
    set(&answer, "misfit", &taken.misfit().into());
    set(&answer, "asymmetry", &taken.asymmetry.map_or(JsValue::NULL, |found| found.most.into()));
    let (points, remarks) = (Array::new(), Array::new());
    for found in &taken.points {
        let point = Object::new();
        for (key, value) in [("x", found.at.x), ("y", found.at.y), ("residual", found.residual)] {
            set(&point, key, &value.into());
        }
        points.push(&point);
    }
    for remark in &taken.remarks {
        remarks.push(&remark.as_str().into());
    }
    set(&answer, "points", &points);
    set(&answer, "remarks", &remarks);
    Ok(answer)
}

/// Rows as lists of two or three numbers.
fn read_rows(rows: &JsValue, mm: f64) -> Result<Vec<Row>, JsValue> {
    let fault = || {
        refusal(
            "rows",
            "give the rows as a text, or as a list of [station, half-breadth] or [station, left, right]",
        )
    };
    let list = rows.dyn_ref::<Array>().ok_or_else(fault)?;
    if list.length() as usize > table::MOST_ROWS {
        return Err(refusal("rows", &table::TableError::TooManyRows.to_string()));
    }
    let row = |(i, row): (usize, JsValue)| {
        let row = row.dyn_ref::<Array>().filter(|row| matches!(row.length(), 2 | 3))?;
        let number =
            |i: u32| row.get(i).as_f64().filter(|number| number.is_finite()).map(|number| number * mm);
        let right = if row.length() == 3 { Some(number(2)?) } else { None };
        Some(Row { line: i + 1, station: number(0)?, breadth: number(1)?.max(0.0), right })
    };
    list.iter().enumerate().map(row).collect::<Option<_>>().ok_or_else(fault)
}

/// Options as given.
struct Given<'a> {
    options: &'a JsValue,
}

impl<'a> Given<'a> {
    fn new(options: &'a JsValue, known: &[&str]) -> Result<Self, JsValue> {
        if let Some(object) = options.dyn_ref::<Object>() {
            for key in Object::keys(object).iter().filter_map(|key| key.as_string()) {
                if !known.contains(&key.as_str()) {
                    return Err(refusal(&key, &["there is no option “", &key, "”"].concat()));
                }
            }
        }
        Ok(Self { options })
    }

    /// Of what is no object, such as `undefined`, there is nothing to read.
    fn get(&self, key: &str) -> Option<JsValue> {
        let value = Reflect::get(self.options, &key.into()).unwrap_or_default();
        (!value.is_undefined() && !value.is_null()).then_some(value)
    }

    fn number(&self, key: &str) -> Result<Option<f64>, JsValue> {
        let number = |value: JsValue| {
            value.as_f64().ok_or_else(|| refusal(key, &["give ", key, " as a number of mm"].concat()))
        };
        self.get(key).map(number).transpose()
    }

    fn word(&self, key: &str, words: &[&str]) -> Result<Option<usize>, JsValue> {
        let Some(value) = self.get(key) else { return Ok(None) };
        let text = value.as_string().unwrap_or_default();
        let i = words.iter().position(|word| *word == text);
        let fault = || refusal(key, &["give ", key, " as one of: ", &words.join(", ")].concat());
        i.map(Some).ok_or_else(fault)
    }

    fn design(&self) -> Result<Design, JsValue> {
        self.get("design").map_or_else(|| Ok(demo::turnstone()), |design| take_design(&design))
    }
}
