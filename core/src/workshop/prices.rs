//! What things cost and how large sheets are: the usual numbers, or those of one's own.

use crate::design::{BuildPart, OwnNumbers};
use crate::material;

use super::item::Item;
use super::operation::Operation;
use super::shells::Board;

/// Length and width in mm of a sheet where nothing better is known.
const SHEET_MM: [f64; 2] = [2440.0, 1220.0];

/// Kilograms of glue for a square metre of joint (common practice, no source: 150 to 200 g).
pub const GLUE_KG_PER_M2: f64 = 0.15;

/// Length and width in mm of the sheets of `board`.
pub fn sheet_mm(board: &Board, own: &OwnNumbers) -> [f64; 2] {
    let [length, width] = material::sheet(&board.key).map_or(SHEET_MM, |material| material.sheet_mm);
    [own.get(&format!("{}/length", board.key)).unwrap_or(length), own.get(&format!("{}/width", board.key)).unwrap_or(width)]
}

/// Price of a whole sheet of `board`; `None` for a material that has none.
pub fn sheet_price(board: &Board, own: &OwnNumbers) -> Option<f64> {
    own.get(&board.own_key()).or_else(|| {
        let [length_mm, width_mm] = sheet_mm(board, own);
        let area_m2 = 1e-6 * length_mm * width_mm;
        let each = material::sheet(&board.key)?.price_per_m2_mm * board.nominal_mm * area_m2;
        Some(round(each))
    })
}

/// Price of a square metre of `board`; `None` for a material that has none.
pub fn price_per_m2(board: &Board, own: &OwnNumbers) -> Option<f64> {
    let [length_mm, width_mm] = sheet_mm(board, own);
    let usual = || Some(material::sheet(&board.key)?.price_per_m2_mm * board.thickness_mm);
    own.get(&board.own_key()).map(|each| each / (1e-6 * length_mm * width_mm)).or_else(usual)
}

/// Price of a square metre of wool, `thickness_mm` thick.
pub fn porous_price(key: &str, thickness_mm: f64, own: &OwnNumbers) -> Option<f64> {
    own.get(&porous_key(key, thickness_mm)).or_else(|| Some(material::fill(key)?.price_per_m3 * thickness_mm / 1000.0))
}

/// The key of that price among the numbers of one's own.
pub fn porous_key(key: &str, thickness_mm: f64) -> String {
    format!("{key}/{}", 0.1 * (10.0 * thickness_mm).round())
}

/// Price of one of `item`.
pub fn item_price(item: Item, own: &OwnNumbers) -> f64 {
    own.get(&item.key()).unwrap_or_else(|| item.price())
}

/// Price of the compound for a square metre of joint.
pub fn compound_per_m2(build: &BuildPart) -> f64 {
    item_price(Item::CompoundTube, &build.own) / build.compound_m2
}

/// Price of the glue for a square metre of joint.
pub fn glue_per_m2(build: &BuildPart) -> f64 {
    item_price(Item::Glue, &build.own) * GLUE_KG_PER_M2
}

/// Minutes of work for one of `operation`.
pub fn minutes(operation: Operation, own: &OwnNumbers) -> f64 {
    own.get(&operation.own_key()).unwrap_or_else(|| operation.minutes())
}

/// A price as lists have it: halves below ten, whole above.
fn round(price: f64) -> f64 {
    if price < 10.0 { 0.5 * (2.0 * price).round() } else { price.round() }
}
