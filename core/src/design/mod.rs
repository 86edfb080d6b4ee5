//! A design: the document people edit, its check, the examples and the link that carries it.

mod check;
mod document;
mod examples;
pub mod link;

pub use check::{CheckedDesign, CheckedShell, Lining, Room, limits};
pub use document::{Design, Fill, GapPart, InnerPart, LiningPart, RoomPart, Shell, SourcePart};
pub use examples::{examples, run_in_box};
