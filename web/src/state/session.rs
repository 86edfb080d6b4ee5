//! What a page remembers of a design across a reload beside its address: the steps before and after it, and what fields hold that
//! is not in it.

use std::rc::Rc;
use std::slice;

use super::{Kept, Notice, State, Text};
use crate::band_lists::BandList;
use crate::estimator::Estimator;
use crate::fields::Field;
use crate::history::History;
use crate::quantity::Units;

/// Between two records.
const RECORD: char = '\u{1e}';
/// Between a record's parts.
const PART: char = '\u{1f}';
/// The kinds of records.
const PAST: &str = "past";
const PRESENT: &str = "present";
const FUTURE: &str = "future";
const FIELD: &str = "field";
const LIST: &str = "list";
const OWN: &str = "own";
const TEXT: &str = "text";
const NOTICE: &str = "notice";
const BESIDE: &str = "beside";

impl State {
    /// What [`State::resumed`] goes on from.
    pub fn session(&self) -> String {
        let designs = |kind: &str, designs: &[Kept]| {
            let record = |kept: &Kept| {
                let place = kept.came_from.map(|place| format!("{PART}{place}")).unwrap_or_default();
                format!("{kind}{PART}{}{place}", kept.fragment)
            };
            designs.iter().map(record).collect::<Vec<_>>()
        };
        let mut records = designs(PAST, self.history.past());
        records.extend(designs(FUTURE, self.history.future()));
        records.extend(designs(PRESENT, slice::from_ref(self.history.present())));
        let refused = self.entries.iter().filter(|(_, entry)| entry.refusal.is_some());
        records.extend(refused.map(|(field, entry)| [FIELD, &field.id(), &entry.text].join(&PART.to_string())));
        let refused = self.lists.iter().filter(|(_, entry)| entry.refusal.is_some());
        records.extend(refused.map(|(list, entry)| [LIST, &list.path(), &entry.text].join(&PART.to_string())));
        records.extend(self.own.iter().map(|(key, entry)| [OWN, key, &entry.text].join(&PART.to_string())));
        records.extend(self.texts.iter().map(|(text, entry)| [TEXT, &text.path(), &entry.text].join(&PART.to_string())));
        records.extend(self.notice().map(|notice| [NOTICE, &notice.fragment, &notice.reason].join(&PART.to_string())));
        records.push(format!("{BESIDE}{PART}{}", self.beside()));
        records.join(&RECORD.to_string())
    }

    /// The state of a page opened with `fragment` in its address, where `session` is what it was left with. A session of another
    /// design, or one that cannot be read, is none: the address counts.
    pub fn resumed(fragment: &str, session: &str, units: Units, estimator: Estimator) -> Self {
        let mut state = Self::new(fragment, units, estimator);
        if state.notice.is_some() {
            return state;
        }
        let records: Vec<Vec<&str>> = session.split(RECORD).map(|record| record.split(PART).collect()).collect();
        // They are the tab's, whichever design the address has.
        if let Some(beside) = records.iter().find(|record| record[0] == BESIDE).and_then(|record| record.get(1)) {
            state.show_beside(beside);
        }
        let kept = |record: &Vec<&str>| {
            let fragment = *record.get(1)?;
            let design = Rc::new(state.estimator.open(fragment).ok()?);
            let came_from = record.get(2).and_then(|place| place.parse().ok());
            Some(Kept { came_from, ..Kept::new(design, fragment.into()) })
        };
        let designs = |kind: &str| -> Option<Vec<Kept>> {
            let own = records.iter().filter(|record| record[0] == kind);
            own.map(kept).collect()
        };
        let (Some(past), Some(present), Some(future)) = (designs(PAST), designs(PRESENT), designs(FUTURE)) else {
            return state;
        };
        if present.as_slice() != slice::from_ref(state.history.present()) {
            return state;
        }
        let came_from = present.iter().find_map(|kept| kept.came_from);
        state.history = History::resumed(past, Kept { came_from, ..state.history.present().clone() }, future);
        for record in &records {
            match record[..] {
                [FIELD, id, text] => {
                    if let Some(field) = Field::with_id(id, state.design()) {
                        state.enter(field, text.to_owned());
                    }
                }
                [LIST, path, text] => {
                    if let Some(list) = BandList::at(path, state.design()) {
                        state.enter_bands(list, text.to_owned());
                    }
                }
                [TEXT, path, words] => {
                    if let Some(text) = Text::at(path, state.design()) {
                        state.enter_text(text, words.to_owned());
                    }
                }
                [OWN, key, text] => state.enter_own(key, text.to_owned()),
                [NOTICE, fragment, reason] => {
                    state.notice = Some(Notice::new(fragment, reason.to_owned()));
                    state.outlive_notice();
                }
                _ => {}
            }
        }
        state
    }
}
