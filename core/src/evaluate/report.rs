//! What a design does: stations, paths, sizes, mass.

use serde::{Deserialize, Serialize};

use super::hearing::ListenerReport;
use crate::bands::{Spectrum, Weighting};
use crate::enclosure::{Loaded, VentFlow};
use crate::math::{from_db, to_db};
use crate::workshop::Bill;

/// A level at a place on the way of the sound.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Station {
    /// Level in dB by band.
    pub level_db: Spectrum,
    /// A-weighted level in dB.
    pub dba: f64,
}

impl Station {
    /// A station from its levels in dB by band.
    pub fn new(level_db: Spectrum) -> Self {
        Self { level_db, dba: level_db.weighted_sum(Weighting::A) }
    }
}

/// The stations from source to listener.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stations {
    /// 1 m from the bare source on the floor.
    pub source: Station,
    /// In the source chamber.
    pub inside: Station,
    /// In the gap between the boxes, where there are two.
    pub gap: Option<Station>,
    /// 1 m from the outer surface, on the floor, nothing else around.
    pub outside: Station,
    /// In the room, at its distance.
    pub room: Station,
    /// At the listener who decides, if anybody listens.
    pub listener: Option<Station>,
}

/// One way the sound gets out into the room.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum PathKey {
    /// Through the boards of every shell.
    Walls,
    /// Through the edge of a lid, on whatever way further.
    Leaks,
    /// Through holes for cables, on whatever way further.
    Holes,
    /// Through what holds the inner box, into the boards of the outer one.
    Suspension,
    /// Through the vents.
    Vents,
    /// By the box that the recoil of the driver shakes as a whole.
    Motion,
}

impl PathKey {
    /// All paths in the order in which they are told.
    pub const ALL: [Self; 6] = [Self::Walls, Self::Leaks, Self::Holes, Self::Suspension, Self::Vents, Self::Motion];

    /// Key in output.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Walls => "walls",
            Self::Leaks => "leaks",
            Self::Holes => "holes",
            Self::Suspension => "suspension",
            Self::Vents => "vents",
            Self::Motion => "motion",
        }
    }
}

/// What one path lets out by itself.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Path {
    /// Which path.
    pub key: PathKey,
    /// Insertion loss in dB by band, were this the only path; may be negative at a resonance.
    pub insertion_loss_db: Spectrum,
    /// The same for the A-weighted sound of this source.
    pub insertion_loss_dba: f64,
    /// Part of what all paths let out, 0 to 1, by band.
    pub share: Spectrum,
    /// The same for the A-weighted sound of this source where it is heard: at the listener who decides, or in the room.
    pub share_dba: f64,
}

/// The paths of a design from what each lets out of the source's power by band, as energy ratios; those that are nothing
/// in every band are left out.
///
/// `bare_db` is what would be heard without a box, to any reference: it decides which band counts for how much in the shares.
pub fn paths(ratios: &[(PathKey, Spectrum)], power_db: &Spectrum, bare_db: &Spectrum) -> Vec<Path> {
    let weights = Weighting::A.spectrum();
    let weighted = |level_db: &Spectrum| level_db.zip(&weights, |level, weight| from_db(level + weight));
    let (power, bare) = (weighted(power_db), weighted(bare_db));
    let through = |ratio: &Spectrum, of: &Spectrum| ratio.zip(of, |ratio, amount| ratio * amount).iter().sum::<f64>();
    let amount = |ratio: &Spectrum| through(ratio, &bare);
    let source: f64 = power.iter().sum();
    let total = ratios.iter().fold(Spectrum::constant(0.0), |sum, (_, ratio)| sum.zip(ratio, |a, b| a + b));
    let all = amount(&total);
    let present = ratios.iter().filter(|(_, ratio)| ratio.iter().any(|ratio| ratio > 0.0));
    present
        .map(|(key, ratio)| Path {
            key: *key,
            insertion_loss_db: insertion_loss_db(ratio),
            insertion_loss_dba: to_db(source / through(ratio, &power).max(source * LEAST)),
            share: ratio.zip(&total, |part, whole| if whole > 0.0 { part / whole } else { 0.0 }),
            share_dba: if all > 0.0 { amount(ratio) / all } else { 0.0 },
        })
        .collect()
}

/// Least part of the source's power that is reported (300 dB): beyond it numbers have no meaning.
const LEAST: f64 = 1e-30;

/// Insertion loss in dB from the energy ratio of what gets out.
pub fn insertion_loss_db(ratio: &Spectrum) -> Spectrum {
    ratio.map(|ratio| -to_db(ratio.max(LEAST)))
}

/// Why a band is the loudest that a path lets out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Cause {
    /// Panels of the inner shell, or the only one, are at their first resonance.
    InnerPanels,
    /// Panels of the outer shell are at their first resonance.
    OuterPanels,
    /// Both shells bounce on the air between them.
    MassAirMass,
    /// Bending waves as long as the sound: coincidence.
    Coincidence,
    /// Nothing in particular.
    None,
}

/// The path that lets out most, and where.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Limiting {
    /// The path.
    pub path: PathKey,
    /// Its loudest band, A-weighted, where it is heard.
    pub band: usize,
    /// Part of all A-weighted sound that is heard and gets out by this path, 0 to 1.
    pub share: f64,
    /// Why there, for the walls.
    pub cause: Cause,
}

/// What a design does.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Report {
    /// Sound reduction index R in dB by band of the whole wall, diffuse incidence, panels of the inner box's size.
    pub sound_reduction_db: Spectrum,
    /// Insertion loss in dB by band: sound power without the box over that with it, all paths.
    pub insertion_loss_db: Spectrum,
    /// Level difference in dB by band, inside against 1 m outside.
    pub level_difference_db: Spectrum,
    /// Insertion loss in dB for the A-weighted sound of this source.
    pub insertion_loss_dba: f64,
    /// Level difference in dB for the A-weighted sound of this source.
    pub level_difference_dba: f64,
    /// Each path by itself.
    pub paths: Vec<Path>,
    /// The path that lets out most.
    pub limiting: Limiting,
    /// The stations.
    pub stations: Stations,
    /// What each listener hears, in the order of the design.
    pub listeners: Vec<ListenerReport>,
    /// Which of them decides: the one with the least margin.
    pub governing: Option<usize>,
    /// A-weighted level in dB in the room at its distance, were there no box: the bare source on the floor.
    pub room_without_box_dba: f64,
    /// What the feet put into the floor, as a level in the room below or beside; only where a driver recoils.
    pub floor_borne: Option<Station>,
    /// How the suspension is loaded, where there is one that gives.
    pub suspension: Option<Loaded>,
    /// How the feet are loaded, where they give.
    pub feet: Option<Loaded>,
    /// Air that the vents need to carry the heat away.
    pub vent_flow: Option<VentFlow>,
    /// First mode in Hz of the source chamber, c/2 over its longest side.
    pub first_chamber_mode_hz: f64,
    /// Highest first resonance in Hz of the panels of the inner shell and of the outer one.
    pub panels_hz: [Option<f64>; 2],
    /// Up to here in Hz the estimate is that of the network of air and panels; an octave above, that of the energy balance.
    pub network_below_hz: f64,
    /// Inside length, width, height in m.
    pub inside_m: [f64; 3],
    /// Outside length, width, height in m of the inner box.
    pub inner_outside_m: [f64; 3],
    /// Outside length, width, height in m of the whole.
    pub outside_m: [f64; 3],
    /// Mass and material cost.
    pub bill: Bill,
}

impl Report {
    /// The path with this key, if the sound has it.
    pub fn path(&self, key: PathKey) -> Option<&Path> {
        self.paths.iter().find(|path| path.key == key)
    }

    /// The listener who decides, if anybody listens.
    pub fn decisive(&self) -> Option<&ListenerReport> {
        self.governing.map(|k| &self.listeners[k])
    }

    /// The level that the design is judged by: at the listener who decides, or else in the room.
    pub fn answer(&self) -> &Station {
        self.decisive().map_or(&self.stations.room, |listener| &listener.level)
    }

    /// By how many dB a design is better the larger it is: the margin of the listener who decides, or the room's level below 0.
    pub fn merit_db(&self) -> f64 {
        self.decisive().map_or(-self.stations.room.dba, |listener| listener.judgement.margin_db)
    }

    /// Every level to its last digit, one line a spectrum: for comparing two runs, not for people.
    pub fn digits(&self) -> String {
        let stations = &self.stations;
        let spectra = [
            ("source", Some(stations.source.level_db)),
            ("inside", Some(stations.inside.level_db)),
            ("gap", stations.gap.map(|gap| gap.level_db)),
            ("outside", Some(stations.outside.level_db)),
            ("room", Some(stations.room.level_db)),
            ("listener", stations.listener.map(|listener| listener.level_db)),
            ("floor", self.floor_borne.map(|floor| floor.level_db)),
            ("R", Some(self.sound_reduction_db)),
        ];
        let paths = self.paths.iter().map(|path| (path.key.key(), Some(path.insertion_loss_db)));
        let line = |(name, spectrum): (&str, Option<Spectrum>)| {
            spectrum.map(|spectrum| {
                let numbers: Vec<String> = spectrum.iter().map(|number| format!("{number:?}")).collect();
                format!("{name} {}\n", numbers.join(" "))
            })
        };
        spectra.into_iter().chain(paths).filter_map(line).collect()
    }
}
