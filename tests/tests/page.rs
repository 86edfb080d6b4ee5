//! The page in rougher hands: nonsense in fields, hostile links, undo, other units, in headless Chromium.

use hushwright::design::{Design, link};
use hushwright_tests::browser::Page;

/// The number at the beginning of a text like `74 dBA`.
fn number(text: &str) -> f64 {
    let digits: String = text.chars().take_while(|c| c.is_ascii_digit() || *c == '-' || *c == '.').collect();
    digits.parse().unwrap_or_else(|_| panic!("no number in {text:?}"))
}

#[test]
fn a_number_out_of_range_gets_a_message_and_the_answer_stays() {
    let page = Page::open("");
    let (answer, fragment) = (page.text("#answer"), page.fragment());
    for nonsense in ["9", "-5", "abc", "1e999", "NaN", "Infinity", "<b>7</b>"] {
        page.fill("#inner-length_mm", nonsense);
        page.wait_until("the field to be marked", |page| {
            page.attribute("#inner-length_mm", "aria-invalid").as_deref() == Some("true")
        });
        assert_eq!(page.value("#inner-length_mm"), nonsense, "what was typed stays");
        assert_eq!(page.text("#answer"), answer);
        assert_eq!(page.fragment(), fragment);
        let described_by = page.attribute("#inner-length_mm", "aria-describedby").expect("the message is tied to the field");
        let message = described_by.split_whitespace().map(|id| page.text(&format!("#{id}"))).collect::<String>();
        assert!(message.contains("100") && message.contains("3000"), "{nonsense}: {message}");
    }
    page.fill("#inner-length_mm", "812,5");
    page.wait_until("the link with 812.5 mm: a decimal comma is a decimal point", |page| {
        link::decode(&page.fragment()).is_ok_and(|design| design.inner.length_mm == 812.5)
    });
}

#[test]
fn a_damaged_or_hostile_link_explains_itself_and_shows_the_example() {
    let whole = {
        let mut design = Design::default();
        design.source.level_dba = 120.0;
        link::encode(&design)
    };
    let example = Page::open("").text("#answer");
    let page = Page::blank();
    let long = "v0.".to_owned() + &"A".repeat(100_000);
    let script = "v0.<script>alert(1)</script>.00000000";
    for fragment in [&whole[..whole.len() - 5], "v0.", "v9.AAAA.00000000", "nonsense", script, &long] {
        page.go(fragment);
        assert!(page.text("#link-notice").len() > 20, "{fragment:.40}");
        assert_eq!(page.text("#answer"), example, "{fragment:.40}");
        assert_eq!(page.console_errors(), Vec::<String>::new());
    }
    page.go(&whole);
    page.wait_until("the link's own answer", |page| page.text("#answer") != example);
    assert_eq!(page.count("#link-notice"), 0);
}

#[test]
fn undo_and_redo_go_through_the_steps_and_a_drag_is_one() {
    let page = Page::open("");
    let first = page.text("#mass");
    page.slide("#inner-width_mm-slider", &[520.0, 600.0, 700.0]);
    let second = page.changed_text("#mass", &first);
    page.click("#undo");
    page.text_when("#mass", |text| text == first);
    page.click("#redo");
    page.text_when("#mass", |text| text == second);
    page.click("#reset");
    page.text_when("#mass", |text| text == first);
}

#[test]
fn imperial_units_show_the_same_design() {
    let page = Page::open("");
    let kilograms = number(&page.text("#mass"));
    let fragment = page.fragment();
    page.choose("#units", "imperial");
    let pounds = number(&page.text_when("#mass", |text| text.contains("lb")));
    assert!((pounds / kilograms - 2.2046).abs() < 0.05, "{pounds} lb, {kilograms} kg");
    page.wait_until("inches", |page| (number(&page.value("#inner-length_mm")) - 700.0 / 25.4).abs() < 0.05);
    assert_eq!(page.fragment(), fragment, "units are no part of the design");
}
