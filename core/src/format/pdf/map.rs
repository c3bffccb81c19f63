//! The first page of a drawing on tiles: a small picture of all of them with their numbers, and how to put them together.

use super::{
    Title,
    content::{Content, HAIRLINE, Runs},
    frame,
    letters::{self, CAPITALS},
};
use crate::{
    language::{Own, figure, said},
    paper::{self, Tiling},
    say, units,
};
use kurbo::{Point, Rect, TranslateScale, Vec2};

/// Size of the heading and of the words, mm.
const HEADING: f64 = 7.0;
const SIZE: f64 = 3.8;
/// From one line of words to the next, mm.
const PITCH: f64 = 5.5;

pub(super) fn content(tiling: &Tiling, paper: &str, title: &Title) -> Content {
    let mut content = Content::page();
    let mut room = paper::window(tiling.page, tiling.margin);
    room.y1 -= HEADING;
    content.words_within(Point::new(room.x0, room.y1), HEADING, room.width(), &title.letters(""));
    room.y1 -= 2.0;
    let lines = words(tiling, paper).map(|line| letters::lossy(&line));
    // All of one size, that of the longest.
    let longest = lines.iter().map(letters::width).fold(0.0, f64::max);
    let size = SIZE.min(room.width() / longest);
    for line in &lines {
        room.y1 -= PITCH;
        content.words(Point::new(room.x0, room.y1), size, Runs::Level, line);
    }
    room.y1 -= PITCH;
    // Half a line on every side lies outside of what it goes round.
    picture(&mut content, tiling, room.inflate(-HAIRLINE, -HAIRLINE));
    frame::draw(&mut content, tiling, None, title);
    content
}

fn words(tiling: &Tiling, paper: &str) -> [String; 4] {
    let mm = |length| figure(units::decimal_trimmed(length, 2));
    let (tiles, rows, columns) = (tiling.tiles.len(), tiling.rows, tiling.columns);
    let (margin, overlap) = (mm(tiling.margin), mm(tiling.overlap));
    [
        say!(
            "{tiles} tiles in {rows} x {columns} (rows x columns) on {paper}; margins {margin} mm, overlap {overlap} mm",
            tiles,
            rows,
            columns,
            paper = Own(paper),
            margin,
            overlap
        ),
        said("1. Print at actual size (100 %). Measure the check bars of every page along both axes.")
            .to_owned(),
        said("2. Of two neighbours cut one along its dashed line and lay it over the other.").to_owned(),
        said("3. Move it until the diamonds and the dashed lines meet, then tape.").to_owned(),
    ]
}

/// All cells with their numbers over the drawing, as large as the room allows.
fn picture(content: &mut Content, tiling: &Tiling, room: Rect) {
    let cells = tiling.tiles.iter().map(|&tile| tiling.cell(tile));
    let all = cells.reduce(|all, one| all.union(one)).unwrap_or(Rect::ZERO);
    let scale = (room.width() / all.width()).min(room.height() / all.height()).min(1.0);
    let corner = Point::new(room.x0, room.y1 - scale * all.height());
    let shift = corner.to_vec2() - scale * all.origin().to_vec2();
    content.window(room, shift, scale);
    content.show("D");
    content.end_window();
    content.grey(0.4);
    for &tile in &tiling.tiles {
        let cell = TranslateScale::new(shift, scale) * tiling.cell(tile);
        content.rectangle(cell);
        let number = letters::lossy(&tile.to_string());
        let width = letters::width(&number);
        let size = (0.5 * cell.height()).min(0.6 * cell.width() / width).min(HEADING);
        let half = Vec2::new(size * width / 2.0, size * CAPITALS / 2.0);
        // Over the middle, where the centreline and the name of a deck lie.
        let middle = Point::new(cell.center().x, cell.y0 + 0.64 * cell.height());
        content.words(middle - half, size, Runs::Level, &number);
    }
}
