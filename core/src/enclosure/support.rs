//! What a box hangs or stands on: straps, springs, pads, screws; and the floor below.

use serde::{Deserialize, Serialize};

/// Standard acceleration of free fall in m/s2 (ISO 80000-3).
pub const FREE_FALL: f64 = 9.806_65;

/// What supports are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SupportKind {
    /// Straps or rubber cords from which it hangs.
    Straps,
    /// Springs on which it stands.
    Springs,
    /// Rubber pads on which it stands.
    Pads,
    /// Screwed or set down hard.
    Rigid,
}

/// A driver as a source of recoil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Driver {
    /// Moving mass in kg.
    pub moving_mass_kg: f64,
    /// Effective area of the cone in m2.
    pub cone_area_m2: f64,
}

/// One elastic support.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spring {
    /// Static stiffness in N/m.
    pub stiffness: f64,
    /// Dynamic stiffness over static.
    pub dynamic_ratio: f64,
    /// Hysteretic loss factor.
    pub loss_factor: f64,
    /// Load in kg at which it breaks or goes solid; the working load is a fifth.
    pub breaking_load_kg: f64,
    /// Height in m under load, fittings included.
    pub height_m: f64,
}

/// Equal supports under or over a box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Support {
    /// What they are.
    pub kind: SupportKind,
    /// How many, at least one.
    pub count: usize,
    /// One of them; `None`: rigid.
    pub spring: Option<Spring>,
}

/// The floor that a box stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Floor {
    /// Concrete on the ground.
    Ground,
    /// A concrete slab between storeys.
    Slab,
    /// Boards on timber joists.
    Joists,
}

impl Spring {
    /// A strap or spring of static `stiffness` in N/m, as a test with a known mass gives it.
    pub fn tested(kind: SupportKind, stiffness: f64, breaking_load_kg: f64, height_m: f64) -> Self {
        let (dynamic_ratio, loss_factor) = if kind == SupportKind::Straps { (1.4, 0.1) } else { (1.0, 0.01) };
        Self { stiffness, dynamic_ratio, loss_factor, breaking_load_kg, height_m }
    }

    /// A square rubber pad between two plates that hold its faces.
    pub fn pad(side_m: f64, thickness_m: f64, shore_a: f64) -> Self {
        // Gent (1958).
        let modulus = 98_100.0 * (56.0 + 7.623_36 * shore_a) / (0.137_505 * (254.0 - 2.54 * shore_a));
        let shape = side_m / (4.0 * thickness_m);
        let apparent = modulus * (1.0 + 2.0 * shape * shape);
        let stiffness = apparent * side_m * side_m / thickness_m;
        let working_kg = 0.15 * thickness_m * stiffness / FREE_FALL;
        Self { stiffness, dynamic_ratio: 1.3, loss_factor: 0.1, breaking_load_kg: 5.0 * working_kg, height_m: thickness_m }
    }
}
