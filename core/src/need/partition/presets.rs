//! The constructions: sheets, cavities and gaps of every preset. Common practice, no source, unless something else is said.
//!
//! Masonry, glass and boards: density, Young's modulus and loss factor from memory of textbook tables (C. Hopkins, Sound
//! Insulation, 2007, Table A2, gives density and quasi-longitudinal wave speed c; E = rho c^2 (1 - nu^2)). What the catalogue of
//! sheets has is the same here; a test compares them.

use crate::buildup::Sheet;
use crate::enclosure::SlitEnd;

/// A preset.
pub(super) struct Construction {
    /// Key in documents.
    pub key: &'static str,
    /// Name for people.
    pub label: &'static str,
    /// One sentence.
    pub description: &'static str,
    /// Width and height in m; assumed.
    pub size_m: [f64; 2],
    /// Sheets of the leaf on the side of the box, rigidly joined.
    pub first: &'static [Sheet],
    /// What lies behind it, if it is not alone.
    pub cavity: Option<Cavity>,
    /// Slits round it, or round each of two casements.
    pub leaks: &'static [Leak],
}

/// A cavity and the leaf behind it.
pub(super) struct Cavity {
    /// Depth in m.
    pub depth_m: f64,
    /// Thickness in m of the mineral wool on the second leaf; 0: none.
    pub wool_m: f64,
    /// Sheets of the second leaf.
    pub second: &'static [Sheet],
    /// Distance in m between the lines that join both leaves, if any do.
    pub line_spacing_m: Option<f64>,
    /// Whether each leaf has the leaks for itself and they open into the cavity.
    pub leaks_into_it: bool,
}

/// A slit.
pub(super) struct Leak {
    /// Height in m.
    pub height_m: f64,
    /// Depth in m along the path.
    pub depth_m: f64,
    /// Length in m.
    pub length_m: f64,
    /// What lies round both ends.
    pub end: SlitEnd,
}

/// Flow resistivity in Pa s/m2 of light mineral wool between studs and joists (T. E. Vigran, Building Acoustics, section 8:
/// common products).
pub(super) const WOOL_FLOW_RESISTIVITY: f64 = 10_000.0;

/// An isotropic sheet `mm` thick: density in kg/m3, Young's modulus in GPa, Poisson's ratio, loss factor.
const fn sheet(mm: f64, density: f64, e_gpa: f64, poisson: f64, loss_factor: f64) -> Sheet {
    let youngs_modulus = e_gpa * 1e9;
    let shear_modulus = youngs_modulus / (2.0 * (1.0 + poisson));
    Sheet { thickness_m: mm / 1000.0, density, youngs_modulus, poisson, loss_factor, shear_modulus }
}

/// Wave speed 2700 m/s.
const BRICK: Sheet = sheet(215.0, 1750.0, 12.2, 0.2, 0.01);
/// Wave speed 1610 m/s.
const PLASTER: Sheet = sheet(13.0, 1200.0, 3.0, 0.2, 0.01);
/// Aggregate blocks; wave speed 2200 m/s.
const BLOCK: Sheet = sheet(100.0, 1400.0, 6.5, 0.2, 0.01);
/// Wave speed 3800 m/s.
const fn concrete(mm: f64) -> Sheet {
    sheet(mm, 2300.0, 31.9, 0.2, 0.005)
}
pub(super) const GYPSUM_BOARD: Sheet = sheet(12.5, 700.0, 2.7, 0.3, 0.03);
pub(super) const fn particle_board(mm: f64) -> Sheet {
    sheet(mm, 650.0, 3.2, 0.25, 0.02)
}
pub(super) const PANE: Sheet = sheet(4.0, 2500.0, 65.0, 0.24, 0.02);
pub(super) const STEEL: Sheet = sheet(0.7, 7800.0, 200.0, 0.28, 0.001);
const HARDBOARD: Sheet = sheet(3.0, 950.0, 4.0, 0.3, 0.02);
/// Paper honeycomb: stiff in shear only, 10 MPa assumed; its density holds the door's frame of wood, spread over the door.
const HONEYCOMB: Sheet = Sheet { shear_modulus: 1e7, ..sheet(34.0, 75.0, 0.01, 0.3, 0.03) };

const WALL_M: [f64; 2] = [4.0, 2.5];
const FLOOR_M: [f64; 2] = [4.0, 4.0];
const WINDOW_M: [f64; 2] = [1.2, 1.25];
const DOOR_M: [f64; 2] = [0.9, 2.0];

/// Residual gap in m of a casement's seal; assumed: at 100 Pa it lets 4 m3/h through a square metre of window, class 3 of EN
/// 12207 (at most 9; from memory).
const CASEMENT_SEAL: Leak = Leak { height_m: 0.0002, depth_m: 0.01, length_m: 4.9, end: SlitEnd::MidWall };

/// In the order of the enumeration.
pub(super) static PRESETS: [Construction; 13] = [
    Construction {
        key: "brick-wall",
        label: "Brick, 215 mm, plastered",
        description: "Solid brickwork 215 mm with 13 mm of plaster on both faces, joints full; no gaps assumed.",
        size_m: WALL_M,
        first: &[PLASTER, BRICK, PLASTER],
        cavity: None,
        leaks: &[],
    },
    Construction {
        key: "concrete-wall",
        label: "Concrete wall, 180 mm",
        description: "Cast concrete 180 mm; no gaps assumed.",
        size_m: WALL_M,
        first: &[concrete(180.0)],
        cavity: None,
        leaks: &[],
    },
    Construction {
        key: "block-wall",
        label: "Light block, 100 mm, plastered",
        description: "Blocks of lightweight aggregate concrete 100 mm with 13 mm of plaster on both faces; no gaps assumed.",
        size_m: WALL_M,
        first: &[PLASTER, BLOCK, PLASTER],
        cavity: None,
        leaks: &[],
    },
    Construction {
        key: "stud-wall",
        label: "Timber studs, one board a side",
        description: "Gypsum board 12.5 mm on both sides of 95 mm timber studs at 600 mm, the studs taken as rigid, mineral \
                      wool between them; edges assumed sealed.",
        size_m: WALL_M,
        first: &[GYPSUM_BOARD],
        cavity: Some(Cavity {
            depth_m: 0.095,
            wool_m: 0.095,
            second: &[GYPSUM_BOARD],
            line_spacing_m: Some(0.6),
            leaks_into_it: false,
        }),
        leaks: &[],
    },
    Construction {
        key: "joist-floor",
        label: "Joist floor with ceiling",
        description: "Particle board 22 mm on 195 mm joists at 600 mm, 100 mm of mineral wool, gypsum board 12.5 mm fixed \
                      straight to the joists, which are taken as rigid; edges assumed sealed.",
        size_m: FLOOR_M,
        first: &[particle_board(22.0)],
        cavity: Some(Cavity {
            depth_m: 0.195,
            wool_m: 0.1,
            second: &[GYPSUM_BOARD],
            line_spacing_m: Some(0.6),
            leaks_into_it: false,
        }),
        leaks: &[],
    },
    Construction {
        key: "joist-floor-bare",
        label: "Joist floor without ceiling",
        description: "Particle board 22 mm, tongued and grooved, on joists, nothing below; no gaps assumed.",
        size_m: FLOOR_M,
        first: &[particle_board(22.0)],
        cavity: None,
        leaks: &[],
    },
    Construction {
        key: "concrete-floor",
        label: "Concrete slab, 160 mm",
        description: "Cast concrete 160 mm without screed or ceiling; no gaps assumed.",
        size_m: FLOOR_M,
        first: &[concrete(160.0)],
        cavity: None,
        leaks: &[],
    },
    Construction {
        key: "single-glass",
        label: "Window, single 4 mm glass",
        description: "One pane of 4 mm in a shut casement whose seal leaves 0.2 mm open all round (assumed).",
        size_m: WINDOW_M,
        first: &[PANE],
        cavity: None,
        leaks: &[CASEMENT_SEAL],
    },
    Construction {
        key: "insulating-glass",
        label: "Window, sealed unit 4-16-4",
        description: "Two panes of 4 mm, 16 mm apart, in a shut casement whose seal leaves 0.2 mm open all round (assumed).",
        size_m: WINDOW_M,
        first: &[PANE],
        cavity: Some(Cavity { depth_m: 0.016, wool_m: 0.0, second: &[PANE], line_spacing_m: None, leaks_into_it: false }),
        leaks: &[CASEMENT_SEAL],
    },
    Construction {
        key: "double-window",
        label: "Two casements, 100 mm apart",
        description: "Two shut casements with a pane of 4 mm each, 100 mm apart, nothing joining them; the seal of each leaves \
                      0.2 mm open all round (assumed).",
        size_m: WINDOW_M,
        first: &[PANE],
        cavity: Some(Cavity { depth_m: 0.1, wool_m: 0.0, second: &[PANE], line_spacing_m: None, leaks_into_it: true }),
        leaks: &[CASEMENT_SEAL],
    },
    Construction {
        key: "solid-door",
        label: "Solid door with seals",
        description: "Particle board 40 mm, 26 kg/m2; seals on three sides leave 0.2 mm open, that of the threshold 1 mm \
                      (assumed).",
        size_m: DOOR_M,
        first: &[particle_board(40.0)],
        cavity: None,
        leaks: &[
            Leak { height_m: 0.0002, depth_m: 0.01, length_m: 4.9, end: SlitEnd::MidWall },
            Leak { height_m: 0.001, depth_m: 0.01, length_m: 0.9, end: SlitEnd::Edge },
        ],
    },
    Construction {
        key: "hollow-door",
        label: "Hollow door without seals",
        description: "Two hardboards of 3 mm glued on 34 mm of paper honeycomb, 8 kg/m2; a gap of 5 mm at the threshold and \
                      0.5 mm in the rebate (assumed).",
        size_m: DOOR_M,
        first: &[HARDBOARD, HONEYCOMB, HARDBOARD],
        cavity: None,
        leaks: &[
            Leak { height_m: 0.005, depth_m: 0.04, length_m: 0.9, end: SlitEnd::Edge },
            Leak { height_m: 0.0005, depth_m: 0.02, length_m: 4.9, end: SlitEnd::MidWall },
        ],
    },
    Construction {
        key: "garage-door",
        label: "Garage door, sheet steel",
        description: "Sheet steel 0.7 mm, taken as flat and in one piece; a gap of 5 mm below and of 3 mm on the other sides \
                      (assumed).",
        size_m: [2.5, 2.0],
        first: &[STEEL],
        cavity: None,
        leaks: &[
            Leak { height_m: 0.005, depth_m: 0.03, length_m: 2.5, end: SlitEnd::Edge },
            Leak { height_m: 0.003, depth_m: 0.03, length_m: 6.5, end: SlitEnd::MidWall },
        ],
    },
];
