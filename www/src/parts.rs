//! The page in parts: a room or a dialog stands in a file of its own, and in `index.html` a line says where it goes.

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

/// Puts the parts of a site into its page, and takes their folder away.
///
/// # Errors
///
/// As [`joined`], and when the page cannot be written.
pub(crate) fn join(site: &Path) -> io::Result<()> {
    fs::write(site.join("index.html"), joined(site)?)?;
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
    fn a_part_that_is_missing_is_an_error() {
        let site = tempfile::tempdir().unwrap();
        fs::create_dir(site.path().join("parts")).unwrap();
        fs::write(site.path().join("index.html"), "<!-- part: room -->\n").unwrap();
        assert!(join(site.path()).is_err());
    }
}
