//! Names that follow from what a file holds, for the programs that trunk leaves without.
//!
//! A name then means the same bytes for ever: a tab that was opened before a new build asks for its own programs or for none, never
//! for those of another build, with which it does not agree on what bytes mean.

use std::fmt::Write as _;
use std::path::Path;

use anyhow::{Context, Result, bail};
use sha2::{Digest, Sha256};

/// Programs that the page loads by itself: the beginning of their files' names.
const PROGRAMS: [&str; 2] = ["engine", "workshop"];
/// Begins the engine in a worker.
const LOADER: &str = "engine_loader.js";
/// Digits of a name, as many as trunk gives: enough that chance never makes two alike.
const DIGITS: usize = 16;

/// Gives the programs in `folder` names by their contents; returns the page with these names in it.
///
/// # Errors
/// When a program is not there, or the page or the program does not name what has been renamed.
pub fn by_content(folder: &Path, mut html: String) -> Result<String> {
    let loader_path = folder.join(LOADER);
    let mut loader = read(&loader_path)?;
    for program in PROGRAMS {
        let (script, wasm) = (format!("{program}.js"), format!("{program}_bg.wasm"));
        let (old_script, old_wasm) = (folder.join(&script), folder.join(&wasm));
        let bytes = std::fs::read(&old_wasm).with_context(|| format!("cannot read {}", old_wasm.display()))?;
        let text = read(&old_script)?;
        let digits = digits(&[&bytes, text.as_bytes()]);
        let (new_script, new_wasm) = (format!("{program}-{digits}.js"), format!("{program}-{digits}_bg.wasm"));
        std::fs::write(folder.join(&new_script), replaced(&text, &wasm, &new_wasm, &script)?)?;
        std::fs::rename(&old_wasm, folder.join(&new_wasm))?;
        std::fs::remove_file(&old_script)?;
        html = replaced(&html, &format!("./{script}"), &format!("./{new_script}"), "index.html")?;
        let of_loader = format!("./{script}");
        if loader.contains(&of_loader) {
            loader = loader.replace(&of_loader, &format!("./{new_script}"));
        }
        // Only what is wanted at once is fetched ahead by the page.
        html = html.replace(&format!("./{wasm}"), &format!("./{new_wasm}"));
    }
    let new_loader = LOADER.replace(".js", &format!("-{}.js", digits(&[loader.as_bytes()])));
    std::fs::write(folder.join(&new_loader), &loader)?;
    std::fs::remove_file(&loader_path)?;
    replaced(&html, LOADER, &new_loader, "index.html")
}

/// The beginning of the SHA-256 of all parts, in hexadecimal digits.
pub fn digits(parts: &[&[u8]]) -> String {
    let mut sum = Sha256::new();
    for part in parts {
        sum.update(part);
    }
    let mut digits = String::new();
    for byte in &sum.finalize()[..DIGITS / 2] {
        let _ = write!(digits, "{byte:02x}");
    }
    digits
}

fn read(path: &Path) -> Result<String> {
    std::fs::read_to_string(path).with_context(|| format!("cannot read {}", path.display()))
}

/// `text` with every `old` as `new`; an error when there is none.
fn replaced(text: &str, old: &str, new: &str, place: &str) -> Result<String> {
    if !text.contains(old) {
        bail!("{place} does not name {old}");
    }
    Ok(text.replace(old, new))
}
