//! How easily a box tips over on its feet, closed or with its lid hanging out.

use serde::{Deserialize, Serialize};

use super::carry::Mass;
use crate::enclosure::FREE_FALL;
use crate::math::{atan, sin_cos};

/// Tilt in degrees below which a thing must not fall over (stability test of IEC 60950-1 and IEC 62368-1: 10 degrees from the
/// normal position; from memory). A box that falls over at less asks for caution.
pub const CAUTION_DEG: f64 = 10.0;

/// An edge of the rectangle that the feet span, by the direction in which it lies from the middle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Edge {
    /// Towards smaller lengths.
    LengthStart,
    /// Towards greater lengths.
    LengthEnd,
    /// Towards smaller widths.
    WidthStart,
    /// Towards greater widths.
    WidthEnd,
}

impl Edge {
    /// All four.
    pub const ALL: [Self; 4] = [Self::LengthStart, Self::LengthEnd, Self::WidthStart, Self::WidthEnd];

    /// The axis in which it lies, 0 the length and 1 the width, and the sign of its direction.
    fn axis_and_sign(self) -> (usize, f64) {
        match self {
            Self::LengthStart => (0, -1.0),
            Self::LengthEnd => (0, 1.0),
            Self::WidthStart => (1, -1.0),
            Self::WidthEnd => (1, 1.0),
        }
    }
}

/// A box on its feet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct OnFeet {
    /// Distances in m between the outermost feet along length and width, positive.
    pub support_m: [f64; 2],
    /// Whole mass, its centre measured from the middle between the feet on the floor: height positive.
    pub mass: Mass,
}

/// What it takes to tip it over one edge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct EdgeTipping {
    /// Which edge.
    pub edge: Edge,
    /// Tilt in degrees at which it falls over by itself; negative where it falls already.
    pub angle_deg: f64,
    /// Horizontal force in N that tips it, if the feet do not slip; zero where it falls already.
    pub push_n: f64,
}

/// How safe it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Caution {
    /// It stands tilts of at least [`CAUTION_DEG`].
    Stands,
    /// It falls over when tilted by less.
    TipsEasily,
    /// It falls over on the level.
    Falls,
}

/// How a box on its feet tips.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tipping {
    /// About every edge, in the order of [`Edge::ALL`].
    pub edges: [EdgeTipping; 4],
    /// The one over which it tips first.
    pub weakest: EdgeTipping,
    /// What follows from that one.
    pub caution: Caution,
}

/// How `standing` tips about every edge, pushed at `push_height_m` above the floor (positive).
///
/// The centre of mass is above the edge at a tilt of atan(distance/height); pushing at height z takes m g distance/z.
pub fn tipping(standing: &OnFeet, push_height_m: f64) -> Tipping {
    let edges = Edge::ALL.map(|edge| {
        let (axis, sign) = edge.axis_and_sign();
        let distance_m = 0.5 * standing.support_m[axis] - sign * standing.mass.at_m[axis];
        let angle_deg = atan(distance_m / standing.mass.at_m[2]).to_degrees();
        let push_n = FREE_FALL * standing.mass.kg * (distance_m.max(0.0) / push_height_m);
        EdgeTipping { edge, angle_deg, push_n }
    });
    let first = |weakest: EdgeTipping, edge: &EdgeTipping| if edge.angle_deg < weakest.angle_deg { *edge } else { weakest };
    let weakest = edges.iter().fold(edges[0], first);
    let caution = if weakest.angle_deg <= 0.0 {
        Caution::Falls
    } else if weakest.angle_deg < CAUTION_DEG {
        Caution::TipsEasily
    } else {
        Caution::Stands
    };
    Tipping { edges, weakest, caution }
}

/// Forces in N under four equal, slightly springy feet at the corners: start of length and width first, then the end of the
/// length, then both ends, then the end of the width. A stiff box sinks in a plane, so that each takes
/// m g (1/4 + x/(2 a) + y/(2 b)) with the signs of its corner; negative where that foot would lift off.
pub fn foot_loads_n(standing: &OnFeet) -> [f64; 4] {
    let [lean_length, lean_width] = [0, 1].map(|axis| 0.5 * standing.mass.at_m[axis] / standing.support_m[axis]);
    [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]]
        .map(|[length, width]| FREE_FALL * standing.mass.kg * (0.25 + length * lean_length + width * lean_width))
}

/// The lid after it was swung by `angle_rad` outwards, towards `edge`, about a horizontal hinge through `hinge_m` that is
/// parallel to that edge: first up, then out and down. At half a turn a top lid hangs out level.
pub fn swung(lid: &Mass, hinge_m: [f64; 3], edge: Edge, angle_rad: f64) -> Mass {
    let (axis, sign) = edge.axis_and_sign();
    let (s, c) = sin_cos(angle_rad);
    let (out, up) = (sign * (lid.at_m[axis] - hinge_m[axis]), lid.at_m[2] - hinge_m[2]);
    let mut at_m = lid.at_m;
    at_m[axis] = hinge_m[axis] + sign * (out * c + up * s);
    at_m[2] = hinge_m[2] + up * c - out * s;
    Mass { at_m, ..*lid }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::super::carry::together;
    use super::*;

    fn on_feet(support_m: [f64; 2], kg: f64, at_m: [f64; 3]) -> OnFeet {
        OnFeet { support_m, mass: Mass { kg, at_m } }
    }

    /// A uniform cube stands to 45 degrees, and pushed at its upper edge it tips at half its weight (statics).
    #[test]
    fn cube() {
        let tips = tipping(&on_feet([1.0, 1.0], 100.0, [0.0, 0.0, 0.5]), 1.0);
        for edge in tips.edges {
            assert!((edge.angle_deg - 45.0).abs() < 1e-12 && (edge.push_n - 490.3325).abs() < 1e-9, "{edge:?}");
        }
        assert_eq!(tips.caution, Caution::Stands);
    }

    #[test]
    fn the_edge_under_the_offset_is_the_weakest() {
        let tips = tipping(&on_feet([1.0, 0.5], 50.0, [0.0, 0.2, 0.5]), 1.0);
        assert_eq!((tips.weakest.edge, tips.caution), (Edge::WidthEnd, Caution::TipsEasily));
        // 0.05 m over 0.5 m: 5.7106 degrees.
        assert!((tips.weakest.angle_deg - 5.7106).abs() < 1e-4);
        let falls = tipping(&on_feet([1.0, 0.5], 50.0, [-0.6, 0.0, 0.5]), 1.0);
        assert_eq!((falls.weakest.edge, falls.caution, falls.weakest.push_n), (Edge::LengthStart, Caution::Falls, 0.0));
    }

    /// A top lid of 20 kg, 0.6 m wide, hinged at the back upper edge: half a turn puts its centre 0.3 m behind the hinge.
    #[test]
    fn an_open_lid_hangs_out() {
        let (body, lid) = (Mass { kg: 40.0, at_m: [0.0, 0.0, 0.4] }, Mass { kg: 20.0, at_m: [0.0, 0.0, 0.8] });
        let hinge_m = [0.0, 0.3, 0.8];
        let half = swung(&lid, hinge_m, Edge::WidthEnd, 0.5 * PI);
        let full = swung(&lid, hinge_m, Edge::WidthEnd, PI);
        for (got, by_hand) in [(half.at_m, [0.0, 0.3, 1.1]), (full.at_m, [0.0, 0.6, 0.8])] {
            assert!((0..3).all(|axis| (got[axis] - by_hand[axis]).abs() < 1e-12), "{got:?}");
        }
        let angle = |lid: Mass| {
            let mass = together(&[body, lid]).expect("it weighs something");
            tipping(&OnFeet { support_m: [0.8, 0.5], mass }, 0.8).weakest.angle_deg
        };
        // (40 x 0 + 20 x 0.6)/60 = 0.2 m: 0.05 m to the edge, at a height of 32/60 m.
        assert!((angle(full) - (0.05_f64 / (32.0 / 60.0)).atan().to_degrees()).abs() < 1e-9);
        assert!(angle(full) < angle(half) && angle(half) < angle(lid));
    }

    /// A front lid hinged at its lower edge falls outwards.
    #[test]
    fn a_front_lid_swings_out_and_down() {
        let lid = Mass { kg: 10.0, at_m: [0.0, -0.3, 0.4] };
        let open = swung(&lid, [0.0, -0.3, 0.1], Edge::WidthStart, 0.5 * PI);
        assert!((open.at_m[1] + 0.6).abs() < 1e-12 && (open.at_m[2] - 0.1).abs() < 1e-12, "{open:?}");
    }
}
