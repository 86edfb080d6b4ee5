//! What nothing else beats: sound, mass and cost, all to be as good as possible.

/// The three figures of a design.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Figures {
    /// Merit in dB: the larger the better.
    pub(super) merit_db: f64,
    /// Mass in kg: the smaller the better.
    pub(super) mass_kg: f64,
    /// Cost: the smaller the better.
    pub(super) cost: f64,
}

impl Figures {
    /// The same with the merit in whole steps.
    pub(super) fn in_steps(self, step_db: f64) -> Self {
        Self { merit_db: (self.merit_db / step_db).round() * step_db, ..self }
    }
}

/// Marks of those of `figures` that no other one beats: none is as light, as cheap and better by more than `slack_db`.
///
/// With a slack of 0 of several that are alike in everything only the first is marked. Sorting, and minima over the costs so far:
/// n log n.
pub(super) fn unbeaten(figures: &[Figures], slack_db: f64) -> Vec<bool> {
    let mut order: Vec<usize> = (0..figures.len()).collect();
    order.sort_by(|&a, &b| {
        let (first, second) = (&figures[a], &figures[b]);
        first
            .mass_kg
            .total_cmp(&second.mass_kg)
            .then(first.cost.total_cmp(&second.cost))
            .then(second.merit_db.total_cmp(&first.merit_db))
            .then(a.cmp(&b))
    });
    let mut costs: Vec<f64> = figures.iter().map(|figures| figures.cost).collect();
    costs.sort_by(f64::total_cmp);
    let mut best = PrefixBest::new(costs.len());
    let mut marks = vec![false; figures.len()];
    for index in order {
        let Figures { merit_db, cost, .. } = figures[index];
        // All that cost as much or less.
        let place = costs.partition_point(|&other| other <= cost);
        let before = best.best(place);
        marks[index] = if slack_db > 0.0 { before <= merit_db + slack_db } else { before < merit_db };
        best.add(place, merit_db);
    }
    marks
}

/// Largest number among the first so many places, places counted from 1 (Fenwick 1994, a tree of partial results).
struct PrefixBest(Vec<f64>);

impl PrefixBest {
    fn new(places: usize) -> Self {
        Self(vec![f64::NEG_INFINITY; places + 1])
    }

    fn best(&self, mut place: usize) -> f64 {
        let mut best = f64::NEG_INFINITY;
        while place > 0 {
            best = best.max(self.0[place]);
            place &= place - 1;
        }
        best
    }

    fn add(&mut self, mut place: usize, merit_db: f64) {
        while place < self.0.len() {
            self.0[place] = self.0[place].max(merit_db);
            place += place & place.wrapping_neg();
        }
    }
}

/// Cells in each direction of [`BestSoFar`].
const CELLS: usize = 512;
/// How many bits of a number's mantissa tell cells apart: 64 cells a doubling.
const CELL_BITS: u32 = 6;
/// Smallest number with a cell of its own.
const SMALLEST: f64 = 1.0;

/// Best merit of anything lighter and cheaper so far, by cells: what lies in the same row or column of cells is not counted.
pub(super) struct BestSoFar(Vec<f64>);

impl BestSoFar {
    pub(super) fn new() -> Self {
        Self(vec![f64::NEG_INFINITY; (CELLS + 1) * (CELLS + 1)])
    }

    /// Cell of a number, rising with it.
    fn cell(number: f64) -> usize {
        let shift = f64::MANTISSA_DIGITS - 1 - CELL_BITS;
        let step = |number: f64| number.to_bits() >> shift;
        ((step(number.max(SMALLEST)) - step(SMALLEST)) as usize).min(CELLS - 1)
    }

    /// Best merit in dB among those in lower cells of mass and of cost.
    pub(super) fn better_than(&self, mass_kg: f64, cost: f64) -> f64 {
        let mut best = f64::NEG_INFINITY;
        let mut row = Self::cell(mass_kg);
        while row > 0 {
            let mut column = Self::cell(cost);
            while column > 0 {
                best = best.max(self.0[row * (CELLS + 1) + column]);
                column &= column - 1;
            }
            row &= row - 1;
        }
        best
    }

    pub(super) fn add(&mut self, figures: &Figures) {
        let first = Self::cell(figures.cost) + 1;
        let mut row = Self::cell(figures.mass_kg) + 1;
        while row <= CELLS {
            let mut column = first;
            while column <= CELLS {
                let best = &mut self.0[row * (CELLS + 1) + column];
                *best = best.max(figures.merit_db);
                column += column & column.wrapping_neg();
            }
            row += row & row.wrapping_neg();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn numbers(count: usize, steps: f64) -> Vec<Figures> {
        let mut state = 1_u64;
        let mut next = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            ((state >> 33) as f64 / f64::from(1_u32 << 31) * steps).floor()
        };
        (0..count).map(|_| Figures { merit_db: next(), mass_kg: next() + 1.0, cost: next() + 1.0 }).collect()
    }

    /// By comparing each with each, with many ties and with few.
    #[test]
    fn sorting_finds_what_comparing_each_with_each_finds() {
        for steps in [4.0, 20.0, 1e6] {
            let figures = numbers(600, steps);
            let beats = |a: &Figures, b: &Figures| a.mass_kg <= b.mass_kg && a.cost <= b.cost && a.merit_db >= b.merit_db;
            let marks = unbeaten(&figures, 0.0);
            for (k, own) in figures.iter().enumerate() {
                let beaten = figures.iter().enumerate().any(|(j, other)| beats(other, own) && (other != own || j < k));
                assert_eq!(marks[k], !beaten, "{own:?}");
            }
            let slack_db = 0.05 * steps;
            let marks = unbeaten(&figures, slack_db);
            for (k, own) in figures.iter().enumerate() {
                let by_far = |other: &Figures| {
                    other.mass_kg <= own.mass_kg && other.cost <= own.cost && other.merit_db > own.merit_db + slack_db
                };
                assert_eq!(marks[k], !figures.iter().any(by_far), "{own:?}");
            }
            assert!(marks.iter().any(|&mark| !mark), "some were beaten");
        }
    }

    #[test]
    fn cells_never_call_better_what_is_heavier_or_dearer() {
        let figures = numbers(400, 300.0);
        let mut best = BestSoFar::new();
        let mut found = 0;
        for (k, own) in figures.iter().enumerate() {
            let by_cells = best.better_than(own.mass_kg, own.cost);
            let exact = figures[..k]
                .iter()
                .filter(|other| other.mass_kg < own.mass_kg && other.cost < own.cost)
                .fold(f64::NEG_INFINITY, |best, other| best.max(other.merit_db));
            assert!(by_cells <= exact, "{own:?}: {by_cells} against {exact}");
            found += usize::from(by_cells == exact && exact.is_finite());
            best.add(own);
        }
        assert!(found > 200, "cells are fine enough to find most: {found}");
    }
}
