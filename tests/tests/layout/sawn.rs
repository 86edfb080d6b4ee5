//! Properties of every layout: its cuts are made one by one on the raw sheet, and what comes off is looked at.

use hushwright::workshop::layout::{Cut, Direction, Layout, MAX_PIECES, Part, Rectangle, SheetLayout, Stock, lay_out};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// The same cases at every run, so that what was seen to hold holds again; change the seed to look elsewhere.
fn fixed(cases: u32) -> ProptestConfig {
    ProptestConfig { rng_seed: RngSeed::Fixed(20_261_128), failure_persistence: None, ..ProptestConfig::with_cases(cases) }
}

/// Whole micrometres: what layouts are made of, so that sums are compared exactly.
fn um(mm: f64) -> i64 {
    let um = (mm * 1000.0).round();
    assert!((mm * 1000.0 - um).abs() < 1e-6 * um.abs().max(1.0), "{mm} mm is not a whole number of micrometres");
    um as i64
}

/// x, y, length, width in micrometres.
type Box4 = [i64; 4];

fn box4(rectangle: &Rectangle) -> Box4 {
    [um(rectangle.x_mm), um(rectangle.y_mm), um(rectangle.length_mm), um(rectangle.width_mm)]
}

/// Saws `piece` by `cut`: what is left on both sides of the kerf.
fn halves(piece: Box4, cut: &Cut) -> [Box4; 2] {
    let axis = usize::from(cut.direction == Direction::Along);
    let (position, kerf) = (um(cut.position_mm), um(cut.kerf_mm));
    let mut halves = [piece, piece];
    halves[0][axis + 2] = position - piece[axis];
    halves[1][axis] = position + kerf;
    halves[1][axis + 2] = piece[axis] + piece[axis + 2] - position - kerf;
    halves
}

/// Makes all cuts of a sheet, each on a piece that is in hand then; returns the pieces at the end, without what was trimmed.
///
/// # Panics
/// If a piece is not there, a cut lies outside it, the saw takes more than its kerf, or less although there is more.
pub fn sawn(sheet: &SheetLayout, stock: &Stock) -> Vec<Box4> {
    let raw = [0, 0, um(stock.length_mm), um(stock.width_mm)];
    let (trim, kerf) = (um(stock.trim_mm), um(stock.kerf_mm));
    let (mut pieces, mut sawn_since) = (vec![raw], false);
    for cut in &sheet.cuts {
        let piece = box4(&cut.piece);
        let place = pieces.iter().position(|&other| other == piece).unwrap_or_else(|| panic!("{piece:?} is not in hand"));
        pieces.swap_remove(place);
        let [near, far] = halves(piece, cut);
        let axis = usize::from(cut.direction == Direction::Along);
        let taken = um(cut.kerf_mm);
        assert!(near[axis + 2] >= 0 && far[axis + 2] >= 0, "{cut:?} lies outside");
        let (from, to) = cut.from_to_mm();
        assert_eq!([um(from), um(to) - um(from)], [piece[1 - axis], piece[3 - axis]], "from edge to edge");
        assert_eq!(um(cut.measure_mm()), near[axis + 2]);
        if cut.stage == 0 {
            assert!(!sawn_since, "trimming comes first");
            assert_eq!(taken, kerf.min(trim));
            let waste_is_near = near[axis] == 0 && far[axis] == trim;
            let (waste, kept) = if waste_is_near { (near, far) } else { (far, near) };
            assert_eq!(waste[axis + 2] + taken, trim, "{cut:?}");
            pieces.push(kept);
            continue;
        }
        sawn_since = true;
        assert!(near[axis + 2] > 0, "{cut:?} cuts nothing off");
        assert!(taken == kerf || (taken < kerf && far[axis + 2] == 0), "{cut:?} takes {taken} of {kerf}");
        pieces.push(near);
        if far[axis + 2] > 0 {
            pieces.push(far);
        }
    }
    let inner = [trim, trim, raw[2] - 2 * trim, raw[3] - 2 * trim];
    let area = |piece: &Box4| i128::from(piece[2]) * i128::from(piece[3]);
    assert!(pieces.iter().map(area).sum::<i128>() <= area(&inner));
    pieces
}

/// Checks all that must hold for any layout of `parts`.
pub fn check(layout: &Layout, parts: &[Part], stock: &Stock) {
    let mut left: Vec<usize> = parts.iter().map(|part| part.count).collect();
    for too_big in &layout.too_big {
        left[too_big.part] = 0;
    }
    let (trim, kerf) = (um(stock.trim_mm), um(stock.kerf_mm));
    let end = [um(stock.length_mm) - trim, um(stock.width_mm) - trim];
    let mut placed_mm2 = 0.0;
    for sheet in &layout.sheets {
        assert!(!sheet.placements.is_empty(), "an empty sheet");
        let mut boxes: Vec<Box4> = Vec::new();
        let mut sheet_mm2 = 0.0;
        for placed in &sheet.placements {
            let part = &parts[placed.part];
            assert!(left[placed.part] > 0, "part {} too often", placed.part);
            left[placed.part] -= 1;
            assert!(part.may_turn || !placed.turned, "against the grain");
            let size = [um(part.length_mm), um(part.width_mm)];
            let lying = box4(&placed.at);
            assert_eq!([lying[2], lying[3]], if placed.turned { [size[1], size[0]] } else { size });
            for axis in 0..2 {
                assert!(lying[axis] >= trim && lying[axis] + lying[axis + 2] <= end[axis], "{lying:?} is not on the sheet");
            }
            for other in &boxes {
                let apart = |axis: usize| {
                    lying[axis] + lying[axis + 2] + kerf <= other[axis] || other[axis] + other[axis + 2] + kerf <= lying[axis]
                };
                assert!(apart(0) || apart(1), "{lying:?} and {other:?} are less than the kerf apart");
            }
            boxes.push(lying);
            sheet_mm2 += placed.at.area_mm2();
        }
        let areas: Vec<f64> = sheet.offcuts.iter().map(Rectangle::area_mm2).collect();
        assert!(areas.windows(2).all(|pair| pair[0] >= pair[1]), "offcuts, largest first: {areas:?}");
        boxes.extend(sheet.offcuts.iter().map(box4));
        let mut pieces = sawn(sheet, stock);
        boxes.sort_unstable();
        pieces.sort_unstable();
        assert_eq!(boxes, pieces, "what is drawn is not what comes off the saw");
        let share = sheet_mm2 / (stock.length_mm * stock.width_mm);
        assert!((sheet.yield_share - share).abs() < 1e-9);
        placed_mm2 += sheet_mm2;
    }
    assert!(left.iter().all(|&count| count == 0), "not laid out: {left:?}");
    assert!(layout.bound <= layout.sheets.len(), "{} sheets under the bound {}", layout.sheets.len(), layout.bound);
    let fullest_first = layout.sheets.windows(2).all(|pair| pair[0].yield_share >= pair[1].yield_share);
    assert!(fullest_first, "the emptiest sheet is the last");
    let sheets_mm2 = layout.sheets.len() as f64 * stock.length_mm * stock.width_mm;
    assert!((layout.yield_share * sheets_mm2 - placed_mm2).abs() <= 1e-9 * sheets_mm2);
}

fn part() -> impl Strategy<Value = Part> {
    // Tenths of a millimetre, and sizes as people round them, so that sums fit by chance too.
    let side =
        || prop_oneof![(10_u32..15_000).prop_map(|tenths| f64::from(tenths) / 10.0), (1_u32..25).prop_map(|n| f64::from(n * 61))];
    (side(), side(), 0_usize..5, any::<bool>()).prop_map(|(length_mm, width_mm, count, may_turn)| Part {
        length_mm,
        width_mm,
        count,
        may_turn,
    })
}

fn stock() -> impl Strategy<Value = Stock> {
    let sheet = prop_oneof![Just((2440.0, 1220.0)), Just((2500.0, 1250.0)), Just((1220.0, 2440.0)), Just((610.0, 610.0))];
    let trim_mm = prop_oneof![Just(0.0), Just(1.5), Just(10.0)];
    let kerf_mm = prop_oneof![Just(0.0), Just(2.2), Just(3.2), Just(20.0)];
    (sheet, trim_mm, kerf_mm).prop_map(|((length_mm, width_mm), trim_mm, kerf_mm)| Stock {
        length_mm,
        width_mm,
        trim_mm,
        kerf_mm,
    })
}

proptest! {
    #![proptest_config(fixed(200))]

    /// Whatever the parts: each is there once, and the cuts in their order give them and the offcuts, nothing else.
    #[test]
    fn every_layout_can_be_sawn(parts in proptest::collection::vec(part(), 0..12), stock in stock()) {
        let layout = lay_out(&parts, &stock).expect("allowed sizes");
        check(&layout, &parts, &stock);
        prop_assert_eq!(&layout, &lay_out(&parts, &stock).expect("allowed sizes"), "the same again");
    }

    /// Parts that no sheet holds: their pieces fit, make up the part, and one piece fewer would not do.
    #[test]
    fn pieces_of_what_is_too_big_fit(length_mm in 1_u32..9000, width_mm in 1_u32..9000, count in 1_usize..4, may_turn: bool, stock in stock()) {
        let part = Part { length_mm: f64::from(length_mm), width_mm: f64::from(width_mm), count, may_turn };
        let layout = lay_out(&[part], &stock).expect("allowed sizes");
        check(&layout, &[part], &stock);
        let sheet = [stock.length_mm - 2.0 * stock.trim_mm, stock.width_mm - 2.0 * stock.trim_mm];
        let fits = |[length, width]: [f64; 2]| {
            (length <= sheet[0] && width <= sheet[1]) || (may_turn && length <= sheet[1] && width <= sheet[0])
        };
        let divided = |along: usize, across: usize| fits([part.length_mm / along as f64, part.width_mm / across as f64]);
        match layout.too_big.first() {
            None => prop_assert!(divided(1, 1)),
            Some(too_big) => {
                let (along, across) = (too_big.pieces_along, too_big.pieces_across);
                prop_assert!(divided(along, across));
                for (fewer_along, fewer_across) in (1..along * across).flat_map(|n| (1..=n).map(move |m| (n, m))) {
                    prop_assert!(fewer_along * fewer_across >= along * across || !divided(fewer_along, fewer_across));
                }
                let joint = (along - 1) as f64 * part.width_mm + (across - 1) as f64 * part.length_mm;
                prop_assert_eq!(too_big.joint_mm, joint);
                prop_assert_eq!(too_big.piece.count, count * along * across);
                let pieces = lay_out(&[too_big.piece], &stock).expect("allowed sizes");
                prop_assert!(pieces.too_big.is_empty());
                check(&pieces, &[too_big.piece], &stock);
                let [length, width] = [too_big.piece.length_mm * along as f64, too_big.piece.width_mm * across as f64];
                // Rounded up to a micrometre each.
                prop_assert!(length >= part.length_mm && length < part.length_mm + 0.001 * along as f64 + 1e-6);
                prop_assert!(width >= part.width_mm && width < part.width_mm + 0.001 * across as f64 + 1e-6);
            }
        }
    }
}

/// As many pieces as are allowed, large and tiny, also on the largest sheet: laid out like few.
#[test]
fn as_many_pieces_as_are_allowed() {
    let part = |place: usize| Part {
        length_mm: 1.0 + (place * 37 % 611) as f64,
        width_mm: 1.0 + (place * 53 % 407) as f64,
        count: 1,
        may_turn: place.is_multiple_of(2),
    };
    let parts: Vec<Part> = (0..MAX_PIECES).map(part).collect();
    for side_mm in [650.0, 100_000.0] {
        let stock = Stock { length_mm: side_mm, width_mm: side_mm, trim_mm: 0.0, kerf_mm: 3.0 };
        check(&lay_out(&parts, &stock).expect("allowed sizes"), &parts, &stock);
    }
}

/// What is refused, and that the message says where and what is allowed.
#[test]
fn bad_input_is_refused() {
    let stock = Stock { length_mm: 2440.0, width_mm: 1220.0, trim_mm: 5.0, kerf_mm: 3.0 };
    let part = Part { length_mm: 500.0, width_mm: 300.0, count: 2, may_turn: true };
    let refused = |part: Part, stock: Stock| lay_out(&[part], &stock).expect_err("refused").to_string();
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, 0.99, 100_001.0] {
        assert!(refused(Part { length_mm: bad, ..part }, stock).starts_with("parts[0].length_mm: must be between 1 and"));
        assert!(refused(Part { width_mm: bad, ..part }, stock).starts_with("parts[0].width_mm: must be between 1 and"));
        assert!(refused(part, Stock { length_mm: bad, ..stock }).starts_with("stock.length_mm: must be between 1 and"));
        assert!(refused(part, Stock { width_mm: bad, ..stock }).starts_with("stock.width_mm: must be between 1 and"));
    }
    for bad in [f64::NAN, f64::INFINITY, -0.1, 1e300] {
        assert!(refused(part, Stock { kerf_mm: bad, ..stock }).starts_with("stock.kerf_mm: must be between 0 and"));
        assert!(refused(part, Stock { trim_mm: bad, ..stock }).starts_with("stock.trim_mm: must be 0 or more"));
    }
    assert!(refused(part, Stock { trim_mm: 610.0, ..stock }).starts_with("stock.trim_mm"));
    for count in [MAX_PIECES + 1, usize::MAX] {
        assert!(refused(Part { count, ..part }, stock).starts_with("parts[0].count: must keep"));
    }
    assert_eq!(lay_out(&[], &stock).map(|layout| (layout.sheets.len(), layout.bound, layout.yield_share)), Ok((0, 0, 0.0)));
}
