//! The number fields of the page: where each stands in the document, what it measures, how far its slider goes.

use hushwright::buildup::raw::Layer;
use hushwright::design::Design;

use crate::quantity::{Quantity, Units};

/// One of the two boxes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
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

    /// Path of its layers in the document.
    pub const fn path(self) -> &'static str {
        match self {
            Self::Inner => "inner.layers",
            Self::Outer => "outer.layers",
        }
    }
}

/// A number of the document that can be edited.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Field {
    /// Level of the source.
    SourceLevel,
    /// Inside length of the inner box.
    InsideLength,
    /// Inside width of the inner box.
    InsideWidth,
    /// Inside height of the inner box.
    InsideHeight,
    /// Thickness of the lining.
    LiningThickness,
    /// Thickness of sheet `k` of a shell, counted from the inside.
    SheetThickness(Shell, usize),
    /// Depth of the gap.
    GapDepth,
    /// Part of the gap that is filled.
    FillShare,
    /// Floor area of the room.
    RoomFloorArea,
    /// Height of the room.
    RoomHeight,
    /// Mean absorption coefficient of the room.
    RoomAbsorption,
    /// Distance in the room.
    RoomDistance,
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
            Self::SourceLevel => "source.level_dba".to_owned(),
            Self::InsideLength => "inner.length_mm".to_owned(),
            Self::InsideWidth => "inner.width_mm".to_owned(),
            Self::InsideHeight => "inner.height_mm".to_owned(),
            Self::LiningThickness => "inner.lining.thickness_mm".to_owned(),
            Self::SheetThickness(shell, k) => format!("{}[{}].thickness_mm", shell.path(), 2 * k),
            Self::GapDepth => "gap.depth_mm".to_owned(),
            Self::FillShare => "gap.fill.share".to_owned(),
            Self::RoomFloorArea => "room.floor_area_m2".to_owned(),
            Self::RoomHeight => "room.height_m".to_owned(),
            Self::RoomAbsorption => "room.absorption".to_owned(),
            Self::RoomDistance => "room.distance_m".to_owned(),
        }
    }

    /// The field at `path` of `design`, if it is one of the page's.
    pub fn at(path: &str, design: &Design) -> Option<Self> {
        let shells = [Shell::Inner, Shell::Outer].into_iter();
        let sheets = shells.flat_map(|shell| (0..shell.layers(design).len()).map(move |k| Self::SheetThickness(shell, k)));
        Self::FIXED.into_iter().chain(sheets).find(|field| field.path() == path)
    }

    /// All fields but those of the sheets.
    pub const FIXED: [Self; 11] = [
        Self::SourceLevel,
        Self::InsideLength,
        Self::InsideWidth,
        Self::InsideHeight,
        Self::LiningThickness,
        Self::GapDepth,
        Self::FillShare,
        Self::RoomFloorArea,
        Self::RoomHeight,
        Self::RoomAbsorption,
        Self::RoomDistance,
    ];

    /// Id of its input.
    pub fn id(self) -> String {
        id_of(&self.path())
    }

    /// What it is called.
    pub const fn label(self, units: Units) -> &'static str {
        match self {
            Self::SourceLevel => match units {
                Units::Metric => "Level at 1 m",
                Units::Imperial => "Level at 1 m (3.3 ft)",
            },
            Self::InsideLength => "Inside length",
            Self::InsideWidth => "Inside width",
            Self::InsideHeight => "Inside height",
            Self::LiningThickness => "Lining thickness",
            Self::SheetThickness(..) => "Thickness",
            Self::GapDepth => "Gap depth",
            Self::FillShare => "Filled part",
            Self::RoomFloorArea => "Floor area",
            Self::RoomHeight => "Ceiling height",
            Self::RoomAbsorption => "Absorption",
            Self::RoomDistance => "Distance",
        }
    }

    /// What it measures.
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::SourceLevel => Quantity::Level,
            Self::InsideLength | Self::InsideWidth | Self::InsideHeight => Quantity::Length,
            Self::LiningThickness | Self::SheetThickness(..) | Self::GapDepth => Quantity::Thickness,
            Self::FillShare => Quantity::Share,
            Self::RoomFloorArea => Quantity::Area,
            Self::RoomAbsorption => Quantity::Coefficient,
            Self::RoomHeight | Self::RoomDistance => Quantity::Distance,
        }
    }

    /// How far its slider goes: what people build, not all that is allowed.
    pub const fn slider(self, units: Units) -> SliderRange {
        let (low, high, step) = match (self, units) {
            (Self::SourceLevel, _) => (60.0, 130.0, 1.0),
            (Self::InsideLength | Self::InsideWidth | Self::InsideHeight, Units::Metric) => (200.0, 1500.0, 10.0),
            (Self::InsideLength | Self::InsideWidth | Self::InsideHeight, Units::Imperial) => (8.0, 60.0, 0.5),
            (Self::LiningThickness, Units::Metric) => (10.0, 150.0, 5.0),
            (Self::LiningThickness, Units::Imperial) => (0.5, 6.0, 0.25),
            (Self::SheetThickness(..), Units::Metric) => (0.5, 40.0, 0.5),
            (Self::SheetThickness(..), Units::Imperial) => (0.03125, 1.5, 0.03125),
            (Self::GapDepth, Units::Metric) => (5.0, 200.0, 5.0),
            (Self::GapDepth, Units::Imperial) => (0.25, 8.0, 0.25),
            (Self::FillShare, _) => (0.0, 100.0, 1.0),
            (Self::RoomFloorArea, Units::Metric) => (4.0, 100.0, 1.0),
            (Self::RoomFloorArea, Units::Imperial) => (40.0, 1000.0, 10.0),
            (Self::RoomHeight, Units::Metric) => (2.0, 6.0, 0.1),
            (Self::RoomHeight, Units::Imperial) => (6.5, 20.0, 0.25),
            (Self::RoomAbsorption, _) => (0.02, 0.6, 0.01),
            (Self::RoomDistance, Units::Metric) => (0.5, 10.0, 0.1),
            (Self::RoomDistance, Units::Imperial) => (2.0, 32.0, 0.5),
        };
        SliderRange { low, high, step }
    }

    /// Its number in `design`; none where the part it belongs to is absent.
    pub fn get(self, design: &Design) -> Option<f64> {
        // One list of places serves reading and writing; the clone is a few hundred bytes.
        self.place(&mut design.clone()).map(|place| *place)
    }

    /// Puts `value` into `design`; says whether there was a place for it.
    pub fn set(self, design: &mut Design, value: f64) -> bool {
        self.place(design).map(|place| *place = value).is_some()
    }

    fn place(self, design: &mut Design) -> Option<&mut f64> {
        match self {
            Self::SourceLevel => Some(&mut design.source.level_dba),
            Self::InsideLength => Some(&mut design.inner.length_mm),
            Self::InsideWidth => Some(&mut design.inner.width_mm),
            Self::InsideHeight => Some(&mut design.inner.height_mm),
            Self::LiningThickness => design.inner.lining.as_mut().map(|lining| &mut lining.thickness_mm),
            Self::SheetThickness(shell, k) => shell.layers_mut(design)?.get_mut(2 * k)?.thickness_mm.as_mut(),
            Self::GapDepth => Some(&mut design.gap.depth_mm),
            Self::FillShare => design.gap.fill.as_mut().map(|fill| &mut fill.share),
            Self::RoomFloorArea => Some(&mut design.room.floor_area_m2),
            Self::RoomHeight => Some(&mut design.room.height_m),
            Self::RoomAbsorption => Some(&mut design.room.absorption),
            Self::RoomDistance => Some(&mut design.room.distance_m),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(design: &Design) -> Vec<Field> {
        let sheets = [(Shell::Inner, 0), (Shell::Outer, 0), (Shell::Outer, 1), (Shell::Outer, 2)];
        let fields: Vec<_> = Field::FIXED.into_iter().chain(sheets.map(|(shell, k)| Field::SheetThickness(shell, k))).collect();
        assert!(fields.iter().all(|field| field.get(design).is_some()));
        fields
    }

    #[test]
    fn the_core_refuses_nonsense_under_the_path_of_the_field() {
        let design = Design::default();
        for field in all(&design) {
            let mut wrong = design.clone();
            assert!(field.set(&mut wrong, f64::NAN));
            let errors = wrong.check().unwrap_err();
            assert!(errors.iter().any(|error| error.path == field.path()), "{}: {errors:?}", field.path());
            assert_eq!(Field::at(&field.path(), &design), Some(field));
        }
    }

    #[test]
    fn a_slider_stays_within_what_the_core_allows() {
        let mut design = Design::default();
        design.inner.lining.as_mut().unwrap().thickness_mm = 10.0;
        for units in [Units::Metric, Units::Imperial] {
            for field in all(&design) {
                if field == Field::LiningThickness {
                    continue; // its upper end depends on the box, and the message says so
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
    fn a_slider_snaps_to_its_steps_and_every_step_moves_it() {
        for units in [Units::Metric, Units::Imperial] {
            for field in all(&Design::default()) {
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
    fn ids_are_paths_with_hyphens() {
        assert_eq!(Field::InsideLength.id(), "inner-length_mm");
        assert_eq!(Field::SheetThickness(Shell::Outer, 1).id(), "outer-layers-2-thickness_mm");
    }
}
