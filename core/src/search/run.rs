//! The search itself, in slices.

use super::choice::{Choice, Lists};
use super::coarse::Pair;
use super::found::{Front, Point, Ranked};
use super::front::{BestSoFar, Figures, unbeaten};
use super::inner::{Inner, InnerParts};
use super::limits::{Limits, ROUNDING};
use super::model::Model;
use super::outer::{Known, Outer};
use super::progress::Progress;
use super::room::Room;
use super::single::singles;
use super::space::Space;
use super::wall::Behind;
use crate::buildup::Laminate;
use crate::buildup::check::{Problems, check_leaf};
use crate::design::Design;
use crate::error::FieldError;
use crate::evaluate::{Evaluator, Report};

/// By how much in dB the merit of the coarse model may differ from that of the full one: twice the largest difference among
/// thousands of designs drawn from spaces round designs drawn over all inputs (`tests/tests/search.rs`). It is measured, not proven.
pub const COARSE_ERROR_DB: f64 = 0.25;
/// Merits are compared in steps of this many dB: a box that is heavier or dearer for less is no better choice.
pub const MERIT_STEP_DB: f64 = 0.1;
/// Most designs that the full model evaluates. If more may be on the front, the error that the coarse model is allowed is halved until
/// they are no more, and the result is called a heuristic.
pub const MOST_CANDIDATES: usize = 20_000;
/// Least slack in dB to which it is brought; the first of the coarse front alone are left beyond that.
const LEAST_SLACK_DB: f64 = 0.01;
/// Part of the whole work that the coarse model is taken to be.
const COARSE_PART: f64 = 0.5;

/// A design that the coarse model evaluated and that may be on the front.
#[derive(Clone, Copy, Debug)]
struct Candidate {
    choice: Choice,
    figures: Figures,
}

/// What is done next.
enum Stage {
    /// Inner leaves, each with its designs without an outer shell.
    Inner(usize),
    /// Pairs: outer leaf, gap, inner leaf.
    Pairs([usize; 3]),
    /// Candidates are picked.
    Pick,
    /// Candidates are evaluated in full.
    Full(usize),
    Finished,
}

/// A search for the best trade-offs between sound, mass and cost, to be carried on in slices.
pub struct Search {
    base: Design,
    lists: Lists,
    limits: Limits,
    exact_limits: Limits,
    model: Model,
    leaves: [Vec<Laminate>; 2],
    inner_m: [f64; 2],
    inner: Vec<Inner>,
    outer: Option<Outer>,
    behind: Option<Vec<Option<Behind>>>,
    known: Known,
    room: Room,
    stage: Stage,
    progress: Progress,
    best: BestSoFar,
    /// Whether every design that was evaluated stays a candidate.
    keeps_all: bool,
    most_candidates: usize,
    candidates: Vec<Candidate>,
    evaluator: Evaluator,
    full: Vec<(Choice, Figures, Point)>,
    is_complete: bool,
    largest_deviation_db: f64,
}

/// Every design of `space` round `base` within `limits` as the coarse model ranks it, in no particular order.
///
/// For small spaces, and to see how near the coarse model is to the full one.
///
/// # Errors
/// As [`Search::new`].
pub fn rank_all(base: &Design, space: &Space, limits: Limits) -> Result<Vec<Ranked>, Vec<FieldError>> {
    let mut search = Search::new(base, space, limits)?;
    search.keeps_all = true;
    while !matches!(search.stage, Stage::Pick) {
        search.unit();
    }
    let ranked = |&Candidate { choice, figures }: &Candidate| Ranked {
        design: search.lists.design(&search.base, choice),
        merit_db: figures.merit_db,
        mass_kg: figures.mass_kg,
        cost: figures.cost,
    };
    Ok(search.candidates.iter().map(ranked).collect())
}

impl Search {
    /// A search in `space` round `base`.
    ///
    /// # Errors
    /// What the check says of `base`, or every wish and limit that is out of range, and what would replace a sheet that is kept.
    pub fn new(base: &Design, space: &Space, limits: Limits) -> Result<Self, Vec<FieldError>> {
        let checked = base.check()?;
        let mut errors = space.check().err().unwrap_or_default();
        errors.extend(space.check_kept(base).err().unwrap_or_default());
        errors.extend(limits.check().err().unwrap_or_default());
        if !errors.is_empty() {
            return Err(errors);
        }
        let mut lists = space.lists();
        let compound_mm = base.build.compound_mm();
        let outer = leaves("space.more_outer", &lists.outer, compound_mm)?;
        // Round inner leaves of one thickness outer shells are alike: they come one after the other.
        let mut inner: Vec<_> =
            leaves("space.more_inner", &lists.inner, compound_mm)?.into_iter().zip(std::mem::take(&mut lists.inner)).collect();
        inner.sort_by(|(a, _), (b, _)| a.thickness_m().total_cmp(&b.thickness_m()));
        let (inner, layers): (Vec<_>, Vec<_>) = inner.into_iter().unzip();
        lists.inner = layers;
        let leaves = [inner, outer];
        let mut evaluator = Evaluator::default();
        let report = evaluator.evaluate(&checked);
        let model = Model::new(base, checked, &report, &lists, &leaves);
        let thicknesses = leaves[0].iter().map(Laminate::thickness_m);
        let inner_m = thicknesses.fold([f64::INFINITY, 0.0], |[least, most], m| [m.min(least), m.max(most)]);
        Ok(Self {
            base: base.clone(),
            limits: limits.rounded_up(),
            exact_limits: limits,
            model,
            leaves,
            inner_m,
            inner: Vec::new(),
            outer: None,
            behind: None,
            known: Known::default(),
            room: Room::default(),
            stage: Stage::Inner(0),
            progress: Progress { combinations: lists.combinations(), ..Progress::default() },
            best: BestSoFar::new(),
            keeps_all: false,
            most_candidates: MOST_CANDIDATES,
            candidates: Vec::new(),
            evaluator,
            full: Vec::new(),
            is_complete: true,
            largest_deviation_db: 0.0,
            lists,
        })
    }

    /// How far it is.
    pub fn progress(&self) -> Progress {
        self.progress
    }

    /// Carries on for `units` of work, each a few milliseconds at most: an inner leaf, an outer leaf, a gap, an inner leaf in both, or one
    /// full estimate. Returns whether there is more to do.
    pub fn step(&mut self, units: usize) -> bool {
        for _ in 0..units {
            if self.progress.is_finished() {
                return false;
            }
            self.unit();
        }
        !self.progress.is_finished()
    }

    /// Carries on to the end.
    pub fn finish(&mut self) -> Front {
        while self.step(usize::MAX) {}
        self.front()
    }

    /// The front of all that was evaluated in full so far.
    pub fn front(&self) -> Front {
        let figures: Vec<Figures> = self.full.iter().map(|(_, figures, _)| figures.in_steps(MERIT_STEP_DB)).collect();
        let marks = unbeaten(&figures, 0.0);
        let mut points: Vec<&(Choice, Figures, Point)> =
            self.full.iter().zip(&marks).filter(|(_, mark)| **mark).map(|(point, _)| point).collect();
        points.sort_by(|(a, x, _), (b, y, _)| x.mass_kg.total_cmp(&y.mass_kg).then(x.cost.total_cmp(&y.cost)).then(a.cmp(b)));
        Front {
            points: points.into_iter().map(|(_, _, point)| point.clone()).collect(),
            is_exact: self.is_complete && self.progress.is_finished() && self.largest_deviation_db <= COARSE_ERROR_DB,
            largest_deviation_db: self.largest_deviation_db,
        }
    }

    fn unit(&mut self) {
        match self.stage {
            Stage::Inner(place) => self.inner(place),
            Stage::Pairs(place) => self.pair(place),
            Stage::Pick => self.pick(),
            Stage::Full(place) => self.full(place),
            Stage::Finished => {}
        }
        let Progress { combinations, evaluated, pruned, candidates, .. } = self.progress;
        let coarse = (evaluated + pruned.all()) as f64 / combinations as f64;
        self.progress.done = match self.stage {
            Stage::Inner(_) | Stage::Pairs(_) => COARSE_PART * coarse.min(1.0),
            Stage::Pick => COARSE_PART,
            Stage::Full(place) => COARSE_PART + (1.0 - COARSE_PART) * place as f64 / candidates as f64,
            Stage::Finished => 1.0,
        };
    }

    fn inner(&mut self, place: usize) {
        let parts = InnerParts::new(&self.model, &self.lists, place, &self.leaves[0][place]);
        let Self { model, lists, limits, progress, best, keeps_all, candidates, .. } = self;
        let Progress { evaluated, pruned, .. } = progress;
        if lists.single_shells {
            singles(model, lists, limits, place, &parts, pruned, &mut |choice, figures| {
                *evaluated += 1;
                keep(best, *keeps_all, candidates, choice, figures);
            });
        }
        if !lists.outer.is_empty() {
            self.inner.push(Inner::new(model, lists, &parts));
        }
        let next = place + 1;
        self.stage = match (next < self.leaves[0].len(), self.leaves[1].is_empty()) {
            (true, _) => Stage::Inner(next),
            (false, true) => Stage::Pick,
            (false, false) => Stage::Pairs([0; 3]),
        };
    }

    fn pair(&mut self, [outer_place, gap, inner]: [usize; 3]) {
        let Self { model, lists, limits, progress, best, keeps_all, candidates, room, known, .. } = self;
        let Some(outer) = &self.outer else {
            self.outer = Some(Outer::new(model, lists, &self.leaves[1][outer_place], self.inner_m));
            return;
        };
        let Some(behind) = &self.behind else {
            self.behind = Some(outer.behind(model, gap));
            return;
        };
        let Progress { evaluated, pruned, .. } = progress;
        let pair = Pair { model, lists, limits, outer, outer_place, gap, behind };
        pair.evaluate(inner, &self.inner[inner], known, room, pruned, &mut |choice, figures| {
            *evaluated += 1;
            keep(best, *keeps_all, candidates, choice, figures);
        });
        self.stage = if inner + 1 < self.inner.len() {
            Stage::Pairs([outer_place, gap, inner + 1])
        } else if gap + 1 < self.lists.gaps_mm.len() {
            (self.behind, self.known) = (None, Known::default());
            Stage::Pairs([outer_place, gap + 1, 0])
        } else {
            (self.behind, self.known, self.outer) = (None, Known::default(), None);
            if outer_place + 1 < self.leaves[1].len() { Stage::Pairs([outer_place + 1, 0, 0]) } else { Stage::Pick }
        };
    }

    /// Picks the candidates, the coarse front first, and each part in the order of their walls, which are then computed once.
    fn pick(&mut self) {
        self.inner = Vec::new();
        let figures: Vec<Figures> = self.candidates.iter().map(|candidate| candidate.figures).collect();
        let mut slack_db = 2.0 * COARSE_ERROR_DB;
        let mut marks = unbeaten(&figures, slack_db);
        let count = |marks: &[bool]| marks.iter().filter(|&&mark| mark).count();
        while count(&marks) > self.most_candidates && slack_db > LEAST_SLACK_DB {
            slack_db *= 0.5;
            marks = unbeaten(&figures, slack_db);
            self.is_complete = false;
        }
        let front = unbeaten(&figures, 0.0);
        let mut picked: Vec<(bool, Candidate)> = (0..figures.len())
            .filter(|&place| marks[place] || front[place])
            .map(|place| (!front[place], self.candidates[place]))
            .collect();
        picked.sort_by_key(|(later, candidate)| (*later, order(candidate.choice)));
        if picked.len() > self.most_candidates {
            self.is_complete = false;
            picked.truncate(self.most_candidates);
        }
        self.candidates = picked.into_iter().map(|(_, candidate)| candidate).collect();
        self.progress.candidates = self.candidates.len() as u64;
        self.stage = if self.candidates.is_empty() { Stage::Finished } else { Stage::Full(0) };
    }

    fn full(&mut self, place: usize) {
        let Candidate { choice, figures } = self.candidates[place];
        // The best that it can be in full.
        let hoped = Figures { merit_db: figures.merit_db + COARSE_ERROR_DB, ..figures }.in_steps(MERIT_STEP_DB);
        let beaten = self.full.iter().any(|(_, other, _)| {
            other.mass_kg <= figures.mass_kg * (1.0 - ROUNDING)
                && other.cost <= figures.cost * (1.0 - ROUNDING)
                && other.in_steps(MERIT_STEP_DB).merit_db >= hoped.merit_db
        });
        if beaten {
            self.progress.beaten += 1;
        } else {
            self.progress.checked += 1;
            let design = self.lists.design(&self.base, choice);
            let checked = design.check();
            // What the check refuses was left out before; were it not, the front would not be exact.
            self.is_complete &= checked.is_ok();
            if let Ok(checked) = checked {
                let report = self.evaluator.evaluate(&checked);
                let (figures, point) = point(design, &report);
                let deviation_db = (figures.merit_db - self.candidates[place].figures.merit_db).abs();
                self.largest_deviation_db = self.largest_deviation_db.max(deviation_db);
                if self.exact_limits.allows_mass(figures.mass_kg)
                    && self.exact_limits.allows_cost(figures.cost)
                    && self.exact_limits.allows_size(report.outside_m)
                {
                    self.full.push((choice, figures, point));
                }
            }
        }
        self.stage = if place + 1 < self.candidates.len() { Stage::Full(place + 1) } else { Stage::Finished };
    }
}

/// Order in which the walls of neighbours are alike.
fn order(choice: Choice) -> impl Ord {
    let around = choice.around.map(|around| (around.outer, around.gap, around.fill, around.braces));
    let wall = around.map(|(outer, gap, fill, _)| (outer, gap, choice.inner, fill));
    (wall, around.map(|(.., braces)| braces), choice)
}

/// Keeps what may be on the front: nothing lighter and cheaper is better by more than both models may differ.
fn keep(best: &mut BestSoFar, keeps_all: bool, candidates: &mut Vec<Candidate>, choice: Choice, figures: Figures) {
    if keeps_all || best.better_than(figures.mass_kg, figures.cost) <= figures.merit_db + 2.0 * COARSE_ERROR_DB {
        candidates.push(Candidate { choice, figures });
        best.add(&figures);
    }
}

/// The leaves of `layers`, with errors under `path`.
fn leaves(path: &str, layers: &[Vec<crate::buildup::raw::Layer>], compound_mm: f64) -> Result<Vec<Laminate>, Vec<FieldError>> {
    let mut problems = Problems::default();
    let leaves = layers.iter().map_while(|layers| check_leaf(&mut problems, path, layers, compound_mm)).collect();
    problems.finish(leaves)
}

fn point(design: Design, report: &Report) -> (Figures, Point) {
    let figures = Figures { merit_db: report.merit_db(), mass_kg: report.bill.mass_kg, cost: report.bill.cost };
    let point = Point {
        design,
        level_dba: report.answer().dba,
        margin_db: report.decisive().map(|listener| listener.judgement.margin_db),
        merit_db: figures.merit_db,
        mass_kg: figures.mass_kg,
        cost: figures.cost,
        outside_m: report.outside_m,
    };
    (figures, point)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::run_in_box;

    fn space() -> Space {
        let mut space = Space::of(&run_in_box());
        space.stock.truncate(3);
        (space.inner_sheets, space.outer_sheets) = ([1, 1], [1, 2]);
        space
    }

    /// Too many candidates are thinned, all figures stay full ones, and nobody calls it exact.
    #[test]
    fn a_thinned_front_says_so() {
        let new = || Search::new(&run_in_box(), &space(), Limits::default()).expect("sound wishes");
        let whole = new().finish();
        let mut thinned = new();
        thinned.most_candidates = 40;
        let front = thinned.finish();
        assert!(whole.is_exact && !front.is_exact);
        assert!(thinned.progress().candidates <= 40 && !front.points.is_empty());
        let known = |point: &Point| whole.points.iter().any(|other| other.merit_db >= point.merit_db && other.cost <= point.cost);
        assert!(front.points.iter().all(known), "what it finds is no better than the whole front");
    }

    /// A coarse model that is further off than it is taken to be is found out.
    #[test]
    fn a_coarse_model_that_errs_is_found_out() {
        let mut search = Search::new(&run_in_box(), &space(), Limits::default()).expect("sound wishes");
        while !matches!(search.stage, Stage::Full(_)) {
            search.step(1);
        }
        for candidate in &mut search.candidates {
            candidate.figures.merit_db += 2.0 * COARSE_ERROR_DB;
        }
        let front = search.finish();
        assert!(!front.is_exact && front.largest_deviation_db > COARSE_ERROR_DB);
    }
}
