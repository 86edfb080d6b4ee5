//! Which explanation belongs to which input.

use super::{Topic, building, listening, of_material_number, openings, shells, sources, supports};
use crate::band_lists::BandList;
use crate::choices::Choice;
use crate::fields::{Field, ListenerField, MaterialNumber};
use crate::listener_choices::ListenerChoice;
use crate::presets::Preset;

/// The explanation of a number; numbers of one kind share it.
pub fn of_field(field: Field) -> Topic {
    match field {
        Field::SourceLevel => sources::SOURCE_LEVEL,
        Field::MaxAbove => sources::MAX_ABOVE,
        Field::StartHour | Field::PlayHours => sources::HOURS,
        Field::DriverCount => sources::DRIVER_COUNT,
        Field::DriverDiameter => sources::DRIVER_DIAMETER,
        Field::Sensitivity => sources::SENSITIVITY,
        Field::PowerUsed => sources::POWER,
        Field::Crest => sources::CREST,
        Field::SourceMass => sources::SOURCE_MASS,
        Field::SourceHeat => sources::SOURCE_HEAT,
        Field::MovingMass | Field::ConeArea => sources::RECOIL,
        Field::InsideLength | Field::InsideWidth | Field::InsideHeight => shells::INSIDE_SIZE,
        Field::LiningThickness => shells::LINING,
        Field::InnerFixity | Field::OuterFixity => shells::CORNERS,
        Field::InnerBraces | Field::OuterBraces => shells::BRACES,
        Field::InnerBraceWidth | Field::InnerBraceDepth | Field::OuterBraceWidth | Field::OuterBraceDepth => shells::BRACE_SIZE,
        Field::BaffleThickness => shells::BAFFLE,
        Field::BaffleRear => shells::REAR,
        Field::InnerSeals | Field::OuterSeals => openings::SEALS,
        Field::InnerHoles | Field::InnerHoleDiameter | Field::OuterHoles | Field::OuterHoleDiameter => openings::HOLES,
        Field::InnerCable | Field::OuterCable => openings::CABLE,
        Field::GapDepth => shells::GAP_DEPTH,
        Field::FillShare => shells::FILL,
        Field::SuspensionCount | Field::FeetCount => supports::COUNT,
        Field::SuspensionTestMass | Field::SuspensionTestSag | Field::FeetTestMass | Field::FeetTestSag => supports::TEST,
        Field::SuspensionHeight | Field::FeetHeight => supports::HEIGHT,
        Field::SuspensionBreaking | Field::FeetBreaking => supports::BREAKING,
        Field::SuspensionPadSide | Field::SuspensionPadThickness | Field::FeetPadSide | Field::FeetPadThickness => {
            supports::PAD_SIZE
        }
        Field::SuspensionShore | Field::FeetShore => supports::SHORE,
        Field::VentCount => openings::VENTS,
        Field::VentWidth | Field::VentHeight => openings::VENT_SECTION,
        Field::VentLength => openings::VENT_LENGTH,
        Field::VentBends => openings::VENT_BENDS,
        Field::VentLining => openings::VENT_LINING,
        Field::RoomFloorArea | Field::RoomHeight => listening::ROOM_SIZE,
        Field::RoomAbsorption => listening::ABSORPTION,
        Field::RoomDistance => listening::ROOM_DISTANCE,
        Field::ContentsLength | Field::ContentsWidth | Field::ContentsHeight => building::CONTENTS,
        Field::Microphones | Field::MicrophoneDistance | Field::MicrophoneLength => building::MICROPHONES,
        Field::DoorWidth
        | Field::DoorHeight
        | Field::CorridorWidth
        | Field::CornerWidth
        | Field::StairsWidth
        | Field::HandleDepth => building::WAY,
        Field::SeamPlay => building::PLAY,
        Field::LidPlay => building::LID_PLAY,
        Field::CompoundCover => building::COMPOUND,
        Field::ScrewPitch | Field::Bead => building::FASTENING,
        Field::Kerf | Field::Trim => building::SAWING,
        Field::Waste | Field::Tax => building::ALLOWANCE,
        Field::SheetThickness(..) => shells::SHEET_THICKNESS,
        Field::SheetNumber(_, _, number) => of_material_number(number),
        Field::Outside(_) => shells::EXISTING,
        Field::Listener(_, field) => of_listener_field(field),
    }
}

fn of_listener_field(field: ListenerField) -> Topic {
    match field {
        ListenerField::Area => listening::AREA,
        ListenerField::Flanking => listening::FLANKING,
        ListenerField::Corridor => listening::CORRIDOR,
        ListenerField::Distance => listening::LISTENER_DISTANCE,
        ListenerField::FloorArea | ListenerField::Height => listening::ROOM_SIZE,
        ListenerField::Absorption => listening::ABSORPTION,
        ListenerField::LimitDba => listening::LIMIT_DBA,
        ListenerField::LimitNr => listening::LIMIT_NR,
        ListenerField::LimitNc => listening::LIMIT_NC,
        ListenerField::Background => listening::BACKGROUND,
    }
}

/// The explanation of a choice.
pub fn of_choice(choice: Choice) -> Topic {
    match choice {
        Choice::Spectrum => sources::SPECTRUM,
        Choice::LevelFrom => sources::LEVEL_FROM,
        Choice::Driver => sources::DRIVER,
        Choice::Lining => shells::LINING,
        Choice::InnerBraces | Choice::OuterBraces => shells::BRACES,
        Choice::Baffle => shells::BAFFLE,
        Choice::InnerFace | Choice::OuterFace => openings::LID_FACE,
        Choice::InnerForm | Choice::OuterForm => openings::LID_EDGE,
        Choice::InnerSeal | Choice::OuterSeal => openings::SEAL,
        Choice::InnerSealed | Choice::OuterSealed => openings::SEALED,
        Choice::Fill => shells::FILL,
        Choice::FillSide => shells::FILL_SIDE,
        Choice::Suspension => supports::SUSPENSION,
        Choice::Outer => shells::OUTER,
        Choice::Vents => openings::VENTS,
        Choice::VentLining => openings::VENT_LINING,
        Choice::Floor => listening::FLOOR,
        Choice::Feet => supports::FEET,
        Choice::Grain => building::GRAIN,
        Choice::Sheet(..) => shells::SHEET,
        Choice::Shear(..) => of_material_number(MaterialNumber::ShearModulus),
        Choice::Existing => shells::EXISTING,
        Choice::Bond(..) => shells::JOINT,
        Choice::Listener(_, choice) => of_listener_choice(choice),
    }
}

fn of_listener_choice(choice: ListenerChoice) -> Topic {
    match choice {
        ListenerChoice::Place => listening::PLACE,
        ListenerChoice::Partition => listening::PARTITION,
        ListenerChoice::Criterion => listening::CRITERION,
        ListenerChoice::Average => listening::QUIET_HOURS,
        ListenerChoice::Background => listening::BACKGROUND,
    }
}

/// The explanation of a list of band values.
pub fn of_list(list: BandList) -> Topic {
    match list {
        BandList::Source => sources::OWN_LEVELS,
        BandList::Reduction(_) => listening::OWN_REDUCTION,
        BandList::Background(_) => listening::OWN_BACKGROUND,
    }
}

/// The explanation of numbers that are usual together.
pub fn of_preset(preset: Preset) -> Topic {
    match preset {
        Preset::Driver => sources::DRIVER_SIZE,
        Preset::Door => building::WAY,
        Preset::Room | Preset::ListenerRoom(_) => listening::KIND_OF_ROOM,
    }
}
