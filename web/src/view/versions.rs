//! The versions: a row each with its words and buttons, and the table of what changed since the one behind.

use super::fields::set_value;
use crate::dom;
use halfbreadth_core::editor::{Difference, Editor, VersionView};
use web_sys::Element;

/// The list of versions and the comparison.
pub(super) struct Versions {
    list: Element,
    table: Element,
    farthest: Element,
    shown: Vec<VersionView>,
    differences: Vec<Difference>,
    apart: String,
}

impl Versions {
    pub(super) fn new() -> Self {
        Self {
            list: dom::by_id("versions"),
            table: dom::by_id("differences"),
            farthest: dom::by_id("farthest"),
            shown: Vec::new(),
            differences: Vec::new(),
            apart: String::new(),
        }
    }

    pub(super) fn draw(&mut self, editor: &Editor) {
        let versions = editor.versions();
        if versions != self.shown {
            self.list.set_text_content(None);
            for version in versions.iter().rev() {
                self.add(version);
            }
            self.shown = versions;
        }
        let differences = editor.differences();
        if differences != self.differences {
            self.tabulate(&differences);
            self.differences = differences;
        }
        let apart = editor.farthest().unwrap_or_default();
        if apart != self.apart {
            self.farthest.set_text_content(Some(&apart));
            self.apart = apart;
        }
    }

    fn add(&self, version: &VersionView) {
        let row = dom::append(&self.list, "li", "version", "");
        let number = version.index + 1;
        for (word, label, text, tag) in [
            ("name", "Name of the version", &version.name, "input"),
            ("note", "Ride notes and the next wish", &version.note, "textarea"),
        ] {
            let field = dom::append(&row, tag, "field", "");
            dom::set(&field, "data-field", &format!("version-{number}-{word}"));
            dom::set(&field, "aria-label", label);
            if tag == "textarea" {
                dom::set(&field, "placeholder", label);
            }
            set_value(&field, text);
            if word == "name" {
                dom::append(&row, "span", "date", &version.date);
            }
        }
        let behind = dom::append(&row, "button", "", "Show behind");
        dom::set(&behind, "type", "button");
        dom::set(&behind, "data-behind-version", &version.index.to_string());
        dom::set(&behind, "aria-pressed", if version.behind { "true" } else { "false" });
        let back = dom::append(&row, "button", "", "Go back to it");
        dom::set(&back, "type", "button");
        dom::set(&back, "data-go-back-to", &version.index.to_string());
    }

    /// Only what differs is listed; a table of equal figures hides the ones that matter.
    fn tabulate(&self, differences: &[Difference]) {
        self.table.set_text_content(None);
        for difference in differences.iter().filter(|d| d.then != d.now) {
            let row = dom::append(&self.table, "tr", "", "");
            dom::set(&row, "data-compare", difference.key);
            dom::append(&row, "th", "", difference.label);
            dom::append(&row, "td", "", &difference.then);
            dom::append(&row, "td", "", &difference.now);
            dom::append(&row, "td", "change", &difference.change);
        }
    }
}
