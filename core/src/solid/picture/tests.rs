//! What hides what, against rays sent through a much finer mesh of the same deck.

use super::*;
use crate::{demo, measure::Measured};
use kurbo::{PathEl, Shape as _};

const THICKNESS: f64 = 11.0;

/// Triangles of the whole skin of a deck, cut three times as fine as a picture, each with its outward normal.
fn skin(solid: &Solid<'_>) -> Vec<([Spot; 3], Spot)> {
    let mut triangles = Vec::new();
    let mut quad = |q: [Spot; 4], outward: Spot| {
        for t in [[q[0], q[1], q[2]], [q[0], q[2], q[3]]] {
            let normal = (t[1] - t[0]).cross(t[2] - t[0]).unit();
            triangles.push((t, if normal.dot(outward) < 0.0 { normal * -1.0 } else { normal }));
        }
    };
    let at = |x: f64, y: f64, depth: f64| solid.at(Point::new(x, y), depth);
    const LANES: usize = 14;
    for slab in &solid.sheet.slabs {
        for [right, left] in &slab.strips {
            let y =
                |end: usize, k: usize| right.y[end] + (left.y[end] - right.y[end]) * k as f64 / LANES as f64;
            for k in 0..LANES {
                for depth in [0.0, THICKNESS] {
                    let q = [(0, k), (1, k), (1, k + 1), (0, k + 1)]
                        .map(|(end, k)| at(slab.x[end], y(end, k), depth));
                    let outward = at(slab.x[0], y(0, k), 0.0) - at(slab.x[0], y(0, k), 1.0);
                    quad(q, if depth > 0.0 { outward * -1.0 } else { outward });
                }
            }
            for (rim, sign) in [(right, -1.0), (left, 1.0)] {
                let q = [(0, 0.0), (1, 0.0), (1, THICKNESS), (0, THICKNESS)]
                    .map(|(end, depth)| at(slab.x[end], rim.y[end], depth));
                let (dx, dy) = (slab.x[1] - slab.x[0], rim.y[1] - rim.y[0]);
                quad(q, Spot::new(-dy * sign, dx * sign, 0.0));
            }
        }
    }
    triangles
}

/// Height of a triangle toward the eye over a place of the picture, where it lies there.
fn over(triangle: &[Spot; 3], stand: Stand, p: Point) -> Option<f64> {
    let [a, b, c] = triangle.map(|spot| stand.shows(spot));
    let whole = (b - a).cross(c - a);
    let (u, v) = ((p - a).cross(c - a) / whole, (b - a).cross(p - a) / whole);
    (u >= 0.0 && v >= 0.0 && u + v <= 1.0 && whole.abs() > 1e-9).then(|| {
        let [a, b, c] = triangle.map(|spot| spot.dot(stand.axes()[2]));
        a + u * (b - a) + v * (c - a)
    })
}

/// The tint that shows at a place, unless a line runs nearer than `clear`.
fn shown(scene: &Scene, p: Point, clear: f64) -> Option<Option<u8>> {
    let mut tint = None;
    for item in &scene.items {
        let Mark::Path(path) = &item.mark else { continue };
        let mut polygon = BezPath::new();
        for element in path.elements().iter().copied().chain([PathEl::MoveTo(Point::ORIGIN)]) {
            if matches!(element, PathEl::MoveTo(_)) && !polygon.is_empty() {
                let near = polygon.segments().any(|s| {
                    let line = kurbo::Line::new(s.as_line().unwrap().p0, s.as_line().unwrap().p1);
                    kurbo::ParamCurveNearest::nearest(&line, p, 1e-9).distance_sq < clear * clear
                });
                if near {
                    return None;
                }
                if let Role::Facet(t) = item.role
                    && polygon.winding(p) != 0
                {
                    tint = Some(t);
                }
                polygon = BezPath::new();
            }
            polygon.push(element);
        }
    }
    Some(tint)
}

#[track_caller]
fn check(turn: f64, tilt: f64) {
    let deck = demo::turnstone();
    let mut shape = deck.shape().clone();
    // Steep kicks hide more.
    shape.profile.nose.angle = 40_f64.to_radians();
    shape.profile.tail.angle = 35_f64.to_radians();
    let measured = Measured::of(&shape);
    let solid = Solid::of(&shape, &measured.half, THICKNESS, Detail::Full.chord());
    let stand = Stand { turn: turn.to_radians(), tilt: tilt.to_radians() };
    let (scene, _) = picture(&solid, stand, 1e9, Detail::Full, Size::new(900.0, 500.0));
    let fine = Solid::of(&shape, &measured.half, THICKNESS, Detail::Full.chord() / 9.0);
    let skin = skin(&fine);
    let [right, up, eye] = stand.axes();
    let light = (right * -0.35 + up * 0.55 + eye * 0.75).unit();
    let (mut judged, mut hidden) = (0, 0);
    for k in 0..900_u32 {
        // Places on the deck, so that most rays meet it.
        let place =
            Point::new(-400.0 + 800.0 * f64::from(k % 90) / 89.0, -95.0 + 190.0 * f64::from(k / 90) / 9.0);
        let p = stand.shows(solid.at(place, 0.0));
        let mut nearest: Option<(f64, Spot)> = None;
        let mut layers = 0;
        for (triangle, normal) in &skin {
            if let Some(height) = over(triangle, stand, p) {
                layers += 1;
                if nearest.is_none_or(|(best, _)| height > best) {
                    nearest = Some((height, *normal));
                }
            }
        }
        let Some(found) = shown(&scene, p, 0.6) else { continue };
        let expected = nearest.map(|(_, normal)| {
            real::clamp(((1.0 - normal.dot(light).max(0.0)) * 1.6 * TINTS).floor(), 0.0, TINTS - 1.0)
        });
        match (found, expected) {
            (None, None) => {}
            // The finer mesh bends more smoothly: its tint may be the next one.
            (Some(found), Some(expected)) => {
                assert!((f64::from(found) - expected).abs() <= 1.0, "at {place:?}: {found}, not {expected}");
                judged += 1;
                hidden += u32::from(layers > 2);
            }
            other => panic!("at {place:?}: {other:?}"),
        }
    }
    assert!(judged > 60, "only {judged} places were judged");
    // Where the eye looks along the deck one kick lies over the rest of it.
    assert!(hidden > 5 || tilt.abs() > 30.0 || turn.abs() < 45.0, "nothing was hidden: {hidden}");
}

#[test]
fn what_lies_nearest_is_what_shows() {
    for (turn, tilt) in
        [(40.0, 24.0), (88.0, 12.0), (-95.0, 9.0), (75.0, -14.0), (20.0, 70.0), (140.0, 6.0), (-30.0, -50.0)]
    {
        check(turn, tilt);
    }
}

#[test]
fn a_picture_is_some_hundred_facets_and_fewer_while_it_turns() {
    let deck = demo::turnstone();
    let half = deck.shape().outline.resolve();
    let count = |detail: Detail| {
        let solid = Solid::of(deck.shape(), &half, THICKNESS, detail.chord());
        let (scene, _) = picture(&solid, Stand::default(), 0.0, detail, Size::new(320.0, 240.0));
        let paths = scene.items.iter().filter_map(|item| match &item.mark {
            Mark::Path(path) => Some(path.elements().len()),
            _ => None,
        });
        let elements: usize = paths.sum();
        (scene.items.len(), elements)
    };
    let (full, light) = (count(Detail::Full), count(Detail::Light));
    assert!(full.0 < 600 && full.1 < 6000, "{full:?}");
    assert!(light.0 < 200 && light.1 < 2000, "{light:?}");
}
