//! The page's end of the line to its worker.

use js_sys::{Array, Float64Array};
use wasm_bindgen::prelude::*;
use web_sys::{Event, MessageEvent, Worker, WorkerOptions, WorkerType};
use yew::Callback;

use crate::estimator;
use crate::work::{Answer, Question};

/// A worker that runs; it ends with this.
pub struct WorkerLink {
    worker: Worker,
    _heard: Closure<dyn Fn(MessageEvent)>,
    _failed: Closure<dyn Fn(Event)>,
}

impl WorkerLink {
    /// Starts the worker; `None` where the browser has none or forbids it. What it says goes to `on_answer`; when it cannot be
    /// loaded, or stops on a fault, `on_failure` hears of it.
    pub fn start(on_answer: Callback<Answer>, on_failure: Callback<()>) -> Option<Self> {
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        let worker = Worker::new_with_options(&estimator::worker().ok()?, &options).ok()?;
        let heard = Closure::<dyn Fn(MessageEvent)>::new({
            let on_failure = on_failure.clone();
            move |event: MessageEvent| match answer(&event.data()) {
                Some(answer) => on_answer.emit(answer),
                None => on_failure.emit(()),
            }
        });
        let failed = Closure::<dyn Fn(Event)>::new(move |_| on_failure.emit(()));
        worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        worker.set_onerror(Some(failed.as_ref().unchecked_ref()));
        Some(Self { worker, _heard: heard, _failed: failed })
    }

    /// Asks; says whether the question could be sent.
    pub fn ask(&self, question: &Question) -> bool {
        self.worker.post_message(&JsValue::from_str(&question.to_text())).is_ok()
    }
}

/// A row of numbers and a text.
fn answer(data: &JsValue) -> Option<Answer> {
    let parts = data.dyn_ref::<Array>()?;
    let numbers = parts.get(0).dyn_into::<Float64Array>().ok()?.to_vec();
    Answer::from_message(&numbers, &parts.get(1).as_string()?)
}

impl Drop for WorkerLink {
    fn drop(&mut self) {
        self.worker.set_onmessage(None);
        self.worker.set_onerror(None);
        self.worker.terminate();
    }
}
