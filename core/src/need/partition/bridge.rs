//! Studs and joists: rigid lines that carry one leaf's motion to the other.

use std::f64::consts::PI;

use crate::air::Air;
use crate::bands::{Spectrum, exact_mid_hz};
use crate::buildup::Laminate;
use crate::transmission::Mount;
use crate::transmission::bending::{bending_stiffness, free_wavenumber};
use crate::transmission::resonant::free_wave_efficiency;

/// Transmission coefficient by band of rigid lines `spacing_m` apart between two leaves, for a diffuse field.
///
/// A diffuse field of mean square pressure p^2 brings p^2/(4 rho c) to a square metre and moves the first leaf with v1^2 =
/// 2 p^2/(w m1)^2. At a line both leaves move alike: v = v1 Z1/(Z1 + Z2), with Z the line impedance of a plate, 2 m cB (1 + j)
/// with cB the speed of its bending waves. A plate driven along a line radiates (2/pi) rho c (c/fc) v^2 from a metre of it below
/// its critical frequency fc (Heckl 1959; both for instance Cremer, Heckl & Petersson 2005, Structure-Borne Sound, ch. 6, from
/// memory). Together
///
/// tau = 16 rho^2 c^3/(pi b w^2 (m1 sqrt(fc2) + m2 sqrt(fc1))^2),
///
/// the same both ways; it is the relation of Sharp (1978, Noise Control Eng. 11, 53, from memory), whose constant is 2 dB lower.
///
/// Free bending waves add to it. A line that moves with v sends v^2 2 m cB into its leaf, of which rho c sigma/(w m eta)
/// radiates: a = sqrt(fc/f) sigma/(2 eta) times as much as the line's own field; by reciprocity those of the first leaf give a1
/// times as much as the forced ones. From free waves to free waves the lines couple as in statistical energy analysis (as Craik
/// & Smith 2000, Appl. Acoust. 61, 247, do it, from memory; the coupling derived here):
///
/// tau = (2 rho c/w)^2 pi fc1/(2 f) sigma1 sigma2 eta12/(m1 m2 eta1 eta2).
///
/// eta is the loss factor of material, edges and radiation to both sides, and of the lines. Those take eta12 = 4 cB t/(pi w b),
/// hit from both sides, with t the part of the power of a diffuse bending field that passes: Z1 Z2/(Z1 + Z2)^2 at normal
/// incidence, (1 + sin^2) times that at others and 4/3 on average, of those waves that have a counterpart in the other leaf. A
/// part comes back: everything that free waves add grows by 1/(1 - eta12 eta21/(eta1 eta2)).
pub fn transmission(leaves: [&Laminate; 2], spacing_m: f64, mount: &Mount, air: &Air) -> Spectrum {
    let impedance = air.impedance();
    Spectrum::from_fn(|band| {
        let hz = exact_mid_hz(band);
        let omega = 2.0 * PI * hz;
        let leaves = leaves.map(|leaf| LeafAt::new(leaf, hz, air));
        // Line impedances over 2 (1 + j).
        let [z1, z2] = leaves.each_ref().map(|leaf| leaf.mass * leaf.bending_speed);
        let passed = 4.0 / 3.0 * z1 * z2 / ((z1 + z2) * (z1 + z2));
        let fastest = leaves[0].bending_speed.max(leaves[1].bending_speed);
        // Free waves: sigma/eta, what they add to the near field, what the lines take and its part of the loss.
        let [(gain1, free1, lines1, share1), (gain2, free2, _, share2)] = leaves.each_ref().map(|leaf| {
            let sigma = free_wave_efficiency(mount.size_m, leaf.critical_hz, hz, air);
            let edges = mount.edge_loss.loss_factor(hz, leaf.mass);
            let radiation = 2.0 * impedance * sigma / (omega * leaf.mass);
            let counterparts = leaf.bending_speed / fastest;
            let lines = 4.0 * leaf.bending_speed * passed * counterparts / (PI * omega * spacing_m);
            let loss = leaf.loss_factor + edges + radiation + lines;
            (sigma / loss, 0.5 * (leaf.critical_hz / hz).sqrt() * sigma / loss, lines, lines / loss)
        });
        let masses = omega * omega * leaves[0].mass * leaves[1].mass;
        let modes = 0.5 * PI * leaves[0].critical_hz / hz;
        let free_to_free = 4.0 * impedance * impedance * modes * gain1 * gain2 * lines1 / masses;
        let near_field = near_field(&leaves, spacing_m, hz, air);
        near_field + (near_field * (free1 + free2) + free_to_free) / (1.0 - share1 * share2)
    })
}

/// What forced waves of the first leaf give and the second radiates next to the lines.
fn near_field([leaf1, leaf2]: &[LeafAt; 2], spacing_m: f64, hz: f64, air: &Air) -> f64 {
    let opposing = 2.0 * PI * hz * (leaf1.mass * leaf2.critical_hz.sqrt() + leaf2.mass * leaf1.critical_hz.sqrt());
    16.0 * air.impedance() * air.impedance() * air.speed / (PI * spacing_m * opposing * opposing)
}

/// A leaf at one frequency.
struct LeafAt {
    /// Mass per area in kg/m2.
    mass: f64,
    /// Loss factor of material and bonds.
    loss_factor: f64,
    /// Speed of free bending waves in m/s.
    bending_speed: f64,
    /// Critical frequency in Hz, that of the wave at this frequency.
    critical_hz: f64,
}

impl LeafAt {
    fn new(leaf: &Laminate, hz: f64, air: &Air) -> Self {
        let wavenumber = free_wavenumber(leaf, hz);
        let stiffness = bending_stiffness(leaf, wavenumber, hz);
        let mass = leaf.surface_mass();
        Self {
            mass,
            loss_factor: stiffness.im / stiffness.re,
            bending_speed: 2.0 * PI * hz / wavenumber,
            critical_hz: air.speed * air.speed / (2.0 * PI) * (mass / stiffness.re).sqrt(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::buildup::{EdgeLoss, Sheet};
    use crate::math::{Complex64, complex, lg, to_db};

    const MOUNT: Mount = Mount { size_m: [4.0, 2.5], edge_loss: EdgeLoss::Laboratory };

    fn board(thickness_m: f64, loss_factor: f64) -> Laminate {
        let (youngs_modulus, poisson) = (3e9, 0.3);
        let sheet = Sheet { thickness_m, density: 700.0, youngs_modulus, poisson, loss_factor, shear_modulus: 1e16 };
        Laminate { sheets: vec![sheet], bonds: vec![] }
    }

    /// (2/pi) rho c (c/fc) of a metre of line, and 2 m cB (1 + j), by the integrals over wavenumbers of a plate with a little loss.
    #[test]
    fn a_line_drives_and_radiates_as_its_spectrum_says() {
        const STEPS: usize = 400_000;
        let air = Air::default();
        let hz = 20.0;
        let leaf = LeafAt::new(&board(0.0125, 0.03), hz, &air);
        let (omega, k0) = (2.0 * PI * hz, air.wavenumber(hz));
        let kb = omega / leaf.bending_speed;
        let response = |k: f64| {
            let stiffness = complex(1.0, 0.03) * (k / kb).powi(4);
            complex(1.0, 0.0) / (complex(0.0, omega * leaf.mass) * (complex(1.0, 0.0) - stiffness))
        };
        let step = 40.0 * kb / STEPS as f64;
        let line: Complex64 = (0..STEPS).map(|i| response((i as f64 + 0.5) * step)).sum::<Complex64>() * (step / PI);
        let impedance = complex(1.0, 0.0) / line;
        let want = complex(1.0, 1.0) * (2.0 * leaf.mass * leaf.bending_speed);
        assert!((impedance - want).l1_norm() < 0.03 * want.l1_norm(), "{impedance} against {want}");
        // k = k0 sin t takes the root out of the integral.
        let turn = PI / 1000.0;
        let over = |i: i32| response(k0 * libm::sin((f64::from(i) + 0.5) * turn - 0.5 * PI)).norm_sqr();
        let power = air.impedance() * k0 * (0..1000).map(over).sum::<f64>() * turn / (2.0 * PI);
        let want = 2.0 / PI * air.impedance() * air.speed / leaf.critical_hz;
        assert!((power / line.norm_sqr() / want - 1.0).abs() < 0.05, "{} against {want}", power / line.norm_sqr());
    }

    /// Sharp (1978): 20 lg((m1 + m2) f) - 47 + 10 lg(b fc) + 20 lg(m1/(m1 + m2)) - 18, from memory; he takes the power that a
    /// forced wave would radiate for the velocity of the leaf, and rounds.
    #[test]
    fn two_decibels_above_sharp() {
        let air = Air::default();
        let leaves = [1, 2].map(|_| LeafAt::new(&board(0.0125, 0.03), 500.0, &air));
        let ours = -to_db(near_field(&leaves, 0.6, 500.0, &air));
        let sharp = 20.0 * lg(2.0 * leaves[0].mass * 500.0) - 47.0 + 10.0 * lg(0.6 * leaves[1].critical_hz) - 6.0 - 18.0;
        assert!((ours - sharp - 2.0).abs() < 0.5, "{ours} against {sharp}");
    }

    #[test]
    fn the_same_both_ways() {
        let (thin, thick) = (board(0.009, 0.02), board(0.022, 0.03));
        let air = Air::default();
        let [there, back] = [[&thin, &thick], [&thick, &thin]].map(|leaves| transmission(leaves, 0.6, &MOUNT, &air));
        assert!(there.zip(&back, |there, back| (there / back - 1.0).abs()).iter().all(|error| error < 1e-12));
    }

    /// Without loss but radiation both leaves hold the same energy, and the diffuse field's goes out by their four faces alike:
    /// half of what one leaf alone lets through, (2 rho c/(w m))^2 pi fc sigma^2/(2 f eta) (resonant transmission as in
    /// statistical energy analysis, for instance Lyon & DeJong 1995).
    #[test]
    fn leaves_without_loss_share_their_energy() {
        let air = Air::default();
        let mut leaf = board(0.0125, 0.0);
        (leaf.sheets[0].density, leaf.sheets[0].youngs_modulus) = (7000.0, 3e10);
        let mount = Mount { edge_loss: EdgeLoss::None, ..MOUNT };
        let bridged = transmission([&leaf, &leaf], 3.0, &mount, &air);
        for band in 23..27 {
            let hz = exact_mid_hz(band);
            let LeafAt { mass, critical_hz, .. } = LeafAt::new(&leaf, hz, &air);
            let sigma = free_wave_efficiency(mount.size_m, critical_hz, hz, &air);
            let ratio = 2.0 * air.impedance() / (2.0 * PI * hz * mass);
            let alone = ratio * ratio * PI * critical_hz / (2.0 * hz) * sigma * sigma / (ratio * sigma);
            assert!((2.0 * bridged[band] / alone - 1.0).abs() < 0.1, "band {band}: {} of {alone}", bridged[band]);
        }
    }

    /// Fewer, lossier or heavier: less goes through; lines far apart vanish, and without loss nothing is infinite.
    #[test]
    fn limits() {
        let air = Air::default();
        let by = |thickness_m, loss_factor, spacing_m| {
            let leaf = board(thickness_m, loss_factor);
            transmission([&leaf, &leaf], spacing_m, &MOUNT, &air)
        };
        let usual = by(0.0125, 0.03, 0.6);
        let less = |other: Spectrum| usual.zip(&other, |usual, other| other / usual).iter().all(|ratio| ratio < 1.0);
        assert!(less(by(0.0125, 0.03, 0.9)) && less(by(0.0125, 0.1, 0.6)));
        assert!(by(0.0125, 0.03, 1e9).iter().all(|transmission| transmission < 1e-9));
        let lossless = by(0.0125, 0.0, 0.6);
        assert!(lossless.is_finite() && lossless.iter().all(|transmission| transmission > 0.0));
        // A change of 1 % moves no band by more than 1 dB, coincidence and its slopes included.
        let near = by(0.012625, 0.03, 0.6);
        assert!(
            usual.zip(&near, |a, b| to_db(a / b).abs()).iter().all(|db| db < 1.0),
            "{:?}",
            usual.zip(&near, |a, b| to_db(a / b))
        );
    }
}
