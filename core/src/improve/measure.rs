//! Changes that have no numbers of their own.

use crate::design::{BracesPart, Design, HolesPart, LidPart, LiningPart, SupportPart, limits};
use crate::enclosure::{BraceKind, LidForm, SealKind, SupportKind};

/// Depth in mm of a batten as it is bought.
const BATTEN_DEPTH_MM: f64 = 40.0;

/// One change of a design.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// One more batten across each long side of the inner box, or the only one.
    BraceInner,
    /// One more batten across each long side of the outer box.
    BraceOuter,
    /// The gap filled wholly.
    FillGap,
    /// One more seal in every lid.
    OneMoreSeal,
    /// Pressed gaskets in every lid.
    PressedSeals,
    /// Stepped lids.
    SteppedLids,
    /// Holes filled with sealant.
    SealHoles,
    /// Springs in place of a rigid fixing.
    Springs,
    /// Supports that sag twice as far.
    SofterSupports,
    /// Vents half as long again with one more bend.
    LongerVents,
    /// Vents lined.
    LinedVents,
}

impl Measure {
    /// Changes `design`; says whether there was anything to change.
    pub fn apply(self, design: &mut Design) -> bool {
        match self {
            Self::BraceInner => brace(&mut design.inner.braces, BATTEN_DEPTH_MM),
            Self::BraceOuter => {
                let room_mm = design.gap.depth_mm - limits::CLEARANCE_MM;
                design.outer.as_mut().is_some_and(|shell| brace(&mut shell.braces, room_mm.min(BATTEN_DEPTH_MM)))
            }
            Self::FillGap => {
                let fill = design.gap.fill.get_or_insert_default();
                let fuller = fill.share < 1.0;
                fill.share = 1.0;
                fuller && design.outer.is_some()
            }
            Self::OneMoreSeal => lids(design, |lid| {
                lid.seals += 1.0;
                lid.seals <= limits::SEALS.1
            }),
            Self::PressedSeals => {
                lids(design, |lid| std::mem::replace(&mut lid.seal, SealKind::Compressed) != SealKind::Compressed)
            }
            Self::SteppedLids => lids(design, |lid| std::mem::replace(&mut lid.form, LidForm::Stepped) != LidForm::Stepped),
            Self::SealHoles => {
                let mut open = seal(&mut design.inner.holes);
                if let Some(shell) = &mut design.outer {
                    open |= seal(&mut shell.holes);
                }
                open
            }
            Self::Springs => {
                let support = shaken_support(design);
                let rigid = support.kind == SupportKind::Rigid;
                if rigid {
                    *support = SupportPart { count: support.count, ..SupportPart::springs() };
                }
                rigid
            }
            Self::SofterSupports => {
                let support = shaken_support(design);
                support.test_sag_mm *= 2.0;
                support.pad_side_mm /= std::f64::consts::SQRT_2;
                support.kind != SupportKind::Rigid
            }
            Self::LongerVents => design.vents.as_mut().is_some_and(|vents| {
                vents.length_mm *= 1.5;
                vents.bends += 1.0;
                true
            }),
            Self::LinedVents => design.vents.as_mut().is_some_and(|vents| {
                let bare = vents.lining.is_none();
                if bare {
                    vents.lining = Some(LiningPart { thickness_mm: 25.0, ..LiningPart::default() });
                }
                bare
            }),
        }
    }
}

fn brace(braces: &mut Option<BracesPart>, depth_mm: f64) -> bool {
    match braces {
        None => *braces = Some(BracesPart { kind: BraceKind::Battens, count: 1.0, depth_mm, ..BracesPart::default() }),
        Some(braces) => braces.count += 1.0,
    }
    true
}

/// Changes every lid; says whether any was changed.
fn lids(design: &mut Design, change: impl Fn(&mut LidPart) -> bool) -> bool {
    let mut changed = change(&mut design.inner.lid);
    if let Some(shell) = &mut design.outer {
        changed |= change(&mut shell.lid);
    }
    changed
}

/// Seals holes; says whether any were open.
fn seal(holes: &mut HolesPart) -> bool {
    holes.count > 0.0 && !std::mem::replace(&mut holes.sealed, true)
}

/// What holds the box that the source shakes.
fn shaken_support(design: &mut Design) -> &mut SupportPart {
    if design.outer.is_some() { &mut design.suspension } else { &mut design.feet }
}
