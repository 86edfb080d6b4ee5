//! Need: what is loud, where, who hears it, and how quiet it has to be for them.

mod background;
mod band_values;
mod criterion;
mod exposure;
mod hours;
mod loudspeaker;
mod partition;
mod place;
mod room;
mod source;
mod threshold;

pub use background::{Background, background_db};
pub use band_values::{BandValues, Grid, NOTHING_DB, check_bands, indices_by_thirds, levels_by_thirds, read_bands, write_bands};
pub use criterion::{COVERED_DB, Criterion, CriterionKind, DbaLimit, Guideline, Heard, Judgement, who_guideline};
pub use exposure::niosh_hours;
pub use hours::{Hours, Period};
pub use loudspeaker::{Loudspeaker, SINE_CREST_DB, amplifier_w};
pub use partition::{Partition, composite_db};
pub use place::{Place, Way};
pub use room::{Room, diffuse_gain_db, room_gain_db, room_level_db};
pub use source::{SourceSpectrum, set_to_dba};
pub use threshold::THRESHOLD_DB;
