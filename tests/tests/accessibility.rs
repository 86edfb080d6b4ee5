//! Every view of the built page by the rules for accessibility, as axe-core checks them, in headless Chromium: on a
//! laptop and a phone, light and dark, folded, unfolded and laid out flat.

use std::collections::BTreeMap;

use hushwright_tests::browser::{Audit, LAPTOP, PHONE, Page, Scheme, VIEWS};
use serde_json::json;

const SIZES: [(&str, (u32, u32)); 2] = [("laptop", LAPTOP), ("phone", PHONE)];

/// How the page is laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Layout {
    /// All that can be folded is.
    Folded,
    /// Nothing is.
    Unfolded,
    /// Nothing is, nor scrolled out of sight within another part, nor laid over another: so that all colours can be judged,
    /// which axe-core leaves undecided for most texts otherwise.
    Flat,
}

/// Lays flat what is unfolded. What stands before and after elements for decoration goes, since it may lie below a text.
///
/// A style sheet that is made by a script is the only one that the page's policy lets in.
const FLATTEN: &str = "const flat = new CSSStyleSheet();
    flat.replaceSync('*:not(.unseen) { position: static !important; overflow: visible !important; max-height: none !important } \
    *::before, *::after { content: none !important }');
    document.adoptedStyleSheets.push(flat);";

/// Where and how a view is looked at, as failures name it.
type Setting = String;

#[test]
fn no_view_breaks_a_rule_in_any_theme_size_or_layout() {
    let page = Page::blank();
    let mut broken: BTreeMap<String, Vec<Setting>> = BTreeMap::new();
    for (view, fragment) in VIEWS {
        for scheme in [Scheme::Light, Scheme::Dark] {
            for (screen, size) in SIZES {
                show(&page, fragment, scheme, size);
                // In this order, for what has been laid flat stays so.
                for layout in [Layout::Folded, Layout::Unfolded, Layout::Flat] {
                    lay_out(&page, layout);
                    let setting = format!("{view}, {scheme:?}, {screen}, {layout:?}");
                    assert_eq!(page.console_errors(), Vec::<String>::new(), "{setting}");
                    let Audit { violations, contrast_decided, contrast_undecided, drawn } = page.audit();
                    let judged = contrast_decided > 4 * contrast_undecided;
                    assert!(
                        judged || layout != Layout::Flat,
                        "{setting}: contrast judged for {contrast_decided} texts, not for {contrast_undecided}"
                    );
                    assert!(
                        drawn > 4 || matches!(*view, "improve" | "compare" | "learn" | "share"),
                        "{setting}: {drawn} texts in drawings"
                    );
                    for violation in violations {
                        broken.entry(violation).or_default().push(setting.clone());
                    }
                }
            }
        }
    }
    assert!(broken.is_empty(), "{} places break a rule:\n{}", broken.len(), listed(&broken));
}

/// Guards the test above: an audit that never reports anything would let it pass.
#[test]
fn an_image_without_text_and_a_button_without_name_are_noticed() {
    let page = Page::blank();
    show(&page, VIEWS[0].1, Scheme::Light, LAPTOP);
    let before = page.accessibility_violations();
    let add =
        "const add = (name, id) => document.querySelector('main').append(Object.assign(document.createElement(name), { id }));
        add('img', 'without-text'); add('button', 'without-name');";
    page.script(add, Vec::new());
    let after = page.accessibility_violations();
    let new = |start: &str, place: &str| {
        let found = |lines: &[String]| lines.iter().any(|line| line.starts_with(start) && line.contains(place));
        assert!(!found(&before) && found(&after), "{start} at {place} in {after:?}");
    };
    new("image-alt (critical)", "at #without-text: <img id=");
    new("button-name (critical)", "at #without-name: <button id=");
}

/// Guards the contrast of drawn texts: what lies under a text counts, be it the page, a shape or a shape on a shape.
#[test]
fn a_drawn_text_that_is_hard_to_read_is_noticed() {
    let page = Page::open("");
    page.text("#answer");
    let add = "document.querySelector('main').insertAdjacentHTML('beforeend', `<section id='drawn'><svg width='300' height='100'>
        <text x='5' y='20' data-fill='#17212b'>dark on page</text><text x='5' y='40' data-fill='#bbb'>pale on page</text>
        <rect x='100' width='200' height='100' data-fill='#222'/><text x='150' y='20' data-fill='#17212b'>dark on dark</text>
        <text x='150' y='40' data-fill='#fff'>pale on dark</text><rect x='140' y='50' width='150' height='40' data-fill='#fff' />
        <text x='150' y='70' data-fill='#17212b'>dark on pale</text></svg></section>`);
        for (const shape of document.querySelectorAll('#drawn [data-fill]')) { shape.style.fill = shape.dataset.fill; }";
    page.script(add, Vec::new());
    let violations = page.accessibility_violations();
    let weak: Vec<&str> = violations.iter().filter_map(|line| line.strip_suffix(" in drawn")?.rsplit(": ").next()).collect();
    assert_eq!(weak, ["pale on page", "dark on dark"], "{violations:?}");
}

/// Guards the themes: what cannot be read in the dark alone is noticed in the dark alone.
#[test]
fn a_colour_that_only_one_theme_spoils_is_noticed_there() {
    let page = Page::blank();
    for scheme in [Scheme::Light, Scheme::Dark] {
        show(&page, VIEWS[0].1, scheme, LAPTOP);
        let add = "const words = Object.assign(document.createElement('p'), { id: 'black', textContent: 'Black on the ground of the page' });
            words.style.color = 'black'; document.querySelector('main').append(words); words.scrollIntoView();";
        page.script(add, Vec::new());
        let violations = page.accessibility_violations();
        let noticed = violations.iter().any(|line| line.starts_with("color-contrast (serious)") && line.contains("at #black:"));
        assert_eq!(noticed, scheme == Scheme::Dark, "{scheme:?}: {violations:?}");
    }
}

/// Opens a view and waits for all that comes by itself, the answers of the worker too.
fn show(page: &Page, fragment: &str, scheme: Scheme, size: (u32, u32)) {
    page.resize(size);
    page.prefer(scheme);
    page.go(fragment);
    page.text("#answer");
    page.text_when("#chance", |chance| chance.starts_with("limit"));
    settle(page);
    let matches = |query: &str| page.script("return matchMedia(arguments[0]).matches", vec![json!(query)]) == true;
    assert!(matches(&format!("(width: {}px) and (height: {}px)", size.0, size.1)), "{size:?}");
    let dark = scheme == Scheme::Dark;
    assert_eq!(
        (matches("(prefers-color-scheme: light)"), matches("(prefers-color-scheme: dark)")),
        (!dark, dark),
        "the browser asks for {scheme:?}"
    );
    let ground = ground(page);
    let as_asked = if dark { ground.iter().all(|&part| part < 64.0) } else { ground.iter().all(|&part| part > 191.0) };
    assert!(as_asked, "the page follows: {scheme:?}, red, green and blue of its ground {ground:?}");
}

/// Red, green and blue of what the page stands on, 0 to 255: the computed background of the body, or of the root where
/// the body lets it show through.
fn ground(page: &Page) -> [f64; 3] {
    let read = "return [document.body, document.documentElement].map(element => getComputedStyle(element).backgroundColor)";
    let colours: Vec<String> = serde_json::from_value(page.script(read, Vec::new())).expect("two colours");
    let opaque = colours.iter().find_map(|colour| colour.strip_prefix("rgb(")?.strip_suffix(')'));
    let parts = opaque.map(|parts| parts.split(", ").filter_map(|part| part.parse().ok()).collect::<Vec<f64>>());
    parts.and_then(|parts| parts.try_into().ok()).unwrap_or_else(|| panic!("no opaque ground: {colours:?}"))
}

/// Folds everything that can be or unfolds it, also what only appears on unfolding something else, and lays it flat.
fn lay_out(page: &Page, layout: Layout) {
    assert!(page.count("details") > 0, "nothing can be unfolded");
    let set = "const other = [...document.querySelectorAll('details')].filter(part => part.open !== arguments[0]);
        for (const part of other) { part.open = arguments[0]; }
        return other.length;";
    let open = layout != Layout::Folded;
    page.wait_until("everything folded alike", |page| page.script(set, vec![json!(open)]) == 0);
    if layout == Layout::Flat {
        page.script(FLATTEN, Vec::new());
    }
    settle(page);
}

/// Waits until nothing on the page has changed for half a second.
fn settle(page: &Page) {
    let watch = "if (window.lastChange === undefined) {
            const note = () => { window.lastChange = performance.now(); };
            note();
            new MutationObserver(note).observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
        }
        return performance.now() - window.lastChange;";
    page.wait_until("rest", |page| page.script(watch, Vec::new()).as_f64().is_some_and(|still| still > 500.0));
}

/// Each violation once, below it where it was seen.
fn listed(broken: &BTreeMap<String, Vec<Setting>>) -> String {
    let lines = broken.iter().map(|(violation, settings)| format!("- {violation}\n    {}", settings.join("; ")));
    lines.collect::<Vec<_>>().join("\n")
}
