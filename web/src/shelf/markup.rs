//! The kept designs as marked-up text: as elements of Yew the list would be twice the code. What people have written is escaped.
//!
//! A button carries what it does (`data-do`, see [`Shelf::perform`]) and the place in the list of what it does it to (`data-at`).

use std::fmt::Write;

use super::handling::{FORBIDDEN, Item, Present, Shelf, Standing, quoted};
use crate::charts::miniature::{Miniature, SIZE, miniature};
use crate::quantity::Units;

/// From so many on, the list can be searched.
pub const MANY: usize = 13;

/// Text in which nothing is markup.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// A button outside the list; what it does is its id too.
fn button(key: &str, class: &str, words: &str) -> String {
    format!("<button type=\"button\" id=\"shelf-{key}\" class=\"{class}\" data-do=\"{key}\">{}</button>", escaped(words))
}

/// A button for item `k`, which is called `name`.
fn item_button(key: &str, k: usize, words: &str, name: &str) -> String {
    format!(
        "<button type=\"button\" id=\"shelf-{key}-{k}\" data-do=\"{key}\" data-at=\"{k}\">{words}\
         <span class=\"unseen\"> {}</span></button>",
        escaped(&quoted(name))
    )
}

/// How the present design stands to what is kept, what keeps it, and what is asked.
pub fn head(shelf: &Shelf, present: Present) -> String {
    if shelf.fault().is_some() {
        return format!("<p class=\"shelf-fault\">{FORBIDDEN}</p>");
    }
    let standing = shelf.standing(present);
    let (before, name, after) = match &standing {
        Standing::Nowhere if shelf.items().is_empty() => ("Nothing is kept here yet", "", ""),
        Standing::Nowhere => ("The design on the page is not kept here", "", ""),
        Standing::Kept(name) => ("The design on the page is kept here, as ", &**name, ""),
        Standing::Differs(name) => ("The design on the page differs from ", &**name, " as it is kept here"),
        Standing::ChangedElsewhere(name) => {
            ("", &**name, ", which was opened here, has been changed in another tab or window since")
        }
        Standing::GoneElsewhere(name) => {
            ("", &**name, ", which was opened here, has been deleted in another tab or window since")
        }
    };
    let quoted_name = if standing == Standing::Nowhere { String::new() } else { escaped(&quoted(name)) };
    let mut text = format!("<p id=\"shelf-standing\">{before}{quoted_name}{after}.</p><div class=\"shelf-do\">");
    let is_savable = matches!(standing, Standing::Differs(_) | Standing::ChangedElsewhere(_));
    // Whoever changes the name means another design, more likely than not.
    let is_same = is_savable && present.design.name.trim() == name.trim();
    text += &button("keep", if is_same { "" } else { "chief" }, "Keep this design");
    if is_savable {
        let words = if is_same { "Save changes to " } else { "Put it in the place of " };
        text += &button("save", if is_same { "chief" } else { "" }, &(words.to_owned() + &quoted(name)));
    }
    text += "</div>";
    if let Some(question) = shelf.question() {
        text += "<div class=\"shelf-asks\" role=\"group\" aria-labelledby=\"shelf-question\"><p id=\"shelf-question\">";
        text += &escaped(&question.words);
        text += "</p><div class=\"shelf-do\">";
        text += &button("replace", "", question.replace);
        if let Some(name) = &question.other_name {
            text += &button("both", "", &format!("Keep both, this one as {}", quoted(name)));
        }
        text += &button("leave", "", "Cancel");
        text += "</div></div>";
    }
    text
}

/// What takes back the last thing done, and all that is kept and `wanted`, with times as `date` writes them.
pub fn list(shelf: &Shelf, present: Present, units: Units, wanted: &str, date: fn(f64) -> String) -> String {
    let mut text = shelf.undo_words().map(|words| button("undo", "", words)).unwrap_or_default();
    let wanted = wanted.trim().to_ascii_lowercase();
    let is_many = shelf.items().len() >= MANY;
    text += "<ul class=\"shelf-list\">";
    for (k, item) in shelf.items().iter().enumerate() {
        if !is_many || item.name.to_ascii_lowercase().contains(&wanted) {
            put_item(&mut text, shelf, k, item, present, units, date);
        }
    }
    text + "</ul>"
}

fn put_item(text: &mut String, shelf: &Shelf, k: usize, item: &Item, present: Present, units: Units, date: fn(f64) -> String) {
    *text += "<li>";
    put_picture(text, item);
    let name = escaped(&item.name);
    let delete = item_button("delete", k, "Delete", &item.name);
    let date = item.saved_ms.map(date).unwrap_or_default();
    // Writing to a text cannot fail.
    let _ = match &item.design {
        Err(why) => write!(
            text,
            "<div><b><bdi>{name}</bdi></b><span class=\"hint\">{date}</span><p class=\"shelf-fault\">{}</p></div>\
             <div class=\"shelf-do\">{delete}",
            escaped(why)
        ),
        Ok(_) if shelf.is_renamed(k) => write!(
            text,
            "<div><label for=\"shelf-name\">Name</label><input type=\"text\" id=\"shelf-name\" data-at=\"{k}\" maxlength=\"80\" \
             autocomplete=\"off\" spellcheck=\"false\" value=\"{name}\"></div><div class=\"shelf-do\">{}{}",
            item_button("name", k, "Save the name", &item.name),
            item_button("leave", k, "Cancel", &item.name)
        ),
        Ok(design) => {
            let inner = &design.inner;
            let size = units.size([inner.length_mm, inner.width_mm, inner.height_mm].map(|mm| mm / 1000.0));
            write!(
                text,
                "<div><b><bdi>{name}</bdi></b>{}<span class=\"hint\">{date}; inside {size} {}</span></div>\
                 <div class=\"shelf-do\">{}{}{delete}",
                if item.holds(present) { "<span class=\"shelf-here\">on the page now</span>" } else { "" },
                units.length_unit(),
                item_button("open", k, "Open", &item.name),
                item_button("rename", k, "Rename", &item.name)
            )
        }
    };
    *text += "</div></li>";
}

/// The box cut open, small; an empty place where there is none.
fn put_picture(text: &mut String, item: &Item) {
    let (width, height) = SIZE;
    let _ = write!(text, "<svg class=\"shelf-picture\" viewBox=\"0 0 {width} {height}\" aria-hidden=\"true\">");
    if let Ok(design) = &item.design {
        let Miniature { parts, lid } = miniature(design);
        for (hatch, path) in parts {
            let _ = write!(text, "<path class=\"{}\" fill-rule=\"evenodd\" d=\"{path}\"/>", hatch.key());
        }
        let _ = write!(text, "<path class=\"lid\" d=\"{lid}\"/>");
    }
    *text += "</svg>";
}

#[cfg(test)]
mod tests {
    use hushwright::design::Design;

    use super::super::fake::Fake;
    use super::super::handling::{Hand, Links};
    use super::super::{Fault, KEY, Store};
    use super::*;
    use crate::model::Core;

    fn date(ms: f64) -> String {
        format!("day {ms}")
    }

    /// What there is to see with these designs kept, the first of them on the page.
    fn seen(names: &[&str], wanted: &str) -> (String, String) {
        let (store, core) = (Fake::default(), Core::default());
        let mut shelf = Shelf::new("", &Hand { store: &store, links: &core, now_ms: 0.0, nonce: 0 });
        let mut last = Design::default();
        for (k, name) in names.iter().enumerate() {
            let design = Design { name: (*name).to_owned(), ..Design::default() };
            let fragment = core.fragment(&design).unwrap();
            let present = Present { design: &design, fragment: &fragment };
            shelf.keep(present, &Hand { store: &store, links: &core, now_ms: k as f64, nonce: 1 + k as u64 });
            last = design;
        }
        let present = Present { design: &last, fragment: "" };
        (head(&shelf, present), list(&shelf, present, Units::Metric, wanted, date))
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
        let present = Present { design: &Design::default(), fragment: "" };
        let text = list(&shelf, present, Units::Metric, "", date);
        assert!(
            text.contains("day 7") && !text.contains("<b>\u{1f}") && !text.contains("<i>") && !text.contains("<script"),
            "{text}"
        );
    }

    #[test]
    fn buttons_of_an_item_carry_its_name_and_place() {
        let (head, list) = seen(&["Cellar", "Attic"], "");
        assert!(head.contains("kept here, as “Attic”") && !head.contains("shelf-save"), "{head}");
        let attic = list.find("id=\"shelf-open-0\" data-do=\"open\" data-at=\"0\">Open<span class=\"unseen\"> “Attic”").unwrap();
        let cellar =
            list.find("id=\"shelf-delete-1\" data-do=\"delete\" data-at=\"1\">Delete<span class=\"unseen\"> “Cellar”").unwrap();
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
        assert_eq!((count(&names, "nothing"), count(&names, " bOX 1 "), count(&names, "")), (0, 4, MANY));
    }

    #[test]
    fn a_browser_that_forbids_it_is_told_with_what_to_do_instead() {
        let (store, core) = (Fake::default(), Core::default());
        store.fail(Some(Fault::Forbidden));
        let shelf = Shelf::new("", &Hand { store: &store, links: &core, now_ms: 0.0, nonce: 0 });
        let text = head(&shelf, Present { design: &Design::default(), fragment: "" });
        assert!(text.contains("as a file") && !text.contains("<button"), "{text}");
    }
}
