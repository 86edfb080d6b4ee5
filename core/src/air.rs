//! Air from temperature and pressure.

use num_complex::Complex64;

/// Standard atmospheric pressure in Pa.
pub const STANDARD_PRESSURE_PA: f64 = 101_325.0;
/// Specific gas constant of dry air in J/(kg K).
const GAS_CONSTANT: f64 = 287.05;
/// 0 degrees Celsius in kelvin.
const ZERO_CELSIUS_K: f64 = 273.15;
/// Speed of sound in m/s at 0 degrees Celsius.
const SPEED_AT_ZERO: f64 = 331.3;

/// Ratio of the specific heats of a diatomic gas.
pub const HEAT_RATIO: f64 = 1.4;
/// Prandtl number of air at room temperature (for instance White 1991, Viscous Fluid Flow, table A).
pub const PRANDTL: f64 = 0.71;
/// Specific heat of air at constant pressure in J/(kg K): gamma/(gamma - 1) times the gas constant.
pub const SPECIFIC_HEAT: f64 = HEAT_RATIO / (HEAT_RATIO - 1.0) * GAS_CONSTANT;

/// Air at rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Density in kg/m3.
    pub density: f64,
    /// Speed of sound in m/s.
    pub speed: f64,
}

impl Air {
    /// Air at `temperature_c` degrees Celsius and `pressure_pa` Pa: c = 331.3 sqrt(1 + T/273.15), rho = p/(287.05 T).
    ///
    /// The speed follows from the ideal gas law with 331.3 m/s at 0 degrees Celsius; humidity is left out (below 0.4 %
    /// of the speed at room temperature).
    pub fn new(temperature_c: f64, pressure_pa: f64) -> Self {
        let temperature_k = temperature_c + ZERO_CELSIUS_K;
        Self {
            density: pressure_pa / (GAS_CONSTANT * temperature_k),
            speed: SPEED_AT_ZERO * (temperature_k / ZERO_CELSIUS_K).sqrt(),
        }
    }

    /// Characteristic impedance rho c in Pa s/m.
    pub fn impedance(&self) -> f64 {
        self.density * self.speed
    }

    /// Temperature in K, from the speed of sound.
    pub fn temperature_k(&self) -> f64 {
        let ratio = self.speed / SPEED_AT_ZERO;
        ZERO_CELSIUS_K * ratio * ratio
    }

    /// Dynamic viscosity in Pa s (Sutherland's law with 1.716e-5 Pa s at 273.15 K and a constant of 110.4 K; White 1991,
    /// Viscous Fluid Flow, section 1-3.3).
    pub fn viscosity(&self) -> f64 {
        let temperature_k = self.temperature_k();
        let ratio = temperature_k / ZERO_CELSIUS_K;
        1.716e-5 * ratio * ratio.sqrt() * (ZERO_CELSIUS_K + 110.4) / (temperature_k + 110.4)
    }

    /// Wavenumber in rad/m at `hz`.
    pub fn wavenumber(&self, hz: f64) -> f64 {
        2.0 * std::f64::consts::PI * hz / self.speed
    }

    /// Characteristic impedance as a complex number, for layers that may be lossy.
    pub fn complex_impedance(&self) -> Complex64 {
        Complex64::new(self.impedance(), 0.0)
    }
}

impl Default for Air {
    /// Air at 20 degrees Celsius and standard pressure.
    fn default() -> Self {
        Self::new(20.0, STANDARD_PRESSURE_PA)
    }
}
