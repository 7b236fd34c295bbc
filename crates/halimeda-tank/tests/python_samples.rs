//! Samples of the invented tank that the tests of the Python package read: the same
//! run has to give the same there. `HALIMEDA_WRITE_SAMPLES=1` writes them anew, which
//! a changed model needs.

use std::fs;
use std::path::Path;

use halimeda_tank::description::TankFile;
use halimeda_tank::{RunOptions, Sample, simulate};

#[test]
fn samples_that_python_is_held_to_are_those_of_the_model() {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let path = here.join("../../python/tests/tank/data/invented_reef_10_days.csv");
    let file = TankFile::from_toml(fs::read(here.join("examples/invented_reef.toml")).unwrap());
    let file = file.unwrap();
    let options = RunOptions::days(10.0).sampled_every_days(0.5);
    let run = simulate(&file.tank, &file.schedule, &file.parameters(), &options).unwrap();
    if std::env::var_os("HALIMEDA_WRITE_SAMPLES").is_some() {
        let mut csv = csv::Writer::from_path(&path).unwrap();
        for sample in &run.samples {
            csv.serialize(sample).unwrap();
        }
        csv.flush().unwrap();
    }
    let mut csv = csv::Reader::from_path(&path).unwrap();
    let written: Vec<Sample> = csv.deserialize().map(Result::unwrap).collect();
    assert_eq!(written.len(), run.samples.len());
    for (a, b) in written.iter().zip(&run.samples) {
        assert_eq!(a.day, b.day);
        // Elementary functions of another machine differ in their last bits.
        for (a, b) in [
            (a.ph_total, b.ph_total),
            (a.alkalinity_umol_per_kg, b.alkalinity_umol_per_kg),
            (a.nitrate_mg_per_l, b.nitrate_mg_per_l),
            (a.turf_g_dry_per_m2, b.turf_g_dry_per_m2),
        ] {
            assert!((a - b).abs() <= 1e-9 * b.abs(), "{a} {b}");
        }
    }
}
