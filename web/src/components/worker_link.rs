//! The page's end of the line to its worker.

use js_sys::Float64Array;
use wasm_bindgen::prelude::*;
use web_sys::{Event, MessageEvent, Worker};
use yew::Callback;

use crate::work::{Answer, Question, WORKER};

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
        let worker = Worker::new(WORKER).ok()?;
        let heard = Closure::<dyn Fn(MessageEvent)>::new({
            let on_failure = on_failure.clone();
            move |event: MessageEvent| {
                let numbers = event.data().dyn_into::<Float64Array>().map(|row| row.to_vec());
                match numbers.ok().as_deref().and_then(Answer::from_numbers) {
                    Some(answer) => on_answer.emit(answer),
                    None => on_failure.emit(()),
                }
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

impl Drop for WorkerLink {
    fn drop(&mut self) {
        self.worker.set_onmessage(None);
        self.worker.set_onerror(None);
        self.worker.terminate();
    }
}
