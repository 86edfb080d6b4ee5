//! What the page learns from its worker: ranges and what each change brings, in headless Chromium.

use std::path::Path;

use hushwright_tests::browser::{Page, damaged_page};

/// The number at the beginning of a text like `74 dBA`.
fn number(text: &str) -> f64 {
    let digits: String = text.chars().take_while(|c| c.is_ascii_digit() || *c == '-' || *c == '.').collect();
    digits.parse().unwrap_or_else(|_| panic!("no number in {text:?}"))
}

/// The range arrives from the worker, holds the level, moves along with it at once and is found anew; what a person can find out
/// stands beside it.
#[test]
fn the_range_follows_the_design() {
    let page = Page::open("");
    page.wait_until("a range", |page| page.text("#chance").starts_with("limit"));
    let ends = |page: &Page| {
        let text = page.text("#range");
        let (low, high) = text.split_once(" to ").unwrap_or_else(|| panic!("a range: {text}"));
        (number(low), number(high))
    };
    let level = number(&page.text("#answer"));
    let (low, high) = ends(&page);
    assert!(low < level && level < high && high - low > 4.0 && high - low < 40.0, "{low} to {high} about {level}");
    // What stands beside the drawing follows a moment later.
    page.wait_until("the same in a sentence", |page| page.text("#range-sentence").contains(&page.text("#range")));
    page.unfold("#station-source");
    page.fill("#source-level_dba", "102");
    page.wait_until("the level", |page| (number(&page.text("#answer")) - (level - 10.0)).abs() < 0.1);
    // 10 dB less at the source are 10 dB less at both ends, to what whole numbers leave.
    let moved = ends(&page);
    assert!((moved.0 - low + 10.0).abs() <= 1.0 && (moved.1 - high + 10.0).abs() <= 1.0, "{moved:?} after {low} to {high}");
    page.wait_until("a new chance", |page| page.text("#chance").starts_with("limit"));
    let found = ends(&page);
    assert!((found.0 - low + 10.0).abs() <= 1.0 && (found.1 - high + 10.0).abs() <= 1.0, "{found:?} after {low} to {high}");
    page.click("#undo");
    page.wait_until("the first range again", |page| ends(page) == (low, high) && page.text("#chance").starts_with("limit"));
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// The first of the changes is made by one click, brings what it said, and is undone by another.
#[test]
fn a_change_is_made_and_undone() {
    let page = Page::open("");
    page.wait_for("#steps li");
    let (level, mass) = (number(&page.text("#answer")), page.text("#mass"));
    let gain = number(page.text("#steps li b").trim_start_matches('\u{2212}'));
    assert!(gain > 5.0 && page.text("#steps li").contains("kg"), "{}", page.text("#steps li"));
    page.click("#steps li button");
    page.wait_until("what it brings", |page| (number(&page.text("#answer")) - (level - gain)).abs() <= 1.0);
    page.click("#undo");
    page.wait_until("the level before", |page| number(&page.text("#answer")) == level && page.text("#mass") == mass);
    // All of them are in a view of their own, with what the range comes from; by what it brings for a kilogram, another change
    // stands first.
    let few = page.count("#steps li");
    page.click("#to-improve");
    page.wait_until("more of them", |page| page.count("#all-steps li") > 5 * few);
    page.wait_until("unknowns", |page| (1..=4).contains(&page.count(".unknowns li")));
    let first = page.text("#all-steps li");
    page.choose("#steps-order", "1");
    page.wait_until("another order", |page| page.text("#all-steps li") != first);
}

/// Without its worker the page says so and goes on.
#[test]
fn without_a_worker_there_is_no_range() {
    let remove = |path: &Path| std::fs::remove_file(path).expect("a file of this test");
    let folder = damaged_page("no-worker", ["engine_loader", ".js"], remove);
    let page = Page::serving(folder.clone());
    page.go("");
    page.wait_until("the sentence", |page| page.text("#range-sentence").contains("does not run"));
    assert_eq!(page.text("#range"), "no range");
    assert!(page.text("#no-steps").contains("does not run"), "{}", page.text("#no-steps"));
    page.unfold("#station-source");
    page.fill("#source-level_dba", "102");
    page.wait_until("another level", |page| page.text("#verdict") == "fail");
    std::fs::remove_dir_all(folder).expect("a folder of this test");
}
