//! The page in parts: a room or a dialog stands in a file of its own, and in `index.html` a line says where it goes. So do
//! its styles, each with a line of its own; a site has them in one file, since every file asked for is a wait of its own.

use std::fs;
use std::io;
use std::path::Path;

/// What a line is that a part takes the place of: this, its name, and [`END`].
const BEGIN: &str = "<!-- part: ";
const END: &str = " -->";

/// The page in `folder`, with its parts in their places.
///
/// # Errors
///
/// When the page or a part cannot be read.
pub(crate) fn joined(folder: &Path) -> io::Result<String> {
    let mut page = String::new();
    for line in fs::read_to_string(folder.join("index.html"))?.split_inclusive('\n') {
        let name = line.trim_end().strip_prefix(BEGIN).and_then(|rest| rest.strip_suffix(END));
        match name {
            Some(name) => page.push_str(&fs::read_to_string(folder.join(format!("parts/{name}.html")))?),
            None => page.push_str(line),
        }
    }
    Ok(page)
}

/// The styles that `page` asks for in `folder`, in its order.
///
/// # Errors
///
/// When a file of styles cannot be read.
pub(crate) fn styles(folder: &Path, page: &str) -> io::Result<String> {
    style_files(page).map(|file| fs::read_to_string(folder.join(file))).collect()
}

fn style_files(page: &str) -> impl Iterator<Item = &str> {
    page.lines().filter(|line| is_style(line)).filter_map(|line| attribute(line, "href"))
}

fn is_style(line: &str) -> bool {
    line.contains(r#"rel="stylesheet""#)
}

/// The value of an attribute in a line of the page, which keeps one element to a line there.
pub(crate) fn attribute<'line>(line: &'line str, name: &str) -> Option<&'line str> {
    let (_, rest) = line.split_once(&format!(r#" {name}=""#))?;
    rest.split_once('"').map(|(value, _)| value)
}

/// Puts the parts of a site into its page and its styles into one file, and takes away what they were in.
///
/// # Errors
///
/// As [`joined`] and [`styles`], and when a file cannot be written.
pub(crate) fn join(site: &Path) -> io::Result<()> {
    let parts = joined(site)?;
    let styles = styles(site, &parts)?;
    let mut page = String::with_capacity(parts.len());
    let mut linked = false;
    for line in parts.split_inclusive('\n') {
        if !is_style(line) {
            page.push_str(line);
        } else if !linked {
            page.push_str("<link rel=\"stylesheet\" href=\"styles.css\">\n");
            linked = true;
        }
    }
    style_files(&parts).try_for_each(|file| fs::remove_file(site.join(file)))?;
    if linked {
        fs::write(site.join("styles.css"), styles)?;
    }
    fs::write(site.join("index.html"), page)?;
    fs::remove_dir_all(site.join("parts"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_takes_the_place_of_its_line() {
        let site = tempfile::tempdir().unwrap();
        fs::create_dir(site.path().join("parts")).unwrap();
        fs::write(site.path().join("parts/room.html"), "<p>\n</p>\n").unwrap();
        fs::write(site.path().join("index.html"), "<main>\n<!-- part: room -->\n</main>\n").unwrap();
        join(site.path()).unwrap();
        assert_eq!(
            fs::read_to_string(site.path().join("index.html")).unwrap(),
            "<main>\n<p>\n</p>\n</main>\n"
        );
        assert!(!site.path().join("parts").exists());
    }

    #[test]
    fn the_styles_of_a_site_are_one_file_in_the_order_of_the_page() {
        let site = tempfile::tempdir().unwrap();
        fs::create_dir(site.path().join("parts")).unwrap();
        let page = "<title>a</title>\n<link rel=\"stylesheet\" href=\"b.css\">\n<link rel=\"stylesheet\" href=\"a.css\">\n";
        for (file, text) in [("index.html", page), ("a.css", "p {}\n"), ("b.css", "q {}\n")] {
            fs::write(site.path().join(file), text).unwrap();
        }
        join(site.path()).unwrap();
        let read = |file| fs::read_to_string(site.path().join(file)).ok();
        assert_eq!(read("styles.css").as_deref(), Some("q {}\np {}\n"));
        let linked = "<title>a</title>\n<link rel=\"stylesheet\" href=\"styles.css\">\n";
        assert_eq!(read("index.html").as_deref(), Some(linked));
        assert_eq!((read("a.css"), read("b.css")), (None, None));
    }

    #[test]
    fn a_part_that_is_missing_is_an_error() {
        let site = tempfile::tempdir().unwrap();
        fs::create_dir(site.path().join("parts")).unwrap();
        fs::write(site.path().join("index.html"), "<!-- part: room -->\n").unwrap();
        assert!(join(site.path()).is_err());
    }
}
