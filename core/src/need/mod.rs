//! Need: what is loud, where, and what the room makes of it.

mod room;
mod source;

pub use room::{Room, room_level_db};
pub use source::SourceSpectrum;
