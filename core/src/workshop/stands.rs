//! Where feet, springs and straps go.

/// How far from the middle the outermost supports stand, as a part of half the side; assumed: near the corners, with room for
/// their fittings.
const SPREAD: f64 = 0.7;
/// Nearer than this part of the side no support stands to an edge, nor than [`EDGE_MM`] where the side has room for that; assumed.
const EDGE: f64 = 0.1;
/// The same in mm: half of a usual pad and its screws.
const EDGE_MM: f64 = 40.0;
/// Supports are at least this part of the side apart from the middle of their pattern; assumed.
const LEAST: f64 = 0.15;

/// Places of `count` supports under a base of length and width `base_mm` along those axes in mm from its middle, so that each
/// carries the same of a mass whose centre lies at `centre_mm`: two rows along the length, three a triangle.
///
/// The pattern stays centred under the mass: it grows narrower where an edge is near, and only where it would become too narrow
/// does it stay behind; see [`loads`].
pub fn support_places(count: usize, base_mm: [f64; 2], centre_mm: [f64; 2]) -> Vec<[f64; 2]> {
    let side = |axis: usize| {
        let most = 0.5 * base_mm[axis] - EDGE_MM.min(0.5 * base_mm[axis] * SPREAD).max(EDGE * base_mm[axis]);
        let least = (LEAST * base_mm[axis]).min(most);
        let half = (most - centre_mm[axis].abs()).clamp(least, (0.5 * SPREAD * base_mm[axis]).max(least)).min(most);
        (half, centre_mm[axis].clamp(half - most, most - half))
    };
    let [(half_x, shift_x), (half_y, shift_y)] = [side(0), side(1)];
    let row = |count: usize, y: f64| -> Vec<[f64; 2]> {
        let step = |k: usize| if count > 1 { 2.0 * k as f64 / (count - 1) as f64 - 1.0 } else { 0.0 };
        (0..count).map(|k| [half_x * step(k) + shift_x, y + shift_y]).collect()
    };
    match count {
        0 => Vec::new(),
        1 | 2 => row(count, 0.0),
        // Of an odd number the fuller row stands nearer to the middle, so that all carry the same.
        _ => {
            let [full, rest] = [count.div_ceil(2), count / 2];
            [row(full, -half_y * rest as f64 / full as f64), row(rest, half_y)].concat()
        }
    }
}

/// What each of equal springs at `places_mm` carries of `kg` whose centre lies at `centre_mm`, in kg, under a stiff box: the same
/// all over where the centre lies in the middle of them, else more on its side. Negative: that one would lift off.
pub fn loads(kg: f64, places_mm: &[[f64; 2]], centre_mm: [f64; 2]) -> Vec<f64> {
    let count = places_mm.len() as f64;
    let mean = |axis: usize| places_mm.iter().map(|place| place[axis]).sum::<f64>() / count;
    let lean = |axis: usize| {
        let middle = mean(axis);
        let square: f64 = places_mm.iter().map(|place| (place[axis] - middle) * (place[axis] - middle)).sum();
        let slope = if square > 0.0 { (centre_mm[axis] - middle) / square } else { 0.0 };
        (middle, slope)
    };
    let leans = [lean(0), lean(1)];
    let load = |place: &[f64; 2]| {
        let more: f64 = leans.iter().zip(place).map(|((middle, slope), at)| slope * (at - middle)).sum();
        kg * (1.0 / count + more)
    };
    places_mm.iter().map(load).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_middle_of_the_supports_lies_under_the_mass() {
        for count in 1..13 {
            for centre in [[0.0, 0.0], [20.0, -15.0], [180.0, 140.0], [-200.0, 0.0]] {
                let places = support_places(count, [800.0, 600.0], centre);
                assert_eq!(places.len(), count);
                for load in loads(60.0, &places, centre) {
                    assert!((load - 60.0 / count as f64).abs() < 1e-6, "{count} at {centre:?}: {load}");
                }
            }
        }
    }

    #[test]
    fn no_support_stands_on_an_edge() {
        for base in [[800.0, 600.0], [100.0, 130.0], [3000.0, 400.0]] {
            for (across, up) in [(0.0, 0.0), (0.3, -0.2), (0.49, 0.49), (-0.49, 0.1)] {
                for place in support_places(4, base, [across * base[0], up * base[1]]) {
                    for (at, side) in place.into_iter().zip(base) {
                        assert!(at.abs() <= 0.5 * side - (0.1 * side).min(40.0) + 1e-9, "{place:?} under {base:?}");
                    }
                }
            }
        }
    }

    /// Two springs 1 m apart, the mass 0.2 m off the middle: by the lever 0.7 and 0.3 of it.
    #[test]
    fn loads_by_the_lever() {
        let loads = loads(10.0, &[[-500.0, 0.0], [500.0, 0.0]], [200.0, 0.0]);
        assert!((loads[0] - 3.0).abs() < 1e-9 && (loads[1] - 7.0).abs() < 1e-9, "{loads:?}");
    }
}
