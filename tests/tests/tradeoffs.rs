//! The search on the page: wishes, progress, stop, the front by mouse and keyboard, in headless Chromium.

use std::path::Path;

use hushwright::design::{link, run_in_box};
use hushwright_tests::browser::{Page, damaged_page};

/// All numbers of a text.
fn numbers(text: &str) -> Vec<f64> {
    let parts = text.split(|c: char| !c.is_ascii_digit() && c != '.');
    parts.filter_map(|part| part.trim_matches('.').parse().ok()).collect()
}

/// Few sheets, so that it is soon over.
fn small_search(page: &Page) {
    page.choose("#wish-inner", "1");
    page.choose("#wish-outer", "1");
    page.click("#search-start");
    page.wait_until("the end", |page| page.text("#found-words").contains("stand for all"));
}

/// Limits are kept, every point is reached by the keyboard, says what it is, opens as that design and is undone.
#[test]
fn a_point_of_the_front_opens_as_a_design() {
    let page = Page::open("improve");
    page.wait_for("#search-start");
    let (level, mass) = (page.text("#answer"), page.text("#mass"));
    page.fill("#wish-mass", "70");
    small_search(&page);
    assert!(page.text("#search-words").contains("too heavy"), "{}", page.text("#search-words"));
    let count = page.count("#front [role=option]");
    assert!(count > 5, "{count} points");
    let said = |page: &Page| numbers(&page.text("#point b"));
    let mut masses = Vec::new();
    page.press("#front", "\u{e011}"); // Home
    for place in 0..count {
        assert_eq!(page.attribute("#front", "aria-activedescendant"), Some(format!("front-{place}")));
        assert_eq!(page.attribute(&format!("#front-{place}"), "aria-selected").as_deref(), Some("true"));
        masses.push(*said(&page).iter().rev().nth(1).expect("a mass"));
        page.press("#front", "\u{e014}"); // right
    }
    assert!(masses.windows(2).all(|pair| pair[0] <= pair[1]) && masses.iter().all(|&mass| mass <= 70.0), "{masses:?}");
    let heaviest = said(&page);
    page.press("#front", "\u{e007}"); // Enter
    page.wait_until("the design of the point", |page| numbers(&page.text("#mass"))[0] == masses[count - 1]);
    assert_eq!(numbers(&page.text("#answer"))[0], heaviest[0]);
    let opened = link::decode(page.fragment().trim_start_matches("improve/")).expect("the address carries it");
    assert_eq!(opened.source, run_in_box().source);
    assert!(page.count("#front [role=option]") == count, "the others are still there");
    page.click("#undo");
    page.wait_until("the design before", |page| page.text("#answer") == level && page.text("#mass") == mass);
    page.click("#open-point");
    page.wait_until("the same by its button", |page| numbers(&page.text("#answer"))[0] == heaviest[0]);
    assert_eq!(page.accessibility_violations(), Vec::<String>::new());
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

#[test]
fn a_search_can_be_stopped_and_begun_again() {
    let page = Page::open("improve");
    page.click("#search-start");
    page.wait_until("progress", |page| page.text("#search-words").contains("boxes compared"));
    page.click("#search-stop");
    page.wait_until("it says so", |page| page.text("#found-words").to_lowercase().contains("stopped"));
    assert_eq!(page.count("#search-progress"), 0);
    small_search(&page);
    assert!(page.count("#front [role=option]") > 5);
}

/// What cannot be wished is refused at its field, and typing goes on.
#[test]
fn wishes_are_refused_where_they_are_typed() {
    let page = Page::open("improve");
    page.wait_for("#search-start");
    for (text, says) in [("light", "a number of kg"), ("-5", "more than 0"), ("0", "more than 0"), ("1e999", "a number of kg")] {
        page.fill("#wish-mass", text);
        page.click("#search-start");
        page.wait_until("a refusal", |page| page.text("#wish-mass-error").contains(says));
        assert_eq!(
            (page.value("#wish-mass"), page.attribute("#wish-mass", "aria-invalid")),
            (text.to_owned(), Some("true".to_owned()))
        );
    }
    page.fill("#wish-mass", " ");
    page.fill("#wish-width", "100");
    page.choose("#wish-inner", "1");
    page.choose("#wish-outer", "1");
    page.click("#search-start");
    page.wait_until("nothing that passes", |page| page.text("#found-words").contains("No box keeps these limits"));
    page.fill("#wish-width", " ");
    page.click(".wishes .ticks .tick input");
    page.click("#search-start");
    page.wait_until("no joint", |page| page.text(".wishes .refusal").contains("nothing to choose from"));
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// Without its worker there is no search, and it says so.
#[test]
fn without_a_worker_there_is_no_search() {
    let remove = |path: &Path| std::fs::remove_file(path).expect("a file of this test");
    let folder = damaged_page("no-search", ["engine_loader", ".js"], remove);
    let page = Page::serving(folder.clone());
    page.go("improve");
    page.click("#search-start");
    page.wait_until("the sentence", |page| page.text(".tradeoffs > .refusal").contains("cannot run"));
    std::fs::remove_dir_all(folder).expect("a folder of this test");
}
