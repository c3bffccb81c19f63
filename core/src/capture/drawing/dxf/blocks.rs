//! Blocks of a DXF file: drawn once, and placed by an INSERT wherever they are wanted, in one another too.

use super::Entity;
use crate::{
    capture::drawing::{DrawingError, Sketch},
    real,
};
use kurbo::{Affine, Point};

/// Blocks that hold blocks are followed this deep: one that holds itself has no bottom.
const DEEPEST: usize = 8;
/// Most placings of blocks in one drawing, those in blocks counted each time.
const MOST_PLACED: usize = 2000;

/// What is drawn in one place: the drawing itself, or a block.
#[derive(Default)]
pub(super) struct Part<'a> {
    name: &'a str,
    /// Which of its points an INSERT puts where it says.
    base: Point,
    pub(super) sketch: Sketch,
    inserts: Vec<Insert<'a>>,
}

/// A block placed in a drawing or in another block, in rows and columns.
struct Insert<'a> {
    name: &'a str,
    /// From the block's own places, its base at the origin.
    to: Affine,
    /// Columns and rows, and how far apart they are.
    count: [usize; 2],
    apart: [f64; 2],
    named: bool,
}

impl<'a> Part<'a> {
    /// An empty block.
    pub(super) fn block(entity: &Entity<'a>) -> Result<Self, DrawingError> {
        let base = Point::new(entity.number(10)?.unwrap_or(0.0), entity.number(20)?.unwrap_or(0.0));
        Ok(Self { name: entity.text(2), base, ..Self::default() })
    }

    /// Remembers that a block is placed here.
    pub(super) fn insert(&mut self, entity: &Entity<'a>) -> Result<(), DrawingError> {
        let number = |code: i32, otherwise: f64| Ok(entity.number(code)?.unwrap_or(otherwise));
        let (sin, cos) = real::sincos(number(50, 0.0)?.to_radians());
        let (x, y) = (number(41, 1.0)?, number(42, 1.0)?);
        let at = entity.point(10)?;
        let laid = Affine::new([cos * x, sin * x, -sin * y, cos * y, at.x, at.y]);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "too many saturate and are refused"
        )]
        let many = |count: f64| count.max(1.0) as usize;
        // Columns and rows stand along the axes of the turned block, and are not scaled.
        let [columns, rows] = [number(44, 0.0)?, number(45, 0.0)?];
        self.inserts.push(Insert {
            name: entity.text(2),
            to: Affine::scale_non_uniform(entity.side()?, 1.0) * laid,
            count: [many(number(70, 1.0)?), many(number(71, 1.0)?)],
            // As the block's own places have it.
            apart: [if x == 0.0 { 0.0 } else { columns / x }, if y == 0.0 { 0.0 } else { rows / y }],
            named: entity.is_outline(),
        });
        Ok(())
    }
}

/// The drawing with all blocks where they are placed.
pub(super) fn placed(drawing: Part<'_>, blocks: &[Part<'_>]) -> Result<Sketch, DrawingError> {
    let mut placing = Placing { blocks, sketch: drawing.sketch, placed: 0 };
    for insert in &drawing.inserts {
        placing.place(insert, Affine::IDENTITY, false, 1)?;
    }
    Ok(placing.sketch)
}

struct Placing<'b, 'a> {
    blocks: &'b [Part<'a>],
    sketch: Sketch,
    placed: usize,
}

impl Placing<'_, '_> {
    fn place(
        &mut self,
        insert: &Insert<'_>,
        to: Affine,
        named: bool,
        depth: usize,
    ) -> Result<(), DrawingError> {
        let blocks = self.blocks;
        let Some(block) = blocks.iter().find(|block| block.name.eq_ignore_ascii_case(insert.name)) else {
            self.sketch.blocks += 1;
            return Ok(());
        };
        if depth > DEEPEST {
            return Err(DrawingError::Nested(DEEPEST));
        }
        let [columns, rows] = insert.count;
        // Counted before anything is drawn.
        self.placed = self.placed.saturating_add(columns.saturating_mul(rows));
        if self.placed > MOST_PLACED {
            return Err(DrawingError::TooMany);
        }
        let (named, base) = (named || insert.named, block.base.to_vec2());
        for i in 0..columns * rows {
            let (column, row) = ((i % columns) as f64, (i / columns) as f64);
            let shift = Affine::translate((column * insert.apart[0], row * insert.apart[1]));
            let to = to * insert.to * shift * Affine::translate(-base);
            self.sketch.take_in(&block.sketch, to, named)?;
            for inner in &block.inserts {
                self.place(inner, to, named, depth + 1)?;
            }
        }
        Ok(())
    }
}
