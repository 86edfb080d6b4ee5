//! What is taken to the workshop, as pages of text and drawings: made from a plan by a program of its own, shown and printed by the
//! page.
//!
//! Everything here is text with its marks escaped (crate `maud`), so that what is shown, printed and saved is one thing.

pub mod drawings;
