//! The handles on the drawing: which there are, what they are called, and which one a pointer means.

use super::{
    Copy, Editor, Grip, Target,
    snap::{Rule, Snapped},
};
use crate::{
    language::said,
    outline::{Joint, Outline, Span, SpanEnd},
    say,
    units::{System, Unit, show},
};
use kurbo::Point;

/// A handle as the page shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct HandleView {
    /// Its stable id.
    pub id: String,
    /// What it is.
    pub grip: Grip,
    /// Where it stands, mm.
    pub at: Point,
    /// What it is called.
    pub label: String,
    /// Its look: `tip`, `node`, `corner` or `off-curve`.
    pub look: &'static str,
    /// Whether it is selected.
    pub selected: bool,
    /// Whether a stretch begins at it.
    pub marked: bool,
    /// Its place along the board and across it, for keys and screen readers; empty on the copies.
    pub sliders: Vec<Slider>,
}

/// One of the two values a handle sets.
#[derive(Clone, Debug, PartialEq)]
pub struct Slider {
    /// `along` or `across`.
    pub axis: &'static str,
    /// Its name.
    pub label: String,
    /// Its value, mm.
    pub value: f64,
    /// Smallest value that makes sense, mm.
    pub least: f64,
    /// Largest value that makes sense, mm.
    pub most: f64,
    /// The value as it is read out.
    pub text: String,
}

/// Everything that can be taken hold of now: all nodes, and the off-curve points beside what is selected.
fn targets(editor: &Editor) -> Vec<Target> {
    let outline = &editor.design().shape().outline;
    let mut targets: Vec<Target> = (0..outline.nodes.len()).map(Target::Node).collect();
    let beside: Vec<usize> = match editor.selection {
        Some(Target::Node(i)) => i.checked_sub(1).into_iter().chain([i]).collect(),
        Some(Target::Handle(s, _) | Target::Span(s, _)) => vec![s],
        None => Vec::new(),
    };
    for s in beside.into_iter().filter(|&s| s < outline.spans.len()) {
        if matches!(outline.spans[s], Span::Cubic { .. }) {
            targets.extend([Target::Handle(s, SpanEnd::Start), Target::Handle(s, SpanEnd::End)]);
        }
    }
    targets
}

impl Editor {
    /// All handles, those of the drawn half first.
    #[must_use]
    pub fn handles(&self) -> Vec<HandleView> {
        self.handle_places().into_iter().map(|(grip, at)| self.handle_view(grip, at)).collect()
    }

    /// Where the handles stand, mm, in the same order: all that a drag changes of most of them.
    #[must_use]
    pub fn handle_places(&self) -> Vec<(Grip, Point)> {
        let outline = &self.design().shape().outline;
        let targets = targets(self);
        let mut places = Vec::new();
        for &copy in Copy::of(outline) {
            for &target in &targets {
                let grip = Grip { target, copy };
                if let Some(place) = target.place(outline)
                    && !lies_on_another(outline, grip)
                {
                    places.push((grip, copy.map(place)));
                }
            }
        }
        places
    }

    /// The place of what is held in two figures, along and across, as its fields have it.
    #[must_use]
    pub fn held_words(&self) -> String {
        let length = |mm: f64| show(mm, Unit::Length, self.settings().system).text;
        let target = self.gesture.as_ref().map(|gesture| gesture.grip.target);
        let place = target.and_then(|target| target.place(&self.design().shape().outline));
        place.map_or(String::new(), |place| format!("{} · {}", length(place.x), length(place.y)))
    }

    fn handle_view(&self, grip: Grip, at: Point) -> HandleView {
        let outline = &self.design().shape().outline;
        let look = match grip.target {
            Target::Node(i) if outline.is_tip(i) => "tip",
            Target::Node(i) if outline.nodes[i].joint == Joint::Corner => "corner",
            Target::Node(_) => "node",
            _ => "off-curve",
        };
        let label = name(self, grip.target);
        let sliders = if grip.copy.is_drawn() { sliders(self, &label, grip.target, at) } else { Vec::new() };
        HandleView {
            id: grip.to_string(),
            grip,
            at,
            label,
            look,
            selected: self.selection == Some(grip.target),
            marked: self.stretch_from.is_some_and(|node| grip.target == Target::Node(node)),
            sliders,
        }
    }
}

/// Whether a copy's handle falls on one already shown: a tip on its own mirror, amidships on its own tail copy.
fn lies_on_another(outline: &Outline, grip: Grip) -> bool {
    let Target::Node(i) = grip.target else { return false };
    (grip.copy.mirror && outline.is_tip(i)) || (grip.copy.tail && outline.is_amidships(i))
}

fn sliders(editor: &Editor, label: &str, target: Target, place: Point) -> Vec<Slider> {
    let outline = &editor.design().shape().outline;
    let measured = editor.measured();
    let system = editor.settings().system;
    let reach = 0.5 * measured.overall_width + 100.0;
    let (tail, nose) = (-measured.tail.end.x - 100.0, measured.nose.end.x + 100.0);
    let slider = |axis, value: f64, least: f64, most: f64| Slider {
        axis,
        label: [label, " ", said(axis)].concat(),
        value,
        least: least.min(value),
        most: most.max(value),
        text: spoken(value, axis, system),
    };
    let (fixed_x, fixed_y) = match target {
        Target::Node(i) => (outline.is_amidships(i), outline.is_tip(i)),
        _ => (false, false),
    };
    let along = (!fixed_x).then(|| slider("along", place.x, tail, nose));
    let across = (!fixed_y).then(|| slider("across", place.y, -100.0, reach));
    along.into_iter().chain(across).collect()
}

/// A place as a screen reader says it.
fn spoken(value: f64, axis: &'static str, system: System) -> String {
    let length = show(value.abs(), Unit::Length, system);
    let unit = if system == System::Millimetres { "millimetres" } else { "inches" };
    let side = match (axis, value < 0.0) {
        ("along", true) => "toward the tail",
        ("along", false) => "toward the nose",
        (_, true) => "past the centreline",
        (_, false) => "from the centreline",
    };
    say!("{length} {unit} {side}", length = length.text, unit, side)
}

/// What caught a drag, in words.
pub(super) fn caught_words(editor: &Editor, caught: Snapped) -> String {
    let Some(rule) = caught.along.or(caught.across) else { return String::new() };
    match rule {
        Rule::Node(i) => {
            let node = name(editor, Target::Node(i));
            if caught.along.is_some() {
                say!("As far from the middle as {node}.", node)
            } else {
                say!("As wide as {node}.", node)
            }
        }
        Rule::Middle => said("In the middle of the bolt holes.").to_owned(),
        Rule::BendLine => said("On the bend line.").to_owned(),
    }
}

/// What a part of the outline is called: by what it is where that is plain, else by its number from the tail.
pub(super) fn name(editor: &Editor, target: Target) -> String {
    let outline = &editor.design().shape().outline;
    let last = outline.nodes.len() - 1;
    match target {
        Target::Node(i) if i == last => said("the nose tip").to_owned(),
        Target::Node(0) if !outline.twin => said("the tail tip").to_owned(),
        Target::Node(0) => said("the middle").to_owned(),
        Target::Node(i) => say!("node {number}", number = i + 1),
        Target::Handle(s, SpanEnd::Start) => say!("node {number}’s fore handle", number = s + 1),
        Target::Handle(s, SpanEnd::End) => say!("node {number}’s aft handle", number = s + 2),
        Target::Span(s, _) => say!("span {number}", number = s + 1),
    }
}

/// The handle nearest to a pointer within `reach` mm; of two equally near the selected one, then the drawn one.
pub(super) fn nearest(editor: &Editor, at: Point, reach: f64) -> Option<Grip> {
    let mut best: Option<(f64, Grip)> = None;
    for (grip, place) in editor.handle_places() {
        let distance = (place - at).hypot();
        // A tie goes to what is selected: half a thousandth of the reach decides it.
        let is_selected = editor.selection == Some(grip.target);
        let effective = distance - if is_selected { 5e-4 * reach } else { 0.0 };
        if distance <= reach && best.is_none_or(|(least, _)| effective < least) {
            best = Some((effective, grip));
        }
    }
    best.map(|(_, grip)| grip)
}

/// The span under a pointer within `reach` mm, with the place on the drawn chain.
pub(super) fn span_near(editor: &Editor, at: Point, reach: f64) -> Option<Target> {
    let outline = &editor.design().shape().outline;
    let mut best: Option<(f64, Target)> = None;
    for &copy in Copy::of(outline) {
        let on_chain = copy.map(at);
        for s in 0..outline.spans.len() {
            let course = outline.course(s);
            let (t, distance) = course.nearest(on_chain);
            if distance <= reach && best.is_none_or(|(least, _)| distance < least) {
                best = Some((distance, Target::Span(s, course.point(t))));
            }
        }
    }
    best.map(|(_, target)| target)
}
