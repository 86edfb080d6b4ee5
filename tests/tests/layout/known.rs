//! Cases whose answer is known: by construction, by publication, by another packer.

use std::path::Path;

use hushwright::workshop::layout::{Layout, Part, Stock, lay_out};
use hushwright_tests::published::{Check, Comparison, Row, Table, run};

use super::sawn::check;

fn parts(sizes: &[(f64, f64, usize)], may_turn: bool) -> Vec<Part> {
    sizes.iter().map(|&(length_mm, width_mm, count)| Part { length_mm, width_mm, count, may_turn }).collect()
}

fn laid_out(parts: &[Part], stock: Stock) -> Layout {
    let layout = lay_out(parts, &stock).expect("allowed sizes");
    check(&layout, parts, &stock);
    layout
}

fn sheet(length_mm: f64, width_mm: f64, trim_mm: f64, kerf_mm: f64) -> Stock {
    Stock { length_mm, width_mm, trim_mm, kerf_mm }
}

/// Sheets divided without a rest, by hand, so that one sheet a set is the optimum.
#[test]
fn dissections_without_a_rest() {
    // Four quarters of the trimmed sheet: (2440 - 20 - 4)/2 by (1220 - 20 - 4)/2.
    let quarters = parts(&[(1208.0, 598.0, 4)], false);
    let layout = laid_out(&quarters, sheet(2440.0, 1220.0, 10.0, 4.0));
    assert_eq!((layout.sheets.len(), layout.bound, layout.sheets[0].offcuts.len()), (1, 1, 0));
    // Four trimming cuts, one that halves, one for each half.
    assert_eq!(layout.sheets[0].cuts.len(), 4 + 3);
    // A tenth of a millimetre more and only two lie side by side.
    assert_eq!(laid_out(&parts(&[(1208.1, 598.0, 4)], false), sheet(2440.0, 1220.0, 10.0, 4.0)).sheets.len(), 2);

    // A strip of two, a block of two above each other beside a tall one: 100 x 60, kerf 2.
    let mixed = parts(&[(49.0, 20.0, 2), (30.0, 18.0, 2), (68.0, 38.0, 1)], false);
    for copies in 1..4 {
        let mixed: Vec<Part> = mixed.iter().map(|part| Part { count: part.count * copies, ..*part }).collect();
        let layout = laid_out(&mixed, sheet(100.0, 60.0, 0.0, 2.0));
        assert_eq!((layout.sheets.len(), layout.bound), (copies, copies));
    }

    // The same without a kerf, turned pieces among them: 12 x 10 of 5 x 6, 7 x 6, 12 x 4.
    let turned = parts(&[(6.0, 5.0, 1), (6.0, 7.0, 1), (4.0, 12.0, 1)], true);
    assert_eq!(laid_out(&turned, sheet(12.0, 10.0, 0.0, 0.0)).sheets.len(), 1);
    // Grain kept, the piece of 12 across is too large for the sheet and can be joined from two.
    let grain = laid_out(&parts(&[(4.0, 12.0, 1)], false), sheet(12.0, 10.0, 0.0, 0.0));
    assert_eq!((grain.sheets.len(), grain.too_big[0].pieces_along, grain.too_big[0].pieces_across), (0, 1, 2));
}

/// What is left at the end narrower than the kerf is sawn away; where nothing is left nothing is sawn.
#[test]
fn the_kerf_at_the_edge() {
    let stock = |length| sheet(length, 50.0, 0.0, 3.0);
    let two = parts(&[(50.0, 50.0, 2)], false);
    let cuts = |length| laid_out(&two, stock(length)).sheets.iter().map(|sheet| sheet.cuts.len()).collect::<Vec<_>>();
    assert_eq!(cuts(103.0), [1]);
    assert_eq!(cuts(105.0), [2], "2 mm left, which the saw takes");
    assert_eq!(cuts(102.0), [1, 1], "a kerf does not fit between");
    let left = |length| laid_out(&two, stock(length)).sheets[0].offcuts.first().map(|rest| rest.length_mm);
    assert_eq!((left(105.0), left(106.0), left(107.0)), (None, None, Some(1.0)));
}

/// Of a sheet that is not full, what is left is one large piece: by hand 100 x 58 beside one strip of 40 with its kerf.
#[test]
fn what_is_left_stays_in_one() {
    let layout = laid_out(&parts(&[(24.0, 40.0, 2), (46.0, 19.0, 2)], false), sheet(100.0, 100.0, 0.0, 2.0));
    let largest = layout.sheets[0].offcuts[0];
    assert_eq!([largest.length_mm, largest.width_mm], [100.0, 58.0]);
}

/// A sheet for each: parts over half of its sides, however many small ones fit beside them.
#[test]
fn the_bound_sees_parts_that_share_no_sheet() {
    // Area alone: 3 x 55 x 55 of 100 x 100, two sheets hold all.
    assert_eq!(laid_out(&parts(&[(55.0, 55.0, 3), (5.0, 5.0, 9)], true), sheet(100.0, 100.0, 0.0, 3.0)).bound, 3);
    // Half the sheet and the kerf more: two do not fit either.
    assert_eq!(laid_out(&parts(&[(49.0, 100.0, 4)], false), sheet(100.0, 100.0, 0.0, 3.0)).bound, 4);
}

/// Parts written as `12x7 3x5`.
fn listed(text: &str, may_turn: bool) -> Vec<Part> {
    let number = |text: &str| text.parse::<f64>().expect("a number");
    let part = |text: &str| {
        let (length, width) = text.split_once('x').expect("length x width");
        Part { length_mm: number(length), width_mm: number(width), count: 1, may_turn }
    };
    text.split_whitespace().map(part).collect()
}

/// Rectangles that fill another without waste, not all by cuts from edge to edge: the area fits and the bound is one sheet. A
/// sheet a tenth longer holds all: about what Hopper and Turton report for simple rules (from memory: heights 5 to 11 % above
/// the optimum for the larger cases by bottom-left fill in order of size).
fn perfect(table: &Table) -> Vec<Comparison> {
    let case = |row: Row<'_>| {
        let (name, length, width) = (row.text("name"), row.number("length"), row.number("width"));
        let parts = listed(row.text("parts"), true);
        let area: f64 = parts.iter().map(|part| part.length_mm * part.width_mm).sum();
        let same = laid_out(&parts, sheet(length, width, 0.0, 0.0));
        let longer = laid_out(&parts, sheet((1.1 * length).floor(), width, 0.0, 0.0));
        [
            Comparison::new(format!("{name}, area"), length * width, area),
            Comparison::new(format!("{name}, bound"), 1.0, same.bound as f64),
            Comparison::new(format!("{name}, a tenth longer"), 1.0, longer.sheets.len() as f64),
        ]
    };
    table.rows().flat_map(case).collect()
}

/// Never more sheets than the best of many ways of another packer, and no bound above what it found.
fn second_packer(table: &Table) -> Vec<Comparison> {
    let case = |row: Row<'_>| {
        let parts = listed(row.text("parts"), row.text("may_turn") == "yes");
        let layout = laid_out(&parts, sheet(row.number("length"), row.number("width"), 0.0, row.number("kerf")));
        let (name, bins) = (row.text("name"), row.number("bins"));
        [
            Comparison::new(format!("{name}, sheets where more"), bins, bins.max(layout.sheets.len() as f64)),
            Comparison::new(format!("{name}, bound where higher"), bins, bins.max(layout.bound as f64)),
        ]
    };
    table.rows().flat_map(case).collect()
}

#[test]
fn published_cases_and_another_packer() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/layout");
    let checks: [(&str, Check); 2] =
        [("perfect_packing_hopper_turton.csv", perfect), ("guillotine_second_packer.csv", second_packer)];
    let compared = run(&folder, &checks).unwrap_or_else(|wrong| panic!("{}", wrong.join("\n")));
    assert!(compared > 100, "{compared} compared");
}
