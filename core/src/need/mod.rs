//! Need: what is loud, where, and what the room makes of it.

mod hours;
mod partition;
mod room;
mod source;

pub use hours::{Hours, Period};
pub use partition::{Partition, composite_db};
pub use room::{Room, room_level_db};
pub use source::SourceSpectrum;
