//! The structure-borne path: recoil of the driver through the suspension into the outer box, through the feet into the floor.
//!
//! Forces are kept as mean squares per watt of the bare source's sound power, so that they follow any source spectrum.

use std::f64::consts::PI;

use super::energy::power_from_level_db;
use super::floor::FloorResponse;
use super::mobility::PanelResponse;
use super::support::{Driver, Support};
use super::transmissibility::{standing_waves, transmission, without_waves};
use crate::air::Air;
use crate::bands::{Spectrum, exact_mid_hz};
use crate::math::to_db;

/// Absorption area in m2 to which levels of structure-borne sound in a room are normalised (ISO 12354-2:2017).
pub const REFERENCE_ABSORPTION_M2: f64 = 10.0;
/// Mobility of a base that holds still.
const STILL: f64 = 0.0;
/// Smallest power ratio kept: 300 dB down, so that levels stay finite.
const LEAST_RATIO: f64 = 1e-30;

impl Driver {
    /// Mean square force in N2 on the baffle over the mean square pressure in Pa2 at `distance_m` from the bare driver.
    ///
    /// F = M_ms a with the acceleration a = 2 pi r p/(rho S_d) of a piston in a half space. Above the frequency at which
    /// the cone breaks up less mass moves than that and the force is smaller.
    pub fn recoil_per_pressure(&self, distance_m: f64, air: &Air) -> f64 {
        let force = self.moving_mass_kg * 2.0 * PI * distance_m / (air.density * self.cone_area_m2);
        force * force
    }

    /// Mean square force in N2 on the baffle per W of sound power of the bare driver: (M_ms/S_d)^2 2 pi c/rho.
    ///
    /// From W = 2 pi r^2 p^2/(rho c), the power that goes with a level over a floor.
    pub fn recoil_per_power(&self, air: &Air) -> f64 {
        self.recoil_per_pressure(1.0, air) * air.impedance() / (2.0 * PI)
    }
}

/// What shakes the box that stands on the feet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shaken {
    /// Mean square force in N2 on it per W of source power.
    pub force: Spectrum,
    /// Mass in kg that moves with it.
    pub mass_kg: Spectrum,
}

impl Shaken {
    /// One box of `mass_kg`, contents included, on whose baffle the driver works directly; no force without a driver.
    pub fn directly(driver: Option<&Driver>, mass_kg: f64, air: &Air) -> Self {
        let force = driver.map_or(0.0, |driver| driver.recoil_per_power(air));
        Self { force: Spectrum::constant(force), mass_kg: Spectrum::constant(mass_kg) }
    }
}

/// An inner box held in an outer one.
#[derive(Clone, Copy, Debug)]
pub struct Suspended<'a> {
    /// The driver in it, if any.
    pub driver: Option<&'a Driver>,
    /// What holds it.
    pub suspension: &'a Support,
    /// Mass in kg of the inner box with its contents.
    pub inner_kg: f64,
    /// Mass in kg of the outer box.
    pub outer_kg: f64,
    /// Mean square velocity in (m/s)2 of the inner walls per W of source power.
    pub wall_velocity: &'a Spectrum,
    /// A panel of the inner box.
    pub inner: &'a PanelResponse,
    /// A panel of the outer box.
    pub outer: &'a PanelResponse,
}

/// What goes through a suspension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SuspensionPath {
    /// Sound power that the outer box radiates because of it, over the source's power.
    pub transmission: Spectrum,
    /// The outer box as what stands on the feet.
    pub shaken: Shaken,
}

/// Sound power through the suspension, and the force that goes on to the feet.
///
/// Recoil: F_K^2 = F^2 T^2, the inner box a rigid mass; undiminished where it is fixed rigidly, which is an upper bound,
/// since light panels yield. The inner walls' own vibration v at the n fixing points adds n v^2/((w/K_1)^2 + (Y_i + Y_o)^2),
/// incoherent: the support's impedance in series with the panels' on both sides, so that a rigid fixing is the limit.
/// Fixings near edges, where walls move less, get less: v is the mean of the walls. The power F_K^2 Re Y/n of n incoherent
/// points goes into the outer box, which radiates its share. The box as a whole is taken to radiate nothing by shaking.
pub fn suspension_path(path: &Suspended, air: &Air) -> SuspensionPath {
    let (suspension, outer) = (path.suspension, path.outer);
    let held = Held::new(path.driver, suspension, path.inner_kg, air);
    let force =
        Spectrum::from_fn(|band| held.force(band, path.wall_velocity[band], path.inner.mobility[band] + outer.mobility[band]));
    // The inner box moves with the outer one below their natural frequency and stays behind above it.
    let follows = |band| without_waves(suspension, path.inner_kg, STILL, band).min(1.0).sqrt();
    SuspensionPath {
        transmission: Spectrum::from_fn(|band| force[band] * held.radiated(outer, band)),
        shaken: Shaken { force, mass_kg: Spectrum::from_fn(|band| path.outer_kg + path.inner_kg * follows(band)) },
    }
}

/// An inner box of known mass on its suspension.
#[derive(Clone, Debug)]
pub(crate) struct Held {
    count: f64,
    /// Mean square force of the recoil in N2 that arrives, per W of source power.
    recoil: Spectrum,
    /// Square of what one support yields, in (m/(N s))2.
    spring: Spectrum,
}

impl Held {
    /// `inner_kg` on `suspension`, with the recoil of `driver` where there is one.
    pub(crate) fn new(driver: Option<&Driver>, suspension: &Support, inner_kg: f64, air: &Air) -> Self {
        let recoil = driver.map_or(0.0, |driver| driver.recoil_per_power(air));
        let one = suspension.spring.map(|spring| spring.dynamic_stiffness().norm_sqr());
        let spring = |band| {
            let omega = 2.0 * PI * exact_mid_hz(band);
            let waves = standing_waves(suspension, inner_kg, band).max(LEAST_RATIO);
            one.map_or(0.0, |one| omega * omega / (one * waves))
        };
        Self {
            count: suspension.count as f64,
            recoil: Spectrum::from_fn(|band| recoil * transmission(suspension, inner_kg, STILL, band)),
            spring: Spectrum::from_fn(spring),
        }
    }

    /// Mean square force in N2 on the outer box per W of source power, from the mean square velocity of the inner walls in (m/s)2
    /// per W and the mobility of both boxes' panels in m/(N s), added.
    #[inline]
    pub(crate) fn force(&self, band: usize, wall_velocity: f64, panels: f64) -> f64 {
        self.recoil[band] + self.count * wall_velocity / (self.spring[band] + panels * panels)
    }

    /// Power that `outer` radiates per mean square force on it, in W/N2.
    #[inline]
    pub(crate) fn radiated(&self, outer: &PanelResponse, band: usize) -> f64 {
        outer.mobility[band] / self.count * outer.radiated_share[band]
    }
}

/// Level in dB by band in the room below, or beside on the ground, of what goes through the feet into the floor.
///
/// F^2 T^2 Re Y/n into the floor, its radiated share, and Lp = Lw + 10 lg(4/A0) with A0 = 10 m2, in the way of ISO
/// 12354-2:2017; less the junction where the room is beside. `source_db` is the level at 1 m from the bare source.
/// The box is taken as a rigid
/// mass on its feet, which a floor that yields more easily than the mass takes less force from. A wide estimate: floors of one kind differ by 10 dB. `None`: nothing shakes.
pub fn floor_borne(shaken: &Shaken, feet: &Support, floor: &FloorResponse, source_db: &Spectrum) -> Option<Spectrum> {
    if shaken.force.iter().all(|force| force == 0.0) {
        return None;
    }
    let count = feet.count as f64;
    let source = power_from_level_db(source_db);
    let room_db = to_db(4.0 / REFERENCE_ABSORPTION_M2) - floor.junction_db;
    Some(Spectrum::from_fn(|band| {
        let panel = &floor.panel;
        let through = transmission(feet, shaken.mass_kg[band], panel.mobility[band], band);
        let ratio = shaken.force[band] * through * panel.mobility[band] / count * panel.radiated_share[band];
        source[band] + to_db(ratio.max(LEAST_RATIO)) + room_db
    }))
}
