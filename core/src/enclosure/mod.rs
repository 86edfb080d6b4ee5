//! The enclosure: absorption inside, sound power through the walls, levels inside and outside.

mod absorption;
mod energy;

pub use absorption::{BARE_ABSORPTION, absorption_at_angle, chamber_absorption, diffuse_absorption, lining_absorption};
pub use energy::{Energy, FREE_FIELD_DISTANCE_M, energy, outside_distance_m, power_from_level_db};
