//! The engine: the physics of the page, as a program of its own.
//!
//! Beside the page it is asked for one estimate after another, and each comes at once. In a worker it works out what takes long, and
//! lets a new question end the work on the one before.

use std::cell::RefCell;

use gloo::timers::callback::Timeout;
use hushwright::design::{Design, link};
use hushwright::error::FieldError;
use hushwright::evaluate::{Evaluator, Report};
use hushwright::improve::{Change, Step, corners_dba};
use hushwright::search::{Front, Search};
use hushwright::uncertainty::{SAMPLES, Sampling};
use hushwright_web::explanations::{explained_text, meanings_text};
use hushwright_web::model::{Core, Model, bands_to_bytes, design_to_bytes, estimate_to_bytes};
use hushwright_web::quantity::Units;
use hushwright_web::speed::{SPEED, Speed};
use hushwright_web::step_words::change_name;
use hushwright_web::wishes::Wishes;
use hushwright_web::work::{Answer, Found, NextStep, Point, Question};
use js_sys::{Array, Date, Float64Array};
use wasm_bindgen::prelude::*;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// How long it works before it looks for a new question, in ms.
const SLICE_MS: f64 = 30.0;
/// The same in a search, which ends with its worker; so often it says how far it is.
const SEARCH_SLICE_MS: f64 = 120.0;
/// How long a search goes on before it says what it has found so far, in ms.
const FOUND_MS: f64 = 1500.0;
/// A point stands for others of the front that are better by up to so many dB,
const STANDS_FOR_DB: f64 = 1.0;
/// and lighter and cheaper by up to this part.
const STANDS_FOR_SHARE: f64 = 0.08;

/// What is being worked on.
enum Task {
    Estimates(Box<Estimates>),
    Search(Box<Searching>),
}

/// What each change brings and how sure the answer is.
struct Estimates {
    number: u32,
    design: Design,
    report: Report,
    evaluator: Evaluator,
    /// Changes and what they bring, as far as that is known; `None` once it has been said.
    steps: Option<(Vec<Change>, Vec<NextStep>)>,
    /// The units that they are named in.
    units: Units,
    sampling: Sampling,
}

/// The search for the best trade-offs.
struct Searching {
    number: u32,
    search: Search,
    found_at: f64,
}

thread_local! {
    /// What answers the page.
    static CORE: Core = Core::default();
    /// The task and its next slice, which is dropped with it.
    static TASK: RefCell<Option<(Task, Timeout)>> = const { RefCell::new(None) };
}

fn main() {
    if let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() {
        listen(&scope);
    }
}

/// What there is to know of a design or why it is refused, as [`estimate_to_bytes`] writes it; nothing where the bytes are none of a
/// design.
#[wasm_bindgen]
pub fn estimate(design: &[u8]) -> Option<Vec<u8>> {
    let design = Design::from_bytes(design)?;
    Some(CORE.with(|core| estimate_to_bytes(core.estimate(&design))))
}

/// The design that a link carries or what is wrong with it, as [`design_to_bytes`] writes it.
#[wasm_bindgen]
pub fn open(fragment: &str) -> Vec<u8> {
    CORE.with(|core| design_to_bytes(core.open(fragment)))
}

/// The design in the text of a file or what is wrong with it, as [`design_to_bytes`] writes it.
#[wasm_bindgen]
pub fn open_file(text: &str) -> Vec<u8> {
    CORE.with(|core| design_to_bytes(core.open_file(text)))
}

/// The text of a file that holds a design; nothing where the bytes are none of a design.
#[wasm_bindgen]
pub fn file(design: &[u8]) -> Option<String> {
    let design = Design::from_bytes(design)?;
    Some(CORE.with(|core| core.file(&design)))
}

/// The band values in a text or why it is refused, as [`bands_to_bytes`] writes it.
#[wasm_bindgen]
pub fn read_bands(text: &str) -> Vec<u8> {
    CORE.with(|core| bands_to_bytes(&core.read_bands(text)))
}

/// The explanation under a key.
#[wasm_bindgen]
pub fn explained(key: &str) -> String {
    explained_text(Some(key))
}

/// All explanations.
#[wasm_bindgen]
pub fn all_explained() -> String {
    explained_text(None)
}

/// All terms with their meanings.
#[wasm_bindgen]
pub fn meanings() -> String {
    meanings_text()
}

/// What the worker does.
fn listen(scope: &DedicatedWorkerGlobalScope) {
    let heard = Closure::<dyn Fn(MessageEvent)>::new(|event: MessageEvent| {
        let text = event.data().as_string().unwrap_or_default();
        if text == SPEED {
            // A bench asks this, and reads the numbers as they are.
            let numbers = Float64Array::from(&Speed::measure(Date::now).to_numbers()[..]);
            post(&numbers);
        } else if let Some(question) = Question::from_text(&text) {
            begin(&question);
        }
    });
    scope.set_onmessage(Some(heard.as_ref().unchecked_ref()));
    // It listens as long as there is a page.
    heard.forget();
    say(&Answer::Ready);
}

fn scope() -> DedicatedWorkerGlobalScope {
    js_sys::global().unchecked_into()
}

fn say(answer: &Answer) {
    let (numbers, text) = answer.to_message();
    post(&Array::of2(&Float64Array::from(&numbers[..]), &JsValue::from_str(&text)));
}

fn post(message: &JsValue) {
    // Fails only where the message cannot be copied, which numbers and text always can.
    if let Err(error) = scope().post_message(message) {
        web_sys::console::error_1(&error);
    }
}

/// Begins with a question and drops what was worked on before.
fn begin(question: &Question) {
    let number = question.number;
    let design = link::decode(&question.fragment).ok();
    let task = match (design, &question.wishes) {
        (None, _) => Err(Answer::Refused(number)),
        (Some(design), None) => Estimates::new(number, question.units, design).map(|task| Task::Estimates(Box::new(task))),
        (Some(design), Some(wishes)) => Searching::new(number, &design, wishes).map(|task| Task::Search(Box::new(task))),
    };
    let task = match task {
        Ok(task) => Some((task, Timeout::new(0, work))),
        Err(answer) => {
            say(&answer);
            None
        }
    };
    TASK.with(|own| own.replace(task));
}

impl Estimates {
    fn new(number: u32, units: Units, design: Design) -> Result<Self, Answer> {
        let checked = design.check().map_err(|_| Answer::Refused(number))?;
        let mut evaluator = Evaluator::default();
        let report = evaluator.evaluate(&checked);
        let steps = Some((Change::all(&design), Vec::new()));
        Ok(Self { number, steps, units, design, report, evaluator, sampling: Sampling::new(&checked, SAMPLES) })
    }

    /// Does one piece; what there is to say once a part is done.
    fn piece(&mut self) -> Option<Answer> {
        if let Some((changes, steps)) = &mut self.steps {
            if let Some(&change) = changes.get(steps.len()) {
                // Each of these changes was applied and checked when they were listed.
                let step = Step::of(change, &self.design, &self.report, &mut self.evaluator);
                let (Some(step), Some(changed)) = (step, change.applied(&self.design)) else {
                    self.steps = None;
                    return Some(Answer::Refused(self.number));
                };
                let name = change_name(change, &self.design, self.units);
                steps.push(NextStep { name, step, fragment: link::encode(&changed) });
                return None;
            }
            let (_, steps) = self.steps.take()?;
            let corners_dba = corners_dba(&self.design, &self.report, &mut self.evaluator);
            return Some(Answer::Steps(self.number, steps, corners_dba));
        }
        if self.sampling.step() {
            return None;
        }
        self.sampling.finish().map(|ranges| Answer::Ranges(self.number, Box::new(ranges)))
    }

    /// Works until there is something to say or the slice is over; whether there is more to do.
    fn slice(&mut self) -> bool {
        let until = Date::now() + SLICE_MS;
        while Date::now() < until {
            if let Some(answer) = self.piece() {
                say(&answer);
                return !matches!(answer, Answer::Ranges(..));
            }
        }
        true
    }
}

impl Searching {
    fn new(number: u32, design: &Design, wishes: &Wishes) -> Result<Self, Answer> {
        let refused = |errors: Vec<FieldError>| {
            Answer::NoSearch(number, errors.into_iter().map(|error| (error.path, error.message)).collect())
        };
        let search = Search::new(design, &wishes.space(design), wishes.limits()).map_err(refused)?;
        Ok(Self { number, search, found_at: Date::now() })
    }

    /// Works for a slice; whether there is more to do.
    fn slice(&mut self) -> bool {
        let until = Date::now() + SEARCH_SLICE_MS;
        let mut more = true;
        while more && Date::now() < until {
            more = self.search.step(1);
        }
        let progress = self.search.progress();
        say(&Answer::Progress(self.number, progress));
        if !more || (progress.checked > 0 && Date::now() > self.found_at + FOUND_MS) {
            say(&Answer::Found(self.number, found(&self.search.front(), !more)));
            self.found_at = Date::now();
        }
        more
    }
}

/// What there is to see of a front.
fn found(front: &Front, is_finished: bool) -> Found {
    let point = |place: usize| {
        let point = &front.points[place];
        Point {
            level_dba: point.level_dba,
            margin_db: point.margin_db,
            mass_kg: point.mass_kg,
            cost: point.cost,
            outside_m: point.outside_m,
            fragment: link::encode(&point.design),
        }
    };
    Found {
        is_finished,
        is_exact: front.is_exact,
        largest_deviation_db: front.largest_deviation_db,
        of_all: front.points.len(),
        points: front.representatives(STANDS_FOR_DB, STANDS_FOR_SHARE).into_iter().map(point).collect(),
    }
}

/// One slice of the work.
fn work() {
    TASK.with(|own| {
        let mut own = own.borrow_mut();
        let Some((task, next)) = own.as_mut() else { return };
        let more = match task {
            Task::Estimates(task) => task.slice(),
            Task::Search(task) => task.slice(),
        };
        if more {
            *next = Timeout::new(0, work);
        } else {
            *own = None;
        }
    });
}
