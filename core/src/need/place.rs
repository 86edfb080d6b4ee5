//! Where a listener is, and how much of the sound power of the box gets there.

use super::room::{Room, diffuse_gain_db, room_gain_db};
use crate::bands::Spectrum;
use crate::math::{from_db, to_db};

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
/// Power that a diffuse field brings to a wall over that of a plane wave of its level: Cd = -6 dB (ISO 12354-4, small rooms).
const DIFFUSE: f64 = 0.25;
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
    /// Distance in m: from the middle of the box in its room, or from the window in the open.
    pub distance_m: f64,
}

impl Way {
    /// Level in dB by band at the listener, less the sound power level of what stands in `room`.
    ///
    /// Next room: L2 = L1 - R' + 10 lg(S/A2) with the diffuse level L1 = Lw + 10 lg(4/A1) (ISO 12354-1:2017, and ISO
    /// 16283-1 as the meaning of R'); to A2 belongs what goes back, S tau', so that behind a hole it is never louder than
    /// before it. In the open: Lw' = L1 + Cd - R' + 10 lg S (ISO 12354-4:2017) and Lw' + 10 lg(Q/(4 pi r^2 + Q S)): far off a
    /// point, right outside the intensity of the opening itself. A corridor is taken as a room, which near its doors is too
    /// little and far down too much.
    pub fn gain_db(&self, room: &Room) -> Spectrum {
        let first_db = diffuse_gain_db(room);
        let corridor_m2 = Room::new(self.corridor_m2, CORRIDOR.0, CORRIDOR.1, 1.0).absorption_area_m2;
        self.reduction_db.map(|reduction_db| {
            let open_m2 = self.area_m2 * from_db(-reduction_db);
            let into = |absorption_m2: f64| open_m2 / (absorption_m2 + open_m2);
            let ratio = match self.place {
                Place::SameRoom => return room_gain_db(&Room { distance_m: self.distance_m, ..*room }),
                Place::NextRoom => into(self.room_absorption_m2),
                Place::Outdoors => {
                    let sphere_m2 = 4.0 * std::f64::consts::PI * self.distance_m * self.distance_m;
                    DIFFUSE * open_m2 * QUARTER_SPACE / (sphere_m2 + QUARTER_SPACE * self.area_m2)
                }
                Place::Corridor => into(corridor_m2),
                Place::BehindCorridor => into(corridor_m2) * into(self.room_absorption_m2),
            };
            first_db + to_db(ratio)
        })
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
        assert!((level - 50.0).abs() < 1e-4);
        let half = Way { room_absorption_m2: 20.0, ..way(Place::NextRoom) };
        assert!((power_db + half.gain_db(&room())[3] - (50.0 - 3.0103)).abs() < 1e-4);
    }

    /// A window of 1 m2 and no insulation in a diffuse field of 80 dB: 74 dB of power; 6 m off in a quarter of the space
    /// 74 - 10 lg(pi 36 + 1) = 53.4 dB. Twice as far: 6 dB less.
    #[test]
    fn in_the_open_the_level_falls_6_db_a_doubling() {
        let power_db = 80.0 - diffuse_gain_db(&room());
        let open = Way { reduction_db: Spectrum::constant(0.0), area_m2: 1.0, ..way(Place::Outdoors) };
        assert!((power_db + open.gain_db(&room())[0] - 53.407).abs() < 1e-3);
        let far = Way { distance_m: 12.0, ..open.clone() };
        assert!((open.gain_db(&room())[0] - far.gain_db(&room())[0] - 6.0206).abs() < 0.05);
    }

    /// However large and thin what lies between: the next room is at most as loud as the first, and right outside a hole in
    /// its wall it is 6 dB quieter.
    #[test]
    fn nothing_between_makes_nothing_louder() {
        let before_db = diffuse_gain_db(&room());
        for reduction_db in [-10.0, 0.0, 3.0] {
            for place in [Place::NextRoom, Place::Corridor, Place::BehindCorridor] {
                let hole = Way { reduction_db: Spectrum::constant(reduction_db), area_m2: 200.0, ..way(place) };
                assert!(hole.gain_db(&room())[0] < before_db, "{place:?} {reduction_db}");
            }
        }
        let gate = Way { reduction_db: Spectrum::constant(0.0), area_m2: 20.0, distance_m: 0.5, ..way(Place::Outdoors) };
        let outside_db = gate.gain_db(&room())[0] - before_db;
        assert!(outside_db < -6.0 && outside_db > -6.5, "{outside_db}");
    }

    /// Two doors and what absorbs behind each: 100 dB, R' = 20 dB and 2 m2, 2.86 m2 in the corridor and 10 m2 in the room.
    #[test]
    fn behind_the_corridor_both_rooms_absorb() {
        let doors = Way { reduction_db: Spectrum::constant(20.0), area_m2: 2.0, ..way(Place::BehindCorridor) };
        let corridor_m2 = 0.05 * (2.0 * 12.0 + 4.0 * 12.0_f64.sqrt() * 2.4);
        let lost_db = diffuse_gain_db(&room()) - doors.gain_db(&room())[0];
        assert!((lost_db - 40.0 - to_db(corridor_m2 / 2.0) - to_db(10.0 / 2.0)).abs() < 0.1, "{lost_db}");
    }

    #[test]
    fn a_second_door_takes_its_share_again() {
        let (one, two) = (way(Place::Corridor).gain_db(&room())[9], way(Place::BehindCorridor).gain_db(&room())[9]);
        assert!((one - two - 50.0).abs() < 1e-4);
    }

    /// The energy balance itself: power into the next room is the intensity on the wall, I = p^2/(4 rho c), times S tau; it is
    /// taken up by A2 and by the wall, which lets it back. The levels follow without the formula.
    #[test]
    fn the_next_room_by_its_energy_balance() {
        let (power_w, rho_c) = (1e-3, 412.0);
        let source_p2 = 4.0 * rho_c * power_w / room().absorption_area_m2;
        let open_m2 = 10.0 * 0.1;
        let through_w = source_p2 / (4.0 * rho_c) * open_m2;
        let listener_p2: f64 = 4.0 * rho_c * through_w / (10.0 + open_m2);
        let thin = Way { reduction_db: Spectrum::constant(10.0), ..way(Place::NextRoom) };
        let gain = thin.gain_db(&room())[0];
        let by_balance = to_db(listener_p2 / (power_w * rho_c));
        // p0^2 = rho c W0 for 412.0 and 20 uPa within 0.13 dB; here both levels are ratios to rho c W.
        assert!((gain - by_balance).abs() < 1e-9, "{gain} {by_balance}");
    }
}
