//! Transmission of a diffuse field: one stack, all angles, all bands.

use std::f64::consts::{FRAC_PI_2, PI};

use super::band_mean::band_means;
use super::bending::free_wavenumber;
use super::compliance::{Compliance, ComplianceFit, ComplianceTable};
use super::layer::{FluidLayer, State};
use super::porous::{lossy_air, miki};
use super::quadrature::integrate;
use super::sharp_angles::{EmptyGap, Peak, PlateAt, coincidence};
use super::window::Window;
use crate::air::Air;
use crate::bands::{BAND_COUNT, Spectrum, band_position, band_position_hz};
use crate::buildup::{EdgeLoss, Element, FillSide, Gap, Laminate, Stack};
use crate::lanes::{Lanes, Number, f64x4};
use crate::math::{complex, sin_cos, sines_and_cosines};

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
    /// Error of a band's mean as halving its intervals shows it, relative.
    pub band_tolerance: f64,
}

impl Default for Accuracy {
    /// Doubling the points of either kind changes no band by more than 0.2 dB.
    fn default() -> Self {
        Self { angle_tolerance: 0.01, band_tolerance: 0.01 }
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

/// A leaf at one frequency.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Plate {
    /// w m.
    inertia: f64,
    /// w/(D k0^4).
    compliance: Compliance,
}

impl Plate {
    /// A leaf of this `compliance` 1/D and mass per area in kg/m2 at `hz`.
    pub(crate) fn new(compliance: Compliance, surface_mass: f64, hz: f64, air: &Air) -> Self {
        let omega = 2.0 * PI * hz;
        let wavenumber = air.wavenumber(hz);
        let k2 = wavenumber * wavenumber;
        Self { inertia: omega * surface_mass, compliance: compliance.scaled(omega / (k2 * k2)) }
    }

    /// Real and imaginary part of D k0^4/w.
    fn bending(&self, sine: f64) -> (f64, f64) {
        let bending = complex(1.0, 0.0) / self.compliance.at(sine);
        (bending.re, bending.im)
    }

    /// Impedances j (w m - D k^4/w).
    #[inline]
    pub(crate) fn impedance<N: Number>(&self, sine: N) -> Lanes<N> {
        let square = sine * sine;
        let bending = self.compliance.at_all(sine).inverse().scaled(square * square);
        Lanes { re: bending.im, im: N::splat(self.inertia) - bending.re }
    }

    fn at(&self, sine: f64) -> PlateAt {
        let impedance = self.impedance(sine).only();
        PlateAt { reactance: impedance.im, resistance: impedance.re }
    }
}

/// A gap at one frequency.
pub(crate) struct GapAt {
    /// Its layers in the order in which the sound meets them.
    pub(crate) layers: [Option<FluidLayer>; 3],
    /// Loss factor of the field where the whole gap is empty.
    empty_loss: Option<f64>,
}

impl GapAt {
    /// `gap` at the frequency `hz`.
    pub(crate) fn new(gap: &Gap, hz: f64, air: &Air) -> Self {
        let loss_factor = gap.loss.loss_factor(hz, gap.depth_m, air);
        let (share, side) = gap.fill.map_or((0.0, FillSide::First), |fill| (fill.share, fill.side));
        let (filled, empty) = (share * gap.depth_m, (1.0 - share) * gap.depth_m);
        let (before, after) = match side {
            FillSide::First => (0.0, empty),
            FillSide::Second => (empty, 0.0),
            FillSide::Middle => (0.5 * empty, 0.5 * empty),
        };
        let of_air = |depth_m: f64| (depth_m > 0.0).then(|| FluidLayer::new(lossy_air(loss_factor, hz, air), depth_m));
        let fill = gap.fill.filter(|_| filled > 0.0);
        let layers =
            [of_air(before), fill.map(|fill| FluidLayer::new(miki(fill.flow_resistivity, hz, air), filled)), of_air(after)];
        Self { layers, empty_loss: (filled == 0.0 && side != FillSide::Middle).then_some(loss_factor) }
    }
}

/// One layer at one frequency.
#[derive(Clone, Copy, Debug)]
enum LayerAt {
    Plate(Plate),
    Fluid {
        layer: FluidLayer,
        /// Loss factor of the field where the layer is a whole empty gap, whose resonances are narrow.
        empty_loss: Option<f64>,
    },
}

/// A stack at one frequency; [`StackAt::set`] moves it to another without allocating.
pub struct StackAt<'a> {
    stack: &'a Stack,
    setting: &'a Setting,
    fit: ComplianceFit,
    /// One for each leaf, or none: then every frequency is solved for.
    tables: Vec<ComplianceTable>,
    wavenumber: f64,
    layers: Vec<LayerAt>,
    /// Positions in `layers` between which the first gap lies.
    first_gap: Option<(usize, usize)>,
    window: Option<Window>,
    borders: [f64; MOST_BORDERS + 2],
    border_count: usize,
}

/// Angles worth a border between intervals: the branch of the window, coincidences and resonances of empty gaps, each with
/// its feet. What exceeds this is left to the rule.
const MOST_BORDERS: usize = 60;

impl<'a> StackAt<'a> {
    /// `stack` in `setting`, to be set to a frequency before use; laminates are solved at every frequency.
    pub fn new(stack: &'a Stack, setting: &'a Setting) -> Self {
        Self {
            stack,
            setting,
            fit: ComplianceFit::new(),
            tables: Vec::new(),
            wavenumber: 0.0,
            layers: Vec::with_capacity(3 * stack.elements.len()),
            first_gap: None,
            window: None,
            borders: [0.0; MOST_BORDERS + 2],
            border_count: 0,
        }
    }

    /// As [`StackAt::new`], with the laminates solved in advance for frequencies within the bands: `tables` of its leaves in
    /// their order, as [`compliance_tables`] gives them.
    pub fn tabulated(stack: &'a Stack, setting: &'a Setting, tables: Vec<ComplianceTable>) -> Self {
        Self { tables, ..Self::new(stack, setting) }
    }

    /// Moves to the frequency `hz`.
    pub fn set(&mut self, hz: f64) {
        let air = &self.setting.air;
        self.wavenumber = air.wavenumber(hz);
        self.window = self.setting.half_width_m.map(|half_width_m| Window::new(half_width_m, hz, air));
        self.layers.clear();
        self.first_gap = None;
        let largest = match self.setting.incidence {
            Incidence::Angle(angle) | Incidence::DiffuseUpTo(angle) => angle,
        };
        let mut panel = 0;
        for element in &self.stack.elements {
            match element {
                Element::Panel(laminate) => {
                    self.layers.push(self.plate(panel, laminate, hz));
                    panel += 1;
                }
                Element::Gap(gap) => {
                    let start = self.layers.len();
                    let GapAt { layers, empty_loss } = GapAt::new(gap, hz, air);
                    self.layers.extend(layers.into_iter().flatten().map(|layer| LayerAt::Fluid { layer, empty_loss }));
                    self.first_gap = self.first_gap.or(Some((start, self.layers.len())));
                }
            }
        }
        self.set_borders(largest);
    }

    /// Collects the borders between which the rule over angles works.
    fn set_borders(&mut self, largest: f64) {
        let air_impedance = self.setting.air.impedance();
        let mut borders = [largest; MOST_BORDERS + 2];
        borders[0] = 0.0;
        let mut count = 1;
        let mut add = |angle: f64| {
            if count <= MOST_BORDERS {
                borders[count] = angle.min(largest);
                count += 1;
            }
        };
        if let Some(window) = &self.window
            && window.limit() < 1.0
        {
            add(crate::math::acos(window.limit()));
        }
        for (index, layer) in self.layers.iter().enumerate() {
            match layer {
                LayerAt::Plate(plate) => {
                    let peak = coincidence(plate.inertia, |sine| plate.bending(sine), air_impedance);
                    peak.iter().flat_map(Peak::borders).for_each(&mut add);
                }
                LayerAt::Fluid { layer, empty_loss: Some(loss_factor) } => {
                    let (LayerAt::Plate(first), LayerAt::Plate(second)) = (&self.layers[index - 1], &self.layers[index + 1])
                    else {
                        continue;
                    };
                    let phase = self.wavenumber * layer.depth_m();
                    let gap = EmptyGap { phase, loss_factor: *loss_factor, air_impedance };
                    let plates = |sine: f64| [first.at(sine), second.at(sine)];
                    for order in 0..=(phase / PI) as u32 {
                        gap.resonance(order, plates).iter().flat_map(Peak::borders).for_each(&mut add);
                    }
                }
                LayerAt::Fluid { .. } => {}
            }
        }
        borders[1..count].sort_by(f64::total_cmp);
        self.borders = borders;
        self.border_count = count + 1;
    }

    fn plate(&self, index: usize, laminate: &Laminate, hz: f64) -> LayerAt {
        let compliance = match self.tables.get(index) {
            Some(table) => table.at(hz),
            None => self.fit.fit(laminate, self.setting.edge_loss, hz, &self.setting.air),
        };
        LayerAt::Plate(Plate::new(compliance, laminate.surface_mass(), hz, &self.setting.air))
    }

    /// Transmission coefficient of an infinite stack for a plane wave, and the mean square pressure in the first gap over
    /// that of the incident wave.
    pub fn plane_wave(&self, sine: f64, cosine: f64, with_gap: bool) -> (f64, f64) {
        let (transmission, gap) = self.plane_waves(f64x4::splat(sine), f64x4::splat(cosine), with_gap);
        (transmission.to_array()[0], gap.to_array()[0])
    }

    /// As [`StackAt::plane_wave`], of four waves.
    pub fn plane_waves(&self, sine: f64x4, cosine: f64x4, with_gap: bool) -> (f64x4, f64x4) {
        let admittance = cosine / f64x4::splat(self.setting.air.impedance());
        let kx = f64x4::splat(self.wavenumber) * sine;
        let kx2 = kx * kx;
        let mut state = State { pressure: Lanes::all(complex(1.0, 0.0)), velocity: Lanes::real(admittance) };
        let (gap_start, gap_end) = if with_gap { self.first_gap.unwrap_or((0, 0)) } else { (0, 0) };
        let mut gap = f64x4::splat(0.0);
        let mut gap_depth = 0.0;
        for (index, layer) in self.layers.iter().enumerate().rev() {
            match layer {
                LayerAt::Plate(plate) => state.pressure += plate.impedance(sine) * state.velocity,
                LayerAt::Fluid { layer: fluid, .. } if (gap_start..gap_end).contains(&index) => {
                    let (near, mean) = fluid.carry_with_mean(state, kx2);
                    gap += f64x4::splat(fluid.depth_m()) * mean;
                    gap_depth += fluid.depth_m();
                    state = near;
                }
                LayerAt::Fluid { layer: fluid, .. } => state = fluid.carry(state, kx2),
            }
        }
        // Incident wave: half of p + v Z0/cos.
        let sums = (state.pressure.scaled(admittance) + state.velocity).norm_sqr();
        let transmission = f64x4::splat(4.0) * admittance * admittance / sums;
        let over_depth = if gap_depth > 0.0 { 1.0 / gap_depth } else { 0.0 };
        // A stack so opaque that the carried state overflows transmits nothing that can be told.
        let told = |ratio: f64x4| ratio.is_finite().select(ratio, f64x4::splat(0.0));
        (told(transmission), told(gap * f64x4::splat(over_depth) * transmission))
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
                let borders = &self.borders[..self.border_count];
                let [transmission, gap] = integrate(borders, accuracy.angle_tolerance, |angles| {
                    let (sine, cosine) = sines_and_cosines(angles);
                    let (transmission, gap) = self.plane_waves(sine, cosine, with_gap);
                    let power = match &self.window {
                        Some(window) => f64x4::from(cosine.to_array().map(|cosine| window.efficiency(cosine) * cosine)),
                        None => f64x4::splat(1.0),
                    };
                    // d(sin^2) for power through the plane, d(-cos) for mean square pressure.
                    [transmission * power * f64x4::splat(2.0) * sine * cosine, gap * sine]
                });
                let (sine, cosine) = sin_cos(largest);
                // Only waves towards the wall reach the gap: half of those that make up the field in front.
                [transmission / (sine * sine), 0.5 * gap / (1.0 - cosine)]
            }
        }
    }
}

/// Transmission and gap gain of `stack` by band, forced waves only, each band averaged as energy over log frequency.
pub fn forced(stack: &Stack, setting: &Setting, accuracy: &Accuracy) -> Forced {
    forced_tabulated(stack, setting, accuracy, compliance_tables(stack, setting))
}

/// The leaves of `stack`, solved in advance.
pub fn compliance_tables(stack: &Stack, setting: &Setting) -> Vec<ComplianceTable> {
    stack.panels().map(|laminate| ComplianceTable::new(laminate, setting.edge_loss, &setting.air)).collect()
}

/// As [`forced`], where the leaves of `stack` are solved already.
pub fn forced_tabulated(stack: &Stack, setting: &Setting, accuracy: &Accuracy, tables: Vec<ComplianceTable>) -> Forced {
    let mut at = StackAt::tabulated(stack, setting, tables);
    let crossings = crossings(stack, &setting.air);
    let [transmission, gap_gain] = band_means(accuracy.band_tolerance, &crossings, |position| {
        at.set(band_position_hz(position));
        at.energy(accuracy)
    });
    Forced { transmission: transmission.map(|transmission| transmission.max(LEAST_TRANSMISSION)), gap_gain }
}

/// Positions on the scale of band indices at which a resonance of an empty gap sets in, or meets the coincidence of a leaf
/// beside it at the same angle: narrow peaks of the diffuse transmission.
fn crossings(stack: &Stack, air: &Air) -> Vec<f64> {
    let highest_hz = band_position_hz(BAND_COUNT as f64 - 0.5);
    let mut positions = Vec::new();
    for part in stack.elements.windows(3) {
        let [Element::Panel(first), Element::Gap(gap), Element::Panel(second)] = part else { continue };
        if gap.fill.is_some_and(|fill| fill.share > 0.0) {
            continue;
        }
        let compliance = 1.0 / first.surface_mass() + 1.0 / second.surface_mass();
        let mass_air_mass_hz = (air.density * air.speed * air.speed / gap.depth_m * compliance).sqrt() / (2.0 * PI);
        let half_wave_hz = air.speed / (2.0 * gap.depth_m);
        let orders = (highest_hz / half_wave_hz) as u32;
        for order in 0..=orders {
            let onset_hz = if order == 0 { mass_air_mass_hz } else { f64::from(order) * half_wave_hz };
            positions.push(band_position(onset_hz));
            for leaf in [first, second] {
                // cos = f0/f and sin^2 = fc/f, fc that of the wave at f.
                let mut hz = onset_hz;
                for _ in 0..4 {
                    let ratio = free_wavenumber(leaf, hz) / air.wavenumber(hz);
                    let critical_hz = hz * ratio * ratio;
                    hz = 0.5 * (critical_hz + (critical_hz * critical_hz + 4.0 * onset_hz * onset_hz).sqrt());
                    if hz > highest_hz {
                        break;
                    }
                }
                positions.push(band_position(hz));
            }
        }
    }
    positions.sort_by(f64::total_cmp);
    positions
}
