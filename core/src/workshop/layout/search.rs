//! Tries many ways of filling the sheets and keeps the best.

use super::check::Job;
use super::fill::{Division, Filling, Fit, Policy, Score, emptiest};
use super::tree::{Plan, Rect};

/// Tries at changing the order of the pieces after the fixed heuristics.
const SHUFFLES: usize = 250;

/// Comparisons of a piece with a free space after which no further try is begun: some tens of milliseconds.
const MOST_WORK: u64 = 8_000_000;

/// Tries at pressing the pieces of the last sheet together, each way.
const PRESSES: usize = 8;

/// A small generator of numbers that look random (Steele, Lea and Flood 2014, "Fast splittable pseudorandom number
/// generators": SplitMix64, cited from memory). Only the order of tries hangs on it.
struct Shuffler(u64);

impl Shuffler {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// Below `limit`, which is far below 2^32: the bias does not matter.
    fn below(&mut self, limit: usize) -> usize {
        (((self.next() >> 32) * limit as u64) >> 32) as usize
    }
}

/// The best way so far.
struct Best {
    score: Score,
    plan: Plan,
    order: Vec<u32>,
    policy: Policy,
}

/// The best plan found.
pub(super) fn best(job: &Job) -> Plan {
    let mut filling = Filling::default();
    let orders = orders(job);
    let mut best = None;
    'fixed: for policy in policies() {
        for order in &orders {
            keep(&mut best, &mut filling, job, order, policy);
            if filling.work > MOST_WORK {
                break 'fixed;
            }
        }
    }
    let Some(mut best) = best.filter(|best: &Best| !best.order.is_empty()) else { return Plan::default() };
    for fit in [Fit::Area, Fit::ShortSide, Fit::LongSide] {
        let policy = Policy { fit, division: Division::Open, first_sheet: true };
        if filling.work <= MOST_WORK {
            let score = filling.sheet_by_sheet(job, policy, best.score.0);
            if score.is_some_and(|score| score < best.score) {
                let order = filling.plan.corners.iter().map(|corner| corner.kind).collect();
                best = Best { score: score.unwrap_or(best.score), plan: filling.plan.clone(), order, policy };
            }
        }
    }
    shuffle(job, &mut filling, &mut best);
    press(job, &mut filling, &mut best);
    let mut plan = best.plan;
    fullest_first(&mut plan);
    plan
}

/// Fills by one policy and order, and keeps the result if it is better.
fn keep(best: &mut Option<Best>, filling: &mut Filling, job: &Job, order: &[u32], policy: Policy) {
    let most_sheets = best.as_ref().map_or(usize::MAX, |best| best.score.0);
    let Some(score) = filling.in_order(job, job.sheet, order, policy, most_sheets) else { return };
    if best.as_ref().is_none_or(|best| score < best.score) {
        *best = Some(Best { score, plan: filling.plan.clone(), order: order.to_vec(), policy });
    }
}

/// Orders in which pieces are placed: the largest first by area, longer side, shorter side, perimeter, length and width. Equal
/// pieces stay together.
fn orders(job: &Job) -> Vec<Vec<u32>> {
    let measures: [fn([i64; 2]) -> i64; 6] = [
        |[along, across]| along * across,
        |[along, across]| along.max(across),
        |[along, across]| along.min(across),
        |[along, across]| along + across,
        |[along, _]| along,
        |[_, across]| across,
    ];
    let by = |measure: fn([i64; 2]) -> i64| {
        let mut keys: Vec<(i64, u32)> =
            job.kinds.iter().enumerate().map(|(place, kind)| (-measure(kind.size), place as u32)).collect();
        keys.sort_unstable();
        keys.iter().flat_map(|&(_, place)| std::iter::repeat_n(place, job.kinds[place as usize].count)).collect()
    };
    let mut orders: Vec<Vec<u32>> = Vec::new();
    for order in measures.map(by) {
        if !orders.contains(&order) {
            orders.push(order);
        }
    }
    orders
}

/// Ways of filling, the most promising first: when there are many pieces, the work may not suffice for all.
fn policies() -> Vec<Policy> {
    let mut policies = Vec::new();
    let strips = [0, 1].into_iter().flat_map(|axis| [false, true].map(|upright| Division::Strips { axis, upright }));
    for first_sheet in [true, false] {
        for division in [Division::Open, Division::Roomy, Division::Shorter, Division::Longer] {
            for fit in [Fit::Area, Fit::ShortSide, Fit::LongSide] {
                policies.push(Policy { fit, division, first_sheet });
            }
        }
        policies.extend(strips.clone().map(|division| Policy { fit: Fit::ShortSide, division, first_sheet }));
    }
    policies
}

/// Changes the best order a little, again and again, and goes on from there whenever the result is no worse.
fn shuffle(job: &Job, filling: &mut Filling, best: &mut Best) {
    let mut shuffler = Shuffler(1);
    let policies = policies();
    let pieces = best.order.len();
    let mut order = best.order.clone();
    for _ in 0..SHUFFLES {
        if filling.work > MOST_WORK {
            break;
        }
        order.clone_from(&best.order);
        if shuffler.below(4) == 0 {
            // What was left for the last sheet comes first.
            let last = emptiest(&best.plan.sheets) as u32;
            let corners = &best.plan.corners;
            let on = |there: bool| corners.iter().filter(move |corner| (corner.sheet == last) == there).map(|corner| corner.kind);
            order.clear();
            order.extend(on(true).chain(on(false)));
        }
        for _ in 0..=shuffler.below(4) {
            let (from, to) = (shuffler.below(pieces), shuffler.below(pieces));
            let piece = order.remove(from);
            order.insert(to, piece);
        }
        let policy = if shuffler.below(4) == 0 { policies[shuffler.below(policies.len())] } else { best.policy };
        let Some(score) = filling.in_order(job, job.sheet, &order, policy, best.score.0) else { continue };
        if score <= best.score {
            best.score = score;
            best.plan.clone_from(&filling.plan);
            best.order.clone_from(&order);
            best.policy = policy;
        }
    }
}

/// Presses the pieces of the last sheet together along or across, so that what is left is one piece as large as can be.
fn press(job: &Job, filling: &mut Filling, best: &mut Best) {
    let last = emptiest(&best.plan.sheets);
    let pieces: Vec<u32> =
        best.plan.corners.iter().filter(|corner| corner.sheet == last as u32).map(|corner| corner.kind).collect();
    let mut keys: Vec<(i64, u32)> = pieces
        .iter()
        .map(|&kind| {
            let [along, across] = job.kinds[kind as usize].size;
            (-along * across, kind)
        })
        .collect();
    keys.sort_unstable();
    let by_area: Vec<u32> = keys.iter().map(|&(_, kind)| kind).collect();
    let mut largest = -best.score.1;
    let mut pressed: Option<Plan> = None;
    for axis in [0, 1] {
        // The frame is halved between what is too small by area and the smallest that has held the pieces.
        let (mut held, mut failed) = (job.sheet[axis], best.plan.sheets[last].used / job.sheet[1 - axis]);
        for _ in 0..PRESSES {
            let tried = held.midpoint(failed);
            let mut frame = job.sheet;
            frame[axis] = tried;
            let fits = policies().into_iter().take(16).find_map(|policy| {
                [&pieces, &by_area].into_iter().find_map(|order| {
                    (filling.work <= 2 * MOST_WORK).then_some(())?;
                    filling.in_order(job, frame, order, policy, 1)
                })
            });
            if fits.is_none() {
                failed = tried;
                continue;
            }
            held = filling.plan.corners.iter().map(|corner| corner.end[axis]).max().unwrap_or(tried);
            let mut beyond = Rect { at: [0, 0], size: job.sheet };
            beyond.size[axis] -= held + job.kerf;
            if beyond.area() > largest {
                largest = beyond.area();
                filling.plan.sheets[0].frame[axis] = held;
                pressed = Some(filling.plan.clone());
            }
        }
    }
    if let Some(pressed) = pressed {
        // Its one sheet in place of the last: corners of both stand in one list.
        let offset = best.plan.corners.len() as u32;
        let mut sheet = pressed.sheets[0];
        sheet.root += offset;
        best.plan.sheets[last] = sheet;
        best.plan.corners.extend(pressed.corners.into_iter().map(|mut corner| {
            corner.sheet = last as u32;
            corner.children = corner.children.map(|child| child.saturating_add(offset));
            corner
        }));
    }
}

/// Puts the sheets in order: fullest first, so that the last has most left.
fn fullest_first(plan: &mut Plan) {
    let mut keys: Vec<(i64, u32)> = plan.sheets.iter().enumerate().map(|(place, sheet)| (-sheet.used, place as u32)).collect();
    keys.sort_unstable();
    plan.sheets = keys.iter().map(|&(_, place)| plan.sheets[place as usize]).collect();
}
