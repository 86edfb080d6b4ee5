//! The view Build: its documents against the core called natively, numbers changed in place, files, prints, hostile text, small
//! screens; in headless Chromium.

use fantoccini::key::Key;
use hushwright::design::{Design, examples, link, run_in_box};
use hushwright::workshop::{Load, Plan, Purchase, plan};
use hushwright_tests::browser::{PHONE, Page, damaged_page};
use serde_json::json;

/// The documents, in their order.
const DOCUMENTS: [&str; 9] = ["sizes", "carrying", "weight", "joints", "cut-list", "sheets", "shopping", "work", "labels"];

/// A price that every box with a lid has in its list.
const PRICE: &str = "#own-latch";

/// The core's plan of a design.
fn planned(design: &Design) -> Plan {
    plan(&design.check().expect("a sound design")).expect("sheets that can be cut")
}

/// Opens Build with a design in a fresh profile; returns when its documents are there.
fn opened(design: &Design) -> Page {
    let page = Page::open(&format!("build/{}", link::encode(design)));
    page.wait_for("#plan-labels li");
    page
}

/// The design that the address holds.
fn shown(page: &Page) -> Design {
    link::decode(page.fragment().trim_start_matches("build/")).expect("the page writes good links")
}

/// The rows of a table's body, cell by cell as they are read; what stands in an input counts.
fn rows(page: &Page, table: &str) -> Vec<Vec<String>> {
    let code = "return [...document.querySelectorAll(arguments[0] + ' tbody tr')].map(row => [...row.cells].map(cell => \
                (cell.querySelector('input')?.value ?? cell.textContent).trim()))";
    serde_json::from_value(page.script(code, vec![table.into()])).expect("texts")
}

/// The number at the beginning of a text.
fn number(text: &str) -> f64 {
    let digits: String = text.chars().take_while(|c| c.is_ascii_digit() || *c == '-' || *c == '.').collect();
    digits.parse().unwrap_or_else(|_| panic!("no number in {text:?}"))
}

/// Whether `text` is `value`, rounded to whole units.
fn is_whole(text: &str, value: f64) -> bool {
    (number(text) - value).abs() <= 0.5
}

/// Waits until the answer and the last line of the shopping list say what the core reckons for `design`.
fn wait_for_sum(page: &Page, design: &Design) {
    let sum = planned(design).money.all();
    page.text_when("#cost", |text| text.starts_with(|c: char| c.is_ascii_digit()) && is_whole(text, sum));
    page.wait_until("the sum of the list", |page| {
        rows(page, ".shopping").last().and_then(|row| row.last().cloned()).is_some_and(|text| is_whole(&text, sum))
    });
}

/// `design` with a number of one's own.
fn with_own(design: &Design, key: &str, own: Option<f64>) -> Design {
    let mut design = design.clone();
    design.build.own.set(key, own);
    design
}

/// Replaces what stands in an input by typing, and goes on by the tabulator; `then` is typed where that leads.
fn type_and_tab(page: &Page, css: &str, text: &str, then: &str) {
    page.press(css, &format!("{}a{}{text}{}{then}", char::from(Key::Control), char::from(Key::Null), char::from(Key::Tab)));
}

/// The purchase after that of `PRICE` in the list.
fn next_purchase(plan: &Plan) -> &Purchase {
    let at = plan.purchases.iter().position(|purchase| purchase.key == "latch").expect("lids have latches");
    plan.purchases.get(at + 1).expect("more is bought than latches")
}

/// Every example has all documents, and they say what the core says natively.
#[test]
fn documents_agree_with_the_core() {
    for design in examples() {
        let (page, plan) = (opened(&design), planned(&design));
        let ids = page.script("return [...document.querySelectorAll('#documents > section')].map(s => s.id)", Vec::new());
        assert_eq!(ids, json!(DOCUMENTS.map(|id| format!("plan-{id}"))));
        let name = &design.name;
        let cut = rows(&page, ".cut");
        assert_eq!(cut.len(), plan.list.lines.len(), "{name}");
        for (row, line) in cut.iter().zip(&plan.list.lines) {
            assert_eq!(row[0].trim_end_matches(" ◦"), line.names.join(", "), "{name}");
            assert_eq!(row[1], line.names.len().to_string(), "{name}");
            assert!(
                (number(&row[2]) - line.length_mm).abs() <= 0.05 && (number(&row[3]) - line.width_mm).abs() <= 0.05,
                "{row:?}"
            );
        }
        let boards: usize = plan.list.lines.iter().map(|line| line.names.len()).sum();
        assert_eq!(page.count("#plan-labels li"), boards, "{name}");
        assert!(page.text("#plan-cut-list .hint").starts_with(&format!("{boards} boards.")), "{name}");
        let sheets: Vec<usize> = plan.layouts.iter().map(|layout| layout.sheets.len()).collect();
        let stock: Vec<f64> = rows(&page, ".stock").iter().map(|row| number(&row[6])).collect();
        assert_eq!(stock, sheets.iter().map(|count| *count as f64).collect::<Vec<_>>(), "{name}");
        assert_eq!(page.count("[data-save^=sheet-]"), sheets.iter().sum::<usize>(), "{name}");
        assert_eq!(rows(&page, ".shopping").len(), plan.purchases.len() + 1, "{name}: a line for each, and the sum");
        wait_for_sum(&page, &design);
        assert!(is_whole(&page.text("#hours"), plan.hours), "{name}: {} h", plan.hours);
        assert!(page.text("#plan-weight .sum").contains(&format!("{:.0} kg", plan.mass_kg)), "{name}: {} kg", plan.mass_kg);
        let twice = "const ids = [...document.querySelectorAll('[id]')].map(e => e.id); return ids.filter((id, k) => ids.indexOf(id) != k)";
        assert_eq!(page.script(twice, Vec::new()), json!([]), "{name}: ids are there once");
        assert_eq!(page.console_errors(), Vec::<String>::new(), "{name}");
    }
}

/// A price is changed in place: sum, link, undo; an emptied field is the usual price; the tabulator leads on.
#[test]
fn a_price_is_changed_in_place() {
    let design = run_in_box();
    let page = opened(&design);
    let usual = page.value(PRICE);
    let own = with_own(&design, "latch", Some(71.5));
    type_and_tab(&page, PRICE, "71,5", "");
    wait_for_sum(&page, &own);
    let next = format!("own-{}", next_purchase(&planned(&design)).key.replace('/', "-"));
    assert_eq!((page.focused(), page.value(PRICE)), (next, "71.5".to_owned()));
    page.wait_until("the link", |page| shown(page) == own);
    let other = Page::open(&page.fragment());
    wait_for_sum(&other, &own);
    assert_eq!(other.value(PRICE), "71.5");
    page.click("#undo");
    wait_for_sum(&page, &design);
    assert_eq!(page.value(PRICE), usual);
    page.click("#redo");
    wait_for_sum(&page, &own);
    page.press(PRICE, &format!("{}a{}{}", char::from(Key::Control), char::from(Key::Null), char::from(Key::Delete)));
    page.press(PRICE, &char::from(Key::Tab).to_string());
    wait_for_sum(&page, &design);
    assert_eq!((page.value(PRICE), shown(&page)), (usual, design));
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// Somebody who types on while the list is made anew loses no letter.
#[test]
fn what_is_typed_while_the_list_is_made_anew_stays() {
    let design = run_in_box();
    let page = opened(&design);
    let key = next_purchase(&planned(&design)).key.clone();
    let next = format!("#own-{}", key.replace('/', "-"));
    type_and_tab(&page, PRICE, "71", "4");
    let sum = planned(&with_own(&design, "latch", Some(71.0))).money.all();
    page.text_when("#cost", |text| is_whole(text, sum));
    page.press(&next, "9");
    assert_eq!(page.value(&next), "49");
    page.press(&next, &char::from(Key::Tab).to_string());
    wait_for_sum(&page, &with_own(&with_own(&design, "latch", Some(71.0)), &key, Some(49.0)));
}

/// Nonsense is refused where it was typed, with what is allowed; the sum stays, and so does what was typed.
#[test]
fn nonsense_is_refused_at_its_field() {
    let design = run_in_box();
    let page = opened(&design);
    let sum = page.text("#cost");
    let long = "9".repeat(400);
    for nonsense in ["many", "-5", "1e999", "NaN", "\"><b>7</b>", &long] {
        page.fill(PRICE, nonsense);
        page.wait_until("the field as typed, marked", |page| {
            page.value(PRICE) == nonsense && page.attribute(PRICE, "aria-invalid").as_deref() == Some("true")
        });
        assert_eq!(page.attribute(PRICE, "aria-describedby").as_deref(), Some("own-latch-error"));
        let message = page.text("#own-latch-error");
        assert!(message.contains("llowed is 0 to 10000000"), "{nonsense:.20}: {message}");
        assert_eq!((page.text("#cost"), shown(&page)), (sum.clone(), design.clone()), "{nonsense:.20}");
    }
    page.fill(PRICE, "-5");
    page.fill("#own-hinge", "30");
    let dear = with_own(&design, "hinge", Some(30.0));
    wait_for_sum(&page, &dear);
    let kept = |page: &Page| (page.value(PRICE), page.count("#own-latch-error"));
    assert_eq!(kept(&page), ("-5".to_owned(), 1));
    page.reload();
    page.wait_for("#own-latch-error");
    wait_for_sum(&page, &dear);
    assert_eq!((kept(&page), page.value("#own-hinge")), (("-5".to_owned(), 1), "30".to_owned()));
    page.fill(PRICE, "5");
    wait_for_sum(&page, &with_own(&dear, "latch", Some(5.0)));
    assert_eq!(kept(&page), ("5".to_owned(), 0));
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// A board that is 14 mm instead of 15 mm makes the inner box, and what stands round it, 2 mm smaller each way.
#[test]
fn a_measured_thickness_counts_everywhere() {
    let design = run_in_box();
    let page = opened(&design);
    let outside = |page: &Page| -> Vec<f64> { page.text("#outside-size").split(" × ").map(number).collect() };
    let before = outside(&page);
    let inner = |page: &Page| rows(page, ".sizes").swap_remove(1)[1..].to_vec();
    assert_eq!(inner(&page), ["730 mm", "530 mm", "530 mm"]);
    let measured = "[data-own^='measured:mdf/']";
    type_and_tab(&page, measured, "14", "");
    page.wait_until("the inner box of 14 mm", |page| inner(page) == ["728 mm", "528 mm", "528 mm"]);
    assert_eq!(outside(&page), before.iter().map(|mm| mm - 2.0).collect::<Vec<_>>());
    let thin = shown(&page);
    assert_eq!(thin.inner.layers[0].thickness_mm, Some(14.0));
    for (row, line) in rows(&page, ".cut").iter().zip(&planned(&thin).list.lines) {
        assert!((number(&row[2]) - line.length_mm).abs() <= 0.05 && (number(&row[3]) - line.width_mm).abs() <= 0.05, "{row:?}");
    }
    assert_ne!(planned(&thin).list.lines, planned(&design).list.lines);
    assert!(page.focused().starts_with("own-size-0"), "the focus has gone on, to {}", page.focused());
    // A usual size of sheets is chosen from a list.
    let choose = "const list = document.querySelector('#own-size-0'); list.value = '2500 1250'; \
                  list.dispatchEvent(new Event('change', {bubbles: true}))";
    page.script(choose, Vec::new());
    page.wait_until("sheets of 2500 mm", |page| shown(page).build.own.get("mdf/length") == Some(2500.0));
    assert_eq!(shown(&page).build.own.get("mdf/width"), Some(1250.0));
    // Finished by Enter, the focus stays.
    page.press(measured, &format!("{}a{}14.5{}", char::from(Key::Control), char::from(Key::Null), char::from(Key::Enter)));
    page.wait_until("the inner box of 14.5 mm", |page| inner(page) == ["729 mm", "529 mm", "529 mm"]);
    assert!(page.focused().starts_with("own-measured"), "the focus stays, not at {:?}", page.focused());
    type_and_tab(&page, measured, "0", "");
    page.text_when("#plan-sheets .refusal", |text| text.contains("llowed is"));
    assert_eq!(inner(&page), ["729 mm", "529 mm", "529 mm"]);
    type_and_tab(&page, measured, " ", "");
    page.wait_until("the nominal thickness", |page| inner(page) == ["730 mm", "530 mm", "530 mm"]);
    assert_eq!(page.count("#plan-sheets .refusal"), 0);
}

/// Sheets of one material have one size, whatever their thickness: both lines show it, and the focus stays in the line typed into.
#[test]
fn a_material_in_two_thicknesses_has_sheets_of_one_size() {
    let page = opened(&run_in_box());
    let lengths = "return [...document.querySelectorAll('[data-own=\"mdf/length\"]')].map(e => e.value)";
    assert_eq!(page.script(lengths, Vec::new()).as_array().map(Vec::len), Some(2), "walls and baffle");
    let last = page.script("return [...document.querySelectorAll('[data-own=\"mdf/length\"]')].pop().id", Vec::new());
    let last = last.as_str().expect("an id");
    type_and_tab(&page, &format!("#{last}"), "2000", "");
    page.wait_until("both", |page| page.script(lengths, Vec::new()) == json!(["2000", "2000"]));
    assert_eq!(page.focused(), last.replace("length", "width"));
}

/// Boards larger than a sheet, and a box that no door lets through, say so.
#[test]
fn what_is_too_large_says_so() {
    let mut design = run_in_box();
    design.inner.length_mm = 2600.0;
    let plan = planned(&design);
    let too_big: usize = plan.layouts.iter().map(|layout| layout.too_big.len()).sum();
    assert!(too_big > 0, "longer than sheets are");
    let page = opened(&design);
    assert_eq!(page.count("#plan-sheets .alarm"), too_big);
    let text = page.text("#plan-sheets .alarm");
    assert!(text.contains("larger than a sheet") && text.contains("butt joint") && text.contains("equal pieces"), "{text}");
    let mut design = run_in_box();
    design.build.way.door_width_mm = 400.0;
    let passes = |load: Load| {
        let plan = planned(&design);
        plan.carrying
            .iter()
            .find(|own| own.what == load)
            .and_then(|own| own.passage.clone())
            .expect("boxes have a passage")
            .passes
    };
    // 500 mm inside does not go through 400 mm, however it is held.
    assert!(!passes(Load::Whole));
    let page = opened(&design);
    page.text_when("#plan-carrying .alarm", |text| text == "✗ stopped by the width of the door");
    page.text_when(".outside-size dt", |text| text.contains("door ✗"));
    page.unfold("#part-way");
    page.fill("#build-way-door_width_mm", "900");
    page.text_when(".outside-size dt", |text| text.contains("door ✓"));
    page.text_when("#plan-carrying .good", |text| text.starts_with('✓'));
}

/// Clicks a button whose file is caught instead of saved: its name and what is in it.
fn saved(page: &Page, button: &str) -> (String, String) {
    let code = "HTMLAnchorElement.prototype.click = function () { window.saved = [this.download, null]; \
                blobs[this.href].text().then(text => { window.saved[1] = text }) }; window.saved = null";
    page.keep_blobs();
    page.script(code, Vec::new());
    page.click(button);
    let read = |page: &Page| page.script("return window.saved && window.saved[1] !== null ? window.saved : null", Vec::new());
    page.wait_until("the file", |page| read(page).is_array());
    let file = read(page);
    let text = |k: usize| file[k].as_str().expect("a text").to_owned();
    (text(0), text(1))
}

/// What is saved is the core's cut list, as RFC 4180 has it (read by the crate `csv`), and a drawing that is an SVG without script.
#[test]
fn the_cut_list_and_the_drawings_are_saved() {
    let design = Design { name: "Box <script>alert(1)</script>".to_owned(), ..run_in_box() };
    let page = opened(&design);
    let (name, text) = saved(&page, "[data-save=csv]");
    assert_eq!(name, "Box-script-alert(1)-script-cut-list.csv");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    assert_eq!(reader.headers().expect("a head").len(), 9);
    let records: Vec<csv::StringRecord> = reader.records().map(|record| record.expect("a line")).collect();
    let list = planned(&design).list;
    assert_eq!(records.len(), list.lines.len());
    for (record, line) in records.iter().zip(&list.lines) {
        let board = &list.boards[line.board];
        assert_eq!((&record[0], &record[6]), (line.names.join("; ").as_str(), board.name.as_str()));
        let number = |k: usize| record[k].parse::<f64>().expect("a number");
        assert_eq!((number(1), number(7)), (line.names.len() as f64, board.thickness_mm));
        assert!((number(2) - line.length_mm).abs() <= 0.05 && (number(3) - line.width_mm).abs() <= 0.05, "{record:?}");
    }
    let (name, text) = saved(&page, "[data-save=sheet-1]");
    assert!(name.ends_with("-sheet-1.svg"), "{name}");
    assert_eq!(page.console_errors(), Vec::<String>::new());
    // Read within the page, the style sheet of the file is refused, which is said in the console.
    let judged = "const d = new DOMParser().parseFromString(arguments[0], 'image/svg+xml'); const all = [...d.querySelectorAll('*')]; \
        return [d.querySelectorAll('parsererror, script, foreignObject, a, image').length, \
        all.filter(e => [...e.attributes].some(a => a.name.startsWith('on') || /script:|https?:/.test(a.name.startsWith('xmlns') ? '' : a.value))).length, \
        d.documentElement.nodeName, d.documentElement.namespaceURI, d.querySelectorAll('text').length, \
        [...arguments[0].matchAll(/var[(](--[a-z-]+)/g)].filter(([_, name]) => !arguments[0].includes(name + ':')).length]";
    let parts = page.script(judged, vec![text.into()]);
    assert_eq!((parts[0].as_u64(), parts[1].as_u64(), parts[2].as_str()), (Some(0), Some(0), Some("svg")), "{parts}");
    assert_eq!(
        (parts[3].as_str(), parts[5].as_u64()),
        (Some("http://www.w3.org/2000/svg"), Some(0)),
        "colours are in it: {parts}"
    );
    assert!(parts[4].as_u64() > Some(3), "the parts have their names: {parts}");
}

/// Only what is to be printed is, and nothing stays of it.
#[test]
fn labels_are_printed_alone() {
    let page = opened(&run_in_box());
    let stub = "window.prints = []; window.print = () => { window.prints.push(['#plan-labels', '#plan-cut-list', '.bench'] \
                .map(css => document.querySelector(css).closest('.prints-one') ? document.querySelector(css).classList.contains('printed') : null)); \
                dispatchEvent(new Event('afterprint')); }";
    page.script(stub, Vec::new());
    let prints = |page: &Page| page.script("return window.prints", Vec::new());
    page.click("[data-print=plan-labels]");
    assert_eq!(prints(&page), json!([[true, false, false]]));
    page.click("[data-print=plan-cut-list]");
    page.click("#print-build");
    assert_eq!(prints(&page), json!([[true, false, false], [false, true, false], [null, null, null]]));
    assert_eq!(page.count(".printed, .prints-one"), 0);
}

/// The inside is made as large as what stands in it needs, as one step.
#[test]
fn the_inside_is_fitted_to_what_stands_in_it() {
    let design = run_in_box();
    let needed = planned(&design).needed.size_mm.map(f64::ceil);
    let inside = |design: &Design| [design.inner.length_mm, design.inner.width_mm, design.inner.height_mm];
    assert_ne!(needed, inside(&design), "the example has room to spare");
    let page = opened(&design);
    let words = page.text("#fit-inside");
    assert_eq!(words, format!("Make the inside {} mm", needed.map(|mm| mm.to_string()).join(" × ")));
    page.click("#fit-inside");
    page.wait_until("the inside in the link", |page| inside(&shown(page)) == needed);
    page.wait_until("no button", |page| page.count("#fit-inside") == 0);
    page.wait_until("room", |page| page.text("#plan-sizes").contains("What stands in it has room."));
    page.click("#undo");
    page.wait_until("the inside of before", |page| shown(page) == design);
    page.wait_for("#fit-inside");
}

/// Without its program there are no documents, and all else goes on.
#[test]
fn without_the_workshop_the_estimate_works() {
    let folder =
        damaged_page("no-workshop", ["workshop", "_bg.wasm"], |path| std::fs::remove_file(path).expect("a file of this test"));
    let page = Page::serving(folder.clone());
    page.go("");
    let before = page.text("#answer");
    assert_eq!(before, Page::open("").text("#answer"));
    page.text_when("#cost", |text| text == "–");
    page.unfold("#station-source");
    page.fill("#source-level_dba", "92");
    page.changed_text("#answer", &before);
    page.click("#to-build");
    page.text_when("#documents", |text| text.contains("could not be loaded"));
    page.fill("#notes", "by hand");
    page.wait_until("the notes in the link", |page| shown(page).notes == "by hand");
    assert_eq!(page.count("#cannot-start, #recovery:not([hidden])"), 0);
    drop(page);
    std::fs::remove_dir_all(folder).expect("a folder of this test");
}

/// Marks in names, notes, currency and prices are text everywhere.
#[test]
fn marks_in_texts_are_text() {
    let image = "<img src=x onerror=\"window.ran=1\">";
    let mut design = run_in_box();
    (design.name, design.notes) = (format!("A {image}"), format!("\"></textarea><script>window.ran=1</script>{image}"));
    design.build.currency = "\"><s>&".to_owned();
    design.listeners[0].name = image.to_owned();
    let page = opened(&design);
    page.run_first("window.ran = 0");
    page.reload();
    page.wait_for("#plan-labels li");
    page.text_when("#cost", |text| text.ends_with(" \"><s>&"));
    assert!(page.text(".shopping thead").contains("Together, \"><s>&"));
    assert_eq!((page.value("#notes"), page.value("#build-currency")), (design.notes.clone(), design.build.currency.clone()));
    page.fill(PRICE, &format!("\">{image}<script>window.ran=1</script>"));
    page.wait_for("#own-latch-error");
    page.fill("#build-currency", "<i>'`");
    page.wait_until("the other currency", |page| page.text(".shopping thead").contains("Together, <i>'`"));
    page.script("window.print = () => dispatchEvent(new Event('afterprint'))", Vec::new());
    page.click("[data-print=plan-labels]");
    saved(&page, "[data-save=sheet-1]");
    let marks = "return [window.ran, document.querySelectorAll('main :is(img, script, s, [onerror]), #documents i').length]";
    assert_eq!(page.script(marks, Vec::new()), json!([0, 0]));
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// On a phone tables scroll within themselves, not the page.
#[test]
fn on_a_phone_the_page_does_not_scroll_sideways() {
    for design in examples() {
        let page = opened(&design);
        page.resize(PHONE);
        for units in ["metric", "imperial"] {
            page.choose("#units", units);
            let unit = if units == "metric" { "mm" } else { "in" };
            page.text_when("#plan-sheets .stock tbody td", |text| text.ends_with(unit));
            page.fill(PRICE, "9".repeat(60).as_str());
            page.wait_for("#own-latch-error");
            page.wait_until("all unfolded", |page| {
                let closed = "const closed = [...document.querySelectorAll('#view-build details')].filter(d => !d.open); \
                              closed.forEach(d => { d.open = true }); return closed.length";
                page.script(closed, Vec::new()) == 0
            });
            let wide = page.script("return document.scrollingElement.scrollWidth", Vec::new());
            assert!(wide.as_u64() <= Some(u64::from(PHONE.0)), "{}, {units}: {wide} px wide", design.name);
            page.click("#undo");
            page.wait_until("no refusal", |page| page.count("#own-latch-error") == 0);
        }
    }
}

/// While sliders move the documents may lag; at their end they say what the core says.
#[test]
fn documents_follow_a_slider_to_its_end() {
    let page = opened(&run_in_box());
    page.unfold("#part-way");
    for (slider, key) in [("#build-contents-length_mm-slider", Key::Right), ("#build-way-door_width_mm-slider", Key::Left)] {
        page.wait_for(slider);
        for _ in 0..50 {
            page.press(slider, &char::from(key).to_string());
        }
    }
    page.wait_until("both in the link", |page| {
        let build = shown(page).build;
        (build.contents.length_mm, build.way.door_width_mm) == (165.0 + 50.0 * 5.0, 800.0 - 50.0 * 5.0)
    });
    let plan = planned(&shown(&page));
    let needed = format!("{} mm", plan.needed.size_mm[0]);
    page.wait_until("the length that is needed", |page| rows(page, ".sizes").last().is_some_and(|row| row[1] == needed));
    let passes = plan.carrying[0].passage.as_ref().expect("the whole has a passage").passes;
    page.wait_until("whether it passes", |page| page.count("#plan-carrying p.good") == usize::from(passes));
    page.wait_until("the button", |page| page.text("#fit-inside").contains(&plan.needed.size_mm[0].ceil().to_string()));
    assert_eq!(page.console_errors(), Vec::<String>::new());
}
