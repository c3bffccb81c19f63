//! Designs and edits at random, the same on every run: everything follows from a seed.

use crate::draw;
use core::f64::consts::PI;
use halfbreadth_core::{
    curve::family::Family,
    datum::Datum,
    design::Design,
    edit::{Edit, SweepEdit},
    outline::{Handle, Joint, Node, Outline, Span, SpanEnd},
    quantities::SETTINGS,
    real,
};
use kurbo::{Point, Vec2};

/// A generator of random numbers: `SplitMix64`, doi.org/10.1145/2714064.2660195.
#[derive(Clone, Debug)]
pub struct Random(u64);

impl Random {
    /// A generator that always gives the same numbers for the same seed.
    #[must_use]
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number in 0..1.
    pub fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A number between two others.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// A whole number below `bound`.
    ///
    /// # Panics
    ///
    /// Where `bound` is 0.
    pub fn below(&mut self, bound: usize) -> usize {
        usize::try_from(self.next() % bound as u64).expect("it is below a usize")
    }

    /// True with that probability.
    pub fn chance(&mut self, probability: f64) -> bool {
        self.unit() < probability
    }

    /// One of the given.
    pub fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.below(from.len())]
    }
}

/// A valid design at random: from two to fourteen spans, smooth nodes and corners, straight spans, round, pointed,
/// square and notched ends, waists, twins.
#[must_use]
pub fn design(random: &mut Random) -> Design {
    loop {
        if let Ok(design) = candidate(random) {
            return if random.chance(0.3) { swept(random, design) } else { design };
        }
    }
}

/// The design with a sweep, a family's or one of its own, laid on it where that is possible.
fn swept(random: &mut Random, design: Design) -> Design {
    let kept = (0..8).find_map(|_| {
        let edit = sweep_made(random, &design);
        design.apply(&Edit::Sweep(edit)).ok()
    });
    let Some(kept) = kept else { return design };
    let laid = (0..8).find_map(|_| {
        let lay = sweep_laid(random, &kept);
        kept.apply(&Edit::Sweep(lay)).ok()
    });
    laid.unwrap_or(kept)
}

/// A sweep kept or added.
fn sweep_made(random: &mut Random, design: &Design) -> SweepEdit {
    let name = random.pick(&["nose", "a long name with ½ “quotes”", ""]).chars().take(24).collect();
    if random.chance(0.4) {
        let nodes = design.shape().outline.nodes.len();
        return SweepEdit::Keep { from: random.below(nodes), to: random.below(nodes), name };
    }
    let (a, b) = (random.between(20.0, 300.0), random.between(20.0, 200.0));
    let families = [
        Family::Arc { radius: a, turn: random.between(0.1, 2.5) },
        Family::Ellipse { along: a, across: b },
        Family::Superellipse { along: a, across: b, exponent: random.between(2.0, 6.0) },
        Family::Clothoid { radius: a, length: b },
    ];
    SweepEdit::Add { name, family: random.pick(&families) }
}

/// A sweep laid by two touches near the edge, on any half.
fn sweep_laid(random: &mut Random, design: &Design) -> SweepEdit {
    let outline = &design.shape().outline;
    let side = random.pick(&[1.0, -1.0]);
    let mut touch = || {
        let p = outline.course(random.below(outline.spans.len())).point(random.unit());
        Point::new(p.x + random.between(-2.0, 2.0), side * (p.y + random.between(-2.0, 2.0)))
    };
    let at = [touch(), touch()];
    SweepEdit::Lay { sweep: random.below(outline.sweeps.len() + 1), at }
}

/// Any change to the sweeps of a design.
fn sweep_edit(random: &mut Random, design: &Design) -> SweepEdit {
    let outline = &design.shape().outline;
    let laid = (0..outline.spans.len()).filter(|&s| matches!(outline.spans[s], Span::Laid { .. }));
    let laid: Vec<usize> = laid.collect();
    let span = if laid.is_empty() { 0 } else { random.pick(&laid) };
    let sweep = random.below(outline.sweeps.len() + 1);
    match random.below(10) {
        0 => sweep_made(random, design),
        1 => SweepEdit::Slide { span, by: random.between(-30.0, 30.0) },
        2 => SweepEdit::Turn { span, by: random.between(-0.2, 0.2) },
        3 => SweepEdit::Flip { span, over: random.chance(0.5) },
        4 => SweepEdit::Free { span },
        5 => SweepEdit::Remove { sweep },
        6 => SweepEdit::Rename { sweep, name: "other".to_owned() },
        _ => sweep_laid(random, design),
    }
}

/// A design at random that may be refused.
///
/// # Errors
///
/// The refusal of the one door for designs.
pub fn candidate(random: &mut Random) -> Result<Design, halfbreadth_core::design::Refusal> {
    let (half, datum) = size(random);
    let outline = chain(random, half, &datum);
    let mut shape = draw::shape(outline, datum);
    shape.rail_tolerance = random.between(0.1, 2.0);
    for kick in [&mut shape.profile.nose, &mut shape.profile.tail] {
        kick.bend_line = random.between(0.0, 80.0);
        kick.radius = random.between(30.0, 500.0);
        kick.angle = if random.chance(0.2) { 0.0 } else { random.between(0.0, 0.69) };
    }
    shape.profile.concave_depth = random.pick(&[0.0, 4.0, 10.0, 25.0]);
    shape.profile.concave_fade = random.pick(&[0.0, 40.0, 150.0]);
    Design::new("Random", "", shape, Vec::new())
}

/// Half the length of a deck and its holes.
fn size(random: &mut Random) -> (f64, Datum) {
    let half = random.between(220.0, 500.0);
    (half, draw::datum_for(half, random.between(60.0, 180.0_f64.min(half - 140.0))))
}

/// The outline that [`candidate`] would make of the same state of the generator, in its settled form.
#[must_use]
pub fn outline(random: &mut Random) -> Outline {
    let (half, datum) = size(random);
    let outline = chain(random, half, &datum);
    outline.with_node_at(0, outline.nodes[0].place)
}

fn chain(random: &mut Random, half: f64, datum: &Datum) -> Outline {
    let twin = random.chance(0.25);
    let breadth = random.between(75.0, 150.0);
    let inner = random.below(if twin { 7 } else { 13 });
    let from = if twin { 0.0 } else { -half };
    let mut places: Vec<Point> = (1..=inner)
        .map(|i| {
            let share = (i as f64 + random.between(-0.3, 0.3)) / (inner as f64 + 1.0);
            let x = from + (half - from) * share;
            let beyond = ((x.abs() - datum.outer_row()) / (half - datum.outer_row())).max(0.0);
            let round = (1.0 - beyond * beyond).max(0.0).sqrt();
            Point::new(x, (breadth * round * random.between(0.8, 1.0)).max(8.0))
        })
        .collect();
    places.insert(0, Point::new(from, if twin { breadth * random.between(0.7, 1.0) } else { 0.0 }));
    places.push(Point::new(half, 0.0));
    if random.chance(0.3) {
        square_end(random, &mut places, breadth);
    }
    let last = places.len() - 1;
    // Some are drawn by a calm hand, some swing wide: those fold over, overhang and cross.
    let swing = random.pick(&[0.05, 0.15, 0.15, 0.8, 1.6]);
    let lean: Vec<f64> = (0..=last)
        .map(|i| {
            let (a, b) = (places[i.saturating_sub(1)], places[(i + 1).min(last)]);
            real::direction(b - a) + random.between(-swing, swing)
        })
        .collect();
    let joint = |random: &mut Random, i: usize| {
        if random.chance(0.2) { Joint::Corner } else { Joint::Smooth(lean[i]) }
    };
    let nodes: Vec<Node> =
        places.iter().enumerate().map(|(i, &place)| Node { place, joint: joint(random, i) }).collect();
    let spans = (0..last).map(|s| span(random, &nodes, s, swing)).collect();
    Outline { nodes, spans, twin, sweeps: Vec::new() }
}

/// Ends the nose in a flat or a notch: a corner abreast of the tip, or beyond it.
fn square_end(random: &mut Random, places: &mut Vec<Point>, breadth: f64) {
    let tip = places.len() - 1;
    let reach = random.pick(&[0.0, 0.0, 15.0, 40.0]);
    let half = places[tip].x;
    places[tip].x = half - reach;
    places.insert(tip, Point::new(half, breadth * random.between(0.2, 0.6)));
    places.retain(|p| p.y.abs() < 1e-9 || p.x < half - 2.0 || p.x >= half);
}

fn span(random: &mut Random, nodes: &[Node], s: usize, swing: f64) -> Span {
    if random.chance(0.2) {
        return Span::Straight;
    }
    let chord = nodes[s + 1].place - nodes[s].place;
    let mut handle = |node: &Node, sign: f64| {
        let length = chord.hypot() * random.between(0.15, 0.5 + swing);
        match node.joint {
            Joint::Corner => {
                let turn = real::direction(chord) + random.between(-0.2 - swing, 0.2 + swing);
                Handle::Free(real::unit_vector(turn) * (sign * length))
            }
            Joint::Smooth(_) | Joint::Led => Handle::Along(length),
        }
    };
    Span::Cubic { start: handle(&nodes[s], 1.0), end: handle(&nodes[s + 1], -1.0) }
}

/// An edit such as a hand would make: most are possible, some are refused.
pub fn edit(random: &mut Random, design: &Design) -> Edit {
    let outline = &design.shape().outline;
    let (node, span) = (random.below(outline.nodes.len()), random.below(outline.spans.len()));
    let end = random.pick(&[SpanEnd::Start, SpanEnd::End]);
    let reach = random.pick(&[0.5, 5.0, 40.0]);
    let nearby = |random: &mut Random, p: Point| {
        p + Vec2::new(random.between(-reach, reach), random.between(-reach, reach))
    };
    match random.below(13) {
        11 | 12 => Edit::Sweep(sweep_edit(random, design)),
        8 => Edit::SetBatten { span, batten: random.chance(0.7) },
        // Fairing searches for some tens of ms, so it is tried more seldom.
        9 if random.chance(0.05) => {
            let other = random.below(outline.nodes.len());
            Edit::Fair { from: node, to: other, bound: random.pick(&[0.1, 0.5, 2.0]) }
        }
        9 | 10 => Edit::Redraw { stroke: stroke(random, design), accuracy: 0.7, reach: 20.0 },
        0 | 1 => Edit::MoveNode { node, to: nearby(random, outline.nodes[node].place) },
        2 => {
            let place = outline.handle_place(span, end).unwrap_or(outline.nodes[node].place);
            Edit::MoveHandle { span, end, to: nearby(random, place) }
        }
        3 => {
            let (a, b) = (outline.nodes[span].place, outline.nodes[span + 1].place);
            let share = random.unit();
            Edit::AddNode { span, near: nearby(random, a.lerp(b, share)) }
        }
        4 => Edit::DeleteNode { node },
        5 => Edit::SetSmooth { node, smooth: random.chance(0.5) },
        6 => Edit::SetStraight { span, straight: random.chance(0.5) },
        _ => match random.below(4) {
            0 => Edit::SetTwin(random.chance(0.5)),
            1 => Edit::Rename(format!("Deck {node}")),
            _ => {
                let setting = &SETTINGS[random.below(SETTINGS.len())];
                let value = random.between(setting.least, setting.most);
                Edit::Set { key: setting.quantity.key, value }
            }
        },
    }
}

/// A stroke of the pen along a stretch of the edge, pushed out or in and trembling, on any half and either way.
fn stroke(random: &mut Random, design: &Design) -> Vec<Point> {
    let outline = &design.shape().outline;
    let first = random.below(outline.spans.len());
    let last = (first + random.below(3)).min(outline.spans.len() - 1);
    let push = random.between(-12.0, 12.0);
    let side = random.pick(&[1.0, -1.0]);
    let mut places: Vec<Point> = (first..=last)
        .flat_map(|s| (0..=40).map(move |k| (s, f64::from(k) / 40.0)))
        .map(|(s, t)| {
            let along = (s - first) as f64 + t;
            let bulge = push * real::sin(PI * along / (last - first + 1) as f64);
            let p = outline.course(s).point(t);
            Point::new(p.x, side * (p.y + bulge + random.between(-0.3, 0.3)))
        })
        .collect();
    if random.chance(0.5) {
        places.reverse();
    }
    places
}

/// An edit as no hand would make it: numbers that are not numbers, places out of the world, indices of nothing.
pub fn violent_edit(random: &mut Random, design: &Design) -> Edit {
    let outline = &design.shape().outline;
    let index = |random: &mut Random, count: usize| match random.below(4) {
        0 => count,
        1 => usize::MAX,
        _ => random.below(count),
    };
    let (node, span) = (index(random, outline.nodes.len()), index(random, outline.spans.len()));
    let end = random.pick(&[SpanEnd::Start, SpanEnd::End]);
    let to = Point::new(wild(random), wild(random));
    match random.below(16) {
        13 => Edit::Sweep(match random.below(5) {
            0 => SweepEdit::Slide { span, by: to.x },
            1 => SweepEdit::Turn { span, by: to.x },
            2 => SweepEdit::Flip { span, over: true },
            3 => SweepEdit::Free { span },
            _ => SweepEdit::Remove { sweep: node },
        }),
        14 => Edit::Sweep(SweepEdit::Lay { sweep: node, at: [to, Point::new(wild(random), 0.0)] }),
        15 => {
            let (a, b) = (wild(random), wild(random));
            let family = random.pick(&[
                Family::Arc { radius: a, turn: b },
                Family::Superellipse { along: a, across: b, exponent: to.x },
                Family::Clothoid { radius: a, length: b },
            ]);
            Edit::Sweep(SweepEdit::Add { name: "x".repeat(random.below(40)), family })
        }
        8 => Edit::SetBatten { span, batten: true },
        9 if random.chance(0.05) => Edit::Fair { from: node, to: span, bound: wild(random) },
        9 => Edit::Fair { from: usize::MAX, to: span, bound: wild(random) },
        10 => {
            let stroke = (0..random.below(40)).map(|_| Point::new(wild(random), wild(random))).collect();
            Edit::Redraw { stroke, accuracy: wild(random), reach: wild(random) }
        }
        11 => Edit::GoBackTo { version: node },
        12 => Edit::NoteVersion { version: span, note: "x".repeat(random.below(20_000)) },
        0 => Edit::MoveNode { node, to },
        1 => Edit::MoveHandle { span, end, to },
        2 => Edit::AddNode { span, near: to },
        3 => Edit::DeleteNode { node },
        4 => Edit::SetSmooth { node, smooth: random.chance(0.5) },
        5 => Edit::SetStraight { span, straight: random.chance(0.5) },
        6 => Edit::Set {
            key: random.pick(&["wheelbase", "nose-kick-angle", "rail-tolerance", "spread", "no-such-key"]),
            value: wild(random),
        },
        _ => Edit::Rename("\u{0}\u{202E}x\n".repeat(random.below(60))),
    }
}

fn wild(random: &mut Random) -> f64 {
    let small = random.between(-1e-9, 1e-9);
    let usual = random.between(-500.0, 500.0);
    random.pick(&[
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        f64::MAX,
        -f64::MAX,
        f64::MIN_POSITIVE,
        1e200,
        -1e15,
        9.3e12,
        0.0,
        -0.0,
        PI,
        small,
        usual,
        usual,
        usual,
    ])
}

/// Breaks one thing about an outline, or several: counts, numbers, joints, handles.
pub fn break_outline(random: &mut Random, outline: &mut Outline) {
    for _ in 0..=random.below(3) {
        let node = random.below(outline.nodes.len().max(1));
        let span = random.below(outline.spans.len().max(1));
        let value = wild(random);
        let handle = random.pick(&[Handle::Along(value), Handle::Free(Vec2::new(value, 1.0))]);
        match random.below(11) {
            9 if span < outline.spans.len() => {
                let (flip, reverse) = (random.chance(0.5), random.chance(0.5));
                let sweep = random.below(3);
                outline.spans[span] = Span::Laid { sweep, from: value, to: wild(random), flip, reverse };
            }
            10 => outline.sweeps.clear(),
            0 => outline.nodes.clear(),
            1 => outline.spans.clear(),
            2 => outline.nodes.truncate(node),
            3 => outline.twin = !outline.twin,
            4 if node < outline.nodes.len() => outline.nodes[node].place.x = value,
            5 if node < outline.nodes.len() => outline.nodes[node].place.y = value,
            6 if node < outline.nodes.len() => {
                outline.nodes[node].joint =
                    random.pick(&[Joint::Corner, Joint::Led, Joint::Smooth(value), Joint::Smooth(1e300)]);
            }
            7 if span < outline.spans.len() => outline.spans[span] = Span::Straight,
            8 if span < outline.spans.len() => {
                outline.spans[span] = Span::Cubic { start: handle, end: Handle::Along(0.1) };
            }
            _ => {
                let copies = outline.nodes.clone();
                outline.nodes.extend(copies);
            }
        }
    }
}
