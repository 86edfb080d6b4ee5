//! The network at one frequency: its nodes and what each source in it brings.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::{Branch, Network, OpeningsAt, Passage, RATIOS, Response};
use crate::air::Air;
use crate::math::complex;

/// A branch at one frequency.
#[derive(Clone, Copy)]
pub(crate) struct BranchAt {
    /// What the openings take in beside what goes through, from behind the shell.
    pub(crate) far: Complex64,
    /// Parts of walls, leaks and holes in what goes through.
    pub(crate) shares: [Complex64; 3],
    pub(crate) through: Complex64,
    pub(crate) spring: Complex64,
    pub(crate) response: Response,
    pub(crate) area_m2: f64,
}

impl BranchAt {
    /// A chamber of `compliance`, times j w, whose walls give `response`, with its openings to behind the shell and `vents` past it.
    pub(crate) fn new(
        response: Response,
        area_m2: f64,
        compliance: Complex64,
        [leaks, holes]: [Passage; 2],
        vents: Complex64,
    ) -> Self {
        let parts = [response.admittance, leaks.through, holes.through];
        let through = parts[0] + parts[1] + parts[2];
        Self {
            shares: parts.map(|part| part / through),
            through,
            spring: compliance + leaks.near + holes.near + vents,
            far: leaks.far + holes.far,
            response,
            area_m2,
        }
    }

    /// Part of a volume velocity into the chamber that comes out behind a shell held at no pressure.
    pub(crate) fn forward(&self) -> Complex64 {
        self.through / (self.spring + self.through)
    }

    /// Pressure in the chamber for 1 m3/s into it, with the pressure `node` behind the shell.
    pub(crate) fn pressure(&self, node: Complex64) -> Complex64 {
        (self.through * node + 1.0) / (self.spring + self.through)
    }

    /// Admittance of the chamber seen from behind the shell.
    pub(crate) fn load(&self) -> Complex64 {
        self.spring * self.forward() + self.far
    }
}

/// The gap and the outer shell at one frequency.
#[derive(Clone, Copy)]
pub(crate) struct OuterAt {
    pub(crate) shares: [Complex64; 3],
    /// What leaves per pressure in the gap, with the radiation outside.
    pub(crate) outward: Complex64,
    /// What is taken in per pressure in the gap, in the end with its own air.
    pub(crate) taken: Complex64,
    pub(crate) response: Response,
    pub(super) end_panel: Complex64,
    pub(crate) area_m2: f64,
}

impl OuterAt {
    /// The shell whose walls give `response`, without the air of the gap.
    pub(crate) fn new(response: Response, area_m2: f64, openings: [Passage; 2], outside: &Outside, end_panel: Complex64) -> Self {
        let [leaks, holes] = outside.outermost(openings);
        let parts = [response.admittance, leaks.through, holes.through];
        let through = parts[0] + parts[1] + parts[2];
        let radiation = outside.radiation;
        let outward = through / ((through + leaks.far + holes.far) * radiation + 1.0);
        Self {
            shares: parts.map(|part| part / through),
            outward,
            taken: leaks.near + holes.near + through - through * radiation * outward,
            response,
            end_panel,
            area_m2,
        }
    }

    /// The same with a gap whose air takes in `gap` per pressure.
    #[must_use]
    pub(crate) fn with_gap(self, gap: Complex64) -> Self {
        Self { taken: self.taken + gap, ..self }
    }
}

/// What lies round the whole at one frequency: how its outside radiates.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Outside {
    /// Part of its power as a small source that a volume velocity radiates when it is spread over the whole box.
    pub(crate) breathing: f64,
    /// The same along the edge of the lid.
    pub(crate) line: f64,
    /// What motion without volume radiates over that.
    pub(crate) swinging: f64,
    /// Impedance in Pa s/m3 that the outside meets.
    pub(crate) radiation: Complex64,
    /// Resistance in Pa s/m3 of a small source on the floor.
    small: f64,
}

impl Outside {
    /// A box of this free surface, floor excepted, and length of the edge of its lid.
    pub(crate) fn new(free_surface_m2: f64, lid_edge_m: f64, hz: f64, air: &Air) -> Self {
        let omega = 2.0 * PI * hz;
        // x = k sqrt(S/(2 pi)).
        let size = air.wavenumber(hz) * (free_surface_m2 / (2.0 * PI)).sqrt();
        let breathing = 1.0 / (1.0 + size * size);
        Self {
            breathing,
            // A hole is small on its own. The edge of a lid is a line: rho w/2 a metre where it is long against the wavelength.
            line: (1.0 / (1.0 + air.wavenumber(hz) * lid_edge_m / PI)).max(breathing),
            swinging: size * size / (4.0 + size.powi(4)),
            radiation: complex(0.0, size) / complex(1.0, size) * (air.impedance() / free_surface_m2),
            small: air.density * omega * omega / (2.0 * PI * air.speed),
        }
    }

    /// Leaks and holes of the outermost shell: what openings radiate beyond the box as a whole resists what comes out of them.
    pub(crate) fn outermost(&self, [leaks, holes]: [Passage; 2]) -> [Passage; 2] {
        [leaks.radiating(self.small * (self.line - self.breathing)), holes.radiating(self.small * (1.0 - self.breathing))]
    }

    /// Vents, whose ends are small sources.
    pub(crate) fn vents(&self, vents: Passage) -> Passage {
        vents.radiating(self.small)
    }
}

/// What of an answer's motion brings no volume, in m6/(s Pa)2.
pub(crate) fn volumeless(response: &Response, area_m2: f64) -> f64 {
    (area_m2 * response.square_velocity - response.admittance.norm_sqr()).max(0.0)
}

/// The network at one frequency.
pub(crate) struct NetworkAt {
    outside: Outside,
    pub(super) front: BranchAt,
    pub(super) rear: Option<BranchAt>,
    pub(super) outer: Option<OuterAt>,
    /// Volume velocity that leaves the vents per pressure in the front chamber.
    vented: Complex64,
    /// Admittance of all that hangs on the node behind the inner shell.
    at_node: Complex64,
}

impl NetworkAt {
    pub(super) fn new(network: &Network, hz: f64, openings: &OpeningsAt) -> Self {
        let air = &network.air;
        let j_omega = complex(0.0, 2.0 * PI * hz);
        let outside = Outside::new(network.free_surface_m2, network.lid_edge_m, hz, air);
        let branch = |branch: &Branch, vents: Complex64| {
            let inner = [openings.inner.leaks * branch.lid_share, openings.inner.holes * branch.holes_share];
            let inner = if network.outer.is_some() { inner } else { outside.outermost(inner) };
            let compliance = j_omega * branch.chamber.compliance(hz, air);
            BranchAt::new(branch.faces.response(hz), branch.faces.area_m2(), compliance, inner, vents)
        };
        let vents = outside.vents(openings.vents);
        let front = branch(&network.front, vents.through + vents.near);
        let rear = network.rear.as_ref().map(|rear| branch(rear, complex(0.0, 0.0)));
        let outer = network.outer.as_ref().map(|outer| {
            let openings = [openings.outer.leaks, openings.outer.holes];
            let end_panel = outer.faces.0.last().map_or(complex(0.0, 0.0), |(panel, _)| panel.response(hz).admittance);
            let gap = j_omega * outer.gap.compliance(hz, air);
            OuterAt::new(outer.faces.response(hz), outer.faces.area_m2(), openings, &outside, end_panel).with_gap(gap)
        });
        Self::joined(outside, front, rear, outer, vents.through)
    }

    /// The network of shells and openings that are known one by one.
    pub(crate) fn joined(
        outside: Outside,
        front: BranchAt,
        rear: Option<BranchAt>,
        outer: Option<OuterAt>,
        vented: Complex64,
    ) -> Self {
        let behind = outer.as_ref().map_or(complex(1.0, 0.0) / outside.radiation, |outer| outer.taken);
        let at_node = behind + front.load() + rear.as_ref().map_or(complex(0.0, 0.0), BranchAt::load);
        Self { outside, front, rear, outer, vented, at_node }
    }

    /// Ratios of [`Network::at`], motion left out: it is zero.
    pub(crate) fn ratios(&self, hz: f64, air: &Air) -> [f64; RATIOS] {
        let omega = 2.0 * PI * hz;
        let Outside { breathing, line, swinging, radiation, .. } = self.outside;
        // Pressure of the field in power's units, see `NetworkSpectra::inside`.
        let per_pressure = 2.0 * PI / (air.density * omega).powi(2);
        // Power of the bare source for a volume velocity of 1 m3/s.
        let power = air.density * omega * omega / (2.0 * PI * air.speed);
        let mut ratios = [0.0; RATIOS];
        for (source, is_front) in [(Some(&self.front), true), (self.rear.as_ref(), false)] {
            let Some(source) = source else { continue };
            let leaving = self.leaving(source);
            let Exits { walls, leaks, holes } = self.exits(source);
            let radiated = |[by_walls, by_leaks, by_holes]: [Complex64; 3]| {
                let [walls, leaks, holes] = [by_walls, by_leaks, by_holes].map(|part| (leaving * part).norm_sqr());
                walls * breathing + leaks * line + holes
            };
            for (ratio, exits) in ratios[1..4].iter_mut().zip([walls, leaks, holes]) {
                *ratio += radiated(exits);
            }
            let node = self.node(source);
            let pressure = source.pressure(node);
            // Motion of the outermost walls that brings no volume, under their own pressure.
            let (response, area_m2, across) = match &self.outer {
                None => (source.response, source.area_m2, pressure - node),
                Some(outer) => (outer.response, outer.area_m2, node - leaving * radiation),
            };
            let volumeless = volumeless(&response, area_m2) * across.norm_sqr() * swinging;
            ratios[1] += volumeless;
            let vented = self.vented * if is_front { pressure } else { node * self.front.forward() };
            ratios[4] += vented.norm_sqr();
            // By phase everything adds as far as the box is small against the wavelength; beyond, what is smaller is on its own.
            let [_, leaks, holes] = self.outermost_shares(source).map(|share| (leaving * share).norm_sqr());
            let in_phase = (leaving + vented).norm_sqr() * breathing;
            let apart = leaks * (line - breathing) + (holes + vented.norm_sqr()) * (1.0 - breathing);
            ratios[0] += in_phase + apart + volumeless;
            if is_front {
                ratios[6] = pressure.norm_sqr() * per_pressure;
            }
            if self.outer.is_some() {
                ratios[7] += node.norm_sqr() * per_pressure;
            }
            let velocity = (pressure - node).norm_sqr() * source.response.square_velocity / source.area_m2;
            ratios[8] = ratios[8].max(velocity / power);
        }
        ratios
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
        self.outer.as_ref().map_or_else(|| node / self.outside.radiation, |outer| node * outer.outward)
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
