//! Lists of band values that a person types or pastes.

use hushwright::design::Design;
use hushwright::need::{Background, BandValues, SourceSpectrum};

/// A list of band values in the document.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BandList {
    /// Levels of the source at 1 m.
    Source,
    /// Sound reduction index of the partition before listener `k`.
    Reduction(usize),
    /// Background at listener `k`.
    Background(usize),
}

impl BandList {
    /// Path in the document, as errors of the core name it.
    pub fn path(self) -> String {
        match self {
            Self::Source => "source.own_db".to_owned(),
            Self::Reduction(k) => format!("listeners[{k}].reduction_db"),
            Self::Background(k) => format!("listeners[{k}].background_db"),
        }
    }

    /// The list at `path` of `design`, if the page has one there.
    pub fn at(path: &str, design: &Design) -> Option<Self> {
        let of_listeners = (0..design.listeners.len()).flat_map(|k| [Self::Reduction(k), Self::Background(k)]);
        std::iter::once(Self::Source).chain(of_listeners).find(|list| list.path() == path)
    }

    /// What it is called.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Source => "Levels at 1 m, dB",
            Self::Reduction(_) => "Sound reduction index R′, dB",
            Self::Background(_) => "Background, dB",
        }
    }

    /// The list in `design`, where it has an effect.
    pub fn get(self, design: &Design) -> Option<&BandValues> {
        match self {
            Self::Source => (design.source.spectrum == SourceSpectrum::Own).then_some(&design.source.own_db),
            Self::Reduction(k) => {
                let listener = design.listeners.get(k)?;
                (listener.place.is_parted() && listener.partition.is_none()).then_some(&listener.reduction_db)
            }
            Self::Background(k) => {
                let listener = design.listeners.get(k)?;
                (listener.background == Background::OwnBands).then_some(&listener.background_db)
            }
        }
    }

    /// Puts `values` into `design`, if there is a place for them.
    pub fn set(self, design: &mut Design, values: BandValues) {
        match self {
            Self::Source => design.source.own_db = values,
            Self::Reduction(k) => {
                if let Some(listener) = design.listeners.get_mut(k) {
                    listener.reduction_db = values;
                }
            }
            Self::Background(k) => {
                if let Some(listener) = design.listeners.get_mut(k) {
                    listener.background_db = values;
                }
            }
        }
    }

    /// The same list once listener `gone` is no more; none if it was one of his.
    pub fn without_listener(self, gone: usize) -> Option<Self> {
        let place = |k: usize| (k != gone).then(|| if k > gone { k - 1 } else { k });
        match self {
            Self::Source => Some(self),
            Self::Reduction(k) => place(k).map(Self::Reduction),
            Self::Background(k) => place(k).map(Self::Background),
        }
    }
}
