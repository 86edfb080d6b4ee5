//! Metric and imperial units at the border of the crate; inside everything is plain SI.

/// Metres in an inch, exact by definition (international yard and pound agreement, 1959).
pub const METRES_PER_INCH: f64 = 0.0254;
/// Kilograms in a pound, exact by definition (international yard and pound agreement, 1959).
pub const KILOGRAMS_PER_POUND: f64 = 0.453_592_37;

/// Millimetres to inches.
pub fn mm_to_inches(mm: f64) -> f64 {
    mm / (1000.0 * METRES_PER_INCH)
}

/// Inches to millimetres.
pub fn inches_to_mm(inches: f64) -> f64 {
    inches * 1000.0 * METRES_PER_INCH
}

/// Metres to feet.
pub fn metres_to_feet(metres: f64) -> f64 {
    metres / (12.0 * METRES_PER_INCH)
}

/// Feet to metres.
pub fn feet_to_metres(feet: f64) -> f64 {
    feet * 12.0 * METRES_PER_INCH
}

/// Square metres to square feet.
pub fn square_metres_to_square_feet(square_metres: f64) -> f64 {
    metres_to_feet(metres_to_feet(square_metres))
}

/// Square feet to square metres.
pub fn square_feet_to_square_metres(square_feet: f64) -> f64 {
    feet_to_metres(feet_to_metres(square_feet))
}

/// Kilograms to pounds.
pub fn kilograms_to_pounds(kilograms: f64) -> f64 {
    kilograms / KILOGRAMS_PER_POUND
}
