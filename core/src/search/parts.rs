//! Parts of designs that do not depend on their leaves, each made once from a design that has it and is otherwise the base.

use super::choice::{Lists, fill, line};
use super::grid::Grid;
use super::space::Lids;
use super::wall::{Directions, GapTable};
use super::weigh::Weight;
use crate::air::Air;
use crate::bands::Spectrum;
use crate::buildup::Gap;
use crate::design::{BracesPart, CheckedDesign, CheckedShell, Design, Shell};
use crate::enclosure::network::{Chamber, Outside, Passage};
use crate::enclosure::{absorption_at, duct_absorption, lining_absorption, vents_at, vents_transmission_area};
use crate::evaluate::{Sizes, chamber, gap_lining, walls_m2};
use crate::math::{Complex64, complex};

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
    pub(super) table: GapTable,
    /// Absorption coefficient of the fill, if there is any.
    pub(super) coefficient: Option<Spectrum>,
    /// j w times the compliance of 1 m3 of the gap, at the grid's frequencies.
    pub(super) compliance: Vec<Complex64>,
}

/// What parts are made from.
pub(super) struct Parts<'a> {
    /// The base.
    pub(super) document: &'a Design,
    pub(super) sizes: &'a Sizes,
    pub(super) grid: &'a Grid,
    pub(super) directions: &'a Directions,
    pub(super) air: &'a Air,
}

impl Parts<'_> {
    /// The base with a change, if that fits; what its supports carry is looked at for every design by itself.
    fn variant(&self, change: impl FnOnce(&mut Design)) -> Option<CheckedDesign> {
        let mut design = self.document.clone();
        change(&mut design);
        design.check_fields().ok()
    }

    /// j w times the compliance of `chamber` at the grid's frequencies.
    fn compliance(&self, chamber: &Chamber) -> Vec<Complex64> {
        self.grid.hz.iter().map(|&hz| j_omega(hz) * chamber.compliance(hz, self.air)).collect()
    }

    pub(super) fn lining(&self, thickness_mm: f64) -> Option<LiningAt> {
        let design = self.variant(|design| line(&mut design.inner, thickness_mm))?;
        let has_baffle = self.sizes.rear.is_some();
        let chamber = |size_m| self.compliance(&chamber(&design, size_m, walls_m2(size_m, has_baffle)));
        let lining = design.document.inner.lining.as_ref();
        Some(LiningAt {
            coefficient: design.lining.as_ref().map(|lining| lining_absorption(lining, self.air)),
            chambers: [chamber(self.sizes.front), self.sizes.rear.map_or_else(Vec::new, chamber)],
            weight: lining.map_or_else(Weight::default, |l| Weight::of(|bill| bill.push_lining(l, design.inside_m))),
        })
    }

    /// Inner shells with `braces`, by lids.
    pub(super) fn inner_shells(&self, braces: Option<&BracesPart>, lists: &Lists) -> Vec<Option<CheckedShell>> {
        let shell = |lids: &Lids| {
            let design = self.variant(|design| {
                design.inner.braces = braces.cloned();
                lids.fit(&mut design.inner.lid);
            })?;
            Some(design.inner)
        };
        lists.lids.iter().map(shell).collect()
    }

    /// The base with an outer shell, which `change` changes, in a gap.
    fn around(&self, gap_mm: f64, share: f64, change: impl FnOnce(&mut Shell)) -> Option<(Gap, CheckedShell)> {
        let design = self.variant(|design| {
            let shell = design.outer.get_or_insert_with(Shell::default);
            shell.braces = None;
            change(shell);
            design.gap.depth_mm = gap_mm;
            fill(&mut design.gap, share);
        })?;
        design.outer
    }

    /// Outer shells with `braces` in a gap, by lids.
    pub(super) fn outer_shells(&self, gap_mm: f64, braces: Option<&BracesPart>, lists: &Lists) -> Vec<Option<CheckedShell>> {
        let shell = |lids: &Lids| {
            let around = self.around(gap_mm, 0.0, |shell| {
                shell.braces = braces.cloned();
                lids.fit(&mut shell.lid);
            })?;
            Some(around.1)
        };
        lists.lids.iter().map(shell).collect()
    }

    pub(super) fn gap(&self, gap_mm: f64, share: f64) -> Option<GapFill> {
        let (gap, _) = self.around(gap_mm, share, |_| ())?;
        let coefficient = gap_lining(&gap).map(|lining| lining_absorption(&lining, self.air));
        let (porous_m3, flow_resistivity) = gap.fill.map_or((0.0, 1.0), |fill| (fill.share, fill.flow_resistivity));
        let compliance = self.compliance(&Chamber { volume_m3: 1.0, porous_m3, flow_resistivity });
        Some(GapFill { gap, table: self.directions.gap(&gap), coefficient, compliance })
    }

    /// The vents at the grid's frequencies, and their transmission area in m2.
    pub(super) fn vents(&self, base: &CheckedDesign) -> (Vec<Passage>, Spectrum) {
        let Some(vents) = &base.vents else { return (Vec::new(), Spectrum::constant(0.0)) };
        let lining = vents.lining.as_ref().map(|lining| lining_absorption(lining, self.air));
        let absorption = duct_absorption(lining.as_ref());
        let at = |&hz: &f64| {
            let opening = vents_at(vents, absorption_at(&absorption, hz), hz, self.air);
            // Vents are small sources, whatever the box.
            Outside::new(1.0, 1.0, hz, self.air).vents(opening.into())
        };
        (self.grid.hz.iter().map(at).collect(), vents_transmission_area(vents, lining.as_ref(), self.air))
    }
}

/// j times the angular frequency in 1/s.
pub(super) fn j_omega(hz: f64) -> Complex64 {
    complex(0.0, std::f64::consts::TAU * hz)
}
