//! The worker: works out beside the page what takes long, and lets a new question end the work on the one before.

use std::cell::RefCell;

use gloo::timers::callback::Timeout;
use hushwright::design::{Design, link};
use hushwright::evaluate::{Evaluator, Report};
use hushwright::improve::{Change, Step};
use hushwright::uncertainty::{SAMPLES, Sampling};
use hushwright_web::work::{Answer, Question};
use js_sys::{Date, Float64Array};
use wasm_bindgen::prelude::*;
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// How long it works before it looks for a new question, in ms.
const SLICE_MS: f64 = 30.0;

/// What is being worked on.
struct Task {
    number: u32,
    design: Design,
    report: Report,
    evaluator: Evaluator,
    /// Changes and what they bring, as far as that is known; `None` once it has been said.
    steps: Option<(Vec<Change>, Vec<Step>)>,
    sampling: Sampling,
    /// The next slice; dropped with the task.
    next: Option<Timeout>,
}

thread_local! {
    static TASK: RefCell<Option<Task>> = const { RefCell::new(None) };
}

fn main() {
    let heard = Closure::<dyn Fn(MessageEvent)>::new(|event: MessageEvent| {
        if let Some(question) = event.data().as_string().as_deref().and_then(Question::from_text) {
            begin(&question);
        }
    });
    scope().set_onmessage(Some(heard.as_ref().unchecked_ref()));
    // It listens as long as there is a page.
    heard.forget();
    say(&Answer::Ready);
}

fn scope() -> DedicatedWorkerGlobalScope {
    js_sys::global().unchecked_into()
}

fn say(answer: &Answer) {
    let row = Float64Array::from(&answer.to_numbers()[..]);
    // Fails only where the message cannot be copied, which numbers always can.
    if let Err(error) = scope().post_message(&row) {
        web_sys::console::error_1(&error);
    }
}

/// Begins with a question and drops what was worked on before.
fn begin(question: &Question) {
    let number = question.number;
    let design = link::decode(&question.fragment).ok();
    let checked = design.and_then(|design| design.check().ok().map(|checked| (design, checked)));
    let Some((design, checked)) = checked else {
        TASK.with(RefCell::take);
        say(&Answer::Refused(number));
        return;
    };
    let mut evaluator = Evaluator::default();
    let report = evaluator.evaluate(&checked);
    let task = Task {
        number,
        steps: Some((Change::all(&design), Vec::new())),
        design,
        report,
        evaluator,
        sampling: Sampling::new(&checked, SAMPLES),
        next: Some(Timeout::new(0, work)),
    };
    TASK.with(|own| own.replace(Some(task)));
}

impl Task {
    /// Does one piece; what there is to say once a part is done.
    fn piece(&mut self) -> Option<Answer> {
        if let Some((changes, steps)) = &mut self.steps {
            if let Some(&change) = changes.get(steps.len()) {
                // Each of these changes was applied and checked when they were listed.
                let Some(step) = Step::of(change, &self.design, &self.report, &mut self.evaluator) else {
                    self.steps = None;
                    return Some(Answer::Refused(self.number));
                };
                steps.push(step);
                return None;
            }
            let (_, steps) = self.steps.take()?;
            return Some(Answer::Steps(self.number, steps));
        }
        if self.sampling.step() {
            return None;
        }
        self.sampling.finish().map(|ranges| Answer::Ranges(self.number, Box::new(ranges)))
    }
}

/// One slice of the work.
fn work() {
    let answer = TASK.with(|own| {
        let mut own = own.borrow_mut();
        let task = own.as_mut()?;
        let until = Date::now() + SLICE_MS;
        let mut answer = None;
        while answer.is_none() && Date::now() < until {
            answer = task.piece();
        }
        if matches!(answer, Some(Answer::Ranges(..))) {
            *own = None;
        } else {
            task.next = Some(Timeout::new(0, work));
        }
        answer
    });
    if let Some(answer) = answer {
        say(&answer);
    }
}
