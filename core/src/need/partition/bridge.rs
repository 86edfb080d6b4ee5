//! Studs and joists: rigid lines that carry one leaf's motion to the other.

use std::f64::consts::PI;

use crate::air::Air;
use crate::bands::{Spectrum, exact_mid_hz};
use crate::buildup::Laminate;
use crate::transmission::Mount;
use crate::transmission::bending::{bending_stiffness, free_wavenumber};
use crate::transmission::resonant::free_wave_efficiency;

/// Transmission coefficient by band of rigid lines `spacing_m` apart between two leaves, for a diffuse field.
///
/// A diffuse field of mean square pressure p^2 brings p^2/(4 rho c) to a square metre and moves the first leaf with v1^2 =
/// 2 p^2/(w m1)^2. At a line both leaves move alike: v = v1 Z1/(Z1 + Z2), with Z the line impedance of a plate, 2 m cB (1 + j)
/// with cB the speed of its bending waves. A plate driven along a line radiates (2/pi) rho c (c/fc) v^2 from a metre of it below
/// its critical frequency fc (Heckl 1959; both for instance Cremer, Heckl & Petersson 2005, Structure-Borne Sound, ch. 6, from
/// memory). Together
///
/// tau = 16 rho^2 c^3/(pi b w^2 (m1 sqrt(fc2) + m2 sqrt(fc1))^2) g1 g2,
///
/// the same both ways. With g = 1 it is the relation of Sharp (1978, Noise Control Eng. 11, 53, from memory), whose constant is
/// 2 dB lower.
///
/// g >= 1 is what free bending waves add: those that the line sends out radiate as well, W = v^2 2 m cB (rho c sigma/(w m))/eta
/// of the power they carry, so g = 1 + sqrt(fc/f) sigma/(2 eta); by reciprocity the same factor counts for the first leaf. eta
/// is the loss factor of material, edges, radiation to both sides, and of the lines themselves, which let Z1 Z2/(Z1 + Z2)^2 of
/// the power of a wave pass to the other leaf: that over pi times the distance in half wavelengths (assumed: normal incidence).
pub fn transmission(leaves: [&Laminate; 2], spacing_m: f64, mount: &Mount, air: &Air) -> Spectrum {
    Spectrum::from_fn(|band| {
        let hz = exact_mid_hz(band);
        let omega = 2.0 * PI * hz;
        let leaves = leaves.map(|leaf| LeafAt::new(leaf, hz, air));
        // Line impedances over 2 (1 + j).
        let [z1, z2] = leaves.each_ref().map(|leaf| leaf.mass * leaf.bending_speed);
        let passed = z1 * z2 / ((z1 + z2) * (z1 + z2));
        let radiated = |leaf: &LeafAt| {
            let sigma = free_wave_efficiency(mount.size_m, leaf.critical_hz, hz, air);
            let loss = leaf.loss_factor
                + mount.edge_loss.loss_factor(hz, leaf.mass)
                + 2.0 * air.impedance() * sigma / (omega * leaf.mass)
                + passed * 2.0 * leaf.bending_speed / (PI * omega * spacing_m);
            let free_waves = 0.5 * (leaf.critical_hz / hz).sqrt() * sigma / loss;
            // Radiated power per metre over that of the drive, (2/pi) rho c (c/fc), and over Z^2.
            (1.0 + free_waves) / leaf.critical_hz
        };
        let [first, second] = &leaves;
        let ratio = z1 / ((z1 + z2) * first.mass);
        let _ = (ratio, second);
        let opposing = omega * (first.mass * second.critical_hz.sqrt() + second.mass * first.critical_hz.sqrt());
        let impedance = air.impedance();
        let g = radiated(first) * first.critical_hz * radiated(second) * second.critical_hz;
        16.0 * impedance * impedance * air.speed / (PI * spacing_m * opposing * opposing) * g
    })
}

/// A leaf at one frequency.
struct LeafAt {
    /// Mass per area in kg/m2.
    mass: f64,
    /// Loss factor of material and bonds.
    loss_factor: f64,
    /// Speed of free bending waves in m/s.
    bending_speed: f64,
    /// Critical frequency in Hz, that of the wave at this frequency.
    critical_hz: f64,
}

impl LeafAt {
    fn new(leaf: &Laminate, hz: f64, air: &Air) -> Self {
        let wavenumber = free_wavenumber(leaf, hz);
        let stiffness = bending_stiffness(leaf, wavenumber, hz);
        let mass = leaf.surface_mass();
        Self {
            mass,
            loss_factor: stiffness.im / stiffness.re,
            bending_speed: 2.0 * PI * hz / wavenumber,
            critical_hz: air.speed * air.speed / (2.0 * PI) * (mass / stiffness.re).sqrt(),
        }
    }
}
