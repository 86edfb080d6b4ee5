//! What of a design is unknown, and how far.

use crate::buildup::{Bond, Laminate};
use crate::design::CheckedDesign;

use super::points::Coordinate;
use crate::math::{exp, ln};

/// A standard deviation in one of this many lies half the width of the range that holds 80 % (normal distribution).
pub(super) const EIGHTY: f64 = 1.281_551_565_544_6;

/// How far something may be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spread {
    /// Larger or smaller by up to this factor in 8 of 10 cases, log-normal.
    Factor(f64),
    /// Standard deviation as a part of the value, log-normal.
    Part(f64),
    /// Anything up to this much more or less, evenly.
    Even(f64),
    /// A standard normal variable, scaled where it is used.
    Normal,
}

impl Spread {
    /// What the value is multiplied by (factors and parts) or what is added to it, at a coordinate.
    pub fn at(self, coordinate: Coordinate) -> f64 {
        match self {
            Self::Factor(factor) => exp(ln(factor) / EIGHTY * coordinate.normal),
            Self::Part(part) => exp(part * coordinate.normal),
            Self::Even(most) => most * (2.0 * coordinate.even - 1.0),
            Self::Normal => coordinate.normal,
        }
    }
}

/// What is not known, as a person can find out about it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unknown {
    /// How firmly the corners hold the panels.
    Corners,
    /// How high the gaps at lids and holes are.
    Gaps,
    /// Stiffness and loss of the damping compound.
    Compound,
    /// Loss of the boards and of their joints.
    Losses,
    /// Young's modulus of the boards.
    Stiffness,
    /// Density of the boards.
    Density,
    /// How much lining and fill of the gap absorb.
    Lining,
    /// How much the rooms absorb.
    Rooms,
    /// Stiffness of what holds the inner box, and of the feet.
    Supports,
    /// What parts the room from the listeners.
    Partition,
    /// What the method itself is off by.
    Method,
}

impl Unknown {
    /// All of them in the order of the page.
    pub const ALL: [Self; 11] = [
        Self::Corners,
        Self::Gaps,
        Self::Compound,
        Self::Losses,
        Self::Stiffness,
        Self::Density,
        Self::Lining,
        Self::Rooms,
        Self::Supports,
        Self::Partition,
        Self::Method,
    ];

    /// Key in output.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Corners => "corners",
            Self::Gaps => "gaps",
            Self::Compound => "compound",
            Self::Losses => "losses",
            Self::Stiffness => "stiffness",
            Self::Density => "density",
            Self::Lining => "lining",
            Self::Rooms => "rooms",
            Self::Supports => "supports",
            Self::Partition => "partition",
            Self::Method => "method",
        }
    }
}

/// One number that varies by itself. What each stands for is in `vary.rs`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Dimension {
    InnerCorners,
    OuterCorners,
    InnerLid,
    OuterLid,
    Holes,
    CompoundStiffness,
    CompoundLoss,
    InnerLoss,
    OuterLoss,
    InnerStiffness,
    OuterStiffness,
    InnerDensity,
    OuterDensity,
    Lining,
    Fill,
    OwnRoom,
    ListenersRooms,
    Suspension,
    Feet,
    /// Method: everything together, then by regions of frequency.
    Method(usize),
    /// Partition of listener `.0`: everything together, then by regions.
    Partition(usize, usize),
}

/// Regions of frequency in which an error goes by itself, and one for all together.
pub(super) const ERRORS: usize = super::method::KNOTS + 1;

impl Dimension {
    /// Those of a design: what it does not have is not among them.
    pub(super) fn of(design: &CheckedDesign) -> Vec<Self> {
        let outer = design.outer.as_ref();
        let shells = [Some(&design.inner), outer.map(|(_, shell)| shell)];
        let compound = |laminate: &Laminate| laminate.bonds.iter().any(|bond| matches!(bond, Bond::Viscoelastic(_)));
        let mut all = vec![Self::InnerCorners, Self::InnerLid, Self::InnerLoss, Self::InnerStiffness, Self::InnerDensity];
        if outer.is_some() {
            all.extend([Self::OuterCorners, Self::OuterLid, Self::OuterLoss, Self::OuterStiffness, Self::OuterDensity]);
            all.push(Self::Fill);
            all.extend(design.suspension.spring.map(|_| Self::Suspension));
        }
        if shells.iter().flatten().any(|shell| compound(&shell.laminate)) {
            all.extend([Self::CompoundStiffness, Self::CompoundLoss]);
        }
        if shells.iter().flatten().any(|shell| shell.holes.is_some()) {
            all.push(Self::Holes);
        }
        if design.lining.is_some() {
            all.push(Self::Lining);
        }
        all.extend(design.feet.spring.map(|_| Self::Feet));
        all.push(Self::OwnRoom);
        all.extend((0..ERRORS).map(Self::Method));
        if !design.listeners.is_empty() {
            all.push(Self::ListenersRooms);
        }
        for k in 0..design.listeners.len() {
            if design.listeners[k].way.place.is_parted() {
                all.extend((0..ERRORS).map(|part| Self::Partition(k, part)));
            }
        }
        all
    }

    /// What it belongs to.
    pub(super) const fn unknown(self) -> Unknown {
        match self {
            Self::InnerCorners | Self::OuterCorners => Unknown::Corners,
            Self::InnerLid | Self::OuterLid | Self::Holes => Unknown::Gaps,
            Self::CompoundStiffness | Self::CompoundLoss => Unknown::Compound,
            Self::InnerLoss | Self::OuterLoss => Unknown::Losses,
            Self::InnerStiffness | Self::OuterStiffness => Unknown::Stiffness,
            Self::InnerDensity | Self::OuterDensity => Unknown::Density,
            Self::Lining | Self::Fill => Unknown::Lining,
            Self::OwnRoom | Self::ListenersRooms => Unknown::Rooms,
            Self::Suspension | Self::Feet => Unknown::Supports,
            Self::Partition(..) => Unknown::Partition,
            Self::Method(_) => Unknown::Method,
        }
    }

    /// How far it may be off; all assumed, but where it says otherwise.
    pub(super) const fn spread(self) -> Spread {
        match self {
            // Nobody has measured the corners of his box: nearly anything between hinged and clamped.
            Self::InnerCorners | Self::OuterCorners => Spread::Even(0.4),
            // Gaps: see `SealKind::residual`. Losses: published values of one material differ as much.
            Self::InnerLid | Self::OuterLid | Self::Holes | Self::CompoundLoss | Self::InnerLoss | Self::OuterLoss => {
                Spread::Factor(2.0)
            }
            // See `assumed_compound`: no public curve was found.
            Self::CompoundStiffness => Spread::Factor(5.0),
            // Coefficient of variation of the modulus of clear wood: 22 % (Wood Handbook 2010, table 5-6, from memory); boards less.
            Self::InnerStiffness | Self::OuterStiffness => Spread::Part(0.2),
            // Clear wood: 10 % (the same table, from memory); boards less.
            Self::InnerDensity | Self::OuterDensity => Spread::Part(0.05),
            Self::Lining | Self::Fill | Self::Suspension | Self::Feet => Spread::Factor(1.5),
            Self::OwnRoom | Self::ListenersRooms => Spread::Factor(1.4),
            Self::Method(_) | Self::Partition(..) => Spread::Normal,
        }
    }
}
