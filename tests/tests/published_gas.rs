//! Dissolved gases against published values.

use halimeda::carbonate::EquilibriumOptions;
use halimeda::gas::{
    FISH_DELTA_P_FIDLER_MILLER1994, FilmFlow, GasKind, Reading, Reaeration, ReaerationFit,
    TotalGasPressure, argon_solubility, carbon_dioxide_solubility, co2_fugacity,
    co2_partial_pressure, diffusivity_m2_per_s, nitrogen_solubility, oxygen_solubility,
    schmidt_number,
};
use halimeda::{
    AirPressure, Alkalinity, Concentration, Content, DryMoleFractionCo2, FlowRate, FugacityCo2,
    OxygenVolume, PartialPressureCo2, PracticalSalinity, Temperature, Water, form, species,
};

fn water(celsius: f64, salinity: f64) -> Water {
    Water::new(
        Temperature::from_celsius(celsius).unwrap(),
        PracticalSalinity::new(salinity).unwrap(),
    )
}

#[track_caller]
fn close(got: f64, published: f64, tolerance: f64) {
    assert!(
        (got - published).abs() <= tolerance,
        "got {got}, published {published} ± {tolerance}"
    );
}

#[track_caller]
fn close_relative(got: f64, published: f64, tolerance: f64) {
    close(got, published, tolerance * published.abs());
}

/// Garcia & Gordon (1992), Limnol. Oceanogr. 37, 1307-1312, check values at
/// 10 °C, S = 35: 274.610 µmol/kg and 6.315 mL/L. The data are on IPTS-68.
#[test]
fn oxygen_check_values_of_garcia_and_gordon() {
    let water = water(10.0 / 1.00024, 35.0);
    let oxygen = oxygen_solubility(&water).unwrap().value();
    close(oxygen.umol_per_kg(), 274.610, 0.0005);
    let volume = OxygenVolume::from_content(oxygen, water.density().unwrap()).unwrap();
    close(volume.ml_per_l(), 6.315, 0.0005);
}

/// Hamme & Emerson (2004), Deep-Sea Res. I 51, 1517-1528, table 4, check values
/// at 10 °C, S = 35: N2 500.885, Ar 13.4622 µmol/kg.
#[test]
fn nitrogen_and_argon_check_values_of_hamme_and_emerson() {
    let water = water(10.0, 35.0);
    let nitrogen = nitrogen_solubility(&water).unwrap().value();
    let argon = argon_solubility(&water).unwrap().value();
    close(nitrogen.umol_per_kg(), 500.885, 0.0005);
    close(argon.umol_per_kg(), 13.4622, 0.00005);
}

/// Worked examples in the documentation of the TEOS-10 toolbox (version 3.05),
/// which evaluates the same three relations. N2 and Ar are not converted to
/// IPTS-68 there, O2 is; so it is here.
#[test]
fn solubilities_agree_with_the_examples_of_the_teos_10_documentation() {
    for (salinity, celsius, oxygen, nitrogen, argon) in [
        (
            34.7118,
            28.8099,
            194.6825431692940,
            369.1117025637774,
            9.568921582205615,
        ),
        (
            34.8915,
            28.4392,
            195.6135062814438,
            370.5575018006895,
            9.614483910739523,
        ),
        (
            35.0256,
            22.7862,
            214.6559360234014,
            401.8436454952399,
            10.544822095544601,
        ),
        (
            34.8472,
            10.2262,
            273.5652832698713,
            499.2639689279047,
            13.412103720671920,
        ),
        (
            34.7366,
            6.8272,
            295.1580761415903,
            535.0383122250682,
            14.460562008602251,
        ),
        (
            34.7324,
            4.3236,
            312.9598716631408,
            564.4762851263093,
            15.324345607296737,
        ),
    ] {
        let water = water(celsius, salinity);
        let got = oxygen_solubility(&water).unwrap().value();
        close_relative(got.umol_per_kg(), oxygen, 1e-13);
        let got = nitrogen_solubility(&water).unwrap().value();
        close_relative(got.umol_per_kg(), nitrogen, 1e-13);
        let got = argon_solubility(&water).unwrap().value();
        close_relative(got.umol_per_kg(), argon, 1e-13);
    }
}

fn oxygen_mg_per_l(water: &Water) -> f64 {
    let oxygen = oxygen_solubility(water).unwrap().value();
    let mass: Concentration<form::OxygenAsO2> = oxygen.to_concentration(water.density().unwrap());
    mass.mg_per_l()
}

/// The solubility table of ISO 5814 (EN 25814): fresh water, 1 atm, mg/L to
/// three digits.
#[test]
fn oxygen_in_fresh_water_agrees_with_the_iso_5814_table() {
    let table = [
        (0.0, 14.6, 0.05),
        (5.0, 12.8, 0.05),
        (10.0, 11.3, 0.05),
        (15.0, 10.1, 0.05),
        (16.0, 9.87, 0.005),
        (18.0, 9.47, 0.005),
        (20.0, 9.09, 0.005),
        (22.0, 8.74, 0.005),
        (24.0, 8.42, 0.005),
        (25.0, 8.26, 0.005),
        (26.0, 8.11, 0.005),
        (28.0, 7.83, 0.005),
        (30.0, 7.56, 0.005),
    ];
    for (celsius, published, half_digit) in table {
        let tolerance = half_digit + 0.002;
        close(oxygen_mg_per_l(&water(celsius, 0.0)), published, tolerance);
    }
}

/// Benson & Krause (1984), Limnol. Oceanogr. 29, 620-632 (doi
/// 10.4319/lo.1984.29.3.0620): eqs. 24 and 32 and table 2 for mg/L at any
/// pressure, adopted by USGS Technical Memorandum 2011.03. Another formulation
/// of the same data, per volume, with its own vapour pressure and with the gas
/// not ideal.
fn benson_krause_mg_per_l(celsius: f64, s: f64, atm: f64) -> f64 {
    let t = celsius + 273.15;
    let one_atm = (-139.34411 + 1.575701e5 / t - 6.642308e7 / t.powi(2) + 1.243800e10 / t.powi(3)
        - 8.621949e11 / t.powi(4)
        - s * (0.017674 - 10.754 / t + 2140.7 / t.powi(2)))
    .exp();
    let x = 373.16 / t;
    let vapour = (1.0 - 5.37e-4 * s)
        * (18.1973 * (1.0 - x) + 3.1813e-7 * (1.0 - (26.1205 * (1.0 - 1.0 / x)).exp())
            - 1.8726e-2 * (1.0 - (8.03945 * (1.0 - x)).exp())
            + 5.02802 * x.ln())
        .exp();
    let theta = 0.000975 - 1.426e-5 * celsius + 6.436e-8 * celsius.powi(2);
    one_atm * (atm - vapour) * (1.0 - theta * atm) / ((1.0 - vapour) * (1.0 - theta))
}

#[test]
fn oxygen_agrees_with_benson_and_krause_over_temperature_salinity_and_pressure() {
    for celsius in [1.0, 10.0, 20.0, 25.0, 30.0, 39.0] {
        for salinity in [0.0, 20.0, 35.0, 40.0] {
            let sea_level = water(celsius, salinity);
            let published = benson_krause_mg_per_l(celsius * 1.00024, salinity, 1.0);
            close_relative(oxygen_mg_per_l(&sea_level), published, 2.5e-4);
            for atm in [0.7, 0.85, 1.05] {
                let air = AirPressure::from_atm(atm).unwrap();
                let published = benson_krause_mg_per_l(celsius * 1.00024, salinity, atm);
                let got = oxygen_mg_per_l(&sea_level.with_air_pressure(air));
                close_relative(got, published, 6e-4);
            }
        }
    }
}

/// Wanninkhof (2014), Limnol. Oceanogr. Methods 12, 351-362, table 1, seawater,
/// Sc(20 °C), from memory.
#[test]
fn schmidt_numbers_at_20_celsius_of_wanninkhof() {
    let water = water(20.0, 35.0);
    let schmidt = |gas| schmidt_number(gas, &water).unwrap().value();
    close(schmidt(GasKind::CarbonDioxide), 668.0, 0.5);
    close(schmidt(GasKind::Oxygen), 568.0, 0.5);
}

/// Wanninkhof (1992), J. Geophys. Res. 97, 7373-7382, appendix: the cubics that
/// the 2014 table replaced, from older diffusivities. Argon moved most, 8 %.
#[test]
fn schmidt_numbers_are_near_their_predecessors() {
    for (gas, [a, b, c, d]) in [
        (GasKind::Oxygen, [1953.4, 128.00, 3.9918, 0.050091]),
        (GasKind::Nitrogen, [2206.1, 144.86, 4.5413, 0.056988]),
        (GasKind::Argon, [1909.1, 125.09, 3.9012, 0.048953]),
        (GasKind::CarbonDioxide, [2073.1, 125.62, 3.6276, 0.043219]),
    ] {
        for celsius in [5.0_f64, 10.0, 15.0, 20.0, 25.0] {
            let published = a - b * celsius + c * celsius.powi(2) - d * celsius.powi(3);
            let got = schmidt_number(gas, &water(celsius, 35.0)).unwrap().value();
            close_relative(got, published, 0.08);
        }
    }
}

/// CRC Handbook of Chemistry and Physics, "Diffusion of gases in water", CO2
/// from Jähne et al. (1987), J. Geophys. Res. 92, 10767-10776, 10⁻⁵ cm²/s in
/// pure water. In seawater diffusivities are lower by some 6 %.
#[test]
fn diffusivity_of_carbon_dioxide_is_somewhat_below_that_in_pure_water() {
    for (celsius, pure) in [
        (10.0, 1.26),
        (15.0, 1.45),
        (20.0, 1.67),
        (25.0, 1.91),
        (30.0, 2.17),
        (35.0, 2.47),
    ] {
        let sea = diffusivity_m2_per_s(GasKind::CarbonDioxide, &water(celsius, 35.0))
            .unwrap()
            .value();
        close(sea / (pure * 1e-9), 0.94, 0.03);
    }
}

/// Bird, Stewart & Lightfoot (2002), Transport Phenomena, 2nd ed., problem 2A.1,
/// from memory: water at 20 °C down a vertical wall at Re = 10 flows at 0.727 US
/// gallons per hour and foot, in a film of 0.00361 inch.
#[test]
fn nusselt_film_of_transport_phenomena() {
    let foot = 0.3048;
    let flow = FlowRate::from_l_per_h(0.727 * 3.785411784).unwrap();
    let film = FilmFlow::new(flow, foot, &water(20.0, 0.0))
        .unwrap()
        .value();
    close(film.reynolds(), 10.0, 0.02);
    close(film.thickness_m() / 0.0254, 0.00361, 5e-6);
}

/// Fidler & Miller (1994), British Columbia Water Quality Guidelines for
/// Dissolved Gas Supersaturation, section 9.1.3: 76 mmHg is about 110 % at sea
/// level.
#[test]
fn total_gas_pressure_of_the_guideline() {
    let gas = TotalGasPressure::from_delta_p(FISH_DELTA_P_FIDLER_MILLER1994, &water(25.0, 35.0))
        .unwrap()
        .value();
    close(gas.percent(), 110.0, 0.05);
}

/// PyCO2SYS 1.8.3.4, run as a black box at 25 °C, S = 35, 1 atm: pCO2 of 400
/// µatm is an fCO2 of 398.72417621789555 and an xCO2 of 412.6499066687073 ppm.
#[test]
fn carbon_dioxide_pressures_agree_with_pyco2sys() {
    let water = water(25.0, 35.0);
    let pressure = PartialPressureCo2::from_uatm(400.0).unwrap();
    let fugacity = co2_fugacity(pressure, &water).unwrap().value();
    close_relative(fugacity.uatm(), 398.72417621789555, 1e-9);
    let dry = DryMoleFractionCo2::from_ppm(412.6499066687073).unwrap();
    let pressure = co2_partial_pressure(dry, &water).unwrap().value();
    close_relative(pressure.uatm(), 400.0, 1e-9);
}

/// PyCO2SYS 1.8.3.4, run as a black box: alkalinity 2800 µmol/kg under air of 420
/// and 1500 ppm at 25 °C, S = 35, 1 atm tends to pH(total) 8.108379 and 7.634206
/// with the constants of Lueker et al. (2000) and Perez & Fraga (1987) and the
/// boron of Lee et al. (2010). Its KF is larger by the ratio of the total to the
/// free scale, which shifts KW on the total scale and is worth 7·10⁻⁶ here.
#[test]
fn ph_a_tank_tends_to_agrees_with_pyco2sys() {
    let water = water(25.0, 35.0);
    let equilibria = water.equilibria(&EquilibriumOptions::default()).unwrap();
    let alkalinity = Alkalinity::from_umol_per_kg(2800.0).unwrap();
    for (ppm, ph) in [(420.0, 8.108379), (1500.0, 7.634206)] {
        let room = DryMoleFractionCo2::from_ppm(ppm).unwrap();
        let pressure = co2_partial_pressure(room, &water).unwrap().value();
        let state = equilibria.solve(alkalinity, pressure).unwrap();
        close(state.ph_total().value(), ph, 1e-5);
    }
}

/// Dickson, Sabine & Christian (2007), Guide to Best Practices for Ocean CO2
/// Measurements, PICES Special Publication 3, chapter 5: ln K0 = −3.5617 at
/// 25 °C, S = 35.
#[test]
fn carbon_dioxide_solubility_of_the_guide_to_best_practices() {
    let fugacity = FugacityCo2::from_uatm(400.0).unwrap();
    let content = carbon_dioxide_solubility(fugacity, &water(25.0, 35.0))
        .unwrap()
        .value();
    close((content.mol_per_kg() / 400e-6).ln(), -3.5617, 5e-5);
}

type Oxygen = species::Oxygen;

fn fit(record: &[(f64, f64)], options: Reaeration<Oxygen>) -> ReaerationFit<Oxygen> {
    let readings: Vec<_> = record
        .iter()
        .map(|&(hours, umol_per_kg)| {
            Reading::new(hours, Content::from_umol_per_kg(umol_per_kg).unwrap()).unwrap()
        })
        .collect();
    options.fit(&readings).unwrap()
}

/// NIST Statistical Reference Datasets, nonlinear regression, Misra1a: y =
/// b1 (1 − exp(−b2 x)), the curve that starts from zero. Certified to 11 digits.
#[test]
fn reaeration_fit_reproduces_nist_misra1a() {
    let record = [
        (77.6, 10.07),
        (114.9, 14.73),
        (141.1, 17.94),
        (190.8, 23.93),
        (239.9, 29.61),
        (289.0, 35.18),
        (332.8, 40.02),
        (378.4, 44.82),
        (434.8, 50.76),
        (477.3, 55.05),
        (536.8, 61.01),
        (593.1, 66.40),
        (689.1, 75.47),
        (760.0, 81.78),
    ];
    let fit = fit(&record, Reaeration::new().with_initial(Content::ZERO));
    let (rate, equilibrium) = (fit.rate_per_hour(), fit.equilibrium_umol_per_kg());
    close_relative(equilibrium.value, 2.3894212918E+02, 1e-10);
    close_relative(equilibrium.standard_error, 2.7070075241E+00, 1e-10);
    close_relative(rate.value, 5.5015643181E-04, 1e-10);
    close_relative(rate.standard_error, 7.2668688436E-06, 1e-10);
    close_relative(fit.residual_sd_umol_per_kg(), 1.0187876330E-01, 1e-10);
    assert_eq!(fit.degrees_of_freedom(), 12);
}

/// NIST Statistical Reference Datasets, nonlinear regression, BoxBOD ("higher
/// level of difficulty"; Box, Hunter & Hunter 1978): the same curve.
#[test]
fn reaeration_fit_reproduces_nist_boxbod() {
    let record = [
        (1.0, 109.0),
        (2.0, 149.0),
        (3.0, 149.0),
        (5.0, 191.0),
        (7.0, 213.0),
        (10.0, 224.0),
    ];
    let fit = fit(&record, Reaeration::new().with_initial(Content::ZERO));
    let (rate, equilibrium) = (fit.rate_per_hour(), fit.equilibrium_umol_per_kg());
    close_relative(equilibrium.value, 2.1380940889E+02, 1e-10);
    close_relative(equilibrium.standard_error, 1.2354515176E+01, 1e-10);
    close_relative(rate.value, 5.4723748542E-01, 1e-10);
    close_relative(rate.standard_error, 1.0455993237E-01, 1e-10);
    close_relative(fit.residual_sd_umol_per_kg(), 1.7088072423E+01, 1e-10);
    assert_eq!(fit.degrees_of_freedom(), 4);
}

/// Three unknowns: the asymptotic regression in R's documentation of SSasymp
/// (height of loblolly pines of seed 329 against age; Kung 1986, Pinheiro &
/// Bates 2000), A = 94.1282 ± 8.4030, ln k = −3.2176 ± 0.1386, residual 0.7493.
/// The value at the first point comes from SciPy 1.17 `curve_fit`.
#[test]
fn reaeration_fit_reproduces_the_asymptotic_regression_of_r() {
    let record = [
        (3.0, 3.93),
        (5.0, 9.34),
        (10.0, 26.08),
        (15.0, 37.79),
        (20.0, 48.31),
        (25.0, 56.43),
    ];
    let fit = fit(&record, Reaeration::new());
    let (rate, equilibrium) = (fit.rate_per_hour(), fit.equilibrium_umol_per_kg());
    close(equilibrium.value, 94.1282, 5e-5);
    close(equilibrium.standard_error, 8.4030, 5e-5);
    close(rate.value.ln(), -3.2176, 5e-5);
    close(rate.standard_error / rate.value, 0.1386, 5e-5);
    close(fit.residual_sd_umol_per_kg(), 0.7493, 5e-5);
    let initial = fit.initial_umol_per_kg();
    close_relative(initial.value, 3.340362308727006, 1e-7);
    close_relative(initial.standard_error, 0.6237339379409194, 1e-6);
}
