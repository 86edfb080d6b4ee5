//! What trunk leaves to be done on a built page: names by content, the build's mark, the public address, the policy, the service
//! worker. Trunk calls it as a hook, so that a page that is served and one that is published are the same.

mod markup;
mod names;
mod offline;
mod policy;
mod single_file;

use std::fmt::Write as _;
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
        write!(head, "<link rel=canonical href={}>", markup::quoted(address))?;
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
            write!(sums, "\n{name} {}", policy::sha256(&std::fs::read(&path)?))?;
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

#[cfg(test)]
mod tests {
    use super::*;

    /// A folder as trunk leaves it, with as little in it as that can be.
    fn built(name: &str, wasm: &[u8]) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("hushwright-finish-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let html = "<!doctype html><html lang=en><meta charset=utf-8><title>x</title><style>a{}</style>\
            <script>window.programs={engine:`./engine.js`,worker:`./engine_loader.js`,workshop:`./workshop.js`}</script></html>";
        for (file, content) in [
            (PAGE, html.as_bytes()),
            ("engine.js", b"new URL('engine_bg.wasm', import.meta.url)"),
            ("engine_bg.wasm", wasm),
            ("engine_loader.js", b"import init from './engine.js';await init();"),
            ("workshop.js", b"new URL('workshop_bg.wasm', import.meta.url)"),
            ("workshop_bg.wasm", b"wasm"),
        ] {
            std::fs::write(folder.join(file), content).unwrap();
        }
        folder
    }

    /// The finished page, its worker, and the names of all files.
    fn finished(name: &str, wasm: &[u8], address: Option<&str>) -> [String; 3] {
        let folder = built(name, wasm);
        finish(&folder, address).unwrap();
        let read = |file: &str| std::fs::read_to_string(folder.join(file)).unwrap();
        let names = files(&folder).unwrap().iter().map(|path| offline::relative(&folder, path)).collect::<Vec<_>>().join("\n");
        let result = [read(PAGE), read("sw.js"), names];
        std::fs::remove_dir_all(folder).unwrap();
        result
    }

    #[test]
    fn a_finished_page_names_what_is_there_and_its_worker_keeps_it() {
        let [html, worker, names] = finished("whole", b"wasm", Some("https://example.org/?a&b"));
        let policy_of = html.find("http-equiv").expect("a policy");
        assert!(policy_of < html.find("<title>").expect("a title") && policy_of > html.find("charset").expect("an encoding"));
        assert!(html.contains("<link rel=canonical href=\"https://example.org/?a&amp;b\">"), "{html}");
        for name in names.lines().filter(|name| ![PAGE, "sw.js"].contains(name)) {
            assert!(worker.contains(&format!("\"{name}\": \"sha256-")), "{name} in {worker}");
            assert!(name.ends_with("_bg.wasm") || html.contains(&format!("`./{name}`")), "{name} in {html}");
        }
        assert!(worker.contains("\"./\": \"sha256-") && !worker.contains("\"sw.js\""));
        assert!(!names.lines().any(|name| name == "engine.js" || name == "workshop_bg.wasm"), "{names}");
        assert!(!finished("nowhere", b"wasm", None)[0].contains("canonical"));
    }

    #[test]
    fn another_content_is_another_name_and_another_build() {
        let mark =
            |html: &str| html.split_once("name=build content=").and_then(|(_, rest)| rest.split_once('>')).unwrap().0.to_owned();
        let [html, _, names] = finished("one", b"wasm", None);
        let [same, _, same_names] = finished("same", b"wasm", None);
        let [other, _, other_names] = finished("other", b"mwas", None);
        assert_eq!((&html, &names), (&same, &same_names));
        let begins = |names: &str, start: &str| names.lines().find(|name| name.starts_with(start)).unwrap().to_owned();
        for program in ["engine-", "engine_loader-"] {
            assert_ne!(begins(&names, program), begins(&other_names, program));
        }
        assert_eq!(begins(&names, "workshop-"), begins(&other_names, "workshop-"));
        assert_ne!(mark(&html), mark(&other));
        assert_ne!(mark(&html), mark(&finished("address", b"wasm", Some("https://example.org/"))[0]));
    }

    #[test]
    fn a_page_that_is_not_as_expected_is_refused() {
        let folder = built("strange", b"wasm");
        let html = std::fs::read_to_string(folder.join(PAGE)).unwrap();
        std::fs::write(folder.join(PAGE), html.replace("<meta charset=utf-8>", "")).unwrap();
        let complaint = finish(&folder, None).unwrap_err().to_string();
        assert!(complaint.contains("charset"), "{complaint}");
        std::fs::remove_dir_all(folder).unwrap();
    }
}
