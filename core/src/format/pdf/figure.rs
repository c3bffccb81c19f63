//! A drawing on one page, made as small as it takes: to be read, where nothing is measured on the paper.

use super::{Title, content::Content, letters};
use crate::{language::Own, say};
use kurbo::{Point, Rect, Size};

/// Size of the heading and of the words under the figure, mm.
const HEADING: f64 = 5.0;
const SIZE: f64 = 3.5;
/// White round the figure, mm.
const AROUND: f64 = 2.0;

/// The page, upright or on its side, whichever shows it larger.
pub(super) fn page(
    heading: &str,
    extent: Rect,
    paper: [Size; 2],
    margin: f64,
    title: &Title,
) -> (Size, Content) {
    let room = |page: Size| {
        let room = page.to_rect().inflate(-margin, -margin);
        Rect { y0: room.y0 + 2.0 * SIZE, y1: room.y1 - 2.0 * HEADING, ..room }.inflate(-AROUND, -AROUND)
    };
    let scale = |page: Size| {
        let room = room(page);
        (room.width() / extent.width()).min(room.height() / extent.height()).min(1.0)
    };
    let [upright, level] = paper;
    let page = if scale(upright) >= scale(level) { upright } else { level };
    let (room, scale) = (room(page), scale(page));
    let mut content = Content::page();
    let words = letters::lossy(&say!(
        "{heading}, reduced: read the figures, measure nothing on this page",
        heading = Own(heading)
    ));
    content.words_within(Point::new(room.x0, room.y1 + HEADING), HEADING, room.width(), &words);
    let middle = Point::new(room.center().x, room.y1 - scale * extent.height() / 2.0);
    let shift = middle.to_vec2() - scale * extent.center().to_vec2();
    content.window(room.inflate(AROUND, AROUND), shift, scale);
    content.show("D");
    content.end_window();
    let words = title.letters(&title.version());
    content.words_within(Point::new(room.x0, margin + 1.0), SIZE, room.width(), &words);
    (page, content)
}
