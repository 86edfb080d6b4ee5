//! Sentences about a report: what is loudest, why two readings differ, what to be careful with.

use hushwright::bands::{BAND_COUNT, NOMINAL_HZ, Spectrum, Weighting};
use hushwright::design::Design;
use hushwright::evaluate::Report;

use crate::quantity::{Units, level_dba, whole};

/// What the estimate leaves out; stands beside the answer.
pub const LEFT_OUT_SHORT: &str = "Walls only: leaks, lid, suspension not counted yet.";

/// What the estimate leaves out, in full.
pub const LEFT_OUT: [&str; 4] = [
    "Leaks: gaps at the lid, seals, cable holes.",
    "The suspension: what springs or feet carry across the gap.",
    "Single resonances of panels and of the air inside, below about 200 Hz.",
    "Whoever is next door: the room here is the one the box stands in.",
];

/// Mass in kg that one person should lift at most; common practice, no source.
const LIFT_KG: f64 = 25.0;
/// How many people find a place round a box.
const MOST_PEOPLE: f64 = 6.0;
/// Load in kPa that dwelling floors are usually designed for, lower end; common practice, no source.
const FLOOR_KPA: f64 = 1.5;
/// Standard acceleration of free fall in m/s2 (ISO 80000-3).
const FREE_FALL: f64 = 9.806_65;
/// A-weighted level in dB above which hearing is at risk within a working day (NIOSH 1998, criteria document 98-126).
const HEARING_DBA: f64 = 85.0;

/// A frequency as a chart or sentence names it.
pub fn frequency(hz: f64) -> String {
    if hz >= 1000.0 { format!("{} kHz", hz / 1000.0) } else { format!("{hz} Hz") }
}

/// The band that carries most of an A-weighted sound, and its share of the energy.
pub fn loudest_band(level_db: &Spectrum) -> (usize, f64) {
    let weighted = level_db.zip(&Weighting::A.spectrum(), |level, weight| level + weight);
    let total = weighted.energy_sum();
    let share = |band: usize| hushwright::math::from_db(weighted[band] - total);
    let band = (0..BAND_COUNT).max_by(|&a, &b| weighted[a].total_cmp(&weighted[b])).unwrap_or(0);
    (band, share(band))
}

/// What is left to hear in the room.
pub fn what_is_left(report: &Report) -> String {
    let (band, share) = loudest_band(&report.stations.room.level_db);
    let pitch = match NOMINAL_HZ[band] {
        ..125.0 => "a deep boom",
        125.0..400.0 => "a low hum",
        400.0..1600.0 => "in the range of voices",
        _ => "bright, a hiss",
    };
    format!(
        "What is left to hear in the room is {pitch}: the band at {} alone carries {}\u{a0}% of it.",
        frequency(NOMINAL_HZ[band]).replace(' ', "\u{a0}"),
        whole(100.0 * share)
    )
}

/// Why the level difference is not the insertion loss.
pub fn why_they_differ(report: &Report) -> String {
    let difference = whole(report.level_difference_dba);
    let loss = whole(report.insertion_loss_dba);
    // Their difference is exactly what builds up inside over the level at 1 m, and what spreading from 1 m on takes away.
    let build_up = report.stations.inside.dba - report.stations.source.dba;
    let spreading = report.level_difference_dba - report.insertion_loss_dba - build_up;
    let readings = format!(
        "A meter held inside, then outside reads the level difference, {difference} dB; the box itself brings the insertion loss, {loss} dB."
    );
    let distance = format!("{} dB are distance: outside it is farther from the source.", whole(spreading));
    if build_up >= 0.5 {
        format!(
            "{readings} Of what lies between, {} dB is sound that builds up because it is shut in; {distance}",
            whole(build_up)
        )
    } else if build_up <= -0.5 {
        format!("{readings} The lined inside is {} dB quieter than it is 1 m from the open source; {distance}", whole(-build_up))
    } else {
        format!("{readings} The lining takes up what being shut in would add; {distance}")
    }
}

/// What the room adds to the level in the open, where it does.
pub fn room_gives_back(report: &Report) -> Option<String> {
    let added = report.stations.room.dba.round() - report.stations.outside.dba.round();
    (added >= 1.0).then(|| {
        format!(
            "Walls, floor and ceiling give the sound back: {} dB more at the ear than in the open at 1 m. More absorption lowers it.",
            whole(added)
        )
    })
}

/// The answer as it is read out.
pub fn spoken(report: &Report) -> String {
    format!(
        "{} dBA in the room, {} dBA outside the box, insertion loss {} dB.",
        level_dba(report.stations.room.dba),
        level_dba(report.stations.outside.dba),
        whole(report.insertion_loss_dba)
    )
}

/// The cautions that this design calls for.
pub fn cautions(design: &Design, report: &Report, units: Units) -> Vec<String> {
    let mut cautions = Vec::new();
    let mass_kg = report.bill.mass_kg;
    if mass_kg > LIFT_KG {
        let people = (mass_kg / LIFT_KG).ceil();
        let lifting =
            if people <= MOST_PEOPLE { format!("{people} people or a hoist") } else { "a hoist, or in parts".to_owned() };
        cautions.push(format!("{}: lift it with {lifting}, nobody’s hand under it. Lids pinch and fall.", units.mass(mass_kg)));
    }
    let [length, width, _] = report.outside_m;
    let load_kpa = mass_kg * FREE_FALL / (length * width) / 1000.0;
    if load_kpa > FLOOR_KPA {
        let load = match units {
            Units::Metric => format!("{load_kpa:.1} kPa"),
            // 1 lb/ft2 is 0.047880 kPa, from the pound, the foot and free fall.
            Units::Imperial => format!("{:.0} lb/ft²", load_kpa / 0.047_880),
        };
        cautions.push(format!(
            "{load} on the floor under it: more than many dwelling floors are built for. Ask a structural engineer."
        ));
    }
    let (source, inside) = (report.stations.source.dba, report.stations.inside.dba);
    if source.max(inside) > HEARING_DBA {
        cautions.push(format!(
            "{} dBA at 1 m with the lid open, {} inside: protect your ears. No person and no animal in the box.",
            whole(source),
            whole(inside)
        ));
    }
    cautions.push(
        "Shut in, heat stays in: no valve amplifier and nothing that needs cooling inside. Keep cables to local code.".to_owned(),
    );
    if design.inner.lining.is_some() || (design.outer.is_some() && design.gap.fill.is_some()) {
        cautions.push("Mineral wool and board dust: mask, gloves, and keep wool away from anything hot.".to_owned());
    } else {
        cautions.push("Board dust: wear a mask when cutting.".to_owned());
    }
    cautions
}

#[cfg(test)]
mod tests {
    use super::*;
    use hushwright::evaluate::evaluate;

    fn report(design: &Design) -> Report {
        evaluate(&design.check().unwrap())
    }

    #[test]
    fn the_loudest_band_is_that_of_a_lone_tone() {
        let mut levels = Spectrum::constant(0.0);
        levels[8] = 80.0;
        let (band, share) = loudest_band(&levels);
        assert_eq!(band, 8);
        assert!(share > 0.99 && share <= 1.0);
    }

    #[test]
    fn the_sentence_on_the_difference_matches_its_sign() {
        let mut report = report(&Design::default());
        report.stations.source.dba = 100.0;
        report.stations.inside.dba = 104.0;
        report.insertion_loss_dba = 40.0;
        report.level_difference_dba = 47.0;
        let text = why_they_differ(&report);
        assert!(text.contains("47 dB") && text.contains("40 dB"), "{text}");
        assert!(text.contains("4 dB is sound that builds up") && text.contains("3 dB are distance"), "{text}");
        report.stations.inside.dba = 98.0;
        assert!(why_they_differ(&report).contains("2 dB quieter"));
        report.stations.inside.dba = 100.2;
        assert!(why_they_differ(&report).contains("takes up"));
    }

    #[test]
    fn cautions_come_where_they_apply() {
        let mut design = Design::default();
        let heavy = cautions(&design, &report(&design), Units::Metric).join("\n");
        assert!(heavy.contains("people or a hoist") && heavy.contains("kPa") && heavy.contains("protect your ears"), "{heavy}");
        let imperial = cautions(&design, &report(&design), Units::Imperial).join("\n");
        assert!(imperial.contains("lb/ft²") && imperial.contains(" lb:"), "{imperial}");
        design.outer = None;
        design.inner.lining = None;
        design.source.level_dba = 40.0;
        design.inner.length_mm = 300.0;
        design.inner.width_mm = 300.0;
        design.inner.height_mm = 300.0;
        let small = cautions(&design, &report(&design), Units::Metric).join("\n");
        assert!(!small.contains("hoist") && !small.contains("kPa") && small.contains("heat"), "{small}");
    }

    #[test]
    fn frequencies_are_named_as_on_a_meter() {
        assert_eq!(frequency(31.5), "31.5 Hz");
        assert_eq!(frequency(1250.0), "1.25 kHz");
        assert_eq!(frequency(10000.0), "10 kHz");
    }
}
