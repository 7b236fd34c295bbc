//! Columns of waters beside the same waters one by one, and beside the
//! elementary functions they are made of, in one run on one machine.
//!
//! Read as ratios to `exp`; nanoseconds are this machine's.

use std::hint::black_box;
use std::time::Instant;

use halimeda::batch::{BatchInput, Column, Output, RowStatus, solve};
use halimeda::carbonate::{Equilibria, EquilibriumOptions, KnownKind};
use halimeda::{
    Alkalinity, Content, PhScale, PracticalSalinity, Result, Temperature, Water, species,
};

/// Few enough that a run ends before the scheduler gives the core away.
const ROWS: usize = 1 << 12;

/// Enough for every core.
const MANY_ROWS: usize = 1 << 18;

/// A spread of reef waters, the same in every run.
struct Waters {
    celsius: Vec<f64>,
    salinity: Vec<f64>,
    alkalinity: Vec<f64>,
    carbon: Vec<f64>,
    ph: Vec<f64>,
}

impl Waters {
    fn new(rows: usize) -> Self {
        // Golden-ratio sequences fill the box evenly.
        let part = |i: usize, step: f64| (i as f64 * step).fract();
        let column = |min: f64, max: f64, step: f64| -> Vec<f64> {
            (0..rows)
                .map(|i| min + (max - min) * part(i, step))
                .collect()
        };
        let alkalinity = column(2000.0, 3500.0, 0.754_877_666);
        let carbon = alkalinity
            .iter()
            .zip(column(0.80, 0.92, 0.445_041_868))
            .map(|(alkalinity, part)| alkalinity * part)
            .collect();
        Self {
            celsius: column(22.0, 28.0, 0.618_033_989),
            salinity: column(32.0, 36.0, 0.569_840_291),
            alkalinity,
            carbon,
            ph: column(7.8, 8.4, 0.324_717_957),
        }
    }
}

/// The shortest of some runs, nanoseconds per row.
fn nanoseconds(rows: usize, mut run: impl FnMut()) -> f64 {
    let repeats = ((1 << 20) / rows).max(10);
    let times = (0..repeats).map(|_| {
        let start = Instant::now();
        run();
        start.elapsed().as_secs_f64()
    });
    times.fold(f64::INFINITY, f64::min) * 1e9 / rows as f64
}

fn batch(rows: usize, input: &BatchInput<'_>, wanted: &[Output]) -> f64 {
    let mut columns = vec![vec![0.0; rows]; wanted.len()];
    let mut status = vec![RowStatus::Ok; rows];
    nanoseconds(rows, || {
        let mut outputs: Vec<_> = wanted
            .iter()
            .copied()
            .zip(columns.iter_mut().map(Vec::as_mut_slice))
            .collect();
        let summary = solve(black_box(input), &mut outputs, &mut status);
        assert_eq!(summary.map(|s| s.ok), Ok(rows));
    })
}

fn main() {
    let waters = Waters::new(ROWS);
    let mut out = vec![0.0; ROWS];
    let exp = nanoseconds(ROWS, || {
        for (out, x) in out.iter_mut().zip(black_box(&waters.celsius)) {
            *out = (-x).exp();
        }
        black_box(&mut out);
    });
    let row = |name: &str, time: f64| println!("{name:<58} {time:>8.1} ns {:>8.1} exp", time / exp);
    row("exp, one by one", exp);

    let headline = [
        Output::PhTotal,
        Output::PartialPressureCo2,
        Output::AragoniteSaturation,
    ];
    let options = EquilibriumOptions::default();
    let solved = |equilibria: &Equilibria, i: usize| {
        let alkalinity = Alkalinity::from_umol_per_kg(waters.alkalinity[i])?;
        let carbon = Content::<species::InorganicCarbon>::from_umol_per_kg(waters.carbon[i])?;
        let state = equilibria.solve(alkalinity, carbon)?;
        Result::Ok(
            state.ph_total().value()
                + state.partial_pressure_co2().uatm()
                + state.aragonite_saturation().value(),
        )
    };
    let constants = |celsius: f64, salinity: f64| {
        let salinity = PracticalSalinity::new(salinity)?;
        Water::new(Temperature::from_celsius(celsius)?, salinity).equilibria(&options)
    };
    let single = nanoseconds(ROWS, || {
        for (i, out) in out.iter_mut().enumerate() {
            *out = constants(waters.celsius[i], waters.salinity[i])
                .and_then(|equilibria| solved(&equilibria, i))
                .unwrap_or(f64::NAN);
        }
        black_box(&mut out);
    });
    row("alkalinity, DIC: pH, pCO2, aragonite; one by one", single);
    let single = constants(25.5, 35.0).map_or(f64::NAN, |equilibria| {
        nanoseconds(ROWS, || {
            for (i, out) in out.iter_mut().enumerate() {
                *out = solved(black_box(&equilibria), i).unwrap_or(f64::NAN);
            }
            black_box(&mut out);
        })
    });
    row("… with one temperature and salinity", single);
    let alkalinity = (KnownKind::Alkalinity, Column::Each(&waters.alkalinity));
    let carbon = (KnownKind::InorganicCarbon, Column::Each(&waters.carbon));
    let each = BatchInput::new(&waters.celsius, &waters.salinity, alkalinity, carbon);
    let shared = BatchInput::new(25.5, 35.0, alkalinity, carbon);
    let ph = (KnownKind::Ph(PhScale::Total), Column::Each(&waters.ph));
    // Reading, checks, 10^x, logarithm, writing: a fifth of the elementary
    // functions of the constants, and what any row costs.
    row(
        "a pH in and out of a batch",
        batch(
            ROWS,
            &BatchInput::new(25.5, 35.0, carbon, ph),
            &[Output::PhTotal],
        ),
    );
    row(
        "alkalinity, DIC: pH, pCO2, aragonite; as a batch",
        batch(ROWS, &each, &headline),
    );
    row(
        "… at 10 dbar",
        batch(
            ROWS,
            &BatchInput {
                water_pressure_dbar: 10.0.into(),
                ..each
            },
            &headline,
        ),
    );
    row(
        "… with one temperature and salinity",
        batch(ROWS, &shared, &headline),
    );
    row("… pH alone", batch(ROWS, &each, &[Output::PhTotal]));
    row("… every output", batch(ROWS, &each, Output::ALL));
    row(
        "alkalinity, pH: DIC, pCO2, aragonite; as a batch",
        batch(
            ROWS,
            &BatchInput::new(&waters.celsius, &waters.salinity, alkalinity, ph),
            &[
                Output::InorganicCarbon,
                Output::PartialPressureCo2,
                Output::AragoniteSaturation,
            ],
        ),
    );

    let waters = Waters::new(MANY_ROWS);
    let mut many = BatchInput::new(
        &waters.celsius,
        &waters.salinity,
        (KnownKind::Alkalinity, &waters.alkalinity),
        (KnownKind::InorganicCarbon, &waters.carbon),
    );
    for (name, threads) in [("one core", 1), ("all cores", 0)] {
        many.threads = threads;
        row(
            &format!("… {MANY_ROWS} rows on {name}"),
            batch(MANY_ROWS, &many, &headline),
        );
    }
}
