//! Where the network of low frequencies hands over to the energy balance.

use crate::bands::{Spectrum, exact_mid_hz};
use crate::math::{exp, ln};

/// Where one model ends and the other begins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Join {
    /// Up to here in Hz the network alone counts; an octave above, the energy balance alone.
    pub network_below_hz: f64,
}

impl Join {
    /// The network holds up to the first mode of the chamber or 1.5 times the first resonance of its panels, whichever is
    /// higher, but at most an octave above the former.
    ///
    /// `panels_hz` is, of the highest first resonances of either shell, the lower one: above it that shell is moved by its
    /// mass, and then the modes of the chamber count as soon as there are any (against a coupled modal model the network was
    /// 3 to 11 dB too good between 1.2 and 1.8 times the chamber's first mode for panels above their resonance, 0 to 5 dB for
    /// panels below or near it).
    pub fn new(chamber_mode_hz: f64, panels_hz: f64) -> Self {
        Self { network_below_hz: chamber_mode_hz.max(1.5 * panels_hz).min(2.0 * chamber_mode_hz) }
    }

    /// Last band that the network is asked for, if any.
    pub fn last_network_band(self) -> Option<usize> {
        (0..crate::bands::BAND_COUNT).rev().find(|&band| self.octaves_above(band) < 1.0)
    }

    /// How many octaves every band lies above where the network holds.
    pub(crate) fn octaves(self) -> Spectrum {
        Spectrum::from_fn(|band| self.octaves_above(band))
    }

    /// Whether the energy balance has any weight in a band.
    pub(crate) fn counts_energy(self, band: usize) -> bool {
        3.0 * self.octaves_above(band) + 1.0 > 0.0
    }

    fn octaves_above(self, band: usize) -> f64 {
        ln(exact_mid_hz(band) / self.network_below_hz) / std::f64::consts::LN_2
    }

    /// Weight of the network's result in dB by band, from what either model lets out in all.
    ///
    /// In the octave between, the larger of the two counts (as a weight by the square of either, so that nothing jumps where
    /// they cross). The third of an octave before fades from the network to that, the last third of it from that to the
    /// energy balance.
    pub fn weights(self, network: &Spectrum, energy: &Spectrum) -> Spectrum {
        weights_at(&self.octaves(), network, energy)
    }
}

/// As [`Join::weights`], with the [`Join::octaves`] of every band.
pub(crate) fn weights_at(octaves: &Spectrum, network: &Spectrum, energy: &Spectrum) -> Spectrum {
    Spectrum::from_fn(|band| {
        let octaves = octaves[band];
        let (low, high) = (network[band], energy[band]);
        let larger = if low + high > 0.0 { low * low / (low * low + high * high) } else { 0.5 };
        let fade_out = (3.0 * octaves + 1.0).clamp(0.0, 1.0);
        let fade_in = (3.0 * octaves - 2.0).clamp(0.0, 1.0);
        (1.0 - fade_out) + (fade_out - fade_in) * larger
    })
}

/// Two ratios mixed in dB; nothing mixed with anything is the part of the other that its weight leaves.
pub fn mix(weights: &Spectrum, network: &Spectrum, energy: &Spectrum) -> Spectrum {
    Spectrum::from_fn(|band| {
        let (weight, low, high) = (weights[band], network[band], energy[band]);
        if weight >= 1.0 {
            low
        } else if weight <= 0.0 {
            high
        } else if low > 0.0 && high > 0.0 {
            exp(weight * ln(low) + (1.0 - weight) * ln(high))
        } else {
            weight * low + (1.0 - weight) * high
        }
    })
}
