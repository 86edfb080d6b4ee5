//! Where the project lies, and the versions that its files pin.

use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use anyhow::{Context, Result, bail};

/// The folder that holds the workspace: the one that cargo runs this program for. Where the program was built is asked
/// only when cargo does not run it, for clones that share a target folder run one program.
pub fn root() -> &'static Path {
    static XTASK: LazyLock<PathBuf> =
        LazyLock::new(|| std::env::var_os("CARGO_MANIFEST_DIR").map_or_else(|| env!("CARGO_MANIFEST_DIR").into(), PathBuf::from));
    XTASK.parent().expect("xtask lies in the workspace")
}

/// The folder with the tools' own crate.
pub fn bindgen_crate() -> PathBuf {
    root().join("xtask/bindgen")
}

/// The version of wasm-bindgen that the page is locked to, which its tools must have to the last digit.
///
/// # Errors
/// When the page and the tools' crate are locked to different ones.
pub fn wasm_bindgen_version() -> Result<String> {
    let page = locked_version(&read(&root().join("Cargo.lock"))?, "wasm-bindgen")?;
    let tools = locked_version(&read(&bindgen_crate().join("Cargo.lock"))?, "wasm-bindgen-cli")?;
    if page != tools {
        bail!(
            "the page uses wasm-bindgen {page}, but xtask/bindgen is locked to {tools}: \
             write {page} into xtask/bindgen/Cargo.toml and run 'cargo update' in that folder"
        );
    }
    Ok(page)
}

/// The version of binaryen, which brings wasm-opt, that Trunk.toml names.
pub fn binaryen_version() -> Result<String> {
    let text = read(&root().join("Trunk.toml"))?;
    text.lines()
        .find_map(|line| line.strip_prefix("wasm_opt = \"version_")?.strip_suffix('"'))
        .map(String::from)
        .context("Trunk.toml has no line wasm_opt = \"version_N\"")
}

/// The test files that tests/Cargo.toml keeps for the feature `browser`, so that none is left out for want of being
/// named here as well.
pub fn browser_tests() -> Result<Vec<String>> {
    let names = tests_with_feature(&read(&root().join("tests/Cargo.toml"))?, "browser");
    if names.is_empty() {
        bail!("tests/Cargo.toml has no [[test]] with required-features = [\"browser\"]");
    }
    Ok(names)
}

fn read(path: &Path) -> Result<String> {
    std::fs::read_to_string(path).with_context(|| format!("cannot read {}", path.display()))
}

/// The names in those `[[test]]` tables of the text of a Cargo.toml that require `feature`.
fn tests_with_feature(manifest: &str, feature: &str) -> Vec<String> {
    let requires = format!("required-features = [\"{feature}\"]");
    let tables = manifest.split("\n[").filter_map(|table| table.strip_prefix("[test]]"));
    tables
        .filter(|table| table.lines().any(|line| line == requires))
        .filter_map(|table| table.lines().find_map(|line| line.strip_prefix("name = \"")?.strip_suffix('"')))
        .map(String::from)
        .collect()
}

/// The version of `package` in the text of a Cargo.lock.
fn locked_version(lock: &str, package: &str) -> Result<String> {
    let name = format!("name = \"{package}\"");
    let mut lines = lock.lines().skip_while(|line| *line != name);
    lines
        .nth(1)
        .and_then(|line| line.strip_prefix("version = \"")?.strip_suffix('"'))
        .map(String::from)
        .with_context(|| format!("Cargo.lock does not name {package}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn locked_versions_are_those_of_the_package_alone() {
        let lock = "[[package]]\nname = \"wasm-bindgen-test\"\nversion = \"0.3.1\"\n\n[[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.1\"\n";
        assert_eq!(locked_version(lock, "wasm-bindgen").unwrap(), "0.2.1");
        assert!(locked_version(lock, "yew").is_err());
    }

    #[test]
    fn tests_of_a_feature_are_found_wherever_they_stand() {
        let manifest = "[package]\nname = \"a\"\n\n[[test]]\nname = \"one\"\nrequired-features = [\"browser\"]\n\n\
            [[test]]\nname = \"two\"\n\n[[test]]\nrequired-features = [\"browser\"]\nname = \"three\"\n[lints]\nworkspace = true\n";
        assert_eq!(tests_with_feature(manifest, "browser"), ["one", "three"]);
        assert!(browser_tests().unwrap().contains(&"browser".to_owned()));
    }

    #[test]
    fn the_pinned_versions_agree() {
        assert!(wasm_bindgen_version().unwrap().starts_with("0.2."));
        assert!(binaryen_version().unwrap().parse::<u32>().unwrap() > 0);
    }
}
