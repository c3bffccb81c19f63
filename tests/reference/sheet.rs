//! The build sheet, read by programs of other people.
//!
//! Source: `lopdf` reads the file, independent of what wrote it; `rqrr` reads the QR code (ISO/IEC 18004), independent of
//! what made it, from the squares that `lopdf` finds on the page; ISO 216 for A4, and 8 1/2 × 11 in for Letter. Figures
//! are compared with the workshop's own, which the other files of this folder check against published ones.

use crate::{
    near,
    pdf::page::{POINTS, Page, read},
};
use halfbreadth_core::{
    demo,
    design::Design,
    export::{Export, Kind, Part, SheetOptions},
    format::link,
    measure::Measured,
    sheet::{MARGIN, SheetPaper},
    units::{Denominator, System, show},
    workshop::{Workshop, figures},
};
use halfbreadth_tests::random::{self, Random};
use kurbo::{Rect, Shape as _};
use lopdf::{Document, Object};

const ADDRESS: &str = "https://saturday-class.example/halfbreadth/";
const INCHES: System = System::Inches { denominator: Denominator::ThirtySeconds };

fn export(paper: SheetPaper) -> Export {
    let sheet = SheetOptions { paper, address: ADDRESS.to_owned(), ..SheetOptions::default() };
    Export { part: Part::Sheet, sheet, ..Export::default() }
}

fn pages(design: &Design, system: System, paper: SheetPaper) -> (Document, Vec<Page>) {
    let made = export(paper).make(design, system).unwrap();
    read(&made.file(Kind::Pdf).unwrap().bytes)
}

fn decks() -> impl Iterator<Item = Design> {
    demo::all().into_iter().chain((0..8).map(|seed| random::design(&mut Random::new(seed))))
}

#[test]
fn a_sheet_is_two_pages_of_its_paper_with_all_words_inside_the_margins() {
    for design in decks() {
        for (paper, width, height) in [(SheetPaper::A4, 210.0, 297.0), (SheetPaper::Letter, 215.9, 279.4)] {
            let (_, pages) = pages(&design, INCHES, paper);
            assert_eq!(pages.len(), 2);
            for page in &pages {
                near(page.width, width, 1e-4);
                near(page.height, height, 1e-4);
                let inside = Rect::new(0.0, 0.0, width, height).inflate(0.01 - MARGIN, 0.01 - MARGIN);
                assert!(page.words.len() > 80, "{}", page.words.len());
                for words in &page.words {
                    assert!(inside.contains(words.at), "“{}” at {}", words.text, words.at);
                    assert!(words.size >= 1.3, "“{}” is {} mm high", words.text, words.size);
                }
            }
        }
    }
}

/// Letters as `lopdf` gives them, one for each byte, with signs in the way of a design's own texts.
fn plain(text: &str) -> String {
    text.replace('\u{96}', "−").replace(['\u{A0}', '\u{202F}'], " ").replace('~', "≈")
}

#[test]
fn figures_on_the_paper_are_those_of_the_workshop() {
    for design in demo::all() {
        let measured = Measured::of(design.shape());
        let workshop = Workshop::of(design.shape(), &measured, design.workshop());
        for system in [System::Millimetres, INCHES] {
            let (_, pages) = pages(&design, system, SheetPaper::A4);
            let words: Vec<String> = pages[1].words.iter().map(|words| plain(&words.text)).collect();
            let has = |text: &str| words.iter().any(|words| words == &plain(text));
            for key in [
                "end-margin",
                "side-margin",
                "glue-volume",
                "glue-per-line",
                "time-to-press",
                "bolt-load",
                "torque-limit",
                "press-total",
                "pressed-area",
                "pressure",
                "flex-load",
                "deflection",
                "stress-share",
                "countersink-depth",
                "seal-area",
                "grip-length",
                "veneers-along",
                "sheets",
                "run-glue",
                "springback",
            ] {
                let figure = figures::find(key).unwrap();
                let value = (figure.read)(&workshop).value.unwrap();
                let text = show(value, figure.quantity.unit, system).to_string();
                assert!(has(&text), "{}: {key} is not “{text}”: {words:?}", design.name());
            }
            let mass = show(measured.glue_mass, halfbreadth_core::units::Unit::Mass, system).to_string();
            assert!(has(&mass), "{mass}");
            assert!(has("none: the mould's limit is not given"), "no torque without the limit of the mould");
        }
    }
}

/// The dark squares of the code: what is filled within the area that opens the link.
fn code_of(document: &Document, page: &Page) -> (String, Vec<Rect>, Rect) {
    let id = *document.get_pages().values().next().unwrap();
    let annotations = document.get_dictionary(id).unwrap().get(b"Annots").and_then(Object::as_array).unwrap();
    let annotation = annotations[0].as_dict().unwrap();
    let corners: Vec<f64> = annotation
        .get(b"Rect")
        .and_then(Object::as_array)
        .unwrap()
        .iter()
        .map(|corner| f64::from(corner.as_float().unwrap()) / POINTS)
        .collect();
    let area = Rect::new(corners[0], corners[1], corners[2], corners[3]);
    let action = annotation.get(b"A").and_then(Object::as_dict).unwrap();
    let address = action.get(b"URI").and_then(Object::as_str).unwrap();
    let dark = page.fills.iter().filter(|path| area.inflate(0.01, 0.01).contains_rect(path.bounding_box()));
    let squares = dark.flat_map(|path| {
        path.elements().split(|element| matches!(element, kurbo::PathEl::ClosePath)).map(|one| {
            let points = one.iter().filter_map(|element| element.end_point());
            points.map(|p| Rect::from_points(p, p)).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
        })
    });
    let squares: Vec<Rect> = squares.filter(|square| square.area() > 0.0).collect();
    (String::from_utf8(address.to_vec()).unwrap(), squares, area)
}

/// What the code on a page says by another program's reading, and the address that a tap on it opens.
pub(super) fn decoded(document: &Document, page: &Page) -> (String, String) {
    // As a desk printer puts it on paper: some 500 dots to the inch.
    const DOTS: f64 = 20.0;
    let (address, squares, area) = code_of(document, page);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a picture of some hundred dots"
    )]
    let side = (area.width() * DOTS).round() as usize;
    let mut dots = vec![255_u8; side * side];
    for square in &squares {
        for (y, row) in dots.chunks_mut(side).enumerate() {
            if (square.y0..square.y1).contains(&(area.y1 - (y as f64 + 0.5) / DOTS)) {
                for (x, dot) in row.iter_mut().enumerate() {
                    if (square.x0..square.x1).contains(&(area.x0 + (x as f64 + 0.5) / DOTS)) {
                        *dot = 0;
                    }
                }
            }
        }
    }
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| dots[y * side + x]);
    let grids = picture.detect_grids();
    assert_eq!(grids.len(), 1);
    let (_, text) = grids[0].decode().unwrap();
    (text, address)
}

#[test]
fn the_code_is_read_by_another_program_and_opens_the_same_deck() {
    for design in decks() {
        let (document, pages) = pages(&design, System::Millimetres, SheetPaper::Letter);
        let (text, address) = decoded(&document, &pages[0]);
        assert_eq!(text, address);
        assert!(text.starts_with(ADDRESS));
        assert_eq!(link::decode(&text).unwrap(), link::decode(&link::encode(&design)).unwrap());
        assert_eq!(link::decode(&text).unwrap().shape().outline, design.shared().shape().outline);
    }
}
