//! Sheets that are needed at the least.

use super::check::Job;

/// Most thresholds that are tried in each direction.
const MOST_THRESHOLDS: usize = 12;

/// A lower bound on the number of sheets, for any layout whose parts lie a kerf apart.
///
/// Grow every part by one kerf along and across, away from the corner, and the sheet too: two parts are a kerf apart along or
/// across, so grown parts still do not overlap, and they stay on the grown sheet. Areas are counted there. Sharper: for a
/// threshold t up to half of the sheet's side, a side shorter than t counts as nothing, one longer than the sheet's side less t
/// as the whole side, others as they are. With one such rule along and one across, what is on one sheet still counts no more
/// than its area (Fekete and Schepers 2004, "A general framework for bounds for higher-dimensional orthogonal packing problems",
/// cited from memory), so the total over the sheet's area, rounded up, is a bound. Thresholds of 0 count the area;
/// thresholds of half a side count parts of which no two share a sheet. A part that may turn counts as the way that is less.
pub(super) fn sheets_at_least(job: &Job) -> usize {
    let sheet = job.sheet.map(|side| side + job.kerf);
    let thresholds = [thresholds(job, sheet[0]), thresholds(job, sheet[1])];
    let sheet_area = i128::from(sheet[0]) * i128::from(sheet[1]);
    let mut most = 0;
    for &along in &thresholds[0] {
        for &across in &thresholds[1] {
            let counted: i128 = job
                .kinds
                .iter()
                .map(|kind| {
                    let least = kind
                        .ways()
                        .filter(|(_, size)| size[0] <= job.sheet[0] && size[1] <= job.sheet[1])
                        .map(|(_, size)| {
                            let side = |axis: usize, threshold| counted_side(size[axis] + job.kerf, threshold, sheet[axis]);
                            i128::from(side(0, along)) * i128::from(side(1, across))
                        })
                        .min();
                    least.unwrap_or(0) * kind.count as i128
                })
                .sum();
            most = most.max((counted + sheet_area - 1) / sheet_area);
        }
    }
    most as usize
}

/// What a side counts for, by twice the threshold: half of an odd side is one too.
fn counted_side(side: i64, twice: i64, whole: i64) -> i64 {
    if 2 * side < twice {
        0
    } else if 2 * side > 2 * whole - twice {
        whole
    } else {
        side
    }
}

/// Twice the thresholds worth trying for a sheet's side `whole`: 0, half of it, sides of parts and just over what is left beside
/// them up to there, spread evenly if many.
fn thresholds(job: &Job, whole: i64) -> Vec<i64> {
    let mut sides: Vec<i64> = job
        .kinds
        .iter()
        .flat_map(|kind| kind.size)
        // A side over half of the sheet's counts whole from the threshold just over what is left beside it.
        .flat_map(|side| [2 * (side + job.kerf), 2 * (whole - side - job.kerf) + 1])
        .filter(|&twice| twice > 0 && twice < whole)
        .collect();
    sides.sort_unstable();
    sides.dedup();
    let room = MOST_THRESHOLDS - 2;
    let count = sides.len();
    let spread = (0..count.min(room)).map(|place| sides[if count <= room { place } else { place * (count - 1) / (room - 1) }]);
    [0, whole].into_iter().chain(spread).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::workshop::layout::check::Kind;

    fn bound(pieces: &[([i64; 2], usize)], turns: bool, kerf: i64) -> usize {
        let kind = |(part, &(size, count)): (usize, &([i64; 2], usize))| Kind { part, size, turns, count };
        let kinds = pieces.iter().enumerate().map(kind).collect();
        sheets_at_least(&Job { kinds, raw: [100, 50], sheet: [100, 50], trim: 0, kerf })
    }

    /// By hand, on a sheet of 100 by 50.
    #[test]
    fn bounds_by_hand() {
        assert_eq!(bound(&[], true, 0), 0);
        assert_eq!(bound(&[([50, 25], 8)], true, 0), 2, "by area");
        assert_eq!(bound(&[([50, 25], 8)], false, 1), 8, "with a kerf no two of them share a sheet");
        assert_eq!(bound(&[([50, 25], 8)], true, 1), 3, "but three do, turned");
        assert_eq!(bound(&[([51, 26], 3)], false, 0), 3, "each over half along and across");
        assert_eq!(bound(&[([60, 10], 5)], false, 0), 1);
        assert_eq!(bound(&[([60, 10], 6)], false, 0), 2, "over half along: five above each other");
        assert_eq!(bound(&[([48, 20], 4)], true, 4), 1, "two by two: 48 + 4 + 48, 20 + 4 + 20");
    }
}
