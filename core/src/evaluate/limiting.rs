//! Which path lets out most, in which band, and why.

use std::f64::consts::PI;

use super::assembly::Assembly;
use super::report::{Cause, Limiting, Path, PathKey};
use crate::air::Air;
use crate::bands::{BAND_COUNT, Spectrum, Weighting, band_position};
use crate::buildup::Laminate;
use crate::design::CheckedDesign;
use crate::transmission::bending::{bending_stiffness, free_wavenumber};

/// How far in bands from a resonance its band may lie to be called that.
const NEAR: f64 = 1.0;

/// The path that lets out most of the A-weighted sound, and its loudest band; `bare_db` is what would be heard without a box.
pub fn limiting(paths: &[Path], bare_db: &Spectrum, design: &CheckedDesign, assembly: &Assembly, air: &Air) -> Limiting {
    let Some(path) = paths.iter().max_by(|a, b| a.share_dba.total_cmp(&b.share_dba)) else {
        return Limiting { path: PathKey::Walls, band: 0, share: 1.0, cause: Cause::None };
    };
    let weights = Weighting::A.spectrum();
    let loudness = |band: usize| bare_db[band] + weights[band] - path.insertion_loss_db[band];
    let band = (0..BAND_COUNT).max_by(|&a, &b| loudness(a).total_cmp(&loudness(b))).unwrap_or(0);
    let cause = if path.key == PathKey::Walls { cause(band, design, assembly, air) } else { Cause::None };
    Limiting { path: path.key, band, share: path.share_dba, cause }
}

fn cause(band: usize, design: &CheckedDesign, assembly: &Assembly, air: &Air) -> Cause {
    let near = |hz: f64| (band_position(hz) - band as f64).abs() <= NEAR;
    if let Some((network, _)) = &assembly.network {
        if network.outer.as_ref().is_some_and(|outer| outer.faces.first_hz().any(near)) {
            return Cause::OuterPanels;
        }
        let rear = network.rear.iter().flat_map(|rear| rear.faces.first_hz());
        if network.front.faces.first_hz().chain(rear).any(near) {
            return Cause::InnerPanels;
        }
    }
    if let Some((gap, outer)) = &design.outer {
        let (m1, m2) = (design.inner.laminate.surface_mass(), outer.laminate.surface_mass());
        let stiffness = air.density * air.speed * air.speed / gap.depth_m;
        if near((stiffness * (1.0 / m1 + 1.0 / m2)).sqrt() / (2.0 * PI)) {
            return Cause::MassAirMass;
        }
    }
    let shells = [Some(&design.inner), design.outer.as_ref().map(|(_, shell)| shell)];
    if shells.into_iter().flatten().any(|shell| near(coincidence_hz(&shell.laminate, air))) {
        return Cause::Coincidence;
    }
    Cause::None
}

/// Critical frequency in Hz of a leaf: where its free wave is as long as that of the air.
fn coincidence_hz(laminate: &Laminate, air: &Air) -> f64 {
    let mut hz = 1000.0;
    for _ in 0..6 {
        let stiffness = bending_stiffness(laminate, free_wavenumber(laminate, hz), hz).re;
        hz = air.speed * air.speed / (2.0 * PI) * (laminate.surface_mass() / stiffness).sqrt();
    }
    hz
}
