//! The network at one frequency: its nodes and what each source in it brings.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::{Branch, Network, OpeningsAt, Passage, Response};
use crate::math::complex;

/// A branch at one frequency.
#[derive(Clone, Copy)]
pub(super) struct BranchAt {
    /// What the openings take in beside what goes through, from behind the shell.
    pub(super) far: Complex64,
    /// Parts of walls, leaks and holes in what goes through.
    pub(super) shares: [Complex64; 3],
    pub(super) through: Complex64,
    pub(super) spring: Complex64,
    pub(super) response: Response,
    pub(super) area_m2: f64,
}

impl BranchAt {
    /// Part of a volume velocity into the chamber that comes out behind a shell held at no pressure.
    pub(super) fn forward(&self) -> Complex64 {
        self.through / (self.spring + self.through)
    }

    /// Pressure in the chamber for 1 m3/s into it, with the pressure `node` behind the shell.
    pub(super) fn pressure(&self, node: Complex64) -> Complex64 {
        (self.through * node + 1.0) / (self.spring + self.through)
    }

    /// Admittance of the chamber seen from behind the shell.
    pub(super) fn load(&self) -> Complex64 {
        self.spring * self.forward() + self.far
    }
}

/// The gap and the outer shell at one frequency.
#[derive(Clone, Copy)]
pub(super) struct OuterAt {
    pub(super) shares: [Complex64; 3],
    /// What leaves per pressure in the gap, with the radiation outside.
    pub(super) outward: Complex64,
    /// What is taken in per pressure in the gap.
    pub(super) taken: Complex64,
    pub(super) response: Response,
    pub(super) end_panel: Complex64,
    pub(super) area_m2: f64,
}

/// The network at one frequency.
pub(super) struct NetworkAt {
    /// x = k sqrt(S/(2 pi)).
    pub(super) size: f64,
    /// Part of its power as a small source that a volume velocity radiates when it is spread over the whole box.
    pub(super) breathing: f64,
    /// The same along the edge of the lid.
    pub(super) line: f64,
    pub(super) radiation: Complex64,
    pub(super) front: BranchAt,
    pub(super) rear: Option<BranchAt>,
    pub(super) outer: Option<OuterAt>,
    /// Volume velocity that leaves the vents per pressure in the front chamber.
    pub(super) vented: Complex64,
    /// Admittance of all that hangs on the node behind the inner shell.
    pub(super) at_node: Complex64,
}

impl NetworkAt {
    pub(super) fn new(network: &Network, hz: f64, openings: &OpeningsAt) -> Self {
        let air = &network.air;
        let j_omega = complex(0.0, 2.0 * PI * hz);
        let size = air.wavenumber(hz) * (network.free_surface_m2 / (2.0 * PI)).sqrt();
        let radiation = complex(0.0, size) / complex(1.0, size) * (air.impedance() / network.free_surface_m2);
        let breathing = 1.0 / (1.0 + size * size);
        // A hole is small on its own. The edge of a lid is a line: rho w/2 a metre where it is long against the wavelength.
        let line = (1.0 / (1.0 + air.wavenumber(hz) * network.lid_edge_m / PI)).max(breathing);
        // What openings radiate beyond the box as a whole resists what comes out of them.
        let small = air.density * j_omega.im * j_omega.im / (2.0 * PI * air.speed);
        let outermost = |openings: [Passage; 2]| {
            let [leaks, holes] = openings;
            [leaks.radiating(small * (line - breathing)), holes.radiating(small * (1.0 - breathing))]
        };
        let branch = |branch: &Branch, vents: Complex64| {
            let response = branch.faces.response(hz);
            let inner = [openings.inner.leaks * branch.lid_share, openings.inner.holes * branch.holes_share];
            let [leaks, holes] = if network.outer.is_some() { inner } else { outermost(inner) };
            let parts = [response.admittance, leaks.through, holes.through];
            let through = parts[0] + parts[1] + parts[2];
            BranchAt {
                shares: parts.map(|part| part / through),
                through,
                spring: j_omega * branch.chamber.compliance(hz, air) + leaks.near + holes.near + vents,
                far: leaks.far + holes.far,
                response,
                area_m2: branch.faces.area_m2(),
            }
        };
        let vents = openings.vents.radiating(small);
        let front = branch(&network.front, vents.through + vents.near);
        let rear = network.rear.as_ref().map(|rear| branch(rear, complex(0.0, 0.0)));
        let outer = network.outer.as_ref().map(|outer| {
            let response = outer.faces.response(hz);
            let [leaks, holes] = outermost([openings.outer.leaks, openings.outer.holes]);
            let parts = [response.admittance, leaks.through, holes.through];
            let through = parts[0] + parts[1] + parts[2];
            let outward = through / ((through + leaks.far + holes.far) * radiation + 1.0);
            OuterAt {
                shares: parts.map(|part| part / through),
                outward,
                taken: leaks.near + holes.near + through - through * radiation * outward,
                response,
                end_panel: outer.faces.0.last().map_or(complex(0.0, 0.0), |(panel, _)| panel.response(hz).admittance),
                area_m2: outer.faces.area_m2(),
            }
        });
        let behind = match (&network.outer, &outer) {
            (Some(shell), Some(outer)) => outer.taken + j_omega * shell.gap.compliance(hz, air),
            _ => complex(1.0, 0.0) / radiation,
        };
        let at_node = behind + front.load() + rear.as_ref().map_or(complex(0.0, 0.0), BranchAt::load);
        Self { size, breathing, line, radiation, front, rear, outer, vented: vents.through, at_node }
    }

    /// What vanishes at the resonances of the whole, were there no losses: the determinant of the nodes' admittances, over j for
    /// each of them, so that it is real then. Scaled to stay of the order of 1.
    pub(super) fn balance(&self) -> f64 {
        let mut product = complex(1.0, 0.0);
        let rear = self.rear.as_ref();
        for node in
            [Some(self.front.spring + self.front.through), rear.map(|rear| rear.spring + rear.through), Some(self.at_node)]
        {
            let Some(node) = node else { continue };
            product = product * node / complex(0.0, node.l1_norm());
        }
        product.re
    }

    /// Pressure behind the inner shell for 1 m3/s into the chamber of `source`.
    pub(super) fn node(&self, source: &BranchAt) -> Complex64 {
        source.forward() / self.at_node
    }

    /// Volume velocity that leaves the outermost shell for 1 m3/s into the chamber of `source`.
    pub(super) fn leaving(&self, source: &BranchAt) -> Complex64 {
        let node = self.node(source);
        self.outer.as_ref().map_or_else(|| node / self.radiation, |outer| node * outer.outward)
    }

    /// Parts of walls, leaks and holes in what leaves the outermost shell.
    pub(super) fn outermost_shares(&self, source: &BranchAt) -> [Complex64; 3] {
        self.outer.as_ref().map_or(source.shares, |outer| outer.shares)
    }

    /// What leaves, by path; what goes through a leak in one shell and a hole in the other counts half with either.
    pub(super) fn exits(&self, source: &BranchAt) -> Exits {
        let zero = complex(0.0, 0.0);
        let [w1, l1, h1] = source.shares;
        let Some(outer) = &self.outer else {
            return Exits { walls: [w1, zero, zero], leaks: [zero, l1, zero], holes: [zero, zero, h1] };
        };
        let [w2, l2, h2] = outer.shares;
        Exits {
            walls: [w1 * w2, zero, zero],
            leaks: [l1 * w2, (w1 + l1 + h1 * 0.5) * l2, l1 * h2 * 0.5],
            holes: [h1 * w2, h1 * l2 * 0.5, (w1 + h1 + l1 * 0.5) * h2],
        }
    }
}

/// Parts of what leaves the outermost shell, for each path by the way it leaves: through walls, leaks and holes.
pub(super) struct Exits {
    pub(super) walls: [Complex64; 3],
    pub(super) leaks: [Complex64; 3],
    pub(super) holes: [Complex64; 3],
}
