//! Columns of waters beside the same waters one by one, and beside the
//! elementary functions they are made of, in one run on one machine.
//!
//! Read as ratios to `exp`; nanoseconds are this machine's.

use std::time::Instant;

use halimeda::batch::{BatchInput, Column, Output, RowStatus, solve};
use halimeda::carbonate::{EquilibriumOptions, KnownKind};
use halimeda::{Alkalinity, Content, PracticalSalinity, Temperature, Water, species};
use std::hint::black_box;

/// Few enough that a run ends before the scheduler gives the core away.
const ROWS: usize = 1 << 12;
const REPEATS: usize = 300;

/// A spread of reef waters, the same in every run.
struct Waters {
    celsius: Vec<f64>,
    salinity: Vec<f64>,
    alkalinity: Vec<f64>,
    carbon: Vec<f64>,
    ph: Vec<f64>,
}

impl Waters {
    fn new() -> Self {
        // Golden-ratio sequences fill the box evenly.
        let part = |i: usize, step: f64| (i as f64 * step).fract();
        let column = |min: f64, max: f64, step: f64| -> Vec<f64> {
            (0..ROWS)
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
fn nanoseconds(mut run: impl FnMut()) -> f64 {
    let times = (0..REPEATS).map(|_| {
        let start = Instant::now();
        run();
        start.elapsed().as_secs_f64()
    });
    times.fold(f64::INFINITY, f64::min) * 1e9 / ROWS as f64
}

fn batch(input: &BatchInput<'_>, wanted: &[Output]) -> f64 {
    let mut columns = vec![vec![0.0; ROWS]; wanted.len()];
    let mut status = vec![RowStatus::Ok; ROWS];
    nanoseconds(|| {
        let mut outputs: Vec<_> = wanted
            .iter()
            .copied()
            .zip(columns.iter_mut().map(Vec::as_mut_slice))
            .collect();
        let summary = solve(black_box(input), &mut outputs, &mut status);
        assert_eq!(summary.map(|s| s.ok), Ok(ROWS));
    })
}

fn main() {
    let waters = Waters::new();
    let mut out = vec![0.0; ROWS];
    let exp = nanoseconds(|| {
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
    let single = nanoseconds(|| {
        for i in 0..ROWS {
            let state = Temperature::from_celsius(waters.celsius[i])
                .and_then(|t| Ok(Water::new(t, PracticalSalinity::new(waters.salinity[i])?)))
                .and_then(|water| water.equilibria(&options))
                .and_then(|equilibria| {
                    equilibria.solve(
                        Alkalinity::from_umol_per_kg(waters.alkalinity[i])?,
                        Content::<species::InorganicCarbon>::from_umol_per_kg(waters.carbon[i])?,
                    )
                });
            out[i] = state.map_or(f64::NAN, |s| {
                s.ph_total().value()
                    + s.partial_pressure_co2().uatm()
                    + s.aragonite_saturation().value()
            });
        }
        black_box(&mut out);
    });
    row("alkalinity, DIC: pH, pCO2, aragonite; one by one", single);
    let alkalinity = (KnownKind::Alkalinity, Column::Each(&waters.alkalinity));
    let carbon = (KnownKind::InorganicCarbon, Column::Each(&waters.carbon));
    let each = BatchInput::new(&waters.celsius, &waters.salinity, alkalinity, carbon);
    let shared = BatchInput::new(25.5, 35.0, alkalinity, carbon);
    row("the same, as a batch", batch(&each, &headline));
    row(
        "… on all cores",
        batch(&BatchInput { threads: 0, ..each }, &headline),
    );
    row(
        "… at 10 dbar",
        batch(
            &BatchInput {
                water_pressure_dbar: 10.0.into(),
                ..each
            },
            &headline,
        ),
    );
    row(
        "… with one temperature and salinity",
        batch(&shared, &headline),
    );
    row("… pH alone", batch(&each, &[Output::PhTotal]));
    row("… every output", batch(&each, Output::ALL));
    let probe = (
        KnownKind::Ph(halimeda::PhScale::Total),
        Column::Each(&waters.ph),
    );
    let probe = BatchInput::new(&waters.celsius, &waters.salinity, alkalinity, probe);
    row(
        "alkalinity, pH: DIC, pCO2, aragonite",
        batch(
            &probe,
            &[
                Output::InorganicCarbon,
                Output::PartialPressureCo2,
                Output::AragoniteSaturation,
            ],
        ),
    );
}
