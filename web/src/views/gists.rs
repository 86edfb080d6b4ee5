//! Stations and their parts in a few words, as they stand when folded away.

use std::fmt::Write;

use hushwright::buildup::raw::Layer;
use hushwright::design::{BracesPart, Design};

use crate::leaf;
use crate::need_readings::listener_name;
use crate::quantity::{Units, decimal};
use crate::state::Choice;
use crate::words::{braces_gist, counted, holes_gist, lid_gist, support_gist};

/// The source.
pub fn source_gist(design: &Design, _: Units) -> String {
    design.source.spectrum.label().to_owned()
}

/// Its drivers.
pub fn drivers_gist(design: &Design, units: Units) -> String {
    let Some(driver) = &design.source.driver else { return String::new() };
    let count = counted(driver.count, "driver", "drivers");
    format!("{count}, {} {}", units.thickness(driver.diameter_mm), units.length_unit())
}

/// Who listens.
pub fn listeners_gist(design: &Design, _: Units) -> String {
    if design.listeners.is_empty() {
        return "nobody yet".to_owned();
    }
    design.listeners.iter().map(listener_name).collect::<Vec<_>>().join("; ")
}

/// The sheets of a shell, from the inside out.
pub fn shell_gist(layers: &[Layer], units: Units) -> String {
    let sheets = layers.iter().filter(|layer| layer.sheet.is_some());
    let list: Vec<String> = sheets
        .map(|layer| format!("{} {}", leaf::sheet_name(layer), units.thickness(layer.thickness_mm.unwrap_or_default())))
        .collect();
    format!("{} {}", list.join(" + "), units.length_unit())
}

/// The sheets of the inner box, which may be an old cabinet.
pub fn inner_layers_gist(design: &Design, units: Units) -> String {
    let layers = shell_gist(&design.inner.layers, units);
    if design.inner.existing { format!("old cabinet: {layers}") } else { layers }
}

/// The inner box.
pub fn inner_gist(design: &Design, units: Units) -> String {
    let lining = match &design.inner.lining {
        Some(lining) => format!("lining {} {}", units.thickness(lining.thickness_mm), units.length_unit()),
        None => "no lining".to_owned(),
    };
    let mut gist = format!("{}, {lining}", inner_layers_gist(design, units));
    if let Some(braces) = &design.inner.braces {
        let _ = write!(gist, ", {}", braces_gist(braces));
    }
    gist
}

/// Corners and braces of a shell.
pub fn edges_gist(fixity: f64, braces: Option<&BracesPart>) -> String {
    let braces = braces.map_or_else(|| "no braces".to_owned(), braces_gist);
    format!("corners held {} %, {braces}", decimal(100.0 * fixity, 0))
}

/// The baffle.
pub fn baffle_gist(design: &Design, units: Units) -> String {
    match &design.inner.baffle {
        Some(baffle) => {
            let sheet = Choice::Baffle.words(design);
            let (thickness, rear) = (units.thickness(baffle.thickness_mm), units.thickness(baffle.rear_mm));
            format!("{sheet} {thickness}, {rear} {} behind it", units.length_unit())
        }
        None => "none, one chamber".to_owned(),
    }
}

/// The gap and what holds the inner box in it.
pub fn gap_gist(design: &Design, units: Units) -> String {
    if design.outer.is_none() {
        return "no outer box, no gap".to_owned();
    }
    let depth = format!("{} {}", units.thickness(design.gap.depth_mm), units.length_unit());
    let fill = match &design.gap.fill {
        Some(fill) => format!("{} % filled", decimal(100.0 * fill.share, 0)),
        None => "empty".to_owned(),
    };
    format!("{depth}, {fill}; {}", support_gist(&design.suspension))
}

/// The outer box.
pub fn outer_gist(design: &Design, units: Units) -> String {
    match &design.outer {
        Some(shell) => {
            let braces = shell.braces.as_ref().map(|braces| format!(", {}", braces_gist(braces))).unwrap_or_default();
            format!("{}{braces}", shell_gist(&shell.layers, units))
        }
        None => "none".to_owned(),
    }
}

/// Lid, holes and vents of the outermost box.
pub fn openings_gist(design: &Design, _: Units) -> String {
    let shell = design.outer.as_ref().map(|outer| (&outer.lid, &outer.holes));
    let (lid, holes) = shell.unwrap_or((&design.inner.lid, &design.inner.holes));
    let vents = design.vents.as_ref().map(|vents| format!("; {}", counted(vents.count, "vent", "vents"))).unwrap_or_default();
    format!("{}; {}{vents}", lid_gist(lid), holes_gist(holes))
}

/// The vents.
pub fn vents_gist(design: &Design, units: Units) -> String {
    let Some(vents) = &design.vents else { return "none, the box is shut".to_owned() };
    let size = [vents.width_mm, vents.height_mm].map(|mm| units.thickness(mm)).join(" × ");
    let bends = counted(vents.bends, "bend", "bends");
    format!("{} of {size} {}, {bends}", decimal(vents.count, 0), units.length_unit())
}

/// The room.
pub fn room_gist(design: &Design, units: Units) -> String {
    let room = &design.room;
    format!("{}, {} from the box", units.area(room.floor_area_m2), units.distance(room.distance_m))
}
