//! Where everything in a line chart stands: a pure function of what is drawn, of the size, and of how wide texts are.

use hushwright::bands::BAND_COUNT;

use crate::components::Size;

use super::lines::{Line, LineChart};
use super::projection::{Plot, band_label, octaves, spread};
use crate::rect::Rect;

/// Width of a text in CSS pixels, at the size of the chart's text.
pub type Measure<'a> = &'a dyn Fn(&str) -> f64;

/// A mark on an axis: a line of the grid, and its label unless the unit stands in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Position on the axis: a level in dB, or a band.
    pub at: f64,
    /// What it says.
    pub words: String,
    /// Where that stands.
    pub label: Option<Rect>,
}

/// The name of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Name {
    /// Where it stands; there is room for the short name with a value as well.
    pub rect: Rect,
    /// What it says, a row each.
    pub rows: Vec<&'static str>,
    /// Ordinate of the line's right end if the name stands beside it, else it stands below the chart behind a piece of the line.
    pub end: Option<f64>,
}

/// A word within the plot.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// Where it stands.
    pub rect: Rect,
    /// What it says.
    pub words: &'static str,
    /// A line to what it names, from the word on.
    pub leader: Option<[(f64, f64); 2]>,
}

/// Where everything stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Where the lines are drawn.
    pub plot: Plot,
    /// Size of the text.
    pub text: f64,
    /// Marks of the axis of frequency.
    pub bands: Vec<Tick>,
    /// Marks of the axis of levels.
    pub levels: Vec<Tick>,
    /// `dB` and `Hz`, where there is room.
    pub units: Vec<(&'static str, Rect)>,
    /// The names, in the order of the lines.
    pub names: Vec<Name>,
    /// Words within the plot.
    pub notes: Vec<Note>,
}

/// What stands in the part where the estimate is weak.
const WEAK: &str = "weak";
/// What the range is called where there is room for it; the caption says it in full.
const RANGE: &str = "8 in 10";
/// Distance in px of words within the plot from lines.
const CLEAR: f64 = 2.5;
/// Widest value that stands beside a name.
const WIDEST_VALUE: &str = "\u{2212}188";
/// From the plot to the names beside it in px: room for the lines that lead there.
const LEADER: f64 = 17.0;
/// Length in px of the piece of a line before its name below the chart, and its distance from the name.
pub const SAMPLE: f64 = 20.0;
/// Distance in px of names below the chart from its left edge, where the frame of the focus is.
const INDENT: f64 = 3.0;
/// Distance in px of what stands beside each other.
pub const APART: f64 = 5.0;
/// Height of a row of text below another, in sizes of the text: comfortable, and the least that can be read.
const ROWS: [f64; 2] = [1.25, 1.05];
/// Least part of the width that the plot keeps beside the names, and least width in sizes of the text.
const LEAST_PLOT: (f64, f64) = (0.42, 7.0);

impl Layout {
    /// The layout of `chart` on a canvas of this size.
    ///
    /// Names stand beside the ends of their lines, on as many rows as they have words; where the canvas is too low for that, the
    /// rows move together, then short names take the place of long ones; where it is still too low, or too narrow, all names
    /// stand below the chart.
    pub fn new(chart: &LineChart, size: Size, measure: Measure) -> Self {
        let (low_db, high_db) = chart.level_range();
        let Size { width, height, text } = size;
        let top = 0.55 * text + 2.0;
        let axis = 1.5 * text + 4.0;
        let labels = |steps: f64| level_ticks(chart, low_db, high_db, steps);
        let widest = labels(1.0).iter().map(|tick| measure(&tick.words)).fold(measure("dB"), f64::max);
        let left = widest + APART + 3.0;

        let column = |full: bool| {
            let of = |line: &Line| name_width(line, full, measure);
            LEADER + chart.lines.iter().map(of).fold(0.0, f64::max) + 2.0
        };
        let rows_of = |full: bool| {
            let of = |line: &Line| if full { line.name.split(' ').count() } else { 1 };
            chart.lines.iter().map(of).max().unwrap_or(1) as f64
        };
        let least = (LEAST_PLOT.0 * width).max(LEAST_PLOT.1 * text);
        let beside = [(true, ROWS[0]), (true, ROWS[1]), (false, ROWS[1])].into_iter().find(|&(full, row)| {
            let needed = chart.lines.len() as f64 * rows_of(full) * row * text;
            needed <= height && width - left - column(full) >= least
        });
        let below = if beside.is_none() { names_below(chart, size, measure) } else { Vec::new() };
        let lowest = below.iter().map(|name| name.rect.top).fold(height, f64::min);
        let right = beside.map_or(width - 0.8 * text, |(full, _)| width - column(full));
        let bottom = (lowest - axis).max(top + 1.0);
        let plot = Plot { left, right, top, bottom, low_db, high_db };

        let names = match beside {
            Some((full, row)) => names_beside(chart, &plot, size, full, row * rows_of(full), measure),
            None => below,
        };
        let mut units = Vec::new();
        let levels = level_axis(&plot, text, &labels, measure, &mut units);
        let limit = if beside.is_some() { right + LEADER - 3.0 } else { width };
        let bands = band_axis(&plot, text, limit, measure, &mut units);
        let mut layout = Self { plot, text, bands, levels, units, names, notes: Vec::new() };
        layout.notes = layout.notes(chart, measure);
        layout
    }

    /// Points of a line on the plot.
    pub fn points(&self, line: &Line) -> Vec<(f64, f64)> {
        (line.first_band..BAND_COUNT).map(|band| (self.plot.x(band), self.plot.y(line.db[band]))).collect()
    }

    /// Words within the plot, where no line goes through them.
    fn notes(&self, chart: &LineChart, measure: Measure) -> Vec<Note> {
        let (plot, text) = (self.plot, self.text);
        let lines: Vec<_> = chart.lines.iter().map(|line| self.points(line)).collect();
        let inside = Rect { left: plot.left + 2.0, top: plot.top + 2.0, right: plot.right - 2.0, bottom: plot.bottom - 2.0 };
        // Lines have a width.
        let is_free = |rect: &Rect| inside.holds(rect) && !lines.iter().any(|line| rect.grown(CLEAR).is_crossed(line));
        let edges = chart.range.as_ref().map(|range| {
            [&range.high_db, &range.low_db]
                .map(|db| (0..BAND_COUNT).map(|band| (plot.x(band), plot.y(db[band]))).collect::<Vec<_>>())
        });
        let mut notes = Vec::new();
        if let Some((from_hz, to_hz)) = chart.weak_hz {
            let (from, to) = (plot.x_of_hz(from_hz), plot.x_of_hz(to_hz));
            let width = measure(WEAK);
            let clear = |rect: &Rect| {
                let shaded = |[high, low]: &[Vec<(f64, f64)>; 2]| {
                    rect.is_crossed(high) || rect.is_crossed(low) || {
                        let (x, y) = rect.middle();
                        y > y_at(high, x) && y < y_at(low, x)
                    }
                };
                is_free(rect) && !edges.as_ref().is_some_and(shaded)
            };
            if to - from >= width + 4.0 {
                let steps = ((plot.bottom - plot.top) / (0.5 * text)) as usize;
                let at =
                    |step: usize| Rect::about((0.5 * (from + to), plot.bottom - (0.7 + 0.5 * step as f64) * text), width, text);
                let found = (0..steps).map(at).find(clear);
                notes.extend(found.map(|rect| Note { rect, words: WEAK, leader: None }));
            }
        }
        if let Some([high, low]) = &edges
            && let Some(note) = range_note(high, low, text, measure(RANGE), &|rect| {
                is_free(rect) && !notes.iter().any(|note: &Note| note.rect.meets(rect))
            })
        {
            notes.push(note);
        }
        notes
    }
}

/// Ordinate at `x` of a line from left to right.
fn y_at(line: &[(f64, f64)], x: f64) -> f64 {
    let after = line.partition_point(|point| point.0 < x).clamp(1, line.len() - 1);
    let [(x0, y0), (x1, y1)] = [line[after - 1], line[after]];
    y0 + (y1 - y0) * ((x - x0) / (x1 - x0)).clamp(0.0, 1.0)
}

/// The name of the range: within the shading where that is wide enough beside the line in it, or else beside it with a short
/// line that leads there.
fn range_note(high: &[(f64, f64)], low: &[(f64, f64)], text: f64, width: f64, is_free: &dyn Fn(&Rect) -> bool) -> Option<Note> {
    let note = |rect, leader| Note { rect, words: RANGE, leader };
    for band in 1..BAND_COUNT - 1 {
        let (x, upper, lower) = (high[band].0, high[band].1, low[band].1);
        for part in [0.25, 0.75, 0.5] {
            let rect = Rect::about((x, upper + part * (lower - upper)), width, 1.1 * text);
            let shaded = [rect.left, x, rect.right].into_iter().all(|x| rect.top > y_at(high, x) && rect.bottom < y_at(low, x));
            if shaded && !rect.is_crossed(high) && !rect.is_crossed(low) && is_free(&rect) {
                return Some(note(rect, None));
            }
        }
    }
    for distance in [0.7, 1.2, 1.8] {
        for band in 1..BAND_COUNT - 1 {
            let x = high[band].0;
            for (edge, way) in [(high[band].1, -1.0), (low[band].1, 1.0)] {
                // Where the edge runs along the end of the plot there is nothing beside it to name.
                if low[band].1 - high[band].1 < 4.0 {
                    continue;
                }
                let rect = Rect::about((x, edge + way * (distance + 0.55) * text), width, 1.1 * text);
                let start = if way < 0.0 { rect.bottom } else { rect.top };
                let path = Rect { left: x - 1.0, top: start.min(edge), right: x + 1.0, bottom: start.max(edge) };
                if is_free(&rect) && is_free(&path) && !rect.is_crossed(high) && !rect.is_crossed(low) {
                    return Some(note(rect, Some([(x, start), (x, edge - way * 3.0)])));
                }
            }
        }
    }
    None
}

/// Width that the name of a line takes, in rows of one word or short, with a value or without.
fn name_width(line: &Line, full: bool, measure: Measure) -> f64 {
    let with_value = measure(&format!("{} {WIDEST_VALUE}", line.short));
    if full { line.name.split(' ').map(measure).fold(with_value, f64::max) } else { with_value }
}

/// Names beside the ends of their lines, moved apart no further than needed.
fn names_beside(chart: &LineChart, plot: &Plot, size: Size, full: bool, rows: f64, measure: Measure) -> Vec<Name> {
    let ends: Vec<f64> = chart.lines.iter().map(|line| plot.y(line.db[BAND_COUNT - 1])).collect();
    // Lines that end at the edge of the plot keep their order by a trifle, so that what leads to their names does not cross.
    let wished: Vec<f64> = ends.iter().zip(&chart.lines).map(|(end, line)| end - 1e-4 * line.db[BAND_COUNT - 1]).collect();
    let half = 0.5 * rows * size.text;
    let places = spread(&wished, 2.0 * half, half, size.height - half);
    let name = |((line, end), place): ((&Line, &f64), f64)| {
        let rows = if full { line.name.split(' ').collect() } else { vec![line.short] };
        let high = 0.5 * ROWS[1] * rows.len() as f64 * size.text;
        let left = plot.right + LEADER;
        let rect = Rect { left, top: place - high, right: left + name_width(line, full, measure), bottom: place + high };
        Name { rect, rows, end: Some(*end) }
    };
    chart.lines.iter().zip(&ends).zip(places).map(name).collect()
}

/// Names below the chart, each behind a piece of its line, in as many rows as they need.
fn names_below(chart: &LineChart, size: Size, measure: Measure) -> Vec<Name> {
    let (mut x, mut row) = (INDENT, 0.0);
    let mut names = Vec::new();
    let step = ROWS[0] * size.text;
    for line in &chart.lines {
        let short = name_width(line, false, measure);
        let whole = measure(line.name).max(short);
        let (words, width) = if INDENT + SAMPLE + APART + whole <= size.width { (line.name, whole) } else { (line.short, short) };
        if x > INDENT && x + SAMPLE + APART + width > size.width {
            (x, row) = (INDENT, row + step);
        }
        let left = x + SAMPLE + APART;
        names.push(Name {
            rect: Rect { left, top: row, right: left + width, bottom: row + size.text },
            rows: vec![words],
            end: None,
        });
        x = left + width + 2.0 * APART;
    }
    let down = size.height - row - 1.1 * size.text;
    for name in &mut names {
        name.rect.top += down;
        name.rect.bottom += down;
    }
    names
}

/// Marks of the level axis every `steps` times 20 dB.
fn level_ticks(chart: &LineChart, low_db: f64, high_db: f64, steps: f64) -> Vec<Tick> {
    let count = ((high_db - low_db) / (20.0 * steps)).floor() as usize;
    let tick = |k: usize| {
        let at = low_db + 20.0 * steps * k as f64;
        let runs_below = |line: &Line| line.db.0[line.first_band..].iter().any(|level| *level < at);
        let words = if k == 0 && chart.lines.iter().any(runs_below) { format!("≤{at:.0}") } else { format!("{at:.0}") };
        Tick { at, words: words.replace('-', "\u{2212}"), label: None }
    };
    (0..=count).map(tick).collect()
}

/// The level axis: as many marks as there is room for, and the unit between the upper two or in place of the second, as drawings
/// have it (DIN 461, from memory).
fn level_axis(
    plot: &Plot,
    text: f64,
    ticks: &dyn Fn(f64) -> Vec<Tick>,
    measure: Measure,
    units: &mut Vec<(&'static str, Rect)>,
) -> Vec<Tick> {
    let step_px = |steps: f64| (plot.bottom - plot.top) * 20.0 * steps / (plot.high_db - plot.low_db);
    let most = ((plot.high_db - plot.low_db) / 20.0).floor().max(1.0);
    let mut steps = 1.0;
    while steps < most && step_px(steps) < 1.3 * text {
        steps += 1.0;
    }
    let mut ticks = ticks(steps);
    if step_px(steps) < 1.3 * text {
        ticks.truncate(1);
    }
    let at = |y: f64, words: &str| Rect::about((plot.left - APART - 0.5 * measure(words), y), measure(words), text);
    for tick in &mut ticks {
        tick.label = Some(at(plot.y(tick.at), &tick.words));
    }
    if let [.., before, last] = &mut ticks[..] {
        let (lower, upper) = (plot.y(before.at), plot.y(last.at));
        let between = lower - upper >= 2.2 * text;
        if !between {
            before.label = None;
        }
        units.push(("dB", at(if between { 0.5 * (lower + upper) } else { lower }, "dB")));
    }
    ticks
}

/// The frequency axis: octaves, fewer where there is no room, and the unit as on the level axis.
fn band_axis(plot: &Plot, text: f64, limit: f64, measure: Measure, units: &mut Vec<(&'static str, Rect)>) -> Vec<Tick> {
    let y = plot.bottom + 0.5 * text + 2.0 + 0.5 * text;
    let label = |band: usize, words: &str| Rect::about((plot.x(band), y), measure(words), text);
    let octave = 3.0 * (plot.right - plot.left) / BAND_COUNT as f64;
    let widest = octaves(1).into_iter().map(|band| measure(&band_label(band))).fold(0.0, f64::max);
    let every = [1, 2, 4].into_iter().find(|&every| octave * every as f64 >= widest + 0.8 * text).unwrap_or(8);
    let mut ticks: Vec<Tick> = octaves(every)
        .into_iter()
        .map(|band| {
            let words = band_label(band);
            let rect = label(band, &words);
            Tick { at: band as f64, label: (rect.left >= 0.0 && rect.right <= limit).then_some(rect), words }
        })
        .collect();
    let width = measure("Hz");
    let mut labels: Vec<_> = ticks.iter_mut().filter(|tick| tick.label.is_some()).collect();
    if let [.., before, last] = &mut labels[..]
        && let (Some(one), Some(two)) = (before.label, last.label)
    {
        let between = Rect::about((0.5 * (one.right + two.left), y), width, text);
        let beyond = Rect::about((two.right + APART + 0.5 * width, y), width, text);
        let place = if two.left - one.right >= width + 2.0 * APART {
            between
        } else if beyond.right <= limit {
            beyond
        } else {
            before.label = None;
            Rect::about((one.middle().0, y), width, text)
        };
        units.push(("Hz", place));
    }
    ticks
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use hushwright::bands::Spectrum;
    use proptest::prelude::*;

    use super::*;
    use crate::charts::lines::LevelRange;
    use crate::charts::palette::LineInk;

    const NAMES: [(&str, &str); 8] = [
        ("source", "source"),
        ("inside", "inside"),
        ("gap", "gap"),
        ("outside", "outside"),
        ("room", "room"),
        ("limit", "limit"),
        ("background", "backgr."),
        ("listener", "listener"),
    ];

    fn line((name, short): (&'static str, &'static str), db: Spectrum, first_band: usize) -> Line {
        Line { name, short, db, first_band, ink: LineInk::Black, width: 1.0, dash: None }
    }

    /// Letters of a wide and of a narrow face, in sizes of the text.
    fn width(face: f64, text: f64) -> impl Fn(&str) -> f64 {
        move |words: &str| words.chars().map(|c| if c == ' ' || c == '.' || c == 'l' { 0.32 } else { face }).sum::<f64>() * text
    }

    /// All boxes that hold text.
    fn boxes(layout: &Layout) -> Vec<(String, Rect)> {
        let ticks = layout.bands.iter().chain(&layout.levels);
        let ticks = ticks.filter_map(|tick| tick.label.map(|rect| (tick.words.clone(), rect)));
        let units = layout.units.iter().map(|(words, rect)| ((*words).to_owned(), *rect));
        let names = layout.names.iter().map(|name| (name.rows.join(" "), name.rect));
        let notes = layout.notes.iter().map(|note| (note.words.to_owned(), note.rect));
        ticks.chain(units).chain(names).chain(notes).collect()
    }

    fn check(chart: &LineChart, size: Size, face: f64) -> Result<Layout, TestCaseError> {
        let layout = Layout::new(chart, size, &width(face, size.text));
        let canvas = Rect { left: 0.0, top: 0.0, right: size.width, bottom: size.height };
        let boxes = boxes(&layout);
        for (k, (words, rect)) in boxes.iter().enumerate() {
            prop_assert!(
                rect.left >= -1e-6 && rect.top >= -1e-6 && rect.right <= size.width + 1e-6 && rect.bottom <= size.height + 1e-6,
                "{words} is cut off: {rect:?} on {canvas:?}"
            );
            for (other, by) in &boxes[k + 1..] {
                prop_assert!(!rect.meets(by), "{words} {rect:?} and {other} {by:?} on {canvas:?}");
            }
        }
        let inside = Rect { left: layout.plot.left, top: layout.plot.top, right: layout.plot.right, bottom: layout.plot.bottom };
        prop_assert!(inside.right - inside.left >= 2.0 * size.text && inside.bottom - inside.top >= size.text, "{inside:?}");
        for name in &layout.names {
            prop_assert!(!name.rect.meets(&inside), "{:?} lies on the plot {inside:?}", name.rows);
        }
        for note in &layout.notes {
            for line in &chart.lines {
                prop_assert!(!note.rect.is_crossed(&layout.points(line)), "{} lies on {}", note.words, line.name);
            }
        }
        // From the ends of the lines to their names, in the same order at both ends: straight lines that do not cross.
        let mut leaders: Vec<_> =
            layout.names.iter().filter_map(|name| name.end.map(|end| (end, name.rect.middle().1))).collect();
        leaders.sort_by(|a, b| a.1.total_cmp(&b.1));
        prop_assert!(leaders.windows(2).all(|pair| pair[0].0 <= pair[1].0 + 0.02), "{leaders:?}");
        prop_assert!(["dB", "Hz"].iter().all(|unit| layout.units.iter().any(|(words, _)| words == unit)), "{:?}", layout.units);
        Ok(layout)
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 2000, ..ProptestConfig::default() })]

        /// At every size no two texts overlap, none is cut off, none lies on a line.
        #[test]
        fn texts_stand_apart_at_every_size(
            wide in 260.0..1400.0_f64, high in 0.0..1.0_f64, text in 12.0..24.0_f64, face in 0.5..0.66_f64,
            levels in prop::collection::vec(prop::collection::vec(-40.0..125.0_f64, 4), 8), count in 1..=8_usize,
            first in 0..6_usize, weak in 40.0..2000.0_f64, spread in 0.0..40.0_f64,
        ) {
            // Ends that tend to lie close to each other, as levels do.
            let spectrum = |ends: &Vec<f64>| Spectrum::from_fn(|band| {
                let part = band as f64 / (BAND_COUNT - 1) as f64 * 3.0;
                let k = (part as usize).min(2);
                ends[k] + (ends[k + 1] - ends[k]) * (part - k as f64)
            });
            let lines: Vec<_> = NAMES.into_iter().zip(&levels).take(count)
                .map(|(name, ends)| line(name, spectrum(ends), if name.0 == "limit" { first } else { 0 })).collect();
            let last = lines[count - 1].db;
            let range = LevelRange { of: "listener", low_db: last.map(|db| db - spread), high_db: last.map(|db| db + 0.7 * spread) };
            let chart = LineChart { lines, weak_hz: Some((weak, 2.0 * weak)), range: Some(range), ..LineChart::default() };
            // Low charts are as high as the style sheet makes them at least.
            let size = Size { width: wide, height: 15.0 * text + 400.0 * high, text };
            check(&chart, size, face)?;
        }

        /// The chart of losses has names of two words.
        #[test]
        fn names_of_two_words_stand_apart(
            wide in 240.0..900.0_f64, high in 11.0..30.0_f64, text in 12.0..24.0_f64, ends in prop::array::uniform3(-30.0..90.0_f64),
        ) {
            let names = [("level difference", "diff."), ("insertion loss", "loss"), ("needed", "needed")];
            let lines = names.into_iter().zip(ends).map(|(name, db)| line(name, Spectrum::constant(db), 0)).collect();
            let chart = LineChart { lines, floor_db: -20.0, ..LineChart::default() };
            check(&chart, Size { width: wide, height: high * text, text }, 0.6)?;
        }
    }

    fn eight(ends: [f64; 8]) -> LineChart {
        let lines = NAMES.into_iter().zip(ends).map(|(name, db)| line(name, Spectrum::constant(db), 0)).collect();
        LineChart { lines, ..LineChart::default() }
    }

    /// What gives way first is the distance of the names, last their place beside the lines.
    #[test]
    fn names_give_way_in_order() {
        let chart = eight([92.0, 99.0, 80.0, 70.0, 66.0, 29.0, 21.0, 59.0]);
        let at = |width: f64, height: f64, text: f64| check(&chart, Size { width, height, text }, 0.55).expect("all apart");
        let apart = |layout: &Layout| {
            let mut tops: Vec<f64> = layout.names.iter().map(|name| name.rect.top).collect();
            tops.sort_by(f64::total_cmp);
            tops.windows(2).map(|pair| pair[1] - pair[0]).fold(f64::INFINITY, f64::min)
        };
        let roomy = at(640.0, 200.0, 12.0);
        assert!(roomy.names.iter().all(|name| name.end.is_some()) && apart(&roomy) >= 1.25 * 12.0 - 1e-6);
        let low = at(640.0, 105.0, 12.0);
        assert!(low.names.iter().all(|name| name.end.is_some()) && apart(&low) >= 1.05 * 12.0 - 1e-6);
        assert!(at(640.0, 98.0, 12.0).names.iter().all(|name| name.end.is_none()), "below the chart");
        assert!(at(260.0, 384.0, 24.0).names.iter().all(|name| name.end.is_none()), "below the chart");
    }

    #[test]
    fn the_range_is_named_where_there_is_room() {
        let mut chart = eight([92.0, 99.0, 80.0, 70.0, 66.0, 29.0, 21.0, 50.0]);
        let size = Size { width: 640.0, height: 300.0, text: 12.0 };
        let range = |below: f64, above: f64| LevelRange {
            of: "listener",
            low_db: Spectrum::constant(50.0 - below),
            high_db: Spectrum::constant(50.0 + above),
        };
        let note = |chart: &LineChart| {
            let layout = check(chart, size, 0.55).expect("all apart");
            layout.notes.into_iter().find(|note| note.words == RANGE)
        };
        assert_eq!(note(&chart), None, "no range, no name");
        chart.range = Some(range(15.0, 10.0));
        assert_eq!(note(&chart).expect("a name").leader, None, "it stands in the shading");
        chart.range = Some(range(3.0, 3.0));
        assert!(note(&chart).expect("a name").leader.is_some(), "it stands beside the shading");
    }
}
