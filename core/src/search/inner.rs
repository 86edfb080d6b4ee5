//! An inner leaf with every choice of braces, lids and lining, ready to be put into any outer shell.

use super::choice::Lists;
use super::model::Model;
use super::parts::{LiningAt, j_omega};
use super::wall::LeafTable;
use super::weigh::Weight;
use crate::bands::Spectrum;
use crate::buildup::Laminate;
use crate::design::CheckedShell;
use crate::enclosure::network::{BranchAt, Faces, OpeningAdmittances, Passage, Response};
use crate::enclosure::{Held, OpeningAreas, PanelResponse};
use crate::evaluate::{FacesKey, OpeningsKey, Sizes, opening_admittances, opening_areas, openings_key};
use crate::math::{Complex64, complex};
use crate::transmission::alone;
use crate::transmission::compliance::ComplianceTable;
use crate::transmission::diffuse::{Accuracy, Incidence, Setting};

/// The panels round both chambers at the grid's frequencies, with some braces.
struct Panels {
    front: Vec<Response>,
    rear: Option<Vec<Response>>,
    /// Areas in m2.
    areas_m2: [f64; 2],
    /// Highest first resonance in Hz.
    first_hz: f64,
}

/// The openings with some lids.
struct Openings {
    admittances: Vec<OpeningAdmittances>,
    areas: OpeningAreas,
}

/// Complex numbers, real and imaginary parts apart, so that several are worked on at once.
#[derive(Clone, Debug, Default)]
pub(super) struct Complexes {
    pub(super) re: Vec<f64>,
    pub(super) im: Vec<f64>,
}

impl Complexes {
    pub(super) fn with_capacity(count: usize) -> Self {
        Self { re: Vec::with_capacity(count), im: Vec::with_capacity(count) }
    }

    pub(super) fn push(&mut self, value: Complex64) {
        self.re.push(value.re);
        self.im.push(value.im);
    }

    pub(super) fn clear(&mut self) {
        self.re.clear();
        self.im.clear();
    }
}

/// One chamber as a source, at the grid's frequencies.
pub(super) struct SourceAt {
    /// What the inner walls' pressure difference takes back per admittance of the node behind them: spring times forward.
    pub(super) taken_back: Complexes,
    /// Mean square velocity of the walls in (m/s)2 per W, were the node held at no pressure.
    pub(super) velocity: Vec<f64>,
}

/// What a chamber sends past the shells at one of the grid's frequencies, for 1 m3/s into it: what leaves the vents is `at_once`, and
/// `with_node` over the admittance behind the inner shell.
#[derive(Clone, Copy, Debug)]
pub(super) struct VentedAt {
    /// Part that comes out behind the inner shell.
    pub(super) forward: Complex64,
    pub(super) at_once: Complex64,
    pub(super) with_node: Complex64,
}

impl VentedAt {
    /// From the front chamber, into which the vents open, and from the one behind the driver, if the source is there.
    fn new(front: &BranchAt, rear: Option<&BranchAt>, vented: Complex64) -> Self {
        match rear {
            // The pressure in front is that of the source itself, and of what stands against it behind the shell.
            None => Self {
                forward: front.forward(),
                at_once: vented / (front.spring + front.through),
                with_node: vented * front.forward() * front.forward(),
            },
            Some(rear) => {
                Self { forward: rear.forward(), at_once: complex(0.0, 0.0), with_node: vented * front.forward() * rear.forward() }
            }
        }
    }
}

/// The inner shell with some braces, lids and lining, at the grid's frequencies.
pub(super) struct InnerState {
    /// Sum over both chambers of |part that comes out behind the shell|^2.
    pub(super) forward: Vec<f64>,
    /// Admittance seen from behind the shell.
    pub(super) load: Complexes,
    pub(super) sources: Vec<SourceAt>,
    /// By chamber, where vents go past the shells.
    pub(super) vented: Vec<Vec<VentedAt>>,
    /// Areas of the openings.
    pub(super) areas: OpeningAreas,
}

/// An inner leaf and all that goes with it.
pub(super) struct Inner {
    pub(super) thickness_m: f64,
    pub(super) table: LeafTable,
    /// Forced and resonant transmission over the forced one, and their sum.
    pub(super) gain: Spectrum,
    pub(super) leaf: Spectrum,
    pub(super) mobility: Spectrum,
    /// Mass and cost by braces and lining.
    pub(super) weights: Vec<Vec<Weight>>,
    /// On the suspension, by braces and lining.
    pub(super) held: Vec<Vec<Held>>,
    /// Highest first resonance in Hz by braces.
    pub(super) first_hz: Vec<f64>,
    /// By braces, lids and lining; `None` where they do not fit.
    pub(super) states: Vec<Vec<Vec<Option<InnerState>>>>,
}

/// Settings of a leaf by itself: diffuse incidence, the size of the inner box's faces.
pub(super) fn setting(model: &Model) -> Setting {
    Setting {
        half_width_m: Some(model.mount.half_width_m()),
        edge_loss: model.mount.edge_loss,
        incidence: Incidence::DIFFUSE,
        air: model.air,
    }
}

/// How exact a leaf by itself is, of which there are few.
pub(super) const LEAF_ACCURACY: Accuracy = Accuracy { angle_tolerance: 0.01, band_tolerance: 0.01 };

/// The parts of an inner shell of one leaf.
pub(super) struct InnerParts {
    pub(super) laminate: Laminate,
    pub(super) thickness_m: f64,
    pub(super) weights: Vec<Vec<Weight>>,
    panels: Vec<Option<Panels>>,
    openings: Vec<Option<Openings>>,
    sizes: Sizes,
}

impl InnerParts {
    /// Those of the leaf at `place` in `lists`, which is `laminate`.
    pub(super) fn new(model: &Model, lists: &Lists, place: usize, laminate: &Laminate) -> Self {
        let thickness_m = laminate.thickness_m();
        let sizes = Sizes::of_shells(&model.base, thickness_m, None);
        let with_leaf = |shell: &CheckedShell| CheckedShell { laminate: laminate.clone(), ..shell.clone() };
        let panels = |shells: &Vec<Option<CheckedShell>>| {
            let shell = with_leaf(shells.iter().flatten().next()?);
            Some(Panels::new(model, &sizes, &shell))
        };
        let openings = |lids: usize| {
            let shell = with_leaf(model.inner_shells.iter().find_map(|shells| shells[lids].as_ref())?);
            Some(Openings::new(model, &openings_key(&shell, sizes.inside)))
        };
        let layers = Weight::of(|bill| {
            let document = &model.base.document;
            bill.push_shell(&lists.inner[place], model.base.inside_m, document.inner.existing, &document.build);
            if let (Some(baffle), Some(part)) = (&model.base.baffle, &model.base.document.inner.baffle) {
                bill.push_baffle(baffle, part, model.base.inside_m);
            }
        });
        let weights = |shells: &Vec<Option<CheckedShell>>| {
            let braces = shells.iter().flatten().next().map_or_else(Weight::default, |shell| {
                Weight::of(|bill| bill.push_braces(shell.braces.as_ref(), model.base.inside_m))
            });
            let lined = |lining: &Option<LiningAt>| lining.as_ref().map_or_else(Weight::default, |l| l.weight);
            model.linings.iter().map(|lining| lined(lining) + layers + braces).collect()
        };
        Self {
            thickness_m,
            weights: model.inner_shells.iter().map(weights).collect(),
            panels: model.inner_shells.iter().map(panels).collect(),
            openings: (0..lists.lids.len()).map(openings).collect(),
            laminate: laminate.clone(),
            sizes,
        }
    }

    /// Highest first resonance in Hz with these braces.
    pub(super) fn first_hz(&self, braces: usize) -> f64 {
        self.panels[braces].as_ref().map_or(0.0, |panels| panels.first_hz)
    }

    pub(super) fn areas(&self, lids: usize) -> Option<&OpeningAreas> {
        self.openings[lids].as_ref().map(|openings| &openings.areas)
    }

    /// The branches at one of the grid's frequencies; `outermost` is what becomes of the openings of the outermost shell.
    pub(super) fn branches(
        &self,
        model: &Model,
        [braces, lids, lining]: [usize; 3],
        index: usize,
        outermost: impl Fn([Passage; 2]) -> [Passage; 2],
    ) -> Option<(BranchAt, Option<BranchAt>)> {
        let (panels, openings) = (self.panels[braces].as_ref()?, self.openings[lids].as_ref()?);
        let chambers = &model.linings[lining].as_ref()?.chambers;
        let (front, rear) = &model.chambers;
        let OpeningAdmittances { leaks, holes } = openings.admittances[index];
        let vents = model.vents.get(index).map_or(complex(0.0, 0.0), |vents| vents.through + vents.near);
        let of = |response: Response, area_m2: f64, compliance, shares: &crate::enclosure::SourceChamber, vents| {
            let openings = outermost([leaks * shares.lid_share, holes * shares.holes_share]);
            BranchAt::new(response, area_m2, compliance, openings, vents)
        };
        let [front_m2, rear_m2] = panels.areas_m2;
        let behind = panels.rear.as_ref().zip(rear.as_ref());
        Some((
            of(panels.front[index], front_m2, chambers[0][index], front, vents),
            behind.map(|(panels, rear)| of(panels[index], rear_m2, chambers[1][index], rear, complex(0.0, 0.0))),
        ))
    }
}

impl Panels {
    fn new(model: &Model, sizes: &Sizes, shell: &CheckedShell) -> Self {
        let last = model.grid.bands();
        let ends = if sizes.rear.is_some() { 1.0 } else { 2.0 };
        let front = FacesKey::new(shell, sizes.front, ends, true, last).faces();
        let rear = sizes.rear.map(|size_m| FacesKey::new(shell, size_m, 1.0, false, last).faces());
        let at = |faces: &Faces| model.grid.hz.iter().map(|&hz| faces.response(hz)).collect();
        Self {
            front: at(&front),
            areas_m2: [front.area_m2(), rear.as_ref().map_or(0.0, Faces::area_m2)],
            rear: rear.as_ref().map(at),
            first_hz: front.highest_first_hz(),
        }
    }
}

impl Openings {
    fn new(model: &Model, key: &OpeningsKey) -> Self {
        let at = |&hz: &f64| opening_admittances(key, hz, &model.air);
        Self { admittances: model.grid.hz.iter().map(at).collect(), areas: opening_areas(key, &model.air) }
    }
}

impl Inner {
    /// All that goes with an inner leaf in outer shells.
    pub(super) fn new(model: &Model, lists: &Lists, parts: &InnerParts) -> Self {
        let setting = setting(model);
        let table = ComplianceTable::new(&parts.laminate, setting.edge_loss, &model.air);
        let (gain, leaf) = alone(&parts.laminate, table.clone(), &model.mount, &setting, &LEAF_ACCURACY);
        let fixity = model.base.inner.edge_fixity;
        let held = |weight: &Weight| {
            let inner_kg = weight.mass_kg + model.base.contents_kg;
            Held::new(model.base.driver.as_ref(), &model.base.suspension, inner_kg, &model.air)
        };
        let counts = [lists.inner_braces.len(), lists.lids.len(), lists.linings_mm.len()];
        let state = |choice| InnerState::new(model, parts, choice);
        let by_lining = |braces, lids| (0..counts[2]).map(|lining| state([braces, lids, lining])).collect();
        let by_lids = |braces| (0..counts[1]).map(|lids| by_lining(braces, lids)).collect();
        Self {
            table: model.directions.leaf(&parts.laminate, &table),
            gain,
            leaf,
            mobility: PanelResponse::of_box(&parts.laminate, parts.sizes.inside, fixity, &model.air).mobility,
            held: parts.weights.iter().map(|weights| weights.iter().map(held).collect()).collect(),
            weights: parts.weights.clone(),
            first_hz: (0..counts[0]).map(|braces| parts.first_hz(braces)).collect(),
            states: (0..counts[0]).map(by_lids).collect(),
            thickness_m: parts.thickness_m,
        }
    }
}

impl InnerState {
    fn new(model: &Model, parts: &InnerParts, choice: [usize; 3]) -> Option<Self> {
        // Whether it fits is known for braces and lids together.
        let [braces, lids, _] = choice;
        model.inner_shells[braces][lids].as_ref()?;
        let hz = &model.grid.hz;
        let chambers = 1 + usize::from(model.chambers.1.is_some());
        let source = || SourceAt { taken_back: Complexes::with_capacity(hz.len()), velocity: Vec::with_capacity(hz.len()) };
        let mut state = Self {
            forward: Vec::with_capacity(hz.len()),
            load: Complexes::with_capacity(hz.len()),
            sources: (0..chambers).map(|_| source()).collect(),
            vented: vec![Vec::new(); chambers],
            areas: *parts.areas(lids)?,
        };
        for (index, &hz) in hz.iter().enumerate() {
            let (front, rear) = parts.branches(model, choice, index, |openings| openings)?;
            let omega = j_omega(hz).im;
            // Power of the bare source for a volume velocity of 1 m3/s.
            let power = model.air.density * omega * omega / (std::f64::consts::TAU * model.air.speed);
            let (mut forward, mut load) = (0.0, complex(0.0, 0.0));
            for (branch, source) in [Some(&front), rear.as_ref()].into_iter().flatten().zip(&mut state.sources) {
                forward += branch.forward().norm_sqr();
                load += branch.load();
                source.taken_back.push(branch.spring * branch.forward());
                let yielding = (branch.spring + branch.through).norm_sqr();
                source.velocity.push(branch.response.square_velocity / (branch.area_m2 * power * yielding));
            }
            state.forward.push(forward);
            state.load.push(load);
            if let Some(vents) = model.vents.get(index) {
                state.vented[0].push(VentedAt::new(&front, None, vents.through));
                if let Some(rear) = &rear {
                    state.vented[1].push(VentedAt::new(&front, Some(rear), vents.through));
                }
            }
        }
        Some(state)
    }
}
