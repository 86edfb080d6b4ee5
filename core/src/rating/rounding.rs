//! Rounding half up in the decimal sense.

/// Distance in steps below a half that still counts as the half.
///
/// 20.45 has no exact binary form: the nearest one lies below. Sums and logarithms of such numbers are off by some
/// 1e-13, and no meter or model knows 1e-9 of a tenth of a decibel.
const TIE: f64 = 1e-9;

/// `db` in whole decibels, halves up (20.5 gives 21, -20.5 gives -20).
pub fn whole_db(db: f64) -> i64 {
    (db + 0.5 + TIE).floor() as i64
}

/// `db` in tenths of a decibel, halves up (20.25 gives 203).
///
/// ISO 717-1:2020, 4.4: XX.XYZZZ becomes XX.X when Y is less than 5 and XX.X + 0.1 when it is 5 or more (wording from
/// memory).
pub fn tenths_of_db(db: f64) -> i64 {
    (10.0 * db + 0.5 + TIE).floor() as i64
}

#[cfg(test)]
mod tests {
    use super::{tenths_of_db, whole_db};

    #[test]
    fn every_decimal_half_goes_up_whatever_its_binary_form() {
        for hundredths in (-99_995_i64..100_000).step_by(10) {
            let db = hundredths as f64 / 100.0;
            assert_eq!(tenths_of_db(db), (hundredths + 5).div_euclid(10), "{db}");
            let text: f64 = format!("{db:.2}").parse().expect("a number");
            assert_eq!(tenths_of_db(text), (hundredths + 5).div_euclid(10), "{db}");
        }
        for tenths in (-9_995_i64..10_000).step_by(10) {
            assert_eq!(whole_db(tenths as f64 / 10.0), (tenths + 5).div_euclid(10));
        }
    }

    #[test]
    fn below_the_half_goes_down() {
        assert_eq!(tenths_of_db(20.249), 202);
        assert_eq!(tenths_of_db(20.249_999), 202);
        assert_eq!(whole_db(20.499_999), 20);
        assert_eq!(whole_db(-20.500_001), -21);
    }
}
