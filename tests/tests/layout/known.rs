//! Cases whose answer is known: by construction, by publication, by another packer.

use hushwright::workshop::layout::{Layout, Part, Stock, lay_out};

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

/// The rows of a table of cases in `tests/data`, without its header lines.
fn rows(text: &str) -> Vec<csv::StringRecord> {
    assert!(text.starts_with("# source: "));
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let rows: Vec<_> = reader.records().map(|row| row.expect("a row")).collect();
    assert!(rows.len() > 10);
    rows
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

/// Hopper and Turton's rectangles that fill another without waste, not all by cuts from edge to edge. The bound is one sheet
/// for each; and a sheet a tenth longer holds all, about what they report for simple rules (from memory: heights 5 to 11 %
/// above the optimum for the larger cases by bottom-left fill in order of size).
#[test]
fn perfect_packings_of_hopper_and_turton() {
    let mut longer = Vec::new();
    for row in rows(include_str!("../../data/perfect_packing_hopper_turton.csv")) {
        let (length, width): (f64, f64) = (row[1].parse().expect("length"), row[2].parse().expect("width"));
        let parts = listed(&row[3], true);
        let area: f64 = parts.iter().map(|part| part.length_mm * part.width_mm).sum();
        assert_eq!(area, length * width, "{}", &row[0]);
        let layout = laid_out(&parts, sheet(length, width, 0.0, 0.0));
        assert_eq!(layout.bound, 1, "{}", &row[0]);
        assert!(layout.sheets.len() <= 2, "{}: {} sheets", &row[0], layout.sheets.len());
        if laid_out(&parts, sheet((1.1 * length).floor(), width, 0.0, 0.0)).sheets.len() > 1 {
            longer.push(row[0].to_owned());
        }
    }
    assert!(longer.is_empty(), "more than one sheet a tenth longer: {longer:?}");
}

/// Never more sheets than the best of many ways of another packer; what was drawn from Berkey and Wang's classes, and boards
/// with a kerf.
#[test]
fn no_more_sheets_than_another_packer() {
    let mut worse = Vec::new();
    let (mut ours, mut theirs) = (0, 0);
    for row in rows(include_str!("../../data/guillotine_second_packer.csv")) {
        let number = |column: usize| row[column].parse::<f64>().expect("a number");
        let layout = laid_out(&listed(&row[5], &row[4] == "yes"), sheet(number(1), number(2), 0.0, number(3)));
        let bins: usize = row[6].parse().expect("bins");
        ours += layout.sheets.len();
        theirs += bins;
        assert!(layout.bound <= bins, "{}: bound {} above what was found", &row[0], layout.bound);
        if layout.sheets.len() > bins {
            worse.push(format!("{}: {} for {bins}", &row[0], layout.sheets.len()));
        }
    }
    assert!(worse.is_empty(), "{worse:?}; in all {ours} for {theirs}");
}
