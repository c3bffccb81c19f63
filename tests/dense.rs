//! An outline as a dense polygon, and what can be counted on it.

use halfbreadth_core::outline::{Half, Piece};
use kurbo::{CubicBez, ParamCurve, ParamCurveDeriv, Point};

/// Points along the half outline, tail to nose, `per_piece` chords to each cubic.
#[must_use]
pub fn half(half: &Half, per_piece: u32) -> Vec<Point> {
    let last = half.pieces().last().map(|piece| piece.curve.p3);
    let along = |piece: &Piece| {
        let curve = piece.curve;
        (0..per_piece).map(move |k| curve.eval(f64::from(k) / f64::from(per_piece)))
    };
    half.pieces().iter().flat_map(along).chain(last).collect()
}

/// Twice the area between a half and the centreline by the shoelace formula, mm².
#[must_use]
pub fn area(half: &[Point]) -> f64 {
    half.windows(2).map(|w| (w[1].x - w[0].x) * (w[0].y + w[1].y)).sum()
}

/// Twice the length of a half, mm.
#[must_use]
pub fn perimeter(half: &[Point]) -> f64 {
    2.0 * half.windows(2).map(|w| (w[1] - w[0]).hypot()).sum::<f64>()
}

/// The largest distance of a half from the centreline at station `x`, mm; `None` beyond its ends.
#[must_use]
pub fn half_breadth(half: &[Point], x: f64) -> Option<f64> {
    let at = |w: &[Point]| {
        let (a, b) = (w[0], w[1]);
        if a.x.min(b.x) > x || a.x.max(b.x) < x {
            return None;
        }
        let run = b.x - a.x;
        Some(if run.abs() > 0.0 { a.y + (b.y - a.y) * (x - a.x) / run } else { a.y.max(b.y) })
    };
    half.windows(2).filter_map(at).reduce(f64::max)
}

/// A place where two stretches of the half truly cross, found on the polygon and confirmed on the curves.
#[must_use]
pub fn crossing(half: &Half, per_piece: u32) -> Option<Point> {
    struct Chord {
        piece: usize,
        from: f64,
        a: Point,
        b: Point,
    }
    let step = 1.0 / f64::from(per_piece);
    let mut chords: Vec<Chord> = Vec::new();
    for (piece, p) in half.pieces().iter().enumerate() {
        for k in 0..per_piece {
            let (from, to) = (f64::from(k) * step, f64::from(k + 1) * step);
            chords.push(Chord { piece, from, a: p.curve.eval(from), b: p.curve.eval(to) });
        }
    }
    let low = |c: &Chord| c.a.x.min(c.b.x);
    chords.sort_by(|p, q| low(p).total_cmp(&low(q)));
    for (i, p) in chords.iter().enumerate() {
        let right = p.a.x.max(p.b.x);
        for q in chords[i + 1..].iter().take_while(|q| low(q) <= right) {
            if !cross(p.a, p.b, q.a, q.b) {
                continue;
            }
            let curve = |c: &Chord| half.pieces()[c.piece].curve;
            let found = meeting(&curve(p), p.from + step / 2.0, &curve(q), q.from + step / 2.0);
            if let Some((at, t, s)) = found {
                let (u, v) = (p.piece as f64 + t, q.piece as f64 + s);
                if (u - v).abs() > 1e-6 {
                    return Some(at);
                }
            }
        }
    }
    None
}

/// Whether two segments cross properly.
fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// Newton's method on two curves, from parameters near where they meet.
fn meeting(a: &CubicBez, t: f64, b: &CubicBez, s: f64) -> Option<(Point, f64, f64)> {
    let (mut t, mut s) = (t, s);
    for _ in 0..50 {
        let gap = b.eval(s) - a.eval(t);
        let (u, v) = (a.deriv().eval(t).to_vec2(), b.deriv().eval(s).to_vec2());
        let det = u.cross(v);
        (t, s) = (t + gap.cross(v) / det, s + gap.cross(u) / det);
    }
    let close = (b.eval(s) - a.eval(t)).hypot() < 1e-9;
    let inside = |p: f64| (0.0..=1.0).contains(&p);
    (close && inside(t) && inside(s)).then(|| (a.eval(t), t, s))
}
