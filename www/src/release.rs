//! The release of a built site: every file with the hash of its content, for the service worker that keeps them.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use base64ct::{Base64, Encoding};
use serde_json::{Map, Value, json};
use sha2::{Digest, Sha256};

/// The script of the service worker in the site.
const WORKER: &str = "sw.js";

/// Files of the site that no visitor asks for.
const NOT_OF_THE_PAGE: [&str; 2] = [WORKER, "package.json"];

/// Completes the service worker of the site in `root` with the list of its files.
///
/// The release is named after the content of all of them, so that the worker differs where any of them does, and only
/// then: the browser looks for a new release by comparing its bytes.
///
/// # Errors
///
/// When a file cannot be read, or the worker not written.
pub(crate) fn seal(root: &Path) -> Result<()> {
    let mut files = Map::new();
    list(root, "", &mut files)?;
    let listed = Value::from(files).to_string();
    let name = &hex(&Sha256::digest(&listed))[..16];
    let path = root.join(WORKER);
    let script = fs::read_to_string(&path).with_context(|| format!("cannot read {}", path.display()))?;
    let sealed = format!("const release = {};\nconst files = {listed};\n\n{script}", json!(name));
    fs::write(&path, sealed).with_context(|| format!("cannot write {}", path.display()))
}

/// The hash of a content as the browser's integrity checks and content security policy write it.
pub(crate) fn integrity(content: &[u8]) -> String {
    format!("sha256-{}", Base64::encode_string(&Sha256::digest(content)))
}

/// Adds every visible file of a folder, by its address below the site's; `./` is the page.
fn list(folder: &Path, address: &str, files: &mut Map<String, Value>) -> Result<()> {
    let entries = fs::read_dir(folder).with_context(|| format!("cannot read {}", folder.display()))?;
    let mut names = Vec::new();
    for entry in entries {
        names.push(entry?.file_name().into_string().ok().context("the name of a file is not UTF-8")?);
    }
    names.sort();
    for name in names {
        let (path, address) = (folder.join(&name), format!("{address}{name}"));
        if name.starts_with('.') || NOT_OF_THE_PAGE.contains(&address.as_str()) {
            continue;
        }
        if path.is_dir() {
            list(&path, &format!("{address}/"), files)?;
            continue;
        }
        let content = fs::read(&path).with_context(|| format!("cannot read {}", path.display()))?;
        let address = if address == "index.html" { "./".to_owned() } else { address };
        files.insert(address, integrity(&content).into());
    }
    Ok(())
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The sealed worker of a site with these files.
    fn sealed(files: &[(&str, &str)]) -> String {
        let site = tempfile::tempdir().unwrap();
        for (name, content) in [("sw.js", "// worker\n"), ("package.json", "{}")].iter().chain(files) {
            fs::create_dir_all(site.path().join(name).parent().unwrap()).unwrap();
            fs::write(site.path().join(name), content).unwrap();
        }
        seal(site.path()).unwrap();
        fs::read_to_string(site.path().join("sw.js")).unwrap()
    }

    #[test]
    fn the_worker_lists_every_file_of_the_page_by_its_hash() {
        let worker = sealed(&[("index.html", "page"), ("icons/a.svg", "icon"), (".nojekyll", "")]);
        // As `printf page | openssl dgst -sha256 -binary | base64` has it.
        assert!(worker.contains(r#""./":"sha256-NmAxWprz3yVdjxmrB35Hl4IrQUiKDioEvGr3EhPCMnQ=""#), "{worker}");
        assert!(worker.contains(r#""icons/a.svg":"sha256-"#), "{worker}");
        assert!(!worker.contains("nojekyll") && !worker.contains("package.json"), "{worker}");
        assert!(worker.ends_with("\n// worker\n"), "{worker}");
    }

    #[test]
    fn the_release_has_another_name_where_any_file_differs_and_only_there() {
        let first = sealed(&[("index.html", "page")]);
        assert_eq!(first, sealed(&[("index.html", "page")]));
        assert_ne!(first.lines().next(), sealed(&[("index.html", "Page")]).lines().next());
        assert_ne!(first.lines().next(), sealed(&[("index.html", "page"), ("b.css", "")]).lines().next());
    }
}
