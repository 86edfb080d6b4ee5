//! Editing the layers of one shell: sheets, with a bond between each two.

use hushwright::buildup::raw::{Layer, NameOr, SheetNumbers};
use hushwright::material;

/// The bond that is taken where a document names none.
const NO_BOND: &str = "loose";

/// Bonds that the page offers: key and words.
pub const BONDS: [(&str, &str); 3] =
    [("loose", "screwed, no glue"), ("damping-compound", "damping compound"), ("rigid-glue", "rigid glue")];

/// Key of a material of one's own in lists.
pub const OWN: &str = "own";

/// How the shear modulus of one's own material is had: key and words.
pub const SHEAR: [(&str, &str); 2] = [("isotropic", "as for an isotropic sheet"), ("given", "given")];

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

/// An edit of the order or the number of sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edit {
    /// One more outside the others.
    Add,
    /// One more like sheet `k`, outside it.
    Copy(usize),
    /// Sheet `k` is taken away.
    Remove(usize),
    /// Sheet `.0` goes to the place of sheet `.1`; those between move up.
    Move(usize, usize),
    /// The order of all sheets and joints is reversed.
    Mirror,
}

impl Edit {
    /// Whether it can be made to `count` sheets, of which the `kept` innermost stay where they are.
    pub fn is_possible(self, count: usize, kept: usize) -> bool {
        let is_free = |k: usize| (kept..count).contains(&k);
        match self {
            Self::Add => true,
            Self::Copy(k) => k < count,
            Self::Remove(k) => count > 1 && is_free(k),
            Self::Move(from, to) => from != to && is_free(from) && is_free(to),
            Self::Mirror => count > 1 && kept == 0,
        }
    }

    /// Where sheet `k` of `count` is afterwards, if it still is.
    pub fn place(self, k: usize, count: usize) -> Option<usize> {
        match self {
            Self::Add => Some(k),
            Self::Copy(of) => Some(k + usize::from(k > of)),
            Self::Remove(of) => (k != of).then(|| k - usize::from(k > of)),
            Self::Move(from, to) if k == from => Some(to),
            Self::Move(from, to) => Some(k - usize::from(from < k && k <= to) + usize::from(to <= k && k < from)),
            Self::Mirror => (count - 1).checked_sub(k),
        }
    }

    /// Makes it.
    pub fn apply(self, layers: &mut Vec<Layer>) {
        match self {
            Self::Add => add_sheet(layers),
            Self::Copy(k) => copy_sheet(layers, k),
            Self::Remove(k) => remove_sheet(layers, k),
            Self::Move(from, to) => move_sheet(layers, from, to),
            Self::Mirror => layers.reverse(),
        }
    }
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
fn remove_sheet(layers: &mut Vec<Layer>, k: usize) {
    let at = 2 * k;
    if at < layers.len() && sheets(layers) > 1 {
        let from = at.saturating_sub(1);
        layers.drain(from..(from + 2).min(layers.len()));
    }
}

/// Another sheet like sheet `k` outside it, screwed on; what is outside them stays.
fn copy_sheet(layers: &mut Vec<Layer>, k: usize) {
    if let Some(like) = layers.get(2 * k).cloned() {
        layers.splice(2 * k..2 * k, [like, Layer::bond(NO_BOND)]);
    }
}

/// Moves sheet `from` to the place of sheet `to`, by changing it with one neighbour after the other; the bonds stay.
fn move_sheet(layers: &mut [Layer], from: usize, to: usize) {
    if 2 * from.max(to) >= layers.len() {
        return;
    }
    for k in from..to {
        layers.swap(2 * k, 2 * k + 2);
    }
    for k in (to..from).rev() {
        layers.swap(2 * k, 2 * k + 2);
    }
}

/// Gives sheet `k` the material `key`, or with [`OWN`] the numbers of what it has, to be changed; its thickness stays.
pub fn set_material(layers: &mut [Layer], k: usize, key: &str) {
    let Some(layer) = layers.get_mut(2 * k) else { return };
    if key == OWN {
        if let Some(sheet) = material::sheet(key_of(layer)) {
            layer.sheet = Some(NameOr::Numbers(SheetNumbers {
                density: sheet.density,
                youngs_modulus: sheet.youngs_modulus,
                poisson: sheet.poisson,
                loss_factor: sheet.loss_factor,
                shear_modulus: sheet.shear_modulus,
            }));
        }
    } else if let Some(sheet) = material::sheet(key) {
        *layer = Layer::sheet(sheet.key, layer.thickness_mm.unwrap_or(18.0));
    }
}

/// Whether the shear modulus of sheet `k` is given; begins with that of an isotropic sheet.
pub fn set_shear(layers: &mut [Layer], k: usize, given: bool) {
    if let Some(NameOr::Numbers(numbers)) = layers.get_mut(2 * k).and_then(|layer| layer.sheet.as_mut()) {
        let isotropic = numbers.youngs_modulus / (2.0 * (1.0 + numbers.poisson));
        numbers.shear_modulus = given.then(|| numbers.shear_modulus.unwrap_or_else(|| isotropic.round()));
    }
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

/// The material of a sheet as the workshop calls it: its key, or `own-` and the density of one given by numbers.
pub fn stock_key(layer: &Layer) -> String {
    match &layer.sheet {
        Some(NameOr::Name(key)) => key.clone(),
        Some(NameOr::Numbers(numbers)) => format!("own-{:.0}", numbers.density),
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

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use super::*;
    use hushwright::design::{Design, Shell};
    use proptest::collection::vec;
    use proptest::prelude::*;

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
        move_sheet(&mut layers, 0, 1);
        assert_eq!(keys(&layers), ["gypsum-board", "rigid-glue", "mdf", "damping-compound", "osb"]);
        let before = layers.clone();
        move_sheet(&mut layers, 2, 3);
        assert_eq!(layers, before);
        move_sheet(&mut layers, 2, 0);
        assert_eq!(keys(&layers), ["osb", "rigid-glue", "gypsum-board", "damping-compound", "mdf"]);
    }

    #[test]
    fn a_copy_lies_outside_its_sheet() {
        let mut layers = three();
        copy_sheet(&mut layers, 1);
        assert_eq!(keys(&layers), ["mdf", "rigid-glue", "gypsum-board", "loose", "gypsum-board", "damping-compound", "osb"]);
        copy_sheet(&mut layers, 4);
        assert_eq!(sheets(&layers), 4, "there is no such sheet");
    }

    #[test]
    fn a_material_of_ones_own_begins_with_the_numbers_of_what_it_was() {
        let mut layers = vec![Layer::sheet("birch-plywood", 12.0)];
        set_material(&mut layers, 0, OWN);
        let Some(NameOr::Numbers(numbers)) = layers[0].sheet.clone() else { panic!("{layers:?}") };
        let plywood = material::sheet("birch-plywood").unwrap();
        assert_eq!((numbers.density, numbers.shear_modulus), (plywood.density, plywood.shear_modulus));
        assert_eq!((layers[0].thickness_mm, key_of(&layers[0])), (Some(12.0), ""));
        let before = layers.clone();
        set_material(&mut layers, 0, OWN);
        assert_eq!(layers, before, "numbers stay as they are");
        let design = |layers| Design { outer: Some(Shell { layers, ..Shell::default() }), ..Design::default() };
        let laminate = |layers| design(layers).check().unwrap().outer.unwrap().1.laminate;
        assert_eq!(laminate(layers.clone()), laminate(vec![Layer::sheet("birch-plywood", 12.0)]));
        set_shear(&mut layers, 0, false);
        set_shear(&mut layers, 0, true);
        let Some(NameOr::Numbers(numbers)) = &layers[0].sheet else { panic!("{layers:?}") };
        assert_eq!(numbers.shear_modulus, Some((plywood.youngs_modulus / (2.0 * (1.0 + plywood.poisson))).round()));
        set_material(&mut layers, 0, "mdf");
        assert_eq!((key_of(&layers[0]), layers[0].thickness_mm), ("mdf", Some(12.0)));
        set_shear(&mut layers, 0, true);
        assert_eq!(layers, [Layer::sheet("mdf", 12.0)]);
    }

    /// Sheets that can be told apart by their thickness, with any joints between.
    fn drawn() -> impl Strategy<Value = Vec<Layer>> {
        vec(0..BONDS.len(), 0..8).prop_map(|bonds| {
            let mut layers = vec![Layer::sheet("mdf", 10.0)];
            for (k, bond) in bonds.into_iter().enumerate() {
                layers.extend([Layer::bond(BONDS[bond].0), Layer::sheet("mdf", 11.0 + k as f64)]);
            }
            layers
        })
    }

    proptest! {
        /// What a drag does is what so many swaps of neighbours do; where each sheet went is known; the way back leads back.
        #[test]
        fn a_move_is_a_row_of_swaps_and_is_undone_by_the_move_back(layers in drawn(), from in 0..8_usize, to in 0..8_usize) {
            let count = sheets(&layers);
            let (from, to) = (from % count, to % count);
            let mut dragged = layers.clone();
            move_sheet(&mut dragged, from, to);
            let mut swapped = layers.clone();
            let mut at = from;
            while at != to {
                let next = if to > at { at + 1 } else { at - 1 };
                swapped.swap(2 * at, 2 * next);
                at = next;
            }
            prop_assert_eq!(&dragged, &swapped);
            for k in 0..count {
                prop_assert_eq!(Edit::Move(from, to).place(k, count).map(|at| &dragged[2 * at]), Some(&layers[2 * k]));
            }
            move_sheet(&mut dragged, to, from);
            prop_assert_eq!(dragged, layers);
        }

        /// What is done and done back leaves what was there, and every sheet is found where it is said to be.
        #[test]
        fn sheets_are_where_an_edit_says(layers in drawn(), k in 0..8_usize, to in 0..8_usize, kept in 0..2_usize) {
            let count = sheets(&layers);
            for edit in [Edit::Add, Edit::Copy(k), Edit::Remove(k), Edit::Move(k, to), Edit::Mirror] {
                if !edit.is_possible(count, kept) {
                    continue;
                }
                let mut edited = layers.clone();
                edit.apply(&mut edited);
                prop_assert_eq!(&edited, &with_every_bond(&edited));
                for k in 0..count {
                    let at = edit.place(k, count);
                    prop_assert!(at.is_some() || edit == Edit::Remove(k));
                    prop_assert!(at.is_none_or(|at| edited[2 * at] == layers[2 * k]));
                    prop_assert!(k >= kept || at == Some(k), "what stays, stays");
                }
            }
            let mut twice = layers.clone();
            Edit::Mirror.apply(&mut twice);
            Edit::Mirror.apply(&mut twice);
            prop_assert_eq!(twice, layers);
        }

        /// A copy that is removed again leaves what was there.
        #[test]
        fn a_copy_removed_leaves_nothing(layers in drawn(), k in 0..8_usize) {
            let k = k % sheets(&layers);
            let mut copied = layers.clone();
            copy_sheet(&mut copied, k);
            prop_assert_eq!(&copied, &with_every_bond(&copied));
            prop_assert_eq!(&copied[2 * k], &copied[2 * k + 2]);
            remove_sheet(&mut copied, k + 1);
            prop_assert_eq!(copied, layers);
        }
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
