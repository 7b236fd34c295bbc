//! A year of a tank with everything switched on: every amount that enters or
//! leaves is in the books.

use std::sync::LazyLock;

use halimeda_tank::{
    DatedEvent, Dosing, Element, Event, FoamFractionatorSetup, HarvestPlan, NewWater, Parameters,
    Process, Run, RunOptions, Schedule, Stock, Tank, WaterChangePlan, simulate,
};
use halimeda_tests::tanks::mixed_reef;

const DAYS: f64 = 365.0;

/// What may be unexplained of all that flowed: rounding, summed over some 10⁵
/// stages of the integrator. Promised is 1e-9.
const UNEXPLAINED: f64 = 1e-11;

fn everything() -> (Tank, Schedule) {
    let (mut tank, mut schedule) = mixed_reef();
    tank.iron_oxide_grams = 60.0;
    tank.foam_fractionator = Some(FoamFractionatorSetup {
        water_l_per_h: 300.0,
        air_co2_ppm: 430.0,
    });
    tank.screen.turf_g_dry_per_m2 = 0.0;
    schedule.harvest = Some(HarvestPlan {
        every_days: 10.0,
        first_day: 21.0,
        kept_share: 0.3,
        fed_back_share: 0.2,
    });
    schedule.water_change = Some(WaterChangePlan {
        every_days: 14.0,
        first_day: 10.5,
        share: 0.1,
        water: NewWater {
            practical_salinity: 34.5,
            alkalinity_umol_per_kg: 2600.0,
            calcium_umol_per_kg: 10_200.0,
            magnesium_umol_per_kg: 52_000.0,
            strontium_umol_per_kg: 88.0,
            nitrate_umol_per_kg: 1.0,
            phosphate_umol_per_kg: 0.1,
        },
    });
    schedule.dosing = Dosing {
        bicarbonate_mol_per_day: 0.004,
        carbonate_mol_per_day: 0.003,
        hydroxide_mol_per_day: 0.002,
        calcium_mol_per_day: 0.002,
        magnesium_mol_per_day: 0.0004,
        nitrate_mol_per_day: 0.0005,
        phosphate_mol_per_day: 0.00002,
        organic_carbon_mol_per_day: 0.01,
        limewater_mol_per_l: 0.001,
        reactor_mol_per_day: 0.003,
        reactor_excess_co2_per_mol: 0.3,
        adjusted_every_days: None,
    };
    schedule.events = [
        (60.0, Event::FeedingStops),
        (67.0, Event::FeedingResumes),
        (80.3, Event::ScreenFlowDrops { share: 0.5 }),
        (84.3, Event::ScreenFlowRestored),
        (100.1, Event::PumpStops),
        (100.6, Event::PumpRestored),
        (120.2, Event::ScreenLampFails),
        (126.9, Event::ScreenLampRepaired),
        (150.0, Event::RoomCo2 { ppm: 900.0 }),
        (170.0, Event::FeedingScaled { factor: 1.5 }),
        (190.0, Event::FeedingScaled { factor: 1.0 }),
        (200.0, Event::NewIronOxide { grams: 80.0 }),
        (220.0, Event::HarvestsStop),
        (245.0, Event::HarvestsResume),
        (
            246.4,
            Event::Harvest {
                kept_share: 0.6,
                fed_back_share: 0.5,
            },
        ),
        (300.7, Event::NewScreen),
        (301.0, Event::NewScreenLamp),
    ]
    .map(|(day, event)| DatedEvent { day, event })
    .to_vec();
    (tank, schedule)
}

/// Density of fresh water at 25 °C, kg/L (EOS-80), by which evaporation in litres
/// is counted.
const FRESH_WATER_KG_PER_L: f64 = 0.99705;
const EVAPORATED_KG_PER_DAY: f64 = 3.0 * FRESH_WATER_KG_PER_L;

/// A top-off that falls a little behind, so that the level moves.
const TOP_OFF_KG_PER_DAY: f64 = 2.9;

static RUN: LazyLock<Run> = LazyLock::new(|| {
    let (tank, schedule) = everything();
    let mut parameters = Parameters::default();
    parameters.top_off.capacity_kg_per_day = TOP_OFF_KG_PER_DAY;
    let options = RunOptions::days(DAYS).sampled_every_days(1.0);
    simulate(&tank, &schedule, &parameters, &options).unwrap()
});

/// Holds two amounts against each other, with the larger as the measure.
#[track_caller]
fn same(a: f64, b: f64) {
    let difference = (a - b).abs();
    assert!(
        difference <= UNEXPLAINED * a.abs().max(b.abs()),
        "{a:e} against {b:e}"
    );
}

#[test]
fn the_books_of_every_stock_close() {
    for &stock in Stock::ALL {
        let closure = RUN.ledger.closure(stock);
        println!(
            "{stock:?}: {:.1e} of {:.3e}",
            closure.relative(),
            closure.throughput
        );
        assert!(closure.throughput > 0.0, "{stock:?}: nothing flowed");
        assert!(closure.relative() < UNEXPLAINED, "{stock:?}: {closure:?}");
    }
}

#[test]
fn the_books_of_every_element_close() {
    for element in Element::ALL {
        let closure = RUN.ledger.element_closure(element);
        println!(
            "{element:?}: {:.1e} of {:.3e} mol",
            closure.relative(),
            closure.throughput
        );
        assert!(closure.throughput > 0.0, "{element:?}: nothing crossed");
        assert!(closure.relative() < UNEXPLAINED, "{element:?}: {closure:?}");
    }
}

#[test]
fn every_process_took_part() {
    for &process in Process::ALL {
        let moved: f64 = Stock::ALL
            .iter()
            .map(|&s| RUN.ledger.entry(process, s).abs())
            .sum();
        assert!(moved > 0.0, "{process:?}");
    }
    assert_eq!(RUN.events.len(), everything().1.events.len());
}

/// What stays within the tank brings in and takes out no element.
#[test]
fn inner_processes_cross_no_boundary() {
    for &process in Process::ALL {
        for element in Element::ALL {
            let crossed = RUN.ledger.crossed(process, element);
            if !process.crosses_boundary() {
                let throughput = RUN.ledger.element_closure(element).throughput;
                assert!(
                    crossed.abs() < UNEXPLAINED * throughput,
                    "{process:?} {element:?}: {crossed:e}"
                );
            }
        }
    }
}

#[test]
fn the_harvest_row_is_the_sum_of_the_harvests() {
    let sum = |of: fn(&halimeda::turf::Harvest) -> f64| -> (f64, f64) {
        RUN.harvests
            .iter()
            .fold((0.0, 0.0), |(taken, fed_back), h| {
                (
                    taken + of(&h.harvest),
                    fed_back + h.fed_back_share * of(&h.harvest),
                )
            })
    };
    for (of, turf, gut, element) in [
        (
            (|h| h.carbon_mol) as fn(&halimeda::turf::Harvest) -> f64,
            Stock::TurfC,
            Stock::GutC,
            Element::Carbon,
        ),
        (
            |h| h.nitrogen_mol,
            Stock::TurfN,
            Stock::GutN,
            Element::Nitrogen,
        ),
        (
            |h| h.phosphorus_mol,
            Stock::TurfP,
            Stock::GutP,
            Element::Phosphorus,
        ),
    ] {
        let (taken, fed_back) = sum(of);
        assert!(fed_back > 0.0);
        same(-RUN.ledger.entry(Process::Harvest, turf), taken);
        same(RUN.ledger.entry(Process::Harvest, gut), fed_back);
        same(
            -RUN.ledger.crossed(Process::Harvest, element),
            taken - fed_back,
        );
    }
    // Day 21 to 211 and 251 to 361 by plan, one in between by hand.
    assert_eq!(RUN.harvests.len(), 20 + 12 + 1);
}

#[test]
fn the_feeding_row_is_the_sum_of_the_meals() {
    let (_, schedule) = everything();
    // A week without, twenty days of half as much again.
    let days = DAYS - 7.0 + 20.0 * 0.5;
    let fed = |of: fn(&halimeda::process::OrganicMatter) -> f64| -> f64 {
        schedule
            .feedings
            .iter()
            .map(|f| days * f.grams * of(&f.kind.composition().per_gram().unwrap()))
            .sum()
    };
    same(
        RUN.ledger.entry(Process::Feeding, Stock::GutC),
        fed(|m| m.carbon),
    );
    same(
        RUN.ledger.entry(Process::Feeding, Stock::GutN),
        fed(|m| m.nitrogen),
    );
    same(
        RUN.ledger.entry(Process::Feeding, Stock::GutP),
        fed(|m| m.phosphorus),
    );
}

#[test]
fn the_dosing_row_is_what_was_dosed() {
    let d = everything().1.dosing;
    let of = |stock| RUN.ledger.entry(Process::Dosing, stock);
    // Top-off is what the row of evaporation lacks of all that evaporated.
    let topped_off_kg =
        RUN.ledger.entry(Process::Evaporation, Stock::Water) + EVAPORATED_KG_PER_DAY * DAYS;
    let limewater = d.limewater_mol_per_l * topped_off_kg / FRESH_WATER_KG_PER_L;
    same(
        of(Stock::Alkalinity),
        2.0 * limewater
            + DAYS
                * (d.bicarbonate_mol_per_day
                    + 2.0 * d.carbonate_mol_per_day
                    + d.hydroxide_mol_per_day
                    + 2.0 * d.reactor_mol_per_day),
    );
    same(
        of(Stock::InorganicCarbon),
        DAYS * (d.bicarbonate_mol_per_day
            + d.carbonate_mol_per_day
            + d.reactor_mol_per_day * (2.0 + d.reactor_excess_co2_per_mol)),
    );
    same(
        of(Stock::Calcium),
        limewater + DAYS * (d.calcium_mol_per_day + d.reactor_mol_per_day),
    );
    same(of(Stock::Magnesium), DAYS * d.magnesium_mol_per_day);
    same(of(Stock::Nitrate), DAYS * d.nitrate_mol_per_day);
    same(of(Stock::Phosphate), DAYS * d.phosphate_mol_per_day);
    same(of(Stock::DosedC), DAYS * d.organic_carbon_mol_per_day);
}

/// In every row alkalinity changes as the charge of the ions that no pH shifts:
/// Wolf-Gladrow et al. (2007) Mar. Chem. 106, 287-300, doi
/// 10.1016/j.marchem.2007.01.006, eq. 32. Dosed salts and changed water bring
/// ions that are not followed.
#[test]
fn alkalinity_follows_the_conservative_ions() {
    let throughput = RUN.ledger.closure(Stock::Alkalinity).throughput;
    for &process in Process::ALL {
        if matches!(process, Process::Dosing | Process::WaterChange) {
            continue;
        }
        let of = |stock| RUN.ledger.entry(process, stock);
        let ions = 2.0 * (of(Stock::Calcium) + of(Stock::Magnesium) + of(Stock::Strontium))
            + of(Stock::Ammonium)
            - of(Stock::Nitrate)
            - of(Stock::Phosphate);
        let difference = of(Stock::Alkalinity) - ions;
        assert!(
            difference.abs() < UNEXPLAINED * throughput,
            "{process:?}: {difference:e}"
        );
    }
}

/// The level falls where top-off cannot follow evaporation, and water changes
/// fill it up. Salt is dosed, changed and laid down as mineral, and nothing else.
#[test]
fn water_and_salt_are_in_their_rows() {
    let of = |process, stock| RUN.ledger.entry(process, stock);
    for &process in Process::ALL {
        if !matches!(process, Process::Evaporation | Process::WaterChange) {
            assert_eq!(of(process, Stock::Water), 0.0, "{process:?}");
        }
        if !matches!(
            process,
            Process::Dosing
                | Process::WaterChange
                | Process::CoralCalcification
                | Process::CorallineCalcification
        ) {
            assert_eq!(of(process, Stock::Salt), 0.0, "{process:?}");
        }
    }
    let evaporated = -of(Process::Evaporation, Stock::Water);
    let behind = EVAPORATED_KG_PER_DAY - TOP_OFF_KG_PER_DAY;
    // Within an hour of filling up the top-off follows.
    assert!(evaporated > 0.0 && evaporated <= behind * DAYS);
    let (before, after) = RUN.ledger.stock(Stock::Water);
    same(
        after - before + evaporated,
        of(Process::WaterChange, Stock::Water),
    );
}
