use super::*;
use crate::{capture::table, demo, measure::Measured, real, units::System};
use kurbo::ParamCurve;

/// Even noise between ±`size`, from a simple generator (Knuth's MMIX constants).
struct Noise(u64);

impl Noise {
    fn next(&mut self, size: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as f64 / f64::from(1_u32 << 30) - 1.0) * size
    }
}

/// Half-breadth of a superellipse of semi-axes 400 and 100 mm: an ellipse at exponent 2.
fn superellipse(exponent: f64, x: f64) -> f64 {
    100.0 * real::pow((1.0 - real::pow((x / 400.0).abs(), exponent)).max(0.0), 1.0 / exponent)
}

fn rows(stations: &[f64], breadth: impl Fn(f64) -> f64) -> Vec<Row> {
    let row =
        |(i, &station): (usize, &f64)| Row { line: i + 1, station, breadth: breadth(station), right: None };
    stations.iter().enumerate().map(row).collect()
}

fn taken(rows: &[Row]) -> Taken {
    fit(rows, &Options::default(), demo::turnstone().shape()).unwrap()
}

/// The largest distance of a dense truth from the drawn edge.
fn farthest(outline: &Outline, truth: impl Fn(f64) -> Point) -> f64 {
    (0..=2000).map(|i| off(outline, truth(f64::from(i) / 2000.0)).abs()).fold(0.0, f64::max)
}

fn ring(exponent: f64) -> impl Fn(f64) -> Point {
    move |u| {
        let (sin, cos) = real::sincos(u * core::f64::consts::PI);
        let power = |v: f64| real::pow(v.abs(), 2.0 / exponent).copysign(v);
        Point::new(-400.0 * power(cos), 100.0 * power(sin))
    }
}

/// Stations as a careful person takes them: every 20 mm, closer at the ends.
fn stations() -> Vec<f64> {
    let mut stations: Vec<f64> = (-18..=18).map(|i| 20.0 * f64::from(i)).collect();
    for near in [371.0, 380.0, 387.0, 392.0, 396.0, 398.5, 400.0] {
        stations.push(near);
        stations.push(-near);
    }
    stations
}

/// A table of a shape with noise: lines are counted from 1.
fn noisy(exponent: f64, seed: u64) -> Vec<Row> {
    let mut noise = Noise(seed);
    let mut rows = rows(&stations(), |x| superellipse(exponent, x));
    for row in rows.iter_mut().filter(|row| row.breadth > 0.0) {
        row.breadth += noise.next(0.25);
    }
    rows
}

#[test]
fn an_ellipse_and_a_superellipse_come_back_through_noise() {
    for exponent in [2.0, 2.5] {
        for seed in 1..=4 {
            let taken = taken(&noisy(exponent, seed));
            let worst = farthest(&taken.outline, ring(exponent));
            assert!(worst < 0.3, "exponent {exponent}, seed {seed}: {worst}");
            assert!(taken.misfit() < 0.4 && taken.suspects().count() == 0, "{taken:?}");
            assert!(taken.outline.nodes.len() <= 15, "{}", taken.outline.nodes.len());
        }
    }
}

#[test]
fn eight_measurements_give_a_sensible_deck() {
    let stations = [-400.0, -350.0, -250.0, -100.0, 100.0, 250.0, 350.0, 400.0];
    for exponent in [2.0, 2.5] {
        let taken = taken(&rows(&stations, |x| superellipse(exponent, x)));
        assert!(farthest(&taken.outline, ring(exponent)) < 2.5);
        assert!(taken.misfit() < 0.5 && taken.suspects().count() == 0, "{taken:?}");
    }
}

#[test]
fn a_tip_that_was_not_measured_is_put_where_a_fair_edge_wants_it() {
    let stations: Vec<f64> = (-19..=19).map(|i| 20.0 * f64::from(i)).collect();
    let taken = taken(&rows(&stations, |x| superellipse(2.0, x)));
    let tips = [taken.outline.nodes[0].place.x, taken.outline.nodes.last().unwrap().place.x];
    assert!((tips[0] + 400.0).abs() < 2.0 && (tips[1] - 400.0).abs() < 2.0, "{tips:?}");
    assert_eq!(taken.remarks.len(), 2);
}

#[test]
fn a_slip_of_the_rule_is_pointed_out_and_not_swallowed() {
    for (which, by) in [(3, 4.0), (10, -3.0), (15, 5.0), (28, -6.0), (30, 10.0)] {
        for exponent in [2.0, 2.5] {
            let mut rows = noisy(exponent, 3);
            rows[which].breadth += by;
            let taken = taken(&rows);
            let suspects: Vec<usize> = taken.suspects().map(|found| found.line).collect();
            assert_eq!(suspects, [which + 1], "{by} at {which}, exponent {exponent}");
            assert!(farthest(&taken.outline, ring(exponent)) < 0.4);
        }
    }
}

#[test]
fn stations_may_be_counted_from_anywhere_and_measured_any_way() {
    let deck = demo::turnstone();
    let shape = deck.shape();
    let measured = Measured::of(shape);
    let breadth = |x: f64| {
        let pieces = measured.half.pieces();
        pieces.iter().find_map(|piece| piece.first_at_x(x).map(|t| piece.curve.eval(t).y)).unwrap_or(0.0)
    };
    let stations: Vec<f64> = (-19..=20).map(|i| 20.0 * f64::from(i)).collect();
    let outer = shape.datum.outer_row();
    let plain = fit(&rows(&stations, breadth), &Options::default(), shape).unwrap();
    for from in From::ALL {
        for (taped, full) in [(true, false), (false, true)] {
            let options = Options { from, taped, full, ..Options::default() };
            let mut table = rows(&stations, breadth);
            for row in &mut table {
                let at = Point::new(row.station, row.breadth);
                let at = if taped { at } else { shape.profile.plan(&shape.datum, at) };
                row.breadth = at.y * if full { 2.0 } else { 1.0 };
                row.station = match from {
                    From::Datum => at.x,
                    From::TailTip => at.x - options.tip(shape).unwrap(),
                    From::NoseTip => options.tip(shape).unwrap() - at.x,
                    From::TailBolts => at.x + outer,
                    From::NoseBolts => outer - at.x,
                };
            }
            let taken = fit(&table, &options, shape).unwrap();
            for (a, b) in taken.points.iter().zip(&plain.points) {
                assert!((a.at - b.at).hypot() < 1e-9, "{from:?} {a:?} {b:?}");
            }
        }
    }
}

#[test]
fn left_and_right_are_averaged_and_their_difference_is_told() {
    let stations: Vec<f64> = (-10..=10).map(|i| 38.0 * f64::from(i)).collect();
    let mut rows = rows(&stations, |x| superellipse(2.5, x) + 0.5);
    for row in &mut rows {
        row.right = Some(row.breadth - 1.0);
    }
    rows[10].right = Some(rows[10].breadth - 2.0);
    let taken = taken(&rows);
    assert_eq!(taken.asymmetry.unwrap().most, 2.0);
    assert!(taken.remarks.iter().any(|remark| remark.starts_with("Left and right differ by 2.0 mm")));
    assert!((taken.points[5].at.y - superellipse(2.5, stations[5])).abs() < 1e-9);
}

#[test]
fn a_blunt_tail_stays_blunt() {
    let mut table = rows(&[0.0, 40.0, 100.0, 200.0, 400.0, 600.0, 700.0, 780.0], |s| {
        superellipse(2.5, 0.9 * (s - 400.0)).max(60.0)
    });
    table.push(Row { line: 9, station: 800.0, breadth: 0.0, right: None });
    let options = Options { from: From::TailTip, ..Options::default() };
    let taken = fit(&table, &options, demo::turnstone().shape()).unwrap();
    let [tip, corner, ..] = taken.outline.nodes.as_slice() else { panic!() };
    assert_eq!((tip.place.y, corner.place.x, corner.joint), (0.0, tip.place.x, Joint::Corner));
    assert!((corner.place.y - 60.0).abs() < 3.0);
    let deck = demo::turnstone();
    deck.apply(&taken.edit()).unwrap();
}

#[test]
fn a_shape_that_was_taken_is_a_design() {
    let deck = demo::turnstone();
    let taken = taken(&noisy(2.5, 1));
    let taken_deck = deck.apply(&taken.edit()).unwrap();
    assert!((Measured::of(taken_deck.shape()).overall_width - 200.0).abs() < 1.0);
    assert_eq!(taken_deck.name(), deck.name());
}

#[track_caller]
fn refused(text: &str, options: &Options, expected: &str) {
    let rows = table::read(text, System::Millimetres).unwrap();
    let message = fit(&rows, options, demo::turnstone().shape()).unwrap_err().to_string();
    assert!(message.contains(expected), "{text:?}: {message}");
}

#[test]
fn what_cannot_be_drawn_says_why() {
    let plain = Options::default();
    refused("0 95\n100 90\n-100 90", &plain, "3 stations with a breadth are too few");
    refused("0 95\n100 90\n0 96\n-100 90", &plain, "line 3: its station stands in line 1 already");
    refused("-200 90\n0 95\n100 0\n200 90\n300 80\n310 70", &plain, "line 3: the breadth is 0 between");
    refused("0 95\n100 90\n9000 90", &plain, "line 3: no deck reaches so far");
    refused("0 95 20", &plain, "line 1: left and right differ by 75.0 mm");
    let full = Options { full: true, ..Options::default() };
    refused("0 95 95", &full, "line 1: left and right are half-breadths");
    let tip = Options { from: From::TailTip, ..Options::default() };
    refused("-5 20\n100 90\n200 95\n300 95\n400 90\n500 90", &tip, "line 1: the station lies beyond the tip");
    refused("0 95", &Options { tolerance: 0.0, ..plain.clone() }, "a tolerance of 0 mm is out of range");
    refused("0 95", &Options { tip_to_bolts: Some(900.0), ..plain }, "a tip to the bolts of 900 mm");
}

/// Few stations, wide apart: the slip is in the middle one of three that all lie off what the others make.
#[test]
fn a_slip_among_few_stations_is_not_blamed_on_its_neighbour() {
    let stations: Vec<f64> = [-400, -390, -370, -320, -240, -160, -80, 0, 80, 160, 240, 320, 370, 390, 400]
        .map(f64::from)
        .to_vec();
    let half = [100.2, 99.2, 95.0, 85.0, 66.0, 42.0, 24.0, 0.0];
    let rows: Vec<Row> = (1..16_usize)
        .zip(&stations)
        .map(|(line, &station)| Row { line, station, breadth: half[line.abs_diff(8)], right: None })
        .collect();
    for (which, by) in [(7, 8.0), (7, -8.0), (8, 8.0), (4, 6.0), (9, -7.0)] {
        let mut table = rows.clone();
        table[which].breadth += by;
        let suspects: Vec<usize> = taken(&table).suspects().map(|found| found.line).collect();
        assert_eq!(suspects, [which + 1], "{by} at {which}");
    }
    assert_eq!(taken(&rows).suspects().count(), 0);
}

/// Half-breadths in order along a deck of 800 mm.
#[track_caller]
fn suspected(stations: &[f64], breadths: &[f64], expected: &[usize]) {
    let breadth = |x: f64| stations.iter().position(|station| *station == x).map_or(0.0, |i| breadths[i]);
    let taken = taken(&rows(stations, breadth));
    let suspects: Vec<usize> = taken.suspects().map(|found| found.line).collect();
    assert_eq!(suspects, expected, "{breadths:?}");
}

#[test]
fn a_dent_of_one_station_is_pointed_out_and_a_waist_of_several_stays() {
    let nine = [-400.0, -350.0, -250.0, -120.0, 0.0, 120.0, 250.0, 350.0, 400.0];
    let plain = [0.0, 55.0, 88.0, 97.0, 99.0, 97.0, 88.0, 55.0, 0.0];
    suspected(&nine, &plain, &[]);
    for (which, by) in [(4, -5.0), (4, -8.0), (3, -12.0), (5, -14.0)] {
        let mut dented = plain;
        dented[which] += by;
        suspected(&nine, &dented, &[which + 1]);
    }
    let eight = [-400.0, -350.0, -250.0, -100.0, 60.0, 220.0, 350.0, 400.0];
    suspected(&eight, &[0.0, 55.0, 88.0, 98.0, 86.0, 93.0, 55.0, 0.0], &[5]);
    // True waists: the stations beside the lowest one dip too.
    suspected(&nine, &[0.0, 70.0, 99.0, 96.0, 94.0, 96.0, 99.0, 70.0, 0.0], &[]);
    suspected(&nine, &[0.0, 70.0, 99.0, 92.0, 88.0, 92.0, 99.0, 70.0, 0.0], &[]);
    suspected(&eight, &[0.0, 60.0, 95.0, 91.0, 90.0, 94.0, 60.0, 0.0], &[]);
}

/// A demo deck measured at its tips, 30 mm inside them, and at so many more stations evenly between.
fn measured_at(deck: &crate::design::Design, between: usize) -> Vec<Row> {
    let half = deck.shape().outline.resolve();
    let pieces = half.pieces();
    let (tail, nose) = (pieces[0].curve.p0.x, pieces[pieces.len() - 1].curve.p3.x);
    let breadth = |x: f64| {
        let at = |piece: &crate::outline::Piece| piece.first_at_x(x).map(|t| piece.curve.eval(t).y);
        if x > tail && x < nose { pieces.iter().filter_map(at).fold(0.0, f64::max) } else { 0.0 }
    };
    let mut stations = vec![tail, tail + 30.0];
    let step = (nose - tail - 100.0) / (between - 1) as f64;
    stations.extend((0..between).map(|i| tail + 50.0 + step * i as f64));
    stations.extend([nose - 30.0, nose]);
    rows(&stations, breadth)
}

#[test]
fn few_stations_of_a_sound_deck_with_or_without_a_waist_are_not_suspected_between_the_trucks() {
    for deck in demo::all() {
        for between in [4, 6, 8, 12] {
            let taken = taken(&measured_at(&deck, between));
            let mut between_trucks = taken.suspects().filter(|found| found.at.x.abs() < 250.0);
            assert_eq!(between_trucks.next(), None, "{} by {between}: {:?}", deck.name(), taken.points);
        }
    }
}

#[test]
fn a_true_waist_met_by_one_station_is_asked_for_again_and_stays_when_it_is_measured_beside_too() {
    let dunlin = demo::dunlin();
    assert!(Measured::of(dunlin.shape()).waist().is_some());
    let once = taken(&measured_at(&dunlin, 5));
    assert_eq!(once.suspects().count(), 1);
    let mut rows = measured_at(&dunlin, 5);
    let beside = measured_at(&dunlin, 17);
    rows.extend([7, 9].map(|i| Row { line: 20 + i, ..beside[2 + i] }));
    let again = taken(&rows);
    assert_eq!(again.suspects().count(), 0, "{:?}", again.points);
}
