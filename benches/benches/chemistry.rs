//! Cost of one water solved, beside the cost of the elementary functions it is
//! made of, in one run on one machine.
//!
//! Read as ratios: `exp` and `ln` here are the yardstick, nanoseconds are not.

use divan::{Bencher, black_box, counter::ItemsCount};
use halimeda::carbonate::{CarbonateState, Equilibria, EquilibriumOptions, UncertaintyBudget};
use halimeda::{
    Alkalinity, Content, NbsScale, Ph, PracticalSalinity, Result, Temperature, Water, species,
};

fn main() {
    divan::main();
}

/// As many different waters as keep branch prediction honest and stay in cache.
const WATERS: usize = 256;

/// One water's readings: °C, salinity, alkalinity and DIC in µmol/kg.
type Readings = [f64; 4];

/// A spread of reef waters, the same in every run.
fn readings() -> Vec<Readings> {
    // Golden-ratio sequences fill the box evenly.
    let part = |i: usize, step: f64| (i as f64 * step).fract();
    (0..WATERS)
        .map(|i| {
            let alkalinity = 2000.0 + 1500.0 * part(i, 0.754_877_666);
            [
                22.0 + 6.0 * part(i, 0.618_033_989),
                32.0 + 4.0 * part(i, 0.569_840_291),
                alkalinity,
                alkalinity * (0.80 + 0.12 * part(i, 0.445_041_868)),
            ]
        })
        .collect()
}

fn water(r: &Readings) -> Result<Water> {
    Ok(Water::new(
        Temperature::from_celsius(r[0])?,
        PracticalSalinity::new(r[1])?,
    ))
}

fn solve(equilibria: &Equilibria, r: &Readings) -> Result<CarbonateState> {
    equilibria.solve(
        Alkalinity::from_umol_per_kg(r[2])?,
        Content::<species::InorganicCarbon>::from_umol_per_kg(r[3])?,
    )
}

/// What a keeper reads first: pH, pCO2, aragonite.
fn headline(state: &CarbonateState) -> f64 {
    state.ph_total().value()
        + state.partial_pressure_co2().uatm()
        + state.aragonite_saturation().value()
}

fn over_waters(bencher: Bencher<'_, '_>, f: impl Fn(&Readings) -> f64 + Sync) {
    let readings = readings();
    bencher
        .counter(ItemsCount::new(WATERS))
        .bench(|| readings.iter().map(|r| f(black_box(r))).sum::<f64>());
}

#[divan::bench]
fn yardstick_exp(bencher: Bencher<'_, '_>) {
    over_waters(bencher, |r| (-r[0]).exp());
}

#[divan::bench]
fn yardstick_ln(bencher: Bencher<'_, '_>) {
    over_waters(bencher, |r| r[2].ln());
}

#[divan::bench]
fn constants(bencher: Bencher<'_, '_>) {
    let options = EquilibriumOptions::default();
    over_waters(bencher, |r| {
        let equilibria = water(r).and_then(|w| w.equilibria(&options));
        equilibria.map_or(f64::NAN, |e| e.k1_total())
    });
}

#[divan::bench]
fn full_solve(bencher: Bencher<'_, '_>) {
    let options = EquilibriumOptions::default();
    over_waters(bencher, |r| {
        water(r)
            .and_then(|w| w.equilibria(&options))
            .and_then(|e| solve(&e, r))
            .map_or(f64::NAN, |s| headline(&s))
    });
}

fn reef_equilibria() -> Result<Equilibria> {
    water(&[25.5, 35.0, 0.0, 0.0])?.equilibria(&EquilibriumOptions::default())
}

#[divan::bench]
fn solve_with_constants_reused(bencher: Bencher<'_, '_>) {
    let equilibria = reef_equilibria().expect("a reef water is in range");
    over_waters(bencher, |r| {
        solve(&equilibria, r).map_or(f64::NAN, |s| headline(&s))
    });
}

#[divan::bench]
fn alkalinity_and_probe_with_constants_reused(bencher: Bencher<'_, '_>) {
    let equilibria = reef_equilibria().expect("a reef water is in range");
    over_waters(bencher, |r| {
        Alkalinity::from_umol_per_kg(r[2])
            .and_then(|a| equilibria.solve(a, Ph::<NbsScale>::new(7.8 + 0.02 * (r[0] - 10.0))?))
            .map_or(f64::NAN, |s| headline(&s))
    });
}

#[divan::bench]
fn sensitivities(bencher: Bencher<'_, '_>) {
    let equilibria = reef_equilibria().expect("a reef water is in range");
    over_waters(bencher, |r| {
        solve(&equilibria, r)
            .and_then(|s| s.uncertainties(&UncertaintyBudget::CONSTANTS).map(|_| 1.0))
            .unwrap_or(f64::NAN)
    });
}
