//! What is chosen by name at a listener: the same for each.

use hushwright::bands::{NOMINAL_HZ, Spectrum};
use hushwright::design::ListenerPart;
use hushwright::need::{Background, BandValues, CriterionKind, Partition, Place, background_db};

use crate::choices::NONE;

type Words = &'static [(&'static str, &'static str)];

const PLACES: Words = &[
    ("same-room", "in the room with the box"),
    ("next-room", "behind a wall or floor"),
    ("outdoors", "outdoors, window shut"),
    ("corridor", "in the corridor, door shut"),
    ("behind-corridor", "past a corridor and door"),
];
const CRITERIA: Words = &[
    ("dba", "a limit in dBA"),
    ("who", "WHO guideline (1999)"),
    ("nr", "an NR curve"),
    ("nc", "an NC curve"),
    ("inaudible", "not to be heard at all"),
];
const AVERAGE: Words = &[("false", "do not count"), ("true", "count, as in the guideline")];
const BACKGROUNDS: Words = &[
    ("bedroom", "bedroom, 20 dBA"),
    ("living-room", "living room, 26 dBA"),
    ("town-room", "town room, 32 dBA"),
    ("country-outdoors", "country, open, 25 dBA"),
    ("suburb-outdoors", "suburb, open, 38 dBA"),
    ("own-level", "own level"),
    ("own-bands", "own band levels"),
];

/// A choice at a listener.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ListenerChoice {
    /// What lies between.
    Place,
    /// What parts the listener from the room.
    Partition,
    /// What the limit is taken from.
    Criterion,
    /// Whether quiet hours count.
    Average,
    /// What is heard anyway.
    Background,
}

impl ListenerChoice {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Place, Self::Partition, Self::Criterion, Self::Average, Self::Background];

    /// Its key in the document.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Place => "place",
            Self::Partition => "partition",
            Self::Criterion => "criterion",
            Self::Average => "average",
            Self::Background => "background",
        }
    }

    /// What it is called.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Place => "Place",
            Self::Partition => "Between them",
            Self::Criterion => "Limit from",
            Self::Average => "Quiet hours",
            Self::Background => "Background",
        }
    }

    /// Keys and words of what can be chosen.
    pub fn options(self) -> Vec<(&'static str, String)> {
        let words = match self {
            Self::Place => PLACES,
            Self::Criterion => CRITERIA,
            Self::Average => AVERAGE,
            Self::Background => BACKGROUNDS,
            Self::Partition => {
                let presets = Partition::ALL.map(|partition| (partition.key(), partition.label().to_owned()));
                return presets.into_iter().chain([(NONE, "own values".to_owned())]).collect();
            }
        };
        words.iter().map(|(key, words)| (*key, (*words).to_owned())).collect()
    }

    /// Number among the options of what `listener` has; none where the choice has no effect.
    pub fn get(self, listener: &ListenerPart) -> Option<usize> {
        match self {
            Self::Place => Some(listener.place as usize),
            Self::Partition => {
                listener.place.is_parted().then(|| listener.partition.map_or(Partition::ALL.len(), |p| p as usize))
            }
            Self::Criterion => Some(listener.criterion as usize),
            Self::Average => (listener.criterion == CriterionKind::Who).then_some(usize::from(listener.average)),
            Self::Background => Some(listener.background as usize),
        }
    }

    /// Gives `listener` the option `at`. Values of one's own begin with those that there were.
    pub fn set(self, listener: &mut ListenerPart, at: usize) {
        match self {
            Self::Place => {
                listener.place = Place::ALL[at];
                fit(listener);
            }
            Self::Partition => {
                let chosen = Partition::ALL.get(at).copied();
                if let Some(preset) = chosen {
                    listener.area_m2 = preset.area_m2();
                }
                listener.partition = chosen;
            }
            Self::Criterion => listener.criterion = CriterionKind::ALL[at],
            Self::Average => listener.average = at > 0,
            Self::Background => {
                let background = Background::ALL[at];
                if background == Background::OwnBands && listener.background_db.is_empty() {
                    let level_dba = listener.background.level_dba().unwrap_or(listener.background_dba);
                    listener.background_db = octaves_of(&background_db(level_dba), true);
                }
                listener.background = background;
            }
        }
    }
}

/// What is usual at a place, where what `listener` has cannot stand there: nobody hears it outdoors through a floor, or has
/// the background of a bedroom in the open.
fn fit(listener: &mut ListenerPart) {
    const WINDOWS: usize = Partition::SingleGlass as usize;
    const DOORS: usize = Partition::SolidDoor as usize;
    let usual = |at: usize| match listener.place {
        Place::Outdoors if at < WINDOWS => Some(Partition::InsulatingGlass),
        Place::Corridor | Place::BehindCorridor if at < DOORS => Some(Partition::SolidDoor),
        Place::NextRoom if at >= WINDOWS => Some(Partition::BrickWall),
        _ => None,
    };
    if let Some(usual) = listener.partition.and_then(|partition| usual(partition as usize)) {
        listener.area_m2 = usual.area_m2();
        listener.partition = Some(usual);
    }
    let open = listener.place == Place::Outdoors;
    let in_the_open = matches!(listener.background, Background::CountryOutdoors | Background::SuburbOutdoors);
    if listener.background.level_dba().is_some() && in_the_open != open {
        listener.background = if open { Background::SuburbOutdoors } else { Background::LivingRoom };
    }
}

/// Octaves of 63 Hz to 4 kHz of `thirds` in whole dB, as a person would type them: sums of levels, or the middle third of
/// what holds for each.
pub fn octaves_of(thirds: &Spectrum, levels: bool) -> BandValues {
    let sums = thirds.octaves();
    (1..8)
        .map(|octave| (NOMINAL_HZ[3 * octave + 1], if levels { sums[octave] } else { thirds[3 * octave + 1] }.round()))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_chosen_is_what_the_listener_has_and_what_the_document_says() {
        for choice in ListenerChoice::ALL {
            for (at, (key, _)) in choice.options().into_iter().enumerate() {
                let mut listener = ListenerPart::default();
                choice.set(&mut listener, at);
                assert_eq!(choice.get(&listener), Some(at), "{choice:?} {key}");
                let said = &serde_json::to_value(&listener).unwrap()[choice.key()];
                let said =
                    said.as_str().map_or_else(|| if said.is_null() { NONE.to_owned() } else { said.to_string() }, str::to_owned);
                assert_eq!(said, key, "{choice:?}");
                if listener.partition.is_none() {
                    // The reducer, which knows what was there, begins the list.
                    listener.reduction_db = vec![(500.0, 40.0)];
                }
                let design = hushwright::design::Design { listeners: vec![listener], ..Default::default() };
                assert!(design.check().is_ok(), "{choice:?} {key}: {:?}", design.check().err());
            }
        }
    }

    #[test]
    fn what_lies_between_fits_the_place() {
        let mut listener = ListenerPart { partition: Some(Partition::JoistFloor), ..ListenerPart::default() };
        let mut go = |place: Place| {
            ListenerChoice::Place.set(&mut listener, place as usize);
            (listener.partition.unwrap(), listener.background)
        };
        assert_eq!(go(Place::Outdoors), (Partition::InsulatingGlass, Background::SuburbOutdoors));
        assert_eq!(go(Place::Corridor), (Partition::SolidDoor, Background::LivingRoom));
        assert_eq!(go(Place::BehindCorridor), (Partition::SolidDoor, Background::LivingRoom));
        assert_eq!(go(Place::NextRoom), (Partition::BrickWall, Background::LivingRoom));
        listener.partition = Some(Partition::GarageDoor);
        listener.background = Background::OwnLevel;
        ListenerChoice::Place.set(&mut listener, Place::Outdoors as usize);
        assert_eq!((listener.partition, listener.background), (Some(Partition::GarageDoor), Background::OwnLevel));
        listener.partition = None;
        ListenerChoice::Place.set(&mut listener, Place::Corridor as usize);
        assert_eq!(listener.partition, None, "values of one's own stay");
    }

    #[test]
    fn the_words_for_a_background_say_its_level() {
        for (background, (_, words)) in Background::ALL.into_iter().zip(BACKGROUNDS) {
            if let Some(level) = background.level_dba() {
                assert!(words.ends_with(&format!(" {level} dBA")), "{words}");
            }
        }
    }
}
