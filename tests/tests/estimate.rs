//! The program `estimate` as a user runs it: a design in, stations and paths out.

use hushwright::bands::NOMINAL_HZ;
use hushwright::design::{Design, examples};
use hushwright::evaluate::evaluate;
use hushwright::workshop::plan;
use hushwright_tests::programs::{answer, complaint, keys};
use serde_json::{Value, json};

fn numbers(list: &Value) -> Vec<f64> {
    list.as_array().expect("a list").iter().map(|value| value.as_f64().expect("a number")).collect()
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

#[test]
fn an_empty_object_is_the_first_example() {
    let out = answer("estimate", &json!({}));
    assert_eq!(out["bands_hz"], json!(NOMINAL_HZ));
    for key in ["insertion_loss_db", "level_difference_db"] {
        assert_eq!(numbers(&out[key]).len(), 27, "{key}");
    }
    assert_eq!(keys(&out["stations"]), ["gap", "inside", "listener", "outside", "room", "source"]);
    assert_eq!(keys(&out["paths"]), ["holes", "leaks", "motion", "suspension", "walls"], "no vents, so no path of theirs");
    let report = evaluate(&Design::default().check().expect("the example is sound"));
    assert_eq!(number(&out["stations"]["room"]["dba"]), report.stations.room.dba);
    assert_eq!(number(&out["mass_kg"]), report.bill.mass_kg);
    assert_eq!(number(&out["listener_dba"]), report.answer().dba);
    let range = ["listener_dba_low", "listener_dba", "listener_dba_high"].map(|key| number(&out[key]));
    assert!(range[0] < range[1] && range[1] < range[2], "{range:?}");
    let chance = number(&out["chance_met"]);
    assert!(chance < 0.1 && chance == number(&out["listeners"][0]["chance_met"]), "{chance}");
    let shares = out["variance_shares"].as_object().expect("shares by unknown");
    let sum: f64 = shares.values().map(number).sum();
    assert!(shares.contains_key("corners") && shares.values().all(|share| number(share) >= 0.0) && sum < 1.1, "{shares:?}");
    assert_eq!(number(&out["limit_dba"]), 30.0);
    assert_eq!(out["listeners"][0]["verdict"], report.listeners[0].verdict.key());
    let plan = plan(&Design::default().check().expect("the example is sound")).expect("its sheets can be cut");
    assert_eq!(out["fits_door"], true, "916 x 716 x 716 mm on feet through 800 x 1965 mm");
    assert_eq!(number(&out["to_buy"]), plan.money.all());
    assert_eq!(number(&out["hours"]), plan.hours);
    assert_eq!(answer("estimate", &serde_json::to_value(Design::default()).expect("a design serialises")), out);
}

/// Levels and losses say the same: Lp outside is Lp at the source less insertion loss and spreading, shares add up to one,
/// and what all paths let out is about what leaves (they may meet in phase).
#[test]
fn the_numbers_hang_together() {
    for design in examples() {
        let out = answer("estimate", &serde_json::to_value(&design).expect("a design serialises"));
        let level = |station: &str| numbers(&out["stations"][station]["level_db"]);
        let (source, inside, outside) = (level("source"), level("inside"), level("outside"));
        let (loss, difference) = (numbers(&out["insertion_loss_db"]), numbers(&out["level_difference_db"]));
        let spreading = source[0] - loss[0] - outside[0];
        let paths = out["paths"].as_object().expect("an object");
        for band in 0..27 {
            assert!((inside[band] - outside[band] - difference[band]).abs() < 1e-9);
            assert!((source[band] - loss[band] - outside[band] - spreading).abs() < 1e-9);
            let share: f64 = paths.values().map(|path| numbers(&path["share"])[band]).sum();
            assert!((share - 1.0).abs() < 1e-9, "{}: {share}", design.name);
        }
        let share: f64 = paths.values().map(|path| number(&path["share_dba"])).sum();
        assert!((share - 1.0).abs() < 1e-9);
        let all: f64 = paths.values().map(|path| 10_f64.powf(-0.1 * number(&path["insertion_loss_dba"]))).sum();
        let apart = -10.0 * all.log10() - number(&out["insertion_loss_dba"]);
        assert!(apart.abs() < 1.0, "{}: {apart} dB", design.name);
        assert_eq!(out["paths"].get("vents").is_some(), design.vents.is_some());
        assert!(paths.contains_key(out["limiting"]["path"].as_str().expect("a key")));
    }
}

#[test]
fn estimate_names_the_bad_field() {
    let cases = [
        (json!({"gap": {"depth_mm": 30}}), "suspension.height_mm"),
        (json!({"inner": {"braces": {"count": 6, "width_mm": 60}}}), "inner.braces.count"),
        (json!({"inner": {"braces": {"count": 1.5}}}), "inner.braces.count"),
        (json!({"outer": {"braces": {"kind": "shelves"}}}), "outer.braces.kind"),
        (json!({"outer": {"braces": {"depth_mm": 48}}}), "outer.braces.depth_mm"),
        (json!({"suspension": {"breaking_load_kg": 5}}), "suspension.count"),
        (json!({"inner": {"baffle": {"rear_mm": 690}}}), "inner.baffle.rear_mm"),
        (json!({"inner": {"holes": {"cable_mm": 20}}}), "inner.holes.cable_mm"),
        (json!({"inner": {"lid": {"seals": 5}}}), "inner.lid.seals"),
        (json!({"inner": {"lid": {"face": "bottom"}}}), "inner.lid.face"),
        (json!({"inner": {"edge_fixity": 1.1}}), "inner.edge_fixity"),
        (json!({"vents": {"bends": -1}}), "vents.bends"),
        (json!({"feet": {"kind": "wheels"}}), "feet.kind"),
        (json!({"source": {"driver": {"moving_mass_g": 0}}}), "source.driver.moving_mass_g"),
        (json!({"room": {"floor": "water"}}), "room.floor"),
        (json!({"listener": {}}), "listener"),
    ];
    for (input, field) in cases {
        let line = complaint("estimate", input.to_string().as_bytes());
        assert!(line.contains(field), "{input}: {line}");
    }
    let line = complaint("estimate", br#"{"inner":{"baffle":{"rear_mm":690},"lining":{"thickness_mm":33.3}}}"#);
    assert!(line.contains("allowed is 83.3 to 598.7 mm"), "no digits that nobody wrote: {line}");
    for text in ["", "[]", "{", "null", "{\"source\": {\"level_dba\": 1e999}}", "{\"source\": {\"level_dba\": null}}"] {
        complaint("estimate", text.as_bytes());
    }
}
