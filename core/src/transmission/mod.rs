//! Transmission through stacks of leaves and gaps: transfer matrices, diffuse field, finite size, resonant waves.

pub mod band_mean;
pub mod bending;
pub mod compliance;
pub mod diffuse;
pub mod layer;
pub mod porous;
pub mod quadrature;
pub mod resonant;
pub mod sharp_angles;
pub mod window;

mod stack;

pub use diffuse::{Accuracy, Forced, Incidence, Setting};
pub(crate) use stack::alone;
pub use stack::{Mount, StackSpectra, sound_reduction_db, stack_spectra};
