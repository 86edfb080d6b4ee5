//! What happens to lists of band values and to listeners.

use hushwright::design::Design;
use hushwright::need::read_bands;

use super::{Entry, State, Step};
use crate::band_lists::BandList;
use crate::choices::Choice;
use crate::fields::Field;
use crate::listener_choices::{ListenerChoice, octaves_of};

impl State {
    /// What a list of band values holds, if it was typed.
    pub fn list(&self, list: BandList) -> Option<&Entry> {
        self.lists.iter().find(|(own, _)| *own == list).map(|(_, entry)| entry)
    }

    /// The lists of band values that hold something which is not in the design.
    pub fn refused_lists(&self) -> impl Iterator<Item = BandList> {
        self.lists.iter().filter(|(_, entry)| entry.refusal.is_some()).map(|(list, _)| *list)
    }

    /// What was typed as band values: in the design if it can be read and passes the check, else beside it with the reason.
    pub(super) fn enter_bands(&mut self, list: BandList, text: String) {
        let refusal = match read_bands(&text) {
            Err(message) => Some(message),
            Ok(values) => {
                let mut candidate = (**self.design()).clone();
                list.set(&mut candidate, values);
                let checked = candidate.check();
                if checked.is_ok() {
                    self.take(candidate.clone(), Some(Step::Bands(list)));
                }
                checked.err().map(|errors| self.why_refused(&errors, &list.path(), &candidate))
            }
        };
        let accepted = refusal.is_none();
        self.lists.retain(|(own, _)| *own != list);
        self.lists.push((list, Entry { text, refusal }));
        if accepted {
            self.retry();
        } else {
            // Some of the lines are no answer either.
            self.take_back(&Step::Bands(list));
        }
    }

    /// A partition by numbers of one's own begins with those of the one that it takes the place of.
    pub(super) fn begin_with_what_was_there(&self, choice: Choice, candidate: &mut Design) {
        let Choice::Listener(k, ListenerChoice::Partition) = choice else { return };
        if let (Some(listener), Some(heard)) = (candidate.listeners.get_mut(k), self.report.listeners.get(k))
            && let (None, true, Some(reduction)) = (listener.partition, listener.reduction_db.is_empty(), heard.reduction_db)
        {
            listener.reduction_db = octaves_of(&reduction, false);
        }
    }

    /// Takes listener `gone` away, and what was typed of him.
    pub(super) fn remove_listener(&mut self, gone: usize) {
        let (entries, lists) = (self.entries.clone(), self.lists.clone());
        self.entries.retain(|(field, _)| !matches!(field, Field::Listener(k, _) if *k == gone));
        for (field, _) in &mut self.entries {
            if let Field::Listener(k, _) = field
                && *k > gone
            {
                *k -= 1;
            }
        }
        let moved = |(list, entry): (BandList, Entry)| list.without_listener(gone).map(|list| (list, entry));
        self.lists = std::mem::take(&mut self.lists).into_iter().filter_map(moved).collect();
        let made = self.change("listeners", |design| {
            if gone < design.listeners.len() {
                design.listeners.remove(gone);
            }
        });
        if !made {
            (self.entries, self.lists) = (entries, lists);
        }
    }
}
