//! Designs in the coarse model: parts that are known put together.

use super::inner::{Inner, InnerParts, InnerState};
use super::limits::{Limits, ROUNDING};
use super::model::{High, Model};
use super::outer::{Outer, OuterState, Walls};
use super::progress::Pruned;
use super::space::{Around, Choice, Lists};
use super::wall::Behind;
use super::weigh::Weight;
use crate::bands::Spectrum;
use crate::enclosure::network::{NetworkAt, Outside};
use crate::enclosure::{Held, OuterEnergy, PanelResponse, Support, mix};
use crate::evaluate::{Sizes, gap_absorption_m2, shaken_body};
use crate::geometry::{surface_area_m2, volume_m3};
use crate::math::complex;
use crate::transmission::{Accuracy, StackSpectra, stack_spectra};

use super::front::Figures;

/// How exact the wall of a single shell is, of which there are few.
const SINGLE_ACCURACY: Accuracy = Accuracy { angle_tolerance: 0.01, band_tolerance: 0.01 };

/// What is done with a design that was evaluated.
pub(super) type Sink<'a> = dyn FnMut(Choice, Figures) + 'a;

/// Room for the frequencies of one design.
#[derive(Default)]
pub(super) struct Room {
    total: Vec<f64>,
    velocity: Vec<f64>,
}

/// Why a weight does not do, if it does not.
fn too_heavy(model: &Model, limits: &Limits, all: Weight, hung_kg: Option<f64>, pruned: &mut Pruned, count: u64) -> bool {
    let carries = |support: &Support, load_kg: f64| {
        let each_kg = (load_kg + model.base.contents_kg) / support.count as f64;
        support.spring.is_none_or(|spring| each_kg <= spring.breaking_load_kg * (1.0 + ROUNDING))
    };
    let reason = if !limits.allows_mass(all.mass_kg) {
        &mut pruned.mass
    } else if !limits.allows_cost(all.cost) {
        &mut pruned.cost
    } else if !carries(&model.base.feet, all.mass_kg) || !hung_kg.is_none_or(|kg| carries(&model.base.suspension, kg)) {
        &mut pruned.loads
    } else {
        return false;
    };
    *reason += count;
    true
}

/// Evaluates all designs of one inner leaf without an outer shell.
pub(super) fn singles(
    model: &Model,
    lists: &Lists,
    limits: &Limits,
    place: usize,
    parts: &InnerParts,
    pruned: &mut Pruned,
    sink: &mut Sink,
) {
    let sizes = Sizes::of_shells(&model.base, parts.thickness_m, None);
    if !limits.allows_size(sizes.outside) {
        pruned.door += lists.within_inner();
        return;
    }
    let stack = crate::buildup::Stack { elements: vec![crate::buildup::Element::Panel(parts.laminate.clone())] };
    let mut known: Option<StackSpectra> = None;
    for (braces, shells) in model.inner_shells.iter().enumerate() {
        for (lining, lined) in model.linings.iter().enumerate() {
            let weight = parts.weights[braces][lining];
            let Some(lined) = lined else {
                pruned.refused += shells.len() as u64;
                continue;
            };
            if too_heavy(model, limits, weight, None, pruned, shells.len() as u64) {
                continue;
            }
            let (join, last_band) = model.join(parts.first_hz(braces), None);
            let body = shaken_body(&model.base, sizes.inner_outside, None, weight.mass_kg);
            let motion = body.zip(last_band).map(|(body, last)| model.motion(&body, None, last));
            for (lids, shell) in shells.iter().enumerate() {
                let (Some(shell), Some(areas)) = (shell, parts.areas(lids)) else {
                    pruned.refused += 1;
                    continue;
                };
                let spectra = known.get_or_insert_with(|| stack_spectra(&stack, &model.mount, &model.air, &SINGLE_ACCURACY));
                let high = model.high(lined, spectra, areas, None);
                let mut total = high.all;
                if let Some(last) = last_band {
                    let edge_m = shell.lid.face.perimeter_m(sizes.inside);
                    let low = single_network(model, parts, [braces, lids, lining], &sizes, edge_m, last);
                    let weights = join.weights(&low, &high.all);
                    total = mix(&weights, &low, &high.all);
                    if let Some(motion) = &motion {
                        let motion = mix(&weights, motion, &Spectrum::constant(0.0));
                        total = total.zip(&motion, |a, b| a + b);
                    }
                }
                let choice = Choice {
                    around: None,
                    inner: place as u32,
                    inner_braces: braces as u8,
                    lids: lids as u8,
                    lining: lining as u8,
                };
                let merit_db = model.gauge.merit_db(&total);
                sink(choice, Figures { merit_db, mass_kg: weight.mass_kg, cost: weight.cost });
            }
        }
    }
}

/// All that the network of a single shell lets out.
fn single_network(model: &Model, parts: &InnerParts, choice: [usize; 3], sizes: &Sizes, edge_m: f64, last: usize) -> Spectrum {
    let surface_m2 = sizes.free_surface_m2();
    let mut values = Vec::with_capacity(model.grid.count(last));
    for (index, &hz) in model.grid.hz[..model.grid.count(last)].iter().enumerate() {
        let outside = Outside::new(surface_m2, edge_m, hz, &model.air);
        let branches = parts.branches(model, choice, index, |openings| outside.outermost(openings));
        let Some((front, rear)) = branches else { break };
        let vented = model.vents.get(index).map_or(complex(0.0, 0.0), |vents| vents.through);
        values.push(NetworkAt::joined(outside, front, rear, None, vented).ratios(hz, &model.air)[0]);
    }
    model.grid.band_means(last, &values)
}

/// An outer leaf and a gap, and what they have in common.
pub(super) struct Pair<'a> {
    pub(super) model: &'a Model,
    pub(super) lists: &'a Lists,
    pub(super) limits: &'a Limits,
    pub(super) outer: &'a Outer,
    pub(super) outer_place: usize,
    pub(super) gap: usize,
    pub(super) behind: &'a [Option<Behind>],
}

/// What one inner leaf in an outer shell needs again and again.
struct Fitted<'a> {
    pair: &'a Pair<'a>,
    inner: &'a Inner,
    sizes: Sizes,
    /// Mobilities in m/(N s) of inner and outer panels, added.
    panels: Spectrum,
    outer_panel: PanelResponse,
    /// By lining and inner braces.
    motion: Vec<Option<Spectrum>>,
}

impl Pair<'_> {
    /// Evaluates all designs with one inner leaf.
    pub(super) fn evaluate(&self, place: usize, inner: &Inner, room: &mut Room, pruned: &mut Pruned, sink: &mut Sink) {
        let Self { model, lists, limits, outer, gap, .. } = *self;
        let Some(depth_m) = model.gaps[gap].iter().flatten().next().map(|filled| filled.gap.depth_m) else {
            pruned.refused += lists.within_pair();
            return;
        };
        let sizes = Sizes::of_shells(&model.base, inner.thickness_m, Some((depth_m, outer.thickness_m)));
        let Some(outer_inside) = sizes.outer_inside else { return };
        if !limits.allows_size(sizes.outside) {
            pruned.door += lists.within_pair();
            return;
        }
        let layers = Weight::of(|bill| {
            bill.push_shell(&lists.outer[self.outer_place], outer_inside);
        });
        let shells = &model.outer_shells[gap];
        let braces_weight =
            |shells: &[Option<crate::design::CheckedShell>]| {
                shells.iter().flatten().next().map_or_else(Weight::default, |shell| {
                    Weight::of(|bill| bill.push_braces(shell.braces.as_ref(), outer_inside))
                })
            };
        let outer_braces: Vec<Weight> = shells.iter().map(|by_lids| braces_weight(by_lids)).collect();
        let mut fitted: Option<Fitted> = None;
        let mut walls: Vec<Option<Walls>> = shells.iter().map(|_| None).collect();
        let (inner_braces, linings, lids) = (model.inner_shells.len(), model.linings.len(), lists.lids.len());
        let mut may = vec![false; shells.len() * lids * linings * inner_braces];
        let slot = |b: usize, s: usize, l: usize, i: usize| ((b * lids + s) * linings + l) * inner_braces + i;
        for (fill, filled) in model.gaps[gap].iter().enumerate() {
            let Some(filled) = filled else {
                pruned.refused += lists.within_pair() / lists.fill_shares.len() as u64;
                continue;
            };
            let fill_weight = model.fill_weight(lists.fill_shares[fill], sizes.inner_outside, depth_m);
            may.fill(false);
            for (b, by_lids) in shells.iter().enumerate() {
                let around = layers + fill_weight + outer_braces[b];
                for (l, i) in (0..linings).flat_map(|l| (0..inner_braces).map(move |i| (l, i))) {
                    let hung = inner.weights[i][l];
                    let fits = |s: usize| by_lids[s].is_some() && inner.states[i][s][l].is_some();
                    let count = (0..lids).filter(|&s| fits(s)).count();
                    pruned.refused += (lids - count) as u64;
                    if count > 0 && !too_heavy(model, limits, hung + around, Some(hung.mass_kg), pruned, count as u64) {
                        (0..lids).filter(|&s| fits(s)).for_each(|s| may[slot(b, s, l, i)] = true);
                    }
                }
            }
            if !may.contains(&true) {
                continue;
            }
            let fitted = fitted.get_or_insert_with(|| Fitted::new(self, inner, sizes));
            let Some(stack) = self.stack(inner, fill) else { continue };
            let absorption_m2 = gap_absorption_m2(&filled.gap, filled.coefficient.as_ref(), sizes.inner_outside, outer_inside);
            let areas: Vec<_> = (0..lids).map(|s| outer.areas(s, outer_inside)).collect();
            let mut highs: Vec<Option<High>> = vec![None; lids * linings];
            for (b, by_lids) in shells.iter().enumerate() {
                let around = layers + fill_weight + outer_braces[b];
                for s in 0..lids {
                    let some = (0..linings).any(|l| (0..inner_braces).any(|i| may[slot(b, s, l, i)]));
                    let (Some(shell), Some(areas), true) = (&by_lids[s], &areas[s], some) else { continue };
                    let walls = walls[b].get_or_insert_with(|| outer.walls(model, shell, outer_inside));
                    let Some(state) = outer.state(model, walls, s, filled, &sizes) else { continue };
                    for (l, lined) in model.linings.iter().enumerate() {
                        let Some(lined) = lined else { continue };
                        for i in 0..inner_braces {
                            let (true, Some(inside)) = (may[slot(b, s, l, i)], &inner.states[i][s][l]) else { continue };
                            let high = highs[s * linings + l].get_or_insert_with(|| {
                                let outer = OuterEnergy {
                                    transmission: &stack.leaves[1],
                                    area_m2: surface_area_m2(outer_inside),
                                    gap_absorption_m2: &absorption_m2,
                                    openings: areas,
                                };
                                model.high(lined, &stack, &inside.areas, Some(outer))
                            });
                            let ratios = fitted.ratios(high, inside, [i, l], walls, &state, room);
                            let weight = inner.weights[i][l] + around;
                            let choice = Choice {
                                around: Some(Around {
                                    outer: self.outer_place as u32,
                                    gap: gap as u8,
                                    fill: fill as u8,
                                    braces: b as u8,
                                }),
                                inner: place as u32,
                                inner_braces: i as u8,
                                lids: s as u8,
                                lining: l as u8,
                            };
                            let merit_db = model.gauge.merit_db(&ratios);
                            sink(choice, Figures { merit_db, mass_kg: weight.mass_kg, cost: weight.cost });
                        }
                    }
                }
            }
        }
    }

    /// The whole wall with a fill.
    fn stack(&self, inner: &Inner, fill: usize) -> Option<StackSpectra> {
        let forced = self.model.directions.transmission(&inner.table, self.behind[fill].as_ref()?);
        let gains = inner.gain.zip(&self.outer.gain, |a, b| a * b);
        Some(StackSpectra {
            transmission: forced.zip(&gains, |forced, gain| (forced * gain).min(1.0)),
            gap_gain: Spectrum::constant(0.0),
            leaves: [inner.leaf, self.outer.leaf].map(|leaf| leaf.map(|leaf| leaf.min(1.0))),
        })
    }
}

impl<'a> Fitted<'a> {
    fn new(pair: &'a Pair<'a>, inner: &'a Inner, sizes: Sizes) -> Self {
        let model = pair.model;
        let fixity = model.outer_fixity();
        let outer_inside = sizes.outer_inside.unwrap_or(sizes.inner_outside);
        let outer_panel = PanelResponse::of_box(&pair.outer.laminate, outer_inside, fixity, &model.air);
        Self {
            pair,
            inner,
            sizes,
            panels: inner.mobility.zip(&outer_panel.mobility, |a, b| a + b),
            outer_panel,
            motion: vec![None; model.linings.len() * model.inner_shells.len()],
        }
    }

    /// What a design lets out of the source's power, by band.
    fn ratios(
        &mut self,
        high: &High,
        inside: &InnerState,
        [braces, lining]: [usize; 2],
        walls: &Walls,
        state: &OuterState,
        room: &mut Room,
    ) -> Spectrum {
        let model = self.pair.model;
        let held = &self.inner.held[braces][lining];
        let (join, last_band) = model.join(self.inner.first_hz[braces], Some(walls.first_hz));
        let Some(last) = last_band else { return self.with_structure(&high.all, &high.velocity, held) };
        network(model, inside, state, last, room);
        let low = model.grid.band_means(last, &room.total);
        let velocity = model.grid.band_means(last, &room.velocity);
        let weights = join.weights(&low, &high.all);
        let motion = self.motion([braces, lining], walls);
        let total = mix(&weights, &low, &high.all);
        let motion = mix(&weights, &motion, &Spectrum::constant(0.0));
        let velocity = mix(&weights, &velocity, &high.velocity);
        self.with_structure(&total.zip(&motion, |a, b| a + b), &velocity, held)
    }

    /// `total` and what goes through the suspension.
    fn with_structure(&self, total: &Spectrum, velocity: &Spectrum, held: &Held) -> Spectrum {
        Spectrum::from_fn(|band| {
            let force = held.force(band, velocity[band], self.panels[band]);
            total[band] + force * held.radiated(&self.outer_panel, band)
        })
    }

    /// What the inner box radiates by its motion; the network's last band is the last of all.
    fn motion(&mut self, [braces, lining]: [usize; 2], walls: &Walls) -> Spectrum {
        let Self { pair, inner, sizes, .. } = *self;
        let model = pair.model;
        let known = &mut self.motion[lining * model.inner_shells.len() + braces];
        *known.get_or_insert_with(|| {
            let depth_m = model.gaps[pair.gap].iter().flatten().next().map_or(0.0, |filled| filled.gap.depth_m);
            let mass_kg = inner.weights[braces][lining].mass_kg;
            let Some(body) = shaken_body(&model.base, sizes.inner_outside, Some(depth_m), mass_kg) else {
                return Spectrum::constant(0.0);
            };
            let gap_m3 = volume_m3(sizes.outer_inside.unwrap_or(sizes.inner_outside)) - volume_m3(sizes.inner_outside);
            let last = (model.grid.hz.len() / super::grid::PER_BAND).saturating_sub(1);
            model.motion(&body, Some((gap_m3, &walls.ends)), last)
        })
    }
}

/// What the network lets out at the grid's frequencies up to those of `last`, and the inner walls' mean square velocity.
fn network(model: &Model, inside: &InnerState, state: &OuterState, last: usize, room: &mut Room) {
    let count = model.grid.count(last);
    room.total.clear();
    room.velocity.clear();
    if !model.vents.is_empty() {
        for (index, &hz) in model.grid.hz[..count].iter().enumerate() {
            let ((front, rear), (outside, shell)) = (inside.branches[index], state.shells[index]);
            let ratios = NetworkAt::joined(outside, front, rear, Some(shell), model.vents[index].through).ratios(hz, &model.air);
            room.total.push(ratios[0]);
            room.velocity.push(ratios[8]);
        }
        return;
    }
    for index in 0..count {
        let at_node = state.taken[index] + inside.load[index];
        let square = 1.0 / at_node.norm_sqr();
        room.total.push(inside.forward[index] * state.passed[index] * square);
        let pressure = at_node.conj() * square;
        let velocity = inside.sources.iter().map(|source| {
            let across = complex(1.0, 0.0) - source.taken_back[index] * pressure;
            across.norm_sqr() * source.velocity[index]
        });
        room.velocity.push(velocity.fold(0.0, f64::max));
    }
}

impl Model {
    fn fill_weight(&self, share: f64, inner_m: [f64; 3], depth_m: f64) -> Weight {
        let fill = self.base.document.gap.fill.clone().unwrap_or_default();
        Weight::of(|bill| bill.push_fill(&crate::design::Fill { share, ..fill }, inner_m, depth_m))
    }

    /// Fixity of the edges of outer shells.
    fn outer_fixity(&self) -> f64 {
        let shells = self.outer_shells.iter().flatten().flatten();
        shells.flatten().next().map_or(0.0, |shell| shell.edge_fixity)
    }
}
