//! Band values as people have them: octaves or thirds, typed or pasted.

use std::cmp::Ordering;
use std::fmt::Write;

use crate::bands::{BAND_COUNT, NOMINAL_HZ, Spectrum, band_index};
use crate::error::harmless;
use crate::math::to_db;
use crate::number;

/// Values by nominal mid-band frequency: (Hz, dB), rising in frequency.
pub type BandValues = Vec<(f64, f64)>;

/// Level in dB of a band in which nothing was given: no sound to speak of.
pub const NOTHING_DB: f64 = -60.0;

/// Longest text that is read, in bytes.
const LONGEST: usize = 4000;
/// What a value in dB may be at all; the document's own ranges are narrower.
const VALUES_DB: std::ops::RangeInclusive<f64> = -200.0..=200.0;
/// Most characters of a person's text that a message repeats.
const QUOTED: usize = 20;

/// Units that may stand behind numbers, those of weighted levels so that they can be refused by name.
const UNITS: [&str; 10] = ["hz", "khz", "k", "db", "dba", "dbc", "db(a)", "db(c)", "(a)", "(c)"];

/// What bands are given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grid {
    /// Octaves: each value stands for three thirds.
    Octaves,
    /// Thirds.
    Thirds,
}

impl Grid {
    /// Bands from one of its values to the next.
    const fn step(self) -> usize {
        match self {
            Self::Octaves => 3,
            Self::Thirds => 1,
        }
    }
}

/// What a text holds: a number of a line, counted from nought, with frequency in Hz and value in dB.
type Read = (usize, (f64, f64));

/// Checks band values of a document and says what they are: octaves if every frequency is one of an octave and none is
/// missing between, else thirds. One value alone is an octave's where it can be.
///
/// # Errors
/// What is allowed and why, in one line.
pub fn check_bands(values: &[(f64, f64)], (low_db, high_db): (f64, f64)) -> Result<Grid, String> {
    let mut bands = Vec::with_capacity(values.len());
    for &(hz, db) in values {
        let Some(band) = band_index(hz) else { return Err(format!("{hz} Hz is no octave or third: {}", nearest(hz))) };
        if !(low_db..=high_db).contains(&db) {
            return Err(format!("at {hz} Hz allowed is {low_db} to {high_db} dB"));
        }
        if bands.last().is_some_and(|last| *last >= band) {
            return Err(format!("{hz} Hz is out of order or there twice: bands rise"));
        }
        bands.push(band);
    }
    let (Some(first), Some(last)) = (bands.first(), bands.last()) else {
        return Err("at least one band is needed, such as 125 62".to_owned());
    };
    let grid = if bands.iter().all(|band| band % 3 == 1) { Grid::Octaves } else { Grid::Thirds };
    let missing = (*first..=*last).step_by(grid.step()).find(|band| !bands.contains(band));
    missing.map_or(Ok(grid), |band| {
        Err(format!("{} Hz is missing: every band between the first and the last is needed", NOMINAL_HZ[band]))
    })
}

/// Levels by thirds: an octave's energy is shared evenly by its three; bands that are not given carry [`NOTHING_DB`].
pub fn levels_by_thirds(values: &[(f64, f64)], grid: Grid) -> Spectrum {
    let mut levels = Spectrum::constant(NOTHING_DB);
    for &(hz, db) in values {
        let Some(band) = band_index(hz) else { continue };
        match grid {
            Grid::Thirds => levels[band] = db,
            Grid::Octaves => levels.0[band - 1..=band + 1].fill(db - to_db(3.0)),
        }
    }
    levels
}

/// Indices by thirds, such as R: an octave's value holds for its three; beyond the ends the end values hold.
pub fn indices_by_thirds(values: &[(f64, f64)], grid: Grid) -> Spectrum {
    let half = grid.step() / 2;
    let mut given = values.iter().filter_map(|&(hz, db)| Some((band_index(hz)? + half, db))).peekable();
    let mut value = values.first().map_or(0.0, |(_, db)| *db);
    Spectrum::from_fn(|band| {
        // A value holds up to the last band that is its own.
        while let Some(&(last, db)) = given.peek() {
            value = db;
            if last >= band {
                break;
            }
            given.next();
        }
        value
    })
}

/// Band values as text, one band a line.
pub fn write_bands(values: &[(f64, f64)]) -> String {
    let mut text = String::new();
    for (hz, db) in values {
        // A string takes everything.
        let _ = writeln!(text, "{hz} {db}");
    }
    text
}

/// Reads band values that were typed or pasted: a frequency and a value on each line, or the frequencies on one line and the
/// values on the next.
///
/// Tabs, semicolons, spaces, commas, colons or bars part the two; decimals have a point or a comma. A comma between digits is taken the
/// way that gives a nominal band. Hz, kHz and dB may stand behind numbers. Lines without any digit at the top are a heading, and
/// so are words in front of two rows.
///
/// # Errors
/// What is wrong, in one line that begins with the number of the line: `Line 3: ...`.
pub fn read_bands(text: &str) -> Result<BandValues, String> {
    if text.len() > LONGEST {
        return Err(format!("Line 1: the text is longer than {LONGEST} characters, which no list of bands is"));
    }
    let mut lines: Vec<(usize, &str)> =
        text.lines().map(|line| line.trim_matches(blank)).enumerate().filter(|(_, line)| !line.is_empty()).collect();
    let heading = lines.iter().take_while(|(_, line)| !line.contains(|c: char| c.is_ascii_digit())).count();
    lines.drain(..heading.min(lines.len()));
    if let [(first, frequencies), (second, values)] = &lines[..]
        && let Some(pairs) = two_rows((*first, frequencies), (*second, values))?
    {
        return sorted(pairs);
    }
    if lines.is_empty() {
        return Err("Line 1: a frequency and a value belong here, such as 125 62".to_owned());
    }
    let pairs: Result<Vec<_>, String> = lines.iter().map(|&(at, line)| Ok((at, pair(at, line)?))).collect();
    sorted(pairs?)
}

/// A blank: what parts numbers and never belongs to one.
fn blank(character: char) -> bool {
    character.is_whitespace() || matches!(character, '\u{feff}' | ':' | '=' | '|')
}

/// The message about line `at`, counted from nought.
fn said<T>(at: usize, message: &str) -> Result<T, String> {
    Err(format!("Line {}: {message}", at + 1))
}

/// In rising order; a band that is there twice is named.
fn sorted(mut pairs: Vec<Read>) -> Result<BandValues, String> {
    pairs.sort_by(|(_, (a, _)), (_, (b, _))| a.partial_cmp(b).unwrap_or(Ordering::Equal));
    if let Some(twice) = pairs.windows(2).find(|pair| pair[0].1.0 == pair[1].1.0) {
        return said(twice[1].0, &format!("{} Hz is there twice", twice[1].1.0));
    }
    Ok(pairs.into_iter().map(|(_, pair)| pair).collect())
}

/// Frequencies on one line and as many values on the next, if that is what these two are.
fn two_rows(first: (usize, &str), second: (usize, &str)) -> Result<Option<Vec<Read>>, String> {
    let row = |line: &str| {
        let mut row = parts(line);
        if row.first().is_some_and(|head| !head.contains(|c: char| c.is_ascii_digit())) {
            row.remove(0);
        }
        row
    };
    let (frequencies, values) = (row(first.1), row(second.1));
    if frequencies.len() < 3 || frequencies.len() != values.len() {
        return Ok(None);
    }
    let one = |(frequency, value): (&String, &String)| Ok((first.0, (hertz(first.0, frequency)?, decibels(second.0, value)?)));
    frequencies.iter().zip(&values).map(one).collect::<Result<_, String>>().map(Some)
}

/// The numbers of a line with their units, parted by tabs, semicolons, or else blanks; commas stay in them.
fn parts(line: &str) -> Vec<String> {
    let strong = |character: char| character == '\t' || character == ';';
    let line = line.trim_matches(strong);
    let pieces: Vec<&str> = if line.contains(strong) { line.split(strong).collect() } else { line.split(blank).collect() };
    let mut parts: Vec<String> = Vec::new();
    for piece in pieces.into_iter().map(|piece| piece.trim_matches(blank)).filter(|piece| !piece.is_empty()) {
        // A unit after a blank belongs to the number before it.
        match parts.last_mut() {
            Some(last) if UNITS.iter().any(|unit| piece.eq_ignore_ascii_case(unit)) => last.push_str(piece),
            _ => parts.push(piece.to_owned()),
        }
    }
    parts
}

/// Frequency and value of a line.
fn pair(at: usize, line: &str) -> Result<(f64, f64), String> {
    let parts = parts(line);
    // A comma behind a number that is followed by a blank only parts.
    let trimmed: Vec<&str> = parts.iter().map(|part| part.trim_end_matches(',')).filter(|part| !part.is_empty()).collect();
    match trimmed[..] {
        [frequency, value] => Ok((hertz(at, frequency)?, decibels(at, value)?)),
        [both] if both.contains(',') => by_commas(at, both),
        [_] => said(at, "a frequency and a value belong on a line, such as 125 62"),
        _ => said(at, "no more than a frequency and a value belong on a line"),
    }
}

/// Frequency and value with nothing but commas between: the comma that parts them is the first behind which a nominal band
/// stands in front and a number behind.
fn by_commas(at: usize, text: &str) -> Result<(f64, f64), String> {
    let splits = text.match_indices(',').map(|(place, _)| (&text[..place], &text[place + 1..]));
    // A frequency with a decimal comma is longer, and the better reading where both are bands.
    let mut readings =
        splits.filter(|(front, behind)| hertz(at, front).is_ok() && decibels(at, behind).is_ok()).collect::<Vec<_>>();
    let (front, behind) = match (readings.pop(), text.split_once(',')) {
        (Some(reading), _) | (None, Some(reading)) => reading,
        (None, None) => (text, ""),
    };
    Ok((hertz(at, front)?, decibels(at, behind)?))
}

/// A nominal mid-band frequency in Hz.
fn hertz(at: usize, text: &str) -> Result<f64, String> {
    let lower = text.to_ascii_lowercase();
    let plain = lower.trim_end_matches("hz").trim_end_matches(blank);
    let (plain, scale) = plain.strip_suffix('k').map_or((plain, 1.0), |plain| (plain.trim_end_matches(blank), 1000.0));
    let Some(value) = plain_number(plain) else {
        return said(at, &format!("“{}” is no frequency such as 125", quoted(text)));
    };
    let hz = scale * value;
    match band_index(hz) {
        Some(band) => Ok(NOMINAL_HZ[band]),
        None => said(at, &format!("“{}” is no octave or third: {}", quoted(text), nearest(hz))),
    }
}

/// A value in dB.
fn decibels(at: usize, text: &str) -> Result<f64, String> {
    let lower = text.to_ascii_lowercase();
    if ["dba", "db(a)", "db (a)", "dbc", "db(c)"].iter().any(|sign| lower.ends_with(sign)) {
        return said(at, &format!("“{}” is weighted; band levels are taken without weighting, in dB", quoted(text)));
    }
    let plain = lower.trim_end_matches("db").trim_end_matches(blank);
    match plain_number(plain) {
        Some(value) if VALUES_DB.contains(&value) => Ok(value),
        Some(_) => said(at, &format!("“{}” dB is out of all range, -200 to 200 dB", quoted(text))),
        None => said(at, &format!("“{}” is no number", quoted(text))),
    }
}

/// A number with a decimal point or comma and any minus.
fn plain_number(text: &str) -> Option<f64> {
    number::parse(&text.replace(',', ".").replace(['\u{2212}', '\u{2013}'], "-"))
}

/// Names the band nearest to `hz`, or all of them where it lies beyond.
fn nearest(hz: f64) -> String {
    if !(22.0..=11_500.0).contains(&hz) {
        return "bands go from 25 to 10000 Hz".to_owned();
    }
    let apart = |own: &f64| (crate::math::ln(own / hz)).abs();
    let band = (0..BAND_COUNT).min_by(|&a, &b| apart(&NOMINAL_HZ[a]).total_cmp(&apart(&NOMINAL_HZ[b]))).unwrap_or(0);
    format!("the nearest is {} Hz", NOMINAL_HZ[band])
}

/// A person's text, cut short and without anything that could disturb a message.
fn quoted(text: &str) -> String {
    harmless(text, QUOTED)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_usual_ways_to_write_a_band_are_read() {
        for text in [
            "125 62.5",
            "125\t62.5",
            "125;62,5",
            "125; 62.5",
            "125,62.5",
            "125,62,5",
            "125, 62.5",
            "125 62,5",
            "125 Hz 62.5 dB",
            "125Hz;62.5dB",
            "0.125k 62.5",
            "0,125 kHz 62,5 dB",
            "  125\u{a0}62.5  ",
            "\u{feff}125 62.5\r",
            "Hz dB\n125 62.5",
            "f;L\n\n125;62,5\n",
            "125: 62.5",
            "125 = 62.5 dB",
            "| 125 | 62.5 |",
            "125 62.5;",
            "125;62,5;",
        ] {
            assert_eq!(read_bands(text), Ok(vec![(125.0, 62.5)]), "{text:?}");
        }
        for (text, pair) in [
            ("31,5,72", (31.5, 72.0)),
            ("31,5,72,4", (31.5, 72.4)),
            ("31.5,72", (31.5, 72.0)),
            ("31,5 72,4", (31.5, 72.4)),
            ("1k 60", (1000.0, 60.0)),
            ("1,6 kHz; 55 dB", (1600.0, 55.0)),
            ("1.25k\t-3", (1250.0, -3.0)),
            ("1,25,3", (1.25e3, 3.0)),
            ("8000 \u{2212}12,5", (8000.0, -12.5)),
        ] {
            let read = read_bands(text);
            if text == "1,25,3" {
                assert!(read.is_err(), "no band is at 1 or 1.25 Hz");
            } else {
                assert_eq!(read, Ok(vec![pair]), "{text:?}");
            }
        }
    }

    #[test]
    fn columns_rows_and_any_order_come_out_rising() {
        let thirds = vec![(63.0, 70.0), (125.0, 72.5), (250.0, 71.0), (500.0, 60.0)];
        for text in [
            "63 70\n125 72.5\n250 71\n500 60",
            "500\t60\n250\t71\n125\t72,5\n63\t70\n",
            "63;125;250;500\n70;72,5;71;60",
            "63\t125\t250\t500\r\n70\t72.5\t71\t60\r\n",
            "63 Hz 125 Hz 250 Hz 500 Hz\n70 dB 72.5 dB 71 dB 60 dB",
            "Hz\t63\t125\t250\t500\r\ndB\t70\t72,5\t71\t60",
            "\t63\t125\t250\t500\r\nL\t70\t72,5\t71\t60",
            "Frequency and level\n63,70\n125,72.5\n250,71\n500,60",
        ] {
            assert_eq!(read_bands(text), Ok(thirds.clone()), "{text:?}");
        }
    }

    #[test]
    fn the_line_is_named_with_what_is_wrong_there() {
        for (text, line, what) in [
            ("", 1, "belong here"),
            ("hello", 1, "belong here"),
            ("125 60\n\n240 61", 3, "nearest is 250 Hz"),
            ("125 60\n250", 2, "a frequency and a value"),
            ("125 60 3\n250 3", 1, "no more than"),
            ("125 60\n125 61", 2, "twice"),
            ("125 loud", 1, "“loud” is no number"),
            ("125;loud", 1, "“loud” is no number"),
            ("125 62 dB (A)", 1, "weighted"),
            ("125 60\n250 6x", 2, "“6x” is no number"),
            ("125 62 dB(A)", 1, "weighted"),
            ("125 62dBA", 1, "weighted"),
            ("125 999", 1, "-200 to 200"),
            ("125 1e9", 1, "no number"),
            ("1000000 50", 1, "bands go from 25 to 10000 Hz"),
            ("12500 50", 1, "bands go from 25 to 10000 Hz"),
            ("-5 50", 1, "bands go from 25 to 10000 Hz"),
            ("20 50", 1, "bands go from 25 to 10000 Hz"),
            ("24 50", 1, "nearest is 25 Hz"),
        ] {
            let message = read_bands(text).unwrap_err();
            assert!(message.starts_with(&format!("Line {line}: ")), "{text:?}: {message}");
            assert!(message.contains(what), "{text:?}: {message}");
        }
        assert!(read_bands(&"125 60\n".repeat(1000)).unwrap_err().contains("longer than"));
        let message = read_bands(&format!("125 {}\u{202e}\u{61c}\u{7}9", "x".repeat(10))).unwrap_err();
        assert!(message.chars().count() < 80 && !message.contains(['\u{202e}', '\u{61c}', '\u{7}']), "{message:?}");
    }

    #[test]
    fn octaves_and_thirds_are_told_apart() {
        let range = (-50.0, 170.0);
        let at = |hz: &[f64]| hz.iter().map(|hz| (*hz, 60.0)).collect::<Vec<_>>();
        assert_eq!(check_bands(&at(&[125.0, 250.0, 500.0]), range), Ok(Grid::Octaves));
        assert_eq!(check_bands(&at(&[125.0]), range), Ok(Grid::Octaves));
        assert_eq!(check_bands(&at(&[100.0, 125.0, 160.0]), range), Ok(Grid::Thirds));
        assert_eq!(check_bands(&at(&[100.0]), range), Ok(Grid::Thirds));
        for (hz, what) in [
            (vec![], "at least one"),
            (vec![125.0, 500.0], "250 Hz is missing"),
            (vec![100.0, 160.0], "125 Hz is missing"),
            (vec![100.0, 125.0, 250.0], "160 Hz is missing"),
            (vec![250.0, 125.0], "out of order"),
            (vec![125.0, 125.0], "twice"),
            (vec![130.0], "nearest is 125 Hz"),
            (vec![f64::NAN], "no octave or third"),
        ] {
            let message = check_bands(&at(&hz), range).unwrap_err();
            assert!(message.contains(what), "{hz:?}: {message}");
        }
        for bad in [f64::NAN, f64::INFINITY, 171.0, -50.5] {
            assert!(check_bands(&[(125.0, bad)], range).unwrap_err().contains("allowed is -50 to 170 dB"));
        }
    }

    /// The thirds of an octave carry its energy; an index of an octave holds for each of them.
    #[test]
    fn octaves_become_thirds() {
        let values = [(125.0, 70.0), (250.0, 64.0)];
        let levels = levels_by_thirds(&values, Grid::Octaves);
        let octaves = levels.octaves();
        assert!((octaves[2] - 70.0).abs() < 1e-9 && (octaves[3] - 64.0).abs() < 1e-9);
        assert_eq!((levels[5], levels[12]), (NOTHING_DB, NOTHING_DB));
        assert!(levels.energy_sum() < 71.0);
        let indices = indices_by_thirds(&values, Grid::Octaves);
        assert_eq!(indices.0[..9], [70.0; 9]);
        assert_eq!(indices.0[9..], [64.0; 18]);
        let thirds = indices_by_thirds(&[(100.0, 20.0), (125.0, 30.0), (160.0, 40.0)], Grid::Thirds);
        assert_eq!((thirds[0], thirds[6], thirds[7], thirds[8], thirds[26]), (20.0, 20.0, 30.0, 40.0, 40.0));
        assert_eq!(levels_by_thirds(&[(100.0, 20.0)], Grid::Thirds)[6], 20.0);
    }

    #[test]
    fn what_is_written_reads_back() {
        let values = vec![(31.5, 72.25), (63.0, -3.0), (125.0, 0.1 + 0.2)];
        let back = read_bands(&write_bands(&values)).unwrap();
        assert!(back.iter().zip(&values).all(|(a, b)| a.0 == b.0 && (a.1 - b.1).abs() < 1e-12), "{back:?}");
    }
}
