//! The worker: works out beside the page what takes long, and lets a new question end the work on the one before.

use std::cell::RefCell;

use gloo::timers::callback::Timeout;
use hushwright::design::link;
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
    let checked = link::decode(&question.fragment).ok().and_then(|design| design.check().ok());
    let Some(checked) = checked else {
        TASK.with(RefCell::take);
        say(&Answer::Refused(number));
        return;
    };
    let task = Task { number, sampling: Sampling::new(&checked, SAMPLES), next: Some(Timeout::new(0, work)) };
    TASK.with(|own| own.replace(Some(task)));
}

/// One slice of the work.
fn work() {
    let answer = TASK.with(|task| {
        let mut task = task.borrow_mut();
        let Task { number, sampling, next } = task.as_mut()?;
        let until = Date::now() + SLICE_MS;
        let mut more = true;
        while more && Date::now() < until {
            more = sampling.step();
        }
        if more {
            *next = Some(Timeout::new(0, work));
            return None;
        }
        let answer = sampling.finish().map(|ranges| Answer::Ranges(*number, Box::new(ranges)));
        *task = None;
        answer
    });
    if let Some(answer) = answer {
        say(&answer);
    }
}
