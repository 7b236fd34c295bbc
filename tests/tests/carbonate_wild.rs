//! States far outside any tank: nothing panics, everything converges.

use std::thread;

use halimeda::carbonate::{CarbonateState, EquilibriumOptions, Known};
use halimeda::{
    Alkalinity, Content, Extrapolation, PracticalSalinity, Temperature, Water, species,
};
use halimeda_tests::states::uniform;

const STATES: usize = 10_000_000;

/// Residual of the alkalinity relative to the larger of its own size and of
/// the sum of its terms, which is what rounding acts on.
fn relative_residual(state: &CarbonateState, alkalinity_umol_per_kg: f64) -> f64 {
    let parts = state.alkalinity_parts();
    let terms = parts.bicarbonate_umol_per_kg
        + parts.carbonate_umol_per_kg
        + parts.borate_umol_per_kg
        + parts.hydroxide_umol_per_kg
        - parts.free_hydrogen_umol_per_kg
        - parts.bisulfate_umol_per_kg
        - parts.hydrogen_fluoride_umol_per_kg;
    let scale = terms.max(alkalinity_umol_per_kg.abs());
    (state.alkalinity().umol_per_kg() - alkalinity_umol_per_kg).abs() / scale
}

/// The largest residual over `count` states: alkalinity −2 to 20 mmol/kg, DIC
/// 1e-7 to 0.03 mol/kg (half of them evenly, half over the decades), 0 to
/// 45 °C, salinity 0 to 60.
fn worst_of(count: usize, seed: u64) -> f64 {
    let mut rng = fastrand::Rng::with_seed(seed);
    let options = EquilibriumOptions::default();
    let mut worst = 0.0f64;
    for i in 0..count {
        let water = Water::new(
            Temperature::from_celsius(uniform(&mut rng, 0.0, 45.0)).unwrap(),
            PracticalSalinity::new(uniform(&mut rng, 0.0, 60.0)).unwrap(),
        )
        .with_extrapolation(Extrapolation::Allow);
        let alkalinity_umol = uniform(&mut rng, -2_000.0, 20_000.0);
        let dic = if i % 2 == 0 {
            uniform(&mut rng, 1e-7, 0.03)
        } else {
            10f64.powf(uniform(&mut rng, -7.0, 0.03f64.log10()))
        };
        let state = water
            .equilibria(&options)
            .unwrap()
            .solve(
                Alkalinity::from_umol_per_kg(alkalinity_umol).unwrap(),
                Content::<species::InorganicCarbon>::from_mol_per_kg(dic).unwrap(),
            )
            .unwrap();
        let residual = relative_residual(&state, alkalinity_umol);
        assert!(
            residual < 1e-12,
            "residual {residual:e} at alkalinity {alkalinity_umol}, DIC {dic}, {water:?}"
        );
        worst = worst.max(residual);
    }
    worst
}

#[test]
fn ten_million_wild_states_converge() {
    let threads = thread::available_parallelism()
        .map_or(1, usize::from)
        .min(8);
    let per_thread = STATES.div_ceil(threads);
    let worst = thread::scope(|scope| {
        let running: Vec<_> = (0..threads)
            .map(|seed| scope.spawn(move || worst_of(per_thread, seed as u64)))
            .collect();
        running
            .into_iter()
            .map(|t| t.join().unwrap())
            .fold(0.0, f64::max)
    });
    println!("{STATES} wild states, largest relative alkalinity residual {worst:.1e}");
}

/// The corners of the same box, where brackets and guesses degenerate.
#[test]
fn corners_converge() {
    for celsius in [0.0, 45.0] {
        for salinity in [0.0, 60.0] {
            let equilibria = Water::new(
                Temperature::from_celsius(celsius).unwrap(),
                PracticalSalinity::new(salinity).unwrap(),
            )
            .with_extrapolation(Extrapolation::Allow)
            .equilibria(&EquilibriumOptions::default())
            .unwrap();
            for alkalinity in [-2_000.0, -1e-9, 0.0, 1e-9, 20_000.0] {
                for dic in [0.0, 1e-7, 0.03] {
                    let state = equilibria
                        .solve(
                            Alkalinity::from_umol_per_kg(alkalinity).unwrap(),
                            Content::<species::InorganicCarbon>::from_mol_per_kg(dic).unwrap(),
                        )
                        .unwrap();
                    assert!(relative_residual(&state, alkalinity) < 1e-12);
                }
            }
        }
    }
}

/// Pure water without carbon: the limits of the bracket are the root itself.
#[test]
fn fresh_water_without_carbon_is_exact() {
    let equilibria = Water::new(
        Temperature::from_celsius(25.0).unwrap(),
        PracticalSalinity::new(0.0).unwrap(),
    )
    .with_extrapolation(Extrapolation::Allow)
    .equilibria(&EquilibriumOptions::default())
    .unwrap();
    for step in -40..=40 {
        let umol_per_kg = f64::from(step) * 1.37;
        let alkalinity = Alkalinity::from_umol_per_kg(umol_per_kg).unwrap();
        for none in [
            Known::CarbonDioxide(Content::ZERO),
            Known::Bicarbonate(Content::ZERO),
            Known::Carbonate(Content::ZERO),
            Known::InorganicCarbon(Content::ZERO),
        ] {
            let state = equilibria.solve(alkalinity, none).unwrap();
            // Alkalinity is KW/H - H alone, a quadratic.
            let half = 0.5e-6 * umol_per_kg;
            let h = if half <= 0.0 {
                (half * half + equilibria.kw_total()).sqrt() - half
            } else {
                equilibria.kw_total() / ((half * half + equilibria.kw_total()).sqrt() + half)
            };
            let found = state.hydrogen_total_mol_per_kg();
            assert!(
                (found / h - 1.0).abs() < 1e-14,
                "{found:e} for {h:e}, alkalinity {umol_per_kg}, {none:?}"
            );
        }
    }
}
