//! The stack of a shell: drawn as it lies, and its list of sheets, which can be put into another order by hand or by keys.

use hushwright::buildup::check::MOST_SHEETS;
use web_sys::{Element, ScrollIntoViewOptions, ScrollLogicalPosition};
use yew::prelude::*;

use super::focus_soon;
use super::hatches::{hatch_url, hatches};
use crate::charts::cut::Hatch;
use crate::charts::pile::{Strip, landing, pile};
use crate::fields::{Shell, id_of};
use crate::leaf;
use crate::state::Action;

/// A sheet as it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// What it is.
    pub name: String,
    /// Thickness in mm.
    pub thickness_mm: f64,
    /// The same in words.
    pub words: String,
    /// How it is hatched.
    pub hatch: Hatch,
}

/// Properties of [`Stack`].
#[derive(Clone, PartialEq, Properties)]
pub struct StackProps {
    /// Which shell it is.
    pub shell: Shell,
    /// Its sheets, from the inside out.
    pub sheets: Vec<Drawn>,
    /// Keys of the joints between them; empty for one by numbers.
    pub bonds: Vec<String>,
    /// How many of them stay where they are.
    pub kept: usize,
    /// What each is made of, as an input.
    pub materials: Vec<Html>,
    /// The numbers of each.
    pub rows: Vec<Html>,
    /// The joint outside each.
    pub joints: Vec<Html>,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// A sheet on its way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Carried {
    from: usize,
    to: usize,
}

/// How near in px to the edge of the window the list begins to move.
const NEAR_EDGE: f64 = 90.0;

/// The stack and its list.
#[component]
pub fn Stack(props: &StackProps) -> Html {
    let StackProps { shell, sheets, bonds, kept, materials, rows, joints, emit } = props;
    let (shell, kept, count) = (*shell, *kept, sheets.len());
    let base = id_of(shell.path());
    let list = use_node_ref();
    let carried = use_state_eq(|| None::<Carried>);
    let said = use_state_eq(String::new);
    let full = count >= MOST_SHEETS;
    let full_words = format!("{MOST_SHEETS} sheets are the most in one box.");
    // What is done, which sheet is spoken of and where it is then, and which element has the focus.
    let act = {
        let (emit, said) = (emit.clone(), said.setter());
        move |action: Action, place: String, focus: Option<String>| {
            emit.emit(action);
            said.set(place);
            if let Some(id) = focus {
                focus_soon(id);
            }
        }
    };
    let place = |k: usize, of: usize, name: &str| format!("Sheet {} of {of}, {name}", k + 1);
    let id = |k: usize, part: &str| format!("{base}-{}-{part}", 2 * k);
    let can_stand = |k: usize| (kept..count).contains(&k);
    let move_to = |from: usize, to: usize, focus: String| {
        let (act, place) = (act.clone(), place(to, count, &sheets[from].name));
        move || act(Action::MoveSheet(shell, from, to), place.clone(), Some(focus.clone()))
    };
    let grip = |k: usize| {
        let keys = {
            let [up, down] = [k.checked_sub(1), Some(k + 1)]
                .map(|to| to.filter(|to| can_stand(*to) && can_stand(k)).map(|to| move_to(k, to, id(to, "grip"))));
            let carried = carried.setter();
            Callback::from(move |event: KeyboardEvent| {
                let step = match event.key().as_str() {
                    "ArrowUp" => &up,
                    "ArrowDown" => &down,
                    "Escape" => return carried.set(None),
                    _ => return,
                };
                event.prevent_default();
                if let Some(step) = step {
                    step();
                }
            })
        };
        let take = {
            let carried = carried.setter();
            Callback::from(move |event: PointerEvent| {
                if let Some(grip) = event.target_dyn_into::<Element>().filter(|_| event.button() == 0) {
                    // Without it, the sheet is let go where the pointer leaves the grip.
                    let _ = grip.set_pointer_capture(event.pointer_id());
                    carried.set(Some(Carried { from: k, to: k }));
                }
            })
        };
        let carry = {
            let (carried, list) = (carried.clone(), list.clone());
            Callback::from(move |event: PointerEvent| {
                if let Some(Carried { from, to }) = *carried {
                    let y = f64::from(event.client_y());
                    let items = items_of(&list);
                    let middles: Vec<f64> = items.iter().map(middle_of).collect();
                    carried.set(Some(Carried { from, to: landing(&middles, from, y).clamp(kept, count - 1) }));
                    reveal(&items, to, y);
                }
            })
        };
        let put_down = {
            let steps: Vec<_> = (0..count).map(|to| move_to(k, to, id(to, "grip"))).collect();
            let carried = carried.clone();
            Callback::from(move |_: PointerEvent| {
                if let Some(Carried { from, to }) = *carried
                    && from == k
                    && from != to
                {
                    steps[to]();
                }
                carried.set(None);
            })
        };
        let drop_it = {
            let carried = carried.setter();
            Callback::from(move |_: PointerEvent| carried.set(None))
        };
        let stays = k < kept;
        let label = if stays {
            format!("{}: the old cabinet stays where it is", place(k, count, &sheets[k].name))
        } else {
            format!("Move {}", place(k, count, &sheets[k].name).replacen('S', "s", 1))
        };
        html! {
            <button type="button" class="grip" id={id(k, "grip")} aria-label={label} title={if stays { "stays where it is" } else { "drag, or press an arrow key" }}
                disabled={stays || count == 1} onkeydown={keys} onpointerdown={take} onpointermove={carry} onpointerup={put_down} onpointercancel={drop_it}
                aria-describedby={(count > 1).then(|| format!("{base}-how"))} />
        }
    };
    // A button that says why it is off.
    let button = |part: &str, k: usize, words: Html, label: String, off: Option<&str>, on_click: Box<dyn Fn()>| {
        let label = off.map_or_else(|| label.clone(), |why| format!("{label}: {why}"));
        html! {
            <button type="button" id={id(k, part)} aria-label={label.clone()} title={label} disabled={off.is_some()}
                onclick={Callback::from(move |_: MouseEvent| on_click())}>{ words }</button>
        }
    };
    let arrow = |sign: &'static str, word: &'static str| html! { <><span aria-hidden="true">{ sign }</span>{ " " }{ word }</> };
    let stays_words = "the old cabinet stays where it is";
    let buttons = |k: usize| {
        let number = k + 1;
        // The focus goes with the sheet; at either end to the button that leads back.
        let swap = |to: usize, other_end: usize, part: &str, back: &str| {
            let focus = id(to, if to == other_end { back } else { part });
            Box::new(move_to(k, to, focus))
        };
        let inwards = match k {
            _ if k < kept => Some(stays_words),
            0 => Some("it is the innermost"),
            _ if k == kept => Some("the old cabinet stays innermost"),
            _ => None,
        };
        let outwards = if k < kept { Some(stays_words) } else { (number == count).then_some("it is the outermost") };
        let remove = match k {
            _ if k < kept => Some("the old cabinet is there"),
            _ => (count == 1).then_some("a box has at least one sheet"),
        };
        let copy = {
            let (act, place) = (act.clone(), place(number, count + 1, &sheets[k].name));
            Box::new(move || act(Action::DuplicateSheet(shell, k), place.clone(), None))
        };
        let removal = {
            let (act, add) = (act.clone(), format!("{base}-add"));
            let place = format!("{} removed", sheets[k].name);
            Box::new(move || act(Action::RemoveSheet(shell, k), place.clone(), Some(add.clone())))
        };
        html! {
            <div class="acts">
                { button("inwards", k, arrow("↑", "in"), format!("Move sheet {number} in, towards the source"), inwards,
                    swap(k.saturating_sub(1), kept, "inwards", "outwards")) }
                { button("outwards", k, arrow("↓", "out"), format!("Move sheet {number} out, towards the room"), outwards,
                    swap((k + 1).min(count - 1), count - 1, "outwards", "inwards")) }
                { button("copy", k, html! { "copy" }, format!("Copy sheet {number}"), full.then_some(full_words.as_str()), copy) }
                { button("remove", k, html! { <span aria-hidden="true">{ "×" }</span> }, format!("Remove sheet {number}"), remove, removal) }
            </div>
        }
    };
    let shown: Vec<&Drawn> = match *carried {
        Some(Carried { from, to }) if from < count && to < count => {
            let mut order: Vec<usize> = vec![0; count];
            for k in 0..count {
                order[leaf::moved(k, from, to)] = k;
            }
            order.into_iter().map(|k| &sheets[k]).collect()
        }
        _ => sheets.iter().collect(),
    };
    let sheet = |k: usize| {
        let class = match *carried {
            Some(Carried { from, .. }) if from == k => "carried",
            Some(Carried { from, to }) if to == k && to < from => "lands-before",
            Some(Carried { from, to }) if to == k && to > from => "lands-after",
            _ => "",
        };
        html! {
            <li key={k} {class}>
                <div class="sheet">
                    { grip(k) }
                    <b class="nth" aria-hidden="true">{ k + 1 }</b>
                    { materials[k].clone() }
                    { buttons(k) }
                    { rows[k].clone() }
                </div>
                { joints[k].clone() }
            </li>
        }
    };
    let add = {
        let act = act.clone();
        let place = place(count, count + 1, sheets.last().map_or("", |sheet| &sheet.name));
        Callback::from(move |_: MouseEvent| act(Action::AddSheet(shell), place.clone(), None))
    };
    let mirror_off = match kept {
        0 => (count == 1).then_some("one sheet is its own mirror image"),
        _ => Some("the old cabinet stays innermost"),
    };
    let mirror = {
        let act = act.clone();
        Callback::from(move |_: MouseEvent| {
            act(Action::MirrorSheets(shell), "The order of the sheets is reversed".to_owned(), None);
        })
    };
    html! {
        <>
            <p class="hint end" id={format!("{base}-title")}><span class="unseen">{ "Layers, drawn as they lie, from " }</span>{ "towards the source" }</p>
            { drawing(&base, &shown, bonds, *carried) }
            <p class="hint end">{ "towards the room" }</p>
            <ol ref={list.clone()}>{ for (0..count).map(sheet) }</ol>
            <div class="acts all">
                <button type="button" class="add" id={format!("{base}-add")} onclick={add} disabled={full}
                    title={full.then(|| full_words.clone())}
                    aria-describedby={full.then(|| format!("{base}-full"))}>{ "Add a sheet outside" }</button>
                <button type="button" id={format!("{base}-mirror")} onclick={mirror} disabled={mirror_off.is_some()}
                    title={mirror_off} aria-label={mirror_off.map(|why| format!("Reverse the order: {why}"))}>{ "Reverse the order" }</button>
            </div>
            if full {
                <p class="hint" id={format!("{base}-full")}>{ full_words.clone() }</p>
            }
            if count > 1 {
                <p class="hint" id={format!("{base}-how")}>{ "Drag a sheet by its grip, or choose the grip and press an arrow key." }</p>
            }
            if kept > 0 {
                <p class="hint">{ "Sheet 1 is the old cabinet: it stays innermost, and its outside size stays when its thickness changes." }</p>
            }
            <p class="unseen" aria-live="polite" id={format!("{base}-said")}>{ (*said).clone() }</p>
        </>
    }
}

/// The sheets as strips, one upon the other, with the joints between, which stay where they are when sheets change places; what is
/// carried is marked where it would land.
fn drawing(base: &str, sheets: &[&Drawn], bonds: &[String], carried: Option<Carried>) -> Html {
    let prefix = format!("{base}-hatch");
    let mut kinds: Vec<Hatch> = Vec::new();
    for sheet in sheets {
        if !kinds.contains(&sheet.hatch) {
            kinds.push(sheet.hatch);
        }
    }
    let thicknesses: Vec<f64> = sheets.iter().map(|sheet| sheet.thickness_mm).collect();
    let (strips, height) = pile(&thicknesses);
    let joint_words = |key: &str| leaf::BONDS.iter().find(|(own, _)| *own == key).map_or("own bond", |(_, words)| *words);
    let told = sheets.iter().enumerate().map(|(k, sheet)| {
        let joint = bonds.get(k).map(|key| format!(", {}", joint_words(key)));
        format!("{} {}{}", sheet.name, sheet.words, joint.unwrap_or_default())
    });
    let label = format!("From the source outwards: {}.", told.collect::<Vec<_>>().join(", "));
    let strip = |(k, (sheet, Strip { top, height })): (usize, (&&Drawn, &Strip))| {
        let is_carried = carried.is_some_and(|carried| carried.to == k && carried.from != k);
        let middle = format!("{:.1}", top + 0.5 * height + 4.0);
        html! {
            <g class={classes!(is_carried.then_some("carried"))}>
                <rect class={classes!("part", sheet.hatch.key())} width="100%" y={format!("{top:.1}")}
                    height={format!("{height:.1}")} fill={hatch_url(&prefix, sheet.hatch, k)} />
                <text x="10" y={middle.clone()}>{ format!("{}  {}", k + 1, sheet.name) }</text>
                <text x="100%" dx="-10" y={middle} text-anchor="end" class="thickness">{ &sheet.words }</text>
            </g>
        }
    };
    let joint = |(key, Strip { top, height }): (&String, &Strip)| {
        let y = format!("{:.1}", top + height + 0.5 * Strip::JOINT);
        html! { <line class={classes!("bond", key.clone())} x2="100%" y1={y.clone()} y2={y} /> }
    };
    html! {
        <svg class="pile" width="100%" height={format!("{height:.0}")} role="img" aria-label={label}>
            { hatches(&prefix, &kinds) }
            { for sheets.iter().zip(&strips).enumerate().map(strip) }
            { for bonds.iter().zip(&strips).map(joint) }
        </svg>
    }
}

/// The items of the list that stand on the page.
fn items_of(list: &NodeRef) -> Vec<Element> {
    let Some(list) = list.cast::<Element>() else { return Vec::new() };
    let mut items = Vec::new();
    let mut next = list.first_element_child();
    while let Some(item) = next {
        next = item.next_element_sibling();
        items.push(item);
    }
    items
}

fn middle_of(item: &Element) -> f64 {
    let place = item.get_bounding_client_rect();
    place.top() + 0.5 * place.height()
}

/// Scrolls the item before or after the one at `to` into sight, when the pointer is near that edge of the window.
fn reveal(items: &[Element], to: usize, y: f64) {
    let height = gloo::utils::window().inner_height().ok().and_then(|height| height.as_f64()).unwrap_or(f64::INFINITY);
    let next = if y < NEAR_EDGE {
        to.checked_sub(1)
    } else if y > height - NEAR_EDGE {
        Some(to + 1)
    } else {
        None
    };
    if let Some(item) = next.and_then(|next| items.get(next)) {
        let options = ScrollIntoViewOptions::new();
        options.set_block(ScrollLogicalPosition::Nearest);
        item.scroll_into_view_with_scroll_into_view_options(&options);
    }
}
