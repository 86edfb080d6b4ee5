//! From a checked design to the network of its volumes and panels.

use super::memo::Memo;
use crate::air::Air;
use crate::buildup::Laminate;
use crate::design::{CheckedDesign, CheckedShell};
use crate::enclosure::network::{Branch, Chamber, Faces, Network, OuterShell, RigidBody};
use crate::enclosure::panel::{Panel, PanelShape};
use crate::enclosure::{BraceKind, Braces, Join, LidFace};
use crate::geometry::{grown, surface_area_m2, volume_m3};
use crate::lanes::{Lanes, f64x2};
use crate::workshop::Bill;

/// Sizes in m of the nested boxes: length, width, height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sizes {
    /// Inside of the inner box.
    pub inside: [f64; 3],
    /// Chamber in front of the driver.
    pub front: [f64; 3],
    /// Chamber behind it, where there is a baffle.
    pub rear: Option<[f64; 3]>,
    /// Outside of the inner box.
    pub inner_outside: [f64; 3],
    /// Inside of the outer box, where there is one.
    pub outer_inside: Option<[f64; 3]>,
    /// Outside of the whole.
    pub outside: [f64; 3],
}

impl Sizes {
    /// The sizes of `design`.
    pub fn new(design: &CheckedDesign) -> Self {
        let around = design.outer.as_ref().map(|(gap, shell)| (gap.depth_m, shell.laminate.thickness_m()));
        Self::of_shells(design, design.inner.laminate.thickness_m(), around)
    }

    /// The sizes of `design` with an inner shell `inner_m` thick and `around` it a gap and an outer shell of this depth and
    /// thickness in m, whatever its own are.
    pub fn of_shells(design: &CheckedDesign, inner_m: f64, around: Option<(f64, f64)>) -> Self {
        let [_, width, height] = design.inside_m;
        let inner_outside = grown(design.inside_m, inner_m);
        let outer_inside = around.map(|(gap_m, _)| grown(inner_outside, gap_m));
        let outside = match (around, outer_inside) {
            (Some((_, outer_m)), Some(inside)) => grown(inside, outer_m),
            _ => inner_outside,
        };
        Self {
            inside: design.inside_m,
            front: design.front_m(),
            rear: design.baffle.as_ref().map(|baffle| [baffle.rear_m, width, height]),
            inner_outside,
            outer_inside,
            outside,
        }
    }

    /// Part of the inner shell's lid that borders the front chamber.
    pub fn front_share_of_lid(&self, lid: LidFace) -> f64 {
        match (lid, self.rear) {
            (LidFace::Front, _) | (_, None) => 1.0,
            (LidFace::Side | LidFace::Top, Some(_)) => self.front[0] / self.inside[0],
        }
    }

    /// Surface in m2 of the outside without the face it stands on.
    pub fn free_surface_m2(&self) -> f64 {
        surface_area_m2(self.outside) - self.outside[0] * self.outside[1]
    }
}

/// What the panels of one chamber, or of the outer shell, are made from.
#[derive(Clone, Debug, PartialEq)]
pub struct FacesKey {
    laminate: Laminate,
    size_m: [f64; 3],
    ends: f64,
    fixity: f64,
    braces: Option<Braces>,
    last_band: usize,
}

impl FacesKey {
    /// The panels of `shell` round `size_m` with `ends` ends, its braces where `braced`, for bands up to `last_band`.
    pub fn new(shell: &CheckedShell, size_m: [f64; 3], ends: f64, braced: bool, last_band: usize) -> Self {
        let braces = shell.braces.filter(|_| braced);
        Self { laminate: shell.laminate.clone(), size_m, ends, fixity: shell.edge_fixity, braces, last_band }
    }

    /// The panels without their tables: four long faces, then the ends.
    fn untabulated(&self) -> Vec<(Panel, f64)> {
        let [length, width, height] = self.size_m;
        let mut panels = Vec::with_capacity(5);
        // Where the box is as wide as high, all long faces are alike.
        let square = width == height;
        let pairs = if square { 2.0 } else { 1.0 };
        for across in [width, height].into_iter().take(if square { 1 } else { 2 }) {
            match &self.braces {
                Some(braces) if braces.kind == BraceKind::Shelves => {
                    let bay_m = (length - braces.count as f64 * braces.width_m) / (braces.count + 1) as f64;
                    // Between equal bays under the same pressure nothing turns.
                    let mut bay = |held: f64, times: f64| {
                        let shape = PanelShape { size_m: [bay_m, across], fixity: [held, self.fixity] };
                        panels.push((Panel::new(&self.laminate, &shape, None), times));
                    };
                    bay(0.5 * (1.0 + self.fixity), 4.0 * pairs);
                    if braces.count > 1 {
                        bay(1.0, 2.0 * pairs * (braces.count - 1) as f64);
                    }
                }
                braces => {
                    let shape = PanelShape { size_m: [length, across], fixity: [self.fixity; 2] };
                    panels.push((Panel::new(&self.laminate, &shape, braces.as_ref()), 2.0 * pairs));
                }
            }
        }
        let shape = PanelShape { size_m: [width, height], fixity: [self.fixity; 2] };
        panels.push((Panel::new(&self.laminate, &shape, None), self.ends));
        panels
    }

    fn highest_first_hz(&self) -> f64 {
        Faces(self.untabulated()).highest_first_hz()
    }

    /// The panels, tabulated with the leaf's bending stiffness by wavenumber in rad/m and node of the table.
    pub fn faces_by(&self, stiffness: impl Fn(f64x2, usize) -> Lanes<f64x2>) -> Faces {
        let tabulated = |(panel, times): (Panel, f64)| (panel.tabulated_by(self.last_band, &stiffness), times);
        Faces(self.untabulated().into_iter().map(tabulated).collect())
    }

    /// The panels, tabulated.
    pub fn faces(&self) -> Faces {
        let tabulated = |(panel, times): (Panel, f64)| (panel.tabulated(&self.laminate, self.last_band), times);
        Faces(self.untabulated().into_iter().map(tabulated).collect())
    }
}

/// Panels that were tabulated before.
#[derive(Clone, Debug, Default)]
pub struct KnownFaces {
    front: Memo<FacesKey, Faces>,
    rear: Memo<FacesKey, Faces>,
    outer: Memo<FacesKey, Faces>,
}

/// A network and what its frequencies are.
pub struct Assembly {
    /// The network; `None` where it would not reach the lowest band.
    pub network: Option<(Network, usize)>,
    /// Where it hands over.
    pub join: Join,
    /// First mode in Hz of the source chamber.
    pub chamber_mode_hz: f64,
    /// Highest first resonance in Hz of the panels of the inner shell and of the outer one.
    pub panels_hz: [Option<f64>; 2],
}

/// Porous part in m3 of a chamber of `size_m` with `walls` lined faces' area in m2.
pub fn chamber(design: &CheckedDesign, size_m: [f64; 3], walls_m2: f64) -> Chamber {
    let volume_m3 = volume_m3(size_m);
    let (thickness_m, flow_resistivity) = design.lining.as_ref().map_or((0.0, 1.0), |l| (l.thickness_m, l.flow_resistivity));
    Chamber { volume_m3, porous_m3: (walls_m2 * thickness_m).min(volume_m3), flow_resistivity }
}

/// Area in m2 of the walls of a chamber of `size_m` that border the gap or the outside.
pub fn walls_m2(size_m: [f64; 3], has_baffle: bool) -> f64 {
    surface_area_m2(size_m) - if has_baffle { size_m[1] * size_m[2] } else { 0.0 }
}

/// The network of `design`.
pub fn assemble(design: &CheckedDesign, sizes: &Sizes, bill: &Bill, known: &mut KnownFaces, air: &Air) -> Assembly {
    let has_baffle = sizes.rear.is_some();
    let ends = if has_baffle { 1.0 } else { 2.0 };
    let front_key = |last| FacesKey::new(&design.inner, sizes.front, ends, true, last);
    let rear_key = |size_m, last| FacesKey::new(&design.inner, size_m, 1.0, false, last);
    let outer = design.outer.as_ref().zip(sizes.outer_inside);
    let inner_hz = front_key(0).highest_first_hz();
    let outer_hz = outer.map(|((_, shell), size_m)| FacesKey::new(shell, size_m, 2.0, true, 0).highest_first_hz());
    let chamber_mode_hz = air.speed / (2.0 * sizes.front.iter().copied().fold(0.0, f64::max));
    let join = Join::new(chamber_mode_hz, outer_hz.map_or(inner_hz, |outer_hz| inner_hz.min(outer_hz)));
    let network = join.last_network_band().map(|last| {
        let front = Branch {
            chamber: chamber(design, sizes.front, walls_m2(sizes.front, has_baffle)),
            faces: known.front.get(front_key(last), FacesKey::faces).clone(),
            lid_share: sizes.front_share_of_lid(design.inner.lid.face),
            holes_share: 1.0,
        };
        let rear = sizes.rear.map(|size_m| Branch {
            chamber: chamber(design, size_m, walls_m2(size_m, true)),
            faces: known.rear.get(rear_key(size_m, last), FacesKey::faces).clone(),
            lid_share: 1.0 - sizes.front_share_of_lid(design.inner.lid.face),
            holes_share: 0.0,
        });
        let outer = outer.map(|((gap, shell), size_m)| {
            let volume_m3 = volume_m3(size_m) - volume_m3(sizes.inner_outside);
            let (share, flow_resistivity) = gap.fill.map_or((0.0, 1.0), |fill| (fill.share, fill.flow_resistivity));
            OuterShell {
                gap: Chamber { volume_m3, porous_m3: share * volume_m3, flow_resistivity },
                faces: known.outer.get(FacesKey::new(shell, size_m, 2.0, true, last), FacesKey::faces).clone(),
            }
        });
        let lid_edge_m = match (&design.outer, sizes.outer_inside) {
            (Some((_, shell)), Some(size_m)) => shell.lid.face.perimeter_m(size_m),
            _ => design.inner.lid.face.perimeter_m(sizes.inside),
        };
        let network = Network {
            front,
            rear,
            outer,
            rigid_body: rigid_body(design, sizes, bill),
            free_surface_m2: sizes.free_surface_m2(),
            lid_edge_m,
            air: *air,
        };
        (network, last)
    });
    Assembly { network, join, chamber_mode_hz, panels_hz: [Some(inner_hz), outer_hz] }
}

/// What the recoil shakes: the inner box on its suspension, or the only box on its feet.
fn rigid_body(design: &CheckedDesign, sizes: &Sizes, bill: &Bill) -> Option<RigidBody> {
    let gap_m = design.outer.as_ref().map(|(gap, _)| gap.depth_m);
    let mass_kg = if gap_m.is_some() { bill.inner_mass_kg } else { bill.mass_kg };
    shaken_body(design, sizes.inner_outside, gap_m, mass_kg)
}

/// A box of outside `size_m` and `mass_kg` without contents in a gap of depth `gap_m`, or alone on its feet.
pub fn shaken_body(design: &CheckedDesign, size_m: [f64; 3], gap_m: Option<f64>, mass_kg: f64) -> Option<RigidBody> {
    let driver = design.driver?;
    let support = if gap_m.is_some() { &design.suspension } else { &design.feet };
    let stiffness = support.stiffness()?;
    let [length_m, width, height] = size_m;
    let depth_m = gap_m.unwrap_or(0.0);
    Some(RigidBody {
        mass_per_area: driver.moving_mass_kg / driver.cone_area_m2,
        mass_kg: mass_kg + design.contents_kg,
        stiffness,
        end_area_m2: width * height,
        length_m,
        flow_area_m2: 2.0 * (width + height + 2.0 * depth_m) * depth_m,
    })
}
