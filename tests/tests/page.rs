//! The page in rougher hands: nonsense in fields, hostile links, undo, other units, in headless Chromium.

use std::path::{Path, PathBuf};

use hushwright::design::{Design, link};
use hushwright_tests::browser::{Page, built_page};

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

/// A copy of the built page in which the file whose name ends with `end` is changed by `damage`.
fn damaged_page(name: &str, end: &str, damage: impl Fn(&Path)) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("hushwright-{name}-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let mut damaged = 0;
    for entry in std::fs::read_dir(built_page()).unwrap().map(Result::unwrap).filter(|entry| entry.path().is_file()) {
        let copy = folder.join(entry.file_name());
        std::fs::copy(entry.path(), &copy).unwrap();
        if copy.to_string_lossy().ends_with(end) {
            damage(&copy);
            damaged += 1;
        }
    }
    assert_eq!(damaged, 1, "one file of the page ends with {end}");
    folder
}

#[test]
fn a_program_that_cannot_be_loaded_says_so() {
    let missing = |path: &Path| std::fs::remove_file(path).unwrap();
    let html = |path: &Path| std::fs::write(path, "<!doctype html><p>Sign in</p>").unwrap();
    for end in ["_bg.wasm", ".js"] {
        for name in ["missing", "html"] {
            let damage = |path: &Path| if name == "missing" { missing(path) } else { html(path) };
            let folder = damaged_page(&format!("{name}{}", end.replace('.', "-")), end, damage);
            let page = Page::serving(folder.clone());
            page.go("");
            let message = page.text("#cannot-start");
            assert!(message.contains("could not be loaded"), "{end} {name}: {message}");
            drop(page);
            std::fs::remove_dir_all(folder).unwrap();
        }
    }
    let whole = Page::open("");
    whole.text("#answer");
    whole.script("setTimeout(() => { throw new Error('of an extension') })", Vec::new());
    assert_eq!(whole.count("#cannot-start"), 0);
}

#[test]
fn without_a_clipboard_the_link_can_be_copied_by_hand_and_follows_the_design() {
    let page = Page::open("");
    page.text("#answer");
    page.script("Object.defineProperty(navigator, 'clipboard', { value: undefined })", Vec::new());
    page.click("#copy-link");
    let design = |page: &Page| link::decode(page.value("#link-text").split_once('#').unwrap().1).unwrap();
    assert_eq!(design(&page), Design::default());
    page.slide("#inner-width_mm-slider", &[620.0]);
    page.wait_until("the link with 620 mm", |page| design(page).inner.width_mm == 620.0);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

#[test]
fn the_limit_of_the_estimate_follows_the_box() {
    let page = Page::open("");
    let said = |page: &Page| page.text("section:has(> #left-out) ul").replace('\u{a0}', " ");
    assert!(said(&page).contains("about 250 Hz"), "{}", said(&page));
    page.fill("#inner-length_mm", "1400");
    page.wait_until("a lower limit", |page| said(page).contains("about 120 Hz"));
}

#[test]
fn what_was_typed_last_survives_a_reload() {
    let page = Page::open("");
    page.text("#answer");
    for width in ["510", "520", "530"] {
        page.fill("#inner-width_mm", width);
    }
    page.fill("#inner-length_mm", "812");
    page.reload();
    page.text("#answer");
    assert_eq!((page.value("#inner-length_mm"), page.value("#inner-width_mm")), ("812".to_owned(), "530".to_owned()));
}

#[test]
fn the_notice_on_a_damaged_link_goes_with_a_good_one() {
    let page = Page::open("v0.damaged");
    assert!(page.text("#link-notice").contains("first example"));
    page.script("location.hash = arguments[0]", vec![link::encode(&Design::default()).into()]);
    page.wait_until("the notice to go", |page| page.count("#link-notice") == 0);
}

#[test]
fn a_slider_shows_the_number_of_its_field_and_steps_to_round_ones() {
    let page = Page::open("");
    page.choose("#units", "imperial");
    page.fill("#inner-length_mm", "27 9/16 in");
    page.wait_until("27.56 in", |page| (number(&page.value("#inner-length_mm")) - 27.5625).abs() < 0.01);
    let slider = "#inner-length_mm-slider";
    assert!((page.value(slider).parse::<f64>().unwrap() - 27.5625).abs() < 0.001, "{}", page.value(slider));
    page.press(slider, &char::from(fantoccini::key::Key::Right).to_string());
    page.wait_until("28 in", |page| page.value("#inner-length_mm") == "28");
    page.fill("#inner-length_mm", "2");
    page.wait_for("#inner-length_mm-error");
    assert_eq!(page.attribute(slider, "aria-valuetext").as_deref(), Some("28 in"), "not what was refused");
}

#[test]
fn the_examples_fold_away_by_escape_and_by_a_click_elsewhere() {
    let page = Page::open("");
    page.unfold("#examples");
    page.press("#examples > summary", &char::from(fantoccini::key::Key::Escape).to_string());
    page.wait_until("the list to fold", |page| page.count("#examples[open]") == 0);
    page.unfold("#examples");
    page.click("#section-title");
    page.wait_until("the list to fold", |page| page.count("#examples[open]") == 0);
}
