//! Ranges as a row of numbers: what a worker of the page sends to it.

use crate::bands::{BAND_COUNT, Spectrum};

use super::range::{ListenerRange, Quantiles, Range, Ranges};
use super::spread::Unknown;

/// Takes numbers from a row, in order.
struct Row<'a>(&'a [f64]);

impl Row<'_> {
    /// The next number; none where the row has ended or what stands there is no finite number.
    fn number(&mut self) -> Option<f64> {
        let (first, rest) = self.0.split_first()?;
        self.0 = rest;
        first.is_finite().then_some(*first)
    }

    /// The next number as how many there are of something, at most `most`.
    fn count(&mut self, most: usize) -> Option<usize> {
        self.number()
            .filter(|&number| number >= 0.0 && number <= most as f64 && number.fract() == 0.0)
            .map(|number| number as usize)
    }

    fn range(&mut self) -> Option<Range> {
        Some(Range { low: self.number()?, middle: self.number()?, high: self.number()? })
    }

    fn spectrum(&mut self) -> Option<Spectrum> {
        let mut spectrum = Spectrum::constant(0.0);
        for band in 0..BAND_COUNT {
            spectrum[band] = self.number()?;
        }
        Some(spectrum)
    }

    fn quantiles(&mut self) -> Option<Quantiles> {
        Some(Quantiles { dba: self.range()?, low_db: self.spectrum()?, high_db: self.spectrum()? })
    }
}

/// Most samples and listeners that are read.
const MOST: usize = 1 << 16;
/// Stands for a chance where there is nobody to disturb.
const NOBODY: f64 = -1.0;

impl Ranges {
    /// All of it in a fixed order; [`Ranges::from_numbers`] reads it again.
    pub fn to_numbers(&self) -> Vec<f64> {
        let mut row = vec![self.samples as f64, self.chance_met.unwrap_or(NOBODY)];
        let range = |row: &mut Vec<f64>, range: &Range| row.extend([range.low, range.middle, range.high]);
        let quantiles = |row: &mut Vec<f64>, quantiles: &Quantiles| {
            range(row, &quantiles.dba);
            row.extend(quantiles.low_db.iter());
            row.extend(quantiles.high_db.iter());
        };
        quantiles(&mut row, &self.room);
        row.push(self.listeners.len() as f64);
        for listener in &self.listeners {
            quantiles(&mut row, &listener.level);
            range(&mut row, &listener.margin_db);
            row.push(listener.chance_met);
        }
        row.push(self.shares.len() as f64);
        for (unknown, share) in &self.shares {
            let place = Unknown::ALL.iter().position(|own| own == unknown).unwrap_or_default();
            row.extend([place as f64, *share]);
        }
        row
    }

    /// Ranges from what [`Ranges::to_numbers`] gave; `None` if it is anything else.
    pub fn from_numbers(numbers: &[f64]) -> Option<Self> {
        let mut row = Row(numbers);
        let samples = row.count(MOST)?;
        let chance = row.number()?;
        let room = row.quantiles()?;
        let mut listeners = Vec::new();
        for _ in 0..row.count(MOST)? {
            listeners.push(ListenerRange { level: row.quantiles()?, margin_db: row.range()?, chance_met: row.number()? });
        }
        let mut shares = Vec::new();
        for _ in 0..row.count(Unknown::ALL.len())? {
            shares.push((*Unknown::ALL.get(row.count(Unknown::ALL.len())?)?, row.number()?));
        }
        let chance_met = (chance != NOBODY).then_some(chance);
        row.0.is_empty().then_some(Self { samples, room, listeners, chance_met, shares })
    }
}

#[cfg(test)]
mod tests {
    use super::super::range::Sampling;
    use super::*;
    use crate::design::examples;

    #[test]
    fn what_is_sent_arrives_and_nothing_else_does() {
        for (index, mut design) in examples().into_iter().enumerate() {
            if index == 1 {
                design.listeners.clear();
            }
            let mut sampling = Sampling::new(&design.check().expect("an example"), 2);
            while sampling.step() {}
            let ranges = sampling.finish().expect("both samples");
            let row = ranges.to_numbers();
            assert_eq!(Ranges::from_numbers(&row).as_ref(), Some(&ranges));
            for end in 0..row.len() {
                assert_eq!(Ranges::from_numbers(&row[..end]), None, "cut at {end}");
            }
            for place in 0..row.len() {
                let mut spoilt = row.clone();
                spoilt[place] = f64::NAN;
                assert_eq!(Ranges::from_numbers(&spoilt), None, "{place}");
            }
        }
    }
}
