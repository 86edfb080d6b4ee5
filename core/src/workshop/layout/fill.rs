//! Fills sheets with pieces one after the other: the greedy step that every heuristic shares.

use super::check::{Job, Kind};
use super::tree::{Corner, NONE, Plan, PlannedSheet, Rect, Split};

/// Which free space suits a piece best.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fit {
    /// Least area left.
    Area,
    /// Least left on the side where less is left.
    ShortSide,
    /// Least left on the side where more is left.
    LongSide,
}

/// How a rectangle is divided beside a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Division {
    /// By whichever piece lies beside the part first: both ways are on offer until then.
    Open,
    /// The longer cut on the side where less is left.
    Shorter,
    /// The longer cut on the side where more is left.
    Longer,
    /// So that the larger of the two rectangles is as large as can be.
    Roomy,
    /// Strips along (axis 0) or across (axis 1) the sheet, divided into lengths, and these into widths. A strip is opened by a
    /// piece that stands upright in it, or lies.
    Strips { axis: usize, upright: bool },
}

/// One way of filling.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Policy {
    pub fit: Fit,
    pub division: Division,
    /// Whether the first sheet with room is taken, or that where the piece fits best.
    pub first_sheet: bool,
}

/// A free rectangle.
#[derive(Clone, Copy, Debug)]
struct Space {
    rect: Rect,
    sheet: u32,
    /// The corner beside which it lies, or none for a whole sheet.
    owner: u32,
    /// 0 right of it, 1 above it.
    side: usize,
    /// The division that makes it.
    split: Split,
    /// Of strips: 0 the undivided sheet, 1 within a strip, 2 above a piece in a strip.
    stage: u8,
}

/// How good a filled plan is: the smaller the better.
///
/// Number of sheets, largest rectangle left on the emptiest sheet (negative), number of cuts.
pub(super) type Score = (usize, i64, usize);

/// The state of a filling, kept between fillings so that nothing is allocated anew.
#[derive(Debug, Default)]
pub(super) struct Filling {
    pub plan: Plan,
    spaces: Vec<Space>,
    cuts: usize,
    /// Comparisons of a piece with a space so far: the measure of work.
    pub work: u64,
}

/// Where a piece goes: a free space, and whether it is turned.
type Choice = (usize, bool);

/// How well a piece suits a space: the smaller the better.
type Suits = (u32, i64, i64);

impl Filling {
    /// Fills sheets of size `frame` with the pieces of `order` (places in the list of kinds), one by one.
    ///
    /// Returns nothing if more than `most_sheets` would be needed.
    pub fn in_order(&mut self, job: &Job, frame: [i64; 2], order: &[u32], policy: Policy, most_sheets: usize) -> Option<Score> {
        self.clear();
        for &kind in order {
            let piece = &job.kinds[kind as usize];
            let (_, (space, turned)) = match self.best_space(piece, policy) {
                Some(found) => found,
                None if self.plan.sheets.len() < most_sheets => {
                    self.open_sheet(frame);
                    self.best_space(piece, policy)?
                }
                None => return None,
            };
            self.place(job, kind, space, turned, policy);
        }
        Some(self.score())
    }

    /// Fills one sheet after the other, each time with the piece that fits best of all that are left.
    pub fn sheet_by_sheet(&mut self, job: &Job, policy: Policy, most_sheets: usize) -> Option<Score> {
        self.clear();
        let mut left: Vec<usize> = job.kinds.iter().map(|kind| kind.count).collect();
        let mut pieces: usize = left.iter().sum();
        while pieces > 0 {
            let mut best: Option<(Suits, Choice, usize)> = None;
            for (kind, piece) in job.kinds.iter().enumerate().filter(|&(kind, _)| left[kind] > 0) {
                let found = self.best_space(piece, policy).map(|(suits, choice)| (suits, choice, kind));
                best = match (best, found) {
                    (Some(best), Some(found)) => Some(if found.0 < best.0 { found } else { best }),
                    (best, found) => best.or(found),
                };
            }
            match best {
                Some((_, (space, turned), kind)) => {
                    self.place(job, kind as u32, space, turned, policy);
                    left[kind] -= 1;
                    pieces -= 1;
                }
                None if self.plan.sheets.len() < most_sheets => self.open_sheet(job.sheet),
                None => return None,
            }
        }
        Some(self.score())
    }

    fn clear(&mut self) {
        self.plan.corners.clear();
        self.plan.sheets.clear();
        self.spaces.clear();
        self.cuts = 0;
    }

    fn open_sheet(&mut self, frame: [i64; 2]) {
        let sheet = self.plan.sheets.len() as u32;
        self.plan.sheets.push(PlannedSheet { root: NONE, frame, used: 0 });
        let rect = Rect { at: [0, 0], size: frame };
        self.spaces.push(Space { rect, sheet, owner: NONE, side: 0, split: Split::AlongFirst, stage: 0 });
    }

    fn best_space(&mut self, piece: &Kind, policy: Policy) -> Option<(Suits, Choice)> {
        let mut best: Option<(Suits, Choice)> = None;
        for (turned, size) in piece.ways() {
            for (place, space) in self.spaces.iter().enumerate() {
                let [along, across] = [space.rect.size[0] - size[0], space.rect.size[1] - size[1]];
                if along < 0 || across < 0 {
                    continue;
                }
                let sheet = if policy.first_sheet { space.sheet } else { 0 };
                let (shorter, longer) = (along.min(across), along.max(across));
                let suits = match (policy.division, policy.fit) {
                    (Division::Strips { axis, upright }, _) if space.stage == 0 => {
                        // A new strip only where no other has room.
                        let depth = size[1 - axis];
                        (sheet, i64::MAX, if upright { -depth } else { depth })
                    }
                    (_, Fit::Area) => (sheet, space.rect.area() - size[0] * size[1], shorter),
                    (_, Fit::ShortSide) => (sheet, shorter, longer),
                    (_, Fit::LongSide) => (sheet, longer, shorter),
                };
                if best.is_none_or(|(least, _)| suits < least) {
                    best = Some((suits, (place, turned)));
                }
            }
            self.work += self.spaces.len() as u64;
        }
        best
    }

    fn place(&mut self, job: &Job, kind: u32, space: usize, turned: bool, policy: Policy) {
        let Space { rect, sheet, owner, side, split: made_by, stage } = self.spaces.swap_remove(space);
        let corner = self.plan.corners.len() as u32;
        if owner == NONE {
            self.plan.sheets[sheet as usize].root = corner;
        } else {
            let owning = &mut self.plan.corners[owner as usize];
            owning.children[side] = corner;
            if owning.split.is_none() {
                owning.split = Some(made_by);
                self.spaces.retain(|other| other.owner != owner || other.split == made_by);
            }
        }
        let size = job.kinds[kind as usize].lying(turned);
        let left = [rect.size[0] - size[0] - job.kerf, rect.size[1] - size[1] - job.kerf];
        let split = divide(&rect, size, left, job.kerf, policy.division, stage);
        let end = [rect.at[0] + size[0], rect.at[1] + size[1]];
        self.plan.corners.push(Corner { kind, sheet, turned, end, split, children: [NONE; 2] });
        self.plan.sheets[sheet as usize].used += size[0] * size[1];
        self.cuts += usize::from(rect.size[0] > size[0]) + usize::from(rect.size[1] > size[1]);
        for made_by in [Split::AlongFirst, Split::AcrossFirst] {
            if split.is_some_and(|split| split != made_by) {
                continue;
            }
            for (side, rect) in rect.left(size, job.kerf, made_by).into_iter().enumerate() {
                if !rect.is_empty() {
                    let stage = stage_beside(policy.division, stage, side);
                    self.spaces.push(Space { rect, sheet, owner: corner, side, split: made_by, stage });
                }
            }
        }
    }

    fn score(&self) -> Score {
        let sheets = &self.plan.sheets;
        let last = emptiest(sheets) as u32;
        let largest = self.spaces.iter().filter(|space| space.sheet == last).map(|space| space.rect.area()).max();
        (sheets.len(), -largest.unwrap_or(0), self.cuts)
    }
}

/// The sheet with least on it, the last of those.
pub(super) fn emptiest(sheets: &[PlannedSheet]) -> usize {
    sheets.iter().enumerate().rev().min_by_key(|(_, sheet)| sheet.used).map_or(0, |(place, _)| place)
}

/// How a rectangle of which `left` is left along and across is divided; nothing if that stays open.
fn divide(rect: &Rect, size: [i64; 2], left: [i64; 2], kerf: i64, division: Division, stage: u8) -> Option<Split> {
    // Where one side is used up there is one rectangle left, and it is left whole.
    if left[0] <= 0 {
        return Some(Split::AlongFirst);
    }
    if left[1] <= 0 {
        return Some(Split::AcrossFirst);
    }
    let along_first = match division {
        Division::Open => return None,
        Division::Shorter => left[0] < left[1],
        Division::Longer => left[0] >= left[1],
        Division::Roomy => rect.roomier(size, kerf) == Split::AlongFirst,
        Division::Strips { axis, .. } => (axis == 0) == (stage != 1),
    };
    Some(if along_first { Split::AlongFirst } else { Split::AcrossFirst })
}

/// The stage of what is left right of (0) or above (1) a piece in a space of `stage`.
fn stage_beside(division: Division, stage: u8, side: usize) -> u8 {
    match division {
        // In the direction of the strip, the strip goes on.
        Division::Strips { axis, .. } if side == axis => 1,
        Division::Strips { .. } => [0, 2, 2][usize::from(stage.min(2))],
        _ => 0,
    }
}
