//! Tanks so simple that a formula says what becomes of them, and the accuracy of
//! those that are not.

use halimeda::carbonate::{Equilibria, EquilibriumOptions};
use halimeda::gas::{Air, ExchangePath, GasKind, PathKind, TransferBasis, oxygen_solubility};
use halimeda::parameter::ParameterSet;
use halimeda::{
    Alkalinity, Area, Content, DryMoleFractionCo2, PracticalSalinity, Temperature,
    TransferVelocity, Water, species,
};
use halimeda_tank::{
    DatedEvent, Dosing, Event, Feeding, FoamFractionatorSetup, NewWater, Parameters, Run,
    RunOptions, Schedule, Stock, Tank, WaterChangePlan, simulate,
};
use halimeda_tests::tanks::{lifeless, mixed_reef};

const LITRES: f64 = 200.0;

/// Parameters without the spores that settle on a new screen.
fn sterile() -> Parameters {
    let mut p = Parameters::default();
    p.screen.settled_g_dry_per_m2 = 0.0;
    p
}

fn follow(tank: &Tank, schedule: &Schedule, parameters: &Parameters, days: f64) -> Run {
    let options = RunOptions {
        days,
        sample_every_days: 0.25,
        relative_tolerance: 1e-10,
        books_from_day: 0.0,
    };
    simulate(tank, schedule, parameters, &options).unwrap()
}

fn water(tank: &Tank) -> Water {
    Water::new(
        Temperature::from_celsius(tank.temperature_celsius).unwrap(),
        PracticalSalinity::new(tank.practical_salinity).unwrap(),
    )
}

fn equilibria(tank: &Tank) -> Equilibria {
    water(tank)
        .equilibria(&EquilibriumOptions::default())
        .unwrap()
}

fn kilograms(tank: &Tank) -> f64 {
    tank.net_volume_l * water(tank).density().unwrap().kg_per_l()
}

#[track_caller]
fn close(value: f64, expected: f64, relative: f64) {
    assert!(
        (value - expected).abs() <= relative * expected.abs(),
        "{value:e} for {expected:e}: {:.1e}",
        (value / expected - 1.0).abs()
    );
}

/// In a glass of seawater nothing changes.
#[test]
fn what_does_not_live_stays_as_it_is() {
    let (tank, schedule) = lifeless(LITRES);
    let run = follow(&tank, &schedule, &sterile(), 100.0);
    let (first, last) = (run.samples.first().unwrap(), run.samples.last().unwrap());
    close(
        last.alkalinity_umol_per_kg,
        first.alkalinity_umol_per_kg,
        1e-13,
    );
    close(last.oxygen_umol_per_kg, first.oxygen_umol_per_kg, 1e-13);
    close(last.nitrate_mg_per_l, first.nitrate_mg_per_l, 1e-13);
    close(last.ph_total, first.ph_total, 1e-13);
}

/// n changes of a share f leave c_new + (c_0 - c_new)(1 - f)ⁿ.
#[test]
fn water_changes_dilute() {
    let (tank, mut schedule) = lifeless(LITRES);
    let new = NewWater {
        practical_salinity: tank.practical_salinity,
        alkalinity_umol_per_kg: 2300.0,
        calcium_umol_per_kg: 10_000.0,
        magnesium_umol_per_kg: 52_000.0,
        strontium_umol_per_kg: 88.0,
        nitrate_umol_per_kg: 2.0,
        phosphate_umol_per_kg: 0.05,
    };
    for share in [0.0, 0.1, 0.35, 1.0] {
        schedule.water_change = Some(WaterChangePlan {
            every_days: 7.0,
            first_day: 7.0,
            share,
            water: new,
        });
        let run = follow(&tank, &schedule, &sterile(), 71.0);
        let kept = f64::powi(1.0 - share, 10);
        let kg = kilograms(&tank);
        for (stock, old, new) in [
            (
                Stock::Alkalinity,
                tank.water.alkalinity_umol_per_kg,
                new.alkalinity_umol_per_kg,
            ),
            (
                Stock::Calcium,
                tank.water.calcium_umol_per_kg,
                new.calcium_umol_per_kg,
            ),
            (
                Stock::Magnesium,
                tank.water.magnesium_umol_per_kg,
                new.magnesium_umol_per_kg,
            ),
            (
                Stock::Strontium,
                tank.water.strontium_umol_per_kg,
                new.strontium_umol_per_kg,
            ),
            (
                Stock::Nitrate,
                tank.water.nitrate_umol_per_kg,
                new.nitrate_umol_per_kg,
            ),
            (
                Stock::Phosphate,
                tank.water.phosphate_umol_per_kg,
                new.phosphate_umol_per_kg,
            ),
        ] {
            let (_, after) = run.ledger.stock(stock);
            close(after / kg * 1e6, new + (old - new) * kept, 1e-13);
        }
    }
}

/// One open path between water and air.
struct Path {
    name: &'static str,
    open: fn(&mut Tank),
    /// Clearance of a gas, L/d, from the definition of the path.
    clearance: fn(&Tank, &Parameters, GasKind) -> f64,
    co2_ppm: f64,
}

const ROOM_PPM: f64 = 600.0;
const DRAWN_PPM: f64 = 430.0;

fn from_velocity(tank: &Tank, gas: GasKind, cm_per_h: f64, m2: f64) -> f64 {
    let path = ExchangePath::from_velocity(
        PathKind::OpenSurface,
        TransferVelocity::from_cm_per_h(cm_per_h).unwrap(),
        Area::from_m2(m2).unwrap(),
        at_20_celsius(),
        Air::new(DryMoleFractionCo2::from_ppm(ROOM_PPM).unwrap()),
    );
    path.clearance_l_per_day(gas, &water(tank)).unwrap().value()
}

/// Of the flow a share s comes to equilibrium at 20 °C for oxygen: the rest decays
/// with the time of contact, in the power of the transfer velocity.
fn from_share(tank: &Tank, gas: GasKind, l_per_h: f64, share: f64) -> f64 {
    let faster = at_20_celsius().factor(gas, &water(tank)).unwrap().value();
    l_per_h * 24.0 * (1.0 - f64::powf(1.0 - share, faster))
}

fn at_20_celsius() -> TransferBasis {
    TransferBasis::new(GasKind::Oxygen, Temperature::from_celsius(20.0).unwrap())
}

const PATHS: [Path; 4] = [
    Path {
        name: "surface",
        open: |tank| tank.surface_area_m2 = 0.6,
        clearance: |tank, p, gas| from_velocity(tank, gas, p.gas_transfer.surface_cm_per_h, 0.6),
        co2_ppm: ROOM_PPM,
    },
    Path {
        name: "overflow",
        open: |tank| tank.overflow_l_per_h = 40.0,
        clearance: |tank, p, gas| {
            from_share(tank, gas, 40.0, p.gas_transfer.overflow_equilibrated_share)
        },
        co2_ppm: ROOM_PPM,
    },
    Path {
        name: "film",
        open: |tank| tank.screen.flow_l_per_h_per_cm = 50.0,
        // Both faces of 30 cm by 40 cm.
        clearance: |tank, p, gas| from_velocity(tank, gas, p.gas_transfer.film_cm_per_h, 0.24),
        co2_ppm: ROOM_PPM,
    },
    Path {
        name: "foam fractionator",
        open: |tank| {
            tank.foam_fractionator = Some(FoamFractionatorSetup {
                water_l_per_h: 25.0,
                air_co2_ppm: DRAWN_PPM,
            });
        },
        clearance: |tank, p, gas| {
            from_share(tank, gas, 25.0, p.gas_transfer.foam_equilibrated_share)
        },
        co2_ppm: DRAWN_PPM,
    },
];

/// Seawater with one open path, far from equilibrium and without nutrients.
fn aerated(path: &Path) -> (Tank, Schedule) {
    let (mut tank, schedule) = lifeless(LITRES);
    tank.water.ammonia_umol_per_kg = 0.0;
    tank.water.nitrate_umol_per_kg = 0.0;
    tank.water.phosphate_umol_per_kg = 0.0;
    tank.water.oxygen_saturation = 0.4;
    tank.water.inorganic_carbon_umol_per_kg = Some(2650.0);
    (path.open)(&mut tank);
    (tank, schedule)
}

/// Oxygen relaxes to saturation as exp(-kLa t) on every path.
#[test]
fn oxygen_relaxes_exponentially() {
    let parameters = sterile();
    for path in &PATHS {
        let (tank, schedule) = aerated(path);
        let run = follow(&tank, &schedule, &parameters, 5.0);
        let rate = (path.clearance)(&tank, &parameters, GasKind::Oxygen) / LITRES;
        let saturated = oxygen_solubility(&water(&tank))
            .unwrap()
            .value()
            .umol_per_kg();
        println!("{}: kLa of oxygen {rate:.3}/d", path.name);
        for s in &run.samples {
            let expected = saturated * (1.0 - 0.6 * f64::exp(-rate * s.day));
            close(s.oxygen_umol_per_kg, expected, 1e-8);
        }
    }
}

/// Dissolved CO2 relaxes with its kLa, slowed by the inorganic carbon that it
/// turns into: dC/dt = kLa (CO2* - CO2(C)). The time from one content of
/// inorganic carbon to another is the integral of dC over the right-hand side.
#[test]
fn carbon_dioxide_relaxes_through_the_carbonate_system() {
    let parameters = sterile();
    for path in &PATHS {
        let (tank, schedule) = aerated(path);
        let run = follow(&tank, &schedule, &parameters, 10.0);
        let rate = (path.clearance)(&tank, &parameters, GasKind::CarbonDioxide) / LITRES;
        let equilibria = equilibria(&tank);
        let alkalinity = Alkalinity::from_umol_per_kg(tank.water.alkalinity_umol_per_kg).unwrap();
        let air = DryMoleFractionCo2::from_ppm(path.co2_ppm).unwrap();
        let balance = equilibria.under_air(alkalinity, air).unwrap();
        let days_per_umol = |dic: f64| {
            let dic = Content::<species::InorganicCarbon>::from_umol_per_kg(dic).unwrap();
            let co2 = equilibria.solve(alkalinity, dic).unwrap().carbon_dioxide();
            1.0 / (rate * (balance.carbon_dioxide().umol_per_kg() - co2.umol_per_kg()))
        };
        let (first, last) = (run.samples.first().unwrap(), run.samples.last().unwrap());
        // Simpson's rule over the content.
        let steps = 2000;
        let (from, to) = (
            first.inorganic_carbon_umol_per_kg,
            last.inorganic_carbon_umol_per_kg,
        );
        let step = (to - from) / f64::from(steps);
        let days: f64 = (0..=steps)
            .map(|i| {
                let weight = match i {
                    0 => 1.0,
                    i if i == steps => 1.0,
                    i if i % 2 == 1 => 4.0,
                    _ => 2.0,
                };
                weight * days_per_umol(from + step * f64::from(i)) * step / 3.0
            })
            .sum();
        println!(
            "{}: kLa of CO2 {rate:.3}/d, {from:.0} to {to:.0} µmol/kg in {days:.6} d",
            path.name
        );
        close(days, 10.0, 1e-6);
    }
}

/// Near equilibrium that is a plain exponential whose rate is kLa ∂CO2/∂C.
#[test]
fn near_equilibrium_inorganic_carbon_relaxes_exponentially() {
    let parameters = sterile();
    let path = &PATHS[0];
    let (mut tank, schedule) = aerated(path);
    let equilibria = equilibria(&tank);
    let alkalinity = Alkalinity::from_umol_per_kg(tank.water.alkalinity_umol_per_kg).unwrap();
    let balance = equilibria
        .under_air(alkalinity, DryMoleFractionCo2::from_ppm(ROOM_PPM).unwrap())
        .unwrap();
    let at_rest = balance.inorganic_carbon().umol_per_kg();
    let co2 = |dic: f64| {
        let dic = Content::<species::InorganicCarbon>::from_umol_per_kg(dic).unwrap();
        equilibria
            .solve(alkalinity, dic)
            .unwrap()
            .carbon_dioxide()
            .umol_per_kg()
    };
    let slope = (co2(at_rest + 1.0) - co2(at_rest - 1.0)) / 2.0;
    let rate = slope * (path.clearance)(&tank, &parameters, GasKind::CarbonDioxide) / LITRES;
    tank.water.inorganic_carbon_umol_per_kg = Some(at_rest + 0.5);
    let run = follow(&tank, &schedule, &parameters, 20.0);
    println!("kLa of inorganic carbon {rate:.4}/d");
    for s in &run.samples {
        let expected = 0.5 * f64::exp(-rate * s.day);
        let left = s.inorganic_carbon_umol_per_kg - at_rest;
        assert!(
            (left - expected).abs() < 5e-4 * 0.5,
            "day {}: {left} for {expected}",
            s.day
        );
    }
}

/// Water left alone under air ends at the pH that equilibrium with it has.
#[test]
fn ph_ends_in_equilibrium_with_the_air() {
    for path in &PATHS {
        let (mut tank, schedule) = aerated(path);
        tank.water.phosphate_umol_per_kg = 0.0;
        let run = follow(&tank, &schedule, &sterile(), 400.0);
        let last = run.samples.last().unwrap();
        let expected = equilibria(&tank)
            .under_air(
                Alkalinity::from_umol_per_kg(tank.water.alkalinity_umol_per_kg).unwrap(),
                DryMoleFractionCo2::from_ppm(path.co2_ppm).unwrap(),
            )
            .unwrap();
        println!("{}: pH {:.6}", path.name, last.ph_total);
        assert!(
            (last.ph_total - expected.ph_total().value()).abs() < 1e-7,
            "{}",
            path.name
        );
        close(last.oxygen_saturation, 1.0, 1e-9);
    }
}

/// Meals once a day without anything to take up what they leave behind.
fn fed_only(litres: f64) -> (Tank, Schedule, Parameters) {
    let (mut tank, mut schedule) = lifeless(litres);
    tank.surface_area_m2 = 3.0;
    let (_, mixed) = mixed_reef();
    schedule.feedings = vec![Feeding {
        hour: 12.0,
        grams: 2.5,
        ..mixed.feedings[0]
    }];
    let mut parameters = sterile();
    // Oxygen slows nothing, so that every rate is first order.
    parameters.livestock.half_saturation_oxygen_umol_per_kg = 0.0;
    parameters.mineralisation.half_saturation_oxygen_umol_per_kg = 0.0;
    parameters.nitrification.half_saturation_oxygen_umol_per_kg = 0.0;
    parameters.denitrification.capacity_mmol_per_m2_per_day = 0.0;
    (tank, schedule, parameters)
}

/// With the screen dark and dry, nitrate rises by what is fed and not kept: in
/// the long run all of it.
#[test]
fn without_light_nitrate_rises_by_the_load() {
    let (mut tank, schedule, parameters) = fed_only(2000.0);
    tank.rock_area_m2 = 12.0;
    let run = follow(&tank, &schedule, &parameters, 250.0);
    let per_gram = schedule.feedings[0].kind.composition().per_gram().unwrap();
    let load = schedule.feedings[0].grams
        * per_gram.nitrogen
        * (1.0 - parameters.livestock.nitrogen_retention);
    // Twenty days apart, at noon.
    let at = |day: f64| {
        let (_, stocks) = run.at_switches.iter().find(|(d, _)| *d == day).unwrap();
        stocks[Stock::Nitrate as usize]
    };
    let slope = (at(240.5) - at(220.5)) / 20.0;
    println!(
        "load {:.6} mmol/d, nitrate {:.6} mmol/d",
        load * 1e3,
        slope * 1e3
    );
    close(slope, load, 1e-7);
}

/// A pool that is filled by daily meals M through a gut that passes a share p per
/// day, and that decays at k, comes to a periodic state: between meals the gut
/// holds G e^(-pt) with G = M/(1 - e^(-p)), the pool A e^(-kt) + B e^(-pt) with
/// B = s p G/(k - p) and A (1 - e^(-k)) = -B (1 - e^(-p)); s is the share that
/// reaches the pool. Its mean is load over removal, s M/k.
#[test]
fn a_pool_settles_where_removal_meets_the_load() {
    let (tank, schedule, parameters) = fed_only(500.0);
    let feeding = schedule.feedings[0];
    let run = follow(&tank, &schedule, &parameters, 400.0);
    let meal = feeding.grams * feeding.kind.composition().per_gram().unwrap().nitrogen;
    let l = &parameters.livestock;
    let share = (1.0 - l.nitrogen_retention) * (1.0 - l.dissolved_share_of_waste_nitrogen);
    let m = &parameters.mineralisation;
    let k = m.particulate_per_day * f64::powf(m.q10, (tank.temperature_celsius - 25.0) / 10.0);
    let p = l.gut_passage_per_day;
    let gut = meal / (1.0 - f64::exp(-p));
    let b = share * p * gut / (k - p);
    let a = -b * (1.0 - f64::exp(-p)) / (1.0 - f64::exp(-k));
    let mut checked = 0;
    for (day, stocks) in run.at_switches.iter().filter(|(day, _)| *day > 390.0) {
        // The stock before the switch: at noon, a whole day after the last meal.
        let since = 1.0 - (1.5 - day.fract()).fract();
        close(
            stocks[Stock::GutN as usize],
            gut * f64::exp(-p * since),
            1e-7,
        );
        let pool = a * f64::exp(-k * since) + b * f64::exp(-p * since);
        close(stocks[Stock::DetritusN as usize], pool, 1e-7);
        checked += 1;
    }
    assert!(checked > 20);
    let mean = a * (1.0 - f64::exp(-k)) / k + b * (1.0 - f64::exp(-p)) / p;
    close(mean, share * meal / k, 1e-12);
}

/// Nitrate dosed at R and changed out at a share f every T days comes to R T (1 - f)/f
/// behind a change.
#[test]
fn water_changes_hold_a_steady_dose() {
    let (mut tank, mut schedule) = lifeless(LITRES);
    tank.water.nitrate_umol_per_kg = 0.0;
    schedule.dosing.nitrate_mol_per_day = 0.002;
    schedule.water_change = Some(WaterChangePlan {
        every_days: 5.0,
        first_day: 5.0,
        share: 0.25,
        water: NewWater {
            practical_salinity: tank.practical_salinity,
            alkalinity_umol_per_kg: tank.water.alkalinity_umol_per_kg,
            calcium_umol_per_kg: tank.water.calcium_umol_per_kg,
            magnesium_umol_per_kg: tank.water.magnesium_umol_per_kg,
            strontium_umol_per_kg: tank.water.strontium_umol_per_kg,
            nitrate_umol_per_kg: 0.0,
            phosphate_umol_per_kg: 0.0,
        },
    });
    let run = follow(&tank, &schedule, &sterile(), 600.0);
    let (_, nitrate) = run.ledger.stock(Stock::Nitrate);
    // The run ends right before a change.
    close(nitrate, 0.002 * 5.0 / 0.25, 1e-10);
}

/// Top-off replaces what evaporates: salinity and salt stay. Behind a top-off that
/// delivers less, salinity rises as water goes: S kg stays.
#[test]
fn top_off_keeps_salinity() {
    let (mut tank, schedule) = lifeless(LITRES);
    tank.evaporation_l_per_day = 4.0;
    let run = follow(&tank, &schedule, &sterile(), 60.0);
    for s in &run.samples {
        close(s.practical_salinity, tank.practical_salinity, 1e-12);
    }
    let mut slow = sterile();
    slow.top_off.capacity_kg_per_day = 3.8;
    let run = follow(&tank, &schedule, &slow, 30.0);
    let (kg, last) = (kilograms(&tank), run.samples.last().unwrap());
    let left = kg - 30.0 * (4.0 * 0.99705 - 3.8);
    close(
        last.practical_salinity,
        tank.practical_salinity * kg / left,
        1e-11,
    );
    close(
        last.alkalinity_umol_per_kg,
        tank.water.alkalinity_umol_per_kg * kg / left,
        1e-11,
    );
}

/// What a mole of each supplement does to alkalinity and its ions is the
/// stoichiometry of its formula.
#[test]
fn dosing_raises_alkalinity_by_the_dose() {
    let per_day = 0.01;
    let days = 30.0;
    let dose = |set: fn(&mut Dosing, f64)| {
        let mut dosing = Dosing::default();
        set(&mut dosing, per_day);
        dosing
    };
    // Equivalents, inorganic carbon, calcium, magnesium, nitrate, phosphate per mole.
    for (dosing, effect) in [
        (
            dose(|d, x| d.bicarbonate_mol_per_day = x),
            [1.0, 1.0, 0.0, 0.0, 0.0, 0.0],
        ),
        (
            dose(|d, x| d.carbonate_mol_per_day = x),
            [2.0, 1.0, 0.0, 0.0, 0.0, 0.0],
        ),
        (
            dose(|d, x| d.hydroxide_mol_per_day = x),
            [1.0, 0.0, 0.0, 0.0, 0.0, 0.0],
        ),
        (
            dose(|d, x| d.calcium_mol_per_day = x),
            [0.0, 0.0, 1.0, 0.0, 0.0, 0.0],
        ),
        (
            dose(|d, x| d.magnesium_mol_per_day = x),
            [0.0, 0.0, 0.0, 1.0, 0.0, 0.0],
        ),
        (
            dose(|d, x| d.nitrate_mol_per_day = x),
            [0.0, 0.0, 0.0, 0.0, 1.0, 0.0],
        ),
        (
            dose(|d, x| d.phosphate_mol_per_day = x),
            [0.0, 0.0, 0.0, 0.0, 0.0, 1.0],
        ),
        // CaCO3 + CO2 + H2O, without CO2 to spare.
        (
            dose(|d, x| d.reactor_mol_per_day = x),
            [2.0, 2.0, 1.0, 0.0, 0.0, 0.0],
        ),
    ] {
        let (tank, mut schedule) = lifeless(LITRES);
        schedule.dosing = dosing;
        let run = follow(&tank, &schedule, &sterile(), days);
        for (stock, per_mole) in [
            Stock::Alkalinity,
            Stock::InorganicCarbon,
            Stock::Calcium,
            Stock::Magnesium,
            Stock::Nitrate,
            Stock::Phosphate,
        ]
        .into_iter()
        .zip(effect)
        {
            let (before, after) = run.ledger.stock(stock);
            let expected = before + per_mole * per_day * days;
            close(after, expected, 1e-12);
        }
    }
    // Limewater comes with the top-off: two equivalents and a calcium per mole.
    let (mut tank, mut schedule) = lifeless(LITRES);
    tank.evaporation_l_per_day = 2.0;
    schedule.dosing.limewater_mol_per_l = 0.005;
    let run = follow(&tank, &schedule, &sterile(), days);
    for (stock, per_mole) in [(Stock::Alkalinity, 2.0), (Stock::Calcium, 1.0)] {
        let (before, after) = run.ledger.stock(stock);
        close(after, before + per_mole * 0.005 * 2.0 * days, 1e-12);
    }
}

/// What is taken up in proportion to what is there runs low and never out:
/// strontium under corals that nobody gives any, oxygen behind a pump that stops at
/// dusk over a thick mat.
#[test]
fn what_runs_low_does_not_run_out() {
    let (mut tank, schedule) = mixed_reef();
    tank.water.strontium_umol_per_kg = 20.0;
    tank.coral_area_m2 = 0.3;
    let run = follow(&tank, &schedule, &Parameters::default(), 200.0);
    let (before, after) = run.ledger.stock(Stock::Strontium);
    println!(
        "strontium {:.1} of {:.1} mmol left",
        after * 1e3,
        before * 1e3
    );
    assert!(after > 0.0 && after < 0.5 * before);

    let (mut tank, mut schedule) = mixed_reef();
    tank.screen.turf_g_dry_per_m2 = 400.0;
    tank.overflow_l_per_h = 0.0;
    schedule.harvest = None;
    schedule.events = vec![DatedEvent {
        day: 0.8,
        event: Event::PumpStops,
    }];
    let run = follow(&tank, &schedule, &Parameters::default(), 3.0);
    let least = run
        .samples
        .iter()
        .map(|s| s.oxygen_umol_per_kg)
        .fold(f64::INFINITY, f64::min);
    println!("least oxygen {least:.3} µmol/kg");
    assert!(least > -1e-4 && least < 20.0);
}

/// A tank with everything that switches: lamps, meals, harvests, failures.
fn eventful() -> (Tank, Schedule) {
    let (tank, mut schedule) = mixed_reef();
    schedule.events = [
        (8.3, Event::ScreenLampFails),
        (9.9, Event::ScreenLampRepaired),
        (15.2, Event::PumpStops),
        (15.3, Event::PumpRestored),
        (20.7, Event::ScreenFlowDrops { share: 0.3 }),
        (22.1, Event::ScreenFlowRestored),
    ]
    .map(|(day, event)| DatedEvent { day, event })
    .to_vec();
    (tank, schedule)
}

fn at_tolerance(relative_tolerance: f64) -> Run {
    let (tank, schedule) = eventful();
    let options = RunOptions {
        days: 45.0,
        sample_every_days: 1.0,
        relative_tolerance,
        books_from_day: 0.0,
    };
    simulate(&tank, &schedule, &Parameters::default(), &options).unwrap()
}

/// The largest difference of a stock from a finer run at any switch, relative to
/// the stock, or to a thousandth of the largest it gets.
fn largest_error(run: &Run, finer: &Run) -> f64 {
    assert_eq!(run.at_switches.len(), finer.at_switches.len());
    let mut largest = [0.0f64; Stock::COUNT];
    for (_, stocks) in &finer.at_switches {
        for (largest, stock) in largest.iter_mut().zip(stocks) {
            *largest = largest.max(stock.abs());
        }
    }
    let mut worst = 0.0f64;
    for ((day, ours), (same_day, theirs)) in run.at_switches.iter().zip(&finer.at_switches) {
        assert_eq!(day, same_day);
        for ((a, b), largest) in ours.iter().zip(theirs).zip(largest) {
            if largest > 0.0 {
                worst = worst.max((a - b).abs() / b.abs().max(1e-3 * largest));
            }
        }
    }
    worst
}

/// At the default tolerance of 1e-6 no stock is off by more than 1e-5 at any
/// switch, and the error falls with the tolerance.
#[test]
fn error_follows_the_tolerance() {
    let reference = at_tolerance(1e-12);
    let mut coarser = f64::INFINITY;
    for (tolerance, limit) in [
        (1e-4, 1e-3),
        (1e-6, 1e-5),
        (5e-7, 1e-5),
        (1e-8, 1e-7),
        (1e-10, 1e-8),
    ] {
        let run = at_tolerance(tolerance);
        let error = largest_error(&run, &reference);
        println!(
            "tolerance {tolerance:e}: error {error:.1e} in {} steps",
            run.effort.steps
        );
        assert!(error < limit, "{tolerance:e}: {error:e}");
        assert!(error < 1.5 * coarser);
        coarser = error;
    }
}

/// Sampling looks and does not touch: the stocks are the same to the last bit
/// whatever the grid, and so are samples that two grids share.
#[test]
fn results_do_not_depend_on_the_sampling() {
    let (tank, schedule) = eventful();
    let run = |every| {
        let options = RunOptions::days(30.0).sampled_every_days(every);
        simulate(&tank, &schedule, &Parameters::default(), &options).unwrap()
    };
    let (hourly, odd, ends) = (run(0.25), run(0.0371), run(30.0));
    for other in [&odd, &ends] {
        assert_eq!(hourly.at_switches, other.at_switches);
        assert_eq!(hourly.ledger, other.ledger);
        assert_eq!(hourly.effort, other.effort);
        assert_eq!(hourly.samples.last(), other.samples.last());
    }
    assert_eq!(ends.samples.len(), 2);
    let daily = run(1.0);
    for (day, quarter) in daily.samples.iter().zip(hourly.samples.iter().step_by(4)) {
        assert_eq!(day, quarter);
    }
}

#[test]
fn the_same_run_twice_is_the_same() {
    let (one, two) = (at_tolerance(1e-6), at_tolerance(1e-6));
    assert_eq!(one.samples, two.samples);
    assert_eq!(one.harvests, two.harvests);
    assert_eq!(one.at_switches, two.at_switches);
    assert_eq!(one.ledger, two.ledger);
}

/// Where a parameter is refused, so is the run, by the parameter's name.
#[test]
fn a_parameter_out_of_bounds_is_refused() {
    let (tank, schedule) = mixed_reef();
    for i in 0..Parameters::COUNT {
        for value in [-1.0, f64::NAN, f64::INFINITY] {
            let parameters = Parameters::default().with_value(i, value);
            let error = simulate(&tank, &schedule, &parameters, &RunOptions::days(1.0));
            let (_, info) = Parameters::infos().nth(i).unwrap();
            let text = error.unwrap_err().to_string();
            assert!(text.contains(info.name), "{}: {text}", info.name);
        }
    }
    assert!(Parameters::default().turf.check().is_ok());
}
