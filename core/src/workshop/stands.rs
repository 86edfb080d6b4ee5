//! Where feet, springs and straps go.

/// How far from the middle the outermost supports stand, as a part of half the side; assumed: near the corners, with room for
/// their fittings.
const SPREAD: f64 = 0.7;

/// Places of `count` supports under a base of length and width `base_mm` along those axes in mm from its middle, so that each
/// carries the same of a mass whose centre lies at `centre_mm`: two rows along the length, three a triangle.
///
/// The pattern as a whole moves with the mass, as far as the base lets it.
pub fn support_places(count: usize, base_mm: [f64; 2], centre_mm: [f64; 2]) -> Vec<[f64; 2]> {
    let half = base_mm.map(|side| 0.5 * SPREAD * side);
    let row = |count: usize, y: f64| -> Vec<[f64; 2]> {
        let step = |k: usize| if count > 1 { 2.0 * k as f64 / (count - 1) as f64 - 1.0 } else { 0.0 };
        (0..count).map(|k| [half[0] * step(k), y]).collect()
    };
    let mut places = match count {
        0 => Vec::new(),
        1 | 2 => row(count, 0.0),
        _ => [row(count.div_ceil(2), -half[1]), row(count / 2, half[1])].concat(),
    };
    if places.is_empty() {
        return places;
    }
    let mean = |axis: usize| places.iter().map(|place| place[axis]).sum::<f64>() / places.len() as f64;
    let free = base_mm.map(|side| 0.5 * (1.0 - SPREAD) * side);
    let shift: [f64; 2] = std::array::from_fn(|axis| (centre_mm[axis] - mean(axis)).clamp(-free[axis], free[axis]));
    for place in &mut places {
        *place = std::array::from_fn(|axis| place[axis] + shift[axis]);
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_middle_of_the_supports_lies_under_the_mass() {
        for count in 1..13 {
            let places = support_places(count, [800.0, 600.0], [20.0, -15.0]);
            assert_eq!(places.len(), count);
            for (axis, centre) in [20.0, -15.0].into_iter().enumerate() {
                let mean = places.iter().map(|place| place[axis]).sum::<f64>() / count as f64;
                // An odd one out leans its row; what the base does not allow stays.
                assert!((mean - centre).abs() < 1e-9 || count == 3, "{count}: {mean}");
            }
            assert!(places.iter().all(|[x, y]| x.abs() <= 400.0 && y.abs() <= 300.0), "{places:?}");
        }
    }
}
