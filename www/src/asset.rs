//! An asset of the site: which file an address means, and which type it has.

use std::path::{Path, PathBuf};

/// The path of the file that `url` means, relative to the root of the site.
///
/// `url` is the target of a request: an absolute path, perhaps with a query. A folder means its `index.html`.
/// The answer is `None` for every address that could leave the root or name a hidden file, whatever its
/// encoding; whether the file exists is not asked.
pub(crate) fn path(url: &str) -> Option<PathBuf> {
    let path = url.split(['?', '#']).next()?.strip_prefix('/')?;
    let mut file = PathBuf::new();
    let mut segments = path.split('/').peekable();
    while let Some(segment) = segments.next() {
        let name = percent_decode(segment)?;
        match name.as_str() {
            "" if segments.peek().is_none() => file.push("index.html"),
            name if is_plain(name) => file.push(name),
            _ => return None,
        }
    }
    Some(file)
}

/// The media type of a file, by its extension.
pub(crate) fn media_type(file: &Path) -> &'static str {
    match file.extension().and_then(|extension| extension.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js" | "mjs") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("txt" | "md") => "text/plain; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("json") => "application/json",
        Some("webmanifest") => "application/manifest+json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("ico") => "image/x-icon",
        Some("woff2") => "font/woff2",
        _ => "application/octet-stream",
    }
}

/// A name that means one entry of one folder on every system: no `..`, no drive, nothing hidden.
fn is_plain(name: &str) -> bool {
    !name.is_empty() && !name.starts_with('.') && !name.contains(['/', '\\', ':', '\0'])
}

/// The text behind `%41`-style escapes; `None` if one is cut short or the bytes are not UTF-8.
fn percent_decode(text: &str) -> Option<String> {
    let mut bytes = text.bytes();
    let mut decoded = Vec::with_capacity(text.len());
    let digit = |bytes: &mut std::str::Bytes<'_>| char::from(bytes.next()?).to_digit(16);
    while let Some(byte) = bytes.next() {
        decoded.push(match byte {
            b'%' => u8::try_from(digit(&mut bytes)? * 16 + digit(&mut bytes)?).ok()?,
            plain => plain,
        });
    }
    String::from_utf8(decoded).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(url: &str, expected: Option<&str>) {
        assert_eq!(path(url), expected.map(PathBuf::from), "{url}");
    }

    #[test]
    fn an_address_means_the_file_below_the_root() {
        check("/halfbreadth.js", Some("halfbreadth.js"));
        check("/icons/wide.svg?v=2", Some("icons/wide.svg"));
        check("/half%20deck%C3%A9.svg", Some("half deck\u{e9}.svg"));
    }

    #[test]
    fn a_folder_means_its_index() {
        check("/", Some("index.html"));
        check("/?x", Some("index.html"));
        check("/help/", Some("help/index.html"));
    }

    #[test]
    fn no_address_leaves_the_root() {
        for url in [
            "/..",
            "/../a",
            "/a/../b",
            "/%2e%2e/a",
            "/..%2fa",
            "/a%2Fb",
            "/%5c..%5ca",
            "/a\\b",
            "/c:/a",
            "//a",
            "/a//b",
            "a",
            "",
            "*",
            "http://host/a",
        ] {
            check(url, None);
        }
    }

    #[test]
    fn hidden_files_and_broken_escapes_mean_nothing() {
        for url in ["/.git/config", "/a/.env", "/./a", "/a%00", "/a%", "/a%4", "/a%zz", "/%ff"] {
            check(url, None);
        }
    }

    #[test]
    fn modules_and_wasm_have_the_types_that_browsers_insist_on() {
        assert_eq!(media_type(Path::new("halfbreadth.js")), "text/javascript; charset=utf-8");
        assert_eq!(media_type(Path::new("halfbreadth_bg.wasm")), "application/wasm");
        assert_eq!(media_type(Path::new("icons/wide.svg")), "image/svg+xml");
        assert_eq!(media_type(Path::new("LICENSE")), "application/octet-stream");
    }
}
