//! The pressed deck and its section: paths in the order they lie over each other.

use super::drawing::{PER_MM, matrix, path_data};
use crate::dom;
use halfbreadth_core::{
    editor::{Editor, PressedView},
    scene::{Anchor, Mark, Role, Scene},
    units::decimal,
    view::View,
};
use kurbo::Affine;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement};

/// Both pictures and what is beside them.
pub(super) struct Pressed {
    deck: Picture,
    section: Picture,
    shown: Option<PressedView>,
}

/// One SVG: what lies over what is the order of its elements, which stay and change their looks.
struct Picture {
    svg: Element,
    paths: Pool,
    texts: Pool,
    transform: String,
}

struct Pool {
    parent: Element,
    tag: &'static str,
    elements: Vec<(Element, Option<Role>, String)>,
}

impl Pressed {
    pub(super) fn new() -> Self {
        Self { deck: Picture::new("solid"), section: Picture::new("section"), shown: None }
    }

    pub(super) fn draw(&mut self, editor: &Editor) {
        let Some(view) = editor.pressed() else { return };
        if self.shown.as_ref() == Some(&view) {
            return;
        }
        self.deck.draw(&view.deck, &view.words);
        self.section.draw(&view.section, &view.section_words);
        let [turn, tilt] = view.angles;
        let [tail, nose] = view.ends;
        for (id, value, words, ends) in [
            ("solid-turn", turn, &view.words, None),
            ("solid-tilt", tilt, &view.words, None),
            ("solid-cut", view.station, &view.station_words, Some([tail, nose])),
        ] {
            let range: HtmlInputElement = dom::by_id(id).unchecked_into();
            if let Some([least, most]) = ends {
                range.set_min(&decimal(least, 0));
                range.set_max(&decimal(most, 0));
            }
            range.set_value(&decimal(value, 0));
            dom::set(&range, "aria-valuetext", words);
        }
        dom::by_id("solid-words").set_text_content(Some(&view.words));
        dom::by_id("section-words").set_text_content(Some(&view.section_words));
        self.shown = Some(view);
    }
}

impl Picture {
    fn new(id: &str) -> Self {
        let svg = dom::by_id(id);
        let [board, letters] = ["g", "g"].map(|tag| {
            let group = dom::create_svg(tag);
            svg.append_child(&group).expect("a new element goes in");
            group
        });
        dom::set(&board, "class", "lines");
        dom::set(&letters, "class", "letters");
        Self {
            svg,
            paths: Pool::new(board, "path"),
            texts: Pool::new(letters, "text"),
            transform: String::new(),
        }
    }

    fn draw(&mut self, (scene, view): &(Scene, View), words: &str) {
        let to_px = view.affine();
        let transform = matrix(to_px * Affine::scale(1.0 / PER_MM));
        if transform != self.transform {
            dom::set(&self.paths.parent, "transform", &transform);
            self.transform = transform;
        }
        dom::set(&self.svg, "aria-label", words);
        let (mut paths, mut texts) = (0, 0);
        for item in &scene.items {
            match &item.mark {
                Mark::Path(path) => {
                    self.paths.paint(paths, item.role, path_data(path));
                    paths += 1;
                }
                Mark::Text { at, anchor, text, .. } => {
                    let p = to_px * *at;
                    let place = [p.x, p.y].map(|px| decimal(px, 1)).join(" ");
                    self.texts.paint(texts, item.role, ["translate(", &place, ")"].concat());
                    let element = &self.texts.elements[texts].0;
                    let anchor = if *anchor == Anchor::Start { "start" } else { "middle" };
                    dom::set(element, "text-anchor", anchor);
                    dom::write(element, text);
                    texts += 1;
                }
                Mark::Engraved { .. } => {}
            }
        }
        self.paths.leave(paths);
        self.texts.leave(texts);
    }
}

impl Pool {
    fn new(parent: Element, tag: &'static str) -> Self {
        Self { parent, tag, elements: Vec::new() }
    }

    /// Gives the element at that place in the order its looks and its content.
    fn paint(&mut self, place: usize, role: Role, content: String) {
        if place == self.elements.len() {
            let element = dom::create_svg(self.tag);
            self.parent.append_child(&element).expect("a new element goes in");
            self.elements.push((element, None, String::new()));
        }
        let (element, last_role, last) = &mut self.elements[place];
        if *last_role != Some(role) {
            dom::set(element, "class", role.name());
            *last_role = Some(role);
        }
        if *last != content {
            dom::set(element, if self.tag == "path" { "d" } else { "transform" }, &content);
            *last = content;
        }
    }

    /// Takes away what is left over.
    fn leave(&mut self, count: usize) {
        for (element, ..) in self.elements.drain(count..) {
            element.remove();
        }
    }
}
