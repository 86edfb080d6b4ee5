//! What separates the room with the box from a listener: walls, floors, windows and doors as they are usually built.
//!
//! Every one is a build-up of sheets and gaps whose sound reduction index the model of the box's own walls computes
//! ([`stack_spectra`]), with studs or joists as rigid line bridges ([`bridge`]) and with the gaps round doors and casements as
//! slits ([`slit_at`]). Flanking is left out: it belongs to the building and not to the partition.

mod bridge;
mod presets;

use serde::{Deserialize, Serialize};

use crate::air::Air;
use crate::bands::{Spectrum, band_position_hz};
use crate::buildup::{Bond, EdgeLoss, Element, Fill, FillSide, Gap, GapLoss, Laminate, Sheet, Stack};
use crate::enclosure::{Medium, Segment, composite_transmission, slit_at};
use crate::math::{from_db, to_db};
use crate::transmission::band_mean::band_means;
use crate::transmission::{Accuracy, Mount, stack_spectra};

use presets::{Build, PRESETS};

/// A separating element as it is usually built; common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
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

    fn build(self) -> &'static Build {
        &PRESETS[self as usize]
    }

    /// Key in documents.
    pub fn key(self) -> &'static str {
        self.build().key
    }

    /// The partition with this key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|partition| partition.key() == key)
    }

    /// Name for people.
    pub fn label(self) -> &'static str {
        self.build().label
    }

    /// What it is made of and what is assumed, in one sentence.
    pub fn description(self) -> &'static str {
        self.build().description
    }

    /// Usual area in m2; assumed.
    pub fn area_m2(self) -> f64 {
        let [width_m, height_m] = self.build().size_m;
        width_m * height_m
    }

    /// Sound reduction index R in dB by band of what goes straight through, leaks and studs or joists included, of the usual
    /// area; flanking is not included.
    pub fn reduction_db(self, air: &Air) -> Spectrum {
        self.build().transmission(air).map(|transmission| -to_db(transmission))
    }
}

/// R in dB by band of parts side by side, each an area in m2 and its own R in dB: R = -10 lg(sum S_i tau_i/sum S_i)
/// (ISO 12354-3; for instance Crocker & Arenas 2021, Engineering Acoustics, equation 12.59).
///
/// Preconditions: areas positive, one part at least.
pub fn composite_db(parts: &[(f64, &Spectrum)]) -> Spectrum {
    Spectrum::from_fn(|band| {
        let areas: Vec<(f64, f64)> = parts.iter().map(|&(area_m2, r_db)| (area_m2, from_db(-r_db[band]))).collect();
        -to_db(composite_transmission(&areas))
    })
}

/// Error of band means of slits, as a ratio: a smaller one changes no band by more than 0.2 dB.
const BAND_TOLERANCE: f64 = 0.01;

impl Build {
    /// Transmission coefficient by band.
    fn transmission(&self, air: &Air) -> Spectrum {
        let [width_m, height_m] = self.size_m;
        let area_m2 = width_m * height_m;
        let perimeter_m = 2.0 * (width_m + height_m);
        let leaf = |sheets: &[Sheet]| Laminate { sheets: sheets.to_vec(), bonds: vec![Bond::Rigid; sheets.len() - 1] };
        let first = leaf(self.first);
        let mount = Mount { size_m: self.size_m, edge_loss: EdgeLoss::Laboratory };
        let leaks = self.leaks(air).map(|leaks_m2| leaks_m2 / area_m2);
        let mut elements = vec![Element::Panel(first.clone())];
        let Some(cavity) = &self.cavity else {
            let transmission = stack_spectra(&Stack { elements }, &mount, air, &Accuracy::default()).transmission;
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
        let spectra = stack_spectra(&Stack { elements }, &mount, air, &Accuracy::default());
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
    fn leaks(&self, air: &Air) -> Spectrum {
        let mut sum = Spectrum::constant(0.0);
        for leak in self.leaks {
            let path = [Segment { height_m: leak.height_m, depth_m: leak.depth_m, medium: Medium::Air }];
            let [area_m2] = band_means(BAND_TOLERANCE, &[], |position| {
                let hz = band_position_hz(position);
                [slit_at(&path, leak.length_m, [leak.end; 2], hz, air).transmission_area_m2]
            });
            sum = sum.zip(&area_m2, |sum, area_m2| sum + area_m2);
        }
        sum
    }
}
