//! What lets the sound out, in words.

use hushwright::bands::NOMINAL_HZ;
use hushwright::design::Design;
use hushwright::evaluate::{Cause, Path, PathKey, Report};

use crate::quantity::{decimal, level_dba, whole};
use crate::readings::frequency;
use crate::words::support_name;

/// Name of a path.
pub const fn name(key: PathKey) -> &'static str {
    match key {
        PathKey::Walls => "walls",
        PathKey::Leaks => "leaks",
        PathKey::Holes => "holes",
        PathKey::Suspension => "suspension",
        PathKey::Vents => "vents",
        PathKey::Motion => "motion",
    }
}

/// Shares in percent as they are shown: they add up to 100, but for those below a half, which are told as less than one. What
/// is all but such a rest is not all.
pub fn percents(shares: &[f64]) -> Vec<String> {
    let mut whole: Vec<f64> = shares.iter().map(|share| (100.0 * share).floor()).collect();
    // What is missing goes to those that lost most, once to each; less than a half stays less than one.
    while whole.iter().sum::<f64>() < 100.0 {
        let lost = |k: usize| if shares[k] < 0.005 { 0.0 } else { 100.0 * shares[k] - whole[k] };
        let most = (0..shares.len()).max_by(|&a, &b| lost(a).total_cmp(&lost(b)));
        let Some(most) = most.filter(|&k| lost(k) > 0.0) else { break };
        whole[most] += 1.0;
    }
    let words = |(&share, &whole): (&f64, &f64)| match (share > 0.0, share < 1.0) {
        (true, true) if whole == 0.0 => "<1".to_owned(),
        (true, true) if whole >= 100.0 => ">99".to_owned(),
        _ => decimal(whole, 0),
    };
    shares.iter().zip(&whole).map(words).collect()
}

/// The shares of the paths of `report` in the A-weighted sound, or in a band, as they are shown.
pub fn shown_shares(report: &Report, band: Option<usize>) -> Vec<String> {
    let share = |path: &Path| band.map_or(path.share_dba, |band| path.share[band]);
    percents(&report.paths.iter().map(share).collect::<Vec<_>>())
}

/// The share of the limiting path, as it is shown beside the others.
fn limiting_share(report: &Report) -> String {
    let place = report.paths.iter().position(|path| path.key == report.limiting.path);
    let shown = place.map(|place| shown_shares(report, None).swap_remove(place));
    let shown = shown.unwrap_or_else(|| whole(100.0 * report.limiting.share));
    shown.replace('>', "over ")
}

/// Where most of the sound gets out, in one line beside the answer.
pub fn in_short(report: &Report) -> String {
    format!("Most gets out by {}.", way_out(report))
}

/// The way by which most of the sound gets out, how much of it, and where it is loudest.
pub fn way_out(report: &Report) -> String {
    let limiting = &report.limiting;
    let way = match limiting.path {
        PathKey::Walls => "the walls",
        PathKey::Leaks => "the edge of the lid",
        PathKey::Holes => "the holes",
        PathKey::Suspension => "what holds the inner box",
        PathKey::Vents => "the vents",
        PathKey::Motion => "the box that shakes as a whole",
    };
    format!("{way}, {}\u{a0}%, loudest at {}", limiting_share(report), hertz(limiting.band))
}

/// What happens on the limiting path in its loudest band.
pub fn why(report: &Report, design: &Design) -> String {
    let at = hertz(report.limiting.band);
    let share = limiting_share(report);
    let (one, two) = (design.outer.is_none(), design.outer.is_some());
    let happens = match (report.limiting.path, report.limiting.cause) {
        (PathKey::Walls, Cause::OuterPanels) => {
            "the outer panels resonate, and neither their mass nor their stiffness helps".to_owned()
        }
        (PathKey::Walls, Cause::InnerPanels) if one => {
            "the panels resonate, and neither their mass nor their stiffness helps".to_owned()
        }
        (PathKey::Walls, Cause::InnerPanels) => {
            "the inner panels resonate, and neither their mass nor their stiffness helps".to_owned()
        }
        (PathKey::Walls, Cause::MassAirMass) => {
            "the two boxes bounce on the air between them (mass-air-mass resonance)".to_owned()
        }
        (PathKey::Walls, Cause::Coincidence) => "bending waves in the boards run as fast as the sound (coincidence)".to_owned(),
        (PathKey::Walls, Cause::None) => "the walls are what the sound goes through, by their mass alone".to_owned(),
        (PathKey::Leaks, _) => "the sound slips through the edge of the lid".to_owned(),
        (PathKey::Holes, _) => "the sound slips through the holes".to_owned(),
        (PathKey::Suspension, _) => format!("the {} carry the shaking into the outer box", support_name(design.suspension.kind)),
        (PathKey::Vents, _) => "the sound comes out of the vents".to_owned(),
        (PathKey::Motion, _) if two => "the recoil of the driver shakes the inner box, which pumps the air of the gap".to_owned(),
        (PathKey::Motion, _) => "the recoil of the driver shakes the whole box".to_owned(),
    };
    format!("At {at} {happens}. This way goes {share}\u{a0}% of all that is heard.")
}

/// Where the answer is heard.
const fn where_heard(report: &Report) -> &'static str {
    if report.governing.is_some() { "at the listener" } else { "in the room" }
}

/// What the corners decide.
pub fn corners([loose, firm]: [f64; 2], report: &Report) -> Option<String> {
    let (low, high) = (loose.min(firm), loose.max(firm));
    (high - low >= 1.0).then(|| {
        format!(
            "How firmly the corners hold the panels is hard to know: between loose and very firm corners it lies between {} and {}\u{a0}dBA {}.",
            level_dba(low),
            level_dba(high),
            where_heard(report)
        )
    })
}

fn hertz(band: usize) -> String {
    frequency(NOMINAL_HZ[band]).replace(' ', "\u{a0}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use hushwright::evaluate::{Limiting, evaluate};

    fn report(design: &Design) -> Report {
        evaluate(&design.check().unwrap())
    }

    #[test]
    fn the_sentence_names_path_band_and_share() {
        let design = Design::default();
        let report = report(&design);
        let sentence = why(&report, &design);
        assert!(sentence.contains("160\u{a0}Hz") && sentence.contains("outer panels resonate"), "{sentence}");
        assert!(in_short(&report).contains("walls"), "{}", in_short(&report));
    }

    #[test]
    fn every_path_and_cause_has_its_sentence() {
        let mut seen = Vec::new();
        for outer in [true, false] {
            let mut design = Design::default();
            if !outer {
                design.outer = None;
            }
            let mut report = report(&design);
            for path in PathKey::ALL {
                for cause in [Cause::None, Cause::InnerPanels, Cause::OuterPanels, Cause::MassAirMass, Cause::Coincidence] {
                    report.limiting = Limiting { path, cause, band: 8, share: 0.5 };
                    let sentence = why(&report, &design);
                    // The share is that of the box at hand.
                    seen.push(sentence.split(" This way").next().unwrap_or_default().to_owned());
                }
            }
        }
        seen.sort_unstable();
        seen.dedup();
        assert_eq!(seen.len(), 12, "{seen:#?}");
    }

    #[test]
    fn shown_shares_add_up_and_none_is_all_while_others_are_there() {
        assert_eq!(percents(&[0.9162, 0.006, 0.0017, 0.0761]), ["92", "<1", "<1", "8"]);
        assert_eq!(percents(&[0.998, 0.002, 0.0]), [">99", "<1", "0"]);
        assert_eq!(percents(&[0.989, 0.004, 0.004, 0.003]), ["99", "<1", "<1", "<1"]);
        assert_eq!(percents(&[0.9925, 0.003, 0.003, 0.0015]), [">99", "<1", "<1", "<1"]);
        assert_eq!(percents(&[1.0]), ["100"]);
        assert_eq!(percents(&[0.3333, 0.3333, 0.3334]), ["33", "33", "34"]);
        for step in 0..5000 {
            let parts = [1.0, 0.37 * f64::from(step % 61), 0.29 * f64::from(step % 83), 0.011 * f64::from(step % 53)];
            let shares = parts.map(|part| part / parts.iter().sum::<f64>());
            let shown = percents(&shares);
            let small = shown.iter().filter(|text| text.starts_with('<')).count() as f64;
            let sum: f64 = shown.iter().filter_map(|text| text.parse::<f64>().ok()).sum();
            let nearly_all = shown.contains(&">99".to_owned());
            assert!(sum == 100.0 || nearly_all || sum < 100.0 && sum + small >= 100.0, "{shares:?} {shown:?}");
            assert!(!nearly_all || shares.iter().any(|share| *share > 0.99), "{shares:?} {shown:?}");
            for (share, text) in shares.iter().zip(&shown) {
                let number = text.trim_start_matches(['<', '>']).parse::<f64>().unwrap();
                assert!((number - 100.0 * share).abs() <= 1.0 + 1e-9, "{shares:?} {shown:?}");
            }
        }
    }

    #[test]
    fn corners_are_told_where_they_count() {
        let report = report(&Design::default());
        assert!(corners([70.0, 60.0], &report).expect("they count").contains("between 60 and 70"));
        assert_eq!(corners([60.2, 60.0], &report), None);
    }
}
