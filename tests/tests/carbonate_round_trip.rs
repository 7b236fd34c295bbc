//! Every pair of known quantities gives back the state it was taken from.

use halimeda::carbonate::{CarbonateState, Known, Solutions};
use halimeda_tests::states::{Quantiles, known_of, pairs, quantiles, random_state};

const STATES: usize = 100_000;

/// The solution nearest to where the knowns came from.
fn nearest(found: &Solutions, from: &CarbonateState) -> Option<CarbonateState> {
    let distance = |s: &CarbonateState| (s.ph_total().value() - from.ph_total().value()).abs();
    match *found {
        Solutions::One(state) => Some(state),
        Solutions::Two {
            lower_ph,
            higher_ph,
        } => Some(if distance(&lower_ph) <= distance(&higher_ph) {
            lower_ph
        } else {
            higher_ph
        }),
        _ => None,
    }
}

fn relative(a: f64, b: f64) -> f64 {
    (a - b).abs() / b.abs().max(f64::MIN_POSITIVE)
}

/// How far a solution is from the knowns it was solved from: absolute for a pH,
/// relative for all else.
fn residual(state: &CarbonateState, known: Known) -> f64 {
    let again = known_of(state, known.kind()).unwrap().value();
    match known {
        Known::Ph(_) => (again - known.value()).abs(),
        _ => relative(again, known.value()),
    }
}

/// 10^5 random states (15-35 °C, S 20-45, pH 7-9, DIC 500-4500 µmol/kg, with
/// nutrients) through all pairs. The knowns must come back to rounding; pH too,
/// but for the pairs with two roots, where the error grows without limit as the
/// roots approach each other.
#[test]
fn all_pairs_round_trip() {
    let states: Vec<CarbonateState> = {
        let mut rng = fastrand::Rng::with_seed(20_261_125);
        (0..STATES)
            .map(|_| random_state(&mut rng).unwrap())
            .collect()
    };
    println!("errors of pH(total) and relative residuals of the knowns over {STATES} states");
    println!(
        "{:58} {:>9} {:>9} {:>9} {:>9}",
        "pair", "75 %", "99 %", "max", "residual"
    );
    let mut all = Vec::new();
    for (a, b) in pairs() {
        let mut errors = Vec::with_capacity(STATES);
        let mut worst_residual = 0.0f64;
        for state in &states {
            let (x, y) = (known_of(state, a).unwrap(), known_of(state, b).unwrap());
            let found = state.equilibria().solve_all(x, y).unwrap();
            let Some(again) = nearest(&found, state) else {
                panic!("{} with {}: no solution for {state:?}", a.name(), b.name());
            };
            worst_residual = worst_residual
                .max(residual(&again, x))
                .max(residual(&again, y));
            errors.push((again.ph_total().value() - state.ph_total().value()).abs());
        }
        all.extend_from_slice(&errors);
        let Quantiles { q75, q99, max } = quantiles(errors);
        let label = format!("{} - {}", a.name(), b.name());
        println!("{label:58} {q75:9.1e} {q99:9.1e} {max:9.1e} {worst_residual:9.1e}");
        assert!(
            worst_residual < 1e-12,
            "{label}: residual {worst_residual:e}"
        );
        assert!(q99 < 1e-12, "{label}: 99 % of pH errors below {q99:e}");
        assert!(max < 1e-9, "{label}: largest pH error {max:e}");
    }
    let Quantiles { q75, q99, max } = quantiles(all);
    println!("all pairs: pH error 75 % {q75:.1e}, 99 % {q99:.1e}, max {max:.1e}");
    assert!(q75 < 1e-14 && q99 < 1e-14);
}
