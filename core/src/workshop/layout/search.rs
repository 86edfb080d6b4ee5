//! Tries many ways of filling the sheets and keeps the best.

use super::check::Job;
use super::fill::{Division, Filling, Fit, Policy, Score, emptiest, score};
use super::tree::{PlannedSheet, Rect};

/// Tries at filling some sheets anew after the fixed heuristics.
const REFILLS: usize = 500;

/// Most sheets that are filled anew together, beside the last.
const MOST_OTHERS: usize = 3;

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

/// The best plan found: sheets, the fullest first.
pub(super) fn best(job: &Job) -> Vec<PlannedSheet> {
    if job.kinds.is_empty() {
        return Vec::new();
    }
    let mut filling = Filling::new(job);
    let orders = orders(job);
    let mut best = Best { score: (usize::MAX, 0, 0, 0), sheets: Vec::new() };
    'fixed: for policy in policies() {
        for order in &orders {
            let score = filling.in_order(job, job.sheet, order, policy, best.score.0);
            best.keep(score, &filling);
            if filling.work > MOST_WORK {
                break 'fixed;
            }
        }
    }
    for fit in [Fit::Area, Fit::ShortSide, Fit::LongSide] {
        if filling.work <= MOST_WORK {
            let policy = Policy { fit, division: Division::Open };
            let score = filling.sheet_by_sheet(job, policy, best.score.0);
            best.keep(score, &filling);
        }
    }
    best.refill(job, &mut filling);
    best.press(job, &mut filling);
    fullest_first(&best.sheets)
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
    for division in [Division::Open, Division::Roomy, Division::Shorter, Division::Longer] {
        policies.extend([Fit::Area, Fit::ShortSide, Fit::LongSide].map(|fit| Policy { fit, division }));
    }
    for axis in [0, 1] {
        for upright in [false, true] {
            policies.push(Policy { fit: Fit::ShortSide, division: Division::Strips { axis, upright } });
        }
    }
    policies
}

/// The best sheets so far.
struct Best {
    score: Score,
    sheets: Vec<PlannedSheet>,
}

impl Best {
    /// Keeps what was filled if it is better.
    fn keep(&mut self, score: Option<Score>, filling: &Filling) {
        if let Some(score) = score.filter(|score| *score < self.score) {
            self.score = score;
            self.sheets = filling.sheets().to_vec();
        }
    }

    /// Takes the last sheet and some others, fills them anew in another order by some policy, and keeps what is no worse: the
    /// same again from there.
    fn refill(&mut self, job: &Job, filling: &mut Filling) {
        let mut shuffler = Shuffler(1);
        let policies = policies();
        let mut order: Vec<u32> = Vec::new();
        for _ in 0..REFILLS {
            if filling.work > MOST_WORK {
                break;
            }
            let others = self.sheets.len() - 1;
            let taken = 1 + if others == 0 { 0 } else { (1 + shuffler.below(MOST_OTHERS)).min(others) };
            // The taken ones stand at the end, the emptiest as the last.
            let last = emptiest(&self.sheets);
            self.sheets.swap(last, others);
            for place in 1..taken {
                let other = shuffler.below(others + 1 - place);
                self.sheets.swap(other, others - place);
            }
            let kept = others + 1 - taken;
            let again = &self.sheets[kept..];
            order.clear();
            let pieces = again.iter().flat_map(|sheet| &sheet.corners).map(|corner| corner.kind);
            if shuffler.below(2) == 0 {
                order.extend(pieces);
            } else {
                order.extend(by_area(job, pieces));
            }
            for _ in 0..=shuffler.below(4) {
                let piece = order.remove(shuffler.below(order.len()));
                order.insert(shuffler.below(order.len() + 1), piece);
            }
            let policy = policies[shuffler.below(policies.len())];
            let filled = filling.in_order(job, job.sheet, &order, policy, taken);
            if filled.is_some_and(|filled| filled <= score(again)) {
                self.sheets.truncate(kept);
                self.sheets.extend_from_slice(filling.sheets());
            }
        }
    }

    /// Presses the pieces of the last sheet together along or across, so that what is left is one piece as large as can be.
    fn press(&mut self, job: &Job, filling: &mut Filling) {
        let policies = policies();
        let last = emptiest(&self.sheets);
        let pieces: Vec<u32> = self.sheets[last].corners.iter().map(|corner| corner.kind).collect();
        let sorted: Vec<u32> = by_area(job, pieces.iter().copied()).collect();
        let mut largest = self.sheets[last].left;
        for axis in [0, 1] {
            // The frame is halved between what is too small by area and the smallest that has held the pieces.
            let (mut held, mut failed) = (job.sheet[axis], self.sheets[last].used / job.sheet[1 - axis]);
            for _ in 0..PRESSES {
                let tried = held.midpoint(failed);
                let mut frame = job.sheet;
                frame[axis] = tried;
                let fits = policies.iter().any(|policy| {
                    [&pieces, &sorted]
                        .into_iter()
                        .any(|order| filling.work <= 2 * MOST_WORK && filling.in_order(job, frame, order, *policy, 1).is_some())
                });
                if !fits {
                    failed = tried;
                    continue;
                }
                let mut pressed = filling.sheets()[0].clone();
                held = pressed.corners.iter().map(|corner| corner.end[axis]).max().unwrap_or(tried);
                let mut beyond = Rect { at: [0, 0], size: job.sheet };
                beyond.size[axis] -= held + job.kerf;
                if beyond.area() > largest {
                    largest = beyond.area();
                    pressed.frame = job.sheet;
                    pressed.frame[axis] = held;
                    self.sheets[last] = pressed;
                }
            }
        }
    }
}

/// Pieces, the largest first.
fn by_area(job: &Job, pieces: impl Iterator<Item = u32>) -> impl Iterator<Item = u32> {
    let area = |kind: u32| job.kinds[kind as usize].size.iter().product::<i64>();
    let mut keys: Vec<(i64, u32)> = pieces.map(|kind| (-area(kind), kind)).collect();
    keys.sort_unstable();
    keys.into_iter().map(|(_, kind)| kind)
}

/// The sheets in order, the fullest first, so that the last has most left.
fn fullest_first(sheets: &[PlannedSheet]) -> Vec<PlannedSheet> {
    let mut keys: Vec<(i64, u32)> = sheets.iter().enumerate().map(|(place, sheet)| (-sheet.used, place as u32)).collect();
    keys.sort_unstable();
    keys.iter().map(|&(_, place)| sheets[place as usize].clone()).collect()
}
