//! A design: the document people edit, its check, the examples and the link that carries it.

pub mod build;
mod check;
mod document;
mod examples;
pub mod file;
mod fittings;
pub mod link;
mod listener;
mod patch;
mod version;

pub use build::{BuildPart, ContentsPart, OwnNumbers, WayPart};
pub use check::{Baffle, CheckedDesign, CheckedShell, Room, limits};
pub use document::{
    BafflePart, BracesPart, Design, DriverPart, Fill, GapPart, HolesPart, InnerPart, LevelFrom, LidPart, LiningPart, RoomPart,
    Shell, SourcePart, SupportPart, VentsPart,
};
pub use examples::{examples, run_in_box};
pub use listener::{Listener, ListenerPart, ListenerRoomPart, PartitionBy};
