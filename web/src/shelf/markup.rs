//! The kept designs as marked-up text, in which what people have written is escaped.
//!
//! A button carries what it does (`data-do`, see [`Shelf::perform`]) and the key of the record that it does it to (`data-at`).

use maud::{Markup, html};

use super::handling::{FORBIDDEN, Item, Present, Shelf, Standing, quoted};
use crate::charts::miniature::common_scale;
use crate::documents::picture;
use crate::quantity::Units;

/// What browsers know of the languages of people.
#[derive(Clone, Copy)]
pub struct Writing {
    /// Writes a time in ms since 1970.
    pub date: fn(f64) -> String,
    /// A text in small letters.
    pub small: fn(&str) -> String,
}

/// From so many on, the list can be searched.
pub const MANY: usize = 13;

/// A button outside the list.
fn button(key: &str, chief: bool, words: &str) -> Markup {
    html! { button type="button" id={ "shelf-" (key) } class=[chief.then_some("chief")] data-do=(key) { (words) } }
}

/// A button for `item`, the `k`th.
fn item_button(key: &str, k: usize, words: &str, item: &Item) -> Markup {
    html! {
        button type="button" id={ "shelf-" (key) "-" (k) } data-do=(key) data-at=(item.key) { (words) span class="unseen" { " " (quoted(&item.name)) } }
    }
}

/// How the present design stands to what is kept, what keeps it, and what is asked.
pub fn head(shelf: &Shelf, present: Present) -> String {
    if shelf.fault().is_some() {
        return html! { p class="shelf-fault" { (FORBIDDEN) } }.into_string();
    }
    let standing = shelf.standing(present);
    let (Standing::Differs(opened) | Standing::ChangedElsewhere(opened)) = &standing else {
        return head_with(shelf, &standing, &button("keep", true, "Keep this design"));
    };
    // Whoever changes the name means another design, more likely than not.
    let is_same = present.name.trim() == opened.trim();
    let words = if is_same { "Save changes to " } else { "Put it in the place of " };
    let keep = html! {
        (button("keep", !is_same, "Keep this design"))
        (button("save", is_same, &(words.to_owned() + &quoted(opened))))
    };
    head_with(shelf, &standing, &keep)
}

fn head_with(shelf: &Shelf, standing: &Standing, keep: &Markup) -> String {
    let (before, name, after) = match standing {
        Standing::Nowhere if shelf.items().is_empty() => ("Nothing is kept here yet", None, ""),
        Standing::Nowhere => ("The design on the page is not kept here", None, ""),
        Standing::Kept(name) => ("The design on the page is kept here, as ", Some(name), ""),
        Standing::Differs(name) => ("The design on the page differs from ", Some(name), " as it is kept here"),
        Standing::ChangedElsewhere(name) => {
            ("", Some(name), ", which was opened here, has been changed in another tab or window since")
        }
        Standing::GoneElsewhere(name) => {
            ("", Some(name), ", which was opened here, has been deleted in another tab or window since")
        }
    };
    html! {
        p id="shelf-standing" { (before) @if let Some(name) = name { (quoted(name)) } (after) "." }
        div class="shelf-do" { (keep) }
        @if let Some(question) = shelf.question() {
            div class="shelf-asks" role="group" aria-labelledby="shelf-question" {
                p id="shelf-question" { (question.words) }
                div class="shelf-do" {
                    (button("replace", false, question.replace))
                    @if let Some(name) = &question.other_name {
                        (button("both", false, &format!("Keep both, this one as {}", quoted(name))))
                    }
                    (button("leave", false, "Cancel"))
                }
            }
        }
    }
    .into_string()
}

/// What takes back the last thing done, and all that is kept and `wanted`. `draft` is what has been typed as the new name of
/// the item that is being given one.
pub fn list(shelf: &Shelf, present: Present, units: Units, wanted: &str, draft: Option<&str>, writing: Writing) -> String {
    let is_many = shelf.items().len() >= MANY;
    let wanted = (writing.small)(wanted.trim());
    let items = shelf.items().iter().enumerate();
    html! {
        @if let Some(words) = shelf.undo_words() { (button("undo", false, words)) }
        ul class="shelf-list" {
            @for (k, item) in items.filter(|(_, item)| !is_many || (writing.small)(&item.name).contains(&wanted)) {
                li {
                    (drawn(item))
                    (about(item, shelf.is_renamed(k).then(|| draft.unwrap_or(&item.name)), present, units, writing.date))
                    div class="shelf-do" {
                        @if item.design.is_ok() && shelf.is_renamed(k) {
                            (item_button("name", k, "Save the name", item)) (item_button("leave", k, "Cancel", item))
                        } @else {
                            @if item.design.is_ok() {
                                (item_button("open", k, "Open", item)) (item_button("rename", k, "Rename", item))
                            }
                            (item_button("delete", k, "Delete", item))
                        }
                    }
                }
            }
        }
    }
    .into_string()
}

/// What an item is; a field for its name, with what stands in it, if it is being given another one.
fn about(item: &Item, new_name: Option<&str>, present: Present, units: Units, date: fn(f64) -> String) -> Markup {
    let date = item.saved_ms.map(date).unwrap_or_default();
    html! {
        div {
            @match (&item.design, new_name) {
                (Ok(_), Some(new_name)) => {
                    label for="shelf-name" { "Name" }
                    input type="text" id="shelf-name" data-at=(item.key) autocomplete="off" spellcheck="false" value=(new_name);
                }
                (design, _) => {
                    b { bdi { (item.name) } }
                    @if item.holds(present) { span class="shelf-here" { "on the page now" } }
                    span class="hint" {
                        (date)
                        @if let Ok(design) = design {
                            @let sides_mm = [design.inner.length_mm, design.inner.width_mm, design.inner.height_mm];
                            "; inside " (units.size(sides_mm.map(|mm| mm / 1000.0))) " " (units.length_unit())
                        }
                    }
                    @if let Err(why) = design { p class="shelf-fault" { (why) } }
                }
            }
        }
    }
}

/// Width and height in px of the picture of a box.
const PICTURE: (f64, f64) = (84.0, 60.0);

/// The box, as large as there is room.
fn drawn(item: &Item) -> Markup {
    let design = item.design.as_ref().ok();
    picture(design, common_scale(design.into_iter(), PICTURE), PICTURE)
}

#[cfg(test)]
mod tests {
    use hushwright::design::Design;

    use super::super::fake::Fake;
    use super::super::handling::Hand;
    use super::super::{Fault, KEY, Store};
    use super::*;
    use crate::model::{Core, Model};

    const WRITING: Writing = Writing { date: |ms| format!("day {ms}"), small: str::to_lowercase };

    /// What there is to see with these designs kept, the first of them on the page.
    fn seen(names: &[&str], wanted: &str) -> (String, String) {
        let (store, core) = (Fake::default(), Core::default());
        let mut shelf = Shelf::new("", &Hand { store: &store, links: &core, now_ms: 0.0, nonce: 0 });
        let mut last = Design::default();
        for (k, name) in names.iter().enumerate() {
            let design = Design { name: (*name).to_owned(), ..Design::default() };
            let fragment = core.estimate(&design).unwrap().fragment;
            let packed = design.to_bytes();
            let present = Present { name, packed: &packed, fragment: &fragment };
            shelf.keep(present, &Hand { store: &store, links: &core, now_ms: k as f64, nonce: 1 + k as u64 });
            last = design;
        }
        let packed = last.to_bytes();
        let present = Present { name: &last.name, packed: &packed, fragment: "" };
        (head(&shelf, present), list(&shelf, present, Units::Metric, wanted, None, WRITING))
    }

    #[test]
    fn nothing_that_people_have_written_becomes_markup() {
        let hostile = "\"><script>alert('x')</script><img src=x>&";
        let (head, list) = seen(&[hostile], "");
        for text in [&head, &list] {
            assert!(!text.contains("<script") && !text.contains("<img") && text.contains("&lt;script&gt;"), "{text}");
            // Quotes come in pairs: of attributes, for those of names are escaped.
            assert_eq!(text.matches('"').count() % 2, 0);
        }
        let (store, core) = (Fake::default(), Core::default());
        store.write(&format!("{KEY}<i>"), &format!("1\u{1f}<b>\u{1f}7\u{1f}<b>\u{1f}{hostile}")).unwrap();
        let shelf = Shelf::new("", &Hand { store: &store, links: &core, now_ms: 0.0, nonce: 0 });
        let present = Present { name: "", packed: &[], fragment: "" };
        let text = super::list(&shelf, present, Units::Metric, "", None, WRITING);
        assert!(
            text.contains("day 7") && !text.contains("<b>\u{1f}") && !text.contains("<i>") && !text.contains("<script"),
            "{text}"
        );
    }

    #[test]
    fn buttons_of_an_item_carry_its_name_and_record() {
        let (head, list) = seen(&["Cellar", "Attic"], "");
        assert!(head.contains("kept here, as “Attic”") && !head.contains("shelf-save"), "{head}");
        let button = |id: &str, name: &str| {
            let begin = list.find(&format!("id=\"{id}\"")).unwrap();
            let button = &list[begin..begin + list[begin..].find("</button>").unwrap()];
            assert!(button.contains("data-at=\"hushwright-kept-") && button.contains(&format!(" “{name}”")), "{button}");
            begin
        };
        let (attic, cellar) = (button("shelf-open-0", "Attic"), button("shelf-delete-1", "Cellar"));
        assert!(attic < cellar, "newest first");
        assert_eq!(list.matches("on the page now").count(), 1);
        assert!(list.contains("day 1; inside 700 × 500 × 500 mm"), "{list}");
    }

    #[test]
    fn a_short_list_is_never_searched_and_a_long_one_is() {
        let names: Vec<String> = (0..MANY).map(|k| format!("Box {k}")).collect();
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let count = |names: &[&str], wanted: &str| seen(names, wanted).1.matches("<li>").count();
        assert_eq!(count(&names[1..], "nothing"), MANY - 1);
        let other = [&names[1..], &["Érables, Übungsraum"]].concat();
        assert_eq!((count(&other, "érab"), count(&other, "ÜBUNG"), count(&other, "uber")), (1, 1, 0));
        assert_eq!((count(&names, "nothing"), count(&names, " bOX 1 "), count(&names, "")), (0, 4, MANY));
    }

    #[test]
    fn a_browser_that_forbids_it_is_told_with_what_to_do_instead() {
        let (store, core) = (Fake::default(), Core::default());
        store.fail(Some(Fault::Forbidden));
        let shelf = Shelf::new("", &Hand { store: &store, links: &core, now_ms: 0.0, nonce: 0 });
        let text = head(&shelf, Present { name: "", packed: &[], fragment: "" });
        assert!(text.contains("as a file") && !text.contains("<button"), "{text}");
    }
}
