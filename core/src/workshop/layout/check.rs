//! From millimetres as written to whole micrometres that are allowed, and parts that no sheet holds.

use super::{MAX_PIECES, Part, Stock, TooBig};
use crate::error::FieldError;

/// Micrometres in a millimetre.
const UM_PER_MM: f64 = 1000.0;

/// Smallest and largest side in mm: areas of all pieces then fit whole numbers with room to spare.
const SIDE_MM: std::ops::RangeInclusive<f64> = 1.0..=100_000.0;

/// Widest kerf in mm: no saw for sheets takes more.
const WIDEST_KERF_MM: f64 = 20.0;

/// Parts of one size, in whole micrometres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Kind {
    /// Place in the list of parts.
    pub part: usize,
    /// Size along and across the grain.
    pub size: [i64; 2],
    /// Whether it may be turned, and is not square.
    pub turns: bool,
    /// How many.
    pub count: usize,
}

impl Kind {
    /// Its size as it lies on the sheet.
    pub fn lying(&self, turned: bool) -> [i64; 2] {
        if turned { [self.size[1], self.size[0]] } else { self.size }
    }

    /// The ways it may lie: as it is, and turned.
    pub fn ways(&self) -> impl Iterator<Item = (bool, [i64; 2])> + use<> {
        let kind = *self;
        [false, true].into_iter().take(1 + usize::from(kind.turns)).map(move |turned| (turned, kind.lying(turned)))
    }
}

/// What is to be laid out, checked: each kind fits a sheet.
#[derive(Clone, Debug)]
pub(super) struct Job {
    pub kinds: Vec<Kind>,
    /// The raw sheet along and across the grain.
    pub raw: [i64; 2],
    /// What is left of it after trimming.
    pub sheet: [i64; 2],
    pub trim: i64,
    pub kerf: i64,
}

/// Whole micrometres of a length in mm within limits.
fn micrometres(mm: f64) -> i64 {
    (mm * UM_PER_MM).round() as i64
}

/// Millimetres of whole micrometres.
pub(super) fn millimetres(um: i64) -> f64 {
    um as f64 / UM_PER_MM
}

/// A side of a part or a sheet.
fn side(mm: f64, path: impl Fn() -> String) -> Result<i64, FieldError> {
    if SIDE_MM.contains(&mm) {
        return Ok(micrometres(mm));
    }
    Err(FieldError::new(path(), "must be between 1 and 100000 mm: no saw cuts smaller, no sheet is larger"))
}

/// The checked job, and the parts that fit no sheet.
pub(super) fn checked(parts: &[Part], stock: &Stock) -> Result<(Job, Vec<TooBig>), FieldError> {
    let raw = [side(stock.length_mm, || "stock.length_mm".to_owned())?, side(stock.width_mm, || "stock.width_mm".to_owned())?];
    if !(0.0..=WIDEST_KERF_MM).contains(&stock.kerf_mm) {
        return Err(FieldError::new("stock.kerf_mm", "must be between 0 and 20 mm: no saw for sheets takes more"));
    }
    let smallest = micrometres(*SIDE_MM.start());
    // Compared before it is rounded: any number of millimetres may stand there.
    let widest_trim_mm = millimetres(raw[0].min(raw[1]) - smallest) / 2.0;
    if !(0.0..=widest_trim_mm).contains(&stock.trim_mm) {
        return Err(FieldError::new(
            "stock.trim_mm",
            "must be 0 or more and leave at least 1 mm of the sheet between both edges",
        ));
    }
    let (trim, kerf) = (micrometres(stock.trim_mm), micrometres(stock.kerf_mm));
    let sheet = raw.map(|side| (side - 2 * trim).max(1));
    let (mut kinds, mut too_big, mut pieces) = (Vec::new(), Vec::new(), 0_usize);
    for (part, given) in parts.iter().enumerate() {
        let size = [
            side(given.length_mm, || format!("parts[{part}].length_mm"))?,
            side(given.width_mm, || format!("parts[{part}].width_mm"))?,
        ];
        pieces = pieces.saturating_add(given.count);
        if pieces > MAX_PIECES {
            let message = "must keep all pieces together at 1000 or fewer, so that a layout is found in good time";
            return Err(FieldError::new(format!("parts[{part}].count"), message));
        }
        let kind = Kind { part, size, turns: given.may_turn && size[0] != size[1], count: given.count };
        if kind.ways().any(|(_, size)| size[0] <= sheet[0] && size[1] <= sheet[1]) {
            kinds.push(kind);
        } else {
            too_big.push(joined(given, &kind, sheet));
        }
    }
    kinds.retain(|kind| kind.count > 0);
    Ok((Job { kinds, raw, sheet, trim, kerf }, too_big))
}

/// From how many equal pieces a part that no sheet holds can be joined: the fewest, then with the shortest joints.
///
/// A side of l takes ceil(l/L) pieces to fit L, and fewer do not fit; the two sides do not depend on each other, so the fewest
/// of each way of lying is the product.
fn joined(given: &Part, kind: &Kind, sheet: [i64; 2]) -> TooBig {
    let [length, width] = kind.size;
    let best = kind
        .ways()
        .map(|(turned, _)| {
            let [for_length, for_width] = if turned { [sheet[1], sheet[0]] } else { sheet };
            let (along, across) = (ceil_div(length, for_length), ceil_div(width, for_width));
            (along * across, (along - 1) * width + (across - 1) * length, along, across)
        })
        .min();
    let (pieces, joint, along, across) = best.unwrap_or((1, 0, 1, 1));
    let piece = Part {
        length_mm: millimetres(ceil_div(length, along)),
        width_mm: millimetres(ceil_div(width, across)),
        count: given.count.saturating_mul(pieces as usize),
        may_turn: given.may_turn,
    };
    TooBig { part: kind.part, pieces_along: along as usize, pieces_across: across as usize, joint_mm: millimetres(joint), piece }
}

/// Quotient of positive numbers, rounded up.
fn ceil_div(number: i64, by: i64) -> i64 {
    (number + by - 1) / by
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand, on a sheet of 2420 by 1200 after trimming.
    #[test]
    fn what_is_too_big_is_joined_from_few_pieces() {
        let stock = Stock { length_mm: 2440.0, width_mm: 1220.0, trim_mm: 10.0, kerf_mm: 3.0 };
        let pieces = |length_mm: f64, width_mm: f64, may_turn: bool| {
            let (job, too_big) = checked(&[Part { length_mm, width_mm, count: 2, may_turn }], &stock).expect("allowed sizes");
            assert_eq!(job.kinds.len() + too_big.len(), 1);
            too_big.first().map(|part| (part.pieces_along, part.pieces_across, part.joint_mm, part.piece.count))
        };
        assert_eq!(pieces(2420.0, 1200.0, false), None);
        assert_eq!(pieces(1200.0, 2420.0, true), None);
        assert_eq!(pieces(1200.0, 2420.0, false), Some((1, 3, 2400.0, 6)), "across the grain it takes three");
        assert_eq!(pieces(2421.0, 600.0, false), Some((2, 1, 600.0, 4)));
        // Three by two as it lies, 3000 by 1500 turned: two of 1500 by 1500 do not fit, 3000 over 1200 is three.
        assert_eq!(pieces(3000.0, 1500.0, true), Some((3, 1, 3000.0, 6)));
        assert_eq!(pieces(3000.0, 1500.0, false), Some((2, 2, 4500.0, 8)));
    }
}
