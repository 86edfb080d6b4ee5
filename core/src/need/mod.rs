//! Need: what is loud, where, and what the room makes of it.

mod hours;
mod room;
mod source;

pub use hours::{Hours, Period};
pub use room::{Room, room_level_db};
pub use source::SourceSpectrum;
