//! The service worker: `web/hosting/sw.js` with the files of this build.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use super::policy::sha256;

const TEMPLATE: &str = include_str!("../../../web/hosting/sw.js");
/// What stands in the template for the build and for its files.
const BUILD: &str = "\"BUILD_ID\"";
const FILES: &str = "FILES = {};";
/// Files of the page itself.
const PAGE: &str = "index.html";
const WORKER: &str = "sw.js";

/// Writes the worker of a build into its folder, once nothing in there changes any more.
///
/// # Errors
/// When a file cannot be read or written.
pub fn write(folder: &Path, build: &str) -> Result<()> {
    let mut rows = Vec::new();
    for path in files(folder)? {
        let name = relative(folder, &path);
        if name == WORKER {
            continue;
        }
        // Some hosts answer a request for index.html by sending to the folder, which would be no page to keep.
        let asked = if name == PAGE { "./" } else { &name };
        rows.push(format!("  {asked:?}: {:?},", sha256(&std::fs::read(&path)?)));
    }
    std::fs::write(folder.join(WORKER), worker(build, &rows)?).context("cannot write the service worker")
}

fn worker(build: &str, rows: &[String]) -> Result<String> {
    if TEMPLATE.matches(BUILD).count() != 1 || TEMPLATE.matches(FILES).count() != 1 {
        bail!("web/hosting/sw.js has not one place for the build and one for its files");
    }
    Ok(TEMPLATE.replace(BUILD, &format!("{build:?}")).replace(FILES, &format!("FILES = {{\n{}\n}};", rows.join("\n"))))
}

/// All files in `folder` and the folders in it, sorted.
///
/// # Errors
/// When a folder cannot be read.
pub fn files(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).with_context(|| format!("cannot read {}", folder.display()))? {
        let path = entry?.path();
        if path.is_dir() { found.extend(files(&path)?) } else { found.push(path) }
    }
    found.sort();
    Ok(found)
}

/// The name of a file as an address within `folder` has it.
pub fn relative(folder: &Path, path: &Path) -> String {
    let parts = path.strip_prefix(folder).unwrap_or(path).components();
    parts.map(|part| part.as_os_str().to_string_lossy()).collect::<Vec<_>>().join("/")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_worker_names_its_build_and_every_file_once() {
        let rows = ["  \"./\": \"sha256-a\",".to_owned(), "  \"b/c.js\": \"sha256-d\",".to_owned()];
        let worker = worker("0123", &rows).unwrap();
        assert!(worker.contains("const BUILD = \"0123\";"));
        assert!(worker.contains("const FILES = {\n  \"./\": \"sha256-a\",\n  \"b/c.js\": \"sha256-d\",\n};"));
    }
}
