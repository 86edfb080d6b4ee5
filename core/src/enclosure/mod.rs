//! The enclosure: volumes, panels, openings and supports; what gets out by each way, levels inside and outside.

mod absorption;
mod brace;
mod energy;
mod floor;
mod hole;
mod join;
mod lid;
pub mod mobility;
mod narrow;
pub mod network;
mod opening;
pub mod panel;
mod passage;
mod radiation;
mod resonance;
mod slit;
mod structure;
mod support;
pub mod transmissibility;
mod two_port;
mod vent;

pub use absorption::{BARE_ABSORPTION, Lining, absorption_at_angle, diffuse_absorption, lining_absorption};
pub use brace::{BraceKind, Braces};
pub use energy::{
    Balance, EnergySpectra, FREE_FIELD_DISTANCE_M, OpeningAreas, OuterEnergy, SourceChamber, outside_distance_m,
    power_from_level_db,
};
pub use floor::FloorResponse;
pub use hole::{LEAST_GAP_M, SEALED_GAP_M, holes_at, holes_transmission_area};
pub(crate) use join::weights_at;
pub use join::{Join, mix};
pub use lid::{CLEARANCE_M, FACE_LOSS, MOST_SEALS, Residual, SEAL_WIDTH_M, STEP_M, lid_at, lid_path, lid_transmission_area};
pub use mobility::PanelResponse;
pub use opening::{Holes, Lid, LidFace, LidForm, SealKind, Vents};
pub use radiation::SlitEnd;
pub use slit::{Medium, Segment, slit_at};
pub(crate) use structure::Held;
pub use structure::{REFERENCE_ABSORPTION_M2, Shaken, Suspended, SuspensionPath, floor_borne, suspension_path};
pub use support::{
    Driver, FREE_FALL, Floor, LOAD_FACTOR, Loaded, PAD_WORKING_STRAIN, Spring, Support, SupportKind, apparent_modulus,
    rubber_dynamic_ratio, rubber_modulus, stiffness_from_test,
};
pub use two_port::{OpeningAt, composite_transmission};
pub use vent::{
    BARE_DUCT_ABSORPTION, BEND_DB, QUIET_SPEED_M_S, TEMPERATURE_RISE_K, VentFlow, absorption_at, duct_absorption,
    duct_attenuation_db, vent_flow, vents_at, vents_transmission_area,
};
