//! Designs kept on this device: kept, opened, renamed, deleted and put back; two windows that do not overwrite each other; a browser
//! that has no room or forbids it; records that nobody can read; in headless Chromium.

use fantoccini::key::Key;
use hushwright::design::{Design, examples, link, run_in_box};
use hushwright_tests::browser::{LAPTOP, PHONE, PROJECTOR, Page, Scheme};
use serde_json::{Value, json};

const NAME: &str = "Run-in box, ground floor";

/// Opens the view with a design in the address.
fn go(page: &Page, design: &Design) {
    page.go(&format!("share/{}", link::encode(design)));
    page.wait_for("#shelf");
}

fn opened(design: &Design) -> Page {
    let page = Page::blank();
    page.resize(LAPTOP);
    go(&page, design);
    page
}

/// The first example, so many mm longer inside.
fn longer(by_mm: f64) -> Design {
    let mut design = run_in_box();
    design.inner.length_mm += by_mm;
    design
}

fn named(design: &Design, name: &str) -> Design {
    Design { name: name.to_owned(), ..design.clone() }
}

/// The design that the address holds.
fn shown(page: &Page) -> Design {
    link::decode(page.fragment().trim_start_matches("share/")).expect("the page writes good links")
}

/// The names in the list.
fn names(page: &Page) -> Vec<String> {
    let code = "return [...document.querySelectorAll('.shelf-list bdi')].map(name => name.textContent)";
    serde_json::from_value(page.script(code, Vec::new())).expect("texts")
}

fn wait_for_names(page: &Page, wanted: &[&str]) {
    page.wait_until(&format!("{wanted:?} in the list"), |page| names(page) == wanted);
}

/// All that the browser keeps under the keys of kept designs.
fn records(page: &Page) -> Value {
    page.script("return Object.entries(localStorage).filter(([key]) => key.startsWith('hushwright-kept-')).sort()", Vec::new())
}

/// Presses the button of this name, as a screen reader has it, in the list.
fn press(page: &Page, name: &str) {
    let code = "const button = [...document.querySelectorAll('.shelf button')].find(button => \
                button.textContent.replace(/\\s+/g, ' ').trim() == arguments[0]); button?.scrollIntoView(); button?.click(); return !!button";
    assert_eq!(page.script(code, vec![name.into()]), json!(true), "no button {name}");
}

fn said(page: &Page, part: &str) -> String {
    page.text_when("#shelf-said", |text| text.contains(part))
}

fn standing(page: &Page, part: &str) {
    page.text_when("#shelf-standing", |text| text.contains(part));
}

#[test]
fn a_design_is_kept_opened_renamed_deleted_and_put_back() {
    let design = run_in_box();
    let page = opened(&design);
    page.put_off(50);
    standing(&page, "Nothing is kept here yet");
    page.click("#shelf-keep");
    wait_for_names(&page, &[NAME]);
    said(&page, "is kept");
    standing(&page, "is kept here, as");
    assert_eq!(page.count(".shelf-list svg[aria-hidden=true] path"), 7, "a lining, four sheets, a fill; the lid");
    // The year of the clock, whatever it is.
    let year = page.script("return String(new Date().getFullYear())", Vec::new());
    assert!(page.text(".shelf-list .hint").contains(year.as_str().unwrap()), "{}", page.text(".shelf-list .hint"));
    let other = examples().remove(1);
    go(&page, &other);
    standing(&page, "differs from");
    page.click("#shelf-keep");
    wait_for_names(&page, &[&other.name, NAME]);
    // Opening is one step, and undone by one.
    press(&page, &format!("Open “{NAME}”"));
    page.wait_until("the design opened", |page| shown(page) == design);
    standing(&page, NAME);
    page.click("#undo");
    page.wait_until("the design before", |page| shown(page) == other);
    page.click("#redo");
    page.wait_until("the design opened", |page| shown(page) == design);
    // The name changes in the record and, where it is the same, in the design on the page.
    press(&page, &format!("Rename “{NAME}”"));
    page.wait_until("the field", |page| page.focused() == "shelf-name");
    page.press("#shelf-name", &format!("{}a{}Cellar{}", char::from(Key::Control), char::from(Key::Null), char::from(Key::Enter)));
    wait_for_names(&page, &[&other.name, "Cellar"]);
    page.wait_until("the name in the link", |page| shown(page) == named(&design, "Cellar"));
    standing(&page, "as “Cellar”");
    press(&page, "Rename “Cellar”");
    page.wait_until("the field again", |page| page.focused() == "shelf-name");
    page.press("#shelf-name", "Attic");
    // What is half typed outlives a change of the design on the page.
    page.fill("#name", "Loft");
    standing(&page, "differs from");
    assert_eq!(page.value("#shelf-name"), "Attic");
    page.fill("#name", "Cellar");
    standing(&page, "as “Cellar”");
    page.press("#shelf-name", &char::from(Key::Escape).to_string());
    page.wait_until("the focus back", |page| page.focused().starts_with("shelf-rename"));
    let before = records(&page);
    press(&page, "Delete “Cellar”");
    wait_for_names(&page, &[&other.name]);
    said(&page, "is deleted");
    page.wait_until("the focus on what puts it back", |page| page.focused() == "shelf-undo");
    page.click("#shelf-undo");
    wait_for_names(&page, &[&other.name, "Cellar"]);
    assert_eq!(records(&page), before);
    page.reload();
    wait_for_names(&page, &[&other.name, "Cellar"]);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

#[test]
fn the_same_name_is_asked_about() {
    let page = opened(&run_in_box());
    page.put_off(50);
    page.click("#shelf-keep");
    wait_for_names(&page, &[NAME]);
    go(&page, &longer(10.0));
    standing(&page, "differs from");
    page.click("#shelf-keep");
    page.wait_until("a question with the focus", |page| page.focused() == "shelf-replace");
    assert!(page.text("#shelf-question").contains("is kept already"));
    page.click("#shelf-leave");
    page.wait_until("no question", |page| page.count("#shelf-question") == 0 && page.focused() == "shelf-keep");
    assert_eq!(names(&page), [NAME]);
    page.click("#shelf-keep");
    page.click("#shelf-both");
    let second = format!("{NAME} 2");
    wait_for_names(&page, &[&second, NAME]);
    page.wait_until("the name on the page", |page| shown(page) == named(&longer(10.0), &second));
    standing(&page, &second);
    go(&page, &named(&longer(20.0), &second));
    page.click("#shelf-save");
    standing(&page, &second);
    assert_eq!(names(&page), [&second, NAME]);
    page.click("#shelf-undo");
    standing(&page, "differs");
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// The same kept design is open in two windows: lists follow, and neither overwrites what the other has saved.
#[test]
fn two_windows_do_not_overwrite_each_other() {
    let page = opened(&run_in_box());
    let first = page.window();
    page.click("#shelf-keep");
    wait_for_names(&page, &[NAME]);
    let second = page.open_window();
    go(&page, &run_in_box());
    standing(&page, "is kept here");
    page.turn_to(&first);
    go(&page, &longer(10.0));
    page.click("#shelf-save");
    standing(&page, "is kept here");
    let saved = records(&page);
    page.turn_to(&second);
    // By a storage event, without anything being done here.
    standing(&page, "has been changed in another tab or window");
    page.fill("#name", "Mine");
    page.wait_until("the design with its name", |page| shown(page).name == "Mine");
    page.click("#shelf-save");
    assert!(page.text("#shelf-question").contains("has been changed in another tab or window"));
    assert_eq!(records(&page), saved, "nothing is overwritten");
    page.click("#shelf-both");
    wait_for_names(&page, &["Mine", NAME]);
    page.turn_to(&first);
    wait_for_names(&page, &["Mine", NAME]);
    press(&page, "Delete “Mine”");
    wait_for_names(&page, &[NAME]);
    page.turn_to(&second);
    standing(&page, "has been deleted in another tab or window");
    assert_eq!(shown(&page), named(&run_in_box(), "Mine"), "the design itself stays where it is");
    page.click("#shelf-keep");
    wait_for_names(&page, &["Mine", NAME]);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

#[test]
fn a_browser_without_room_says_so_and_nothing_is_lost() {
    let page = opened(&run_in_box());
    page.click("#shelf-keep");
    wait_for_names(&page, &[NAME]);
    let before = records(&page);
    let fill = "for (let size = 1 << 22; size >= 1;) { try { localStorage.setItem('filler-' + size + '-' + localStorage.length, 'x'.repeat(size)) } \
                catch { size >>= 1 } }";
    page.script(fill, Vec::new());
    go(&page, &named(&longer(10.0), "A name of more letters than the one that is kept"));
    standing(&page, "differs");
    for button in ["#shelf-keep", "#shelf-save"] {
        page.click(button);
        assert!(said(&page, "no more room").contains("as a file"), "{button}");
        assert_eq!(records(&page), before, "{button}");
    }
    // What is deleted makes room, and goes back in.
    press(&page, &format!("Delete “{NAME}”"));
    wait_for_names(&page, &[]);
    page.click("#shelf-undo");
    wait_for_names(&page, &[NAME]);
    page.script(
        "Object.keys(localStorage).filter(key => key.startsWith('filler')).forEach(key => localStorage.removeItem(key))",
        Vec::new(),
    );
    page.click("#shelf-keep");
    wait_for_names(&page, &["A name of more letters than the one that is kept", NAME]);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// Chromium with blocked cookies throws, other browsers have nothing there.
#[test]
fn a_browser_that_forbids_it_says_so() {
    for getter in ["throw new DOMException('no', 'SecurityError')", "return null"] {
        let page = Page::blank();
        page.resize(LAPTOP);
        page.run_first(&format!("Object.defineProperty(window, 'localStorage', {{ get() {{ {getter} }} }})"));
        go(&page, &run_in_box());
        let message = page.text(".shelf .shelf-fault");
        assert!(message.contains("does not let the page keep anything") && message.contains("as a file"), "{message}");
        assert_eq!(page.count("#shelf-keep"), 0);
        assert_eq!(page.console_errors(), Vec::<String>::new(), "{getter}");
    }
}

/// Records of later versions and rubbish are listed with what is wrong with them; nothing of them becomes markup.
#[test]
fn records_that_cannot_be_read_are_told_and_can_be_deleted() {
    let page = opened(&run_in_box());
    let set = "localStorage.setItem('hushwright-kept-' + arguments[0], arguments[1])";
    let part = '\u{1f}';
    let hostile = format!("1{part}s{part}5{part}<img src=x onerror=alert(1)>{part}<img src=x onerror=alert(1)>");
    let records = [("later", format!("2{part}what")), ("rubbish", "<b>".to_owned()), ("<i>", hostile)];
    for (key, text) in &records {
        page.script(set, vec![json!(key), json!(text)]);
    }
    page.reload();
    page.wait_until("three of them", |page| page.count(".shelf-list li") == 3);
    let faults = "return [...document.querySelectorAll('.shelf-list .shelf-fault')].map(p => p.textContent).join('|')";
    let faults = page.script(faults, Vec::new());
    for part in ["newer version", "cannot be read", "link"] {
        assert!(faults.as_str().unwrap().contains(part), "{faults}");
    }
    assert_eq!((page.count(".shelf-list img"), page.count(".shelf-list button")), (0, 3), "nothing but to delete them");
    for left in [2, 1, 0] {
        page.click(".shelf-list button");
        page.wait_until("one less", |page| page.count(".shelf-list li") == left);
    }
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// With many of them there is a filter; no screen is too narrow; axe finds nothing, in both themes, while something is asked.
#[test]
fn a_long_list_can_be_searched_and_breaks_no_rule() {
    let page = opened(&run_in_box());
    let set = "localStorage.setItem('hushwright-kept-' + arguments[0], arguments[1])";
    let part = '\u{1f}';
    let long = "A".repeat(80);
    for k in 0..15 {
        let name = if k == 14 { long.clone() } else { format!("Box {k}") };
        let design = named(&examples().remove(k % 3), &name);
        let text = format!(
            "1{part}s{k}{part}{}{part}{}{part}{name}",
            1_795_000_000_000_u64 + 86_400_000 * k as u64,
            link::encode(&design)
        );
        page.script(set, vec![json!(k.to_string()), json!(text)]);
    }
    go(&page, &named(&longer(10.0), "Box 3"));
    page.wait_until("all of them", |page| page.count(".shelf-list li") == 15);
    page.click("#shelf-keep");
    page.wait_for("#shelf-question");
    for (screen, size) in [("phone", PHONE), ("laptop", LAPTOP), ("projector", PROJECTOR)] {
        page.resize(size);
        let overhang = "const width = document.documentElement.clientWidth; return [...document.querySelectorAll('#shelf *')].filter(part => \
                        part.getBoundingClientRect().right > width + .5).length";
        assert_eq!(page.script(overhang, Vec::new()), 0, "{screen}");
        for scheme in [Scheme::Light, Scheme::Dark] {
            page.prefer(scheme);
            page.script("document.querySelector('#shelf').scrollIntoView()", Vec::new());
            page.screenshot(&format!("shelf-{screen}-{scheme:?}"));
            assert_eq!(page.accessibility_violations(), Vec::<String>::new(), "{screen}, {scheme:?}");
        }
    }
    page.fill("#shelf-find", "box 1");
    wait_for_names(&page, &["Box 13", "Box 12", "Box 11", "Box 10", "Box 1"]);
    page.fill("#shelf-find", "cellar");
    wait_for_names(&page, &[]);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}
