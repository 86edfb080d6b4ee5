//! A slit through a shell: a chain of pieces, each with its height, its depth along the path and what is in it.
//!
//! Two-dimensional plane waves between the faces of the slit; bends and the air masses where the height changes are left out
//! (both below a height in length). Gomperts & Kihlman (1967) is the case of one piece without friction.

use std::f64::consts::PI;

use crate::air::Air;
use crate::math::complex;

use super::narrow::ChannelFluid;
use super::radiation::{SlitEnd, strip_end};
use super::two_port::{OpeningAt, TwoPort};

/// What is in a piece of a slit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Medium {
    /// Air, with viscosity and heat conduction at the faces.
    Air,
    /// The same between boards whose faces absorb a little: the air's compression has this loss factor.
    LossyAir(f64),
    /// Porous material of this flow resistivity in Pa s/m2, from face to face.
    Porous(f64),
}

/// A piece of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// Height between the faces in m.
    pub height_m: f64,
    /// Depth along the path in m.
    pub depth_m: f64,
    /// What is in it.
    pub medium: Medium,
}

impl Segment {
    fn two_port(&self, length_m: f64, hz: f64, air: &Air) -> TwoPort {
        let fluid = match self.medium {
            Medium::Air => ChannelFluid::slit(self.height_m, hz, air),
            Medium::LossyAir(loss_factor) => {
                let still = ChannelFluid::slit(self.height_m, hz, air);
                ChannelFluid { compressibility: still.compressibility * complex(1.0, -loss_factor), ..still }
            }
            Medium::Porous(flow_resistivity) => ChannelFluid::porous(flow_resistivity, hz, air),
        };
        TwoPort::channel(fluid, self.height_m * length_m, self.depth_m, 2.0 * PI * hz)
    }
}

/// A slit that follows `path` from the inside out and runs in a loop of `length_m`, at `hz`.
///
/// Equal pieces are computed once. A path without pieces is no opening.
pub fn slit_at(path: &[Segment], length_m: f64, ends: [SlitEnd; 2], hz: f64, air: &Air) -> OpeningAt {
    let [Some(first), Some(last)] = [path.first(), path.last()] else { return OpeningAt::NONE };
    let mut known: [Option<(Segment, TwoPort)>; 2] = [None; 2];
    let mut chain = TwoPort::IDENTITY;
    for (index, segment) in path.iter().enumerate() {
        let seen = known.iter().flatten().find(|(known, _)| known == segment).map(|&(_, two_port)| two_port);
        let two_port = seen.unwrap_or_else(|| {
            let two_port = segment.two_port(length_m, hz, air);
            known[index % 2] = Some((*segment, two_port));
            two_port
        });
        chain = chain.then(&two_port);
    }
    let end_of = |piece: &Segment, end| strip_end(piece.height_m, length_m, end, hz, air);
    let near = end_of(first, ends[0]);
    let alike = ends[0] == ends[1] && first.height_m == last.height_m;
    let far = if alike { near } else { end_of(last, ends[1]) };
    chain.between([near, far], air)
}
