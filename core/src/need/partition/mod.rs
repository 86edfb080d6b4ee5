//! What separates the room with the box from a listener: walls, floors, windows and doors as they are usually built.
//!
//! Every one is a build-up of sheets and gaps whose sound reduction index the model of the box's own walls computes
//! ([`stack_spectra`]), with studs or joists as rigid line bridges ([`bridge`]) and with the gaps round doors and casements as
//! slits ([`slit_at`]). Flanking is left out: it belongs to the building and not to the partition.

mod bridge;
mod presets;

use crate::air::Air;
use crate::bands::{Spectrum, band_position_hz};
use crate::buildup::{Bond, EdgeLoss, Element, Fill, FillSide, Gap, GapLoss, Laminate, Sheet, Stack};
use crate::enclosure::{FACE_LOSS, Medium, Segment, slit_at};
use crate::math::{from_db, to_db};
use crate::transmission::band_mean::band_means;
use crate::transmission::{Accuracy, Mount, stack_spectra};

use presets::{Construction, PRESETS};

crate::mapping::names! {
    Partition {
        BrickWall = "brick-wall", ConcreteWall = "concrete-wall", BlockWall = "block-wall", StudWall = "stud-wall",
        JoistFloor = "joist-floor", JoistFloorBare = "joist-floor-bare", ConcreteFloor = "concrete-floor",
        SingleGlass = "single-glass", InsulatingGlass = "insulating-glass", DoubleWindow = "double-window",
        SolidDoor = "solid-door", HollowDoor = "hollow-door", GarageDoor = "garage-door",
    }
}

/// A separating element as it is usually built; common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Partition {
    /// Solid brickwork 215 mm, plastered.
    BrickWall,
    /// Concrete 180 mm.
    ConcreteWall,
    /// Blocks of lightweight concrete 100 mm, plastered.
    BlockWall,
    /// Timber studs with one gypsum board either side and mineral wool between.
    StudWall,
    /// Joists with boards on top, mineral wool and a ceiling of gypsum board.
    JoistFloor,
    /// Joists with boards on top and nothing below.
    JoistFloorBare,
    /// Concrete slab 160 mm.
    ConcreteFloor,
    /// A casement with a pane of 4 mm.
    SingleGlass,
    /// A casement with a sealed unit 4-16-4.
    InsulatingGlass,
    /// Two casements of 4 mm glass 100 mm apart.
    DoubleWindow,
    /// A door with a core of particle board, with seals.
    SolidDoor,
    /// A door of hardboard on honeycomb, without seals.
    HollowDoor,
    /// A garage door of sheet steel.
    GarageDoor,
}

impl Partition {
    /// All of them, in the order in which a page offers them.
    pub const ALL: [Self; 13] = [
        Self::BrickWall,
        Self::ConcreteWall,
        Self::BlockWall,
        Self::StudWall,
        Self::JoistFloor,
        Self::JoistFloorBare,
        Self::ConcreteFloor,
        Self::SingleGlass,
        Self::InsulatingGlass,
        Self::DoubleWindow,
        Self::SolidDoor,
        Self::HollowDoor,
        Self::GarageDoor,
    ];

    fn construction(self) -> &'static Construction {
        &PRESETS[self as usize]
    }

    /// Key in documents.
    pub fn key(self) -> &'static str {
        self.construction().key
    }

    /// The partition with this key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|partition| partition.key() == key)
    }

    /// Name for people.
    pub fn label(self) -> &'static str {
        self.construction().label
    }

    /// What it is made of and what is assumed, in one sentence.
    pub fn description(self) -> &'static str {
        self.construction().description
    }

    /// Usual area in m2; assumed.
    pub fn area_m2(self) -> f64 {
        let [width_m, height_m] = self.construction().size_m;
        width_m * height_m
    }

    /// Sound reduction index R in dB by band of what goes straight through, leaks and studs or joists included, of the usual
    /// area; flanking is not included.
    pub fn reduction_db(self, air: &Air) -> Spectrum {
        self.construction().transmission(air, &ACCURACY).map(|transmission| -to_db(transmission))
    }
}

/// R in dB by band of parts side by side, each an area in m2 and its own R in dB: R = -10 lg(sum S_i tau_i/sum S_i)
/// (ISO 12354-3; for instance Crocker & Arenas 2021, Engineering Acoustics, equation 12.59).
///
/// Preconditions: areas positive, one part at least.
pub fn composite_db(parts: &[(f64, &Spectrum)]) -> Spectrum {
    let area_m2: f64 = parts.iter().map(|(area_m2, _)| area_m2).sum();
    Spectrum::from_fn(|band| -to_db(parts.iter().map(|&(part_m2, r_db)| part_m2 * from_db(-r_db[band])).sum::<f64>() / area_m2))
}

/// How exact R is: 0.2 dB in every band, which a test compares; what is not known of a partition is more than ten times that.
const ACCURACY: Accuracy = Accuracy { angle_tolerance: 0.02, band_tolerance: 0.1 };

impl Construction {
    /// Transmission coefficient by band.
    fn transmission(&self, air: &Air, accuracy: &Accuracy) -> Spectrum {
        let [width_m, height_m] = self.size_m;
        let area_m2 = width_m * height_m;
        let perimeter_m = 2.0 * (width_m + height_m);
        let leaf = |sheets: &[Sheet]| Laminate { sheets: sheets.to_vec(), bonds: vec![Bond::Rigid; sheets.len() - 1] };
        let first = leaf(self.first);
        let mount = Mount { size_m: self.size_m, edge_loss: EdgeLoss::Laboratory };
        let leaks = self.leaks(air, accuracy).map(|leaks_m2| leaks_m2 / area_m2);
        let mut elements = vec![Element::Panel(first.clone())];
        let Some(cavity) = &self.cavity else {
            let transmission = stack_spectra(&Stack { elements }, &mount, air, accuracy).transmission;
            return transmission.zip(&leaks, |wall, leak| wall + leak);
        };
        let second = leaf(cavity.second);
        let loss = GapLoss::Edges { absorption: GapLoss::EDGE_ABSORPTION, perimeter_per_area: perimeter_m / area_m2 };
        let fill = (cavity.wool_m > 0.0).then(|| Fill {
            flow_resistivity: presets::WOOL_FLOW_RESISTIVITY,
            share: cavity.wool_m / cavity.depth_m,
            side: FillSide::Second,
        });
        elements.push(Element::Gap(Gap { depth_m: cavity.depth_m, fill, loss }));
        elements.push(Element::Panel(second.clone()));
        let spectra = stack_spectra(&Stack { elements }, &mount, air, accuracy);
        let mut transmission = spectra.transmission;
        if let Some(spacing_m) = cavity.line_spacing_m {
            let bridges = bridge::transmission([&first, &second], spacing_m, &mount, air);
            transmission = transmission.zip(&bridges, |wall, bridge| wall + bridge);
        }
        if !cavity.leaks_into_it {
            return transmission.zip(&leaks, |wall, leak| wall + leak);
        }
        // Both casements leak: through the field of the air between them, as the gap of a box carries its leaks.
        let kept = GapLoss::EDGE_ABSORPTION * perimeter_m * cavity.depth_m / area_m2;
        Spectrum::from_fn(|band| {
            let (leak, [near, far]) = (leaks[band], spectra.leaves.map(|leaf| leaf[band]));
            let by_leaks = leak * (leak + near + far);
            transmission[band] + by_leaks / (kept + near + far + 2.0 * leak)
        })
    }

    /// Transmission area in m2 by band of all slits.
    fn leaks(&self, air: &Air, accuracy: &Accuracy) -> Spectrum {
        let mut sum = Spectrum::constant(0.0);
        for leak in self.leaks {
            let path = [Segment { height_m: leak.height_m, depth_m: leak.depth_m, medium: Medium::LossyAir(FACE_LOSS) }];
            let [area_m2] = band_means(accuracy.band_tolerance, &[], |position| {
                let hz = band_position_hz(position);
                [slit_at(&path, leak.length_m, [leak.end; 2], hz, air).transmission_area_m2]
            });
            sum = sum.zip(&area_m2, |sum, area_m2| sum + area_m2);
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material;

    fn r_db(construction: &Construction) -> Spectrum {
        construction.transmission(&Air::default(), &ACCURACY).map(|transmission| -to_db(transmission))
    }

    #[test]
    fn keys_are_those_of_documents() {
        for partition in Partition::ALL {
            assert_eq!(serde_json::to_value(partition).unwrap(), partition.key());
            assert_eq!(Partition::from_key(partition.key()), Some(partition));
        }
        assert_eq!(Partition::from_key("wall"), None);
    }

    /// One number for one material, here and in the catalogue.
    #[test]
    fn sheets_are_those_of_the_catalogue() {
        use presets::{GYPSUM_BOARD, PANE, STEEL, particle_board};
        let board = particle_board(22.0);
        for (key, ours) in [("gypsum-board", GYPSUM_BOARD), ("glass", PANE), ("steel", STEEL), ("particle-board", board)] {
            let theirs = material::sheet(key).unwrap();
            let numbers = |density, e, nu, loss| [density, e, nu, loss];
            assert_eq!(
                numbers(ours.density, ours.youngs_modulus, ours.poisson, ours.loss_factor),
                numbers(theirs.density, theirs.youngs_modulus, theirs.poisson, theirs.loss_factor),
                "{key}"
            );
            assert!((ours.shear_modulus / theirs.shear_modulus_pa() - 1.0).abs() < 1e-12, "{key}");
        }
    }

    #[test]
    fn accurate_to_a_fifth_of_a_decibel() {
        let fine = Accuracy { angle_tolerance: 0.001, band_tolerance: 0.001 };
        for partition in Partition::ALL {
            let exact = partition.construction().transmission(&Air::default(), &fine);
            let worst = partition.reduction_db(&Air::default()).zip(&exact, |r, exact| (r + to_db(exact)).abs());
            assert!(worst.iter().all(|error| error < 0.2), "{}: {worst:?}", partition.key());
        }
    }

    /// What is stopped up or taken apart never insulates worse, and what has neither gaps nor studs stays as it is.
    #[test]
    fn gaps_and_studs_only_take_away() {
        for partition in Partition::ALL {
            let built = partition.construction();
            let second = built.cavity.as_ref().map(|cavity| presets::Cavity { line_spacing_m: None, ..*cavity });
            let tight = r_db(&Construction { cavity: second, leaks: &[], ..*built });
            let whole = r_db(built);
            let lost = tight.zip(&whole, |tight, whole| tight - whole);
            assert!(lost.iter().all(|db| db >= 0.0), "{}: {lost:?}", partition.key());
            let perfect = built.leaks.is_empty() && built.cavity.as_ref().is_none_or(|cavity| cavity.line_spacing_m.is_none());
            assert_eq!(perfect, lost.iter().all(|db| db == 0.0), "{}", partition.key());
            assert!(whole.iter().all(|db| db > 0.0 && db < 100.0), "{}: {whole:?}", partition.key());
        }
    }

    /// Two leaking casements never insulate worse than one of them that leaks as much.
    #[test]
    fn two_casements_beat_one() {
        let air = Air::default();
        let gain =
            Partition::DoubleWindow.reduction_db(&air).zip(&Partition::SingleGlass.reduction_db(&air), |two, one| two - one);
        // Below and at the resonance of the panes on the air between them they may not.
        assert!(gain.0[8..].iter().all(|&db| db > 0.0), "{gain:?}");
    }

    /// With their seals torn out two casements let no more through than one: energy that came in by one slit goes out by the
    /// other once.
    #[test]
    fn wide_gaps_pass_no_more_through_two_casements_than_through_one() {
        const WIDE: &[presets::Leak] =
            &[presets::Leak { height_m: 0.02, depth_m: 0.01, length_m: 4.9, end: crate::enclosure::SlitEnd::MidWall }];
        let [one, two] = [Partition::SingleGlass, Partition::DoubleWindow].map(|window| {
            let built = window.construction();
            let cavity = built.cavity.as_ref().map(|cavity| presets::Cavity { ..*cavity });
            r_db(&Construction { cavity, leaks: WIDE, ..*built })
        });
        assert!(one.zip(&two, |one, two| two - one).iter().all(|db| db > 0.0), "{two:?} against {one:?}");
    }

    #[test]
    fn a_composite_lies_between_its_parts_in_any_order() {
        let air = Air::default();
        let [wall, window, door] =
            [Partition::BrickWall, Partition::SingleGlass, Partition::HollowDoor].map(|part| part.reduction_db(&air));
        let parts = [(8.0, &wall), (1.5, &window), (1.8, &door)];
        let whole = composite_db(&parts);
        let turned = composite_db(&[parts[2], parts[0], parts[1]]);
        for band in 0..crate::bands::BAND_COUNT {
            let all = [wall[band], window[band], door[band]];
            let (lowest, highest) = all.iter().fold((f64::MAX, f64::MIN), |(low, high), &r| (low.min(r), high.max(r)));
            assert!((lowest..=highest).contains(&whole[band]), "band {band}: {} of {all:?}", whole[band]);
            assert!((whole[band] - turned[band]).abs() < 1e-9);
        }
        assert!(composite_db(&[(3.0, &wall)]).zip(&wall, |one, wall| (one - wall).abs()).iter().all(|error| error < 1e-9));
    }
}
