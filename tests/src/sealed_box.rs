//! Boxes of one thin plate with nothing but air in them, as published tables and other models have them.

use hushwright::air::Air;
use hushwright::buildup::{Laminate, Sheet};
use hushwright::enclosure::Braces;
use hushwright::enclosure::network::{Branch, Chamber, Faces, Network};
use hushwright::enclosure::panel::{Panel, PanelShape};

use crate::coupled_modes::ThinSheet;

/// A plate that does not shear, with this loss factor of its own.
pub fn thin_plate(sheet: ThinSheet, loss_factor: f64) -> Laminate {
    let ThinSheet { modulus_pa: youngs_modulus, poisson, density, thickness_m } = sheet;
    let sheet = Sheet { thickness_m, density, youngs_modulus, poisson, loss_factor, shear_modulus: 1e16 };
    Laminate { sheets: vec![sheet], bonds: vec![] }
}

/// A panel with the same fixity all round, tabulated up to `last_band`.
pub fn panel(laminate: &Laminate, size_m: [f64; 2], fixity: f64, braces: Option<&Braces>, last_band: usize) -> Panel {
    Panel::new(laminate, &PanelShape { size_m, fixity: [fixity; 2] }, braces).tabulated(laminate, last_band)
}

/// One closed shell round a source in air; its surface is `free_surface_m2`.
pub fn sealed_box([a, b, h]: [f64; 3], laminate: &Laminate, fixity: f64, last_band: usize, free_surface_m2: f64) -> Network {
    let faces = [[a, b], [b, h], [h, a]].map(|size_m| (panel(laminate, size_m, fixity, None, last_band), 2.0));
    Network {
        front: Branch {
            chamber: Chamber { volume_m3: a * b * h, porous_m3: 0.0, flow_resistivity: 1.0 },
            faces: Faces(faces.to_vec()),
            lid_share: 1.0,
            holes_share: 1.0,
        },
        rear: None,
        outer: None,
        rigid_body: None,
        free_surface_m2,
        lid_edge_m: 1.0,
        air: Air::default(),
    }
}
