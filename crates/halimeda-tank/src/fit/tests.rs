use std::collections::BTreeMap;
use std::ops::ControlFlow;

use rayon::prelude::*;
use statrs::distribution::{ContinuousCDF, Normal};

use super::*;
use crate::log::invented::{Invented, Keeper, invent};
use crate::log::{Interval, Measured, Reading};
use crate::testing::setup;

fn go(_: f64, _: f64) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

/// Cheap enough for hundreds of fits.
const QUICK: FitOptions = FitOptions {
    members: 16,
    member_steps: 6,
    chain_steps: 2,
    search_steps: 4,
    relative_tolerance: 1e-3,
    seed: 1,
};

fn keeper(days: f64, seed: u64) -> Keeper {
    Keeper {
        test_every_days: 3.0,
        probe_every_hours: Some(2.0),
        ..Keeper::of_days(days, seed).without_incidents()
    }
}

/// A log of the nominal tank.
fn nominal(days: f64) -> Invented {
    invent(&setup(), &Parameters::default(), &keeper(days, 7)).unwrap()
}

fn quick(log: &Log) -> Result<Fit> {
    fit(&setup(), log, &Ranges::default(), &QUICK, &mut go)
}

/// Fits to logs of tanks whose every unknown is drawn from its range: by unknown how
/// often it was informed, and how often the truth then lay within the 5 to 95 %.
fn coverage(tanks: u64, days: f64, options: &FitOptions) -> BTreeMap<String, (u32, u32)> {
    let ranges = Ranges::default();
    let unknowns = Unknowns::of(&setup(), &ranges);
    let of_tank = |tank: u64| {
        let mut random = fastrand::Rng::with_seed(1000 + tank);
        let mut draw = || Normal::standard().inverse_cdf(1e-12 + (1.0 - 2e-12) * random.f64());
        // A tank that dies of its parameters keeps no log: the next is taken.
        let (z, log) = (0..20)
            .find_map(|_| {
                let z: Vec<f64> = (0..unknowns.len()).map(|_| draw()).collect();
                let (setup, parameters) = unknowns.at(&z);
                let invented = invent(&setup, &parameters, &keeper(days, tank)).ok()?;
                Some((z, invented.log))
            })
            .unwrap();
        let fit = fit(&setup(), &log, &ranges, options, &mut go).unwrap();
        let truths = unknowns.all.iter().zip(&z).map(|(u, &z)| u.value(z));
        let known = fit.fitted.into_iter().zip(truths);
        known
            .filter(|(f, _)| f.informed)
            .map(|(f, truth)| {
                let q = &f.posterior;
                (f.path, (q.p5..=q.p95).contains(&truth))
            })
            .collect::<Vec<_>>()
    };
    let fits: Vec<_> = (0..tanks).into_par_iter().map(of_tank).collect();
    let mut covered = BTreeMap::new();
    for (path, hit) in fits.into_iter().flatten() {
        let (count, hits): &mut (u32, u32) = covered.entry(path).or_default();
        *count += 1;
        *hits += u32::from(hit);
    }
    covered
}

/// Where the 5 to 95 % are honest, the truth lies within them nine times of ten. Counts
/// are subject to chance: one standard error is left to it, or two where fewer than a
/// hundred logs inform an unknown; fewer than ten are judged together with all others.
#[test]
fn ranges_hold_the_truth_as_often_as_they_say() {
    let covered = coverage(200, 24.0, &QUICK);
    let (low, high) = (0.80, 0.97);
    let mut pooled = (0, 0);
    let mut outside = Vec::new();
    for (path, &(count, hits)) in &covered {
        let share = f64::from(hits) / f64::from(count);
        println!("{path:55} {count:4} {share:.3}");
        pooled.0 += count;
        pooled.1 += hits;
        let errors = if count < 100 { 2.0 } else { 1.0 };
        let chance = |end: f64| errors * (end * (1.0 - end) / f64::from(count)).sqrt();
        let judged = count >= 10;
        if judged && (share < low - chance(low) || share > high + chance(high)) {
            outside.push((path, count, share));
        }
    }
    let share = f64::from(pooled.1) / f64::from(pooled.0);
    println!("{:55} {:4} {share:.3}", "all", pooled.0);
    assert!((low..=high).contains(&share), "{share}");
    assert!(outside.is_empty(), "{outside:?}");
    // A keeper's tests and probes tell of at least a dozen unknowns.
    assert!(covered.values().filter(|(count, _)| *count >= 100).count() >= 10);
}

#[test]
fn a_seed_gives_one_fit_whatever_the_number_of_cores() {
    let log = nominal(20.0).log;
    let on = |threads| {
        let pool = rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap();
        pool.install(|| quick(&log)).unwrap()
    };
    let fit = on(1);
    assert_eq!(fit, on(4));
    let options = FitOptions { seed: 2, ..QUICK };
    let other = super::fit(&setup(), &log, &Ranges::default(), &options, &mut go).unwrap();
    assert_ne!(fit.members, other.members);
}

#[test]
fn a_good_log_is_fitted_well_and_narrows_ranges() {
    let invented = nominal(30.0);
    let fit = quick(&invented.log).unwrap();
    assert!(fit.quality.words.starts_with("good"), "{:?}", fit.quality);
    assert!(fit.quality.within_range > 0.85, "{:?}", fit.quality);
    assert_eq!(fit.members.len(), QUICK.members);
    assert!(fit.runs > 200 && fit.effective_draws >= 8.0);
    let informed = fit.informed();
    assert!(informed.len() >= 8, "{}", informed.len());
    assert!(informed.is_sorted_by(|a, b| a.information >= b.information));
    assert_eq!(
        informed.len() + fit.resting_on_ranges().len(),
        fit.fitted.len()
    );
    let ranges = fit.ranges();
    for known in informed {
        let before = Ranges::default().range(&known.path);
        if let (Some(before), Some(after)) = (before, ranges.range(&known.path)) {
            assert!(after.high - after.low <= before.high - before.low);
            assert_eq!(
                after.centre,
                known.posterior.p50.clamp(before.low, before.high)
            );
        }
    }
    let unlearnt = "bacteria.death_per_day";
    assert_eq!(ranges.range(unlearnt), Ranges::default().range(unlearnt));
    // Members can be followed past the log's end.
    let options = crate::EnsembleOptions::days(45.0).keeping(&[crate::Variable::Nitrate]);
    let ahead = crate::ensemble_of(&fit.members, &options, &mut go).unwrap();
    assert!(ahead.failed().is_empty());
}

/// Nitrate and phosphate tell nothing of lime: with them alone calcification and the
/// calcium at the start rest on their ranges, and what is missing is said.
#[test]
fn what_the_log_does_not_tell_still_rests_on_its_range() {
    let mut log = nominal(30.0).log;
    log.probes.clear();
    let nutrient = |m| matches!(m, Measured::Nitrate | Measured::Phosphate);
    log.readings.retain(|r| nutrient(r.measured));
    let fit = quick(&log).unwrap();
    for path in [
        "coral.light_rate_mmol_per_m2_per_day",
        "coralline.light_rate_mmol_per_m2_per_day",
        "start.calcium_umol_per_kg",
        "start.alkalinity_umol_per_kg",
        "gas_transfer.overflow_equilibrated_share",
        "bacteria.death_per_day",
    ] {
        let fitted = fit.of(path).unwrap();
        assert!(!fitted.informed && fitted.information < 0.2, "{fitted:?}");
    }
    assert!(fit.of("start.nitrate_umol_per_kg").unwrap().informed);
    assert!(
        fit.notes
            .iter()
            .any(|n| n == "no calcium test; take one a week")
    );
}

fn reading(day: f64, measured: Measured, low: f64, high: f64) -> Reading {
    Reading {
        day,
        measured,
        interval: Interval::new(low, high, 0.1).unwrap(),
    }
}

/// Nitrate that jumps between 2 and 40 mg/L from one day to the next.
#[test]
fn readings_that_contradict_one_another_are_a_poor_fit() {
    let mut log = nominal(20.0).log;
    log.readings.retain(|r| r.measured != Measured::Nitrate);
    for day in 1..19 {
        let shown = if day % 2 == 0 { 2.0 } else { 40.0 };
        let day = f64::from(day) + 0.5;
        log.readings
            .push(reading(day, Measured::Nitrate, shown, shown + 1.0));
    }
    let fit = quick(&log).unwrap();
    assert!(fit.quality.words.starts_with("poor"), "{:?}", fit.quality);
}

#[test]
fn a_log_that_tells_nothing_names_what_is_missing() {
    let words = |log: &Log| {
        let error = quick(log).unwrap_err();
        assert!(matches!(error, Error::Uninformative(_)), "{error:?}");
        error.to_string()
    };
    let empty = words(&Log::default());
    assert!(
        empty.contains("no nitrate test; take one a week"),
        "{empty}"
    );
    assert!(empty.contains("no weight of a harvest"), "{empty}");
    let once = words(&Log {
        readings: vec![
            reading(3.0, Measured::Nitrate, 4.0, 6.0),
            reading(3.1, Measured::Salinity, 34.0, 36.0),
        ],
        ..Log::default()
    });
    assert!(once.contains("no nitrate test after the first"), "{once}");
}

#[test]
fn a_fit_stops_when_asked_and_tells_how_far_it_is() {
    let log = nominal(15.0).log;
    let mut calls = 0;
    let mut stop = |done: f64, all: f64| {
        calls += 1;
        assert!(done <= all);
        if calls == 4 {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    };
    let stopped = super::fit(&setup(), &log, &Ranges::default(), &QUICK, &mut stop);
    assert!(
        matches!(stopped, Err(Error::Cancelled { .. })),
        "{stopped:?}"
    );
    let (mut last, mut whole) = (0.0, 1.0);
    let mut watch = |done: f64, all: f64| {
        assert!(done >= last);
        (last, whole) = (done, all);
        ControlFlow::Continue(())
    };
    super::fit(&setup(), &log, &Ranges::default(), &QUICK, &mut watch).unwrap();
    assert_eq!(last, whole);
}

#[test]
fn bad_options_and_bad_logs_are_refused() {
    let log = nominal(10.0).log;
    for options in [
        FitOptions {
            members: 1,
            ..QUICK
        },
        FitOptions {
            relative_tolerance: f64::NAN,
            ..QUICK
        },
        FitOptions {
            chain_steps: 0,
            ..QUICK
        },
    ] {
        assert!(super::fit(&setup(), &log, &Ranges::default(), &options, &mut go).is_err());
    }
    let mut bad = log.clone();
    bad.readings[0].day = f64::NAN;
    assert!(quick(&bad).is_err());
    let mut bad = log.clone();
    bad.probes[0].values[5] = f64::NAN;
    let note = "1 probe values that are no numbers were left out";
    assert!(quick(&bad).unwrap().notes.iter().any(|n| n == note));
}

/// A parameter held fixed by its range is no unknown.
#[test]
fn what_is_fixed_is_not_fitted() {
    let path = "turf.max_photosynthesis_per_day";
    let ranges = Ranges::default()
        .narrow(path, ParameterRange::fixed(1.1))
        .unwrap();
    let log = nominal(12.0).log;
    let fit = super::fit(&setup(), &log, &ranges, &QUICK, &mut go).unwrap();
    assert_eq!(fit.of(path), None);
    let fixed = |p: &Parameters| p.turf.max_photosynthesis_per_day == 1.1;
    assert!(fit.parameters().iter().all(fixed));
}

/// A plan is made from where the log ends, over what the log leaves possible.
#[test]
fn a_plan_begins_where_the_log_ends() {
    use crate::plan::{Case, Goals, PlanOptions};
    let log = nominal(20.0).log;
    let fit = quick(&log).unwrap();
    let today = fit.most_likely.at(log.last_day().unwrap()).unwrap();
    let members = fit.parameters();
    let options = PlanOptions {
        days: 30.0,
        window_days: 10.0,
        ..PlanOptions::default()
    };
    let case = Case {
        setup: &today,
        nominal: &fit.most_likely.parameters,
        members: &members,
        goals: &Goals::default(),
        options: &options,
    };
    let answer = crate::plan::harvesting(&case, &mut go).unwrap();
    assert!(answer.best.every_days > 0.0);
    let spread = |q: Quantiles| q.p95 / q.p5;
    let from_draws = Ranges::default().draw(16, 1).unwrap();
    let untold = crate::plan::harvesting(
        &Case {
            members: &from_draws,
            ..case
        },
        &mut go,
    )
    .unwrap();
    let removed =
        |a: &crate::plan::HarvestAnswer| spread(a.by_interval[0].nitrogen_removed_mmol_per_day);
    assert!(removed(&answer) < removed(&untold));
}
