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
    pub turned: bool,
    /// Where it ends along and across.
    pub end: [i64; 2],
    /// How the rectangle is divided; open as long as nothing lies beside the part.
    pub split: Option<Split>,
    /// Corners of the rectangles right of it and above it, by their places on the sheet.
    pub children: [u32; 2],
}

/// One sheet of a plan.
#[derive(Clone, Debug)]
pub(super) struct PlannedSheet {
    /// Its corners, the first that of the sheet itself, none without a part.
    pub corners: Vec<Corner>,
    /// The part of the trimmed sheet that is divided by the corners: what is beyond is cut off first, in one.
    pub frame: [i64; 2],
    /// Area of its parts.
    pub used: i64,
    /// Area of the largest rectangle left within the frame that could hold a part.
    pub left: i64,
    /// Number of cuts within the frame.
    pub cuts: usize,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Either way, part, kerf and what is left make up the rectangle.
    #[test]
    fn what_is_left_lies_beside_the_part() {
        let rect = Rect { at: [10, 20], size: [100, 60] };
        let [right, above] = rect.left([70, 50], 3, Split::AlongFirst);
        assert_eq!((right, above), (Rect { at: [83, 20], size: [27, 50] }, Rect { at: [10, 73], size: [100, 7] }));
        let [right, above] = rect.left([70, 50], 3, Split::AcrossFirst);
        assert_eq!((right, above), (Rect { at: [83, 20], size: [27, 60] }, Rect { at: [10, 73], size: [70, 7] }));
        // The largest is 27 by 60 that way, 27 by 50 the other way.
        assert_eq!(rect.roomier([70, 50], 3), Split::AcrossFirst);
        assert_eq!(rect.left([98, 60], 3, Split::AlongFirst).map(|left| left.area()), [0, 0], "less than a kerf is left");
    }
}
