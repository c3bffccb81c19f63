//! The dimensioned drawing: the scene of the page in ink, plan and side view.

use super::Desk;
use crate::{
    editor::Room,
    leaf::{Face, Leaf, Mark, Style, Tone},
    outline::resolve,
    scene::{self, Anchor, Item, Role, SceneInput},
};
use kurbo::{Affine, Point, Rect, Shape as _, Size, Vec2};

/// How the names of the figures at the tightest bends begin.
const TIGHTEST: &str = "figure-smallest";
/// The page's letters of 14 px come out this large, mm.
const LETTERS: f64 = 2.9;
const PX: f64 = LETTERS / 14.0;
/// The strip along the left and the upper edge of a stage that a ruler's ticks take, px; paper has no rulers.
const TICKS: f64 = 12.0;

/// What a stage keeps free for the figures of its rulers beyond their ticks, px.
const RULERS: f64 = 30.0;

/// The drawing, as large as it can be in a box of that size and no higher than it needs.
pub(super) fn draw(desk: &Desk<'_>, size: Size, scale: f64) -> Leaf {
    // What paper wins without rulers is given to the board, where it finds room.
    let [wide, narrow] = [RULERS, 0.0].map(|more| attempt(desk, size, scale, more));
    let (mut leaf, extent) = if wide.1.width() <= size.width { wide } else { narrow };
    let shift = Vec2::new((size.width - extent.x0 - extent.x1) / 2.0, -extent.y0);
    let mut drawing = Leaf::new(Size::new(size.width, extent.height()));
    leaf.size = drawing.size;
    drawing.place(leaf, shift.to_point());
    drawing
}

/// The drawing on a stage that many px wider than its box, and its extent.
fn attempt(desk: &Desk<'_>, size: Size, scale: f64, more: f64) -> (Leaf, Rect) {
    let px = PX * scale;
    let shape = desk.input.design.shape();
    let stage = Size::new(size.width / px + TICKS + more, size.height / px + TICKS);
    let view = scene::fitted(shape, desk.measured, stage, false);
    let scene = scene::draw(&SceneInput {
        shape,
        measured: desk.measured,
        view,
        system: desk.input.system,
        comb: false,
        selection: None,
        limit: None,
        caught: None,
        ink: &[],
        stretch: None,
        laying: None,
        behind: None,
        brought: None,
        room: Room::Draw,
        inputs: desk.workshop.inputs,
        cut: None,
    });
    let to_leaf = Affine::scale(px) * Affine::translate((-TICKS, -TICKS)) * view.affine();
    let mut leaf = Leaf::new(size);
    // Lines first: they stop before letters.
    let (letters, lines): (Vec<Item>, Vec<Item>) =
        scene.items.into_iter().partition(|item| matches!(item.mark, scene::Mark::Text { .. }));
    for item in lines.into_iter().chain(letters) {
        ink(&mut leaf, item, to_leaf, scale, desk);
    }
    let mut extent: Option<Rect> = None;
    let mut take_in = |area: Rect| extent = Some(extent.map_or(area, |all| all.union(area)));
    for mark in &leaf.marks {
        if let Mark::Stroke { path, .. } | Mark::Fill { path, .. } = mark {
            path.segments().for_each(|segment| take_in(resolve::extent(&segment.to_cubic())));
        }
    }
    leaf.texts().for_each(|(area, _)| take_in(area));
    (leaf, extent.unwrap_or(Rect::ZERO))
}

/// Width of a line, its tone, whether it is dashed, and what it is filled with.
type Look = (f64, Tone, bool, Option<Tone>);

fn look(role: Role) -> Option<Look> {
    Some(match role {
        Role::Blank => (0.2, Tone::Soft, true, None),
        Role::Deck => (0.0, Tone::Ink, false, Some(Tone::Wood)),
        Role::Edge => (0.6, Tone::Ink, false, None),
        Role::EdgeMirror => (0.3, Tone::Ink, false, None),
        Role::Centreline => (0.15, Tone::Ink, true, None),
        Role::BendLine => (0.2, Tone::Ink, true, None),
        Role::Hole => (0.25, Tone::Ink, false, None),
        Role::Rail => (1.1, Tone::Red, false, None),
        Role::Side => (0.35, Tone::Ink, false, Some(Tone::Wood)),
        Role::Dimension | Role::Spot => (0.15, Tone::Ink, false, None),
        // Nothing in hand, no rulers, no squares: paper is not a screen.
        _ => return None,
    })
}

fn ink(leaf: &mut Leaf, item: Item, to_leaf: Affine, scale: f64, desk: &Desk<'_>) {
    match item.mark {
        scene::Mark::Path(path) => {
            let Some((width, tone, dashed, inside)) = look(item.role) else { return };
            let path = to_leaf * path;
            if let Some(tone) = inside {
                leaf.fill(path.clone(), tone);
            }
            if width > 0.0 {
                leaf.marks.push(Mark::Stroke { path, width, tone, dashed });
            }
        }
        scene::Mark::Text { at, anchor, turned, text, .. } => {
            let face = match item.role {
                Role::DimensionText => Face::Plain,
                Role::DimensionStrong => Face::Bold,
                _ => return,
            };
            let style = Style { face, size: 0.94 * LETTERS * scale, tone: Tone::Ink };
            let (length, drop) = (style.length(&text), style.capitals() / 2.0);
            let before = match anchor {
                Anchor::Start => 0.0,
                Anchor::Middle => length / 2.0,
                Anchor::End => length,
            };
            let Point { mut x, y } = to_leaf * at;
            if item.id.starts_with(TIGHTEST) {
                // Clear of the edge, which turns inward there, where there is room.
                let inward = if anchor == Anchor::End { -style.size } else { style.size };
                let there = Rect::new(x - before + inward, y - drop, x - before + inward + length, y + drop);
                if leaf.texts().all(|(area, _)| area.intersect(there.inflate(1.0, 1.0)).is_zero_area()) {
                    x += inward;
                }
            }
            if turned {
                let at = Point::new(x + drop, y + before);
                leaf.upright(at, style, &text);
            } else {
                let start = Point::new(x - before, y + drop);
                let area = Rect::new(start.x, y - drop, start.x + length, y + drop).inflate(0.5, 0.4);
                let corners =
                    [(area.x0, area.y0), (area.x1, area.y0), (area.x0, area.y1), (area.x1, area.y1)];
                let to_board = to_leaf.inverse();
                let inside = corners.map(|corner| on_the_board(desk, to_board * Point::from(corner)));
                if inside[1..].iter().all(|side| *side == inside[0]) {
                    leaf.fill(area.to_path(1.0), if inside[0] { Tone::Wood } else { Tone::Paper });
                }
                leaf.words(start, style, &text);
            }
        }
        scene::Mark::Engraved { .. } => {}
    }
}

/// Whether a place lies inside the edge.
fn on_the_board(desk: &Desk<'_>, at: Point) -> bool {
    desk.measured.envelope.half_breadth(at.x).is_some_and(|half| at.y.abs() < half)
}
