//! Where a listener is, and how much of the sound power of the box gets there.

use super::room::{Room, diffuse_gain_db, room_gain_db};
use crate::bands::Spectrum;
use crate::math::to_db;

crate::mapping::names! {
    Place {
        SameRoom = "same-room", NextRoom = "next-room", Outdoors = "outdoors", Corridor = "corridor",
        BehindCorridor = "behind-corridor",
    }
}

/// What lies between the box and a listener.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Nothing: the room that the box stands in.
    SameRoom,
    /// One wall or floor, then a room.
    NextRoom,
    /// A shut window or gate, then the open air.
    Outdoors,
    /// A door, then a corridor.
    Corridor,
    /// A door, a corridor, and a door like the first, then a room.
    BehindCorridor,
}

impl Place {
    /// All of them, in the order in which a page offers them.
    pub const ALL: [Self; 5] = [Self::SameRoom, Self::NextRoom, Self::Outdoors, Self::Corridor, Self::BehindCorridor];

    /// Whether something parts the listener from the room with the box.
    pub const fn is_parted(self) -> bool {
        !matches!(self, Self::SameRoom)
    }

    /// Whether the listener is in a room of his own.
    pub const fn has_room(self) -> bool {
        matches!(self, Self::NextRoom | Self::BehindCorridor)
    }

    /// Whether a corridor comes first.
    pub const fn has_corridor(self) -> bool {
        matches!(self, Self::Corridor | Self::BehindCorridor)
    }

    /// Whether a distance counts.
    pub const fn has_distance(self) -> bool {
        matches!(self, Self::SameRoom | Self::Outdoors)
    }
}

/// Height in m and mean absorption coefficient of a corridor: plaster and a hard floor; assumed.
const CORRIDOR: (f64, f64) = (2.4, 0.05);
/// Level in dB that a diffuse field has less at a wall than a plane wave of its power (ISO 12354-4: Cd of small rooms).
const DIFFUSE_DB: f64 = -6.0;
/// Directivity factor of an opening in a wall near the ground: it radiates into a quarter of the space; assumed.
const QUARTER_SPACE: f64 = 4.0;

/// The way from the room with the box to a listener.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// Where the listener is.
    pub place: Place,
    /// Apparent sound reduction index R' in dB by band of what parts them (of each door on the way).
    pub reduction_db: Spectrum,
    /// Its area in m2.
    pub area_m2: f64,
    /// Absorption area in m2 of the listener's room.
    pub room_absorption_m2: f64,
    /// Floor area in m2 of the corridor.
    pub corridor_m2: f64,
    /// Distance in m: from the box in its room, or from the window in the open.
    pub distance_m: f64,
}

impl Way {
    /// Level in dB by band at the listener, less the sound power level of what stands in `room`.
    ///
    /// Next room: L2 = L1 - R' + 10 lg(S/A2) with the diffuse level L1 = Lw + 10 lg(4/A1) (ISO 12354-1:2017, and ISO
    /// 16283-1 as the meaning of R'). In the open: Lw' = L1 + Cd - R' + 10 lg S (ISO 12354-4:2017) and Lw' + 10 lg(Q/(4 pi
    /// r^2)). A corridor is taken as a room, which near its doors is too little and far down too much.
    pub fn gain_db(&self, room: &Room) -> Spectrum {
        let through = |absorption_m2: f64| to_db(self.area_m2 / absorption_m2);
        let corridor = || through(Room::new(self.corridor_m2, CORRIDOR.0, CORRIDOR.1, 1.0).absorption_area_m2);
        let (times, rest_db) = match self.place {
            Place::SameRoom => return Spectrum::constant(room_gain_db(&Room { distance_m: self.distance_m, ..*room })),
            Place::NextRoom => (1.0, through(self.room_absorption_m2)),
            Place::Outdoors => {
                let sphere_m2 = 4.0 * std::f64::consts::PI * self.distance_m * self.distance_m;
                (1.0, DIFFUSE_DB + to_db(self.area_m2 * QUARTER_SPACE / sphere_m2))
            }
            Place::Corridor => (1.0, corridor()),
            Place::BehindCorridor => (2.0, corridor() + through(self.room_absorption_m2)),
        };
        let first_db = diffuse_gain_db(room);
        self.reduction_db.map(|reduction| first_db - times * reduction + rest_db)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn way(place: Place) -> Way {
        Way {
            place,
            reduction_db: Spectrum::constant(50.0),
            area_m2: 10.0,
            room_absorption_m2: 10.0,
            corridor_m2: 12.0,
            distance_m: 6.0,
        }
    }

    fn room() -> Room {
        Room { absorption_area_m2: 10.0, distance_m: 3.0 }
    }

    /// 100 dB beside a wall of R' = 50 dB and 10 m2, 10 m2 of absorption behind: 50 dB.
    #[test]
    fn the_next_room_has_the_level_less_r() {
        let power_db = 100.0 - diffuse_gain_db(&room());
        let level = power_db + way(Place::NextRoom).gain_db(&room())[10];
        assert!((level - 50.0).abs() < 1e-12);
        let half = Way { room_absorption_m2: 20.0, ..way(Place::NextRoom) };
        assert!((power_db + half.gain_db(&room())[3] - (50.0 - 3.0103)).abs() < 1e-4);
    }

    /// A window of 1 m2 and no insulation in a diffuse field of 80 dB: 74 dB of power; 6 m off in a quarter of the space
    /// 74 - 10 lg(pi 36) = 53.5 dB. Twice as far: 6 dB less.
    #[test]
    fn in_the_open_the_level_falls_6_db_a_doubling() {
        let power_db = 80.0 - diffuse_gain_db(&room());
        let open = Way { reduction_db: Spectrum::constant(0.0), area_m2: 1.0, ..way(Place::Outdoors) };
        assert!((power_db + open.gain_db(&room())[0] - 53.466).abs() < 1e-2);
        let far = Way { distance_m: 12.0, ..open.clone() };
        assert!((open.gain_db(&room())[0] - far.gain_db(&room())[0] - 6.0206).abs() < 1e-4);
    }

    #[test]
    fn a_second_door_takes_its_share_again() {
        let (one, two) = (way(Place::Corridor).gain_db(&room())[9], way(Place::BehindCorridor).gain_db(&room())[9]);
        assert!((one - two - 50.0).abs() < 1e-9);
    }

    /// The energy balance itself: power into the next room is the intensity on the wall, I = p^2/(4 rho c), times S tau; it is
    /// taken up by A2. The levels follow without the formula.
    #[test]
    fn the_next_room_by_its_energy_balance() {
        let (power_w, rho_c) = (1e-3, 412.0);
        let source_p2 = 4.0 * rho_c * power_w / room().absorption_area_m2;
        let through_w = source_p2 / (4.0 * rho_c) * 10.0 * 1e-5;
        let listener_p2: f64 = 4.0 * rho_c * through_w / 10.0;
        let gain = way(Place::NextRoom).gain_db(&room())[0];
        let by_balance = to_db(listener_p2 / (power_w * rho_c));
        // p0^2 = rho c W0 for 412.0 and 20 uPa within 0.13 dB; here both levels are ratios to rho c W.
        assert!((gain - by_balance).abs() < 1e-9, "{gain} {by_balance}");
    }
}
