//! The one call: a checked design in, a report with every station out.

use crate::air::Air;
use crate::bands::{Spectrum, Weighting};
use crate::buildup::{EdgeLoss, Stack};
use crate::design::CheckedDesign;
use crate::enclosure::{Lining, energy, lining_absorption, outside_distance_m, power_from_level_db};
use crate::geometry::{grown, representative_face_m};
use crate::math::to_db;
use crate::need::room_level_db;
use crate::transmission::{Accuracy, Mount, StackSpectra, stack_spectra};
use crate::workshop::{Bill, bill};

/// A level at a place on the way of the sound.
#[derive(Clone, Copy, Debug, PartialEq)]
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

/// The stations that are computed so far, from source to room.
#[derive(Clone, Copy, Debug, PartialEq)]
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
}

/// What a design does.
#[derive(Clone, Debug, PartialEq)]
pub struct Report {
    /// Sound reduction index R in dB by band of the whole wall, diffuse incidence, panels of the inner box's size.
    pub sound_reduction_db: Spectrum,
    /// Insertion loss in dB by band: sound power without the box over that with it.
    pub insertion_loss_db: Spectrum,
    /// Level difference in dB by band, inside against 1 m outside.
    pub level_difference_db: Spectrum,
    /// Insertion loss in dB for the A-weighted sound of this source.
    pub insertion_loss_dba: f64,
    /// Level difference in dB for the A-weighted sound of this source.
    pub level_difference_dba: f64,
    /// The stations.
    pub stations: Stations,
    /// A-weighted level in dB in the room at its distance, were there no box: the bare source on the floor.
    pub room_without_box_dba: f64,
    /// First mode in Hz of the source chamber, c/2 over its longest side: below it the energy balance is weak.
    pub first_chamber_mode_hz: f64,
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
    /// Every level to its last digit, one line a spectrum: for comparing two runs, not for people.
    pub fn digits(&self) -> String {
        let stations = &self.stations;
        let spectra = [
            ("source", Some(stations.source.level_db)),
            ("inside", Some(stations.inside.level_db)),
            ("gap", stations.gap.map(|gap| gap.level_db)),
            ("outside", Some(stations.outside.level_db)),
            ("room", Some(stations.room.level_db)),
            ("R", Some(self.sound_reduction_db)),
        ];
        let line = |(name, spectrum): (&str, Option<Spectrum>)| {
            spectrum.map(|spectrum| {
                let numbers: Vec<String> = spectrum.iter().map(|number| format!("{number:?}")).collect();
                format!("{name} {}\n", numbers.join(" "))
            })
        };
        spectra.into_iter().filter_map(line).collect()
    }
}

/// Evaluates `design` from nothing.
pub fn evaluate(design: &CheckedDesign) -> Report {
    Evaluator::default().evaluate(design)
}

/// Evaluates one design after another and computes again only what changed.
#[derive(Clone, Debug, Default)]
pub struct Evaluator {
    wall: Option<(Stack, Mount, StackSpectra)>,
    lining: Option<(Lining, Spectrum)>,
}

impl Evaluator {
    /// Evaluates `design`.
    pub fn evaluate(&mut self, design: &CheckedDesign) -> Report {
        let air = Air::default();
        let wall = self.wall(design, &air);
        let lining = design.lining.as_ref().map(|lining| self.lining(lining, &air));
        let balance = energy(design.inside_m, &wall, lining.as_ref(), design.outer.is_some());

        let inner_outside_m = grown(design.inside_m, design.inner.laminate.thickness_m());
        let outside_m = match &design.outer {
            None => inner_outside_m,
            Some((gap, shell)) => grown(inner_outside_m, gap.depth_m + shell.laminate.thickness_m()),
        };

        let source = design.spectrum.levels_db(design.level_dba);
        let power = power_from_level_db(&source);
        let power_outside = power.zip(&balance.insertion_loss_db, |level, loss| level - loss);
        let inside = power.zip(&balance.inside_gain_db, |level, gain| level + gain);
        let distance_m = outside_distance_m(outside_m);
        let spreading_db = to_db(2.0 * std::f64::consts::PI * distance_m * distance_m);
        let outside = power_outside.map(|level| level - spreading_db);
        let stations = Stations {
            source: Station::new(source),
            inside: Station::new(inside),
            gap: balance.gap_gain_db.map(|gain| Station::new(inside.zip(&gain, |level, gain| level + gain))),
            outside: Station::new(outside),
            room: Station::new(room_level_db(&power_outside, &design.room)),
        };
        let longest_m = design.inside_m.iter().copied().fold(0.0, f64::max);
        Report {
            sound_reduction_db: wall.transmission.map(|transmission| -to_db(transmission)),
            insertion_loss_db: balance.insertion_loss_db,
            level_difference_db: inside.zip(&outside, |inside, outside| inside - outside),
            insertion_loss_dba: power.weighted_sum(Weighting::A) - power_outside.weighted_sum(Weighting::A),
            level_difference_dba: stations.inside.dba - stations.outside.dba,
            stations,
            room_without_box_dba: room_level_db(&power, &design.room).weighted_sum(Weighting::A),
            first_chamber_mode_hz: air.speed / (2.0 * longest_m),
            inside_m: design.inside_m,
            inner_outside_m,
            outside_m,
            bill: bill(design),
        }
    }

    fn wall(&mut self, design: &CheckedDesign, air: &Air) -> StackSpectra {
        let stack = Stack { elements: design.wall_elements() };
        let mount = Mount { size_m: representative_face_m(design.inside_m), edge_loss: EdgeLoss::BOX_JOINTS };
        if let Some((known_stack, known_mount, spectra)) = &self.wall
            && *known_stack == stack
            && *known_mount == mount
        {
            return *spectra;
        }
        let spectra = stack_spectra(&stack, &mount, air, &Accuracy::default());
        self.wall = Some((stack, mount, spectra));
        spectra
    }

    fn lining(&mut self, lining: &Lining, air: &Air) -> Spectrum {
        if let Some((known, absorption)) = &self.lining
            && known == lining
        {
            return *absorption;
        }
        let absorption = lining_absorption(lining, air);
        self.lining = Some((lining.clone(), absorption));
        absorption
    }
}
