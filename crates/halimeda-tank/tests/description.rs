//! Descriptions of tanks as keepers write them: whole, broken and mangled.

#![allow(clippy::unwrap_used)]

use std::fs;
use std::path::{Path, PathBuf};

use halimeda::carbonate::{Bases, EquilibriumOptions};
use halimeda::process::FeedKind;
use halimeda::{Alkalinity, Content, PracticalSalinity, Temperature, Water, species};
use halimeda_tank::description::TankFile;
use halimeda_tank::{Event, RunOptions, simulate};

fn here(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}

/// What a broken description says of itself in its first lines:
/// `# expect LINE KEY: part of the message`.
struct Expected {
    line: usize,
    key: String,
    message: String,
}

fn expected(file: &[u8]) -> Vec<Expected> {
    String::from_utf8_lossy(file)
        .trim_start_matches('\u{feff}')
        .lines()
        .map_while(|line| line.strip_prefix("# expect "))
        .map(|line| {
            let (line, rest) = line.split_once(' ').unwrap();
            let (key, message) = rest.split_once(": ").unwrap();
            Expected {
                line: line.parse().unwrap(),
                key: key.to_owned(),
                message: message.trim().to_owned(),
            }
        })
        .collect()
}

#[test]
fn every_broken_description_is_told_what_is_wrong_where() {
    let mut count = 0;
    let mut wrong = Vec::new();
    for entry in fs::read_dir(here("tests/broken")).unwrap() {
        let path = entry.unwrap().path();
        let file = fs::read(&path).unwrap();
        let expected = expected(&file);
        assert!(!expected.is_empty(), "{} expects nothing", path.display());
        count += 1;
        let Err(error) = TankFile::from_toml(&file) else {
            wrong.push(format!("{} was read", path.display()));
            continue;
        };
        let problems = error.problems();
        let agree = problems.len() == expected.len()
            && expected.iter().all(|e| {
                problems.iter().any(|p| {
                    p.line() == e.line && p.key() == e.key && p.to_string().contains(&e.message)
                })
            });
        if !agree {
            wrong.push(format!("{}: {error}", path.display()));
        }
    }
    assert!(count >= 100, "only {count} broken descriptions");
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

fn close(value: f64, expected: f64, relative: f64) {
    assert!(
        (value - expected).abs() <= relative * expected.abs(),
        "{value}, not {expected}"
    );
}

/// A file in units of every kind, against numbers converted by hand: density
/// 1023.343 kg/m³ at salinity 35 and 25 °C (UNESCO 1983, Tech. Pap. Mar. Sci. 44),
/// molar masses from the atomic weights of IUPAC 2021, customary units as NIST
/// Handbook 44 defines them.
#[test]
fn values_land_in_their_places_and_units() {
    let file = TankFile::from_toml(fs::read(here("tests/data/complete.toml")).unwrap()).unwrap();
    const BY_DENSITY: f64 = 1e-5;

    let t = &file.tank;
    assert_eq!(t.name, "Everything");
    close(t.net_volume_l, 47.5 * 3.785_411_784, 1e-12);
    close(t.temperature_celsius, 25.0, 1e-12);
    close(t.practical_salinity, 35.0, 0.0);
    close(t.surface_area_m2, 0.5, 1e-12);
    close(t.overflow_l_per_h, 1500.0, 1e-12);
    close(t.rock_area_m2, 60.0 * 0.092_903_04, 1e-12);
    close(t.iron_oxide_grams, 2.0 * 28.349_523_125, 1e-12);
    close(t.evaporation_l_per_day, 2.4, 1e-12);
    close(t.living_area_m2, 1.2, 0.0);
    close(t.coral_area_m2, 0.5, 0.0);
    close(t.coralline_area_m2, 500.0 * 0.000_645_16, 1e-12);
    close(t.livestock_grams, 0.4 * 453.592_37, 1e-12);
    close(t.air.co2_ppm, 650.0, 1e-12);
    close(t.air.pressure_atm, 1005.0 / 1013.25, 1e-12);

    let w = &t.water;
    close(w.alkalinity_umol_per_kg, 2833.85, BY_DENSITY);
    close(w.ammonia_umol_per_kg, 1.395_29, BY_DENSITY);
    close(w.nitrate_umol_per_kg, 76.7408, BY_DENSITY);
    close(w.phosphate_umol_per_kg, 0.946_461, BY_DENSITY);
    close(w.calcium_umol_per_kg, 10_251.7, BY_DENSITY);
    close(w.magnesium_umol_per_kg, 52_266.9, BY_DENSITY);
    close(w.strontium_umol_per_kg, 87.9471, BY_DENSITY);
    close(w.detritus_dry_grams, 20.0, 1e-12);
    // 6.5 mg/L of the 206.77 µmol/kg at 1 atm (Garcia & Gordon 1992), less for
    // the lower pressure of dry air at a vapour pressure of 0.0306 atm.
    close(
        w.oxygen_saturation,
        0.960_02 * 0.9694 / (0.991_86 - 0.0306),
        1e-4,
    );

    let foam = t.foam_fractionator.unwrap();
    close(foam.water_l_per_h, 150.0 * 3.785_411_784, 1e-12);
    close(foam.air_co2_ppm, 420.0, 0.0);

    let s = &t.screen;
    close(s.width_cm, 30.48, 1e-12);
    close(s.height_cm, 25.0, 1e-12);
    assert_eq!(s.lit_faces, 2);
    // 48 W at 3.1 µmol/J, of which 0.55 falls on 2 x 0.3048 m x 0.25 m.
    close(s.irradiance_umol_per_m2_s, 537.008, 1e-5);
    close(s.flow_l_per_h_per_cm, 8.0 * 3.785_411_784 / 2.54, 1e-12);
    close(s.age_days, 182.0, 1e-12);
    close(s.lamp_hours, 4320.0, 1e-12);
    close(s.turf_g_dry_per_m2, 30.0, 1e-12);

    let plan = &file.schedule;
    close(plan.display_light.start_hour, 10.5, 0.0);
    close(plan.display_light.hours, 9.75, 1e-12);
    close(plan.screen_light.start_hour, 20.0, 0.0);
    close(plan.screen_light.hours, 18.0, 1e-12);

    let [own, sheet] = plan.feedings.as_slice() else {
        panic!("{:?}", plan.feedings)
    };
    close(own.hour, 9.0, 0.0);
    close(own.grams, 2.5, 1e-12);
    let FeedKind::Custom(composition) = own.kind else {
        panic!("{:?}", own.kind)
    };
    close(composition.water_fraction, 0.08, 1e-12);
    close(composition.protein_fraction_of_dry, 0.42, 1e-12);
    close(composition.phosphorus_fraction_of_dry, 0.011, 1e-12);
    close(composition.carbon_fraction_of_dry, 0.44, 1e-12);
    close(sheet.hour, 18.75, 0.0);
    close(sheet.grams, 0.25 * 28.349_523_125, 1e-12);
    assert_eq!(sheet.kind, FeedKind::DriedMacroalgae);

    let harvest = plan.harvest.unwrap();
    close(harvest.every_days, 9.0, 0.0);
    close(harvest.first_day, 17.0, 1e-12); // 1 February, from 15 January
    close(harvest.kept_share, 0.2, 0.0);
    close(harvest.fed_back_share, 0.1, 1e-12);

    let change = plan.water_change.unwrap();
    close(change.every_days, 14.0, 0.0);
    close(change.first_day, 10.0, 1e-12);
    close(change.share, 5.0 * 4.546_09 / (47.5 * 3.785_411_784), 1e-12);
    // 1.0264 at 25/25 °C is a salinity of 35, within the digits of the reading.
    close(change.water.practical_salinity, 35.0, 5e-4);
    close(change.water.alkalinity_umol_per_kg, 2929.06, BY_DENSITY);
    close(change.water.calcium_umol_per_kg, 10_065.1, BY_DENSITY);
    close(change.water.magnesium_umol_per_kg, 53_000.0, 1e-12);
    close(change.water.strontium_umol_per_kg, 89.2211, BY_DENSITY);
    close(change.water.nitrate_umol_per_kg, 7.880_09, BY_DENSITY);
    close(change.water.phosphate_umol_per_kg, 0.102_895, BY_DENSITY);
    assert_eq!(plan.salinity_check_every_days, Some(30.0));

    let d = &plan.dosing;
    close(d.bicarbonate_mol_per_day, 4.0 / 84.006, 1e-5);
    close(d.carbonate_mol_per_day, 25.0 * 0.07 / 105.988, 1e-5);
    // Each HPO4 is an H2PO4 with a hydroxide.
    let phosphate_with_base = 0.005 / 141.957 + 0.005 / 174.174;
    close(d.hydroxide_mol_per_day, 0.010 + phosphate_with_base, 1e-5);
    close(d.calcium_mol_per_day, 0.038_852, 1e-4);
    close(d.magnesium_mol_per_day, 0.006_947_5, 1e-4);
    close(d.nitrate_mol_per_day, 0.003_012_59, 1e-5);
    let phosphate = 0.005 / 119.976 + 0.005 / 136.084 + phosphate_with_base;
    close(d.phosphate_mol_per_day, phosphate, 1e-5);
    close(d.organic_carbon_mol_per_day, 0.020, 1e-12);
    assert_eq!(d.adjusted_every_days, Some(7.0));
    close(d.limewater_mol_per_l, 1.2 / 74.092, 1e-5);
    // 30 dKH less 2.9 meq/L in 20 L, two equivalents to the mole of carbonate.
    let dissolved = (30.0 * 20.0 / 56.077 - 2.9) * 20.0 / 2e3;
    close(d.reactor_mol_per_day, dissolved, 1e-5);
    assert!(d.reactor_excess_co2_per_mol > 0.3 && d.reactor_excess_co2_per_mol < 2.0);

    // 06:00 UTC on 20 January is 01:00 in New York.
    let expected = [
        (5.0 + 1.0 / 24.0, Event::ScreenFlowDrops { share: 0.3 }),
        (6.5, Event::ScreenFlowRestored),
        (
            20.0,
            Event::Harvest {
                kept_share: 0.15,
                fed_back_share: 1.0,
            },
        ),
        (30.0, Event::NewIronOxide { grams: 80.0 }),
        (40.0, Event::FeedingScaled { factor: 1.5 }),
        (44.0, Event::FeedingScaled { factor: 1.0 }),
        (50.0, Event::RoomCo2 { ppm: 1200.0 }),
        (52.0, Event::RoomCo2 { ppm: 650.0 }),
        (60.0, Event::PumpStops),
        (60.5, Event::PumpRestored),
        (61.0, Event::HarvestsStop),
        (75.0, Event::HarvestsResume),
        (76.0, Event::KeeperLeaves),
        (76.0, Event::TopOffStops),
        (77.0, Event::TopOffRestored),
        (78.0, Event::KeeperReturns),
        (80.0, Event::NewScreen),
        (81.0, Event::NewScreenLamp),
    ];
    assert_eq!(plan.events.len(), expected.len());
    for (dated, (day, event)) in plan.events.iter().zip(expected) {
        close(dated.day, day, 1e-12);
        assert_eq!(dated.event, event);
    }

    let goals = file.goals;
    let nitrate = goals.nitrate_umol_per_kg.unwrap();
    close(nitrate.low, 20.0, 1e-12);
    close(nitrate.high, 5.0e3 / 62.004 / 1.023_343, BY_DENSITY);
    let phosphate = goals.phosphate_umol_per_kg.unwrap();
    close(phosphate.low, 0.2 / 1.023_343, BY_DENSITY);
    close(phosphate.high, 100.0 / 94.970 / 1.023_343, BY_DENSITY);
    assert_eq!(goals.ph_swing, Some(0.25));
    close(
        goals.night_oxygen_saturation.unwrap(),
        w.oxygen_saturation * 5.5 / 6.5,
        1e-12,
    );
    let drift = goals.alkalinity_drift_umol_per_kg_per_day.unwrap();
    close(drift, 50.0 / 1.023_343, BY_DENSITY);

    let p = file.parameters();
    close(p.turf.exuded_share, 0.06, 0.0);
    close(p.turf.reserve_days, 4.5, 0.0);
    close(p.lamp.efficacy_umol_per_joule, 3.1, 0.0);
    let range = file
        .parameter_overrides
        .iter()
        .find(|o| o.low < o.high)
        .unwrap();
    assert_eq!((range.low, range.value, range.high), (0.04, 0.06, 0.10));

    assert_eq!(file.start, Some(jiff::civil::date(2026, 1, 15)));
    let zone = file.time_zone.unwrap();
    assert_eq!(zone.iana_name(), Some("America/New_York"));
    close(file.horizon_days, 182.0, 1e-12);
    assert!(file.assumptions.is_empty(), "{:?}", file.assumptions);
}

/// The inorganic carbon read from a pH gives that pH back.
#[test]
fn a_ph_becomes_the_inorganic_carbon_that_has_it() {
    let file = TankFile::from_toml(fs::read(here("tests/data/complete.toml")).unwrap()).unwrap();
    let w = file.tank.water;
    let state = Water::new(
        Temperature::from_celsius(25.0).unwrap(),
        PracticalSalinity::new(35.0).unwrap(),
    )
    .equilibria(&EquilibriumOptions::default())
    .unwrap()
    .with_bases(Bases {
        phosphate: Content::from_umol_per_kg(w.phosphate_umol_per_kg).unwrap(),
        ammonia: Content::from_umol_per_kg(w.ammonia_umol_per_kg).unwrap(),
        ..Bases::NONE
    })
    .unwrap()
    .solve(
        Alkalinity::from_umol_per_kg(w.alkalinity_umol_per_kg).unwrap(),
        Content::<species::InorganicCarbon>::from_umol_per_kg(
            w.inorganic_carbon_umol_per_kg.unwrap(),
        )
        .unwrap(),
    )
    .unwrap();
    close(state.ph_nbs().unwrap().value(), 8.15, 1e-12);
}

#[test]
fn the_invented_tanks_are_read_and_simulated() {
    for name in ["invented_reef", "invented_young_tank"] {
        let text = fs::read_to_string(here(&format!("examples/{name}.toml"))).unwrap();
        assert!(
            text.starts_with("# An invented tank"),
            "{name} is not marked as invented"
        );
        let file = TankFile::from_toml(&text).unwrap();
        assert!(file.tank.check().is_ok() && file.schedule.check().is_ok());
        let run = simulate(
            &file.tank,
            &file.schedule,
            &file.parameters(),
            &RunOptions::days(2.0),
        );
        assert!(run.is_ok(), "{name}: {run:?}");
    }
}

#[test]
fn line_ends_and_a_byte_order_mark_change_nothing() {
    let text = fs::read_to_string(here("examples/invented_reef.toml")).unwrap();
    let plain = TankFile::from_toml(&text).unwrap();
    let windows = format!("\u{feff}{}", text.replace('\n', "\r\n"));
    assert_eq!(TankFile::from_toml(windows).unwrap(), plain);
}

/// Pieces that a mangled file may hold.
const PIECES: [&str; 24] = [
    "\"",
    "'''",
    "\"\"\"",
    "[",
    "]",
    "[[",
    "{",
    "}",
    "=",
    "#",
    "\n",
    "\r",
    "\u{feff}",
    "\0",
    "nan",
    "-inf",
    "1e999",
    "99999999999999999999",
    "°",
    "[[event]]\nat = \"1 d\"\n",
    "2026-02-30",
    "true",
    " mg/L",
    ".",
];

/// Changes a few places of a file at random.
fn mangled(random: &mut fastrand::Rng, file: &[u8]) -> Vec<u8> {
    let mut bytes = file.to_vec();
    for _ in 0..random.usize(1..=6) {
        let at = random.usize(0..=bytes.len());
        let end = (at + random.usize(0..40)).min(bytes.len());
        match random.u8(0..6) {
            0 => drop(bytes.drain(at..end)),
            1 => {
                let copy = bytes[at..end].to_vec();
                let to = random.usize(0..=bytes.len());
                bytes.splice(to..to, copy).for_each(drop);
            }
            2 if at < bytes.len() => bytes[at] = random.u8(..),
            3 if at < bytes.len() => bytes[at] = random.u8(b'0'..=b'9'),
            4 => bytes.truncate(at),
            _ => {
                let piece = PIECES[random.usize(..PIECES.len())].bytes();
                bytes.splice(at..at, piece).for_each(drop);
            }
        }
    }
    bytes
}

#[test]
fn mangled_files_are_read_or_refused_but_nothing_else() {
    let mut random = fastrand::Rng::with_seed(20_260_115);
    let mut refused = 0;
    for name in [
        "examples/invented_reef.toml",
        "examples/invented_young_tank.toml",
        "tests/data/complete.toml",
    ] {
        let file = fs::read(here(name)).unwrap();
        for _ in 0..3000 {
            let bytes = mangled(&mut random, &file);
            let lines = bytes.iter().filter(|&&b| b == b'\n').count() + 1;
            match TankFile::from_toml(&bytes) {
                Ok(read) => {
                    read.tank.check().unwrap();
                    read.schedule.check().unwrap();
                    read.parameters().check().unwrap();
                    assert!(read.horizon_days.is_finite());
                }
                Err(error) => {
                    refused += 1;
                    assert!(!error.problems().is_empty());
                    assert!(!error.to_string().is_empty());
                    for problem in error.problems() {
                        assert!((1..=lines).contains(&problem.line()), "{problem}");
                        assert!(problem.column() >= 1);
                        assert!(!problem.found().is_empty() && !problem.expected().is_empty());
                    }
                }
            }
        }
    }
    assert!(refused > 3000, "the files are hardly mangled: {refused}");
}

/// Files made to hurt are refused, and soon.
#[test]
fn hostile_files_are_refused() {
    let many = |piece: &str, n: usize| piece.repeat(n);
    let events =
        (0..20_000).map(|i| format!("[[event]]\nat = \"{i} min\"\nwhat = \"new_screen\"\n"));
    let keys = (0..20_000).map(|i| format!("key_{i} = {i}\n"));
    for file in [
        many("[", 100_000),
        format!("a = {}", many("[", 100_000)),
        format!("a = {}", many("{a=", 100_000)),
        format!("[{}b]\n", many("a.", 50_000)),
        many("\n", 1_000_000),
        many("net_volume = \"180 L\"\n", 20_000),
        format!("[tank]\nnet_volume = \"{}\"", many("9", 1_000_000)),
        format!("[tank]\nnet_volume = \"1 {}\"", many("L/", 500_000)),
        events.collect(),
        keys.collect(),
    ] {
        assert!(TankFile::from_toml(&file).is_err());
    }
}
