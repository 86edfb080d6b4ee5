//! Nested boxes: inside, shells, gap, outside; areas and volumes.

/// Faces of a box: area of all six in m2.
pub fn surface_area_m2([l, w, h]: [f64; 3]) -> f64 {
    2.0 * (l * w + w * h + h * l)
}

/// Volume in m3.
pub fn volume_m3([l, w, h]: [f64; 3]) -> f64 {
    l * w * h
}

/// Sum of the perimeters of the six faces in m.
pub fn face_perimeters_m([l, w, h]: [f64; 3]) -> f64 {
    8.0 * (l + w + h)
}

/// The box that is thicker by `thickness_m` on every side.
pub fn grown([l, w, h]: [f64; 3], thickness_m: f64) -> [f64; 3] {
    [l + 2.0 * thickness_m, w + 2.0 * thickness_m, h + 2.0 * thickness_m]
}

/// Mean over the faces of half area over quarter perimeter, 2 S/P, in m: the size that the finite-size window takes.
pub fn mean_half_width_m(size_m: [f64; 3]) -> f64 {
    2.0 * surface_area_m2(size_m) / face_perimeters_m(size_m)
}
