//! The wasm package of the page: compiled by Cargo, then bound to JavaScript.

use std::env;
use std::ffi::OsString;
use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail, ensure};
use wasm_bindgen_cli_support::Bindgen;

use crate::names::Names;

/// The name of the package, without extension, in the finished site.
pub(crate) const NAME: &str = "halfbreadth";

const TARGET: &str = "wasm32-unknown-unknown";

/// Compiles `web` with the `page` profile, and returns the path of the unbound wasm file.
///
/// # Errors
///
/// When the target cannot be installed, or the compiler fails; the compiler's own messages go to stderr.
pub(crate) fn compile(workspace: &Path) -> Result<PathBuf> {
    install_target(workspace)?;
    let mut cargo = Command::new(cargo())
        // Only as a `cdylib`: beside the `rlib` that the tests link, the compiler would leave out link-time optimisation,
        // and the file would be a third larger.
        .args(["rustc", "--package", "halfbreadth-web", "--lib", "--crate-type", "cdylib"])
        .args(["--target", TARGET, "--profile", "page"])
        .args(["--config", &remap_paths()?])
        // The artifact is named by Cargo, not guessed: the target folder may be anywhere.
        .arg("--message-format=json-render-diagnostics")
        .current_dir(workspace)
        .stdout(Stdio::piped())
        .spawn()
        .context("cannot start cargo")?;
    let stdout = cargo.stdout.take().expect("stdout is piped");
    let mut wasm = None;
    for line in BufReader::new(stdout).lines() {
        wasm = artifact(&line?).or(wasm);
    }
    ensure!(cargo.wait()?.success(), "the wasm package did not compile");
    wasm.context("cargo built no wasm file")
}

/// Binds a compiled wasm file to JavaScript, and writes `halfbreadth.js` and `halfbreadth_bg.wasm` into `out`.
///
/// The result is one ES module that loads its wasm from beside itself.
///
/// # Errors
///
/// When the wasm file was built by another version of wasm-bindgen, or `out` cannot be written.
pub(crate) fn bind(wasm: &Path, out: &Path) -> Result<()> {
    generate(Bindgen::new().web(true)?.omit_default_module_path(false), wasm, out)
}

/// The same as a classic script, which has all of the package in one global, `wasm_bindgen`, and loads nothing.
///
/// # Errors
///
/// As for [`bind`].
pub(crate) fn bind_classic(wasm: &Path, out: &Path) -> Result<()> {
    generate(Bindgen::new().no_modules(true)?.omit_default_module_path(true), wasm, out)
}

/// Names and producers are left out: they are a quarter of the bytes on the wire, and no reader of the page wants them.
fn generate(bindgen: &mut Bindgen, wasm: &Path, out: &Path) -> Result<()> {
    let mut bind = || {
        let bindgen = bindgen.input_path(wasm).out_name(NAME).typescript(false);
        let mut bound = bindgen.remove_name_section(true).remove_producers_section(true).generate_output()?;
        let names = Names::shorten(&mut bound);
        bound.emit(out)?;
        let script = out.join(format!("{NAME}.js"));
        fs::write(&script, names.in_script(&fs::read_to_string(&script)?)?)?;
        anyhow::Ok(())
    };
    bind().with_context(|| format!("cannot bind {} to JavaScript", wasm.display()))
}

/// The wasm file named by one line of Cargo's JSON messages, if it names one.
fn artifact(line: &str) -> Option<PathBuf> {
    let message: serde_json::Value = serde_json::from_str(line).ok()?;
    let files = message.get("filenames")?.as_array()?;
    files.iter().filter_map(|file| file.as_str()).find(|file| file.ends_with(".wasm")).map(PathBuf::from)
}

/// Makes sure that the compiler has the standard library for wasm.
fn install_target(workspace: &Path) -> Result<()> {
    if has_target(workspace)? {
        return Ok(());
    }
    eprintln!("Installing the Rust target {TARGET}");
    let status = Command::new("rustup").args(["target", "add", TARGET]).current_dir(workspace).status();
    match status {
        Ok(status) if status.success() => Ok(()),
        Ok(_) => bail!("rustup could not install the Rust target {TARGET}"),
        Err(_) => {
            bail!("the Rust target {TARGET} is missing, and there is no rustup to install it")
        }
    }
}

/// Asks the compiler rustup would choose in `workspace`, so that it also works where there is no rustup.
fn has_target(workspace: &Path) -> Result<bool> {
    let output = Command::new(env::var_os("RUSTC").unwrap_or_else(|| "rustc".into()))
        .args(["--print", "target-libdir", "--target", TARGET])
        .current_dir(workspace)
        .output()
        .context("cannot start rustc")?;
    let libdir = String::from_utf8(output.stdout).context("rustc names a folder that is not UTF-8")?;
    Ok(output.status.success() && Path::new(libdir.trim()).is_dir())
}

/// A setting for Cargo that cuts the way to its registry from the paths in panic messages.
///
/// Else a published page would tell the home folder of who built it, and its bytes would depend on that.
fn remap_paths() -> Result<String> {
    let home = env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home
        .or_else(|| Some(env::home_dir()?.join(".cargo")))
        .context("there is no home folder, and CARGO_HOME is not set")?;
    let flag = format!("--remap-path-prefix={}=cargo", home.display());
    // An array of strings is written alike in JSON and in TOML.
    Ok(format!("target.{TARGET}.rustflags = {}", serde_json::json!([flag])))
}

/// The Cargo that runs this program, else the one on the path.
fn cargo() -> OsString {
    env::var_os("CARGO").unwrap_or_else(|| "cargo".into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(line: &str, expected: Option<&str>) {
        assert_eq!(artifact(line), expected.map(PathBuf::from));
    }

    #[test]
    fn the_wasm_file_is_found_among_the_artifacts() {
        check(r#"{"reason":"compiler-artifact","filenames":["/t/a.rlib","/t/a.wasm"]}"#, Some("/t/a.wasm"));
    }

    #[test]
    fn other_messages_name_no_wasm_file() {
        check(r#"{"reason":"compiler-artifact","filenames":["/t/a.rlib"]}"#, None);
        check(r#"{"reason":"build-finished","success":true}"#, None);
        check("not JSON", None);
        check("", None);
    }
}
