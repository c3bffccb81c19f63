//! What stands beside the window of every page of a drawing: check bars along both axes, and the words.

use super::{
    Title,
    content::{Content, Runs},
    letters,
};
use crate::{
    language::said,
    paper::{FOOT, STRIP, Tile, Tiling},
    say, units,
};
use kurbo::{Point, Vec2};

/// Size of the words, mm.
const SIZE: f64 = 3.2;
/// Size of the number of a tile, mm.
const LARGE: f64 = 9.0;
/// Half the length of the strokes at the ends of a check bar, mm.
const TICK: f64 = 1.2;

/// Draws the frame of a page; of `tile`, where it is one of several.
pub(super) fn draw(content: &mut Content, tiling: &Tiling, tile: Option<Tile>, title: &Title) {
    let margin = tiling.margin;
    let left = Point::new(margin + STRIP, margin);
    content.grey(0.0);
    bars(content, left, Runs::Level);
    bars(content, Point::new(margin, margin + FOOT), Runs::Upright);

    let room = tiling.page.width - margin - left.x;
    let place = tile.map_or_else(String::new, |tile| {
        let (row, column) = (tile.row + 1, tile.column + 1);
        say!(
            ", tile {tile}: row {row} of {rows}, column {column} of {columns}",
            tile = tile.to_string(),
            row,
            rows = tiling.rows,
            column,
            columns = tiling.columns
        )
    });
    content.words_within(left + Vec2::new(0.0, 12.2), SIZE, room, &title.letters(&place));
    let caption = title.caption;
    let version = if caption.version.is_empty() { "" } else { ". " };
    let print = said("Print at actual size (100 %), not fitted to the page");
    let words = [print, version, caption.version].concat();
    content.words_within(left + Vec2::new(0.0, 8.4), SIZE, room, &letters::lossy(&words));
    if let Some(tile) = tile {
        let number = letters::lossy(&tile.to_string());
        let at = left + Vec2::new(room - LARGE * letters::width(&number), 0.5);
        // Where there is no room behind the bars, the words alone give the number.
        if at.x > left.x + units::inches(4.0) + 4.0 * SIZE {
            content.words(at, LARGE, Runs::Level, &number);
        }
    }
}

/// Two check bars beside one another, from `start` on.
fn bars(content: &mut Content, start: Point, runs: Runs) {
    let (along, across) = match runs {
        Runs::Level => (Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0)),
        Runs::Upright => (Vec2::new(0.0, 1.0), Vec2::new(1.0, 0.0)),
    };
    for (beside, length, name) in [(5.6, 100.0, "100 mm"), (1.8, units::inches(4.0), "4 in")] {
        let (from, tick) = (start + beside * across, TICK * across);
        let to = from + length * along;
        content.line(from, to);
        for end in [from, to] {
            content.line(end - tick, end + tick);
        }
        // The words stand in the middle of the bar's height; upright, their tops are to the left.
        let middle = SIZE * letters::CAPITALS / 2.0;
        let base = match runs {
            Runs::Level => -middle * across,
            Runs::Upright => middle * across,
        };
        content.words(to + 1.5 * along + base, SIZE, runs, &letters::lossy(name));
    }
}
