//! What all designs of a space have in common, and their parts that do not depend on their leaves, each made once.

use super::choice::Lists;
use super::gauge::Gauge;
use super::grid::{Grid, Ringing};
use super::parts::{GapFill, LiningAt, Parts};
use super::wall::{Directions, FILLED_SHARE};
use crate::air::Air;
use crate::bands::{BAND_COUNT, Spectrum, band_position, band_position_hz};
use crate::buildup::{EdgeLoss, Laminate};
use crate::design::{CheckedDesign, CheckedShell, Design};
use crate::enclosure::network::{Passage, Response, RigidBody};
use crate::enclosure::{Balance, CLEARANCE_M, Join, OpeningAreas, OuterEnergy, SourceChamber};
use crate::evaluate::{Report, Sizes, chambers};
use crate::geometry::{grown, representative_face_m};
use crate::transmission::band_mean::{SOFT_INTERVALS, first_soft_band_means};
use crate::transmission::{Mount, StackSpectra};

/// Part of a band's mean that the error of the coarse model's sum for the shaken box may be.
const MOTION_TOLERANCE: f64 = 0.02;

/// What all designs have in common.
pub(super) struct Model {
    pub(super) air: Air,
    pub(super) base: CheckedDesign,
    pub(super) gauge: Gauge,
    pub(super) grid: Grid,
    pub(super) directions: Directions,
    pub(super) mount: Mount,
    /// First mode in Hz of the chamber in front of the driver.
    pub(super) chamber_mode_hz: f64,
    /// Chambers in front of the driver and behind it.
    pub(super) chambers: (SourceChamber, Option<SourceChamber>),
    /// Inner shells by braces and lids, all of the base's leaf; `None` where they do not fit.
    pub(super) inner_shells: Vec<Vec<Option<CheckedShell>>>,
    /// Outer shells by gap, braces and lids, all of the base's leaf, or a usual one; `None` where they do not fit.
    pub(super) outer_shells: Vec<Vec<Vec<Option<CheckedShell>>>>,
    /// By lining; `None` where it does not fit.
    pub(super) linings: Vec<Option<LiningAt>>,
    /// By gap and fill; `None` where nothing with this gap fits.
    pub(super) gaps: Vec<Vec<Option<GapFill>>>,
    /// Vents from the front chamber, at the grid's frequencies; empty without vents.
    pub(super) vents: Vec<Passage>,
    pub(super) vents_m2: Spectrum,
}

impl Model {
    pub(super) fn new(
        document: &Design,
        base: CheckedDesign,
        report: &Report,
        lists: &Lists,
        leaves: &[Vec<Laminate>; 2],
    ) -> Self {
        let air = Air::default();
        let sizes = Sizes::new(&base);
        let chamber_mode_hz = report.first_chamber_mode_hz;
        // The first of the bands that any design's energy balance counts in, and the last that any network counts in.
        let [lowest, highest] = [0.0, f64::INFINITY].map(|panels_hz| Join::new(chamber_mode_hz, panels_hz));
        let first_band = (0..BAND_COUNT).find(|&band| lowest.counts_energy(band)).unwrap_or(BAND_COUNT - 1);
        let grid = Grid::new(highest.last_network_band(), ringing(&base, leaves));
        let mount = Mount { size_m: representative_face_m(base.inside_m), edge_loss: EdgeLoss::BOX_JOINTS };
        let doubles = !lists.outer.is_empty();
        let deepest_m = lists.gaps_mm.iter().copied().fold(0.0, f64::max) / 1000.0;
        let some_empty = lists.fill_shares.iter().any(|&share| share < FILLED_SHARE);
        let empty_m = if some_empty { deepest_m } else { 0.0 };
        let directions = Directions::new(mount.half_width_m(), first_band, empty_m, &air);
        let parts = Parts { document, sizes: &sizes, grid: &grid, directions: &directions, air: &air };
        let gaps_mm = if doubles { &lists.gaps_mm[..] } else { &[] };
        let by_gap =
            |&gap_mm: &f64| lists.outer_braces.iter().map(|braces| parts.outer_shells(gap_mm, braces.as_ref(), lists)).collect();
        let by_fill = |&gap_mm: &f64| lists.fill_shares.iter().map(|&share| parts.gap(gap_mm, share)).collect();
        let (vents, vents_m2) = parts.vents(&base);
        Self {
            air,
            gauge: Gauge::new(&base, report),
            mount,
            chamber_mode_hz,
            chambers: chambers(&base, &sizes),
            inner_shells: lists.inner_braces.iter().map(|braces| parts.inner_shells(braces.as_ref(), lists)).collect(),
            outer_shells: gaps_mm.iter().map(by_gap).collect(),
            linings: lists.linings_mm.iter().map(|&thickness_mm| parts.lining(thickness_mm)).collect(),
            gaps: gaps_mm.iter().map(by_fill).collect(),
            vents,
            vents_m2,
            directions,
            grid,
            base,
        }
    }

    /// The last band of the network of a box whose panels have these first resonances in Hz, and where it hands over.
    pub(super) fn join(&self, inner_hz: f64, outer_hz: Option<f64>) -> (Join, Option<usize>) {
        let join = Join::new(self.chamber_mode_hz, outer_hz.map_or(inner_hz, |outer_hz| inner_hz.min(outer_hz)));
        (join, join.last_network_band())
    }

    /// What the energy balance lets out in all, and the inner walls' mean square velocity in (m/s)2 per W.
    pub(super) fn high(
        &self,
        lining: &LiningAt,
        stack: &StackSpectra,
        openings: &OpeningAreas,
        outer: Option<OuterEnergy>,
    ) -> High {
        let balance = Balance {
            front: self.chambers.0,
            rear: self.chambers.1,
            lining: lining.coefficient.as_ref(),
            stack,
            inner_transmission: &stack.leaves[0],
            openings,
            vents_m2: &self.vents_m2,
            outer,
        };
        let spectra = balance.spectra();
        High { all: spectra.all(), velocity: spectra.wall_velocity(&stack.leaves[0], &self.air) }
    }

    /// What `body` radiates by its motion, by band: in a gap of the volume in m3 before an outer end of this admittance at the grid's
    /// frequencies, or alone.
    pub(super) fn motion(&self, body: &RigidBody, gap: Option<(f64, &[Response])>, last_band: usize) -> Spectrum {
        let natural = band_position(body.natural_hz());
        let features: &[f64] = if (-0.5..last_band as f64 + 0.5).contains(&natural) { &[natural] } else { &[] };
        let [motion] = first_soft_band_means(last_band + 1, SOFT_INTERVALS, MOTION_TOLERANCE, features, |position| {
            let gap = gap.map(|(volume_m3, end)| (volume_m3, self.grid.between(end, position)));
            let omega = std::f64::consts::TAU * band_position_hz(position);
            [body.radiated(gap, omega, &self.air)]
        });
        motion
    }

    /// Range in m of the inside of outer shells round inner shells between these thicknesses in m.
    pub(super) fn outer_insides(&self, inner_m: [f64; 2]) -> [[f64; 3]; 2] {
        let depths = self.gaps.iter().flatten().flatten().map(|filled| filled.gap.depth_m);
        let (least, most) = depths.fold((f64::INFINITY, 0.0_f64), |(least, most), m| (least.min(m), most.max(m)));
        [grown(self.base.inside_m, inner_m[0] + least), grown(self.base.inside_m, inner_m[1] + most)]
    }
}

/// Loss factor of a material below which its panels ring.
const LITTLE_LOSS: f64 = 0.01;

/// Play in m round a lid from which on its slit rings as an open hole does.
const WIDE_M: f64 = 1.5 * CLEARANCE_M;

/// How long something in the network may ring.
fn ringing(base: &CheckedDesign, leaves: &[Vec<Laminate>; 2]) -> Ringing {
    let shells = [Some(&base.inner), base.outer.as_ref().map(|(_, shell)| shell)];
    let is_open =
        |shell: &CheckedShell| shell.holes.as_ref().is_some_and(|holes| !holes.sealed) || shell.lid.clearance_m > WIDE_M;
    if shells.into_iter().flatten().any(is_open) {
        return Ringing::Longest;
    }
    let hard = leaves.iter().flatten().flat_map(|leaf| &leaf.sheets).any(|sheet| sheet.loss_factor < LITTLE_LOSS);
    if hard || base.vents.is_some() { Ringing::Long } else { Ringing::Usual }
}

/// What the energy balance gives.
#[derive(Clone, Copy)]
pub(super) struct High {
    /// All that gets out, as a ratio.
    pub(super) all: Spectrum,
    /// Mean square velocity of the inner walls in (m/s)2 per W.
    pub(super) velocity: Spectrum,
}
