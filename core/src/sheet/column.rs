//! A column of a page in the making: headings, rows of label and figure, paragraphs, one under another.

use super::{Desk, sources::Sources};
use crate::{
    language::{figure, said},
    leaf::{Leaf, Style, Tone, wrapped},
    quantities::{Quantity, Reading, find_measure, find_setting},
    say,
    units::{Unit, decimal, show},
    workshop::{figures, inputs::table},
};
use kurbo::{Point, Size};

/// A column; sizes in mm are those of letters that are not made smaller.
pub(super) struct Column {
    pub(super) leaf: Leaf,
    pub(super) scale: f64,
    pub(super) width: f64,
    /// How far it is written.
    pub(super) y: f64,
}

/// Type for a heading, for rows, for small print, and for what is looked up.
pub(super) const HEADING: f64 = 3.9;
pub(super) const TEXT: f64 = 2.9;
pub(super) const SMALL: f64 = 2.4;
pub(super) const FINE: f64 = 2.1;
/// How small a label makes itself for its figure, as a part of its size.
const SMALLEST: f64 = 0.84;
const NONE: &str = "none";
/// From baseline to baseline as a part of the type.
pub(super) const LEADING: f64 = 1.32;
/// Room for the mark of a source behind a figure, as a part of the type.
const MARK: f64 = 0.75;

impl Column {
    pub(super) fn new(width: f64, scale: f64) -> Self {
        Self { leaf: Leaf::new(Size::new(width, 0.0)), scale, width, y: 0.0 }
    }

    /// The column as a part of a page, as high as it is written.
    pub(super) fn finish(mut self) -> Leaf {
        self.leaf.size.height = self.y;
        self.leaf
    }

    pub(super) fn gap(&mut self, mm: f64) {
        self.y += mm * self.scale;
    }

    /// A heading over a rule.
    pub(super) fn heading(&mut self, text: &str) {
        if self.y > 0.0 {
            self.gap(2.4);
        }
        let style = Style::bold(HEADING * self.scale).within(self.width, text);
        self.y += HEADING * self.scale;
        self.leaf.words(Point::new(0.0, self.y - 0.2 * HEADING * self.scale), style, text);
        self.y += 0.3;
        self.leaf.line((0.0, self.y), (self.width, self.y), 0.3, Tone::Ink);
        self.gap(0.9);
    }

    /// A label and at the right end its figure. A label makes itself a little smaller for a figure; what is still too long
    /// goes on under it.
    pub(super) fn row(&mut self, size: f64, label: &str, figure: &str, mark: &str) {
        let size = size * self.scale;
        let plain = Style::plain(size);
        let style = if is_none(figure) { plain } else { Style::bold(size) };
        let right = self.width - MARK * size;
        self.y += size * LEADING;
        let base = |column: &Self| column.y - 0.3 * size;
        let room = right - style.length(figure) - 0.5 * size;
        let beside = plain.within(room.max(1e-3), label);
        let under = beside.size < SMALLEST * size;
        let label_style = if under { plain.within(right, label) } else { beside };
        self.leaf.words(Point::new(0.0, base(self)), label_style, label);
        let lines = if under { wrapped(figure, style, right - size) } else { vec![figure.to_owned()] };
        for (i, line) in lines.iter().enumerate() {
            if under {
                self.y += size * LEADING;
            }
            self.leaf.words_to(Point::new(right, base(self)), style, line);
            if i == 0 {
                let raised = Point::new(right + 0.1 * size, base(self) - 0.3 * size);
                self.leaf.words(raised, Style::plain(0.62 * size), mark);
            }
        }
    }

    /// A label over a great figure.
    pub(super) fn great(&mut self, label: &str, figure: &str, mark: &str) {
        let size = 8.2 * self.scale;
        self.gap(0.6);
        self.y += SMALL * self.scale * LEADING;
        self.leaf.words(
            Point::new(0.0, self.y - 0.4),
            Style::plain(SMALL * self.scale).within(self.width - 1.0, label),
            label,
        );
        let style = Style::serif(size).within(self.width - 0.7 * size, figure);
        self.y += 0.86 * style.size;
        let length = self.leaf.words(Point::new(0.0, self.y), style, figure);
        let raised = Point::new(length + 0.4, self.y - 0.4 * style.size);
        self.leaf.words(raised, Style::plain(0.62 * TEXT * self.scale), mark);
        self.gap(1.4);
    }

    /// A paragraph.
    pub(super) fn paragraph(&mut self, style: Style, text: &str) {
        for line in wrapped(text, style, self.width) {
            self.line(style, &line);
        }
    }

    /// One line that is no longer than the column.
    pub(super) fn line(&mut self, style: Style, text: &str) {
        self.y += style.size * LEADING;
        self.leaf.words(Point::new(0.0, self.y - 0.3 * style.size), style, text);
    }

    /// How many more lines there is room for above `room` mm.
    pub(super) fn lines_within(&self, style: Style, room: f64) -> usize {
        let mut count = 0;
        while self.y + (count + 1) as f64 * style.size * LEADING <= room {
            count += 1;
        }
        count
    }

    /// Lines, `most` of them at the most: where there are more, the last one says how many in words.
    pub(super) fn first_lines(
        &mut self,
        style: Style,
        lines: &[String],
        most: usize,
        more: &dyn Fn(usize) -> String,
    ) {
        let shown = if lines.len() > most { most.saturating_sub(1) } else { lines.len() };
        lines[..shown].iter().for_each(|line| self.line(style, line));
        if shown < lines.len() {
            self.line(style.soft(), &more(lines.len() - shown));
        }
    }

    /// A figure of the full width.
    pub(super) fn figure(&mut self, figure: Leaf) {
        let height = figure.size.height;
        self.leaf.place(figure, Point::new(0.0, self.y));
        self.y += height;
    }

    /// Rows of quantities under their keys, whichever table has them.
    pub(super) fn quantities(&mut self, desk: &Desk<'_>, sources: &mut Sources, keys: &[&str]) {
        for key in keys {
            if let Some((label, figure, mark)) = desk.quantity(sources, key) {
                self.row(TEXT, &label, &figure, &mark);
            }
        }
    }
}

/// Stands where there is no figure, with the reason.
pub(super) fn none(why: &'static str) -> String {
    if why.is_empty() { said(NONE).to_owned() } else { say!("none: {why}", why) }
}

/// Whether a text stands where there is no figure.
pub(super) fn is_none(figure: &str) -> bool {
    figure.starts_with(said(NONE))
}

impl Desk<'_> {
    /// A quantity as a row: its label, its figure with unit, the mark of its source; `None` for an input left empty.
    pub(super) fn quantity(&self, sources: &mut Sources, key: &str) -> Option<(String, String, String)> {
        if let Some(found) = figures::find(key) {
            let label = if found.estimate {
                say!("{label} (est.)", label = found.quantity.label)
            } else {
                said(found.quantity.label).to_owned()
            };
            sources.tell(found.quantity.key);
            let mark = sources.mark(found.source);
            return Some((label, self.figure(&found.quantity, (found.read)(self.workshop)), mark));
        }
        let (quantity, reading) = if let Some(input) = table::find(key) {
            (&input.quantity, Reading::of((input.get)(self.workshop.inputs)?))
        } else if let Some(setting) = find_setting(key) {
            (&setting.quantity, Reading::of((setting.get)(self.workshop.shape)))
        } else {
            let measure = find_measure(key)?;
            (&measure.quantity, (measure.read)(self.measured))
        };
        sources.tell(quantity.key);
        Some((said(quantity.label).to_owned(), self.figure(quantity, reading), String::new()))
    }

    /// A reading in the units of the sheet; where there is none, why.
    pub(super) fn figure(&self, quantity: &Quantity, reading: Reading) -> String {
        let Some(value) = reading.value else {
            return none(reading.remark);
        };
        self.value(quantity, value)
    }

    /// A value in the units of the sheet.
    pub(super) fn value(&self, quantity: &Quantity, value: f64) -> String {
        let shown = show(value, quantity.unit, self.input.system);
        match (quantity.unit, shown.unit.strip_suffix("⁻¹")) {
            // The letters of paper have no raised minus.
            (_, Some(unit)) => [&shown.text, " 1/", unit].concat(),
            (Unit::Ratio, _) if quantity.key.ends_with("cost") => figure(decimal(value, 2)),
            (Unit::Ratio, _) if shown.text.contains(['.', ',']) => {
                shown.text.trim_end_matches('0').trim_end_matches(['.', ',']).to_owned()
            }
            _ => shown.to_string(),
        }
    }
}
