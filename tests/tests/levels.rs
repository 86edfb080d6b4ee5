//! The chart of levels: its cursor, its shading, what is taken away from it, in headless Chromium.

use std::path::Path;

use fantoccini::key::Key;
use hushwright::design::{Design, link};
use hushwright_tests::browser::{LAPTOP, PHONE, Page, damaged_page};

const CHART: &str = ".levels .chart";

fn press(page: &Page, key: Key) {
    page.press(CHART, &char::from(key).to_string());
}

/// What stands below the chart, once it begins with `start`; a screen reader hears the same.
fn reading(page: &Page, start: &str) -> String {
    let text = page.text_when("#chart-reading", |text| text.starts_with(start));
    assert_eq!(page.attribute(CHART, "aria-valuetext").as_deref(), Some(&*text));
    text
}

/// The number after `name` in a reading.
fn value(reading: &str, name: &str) -> f64 {
    let after = reading.split_once(name).unwrap_or_else(|| panic!("no {name} in {reading}")).1.trim_start();
    let digits: String = after.chars().take_while(|c| c.is_ascii_digit() || *c == '\u{2212}').collect();
    digits.replace('\u{2212}', "-").parse().unwrap_or_else(|_| panic!("no number after {name} in {reading}"))
}

/// The cursor goes from band to band and by octaves, stops at the ends and goes away; it reads what the table says, and what it
/// says adds up.
#[test]
fn keys_read_the_bands() {
    let page = Page::open("");
    page.wait_until("a range", |page| page.text("#chart-reading").starts_with("Shaded: 8 of 10 cases at the listener"));
    let caption = page.text("#chart-reading");
    press(&page, Key::Right);
    reading(&page, "250 Hz: listener ");
    press(&page, Key::PageUp);
    reading(&page, "500 Hz: ");
    press(&page, Key::Home);
    reading(&page, "25 Hz: ");
    press(&page, Key::Left);
    reading(&page, "25 Hz: ");
    press(&page, Key::End);
    reading(&page, "10 kHz: ");
    press(&page, Key::PageDown);
    reading(&page, "5 kHz: ");
    press(&page, Key::Home);
    for _ in 0..8 {
        press(&page, Key::Right);
    }
    let words = reading(&page, "160 Hz: ");
    let (level, limit) = (value(&words, "listener"), value(&words, "limit of"));
    let (low, high) = (value(&words, "cases"), value(&words, " to"));
    assert!(low < level && level < high && high - low < 60.0, "{words}");
    let over = value(&words, &format!("{low} to {high},"));
    assert!(words.contains("over the limit of") && over == level - limit, "{words}");
    assert_eq!(page.accessibility_violations(), Vec::<String>::new());

    page.unfold(".levels details.numbers");
    page.wait_for(".levels .numbers tr");
    let table = "const rows = [...document.querySelectorAll('.levels .numbers tr')].map(row => [...row.cells].map(cell => cell.textContent)); \
                 const head = rows[0]; const row = rows.find(row => row[0] === '160 Hz'); \
                 return Object.fromEntries(head.map((name, k) => [name, Number(row[k].replace('\\u2212', '-'))]));";
    let row = page.script(table, Vec::new());
    for (name, said) in [
        ("listener", level),
        ("listener low", low),
        ("listener high", high),
        ("limit", limit),
        ("source", value(&words, "source")),
        ("inside", value(&words, "inside")),
        ("gap", value(&words, "gap")),
        ("outside", value(&words, "outside")),
        ("room", value(&words, "room")),
        ("background", value(&words, "background")),
    ] {
        let tenths = row[name].as_f64().unwrap_or_else(|| panic!("no number for {name} in {row}"));
        assert!((tenths - said).abs() <= 0.5501, "{name}: {tenths} in the table, {said} at the cursor");
    }
    press(&page, Key::Escape);
    page.text_when("#chart-reading", |text| text == caption);
    assert_eq!(page.console_errors(), Vec::<String>::new());
}

/// A finger that is drawn across reads bands; one that scrolls the page has read nothing.
#[test]
fn fingers_read_sideways_and_scroll_up_and_down() {
    let page = Page::blank();
    page.resize(PHONE);
    page.go("");
    page.text("#chart-reading");
    let finger = |kind: &str, part: f64| {
        let send = "const chart = document.querySelector('.levels .chart'), box = chart.getBoundingClientRect(); \
                    chart.dispatchEvent(new PointerEvent(arguments[0], { pointerType: 'touch', bubbles: true, \
                    clientX: box.left + arguments[1] * box.width, clientY: box.top + 20 }));";
        page.script(send, vec![kind.into(), part.into()]);
    };
    let style = page.script("return getComputedStyle(document.querySelector('.levels .chart')).touchAction", Vec::new());
    assert_eq!(style, "pan-y pinch-zoom");
    let caption = page.text("#chart-reading");
    finger("pointerdown", 0.3);
    let first = page.changed_text("#chart-reading", &caption);
    finger("pointermove", 0.45);
    let second = page.changed_text("#chart-reading", &first);
    finger("pointerup", 0.45);
    finger("pointerleave", 0.45);
    assert_eq!(page.text("#chart-reading"), second, "what it pointed at stays");
    finger("pointerdown", 0.6);
    page.changed_text("#chart-reading", &second);
    finger("pointercancel", 0.6);
    page.text_when("#chart-reading", |text| text == second);
    // Nothing that is drawn or written is wider than the page.
    let wide = "return document.documentElement.scrollWidth <= innerWidth && [...document.querySelectorAll('.levels *')].every(part => \
                part.closest('.scroll') || part.getBoundingClientRect().right <= innerWidth + 0.5)";
    assert_eq!(page.script(wide, Vec::new()), true);
}

/// How many of the pixels of the chart's canvas in the column of 80 Hz are shaded: nothing else there is as transparent.
fn shaded(page: &Page) -> u64 {
    let count = "const canvas = document.querySelector('#chart'), step = canvas.width / canvas.clientWidth; \
                 const x = Math.round((Number(arguments[0]) + 4) * step); \
                 const pixels = canvas.getContext('2d').getImageData(x, 0, 1, canvas.height).data; \
                 let count = 0; for (let k = 3; k < pixels.length; k += 4) count += pixels[k] > 15 && pixels[k] < 70; return count;";
    press(page, Key::Home);
    for _ in 0..5 {
        press(page, Key::Right);
    }
    reading(page, "80 Hz: ");
    let left = page.script("return parseFloat(document.querySelector('.levels .cursor').style.left)", Vec::new());
    press(page, Key::Escape);
    page.wait_until("the cursor to go", |page| page.count(".levels .cursor") == 0);
    page.script(count, vec![left]).as_u64().expect("a count")
}

/// The shading comes with the ranges of the worker, and without a worker there is none.
#[test]
fn the_range_is_shaded_when_it_is_known() {
    let page = Page::open("");
    page.wait_until("a range", |page| page.text("#chance").starts_with("limit"));
    page.wait_until("shading", |page| shaded(page) >= 12);
    let remove = |path: &Path| std::fs::remove_file(path).expect("a file of this test");
    let folder = damaged_page("no-shading", ["engine_loader", ".js"], remove);
    let without = Page::serving(folder.clone());
    without.resize(LAPTOP);
    without.go("");
    without.wait_until("the sentence", |page| page.text("#range-sentence").contains("does not run"));
    // Drawn at the next frame once the cursor is gone; the edges of lines are pale as well.
    without.wait_until("no more than the edges of lines", |page| shaded(page) <= 4);
    assert!(without.text("#chart-reading").starts_with("Hatched"), "{}", without.text("#chart-reading"));
    std::fs::remove_dir_all(folder).expect("a folder of this test");
}

/// On another screen the chart is drawn with that screen's pixels.
#[test]
fn the_chart_follows_the_pixels_of_the_screen() {
    let page = Page::open("");
    page.text("#chart-reading");
    for (pixels, wider) in [(2.0, 1), (1.5, 2), (3.0, 3), (1.0, 4)] {
        // A browser that only acts as if it were on another screen tells the page so when the size changes as well.
        page.move_to_screen((LAPTOP.0 + wider, LAPTOP.1), pixels);
        page.wait_until("a canvas of the screen's pixels", |page| {
            let sharp = "const canvas = document.querySelector('#chart'), box = canvas.getBoundingClientRect(); \
                         return Math.abs(canvas.width - box.width * arguments[0]) < 0.05 && Math.abs(canvas.height - box.height * arguments[0]) < 0.05";
            page.script(sharp, vec![pixels.into()]) == true
        });
    }
}

/// The picture and the table are offered under names made of the design's, hold what is shown, and a refusal is told.
#[test]
fn picture_and_table_can_be_taken_away() {
    let design = Design { name: "Box 1: <b>\u{201c}ä/b\u{201d}</b> =1+1".to_owned(), ..Design::default() };
    let page = Page::open(&link::encode(&design));
    page.wait_until("a range", |page| page.text("#chance").starts_with("limit"));
    page.keep_blobs();
    let watch = "window.saved = []; HTMLAnchorElement.prototype.click = function () { const entry = { name: this.download }; \
                 const blob = blobs[this.href]; entry.kind = blob.type; window.saved.push(entry); \
                 blob.arrayBuffer().then(bytes => { entry.bytes = [...new Uint8Array(bytes)]; }); };";
    page.script(watch, Vec::new());
    let saved = |k: usize| {
        page.wait_until("what is saved", |page| {
            page.script("return !!window.saved[arguments[0]]?.bytes", vec![k.into()]) == true
        });
        let entry = page.script("return window.saved[arguments[0]]", vec![k.into()]);
        let bytes: Vec<u8> =
            entry["bytes"].as_array().expect("bytes").iter().map(|byte| byte.as_u64().expect("a byte") as u8).collect();
        (entry["name"].as_str().expect("a name").to_owned(), entry["kind"].as_str().expect("a kind").to_owned(), bytes)
    };
    page.click("#save-table");
    let (name, kind, bytes) = saved(0);
    assert_eq!((name.as_str(), kind.as_str()), ("Box-1-b-\u{201c}ä-b\u{201d}-b-=1+1-levels.csv", "text/csv"));
    let mut reader = csv::Reader::from_reader(&bytes[..]);
    let heads = reader.headers().expect("heads").clone();
    let column = |name: &str| heads.iter().position(|head| head == name).unwrap_or_else(|| panic!("{name} among {heads:?}"));
    let (low, level, high) = (column("listener low dB"), column("listener dB"), column("listener high dB"));
    let mut bands = 0;
    for record in reader.records() {
        let record = record.expect("a regular file");
        let number = |k: usize| record[k].parse::<f64>().expect("a plain number");
        assert!(number(low) <= number(high) && number(level).is_finite() && number(column("walls %")) <= 100.0);
        bands += 1;
    }
    assert_eq!(bands, 27);
    page.click("#save-picture");
    let (name, kind, bytes) = saved(1);
    assert!(name.ends_with("-levels.png") && kind == "image/png", "{name} {kind}");
    assert_eq!(bytes[..8], *b"\x89PNG\r\n\x1a\n");
    let size = |at: usize| u32::from_be_bytes(bytes[at..at + 4].try_into().expect("four bytes"));
    assert!(size(16) >= 1600 && size(20) >= 900, "{} x {}", size(16), size(20));
    assert_eq!(page.count("#save-failed"), 0);

    page.script("URL.createObjectURL = () => { throw new Error('no'); }", Vec::new());
    page.click("#save-table");
    assert!(page.text("#save-failed").contains("table could not be saved"));
    page.click("#save-picture");
    page.wait_until("the refusal of the picture", |page| page.text("#save-failed").contains("picture could not be saved"));

    page.script("Object.defineProperty(navigator, 'clipboard', { value: undefined, configurable: true })", Vec::new());
    page.click("#copy-table");
    let copied = page.value("#copy-table-text");
    assert!(
        copied.starts_with("nominal band Hz\texact mid-band Hz\tsource dB\t") && copied.lines().count() == 28,
        "{copied:.80}"
    );
    assert_eq!(page.accessibility_violations(), Vec::<String>::new());
    page.click(".exports .by-hand button");
    page.wait_until("the text to go", |page| page.count("#copy-table-text") == 0);
    page.script(
        "Object.defineProperty(navigator, 'clipboard', { value: { writeText: text => { window.copied = text; return Promise.resolve(); } } })",
        Vec::new(),
    );
    page.click("#copy-table");
    page.text_when("#copy-table", |text| text == "Table copied");
    assert_eq!(page.script("return window.copied", Vec::new()), copied);
}
