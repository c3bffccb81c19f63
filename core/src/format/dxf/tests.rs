//! The DXF file: well-formed groups, unique handles, units, one closed polyline, and names that mean only themselves.

use super::*;
use crate::{
    arcs::{self, Arc},
    demo::{self, cubics},
    format::samples,
    measure::Measured,
    tolerance,
};
use std::collections::BTreeSet;

/// The groups of a file.
fn groups(dxf: &str) -> Vec<(u16, &str)> {
    let lines: Vec<&str> = dxf.lines().collect();
    assert!(lines.len().is_multiple_of(2));
    lines.chunks_exact(2).map(|pair| (pair[0].parse().unwrap(), pair[1])).collect()
}

/// The kind and layer of every entity of the drawing.
fn entities<'a>(groups: &[(u16, &'a str)]) -> Vec<(&'a str, &'a str)> {
    let start = groups.iter().position(|g| *g == (2, "ENTITIES")).unwrap();
    let end = groups[start..].iter().position(|g| *g == (0, "ENDSEC")).unwrap();
    let kinds = (start..start + end).filter(|i| groups[*i].0 == 0);
    kinds.map(|i| (groups[i].1, groups[i..].iter().find(|g| g.0 == 8).unwrap().1)).collect()
}

#[test]
fn every_layer_has_its_entities_and_no_others() {
    let dxf = export(&demo::turnstone());
    let found = entities(&groups(&dxf));
    let mut expected = vec![("LWPOLYLINE", "OUTLINE")];
    expected.extend([("CIRCLE", "HOLES"); 8]);
    expected.push(("LINE", "CENTRELINE"));
    expected.extend([("LINE", "BEND_LINES"); 2]);
    expected.push(("LWPOLYLINE", "BLANK"));
    expected.extend([("TEXT", "TEXT"); 2]);
    assert_eq!(found, expected);
}

#[test]
fn the_header_declares_millimetres_and_the_extent() {
    let dxf = export(&demo::turnstone());
    let groups = groups(&dxf);
    let variable = |name: &str| {
        let i = groups.iter().position(|g| *g == (9, name)).unwrap();
        let values = groups[i + 1..].iter().take_while(|g| g.0 != 9 && g.0 != 0);
        values.map(|g| g.1).collect::<Vec<_>>().join(" ")
    };
    assert_eq!(variable("$ACADVER"), "AC1015");
    assert_eq!((variable("$INSUNITS"), variable("$MEASUREMENT")), ("4".to_owned(), "1".to_owned()));
    assert_eq!(variable("$EXTMIN"), "-412.750000 -120.650000 0.000000");
    assert_eq!(variable("$EXTMAX"), "425.450000 120.650000 0.000000");
}

#[test]
fn every_handle_is_used_once_and_every_owner_is_there() {
    let dxf = export(&demo::whimbrel());
    let groups = groups(&dxf);
    let seed = groups.iter().position(|g| *g == (9, "$HANDSEED")).unwrap() + 1;
    let number = |hex: &str| u32::from_str_radix(hex, 16).unwrap();
    let own = groups.iter().enumerate().filter(|(i, g)| matches!(g.0, 5 | 105) && *i != seed);
    let handles: Vec<u32> = own.map(|(_, g)| number(g.1)).collect();
    let unique: BTreeSet<u32> = handles.iter().copied().collect();
    assert_eq!(unique.len(), handles.len());
    assert!(unique.last().unwrap() < &number(groups[seed].1));
    for (_, owner) in groups.iter().filter(|g| matches!(g.0, 330 | 350)) {
        assert!(*owner == "0" || unique.contains(&number(owner)), "{owner}");
    }
}

#[test]
fn the_outline_is_a_mirrored_chain_with_the_area_of_the_curve() {
    for deck in demo::all() {
        let measured = Measured::of(deck.shape());
        let chain = arcs::outline(&measured.half, tolerance::EXPORT_ARCS);
        for (here, there) in chain.iter().zip(chain.iter().rev()) {
            assert_eq!(*here, there.mirrored());
        }
        let ends = chain.iter().zip(chain.iter().cycle().skip(1));
        assert!(ends.into_iter().all(|(arc, next)| arc.p1 == next.p0));
        // No arc is further off than the accuracy, so the areas differ by less than a seam of that width.
        let difference = (arcs::signed_area(&chain) - measured.area).abs();
        assert!(difference < tolerance::EXPORT_ARCS * measured.perimeter, "{difference}");
        assert!((40..200).contains(&chain.len()), "{}", chain.len());
    }
}

#[test]
fn a_point_of_the_polyline_is_never_said_twice() {
    let dxf = export(&demo::dunlin());
    let groups = groups(&dxf);
    let start = groups.iter().position(|g| *g == (0, "LWPOLYLINE")).unwrap();
    let polyline: Vec<_> = groups[start + 1..].iter().take_while(|g| g.0 != 0).collect();
    let values = |code: u16| polyline.iter().filter(move |g| g.0 == code).map(|g| g.1).collect::<Vec<_>>();
    let places: BTreeSet<_> = values(10).into_iter().zip(values(20)).collect();
    assert_eq!(values(90), [places.len().to_string()]);
    assert_eq!(values(70), ["1"]);
    assert_eq!((values(10)[0], values(20)[0]), ("361.950000", "0.000000"));
}

#[test]
fn a_hostile_name_is_only_a_name() {
    let plain = export(&demo::dunlin().renamed("x").unwrap());
    for name in samples::HOSTILE_NAMES.into_iter().filter(|name| !name.is_empty()) {
        let dxf = export(&demo::dunlin().renamed(name).unwrap());
        assert_eq!(dxf.lines().count(), plain.lines().count(), "{name}");
        assert!(dxf.bytes().all(|b| b == b'\n' || (b' '..=b'~').contains(&b)), "{name}");
    }
    let dxf = export(&demo::dunlin().renamed("漢 8¼\" \\P %%c ^J 🛹").unwrap());
    let escaped = "\n\\U+6F22 8\\U+00BC\" \\U+005CP \\U+0025\\U+0025c \\U+005EJ ?\n";
    assert!(dxf.contains(escaped), "{dxf}");
}

#[test]
fn the_file_says_that_the_outline_is_developed() {
    let dxf = export(&demo::dunlin());
    let said = (1, "DEVELOPED: flat pattern along the top face, 1:1, mm");
    assert!(groups(&dxf).contains(&said));
}

fn deck(options: DxfOptions) -> String {
    print_with(&Drawing::deck(&demo::turnstone(), &Options::default()), &options).unwrap()
}

#[test]
fn release_12_has_polylines_with_bulges_and_no_handles() {
    let dxf = deck(DxfOptions { release: Release::R12, ..DxfOptions::default() });
    let groups = groups(&dxf);
    assert!(groups.contains(&(1, "AC1009")));
    assert!(groups.iter().all(|group| !matches!(group.0, 5 | 100 | 105 | 330)));
    let found = entities(&groups);
    let count = |kind: &str, layer: &str| found.iter().filter(|entity| **entity == (kind, layer)).count();
    assert_eq!((count("POLYLINE", "OUTLINE"), count("SEQEND", "OUTLINE")), (1, 1));
    let Entity::Symmetric(half) =
        &Drawing::deck(&demo::turnstone(), &Options::default()).layers[0].entities[0]
    else {
        panic!("no outline")
    };
    assert_eq!(count("VERTEX", "OUTLINE"), arcs::outline(half, tolerance::EXPORT_ARCS).len());
    assert!(found.iter().all(|(kind, _)| *kind != "LWPOLYLINE"));
}

#[test]
fn lines_alone_have_no_bulge_and_more_points_the_finer_they_are() {
    let points = |tolerance: f64| {
        let dxf = deck(DxfOptions { curves: Curves::Lines, tolerance, ..DxfOptions::default() });
        let groups = groups(&dxf);
        let start = groups.iter().position(|g| *g == (100, "AcDbPolyline")).unwrap();
        let polyline: Vec<_> = groups[start..].iter().take_while(|g| g.0 != 0).collect();
        assert!(polyline.iter().all(|group| group.0 != 42));
        polyline.iter().filter(|group| group.0 == 10).count()
    };
    let (coarse, fine) = (points(0.1), points(0.001));
    // The number of chords goes with the root of the accuracy.
    assert!((5.0..20.0).contains(&(fine as f64 / coarse as f64)), "{coarse} {fine}");
}

#[test]
fn splines_are_the_cubics_themselves() {
    let options = DxfOptions { curves: Curves::Splines, ..DxfOptions::default() };
    let dxf = print_with(&Drawing::deck(&cubics::turnstone(), &Options::default()), &options).unwrap();
    let groups = groups(&dxf);
    let start = groups.iter().position(|g| *g == (0, "SPLINE")).unwrap();
    let spline: Vec<_> = groups[start + 1..].iter().take_while(|g| g.0 != 0).collect();
    let count = |code: u16| spline.iter().filter(|group| group.0 == code).count();
    // Four spans on either side: 8 cubics, 25 points, 29 knots.
    assert_eq!((count(10), count(40)), (25, 29));
    for said in [(70, "9"), (71, "3"), (72, "29"), (73, "25"), (10, "-400.050000"), (20, "83.940000")] {
        assert!(spline.contains(&&said), "{said:?}");
    }
}

#[test]
fn options_that_do_not_go_together_are_refused_in_words() {
    let splines = DxfOptions { release: Release::R12, curves: Curves::Splines, ..DxfOptions::default() };
    let refused = splines.check().unwrap_err();
    assert_eq!((refused, refused.field()), (DxfError::SplinesInR12, "curves"));
    for tolerance in [0.0, 1.0, f64::NAN] {
        let refused = DxfOptions { tolerance, ..DxfOptions::default() }.check().unwrap_err();
        assert_eq!(refused.field(), "export-tolerance");
    }
    let text = DxfError::Tolerance(1.0).to_string();
    assert_eq!(text, "a tolerance of 1 mm is not between 0.0001 and 0.5 mm");
}

#[test]
fn an_open_chain_says_its_last_point_too() {
    let line = Arc::line((0.0, 0.0).into(), (10.0, 0.0).into());
    let arc = Arc { p0: line.p1, p1: (20.0, 0.0).into(), bulge: 1.0 };
    let mut drawing = Drawing::deck(&demo::dunlin(), &Options::default());
    drawing.layers.truncate(1);
    drawing.layers[0].entities = vec![Entity::Open(vec![line, arc])];
    let dxf = print(&drawing);
    let groups = groups(&dxf);
    let start = groups.iter().position(|g| *g == (100, "AcDbPolyline")).unwrap();
    let polyline: Vec<_> = groups[start..].iter().take_while(|g| g.0 != 0).collect();
    assert_eq!(polyline.iter().filter(|group| group.0 == 10).count(), 3);
    assert!(polyline.contains(&&(70, "0")) && polyline.contains(&&(90, "3")));
}
