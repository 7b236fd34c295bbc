//! Invented logs: a tank is followed under parameters that are known, and what a
//! keeper would have written down about it is kept. They show what a log looks like
//! and what can be learnt from one; they are no measurements of any tank.
//!
//! What the keeper reads follows kits as they are sold for home use. All numbers of
//! kits, probes and habits are common practice, no source:
//!
//! | test | shown in steps of | error of the test (standard uncertainty) |
//! |---|---|---|
//! | nitrate | colours 0, 1, 2, 4, 8, 15, 30, 60, 120 mg/L | 0.2 mg/L and 8 % |
//! | phosphate | 0.01 mg/L, "<0.02" below that | 0.01 mg/L and 5 % |
//! | ammonia | colours 0, 0.05, 0.1, 0.2, 0.4, 0.8 mg/L N | 0.01 mg/L and 10 % |
//! | alkalinity | 0.1 dKH | 0.1 dKH |
//! | calcium | 5 mg/L | 6 mg/L |
//! | magnesium | 15 mg/L | 20 mg/L |
//! | salinity | 0.5 | 0.3 |
//!
//! Colours are read to the nearest one. A pH probe repeats to 0.02, is off by 0.03
//! after its calibration and drifts by 0.03 a month; a temperature probe repeats to
//! 0.1 °C over a daily wave of 0.3 °C. A harvest is drained by hand and weighed to
//! 12 %, in whole grams. Feedings are weighed to 5 %. Harvests and water changes come
//! a day early or late, tests at any hour the keeper is up.

use std::f64::consts::TAU;

use halimeda::Alkalinity;
use statrs::distribution::{ContinuousCDF, Normal};

use super::{
    Entry, HarvestWeight, Interval, Log, Measured, ProbeSeries, Reading, Record, logged_setup,
};
use crate::error::{Result, within};
use crate::model::water_of;
use crate::parameters::Parameters;
use crate::simulate::{Run, RunOptions, simulate};
use crate::tank::{DatedEvent, Event, Setup, Tank};

/// What a keeper does and writes down.
#[derive(Debug, Clone, PartialEq)]
pub struct Keeper {
    /// Length of the log, d.
    pub days: f64,
    /// Seed of everything left to chance.
    pub seed: u64,
    /// Days between tests, in the mean.
    pub test_every_days: f64,
    /// Hours between records of the pH and temperature probes; none without probes.
    pub probe_every_hours: Option<f64>,
    /// Whether every feeding is written down.
    pub notes_feedings: bool,
    /// Days on which nobody tests, harvests or changes water.
    pub holiday: Option<Holiday>,
    /// What happens to the tank beside its schedule.
    pub incidents: Vec<DatedEvent>,
    /// Whether the incidents are written down.
    pub notes_incidents: bool,
}

/// Days away.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Holiday {
    /// The first day.
    pub first_day: f64,
    /// Number of days.
    pub days: f64,
}

impl Keeper {
    /// A keeper who tests every four days or so, has probes that record by the hour,
    /// is away for a twelfth of the time, and notes two incidents: the screen's lamps
    /// fail for six days after a third of the time, and after two thirds feeding
    /// goes up by 40 %.
    #[must_use]
    pub fn of_days(days: f64, seed: u64) -> Self {
        let (failed, fed_more) = ((0.35 * days).floor() + 0.6, (0.65 * days).floor());
        let incident = |day, event| DatedEvent { day, event };
        Self {
            days,
            seed,
            test_every_days: 4.0,
            probe_every_hours: Some(1.0),
            notes_feedings: false,
            holiday: Some(Holiday {
                first_day: (0.5 * days).floor(),
                days: (days / 12.0).floor(),
            }),
            incidents: vec![
                incident(failed, Event::ScreenLampFails),
                incident(failed + 6.0, Event::ScreenLampRepaired),
                incident(fed_more, Event::FeedingScaled { factor: 1.4 }),
            ],
            notes_incidents: true,
        }
    }

    /// The same without incidents.
    #[must_use]
    pub fn without_incidents(mut self) -> Self {
        self.incidents.clear();
        self
    }

    fn check(&self) -> Result<()> {
        within("days", self.days, 1.0, 3660.0)?;
        within("test_every_days", self.test_every_days, 0.25, 366.0)?;
        if let Some(hours) = self.probe_every_hours {
            within("probe_every_hours", hours, 0.01, 24.0)?;
        }
        if let Some(holiday) = &self.holiday {
            within("holiday first_day", holiday.first_day, 0.0, self.days)?;
            within("holiday days", holiday.days, 0.0, self.days)?;
        }
        Ok(())
    }

    fn is_away(&self, day: f64) -> bool {
        let within = |h: &Holiday| (h.first_day..h.first_day + h.days).contains(&day);
        self.holiday.as_ref().is_some_and(within)
    }
}

/// An invented log and what is behind it.
#[derive(Debug, Clone)]
pub struct Invented {
    /// What the keeper wrote down.
    pub log: Log,
    /// What was truly done with the tank and what happened to it.
    pub truth: Setup,
    /// The tank as it truly was, every half hour.
    pub run: Run,
}

/// Follows a tank under parameters taken for true and writes its log. The same for
/// the same keeper.
///
/// ```
/// use halimeda_tank::description::TankFile;
/// use halimeda_tank::log::invented::{Keeper, invent};
/// let file = TankFile::from_toml(include_str!("../../examples/invented_reef.toml"))?;
/// let invented = invent(&file.setup(), &file.parameters(), &Keeper::of_days(20.0, 1))?;
/// assert!(invented.log.readings.len() > 12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// A number of the keeper lies outside its limits, or as [`simulate`].
pub fn invent(setup: &Setup, parameters: &Parameters, keeper: &Keeper) -> Result<Invented> {
    keeper.check()?;
    setup.check()?;
    let mut chance = Chance::new(keeper.seed)?;
    let mut done = work_days(setup, keeper, &mut chance);
    let incidents = || {
        let of = |e: &DatedEvent| Entry {
            day: e.day,
            record: Record::Event(e.event),
        };
        let incidents = keeper.incidents.iter().filter(|e| e.day < keeper.days);
        incidents.map(of)
    };
    let truth = logged_setup(
        setup,
        &Log {
            entries: done.iter().cloned().chain(incidents()).collect(),
            ..Log::default()
        },
    )?;
    let run = simulate(
        &truth.tank,
        &truth.schedule,
        parameters,
        &RunOptions::days(keeper.days).sampled_every_days(1.0 / 48.0),
    )?;

    weigh(&mut done, &run, &mut chance);
    if keeper.notes_feedings {
        done.extend(feedings(&truth, keeper, &mut chance));
    }
    if keeper.notes_incidents {
        done.extend(incidents());
    }
    done.sort_by(|a, b| a.day.total_cmp(&b.day));
    let log = Log {
        readings: readings(&setup.tank, keeper, &run, &mut chance)?,
        probes: probes(&setup.tank, keeper, &run, &mut chance),
        entries: done,
    };
    Ok(Invented { log, truth, run })
}

/// Everything left to chance.
struct Chance {
    random: fastrand::Rng,
    normal: Normal,
}

impl Chance {
    fn new(seed: u64) -> Result<Self> {
        Ok(Self {
            random: fastrand::Rng::with_seed(seed),
            normal: Normal::standard(),
        })
    }

    /// Evenly between two ends.
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.random.f64()
    }

    /// Normal with a standard deviation.
    fn normal(&mut self, standard_deviation: f64) -> f64 {
        // Not quite 0 or 1, where the quantile is infinite.
        let share = self.between(1e-12, 1.0 - 1e-12);
        standard_deviation * self.normal.inverse_cdf(share)
    }
}

/// Harvests and water changes when the keeper got round to them.
fn work_days(setup: &Setup, keeper: &Keeper, chance: &mut Chance) -> Vec<Entry> {
    let mut done = Vec::new();
    let mut recurring = |first: f64, every: f64, record: &mut dyn FnMut(&mut Chance) -> Record| {
        let mut planned = first;
        let mut last = 0.0;
        while planned < keeper.days {
            // At the hour between 10 and 20 at which there is time for it.
            let hour = chance.between(10.0, 20.0);
            let day = (planned + chance.normal(0.7)).floor() + hour / 24.0;
            if day > last && day < keeper.days && !keeper.is_away(day) {
                let record = record(chance);
                done.push(Entry { day, record });
                last = day;
            }
            planned += every;
        }
    };
    if let Some(plan) = &setup.schedule.harvest {
        recurring(plan.first_day, plan.every_days, &mut |_| Record::Harvest {
            weight: None,
        });
    }
    if let Some(plan) = &setup.schedule.water_change {
        let litres = plan.share * setup.tank.net_volume_l;
        recurring(plan.first_day, plan.every_days, &mut |chance| {
            let litres = (litres * (1.0 + chance.normal(0.04))).clamp(0.0, litres.max(1.0) * 1.2);
            Record::WaterChange {
                litres: litres.round().min(setup.tank.net_volume_l),
            }
        });
    }
    done.sort_by(|a, b| a.day.total_cmp(&b.day));
    done
}

/// Puts the wet weights of a run's harvests beside the harvests done.
fn weigh(done: &mut [Entry], run: &Run, chance: &mut Chance) {
    for entry in done {
        if let Record::Harvest { weight } = &mut entry.record {
            let harvested = run
                .harvests
                .iter()
                .find(|h| (h.day - entry.day).abs() < 1e-9);
            *weight = harvested.map(|h| {
                let grams = h.harvest.drained_grams * chance.normal(0.12).exp();
                HarvestWeight::WetGrams(grams.round().max(1.0))
            });
        }
    }
}

/// Every feeding, weighed.
fn feedings(truth: &Setup, keeper: &Keeper, chance: &mut Chance) -> Vec<Entry> {
    let mut noted = Vec::new();
    let mut day = 0.0;
    while day < keeper.days {
        for planned in &truth.schedule.feedings {
            let at = day + planned.hour / 24.0;
            let factor = keeper
                .incidents
                .iter()
                .filter(|e| e.day <= at)
                .fold(1.0, |factor, e| match e.event {
                    Event::FeedingScaled { factor } => factor,
                    Event::FeedingStops => 0.0,
                    Event::FeedingResumes => 1.0,
                    _ => factor,
                });
            if at < keeper.days && factor > 0.0 {
                noted.push(Entry {
                    day: at,
                    record: Record::Feeding {
                        grams: planned.grams * factor * (1.0 + chance.normal(0.05)).max(0.5),
                        kind: planned.kind,
                    },
                });
            }
        }
        day += 1.0;
    }
    noted
}

/// How a kit shows what it found.
enum Shown {
    /// The nearest of these colours.
    Colours(&'static [f64]),
    /// Rounded to a step; below a limit only as less than it.
    Steps { step: f64, limit: f64 },
}

struct Kit {
    measured: Measured,
    shown: Shown,
    /// Standard uncertainty: a constant part and one in proportion.
    error: f64,
    relative_error: f64,
    /// In every how many sessions it is used.
    every: usize,
}

impl Kit {
    fn read(&self, day: f64, value: f64, chance: &mut Chance) -> Result<Reading> {
        let error = |value: f64| self.error.hypot(self.relative_error * value);
        let found = (value + chance.normal(error(value))).max(0.0);
        let (low, high) = match self.shown {
            Shown::Colours(colours) => between_colours(colours, found),
            Shown::Steps { limit, .. } if found < limit => (0.0, limit),
            Shown::Steps { step, .. } => {
                let shown = (found / step).round() * step;
                ((shown - 0.5 * step).max(0.0), shown + 0.5 * step)
            }
        };
        Ok(Reading {
            day,
            measured: self.measured,
            interval: Interval::new(low, high, error(0.5 * (low + high)))?,
        })
    }
}

/// The ends between which the nearest colour is the one a value shows.
fn between_colours(colours: &[f64], value: f64) -> (f64, f64) {
    let mut low = 0.0;
    for pair in colours.windows(2) {
        let &[this, next] = pair else { continue };
        let middle = 0.5 * (this + next);
        if value < middle {
            return (low, middle);
        }
        low = middle;
    }
    // The darkest colour says no more than that.
    (low, 4.0 * low)
}

fn kits(tank: &Tank) -> Result<[Kit; 7]> {
    let density = water_of(tank, tank.practical_salinity)?.density()?;
    let tenth_dkh = Alkalinity::from_dkh(0.1, density)?.umol_per_kg();
    let steps = |step| Shown::Steps { step, limit: 0.0 };
    let kit = |measured, shown, error, relative_error, every| Kit {
        measured,
        shown,
        error,
        relative_error,
        every,
    };
    Ok([
        kit(
            Measured::Nitrate,
            Shown::Colours(&[0.0, 1.0, 2.0, 4.0, 8.0, 15.0, 30.0, 60.0, 120.0]),
            0.2,
            0.08,
            1,
        ),
        kit(
            Measured::Phosphate,
            Shown::Steps {
                step: 0.01,
                limit: 0.02,
            },
            0.01,
            0.05,
            1,
        ),
        kit(Measured::Alkalinity, steps(tenth_dkh), tenth_dkh, 0.0, 1),
        kit(Measured::Calcium, steps(5.0), 6.0, 0.0, 2),
        kit(Measured::Magnesium, steps(15.0), 20.0, 0.0, 3),
        kit(Measured::Salinity, steps(0.5), 0.3, 0.0, 2),
        kit(
            Measured::Ammonia,
            Shown::Colours(&[0.0, 0.05, 0.1, 0.2, 0.4, 0.8]),
            0.01,
            0.1,
            4,
        ),
    ])
}

fn readings(tank: &Tank, keeper: &Keeper, run: &Run, chance: &mut Chance) -> Result<Vec<Reading>> {
    let kits = kits(tank)?;
    let mut readings = Vec::new();
    let mut day = 0.0;
    for session in 0usize.. {
        let at = day + chance.between(7.0, 22.0) / 24.0;
        if at >= keeper.days {
            break;
        }
        if !keeper.is_away(at) {
            for kit in kits.iter().filter(|kit| session % kit.every == 0) {
                let value = kit.measured.variable().and_then(|v| run.value_at(v, at));
                if let Some(value) = value {
                    readings.push(kit.read(at, value, chance)?);
                }
            }
        }
        day += (keeper.test_every_days * chance.between(0.5, 1.5))
            .round()
            .max(1.0);
    }
    Ok(readings)
}

fn probes(tank: &Tank, keeper: &Keeper, run: &Run, chance: &mut Chance) -> Vec<ProbeSeries> {
    let Some(every_hours) = keeper.probe_every_hours else {
        return Vec::new();
    };
    let count = (keeper.days * 24.0 / every_hours).floor() as u32;
    let days: Vec<f64> = (0..=count)
        .map(|i| f64::from(i) * every_hours / 24.0)
        .filter(|&day| day < keeper.days)
        .collect();
    let (offset, drift_per_day) = (chance.normal(0.03), chance.normal(0.03) / 30.0);
    let ph = |&day: &f64| {
        let ph = run.value_at(crate::Variable::Ph, day).unwrap_or(f64::NAN);
        let shown = ph + offset + drift_per_day * day + chance.normal(0.02);
        (shown * 100.0).round() / 100.0
    };
    let ph = days.iter().map(ph).collect();
    let celsius = |&day: &f64| {
        // Warmest in the afternoon, under the display's light.
        let wave = 0.3 * (TAU * (day.fract() - 0.4)).sin();
        ((tank.temperature_celsius + wave + chance.normal(0.1)) * 10.0).round() / 10.0
    };
    let celsius = days.iter().map(celsius).collect();
    vec![
        ProbeSeries {
            measured: Measured::Ph,
            days: days.clone(),
            values: ph,
        },
        ProbeSeries {
            measured: Measured::Temperature,
            days,
            values: celsius,
        },
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::setup;

    fn invented(keeper: &Keeper) -> Invented {
        invent(&setup(), &Parameters::default(), keeper).unwrap()
    }

    #[test]
    fn a_seed_gives_one_log_and_another_seed_another() {
        let log = |seed| invented(&Keeper::of_days(30.0, seed)).log;
        assert_eq!(log(3), log(3));
        assert_ne!(log(3), log(4));
    }

    /// Of many readings nine in ten lie within 1.645 standard uncertainties of the
    /// interval's reach about the truth.
    #[test]
    fn kits_err_as_much_as_they_say() {
        let setup = setup();
        let mut chance = Chance::new(5).unwrap();
        for kit in kits(&setup.tank).unwrap() {
            let value = match kit.measured {
                Measured::Nitrate => 5.0,
                Measured::Phosphate => 0.08,
                Measured::Alkalinity => 2800.0,
                Measured::Calcium => 420.0,
                Measured::Magnesium => 1310.0,
                Measured::Salinity => 35.0,
                _ => 0.06,
            };
            let mut squares = 0.0;
            let mut expected = 0.0;
            for _ in 0..4000 {
                let shown = kit.read(1.0, value, &mut chance).unwrap().interval;
                squares += (shown.middle() - value).powi(2);
                expected += shown.standard_deviation().powi(2);
            }
            let ratio: f64 = squares / expected;
            // Colours lie so far apart that the middle errs by their distance.
            let most = if matches!(kit.shown, Shown::Colours(_)) {
                2.5
            } else {
                1.1
            };
            assert!((0.3..most).contains(&ratio), "{:?} {ratio}", kit.measured);
        }
    }

    #[test]
    fn low_phosphate_is_shown_as_less_than_the_limit() {
        let setup = setup();
        let kits = kits(&setup.tank).unwrap();
        let kit = kits
            .iter()
            .find(|k| k.measured == Measured::Phosphate)
            .unwrap();
        let shown = kit.read(0.0, 0.001, &mut Chance::new(1).unwrap()).unwrap();
        assert_eq!((shown.interval.low(), shown.interval.high()), (0.0, 0.02));
    }

    #[test]
    fn nobody_tests_on_holiday_and_probes_go_on() {
        let keeper = Keeper::of_days(60.0, 2);
        let log = invented(&keeper).log;
        let holiday = keeper.holiday.unwrap();
        let away = |day: f64| (holiday.first_day..holiday.first_day + holiday.days).contains(&day);
        assert!(holiday.days >= 5.0);
        assert!(log.readings.iter().all(|r| !away(r.day)));
        assert!(log.probes[0].days.iter().any(|&d| away(d)));
        assert_eq!(log.probes[0].days.len(), 60 * 24);
        assert!(log.readings.is_sorted_by_key(|r| r.day));
        assert!(log.entries.is_sorted_by_key(|e| e.day));
    }

    /// The setup read back from the log is the one behind it.
    #[test]
    fn what_is_logged_is_what_was_done() {
        let invented = invented(&Keeper::of_days(60.0, 2));
        let mut read = logged_setup(&setup(), &invented.log).unwrap();
        // Plans go on from the end of the log, which probes reach further than deeds.
        read.schedule.harvest = invented.truth.schedule.harvest;
        assert_eq!(read, invented.truth);
    }

    /// Feeding is up by 40 % from day 39, and the notes say so even without the incident.
    #[test]
    fn noted_feedings_show_the_incident() {
        let mut keeper = Keeper::of_days(60.0, 2);
        keeper.notes_feedings = true;
        keeper.notes_incidents = false;
        let log = invented(&keeper).log;
        let fed = |from: f64, to: f64| -> f64 {
            let grams = log.entries.iter().filter(|e| (from..to).contains(&e.day));
            grams
                .filter_map(|e| match e.record {
                    Record::Feeding { grams, .. } => Some(grams),
                    _ => None,
                })
                .sum()
        };
        assert!((fed(40.0, 60.0) / fed(10.0, 30.0) - 1.4).abs() < 0.05);
        assert!(
            log.entries
                .iter()
                .all(|e| !matches!(e.record, Record::Event(_)))
        );
    }

    #[test]
    fn bad_keepers_are_refused() {
        let mut keeper = Keeper::of_days(30.0, 1);
        keeper.test_every_days = 0.0;
        assert!(invent(&setup(), &Parameters::default(), &keeper).is_err());
        keeper = Keeper::of_days(f64::NAN, 1);
        assert!(invent(&setup(), &Parameters::default(), &keeper).is_err());
    }
}
