//! Names and notes: what characters a design accepts from outside.

use crate::design::Refusal;

/// One line of text without control or direction-changing characters, nor white space at its ends. A line that has been
/// through here comes through again as it is.
///
/// # Errors
///
/// [`Refusal::TextTooLong`] above `most` characters.
pub(crate) fn line(field: &'static str, text: &str, most: usize) -> Result<String, Refusal> {
    let on_one_line = |c: char| if c == '\n' || c == '\t' { ' ' } else { c };
    let kept: String = safe(text).map(on_one_line).collect();
    limited(field, kept.trim(), most)
}

/// Several lines of text; line breaks and tabs stay, and of a carriage return before a line break nothing.
///
/// # Errors
///
/// [`Refusal::TextTooLong`] above `most` characters.
pub(crate) fn lines(field: &'static str, text: &str, most: usize) -> Result<String, Refusal> {
    limited(field, &safe(text).collect::<String>(), most)
}

fn limited(field: &'static str, text: &str, most: usize) -> Result<String, Refusal> {
    let found = text.chars().count();
    if found > most { Err(Refusal::TextTooLong { field, found, most }) } else { Ok(text.to_owned()) }
}

fn safe(text: &str) -> impl Iterator<Item = char> {
    text.chars().filter(|&c| is_safe(c))
}

/// Whether a character may stand in a name. A newline would inject entities into a DXF file, a direction mark would
/// let a name lie about its ending.
fn is_safe(c: char) -> bool {
    let invisible =
        matches!(c, '\u{2028}' | '\u{2029}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}');
    c == '\n' || c == '\t' || !(c.is_control() || invisible)
}

/// A file name from a design's name: letters, digits, dot, dash and underscore, at most 60, never empty.
#[must_use]
pub fn file_stem(name: &str) -> String {
    let kept: String = name
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() || matches!(c, '.' | '_' | '-') { c } else { '-' })
        .collect();
    let trimmed: String = kept.trim_matches(['-', '.', ' ']).chars().take(60).collect();
    let reserved = ["con", "nul", "prn", "aux"].contains(&trimmed.to_ascii_lowercase().as_str());
    if trimmed.is_empty() || reserved { "deck".to_owned() } else { trimmed.to_ascii_lowercase() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_loses_control_characters_and_keeps_its_letters() {
        let name = line("name", " Turn\u{0}stone\n<&\"'>漢字\u{202e} ", 80).unwrap();
        assert_eq!(name, "Turnstone <&\"'>漢字");
    }

    #[test]
    fn a_text_that_was_accepted_is_accepted_as_it_is() {
        for text in ["\u{feff} a \u{202e}", "a\u{0} \n\u{2066}", "\u{2028}\t\u{7f}", "a\r\nb\r\r\n"] {
            for read in [line, lines] {
                let once = read("name", text, 80).unwrap();
                assert_eq!(read("name", &once, 80).unwrap(), once, "{text:?}");
            }
        }
        assert_eq!(line("name", "\u{feff} a \u{202e}", 80).unwrap(), "a");
        assert_eq!(lines("notes", "a\r\nb", 80).unwrap(), "a\nb");
    }

    #[test]
    fn a_name_too_long_is_refused_with_its_length() {
        let refused = line("name", &"x".repeat(81), 80).unwrap_err();
        assert_eq!(refused.to_string(), "the name has 81 characters: at most 80");
    }

    #[test]
    fn a_file_is_never_named_after_a_device_or_nothing() {
        assert_eq!(file_stem("CON"), "deck");
        assert_eq!(file_stem("漢字"), "deck");
        assert_eq!(file_stem("../Red Knot 8¼"), "red-knot-8");
    }
}
