//! The designs that are kept on this device: a list with a small picture of each, and what can be done with them.

use std::rc::Rc;

use gloo::events::EventListener;
use gloo::utils::window;
use hushwright::design::Design;
use web_sys::HtmlInputElement;
use yew::prelude::*;

use super::focus_soon;
use super::lasting::Lasting;
use crate::charts::miniature::{Miniature, SIZE, miniature};
use crate::quantity::Units;
use crate::shelf::browser::{date_words, hand};
use crate::shelf::desk::{Desk, FORBIDDEN, Hand, Item, PUT_BACK, Present, Standing, quoted};
use crate::state::Action;
use crate::storage;

/// From so many on, the list can be searched.
const MANY: usize = 13;

/// Properties of [`Shelf`].
#[derive(Clone, PartialEq, Properties)]
pub struct ShelfProps {
    /// The design on the page.
    pub design: Rc<Design>,
    /// The fragment of the link that carries it.
    pub fragment: Rc<str>,
    /// Units shown.
    pub units: Units,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// Something done at the desk, and the element that has the focus next where nothing is asked and nothing can be put back.
type Deed = (Box<dyn Fn(&mut Desk, Present, &Hand) -> Option<Action>>, &'static str);

/// The button that keeps the design; it is always there.
const KEEP: &str = "shelf-keep";

fn button(id: Option<&'static str>, chief: bool, words: Html, act: &Callback<Deed>, deed: impl Fn() -> Deed + 'static) -> Html {
    let onclick = act.reform(move |_: MouseEvent| deed());
    html! { <button type="button" {id} class={chief.then_some("chief")} {onclick}>{ words }</button> }
}

/// The list and what can be done with it.
#[component]
pub fn Shelf(props: &ShelfProps) -> Html {
    let desk = use_mut_ref(|| Desk::new(&storage::held(storage::SHELF).unwrap_or_default(), &hand()));
    let update = use_force_update();
    // The key of what is given another name, and that name as far as it is typed.
    let renamed = use_state_eq(|| None::<(String, String)>);
    let wanted = use_state_eq(String::new);
    let act = {
        let (desk, update, props, renamed) = (Rc::clone(&desk), update.clone(), props.clone(), renamed.setter());
        Callback::from(move |(deed, focus): Deed| {
            let action = {
                let mut desk = desk.borrow_mut();
                let present = Present { design: &props.design, fragment: &props.fragment };
                let action = deed(&mut desk, present, &hand());
                storage::hold(storage::SHELF, &desk.memory());
                // The button that was pressed may be gone.
                let next = if desk.question().is_some() {
                    "shelf-replace"
                } else if desk.undo_words() == Some(PUT_BACK) {
                    "shelf-undo"
                } else {
                    focus
                };
                if !next.is_empty() {
                    focus_soon(next.to_owned());
                }
                if !desk.said().failed {
                    renamed.set(None);
                }
                action
            };
            if let Some(action) = action {
                props.emit.emit(action);
            }
            update.force_update();
        })
    };
    {
        let (desk, update) = (Rc::clone(&desk), update.clone());
        use_effect_with((), move |()| {
            let follow = EventListener::new(&window(), "storage", move |_| {
                desk.borrow_mut().refresh(&hand());
                update.force_update();
            });
            move || drop(follow)
        });
    }
    {
        let (desk, design) = (Rc::clone(&desk), Rc::clone(&props.design));
        use_effect_with(Rc::clone(&props.fragment), move |fragment| {
            let mut desk = desk.borrow_mut();
            desk.adopt(Present { design: &design, fragment });
            storage::hold(storage::SHELF, &desk.memory());
        });
    }
    let desk = desk.borrow();
    let present = Present { design: &props.design, fragment: &props.fragment };
    let standing = desk.standing(present);
    let small = wanted.trim().to_ascii_lowercase();
    let is_many = desk.items().len() >= MANY;
    let items = desk.items().iter().enumerate().filter(|(_, item)| !is_many || item.name.to_ascii_lowercase().contains(&small));
    let items: Vec<Html> = items.map(|(k, item)| item_view(k, item, props, &renamed, &act)).collect();
    let oninput = {
        let wanted = wanted.setter();
        Callback::from(move |event: InputEvent| wanted.set(event.target_unchecked_into::<HtmlInputElement>().value()))
    };
    html! {
        <section class="shelf" id="shelf" aria-labelledby="shelf-title">
            <h2 id="shelf-title">{ "Kept on this device" }</h2>
            <p class="hint">
                { "In this browser on this device, and nowhere else. Clearing the browser's data deletes it, and a private window forgets \
                   it when it is closed; what has to last belongs in a file or a link as well." }
            </p>
            if desk.fault().is_some() {
                <p class="shelf-fault" role="alert">{ FORBIDDEN }</p>
            } else {
                <p id="shelf-standing">{ standing_words(&standing, desk.items().is_empty()) }</p>
                <div class="shelf-do">{ for doings(&standing, &props.design.name, &act) }</div>
            }
            if let Some(question) = desk.question() {
                <div class="shelf-asks" role="group" aria-labelledby="shelf-question">
                    <p id="shelf-question">{ &question.words }</p>
                    <div class="shelf-do">
                        { button(Some("shelf-replace"), false, question.replace.into(), &act, || {
                            (Box::new(|desk, present, hand| { desk.replace(present, hand); None }), KEEP)
                        }) }
                        if let Some(name) = &question.other_name {
                            { button(Some("shelf-both"), false, format!("Keep both, this one as {}", quoted(name)).into(), &act, || {
                                (Box::new(Desk::keep_both), KEEP)
                            }) }
                        }
                        { button(Some("shelf-leave"), false, "Cancel".into(), &act, || (Box::new(|desk, _, _| { desk.leave(); None }), KEEP)) }
                    </div>
                </div>
            }
            <div class={classes!("shelf-said", desk.said().failed.then_some("shelf-fault"))}>
                <p role="status" id="shelf-said">{ &desk.said().words }</p>
                if let Some(words) = desk.undo_words() {
                    { button(Some("shelf-undo"), false, words.into(), &act, || {
                        (Box::new(|desk, _, hand| { desk.undo(hand); None }), KEEP)
                    }) }
                }
            </div>
            if is_many {
                <div class="find">
                    <label for="shelf-find">{ "Find a name" }</label>
                    <input type="text" inputmode="search" id="shelf-find" autocomplete="off" value={(*wanted).clone()} {oninput} />
                    <span role="status">{ format!("{} of {}", items.len(), desk.items().len()) }</span>
                </div>
            }
            if !items.is_empty() {
                <ul class="shelf-list">{ for items }</ul>
            }
            if !desk.items().is_empty() {
                <Lasting />
            }
        </section>
    }
}

fn standing_words(standing: &Standing, is_empty: bool) -> String {
    match standing {
        Standing::Nowhere if is_empty => "Nothing is kept here yet.".to_owned(),
        Standing::Nowhere => "The design on the page is not kept here.".to_owned(),
        Standing::Kept(name) => format!("The design on the page is kept here, as {}.", quoted(name)),
        Standing::Differs(name) => format!("The design on the page differs from {} as it is kept here.", quoted(name)),
        Standing::ChangedElsewhere(name) => {
            format!("{}, which was opened here, has been changed in another tab or window since.", quoted(name))
        }
        Standing::GoneElsewhere(name) => {
            format!("{}, which was opened here, has been deleted in another tab or window since.", quoted(name))
        }
    }
}

/// The buttons that keep the design on the page, which has this name.
fn doings(standing: &Standing, name: &str, act: &Callback<Deed>) -> Vec<Html> {
    let keep = |chief| button(Some(KEEP), chief, "Keep this design".into(), act, || (Box::new(Desk::keep), KEEP));
    let (Standing::Differs(opened) | Standing::ChangedElsewhere(opened)) = standing else { return vec![keep(true)] };
    // Whoever changes the name means another design, more likely than not.
    let same = name.trim() == opened.trim();
    let words = if same { "Save changes to" } else { "Put it in the place of" };
    let save = button(Some("shelf-save"), same, format!("{words} {}", quoted(opened)).into(), act, || {
        (
            Box::new(|desk, present, hand| {
                desk.save(present, hand);
                None
            }),
            KEEP,
        )
    });
    if same { vec![save, keep(false)] } else { vec![keep(true), save] }
}

/// Item `k` of the list.
fn item_view(
    k: usize,
    item: &Item,
    ShelfProps { design, fragment, units, .. }: &ShelfProps,
    renamed: &UseStateHandle<Option<(String, String)>>,
    act: &Callback<Deed>,
) -> Html {
    let of_name = |words: &'static str| {
        html! { <>{ words }<span class="unseen">{ " " }{ quoted(&item.name) }</span></> }
    };
    let delete = button(None, false, of_name("Delete"), act, move || {
        (
            Box::new(move |desk, _, hand| {
                desk.delete(k, hand);
                None
            }),
            KEEP,
        )
    });
    let date = item.saved_ms.map(date_words).unwrap_or_default();
    let key = item.key().to_owned();
    let kept = match &item.design {
        Ok(design) => design,
        Err(why) => {
            return html! {
                <li {key}>
                    <span class="shelf-picture" />
                    <div><b><bdi>{ &item.name }</bdi></b><span class="hint">{ date }</span><p class="shelf-fault">{ why }</p></div>
                    <div class="shelf-do">{ delete }</div>
                </li>
            };
        }
    };
    let inner = &kept.inner;
    let size = units.size([inner.length_mm, inner.width_mm, inner.height_mm].map(|mm| mm / 1000.0));
    let about = format!("{date}; inside {size} {}", units.length_unit());
    let is_present = item.holds(Present { design, fragment });
    let draft = (**renamed).as_ref().filter(|(of, _)| *of == key).map(|(_, name)| name.clone());
    let name_it = {
        let (renamed, key) = (renamed.setter(), key.clone());
        move |name: String| renamed.set(Some((key.clone(), name)))
    };
    let what = if let Some(name) = draft {
        let take = {
            let (act, name) = (act.clone(), name.clone());
            Callback::from(move |()| {
                let name = name.clone();
                act.emit((Box::new(move |desk, present, hand| desk.rename(k, &name, present, hand)), KEEP));
            })
        };
        let leave = {
            let (renamed, id) = (renamed.setter(), rename_id(k));
            Callback::from(move |()| {
                renamed.set(None);
                focus_soon(id.clone());
            })
        };
        let onkeydown = {
            let (take, leave) = (take.clone(), leave.clone());
            Callback::from(move |event: KeyboardEvent| match event.key().as_str() {
                "Enter" => take.emit(()),
                "Escape" => leave.emit(()),
                _ => {}
            })
        };
        let oninput = Callback::from(move |event: InputEvent| name_it(event.target_unchecked_into::<HtmlInputElement>().value()));
        html! {
            <div>
                <label for="shelf-name">{ "Name" }</label>
                <input type="text" id="shelf-name" maxlength="80" autocomplete="off" spellcheck="false" value={name} {oninput} {onkeydown} />
                <div class="shelf-do">
                    <button type="button" id="shelf-name-it" onclick={take.reform(|_: MouseEvent| ())}>{ "Save the name" }</button>
                    <button type="button" onclick={leave.reform(|_: MouseEvent| ())}>{ "Cancel" }</button>
                </div>
            </div>
        }
    } else {
        let name = item.name.clone();
        let rename = Callback::from(move |_: MouseEvent| {
            name_it(name.clone());
            focus_soon("shelf-name".to_owned());
        });
        html! {
            <>
                <div>
                    <b><bdi>{ &item.name }</bdi></b>
                    if is_present { <span class="shelf-here">{ "on the page now" }</span> }
                    <span class="hint">{ about }</span>
                </div>
                <div class="shelf-do">
                    { button(None, false, of_name("Open"), act, move || (Box::new(move |desk, _, _| desk.open(k)), "")) }
                    <button type="button" id={rename_id(k)} onclick={rename}>{ of_name("Rename") }</button>
                    { delete }
                </div>
            </>
        }
    };
    html! { <li {key} class={is_present.then_some("shelf-present")}>{ picture(kept) }{ what }</li> }
}

fn rename_id(k: usize) -> String {
    format!("shelf-rename-{k}")
}

/// The box cut open, small.
fn picture(design: &Design) -> Html {
    let Miniature { parts, lid } = miniature(design);
    let (width, height) = SIZE;
    html! {
        <svg class="shelf-picture" viewBox={format!("0 0 {width} {height}")} aria-hidden="true">
            { for parts.into_iter().map(|(hatch, d)| html! { <path class={hatch.key()} fill-rule="evenodd" {d} /> }) }
            <path class="lid" d={lid} />
        </svg>
    }
}
