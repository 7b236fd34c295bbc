//! What must hold for dissolved gases whatever the numbers.

use fastrand::Rng;
use halimeda::carbonate::EquilibriumOptions;
use halimeda::gas::{
    Air, ExchangePath, FallingFilm, FilmFlow, GasKind, PathKind, Reading, Reaeration, Surface,
    TemperatureLaw, TotalGasPressure, TransferBasis, argon_solubility, carbon_dioxide_solubility,
    co2_dry_mole_fraction, co2_fugacity, co2_partial_pressure, co2_partial_pressure_from_fugacity,
    content_at_saturation, diffusivity_m2_per_s, exchange, nitrogen_solubility, oxygen_solubility,
    partial_pressure, percent_saturation, percent_saturation_at_depth, schmidt_number,
};
use halimeda::{
    AirPressure, Alkalinity, Area, Content, DeltaP, DryMoleFractionCo2, ErrorKind, Extrapolation,
    FlowRate, OxygenVolume, PercentSaturation, PracticalSalinity, Relation, Temperature,
    TransferRate, TransferVelocity, Volume, Water, WaterPressure, species,
};
use halimeda_tests::states::uniform;

type Oxygen = species::Oxygen;

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value).unwrap()
}

fn reef() -> Water {
    Water::new(celsius(25.0), PracticalSalinity::new(35.0).unwrap())
}

fn oxygen(umol_per_kg: f64) -> Content<Oxygen> {
    Content::from_umol_per_kg(umol_per_kg).unwrap()
}

fn room() -> Air {
    Air::new(DryMoleFractionCo2::from_ppm(420.0).unwrap())
}

/// A standard normal number (Box & Muller 1958).
fn normal(rng: &mut Rng) -> f64 {
    let radius = (-2.0 * (1.0 - rng.f64()).ln()).sqrt();
    radius * (core::f64::consts::TAU * rng.f64()).cos()
}

#[test]
fn conversions_round_trip() {
    let mut rng = Rng::with_seed(1);
    for _ in 0..2000 {
        let water = Water::new(
            celsius(uniform(&mut rng, 15.0, 35.0)),
            PracticalSalinity::new(uniform(&mut rng, 20.0, 40.0)).unwrap(),
        )
        .with_air_pressure(AirPressure::from_atm(uniform(&mut rng, 0.6, 1.1)).unwrap());
        let content = oxygen(uniform(&mut rng, 1.0, 500.0));

        let percent = percent_saturation(content, &water).unwrap().value();
        let back: Content<Oxygen> = content_at_saturation(percent, &water).unwrap().value();
        assert!((back.umol_per_kg() / content.umol_per_kg() - 1.0).abs() < 1e-14);

        let density = water.density().unwrap();
        let volume = OxygenVolume::from_content(content, density).unwrap();
        let back = volume.to_content(density).unwrap();
        assert!((back.umol_per_kg() / content.umol_per_kg() - 1.0).abs() < 1e-14);

        let dry = DryMoleFractionCo2::from_ppm(uniform(&mut rng, 100.0, 5000.0)).unwrap();
        let pressure = co2_partial_pressure(dry, &water).unwrap().value();
        let back = co2_dry_mole_fraction(pressure, &water).unwrap().value();
        assert!((back.ppm() / dry.ppm() - 1.0).abs() < 1e-14);
        let fugacity = co2_fugacity(pressure, &water).unwrap().value();
        let back = co2_partial_pressure_from_fugacity(fugacity, &water)
            .unwrap()
            .value();
        assert!((back.uatm() / pressure.uatm() - 1.0).abs() < 1e-14);
    }
}

#[test]
fn water_in_equilibrium_with_the_air_has_no_excess_pressure() {
    for atm in [0.75, 1.0, 1.03] {
        let water = reef().with_air_pressure(AirPressure::from_atm(atm).unwrap());
        let gas = TotalGasPressure::from_contents(
            oxygen_solubility(&water).unwrap().value(),
            nitrogen_solubility(&water).unwrap().value(),
            Some(argon_solubility(&water).unwrap().value()),
            &water,
        )
        .unwrap()
        .value();
        assert!(gas.delta_p().mmhg().abs() < 1e-9);
        assert!((gas.percent() - 100.0).abs() < 1e-9);
        // Argon not measured is taken to be saturated like nitrogen.
        let without_argon = TotalGasPressure::from_contents(
            oxygen_solubility(&water).unwrap().value(),
            nitrogen_solubility(&water).unwrap().value(),
            None,
            &water,
        )
        .unwrap()
        .value();
        assert!(without_argon.delta_p().mmhg().abs() < 1e-9);
        let oxygen = partial_pressure(oxygen_solubility(&water).unwrap().value(), &water)
            .unwrap()
            .value();
        let inert = gas.nitrogen_argon_saturation(oxygen).unwrap();
        assert!((inert.percent() - 100.0).abs() < 1e-9);
    }
}

#[test]
fn readings_and_saturometer_tell_the_same_total_pressure() {
    let water = reef();
    // Oxygen at 130 %, nitrogen and argon at 102 %.
    let percent = |value| PercentSaturation::from_percent(value).unwrap();
    let from_contents = TotalGasPressure::from_contents(
        content_at_saturation(percent(130.0), &water)
            .unwrap()
            .value(),
        content_at_saturation(percent(102.0), &water)
            .unwrap()
            .value(),
        None,
        &water,
    )
    .unwrap()
    .value();
    let from_meter = TotalGasPressure::from_delta_p(from_contents.delta_p(), &water)
        .unwrap()
        .value();
    assert!((from_meter.percent() - from_contents.percent()).abs() < 1e-12);
    let oxygen: Content<Oxygen> = content_at_saturation(percent(130.0), &water)
        .unwrap()
        .value();
    let inert = from_meter
        .nitrogen_argon_saturation(partial_pressure(oxygen, &water).unwrap().value())
        .unwrap();
    assert!((inert.percent() - 102.0).abs() < 1e-9);
}

#[test]
fn depth_compensates_excess_pressure() {
    let deep = reef().with_water_pressure(WaterPressure::from_dbar(2.0).unwrap());
    let reading = DeltaP::from_mmhg(100.0).unwrap();
    let gas = TotalGasPressure::from_delta_p(reading, &deep)
        .unwrap()
        .value();
    // 2 dbar is 150.0 mmHg.
    assert!((gas.uncompensated_delta_p().mmhg() - (100.0 - 150.012)).abs() < 0.01);
    assert!(gas.percent() > 100.0 && gas.percent_at_depth() < 100.0);
    let level = deep.with_water_pressure(gas.compensation_pressure());
    let there = TotalGasPressure::from_delta_p(reading, &level)
        .unwrap()
        .value();
    assert!(there.uncompensated_delta_p().mmhg().abs() < 1e-9);

    let saturated = oxygen_solubility(&deep).unwrap().value();
    let at_depth = percent_saturation_at_depth(saturated, &deep)
        .unwrap()
        .value();
    assert!((at_depth.percent() - 100.0 * (1.0 - 0.0311) / (1.1974 - 0.0311)).abs() < 0.1);
}

#[test]
fn impossible_readings_are_refused() {
    let water = reef();
    let vacuum = DeltaP::from_mmhg(-750.0).unwrap();
    let refused = TotalGasPressure::from_delta_p(vacuum, &water).unwrap_err();
    assert_eq!(refused.input(), "delta P");
    let gas = TotalGasPressure::from_delta_p(DeltaP::from_mmhg(-500.0).unwrap(), &water)
        .unwrap()
        .value();
    let oxygen = partial_pressure(oxygen(500.0), &water).unwrap().value();
    assert!(
        gas.nitrogen_argon_saturation(oxygen)
            .unwrap_err()
            .is_contradictory()
    );
    assert!(room().with_oxygen_mole_fraction(1.0).is_err());
    for ppm in [0.0, 1500.0, 8e5, 1e6] {
        let air = Air::new(DryMoleFractionCo2::from_ppm(ppm).unwrap());
        let oxygen = air.oxygen_mole_fraction();
        assert!(oxygen >= 0.0 && oxygen + ppm * 1e-6 <= 1.0 + 1e-15);
        assert!(air.nitrogen_mole_fraction() >= 0.0 && air.argon_mole_fraction() >= 0.0);
    }
    assert!(
        room()
            .with_oxygen_mole_fraction(f64::NAN)
            .unwrap_err()
            .is_non_finite()
    );
}

#[test]
fn ranges_are_kept_unless_extrapolation_is_allowed_and_then_flagged() {
    let hot = Water::new(celsius(32.0), PracticalSalinity::new(35.0).unwrap());
    match nitrogen_solubility(&hot).unwrap_err().kind() {
        ErrorKind::OutsidePublishedRange {
            relation, value, ..
        } => {
            assert_eq!(relation, Relation::NitrogenHammeEmerson2004);
            assert!((value - 32.0).abs() < 1e-12);
        }
        other => panic!("{other:?}"),
    }
    let allowed = hot.with_extrapolation(Extrapolation::Allow);
    let nitrogen = nitrogen_solubility(&allowed).unwrap();
    assert!(
        nitrogen
            .extrapolated()
            .contains(Relation::NitrogenHammeEmerson2004)
    );
    assert!(
        oxygen_solubility(&allowed)
            .unwrap()
            .extrapolated()
            .is_empty()
    );

    // The flags of every part reach the sum.
    let brackish = Water::new(celsius(25.0), PracticalSalinity::new(15.0).unwrap())
        .with_extrapolation(Extrapolation::Allow);
    let path = ExchangePath::from_velocity(
        PathKind::OpenSurface,
        TransferVelocity::from_cm_per_h(2.0).unwrap(),
        Area::from_m2(1.0).unwrap(),
        TransferBasis::new(GasKind::Oxygen, celsius(25.0)),
        room(),
    );
    let sum = exchange::<Oxygen>(&[path], &brackish).unwrap();
    assert!(sum.extrapolated().contains(Relation::SchmidtWanninkhof2014));
    // So do those of the air a tank tends to, and of the air it is in balance with.
    let brine = Water::new(celsius(25.0), PracticalSalinity::new(41.0).unwrap())
        .with_extrapolation(Extrapolation::Allow);
    let vapour = Relation::VapourPressureWeissPrice1980;
    let state = brine
        .equilibria(&EquilibriumOptions::default())
        .unwrap()
        .under_air(
            Alkalinity::from_umol_per_kg(2500.0).unwrap(),
            DryMoleFractionCo2::from_ppm(420.0).unwrap(),
        )
        .unwrap();
    assert!(state.extrapolations().contains(vapour));
    let balanced = state.dry_mole_fraction_co2().unwrap();
    assert!(balanced.extrapolated().contains(vapour));
    assert!((balanced.value().ppm() - 420.0).abs() < 1e-9);
    // Theta has its own range, met by the basis as well as by the water.
    let theta = TransferBasis::new(GasKind::Oxygen, celsius(8.0))
        .with_temperature_law(TemperatureLaw::Theta);
    assert!(
        theta
            .factor(GasKind::Oxygen, &reef())
            .unwrap_err()
            .is_extrapolation()
    );
    let flagged = theta
        .factor(
            GasKind::Oxygen,
            &reef().with_extrapolation(Extrapolation::Allow),
        )
        .unwrap();
    assert!(flagged.extrapolated().contains(Relation::ThetaAsce2006));
}

#[test]
fn transfer_scales_with_the_schmidt_number_of_gas_and_temperature() {
    let water = reef();
    let basis = TransferBasis::new(GasKind::Oxygen, celsius(25.0));
    let same = basis.factor(GasKind::Oxygen, &water).unwrap().value();
    assert!((same - 1.0).abs() < 1e-15);
    let schmidt = |gas| schmidt_number(gas, &water).unwrap().value();
    let ratio: f64 = schmidt(GasKind::Oxygen) / schmidt(GasKind::CarbonDioxide);
    for (surface, power) in [(Surface::Mobile, 0.5), (Surface::Rigid, 2.0 / 3.0)] {
        let factor = basis
            .with_surface(surface)
            .factor(GasKind::CarbonDioxide, &water)
            .unwrap();
        assert!((factor.value() - ratio.powf(power)).abs() < 1e-14);
    }
    // The two temperature laws describe the same physics: over ten degrees they
    // part by no more than 2 %.
    let at_20 = TransferBasis::new(GasKind::Oxygen, celsius(20.0));
    let warm = Water::new(celsius(30.0), PracticalSalinity::new(35.0).unwrap());
    let by_schmidt = at_20.factor(GasKind::Oxygen, &warm).unwrap().value();
    let by_theta = at_20
        .with_temperature_law(TemperatureLaw::Theta)
        .factor(GasKind::Oxygen, &warm)
        .unwrap()
        .value();
    assert!((by_theta - 1.024_f64.powi(10)).abs() < 1e-12);
    assert!((by_schmidt / by_theta - 1.0).abs() < 0.02);
}

#[test]
fn paths_add_up_and_meet_their_own_air() {
    let water = reef();
    let basis = TransferBasis::new(GasKind::CarbonDioxide, celsius(25.0));
    let volume = Volume::from_litres(200.0).unwrap();
    let ppm = |value| Air::new(DryMoleFractionCo2::from_ppm(value).unwrap());
    let rate = TransferRate::from_per_hour(0.4).unwrap();
    let surface = ExchangePath::from_rate(PathKind::OpenSurface, rate, volume, basis, ppm(1200.0));
    let absorbent =
        ExchangePath::from_rate(PathKind::FoamFractionator, rate, volume, basis, ppm(0.0));
    let one = exchange::<species::CarbonDioxide>(&[surface], &water)
        .unwrap()
        .value();
    let both = exchange::<species::CarbonDioxide>(&[surface, absorbent], &water)
        .unwrap()
        .value();
    assert!((both.rate(volume).unwrap().per_hour() - 0.8).abs() < 1e-12);
    // Equal paths, one without CO2: halfway.
    let half = 0.5 * one.equilibrium().umol_per_kg();
    assert!((both.equilibrium().umol_per_kg() - half).abs() < 1e-12);
    assert!(both.flux(both.equilibrium()).mmol_per_day().abs() < 1e-12);
    // 0.8/h * 24 h * 200 L * 1.02334 kg/L * 1 µmol/kg
    let above = Content::from_umol_per_kg(both.equilibrium().umol_per_kg() + 1.0).unwrap();
    let flux = both.flux(above);
    assert!((flux.mmol_per_day() + 0.8 * 24.0 * 200.0 * 1.02334e-3).abs() < 1e-4);
    assert!((flux.umol_per_s() * 86.4 - flux.mmol_per_day()).abs() < 1e-12);

    // What the surface alone tends to is the equilibrium with the room's air.
    let pressure = co2_partial_pressure(ppm(1200.0).carbon_dioxide(), &water).unwrap();
    let fugacity = co2_fugacity(pressure.value(), &water).unwrap();
    let content = carbon_dioxide_solubility(fugacity.value(), &water).unwrap();
    assert_eq!(one.equilibrium(), content.value());

    assert!(exchange::<Oxygen>(&[], &water).is_err());
    let still = ExchangePath::from_rate(
        PathKind::OpenSurface,
        TransferRate::from_per_hour(0.0).unwrap(),
        volume,
        basis,
        room(),
    );
    assert!(exchange::<Oxygen>(&[still], &water).is_err());
    assert!(both.rate(Volume::from_litres(0.0).unwrap()).is_err());
}

#[test]
fn a_falling_film_brings_no_more_water_to_equilibrium_than_passes() {
    let water = reef();
    let film = FallingFilm::new(0.3, 0.5, 0.3).unwrap();
    let path = ExchangePath::from_falling_film(film, room());
    let clearance = |path: ExchangePath| {
        path.clearance_l_per_day(GasKind::Oxygen, &water)
            .unwrap()
            .value()
    };
    let free = clearance(path);
    let k = film
        .transfer_velocity(GasKind::Oxygen, &water)
        .unwrap()
        .value();
    assert!((free / (k.m_per_s() * 0.15 * 86.4e6) - 1.0).abs() < 1e-14);
    // Penetration theory the other way round.
    let diffusivity = diffusivity_m2_per_s(GasKind::Oxygen, &water)
        .unwrap()
        .value();
    let time = film.contact_time_s();
    assert!((time - 1.0).abs() < 1e-15);
    let penetrated = k.m_per_s().powi(2) * core::f64::consts::PI * time / 4.0;
    assert!((penetrated / diffusivity - 1.0).abs() < 1e-14);
    let flow = |l_per_h| clearance(path.with_flow(FlowRate::from_l_per_h(l_per_h).unwrap()));
    assert!(flow(0.0).abs() < 1e-300);
    assert!((flow(1.0) - 24.0).abs() < 1e-9);
    assert!((flow(1e7) / free - 1.0).abs() < 1e-4);
    // k of gases is in the ratio of the roots of their diffusivities.
    let co2 = film
        .transfer_velocity(GasKind::CarbonDioxide, &water)
        .unwrap()
        .value();
    let schmidt = |gas| schmidt_number(gas, &water).unwrap().value();
    let ratio = schmidt(GasKind::Oxygen) / schmidt(GasKind::CarbonDioxide);
    assert!((co2.m_per_s() / k.m_per_s() - ratio.sqrt()).abs() < 1e-14);

    // Continuity: thickness times width times two thirds of the surface speed.
    let l_per_h = 150.0;
    let laminar = FilmFlow::new(FlowRate::from_l_per_h(l_per_h).unwrap(), 0.5, &water)
        .unwrap()
        .value();
    let carried = laminar.thickness_m() * 0.5 * laminar.surface_m_per_s() / 1.5;
    assert!((carried * 3.6e6 / l_per_h - 1.0).abs() < 1e-12);
    let turbulent = FilmFlow::new(FlowRate::from_l_per_h(3000.0).unwrap(), 0.5, &water);
    assert_eq!(turbulent.unwrap_err().input(), "film Reynolds number");
}

#[test]
fn every_gas_of_clean_air_is_at_its_own_solubility() {
    // 330 ppm of CO2: the air in which the fractions were measured.
    let clean = Air::new(DryMoleFractionCo2::from_ppm(330.0).unwrap());
    assert!((clean.nitrogen_mole_fraction() - 0.78084).abs() < 1e-15);
    assert!((clean.argon_mole_fraction() - 0.00934).abs() < 1e-15);
    let water = reef();
    let path = ExchangePath::from_velocity(
        PathKind::Overflow,
        TransferVelocity::from_cm_per_h(4.0).unwrap(),
        Area::from_cm2(2500.0).unwrap(),
        TransferBasis::new(GasKind::Oxygen, celsius(25.0)),
        clean,
    );
    // 4 cm/h over 0.25 m² are 10 L/h.
    let clearance = path.clearance_l_per_day(GasKind::Oxygen, &water).unwrap();
    assert!((clearance.value() - 240.0).abs() < 1e-10);
    let nitrogen = exchange::<species::Nitrogen>(&[path], &water)
        .unwrap()
        .value();
    let argon = exchange::<species::Argon>(&[path], &water).unwrap().value();
    let ratio = |a: f64, b: f64| (a / b - 1.0).abs();
    let solubility = nitrogen_solubility(&water).unwrap().value();
    assert!(
        ratio(
            nitrogen.equilibrium().umol_per_kg(),
            solubility.umol_per_kg()
        ) < 1e-14
    );
    let solubility = argon_solubility(&water).unwrap().value();
    assert!(ratio(argon.equilibrium().umol_per_kg(), solubility.umol_per_kg()) < 1e-14);
    // Half the oxygen in the air, half of it in the water.
    let thin = clean.with_oxygen_mole_fraction(0.10473).unwrap();
    let path = ExchangePath::from_falling_film(FallingFilm::new(0.2, 0.4, 0.5).unwrap(), thin);
    let oxygen = exchange::<Oxygen>(&[path], &water).unwrap().value();
    let solubility = oxygen_solubility(&water).unwrap().value();
    assert!(
        ratio(
            oxygen.equilibrium().umol_per_kg(),
            0.5 * solubility.umol_per_kg()
        ) < 1e-14
    );
}

fn record(points: impl IntoIterator<Item = (f64, f64)>) -> Vec<Reading<Oxygen>> {
    points
        .into_iter()
        .map(|(hours, umol_per_kg)| Reading::new(hours, oxygen(umol_per_kg)).unwrap())
        .collect()
}

fn approach(k: f64, equilibrium: f64, initial: f64, hours: f64) -> f64 {
    equilibrium - (equilibrium - initial) * (-k * hours).exp()
}

#[test]
fn a_record_without_noise_gives_its_numbers_back() {
    for (equilibrium, initial) in [(205.0, 20.0), (205.0, 420.0)] {
        for k in [0.05, 0.3, 1.0, 4.0, 12.0] {
            let readings = record((0..25).map(|i| {
                let hours = 0.7 + f64::from(i) * 3.0 / k / 24.0;
                (hours, approach(k, equilibrium, initial, hours - 0.7))
            }));
            let fit = Reaeration::new().fit(&readings).unwrap();
            assert!((fit.rate_per_hour().value / k - 1.0).abs() < 1e-9, "{k}");
            assert!((fit.equilibrium_umol_per_kg().value / equilibrium - 1.0).abs() < 1e-9);
            assert!((fit.initial_umol_per_kg().value / initial - 1.0).abs() < 1e-9);
            let known = Reaeration::new()
                .with_equilibrium(oxygen(equilibrium))
                .fit(&readings)
                .unwrap();
            assert!((known.rate_per_hour().value / k - 1.0).abs() < 1e-9);
            assert!(known.equilibrium_umol_per_kg().standard_error.abs() < 1e-300);
            assert_eq!(known.degrees_of_freedom(), 23);
        }
    }
}

/// The share of 95 % intervals that hold the truth, over many noisy records;
/// of 2000 the share itself has a standard deviation of 0.5 %.
#[test]
fn intervals_cover_the_truth_as_often_as_they_say() {
    const RUNS: u32 = 2000;
    let (k, equilibrium, initial) = (1.3, 205.0, 40.0);
    for (options, points, span, noise) in [
        (Reaeration::new(), 18, 3.0, 2.0),
        (Reaeration::new(), 7, 2.5, 1.0),
        (Reaeration::new(), 40, 1.2, 3.0),
        (
            Reaeration::new().with_equilibrium(oxygen(equilibrium)),
            12,
            1.0,
            4.0,
        ),
        (
            Reaeration::new()
                .with_equilibrium(oxygen(equilibrium))
                .with_initial(oxygen(initial)),
            8,
            1.0,
            4.0,
        ),
    ] {
        let mut rng = Rng::with_seed(points as u64);
        let mut covered = 0;
        let mut scatter = 0.0;
        let mut claimed = 0.0;
        for _ in 0..RUNS {
            let readings = record((0..points).map(|i| {
                let hours = f64::from(i) * span / f64::from(points - 1);
                let truth = approach(k, equilibrium, initial, hours);
                (hours, truth + noise * normal(&mut rng))
            }));
            let fit = options.fit(&readings).unwrap();
            let (low, high) = fit.rate_interval_per_hour();
            covered += u32::from(low <= k && k <= high);
            scatter += (fit.rate_per_hour().value - k).powi(2);
            claimed += fit.rate_per_hour().standard_error.powi(2);
        }
        let share = f64::from(covered) / f64::from(RUNS);
        assert!((0.935..=0.965).contains(&share), "{points} points: {share}");
        // The standard error is the scatter of the estimates.
        let ratio = (claimed / scatter).sqrt();
        assert!((0.85..=1.15).contains(&ratio), "{points} points: {ratio}");
    }
}

#[test]
fn a_record_that_does_not_bound_the_rate_is_refused() {
    let fit = |points: &[(f64, f64)]| Reaeration::new().fit(&record(points.iter().copied()));
    // Five readings.
    let few: Vec<_> = (0..5)
        .map(|i| (f64::from(i), 100.0 + f64::from(i)))
        .collect();
    assert!(matches!(
        fit(&few).unwrap_err().kind(),
        ErrorKind::TooFew {
            got: 5,
            need: 6,
            ..
        }
    ));
    // A straight line with a little scatter.
    let line: Vec<_> = (0..12)
        .map(|i| {
            (
                f64::from(i),
                100.0 + 5.0 * f64::from(i) + f64::from(i % 3) * 0.4,
            )
        })
        .collect();
    assert!(matches!(
        fit(&line).unwrap_err().kind(),
        ErrorKind::Uninformative { .. }
    ));
    // No change at all, and nothing but scatter.
    let flat: Vec<_> = (0..12).map(|i| (f64::from(i), 200.0)).collect();
    assert!(fit(&flat).is_err());
    let scatter: Vec<_> = (0..12)
        .map(|i| (f64::from(i), 200.0 + f64::from(i * 7 % 5)))
        .collect();
    assert!(fit(&scatter).is_err());
    // Over before the second reading.
    let jump: Vec<_> = (0..12)
        .map(|i| {
            (
                f64::from(i),
                if i == 0 {
                    60.0
                } else {
                    200.0 + f64::from(i % 3)
                },
            )
        })
        .collect();
    assert!(matches!(
        fit(&jump).unwrap_err().kind(),
        ErrorKind::Uninformative { .. }
    ));
    // Times out of order, twice the same, or not a number.
    let disorder = [
        (0.0, 60.0),
        (1.0, 90.0),
        (1.0, 95.0),
        (2.0, 120.0),
        (3.0, 140.0),
        (4.0, 150.0),
    ];
    assert!(fit(&disorder).unwrap_err().is_contradictory());
    assert!(Reading::new(f64::NAN, oxygen(1.0)).is_err());
    assert!(Reading::new(-1.0, oxygen(1.0)).is_err());
}

/// Whatever is recorded, the answer is a bounded rate inside its own interval,
/// or a refusal; never a panic or a hang.
#[test]
fn wild_records_are_fitted_or_refused() {
    let mut rng = Rng::with_seed(7);
    let mut fitted = 0;
    for _ in 0..4000 {
        let n = 6 + (rng.f64() * 20.0) as usize;
        let scale = 10f64.powf(uniform(&mut rng, -4.0, 3.0));
        let mut hours = rng.f64() * 100.0;
        let shape = rng.f64();
        let readings = record((0..n).map(|i| {
            hours += scale * uniform(&mut rng, 1e-6, 1.0);
            let value = if shape < 0.3 {
                uniform(&mut rng, 0.0, 1e4)
            } else if shape < 0.5 {
                if i < n / 2 { 0.0 } else { 300.0 }
            } else {
                approach(
                    uniform(&mut rng, 0.5, 2.0) / scale,
                    200.0,
                    0.0,
                    hours % scale,
                )
                .abs()
            };
            (hours, value)
        }));
        let mut options = Reaeration::new();
        if rng.f64() < 0.3 {
            options = options.with_equilibrium(oxygen(uniform(&mut rng, 0.0, 400.0)));
        }
        if rng.f64() < 0.3 {
            options = options.with_initial(oxygen(uniform(&mut rng, 0.0, 400.0)));
        }
        if let Ok(fit) = options.fit(&readings) {
            fitted += 1;
            let (low, high) = fit.rate_interval_per_hour();
            let rate = fit.rate_per_hour();
            assert!(low > 0.0 && low <= rate.value && rate.value <= high && high.is_finite());
            assert!(rate.standard_error >= 0.0 && rate.standard_error.is_finite());
            assert!(fit.equilibrium_umol_per_kg().standard_error.is_finite());
            assert!(fit.initial_umol_per_kg().standard_error.is_finite());
        }
    }
    assert!(fitted > 100, "{fitted}");
}
