//! The first page: what the deck is called, its drawing, its dimensions, its offsets, and the maker's notes.

use super::{
    Desk, GAP, MARGIN, SCALES, board, code,
    column::{Column, FINE, LEADING, SMALL, TEXT},
    sources::Sources,
    stacked,
};
use crate::{
    check,
    language::{Own, figure, said},
    leaf::{Leaf, Style, Tone, wrapped},
    projection::Projection,
    quantities::{Group, MEASURES, Part, SETTINGS, find_measure},
    real, say,
    template::stations::{self, Station},
    units::{Denominator, System, Unit, decimal, show},
};
use kurbo::{Point, Rect, Size, Vec2};

/// Height of the drawing, mm: what it should have, what it has at least where letters had to be made small, and the most.
const DRAWING: [f64; 3] = [92.0, 62.0, 112.0];
/// Columns of dimensions, of plain stations, and of named places.
const DIMENSIONS: usize = 4;
const STATIONS: usize = 6;
const PLACES: usize = 3;
/// How the pressed deck stands and what it strikes, with what that is worked out from.
pub(super) const RIDE: [&str; 10] = [
    "nose-tip-rise",
    "tail-tip-rise",
    "nose-strike-angle",
    "tail-strike-angle",
    "wheel-bite-lean",
    "axle-height",
    "axle-offset",
    "riser",
    "wheel-diameter",
    "wheel-half-width",
];
/// White between columns, mm.
pub(super) const GUTTER: f64 = 5.0;
/// Most lines of what to look at.
const MOST_DOUBTS: usize = 7;

/// The page, and where its code of the link is; `None` where it does not hold all in letters of that scale.
pub(super) fn page(
    desk: &Desk<'_>,
    put_in: &[String],
    size: Size,
    scale: f64,
) -> Option<(Leaf, Option<Rect>)> {
    let width = size.width - 2.0 * MARGIN;
    let (head, code) = head(desk, width, scale);
    let parts = [dimensions(desk, width, scale), offsets(desk, width, scale), doubts(desk, width, scale)];
    let taken: f64 = parts.iter().chain([&head]).map(|part| part.size.height + GAP).sum();
    let rest = size.height - 2.0 * MARGIN - taken;
    let least_notes = if desk.input.design.notes().is_empty() { 0.0 } else { GAP + 14.0 * scale };
    let [should, least, most] = DRAWING;
    let room = rest - least_notes - if scale < 1.0 { least } else { should };
    let from = worked_out_from(put_in, width, room - GAP, scale)?;
    let rest = rest - from.size.height - GAP;
    let [dimensions, offsets, doubts] = parts;
    let parts = [dimensions, offsets, from, doubts];
    let drawing = board::draw(desk, Size::new(width, (rest - least_notes).min(most)), scale);
    // White that is left over goes between the parts, where there are no notes to take it.
    let left = if least_notes > 0.0 { 0.0 } else { rest - drawing.size.height - GAP };
    let more = real::clamp(left / (parts.len() + 1) as f64, 0.0, 5.0);
    let mut page = Leaf::new(size);
    let mut y = MARGIN;
    let code = code.map(|code| code + Vec2::new(MARGIN, y));
    for part in [head, drawing].into_iter().chain(parts) {
        stacked(&mut page, &mut y, part);
        y += more;
    }
    let room = size.height - MARGIN - y;
    stacked(&mut page, &mut y, notes(desk, width, room, scale));
    Some((page, code))
}

/// Name, version, date, the four great figures, and the code of the link.
fn head(desk: &Desk<'_>, width: f64, scale: f64) -> (Leaf, Option<Rect>) {
    let code = code::code(desk.input.link);
    let side = code.as_ref().map_or(34.0, |code| code.size.width);
    let room = width - side - GUTTER;
    let mut column = Column::new(room, scale);
    let name = desk.name();
    column.y += 8.4 * scale;
    let title = Style::serif(10.5 * scale).within(room, name);
    column.leaf.words(Point::new(0.0, column.y - 0.6), title, name);
    column.leaf.line((0.0, column.y + 1.2), (room, column.y + 1.2), 0.5, Tone::Ink);
    column.gap(1.6);
    let version = desk.version();
    let what = if version.is_empty() {
        said("Build sheet, page 1 of 2: the shape").to_owned()
    } else {
        say!("Build sheet, page 1 of 2: the shape. {version}", version)
    };
    column.paragraph(Style::plain(TEXT * scale), &what);
    column.gap(1.2);
    let great = ["overall-length", "overall-width", "platform-length", "finished-thickness"];
    let each = room / great.len() as f64;
    let top = column.y;
    for (i, key) in great.into_iter().enumerate() {
        let Some((label, figure, _)) = desk.quantity(&mut Sources::default(), key) else { continue };
        let mut one = Column::new(each, scale);
        one.great(&label, &figure, "");
        column.y = column.y.max(top + one.y);
        column.leaf.place(one.finish(), Point::new(i as f64 * each, top));
    }
    let mut head = column.finish();
    head.size = Size::new(width, head.size.height.max(side));
    let place = Point::new(width - side, 0.0);
    let area = code.as_ref().map(|_| Rect::from_origin_size(place, (side, side)));
    if let Some(code) = code {
        head.place(code, place);
    } else {
        let style = Style::plain(SMALL * scale);
        let text = say!(
            "The link has {count} characters, more than a code on paper can hold: copy it from the page.",
            count = desk.input.link.chars().count()
        );
        for (i, line) in wrapped(&text, style, side).iter().enumerate() {
            head.words(place + Vec2::new(0.0, (i + 1) as f64 * LEADING * style.size), style, line);
        }
    }
    (head, area)
}

/// Every dimension that is set or measured, in columns.
fn dimensions(desk: &Desk<'_>, width: f64, scale: f64) -> Leaf {
    let settings = SETTINGS.iter().filter(|row| matches!(row.part, Part::Datum | Part::Profile));
    // Some quantities are set and measured: they stand once.
    let settings = settings.map(|row| row.quantity.key).filter(|key| find_measure(key).is_none());
    let measures = MEASURES.iter().filter(|row| row.group != Group::Glue);
    let mut keys: Vec<&str> = measures.map(|row| row.quantity.key).chain(settings).collect();
    keys.extend(RIDE);
    keys.retain(|key| !matches!(*key, "overall-length" | "overall-width" | "platform-length"));
    let mut column = Column::new(width, scale);
    column.heading(said("Dimensions, on the developed sheet"));
    in_columns(&mut column, &keys, DIMENSIONS, &mut |part, key| {
        if let Some((label, figure, _)) = desk.quantity(&mut Sources::default(), key) {
            part.row(SMALL, &label, &figure, "");
        }
    });
    column.finish()
}

/// Entries one after another in `count` columns of about equal height.
fn in_columns<T>(column: &mut Column, entries: &[T], count: usize, write: &mut dyn FnMut(&mut Column, &T)) {
    let each = (column.width - GUTTER * (count - 1) as f64) / count as f64;
    let (top, mut lowest) = (column.y, column.y);
    let share = entries.len().div_ceil(count).max(1);
    for (i, entries) in entries.chunks(share).enumerate() {
        let mut part = Column::new(each, column.scale);
        for entry in entries {
            write(&mut part, entry);
        }
        lowest = lowest.max(top + part.y);
        column.leaf.place(part.finish(), Point::new(i as f64 * (each + GUTTER), top));
    }
    column.y = lowest;
}

/// The table of offsets: plain stations, then every named place.
fn offsets(desk: &Desk<'_>, width: f64, scale: f64) -> Leaf {
    let system = desk.input.system;
    let table = stations::table(desk.input.design.shape(), Projection::Developed, stations::spacing(system));
    let (plain, named): (Vec<Station>, Vec<Station>) =
        table.into_iter().partition(|place| place.name.is_empty());
    let unit = Unit::Length.symbol(system);
    let to_the = if system == System::Millimetres { "" } else { " to the nearest 1/64" };
    let mut column = Column::new(width, scale);
    column.heading(&say!(
        "Table of offsets, DEVELOPED, {unit}{to_the}: station from the datum, half-breadth",
        unit = Own(unit),
        to_the
    ));
    let shown = |mm: f64| match system {
        System::Millimetres => figure(decimal(mm, 1)).replace('-', "−"),
        System::Inches { .. } => {
            let shown =
                show(mm, Unit::Length, System::Inches { denominator: Denominator::SixtyFourths }).text;
            shown.strip_prefix("≈ ").map_or(shown.clone(), str::to_owned)
        }
    };
    let breadths = |place: &Station| {
        let mut texts: Vec<String> = place.crossings.iter().map(|&y| shown(y)).collect();
        texts.dedup();
        texts.join("; ")
    };
    let mut row = |part: &mut Column, place: &Station| {
        let size = TEXT * scale;
        let breadths = breadths(place);
        let style = Style::bold(size).within(part.width - 11.0 * scale, &breadths);
        part.y += size * LEADING;
        let base = part.y - 0.3 * size;
        let station = shown(place.x);
        let room = part.width - style.length(&breadths) - 1.0;
        let label = if place.name.is_empty() { station } else { [said(place.name), ", ", &station].concat() };
        let plain = Style::plain(size).within(room, &label);
        part.leaf.words(Point::new(0.0, base), plain, &label);
        part.leaf.words_to(Point::new(part.width, base), style, &breadths);
        let line = part.y + 0.02 * size;
        part.leaf.line((0.0, line), (part.width, line), 0.1, Tone::Rule);
    };
    in_columns(&mut column, &plain, STATIONS, &mut row);
    column.gap(1.6);
    in_columns(&mut column, &named, PLACES, &mut row);
    column.finish()
}

/// What the figures are worked out from; `None` where there is no room for all of it. In the smallest letters it is cut
/// instead, with words that say so.
fn worked_out_from(put_in: &[String], width: f64, room: f64, scale: f64) -> Option<Leaf> {
    let mut column = Column::new(width, scale);
    column.heading(said("What the figures are worked out from"));
    let style = Style::plain(FINE * scale);
    let lines: Vec<String> = put_in.iter().flat_map(|words| wrapped(words, style, width)).collect();
    let fit = column.lines_within(style, room);
    if fit == 0 || fit < lines.len() && scale > SCALES[SCALES.len() - 1] {
        return None;
    }
    column.first_lines(style, &lines, fit, &beside_the_fields);
    Some(column.finish())
}

/// What to look at before cutting.
fn doubts(desk: &Desk<'_>, width: f64, scale: f64) -> Leaf {
    let system = desk.input.system;
    let problems = check::problems(desk.input.design.shape(), desk.measured, system);
    let faults = desk.workshop.faults();
    // What both tables say of a field is said once.
    let faults = faults.iter().filter(|fault| problems.iter().all(|problem| problem.key != fault.field()));
    let texts: Vec<String> = problems
        .iter()
        .map(|problem| problem.text.clone())
        .chain(faults.map(|fault| fault.message(system)))
        .collect();
    let mut column = Column::new(width, scale);
    if texts.is_empty() {
        return column.finish();
    }
    column.heading(said("To look at before cutting"));
    let style = Style::plain(SMALL * scale);
    let lines: Vec<String> =
        texts.iter().flat_map(|text| wrapped(&["– ", text].concat(), style, width)).collect();
    column.first_lines(style, &lines, MOST_DOUBTS, &beside_the_fields);
    column.finish()
}

/// Where the lines stand that a page has no room for.
fn beside_the_fields(more: usize) -> String {
    say!("… and {more} more lines beside the fields of the page.", more)
}

/// The maker's notes, as many lines as there is room for.
fn notes(desk: &Desk<'_>, width: f64, room: f64, scale: f64) -> Leaf {
    let mut column = Column::new(width, scale);
    let notes = desk.input.design.notes();
    if room < 10.0 * scale {
        return column.finish();
    }
    column.heading(said("Notes"));
    if notes.trim().is_empty() {
        // Lines for a pencil.
        let pitch = 8.0 * scale;
        while column.y + pitch <= room {
            column.y += pitch;
            column.leaf.line((0.0, column.y), (width, column.y), 0.15, Tone::Rule);
        }
        return column.finish();
    }
    let style = Style::plain(TEXT * scale);
    let lines = wrapped(notes, style, width);
    let fit = column.lines_within(style, room);
    column.first_lines(style, &lines, fit, &|more| {
        say!("… cut here: {more} more lines stand in the design.", more)
    });
    column.finish()
}
