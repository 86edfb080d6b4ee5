//! The enclosure: absorption inside, sound power through the walls, levels inside and outside.

mod absorption;
mod brace;
mod energy;
mod join;
pub mod network;
mod opening;
pub mod panel;
mod pending;
mod support;

pub use absorption::{BARE_ABSORPTION, Lining, absorption_at_angle, diffuse_absorption, lining_absorption};
pub use brace::{BraceKind, Braces};
pub use energy::{
    Balance, EnergySpectra, FREE_FIELD_DISTANCE_M, OpeningAreas, OuterEnergy, SourceChamber, outside_distance_m,
    power_from_level_db,
};
pub use join::{Join, mix};
pub use opening::{Holes, Lid, LidFace, LidForm, SealKind, Vents};
pub use pending::*;
pub use support::{Driver, FREE_FALL, Floor, Spring, Support, SupportKind};
