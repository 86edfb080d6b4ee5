//! The chart's numbers as a table: on the page, for a spreadsheet, and as a file.

use hushwright::bands::{BAND_COUNT, NOMINAL_HZ, Spectrum, exact_mid_hz};
use hushwright::evaluate::Report;

use crate::charts::lines::LineChart;
use crate::paths;
use crate::quantity::decimal;

/// A column: one number for each band that has one.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Its head, without the unit.
    pub name: String,
    /// Unit.
    pub unit: &'static str,
    /// Numbers by band.
    pub values: [Option<f64>; BAND_COUNT],
}

impl Column {
    fn new(name: String, unit: &'static str, of: impl Fn(usize) -> Option<f64>) -> Self {
        // What is no number is left out rather than written as a word.
        Self { name, unit, values: std::array::from_fn(|band| of(band).filter(|value| value.is_finite())) }
    }
}

/// All lines of both charts, behind a line its range, then the share of each way out. The columns are the same whether the range of
/// `ranged` is known or not.
pub fn columns(levels: &LineChart, losses: &LineChart, ranged: &str, report: &Report) -> Vec<Column> {
    let mut columns = Vec::new();
    for line in levels.lines.iter().chain(&losses.lines) {
        columns.push(Column::new(line.name.to_owned(), "dB", |band| line.at(band)));
        if line.name == ranged {
            let range = levels.range.as_ref().filter(|range| range.of == ranged);
            let end = |end: Option<Spectrum>| move |band: usize| end.map(|end| end[band]);
            columns.push(Column::new(format!("{ranged} low"), "dB", end(range.map(|range| range.low_db))));
            columns.push(Column::new(format!("{ranged} high"), "dB", end(range.map(|range| range.high_db))));
        }
    }
    let share = |path: &hushwright::evaluate::Path| {
        Column::new(paths::name(path.key).to_owned(), "%", |band| Some(100.0 * path.share[band]))
    };
    columns.extend(report.paths.iter().map(share));
    columns
}

/// The lines of a chart.
pub fn columns_of(chart: &LineChart) -> Vec<Column> {
    chart.lines.iter().map(|line| Column::new(line.name.to_owned(), "dB", |band| line.at(band))).collect()
}

/// A number to a tenth, for machines.
fn tenths(value: f64) -> String {
    let text = format!("{value:.1}");
    if text == "-0.0" { "0.0".to_owned() } else { text }
}

/// A number to a tenth, for people; a dash where there is none.
pub fn shown(value: Option<f64>) -> String {
    value.map_or_else(|| "\u{2013}".to_owned(), |value| tenths(value).replace('-', "\u{2212}"))
}

/// Heads with units, then a row for each band with its nominal and its exact middle; numbers in plain figures with a point.
fn rows(columns: &[Column], apart: &str, end: &str) -> String {
    let mut text = format!("nominal band Hz{apart}exact mid-band Hz");
    for column in columns {
        text = text + apart + &column.name + " " + column.unit;
    }
    for (band, nominal_hz) in NOMINAL_HZ.into_iter().enumerate() {
        text = text + end + &decimal(nominal_hz, 1) + apart + &decimal(exact_mid_hz(band), 2);
        for column in columns {
            text += apart;
            text += &column.values[band].map(tenths).unwrap_or_default();
        }
    }
    text + end
}

/// As a file of values apart by commas (RFC 4180). Nothing that a person has typed is in it, so nothing in it wants quotes, and no
/// spreadsheet finds a formula.
pub fn csv(columns: &[Column]) -> String {
    rows(columns, ",", "\r\n")
}

/// As a spreadsheet takes it from the clipboard: values apart by tabs.
pub fn tabbed(columns: &[Column]) -> String {
    rows(columns, "\t", "\n")
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use hushwright::design::run_in_box;
    use hushwright::evaluate::evaluate;

    use super::*;
    use crate::charts::lines::{LevelRange, Line};
    use crate::charts::palette::LineInk;

    /// The report of the example and its columns, with a range from 7.25 dB below the level to 4 dB above it, or none.
    fn all(has_range: bool) -> (Report, Vec<Column>) {
        let report = evaluate(&run_in_box().check().expect("an example"));
        let heard = report.decisive().expect("somebody listens");
        let line = |name, db, first_band| Line { name, short: name, db, first_band, ink: LineInk::Black, width: 1.0, dash: None };
        let level = heard.level.level_db;
        let range = LevelRange { of: "listener", low_db: level.map(|db| db - 7.25), high_db: level.map(|db| db + 4.0) };
        let levels = LineChart {
            lines: vec![line("limit", heard.judgement.limit_db, 3), line("listener", level, 0)],
            range: has_range.then_some(range),
            ..LineChart::default()
        };
        let losses = LineChart { lines: vec![line("insertion loss", report.insertion_loss_db, 0)], ..LineChart::default() };
        let columns = columns(&levels, &losses, "listener", &report);
        (report, columns)
    }

    /// Read back by another program's rules, the file holds what the chart was drawn from, to a tenth.
    #[test]
    fn the_file_is_read_back() {
        let (report, columns) = all(true);
        let text = csv(&columns);
        assert!(text.is_ascii() && text.lines().count() == BAND_COUNT + 1 && text.matches("\r\n").count() == BAND_COUNT + 1);
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let heads: Vec<String> = reader.headers().expect("heads").iter().map(str::to_owned).collect();
        assert_eq!(heads[..5], ["nominal band Hz", "exact mid-band Hz", "limit dB", "listener dB", "listener low dB"]);
        assert_eq!(heads[5..7], ["listener high dB", "insertion loss dB"]);
        assert_eq!(heads[7..].len(), report.paths.len());
        let records: Vec<csv::StringRecord> = reader.records().collect::<Result<_, _>>().expect("a regular file");
        let number = |band: usize, column: usize| -> f64 { records[band][column].parse().expect("a plain number") };
        let level = report.decisive().expect("somebody listens").level.level_db;
        for band in 0..BAND_COUNT {
            assert_eq!(number(band, 0), NOMINAL_HZ[band]);
            assert!((number(band, 1) / NOMINAL_HZ[band] - 1.0).abs() < 0.02, "the exact band is near the nominal one");
            assert_eq!(records[band][2].is_empty(), band < 3, "the limit begins at its first band");
            for (column, db) in [(3, level[band]), (4, level[band] - 7.25), (5, level[band] + 4.0)] {
                assert!((number(band, column) - db).abs() <= 0.0501, "{} in band {band}", heads[column]);
            }
            let shares: f64 = (7..heads.len()).map(|column| number(band, column)).sum();
            assert!((shares - 100.0).abs() < 0.4, "{shares}");
        }
    }

    #[test]
    fn columns_stay_where_no_range_is_known() {
        let (with, without) = (all(true).1, all(false).1);
        let heads = |columns: &[Column]| columns.iter().map(|column| column.name.clone()).collect::<Vec<_>>();
        assert_eq!(heads(&with), heads(&without));
        assert!(without[2].values.iter().all(Option::is_none) && with[2].values.iter().all(Option::is_some));
        let rows: Vec<usize> = csv(&without).lines().map(|row| row.split(',').count()).collect();
        assert!(rows.iter().all(|&count| count == rows[0]), "every row is as long as the first: {rows:?}");
    }

    #[test]
    fn numbers_are_plain_and_what_is_none_is_left_out() {
        assert_eq!((tenths(-0.04), tenths(59.96), tenths(-7.25)), ("0.0".to_owned(), "60.0".to_owned(), "-7.2".to_owned()));
        assert_eq!((shown(Some(-3.12)), shown(None)), ("\u{2212}3.1".to_owned(), "\u{2013}".to_owned()));
        let column = Column::new("room".to_owned(), "dB", |band| Some([1.5, f64::NAN, f64::INFINITY][band.min(2)]));
        assert_eq!((column.values[0], column.values[1], column.values[2]), (Some(1.5), None, None));
        let text = csv(std::slice::from_ref(&column));
        assert!(text.starts_with("nominal band Hz,exact mid-band Hz,room dB\r\n25,25.12,1.5\r\n31.5,31.62,\r\n"), "{text}");
        assert!(tabbed(&[column]).contains("\n25\t25.12\t1.5\n"));
    }
}
