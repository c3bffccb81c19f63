//! The shelf: every design kept in this browser, to be taken down again, or its mould.

use crate::{dom, store::Keeper};
use halfbreadth_core::say;
use web_sys::Element;

/// The list of kept designs.
pub(super) struct Shelf {
    list: Element,
    moulds: Element,
    last: Option<Vec<(String, String)>>,
}

impl Shelf {
    pub(super) fn new() -> Self {
        Self { list: dom::by_id("shelf"), moulds: dom::by_id("moulds"), last: None }
    }

    pub(super) fn draw(&mut self, keeper: &Keeper) {
        let kept = keeper.shelf();
        if self.last.as_deref() == Some(kept) {
            return;
        }
        for (list, hook, is_mould) in
            [(&self.list, "data-shelf", false), (&self.moulds, "data-take-mould", true)]
        {
            list.set_text_content(None);
            for (id, name) in kept {
                let row = dom::append(list, "li", "", "");
                let words = if is_mould { say!("The mould of {name}", name) } else { name.clone() };
                let button = dom::append(&row, "button", "", &words);
                dom::set(&button, "type", "button");
                dom::set(&button, hook, id);
            }
        }
        self.last = Some(kept.to_vec());
    }
}
