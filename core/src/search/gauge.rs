//! How good a design is, as one number that is linear in the energy it lets out.
//!
//! Every criterion compares sums of energies with limits: an A-weighted one all bands with one limit, a curve each octave with its
//! own, "not to be heard" each band by itself. So the margin of a listener is -10 lg of the largest sum of w r over such a group, r the
//! energy ratio of a band and w the energy that the bare source would bring there over the limit; and the merit of a design, the
//! least margin of all listeners ([`Report::merit_db`]), is that of the largest of all groups.

use crate::bands::{BAND_COUNT, Spectrum, Weighting};
use crate::design::CheckedDesign;
use crate::enclosure::power_from_level_db;
use crate::evaluate::{ListenerReport, Report};
use crate::math::{from_db, to_db};
use crate::need::{CriterionKind, room_level_db};

/// Sums of energies over their limits.
#[derive(Clone, Debug)]
pub(super) struct Gauge {
    groups: Vec<Group>,
}

/// Neighbouring bands whose energies add.
#[derive(Clone, Debug)]
struct Group {
    first: usize,
    weights: Vec<f64>,
}

impl Gauge {
    /// The gauge of `design`, whose full `report` says who listens and what each may hear.
    pub(super) fn new(design: &CheckedDesign, report: &Report) -> Self {
        let mut groups: Vec<Group> = report.listeners.iter().flat_map(of_listener).collect();
        if groups.is_empty() {
            let bare_db = room_level_db(&power_from_level_db(&design.source_db), &design.room);
            groups.push(Group::new(0, &bare_db.zip(&Weighting::A.spectrum(), |level, weight| level + weight), 0.0, BAND_COUNT));
        }
        Self { groups }
    }

    /// Merit in dB of a box that lets out these parts of the source's power, by band.
    pub(super) fn merit_db(&self, ratios: &Spectrum) -> f64 {
        let sum = |group: &Group| {
            let ratios = &ratios.0[group.first..group.first + group.weights.len()];
            ratios.iter().zip(&group.weights).map(|(ratio, weight)| ratio * weight).sum::<f64>()
        };
        -to_db(self.groups.iter().map(sum).fold(f64::MIN_POSITIVE, f64::max))
    }
}

impl Group {
    /// `count` bands from `first` on, whose levels without a box are `bare_db`, against `limit_db`.
    fn new(first: usize, bare_db: &Spectrum, limit_db: f64, count: usize) -> Self {
        Self { first, weights: (first..first + count).map(|band| from_db(bare_db[band] - limit_db)).collect() }
    }
}

fn of_listener(listener: &ListenerReport) -> Vec<Group> {
    let bare_db = &listener.bare.level_db;
    let judgement = &listener.judgement;
    if let Some(limit) = judgement.dba {
        let weighted_db = bare_db.zip(&Weighting::A.spectrum(), |level, weight| level + weight);
        return vec![Group::new(0, &weighted_db, limit.level_dba, BAND_COUNT)];
    }
    let limit_db = &judgement.limit_db;
    match listener.criterion {
        // The limit of a third is an octave's, shared evenly.
        CriterionKind::Nr | CriterionKind::Nc => (judgement.first_band..BAND_COUNT)
            .step_by(3)
            .map(|first| Group::new(first, bare_db, limit_db[first] + to_db(3.0), 3))
            .collect(),
        CriterionKind::Inaudible | CriterionKind::Dba | CriterionKind::Who => {
            (0..BAND_COUNT).map(|band| Group::new(band, bare_db, limit_db[band], 1)).collect()
        }
    }
}
