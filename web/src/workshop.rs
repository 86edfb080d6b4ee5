//! The workshop: from a design to the documents that are taken to the saw, as a program of its own; and the designs that are kept on the device.

use std::cell::RefCell;

use hushwright::design::Design;
use hushwright_web::documents::{self, Desk, Planned, sheet_file};
use hushwright_web::planner::Question;
use hushwright_web::quantity::Units;
use hushwright_web::schedule::Comparison;
use hushwright_web::shelf::browser::{WRITING, hand};
use hushwright_web::shelf::engine::{Line, LoadedEngine};
use hushwright_web::shelf::exchange;
use hushwright_web::shelf::handling::Shelf;
use hushwright_web::storage;
use js_sys::Function;
use wasm_bindgen::prelude::*;

fn main() {}

/// What there is to say of the design that is asked about, as bytes; nothing where it is no sound design.
#[wasm_bindgen]
pub fn plan(question: &[u8]) -> Option<Vec<u8>> {
    let with = |desk: &Desk, question: &Question| Planned::new(desk, question.with_sections);
    postcard::to_allocvec(&at_desk(question, with)?).ok()
}

/// The drawing of sheet `number`, counted through all materials, as a file of its own.
#[wasm_bindgen]
pub fn drawing(question: &[u8], number: usize) -> Option<String> {
    at_desk(question, |desk, _| sheet_file(desk, number))?
}

/// What is said below a link that is to be sent, with its code to scan.
#[wasm_bindgen]
pub fn sending(link: &str, name: &str) -> String {
    documents::sending(link, name)
}

thread_local! {
    /// The kept designs, as long as the page is open: what was deleted can be put back from other views too.
    static SHELF: RefCell<Option<Shelf>> = const { RefCell::new(None) };
}

/// Does at the kept designs what is asked, and says what there is to see. `renamed` gives the design of a fragment another name.
#[wasm_bindgen]
pub fn shelf(question: &[u8], engine: &LoadedEngine, renamed: &Function) -> Option<Vec<u8>> {
    let question = exchange::Question::from_bytes(question)?;
    let line = Line { engine, renamed };
    let hand = hand(&line);
    SHELF.with_borrow_mut(|shelf| {
        let shelf = shelf.get_or_insert_with(|| Shelf::new(&storage::held(storage::SHELF).unwrap_or_default(), &hand));
        let answer = question.answer(shelf, &hand, WRITING);
        storage::hold(storage::SHELF, &shelf.memory());
        answer.to_bytes()
    })
}

/// The controls and the sheet that compare the designs that are asked about, as marked-up text in bytes.
#[wasm_bindgen]
pub fn compared(question: &[u8]) -> Option<Vec<u8>> {
    postcard::to_allocvec(&documents::compared(&Comparison::from_bytes(question)?)?).ok()
}

fn at_desk<T>(question: &[u8], work: impl FnOnce(&Desk, &Question) -> T) -> Option<T> {
    let question = Question::from_bytes(question)?;
    let design = Design::from_bytes(&question.design)?.check().ok()?;
    let plan = hushwright::workshop::plan(&design).ok()?;
    let units = Units::from_key(&question.units).unwrap_or_default();
    Some(work(&Desk { design: &design, plan: &plan, units, kept: &question.kept }, &question))
}
