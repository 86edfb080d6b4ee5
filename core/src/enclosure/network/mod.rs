//! Low frequencies: the box as a network of air volumes, panels and openings.
//!
//! Below its first mode the air of a chamber is a spring of one pressure, and what counts is the net volume velocity. With
//! Q into the chamber, compliances C, admittances Y1 of the inner and Y2 of the outer shell,
//!
//! Q = j w C1 p1 + Y1 (p1 - p2), Y1 (p1 - p2) = j w C2 p2 + Yo p2, Qout = Yo p2, Yo = Y2/(1 + Y2 Zr),
//!
//! Zr the radiation impedance of the box, taken as a hemisphere of the same free surface on the floor: Zr = (rho c/S) j x
//! /(1 + j x), x = k sqrt(S/(2 pi)).
//!
//! The bare source is small. The box is not: of its surface's mean square velocity, the part that belongs to the volume
//! velocity radiates as a sphere that breathes, x^2/(1 + x^2), and the rest as one that swings, x^4/(4 + x^4), which is an
//! upper bound for all that brings no volume (for instance Pierce 1981, Acoustics, 4-1 and 4-2: efficiency of a sphere's
//! first two orders). Over the source's power this is |Qout/Q|^2/(1 + x^2) and (S <v^2> S - |Qout|^2) x^2/(4 + x^4).
//!
//! What openings radiate beyond that, each a small source on its own, is added, and its resistance loads them.
//!
//! A closed chamber behind the driver is a second branch into the gap with the opposite sign of Q; its radiation is added
//! as energy.

mod nodes;
mod rigid_body;

use std::f64::consts::PI;

use num_complex::Complex64;

pub use super::passage::{OpeningAdmittances, OpeningsAt, Passage};
pub use rigid_body::RigidBody;

use super::panel::Panel;
pub(crate) use super::panel::Response;
use crate::air::Air;
use crate::bands::{Spectrum, band_position, band_position_hz};
use crate::math::complex;
use crate::transmission::band_mean::{SOFT_INTERVALS, first_soft_band_means};
use crate::transmission::porous::miki;
pub(crate) use nodes::{BranchAt, NetworkAt, OuterAt, Outside, volumeless};

/// How exact means over bands are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fineness {
    /// Intervals in a band before any refinement.
    pub intervals: usize,
    /// Part of a band's mean that its error may be.
    pub tolerance: f64,
}

impl Fineness {
    /// For what is shown.
    pub const FULL: Self = Self { intervals: SOFT_INTERVALS, tolerance: 0.005 };
    /// For one sample of many.
    pub const SAMPLE: Self = Self { intervals: 2, tolerance: 0.05 };
}

/// Air in a chamber, part of it in porous material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chamber {
    /// Volume in m3.
    pub volume_m3: f64,
    /// Part of it in m3 that is porous material.
    pub porous_m3: f64,
    /// Flow resistivity in Pa s/m2 of that material.
    pub flow_resistivity: f64,
}

impl Chamber {
    /// Acoustic compliance in m3/Pa at `hz`: V/(rho c^2), softer where the material keeps the temperature.
    pub fn compliance(&self, hz: f64, air: &Air) -> Complex64 {
        let stiffness = air.density * air.speed * air.speed;
        let empty = (self.volume_m3 - self.porous_m3).max(0.0) / stiffness;
        if self.porous_m3 <= 0.0 {
            return complex(empty, 0.0);
        }
        let fluid = miki(self.flow_resistivity, hz, air);
        // Wavenumber over impedance is angular frequency over bulk modulus.
        fluid.wavenumber / fluid.impedance * (self.porous_m3.min(self.volume_m3) / (2.0 * PI * hz)) + empty
    }
}

/// Panels that share a pressure on one side: how often each occurs.
#[derive(Clone, Debug, PartialEq)]
pub struct Faces(pub Vec<(Panel, f64)>);

impl Faces {
    /// Sum of the answers of all panels.
    pub(crate) fn response(&self, hz: f64) -> Response {
        let mut sum = Response { admittance: complex(0.0, 0.0), square_velocity: 0.0 };
        for (panel, times) in &self.0 {
            let response = panel.response(hz);
            sum.admittance += response.admittance * *times;
            sum.square_velocity += response.square_velocity * times;
        }
        sum
    }

    /// Area in m2 of them all.
    pub fn area_m2(&self) -> f64 {
        self.0.iter().map(|(panel, times)| panel.area_m2() * times).sum()
    }

    /// First resonances in Hz.
    pub fn first_hz(&self) -> impl Iterator<Item = f64> {
        self.0.iter().map(|(panel, _)| panel.first_hz())
    }

    /// Highest first resonance in Hz.
    pub fn highest_first_hz(&self) -> f64 {
        self.first_hz().fold(0.0, f64::max)
    }
}

/// One of the two chambers that the driver drives.
#[derive(Clone, Debug, PartialEq)]
pub struct Branch {
    /// Its air.
    pub chamber: Chamber,
    /// The panels round it.
    pub faces: Faces,
    /// Part of the lid's edge that leads into it.
    pub lid_share: f64,
    /// Part of the holes that lead into it.
    pub holes_share: f64,
}

/// The gap and the outer shell.
#[derive(Clone, Debug, PartialEq)]
pub struct OuterShell {
    /// Air of the gap.
    pub gap: Chamber,
    /// The panels, the two ends last.
    pub faces: Faces,
}

/// The whole network.
#[derive(Clone, Debug, PartialEq)]
pub struct Network {
    /// Chamber in front of the driver, which is the only one where there is no baffle.
    pub front: Branch,
    /// Closed chamber behind it.
    pub rear: Option<Branch>,
    /// Gap and outer shell.
    pub outer: Option<OuterShell>,
    /// The box as a rigid body, where the source recoils and something elastic holds the box.
    pub rigid_body: Option<RigidBody>,
    /// Free surface in m2 of the outside, floor excepted.
    pub free_surface_m2: f64,
    /// Length in m of the edge of the outermost lid.
    pub lid_edge_m: f64,
    /// Air.
    pub air: Air,
}

/// Energy ratios to the bare source's power, at one frequency or by band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NetworkSpectra {
    /// Everything that the shells let out together, by phase.
    pub total: Spectrum,
    /// Through walls alone.
    pub walls: Spectrum,
    /// Through the edge of a lid on its way.
    pub leaks: Spectrum,
    /// Through holes on its way.
    pub holes: Spectrum,
    /// Through the vents.
    pub vents: Spectrum,
    /// By the shaking of the box as a rigid body.
    pub motion: Spectrum,
    /// Mean square pressure inside over that of sound power W at 1 m2: level inside is Lw and this in dB.
    pub inside: Spectrum,
    /// The same for the gap.
    pub gap: Spectrum,
    /// Mean square velocity of the inner panels in (m/s)2 per W of the source's power, the louder chamber's.
    pub wall_velocity: Spectrum,
}

/// Number of ratios.
const RATIOS: usize = 9;

impl Network {
    /// Highest first resonance in Hz of any panel.
    pub fn highest_first_hz(&self) -> f64 {
        let shells = [Some(&self.front.faces), self.rear.as_ref().map(|rear| &rear.faces), self.outer.as_ref().map(|o| &o.faces)];
        shells.into_iter().flatten().map(Faces::highest_first_hz).fold(0.0, f64::max)
    }

    /// Volume velocity that leaves the outermost walls and their openings, for 1 m3/s in front of the driver.
    pub fn volume_velocity(&self, hz: f64, openings: &OpeningsAt) -> Complex64 {
        let at = NetworkAt::new(self, hz, openings);
        at.leaving(&at.front)
    }

    /// Ratios at `hz`: total, walls, leaks, holes, vents, motion, inside, gap, wall velocity, as in [`NetworkSpectra`].
    pub fn at(&self, hz: f64, openings: &OpeningsAt) -> [f64; RATIOS] {
        self.ratios(hz, &NetworkAt::new(self, hz, openings))
    }

    fn ratios(&self, hz: f64, at: &NetworkAt) -> [f64; RATIOS] {
        let mut ratios = at.ratios(hz, &self.air);
        if let Some(body) = &self.rigid_body {
            let gap = self.outer.as_ref().zip(at.outer).map(|(shell, outer)| (shell.gap.volume_m3, outer.end_panel));
            ratios[5] = body.radiated(gap, 2.0 * PI * hz, &self.air);
        }
        ratios
    }

    /// Means over bands with soft edges, up to the band at `last_band`; the bands above are zero.
    ///
    /// `openings` says what the openings let through at a frequency.
    pub fn bands(&self, last_band: usize, fineness: Fineness, openings: impl Fn(f64) -> OpeningsAt) -> NetworkSpectra {
        let limit = last_band as f64 + 0.5;
        let shells = [Some(&self.front.faces), self.rear.as_ref().map(|rear| &rear.faces), self.outer.as_ref().map(|o| &o.faces)];
        let panels = shells.into_iter().flatten().flat_map(Faces::first_hz).map(band_position);
        let mut features: Vec<f64> = panels.filter(|position| (-0.5..limit).contains(position)).collect();
        let at = |position: f64| {
            let hz = band_position_hz(position);
            NetworkAt::new(self, hz, &openings(hz))
        };
        let steps = ((limit + 0.5) * SEARCH_STEPS as f64) as usize;
        let known: Vec<NetworkAt> = (0..=steps).map(|step| at(step as f64 / SEARCH_STEPS as f64 - 0.5)).collect();
        add_resonances(&known, at, &mut features);
        let natural = self.rigid_body.map(|body| band_position(body.natural_hz()));
        features.extend(natural.filter(|position| (-0.5..limit).contains(position)));
        features.sort_by(f64::total_cmp);
        let means = first_soft_band_means(last_band + 1, fineness.intervals, fineness.tolerance, &features, |position| {
            let hz = band_position_hz(position);
            // Whole steps of the search are computed once for both.
            let step = (position + 0.5) * SEARCH_STEPS as f64;
            let seen = (step.fract() == 0.0).then(|| known.get(step as usize)).flatten();
            let ratios = seen.map_or_else(|| self.ratios(hz, &at(position)), |at| self.ratios(hz, at));
            // Points are laid where anything that gets out has its peaks, the box that shakes as a whole included.
            let mut guided = [ratios[0] + ratios[5]; RATIOS + 1];
            guided[1..].copy_from_slice(&ratios);
            guided
        });
        let [_, total, walls, leaks, holes, vents, motion, inside, gap, wall_velocity] = means;
        NetworkSpectra { total, walls, leaks, holes, vents, motion, inside, gap, wall_velocity }
    }
}

/// Steps in a band in which resonances are looked for.
const SEARCH_STEPS: usize = 4;
/// Steps of the search for one of them.
const REFINEMENTS: usize = 6;

/// Adds the positions at which air, panels and openings together resonate: an open hole loses so little that its resonance with a
/// chamber's air would be missed between two points. `known` is the network at every step from the lowest edge on, `at` it is
/// elsewhere.
fn add_resonances(known: &[NetworkAt], at: impl Fn(f64) -> NetworkAt, positions: &mut Vec<f64>) {
    let place = |step: usize| step as f64 / SEARCH_STEPS as f64 - 0.5;
    for (step, pair) in known.windows(2).enumerate() {
        let [before, after] = [pair[0].balance(), pair[1].balance()];
        if before * after < 0.0 {
            let (mut low, mut high) = ((place(step), before), (place(step + 1), after));
            // The rule of false position, in which an end that stays counts half (Illinois).
            let mut middle = low.0;
            for _ in 0..REFINEMENTS {
                middle = (low.0 * high.1 - high.0 * low.1) / (high.1 - low.1);
                let value = at(middle).balance();
                if value * high.1 < 0.0 {
                    (low, high) = (high, (middle, value));
                } else {
                    (low.1, high) = (0.5 * low.1, (middle, value));
                }
            }
            positions.push(middle);
        }
    }
}
