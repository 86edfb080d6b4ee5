//! The enclosure: absorption inside, sound power through the walls, levels inside and outside.

mod absorption;
mod brace;
mod energy;
mod opening;
mod support;

pub use absorption::{BARE_ABSORPTION, Lining, absorption_at_angle, chamber_absorption, diffuse_absorption, lining_absorption};
pub use brace::{BraceKind, Braces};
pub use energy::{Energy, FREE_FIELD_DISTANCE_M, energy, outside_distance_m, power_from_level_db};
pub use opening::{Holes, Lid, LidFace, LidForm, SealKind, Vents};
pub use support::{Driver, FREE_FALL, Floor, Spring, Support, SupportKind};
