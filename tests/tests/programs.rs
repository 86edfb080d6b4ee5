//! The programs `wall` and `rate` run as a user runs them: JSON in, JSON or one line about what is wrong out.

use hushwright::bands::NOMINAL_HZ;
use hushwright_tests::programs::{answer, complaint, keys};
use serde_json::{Value, json};

fn wall(layers: &Value) -> Value {
    json!({"size_m": [1.5, 1.25], "mounting": "laboratory", "temperature_c": 20, "layers": layers})
}

fn spectrum(answer: &Value) -> Vec<f64> {
    answer["r_db"].as_array().expect("a list").iter().map(|value| value.as_f64().expect("a number")).collect()
}

/// A wall with every kind of layer.
fn full_wall() -> Value {
    let own = json!({"density": 680, "youngs_modulus": 7.0e9, "poisson": 0.3, "loss_factor": 0.02, "shear_modulus": null});
    let bond = json!({"thickness_mm": 0.5, "density": 1200, "shear_modulus": [[100, 1.0e6], [1000, 2.0e6]], "loss_factor": [[100, 0.9]]});
    wall(&json!([
        {"sheet": "birch-plywood", "thickness_mm": 18},
        {"bond": "damping-compound"},
        {"sheet": own, "thickness_mm": 16},
        {"gap_mm": 60, "fill": {"flow_resistivity": 8000, "share": 0.5, "side": "first"}},
        {"sheet": "gypsum-board", "thickness_mm": 15.9},
        {"bond": bond},
        {"sheet": "gypsum-board", "thickness_mm": 15.9}
    ]))
}

#[test]
fn wall_prints_bands_spectrum_ratings_and_mass() {
    let out = answer("wall", &full_wall());
    assert_eq!(keys(&out), ["bands_hz", "r_db", "rw", "c", "ctr", "stc", "surface_mass"]);
    assert_eq!(out["bands_hz"], json!(NOMINAL_HZ));
    assert_eq!(spectrum(&out).len(), 27);
    // 18 mm of 680, 16 mm of 680, twice 15.9 mm of 700, 0.5 mm of 1200 and 0.8/3 mm of 1300 kg/m3.
    let mass = 0.018 * 680.0 + 0.016 * 680.0 + 2.0 * 0.0159 * 700.0 + 0.0005 * 1200.0 + 0.0008 / 3.0 * 1300.0;
    assert!((out["surface_mass"].as_f64().expect("a number") - mass).abs() < 1e-9);
}

/// What `wall` prints, `rate` rates the same.
#[test]
fn rate_agrees_with_wall() {
    let out = answer("wall", &full_wall());
    let bands = NOMINAL_HZ.iter().zip(spectrum(&out)).filter(|(hz, _)| (50.0..=5000.0).contains(*hz));
    let r_db: serde_json::Map<String, Value> = bands.map(|(hz, db)| (hz.to_string(), json!(db))).collect();
    let rated = answer("rate", &json!({ "r_db": r_db }));
    for key in ["rw", "c", "ctr", "stc"] {
        assert_eq!(rated[key], out[key], "{key}");
    }
    assert!(rated["oitc"].is_i64());
}

/// 16 mm MDF on its own, named and by its numbers, the shear modulus absent or null.
#[test]
fn a_name_stands_for_its_numbers() {
    let named = answer("wall", &wall(&json!([{"sheet": "mdf", "thickness_mm": 16}])));
    let numbers = json!({"density": 740, "youngs_modulus": 3.2e9, "poisson": 0.25, "loss_factor": 0.025});
    assert_eq!(answer("wall", &wall(&json!([{"sheet": numbers, "thickness_mm": 16}]))), named);
    let without_temperature =
        json!({"size_m": [1.5, 1.25], "mounting": "laboratory", "layers": [{"sheet": "mdf", "thickness_mm": 16}]});
    assert_eq!(answer("wall", &without_temperature), named);
}

#[test]
fn neighbours_without_a_bond_are_loose() {
    let sheet = json!({"sheet": "gypsum-board", "thickness_mm": 12.5});
    let bare = answer("wall", &wall(&json!([sheet, sheet])));
    assert_eq!(answer("wall", &wall(&json!([sheet, {"bond": "loose"}, sheet]))), bare);
    assert_ne!(answer("wall", &wall(&json!([sheet, {"bond": "rigid-glue"}, sheet]))), bare);
}

/// 100 mm of 2300 kg/m3 in a laboratory opening: 230/(485 sqrt 500) = 0.021 is added to its own 0.005, and above
/// coincidence (some 170 Hz) transmission falls as the loss rises: about 7 dB.
#[test]
fn a_laboratory_edge_loses_more_than_a_box() {
    let heavy = json!({"density": 2300, "youngs_modulus": 25e9, "poisson": 0.2, "loss_factor": 0.005});
    let layers = json!([{"sheet": heavy, "thickness_mm": 100}]);
    let boxed = answer("wall", &json!({"size_m": [1.5, 1.25], "mounting": "box", "temperature_c": 20, "layers": layers}));
    let band = NOMINAL_HZ.iter().position(|&hz| hz == 500.0).expect("a band");
    let more = spectrum(&answer("wall", &wall(&layers)))[band] - spectrum(&boxed)[band];
    assert!((4.0..9.0).contains(&more), "{more}");
}

/// Two sheets as one plate twice as thick have their coincidence at half the frequency of either sheet; with a compound
/// the joint slips, the dip moves up towards that of one sheet and fills.
#[test]
fn compound_moves_and_fills_the_dip_of_rigid_glue() {
    let dip = |bond: &str| {
        let layers = json!([{"sheet": "gypsum-board", "thickness_mm": 12.5}, {"bond": bond}, {"sheet": "gypsum-board", "thickness_mm": 12.5}]);
        let r_db = spectrum(&answer("wall", &wall(&layers)));
        // Depth below a line that rises 6 dB an octave from 250 Hz: mass law, whatever its constant.
        let start = 10;
        let below = |band: usize| r_db[start] + 2.0 * (band - start) as f64 - r_db[band];
        let band = (start..25).max_by(|&a, &b| below(a).total_cmp(&below(b))).expect("bands");
        (NOMINAL_HZ[band], below(band))
    };
    let (rigid_hz, rigid_depth) = dip("rigid-glue");
    let (compound_hz, compound_depth) = dip("damping-compound");
    let (loose_hz, _) = dip("loose");
    assert!((1000.0..=1600.0).contains(&rigid_hz), "31.5 Hz m over 25 mm: {rigid_hz}");
    assert!((2000.0..=3150.0).contains(&loose_hz), "31.5 Hz m over 12.5 mm: {loose_hz}");
    assert!(compound_hz > rigid_hz && compound_hz <= loose_hz, "{compound_hz}");
    assert!(compound_depth < rigid_depth - 3.0, "{compound_depth} against {rigid_depth}");
}

#[test]
fn wall_names_the_bad_field() {
    let sheet = json!({"sheet": "mdf", "thickness_mm": 16});
    let gap = json!({"gap_mm": 50});
    let loose = json!({"bond": "loose"});
    let with = |key: &str, value: Value| {
        let mut input = wall(&json!([sheet]));
        input[key] = value;
        input
    };
    let own = |key: &str, value: Value| {
        let mut numbers = json!({"density": 740, "youngs_modulus": 3.2e9, "poisson": 0.25, "loss_factor": 0.02});
        numbers[key] = value;
        wall(&json!([{"sheet": numbers, "thickness_mm": 16}]))
    };
    let bond = |key: &str, value: Value| {
        let mut numbers =
            json!({"thickness_mm": 0.5, "density": 1200, "shear_modulus": [[100, 1e6]], "loss_factor": [[100, 0.9]]});
        numbers[key] = value;
        wall(&json!([sheet, {"bond": numbers}, sheet]))
    };
    let fill = |key: &str, value: Value| {
        let mut numbers = json!({"flow_resistivity": 8000, "share": 0.5, "side": "first"});
        numbers[key] = value;
        wall(&json!([sheet, {"gap_mm": 50, "fill": numbers}, sheet]))
    };
    let cases = [
        (with("size_m", json!([0.05, 1])), "size_m[0]"),
        (with("size_m", json!([1, 20.5])), "size_m[1]"),
        (with("size_m", json!([1])), "size_m"),
        (with("size_m", json!([1, 1, 1])), "size_m"),
        (with("size_m", json!(["1", 1])), "size_m[0]"),
        (with("size_m", json!(2)), "size_m"),
        (with("size_m", Value::Null), "size_m"),
        (with("mounting", json!("wall")), "mounting"),
        (with("mounting", json!(1)), "mounting"),
        (with("temperature_c", json!(-20.5)), "temperature_c"),
        (with("temperature_c", json!(50.5)), "temperature_c"),
        (with("temperature_c", json!(1e300)), "temperature_c"),
        (with("temperature_c", Value::Null), "temperature_c"),
        (with("temperature_k", json!(293)), "temperature_k"),
        (with("layers", json!([])), "layers"),
        (with("layers", json!({})), "layers"),
        (with("layers", json!("mdf")), "layers"),
        (with("layers", json!([{}])), "layers[0]"),
        (with("layers", json!([7])), "layers[0]"),
        (wall(&json!([{"sheet": "mdf"}])), "layers[0].thickness_mm"),
        (wall(&json!([{"sheet": "mdf", "thickness_mm": 0}])), "layers[0].thickness_mm"),
        (wall(&json!([{"sheet": "mdf", "thickness_mm": -16}])), "layers[0].thickness_mm"),
        (wall(&json!([{"sheet": "mdf", "thickness_mm": 1e300}])), "layers[0].thickness_mm"),
        (wall(&json!([{"sheet": "mdf", "thickness_mm": "16"}])), "layers[0].thickness_mm"),
        (wall(&json!([{"sheet": "mdf", "thickness_mm": 16, "colour": 1}])), "layers[0].colour"),
        (wall(&json!([{"sheet": "unobtainium", "thickness_mm": 16}])), "layers[0].sheet"),
        (wall(&json!([{"sheet": true, "thickness_mm": 16}])), "layers[0].sheet"),
        (wall(&json!([{"sheet": {"density": 740}, "thickness_mm": 16}])), "layers[0].sheet"),
        (wall(&json!([loose])), "layers[0]"),
        (wall(&json!([sheet, loose])), "layers[1]"),
        (wall(&json!([loose, sheet])), "layers[0]"),
        (wall(&json!([sheet, loose, loose, sheet])), "layers[2]"),
        (wall(&json!([sheet, loose, gap, sheet])), "layers[2]"),
        (wall(&json!([sheet, {"bond": "tape"}, sheet])), "layers[1].bond"),
        (wall(&json!([gap])), "layers[0]"),
        (wall(&json!([gap, sheet])), "layers[0]"),
        (wall(&json!([sheet, gap])), "layers[1]"),
        (wall(&json!([sheet, gap, gap, sheet])), "layers[2]"),
        (wall(&json!([sheet, {"gap_mm": 0}, sheet])), "layers[1].gap_mm"),
        (wall(&json!([sheet, {"gap_mm": 50, "thickness_mm": 3}, sheet])), "layers[1]"),
        (wall(&Value::Array(vec![sheet.clone(); 9])), "layers[8]"),
        (wall(&Value::Array(vec![sheet.clone(); 41])), "layers"),
        (own("density", json!(0)), "layers[0].sheet.density"),
        (own("youngs_modulus", json!(-1)), "layers[0].sheet.youngs_modulus"),
        (own("poisson", json!(0.5)), "layers[0].sheet.poisson"),
        (own("loss_factor", json!(-0.1)), "layers[0].sheet.loss_factor"),
        (own("shear_modulus", json!(0)), "layers[0].sheet.shear_modulus"),
        (own("damping", json!(0)), "layers[0].sheet.damping"),
        (bond("thickness_mm", json!(0)), "layers[1].bond.thickness_mm"),
        (bond("density", json!(0)), "layers[1].bond.density"),
        (bond("shear_modulus", json!([])), "layers[1].bond.shear_modulus"),
        (bond("shear_modulus", json!([[1000, 1e6], [100, 1e6]])), "layers[1].bond.shear_modulus"),
        (bond("shear_modulus", json!([[100]])), "layers[1].bond.shear_modulus[0]"),
        (bond("shear_modulus", json!([[100, 0]])), "layers[1].bond.shear_modulus[0][1]"),
        (bond("loss_factor", json!([[0, 0.9]])), "layers[1].bond.loss_factor[0][0]"),
        (bond("loss_factor", json!(0.9)), "layers[1].bond.loss_factor"),
        (fill("flow_resistivity", json!(0)), "layers[1].fill.flow_resistivity"),
        (fill("share", json!(1.1)), "layers[1].fill.share"),
        (fill("side", json!("left")), "layers[1].fill.side"),
        (fill("material", json!("wool")), "layers[1].fill.material"),
    ];
    for (input, field) in cases {
        let line = complaint("wall", input.to_string().as_bytes());
        assert!(line.starts_with(&format!("{field}: ")), "{input}: {line}");
    }
}

#[test]
fn text_that_is_no_object_is_refused_in_one_line() {
    let good = wall(&json!([{"sheet": "mdf", "thickness_mm": 16}])).to_string();
    let infinite = good.replace("1.25", "1e999");
    let not_a_number = good.replace("1.25", "NaN");
    let twice = good.replacen('{', "{\"mounting\":\"box\",", 1);
    let deep = format!("{{\"layers\":{}", "[".repeat(10_000));
    let strange_key = good.replacen('{', "{\"a\\nb\\u2028c\":1,", 1);
    let cut = &good[..good.len() - 1];
    let more = format!("{good} {good}");
    let texts = [
        "",
        " \n",
        "null",
        "[]",
        "3",
        "\"wall\"",
        "{}",
        "{",
        "{]",
        cut,
        &more,
        &infinite,
        &not_a_number,
        &twice,
        &deep,
        &strange_key,
    ];
    for text in texts {
        complaint("wall", text.as_bytes());
        complaint("rate", text.as_bytes());
    }
    complaint("wall", &[0xff, 0xfe, 0x00]);
    complaint("rate", &[0xff, 0xfe, 0x00]);
    assert!(complaint("wall", infinite.as_bytes()).starts_with("size_m[1]: "));
    assert!(complaint("wall", b"{}").contains("size_m"));
}

/// The worked example of ISO 717-1, Annex C: Rw (C; Ctr) = 30 (-2; -3).
fn annex_c() -> Value {
    json!({"100": 20.4, "125": 16.3, "160": 17.7, "200": 22.6, "250": 22.4, "315": 22.7, "400": 24.8, "500": 26.6,
        "630": 28.0, "800": 30.5, "1000": 31.8, "1250": 32.5, "1600": 33.4, "2000": 33.0, "2500": 31.0, "3150": 25.5})
}

#[test]
fn rate_gives_null_where_bands_are_missing() {
    let out = answer("rate", &json!({ "r_db": annex_c() }));
    assert_eq!(out, json!({"rw": 30, "c": -2, "ctr": -3, "stc": null, "oitc": null}));
    let mut more = annex_c();
    more["4000"] = json!(22);
    let out = answer("rate", &json!({ "r_db": more }));
    assert!(out["rw"] == 30 && out["stc"].is_i64() && out["oitc"].is_null());
    more["80"] = json!(20);
    more["5000"] = json!(20);
    let out = answer("rate", &json!({ "r_db": more }));
    assert_eq!(keys(&out), ["rw", "c", "ctr", "stc", "oitc", "c_100_5000", "ctr_100_5000"]);
    assert!(out["oitc"].is_i64());
    more.as_object_mut().expect("an object").remove("100");
    let out = answer("rate", &json!({ "r_db": more }));
    assert!(out["rw"].is_null() && out["c"].is_null() && out["stc"].is_i64() && out["oitc"].is_null());
}

#[test]
fn rate_takes_octaves() {
    let five = json!({"125": 20, "250": 30, "500": 35, "1000": 40, "2000": 42});
    assert_eq!(answer("rate", &json!({ "r_db": five })), json!({"rw": 38, "c": -2, "ctr": -6}));
    let seven = json!({"63": 18, "125": 20, "250": 30, "500": 35, "1000": 40, "2000": 42, "4000": 45});
    let out = answer("rate", &json!({ "r_db": seven }));
    assert!(out["rw"] == 38 && out["c_50_5000"].is_i64() && out["ctr_50_3150"].is_i64());
    let three = json!({"125": 20, "250": 30, "500": 35});
    assert_eq!(answer("rate", &json!({ "r_db": three })), json!({"rw": null, "c": null, "ctr": null}));
}

#[test]
fn rate_names_the_bad_field() {
    let with = |band: &str, value: Value| {
        let mut r_db = annex_c();
        r_db[band] = value;
        json!({ "r_db": r_db })
    };
    let cases = [
        (with("110", json!(20)), "r_db.110"),
        (with("25", json!(20)), "r_db.25"),
        (with("6300", json!(20)), "r_db.6300"),
        (with("100.0", json!(20)), "r_db.100.0"),
        (with("a", json!(20)), "r_db.a"),
        (with("100", Value::Null), "r_db.100"),
        (with("100", json!("20")), "r_db.100"),
        (with("100", json!(1e9)), "r_db.100"),
        (with("100", json!(-51)), "r_db.100"),
        (json!({"r_db": {}}), "r_db"),
        (json!({"r_db": [20, 30]}), "r_db"),
        (json!({"r_db": null}), "r_db"),
        (json!({"r_db": annex_c(), "tl": 3}), "tl"),
    ];
    for (input, field) in cases {
        let line = complaint("rate", input.to_string().as_bytes());
        assert!(line.starts_with(&format!("{field}: ")), "{input}: {line}");
    }
    assert!(complaint("rate", br#"{"r_db": {"100": 20, "100": 30}}"#).starts_with("r_db.100: "));
    assert!(complaint("rate", br#"{"r_db": {"100": 1e999}}"#).starts_with("r_db.100: "));
}
