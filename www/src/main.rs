//! The host program: builds the page, serves it, and runs the tests of its wasm.
//!
//! `cargo run` builds and serves; `cargo run -- build` leaves a static site and `cargo run -- bundle` one file of it;
//! `cargo run -- help` says the rest.
//! One binary is builder, server and wasm test runner, so that the page needs no tool beyond Cargo.

mod asset;
mod bundle;
mod names;
mod parts;
mod release;
mod serve;
mod site;
mod wasm;

use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use anyhow::Result;
use clap::{Parser, Subcommand};

use crate::site::Site;

/// Builds and serves the Halfbreadth page.
#[derive(Parser)]
#[command(bin_name = "cargo run --", version)]
struct Cli {
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Subcommand)]
enum Command {
    /// Build the page and serve it on this machine only (the default)
    Serve {
        /// Port to listen on; without it the first free one from 8020 on
        #[arg(long)]
        port: Option<u16>,
        /// Folder to build the site in
        #[arg(long, value_name = "DIR", default_value_os_t = default_out())]
        out: PathBuf,
    },
    /// Build the page as a static site that works from any sub-path of any host
    Build {
        /// Folder to build the site in; an earlier build in it is replaced
        #[arg(long, value_name = "DIR", default_value_os_t = default_out())]
        out: PathBuf,
    },
    /// Build the page as one HTML file that opens from a disk without a network
    Bundle {
        /// Where a copy of the page is published: links made in the file begin with it
        #[arg(long, value_name = "URL")]
        address: Option<String>,
        /// Folder to write halfbreadth.html into
        #[arg(long, value_name = "DIR", default_value_os_t = workspace().join("dist-one"))]
        out: PathBuf,
    },
    /// Run the tests of a wasm file in a browser (what `cargo test` calls for wasm)
    #[command(disable_help_flag = true)]
    TestRunner {
        /// Arguments of the wasm-bindgen test runner
        #[arg(trailing_var_arg = true, allow_hyphen_values = true)]
        args: Vec<OsString>,
    },
}

fn main() -> ExitCode {
    match run(Cli::parse()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("error: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(cli: Cli) -> Result<()> {
    let default = Command::Serve { port: None, out: default_out() };
    match cli.command.unwrap_or(default) {
        Command::Serve { port, out } => {
            let listener = serve::listen(port)?; // first: a busy port should not cost a build
            let site = build(&out)?;
            println!("Serving on http://{}/ (Ctrl+C stops)", listener.local_addr()?);
            serve::serve(listener, site.root())
        }
        Command::Build { out } => build(&out).map(drop),
        Command::Bundle { address, out } => {
            let (path, len) = bundle::bundle(&workspace(), &out, address.as_deref())?;
            println!("Wrote {} ({len} bytes)", path.display());
            Ok(())
        }
        Command::TestRunner { args } => {
            let program = OsString::from("wasm-bindgen-test-runner");
            wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args([program].into_iter().chain(args))
        }
    }
}

fn build(out: &Path) -> Result<Site> {
    let site = Site::build(&workspace(), out)?;
    println!("Built {} ({} bytes of wasm)", site.root().display(), site.wasm_len());
    Ok(site)
}

/// The root of the checkout this program was compiled from.
fn workspace() -> PathBuf {
    let www = Path::new(env!("CARGO_MANIFEST_DIR"));
    www.parent().expect("www is a folder of the workspace").to_owned()
}

fn default_out() -> PathBuf {
    workspace().join("dist")
}
