//! Designs of two shells in the coarse model: parts that are known put together.

use super::choice::{Around, Choice, Lists};
use super::front::Figures;
use super::inner::{Inner, InnerState};
use super::limits::Limits;
use super::model::{High, Model};
use super::outer::{Known, Outer, OuterState, Walls};
use super::progress::Pruned;
use super::room::Room;
use super::single::{Sink, too_heavy};
use super::wall::Behind;
use super::weigh::Weight;
use crate::bands::Spectrum;
use crate::design::{CheckedShell, Fill};
use crate::enclosure::{Held, OpeningAreas, OuterEnergy, PanelResponse, mix, weights_at};
use crate::evaluate::{Sizes, gap_absorption_m2, shaken_body};
use crate::geometry::{surface_area_m2, volume_m3};
use crate::transmission::StackSpectra;

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

/// Designs of one inner leaf in an outer shell: which of them are evaluated, by places in the lists.
struct Wanted {
    counts: [usize; 5],
    marks: Vec<bool>,
}

impl Wanted {
    /// By fill, outer braces, lids, lining and inner braces.
    fn new(counts: [usize; 5]) -> Self {
        Self { counts, marks: vec![false; counts.iter().product()] }
    }

    fn place(&self, choice: &[usize]) -> usize {
        choice.iter().zip(&self.counts).fold(0, |place, (one, count)| place * count + one)
    }

    fn mark(&mut self, choice: [usize; 5]) {
        let place = self.place(&choice);
        self.marks[place] = true;
    }

    fn is_wanted(&self, choice: [usize; 5]) -> bool {
        self.marks[self.place(&choice)]
    }
}

/// What one inner leaf in an outer shell needs again and again.
struct Fitted<'a> {
    pair: &'a Pair<'a>,
    inner: &'a Inner,
    sizes: Sizes,
    outer_inside: [f64; 3],
    gap_m3: f64,
    depth_m: f64,
    /// Mobilities in m/(N s) of inner and outer panels, added.
    panels: Spectrum,
    outer_panel: PanelResponse,
    /// By fill.
    stacks: Vec<Option<(StackSpectra, Spectrum)>>,
    /// By fill, lids and lining.
    highs: Vec<Option<High>>,
    /// By lining and inner braces.
    motion: Vec<Option<Spectrum>>,
}

/// Where the network of some panels hands over.
#[derive(Clone, Copy)]
struct Handover {
    octaves: Spectrum,
    last_band: Option<usize>,
}

impl Pair<'_> {
    /// Evaluates all designs with one inner leaf.
    pub(super) fn evaluate(
        &self,
        place: usize,
        inner: &Inner,
        known: &mut Known,
        room: &mut Room,
        pruned: &mut Pruned,
        sink: &mut Sink,
    ) {
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
        let shells = &model.outer_shells[gap];
        let around = self.weights(&sizes, depth_m);
        let wanted = self.wanted(inner, &around, pruned);
        if !wanted.marks.contains(&true) {
            return;
        }
        known.fit(inner.thickness_m, shells);
        let mut fitted = Fitted::new(self, inner, sizes, depth_m, &known.panel(model, outer, outer_inside));
        let (fills, linings, inner_braces) = (model.gaps[gap].len(), model.linings.len(), model.inner_shells.len());
        for (b, by_lids) in shells.iter().enumerate() {
            let mut handovers: Vec<Handover> = Vec::new();
            for (s, shell) in by_lids.iter().enumerate() {
                let mut choices =
                    (0..fills).flat_map(|f| (0..linings).flat_map(move |l| (0..inner_braces).map(move |i| (f, l, i))));
                let (Some(shell), true) = (shell, choices.any(|(f, l, i)| wanted.is_wanted([f, b, s, l, i]))) else { continue };
                let (Some((walls, state)), Some(areas)) =
                    (known.get(model, outer, shell, [b, s], &sizes), outer.areas(s, outer_inside))
                else {
                    continue;
                };
                if handovers.is_empty() {
                    handovers = inner.first_hz.iter().map(|&hz| Handover::new(model, hz, walls.first_hz)).collect();
                }
                for (f, filled) in model.gaps[gap].iter().enumerate() {
                    let Some(filled) = filled else { continue };
                    room.put_behind(state, filled, fitted.gap_m3);
                    for (l, i) in (0..linings).flat_map(|l| (0..inner_braces).map(move |i| (l, i))) {
                        let (true, Some(inside)) = (wanted.is_wanted([f, b, s, l, i]), &inner.states[i][s][l]) else { continue };
                        let Some(high) = fitted.high([f, s, l], inside, &areas) else { continue };
                        let ratios = fitted.ratios(&high, inside, [i, l], &handovers[i], (walls, state), room);
                        let weight = inner.weights[i][l] + around[f][b];
                        let choice = Choice {
                            around: Some(Around {
                                outer: self.outer_place as u32,
                                gap: gap as u8,
                                fill: f as u8,
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

    /// Mass and cost of fill, outer shell and its braces, by fill and braces.
    fn weights(&self, sizes: &Sizes, depth_m: f64) -> Vec<Vec<Weight>> {
        let Self { model, lists, gap, .. } = *self;
        let outer_inside = sizes.outer_inside.unwrap_or(sizes.inner_outside);
        let layers = Weight::of(|bill| {
            bill.push_shell(&lists.outer[self.outer_place], outer_inside, false, &model.base.document.build);
        });
        let braces =
            |by_lids: &Vec<Option<CheckedShell>>| {
                by_lids.iter().flatten().next().map_or_else(Weight::default, |shell| {
                    Weight::of(|bill| bill.push_braces(shell.braces.as_ref(), outer_inside))
                })
            };
        let braces: Vec<Weight> = model.outer_shells[gap].iter().map(braces).collect();
        let with_fill = |&share: &f64| {
            let fill = model.fill_weight(share, sizes.inner_outside, depth_m);
            braces.iter().map(|&braces| fill + layers + braces).collect()
        };
        lists.fill_shares.iter().map(with_fill).collect()
    }

    /// Which designs are evaluated; why the others are not is counted.
    fn wanted(&self, inner: &Inner, around: &[Vec<Weight>], pruned: &mut Pruned) -> Wanted {
        let Self { model, lists, limits, gap, .. } = *self;
        let shells = &model.outer_shells[gap];
        let (fills, lids, linings, inner_braces) =
            (model.gaps[gap].len(), lists.lids.len(), model.linings.len(), model.inner_shells.len());
        let mut wanted = Wanted::new([fills, shells.len(), lids, linings, inner_braces]);
        for (f, filled) in model.gaps[gap].iter().enumerate() {
            for (b, by_lids) in shells.iter().enumerate() {
                for (l, i) in (0..linings).flat_map(|l| (0..inner_braces).map(move |i| (l, i))) {
                    let hung = inner.weights[i][l];
                    let fits = |s: usize| filled.is_some() && by_lids[s].is_some() && inner.states[i][s][l].is_some();
                    let count = (0..lids).filter(|&s| fits(s)).count();
                    pruned.refused += (lids - count) as u64;
                    let all = hung + around[f][b];
                    if count > 0 && !too_heavy(model, limits, all, Some(hung.mass_kg), pruned, count as u64) {
                        (0..lids).filter(|&s| fits(s)).for_each(|s| wanted.mark([f, b, s, l, i]));
                    }
                }
            }
        }
        wanted
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

impl Handover {
    fn new(model: &Model, inner_hz: f64, outer_hz: f64) -> Self {
        let (join, last_band) = model.join(inner_hz, Some(outer_hz));
        Self { octaves: join.octaves(), last_band }
    }
}

impl<'a> Fitted<'a> {
    fn new(pair: &'a Pair<'a>, inner: &'a Inner, sizes: Sizes, depth_m: f64, outer_panel: &PanelResponse) -> Self {
        let Pair { model, lists, .. } = *pair;
        let outer_inside = sizes.outer_inside.unwrap_or(sizes.inner_outside);
        let fills = model.gaps[pair.gap].len();
        Self {
            pair,
            inner,
            sizes,
            outer_inside,
            gap_m3: volume_m3(outer_inside) - volume_m3(sizes.inner_outside),
            depth_m,
            panels: inner.mobility.zip(&outer_panel.mobility, |a, b| a + b),
            outer_panel: *outer_panel,
            stacks: vec![None; fills],
            highs: vec![None; fills * lists.lids.len() * model.linings.len()],
            motion: vec![None; model.linings.len() * model.inner_shells.len()],
        }
    }

    /// What the energy balance gives with a fill, lids and a lining.
    fn high(&mut self, [f, s, l]: [usize; 3], inside: &InnerState, areas: &OpeningAreas) -> Option<High> {
        let Pair { model, lists, gap, .. } = *self.pair;
        let slot = (f * lists.lids.len() + s) * model.linings.len() + l;
        if let Some(high) = self.highs[slot] {
            return Some(high);
        }
        if self.stacks[f].is_none() {
            let filled = model.gaps[gap][f].as_ref()?;
            let (inner_m, outer_m) = (self.sizes.inner_outside, self.outer_inside);
            let absorption_m2 = gap_absorption_m2(&filled.gap, filled.coefficient.as_ref(), inner_m, outer_m);
            self.stacks[f] = Some((self.pair.stack(self.inner, f)?, absorption_m2));
        }
        let (stack, gap_absorption_m2) = self.stacks[f].as_ref()?;
        let outer = OuterEnergy {
            transmission: &stack.leaves[1],
            area_m2: surface_area_m2(self.outer_inside),
            gap_absorption_m2,
            openings: areas,
        };
        let high = model.high(model.linings[l].as_ref()?, stack, &inside.areas, Some(outer));
        self.highs[slot] = Some(high);
        Some(high)
    }

    /// What a design lets out of the source's power, by band.
    fn ratios(
        &mut self,
        high: &High,
        inside: &InnerState,
        [braces, lining]: [usize; 2],
        handover: &Handover,
        (walls, state): (&Walls, &OuterState),
        room: &mut Room,
    ) -> Spectrum {
        let model = self.pair.model;
        let held = &self.inner.held[braces][lining];
        let Some(last) = handover.last_band else { return self.with_structure(&high.all, &high.velocity, held) };
        room.network(inside, state, model.grid.count(last));
        if !model.vents.is_empty() {
            room.vent(inside, state);
        }
        let low = model.grid.band_means(last, &room.total);
        let velocity = model.grid.band_means(last, &room.velocity);
        let weights = weights_at(&handover.octaves, &low, &high.all);
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

    /// What the inner box radiates by its motion, up to the last band that any network reaches.
    fn motion(&mut self, [braces, lining]: [usize; 2], walls: &Walls) -> Spectrum {
        let Self { pair, inner, sizes, depth_m, gap_m3, .. } = *self;
        let model = pair.model;
        let known = &mut self.motion[lining * model.inner_shells.len() + braces];
        *known.get_or_insert_with(|| {
            let mass_kg = inner.weights[braces][lining].mass_kg;
            let Some(body) = shaken_body(&model.base, sizes.inner_outside, Some(depth_m), mass_kg) else {
                return Spectrum::constant(0.0);
            };
            let last = (model.grid.bands()).saturating_sub(1);
            model.motion(&body, Some((gap_m3, &walls.ends)), last)
        })
    }
}

impl Model {
    fn fill_weight(&self, share: f64, inner_m: [f64; 3], depth_m: f64) -> Weight {
        let fill = self.base.document.gap.fill.clone().unwrap_or_default();
        Weight::of(|bill| bill.push_fill(&Fill { share, ..fill }, inner_m, depth_m))
    }

    /// Fixity of the edges of outer shells.
    pub(super) fn outer_fixity(&self) -> f64 {
        let shells = self.outer_shells.iter().flatten().flatten();
        shells.flatten().next().map_or(0.0, |shell| shell.edge_fixity)
    }
}
