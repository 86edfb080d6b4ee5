//! Round holes for cables and jacks: open, round a cable, or filled with sealant.

use std::f64::consts::PI;

use crate::air::Air;
use crate::bands::{Spectrum, band_position_hz};
use crate::math::ln;
use crate::transmission::band_mean::band_means;

use super::lid::BAND_TOLERANCE;
use super::narrow::ChannelFluid;
use super::opening::Holes;
use super::radiation::{SlitEnd, piston_end, strip_end};
use super::resonance::Resonances;
use super::slit::{Medium, Segment, slit_at};
use super::two_port::{OpeningAt, TwoPort};

/// Gap in m that stays round a jack or cable which fills its hole, unsealed; assumed.
pub const LEAST_GAP_M: f64 = 0.000_05;
/// Gap in m that sealant leaves at the rim of a hole and round a cable, where it has shrunk; assumed.
pub const SEALED_GAP_M: f64 = 0.000_02;

/// What goes through `holes` in a wall `wall_m` thick, at `hz`.
///
/// An open hole is a round tube with the ends of a piston; round a cable an annular slit of height (D - d)/2 and length
/// pi (D + d)/2. Between a thin wire and none, the one goes over into the other. Sealed, a slit of [`SEALED_GAP_M`] stays at the
/// rim and round the cable. All holes radiate on their own.
pub fn holes_at(holes: &Holes, wall_m: f64, hz: f64, air: &Air) -> OpeningAt {
    // Nothing is nothing: only what is in a hole can fill more or less of it.
    let factor = if holes.cable_m > 0.0 { holes.gap_factor } else { 1.0 };
    let open_m = (holes.diameter_m - holes.cable_m).max(2.0 * LEAST_GAP_M) * factor;
    let cable_m = (holes.diameter_m - open_m).max(0.0);
    let one = if holes.sealed {
        let rims = [Segment { height_m: SEALED_GAP_M * holes.gap_factor, depth_m: wall_m, medium: Medium::Air }];
        slit_at(&rims, PI * (holes.diameter_m + cable_m), [SlitEnd::MidWall; 2], hz, air)
    } else {
        annulus_at(0.5 * holes.diameter_m, cable_m / holes.diameter_m, wall_m, hz, air)
    };
    one.times(holes.count as f64)
}

/// Diameter over that of the hole below which a wire no longer holds the air in the middle of a hole; assumed.
const THIN_WIRE: f64 = 0.02;

/// Squared radius of the tube that resists steady flow as an annulus of outer radius 1 and inner radius `kappa`.
///
/// White (1991, Viscous Fluid Flow, section 3-3, from memory): velocity per pressure (1 + kappa^2 - (1 - kappa^2)/ln(1/kappa))/(8 mu). A wire
/// of less than a fiftieth of the hole is not held in its middle: there the last term is made to vanish faster than 1/ln.
fn steady_radius_squared(kappa: f64) -> f64 {
    if kappa == 0.0 {
        return 1.0;
    }
    let squared = kappa * kappa;
    if kappa > 0.99 {
        // Two planes: the difference above would cancel.
        return (1.0 - kappa) * (1.0 - kappa) / 1.5;
    }
    let part = (kappa / THIN_WIRE).min(1.0);
    let held = part * part * (3.0 - 2.0 * part);
    1.0 + squared + held * (1.0 - squared) / ln(kappa)
}

/// The space between a hole of `radius_m` and a cable of `kappa` times that radius in its middle.
///
/// A cable that lies on the rim lets up to 2.5 times as much steady flow through, the gap being wider opposite (White 1991, section 3-3, from memory);
/// that is not counted, since cables are held in the middle by a bush or a grommet where their gap matters.
///
/// Friction as in the tube and the slit that resist steady flow as the annulus does, the ends as those of piston and ring, each
/// with a share that goes from all to nothing between no cable and one that fills the hole.
fn annulus_at(radius_m: f64, kappa: f64, wall_m: f64, hz: f64, air: &Air) -> OpeningAt {
    let open = 1.0 - kappa * kappa;
    let tube_share = open * open;
    let steady = steady_radius_squared(kappa);
    let tube = ChannelFluid::tube(radius_m * steady.sqrt(), hz, air);
    let piston = piston_end(PI * radius_m * radius_m, hz, air);
    let (fluid, end) = if kappa == 0.0 {
        (tube, piston)
    } else {
        let slit = ChannelFluid::slit(radius_m * (1.5 * steady).sqrt(), hz, air);
        let (height_m, length_m) = (radius_m * (1.0 - kappa), PI * radius_m * (1.0 + kappa));
        let strip = strip_end(height_m, length_m, SlitEnd::MidWall, hz, air);
        (tube.mixed(tube_share, slit), piston.mixed(tube_share, strip))
    };
    let area_m2 = PI * radius_m * radius_m * open;
    let mut opening = TwoPort::channel(fluid, area_m2, wall_m, 2.0 * PI * hz).between([end, end], air);
    let ring_m2 = 4.0 * PI * radius_m * (1.0 + kappa) / air.wavenumber(hz);
    let plane_m2 = tube_share * plane_wave_area(hz, air) + (1.0 - tube_share) * ring_m2;
    opening.transmission_area_m2 += (area_m2 - plane_m2).max(0.0);
    opening
}

/// Most that the plane wave in a channel can carry from a diffuse field to another, as an area in m2: lambda^2/pi.
///
/// A channel's every wave takes part of the field, lambda^2 in area times solid angle against pi S of the whole opening; what an
/// opening has beyond that its higher modes carry, as rays would.
pub(super) fn plane_wave_area(hz: f64, air: &Air) -> f64 {
    let k = air.wavenumber(hz);
    4.0 * PI / (k * k)
}

/// Transmission area in m2 by band of `holes`, as [`holes_at`].
pub fn holes_transmission_area(holes: &Holes, wall_m: f64, air: &Air) -> Spectrum {
    let at = |position| [holes_at(holes, wall_m, band_position_hz(position), air).transmission_area_m2];
    let open_m2 = 0.25 * PI * holes.diameter_m * holes.diameter_m;
    let end = |hz| piston_end(open_m2, hz, air).reactance * open_m2 / air.impedance();
    let mut resonances = Resonances::along(wall_m, end, air);
    resonances.retain(|_| !holes.sealed);
    let [area_m2] = band_means(BAND_TOLERANCE, resonances.positions(), at);
    area_m2
}
