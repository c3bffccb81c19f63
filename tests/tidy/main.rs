//! The repository's own rules, read off its files.

#![expect(clippy::unwrap_used, reason = "a helper of a test fails it that way")]

use std::{
    fs,
    path::{Path, PathBuf},
    process::Command,
};

/// Folders that builds and tests make.
const MADE: [&str; 6] = ["target", "dist", "dist-one", "node_modules", "shots", "downloads"];

/// The top of the repository.
fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("the package lies in the repository").to_path_buf()
}

/// Every file of the repository that a person wrote, with its path from the top and its text.
fn files() -> Vec<(String, String)> {
    let mut files = Vec::new();
    let mut folders = vec![root()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if MADE.contains(&name.as_str()) || name == ".git" || path.is_symlink() {
                continue;
            }
            if path.is_dir() {
                folders.push(path);
            } else if let Ok(text) = fs::read_to_string(&path) {
                let path = path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
                files.push((path, text));
            }
        }
    }
    assert!(files.len() > 30, "the walk went astray: {} files", files.len());
    files
}

fn has_ending(path: &str, endings: &[&str]) -> bool {
    path.rsplit_once('.').is_some_and(|(_, ending)| endings.contains(&ending))
}

fn is_lock(path: &str) -> bool {
    path.ends_with("Cargo.lock") || path.ends_with("package-lock.json")
}

/// Fails with every line of `files` in which `fault` finds something.
#[track_caller]
fn no_line(files: &[(String, String)], fault: impl Fn(&str, &str) -> bool) {
    let faults: Vec<String> = files
        .iter()
        .flat_map(|(path, text)| text.lines().enumerate().map(move |(i, line)| (path, i + 1, line)))
        .filter(|(path, _, line)| fault(path, line))
        .map(|(path, number, line)| format!("{path}:{number}: {}", line.trim()))
        .collect();
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

/// This file says what it looks for.
fn elsewhere() -> Vec<(String, String)> {
    files().into_iter().filter(|(path, _)| path != "tests/tidy/main.rs").collect()
}

#[test]
fn nothing_that_a_build_makes_is_kept() {
    let listed = Command::new("git").arg("-C").arg(root()).args(["ls-files", "--cached"]).output();
    let Some(listed) = listed.ok().filter(|listed| listed.status.success()) else {
        eprintln!("SKIPPED: these files are no git repository");
        return;
    };
    let listed = String::from_utf8(listed.stdout).unwrap();
    let made: Vec<&str> =
        listed.lines().filter(|path| path.split('/').any(|folder| MADE.contains(&folder))).collect();
    assert!(made.is_empty(), "{} files such as {}", made.len(), made[0]);
    assert!(listed.lines().count() > 30);
}

#[test]
fn the_top_level_holds_what_it_should_and_nothing_else() {
    const ALLOWED: [&str; 10] = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "rust-toolchain.toml",
        "core",
        "web",
        "www",
        "tests",
        "target",
    ];
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        let known = ALLOWED.contains(&name.as_str()) || ["dist", "dist-one"].contains(&name.as_str());
        assert!(known || name.starts_with('.') || name.starts_with("LICENSE"), "{name} is at the top level");
    }
}

#[test]
fn no_file_is_longer_than_five_hundred_lines() {
    for (path, text) in files() {
        let lines = text.lines().count();
        if has_ending(&path, &["rs", "js", "mjs", "css", "html"]) {
            assert!(lines <= 500, "{path} has {lines} lines: it is two concepts");
        }
    }
}

#[test]
fn nothing_is_left_for_later() {
    let code: Vec<_> = elsewhere()
        .into_iter()
        .filter(|(path, _)| has_ending(path, &["rs", "js", "mjs", "css", "html", "md", "toml"]))
        .collect();
    no_line(&code, |_, line| {
        // In two halves, so that this file keeps the rule too.
        [("TO", "DO"), ("FIX", "ME"), ("XX", "X"), ("todo", "!("), ("unimplemented", "!(")]
            .iter()
            .any(|(a, b)| line.contains(&format!("{a}{b}")))
    });
}

#[test]
fn no_file_names_a_path_of_one_machine() {
    no_line(&elsewhere(), |_, line| {
        let folders = ["home", "Users", "root", "work", "tmp"].map(|folder| format!("/{folder}/"));
        folders.iter().any(|folder| line.contains(folder)) || line.contains("C:\\")
    });
}

#[test]
fn lock_files_name_one_registry_and_no_download_address() {
    let locks: Vec<_> = files().into_iter().filter(|(path, _)| is_lock(path)).collect();
    assert!(!locks.is_empty());
    let addresses = |(_, text): &(String, String)| {
        let named = text
            .lines()
            .map(str::trim)
            .filter(|l| l.starts_with("source = ") || l.starts_with("\"resolved\""));
        named.map(str::to_owned).collect::<Vec<_>>()
    };
    let sources: std::collections::BTreeSet<String> = locks.iter().flat_map(addresses).collect();
    assert!(
        sources.len() == 1 && sources.iter().all(|s| s.starts_with("source = \"registry+")),
        "{sources:?}"
    );
}

#[test]
fn no_other_file_names_a_registry_host() {
    let others: Vec<_> = elsewhere().into_iter().filter(|(path, _)| !is_lock(path)).collect();
    no_line(&others, |_, line| {
        [("registry.npm", "js"), ("crates.io", "-index"), ("index.", "crates.io"), ("arti", "factory")]
            .iter()
            .any(|(a, b)| line.contains(&format!("{a}{b}")))
    });
}

fn core_sources() -> Vec<(String, String)> {
    files().into_iter().filter(|(path, _)| path.starts_with("core/src/") && path.ends_with(".rs")).collect()
}

#[test]
fn every_source_file_opens_by_saying_what_it_is() {
    for (path, text) in files() {
        let is_source = path.ends_with(".rs") && !path.ends_with("/tests.rs");
        assert!(!is_source || text.starts_with("//!"), "{path} does not open with a doc comment");
    }
}

/// The same bits in the browser as here: such functions come from `real` alone.
#[test]
fn core_calls_no_transcendental_function_of_the_standard_library() {
    const METHODS: [&str; 17] = [
        ".sin()",
        ".cos()",
        ".tan()",
        ".sin_cos()",
        ".asin()",
        ".acos()",
        ".atan()",
        ".atan2(",
        ".powf(",
        ".exp()",
        ".exp2()",
        ".ln()",
        ".log(",
        ".log10()",
        ".log2()",
        ".cbrt()",
        ".sinh()",
    ];
    let sources: Vec<_> = core_sources().into_iter().filter(|(path, _)| path != "core/src/real.rs").collect();
    no_line(&sources, |_, line| METHODS.iter().any(|method| line.contains(method)));
}

/// But for the demo decks, whose dimensions are such numbers, and the rulers, which draw the unit itself.
#[test]
fn only_the_units_know_inches() {
    let exempt = ["core/src/demo.rs", "core/src/scene/rulers.rs", "core/src/format/samples.rs"];
    let sources: Vec<_> = core_sources()
        .into_iter()
        .filter(|(path, _)| !path.starts_with("core/src/units") && !exempt.contains(&path.as_str()))
        .filter(|(path, _)| !path.ends_with("tests.rs"))
        .map(|(path, text)| (path, text.split("#[cfg(test)]").next().unwrap_or("").to_owned()))
        .collect();
    no_line(&sources, |_, line| {
        let code = line.split("//").next().unwrap_or("");
        [" 25.4", "(25.4", "\u{2033}", "\u{bd}", "\u{bc}", "\u{be}"]
            .iter()
            .any(|symbol| code.contains(symbol))
    });
}
