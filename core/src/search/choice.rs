//! One design of a space, by places in its lists.

use super::space::Lids;
use crate::buildup::raw::Layer;
use crate::design::{BracesPart, Design, Fill, GapPart, InnerPart, LidPart, LiningPart};

/// The lists of a space.
#[derive(Clone, Debug)]
pub(super) struct Lists {
    pub(super) inner: Vec<Vec<Layer>>,
    pub(super) outer: Vec<Vec<Layer>>,
    pub(super) single_shells: bool,
    pub(super) gaps_mm: Vec<f64>,
    pub(super) fill_shares: Vec<f64>,
    pub(super) inner_braces: Vec<Option<BracesPart>>,
    pub(super) outer_braces: Vec<Option<BracesPart>>,
    pub(super) lids: Vec<Lids>,
    pub(super) linings_mm: Vec<f64>,
}

/// One design of a space, by places in its lists.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Choice {
    /// What is round the inner shell, if anything is.
    pub(super) around: Option<Around>,
    pub(super) inner: u32,
    pub(super) inner_braces: u8,
    pub(super) lids: u8,
    pub(super) lining: u8,
}

/// Gap and outer shell of a choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Around {
    pub(super) outer: u32,
    pub(super) gap: u8,
    pub(super) fill: u8,
    pub(super) braces: u8,
}

impl Lists {
    /// Choices of one inner leaf without an outer shell, or with a given outer leaf and gap.
    pub(super) fn within_inner(&self) -> u64 {
        (self.inner_braces.len() * self.lids.len() * self.linings_mm.len()) as u64
    }

    /// Choices of one inner leaf, one outer leaf and one gap.
    pub(super) fn within_pair(&self) -> u64 {
        self.within_inner() * (self.fill_shares.len() * self.outer_braces.len()) as u64
    }

    pub(super) fn combinations(&self) -> u64 {
        let pairs = (self.outer.len() * self.gaps_mm.len()) as u64 * self.within_pair();
        let singles = if self.single_shells { self.within_inner() } else { 0 };
        (self.inner.len() as u64).saturating_mul(singles.saturating_add(pairs))
    }

    /// `base` as `choice` has it.
    pub(super) fn design(&self, base: &Design, choice: Choice) -> Design {
        let mut design = base.clone();
        let lids = self.lids[usize::from(choice.lids)];
        let inner = &mut design.inner;
        inner.layers.clone_from(&self.inner[choice.inner as usize]);
        inner.braces.clone_from(&self.inner_braces[usize::from(choice.inner_braces)]);
        lids.fit(&mut inner.lid);
        line(inner, self.linings_mm[usize::from(choice.lining)]);
        design.outer = choice.around.map(|around| {
            let mut shell = design.outer.take().unwrap_or_default();
            shell.layers.clone_from(&self.outer[around.outer as usize]);
            shell.braces.clone_from(&self.outer_braces[usize::from(around.braces)]);
            lids.fit(&mut shell.lid);
            design.gap.depth_mm = self.gaps_mm[usize::from(around.gap)];
            fill(&mut design.gap, self.fill_shares[usize::from(around.fill)]);
            shell
        });
        design
    }
}

/// Lines `inner` with `thickness_mm` of what it has, or of what is usual; with nothing for 0.
pub(super) fn line(inner: &mut InnerPart, thickness_mm: f64) {
    let lining = inner.lining.take().unwrap_or_default();
    inner.lining = (thickness_mm > 0.0).then_some(LiningPart { thickness_mm, ..lining });
}

/// Fills `share` of `gap` with what it has, or with what is usual.
pub(super) fn fill(gap: &mut GapPart, share: f64) {
    let fill = gap.fill.take().unwrap_or_default();
    gap.fill = (share > 0.0).then_some(Fill { share, ..fill });
}

impl Lids {
    pub(super) fn fit(self, lid: &mut LidPart) {
        if let Self::Alike { form, seals, seal } = self {
            (lid.form, lid.seals, lid.seal) = (form, seals, seal);
        }
    }
}
