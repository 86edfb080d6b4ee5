//! The catalogue: every number has its source, and every sheet behaves as its kind does.

use std::collections::BTreeSet;

use hushwright::air::Air;
use hushwright::material::{fill, fills, sheet, sheets, sources};

const SHEETS: [&str; 14] = [
    "birch-plywood",
    "softwood-plywood",
    "mdf",
    "particle-board",
    "osb",
    "gypsum-board",
    "dense-gypsum-board",
    "fibre-cement",
    "steel",
    "aluminium",
    "glass",
    "acrylic",
    "mass-loaded-vinyl",
    "lead",
];

#[test]
fn every_number_of_every_material_names_its_source() {
    let of_sheets = [
        "density",
        "has_grain",
        "loss_factor",
        "poisson",
        "price_per_m2_mm",
        "shear_modulus",
        "sheet_mm",
        "stock_mm",
        "youngs_modulus",
    ];
    let of_fills = ["density", "flow_resistivity", "price_per_m3"];
    let rows = sheets().iter().map(|sheet| (sheet.key, &of_sheets[..]));
    for (key, fields) in rows.chain(fills().iter().map(|fill| (fill.key, &of_fills[..]))) {
        let sources = sources(key).expect("in the catalogue");
        assert!(sources.iter().map(|(field, _)| field).eq(fields), "{key}: {sources:?}");
        for (field, source) in sources {
            assert!(source.trim().len() > 4, "{key}: {field}");
            assert_eq!(field.starts_with("price"), *source == "invented", "{key}: {field}");
        }
    }
    assert!(sources("unobtainium").is_none());
}

#[test]
fn keys_are_unique_and_found() {
    for key in SHEETS {
        assert_eq!(sheet(key).map(|material| material.key), Some(key));
    }
    assert!(sheet("unobtainium").is_none() && fill("unobtainium").is_none());
    let keys: BTreeSet<_> =
        sheets().iter().map(|material| material.key).chain(fills().iter().map(|material| material.key)).collect();
    assert_eq!(keys.len(), sheets().len() + fills().len());
}

#[test]
fn numbers_are_those_of_solids() {
    for material in sheets() {
        let key = material.key;
        assert!((100.0..12_000.0).contains(&material.density), "{key}");
        assert!((1e6..3e11).contains(&material.youngs_modulus), "{key}");
        assert!((0.0..0.5).contains(&material.poisson), "{key}");
        assert!((1e-4..0.5).contains(&material.loss_factor), "{key}");
        assert!(material.price_per_m2_mm > 0.0, "{key}");
        assert!(!material.stock_mm.is_empty() && material.stock_mm.windows(2).all(|pair| pair[0] < pair[1]), "{key}");
    }
    for material in fills() {
        assert!((5.0..300.0).contains(&material.density) && (1e3..1e5).contains(&material.flow_resistivity), "{}", material.key);
    }
}

/// The cross plies of plywood roll: 0.1 to 0.2 of the isotropic shear modulus is left (assumed).
#[test]
fn plywood_is_soft_in_shear() {
    for key in ["birch-plywood", "softwood-plywood"] {
        let material = sheet(key).expect("in the catalogue");
        let isotropic = material.youngs_modulus / (2.0 * (1.0 + material.poisson));
        let share = material.shear_modulus_pa() / isotropic;
        assert!((0.1..=0.2).contains(&share), "{key}: {share}");
    }
}

/// A limp sheet has its coincidence beyond the highest band.
#[test]
fn mass_loaded_vinyl_is_limp() {
    let vinyl = sheet("mass-loaded-vinyl").expect("in the catalogue");
    let thickest_m = vinyl.stock_mm.last().expect("kept in some thickness") / 1000.0;
    assert!(vinyl.coincidence_product(&Air::default()) / thickest_m > 20_000.0);
}

/// Loss at the edges is added where a sheet is mounted; only glass, which is always set in something, has it in its number.
#[test]
fn metals_lose_little_by_themselves() {
    for key in ["steel", "aluminium"] {
        assert!(sheet(key).expect("in the catalogue").loss_factor <= 0.005, "{key}");
    }
}
