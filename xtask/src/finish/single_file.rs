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
    parts.insert(START.to_owned(), Part { kind: "text/javascript", content: start.text.as_bytes().to_vec() });
    let mut scripts = String::new();
    for (name, part) in in_order(parts)? {
        let packed = BASE64_STANDARD.encode(compressed(&part.content)?);
        write!(scripts, "<script type=application/octet-stream data-packed={name} data-kind={}>{packed}</script>", part.kind)?;
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

/// A file that is packed.
struct Part {
    kind: &'static str,
    content: Vec<u8>,
}

impl Part {
    fn text(&self) -> Option<&str> {
        (self.kind == "text/javascript").then(|| std::str::from_utf8(&self.content).ok()).flatten()
    }
}

/// All scripts and programs in `folder`, by the name that the page has for them.
fn parts(folder: &Path) -> Result<BTreeMap<String, Part>> {
    let mut parts = BTreeMap::new();
    for path in offline::files(folder)? {
        let name = offline::relative(folder, &path);
        let kind = match path.extension().and_then(|extension| extension.to_str()) {
            Some("wasm") => "application/wasm",
            Some("js") if name != "sw.js" => "text/javascript",
            _ => continue,
        };
        parts.insert(format!("./{name}"), Part { kind, content: std::fs::read(&path)? });
    }
    Ok(parts)
}

/// The parts, each behind all that it refers to, and with references as `unpack.js` reads them.
fn in_order(mut waiting: BTreeMap<String, Part>) -> Result<Vec<(String, Part)>> {
    let names: Vec<String> = waiting.keys().cloned().collect();
    for part in waiting.values_mut() {
        let Some(text) = part.text() else { continue };
        part.content = names.iter().fold(text.to_owned(), |text, name| referred(&text, name)).into_bytes();
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
    script.replace(&format!("'{name}'"), &address).replace(&format!("new URL('{bare}', import.meta.url)"), &address)
}

fn compressed(bytes: &[u8]) -> Result<Vec<u8>> {
    let mut writer = GzEncoder::new(Vec::new(), Compression::best());
    writer.write_all(bytes)?;
    Ok(writer.finish()?)
}
