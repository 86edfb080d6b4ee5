//! The threshold of hearing.

use crate::bands::Spectrum;

/// Level in dB by band below which a young person with normal hearing hears nothing: pure tones, free field from the front,
/// both ears (ISO 226:2003, Table 1, column T_f; the values of ISO 389-7).
pub const THRESHOLD_DB: Spectrum = Spectrum([
    68.7, 59.5, 51.1, 44.0, 37.5, 31.5, 26.5, 22.1, 17.9, 14.4, 11.4, 8.6, 6.2, 4.4, 3.0, 2.2, 2.4, 3.5, 1.7, -1.3, -4.2, -6.0,
    -5.4, -1.5, 6.0, 12.6, 13.9,
]);
