//! Published values of seawater's physical properties, each beside its source.
//!
//! Values that lie deeper than a [`halimeda::WaterPressure`] goes (UNESCO 44 and
//! Millard & Seaver below 1000 dbar) and tables behind private relations (CRC and
//! OIV refractive indices) are checked beside the relations themselves.

use halimeda::water::{
    CalibrationFluid, Conductivity, Hydrometer, NetVolume, RefractiveIndex, Refractometer,
    RefractometerScale, SpecificGravityReference, TemperatureCompensation, Wavelength,
    practical_salinity_from_conductivity, practical_salinity_from_density,
    practical_salinity_from_refractive_index,
};
use halimeda::{
    AirPressure, Composition, Density, ErrorKind, Extrapolation, PracticalSalinity, Relation,
    Temperature, Volume, Water, WaterPressure,
};

fn celsius(t: f64) -> Temperature {
    Temperature::from_celsius(t).unwrap()
}

/// A temperature given on the scale of 1968, t68 = 1.00024 t90 (Saunders 1990).
fn celsius_68(t68: f64) -> Temperature {
    celsius(t68 / 1.00024)
}

fn salinity(s: f64) -> PracticalSalinity {
    PracticalSalinity::new(s).unwrap()
}

fn water(t: Temperature, s: f64) -> Water {
    Water::new(t, salinity(s))
}

#[track_caller]
fn close(found: f64, published: f64, tolerance: f64) {
    assert!(
        (found - published).abs() <= tolerance,
        "found {found}, published {published} ± {tolerance}"
    );
}

/// Fofonoff & Millard (1983) UNESCO Tech. Pap. Mar. Sci. 44, p. 19, surface
/// pressure: S, t68, kg/m³. Five decimals.
const UNESCO_44_DENSITY: [(f64, f64, f64); 4] = [
    (0.0, 5.0, 999.96675),
    (0.0, 25.0, 997.04796),
    (35.0, 5.0, 1027.67547),
    (35.0, 25.0, 1023.34306),
];

#[test]
fn density_eos_80() {
    for (s, t68, rho) in UNESCO_44_DENSITY {
        let t = celsius_68(t68);
        close(water(t, s).density().unwrap().kg_per_m3(), rho, 5e-6);
        if s > 0.0 {
            let density = Density::from_kg_per_m3(rho).unwrap();
            let back = practical_salinity_from_density(density, t, Extrapolation::Refuse).unwrap();
            close(back.salinity().value(), s, 1e-5);
        } else {
            let pure = water(t, 35.0).pure_water_density().unwrap();
            close(pure.kg_per_m3(), rho, 5e-6);
        }
    }
}

#[test]
fn specific_gravity_is_the_ratio_of_the_published_densities() {
    let ocean = water(celsius(20.0), 35.0);
    for (t68, rho, rho_pure) in [(25.0, 1023.34306, 997.04796), (5.0, 1027.67547, 999.96675)] {
        let t = celsius_68(t68);
        let reference = SpecificGravityReference::new(t, t).unwrap();
        let read = ocean.specific_gravity(reference).unwrap();
        close(read.value(), rho / rho_pure, 1e-8);
        let back = read.practical_salinity(Extrapolation::Refuse).unwrap();
        close(back.salinity().value(), 35.0, 1e-9);
    }
    // Sample and pure water at different temperatures, same table.
    let reference = SpecificGravityReference::new(celsius_68(25.0), celsius_68(5.0)).unwrap();
    let read = ocean.specific_gravity(reference).unwrap();
    close(read.value(), 1023.34306 / 999.96675, 1e-8);
}

#[test]
fn hydrometer_in_warm_water_counts_the_water_and_the_glass() {
    // Densities of UNESCO 44, p. 19; glass of ISO 1768:1975, clause 3 (25e-6 /°C):
    // a 5/5 °C instrument in water of 25 °C.
    let five = celsius_68(5.0);
    let hydrometer = Hydrometer::glass(SpecificGravityReference::new(five, five).unwrap());
    let warm = water(celsius_68(25.0), 35.0);
    let t = warm.temperature();
    let degrees = (25.0 - 5.0) / 1.00024;
    let read = hydrometer.reading(&warm).unwrap();
    close(read, 1023.34306 * (1.0 + 25e-6 * degrees) / 999.96675, 1e-8);
    let density = hydrometer.density(read, t).unwrap();
    close(density.kg_per_m3(), 1023.34306, 1e-5);
    let back = hydrometer
        .practical_salinity(read, t, Extrapolation::Refuse)
        .unwrap();
    close(back.salinity().value(), 35.0, 1e-9);
}

#[test]
fn practical_salinity_scale_1978() {
    // The definition: R = 1 at 15 °C (IPTS-68) and one atmosphere is S = 35
    // (Perkin & Lewis 1980); 42.914 mS/cm (Culkin & Smith 1980, IEEE J. Oceanic
    // Eng. 5, 22-23).
    let at_15 = celsius_68(15.0);
    let from = |conductivity, t| {
        let (surface, refuse) = (WaterPressure::SURFACE, Extrapolation::Refuse);
        let reading = practical_salinity_from_conductivity(conductivity, t, surface, refuse);
        reading.unwrap().salinity().value()
    };
    for conductivity in [
        Conductivity::from_ratio(1.0).unwrap(),
        Conductivity::from_ms_per_cm(42.914).unwrap(),
        Conductivity::from_us_per_cm(42_914.0).unwrap(),
        Conductivity::from_s_per_m(4.2914).unwrap(),
    ] {
        // The published coefficients of r_t add up to one at 15 °C within 4e-9.
        close(from(conductivity, at_15), 35.0, 1e-6);
    }
    let back = water(at_15, 35.0).conductivity().unwrap();
    close(back.ms_per_cm(), 42.914, 1e-6);

    // Fofonoff & Millard (1983), p. 9: R_t, t68, S. R_t is the ratio to water of
    // salinity 35 at the same temperature and one atmosphere.
    for (rt, t68, s) in [(1.0568875, 20.0, 37.245628), (0.81705885, 5.0, 27.995347)] {
        let t = celsius_68(t68);
        let at_35 = water(t, 35.0).conductivity().unwrap().ms_per_cm();
        let conductivity = Conductivity::from_ms_per_cm(rt * at_35).unwrap();
        close(from(conductivity, t), s, 2e-6);
    }
}

/// Millard & Seaver (1990) Deep-Sea Res. 37, 1909-1926, table 2, one atmosphere,
/// 589.26 nm: t, S, n. Six decimals.
const MILLARD_SEAVER_TABLE_2: [(f64, f64, f64); 23] = [
    (0.0, 0.0, 1.333949),
    (5.0, 0.0, 1.333884),
    (10.0, 0.0, 1.333691),
    (15.0, 0.0, 1.333387),
    (20.0, 0.0, 1.332988),
    (25.0, 0.0, 1.332503),
    (5.0, 30.0, 1.339666),
    (10.0, 30.0, 1.339354),
    (15.0, 30.0, 1.338950),
    (20.0, 30.0, 1.338472),
    (25.0, 30.0, 1.337933),
    (0.0, 35.0, 1.340854),
    (5.0, 35.0, 1.340630),
    (10.0, 35.0, 1.340298),
    (15.0, 35.0, 1.339878),
    (20.0, 35.0, 1.339386),
    (25.0, 35.0, 1.338838),
    (0.0, 40.0, 1.341840),
    (5.0, 40.0, 1.341594),
    (10.0, 40.0, 1.341242),
    (15.0, 40.0, 1.340805),
    (20.0, 40.0, 1.340300),
    (25.0, 40.0, 1.339743),
];

#[test]
fn refractive_index_millard_seaver_table_2() {
    for (t, s, n) in MILLARD_SEAVER_TABLE_2 {
        let index = water(celsius(t), s).refractive_index(Wavelength::SODIUM_D);
        close(index.unwrap().value(), n, 0.51e-6);
        if s > 0.0 {
            let index = RefractiveIndex::new(n).unwrap();
            let (line, allow) = (Wavelength::SODIUM_D, Extrapolation::Allow);
            let back = practical_salinity_from_refractive_index(index, line, celsius(t), allow);
            // The table's rounding is 0.003 in salinity.
            close(back.unwrap().salinity().value(), s, 0.003);
        }
    }
}

#[test]
fn refractive_index_against_quan_fry_1995() {
    // An independent empirical relation: Quan, X., Fry, E. S. (1995) Appl. Opt. 34,
    // 3477-3480, eq. 3 (doi 10.1364/AO.34.003477), fitted to Austin & Halikas (1976)
    // for 0-30 °C, S 0-35, 400-700 nm. The two fits agree to 5e-5.
    let quan_fry = |s: f64, t: f64, l: f64| {
        1.31405 + (1.779e-4 - 1.05e-6 * t + 1.6e-8 * t * t) * s - 2.02e-6 * t * t
            + (15.868 + 0.01155 * s - 0.00423 * t) / l
            - 4382.0 / (l * l)
            + 1.1455e6 / (l * l * l)
    };
    for t in [5.0, 15.0, 25.0, 30.0] {
        for s in [0.0, 20.0, 35.0] {
            for l in [500.0, 589.26, 650.0, 700.0] {
                let wavelength = Wavelength::from_nanometres(l).unwrap();
                let index = water(celsius(t), s).refractive_index(wavelength).unwrap();
                close(index.value(), quan_fry(s, t, l), 5e-5);
            }
        }
    }
}

#[test]
fn scales_made_for_other_solutions() {
    // Seawater of salinity 35 at 20 °C has the index 1.339386 (Millard & Seaver,
    // table 2). CRC Handbook of Chemistry and Physics, 102nd ed. (2021),
    // "Concentrative properties of aqueous solutions": sodium chloride 3.5 % 1.3391,
    // 4 % 1.3400; sucrose 4 % 1.3388, 5 % 1.3403. Four digits: ±0.03 and ±0.04 %.
    let ocean = salinity(35.0);
    let sodium_chloride = 3.5 + 0.5 * (1.339386 - 1.3391) / (1.3400 - 1.3391);
    let sucrose = 4.0 + (1.339386 - 1.3388) / (1.3403 - 1.3388);

    let brine = Refractometer::new(RefractometerScale::SodiumChloride);
    close(brine.shows(ocean).unwrap(), 10.0 * sodium_chloride, 0.3);
    let brix = Refractometer::new(RefractometerScale::Brix);
    close(brix.shows(ocean).unwrap(), sucrose, 0.05);

    // That solution as a calibration fluid sets a seawater scale right.
    let g_per_kg = 10.0 * sodium_chloride;
    let set = Refractometer::new(RefractometerScale::Seawater)
        .adjusted(CalibrationFluid::SodiumChloride { g_per_kg }, 35.0)
        .unwrap();
    close(set.shows(ocean).unwrap(), 35.0, 0.3);
}

#[test]
fn an_uncompensated_refractometer_reads_the_index_of_the_day() {
    // Millard & Seaver, table 2: pure water at 25 °C 1.332503, seawater of salinity
    // 35 at 25 °C 1.338838; the scale is that of 20 °C, 1.332988 at 0 and 1.339386
    // at 35, linear in salinity. Zeroed and read at 25 °C:
    let warm = celsius(25.0);
    let scale = Refractometer::new(RefractometerScale::Seawater).with_compensation(
        TemperatureCompensation::None {
            fluid: warm,
            sample: warm,
        },
    );
    let expected = 35.0 * (1.338838 - 1.332503) / (1.339386 - 1.332988);
    close(scale.shows(salinity(35.0)).unwrap(), expected, 0.01);
    let reading = scale
        .practical_salinity(expected, Extrapolation::Refuse)
        .unwrap();
    close(reading.salinity().value(), 35.0, 0.01);
}

#[test]
fn vapour_pressure() {
    // Over pure water at 300 K: 3.53658941 kPa, IAPWS R7-97(2012), table 35 (from
    // memory). Weiss & Price (1980) rest on older steam tables, 0.13 % below.
    let pure = water(Temperature::from_kelvin(300.0).unwrap(), 0.0);
    let steam_table = 3.53658941 / 101.325;
    close(
        pure.vapour_pressure_atm().unwrap() / steam_table,
        1.0,
        1.4e-3,
    );

    // Over seawater, an independent relation: Green, E. J., Carritt, D. E. (1967)
    // J. Mar. Res. 25, 140-147, atm.
    let green_carritt = |kelvin: f64, s: f64| {
        let boiling = 373.16;
        (1.0 - 0.000537 * s)
            * (18.1973 * (1.0 - boiling / kelvin)
                + 3.1813e-7 * (1.0 - (26.1205 * (1.0 - kelvin / boiling)).exp())
                - 0.018726 * (1.0 - (8.03945 * (1.0 - boiling / kelvin)).exp())
                + 5.02802 * (boiling / kelvin).ln())
            .exp()
    };
    for t in [0.0, 10.0, 20.0, 25.0, 30.0, 40.0] {
        for s in [0.0, 20.0, 35.0] {
            let w = water(celsius(t), s);
            let expected = green_carritt(w.temperature().kelvin(), s);
            close(w.vapour_pressure_atm().unwrap() / expected, 1.0, 4e-4);
        }
    }
}

#[test]
fn ionic_strength_and_chlorinity() {
    // Millero et al. (2008) Deep-Sea Res. I 55, 50-72: 0.7225778 mol/kg at reference
    // salinity (from memory). Dickson et al. (2007) use an older composition.
    let ocean = water(celsius(25.0), 35.0);
    close(ocean.ionic_strength_mol_per_kg_h2o(), 0.7225778, 3e-4);
    // Culkin & Smith (1980), title: chlorinity 19.37394 at salinity 35.0000.
    close(ocean.chlorinity_g_per_kg(), 19.37394, 1e-5);
}

#[test]
fn reference_composition() {
    // Millero et al. (2008), table 4: molalities, mol per kg of water, times the
    // water in reference seawater, 1 - 0.03516504.
    let ocean = salinity(35.0);
    let c = Composition::REFERENCE;
    let water_fraction = 1.0 - 0.03516504;
    close(
        c.calcium(ocean).mol_per_kg(),
        0.0106568 * water_fraction,
        1e-12,
    );
    close(
        c.magnesium(ocean).mol_per_kg(),
        0.0547421 * water_fraction,
        1e-12,
    );
    close(
        c.potassium(ocean).mol_per_kg(),
        0.0105797 * water_fraction,
        1e-12,
    );
    close(
        c.strontium(ocean).mol_per_kg(),
        0.0000940 * water_fraction,
        1e-12,
    );
    close(
        c.sulfate(ocean).mol_per_kg(),
        0.0292643 * water_fraction,
        1e-12,
    );
    close(
        c.fluoride(ocean).mol_per_kg(),
        0.0000708 * water_fraction,
        1e-12,
    );
    // Independent of that table: Dickson, Sabine & Christian (2007) PICES Special
    // Publication 3, ch. 5, table 2, mol/kg at S = 35 (from memory).
    close(c.calcium(ocean).mol_per_kg(), 0.01028, 1e-5);
    close(c.magnesium(ocean).mol_per_kg(), 0.05282, 2e-5);
    close(c.potassium(ocean).mol_per_kg(), 0.01021, 1e-5);
    close(c.strontium(ocean).mol_per_kg(), 0.00009, 2e-6);
    close(c.sulfate(ocean).mol_per_kg(), 0.02824, 1e-5);
    close(c.fluoride(ocean).mol_per_kg(), 0.00007, 2e-6);
    // In proportion to salinity.
    let half = c.calcium(salinity(17.5)).mol_per_kg();
    close(2.0 * half, c.calcium(ocean).mol_per_kg(), 1e-15);
}

#[test]
fn standard_atmosphere() {
    // ICAO standard atmosphere (1964): pressure levels, hPa, and their heights to
    // the metre (0.06 hPa).
    for (altitude_m, hpa) in [
        (-302.0, 1050.0),
        (0.0, 1013.25),
        (111.0, 1000.0),
        (540.0, 950.0),
        (988.0, 900.0),
        (1457.0, 850.0),
        (1949.0, 800.0),
        (3012.0, 700.0),
        (4206.0, 600.0),
    ] {
        let pressure = AirPressure::at_altitude_m(altitude_m).unwrap();
        close(pressure.hpa(), hpa, 0.06);
    }
    // Two levels of that table are a station and its reduced pressure.
    let report = AirPressure::from_hpa(1013.25).unwrap();
    let station = AirPressure::from_sea_level(report, 1457.0).unwrap();
    close(station.hpa(), 850.0, 0.06);
    close(station.to_sea_level(1457.0).unwrap().hpa(), 1013.25, 1e-9);
}

#[test]
fn a_reading_outside_its_relation_is_refused_by_name_and_flagged_when_allowed() {
    let density = |x| Density::from_kg_per_m3(x).unwrap();
    let (refuse, allow) = (Extrapolation::Refuse, Extrapolation::Allow);

    let from = |rho, policy| practical_salinity_from_density(density(rho), celsius(25.0), policy);
    let error = from(1060.0, refuse).unwrap_err();
    assert_eq!((error.input(), error.value()), ("density", Some(1060.0)));
    // The lower limit is pure water's density (UNESCO 44, at 25 °C of 1968).
    close(error.limits().unwrap().0, 997.04796, 2e-3);
    assert!(matches!(
        error.kind(),
        ErrorKind::OutsidePublishedRange {
            relation: Relation::DensityEos80,
            ..
        }
    ));
    assert!(from(1035.0, refuse).is_err());
    let reading = from(1035.0, allow).unwrap();
    assert!(reading.extrapolations().contains(Relation::DensityEos80));
    let error = from(1100.0, allow).unwrap_err();
    assert!(matches!(error.kind(), ErrorKind::OutOfRange { .. }));

    // A sample too warm is refused before its reading is looked at.
    let error = Hydrometer::glass(SpecificGravityReference::AT_25_25)
        .practical_salinity(1.02, celsius(45.0), refuse)
        .unwrap_err();
    assert_eq!(error.input(), "temperature");

    let fresh = Conductivity::from_us_per_cm(450.0).unwrap();
    let from = |policy| {
        practical_salinity_from_conductivity(fresh, celsius(25.0), WaterPressure::SURFACE, policy)
    };
    assert_eq!(from(refuse).unwrap_err().input(), "conductivity");
    let reading = from(allow).unwrap();
    assert!(reading.extrapolations().contains(Relation::SalinityPss78));
    assert!(
        Conductivity::from_ms_per_cm(f64::NAN)
            .unwrap_err()
            .is_non_finite()
    );

    let blue = Wavelength::from_nanometres(450.0).unwrap();
    let error = water(celsius(20.0), 35.0)
        .refractive_index(blue)
        .unwrap_err();
    assert_eq!(error.input(), "wavelength");
    let index = RefractiveIndex::new(1.344).unwrap();
    let reading =
        practical_salinity_from_refractive_index(index, blue, celsius(20.0), allow).unwrap();
    assert!(
        reading
            .extrapolations()
            .contains(Relation::RefractiveIndexMillardSeaver1990)
    );

    let error = Refractometer::new(RefractometerScale::Brix)
        .practical_salinity(9.0, refuse)
        .unwrap_err();
    assert_eq!(error.input(), "refractometer reading");
    let day = celsius(26.0);
    let error = Refractometer::new(RefractometerScale::Seawater)
        .adjusted(CalibrationFluid::SodiumChloride { g_per_kg: 36.5 }, 35.0)
        .unwrap()
        .with_compensation(TemperatureCompensation::None {
            fluid: day,
            sample: day,
        })
        .practical_salinity(35.0, refuse)
        .unwrap_err();
    assert_eq!(
        error.input(),
        "temperature of the sodium chloride calibration fluid"
    );

    assert_eq!(
        AirPressure::at_altitude_m(9000.0).unwrap_err().input(),
        "altitude"
    );
    assert!(SpecificGravityReference::new(celsius(50.0), celsius(25.0)).is_err());
}

#[test]
fn net_volume_keeps_water_and_rock_apart() {
    let litres = |x| Volume::from_litres(x).unwrap();
    // 1 L of rock in 10 L of water leaves 9 L: by its volume and by its mass.
    let tank = NetVolume::new().tank_cm(25.0, 20.0, 20.0, 0.0).unwrap();
    close(tank.volume().unwrap().litres(), 10.0, 1e-12);
    let by_volume = tank.displaced(litres(1.0), litres(0.1)).unwrap();
    let aragonite = NetVolume::ARAGONITE_KG_PER_L;
    let by_mass = tank.solid(aragonite, aragonite, litres(0.1)).unwrap();
    for net in [by_volume, by_mass] {
        close(net.volume().unwrap().litres(), 9.0, 1e-12);
        close(net.standard_uncertainty().unwrap().litres(), 0.1, 1e-12);
    }
    // A cube of 1 m known to 1 cm in each direction: 1000 L ± √3 · 10 L.
    let cube = NetVolume::new().tank_cm(100.0, 100.0, 100.0, 1.0).unwrap();
    let uncertainty = cube.standard_uncertainty().unwrap();
    close(uncertainty.litres(), 10.0 * 3f64.sqrt(), 1e-9);
    // Seawater of UNESCO 44, p. 19.
    let density = Density::from_kg_per_m3(1023.34306).unwrap();
    close(cube.mass(density).unwrap().kilograms(), 1023.34306, 1e-9);

    let error = tank
        .displaced(litres(10.0), litres(0.0))
        .unwrap()
        .volume()
        .unwrap_err();
    assert!(error.is_contradictory());
    assert_eq!(error.input(), "displaced volume");
    assert!(NetVolume::new().volume().is_err());
    assert!(tank.solid(1.0, 0.1, litres(0.0)).is_err());
    assert!(tank.tank_cm(f64::INFINITY, 1.0, 1.0, 0.0).is_err());
}
