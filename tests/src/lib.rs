//! Helpers for the checks in `tests/tests`.

#[cfg(feature = "browser")]
pub mod browser;
pub mod coupled_modes;
pub mod designs;
pub mod fullest;
pub mod heavy_box;
pub mod links;
pub mod programs;
pub mod published;
pub mod sealed_box;
