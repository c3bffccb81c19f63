use super::*;
use crate::{
    compare, demo,
    format::{drawing as printed, dxf::{self, Curves, DxfOptions, Release}, svg as svg_file},
    projection::Projection,
};

fn cases() -> Vec<(String, Option<LengthUnit>, String, f64)> {
    vec![]
}

#[test]
fn the_tools_own_files_come_back() {
    let _ = cases();
    for deck in demo::all() {
        for projection in [Projection::Developed, Projection::Plan] {
            let options = printed::Options { projection, ..printed::Options::default() };
            let drawing = printed::Drawing::deck(&deck, &options);
            let mut files = vec![("svg".to_owned(), svg_file::print(&drawing))];
            for release in [Release::R2000, Release::R12] {
                for curves in [Curves::Arcs, Curves::Splines, Curves::Lines] {
                    let options = DxfOptions { release, curves, ..DxfOptions::default() };
                    if let Ok(text) = dxf::print_with(&drawing, &options) {
                        files.push((format!("{release:?} {curves:?}"), text));
                    }
                }
            }
            for (kind, text) in files {
                let unit = kind.starts_with("R12").then_some(LengthUnit::Millimetre);
                // Another deck is in hand; the pressed shape must be the same for a plan.
                let read_as = Options { unit, ..Options::default() };
                let taken = match read(&text, &read_as, deck.shape()) {
                    Ok(taken) => taken,
                    Err(error) => { println!("{} {projection:?} {kind}: {error}", deck.name()); continue; }
                };
                let found = compare::farthest(&deck.shape().outline.resolve(), &taken.outline.resolve());
                let again = deck.apply(&taken.edit(&deck));
                println!("{} {projection:?} {kind}: {:.4} at {:?} nodes {} twin {} datum {:?} asym {:.4} {:?}", deck.name(), found.distance, found.at, taken.outline.nodes.len(), taken.outline.twin, taken.datum.as_ref().map(|d| d.wheelbase - deck.shape().datum.wheelbase), taken.asymmetry.unwrap().most, again.err());
            }
        }
    }
}
