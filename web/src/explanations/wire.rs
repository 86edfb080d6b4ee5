//! Explanations and terms as the engine sends them to the page: text with a sign of its own between its parts.

use super::{Explanation, TERMS};

/// Between two records.
const RECORD: char = '\u{1e}';
/// Between a record's parts.
const PART: char = '\u{1f}';
/// Parts of an explanation.
const PARTS: usize = 6;

/// An explanation as the page has it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Explained {
    /// What is explained.
    pub title: String,
    /// What it is.
    pub plain: String,
    /// Relation, source, assumptions and validity, as far as there is something to say, each with its name.
    pub parts: Vec<(&'static str, String)>,
}

/// A term as the page has it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Meaning {
    /// The term.
    pub name: String,
    /// What it means.
    pub meaning: String,
    /// Its other forms.
    pub also: String,
}

/// The explanation under `key`, or all of them under none, as they are sent.
pub fn explained_text(key: Option<&str>) -> String {
    let wanted = Explanation::all().filter(|own| key.is_none_or(|key| own.topic.key == key));
    let record = |own: &Explanation| {
        let parts: [&str; PARTS] = [own.topic.title, own.plain, own.relation, own.source, own.assumptions, own.validity];
        parts.join(&PART.to_string())
    };
    wanted.map(record).collect::<Vec<_>>().join(&RECORD.to_string())
}

/// All terms as they are sent.
pub fn meanings_text() -> String {
    let record = |term: &super::Term| [term.name, term.meaning, &term.also.join(" ")].join(&PART.to_string());
    TERMS.iter().map(record).collect::<Vec<_>>().join(&RECORD.to_string())
}

impl Explained {
    /// What [`explained_text`] gave; anything else is left out.
    pub fn read(text: &str) -> Vec<Self> {
        let record = |record: &str| {
            let parts: Vec<&str> = record.split(PART).collect();
            let [title, plain, relation, source, assumptions, validity] = parts[..] else { return None };
            let named = [("Relation", relation), ("Source", source), ("Assumed", assumptions), ("Holds", validity)];
            let parts = named.into_iter().filter(|(_, text)| !text.is_empty()).map(|(name, text)| (name, text.to_owned()));
            Some(Self { title: title.to_owned(), plain: plain.to_owned(), parts: parts.collect() })
        };
        text.split(RECORD).filter_map(record).collect()
    }

    /// Whether `wanted`, which is in small letters, is in it.
    pub fn has(&self, wanted: &str) -> bool {
        has(&self.title, wanted) || has(&self.plain, wanted) || self.parts.iter().any(|(_, text)| has(text, wanted))
    }
}

impl Meaning {
    /// What [`meanings_text`] gave; anything else is left out.
    pub fn read(text: &str) -> Vec<Self> {
        let record = |record: &str| {
            let parts: Vec<&str> = record.split(PART).collect();
            let [name, meaning, also] = parts[..] else { return None };
            Some(Self { name: name.to_owned(), meaning: meaning.to_owned(), also: also.to_owned() })
        };
        text.split(RECORD).filter_map(record).collect()
    }

    /// Whether `wanted`, which is in small letters, is in it.
    pub fn has(&self, wanted: &str) -> bool {
        [&self.name, &self.meaning, &self.also].into_iter().any(|text| has(text, wanted))
    }
}

/// Whether `text` has `wanted`, whatever the size of its letters: those of ASCII, as the words of the page are.
fn has(text: &str, wanted: &str) -> bool {
    text.to_ascii_lowercase().contains(wanted)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_sent_arrives() {
        let all = Explained::read(&explained_text(None));
        assert_eq!(all.len(), Explanation::all().count());
        for (own, sent) in Explanation::all().zip(&all) {
            assert_eq!((sent.title.as_str(), sent.plain.as_str()), (own.topic.title, own.plain));
            assert!(sent.parts.iter().any(|(name, text)| *name == "Source" && text == own.source));
            assert_eq!(Explained::read(&explained_text(Some(own.topic.key))), std::slice::from_ref(sent));
            assert_eq!(own.topic.explanation(), Some(own));
        }
        assert!(Explained::read(&explained_text(Some("nothing of the kind"))).is_empty());
        let terms = Meaning::read(&meanings_text());
        assert_eq!(
            terms.iter().map(|term| term.name.as_str()).collect::<Vec<_>>(),
            TERMS.iter().map(|term| term.name).collect::<Vec<_>>()
        );
        assert!(terms.iter().any(|term| term.has("coincidence")) && !terms[0].has("no such word"));
    }
}
