//! The built page in headless Chromium, as a visitor meets it.

use hushwright::design::{Design, link};
use hushwright_tests::browser::{LAPTOP, PHONE, PROJECTOR, Page};

const ANSWER: &str = "#answer";
const LEVEL: &str = "#source-level_dba";
/// Unfolds every station and every part.
const UNFOLD: &str = "document.querySelectorAll('.staircase details').forEach(part => { part.open = true })";
const LEVEL_SLIDER: &str = "#source-level_dba-slider";

/// The design that the address of the page holds.
fn linked(page: &Page) -> Design {
    link::decode(&page.fragment()).unwrap_or_else(|error| panic!("{}: {error}", page.url()))
}

/// The number in an answer like "41 dBA"; levels below zero are written with the minus sign of typography.
fn decibels(answer: &str) -> f64 {
    let number = answer.strip_suffix(" dBA").unwrap_or_else(|| panic!("no level: {answer}")).replace('\u{2212}', "-");
    number.parse().unwrap_or_else(|_| panic!("no number: {answer}"))
}

#[test]
fn a_first_visit_shows_a_finished_answer_and_a_quiet_console() {
    let page = Page::open("");
    let level = decibels(&page.text(ANSWER));
    assert!((-20.0..130.0).contains(&level), "{level}");
    assert_eq!(page.fragment(), "", "nothing was changed, so the address stays");
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

#[test]
fn dragging_a_slider_changes_answer_and_link_without_adding_to_the_history() {
    let page = Page::open("");
    let before = page.text(ANSWER);
    let level = Design::default().source.level_dba;
    let entries = page.script("return history.length", Vec::new());

    page.unfold("#station-source");
    page.slide(LEVEL_SLIDER, &[level + 2.0, level + 5.0, level + 10.0]);
    let after = page.changed_text(ANSWER, &before);
    page.wait_until("the link with the new level", |page| {
        link::decode(&page.fragment()).is_ok_and(|design| design.source.level_dba == level + 10.0)
    });
    assert_eq!(decibels(&page.text_when(ANSWER, |text| text == after)) - decibels(&before), 10.0);
    assert_eq!(page.script("return history.length", Vec::new()), entries);

    let elsewhere = Page::open(&page.fragment());
    assert_eq!(elsewhere.text(ANSWER), page.text(ANSWER));
    assert_eq!(elsewhere.value(LEVEL), page.value(LEVEL));
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

#[test]
fn a_value_out_of_range_is_refused_at_its_field_and_the_answer_stays() {
    let page = Page::open("");
    let before = page.text(ANSWER);
    page.unfold("#station-source");
    page.fill(LEVEL, "7");
    let message = page.text("#source-level_dba-error");
    assert!(message.contains("30") && message.contains("150"), "{message}");
    assert_eq!(page.attribute(LEVEL, "aria-invalid").as_deref(), Some("true"));
    assert_eq!(page.text(ANSWER), before);

    page.fill(LEVEL, "90");
    page.changed_text(ANSWER, &before);
    assert_eq!(page.count("#source-level_dba-error"), 0);
    page.wait_until("the link with the new level", |page| page.fragment().starts_with("v1."));
    assert_eq!(linked(&page).source.level_dba, 90.0);
}

#[test]
fn no_screen_has_to_be_scrolled_sideways() {
    let page = Page::open("");
    for (name, size) in [("phone", PHONE), ("laptop", LAPTOP), ("projector", PROJECTOR)] {
        page.resize(size);
        page.go("");
        page.text(ANSWER);
        let overhang = "return document.documentElement.scrollWidth - document.documentElement.clientWidth";
        assert_eq!(page.script(overhang, Vec::new()), 0, "{name}: {}", page.screenshot(name).display());
        page.script(UNFOLD, Vec::new());
        assert_eq!(page.script(overhang, Vec::new()), 0, "{name}, every part unfolded: {}", page.screenshot(name).display());
        page.go("");
        page.text(ANSWER);
        page.screenshot(name);
    }
}

/// Guards the tests above: a console that never reports anything would let them pass.
#[test]
fn an_error_on_the_page_is_noticed() {
    let page = Page::open("");
    page.text(ANSWER);
    page.script("setTimeout(() => { throw new Error('on purpose') })", Vec::new());
    page.wait_until("the error in the console", |page| page.console_errors().iter().any(|error| error.contains("on purpose")));
}
