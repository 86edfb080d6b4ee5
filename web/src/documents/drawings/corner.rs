//! A corner where two walls meet, cut across: what its boards are drawn with.

use hushwright::workshop::panel::{Block, Face};
use hushwright::workshop::{JointKind, ShellBox, ShellLayer};

use super::paper::{Label, Paper, Point, spread};
use crate::charts::cut::Hatch;
use crate::rect::Rect;

/// Size of the text as a part of the width of a corner: three stand side by side where there is room.
const TEXT: f64 = 0.042;
/// Least length in mm of the arms of a corner beyond its walls.
const ARM_MM: f64 = 30.0;

/// The plane of a cut, seen so that the first axis runs to the right and the second up, from the outer corner.
pub struct Corner {
    /// Axes to the right and up.
    pub axes: [usize; 2],
    /// The outer corner in mm along both.
    pub origin_mm: [f64; 2],
    /// Whether the second axis is drawn from its far end.
    pub is_far: bool,
    /// How far the arms go from the outer corner, in mm.
    pub reach_mm: f64,
}

/// Thickness in mm of all layers of a shell.
pub fn wall_mm(shell: &ShellBox) -> f64 {
    shell.inside().from_mm[0] - shell.outside().from_mm[0]
}

impl Corner {
    /// The corner at the low ends of both axes; the second is drawn from its far end if `is_far`.
    pub fn new(shell: &ShellBox, axes: [usize; 2], is_far: bool) -> Self {
        let outside = shell.outside();
        let wall_mm = wall_mm(shell);
        let up = if is_far { outside.to_mm[axes[1]] } else { outside.from_mm[axes[1]] };
        let reach_mm = wall_mm + wall_mm.max(ARM_MM);
        Self { axes, origin_mm: [outside.from_mm[axes[0]], up], is_far, reach_mm }
    }

    /// Paper for it.
    pub fn paper(&self) -> Paper {
        let (top, bottom) = if self.is_far { (0.0, self.reach_mm) } else { (-self.reach_mm, 0.0) };
        let frame = Rect { left: 0.0, right: self.reach_mm, top, bottom };
        Paper::new(frame, TEXT * 1.3 * self.reach_mm)
    }

    /// A body as it is drawn, and at which ends (right, top or bottom) it goes on.
    ///
    /// What is drawn from its far end hangs down from the corner.
    pub fn drawn(&self, block: &Block) -> (Rect, [bool; 2]) {
        let [a, b] = self.axes;
        let along = [block.from_mm[a] - self.origin_mm[0], block.to_mm[a] - self.origin_mm[0]];
        let up = if self.is_far {
            [self.origin_mm[1] - block.to_mm[b], self.origin_mm[1] - block.from_mm[b]]
        } else {
            [block.from_mm[b] - self.origin_mm[1], block.to_mm[b] - self.origin_mm[1]]
        };
        let goes_on = [along[1] > self.reach_mm, up[1] > self.reach_mm];
        let [right, far] = [along[1].min(self.reach_mm), up[1].min(self.reach_mm)];
        let (top, bottom) = if self.is_far { (up[0], far) } else { (-far, -up[0]) };
        (Rect { left: along[0], right, top, bottom }, goes_on)
    }

    /// Draws a board that is cut, hatched one way or the other, open where it goes on.
    pub fn board(&self, paper: &mut Paper, layer: &ShellLayer, face: Face, turned: bool) -> Rect {
        let (rect, goes_on) = self.drawn(&layer.layer.board(face));
        let key = Hatch::of_key(&layer.board.key).key();
        paper.hatched(&format!("url(#hatch-{key}-{})", u8::from(turned)), &rect);
        let Rect { left, top, right, bottom } = rect;
        match (goes_on, self.is_far) {
            ([true, _], _) => {
                paper.line("outline", &[(right, top), (left, top), (left, bottom), (right, bottom)]);
                paper.line("break", &broken((right, top), (right, bottom)));
            }
            ([_, true], false) => {
                paper.line("outline", &[(left, top), (left, bottom), (right, bottom), (right, top)]);
                paper.line("break", &broken((left, top), (right, top)));
            }
            ([_, true], true) => {
                paper.line("outline", &[(left, bottom), (left, top), (right, top), (right, bottom)]);
                paper.line("break", &broken((left, bottom), (right, bottom)));
            }
            _ => paper.area("outline", &[(left, top), (right, top), (right, bottom), (left, bottom)]),
        }
        rect
    }

    /// Draws what lies between a layer and the one inside it, where that has a thickness.
    pub fn bond(&self, paper: &mut Paper, layer: &ShellLayer, faces: [Face; 2]) {
        if !matches!(layer.joint, JointKind::Compound | JointKind::Own) || layer.joint_mm <= 0.0 {
            return;
        }
        let inside = layer.layer.inside;
        for face in faces {
            let (axis, mut block) = (face.axis(), inside);
            if face.is_far() {
                block.from_mm[axis] = inside.to_mm[axis] - layer.joint_mm;
            } else {
                block.to_mm[axis] = inside.from_mm[axis] + layer.joint_mm;
            }
            paper.rect("bond", &self.drawn(&block).0);
        }
    }
}

/// A line across a board that goes on: with one tooth.
fn broken(from: Point, to: Point) -> Vec<Point> {
    let at = |part: f64, aside: f64| {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        (from.0 + part * dx - aside * dy, from.1 + part * dy - aside * dx)
    };
    vec![at(0.0, 0.0), at(0.35, 0.0), at(0.45, 0.12), at(0.55, -0.12), at(0.65, 0.0), at(1.0, 0.0)]
}

/// Numbers of layers beyond the ends of boards at `middles` along the drawing, at height `y`, with lines to the boards' ends at
/// `end`.
pub fn layer_numbers(paper: &mut Paper, middles: &[f64], end: f64, y: f64) {
    let em = paper.em;
    let mut order: Vec<usize> = (0..middles.len()).collect();
    order.sort_by(|one, other| middles[*one].total_cmp(&middles[*other]));
    let wished: Vec<f64> = order.iter().map(|k| middles[*k]).collect();
    for (k, x) in order.iter().zip(spread(&wished, 1.3 * em)) {
        paper.line("leader", &[(middles[*k], end), (x, y + 0.6 * em)]);
        paper.label("name", &Label::row((k + 1).to_string(), (x, y)));
    }
}
