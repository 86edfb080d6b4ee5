//! The stack of a shell: drawn as it lies, and its list of sheets, which can be put into another order by hand or by keys.

use hushwright::buildup::check::MOST_SHEETS;
use web_sys::Element;
use yew::prelude::*;

use super::focus_soon;
use super::hatches::fill;
use crate::charts::cut::Hatch;
use crate::charts::pile::{Strip, landing, pile};
use crate::fields::{Shell, id_of};
use crate::leaf::Edit;
use crate::state::Action;
use crate::words::capital;

/// A sheet as it is drawn.
#[derive(Clone, Debug)]
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
#[derive(Clone, Properties)]
pub struct StackProps {
    /// Which shell it is.
    pub shell: Shell,
    /// Its sheets, from the inside out.
    pub sheets: Vec<Drawn>,
    /// Keys of the joints between them; empty for one by numbers.
    pub bonds: Vec<String>,
    /// How many of them stay where they are.
    pub kept: usize,
    /// What each is made of as an input, its numbers, and the joint outside it.
    pub rows: Vec<[Html; 3]>,
    /// Where actions go.
    pub emit: Callback<Action>,
}

/// They are made anew whenever the design changes, and only then: comparing all their rows would find what is known.
impl PartialEq for StackProps {
    fn eq(&self, _: &Self) -> bool {
        false
    }
}

/// How near in px to the edge of the window the list begins to move.
const NEAR_EDGE: f64 = 90.0;
const STAYS: &str = "the old cabinet stays where it is";

/// Sheet `k` of `count`, by its number and its name.
fn place(k: usize, count: usize, name: &str) -> String {
    format!("sheet {} of {count}, {name}", k + 1)
}

/// Id of an input of sheet `k`.
fn id_of_part(base: &str, k: usize, part: &str) -> String {
    format!("{base}-{}-{part}", 2 * k)
}

/// The stack and its list.
#[component]
pub fn Stack(props: &StackProps) -> Html {
    let StackProps { shell, sheets, bonds, kept, rows, emit } = props;
    let (shell, kept, count) = (*shell, *kept, sheets.len());
    let base = id_of(shell.path());
    let list = use_node_ref();
    // Which sheet is on its way, and where it would land.
    let carried = use_state_eq(|| None::<usize>);
    let target = use_state_eq(|| None::<usize>);
    let said = use_state_eq(|| AttrValue::Static(""));
    let full = count >= MOST_SHEETS;
    let full_words = format!("{MOST_SHEETS} sheets are the most in one box.");
    let id = |k: usize, part: &str| id_of_part(&base, k, part);
    // An edit of the stack, and which input of which sheet has the focus then; it is told what has become of the sheet.
    let make = {
        let (emit, said, base) = (emit.clone(), said.setter(), base.clone());
        let names: Vec<String> = sheets.iter().map(|sheet| sheet.name.clone()).collect();
        Callback::from(move |(edit, focus): (Edit, Option<(usize, &'static str)>)| {
            said.set(AttrValue::from(capital(&match edit {
                Edit::Move(from, to) => place(to, count, &names[from]),
                Edit::Copy(k) => place(k + 1, count + 1, &names[k]),
                Edit::Add => place(count, count + 1, &names[count - 1]),
                Edit::Remove(k) => format!("{} removed", names[k]),
                Edit::Mirror => "the order of the sheets is reversed".to_owned(),
            })));
            emit.emit(Action::Sheets(shell, edit));
            if let Some((k, part)) = focus {
                focus_soon(id_of_part(&base, k, part));
            } else if matches!(edit, Edit::Remove(_)) {
                focus_soon(format!("{base}-add"));
            }
        })
    };
    let grip = |k: usize| {
        let from = k;
        let moved = {
            let make = make.clone();
            move |to: usize| {
                let edit = Edit::Move(from, to);
                if edit.is_possible(count, kept) {
                    make.emit((edit, Some((to, "grip"))));
                }
            }
        };
        let onkeydown = {
            let (carried, moved) = (carried.setter(), moved.clone());
            Callback::from(move |event: KeyboardEvent| {
                let to = match event.key().as_str() {
                    "ArrowUp" => from.wrapping_sub(1),
                    "ArrowDown" => from + 1,
                    "Escape" => return carried.set(None),
                    _ => return,
                };
                event.prevent_default();
                moved(to);
            })
        };
        let pointer = {
            let (carried, target, list) = (carried.clone(), target.clone(), list.clone());
            Callback::from(move |event: PointerEvent| match (event.type_().as_str(), *carried) {
                ("pointerdown", _) if event.button() == 0 => {
                    if let Some(grip) = event.target_dyn_into::<Element>() {
                        // Without it, the sheet is let go where the pointer leaves the grip.
                        let _ = grip.set_pointer_capture(event.pointer_id());
                        carried.set(Some(from));
                        target.set(Some(from));
                    }
                }
                ("pointermove", Some(_)) => {
                    let y = f64::from(event.client_y());
                    let items = items_of(&list);
                    let middles: Vec<f64> = items.iter().map(middle_of).collect();
                    let to = landing(&middles, from, y).clamp(kept, count - 1);
                    target.set(Some(to));
                    reveal(&items, to, y);
                }
                ("pointerup", Some(_)) => {
                    carried.set(None);
                    moved(target.unwrap_or(from));
                }
                ("pointercancel", _) => carried.set(None),
                _ => {}
            })
        };
        let stays = k < kept;
        let label = place(k, count, &sheets[k].name);
        let label = if stays { format!("{label}: {STAYS}") } else { format!("Move {label}") };
        html! {
            <button type="button" class="grip" id={id(k, "grip")} aria-label={label} disabled={stays || count == 1} {onkeydown}
                onpointerdown={pointer.clone()} onpointermove={pointer.clone()} onpointerup={pointer.clone()} onpointercancel={pointer}
                aria-describedby={(count > 1).then(|| format!("{base}-how"))} />
        }
    };
    // A button that says why it is off.
    let button = |id: String, words: &'static str, label: String, off: Option<&str>, edit: Edit, focus| {
        let title = off.map_or_else(|| label.clone(), |why| format!("{label}: {why}"));
        html! {
            <button type="button" {id} aria-label={title.clone()} {title} disabled={off.is_some()}
                onclick={make.reform(move |_: MouseEvent| (edit, focus))}>{ words }</button>
        }
    };
    let off_full = full.then_some(full_words.as_str());
    let buttons = |k: usize| {
        let stays = (k < kept).then_some(STAYS);
        // The focus goes with the sheet; at either end to the button that leads back.
        let (inner, outer) = (k.saturating_sub(1), (k + 1).min(count - 1));
        let after_in = if inner > kept { "inwards" } else { "outwards" };
        let after_out = if outer + 1 < count { "outwards" } else { "inwards" };
        let inwards = stays.or((k == kept).then_some(if kept > 0 { STAYS } else { "it is the innermost" }));
        let outwards = stays.or((k + 1 == count).then_some("it is the outermost"));
        let remove = stays.or((count == 1).then_some("a box has at least one sheet"));
        let all = [
            ("inwards", "↑ in", "Move sheet # in, towards the source", inwards, Edit::Move(k, inner), Some((inner, after_in))),
            ("outwards", "↓ out", "Move sheet # out, towards the room", outwards, Edit::Move(k, outer), Some((outer, after_out))),
            ("copy", "copy", "Copy sheet #", off_full, Edit::Copy(k), None),
            ("remove", "×", "Remove sheet #", remove, Edit::Remove(k), None),
        ];
        let number = (k + 1).to_string();
        let one = |(part, words, label, off, edit, focus): (&'static str, &'static str, &str, Option<&str>, Edit, _)| {
            button(id(k, part), words, label.replace('#', &number), off, edit, focus)
        };
        html! { <div class="acts">{ for all.into_iter().map(one) }</div> }
    };
    let carried_now = carried.zip(*target).filter(|(from, to)| from.max(to) < &count);
    let mut shown: Vec<&Drawn> = sheets.iter().collect();
    if let Some((from, to)) = carried_now {
        let sheet = shown.remove(from);
        shown.insert(to, sheet);
    }
    let sheet = |k: usize| {
        let class = match carried_now {
            Some((from, _)) if from == k => "carried",
            Some((from, to)) if to == k && to < from => "lands-before",
            Some((_, to)) if to == k => "lands-after",
            _ => "",
        };
        let [material, numbers, joint] = rows[k].clone();
        html! {
            <li key={k} {class}>
                <div class="sheet">{ grip(k) }<b class="nth" aria-hidden="true">{ k + 1 }</b>{ material }{ buttons(k) }{ numbers }</div>
                { joint }
            </li>
        }
    };
    let mirror_off = match kept {
        0 => (count == 1).then_some("one sheet is its own mirror image"),
        _ => Some(STAYS),
    };
    let mut hints = Vec::new();
    if full {
        hints.push(("full", full_words.as_str()));
    }
    if count > 1 {
        hints.push(("how", "Drag a sheet by its grip, or choose the grip and press an arrow key."));
    }
    if kept > 0 {
        hints.push((
            "old",
            "Sheet 1 is the old cabinet: it stays innermost, and its outside size stays when its thickness changes.",
        ));
    }
    html! {
        <>
            <p class="hint end">{ "towards the source" }</p>
            { drawing(&shown, bonds, carried_now) }
            <p class="hint end">{ "towards the room" }</p>
            <ol ref={list.clone()}>{ for (0..count).map(sheet) }</ol>
            <div class="acts all">
                { button(format!("{base}-add"), "Add a sheet outside", "Add a sheet outside".to_owned(),
                    off_full, Edit::Add, None) }
                { button(format!("{base}-mirror"), "Mirror", "Mirror the order of sheets and joints".to_owned(), mirror_off,
                    Edit::Mirror, None) }
            </div>
            { for hints.into_iter().map(|(part, words)| html! { <p class="hint" id={format!("{base}-{part}")}>{ words.to_owned() }</p> }) }
            <p class="unseen" aria-live="polite" id={format!("{base}-said")}>{ (*said).clone() }</p>
        </>
    }
}

/// The sheets as strips, one upon the other, with the joints between, which stay where they are when sheets change places; what is
/// carried is marked where it would land. Whoever does not see it has the same in the list.
fn drawing(sheets: &[&Drawn], bonds: &[String], carried: Option<(usize, usize)>) -> Html {
    let thicknesses: Vec<f64> = sheets.iter().map(|sheet| sheet.thickness_mm).collect();
    let (strips, height) = pile(&thicknesses);
    let strip = |(k, (sheet, Strip { top, height })): (usize, (&&Drawn, &Strip))| {
        let is_carried = carried.is_some_and(|(from, to)| to == k && from != k);
        let middle = format!("{:.1}", top + 0.5 * height + 4.0);
        html! {
            <g class={classes!(is_carried.then_some("carried"))}>
                <rect class="board" width="100%" y={format!("{top:.1}")}
                    height={format!("{height:.1}")} fill={fill(sheet.hatch, k % 2 == 1)} />
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
        <svg class="pile" width="100%" height={format!("{height:.0}")} aria-hidden="true">
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
    if y < NEAR_EDGE {
        if let Some(item) = to.checked_sub(1).and_then(|before| items.get(before)) {
            item.scroll_into_view_with_bool(true);
        }
    } else if y > height - NEAR_EDGE
        && let Some(item) = items.get(to + 1)
        && item.get_bounding_client_rect().bottom() > height
    {
        item.scroll_into_view_with_bool(false);
    }
}
