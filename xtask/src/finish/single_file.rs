//! The page as one file, which opens from a folder, a stick or a message, without a server and without a network.
//!
//! Scripts, programs and pictures of the finished page are packed into it; `web/hosting/unpack.js` gives each an address within the
//! browser's memory when the page is opened.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use flate2::Compression;
use flate2::write::GzEncoder;

use super::markup::{elements, without};
use super::policy::{self, Form, policy};
use super::{PAGE, offline, with_head};

const UNPACK: &str = include_str!("../../../web/hosting/unpack.js");
/// The name of the file, beside the page.
const NAME: &str = "hushwright.html";
/// What the unpacked page starts with.
const START: &str = "start";
/// Links of the page that fetch something, or say something of a page that is served.
const LINKS_TO_FILES: [&str; 5] = ["modulepreload", "preload", "manifest", "apple-touch-icon", "icon"];

/// Makes one file of the finished page in `folder` and puts it there; returns where.
///
/// # Errors
/// When a file is missing, or the page is not as this expects it.
pub fn write(folder: &Path) -> Result<PathBuf> {
    let path = folder.join(NAME);
    let html = std::fs::read_to_string(folder.join(PAGE)).context("there is no page to make one file of")?;
    std::fs::write(&path, page(folder, &html)?).with_context(|| format!("cannot write {}", path.display()))?;
    Ok(path)
}

fn page(folder: &Path, html: &str) -> Result<String> {
    let [start] =
        &elements(html, "script").into_iter().filter(|script| script.attribute("type") == Some("module")).collect::<Vec<_>>()[..]
    else {
        bail!("the page is started by more or fewer than one module");
    };
    let mut gone = vec![start.place.clone()];
    gone.extend(
        elements(html, "script")
            .into_iter()
            .filter(|script| script.attribute("id") == Some("offline"))
            .map(|script| script.place),
    );
    gone.extend(elements(html, "meta").into_iter().filter(|meta| meta.attribute("http-equiv").is_some()).map(|meta| meta.place));
    let mut icon = String::new();
    for link in elements(html, "link") {
        let kind = link.attribute("rel").unwrap_or_default();
        if kind == "icon" {
            let name = link.attribute("href").context("the icon has no address")?;
            let picture = std::fs::read(folder.join(name)).with_context(|| format!("cannot read {name}"))?;
            icon =
                format!("<link rel=icon type=image/svg+xml href=data:image/svg+xml;base64,{}>", BASE64_STANDARD.encode(picture));
        }
        if LINKS_TO_FILES.contains(&kind) {
            gone.push(link.place);
        }
    }
    let mut parts = parts(folder)?;
    parts.insert(START.to_owned(), Part { kind: SCRIPT, form: IN_MEMORY, content: start.text.as_bytes().to_vec() });
    let mut scripts = String::new();
    for (name, part) in in_order(parts)? {
        let packed = BASE64_STANDARD.encode(compressed(&part.content)?);
        let Part { kind, form, .. } = part;
        write!(
            scripts,
            "<script type=application/octet-stream data-packed={name} data-kind={kind} data-form={form}>{packed}</script>"
        )?;
    }
    write!(scripts, "<script>{UNPACK}</script>")?;
    let end = "</body>";
    let html = without(html, gone);
    if html.matches(end).count() != 1 {
        bail!("the page has not one {end}");
    }
    let html = html.replace(end, &format!("{scripts}{end}"));
    with_head(&html, &(policy::element(&policy(&html, Form::SingleFile)) + &icon))
}

/// Kinds of parts, and the forms that their addresses get.
const SCRIPT: &str = "text/javascript";
const WASM: &str = "application/wasm";
const IN_MEMORY: &str = "blob";
const HELD: &str = "data";

/// A file that is packed.
struct Part {
    kind: &'static str,
    form: &'static str,
    content: Vec<u8>,
}

impl Part {
    fn text(&self) -> Option<&str> {
        (self.kind == SCRIPT).then(|| std::str::from_utf8(&self.content).ok()).flatten()
    }
}

/// All scripts and programs in `folder`, by the name that the page has for them.
fn parts(folder: &Path) -> Result<BTreeMap<String, Part>> {
    let mut parts = BTreeMap::new();
    for path in offline::files(folder)? {
        let name = offline::relative(folder, &path);
        let (kind, form) = match path.extension().and_then(|extension| extension.to_str()) {
            Some("wasm") => (WASM, HELD),
            Some("js") if name != "sw.js" => (SCRIPT, IN_MEMORY),
            _ => continue,
        };
        parts.insert(format!("./{name}"), Part { kind, form, content: std::fs::read(&path)? });
    }
    let loader = parts.keys().find(|name| name.starts_with("./engine_loader-")).cloned().context("there is no worker")?;
    let content = whole_worker(&loader, &parts)?.into_bytes();
    parts.insert(loader, Part { kind: SCRIPT, form: HELD, content });
    Ok(parts)
}

/// The worker's script with what it imports in it: from an address that holds it a script can import nothing.
fn whole_worker(loader: &str, parts: &BTreeMap<String, Part>) -> Result<String> {
    let text = |name: &str| parts.get(name).and_then(Part::text).with_context(|| format!("{name} is no script of the page"));
    let imported = text(loader)?.trim().strip_prefix("import init from '").and_then(|rest| rest.strip_suffix("';await init();"));
    let engine = text(imported.context("the worker is started otherwise than by one import and its call")?)?;
    if !engine.contains("__wbg_init as default") {
        bail!("the engine's script exports another beginning than __wbg_init");
    }
    Ok(format!("{engine}\nawait __wbg_init();\n"))
}

/// The parts, each behind all that it refers to, and with references as `unpack.js` reads them.
fn in_order(mut waiting: BTreeMap<String, Part>) -> Result<Vec<(String, Part)>> {
    let names: Vec<String> = waiting.keys().cloned().collect();
    for part in waiting.values_mut() {
        let Some(text) = part.text() else { continue };
        let text = names.iter().fold(text.to_owned(), |text, name| referred(&text, name));
        // A program calls what it imports by the names that its script had, which are keys there.
        let keys = |name: &String| text.matches(&format!("\"{name}\":")).count();
        let is_missed = |name: &String| text.matches(name).count() != text.matches(&reference(name)).count() + keys(name);
        if let Some(name) = names.iter().filter(|name| name.starts_with("./")).find(|name| is_missed(name)) {
            bail!("{name} is referred to in a way that one file cannot follow");
        }
        part.content = text.into_bytes();
    }
    let mut placed: Vec<(String, Part)> = Vec::new();
    while !waiting.is_empty() {
        let is_free = |part: &Part| !part.text().is_some_and(|text| waiting.keys().any(|name| text.contains(&reference(name))));
        let free = waiting.iter().find(|(_, part)| is_free(part)).map(|(name, _)| name.clone());
        let name = free.with_context(|| format!("{names:?} refer to each other in a circle"))?;
        placed.extend(waiting.remove_entry(&name));
    }
    Ok(placed)
}

/// A place for the address of `name`.
fn reference(name: &str) -> String {
    format!("¤{name}¤")
}

/// A script in which `name`, as scripts name files beside them, has become a reference.
fn referred(script: &str, name: &str) -> String {
    let address = format!("'{}'", reference(name));
    let bare = name.trim_start_matches("./");
    script
        .replace(&format!("'{name}'"), &address)
        .replace(&format!("from \"{name}\""), &format!("from {address}"))
        .replace(&format!("new URL('{bare}', import.meta.url)"), &address)
}

fn compressed(bytes: &[u8]) -> Result<Vec<u8>> {
    let mut writer = GzEncoder::new(Vec::new(), Compression::best());
    writer.write_all(bytes)?;
    Ok(writer.finish()?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn script(text: &str) -> Part {
        Part { kind: SCRIPT, form: IN_MEMORY, content: text.into() }
    }

    #[test]
    fn what_is_referred_to_stands_first() {
        let parts = BTreeMap::from([
            ("start".to_owned(), script("import init from './app.js'; await init({ module_or_path: './app_bg.wasm' });")),
            (
                "./app.js".to_owned(),
                script("import { plan } from './snippets/inline0.js'; import * as other from \"./snippets/inline0.js\""),
            ),
            ("./app_bg.wasm".to_owned(), Part { kind: WASM, form: HELD, content: vec![0] }),
            ("./engine.js".to_owned(), script("new URL('engine_bg.wasm', import.meta.url)")),
            ("./engine_bg.wasm".to_owned(), Part { kind: WASM, form: HELD, content: vec![0] }),
            ("./snippets/inline0.js".to_owned(), script("export const plan = 1;")),
        ]);
        let ordered = in_order(parts).unwrap();
        let place = |name: &str| ordered.iter().position(|(other, _)| other == name).unwrap();
        for (first, second) in [
            ("./snippets/inline0.js", "./app.js"),
            ("./app.js", "start"),
            ("./app_bg.wasm", "start"),
            ("./engine_bg.wasm", "./engine.js"),
        ] {
            assert!(place(first) < place(second), "{first} before {second}");
        }
        assert_eq!(ordered[place("./engine.js")].1.text(), Some("'¤./engine_bg.wasm¤'"));
        let circle = BTreeMap::from([("./a.js".to_owned(), script("'./b.js'")), ("./b.js".to_owned(), script("'./a.js'"))]);
        assert!(in_order(circle).is_err());
    }

    #[test]
    fn a_worker_holds_what_it_imports() {
        let parts = |engine: &str| {
            BTreeMap::from([
                ("./engine_loader-1.js".to_owned(), script("import init from './engine-2.js';await init();")),
                ("./engine-2.js".to_owned(), script(engine)),
            ])
        };
        let engine = "async function __wbg_init() {}\nexport { __wbg_init as default };";
        assert_eq!(whole_worker("./engine_loader-1.js", &parts(engine)).unwrap(), format!("{engine}\nawait __wbg_init();\n"));
        assert!(whole_worker("./engine_loader-1.js", &parts("export default 1;")).is_err());
    }
}
