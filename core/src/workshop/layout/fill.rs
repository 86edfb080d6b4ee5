//! Fills sheets with pieces one after the other: the greedy step that every heuristic shares.

use super::check::{Job, Kind};
use super::tree::{Corner, NONE, PlannedSheet, Rect, Split};

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

/// One way of filling: each piece goes to the first sheet with room, and there to the free space that suits it best.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Policy {
    pub fit: Fit,
    pub division: Division,
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
/// Number of sheets; area of the parts on the emptiest; largest rectangle left there that could hold a part (negative); number of
/// cuts. The second leads to one sheet fewer, and to most left over.
pub(super) type Score = (usize, i64, i64, usize);

/// The state of a filling, kept between fillings so that nothing is allocated anew.
#[derive(Debug, Default)]
pub(super) struct Filling {
    /// The sheets so far; those from `open` on are left from before.
    sheets: Vec<PlannedSheet>,
    open: usize,
    spaces: Vec<Space>,
    /// Smallest of the shorter and of the longer sides of all kinds: what is smaller holds nothing.
    smallest: [i64; 2],
    /// Comparisons of a piece with a space so far: the measure of work.
    pub work: u64,
}

/// Where a piece goes: a free space, and whether it is turned.
type Choice = (usize, bool);

/// How well a piece suits a space: the smaller the better.
type Suits = (u32, i64, i64);

impl Filling {
    /// Nothing filled yet.
    pub fn new(job: &Job) -> Self {
        let smallest = |of: fn([i64; 2]) -> Option<i64>| job.kinds.iter().filter_map(|kind| of(kind.size)).min().unwrap_or(0);
        let smallest = [smallest(|size| size.into_iter().min()), smallest(|size| size.into_iter().max())];
        Self { smallest, ..Self::default() }
    }

    /// Fills sheets of size `frame` with the pieces of `order` (places in the list of kinds), one by one.
    ///
    /// Returns nothing if more than `most_sheets` would be needed.
    pub fn in_order(&mut self, job: &Job, frame: [i64; 2], order: &[u32], policy: Policy, most_sheets: usize) -> Option<Score> {
        self.clear();
        for &kind in order {
            let piece = &job.kinds[kind as usize];
            let (_, (space, turned)) = match self.best_space(piece, policy) {
                Some(found) => found,
                None if self.open < most_sheets => {
                    self.open_sheet(frame);
                    self.best_space(piece, policy)?
                }
                None => return None,
            };
            self.place(job, kind, space, turned, policy);
        }
        Some(self.finish())
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
                None if self.open < most_sheets => self.open_sheet(job.sheet),
                None => return None,
            }
        }
        Some(self.finish())
    }

    /// The sheets as they have been filled.
    pub fn sheets(&self) -> &[PlannedSheet] {
        &self.sheets[..self.open]
    }

    fn clear(&mut self) {
        self.open = 0;
        self.spaces.clear();
    }

    fn open_sheet(&mut self, frame: [i64; 2]) {
        let sheet = self.open as u32;
        self.open += 1;
        match self.sheets.get_mut(sheet as usize) {
            Some(old) => {
                old.corners.clear();
                (old.frame, old.used, old.left, old.cuts) = (frame, 0, 0, 0);
            }
            None => self.sheets.push(PlannedSheet { corners: Vec::new(), frame, used: 0, left: 0, cuts: 0 }),
        }
        let rect = Rect { at: [0, 0], size: frame };
        self.spaces.push(Space { rect, sheet, owner: NONE, side: 0, split: Split::AlongFirst, stage: 0 });
    }

    fn best_space(&mut self, piece: &Kind, policy: Policy) -> Option<(Suits, Choice)> {
        let mut best: Option<(Suits, Choice)> = None;
        for (turned, size) in piece.ways() {
            let area = size[0] * size[1];
            for (place, space) in self.spaces.iter().enumerate() {
                let [along, across] = [space.rect.size[0] - size[0], space.rect.size[1] - size[1]];
                if along < 0 || across < 0 || best.is_some_and(|(least, _)| least.0 < space.sheet) {
                    continue;
                }
                let (shorter, longer) = (along.min(across), along.max(across));
                let (first, second) = match (policy.division, policy.fit) {
                    (Division::Strips { axis, upright }, _) if space.stage == 0 => {
                        // A new strip only where no other has room.
                        let depth = size[1 - axis];
                        (i64::MAX, if upright { -depth } else { depth })
                    }
                    (_, Fit::Area) => (space.rect.size[0] * space.rect.size[1] - area, shorter),
                    (_, Fit::ShortSide) => (shorter, longer),
                    (_, Fit::LongSide) => (longer, shorter),
                };
                let suits = (space.sheet, first, second);
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
        let filled = &mut self.sheets[sheet as usize];
        let corner = filled.corners.len() as u32;
        if owner != NONE {
            let owning = &mut filled.corners[owner as usize];
            owning.children[side] = corner;
            if owning.split.is_none() {
                owning.split = Some(made_by);
                self.spaces.retain(|other| other.sheet != sheet || other.owner != owner || other.split == made_by);
            }
        }
        let size = job.kinds[kind as usize].lying(turned);
        let left = [rect.size[0] - size[0] - job.kerf, rect.size[1] - size[1] - job.kerf];
        let split = divide(&rect, size, left, job.kerf, policy.division, stage);
        let end = [rect.at[0] + size[0], rect.at[1] + size[1]];
        filled.corners.push(Corner { kind, turned, end, split, children: [NONE; 2] });
        filled.used += size[0] * size[1];
        filled.cuts += usize::from(rect.size[0] > size[0]) + usize::from(rect.size[1] > size[1]);
        for made_by in [Split::AlongFirst, Split::AcrossFirst] {
            if split.is_some_and(|split| split != made_by) {
                continue;
            }
            for (side, rect) in rect.left(size, job.kerf, made_by).into_iter().enumerate() {
                let [along, across] = rect.size;
                if along.min(across) >= self.smallest[0] && along.max(across) >= self.smallest[1] {
                    let stage = stage_beside(policy.division, stage, side);
                    self.spaces.push(Space { rect, sheet, owner: corner, side, split: made_by, stage });
                }
            }
        }
    }

    /// Notes what is left on each sheet, and how good all are.
    fn finish(&mut self) -> Score {
        for space in &self.spaces {
            let left = &mut self.sheets[space.sheet as usize].left;
            *left = space.rect.area().max(*left);
        }
        score(self.sheets())
    }
}

/// How good sheets are.
pub(super) fn score(sheets: &[PlannedSheet]) -> Score {
    let (used, left) = sheets.get(emptiest(sheets)).map_or((0, 0), |last| (last.used, last.left));
    (sheets.len(), used, -left, sheets.iter().map(|sheet| sheet.cuts).sum())
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
