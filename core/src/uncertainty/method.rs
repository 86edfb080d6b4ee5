//! What the method itself is off by.

use crate::bands::{BAND_COUNT, Spectrum, band_position, exact_mid_hz};
use crate::math::{lg, ln};

/// Standard deviation in dB between laboratories that measure the same wall, at Hz: about 3 dB at 100 Hz and 1.8 dB from 500 to
/// 2000 Hz (ISO 12999-1, from memory); more at lower frequencies and 2 dB or so above (assumed).
const LABORATORIES_DB: [(f64, f64); 5] = [(25.0, 5.0), (100.0, 3.0), (500.0, 1.8), (2000.0, 1.8), (10_000.0, 2.5)];
/// Standard deviation in dB of the network of low frequencies: up to 1.3 dB against a fully coupled model of ideal boxes, more
/// for real ones; assumed.
const NETWORK_DB: f64 = 2.0;
/// Standard deviation in dB of the energy balance; assumed.
const ENERGY_DB: f64 = 2.0;
/// Standard deviation in dB where one hands over to the other and neither holds well; assumed.
const BETWEEN_DB: f64 = 4.0;
/// Standard deviation in dB of a computed partition beside that between laboratories, at Hz: studs and joists below 125 Hz;
/// assumed.
const PARTITION_DB: [(f64, f64); 3] = [(25.0, 5.0), (100.0, 4.0), (200.0, 2.0)];
/// Standard deviation in dB of the apparent sound reduction index that somebody has measured in a building; assumed.
const MEASURED_DB: f64 = 2.0;

/// Frequencies in Hz at which an error is drawn; it changes evenly between them.
const KNOTS_HZ: [f64; KNOTS] = [31.5, 125.0, 500.0, 2000.0, 8000.0];
/// How many.
pub(super) const KNOTS: usize = 5;
/// Part of an error's variance that all frequencies share; assumed.
const SHARED: f64 = 0.5;

/// Standard deviation in dB by band of the level that gets out of a box, were all its numbers known; the network counts below
/// `network_below_hz`, the energy balance from an octave above.
pub fn method_deviation_db(network_below_hz: f64) -> Spectrum {
    Spectrum::from_fn(|band| {
        let hz = exact_mid_hz(band);
        let octaves = ln(hz / network_below_hz) / std::f64::consts::LN_2;
        // From a third of an octave before the octave between to a third after it.
        let between = (3.0 * octaves + 1.0).min(3.0 * (1.0 - octaves) + 1.0).clamp(0.0, 1.0);
        let own = if octaves < 0.5 { NETWORK_DB } else { ENERGY_DB };
        let own = own + (BETWEEN_DB - own) * between;
        (own * own + at(&LABORATORIES_DB, hz).powi(2)).sqrt()
    })
}

/// The same of the sound reduction index of what parts the room from a listener, as it is computed or `measured`.
pub fn partition_deviation_db(measured: bool) -> Spectrum {
    Spectrum::from_fn(|band| {
        if measured {
            return MEASURED_DB;
        }
        let hz = exact_mid_hz(band);
        (at(&PARTITION_DB, hz).powi(2) + at(&LABORATORIES_DB, hz).powi(2)).sqrt()
    })
}

/// Straight lines over log frequency, held at the ends.
fn at(points: &[(f64, f64)], hz: f64) -> f64 {
    let above = points.partition_point(|&(point, _)| point < hz);
    if above == 0 {
        return points[0].1;
    }
    let Some(&(high_hz, high)) = points.get(above) else { return points[above - 1].1 };
    let (low_hz, low) = points[above - 1];
    low + (high - low) * lg(hz / low_hz) / lg(high_hz / low_hz)
}

/// An error in standard deviations by band from standard normal variables: the first for all frequencies together, one for
/// each region of them.
pub(super) fn error(drawn: &[f64; KNOTS + 1]) -> Spectrum {
    let knots = KNOTS_HZ.map(band_position);
    let mut error = Spectrum::constant(0.0);
    for band in 0..BAND_COUNT {
        let position = band as f64;
        let above = knots.partition_point(|&knot| knot < position).clamp(1, KNOTS - 1);
        let part = ((position - knots[above - 1]) / (knots[above] - knots[above - 1])).clamp(0.0, 1.0);
        let region = (1.0 - part) * drawn[above] + part * drawn[above + 1];
        // Between two knots the mean of both would vary less than either.
        let region = region / ((1.0 - part) * (1.0 - part) + part * part).sqrt();
        error[band] = SHARED.sqrt() * drawn[0] + (1.0 - SHARED).sqrt() * region;
    }
    error
}

#[cfg(test)]
mod tests {
    use super::super::points::points;
    use super::*;

    #[test]
    fn errors_have_unit_variance_in_every_band() {
        let points = points(KNOTS + 1, 1024);
        let errors: Vec<Spectrum> = points.iter().map(|point| error(&std::array::from_fn(|k| point[k].normal))).collect();
        for band in 0..BAND_COUNT {
            let square = errors.iter().map(|error| error[band] * error[band]).sum::<f64>() / 1024.0;
            assert!((square - 1.0).abs() < 0.05, "band {band}: {square}");
        }
    }

    #[test]
    fn errors_are_largest_between_the_models_and_never_less_than_between_laboratories() {
        let deviation = method_deviation_db(200.0);
        for band in 0..BAND_COUNT {
            assert!(deviation[band] >= at(&LABORATORIES_DB, exact_mid_hz(band)));
        }
        let at_hz = |hz: f64| deviation[band_position(hz).round() as usize];
        assert!(at_hz(280.0) > at_hz(100.0) && at_hz(280.0) > at_hz(800.0) + 1.0);
    }
}
