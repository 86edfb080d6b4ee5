//! Force that a mass on elastic supports passes to what they rest on, over the force on the mass.
//!
//! The mass is rigid, which ends at high frequency, where the walls of a box move on their own; the force of that is added
//! for a suspension and left out for feet.

use std::f64::consts::PI;

use super::support::Support;
use crate::bands::{band_position_hz, exact_mid_hz};
use crate::math::{Complex64, atan, exp, sqrt, tan};

/// Transmissibility |K/(K - w^2 M)| at `hz` of `mass_kg` on a hysteretic `stiffness` K (1 + j eta) in N/m.
///
/// Textbook relation (for instance Harris & Piersol 2002, Harris' Shock and Vibration Handbook, 5th ed., ch. 30).
pub fn hysteretic(stiffness: Complex64, mass_kg: f64, hz: f64) -> f64 {
    let omega = 2.0 * PI * hz;
    (stiffness / (stiffness - mass_kg * omega * omega)).norm_sqr().sqrt()
}

/// Transmissibility of a mass on a spring and a viscous damper, at a frequency `ratio` times the natural one.
///
/// sqrt((1 + (2 z r)^2)/((1 - r^2)^2 + (2 z r)^2)) with z the part of critical damping (textbook relation).
pub fn viscous(ratio: f64, damping_ratio: f64) -> f64 {
    let damping = (2.0 * damping_ratio * ratio).powi(2);
    let spring = 1.0 - ratio * ratio;
    ((1.0 + damping) / (spring * spring + damping)).sqrt()
}

/// Squares of the angular frequencies in 1/s2 at the edges of a band.
pub(super) fn band_edges(band: usize) -> [f64; 2] {
    [-0.5, 0.5].map(|half| {
        let omega = 2.0 * PI * band_position_hz(band as f64 + half);
        omega * omega
    })
}

/// Mean of 1/((v - centre)^2 + half_width^2) over v between the `edges` of a band, v the square of the angular frequency.
///
/// The closed form misses no resonance however narrow. Even weight in v makes the mean of a slope v^-2, that of a mass on
/// springs far above its resonance, just its value in the middle of the band. Precondition: `half_width` positive.
pub(super) fn resonance_mean(centre: f64, half_width: f64, [low, high]: [f64; 2]) -> f64 {
    let width = half_width * (high - low);
    // The difference of two arcs as one, so that far tails do not cancel.
    let rest = half_width * half_width + (low - centre) * (high - centre);
    let angle = if rest > 0.0 { atan(width / rest) } else { 0.5 * PI + atan(-rest / width) };
    angle / width
}

/// Square of the transmissibility, as mean over a band, of `mass_kg` on `support` and a base of `base_mobility`.
///
/// Standing waves in the supports raise it, see [`standing_waves`].
pub fn transmission(support: &Support, mass_kg: f64, base_mobility: f64, band: usize) -> f64 {
    without_waves(support, mass_kg, base_mobility, band) * standing_waves(support, mass_kg, band)
}

/// The same for supports without mass of their own.
///
/// A base that yields under each of the n supports with the real mobility Y in m/(N s) adds w M Y/n to the loss factor of
/// the mass on its supports: |1/(1 - w^2 M/K + j w M Y/n)|. With rigid supports only that is left, and with a base that
/// holds still as well the force passes whole.
pub fn without_waves(support: &Support, mass_kg: f64, base_mobility: f64, band: usize) -> f64 {
    let yielding = 2.0 * PI * exact_mid_hz(band) * mass_kg * base_mobility / support.count as f64;
    let Some(stiffness) = support.stiffness() else { return 1.0 / (1.0 + yielding * yielding) };
    let natural = stiffness.re / mass_kg;
    let loss = stiffness.im / stiffness.re;
    (1.0 + loss * loss) * natural * natural * resonance_mean(natural, (loss + yielding) * natural, band_edges(band))
}

/// Largest part of the load that the mass of a support comes near: one that weighs more is no spring for this box.
const HEAVIEST_SPRING: f64 = 0.2;

/// How much the mass of the supports themselves raises the square of the force at a base that holds still, mean over a
/// band; `mass_kg` is the load of all.
///
/// A uniform rod, or a coil spring, between a mass M that is large against its own m passes |g/sin g|^2 times what a
/// spring without mass does, g = w sqrt(m/K) (Snowdon 1968, Vibration and Shock in Damped Mechanical Systems; the long-rod
/// mount, from memory). It is 1 at low frequency and has its first peak at sqrt(K/m)/2. As
/// 1/|sin(x - jy)|^2 = 2/(cosh 2y - cos 2x) has the integral 2 atan(coth y tan x)/sinh 2y, the mean over a band is
/// closed. The loss y is taken at the middle of the band.
pub fn standing_waves(support: &Support, mass_kg: f64, band: usize) -> f64 {
    let Some(spring) = support.spring else { return 1.0 };
    let stiffness = spring.dynamic_stiffness();
    let heaviest = HEAVIEST_SPRING * mass_kg / support.count as f64;
    let own_kg = spring.mass_kg * heaviest / (spring.mass_kg + heaviest);
    // Travel time of a wave through the support, in rad per Hz; its imaginary part is negative.
    let delay = 2.0 * PI * sqrt(own_kg / stiffness);
    let middle = delay * exact_mid_hz(band);
    if middle.re < SHORT {
        return 1.0;
    }
    let [low, high] = [-0.5, 0.5].map(|half| delay.re * band_position_hz(band as f64 + half));
    // 2 y, and the hyperbolic functions of it and of y.
    let up = exp((-2.0 * middle.im).min(LONGEST));
    let coth = (up + 1.0) / (up - 1.0);
    let arcs = arc(coth, high) - arc(coth, low);
    4.0 * middle.norm_sqr() * arcs / ((up - 1.0 / up) * (high - low))
}

/// Largest exponent of a wave's decay through a support and back: 2600 dB, beyond which nothing is left to tell.
const LONGEST: f64 = 600.0;

/// Phase in rad below which a support is a spring and nothing else (an error of 1e-6).
const SHORT: f64 = 1e-3;

/// atan(factor tan x), continued beyond pi/2 so that it rises with x for ever.
fn arc(factor: f64, x: f64) -> f64 {
    let turns = (x / PI).round();
    turns * PI + atan(factor * tan(x - turns * PI))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bands::BAND_COUNT;
    use crate::enclosure::{Spring, SupportKind};
    use crate::math::{complex, cos_sin};

    fn support(loss_factor: f64, mass_kg: f64) -> Support {
        let spring = Spring { loss_factor, mass_kg, ..Spring::steel(14_000.0, 60.0, 0.05) };
        Support { kind: SupportKind::Springs, count: 4, spring: Some(spring) }
    }

    /// Mean by many points over the square of the angular frequency.
    fn sampled(band: usize, f: impl Fn(f64) -> f64) -> f64 {
        let [low, high] = band_edges(band);
        let count = 40_000;
        let point = |step: u32| low + (high - low) * (f64::from(step) + 0.5) / f64::from(count);
        (0..count).map(|step| f(point(step).sqrt())).sum::<f64>() / f64::from(count)
    }

    #[test]
    fn band_means_are_those_of_many_points() {
        for (loss_factor, mass_kg) in [(0.01, 400.0), (0.1, 400.0), (0.1, 0.03), (0.5, 1.0)] {
            let support = support(loss_factor, 0.0);
            let stiffness = support.stiffness().expect("elastic");
            for band in (0..BAND_COUNT).step_by(2) {
                let want = sampled(band, |omega| hysteretic(stiffness, mass_kg, omega / (2.0 * PI)).powi(2));
                let got = transmission(&support, mass_kg, 0.0, band);
                assert!((got / want - 1.0).abs() < 1e-3, "band {band}: {got} against {want}");
            }
        }
    }

    #[test]
    fn standing_waves_are_those_of_a_rod_on_a_heavy_mass() {
        // The exact long-rod mount T = 1/|cos g - (M/m) g sin g|, far above its natural frequency.
        let (mass_kg, own_kg) = (4.0 * 1000.0, 0.05);
        for loss_factor in [0.01, 0.1, 0.2] {
            let support = support(loss_factor, own_kg);
            let stiffness = support.spring.expect("elastic").dynamic_stiffness();
            for band in 4..BAND_COUNT {
                let want = sampled(band, |omega| {
                    // Loss keeps the sign under exp(+jwt): the wavenumber decays, g = w sqrt(m/K(1 + j eta)).
                    let phase = sqrt(complex(own_kg * omega * omega, 0.0) / stiffness);
                    let (cosine, sine) = cos_sin(phase);
                    1.0 / (cosine - phase * sine * (mass_kg / 4.0 / own_kg)).norm_sqr()
                });
                let error_db = 10.0 * (transmission(&support, mass_kg, 0.0, band) / want).log10();
                // One loss stands for the whole band: 5 % of what the waves lose on their way there and back.
                let decay = loss_factor * 2.0 * PI * exact_mid_hz(band) * (own_kg / stiffness.re).sqrt();
                let allowed_db = 1.0 + 0.05 * 4.34 * decay;
                assert!(error_db.abs() < allowed_db, "loss {loss_factor}, band {band}: {error_db} dB");
            }
        }
    }
}
