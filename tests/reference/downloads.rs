//! Templates as people saved them from the page, opened by readers of others.
//!
//! Source: `dxf`, `usvg` and `lopdf` read what `tests/browser/downloads.test.mjs` kept; the offset is checked against points
//! at its distance along the true normals of the outline, and by `kurbo`'s nearest point.

use crate::{
    near,
    pdf::page,
    read_back::{outline_of, svg_paths},
    sheet,
};
use dxf::entities::EntityType;
use halfbreadth_core::{
    demo,
    format::{json, link},
    outline::tangent_at,
    projection::Projection,
    real,
};
use kurbo::{BezPath, ParamCurve, ParamCurveNearest, PathSeg, Point, Rect, Shape as _, Vec2};
use std::{fs, path::Path};

/// What every file must agree to, mm.
const SAME: f64 = 0.01;

/// The outline that a template is beside, and its distance, positive outward.
struct Truth {
    outline: BezPath,
    left: Vec<PathSeg>,
    distance: f64,
}

impl Truth {
    fn of(expected: &serde_json::Value) -> Self {
        let number = |key: &str| expected[key].as_f64().unwrap();
        let (bushing, bit) = (number("bushing"), number("bit"));
        let distance = match expected["cut"].as_str().unwrap() {
            "outside" => -(bushing - bit) / 2.0,
            "window-deck" => f64::midpoint(bushing, bit),
            other => panic!("{other}"),
        };
        let plan = expected["projection"] == "plan";
        let half =
            if plan { Projection::Plan } else { Projection::Developed }.half(demo::turnstone().shape());
        Self { outline: half.closed(), left: half.path().segments().collect(), distance }
    }

    /// How far a point lies from the outline.
    fn off(&self, p: Point) -> f64 {
        self.outline.segments().map(|s| s.nearest(p, 1e-8).distance_sq).fold(f64::INFINITY, f64::min).sqrt()
    }

    /// Checks the template's edge, in the coordinates of the deck.
    #[track_caller]
    fn is_followed_by(&self, edge: &BezPath, file: &str) {
        let pieces: Vec<PathSeg> = edge.segments().collect();
        let mut looked_at = 0;
        for segment in &self.left {
            for k in 0..=32 {
                let t = f64::from(k) / 32.0;
                let heading = real::unit_vector(tangent_at(&segment.to_cubic(), t));
                // The half runs tail to nose, with the outside on its left.
                let p = segment.eval(t) + self.distance * Vec2::new(-heading.y, heading.x);
                if self.off(p) < self.distance.abs() - 1e-6 {
                    continue; // another part of the outline is nearer: this point is trimmed
                }
                let off = pieces.iter().map(|s| s.nearest(p, 1e-8).distance_sq).fold(f64::INFINITY, f64::min);
                assert!(off.sqrt() <= SAME, "{file}: {p} is missing by {} mm", off.sqrt());
                looked_at += 1;
            }
        }
        assert!(looked_at > 100, "{file}: nothing was looked at");
    }

    /// Checks that a curved piece of the edge keeps its distance.
    #[track_caller]
    fn keeps(&self, p: Point, file: &str) {
        let off = (self.off(p) - self.distance.abs()).abs();
        assert!(off <= SAME, "{file}: {p} is off by {off} mm");
    }
}

fn dxf_file(path: &Path, truth: &Truth) {
    let name = path.display().to_string();
    let drawing = dxf::Drawing::load_file(path).unwrap();
    assert_eq!(drawing.header.default_drawing_units, dxf::enums::Units::Millimeters, "{name}");
    let edges: Vec<_> = drawing
        .entities()
        .filter(|entity| entity.common.layer == "TEMPLATE")
        .map(|entity| match &entity.specific {
            EntityType::LwPolyline(polyline) => polyline,
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(edges.len(), 1, "{name}");
    assert!(edges[0].is_closed(), "{name}");
    let edge = outline_of(edges[0]);
    truth.is_followed_by(&edge, &name);
    // Only the edge is curved; ears, centreline and frame are straight.
    let vertices = &edges[0].vertices;
    for (i, v) in vertices.iter().enumerate().filter(|(_, v)| v.bulge.abs() > 0.0) {
        truth.keeps(Point::new(v.x, v.y), &name);
        let next = &vertices[(i + 1) % vertices.len()];
        truth.keeps(Point::new(next.x, next.y), &name);
    }
    near(edge.bounding_box().y0, -25.0, SAME);
}

fn svg_file(path: &Path, truth: &Truth) {
    let name = path.display().to_string();
    let paths = svg_paths(&fs::read_to_string(path).unwrap());
    let of = |layer: &str| -> Vec<&BezPath> {
        paths.iter().filter(|(name, _)| name == layer).map(|(_, path)| path).collect()
    };
    let (edge, beside) = (of("template"), of("outline"));
    assert_eq!((edge.len(), beside.len()), (1, 1), "{name}");
    // The left half of the outline shows where on its sheet the deck lies.
    let (found, left) = (beside[0].bounding_box(), truth.outline.bounding_box());
    near(found.width(), left.width(), SAME);
    near(found.height(), left.y1, SAME);
    let to_deck = kurbo::Affine::translate((left.x0 - found.x0, -found.y0));
    truth.is_followed_by(&(to_deck * edge[0].clone()), &name);
}

fn pdf_file(path: &Path, truth: &Truth) {
    let name = path.display().to_string();
    let (_, pages) = page::read(&fs::read(path).unwrap());
    assert!(pages.len() > 2, "{name}: a map and tiles");
    for page in &pages {
        let (short, long) = (page.width.min(page.height), page.width.max(page.height));
        near(short, 210.0, SAME);
        near(long, 297.0, SAME);
    }
    let mut shown: Option<Rect> = None;
    for page in &pages[1..] {
        // The edge is what is drawn first.
        let stroke = page.of("D").next().unwrap();
        let to_deck = stroke.place.inverse();
        let edge = to_deck * stroke.path.clone();
        truth.is_followed_by(&edge, &name);
        let window = to_deck.transform_rect_bbox(stroke.clip);
        shown = Some(shown.map_or(window, |all| all.union(window)));
    }
    let all = truth.outline.bounding_box();
    assert!(
        shown.is_some_and(|shown| shown.x0 < all.x0 - truth.distance && shown.x1 > all.x1 + truth.distance)
    );
}

/// The code of a saved build sheet opens the design that was saved beside it.
fn sheet_file(own: &Path) {
    let (document, pages) = page::read(&fs::read(own.join("sheet.pdf")).unwrap());
    assert_eq!(pages.len(), 2);
    let (text, _) = sheet::decoded(&document, &pages[0]);
    let saved = json::read(&fs::read_to_string(own.join("design.json")).unwrap()).unwrap().design;
    assert_eq!(link::decode(&text), Ok(saved.shared()));
    assert_eq!((saved.shape().layup.plies.len(), saved.workshop().mould.name.as_str()), (9, "Saturday"));
}

#[test]
#[ignore = "opens what tests/browser/downloads.test.mjs keeps: tests/run runs it after the page's tests"]
fn files_saved_from_the_page_have_their_true_size_and_offset() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("browser/downloads");
    let mut opened = 0;
    for entry in fs::read_dir(&folder).expect("the page's tests have kept files") {
        let own = entry.unwrap().path();
        if own.join("sheet.pdf").exists() {
            sheet_file(&own);
            opened += 1;
            continue;
        }
        let expected = fs::read_to_string(own.join("expected.json")).unwrap();
        let truth = Truth::of(&serde_json::from_str(&expected).unwrap());
        dxf_file(&own.join("template.dxf"), &truth);
        svg_file(&own.join("template.svg"), &truth);
        pdf_file(&own.join("template.pdf"), &truth);
        opened += 1;
    }
    assert_eq!(opened, 4, "one folder for each hand, and one for the build sheet");
}
