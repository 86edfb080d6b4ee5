//! A pile of sheets drawn one upon the other: how high each strip is, and where a sheet lands that is carried over the list.

use hushwright::buildup::check::THICKNESS_MM;

/// Height in px of a millimetre of a sheet.
const PX_PER_MM: f64 = 2.0;
/// Least and greatest height in px of a strip: a foil stays visible and can be named, and a beam leaves room for the rest.
const STRIP_PX: (f64, f64) = (18.0, 80.0);

/// Where the strip of a sheet lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// Its upper edge in px.
    pub top: f64,
    /// Its height in px.
    pub height: f64,
}

impl Strip {
    /// Height in px of a joint.
    pub const JOINT: f64 = 5.0;
}

/// The strips of sheets of these thicknesses in mm, with joints between, and the height of all.
pub fn pile(thicknesses_mm: &[f64]) -> (Vec<Strip>, f64) {
    let mut top = 1.0;
    let mut strips = Vec::with_capacity(thicknesses_mm.len());
    for thickness_mm in thicknesses_mm {
        let height = (PX_PER_MM * thickness_mm.min(THICKNESS_MM.1)).clamp(STRIP_PX.0, STRIP_PX.1);
        strips.push(Strip { top, height });
        top += height + Strip::JOINT;
    }
    let height = strips.last().map_or(0.0, |last| last.top + last.height + 1.0);
    (strips, height)
}

/// The place that the item `from` gets when it is let go at `y` among items with these `middles`: after as many others as lie above.
pub fn landing(middles: &[f64], from: usize, y: f64) -> usize {
    middles.iter().enumerate().filter(|(k, middle)| *k != from && **middle < y).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strips_are_as_thick_as_their_sheets_within_bounds() {
        let (strips, height) = pile(&[12.0, 24.0, 0.5, 100.0]);
        let heights: Vec<f64> = strips.iter().map(|strip| strip.height).collect();
        assert_eq!(heights, [24.0, 48.0, STRIP_PX.0, STRIP_PX.1]);
        for pair in strips.windows(2) {
            assert_eq!(pair[1].top - pair[0].top, pair[0].height + Strip::JOINT);
        }
        assert_eq!(height, strips[3].top + strips[3].height + 1.0);
        assert_eq!(pile(&[]), (Vec::new(), 0.0));
    }

    #[test]
    fn a_sheet_lands_after_those_above_the_pointer() {
        let middles = [50.0, 150.0, 250.0];
        for (from, y, to) in
            [(0, 10.0, 0), (0, 100.0, 0), (0, 151.0, 1), (0, 400.0, 2), (2, 10.0, 0), (2, 60.0, 1), (1, 140.0, 1), (1, 160.0, 1)]
        {
            assert_eq!(landing(&middles, from, y), to, "{from} at {y}");
        }
        assert_eq!(landing(&[], 0, 5.0), 0);
    }
}
