//! How the ranges of what is computed cover measured walls: worked out anew, and held to what the core says of it.

use std::path::Path;

use hushwright::air::Air;
use hushwright::bands::{NOMINAL_HZ, Spectrum};
use hushwright::buildup::check::{Problems, check_stack};
use hushwright::buildup::raw::Layer;
use hushwright::buildup::{EdgeLoss, Element, GapLoss, Stack};
use hushwright::transmission::{Mount, sound_reduction_db};
use hushwright::uncertainty::{COVERAGE, Coverage, Range, wall_samples_db};

/// Samples of a wall: with twice as many none of the counts changes by more than one.
const SAMPLES: usize = 256;
/// Opening of a laboratory for windows, in m (ISO 10140-1, from memory).
const MOUNT: Mount = Mount { size_m: [1.5, 1.25], edge_loss: EdgeLoss::Laboratory };

/// A wall with what was measured, by octave in Hz.
struct Measured {
    stack: Stack,
    name: String,
    r_db: Vec<(f64, f64)>,
}

fn measured(file: &str) -> Vec<Measured> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/measured").join(file);
    let text = std::fs::read_to_string(&path).expect("the table is there");
    assert!(text.starts_with("# source: "), "{file} names no source");
    let table: Vec<Vec<&str>> = text.lines().skip(1).map(|line| line.split(',').collect()).collect();
    let octaves: Vec<f64> = table[0][3..].iter().map(|hz| hz.parse().expect("an octave")).collect();
    let wall = |row: &Vec<&str>| {
        let number = |text: &str| -> f64 { text.parse().unwrap_or_else(|_| panic!("{file}: {text}")) };
        let (thickness_mm, surface) = (number(row[1]), number(row[2]));
        let mut problems = Problems::default();
        let layers = [Layer::sheet(row[0], thickness_mm)];
        let mut stack = check_stack(&mut problems, "layers", &layers, GapLoss::Lossless).expect("a sheet of the catalogue");
        // Its mass is known; the rest is the catalogue's.
        let Element::Panel(laminate) = &mut stack.elements[0] else { panic!("one leaf") };
        laminate.sheets[0].density = 1000.0 * surface / thickness_mm;
        let r_db = octaves.iter().zip(&row[3..]).map(|(&hz, r_db)| (hz, number(r_db))).collect();
        Measured { stack, name: format!("{} {thickness_mm} mm", row[0]), r_db }
    };
    table[1..].iter().map(wall).collect()
}

/// Sound reduction index in dB of an octave from those of its thirds.
fn octave_db(r_db: &Spectrum, hz: f64) -> f64 {
    let middle = NOMINAL_HZ.iter().position(|&own| own == hz).expect("an octave");
    let passed: f64 = (middle - 1..=middle + 1).map(|band| 10_f64.powf(-r_db[band] / 10.0)).sum();
    -10.0 * (passed / 3.0).log10()
}

fn cover(known: &Coverage, file: &str) -> Coverage {
    let walls = measured(file);
    let (mut inside, mut deviations) = (0, Vec::new());
    for Measured { stack, name, r_db } in &walls {
        let computed = sound_reduction_db(stack, &MOUNT, &Air::default());
        let samples = wall_samples_db(stack, &MOUNT, &Air::default(), SAMPLES);
        for &(hz, want) in r_db {
            let mut octaves: Vec<f64> = samples.iter().map(|sample| octave_db(sample, hz)).collect();
            let Range { low, high, .. } = Range::of(&mut octaves);
            assert!(high - low > 2.0 && high - low < 20.0, "{name}, {hz} Hz: a range of {low:.1} to {high:.1} dB says nothing");
            inside += usize::from((low..=high).contains(&want));
            deviations.push(octave_db(&computed, hz) - want);
            println!("{name}, {hz} Hz: measured {want}, range {low:.1} to {high:.1}");
        }
    }
    let count = deviations.len() as f64;
    let mean = |of: &dyn Fn(&f64) -> f64| deviations.iter().map(of).sum::<f64>() / count;
    Coverage {
        walls: walls.len(),
        values: deviations.len(),
        inside,
        rms_db: (mean(&|db| db * db).sqrt() * 10.0).round() / 10.0,
        mean_db: (mean(&|db| *db) * 10.0).round() / 10.0,
        ..*known
    }
}

/// The figures that the page shows are those of today's model.
#[test]
fn coverage_is_what_the_core_says() {
    let files = ["glass.csv", "panels_from_memory.csv"];
    let found: Vec<Coverage> = COVERAGE.iter().zip(files).map(|(known, file)| cover(known, file)).collect();
    assert_eq!(found, COVERAGE, "write these figures into the core, and see why they have changed");
}
