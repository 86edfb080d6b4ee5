//! What happens to lists of band values and to listeners.

use std::rc::Rc;

use hushwright::design::{Design, limits};
use hushwright::need::SourceSpectrum;

use super::{Entry, State, Step, Text};
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
        let refusal = match self.estimator.read_bands(&text) {
            Err(message) => Some(message),
            Ok(values) => {
                let mut candidate = (**self.design()).clone();
                list.set(&mut candidate, values);
                let candidate = Rc::new(candidate);
                let taken = self.take(&candidate, Some(Step::Bands(list)));
                taken.err().map(|errors| self.why_refused(&errors, &list.path(), &candidate))
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

    /// Numbers of one's own, of a partition or of a source, begin with those of what they take the place of.
    pub(super) fn begin_with_what_was_there(&self, choice: Choice, candidate: &mut Design) {
        match choice {
            Choice::Listener(k, ListenerChoice::Partition) => {
                if let (Some(listener), Some(heard)) = (candidate.listeners.get_mut(k), self.report.listeners.get(k))
                    && let (None, true, Some(reduction)) =
                        (listener.partition, listener.reduction_db.is_empty(), heard.reduction_db)
                {
                    listener.reduction_db = octaves_of(&reduction, false);
                }
            }
            Choice::Spectrum if candidate.source.spectrum == SourceSpectrum::Own && candidate.source.own_db.is_empty() => {
                candidate.source.own_db = octaves_of(&self.report.stations.source.level_db, true);
            }
            _ => {}
        }
    }

    /// As many of the supports that come with `choice` as hold the load; if none do, as many as there were.
    pub(super) fn hold(&self, choice: Choice, candidate: &mut Design) {
        let Some((supports, path)) = choice.supports() else { return };
        let before = supports(candidate).count;
        for count in before as usize..=limits::SUPPORTS.1 as usize {
            supports(candidate).count = count as f64;
            if self.estimator.estimate(candidate).err().is_none_or(|errors| errors[0].path != path) {
                return;
            }
        }
        supports(candidate).count = before;
    }

    /// Takes listener `gone` away, and what was typed of him.
    pub(super) fn remove_listener(&mut self, gone: usize) {
        let (entries, lists, texts) = (self.entries.clone(), self.lists.clone(), self.texts.clone());
        self.texts.retain(|(text, _)| *text != Text::Listener(gone));
        for (text, _) in &mut self.texts {
            if let Text::Listener(k) = text
                && *k > gone
            {
                *k -= 1;
            }
        }
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
            (self.entries, self.lists, self.texts) = (entries, lists, texts);
        }
    }
}
