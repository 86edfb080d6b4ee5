//! Braces: battens and shelves that divide the long faces of a box.

crate::mapping::names! {
    BraceKind { Battens = "battens", Shelves = "shelves" }
}

/// What divides a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BraceKind {
    /// Battens glued and screwed to the four long faces, across the length.
    Battens,
    /// Open shelves across the whole inside, glued to the four long faces: as stiff as walls in their own plane.
    Shelves,
}

/// Equal braces on each of the four long faces that divide the length into equal bays.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Braces {
    /// What they are.
    pub kind: BraceKind,
    /// How many on each long face, at least one.
    pub count: usize,
    /// Width in m along the face.
    pub width_m: f64,
    /// Depth in m away from the face.
    pub depth_m: f64,
}

impl Braces {
    /// Young's modulus in Pa of the softwood of braces along the grain; assumed.
    pub const YOUNGS_MODULUS: f64 = 1.0e10;
    /// Density in kg/m3 of the softwood of braces; assumed.
    pub const DENSITY: f64 = 450.0;
    /// Loss factor of the softwood of braces and their joints; assumed.
    pub const LOSS_FACTOR: f64 = 0.03;
}
