//! The whole estimate of a box: a design document in, stations, paths and masses out, as JSON.
//!
//! `cargo run -q --release -p hushwright-core --example estimate < design.json`; an empty object is the first example.

mod support;

use std::collections::BTreeMap;
use std::process::ExitCode;

use hushwright::bands::{NOMINAL_HZ, Spectrum};
use hushwright::design::Design;
use hushwright::enclosure::Loaded;
use hushwright::error::FieldError;
use hushwright::evaluate::{Cause, ListenerReport, Path, Report, Verdict, evaluate};
use hushwright::rating::CriterionRating;
use hushwright::uncertainty::{ListenerRange, Ranges, SAMPLES, Sampling};
use hushwright::workshop::{Plan, plan};
use serde::Serialize;

/// What is printed; keys that are absent are not computed for this design.
#[derive(Serialize)]
struct Output {
    bands_hz: Vec<f64>,
    insertion_loss_db: Vec<f64>,
    level_difference_db: Vec<f64>,
    sound_reduction_db: Vec<f64>,
    insertion_loss_dba: f64,
    level_difference_dba: f64,
    paths: BTreeMap<&'static str, PathOutput>,
    limiting: LimitingOutput,
    stations: BTreeMap<&'static str, StationOutput>,
    #[serde(skip_serializing_if = "Option::is_none")]
    listener_dba: Option<f64>,
    /// In 1 of 10 cases it is less.
    #[serde(skip_serializing_if = "Option::is_none")]
    listener_dba_low: Option<f64>,
    /// In 1 of 10 cases it is more.
    #[serde(skip_serializing_if = "Option::is_none")]
    listener_dba_high: Option<f64>,
    /// Part of all cases in which every listener's limit is met.
    #[serde(skip_serializing_if = "Option::is_none")]
    chance_met: Option<f64>,
    /// Part of the variance of the answer that goes with each unknown.
    variance_shares: BTreeMap<&'static str, f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    limit_dba: Option<f64>,
    listeners: Vec<ListenerOutput>,
    /// Place in `listeners` of the one who decides.
    #[serde(skip_serializing_if = "Option::is_none")]
    governing: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    floor_borne: Option<StationOutput>,
    #[serde(skip_serializing_if = "Option::is_none")]
    suspension: Option<LoadOutput>,
    #[serde(skip_serializing_if = "Option::is_none")]
    feet: Option<LoadOutput>,
    #[serde(skip_serializing_if = "Option::is_none")]
    vents: Option<VentOutput>,
    room_without_box_dba: f64,
    first_chamber_mode_hz: f64,
    network_below_hz: f64,
    mass_kg: f64,
    cost: f64,
    /// Whether some material has no price, so that `cost` is too low.
    cost_incomplete: bool,
    outer_mm: [f64; 3],
    /// Whether the whole passes the way that the document gives.
    fits_door: bool,
    /// What the shopping list comes to, with tax.
    to_buy: f64,
    /// Hours of work.
    hours: f64,
}

#[derive(Serialize)]
struct PathOutput {
    insertion_loss_db: Vec<f64>,
    insertion_loss_dba: f64,
    share: Vec<f64>,
    share_dba: f64,
}

#[derive(Serialize)]
struct LimitingOutput {
    path: &'static str,
    band_hz: f64,
    share_dba: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    cause: Option<&'static str>,
}

#[derive(Serialize)]
struct StationOutput {
    level_db: Vec<f64>,
    dba: f64,
}

/// What a listener hears; of bands, those that the criterion says something about.
#[derive(Serialize)]
struct ListenerOutput {
    name: String,
    level_db: Vec<f64>,
    dba: f64,
    max_dba: f64,
    without_box_db: Vec<f64>,
    without_box_dba: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    mean_over_period_dba: Option<f64>,
    /// Rating of the level; absent outside the family of curves.
    #[serde(skip_serializing_if = "Option::is_none")]
    nr: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    nc: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    reduction_db: Option<Vec<f64>>,
    background_db: Vec<f64>,
    criterion: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    limit_dba: Option<f64>,
    limit_bands_hz: Vec<f64>,
    limit_db: Vec<f64>,
    required_reduction_db: Vec<f64>,
    margin_by_band_db: Vec<f64>,
    margin_db: f64,
    without_box_margin_db: f64,
    governing_band_hz: f64,
    dba_low: f64,
    dba_high: f64,
    chance_met: f64,
    verdict: &'static str,
}

#[derive(Serialize)]
struct LoadOutput {
    load_each_kg: f64,
    working_load_kg: f64,
    sag_mm: f64,
    natural_hz: f64,
}

#[derive(Serialize)]
struct VentOutput {
    flow_m3_h: f64,
    speed_m_s: f64,
}

fn main() -> ExitCode {
    support::run(|design: Design| {
        let checked = design.check().map_err(|mut errors| errors.swap_remove(0))?;
        let mut sampling = Sampling::new(&checked, SAMPLES);
        while sampling.step() {}
        let ranges = sampling.finish().ok_or_else(|| FieldError::new("", "not all samples could be taken"))?;
        let output = output(&design, &evaluate(&checked), &ranges, &plan(&checked)?);
        if output.is_finite() {
            Ok(output)
        } else {
            Err(FieldError::new("", "the levels of this design are beyond what numbers hold"))
        }
    })
}

impl Output {
    fn is_finite(&self) -> bool {
        let stations =
            self.stations.values().chain(&self.floor_borne).flat_map(|station| station.level_db.iter().chain([&station.dba]));
        let losses = self.insertion_loss_db.iter().chain(&self.level_difference_db).chain([&self.insertion_loss_dba]);
        let heard = self.listeners.iter().flat_map(|heard| heard.margin_by_band_db.iter().chain(&heard.required_reduction_db));
        let ranges = self.listeners.iter().flat_map(|heard| [&heard.dba_low, &heard.dba_high]);
        stations.chain(losses).chain(heard).chain(ranges).all(|number| number.is_finite())
    }
}

fn list(spectrum: &Spectrum) -> Vec<f64> {
    spectrum.iter().collect()
}

fn listener(name: &str, heard: &ListenerReport, range: &ListenerRange) -> ListenerOutput {
    let judgement = &heard.judgement;
    let limited = |spectrum: &Spectrum| spectrum.iter().skip(judgement.first_band).collect();
    let number = |rating: CriterionRating| match rating {
        CriterionRating::At { value, .. } => Some(value),
        CriterionRating::Below(_) | CriterionRating::Above(_) => None,
    };
    ListenerOutput {
        name: name.to_owned(),
        level_db: list(&heard.level.level_db),
        dba: heard.level.dba,
        max_dba: heard.max_dba,
        without_box_db: list(&heard.bare.level_db),
        without_box_dba: heard.bare.dba,
        mean_over_period_dba: heard.mean_over_period_dba,
        nr: number(heard.nr),
        nc: number(heard.nc),
        reduction_db: heard.reduction_db.as_ref().map(list),
        background_db: list(&heard.background_db),
        criterion: heard.criterion.key(),
        limit_dba: judgement.dba.map(|limit| limit.level_dba),
        limit_bands_hz: NOMINAL_HZ[judgement.first_band..].to_vec(),
        limit_db: limited(&judgement.limit_db),
        required_reduction_db: limited(&judgement.required_db),
        margin_by_band_db: limited(&judgement.margin_by_band_db),
        margin_db: judgement.margin_db,
        without_box_margin_db: heard.bare_margin_db,
        governing_band_hz: NOMINAL_HZ[judgement.band],
        dba_low: range.level.dba.low,
        dba_high: range.level.dba.high,
        chance_met: range.chance_met,
        verdict: Verdict::within(range.margin_db.low, range.margin_db.high).key(),
    }
}

fn output(design: &Design, report: &Report, ranges: &Ranges, plan: &Plan) -> Output {
    let stations = &report.stations;
    let stations_listener = stations.listener;
    let gap = stations.gap.as_ref().map(|gap| ("gap", gap));
    let stations = [("source", &stations.source), ("inside", &stations.inside)]
        .into_iter()
        .chain(gap)
        .chain([("outside", &stations.outside), ("room", &stations.room)])
        .chain(stations.listener.as_ref().map(|listener| ("listener", listener)))
        .map(|(key, station)| (key, StationOutput { level_db: list(&station.level_db), dba: station.dba }));
    let path = |path: &Path| {
        let output = PathOutput {
            insertion_loss_db: list(&path.insertion_loss_db),
            insertion_loss_dba: path.insertion_loss_dba,
            share: list(&path.share),
            share_dba: path.share_dba,
        };
        (path.key.key(), output)
    };
    let load = |loaded: Loaded| LoadOutput {
        load_each_kg: loaded.load_each_kg,
        working_load_kg: loaded.working_load_kg,
        sag_mm: 1000.0 * loaded.sag_m,
        natural_hz: loaded.natural_hz,
    };
    let cause = match report.limiting.cause {
        Cause::InnerPanels => Some("inner-panels"),
        Cause::OuterPanels => Some("outer-panels"),
        Cause::MassAirMass => Some("mass-air-mass"),
        Cause::Coincidence => Some("coincidence"),
        Cause::None => None,
    };
    let decisive = report.governing.map(|k| &ranges.listeners[k]);
    let heard = design.listeners.iter().zip(&report.listeners).zip(&ranges.listeners);
    let listeners = heard.map(|((part, heard), range)| listener(&part.name, heard, range));
    Output {
        bands_hz: NOMINAL_HZ.to_vec(),
        insertion_loss_db: list(&report.insertion_loss_db),
        level_difference_db: list(&report.level_difference_db),
        sound_reduction_db: list(&report.sound_reduction_db),
        insertion_loss_dba: report.insertion_loss_dba,
        level_difference_dba: report.level_difference_dba,
        paths: report.paths.iter().map(path).collect(),
        limiting: LimitingOutput {
            path: report.limiting.path.key(),
            band_hz: NOMINAL_HZ[report.limiting.band],
            share_dba: report.limiting.share,
            cause,
        },
        stations: stations.collect(),
        listener_dba: stations_listener.map(|listener| listener.dba),
        listener_dba_low: decisive.map(|range| range.level.dba.low),
        listener_dba_high: decisive.map(|range| range.level.dba.high),
        chance_met: ranges.chance_met,
        variance_shares: ranges.shares.iter().map(|(unknown, share)| (unknown.key(), *share)).collect(),
        limit_dba: report.decisive().and_then(|heard| heard.judgement.dba).map(|limit| limit.level_dba),
        listeners: listeners.collect(),
        governing: report.governing,
        floor_borne: report.floor_borne.map(|floor| StationOutput { level_db: list(&floor.level_db), dba: floor.dba }),
        suspension: report.suspension.map(load),
        feet: report.feet.map(load),
        vents: report.vent_flow.map(|flow| VentOutput { flow_m3_h: 3600.0 * flow.flow_m3_s, speed_m_s: flow.speed_m_s }),
        room_without_box_dba: report.room_without_box_dba,
        first_chamber_mode_hz: report.first_chamber_mode_hz,
        network_below_hz: report.network_below_hz,
        mass_kg: report.bill.mass_kg,
        cost: report.bill.cost,
        cost_incomplete: report.bill.cost_incomplete,
        outer_mm: report.outside_m.map(|side_m| 1000.0 * side_m),
        fits_door: plan.carrying.first().and_then(|whole| whole.passage.as_ref()).is_some_and(|passage| passage.passes),
        to_buy: plan.money.all(),
        hours: plan.hours,
    }
}
