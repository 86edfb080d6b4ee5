//! Sheet layouts: every one can be sawn as it says, and none needs more sheets than others have found.

#[path = "layout/exact.rs"]
mod exact;
#[path = "layout/known.rs"]
mod known;
#[path = "layout/sawn.rs"]
mod sawn;
