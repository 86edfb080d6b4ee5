//! How quiet it has to be: what listeners hear, what their limits allow, and what a box has to bring.

use hushwright::bands::{BAND_COUNT, Spectrum, Weighting, exact_mid_hz};
use hushwright::design::{CheckedDesign, Design, ListenerPart, examples, limits};
use hushwright::evaluate::{Evaluator, ListenerReport, Report, UNSURE_DB, Verdict, evaluate};
use hushwright::need::{
    Background, Criterion, CriterionKind, Heard, Hours, Judgement, Partition, Place, Room, SourceSpectrum, THRESHOLD_DB,
    background_db, room_gain_db,
};
use hushwright::rating::CriterionRating;
use hushwright::rating::{nc, nr};
use hushwright_tests::designs::accepted_design;
use proptest::prelude::*;

fn report(design: &Design) -> Report {
    evaluate(&design.check().expect("sound"))
}

fn criterion(kind: CriterionKind) -> Criterion {
    Criterion { kind, limit_dba: 30.0, nr: 25.0, nc: 25.0, outdoors: false, average: false }
}

fn heard(level_db: Spectrum, bare_db: Spectrum) -> Heard {
    Heard { level_db, bare_db, max_above_db: 6.0, hours: Hours { start_h: 20.0, hours: 2.0 }, background_db: background_db(20.0) }
}

fn raised(spectrum: &Spectrum, db: f64) -> Spectrum {
    spectrum.map(|level| level + db)
}

fn dba(spectrum: &Spectrum) -> f64 {
    spectrum.weighted_sum(Weighting::A)
}

/// Any levels by band.
fn levels() -> impl Strategy<Value = Spectrum> {
    proptest::collection::vec(-40.0..120.0_f64, BAND_COUNT).prop_map(|levels| Spectrum::from_fn(|band| levels[band]))
}

fn any_criterion() -> impl Strategy<Value = Criterion> {
    (
        prop::sample::select(CriterionKind::ALL.to_vec()),
        10.0..60.0_f64,
        0.0..60.0_f64,
        15.0..70.0_f64,
        any::<bool>(),
        any::<bool>(),
    )
        .prop_map(|(kind, limit_dba, nr, nc, outdoors, average)| Criterion { kind, limit_dba, nr, nc, outdoors, average })
}

fn any_hours() -> impl Strategy<Value = Hours> {
    (0.0..24.0_f64, 0.1..24.0_f64).prop_map(|(start_h, hours)| Hours { start_h, hours })
}

proptest! {
    /// The margin is what everything can rise by: then, and not before, the limit is reached.
    #[test]
    fn risen_by_its_margin_a_level_is_at_the_limit(level in levels(), rule in any_criterion(), hours in any_hours(), peak in 0.0..20.0_f64) {
        let heard = Heard { hours, max_above_db: peak, ..heard(level, level) };
        let judged = rule.judge(&heard);
        let at_limit = rule.judge(&Heard { level_db: raised(&level, judged.margin_db), ..heard });
        prop_assert!(at_limit.margin_db.abs() < 1e-6, "{}", at_limit.margin_db);
        prop_assert!(judged.limit_db.is_finite() && judged.required_db.is_finite() && judged.margin_by_band_db.is_finite());
        prop_assert!(judged.band >= judged.first_band);
    }

    /// A box that brings in each band what is required meets the limit, and is not asked for more than the worst band has.
    #[test]
    fn what_is_required_is_enough(bare in levels(), rule in any_criterion(), hours in any_hours()) {
        let heard = Heard { hours, ..heard(bare, bare) };
        let Judgement { required_db, margin_db, .. } = rule.judge(&heard);
        let with_box = Heard { level_db: bare.zip(&required_db, |bare, required| bare - required), ..heard };
        let after = rule.judge(&with_box).margin_db;
        prop_assert!(after > -1e-6, "{after} after bringing what is required");
        if margin_db < 0.0 {
            prop_assert!(after < 1e-6, "no more than needed: {after}");
        }
        prop_assert!(required_db.iter().all(|required| required >= 0.0));
        prop_assert_eq!(required_db.iter().all(|required| required == 0.0), margin_db >= 0.0);
    }

    /// Louder is never better, in no band and by no criterion.
    #[test]
    fn a_louder_band_never_leaves_more(level in levels(), rule in any_criterion(), band in 0..BAND_COUNT, more in 0.0..20.0_f64) {
        let mut louder = level;
        louder[band] += more;
        let margin = |level: Spectrum| rule.judge(&heard(level, level)).margin_db;
        prop_assert!(margin(louder) <= margin(level) + 1e-9);
    }
}

/// For an A-weighted limit the box brings all loud bands down to one A-weighted level and leaves quiet ones alone: no band is
/// asked for a decibel that the limit does not need.
#[test]
fn what_an_a_weighted_limit_requires_is_shared_evenly() {
    let weights = Weighting::A.spectrum();
    let bare = SourceSpectrum::OverdrivenGuitar.levels_db(80.0);
    let required = criterion(CriterionKind::Dba).judge(&heard(bare, bare)).required_db;
    let left = Spectrum::from_fn(|band| bare[band] - required[band] + weights[band]);
    assert!((left.energy_sum() - 30.0).abs() < 1e-9);
    let level = left.iter().fold(f64::NEG_INFINITY, f64::max);
    for band in 0..BAND_COUNT {
        let touched = required[band] > 0.0;
        assert!(if touched { (left[band] - level).abs() < 1e-9 } else { left[band] <= level + 1e-9 }, "band {band}");
    }
}

/// A level that lies on a curve in every octave rates as that curve and has no margin against it.
#[test]
fn a_spectrum_on_a_curve_is_just_at_it() {
    for number in [10.0, 25.0, 40.0] {
        let curve = nr::curve_db(number);
        let level = Spectrum::from_fn(|band| curve[band / 3] - 10.0 * 3.0_f64.log10());
        let judged = Criterion { nr: number, ..criterion(CriterionKind::Nr) }.judge(&heard(level, level));
        assert!(judged.margin_db.abs() < 1e-9 && judged.margin_by_band_db.iter().all(|margin| margin.abs() < 1e-9));
        assert!(judged.limit_db.zip(&level, |a, b| a - b).iter().all(|difference| difference.abs() < 1e-9));
        assert!(matches!(nr::nr(&level.octaves()), CriterionRating::At { value, .. } if (value - number).abs() < 1e-9));
    }
    let curve = nc::curve_db(30.0);
    let level = Spectrum::from_fn(|band| if band < 3 { 100.0 } else { curve[band / 3 - 1] - 10.0 * 3.0_f64.log10() });
    let judged = Criterion { nc: 30.0, ..criterion(CriterionKind::Nc) }.judge(&heard(level, level));
    assert!(judged.margin_db.abs() < 1e-9 && judged.first_band == 3, "an NC curve says nothing below the octave of 63 Hz");
    assert!(judged.required_db.0[..3].iter().all(|required| *required == 0.0));
}

/// Of the octave that decides, the loudest third is named: there the box has to be better.
#[test]
fn the_band_that_decides_is_the_loudest_of_its_octave() {
    for loudest in 12..15 {
        let mut level = Spectrum::constant(0.0);
        level.0[12..15].fill(50.0);
        level[loudest] = 55.0;
        assert_eq!(criterion(CriterionKind::Nr).judge(&heard(level, level)).band, loudest);
    }
}

/// Not to be heard: below the threshold a band may lie over any background, and above it as far below the background as that
/// covers it.
#[test]
fn nothing_is_heard_below_threshold_or_background() {
    let rule = criterion(CriterionKind::Inaudible);
    let quiet = heard(raised(&THRESHOLD_DB, -0.1), THRESHOLD_DB);
    assert!((rule.judge(&quiet).margin_db - 0.1).abs() < 1e-9);
    let loud = Heard { background_db: Spectrum::constant(90.0), ..heard(Spectrum::constant(83.9), THRESHOLD_DB) };
    assert!((rule.judge(&loud).margin_db - (90.0 - 6.0 - 83.9)).abs() < 1e-9, "6 dB below noise a tone is not heard");
    // A tone in one band decides by itself.
    let mut tone = Spectrum::constant(-40.0);
    tone[16] = 30.0;
    let judged = rule.judge(&heard(tone, tone));
    assert!(judged.band == 16 && judged.margin_db < -10.0);
    assert!(judged.required_db[16] > 10.0 && judged.required_db[15] == 0.0);
}

/// WHO (1999): 35 dBA by day, 30 and 45 at the loudest by night, each as the mean over 16 or 8 hours where quiet hours count.
#[test]
fn the_guideline_follows_the_hours_of_use() {
    let limit = |start_h: f64, hours: f64, max_above_db: f64, average: bool| {
        let level = Spectrum::constant(20.0);
        let heard = Heard { hours: Hours { start_h, hours }, max_above_db, ..heard(level, level) };
        let limit = Criterion { average, ..criterion(CriterionKind::Who) }.judge(&heard).dba.expect("in dBA");
        (limit.level_dba, limit.by_maximum)
    };
    assert_eq!(limit(20.0, 2.0, 6.0, false), (35.0, false));
    assert_eq!(limit(22.0, 2.0, 6.0, false), (30.0, false), "an hour of it is night");
    assert_eq!(limit(23.0, 2.0, 18.0, false), (27.0, true), "45 dB at the loudest, 18 above the mean");
    let (day, _) = limit(20.0, 2.0, 6.0, true);
    assert!((day - (35.0 + 10.0 * 8.0_f64.log10())).abs() < 1e-9, "2 of 16 hours: {day}");
    assert_eq!(limit(23.0, 2.0, 12.0, true), (33.0, true), "36 for the mean, but 33 for the loudest");
    let (night, _) = limit(22.0, 3.0, 0.0, true);
    assert!((night - (30.0 + 10.0 * 4.0_f64.log10())).abs() < 1e-9, "2 of 8 hours are stricter than 1 of 16: {night}");
}

/// At the distance at which direct and reverberant sound are alike, sqrt(Q A/(16 pi)), the level is 3 dB over either
/// (critical distance, any textbook).
#[test]
fn at_the_critical_distance_direct_and_reverberant_sound_are_alike() {
    for absorption in [2.0, 10.0, 60.0] {
        let distance_m = (2.0 * absorption / (16.0 * std::f64::consts::PI)).sqrt();
        let room = Room { absorption_area_m2: absorption, distance_m };
        assert!((room_gain_db(&room) - 10.0 * (8.0 / absorption).log10()).abs() < 1e-9);
    }
}

/// What a listener hears is, band by band, what would be heard without the box less its insertion loss, wherever that is.
#[test]
fn the_box_brings_its_insertion_loss_to_every_listener() {
    for example in examples() {
        for place in Place::ALL {
            let listeners = vec![ListenerPart { place, ..ListenerPart::default() }];
            let report = report(&Design { listeners, ..example.clone() });
            let heard = &report.listeners[0];
            let difference = heard.bare.level_db.zip(&heard.level.level_db, |bare, level| bare - level);
            let apart = difference.zip(&report.insertion_loss_db, |a, b| (a - b).abs());
            assert!(apart.iter().all(|apart| apart < 1e-9), "{} {place:?}", example.name);
        }
    }
}

#[test]
fn a_listener_in_the_room_hears_what_the_room_has() {
    let mut design = Design::default();
    design.listeners =
        vec![ListenerPart { place: Place::SameRoom, distance_m: design.room.distance_m, ..ListenerPart::default() }];
    let report = report(&design);
    assert!((report.listeners[0].level.dba - report.stations.room.dba).abs() < 1e-9);
    assert!(report.listeners[0].reduction_db.is_none());
    // And elsewhere in it what is heard at that distance.
    let near = ListenerPart { distance_m: 0.8, ..design.listeners[0].clone() };
    design.listeners.push(near);
    let room = design.check().expect("sound").room;
    let nearer = room_gain_db(&Room { distance_m: 0.8, ..room }) - room_gain_db(&room);
    let both = evaluate(&design.check().expect("sound")).listeners;
    assert!(nearer > 1.0 && (both[1].level.dba - both[0].level.dba - nearer).abs() < 1e-9, "{nearer}");
}

/// With R' of a wall as a preset, and the same values typed, the listener hears the same.
#[test]
fn own_values_do_what_a_preset_of_them_does() {
    let mut preset = Design::default();
    preset.listeners[0].flanking_db = 4.0;
    let by_preset = report(&preset);
    let reduction = by_preset.listeners[0].reduction_db.expect("a floor lies between");
    let mut own = preset;
    own.listeners[0].partition = None;
    own.listeners[0].reduction_db = (0..BAND_COUNT).map(|band| (hushwright::bands::NOMINAL_HZ[band], reduction[band])).collect();
    let by_values = report(&own);
    assert!((by_values.listeners[0].level.dba - by_preset.listeners[0].level.dba).abs() < 1e-9);
    let direct = Partition::JoistFloor.reduction_db(&hushwright::air::Air::default());
    assert!(direct.zip(&reduction, |direct, apparent| direct - apparent - 4.0).iter().all(|rest| rest.abs() < 1e-9));
}

/// What a report says of a listener beside the judgement, each worked out from the levels that it says.
#[test]
fn what_a_report_says_of_a_listener() {
    let mut design = Design::default();
    (design.source.start_h, design.source.hours, design.source.max_above_db) = (22.0, 3.0, 7.0);
    (design.listeners[0].criterion, design.listeners[0].average) = (CriterionKind::Who, true);
    (design.listeners[0].background, design.listeners[0].background_dba) = (Background::Bedroom, 70.0);
    let report = report(&design);
    let heard = &report.listeners[0];
    assert!((heard.max_dba - heard.level.dba - 7.0).abs() < 1e-9);
    // Two hours of it are night, and 45 - 7 = 38 dB at the loudest are more than the 30 + 6 dB of the mean.
    let limit = heard.judgement.dba.expect("in dBA");
    assert!((limit.level_dba - 30.0 - 10.0 * 4.0_f64.log10()).abs() < 1e-9 && !limit.by_maximum);
    let mean = heard.mean_over_period_dba.expect("a period decides");
    assert!((heard.level.dba - mean - 10.0 * 4.0_f64.log10()).abs() < 1e-9, "two of eight hours: {mean}");
    assert!((mean + heard.judgement.margin_db - 30.0).abs() < 1e-9, "and that far from the guideline value");
    assert!((heard.bare_margin_db - (limit.level_dba - heard.bare.dba)).abs() < 1e-9);
    let octaves = heard.level.level_db.octaves();
    let from_63_hz: [f64; 8] = std::array::from_fn(|octave| octaves[octave + 1]);
    assert_eq!((heard.nr, heard.nc), (nr::nr(&octaves), nc::nc(&from_63_hz)));
    let required = &heard.judgement.required_db;
    assert!(required[heard.neediest_band()] > 10.0 && required.iter().all(|db| db <= required[heard.neediest_band()]));
    assert!((dba(&heard.background_db) - 20.0).abs() < 1e-9, "a level of one's own has no effect beside a preset");
}

/// Where the level comes from the driver, so do the loudest moments: peaks over the rms of a sine; else they are given.
#[test]
fn the_loudest_moments_are_the_drivers_or_given() {
    let mut design = Design::default();
    design.source.max_above_db = 1.5;
    design.source.driver.as_mut().expect("a driver").crest_db = 12.0;
    let above = |design: &Design| {
        let heard = report(design).listeners[0];
        heard.max_dba - heard.level.dba
    };
    assert!((above(&design) - 1.5).abs() < 1e-9);
    design.source.level_from = hushwright::design::LevelFrom::Driver;
    assert!((above(&design) - (12.0 - 10.0 * 2.0_f64.log10())).abs() < 1e-9);
}

/// What a listener says of his limit and his place is what he is judged by.
#[test]
fn a_listener_is_judged_by_what_he_says() {
    let limit = |change: &dyn Fn(&mut ListenerPart)| {
        let mut design = Design::default();
        (design.source.start_h, design.source.hours) = (23.0, 2.0);
        design.listeners[0].criterion = CriterionKind::Who;
        change(&mut design.listeners[0]);
        report(&design).listeners[0].judgement
    };
    let dba = |change: &dyn Fn(&mut ListenerPart)| limit(change).dba.expect("in dBA").level_dba;
    assert_eq!((dba(&|_| ()), dba(&|l| l.place = Place::Outdoors)), (30.0, 45.0));
    assert!((dba(&|l| l.average = true) - 30.0 - 10.0 * 4.0_f64.log10()).abs() < 1e-9);
    let curves = |kind| limit(&|l| (l.criterion, l.limit_nr, l.limit_nc) = (kind, 20.0, 40.0)).limit_db[16];
    let third = 10.0 * 3.0_f64.log10();
    assert!((curves(CriterionKind::Nr) - 20.0 + third).abs() < 1e-9, "NR 20 is 20 dB at 1 kHz");
    assert!((curves(CriterionKind::Nc) - 41.0 + third).abs() < 1e-9, "NC 40 is 41 dB at 1 kHz");
}

#[test]
fn the_strictest_listener_decides() {
    let mut design = Design::default();
    let far = ListenerPart { limit_dba: 60.0, ..design.listeners[0].clone() };
    design.listeners = vec![far.clone(), design.listeners[0].clone(), far];
    let three = report(&design);
    assert_eq!(three.governing, Some(1));
    let margins: Vec<f64> = three.listeners.iter().map(|heard| heard.judgement.margin_db).collect();
    assert!((margins[0] - margins[1] - 30.0).abs() < 1e-9 && margins[0] == margins[2]);
    assert_eq!(three.stations.listener, Some(three.listeners[1].level));
    design.listeners.clear();
    let nobody = report(&design);
    assert_eq!((nobody.governing, nobody.stations.listener), (None, None));
    assert_eq!(nobody.answer().dba, nobody.stations.room.dba);
}

#[test]
fn the_verdict_is_as_sure_as_the_estimate() {
    for (margin, verdict) in [
        (UNSURE_DB + 0.1, Verdict::Pass),
        (UNSURE_DB - 0.1, Verdict::AtRisk),
        (0.0, Verdict::AtRisk),
        (0.1 - UNSURE_DB, Verdict::AtRisk),
        (-0.1 - UNSURE_DB, Verdict::Fail),
    ] {
        assert_eq!(Verdict::of(margin), verdict, "{margin}");
    }
}

/// Own levels are taken as they are, octaves as well as the thirds that share their energy; a preset is set to its level.
#[test]
fn own_band_levels_are_the_source() {
    let mut design = Design::default();
    design.source.spectrum = SourceSpectrum::Own;
    design.source.own_db = vec![(125.0, 90.0), (250.0, 95.0), (500.0, 92.0)];
    let octaves = report(&design).stations.source;
    let sums = octaves.level_db.octaves();
    assert!((sums[2] - 90.0).abs() < 1e-9 && (sums[3] - 95.0).abs() < 1e-9 && (sums[4] - 92.0).abs() < 1e-9);
    let third = 10.0 * 3.0_f64.log10();
    let thirds = [100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0, 500.0, 630.0];
    design.source.own_db =
        thirds.into_iter().zip([90.0, 90.0, 90.0, 95.0, 95.0, 95.0, 92.0, 92.0, 92.0].map(|db| db - third)).collect();
    assert!((report(&design).stations.source.dba - octaves.dba).abs() < 1e-9);
    design.source.level_dba = 60.0;
    assert!((report(&design).stations.source.dba - octaves.dba).abs() < 1e-9, "a level has no effect on band levels");
}

/// Only what changed is computed again, and what is kept is right: a second listener, another wall and back.
#[test]
fn an_evaluator_that_knows_partitions_gives_the_same_answers() {
    let checked = |change: &dyn Fn(&mut Design)| -> CheckedDesign {
        let mut design = Design::default();
        change(&mut design);
        design.check().expect("sound")
    };
    let mut evaluator = Evaluator::default();
    for partition in [Partition::StudWall, Partition::BrickWall, Partition::StudWall, Partition::SolidDoor] {
        let design = checked(&|design| {
            design.listeners[0].partition = Some(partition);
            design.listeners.push(ListenerPart::default());
        });
        assert_eq!(evaluator.evaluate(&design).digits(), evaluate(&design).digits(), "{partition:?}");
    }
}

#[test]
fn bad_listeners_are_refused_under_their_path() {
    type Spoil = fn(&mut ListenerPart);
    let cases: [(&str, Spoil); 12] = [
        ("listeners[0].area_m2", |l| l.area_m2 = 0.0),
        ("listeners[0].flanking_db", |l| l.flanking_db = -1.0),
        ("listeners[0].distance_m", |l| l.distance_m = 0.1),
        ("listeners[0].room.absorption", |l| l.room.absorption = 2.0),
        ("listeners[0].limit_dba", |l| l.limit_dba = f64::NAN),
        ("listeners[0].limit_nr", |l| l.limit_nr = 500.0),
        ("listeners[0].limit_nc", |l| l.limit_nc = 10.0),
        ("listeners[0].background_dba", |l| l.background_dba = -3.0),
        ("listeners[0].reduction_db", |l| l.partition = None),
        ("listeners[0].reduction_db", |l| l.reduction_db = vec![(125.0, 500.0)]),
        ("listeners[0].background_db", |l| l.background = Background::OwnBands),
        ("listeners[0].name", |l| l.name = "x".repeat(limits::LISTENER_CHARACTERS + 1)),
    ];
    for (path, spoil) in cases {
        let mut design = Design::default();
        spoil(&mut design.listeners[0]);
        let errors = design.check().expect_err(path);
        assert_eq!(errors[0].path, path, "{errors:?}");
    }
    let many = Design { listeners: vec![ListenerPart::default(); limits::LISTENERS + 1], ..Design::default() };
    assert_eq!(many.check().expect_err("too many")[0].path, "listeners");
    let mut design = Design::default();
    (design.source.driver, design.source.level_from) = (None, hushwright::design::LevelFrom::Driver);
    assert_eq!(design.check().expect_err("no driver")[0].path, "source.level_from");
}

fn finite(heard: &ListenerReport) -> bool {
    let judged = &heard.judgement;
    let spectra =
        [&heard.level.level_db, &heard.bare.level_db, &heard.background_db, &judged.required_db, &judged.margin_by_band_db];
    let numbers = [heard.max_dba, heard.bare_margin_db, judged.margin_db, heard.mean_over_period_dba.unwrap_or(0.0)];
    spectra.into_iter().all(Spectrum::is_finite) && numbers.into_iter().all(f64::is_finite)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Whatever the check lets through: finite numbers, the least margin decides, and a wall of its own never makes it louder
    /// than one that is 10 dB lighter.
    #[test]
    fn every_listener_of_every_design(design in accepted_design()) {
        let report = evaluate(&design.checked);
        prop_assert!(report.listeners.iter().all(finite));
        let margins = || report.listeners.iter().map(|heard| heard.judgement.margin_db);
        prop_assert_eq!(report.governing.is_some(), !report.listeners.is_empty());
        if let Some(k) = report.governing {
            prop_assert!(margins().all(|margin| margin >= report.listeners[k].judgement.margin_db));
        }
        for (heard, part) in report.listeners.iter().zip(&design.document.listeners) {
            prop_assert_eq!(heard.reduction_db.is_some(), part.place.is_parted());
            prop_assert!((dba(&heard.level.level_db) - heard.level.dba).abs() < 1e-9);
            prop_assert!(heard.max_dba >= heard.level.dba);
        }
    }
}

/// A-weighting at exact mid-bands is what the limit by band is made of.
#[test]
fn the_limit_by_band_is_the_limit_less_the_weighting() {
    let level = Spectrum::constant(10.0);
    let judged = criterion(CriterionKind::Dba).judge(&heard(level, level));
    for band in 0..BAND_COUNT {
        assert!((judged.limit_db[band] - (30.0 - Weighting::A.db(exact_mid_hz(band)))).abs() < 1e-12);
    }
}
