//! Tables of texts that flow over pages: offsets by station, or steps of a mark-out.

use super::{
    Title,
    content::{Content, Runs},
    letters::{self, Letters},
};
use crate::say;
use kurbo::{Point, Rect, Size};

/// A column of a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Column<'a> {
    /// Its heading; may be empty.
    pub heading: &'a str,
    /// Whether it holds words, which begin at the left, and not figures, which end at the right.
    pub words: bool,
}

/// Sizes of the title and of a table that is not made smaller, mm.
const HEADING: f64 = 5.0;
const SIZE: f64 = 3.5;
/// From one row to the next and between two columns, mm.
const PITCH: f64 = 5.0;
const GAP: f64 = 5.0;
/// Rows after which a line helps the eye.
const EVERY: usize = 5;

/// The pages of a table with the size of each; `paper` upright and on its side.
pub(super) fn pages(
    heading: &str,
    columns: &[Column],
    rows: &[Vec<String>],
    paper: [Size; 2],
    margin: f64,
    title: &Title,
) -> Vec<(Size, Content)> {
    let what = letters::lossy(heading);
    let heading: Vec<Letters> = columns.iter().map(|column| letters::lossy(column.heading)).collect();
    let rows: Vec<Vec<Letters>> =
        rows.iter().map(|row| row.iter().map(|cell| letters::lossy(cell)).collect()).collect();
    let widths: Vec<f64> = (0..columns.len())
        .map(|i| {
            let cells = rows.iter().chain([&heading]).filter_map(|row| row.get(i));
            cells.map(|cell| SIZE * letters::width(cell)).fold(0.0, f64::max) + GAP
        })
        .collect();
    let total = widths.iter().sum::<f64>().max(1.0);

    let room = |page: Size| page.to_rect().inflate(-margin, -margin);
    let [upright, level] = paper;
    let page = if total <= room(upright).width() { upright } else { level };
    let room = room(page);
    let layout = Layout { columns, widths: &widths, scale: (room.width() / total).min(1.0), room };

    let mut rest = rows.as_slice();
    let mut contents = Vec::new();
    loop {
        let mut content = Content::page();
        content.words_within(Point::new(room.x0, room.y1 - HEADING), HEADING, room.width(), &what);
        rest = layout.page(&mut content, &heading, rest);
        contents.push(content);
        if rest.is_empty() {
            break;
        }
    }
    let count = contents.len();
    for (i, content) in contents.iter_mut().enumerate() {
        let version = title.version();
        let words =
            title.letters(&say!("{version}, page {number} of {count}", version, number = i + 1, count));
        content.words_within(Point::new(room.x0, room.y0 + 1.0), SIZE, room.width(), &words);
    }
    contents.into_iter().map(|content| (page, content)).collect()
}

struct Layout<'a> {
    columns: &'a [Column<'a>],
    widths: &'a [f64],
    scale: f64,
    room: Rect,
}

impl Layout<'_> {
    /// Fills a page; the rows that it had no room for. One row always goes on it.
    fn page<'r>(
        &self,
        content: &mut Content,
        heading: &[Letters],
        rows: &'r [Vec<Letters>],
    ) -> &'r [Vec<Letters>] {
        let pitch = self.scale * PITCH;
        let mut y = self.room.y1 - HEADING - 3.0 - pitch;
        self.row(content, y, heading);
        self.rule(content, y, 0.0);
        for (i, row) in rows.iter().enumerate() {
            if i > 0 && y - pitch < self.room.y0 + PITCH {
                return &rows[i..];
            }
            y -= pitch;
            self.row(content, y, row);
            if (i + 1) % EVERY == 0 {
                self.rule(content, y, 0.6);
            }
        }
        &[]
    }

    fn row(&self, content: &mut Content, y: f64, cells: &[Letters]) {
        let size = self.scale * SIZE;
        let mut x = self.room.x0;
        for ((cell, column), width) in cells.iter().zip(self.columns).zip(self.widths) {
            let width = self.scale * width;
            let start =
                if column.words { x } else { x + width - self.scale * GAP - size * letters::width(cell) };
            content.words(Point::new(start, y), size, Runs::Level, cell);
            x += width;
        }
    }

    /// A line under a row.
    fn rule(&self, content: &mut Content, y: f64, grey: f64) {
        let y = y - 0.3 * self.scale * PITCH;
        let length = self.scale * self.widths.iter().sum::<f64>();
        content.grey(grey);
        content.line(Point::new(self.room.x0, y), Point::new(self.room.x0 + length, y));
        content.grey(0.0);
    }
}
