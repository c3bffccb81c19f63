//! Tiles that cover a drawing: as few pages as the paper allows, each with its place on the drawing.
//!
//! Neighbours share a band as wide as the overlap, and are joined along its middle. What lies between the joins is
//! a tile's *cell*: the cells cover everything once, so a tile whose cell is blank can be left out.

use super::{EDGE, PaperError, PaperOptions, check_page, page_for, window};
use kurbo::{Point, Rect, Size, Vec2};

/// More tiles than anybody tapes together.
const MOST_TILES: f64 = 400.0;

/// How a drawing is spread over pages of one size.
#[derive(Clone, Debug, PartialEq)]
pub struct Tiling {
    /// The size of each page.
    pub page: Size,
    /// The margin of each page.
    pub margin: f64,
    /// The width that neighbours share.
    pub overlap: f64,
    /// Columns, from tail to nose.
    pub columns: u32,
    /// Rows, from the left rail to the right.
    pub rows: u32,
    /// The tiles that have something on them, row by row.
    pub tiles: Vec<Tile>,
    /// The upper left corner of the first window, on the drawing.
    corner: Point,
}

/// One page of a tiling.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tile {
    /// Its row, the left rail's first: 0 and up.
    pub row: u32,
    /// Its column, the tail's first: 0 and up.
    pub column: u32,
}

impl Tiling {
    /// The tiling with the fewest pages; of two, the one with less paper, then upright pages.
    ///
    /// `extent` is what the drawing fits into, and `has_ink` tells whether anything of it lies in a rectangle. Both in mm.
    ///
    /// # Errors
    ///
    /// [`PaperError`] where the paper has no room for its margins and check bars, or there is nothing to print.
    pub fn lay(
        extent: Rect,
        options: &PaperOptions,
        has_ink: &dyn Fn(Rect) -> bool,
    ) -> Result<Self, PaperError> {
        options.check()?;
        check_extent(extent)?;
        let [upright, level] = options
            .paper
            .pages(page_for(extent.size(), options.margin))
            .map(|page| Self::of(page, extent, options, has_ink));
        match (upright, level) {
            (Ok(upright), Ok(level)) => {
                let cost = |t: &Self| (t.tiles.len(), t.page.area());
                Ok(if cost(&level) < cost(&upright) { level } else { upright })
            }
            // A roll may be long enough one way round only.
            (Ok(tiling), Err(_)) | (Err(_), Ok(tiling)) => Ok(tiling),
            (Err(error), Err(_)) => Err(error),
        }
    }

    /// All on one page, as large as it takes.
    ///
    /// # Errors
    ///
    /// [`PaperError::TooLong`] where a file cannot say such a page; [`PaperError::OutOfRange`] for the margin.
    pub fn sheet(extent: Rect, margin: f64) -> Result<Self, PaperError> {
        let options = PaperOptions { margin, ..PaperOptions::default() };
        options.check()?;
        check_extent(extent)?;
        Self::of(page_for(extent.size(), margin), extent, &options, &|_| true)
    }

    fn of(
        page: Size,
        extent: Rect,
        options: &PaperOptions,
        has_ink: &dyn Fn(Rect) -> bool,
    ) -> Result<Self, PaperError> {
        let (margin, overlap) = (options.margin, options.overlap);
        check_page(page, margin)?;
        let one = window(page, margin).size();
        let covered = extent.inflate(EDGE, EDGE);
        let (across, along) =
            (count(covered.width(), one.width, overlap), count(covered.height(), one.height, overlap));
        let found = across * along;
        if found > MOST_TILES {
            return Err(PaperError::TooManyTiles { found, most: MOST_TILES });
        }
        let spread = |count: f64, one: f64| count * (one - overlap) + overlap;
        let size = Size::new(spread(across, one.width), spread(along, one.height));
        let all = Rect::from_center_size(covered.center(), size);
        let corner = Point::new(all.x0, all.y1);
        let (columns, rows) = (whole(across), whole(along));
        let mut tiling = Self { page, margin, overlap, columns, rows, tiles: Vec::new(), corner };
        let every = (0..rows).flat_map(|row| (0..columns).map(move |column| Tile { row, column }));
        tiling.tiles = every.filter(|tile| has_ink(tiling.cell(*tile))).collect();
        if tiling.tiles.is_empty() { Err(PaperError::Empty) } else { Ok(tiling) }
    }

    /// What a tile shows, on the drawing.
    #[must_use]
    pub fn window(&self, tile: Tile) -> Rect {
        let size = window(self.page, self.margin).size();
        let (column, row) = (f64::from(tile.column), f64::from(tile.row));
        let x0 = self.corner.x + column * (size.width - self.overlap);
        let y1 = self.corner.y - row * (size.height - self.overlap);
        Rect::new(x0, y1 - size.height, x0 + size.width, y1)
    }

    /// What a tile shows and no other one need show: its window up to the joins.
    #[must_use]
    pub fn cell(&self, tile: Tile) -> Rect {
        let Rect { x0, y0, x1, y1 } = self.window(tile);
        let half = self.overlap / 2.0;
        let side = |joined: bool| if joined { half } else { 0.0 };
        Rect::new(
            x0 + side(tile.column > 0),
            y0 + side(tile.row + 1 < self.rows),
            x1 - side(tile.column + 1 < self.columns),
            y1 - side(tile.row > 0),
        )
    }

    /// From a place on the drawing to its place on a tile's page, whose y runs up from the lower left corner.
    #[must_use]
    pub fn to_page(&self, tile: Tile) -> Vec2 {
        window(self.page, self.margin).origin() - self.window(tile).origin()
    }

    /// The joins: each a line that two neighbouring tiles are to be cut and laid along, on the drawing.
    pub fn joins(&self) -> impl Iterator<Item = (Point, Point)> {
        self.tiles.iter().flat_map(|&tile| {
            let Rect { x0, y0, x1, y1 } = self.cell(tile);
            let there = |tile: Tile| self.tiles.contains(&tile);
            let beside = there(Tile { column: tile.column + 1, ..tile });
            let below = there(Tile { row: tile.row + 1, ..tile });
            let right = beside.then_some((Point::new(x1, y0), Point::new(x1, y1)));
            let lower = below.then_some((Point::new(x0, y0), Point::new(x1, y0)));
            right.into_iter().chain(lower)
        })
    }
}

impl core::fmt::Display for Tile {
    /// Row and column, counted from 1: `1-3`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{}-{}", self.row + 1, self.column + 1)
    }
}

/// How many windows of one length cover another, neighbours overlapping.
fn count(length: f64, one: f64, overlap: f64) -> f64 {
    // Rounding in the last digits must not cost a row of tiles.
    ((length - overlap) / (one - overlap) - 1e-9).ceil().max(1.0)
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a whole number from 1 to MOST_TILES"
)]
fn whole(count: f64) -> u32 {
    count as u32
}

fn check_extent(extent: Rect) -> Result<(), PaperError> {
    let drawn = extent.is_finite() && extent.width().max(extent.height()) > 0.0;
    if drawn { Ok(()) } else { Err(PaperError::Empty) }
}
