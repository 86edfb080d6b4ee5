//! The frequencies of the coarse network: the same in every band and for every box.

use crate::bands::{Spectrum, band_position_hz};
use crate::enclosure::network::Response;
use crate::math::Complex64;
use crate::transmission::band_mean::soft_share;

/// Frequencies in a band, an even number: resonances of panels with the loss of joints alone are 0.04 bands wide either way.
pub(super) const PER_BAND: usize = 16;

/// Frequencies evenly spaced over the bands of the network.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    /// Frequencies in Hz, rising.
    pub(super) hz: Vec<f64>,
    /// Part of a frequency's share that belongs to the band in which it lies.
    own: [f64; PER_BAND],
}

impl Grid {
    /// The grid of the bands up to `last_band`; empty where the network reaches none.
    pub(super) fn new(last_band: Option<usize>) -> Self {
        let count = last_band.map_or(0, |last| (last + 1) * PER_BAND);
        let step = 1.0 / PER_BAND as f64;
        let offset = |index: usize| (index as f64 + 0.5) * step - 0.5;
        Self {
            hz: (0..count).map(|index| band_position_hz(offset(index))).collect(),
            own: std::array::from_fn(|k| soft_share(offset(k))),
        }
    }

    /// How many frequencies lie in the bands up to `last_band`.
    pub(super) fn count(&self, last_band: usize) -> usize {
        ((last_band + 1) * PER_BAND).min(self.hz.len())
    }

    /// Means over bands with soft edges, as [`crate::transmission::band_mean::first_soft_band_means`] has them, of `values` at the
    /// frequencies of the bands up to `last_band`; the bands above are zero.
    pub(super) fn band_means(&self, last_band: usize, values: &[f64]) -> Spectrum {
        let mut means = Spectrum::constant(0.0);
        for (band, values) in values.chunks_exact(PER_BAND).enumerate().take(last_band + 1) {
            let (mut lower, mut own, mut upper) = (0.0, 0.0, 0.0);
            for (k, value) in values.iter().enumerate() {
                let part = self.own[k] * value;
                own += part;
                if k < PER_BAND / 2 {
                    lower += value - part;
                } else {
                    upper += value - part;
                }
            }
            means[band] += own;
            means[band.saturating_sub(1)] += lower;
            means[(band + 1).min(last_band)] += upper;
        }
        means.map(|sum| sum * (1.0 / PER_BAND as f64))
    }

    /// Admittance at a position on the scale of band indices: straight lines between the frequencies, the ends held.
    pub(super) fn between(values: &[Response], position: f64) -> Complex64 {
        let last = values.len() - 1;
        let place = ((position + 0.5) * PER_BAND as f64 - 0.5).clamp(0.0, last as f64);
        let below = (place as usize).min(last.saturating_sub(1));
        let share = place - below as f64;
        values[below].admittance * (1.0 - share) + values[(below + 1).min(last)].admittance * share
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bands::band_position;
    use crate::transmission::band_mean::first_soft_band_means;

    /// A resonance as narrow as panels have them, anywhere, against adaptive sums.
    #[test]
    fn fixed_frequencies_give_the_means_that_adaptive_ones_give() {
        let last = 5;
        let grid = Grid::new(Some(last));
        for step in 0..20 {
            let centre = 0.7 + 0.23 * f64::from(step);
            let curve = |position: f64| 1e-3 + 1.0 / (1.0 + ((position - centre) / 0.1).powi(2));
            let values: Vec<f64> = grid.hz.iter().map(|&hz| curve(band_position(hz))).collect();
            let means = grid.band_means(last, &values);
            let [want] = first_soft_band_means(last + 1, 1e-4, &[centre], |position| [curve(position)]);
            let total: f64 = want.iter().sum();
            for band in 0..=last {
                assert!((means[band] - want[band]).abs() < 0.02 * want[band] + 0.003 * total, "{centre}, band {band}");
            }
        }
    }
}
