//! Sound reduction indices on standard input, their single-number ratings on standard output, both as JSON.
//!
//! `cargo run -q --release -p hushwright-core --example rate < rate.json`, with `{"r_db": {"100": 20.4, "125": 16.3, ...}}`
//! in one-third octaves from 50 to 5000 Hz, or in octaves of 125 to 2000 Hz and perhaps 63 and 4000 Hz. A rating is null
//! where its bands are missing; the terms for enlarged ranges appear where theirs are there.

mod support;

use std::fmt;
use std::process::ExitCode;

use hushwright::error::FieldError;
use hushwright::rating::iso717_1::{OCTAVES_HZ, WeightedReduction, rate_octaves, rate_thirds};
use hushwright::rating::{ThirdOctaves, astm_e413, astm_e1332};
use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};

/// One-third octaves that ratings of walls know, as keys.
const THIRDS: [&str; 21] = [
    "50", "63", "80", "100", "125", "160", "200", "250", "315", "400", "500", "630", "800", "1000", "1250", "1600", "2000",
    "2500", "3150", "4000", "5000",
];
/// Lowest and highest sound reduction index in dB.
const R_DB: (f64, f64) = (-50.0, 200.0);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Input {
    r_db: Bands,
}

/// Pairs in the order of the document, so that a band named twice is seen.
struct Bands(Vec<(String, f64)>);

impl<'de> Deserialize<'de> for Bands {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct BandsVisitor;

        impl<'de> Visitor<'de> for BandsVisitor {
            type Value = Bands;

            fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
                f.write_str("an object of bands in Hz and sound reduction indices in dB")
            }

            fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<Bands, M::Error> {
                let mut bands = Vec::new();
                while let Some(band) = map.next_entry()? {
                    bands.push(band);
                }
                Ok(Bands(bands))
            }
        }

        deserializer.deserialize_map(BandsVisitor)
    }
}

#[derive(Serialize)]
#[serde(untagged)]
enum Output {
    Thirds {
        rw: Option<i64>,
        c: Option<i64>,
        ctr: Option<i64>,
        stc: Option<i64>,
        oitc: Option<i64>,
        #[serde(flatten)]
        enlarged: Enlarged,
    },
    Octaves {
        rw: Option<i64>,
        c: Option<i64>,
        ctr: Option<i64>,
        #[serde(flatten)]
        enlarged: Enlarged,
    },
}

/// Terms for enlarged ranges, in the names of ISO 717-1.
#[derive(Default, Serialize)]
struct Enlarged {
    #[serde(skip_serializing_if = "Option::is_none")]
    c_50_3150: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    c_50_5000: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    c_100_5000: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    ctr_50_3150: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    ctr_50_5000: Option<i64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    ctr_100_5000: Option<i64>,
}

impl From<Option<WeightedReduction>> for Enlarged {
    fn from(weighted: Option<WeightedReduction>) -> Self {
        let Some(weighted) = weighted else { return Self::default() };
        Self {
            c_50_3150: weighted.terms_50_3150.map(|terms| terms.c),
            c_50_5000: weighted.terms_50_5000.map(|terms| terms.c),
            c_100_5000: weighted.terms_100_5000.map(|terms| terms.c),
            ctr_50_3150: weighted.terms_50_3150.map(|terms| terms.ctr),
            ctr_50_5000: weighted.terms_50_5000.map(|terms| terms.ctr),
            ctr_100_5000: weighted.terms_100_5000.map(|terms| terms.ctr),
        }
    }
}

fn main() -> ExitCode {
    support::run(compute)
}

fn compute(input: Input) -> Result<Output, FieldError> {
    let bands = check(input.r_db)?;
    let octaves = bands.iter().all(|(hz, _)| OCTAVES_HZ.contains(hz));
    let weighted = if octaves {
        rate_octaves(&OCTAVES_HZ.map(|hz| bands.iter().find(|band| band.0 == hz).map(|band| band.1)))
    } else {
        rate_thirds(&thirds(&bands))
    };
    let rw = weighted.map(|weighted| weighted.rw);
    let c = weighted.map(|weighted| weighted.terms.c);
    let ctr = weighted.map(|weighted| weighted.terms.ctr);
    let enlarged = weighted.into();
    if octaves {
        return Ok(Output::Octaves { rw, c, ctr, enlarged });
    }
    let r_db = thirds(&bands);
    Ok(Output::Thirds { rw, c, ctr, stc: astm_e413::stc(&r_db), oitc: astm_e1332::oitc(&r_db), enlarged })
}

fn thirds(bands: &[(f64, f64)]) -> ThirdOctaves {
    let mut r_db = ThirdOctaves::none();
    for &(hz, db) in bands {
        r_db.set(hz, db);
    }
    r_db
}

/// The bands as numbers: known ones, each once, within range.
fn check(Bands(bands): Bands) -> Result<Vec<(f64, f64)>, FieldError> {
    if bands.is_empty() {
        return Err(FieldError::new("r_db", "at least one band is required: thirds of 50 to 5000 Hz or octaves"));
    }
    let mut checked: Vec<(f64, f64)> = Vec::new();
    for (key, db) in bands {
        let path = format!("r_db.{key}");
        let known = THIRDS.iter().find(|known| **known == key).and_then(|known| known.parse::<f64>().ok());
        let Some(hz) = known else {
            return Err(FieldError::new(path, format!("no such band; allowed are {}", THIRDS.join(", "))));
        };
        if checked.iter().any(|(other, _)| *other == hz) {
            return Err(FieldError::new(path, "each band is allowed once"));
        }
        if !(R_DB.0..=R_DB.1).contains(&db) {
            return Err(FieldError::new(path, format!("allowed is {} to {} dB, as walls and open slits have", R_DB.0, R_DB.1)));
        }
        checked.push((hz, db));
    }
    Ok(checked)
}
