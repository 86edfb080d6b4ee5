//! The search: its front against brute force with the full model, its coarse model against the full one, limits, wishes.

use hushwright::buildup::raw::{Layer, NameOr, SheetNumbers};
use hushwright::design::{BracesPart, Design, SourcePart, SupportPart, VentsPart, examples, run_in_box};
use hushwright::enclosure::{BraceKind, LidForm, SealKind, SupportKind};
use hushwright::evaluate::{Evaluator, Report};
use hushwright::material;
use hushwright::need::CriterionKind;
use hushwright::search::{Board, COARSE_ERROR_DB, Front, Joint, Lids, Limits, MERIT_STEP_DB, Search, Space, rank_all};
use hushwright_tests::designs::accepted_design;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

/// Knuth's linear congruential generator: the same numbers everywhere.
struct Dice(u64);

impl Dice {
    fn part(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as f64 / f64::from(1_u32 << 31)
    }

    fn below(&mut self, count: usize) -> usize {
        (self.part() * count as f64) as usize
    }

    fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.below(from.len())]
    }
}

/// A small space round `base` with whatever is drawn.
fn drawn_space(base: &Design, dice: &mut Dice) -> Space {
    let boards = (0..2).map(|_| {
        let sheet = &material::sheets()[dice.below(material::sheets().len())];
        Board::new(sheet.key, dice.pick(sheet.stock_mm))
    });
    let stock = boards.collect();
    let seals = [SealKind::Bare, SealKind::FoamTape, SealKind::ClosedCell, SealKind::Compressed];
    let form = dice.pick(&[LidForm::Plain, LidForm::Stepped]);
    let alike = Lids::Alike { form, seals: 1.0 + dice.below(4) as f64, seal: dice.pick(&seals) };
    let own_lining_mm = base.inner.lining.as_ref().map_or(0.0, |lining| lining.thickness_mm);
    let smallest_mm = base.inner.length_mm.min(base.inner.width_mm).min(base.inner.height_mm);
    Space {
        stock,
        joints: vec![dice.pick(&[Joint::Compound, Joint::Loose, Joint::Glue])],
        outer_sheets: [1, 2],
        gaps_mm: vec![base.gap.depth_mm, (base.gap.depth_mm + 200.0 * dice.part()).min(500.0)],
        fill_shares: vec![0.0, dice.part()],
        lids: vec![Lids::AsTheyAre, alike],
        linings_mm: vec![own_lining_mm, (0.4 * smallest_mm * dice.part()).clamp(5.0, 300.0)],
        ..Space::of(base)
    }
}

/// The examples, variants of them, and designs drawn over all inputs on supports that carry whatever comes.
fn bases(drawn: usize) -> Vec<Design> {
    let mut bases = examples();
    for base in examples() {
        let mut open = Design { vents: Some(VentsPart::default()), listeners: Vec::new(), ..base.clone() };
        open.inner.holes.sealed = false;
        open.inner.baffle = None;
        let mut whole = base.clone();
        whole.inner.baffle = None;
        let single = Design { outer: None, ..base };
        bases.extend([open, whole, single]);
    }
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]);
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    while bases.len() < drawn + 12 {
        let mut base = accepted_design().new_tree(&mut runner).expect("designs can be drawn").current().document;
        let carrying = |support: &SupportPart, most_mm: f64| SupportPart {
            kind: if support.kind == SupportKind::Pads { SupportKind::Springs } else { support.kind },
            count: 24.0,
            breaking_load_kg: 20_000.0,
            height_mm: support.height_mm.min(most_mm),
            ..support.clone()
        };
        base.suspension = carrying(&base.suspension, base.gap.depth_mm);
        base.feet = carrying(&base.feet, f64::INFINITY);
        if base.check().is_ok() {
            bases.push(base);
        }
    }
    bases
}

/// "Within 0.5 dB" is what ranking needs; the search counts on half of that.
#[test]
fn the_coarse_model_is_near_the_full_one() {
    let mut dice = Dice(5);
    let (mut squares, mut count, mut worst_db) = (0.0, 0, 0.0_f64);
    let (mut singles, mut curves) = (0, 0);
    for (k, base) in bases(70).into_iter().enumerate() {
        // Half of them by the A-weighted level alone, half by whatever criterion was drawn.
        let base = if k % 2 == 0 { Design { listeners: Vec::new(), ..base } } else { base };
        let ranked = rank_all(&base, &drawn_space(&base, &mut dice), Limits::default()).expect("sound wishes");
        let mut evaluator = Evaluator::default();
        for _ in 0..10.min(ranked.len()) {
            let one = &ranked[dice.below(ranked.len())];
            let report = evaluator.evaluate(&one.design.check().expect("what does not fit is left out"));
            let deviation_db = one.merit_db - report.merit_db();
            assert!(deviation_db.abs() < COARSE_ERROR_DB, "base {k}: {deviation_db:.2} dB");
            assert!((one.mass_kg / report.bill.mass_kg - 1.0).abs() < 1e-9, "base {k}");
            assert!((one.cost - report.bill.cost).abs() < 1e-9 * (1.0 + report.bill.cost), "base {k}");
            squares += deviation_db * deviation_db;
            worst_db = worst_db.max(deviation_db.abs());
            count += 1;
            singles += usize::from(one.design.outer.is_none());
            let a_weighted = |kind| matches!(kind, CriterionKind::Dba | CriterionKind::Who);
            curves += usize::from(report.decisive().is_some_and(|listener| !a_weighted(listener.criterion)));
        }
    }
    let rms_db = f64::sqrt(squares / f64::from(count));
    println!("{count} designs, {singles} of one shell, {curves} by curves: rms {rms_db:.3} dB, at most {worst_db:.3} dB");
    assert!(count > 600 && singles > 10 && curves > 100);
    assert!(rms_db < 0.05, "{rms_db}");
}

/// Wood alone, as most boxes are: fewer frequencies serve.
#[test]
fn the_coarse_model_is_near_the_full_one_for_wood() {
    let mut dice = Dice(11);
    for base in examples() {
        let space = Space { stock: Space::of(&base).stock.into_iter().take(3).collect(), ..Space::of(&base) };
        let ranked = rank_all(&base, &space, Limits::default()).expect("sound wishes");
        let mut evaluator = Evaluator::default();
        for _ in 0..60 {
            let one = &ranked[dice.below(ranked.len())];
            let report = evaluator.evaluate(&one.design.check().expect("what does not fit is left out"));
            let deviation_db = one.merit_db - report.merit_db();
            assert!(deviation_db.abs() < COARSE_ERROR_DB, "{}: {deviation_db:.2} dB", base.name);
        }
    }
}

fn small_space(base: &Design) -> Space {
    Space {
        stock: vec![Board::new("birch-plywood", 12.0), Board::new("gypsum-board", 12.5)],
        joints: vec![Joint::Compound, Joint::Loose],
        inner_sheets: [1, 1],
        outer_sheets: [1, 2],
        gaps_mm: vec![base.gap.depth_mm],
        lids: vec![Lids::AsTheyAre, Lids::Alike { form: LidForm::Stepped, seals: 3.0, seal: SealKind::Compressed }],
        ..Space::of(base)
    }
}

/// What a front compares: merit in its steps, mass, cost.
type Figures = (i64, f64, f64);

fn figures(merit_db: f64, mass_kg: f64, cost: f64) -> Figures {
    ((merit_db / MERIT_STEP_DB).round() as i64, mass_kg, cost)
}

/// Every design of the space in full, by the coarse model's list of them, which `counts` shows to be whole.
fn brute_force(base: &Design, space: &Space, limits: Limits) -> Vec<Figures> {
    let mut evaluator = Evaluator::default();
    let all: Vec<Figures> = rank_all(base, space, Limits::default())
        .expect("sound wishes")
        .iter()
        .map(|one| evaluator.evaluate(&one.design.check().expect("sound")))
        .filter(|report| within(report, &limits))
        .map(|report| figures(report.merit_db(), report.bill.mass_kg, report.bill.cost))
        .collect();
    let beats = |a: &Figures, b: &Figures| a.0 >= b.0 && a.1 <= b.1 && a.2 <= b.2 && a != b;
    let mut front: Vec<Figures> = all.iter().filter(|own| !all.iter().any(|other| beats(other, own))).copied().collect();
    front.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.2.total_cmp(&b.2)).then(b.0.cmp(&a.0)));
    front.dedup();
    front
}

fn within(report: &Report, limits: &Limits) -> bool {
    let mut sides_mm = report.outside_m.map(|side| 1000.0 * side);
    sides_mm.sort_by(f64::total_cmp);
    limits.mass_kg.is_none_or(|most| report.bill.mass_kg <= most)
        && limits.cost.is_none_or(|most| report.bill.cost <= most)
        && limits.door_mm.is_none_or(|[w, h]| sides_mm[0] <= w.min(h) && sides_mm[1] <= w.max(h))
}

fn of_front(front: &Front) -> Vec<Figures> {
    front.points.iter().map(|point| figures(point.merit_db, point.mass_kg, point.cost)).collect()
}

#[test]
fn the_front_is_that_of_brute_force() {
    for base in examples() {
        let space = small_space(&base);
        let limits = Limits { mass_kg: Some(110.0), cost: Some(260.0), door_mm: Some([900.0, 2000.0]) };
        for limits in [Limits::default(), limits] {
            let mut search = Search::new(&base, &space, limits).expect("sound wishes");
            let front = search.finish();
            let want = brute_force(&base, &space, limits);
            assert_eq!(of_front(&front), want, "{}", base.name);
            assert!(front.is_exact && front.points.len() > 3, "{}: {} points", base.name, front.points.len());
            let progress = search.progress();
            assert!(progress.is_finished());
            assert_eq!(progress.evaluated + progress.pruned.all(), space.combinations());
            assert_eq!(progress.checked + progress.beaten, progress.candidates);
            assert!(progress.candidates < progress.evaluated, "the coarse model spares full estimates");
        }
    }
}

/// An old cabinet stays as it is: what is searched is laid round it, and it costs nothing.
#[test]
fn a_box_that_stands_already_is_kept() {
    for mut base in examples() {
        base.inner.existing = true;
        let kept = base.inner.layers[0].clone();
        let space = Space { inner_sheets: [1, 2], outer_sheets: [1, 1], joints: vec![Joint::Compound], ..small_space(&base) };
        // The sheet alone, with either of two round it, and as it is in the base.
        let ranked = rank_all(&base, &space, Limits::default()).expect("sound wishes");
        let mut inner: Vec<_> = ranked.iter().map(|one| &one.design.inner).collect();
        assert!(inner.iter().all(|part| part.layers[0] == kept && part.length_mm == base.inner.length_mm));
        inner.sort_by_key(|part| format!("{:?}", part.layers));
        inner.dedup_by_key(|part| format!("{:?}", part.layers));
        assert_eq!(inner.len(), if base.inner.layers.len() > 1 { 4 } else { 3 });
        let front = Search::new(&base, &space, Limits::default()).expect("sound wishes").finish();
        assert_eq!(of_front(&front), brute_force(&base, &space, Limits::default()), "{}", base.name);
        assert!(front.is_exact && front.points.iter().all(|point| point.design.inner.existing));
        // Wishes that would replace it are refused.
        let refused = |space: Space| Search::new(&base, &space, Limits::default()).err().expect("refused")[0].path.clone();
        assert_eq!(refused(Space { kept: None, ..space.clone() }), "space.kept");
        let more_inner = vec![base.inner.layers.clone(), vec![Layer::sheet("osb", 11.0)]];
        assert_eq!(refused(Space { more_inner, ..space.clone() }), "space.more_inner[1]");
        base.inner.existing = false;
        let errors = Search::new(&base, &space, Limits::default()).err().expect("nothing stands there");
        assert_eq!(errors[0].path, "space.kept");
    }
}

/// Whatever a point says is what its design gives when it is opened.
#[test]
fn every_point_opens_as_a_design() {
    let base = run_in_box();
    let front = Search::new(&base, &small_space(&base), Limits::default()).expect("sound wishes").finish();
    for point in &front.points {
        let report = Evaluator::default().evaluate(&point.design.check().expect("sound"));
        assert_eq!(point.merit_db, report.merit_db());
        assert_eq!(point.level_dba, report.answer().dba);
        assert_eq!(point.margin_db, report.decisive().map(|listener| listener.judgement.margin_db));
        assert_eq!((point.mass_kg, point.cost), (report.bill.mass_kg, report.bill.cost));
        assert_eq!(point.outside_m, report.outside_m);
        assert_eq!(point.design.source, base.source);
        assert_eq!(point.design.listeners, base.listeners);
    }
}

/// Fewer points that stand for all, and the quietest among them.
#[test]
fn representatives_stand_for_all() {
    let base = run_in_box();
    let front = Search::new(&base, &small_space(&base), Limits::default()).expect("sound wishes").finish();
    let places = front.representatives(1.0, 0.05);
    assert!(places.len() > 2 && places.len() < front.points.len(), "{} of {}", places.len(), front.points.len());
    assert!(places.windows(2).all(|pair| pair[0] < pair[1]));
    for own in &front.points {
        let near = |&place: &usize| {
            let other = &front.points[place];
            other.merit_db >= own.merit_db - 1.0 && other.mass_kg <= 1.05 * own.mass_kg && other.cost <= 1.05 * own.cost
        };
        assert!(places.iter().any(near), "{:.1} dB, {:.1} kg", own.merit_db, own.mass_kg);
    }
    let best = front.points.iter().map(|point| point.merit_db).fold(f64::NEG_INFINITY, f64::max);
    assert!(places.iter().any(|&place| front.points[place].merit_db == best));
    let all: Vec<usize> = (0..front.points.len()).collect();
    assert_eq!(front.representatives(0.0, 0.0), all, "on a front nothing stands for another");
}

#[test]
fn slices_do_not_matter_and_progress_rises() {
    let base = run_in_box();
    let space = small_space(&base);
    let whole = Search::new(&base, &space, Limits::default()).expect("sound wishes").finish();
    for units in [1, 7] {
        let mut search = Search::new(&base, &space, Limits::default()).expect("sound wishes");
        let mut done = 0.0;
        while search.step(units) {
            let progress = search.progress();
            assert!(progress.done >= done && progress.done < 1.0);
            assert!(progress.evaluated + progress.pruned.all() <= progress.combinations);
            assert!(!search.front().is_exact, "not before the end");
            done = progress.done;
        }
        assert_eq!(search.front(), whole, "{units} units a slice");
        assert!(!search.step(units), "the end is the end");
    }
}

/// Each limit by itself leaves out what exceeds it and nothing else.
#[test]
fn limits_are_respected() {
    let base = run_in_box();
    let space = small_space(&base);
    let run = |limits| {
        let mut search = Search::new(&base, &space, limits).expect("sound wishes");
        (search.finish(), search.progress().pruned)
    };
    let (_, none) = run(Limits::default());
    assert_eq!((none.door, none.mass, none.cost), (0, 0, 0));
    let (front, pruned) = run(Limits { mass_kg: Some(60.0), ..Limits::default() });
    assert!(pruned.mass > 0 && pruned.cost == 0 && front.points.iter().all(|point| point.mass_kg <= 60.0));
    let (front, pruned) = run(Limits { cost: Some(100.0), ..Limits::default() });
    assert!(pruned.cost > 0 && pruned.mass == 0 && front.points.iter().all(|point| point.cost <= 100.0));
    // Inside it is 500 mm wide and high: two shells and a gap do not pass 560 mm, one shell does.
    let (front, pruned) = run(Limits { door_mm: Some([2000.0, 560.0]), ..Limits::default() });
    assert!(pruned.door > 0 && !front.points.is_empty());
    assert!(front.points.iter().all(|point| point.design.outer.is_none()));
    // A limit that nothing keeps: no points, and that is the exact answer.
    let (front, pruned) = run(Limits { mass_kg: Some(1.0), ..Limits::default() });
    assert!(front.points.is_empty() && front.is_exact);
    assert_eq!(pruned.all(), space.combinations());
}

/// Springs that are higher than a gap, braces that are deeper, feet that break: left out, and counted.
#[test]
fn what_does_not_fit_is_left_out() {
    let mut base = run_in_box();
    base.outer.as_mut().expect("two shells").layers.truncate(1);
    base.feet = SupportPart { kind: SupportKind::Springs, breaking_load_kg: 15.0, ..SupportPart::springs() };
    let battens = |depth_mm| Some(BracesPart { kind: BraceKind::Battens, depth_mm, ..BracesPart::default() });
    let space = Space {
        // The springs are 45 mm high.
        gaps_mm: vec![30.0, 50.0],
        outer_braces: vec![None, battens(40.0), battens(60.0)],
        inner_braces: vec![None, battens(290.0)],
        linings_mm: vec![50.0, 240.0],
        ..small_space(&base)
    };
    let errors = Search::new(&base, &space, Limits::default()).err().expect("the feet break under the base itself");
    assert!(errors.iter().any(|error| error.path == "feet.count"), "{errors:?}");
    base.feet.breaking_load_kg = 24.0;
    let mut search = Search::new(&base, &space, Limits::default()).expect("sound wishes");
    let front = search.finish();
    let progress = search.progress();
    assert!(progress.pruned.refused > 0 && progress.pruned.loads > 0);
    assert_eq!(progress.evaluated + progress.pruned.all(), space.combinations());
    let brute = brute_force(&base, &space, Limits::default());
    assert_eq!(of_front(&front), brute);
    for point in &front.points {
        assert!(point.design.outer.is_none() || point.design.gap.depth_mm == 50.0);
    }
}

/// How many designs there are, by counting: no mirror images, nothing twice.
#[test]
fn combinations_are_counted_as_they_are() {
    let base = run_in_box();
    let space = Space {
        stock: vec![Board::new("mdf", 15.0), Board::new("osb", 18.0), Board::new("mdf", 15.0)],
        inner_sheets: [1, 2],
        outer_sheets: [1, 1],
        single_shells: true,
        more_inner: vec![vec![Layer::sheet("mdf", 15.0)]],
        more_outer: Vec::new(),
        gaps_mm: vec![50.0, 50.0, 60.0],
        fill_shares: vec![0.5],
        inner_braces: vec![None],
        outer_braces: vec![None],
        lids: vec![Lids::AsTheyAre],
        linings_mm: vec![50.0],
        ..Space::of(&base)
    };
    // Leaves inside: a, b, aa, ab, bb. Outside none, or a or b with one of two gaps.
    assert_eq!(space.combinations(), 5 * (1 + 2 * 2));
    let ranked = rank_all(&base, &space, Limits::default()).expect("sound wishes");
    assert_eq!(ranked.len() as u64, space.combinations());
    let mut designs: Vec<String> = ranked.iter().map(|one| serde_json::to_string(&one.design).expect("JSON")).collect();
    designs.sort();
    designs.dedup();
    assert_eq!(designs.len() as u64, space.combinations(), "none is there twice");
    let doubles_only = Space { single_shells: false, ..space.clone() };
    assert_eq!(doubles_only.combinations(), 5 * 4);
    assert_eq!(Space { double_shells: false, ..space }.combinations(), 5);
}

#[test]
fn hostile_wishes_give_messages() {
    let base = run_in_box();
    let usual = || Space::of(&base);
    let refused = |space: Space, limits: Limits, path: &str| {
        let errors = Search::new(&base, &space, limits).err().unwrap_or_else(|| panic!("{path} was taken"));
        assert!(errors.iter().any(|error| error.path.starts_with(path) && !error.message.is_empty()), "{path}: {errors:?}");
    };
    let none = Limits::default();
    refused(Space { stock: Vec::new(), ..usual() }, none, "space.stock");
    refused(Space { stock: vec![Board::new("unobtainium", 12.0)], ..usual() }, none, "space.stock[0]");
    refused(Space { stock: vec![Board::new("mdf", f64::NAN)], ..usual() }, none, "space.stock[0]");
    let numbers =
        SheetNumbers { density: -1.0, youngs_modulus: f64::INFINITY, poisson: 0.7, loss_factor: 0.1, shear_modulus: None };
    let sheet = NameOr::Numbers(numbers);
    refused(Space { stock: vec![Board { sheet, thickness_mm: 12.0 }], ..usual() }, none, "space.stock[0]");
    refused(Space { stock: vec![Board::new("mdf", 15.0); 25], ..usual() }, none, "space.stock");
    refused(Space { joints: Vec::new(), ..usual() }, none, "space.joints");
    refused(Space { inner_sheets: [0, 1], ..usual() }, none, "space.inner_sheets");
    refused(Space { outer_sheets: [3, 2], ..usual() }, none, "space.outer_sheets");
    refused(Space { outer_sheets: [1, usize::MAX], ..usual() }, none, "space.outer_sheets");
    refused(Space { single_shells: false, double_shells: false, ..usual() }, none, "space.double_shells");
    refused(Space { more_outer: vec![Vec::new()], ..usual() }, none, "space.more_outer[0]");
    refused(Space { gaps_mm: Vec::new(), ..usual() }, none, "space.gaps_mm");
    refused(Space { gaps_mm: vec![50.0, f64::NAN], ..usual() }, none, "space.gaps_mm[1]");
    refused(Space { fill_shares: vec![1.5], ..usual() }, none, "space.fill_shares[0]");
    refused(Space { linings_mm: vec![f64::NEG_INFINITY], ..usual() }, none, "space.linings_mm[0]");
    let alike = |seals| Lids::Alike { form: LidForm::Plain, seals, seal: SealKind::Bare };
    for seals in [0.0, 1.5, 9.0, f64::NAN] {
        refused(Space { lids: vec![alike(seals)], ..usual() }, none, "space.lids[0]");
    }
    let braces = BracesPart { count: f64::NAN, ..BracesPart::default() };
    refused(Space { inner_braces: vec![Some(braces)], ..usual() }, none, "space.inner_braces[0]");
    for wrong in [0.0, -5.0, f64::NAN, f64::INFINITY] {
        refused(usual(), Limits { mass_kg: Some(wrong), ..none }, "limits.mass_kg");
        refused(usual(), Limits { cost: Some(wrong), ..none }, "limits.cost");
        refused(usual(), Limits { door_mm: Some([wrong, 2000.0]), ..none }, "limits.door_mm[0]");
        refused(usual(), Limits { door_mm: Some([800.0, wrong]), ..none }, "limits.door_mm[1]");
    }
    let many = (0..12).map(|step| 20.0 + f64::from(step)).collect();
    let lids = (1..5).flat_map(|seals| {
        [LidForm::Plain, LidForm::Stepped].map(|form| Lids::Alike { form, seals: f64::from(seals), seal: SealKind::Bare })
    });
    refused(Space { linings_mm: many, lids: lids.collect(), ..usual() }, none, "space.lids");
    // More than anybody waits for.
    let stock = material::sheets().iter().flat_map(|sheet| sheet.stock_mm.iter().map(|&mm| Board::new(sheet.key, mm)));
    refused(Space { stock: stock.take(24).collect(), outer_sheets: [1, 4], ..usual() }, none, "space");
}

#[test]
fn a_design_that_is_refused_is_refused_here_too() {
    let base = Design { source: SourcePart { level_dba: f64::NAN, ..run_in_box().source }, ..run_in_box() };
    let errors = Search::new(&base, &Space::of(&run_in_box()), Limits::default()).err().expect("refused");
    assert!(errors.iter().any(|error| error.path == "source.level_dba"), "{errors:?}");
    // A space round a design of which nothing fits is refused, not searched.
    let mut tiny = run_in_box();
    tiny.inner.length_mm = f64::NAN;
    assert!(Search::new(&tiny, &Space::of(&tiny), Limits::default()).is_err());
}
