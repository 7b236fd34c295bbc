//! How forecasts from a fitted log do against "nothing changes" and a straight line, over
//! invented tanks with incidents: the table in the section "Forecast" of the model.
//!
//! ```sh
//! cargo run --release -p halimeda-tank --example forecast_skill -- 12
//! ```

// A program for a terminal speaks on it.
#![allow(clippy::print_stdout)]

use std::error::Error;
use std::ops::ControlFlow;

use halimeda_tank::description::TankFile;
use halimeda_tank::fit::{FitOptions, fit};
use halimeda_tank::forecast::{Horizon, SkillRow, rolling_origin};
use halimeda_tank::log::Measured;
use halimeda_tank::log::invented::{Keeper, invent};
use halimeda_tank::{Ranges, SharedProgress};

/// Length of each log, d.
const DAYS: f64 = 170.0;

/// Days from which is forecast: after the lamps burn again, before more is fed; and a
/// while after that.
const ORIGINS: [f64; 2] = [75.0, 125.0];

fn main() -> Result<(), Box<dyn Error>> {
    let tanks: usize = match std::env::args().nth(1) {
        Some(count) => count.parse()?,
        None => 12,
    };
    let file = TankFile::from_toml(include_str!("invented_reef.toml"))?;
    let setup = file.setup();
    let ranges = Ranges::default().overridden(&file.parameter_overrides)?;
    let go: SharedProgress<'_> = &mut |_, _| ControlFlow::Continue(());
    let mut rows: Vec<SkillRow> = Vec::new();
    for (seed, truth) in ranges.draw(tanks, 33)?.iter().enumerate() {
        // A tank that cannot be followed has no log.
        let Ok(invented) = invent(&setup, truth, &Keeper::of_days(DAYS, seed as u64)) else {
            continue;
        };
        let members_at = |past: &halimeda_tank::log::Log, _: f64| {
            let mut go = |_: f64, _: f64| ControlFlow::Continue(());
            Ok(fit(&setup, past, &ranges, &FitOptions::default(), &mut go)?.members)
        };
        for row in rolling_origin(&invented.log, &ORIGINS, &Horizon::DEFAULT, members_at, go)? {
            let known = rows
                .iter_mut()
                .find(|r| r.measured == row.measured && r.horizon == row.horizon);
            match known {
                Some(known) => known.verifications.extend(row.verifications),
                None => rows.push(row),
            }
        }
    }
    println!(
        "| test | days ahead | readings | error | nothing changes | straight line | skill | in range |"
    );
    println!("|---|---|---|---|---|---|---|---|");
    for row in rows.iter().filter(|r| r.measured != Measured::Salinity) {
        let Some(score) = row.score() else { continue };
        println!(
            "| {} | {} | {} | {:.3} | {:.3} | {:.3} | {:.2} | {:.2} |",
            row.measured.words(),
            row.horizon.days,
            score.count,
            score.mean_error,
            score.persistence_mean_error,
            score.trend_mean_error,
            score.skill().unwrap_or_default(),
            score.within_range
        );
    }
    Ok(())
}
