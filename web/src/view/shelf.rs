//! The shelf: every design kept in this browser, to be taken down again.

use crate::{dom, store::Keeper};
use web_sys::Element;

/// The list of kept designs.
pub(super) struct Shelf {
    list: Element,
    last: Option<Vec<(String, String)>>,
}

impl Shelf {
    pub(super) fn new() -> Self {
        Self { list: dom::by_id("shelf"), last: None }
    }

    pub(super) fn draw(&mut self, keeper: &Keeper) {
        let kept = keeper.shelf();
        if self.last.as_deref() == Some(kept) {
            return;
        }
        self.list.set_text_content(None);
        for (id, name) in kept {
            let row = dom::append(&self.list, "li", "", "");
            let button = dom::append(&row, "button", "", name);
            dom::set(&button, "type", "button");
            dom::set(&button, "data-shelf", id);
        }
        self.last = Some(kept.to_vec());
    }
}
