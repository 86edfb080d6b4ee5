//! Nested boxes: inside, shells, gap, outside; areas and volumes.

/// Faces of a box: area of all six in m2.
pub fn surface_area_m2([l, w, h]: [f64; 3]) -> f64 {
    2.0 * (l * w + w * h + h * l)
}

/// Volume in m3.
pub fn volume_m3([l, w, h]: [f64; 3]) -> f64 {
    l * w * h
}

/// The box that is thicker by `thickness_m` on every side.
pub fn grown([l, w, h]: [f64; 3], thickness_m: f64) -> [f64; 3] {
    [l + 2.0 * thickness_m, w + 2.0 * thickness_m, h + 2.0 * thickness_m]
}

/// The rectangle in m that stands for the six faces of a box: their mean area and their mean perimeter.
///
/// Where no rectangle has both (faces of very unequal size), a square of the mean area.
pub fn representative_face_m([l, w, h]: [f64; 3]) -> [f64; 2] {
    let area = surface_area_m2([l, w, h]) / 6.0;
    let half_perimeter = 2.0 * (l + w + h) / 3.0;
    let difference = (half_perimeter * half_perimeter - 4.0 * area).max(0.0).sqrt();
    if difference == 0.0 {
        return [area.sqrt(); 2];
    }
    [0.5 * (half_perimeter + difference), 0.5 * (half_perimeter - difference)]
}
