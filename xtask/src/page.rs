//! Building and serving the page.

use std::net::{Ipv4Addr, TcpListener};
use std::ops::RangeInclusive;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};

use anyhow::{Result, bail};

use crate::tools::{Tools, WasmOpt};
use crate::{finish, lan, process, workspace};

/// The first port that is tried when none was asked for.
const FIRST_PORT: u16 = 8080;

/// The last one.
const LAST_PORT: u16 = 8179;

/// A release build as trunk is told to make it.
#[derive(Clone, Copy)]
enum Release {
    /// With wasm-opt.
    Optimised,
    /// Without: trunk runs wasm-opt in each build that it calls a release, so it gets the release's parts by name.
    Plain,
}

impl Release {
    fn options(self) -> &'static [&'static str] {
        match self {
            Self::Optimised => &["--release"],
            Self::Plain => &["--cargo-profile", "web", "--minify"],
        }
    }
}

/// Where the built page is put.
pub fn dist() -> PathBuf {
    workspace::root().join("dist")
}

/// Builds the page into `dist/`.
pub fn build(tools: &Tools) -> Result<()> {
    build_into(tools, &dist(), None).map(|_| ())
}

/// Makes one file of the page in `dist/`; returns where it is.
pub fn make_single_file() -> Result<PathBuf> {
    finish::write_single_file(&dist())
}

/// `cargo xtask build`.
pub fn build_for_use(single_file: bool, address: Option<&str>) -> Result<ExitCode> {
    build_into(&Tools::ensure()?, &dist(), address)?;
    println!("The page is in {}; any web server can serve that folder.", dist().display());
    if single_file {
        println!("As one file, which opens without a server, it is {}.", make_single_file()?.display());
    }
    Ok(ExitCode::SUCCESS)
}

/// `cargo xtask serve`: returns only when the server ends.
pub fn serve(port: Option<u16>, lan: bool) -> Result<ExitCode> {
    let address = if lan { Ipv4Addr::UNSPECIFIED } else { Ipv4Addr::LOCALHOST };
    let in_network = if lan { lan::addresses()? } else { Vec::new() };
    let port = free_port(address, port)?;
    let tools = Tools::ensure()?;
    // Apart from dist/, so that a page being served and a page being tested do not replace each other.
    let dist = workspace::root().join("target/serve");
    let release = match tools.wasm_opt {
        WasmOpt::Cached => Release::Optimised,
        WasmOpt::LeftToTrunk => build_into(&tools, &dist, None)?,
    };
    println!("Building the page. It will be at http://127.0.0.1:{port}/ when trunk says that the server is listening;");
    println!("it is built again when its sources change. Ctrl-C ends the server.");
    if lan {
        println!("\n{}", lan::announcement(&in_network, port));
    }
    let mut trunk = tools.trunk();
    trunk.args(["serve", "--disable-address-lookup", "--address", &address.to_string(), "--port", &port.to_string()]);
    // What is served is what would be published: without a script of trunk's in it.
    trunk.args(["--no-autoreload", "--no-error-reporting", "--dist"]).arg(&dist).args(release.options());
    std::fs::create_dir_all(&dist)?;
    become_(trunk)
}

fn build_into(tools: &Tools, dist: &Path, address: Option<&str>) -> Result<Release> {
    let with = |release: Release| {
        let mut trunk = tools.trunk();
        if let Some(address) = address {
            trunk.env(finish::ADDRESS, address);
        }
        trunk.arg("build").arg("--dist").arg(dist).args(release.options());
        process::run(&mut trunk, "the release build of the page")
    };
    std::fs::create_dir_all(dist)?;
    match (with(Release::Optimised), tools.wasm_opt) {
        (Ok(()), _) => Ok(Release::Optimised),
        (Err(error), WasmOpt::Cached) => Err(error),
        (Err(_), WasmOpt::LeftToTrunk) => {
            println!("That failed, perhaps for want of wasm-opt: building once more without it. The page will be larger.");
            with(Release::Plain)?;
            Ok(Release::Plain)
        }
    }
}

/// The port that was asked for, or else the first free one.
fn free_port(address: Ipv4Addr, wanted: Option<u16>) -> Result<u16> {
    match wanted {
        Some(port) if first_free(address, port..=port).is_some() => return Ok(port),
        Some(port) => bail!("port {port} is in use or not allowed; leave --port out to get one that is free"),
        None => {}
    }
    match first_free(address, FIRST_PORT..=LAST_PORT) {
        Some(FIRST_PORT) => Ok(FIRST_PORT),
        Some(port) => {
            println!("Port {FIRST_PORT} is in use: taking {port}.");
            Ok(port)
        }
        None => bail!("ports {FIRST_PORT} to {LAST_PORT} are all in use; --port can name another"),
    }
}

fn first_free(address: Ipv4Addr, mut ports: RangeInclusive<u16>) -> Option<u16> {
    ports.find(|port| TcpListener::bind((address, *port)).is_ok())
}

/// Puts `command` in the place of this process, so that whoever ends this process ends the server.
#[cfg(unix)]
fn become_(mut command: Command) -> Result<ExitCode> {
    use std::os::unix::process::CommandExt;
    Err(anyhow::Error::new(command.exec()).context("cannot start trunk"))
}

/// Runs `command` to its end.
#[cfg(not(unix))]
fn become_(mut command: Command) -> Result<ExitCode> {
    process::run(&mut command, "trunk")?;
    Ok(ExitCode::SUCCESS)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_port_in_use_is_refused_when_asked_for_and_passed_over_otherwise() {
        for address in [Ipv4Addr::LOCALHOST, Ipv4Addr::UNSPECIFIED] {
            let taken = TcpListener::bind((address, 0)).unwrap();
            let port = taken.local_addr().unwrap().port();
            let complaint = free_port(address, Some(port)).unwrap_err().to_string();
            assert!(complaint.contains(&port.to_string()), "{complaint}");
            assert_eq!(first_free(address, port..=port), None);
            assert!(first_free(address, port..=u16::MAX).is_some_and(|free| free > port));
        }
    }
}
