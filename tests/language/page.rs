//! The texts that the page declares.

use crate::files;

/// The attributes whose texts people see or hear.
const ATTRIBUTES: [&str; 4] = ["title", "aria-label", "placeholder", "alt"];

/// The elements that have no end.
const EMPTY: [&str; 9] = ["meta", "link", "input", "img", "br", "path", "circle", "use", "!doctype"];

/// Every text of the page and of its attributes, with its file, as one line each; what says `translate="no"` is left out.
pub(crate) fn texts() -> Vec<(String, String)> {
    let mut texts = Vec::new();
    for (path, page) in files("www/page", "html") {
        let mut open: Vec<(&str, bool)> = Vec::new();
        let mut rest = page.as_str();
        while let Some((before, from)) = rest.split_once('<') {
            let is_kept = open.iter().any(|element| element.1);
            let text = one_line(before);
            if !is_kept && text.contains(|c: char| c.is_ascii_lowercase()) {
                texts.push((path.clone(), text));
            }
            if let Some(comment) = from.strip_prefix("!--") {
                rest = comment.split_once("-->").expect("a comment ends").1;
                continue;
            }
            let (tag, after) = from.split_once('>').expect("a tag ends");
            rest = after;
            let name = tag.split([' ', '\n', '/']).find(|name| !name.is_empty()).unwrap_or_default();
            if tag.starts_with('/') {
                while open.pop().is_some_and(|element| element.0 != name) {}
                continue;
            }
            for attribute in ATTRIBUTES {
                let value =
                    tag.split_once(&format!(" {attribute}=\"")).and_then(|(_, value)| value.split_once('"'));
                if let Some((value, _)) = value.filter(|(value, _)| !is_kept && !value.is_empty()) {
                    texts.push((path.clone(), one_line(value)));
                }
            }
            if !EMPTY.contains(&name) && !tag.ends_with('/') {
                let is_own = tag.contains("translate=\"no\"") || ["script", "style"].contains(&name);
                open.push((name, is_own));
            }
        }
    }
    texts
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
