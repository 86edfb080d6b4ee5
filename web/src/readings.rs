//! Sentences about a report: what is loudest, why two readings differ, what to be careful with.

use hushwright::bands::{BAND_COUNT, NOMINAL_HZ, Spectrum, Weighting};
use hushwright::design::{Design, SupportPart};
use hushwright::enclosure::{FREE_FALL, Floor, Loaded, Spring, SupportKind, TEMPERATURE_RISE_K, VentFlow};
use hushwright::evaluate::Report;

use crate::need_readings::short_level;
use crate::quantity::{Units, decimal, level_dba, whole};
use crate::words::{capital, support_gist};

/// What the estimate leaves out.
pub fn left_out(report: &Report) -> [String; 3] {
    let about = |hz| frequency(two_digits(hz)).replace(' ', "\u{a0}");
    [
        "What reaches a listener through the frame of the house: the box’s shaking is told on its own, at the floor.".to_owned(),
        format!(
            "How sure the estimate is. Below about {} it takes air and panels as springs and masses, above about {} as many waves at once; between the two (hatched) neither holds well, and the lower of both counts.",
            about(report.network_below_hz),
            about(2.0 * report.network_below_hz)
        ),
        "Gaps that open with the years, boards that warp, seals not pressed all round.".to_owned(),
    ]
}

/// `value` rounded to two digits that count.
fn two_digits(value: f64) -> f64 {
    let mut scale = 1.0;
    while value / scale >= 100.0 {
        scale *= 10.0;
    }
    (value / scale).round() * scale
}

/// Mass in kg that one person should lift at most; common practice, no source.
const LIFT_KG: f64 = 25.0;
/// How many people find a place round a box.
const MOST_PEOPLE: f64 = 5.0;
/// Load in kPa that dwelling floors are usually designed for, lower end; common practice, no source.
const FLOOR_KPA: f64 = 1.5;
/// Breaking load over working load; common practice, no source.
const SAFETY: f64 = 5.0;
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

/// What is left to hear for the listener who decides, or else in the room.
pub fn what_is_left(report: &Report) -> String {
    let heard = report.answer();
    if heard.dba.round() < 0.0 {
        return "Nothing is left to hear: what arrives is below 0\u{a0}dBA.".to_owned();
    }
    let (band, share) = loudest_band(&heard.level_db);
    let pitch = match NOMINAL_HZ[band] {
        ..125.0 => "a deep boom",
        125.0..400.0 => "a low hum",
        400.0..1600.0 => "in the range of voices",
        _ => "bright, a hiss",
    };
    format!(
        "What is left to hear is {pitch}: the band at {} alone carries {}\u{a0}% of it.",
        frequency(NOMINAL_HZ[band]).replace(' ', "\u{a0}"),
        whole(100.0 * share)
    )
}

/// How loud the room is without the box, in whole dBA: what is shown of the room and of the insertion loss, added up.
pub fn without_the_box(report: &Report) -> f64 {
    let room = report.stations.room.dba.round();
    // Below 0 dBA the sum would show too much; there the level itself is right.
    if room < 0.0 { report.room_without_box_dba.round() } else { room + report.insertion_loss_dba.round() }
}

/// The level difference as it is shown: that of the two levels shown, where both are.
pub fn level_difference(report: &Report) -> f64 {
    let (inside, outside) = (report.stations.inside.dba.round(), report.stations.outside.dba.round());
    if inside < 0.0 || outside < 0.0 { report.level_difference_dba.round() } else { inside - outside }
}

/// What lies between level difference and insertion loss, in whole dB that add up to what is shown of the two: what builds
/// up inside over the level at 1 m, and what spreading from 1 m on takes away.
fn between(report: &Report) -> (f64, f64) {
    let total = level_difference(report) - report.insertion_loss_dba.round();
    let build_up = (report.stations.inside.dba - report.stations.source.dba).round();
    // Spreading takes away; where rounding would turn it round, the build-up gives way.
    let spreading = (total - build_up).max(0.0);
    (total - spreading, spreading)
}

/// Why the level difference is not the insertion loss.
pub fn why_they_differ(report: &Report, units: Units) -> String {
    let (build_up, spreading) = between(report);
    let readings = format!(
        "A meter held inside, then outside reads the level difference, {} dB; the box itself brings the insertion loss, {} dB.",
        whole(level_difference(report)),
        whole(report.insertion_loss_dba)
    );
    let distance = if spreading > 0.0 {
        format!("{} dB is distance: outside it is farther from the source.", whole(spreading))
    } else {
        "the distance hardly counts, outside is about as far from the source.".to_owned()
    };
    if build_up > 0.0 {
        format!(
            "{readings} Of what lies between, {} dB is sound that builds up because it is shut in; {distance}",
            whole(build_up)
        )
    } else if build_up < 0.0 {
        format!(
            "{readings} The lined inside is {} dB quieter than it is {} from the open source; {distance}",
            whole(-build_up),
            units.reference_distance()
        )
    } else {
        format!("{readings} The lining takes up what being shut in would add; {distance}")
    }
}

/// Where the gap is louder than the inside, if it is: what happens there.
pub fn resonance_in_the_gap(report: &Report) -> Option<String> {
    let gap = report.stations.gap.as_ref()?;
    let over = gap.level_db.zip(&report.stations.inside.level_db, |gap, inside| gap - inside);
    let band = (0..BAND_COUNT).max_by(|&a, &b| over[a].total_cmp(&over[b]))?;
    (over[band] >= 0.5).then(|| {
        format!(
            "At about {} it is louder in the gap than inside: there the two boxes bounce on the air between them (mass-air-mass resonance).",
            frequency(NOMINAL_HZ[band]).replace(' ', "\u{a0}")
        )
    })
}

/// What the room adds to the level in the open, where it does.
pub fn room_gives_back(report: &Report, units: Units) -> Option<String> {
    let added = report.stations.room.dba.round() - report.stations.outside.dba.round();
    (added >= 1.0).then(|| {
        format!(
            "Walls, floor and ceiling give the sound back: {} dB more at the ear than in the open at {}. More absorption lowers it.",
            whole(added),
            units.reference_distance()
        )
    })
}

/// How supports are loaded.
pub fn load_reading(loaded: &Loaded, units: Units) -> String {
    format!(
        "Each carries {} of the {} it may, sags {} {} and lets the box bounce at {}\u{a0}Hz.",
        units.mass(loaded.load_each_kg),
        units.mass(loaded.working_load_kg),
        units.thickness(1000.0 * loaded.sag_m),
        units.length_unit(),
        decimal(loaded.natural_hz, 1)
    )
}

/// What air the vents need.
pub fn flow_reading(flow: VentFlow, units: Units) -> String {
    let heard = if flow.is_heard() { ", which hisses: larger or more of them" } else { "" };
    format!(
        "To stay within {} of the room the box needs {} of air, at {} in the vents{heard}.",
        units.temperature_rise(TEMPERATURE_RISE_K),
        units.flow(flow.flow_m3_s),
        units.speed(flow.speed_m_s)
    )
}

/// What the floor takes on.
pub fn floor_reading(report: &Report, floor: Floor) -> Option<String> {
    let dba = report.floor_borne.as_ref()?.dba;
    let room = if floor == Floor::Ground { "a room beside" } else { "the room below" };
    let level = if dba.round() < 0.0 { "less than 0".to_owned() } else { format!("about {}", level_dba(dba)) };
    Some(format!("Through the feet into the floor: {level}\u{a0}dBA in {room}, give or take 10\u{a0}dB."))
}

/// The answer as it is read out.
pub fn spoken(report: &Report) -> String {
    let listener = report.decisive().map(|heard| format!("At the listener {}; ", short_level(heard))).unwrap_or_default();
    format!(
        "{listener}{} dBA in the room, {} dBA outside the box, insertion loss {} dB.",
        level_dba(report.stations.room.dba),
        level_dba(report.stations.outside.dba),
        whole(report.insertion_loss_dba)
    )
}

/// What supports that carry `load_kg` call for.
fn support_cautions(support: &SupportPart, load_kg: f64, units: Units) -> Vec<String> {
    let mut cautions = Vec::new();
    if support.kind == SupportKind::Straps {
        cautions.push(format!(
            "{} hang on {}: straps and hooks rated for {} times their load or more, a safety line, nobody’s hand under it.",
            units.mass(load_kg),
            support_gist(support),
            whole(SAFETY)
        ));
    }
    let fails_kg = match support.kind {
        SupportKind::Straps | SupportKind::Springs => support.breaking_load_kg,
        SupportKind::Pads => {
            Spring::pad(support.pad_side_mm / 1000.0, support.pad_thickness_mm / 1000.0, support.shore_a).breaking_load_kg
        }
        SupportKind::Rigid => f64::INFINITY,
    };
    let (each_kg, working_kg) = (load_kg / support.count, fails_kg / SAFETY);
    if each_kg > working_kg {
        cautions.push(format!(
            "{}: each carries {}, more than the {} that it should, a fifth of the load at which it fails. Take more, or stronger ones.",
            capital(&support_gist(support)),
            units.load(each_kg),
            units.load(working_kg)
        ));
    }
    cautions
}

/// The cautions that this design calls for.
pub fn cautions(design: &Design, report: &Report, units: Units) -> Vec<String> {
    let mut cautions = Vec::new();
    // As it is lifted: with what stands in it.
    let mass_kg = report.bill.mass_kg + design.source.mass_kg;
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
    if design.outer.is_some() {
        cautions.extend(support_cautions(&design.suspension, report.bill.inner_mass_kg + design.source.mass_kg, units));
    }
    cautions.extend(support_cautions(&design.feet, mass_kg, units));
    let (source, inside) = (report.stations.source.dba, report.stations.inside.dba);
    if source.max(inside) > HEARING_DBA {
        cautions.push(format!(
            "{} dBA at {} with the lid open, {} inside: protect your ears. No person and no animal in the box.",
            whole(source),
            units.reference_distance(),
            whole(inside)
        ));
    }
    cautions.push(if design.vents.is_some() {
        "Fire: wood, wool and heat meet in vents. Keep cables and ventilation to local electrical and building codes, and the ducts free of dust."
    } else {
        "Shut in, heat stays in: no valve amplifier and nothing that needs cooling inside. Keep cables to local code."
    }.to_owned());
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
    use hushwright::design::{VentsPart, examples};
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

    /// All whole numbers before ` dB` in a sentence.
    fn decibels(text: &str) -> Vec<f64> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let before = words.windows(2).filter(|pair| pair[1].trim_end_matches([';', '.', ',']) == "dB");
        before.map(|pair| pair[0].replace('\u{2212}', "-").parse().unwrap()).collect()
    }

    #[test]
    fn the_level_difference_is_that_of_the_levels_shown() {
        let mut report = report(&Design::default());
        (report.stations.inside.dba, report.stations.outside.dba, report.level_difference_dba) = (125.6, 65.4, 60.2);
        assert_eq!(level_difference(&report), 61.0);
        assert!((level_difference(&report) - report.level_difference_dba).abs() <= 1.0);
        (report.stations.outside.dba, report.level_difference_dba) = (-3.2, 128.8);
        assert_eq!(level_difference(&report), 129.0, "below 0 dBA the level is not shown");
    }

    #[test]
    fn without_the_box_is_what_the_shown_numbers_add_up_to() {
        let report = report(&Design::default());
        let level = report.room_without_box_dba;
        let shown = without_the_box(&report);
        assert!((shown - level).abs() <= 1.0, "{shown} for {level}");
        assert_eq!(shown, report.stations.room.dba.round() + report.insertion_loss_dba.round());
    }

    #[test]
    fn the_sentence_on_the_difference_matches_its_sign() {
        let mut report = report(&Design::default());
        report.stations.source.dba = 100.0;
        report.stations.inside.dba = 104.0;
        report.insertion_loss_dba = 40.0;
        report.stations.outside.dba = 57.0;
        let text = why_they_differ(&report, Units::Metric);
        assert!(text.contains("47 dB") && text.contains("40 dB"), "{text}");
        assert!(text.contains("4 dB is sound that builds up") && text.contains("3 dB is distance"), "{text}");
        (report.stations.inside.dba, report.stations.outside.dba) = (98.0, 51.0);
        assert!(why_they_differ(&report, Units::Metric).contains("2 dB quieter than it is 1 m from"));
        assert!(why_they_differ(&report, Units::Imperial).contains("1 m (3.3 ft) from"));
        (report.stations.inside.dba, report.stations.outside.dba) = (100.2, 53.0);
        assert!(why_they_differ(&report, Units::Metric).contains("takes up"));
    }

    #[test]
    fn the_numbers_in_the_sentence_on_the_difference_add_up() {
        let mut report = report(&Design::default());
        report.stations.source.dba = 100.0;
        for step in 0..4000 {
            let step = f64::from(step);
            let (loss, build_up, spreading) = (25.4 + 0.37 * (step % 61.0), 0.29 * (step % 83.0) - 9.0, 0.1 * (step % 53.0));
            report.insertion_loss_dba = loss;
            report.stations.inside.dba = 100.0 + build_up;
            report.stations.outside.dba = 100.0 - loss - spreading;
            let text = why_they_differ(&report, Units::Metric);
            let shown = decibels(&text);
            let parts: f64 = shown[2..].iter().sum();
            let signed = if text.contains("quieter") { parts - 2.0 * shown[2] } else { parts };
            assert_eq!(shown[0] - shown[1], signed, "{text}");
            assert!(shown.iter().all(|number| *number >= 0.0), "{text}");
            assert!((between(&report).0 - build_up).abs() <= 1.5, "{build_up}: {text}");
        }
        report.insertion_loss_dba = 25.4;
        (report.stations.inside.dba, report.stations.outside.dba) = (111.4, 70.4);
        assert_eq!(between(&report), (11.0, 5.0));
    }

    #[test]
    fn the_gap_is_named_where_it_is_louder_than_the_inside() {
        let mut report = report(&Design::default());
        report.stations.inside.level_db = Spectrum::constant(80.0);
        let gap = report.stations.gap.as_mut().unwrap();
        gap.level_db = Spectrum::constant(70.0);
        assert_eq!(resonance_in_the_gap(&report), None);
        report.stations.gap.as_mut().unwrap().level_db[6] = 84.0;
        assert!(resonance_in_the_gap(&report).unwrap().contains("100\u{a0}Hz"));
        report.stations.gap = None;
        assert_eq!(resonance_in_the_gap(&report), None);
    }

    #[test]
    fn nothing_is_said_to_be_heard_below_0_dba() {
        let mut report = report(&Design::default());
        assert!(what_is_left(&report).contains("alone carries"));
        report.governing = None;
        report.stations.room.dba = -0.7;
        assert!(what_is_left(&report).starts_with("Nothing is left to hear"));
    }

    #[test]
    fn no_example_hisses() {
        for design in examples() {
            let flow = report(&design).vent_flow;
            assert!(flow.is_none_or(|flow| !flow.is_heard()), "{}: {flow:?}", design.name);
        }
    }

    #[test]
    fn the_weak_part_of_the_estimate_follows_the_box() {
        let mut report = report(&Design::default());
        for (hz, said) in [
            (244.6, "about 240\u{a0}Hz"),
            (244.6, "about 490\u{a0}Hz"),
            (57.2, "about 57\u{a0}Hz"),
            (1715.0, "about 1.7\u{a0}kHz"),
        ] {
            report.network_below_hz = hz;
            assert!(left_out(&report).join(" ").contains(said), "{:?}", left_out(&report));
        }
    }

    #[test]
    fn cautions_come_where_they_apply() {
        let mut design = Design::default();
        let heavy = cautions(&design, &report(&design), Units::Metric).join("\n");
        assert!(
            heavy.contains("135 kg: lift it with a hoist, or in parts")
                && heavy.contains("kPa")
                && heavy.contains("protect your ears"),
            "{heavy}"
        );
        let imperial = cautions(&design, &report(&design), Units::Imperial).join("\n");
        assert!(imperial.contains("lb/ft²") && imperial.contains(" lb:"), "{imperial}");
        design.outer = None;
        let middling = cautions(&design, &report(&design), Units::Metric).join("\n");
        assert!(middling.contains("2 people or a hoist"), "{middling}");
        design.inner.lining = None;
        design.source.level_dba = 40.0;
        design.source.mass_kg = 2.0;
        design.inner.length_mm = 300.0;
        design.inner.width_mm = 300.0;
        design.inner.height_mm = 300.0;
        let small = cautions(&design, &report(&design), Units::Metric).join("\n");
        assert!(!small.contains("hoist") && !small.contains("kPa") && small.contains("heat"), "{small}");
    }

    #[test]
    fn hanging_and_overloaded_supports_call_for_care() {
        let mut design = Design::default();
        let said = |design: &Design, units| cautions(design, &report(design), units).join("\n");
        let text = said(&design, Units::Metric);
        assert!(!text.contains("safety line") && !text.contains("each carries"), "{text}");
        design.suspension.kind = SupportKind::Straps;
        let text = said(&design, Units::Metric);
        assert!(text.contains("hang on 4 straps") && text.contains("5 times") && text.contains("safety line"), "{text}");
        design.source.mass_kg = 60.0;
        let load = report(&design).bill.inner_mass_kg + 60.0;
        let text = said(&design, Units::Metric);
        let each = format!("4 straps: each carries {} kg, more than the 12 kg", decimal(load / 4.0, 1));
        assert!(text.contains(&each), "{each} in {text}");
        assert!(said(&design, Units::Imperial).contains("26.5 lb that it should"), "{}", said(&design, Units::Imperial));
        design.outer = None;
        let text = said(&design, Units::Metric);
        assert!(!text.contains("straps"), "without an outer box nothing hangs: {text}");
        design.feet.kind = SupportKind::Straps;
        assert!(said(&design, Units::Metric).contains("hang on 4 straps"));
        design.feet = SupportPart { pad_side_mm: 20.0, pad_thickness_mm: 25.0, ..SupportPart::pads() };
        assert!(said(&design, Units::Metric).contains("4 rubber pads: each carries"));
    }

    #[test]
    fn vents_call_for_local_codes() {
        let design = Design { vents: Some(VentsPart::default()), ..Design::default() };
        let text = cautions(&design, &report(&design), Units::Metric).join("\n");
        assert!(text.contains("ventilation to local electrical and building codes") && !text.contains("Shut in"), "{text}");
    }

    #[test]
    fn frequencies_are_named_as_on_a_meter() {
        assert_eq!(frequency(31.5), "31.5 Hz");
        assert_eq!(frequency(1250.0), "1.25 kHz");
        assert_eq!(frequency(10000.0), "10 kHz");
    }
}
