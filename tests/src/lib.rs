//! Helpers for the checks in `tests/tests`.
