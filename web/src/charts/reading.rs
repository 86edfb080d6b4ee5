//! What a chart says of one band, in words: beside the chart and to a screen reader alike.

use hushwright::bands::NOMINAL_HZ;

use super::lines::{Line, LineChart};
use crate::need_readings::over_or_under;
use crate::quantity::whole;
use crate::readings::frequency;

impl LineChart {
    /// The values of all lines in a band; first that of the line that is judged, with its range, and how it stands against its limit.
    pub fn reading(&self, band: usize) -> String {
        let range = self.range.as_ref();
        let first = self.judged.as_ref().map(|judged| judged.level).or(range.map(|range| range.of));
        let mut parts = Vec::new();
        let mut told = Vec::new();
        if let Some(line) = first.and_then(|name| self.line(name)) {
            told.push(line.name);
            parts.push(format!("{} {} dB", line.name, whole(line.db[band])));
            if let Some(range) = range.filter(|range| range.of == line.name) {
                parts.push(format!("in 8 of 10 cases {} to {}", whole(range.low_db[band]), whole(range.high_db[band])));
            }
            if let Some(judged) = &self.judged
                && let Some(limit) = self.line(judged.limit)
                && let Some(limit_db) = limit.at(band)
            {
                told.push(limit.name);
                let limit = whole(limit_db);
                parts.push(match &judged.of_octave_db {
                    Some(margin_db) => format!("limit {limit}, its octave {} its limit", over_or_under(margin_db[band].round())),
                    // The difference of the numbers that are told, so that nobody finds it wrong.
                    None => format!("{} the limit of {limit}", over_or_under(limit_db.round() - line.db[band].round())),
                });
            }
        }
        let rest = self.lines.iter().filter(|line| !told.contains(&line.name));
        let value = |line: &Line| format!("{} {}", line.name, line.at(band).map_or_else(|| "\u{2013}".to_owned(), whole));
        let rest = rest.map(value).collect::<Vec<_>>().join(", ");
        let first = parts.join(", ");
        let frequency = frequency(NOMINAL_HZ[band]);
        if first.is_empty() {
            format!("{frequency}: {rest} dB")
        } else if rest.is_empty() {
            format!("{frequency}: {first}")
        } else {
            format!("{frequency}: {first}; {rest} dB")
        }
    }
}

#[cfg(test)]
mod tests {
    use hushwright::bands::Spectrum;

    use super::*;
    use crate::charts::lines::{Judged, LevelRange};
    use crate::charts::palette::LineInk;

    fn line(name: &'static str, db: f64, first_band: usize) -> Line {
        let db = Spectrum::constant(db);
        Line { name, short: name, db, first_band, ink: LineInk::Black, width: 1.0, dash: None }
    }

    fn chart(level_db: f64, limit_db: f64) -> LineChart {
        LineChart {
            lines: vec![line("source", 91.6, 0), line("limit", limit_db, 4), line("listener", level_db, 0)],
            range: Some(LevelRange {
                of: "listener",
                low_db: Spectrum::constant(level_db - 9.0),
                high_db: Spectrum::constant(level_db + 7.2),
            }),
            judged: Some(Judged { level: "listener", limit: "limit", of_octave_db: None }),
            ..LineChart::default()
        }
    }

    #[test]
    fn all_lines_range_and_limit_are_read() {
        let words = chart(59.4, 28.6).reading(8);
        assert_eq!(words, "160 Hz: listener 59 dB, in 8 of 10 cases 50 to 67, 30 dB over the limit of 29; source 92 dB");
        assert!(chart(20.0, 28.6).reading(8).contains(", 9 dB under the limit of 29;"));
        assert!(chart(28.6, 29.4).reading(8).contains(", just at the limit of 29;"), "as the numbers shown say");
        let below_the_first = chart(59.4, 28.6).reading(2);
        assert_eq!(below_the_first, "40 Hz: listener 59 dB, in 8 of 10 cases 50 to 67; source 92, limit \u{2013} dB");
    }

    #[test]
    fn octaves_are_judged_by_octaves() {
        let mut chart = chart(59.4, 28.6);
        chart.judged = Some(Judged { of_octave_db: Some(Spectrum::constant(-3.3)), ..chart.judged.expect("judged") });
        assert!(chart.reading(8).contains(", limit 29, its octave 3 dB over its limit;"), "{}", chart.reading(8));
    }

    #[test]
    fn without_a_listener_the_range_leads_and_without_either_all_are_alike() {
        let mut chart = chart(59.4, 28.6);
        chart.judged = None;
        chart.lines.remove(1);
        assert_eq!(chart.reading(16), "1 kHz: listener 59 dB, in 8 of 10 cases 50 to 67; source 92 dB");
        chart.range = None;
        assert_eq!(chart.reading(16), "1 kHz: source 92, listener 59 dB");
    }
}
