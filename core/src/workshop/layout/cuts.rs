//! From the tree of a sheet to what is drawn and sawn: placements, cuts in their order, offcuts.

use super::check::{Job, millimetres};
use super::tree::{Corner, NONE, PlannedSheet, Rect, Split};
use super::{Cut, Direction, Placement, Rectangle, SheetLayout};

/// What a rectangle still holds.
#[derive(Clone, Copy)]
enum Content {
    /// All that was planned for the sheet, with what lies beyond its frame.
    Sheet,
    /// A corner and all beside it.
    Corner(u32),
    /// The part of a corner with what the second cut parts from it.
    Strip(u32),
    /// A part.
    Part(u32),
    /// Nothing.
    Free,
}

type Held = (Content, Rect);

/// The next cut through a rectangle: its axis (0 across the sheet, at one x), and what it leaves on both sides.
struct Step {
    axis: usize,
    near: Held,
    far: Option<Held>,
}

struct Drawing<'a> {
    job: &'a Job,
    sheet: &'a PlannedSheet,
    placements: Vec<Placement>,
    cuts: Vec<Cut>,
    offcuts: Vec<Rect>,
}

/// The layout of a planned sheet.
pub(super) fn drawn(job: &Job, sheet: &PlannedSheet) -> SheetLayout {
    let mut drawing = Drawing { job, sheet, placements: Vec::new(), cuts: Vec::new(), offcuts: Vec::new() };
    drawing.trim();
    drawing.divide((Content::Sheet, Rect { at: [0, 0], size: job.sheet }), 1);
    let Drawing { placements, cuts, offcuts, .. } = drawing;
    // Sorted by numbers alone: a sort of their own for rectangles would weigh as much as all this.
    let mut order: Vec<(i64, u32)> = offcuts.iter().enumerate().map(|(place, rect)| (-rect.area(), place as u32)).collect();
    order.sort_unstable();
    let offcuts = order.iter().map(|&(_, place)| shown(job, &offcuts[place as usize])).collect();
    let yield_share = sheet.used as f64 / (job.raw[0] * job.raw[1]) as f64;
    SheetLayout { placements, cuts, offcuts, yield_share }
}

/// A rectangle of the trimmed sheet, in mm on the raw one.
fn shown(job: &Job, rect: &Rect) -> Rectangle {
    Rectangle {
        x_mm: millimetres(rect.at[0] + job.trim),
        y_mm: millimetres(rect.at[1] + job.trim),
        length_mm: millimetres(rect.size[0]),
        width_mm: millimetres(rect.size[1]),
    }
}

impl Drawing<'_> {
    /// A cut whose kerf begins at `position` of the trimmed sheet.
    fn cut(&mut self, stage: usize, axis: usize, position: i64, kerf: i64, piece: &Rect) {
        self.cuts.push(Cut {
            stage,
            direction: if axis == 0 { Direction::Across } else { Direction::Along },
            position_mm: millimetres(position + self.job.trim),
            kerf_mm: millimetres(kerf),
            piece: shown(self.job, piece),
        });
    }

    /// Takes the four edges off, the long ones first, so that every later cut begins at a sawn edge.
    fn trim(&mut self) {
        let Job { trim, sheet, raw, .. } = *self.job;
        if trim == 0 {
            return;
        }
        let kerf = self.job.kerf.min(trim);
        let mut piece = Rect { at: [-trim, -trim], size: raw };
        for axis in if raw[0] >= raw[1] { [1, 0] } else { [0, 1] } {
            self.cut(0, axis, -kerf, kerf, &piece);
            piece.at[axis] = 0;
            piece.size[axis] -= trim;
            self.cut(0, axis, sheet[axis], kerf, &piece);
            piece.size[axis] = sheet[axis];
        }
    }

    /// The next cut through what is held; none if it is a part or free.
    fn step(&self, (content, rect): Held) -> Option<Step> {
        let kerf = self.job.kerf;
        // Cut at `size` along the axis; nothing to cut where the rectangle ends there.
        let cut_at = |axis: usize, size: i64, near: Content, far: Content| {
            let rest = rect.size[axis] - size;
            (rest > 0).then(|| {
                let (mut near_rect, mut far_rect) = (rect, rect);
                near_rect.size[axis] = size;
                far_rect.at[axis] += size + kerf;
                far_rect.size[axis] = rest - kerf;
                Step { axis, near: (near, near_rect), far: (rest > kerf).then_some((far, far_rect)) }
            })
        };
        let child = |corner: &Corner, side: usize| match corner.children[side] {
            NONE => Content::Free,
            child => Content::Corner(child),
        };
        match content {
            Content::Sheet => {
                let (frame, root) = (self.sheet.frame, Content::Corner(0));
                cut_at(0, frame[0], root, Content::Free)
                    .or_else(|| cut_at(1, frame[1], root, Content::Free))
                    .or_else(|| self.step((root, rect)))
            }
            Content::Corner(id) => {
                let corner = &self.sheet.corners[id as usize];
                let first = self.first_axis(corner, &rect);
                let size = corner.end[first] - rect.at[first];
                cut_at(first, size, Content::Strip(id), child(corner, first)).or_else(|| self.step((Content::Strip(id), rect)))
            }
            Content::Strip(id) => {
                // The other cut: the first one has made the strip as large as the part in its direction.
                let corner = &self.sheet.corners[id as usize];
                let axis = usize::from(rect.at[0] + rect.size[0] == corner.end[0]);
                cut_at(axis, corner.end[axis] - rect.at[axis], Content::Part(id), child(corner, axis))
            }
            Content::Part(_) | Content::Free => None,
        }
    }

    /// The axis of the cut through the whole rectangle of a corner.
    fn first_axis(&self, corner: &Corner, rect: &Rect) -> usize {
        let size = [corner.end[0] - rect.at[0], corner.end[1] - rect.at[1]];
        match corner.split.unwrap_or_else(|| rect.roomier(size, self.job.kerf)) {
            Split::AlongFirst => 1,
            Split::AcrossFirst => 0,
        }
    }

    /// Saws one piece: all cuts of one direction that follow each other, and then what they have left, in the same order.
    fn divide(&mut self, held: Held, stage: usize) {
        let Some(first) = self.step(held) else { return self.keep(held) };
        let (mut pieces, mut rest, mut next) = (Vec::new(), Some(held), Some(first));
        while let (Some((_, rect)), Some(step)) = (rest, next) {
            let axis = step.axis;
            let near = step.near.1;
            let position = near.at[axis] + near.size[axis];
            let kerf = self.job.kerf.min(rect.size[axis] - near.size[axis]);
            self.cut(stage, axis, position, kerf, &rect);
            pieces.push(step.near);
            rest = step.far;
            next = rest.and_then(|held| self.step(held)).filter(|step| step.axis == axis);
        }
        for piece in pieces.into_iter().chain(rest) {
            self.divide(piece, stage + 1);
        }
    }

    /// What needs no further cut.
    fn keep(&mut self, (content, rect): Held) {
        match content {
            Content::Free => self.offcuts.push(rect),
            Content::Part(id) | Content::Strip(id) | Content::Corner(id) => self.put(id, &rect),
            Content::Sheet => self.put(0, &rect),
        }
    }

    fn put(&mut self, id: u32, rect: &Rect) {
        let corner = &self.sheet.corners[id as usize];
        let part = self.job.kinds[corner.kind as usize].part;
        self.placements.push(Placement { part, at: shown(self.job, rect), turned: corner.turned });
    }
}
