//! Angles at which transmission has narrow peaks, so that the integration over angles starts from them.

use std::f64::consts::PI;

/// One narrow peak.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// Its angle from the normal in rad.
    pub angle: f64,
    /// Half its width in rad.
    pub half_width: f64,
}

/// Peaks wider than this half width in rad need no borders of their own: they reach over several of the rule's first points,
/// which lie up to 0.16 rad apart. With 0.02 some peaks between two points were missed, 1.5 dB of a leaf's band.
const WIDE: f64 = 0.1;

impl Peak {
    /// A peak at an angle with this cosine; `None` when it is too wide to be missed or lies at no real angle.
    fn narrow(cosine: f64, half_width: f64) -> Option<Self> {
        ((0.0..1.0).contains(&cosine) && half_width < WIDE).then(|| Self { angle: crate::math::acos(cosine), half_width })
    }

    /// Borders that let the rule see the peak: itself, and both feet. Forty half widths hold all but 1.6 % of a resonance.
    pub fn borders(&self) -> [f64; 3] {
        [-40.0, 0.0, 40.0].map(|offset| (self.angle + offset * self.half_width).max(0.0))
    }
}

/// A plate's impedance at an angle: `reactance` w m - D k^4/w and `resistance` from its loss, both in Pa s/m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlateAt {
    /// Reactance.
    pub reactance: f64,
    /// Resistance.
    pub resistance: f64,
}

/// The coincidence of a plate with stiffness term `bending(sine)` (complex parts of D (k0 sin)^4/w over sin^4, Pa s/m).
///
/// The width follows from the loss of the plate and what it radiates to one side.
pub fn coincidence(inertia: f64, bending: impl Fn(f64) -> (f64, f64), air_impedance: f64) -> Option<Peak> {
    if bending(1.0).0 <= inertia {
        return None;
    }
    // D varies little over the bracket, so sin = (w m/(D k0^4/w))^(1/4) converges in a few steps.
    let mut sine = 1.0;
    for _ in 0..12 {
        let next = (inertia / bending(sine).0).sqrt().sqrt().clamp(0.0, 1.0);
        // A border has to lie well within the peak, no more.
        let done = (next - sine).abs() < 1e-6;
        sine = next;
        if done {
            break;
        }
    }
    if !(sine.is_finite() && sine < 1.0) {
        return None;
    }
    let cosine = (1.0 - sine * sine).sqrt();
    let (real, imaginary) = bending(sine);
    let loss = imaginary / real + air_impedance / (inertia * cosine);
    Peak::narrow(cosine, 0.25 * loss * sine / cosine)
}

/// An empty gap between two plates at one frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EmptyGap {
    /// Wavenumber in air times depth.
    pub phase: f64,
    /// Loss factor of the gap's field.
    pub loss_factor: f64,
    /// Characteristic impedance of air in Pa s/m.
    pub air_impedance: f64,
}

impl EmptyGap {
    /// The resonance of this order: 0 is mass-air-mass, n has n half waves across the gap.
    ///
    /// With plates jX1, jX2 and the gap's impedance Zg = Z0/cos, transmission peaks where
    /// tan(kz d) = Zg (1/X1 + 1/X2)/(1 - Zg^2/(X1 X2)).
    pub fn resonance(&self, order: u32, plates: impl Fn(f64) -> [PlateAt; 2]) -> Option<Peak> {
        let whole = f64::from(order) * PI;
        let mut phase = if order == 0 { 0.5 * self.phase.min(1.0) } else { whole };
        for _ in 0..6 {
            let cosine = (phase / self.phase).min(1.0);
            let [first, second] = plates((1.0 - cosine * cosine).sqrt());
            let compliance = 1.0 / first.reactance + 1.0 / second.reactance;
            phase = if order == 0 {
                // phase tan(phase) = Z0 k d (1/X1 + 1/X2)
                (self.air_impedance * self.phase * compliance * phase / crate::math::tan(phase)).sqrt()
            } else {
                let gap = self.air_impedance / cosine;
                whole + crate::math::atan(gap * compliance / (1.0 - gap * gap / (first.reactance * second.reactance)))
            };
            if phase.is_nan() || phase >= self.phase || (order == 0 && phase > 1.5) {
                return None;
            }
        }
        let cosine = phase / self.phase;
        let sine = (1.0 - cosine * cosine).sqrt();
        let damping: f64 = plates(sine)
            .iter()
            .map(|plate| (plate.resistance + self.air_impedance / cosine) / (plate.reactance * plate.reactance))
            .sum();
        let half_width = 0.5 * self.loss_factor * self.phase / cosine + self.air_impedance / cosine * damping;
        Peak::narrow(cosine, half_width / (self.phase * sine))
    }
}
