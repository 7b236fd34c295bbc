use crate::error::{Result, within};
use crate::log::{Log, Record};
use crate::tank::{DatedEvent, Event, NewWater, Schedule, Setup, Tank};

/// Share of the turf that a logged harvest leaves where no plan says: common
/// practice, no source.
const KEPT_SHARE: f64 = 0.25;

/// Days of logged feedings begin and end so long before midnight, d, that a feeding
/// at midnight belongs to one day only.
const BEFORE_MIDNIGHT: f64 = 1e-6;

impl Log {
    /// The day of the last thing in the log; none if it is empty.
    #[must_use]
    pub fn last_day(&self) -> Option<f64> {
        let readings = self.readings.iter().map(|r| r.day);
        let probes = self.probes.iter().filter_map(|p| p.days.last().copied());
        let entries = self.entries.iter().map(|e| e.day);
        readings.chain(probes).chain(entries).reduce(f64::max)
    }
}

/// The setup as a log tells it. Up to the end of the log
///
/// - logged harvests take the place of the planned ones, if any was logged: the
///   plan's shares are left and fed back, or a quarter left where there is no plan;
/// - logged water changes take the place of the planned ones, if any was logged, with
///   the plan's new water, or without a plan water like the tank's at the start but
///   free of nutrients;
/// - on a day with a logged feeding the logged feedings take the place of all others;
/// - doses, part changes and incidents come on top of the events that are there.
///
/// After the end the plan goes on: harvests and water changes at their interval from
/// the last one logged.
///
/// # Errors
/// A number of the log lies outside its limits: a day below zero, more water changed
/// than there is, a mass below zero; or as [`Setup::check`].
pub fn logged_setup(setup: &Setup, log: &Log) -> Result<Setup> {
    let Some(end) = log.last_day() else {
        setup.check()?;
        return Ok(setup.clone());
    };
    let mut logged = setup.clone();
    let schedule = &mut logged.schedule;
    let days = |wanted: fn(&Record) -> bool| {
        let entries = log.entries.iter().filter(move |e| wanted(&e.record));
        entries.map(|e| e.day).reduce(f64::max)
    };
    let kept = schedule.harvest;
    if let Some(last) = days(|r| matches!(r, Record::Harvest { .. })) {
        if let Some(plan) = &mut schedule.harvest {
            plan.first_day = next_after(end, last, plan.every_days);
        }
    }
    if let Some(last) = days(|r| matches!(r, Record::WaterChange { .. })) {
        if let Some(plan) = &mut schedule.water_change {
            plan.first_day = next_after(end, last, plan.every_days);
        }
    }
    let new_water = match &schedule.water_change {
        Some(plan) => plan.water,
        None => clean(&setup.tank),
    };
    let mut events = Vec::new();
    for entry in &log.entries {
        within("day of a log entry", entry.day, 0.0, 36_525.0)?;
        let event = match entry.record {
            Record::Harvest { .. } => Event::Harvest {
                kept_share: kept.map_or(KEPT_SHARE, |plan| plan.kept_share),
                fed_back_share: kept.map_or(0.0, |plan| plan.fed_back_share),
            },
            Record::Feeding { grams, kind } => Event::Feeding { grams, kind },
            Record::WaterChange { litres } => Event::WaterChange {
                share: within(
                    "litres of a water change",
                    litres,
                    0.0,
                    setup.tank.net_volume_l,
                )? / setup.tank.net_volume_l,
                water: new_water,
            },
            Record::Dose { salt, grams } => Event::Dose { salt, grams },
            Record::Event(event) => event,
            Record::Note(_) => continue,
        };
        events.push(DatedEvent {
            day: entry.day,
            event,
        });
    }
    schedule.events.append(&mut events);
    schedule.events.extend(pauses(schedule, log));
    // Stable: what coincides happens as the description and then the log has it.
    schedule.events.sort_by(|a, b| a.day.total_cmp(&b.day));
    logged.check()?;
    Ok(logged)
}

/// The first day of a rhythm from `last` on that lies after `end`.
fn next_after(end: f64, last: f64, every: f64) -> f64 {
    last + every * (((end - last) / every).floor() + 1.0)
}

/// Freshly mixed water like the tank's at the start, without nutrients.
fn clean(tank: &Tank) -> NewWater {
    NewWater {
        practical_salinity: tank.practical_salinity,
        alkalinity_umol_per_kg: tank.water.alkalinity_umol_per_kg,
        calcium_umol_per_kg: tank.water.calcium_umol_per_kg,
        magnesium_umol_per_kg: tank.water.magnesium_umol_per_kg,
        strontium_umol_per_kg: tank.water.strontium_umol_per_kg,
        nitrate_umol_per_kg: 0.0,
        phosphate_umol_per_kg: 0.0,
    }
}

/// Pauses of the planned feedings over the days on which feedings were logged.
fn pauses(schedule: &Schedule, log: &Log) -> Vec<DatedEvent> {
    let mut fed: Vec<f64> = log
        .entries
        .iter()
        .filter(|e| matches!(e.record, Record::Feeding { .. }))
        .map(|e| e.day.floor())
        .collect();
    fed.sort_by(f64::total_cmp);
    fed.dedup();
    let mut pauses = Vec::new();
    for run in fed.chunk_by(|a, b| b - a < 1.5) {
        let (Some(first), Some(last)) = (run.first(), run.last()) else {
            continue;
        };
        let (from, to) = (first - BEFORE_MIDNIGHT, last + 1.0 - BEFORE_MIDNIGHT);
        // What stops or resumes planned feedings within these days does so after them.
        let feeds_after = schedule
            .events
            .iter()
            .filter(|e| e.day < to)
            .filter_map(|e| match e.event {
                Event::FeedingStops => Some((e.day, false)),
                Event::FeedingResumes => Some((e.day, true)),
                _ => None,
            })
            .reduce(|a, b| if b.0 >= a.0 { b } else { a })
            .is_none_or(|(_, feeds)| feeds);
        pauses.push(DatedEvent {
            day: from.max(0.0),
            event: Event::FeedingStops,
        });
        if feeds_after {
            pauses.push(DatedEvent {
                day: to,
                event: Event::FeedingResumes,
            });
        }
    }
    pauses
}

#[cfg(test)]
mod tests {
    use halimeda::dosing::Salt;
    use halimeda::process::FeedKind;

    use super::*;
    use crate::flow::{Process, Stock};
    use crate::log::Entry;
    use crate::testing::setup;
    use crate::{Parameters, Run, RunOptions, simulate};

    fn log(entries: &[(f64, Record)]) -> Log {
        let entry = |(day, record): &(f64, Record)| Entry {
            day: *day,
            record: record.clone(),
        };
        Log {
            entries: entries.iter().map(entry).collect(),
            ..Log::default()
        }
    }

    fn run(setup: &Setup, days: f64) -> Run {
        let parameters = Parameters::default();
        let options = RunOptions::days(days);
        simulate(&setup.tank, &setup.schedule, &parameters, &options).unwrap()
    }

    fn fed_nitrogen(run: &Run) -> f64 {
        run.ledger.entry(Process::Feeding, Stock::GutN)
    }

    #[test]
    fn an_empty_log_leaves_the_setup_as_it_is() {
        assert_eq!(logged_setup(&setup(), &Log::default()).unwrap(), setup());
    }

    /// Planned on days 6, 15, 24, ...; logged on days 7.5 and 17.6 with the log's end
    /// on day 18: the plan goes on nine days after the last.
    #[test]
    fn logged_harvests_take_the_place_of_planned_ones() {
        let weight = None;
        let log = log(&[
            (7.5, Record::Harvest { weight }),
            (17.6, Record::Harvest { weight }),
            (18.0, Record::Note("green".into())),
        ]);
        let logged = logged_setup(&setup(), &log).unwrap();
        let harvests = run(&logged, 40.0).harvests;
        let days: Vec<f64> = harvests.iter().map(|h| h.day).collect();
        assert_eq!(days.len(), 4);
        for (day, expected) in days.iter().zip([7.5, 17.6, 26.6, 35.6]) {
            assert!((day - expected).abs() < 1e-9, "{days:?}");
        }
    }

    /// On the days with logged feedings nothing else is fed, on all others the plan.
    #[test]
    fn logged_feedings_take_the_place_of_the_days_planned_ones() {
        let kind = FeedKind::Pellet;
        let feeding = |grams| Record::Feeding { grams, kind };
        let log = log(&[
            (3.4, feeding(1.0)),
            (4.4, feeding(1.0)),
            (4.8, feeding(2.0)),
        ]);
        let fed = fed_nitrogen(&run(&logged_setup(&setup(), &log).unwrap(), 10.0));
        let day = fed_nitrogen(&run(&setup(), 10.0)) / 10.0;
        let logged = 4.0 * kind.composition().per_gram().unwrap().nitrogen;
        assert!((fed / (8.0 * day + logged) - 1.0).abs() < 1e-12);
    }

    /// Feedings that a description stops stay stopped after a day with a logged one.
    #[test]
    fn a_logged_feeding_does_not_end_a_stop() {
        let mut setup = setup();
        let event = |day, event| DatedEvent { day, event };
        setup.schedule.events = vec![
            event(2.0, Event::FeedingStops),
            event(8.0, Event::FeedingResumes),
        ];
        let kind = FeedKind::Pellet;
        let fed_once = log(&[(4.4, Record::Feeding { grams: 1.0, kind })]);
        let fed = fed_nitrogen(&run(&logged_setup(&setup, &fed_once).unwrap(), 10.0));
        let without = fed_nitrogen(&run(&setup, 10.0));
        let logged = kind.composition().per_gram().unwrap().nitrogen;
        assert!((fed - without - logged).abs() < 1e-12);
    }

    #[test]
    fn changes_and_doses_become_events() {
        let log = log(&[
            (2.0, Record::WaterChange { litres: 30.0 }),
            (
                3.0,
                Record::Dose {
                    salt: Salt::SodiumBicarbonate,
                    grams: 5.0,
                },
            ),
            (4.0, Record::Event(Event::NewScreenLamp)),
        ]);
        let events = logged_setup(&setup(), &log).unwrap().schedule.events;
        let Event::WaterChange { share, water } = events[0].event else {
            panic!("{events:?}");
        };
        assert_eq!((share, water.nitrate_umol_per_kg), (0.15, 0.0));
        assert_eq!(events.len(), 3);
        assert_eq!(events[2].event, Event::NewScreenLamp);
    }

    #[test]
    fn impossible_entries_are_refused() {
        for (day, record) in [
            (2.0, Record::WaterChange { litres: 300.0 }),
            (-1.0, Record::Note(String::new())),
            (f64::NAN, Record::Note(String::new())),
            (
                1.0,
                Record::Dose {
                    salt: Salt::SodiumBicarbonate,
                    grams: -5.0,
                },
            ),
        ] {
            assert!(logged_setup(&setup(), &log(&[(day, record)])).is_err());
        }
    }
}
