//! How a sheet is divided: a tree of corners, each a part in the corner of a rectangle with two rectangles left beside it.

/// No corner.
pub(super) const NONE: u32 = u32::MAX;

/// Which of the two cuts at a part goes through the whole rectangle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Split {
    /// The cut along the sheet: what is left above is as long as the rectangle.
    AlongFirst,
    /// The cut across the sheet: what is left to the right is as wide as the rectangle.
    AcrossFirst,
}

/// A rectangle in whole micrometres of the trimmed sheet: place and size along and across.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Rect {
    pub at: [i64; 2],
    pub size: [i64; 2],
}

impl Rect {
    /// Area, 0 if nothing is left along or across.
    pub fn area(&self) -> i64 {
        if self.is_empty() { 0 } else { self.size[0] * self.size[1] }
    }

    pub fn is_empty(&self) -> bool {
        self.size[0] <= 0 || self.size[1] <= 0
    }

    /// What is left right of and above a part of `size` in its corner.
    pub fn left(&self, size: [i64; 2], kerf: i64, split: Split) -> [Self; 2] {
        let [along, across] = [self.size[0] - size[0] - kerf, self.size[1] - size[1] - kerf];
        let (right, above) = match split {
            Split::AlongFirst => ([along, size[1]], [self.size[0], across]),
            Split::AcrossFirst => ([along, self.size[1]], [size[0], across]),
        };
        [
            Self { at: [self.at[0] + size[0] + kerf, self.at[1]], size: right },
            Self { at: [self.at[0], self.at[1] + size[1] + kerf], size: above },
        ]
    }

    /// The split that leaves the larger of two rectangles, and its area.
    pub fn roomier(&self, size: [i64; 2], kerf: i64) -> Split {
        let largest = |split| self.left(size, kerf, split).iter().map(Self::area).max();
        if largest(Split::AcrossFirst) > largest(Split::AlongFirst) { Split::AcrossFirst } else { Split::AlongFirst }
    }
}

/// A part in the corner of a rectangle.
#[derive(Clone, Copy, Debug)]
pub(super) struct Corner {
    /// Which kind of part.
    pub kind: u32,
    pub sheet: u32,
    pub turned: bool,
    /// Where it ends along and across.
    pub end: [i64; 2],
    /// How the rectangle is divided; open as long as nothing lies beside the part.
    pub split: Option<Split>,
    /// Corners of the rectangles right of it and above it.
    pub children: [u32; 2],
}

/// One sheet of a plan.
#[derive(Clone, Copy, Debug)]
pub(super) struct PlannedSheet {
    /// Its first corner.
    pub root: u32,
    /// The part of the trimmed sheet that is divided by the corners: what is beyond is cut off first, in one.
    pub frame: [i64; 2],
    /// Area of its parts.
    pub used: i64,
}

/// Sheets with all that lies on them.
#[derive(Clone, Debug, Default)]
pub(super) struct Plan {
    pub corners: Vec<Corner>,
    pub sheets: Vec<PlannedSheet>,
}
