//! A reference for the low-frequency network: one sealed box of six hinged plates, its air and its plates coupled mode by mode.
//!
//! The air is expanded in the modes of the rigid-walled box, p = sum P_n cos cos cos with the uniform one among them; each
//! plate in its modes in vacuum, velocity v = sum V_r sin sin. The weak forms of continuity in the air and of motion of the
//! plates (F. Fahy and P. Gardonio, Sound and Structural Vibration, 2nd ed. 2007, chapter 7: closed flexible boxes; from memory)
//! are, with time as exp(+jwt),
//!
//! - air: j N_n (w^2 (1 - j eta_air) - w_n^2) / (rho c^2 w) P_n + sum over r of C_rn V_r = Q psi_n(source),
//!   N_n the integral of psi_n^2 over the volume, eta_air = 0 for the uniform mode;
//! - plate: m (a b/4) (w_r^2 (1 + j eta) - w^2) / (jw) V_r = sum over n of C_rn P_n;
//! - coupling: C_rn the integral of psi_n sin sin over the plate, in closed form.
//!
//! The plates are eliminated first. Opposite plates are equal, so modes of the air couple only where all three of their
//! indices agree in being even or odd: eight small systems, and the net volume velocity lies in the even one alone. The air
//! outside does not load the plates.

use std::array;
use std::f64::consts::PI;
use std::ops::Range;

use hushwright::air::Air;
use hushwright::bands::band_position_hz;
use num_complex::Complex64;

/// Frequencies in each band; twice as many change no band by 0.01 dB at a loss factor of 0.03.
pub const BAND_POINTS: usize = 100;

/// Modes are counted up to this multiple of the first chamber mode's wavenumber; half as many again move no band below
/// 0.7 of that mode by 0.15 dB, and only steep flanks by so much.
const DEFAULT_MODE_LIMIT: f64 = 10.0;

/// A homogeneous, isotropic, thin plate.
#[derive(Clone, Copy, Debug)]
pub struct ThinSheet {
    /// Young's modulus in Pa.
    pub modulus_pa: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Density in kg/m3.
    pub density: f64,
    /// Thickness in m.
    pub thickness_m: f64,
}

impl ThinSheet {
    /// Mass per area in kg/m2.
    pub fn area_mass(&self) -> f64 {
        self.density * self.thickness_m
    }

    /// Bending stiffness E h^3 / (12 (1 - nu^2)) in N m.
    pub fn bending_stiffness(&self) -> f64 {
        self.modulus_pa * self.thickness_m.powi(3) / (12.0 * (1.0 - self.poisson.powi(2)))
    }
}

/// What is computed: a box of six equal sheets, hinged along all edges, with a point source in it.
#[derive(Clone, Copy, Debug)]
pub struct HingedBox {
    /// Inside length, width and height in m.
    pub inside_m: [f64; 3],
    /// The sheet of all six faces.
    pub sheet: ThinSheet,
    /// Structural loss factor of the sheet, the imaginary part of its stiffness over the real one.
    pub loss_factor: f64,
    /// Where the source of constant volume velocity is, in m from a corner.
    pub source_m: [f64; 3],
    /// The air inside.
    pub air: Air,
    /// Loss factor of the chamber modes; the uniform one has none.
    pub air_loss: f64,
}

/// Power put in and where it goes, in W for a source of 1 m3/s (peak).
#[derive(Clone, Copy, Debug)]
pub struct PowerBalance {
    /// By the source, from the pressure at it.
    pub source: f64,
    /// Into the plates' structural loss.
    pub plates: f64,
    /// Into the loss of the air.
    pub air: f64,
}

/// A mode of the air.
#[derive(Clone, Copy, Debug)]
struct ChamberMode {
    index: [usize; 3],
    /// Square of the wavenumber in 1/m2.
    k2: f64,
    /// Integral of the squared shape over the volume in m3.
    norm: f64,
    /// Shape at the source.
    at_source: f64,
}

/// A mode of two opposite plates, moving as the class has it: alike or against each other.
#[derive(Clone, Debug)]
struct PlateMode {
    /// Modal mass of one plate in kg.
    mass: f64,
    /// Square of the angular frequency in vacuum.
    omega2: f64,
    /// Coupling C_rn of the plate at the origin with each mode of the air of its class, in m2.
    coupling: Vec<f64>,
}

/// Modes that couple with each other.
#[derive(Clone, Debug)]
struct Class {
    chamber: Vec<ChamberMode>,
    plates: Vec<PlateMode>,
}

/// The box with its modes.
#[derive(Clone, Debug)]
pub struct CoupledBox {
    hinged: HingedBox,
    /// By even (0) and odd (1) index along each side, the even class first.
    classes: [Class; 8],
}

impl CoupledBox {
    /// With modes of the air and plates up to ten times the first chamber mode's wavenumber.
    pub fn new(hinged: HingedBox) -> Self {
        let limit = DEFAULT_MODE_LIMIT * first_chamber_wavenumber(hinged.inside_m);
        Self::with_limits(hinged, limit, limit)
    }

    /// With the uniform mode of the air alone: the network of one compliance and panels under uniform pressure.
    pub fn uniform_pressure(hinged: HingedBox) -> Self {
        Self::with_limits(hinged, 0.0, DEFAULT_MODE_LIMIT * first_chamber_wavenumber(hinged.inside_m))
    }

    /// With modes of the air and of the plates up to the given wavenumbers, in 1/m.
    pub fn with_limits(hinged: HingedBox, chamber_limit: f64, plate_limit: f64) -> Self {
        let classes = array::from_fn(|class| {
            let parity = [class & 1, class >> 1 & 1, class >> 2 & 1];
            let chamber = chamber_modes(&hinged, parity, chamber_limit);
            let plates = (0..3).flat_map(|normal| plate_modes(&hinged, normal, parity, plate_limit, &chamber));
            // Plates that meet no mode of the air stay at rest.
            Class { plates: if chamber.is_empty() { Vec::new() } else { plates.collect() }, chamber }
        });
        Self { hinged, classes }
    }

    /// First mode of the rigid-walled chamber in Hz.
    pub fn first_chamber_mode_hz(&self) -> f64 {
        first_chamber_wavenumber(self.hinged.inside_m) * self.hinged.air.speed / (2.0 * PI)
    }

    /// First resonance of the largest plate in vacuum in Hz.
    pub fn first_panel_resonance_hz(&self) -> f64 {
        let omega2 = self.classes[0].plates.iter().map(|plate| plate.omega2).fold(f64::INFINITY, f64::min);
        omega2.sqrt() / (2.0 * PI)
    }

    /// Modes of the air in all classes.
    pub fn chamber_mode_count(&self) -> usize {
        self.classes.iter().map(|class| class.chamber.len()).sum()
    }

    /// Volume velocity of the six plates together, outwards, over that of the source.
    pub fn net_volume_velocity(&self, hz: f64) -> Complex64 {
        let class = &self.classes[0];
        let pressure = self.pressures(class, hz);
        let omega = 2.0 * PI * hz;
        class.plates.iter().map(|plate| self.velocity(plate, &pressure, omega) * (2.0 * plate.coupling[0])).sum()
    }

    /// Insertion loss 20 lg |Q/Qout| at one frequency in dB; of the net volume velocity, as a small box radiates.
    pub fn insertion_loss_db(&self, hz: f64) -> f64 {
        -10.0 * self.net_volume_velocity(hz).norm_sqr().log10()
    }

    /// Pressure averaged over the volume, in Pa for a source of 1 m3/s.
    pub fn mean_pressure(&self, hz: f64) -> Complex64 {
        self.pressures(&self.classes[0], hz)[0]
    }

    /// Squared magnitude of the pressure averaged over the volume, in Pa2 for a source of 1 m3/s.
    pub fn mean_square_pressure(&self, hz: f64) -> f64 {
        let volume: f64 = self.hinged.inside_m.iter().product();
        let square = |class: &Class| -> f64 {
            self.pressures(class, hz).iter().zip(&class.chamber).map(|(p, mode)| p.norm_sqr() * mode.norm).sum()
        };
        self.classes.iter().map(square).sum::<f64>() / volume
    }

    /// Mean of |Qout/Q|^2 over `points` frequencies, evenly spaced in log frequency, in the third-octave band `band`.
    pub fn band_mean(&self, band: usize, points: usize) -> f64 {
        let offset = |point: usize| (point as f64 + 0.5) / points as f64 - 0.5;
        let square = |point| self.net_volume_velocity(band_position_hz(band as f64 + offset(point))).norm_sqr();
        (0..points).map(square).sum::<f64>() / points as f64
    }

    /// Insertion loss of the third-octave bands in dB: of the band means of |Qout/Q|^2.
    pub fn band_insertion_loss_db(&self, bands: Range<usize>) -> Vec<f64> {
        bands.map(|band| -10.0 * self.band_mean(band, BAND_POINTS).log10()).collect()
    }

    /// Power put in by the source and taken by the losses.
    pub fn power_balance(&self, hz: f64) -> PowerBalance {
        let omega = 2.0 * PI * hz;
        let air_stiffness = self.hinged.air.density * self.hinged.air.speed.powi(2);
        let mut balance = PowerBalance { source: 0.0, plates: 0.0, air: 0.0 };
        for class in &self.classes {
            let pressure = self.pressures(class, hz);
            for (p, mode) in pressure.iter().zip(&class.chamber) {
                balance.source += 0.5 * p.re * mode.at_source;
                balance.air += 0.5 * p.norm_sqr() * mode.norm * self.air_loss(mode) * omega / air_stiffness;
            }
            for plate in &class.plates {
                let speed2 = self.velocity(plate, &pressure, omega).norm_sqr();
                // Both plates of the pair.
                balance.plates += 2.0 * 0.5 * speed2 * plate.mass * self.hinged.loss_factor * plate.omega2 / omega;
            }
        }
        balance
    }

    /// Amplitudes P_n of the class for a source of 1 m3/s.
    fn pressures(&self, class: &Class, hz: f64) -> Vec<Complex64> {
        let omega = 2.0 * PI * hz;
        let air = &self.hinged.air;
        let air_stiffness = air.density * air.speed.powi(2);
        let size = class.chamber.len();
        let mut matrix = vec![Complex64::ZERO; size * size];
        for (n, mode) in class.chamber.iter().enumerate() {
            let omega2 = omega * omega * Complex64::new(1.0, -self.air_loss(mode));
            matrix[n * size + n] = Complex64::I * (omega2 - mode.k2 * air.speed.powi(2)) * mode.norm / (air_stiffness * omega);
        }
        for plate in &class.plates {
            let both = 2.0 * self.mobility(plate, omega);
            for (row, coupling) in matrix.chunks_exact_mut(size).zip(&plate.coupling) {
                let factor = both * coupling;
                row.iter_mut().zip(&plate.coupling).for_each(|(element, coupling)| *element += factor * coupling);
            }
        }
        solve(matrix, class.chamber.iter().map(|mode| mode.at_source.into()).collect())
    }

    /// The uniform mode stays a spring without loss, as the limit of low frequencies has it.
    fn air_loss(&self, mode: &ChamberMode) -> f64 {
        if mode.k2 > 0.0 { self.hinged.air_loss } else { 0.0 }
    }

    /// Modal velocity per modal force in m/(s N).
    fn mobility(&self, plate: &PlateMode, omega: f64) -> Complex64 {
        let stiffness = Complex64::new(1.0, self.hinged.loss_factor) * plate.omega2 - omega * omega;
        Complex64::new(0.0, omega) / (stiffness * plate.mass)
    }

    /// Modal velocity V_r of the plate at the origin, outwards.
    fn velocity(&self, plate: &PlateMode, pressure: &[Complex64], omega: f64) -> Complex64 {
        let force: Complex64 = pressure.iter().zip(&plate.coupling).map(|(p, coupling)| p * coupling).sum();
        self.mobility(plate, omega) * force
    }
}

fn first_chamber_wavenumber(inside_m: [f64; 3]) -> f64 {
    PI / inside_m.into_iter().fold(0.0, f64::max)
}

/// Modes of the air whose indices are even (0) or odd (1) as `parity` says, by index; the uniform one first.
fn chamber_modes(hinged: &HingedBox, parity: [usize; 3], limit: f64) -> Vec<ChamberMode> {
    let sides = hinged.inside_m;
    let indices = |axis: usize| (parity[axis]..=(limit * sides[axis] / PI) as usize).step_by(2);
    let mut modes = Vec::new();
    for l in indices(0) {
        for m in indices(1) {
            for n in indices(2) {
                let index = [l, m, n];
                let k: [f64; 3] = array::from_fn(|axis| index[axis] as f64 * PI / sides[axis]);
                let k2 = k.iter().map(|k| k * k).sum();
                if k2 <= limit * limit {
                    let norm = (0..3).map(|axis| sides[axis] * if index[axis] == 0 { 1.0 } else { 0.5 }).product();
                    let at_source = (0..3).map(|axis| (k[axis] * hinged.source_m[axis]).cos()).product();
                    modes.push(ChamberMode { index, k2, norm, at_source });
                }
            }
        }
    }
    modes
}

/// Modes of the plates across `normal` that couple with the modes of the air of a class: odd indices where those are even.
fn plate_modes(hinged: &HingedBox, normal: usize, parity: [usize; 3], limit: f64, chamber: &[ChamberMode]) -> Vec<PlateMode> {
    let axes = [(normal + 1) % 3, (normal + 2) % 3];
    let [a, b] = axes.map(|axis| hinged.inside_m[axis]);
    let first = axes.map(|axis| if parity[axis] == 0 { 1 } else { 2 });
    let [last_a, last_b] = [a, b].map(|side| (limit * side / PI) as usize);
    let (mass, stiffness) = (hinged.sheet.area_mass(), hinged.sheet.bending_stiffness());
    let mut modes = Vec::new();
    for m in (first[0]..=last_a).step_by(2) {
        for n in (first[1]..=last_b).step_by(2) {
            let k2 = (m as f64 * PI / a).powi(2) + (n as f64 * PI / b).powi(2);
            if k2 <= limit * limit {
                let coupling = |mode: &ChamberMode| {
                    sine_cosine_integral(m, mode.index[axes[0]], a) * sine_cosine_integral(n, mode.index[axes[1]], b)
                };
                modes.push(PlateMode {
                    mass: mass * a * b / 4.0,
                    omega2: stiffness * k2 * k2 / mass,
                    coupling: chamber.iter().map(coupling).collect(),
                });
            }
        }
    }
    modes
}

/// Integral over 0 to `length` of sin(m pi x/length) cos(l pi x/length); `m` at least 1.
pub fn sine_cosine_integral(m: usize, l: usize, length: f64) -> f64 {
    if (m + l).is_multiple_of(2) {
        return 0.0;
    }
    let (m, l) = (m as f64, l as f64);
    2.0 * length * m / (PI * (m * m - l * l))
}

/// Solves a square system, given row by row, by elimination with partial pivoting.
///
/// # Panics
/// When the matrix is singular.
pub fn solve(mut matrix: Vec<Complex64>, mut right: Vec<Complex64>) -> Vec<Complex64> {
    let size = right.len();
    for column in 0..size {
        let magnitude = |row: usize| matrix[row * size + column].norm_sqr();
        let pivot = (column..size).max_by(|&a, &b| magnitude(a).total_cmp(&magnitude(b))).expect("a row is left");
        assert!(magnitude(pivot) > 0.0, "singular matrix");
        if pivot != column {
            (column..size).for_each(|k| matrix.swap(pivot * size + k, column * size + k));
            right.swap(pivot, column);
        }
        let (done, rest) = matrix.split_at_mut((column + 1) * size);
        let pivot_row = &done[column * size..];
        let inverse = pivot_row[column].inv();
        for (below, row) in rest.chunks_exact_mut(size).enumerate() {
            let factor = row[column] * inverse;
            for k in column..size {
                row[k] -= factor * pivot_row[k];
            }
            let shift = factor * right[column];
            right[column + 1 + below] -= shift;
        }
    }
    for row in (0..size).rev() {
        let known: Complex64 = (row + 1..size).map(|k| matrix[row * size + k] * right[k]).sum();
        right[row] = (right[row] - known) / matrix[row * size + row];
    }
    right
}
