//! Lengths in feet, inches and fractions of an inch, as a rule has them.

use crate::units::mm_to_inches;

/// The finest fraction of an inch that is written.
pub const FINEST: u32 = 32;

/// A length in feet and inches, to the nearest 1/32 in, halves upwards: `2 ft 3 5/32 in`; below a foot without feet.
///
/// What is left of it is at most 1/64 in, 0.4 mm.
pub fn feet_and_inches(mm: f64) -> String {
    let parts = (mm_to_inches(mm) * f64::from(FINEST)).round().max(0.0) as u64;
    let finest = u64::from(FINEST);
    let (feet, inches, rest) = (parts / (12 * finest), parts / finest % 12, parts % finest);
    let whole = if feet > 0 { format!("{feet} ft ") } else { String::new() };
    let shift = rest.trailing_zeros().min(FINEST.trailing_zeros());
    match (inches, rest) {
        (inches, 0) => format!("{whole}{inches} in"),
        (0, rest) if feet == 0 => format!("{}/{} in", rest >> shift, finest >> shift),
        (inches, rest) => format!("{whole}{inches} {}/{} in", rest >> shift, finest >> shift),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_as_a_rule_has_them() {
        for (mm, written) in [
            (0.0, "0 in"),
            (25.4, "1 in"),
            (304.8, "1 ft 0 in"),
            (1219.2, "4 ft 0 in"),
            (12.7, "1/2 in"),
            (19.05, "3/4 in"),
            (18.0, "23/32 in"),
            (838.0, "2 ft 9 in"),
            (311.15, "1 ft 0 1/4 in"),
            (0.3, "0 in"),
            (0.5, "1/32 in"),
        ] {
            assert_eq!(feet_and_inches(mm), written, "{mm} mm");
        }
    }

    #[test]
    fn never_further_off_than_half_the_finest_fraction() {
        for tenths in 0..30_000_u32 {
            let mm = f64::from(tenths) / 10.0;
            let text = feet_and_inches(mm);
            let mut back_in = 0.0;
            let mut words = text.split(' ').collect::<Vec<_>>();
            assert_eq!(words.pop(), Some("in"));
            if let Some(place) = words.iter().position(|word| *word == "ft") {
                back_in += 12.0 * words[place - 1].parse::<f64>().unwrap();
                words.drain(..=place);
            }
            for word in words {
                back_in += match word.split_once('/') {
                    Some((over, under)) => over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap(),
                    None => word.parse().unwrap(),
                };
            }
            assert!((25.4 * back_in - mm).abs() <= 25.4 / 64.0 + 1e-9, "{mm} mm is not {text}");
        }
    }
}
