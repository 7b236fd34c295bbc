//! The look at the committed files hangs together, and a bad file is refused at
//! the line that is bad.

use crate::assessment::{Assessment, Direction, NutrientVerdict, OxygenVerdict};
use crate::estimate::Estimate;
use crate::{Arguments, look, report, run};
use halimeda::nutrient::AmmoniaVerdict;

const REEF: &str = include_str!("../invented_reef.toml");
const NEW_TANK: &str = include_str!("../invented_new_tank.toml");

const OPTIONAL_SECTIONS: [&str; 9] = [
    "room_air",
    "calcium",
    "magnesium",
    "nitrate",
    "nitrite",
    "ammonia",
    "phosphate",
    "oxygen",
    "volume",
];

fn assess(text: &str) -> Assessment {
    look("test.toml", text).unwrap()
}

/// The reef with one line, which it has once, replaced.
fn with(line: &str, by: &str) -> String {
    assert_eq!(REEF.lines().filter(|l| *l == line).count(), 1, "{line}");
    let lines: Vec<&str> = REEF
        .lines()
        .map(|l| if l == line { by } else { l })
        .collect();
    lines.join("\n")
}

/// The reef without a section and those inside it.
fn without(section: &str) -> String {
    let mut is_inside = false;
    let kept: Vec<&str> = REEF
        .lines()
        .filter(|line| {
            if line.starts_with('[') {
                let name = line.trim_matches(['[', ']']);
                is_inside = name == section || name.starts_with(&format!("{section}."));
            }
            !is_inside
        })
        .collect();
    kept.join("\n")
}

fn close(a: f64, b: f64, relative: f64) {
    assert!((a - b).abs() <= relative * b.abs(), "{a} and {b}");
}

#[test]
fn pages_are_narrow_whole_and_without_holes() {
    for text in [REEF, NEW_TANK] {
        let page = report::report(&assess(text));
        assert!(page.starts_with("A first look at: Invented"));
        for line in page.lines() {
            assert!(line.chars().count() <= 80, "{line}");
            assert_eq!(line.trim_end(), line);
        }
        for hole in ["NaN", "inf", "Some(", "None"] {
            assert!(!page.contains(hole), "{hole}");
        }
        for heading in [
            "What stands out",
            "Water",
            "pH",
            "Alkalinity",
            "Carbon and carbon dioxide",
            "How firmly pH is held",
            "Building skeletons",
            "Oxygen",
            "Ammonia",
            "Nutrients: low, never zero",
            "What limits these numbers",
            "Before you act",
            "Sources",
        ] {
            assert_eq!(
                page.lines().filter(|l| *l == heading).count(),
                1,
                "{heading}"
            );
        }
    }
}

#[test]
fn carbon_and_alkalinity_add_up() {
    for text in [REEF, NEW_TANK] {
        let a = assess(text);
        let (carbon, alkalinity) = (&a.carbon, &a.alkalinity);
        close(
            carbon.dissolved_co2_umol_per_kg.value
                + carbon.bicarbonate_umol_per_kg.value
                + carbon.carbonate_umol_per_kg.value,
            carbon.inorganic_carbon_umol_per_kg.value,
            1e-12,
        );
        close(
            alkalinity.from_bicarbonate_umol_per_kg
                + alkalinity.from_carbonate_umol_per_kg
                + alkalinity.from_borate_umol_per_kg
                + alkalinity.from_the_rest_umol_per_kg,
            alkalinity.umol_per_kg.value,
            1e-12,
        );
        close(
            alkalinity.from_carbonate_umol_per_kg,
            2.0 * carbon.carbonate_umol_per_kg.value,
            1e-12,
        );
        // One equivalent of CaCO3 weighs 50.04 g; a litre weighs its density.
        close(
            alkalinity.ppm_caco3.value,
            50.043 * alkalinity.meq_per_l.value,
            1e-5,
        );
        close(
            alkalinity.umol_per_kg.value * a.water.density_kg_per_m3.value * 1e-6,
            alkalinity.meq_per_l.value,
            1e-12,
        );
    }
}

#[test]
fn scales_of_ph_are_in_their_order() {
    for text in [REEF, NEW_TANK] {
        let ph = assess(text).ph;
        assert!(ph.seawater.value < ph.total.value && ph.total.value < ph.free.value);
        let step = ph.nbs.value - ph.total.value;
        assert!(step > 0.1 && step < 0.2, "{step}");
    }
}

#[test]
fn the_junction_is_counted_once() {
    for text in [REEF, NEW_TANK] {
        let ph = assess(text).ph;
        let junction = 0.05;
        close(
            ph.total.standard_uncertainty,
            ph.nbs.standard_uncertainty.hypot(junction),
            5e-3,
        );
    }
}

#[test]
fn shares_of_the_variance_are_the_whole() {
    let limits = assess(REEF).what_limits;
    assert_eq!(limits.len(), 5);
    for limit in limits {
        let sum: f64 = limit.shares.iter().map(|s| s.percent_of_variance).sum();
        close(sum, 100.0, 1e-9);
        assert!(
            limit
                .shares
                .is_sorted_by(|a, b| a.percent_of_variance >= b.percent_of_variance)
        );
    }
}

#[test]
fn a_room_in_balance_leaves_the_tank_where_it_is() {
    let balanced = assess(REEF).carbon.balanced_air_ppm.value;
    let a = assess(&with(
        "carbon_dioxide_ppm = 900.0",
        &format!("carbon_dioxide_ppm = {balanced:.12}"),
    ));
    let room = a.room_air.unwrap();
    assert!(room.ph_now_is_higher_by.value.abs() < 1e-9);
    close(room.pco2_uatm.value, a.carbon.pco2_uatm.value, 1e-9);
    assert_eq!(room.carbon_dioxide_goes, Direction::CannotBeTold);
}

#[test]
fn carbon_dioxide_goes_where_there_is_less() {
    let to = |ppm: f64| {
        let text = with(
            "carbon_dioxide_ppm = 900.0",
            &format!("carbon_dioxide_ppm = {ppm}"),
        );
        assess(&text).room_air.unwrap()
    };
    let (fresh, stuffy) = (to(300.0), to(2000.0));
    assert_eq!(fresh.carbon_dioxide_goes, Direction::OutOfTheWater);
    assert_eq!(stuffy.carbon_dioxide_goes, Direction::IntoTheWater);
    assert!(fresh.ph_nbs_it_tends_to.value > stuffy.ph_nbs_it_tends_to.value);
}

#[test]
fn saturation_follows_calcium_and_oxygen_its_balance() {
    let whole = assess(REEF);
    let half = assess(&with("mg_per_l = 425.0", "mg_per_l = 212.5"));
    let saturation = |a: &Assessment| a.skeleton.as_ref().unwrap().aragonite_saturation.value;
    close(saturation(&whole), 2.0 * saturation(&half), 1e-12);

    let balance = whole.oxygen.unwrap().saturated_mg_per_l;
    let a = assess(&with(
        "mg_per_l = 6.3",
        &format!("mg_per_l = {balance:.12}"),
    ));
    close(a.oxygen.unwrap().saturation_percent.value, 100.0, 1e-9);
}

#[test]
fn a_barometer_says_what_altitude_and_forecast_say() {
    let whole = assess(REEF);
    let hpa = whole.water.air_pressure_hpa.value;
    let a = assess(
        &with("altitude_m = 430.0", &format!("barometer_hpa = {hpa:.12}"))
            .replace("sea_level_hpa = 1017.0", ""),
    );
    close(
        a.oxygen.unwrap().saturation_percent.value,
        whole.oxygen.unwrap().saturation_percent.value,
        1e-9,
    );
}

#[test]
fn the_ratio_is_one_of_moles() {
    let a = assess(REEF);
    let umol = |mg_per_l: f64, grams_per_mol: f64| 1e3 * mg_per_l / grams_per_mol;
    let nitrogen = umol(6.0, 62.004) + umol(0.01, 46.005) + umol(0.05, 18.039);
    close(
        a.nitrogen_to_phosphorus
            .unwrap()
            .moles_of_nitrogen_per_phosphorus,
        nitrogen / umol(0.06, 94.970),
        1e-5,
    );
}

#[test]
fn a_finer_kit_makes_finer_numbers() {
    let coarse = assess(REEF);
    let fine = assess(&with("uncertainty_dkh = 0.3", "uncertainty_dkh = 0.03"));
    let u = |a: &Assessment| a.carbon.inorganic_carbon_umol_per_kg.standard_uncertainty;
    assert!(u(&fine) < 0.5 * u(&coarse));
    close(
        fine.carbon.inorganic_carbon_umol_per_kg.value,
        coarse.carbon.inorganic_carbon_umol_per_kg.value,
        1e-15,
    );
}

#[test]
fn exact_readings_are_taken_as_such() {
    // Only constants and the junction are left uncertain.
    let exact: Vec<String> = REEF
        .lines()
        .map(|line| match line.split_once(" = ") {
            Some((key, _)) if key.starts_with("uncertainty") && !key.ends_with("percent") => {
                format!("{key} = 0")
            }
            _ => line.to_owned(),
        })
        .collect();
    let a = assess(&exact.join("\n"));
    assert!(a.ph.nbs.standard_uncertainty < 1e-12);
    assert!(a.carbon.pco2_uatm.standard_uncertainty > 0.0);
    assert!(!report::report(&a).contains("NaN"));
}

#[test]
fn what_was_not_measured_is_left_out() {
    for section in OPTIONAL_SECTIONS {
        let a = assess(&without(section));
        let json = serde_json::to_string(&a).unwrap();
        assert!(json.contains("null"), "{section}");
        assert!(!report::report(&a).contains("NaN"), "{section}");
    }
}

#[test]
fn a_new_tank_is_told_what_is_wrong() {
    let a = assess(NEW_TANK);
    assert_eq!(
        a.ammonia.as_ref().unwrap().verdict,
        AmmoniaVerdict::AboveChronic
    );
    assert_eq!(a.oxygen.as_ref().unwrap().verdict, OxygenVerdict::Low);
    assert_eq!(
        a.phosphate.as_ref().unwrap().verdict,
        NutrientVerdict::CannotBeToldFromZero
    );
    let page = report::report(&a);
    let first = page.split("\nWater\n").next().unwrap();
    for words in [
        "ammonia is above a limit",
        "Oxygen is well below",
        "Phosphate cannot",
    ] {
        assert!(first.contains(words), "{words}");
    }
}

#[test]
fn a_sound_tank_in_fresh_air_is_left_alone() {
    let text = with("carbon_dioxide_ppm = 900.0", "carbon_dioxide_ppm = 450.0");
    assert!(report::report(&assess(&text)).contains("Nothing in these readings."));
}

#[test]
fn undetected_ammonia_is_not_zero() {
    let a = assess(
        &with("mg_per_l = 0.05", "not_detected_below_mg_per_l = 0.05")
            .replace("step_mg_per_l = 0.01\nuncertainty_mg_per_l = 0.02\n", ""),
    );
    let ammonia = a.ammonia.as_ref().unwrap();
    assert!(!ammonia.is_detected && ammonia.unionised_at_most_mg_nh3_per_l > 0.0);
    // 0.05 mg/L of NH4 is 0.0388 mg/L of N.
    close(
        ammonia.total_at_most_mg_n_per_l,
        0.05 * 14.007 / 18.039,
        1e-9,
    );
    assert!(report::report(&a).contains("not detected"));
}

#[test]
fn the_json_holds_every_number() {
    let path = std::env::temp_dir().join(format!("first_look_{}.json", std::process::id()));
    let arguments = Arguments {
        readings: concat!(env!("CARGO_MANIFEST_DIR"), "/examples/invented_reef.toml").to_owned(),
        json: Some(path.to_str().unwrap().to_owned()),
    };
    let page = run(&arguments).unwrap();
    let json = std::fs::read_to_string(&path).unwrap();
    std::fs::remove_file(&path).unwrap();
    let a = assess(REEF);
    assert_eq!(page, report::report(&a));
    // A number that is not one would be written as null.
    assert!(!json.contains("null"));
    let read: serde_json::Value = serde_json::from_str(&json).unwrap();
    close(
        read["carbon"]["pco2_uatm"]["value"].as_f64().unwrap(),
        a.carbon.pco2_uatm.value,
        1e-15,
    );
    assert_eq!(read["room_air"]["carbon_dioxide_goes"], "into_the_water");
}

#[test]
fn a_file_or_folder_that_is_not_there_is_named() {
    let reef = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/invented_reef.toml");
    let cases = [
        ("no_such_tank.toml", None, "no_such_tank.toml"),
        (reef, Some("no_such_folder/out.json"), "no_such_folder"),
    ];
    for (readings, json, named) in cases {
        let arguments = Arguments {
            readings: readings.to_owned(),
            json: json.map(str::to_owned),
        };
        assert!(run(&arguments).unwrap_err().to_string().contains(named));
    }
}

#[test]
fn arguments_are_a_file_and_perhaps_json() {
    let of = |words: &[&str]| Arguments::of(words.iter().map(|&w| w.to_owned()));
    assert_eq!(of(&["a.toml"]).unwrap().json, None);
    assert_eq!(
        of(&["--json", "b.json", "a.toml"]),
        of(&["a.toml", "--json", "b.json"])
    );
    let refused: [&[&str]; 6] = [
        &[],
        &["--json", "b.json"],
        &["a.toml", "--json"],
        &["a.toml", "b.toml"],
        &["a.toml", "--help"],
        &["a.toml", "--json", "b.json", "--json", "c.json"],
    ];
    for words in refused {
        assert_eq!(of(words), None, "{words:?}");
    }
}

/// A line of the reef, what is put there, the line the refusal names and words
/// it must hold.
const BAD_LINES: [(&str, &str, &str, &str); 22] = [
    (
        "celsius = 25.6",
        "celcius = 25.6",
        "celcius = 25.6",
        "temperature.celcius",
    ),
    (
        "dkh = 8.2",
        "",
        "[alkalinity]",
        "missing key or section `dkh`",
    ),
    (
        "dkh = 8.2",
        "dkh = \"eight\"",
        "dkh = \"eight\"",
        "expected a number",
    ),
    ("dkh = 8.2", "dkh = 8,2", "dkh = 8,2", "decimal point"),
    (
        "dkh = 8.2",
        "dkh = nan",
        "dkh = nan",
        "between 0.1 and 60 dKH",
    ),
    (
        "dkh = 8.2",
        "dkh = -8.2",
        "dkh = -8.2",
        "between 0.1 and 60 dKH",
    ),
    (
        "dkh = 8.2",
        "dkh = inf",
        "dkh = inf",
        "between 0.1 and 60 dKH",
    ),
    (
        "dkh = 8.2",
        "dkh = 8.2\ndkh = 8.4",
        "dkh = 8.4",
        "duplicate key",
    ),
    (
        "uncertainty_dkh = 0.3",
        "uncertainty_dkh = -0.3",
        "uncertainty_dkh = -0.3",
        "between 0",
    ),
    (
        "celsius = 25.6",
        "celsius = 256",
        "celsius = 256",
        "between -5 and 60 °C",
    ),
    (
        "celsius = 25.6",
        "celsius = 38",
        "[temperature]",
        "2 to 35 °C",
    ),
    (
        "specific_gravity = 1.0258",
        "specific_gravity = 10.258",
        "specific_gravity = 10.258",
        "between 0.9 and 1.2",
    ),
    (
        "specific_gravity = 1.0258",
        "specific_gravity = 1.058",
        "[salinity]",
        "hydrometer reading is 1.058",
    ),
    (
        "reference = \"25/25 C\"",
        "reference = \"25/25\"",
        "reference = \"25/25\"",
        "expected one of `25/25 C`",
    ),
    (
        "altitude_m = 430.0",
        "barometer_hpa = 966.0",
        "[air_pressure]",
        "either barometer_hpa alone",
    ),
    (
        "millivolts = -170.2",
        "millivolts = 170.2",
        "[ph_probe]",
        "falls as pH rises",
    ),
    (
        "tank_millivolts = -63.1",
        "tank_millivolts = 200",
        "[ph_probe]",
        "between 6 and 10",
    ),
    (
        "counted_as = \"NO3\"",
        "counted_as = \"NO2\"",
        "counted_as = \"NO2\"",
        "expected `NO3` or `N`",
    ),
    (
        "not_detected_below_mg_per_l = 0.02",
        "not_detected_below_mg_per_l = 0",
        "not_detected_below_mg_per_l = 0",
        "no kit proves that there is none",
    ),
    (
        "mg_per_l = 0.06",
        "mg_per_l = 0.00",
        "mg_per_l = 0.00",
        "not_detected_below_mg_per_l",
    ),
    (
        "step_mg_per_l = 5.0",
        "",
        "[calcium]",
        "resolution or its absolute uncertainty",
    ),
    (
        "dry_mass_kg = 38.0",
        "dry_mass_kg = 3800",
        "[volume]",
        "would leave no water",
    ),
];

#[test]
fn a_bad_line_is_refused_where_it_stands() {
    for (line, by, named, words) in BAD_LINES {
        let text = with(line, by);
        let number = 1 + text.lines().position(|l| l == named).unwrap();
        let refusal = look("my_tank.toml", &text).unwrap_err().to_string();
        for expected in ["my_tank.toml", &format!("line {number},"), named, words] {
            assert!(refusal.contains(expected), "{by}: {refusal}");
        }
    }
}

#[test]
fn a_missing_section_is_named() {
    for section in [
        "temperature",
        "salinity",
        "air_pressure",
        "alkalinity",
        "ph_probe",
    ] {
        let refusal = look("my_tank.toml", &without(section))
            .unwrap_err()
            .to_string();
        assert!(refusal.contains(section), "{refusal}");
    }
    assert!(look("my_tank.toml", "").is_err());
}

#[test]
fn a_probe_and_a_display_are_one_too_many() {
    let both = format!("{REEF}\n[ph_display]\nph_nbs = 8.2\nuncertainty_ph = 0.05\n");
    let refusal = look("my_tank.toml", &both).unwrap_err().to_string();
    assert!(refusal.contains("not both"), "{refusal}");
}

#[test]
fn differences_widen() {
    let difference = Estimate::new(3.0, 0.3).less(Estimate::new(1.0, 0.4));
    close(difference.value, 2.0, 1e-15);
    close(difference.standard_uncertainty, 0.5, 1e-12);
    assert!(difference.differs_from_zero());
}
