//! The view Share: link, code to scan, files, paper, and what is opened there; in headless Chromium.

use fantoccini::key::Key;
use hushwright::design::{Design, examples, file, link, run_in_box};
use hushwright_tests::browser::{LAPTOP, PHONE, PROJECTOR, Page, Scheme};
use serde_json::json;

/// Opens Share with a design in a fresh profile.
fn opened(design: &Design) -> Page {
    let page = Page::open(&format!("share/{}", link::encode(design)));
    page.wait_for("#code svg");
    page
}

/// The design that the address holds.
fn shown(page: &Page) -> Design {
    link::decode(page.fragment().trim_start_matches("share/")).expect("the page writes good links")
}

/// Another design than the first example.
fn other() -> Design {
    examples().pop().expect("examples")
}

/// The address of the page without its fragment.
fn base(page: &Page) -> String {
    page.url().split('#').next().unwrap_or_default().to_owned()
}

/// Notes everything that is given to the browser to be saved.
fn watch_saving(page: &Page) {
    let watch = "window.saved = []; HTMLAnchorElement.prototype.click = function () { \
                 const entry = { name: this.download }, blob = blobs[this.href]; entry.kind = blob.type; \
                 blob.text().then(text => { entry.text = text; window.saved.push(entry); }); };";
    page.keep_blobs();
    page.script(watch, Vec::new());
}

/// Name, kind and text of what a click on `button` saves.
fn saved_by(page: &Page, button: &str) -> [String; 3] {
    let count = || page.script("return window.saved.length", Vec::new()).as_u64().expect("a number");
    let before = count();
    page.click(button);
    page.wait_until("what is saved", |_| count() > before);
    let entry = page.script("return window.saved.at(-1)", Vec::new());
    ["name", "kind", "text"].map(|key| entry[key].as_str().expect("a text").to_owned())
}

/// A file of this name on the disk, for the page to open.
fn on_disk(name: &str, content: &[u8]) -> String {
    let folder = std::env::temp_dir().join(format!("hushwright-share-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let path = folder.join(name);
    std::fs::write(&path, content).expect("the file can be written");
    path.to_str().expect("a plain path").to_owned()
}

/// The link on the page is the address of this view's design; it is copied as it is, and the head of the page copies the same.
#[test]
fn the_link_is_shown_copied_and_says_who_can_open_it() {
    let page = opened(&run_in_box());
    let whole = format!("{}#{}", base(&page), link::encode(&run_in_box()));
    assert_eq!(page.value("#whole-link"), whole);
    assert!(page.text("#link-hint").starts_with(&format!("{} characters", whole.len())));
    let clipboard = "Object.defineProperty(navigator, 'clipboard', { value: { writeText: text => { window.copied = text; \
                     return Promise.resolve(); } } })";
    page.script(clipboard, Vec::new());
    for button in ["#copy-whole-link", "#copy-link"] {
        page.click(button);
        page.text_when(button, |text| text == "Link copied");
        assert_eq!(
            page.script("const copied = window.copied; window.copied = null; return copied", Vec::new()),
            whole,
            "{button}"
        );
    }
    // The page is served on this machine, and says so in both places.
    assert!(page.text("#link-reach").contains("this device") && page.text("#code-reach").contains("phone"));
    // A page that names its public address gives that one away.
    let name =
        "document.head.append(Object.assign(document.createElement('link'), { rel: 'canonical', href: 'https://box.example/' }))";
    page.script(name, Vec::new());
    page.fill("#name", "Ours");
    page.wait_until("the public address", |page| page.value("#whole-link").starts_with("https://box.example/#v1."));
    assert_eq!(link::decode(page.value("#whole-link").split_once('#').expect("a fragment").1), Ok(shown(&page)));
    page.wait_until("no warning", |page| page.count("#link-reach, #code-reach") == 0);
    page.click("#copy-link");
    page.wait_until("the same copied", |page| page.script("return window.copied", Vec::new()) == page.value("#whole-link"));
    page.script("document.querySelector('#code').scrollIntoView({ block: 'center' })", Vec::new());
    page.wait_until("a code of it", |page| page.scanned() == [page.value("#whole-link")]);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// What a second reader sees on the screen is the link: for every example, on every screen, in both themes.
#[test]
fn the_code_on_the_screen_says_the_link() {
    for design in examples() {
        let page = opened(&design);
        // Phones have some three pixels of their own to one of a page.
        for (size, pixels) in [(LAPTOP, 1.0), (PHONE, 3.0), (PROJECTOR, 1.0)] {
            for scheme in [Scheme::Light, Scheme::Dark] {
                page.move_to_screen(size, pixels);
                page.prefer(scheme);
                let whole = page.value("#whole-link");
                page.script("document.querySelector('#code').scrollIntoView({ block: 'center' })", Vec::new());
                page.wait_until(&format!("{} read at {size:?}, {scheme:?}", design.name), |page| {
                    page.scanned() == [whole.clone()]
                });
            }
        }
        assert_eq!(page.console_errors(), Vec::<String>::new(), "{}", design.name);
    }
}

/// Over the whole window: as large as fits, black on white in the dark too; Escape closes it, and the focus goes back.
#[test]
fn the_code_fills_the_window() {
    let page = opened(&run_in_box());
    page.prefer(Scheme::Dark);
    for (size, pixels) in [(PROJECTOR, 1.0), (LAPTOP, 1.0), (PHONE, 3.0)] {
        page.move_to_screen(size, pixels);
        page.click("#code-large");
        page.wait_for("#large-code[open]");
        let side =
            "const { width, height } = document.querySelector('#large-code svg').getBoundingClientRect(); return [width, height]";
        let side: Vec<f64> = serde_json::from_value(page.script(side, Vec::new())).expect("two numbers");
        let room = f64::from(size.0.min(size.1));
        assert!(side[0] == side[1] && side[0] > 0.8 * room && side[0] <= room, "{side:?} at {size:?}");
        let whole = page.value("#whole-link");
        page.wait_until("it is read", |page| page.scanned() == [whole.clone()]);
        assert_eq!(page.accessibility_violations(), Vec::<String>::new());
        if size == LAPTOP {
            page.click("#large-code-close");
        } else {
            page.press("#large-code-close", &char::from(Key::Escape).to_string());
        }
        page.wait_until("closed", |page| page.count("#large-code[open]") == 0);
        assert_eq!(page.focused(), "code-large");
    }
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// The device's own sheet is offered where it works, gets name and link, and what it answers is told quietly.
#[test]
fn the_devices_own_sheet_is_used_where_there_is_one() {
    let page = opened(&run_in_box());
    assert_eq!(page.count("#share-sheet"), 0, "this browser has none");
    let stub = "window.answer = 'AbortError'; navigator.share = data => { window.shared = data; return window.answer ? \
                Promise.reject(new DOMException('', window.answer)) : Promise.resolve(); }; \
                navigator.canShare = data => !window.cannot && data.url.startsWith('http');";
    page.run_first(stub);
    page.go(&format!("share/{}", link::encode(&run_in_box())));
    for (answer, said) in [("AbortError", "Not shared"), ("NotAllowedError", "can be copied"), ("", "Passed on")] {
        page.script("window.answer = arguments[0]", vec![json!(answer)]);
        page.click("#share-sheet");
        page.text_when("#share-said", |text| text.contains(said));
        let shared = page.script("return window.shared", Vec::new());
        assert_eq!(shared, json!({ "title": run_in_box().name, "url": page.value("#whole-link") }));
    }
    assert_eq!(page.console_errors(), Vec::<String>::new());
    page.run_first(&format!("{stub} window.cannot = true;"));
    page.go(&format!("share/{}", link::encode(&run_in_box())));
    page.wait_for("#copy-whole-link");
    assert_eq!(page.count("#share-sheet"), 0, "it takes no links");
}

/// Files: the design as the core writes it, its levels as in Estimate, the code as a drawing.
#[test]
fn files_hold_what_is_shown() {
    let design = other();
    let page = opened(&design);
    page.text_when("#chance", |chance| chance.starts_with("limit"));
    watch_saving(&page);
    let [name, kind, text] = saved_by(&page, "#save-design");
    assert!(name.ends_with("-box.json") && kind == "application/json", "{name} {kind}");
    assert_eq!((text.clone(), file::read(&text)), (file::write(&design), Ok(design)));
    let [_, kind, levels] = saved_by(&page, "#save-levels");
    assert_eq!((kind.as_str(), levels.lines().count()), ("text/csv", 28));
    let [name, kind, code] = saved_by(&page, "#code-save");
    assert!(
        name.ends_with("-code.svg") && kind == "image/svg+xml" && code.starts_with("<svg xmlns="),
        "{name} {kind} {code:.80}"
    );
    page.click("#to-estimate");
    assert_eq!(saved_by(&page, "#save-table")[2], levels, "the same as in Estimate");
    page.script("URL.createObjectURL = () => { throw new Error('no'); }", Vec::new());
    page.click("#to-share");
    page.click("#save-design");
    page.text_when("#file-refused", |text| text.contains("link can be copied"));
    assert_eq!(page.accessibility_violations(), Vec::<String>::new());
}

/// A file opens as one step; what is no design says why, and changes nothing.
#[test]
fn a_file_opens_and_what_is_none_is_refused() {
    let page = opened(&run_in_box());
    for (name, content, says) in [
        ("large.json", vec![b' '; 200_001], "was not read"),
        ("picture.json", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR".to_vec(), "no text"),
        ("cut.json", file::write(&other()).as_bytes()[..300].to_vec(), "no file of a design"),
        ("newer.json", b"{\"hushwright\": 99}".to_vec(), "newer version"),
    ] {
        page.press("#open-file", &on_disk(name, &content));
        page.text_when("#open-file-error", |text| text.contains(says));
        assert_eq!(page.attribute("#open-file", "aria-describedby").as_deref(), Some("open-file-error"), "{name}");
        assert_eq!(shown(&page), run_in_box(), "{name}");
    }
    assert_eq!(page.accessibility_violations(), Vec::<String>::new());
    page.press("#open-file", &on_disk("good.json", file::write(&other()).as_bytes()));
    page.text_when("#opened", |text| text.contains(&other().name));
    page.wait_until("it in the link", |page| shown(page) == other());
    assert_eq!(page.count("#open-file-error"), 0);
    page.click("#undo");
    page.wait_until("what was there before", |page| shown(page) == run_in_box());
    assert_eq!(page.value("#whole-link"), format!("{}#{}", base(&page), link::encode(&run_in_box())));
    // Dropped on the section.
    let drop = "const dropped = new DataTransfer(); dropped.items.add(new File([arguments[0]], 'good.json')); \
                document.querySelector('#open-title').dispatchEvent(new DragEvent('drop', { dataTransfer: dropped, bubbles: true, cancelable: true }))";
    page.script(drop, vec![json!(file::write(&other()))]);
    page.wait_until("it in the link", |page| shown(page) == other());
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// Links in all their forms and texts of files open from one field; what cannot be opened stays there with what is wrong.
#[test]
fn what_is_pasted_opens_or_stays_with_a_message() {
    let page = opened(&run_in_box());
    let (first, second) = (link::encode(&run_in_box()), link::encode(&other()));
    for (text, says) in [
        ("", "nothing here"),
        ("12 mm", "neither a link"),
        ("https://box.example/", "no design in this address"),
        (&second[..second.len() - 3], "cut short"),
        ("v9.e30.a3b4c5d6", "newer version"),
        ("{\"name\": 7}", "cannot be used"),
    ] {
        page.fill("#open-text", text);
        page.click("#open-pasted");
        page.text_when("#open-text-error", |message| message.contains(says));
        assert_eq!((page.value("#open-text").as_str(), shown(&page)), (text, run_in_box()));
        page.press("#open-text", " ");
        page.wait_until("no message while it is put right", |page| page.count("#open-text-error") == 0);
        page.fill("#open-text", &char::from(Key::Delete).to_string());
    }
    for text in [
        second.clone(),
        format!("https://box.example/#build/{second}"),
        format!("#compare/{second}/{first}"),
        file::write(&other()).replace('\n', " "),
    ] {
        page.fill("#open-text", &text);
        page.click("#open-pasted");
        page.text_when("#opened", |said| said.contains(&other().name) && said.contains("Undo"));
        page.wait_until("it in the link", |page| shown(page) == other());
        assert_eq!(page.value("#open-text"), "");
        assert_eq!(page.text("#opened").contains("first in that link"), text.starts_with("#compare"));
        page.click("#undo");
        page.wait_until("what was there before", |page| shown(page) == run_in_box());
    }
    page.fill("#open-text", &first);
    page.click("#open-pasted");
    page.text_when("#opened", |said| said.contains("open already"));
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// On paper: the name, the link in words and the code, and nothing to press.
#[test]
fn paper_holds_link_and_code() {
    let page = opened(&run_in_box());
    page.script("window.printed = 0; window.print = () => { window.printed += 1 }", Vec::new());
    page.click("#print-share");
    assert_eq!(page.script("return window.printed", Vec::new()), 1);
    let whole = page.value("#whole-link");
    page.prefer(Scheme::Dark);
    page.lay_out_for_paper(true);
    let seen = "return [...document.querySelectorAll(arguments[0])].filter(e => e.checkVisibility()).length";
    assert_eq!(page.script(seen, vec![json!(".send textarea, .send button, .send .kept, .notice")]), 0);
    assert_eq!(page.script(seen, vec![json!("#name, .send .on-paper, #code svg")]), 3);
    assert_eq!(page.text(".send .on-paper"), whole);
    page.script("document.querySelector('#code').scrollIntoView({ block: 'center' })", Vec::new());
    page.wait_until("the code is read", |page| page.scanned() == [whole.clone()]);
    page.lay_out_for_paper(false);
    page.click("#share-to-build");
    page.wait_for("#print-build");
    assert_eq!(page.fragment(), format!("build/{}", link::encode(&run_in_box())));
}

/// A link that cannot be opened is not lost, whatever else is done, until it is put away.
#[test]
fn a_link_that_cannot_be_opened_is_kept() {
    let page = Page::open("build/v9.QUJD.00000000");
    let kept = |page: &Page| page.value("#refused-link");
    let whole = format!("{}#v9.QUJD.00000000", base(&page));
    assert_eq!(kept(&page), whole);
    assert!(page.text("#link-notice").contains("newer version") && page.text("#link-notice").contains("first example"));
    page.fill("#name", "Ours");
    page.wait_until("another address", |page| page.fragment().starts_with("build/v1."));
    page.click("#undo");
    page.click("#reset");
    assert_eq!(kept(&page), whole);
    page.fill("#name", "Ours");
    page.reload();
    page.wait_until("the link after a reload", |page| page.count("#refused-link") == 1);
    assert_eq!((kept(&page), page.value("#name")), (whole.clone(), "Ours".to_owned()));
    assert!(!page.text("#link-notice").contains("first example"));
    let clipboard = "Object.defineProperty(navigator, 'clipboard', { value: { writeText: text => { window.copied = text; \
                     return Promise.resolve(); } } })";
    page.script(clipboard, Vec::new());
    page.click("#copy-refused");
    page.wait_until("it is copied", |page| page.script("return window.copied", Vec::new()) == whole);
    assert_eq!(page.accessibility_violations(), Vec::<String>::new());
    page.click("#link-notice-dismiss");
    page.wait_until("it is put away", |page| page.count("#link-notice") == 0);
    page.reload();
    page.text("#answer");
    assert_eq!((page.count("#link-notice"), page.console_errors()), (0, Vec::<String>::new()));
}

/// All views stand in the head on every screen, within the page, and the tabulator passes through them.
#[test]
fn every_view_is_reached_from_the_head_on_every_screen() {
    let page = Page::open("share");
    page.wait_for("#whole-link");
    for size in [PHONE, (360, 740), (768, 1024), LAPTOP, PROJECTOR] {
        page.resize(size);
        let places = "return [...document.querySelectorAll('.head nav a')].map(a => { const r = a.getBoundingClientRect(); \
                      return [r.left, r.right, r.top, r.height, document.elementFromPoint((r.left + r.right) / 2, (r.top + r.bottom) / 2) === a ? 1 : 0] })";
        let places: Vec<[f64; 5]> = serde_json::from_value(page.script(places, Vec::new())).expect("numbers");
        assert_eq!(places.len(), 6);
        for [left, right, top, height, is_on_top] in &places {
            assert!(*left >= 0.0 && *right <= f64::from(size.0) && *top == places[0][2], "{size:?}: {places:?}");
            assert!(*height >= 24.0 && *is_on_top == 1.0, "{size:?}: {places:?}");
        }
        let wide = page.script("return document.scrollingElement.scrollWidth", Vec::new());
        assert!(wide.as_u64() <= Some(u64::from(size.0)), "{size:?}: {wide} px wide");
        page.script("document.querySelector('#to-estimate').focus()", Vec::new());
        for view in ["build", "improve", "compare", "learn", "share"] {
            let from = page.focused();
            page.press(&format!("#{from}"), &char::from(Key::Tab).to_string());
            assert_eq!(page.focused(), format!("to-{view}"), "{size:?}");
        }
    }
}
