//! Tables for spreadsheets, as RFC 4180 has them: commas, quotes where needed, CRLF.

/// A table: one row a line, the heading first.
#[must_use]
pub fn print(rows: &[Vec<String>]) -> String {
    let mut text = String::new();
    for row in rows {
        for (i, cell) in row.iter().enumerate() {
            if i > 0 {
                text.push(',');
            }
            text += &quoted(cell);
        }
        text += "\r\n";
    }
    text
}

/// A cell as it stands in a file. One that a spreadsheet would take for a formula, and that is no number, is kept from it
/// by an apostrophe.
fn quoted(cell: &str) -> String {
    let is_number = |c: char| matches!(c, '0'..='9' | '.' | '/' | ' ' | '-');
    let is_formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r']) && !cell.chars().all(is_number);
    let cell = if is_formula { format!("'{cell}") } else { cell.to_owned() };
    if cell.contains([',', '"', '\r', '\n']) { format!("\"{}\"", cell.replace('"', "\"\"")) } else { cell }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_with_commas_quotes_and_breaks_are_quoted() {
        let row = ["a,b", "8 1/4\"", "two\r\nlines", "plain", "", "-0.25"].map(str::to_owned).to_vec();
        assert_eq!(print(&[row]), "\"a,b\",\"8 1/4\"\"\",\"two\r\nlines\",plain,,-0.25\r\n");
    }

    #[test]
    fn what_a_spreadsheet_would_run_is_kept_as_text() {
        let row = ["=1+1", "@x", "-1", "-8 1/4", "-a1", "+cmd"].map(str::to_owned).to_vec();
        assert_eq!(print(&[row]), "'=1+1,'@x,-1,-8 1/4,'-a1,'+cmd\r\n");
    }
}
