//! Rectangles on paper and screen, x to the right and y down.

/// A rectangle with upright sides, in the unit of what it lies on: pixels of a canvas, millimetres of a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Its left side.
    pub left: f64,
    /// Its upper side.
    pub top: f64,
    /// Its right side.
    pub right: f64,
    /// Its lower side.
    pub bottom: f64,
}

impl Rect {
    /// Of this size round a point.
    pub fn about((x, y): (f64, f64), width: f64, height: f64) -> Self {
        Self { left: x - 0.5 * width, top: y - 0.5 * height, right: x + 0.5 * width, bottom: y + 0.5 * height }
    }

    /// Its width.
    pub fn width(&self) -> f64 {
        self.right - self.left
    }

    /// Its height.
    pub fn height(&self) -> f64 {
        self.bottom - self.top
    }

    /// Its middle.
    pub fn middle(&self) -> (f64, f64) {
        (0.5 * (self.left + self.right), 0.5 * (self.top + self.bottom))
    }

    /// Larger by so much on every side.
    #[must_use]
    pub fn grown(&self, by: f64) -> Self {
        Self { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }

    /// Whether both have some area in common.
    pub fn meets(&self, other: &Self) -> bool {
        let apart = 1e-6;
        self.left < other.right - apart
            && other.left < self.right - apart
            && self.top < other.bottom - apart
            && other.top < self.bottom - apart
    }

    /// Whether the other lies within it.
    pub fn holds(&self, other: &Self) -> bool {
        let slack = 1e-6;
        other.left >= self.left - slack
            && other.right <= self.right + slack
            && other.top >= self.top - slack
            && other.bottom <= self.bottom + slack
    }

    /// The smallest that holds both.
    #[must_use]
    pub fn with(&self, other: &Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// Whether a line from left to right goes through it.
    pub fn is_crossed(&self, line: &[(f64, f64)]) -> bool {
        line.windows(2).any(|ends| {
            let [(x0, y0), (x1, y1)] = [ends[0], ends[1]];
            if x1 <= self.left || x0 >= self.right {
                return false;
            }
            let y = |x: f64| y0 + (y1 - y0) * ((x.clamp(x0, x1) - x0) / (x1 - x0));
            let (a, b) = (y(self.left), y(self.right));
            a.min(b) < self.bottom && a.max(b) > self.top
        })
    }
}
