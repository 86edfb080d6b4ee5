//! Helpers for the checks in `tests/tests`.

pub mod published;
