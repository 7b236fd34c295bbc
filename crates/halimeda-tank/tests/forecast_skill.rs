//! Forecasts of fitted tanks against "nothing changes", on invented tanks with incidents.
//! The example `forecast_skill` does the same with more of them.

use std::ops::ControlFlow;

use halimeda_tank::description::TankFile;
use halimeda_tank::fit::{FitOptions, fit};
use halimeda_tank::forecast::{ForecastScore, Horizon, SkillRow, rolling_origin};
use halimeda_tank::log::Measured;
use halimeda_tank::log::invented::{Keeper, invent};
use halimeda_tank::{Error, Ranges};

fn go(_: f64, _: f64) -> ControlFlow<()> {
    ControlFlow::Continue(())
}

/// As in the crate's tests of the fit: coarser than a keeper's.
fn coarse() -> FitOptions {
    FitOptions {
        members: 16,
        relative_tolerance: 1e-3,
        ..FitOptions::default()
    }
}

/// A month ahead.
const MONTH: [Horizon; 1] = [Horizon::DEFAULT[1]];

/// The lamps failed for six days from day 28 on and burn again; from day 52 on two fifths
/// more is fed, which the forecast of day 45 cannot know.
#[test]
fn forecasts_beat_nothing_changes_a_month_ahead() {
    let file = TankFile::from_toml(include_str!("../examples/invented_reef.toml")).unwrap();
    let setup = file.setup();
    let ranges = Ranges::default();
    let mut rows: Vec<SkillRow> = Vec::new();
    for (seed, truth) in ranges.draw(5, 33).unwrap().iter().enumerate() {
        let Ok(invented) = invent(&setup, truth, &Keeper::of_days(82.0, seed as u64)) else {
            continue;
        };
        let fitted = rolling_origin(
            &invented.log,
            &[45.0],
            &MONTH,
            |past, origin| {
                assert!(past.last_day().unwrap() <= origin);
                Ok(fit(&setup, past, &ranges, &coarse(), &mut go)?.members)
            },
            &mut go,
        );
        rows.extend(fitted.unwrap());
    }
    // Nitrate and phosphate, each against what "nothing changes" misses by.
    let mut shares = Vec::new();
    for measured in [Measured::Nitrate, Measured::Phosphate] {
        let of = rows.iter().filter(|r| r.measured == measured);
        let all: Vec<_> = of.flat_map(|r| r.verifications.clone()).collect();
        let score = ForecastScore::of(&all).unwrap();
        println!("{measured:?} {score:?}");
        shares.push(score.mean_error / score.persistence_mean_error);
    }
    assert!(
        shares.iter().sum::<f64>() < shares.len() as f64,
        "{shares:?}"
    );
}

#[test]
fn an_error_of_the_fit_is_handed_on() {
    let file = TankFile::from_toml(include_str!("../examples/invented_reef.toml")).unwrap();
    let keeper = Keeper::of_days(10.0, 1);
    let log = invent(&file.setup(), &file.parameters(), &keeper)
        .unwrap()
        .log;
    let missing = || Error::UnknownParameter("nothing".into());
    let fitted = rolling_origin(&log, &[5.0], &MONTH, |_, _| Err(missing()), &mut go);
    assert_eq!(fitted.unwrap_err(), missing());
    let late = rolling_origin(&log, &[f64::NAN], &MONTH, |_, _| Ok(vec![]), &mut go);
    assert!(late.is_err());
}
