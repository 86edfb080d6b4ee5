//! Force that a mass on elastic supports passes to what they rest on, over the force on the mass.
//!
//! The mass is rigid and so is the base; both are limits at high frequency, where the walls of a box move on their own
//! (their force is added in [`super::structure`]).

use std::f64::consts::PI;

use super::support::Support;
use crate::bands::{Spectrum, band_position_hz, exact_mid_hz};
use crate::math::{Complex64, atan, exp, tan};

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

/// Square of the transmissibility by band, as mean over the band, of `mass_kg` on `support`; 1 where that is rigid.
///
/// Standing waves in the supports raise it, see [`standing_waves`].
pub fn transmission(support: &Support, mass_kg: f64) -> Spectrum {
    without_waves(support, mass_kg).zip(&standing_waves(support, mass_kg), |squared, waves| squared * waves)
}

/// The same for supports without mass of their own.
pub fn without_waves(support: &Support, mass_kg: f64) -> Spectrum {
    let Some(stiffness) = support.stiffness() else { return Spectrum::constant(1.0) };
    let natural = stiffness.re / mass_kg;
    let loss = stiffness.im / stiffness.re;
    let peak = (1.0 + loss * loss) * natural * natural;
    Spectrum::from_fn(|band| peak * resonance_mean(natural, loss * natural, band_edges(band)))
}

/// Largest part of the load that the mass of a support comes near: one that weighs more is no spring for this box.
const HEAVIEST_SPRING: f64 = 0.2;

/// How much the mass of the supports themselves raises the square of the force at a base that holds still, by band.
///
/// A uniform rod, or a coil spring, between a mass M that is large against its own m passes |g/sin g|^2 times what a
/// spring without mass does, g = w sqrt(m/K) (Snowdon 1968, Vibration and Shock in Damped Mechanical Systems; the long-rod
/// mount, from memory). It is 1 at low frequency and has its first peak at sqrt(K/m)/2. As
/// 1/|sin(x - jy)|^2 = 2/(cosh 2y - cos 2x) has the integral 2 atan(coth y tan x)/sinh 2y, the mean over a band is
/// closed. A rod is assumed; spread loss y = eta x/2 is taken at the middle of the band.
pub fn standing_waves(support: &Support, mass_kg: f64) -> Spectrum {
    let Some(spring) = support.spring.filter(|spring| spring.mass_kg > 0.0) else { return Spectrum::constant(1.0) };
    let stiffness = spring.dynamic_stiffness();
    let heaviest = HEAVIEST_SPRING * mass_kg / support.count as f64;
    let own_kg = spring.mass_kg * heaviest / (spring.mass_kg + heaviest);
    let delay = 2.0 * PI * (own_kg / stiffness.re).sqrt();
    Spectrum::from_fn(|band| {
        let middle = delay * exact_mid_hz(band);
        if middle < SHORT {
            return 1.0;
        }
        let [low, high] = [-0.5, 0.5].map(|half| delay * band_position_hz(band as f64 + half));
        let up = exp(middle * stiffness.im / stiffness.re);
        let down = 1.0 / up;
        let coth = (up + 1.0) / (up - 1.0).max(f64::MIN_POSITIVE);
        let arcs = arc(coth.min(1e15), high) - arc(coth.min(1e15), low);
        middle * middle * 4.0 * arcs / ((up - down) * (high - low))
    })
}

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
            let got = transmission(&support, mass_kg);
            let stiffness = support.stiffness().expect("elastic");
            for band in (0..BAND_COUNT).step_by(2) {
                let want = sampled(band, |omega| hysteretic(stiffness, mass_kg, omega / (2.0 * PI)).powi(2));
                assert!((got[band] / want - 1.0).abs() < 1e-3, "band {band}: {} against {want}", got[band]);
            }
        }
    }

    #[test]
    fn standing_waves_are_those_of_a_rod_on_a_heavy_mass() {
        // The exact long-rod mount T = 1/|cos g - (M/m) g sin g|, far above its natural frequency.
        let (mass_kg, own_kg) = (4.0 * 1000.0, 0.05);
        for loss_factor in [0.02, 0.1, 0.4] {
            let support = support(loss_factor, own_kg);
            let got = transmission(&support, mass_kg);
            let stiffness = support.spring.expect("elastic").dynamic_stiffness();
            for band in 4..BAND_COUNT {
                let want = sampled(band, |omega| {
                    // Loss keeps the sign under exp(+jwt): the wavenumber decays, g = w sqrt(m/K(1 + j eta)).
                    let phase = crate::math::sqrt(complex(own_kg * omega * omega, 0.0) / stiffness);
                    let (cosine, sine) = cos_sin(phase);
                    1.0 / (cosine - phase * sine * (mass_kg / 4.0 / own_kg)).norm_sqr()
                });
                let error_db = 10.0 * (got[band] / want).log10();
                let allowed_db = if loss_factor < 0.3 { 1.0 } else { 3.0 };
                assert!(error_db.abs() < allowed_db, "loss {loss_factor}, band {band}: {error_db} dB");
            }
        }
    }
}
