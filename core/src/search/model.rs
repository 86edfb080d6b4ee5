//! What all designs of a space have in common, and their parts that do not depend on their leaves, each made once.

use super::gauge::Gauge;
use super::grid::{Grid, Ringing};
use super::space::Lists;
use super::wall::Directions;
use super::weigh::Weight;
use crate::air::Air;
use crate::bands::{BAND_COUNT, Spectrum};
use crate::buildup::{EdgeLoss, Gap, Laminate};
use crate::design::{CheckedDesign, CheckedShell, Design, Shell};
use crate::enclosure::network::{Outside, Passage, Response, RigidBody};
use crate::enclosure::{
    Balance, Join, Lining, OpeningAt, OuterEnergy, SourceChamber, absorption_at, duct_absorption, lining_absorption, vents_at,
    vents_transmission_area,
};
use crate::evaluate::{Report, Sizes, chamber, chambers, gap_lining, walls_m2};
use crate::geometry::{grown, representative_face_m};
use crate::math::{Complex64, complex};
use crate::transmission::band_mean::first_soft_band_means;
use crate::transmission::{Mount, StackSpectra};

/// Part of a band's mean that the error of the coarse model's sum for the shaken box may be.
const MOTION_TOLERANCE: f64 = 0.02;

/// What depends on the lining alone.
pub(super) struct LiningAt {
    /// Absorption coefficient.
    pub(super) coefficient: Option<Spectrum>,
    /// j w times the compliance of the chambers in front of the driver and behind it, at the grid's frequencies.
    pub(super) chambers: [Vec<Complex64>; 2],
    pub(super) weight: Weight,
}

/// A gap with its fill.
pub(super) struct GapFill {
    pub(super) gap: Gap,
    /// Absorption coefficient of the fill, if there is any.
    pub(super) coefficient: Option<Spectrum>,
    /// j w times the compliance of 1 m3 of the gap, at the grid's frequencies.
    pub(super) compliance: Vec<Complex64>,
}

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
        let variant = |change: &dyn Fn(&mut Design)| {
            let mut design = document.clone();
            change(&mut design);
            design.check_fields().ok()
        };
        let has_baffle = sizes.rear.is_some();
        let lining = |&thickness_mm: &f64| {
            let design = variant(&|design| {
                let lining = design.inner.lining.take().unwrap_or_default();
                design.inner.lining = (thickness_mm > 0.0).then(|| crate::design::LiningPart { thickness_mm, ..lining });
            })?;
            let compliance = |size_m: Option<[f64; 3]>| {
                let Some(size_m) = size_m else { return Vec::new() };
                let chamber = chamber(&design, size_m, walls_m2(size_m, has_baffle));
                grid.hz.iter().map(|&hz| j_omega(hz) * chamber.compliance(hz, &air)).collect()
            };
            Some(LiningAt {
                coefficient: design.lining.as_ref().map(|lining| lining_absorption(lining, &air)),
                chambers: [compliance(Some(sizes.front)), compliance(sizes.rear)],
                weight: design
                    .document
                    .inner
                    .lining
                    .as_ref()
                    .map_or_else(Weight::default, |lining| Weight::of(|bill| bill.push_lining(lining, design.inside_m))),
            })
        };
        let with_lids = |braces, lids: super::space::Lids| {
            let design = variant(&|design| {
                design.inner.braces = Option::clone(braces);
                lids.fit(&mut design.inner.lid);
            })?;
            Some(design.inner)
        };
        let around = |gap_mm: f64, braces: &Option<_>, share: f64, lids: Option<super::space::Lids>| {
            let design = variant(&|design| {
                let shell = design.outer.get_or_insert_with(Shell::default);
                shell.braces.clone_from(braces);
                if let Some(lids) = lids {
                    lids.fit(&mut shell.lid);
                }
                design.gap.depth_mm = gap_mm;
                let fill = design.gap.fill.take().unwrap_or_default();
                design.gap.fill = (share > 0.0).then(|| crate::design::Fill { share, ..fill });
            })?;
            design.outer
        };
        let filled = |gap_mm: f64, share: f64| {
            let (gap, _) = around(gap_mm, &None, share, None)?;
            let coefficient = gap_lining(&gap).map(|lining: Lining| lining_absorption(&lining, &air));
            let (porous_m3, flow_resistivity) = gap.fill.map_or((0.0, 1.0), |fill| (fill.share, fill.flow_resistivity));
            let one = crate::enclosure::network::Chamber { volume_m3: 1.0, porous_m3, flow_resistivity };
            let compliance = grid.hz.iter().map(|&hz| j_omega(hz) * one.compliance(hz, &air)).collect();
            Some(GapFill { gap, coefficient, compliance })
        };
        let doubles = !lists.outer.is_empty();
        let deepest_m = lists.gaps_mm.iter().copied().fold(0.0, f64::max) / 1000.0;
        let deepest_empty_m = if lists.fill_shares.contains(&0.0) { deepest_m } else { 0.0 };
        let gaps_mm = if doubles { &lists.gaps_mm[..] } else { &[] };
        let vent_lining = base.vents.as_ref().and_then(|vents| vents.lining.as_ref()).map(|l| lining_absorption(l, &air));
        let vents = base.vents.as_ref().map_or_else(Vec::new, |vents| {
            let absorption = duct_absorption(vent_lining.as_ref());
            let at = |&hz: &f64| {
                let opening: OpeningAt = vents_at(vents, absorption_at(&absorption, hz), hz, &air);
                Outside::new(1.0, 1.0, hz, &air).vents(opening.into())
            };
            grid.hz.iter().map(at).collect()
        });
        Self {
            air,
            gauge: Gauge::new(&base, report),
            directions: Directions::new(mount.half_width_m(), first_band, deepest_empty_m, &air),
            mount,
            chamber_mode_hz,
            chambers: chambers(&base, &sizes),
            inner_shells: lists
                .inner_braces
                .iter()
                .map(|braces| lists.lids.iter().map(|&lids| with_lids(braces, lids)).collect())
                .collect(),
            outer_shells: gaps_mm
                .iter()
                .map(|&gap_mm| {
                    let by_lids = |braces| {
                        let shell = |&lids| around(gap_mm, braces, 0.0, Some(lids)).map(|(_, shell)| shell);
                        lists.lids.iter().map(shell).collect()
                    };
                    lists.outer_braces.iter().map(by_lids).collect()
                })
                .collect(),
            linings: lists.linings_mm.iter().map(lining).collect(),
            gaps: gaps_mm.iter().map(|&gap_mm| lists.fill_shares.iter().map(|&share| filled(gap_mm, share)).collect()).collect(),
            vents_m2: base
                .vents
                .as_ref()
                .map_or(Spectrum::constant(0.0), |vents| vents_transmission_area(vents, vent_lining.as_ref(), &air)),
            vents,
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
        openings: &crate::enclosure::OpeningAreas,
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
        let natural = crate::bands::band_position(body.natural_hz());
        let features: &[f64] = if (-0.5..last_band as f64 + 0.5).contains(&natural) { &[natural] } else { &[] };
        let [motion] = first_soft_band_means(last_band + 1, MOTION_TOLERANCE, features, |position| {
            let gap = gap.map(|(volume_m3, end)| (volume_m3, self.grid.between(end, position)));
            let omega = std::f64::consts::TAU * crate::bands::band_position_hz(position);
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

/// How long something in the network may ring.
fn ringing(base: &CheckedDesign, leaves: &[Vec<Laminate>; 2]) -> Ringing {
    let shells = [Some(&base.inner), base.outer.as_ref().map(|(_, shell)| shell)];
    if shells.into_iter().flatten().filter_map(|shell| shell.holes.as_ref()).any(|holes| !holes.sealed) {
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

pub(super) fn j_omega(hz: f64) -> Complex64 {
    complex(0.0, std::f64::consts::TAU * hz)
}
