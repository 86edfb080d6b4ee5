//! Writes the catalogue of materials as constants, so that a program carries the numbers and neither reads text when it
//! starts nor, unless it asks for them, carries their sources.

use std::collections::BTreeMap;
use std::path::Path;
use std::{env, fs};

use serde::Deserialize;

/// A row of `sheets.json`: see `SheetMaterial`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(clippy::struct_field_names, reason = "the size of a sheet is that of the goods")]
struct Sheet {
    key: String,
    name: String,
    density: f64,
    youngs_modulus: f64,
    poisson: f64,
    loss_factor: f64,
    shear_modulus: Option<f64>,
    stock_mm: Vec<f64>,
    sheet_mm: [f64; 2],
    has_grain: bool,
    price_per_m2_mm: f64,
    sources: BTreeMap<String, String>,
}

/// A row of `fills.json`: see `FillMaterial`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Fill {
    key: String,
    name: String,
    density: f64,
    flow_resistivity: f64,
    price_per_m3: f64,
    sources: BTreeMap<String, String>,
}

impl Sheet {
    fn constant(&self) -> String {
        let Self { key, name, density, youngs_modulus, poisson, loss_factor, shear_modulus, .. } = self;
        let Self { stock_mm, sheet_mm, has_grain, price_per_m2_mm, .. } = self;
        format!(
            "SheetMaterial {{ key: {key:?}, name: {name:?}, density: {density:?}, youngs_modulus: {youngs_modulus:?}, \
             poisson: {poisson:?}, loss_factor: {loss_factor:?}, shear_modulus: {shear_modulus:?}, stock_mm: &{stock_mm:?}, \
             sheet_mm: {sheet_mm:?}, has_grain: {has_grain}, price_per_m2_mm: {price_per_m2_mm:?} }}"
        )
    }
}

impl Fill {
    fn constant(&self) -> String {
        let Self { key, name, density, flow_resistivity, price_per_m3, .. } = self;
        format!(
            "FillMaterial {{ key: {key:?}, name: {name:?}, density: {density:?}, flow_resistivity: {flow_resistivity:?}, \
             price_per_m3: {price_per_m3:?} }}"
        )
    }
}

fn main() {
    let sheets: Vec<Sheet> = rows("sheets.json");
    let fills: Vec<Fill> = rows("fills.json");
    let sources = sheets.iter().map(|sheet| (&sheet.key, &sheet.sources));
    let sources = sources.chain(fills.iter().map(|fill| (&fill.key, &fill.sources)));
    let sources = sources.map(|(key, sources)| format!("({key:?}, &{:?})", sources.iter().collect::<Vec<_>>()));
    let code = table("SHEETS", "SheetMaterial", sheets.iter().map(Sheet::constant))
        + &table("FILLS", "FillMaterial", fills.iter().map(Fill::constant))
        + &table("SOURCES", "(&str, &[(&str, &str)])", sources);
    let out = env::var_os("OUT_DIR").expect("cargo names a folder");
    fs::write(Path::new(&out).join("catalogue.rs"), code).expect("cargo's folder can be written to");
}

/// The rows of a data file.
fn rows<T: for<'de> Deserialize<'de>>(file: &str) -> Vec<T> {
    let path = Path::new("src/material").join(file);
    println!("cargo::rerun-if-changed={}", path.display());
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The code of a table of constants.
fn table(name: &str, of: &str, rows: impl Iterator<Item = String>) -> String {
    let rows: Vec<String> = rows.collect();
    format!("static {name}: [{of}; {}] = [\n{}\n];\n", rows.len(), rows.join(",\n"))
}
