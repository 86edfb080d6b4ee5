//! What the Rust toolchain itself must have.

use std::path::Path;
use std::process::Command;

use anyhow::{Result, bail};

use crate::process;

const TARGET: &str = "wasm32-unknown-unknown";

/// Adds the wasm target where it is missing.
pub fn ensure_wasm_target() -> Result<()> {
    let libraries = process::output_of(Command::new("rustc").args(["--print", "target-libdir", "--target", TARGET]));
    if libraries.is_some_and(|folder| Path::new(&folder).is_dir()) {
        return Ok(());
    }
    println!("The page is compiled to WebAssembly: adding Rust's target {TARGET}.");
    rustup(&["target", "add", TARGET])
}

/// Adds rustfmt and clippy where they are missing.
pub fn ensure_components() -> Result<()> {
    for (component, command) in [("rustfmt", "fmt"), ("clippy", "clippy")] {
        if !process::succeeds(process::cargo().args([command, "--version"])) {
            println!("The checks need {component}: adding it to the Rust toolchain.");
            rustup(&["component", "add", component])?;
        }
    }
    Ok(())
}

fn rustup(arguments: &[&str]) -> Result<()> {
    if process::find("rustup").is_none() {
        bail!(
            "this needs 'rustup {}', and there is no rustup: install Rust by rustup, or add what is missing in the way of your distribution",
            arguments.join(" ")
        );
    }
    process::run(Command::new("rustup").args(arguments).current_dir(crate::workspace::root()), "rustup")
}
