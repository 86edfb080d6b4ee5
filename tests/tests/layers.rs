//! The layers of a box on the page: moved by keys, by hand and by buttons, copied, mirrored, made of one's own material, in headless
//! Chromium.

use fantoccini::key::Key;
use hushwright::buildup::raw::NameOr;
use hushwright::design::{Design, link};
use hushwright_tests::browser::{PHONE, Page};

/// The design that the address of the page holds; the example while nothing has changed.
fn shown(page: &Page) -> Design {
    let fragment = page.fragment();
    if fragment.is_empty() { Design::default() } else { link::decode(&fragment).expect("the page writes good links") }
}

/// The sheets of the outer box, from the inside out; one of numbers as `own`.
fn outer(page: &Page) -> String {
    let layers = shown(page).outer.expect("two boxes").layers;
    let key = |sheet: NameOr<_>| if let NameOr::Name(key) = sheet { key } else { "own".to_owned() };
    layers.into_iter().filter_map(|layer| layer.sheet.map(key)).collect::<Vec<_>>().join(" ")
}

const FIRST: &str = "birch-plywood gypsum-board particle-board";

fn opened(fragment: &str) -> Page {
    let page = Page::open(fragment);
    page.unfold("#station-outer");
    page.unfold("#part-outer-walls");
    page
}

/// A pointer that takes the grip of a sheet, moves down by `by` px in steps, and lets go; what is marked on the way is returned.
fn drag(page: &Page, grip: &str, by: i32, lets_go: &str) -> String {
    let code = "
        const [id, by, end] = arguments;
        const grip = document.getElementById(id);
        grip.scrollIntoView({ block: 'center' });
        const box = grip.getBoundingClientRect();
        const at = (type, y) => grip.dispatchEvent(new PointerEvent(type, {
            bubbles: true, cancelable: true, pointerId: 1, button: 0, clientX: box.x + 9, clientY: box.y + 9 + y }));
        const step = () => new Promise(done => setTimeout(done, 30));
        return (async () => {
            at('pointerdown', 0); await step();
            for (let k = 1; k <= 4; k += 1) { at('pointermove', by * k / 4); await step(); }
            const marks = [...document.querySelectorAll('.layers li')].map(li => li.className).filter(name => name).join(' ');
            const picture = document.querySelector('.pile .carried')?.textContent ?? '';
            at(end, by); await step();
            return marks + ' | ' + picture;
        })();";
    page.script(code, vec![grip.into(), by.into(), lets_go.into()]).as_str().expect("what was marked").to_owned()
}

#[test]
fn a_sheet_is_moved_by_the_keys_of_its_grip_and_takes_the_focus_along() {
    let page = opened("");
    page.put_off(50);
    let down = char::from(Key::Down).to_string();
    let up = char::from(Key::Up).to_string();
    page.press("#outer-layers-0-grip", &down);
    page.wait_until("the next place", |page| outer(page) == "gypsum-board birch-plywood particle-board");
    page.wait_until("the focus on the grip", |page| page.focused() == "outer-layers-2-grip");
    assert_eq!(page.text("#outer-layers-said"), "Sheet 2 of 3, Birch plywood");
    page.press("#outer-layers-2-grip", &down);
    page.wait_until("the last place", |page| page.focused() == "outer-layers-4-grip");
    page.press("#outer-layers-4-grip", &down);
    page.press("#outer-layers-4-grip", &up);
    page.wait_until("the place before", |page| outer(page) == "gypsum-board birch-plywood particle-board");
    // What is typed and refused goes with its sheet.
    page.fill("#outer-layers-2-thickness_mm", "900");
    page.wait_for("#outer-layers-2-thickness_mm-error");
    page.press("#outer-layers-2-grip", &up);
    page.wait_until("what was typed at the first place", |page| page.value("#outer-layers-0-thickness_mm") == "900");
    for _ in 0..8 {
        if page.attribute("#undo", "aria-disabled").is_none() {
            page.click("#undo");
        }
    }
    page.wait_until("the order of before", |page| outer(page) == FIRST);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

#[test]
fn a_sheet_is_carried_to_its_place_by_hand_and_shows_where_it_lands() {
    for size in [(1366, 768), PHONE] {
        let page = opened("");
        page.resize(size);
        let marks = drag(&page, "outer-layers-0-grip", 420, "pointercancel");
        assert!(marks.contains("carried") && marks.contains("lands-after"), "{marks}");
        assert_eq!(
            (outer(&page).as_str(), page.count(".layers .carried")),
            (FIRST, 0),
            "a drag that is broken off moves nothing"
        );
        let marks = drag(&page, "outer-layers-0-grip", 420, "pointerup");
        assert!(marks.contains("Birch plywood"), "the picture shows it where it would lie: {marks}");
        page.wait_until("the sheet further out", |page| outer(page) != FIRST);
        assert!(outer(&page).starts_with("gypsum-board "), "{}", outer(&page));
        page.click("#undo");
        page.wait_until("one step back", |page| outer(page) == FIRST);
        let marks = drag(&page, "outer-layers-4-grip", -900, "pointerup");
        assert!(marks.contains("lands-before"), "{marks}");
        page.wait_until("the sheet innermost", |page| outer(page) == "particle-board birch-plywood gypsum-board");
        page.click("#undo");
        page.wait_until("one step back", |page| outer(page) == FIRST && page.attribute("#undo", "aria-disabled").is_some());
        assert_eq!(page.focused(), "undo", "who has pressed it stays there");
        assert_eq!(page.console_errors(), Vec::<String>::new());
    }
}

#[test]
fn sheets_are_copied_and_mirrored_and_the_buttons_say_why_they_are_off() {
    let page = opened("");
    page.click("#outer-layers-2-copy");
    page.wait_until("a second gypsum board", |page| outer(page) == "birch-plywood gypsum-board gypsum-board particle-board");
    page.click("#outer-layers-mirror");
    page.wait_until("the order reversed", |page| outer(page) == "particle-board gypsum-board gypsum-board birch-plywood");
    let mirrored = page.fragment();
    page.click("#outer-layers-0-remove");
    page.wait_until("three", |page| outer(page) == "gypsum-board gypsum-board birch-plywood");
    for expected in [
        "particle-board gypsum-board gypsum-board birch-plywood",
        "birch-plywood gypsum-board gypsum-board particle-board",
        FIRST,
    ] {
        page.click("#undo");
        page.wait_until(expected, |page| outer(page) == expected);
    }
    // A link opens the stack as it was.
    let other = opened(&mirrored);
    assert_eq!(other.value("#outer-layers-0-sheet"), "particle-board");
    assert_eq!(other.value("#outer-layers-1-bond"), "loose");
    let why = |page: &Page, id: &str| {
        assert!(page.attribute(id, "disabled").is_some(), "{id}");
        page.attribute(id, "title").expect("a reason")
    };
    page.script("document.querySelector('#part-inner-walls').open = true", Vec::new());
    assert!(why(&page, "#inner-layers-0-remove").contains("at least one sheet"));
    assert!(why(&page, "#inner-layers-mirror").contains("its own mirror image"));
    assert!(why(&page, "#outer-layers-0-inwards").contains("innermost"));
    page.unfold("#station-room");
    page.unfold("#part-feet");
    page.choose("#feet-kind", "rigid");
    for count in 4..=8 {
        page.click("#outer-layers-add");
        page.wait_until("one more", |page| outer(page).split(' ').count() == count);
    }
    assert!(why(&page, "#outer-layers-add").contains("8 sheets are the most"));
    assert!(why(&page, "#outer-layers-6-copy").contains("8 sheets are the most"));
    assert_eq!(page.accessibility_violations(), Vec::<String>::new());
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// Targets are large enough for a thumb, and nothing is wider than the phone.
#[test]
fn a_phone_holds_the_stack() {
    let page = opened("");
    page.resize(PHONE);
    page.choose("#outer-layers-0-sheet", "own");
    page.wait_for("#outer-layers-0-sheet-density");
    let code = "
        const boxes = [...document.querySelectorAll('#part-outer-walls :is(button, select, input)')].map(e => e.getBoundingClientRect());
        const least = Math.min(...boxes.map(box => Math.min(box.width, box.height)));
        const right = Math.max(...boxes.map(box => box.right));
        return [least, right, document.documentElement.scrollWidth];";
    let found = page.script(code, Vec::new());
    let number = |k: usize| found[k].as_f64().expect("a number");
    assert!(number(0) >= 24.0 && number(1) <= 390.0 && number(2) <= 390.0, "{found}");
}

#[test]
fn a_material_of_ones_own_takes_numbers_refuses_nonsense_and_travels_by_link() {
    let page = opened("");
    page.choose("#outer-layers-0-sheet", "own");
    page.wait_until("numbers in the link", |page| outer(page) == "own gypsum-board particle-board");
    assert_eq!(page.value("#outer-layers-0-sheet-density"), "680", "those of the plywood that it was");
    assert_eq!(page.value("#outer-layers-0-sheet-youngs_modulus"), "8");
    let (answer, before) = (page.text("#answer"), page.fragment());
    for (field, nonsense, allowed) in [
        ("density", "-3", "10 to 25000 kg/m³"),
        ("density", "<b>heavy</b>", "10 to 25000 kg/m³"),
        ("youngs_modulus", "NaN", "0.00001 to 1000 GPa"),
        ("poisson", "0.5", "0 to 0.4999"),
        ("loss_factor", "3", "0 to 2"),
        ("shear_modulus", "0", "0.00001 to 1000 GPa"),
    ] {
        let id = format!("#outer-layers-0-sheet-{field}");
        page.fill(&id, nonsense);
        let message = page.text(&format!("{id}-error"));
        assert!(message.contains(allowed), "{field}: {message}");
        assert_eq!(
            (page.value(&id), page.text("#answer"), page.fragment()),
            (nonsense.to_owned(), answer.clone(), before.clone())
        );
        page.click("#undo");
        page.wait_until("the message to go", |page| page.count(&format!("{id}-error")) == 0);
    }
    page.fill("#outer-layers-0-sheet-density", "1200,5");
    page.changed_text("#mass", "126 kg");
    page.choose("#outer-layers-0-shear", "isotropic");
    page.wait_until("no shear modulus of its own", |page| page.count("#outer-layers-0-sheet-shear_modulus") == 0);
    page.text_when("#cost", |text| text.ends_with('+'));
    page.click("#to-build");
    page.text_when(".shopping", |text| text.contains("Own material") && text.contains("no price"));
    page.click("#to-estimate");
    let (answer, fragment) = (page.text("#answer"), page.fragment());
    let other = opened(&fragment);
    assert_eq!((other.text("#answer"), other.value("#outer-layers-0-sheet-density")), (answer, "1200.5".to_owned()));
    other.choose("#outer-layers-0-sheet", "birch-plywood");
    other.wait_until("a material with a name again", |page| outer(page) == FIRST && page.count(".own-material") == 0);
    for _ in 0..3 {
        page.click("#undo");
    }
    page.wait_until("the plywood of before", |page| outer(page) == FIRST && page.attribute("#undo", "aria-disabled").is_some());
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

#[test]
fn an_old_cabinet_is_measured_outside_and_costs_nothing() {
    let page = Page::open("");
    let cost = page.text_when("#cost", |text| text.starts_with(|letter: char| letter.is_ascii_digit()));
    assert_eq!(page.count("#inner-outside-length_mm"), 0);
    page.choose("#inner-existing", "true");
    page.changed_text("#cost", &cost);
    assert_eq!(page.value("#inner-outside-length_mm"), "730");
    assert!(page.text(".cut .names").contains("Old cabinet: MDF"));
    page.click("#to-build");
    page.text_when(".layers-table", |text| text.contains("MDF, 15 mm, there already"));
    let sawn = page.text(".cut tbody");
    assert!(!sawn.contains("I1") && sawn.contains("O1"), "only the outer box is sawn: {sawn}");
    page.click("#to-estimate");
    page.wait_for("#inner-outside-length_mm");
    page.fill("#inner-outside-length_mm", "20");
    let message = page.text("#inner-outside-length_mm-error");
    assert!(message.contains("130 to 3030 mm"), "{message}");
    page.fill("#inner-outside-length_mm", "760");
    page.wait_until("the inside to follow", |page| page.value("#inner-length_mm") == "730");
    page.unfold("#part-inner-walls");
    page.fill("#inner-layers-0-thickness_mm", "20");
    page.wait_until("less inside", |page| page.value("#inner-length_mm") == "720");
    assert_eq!(page.value("#inner-outside-length_mm"), "760");
    page.click("#inner-layers-add");
    page.wait_for("#inner-layers-2-grip");
    assert!(page.attribute("#inner-layers-0-grip", "disabled").is_some(), "it stays innermost");
    assert_eq!(page.accessibility_violations(), Vec::<String>::new());
    for _ in 0..4 {
        page.click("#undo");
    }
    page.text_when("#cost", |text| text == cost);
    assert_eq!((page.count("#inner-outside-length_mm"), page.console_errors()), (0, Vec::<String>::new()));
}
