//! The share link as a QR code (ISO/IEC 18004, from memory), for a telephone at the bench.

use crate::leaf::{Leaf, Tone};
use kurbo::{BezPath, Rect, Shape as _, Size};
use qrcodegen::{QrCode, QrCodeEcc};

/// White round a code, modules (ISO/IEC 18004: four, from memory).
const QUIET: i32 = 4;
/// Sides that a code may have, its white included, mm, the usual one first: a larger one takes room from the name.
const SIDES: [f64; 3] = [34.0, 43.0, 52.0];
/// Module that a telephone reads with ease from a desk printer's page, and the smallest it reads at all, mm (common
/// practice).
const EASY: f64 = 0.5;
const LEAST: f64 = 0.38;

/// The code of a link with its white round it; `None` where no code that can be read holds it.
pub(super) fn code(link: &str) -> Option<Leaf> {
    let modules = |code: &QrCode| f64::from(code.size() + 2 * QUIET);
    // What is smeared or folded at a bench is still read: a quarter of it where there is room, else 15 or 7 % (ISO/IEC 18004, from memory).
    let codes: Vec<QrCode> = [QrCodeEcc::Quartile, QrCodeEcc::Medium, QrCodeEcc::Low]
        .into_iter()
        .filter_map(|level| QrCode::encode_binary(link.as_bytes(), level).ok())
        .collect();
    let of_side = |side: f64, module: f64| {
        codes.iter().find(|code| modules(code) * module <= side).map(|code| (code, side))
    };
    let easy = SIDES.into_iter().find_map(|side| of_side(side, EASY));
    let (code, side) = easy.or_else(|| of_side(SIDES[2], LEAST))?;
    let modules = modules(code);
    let module = side / modules;
    let mut path = BezPath::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let start = x;
            while x < code.size() && code.get_module(x, y) {
                x += 1;
            }
            if x > start {
                let at = |count: i32| f64::from(count + QUIET) * module;
                path.extend(Rect::new(at(start), at(y), at(x), at(y + 1)).path_elements(1.0));
            }
            x += 1;
        }
    }
    let mut leaf = Leaf::new(Size::new(side, side));
    leaf.fill(path, Tone::Ink);
    Some(leaf)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_usual_link_has_a_code_of_the_usual_size_and_a_book_has_none() {
        let size = |letters: usize| code(&"a".repeat(letters)).map(|leaf| leaf.size.width);
        assert_eq!(size(160), Some(SIDES[0]));
        assert!(size(900).is_some_and(|side| side > SIDES[0] && side <= SIDES[2]));
        assert_eq!(size(3000), None);
    }
}
