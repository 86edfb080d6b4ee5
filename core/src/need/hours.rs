//! When it plays: hours of day and night.

use serde::{Deserialize, Serialize};

/// Hours of a day.
const DAY_H: f64 = 24.0;

/// A part of the day for which guidelines give values.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Period {
    /// Day and evening, 7 to 23 h.
    Day,
    /// Night, 23 to 7 h.
    Night,
}

impl Period {
    /// Length in h: the time base of the guideline values (WHO 1999: 16 h and 8 h).
    pub const fn hours(self) -> f64 {
        match self {
            Self::Day => 16.0,
            Self::Night => 8.0,
        }
    }

    /// Hour of day at which it begins (usual; local rules differ).
    const fn start_h(self) -> f64 {
        match self {
            Self::Day => 7.0,
            Self::Night => 23.0,
        }
    }
}

/// When something plays, every day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hours {
    /// Hour of day at which it begins, 0 to 24.
    pub start_h: f64,
    /// For how many hours, up to 24.
    pub hours: f64,
}

impl Hours {
    /// Hour of day at which it ends.
    pub fn end_h(self) -> f64 {
        let end = self.start_h + self.hours;
        if end > DAY_H { end - DAY_H } else { end }
    }

    /// For how many hours it plays within `period`.
    pub fn within(self, period: Period) -> f64 {
        // The period of yesterday, today and tomorrow: use may go past midnight, and begin in last night's.
        let overlap = |day: f64| {
            let start = period.start_h() + day * DAY_H;
            (self.start_h + self.hours).min(start + period.hours()) - self.start_h.max(start)
        };
        [-1.0, 0.0, 1.0].into_iter().map(|day| overlap(day).max(0.0)).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hours_of_a_day_are_shared_by_day_and_night() {
        for (start_h, hours, day, night) in [
            (19.0, 3.0, 3.0, 0.0),
            (22.0, 3.0, 1.0, 2.0),
            (23.0, 8.0, 0.0, 8.0),
            (2.0, 6.0, 1.0, 5.0),
            (0.0, 24.0, 16.0, 8.0),
            (20.0, 24.0, 16.0, 8.0),
            (24.0, 1.0, 0.0, 1.0),
        ] {
            let use_of = Hours { start_h, hours };
            assert_eq!((use_of.within(Period::Day), use_of.within(Period::Night)), (day, night), "{start_h} {hours}");
        }
        assert_eq!(Hours { start_h: 22.0, hours: 3.0 }.end_h(), 1.0);
        assert_eq!(Hours { start_h: 21.0, hours: 3.0 }.end_h(), 24.0, "midnight is the end of its day");
    }
}
