//! Numbers as people type them.

/// Most digits that a number is read to: fewer than these a double holds exactly.
const MOST_DIGITS: i32 = 15;
/// Largest power of ten that a double holds exactly.
const EXACT_POWER: i32 = 22;

/// The number that `text` is: digits with at most one point among them and at most one sign in front; nothing else.
///
/// Read to 15 digits that count, and so exactly as the nearest double where there are no more and the point is within 22
/// places; beyond, to a few units of the last place. Reading any number of digits, as the standard library does, takes ten
/// kilobytes of tables, which every visitor of the page would load.
pub fn parse(text: &str) -> Option<f64> {
    let (negative, digits) = match text.as_bytes().first()? {
        b'-' => (true, &text[1..]),
        b'+' => (false, &text[1..]),
        _ => (false, text),
    };
    let (mut mantissa, mut counted, mut power) = (0_u64, 0, 0);
    let (mut any, mut point) = (false, false);
    for byte in digits.bytes() {
        match byte {
            b'.' if !point => point = true,
            b'0'..=b'9' => {
                any = true;
                if counted < MOST_DIGITS {
                    mantissa = 10 * mantissa + u64::from(byte - b'0');
                    counted += i32::from(mantissa > 0);
                    power -= i32::from(point);
                } else {
                    power += i32::from(!point);
                }
            }
            _ => return None,
        }
    }
    let scale = 10_f64.powi(power.abs().min(EXACT_POWER)) * 10_f64.powi((power.abs() - EXACT_POWER).max(0));
    let value = if power < 0 { mantissa as f64 / scale } else { mantissa as f64 * scale };
    let value = if negative { -value } else { value };
    (any && value.is_finite()).then_some(value)
}

#[cfg(test)]
mod tests {
    use super::parse;

    #[test]
    fn numbers_of_people_are_read_as_the_standard_library_reads_them() {
        for text in
            ["0", "7", "62.5", "-3.25", "+4", ".5", "5.", "000123.4500", "0.000001", "99999999999999", "0.1", "31.5", "1.017"]
        {
            assert_eq!(parse(text), text.parse().ok(), "{text}");
        }
        for step in 0..20_000 {
            let text = format!("{}.{:03}", step * 37 % 2999, step * 7919 % 1000);
            assert_eq!(parse(&text), text.parse().ok(), "{text}");
        }
    }

    #[test]
    fn more_digits_than_count_are_near_enough() {
        for text in ["3.14159265358979323846", "123456789012345678901234567890", "0.00000000000000000000000000012345"] {
            let (own, whole) = (parse(text).unwrap(), text.parse::<f64>().unwrap());
            assert!((own / whole - 1.0).abs() < 1e-14, "{text}: {own}");
        }
    }

    #[test]
    fn what_is_no_number_is_none() {
        let long = "9".repeat(400);
        for text in ["", "-", ".", "+.", "1e9", "1.2.3", "1,5", " 1", "--1", "1-", "0x10", "nan", "inf", "½", &long] {
            assert_eq!(parse(text), None, "{text}");
        }
    }
}
