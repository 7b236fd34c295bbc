//! Cost of a tank in time, beside the elementary functions and one solve of the
//! carbonate system, in one run on one machine.

// A benchmark that cannot be set up has nothing to measure.
#![allow(clippy::expect_used)]

use divan::Bencher;
use halimeda_tank::description::TankFile;
use halimeda_tank::fit::{FitOptions, fit};
use halimeda_tank::log::invented::{Invented, Keeper, invent};
use halimeda_tank::log::logged_setup;
use halimeda_tank::plan::{Case, Goals, HardLimits, Levers, PlanOptions, plan};
use halimeda_tank::{EnsembleOptions, Ranges, RunOptions, ensemble, simulate};
use std::ops::ControlFlow;

fn main() {
    divan::main();
}

fn reef() -> TankFile {
    TankFile::from_toml(include_str!(
        "../../crates/halimeda-tank/examples/invented_reef.toml"
    ))
    .expect("the description is tested")
}

/// One tank over one year at a relative tolerance of 1e-6, on one core.
#[divan::bench(args = [1.0, 1.0 / 24.0], sample_count = 20)]
fn tank_year_sampled_every_days(bencher: Bencher<'_, '_>, every: f64) {
    let file = reef();
    let parameters = file.parameters();
    let options = RunOptions::days(365.0).sampled_every_days(every);
    bencher.bench(|| simulate(&file.tank, &file.schedule, &parameters, &options));
}

/// A thousand tanks over ninety days, on all cores, as an ensemble follows them.
#[divan::bench(sample_count = 3)]
fn thousand_tanks_ninety_days(bencher: Bencher<'_, '_>) {
    let setup = reef().setup();
    let members = Ranges::default().draw(1000, 1).expect("default ranges");
    let options = EnsembleOptions::days(90.0);
    bencher.bench(|| {
        ensemble(&setup, &members, &options, &mut |_, _| {
            ControlFlow::Continue(())
        })
    });
}

/// A whole plan with 64 members, on all cores.
#[divan::bench(sample_count = 3)]
fn whole_plan(bencher: Bencher<'_, '_>) {
    let file = reef();
    let setup = file.setup();
    let nominal = file.parameters();
    let members = Ranges::default().draw(64, 1).expect("default ranges");
    let goals = Goals::described(&file.goals, &file.tank).expect("the description is tested");
    bencher.bench(|| {
        let case = Case {
            setup: &setup,
            nominal: &nominal,
            members: &members,
            goals: &goals,
            options: &PlanOptions::default(),
        };
        plan(
            &case,
            &Levers::default(),
            &HardLimits::default(),
            &mut |_, _| ControlFlow::Continue(()),
        )
    });
}

/// A log of 120 days with probes by the hour and two incidents.
fn log() -> Invented {
    let file = reef();
    invent(
        &file.setup(),
        &file.parameters(),
        &Keeper::of_days(120.0, 1),
    )
    .expect("the invented tank can be followed")
}

/// One run through that log as a fit makes it, on one core: what the fit below is to be
/// held against, divided by the number of cores.
#[divan::bench(sample_count = 20)]
fn one_run_through_a_log_of_120_days(bencher: Bencher<'_, '_>) {
    let file = reef();
    let setup = logged_setup(&file.setup(), &log().log).expect("the log is sound");
    let parameters = file.parameters();
    let options = RunOptions {
        relative_tolerance: 1e-4,
        ..RunOptions::days(120.0).sampled_every_days(1.0 / 12.0)
    };
    bencher.bench(|| simulate(&setup.tank, &setup.schedule, &parameters, &options));
}

/// The fit to that log with 64 members, on all cores.
#[divan::bench(sample_count = 3)]
fn fit_to_a_log_of_120_days(bencher: Bencher<'_, '_>) {
    let setup = reef().setup();
    let log = log().log;
    bencher.bench(|| {
        fit(
            &setup,
            &log,
            &Ranges::default(),
            &FitOptions::default(),
            &mut |_, _| ControlFlow::Continue(()),
        )
    });
}
