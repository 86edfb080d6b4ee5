//! Every path out of the box can be the one to blame, is named then, and has a change against it that does what is said.

use hushwright::buildup::raw::Layer;
use hushwright::design::{Design, HolesPart, LiningPart, VentsPart, examples, run_in_box};
use hushwright::enclosure::{SealKind, SupportKind};
use hushwright::evaluate::{Cause, Evaluator, PathKey, Report, evaluate};
use hushwright::improve::{Change, Measure, Order, Step, corners_dba};

fn report(design: &Design) -> Report {
    evaluate(&design.check().expect("a sound design"))
}

/// The first example with walls so heavy, damped and firm that something else limits.
fn heavy() -> Design {
    let mut design = run_in_box();
    // Heard in the room itself: a floor between would take away what some of the paths let out.
    design.listeners.clear();
    design.inner.layers =
        vec![Layer::sheet("birch-plywood", 18.0), Layer::bond("damping-compound"), Layer::sheet("birch-plywood", 18.0)];
    design.inner.edge_fixity = 0.9;
    let shell = design.outer.as_mut().expect("two boxes");
    shell.edge_fixity = 0.9;
    shell.layers.insert(0, Layer::bond("damping-compound"));
    shell.layers.insert(0, Layer::sheet("fibre-cement", 12.0));
    design
}

/// The example with one box, heard through a wall.
fn first_box() -> Design {
    examples().pop().expect("the last example")
}

fn with(change: impl Fn(&mut Design)) -> Design {
    let mut design = heavy();
    change(&mut design);
    design
}

#[test]
fn each_path_is_named_when_it_limits() {
    let open = |design: &mut Design| {
        let outer = &mut design.outer.as_mut().expect("two boxes").holes;
        for holes in [&mut design.inner.holes, outer] {
            *holes = HolesPart { count: 3.0, diameter_mm: 40.0, cable_mm: 0.0, sealed: false };
        }
    };
    let bare = |design: &mut Design| {
        for lid in [&mut design.inner.lid, &mut design.outer.as_mut().expect("two boxes").lid] {
            lid.seal = SealKind::Bare;
            lid.seals = 1.0;
        }
    };
    let cases = [
        (with(open), PathKey::Holes),
        (with(bare), PathKey::Leaks),
        (with(|design| design.suspension.kind = SupportKind::Rigid), PathKey::Suspension),
        (
            with(|design| design.vents = Some(VentsPart { bends: 0.0, length_mm: 300.0, lining: None, ..VentsPart::default() })),
            PathKey::Vents,
        ),
        (Design { listeners: Vec::new(), ..run_in_box() }, PathKey::Walls),
    ];
    for (design, key) in cases {
        let report = report(&design);
        assert_eq!(report.limiting.path, key, "{:?}", report.paths.iter().map(|p| (p.key, p.share_dba)).collect::<Vec<_>>());
        let share = report.path(key).expect("it is there").share_dba;
        assert!(share > 0.5 && (share - report.limiting.share).abs() < 1e-12, "{key:?}: {share}");
        let changes = Change::all(&design);
        let mut evaluator = Evaluator::default();
        let steps: Vec<Step> =
            changes.iter().map(|&change| Step::of(change, &design, &report, &mut evaluator).expect("it can be made")).collect();
        let best = Order::Gain.sorted(&steps)[0];
        let better = self::report(&changes[best].applied(&design).expect("it can be made"));
        let gain = report.answer().dba - better.answer().dba;
        assert!(gain >= 0.5 && (gain - steps[best].gain_dba).abs() < 1e-9, "{key:?}: {gain} against {:?}", steps[best]);
        let path_db = |report: &Report| report.path(key).map_or(f64::INFINITY, |path| path.insertion_loss_dba);
        assert!(path_db(&better) > path_db(&report), "{key:?}: the best change is one against the path that limits");
    }
}

/// Behind a floor, which takes away what is high, the same box is judged by what is low: shares and the loudest band are those
/// of what is heard.
#[test]
fn shares_are_those_of_what_is_heard() {
    let in_the_room = report(&Design { listeners: Vec::new(), ..first_box() });
    let behind = report(&first_box());
    let high = |report: &Report| report.path(PathKey::Leaks).expect("a lid leaks").share_dba;
    assert!(behind.listeners[0].reduction_db.is_some() && high(&behind) != high(&in_the_room));
    for report in [&in_the_room, &behind] {
        let heard = report.decisive().map_or(report.stations.source.level_db, |heard| heard.bare.level_db);
        let weights = hushwright::bands::Weighting::A.spectrum();
        let part = |path: &hushwright::evaluate::Path, band: usize| {
            10.0_f64.powf((heard[band] + weights[band] - path.insertion_loss_db[band]) / 10.0)
        };
        let sum = |path: &hushwright::evaluate::Path| (0..27).map(|band| part(path, band)).sum::<f64>();
        let all: f64 = report.paths.iter().map(sum).sum();
        assert!(report.paths.iter().all(|path| (path.share_dba - sum(path) / all).abs() < 1e-9));
    }
}

/// A path that is not built does not exist: no vents, no holes, no driver.
#[test]
fn what_is_not_there_has_no_path() {
    let keys = |report: &Report| report.paths.iter().map(|path| path.key).collect::<Vec<_>>();
    let mut design = run_in_box();
    assert!(!keys(&report(&design)).contains(&PathKey::Vents));
    design.inner.holes.count = 0.0;
    design.outer.as_mut().expect("two boxes").holes.count = 0.0;
    assert!(!keys(&report(&design)).contains(&PathKey::Holes));
    design.source.driver = None;
    assert!(!keys(&report(&design)).contains(&PathKey::Motion));
    design.outer = None;
    let single = report(&design);
    assert_eq!(keys(&single), [PathKey::Walls, PathKey::Leaks]);
    assert!(single.floor_borne.is_none() && single.suspension.is_none());
}

/// The causes that walls have: panels at their resonance, coincidence where a single stiff sheet is heard there.
#[test]
fn causes_are_told_apart() {
    assert_eq!(report(&run_in_box()).limiting.cause, Cause::OuterPanels);
    let mut single = run_in_box();
    single.outer = None;
    single.listeners.clear();
    single.inner.baffle = None;
    single.inner.layers = vec![Layer::sheet("osb", 18.0)];
    single.source.spectrum = hushwright::need::SourceSpectrum::ShopVacuum;
    assert_eq!(report(&single).limiting.cause, Cause::Coincidence);
}

/// Measures change something or say that there is nothing to change.
#[test]
fn measures_say_whether_they_apply() {
    let mut design = run_in_box();
    assert!(!Measure::SealHoles.apply(&mut design.clone()), "they are sealed");
    assert!(!Measure::Springs.apply(&mut design.clone()), "it stands on springs");
    assert!(!Measure::LongerVents.apply(&mut design.clone()) && !Measure::LinedVents.apply(&mut design.clone()));
    design.vents = Some(VentsPart { lining: Some(LiningPart::default()), ..VentsPart::default() });
    assert!(!Measure::LinedVents.apply(&mut design.clone()) && Measure::LongerVents.apply(&mut design.clone()));
    design.outer = None;
    assert!(!Measure::BraceOuter.apply(&mut design.clone()) && Measure::BraceInner.apply(&mut design));
    assert_eq!(design.inner.braces.map(|braces| braces.count), Some(1.0));
}

/// Both corners' answers are those of designs with these corners.
#[test]
fn corners_are_told_from_loose_to_firm() {
    let design = run_in_box();
    let before = report(&design);
    let [loose, firm] = corners_dba(&design, &before, &mut Evaluator::default());
    assert!(firm + 5.0 < loose, "{loose} with loose corners, {firm} with firm ones");
    let mut firmest = design;
    (firmest.inner.edge_fixity, firmest.outer.as_mut().expect("two boxes").edge_fixity) = (0.9, 0.9);
    assert_eq!(report(&firmest).answer().dba, firm);
}
