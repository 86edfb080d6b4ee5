//! Band values as people paste them: what is read, what is refused and why, and how they come onto thirds.

use hushwright::bands::{BAND_COUNT, NOMINAL_HZ, Spectrum, band_index};
use hushwright::need::{
    BandValues, Grid, NOTHING_DB, check_bands, indices_by_thirds, levels_by_thirds, niosh_hours, read_bands, write_bands,
};
use proptest::prelude::*;

const RANGE_DB: (f64, f64) = (-100.0, 200.0);

/// That `text` reads as `expected`.
#[track_caller]
fn reads(text: &str, expected: &[(f64, f64)]) {
    assert_eq!(read_bands(text).as_deref(), Ok(expected), "{text:?}");
}

/// That `text` is refused with a message that begins with `line` and holds `words`.
#[track_caller]
fn refuses(text: &str, line: usize, words: &str) {
    let message = read_bands(text).expect_err(text);
    assert!(message.starts_with(&format!("Line {line}: ")) && message.contains(words), "{text:?}: {message}");
}

#[test]
fn separators_and_decimal_marks() {
    for text in [
        "125 62.5",
        "125\t62.5",
        "125;62.5",
        "125    62.5",
        "  125 \t 62.5  ",
        "125, 62.5",
        "125 , 62.5",
        "125: 62.5",
        "125;62,5",
        "125 62,5",
        "125\t62,5",
        "125,62.5",
        "125,62,5",
        "125.0;62,50",
        "125,62,5;",
        "125 +62.5",
        "125\u{a0}62,5",
        "125\u{2009}62,5",
        "125\u{202f}Hz\u{202f}62,5",
        "\u{feff}125 62.5",
        "125 62.5\r\n",
        "\r\n\r\n125 62.5\r\n\r\n",
    ] {
        reads(text, &[(125.0, 62.5)]);
    }
    reads("31,5\t62,5", &[(31.5, 62.5)]);
    reads("125,62", &[(125.0, 62.0)]);
    reads("31.5,62", &[(31.5, 62.0)]);
    reads("31.5,62,25", &[(31.5, 62.25)]);
    reads("125;-,5", &[(125.0, -0.5)]);
}

#[test]
fn a_comma_parts_where_it_leaves_a_nominal_frequency() {
    reads("31,5,72,4", &[(31.5, 72.4)]);
    reads("125,72,4", &[(125.0, 72.4)]);
    reads("31,5,72", &[(31.5, 72.0)]);
    reads("31,5,72,4 dB", &[(31.5, 72.4)]);
    reads("1,6k,55,5", &[(1600.0, 55.5)]);
    reads("125,-3,5", &[(125.0, -3.5)]);
    reads("1,000,62.5", &[(1000.0, 62.5)]);
    reads("1,000 62.5", &[(1000.0, 62.5)]);
    reads("3.150 62,5", &[(3150.0, 62.5)]);
    refuses("125,0,62", 1, "“125,0,62” can be read in two ways: put a semicolon between");
    refuses("31,5", 1, "only one number");
    refuses("1,6 kHz", 1, "only one number");
    refuses("1,000", 1, "only one number");
    refuses("126,72,4", 1, "nearest is 125 Hz");
    refuses("31,6,72,4", 1, "nearest is 31.5 Hz");
    refuses("1,2,3,4,5", 1, "5 numbers");
}

#[test]
fn units_and_signs() {
    for (text, hz, db) in [
        ("125 Hz 62 dB", 125.0, 62.0),
        ("125Hz,62dB", 125.0, 62.0),
        ("1 kHz 60", 1000.0, 60.0),
        ("1k 60", 1000.0, 60.0),
        ("1.25k 60", 1250.0, 60.0),
        ("3,15K;60", 3150.0, 60.0),
        ("1,6 kHz; 55 dB", 1600.0, 55.0),
        ("0.125 kHz: 55 dB(Z)", 125.0, 55.0),
        ("63 -3.5", 63.0, -3.5),
        ("63 \u{2212}3,5 dB", 63.0, -3.5),
        ("63,\u{2212}3", 63.0, -3.0),
        ("63 (Hz) -3 [dB]", 63.0, -3.0),
        ("63 \u{2013}3,5", 63.0, -3.5),
    ] {
        reads(text, &[(hz, db)]);
    }
    for text in ["1,6 kHz; 55 dB(A)", "125 62 dBA", "125 62 dB (A)", "125;62 db(a)", "125,62 dBA", "125 62 dB(C)"] {
        refuses(text, 1, "band levels are entered unweighted");
    }
    refuses("Hz\tdB(A)\n125\t62", 1, "unweighted");
    refuses("Frequency;L / dB (A)\n125;62", 1, "unweighted");
    refuses("Band LAeq,T\n125;62", 1, "unweighted");
    reads("Hz\tLevel in dB average\n125\t62", &[(125.0, 62.0)]);
    reads("Hz\tdB (all windows shut)\n125\t62", &[(125.0, 62.0)]);
    refuses("Hz 63 125 250\nLevel dBA 1 2 3", 2, "unweighted");
    refuses("62 dB 125 Hz", 1, "“dB” cannot stand there");
    refuses("125 62 Hz", 1, "“Hz” cannot stand there");
    refuses("125 62e1", 1, "“e1” cannot stand there");
    refuses("125 62 63 dB", 1, "3 numbers");
    refuses("125 62 dB?", 1, "“dB?” cannot stand there");
}

#[test]
fn headings_blank_lines_and_order() {
    reads("Frequency (Hz);Level (dB)\n\n63;60\n\n125;62\n", &[(63.0, 60.0), (125.0, 62.0)]);
    reads("\n\nf, L\n63;60", &[(63.0, 60.0)]);
    reads("250 3\n125 2\n63 1", &[(63.0, 1.0), (125.0, 2.0), (250.0, 3.0)]);
    refuses("63 60\nFrequency Level\n125 62", 2, "“Frequency Level” is no number");
    refuses("One\nTwo\n125 62", 2, "“Two” is no number");
    refuses("f1 L1\n125 62", 1, "“f1 L1” is no number");
}

/// Meters give bands that the model has not; their lines are left out, and only those.
#[test]
fn bands_beyond_ours_are_left_out() {
    reads(
        "12.5 70\n16 69\n20 68\n25 67\n31.5 66\n10000 30\n12500 29\n16 kHz 28\n20k 27",
        &[(25.0, 67.0), (31.5, 66.0), (10000.0, 30.0)],
    );
    reads("16;31,5;63;16000\n80;70;60;20", &[(31.5, 70.0), (63.0, 60.0)]);
    reads("12,5,70\n20,68\n25,67\n12500,3", &[(25.0, 67.0)]);
    refuses("16 80\n31.5 loud", 2, "no number");
    refuses("16 80 dBA\n31.5 70", 1, "unweighted");
}

#[test]
fn two_rows_from_a_spreadsheet() {
    let expected = [(31.5, -1.5), (63.0, 2.0), (125.0, 3.0)];
    for text in [
        "31.5\t63\t125\n-1.5\t2\t3",
        "31,5;63;125\r\n\u{2212}1,5;2;3\r\n",
        "31,5 Hz  63 Hz  125 Hz\n\n-1,5 dB  2 dB  3 dB",
        "31.5, 63, 125\n-1.5, 2, 3",
        "Noise of the fan\nHz\t31,5\t63\t125\nLevel in dB\t-1,5\t2\t3",
        "125 63 31.5\n3 2 -1.5",
    ] {
        reads(text, &expected);
    }
    refuses("63\t125\t250\n1\t2\t3\t4", 2, "4 values for the 3 frequencies of line 1");
    refuses("63\t125\t255\n\n1\t2\t3", 1, "255 Hz is no nominal frequency");
    refuses("63\t125\t250\n\n1\t2\t300", 3, "300 dB is out of range");
    refuses("63\t125\t250\t500\n1\t\t3\t4", 2, "a cell between others is empty");
    refuses("63;;250;500\n1;2; ;4", 1, "a cell between others is empty");
    reads("63;125;250;\n1;2;3;;", &[(63.0, 1.0), (125.0, 2.0), (250.0, 3.0)]);
    refuses("63\t125\t63\n1\t2\t3", 1, "63 Hz stands in line 1 already");
    refuses("63 125 250", 1, "3 numbers");
    refuses("63 125 250\n1 2", 1, "3 numbers");
    // Two numbers a line are a band a line, so that a slip in a frequency is not taken for a value.
    reads("63 80\n125 100", &[(63.0, 80.0), (125.0, 100.0)]);
    refuses("63 80\n128 100", 2, "nearest is 125 Hz");
}

#[test]
fn what_is_wrong_is_told_with_its_line() {
    refuses("", 1, "no number");
    refuses(" \r\n\t\n", 1, "no number");
    refuses("\nonly words", 2, "no number: a line is a frequency and its value");
    refuses("63 60\n125", 2, "only one number");
    refuses("63 60\n125 dB", 2, "only one number");
    refuses("63 60\n62 dB", 2, "only one number");
    refuses("63 60\n125 Hz", 2, "only one number");
    refuses("63 60\n125 62 63\n250 61", 2, "3 numbers");
    refuses(
        "63 60\n\n130 62",
        3,
        "130 Hz is no nominal frequency of octaves or thirds from 25 Hz to 10 kHz; the nearest is 125 Hz",
    );
    refuses("16 60", 1, "none of these bands lies between 25 Hz and 10 kHz");
    refuses("17 60", 1, "the nearest is 25 Hz");
    refuses("0 60", 1, "the nearest is 25 Hz");
    refuses("-125 60", 1, "the nearest is 25 Hz");
    refuses("13k 60", 1, "13 kHz is no nominal frequency of octaves or thirds from 25 Hz to 10 kHz; the nearest is 10000 Hz");
    refuses("63 60\n125 62\n63 61", 3, "63 Hz stands in line 1 already");
    refuses("125 62\n250 1\n0.125k 62", 3, "125 Hz stands in line 1 already");
    refuses("125 200.1", 1, "200.1 dB is out of range: allowed is -100 to 200 dB");
    refuses("125 -101", 1, "out of range");
    reads("125 200\n250 -100", &[(125.0, 200.0), (250.0, -100.0)]);
    refuses("63 60\n125 loud", 2, "“loud” is no number");
    refuses("63 60\n125;6x", 2, "“x” cannot stand there");
    refuses("63 60\n125 dBA", 2, "only one number");
    refuses("63 60\n125 -", 2, "“-” is no number");
    refuses("63 60\n125 1-2", 2, "“1-2” is no number");
    refuses("63 60\n125 6.2.5", 2, "“6.2.5” is no number");
    refuses("63 60\n125 ,62", 2, "“,62” is no number");
    refuses("63 60\n125,,62", 2, "“,62” is no number");
    refuses("63 60\n\u{665}\u{666} 7", 2, "is no number");
    refuses("63 60\nabcdefghijklmnopqrstuvwxyz 1 2", 2, "“abcdefghijklmnopqrst\u{2026}” is no number");
    refuses("63 60\n\u{7}\u{202e}x 1 2", 2, "“\u{fffd}\u{fffd}x” is no number");
    refuses(&format!("125 {}", "9".repeat(200)), 1, "99999999999999999999\u{2026} dB is out of range");
    refuses(&format!("{} 60", "9".repeat(200)), 1, "the nearest is 10000 Hz");
    refuses(&format!("125 {}", "9".repeat(400)), 1, "is no number");
}

#[test]
fn too_long_a_text_is_refused_at_once() {
    refuses(&"\n".repeat(201), 201, "more than 200 lines");
    refuses(&format!("63 60\n125 62{}", " ".repeat(4000)), 2, "more than 4000 characters");
    reads(&format!("63 60\n125 62{}", "\n".repeat(198)), &[(63.0, 60.0), (125.0, 62.0)]);
    // Characters, not bytes.
    reads(&format!("63 60{}", "\u{2009}".repeat(3995)), &[(63.0, 60.0)]);
    refuses(&format!("63 60{}", "\u{2009}".repeat(3996)), 1, "more than 4000 characters");
}

#[test]
fn written_values_have_the_digits_they_have() {
    assert_eq!(write_bands(&[(31.5, 62.5), (63.0, 60.0), (125.0, -0.25)]), "31.5 62.5\n63 60\n125 -0.25\n");
    assert_eq!(write_bands(&[]), "");
}

fn bands(hz: &[f64]) -> BandValues {
    hz.iter().map(|&hz| (hz, 60.0)).collect()
}

#[track_caller]
fn unsound(values: &[(f64, f64)], words: &str) {
    let message = check_bands(values, RANGE_DB).expect_err(words);
    assert!(message.contains(words), "{message}");
    assert!(!message.contains("NaN") && !message.contains("inf"), "{message}");
}

#[test]
fn octaves_and_thirds_are_told_apart() {
    let octaves: Vec<f64> = NOMINAL_HZ.into_iter().skip(1).step_by(3).collect();
    assert_eq!(octaves, [31.5, 63.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0]);
    assert_eq!(check_bands(&bands(&octaves), RANGE_DB), Ok(Grid::Octaves));
    assert_eq!(check_bands(&bands(&NOMINAL_HZ), RANGE_DB), Ok(Grid::Thirds));
    assert_eq!(check_bands(&bands(&[125.0]), RANGE_DB), Ok(Grid::Octaves));
    assert_eq!(check_bands(&bands(&[100.0]), RANGE_DB), Ok(Grid::Thirds));
    assert_eq!(check_bands(&bands(&[100.0, 125.0, 160.0]), RANGE_DB), Ok(Grid::Thirds));
    assert_eq!(check_bands(&bands(&[125.0, 250.0]), RANGE_DB), Ok(Grid::Octaves));
    unsound(&bands(&[63.0, 125.0, 500.0, 2000.0]), "250 Hz is missing: an octave");
    unsound(&bands(&[125.0, 250.0, 315.0]), "160 Hz is missing: with 315 Hz these are thirds");
    unsound(&bands(&[50.0, 63.0, 100.0]), "80 Hz is missing");
}

#[test]
fn unsound_values_are_refused() {
    unsound(&[], "at least one");
    unsound(&bands(&[126.0]), "the nearest is 125 Hz");
    unsound(&bands(&[1e300]), "the nearest is 10000 Hz");
    unsound(&bands(&[-1.0]), "the nearest is 25 Hz");
    unsound(&bands(&[125.0, 63.0]), "63 Hz cannot come after 125 Hz");
    unsound(&bands(&[125.0, 125.0]), "125 Hz cannot come after 125 Hz");
    for hz in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        unsound(&bands(&[hz]), "is no number");
        unsound(&[(63.0, 60.0), (125.0, hz)], "at 125 Hz allowed is -100 to 200 dB");
    }
    unsound(&[(63.0, 200.5)], "at 63 Hz allowed is -100 to 200 dB");
    assert_eq!(check_bands(&[(63.0, 0.0)], (0.0, 0.0)), Ok(Grid::Octaves));
}

/// An octave of three equal thirds is 10 lg 3 = 4.771 dB above each.
#[test]
fn an_octave_is_shared_by_its_thirds() {
    let levels = levels_by_thirds(&[(63.0, 70.0), (125.0, 60.0)], Grid::Octaves);
    let expected = Spectrum::from_fn(|third| match third {
        3..=5 => 65.228_787_453,
        6..=8 => 55.228_787_453,
        _ => NOTHING_DB,
    });
    assert!(levels.zip(&expected, |a, b| (a - b).abs()).iter().all(|difference| difference < 1e-8), "{levels:?}");
    let levels = levels_by_thirds(&[(25.0, 70.0), (31.5, 60.0)], Grid::Thirds);
    assert_eq!(levels, Spectrum::from_fn(|third| [70.0, 60.0].get(third).copied().unwrap_or(NOTHING_DB)));
}

#[test]
fn an_index_holds_for_its_thirds_and_beyond_the_ends() {
    let r_db = indices_by_thirds(&[(63.0, 20.0), (125.0, 25.0), (250.0, 30.0)], Grid::Octaves);
    let expected = Spectrum::from_fn(|third| match third {
        0..=5 => 20.0,
        6..=8 => 25.0,
        _ => 30.0,
    });
    assert_eq!(r_db, expected);
    let r_db = indices_by_thirds(&[(100.0, 20.0), (125.0, 25.0), (160.0, 30.0)], Grid::Thirds);
    let expected = Spectrum::from_fn(|third| match third {
        0..=6 => 20.0,
        7 => 25.0,
        _ => 30.0,
    });
    assert_eq!(r_db, expected);
    assert_eq!(indices_by_thirds(&[], Grid::Thirds), Spectrum::constant(0.0));
}

#[test]
fn hours_of_exposure_end_with_the_day() {
    assert_eq!(niosh_hours(80.0), 24.0);
    assert_eq!(niosh_hours(f64::NEG_INFINITY), 24.0);
    assert_eq!(niosh_hours(f64::INFINITY), 0.0);
    assert!(niosh_hours(f64::NAN).is_nan());
    // 8 h times 3 at 3 lg 3/lg 2 = 4.75 dB below 85 dB(A).
    assert!((23.99..24.0).contains(&niosh_hours(85.0 - 4.754)) && niosh_hours(85.0 - 4.756) == 24.0);
}

/// A table that is sound: octaves or thirds without a gap, values in tenths or with as many digits as are read exactly.
fn table() -> impl Strategy<Value = (BandValues, Grid)> {
    let db = prop_oneof![
        (-1000..=2000_i32).prop_map(|tenths| f64::from(tenths) / 10.0),
        (-100_000_000_000_000..=200_000_000_000_000_i64).prop_map(|digits| digits as f64 / 1e12)
    ];
    (any::<bool>(), 0..BAND_COUNT, prop::collection::vec(db, 1..=BAND_COUNT)).prop_map(|(octaves, first, values)| {
        let (first, step) = if octaves { (first / 3 * 3 + 1, 3) } else { (first, 1) };
        let values: BandValues = NOMINAL_HZ.into_iter().skip(first).step_by(step).zip(values).collect();
        let grid = if values.iter().all(|&(hz, _)| band_index(hz).is_some_and(|band| band % 3 == 1)) {
            Grid::Octaves
        } else {
            Grid::Thirds
        };
        (values, grid)
    })
}

/// What holds of any answer: sound values that come back, or one short line with its number and nothing that acts on a page.
fn answer_is_fit(text: &str) -> Result<(), TestCaseError> {
    match read_bands(text) {
        Ok(values) => {
            prop_assert!(!values.is_empty() && values.windows(2).all(|pair| pair[0].0 < pair[1].0));
            for &(hz, db) in &values {
                prop_assert!(NOMINAL_HZ.contains(&hz) && (-100.0..=200.0).contains(&db));
            }
            let _ = check_bands(&values, RANGE_DB);
        }
        Err(message) => {
            let line = message.strip_prefix("Line ").and_then(|rest| rest.split_once(": ")).map(|(line, _)| line.parse());
            prop_assert!(matches!(line, Some(Ok(1_usize..=201))), "{message}");
            prop_assert!(message.chars().count() < 200 && !message.contains(char::is_control), "{message}");
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn written_values_read_back((values, grid) in table()) {
        prop_assert_eq!(check_bands(&values, RANGE_DB), Ok(grid));
        prop_assert_eq!(read_bands(&write_bands(&values)), Ok(values));
    }

    /// Every decimal mark, separator, unit, order and layout says the same.
    #[test]
    fn however_it_is_written(
        (values, _) in table(),
        comma in any::<bool>(),
        (separator, end) in (prop::sample::select(vec![" ", "\t", ";", "; ", "   ", "\u{a0}"]), prop::sample::select(vec!["\n", "\r\n", "\n\n"])),
        (hz_unit, db_unit) in (prop::sample::select(vec!["", "Hz", " Hz", "\u{202f}Hz"]), prop::sample::select(vec!["", "dB", " dB"])),
        (heading, falling, rows) in any::<(bool, bool, bool)>(),
    ) {
        let mark = |number: f64| if comma { number.to_string().replace('.', ",") } else { number.to_string() };
        let mut cells: Vec<[String; 2]> =
            values.iter().map(|&(hz, db)| [mark(hz) + hz_unit, mark(db).replace('-', "\u{2212}") + db_unit]).collect();
        if falling {
            cells.reverse();
        }
        let mut lines: Vec<String> = if rows && cells.len() > 2 {
            [0, 1].map(|row| cells.iter().map(|cell| cell[row].clone()).collect::<Vec<_>>().join(separator)).to_vec()
        } else {
            cells.iter().map(|cell| cell.join(separator)).collect()
        };
        if heading {
            lines.insert(0, "Frequency; Level".to_owned());
        }
        prop_assert_eq!(read_bands(&lines.join(end)), Ok(values));
    }

    /// Commas alone are clear but for a value such as 0,5: 40,0,5 may as well be 40,0 Hz and 5 dB.
    #[test]
    fn commas_alone_read_as_meant_or_ask(band in 0..BAND_COUNT, tenths in prop_oneof![-999..=1999_i32, -9..=9_i32]) {
        let (hz, db) = (NOMINAL_HZ[band], f64::from(tenths) / 10.0);
        let text = format!("{hz},{db}").replace('.', ",");
        match read_bands(&text) {
            Ok(values) => prop_assert_eq!(values, vec![(hz, db)]),
            Err(message) => prop_assert!(message.contains("two ways") && (1..=9).contains(&tenths) && hz != 31.5, "{message}"),
        }
    }

    #[test]
    fn any_text_has_an_answer(text in prop_oneof![any::<String>(), "[-0-9,.;: \\t\\nkHzdBA()]{0,60}", "([0-9,.]{1,6}[ ,;\\t\\n]){0,12}"]) {
        answer_is_fit(&text)?;
    }

    #[test]
    fn a_damaged_table_has_an_answer((values, _) in table(), damage in prop::collection::vec((any::<prop::sample::Index>(), any::<char>(), 0..3), 1..6)) {
        let mut text: Vec<char> = write_bands(&values).chars().collect();
        for (place, character, kind) in damage {
            let place = place.index(text.len().max(1));
            match kind {
                0 => text.insert(place.min(text.len()), character),
                1 if place < text.len() => text[place] = character,
                _ if place < text.len() => drop(text.remove(place)),
                _ => {}
            }
        }
        answer_is_fit(&text.into_iter().collect::<String>())?;
    }

    #[test]
    fn thirds_hold_the_energy_of_their_octaves((values, grid) in table()) {
        let levels = levels_by_thirds(&values, grid);
        let octaves = levels.octaves();
        for &(hz, db) in &values {
            let band = band_index(hz).expect("a band");
            match grid {
                Grid::Octaves => prop_assert!((octaves[band / 3] - db).abs() < 1e-9),
                Grid::Thirds => prop_assert_eq!(levels[band], db),
            }
        }
        let given = if grid == Grid::Octaves { 3 * values.len() } else { values.len() };
        prop_assert!(levels.iter().filter(|&level| level == NOTHING_DB).count() >= BAND_COUNT - given);
        let indices = indices_by_thirds(&values, grid);
        prop_assert!(values.iter().all(|&(hz, db)| indices[band_index(hz).expect("a band")] == db));
        prop_assert_eq!([indices[0], indices[BAND_COUNT - 1]], [values[0].1, values[values.len() - 1].1]);
    }

    /// Values of any kind, sound or not, are told apart and never cause a panic.
    #[test]
    fn any_values_have_an_answer(values in prop::collection::vec((prop_oneof![prop::sample::select(NOMINAL_HZ.to_vec()), any::<f64>()], any::<f64>()), 0..6)) {
        if let Err(message) = check_bands(&values, RANGE_DB) {
            prop_assert!(message.chars().count() < 200 && !message.contains("NaN") && !message.contains("inf"), "{}", message);
        }
        for grid in [Grid::Octaves, Grid::Thirds] {
            let _ = (levels_by_thirds(&values, grid), indices_by_thirds(&values, grid));
        }
    }
}
