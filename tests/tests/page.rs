//! The page in rougher hands: nonsense in fields, hostile links, undo, other units, in headless Chromium.

use std::path::Path;

use hushwright::design::{Design, HolesPart, link};
use hushwright::need::Place;
use hushwright_tests::browser::{Page, damaged_page};

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
    let long = "v1.".to_owned() + &"A".repeat(100_000);
    let script = "v1.<script>alert(1)</script>.00000000";
    for fragment in [&whole[..whole.len() - 5], "v1.", "v9.AAAA.00000000", "nonsense", script, &long] {
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

#[test]
fn a_program_that_cannot_be_loaded_says_so() {
    let missing = |path: &Path| std::fs::remove_file(path).unwrap();
    let html = |path: &Path| std::fs::write(path, "<!doctype html><p>Sign in</p>").unwrap();
    for (program, end) in [("app", "_bg.wasm"), ("app", ".js"), ("engine-", "_bg.wasm"), ("engine-", ".js")] {
        for name in ["missing", "html"] {
            let damage = |path: &Path| if name == "missing" { missing(path) } else { html(path) };
            let folder = damaged_page(&format!("{name}-{program}{end}").replace('.', "-"), [program, end], damage);
            let page = Page::serving(folder.clone());
            page.go("");
            let message = page.text("#cannot-start");
            assert!(message.contains("could not be loaded"), "{program}{end} {name}: {message}");
            drop(page);
            std::fs::remove_dir_all(folder).unwrap();
        }
    }
    // Nothing but what was damaged keeps such a copy from starting.
    let copy = damaged_page("whole", ["favicon", ".svg"], |_| {});
    let whole = Page::serving(copy.clone());
    whole.go("");
    whole.text("#answer");
    whole.script("setTimeout(() => { throw new Error('of an extension') })", Vec::new());
    assert_eq!(whole.count("#cannot-start"), 0);
    std::fs::remove_dir_all(copy).unwrap();
}

/// A browser that lacks what the page needs is told what, and not that the connection is at fault; what the page is can be read.
#[test]
fn a_browser_without_webassembly_is_told_so() {
    let page = Page::blank();
    page.run_first("delete window.WebAssembly");
    page.go("");
    page.text_when("#cannot-start", |text| text.contains("WebAssembly"));
    // The script of the page has failed by then, which must not put another message in this one's place.
    page.wait_until("the page's own script to fail", |page| !page.console_errors().is_empty());
    assert!(page.text("#cannot-start").contains("WebAssembly"));
    assert!(page.text("main").contains("before a single board is bought"));
}

#[test]
fn without_a_clipboard_the_link_can_be_copied_by_hand_and_follows_the_design() {
    let page = Page::open("");
    page.text("#answer");
    page.script("Object.defineProperty(navigator, 'clipboard', { value: undefined })", Vec::new());
    page.click("#copy-link");
    let design = |page: &Page| link::decode(page.value("#copy-link-text").split_once('#').unwrap().1).unwrap();
    assert_eq!(design(&page), Design::default());
    page.slide("#inner-width_mm-slider", &[620.0]);
    page.wait_until("the link with 620 mm", |page| design(page).inner.width_mm == 620.0);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// The number before the first `Hz` of a text.
fn hertz(text: &str) -> f64 {
    let before = text.split(" Hz").next().and_then(|before| before.rsplit(' ').next());
    before.and_then(|number| number.parse().ok()).unwrap_or_else(|| panic!("no frequency in {text:?}"))
}

#[test]
fn the_weak_part_of_the_estimate_follows_the_box() {
    let page = Page::open("");
    let weak = |page: &Page| hertz(&page.text("section:has(> #left-out) ul").replace('\u{a0}', " "));
    let before = weak(&page);
    page.fill("#inner-length_mm", "1400");
    page.wait_until("a lower limit", |page| weak(page) < 0.7 * before);
}

/// The sentence names path and band, the shares are there for the path, what the corners decide comes.
#[test]
fn the_page_says_what_lets_the_sound_out() {
    let page = Page::open("");
    let (short, why) = (page.text("#limiting").replace('\u{a0}', " "), page.text("#why-limiting").replace('\u{a0}', " "));
    assert!(short.contains("walls") && why.contains("160 Hz") && why.contains("resonate"), "{short} / {why}");
    assert!(page.text(".shares .key").contains("suspension"));
    page.wait_until("what the corners decide", |page| page.text("section:has(> #ways-out)").contains("corners"));
    assert!(page.console_errors().is_empty());
}

/// Open holes without a cable are what lets the sound out, and the page says so.
#[test]
fn open_holes_take_the_blame() {
    let mut design = Design::default();
    for holes in [&mut design.inner.holes, &mut design.outer.as_mut().expect("two boxes").holes] {
        *holes = HolesPart { count: 4.0, diameter_mm: 50.0, cable_mm: 0.0, sealed: false };
    }
    let page = Page::open(&link::encode(&design));
    assert!(page.text("#limiting").contains("the holes"), "{}", page.text("#limiting"));
    page.wait_until("advice to seal them", |page| page.text("#steps li").contains("Holes sealed"));
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

/// What folds within something folded is on the page only after a while; another view's is not there at all.
#[test]
fn what_is_unfolded_is_so_after_a_reload_within_other_parts_and_in_other_views_too() {
    let page = Page::open("");
    for fold in ["#station-openings", "#part-inner-lid", "#station-listener", "#part-listener-0"] {
        page.unfold(fold);
    }
    // Which come unfolded.
    for fold in ["#part-listener-0", "#station-inner"] {
        page.click(&format!("{fold} > summary"));
        page.wait_until("folding it", |page| page.count(&format!("{fold}[open]")) == 0);
    }
    page.script("location.hash = 'build'", Vec::new());
    page.unfold("#view-build .part-of:last-of-type");
    let part = page.attribute("#view-build .part-of:last-of-type", "id").expect("parts have ids");
    page.script("location.hash = ''", Vec::new());
    page.reload();
    page.wait_for("#part-inner-lid[open] #inner-lid-seals");
    page.wait_for("#part-listener-0:not([open])");
    let open = page.script(
        "return [...document.querySelectorAll('#view-estimate details[open]')].map(fold => fold.id).join(' ')",
        Vec::new(),
    );
    assert_eq!(open, "station-openings part-inner-lid station-listener");
    page.script("location.hash = 'build'", Vec::new());
    page.wait_for(&format!("#{part}[open]"));
}

#[test]
fn the_notice_on_a_damaged_link_goes_with_a_good_one() {
    let page = Page::open("v1.damaged");
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

/// The design that the address of the page holds; the example while nothing has changed.
fn shown(page: &Page) -> Design {
    let fragment = page.fragment();
    if fragment.is_empty() { Design::default() } else { link::decode(&fragment).expect("the page writes good links") }
}

/// Fills a field with what is refused: the message is returned, the answer and the link stay, and so does what was typed.
fn refused(page: &Page, field: &str, text: &str) -> String {
    let (answer, before) = (page.text("#answer"), shown(page));
    page.fill(field, text);
    let message = page.text(&format!("{field}-error"));
    assert_eq!(page.attribute(field, "aria-invalid").as_deref(), Some("true"));
    assert_eq!((page.value(field), page.text("#answer"), shown(page)), (text.to_owned(), answer, before));
    message
}

#[test]
fn a_gap_smaller_than_what_stands_in_it_is_refused_until_that_is_lower() {
    let page = Page::open("");
    page.unfold("#station-gap");
    page.unfold("#part-suspension");
    let answer = page.text("#answer");
    page.slide("#suspension-height_mm-slider", &[70.0]);
    let message = page.text("#suspension-height_mm-error");
    assert!(message.contains("at most 50 mm"), "{message}");
    assert_eq!((page.text("#answer"), shown(&page)), (answer, Design::default()));
    page.click("#undo");
    page.wait_until("the height of before", |page| page.value("#suspension-height_mm") == "45");
    let message = refused(&page, "#gap-depth_mm", "30");
    assert!(message.contains("height, loaded (suspension)") && message.contains("at most 30 mm"), "{message}");
    page.slide("#suspension-height_mm-slider", &[25.0]);
    page.wait_until("both to enter", |page| {
        let design = shown(page);
        (design.gap.depth_mm, design.suspension.height_mm) == (30.0, 25.0)
    });
    assert_eq!(page.count("#gap-depth_mm-error"), 0);
    page.click("#undo");
    page.wait_until("the gap of before", |page| shown(page).gap.depth_mm == 50.0);
}

#[test]
fn braces_that_leave_no_room_are_refused_and_undo_clears_them() {
    let page = Page::open("");
    page.unfold("#part-inner-edges");
    page.choose("#inner-braces-kind", "battens");
    page.fill("#inner-braces-width_mm", "60");
    page.wait_until("wide battens", |page| shown(page).inner.braces.is_some_and(|braces| braces.width_mm == 60.0));
    let message = refused(&page, "#inner-braces-count", "6");
    assert!(message.contains("at most 3") && message.contains("60 mm"), "{message}");
    page.click("#part-inner-edges > summary");
    assert!(page.text("#part-inner-edges > summary").contains("1 not used"), "a folded part says so");
    page.click("#part-inner-edges > summary");
    page.click("#undo");
    page.wait_until("the number of before", |page| page.value("#inner-braces-count") == "1");
    page.click("#undo");
    page.click("#undo");
    page.wait_until("no braces", |page| page.count("#inner-braces-count") == 0);
    page.click("#redo");
    page.wait_for("#inner-braces-count");
}

#[test]
fn a_load_that_the_supports_do_not_hold_is_refused_until_there_are_more() {
    let page = Page::open("");
    page.unfold("#station-gap");
    page.unfold("#part-suspension");
    let message = refused(&page, "#suspension-breaking_load_kg", "3");
    assert!(message.contains("Each of 4 carries") && message.contains("fails at 3 kg"), "{message}");
    page.fill("#suspension-count", "20");
    page.wait_until("weak springs, many of them", |page| {
        let suspension = shown(page).suspension;
        (suspension.count, suspension.breaking_load_kg) == (20.0, 3.0)
    });
    let cautions = page.text(".cautions");
    assert!(cautions.contains("20 springs: each carries"), "{cautions}");
    let message = refused(&page, "#suspension-count", "2.5");
    assert!(message.contains("whole numbers"), "{message}");
}

#[test]
fn a_choice_that_cannot_be_says_why_and_stays_what_it_was() {
    let page = Page::open("");
    page.unfold("#part-inner-baffle");
    page.choose("#inner-baffle-sheet", "none");
    page.fill("#inner-length_mm", "150");
    page.wait_until("a short box", |page| shown(page).inner.length_mm == 150.0);
    page.choose("#inner-baffle-sheet", "mdf");
    let message = page.text("#inner-baffle-sheet-error");
    assert!(message.contains("too short"), "{message}");
    page.wait_until("the choice of before", |page| page.value("#inner-baffle-sheet") == "none");
    assert_eq!(page.attribute("#inner-baffle-sheet", "aria-describedby").as_deref(), Some("inner-baffle-sheet-error"));
    assert_eq!(page.accessibility_violations(), Vec::<String>::new());
}

/// Every part is opened and filled by keys alone: Tab and Enter lead to each input, arrows change it.
#[test]
fn the_openings_can_be_edited_by_the_keyboard() {
    use fantoccini::key::Key;
    let page = Page::open("");
    let key = |key: Key| char::from(key).to_string();
    page.press("#station-openings > summary", &key(Key::Enter));
    page.press("#part-outer-lid > summary", &key(Key::Enter));
    page.press("#outer-lid-face", "a long");
    page.wait_until("a lid on a long side", |page| {
        shown(page).outer.is_some_and(|outer| outer.lid.face == hushwright::enclosure::LidFace::Side)
    });
    page.press("#outer-lid-seals-slider", &key(Key::Right));
    page.wait_until("three seals", |page| page.value("#outer-lid-seals") == "3");
    assert!(page.text("#station-openings > summary").contains("side lid, 3 seals"));
    let names = "return [...document.querySelectorAll('.staircase :is(input, select)')].map(input => input.getAttribute('aria-label') \
                 ?? document.querySelector(`label[for='${input.id}']`)?.textContent)";
    page.script("document.querySelectorAll('.staircase details').forEach(part => { part.open = true })", Vec::new());
    let names = page.script(names, Vec::new());
    let names: Vec<_> = names.as_array().expect("a list").iter().map(|name| name.as_str().expect("a name")).collect();
    for once in
        ["Seals in a row, inner lid", "Seals in a row, outer lid", "Lid is, inner lid", "Number, feet", "Number, suspension"]
    {
        assert_eq!(names.iter().filter(|name| **name == once).count(), 1, "{once} among {names:?}");
    }
}

/// Level, limit and margin hang together, and the word follows the limit.
#[test]
fn the_answer_says_pass_at_risk_or_fail() {
    let page = Page::open("");
    page.unfold("#station-listener");
    assert_eq!(page.text("#verdict"), "fail");
    let level = number(&page.text("#answer"));
    assert!(page.text("#margin").starts_with(&format!("{} dB over", level - 30.0)), "{}", page.text("#margin"));
    for (limit, verdict) in [(level, "at risk"), (level + 20.0, "pass"), (level - 20.0, "fail")] {
        page.fill("#listeners-0-limit_dba", &limit.to_string());
        page.wait_until(verdict, |page| page.text("#verdict") == verdict);
    }
    page.text_when("#without-box", |text| text.contains("over the limit"));
}

#[test]
fn listeners_are_added_named_removed_and_kept_in_the_link() {
    let page = Page::open("");
    page.unfold("#station-listener");
    page.click("#listeners-add");
    page.wait_until("a second listener", |page| page.count("#part-listener-1") == 1);
    page.unfold("#part-listener-1");
    page.fill("#listeners-1-name", "Attic <b>room</b>");
    page.choose("#listeners-1-place", "outdoors");
    page.wait_until("the link with both", |page| {
        link::decode(&page.fragment()).is_ok_and(|design| {
            design.listeners.len() == 2
                && design.listeners[1].name == "Attic <b>room</b>"
                && design.listeners[1].place == Place::Outdoors
        })
    });
    let fragment = page.fragment();
    let other = Page::open(&fragment);
    assert_eq!(other.value("#listeners-1-name"), "Attic <b>room</b>");
    assert_eq!(other.count("#part-listener-1 h4 b"), 0, "a name is text, whatever is in it");
    page.click("#listeners-0-remove");
    page.wait_until("only the attic", |page| {
        page.count("#part-listener-1") == 0 && page.value("#listeners-0-name").starts_with("Attic")
    });
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

#[test]
fn a_pasted_spectrum_is_used_and_a_bad_line_is_named() {
    let page = Page::open("");
    page.unfold("#station-source");
    page.choose("#source-spectrum", "own");
    page.fill("#source-own_db", "Hz;dB\n63;90\n125;95,5\n250;92\n");
    page.wait_until("the pasted levels in the link", |page| {
        link::decode(&page.fragment()).is_ok_and(|design| design.source.own_db == [(63.0, 90.0), (125.0, 95.5), (250.0, 92.0)])
    });
    let (answer, fragment) = (page.text("#answer"), page.fragment());
    for (text, line) in [("63 90\n125 <i>x</i>", "Line 2: "), ("63 90\n250 92", "125 Hz is missing"), ("nonsense", "Line 1: ")] {
        page.fill("#source-own_db", text);
        page.wait_until("the message", |page| {
            page.count("#source-own_db-error") == 1 && page.text("#source-own_db-error").contains(line)
        });
        assert_eq!(
            (page.value("#source-own_db"), page.text("#answer"), page.fragment()),
            (text.to_owned(), answer.clone(), fragment.clone())
        );
    }
}

#[test]
fn a_listener_comes_unfolded_with_the_focus_and_undo_brings_a_removed_one_back() {
    let page = Page::open("");
    page.put_off(50);
    page.unfold("#station-listener");
    let alone = page.text("#answer");
    page.click("#listeners-add");
    page.wait_until("the focus in the name of the new listener", |page| page.focused() == "listeners-1-name");
    page.fill("#listeners-1-name", "Dormitory");
    page.choose("#listeners-1-place", "same-room");
    page.changed_text("#answer", &alone);
    page.click("#listeners-add");
    page.wait_until("the focus in the name of the third", |page| page.focused() == "listeners-2-name");
    for k in 0..3 {
        assert!(page.attribute(&format!("#part-listener-{k}"), "open").is_some(), "listener {k} stays unfolded");
    }
    page.click("#listeners-1-remove");
    page.text_when("#answer", |text| text == alone);
    page.wait_until("the focus on what adds one", |page| page.focused() == "listeners-add");
    page.click("#undo");
    page.changed_text("#answer", &alone);
    assert_eq!(page.value("#listeners-1-name"), "Dormitory");
}

#[test]
fn a_text_area_keeps_its_own_undo_and_what_was_typed() {
    let page = Page::open("");
    page.unfold("#station-source");
    page.choose("#source-spectrum", "own");
    page.wait_for("#source-own_db");
    page.fill("#source-own_db", "125 60\n250 loud");
    let message = page.text_when("#source-own_db-error", |text| !text.is_empty());
    assert!(message.contains("Line 2") && message.contains("loud"), "{message}");
    let undo = "const e = new KeyboardEvent('keydown', {key: 'z', ctrlKey: true, bubbles: true, cancelable: true}); \
                return document.querySelector('#source-own_db').dispatchEvent(e);";
    assert_eq!(page.script(undo, Vec::new()), true, "the key is left to the text area");
    assert_eq!(page.value("#source-own_db"), "125 60\n250 loud");
}
