//! Low frequencies: the box as a network of air volumes, panels and openings.
//!
//! Below its first mode the air of a chamber is a spring of one pressure, and what counts is the net volume velocity. With
//! Q into the chamber, compliances C, admittances Y1 of the inner and Y2 of the outer shell,
//!
//! Q = j w C1 p1 + Y1 (p1 - p2), Y1 (p1 - p2) = j w C2 p2 + Yo p2, Qout = Yo p2, Yo = Y2/(1 + Y2 Zr),
//!
//! Zr the radiation impedance of the box, taken as a hemisphere of the same free surface on the floor: Zr = (rho c/S) j x
//! /(1 + j x), x = k sqrt(S/(2 pi)).
//!
//! The bare source is small. The box is not: of its surface's mean square velocity, the part that belongs to the volume
//! velocity radiates as a sphere that breathes, x^2/(1 + x^2), and the rest as one that swings, x^4/(4 + x^4), which is an
//! upper bound for all that brings no volume (for instance Pierce 1981, Acoustics, 4-1 and 4-2: efficiency of a sphere's
//! first two orders). Over the source's power this is |Qout/Q|^2/(1 + x^2) and (S <v^2> S - |Qout|^2) x^2/(4 + x^4).
//!
//! What openings radiate beyond that, each a small source on its own, is added, and its resistance loads them.
//!
//! A closed chamber behind the driver is a second branch into the gap with the opposite sign of Q; its radiation is added
//! as energy.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::panel::{Panel, Response};
pub use super::passage::{OpeningAdmittances, OpeningsAt, Passage};
use crate::air::Air;
use crate::bands::{Spectrum, band_position, band_position_hz};
use crate::math::{complex, sin_cos};
use crate::transmission::band_mean::first_soft_band_means;
use crate::transmission::porous::miki;

/// Part of a band's mean that its error may be.
const TOLERANCE: f64 = 0.005;
/// Loss factor of the air that flows round the inner box from one end of the gap to the other; assumed.
const FLOW_LOSS: f64 = 0.1;

/// Air in a chamber, part of it in porous material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chamber {
    /// Volume in m3.
    pub volume_m3: f64,
    /// Part of it in m3 that is porous material.
    pub porous_m3: f64,
    /// Flow resistivity in Pa s/m2 of that material.
    pub flow_resistivity: f64,
}

impl Chamber {
    /// Acoustic compliance in m3/Pa at `hz`: V/(rho c^2), softer where the material keeps the temperature.
    pub fn compliance(&self, hz: f64, air: &Air) -> Complex64 {
        let stiffness = air.density * air.speed * air.speed;
        let empty = (self.volume_m3 - self.porous_m3).max(0.0) / stiffness;
        if self.porous_m3 <= 0.0 {
            return complex(empty, 0.0);
        }
        let fluid = miki(self.flow_resistivity, hz, air);
        // Wavenumber over impedance is angular frequency over bulk modulus.
        fluid.wavenumber / fluid.impedance * (self.porous_m3.min(self.volume_m3) / (2.0 * PI * hz)) + empty
    }
}

/// Panels that share a pressure on one side: how often each occurs.
#[derive(Clone, Debug, PartialEq)]
pub struct Faces(pub Vec<(Panel, f64)>);

impl Faces {
    /// Sum of the answers of all panels.
    fn response(&self, hz: f64) -> Response {
        let mut sum = Response { admittance: complex(0.0, 0.0), square_velocity: 0.0 };
        for (panel, times) in &self.0 {
            let response = panel.response(hz);
            sum.admittance += response.admittance * *times;
            sum.square_velocity += response.square_velocity * times;
        }
        sum
    }

    /// Area in m2 of them all.
    pub fn area_m2(&self) -> f64 {
        self.0.iter().map(|(panel, times)| panel.area_m2() * times).sum()
    }

    /// First resonances in Hz.
    pub fn first_hz(&self) -> impl Iterator<Item = f64> {
        self.0.iter().map(|(panel, _)| panel.first_hz())
    }

    /// Highest first resonance in Hz.
    pub fn highest_first_hz(&self) -> f64 {
        self.first_hz().fold(0.0, f64::max)
    }
}

/// One of the two chambers that the driver drives.
#[derive(Clone, Debug, PartialEq)]
pub struct Branch {
    /// Its air.
    pub chamber: Chamber,
    /// The panels round it.
    pub faces: Faces,
    /// Part of the lid's edge that leads into it.
    pub lid_share: f64,
    /// Part of the holes that lead into it.
    pub holes_share: f64,
}

/// The gap and the outer shell.
#[derive(Clone, Debug, PartialEq)]
pub struct OuterShell {
    /// Air of the gap.
    pub gap: Chamber,
    /// The panels, the two ends last.
    pub faces: Faces,
}

/// What the recoil of a driver shakes as one rigid body along the box's length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shaken {
    /// Moving mass of the driver over the area of its cone, in kg/m2.
    pub mass_per_area: f64,
    /// Mass in kg of what is shaken.
    pub mass_kg: f64,
    /// Complex stiffness in N/m of what holds it.
    pub stiffness: Complex64,
    /// Area in m2 of either end.
    pub end_area_m2: f64,
    /// Distance in m between the ends.
    pub length_m: f64,
    /// Cross-section in m2 of the gap along the sides; unused without an outer shell.
    pub flow_area_m2: f64,
}

/// The whole network.
#[derive(Clone, Debug, PartialEq)]
pub struct Network {
    /// Chamber in front of the driver, which is the only one where there is no baffle.
    pub front: Branch,
    /// Closed chamber behind it.
    pub rear: Option<Branch>,
    /// Gap and outer shell.
    pub outer: Option<OuterShell>,
    /// The box as a rigid body, where the source recoils and something elastic holds the box.
    pub shaken: Option<Shaken>,
    /// Free surface in m2 of the outside, floor excepted.
    pub free_surface_m2: f64,
    /// Length in m of the edge of the outermost lid.
    pub lid_edge_m: f64,
    /// Air.
    pub air: Air,
}

/// Energy ratios to the bare source's power, at one frequency or by band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NetworkSpectra {
    /// Everything that the shells let out together, by phase.
    pub total: Spectrum,
    /// Through walls alone.
    pub walls: Spectrum,
    /// Through the edge of a lid on its way.
    pub leaks: Spectrum,
    /// Through holes on its way.
    pub holes: Spectrum,
    /// Through the vents.
    pub vents: Spectrum,
    /// By the shaking of the box as a rigid body.
    pub motion: Spectrum,
    /// Mean square pressure inside over that of sound power W at 1 m2: level inside is Lw and this in dB.
    pub inside: Spectrum,
    /// The same for the gap.
    pub gap: Spectrum,
    /// Mean square velocity of the inner panels in (m/s)2 per W of the source's power, the louder chamber's.
    pub wall_velocity: Spectrum,
}

/// Number of ratios.
const RATIOS: usize = 9;

impl Network {
    /// Highest first resonance in Hz of any panel.
    pub fn highest_first_hz(&self) -> f64 {
        let shells = [Some(&self.front.faces), self.rear.as_ref().map(|rear| &rear.faces), self.outer.as_ref().map(|o| &o.faces)];
        shells.into_iter().flatten().map(Faces::highest_first_hz).fold(0.0, f64::max)
    }

    /// Volume velocity that leaves the outermost walls and their openings, for 1 m3/s in front of the driver.
    pub fn volume_velocity(&self, hz: f64, openings: &OpeningsAt) -> Complex64 {
        let at = NetworkAt::new(self, hz, openings);
        at.leaving(&at.front)
    }

    /// Ratios at `hz`: total, walls, leaks, holes, vents, motion, inside, gap, wall velocity, as in [`NetworkSpectra`].
    pub fn at(&self, hz: f64, openings: &OpeningsAt) -> [f64; RATIOS] {
        let air = &self.air;
        let omega = 2.0 * PI * hz;
        let at = NetworkAt::new(self, hz, openings);
        let (breathing, line) = (at.breathing, at.line);
        let swinging = at.size * at.size / (4.0 + at.size.powi(4));
        // Pressure of the field in power's units, see `NetworkSpectra::inside`.
        let per_pressure = 2.0 * PI / (air.density * omega).powi(2);
        // Power of the bare source for a volume velocity of 1 m3/s.
        let power = air.density * omega * omega / (2.0 * PI * air.speed);

        let mut ratios = [0.0; RATIOS];
        for (source, is_front) in [(Some(&at.front), true), (at.rear.as_ref(), false)] {
            let Some(source) = source else { continue };
            let leaving = at.leaving(source);
            let Exits { walls, leaks, holes } = at.exits(source);
            let radiated = |[by_walls, by_leaks, by_holes]: [Complex64; 3]| {
                let [walls, leaks, holes] = [by_walls, by_leaks, by_holes].map(|part| (leaving * part).norm_sqr());
                walls * breathing + leaks * line + holes
            };
            for (ratio, exits) in ratios[1..4].iter_mut().zip([walls, leaks, holes]) {
                *ratio += radiated(exits);
            }
            let node = at.node(source);
            let pressure = source.pressure(node);
            // Motion of the outermost walls that brings no volume, under their own pressure.
            let (response, area_m2, across) = match &at.outer {
                None => (source.response, source.area_m2, pressure - node),
                Some(outer) => (outer.response, outer.area_m2, node - leaving * at.radiation),
            };
            let square = area_m2 * response.square_velocity - response.admittance.norm_sqr();
            let volumeless = square.max(0.0) * across.norm_sqr() * swinging;
            ratios[1] += volumeless;
            let vented = at.vented * if is_front { pressure } else { node * at.front.forward() };
            ratios[4] += vented.norm_sqr();
            // By phase everything adds as far as the box is small against the wavelength; beyond, what is smaller is on its own.
            let [_, leaks, holes] = at.outermost_shares(source).map(|share| (leaving * share).norm_sqr());
            let in_phase = (leaving + vented).norm_sqr() * breathing;
            let apart = leaks * (line - breathing) + (holes + vented.norm_sqr()) * (1.0 - breathing);
            ratios[0] += in_phase + apart + volumeless;
            if is_front {
                ratios[6] = pressure.norm_sqr() * per_pressure;
            }
            if at.outer.is_some() {
                ratios[7] += node.norm_sqr() * per_pressure;
            }
            let velocity = (pressure - node).norm_sqr() * source.response.square_velocity / source.area_m2;
            ratios[8] = ratios[8].max(velocity / power);
        }
        if let Some(shaken) = &self.shaken {
            ratios[5] = self.motion(shaken, omega, at.outer.map(|outer| outer.end_panel));
        }
        ratios
    }

    /// Power over the bare source's by the box that shakes along its length.
    ///
    /// In a gap its ends press the air there, which can flow round the box: half of the gap's compliance on either side, and
    /// an inertance that puts their antisymmetric resonance where half a wavelength fits the way from end to end. The
    /// pressures drive the outer ends against each other. Without an outer shell the ends radiate themselves. Two such ends
    /// a length L apart radiate 1 - sin(kL)/(kL) of what they would alone.
    fn motion(&self, shaken: &Shaken, omega: f64, end_panel: Option<Complex64>) -> f64 {
        let air = &self.air;
        let wavenumber = omega / air.speed;
        let area = shaken.end_area_m2;
        let force = complex(0.0, omega * shaken.mass_per_area);
        let mobility_free = complex(0.0, omega * shaken.mass_kg) + shaken.stiffness / complex(0.0, omega);
        let each = match self.outer.as_ref().zip(end_panel) {
            None => force / mobility_free * area,
            Some((outer, end_panel)) => {
                let stiffness = air.density * air.speed * air.speed;
                let way_m = shaken.length_m + 0.5 * area.sqrt();
                let inertance = 4.0 * air.density * way_m / (PI * PI * shaken.flow_area_m2);
                let flow = complex(2.0, 0.0) / (complex(FLOW_LOSS, 1.0) * (omega * inertance));
                let yields = complex(0.0, 0.5 * omega * outer.gap.volume_m3 / stiffness) + flow + end_panel;
                let velocity = force / (mobility_free + yields.inv() * (2.0 * area * area));
                velocity * area / yields * end_panel
            }
        };
        let apart = wavenumber * shaken.length_m;
        let cancelled = if apart < 1e-3 { apart * apart / 6.0 } else { 1.0 - sin_cos(apart).0 / apart };
        2.0 * each.norm_sqr() * cancelled / (1.0 + wavenumber * wavenumber * area / (2.0 * PI))
    }

    /// Means over bands with soft edges, up to the band at `last_band`; the bands above are zero.
    ///
    /// `openings` says what the openings let through at a frequency.
    pub fn bands(&self, last_band: usize, openings: impl Fn(f64) -> OpeningsAt) -> NetworkSpectra {
        let limit = last_band as f64 + 0.5;
        let shells = [Some(&self.front.faces), self.rear.as_ref().map(|rear| &rear.faces), self.outer.as_ref().map(|o| &o.faces)];
        let panels = shells.into_iter().flatten().flat_map(Faces::first_hz).map(band_position);
        let mut features: Vec<f64> = panels.filter(|position| (-0.5..limit).contains(position)).collect();
        self.add_resonances(limit, &openings, &mut features);
        let natural = self.shaken.map(|shaken| band_position((shaken.stiffness.re / shaken.mass_kg).sqrt() / (2.0 * PI)));
        features.extend(natural.filter(|position| (-0.5..limit).contains(position)));
        features.sort_by(f64::total_cmp);
        let means = first_soft_band_means(last_band + 1, TOLERANCE, &features, |position| {
            let hz = band_position_hz(position);
            let ratios = self.at(hz, &openings(hz));
            // Points are laid where anything that gets out has its peaks, the box that shakes as a whole included.
            let mut guided = [ratios[0] + ratios[5]; RATIOS + 1];
            guided[1..].copy_from_slice(&ratios);
            guided
        });
        let [_, total, walls, leaks, holes, vents, motion, inside, gap, wall_velocity] = means;
        NetworkSpectra { total, walls, leaks, holes, vents, motion, inside, gap, wall_velocity }
    }
}

/// Steps in a band in which resonances are looked for.
const SEARCH_STEPS: usize = 4;
/// Steps of the search for one of them.
const REFINEMENTS: usize = 6;

impl Network {
    /// Adds the positions below `limit` at which air, panels and openings together resonate: an open hole loses so little that
    /// its resonance with a chamber's air would be missed between two points.
    fn add_resonances(&self, limit: f64, openings: &impl Fn(f64) -> OpeningsAt, positions: &mut Vec<f64>) {
        let balance = |position: f64| {
            let hz = band_position_hz(position);
            NetworkAt::new(self, hz, &openings(hz)).balance()
        };
        let steps = ((limit + 0.5) * SEARCH_STEPS as f64) as usize;
        let place = |step: usize| -0.5 + step as f64 / SEARCH_STEPS as f64;
        let mut before = balance(place(0));
        for step in 1..=steps {
            let after = balance(place(step));
            if before * after < 0.0 {
                let (mut low, mut high) = ((place(step - 1), before), (place(step), after));
                // The rule of false position, in which an end that stays counts half (Illinois).
                let mut middle = low.0;
                for _ in 0..REFINEMENTS {
                    middle = (low.0 * high.1 - high.0 * low.1) / (high.1 - low.1);
                    let value = balance(middle);
                    if value * high.1 < 0.0 {
                        (low, high) = (high, (middle, value));
                    } else {
                        (low.1, high) = (0.5 * low.1, (middle, value));
                    }
                }
                positions.push(middle);
            }
            before = after;
        }
    }
}

/// A branch at one frequency.
#[derive(Clone, Copy)]
struct BranchAt {
    /// What the openings take in beside what goes through, from behind the shell.
    far: Complex64,
    /// Parts of walls, leaks and holes in what goes through.
    shares: [Complex64; 3],
    through: Complex64,
    spring: Complex64,
    response: Response,
    area_m2: f64,
}

impl BranchAt {
    /// Part of a volume velocity into the chamber that comes out behind a shell held at no pressure.
    fn forward(&self) -> Complex64 {
        self.through / (self.spring + self.through)
    }

    /// Pressure in the chamber for 1 m3/s into it, with the pressure `node` behind the shell.
    fn pressure(&self, node: Complex64) -> Complex64 {
        (self.through * node + 1.0) / (self.spring + self.through)
    }

    /// Admittance of the chamber seen from behind the shell.
    fn load(&self) -> Complex64 {
        self.spring * self.forward() + self.far
    }
}

/// The gap and the outer shell at one frequency.
#[derive(Clone, Copy)]
struct OuterAt {
    shares: [Complex64; 3],
    /// What leaves per pressure in the gap, with the radiation outside.
    outward: Complex64,
    /// What is taken in per pressure in the gap.
    taken: Complex64,
    response: Response,
    end_panel: Complex64,
    area_m2: f64,
}

/// The network at one frequency.
struct NetworkAt {
    /// x = k sqrt(S/(2 pi)).
    size: f64,
    /// Part of its power as a small source that a volume velocity radiates when it is spread over the whole box.
    breathing: f64,
    /// The same along the edge of the lid.
    line: f64,
    radiation: Complex64,
    front: BranchAt,
    rear: Option<BranchAt>,
    outer: Option<OuterAt>,
    /// Volume velocity that leaves the vents per pressure in the front chamber.
    vented: Complex64,
    /// Admittance of all that hangs on the node behind the inner shell.
    at_node: Complex64,
}

impl NetworkAt {
    fn new(network: &Network, hz: f64, openings: &OpeningsAt) -> Self {
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
    fn balance(&self) -> f64 {
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
    fn node(&self, source: &BranchAt) -> Complex64 {
        source.forward() / self.at_node
    }

    /// Volume velocity that leaves the outermost shell for 1 m3/s into the chamber of `source`.
    fn leaving(&self, source: &BranchAt) -> Complex64 {
        let node = self.node(source);
        self.outer.as_ref().map_or_else(|| node / self.radiation, |outer| node * outer.outward)
    }

    /// Parts of walls, leaks and holes in what leaves the outermost shell.
    fn outermost_shares(&self, source: &BranchAt) -> [Complex64; 3] {
        self.outer.as_ref().map_or(source.shares, |outer| outer.shares)
    }

    /// What leaves, by path; what goes through a leak in one shell and a hole in the other counts half with either.
    fn exits(&self, source: &BranchAt) -> Exits {
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
struct Exits {
    walls: [Complex64; 3],
    leaks: [Complex64; 3],
    holes: [Complex64; 3],
}
