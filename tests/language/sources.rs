//! The texts in the sources of the program and in the scripts of the page.

use crate::files;

/// Where texts are for machines or developers: formats, keys, and what scripts are told, which is English always.
const FOR_MACHINES: [&str; 14] = [
    "core/src/demo.rs",
    "core/src/format/dxf.rs",
    "core/src/format/dxf/",
    "core/src/format/json.rs",
    "core/src/format/link/",
    "core/src/format/pdf/content.rs",
    "core/src/format/pdf/file.rs",
    "core/src/format/pdf/picture.rs",
    "core/src/format/samples.rs",
    "core/src/format/svg.rs",
    "core/src/language/",
    "core/src/units/number.rs",
    "core/src/units/show.rs",
    "web/src/script",
];

/// A file there whose texts are for people.
const FOR_PEOPLE: &str = "core/src/format/dxf/options.rs";

/// Texts elsewhere that look like words and are none: what formats and browsers call things, symbols, styles.
const NO_WORDS: [&str; 30] = [
    "AutoCAD Binary",
    ", 1:1, mm",
    "N mm",
    "N mm²",
    "fl oz",
    "lbf in",
    "lbf ft",
    "lbf in²",
    "Enter",
    "Escape",
    "PageUp",
    "PageDown",
    "Delete",
    "ArrowRight",
    "ArrowDown",
    "ArrowLeft",
    "ArrowUp",
    "left above",
    "left below",
    "right above",
    "right below",
    "no database",
    "{size}px sans-serif",
    "(display-mode: standalone)",
    "{}px {}px",
    "handle {}{far}{selected}{marked}",
    "matrix({a} {b} {c} {d} {e} {f})",
    "translate({},{}) scale({})",
    "translate({x} {y}){turn}",
    "translate({place}) scale({}){turn}\n{text}",
];

/// What a call takes that nobody but a developer reads.
const FOR_DEVELOPERS: [&str; 5] = ["expect(", "reason = ", "assert!(", "assert_eq!(", "debug_assert!("];

/// Every text of the program and of the page's scripts that is for people, with its place.
pub(crate) fn for_people() -> Vec<(String, String)> {
    let is_for_people = |(place, text): &(String, String)| {
        let is_for_machines =
            FOR_MACHINES.iter().any(|file| place.starts_with(file)) && !place.starts_with(FOR_PEOPLE);
        // An address, a selector, an object of a file.
        let is_address = text.starts_with(['/', '.', '#', '[', '<']);
        !is_for_machines && !is_address && looks_like_words(text) && !NO_WORDS.contains(&text.as_str())
    };
    all().into_iter().filter(is_for_people).collect()
}

/// Every text in the sources without their tests, with its place.
pub(crate) fn all() -> Vec<(String, String)> {
    let mut texts = Vec::new();
    for (path, source) in files("core/src", "rs").into_iter().chain(files("web/src", "rs")) {
        if path.ends_with("tests.rs") || path.contains("/tests/") {
            continue;
        }
        let code = source.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
        texts.extend(literals(code, '"').into_iter().map(|(line, text)| (format!("{path}:{line}"), text)));
    }
    for (path, source) in files("www/page", "js") {
        texts
            .extend(literals(&source, '\'').into_iter().map(|(line, text)| (format!("{path}:{line}"), text)));
    }
    texts
}

/// Whether a text has words beside one another, or begins with a large letter.
fn looks_like_words(text: &str) -> bool {
    // What stands in holes is asked for by itself.
    let parts = text.split('{').map(|part| part.split_once('}').map_or(part, |(_, after)| after));
    let text = parts.collect::<Vec<_>>().join("{}");
    let letters: Vec<char> = text.chars().collect();
    let beside = |three: &[char]| {
        let before = three[0].is_ascii_alphabetic() || ",;:.)}”%".contains(three[0]);
        let after = three[2].is_alphanumeric() || "({“±÷×".contains(three[2]);
        three[1] == ' ' && before && after
    };
    let has_word = letters.windows(2).any(|two| two.iter().all(char::is_ascii_alphabetic));
    let mut begins = text.trim_start_matches([' ', ',', ';', ':']).chars();
    let is_large = begins.next().is_some_and(|first| first.is_ascii_uppercase())
        && begins.next().is_some_and(|second| second.is_ascii_lowercase());
    has_word && (is_large || letters.windows(3).any(beside))
}

/// The texts between quotes in a source, without comments, with their lines.
fn literals(source: &str, quote: char) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let letters: Vec<char> = source.chars().collect();
    let (mut i, mut line) = (0, 1);
    while i < letters.len() {
        let rest = |n: usize| letters.get(i + n).copied().unwrap_or_default();
        match letters[i] {
            '\n' => line += 1,
            '/' if rest(1) == '/' => {
                while i + 1 < letters.len() && letters[i + 1] != '\n' {
                    i += 1;
                }
            }
            '/' if rest(1) == '*' => {
                while i + 1 < letters.len() && !(letters[i] == '*' && letters[i + 1] == '/') {
                    line += usize::from(letters[i] == '\n');
                    i += 1;
                }
            }
            // A letter between single quotes, which may be a double one.
            '\'' if quote == '"' => {
                if rest(1) == '\\' {
                    i += 2;
                    while i < letters.len() && letters[i] != '\'' {
                        i += 1;
                    }
                } else if rest(2) == '\'' {
                    i += 2;
                }
            }
            c if c == quote => {
                let before: String = letters[i.saturating_sub(24)..i].iter().collect();
                let (start, mut text) = (line, String::new());
                i += 1;
                while i < letters.len() && letters[i] != quote {
                    match letters[i] {
                        '\\' => {
                            i += 1;
                            match letters[i] {
                                'n' => text.push('\n'),
                                // The text goes on behind the indent of the next line.
                                '\n' => {
                                    line += 1;
                                    while letters[i + 1].is_whitespace() {
                                        line += usize::from(letters[i + 1] == '\n');
                                        i += 1;
                                    }
                                }
                                'u' => {
                                    let end = i + letters[i..].iter().position(|c| *c == '}').unwrap();
                                    let digits: String = letters[i + 2..end].iter().collect();
                                    let number = u32::from_str_radix(&digits, 16).unwrap();
                                    text.push(char::from_u32(number).unwrap());
                                    i = end;
                                }
                                other => text.push(other),
                            }
                        }
                        '\n' => {
                            line += 1;
                            text.push('\n');
                        }
                        other => text.push(other),
                    }
                    i += 1;
                }
                let before = before.trim_end();
                if !FOR_DEVELOPERS.iter().any(|call| before.ends_with(call.trim_end())) {
                    found.push((start, text));
                }
            }
            _ => {}
        }
        i += 1;
    }
    found
}

#[test]
fn texts_are_found_whole() {
    let source =
        "let a = \"one \\\n    two\"; // \"not\"\nlet b = ('\"', \"th\\\"ree\", x.expect(\"four\"));\n";
    assert_eq!(literals(source, '"'), [(1, "one two".to_owned()), (3, "th\"ree".to_owned())]);
}
