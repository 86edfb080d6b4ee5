//! The whole transmission of a stack of panels of finite size: forced waves and what resonance adds.

use super::compliance::ComplianceTable;
use super::diffuse::{Accuracy, Forced, Incidence, LEAST_TRANSMISSION, Setting, StackAt, compliance_tables, forced_tabulated};
use super::resonant::resonant_transmission;
use crate::air::Air;
use crate::bands::{Spectrum, exact_mid_hz};
use crate::buildup::{EdgeLoss, Element, Laminate, Stack};
use crate::math::to_db;

/// What a stack is mounted in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mount {
    /// Length and height of the panels in m.
    pub size_m: [f64; 2],
    /// What panels lose at their edges.
    pub edge_loss: EdgeLoss,
}

impl Mount {
    /// Twice area over perimeter in m: the size that the finite-size window takes.
    pub fn half_width_m(&self) -> f64 {
        let [l1, l2] = self.size_m;
        l1 * l2 / (l1 + l2)
    }
}

/// Energy ratios of a stack by band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StackSpectra {
    /// Transmission coefficient for diffuse incidence.
    pub transmission: Spectrum,
    /// Mean square pressure in the first gap over that of the diffuse field in front; zero without a gap.
    pub gap_gain: Spectrum,
    /// Transmission coefficients of the first and of the last leaf, were each alone; in a stack of several at mid-band.
    pub leaves: [Spectrum; 2],
}

/// Transmission and gap gain of `stack` for diffuse incidence.
///
/// A single leaf passes on the sum of forced and resonant waves (ISO 12354-1, Annex B). In a stack every leaf's ratio of
/// that sum to its forced part alone multiplies the forced transmission of the whole: the fields in the gaps are taken as
/// fed by both alike (assumed).
pub fn stack_spectra(stack: &Stack, mount: &Mount, air: &Air, accuracy: &Accuracy) -> StackSpectra {
    let setting = Setting {
        half_width_m: Some(mount.half_width_m()),
        edge_loss: mount.edge_loss,
        incidence: Incidence::DIFFUSE,
        air: *air,
    };
    let tables = compliance_tables(stack, &setting);
    let Forced { mut transmission, mut gap_gain } = forced_tabulated(stack, &setting, accuracy, tables.clone());
    let mut leaves = [transmission; 2];
    if let [Element::Panel(laminate)] = &stack.elements[..] {
        for (band, total) in transmission.0.iter_mut().enumerate() {
            *total += resonant_transmission(laminate, mount.size_m, mount.edge_loss, exact_mid_hz(band), air);
        }
        leaves = [transmission; 2];
    } else {
        for (position, (laminate, table)) in stack.panels().zip(tables).enumerate() {
            let (gain, leaf) = alone(laminate, table, mount, &setting, accuracy);
            transmission = transmission.zip(&gain, |forced, gain| forced * gain);
            if position == 0 {
                gap_gain = gap_gain.zip(&gain, |forced, gain| forced * gain);
                leaves[0] = leaf;
            }
            leaves[1] = leaf;
        }
    }
    let at_most_all = |spectrum: Spectrum| spectrum.map(|transmission| transmission.min(1.0));
    StackSpectra { transmission: at_most_all(transmission), gap_gain, leaves: leaves.map(at_most_all) }
}

/// One leaf by itself at mid-band: forced and resonant transmission over the forced one, and their sum.
pub(crate) fn alone(
    laminate: &Laminate,
    table: ComplianceTable,
    mount: &Mount,
    setting: &Setting,
    accuracy: &Accuracy,
) -> (Spectrum, Spectrum) {
    let leaf = Stack { elements: vec![Element::Panel(laminate.clone())] };
    let mut at = StackAt::tabulated(&leaf, setting, vec![table]);
    let mut total = Spectrum::constant(0.0);
    let gain = Spectrum::from_fn(|band| {
        let hz = exact_mid_hz(band);
        let resonant = resonant_transmission(laminate, mount.size_m, mount.edge_loss, hz, &setting.air);
        at.set(hz);
        let [forced, _] = at.energy(accuracy);
        total[band] = forced + resonant;
        1.0 + resonant / forced.max(LEAST_TRANSMISSION)
    });
    (gain, total)
}

/// Sound reduction index R in dB of `stack` by band, for diffuse incidence.
pub fn sound_reduction_db(stack: &Stack, mount: &Mount, air: &Air) -> Spectrum {
    stack_spectra(stack, mount, air, &Accuracy::default()).transmission.map(|transmission| -to_db(transmission))
}
