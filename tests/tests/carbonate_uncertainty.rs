//! First-order propagation against a Monte Carlo of the solver itself.

use halimeda::carbonate::{
    Correlation, EquilibriumOptions, HydrogenFluoride, Output, Parameter, UncertaintyBudget,
};
use halimeda::probe::{
    BufferReading, ProbeCalibration, ProbeReading, ProbeUncertainty, ReferenceBuffer,
};
use halimeda::{
    Alkalinity, ElectrodePotential, Error, Extrapolation, NbsScale, Ph, PracticalSalinity,
    Relation, Result, Temperature, TotalScale, Water,
};

const ALKALINITY: (f64, f64) = (2700.0, 20.0);
const PH_NBS: (f64, f64) = (8.20, 0.01);
const CELSIUS: (f64, f64) = (25.5, 0.2);
const SALINITY: (f64, f64) = (35.0, 0.3);

fn outputs(alkalinity: f64, ph: f64, celsius: f64, salinity: f64) -> Result<[f64; 4]> {
    let state = Water::new(
        Temperature::from_celsius(celsius)?,
        PracticalSalinity::new(salinity)?,
    )
    .equilibria(&EquilibriumOptions::default())?
    .solve(
        Alkalinity::from_umol_per_kg(alkalinity)?,
        Ph::<NbsScale>::new(ph)?,
    )?;
    Ok([
        state.ph_total().value(),
        state.partial_pressure_co2().uatm(),
        state.inorganic_carbon().umol_per_kg(),
        state.aragonite_saturation().value(),
    ])
}

const OUTPUTS: [Output; 4] = [
    Output::PhTotal,
    Output::PartialPressure,
    Output::InorganicCarbon,
    Output::Aragonite,
];

/// Two standard normal numbers (Box & Muller 1958, doi 10.1214/aoms/1177706645).
fn normal_pair(rng: &mut fastrand::Rng) -> (f64, f64) {
    let r = (-2.0 * (1.0 - rng.f64()).ln()).sqrt();
    let angle = std::f64::consts::TAU * rng.f64();
    (r * angle.cos(), r * angle.sin())
}

/// Four uncertain inputs, alkalinity and salinity correlated by 0.6: standard
/// uncertainties agree with 10^5 random draws to their sampling error.
#[test]
fn propagation_agrees_with_monte_carlo() {
    const DRAWS: usize = 100_000;
    const RHO: f64 = 0.6;
    let mut rng = fastrand::Rng::with_seed(23);
    let mut sums = [[0.0f64; 2]; 4];
    let middle = outputs(ALKALINITY.0, PH_NBS.0, CELSIUS.0, SALINITY.0).unwrap();
    for _ in 0..DRAWS {
        let (a, b) = normal_pair(&mut rng);
        let (c, d) = normal_pair(&mut rng);
        let correlated = RHO * a + (1.0 - RHO * RHO).sqrt() * b;
        let drawn = outputs(
            ALKALINITY.0 + ALKALINITY.1 * a,
            PH_NBS.0 + PH_NBS.1 * c,
            CELSIUS.0 + CELSIUS.1 * d,
            SALINITY.0 + SALINITY.1 * correlated,
        )
        .unwrap();
        for ((sum, value), middle) in sums.iter_mut().zip(drawn).zip(middle) {
            let x = value - middle;
            sum[0] += x;
            sum[1] += x * x;
        }
    }

    let state = Water::new(
        Temperature::from_celsius(CELSIUS.0).unwrap(),
        PracticalSalinity::new(SALINITY.0).unwrap(),
    )
    .equilibria(&EquilibriumOptions::default())
    .unwrap()
    .solve(
        Alkalinity::from_umol_per_kg(ALKALINITY.0).unwrap(),
        Ph::<NbsScale>::new(PH_NBS.0).unwrap(),
    )
    .unwrap();
    let correlations = [Correlation {
        first: Parameter::First,
        second: Parameter::Salinity,
        coefficient: RHO,
    }];
    let budget = UncertaintyBudget::NONE
        .with(Parameter::First, ALKALINITY.1)
        .and_then(|b| b.with(Parameter::Second, PH_NBS.1))
        .and_then(|b| b.with(Parameter::Temperature, CELSIUS.1))
        .and_then(|b| b.with(Parameter::Salinity, SALINITY.1))
        .and_then(|b| b.with_correlations(&correlations))
        .unwrap();
    let uncertainties = state.uncertainties(&budget).unwrap();
    for (output, [sum, squares]) in OUTPUTS.into_iter().zip(sums) {
        let n = DRAWS as f64;
        let drawn = ((squares - sum * sum / n) / (n - 1.0)).sqrt();
        let propagated = uncertainties.standard(output);
        let ratio = propagated / drawn;
        println!(
            "{}: propagated {propagated:.5}, drawn {drawn:.5}",
            output.name()
        );
        // Sampling error of a standard deviation is 1/sqrt(2n) = 0.22 %; the rest is
        // the curvature that first order leaves out.
        assert!(
            (ratio - 1.0).abs() < 0.015,
            "{}: ratio {ratio}",
            output.name()
        );
    }
}

/// The effects of single parameters add up in quadrature where nothing is
/// correlated, and the constants' budget is that of its source.
#[test]
fn effects_add_in_quadrature() {
    let state = Water::new(
        Temperature::from_celsius(25.0).unwrap(),
        PracticalSalinity::new(35.0).unwrap(),
    )
    .equilibria(&EquilibriumOptions::default())
    .unwrap()
    .solve(
        Alkalinity::from_umol_per_kg(2300.0).unwrap(),
        Ph::<halimeda::TotalScale>::new(8.1).unwrap(),
    )
    .unwrap();
    let budget = UncertaintyBudget::CONSTANTS.with_boron_of(&state).unwrap();
    let result = state.uncertainties(&budget).unwrap();
    for &output in Output::ALL {
        let squares: f64 = Parameter::ALL
            .iter()
            .map(|&p| result.effect(output, p).powi(2))
            .sum();
        assert!((result.standard(output) - squares.sqrt()).abs() <= 1e-15 * squares.sqrt());
    }
    // pCO2 from alkalinity and pH follows K0 and K1 alike: ln 10 × 0.002 and
    // ln 10 × 0.0075 of it, nearly all of the alkalinity being bicarbonate.
    let pco2 = state.partial_pressure_co2().uatm();
    let of_k0 = result.effect(Output::PartialPressure, Parameter::PK0) / pco2;
    assert!((of_k0 - 10f64.ln() * 0.002).abs() < 1e-12);
    let of_k1 = result.effect(Output::PartialPressure, Parameter::PK1) / pco2;
    assert!((of_k1 / (10f64.ln() * 0.0075) - 1.0).abs() < 0.1);
}

/// Correlations that no joint distribution has are refused.
#[test]
fn impossible_correlations_are_refused() {
    let pair = |first, second, coefficient| Correlation {
        first,
        second,
        coefficient,
    };
    // Three quantities cannot all be opposites of one another.
    let opposites = [
        pair(Parameter::PK1, Parameter::PK2, -1.0),
        pair(Parameter::PK2, Parameter::PKb, -1.0),
        pair(Parameter::PK1, Parameter::PKb, -1.0),
    ];
    let refused: Error = UncertaintyBudget::CONSTANTS
        .with_correlations(&opposites)
        .unwrap_err();
    assert!(refused.is_contradictory());
    // Two of them can, and so can three that agree.
    assert!(
        UncertaintyBudget::CONSTANTS
            .with_correlations(&opposites[..1])
            .is_ok()
    );
    let agreeing = opposites.map(|c| pair(c.first, c.second, 1.0));
    assert!(
        UncertaintyBudget::CONSTANTS
            .with_correlations(&agreeing)
            .is_ok()
    );
    let twice = [opposites[0], opposites[0]];
    assert!(
        UncertaintyBudget::CONSTANTS
            .with_correlations(&twice)
            .is_err()
    );

    for coefficient in [1.5, f64::NAN] {
        let beyond = [pair(Parameter::PK1, Parameter::PK2, coefficient)];
        assert!(UncertaintyBudget::NONE.with_correlations(&beyond).is_err());
    }
    let itself = [pair(Parameter::PK1, Parameter::PK1, 0.5)];
    assert!(UncertaintyBudget::NONE.with_correlations(&itself).is_err());
    assert!(UncertaintyBudget::NONE.with(Parameter::PK1, -0.1).is_err());
    assert!(
        UncertaintyBudget::NONE
            .with(Parameter::PK1, f64::INFINITY)
            .is_err()
    );
}

/// The hydrogen sulfide constant was measured up to 25 °C (Millero et al. 1988):
/// a warmer water's derivative to sulfide is flagged, and an uncertainty of
/// sulfide refused unless extrapolation is allowed.
#[test]
fn a_base_outside_its_range_is_flagged_and_not_propagated() {
    let water = Water::new(
        Temperature::from_celsius(26.0).unwrap(),
        PracticalSalinity::new(35.0).unwrap(),
    );
    let solve = |water: Water| {
        water.equilibria(&EquilibriumOptions::default())?.solve(
            Alkalinity::from_umol_per_kg(2300.0)?,
            Ph::<NbsScale>::new(8.2)?,
        )
    };
    let state = solve(water).unwrap();
    assert!(state.extrapolations().is_empty());
    let flagged = state.sensitivities().unwrap().extrapolations();
    assert!(flagged.iter().eq([Relation::Kh2sMillero1988]));

    let budget = UncertaintyBudget::CONSTANTS;
    assert!(state.uncertainties(&budget).is_ok());
    let budget = budget.with(Parameter::Sulfide, 1.0).unwrap();
    let refused = state.uncertainties(&budget).unwrap_err();
    assert!(refused.is_extrapolation());
    assert_eq!(refused.input(), "temperature");
    let allowed = solve(water.with_extrapolation(Extrapolation::Allow)).unwrap();
    assert!(allowed.uncertainties(&budget).is_ok());

    // With another KF the carbonic acid constants reach beyond salinity 40, the
    // NBS scale does not.
    let brine = Water::new(
        Temperature::from_celsius(25.0).unwrap(),
        PracticalSalinity::new(42.0).unwrap(),
    );
    let options = EquilibriumOptions {
        hydrogen_fluoride: HydrogenFluoride::DicksonRiley1979,
        ..EquilibriumOptions::default()
    };
    let equilibria = brine.equilibria(&options).unwrap();
    let refused = equilibria.hydrogen_activity_coefficient().unwrap_err();
    assert!(refused.is_extrapolation());
    assert_eq!(refused.input(), "practical salinity");
}

/// A probe's liquid junction is counted once, whichever scale the state was
/// solved on; a reading that the state does not come from is refused.
#[test]
fn the_junction_of_a_probe_is_counted_once() {
    let t = Temperature::from_celsius(25.0).unwrap();
    let mv = |e| ElectrodePotential::from_millivolts(e).unwrap();
    let calibration = ProbeCalibration::new(
        BufferReading::new(ReferenceBuffer::Phosphate.ph(t).unwrap(), mv(8.0), t),
        BufferReading::new(ReferenceBuffer::Borax.ph(t).unwrap(), mv(-128.0), t),
    )
    .unwrap();
    let read = |e| {
        calibration
            .read(mv(e), t, &ProbeUncertainty::NBS_BUFFERS)
            .unwrap()
    };
    let nbs = read(-72.0);
    let equilibria = Water::new(t, PracticalSalinity::new(35.0).unwrap())
        .equilibria(&EquilibriumOptions::default())
        .unwrap();
    let total: ProbeReading<TotalScale> = nbs.convert(|ph| equilibria.convert_ph(ph)).unwrap();
    let alkalinity = Alkalinity::from_umol_per_kg(2800.0).unwrap();

    let by_nbs = equilibria.solve(alkalinity, nbs.ph()).unwrap();
    let by_total = equilibria.solve(total.ph(), alkalinity).unwrap();
    let budget = UncertaintyBudget::CONSTANTS;
    let of_nbs = budget.with_probe(&by_nbs, &nbs).unwrap();
    let of_total = budget.with_probe(&by_total, &total).unwrap();
    let of_nbs = by_nbs.uncertainties(&of_nbs).unwrap();
    let of_total = by_total.uncertainties(&of_total).unwrap();
    for output in OUTPUTS {
        let (a, b) = (of_nbs.standard(output), of_total.standard(output));
        assert!((a / b - 1.0).abs() < 1e-9, "{}: {a} and {b}", output.name());
    }
    let whole = nbs.standard_uncertainty();
    assert!((of_nbs.standard(Output::PhTotal) - whole).abs() < 1e-12);

    let other = budget.with_probe(&by_nbs, &read(-71.0)).unwrap_err();
    assert!(other.is_contradictory());
    assert_eq!(other.input(), "pH (NBS scale)");
    assert!(budget.with_probe(&by_total, &nbs).is_err());
}
