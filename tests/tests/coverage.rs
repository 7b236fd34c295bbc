//! Every published relation has a check against something outside this project.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use halimeda::Relation;
use halimeda_tests::tolerance;

/// What a relation is held against.
#[derive(Debug, Clone, Copy)]
enum Check {
    /// A test with values printed by a source, in a file of the repository.
    Published(&'static str, &'static str),
    /// Only a reference implementation, by the output that depends on it: for
    /// relations whose papers print no value that could be found.
    Reference(&'static str),
}

use Check::{Published, Reference};

const CONSTANTS: &str = "tests/tests/published_constants.rs";
const WATER: &str = "tests/tests/published_water.rs";
const GAS: &str = "tests/tests/published_gas.rs";
const NUTRIENT: &str = "tests/tests/published_nutrient.rs";
const PROBE: &str = "tests/tests/published_probe.rs";
const HANDBOOK: Check = Published(CONSTANTS, "dickson_sabine_christian_2007_chapter_5");

/// The checks, in the order of the register.
const CHECKS: &[(Relation, &[Check])] = &[
    (
        Relation::K0Weiss1974,
        &[
            HANDBOOK,
            Published(CONSTANTS, "murray_riley_1971_co2_solubility"),
        ],
    ),
    (Relation::K1K2Lueker2000, &[HANDBOOK]),
    (
        Relation::K1K2DicksonMillero1987,
        &[
            Published(
                CONSTANTS,
                "two_fits_of_mehrbach_1973_agree_through_the_scale_factors",
            ),
            Reference("k1"),
        ],
    ),
    (
        Relation::K1K2Millero2010,
        &[Published(CONSTANTS, "millero_2006_and_its_successors")],
    ),
    (
        Relation::K1K2Waters2014,
        &[Published(CONSTANTS, "millero_2006_and_its_successors")],
    ),
    (
        Relation::K1K2Sulpis2020,
        &[
            Published(CONSTANTS, "sulpis_2020_lies_below_lueker_2000_in_the_cold"),
            Reference("k1"),
        ],
    ),
    (Relation::KbDickson1990, &[HANDBOOK]),
    (Relation::KwMillero1995, &[HANDBOOK]),
    (Relation::KsDickson1990, &[HANDBOOK]),
    (Relation::KsKhoo1977, &[Reference("kso4")]),
    (Relation::KfPerezFraga1987, &[HANDBOOK]),
    (
        Relation::KfDicksonRiley1979,
        &[Published(CONSTANTS, "doe_1994_hydrogen_fluoride")],
    ),
    (Relation::KpYaoMillero1995, &[HANDBOOK]),
    (Relation::KsiYaoMillero1995, &[HANDBOOK]),
    (
        Relation::Knh4CleggWhitfield1995,
        &[
            Published(CONSTANTS, "bates_pinching_1949_ammonium_in_pure_water"),
            Published(CONSTANTS, "khoo_1977_ammonium_in_seawater"),
            Published(NUTRIENT, "clegg_whitfield_1995_fractions"),
        ],
    ),
    (
        Relation::Kh2sMillero1988,
        &[Published(CONSTANTS, "millero_1988_hydrogen_sulfide")],
    ),
    (
        Relation::KspMucci1983,
        &[
            Published(CONSTANTS, "zeebe_wolf_gladrow_2001_appendix_a"),
            Published(CONSTANTS, "mucci_1983_measurements_at_25_degrees"),
        ],
    ),
    (Relation::FhTakahashi1982, &[Reference("ph_nbs")]),
    (
        Relation::DensityEos80,
        &[Published(WATER, "density_eos_80")],
    ),
    (
        Relation::SalinityPss78,
        &[Published(WATER, "practical_salinity_scale_1978")],
    ),
    (
        Relation::VapourPressureWeissPrice1980,
        &[Published(WATER, "vapour_pressure")],
    ),
    (
        Relation::RefractiveIndexMillardSeaver1990,
        &[Published(WATER, "refractive_index_millard_seaver_table_2")],
    ),
    (
        Relation::OxygenGarciaGordon1992,
        &[Published(GAS, "oxygen_check_values_of_garcia_and_gordon")],
    ),
    (
        Relation::NitrogenHammeEmerson2004,
        &[Published(
            GAS,
            "nitrogen_and_argon_check_values_of_hamme_and_emerson",
        )],
    ),
    (
        Relation::ArgonHammeEmerson2004,
        &[Published(
            GAS,
            "nitrogen_and_argon_check_values_of_hamme_and_emerson",
        )],
    ),
    (
        Relation::SchmidtWanninkhof2014,
        &[Published(
            GAS,
            "schmidt_numbers_at_20_celsius_of_wanninkhof",
        )],
    ),
    (
        Relation::ViscositySharqawy2010,
        &[Published(
            "crates/halimeda/src/water/viscosity.rs",
            "dynamic_viscosity_agrees_with_dorsey",
        )],
    ),
    (
        Relation::ThetaAsce2006,
        &[Published(
            "tests/tests/gas_behaviour.rs",
            "transfer_scales_with_the_schmidt_number_of_gas_and_temperature",
        )],
    ),
    (
        Relation::TrisDelVallsDickson1998,
        &[Published(PROBE, "seawater_buffers")],
    ),
    (
        Relation::AminopyridineDickson1993,
        &[Published(PROBE, "seawater_buffers")],
    ),
    (
        Relation::CalciumHydroxideBates1956,
        &[Published("tests/tests/dosing.rs", "strength_of_limewater")],
    ),
];

#[test]
fn every_relation_has_a_check() {
    let covered: BTreeSet<Relation> = CHECKS
        .iter()
        .filter(|(_, checks)| !checks.is_empty())
        .map(|(relation, _)| *relation)
        .collect();
    let missing: Vec<_> = Relation::ALL
        .iter()
        .filter(|relation| !covered.contains(relation))
        .collect();
    assert!(
        missing.is_empty(),
        "no check against a published value is named here for {missing:?}"
    );
}

#[test]
fn every_check_exists() {
    for (relation, checks) in CHECKS {
        for check in *checks {
            match check {
                Published(file, test) => assert!(
                    is_test(file, test),
                    "{relation:?}: {file} has no test `{test}`"
                ),
                Reference(output) => assert!(
                    tolerance::TABLE
                        .iter()
                        .any(|row| row.outputs.contains(output)),
                    "{relation:?}: no output `{output}` is compared"
                ),
            }
        }
    }
}

/// Whether a file of the repository has a test of that name.
fn is_test(file: &str, name: &str) -> bool {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(file);
    let text = fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    let lines: Vec<&str> = text.lines().map(str::trim_start).collect();
    let head = format!("fn {name}(");
    lines.iter().enumerate().any(|(at, line)| {
        let attributes = lines[..at].iter().rev().take_while(|l| l.starts_with("#["));
        line.starts_with(&head) && attributes.copied().any(|l| l == "#[test]")
    })
}
