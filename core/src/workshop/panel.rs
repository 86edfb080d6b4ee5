//! Boards of a box: six faces, how they meet at the edges, and where each board lies.
//!
//! The middle of the inside is the origin; x runs along the length, y along the width, z upwards. Millimetres throughout: that
//! is what is measured and sawn.

use serde::{Deserialize, Serialize};

use crate::enclosure::LidFace;

/// A face of a box.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Face {
    /// The end at +x.
    Front,
    /// The end at -x.
    Back,
    /// The long side at +y, on the right for somebody in front of the front.
    Right,
    /// The long side at -y.
    Left,
    /// The top.
    Top,
    /// The bottom.
    Bottom,
}

impl Face {
    /// All six.
    pub const ALL: [Self; 6] = [Self::Front, Self::Back, Self::Right, Self::Left, Self::Top, Self::Bottom];

    /// The axis that it stands across: 0 along the length, 1 along the width, 2 upwards.
    pub const fn axis(self) -> usize {
        match self {
            Self::Front | Self::Back => 0,
            Self::Right | Self::Left => 1,
            Self::Top | Self::Bottom => 2,
        }
    }

    /// Whether it lies on the side to which its axis points.
    pub const fn is_far(self) -> bool {
        matches!(self, Self::Front | Self::Right | Self::Top)
    }

    /// The face across the box.
    #[must_use]
    pub const fn opposite(self) -> Self {
        match self {
            Self::Front => Self::Back,
            Self::Back => Self::Front,
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            Self::Top => Self::Bottom,
            Self::Bottom => Self::Top,
        }
    }

    /// The axes along which its width and its height run, for somebody who looks at it from outside; of top and bottom the
    /// length of the box is the width.
    pub const fn across(self) -> [usize; 2] {
        match self {
            Self::Front | Self::Back => [1, 2],
            Self::Right | Self::Left => [0, 2],
            Self::Top | Self::Bottom => [0, 1],
        }
    }

    /// Whether its width, seen from outside, runs from left to right against its axis.
    pub const fn is_mirrored(self) -> bool {
        matches!(self, Self::Back | Self::Right)
    }

    /// Name in part names and on drawings.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Back => "back",
            Self::Left => "left",
            Self::Right => "right",
            Self::Top => "top",
            Self::Bottom => "bottom",
        }
    }

    /// The face that is the lid.
    pub const fn of_lid(lid: LidFace) -> Self {
        match lid {
            LidFace::Front => Self::Front,
            LidFace::Side => Self::Right,
            LidFace::Top => Self::Top,
        }
    }
}

/// A body with square corners: where it begins and ends along each axis, in mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Block {
    /// Where it begins.
    pub from_mm: [f64; 3],
    /// Where it ends.
    pub to_mm: [f64; 3],
}

impl Block {
    /// A body of `size_mm` round the origin.
    pub fn centred(size_mm: [f64; 3]) -> Self {
        Self { from_mm: size_mm.map(|side| -0.5 * side), to_mm: size_mm.map(|side| 0.5 * side) }
    }

    /// The same, larger by `by_mm` on every side.
    #[must_use]
    pub fn grown(&self, by_mm: f64) -> Self {
        Self { from_mm: self.from_mm.map(|at| at - by_mm), to_mm: self.to_mm.map(|at| at + by_mm) }
    }

    /// Its sides in mm.
    pub fn size_mm(&self) -> [f64; 3] {
        std::array::from_fn(|axis| self.to_mm[axis] - self.from_mm[axis])
    }

    /// Its volume in m3.
    pub fn volume_m3(&self) -> f64 {
        self.size_mm().iter().map(|side| side / 1000.0).product()
    }

    /// Its middle in mm.
    pub fn middle_mm(&self) -> [f64; 3] {
        std::array::from_fn(|axis| 0.5 * (self.from_mm[axis] + self.to_mm[axis]))
    }
}

/// How the boards of a layer meet: the boards across the first axis run to the outside everywhere, those across the last one lie
/// between all others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Joints(pub [usize; 3]);

impl Joints {
    /// The joints of layer `k` of a shell, counted from the inside: every other layer turns all of its twelve edges round, so
    /// that the seam of one layer runs along another axis than the seam under it.
    pub const fn of_layer(k: usize) -> Self {
        if k.is_multiple_of(2) { Self([2, 0, 1]) } else { Self([1, 0, 2]) }
    }

    /// Whether a board across `axis` covers the end of one across `other`.
    pub fn covers(self, axis: usize, other: usize) -> bool {
        let rank = |axis| self.0.iter().position(|own| *own == axis);
        rank(axis) < rank(other)
    }
}

/// One layer of a shell as six boards round what it encloses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LayerBox {
    /// What it encloses.
    pub inside: Block,
    /// Thickness in mm.
    pub thickness_mm: f64,
    /// How its boards meet.
    pub joints: Joints,
    /// Play in mm of every seam.
    pub clearance_mm: f64,
    /// Its lid, if it has one.
    pub lid: Option<LidFit>,
}

/// How the lid of a layer sits in its walls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LidFit {
    /// Which face it is.
    pub face: Face,
    /// What it closes, seen along its axis: the clear opening of its own walls.
    pub opening: Block,
    /// Where along the axis of the lid the walls end, in mm from the origin.
    pub walls_end_mm: f64,
    /// Play in mm all round.
    pub clearance_mm: f64,
}

impl LayerBox {
    /// The outside of the closed layer.
    pub fn outside(&self) -> Block {
        self.inside.grown(self.thickness_mm)
    }

    /// Where the board of `face` lies.
    pub fn board(&self, face: Face) -> Block {
        let (axis, inside, outside) = (face.axis(), self.inside, self.outside());
        let mut board = Block { from_mm: [0.0; 3], to_mm: [0.0; 3] };
        if face.is_far() {
            (board.from_mm[axis], board.to_mm[axis]) = (inside.to_mm[axis], outside.to_mm[axis]);
        } else {
            (board.from_mm[axis], board.to_mm[axis]) = (outside.from_mm[axis], inside.from_mm[axis]);
        }
        if let Some(lid) = self.lid.filter(|lid| lid.face == face) {
            for along in (0..3).filter(|along| *along != axis) {
                board.from_mm[along] = lid.opening.from_mm[along] + lid.clearance_mm;
                board.to_mm[along] = lid.opening.to_mm[along] - lid.clearance_mm;
            }
            return board;
        }
        for along in (0..3).filter(|along| *along != axis) {
            (board.from_mm[along], board.to_mm[along]) = if self.joints.covers(axis, along) {
                (outside.from_mm[along], outside.to_mm[along])
            } else {
                (inside.from_mm[along] + self.clearance_mm, inside.to_mm[along] - self.clearance_mm)
            };
            // Round a lid the walls go on to their end, whatever the joints of the other edges.
            if let Some(lid) = self.lid.filter(|lid| lid.face.axis() == along) {
                let end = if lid.face.is_far() { &mut board.to_mm[along] } else { &mut board.from_mm[along] };
                *end = lid.walls_end_mm;
            }
        }
        board
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn opposite_faces_share_their_axis() {
        for face in Face::ALL {
            assert_eq!(face.opposite().opposite(), face);
            assert_eq!(face.opposite().axis(), face.axis());
            assert_ne!(face.opposite().is_far(), face.is_far());
        }
    }

    #[test]
    fn neighbouring_layers_meet_the_other_way_round_at_every_edge() {
        for k in 0..4 {
            for (axis, other) in [(0, 1), (1, 2), (2, 0)] {
                let [here, next] = [k, k + 1].map(|layer| Joints::of_layer(layer).covers(axis, other));
                assert_ne!(here, next, "layer {k}, axes {axis} and {other}");
                assert_ne!(Joints::of_layer(k).covers(axis, other), Joints::of_layer(k).covers(other, axis));
            }
        }
    }

    /// A cube of 100 mm inside and boards of 10 mm, by hand: bottom and top 120 x 120, ends 100 x 120, sides 100 x 100.
    #[test]
    fn boards_of_a_cube_by_hand() {
        let layer = LayerBox {
            inside: Block::centred([100.0; 3]),
            thickness_mm: 10.0,
            joints: Joints::of_layer(0),
            clearance_mm: 0.0,
            lid: None,
        };
        assert_eq!(layer.board(Face::Bottom).size_mm(), [120.0, 120.0, 10.0]);
        assert_eq!(layer.board(Face::Front).size_mm(), [10.0, 120.0, 100.0]);
        assert_eq!(layer.board(Face::Left).size_mm(), [100.0, 10.0, 100.0]);
        let all: f64 = Face::ALL.iter().map(|face| layer.board(*face).volume_m3()).sum();
        assert!((all - (0.12_f64.powi(3) - 0.1_f64.powi(3))).abs() < 1e-12);
    }
}
