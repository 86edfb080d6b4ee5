//! Level of loudspeakers from what is printed on them and what the amplifier gives.

use std::f64::consts::PI;

use crate::air::Air;
use crate::bands::{Spectrum, exact_mid_hz};
use crate::math::{from_db, sin_cos, to_db};

/// Distance between the middles of neighbouring drivers over their nominal diameter; assumed.
const SPACING: f64 = 1.1;
/// Peak over rms of a sine, in dB.
pub const SINE_CREST_DB: f64 = 3.010_299_956_639_812;

/// Equal drivers beside each other that play the same.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loudspeaker {
    /// How many.
    pub count: usize,
    /// Nominal diameter in m of one.
    pub diameter_m: f64,
    /// Sensitivity in dB of one: level at 1 m in half space for 1 W.
    pub sensitivity_db: f64,
    /// Electrical power in W that all of them take up together, as a mean.
    pub power_w: f64,
    /// Crest factor of the signal in dB: peak over rms.
    pub crest_db: f64,
}

impl Loudspeaker {
    /// Levels in dB by band at 1 m over a floor, for a signal whose spectrum through one driver has the shape `shape_db`.
    ///
    /// One driver at its share of the power: the energy sum of all bands is its sensitivity + 10 lg P (IEC 60268-5, the
    /// meaning of sensitivity). n of them next to each other: n sources of the same phase at a distance d radiate
    /// n + 2 sum sin(kd)/(kd) over all pairs times the power of one (two monopoles: Fahy, Foundations of Engineering Acoustics,
    /// ch. 6, from memory; pairs beyond half a wavelength are left out, where drivers are no monopoles any more), so that at
    /// low frequencies twice as many at the same power are 3 dB louder, and at high ones as loud.
    pub fn levels_db(&self, shape_db: &Spectrum, air: &Air) -> Spectrum {
        let offset = self.sensitivity_db + to_db(self.power_w) - shape_db.energy_sum();
        Spectrum::from_fn(|band| shape_db[band] + offset + self.coupling_db(exact_mid_hz(band), air))
    }

    /// How many dB the drivers gain at `hz` by helping each other.
    fn coupling_db(&self, hz: f64, air: &Air) -> f64 {
        let spacing = 2.0 * PI * hz / air.speed * SPACING * self.diameter_m;
        // The pairs in columns of two, as cabinets have them.
        let pairs = (0..self.count).flat_map(|a| (0..a).map(move |b| (a / 2 - b / 2, (a % 2).abs_diff(b % 2))));
        let together = pairs.map(|(rows, columns)| {
            let kd = spacing * ((rows * rows + columns * columns) as f64).sqrt();
            if kd < PI { sin_cos(kd).0 / kd } else { 0.0 }
        });
        to_db(1.0 + 2.0 / self.count as f64 * together.sum::<f64>())
    }

    /// How far in dB the loudest moments may lie above the mean: those in which the signal is a sine up to its peak.
    pub fn max_above_db(&self) -> f64 {
        (self.crest_db - SINE_CREST_DB).max(0.0)
    }
}

/// Power in W of the amplifier, rated with a sine, that gives the peaks of a signal of mean power `power_w` and crest factor
/// `crest_db` without clipping.
pub fn amplifier_w(power_w: f64, crest_db: f64) -> f64 {
    power_w * from_db(crest_db - SINE_CREST_DB)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::need::SourceSpectrum;

    fn speaker(count: usize, sensitivity_db: f64, power_w: f64) -> Loudspeaker {
        Loudspeaker { count, diameter_m: 0.305, sensitivity_db, power_w, crest_db: SINE_CREST_DB }
    }

    fn level_db(speaker: &Loudspeaker, shape: SourceSpectrum) -> f64 {
        speaker.levels_db(&shape.shape_db(), &Air::default()).energy_sum()
    }

    /// 50 W into 89 dB make 105.99 dB, 10 W into 100 dB make 110 (common practice, no source).
    #[test]
    fn level_is_sensitivity_and_power() {
        for (sensitivity, power, level) in [(89.0, 50.0, 105.99), (100.0, 10.0, 110.0), (97.0, 1.0, 97.0)] {
            assert!((level_db(&speaker(1, sensitivity, power), SourceSpectrum::PinkNoise) - level).abs() < 0.005);
        }
    }

    /// Twice the cone at the same power: 3 dB more where the wave is long, none where it is short.
    #[test]
    fn drivers_help_each_other_at_low_frequencies_only() {
        let air = Air::default();
        let shape = SourceSpectrum::PinkNoise.shape_db();
        let (one, two) = (speaker(1, 97.0, 60.0).levels_db(&shape, &air), speaker(2, 97.0, 60.0).levels_db(&shape, &air));
        let gain = two.zip(&one, |two, one| two - one);
        assert!((gain[0] - 3.0).abs() < 0.05, "{}", gain[0]);
        assert!(gain.0.windows(2).all(|pair| pair[1] <= pair[0] + 1e-12) && gain[26] == 0.0);
        // Two monopoles 0.3355 m apart at 199.5 Hz: kd = 1.226, 10 lg(1 + sin(kd)/kd).
        assert!((gain[9] - 2.473).abs() < 0.005, "{}", gain[9]);
        let four = speaker(4, 97.0, 60.0).levels_db(&shape, &air);
        assert!((four[0] - one[0] - 6.0).abs() < 0.1);
        // Four in a square at 199.5 Hz: four pairs at kd = 1.226, two at the diagonal.
        let sinc = |kd: f64| kd.sin() / kd;
        let pairs = 4.0 * sinc(1.2257) + 2.0 * sinc(1.2257 * 2.0_f64.sqrt());
        assert!((four[9] - one[9] - 10.0 * (1.0 + 0.5 * pairs).log10()).abs() < 0.005, "{}", four[9] - one[9]);
        let eight = speaker(8, 97.0, 60.0).levels_db(&shape, &air);
        assert!(eight[0] - one[0] > 8.5 && eight[9] - one[9] < 6.5, "{} {}", eight[0] - one[0], eight[9] - one[9]);
    }

    #[test]
    fn peaks_need_a_larger_amplifier() {
        let noise = Loudspeaker { crest_db: 6.0 + SINE_CREST_DB, ..speaker(1, 97.0, 60.0) };
        assert!(
            (amplifier_w(noise.power_w, noise.crest_db) - 60.0 * 3.981).abs() < 0.1 && (noise.max_above_db() - 6.0).abs() < 1e-12
        );
        assert_eq!(Loudspeaker { crest_db: 0.0, ..noise }.max_above_db(), 0.0);
    }
}
