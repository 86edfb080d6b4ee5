//! Checked build-ups: numbers only, no names and no prices.

use std::f64::consts::PI;

use crate::air::Air;
use crate::math::{exp, ln};

/// One homogeneous sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Thickness in m.
    pub thickness_m: f64,
    /// Density in kg/m3.
    pub density: f64,
    /// Young's modulus in Pa.
    pub youngs_modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Loss factor of the material.
    pub loss_factor: f64,
    /// Shear modulus through the thickness in Pa.
    pub shear_modulus: f64,
}

impl Sheet {
    /// Mass per area in kg/m2.
    pub fn surface_mass(&self) -> f64 {
        self.density * self.thickness_m
    }

    /// Bending stiffness per width E h^3/(12 (1 - nu^2)) in N m, without loss.
    pub fn bending_stiffness(&self) -> f64 {
        self.youngs_modulus * self.thickness_m.powi(3) / (12.0 * (1.0 - self.poisson * self.poisson))
    }
}

/// A quantity known at some frequencies: interpolated on log frequency, held at the ends.
#[derive(Clone, Debug, PartialEq)]
pub struct LogTable(Vec<(f64, f64)>);

impl LogTable {
    /// A table from (Hz, value) pairs in rising order of frequency; `None` unless there is one and all are in order.
    pub fn new(points: Vec<(f64, f64)>) -> Option<Self> {
        let rising = points.windows(2).all(|pair| pair[0].0 < pair[1].0);
        let sound = points.iter().all(|&(hz, value)| hz > 0.0 && hz.is_finite() && value.is_finite());
        (!points.is_empty() && rising && sound).then_some(Self(points))
    }

    /// The same with every value times `factor`.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        Self(self.0.iter().map(|&(hz, value)| (hz, factor * value)).collect())
    }

    /// The value at `hz`.
    pub fn at(&self, hz: f64) -> f64 {
        let upper = self.0.partition_point(|&(point, _)| point < hz);
        if upper == 0 {
            return self.0[0].1;
        }
        if upper == self.0.len() {
            return self.0[upper - 1].1;
        }
        let ((low_hz, low), (high_hz, high)) = (self.0[upper - 1], self.0[upper]);
        low + (high - low) * ln(hz / low_hz) / ln(high_hz / low_hz)
    }
}

/// A layer that carries shear between two sheets and loses energy in doing so.
#[derive(Clone, Debug, PartialEq)]
pub struct ViscoelasticBond {
    /// Thickness in m.
    pub thickness_m: f64,
    /// Density in kg/m3.
    pub density: f64,
    /// Real part of the shear modulus in Pa.
    pub shear_modulus: LogTable,
    /// Exponent of the power law that replaces the table beyond it: G(f) = table(f) (f/f0)^exponent; 0 holds the ends.
    pub power_law: f64,
    /// Frequency f0 in Hz of that power law.
    pub reference_hz: f64,
    /// Loss factor.
    pub loss_factor: LogTable,
    /// Shear stiffness per area in Pa/m that screws through the joint carry beside the layer.
    pub screw_stiffness: f64,
}

impl ViscoelasticBond {
    /// Shear modulus in Pa and loss factor at `hz`.
    pub fn at(&self, hz: f64) -> (f64, f64) {
        let power = if self.power_law == 0.0 { 1.0 } else { exp(self.power_law * ln(hz / self.reference_hz)) };
        (self.shear_modulus.at(hz) * power, self.loss_factor.at(hz))
    }
}

/// What holds two neighbouring sheets of a laminate together.
#[derive(Clone, Debug, PartialEq)]
pub enum Bond {
    /// Glue line taken as rigid.
    Rigid,
    /// Touching, perhaps screwed: no shear carried.
    Loose,
    /// A compound that carries shear and loses energy.
    Viscoelastic(ViscoelasticBond),
}

/// Sheets joined over their whole area; `bonds[i]` lies between `sheets[i]` and `sheets[i + 1]`.
#[derive(Clone, Debug, PartialEq)]
pub struct Laminate {
    /// The sheets, at least one.
    pub sheets: Vec<Sheet>,
    /// The bonds, one fewer than the sheets.
    pub bonds: Vec<Bond>,
}

impl Laminate {
    /// Mass per area in kg/m2, compound included.
    pub fn surface_mass(&self) -> f64 {
        let sheets: f64 = self.sheets.iter().map(Sheet::surface_mass).sum();
        let bonds: f64 = self
            .bonds
            .iter()
            .map(|bond| match bond {
                Bond::Viscoelastic(layer) => layer.density * layer.thickness_m,
                Bond::Rigid | Bond::Loose => 0.0,
            })
            .sum();
        sheets + bonds
    }

    /// Thickness in m, compound included.
    pub fn thickness_m(&self) -> f64 {
        let sheets: f64 = self.sheets.iter().map(|sheet| sheet.thickness_m).sum();
        let bonds: f64 = self
            .bonds
            .iter()
            .map(|bond| match bond {
                Bond::Viscoelastic(layer) => layer.thickness_m,
                Bond::Rigid | Bond::Loose => 0.0,
            })
            .sum();
        sheets + bonds
    }
}

/// Where in a gap a fill lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FillSide {
    /// Against the leaf that the sound meets first.
    First,
    /// Against the other leaf.
    Second,
    /// In the middle, air on both sides.
    Middle,
}

/// Porous fill in a gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fill {
    /// Flow resistivity in Pa s/m2.
    pub flow_resistivity: f64,
    /// Part of the depth that is filled, 0 to 1.
    pub share: f64,
    /// Where it lies.
    pub side: FillSide,
}

/// What damps the in-plane field of the air in a gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GapLoss {
    /// Nothing; for checks against closed forms.
    Lossless,
    /// Edges of a wall: absorption coefficient of the edges, perimeter over area in 1/m.
    Edges {
        /// Absorption coefficient of the edges.
        absorption: f64,
        /// Perimeter over area of the wall in 1/m.
        perimeter_per_area: f64,
    },
    /// Faces of a closed gap round a box: absorption coefficient of each face.
    Faces {
        /// Absorption coefficient of each face.
        absorption: f64,
    },
}

impl GapLoss {
    /// Default absorption of a wall's gap edges; assumed.
    pub const EDGE_ABSORPTION: f64 = 0.3;
    /// Default absorption of the faces of a gap round a box; assumed.
    pub const FACE_ABSORPTION: f64 = 0.03;

    /// Loss factor of the in-plane field at `hz` in a gap of depth `depth_m`.
    ///
    /// Energy balance of a two-dimensional field: c alpha P/(w pi S) for edges, c alpha/(2 d w) for faces.
    pub fn loss_factor(self, hz: f64, depth_m: f64, air: &Air) -> f64 {
        let omega = 2.0 * PI * hz;
        match self {
            Self::Lossless => 0.0,
            Self::Edges { absorption, perimeter_per_area } => air.speed * absorption * perimeter_per_area / (omega * PI),
            Self::Faces { absorption } => air.speed * absorption / (2.0 * depth_m * omega),
        }
    }
}

/// A gap between two leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Depth in m.
    pub depth_m: f64,
    /// Porous fill, if any.
    pub fill: Option<Fill>,
    /// What damps its air.
    pub loss: GapLoss,
}

/// One element of a stack.
#[derive(Clone, Debug, PartialEq)]
pub enum Element {
    /// A leaf.
    Panel(Laminate),
    /// A gap.
    Gap(Gap),
}

/// Leaves and gaps in the order in which the sound meets them.
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// The elements; two leaves never touch.
    pub elements: Vec<Element>,
}

impl Stack {
    /// Mass per area in kg/m2 of all leaves.
    pub fn surface_mass(&self) -> f64 {
        self.panels().map(Laminate::surface_mass).sum()
    }

    /// The leaves in order.
    pub fn panels(&self) -> impl Iterator<Item = &Laminate> {
        self.elements.iter().filter_map(|element| match element {
            Element::Panel(laminate) => Some(laminate),
            Element::Gap(_) => None,
        })
    }

    /// The same stack seen from the other side.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let elements = self.elements.iter().rev().map(|element| match element {
            Element::Panel(laminate) => Element::Panel(Laminate {
                sheets: laminate.sheets.iter().rev().cloned().collect(),
                bonds: laminate.bonds.iter().rev().cloned().collect(),
            }),
            Element::Gap(gap) => Element::Gap(Gap {
                fill: gap.fill.map(|fill| Fill {
                    side: match fill.side {
                        FillSide::First => FillSide::Second,
                        FillSide::Second => FillSide::First,
                        FillSide::Middle => FillSide::Middle,
                    },
                    ..fill
                }),
                ..*gap
            }),
        });
        Self { elements: elements.collect() }
    }
}

/// What a panel loses at its edges, beside its material and bonds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EdgeLoss {
    /// Nothing.
    None,
    /// The same loss factor at all frequencies; 0.01 to 0.03 for the joints of an assembled box (assumed).
    Constant(f64),
    /// Mounted in a laboratory opening: m/(485 sqrt f) (ISO 12354-1:2017, Annex C).
    Laboratory,
}

impl EdgeLoss {
    /// Default for the joints of an assembled box; assumed.
    pub const BOX_JOINTS: Self = Self::Constant(0.02);

    /// Loss factor at `hz` of a panel of `surface_mass` kg/m2.
    pub fn loss_factor(self, hz: f64, surface_mass: f64) -> f64 {
        match self {
            Self::None => 0.0,
            Self::Constant(loss_factor) => loss_factor,
            Self::Laboratory => surface_mass / (485.0 * hz.sqrt()),
        }
    }
}
