//! What a box hangs or stands on: straps, springs, pads, screws; and the floor below.

use serde::{Deserialize, Serialize};

use std::f64::consts::PI;

use crate::math::{Complex64, complex};

crate::mapping::names! {
    SupportKind { Straps = "straps", Springs = "springs", Pads = "pads", Rigid = "rigid" }
    Floor { Ground = "ground", Slab = "slab", Joists = "joists" }
}

/// Standard acceleration of free fall in m/s2 (ISO 80000-3).
pub const FREE_FALL: f64 = 9.806_65;

/// What supports are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
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
    /// Its own mass in kg between its fittings; it sets where its standing waves begin.
    pub mass_kg: f64,
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
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Floor {
    /// Concrete on the ground.
    Ground,
    /// A concrete slab between storeys.
    Slab,
    /// Boards on timber joists.
    Joists,
}

/// Breaking load over working load: 5 for rigging in general (common practice, no source).
pub const LOAD_FACTOR: f64 = 5.0;
/// Compression of a rubber pad under its working load, part of its thickness (common practice, no source).
pub const PAD_WORKING_STRAIN: f64 = 0.15;

/// Bulk modulus of rubber in Pa (about 2 GPa; from memory).
const RUBBER_BULK_MODULUS: f64 = 2e9;
/// Density of rubber in kg/m3, between natural rubber without and with filler (0.93 to 1.2; from memory).
const RUBBER_DENSITY: f64 = 1100.0;
/// Loss factor of rubber in pads and cords; assumed (0.05 for natural rubber to 0.3 for damped compounds).
const RUBBER_LOSS_FACTOR: f64 = 0.1;
/// Dynamic over static stiffness of rubber cords and straps, whose hardness nobody knows; assumed.
const STRAP_DYNAMIC_RATIO: f64 = 1.4;
/// Speed in m/s of longitudinal waves along a rubber cord: sqrt(E/rho) for 2.2 MPa; assumed.
const STRAP_WAVE_SPEED: f64 = 45.0;
/// Loss factor of a steel spring with its seats; assumed (the steel alone has less than 0.001).
const STEEL_SPRING_LOSS_FACTOR: f64 = 0.01;
/// Shear stress in Pa of a steel spring pressed solid; assumed, common for spring wire.
const STEEL_SPRING_STRESS: f64 = 7e8;
/// Shear modulus of spring steel in Pa and its density in kg/m3 (textbook values).
const STEEL: (f64, f64) = (8e10, 7850.0);

/// Young's modulus in Pa of rubber from its hardness in Shore A (Gent 1958, "On the relation between indentation hardness
/// and Young's modulus", Trans. Inst. Rubber Ind. 34, 46-57; from memory).
///
/// Precondition: hardness below 100. Rubber of one hardness varies by some 25 % with its filler.
pub fn rubber_modulus(shore_a: f64) -> f64 {
    98_100.0 * (56.0 + 7.623_36 * shore_a) / (0.137_505 * (254.0 - 2.54 * shore_a))
}

/// Apparent modulus in Pa of a block of rubber of Young's `modulus` between two plates that hold its faces.
///
/// 1/Ea = 1/(E (1 + 2 S^2)) + 1/B with S the loaded over the free area (Gent & Lindley 1959, "The compression of bonded
/// rubber blocks", Proc. Inst. Mech. Eng. 173, 111-122; the term for bulk compression from memory). The factor 2 is that of
/// rubber without filler; filled rubber has about 1 (0.54 S^2 twice at 65 Shore A) on a modulus that is larger: within 30 %.
pub fn apparent_modulus(modulus: f64, shape_factor: f64) -> f64 {
    let bonded = modulus * (1.0 + 2.0 * shape_factor * shape_factor);
    bonded * RUBBER_BULK_MODULUS / (bonded + RUBBER_BULK_MODULUS)
}

/// Dynamic over static stiffness of rubber: 1.1 at 40 Shore A, 1.5 at 60, 2 at 70 (from memory); linear between, held beyond.
pub fn rubber_dynamic_ratio(shore_a: f64) -> f64 {
    if shore_a < 60.0 { 1.1 + 0.02 * (shore_a - 40.0).max(0.0) } else { 1.5 + 0.05 * (shore_a - 60.0).min(10.0) }
}

/// Static stiffness in N/m of a support that gives by `sag_m` under a mass of `mass_kg`: m g over the sag.
///
/// Precondition: positive sag. The support is taken as linear; cords are not, so the test mass should be near the load.
pub fn stiffness_from_test(mass_kg: f64, sag_m: f64) -> f64 {
    mass_kg * FREE_FALL / sag_m
}

impl Spring {
    /// A strap or cord of rubber, of static `stiffness` in N/m as a test with a known mass gives it.
    pub fn strap(stiffness: f64, breaking_load_kg: f64, height_m: f64) -> Self {
        // A rod of modulus E and length L has K = E A/L and m = rho A L = K L^2/(E/rho).
        let length_per_speed = height_m / STRAP_WAVE_SPEED;
        Self {
            stiffness,
            dynamic_ratio: STRAP_DYNAMIC_RATIO,
            loss_factor: RUBBER_LOSS_FACTOR,
            mass_kg: STRAP_DYNAMIC_RATIO * stiffness * length_per_speed * length_per_speed,
            breaking_load_kg,
            height_m,
        }
    }

    /// A coil spring of steel, of static `stiffness` in N/m as a test with a known mass gives it.
    ///
    /// Its mass follows from the energy that it holds when solid: F^2/(2 K) = tau^2 V/(4 G), with tau the shear stress at
    /// the surface of the wire (Wahl 1963, Mechanical Springs: energy per volume of a helical spring; from memory).
    pub fn steel(stiffness: f64, breaking_load_kg: f64, height_m: f64) -> Self {
        let (shear_modulus, density) = STEEL;
        let strain_force = breaking_load_kg * FREE_FALL / STEEL_SPRING_STRESS;
        Self {
            stiffness,
            dynamic_ratio: 1.0,
            loss_factor: STEEL_SPRING_LOSS_FACTOR,
            mass_kg: 2.0 * density * shear_modulus * strain_force * strain_force / stiffness,
            breaking_load_kg,
            height_m,
        }
    }

    /// A square rubber pad between two plates that hold its faces; S is its side over four times its thickness.
    ///
    /// Its "breaking load" is five times that of its working strain.
    pub fn pad(side_m: f64, thickness_m: f64, shore_a: f64) -> Self {
        let area = side_m * side_m;
        let apparent = apparent_modulus(rubber_modulus(shore_a), side_m / (4.0 * thickness_m));
        let working_kg = PAD_WORKING_STRAIN * apparent * area / FREE_FALL;
        Self {
            stiffness: apparent * area / thickness_m,
            dynamic_ratio: rubber_dynamic_ratio(shore_a),
            loss_factor: RUBBER_LOSS_FACTOR,
            mass_kg: RUBBER_DENSITY * area * thickness_m,
            breaking_load_kg: LOAD_FACTOR * working_kg,
            height_m: thickness_m,
        }
    }

    /// Load in kg that it may carry for years: a fifth of the breaking load.
    pub fn working_load_kg(&self) -> f64 {
        self.breaking_load_kg / LOAD_FACTOR
    }

    /// Dynamic stiffness in N/m with its loss: K (1 + j eta), for motion as exp(+jwt).
    pub fn dynamic_stiffness(&self) -> Complex64 {
        let real = self.stiffness * self.dynamic_ratio;
        complex(real, real * self.loss_factor)
    }
}

/// Elastic supports under the mass that they carry.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Loaded {
    /// Mass in kg on each.
    pub load_each_kg: f64,
    /// How far they give at rest, in m.
    pub sag_m: f64,
    /// Natural frequency in Hz of the mass, moving up and down, on the dynamic stiffness.
    pub natural_hz: f64,
    /// Load in kg that each may carry for years.
    pub working_load_kg: f64,
    /// Whether each carries more than that.
    pub overloaded: bool,
}

impl Support {
    /// Dynamic stiffness in N/m of all together; `None`: rigid.
    pub fn stiffness(&self) -> Option<Complex64> {
        self.spring.map(|spring| spring.dynamic_stiffness() * self.count as f64)
    }

    /// What `mass_kg`, a positive mass shared evenly, does to them; `None`: rigid.
    pub fn loaded(&self, mass_kg: f64) -> Option<Loaded> {
        let spring = self.spring?;
        let load_each_kg = mass_kg / self.count as f64;
        let dynamic = spring.dynamic_stiffness().re;
        Some(Loaded {
            load_each_kg,
            sag_m: load_each_kg * FREE_FALL / spring.stiffness,
            natural_hz: (dynamic / load_each_kg).sqrt() / (2.0 * PI),
            working_load_kg: spring.working_load_kg(),
            overloaded: load_each_kg > spring.working_load_kg(),
        })
    }
}
