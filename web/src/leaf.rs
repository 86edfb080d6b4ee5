//! Editing the layers of one shell: sheets, with a bond between each two.

use hushwright::buildup::raw::{Layer, NameOr};
use hushwright::material;

/// The bond that is taken where a document names none.
const NO_BOND: &str = "loose";

/// Bonds that the page offers: key and words.
pub const BONDS: [(&str, &str); 3] =
    [("loose", "screwed, no glue"), ("damping-compound", "damping compound"), ("rigid-glue", "rigid glue")];

/// The layers with a bond between each two sheets, as the page edits them: sheet `k` stands at `2 k`. Sheets next to each
/// other without a bond count as loose in the core, so nothing changes by it.
pub fn with_every_bond(layers: &[Layer]) -> Vec<Layer> {
    let mut whole: Vec<Layer> = Vec::with_capacity(2 * layers.len());
    for layer in layers {
        if layer.sheet.is_some() && whole.last().is_some_and(|last| last.sheet.is_some()) {
            whole.push(Layer::bond(NO_BOND));
        }
        whole.push(layer.clone());
    }
    whole
}

/// How many sheets there are.
pub fn sheets(layers: &[Layer]) -> usize {
    layers.iter().filter(|layer| layer.sheet.is_some()).count()
}

/// One more sheet on the outside, like the last one, screwed on.
pub fn add_sheet(layers: &mut Vec<Layer>) {
    let like = layers.iter().rev().find(|layer| layer.sheet.is_some()).cloned();
    if !layers.is_empty() {
        layers.push(Layer::bond(NO_BOND));
    }
    layers.push(like.unwrap_or_else(|| Layer::sheet("birch-plywood", 18.0)));
}

/// Takes sheet `k` away, and the bond that held it to the sheet inside it (to the one outside it for the first).
pub fn remove_sheet(layers: &mut Vec<Layer>, k: usize) {
    let at = 2 * k;
    if at < layers.len() && sheets(layers) > 1 {
        let from = at.saturating_sub(1);
        layers.drain(from..(from + 2).min(layers.len()));
    }
}

/// Changes sheet `k` and the next one outside it; the bond between them stays.
pub fn swap_with_next(layers: &mut [Layer], k: usize) {
    if 2 * k + 2 < layers.len() {
        layers.swap(2 * k, 2 * k + 2);
    }
}

/// Gives sheet `k` the material `key`; its thickness stays.
pub fn set_material(layers: &mut [Layer], k: usize, key: &str) {
    let (Some(layer), Some(sheet)) = (layers.get_mut(2 * k), material::sheet(key)) else { return };
    *layer = Layer::sheet(sheet.key, layer.thickness_mm.unwrap_or(18.0));
}

/// The thicknesses in mm that a shop keeps of this sheet, if its own is none of them.
pub fn stock_instead(layer: &Layer) -> Option<&'static [f64]> {
    let (sheet, own) = (material::sheet(key_of(layer))?, layer.thickness_mm?);
    // Sheets sold by the inch are named in the document to a millionth of a millimetre.
    let kept = sheet.stock_mm.iter().any(|stock| (stock - own).abs() < 0.05);
    (!kept && !sheet.stock_mm.is_empty()).then_some(sheet.stock_mm)
}

/// Gives the joint outside sheet `k` the bond `key`.
pub fn set_bond(layers: &mut [Layer], k: usize, key: &str) {
    if let Some(layer) = layers.get_mut(2 * k + 1) {
        *layer = Layer::bond(key);
    }
}

/// Name of a sheet for people.
pub fn sheet_name(layer: &Layer) -> String {
    match &layer.sheet {
        Some(NameOr::Name(key)) => material::sheet(key).map_or_else(|| key.clone(), |sheet| sheet.name.to_owned()),
        Some(NameOr::Numbers(_)) => "Own material".to_owned(),
        None => String::new(),
    }
}

/// Key of a sheet or bond that has one; empty for one given by numbers.
pub fn key_of(layer: &Layer) -> &str {
    match (&layer.sheet, &layer.bond) {
        (Some(NameOr::Name(key)), _) | (_, Some(NameOr::Name(key))) => key,
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use hushwright::design::{Design, Shell};

    fn keys(layers: &[Layer]) -> Vec<&str> {
        layers.iter().map(key_of).collect()
    }

    fn three() -> Vec<Layer> {
        vec![
            Layer::sheet("mdf", 15.0),
            Layer::bond("rigid-glue"),
            Layer::sheet("gypsum-board", 12.5),
            Layer::bond("damping-compound"),
            Layer::sheet("osb", 18.0),
        ]
    }

    #[test]
    fn missing_bonds_become_loose_ones_and_change_nothing() {
        let bare = vec![Layer::sheet("mdf", 15.0), Layer::sheet("osb", 18.0)];
        let whole = with_every_bond(&bare);
        assert_eq!(keys(&whole), ["mdf", "loose", "osb"]);
        assert_eq!(with_every_bond(&whole), whole);
        let design = |layers| Design { outer: Some(Shell { layers, ..Shell::default() }), ..Design::default() };
        let laminate = |layers| design(layers).check().unwrap().outer.unwrap().1.laminate;
        assert_eq!(laminate(bare), laminate(whole));
    }

    #[test]
    fn every_edit_leaves_sheets_and_bonds_in_turn() {
        for k in 0..3 {
            let mut layers = three();
            remove_sheet(&mut layers, k);
            assert_eq!(sheets(&layers), 2);
            assert_eq!(layers, with_every_bond(&layers));
            assert!(layers[0].sheet.is_some() && layers[2].sheet.is_some(), "{k}");
        }
        let mut layers = three();
        add_sheet(&mut layers);
        assert_eq!(keys(&layers)[4..], ["osb", "loose", "osb"]);
    }

    #[test]
    fn the_last_sheet_stays() {
        let mut layers = vec![Layer::sheet("mdf", 15.0)];
        remove_sheet(&mut layers, 0);
        assert_eq!(sheets(&layers), 1);
    }

    #[test]
    fn sheets_change_places_and_bonds_stay() {
        let mut layers = three();
        swap_with_next(&mut layers, 0);
        assert_eq!(keys(&layers), ["gypsum-board", "rigid-glue", "mdf", "damping-compound", "osb"]);
        let before = layers.clone();
        swap_with_next(&mut layers, 2);
        assert_eq!(layers, before);
    }

    #[test]
    fn another_material_keeps_the_thickness_and_says_what_shops_have() {
        let mut layers = three();
        assert_eq!(stock_instead(&layers[4]), None);
        set_material(&mut layers, 2, "steel");
        assert_eq!((key_of(&layers[4]), layers[4].thickness_mm), ("steel", Some(18.0)));
        assert!(stock_instead(&layers[4]).unwrap().iter().all(|stock| *stock < 18.0));
        set_bond(&mut layers, 0, "loose");
        assert_eq!(key_of(&layers[1]), "loose");
    }

    #[test]
    fn the_bonds_on_offer_are_those_of_the_core() {
        let mut offered = BONDS.map(|(key, _)| key);
        let mut known = hushwright::buildup::check::BOND_NAMES;
        offered.sort_unstable();
        known.sort_unstable();
        assert_eq!(offered, known);
    }
}
