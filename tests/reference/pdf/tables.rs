//! Tables on paper: every cell is there, in its order, on the page.

use super::{CAPTION, SAME, on, read};
use halfbreadth_core::{
    format::pdf::{Column, Document},
    paper::{Paper, PaperError, PaperOptions},
};

const COLUMNS: [Column; 3] = [
    Column { heading: "Station", words: false },
    Column { heading: "Half breadth", words: false },
    Column { heading: "Where", words: true },
];

fn rows(count: usize) -> Vec<Vec<String>> {
    (0..count).map(|i| vec![format!("s{i}"), format!("b{i}"), format!("(w{i})\\")]).collect()
}

#[test]
fn every_cell_of_a_table_is_on_some_page_in_its_order() {
    for (count, pages) in [(0, 1), (1, 1), (40, 1), (200, 4)] {
        let rows = rows(count);
        let mut document = Document::new("Dunlin", CAPTION);
        document.table("Table of offsets", &COLUMNS, &rows, &on(Paper::A4)).unwrap();
        let (_, found) = read(&document.finish());
        assert_eq!(found.len(), pages);
        let words: Vec<&str> =
            found.iter().flat_map(|page| &page.words).map(|words| words.text.as_str()).collect();
        let cells: Vec<&str> =
            words.iter().copied().filter(|text| text.starts_with(['s', 'b', '('])).collect();
        assert_eq!(cells, rows.iter().flatten().map(String::as_str).collect::<Vec<_>>());
        for (i, page) in found.iter().enumerate() {
            let text = page.text();
            assert!(text.starts_with("Table of offsets\nStation\nHalf breadth\nWhere"), "{text}");
            assert!(text.ends_with(&format!("page {} of {pages}", i + 1)), "{text}");
            for words in &page.words {
                assert!(words.at.x >= 10.0 - SAME && words.at.x < page.width - 10.0, "{}", words.text);
                assert!(words.at.y >= 10.0 - SAME && words.at.y < page.height - 10.0, "{}", words.text);
            }
        }
    }
}

#[test]
fn a_wide_table_lies_on_its_side_and_a_wider_one_is_made_smaller() {
    for (letters, is_level, is_smaller) in [(10, false, false), (110, true, false), (400, true, true)] {
        let row = vec!["1".to_owned(), "2".to_owned(), "n".repeat(letters)];
        let mut document = Document::new("Dunlin", CAPTION);
        document.table("Steps", &COLUMNS, &[row], &on(Paper::A4)).unwrap();
        let (_, pages) = read(&document.finish());
        let page = &pages[0];
        assert_eq!(page.width > page.height, is_level);
        let cell = page.words.iter().find(|words| words.text.starts_with("nn")).unwrap();
        assert_eq!(cell.size < 3.5 - SAME, is_smaller);
        // An n of Helvetica is 0.556 of its size wide.
        assert!(cell.at.x + 0.556 * cell.size * letters as f64 <= page.width - 10.0 + SAME);
    }
}

#[test]
fn a_table_and_tiles_stand_in_one_file() {
    let drawing = super::drawing(&halfbreadth_core::demo::dunlin());
    let mut document = Document::new(&drawing.name, CAPTION);
    document.tiles(&drawing, &on(Paper::A3)).unwrap();
    document.table("Table of offsets", &COLUMNS, &rows(3), &on(Paper::Roll(610.0))).unwrap();
    let (_, pages) = read(&document.finish());
    assert!(pages[..pages.len() - 1].iter().all(|page| page.of("D").count() > 0));
    assert!(pages.last().unwrap().text().starts_with("Table of offsets"));
}

#[test]
fn a_table_on_too_small_a_page_is_refused() {
    let options = PaperOptions { margin: 50.0, ..on(Paper::Custom(100.0, 100.0)) };
    let refused = Document::new("", CAPTION).table("", &COLUMNS, &[], &options).unwrap_err();
    assert!(matches!(refused, PaperError::NoRoom { .. }), "{refused}");
}
