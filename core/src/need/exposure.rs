//! How long ears bear a level.

use crate::math::pow;

/// Level in dBA that is allowed for [`WORKING_DAY_H`] (NIOSH 1998, criteria document 98-126).
const CRITERION_DBA: f64 = 85.0;
/// Length in h of a working day.
const WORKING_DAY_H: f64 = 8.0;
/// How many dB more halve the time (the same document).
const EXCHANGE_DB: f64 = 3.0;

/// Hours a day at `dba` that NIOSH (1998) recommends not to exceed: 8/2^((L - 85)/3), at most the whole day.
pub fn niosh_hours(dba: f64) -> f64 {
    (WORKING_DAY_H / pow(2.0, (dba - CRITERION_DBA) / EXCHANGE_DB)).clamp(0.0, 24.0)
}

#[cfg(test)]
mod tests {
    use super::niosh_hours;

    #[test]
    fn no_day_is_longer_than_24_hours() {
        assert_eq!((niosh_hours(80.0), niosh_hours(-60.0)), (24.0, 24.0));
        assert!((niosh_hours(82.0) - 16.0).abs() < 1e-12);
    }
}
