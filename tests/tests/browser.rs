//! The built page in headless Chromium, as a visitor meets it.

use hushwright::design::{Design, link};
use hushwright_tests::browser::{Page, Scheme};

#[test]
fn a_first_visit_shows_a_finished_answer_and_a_quiet_console() {
    let page = Page::open("");
    let answer = page.text("#answer");
    assert!(answer.contains("dBA"), "{answer}");
    let level: f64 =
        answer.split(|c: char| !c.is_ascii_digit() && c != '-').find_map(|part| part.parse().ok()).expect("a number");
    assert!((-20.0..130.0).contains(&level), "{answer}");
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

#[test]
fn a_link_shows_the_same_answer_in_a_fresh_profile() {
    let mut louder = Design::default();
    louder.source.level_dba += 6.0;
    let first = Page::open("").text("#answer");
    let second = Page::open(&link::encode(&louder)).text("#answer");
    assert_ne!(first, second);
    assert_eq!(Page::open(&link::encode(&louder)).text("#answer"), second);
}

#[test]
fn the_page_breaks_no_accessibility_rule_in_light_and_dark() {
    let page = Page::blank();
    for scheme in [Scheme::Light, Scheme::Dark] {
        page.prefer(scheme);
        page.go("");
        page.text("#answer");
        assert_eq!(page.accessibility_violations(), Vec::<String>::new(), "{scheme:?}");
    }
}

/// Guards the tests above: a console or an audit that never reports anything would let them pass.
#[test]
fn what_is_wrong_on_a_page_is_noticed() {
    let page = Page::open("");
    page.text("#answer");
    page.script("document.body.append(new Image()); setTimeout(() => { throw new Error('on purpose') })", Vec::new());
    page.wait_until("the error in the console", |page| page.console_errors().iter().any(|error| error.contains("on purpose")));
    let violations = page.accessibility_violations();
    assert!(violations.iter().any(|violation| violation.starts_with("image-alt")), "{violations:?}");
}
