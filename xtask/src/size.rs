//! How large the page is on the way to a visitor.

use std::io::Write;
use std::path::Path;
use std::process::ExitCode;

use anyhow::{Context, Result, bail};
use brotli::CompressorWriter;

use crate::finish::files;
use crate::page;
use crate::tools::Tools;

/// A program of the page: what it is, how its file begins, the most that its wasm may weigh and what it should, in bytes after brotli.
struct Program {
    name: &'static str,
    file: &'static str,
    limit: usize,
    aim: usize,
}

/// Page and engine are fetched at once, and a visitor waits for both: on a slow phone line (1.6 Mbit/s) every 200 kB take a second. Checks, links
/// and pasted tables are in the engine alone, where answering costs 11 kB; in the page too they were 40 kB of it.
const PROGRAMS: [Program; 3] = [
    Program { name: "page", file: "app", limit: 300_000, aim: 200_000 },
    Program { name: "engine", file: "engine", limit: 280_000, aim: 200_000 },
    // Fetched once the page stands: nobody waits for it, and so what is looked at later lies here: the documents of Build, the schedule of
    // Compare, the code to scan, the list of kept designs.
    Program { name: "workshop", file: "workshop", limit: 210_000, aim: 150_000 },
];

/// `cargo xtask size`.
pub fn of_fresh_build() -> Result<ExitCode> {
    page::build(&Tools::ensure()?)?;
    check(&page::dist())?;
    Ok(ExitCode::SUCCESS)
}

/// Prints the size of every file in `dist`.
///
/// # Errors
/// When the wasm of one of the programs is missing or larger than allowed.
pub fn check(dist: &Path) -> Result<()> {
    let mut weights = PROGRAMS.map(|_| None);
    println!("{:>12} {:>12}  file", "bytes", "brotli");
    for path in files(dist)? {
        let bytes = std::fs::read(&path).with_context(|| format!("cannot read {}", path.display()))?;
        let compressed = compressed_size(&bytes)?;
        println!("{:>12} {compressed:>12}  {}", bytes.len(), path.strip_prefix(dist).unwrap_or(&path).display());
        if path.extension().is_some_and(|extension| extension == "wasm") {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            if let Some(index) = PROGRAMS.iter().position(|program| name.starts_with(program.file)) {
                weights[index] = Some(compressed);
            }
        }
    }
    for (program, weight) in PROGRAMS.iter().zip(weights) {
        let Some(weight) = weight else { bail!("the wasm of the {} is not in {}", program.name, dist.display()) };
        println!("{}", judge(program, weight)?);
    }
    Ok(())
}

/// A sentence on the size of a program; an error when it is above its limit.
fn judge(Program { name, limit, aim, .. }: &Program, weight: usize) -> Result<String> {
    let in_kb = |bytes: usize| bytes.div_ceil(1000);
    let sentence =
        format!("The {name}'s wasm is {} kB after brotli (aim {} kB, limit {} kB).", in_kb(weight), in_kb(*aim), in_kb(*limit));
    if weight > *limit {
        bail!("{sentence} That is too much; where wasm-opt is missing, it may be for want of that.");
    }
    Ok(sentence)
}

/// Bytes that `bytes` become by brotli at its best, as a web server keeps files that do not change.
fn compressed_size(bytes: &[u8]) -> Result<usize> {
    const BUFFER: usize = 4096;
    const BEST: u32 = 11;
    const WINDOW_LOG2: u32 = 22;
    let mut writer = CompressorWriter::new(Vec::new(), BUFFER, BEST, WINDOW_LOG2);
    writer.write_all(bytes)?;
    Ok(writer.into_inner().len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_limit_is_the_last_size_that_passes() {
        let [page, ..] = PROGRAMS;
        assert!(judge(&page, page.limit).unwrap().contains("page's wasm is 300 kB after brotli (aim 200 kB"));
        assert!(judge(&page, page.limit + 1).unwrap_err().to_string().contains("301 kB"));
    }

    #[test]
    fn compression_compresses_and_loses_nothing() {
        let text = "how much sound gets out of a box of boards ".repeat(100);
        let size = compressed_size(text.as_bytes()).unwrap();
        assert!(size > 20 && size < text.len() / 20, "{size}");
        // Noise cannot shrink: a size that counted only part of the input would show here.
        let mut state = 1_u32;
        let noise: Vec<u8> = std::iter::repeat_with(|| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (state >> 24) as u8
        })
        .take(20_000)
        .collect();
        assert!(compressed_size(&noise).unwrap() >= 20_000);
    }
}
