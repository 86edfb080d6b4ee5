//! The number fields of the page: where each stands in the document, what it measures, how far its slider goes.

mod listeners;
mod materials;
mod table;

use hushwright::buildup::check::tidy;
use hushwright::buildup::raw::Layer;
use hushwright::design::{Design, HolesPart, LevelFrom, SupportPart};
use hushwright::enclosure::SupportKind;
use hushwright::need::SourceSpectrum;

use crate::quantity::{Quantity, Units};

pub use listeners::ListenerField;
pub use materials::MaterialNumber;
pub use table::Field;

/// One of the two boxes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shell {
    /// The box round the source.
    Inner,
    /// The box round that box.
    Outer,
}

impl Shell {
    /// Its layers in `design`; none where there is no such box.
    pub fn layers(self, design: &Design) -> &[Layer] {
        match self {
            Self::Inner => &design.inner.layers,
            Self::Outer => design.outer.as_ref().map_or(&[], |shell| &shell.layers),
        }
    }

    /// Its layers in `design`, to be changed.
    pub fn layers_mut(self, design: &mut Design) -> Option<&mut Vec<Layer>> {
        match self {
            Self::Inner => Some(&mut design.inner.layers),
            Self::Outer => design.outer.as_mut().map(|shell| &mut shell.layers),
        }
    }

    /// How many of its innermost sheets stay where they are: one where that stands already.
    pub fn kept(self, design: &Design) -> usize {
        usize::from(self == Self::Inner && design.inner.existing)
    }

    /// Path of its layers in the document.
    pub const fn path(self) -> &'static str {
        match self {
            Self::Inner => "inner.layers",
            Self::Outer => "outer.layers",
        }
    }
}

/// One of the three sizes of a box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// Along its length.
    Length,
    /// Along its width.
    Width,
    /// Along its height.
    Height,
}

impl Extent {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Length, Self::Width, Self::Height];

    /// The same size of the inner box inside.
    const fn inside(self) -> Field {
        match self {
            Self::Length => Field::InsideLength,
            Self::Width => Field::InsideWidth,
            Self::Height => Field::InsideHeight,
        }
    }
}

/// The id that an input has on the page: its path with hyphens.
pub fn id_of(path: &str) -> String {
    path.replace(['.', '['], "-").replace(']', "")
}

/// Range of a slider in the unit shown; the number field beside it goes as far as the core allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SliderRange {
    /// Left end.
    pub low: f64,
    /// Right end.
    pub high: f64,
    /// Step.
    pub step: f64,
}

impl SliderRange {
    /// The range that `value` lies in: one beyond what people usually build lengthens the slider, so that it never shows
    /// another value than the field.
    #[must_use]
    pub const fn around(self, value: f64) -> Self {
        Self { low: self.low.min(value), high: self.high.max(value), ..self }
    }

    /// The step nearest to `value`, within the range.
    pub fn snap(self, value: f64) -> f64 {
        ((value / self.step).round() * self.step).clamp(self.low, self.high)
    }
}

impl Field {
    /// Path in the document, as errors of the core name it.
    pub fn path(self) -> String {
        match self {
            Self::SheetThickness(shell, k) => format!("{}[{}].thickness_mm", shell.path(), 2 * k),
            Self::Listener(k, _) => format!("listeners[{k}].{}", self.row().path),
            Self::SheetNumber(shell, k, _) => format!("{}[{}].sheet.{}", shell.path(), 2 * k, self.row().path),
            Self::Outside(extent) => extent.inside().path(),
            _ => self.row().path.to_owned(),
        }
    }

    /// All fields that `design` could have; of two for one number the one inside first.
    fn all(design: &Design) -> impl Iterator<Item = Self> {
        let places = [Shell::Inner, Shell::Outer].map(|shell| (0..shell.layers(design).len()).map(move |k| (shell, k)));
        let sheets = places.into_iter().flatten().flat_map(|(shell, k)| materials::fields_of(shell, k));
        let numbers = |k| ListenerField::ALL.iter().map(move |field| Self::Listener(k, *field));
        let listeners = (0..design.listeners.len()).flat_map(numbers);
        Self::FIXED.iter().copied().chain(sheets).chain(listeners).chain(Extent::ALL.map(Self::Outside))
    }

    /// The field at `path` of `design`, if it is one of the page's.
    pub fn at(path: &str, design: &Design) -> Option<Self> {
        Self::all(design).find(|field| field.path() == path)
    }

    /// The field whose input has this id.
    pub fn with_id(id: &str, design: &Design) -> Option<Self> {
        Self::all(design).find(|field| field.id() == id)
    }

    /// Id of its input.
    pub fn id(self) -> String {
        let id = id_of(&self.path());
        if matches!(self, Self::Outside(_)) { id.replace("inner-", "inner-outside-") } else { id }
    }

    /// The field that shows the same number of the document otherwise, if there is one.
    pub fn twin(self) -> Option<Self> {
        match self {
            Self::Outside(extent) => Some(extent.inside()),
            _ => Extent::ALL.into_iter().find(|extent| extent.inside() == self).map(Self::Outside),
        }
    }

    /// The shell and the number of the sheet that it belongs to, if it is one of a sheet.
    pub const fn sheet(self) -> Option<(Shell, usize)> {
        match self {
            Self::SheetThickness(shell, k) | Self::SheetNumber(shell, k, _) => Some((shell, k)),
            _ => None,
        }
    }

    /// The same number of sheet `k`, if it is one of a sheet.
    #[must_use]
    pub const fn of_sheet(self, k: usize) -> Self {
        match self {
            Self::SheetThickness(shell, _) => Self::SheetThickness(shell, k),
            Self::SheetNumber(shell, _, number) => Self::SheetNumber(shell, k, number),
            _ => self,
        }
    }

    /// What it is called.
    pub fn label(self, units: Units) -> &'static str {
        if self == Self::SourceLevel && units == Units::Imperial { "Level at 1 m (3.3 ft)" } else { self.row().label }
    }

    /// The part it belongs to, where the label alone does not say which number it is.
    pub fn part(self) -> &'static str {
        self.row().part
    }

    /// What it is called within a sentence.
    pub fn name(self, units: Units) -> String {
        let (label, part) = (self.label(units).to_ascii_lowercase(), self.part());
        if part.is_empty() { label } else { format!("{label} ({part})") }
    }

    /// What it measures.
    pub fn quantity(self) -> Quantity {
        self.row().quantity
    }

    /// How far its slider goes: what people build, not all that is allowed.
    pub fn slider(self, units: Units) -> SliderRange {
        self.row().ranges[units as usize]
    }

    /// By how much its number is more than the one in the document, in the document's unit.
    pub fn beyond(self, design: &Design) -> f64 {
        if matches!(self, Self::Outside(_)) { 2.0 * innermost_mm(design) } else { 0.0 }
    }

    /// Its number in `design`; none where the part it belongs to is absent.
    pub fn get(self, design: &Design) -> Option<f64> {
        if let Self::Outside(extent) = self {
            let inside_mm = extent.inside().get(design).filter(|_| design.inner.existing)?;
            return Some(tidy(inside_mm + self.beyond(design)));
        }
        self.seen(design).copied()
    }

    /// Puts `value` into `design`; says whether there was a place for it. A box that stands already keeps its outside when its boards
    /// turn out thicker or thinner: that is what can be measured.
    pub fn set(self, design: &mut Design, value: f64) -> bool {
        if let Self::Outside(extent) = self {
            let inside_mm = tidy(value - self.beyond(design));
            return design.inner.existing && extent.inside().set(design, inside_mm);
        }
        if self == Self::SheetThickness(Shell::Inner, 0) && design.inner.existing && value.is_finite() {
            let thinner_mm = innermost_mm(design) - value;
            for side in [&mut design.inner.length_mm, &mut design.inner.width_mm, &mut design.inner.height_mm] {
                *side = tidy(*side + 2.0 * thinner_mm);
            }
        }
        self.place(design).map(|place| *place = value).is_some()
    }

    fn seen(self, design: &Design) -> Option<&f64> {
        match self {
            Self::SheetThickness(shell, k) => shell.layers(design).get(2 * k)?.thickness_mm.as_ref(),
            Self::Listener(k, field) => (field.row().1)(design.listeners.get(k)?),
            Self::SheetNumber(shell, k, number) => number.seen(materials::numbers_of(design, shell, k)?),
            _ => (self.row().seen)(design),
        }
    }

    fn place(self, design: &mut Design) -> Option<&mut f64> {
        match self {
            Self::SheetThickness(shell, k) => shell.layers_mut(design)?.get_mut(2 * k)?.thickness_mm.as_mut(),
            Self::Listener(k, field) => (field.row().2)(design.listeners.get_mut(k)?),
            Self::SheetNumber(shell, k, number) => number.place(materials::numbers_to_change(design, shell, k)?),
            _ => (self.row().place)(design),
        }
    }

    /// What the page shows of it: a number that has no effect on this design is kept in it, and not shown.
    pub fn shown(self, design: &Design) -> Option<f64> {
        if self.has_effect(design) { self.get(design) } else { None }
    }

    /// Whether it has an effect on `design`, if it is there.
    fn has_effect(self, design: &Design) -> bool {
        let between = design.outer.is_some();
        let supports = |support: &SupportPart| match support.kind {
            SupportKind::Straps | SupportKind::Springs => !self.of_pads(),
            SupportKind::Pads => !self.of_springs(),
            SupportKind::Rigid => !self.of_pads() && !self.of_springs(),
        };
        let effective = match self.row().path.split_once('.') {
            Some(("gap", _)) => between,
            Some(("suspension", _)) => between && supports(&design.suspension),
            Some(("feet", _)) => supports(&design.feet),
            _ => true,
        };
        let holes = |holes: &HolesPart| holes.count > 0.0;
        let given = design.source.level_from == LevelFrom::Given;
        effective
            && match self {
                Self::InnerHoleDiameter | Self::InnerCable => holes(&design.inner.holes),
                Self::OuterHoleDiameter | Self::OuterCable => design.outer.as_ref().is_some_and(|outer| holes(&outer.holes)),
                Self::Listener(k, field) => design.listeners.get(k).is_some_and(field.row().3),
                Self::MicrophoneDistance | Self::MicrophoneLength => design.build.contents.microphones > 0.0,
                Self::SourceLevel => given && design.source.spectrum != SourceSpectrum::Own,
                Self::MaxAbove => given,
                Self::DriverCount | Self::DriverDiameter | Self::Sensitivity | Self::PowerUsed | Self::Crest => !given,
                _ => true,
            }
    }

    /// Whether it belongs to pads only.
    fn of_pads(self) -> bool {
        ["pad_side_mm", "pad_thickness_mm", "shore_a"].iter().any(|end| self.row().path.ends_with(end))
    }

    /// Whether it belongs to straps and springs only.
    fn of_springs(self) -> bool {
        ["test_mass_kg", "test_sag_mm", "height_mm", "breaking_load_kg"].iter().any(|end| self.row().path.ends_with(end))
    }
}

/// Thickness in mm of the innermost sheet of the inner box.
fn innermost_mm(design: &Design) -> f64 {
    design.inner.layers.first().and_then(|layer| layer.thickness_mm).unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use hushwright::design::{BracesPart, VentsPart};

    /// A design that has every part.
    fn whole() -> Design {
        let mut design = Design { vents: Some(VentsPart::default()), ..Design::default() };
        design.inner.braces = Some(BracesPart::default());
        design.outer.as_mut().unwrap().braces = Some(BracesPart::default());
        design
    }

    fn all(design: &Design) -> Vec<Field> {
        let sheets = [(Shell::Inner, 0), (Shell::Outer, 0), (Shell::Outer, 1), (Shell::Outer, 2)];
        let fixed = Field::FIXED.iter().copied();
        let fields: Vec<_> = fixed.chain(sheets.map(|(shell, k)| Field::SheetThickness(shell, k))).collect();
        assert!(fields.iter().all(|field| field.get(design).is_some()));
        fields
    }

    #[test]
    fn the_core_refuses_nonsense_under_the_path_of_the_field() {
        let design = whole();
        for field in all(&design) {
            let mut wrong = design.clone();
            assert!(field.set(&mut wrong, f64::NAN));
            let errors = wrong.check().unwrap_err();
            assert!(errors.iter().any(|error| error.path == field.path()), "{}: {errors:?}", field.path());
            assert_eq!(Field::at(&field.path(), &design), Some(field));
        }
    }

    /// Paths of all numbers in a document.
    fn walk(value: &serde_json::Value, path: &str, numbers: &mut Vec<String>) {
        match value {
            serde_json::Value::Number(_) => numbers.push(path.to_owned()),
            serde_json::Value::Object(parts) => {
                for (key, part) in parts {
                    walk(part, &if path.is_empty() { key.clone() } else { format!("{path}.{key}") }, numbers);
                }
            }
            _ => {}
        }
    }

    #[test]
    fn every_number_of_the_document_has_its_field() {
        let design = serde_json::to_value(whole()).unwrap();
        let mut numbers = Vec::new();
        walk(&design, "", &mut numbers);
        let mut fields: Vec<String> = Field::FIXED.iter().map(|field| field.path()).collect();
        numbers.sort();
        fields.sort();
        assert_eq!(numbers, fields);
    }

    /// A design with room and strength for every slider's ends, whatever the sizes of the box.
    fn roomy(field: Field) -> Design {
        let mut design = whole();
        design.gap.depth_mm = 210.0;
        let inner = &mut design.inner;
        inner.lining.as_mut().unwrap().thickness_mm = 10.0;
        (inner.length_mm, inner.width_mm, inner.height_mm) = (1500.0, 1500.0, 1500.0);
        if [Field::InsideLength, Field::InsideWidth, Field::InsideHeight, Field::LiningThickness].contains(&field) {
            inner.baffle = None;
            inner.braces = None;
            design.outer.as_mut().unwrap().braces = None;
        }
        for holes in [&mut design.inner.holes, &mut design.outer.as_mut().unwrap().holes] {
            (holes.diameter_mm, holes.cable_mm) = (80.0, 0.0);
        }
        let strong = SupportPart { count: 24.0, breaking_load_kg: 500.0, pad_side_mm: 100.0, ..SupportPart::springs() };
        design.feet = SupportPart { kind: SupportKind::Pads, ..strong.clone() };
        design.suspension = strong;
        design
    }

    #[test]
    fn a_slider_stays_within_what_the_core_allows() {
        for units in [Units::Metric, Units::Imperial] {
            for field in all(&whole()) {
                let mut design = roomy(field);
                if matches!(field, Field::GapDepth) {
                    // Its lower end depends on what stands in the gap, and the message says so.
                    design.suspension.kind = SupportKind::Rigid;
                    design.outer.as_mut().unwrap().braces = None;
                }
                let SliderRange { low, high, step } = field.slider(units);
                assert!(step > 0.0 && low < high);
                for shown in [low, high] {
                    let mut moved = design.clone();
                    field.set(&mut moved, field.quantity().to_document(shown, units));
                    assert!(moved.check().is_ok(), "{} at {shown} {units:?}: {:?}", field.path(), moved.check());
                }
            }
        }
    }

    #[test]
    fn every_field_has_a_name_of_its_own() {
        for units in [Units::Metric, Units::Imperial] {
            let mut names: Vec<_> = Field::FIXED.iter().map(|field| field.name(units)).collect();
            names.sort();
            let count = names.len();
            names.dedup();
            assert_eq!(names.len(), count, "{names:?}");
        }
    }

    #[test]
    fn only_what_counts_for_the_kind_of_support_is_shown() {
        let mut design = whole();
        let shown = |design: &Design| {
            let fields =
                Field::FIXED.iter().filter(|field| field.path().starts_with("suspension.") && field.shown(design).is_some());
            fields.map(|field| field.path().replace("suspension.", "")).collect::<Vec<_>>().join(" ")
        };
        for (kind, fields) in [
            (SupportKind::Straps, "count test_mass_kg test_sag_mm height_mm breaking_load_kg"),
            (SupportKind::Springs, "count test_mass_kg test_sag_mm height_mm breaking_load_kg"),
            (SupportKind::Pads, "count pad_side_mm pad_thickness_mm shore_a"),
            (SupportKind::Rigid, "count"),
        ] {
            design.suspension.kind = kind;
            assert_eq!(shown(&design), fields);
        }
        design.outer = None;
        assert_eq!(shown(&design), "");
        assert!(Field::GapDepth.shown(&design).is_none() && Field::FeetPadSide.shown(&design).is_some());
    }

    #[test]
    fn a_slider_snaps_to_its_steps_and_every_step_moves_it() {
        for units in [Units::Metric, Units::Imperial] {
            for field in all(&whole()) {
                let range = field.slider(units);
                for part in 0..37 {
                    let value = range.low + (range.high - range.low) * f64::from(part) / 40.0;
                    let next = range.snap(value + range.step);
                    assert!(next > value && next <= range.high, "{field:?} {units:?} {value}");
                }
                assert_eq!(range.around(range.high + 0.3).snap(f64::MAX), range.high + 0.3);
            }
        }
    }

    #[test]
    fn an_old_cabinet_is_measured_outside_and_the_inside_follows() {
        let mut design = whole();
        let outside = Extent::ALL.map(Field::Outside);
        assert!(outside.iter().all(|field| field.get(&design).is_none() && !field.set(&mut design.clone(), 700.0)));
        design.inner.existing = true;
        assert_eq!(outside.map(|field| field.get(&design)), [Some(730.0), Some(530.0), Some(530.0)]);
        assert!(outside[0].set(&mut design, 612.4) && outside[2].set(&mut design, 430.1));
        assert_eq!((design.inner.length_mm, design.inner.width_mm, design.inner.height_mm), (582.4, 500.0, 400.1));
        assert!(Field::SheetThickness(Shell::Inner, 0).set(&mut design, 18.7));
        assert_eq!((design.inner.length_mm, design.inner.width_mm, design.inner.height_mm), (575.0, 492.6, 392.7));
        assert_eq!(outside.map(|field| field.get(&design)), [Some(612.4), Some(530.0), Some(430.1)]);
        // Nonsense moves nothing, and only the innermost sheet counts.
        let before = design.clone();
        assert!(Field::SheetThickness(Shell::Inner, 0).set(&mut design, f64::NAN));
        assert_eq!(design.inner.length_mm, before.inner.length_mm);
        let mut built = whole();
        assert!(Field::SheetThickness(Shell::Inner, 0).set(&mut built, 18.0) && built.inner.length_mm == 700.0);
    }

    #[test]
    fn a_size_that_is_there_twice_has_two_ids_and_one_path() {
        for extent in Extent::ALL {
            let (outside, inside) = (Field::Outside(extent), extent.inside());
            assert_eq!((outside.twin(), inside.twin()), (Some(inside), Some(outside)));
            assert_eq!(outside.path(), inside.path());
            assert_eq!(Field::at(&inside.path(), &whole()), Some(inside));
            assert_eq!([inside, outside].map(|field| Field::with_id(&field.id(), &whole())), [Some(inside), Some(outside)]);
        }
        assert_eq!(Field::Outside(Extent::Length).id(), "inner-outside-length_mm");
        assert_eq!(Field::GapDepth.twin(), None);
    }

    #[test]
    fn ids_are_paths_with_hyphens() {
        assert_eq!(Field::InsideLength.id(), "inner-length_mm");
        assert_eq!(Field::SheetThickness(Shell::Outer, 1).id(), "outer-layers-2-thickness_mm");
        let density = Field::SheetNumber(Shell::Inner, 1, MaterialNumber::Density);
        assert_eq!(density.id(), "inner-layers-2-sheet-density");
    }
}
