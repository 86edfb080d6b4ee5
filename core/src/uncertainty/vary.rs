//! A design as it might be in truth.

use crate::bands::Spectrum;
use crate::buildup::{Bond, EdgeLoss, Laminate};
use crate::design::{CheckedDesign, CheckedShell, PartitionBy};
use crate::enclosure::{Holes, Support};

use super::method::{error, partition_deviation_db};
use super::points::Coordinate;
use super::spread::{Dimension, ERRORS};

/// What was drawn for one sample.
pub(super) struct Drawn<'a> {
    pub(super) dimensions: &'a [Dimension],
    pub(super) point: &'a [Coordinate],
}

impl Drawn<'_> {
    /// What `dimension` is multiplied by, or what is added to it; nothing where the design does not have it.
    fn get(&self, dimension: Dimension) -> Option<f64> {
        let place = self.dimensions.iter().position(|&own| own == dimension)?;
        Some(dimension.spread().at(self.point[place]))
    }

    fn factor(&self, dimension: Dimension) -> f64 {
        self.get(dimension).unwrap_or(1.0)
    }

    fn addend(&self, dimension: Dimension) -> f64 {
        self.get(dimension).unwrap_or(0.0)
    }

    /// By how many dB the method lets out more than it computes, by band.
    pub(super) fn method_db(&self, deviation_db: &Spectrum) -> Spectrum {
        error(&std::array::from_fn(|part| self.addend(Dimension::Method(part)))).zip(deviation_db, |error, db| error * db)
    }

    /// By how many dB what parts listener `k` from the room lets through more than is computed, by band.
    pub(super) fn partition_db(&self, design: &CheckedDesign, k: usize) -> Spectrum {
        let measured = matches!(design.listeners[k].partition, PartitionBy::Reduction(_));
        let error = error(&std::array::from_fn::<f64, ERRORS, _>(|part| self.addend(Dimension::Partition(k, part))));
        error.zip(&partition_deviation_db(measured), |error, db| error * db)
    }

    /// `nominal` with everything else that was drawn.
    pub(super) fn design(&self, nominal: &CheckedDesign) -> CheckedDesign {
        use Dimension as D;
        let mut design = nominal.clone();
        let holes = self.factor(D::Holes);
        let compound = [self.factor(D::CompoundStiffness), self.factor(D::CompoundLoss)];
        let shell = |shell: &mut CheckedShell, [corners, lid, loss, stiffness, density]: [Dimension; 5]| {
            shell.edge_fixity = (shell.edge_fixity + self.addend(corners)).clamp(0.0, 1.0);
            shell.lid.gap_factor *= self.factor(lid);
            if let Some(Holes { gap_factor, .. }) = &mut shell.holes {
                *gap_factor *= holes;
            }
            vary(&mut shell.laminate, [loss, stiffness, density].map(|dimension| self.factor(dimension)), compound);
        };
        shell(&mut design.inner, [D::InnerCorners, D::InnerLid, D::InnerLoss, D::InnerStiffness, D::InnerDensity]);
        if let Some((gap, outer)) = &mut design.outer {
            shell(outer, [D::OuterCorners, D::OuterLid, D::OuterLoss, D::OuterStiffness, D::OuterDensity]);
            if let Some(fill) = &mut gap.fill {
                fill.flow_resistivity *= self.factor(D::Fill);
            }
        }
        if let Some(lining) = &mut design.lining {
            lining.flow_resistivity *= self.factor(D::Lining);
        }
        let stiffen = |support: &mut Support, by: f64| {
            if let Some(spring) = &mut support.spring {
                spring.stiffness *= by;
            }
        };
        stiffen(&mut design.suspension, self.factor(D::Suspension));
        stiffen(&mut design.feet, self.factor(D::Feet));
        design.room.absorption_area_m2 *= self.factor(D::OwnRoom);
        for listener in &mut design.listeners {
            listener.way.room_absorption_m2 *= self.factor(D::ListenersRooms);
        }
        design
    }
}

/// Varies the sheets and compounds of a leaf by factors of loss, stiffness and density, and those of the compound.
fn vary(laminate: &mut Laminate, [loss, stiffness, density]: [f64; 3], [compound_stiffness, compound_loss]: [f64; 2]) {
    // The loss of the joints is a constant beside that of the sheets; both together vary by one factor.
    let EdgeLoss::Constant(joints) = EdgeLoss::BOX_JOINTS else { unreachable!("a constant") };
    for sheet in &mut laminate.sheets {
        sheet.loss_factor = (loss * (sheet.loss_factor + joints) - joints).max(0.0);
        sheet.youngs_modulus *= stiffness;
        sheet.shear_modulus *= stiffness;
        sheet.density *= density;
    }
    vary_compound(laminate, compound_stiffness, compound_loss);
}

/// Varies the compounds of a leaf by a factor of stiffness and one of loss.
pub(super) fn vary_compound(laminate: &mut Laminate, compound_stiffness: f64, compound_loss: f64) {
    for bond in &mut laminate.bonds {
        if let Bond::Viscoelastic(layer) = bond {
            layer.shear_modulus = layer.shear_modulus.scaled(compound_stiffness);
            layer.loss_factor = layer.loss_factor.scaled(compound_loss);
        }
    }
}
