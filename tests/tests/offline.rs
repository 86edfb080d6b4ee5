//! The page without a network, and a new build of it while a tab of the old one is open.

use std::path::{Path, PathBuf};

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use hushwright_tests::browser::{Page, built_page, copied_page};
use sha2::{Digest, Sha256};

/// Where the page is served: any folder of any host has to do.
const BELOW: &str = "a/b/";

/// Waits until the service worker serves this tab, with all files of its build kept.
fn wait_for_worker(page: &Page) {
    page.wait_until("a service worker", |page| {
        page.script("return navigator.serviceWorker.controller?.state === 'activated'", Vec::new()) == true
    });
}

/// Looks at the answer, its range and the plan: by the page's own program, the engine in a worker and the workshop.
fn use_everything(page: &Page) {
    assert!(page.text("#answer").contains("dBA"));
    page.text_when("#chance", |chance| chance.starts_with("limit"));
    page.script("location.hash = 'build'", Vec::new());
    page.wait_for("#plan-weight");
}

#[test]
fn once_visited_the_page_works_without_a_network_below_any_path() {
    let page = Page::serving_at(built_page(), BELOW);
    page.go("");
    page.text("#answer");
    wait_for_worker(&page);
    page.stop_server();
    let ask = "const done = arguments[0]; fetch('./nothing').then(() => done('answered'), () => done('no network'));";
    assert_eq!(page.script_async(ask), "no network");
    // A reload, and a visit in a new tab by a link.
    page.reload();
    use_everything(&page);
    page.go("improve");
    assert!(page.text("#answer").contains("dBA"));
    let icon = "const done = arguments[0]; Promise.all(['manifest.webmanifest', 'icons/whole-512.png'].map(name => fetch(name)))
        .then(answers => done(answers.every(answer => answer.ok)), () => done(false));";
    assert_eq!(page.script_async(icon), true, "what an installed page needs is kept too");
}

#[test]
fn a_tab_in_use_keeps_its_build_and_the_next_visit_gets_the_new_one() {
    let newer = newer_build();
    let page = Page::serving_at(built_page(), BELOW);
    page.go("");
    page.text("#answer");
    wait_for_worker(&page);
    let old = build(&page);
    page.serve_instead(newer.clone());
    page.script("navigator.serviceWorker.getRegistration().then(registration => registration.update())", Vec::new());
    let said = page.text("#newer");
    assert!(said.contains("next load"), "{said}");
    // The host has the old programs no more, and this tab, which has not been reloaded, still gets them.
    assert_eq!(build(&page), old);
    let gone = "const done = arguments[0]; fetch(programs.workshop, { cache: 'reload' }).then(answer => done(answer.status), () => done(0));";
    assert_eq!(page.script_async(gone), 200);
    page.fill("#inner-length_mm", "810");
    use_everything(&page);
    assert_eq!(page.count("#cannot-start, #recovery:not([hidden])"), 0);
    // No tab of the old build is left by the next visit.
    page.go("");
    use_everything(&page);
    assert_ne!(build(&page), old);
    assert_eq!(page.property("#newer", "textContent"), "");
    let caches = "const done = arguments[0]; caches.keys().then(done);";
    page.wait_until("the old files to be dropped", |page| {
        page.script_async(caches)
            .as_array()
            .is_some_and(|names| names.len() == 1 && !names[0].as_str().unwrap_or(&old).ends_with(&old))
    });
    page.stop_server();
    page.reload();
    use_everything(&page);
    assert_ne!(build(&page), old);
    std::fs::remove_dir_all(newer).expect("a folder of this test");
}

/// The mark of the build that a tab shows.
fn build(page: &Page) -> String {
    page.script("return document.querySelector('meta[name=build]').content", Vec::new()).as_str().expect("a text").to_owned()
}

/// The built page as a later build would be: the workshop has another name, and what names it has followed.
fn newer_build() -> PathBuf {
    let folder = copied_page("newer");
    let is_workshop = |name: &str| name.starts_with("workshop-") && !name.ends_with("_bg.wasm");
    let names = std::fs::read_dir(&folder)
        .expect("a folder")
        .map(|entry| entry.expect("a file").file_name().into_string().expect("a name"));
    let old_name = names.into_iter().find(|name| is_workshop(name)).expect("a workshop");
    let new_name = "workshop-0123456789abcdef.js";
    std::fs::rename(folder.join(&old_name), folder.join(new_name)).expect("a file of this test");
    let html = read(&folder.join("index.html"));
    let mark = html.split_once("name=build content=").expect("a mark").1.split('>').next().expect("its end").to_owned();
    let script =
        html.split("<script>").find(|script| script.starts_with("window.programs")).expect("a script with the programs' names");
    let script = script.split_once("</script>").expect("its end").0;
    let new_script = script.replace(&old_name, new_name);
    assert_ne!(script, new_script);
    let new_mark = "fedcba9876543210";
    let new_html = html
        .replace(script, &new_script)
        .replace(&sha256(script.as_bytes()), &sha256(new_script.as_bytes()))
        .replace(&mark, new_mark);
    write(&folder.join("index.html"), &new_html);
    let worker = read(&folder.join("sw.js"));
    let new_worker = worker
        .replace(&old_name, new_name)
        .replace(&sha256(html.as_bytes()), &sha256(new_html.as_bytes()))
        .replace(&mark, new_mark);
    assert_ne!(worker, new_worker);
    write(&folder.join("sw.js"), &new_worker);
    folder
}

/// As policies and service workers write it.
fn sha256(bytes: &[u8]) -> String {
    format!("sha256-{}", BASE64_STANDARD.encode(Sha256::digest(bytes)))
}

fn read(path: &Path) -> String {
    std::fs::read_to_string(path).expect("a file of the page")
}

fn write(path: &Path, text: &str) {
    std::fs::write(path, text).expect("a file of this test");
}
