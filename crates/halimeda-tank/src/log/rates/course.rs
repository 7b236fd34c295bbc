//! What was done to the water between tests.

use halimeda::dosing::Addition;
use halimeda::quantity::{Form as _, form};
use halimeda::{AirPressure, PracticalSalinity, Temperature, Water};

use super::{Estimate, NetRate};
use crate::error::{Error, Result, within};
use crate::log::{Log, Measured, logged_setup};
use crate::tank::{DatedEvent, Event, NewWater, Setup};

/// From a content in the unit of [`Measured`] to an amount, and which of what comes in
/// counts.
pub(super) struct Units {
    pub(super) measured: Measured,
    /// Of the whole system, mol (eq) per unit of the content.
    pub(super) mol_per_unit: f64,
    /// Unit of the content per µmol/kg.
    per_umol_per_kg: f64,
    of_new_water: fn(&NewWater) -> f64,
    of: fn(&Addition) -> f64,
}

impl Units {
    pub(super) fn new(setup: &Setup, measured: Measured) -> Result<Self> {
        let tank = &setup.tank;
        let litres = within("net volume_l", tank.net_volume_l, f64::MIN_POSITIVE, 1e9)?;
        let water = Water::new(
            Temperature::from_celsius(tank.temperature_celsius)?,
            PracticalSalinity::new(tank.practical_salinity)?,
        )
        .with_air_pressure(AirPressure::from_atm(tank.air.pressure_atm)?);
        let kilograms = litres * water.density()?.kg_per_l();
        let per_mg_per_l = |grams_per_mol: f64| litres * 1e-3 / grams_per_mol;
        type Of<T> = fn(&T) -> f64;
        let (mol_per_unit, of_new_water, of): (f64, Of<NewWater>, Of<Addition>) = match measured {
            Measured::Nitrate => (
                per_mg_per_l(form::NitrateAsNo3::GRAMS_PER_MOL),
                |w| w.nitrate_umol_per_kg,
                |a| a.nitrate_mol,
            ),
            Measured::Phosphate => (
                per_mg_per_l(form::PhosphateAsPo4::GRAMS_PER_MOL),
                |w| w.phosphate_umol_per_kg,
                |a| a.phosphate_mol,
            ),
            Measured::Ammonia => (
                per_mg_per_l(form::AmmoniaAsN::GRAMS_PER_MOL),
                |_| 0.0,
                |_| 0.0,
            ),
            Measured::Alkalinity => (
                1e-6 * kilograms,
                |w| w.alkalinity_umol_per_kg,
                |a| a.alkalinity_eq,
            ),
            Measured::Calcium => (
                per_mg_per_l(form::CalciumAsCa::GRAMS_PER_MOL),
                |w| w.calcium_umol_per_kg,
                |a| a.calcium_mol,
            ),
            Measured::Magnesium => (
                per_mg_per_l(form::MagnesiumAsMg::GRAMS_PER_MOL),
                |w| w.magnesium_umol_per_kg,
                |a| a.magnesium_mol,
            ),
            other => return Err(Error::NoNetRate(crate::log::names::test_name(other))),
        };
        Ok(Self {
            measured,
            mol_per_unit,
            per_umol_per_kg: 1e-6 * kilograms / mol_per_unit,
            of_new_water,
            of,
        })
    }

    pub(super) fn rate(
        &self,
        course: &Course,
        (from_day, to_day): (f64, f64),
        tests: usize,
        per_day: Estimate,
    ) -> NetRate {
        NetRate {
            measured: self.measured,
            from_day,
            to_day,
            tests,
            per_day,
            mol_per_day: per_day.scaled(self.mol_per_unit),
            doses_are_known: course.doses_are_known,
        }
    }
}

#[derive(Debug, Clone, Copy)]
enum Step {
    WaterChange { share: f64, water: NewWater },
    Dose(Addition),
    TopOff { runs: bool },
}

/// Everything that was done, in the order of time.
pub(super) struct Course {
    steps: Vec<(f64, Step)>,
    per_day: Addition,
    /// While the top-off runs.
    limewater_per_day: Addition,
    doses_are_known: bool,
}

impl Course {
    pub(super) fn new(setup: &Setup, log: &Log) -> Result<Self> {
        setup.check()?;
        for reading in &log.readings {
            within("day of a reading", reading.day, 0.0, 36_525.0)?;
        }
        let logged = logged_setup(setup, log)?;
        let mut steps = planned_changes(&logged, log);
        for DatedEvent { day, event } in &logged.schedule.events {
            let step = match *event {
                Event::TopOffStops => Step::TopOff { runs: false },
                Event::TopOffRestored => Step::TopOff { runs: true },
                Event::WaterChange { share, water } => Step::WaterChange { share, water },
                Event::Dose { salt, grams } => {
                    Step::Dose(salt.per_mol() * (grams / salt.molar_mass_g_per_mol()))
                }
                _ => continue,
            };
            steps.push((*day, step));
        }
        // What is dosed at the time of a water change is diluted by it.
        let rank = |step: &Step| u8::from(!matches!(step, Step::Dose(_)));
        steps.sort_by(|a, b| (a.0.total_cmp(&b.0)).then(rank(&a.1).cmp(&rank(&b.1))));
        let dosing = &setup.schedule.dosing;
        let limewater = dosing.limewater_mol_per_l * setup.tank.evaporation_l_per_day;
        Ok(Self {
            steps,
            per_day: Addition {
                alkalinity_eq: dosing.bicarbonate_mol_per_day
                    + 2.0 * dosing.carbonate_mol_per_day
                    + dosing.hydroxide_mol_per_day
                    + 2.0 * dosing.reactor_mol_per_day,
                calcium_mol: dosing.calcium_mol_per_day + dosing.reactor_mol_per_day,
                magnesium_mol: dosing.magnesium_mol_per_day,
                nitrate_mol: dosing.nitrate_mol_per_day,
                phosphate_mol: dosing.phosphate_mol_per_day,
                ..Addition::NONE
            },
            limewater_per_day: Addition {
                alkalinity_eq: 2.0 * limewater,
                calcium_mol: limewater,
                ..Addition::NONE
            },
            doses_are_known: dosing.adjusted_every_days.is_none(),
        })
    }

    /// What was done to a content from one day to another.
    pub(super) fn between(&self, from: f64, to: f64, units: &Units) -> Between {
        let mut between = Between {
            kept: 1.0,
            brought: 0.0,
            days: 0.0,
        };
        let steady = (units.of)(&self.per_day) / units.mol_per_unit;
        let limewater = (units.of)(&self.limewater_per_day) / units.mol_per_unit;
        let (mut day, mut top_off) = (from, 1.0);
        for (at, step) in &self.steps {
            // At the time of the second test it comes after that one.
            if *at >= to {
                break;
            }
            // What is done at the time of the first test comes after it: a keeper tests
            // before changing water.
            let is_between = *at >= from;
            if is_between {
                between.pass(at - day, steady + top_off * limewater);
                day = *at;
            }
            match step {
                Step::TopOff { runs } => top_off = if *runs { 1.0 } else { 0.0 },
                Step::WaterChange { share, water } if is_between => {
                    let new = (units.of_new_water)(water) * units.per_umol_per_kg;
                    between.kept *= 1.0 - share;
                    between.brought += share * (new - between.brought);
                    between.days *= 1.0 - share;
                }
                Step::Dose(addition) if is_between => {
                    between.brought += (units.of)(addition) / units.mol_per_unit;
                }
                Step::WaterChange { .. } | Step::Dose(_) => {}
            }
        }
        between.pass(to - day, steady + top_off * limewater);
        between
    }
}

/// Water changes that go on by the plan up to the last reading; none while the keeper
/// is away.
fn planned_changes(logged: &Setup, log: &Log) -> Vec<(f64, Step)> {
    let Some(plan) = logged.schedule.water_change else {
        return Vec::new();
    };
    let last = log.readings.iter().map(|r| r.day).fold(0.0, f64::max);
    let is_away = |day: f64| {
        let before = logged.schedule.events.iter().take_while(|e| e.day <= day);
        let last = before
            .filter(|e| matches!(e.event, Event::KeeperLeaves | Event::KeeperReturns))
            .last();
        last.is_some_and(|e| matches!(e.event, Event::KeeperLeaves))
    };
    let mut changes = Vec::new();
    let mut day = plan.first_day;
    while day <= last {
        if !is_away(day) {
            let (share, water) = (plan.share, plan.water);
            changes.push((day, Step::WaterChange { share, water }));
        }
        day += plan.every_days;
    }
    changes
}

/// `c₂ = kept · c₁ + brought + rate · days`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Between {
    pub(super) kept: f64,
    pub(super) brought: f64,
    pub(super) days: f64,
}

impl Between {
    fn pass(&mut self, days: f64, brought_per_day: f64) {
        self.brought += brought_per_day * days;
        self.days += days;
    }

    pub(super) fn end(&self, start: f64, rate: f64) -> f64 {
        self.kept * start + self.brought + rate * self.days
    }

    pub(super) fn rate(&self, start: f64, end: f64) -> f64 {
        (end - self.kept * start - self.brought) / self.days
    }
}
