//! How much sound gets out of a box of boards: build-ups in, spectra out.

pub mod air;
pub mod bands;
pub mod buildup;
pub mod design;
pub mod enclosure;
pub mod error;
pub mod evaluate;
pub mod geometry;
pub mod json;
pub mod material;
pub mod math;
pub mod need;
pub mod rating;
pub mod transmission;
pub mod units;
pub mod workshop;
