//! The views of the page, and what holds them together: their links, the hint, explanations, the section's parts, what a step changed,
//! what outlives a reload; in headless Chromium.

use hushwright::design::{Design, link, run_in_box};
use hushwright_tests::browser::{LAPTOP, PHONE, Page, VIEWS, damaged_page};

const DOWN: &str = "\u{e015}";
const ENTER: &str = "\u{e007}";
const ESCAPE: &str = "\u{e00c}";

/// Whether an element is on the page and seen.
fn is_seen(page: &Page, css: &str) -> bool {
    let code = "const e = document.querySelector(arguments[0]); return !!e && e.checkVisibility({ visibilityProperty: true })";
    page.script(code, vec![css.into()]).as_bool().unwrap_or(false)
}

/// Going back to an address that was another design's: the page keeps its design, and the address says so at once.
#[test]
fn after_going_back_the_address_is_that_of_the_design_shown() {
    let named = |name: &str| link::encode(&Design { name: name.to_owned(), ..run_in_box() });
    let page = Page::open(&named("First"));
    page.text("#answer");
    page.script("location.hash = arguments[0]", vec![named("Second").into()]);
    page.wait_until("the second design", |page| page.value("#name") == "Second");
    page.script("history.back()", Vec::new());
    page.wait_until("the address of the second", |page| page.fragment() == named("Second"));
    assert_eq!(page.value("#name"), "Second");
}

/// Each view has its link; going back keeps what was changed since; a link without a design shows the example.
#[test]
fn views_have_links_and_going_back_keeps_the_design() {
    let page = Page::open("");
    page.text("#answer");
    assert!(is_seen(&page, "#view-estimate") && !is_seen(&page, "#view-improve"));
    page.click("#to-build");
    page.wait_until("the view to build", |page| is_seen(page, "#view-build") && !is_seen(page, "#view-estimate"));
    page.fill("#notes", "Screws from the inside.\nNo glue at the lid.");
    page.wait_until("the notes in the link", |page| {
        page.fragment()
            .strip_prefix("build/")
            .and_then(|design| link::decode(design).ok())
            .is_some_and(|design| design.notes.ends_with("at the lid."))
    });
    page.script("history.back()", Vec::new());
    page.wait_until("the first view", |page| is_seen(page, "#view-estimate"));
    page.wait_until("the design of now", |page| link::decode(&page.fragment()).is_ok_and(|design| !design.notes.is_empty()));
    assert_eq!(page.count("#link-notice"), 0);
    for (view, own) in [("build", "#view-build"), ("improve", "#view-improve"), ("learn", "#view-learn")] {
        let elsewhere = Page::open(&format!("{view}/{}", link::encode(&run_in_box())));
        elsewhere.wait_until(view, |page| is_seen(page, own));
        assert_eq!(elsewhere.attribute(&format!("#to-{view}"), "aria-current").as_deref(), Some("page"));
        assert_eq!((elsewhere.text("#answer"), elsewhere.console_errors()), (page.text("#answer"), Vec::<String>::new()));
        // By hand in the address: another view of the same design.
        elsewhere.script("location.hash = 'estimate'", Vec::new());
        elsewhere.wait_until("the first view", |page| is_seen(page, "#view-estimate"));
    }
}

/// The answer is in all views, and its question leads from each to where the ways out stand.
#[test]
fn why_it_is_so_loud_is_told_from_every_view() {
    let page = Page::open("");
    page.text("#answer");
    page.put_off(50);
    for (view, _) in VIEWS {
        page.click(&format!("#to-{view}"));
        page.wait_for(&format!("#to-{view}[aria-current]"));
        page.click(".way-out a");
        page.wait_until("the ways out", |page| is_seen(page, "#ways-out") && page.focused() == "ways-out");
        page.wait_until("the first view", |page| link::decode(&page.fragment()).is_ok() || page.fragment().is_empty());
    }
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// A view's name before a link that is damaged changes nothing about the message; what is no view is no design either.
#[test]
fn a_damaged_link_to_a_view_explains_itself() {
    let page = Page::blank();
    for fragment in ["improve/v1.AAAA.00000000", "nowhere/v1.e30.00000000", "learn/<script>alert(1)</script>"] {
        page.go(fragment);
        assert!(page.text("#link-notice").len() > 20, "{fragment}");
        assert_eq!(page.console_errors(), Vec::<String>::new());
    }
}

/// Put away once, the hint of the first visit stays away; steps, entries and folds outlive a reload.
#[test]
fn what_was_left_is_there_after_a_reload() {
    let page = Page::open("");
    page.text("#answer");
    assert!(is_seen(&page, "#hint"));
    page.click("#hint-dismiss");
    page.wait_until("no hint", |page| page.count("#hint") == 0);
    page.fill("#inner-length_mm", "800");
    page.wait_until("the link", |page| link::decode(&page.fragment()).is_ok_and(|design| design.inner.length_mm == 800.0));
    page.fill("#inner-width_mm", "7");
    page.wait_until("a refusal", |page| page.count("#inner-width_mm-error") == 1);
    page.unfold("#station-gap");
    page.script("document.querySelector('#station-inner').open = false", Vec::new());
    page.reload();
    page.text("#answer");
    assert_eq!(page.count("#hint"), 0);
    page.wait_until("the folds", |page| {
        page.attribute("#station-gap", "open").is_some() && page.attribute("#station-inner", "open").is_none()
    });
    assert_eq!(page.value("#inner-width_mm"), "7");
    assert_eq!(page.count("#inner-width_mm-error"), 1);
    page.click("#undo");
    page.click("#undo");
    page.wait_until("the step before the reload undone", |page| {
        link::decode(&page.fragment()).is_ok_and(|design| design.inner.length_mm == Design::default().inner.length_mm)
    });
    let other = Page::open("");
    other.text("#answer");
    assert!(is_seen(&other, "#hint"), "another profile is a first visit");
}

/// The section is one stop for the keyboard: the arrows go through its parts and ways out, Enter leads to a part's inputs, Escape back.
#[test]
fn the_section_leads_to_inputs_and_back() {
    let page = Page::open("");
    page.text("#answer");
    page.wait_for("#section-paper svg");
    let before = page.text("#section-told");
    let options = page.count("#section-paper [role=option]");
    assert!(options > 12, "{options}");
    page.press("#section-paper", DOWN);
    let told = page.changed_text("#section-told", &before);
    assert!(told.starts_with("Lining"), "{told}");
    assert_eq!(page.attribute("#section-spot-0", "aria-selected").as_deref(), Some("true"));
    assert_eq!(page.attribute("#section-paper", "aria-activedescendant").as_deref(), Some("section-spot-0"));
    page.press("#section-paper", ENTER);
    page.wait_until("the input", |page| page.focused() == "inner-lining-thickness_mm");
    page.press("#inner-lining-thickness_mm", ESCAPE);
    page.wait_until("the section again", |page| page.focused() == "section-paper");
    // A part that is folded away deep is unfolded.
    let click = "document.querySelector('.names g:nth-last-child(2)').dispatchEvent(new MouseEvent('click', { bubbles: true }))";
    page.script(click, Vec::new());
    page.wait_until("an input that is seen", |page| {
        let id = page.focused();
        id.starts_with("suspension") || id.starts_with("feet") || id.contains("lid")
    });
    let id = page.focused();
    assert!(is_seen(&page, &format!("#{id}")), "{id}");
    page.click(".back");
    page.wait_until("the section again", |page| page.focused() == "section-paper");
    assert_eq!(page.count(".back"), 0);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// The arrows are as wide as the shares that are told in numbers; dimensions come on demand; the drawing is saved whole.
#[test]
fn the_arrows_follow_the_shares_and_the_drawing_can_be_saved() {
    let page = Page::open("");
    page.text("#answer");
    page.wait_for(".arrow.weak polygon");
    let code = "const box = document.querySelector(arguments[0] + ' polygon').getBBox(); return Math.min(box.width, box.height)";
    // Shaft and both barbs, 5 px each.
    let width = page.script(code, vec![".arrow.weak".into()]).as_f64().expect("a width") - 10.0;
    assert!((width - 28.0).abs() < 0.5, "over 99 % is all but the whole width: {width}");
    assert!(page.text(".arrow.weak text").contains("walls"), "{}", page.text(".arrow.weak text"));
    assert_eq!(page.count("#section-paper .dimension"), 0);
    page.script("[...document.querySelectorAll('.title .plain')].find(b => b.textContent == 'Dimensions').click()", Vec::new());
    page.wait_for("#section-paper .dimension");
    page.keep_blobs();
    let saved = "HTMLAnchorElement.prototype.click = function () { window.saved = [this.download, this.href] };\
        [...document.querySelectorAll('.title .plain')].find(b => b.textContent.startsWith('Save')).click(); return window.saved";
    let name = page.script(saved, Vec::new());
    assert_eq!(name[0].as_str(), Some("Run-in-box-ground-floor-section.svg"));
    page.script("blobs[window.saved[1]].text().then(text => { window.svg = text })", Vec::new());
    page.wait_until("the file", |page| page.script("return typeof window.svg == 'string'", Vec::new()).as_bool() == Some(true));
    let whole = "const d = new DOMParser().parseFromString(window.svg, 'image/svg+xml'); \
        return [d.querySelectorAll('parsererror').length, d.querySelectorAll('pattern').length, d.querySelectorAll('.arrow').length, \
        d.querySelectorAll('.dimension').length, window.svg.includes('--ink')]";
    let parts = page.script(whole, Vec::new());
    assert_eq!((parts[0].as_u64(), parts[3].as_u64(), parts[4].as_bool()), (Some(0), Some(1), Some(true)), "{parts}");
    assert!(parts[1].as_u64() > Some(10) && parts[2].as_u64() > Some(3), "{parts}");
}

/// Every number has its explanation beside it; the sheet takes the focus, says relation and source, and gives the focus back.
#[test]
fn numbers_are_explained_where_they_stand() {
    let page = Page::open("");
    page.text("#answer");
    page.click(".answer .fact.mass .why");
    let sheet = page.text_when("#explanation", |text| text.contains("Relation"));
    assert!(sheet.starts_with("Mass") && sheet.contains("Source"), "{sheet}");
    page.wait_until("the focus", |page| page.focused() == "explanation");
    page.press("#explanation", ESCAPE);
    page.wait_until("it is gone", |page| !is_seen(page, "#explanation"));
    let label = page.script("return document.activeElement.getAttribute('aria-label')", Vec::new());
    assert_eq!(label.as_str(), Some("Mass: explained"));
    // No input is without, those included that are folded away and built a moment later.
    page.wait_until("all inputs", |page| page.count("#view-estimate .number") > 40);
    let bare = "return [...document.querySelectorAll('#view-estimate :is(.number, .choice, .bands)')]\
        .filter(row => !row.querySelector('.why') && !row.querySelector('input[id$=-name]') && !row.closest('.sheet, .stack'))\
        .map(row => row.textContent)";
    assert_eq!(page.script(bare, Vec::new()), serde_json::json!([]));
    page.click("#to-learn");
    page.wait_until("all terms", |page| page.count(".terms dt") > 60 && page.count(".quantity") > 80);
    page.fill("#find", "coincidence");
    page.wait_until("few", |page| (1..15).contains(&page.count(".terms dt")));
    page.fill("#find", "zzzz");
    page.text_when("#found", |text| text.starts_with("0 terms"));
}

/// What a step changed stands beside the answer, goes by itself, and is read out with the answer.
#[test]
fn what_a_step_changed_is_told_for_a_moment() {
    let page = Page::open("");
    page.text("#answer");
    assert_eq!(page.count(".delta"), 0);
    page.unfold("#station-source");
    page.fill("#source-level_dba", "102");
    page.text_when(".about .delta", |text| text == "\u{2212}10 dB");
    assert_eq!(page.count(".delta"), 1, "mass and cost stay");
    page.text_when("#announcement", |text| text.contains("Changed by \u{2212}10 dB."));
    page.fill("#inner-width_mm", "600");
    page.text_when(".fact.mass .delta", |text| text.starts_with('+') && text.ends_with("kg"));
    page.text_when(".fact.cost .delta", |text| text.starts_with('+'));
}

/// The answer stays in sight on a phone while its page scrolls, and nothing is wider than the screen.
#[test]
fn on_a_phone_the_answer_stays_and_nothing_is_wider_than_the_screen() {
    let page = Page::open("");
    for size in [PHONE, (320, 640), LAPTOP, (683, 384), (1920, 1080)] {
        page.resize(size);
        for view in ["estimate", "build", "improve", "learn"] {
            page.go(view);
            page.text("#answer");
            let wide = page.script("return document.scrollingElement.scrollWidth - innerWidth", Vec::new());
            assert!(wide.as_f64() <= Some(0.0), "{view} at {size:?}: {wide} px too wide");
        }
        page.go("");
        page.text("#answer");
        page.script("scrollTo(0, 1500)", Vec::new());
        if size.1 > 500 {
            page.wait_until("the answer at its place", |page| {
                let place = page.script("const r = document.querySelector('#answer').getBoundingClientRect(); return r.top >= 0 && r.bottom < innerHeight / 2", Vec::new());
                place.as_bool() == Some(true)
            });
        }
    }
}

/// An engine that stops on a fault stops the page; its screen keeps the last design that was shown whole, and reopens it.
#[test]
fn a_fault_keeps_the_design() {
    let begin = "export function estimate(design) {";
    let faulty =
        "export function estimate(design) {\n if (globalThis.isFaulty) { throw new WebAssembly.RuntimeError('unreachable') }";
    let folder = damaged_page("fault", ["engine-", ".js"], |path| {
        let text = std::fs::read_to_string(path).expect("a script");
        assert!(text.contains(begin), "the engine's glue has changed");
        std::fs::write(path, text.replace(begin, faulty)).expect("a file of this test");
    });
    let page = Page::serving(folder.clone());
    page.go("");
    page.text("#answer");
    page.fill("#inner-length_mm", "800");
    page.wait_until("the link", |page| link::decode(&page.fragment()).is_ok_and(|design| design.inner.length_mm == 800.0));
    page.script("globalThis.isFaulty = true", Vec::new());
    page.choose("#inner-lining-material", "none");
    page.wait_until("the screen of faults", |page| is_seen(page, "#recovery"));
    let kept = page.attribute("#recovery-link", "href").expect("a link");
    assert_eq!(link::decode(&kept).map(|design| design.inner.length_mm), Ok(800.0));
    page.click("#recovery-reopen");
    page.wait_until("the page again", |page| !is_seen(page, "#recovery") && page.count("#answer") == 1);
    assert_eq!(page.value("#inner-length_mm"), "800");
    std::fs::remove_dir_all(folder).expect("a folder of this test");
}
