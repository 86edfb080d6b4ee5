//! Values by band as people type or paste them: octaves or thirds, to and from text, and onto the 27 thirds.

use std::fmt::Write;

use crate::bands::{BAND_COUNT, NOMINAL_HZ, Spectrum, band_index, band_position};
use crate::math::to_db;
use crate::number;

/// (nominal mid-band frequency in Hz, value in dB), rising in frequency.
pub type BandValues = Vec<(f64, f64)>;

/// Level in dB of a band that was not given: nothing that anybody hears or that adds to anything.
pub const NOTHING_DB: f64 = -60.0;

/// Most characters of a pasted text: 27 bands with units and a heading take a tenth of it.
const MOST_CHARACTERS: usize = 4000;
/// Most lines of a pasted text.
const MOST_LINES: usize = 200;

/// Most characters that a message quotes.
const MOST_QUOTED: usize = 20;
/// Values in dB that text may hold; what they stand for narrows it further.
const TEXT_RANGE_DB: (f64, f64) = (-100.0, 200.0);

/// What every message about a line that is no band ends with.
const HOW: &str = "a line is a frequency and its value, such as “125 62.5”";
/// Why a value with a frequency weighting is refused.
const WEIGHTED: &str = "weighted levels are not allowed: band levels are entered unweighted, in dB";

/// Nominal bands in Hz that meters give and the model has not (IEC 61260-1): lines of them are left out.
const BEYOND_HZ: [f64; 9] = [10.0, 12.5, 16.0, 20.0, 12500.0, 16000.0, 20000.0, 25000.0, 31500.0];

/// What the bands of some values are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grid {
    /// Octaves, nominal 31.5 Hz to 8 kHz.
    Octaves,
    /// One-third octaves, nominal 25 Hz to 10 kHz.
    Thirds,
}

impl Grid {
    /// Thirds of a band on each side of its middle one.
    fn thirds_beside(self) -> usize {
        match self {
            Self::Octaves => 1,
            Self::Thirds => 0,
        }
    }
}

/// One line of text: its numbers, and what stands before the first.
struct Line<'a> {
    /// Counted from one.
    at: usize,
    label: &'a str,
    cells: Vec<Cell<'a>>,
}

/// A number as it is written, and the words behind it.
struct Cell<'a> {
    /// Digits, signs, points and commas.
    number: &'a str,
    unit: &'a str,
}

/// Characters of which numbers are made.
fn is_numeral(c: char) -> bool {
    matches!(c, '0'..='9' | '.' | ',' | '+' | '-')
}

/// Where in `text` the first number begins: it is a word of its own or the beginning of one.
fn next_number(text: &str, mut word_begins: bool) -> usize {
    for (at, c) in text.char_indices() {
        if word_begins && is_numeral(c) {
            return at;
        }
        word_begins = c.is_whitespace();
    }
    text.len()
}

impl<'a> Line<'a> {
    /// Splits a line in which [`spaced`] has told separators from decimal marks.
    fn split(at: usize, text: &'a str) -> Self {
        let (label, mut rest) = text.split_at(next_number(text, true));
        let mut cells = Vec::new();
        while !rest.is_empty() {
            let (number, behind) = rest.split_at(rest.find(|c| !is_numeral(c)).unwrap_or(rest.len()));
            let (unit, next) = behind.split_at(next_number(behind, false));
            cells.push(Cell { number, unit: unit.trim() });
            rest = next;
        }
        Self { at, label: label.trim(), cells }
    }

    /// Band, if it is one of ours, and value of a line that is one band.
    fn band_and_value(&self) -> Result<(Option<usize>, f64), String> {
        match &self.cells[..] {
            _ if !self.label.is_empty() => Err(no_number(self.label)),
            [only] => only.split_at_comma(),
            [frequency, value] => Ok((frequency.band()?, value.value_db()?)),
            cells => Err(too_many(cells.len())),
        }
    }
}

impl Cell<'_> {
    /// Whether what stands behind the number is one of these, brackets and case aside.
    fn unit_is(&self, units: &[&str]) -> bool {
        let unit = self.unit.trim_matches(['(', ')', '[', ']']);
        units.iter().any(|known| known.eq_ignore_ascii_case(unit))
    }

    fn wrong_unit(&self) -> String {
        format!("{} cannot stand there: Hz or kHz may stand behind a frequency, dB behind its value", quote(self.unit))
    }

    /// Index of the band with this nominal frequency, none if it is one beyond ours; a comma or point may group its thousands
    /// (1,000).
    fn band(&self) -> Result<Option<usize>, String> {
        let (factor, unit) = match () {
            () if self.unit_is(&["", "Hz"]) => (1.0, "Hz"),
            () if self.unit_is(&["k", "kHz"]) => (1000.0, "kHz"),
            () => return Err(self.wrong_unit()),
        };
        let hz = factor * decimal(self.number).ok_or_else(|| no_number(self.number))?;
        let grouped = || {
            let (thousands, rest) = self.number.split_once([',', '.'])?;
            if rest.len() == 3 { Some(1000.0 * decimal(thousands)? + decimal(rest)?) } else { None }
        };
        let readings = || [Some(hz), grouped()].into_iter().flatten();
        match readings().find_map(band_index) {
            Some(band) => Ok(Some(band)),
            None if readings().any(|hz| BEYOND_HZ.contains(&hz)) => Ok(None),
            None => Err(no_band(&format!("{} {unit}", cut(self.number)), hz)),
        }
    }

    /// The value in dB.
    fn value_db(&self) -> Result<f64, String> {
        if is_weighted(self.unit) {
            return Err(WEIGHTED.to_owned());
        }
        if !self.unit_is(&["", "dB", "dBZ", "dB(Z"]) {
            return Err(self.wrong_unit());
        }
        let value = decimal(self.number).ok_or_else(|| no_number(self.number))?;
        let (low, high) = TEXT_RANGE_DB;
        if (low..=high).contains(&value) {
            return Ok(value);
        }
        Err(format!(
            "{} dB is out of range: allowed is {low} to {high} dB, beyond which there is no sound and no wall",
            cut(self.number)
        ))
    }

    /// Band and value with only a comma between them: the comma that leaves a nominal frequency before it and one number
    /// behind it.
    fn split_at_comma(&self) -> Result<(Option<usize>, f64), String> {
        let (mut found, mut refused) = (None, None);
        for (at, _) in self.number.match_indices(',') {
            let frequency = Cell { number: &self.number[..at], unit: "" };
            let value = Cell { number: &self.number[at + 1..], unit: self.unit };
            if decimal(frequency.number).is_none() || decimal(value.number).is_none() {
                continue;
            }
            match frequency.band() {
                // One of ours is the better reading where the other lies beyond: 12,5,62 can be no band of 12 Hz.
                Ok(None) if found.is_some() => {}
                Ok(Some(_)) if found.as_ref().is_some_and(|(band, _): &(Option<usize>, Cell)| band.is_some()) => {
                    return Err(format!(
                        "{} can be read in two ways: put a semicolon between frequency and value",
                        quote(self.number)
                    ));
                }
                Ok(band) => found = Some((band, value)),
                Err(message) => refused = refused.or(Some(message)),
            }
        }
        match (found, refused) {
            (Some((band, value)), _) => Ok((band, value.value_db()?)),
            (None, Some(message)) if self.band().is_err() => Err(message),
            _ if !self.unit_is(&["", "Hz", "k", "kHz", "dB", "dBZ", "dB(Z"]) && !is_weighted(self.unit) => {
                Err(no_number(self.unit))
            }
            _ if decimal(self.number).is_some() => Err(format!("only one number: {HOW}")),
            _ if self.number.split(',').all(|part| decimal(part).is_some()) => Err(too_many(self.number.split(',').count())),
            _ => Err(no_number(self.number)),
        }
    }
}

/// A number with a decimal point or comma.
fn decimal(text: &str) -> Option<f64> {
    // A comma in front may as well part it from what is missing.
    if text.starts_with(',') { None } else { number::parse(&text.replace(',', ".")) }
}

/// Whether words say that values are A- or C-weighted: dBA, dB(A), dB (A), LAeq.
fn is_weighted(words: &str) -> bool {
    let words = words.to_ascii_lowercase();
    let weights = |behind: &str| {
        let mut letters = behind.trim_start().strip_prefix(['(', '[']).unwrap_or(behind).chars();
        matches!(letters.next(), Some('a' | 'c')) && !letters.next().is_some_and(|c| c.is_ascii_alphanumeric())
    };
    words.contains("laeq") || words.split("db").skip(1).any(weights)
}

/// `text` for a message: short, and without characters that would act on the page.
fn cut(text: &str) -> String {
    let mut short = String::new();
    for (count, c) in text.chars().enumerate() {
        if count == MOST_QUOTED {
            short.push('…');
            break;
        }
        let acts = c.is_control() || matches!(c, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}');
        short.push(if acts { char::REPLACEMENT_CHARACTER } else { c });
    }
    short
}

fn quote(text: &str) -> String {
    format!("“{}”", cut(text))
}

fn no_number(text: &str) -> String {
    format!("{} is no number: {HOW}", quote(text))
}

fn too_many(count: usize) -> String {
    format!("{count} numbers: {HOW}; or all frequencies stand in one line and all values in the next")
}

/// Why `hz`, written as `text`, is refused.
fn no_band(text: &str, hz: f64) -> String {
    let band = band_position(hz.clamp(NOMINAL_HZ[0], NOMINAL_HZ[BAND_COUNT - 1])).round() as usize;
    format!(
        "{text} is no nominal frequency of octaves or thirds from 25 Hz to 10 kHz; the nearest is {} Hz",
        NOMINAL_HZ[band.min(BAND_COUNT - 1)]
    )
}

/// A line whose separators are blanks, between cells a tab; a comma stays where it may be a decimal mark, that is before a digit.
fn spaced(line: &str) -> String {
    let mut text = String::with_capacity(line.len());
    let mut chars = line.chars().peekable();
    let mut last = ' ';
    while let Some(c) = chars.next() {
        let parts = match c {
            ':' | '=' | '|' | '\u{feff}' => true,
            ',' => last.is_ascii_alphabetic() || last == ')' || !chars.peek().is_some_and(char::is_ascii_digit),
            _ => false,
        };
        text.push(match c {
            _ if parts => ' ',
            ';' => '\t',
            // A minus sign and an en dash, as typeset tables have them.
            '\u{2212}' | '\u{2013}' => '-',
            other => other,
        });
        last = c;
    }
    text
}

/// Reads pasted text: one band a line, or all frequencies in one line and all values in the next.
///
/// Numbers have a decimal point or comma; tabs, semicolons, spaces, colons, bars or commas part them. Where only commas stand in
/// a line, that one parts which leaves a nominal frequency before it. Hz, kHz, k and dB may stand behind numbers. One line
/// without any number may stand at the top. Bands of meters below 25 Hz and above 10 kHz are left out. Two lines are two rows when there are three or more numbers in each; two
/// numbers a line are always a frequency and its value. The bands may come in any order, and bands may be missing: see
/// [`check_bands`].
///
/// # Errors
/// One line for the person, that begins with the number of the line: "Line 3: ...".
pub fn read_bands(text: &str) -> Result<BandValues, String> {
    read_lines(text).map_err(|(line, message)| format!("Line {line}: {message}"))
}

/// [`read_bands`] with the number of the line apart.
fn read_lines(text: &str) -> Result<BandValues, (usize, String)> {
    if let Some((end, _)) = text.char_indices().nth(MOST_CHARACTERS) {
        let message = format!("more than {MOST_CHARACTERS} characters, which no table of {BAND_COUNT} bands needs");
        return Err((text[..end].split('\n').count(), message));
    }
    let texts: Vec<String> = text.lines().map(spaced).collect();
    if texts.len() > MOST_LINES {
        let message = format!("more than {MOST_LINES} lines, which no table of {BAND_COUNT} bands needs");
        return Err((MOST_LINES + 1, message));
    }
    let mut lines = Vec::new();
    let mut heading = None;
    for (index, text) in texts.iter().enumerate() {
        let line = Line::split(index + 1, text);
        if line.cells.is_empty() && line.label.is_empty() {
            continue;
        }
        if lines.is_empty() && heading.is_none() && !text.contains(char::is_numeric) {
            if is_weighted(text) {
                return Err((line.at, WEIGHTED.to_owned()));
            }
            heading = Some(line.at);
        } else {
            lines.push(line);
        }
    }
    let mut found = [None; BAND_COUNT];
    let mut put = |at: usize, band: Option<usize>, value: f64| {
        let Some(band) = band else { return Ok(()) };
        match found[band].replace((value, at)) {
            Some((_, earlier)) => {
                let hz = NOMINAL_HZ[band];
                Err((at, format!("{hz} Hz stands in line {earlier} already: each band has one value")))
            }
            None => Ok(()),
        }
    };
    match &lines[..] {
        [] => return Err((heading.unwrap_or(1), format!("no number: {HOW}"))),
        [frequencies, values] if frequencies.cells.len() > 2 && values.cells.len() > 2 => {
            for row in [frequencies, values] {
                // Else what stands behind it would move to the next frequency.
                if texts[row.at - 1].trim().split('\t').any(|cell| cell.trim().is_empty()) {
                    return Err((row.at, "a cell between others is empty: each band has one value".to_owned()));
                }
            }
            let (count, expected) = (values.cells.len(), frequencies.cells.len());
            if count != expected {
                return Err((values.at, format!("{count} values for the {expected} frequencies of line {}", frequencies.at)));
            }
            if is_weighted(values.label) {
                return Err((values.at, WEIGHTED.to_owned()));
            }
            for (frequency, value) in frequencies.cells.iter().zip(&values.cells) {
                let band = frequency.band().map_err(|message| (frequencies.at, message))?;
                put(frequencies.at, band, value.value_db().map_err(|message| (values.at, message))?)?;
            }
        }
        lines => {
            for line in lines {
                let (band, value) = line.band_and_value().map_err(|message| (line.at, message))?;
                put(line.at, band, value)?;
            }
        }
    }
    let values: BandValues =
        NOMINAL_HZ.into_iter().zip(found).filter_map(|(hz, found)| found.map(|(value, _)| (hz, value))).collect();
    match lines.first() {
        Some(line) if values.is_empty() => Err((line.at, "none of these bands lies between 25 Hz and 10 kHz".to_owned())),
        _ => Ok(values),
    }
}

/// The same as text again, one band a line: "125 62.5".
pub fn write_bands(values: &[(f64, f64)]) -> String {
    let mut text = String::new();
    for (hz, db) in values {
        // A string takes everything.
        let _ = writeln!(text, "{hz} {db}");
    }
    text
}

/// Checks values from a document: nominal octaves or thirds, rising, none missing between, within `range_db`.
///
/// They are octaves when every frequency is one of an octave (one band alone too), else thirds: 125, 250 and 1000 Hz are
/// octaves of which one is missing; 125, 250 and 315 Hz are thirds.
///
/// # Errors
/// What is allowed and why, in one line.
pub fn check_bands(values: &[(f64, f64)], range_db: (f64, f64)) -> Result<Grid, String> {
    let (low, high) = range_db;
    let mut bands = Vec::with_capacity(values.len());
    for &(hz, db) in values {
        if !hz.is_finite() {
            return Err("a frequency is no number; allowed are nominal ones from 25 Hz to 10 kHz".to_owned());
        }
        let band = band_index(hz).ok_or_else(|| no_band(&format!("{} Hz", cut(&hz.to_string())), hz))?;
        if !(low..=high).contains(&db) {
            return Err(format!(
                "at {} Hz allowed is {low} to {high} dB, the range in which such values are met",
                NOMINAL_HZ[band]
            ));
        }
        if let Some(&last) = bands.last()
            && last >= band
        {
            return Err(format!(
                "{} Hz cannot come after {} Hz: frequencies rise, each with one value",
                NOMINAL_HZ[band], NOMINAL_HZ[last]
            ));
        }
        bands.push(band);
    }
    let Some(&lowest) = bands.first() else {
        return Err("at least one octave or third has to be given".to_owned());
    };
    let third = bands.iter().find(|&band| band % 3 != 1);
    let (grid, step) = if third.is_some() { (Grid::Thirds, 1) } else { (Grid::Octaves, 3) };
    match bands.iter().zip((lowest..).step_by(step)).find(|(band, expected)| *band != expected) {
        None => Ok(grid),
        Some((_, missing)) => {
            let missing = NOMINAL_HZ[missing];
            Err(match third {
                Some(&third) => format!(
                    "{missing} Hz is missing: with {} Hz these are thirds, and a third left out between others would be guessed",
                    NOMINAL_HZ[third]
                ),
                None => format!("{missing} Hz is missing: an octave left out between others would be guessed"),
            })
        }
    }
}

/// Levels by thirds: an octave's energy is shared evenly by its thirds; bands not given carry [`NOTHING_DB`].
///
/// `values` are as [`check_bands`] takes them.
pub fn levels_by_thirds(values: &[(f64, f64)], grid: Grid) -> Spectrum {
    let mut levels = Spectrum::constant(NOTHING_DB);
    let beside = grid.thirds_beside();
    let share_db = to_db(2.0 * beside as f64 + 1.0);
    for &(hz, db) in values {
        if let Some(band) = band_index(hz) {
            for third in band.saturating_sub(beside)..=(band + beside).min(BAND_COUNT - 1) {
                levels[third] = db - share_db;
            }
        }
    }
    levels
}

/// Indices such as R or an absorption by thirds: an octave's value holds for its three thirds, and beyond the ends the end
/// values hold.
///
/// `values` are as [`check_bands`] takes them; none at all are 0 everywhere.
pub fn indices_by_thirds(values: &[(f64, f64)], grid: Grid) -> Spectrum {
    let beside = grid.thirds_beside();
    let begins_by = |hz: f64, third: usize| band_index(hz).is_some_and(|band| band <= third + beside);
    let first = values.first().map_or(0.0, |&(_, value)| value);
    Spectrum::from_fn(|third| values.iter().rev().find(|&&(hz, _)| begins_by(hz, third)).map_or(first, |&(_, value)| value))
}
