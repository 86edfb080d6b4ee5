//! The numbers of a material of one's own: what they are, usual values, and how to find them at home.

use super::{Explanation, Topic};
use crate::fields::MaterialNumber;

/// The explanation of a number of a material.
pub fn of_material_number(number: MaterialNumber) -> Topic {
    match number {
        MaterialNumber::Density => DENSITY,
        MaterialNumber::YoungsModulus => YOUNGS_MODULUS,
        MaterialNumber::Poisson => POISSON,
        MaterialNumber::LossFactor => LOSS_FACTOR,
        MaterialNumber::ShearModulus => SHEAR_MODULUS,
    }
}

explanations! {
    DENSITY "density" "Density"
        plain "Mass for its size, in kg/m³: birch plywood 680, gypsum board 700, MDF 740, glass 2500, steel 7800. Weigh a cut piece and divide by length × width × thickness."
        relation "m = ρh: twice the density is 6 dB where mass alone holds the sound back."
        source "Values: catalogue, from memory."
        assumptions "The same all through the board."
        validity "10 to 25 000 kg/m³.";
    YOUNGS_MODULUS "youngs-modulus" "Young’s modulus"
        plain "Stiffness, in GPa: gypsum board 2.7, MDF 3.2, birch plywood 8, glass 65, steel 200. Lay a strip over two edges, load its middle and measure the sag."
        relation "E = F·l³/(4·b·h³·sag), l from edge to edge. Or hang it up and tap: first note f = 1.03·(h/l²)·√(E/ρ), l its length."
        source "Values: catalogue, mostly from memory. Beam theory, textbook relations."
        assumptions "A long, thin strip, so that shear counts for little; F = 9.81 N for every kg."
        validity "10 kPa to 1000 GPa. Along and across may differ: take √(E₁·E₂).";
    POISSON "poisson" "Poisson’s ratio"
        plain "How much a strip narrows when it is stretched: 0.25 to 0.3 for boards, 0.24 glass, 0.28 steel, 0.44 lead. Hard to measure at home, and it matters little: keep 0.3."
        relation "D = Eh³/(12(1 − ν²)): from 0.25 to 0.3 it changes by 3 %."
        source "Values: catalogue, from memory."
        validity "0 to 0.4999.";
    LOSS_FACTOR "loss-factor" "Loss factor"
        plain "Damping: steel 0.001, birch plywood 0.02, MDF 0.025, acrylic 0.05, mass-loaded vinyl 0.2. Hang up an offcut and tap it: the longer it rings, the less it loses."
        relation "η = 2.2/(f·T), T the time in s in which its note f falls by 60 dB. The joints of the box add 0.02."
        source "Values: catalogue, from memory. Ringing: textbook relation. Joints: assumed."
        validity "0 to 2; offcuts that are held or glued lose more.";
    SHEAR_MODULUS "shear-modulus" "Shear modulus"
        plain "Stiffness against shear through the thickness. Leave it out for even boards. Plywood has less: 0.6 GPa for birch, since its cross plies roll."
        relation "Left out: G = E/(2(1 + ν)). It lowers the stiffness of thick boards at high frequencies (factor 5/6)."
        source "Mindlin (1951); plywood assumed."
        assumptions "Plywood: 0.1 to 0.2 of what an even board would have."
        validity "1 kPa to 1000 GPa.";
}
