//! Designs of one shell in the coarse model.

use super::choice::{Choice, Lists};
use super::front::Figures;
use super::inner::InnerParts;
use super::limits::{Limits, ROUNDING};
use super::model::Model;
use super::progress::Pruned;
use super::weigh::Weight;
use crate::bands::Spectrum;
use crate::buildup::{Element, Stack};
use crate::enclosure::network::{NetworkAt, Outside};
use crate::enclosure::{Support, mix};
use crate::evaluate::{Sizes, shaken_body};
use crate::math::complex;
use crate::transmission::{Accuracy, StackSpectra, stack_spectra};

/// How exact the wall of a single shell is, of which there are few.
const SINGLE_ACCURACY: Accuracy = Accuracy { angle_tolerance: 0.01, band_tolerance: 0.01 };

/// What is done with a design that was evaluated.
pub(super) type Sink<'a> = dyn FnMut(Choice, Figures) + 'a;

/// Why a weight does not do, if it does not.
pub(super) fn too_heavy(
    model: &Model,
    limits: &Limits,
    all: Weight,
    hung_kg: Option<f64>,
    pruned: &mut Pruned,
    count: u64,
) -> bool {
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
    let stack = Stack { elements: vec![Element::Panel(parts.laminate.clone())] };
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
