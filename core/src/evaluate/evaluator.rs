//! Evaluates designs and keeps what the next one may need again.

use super::assembly::{Assembly, KnownFaces, Sizes, assemble, walls_m2};
use super::hearing::{ListenerReport, governing};
use super::limiting::limiting;
use super::memo::Memo;
use super::report::{PathKey, Report, Station, Stations, insertion_loss_db, paths};
use crate::air::Air;
use crate::bands::{Spectrum, Weighting};
use crate::buildup::{EdgeLoss, FillSide, Gap, GapLoss, Laminate, Stack};
use crate::design::{Baffle, CheckedDesign, CheckedShell};
use crate::enclosure::network::{Fineness, NetworkSpectra, OpeningAdmittances, OpeningsAt};
use crate::enclosure::{
    Balance, Driver, EnergySpectra, Floor, FloorResponse, Holes, Lid, Lining, OpeningAreas, OpeningAt, OuterEnergy,
    PanelResponse, Shaken, SourceChamber, Support, Suspended, Vents, absorption_at, duct_absorption, floor_borne, holes_at,
    holes_transmission_area, lid_at, lid_transmission_area, lining_absorption, mix, outside_distance_m, power_from_level_db,
    suspension_path, vent_flow, vents_at, vents_transmission_area,
};
use crate::geometry::{representative_face_m, surface_area_m2};
use crate::math::to_db;
use crate::need::{Partition, room_level_db};
use crate::transmission::{Accuracy, Mount, StackSpectra, stack_spectra};
use crate::workshop::{Bill, bill};

/// Least energy ratio that is turned into a level.
const LEAST: f64 = 1e-30;

/// Evaluates `design` from nothing.
pub fn evaluate(design: &CheckedDesign) -> Report {
    Evaluator::default().evaluate(design)
}

/// Evaluates one design after another and computes again only what changed.
#[derive(Clone, Debug, Default)]
pub struct Evaluator {
    stack: Memo<(Stack, Mount), StackSpectra>,
    lining: Memo<Lining, Spectrum>,
    fill: Memo<Lining, Spectrum>,
    inner_openings: Memo<OpeningsKey, OpeningAreas>,
    outer_openings: Memo<OpeningsKey, OpeningAreas>,
    vents: Memo<Vents, Spectrum>,
    vent_lining: Memo<Lining, Spectrum>,
    faces: KnownFaces,
    inner_panel: Memo<PanelKey, PanelResponse>,
    outer_panel: Memo<PanelKey, PanelResponse>,
    floor: Memo<Floor, FloorResponse>,
    network: Memo<NetworkKey, Option<NetworkSpectra>>,
    /// Those that some listener had: there are few.
    partitions: Vec<(Partition, Spectrum)>,
    exactness: Exactness,
}

/// How exactly an evaluator integrates.
#[derive(Clone, Copy, Debug)]
struct Exactness {
    stack: Accuracy,
    network: Fineness,
}

impl Default for Exactness {
    fn default() -> Self {
        Self { stack: Accuracy::default(), network: Fineness::FULL }
    }
}

/// What the openings of a shell depend on: lid and its perimeter in m, holes, thickness of the shell in m.
pub(crate) type OpeningsKey = (Lid, f64, Option<Holes>, f64);

/// Leaf, inside of the box in m, and fixity of its edges.
type PanelKey = (Laminate, [f64; 3], f64);

/// All of a design that the network depends on.
#[derive(Clone, Debug, PartialEq)]
struct NetworkKey {
    inside_m: [f64; 3],
    lining: Option<Lining>,
    inner: CheckedShell,
    baffle: Option<Baffle>,
    outer: Option<(Gap, CheckedShell)>,
    supports: [Support; 2],
    vents: Option<Vents>,
    driver: Option<Driver>,
    contents_kg: f64,
}

impl NetworkKey {
    fn new(design: &CheckedDesign) -> Self {
        Self {
            inside_m: design.inside_m,
            lining: design.lining.clone(),
            inner: design.inner.clone(),
            baffle: design.baffle.clone(),
            outer: design.outer.clone(),
            supports: [design.suspension, design.feet],
            vents: design.vents.clone(),
            driver: design.driver,
            contents_kg: design.contents_kg,
        }
    }
}

impl Evaluator {
    /// An evaluator for one sample of many, that knows nothing yet: a quarter faster. Over 100 random designs the A-weighted
    /// level in the room was 0.05 dB rms off.
    pub fn for_samples() -> Self {
        let stack = Accuracy { angle_tolerance: 0.05, band_tolerance: 0.05 };
        Self { exactness: Exactness { stack, network: Fineness::SAMPLE }, ..Self::default() }
    }

    /// Evaluates `design`.
    pub fn evaluate(&mut self, design: &CheckedDesign) -> Report {
        let air = Air::default();
        let sizes = Sizes::new(design);
        let bill = bill(design);
        let stack = self.stack(design, &air);
        let high = self.energy(design, &sizes, &stack, &air);
        let assembly = assemble(design, &sizes, &bill, &mut self.faces, &air);
        let low = self.network(design, &sizes, &assembly, &air);
        let joined = Joined::new(&assembly, low.as_ref(), &high, &stack, &air);

        let source = design.source_db;
        let power = power_from_level_db(&source);
        let structure = self.structure(design, &sizes, &bill, &joined.wall_velocity, &source, &air);
        let ratios = [
            (PathKey::Walls, joined.walls),
            (PathKey::Leaks, joined.leaks),
            (PathKey::Holes, joined.holes),
            (PathKey::Suspension, structure.suspension),
            (PathKey::Vents, joined.vents),
            (PathKey::Motion, joined.motion),
        ];
        let total = [structure.suspension, joined.motion].iter().fold(joined.total, |sum, path| sum.zip(path, |a, b| a + b));
        let loss = insertion_loss_db(&total);
        let power_outside = power.zip(&loss, |level, loss| level - loss);
        let inside = power.zip(&joined.inside, |level, ratio| level + to_db(ratio.max(LEAST)));
        let distance_m = outside_distance_m(sizes.outside);
        let spreading_db = to_db(2.0 * std::f64::consts::PI * distance_m * distance_m);
        let outside = power_outside.map(|level| level - spreading_db);
        let gap =
            design.outer.is_some().then(|| Station::new(power.zip(&joined.gap, |level, ratio| level + to_db(ratio.max(LEAST)))));
        let stations = Stations {
            source: Station::new(source),
            inside: Station::new(inside),
            gap,
            outside: Station::new(outside),
            room: Station::new(room_level_db(&power_outside, &design.room)),
            listener: None,
        };
        let listeners = self.listeners(design, &power_outside, &power, &air);
        let governing = governing(&listeners);
        let stations = Stations { listener: governing.map(|k| listeners[k].level), ..stations };
        let bare = governing.map_or(power, |k| listeners[k].bare.level_db);
        let paths = paths(&ratios, &power, &bare);
        let hung_kg = bill.inner_mass_kg + design.contents_kg;
        Report {
            sound_reduction_db: stack.transmission.map(|transmission| -to_db(transmission)),
            insertion_loss_db: loss,
            level_difference_db: inside.zip(&outside, |inside, outside| inside - outside),
            insertion_loss_dba: power.weighted_sum(Weighting::A) - power_outside.weighted_sum(Weighting::A),
            level_difference_dba: stations.inside.dba - stations.outside.dba,
            limiting: limiting(&paths, &bare, design, &assembly, &air),
            paths,
            stations,
            listeners,
            governing,
            room_without_box_dba: room_level_db(&power, &design.room).weighted_sum(Weighting::A),
            floor_borne: structure.floor_borne.map(Station::new),
            suspension: design.outer.as_ref().and_then(|_| design.suspension.loaded(hung_kg)),
            feet: design.feet.loaded(bill.mass_kg + design.contents_kg),
            vent_flow: design.vents.as_ref().map(|vents| vent_flow(vents, design.heat_w, &air)),
            first_chamber_mode_hz: assembly.chamber_mode_hz,
            panels_hz: assembly.panels_hz,
            network_below_hz: assembly.join.network_below_hz,
            inside_m: sizes.inside,
            inner_outside_m: sizes.inner_outside,
            outside_m: sizes.outside,
            bill,
        }
    }

    /// Both shells as one stack.
    fn stack(&mut self, design: &CheckedDesign, air: &Air) -> StackSpectra {
        let mount = Mount { size_m: representative_face_m(design.inside_m), edge_loss: EdgeLoss::BOX_JOINTS };
        let key = (Stack { elements: design.wall_elements() }, mount);
        let accuracy = &self.exactness.stack;
        *self.stack.get(key, |(stack, mount)| stack_spectra(stack, mount, air, accuracy))
    }

    fn energy(&mut self, design: &CheckedDesign, sizes: &Sizes, stack: &StackSpectra, air: &Air) -> EnergySpectra {
        let lining = design.lining.as_ref().map(|lining| *self.lining.get(lining.clone(), |l| lining_absorption(l, air)));
        let areas = |key: &OpeningsKey| opening_areas(key, air);
        let openings = *self.inner_openings.get(openings_key(&design.inner, sizes.inside), areas);
        let zero = Spectrum::constant(0.0);
        let vents_m2 = match &design.vents {
            None => zero,
            Some(vents) => {
                let lining = self.vent_lining(vents, air);
                *self.vents.get(vents.clone(), |vents| vents_transmission_area(vents, lining.as_ref(), air))
            }
        };
        let (front, rear) = chambers(design, sizes);
        let outer = design.outer.as_ref().zip(sizes.outer_inside).map(|((gap, shell), size_m)| {
            let gap_absorption_m2 = self.gap_absorption_m2(gap, sizes.inner_outside, size_m, air);
            let openings = *self.outer_openings.get(openings_key(shell, size_m), areas);
            (surface_area_m2(size_m), gap_absorption_m2, openings)
        });
        let outer = outer.as_ref().map(|(area_m2, gap_absorption_m2, openings)| OuterEnergy {
            transmission: &stack.leaves[1],
            area_m2: *area_m2,
            gap_absorption_m2,
            openings,
        });
        Balance {
            front,
            rear,
            lining: lining.as_ref(),
            stack,
            inner_transmission: &stack.leaves[0],
            openings: &openings,
            vents_m2: &vents_m2,
            outer,
        }
        .spectra()
    }

    /// Absorption area in m2 of a gap between faces of sizes `inner_m` and `outer_m`.
    fn gap_absorption_m2(&mut self, gap: &Gap, inner_m: [f64; 3], outer_m: [f64; 3], air: &Air) -> Spectrum {
        let fill = gap_lining(gap).map(|lining| *self.fill.get(lining, |lining| lining_absorption(lining, air)));
        gap_absorption_m2(gap, fill.as_ref(), inner_m, outer_m)
    }

    /// Absorption coefficient of what lines the vents, if anything does.
    fn vent_lining(&mut self, vents: &Vents, air: &Air) -> Option<Spectrum> {
        vents.lining.as_ref().map(|lining| *self.vent_lining.get(lining.clone(), |lining| lining_absorption(lining, air)))
    }

    fn network(&mut self, design: &CheckedDesign, sizes: &Sizes, assembly: &Assembly, air: &Air) -> Option<NetworkSpectra> {
        let absorption = design.vents.as_ref().map(|vents| duct_absorption(self.vent_lining(vents, air).as_ref()));
        let fineness = self.exactness.network;
        *self.network.get(NetworkKey::new(design), |_| {
            let (network, last_band) = assembly.network.as_ref()?;
            let inner = openings_key(&design.inner, sizes.inside);
            let outer = design.outer.as_ref().zip(sizes.outer_inside).map(|((_, shell), size_m)| openings_key(shell, size_m));
            Some(network.bands(*last_band, fineness, |hz| {
                let ducts = design.vents.as_ref().zip(absorption.as_ref());
                let vents = ducts.map_or(OpeningAt::NONE, |(vents, lined)| vents_at(vents, absorption_at(lined, hz), hz, air));
                OpeningsAt {
                    inner: opening_admittances(&inner, hz, air),
                    outer: outer.as_ref().map_or_else(OpeningAdmittances::default, |outer| opening_admittances(outer, hz, air)),
                    vents: vents.into(),
                }
            }))
        })
    }

    /// What each listener hears of the powers in dB by band with the box and without.
    fn listeners(&mut self, design: &CheckedDesign, power: &Spectrum, bare: &Spectrum, air: &Air) -> Vec<ListenerReport> {
        let partitions = &mut self.partitions;
        let mut known = |partition: Partition| {
            if let Some((_, reduction)) = partitions.iter().find(|(own, _)| *own == partition) {
                return *reduction;
            }
            let reduction = partition.reduction_db(air);
            partitions.push((partition, reduction));
            reduction
        };
        design.listeners.iter().map(|listener| ListenerReport::new(listener, design, power, bare, &mut known)).collect()
    }

    /// What the suspension and the feet carry.
    fn structure(
        &mut self,
        design: &CheckedDesign,
        sizes: &Sizes,
        bill: &Bill,
        wall_velocity: &Spectrum,
        source_db: &Spectrum,
        air: &Air,
    ) -> Structure {
        let panel = |key: &PanelKey| PanelResponse::of_box(&key.0, key.1, key.2, air);
        let driver = design.driver.as_ref();
        let (suspension, shaken) = match design.outer.as_ref().zip(sizes.outer_inside) {
            None => (Spectrum::constant(0.0), Shaken::directly(driver, bill.mass_kg + design.contents_kg, air)),
            Some(((_, shell), size_m)) => {
                let inner_key = (design.inner.laminate.clone(), sizes.inside, design.inner.edge_fixity);
                let path = suspension_path(
                    &Suspended {
                        driver,
                        suspension: &design.suspension,
                        inner_kg: bill.inner_mass_kg + design.contents_kg,
                        outer_kg: bill.mass_kg - bill.inner_mass_kg,
                        wall_velocity,
                        inner: self.inner_panel.get(inner_key, panel),
                        outer: self.outer_panel.get((shell.laminate.clone(), size_m, shell.edge_fixity), panel),
                    },
                    air,
                );
                (path.transmission, path.shaken)
            }
        };
        let floor = self.floor.get(design.floor, |floor| floor.response(air));
        Structure { suspension, floor_borne: floor_borne(&shaken, &design.feet, floor, source_db) }
    }
}

/// Low and high frequencies put together: energy ratios to the source's power.
struct Joined {
    total: Spectrum,
    walls: Spectrum,
    leaks: Spectrum,
    holes: Spectrum,
    vents: Spectrum,
    motion: Spectrum,
    inside: Spectrum,
    gap: Spectrum,
    wall_velocity: Spectrum,
}

impl Joined {
    fn new(assembly: &Assembly, low: Option<&NetworkSpectra>, high: &EnergySpectra, stack: &StackSpectra, air: &Air) -> Self {
        let zero = Spectrum::constant(0.0);
        let all = high.all();
        let velocity = high.wall_velocity(&stack.leaves[0], air);
        let Some(low) = low else {
            return Self {
                total: all,
                walls: high.walls,
                leaks: high.leaks,
                holes: high.holes,
                vents: high.vents,
                motion: zero,
                inside: high.inside,
                gap: high.gap,
                wall_velocity: velocity,
            };
        };
        let weights = assembly.join.weights(&low.total, &all);
        let join = |low: &Spectrum, high: &Spectrum| mix(&weights, low, high);
        Self {
            total: join(&low.total, &all),
            walls: join(&low.walls, &high.walls),
            leaks: join(&low.leaks, &high.leaks),
            holes: join(&low.holes, &high.holes),
            vents: join(&low.vents, &high.vents),
            motion: join(&low.motion, &zero),
            inside: join(&low.inside, &high.inside),
            gap: join(&low.gap, &high.gap),
            wall_velocity: join(&low.wall_velocity, &velocity),
        }
    }
}

/// The chambers in front of the driver and behind it, as the energy balance has them.
pub(crate) fn chambers(design: &CheckedDesign, sizes: &Sizes) -> (SourceChamber, Option<SourceChamber>) {
    let has_baffle = sizes.rear.is_some();
    let share = sizes.front_share_of_lid(design.inner.lid.face);
    let front = SourceChamber {
        walls_m2: walls_m2(sizes.front, has_baffle),
        bare_m2: if has_baffle { sizes.front[1] * sizes.front[2] } else { 0.0 },
        lid_share: share,
        holes_share: 1.0,
    };
    let rear = sizes.rear.map(|size_m| SourceChamber {
        walls_m2: walls_m2(size_m, true),
        bare_m2: size_m[1] * size_m[2],
        lid_share: 1.0 - share,
        holes_share: 0.0,
    });
    (front, rear)
}

/// The fill of a gap as a lining, if there is any.
pub(crate) fn gap_lining(gap: &Gap) -> Option<Lining> {
    let fill = gap.fill.filter(|fill| fill.share > 0.0)?;
    Some(Lining { thickness_m: fill.share * gap.depth_m, flow_resistivity: fill.flow_resistivity })
}

/// Absorption area in m2 of a gap between faces of sizes `inner_m` and `outer_m`: its fill, of absorption coefficient `fill`,
/// where it lies, and bare faces.
pub(crate) fn gap_absorption_m2(gap: &Gap, fill: Option<&Spectrum>, inner_m: [f64; 3], outer_m: [f64; 3]) -> Spectrum {
    let (inner_m2, outer_m2) = (surface_area_m2(inner_m), surface_area_m2(outer_m));
    let bare = Spectrum::constant(GapLoss::FACE_ABSORPTION * (inner_m2 + outer_m2));
    let Some((coefficient, place)) = fill.zip(gap.fill) else { return bare };
    let covered_m2 = match place.side {
        FillSide::First => inner_m2,
        FillSide::Second => outer_m2,
        FillSide::Middle => inner_m2 + outer_m2,
    };
    bare.zip(coefficient, |bare, coefficient| bare + covered_m2 * coefficient)
}

/// What the openings of `shell` round `inside_m` depend on.
pub(crate) fn openings_key(shell: &CheckedShell, inside_m: [f64; 3]) -> OpeningsKey {
    (shell.lid, shell.lid.face.perimeter_m(inside_m), shell.holes, shell.laminate.thickness_m())
}

/// Transmission areas of a shell's openings.
pub(crate) fn opening_areas((lid, perimeter_m, holes, wall_m): &OpeningsKey, air: &Air) -> OpeningAreas {
    OpeningAreas {
        leaks: lid_transmission_area(lid, *perimeter_m, *wall_m, air),
        holes: holes.as_ref().map_or(Spectrum::constant(0.0), |holes| holes_transmission_area(holes, *wall_m, air)),
    }
}

/// Admittances of a shell's openings at `hz`.
pub(crate) fn opening_admittances((lid, perimeter_m, holes, wall_m): &OpeningsKey, hz: f64, air: &Air) -> OpeningAdmittances {
    OpeningAdmittances {
        leaks: lid_at(lid, *perimeter_m, *wall_m, hz, air).into(),
        holes: holes.as_ref().map_or_else(Default::default, |holes| holes_at(holes, *wall_m, hz, air).into()),
    }
}

/// What structure carries.
struct Structure {
    /// Power that the outer box radiates, driven through the suspension, over the source's.
    suspension: Spectrum,
    /// Level in dB that the floor radiates below or beside.
    floor_borne: Option<Spectrum>,
}
