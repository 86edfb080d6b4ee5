//! The sound reduction index of a wall as it might be in truth, to hold it against measured ones.

use super::method::{KNOTS, error, method_deviation_db};
use super::points::points;
use super::spread::Dimension as D;
use super::vary::vary_compound;
use crate::air::Air;
use crate::bands::Spectrum;
use crate::buildup::{Element, Stack};
use crate::transmission::{Mount, sound_reduction_db};

/// Sound reduction indices in dB of `stack` by band, `count` of them, alike in probability.
///
/// Density, stiffness and loss of all leaves and the compound vary as far as those of a box's outer shell do, and the method is off as
/// the energy balance and laboratories are. All leaves go together.
pub fn wall_samples_db(stack: &Stack, mount: &Mount, air: &Air, count: usize) -> Vec<Spectrum> {
    const VARIED: [D; 5] = [D::OuterLoss, D::OuterStiffness, D::OuterDensity, D::CompoundStiffness, D::CompoundLoss];
    // A wall in a laboratory has no network of low frequencies.
    let deviation_db = method_deviation_db(1.0);
    let sample = |point: &Vec<super::points::Coordinate>| {
        let [loss, stiffness, density, compound_stiffness, compound_loss] =
            std::array::from_fn(|k| VARIED[k].spread().at(point[k]));
        let mut varied = stack.clone();
        for element in &mut varied.elements {
            let Element::Panel(laminate) = element else { continue };
            for sheet in &mut laminate.sheets {
                sheet.loss_factor *= loss;
                sheet.youngs_modulus *= stiffness;
                sheet.shear_modulus *= stiffness;
                sheet.density *= density;
            }
            vary_compound(laminate, compound_stiffness, compound_loss);
        }
        let off = error(&std::array::from_fn::<f64, { KNOTS + 1 }, _>(|k| point[VARIED.len() + k].normal));
        let off_db = off.zip(&deviation_db, |off, db| off * db);
        sound_reduction_db(&varied, mount, air).zip(&off_db, |r_db, off_db| r_db - off_db)
    };
    points(VARIED.len() + KNOTS + 1, count).iter().map(sample).collect()
}
