//! The static site: the wasm package and the files of the page, in one folder.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use serde_json::json;

use crate::{parts, release, wasm};

/// A site as it stands on disk, ready to be served or published.
///
/// All addresses inside it are relative, so it works from any sub-path of any static host.
#[derive(Debug)]
pub(crate) struct Site {
    root: PathBuf,
    wasm_len: u64,
}

impl Site {
    /// Builds the site of `workspace` into the folder `out`.
    ///
    /// An earlier build in `out` is replaced, and only after all that can fail in the compiler has passed; what
    /// is hidden in it (a `.git` to publish from, a `.nojekyll`) stays.
    ///
    /// # Errors
    ///
    /// When the wasm package does not build, or `out` cannot be written, or holds anything but an earlier build.
    pub(crate) fn build(workspace: &Path, out: &Path) -> Result<Self> {
        check_replaceable(out)?;
        let unbound = wasm::compile(workspace)?;
        clear(out).with_context(|| format!("cannot make room in {}", out.display()))?;
        write_manifest(out)?;
        wasm::bind(&unbound, out)?;
        let page = workspace.join("www/page");
        copy_tree(&page, out)
            .with_context(|| format!("cannot copy {} to {}", page.display(), out.display()))?;
        parts::join(out).with_context(|| format!("cannot join the parts of {}", page.display()))?;
        release::seal(out)?;
        let wasm_len = fs::metadata(out.join(format!("{}_bg.wasm", wasm::NAME)))?.len();
        Ok(Self { root: out.to_owned(), wasm_len })
    }

    /// The folder that holds the site.
    pub(crate) fn root(&self) -> &Path {
        &self.root
    }

    /// The size of the wasm file, uncompressed, in bytes.
    pub(crate) const fn wasm_len(&self) -> u64 {
        self.wasm_len
    }
}

/// Refuses a folder with files that no build put there.
fn check_replaceable(out: &Path) -> Result<()> {
    let free = visible(out).with_context(|| format!("cannot use {}", out.display()))?.is_empty();
    ensure!(
        free || is_ours(out),
        "{} holds other files than an earlier build of the page; choose an empty folder",
        out.display()
    );
    Ok(())
}

fn is_ours(out: &Path) -> bool {
    let text = fs::read_to_string(out.join("package.json")).unwrap_or_default();
    let manifest: serde_json::Value = serde_json::from_str(&text).unwrap_or_default();
    manifest["name"] == wasm::NAME
}

/// Empties `out` but for hidden files, or makes it.
fn clear(out: &Path) -> io::Result<()> {
    for path in visible(out)? {
        if path.is_dir() && !path.is_symlink() {
            fs::remove_dir_all(path)?;
        } else {
            fs::remove_file(path)?;
        }
    }
    fs::create_dir_all(out)
}

/// The entries of a folder whose names do not begin with a dot; none if there is no such folder.
fn visible(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let entries = match fs::read_dir(folder) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        entries => entries?,
    };
    let mut paths = Vec::new();
    for entry in entries {
        let entry = entry?;
        if !entry.file_name().as_encoded_bytes().starts_with(b".") {
            paths.push(entry.path());
        }
    }
    Ok(paths)
}

/// Writes the `package.json` that lets Node import the site as an ES module. It also marks `out` as a build.
fn write_manifest(out: &Path) -> Result<()> {
    let manifest = json!({
        "name": wasm::NAME,
        "version": env!("CARGO_PKG_VERSION"),
        "license": env!("CARGO_PKG_LICENSE"),
        "private": true,
        "type": "module",
        "main": format!("./{}.js", wasm::NAME),
    });
    let path = out.join("package.json");
    fs::write(&path, format!("{manifest:#}\n")).with_context(|| format!("cannot write {}", path.display()))
}

/// Copies all visible files below `from` to the same places below `to`.
fn copy_tree(from: &Path, to: &Path) -> io::Result<()> {
    fs::create_dir_all(to)?;
    for source in visible(from)? {
        let target = to.join(source.file_name().expect("an entry of a folder has a name"));
        if source.is_dir() {
            copy_tree(&source, &target)?;
        } else {
            fs::copy(&source, &target)?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_new_or_empty_folder_is_used() {
        let folder = tempfile::tempdir().unwrap();
        check_replaceable(folder.path()).unwrap();
        check_replaceable(&folder.path().join("new")).unwrap();
    }

    #[test]
    fn a_folder_with_foreign_files_is_refused() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("package.json"), r#"{"name": "other"}"#).unwrap();
        let message = check_replaceable(folder.path()).unwrap_err().to_string();
        assert!(message.contains("choose an empty folder"), "{message}");
    }

    #[test]
    fn an_earlier_build_is_replaced_but_its_hidden_files_stay() {
        let folder = tempfile::tempdir().unwrap();
        let root = folder.path();
        write_manifest(root).unwrap();
        fs::create_dir_all(root.join("icons/old")).unwrap();
        fs::write(root.join(".nojekyll"), "").unwrap();

        check_replaceable(root).unwrap();
        clear(root).unwrap();
        assert!(visible(root).unwrap().is_empty());
        assert!(root.join(".nojekyll").exists());
    }

    #[test]
    fn files_are_copied_with_their_folders() {
        let (from, to) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
        fs::create_dir_all(from.path().join("a/b")).unwrap();
        fs::write(from.path().join("index.html"), "page").unwrap();
        fs::write(from.path().join("a/b/icon.svg"), "icon").unwrap();

        copy_tree(from.path(), to.path()).unwrap();
        assert_eq!(fs::read_to_string(to.path().join("index.html")).unwrap(), "page");
        assert_eq!(fs::read_to_string(to.path().join("a/b/icon.svg")).unwrap(), "icon");
    }
}
