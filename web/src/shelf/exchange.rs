//! What page and workshop say to each other of the kept designs.

use hushwright::design::Design;
use hushwright::error::FieldError;
use serde::{Deserialize, Serialize};

use super::handling::{Deed, Hand, PUT_BACK, Present, Shelf};
use super::markup::{MANY, Writing, head, list};
use crate::model::Model;
use crate::quantity::{Units, sentence};

/// What the page asks.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Question {
    /// What is to be done ([`Shelf::perform`]); nothing: it is only looked at what there is.
    pub key: String,
    /// The key of the record that it is done to, as the list that is looked at has it; empty where it is none of the list.
    pub of: String,
    /// The new name as it is typed, if one is.
    pub typed: Option<String>,
    /// What is looked for.
    pub wanted: String,
    /// Key of the units shown.
    pub units: String,
    /// What the design on the page is called.
    pub name: String,
    /// That design, as [`Design::to_bytes`] writes it.
    pub packed: Vec<u8>,
    /// The fragment of the link that carries it.
    pub fragment: String,
}

/// What there is to see, and what follows for the design on the page.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Answer {
    /// How the design on the page stands, and what is asked, as marked-up text.
    pub head: String,
    /// What is said of what was done.
    pub said: String,
    /// Whether it was not done.
    pub failed: bool,
    /// The list as marked-up text.
    pub list: String,
    /// Whether anything is kept.
    pub has_items: bool,
    /// Whether the list is long enough to be searched.
    pub is_many: bool,
    /// Id of what has the focus next, where something was done.
    pub focus: String,
    /// What follows for the design on the page.
    pub deed: Option<Deed>,
}

impl Question {
    /// Does at `shelf` what is asked.
    pub fn answer(&self, shelf: &mut Shelf, hand: &Hand, writing: Writing) -> Answer {
        let Self { key, of, typed, wanted, units, name, packed, fragment } = self;
        let present = Present { name, packed, fragment };
        // Another tab may have changed the list since it was drawn: places in it say nothing.
        let place = shelf.place(of);
        let deed = if key.is_empty() {
            shelf.refresh(hand);
            None
        } else if let (None, false) = (place, of.is_empty()) {
            shelf.miss(hand);
            None
        } else {
            let place = place.unwrap_or_default();
            shelf.perform(key, place, typed.as_deref().unwrap_or_default(), present, hand)
        };
        shelf.adopt(present);
        // A name that is still being typed, or was refused, stays in its field; another item's field begins with that one's name.
        let draft = typed.as_deref().filter(|_| matches!(key.as_str(), "" | "name"));
        let units = Units::from_key(units).unwrap_or_default();
        Answer {
            head: head(shelf, present),
            said: shelf.said().words.clone(),
            failed: shelf.said().failed,
            list: list(shelf, present, units, wanted, draft, writing),
            has_items: !shelf.items().is_empty(),
            is_many: shelf.items().len() >= MANY,
            focus: self.focus(shelf, place.unwrap_or_default()),
            deed,
        }
    }

    /// Id of what has the focus next: the button that was pressed may be gone.
    fn focus(&self, shelf: &Shelf, place: usize) -> String {
        match (self.key.as_str(), self.typed.is_some()) {
            ("", _) => String::new(),
            _ if shelf.question().is_some() => "shelf-replace".to_owned(),
            _ if shelf.undo_words() == Some(PUT_BACK) => "shelf-undo".to_owned(),
            ("rename", _) => "shelf-name".to_owned(),
            ("name", _) if shelf.is_renamed(place) => "shelf-name".to_owned(),
            ("name" | "leave", true) => format!("shelf-rename-{place}"),
            ("open", _) => format!("shelf-open-{place}"),
            _ => "shelf-keep".to_owned(),
        }
    }

    /// As it travels.
    ///
    /// # Panics
    /// Never: numbers and text can always be written.
    pub fn to_bytes(&self) -> Vec<u8> {
        postcard::to_allocvec(self).expect("numbers and text can always be written")
    }

    /// As it arrives; `None` if it is anything else.
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        postcard::from_bytes(bytes).ok()
    }
}

impl Answer {
    /// As it travels; `None` never: numbers and text can always be written.
    pub fn to_bytes(&self) -> Option<Vec<u8>> {
        postcard::to_allocvec(self).ok()
    }

    /// As it arrives; `None` if it is anything else.
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        postcard::from_bytes(bytes).ok()
    }
}

/// The fragment of the link that carries `design` under another name: the page's part, which has a model to ask.
///
/// # Errors
/// Says in words for the reader what is wrong with that name.
pub fn renamed(model: &(impl Model + ?Sized), design: Design, name: &str) -> Result<String, String> {
    let estimate = model.estimate(&Design { name: name.to_owned(), ..design });
    let words = |errors: Vec<FieldError>| errors.first().map(|error| sentence(&error.message)).unwrap_or_default();
    estimate.map(|estimate| estimate.fragment).map_err(words)
}

#[cfg(test)]
mod tests {
    use super::super::fake::Fake;
    use super::*;
    use crate::model::Core;

    const WRITING: Writing = Writing { date: |ms| ms.to_string(), small: str::to_lowercase };

    #[test]
    fn questions_and_answers_arrive_and_say_where_the_focus_goes() {
        let (store, core) = (Fake::default(), Core::default());
        let hand = |nonce| Hand { store: &store, links: &core, now_ms: nonce as f64, nonce };
        let mut shelf = Shelf::new("", &hand(1));
        let design = Design::default();
        let about = Question {
            name: design.name.clone(),
            packed: design.to_bytes(),
            fragment: core.estimate(&design).unwrap().fragment,
            units: "imperial".to_owned(),
            ..Question::default()
        };
        let (mut nonce, mut of) = (1, String::new());
        let mut ask = |key: &str, typed: Option<&str>| {
            nonce += 1;
            let question = Question { key: key.to_owned(), of: of.clone(), typed: typed.map(str::to_owned), ..about.clone() };
            let bytes = question.to_bytes();
            assert_eq!(Question::from_bytes(&bytes[..bytes.len() - 1]), None);
            assert_eq!(Question::from_bytes(&bytes), Some(question.clone()));
            let answer = question.answer(&mut shelf, &hand(nonce), WRITING);
            let bytes = answer.to_bytes().unwrap();
            assert_eq!(Answer::from_bytes(&bytes[..bytes.len() - 1]), None);
            assert_eq!(Answer::from_bytes(&bytes).as_ref(), Some(&answer));
            of = shelf.items().first().map(|item| item.key.clone()).unwrap_or_default();
            answer
        };
        let look = ask("", None);
        assert_eq!((look.focus.as_str(), look.has_items, look.is_many), ("", false, false));
        let kept = ask("keep", None);
        assert_eq!((kept.focus.as_str(), kept.has_items, kept.failed), ("shelf-keep", true, false));
        assert!(kept.list.contains("27.6 × 19.7 × 19.7 in"), "700 x 500 x 500 mm in inches: {}", kept.list);
        assert_eq!(ask("open", None).deed, Some(Deed::Open(about.fragment.clone())));
        assert_eq!(ask("rename", None).focus, "shelf-name");
        let refused = ask("name", Some(&"a".repeat(81)));
        assert_eq!(refused.focus, "shelf-name", "still to be put right");
        assert!(refused.failed && refused.list.contains(&"a".repeat(81)), "what was typed stays: {}", refused.list);
        assert!(ask("", Some("Half a na")).list.contains("value=\"Half a na\""), "whatever else happens meanwhile");
        assert_eq!(ask("leave", Some("Cellar")).focus, "shelf-rename-0");
        assert!(ask("rename", None).list.contains(&format!("value=\"{}\"", design.name)));
        let named = ask("name", Some("Cellar"));
        assert_eq!((named.focus.as_str(), named.deed), ("shelf-rename-0", Some(Deed::Rename("Cellar".to_owned()))));
        assert_eq!(ask("delete", None).focus, "shelf-undo");
        assert_eq!(ask("undo", None).focus, "shelf-keep");
    }

    /// The list that is looked at may be older than what another tab has made of it.
    #[test]
    fn what_is_done_is_done_to_the_record_that_was_looked_at() {
        let (store, core) = (Fake::default(), Core::default());
        let hand = |nonce| Hand { store: &store, links: &core, now_ms: nonce as f64, nonce };
        let question = |name: &str, key: &str, of: &str, typed: &str| {
            let design = Design { name: name.to_owned(), ..Design::default() };
            Question {
                key: key.to_owned(),
                of: of.to_owned(),
                typed: Some(typed.to_owned()),
                name: name.to_owned(),
                packed: design.to_bytes(),
                fragment: core.estimate(&design).unwrap().fragment,
                ..Question::default()
            }
        };
        let names = |shelf: &Shelf| shelf.items().iter().map(|item| item.name.clone()).collect::<Vec<_>>();
        let (mut one, mut other) = (Shelf::new("", &hand(1)), Shelf::new("", &hand(2)));
        question("One", "keep", "", "").answer(&mut one, &hand(3), WRITING);
        question("Two", "keep", "", "").answer(&mut one, &hand(4), WRITING);
        question("", "", "", "").answer(&mut other, &hand(5), WRITING);
        let key = |shelf: &Shelf, name: &str| shelf.items().iter().find(|item| item.name == name).unwrap().key.clone();
        let (first, second) = (key(&other, "One"), key(&other, "Two"));
        // The other tab puts one more on top, and both have seen it: what was pressed still stands for its own record.
        question("Three", "keep", "", "").answer(&mut one, &hand(6), WRITING);
        question("", "", "", "").answer(&mut other, &hand(7), WRITING);
        question("", "rename", &first, "").answer(&mut other, &hand(8), WRITING);
        question("", "name", &first, "Uno").answer(&mut other, &hand(9), WRITING);
        assert_eq!((names(&other).len(), key(&other, "Uno")), (3, first));
        // It deletes one that is still on the screen here: nothing else is deleted in its place.
        question("", "", "", "").answer(&mut one, &hand(10), WRITING);
        question("", "delete", &second, "").answer(&mut one, &hand(11), WRITING);
        question("", "", "", "").answer(&mut other, &hand(12), WRITING);
        let answer = question("", "delete", &second, "").answer(&mut other, &hand(13), WRITING);
        assert!(answer.failed && answer.said.contains("another tab"), "{}", answer.said);
        assert_eq!(names(&other).len(), 2);
    }
}
