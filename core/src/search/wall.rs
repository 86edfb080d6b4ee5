//! Walls of two leaves and a gap by tables: what a leaf is to plane waves, and what an outer leaf and a gap are to what lies before
//! them, each once, over fixed angles and frequencies.
//!
//! The same plates, layers and window as in [`crate::transmission::diffuse`]. With Z1 the impedance of the first leaf and [p; v] the
//! state behind it for a wave that leaves with p = 1, tau = 4 y^2/|(p y + v) + Z1 v y|^2, y = cos/(rho c): a table of p y + v and v y
//! for what is behind, one of Z1, and a sum.

use std::f64::consts::FRAC_PI_2;

use super::inner::Complexes;
use crate::air::Air;
use crate::bands::{BAND_COUNT, Spectrum, band_position_hz};
use crate::buildup::{Gap, Laminate};
use crate::lanes::{Lanes, f64x4};
use crate::math::{Complex64, complex, sin_cos};
use crate::transmission::compliance::ComplianceTable;
use crate::transmission::diffuse::{GapAt, LEAST_TRANSMISSION, Plate};
use crate::transmission::layer::State;
use crate::transmission::window::Window;

/// Part of a gap's depth from which on its fill damps it: below, it counts as empty.
pub(super) const FILLED_SHARE: f64 = 0.2;
/// Angles of incidence between 0 and a right angle.
const ANGLES: usize = 128;
/// Frequencies in a band where every gap is filled: within 0.2 dB of the exact sums.
const FILLED_FREQUENCIES: usize = 4;
/// Frequencies in a band where some gap is empty and rings, above the highest bands that count for much: within 0.7 dB there.
const EMPTY_FREQUENCIES: usize = 8;
/// The same where an empty gap is so deep that it rings at lower frequencies.
const DEEP_FREQUENCIES: usize = 16;
/// Depth in m from which on it does: half a wave at 1.1 kHz.
const DEEP_M: f64 = 0.15;
/// Part of a step by which the angles of one frequency are shifted against those of the one before: the golden ratio, so that narrow
/// resonances, which wander with the frequency, are met evenly.
const GOLDEN: f64 = 0.618_033_988_749_894_9;
/// Angles and sums side by side.
const LANES: usize = 4;
const _: () = assert!(ANGLES.is_multiple_of(LANES));

/// Angles, frequencies, and how much each counts.
#[derive(Clone, Debug)]
pub(super) struct Directions {
    air: Air,
    first_band: usize,
    /// Frequencies in a band.
    per_band: usize,
    hz: Vec<f64>,
    /// Sines and cosines of the angles, for every frequency.
    angles: Vec<(f64, f64)>,
    /// Over all frequencies and angles: 4 y^2 times the window's efficiency and the angle's and the frequency's share.
    weights: Vec<f64>,
}

/// Impedance of a leaf in every direction.
#[derive(Clone, Debug)]
pub(super) struct LeafTable(Complexes);

/// What a gap does to pressure and velocity in every direction.
#[derive(Clone, Debug)]
pub(super) struct GapTable(Vec<Across>);

/// Near pressure and velocity for a pressure of 1 at the far side, then for a velocity of 1.
type Across = [Complex64; 4];

/// What an outer leaf and a gap are to the leaf before them.
#[derive(Clone, Debug)]
pub(super) struct Behind {
    /// p y + v.
    held: Complexes,
    /// v y.
    moved: Complexes,
}

impl Directions {
    /// For panels of mean half width `half_width_m`, the bands from `first_band` on, and empty gaps of up to `empty_m` in m, 0 for none.
    pub(super) fn new(half_width_m: f64, first_band: usize, empty_m: f64, air: &Air) -> Self {
        let per_band = if empty_m > DEEP_M {
            DEEP_FREQUENCIES
        } else if empty_m > 0.0 {
            EMPTY_FREQUENCIES
        } else {
            FILLED_FREQUENCIES
        };
        let hz: Vec<f64> = (first_band * per_band..BAND_COUNT * per_band)
            .map(|index| band_position_hz((index as f64 + 0.5) / per_band as f64 - 0.5))
            .collect();
        let step = FRAC_PI_2 / ANGLES as f64;
        let at_frequency = |index: usize| {
            let offset = (index as f64 * GOLDEN).fract();
            (0..ANGLES).map(move |k| sin_cos((k as f64 + offset) * step))
        };
        let angles: Vec<(f64, f64)> = (0..hz.len()).flat_map(at_frequency).collect();
        let share = step / per_band as f64;
        let weights = hz.iter().zip(angles.chunks(ANGLES)).flat_map(|(&hz, angles)| {
            let window = Window::new(half_width_m, hz, air);
            angles.iter().map(move |&(sine, cosine)| {
                let admittance = cosine / air.impedance();
                4.0 * admittance * admittance * window.efficiency(cosine) * cosine * 2.0 * sine * cosine * share
            })
        });
        let weights = weights.collect();
        Self { air: *air, first_band, per_band, hz, angles, weights }
    }

    fn plates(&self, laminate: &Laminate, table: &ComplianceTable) -> impl Iterator<Item = Plate> {
        self.hz.iter().map(move |&hz| Plate::new(table.at(hz), laminate.surface_mass(), hz, &self.air))
    }

    /// The table of `laminate`, of which `table` holds the compliances.
    pub(super) fn leaf(&self, laminate: &Laminate, table: &ComplianceTable) -> LeafTable {
        let mut field = Complexes::with_capacity(self.weights.len());
        for (plate, angles) in self.plates(laminate, table).zip(self.angles.chunks(ANGLES)) {
            for angles in angles.as_chunks::<LANES>().0 {
                let impedance = plate.impedance(f64x4::from(angles.map(|(sine, _)| sine)));
                field.re.extend(impedance.re.to_array());
                field.im.extend(impedance.im.to_array());
            }
        }
        LeafTable(field)
    }

    /// The table of `gap`.
    pub(super) fn gap(&self, gap: &Gap) -> GapTable {
        let mut across = Vec::with_capacity(self.weights.len());
        for (&hz, angles) in self.hz.iter().zip(self.angles.chunks(ANGLES)) {
            let gap = GapAt::new(gap, hz, &self.air);
            let wavenumber = self.air.wavenumber(hz);
            for angles in angles.as_chunks::<LANES>().0 {
                let kx2 = f64x4::from(angles.map(|(sine, _)| wavenumber * sine * (wavenumber * sine)));
                let carried = |pressure: f64, velocity: f64| {
                    let far =
                        State { pressure: Lanes::real(f64x4::splat(pressure)), velocity: Lanes::real(f64x4::splat(velocity)) };
                    gap.layers.iter().rev().flatten().fold(far, |state, layer| layer.carry(state, kx2))
                };
                let (by_pressure, by_velocity) = (carried(1.0, 0.0), carried(0.0, 1.0));
                let parts = [by_pressure.pressure, by_pressure.velocity, by_velocity.pressure, by_velocity.velocity]
                    .map(|lanes| (lanes.re.to_array(), lanes.im.to_array()));
                across.extend((0..LANES).map(|k| parts.map(|(re, im)| complex(re[k], im[k]))));
            }
        }
        GapTable(across)
    }

    /// The table of a gap and, behind it, the leaf of table `outer`.
    pub(super) fn behind(&self, gap: &GapTable, outer: &LeafTable) -> Behind {
        let count = gap.0.len();
        let (mut held, mut moved) = (Complexes::with_capacity(count), Complexes::with_capacity(count));
        let plates = outer.0.re.chunks(ANGLES).zip(outer.0.im.chunks(ANGLES)).zip(self.angles.chunks(ANGLES));
        for (((re, im), angles), across) in plates.zip(gap.0.chunks(ANGLES)) {
            for (((re, im), (_, cosine)), [pp, vp, pv, vv]) in re.iter().zip(im).zip(angles).zip(across) {
                let admittance = cosine / self.air.impedance();
                let pressure = complex(re * admittance + 1.0, im * admittance);
                let near_pressure = pressure * pp + pv * admittance;
                let near_velocity = pressure * vp + vv * admittance;
                held.push(near_pressure * admittance + near_velocity);
                moved.push(near_velocity * admittance);
            }
        }
        Behind { held, moved }
    }

    /// Transmission coefficient by band of the forced waves in the leaf of table `first` with what is `behind` it, diffuse incidence;
    /// next to nothing in the bands before the first.
    pub(super) fn transmission(&self, first: &LeafTable, behind: &Behind) -> Spectrum {
        let count = self.per_band * ANGLES;
        let mut transmission = Spectrum::constant(LEAST_TRANSMISSION);
        for band in self.first_band..BAND_COUNT {
            let start = (band - self.first_band) * count;
            let range = start..start + count;
            let (z_re, z_im) = (&first.0.re[range.clone()], &first.0.im[range.clone()]);
            let (a_re, a_im) = (&behind.held.re[range.clone()], &behind.held.im[range.clone()]);
            let (b_re, b_im) = (&behind.moved.re[range.clone()], &behind.moved.im[range.clone()]);
            let weights = &self.weights[range];
            let mut sums = [0.0; LANES];
            for from in (0..count).step_by(LANES) {
                for (lane, sum) in sums.iter_mut().enumerate() {
                    let k = from + lane;
                    let re = a_re[k] + z_re[k] * b_re[k] - z_im[k] * b_im[k];
                    let im = a_im[k] + z_re[k] * b_im[k] + z_im[k] * b_re[k];
                    *sum += weights[k] / (re * re + im * im);
                }
            }
            transmission[band] = sums.iter().sum::<f64>().max(LEAST_TRANSMISSION);
        }
        transmission
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::buildup::{EdgeLoss, Element, Fill, FillSide, GapLoss, Sheet, Stack};
    use crate::math::to_db;
    use crate::transmission::diffuse::{Accuracy, Incidence, Setting, forced};

    /// Thin and thick, filled and empty, against adaptive integration over angles and frequencies.
    #[test]
    fn tables_give_what_adaptive_integration_gives() {
        let air = Air::default();
        let sheet = |thickness_m: f64, density, e: f64| Laminate {
            sheets: vec![Sheet {
                thickness_m,
                density,
                youngs_modulus: e,
                poisson: 0.3,
                loss_factor: 0.02,
                shear_modulus: 0.2 * e,
            }],
            bonds: Vec::new(),
        };
        let half_width_m = 0.3;
        for (first, second) in [(0.012, 0.018), (0.018, 0.018), (0.006, 0.030)] {
            let (first, second) = (sheet(first, 680.0, 8e9), sheet(second, 740.0, 3e9));
            for (share, empty_m, tolerance_db) in [(0.0, 0.06, 0.7), (0.4, 0.0, 0.25), (0.4, 0.06, 0.25), (1.0, 0.06, 0.25)] {
                let directions = Directions::new(half_width_m, 10, empty_m, &air);
                let fill = (share > 0.0).then_some(Fill { flow_resistivity: 20e3, share, side: FillSide::Second });
                let gap = Gap { depth_m: 0.06, fill, loss: GapLoss::Faces { absorption: GapLoss::FACE_ABSORPTION } };
                let leaf = |laminate| directions.leaf(laminate, &ComplianceTable::new(laminate, EdgeLoss::BOX_JOINTS, &air));
                let behind = directions.behind(&directions.gap(&gap), &leaf(&second));
                let got = directions.transmission(&leaf(&first), &behind);
                let elements = vec![Element::Panel(first.clone()), Element::Gap(gap), Element::Panel(second.clone())];
                let setting = Setting {
                    half_width_m: Some(half_width_m),
                    edge_loss: EdgeLoss::BOX_JOINTS,
                    incidence: Incidence::DIFFUSE,
                    air,
                };
                let want = forced(&Stack { elements }, &setting, &Accuracy { angle_tolerance: 1e-3, band_tolerance: 1e-3 });
                for band in 10..BAND_COUNT {
                    let error_db = to_db(got[band] / want.transmission[band]);
                    assert!(error_db.abs() < tolerance_db, "fill {share}, band {band}: {error_db:.2} dB");
                }
            }
        }
    }
}
