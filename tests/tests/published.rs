//! Checks against published values: every table in `tests/data` has its check here.

use std::path::Path;

use hushwright::air::Air;
use hushwright::bands::{Spectrum, Weighting, band_index};
use hushwright::buildup::check::{Problems, check_stack};
use hushwright::buildup::raw::Layer;
use hushwright::buildup::{EdgeLoss, GapLoss, Laminate};
use hushwright::enclosure::network::OpeningsAt;
use hushwright::enclosure::panel::Panel;
use hushwright::enclosure::transmissibility::viscous;
use hushwright::enclosure::{
    Medium, Segment, SlitEnd, Spring, Support, SupportKind, absorption_at_angle, composite_transmission, diffuse_absorption,
    rubber_dynamic_ratio, rubber_modulus, slit_at, stiffness_from_test,
};
use hushwright::material;
use hushwright::need::{Partition, Period, THRESHOLD_DB, composite_db, niosh_hours, who_guideline};
use hushwright::rating::{CriterionRating, ThirdOctaves, astm_e413, astm_e1332, iso717_1, nc, nr};
use hushwright::transmission::porous::{miki, miki_power_laws};
use hushwright::transmission::{Mount, sound_reduction_db};
use hushwright_tests::coupled_modes::ThinSheet;
use hushwright_tests::published::{Check, Comparison, Row, Table, run};
use hushwright_tests::sealed_box::{panel, sealed_box, thin_plate};

const CHECKS: [(&str, Check); 27] = [
    ("a_weighting_iec61672.csv", weightings),
    ("air.csv", air),
    ("clamped_plate_volume.csv", plate_volumes),
    ("composite_crocker_arenas.csv", composites),
    ("exposure_niosh.csv", exposure),
    ("fc_thickness_products_long_table9-1.csv", coincidence_products),
    ("glass_stc_ufc_table4-8.csv", glass),
    ("hearing_threshold_iso226.csv", threshold),
    ("iso717-1_annexC.csv", annex_c),
    ("isolation_sag.csv", isolation_sag),
    ("isolation_transmissibility.csv", isolation_transmissibility),
    ("leak_open_area.csv", open_area),
    ("leissa_plates.csv", first_plate_modes),
    ("nc_curves.csv", nc_curves),
    ("nr_curves.csv", nr_curves),
    ("osb_wood_handbook_table12-3.csv", osb),
    ("partitions_rw.csv", partitions),
    ("porous_absorption_miki.csv", porous_absorption),
    ("porous_impedance_miki.csv", porous_impedance),
    ("rating_reference_curves.csv", reference_curves),
    ("rating_trap_cases.csv", trap_cases),
    ("rubber.csv", rubber),
    ("sheet_weights.csv", sheet_weights),
    ("small_sealed_box_low_freq_IL.csv", small_sealed_boxes),
    ("slit_gomperts_kihlman.csv", slits),
    ("tarnow_glass_wool.csv", glass_wool),
    ("who_community_noise.csv", who_guidelines),
];

#[test]
fn published_values() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("data");
    match run(&folder, &CHECKS) {
        Ok(compared) => println!("{compared} published values"),
        Err(wrong) => panic!("{}", wrong.join("\n")),
    }
}

/// Exact mid-band frequency of the nominal one (IEC 61260-1, base ten), also beyond our 27 bands.
fn exact_hz(nominal_hz: f64) -> f64 {
    10.0_f64.powf((10.0 * nominal_hz.log10()).round() / 10.0)
}

fn weightings(table: &Table) -> Vec<Comparison> {
    let row = |row: Row| {
        let hz = exact_hz(row.number("freq_hz"));
        [row.compare("A_dB", Weighting::A.db(hz)), row.compare("C_dB", Weighting::C.db(hz))]
    };
    table.rows().flat_map(row).collect()
}

fn exposure(table: &Table) -> Vec<Comparison> {
    table.rows().map(|row| row.compare("hours", niosh_hours(row.number("level_dba")))).collect()
}

/// The threshold is the table's; the table itself is checked by the standard's equation 1, which makes its contours of it.
fn threshold(table: &Table) -> Vec<Comparison> {
    let row = |row: Row| {
        let [hz, alpha, lu, tf] = ["freq_hz", "alpha_f", "L_U_dB", "T_f_dB"].map(|column| row.number(column));
        let band = band_index(hz).expect("a nominal band");
        let contour = |phon: f64| {
            let threshold = 0.4 * 10.0_f64.powf((tf + lu) / 10.0 - 9.0);
            let a = 4.47e-3 * (10.0_f64.powf(0.025 * phon) - 1.15) + threshold.powf(alpha);
            10.0 / alpha * a.log10() - lu + 94.0
        };
        [
            row.compare("T_f_dB", THRESHOLD_DB[band]),
            row.compare("SPL_20phon_dB", contour(20.0)),
            row.compare("SPL_40phon_dB", contour(40.0)),
            row.compare("SPL_60phon_dB", contour(60.0)),
        ]
    };
    table.rows().flat_map(row).collect()
}

fn who_guidelines(table: &Table) -> Vec<Comparison> {
    let row = |row: Row| {
        let period = if row.text("period") == "day" { Period::Day } else { Period::Night };
        let guideline = who_guideline(period, row.text("outdoors") == "yes");
        let maximum = row.maybe("LAmax_fast_dB");
        assert_eq!(guideline.max_dba.is_some(), maximum.is_some(), "{}", row.text("environment"));
        let mut comparisons = vec![row.compare("LAeq_dB", guideline.level_dba), row.compare("time_base_h", period.hours())];
        comparisons.extend(guideline.max_dba.map(|max| row.compare("LAmax_fast_dB", max)));
        comparisons
    };
    table.rows().flat_map(row).collect()
}

fn air(table: &Table) -> Vec<Comparison> {
    let row = |row: Row| {
        let air = Air::new(row.number("temperature_c"), row.number("pressure_pa"));
        [row.compare("speed_m_s", air.speed), row.compare("density_kg_m3", air.density)]
    };
    table.rows().flat_map(row).collect()
}

fn coincidence_products(table: &Table) -> Vec<Comparison> {
    let product = |key| material::sheet(key).expect("a material of the catalogue").coincidence_product(&Air::default());
    table.rows().map(|row| row.compare("fc_h_m_per_s", product(row.text("key")))).collect()
}

fn sheet_weights(table: &Table) -> Vec<Comparison> {
    let density = |key| material::sheet(key).expect("a material of the catalogue").density;
    table.rows().map(|row| row.compare("kg_m2", density(row.text("key")) * row.number("thickness_mm") / 1000.0)).collect()
}

/// The catalogue's glass in an opening of the size that ISO 10140 has for windows.
fn glass(table: &Table) -> Vec<Comparison> {
    let mount = Mount { size_m: [1.5, 1.25], edge_loss: EdgeLoss::Laboratory };
    let row = |row: Row| {
        let mut problems = Problems::default();
        let pane = [Layer::sheet("glass", row.number("thickness_mm"))];
        let stack = check_stack(&mut problems, "layers", &pane, GapLoss::Lossless).expect("glass is in the catalogue");
        let r = sound_reduction_db(&stack, &mount, &Air::default());
        row.compare("stc", astm_e413::stc(&ThirdOctaves::from(&r)).expect("all bands are there") as f64)
    };
    table.rows().map(row).collect()
}

fn partitions(table: &Table) -> Vec<Comparison> {
    let row = |row: Row| {
        let partition = Partition::from_key(row.text("preset")).expect("a partition");
        let r = partition.reduction_db(&Air::default());
        let rated = iso717_1::rate_thirds(&ThirdOctaves::from(&r)).expect("all bands are there");
        row.compare("rw", rated.rw as f64)
    };
    table.rows().map(row).collect()
}

fn composites(table: &Table) -> Vec<Comparison> {
    let row = |row: Row| {
        let [r1, r2] = ["TL1_dB", "TL2_dB"].map(|column| Spectrum::constant(row.number(column)));
        let whole = composite_db(&[(row.number("area1_m2"), &r1), (row.number("area2_m2"), &r2)]);
        row.compare("TL_dB", whole[0])
    };
    table.rows().map(row).collect()
}

/// Attenuation of a plane wave in dB/m: the decay of its pressure, 20 lg e times the imaginary wavenumber.
fn glass_wool(table: &Table) -> Vec<Comparison> {
    let row = |row: Row| {
        let wool = material::fill(row.text("material")).expect("a fill of the catalogue");
        let fluid = miki(wool.flow_resistivity, 1000.0, &Air::default());
        let attenuation = -20.0 * std::f64::consts::E.log10() * fluid.wavenumber.im;
        [row.compare("density_kg_m3", wool.density), row.compare("attenuation_db_per_m", attenuation)]
    };
    table.rows().flat_map(row).collect()
}

/// Slits with friction in mid-wall, so long that their ends do not count.
///
/// A diffuse field puts twice its mean square on a wall and meets it with a quarter of p^2/(rho c); a wave from straight ahead
/// four times and all of it: half the transmission.
fn slits(table: &Table) -> Vec<Comparison> {
    const LENGTH_M: f64 = 1e4;
    let row = |row: Row| {
        let [height_m, depth_m] = ["slit_width_mm", "depth_mm"].map(|column| row.number(column) / 1000.0);
        let path = [Segment { height_m, depth_m, medium: Medium::Air }];
        let slit = slit_at(&path, LENGTH_M, [SlitEnd::MidWall; 2], row.number("freq_hz"), &Air::default());
        let diffuse_db = -10.0 * (slit.transmission_area_m2 / (height_m * LENGTH_M)).log10();
        let normal_db = diffuse_db + 10.0 * 2.0_f64.log10();
        [
            row.compare("R_diffuse_m8_dB", diffuse_db),
            row.compare("R_normal_m4_dB", normal_db),
            row.compare("R_tube_model_normal_dB", normal_db),
        ]
    };
    table.rows().flat_map(row).collect()
}

/// What is open transmits everything: 1 % of it caps R at 20 dB.
fn open_area(table: &Table) -> Vec<Comparison> {
    let row = |row: Row| {
        let open = row.number("percent_open") / 100.0;
        table.columns()[1..]
            .iter()
            .map(|column| {
                let wall_db: f64 =
                    column.trim_start_matches("TLwall_").trim_end_matches("dB").parse().expect("a column named by the wall");
                let tau = composite_transmission(&[(1.0 - open, 10.0_f64.powf(-wall_db / 10.0)), (open, 1.0)]);
                row.compare(column, -10.0 * tau.log10())
            })
            .collect::<Vec<_>>()
    };
    table.rows().flat_map(row).collect()
}

/// The power laws as published, in every band of the table.
fn porous_absorption(table: &Table) -> Vec<Comparison> {
    let air = Air::default();
    let bands = ["63", "100", "125", "250", "500", "1000", "2000", "4000"];
    let row = |row: Row| {
        let (sigma, thickness_m) = (row.number("sigma_Pas_m2"), row.number("thickness_mm") / 1000.0);
        let normal = row.text("incidence") == "normal";
        let coefficient = |band: &str| {
            let hz: f64 = band.parse().expect("a column named by its frequency");
            let fluid = miki_power_laws(sigma, hz, &air);
            if normal {
                absorption_at_angle(fluid, thickness_m, 0.0, hz, 0.0, &air)
            } else {
                diffuse_absorption(fluid, thickness_m, 0.0, hz, &air)
            }
        };
        bands.map(|band| row.compare(band, coefficient(band)))
    };
    table.rows().flat_map(row).collect()
}

fn porous_impedance(table: &Table) -> Vec<Comparison> {
    let air = Air::default();
    let row = |row: Row| {
        let fluid = miki_power_laws(20_000.0, row.number("freq_hz"), &air);
        let impedance = fluid.impedance / air.impedance();
        [
            row.compare("Miki_ReZ", impedance.re),
            row.compare("Miki_ImZ", impedance.im),
            row.compare("Miki_Rek", fluid.wavenumber.re),
            row.compare("Miki_Imk", fluid.wavenumber.im),
        ]
    };
    table.rows().flat_map(row).collect()
}

/// A mass on springs that sag under it, whatever the mass.
fn isolation_sag(table: &Table) -> Vec<Comparison> {
    let row = |row: Row| {
        let (mass_kg, sag_m) = (7.0, row.number("static_deflection_mm") / 1000.0);
        let spring = Spring::steel(stiffness_from_test(mass_kg, sag_m), 60.0, 0.1);
        let support = Support { kind: SupportKind::Springs, count: 3, spring: Some(spring) };
        row.compare("fn_hz", support.loaded(3.0 * mass_kg).expect("not rigid").natural_hz)
    };
    table.rows().map(row).collect()
}

fn isolation_transmissibility(table: &Table) -> Vec<Comparison> {
    table.rows().map(|row| row.compare("T", viscous(row.number("frequency_ratio"), row.number("zeta")))).collect()
}

fn rubber(table: &Table) -> Vec<Comparison> {
    let row = |row: Row| {
        let shore_a = row.number("shore_a");
        let computed = match row.text("quantity") {
            "modulus_mpa" => rubber_modulus(shore_a) / 1e6,
            "dynamic_ratio" => rubber_dynamic_ratio(shore_a),
            other => panic!("no such quantity: {other}"),
        };
        row.compare("value", computed)
    };
    table.rows().map(row).collect()
}

/// One number stands for both directions: the geometric mean, which gives the same mean bending wave.
fn osb(table: &Table) -> Vec<Comparison> {
    let mean = |column| table.rows().map(|row| row.number(column)).sum::<f64>() / table.rows().count() as f64;
    let osb = material::sheet("osb").expect("a material of the catalogue");
    let modulus_gpa = (mean("MOE_parallel_GPa") * mean("MOE_perp_GPa")).sqrt();
    vec![
        Comparison::new("modulus in GPa", modulus_gpa, osb.youngs_modulus / 1e9),
        Comparison::new("density in kg/m3", 1000.0 * mean("specific_gravity"), osb.density),
    ]
}

fn annex_c(table: &Table) -> Vec<Comparison> {
    let mut r_db = ThirdOctaves::none();
    for row in table.rows() {
        assert!(r_db.set(row.number("freq_hz"), row.number("R_dB")));
    }
    let rated = iso717_1::rate_thirds(&r_db).expect("all bands are there");
    let mut comparisons = vec![
        Comparison::new("Rw", table.header_number("rw"), rated.rw as f64),
        Comparison::new("C", table.header_number("c"), rated.terms.c as f64),
        Comparison::new("Ctr", table.header_number("ctr"), rated.terms.ctr as f64),
        Comparison::new("sum of unfavourable deviations", table.header_number("unfavourable_sum_db"), rated.unfavourable_db),
    ];
    for (band, row) in table.rows().enumerate() {
        let curve = (rated.rw + iso717_1::REFERENCE_THIRDS[band]) as f64;
        comparisons.push(row.compare("shifted_reference_dB", curve));
        comparisons.push(row.compare("unfavourable_dB", (curve - row.number("R_dB")).max(0.0)));
        comparisons.push(row.compare("spectrum1_C_dB", iso717_1::SPECTRUM_1_TO_3150[band + 3] as f64));
        comparisons.push(row.compare("spectrum2_Ctr_dB", iso717_1::SPECTRUM_2[band + 3] as f64));
    }
    comparisons
}

fn reference_curves(table: &Table) -> Vec<Comparison> {
    let mut comparisons = Vec::new();
    let (mut iso717, mut stc, mut oitc) = (0, 0, 0);
    for row in table.rows() {
        if row.maybe("iso717").is_some() {
            comparisons.push(row.compare("iso717", iso717_1::REFERENCE_THIRDS[iso717] as f64));
            iso717 += 1;
        }
        if row.maybe("stc").is_some() {
            comparisons.push(row.compare("stc", astm_e413::CONTOUR[stc] as f64));
            stc += 1;
        }
        if row.maybe("oitc_source_from_memory").is_some() {
            comparisons.push(row.compare("oitc_source_from_memory", astm_e1332::SOURCE_DB[oitc]));
            oitc += 1;
        }
    }
    assert_eq!((iso717, stc, oitc), (16, 16, 18), "the tables are whole");
    comparisons
}

fn trap_cases(table: &Table) -> Vec<Comparison> {
    const RW_HZ: [f64; 16] =
        [100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0, 500.0, 630.0, 800.0, 1000.0, 1250.0, 1600.0, 2000.0, 2500.0, 3150.0];
    const STC_HZ: [f64; 16] =
        [125.0, 160.0, 200.0, 250.0, 315.0, 400.0, 500.0, 630.0, 800.0, 1000.0, 1250.0, 1600.0, 2000.0, 2500.0, 3150.0, 4000.0];
    let row = |row: Row| {
        let bands_hz = if row.text("rating") == "rw" { RW_HZ } else { STC_HZ };
        let mut r_db = ThirdOctaves::none();
        for (index, hz) in bands_hz.into_iter().enumerate() {
            assert!(r_db.set(hz, row.number(&format!("b{}", index + 1))));
        }
        let rated = match row.text("rating") {
            "rw" => iso717_1::rate_thirds(&r_db).map(|rated| rated.rw),
            "stc" => astm_e413::stc(&r_db),
            other => panic!("no such rating: {other}"),
        };
        row.compare("expected", rated.expect("all bands are there") as f64)
    };
    table.rows().map(row).collect()
}

/// The tabled curves themselves, and what a spectrum that is one of them rates.
fn nr_curves(table: &Table) -> Vec<Comparison> {
    let mut comparisons = Vec::new();
    for row in table.rows() {
        let number: f64 = row.text("curve").trim_start_matches("NR").parse().expect("NR and its number");
        let curve = nr::curve_db(number);
        for (band, hz) in nr::OCTAVES_HZ.into_iter().enumerate() {
            comparisons.push(row.compare(&hz.to_string(), curve[band]));
        }
        let rated = nr::nr(&curve).rounded().expect("within the family");
        comparisons.push(Comparison::new(format!("rating of NR{number}"), number, rated as f64));
    }
    comparisons
}

/// Each tabled curve rates its own number; half way up to the next in one band gives half the step.
fn nc_curves(table: &Table) -> Vec<Comparison> {
    let mut comparisons = Vec::new();
    let rows: Vec<_> = table.rows().collect();
    let levels = |index: usize| nc::OCTAVES_HZ.map(|hz| rows[index].number(&hz.to_string()));
    let value = |octaves_db| match nc::nc(&octaves_db) {
        CriterionRating::At { value, .. } => value,
        other => panic!("{other:?}"),
    };
    for (index, row) in rows.iter().enumerate() {
        let octaves_db = levels(index);
        comparisons.push(row.compare("NC", value(octaves_db)));
        if index + 1 < rows.len() {
            for band in 0..octaves_db.len() {
                let mut raised = octaves_db;
                raised[band] = 0.5 * (octaves_db[band] + levels(index + 1)[band]);
                comparisons.push(Comparison::new(
                    format!("half above NC{}", row.text("NC")),
                    row.number("NC") + 2.5,
                    value(raised),
                ));
            }
        }
    }
    comparisons
}

const PLYWOOD: ThinSheet = ThinSheet { modulus_pa: 8e9, poisson: 0.3, density: 680.0, thickness_m: 0.018 };

fn plate(laminate: &Laminate, size_m: [f64; 2], fixity: f64) -> Panel {
    panel(laminate, size_m, fixity, None, 0)
}

fn first_plate_modes(table: &Table) -> Vec<Comparison> {
    let laminate = thin_plate(PLYWOOD, 0.0);
    let scale = (laminate.surface_mass() / laminate.sheets[0].bending_stiffness()).sqrt();
    let row = |row: Row| {
        let a = row.number("a_over_b");
        let lambda2 = |fixity| 2.0 * std::f64::consts::PI * plate(&laminate, [a, 1.0], fixity).first_hz() * a * a * scale;
        [row.compare("hinged", lambda2(0.0)), row.compare("clamped", lambda2(1.0)), row.compare("leissa", lambda2(1.0))]
    };
    table.rows().flat_map(row).collect()
}

/// Far below the first resonance volume velocity over angular frequency is the static volume.
const STATIC_HZ: f64 = 0.01;

fn plate_volumes(table: &Table) -> Vec<Comparison> {
    let laminate = thin_plate(PLYWOOD, 0.0);
    let stiffness = laminate.sheets[0].bending_stiffness();
    let row = |row: Row| {
        let a = row.number("a_over_b");
        let volume = |fixity| {
            let response = plate(&laminate, [a, 1.0], fixity).response(STATIC_HZ);
            response.admittance.im / (2.0 * std::f64::consts::PI * STATIC_HZ) * stiffness / a.powi(6)
        };
        [row.compare("clamped", volume(1.0)), row.compare("hinged", volume(0.0))]
    };
    table.rows().flat_map(row).collect()
}

fn small_sealed_boxes(table: &Table) -> Vec<Comparison> {
    let row = |row: Row| {
        let inside_m = ["a_m", "b_m", "h_m"].map(|column| row.number(column));
        let [modulus_pa, poisson, thickness_m] = ["E_Pa", "nu", "t_m"].map(|column| row.number(column));
        let laminate = thin_plate(ThinSheet { modulus_pa, poisson, density: 700.0, thickness_m }, 0.0);
        let fixity = if row.text("edges") == "clamped" { 1.0 } else { 0.0 };
        let [total, ..] = sealed_box(inside_m, &laminate, fixity, 0, 1.0).at(STATIC_HZ, &OpeningsAt::default());
        row.compare("IL_dB", -10.0 * total.log10())
    };
    table.rows().map(row).collect()
}
