//! The one call: a checked design in, a report with every station out.

use crate::air::Air;
use crate::bands::{Spectrum, Weighting};
use crate::buildup::Stack;
use crate::design::CheckedDesign;
use crate::geometry::{grown, surface_area_m2};
use crate::need::room_level_db;
use crate::transmission::transmission;
use crate::workshop::{Bill, bill};

/// A level at a place on the way of the sound.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Level in dB by band.
    pub level_db: Spectrum,
    /// A-weighted level in dB.
    pub dba: f64,
}

impl Station {
    /// A station from its levels in dB by band.
    pub fn new(level_db: Spectrum) -> Self {
        Self { level_db, dba: level_db.weighted_sum(Weighting::A) }
    }
}

/// The stations that are computed so far, from source to room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stations {
    /// 1 m from the bare source on the floor.
    pub source: Station,
    /// In the source chamber.
    pub inside: Station,
    /// In the gap between the boxes, where there are two.
    pub gap: Option<Station>,
    /// 1 m from the outer surface, on the floor, nothing else around.
    pub outside: Station,
    /// In the room, at its distance.
    pub room: Station,
}

/// What a design does.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// Sound reduction index of the whole wall in dB by band, diffuse incidence, finite size.
    pub sound_reduction_db: Spectrum,
    /// Insertion loss in dB by band.
    pub insertion_loss_db: Spectrum,
    /// Level difference, inside against 1 m outside, in dB by band.
    pub level_difference_db: Spectrum,
    /// Insertion loss in dB for the A-weighted sound of this source.
    pub insertion_loss_dba: f64,
    /// Level difference in dB for the A-weighted sound of this source.
    pub level_difference_dba: f64,
    /// The stations.
    pub stations: Stations,
    /// Inside length, width, height in m.
    pub inside_m: [f64; 3],
    /// Outside length, width, height in m of the inner box.
    pub inner_outside_m: [f64; 3],
    /// Outside length, width, height in m of the whole.
    pub outside_m: [f64; 3],
    /// Mass and material cost.
    pub bill: Bill,
}

/// Evaluates `design`.
pub fn evaluate(design: &CheckedDesign) -> Report {
    let air = Air::default();
    let stack = Stack { elements: design.wall_elements() };
    let tau = transmission(&stack, &air);
    let source = design.spectrum.levels_db(design.level_dba);
    let power = source.map(|level| level + 8.0);
    let area = surface_area_m2(design.inside_m);
    let absorption = 0.5 * area;
    let insertion_loss_db = tau.map(|tau| crate::math::to_db(absorption / (area * tau)));
    let out = power.zip(&insertion_loss_db, |level, loss| level - loss);
    let inside = power.map(|level| level + crate::math::to_db(4.0 / absorption));
    let outside = out.map(|level| level - 11.0);
    let inner_outside_m = grown(design.inside_m, design.inner.laminate.thickness_m());
    let outside_m = match &design.outer {
        None => inner_outside_m,
        Some((gap, shell)) => grown(inner_outside_m, gap.depth_m + shell.laminate.thickness_m()),
    };
    let stations = Stations {
        source: Station::new(source),
        inside: Station::new(inside),
        gap: None,
        outside: Station::new(outside),
        room: Station::new(room_level_db(&out, &design.room)),
    };
    let power_dba = power.weighted_sum(Weighting::A);
    Report {
        sound_reduction_db: tau.map(|tau| -crate::math::to_db(tau)),
        insertion_loss_db,
        level_difference_db: inside.zip(&outside, |a, b| a - b),
        insertion_loss_dba: power_dba - out.weighted_sum(Weighting::A),
        level_difference_dba: stations.inside.dba - stations.outside.dba,
        stations,
        inside_m: design.inside_m,
        inner_outside_m,
        outside_m,
        bill: bill(design),
    }
}
