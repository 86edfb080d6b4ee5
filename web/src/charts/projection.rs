//! From bands and decibels to pixels and back: pure functions.

use hushwright::bands::{BAND_COUNT, NOMINAL_HZ};
use hushwright::math::to_db;

/// A rectangle of the canvas in pixels in which the lines are drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plot {
    /// Left edge.
    pub left: f64,
    /// Right edge.
    pub right: f64,
    /// Upper edge.
    pub top: f64,
    /// Lower edge.
    pub bottom: f64,
    /// Level at the lower edge in dB.
    pub low_db: f64,
    /// Level at the upper edge in dB.
    pub high_db: f64,
}

/// Empty part of a band's width at either end of the axis.
const MARGIN_BANDS: f64 = 0.35;

impl Plot {
    /// Abscissa of a band. Third-octave bands are evenly spaced on a logarithmic axis of frequency.
    pub fn x(&self, band: usize) -> f64 {
        let span = (BAND_COUNT - 1) as f64 + 2.0 * MARGIN_BANDS;
        self.left + (self.right - self.left) * (band as f64 + MARGIN_BANDS) / span
    }

    /// Abscissa of a frequency, held at the edges of the plot.
    pub fn x_of_hz(&self, hz: f64) -> f64 {
        let span = (BAND_COUNT - 1) as f64 + 2.0 * MARGIN_BANDS;
        // Exact centre frequencies are powers of 10^(1/10) (IEC 61260-1).
        let position = to_db(hz) - to_db(NOMINAL_HZ[0]).round();
        let part = (position + MARGIN_BANDS) / span;
        self.left + (self.right - self.left) * part.clamp(0.0, 1.0)
    }

    /// Ordinate of a level, held at the edges of the plot.
    pub fn y(&self, db: f64) -> f64 {
        let part = ((db - self.low_db) / (self.high_db - self.low_db)).clamp(0.0, 1.0);
        self.bottom - part * (self.bottom - self.top)
    }

    /// The band nearest to an abscissa.
    pub fn band_at(&self, x: f64) -> usize {
        let span = (BAND_COUNT - 1) as f64 + 2.0 * MARGIN_BANDS;
        let position = (x - self.left) / (self.right - self.left) * span - MARGIN_BANDS;
        position.round().clamp(0.0, (BAND_COUNT - 1) as f64) as usize
    }
}

/// The octaves of the third-octave scale, or every second, fourth or eighth of them, from 31.5 Hz on: 125 Hz, 500 Hz and 2 kHz are
/// among every second.
pub fn octaves(every: usize) -> Vec<usize> {
    (0..BAND_COUNT / 3).step_by(every).map(|octave| 3 * octave + 1).collect()
}

/// Label of a band on the axis: `125`, `1k`.
pub fn band_label(band: usize) -> String {
    match NOMINAL_HZ[band] {
        hz if hz >= 1000.0 => format!("{}k", hz / 1000.0),
        31.5 => "31".to_owned(),
        hz => format!("{hz}"),
    }
}

/// A range of levels in whole steps of 20 dB that holds all of `levels`, from 0 dB or the first step below `floor_db` up.
pub fn level_range(levels: impl Iterator<Item = f64>, floor_db: f64) -> (f64, f64) {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for level in levels.filter(|level| level.is_finite()) {
        low = low.min(level);
        high = high.max(level);
    }
    if low > high {
        return (floor_db, floor_db + 100.0);
    }
    let low = (low / 20.0).floor() * 20.0;
    let high = (high / 20.0).ceil() * 20.0;
    let low = low.max(floor_db).min(0.0);
    (low, high.max(low + 40.0))
}

/// Moves wished positions apart until each is `gap` from the next, keeping their order and staying within `low..=high`
/// where there is room at all.
pub fn spread(wished: &[f64], gap: f64, low: f64, high: f64) -> Vec<f64> {
    // Few: put in one by one, for which a page needs less code than for sorting.
    let mut order: Vec<usize> = Vec::new();
    for (index, own) in wished.iter().enumerate() {
        order.insert(order.partition_point(|&before| wished[before] <= *own), index);
    }
    // Blocks of labels that touch: each rests at the mean of what its members wish.
    let mut blocks: Vec<(f64, usize)> = Vec::new(); // position of the first, number of members
    for &index in &order {
        blocks.push((wished[index], 1));
        while blocks.len() > 1 {
            let (last, last_count) = blocks[blocks.len() - 1];
            let (before, before_count) = blocks[blocks.len() - 2];
            if before + gap * before_count as f64 <= last {
                break;
            }
            let count = before_count + last_count;
            let shifted = last - gap * before_count as f64;
            let first = (before * before_count as f64 + shifted * last_count as f64) / count as f64;
            blocks.truncate(blocks.len() - 2);
            blocks.push((first, count));
        }
    }
    let mut placed: Vec<f64> =
        blocks.iter().flat_map(|&(first, count)| (0..count).map(move |member| first + gap * member as f64)).collect();
    // The ends of the range push inwards.
    let mut ceiling = high;
    for position in placed.iter_mut().rev() {
        *position = position.min(ceiling);
        ceiling = *position - gap;
    }
    let mut floor = low;
    for position in &mut placed {
        *position = position.max(floor);
        floor = *position + gap;
    }
    let mut result = vec![0.0; wished.len()];
    for (&index, position) in order.iter().zip(placed) {
        result[index] = position;
    }
    result
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLOT: Plot = Plot { left: 40.0, right: 600.0, top: 10.0, bottom: 210.0, low_db: 0.0, high_db: 120.0 };

    #[test]
    fn every_band_is_found_again_at_its_place() {
        for band in 0..BAND_COUNT {
            assert_eq!(PLOT.band_at(PLOT.x(band)), band);
            assert!(PLOT.x(band) > PLOT.left && PLOT.x(band) < PLOT.right);
        }
        assert_eq!(PLOT.band_at(-1e9), 0);
        assert_eq!(PLOT.band_at(1e9), BAND_COUNT - 1);
    }

    #[test]
    fn frequencies_lie_at_their_bands() {
        for (band, hz) in NOMINAL_HZ.into_iter().enumerate() {
            assert!((PLOT.x_of_hz(hz) - PLOT.x(band)).abs() < 1.5, "{hz}");
        }
        assert_eq!(PLOT.x_of_hz(1.0), PLOT.left);
        assert_eq!(PLOT.x_of_hz(1e6), PLOT.right);
    }

    #[test]
    fn levels_stay_on_the_plot() {
        assert_eq!(PLOT.y(0.0), PLOT.bottom);
        assert_eq!(PLOT.y(120.0), PLOT.top);
        assert_eq!(PLOT.y(-300.0), PLOT.bottom);
        assert_eq!(PLOT.y(60.0), 110.0);
    }

    #[test]
    fn labels_are_octaves() {
        let labels = |every: usize| octaves(every).into_iter().map(band_label).collect::<Vec<_>>();
        assert_eq!(labels(1), ["31", "63", "125", "250", "500", "1k", "2k", "4k", "8k"]);
        assert_eq!(labels(2), ["31", "125", "500", "2k", "8k"]);
        assert_eq!(labels(4), ["31", "500", "8k"]);
    }

    #[test]
    fn the_range_holds_all_levels_down_to_the_floor() {
        assert_eq!(level_range([83.0, 12.0].into_iter(), 0.0), (0.0, 100.0));
        assert_eq!(level_range([83.0, -70.0].into_iter(), -20.0), (-20.0, 100.0));
        assert_eq!(level_range([f64::NAN, 30.0].into_iter(), 0.0), (0.0, 40.0));
        assert_eq!(level_range(std::iter::empty(), 0.0), (0.0, 100.0));
    }

    #[test]
    fn labels_move_apart_no_further_than_needed() {
        assert_eq!(spread(&[10.0, 50.0, 90.0], 15.0, 0.0, 100.0), [10.0, 50.0, 90.0]);
        assert_eq!(spread(&[50.0, 50.0], 20.0, 0.0, 100.0), [40.0, 60.0]);
        assert_eq!(spread(&[100.0, 99.0, 98.0], 10.0, 0.0, 100.0), [100.0, 90.0, 80.0]);
        let crowded = spread(&[3.0, 2.0, 1.0, 70.0, 71.0], 12.0, 0.0, 100.0);
        let mut sorted = crowded.clone();
        sorted.sort_by(f64::total_cmp);
        assert!(sorted.windows(2).all(|pair| pair[1] - pair[0] >= 12.0 - 1e-9), "{crowded:?}");
        assert!(sorted[0] >= 0.0 && sorted[4] <= 100.0);
        assert!(crowded[0] > crowded[1] && crowded[1] > crowded[2], "order is kept");
    }
}
