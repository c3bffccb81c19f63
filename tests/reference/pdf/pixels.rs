//! Tiles as a printer makes them: pixels of 300 to the inch, by a renderer of others.
//!
//! Source: `hayro` renders the pages, independent of what wrote them; 100 mm are 1181.1 pixels of 1/300 in.

use super::{CAPTION, on};
use halfbreadth_core::{
    demo,
    format::{
        drawing::Drawing,
        pdf::{self, Picture},
    },
    paper::{Paper, PaperOptions},
    template::{Template, TemplateOptions},
    units::System,
};
use hayro::{InterpreterSettings, Pdf, Pixmap, RenderSettings, render};
use std::sync::Arc;

/// Pixels to the millimetre.
const PER_MM: f64 = 300.0 / 25.4;
/// As dark as this, of 255, a pixel is ink: half of it, where the line is grey.
const DARK: u8 = 190;

/// Whole pixels of a length in mm.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a page is small, and never negative"
)]
fn pixels(mm: f64) -> usize {
    (mm * PER_MM) as usize
}

/// A page in pixels; y runs down.
struct Pixels {
    width: usize,
    height: usize,
    dark: Vec<bool>,
}

impl Pixels {
    fn of(page: &Pixmap) -> Self {
        let dark = page.data_as_u8_slice().chunks_exact(4).map(|rgba| rgba[..3].iter().any(|c| *c < DARK));
        Self { width: page.width().into(), height: page.height().into(), dark: dark.collect() }
    }

    fn is_dark(&self, x: usize, y: usize) -> bool {
        x < self.width && y < self.height && self.dark[y * self.width + x]
    }

    fn is_dark_near(&self, x: usize, y: usize) -> bool {
        (y - 1..=y + 1).any(|y| (x - 1..=x + 1).any(|x| self.is_dark(x, y)))
    }

    /// Turned so that what ran up the page runs along its rows.
    fn turned(&self) -> Self {
        let dark = (0..self.width).flat_map(|x| (0..self.height).map(move |y| self.is_dark(x, y)));
        Self { width: self.height, height: self.width, dark: dark.collect() }
    }

    /// The longest run of ink in a row: where it begins and how long it is.
    fn run(&self, y: usize) -> (usize, usize) {
        let (mut best, mut from) = ((0, 0), None);
        for x in 0..=self.width {
            match (self.is_dark(x, y), from) {
                (true, None) => from = Some(x),
                (false, Some(start)) => {
                    best = if x - start > best.1 { (start, x - start) } else { best };
                    from = None;
                }
                _ => {}
            }
        }
        best
    }
}

/// Some of the pages of a drawing on tiles.
fn pages(
    drawing: &Drawing,
    options: &PaperOptions,
    picture: Option<&Picture>,
    some: core::ops::Range<usize>,
) -> Vec<Pixels> {
    let bytes = pdf::tiles(drawing, options, pdf::Caption { picture, ..CAPTION }).unwrap();
    let file = Pdf::new(Arc::new(bytes)).expect("hayro reads it");
    let scale = 300.0 / 72.0;
    let settings = RenderSettings { x_scale: scale, y_scale: scale, ..RenderSettings::default() };
    let page = |page| Pixels::of(&render(page, &InterpreterSettings::default(), &settings));
    file.pages()[some].iter().map(page).collect()
}

fn half_template() -> Drawing {
    Template::of(&demo::turnstone(), TemplateOptions::default(), System::default()).unwrap().drawing()
}

/// The lengths of the check bars that run along the rows of a page, in pixels between the middles of the strokes at their
/// ends.
fn bars(page: &Pixels) -> Vec<f64> {
    let mut found: Vec<f64> = Vec::new();
    let mut last = 0;
    for y in 0..page.height {
        let (start, length) = page.run(y);
        if !(1100..1250).contains(&length) || y < last + 12 {
            continue;
        }
        last = y;
        // Beside the bar's own line there are only the strokes.
        let middle = |x: usize| {
            let dark: Vec<f64> =
                (x - 6..x + 7).filter(|x| page.is_dark(*x, y - 8)).map(|x| x as f64 + 0.5).collect();
            assert!(!dark.is_empty(), "a bar without a stroke at its end");
            dark.iter().sum::<f64>() / dark.len() as f64
        };
        found.push(middle(start + length - 1) - middle(start));
    }
    found
}

#[test]
fn a_printed_check_bar_is_100_mm_long_to_a_pixel_along_both_axes() {
    let tile = &pages(&half_template(), &on(Paper::A4), None, 1..2)[0];
    for axis in [tile, &tile.turned()] {
        let found = bars(axis);
        for mm in [100.0, 101.6] {
            let fits = |length: &&f64| (*length - mm * PER_MM).abs() <= 1.0;
            assert!(found.iter().any(|length| fits(&length)), "no bar of {mm} mm: {found:?} pixels");
        }
    }
}

/// How many dark pixels of one tile's overlap have no dark one within a pixel in the other, which lies `shift` pixels on.
fn lonely(here: &Pixels, there: &Pixels, x: core::ops::Range<usize>, shift: usize) -> (usize, usize) {
    let (mut dark, mut alone) = (0, 0);
    // Above the words and bars at the foot, and within the margins.
    let rows = 130..here.height - 310;
    for y in rows {
        for x in x.clone() {
            if here.is_dark(x, y) {
                dark += 1;
                alone += usize::from(!there.is_dark_near(x - shift, y));
            }
            if there.is_dark(x - shift, y) {
                dark += 1;
                alone += usize::from(!here.is_dark_near(x, y));
            }
        }
    }
    (dark, alone)
}

#[test]
fn two_neighbouring_tiles_overlaid_agree_to_a_pixel() {
    // A4 on its side takes the fewest sheets. The next window begins where this one ends, less the overlap; left of it stand a
    // margin and the upright bars. Of whole pixels, so that both tiles meet the renderer's grid alike.
    let page = 297.0;
    let shift = 3047;
    let options = PaperOptions { overlap: page - 20.0 - 9.0 - shift as f64 / PER_MM, ..on(Paper::A4) };
    assert!((options.overlap - 10.0).abs() < 0.1 && (options.margin - 10.0).abs() < 1e-9);
    let tiles = pages(&half_template(), &options, None, 2..5);
    assert_eq!(tiles[0].width, pixels(page));
    let right = pixels(page - options.margin);
    let overlap = right - pixels(options.overlap) + 3..right - 3;
    for (here, there) in tiles.iter().zip(&tiles[1..]) {
        let (dark, alone) = lonely(here, there, overlap.clone(), shift);
        assert!(dark > 200, "nothing is in the overlap");
        assert_eq!(alone, 0, "of {dark} pixels");
        // Laid three pixels beside, a quarter of a millimetre, they do not agree.
        assert!(lonely(here, there, overlap.clone(), shift + 3).1 > 100);
    }
}

#[test]
fn a_name_in_other_letters_is_printed_from_its_picture() {
    // Twelve bars, eight pixels wide and as high as the picture: seen through the heading they stay bars.
    let bits = (0..72).flat_map(|_| [0xFF, 0].repeat(12)).collect();
    let picture = Picture::new(192, 72, bits).unwrap();
    let mut named = half_template();
    named.name = "千鳥".to_owned();
    let ink = |pages: &[Pixels]| pages[0].dark.iter().filter(|dark| **dark).count();
    let drawn = pages(&named, &on(Paper::A4), Some(&picture), 0..1);
    let coded = pages(&named, &on(Paper::A4), None, 0..1);
    // The heading of the map is 7 mm high, and the picture a good 1.4 of that, half of it ink.
    let expected = (1.4 * 7.0 * PER_MM) * (1.4 * 7.0 * 192.0 / 72.0 * PER_MM) / 2.0;
    let more = ink(&drawn) as f64 - ink(&coded) as f64;
    assert!((0.8..1.3).contains(&(more / expected)), "{more} pixels of {expected}");
}
