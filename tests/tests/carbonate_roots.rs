//! The number of states each pair allows, against a scan that knows nothing of
//! the solver.

use halimeda::carbonate::{Equilibria, Known, KnownKind, Solutions};
use halimeda::{Content, ErrorKind, Ph, TotalScale, species};
use halimeda_tests::states::{known_of, pairs, random_equilibria, random_state, uniform};

/// For each pH of a fine grid, the value of `second` in the state that has this
/// pH and `first`; the number of times it crosses its given value.
fn crossings(equilibria: &Equilibria, first: Known, second: Known) -> usize {
    const POINTS: usize = 4000;
    let mut count = 0;
    let mut previous: Option<f64> = None;
    for i in 0..=POINTS {
        let ph = Ph::<TotalScale>::new(14.0 * i as f64 / POINTS as f64).unwrap();
        let difference = equilibria
            .solve(ph, first)
            .ok()
            .map(|s| known_of(&s, second.kind()).unwrap().value() - second.value());
        if let (Some(a), Some(b)) = (previous, difference) {
            if (a > 0.0) != (b > 0.0) {
                count += 1;
            }
        }
        previous = difference;
    }
    count
}

/// Random pairs of values, most of which do not come from one state: the
/// solver finds as many states as the scan, for every pair of kinds.
#[test]
fn root_counts_agree_with_a_scan() {
    let mut rng = fastrand::Rng::with_seed(7);
    let mut tally = [0usize; 3];
    for (a, b) in pairs() {
        // A pH known already is no unknown to scan over.
        if matches!(a, KnownKind::Ph(_)) || matches!(b, KnownKind::Ph(_)) {
            continue;
        }
        for _ in 0..40 {
            let (here, there) = (
                random_state(&mut rng).unwrap(),
                random_state(&mut rng).unwrap(),
            );
            let x = known_of(&here, a).unwrap();
            let value = known_of(&there, b).unwrap().value() * uniform(&mut rng, 0.3, 1.5);
            let y = Known::new(b, value).unwrap();
            let equilibria = here.equilibria();
            let found = match equilibria.solve_all(x, y).unwrap() {
                Solutions::None { .. } => 0,
                Solutions::One(_) => 1,
                Solutions::Two { .. } => 2,
                other => panic!("unknown {other:?}"),
            };
            // The scan sees a state only where the first quantity allows one.
            let scanned = crossings(equilibria, x, y).max(crossings(equilibria, y, x));
            assert_eq!(
                found,
                scanned,
                "{} = {} with {} = {} in {:?}",
                a.name(),
                x.value(),
                b.name(),
                y.value(),
                equilibria.water()
            );
            tally[found] += 1;
        }
    }
    println!(
        "states found: none {}, one {}, two {}",
        tally[0], tally[1], tally[2]
    );
    assert!(
        tally.iter().all(|&n| n > 20),
        "all cases must occur: {tally:?}"
    );
}

/// Both states of a pair with two are given, in order, and satisfy it.
#[test]
fn both_states_satisfy_alkalinity_and_carbonate() {
    let mut rng = fastrand::Rng::with_seed(11);
    let mut both = 0;
    for _ in 0..20_000 {
        let state = random_state(&mut rng).unwrap();
        let (alkalinity, carbonate) = (state.alkalinity(), state.carbonate());
        let found = state.equilibria().solve_all(alkalinity, carbonate).unwrap();
        if let Solutions::Two {
            lower_ph,
            higher_ph,
        } = found
        {
            both += 1;
            assert!(lower_ph.ph_total() < higher_ph.ph_total());
            for s in [lower_ph, higher_ph] {
                let (a, c) = (s.alkalinity().mol_per_kg(), s.carbonate().mol_per_kg());
                assert!((a / alkalinity.mol_per_kg() - 1.0).abs() < 1e-13);
                assert!((c / carbonate.mol_per_kg() - 1.0).abs() < 1e-13);
            }
            let refused = state.equilibria().solve(alkalinity, carbonate).unwrap_err();
            assert!(matches!(refused.kind(), ErrorKind::Ambiguous { .. }));
        }
    }
    assert!(both > 1000, "two states in {both} of 20000");
}

/// Where two states meet, one is given, and just beyond it none.
#[test]
fn the_meeting_point_of_two_states_is_one() {
    let mut rng = fastrand::Rng::with_seed(13);
    for _ in 0..200 {
        let equilibria = random_equilibria(&mut rng).unwrap();
        let k = (equilibria.k2_total() / equilibria.k1_total()).sqrt();
        let hco3 = Content::<species::Bicarbonate>::from_umol_per_kg(2000.0).unwrap();
        let dic_at = |factor: f64| {
            Content::<species::InorganicCarbon>::from_umol_per_kg(2000.0 * (1.0 + 2.0 * k * factor))
                .unwrap()
        };
        assert!(matches!(
            equilibria.solve_all(hco3, dic_at(1.0 - 1e-9)).unwrap(),
            Solutions::None { .. }
        ));
        let touching = equilibria.solve_all(hco3, dic_at(1.0)).unwrap();
        let Solutions::One(state) = touching else {
            panic!("{touching:?}");
        };
        assert!(state.sensitivities().unwrap_err().is_contradictory());
        assert!(matches!(
            equilibria.solve_all(hco3, dic_at(1.0 + 1e-9)).unwrap(),
            Solutions::Two { .. }
        ));
    }
}

/// Two of one class are refused by name, whatever their values.
#[test]
fn quantities_of_one_class_are_refused() {
    let mut rng = fastrand::Rng::with_seed(17);
    let state = random_state(&mut rng).unwrap();
    let kinds = KnownKind::ALL;
    for (i, &a) in kinds.iter().enumerate() {
        for &b in &kinds[i..] {
            if halimeda_tests::states::same_class(a, b) {
                let (x, y) = (known_of(&state, a).unwrap(), known_of(&state, b).unwrap());
                let refused = state.equilibria().solve(x, y).unwrap_err();
                assert!(matches!(refused.kind(), ErrorKind::Underdetermined { .. }));
                assert_eq!(refused.input(), a.name());
            }
        }
    }
}

/// A saturation state says nothing of carbonate where there is no calcium.
#[test]
fn saturation_without_calcium_is_refused() {
    let mut rng = fastrand::Rng::with_seed(19);
    let water = random_equilibria(&mut rng)
        .unwrap()
        .water()
        .with_composition(halimeda::Composition::REFERENCE.with_calcium(Content::ZERO));
    let equilibria = water
        .equilibria(&halimeda::carbonate::EquilibriumOptions::default())
        .unwrap();
    let omega = halimeda::SaturationState::<halimeda::Aragonite>::new(3.0).unwrap();
    let refused = equilibria
        .solve(omega, Ph::<TotalScale>::new(8.0).unwrap())
        .unwrap_err();
    assert!(refused.is_contradictory());
    assert_eq!(refused.input(), "aragonite saturation state");
}
