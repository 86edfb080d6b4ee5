//! The same work natively and by the worker of the built page in Chromium, side by side. No test: it prints.

use std::time::Instant;

use hushwright_tests::browser::Page;
use hushwright_web::speed::{SPEED, Speed};
use serde_json::{Value, json};

/// How often each is measured; the best counts, since whatever else the machine does only takes time away.
const RUNS: usize = 3;

fn main() {
    let began = Instant::now();
    let natively = || Speed::measure(|| 1000.0 * began.elapsed().as_secs_f64()).to_numbers();
    let native = best((0..RUNS).map(|_| natively()));
    let page = Page::open("");
    // The page's own worker has said all it has to say, and is quiet.
    page.wait_until("a range", |page| page.text("#chance").starts_with("limit"));
    let browser = best((0..RUNS).map(|_| in_browser(&page)));
    println!("{:<26}{:>12}{:>12}{:>8}", "first example", "native", "Chromium", "ratio");
    for (k, name) in Speed::NAMES.iter().enumerate() {
        let slower = if is_rate(k) { native[k] / browser[k] } else { browser[k] / native[k] };
        println!("{name:<26}{:>12.2}{:>12.2}{slower:>8.2}", native[k], browser[k]);
    }
}

/// The last number is a rate: more is better.
fn is_rate(k: usize) -> bool {
    k + 1 == Speed::NAMES.len()
}

fn best(runs: impl Iterator<Item = [f64; 4]>) -> [f64; 4] {
    let better = |k: usize, a: f64, b: f64| if is_rate(k) { a.max(b) } else { a.min(b) };
    runs.reduce(|a, b| std::array::from_fn(|k| better(k, a[k], b[k]))).expect("at least one run")
}

fn in_browser(page: &Page) -> [f64; 4] {
    let ask = "window.speed = null; const worker = new Worker(programs.worker, { type: 'module' });
        worker.onmessage = event => {
            if (Array.isArray(event.data)) { worker.postMessage(arguments[0]); } else { window.speed = Array.from(event.data); worker.terminate(); }
        };";
    page.script(ask, vec![json!(SPEED)]);
    let read = |page: &Page| page.script("return window.speed", Vec::new());
    page.wait_until("the worker's figures", |page| read(page) != Value::Null);
    serde_json::from_value(read(page)).expect("four numbers")
}
