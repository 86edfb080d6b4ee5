//! Panels of a box under uniform pressure: how much air they push, by their modes, with edges between hinged and clamped.
//!
//! Volume velocity per pressure Y = j w a b sum_mn beta_mn^2/(D(k_mn, f) k_mn^4 - m w^2). A mode is a product of beam
//! functions; only those with an odd number of half waves both ways push air. Along each side, with a mean square of 1,
//!
//! - hinged: sqrt(2) sin(m pi x), mean 2 sqrt(2)/(m pi), mean square slope (m pi)^2;
//! - clamped: cosh(k x)/cosh(k/2) - cos(k x)/cos(k/2) about the middle, tan(k/2) + tanh(k/2) = 0, mean 4 s/k, mean square
//!   slope s k (s k - 2), s = tanh(k/2);
//! - a fixity between: wavenumber and mean square slope in geometric, shape and mean in linear proportion (assumed),
//!
//! and k_mn^4 = (k_m/a)^4 + (k_n/b)^4 + 2 h_m h_n/(a b)^2 with h the mean square slopes (Warburton 1954, Proc. Inst. Mech.
//! Eng. 168, 371-384: one product of beam functions in Rayleigh's quotient).
//!
//! Battens are beams along the second side at given places of the first. With product modes they couple only modes of the
//! same shape along themselves, so that each such family is a small symmetric system in the battens' deflections.

use std::array::from_fn;
use std::f64::consts::{PI, SQRT_2};

use num_complex::Complex64;

use super::brace::Braces;
use crate::bands::{band_position, band_position_hz};
use crate::buildup::{EdgeLoss, Laminate};
use crate::lanes::{Lanes, f64x2};
use crate::math::{complex, cos, exp, pow, sin_cos};
use crate::transmission::bending::{bending_stiffness, bending_stiffnesses};

/// Half-wave numbers taken along a side without battens: 1, 3, 5, 7.
const MODES: usize = 4;
/// More of them for each batten along the side that battens divide.
const MODES_A_BATTEN: usize = 2;
/// Most battens on a face.
const MOST_BATTENS: usize = 6;
/// Battens that move differently: they lie symmetrically, so half of them.
const MOST_PAIRS: usize = MOST_BATTENS / 2;
/// Wavenumbers of the first two clamped beam functions; the others are (m + 1/2) pi within 1e-6.
const CLAMPED: [f64; 2] = [4.730_040_744_862_704, 10.995_607_838_001_67];

/// One beam function of a side of length 1, mean square 1.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Beam {
    half_waves: f64,
    fixity: f64,
    clamped: f64,
    /// Wavenumber.
    kappa: f64,
    /// Mean square slope.
    slope: f64,
    mean: f64,
}

impl Beam {
    /// The function with 2 i + 1 half waves.
    fn new(i: usize, fixity: f64) -> Self {
        let half_waves = (2 * i + 1) as f64;
        let hinged = half_waves * PI;
        let clamped = CLAMPED.get(i).copied().unwrap_or((half_waves + 0.5) * PI);
        let down = exp(-clamped);
        let s = (1.0 - down) / (1.0 + down);
        let clamped_slope = s * clamped * (s * clamped - 2.0);
        Self {
            half_waves,
            fixity,
            clamped,
            kappa: pow(hinged, 1.0 - fixity) * pow(clamped, fixity),
            slope: pow(hinged * hinged, 1.0 - fixity) * pow(clamped_slope, fixity),
            mean: (1.0 - fixity) * 2.0 * SQRT_2 / hinged + fixity * 4.0 * s / clamped,
        }
    }

    /// Value at `x` from 0 to 1.
    fn at(&self, x: f64) -> f64 {
        let hinged = SQRT_2 * sin_cos(self.half_waves * PI * x).0;
        let (half, distance) = (0.5 * self.clamped, self.clamped * (x - 0.5).abs());
        let cosh_ratio = (exp(distance - half) + exp(-distance - half)) / (1.0 + exp(-self.clamped));
        let clamped = cosh_ratio - cos(distance) / cos(half);
        (1.0 - self.fixity) * hinged + self.fixity * clamped
    }
}

/// A batten as a beam: complex stiffness E I in N m2 and mass per length in kg/m.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Batten {
    stiffness: Complex64,
    mass: f64,
}

impl Batten {
    /// A batten of `braces` glued to a strip of `laminate` that is as wide as a bay, but at most a quarter of its span
    /// (assumed): stiffness of both together about their common axis, less that of the strip alone.
    fn new(braces: &Braces, laminate: &Laminate, bay_m: f64, span_m: f64) -> Self {
        let strip_m = bay_m.min(0.25 * span_m);
        let stretch: f64 = laminate.sheets.iter().map(|sheet| 12.0 * sheet.bending_stiffness() / sheet.thickness_m.powi(2)).sum();
        let (own, flange) = (Braces::YOUNGS_MODULUS * braces.width_m * braces.depth_m, stretch * strip_m);
        let arm_m = 0.5 * (braces.depth_m + laminate.thickness_m());
        let stiffness = own * braces.depth_m * braces.depth_m / 12.0 + arm_m * arm_m * own * flange / (own + flange);
        Self {
            stiffness: complex(stiffness, stiffness * Braces::LOSS_FACTOR),
            mass: Braces::DENSITY * braces.width_m * braces.depth_m,
        }
    }

    /// Force per deflection and length at `omega` for a deflection of wavenumber `k`.
    fn dynamic_stiffness(&self, k: f64, omega: f64) -> Complex64 {
        self.stiffness * k.powi(4) - self.mass * omega * omega
    }
}

/// A rectangular panel and how it is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PanelShape {
    /// Sides in m; battens divide the first and run along the second.
    pub size_m: [f64; 2],
    /// Fixity of the edges at the ends of each side, 0 (hinged) to 1 (clamped).
    pub fixity: [f64; 2],
}

/// A mode that pushes air.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Mode {
    /// beta^2.
    push: f64,
    /// k^4 in 1/m^4.
    k4: f64,
}

/// Answer to a uniform pressure of 1 Pa.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Response {
    /// Volume velocity in m3/s.
    pub admittance: Complex64,
    /// Mean square velocity times the area, in m4/s2: never less than the square of the volume velocity over the area.
    pub square_velocity: f64,
}

/// A panel with its modes.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    area_m2: f64,
    surface_mass: f64,
    modes: Vec<Mode>,
    /// Modal stiffness D k^4 with edge loss: for each mode a row over `nodes` edges of bands.
    stiffness: Vec<Complex64>,
    nodes: usize,
    battens: Option<Battens>,
    first_hz: f64,
}

/// Battens on a panel.
#[derive(Clone, Debug, PartialEq)]
struct Battens {
    batten: Batten,
    /// Modes along the divided side and along the battens.
    counts: [usize; 2],
    /// Each pair's values of the functions along the divided side, `[mode][pair]`.
    values: Vec<[f64; MOST_PAIRS]>,
    /// Battens of each pair: two, or one in the middle.
    members: [f64; MOST_PAIRS],
    pairs: usize,
    /// Means of the functions along the divided side, then along the battens.
    means: [Vec<f64>; 2],
    /// Wavenumbers along the battens in rad/m.
    along: Vec<f64>,
    length_m: f64,
}

impl Panel {
    /// The panel of `laminate` in `shape`, with battens if `braces` are given; to be tabulated before use.
    pub fn new(laminate: &Laminate, shape: &PanelShape, braces: Option<&Braces>) -> Self {
        let [a, b] = shape.size_m;
        let count = braces.map_or(0, |braces| braces.count.min(MOST_BATTENS));
        let counts = [MODES + MODES_A_BATTEN * count, MODES];
        let across: Vec<Beam> = (0..counts[0]).map(|i| Beam::new(i, shape.fixity[0])).collect();
        let along: Vec<Beam> = (0..counts[1]).map(|i| Beam::new(i, shape.fixity[1])).collect();
        let k4 = |m: &Beam, n: &Beam| (m.kappa / a).powi(4) + (n.kappa / b).powi(4) + 2.0 * m.slope * n.slope / (a * a * b * b);
        let mut modes = Vec::with_capacity(counts[0] * counts[1] + 1);
        for n in &along {
            for m in &across {
                modes.push(Mode { push: (m.mean * n.mean).powi(2), k4: k4(m, n) });
            }
        }
        if count == 0 {
            // The modes that are left out, as one: above all resonances the whole mass moves.
            let pushed: f64 = modes.iter().map(|mode| mode.push).sum();
            let next = k4(&Beam::new(counts[0], shape.fixity[0]), &along[0]);
            modes.push(Mode { push: (1.0 - pushed).max(0.0), k4: next });
        }
        let battens = braces.filter(|_| count > 0).map(|braces| {
            let bay_m = a / (count + 1) as f64;
            let pairs = count.div_ceil(2);
            let place = |pair: usize| (pair + 1) as f64 / (count + 1) as f64;
            let mut members = [0.0; MOST_PAIRS];
            for (pair, members) in members.iter_mut().enumerate().take(pairs) {
                *members = if 2 * pair + 1 == count { 1.0 } else { 2.0 };
            }
            Battens {
                batten: Batten::new(braces, laminate, bay_m, b),
                counts,
                values: across.iter().map(|beam| from_fn(|pair| if pair < pairs { beam.at(place(pair)) } else { 0.0 })).collect(),
                members,
                pairs,
                means: [&across, &along].map(|beams| beams.iter().map(|beam| beam.mean).collect()),
                along: along.iter().map(|beam| beam.kappa / b).collect(),
                length_m: b,
            }
        });
        let (surface_mass, stiffness) = (laminate.surface_mass(), Vec::new());
        let mut panel = Self { area_m2: a * b, surface_mass, modes, stiffness, nodes: 0, battens, first_hz: 0.0 };
        panel.first_hz = panel.first_resonance(laminate, shape, count);
        panel
    }

    /// The panel, of `laminate` as before, ready for every frequency up to the upper edge of `last_band`.
    #[must_use]
    pub fn tabulated(self, laminate: &Laminate, last_band: usize) -> Self {
        self.tabulated_by(last_band, |k, node| bending_stiffnesses(laminate, k, Self::node_hz(node)))
    }

    /// As [`Panel::tabulated`], with the leaf's bending stiffnesses in N m for wavenumbers in rad/m at the frequency of a node.
    #[must_use]
    pub(crate) fn tabulated_by(mut self, last_band: usize, stiffness: impl Fn(f64x2, usize) -> Lanes<f64x2>) -> Self {
        self.nodes = last_band + 2;
        self.stiffness = vec![complex(0.0, 0.0); self.modes.len() * self.nodes];
        let edges = (0..self.nodes).map(|node| EdgeLoss::BOX_JOINTS.loss_factor(Self::node_hz(node), self.surface_mass));
        for (node, edge) in edges.enumerate() {
            for (pair, modes) in self.modes.chunks(2).enumerate() {
                let k = [&modes[0], &modes[modes.len() - 1]].map(|mode| mode.k4.sqrt().sqrt());
                let d = stiffness(f64x2::from(k), node);
                let (re, im) = (d.re.to_array(), d.im.to_array());
                for (lane, mode) in modes.iter().enumerate() {
                    let value = complex(re[lane], im[lane] + edge * re[lane]) * mode.k4;
                    self.stiffness[(2 * pair + lane) * self.nodes + node] = value;
                }
            }
        }
        self
    }

    /// Frequency in Hz of a node of the table: an edge of a band.
    pub(crate) fn node_hz(node: usize) -> f64 {
        band_position_hz(node as f64 - 0.5)
    }

    /// Area in m2.
    pub fn area_m2(&self) -> f64 {
        self.area_m2
    }

    /// First resonance in Hz, that of the panel with what its battens add in its first mode, at most that of one bay.
    pub fn first_hz(&self) -> f64 {
        self.first_hz
    }

    fn first_resonance(&self, laminate: &Laminate, shape: &PanelShape, count: usize) -> f64 {
        let resonance = |k4: f64, more_stiffness: f64, more_mass: f64| {
            let mut hz = 100.0;
            for _ in 0..6 {
                let d = bending_stiffness(laminate, k4.sqrt().sqrt(), hz).re;
                hz = ((d * k4 + more_stiffness) / (self.surface_mass + more_mass)).sqrt() / (2.0 * PI);
            }
            hz
        };
        let k4 = self.modes[0].k4;
        let Some(battens) = &self.battens else { return resonance(k4, 0.0, 0.0) };
        let [a, b] = shape.size_m;
        let weight: f64 = (0..battens.pairs).map(|pair| battens.members[pair] * battens.values[0][pair].powi(2)).sum::<f64>() / a;
        let beam = battens.batten;
        let whole = resonance(k4, beam.stiffness.re * battens.along[0].powi(4) * weight, beam.mass * weight);
        let (m, n) = (Beam::new(0, 1.0), Beam::new(0, shape.fixity[1]));
        let bay_m = a / (count + 1) as f64;
        let bay_k4 = (m.kappa / bay_m).powi(4) + (n.kappa / b).powi(4) + 2.0 * m.slope * n.slope / (bay_m * bay_m * b * b);
        whole.min(resonance(bay_k4, 0.0, 0.0))
    }

    /// How the panel answers a uniform pressure of 1 Pa at `hz`, which lies below the limit.
    pub fn response(&self, hz: f64) -> Response {
        let omega = 2.0 * PI * hz;
        let place = (band_position(hz) + 0.5).clamp(0.0, (self.nodes - 1) as f64);
        let node = (place as usize).min(self.nodes - 2);
        let share = place - node as f64;
        let inertia = self.surface_mass * omega * omega;
        // Pressure per mean square deflection of a mode.
        let modal = |index: usize| {
            let row = &self.stiffness[index * self.nodes + node..];
            row[0] * (1.0 - share) + row[1] * share - inertia
        };
        let (mean, square) = match &self.battens {
            None => {
                let (mut mean, mut square) = (complex(0.0, 0.0), 0.0);
                for (index, mode) in self.modes.iter().enumerate() {
                    let z = modal(index);
                    let part = mode.push / z.norm_sqr();
                    mean += z.conj() * part;
                    square += part;
                }
                (mean, square)
            }
            Some(battens) => self.braced(battens, omega, modal),
        };
        Response {
            admittance: complex(-omega * mean.im, omega * mean.re) * self.area_m2,
            square_velocity: omega * omega * square * self.area_m2,
        }
    }

    /// Mean and mean square of the deflection with battens: for each function along them, deflections w of the pairs from
    /// (1 + G R) w = W, with G the panel's own response at the battens to forces there and R the battens' stiffness.
    fn braced(&self, battens: &Battens, omega: f64, modal: impl Fn(usize) -> Complex64) -> (Complex64, f64) {
        let zero = complex(0.0, 0.0);
        let pairs = battens.pairs;
        // Deflections are per unit of pressure; a force on a batten is spread over the other side of the panel.
        let per_width = battens.length_m / self.area_m2;
        let (mut total, mut square) = (zero, 0.0);
        for n in 0..battens.counts[1] {
            let force = battens.batten.dynamic_stiffness(battens.along[n], omega) * per_width;
            let mean_n = battens.means[1][n];
            let mut own = zero;
            let mut at_pairs = [zero; MOST_PAIRS];
            let mut system = [[zero; MOST_PAIRS]; MOST_PAIRS];
            for (m, (values, &mean)) in battens.values.iter().zip(&battens.means[0]).enumerate() {
                let response = complex(1.0, 0.0) / modal(n * battens.counts[0] + m);
                let push = mean * mean_n;
                own += response * (push * push);
                for i in 0..pairs {
                    let answer = response * values[i];
                    at_pairs[i] += answer * push;
                    for j in 0..pairs {
                        system[i][j] += answer * force * (values[j] * battens.members[j]);
                    }
                }
            }
            for (i, row) in system.iter_mut().enumerate() {
                row[i] += 1.0;
            }
            let deflections = solve(system, at_pairs, pairs);
            let mut held = [zero; MOST_PAIRS];
            for i in 0..pairs {
                held[i] = deflections[i] * force * battens.members[i];
                own -= at_pairs[i] * held[i];
            }
            total += own;
            for (m, (values, &mean)) in battens.values.iter().zip(&battens.means[0]).enumerate() {
                let mut pressed = complex(mean * mean_n, 0.0);
                for i in 0..pairs {
                    pressed -= held[i] * values[i];
                }
                square += pressed.norm_sqr() / modal(n * battens.counts[0] + m).norm_sqr();
            }
        }
        (total, square)
    }
}

/// Solves the first `size` equations by elimination with pivots.
fn solve(
    mut matrix: [[Complex64; MOST_PAIRS]; MOST_PAIRS],
    mut right: [Complex64; MOST_PAIRS],
    size: usize,
) -> [Complex64; MOST_PAIRS] {
    for column in 0..size {
        let pivot = (column..size).max_by(|&a, &b| matrix[a][column].norm_sqr().total_cmp(&matrix[b][column].norm_sqr()));
        let pivot = pivot.unwrap_or(column);
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        let inverse = complex(1.0, 0.0) / matrix[column][column];
        let (above, below) = matrix.split_at_mut(column + 1);
        for (row, values) in below.iter_mut().enumerate().take(size - column - 1) {
            let factor = values[column] * inverse;
            for (value, known) in values.iter_mut().zip(&above[column]).skip(column) {
                *value -= factor * known;
            }
            let known = right[column];
            right[column + 1 + row] -= factor * known;
        }
    }
    for row in (0..size).rev() {
        for k in row + 1..size {
            let known = right[k];
            right[row] -= matrix[row][k] * known;
        }
        right[row] /= matrix[row][row];
    }
    right
}
