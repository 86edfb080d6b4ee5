//! What every input and every result of the page is, where it comes from and how far it holds; and the terms of the trade.
//!
//! Nothing here computes: the relations are those of the core, in the words of its own documentation. What it says of a source
//! is said here again: author and year, "from memory", "assumed", or that none is named.

/// An explanation of what is given; what is left out is empty.
macro_rules! explanation {
    ($key:literal $title:literal $($part:ident $text:literal)+) => {
        Explanation { topic: Topic { key: $key, title: $title }, $($part: $text,)+ ..Explanation::EMPTY }
    };
}

/// Makes topics, and the list of their explanations, out of one table.
macro_rules! explanations {
    ($($name:ident $key:literal $title:literal $($part:ident $text:literal)+;)*) => {
        $(
            #[doc = $title]
            pub const $name: Topic = Topic { key: $key, title: $title };
        )*

        /// The explanations of all of them.
        #[allow(clippy::needless_update, reason = "some rows leave nothing out")]
        pub const ALL: &[Explanation] = &[$(explanation!($key $title $($part $text)+)),*];
    };
}

mod building;
mod inputs;
mod listening;
mod materials;
mod openings;
mod results;
mod shells;
mod sources;
mod supports;
mod terms;
mod wire;

pub use inputs::{of_choice, of_field, of_list, of_preset};
pub use materials::of_material_number;
pub use results::{Told, of_result};
pub use terms::{TERMS, Term};
pub use wire::{Explained, Meaning, explained_text, meanings_text};

/// Something that can be explained. The page knows no more of it: the texts are long, and the engine has them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Topic {
    /// Its place in ids.
    pub key: &'static str,
    /// What it is about.
    pub title: &'static str,
}

impl Topic {
    /// Its explanation.
    pub fn explanation(self) -> Option<&'static Explanation> {
        Explanation::all().find(|explanation| explanation.topic == self)
    }
}

/// What an input or a result is, and where it comes from. A text that would make no sense is empty, and is left out on the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Explanation {
    /// What is explained.
    pub topic: Topic,
    /// What it is, for a musician or a joiner: a sentence or two.
    pub plain: &'static str,
    /// How it is computed, or what an input changes in the model; formulas in plain text, SI units.
    pub relation: &'static str,
    /// Author, year and clause; or that it is assumed, from memory or without a source.
    pub source: &'static str,
    /// What is taken for granted.
    pub assumptions: &'static str,
    /// How far it holds.
    pub validity: &'static str,
}

impl Explanation {
    const EMPTY: Self =
        Self { topic: Topic { key: "", title: "" }, plain: "", relation: "", source: "", assumptions: "", validity: "" };

    /// All explanations there are.
    pub fn all() -> impl Iterator<Item = &'static Self> {
        let all = [
            sources::ALL,
            shells::ALL,
            supports::ALL,
            openings::ALL,
            listening::ALL,
            materials::ALL,
            building::ALL,
            results::ALL,
        ];
        all.into_iter().flatten()
    }
}

#[cfg(test)]
mod tests;
