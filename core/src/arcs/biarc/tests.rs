use super::super::tests::{closed, halves, near};
use super::*;
use crate::arcs;
use kurbo::{BezPath, ParamCurveNearest, Shape};

/// The largest distance between path and chain, both ways, from 200 samples a piece.
fn hausdorff(path: &BezPath, chain: &[Arc]) -> f64 {
    let steps = || (0..=200).map(|i| f64::from(i) / 200.0);
    let there =
        path.segments().flat_map(|s| steps().map(move |t| s.eval(t))).map(|p| arcs::distance(chain, p));
    let back = chain.iter().flat_map(|arc| steps().map(|t| arc.point(t))).map(|p| {
        path.segments().map(|s| s.nearest(p, 1e-9).distance_sq).fold(f64::INFINITY, f64::min).sqrt()
    });
    there.chain(back).fold(0.0, f64::max)
}

/// The largest angle between neighbours, and the largest gap.
fn worst_joint(chain: &[Arc]) -> (f64, f64) {
    chain.windows(2).fold((0.0, 0.0), |(kink, gap): (f64, f64), pair| {
        let turn = pair[0].end_tangent().cross(pair[1].start_tangent()).abs();
        (kink.max(turn), gap.max(pair[0].p1.distance(pair[1].p0)))
    })
}

/// One cubic with nothing special about it, with an inflection.
fn wave() -> BezPath {
    BezPath::from_svg("M0,0 C80,90 120,-60 200,20").unwrap()
}

#[test]
fn the_chain_keeps_the_promised_accuracy_at_every_accuracy() {
    for path in halves().iter().chain([&wave()]) {
        for i in 0..6 {
            let accuracy = 0.1_f64.powi(i);
            let chain = fit(path.segments(), accuracy);
            let error = hausdorff(path, &chain);
            assert!(error <= accuracy, "{error} > {accuracy} with {} pieces", chain.len());
        }
    }
}

#[test]
fn the_number_of_arcs_grows_as_the_cube_root_of_the_accuracy() {
    for path in halves() {
        let counts: Vec<_> = (1..6).map(|i| fit(path.segments(), 0.1_f64.powi(i)).len()).collect();
        // 10^(4/3) is 21.5.
        assert!(counts[4] <= 22 * counts[0], "{counts:?}");
        assert!(counts[0] < 40, "{counts:?}");
    }
}

#[test]
fn joints_inside_a_cubic_have_one_tangent_and_no_gap() {
    for accuracy in [1.0, 0.01, 1e-4] {
        let (kink, gap) = worst_joint(&fit(wave().segments(), accuracy));
        assert!(kink < 1e-9, "{kink}");
        near(gap, 0.0, 0.0);
    }
    for path in halves() {
        // The handles of these outlines are rounded to 0.01 mm, which bends their nodes a little.
        let (kink, gap) = worst_joint(&fit(path.segments(), 0.002));
        assert!(kink < 1e-3, "{kink}");
        near(gap, 0.0, 0.0);
    }
}

#[test]
fn the_closed_demo_outline_has_the_area_of_its_path() {
    for path in halves() {
        let mut whole = path.clone();
        whole.line_to(path.segments().next().unwrap().start());
        let chain = closed(&fit(path.segments(), 0.002));
        near(arcs::signed_area(&chain), 2.0 * whole.area().abs(), 0.002 * 2000.0);
    }
}

#[test]
fn a_straight_rail_over_several_spans_is_one_line() {
    let rail = BezPath::from_svg("M-50,0 L0,0 C30,0 60,0.000001 90,0 L120,0 Q130,0 150,0 L150,40").unwrap();
    let chain = fit(rail.segments(), 0.002);
    let lines = [
        Arc::line((-50.0, 0.0).into(), (150.0, 0.0).into()),
        Arc::line((150.0, 0.0).into(), (150.0, 40.0).into()),
    ];
    assert_eq!(chain, lines);
    let waisted = fit(halves()[2].segments(), 0.002);
    assert_eq!(waisted.iter().filter(|arc| arc.is_line()).count(), 2, "one a side of the waist");
}

#[test]
fn a_line_that_turns_back_is_not_straightened() {
    let path = BezPath::from_svg("M0,0 C150,0 150,0 100,0").unwrap();
    let chain = fit(path.segments(), 0.01);
    assert!(hausdorff(&path, &chain) <= 0.01);
    let there_and_back = BezPath::from_svg("M0,0 L100,0 L40,0").unwrap();
    assert_eq!(fit(there_and_back.segments(), 0.01).len(), 2);
}

#[test]
fn a_quarter_circle_drawn_as_a_cubic_is_one_arc() {
    // The usual handle length, 4/3·tan(π/8), is 0.027 % of the radius off a circle.
    let k = 50.0 * 4.0 / 3.0 * (2_f64.sqrt() - 1.0);
    let quarter = CubicBez::new((50.0, 0.0), (50.0, k), (k, 50.0), (0.0, 50.0));
    let chain = fit([PathSeg::Cubic(quarter)], 0.02);
    assert_eq!(chain.len(), 1);
    near(chain[0].radius().unwrap(), 50.0, 1e-9);
    near(chain[0].centre().unwrap().to_vec2().length(), 0.0, 1e-9);
}

#[test]
fn a_corner_stays_a_corner() {
    let path = BezPath::from_svg("M0,0 C20,10 40,10 60,0 C70,20 70,40 60,60").unwrap();
    let chain = fit(path.segments(), 0.01);
    let at = chain.iter().position(|arc| arc.p1.distance(Point::new(60.0, 0.0)) < 1e-12).unwrap();
    let (before, after) = (chain[at].end_tangent(), chain[at + 1].start_tangent());
    near(before.dot(unit(Vec2::new(20.0, -10.0))), 1.0, 1e-12);
    near(after.dot(unit(Vec2::new(10.0, 20.0))), 1.0, 1e-12);
}

#[test]
fn no_input_is_too_odd() {
    let odd = [
        "M0,0 C0,0 0,0 0,0",
        "M0,0 C0,0 100,50 100,50",
        "M0,0 C0,0 100,50 100,0",
        "M0,0 C100,0 100,0 100,50",
        "M0,0 C100,100 0,100 100,0",
        "M0,0 C150,100 -50,100 100,0",
        "M0,0 C200,0 -100,0 100,0",
        "M0,0 C1e-7,1e-7 2e-7,0 3e-7,0",
        "M5,5 C5,95 95,-5 5,5",
        "M1e9,1e9 C1000000100,1e9 1000000100,1000000100 1e9,1000000050",
    ];
    for svg in odd {
        let path = BezPath::from_svg(svg).unwrap();
        let chain = fit(path.segments(), 1e-3);
        assert!(chain.len() < 2000, "{svg}: {}", chain.len());
        assert!(
            chain.iter().all(|arc| arc.bulge.abs() <= 1.0 && arc.p0.is_finite() && arc.p1.is_finite()),
            "{svg}"
        );
        assert!(chain.is_empty() || hausdorff(&path, &chain) <= 2e-3, "{svg}: {}", hausdorff(&path, &chain));
        near(worst_joint(&chain).1, 0.0, 0.0);
    }
    let infinite = CubicBez::new((0.0, 0.0), (f64::INFINITY, 1.0), (2.0, f64::NAN), (3.0, 0.0));
    assert!(fit([PathSeg::Cubic(infinite)], 0.01).is_empty());
    assert!(fit(wave().segments(), 0.0).len() < 10_000);
    assert!(fit(wave().segments(), f64::NAN).len() < 10_000);
}
