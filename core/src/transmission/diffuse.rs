//! Transmission of a diffuse field: one stack, all angles, all bands.

use std::f64::consts::{FRAC_PI_2, PI};

use num_complex::Complex64;

use super::bending::bending_stiffness;
use super::layer::{FluidLayer, State};
use super::porous::{lossy_air, miki};
use super::quadrature::integrate;
use super::window::Window;
use crate::air::Air;
use crate::bands::{BAND_COUNT, Spectrum, band_position_hz};
use crate::buildup::{EdgeLoss, Element, FillSide, Laminate, Stack};
use crate::math::{complex, sin_cos};

/// Least transmission coefficient that is reported (300 dB): beyond it numbers have no meaning and may underflow.
pub const LEAST_TRANSMISSION: f64 = 1e-30;

/// Which directions an incident field has.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Incidence {
    /// One plane wave at this angle from the normal, in rad.
    Angle(f64),
    /// All directions up to this angle in rad, every solid angle alike, normalised to what arrives within it.
    DiffuseUpTo(f64),
}

impl Incidence {
    /// A fully diffuse field.
    pub const DIFFUSE: Self = Self::DiffuseUpTo(FRAC_PI_2);
}

/// How exact a spectrum is to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Accuracy {
    /// Error of the integral over angles as the embedded rule estimates it, relative.
    pub angle_tolerance: f64,
    /// A band is refined until halving its steps changes it by less than this, relative.
    pub band_tolerance: f64,
    /// Fewest steps in a band, a power of two.
    pub least_steps: usize,
    /// Most steps in a band, a power of two.
    pub most_steps: usize,
}

impl Default for Accuracy {
    /// Doubling the points of either kind changes no band by more than 0.2 dB.
    fn default() -> Self {
        Self { angle_tolerance: 0.03, band_tolerance: 0.02, least_steps: 8, most_steps: 64 }
    }
}

/// What a stack is mounted in and how the sound arrives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// Twice area over perimeter in m, for the finite-size window; `None`: infinite.
    pub half_width_m: Option<f64>,
    /// What panels lose at their edges.
    pub edge_loss: EdgeLoss,
    /// Directions of the incident field.
    pub incidence: Incidence,
    /// Air on both sides and in the gaps.
    pub air: Air,
}

/// Energy ratios of a stack by band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Forced {
    /// Transmission coefficient.
    pub transmission: Spectrum,
    /// Mean square pressure in the first gap over that of the diffuse field in front; zero without a gap.
    pub gap_gain: Spectrum,
}

/// Number of coefficients of the stiffness as a polynomial of the sine of the angle.
const FIT: usize = 6;

/// One layer at one frequency.
#[derive(Clone, Copy, Debug)]
enum LayerAt {
    Plate {
        /// w m.
        inertia: f64,
        /// D(k0 sin) k0^4/w as a polynomial of the sine; D itself varies little, and what a fit misses near normal
        /// incidence the factor sin^4 takes away.
        stiffness: [Complex64; FIT],
    },
    Fluid(FluidLayer),
}

/// A stack at one frequency; [`StackAt::set`] moves it to another without allocating.
pub struct StackAt<'a> {
    stack: &'a Stack,
    setting: &'a Setting,
    fit: &'a StiffnessFit,
    wavenumber: f64,
    layers: Vec<LayerAt>,
    /// Positions in `layers` between which the first gap lies.
    first_gap: Option<(usize, usize)>,
    window: Option<Window>,
    breaks: [f64; 2 + MOST_BREAKS],
    break_count: usize,
}

/// Angles worth a border between intervals: the branch of the window, and coincidences with both their feet.
const MOST_BREAKS: usize = 13;

impl<'a> StackAt<'a> {
    /// `stack` in `setting`, to be set to a frequency before use.
    pub fn new(stack: &'a Stack, setting: &'a Setting, fit: &'a StiffnessFit) -> Self {
        let layers = Vec::with_capacity(3 * stack.elements.len());
        let breaks = [0.0; 2 + MOST_BREAKS];
        Self { stack, setting, fit, wavenumber: 0.0, layers, first_gap: None, window: None, breaks, break_count: 0 }
    }

    /// Moves to the frequency `hz`.
    pub fn set(&mut self, hz: f64) {
        let air = &self.setting.air;
        let omega = 2.0 * PI * hz;
        self.wavenumber = air.wavenumber(hz);
        self.window = self.setting.half_width_m.map(|half_width_m| Window::new(half_width_m, hz, air));
        self.layers.clear();
        self.first_gap = None;
        let largest = match self.setting.incidence {
            Incidence::Angle(angle) | Incidence::DiffuseUpTo(angle) => angle,
        };
        let mut breaks = [largest; 2 + MOST_BREAKS];
        breaks[0] = 0.0;
        let mut count = 1;
        if let Some(window) = &self.window
            && window.limit() < 1.0
        {
            breaks[count] = libm::acos(window.limit());
            count += 1;
        }
        for element in &self.stack.elements {
            match element {
                Element::Panel(laminate) => {
                    let plate = self.plate(laminate, hz, omega);
                    if let LayerAt::Plate { inertia, stiffness } = &plate
                        && count + 2 <= MOST_BREAKS
                        && let Some((angle, half_width)) = coincidence(*inertia, stiffness, air.impedance())
                    {
                        // Forty half widths hold all but 1.6 % of a resonance; outside the rule sees its tail.
                        for offset in [-40.0, 0.0, 40.0] {
                            breaks[count] = (angle + offset * half_width).max(0.0);
                            count += 1;
                        }
                    }
                    self.layers.push(plate);
                }
                Element::Gap(gap) => {
                    let start = self.layers.len();
                    let air_field = lossy_air(gap.loss.loss_factor(hz, gap.depth_m, air), hz, air);
                    let (share, side) = gap.fill.map_or((0.0, FillSide::First), |fill| (fill.share, fill.side));
                    let (filled, empty) = (share * gap.depth_m, (1.0 - share) * gap.depth_m);
                    let (before, after) = match side {
                        FillSide::First => (0.0, empty),
                        FillSide::Second => (empty, 0.0),
                        FillSide::Middle => (0.5 * empty, 0.5 * empty),
                    };
                    if before > 0.0 {
                        self.layers.push(LayerAt::Fluid(FluidLayer::new(air_field, before)));
                    }
                    if let Some(fill) = gap.fill
                        && filled > 0.0
                    {
                        self.layers.push(LayerAt::Fluid(FluidLayer::new(miki(fill.flow_resistivity, hz, air), filled)));
                    }
                    if after > 0.0 {
                        self.layers.push(LayerAt::Fluid(FluidLayer::new(air_field, after)));
                    }
                    self.first_gap = self.first_gap.or(Some((start, self.layers.len())));
                }
            }
        }
        breaks[1..count].sort_by(f64::total_cmp);
        for value in &mut breaks[1..count] {
            *value = value.min(largest);
        }
        breaks[count] = largest;
        self.breaks = breaks;
        self.break_count = count + 1;
    }

    fn plate(&self, laminate: &Laminate, hz: f64, omega: f64) -> LayerAt {
        let mass = laminate.surface_mass();
        let edge = self.setting.edge_loss.loss_factor(hz, mass);
        let scale = self.wavenumber.powi(4) / omega;
        let stiffness = self.fit.fit(|sine| {
            let stiffness = bending_stiffness(laminate, self.wavenumber * sine, hz);
            complex(1.0, 0.0) / ((stiffness + complex(0.0, edge * stiffness.re)) * scale)
        });
        LayerAt::Plate { inertia: omega * mass, stiffness }
    }

    /// Transmission coefficient of an infinite stack for a plane wave, and the mean square pressure in the first gap over
    /// that of the incident wave.
    #[inline]
    pub fn plane_wave(&self, sine: f64, cosine: f64, with_gap: bool) -> (f64, f64) {
        let admittance = cosine / self.setting.air.impedance();
        let kx2 = (self.wavenumber * sine) * (self.wavenumber * sine);
        let sine4 = (sine * sine) * (sine * sine);
        let mut state = State { pressure: complex(1.0, 0.0), velocity: complex(admittance, 0.0) };
        let (gap_start, gap_end) = if with_gap { self.first_gap.unwrap_or((0, 0)) } else { (0, 0) };
        let mut gap = 0.0;
        let mut gap_depth = 0.0;
        for (index, layer) in self.layers.iter().enumerate().rev() {
            match layer {
                LayerAt::Plate { inertia, stiffness } => {
                    let bending = sine4 / polynomial(stiffness, sine);
                    // j (w m - D k^4/w)
                    let impedance = complex(bending.im, inertia - bending.re);
                    state.pressure += impedance * state.velocity;
                }
                LayerAt::Fluid(fluid) => {
                    let near = fluid.carry(state, kx2);
                    if (gap_start..gap_end).contains(&index) {
                        gap += fluid.depth_m() * fluid.mean_square_pressure(near, state, kx2);
                        gap_depth += fluid.depth_m();
                    }
                    state = near;
                }
            }
        }
        // Incident wave: half of p + v Z0/cos.
        let incident = (state.pressure * admittance + state.velocity).norm_sqr() / (4.0 * admittance * admittance);
        let gap = if gap_depth > 0.0 { gap / (gap_depth * incident) } else { 0.0 };
        let transmission = 1.0 / incident;
        // A stack so opaque that the carried state overflows transmits nothing that can be told.
        (if transmission.is_finite() { transmission } else { 0.0 }, if gap.is_finite() { gap } else { 0.0 })
    }

    /// Transmission coefficient and gap gain for the incident field of the setting.
    pub fn energy(&self, accuracy: &Accuracy) -> [f64; 2] {
        let with_gap = self.first_gap.is_some();
        match self.setting.incidence {
            Incidence::Angle(angle) => {
                let (sine, cosine) = sin_cos(angle);
                let (transmission, gap) = self.plane_wave(sine, cosine, with_gap);
                let window = self.window.map_or(1.0, |window| window.efficiency(cosine) * cosine);
                [transmission * window, gap]
            }
            Incidence::DiffuseUpTo(largest) => {
                let [transmission, gap] = integrate(&self.breaks[..self.break_count], accuracy.angle_tolerance, |angle| {
                    let (sine, cosine) = sin_cos(angle);
                    let (transmission, gap) = self.plane_wave(sine, cosine, with_gap);
                    let power = match &self.window {
                        Some(window) => window.efficiency(cosine) * cosine,
                        None => 1.0,
                    };
                    // d(sin^2) for power through the plane, d(-cos) for mean square pressure.
                    [transmission * power * 2.0 * sine * cosine, gap * sine]
                });
                let (sine, cosine) = sin_cos(largest);
                // Only waves towards the wall reach the gap: half of those that make up the field in front.
                [transmission / (sine * sine), 0.5 * gap / (1.0 - cosine)]
            }
        }
    }
}

/// Angle in rad at which inertia and stiffness of a plate cancel, and half the width of that resonance, if there is one.
///
/// The width follows from the loss of the plate and what it radiates to one side; a resonance wider than the rule's first
/// step needs no borders of its own.
fn coincidence(inertia: f64, stiffness: &[Complex64; FIT], air_impedance: f64) -> Option<(f64, f64)> {
    let bending = |sine: f64| complex(1.0, 0.0) / polynomial(stiffness, sine);
    if bending(1.0).re <= inertia {
        return None;
    }
    // D varies little over the bracket, so sin = (w m/(D k0^4/w))^(1/4) converges in a few steps.
    let mut sine = 1.0;
    for _ in 0..12 {
        let next = (inertia / bending(sine).re).sqrt().sqrt().clamp(0.0, 1.0);
        let done = (next - sine).abs() < 1e-9;
        sine = next;
        if done {
            break;
        }
    }
    if !(sine.is_finite() && sine < 1.0) {
        return None;
    }
    let cosine = (1.0 - sine * sine).sqrt();
    let bending = bending(sine);
    let loss = bending.im / bending.re + air_impedance / (inertia * cosine);
    let half_width = 0.25 * loss * sine / cosine;
    (half_width < 0.02).then(|| (libm::asin(sine), half_width))
}

#[inline]
fn polynomial(coefficients: &[Complex64; FIT], x: f64) -> Complex64 {
    let mut value = coefficients[FIT - 1];
    for &coefficient in coefficients[..FIT - 1].iter().rev() {
        value = value * x + coefficient;
    }
    value
}

/// Turns values at Chebyshev points of the sine into polynomial coefficients.
pub struct StiffnessFit {
    nodes: [f64; FIT],
    /// `inverse[power][node]`.
    inverse: [[f64; FIT]; FIT],
}

impl StiffnessFit {
    /// Nodes and the inverse of their Vandermonde matrix, from the coefficients of the Lagrange polynomials.
    pub fn new() -> Self {
        let nodes: [f64; FIT] = std::array::from_fn(|i| 0.5 - 0.5 * libm::cos(PI * (2.0 * i as f64 + 1.0) / (2.0 * FIT as f64)));
        let mut inverse = [[0.0; FIT]; FIT];
        for (i, &node) in nodes.iter().enumerate() {
            let mut product = [0.0; FIT];
            product[0] = 1.0;
            let mut degree = 0;
            let mut scale = 1.0;
            for (j, &other) in nodes.iter().enumerate() {
                if j != i {
                    degree += 1;
                    for power in (1..=degree).rev() {
                        product[power] = product[power - 1] - other * product[power];
                    }
                    product[0] *= -other;
                    scale *= node - other;
                }
            }
            for power in 0..FIT {
                inverse[power][i] = product[power] / scale;
            }
        }
        Self { nodes, inverse }
    }

    fn fit(&self, value: impl Fn(f64) -> Complex64) -> [Complex64; FIT] {
        let values = self.nodes.map(value);
        std::array::from_fn(|power| values.iter().zip(&self.inverse[power]).map(|(&value, &weight)| value * weight).sum())
    }
}

impl Default for StiffnessFit {
    fn default() -> Self {
        Self::new()
    }
}

/// Transmission and gap gain of `stack` by band, forced waves only, each band averaged as energy over log frequency.
///
/// Trapezoidal sums whose points neighbouring bands share, steps halved until the band stops changing.
pub fn forced(stack: &Stack, setting: &Setting, accuracy: &Accuracy) -> Forced {
    let fit = StiffnessFit::new();
    let mut at = StackAt::new(stack, setting, &fit);
    let mut energy = |position: f64| {
        at.set(band_position_hz(position));
        at.energy(accuracy)
    };
    let mut transmission = Spectrum::constant(0.0);
    let mut gap_gain = Spectrum::constant(0.0);
    let mut lower = energy(-0.5);
    for band in 0..BAND_COUNT {
        let start = band as f64 - 0.5;
        let upper = energy(start + 1.0);
        let mut steps = 1;
        let mut mean: [f64; 2] = std::array::from_fn(|i| 0.5 * (lower[i] + upper[i]));
        loop {
            let mut middles = [0.0; 2];
            for step in 0..steps {
                let value = energy(start + (step as f64 + 0.5) / steps as f64);
                middles[0] += value[0];
                middles[1] += value[1];
            }
            let finer: [f64; 2] = std::array::from_fn(|i| 0.5 * (mean[i] + middles[i] / steps as f64));
            steps *= 2;
            let settled = (finer[0] - mean[0]).abs() <= accuracy.band_tolerance * finer[0];
            mean = finer;
            if steps >= accuracy.most_steps || (steps >= accuracy.least_steps && settled) {
                break;
            }
        }
        transmission[band] = mean[0].max(LEAST_TRANSMISSION);
        gap_gain[band] = mean[1];
        lower = upper;
    }
    Forced { transmission, gap_gain }
}
