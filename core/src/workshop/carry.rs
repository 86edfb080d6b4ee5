//! Mass and what follows from it: people to lift it, castors, hanging points, the load on the floor.

use serde::{Deserialize, Serialize};

use crate::enclosure::FREE_FALL;

/// Mass in kg that one person lifts at best: close to the body, between knee and elbow (guideline figure of the British
/// Health and Safety Executive for men; from memory). Away from the body it is half or less.
pub const LIFT_PER_PERSON_KG: f64 = 25.0;
/// Breaking load over working load of eye bolts and straps (common practice, no source).
pub const HANGING_SAFETY_FACTOR: f64 = 5.0;
/// Mass of a person in kg, as lifts count them (EN 81; from memory).
pub const PERSON_KG: f64 = 75.0;
/// Lower end of the usual design load of floors in dwellings in kPa (EN 1991-1-1, category A: 1.5 to 2.0 kN/m2; from memory).
pub const DWELLING_FLOOR_LOW_KPA: f64 = 1.5;
/// Upper end of it in kPa (the same; ASCE 7 has 40 lb/ft2, 1.92 kPa; from memory).
pub const DWELLING_FLOOR_HIGH_KPA: f64 = 2.0;

/// A part: how heavy, and where its centre is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mass {
    /// Mass in kg, positive.
    pub kg: f64,
    /// Centre of mass in m along length, width and height, from any one point.
    pub at_m: [f64; 3],
}

/// Sum and common centre of mass of `parts`; `None` where they weigh nothing, for then there is no centre.
pub fn together(parts: &[Mass]) -> Option<Mass> {
    let kg: f64 = parts.iter().map(|part| part.kg).sum();
    // Shares first: products of mass and distance could overflow where neither does.
    let at_m = [0, 1, 2].map(|axis| parts.iter().map(|part| part.kg / kg * part.at_m[axis]).sum());
    (kg > 0.0).then_some(Mass { kg, at_m })
}

/// Lifting one piece.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lift {
    /// Its mass in kg.
    pub kg: f64,
    /// People that it takes, at least one.
    pub people: u32,
    /// What each of them lifts in kg.
    pub each_kg: f64,
}

/// People that it takes to lift `kg`, with at most [`LIFT_PER_PERSON_KG`] each: the whole, a shell or a lid.
pub fn lift(kg: f64) -> Lift {
    // The cast stops at the largest number, some four thousand million.
    let people = ((kg / LIFT_PER_PERSON_KG).ceil() as u32).max(1);
    Lift { kg, people, each_kg: kg / f64::from(people) }
}

/// Load on each of several castors or hanging points.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct SupportLoad {
    /// How many there are.
    pub count: usize,
    /// Load in kg that each has to be rated for: all but one carry everything.
    pub rated_kg: f64,
    /// Half of the mass in kg: what each of two opposite ones carries while a stiff box rocks on them. Only for a moment, but
    /// more than the rating where there are more than three.
    pub rocking_kg: f64,
}

/// Load that each of `count` castors has to be rated for: an uneven floor leaves one of them in the air, and the others carry
/// everything (common practice, no source). One castor, or none given, counts as one.
pub fn castors(kg: f64, count: usize) -> SupportLoad {
    let carrying = count.saturating_sub(1).max(1);
    SupportLoad { count, rated_kg: kg / carrying as f64, rocking_kg: if count > 1 { 0.5 * kg } else { kg } }
}

/// What eye bolts or straps have to bear.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct HangingLoad {
    /// Working load in kg of each: all but one carry everything.
    pub working_kg: f64,
    /// Breaking load in kg of each: [`HANGING_SAFETY_FACTOR`] times as much.
    pub breaking_kg: f64,
}

/// What each of `count` eye bolts or straps has to bear when `kg` hang on them straight down; at a slant they bear more.
pub fn hanging(kg: f64, count: usize) -> HangingLoad {
    let working_kg = castors(kg, count).rated_kg;
    HangingLoad { working_kg, breaking_kg: HANGING_SAFETY_FACTOR * working_kg }
}

/// What stands on a floor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Standing {
    /// Mass of the box in kg.
    pub box_kg: f64,
    /// Mass of what is in it in kg.
    pub contents_kg: f64,
    /// Mass in kg of people in or on it; see [`PERSON_KG`].
    pub people_kg: f64,
    /// Length and width in m of the floor that it takes.
    pub footprint_m: [f64; 2],
    /// Number of feet; none given counts as one.
    pub feet: usize,
}

/// A load against the usual design load of floors in dwellings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum LoadLevel {
    /// Below the lower end.
    Below,
    /// Between the ends, or at one of them.
    Within,
    /// Above the upper end: ask someone who can judge the floor.
    Above,
}

/// Load on a floor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct FloorLoad {
    /// Weight in N.
    pub weight_n: f64,
    /// Mean pressure in kPa over the footprint.
    pub pressure_kpa: f64,
    /// Pressure over [`DWELLING_FLOOR_LOW_KPA`].
    pub share_of_low: f64,
    /// Pressure over [`DWELLING_FLOOR_HIGH_KPA`].
    pub share_of_high: f64,
    /// Where that is.
    pub level: LoadLevel,
    /// Force in N under each foot, shared equally.
    pub per_foot_n: f64,
    /// Area in m2 over which it would have to be spread to stay at [`DWELLING_FLOOR_LOW_KPA`].
    pub spread_m2: f64,
}

/// Load of what stands on a floor. Masses not negative, lengths positive; finite where weight over area is.
pub fn floor_load(standing: &Standing) -> FloorLoad {
    let weight_n = FREE_FALL * (standing.box_kg + standing.contents_kg + standing.people_kg);
    let [length, width] = standing.footprint_m;
    let pressure_kpa = weight_n / 1000.0 / length / width;
    let level = if pressure_kpa < DWELLING_FLOOR_LOW_KPA {
        LoadLevel::Below
    } else if pressure_kpa <= DWELLING_FLOOR_HIGH_KPA {
        LoadLevel::Within
    } else {
        LoadLevel::Above
    };
    FloorLoad {
        weight_n,
        pressure_kpa,
        share_of_low: pressure_kpa / DWELLING_FLOOR_LOW_KPA,
        share_of_high: pressure_kpa / DWELLING_FLOOR_HIGH_KPA,
        level,
        per_foot_n: weight_n / standing.feet.max(1) as f64,
        spread_m2: weight_n / 1000.0 / DWELLING_FLOOR_LOW_KPA,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_parts_balance_at_the_lever() {
        let parts = [Mass { kg: 30.0, at_m: [0.0, 1.0, 0.0] }, Mass { kg: 10.0, at_m: [1.0, 1.0, 0.4] }];
        let whole = together(&parts).expect("it weighs something");
        assert_eq!(whole.kg, 40.0);
        for (got, by_hand) in whole.at_m.into_iter().zip([0.25, 1.0, 0.1]) {
            assert!((got - by_hand).abs() < 1e-15, "{whole:?}");
        }
        assert_eq!(together(&[]), None);
    }

    #[test]
    fn people_are_whole() {
        let people = |kg: f64| lift(kg).people;
        assert_eq!([0.1, 25.0, 25.1, 50.0, 101.0].map(people), [1, 1, 2, 2, 5]);
        assert_eq!(lift(75.0).each_kg, 25.0);
        assert_eq!(people(1e300), u32::MAX);
    }

    #[test]
    fn all_but_one_carry_everything() {
        assert_eq!((castors(120.0, 4).rated_kg, castors(120.0, 4).rocking_kg), (40.0, 60.0));
        assert_eq!((castors(120.0, 1).rated_kg, castors(120.0, 1).rocking_kg), (120.0, 120.0));
        assert_eq!(hanging(120.0, 4), HangingLoad { working_kg: 40.0, breaking_kg: 200.0 });
    }

    /// 40 lb/ft2 are 1.915 kPa (ASCE 7; 0.45359237 kg, 9.80665 m/s2, 0.3048 m): 400 lb on 2 x 5 ft.
    #[test]
    fn forty_pounds_on_a_square_foot() {
        let footprint_m = [2.0 * 0.3048, 5.0 * 0.3048];
        let standing = Standing {
            box_kg: 300.0 * 0.453_592_37,
            contents_kg: 25.0 * 0.453_592_37,
            people_kg: 75.0 * 0.453_592_37,
            footprint_m,
            feet: 4,
        };
        let load = floor_load(&standing);
        assert!((load.pressure_kpa - 1.915).abs() < 5e-4, "{load:?}");
        assert_eq!(load.level, LoadLevel::Within);
        // 1779.3 N: 444.8 N under each foot, and 1.186 m2 to spread it.
        assert!((load.per_foot_n - 444.82).abs() < 0.01 && (load.spread_m2 - 1.1862).abs() < 1e-4, "{load:?}");
    }
}
