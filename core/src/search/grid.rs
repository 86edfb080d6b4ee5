//! The frequencies of the coarse network: the same in every band and for every box.

use crate::bands::{Spectrum, band_position_hz};
use crate::enclosure::network::Response;
use crate::math::Complex64;
use crate::transmission::band_mean::soft_share;

/// Frequencies in a band, an even number: a panel with the loss of joints and wood, 0.04, rings over 0.09 bands either way, and
/// over half of that where half of its stiffness is a gap's air, which loses nothing.
const USUAL_FREQUENCIES: usize = 16;
/// The same where sheets of metal or glass lose little, or vents let the chamber ring.
const RINGING_FREQUENCIES: usize = 32;
/// The same where holes are open, which lose next to nothing.
const OPEN_FREQUENCIES: usize = 64;

/// How long something in the network may ring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ringing {
    /// As panels of wood do.
    Usual,
    /// As panels of metal and vents do.
    Long,
    /// As open holes do.
    Longest,
}

/// Frequencies evenly spaced over the bands of the network.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    /// Frequencies in Hz, rising.
    pub(super) hz: Vec<f64>,
    /// Part of a frequency's share that belongs to the band in which it lies, for each frequency of a band.
    own: Vec<f64>,
}

impl Grid {
    /// The grid of the bands up to `last_band`; empty where the network reaches none.
    pub(super) fn new(last_band: Option<usize>, ringing: Ringing) -> Self {
        let per_band = match ringing {
            Ringing::Usual => USUAL_FREQUENCIES,
            Ringing::Long => RINGING_FREQUENCIES,
            Ringing::Longest => OPEN_FREQUENCIES,
        };
        let count = last_band.map_or(0, |last| (last + 1) * per_band);
        let step = 1.0 / per_band as f64;
        let offset = |index: usize| (index as f64 + 0.5) * step - 0.5;
        let hz = (0..count).map(|index| band_position_hz(offset(index))).collect();
        Self { hz, own: (0..per_band).map(|k| soft_share(offset(k))).collect() }
    }

    /// How many of its bands there are.
    pub(super) fn bands(&self) -> usize {
        self.hz.len() / self.own.len()
    }

    /// How many frequencies lie in the bands up to `last_band`.
    pub(super) fn count(&self, last_band: usize) -> usize {
        ((last_band + 1) * self.own.len()).min(self.hz.len())
    }

    /// Means over bands with soft edges, as [`crate::transmission::band_mean::first_soft_band_means`] has them, of `values` at the
    /// frequencies of the bands up to `last_band`; the bands above are zero.
    pub(super) fn band_means(&self, last_band: usize, values: &[f64]) -> Spectrum {
        let mut means = Spectrum::constant(0.0);
        for (band, values) in values.chunks_exact(self.own.len()).enumerate().take(last_band + 1) {
            let (mut lower, mut own, mut upper) = (0.0, 0.0, 0.0);
            let half = self.own.len() / 2;
            for (value, share) in values[..half].iter().zip(&self.own) {
                own += share * value;
                lower += value - share * value;
            }
            for (value, share) in values[half..].iter().zip(&self.own[half..]) {
                own += share * value;
                upper += value - share * value;
            }
            means[band] += own;
            means[band.saturating_sub(1)] += lower;
            means[(band + 1).min(last_band)] += upper;
        }
        means.map(|sum| sum / self.own.len() as f64)
    }

    /// Admittance at a position on the scale of band indices: straight lines between the frequencies, the ends held.
    pub(super) fn between(&self, values: &[Response], position: f64) -> Complex64 {
        let last = values.len() - 1;
        let place = ((position + 0.5) * self.own.len() as f64 - 0.5).clamp(0.0, last as f64);
        let below = (place as usize).min(last.saturating_sub(1));
        let share = place - below as f64;
        values[below].admittance * (1.0 - share) + values[(below + 1).min(last)].admittance * share
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bands::band_position;
    use crate::transmission::band_mean::{SOFT_INTERVALS, first_soft_band_means};

    /// A resonance as narrow as panels have them, anywhere, against adaptive sums.
    #[test]
    fn fixed_frequencies_give_the_means_that_adaptive_ones_give() {
        let last = 5;
        let grid = Grid::new(Some(last), Ringing::Usual);
        for step in 0..20 {
            let centre = 0.7 + 0.23 * f64::from(step);
            let curve = |position: f64| 1e-3 + 1.0 / (1.0 + ((position - centre) / 0.05).powi(2));
            let values: Vec<f64> = grid.hz.iter().map(|&hz| curve(band_position(hz))).collect();
            let means = grid.band_means(last, &values);
            let [want] = first_soft_band_means(last + 1, SOFT_INTERVALS, 1e-4, &[centre], |position| [curve(position)]);
            let total: f64 = want.iter().sum();
            for band in 0..=last {
                assert!((means[band] - want[band]).abs() < 0.02 * want[band] + 0.003 * total, "{centre}, band {band}");
            }
        }
    }
}
