//! What trunk leaves to be done on a built page: names by content, the build's mark, the public address, the policy, the service
//! worker. Trunk calls it as a hook, so that a page that is served and one that is published are the same.

mod markup;
mod names;
mod offline;
mod policy;
mod single_file;

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use anyhow::{Context, Result, bail};

pub use offline::files;
use policy::{Form, policy};
pub use single_file::write as write_single_file;

/// Where trunk says that the page lies when it is to be finished.
const STAGING: &str = "TRUNK_STAGING_DIR";
/// How the public address gets from `cargo xtask build --address` through trunk to here.
pub const ADDRESS: &str = "HUSHWRIGHT_ADDRESS";
/// The page itself.
const PAGE: &str = "index.html";
/// What the page begins with: a policy holds only for what stands below it, and the encoding has to stand above.
const BEGINNING: &str = "<meta charset=utf-8>";

/// `xtask finish`, as trunk calls it.
pub fn run() -> Result<ExitCode> {
    let Some(folder) = std::env::var_os(STAGING).map(PathBuf::from) else {
        bail!("'finish' is a part of each build: trunk calls it and says by {STAGING} where the page lies");
    };
    let address = std::env::var(ADDRESS).ok();
    finish(&folder, address.as_deref())?;
    Ok(ExitCode::SUCCESS)
}

/// Finishes the page in `folder`; `address` is where it will be published, if that is known.
fn finish(folder: &Path, address: Option<&str>) -> Result<()> {
    let path = folder.join(PAGE);
    let html = std::fs::read_to_string(&path).with_context(|| format!("cannot read {}", path.display()))?;
    let html = names::by_content(folder, html)?;
    let build = build_of(folder, &html, address)?;
    let mut head = format!("<meta name=build content={build}>");
    if let Some(address) = address {
        head.push_str(&format!("<link rel=canonical href={}>", markup::quoted(address)));
    }
    let html = with_head(&html, &(policy::element(&policy(&html, Form::Folder)) + &head))?;
    std::fs::write(&path, html)?;
    offline::write(folder, &build)
}

/// What tells builds apart: all that they hold.
fn build_of(folder: &Path, html: &str, address: Option<&str>) -> Result<String> {
    let mut sums = format!("{html}\n{}", address.unwrap_or_default());
    for path in files(folder)? {
        let name = offline::relative(folder, &path);
        if name != PAGE {
            sums.push_str(&format!("\n{name} {}", policy::sha256(&std::fs::read(&path)?)));
        }
    }
    Ok(names::digits(&[sums.as_bytes()]))
}

/// `html` with `elements` at the beginning of its head.
fn with_head(html: &str, elements: &str) -> Result<String> {
    if html.matches(BEGINNING).count() != 1 {
        bail!("the page has not one {BEGINNING}, which its policy has to follow");
    }
    Ok(html.replacen(BEGINNING, &format!("{BEGINNING}{elements}"), 1))
}
