//! The next step: what each single change of a design brings, and what it costs in mass, money and size.

mod measure;

pub use measure::Measure;

use crate::buildup::raw::{Layer, NameOr};
use crate::design::{Design, LiningPart, Shell};
use crate::evaluate::{Evaluator, Report};

/// Sheets that are laid on a shell, as they are usual: key and thickness in mm (common practice, no source).
const MORE_SHEETS: [(&str, f64); 4] = [("gypsum-board", 12.5), ("birch-plywood", 18.0), ("mdf", 18.0), ("particle-board", 18.0)];
/// Sheets that take the place of another, at its thickness.
const OTHER_SHEETS: [&str; 4] = ["gypsum-board", "birch-plywood", "mdf", "particle-board"];
/// By how many mm a gap is made deeper.
const DEEPER_MM: [f64; 2] = [25.0, 50.0];
/// By how many mm a lining is made thicker.
const THICKER_MM: [f64; 2] = [25.0, 50.0];
/// Measures that have no numbers of their own.
const MEASURES: [Measure; 11] = [
    Measure::BraceInner,
    Measure::BraceOuter,
    Measure::FillGap,
    Measure::OneMoreSeal,
    Measure::PressedSeals,
    Measure::SteppedLids,
    Measure::SealHoles,
    Measure::Springs,
    Measure::SofterSupports,
    Measure::LongerVents,
    Measure::LinedVents,
];
const COMPOUND: &str = "damping-compound";

/// Which shell a change is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// The box round the source.
    Inner,
    /// The box round that.
    Outer,
}

/// One change of a design.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// One without numbers of its own.
    Measure(Measure),
    /// A sheet more on the outside of a shell, on damping compound: key and thickness in mm.
    MoreSheet(Of, &'static str, f64),
    /// Another sheet in the place of layer `.1`, at its thickness.
    OtherSheet(Of, usize, &'static str),
    /// Damping compound in the joint that is layer `.1`.
    Compound(Of, usize),
    /// The gap deeper by this many mm.
    DeeperGap(f64),
    /// The lining thicker by this many mm, or one where there is none.
    ThickerLining(f64),
    /// A second box round the only one, with the gap and the suspension that the document holds.
    SecondBox,
}

fn layers(design: &Design, of: Of) -> Option<&Vec<Layer>> {
    match of {
        Of::Inner => Some(&design.inner.layers),
        Of::Outer => design.outer.as_ref().map(|shell| &shell.layers),
    }
}

fn layers_mut(design: &mut Design, of: Of) -> Option<&mut Vec<Layer>> {
    match of {
        Of::Inner => Some(&mut design.inner.layers),
        Of::Outer => design.outer.as_mut().map(|shell| &mut shell.layers),
    }
}

impl Change {
    /// All changes that make sense on `design`, in a fixed order: those that it passes its check with.
    pub fn all(design: &Design) -> Vec<Self> {
        let mut all: Vec<Self> = MEASURES.map(Self::Measure).to_vec();
        for of in [Of::Inner, Of::Outer] {
            all.extend(MORE_SHEETS.map(|(key, thickness_mm)| Self::MoreSheet(of, key, thickness_mm)));
            for (place, layer) in layers(design, of).into_iter().flatten().enumerate() {
                if let Some(NameOr::Name(bond)) = &layer.bond
                    && bond != COMPOUND
                {
                    all.push(Self::Compound(of, place));
                }
                if let Some(NameOr::Name(sheet)) = &layer.sheet {
                    let others = OTHER_SHEETS.into_iter().filter(|other| other != sheet);
                    all.extend(others.map(|other| Self::OtherSheet(of, place, other)));
                }
            }
        }
        all.extend(DEEPER_MM.map(Self::DeeperGap));
        all.extend(THICKER_MM.map(Self::ThickerLining));
        all.push(Self::SecondBox);
        all.retain(|change| change.applied(design).is_some_and(|changed| changed.check().is_ok()));
        all
    }

    /// `design` with this change; `None` where there is nothing to change.
    pub fn applied(self, design: &Design) -> Option<Design> {
        let mut changed = design.clone();
        let done = match self {
            Self::Measure(measure) => measure.apply(&mut changed),
            Self::MoreSheet(of, key, thickness_mm) => layers_mut(&mut changed, of).is_some_and(|layers| {
                layers.extend([Layer::bond(COMPOUND), Layer::sheet(key, thickness_mm)]);
                true
            }),
            // A box that stands already stays what it is.
            Self::OtherSheet(Of::Inner, 0, _) if design.inner.existing => false,
            Self::OtherSheet(of, place, key) => {
                let layer = layers_mut(&mut changed, of).and_then(|layers| layers.get_mut(place));
                layer.is_some_and(|layer| layer.sheet.replace(NameOr::Name(key.to_owned())).is_some())
            }
            Self::Compound(of, place) => {
                let layer = layers_mut(&mut changed, of).and_then(|layers| layers.get_mut(place));
                layer.is_some_and(|layer| layer.bond.replace(NameOr::Name(COMPOUND.to_owned())).is_some())
            }
            Self::DeeperGap(by_mm) => {
                changed.gap.depth_mm += by_mm;
                changed.outer.is_some()
            }
            Self::ThickerLining(by_mm) => {
                match &mut changed.inner.lining {
                    Some(lining) => lining.thickness_mm += by_mm,
                    None => changed.inner.lining = Some(LiningPart { thickness_mm: by_mm, ..LiningPart::default() }),
                }
                true
            }
            Self::SecondBox => {
                let single = changed.outer.is_none() && changed.vents.is_none();
                changed.outer = Some(Shell::default());
                single
            }
        };
        (done && changed != *design).then_some(changed)
    }
}

/// What a change brings and costs, each as it is with the change less as it is without.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// By how many dB the margin of the listener who decides grows; without listeners, the level in the room falls.
    pub gain_db: f64,
    /// By how many dB the A-weighted level there falls.
    pub gain_dba: f64,
    /// By how many dB the band that limits the design falls there.
    pub gain_in_band_db: f64,
    /// Mass in kg.
    pub mass_kg: f64,
    /// Material cost.
    pub cost: f64,
    /// What the longest side of the outside grows by, in mm.
    pub growth_mm: f64,
}

impl Step {
    /// What `change` does to `design`, which does what `before` says; `None` where it cannot be made.
    pub fn of(change: Change, design: &Design, before: &Report, evaluator: &mut Evaluator) -> Option<Self> {
        let after = evaluator.evaluate(&change.applied(design)?.check().ok()?);
        let band = before.limiting.band;
        let growth = |k: usize| 1000.0 * (after.outside_m[k] - before.outside_m[k]);
        Some(Self {
            gain_db: after.merit_db() - before.merit_db(),
            gain_dba: before.answer().dba - after.answer().dba,
            gain_in_band_db: before.answer().level_db[band] - after.answer().level_db[band],
            mass_kg: after.bill.mass_kg - before.bill.mass_kg,
            cost: after.bill.cost - before.bill.cost,
            growth_mm: growth(0).max(growth(1)).max(growth(2)),
        })
    }
}

/// Edge fixity between which a box of boards lies, and so the corners of an unknown one (assumed).
const CORNERS: [f64; 2] = [0.2, 0.9];

/// The answer in dBA with loose and with firm corners of all shells, all else of `design` alike, which does what `before` says.
pub fn corners_dba(design: &Design, before: &Report, evaluator: &mut Evaluator) -> [f64; 2] {
    CORNERS.map(|fixity| {
        let mut changed = design.clone();
        changed.inner.edge_fixity = fixity;
        if let Some(shell) = &mut changed.outer {
            shell.edge_fixity = fixity;
        }
        // Corners alone make no sound design unsound.
        changed.check().map_or(before.answer().dba, |checked| evaluator.evaluate(&checked).answer().dba)
    })
}

/// What steps are sorted by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Order {
    /// By what they bring.
    #[default]
    Gain,
    /// By what they bring for a kilogram.
    PerMass,
    /// By what they bring for the money.
    PerCost,
    /// By what they bring for what the box grows.
    PerGrowth,
}

/// Gain in dB below which a change brings nothing.
const NOTHING_DB: f64 = 0.05;

impl Order {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Gain, Self::PerMass, Self::PerCost, Self::PerGrowth];

    /// The steps' places, the best first. What gains without any price comes before all that has one, what brings nothing last; of
    /// equals the one that gains more, then the one that stands first.
    pub fn sorted(self, steps: &[Step]) -> Vec<usize> {
        let key = |step: &Step| {
            let price = match self {
                Self::Gain => 1.0,
                Self::PerMass => step.mass_kg,
                Self::PerCost => step.cost,
                Self::PerGrowth => step.growth_mm,
            };
            if step.gain_db < NOTHING_DB {
                (0, step.gain_db)
            } else if price > 0.0 {
                (1, step.gain_db / price)
            } else {
                (2, step.gain_db)
            }
        };
        let mut places: Vec<usize> = (0..steps.len()).collect();
        places.sort_by(|&a, &b| {
            let ((group_a, worth_a), (group_b, worth_b)) = (key(&steps[a]), key(&steps[b]));
            let by_gain = steps[b].gain_db.total_cmp(&steps[a].gain_db);
            group_b.cmp(&group_a).then(worth_b.total_cmp(&worth_a)).then(by_gain).then(a.cmp(&b))
        });
        places
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::examples;
    use crate::evaluate::evaluate;

    #[test]
    fn every_change_makes_a_sound_design_and_its_gain_is_the_difference() {
        for design in examples() {
            let before = evaluate(&design.check().expect("an example"));
            let mut evaluator = Evaluator::default();
            let all = Change::all(&design);
            assert!(all.len() > 10, "{}", all.len());
            for (place, &change) in all.iter().enumerate() {
                assert!(!all[..place].contains(&change), "{change:?} twice");
                let changed = change.applied(&design).expect("it applies");
                let after = evaluate(&changed.check().expect("it passes"));
                let step = Step::of(change, &design, &before, &mut evaluator).expect("it can be made");
                assert!((step.gain_db - (after.merit_db() - before.merit_db())).abs() < 1e-9, "{change:?}");
                assert!((step.mass_kg - (after.bill.mass_kg - before.bill.mass_kg)).abs() < 1e-9, "{change:?}");
                if matches!(change, Change::MoreSheet(..)) {
                    assert!(step.mass_kg > 0.0 && step.cost > 0.0 && step.growth_mm > 24.0, "{change:?}: {step:?}");
                }
            }
        }
    }

    /// Nothing that is proposed touches the box that stands already: neither its sheet nor its size.
    #[test]
    fn a_box_that_stands_already_stays_as_it_is() {
        for mut design in examples() {
            let free = Change::all(&design);
            design.inner.existing = true;
            let all = Change::all(&design);
            let other = |change: &Change| matches!(change, Change::OtherSheet(Of::Inner, 0, _));
            assert!(free.iter().any(other) && !all.iter().any(other));
            assert_eq!(Change::OtherSheet(Of::Inner, 0, "osb").applied(&design), None);
            for change in &all {
                let changed = change.applied(&design).expect("it applies").inner;
                assert_eq!(changed.layers[0], design.inner.layers[0], "{change:?}");
                let size = |inner: &crate::design::InnerPart| [inner.length_mm, inner.width_mm, inner.height_mm];
                assert_eq!((changed.existing, size(&changed)), (true, size(&design.inner)), "{change:?}");
            }
            // What goes round or into it is proposed as ever.
            assert_eq!(all.len(), free.iter().filter(|change| !other(change)).count());
            assert!(all.iter().any(|change| matches!(change, Change::MoreSheet(Of::Inner, ..))));
        }
    }

    #[test]
    fn a_second_box_is_for_one_that_is_alone_and_closed() {
        let offered: Vec<bool> = examples().iter().map(|design| Change::all(design).contains(&Change::SecondBox)).collect();
        assert_eq!(offered, [false, false, true]);
    }

    #[test]
    fn orders() {
        let step =
            |gain_db, mass_kg, cost, growth_mm| Step { gain_db, gain_dba: 0.0, gain_in_band_db: 0.0, mass_kg, cost, growth_mm };
        let steps =
            [step(3.0, 30.0, 60.0, 0.0), step(2.0, 2.0, 50.0, 25.0), step(-1.0, 0.0, 0.0, 0.0), step(1.0, 0.0, 1.0, 25.0)];
        assert_eq!(Order::Gain.sorted(&steps), [0, 1, 3, 2]);
        assert_eq!(Order::PerMass.sorted(&steps), [3, 1, 0, 2]);
        assert_eq!(Order::PerCost.sorted(&steps), [3, 0, 1, 2]);
        assert_eq!(Order::PerGrowth.sorted(&steps), [0, 1, 3, 2]);
    }
}
