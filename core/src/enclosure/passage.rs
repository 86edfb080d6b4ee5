//! Openings as the network has them: what goes through, and what either side takes in.

use num_complex::Complex64;

use super::two_port::OpeningAt;

/// An opening between two pressures, admittances in m3/(s Pa).
///
/// Volume velocity in is (through + near) p1 - through p2, out through p1 - (through + far) p2: a path that is no longer short
/// against the wavelength has air of its own at either side. Without it `through` alone would make power where its real part is
/// negative.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Passage {
    /// Volume velocity that goes through per pressure.
    pub through: Complex64,
    /// What goes in beside that per pressure on the near side, and stays.
    pub near: Complex64,
    /// The same on the far side.
    pub far: Complex64,
}

impl From<OpeningAt> for Passage {
    fn from(opening: OpeningAt) -> Self {
        Self {
            through: opening.admittance,
            near: opening.driving_admittance - opening.admittance,
            far: opening.far_driving_admittance - opening.admittance,
        }
    }
}

impl Passage {
    /// The passage with a radiation `resistance` in Pa s/m3 behind it.
    #[must_use]
    pub fn radiating(self, resistance: f64) -> Self {
        let (near, far) = (self.through + self.near, self.through + self.far);
        let loaded = far * resistance + 1.0;
        let through = self.through / loaded;
        Self { through, near: near - self.through * resistance * through - through, far: far / loaded - through }
    }
}

impl std::ops::Mul<f64> for Passage {
    type Output = Self;

    fn mul(self, share: f64) -> Self {
        Self { through: self.through * share, near: self.near * share, far: self.far * share }
    }
}

/// One shell's openings at one frequency.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OpeningAdmittances {
    /// Edge of the lid.
    pub leaks: Passage,
    /// Holes.
    pub holes: Passage,
}

/// What openings let through at one frequency.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OpeningsAt {
    /// Openings of the inner shell, or the only one.
    pub inner: OpeningAdmittances,
    /// Openings of the outer shell.
    pub outer: OpeningAdmittances,
    /// Vents from the front chamber to the room.
    pub vents: Passage,
}
