//! The enclosure: absorption inside, sound power through the walls, levels inside and outside;
//! what shakes it and what it shakes.

mod absorption;
mod brace;
mod energy;
mod floor;
pub mod mobility;
mod opening;
mod structure;
mod support;
pub mod transmissibility;

pub use absorption::{BARE_ABSORPTION, Lining, absorption_at_angle, chamber_absorption, diffuse_absorption, lining_absorption};
pub use brace::{BraceKind, Braces};
pub use energy::{Energy, FREE_FIELD_DISTANCE_M, energy, outside_distance_m, power_from_level_db};
pub use floor::FloorResponse;
pub use mobility::PanelResponse;
pub use opening::{Holes, Lid, LidFace, LidForm, SealKind, Vents};
pub use structure::{REFERENCE_ABSORPTION_M2, Shaken, Suspended, SuspensionPath, floor_borne, suspension_path};
pub use support::{
    Driver, FREE_FALL, Floor, LOAD_FACTOR, Loaded, PAD_WORKING_STRAIN, Spring, Support, SupportKind, apparent_modulus,
    rubber_dynamic_ratio, rubber_modulus, stiffness_from_test,
};
