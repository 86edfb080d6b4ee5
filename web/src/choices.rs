//! Things that are chosen by name: keys and the words for them.

use hushwright::buildup::raw::Side;

/// Sides of a gap on which its fill may lie: type, key, words.
pub const SIDES: [(Side, &str, &str); 3] = [
    (Side::First, "first", "on the inner box"),
    (Side::Second, "second", "on the outer box"),
    (Side::Middle, "middle", "in the middle"),
];

/// Mean absorption coefficients in words; assumed, rounded from rooms of the kind (no source).
pub const ROOMS: [(f64, &str); 5] = [
    (0.05, "bare: concrete, tiles, glass"),
    (0.1, "workshop or garage, some goods"),
    (0.2, "living room"),
    (0.3, "bedroom: bed, carpet, curtains"),
    (0.5, "treated for recording"),
];

/// The words for an absorption coefficient that is one of [`ROOMS`].
pub fn room(absorption: f64) -> Option<&'static str> {
    ROOMS.into_iter().find(|(value, _)| (value - absorption).abs() < 1e-9).map(|(_, words)| words)
}

/// Key of a fill's side.
pub fn side_key(side: Side) -> &'static str {
    SIDES.into_iter().find(|(own, _, _)| *own == side).map_or("", |(_, key, _)| key)
}
