//! How fast the core is here, so that the same work can be timed natively and in a browser.

use hushwright::design::run_in_box;
use hushwright::evaluate::evaluate;
use hushwright::improve::{Change, Step};
use hushwright::search::{Limits, Search, Space};
use hushwright::uncertainty::{SAMPLES, Sampling};

/// What a worker is asked to measure itself.
pub const SPEED: &str = "speed";
/// Estimates that are timed together.
const ESTIMATES: u32 = 60;

/// What was measured on the first example.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Speed {
    /// A whole estimate with nothing known, in ms.
    pub estimate_ms: f64,
    /// All changes of the design, in ms.
    pub changes_ms: f64,
    /// Its range from all samples, in ms.
    pub range_ms: f64,
    /// Designs that the search evaluates in a second, tables included; none is pruned.
    pub searched_a_second: f64,
}

impl Speed {
    /// What each number is, in the order of [`Speed::to_numbers`].
    pub const NAMES: [&str; 4] = ["whole estimate, ms", "all changes, ms", "range, ms", "search, designs a second"];

    /// Measures; `now` is a clock in ms.
    ///
    /// # Panics
    /// Never: the first example is sound.
    pub fn measure(now: impl Fn() -> f64) -> Self {
        let design = run_in_box();
        let checked = design.check().expect("the first example is sound");
        let report = evaluate(&checked);
        let began = now();
        for _ in 0..ESTIMATES {
            std::hint::black_box(evaluate(std::hint::black_box(&checked)));
        }
        let estimate_ms = (now() - began) / f64::from(ESTIMATES);
        let mut evaluator = hushwright::evaluate::Evaluator::default();
        let began = now();
        for change in Change::all(&design) {
            std::hint::black_box(Step::of(change, &design, &report, &mut evaluator));
        }
        let changes_ms = now() - began;
        let began = now();
        let mut sampling = Sampling::new(&checked, SAMPLES);
        while sampling.step() {}
        std::hint::black_box(sampling.finish());
        let range_ms = now() - began;
        let mut space = Space::of(&design);
        space.stock.truncate(4);
        space.outer_sheets = [1, 2];
        let began = now();
        let mut search = Search::new(&design, &space, Limits::default()).expect("the first example is sound");
        // Candidates are known as soon as the coarse model is through.
        while search.progress().candidates == 0 && search.step(1) {}
        let searched_a_second = search.progress().evaluated as f64 / (now() - began) * 1000.0;
        Self { estimate_ms, changes_ms, range_ms, searched_a_second }
    }

    /// As it is sent.
    pub fn to_numbers(self) -> [f64; 4] {
        [self.estimate_ms, self.changes_ms, self.range_ms, self.searched_a_second]
    }
}
