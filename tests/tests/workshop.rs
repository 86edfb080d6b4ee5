//! The bill against boxes worked out by hand.

use hushwright::buildup::raw::{BondNumbers, Layer, NameOr, SheetNumbers, Side};
use hushwright::design::{Design, Fill, GapPart, InnerPart, LiningPart, Shell, SupportPart};
use hushwright::enclosure::SupportKind;
use hushwright::workshop::{Bill, bill};

fn bill_of(design: &Design) -> Bill {
    bill(&design.check().expect("a sound design"))
}

fn near(computed: f64, by_hand: f64) {
    assert!((computed - by_hand).abs() < 1e-6 * by_hand.abs(), "computed {computed}, by hand {by_hand}");
}

fn one_shell(layers: Vec<Layer>, lining: Option<LiningPart>) -> Design {
    let inner =
        InnerPart { length_mm: 600.0, width_mm: 400.0, height_mm: 400.0, lining, layers, baffle: None, ..InnerPart::default() };
    let suspension = SupportPart { kind: SupportKind::Rigid, ..SupportPart::default() };
    Design { inner, outer: None, suspension, ..Design::default() }
}

/// 18 mm plywood of 680 kg/m3 round 0.6 x 0.4 x 0.4 m: outside 0.636 x 0.436 x 0.436 m, 0.120901056 - 0.096 =
/// 0.024901056 m3, 16.932718 kg; mean area 1.383392 m2, at 2.2 a mm 39.6 a m2: 54.782323.
#[test]
fn one_sheet() {
    let bill = bill_of(&one_shell(vec![Layer::sheet("birch-plywood", 18.0)], None));
    assert_eq!(bill.lines.len(), 1);
    near(bill.mass_kg, 16.932_718_08);
    near(bill.lines[0].area_m2, 1.383_392);
    near(bill.cost, 54.782_323_2);
    assert!(!bill.cost_incomplete);
}

/// A sheet more round a box that stands already: that one weighs as before and costs nothing, the other costs its price.
#[test]
fn a_box_that_stands_already_costs_nothing() {
    let layers = vec![Layer::sheet("birch-plywood", 18.0), Layer::bond("loose"), Layer::sheet("mdf", 15.0)];
    let mut design = one_shell(layers, None);
    let new = bill_of(&design);
    design.inner.existing = true;
    let old = bill_of(&design);
    assert_eq!(old.lines[0].name, format!("{}, there already", new.lines[0].name));
    assert_eq!((old.lines[0].cost, old.lines[0].mass_kg), (Some(0.0), new.lines[0].mass_kg));
    assert_eq!((&old.lines[1], old.mass_kg, old.inner_mass_kg), (&new.lines[1], new.mass_kg, new.inner_mass_kg));
    near(old.cost, new.lines[1].cost.expect("MDF has a price"));
    // Nobody has to know a price for what is there.
    own_numbers(&mut design);
    assert!(!bill_of(&design).cost_incomplete);
    design.inner.existing = false;
    assert!(bill_of(&design).cost_incomplete);
}

/// Makes the innermost sheet one of own numbers.
fn own_numbers(design: &mut Design) {
    let numbers = SheetNumbers { density: 600.0, youngs_modulus: 4e9, poisson: 0.3, loss_factor: 0.02, shear_modulus: None };
    design.inner.layers[0].sheet = Some(NameOr::Numbers(numbers));
}

/// 50 mm of 48 kg/m3 inside the same box leaves 0.5 x 0.3 x 0.3 = 0.045 m3: 0.051 m3, 2.448 kg, at 160 a m3 8.16.
#[test]
fn lining() {
    let lining = LiningPart { material: "mineral-wool-48".to_owned(), thickness_mm: 50.0 };
    let bill = bill_of(&one_shell(vec![Layer::sheet("birch-plywood", 18.0)], Some(lining)));
    near(bill.lines[0].mass_kg, 2.448);
    near(bill.lines[0].area_m2, 1.02);
    near(bill.lines[0].cost.expect("wool has a price"), 8.16);
    near(bill.mass_kg, 2.448 + 16.932_718_08);
}

/// Own numbers: 10 mm of 1000 kg/m3, 1 mm of 2000 kg/m3, 10 mm of 1000 kg/m3 round 0.6 x 0.4 x 0.4 m.
/// Boxes: 0.62 x 0.42 x 0.42 = 0.109368; 0.622 x 0.422 x 0.422 = 0.110768248; 0.642 x 0.442 x 0.442 = 0.125423688 m3.
/// Masses 13.368, 2.800496, 14.65544 kg.
#[test]
fn own_numbers_have_mass_and_no_price() {
    let sheet = || Layer {
        sheet: Some(NameOr::Numbers(SheetNumbers {
            density: 1000.0,
            youngs_modulus: 1e9,
            poisson: 0.3,
            loss_factor: 0.01,
            shear_modulus: None,
        })),
        thickness_mm: Some(10.0),
        ..Layer::default()
    };
    let bond = Layer {
        bond: Some(NameOr::Numbers(BondNumbers {
            thickness_mm: 1.0,
            density: 2000.0,
            shear_modulus: vec![(100.0, 1e6)],
            loss_factor: vec![(100.0, 0.9)],
        })),
        ..Layer::default()
    };
    let bill = bill_of(&one_shell(vec![sheet(), bond, sheet()], None));
    let masses: Vec<f64> = bill.lines.iter().map(|line| line.mass_kg).collect();
    assert_eq!(masses.len(), 3);
    near(masses[0], 13.368);
    near(masses[1], 2.800_496);
    near(masses[2], 14.655_44);
    assert!(bill.cost_incomplete && bill.cost == 0.0);
}

/// Round a box of 0.636 x 0.436 x 0.436 m a gap of 40 mm, half filled: against the inner box 20 mm,
/// 0.676 x 0.476 x 0.476 - 0.120901056 = 0.032264320 m3; against the outer one 0.716 x 0.516^2 - 0.676 x 0.476^2 =
/// 0.037473920 m3; in the middle 0.696 x 0.496^2 - 0.656 x 0.456^2 = 0.034821120 m3.
/// Outer box of 10 mm MDF, 740 kg/m3: 0.736 x 0.536^2 - 0.716 x 0.516^2 = 0.020810560 m3, 15.3998144 kg.
#[test]
fn gap_fill_lies_where_its_side_says() {
    for (side, volume_m3) in [(Side::First, 0.032_264_32), (Side::Second, 0.037_473_92), (Side::Middle, 0.034_821_12)] {
        let design = Design {
            gap: GapPart { depth_mm: 40.0, fill: Some(Fill { material: "mineral-wool-48".to_owned(), share: 0.5, side }) },
            outer: Some(Shell { layers: vec![Layer::sheet("mdf", 10.0)], ..Shell::default() }),
            ..one_shell(vec![Layer::sheet("birch-plywood", 18.0)], None)
        };
        let bill = bill_of(&design);
        assert_eq!(bill.lines.len(), 3);
        near(bill.lines[1].mass_kg, 48.0 * volume_m3);
        near(bill.lines[1].area_m2, volume_m3 / 0.02);
        near(bill.lines[2].mass_kg, 15.399_814_4);
        near(bill.mass_kg, 16.932_718_08 + 48.0 * volume_m3 + 15.399_814_4);
    }
}

#[test]
fn no_share_of_fill_is_no_line() {
    let fill = Some(Fill { material: "mineral-wool-48".to_owned(), share: 0.0, side: Side::First });
    let suspension = SupportPart { kind: SupportKind::Rigid, ..SupportPart::default() };
    let design = Design { gap: GapPart { depth_mm: 40.0, fill }, suspension, ..Design::default() };
    let bill = bill_of(&design);
    assert!(bill.lines.iter().all(|line| !line.name.starts_with("Gap fill") && line.area_m2.is_finite()));
}

/// Compound between two sheets adds 0.8 l over 3 m2 of joint, 1300 kg/m3: about 0.347 kg a m2.
#[test]
fn compound_weighs_what_is_spread() {
    let layers = vec![Layer::sheet("mdf", 10.0), Layer::bond("damping-compound"), Layer::sheet("mdf", 10.0)];
    let bill = bill_of(&one_shell(layers, None));
    let joint_m2 = 2.0 * (0.62 * 0.42 + 0.42 * 0.42 + 0.62 * 0.42);
    assert!((bill.lines[1].mass_kg - 1300.0 * 0.8e-3 / 3.0 * joint_m2).abs() < 0.002 * bill.lines[1].mass_kg);
    assert!((bill.lines[1].area_m2 - joint_m2).abs() < 0.002 * joint_m2);
}
