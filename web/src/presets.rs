//! Numbers that are usual together, chosen by words.

use hushwright::design::Design;
use hushwright::workshop::passage::DOORS;

/// Mean absorption coefficients in words; assumed, rounded from rooms of the kind (no source).
pub const ROOMS: [(f64, &str); 5] = [
    (0.05, "bare: concrete, tiles, glass"),
    (0.1, "workshop or garage, some goods"),
    (0.2, "living room"),
    (0.3, "bedroom: bed, carpet, curtains"),
    (0.5, "treated for recording"),
];

/// Nominal diameter in mm, moving mass in g and cone area in cm2 of loudspeakers as they are common for instruments; assumed.
const DRIVERS: [([f64; 3], &str); 6] = [
    ([165.0, 14.0, 140.0], "6.5 inch"),
    ([203.0, 20.0, 215.0], "8 inch"),
    ([254.0, 30.0, 340.0], "10 inch"),
    ([305.0, 45.0, 530.0], "12 inch"),
    ([381.0, 110.0, 855.0], "15 inch"),
    ([457.0, 170.0, 1150.0], "18 inch"),
];

/// Clear width and height in mm of a usual door.
fn door_mm(at: usize) -> [f64; 2] {
    [DOORS[at].door.width_m, DOORS[at].door.height_m].map(|side| (1e4 * side).round() / 10.0)
}

/// Words that stand for numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Preset {
    /// How big the driver is.
    Driver,
    /// A usual door.
    Door,
    /// How the room with the box is furnished.
    Room,
    /// How the room of listener `k` is furnished.
    ListenerRoom(usize),
}

impl Preset {
    /// Where its refusal would show; its id.
    pub const fn path(self) -> &'static str {
        match self {
            Self::Driver => "driver-size",
            Self::Door => "usual-door",
            Self::Room | Self::ListenerRoom(_) => "kind-of-room",
        }
    }

    /// What it is called.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Driver => "Size of the driver",
            Self::Door => "Usual door, its leaf",
            Self::Room | Self::ListenerRoom(_) => "Kind of room",
        }
    }

    /// The words, one for each set of numbers.
    pub fn words(self) -> Vec<&'static str> {
        match self {
            Self::Driver => DRIVERS.map(|(_, words)| words).to_vec(),
            Self::Door => DOORS.iter().map(|door| door.name).collect(),
            Self::Room | Self::ListenerRoom(_) => ROOMS.map(|(_, words)| words).to_vec(),
        }
    }

    /// Which of the words fits `design`: none of them, or no place for any.
    pub fn get(self, design: &Design) -> Option<Option<usize>> {
        let room = |absorption: f64| ROOMS.iter().position(|(own, _)| (own - absorption).abs() < 1e-9);
        match self {
            Self::Driver => design.source.driver.as_ref().map(|driver| {
                let own = [driver.diameter_mm, driver.moving_mass_g, driver.cone_area_cm2];
                DRIVERS.iter().position(|(numbers, _)| *numbers == own)
            }),
            Self::Door => {
                let way = &design.build.way;
                Some((0..DOORS.len()).find(|at| door_mm(*at) == [way.door_width_mm, way.door_height_mm]))
            }
            Self::Room => Some(room(design.room.absorption)),
            Self::ListenerRoom(k) => design
                .listeners
                .get(k)
                .filter(|listener| listener.place.has_room())
                .map(|listener| room(listener.room.absorption)),
        }
    }

    /// Gives `design` the numbers of the words `at`.
    pub fn set(self, design: &mut Design, at: usize) {
        match self {
            Self::Driver => {
                if let (Some(driver), Some((numbers, _))) = (&mut design.source.driver, DRIVERS.get(at)) {
                    [driver.diameter_mm, driver.moving_mass_g, driver.cone_area_cm2] = *numbers;
                }
            }
            Self::Door => {
                if at < DOORS.len() {
                    [design.build.way.door_width_mm, design.build.way.door_height_mm] = door_mm(at);
                }
            }
            Self::Room => {
                if let Some((absorption, _)) = ROOMS.get(at) {
                    design.room.absorption = *absorption;
                }
            }
            Self::ListenerRoom(k) => {
                if let (Some(listener), Some((absorption, _))) = (design.listeners.get_mut(k), ROOMS.get(at)) {
                    listener.room.absorption = *absorption;
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stand_for_their_numbers_and_other_numbers_for_none() {
        for preset in [Preset::Driver, Preset::Room, Preset::ListenerRoom(0)] {
            for at in 0..preset.words().len() {
                let mut design = Design::default();
                preset.set(&mut design, at);
                assert_eq!(preset.get(&design), Some(Some(at)), "{preset:?}");
                assert!(design.check().is_ok());
            }
        }
        let mut design = Design::default();
        design.room.absorption = 0.123;
        assert_eq!(Preset::Room.get(&design), Some(None));
        assert_eq!(Preset::ListenerRoom(3).get(&design), None);
        design.source.driver = None;
        assert_eq!(Preset::Driver.get(&design), None);
    }
}
