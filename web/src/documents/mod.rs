//! What is taken to the workshop, as pages of text and drawings: made from a plan by a program of its own, shown and printed by the
//! page.
//!
//! Everything here is text with its marks escaped (crate `maud`), so that what is shown, printed and saved is one thing.

mod beside;
mod carrying;
mod cells;
mod code;
mod comparison;
mod cut_list;
pub mod drawings;
mod joints;
mod labels;
mod outcomes;
mod picture;
mod sending;
mod sheets;
mod shopping;
mod sizes;
mod weight;
mod words;
mod work;

use hushwright::design::CheckedDesign;
use hushwright::workshop::{Load, Plan};
use maud::Markup;
use serde::{Deserialize, Serialize};

use crate::quantity::{Units, decimal};

pub use cells::{Kept, MEASURED, SIZE};
pub use comparison::compared;
pub use picture::picture;
pub use sending::sending;
pub use sheets::sheet_file;

/// What the workshop program says of a design.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Planned {
    /// What it comes to.
    pub gist: Gist,
    /// The documents, if they were asked for.
    pub sections: Vec<Section>,
    /// The cut list as comma-separated values.
    pub cut_list_csv: String,
}

/// A plan in a few numbers.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Gist {
    /// What the shopping list comes to, with tax.
    pub cost: f64,
    /// Whether something in it has no price.
    pub is_incomplete: bool,
    /// What money is called.
    pub currency: String,
    /// Hours of work.
    pub hours: f64,
    /// Whether the whole passes the door and what comes after it.
    pub passes: bool,
    /// Whether its boxes do, one at a time.
    pub shells_pass: bool,
    /// Inside length, width and height in mm that what stands in it needs.
    pub needed_mm: [f64; 3],
}

impl Gist {
    /// What it costs, with what money is called; `+` where something has no price.
    pub fn cost_words(&self) -> String {
        let more = if self.is_incomplete { "+" } else { "" };
        format!("{}{more} {}", decimal(self.cost, 0), self.currency).trim_end().to_owned()
    }
}

/// One document.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Section {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What it says, as marked-up text.
    pub body: String,
}

/// What all documents need to know.
#[derive(Clone, Copy)]
pub struct Desk<'a> {
    /// The design.
    pub design: &'a CheckedDesign,
    /// Its plan.
    pub plan: &'a Plan,
    /// The units shown.
    pub units: Units,
    /// What was typed and refused.
    pub kept: &'a [Kept],
}

impl Planned {
    /// What there is to say of `plan`; its documents only where `with_sections`.
    pub fn new(desk: &Desk, with_sections: bool) -> Self {
        let Desk { plan, design, .. } = *desk;
        let passes = |of: fn(&Load) -> bool| {
            let loads = plan.carrying.iter().filter(|load| of(&load.what));
            loads.filter_map(|load| load.passage.as_ref()).all(|passage| passage.passes)
        };
        let whole = passes(|load| *load == Load::Whole);
        let boxes = plan.shells.len() > 1 && passes(|load| matches!(load, Load::Shell(_)));
        let gist = Gist {
            cost: plan.money.all(),
            is_incomplete: plan.money.is_incomplete,
            currency: design.document.build.currency.trim().to_owned(),
            hours: plan.hours,
            passes: whole,
            shells_pass: boxes,
            needed_mm: plan.needed.size_mm,
        };
        let sections = if with_sections { sections(desk) } else { Vec::new() };
        let cut_list_csv = if with_sections { cut_list::csv(desk) } else { String::new() };
        Self { gist, sections, cut_list_csv }
    }
}

/// All documents, in the order in which they are used.
fn sections(desk: &Desk) -> Vec<Section> {
    let documents: [(&str, &str, Markup); 9] = [
        ("sizes", "Sizes", sizes::sizes(desk)),
        ("carrying", "Will it go through?", carrying::carrying(desk)),
        ("weight", "Weight", weight::weight(desk)),
        ("joints", "How it goes together", joints::joints(desk)),
        ("cut-list", "Cut list", cut_list::cut_list(desk)),
        ("sheets", "Sheets and how to saw them", sheets::sheets(desk)),
        ("shopping", "Shopping list", shopping::shopping(desk)),
        ("work", "Work, in its order", work::work(desk)),
        ("labels", "Labels for the boards", labels::labels(desk)),
    ];
    let section = |(id, title, body): (&str, &str, Markup)| Section {
        id: format!("plan-{id}"),
        title: title.to_owned(),
        body: body.into_string(),
    };
    documents.into_iter().map(section).collect()
}
