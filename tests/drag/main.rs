//! What a drag on the built page takes, in headless Chromium. No test: it prints.
//!
//! `drag [FOLDER [SLIDER ...]]`: the folder with the built page (by default HUSHWRIGHT_DIST, or `dist`) and ids of fields
//! that have a slider.

use std::iter;
use std::path::PathBuf;
use std::time::{Duration, Instant};

use hushwright_tests::browser::{LAPTOP, Mouse, Page, built_page};
use serde_json::{Value, json};

/// How often each slider is moved.
const MOVES: usize = 200;

/// From move to move: screens are drawn, and mice are asked, about 60 times a second.
const PACE: Duration = Duration::from_micros(16_667);

/// Sliders that change much of what is computed: the ids of their fields.
const SLIDERS: [&str; 5] =
    ["inner-length_mm", "inner-width_mm", "gap-depth_mm", "inner-lining-thickness_mm", "inner-layers-0-thickness_mm"];

/// Puts a slider that does nothing on top of the page: what its moves take is the browser's and the machine's own share.
const BARE: &str =
    "const slider = Object.assign(document.createElement('input'), { type: 'range', id: 'bare-slider', min: 0, max: 100, step: 'any' });
    slider.style = 'position: fixed; z-index: 999; left: 20px; bottom: 20px; width: 200px';
    document.body.append(slider);";

/// Notes in the page what becomes of each move.
const WATCH: &str = include_str!("watch.js");

const ABOUT: &str = "\
Each slider of the first example, on a freshly opened page of 1366 x 768, is held and moved 200 times, 60 times a second,
from end to end, by mouse input of the browser (Input.dispatchMouseEvent). Of the moves that change its value (column
`moves`), in milliseconds, median / 95 % / worst:
  drawn    from the time stamp of the mouse's move, before it waits for its frame, to the first task after the frame that
           shows it (requestAnimationFrame, then a message): layout and painting are done, the compositor and the screen
           take their time after it
  shown    the part of it from the slider's input event to its end: what the page itself takes
  handled  the part of it from the slider's input event to the first callback of that frame: handlers, computing, elements
  painted  the part of it from there on: what the page draws frame by frame, such as charts, layout, painting
The slider `bare` belongs to no design and does nothing: its figures are the browser's and the machine's own share.
Beside them tasks and frames of more than 50 ms, as the browser counts them: how many, the longest.
";

fn main() {
    let mut arguments = std::env::args().skip(1);
    let folder = arguments.next().map_or_else(built_page, PathBuf::from);
    let named: Vec<String> = arguments.collect();
    let sliders = if named.is_empty() { SLIDERS.map(String::from).to_vec() } else { named };
    println!("{ABOUT}");
    println!(
        "{:<28}{:>6}{:>23}{:>23}{:>23}{:>23}{:>10}{:>10}",
        "slider", "moves", "drawn", "shown", "handled", "painted", "tasks", "frames"
    );
    for slider in iter::once("bare").chain(sliders.iter().map(String::as_str)) {
        let page = Page::serving(folder.clone());
        page.resize(LAPTOP);
        page.go("");
        // The page's own worker has said all it has to say, and is quiet.
        page.wait_until("a range", |page| page.text("#chance").starts_with("limit"));
        if slider == "bare" {
            page.script(BARE, Vec::new());
        }
        let seen = drag(&page, &format!("{slider}-slider"));
        println!(
            "{slider:<28}{:>6}{:>23}{:>23}{:>23}{:>23}{:>10}{:>10}",
            seen.moves().count(),
            spread(seen.each(["moved", "drawn"])),
            spread(seen.each(["began", "drawn"])),
            spread(seen.each(["began", "ran"])),
            spread(seen.each(["ran", "drawn"])),
            longest(&seen.0["longTasks"]),
            longest(&seen.0["longFrames"])
        );
    }
}

/// What the page has noted.
struct Seen(Value);

impl Seen {
    /// The moves that changed the value: the others are soon over.
    fn moves(&self) -> impl Iterator<Item = &Value> {
        self.0["moves"].as_array().expect("a list of moves").iter().filter(|of| of["changed"] == true)
    }

    /// The time between two stamps of each move.
    fn each(&self, [start, end]: [&str; 2]) -> Vec<f64> {
        let time = |of: &Value, name: &str| of[name].as_f64().expect("a time");
        self.moves().map(|of| time(of, end) - time(of, start)).collect()
    }
}

/// Holds the slider and moves it as a hand does.
fn drag(page: &Page, slider: &str) -> Seen {
    let [left, middle, width, start] = place(page, slider);
    let at = |share: f64| [left + share * width, middle];
    page.mouse(Mouse::Press, at(start));
    page.script(WATCH, vec![json!(slider)]);
    let mut due = Instant::now();
    for k in 1..=MOVES {
        page.mouse(Mouse::Drag, at(there_and_back(start, k as f64 / MOVES as f64)));
        // Moves that a late page has missed are left out, as a browser joins those that wait.
        due = (due + PACE).max(Instant::now());
        std::thread::sleep(due.saturating_duration_since(Instant::now()));
    }
    page.wait_until("the last frame", |page| page.script("return drag.moves.every(move => move.drawn)", Vec::new()) == true);
    let seen = Seen(page.script("return drag.stop()", Vec::new()));
    page.mouse(Mouse::Release, at(start));
    assert!(seen.moves().next().is_some(), "{slider} did not move");
    seen
}

/// Where the middle of the handle can go: left end, height and width; and the share of the way at which it stands.
/// Everything round the slider is unfolded for that.
fn place(page: &Page, slider: &str) -> [f64; 4] {
    let find = "const slider = document.getElementById(arguments[0]);
        for (let part = slider.closest('details'); part; part = part.parentElement.closest('details')) { part.open = true; }
        slider.scrollIntoView({ block: 'center', behavior: 'instant' });
        const { left, top, width, height } = slider.getBoundingClientRect();
        const [x, y] = [left + width / 2, top + height / 2];
        // The handle stays within the slider: near the ends its middle does not follow.
        const share = (slider.value - slider.min) / (slider.max - slider.min);
        return document.elementFromPoint(x, y) === slider ? [left + height / 2, y, width - height, share] : null;";
    page.wait_for(&format!("#{slider}"));
    let found = page.script(find, vec![json!(slider)]);
    serde_json::from_value(found).unwrap_or_else(|_| panic!("{slider} cannot be reached by a mouse"))
}

/// Where a sweep from `start` to the upper end, to the lower one and back is after a part `done` of it, all in shares.
fn there_and_back(start: f64, done: f64) -> f64 {
    let way = (start + 2.0 * done) % 2.0;
    way.min(2.0 - way)
}

/// Median, 95 % and worst.
fn spread(mut times: Vec<f64>) -> String {
    times.sort_by(f64::total_cmp);
    let rank = |share: f64| times[((share * times.len() as f64).ceil() as usize).max(1) - 1];
    format!("{:.1} / {:.1} / {:.1}", rank(0.5), rank(0.95), rank(1.0))
}

/// How many there are, and the longest; a browser need not count them.
fn longest(times: &Value) -> String {
    let Some(times) = times.as_array() else { return "unknown".to_owned() };
    match times.iter().filter_map(Value::as_f64).reduce(f64::max) {
        Some(longest) => format!("{}, {longest:.0}", times.len()),
        None => "0".to_owned(),
    }
}
