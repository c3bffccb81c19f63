//! The catalogues of other languages: that each has every text of program and page, and nothing else; and that nothing
//! people see or print is asked for in vain.

#![expect(clippy::unwrap_used, reason = "a helper of a test fails it that way")]

mod catalogue;
mod page;
mod said;
mod sources;

use std::{
    fs,
    path::{Path, PathBuf},
};

/// The languages beside English.
const LANGUAGES: [&str; 1] = ["de"];

/// The top of the repository.
fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("the package lies in the repository").to_path_buf()
}

/// The files below a folder of the repository with one of the endings, with their paths from the top and their texts.
fn files(folder: &str, ending: &str) -> Vec<(String, String)> {
    let mut files = Vec::new();
    let mut folders = vec![root().join(folder)];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|found| found == ending) {
                let text = fs::read_to_string(&path).unwrap();
                files.push((path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/"), text));
            }
        }
    }
    files.sort();
    assert!(!files.is_empty(), "no .{ending} below {folder}");
    files
}

/// A catalogue as it stands in its file: English and the other, in the order of the file.
fn pairs(code: &str) -> Vec<(String, String)> {
    let text = fs::read_to_string(root().join(format!("www/page/language/{code}.json"))).unwrap();
    let value: serde_json::Value = serde_json::from_str(&text).unwrap();
    let object = value.as_object().expect("a catalogue is an object");
    // A map is sorted: the file is compared with it, line by line.
    let lines: Vec<String> = object
        .iter()
        .map(|(key, text)| format!("  {}: {text}", serde_json::Value::from(key.as_str())))
        .collect();
    assert_eq!(
        text,
        format!("{{\n{}\n}}\n", lines.join(",\n")),
        "{code}.json: one text a line, sorted, each once"
    );
    let text = |value: &serde_json::Value| value.as_str().expect("a catalogue holds texts alone").to_owned();
    object.iter().map(|(key, value)| (key.clone(), text(value))).collect()
}

/// Fails with every one of them.
#[track_caller]
fn none(what: &str, found: &[String]) {
    assert!(found.is_empty(), "{} {what}:\n{}", found.len(), found.join("\n"));
}
