//! The view Compare: a copy that stays while the design changes, its link, swaps and the way back, what a link can hold that is no
//! design, small screens; in headless Chromium.

use fantoccini::key::Key;
use hushwright::design::{Design, examples, link};
use hushwright::evaluate::{Report, evaluate};
use hushwright_tests::browser::{LAPTOP, PHONE, PROJECTOR, Page};
use serde_json::json;

/// What the core says of a design.
fn report(design: &Design) -> Report {
    evaluate(&design.check().expect("a sound design"))
}

/// The fragments of the examples.
fn fragments() -> Vec<String> {
    examples().iter().map(link::encode).collect()
}

/// The schedule, row by row: what a cell shows, its difference behind a bar.
fn schedule(page: &Page) -> Vec<Vec<String>> {
    let code = "return [...document.querySelectorAll('.schedule.whole tbody tr')].map(row => [...row.cells].map(cell => {
        const change = cell.querySelector('.change'), text = [...cell.childNodes].filter(node => node.nodeType === 3);
        return text.map(node => node.data).join('').trim() + (change ? '|' + change.textContent : cell.matches('.differs') ? '|' : '');
    }))";
    serde_json::from_value(page.script(code, Vec::new())).expect("texts")
}

/// The cells of the row with this name.
fn row(page: &Page, name: &str) -> Option<Vec<String>> {
    schedule(page).into_iter().find(|row| row[0] == name).map(|row| row[1..].to_vec())
}

/// As [`row`], of one that is there.
fn cells(page: &Page, name: &str) -> Vec<String> {
    row(page, name).unwrap_or_else(|| panic!("there is no row {name}: {:?}", schedule(page)))
}

/// The names over the columns.
fn names(page: &Page) -> Vec<String> {
    let code = "return [...document.querySelectorAll('.schedule.whole .called')].map(name => name.textContent)";
    serde_json::from_value(page.script(code, Vec::new())).expect("texts")
}

/// Waits until as many designs stand side by side, and what the workshop says of them has come.
fn wait_for_columns(page: &Page, count: usize) {
    page.wait_until("the columns", |page| names(page).len() == count);
    page.wait_until("what the workshop says", |page| {
        row(page, "To buy").is_some_and(|cells| cells.iter().all(|cell| !cell.starts_with('…')))
    });
}

/// Opens a comparison in a fresh profile.
fn opened(fragment: &str, count: usize) -> Page {
    let page = Page::open(fragment);
    wait_for_columns(&page, count);
    page
}

/// Goes to a view by the head of the page.
fn go(page: &Page, view: &str) {
    page.click(&format!("#to-{view}"));
    page.wait_for(&format!("#view-{view}:not([hidden])"));
}

/// A whole number with its sign, as differences are shown.
fn signed(number: f64) -> String {
    format!("{}{:.0}", if number < 0.0 { '\u{2212}' } else { '+' }, number.abs())
}

/// A copy of the design stays while the design changes; what changed is told with its sign, in results and inputs, in either units.
#[test]
fn a_copy_is_compared_with_what_becomes_of_the_design() {
    let page = Page::open("");
    go(&page, "compare");
    wait_for_columns(&page, 1);
    assert!(page.text("#compare-said").starts_with("Nothing"));
    page.click("#compare-freeze");
    wait_for_columns(&page, 2);
    let own = link::encode(&Design::default());
    page.wait_until("the address", |page| page.fragment() == format!("compare/{own}/{own}"));
    assert_eq!(page.text(".schedule th:nth-child(3) .note"), "the same as A");
    assert!(schedule(&page).iter().flatten().all(|cell| !cell.contains('|')), "{:?}", schedule(&page));
    go(&page, "estimate");
    page.unfold("#station-source");
    page.fill("#source-level_dba", "102");
    page.unfold("#station-gap");
    page.fill("#gap-depth_mm", "80");
    go(&page, "compare");
    wait_for_columns(&page, 2);
    let mut changed = Design::default();
    (changed.source.level_dba, changed.gap.depth_mm) = (102.0, 80.0);
    let (a, b) = (report(&changed), report(&Design::default()));
    let dba = |report: &Report| report.answer().dba.round();
    let expected = [format!("{:.0} dBA", dba(&a)), format!("{:.0} dBA|{} dB", dba(&b), signed(dba(&b) - dba(&a)))];
    assert_eq!(cells(&page, "Level at the listener"), expected);
    let kg = |report: &Report| report.bill.mass_kg.round();
    let expected = [format!("{:.0} kg", kg(&a)), format!("{:.0} kg|{} kg", kg(&b), signed(kg(&b) - kg(&a)))];
    assert_eq!(cells(&page, "Mass"), expected);
    assert_eq!(cells(&page, "Level at 1 m, dBA"), ["102", "112|+10"]);
    assert_eq!(cells(&page, "Gap depth, mm"), ["80", "50|\u{2212}30"]);
    page.choose("#units", "imperial");
    page.wait_until("inches", |page| row(page, "Gap depth, in").is_some());
    assert_eq!(cells(&page, "Gap depth, in"), ["3.15", "1.969|\u{2212}1.181"], "80 mm, 50 mm, 30 mm in inches of 25.4 mm");
    page.choose("#units", "metric");
    // All that is the same is folded away, and there when it is wanted.
    let alike = page.text("#compare-alike summary");
    let count: usize = alike.split(' ').next().and_then(|count| count.parse().ok()).expect("a number of inputs");
    assert!(alike.ends_with("inputs are alike") && count > 60, "{alike}");
    page.unfold("#compare-alike");
    page.wait_until("the rows", |page| page.count("#compare-alike tbody tr:not(.place)") == count);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// A comparison opens in a fresh profile as it was, and outlives reloads, other views, and ways back and forth.
#[test]
fn a_comparison_is_its_link() {
    let [a, b, c] = <[String; 3]>::try_from(fragments()).expect("three examples");
    let fragment = format!("compare/{a}/{b}/{c}");
    let page = opened(&fragment, 3);
    let whole = schedule(&page);
    assert_eq!(names(&page), examples().into_iter().map(|design| design.name).collect::<Vec<_>>());
    for (k, design) in examples().iter().enumerate() {
        let shown = cells(&page, "Level in the room")[k].clone();
        assert!(shown.starts_with(&format!("{:.0} dBA", report(design).stations.room.dba)), "{shown}");
    }
    page.reload();
    wait_for_columns(&page, 3);
    assert_eq!((page.fragment(), schedule(&page)), (fragment.clone(), whole.clone()));
    let other = opened(&fragment, 3);
    assert_eq!(schedule(&other), whole);
    // Another view has the design's own link, and the others come back with the view.
    go(&page, "learn");
    page.wait_until("its address", |page| page.fragment() == format!("learn/{a}"));
    page.reload();
    page.text("#answer");
    go(&page, "compare");
    wait_for_columns(&page, 3);
    assert_eq!((page.fragment(), schedule(&page)), (fragment.clone(), whole.clone()));
    page.script("history.back()", Vec::new());
    page.wait_for("#view-learn, .learn");
    page.script("history.forward()", Vec::new());
    wait_for_columns(&page, 3);
    assert_eq!((page.fragment(), schedule(&page)), (fragment, whole));
    // A link with the design alone says that nothing stands beside it; the name of the view says nothing of that.
    page.script("location.hash = arguments[0]", vec![json!(format!("compare/{b}"))]);
    wait_for_columns(&page, 1);
    assert_eq!(names(&page), [examples()[1].name.clone()]);
    page.script("location.hash = arguments[0]", vec![json!(format!("compare/{b}/{c}"))]);
    wait_for_columns(&page, 2);
    page.script("location.hash = 'compare'", Vec::new());
    page.wait_until("the whole address again", |page| page.fragment() == format!("compare/{b}/{c}") || names(page).len() == 2);
    assert_eq!(names(&page), [examples()[1].name.clone(), examples()[2].name.clone()]);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// An example, a pasted address and a copy are set beside; opening one swaps it, and that is undone; one is taken away.
#[test]
fn designs_are_set_beside_opened_and_taken_away() {
    let [a, b, c] = <[String; 3]>::try_from(fragments()).expect("three examples");
    let page = opened("compare", 1);
    page.put_off(50);
    page.choose("#compare-which", "1");
    page.click("#compare-put");
    wait_for_columns(&page, 2);
    page.fill("#compare-link", "https://example.org/#v1.cut");
    page.click("#compare-paste");
    page.text_when("#compare-error", |text| text.contains("cut short"));
    page.fill("#compare-link", &format!("https://example.org/some/where#build/{c}"));
    page.press("#compare-link", &char::from(Key::Enter).to_string());
    wait_for_columns(&page, 3);
    assert_eq!((page.count("#compare-error"), page.value("#compare-link")), (0, String::new()));
    page.wait_until("the address", |page| page.fragment() == format!("compare/{a}/{b}/{c}"));
    page.click("#compare-open-c");
    page.wait_until("the swap", |page| page.fragment() == format!("compare/{c}/{b}/{a}"));
    assert_eq!(page.value("#name"), examples()[2].name);
    page.click("#undo");
    page.wait_until("the way back", |page| page.fragment() == format!("compare/{a}/{b}/{c}"));
    page.click("#redo");
    page.wait_until("and forth", |page| page.fragment() == format!("compare/{c}/{b}/{a}"));
    page.reload();
    wait_for_columns(&page, 3);
    page.click("#undo");
    page.wait_until("the way back after a reload", |page| page.fragment() == format!("compare/{a}/{b}/{c}"));
    page.click("#compare-freeze");
    wait_for_columns(&page, 4);
    for button in ["#compare-freeze", "#compare-put", "#compare-paste"] {
        assert_eq!(page.attribute(button, "aria-disabled").as_deref(), Some("true"), "{button}: there is no room");
    }
    assert_eq!(page.focused(), "compare-freeze", "who has pressed it stays there");
    page.fill("#compare-link", &c);
    page.press("#compare-link", &char::from(Key::Enter).to_string());
    page.text_when("#compare-error", |text| text.contains("Take one away"));
    assert_eq!(page.value("#compare-link"), c, "what was typed stays");
    page.click("#compare-remove-b");
    wait_for_columns(&page, 3);
    page.wait_until("the address", |page| page.fragment() == format!("compare/{a}/{c}/{a}"));
    page.wait_until("the focus on the title", |page| page.focused() == "compare-title");
    page.click("#compare-put-back");
    wait_for_columns(&page, 4);
    page.wait_until("the address of before", |page| page.fragment() == format!("compare/{a}/{b}/{c}/{a}"));
    page.wait_until("the focus on the title again", |page| {
        page.focused() == "compare-title" && page.count("#compare-put-back") == 0
    });
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// On paper the designs stand, and nothing that only a screen has a use for.
#[test]
fn a_comparison_on_paper_is_its_chart_and_its_schedule() {
    let [a, b, _] = <[String; 3]>::try_from(fragments()).expect("three examples");
    let page = opened(&format!("compare/{a}/{b}"), 2);
    let seen = |page: &Page, css: &str| {
        let code = "return [...document.querySelectorAll(arguments[0])].filter(e => e.checkVisibility()).length";
        page.script(code, vec![css.into()]).as_u64().expect("a count")
    };
    page.lay_out_for_paper(true);
    assert_eq!((seen(&page, ".schedule"), seen(&page, "#chart-compare"), seen(&page, ".schedule tbody tr") > 10), (1, 1, true));
    assert_eq!(seen(&page, ".compare :is(button, input, select, .set-beside, .beside-tools .marked-up *)"), 0);
    page.lay_out_for_paper(false);
    assert!(seen(&page, ".compare :is(button, input, select)") > 5);
}

/// What a link can hold that is no design is told in its column or in a line, and the rest still stands.
#[test]
fn what_is_no_design_is_told_and_the_rest_stands() {
    let [a, b, _] = <[String; 3]>::try_from(fragments()).expect("three examples");
    let page = Page::open("");
    page.text("#answer");
    let long = format!("v1.{}.00000000", "A".repeat(5000));
    let cases = [
        ("v1.e30", "cut short"),
        ("v99.e30.00000000", "newer version"),
        ("%3Cscript%3Ealert(1)%3C", "no design"),
        ("<img src=x onerror=document.body.remove()>", "no design"),
        ("v1.", "cut short"),
        ("constructor", "no design"),
        (&*long, "characters"),
        ("\u{202e}\u{fffd}%00%ff", "no design"),
    ];
    for (wrong, why) in cases {
        page.go(&format!("compare/{a}/{wrong}/{b}"));
        page.wait_until("the columns", |page| {
            names(page) == [examples()[0].name.as_str(), "Cannot be opened", &examples()[1].name]
        });
        let told = page.text(".schedule .refusal");
        assert!(told.contains(why), "{wrong:.40}: {told}");
        assert_eq!(cells(&page, "Level in the room")[1], "\u{2013}", "{wrong:.40}");
        assert!(cells(&page, "Level in the room")[2].contains("dBA"), "{wrong:.40}");
        page.click("#compare-remove-b");
        page.wait_until("it is gone", |page| names(page).len() == 2 && page.fragment() == format!("compare/{a}/{b}"));
        assert_eq!(page.console_errors(), Vec::<String>::new(), "{wrong:.40}");
    }
    // The same twice, and more than have room.
    page.go(&format!("compare/{a}/{b}/{b}/{a}/{b}/{b}"));
    wait_for_columns(&page, 4);
    let notes = page.script("return [...document.querySelectorAll('.schedule .note')].map(note => note.textContent)", Vec::new());
    assert_eq!(notes, json!(["the design at hand", "the same as B", "the same as A"]));
    page.text_when("#compare-said", |text| text.contains("The link had 2 more, left out: four designs are the most."));
    // A link whose own design is none opens the first example, as everywhere, with what stands beside it.
    page.go(&format!("compare/v1.e30/{b}"));
    wait_for_columns(&page, 2);
    assert!(page.text("#link-notice").contains("cut short"));
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// One chart has a line for each design with its limit; it reads band by band by the keys, draws losses too, and is a table.
#[test]
fn the_chart_reads_all_designs() {
    let [a, b, c] = <[String; 3]>::try_from(fragments()).expect("three examples");
    let page = opened(&format!("compare/{a}/{b}/{c}"), 3);
    page.press(".compare .chart", &char::from(Key::Home).to_string());
    let reports: Vec<Report> = examples().iter().map(report).collect();
    let read = page.text_when("#chart-compare-reading", |text| text.starts_with("25 Hz"));
    assert!(read.contains(&format!("A {:.0} dB", reports[0].answer().level_db[0])), "{read}");
    for (letter, report) in ["B", "C"].iter().zip(&reports[1..]) {
        let value = format!("{letter} {:.0}", report.answer().level_db[0]).replace('-', "\u{2212}");
        assert!(read.contains(&value), "{value} in {read}");
    }
    page.click(".drawn button:last-child");
    let loss = format!("A {:.0}", reports[0].insertion_loss_db[0]).replace('-', "\u{2212}");
    page.text_when("#chart-compare-reading", |text| text.contains(&loss));
    page.unfold(".beside-tools .numbers");
    let heads = "return [...document.querySelectorAll('.beside-tools .numbers th[scope=col]')].map(head => head.textContent)";
    page.wait_until("the table", |page| page.script(heads, Vec::new()) == json!(["Band", "A", "B", "C"]));
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// Nothing but the schedule itself is wider than the screen, and the names of its rows stay while the columns go by.
#[test]
fn on_a_phone_the_names_of_the_rows_stay() {
    let [a, b, c] = <[String; 3]>::try_from(fragments()).expect("three examples");
    let page = Page::open("");
    for size in [PHONE, (320, 640), (768, 1024), LAPTOP, PROJECTOR] {
        page.resize(size);
        page.go(&format!("compare/{a}/{b}/{c}/{a}"));
        wait_for_columns(&page, 4);
        let wide = page.script(
            "const view = document.querySelector('#view-compare'); return view.scrollWidth - view.clientWidth",
            Vec::new(),
        );
        assert!(wide.as_f64() <= Some(0.0), "{size:?}: {wide} px too wide");
        let sticks = "const box = document.querySelector('.of-differences .scroll'), name = box.querySelector('tr.sketches th');
            const before = name.getBoundingClientRect().left; box.scrollLeft = 9999;
            return [box.scrollWidth - box.clientWidth, name.getBoundingClientRect().left - before]";
        let moved = page.script(sticks, Vec::new());
        if size.0 < 500 {
            assert!(moved[0].as_f64() > Some(50.0), "{size:?}: four columns are wider than a phone");
        } else if size.0 > 1300 {
            assert!(moved[0].as_f64() <= Some(0.0), "{size:?}: four columns have room: {moved}");
        }
        assert!(moved[1].as_f64().is_some_and(|left| left.abs() < 12.0), "{size:?}: {moved}");
    }
    assert_eq!(page.console_errors(), Vec::<String>::new());
}
