//! What is wished of a search, as fields.

use std::rc::Rc;

use hushwright::design::Design;
use hushwright::material;
use web_sys::HtmlInputElement;
use yew::prelude::*;

use crate::components::SelectField;
use crate::quantity::{Quantity, Units, in_units, sentence};
use crate::wishes::Wishes;
use crate::words::capital;

/// Paths of wishes that were refused, and what is allowed there.
pub type Refusals = Vec<(String, String)>;

/// Labels, ids and kinds of the limits, in the order of [`Wishes::LIMITS`].
const LIMITS: [(&str, &str, Quantity); 4] = [
    ("Mass", "wish-mass", Quantity::Mass),
    ("Cost", "wish-cost", Quantity::Coefficient),
    ("Door, clear width", "wish-width", Quantity::Length),
    ("Door, clear height", "wish-height", Quantity::Length),
];
/// How the sheets of a shell can be joined, in the order of [`Wishes::joints`].
const JOINTS: [&str; 3] = ["damping compound", "screws alone", "rigid glue"];
/// Most sheets that can be wished inside and outside.
const MOST: [usize; 2] = [3, 4];

/// Whether what is said of `path` stands at one of the fields.
pub fn has_field(path: &str) -> bool {
    Wishes::LIMITS.contains(&path) || path.starts_with("space.stock") || path == "space.joints"
}

/// Wishes as they are typed.
#[derive(Clone, Debug, PartialEq)]
pub struct Typed {
    /// Texts of the limits, in the order of [`Wishes::LIMITS`].
    pub limits: [String; 4],
    /// The rest.
    pub wishes: Wishes,
}

impl Typed {
    /// What is usual round `design`.
    pub fn of(design: &Design) -> Self {
        Self { limits: std::array::from_fn(|_| String::new()), wishes: Wishes::of(design) }
    }

    /// What is wished, or which limit cannot be read.
    pub fn read(&self, units: Units) -> Result<Wishes, Refusals> {
        let mut wishes = self.wishes.clone();
        let mut refusals = Vec::new();
        for (k, text) in self.limits.iter().enumerate() {
            let quantity = LIMITS[k].2;
            wishes.limits[k] = quantity.read(text, units);
            if wishes.limits[k].is_none() && !text.trim().is_empty() {
                let unit = quantity.unit(units);
                let number = if unit.is_empty() { "a number".to_owned() } else { format!("a number of {unit}") };
                refusals.push((Wishes::LIMITS[k].to_owned(), format!("allowed is {number}, or nothing for no limit")));
            }
        }
        if refusals.is_empty() { Ok(wishes) } else { Err(refusals) }
    }
}

/// The fields: what is typed, what was refused, and where it goes when something is typed or chosen.
pub fn wishes_form(typed: &Typed, refusals: &Refusals, units: Units, on_edit: &Callback<Typed>) -> Html {
    let edit = {
        let (typed, on_edit) = (typed.clone(), on_edit.clone());
        move |change: &dyn Fn(&mut Typed)| {
            let mut changed = typed.clone();
            change(&mut changed);
            on_edit.emit(changed);
        }
    };
    let refusal = |path: &str| {
        let (_, message) = refusals.iter().find(|(own, _)| own == path)?;
        Some(sentence(&in_units(message, units)))
    };
    let limit = |(k, (label, id, quantity)): (usize, (&'static str, &'static str, Quantity))| {
        let refusal = refusal(Wishes::LIMITS[k]);
        let error = format!("{id}-error");
        let edit = edit.clone();
        let oninput = move |event: InputEvent| {
            let text = event.target_unchecked_into::<HtmlInputElement>().value();
            edit(&|typed| typed.limits[k].clone_from(&text));
        };
        html! {
            <div class={classes!("wish", refusal.is_some().then_some("refused"))}>
                <label for={id}>{ label }</label>
                <span class="entry">
                    <input type="text" inputmode="decimal" autocomplete="off" {id} value={typed.limits[k].clone()} {oninput}
                        placeholder="no limit" aria-invalid={refusal.is_some().then_some("true")}
                        aria-describedby={refusal.is_some().then(|| error.clone())} />
                    <span class="unit">{ quantity.unit(units) }</span>
                </span>
                if let Some(refusal) = refusal { <p class="refusal" id={error} role="alert">{ refusal }</p> }
            </div>
        }
    };
    let most = |shell: usize, id: &'static str, label: &'static str| {
        let edit = edit.clone();
        let options: Vec<(AttrValue, AttrValue)> = (1 - shell..=MOST[shell])
            .map(|count| (count.to_string().into(), if count == 0 { "none".into() } else { count.to_string().into() }))
            .collect();
        let on_choose = Callback::from(move |key: String| {
            if let Ok(count) = key.parse() {
                edit(&|typed| typed.wishes.most_sheets[shell] = count);
            }
        });
        html! { <SelectField {id} {label} {options} value={typed.wishes.most_sheets[shell].to_string()} {on_choose} /> }
    };
    let tick = |label: String, is_on: bool, change: Rc<dyn Fn(&mut Typed)>| {
        let edit = edit.clone();
        html! {
            <label class="tick"><input type="checkbox" checked={is_on} onchange={move |_: Event| edit(&*change)} />{ label }</label>
        }
    };
    let joint = |k: usize| {
        tick(JOINTS[k].to_owned(), typed.wishes.joints[k], Rc::new(move |typed: &mut Typed| typed.wishes.joints[k] ^= true))
    };
    let stock = &typed.wishes.stock;
    let board = |key: &'static str, thickness_mm: f64| {
        let own = (key.to_owned(), thickness_mm);
        let place = stock.iter().position(|board| *board == own);
        let change = move |typed: &mut Typed| match place {
            Some(place) => drop(typed.wishes.stock.remove(place)),
            None => typed.wishes.stock.push(own.clone()),
        };
        tick(units.thickness(thickness_mm), place.is_some(), Rc::new(change))
    };
    let material = |sheet: &'static material::SheetMaterial| {
        html! {
            <fieldset class="ticks"><legend>{ capital(sheet.name) }</legend>
                { for sheet.stock_mm.iter().map(|&thickness_mm| board(sheet.key, thickness_mm)) }</fieldset>
        }
    };
    let of_stock = refusals.iter().find(|(path, _)| path.starts_with("space.stock")).map(|(_, message)| sentence(message));
    html! {
        <div class="wishes">
            <fieldset><legend>{ "At most" }</legend>{ for LIMITS.into_iter().enumerate().map(limit) }</fieldset>
            <fieldset><legend>{ "Build-ups" }</legend>
                { most(0, "wish-inner", "Sheets inside, up to") }
                { most(1, "wish-outer", "Sheets outside, up to") }
                <div class="ticks"><span>{ "Joined by" }</span>{ for (0..JOINTS.len()).map(joint) }</div>
                if let Some(refusal) = refusal("space.joints") { <p class="refusal" role="alert">{ refusal }</p> }
            </fieldset>
            <details><summary>{ format!("Sheets at hand: {} ({length})", stock.len(), length = units.length_unit()) }</summary>
                { for material::sheets().iter().map(material) }
            </details>
            if let Some(refusal) = of_stock { <p class="refusal" id="stock-error" role="alert">{ refusal }</p> }
        </div>
    }
}
