//! A tank as it stands on a later day.

use super::Member;
use crate::error::{Result, within};
use crate::flow::Stock;
use crate::model::DETRITUS_G_PER_MOL_C;
use crate::simulate::{RunOptions, simulate};
use crate::tank::{DatedEvent, Event, InitialWater, Schedule, Setup};

/// Days over whose mean the doses are taken to go on, d.
const DOSED_DAYS: f64 = 7.0;

impl Member {
    /// The tank as it stands at the beginning of a later day, with its schedule from there
    /// on: what a plan is asked about. Days are counted from there.
    ///
    /// What is in food on its way, in dissolved organic matter and in the tissue of the
    /// turf beyond a middling share of nutrients is not carried over. Nitrate hardly
    /// feels it; phosphate may be a third off for weeks where the tissue was much fuller or
    /// emptier, so follow the member itself ([`ensemble_of`](crate::ensemble_of)) for a
    /// forecast. An iron-oxide medium counts as fresh, and
    /// salinity, where it is checked, as the stated one. Doses go on as in the mean of the last
    /// week.
    ///
    /// # Errors
    /// The day lies outside 1 to 3660 or the tank cannot be followed to it.
    pub fn at(&self, day: f64) -> Result<Setup> {
        let day = within("day", day, 1.0, 3660.0)?.floor();
        let Setup { tank, schedule } = &self.setup;
        let options = RunOptions {
            relative_tolerance: 1e-5,
            books_from_day: (day - DOSED_DAYS).max(0.0),
            ..RunOptions::days(day).sampled_every_days(1.0)
        };
        let run = simulate(tank, schedule, &self.parameters, &options)?;
        let amount = |stock: Stock| run.ledger.stock(stock).1;
        let kg = amount(Stock::Water);
        let umol_per_kg = |stock: Stock| (amount(stock) / kg * 1e6).max(0.0);

        let mut now = self.setup.clone();
        let last = run.samples.last();
        // Where salinity is checked, the stated one is what it is brought back to.
        if schedule.salinity_check_every_days.is_none() {
            now.tank.practical_salinity = amount(Stock::Salt) / kg;
        }
        now.tank.water = InitialWater {
            alkalinity_umol_per_kg: umol_per_kg(Stock::Alkalinity),
            inorganic_carbon_umol_per_kg: Some(umol_per_kg(Stock::InorganicCarbon)),
            oxygen_saturation: last.map_or(1.0, |s| s.oxygen_saturation),
            ammonia_umol_per_kg: umol_per_kg(Stock::Ammonium),
            nitrate_umol_per_kg: umol_per_kg(Stock::Nitrate),
            phosphate_umol_per_kg: umol_per_kg(Stock::Phosphate),
            calcium_umol_per_kg: umol_per_kg(Stock::Calcium),
            magnesium_umol_per_kg: umol_per_kg(Stock::Magnesium),
            strontium_umol_per_kg: umol_per_kg(Stock::Strontium),
            detritus_dry_grams: amount(Stock::DetritusC) * DETRITUS_G_PER_MOL_C,
        };
        now.tank.screen.turf_g_dry_per_m2 = last.map_or(0.0, |s| s.turf_g_dry_per_m2);
        let screen = &mut now.tank.screen;
        screen.age_days += day;
        screen.lamp_hours += day * schedule.screen_light.hours;
        for happened in schedule.events.iter().filter(|e| e.day < day) {
            match happened.event {
                Event::NewIronOxide { grams } => now.tank.iron_oxide_grams = grams,
                Event::RoomCo2 { ppm } => now.tank.air.co2_ppm = ppm,
                Event::NewScreen => screen.age_days = day - happened.day,
                Event::NewScreenLamp => {
                    screen.lamp_hours = (day - happened.day) * schedule.screen_light.hours;
                }
                _ => {}
            }
        }
        now.schedule = from(schedule, day);
        now.schedule.dosing = run.dosing;
        now.check()?;
        Ok(now)
    }
}

/// A schedule from a day on.
fn from(schedule: &Schedule, day: f64) -> Schedule {
    let mut now = schedule.clone();
    let next = |first: f64, every: f64| {
        let passed = ((day - first) / every).ceil().max(0.0);
        first + passed * every - day
    };
    if let Some(plan) = &mut now.harvest {
        plan.first_day = next(plan.first_day, plan.every_days);
    }
    if let Some(plan) = &mut now.water_change {
        plan.first_day = next(plan.first_day, plan.every_days);
    }
    let (passed, to_come): (Vec<DatedEvent>, Vec<DatedEvent>) =
        schedule.events.iter().partition(|e| e.day < day);
    let lasting = lasting(&passed).into_iter();
    let lasting = lasting.map(|event| DatedEvent { day: 0.0, event });
    let to_come = to_come.into_iter().map(|e| DatedEvent {
        day: e.day - day,
        ..e
    });
    now.events = lasting.chain(to_come).collect();
    now
}

/// What began and still goes on after some events, in order of time.
fn lasting(passed: &[DatedEvent]) -> Vec<Event> {
    let mut lasting: Vec<Event> = Vec::new();
    for &DatedEvent { event, .. } in passed {
        let ended = match event {
            Event::ScreenLampRepaired => Event::ScreenLampFails,
            Event::ScreenFlowRestored => Event::ScreenFlowDrops { share: 0.0 },
            Event::PumpRestored => Event::PumpStops,
            Event::FeedingResumes => Event::FeedingStops,
            Event::HarvestsResume => Event::HarvestsStop,
            Event::KeeperReturns => Event::KeeperLeaves,
            Event::TopOffRestored => Event::TopOffStops,
            begun => begun,
        };
        let same = |e: &Event| std::mem::discriminant(e) == std::mem::discriminant(&ended);
        lasting.retain(|e| !same(e));
        if event.begins() {
            lasting.push(event);
        }
    }
    lasting
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parameters::Parameters;
    use crate::testing::setup;
    use crate::variable::Variable;

    /// Followed from a later day on, the tank goes the way it went: by day ten after it
    /// what was not carried over is made up.
    #[test]
    fn a_tank_goes_on_from_a_later_day() {
        let mut setup = setup();
        let event = |day, event| DatedEvent { day, event };
        setup.schedule.events = vec![
            event(5.0, Event::ScreenLampFails),
            event(8.0, Event::ScreenLampRepaired),
            event(12.0, Event::FeedingScaled { factor: 1.2 }),
            event(33.0, Event::FeedingScaled { factor: 1.0 }),
        ];
        let member = Member {
            setup,
            parameters: Parameters::default(),
        };
        let now = member.at(30.4).unwrap();
        let events = &now.schedule.events;
        assert_eq!(events.len(), 2);
        assert_eq!(events[0], event(0.0, Event::FeedingScaled { factor: 1.2 }));
        assert_eq!(events[1], event(3.0, Event::FeedingScaled { factor: 1.0 }));
        assert_eq!(now.schedule.harvest.unwrap().first_day, 3.0);
        let follow = |setup: &Setup, days| {
            let options = RunOptions::days(days);
            simulate(&setup.tank, &setup.schedule, &member.parameters, &options).unwrap()
        };
        let (whole, rest) = (follow(&member.setup, 50.0), follow(&now, 20.0));
        for (variable, share) in [
            (Variable::Nitrate, 0.15),
            // The turf here holds much phosphorus; one of middling tissue takes it up.
            (Variable::Phosphate, 0.4),
            (Variable::Alkalinity, 0.01),
            (Variable::Calcium, 0.015),
            (Variable::Turf, 0.1),
            (Variable::Salinity, 0.012),
        ] {
            for day in [0.0, 10.0, 19.0] {
                let then = whole.value_at(variable, 30.0 + day).unwrap();
                let again = rest.value_at(variable, day).unwrap();
                assert!(
                    (again / then - 1.0).abs() < share,
                    "{variable:?} {day} {again} {then}"
                );
            }
        }
    }

    #[test]
    fn only_a_later_day_is_one() {
        let member = Member {
            setup: setup(),
            parameters: Parameters::default(),
        };
        for day in [0.0, -1.0, f64::NAN] {
            assert!(member.at(day).is_err());
        }
    }
}
