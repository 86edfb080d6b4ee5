//! An outer leaf and the shells that it makes round inner boxes of any size.

use std::rc::Rc;

use super::choice::Lists;
use super::inner::{LEAF_ACCURACY, setting};
use super::model::Model;
use super::parts::GapFill;
use super::wall::{Behind, LeafTable};
use crate::bands::Spectrum;
use crate::buildup::Laminate;
use crate::design::CheckedShell;
use crate::enclosure::network::{Faces, OpeningAdmittances, OuterAt, Outside, Passage, Response, volumeless};
use crate::enclosure::panel::Panel;
use crate::enclosure::{LidFace, OpeningAreas, PanelResponse};
use crate::evaluate::{FacesKey, Sizes, opening_admittances, opening_areas};
use crate::lanes::{Lanes, f64x2};
use crate::math::{Complex64, complex, exp, ln};
use crate::transmission::alone;
use crate::transmission::bending::bending_stiffnesses;
use crate::transmission::compliance::ComplianceTable;

/// Wavenumbers in a decade in the table of bending stiffness, and the range in rad/m: beyond any mode of any box.
const WAVENUMBERS: (f64, f64, f64) = (32.0, 0.5, 2000.0);

/// Thicknesses in m that differ by less are one.
const SAME_M: f64 = 1e-9;

/// Bending stiffness of a leaf over wavenumbers, evenly spaced in their logarithm, at the nodes of the panels' tables.
struct StiffnessTable {
    nodes: usize,
    values: Vec<Complex64>,
}

impl StiffnessTable {
    fn new(laminate: &Laminate, nodes: usize) -> Self {
        let (a_decade, least, most) = WAVENUMBERS;
        let count = (a_decade * ln(most / least) / std::f64::consts::LN_10).ceil() as usize + 1;
        let wavenumbers: Vec<f64> =
            (0..count).map(|step| least * exp(step as f64 * std::f64::consts::LN_10 / a_decade)).collect();
        let mut values = vec![complex(0.0, 0.0); count * nodes];
        for node in 0..nodes {
            let hz = Panel::node_hz(node);
            for (pair, k) in wavenumbers.chunks(2).enumerate() {
                let stiffness = bending_stiffnesses(laminate, f64x2::from([k[0], k[k.len() - 1]]), hz);
                let (re, im) = (stiffness.re.to_array(), stiffness.im.to_array());
                for lane in 0..k.len() {
                    values[(2 * pair + lane) * nodes + node] = complex(re[lane], im[lane]);
                }
            }
        }
        Self { nodes, values }
    }

    /// Stiffness in N m of a wave of `wavenumber` in rad/m at a node.
    fn at(&self, wavenumber: f64, node: usize) -> Complex64 {
        let (a_decade, least, _) = WAVENUMBERS;
        let last = self.values.len() / self.nodes - 1;
        let place = (a_decade * ln(wavenumber / least) / std::f64::consts::LN_10).clamp(0.0, last as f64);
        let below = (place as usize).min(last - 1);
        let share = place - below as f64;
        let row = |step: usize| self.values[step * self.nodes + node];
        row(below) * (1.0 - share) + row(below + 1) * share
    }

    fn at_both(&self, wavenumbers: f64x2, node: usize) -> Lanes<f64x2> {
        let values = wavenumbers.to_array().map(|wavenumber| self.at(wavenumber, node));
        Lanes { re: f64x2::from(values.map(|value| value.re)), im: f64x2::from(values.map(|value| value.im)) }
    }
}

/// The openings with some lids round the smallest and the largest box; both grow with the edge nearly in proportion.
struct Openings {
    face: LidFace,
    edges_m: [f64; 2],
    admittances: [Vec<OpeningAdmittances>; 2],
    areas: [OpeningAreas; 2],
}

/// An outer leaf.
pub(super) struct Outer {
    pub(super) laminate: Laminate,
    pub(super) thickness_m: f64,
    /// Forced and resonant transmission over the forced one, and their sum.
    pub(super) gain: Spectrum,
    pub(super) leaf: Spectrum,
    pub(super) table: LeafTable,
    stiffness: StiffnessTable,
    /// By lids; `None` where they do not fit.
    openings: Vec<Option<Openings>>,
}

/// Its panels with some braces round a box of some size, at the grid's frequencies.
pub(super) struct Walls {
    responses: Vec<Response>,
    /// One end by itself.
    pub(super) ends: Rc<[Response]>,
    area_m2: f64,
    /// Highest first resonance in Hz.
    pub(super) first_hz: f64,
}

/// What leaves an outer shell at one of the grid's frequencies.
#[derive(Clone, Copy, Debug)]
pub(super) struct LeavingAt {
    /// Volume velocity that leaves per pressure in the gap.
    pub(super) outward: Complex64,
    /// Part of its power as a small source that it radiates as far as it adds by phase.
    pub(super) breathing: f64,
    /// What is let out beside that, over the square of the pressure in the gap.
    pub(super) apart: f64,
}

/// The outer shell with its gap, braces and lids, at the grid's frequencies.
pub(super) struct OuterState {
    /// What it lets out over the square of the pressure in the gap, times that of the admittances there.
    pub(super) passed: Vec<f64>,
    /// Admittance that the shell takes in, the gap's air left out.
    pub(super) taken: Vec<Complex64>,
    /// What adds by phase with the vents, where there are any.
    pub(super) leaving: Vec<LeavingAt>,
}

/// What the shells of one outer leaf in one gap round inner boxes of one size have in common.
#[derive(Default)]
pub(super) struct Known {
    /// Thickness in m of the inner shell; 0 for none.
    inner_m: f64,
    /// Mobility and radiation of a panel.
    panel: Option<PanelResponse>,
    ends: Option<Rc<[Response]>>,
    /// By braces.
    walls: Vec<Option<Walls>>,
    /// By braces and lids.
    states: Vec<Vec<Option<OuterState>>>,
}

impl Known {
    /// Forgets what belongs to inner shells of another thickness.
    pub(super) fn fit(&mut self, inner_m: f64, shells: &[Vec<Option<CheckedShell>>]) {
        if (self.inner_m - inner_m).abs() > SAME_M {
            let states = shells.iter().map(|by_lids| by_lids.iter().map(|_| None).collect()).collect();
            *self = Self { inner_m, walls: shells.iter().map(|_| None).collect(), states, ..Self::default() };
        }
    }

    /// A panel of `outer` round `size_m`.
    pub(super) fn panel(&mut self, model: &Model, outer: &Outer, size_m: [f64; 3]) -> PanelResponse {
        *self.panel.get_or_insert_with(|| PanelResponse::of_box(&outer.laminate, size_m, model.outer_fixity(), &model.air))
    }

    /// Walls and state of `shell`, made of `outer`, with braces and lids.
    pub(super) fn get(
        &mut self,
        model: &Model,
        outer: &Outer,
        shell: &CheckedShell,
        [braces, lids]: [usize; 2],
        sizes: &Sizes,
    ) -> Option<(&Walls, &OuterState)> {
        let size_m = sizes.outer_inside?;
        let ends = &mut self.ends;
        let walls = self.walls[braces].get_or_insert_with(|| {
            let walls = outer.walls(model, shell, size_m, ends.clone());
            *ends = Some(Rc::clone(&walls.ends));
            walls
        });
        let state = &mut self.states[braces][lids];
        if state.is_none() {
            *state = outer.state(model, walls, lids, sizes);
        }
        Some((walls, state.as_ref()?))
    }
}

impl Outer {
    /// All that goes with an outer leaf; `inner_m` are the least and the largest thickness in m of the inner shells.
    pub(super) fn new(model: &Model, lists: &Lists, laminate: &Laminate, inner_m: [f64; 2]) -> Self {
        let setting = setting(model);
        let table = ComplianceTable::new(laminate, setting.edge_loss, &model.air);
        let (gain, leaf) = alone(laminate, table.clone(), &model.mount, &setting, &LEAF_ACCURACY);
        let insides = model.outer_insides(inner_m);
        let thickness_m = laminate.thickness_m();
        let openings = |lids: usize| {
            let shell = model.outer_shells.iter().flatten().find_map(|by_lids| by_lids[lids].as_ref())?;
            Some(Openings::new(model, shell, insides, thickness_m))
        };
        Self {
            gain,
            leaf,
            table: model.directions.leaf(laminate, &table),
            stiffness: StiffnessTable::new(laminate, model.grid.bands() + 2),
            openings: (0..lists.lids.len()).map(openings).collect(),
            thickness_m,
            laminate: laminate.clone(),
        }
    }

    /// The leaf behind each fill of a gap.
    pub(super) fn behind(&self, model: &Model, gap: usize) -> Vec<Option<Behind>> {
        let behind = |filled: &GapFill| model.directions.behind(&filled.table, &self.table);
        model.gaps[gap].iter().map(|filled| filled.as_ref().map(behind)).collect()
    }

    /// The panels of `shell`, of whatever leaf, made of this one round `size_m`; `ends` are those of the ends, if they are known.
    fn walls(&self, model: &Model, shell: &CheckedShell, size_m: [f64; 3], ends: Option<Rc<[Response]>>) -> Walls {
        let shell = CheckedShell { laminate: self.laminate.clone(), ..shell.clone() };
        let last = model.grid.bands();
        let mut faces: Faces = FacesKey::new(&shell, size_m, 2.0, true, last).faces_by(|k, node| self.stiffness.at_both(k, node));
        let (area_m2, first_hz) = (faces.area_m2(), faces.highest_first_hz());
        // No design with these panels asks for higher bands.
        let (_, last_band) = model.join(first_hz, None);
        let hz = &model.grid.hz[..last_band.map_or(0, |last| model.grid.count(last))];
        let end = faces.0.pop();
        let times = end.as_ref().map_or(0.0, |(_, times)| *times);
        let ends = ends.unwrap_or_else(|| {
            let none = Response { admittance: complex(0.0, 0.0), square_velocity: 0.0 };
            model.grid.hz.iter().map(|&hz| end.as_ref().map_or(none, |(panel, _)| panel.response(hz))).collect()
        });
        let all = |(&hz, end): (&f64, &Response)| {
            let long = faces.response(hz);
            Response {
                admittance: long.admittance + end.admittance * times,
                square_velocity: long.square_velocity + end.square_velocity * times,
            }
        };
        Walls { responses: hz.iter().zip(&*ends).map(all).collect(), ends, area_m2, first_hz }
    }

    /// Areas of the openings of a shell round `size_m`.
    pub(super) fn areas(&self, lids: usize, size_m: [f64; 3]) -> Option<OpeningAreas> {
        let openings = self.openings[lids].as_ref()?;
        let share = openings.share(size_m);
        let [least, most] = &openings.areas;
        let between = |a: &Spectrum, b: &Spectrum| a.zip(b, |a, b| a + share * (b - a));
        Some(OpeningAreas { leaks: between(&least.leaks, &most.leaks), holes: between(&least.holes, &most.holes) })
    }

    /// The shell of these `walls` and lids.
    fn state(&self, model: &Model, walls: &Walls, lids: usize, sizes: &Sizes) -> Option<OuterState> {
        let openings = self.openings[lids].as_ref()?;
        let size_m = sizes.outer_inside?;
        let share = openings.share(size_m);
        let edge_m = openings.face.perimeter_m(size_m);
        let free_surface_m2 = sizes.free_surface_m2();
        let count = walls.responses.len();
        let mut state = OuterState { passed: Vec::with_capacity(count), taken: Vec::with_capacity(count), leaving: Vec::new() };
        for (index, (&response, &hz)) in walls.responses.iter().zip(&model.grid.hz).enumerate() {
            let outside = Outside::new(free_surface_m2, edge_m, hz, &model.air);
            let end = walls.ends[index].admittance;
            let shell = OuterAt::new(response, walls.area_m2, openings.at(index, share), &outside, end);
            let [_, leaks, holes] = shell.shares.map(|part| part.norm_sqr());
            // What leaves, by phase and apart, and the motion that brings no volume, as the whole network has them.
            let leaving = outside.breathing + leaks * (outside.line - outside.breathing) + holes * (1.0 - outside.breathing);
            let across = (complex(1.0, 0.0) - shell.outward * outside.radiation).norm_sqr();
            let swinging = volumeless(&response, walls.area_m2) * outside.swinging;
            let outward = shell.outward.norm_sqr();
            let passed = outward * leaving + across * swinging;
            state.passed.push(passed);
            state.taken.push(shell.taken);
            if !model.vents.is_empty() {
                let breathing = outside.breathing;
                let apart = passed - outward * breathing;
                state.leaving.push(LeavingAt { outward: shell.outward, breathing, apart });
            }
        }
        Some(state)
    }
}

impl Openings {
    fn new(model: &Model, shell: &CheckedShell, insides: [[f64; 3]; 2], thickness_m: f64) -> Self {
        let keys = insides.map(|size_m| (shell.lid, shell.lid.face.perimeter_m(size_m), shell.holes, thickness_m));
        let at = |key| model.grid.hz.iter().map(|&hz| opening_admittances(key, hz, &model.air)).collect();
        Self {
            face: shell.lid.face,
            edges_m: [keys[0].1, keys[1].1],
            admittances: [at(&keys[0]), at(&keys[1])],
            areas: [opening_areas(&keys[0], &model.air), opening_areas(&keys[1], &model.air)],
        }
    }

    /// Where between the smallest and the largest box one of inside `size_m` lies.
    fn share(&self, size_m: [f64; 3]) -> f64 {
        let [least, most] = self.edges_m;
        if most > least { (self.face.perimeter_m(size_m) - least) / (most - least) } else { 0.0 }
    }

    fn at(&self, index: usize, share: f64) -> [Passage; 2] {
        let [least, most] = [&self.admittances[0][index], &self.admittances[1][index]];
        let between = |a: Passage, b: Passage| Passage {
            through: a.through + (b.through - a.through) * share,
            near: a.near + (b.near - a.near) * share,
            far: a.far + (b.far - a.far) * share,
        };
        [between(least.leaks, most.leaks), between(least.holes, most.holes)]
    }
}
