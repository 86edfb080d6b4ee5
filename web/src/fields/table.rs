//! The table of number fields: one row says everything about a number.

use hushwright::design::Design;

use super::listeners::ListenerField;
use super::materials::MaterialNumber;
use super::{Extent, Shell, SliderRange};
use crate::quantity::Quantity;

/// All that the page knows of a number of the document.
pub struct Row {
    /// Path in the document, as errors of the core name it.
    pub path: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// The part it belongs to, where the label alone does not say which number it is.
    pub part: &'static str,
    /// What it measures.
    pub quantity: Quantity,
    /// How far its slider goes in metric and in imperial units.
    pub ranges: [SliderRange; 2],
    /// It in a design that has the part.
    pub seen: fn(&Design) -> Option<&f64>,
    /// The same, to be changed.
    pub place: fn(&mut Design) -> Option<&mut f64>,
}

pub(super) const fn range((low, high, step): (f64, f64, f64)) -> SliderRange {
    SliderRange { low, high, step }
}

pub(super) const fn ranges(metric: (f64, f64, f64), imperial: (f64, f64, f64)) -> [SliderRange; 2] {
    [range(metric), range(imperial)]
}

/// The same in either system.
pub(super) const fn both(shown: (f64, f64, f64)) -> [SliderRange; 2] {
    ranges(shown, shown)
}

const SIDES: [SliderRange; 2] = ranges((200.0, 1500.0, 10.0), (8.0, 60.0, 0.5));
const LININGS: [SliderRange; 2] = ranges((10.0, 150.0, 5.0), (0.5, 6.0, 0.25));
const SHEETS: [SliderRange; 2] = ranges((0.5, 40.0, 0.5), (0.03125, 1.5, 0.03125));
const SHARES: [SliderRange; 2] = both((0.0, 100.0, 1.0));
const HEIGHTS: [SliderRange; 2] = ranges((5.0, 200.0, 5.0), (0.25, 8.0, 0.25));
const WIDTHS: [SliderRange; 2] = ranges((10.0, 60.0, 1.0), (0.5, 2.5, 0.125));
const DUCTS: [SliderRange; 2] = ranges((20.0, 300.0, 5.0), (1.0, 12.0, 0.25));
const FEW: [SliderRange; 2] = both((1.0, 6.0, 1.0));
const SOME: [SliderRange; 2] = both((1.0, 12.0, 1.0));
const SEALS: [SliderRange; 2] = both((1.0, 4.0, 1.0));
const HOLES: [SliderRange; 2] = ranges((4.0, 80.0, 1.0), (0.125, 3.0, 0.0625));
const CABLES: [SliderRange; 2] = ranges((0.0, 80.0, 1.0), (0.0, 3.0, 0.0625));
const TEST_MASSES: [SliderRange; 2] = ranges((1.0, 60.0, 0.5), (2.0, 130.0, 1.0));
const TEST_SAGS: [SliderRange; 2] = ranges((0.5, 60.0, 0.5), (0.03125, 2.5, 0.03125));
const BREAKING_LOADS: [SliderRange; 2] = ranges((20.0, 500.0, 5.0), (40.0, 1100.0, 10.0));
const PAD_SIDES: [SliderRange; 2] = ranges((20.0, 150.0, 5.0), (0.75, 6.0, 0.25));
const PADS: [SliderRange; 2] = ranges((5.0, 100.0, 1.0), (0.25, 4.0, 0.125));
const SHORE: [SliderRange; 2] = both((30.0, 80.0, 1.0));
const CONTENTS: [SliderRange; 2] = ranges((50.0, 1000.0, 5.0), (2.0, 40.0, 0.25));
const WAYS: [SliderRange; 2] = ranges((0.0, 3000.0, 10.0), (0.0, 120.0, 0.5));
const HOLE_COUNTS: [SliderRange; 2] = both((0.0, 12.0, 1.0));

/// Where a number is, as a table has it: `.source.driver?.count`, with a question mark behind what may be missing.
macro_rules! seen {
    ($at:expr; . $name:ident ?) => { $at.$name.as_ref() };
    ($at:expr; . $name:ident) => { Some(&$at.$name) };
    ($at:expr; . $name:ident ? $($rest:tt)+) => { seen!($at.$name.as_ref()?; $($rest)+) };
    ($at:expr; . $name:ident $($rest:tt)+) => { seen!($at.$name; $($rest)+) };
}

/// The same place, to be changed.
macro_rules! place {
    ($at:expr; . $name:ident ?) => { $at.$name.as_mut() };
    ($at:expr; . $name:ident) => { Some(&mut $at.$name) };
    ($at:expr; . $name:ident ? $($rest:tt)+) => { place!($at.$name.as_mut()?; $($rest)+) };
    ($at:expr; . $name:ident $($rest:tt)+) => { place!($at.$name; $($rest)+) };
}

/// The same place as the path in the document.
macro_rules! path_of {
    (. $name:ident $(?)?) => { stringify!($name) };
    (. $name:ident ? $($rest:tt)+) => { concat!(stringify!($name), ".", path_of!($($rest)+)) };
    (. $name:ident $($rest:tt)+) => { concat!(stringify!($name), ".", path_of!($($rest)+)) };
}

pub(super) use {path_of, place, seen};

/// Makes [`Field`](super::Field) and its rows out of one table.
macro_rules! fields {
    ($($name:ident ($($place:tt)+) $label:literal $part:literal $quantity:ident ($ranges:expr);)*) => {
        /// A number of the document that can be edited.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Field {
            $(#[doc = concat!("`", path_of!($($place)+), "`")] $name,)*
            /// Thickness of sheet `k` of a shell, counted from the inside.
            SheetThickness(Shell, usize),
            /// A number of the own material of sheet `k` of a shell.
            SheetNumber(Shell, usize, MaterialNumber),
            /// A size of the inner box as it is measured outside its innermost sheet, if that stands already.
            Outside(Extent),
            /// A number of listener `k`.
            Listener(usize, ListenerField),
        }

        impl Field {
            /// All fields but those of the sheets, of the listeners, and of sizes that are there twice.
            pub const FIXED: &[Self] = &[$(Self::$name),*];

            /// What the table says of it; for sheets all but the place.
            pub(super) fn row(self) -> &'static Row {
                match self {
                    $(Self::$name => const { &Row {
                        path: path_of!($($place)+),
                        label: $label,
                        part: $part,
                        quantity: Quantity::$quantity,
                        ranges: $ranges,
                        seen: |design| seen!(design; $($place)+),
                        place: |design| place!(design; $($place)+),
                    } },)*
                    Self::Listener(_, field) => &field.row().0,
                    Self::SheetNumber(_, _, number) => number.row(),
                    Self::Outside(Extent::Length) => const { &outside("Outside length") },
                    Self::Outside(Extent::Width) => const { &outside("Outside width") },
                    Self::Outside(Extent::Height) => const { &outside("Outside height") },
                    Self::SheetThickness(..) => &Row {
                        path: "",
                        label: "Thickness",
                        part: "",
                        quantity: Quantity::Thickness,
                        ranges: SHEETS,
                        seen: |_| None,
                        place: |_| None,
                    },
                }
            }
        }
    };
}

const fn outside(label: &'static str) -> Row {
    Row { path: "", label, part: "", quantity: Quantity::Length, ranges: SIDES, seen: |_| None, place: |_| None }
}

fields! {
    SourceLevel (.source.level_dba) "Level at 1 m" "" Level (both((60.0, 130.0, 1.0)));
    MaxAbove (.source.max_above_db) "Maximum above it" "" Decibels (both((0.0, 20.0, 1.0)));
    StartHour (.source.start_h) "Plays from" "" Hours (both((0.0, 24.0, 0.5)));
    PlayHours (.source.hours) "For how long" "hours of use" Hours (both((0.5, 24.0, 0.5)));
    DriverCount (.source.driver?.count) "Number" "drivers" Count (both((1.0, 8.0, 1.0)));
    DriverDiameter (.source.driver?.diameter_mm) "Nominal diameter" "" Length (ranges((100.0, 460.0, 1.0), (4.0, 18.0, 1.0)));
    Sensitivity (.source.driver?.sensitivity_db) "Sensitivity, 1 W at 1 m" "" Decibels (both((80.0, 106.0, 0.5)));
    PowerUsed (.source.driver?.power_w) "Power used, mean" "" Watts (both((1.0, 300.0, 1.0)));
    Crest (.source.driver?.crest_db) "Crest factor" "" Decibels (both((0.0, 20.0, 1.0)));
    SourceMass (.source.mass_kg) "Mass in the box" "" Mass (ranges((0.0, 60.0, 1.0), (0.0, 130.0, 1.0)));
    SourceHeat (.source.heat_w) "Heat given off" "" Power (both((0.0, 1500.0, 10.0)));
    MovingMass (.source.driver?.moving_mass_g) "Moving mass" "" Grams (both((5.0, 300.0, 5.0)));
    ConeArea (.source.driver?.cone_area_cm2) "Cone area" "" SmallArea (ranges((50.0, 1500.0, 5.0), (8.0, 230.0, 1.0)));
    InsideLength (.inner.length_mm) "Inside length" "" Length (SIDES);
    InsideWidth (.inner.width_mm) "Inside width" "" Length (SIDES);
    InsideHeight (.inner.height_mm) "Inside height" "" Length (SIDES);
    LiningThickness (.inner.lining?.thickness_mm) "Lining thickness" "" Thickness (LININGS);
    InnerFixity (.inner.edge_fixity) "Corners held" "inner box" Share (SHARES);
    InnerBraces (.inner.braces?.count) "Number" "inner braces" Count (FEW);
    InnerBraceWidth (.inner.braces?.width_mm) "Width" "inner braces" Length (WIDTHS);
    InnerBraceDepth (.inner.braces?.depth_mm) "Depth" "inner braces" Length (HEIGHTS);
    BaffleThickness (.inner.baffle?.thickness_mm) "Thickness" "baffle" Thickness (SHEETS);
    BaffleRear (.inner.baffle?.rear_mm) "Room behind" "baffle" Length (ranges((60.0, 800.0, 10.0), (2.5, 32.0, 0.5)));
    InnerSeals (.inner.lid.seals) "Seals in a row" "inner lid" Count (SEALS);
    InnerHoles (.inner.holes.count) "Number" "inner holes" Count (HOLE_COUNTS);
    InnerHoleDiameter (.inner.holes.diameter_mm) "Diameter" "inner holes" Length (HOLES);
    InnerCable (.inner.holes.cable_mm) "Cable in it" "inner holes" Length (CABLES);
    GapDepth (.gap.depth_mm) "Gap depth" "" Thickness (HEIGHTS);
    FillShare (.gap.fill?.share) "Filled part" "" Share (SHARES);
    SuspensionCount (.suspension.count) "Number" "suspension" Count (SOME);
    SuspensionTestMass (.suspension.test_mass_kg) "Test mass" "suspension" Mass (TEST_MASSES);
    SuspensionTestSag (.suspension.test_sag_mm) "Sag in the test" "suspension" Thickness (TEST_SAGS);
    SuspensionHeight (.suspension.height_mm) "Height, loaded" "suspension" Length (HEIGHTS);
    SuspensionBreaking (.suspension.breaking_load_kg) "Each fails at" "suspension" Mass (BREAKING_LOADS);
    SuspensionPadSide (.suspension.pad_side_mm) "Side of a pad" "suspension" Length (PAD_SIDES);
    SuspensionPadThickness (.suspension.pad_thickness_mm) "Thickness" "suspension" Thickness (PADS);
    SuspensionShore (.suspension.shore_a) "Shore A hardness" "suspension" Hardness (SHORE);
    OuterFixity (.outer?.edge_fixity) "Corners held" "outer box" Share (SHARES);
    OuterBraces (.outer?.braces?.count) "Number" "outer braces" Count (FEW);
    OuterBraceWidth (.outer?.braces?.width_mm) "Width" "outer braces" Length (WIDTHS);
    OuterBraceDepth (.outer?.braces?.depth_mm) "Depth" "outer braces" Length (HEIGHTS);
    OuterSeals (.outer?.lid.seals) "Seals in a row" "outer lid" Count (SEALS);
    OuterHoles (.outer?.holes.count) "Number" "outer holes" Count (HOLE_COUNTS);
    OuterHoleDiameter (.outer?.holes.diameter_mm) "Diameter" "outer holes" Length (HOLES);
    OuterCable (.outer?.holes.cable_mm) "Cable in it" "outer holes" Length (CABLES);
    VentCount (.vents?.count) "Number" "vents" Count (SOME);
    VentWidth (.vents?.width_mm) "Clear width" "vents" Length (DUCTS);
    VentHeight (.vents?.height_mm) "Clear height" "vents" Length (DUCTS);
    VentLength (.vents?.length_mm) "Length" "vents" Length (ranges((50.0, 4000.0, 50.0), (2.0, 160.0, 1.0)));
    VentBends (.vents?.bends) "Bends" "vents" Count (both((0.0, 12.0, 1.0)));
    VentLining (.vents?.lining?.thickness_mm) "Its thickness" "duct lining" Thickness (LININGS);
    RoomFloorArea (.room.floor_area_m2) "Floor area" "" Area (ranges((4.0, 100.0, 1.0), (40.0, 1000.0, 10.0)));
    RoomHeight (.room.height_m) "Ceiling height" "" Distance (ranges((2.0, 6.0, 0.1), (6.5, 20.0, 0.25)));
    RoomAbsorption (.room.absorption) "Absorption" "" Coefficient (both((0.02, 0.6, 0.01)));
    RoomDistance (.room.distance_m) "Distance" "" Distance (ranges((0.5, 10.0, 0.1), (2.0, 32.0, 0.5)));
    FeetCount (.feet.count) "Number" "feet" Count (SOME);
    FeetTestMass (.feet.test_mass_kg) "Test mass" "feet" Mass (TEST_MASSES);
    FeetTestSag (.feet.test_sag_mm) "Sag in the test" "feet" Thickness (TEST_SAGS);
    FeetHeight (.feet.height_mm) "Height, loaded" "feet" Length (HEIGHTS);
    FeetBreaking (.feet.breaking_load_kg) "Each fails at" "feet" Mass (BREAKING_LOADS);
    FeetPadSide (.feet.pad_side_mm) "Side of a pad" "feet" Length (PAD_SIDES);
    FeetPadThickness (.feet.pad_thickness_mm) "Thickness" "feet" Thickness (PADS);
    ContentsLength (.build.contents.length_mm) "Depth" "what stands in it" Length (ranges((50.0, 800.0, 5.0), (2.0, 32.0, 0.25)));
    ContentsWidth (.build.contents.width_mm) "Width" "what stands in it" Length (CONTENTS);
    ContentsHeight (.build.contents.height_mm) "Height" "what stands in it" Length (CONTENTS);
    Microphones (.build.contents.microphones) "Microphones" "" Count (both((0.0, 4.0, 1.0)));
    MicrophoneDistance (.build.contents.distance_mm) "Distance to them" "microphones" Length (ranges((0.0, 600.0, 5.0), (0.0, 24.0, 0.25)));
    MicrophoneLength (.build.contents.microphone_mm) "Length with plug" "microphones" Length (ranges((50.0, 300.0, 5.0), (2.0, 12.0, 0.25)));
    DoorWidth (.build.way.door_width_mm) "Clear width" "door" Length (ranges((500.0, 1200.0, 5.0), (20.0, 48.0, 0.25)));
    DoorHeight (.build.way.door_height_mm) "Clear height" "door" Length (ranges((1800.0, 2400.0, 5.0), (70.0, 96.0, 0.25)));
    CorridorWidth (.build.way.corridor_mm) "Corridor at the door" "" Length (WAYS);
    CornerWidth (.build.way.corner_mm) "Round a corner into" "corridor" Length (WAYS);
    StairsWidth (.build.way.stairs_mm) "Stairs and landing" "" Length (ranges((0.0, 2000.0, 10.0), (0.0, 80.0, 0.5)));
    HandleDepth (.build.way.handles_mm) "Handles stand out" "" Length (ranges((0.0, 100.0, 5.0), (0.0, 4.0, 0.25)));
    SeamPlay (.build.clearance_mm) "Play in seams" "" Thickness (ranges((0.0, 3.0, 0.1), (0.0, 0.125, 0.015625)));
    LidPlay (.build.lid_clearance_mm) "Play round lids" "" Thickness (ranges((0.5, 5.0, 0.1), (0.03125, 0.25, 0.015625)));
    CompoundCover (.build.compound_m2) "A tube covers" "compound" Area (ranges((1.0, 6.0, 0.1), (10.0, 65.0, 1.0)));
    ScrewPitch (.build.screw_mm) "Screws apart" "" Length (ranges((100.0, 400.0, 10.0), (4.0, 16.0, 0.5)));
    Bead (.build.bead_mm) "Bead of sealant" "" Thickness (ranges((2.0, 12.0, 0.5), (0.0625, 0.5, 0.03125)));
    Kerf (.build.kerf_mm) "Saw cut" "" Thickness (ranges((0.0, 6.0, 0.1), (0.0, 0.25, 0.015625)));
    Trim (.build.trim_mm) "Trimmed off edges" "" Thickness (ranges((0.0, 20.0, 1.0), (0.0, 0.75, 0.0625)));
    Waste (.build.waste) "Waste" "" Share (SHARES);
    Tax (.build.tax) "Tax" "" Share (both((0.0, 30.0, 1.0)));
    FeetShore (.feet.shore_a) "Shore A hardness" "feet" Hardness (SHORE);
}
