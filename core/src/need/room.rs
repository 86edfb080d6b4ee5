//! Level in a room from a sound power.

use crate::bands::Spectrum;
use crate::math::to_db;

/// A room taken as one diffuse field beside the direct sound.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Absorption area in m2.
    pub absorption_area_m2: f64,
    /// Distance in m from the source to the ear.
    pub distance_m: f64,
}

impl Room {
    /// A room of `floor_area_m2` (taken as square), `height_m` and mean absorption coefficient `absorption`.
    pub fn new(floor_area_m2: f64, height_m: f64, absorption: f64, distance_m: f64) -> Self {
        let surface_m2 = 2.0 * floor_area_m2 + 4.0 * floor_area_m2.sqrt() * height_m;
        Self { absorption_area_m2: absorption * surface_m2, distance_m }
    }
}

/// Level in dB at the ear less the sound power level, source on the floor (directivity factor 2).
///
/// 10 lg(Q/(4 pi r^2) + 4/A): direct sound and diffuse field (Beranek 1954, Acoustics, ch. 10, from memory, but with A in place
/// of his room constant A/(1 - alpha), as ISO 12354 has it; the diffuse field is 0.5 dB higher for it at a mean absorption of
/// 0.1, 1.5 dB at 0.3).
pub fn room_gain_db(room: &Room) -> f64 {
    let direct = 2.0 / (4.0 * std::f64::consts::PI * room.distance_m * room.distance_m);
    to_db(direct + 4.0 / room.absorption_area_m2)
}

/// Level in dB of the diffuse field alone less the sound power level: 10 lg(4/A).
pub fn diffuse_gain_db(room: &Room) -> f64 {
    to_db(4.0 / room.absorption_area_m2)
}

/// Level in dB at the ear from a sound power level in dB: see [`room_gain_db`].
pub fn room_level_db(power_level_db: &Spectrum, room: &Room) -> Spectrum {
    let gain_db = room_gain_db(room);
    power_level_db.map(|level| level + gain_db)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 4 m by 4 m by 2.5 m: 32 m2 of floor and ceiling, 40 m2 of walls.
    #[test]
    fn a_room_absorbs_with_all_its_six_faces() {
        assert!((Room::new(16.0, 2.5, 0.1, 1.0).absorption_area_m2 - 7.2).abs() < 1e-12);
    }

    /// In the middle of a hall without walls: 1 W on a floor gives 120 dB - 10 lg(2 pi) at 1 m, 6 dB less at 2 m.
    #[test]
    fn without_walls_the_floor_alone_reflects() {
        let gain = |distance_m| room_gain_db(&Room { absorption_area_m2: 1e9, distance_m });
        assert!((gain(1.0) + 7.9818).abs() < 1e-4 && (gain(1.0) - gain(2.0) - 6.0206).abs() < 1e-4);
    }
}
