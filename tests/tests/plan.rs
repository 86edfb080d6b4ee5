//! The plan against boxes worked out by hand and against what the trade knows of large ones.

use hushwright::buildup::raw::Layer;
use hushwright::design::{Design, InnerPart, LidPart, SupportPart};
use hushwright::enclosure::{LidFace, LidForm, SealKind, SupportKind};
use hushwright::workshop::{Opening, Operation, Plan, Purchase, minutes, openings_fit, plan};
use hushwright_tests::heavy_box::heavy_box;

fn plan_of(design: &Design) -> Plan {
    plan(&design.check().expect("a sound design")).expect("sheets as shops have them can be cut")
}

fn near(computed: f64, by_hand: f64) {
    assert!((computed - by_hand).abs() < 1e-6 * by_hand.abs().max(1.0), "computed {computed}, by hand {by_hand}");
}

/// 18 mm MDF round 600 x 400 x 300 mm, no lining, lid on top, play 1 mm in seams and 2 mm round the lid.
fn simple() -> Design {
    let lid = LidPart { face: LidFace::Top, form: LidForm::Plain, seals: 1.0, seal: SealKind::ClosedCell };
    let inner = InnerPart {
        length_mm: 600.0,
        width_mm: 400.0,
        height_mm: 300.0,
        lining: None,
        layers: vec![Layer::sheet("mdf", 18.0)],
        baffle: None,
        lid,
        ..InnerPart::default()
    };
    let mut design =
        Design { inner, outer: None, feet: SupportPart { kind: SupportKind::Rigid, ..SupportPart::pads() }, ..Design::default() };
    (design.build.clearance_mm, design.build.lid_clearance_mm) = (1.0, 2.0);
    design
}

fn bought<'a>(plan: &'a Plan, key: &str) -> &'a Purchase {
    plan.purchases.iter().find(|purchase| purchase.key == key).unwrap_or_else(|| panic!("no {key} in {:?}", plan.purchases))
}

/// The bottom runs to the outside, 636 x 436; the ends run between the sides' outside faces, 436 wide, stand on the bottom and
/// reach the top of the wall at 318 mm, less 1 mm of play below: 317; the sides lie between the ends, 598 x 317; the lid lies
/// in the opening of 600 x 400, less 2 mm on each side: 596 x 396.
#[test]
fn cut_sizes_by_hand() {
    let plan = plan_of(&simple());
    let size = |name: &str| {
        let part = plan.parts.iter().find(|part| part.name == name).expect("a part");
        [part.length_mm, part.width_mm]
    };
    assert_eq!(size("I1 bottom"), [636.0, 436.0]);
    assert_eq!(size("I1 front"), [436.0, 317.0]);
    assert_eq!(size("I1 back"), [436.0, 317.0]);
    assert_eq!(size("I1 left"), [598.0, 317.0]);
    assert_eq!(size("I1 right"), [598.0, 317.0]);
    assert_eq!(size("I1 lid"), [596.0, 396.0]);
    let lines: Vec<usize> = plan.list.lines.iter().map(|line| line.names.len()).collect();
    assert_eq!(lines.iter().sum::<usize>(), 6);
    assert_eq!(lines.len(), 4, "front and back are one line, left and right another");
}

/// Areas of those boards: 0.277296 + 2 x 0.138212 + 2 x 0.189566 + 0.236016 = 1.168868 m2; of 740 kg/m3 and 18 mm that is
/// 13.32 kg/m2, 15.569322 kg in all, and 3.143733 kg for the lid.
#[test]
fn masses_by_hand() {
    let mut design = simple();
    design.source.mass_kg = 0.0;
    let plan = plan_of(&design);
    near(plan.mass_kg, 15.569_321_76);
    let lid = plan.carrying.last().expect("the lid is carried last");
    near(lid.lift.kg, 3.143_733_12);
    assert_eq!(lid.lift.people, 1);
}

/// Seams: 4 upright ones of 300 mm, and 2 x (600 + 400) mm at the bottom: 3.2 m; a bead of 5 mm has 19.63 mm2, 0.0628 l, with a
/// tenth for waste 0.22 cartridges, which is one. Gasket: 2 x (600 + 400) mm, with a tenth 2.2 m, so 3. Latches every 450 mm: 5.
#[test]
fn shopping_by_hand() {
    let plan = plan_of(&simple());
    near(bought(&plan, "sealant").needed, 3.2 * 19.634_954_084_936_208 / 1000.0 / 0.31);
    near(bought(&plan, "sealant").bought, 1.0);
    near(bought(&plan, "closed-cell-gasket").needed, 2.0);
    near(bought(&plan, "closed-cell-gasket").bought, 3.0);
    near(bought(&plan, "latch").bought, 5.0);
    near(bought(&plan, "hinge").bought, 3.0);
    // All on one sheet, 1.17 of 2.98 m2; at 0.8 a m2 and mm it is 43.
    near(bought(&plan, "mdf/18").bought, 1.0);
    near(bought(&plan, "mdf/18").each.expect("MDF has a price"), 43.0);
    let sum: f64 = plan.purchases.iter().filter_map(Purchase::cost).sum();
    near(plan.money.net, sum);
}

/// Compound: a tube of 0.8 l over 3 m2 is a joint of 0.267 mm; over 1.5 m2 twice that, twice the tubes, and the outer layer
/// grows by it.
#[test]
fn coverage_sets_the_joint_and_the_tubes() {
    let mut design = simple();
    design.inner.layers = vec![Layer::sheet("mdf", 18.0), Layer::bond("damping-compound"), Layer::sheet("gypsum-board", 12.5)];
    design.build.waste = 0.0;
    let usual = plan_of(&design);
    design.build.compound_m2 = 1.5;
    let thick = plan_of(&design);
    // 636 x 436 x 336 mm: 2 x (0.277296 + 0.146496 + 0.213696) = 1.274976 m2.
    near(bought(&usual, "compound-tube").needed, 1.274_976 / 3.0);
    near(bought(&thick, "compound-tube").needed, 1.274_976 / 1.5);
    let width = |plan: &Plan| plan.shells[0].outside().size_mm()[1];
    near(width(&usual), 400.0 + 2.0 * (18.0 + 0.8 / 3.0 + 12.5));
    near(width(&thick) - width(&usual), 2.0 * 0.8 / 3.0);
}

/// A board measured at 17.4 mm is sold as 18 mm, and all sizes follow.
#[test]
fn measured_thickness_counts() {
    let mut design = simple();
    design.inner.layers = vec![Layer::sheet("mdf", 17.4)];
    let plan = plan_of(&design);
    assert_eq!(plan.list.boards[0].nominal_mm, 18.0);
    let bottom = plan.parts.iter().find(|part| part.name == "I1 bottom").expect("a bottom");
    near(bottom.length_mm, 634.8);
    near(bought(&plan, "mdf/18").bought, 1.0);
}

/// Openings of 100 mm in a board of 300 x 200 mm: side by side they fit, half over one another or over the edge they do not.
#[test]
fn openings_that_do_not_fit_are_told() {
    let hole = |x_mm: f64| Opening { x_mm, y_mm: 100.0, width_mm: 100.0, height_mm: None };
    assert!(openings_fit(&[hole(60.0), hole(170.0)], [300.0, 200.0]));
    assert!(!openings_fit(&[hole(60.0), hole(110.0)], [300.0, 200.0]));
    assert!(!openings_fit(&[hole(40.0)], [300.0, 200.0]));
    assert!(openings_fit(&[], [300.0, 200.0]));
}

/// Numbers of one's own take the place of the usual ones.
#[test]
fn own_numbers_count() {
    let mut design = simple();
    design.build.own.set("mdf/18", Some(100.0));
    design.build.own.set("mdf/length", Some(1200.0));
    design.build.own.set("mdf/width", Some(800.0));
    design.build.own.set("minutes/saw", Some(60.0));
    design.build.tax = 0.2;
    let own = plan_of(&design);
    near(bought(&own, "mdf/18").each.expect("a price"), 100.0);
    assert_eq!((own.stocks[0].length_mm, own.stocks[0].width_mm), (1200.0, 800.0));
    assert!(own.layouts[0].sheets.len() >= 2, "1.17 m2 are more than one sheet of 0.96 m2");
    near(
        own.hours - plan_of(&simple()).hours,
        6.0 * (60.0 - Operation::Saw.minutes()) / 60.0 + {
            // One more sheet has to be marked out.
            (own.layouts[0].sheets.len() as f64 - 1.0) * minutes(Operation::Plan, &design.build.own) / 60.0
        },
    );
    near(own.money.all(), 1.2 * own.money.net);
}

/// Steps follow one another as they have to: nothing is joined before it is sawn, no lid before its walls.
#[test]
fn steps_come_in_their_order() {
    let plan = plan_of(&Design::default());
    let titles: Vec<String> = plan.steps.iter().map(|step| format!("{:?}", step.kind)).collect();
    let place = |what: &str| titles.iter().position(|title| title == what).unwrap_or_else(|| panic!("{what} in {titles:?}"));
    let order = [
        "MarkOut",
        "Saw",
        "FirstLayer(Inner)",
        "Lid(Inner)",
        "Lining",
        "FirstLayer(Outer)",
        "NextLayer(Outer, 1)",
        "NextLayer(Outer, 2)",
        "Lid(Outer)",
        "Feet",
        "Suspension",
        "Try",
    ];
    assert!(order.windows(2).all(|pair| place(pair[0]) < place(pair[1])), "{titles:?}");
    // Compound and sealant dry for a day, glue for hours.
    let of = |what: &str| plan.steps[place(what)].drying_h;
    assert_eq!(of("NextLayer(Outer, 1)"), 24.0);
    assert_eq!(of("Saw"), 0.0);
}

/// A large box of three heavy layers round a hung one takes about 40 hours and weighs about 225 kg (common practice, no source).
/// Ours is smaller than the largest of them; times are assumed. Within a factor of 1.5.
#[test]
fn a_large_box_takes_what_large_boxes_take() {
    let lid = LidPart { form: LidForm::Stepped, seals: 2.0, seal: SealKind::Compressed, ..LidPart::default() };
    let plan = plan_of(&heavy_box(0.5, &lid, "damping-compound"));
    println!(
        "{:.0} kg, {:.1} h, {:.0} in money, sheets {:?}",
        plan.mass_kg,
        plan.hours,
        plan.money.all(),
        plan.layouts.iter().map(|layout| layout.sheets.len()).collect::<Vec<_>>()
    );
    assert!((225.0 / 1.5..225.0 * 1.5).contains(&plan.mass_kg), "{} kg", plan.mass_kg);
    assert!((40.0 / 1.5..40.0 * 1.5).contains(&plan.hours), "{} h", plan.hours);
}
