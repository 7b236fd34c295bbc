//! Properties of the readings of salinity: every instrument gives back the
//! salinity of the water it was read in, and no reading panics.

use halimeda::water::{
    CalibrationFluid, Conductivity, Hydrometer, NetVolume, RefractiveIndex, Refractometer,
    RefractometerScale, SalinityReading, SpecificConductance, SpecificGravity,
    SpecificGravityReference, TemperatureCompensation, Wavelength,
    practical_salinity_from_conductivity, practical_salinity_from_density,
    practical_salinity_from_refractive_index,
};
use halimeda::{
    AirPressure, Composition, Content, Density, Extrapolation, PracticalSalinity, Result,
    Temperature, Volume, Water, WaterPressure,
};

const REFUSE: Extrapolation = Extrapolation::Refuse;

fn celsius(t: f64) -> Temperature {
    Temperature::from_celsius(t).unwrap()
}

fn salinity(s: f64) -> PracticalSalinity {
    PracticalSalinity::new(s).unwrap()
}

/// `steps` values from `low` to `high`, both included exactly.
fn lattice(low: f64, high: f64, steps: u32) -> impl Iterator<Item = f64> {
    (0..steps).map(move |i| {
        let fraction = f64::from(i) / f64::from(steps - 1);
        low * (1.0 - fraction) + high * fraction
    })
}

/// Largest error of `found` over temperatures and salinities, both ranges with
/// their ends.
fn worst(
    temperatures: (f64, f64),
    salinities: (f64, f64),
    found: impl Fn(Water) -> Result<SalinityReading>,
) -> f64 {
    let mut worst = 0.0f64;
    for t in lattice(temperatures.0, temperatures.1, 75) {
        for s in lattice(salinities.0, salinities.1, 401) {
            let water = Water::new(celsius(t), salinity(s));
            let reading = found(water).unwrap();
            worst = worst.max((reading.salinity().value() - s).abs());
            assert!(reading.extrapolations().is_empty());
            assert!(reading.sensitivity() > 0.0);
        }
    }
    worst
}

#[test]
fn density_round_trip() {
    let error = worst((-2.0, 40.0), (0.0, 42.0), |water| {
        practical_salinity_from_density(water.density()?, water.temperature(), REFUSE)
    });
    assert!(error < 1e-11, "{error}");
}

#[test]
fn specific_gravity_round_trip() {
    for reference in [
        SpecificGravityReference::AT_25_25,
        SpecificGravityReference::AT_20_20,
        SpecificGravityReference::AT_15_15,
        SpecificGravityReference::AT_60F_60F,
        SpecificGravityReference::AT_15_4,
        SpecificGravityReference::AT_20_4,
    ] {
        let error = worst((20.0, 20.0), (0.0, 42.0), |water| {
            water
                .specific_gravity(reference)?
                .practical_salinity(REFUSE)
        });
        assert!(error < 1e-11, "{error}");
    }
}

#[test]
fn hydrometer_round_trip() {
    let hydrometer = Hydrometer::glass(SpecificGravityReference::AT_60F_60F);
    let error = worst((-2.0, 40.0), (0.0, 42.0), |water| {
        let reading = hydrometer.reading(&water)?;
        hydrometer.practical_salinity(reading, water.temperature(), REFUSE)
    });
    assert!(error < 1e-11, "{error}");
}

#[test]
fn conductivity_round_trip() {
    for dbar in [0.0, 10.0, 1000.0] {
        let pressure = WaterPressure::from_dbar(dbar).unwrap();
        let error = worst((-2.0, 35.0), (2.0, 42.0), |water| {
            let conductivity = water.with_water_pressure(pressure).conductivity()?;
            practical_salinity_from_conductivity(
                conductivity,
                water.temperature(),
                pressure,
                REFUSE,
            )
        });
        assert!(error < 1e-12, "{error}");
    }
}

#[test]
fn specific_conductance_round_trip() {
    let reference = celsius(25.0);
    let error = worst((10.0, 35.0), (2.1, 41.9), |water| {
        let t = water.temperature();
        let shown =
            SpecificConductance::from_conductivity(water.conductivity()?, t, reference, 2.0)?;
        // Another meter, the same water: only the coefficient differs.
        let other =
            SpecificConductance::from_conductivity(water.conductivity()?, t, reference, 1.9)?;
        if t.celsius() > 25.0 {
            assert!(other.shown().ms_per_cm() > shown.shown().ms_per_cm());
        }
        let surface = WaterPressure::SURFACE;
        practical_salinity_from_conductivity(shown.conductivity(t)?, t, surface, REFUSE)
    });
    assert!(error < 1e-12, "{error}");
}

#[test]
fn refractive_index_round_trip() {
    for nanometres in [500.0, 589.26, 700.0] {
        let wavelength = Wavelength::from_nanometres(nanometres).unwrap();
        let error = worst((0.0, 30.0), (0.0, 40.0), |water| {
            let index = water.refractive_index(wavelength)?;
            practical_salinity_from_refractive_index(index, wavelength, water.temperature(), REFUSE)
        });
        // 2e-16 in the index is 1e-12 in salinity.
        assert!(error < 1e-11, "{error}");
    }
}

#[test]
fn refractometer_round_trip() {
    let fluids = [
        (CalibrationFluid::PureWater, 0.0),
        (CalibrationFluid::Seawater(salinity(35.0)), 35.0),
        (CalibrationFluid::SodiumChloride { g_per_kg: 36.5 }, 35.0),
    ];
    for (fluid, shown) in fluids {
        for scale in [
            RefractometerScale::Seawater,
            RefractometerScale::SodiumChloride,
        ] {
            let instrument = Refractometer::new(scale).adjusted(fluid, shown).unwrap();
            let error = worst((20.0, 20.0), (5.0, 40.0), |water| {
                instrument.practical_salinity(instrument.shows(water.salinity())?, REFUSE)
            });
            assert!(error < 1e-10, "{error}");
            // Whatever it was adjusted with, it shows what it was set to in it.
            if let CalibrationFluid::Seawater(standard) = fluid {
                assert!((instrument.shows(standard).unwrap() - shown).abs() < 1e-10);
            }
        }
    }
    let brix = Refractometer::new(RefractometerScale::Brix);
    let error = worst((20.0, 20.0), (1.0, 40.0), |water| {
        let uncompensated = brix.with_compensation(TemperatureCompensation::None {
            fluid: celsius(20.0),
            sample: water.temperature(),
        });
        uncompensated.practical_salinity(uncompensated.shows(water.salinity())?, REFUSE)
    });
    assert!(error < 1e-10, "{error}");
}

#[test]
fn sensitivity_is_the_slope_of_the_reading() {
    let t = celsius(26.0);
    let at = |rho| {
        let density = Density::from_kg_per_m3(rho).unwrap();
        practical_salinity_from_density(density, t, REFUSE).unwrap()
    };
    let slope = (at(1023.5).salinity().value() - at(1022.5).salinity().value()) / 1.0;
    let reading = at(1023.0);
    assert!((reading.sensitivity() / slope - 1.0).abs() < 1e-4);
    // The relation's own 0.0036 kg/m³ and the reading's in quadrature.
    let relation = reading.relation_uncertainty();
    assert!((relation - 0.0036 * reading.sensitivity()).abs() < 1e-12);
    let both = reading.standard_uncertainty(0.0036).unwrap();
    assert!((both / relation - 2f64.sqrt()).abs() < 1e-12);
    assert!(reading.standard_uncertainty(-1.0).is_err());
    assert!(reading.standard_uncertainty(f64::NAN).is_err());

    let at = |ms_per_cm| {
        let conductivity = Conductivity::from_ms_per_cm(ms_per_cm).unwrap();
        let surface = WaterPressure::SURFACE;
        practical_salinity_from_conductivity(conductivity, t, surface, REFUSE).unwrap()
    };
    let slope = at(53.5).salinity().value() - at(52.5).salinity().value();
    assert!((at(53.0).sensitivity() / slope - 1.0).abs() < 1e-4);
}

#[test]
fn sea_level_round_trip() {
    for altitude_m in lattice(-1000.0, 7000.0, 81) {
        for hpa in lattice(940.0, 1060.0, 13) {
            let report = AirPressure::from_hpa(hpa).unwrap();
            let Ok(station) = AirPressure::from_sea_level(report, altitude_m) else {
                // Only where the pressure leaves what AirPressure holds.
                assert!(!(0.0..=6000.0).contains(&altitude_m));
                continue;
            };
            let back = station.to_sea_level(altitude_m).unwrap();
            assert!((back.hpa() - hpa).abs() < 1e-9);
        }
    }
}

/// Every reading, sensible or not, is answered or refused; an answer is a salinity
/// and its uncertainty is a number.
#[test]
fn wild_readings_are_answered_or_refused() {
    let mut values = vec![
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        0.0,
        -0.0,
        f64::MIN_POSITIVE,
        f64::MAX,
        f64::MIN,
    ];
    for exponent in -20..=20 {
        for mantissa in [1.0, 1.3, 2.7, 5.1, 8.9] {
            values.push(mantissa * 10f64.powi(exponent));
            values.push(-mantissa * 10f64.powi(exponent));
        }
    }
    values.extend(lattice(0.9, 1.2, 301));
    values.extend(lattice(900.0, 1200.0, 301));
    values.extend(lattice(1.3, 1.4, 101));
    let sane = |reading: Result<SalinityReading>| {
        if let Ok(reading) = reading {
            assert!((0.0..=70.0).contains(&reading.salinity().value()));
            assert!(reading.standard_uncertainty(1e-3).unwrap().is_finite());
        }
    };
    for &x in &values {
        for t in lattice(-5.0, 60.0, 14).map(celsius) {
            for policy in [Extrapolation::Refuse, Extrapolation::Allow] {
                if let Ok(density) = Density::from_kg_per_m3(x) {
                    sane(practical_salinity_from_density(density, t, policy));
                }
                if let Ok(conductivity) = Conductivity::from_ms_per_cm(x) {
                    for pressure in [0.0, 1000.0] {
                        let pressure = WaterPressure::from_dbar(pressure).unwrap();
                        sane(practical_salinity_from_conductivity(
                            conductivity,
                            t,
                            pressure,
                            policy,
                        ));
                    }
                }
                if let Ok(index) = RefractiveIndex::new(x) {
                    let line = Wavelength::SODIUM_D;
                    sane(practical_salinity_from_refractive_index(
                        index, line, t, policy,
                    ));
                }
                let reference = SpecificGravityReference::AT_25_25;
                sane(
                    SpecificGravity::new(x, reference)
                        .and_then(|read| read.practical_salinity(policy)),
                );
                sane(Hydrometer::glass(reference).practical_salinity(x, t, policy));
                for scale in [
                    RefractometerScale::Seawater,
                    RefractometerScale::SodiumChloride,
                    RefractometerScale::Brix,
                ] {
                    let instrument = Refractometer::new(scale);
                    sane(instrument.practical_salinity(x, policy));
                    let read_warm = TemperatureCompensation::None {
                        fluid: celsius(20.0),
                        sample: t,
                    };
                    sane(
                        instrument
                            .with_compensation(read_warm)
                            .practical_salinity(x, policy),
                    );
                }
            }
        }
        let _ = AirPressure::at_altitude_m(x);
        let _ = NetVolume::new().tank_cm(x, x, x, x);
        if let Ok(volume) = Volume::from_litres(x) {
            let _ = NetVolume::new().vessel(volume, volume).unwrap().volume();
        }
    }
}

#[test]
fn water_survives_serde_and_leaves_out_what_was_not_said() {
    let plain = Water::new(celsius(25.0), salinity(35.0));
    let text = serde_json::to_string(&plain).unwrap();
    assert!(!text.contains("composition"), "{text}");
    assert_eq!(serde_json::from_str::<Water>(&text).unwrap(), plain);
    let shortest = r#"{"temperature":{"celsius":25.0},"salinity":{"value":35.0}}"#;
    assert_eq!(serde_json::from_str::<Water>(shortest).unwrap(), plain);

    let calcium = Content::from_umol_per_kg(10_600.0).unwrap();
    let full = plain
        .with_air_pressure(AirPressure::from_atm(0.9).unwrap())
        .with_water_pressure(WaterPressure::from_dbar(3.0).unwrap())
        .with_composition(Composition::REFERENCE.with_calcium(calcium))
        .with_extrapolation(Extrapolation::Allow);
    let text = serde_json::to_string(&full).unwrap();
    assert!(
        text.contains("calcium") && !text.contains("magnesium"),
        "{text}"
    );
    assert_eq!(serde_json::from_str::<Water>(&text).unwrap(), full);

    // What a constructor refuses, a file does not bring in.
    for refused in [
        r#"{"temperature":{"celsius":250.0},"salinity":{"value":35.0}}"#,
        r#"{"temperature":{"celsius":25.0}}"#,
        r#"{"temperature":{"fahrenheit":77.0},"salinity":{"value":35.0}}"#,
        r#"{"temperature":{"celsius":25.0},"salinity":{"value":35.0},"ph":8.1}"#,
    ] {
        assert!(serde_json::from_str::<Water>(refused).is_err(), "{refused}");
    }
}
