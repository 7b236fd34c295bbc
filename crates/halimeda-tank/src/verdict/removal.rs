//! Whether the screen takes out more than comes in.

use halimeda::form;
use halimeda::quantity::Form as _;
use serde::Serialize;

use crate::flow::{Process, Stock};
use crate::quantiles::Quantiles;
use crate::simulate::{Run, Sample};
use crate::tank::{Event, Setup};

/// Nitrogen and phosphorus that the turf takes out of the water beside what comes into
/// it, over the members.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Removal {
    /// Days up to today that it is taken over.
    pub window_days: f64,
    /// Nitrogen taken up by the turf, mmol per day.
    pub nitrogen_mmol_per_day: Quantiles,
    /// Nitrogen that all else but water changes and doses by hand brings into the
    /// water, less what else takes out, mmol per day: the load.
    pub nitrogen_load_mmol_per_day: Quantiles,
    /// Phosphorus taken up by the turf, mmol per day.
    pub phosphorus_mmol_per_day: Quantiles,
    /// The load of phosphorus, mmol per day.
    pub phosphorus_load_mmol_per_day: Quantiles,
    /// Nitrogen taken up per load: near 1 the screen keeps pace, as it does wherever the
    /// water has come to rest.
    pub nitrogen_per_load: Quantiles,
    /// The same of phosphorus.
    pub phosphorus_per_load: Quantiles,
    /// Probability that the turf keeps pace with the load of nitrogen: takes out at
    /// least 95 % of it.
    pub nitrogen_keeps_pace: f64,
    /// The same of phosphorus.
    pub phosphorus_keeps_pace: f64,
    /// Probability that the turf takes out more nitrogen than comes in.
    pub nitrogen_exceeds_load: f64,
    /// The same of phosphorus.
    pub phosphorus_exceeds_load: f64,
    /// Day since which nitrogen in the water falls week by week, d since the start, in
    /// those members in which it does; none if it does in fewer than half.
    pub since_day: Option<Quantiles>,
}

/// What one member says.
#[derive(Debug, Clone, Copy)]
pub(super) struct Balance {
    /// Uptake and load of nitrogen, then of phosphorus, mmol per day.
    nitrogen: [f64; 2],
    phosphorus: [f64; 2],
    since: Option<f64>,
}

/// The balance of a run whose books cover its last days.
pub(super) fn balance(run: &Run, setup: &Setup, window_days: f64, today: f64) -> Balance {
    let of = |stocks: &[Stock]| {
        let entry = |process| -> f64 {
            stocks
                .iter()
                .map(|&s| run.ledger.entry(process, s))
                .sum::<f64>()
                * 1e3
                / window_days
        };
        let load = Process::ALL
            .iter()
            .filter(|p| !matches!(p, Process::Turf | Process::WaterChange | Process::Parts))
            .map(|&p| entry(p))
            .sum();
        [-entry(Process::Turf), load]
    };
    Balance {
        nitrogen: of(&[Stock::Nitrate, Stock::Ammonium]),
        phosphorus: of(&[Stock::Phosphate]),
        since: falling_since(&run.samples, &water_changes(setup, today), today),
    }
}

/// Days of water changes of a schedule.
fn water_changes(setup: &Setup, until: f64) -> Vec<f64> {
    let events = setup.schedule.events.iter();
    let mut days: Vec<f64> = events
        .filter(|e| matches!(e.event, Event::WaterChange { .. }))
        .map(|e| e.day)
        .collect();
    if let Some(plan) = &setup.schedule.water_change {
        let planned = (0u32..).map(|n| plan.first_day + plan.every_days * f64::from(n));
        days.extend(planned.take_while(|&day| day <= until));
    }
    days.sort_by(f64::total_cmp);
    days
}

/// Days over which a rise or a fall is told.
const WEEK: f64 = 7.0;

/// The first day from which on nitrate and ammonia together fall in every week that
/// ends later, water changes left out; none if they do not fall in the last.
fn falling_since(samples: &[Sample], changes: &[f64], today: f64) -> Option<f64> {
    let per_nitrate = form::NitrateAsN::GRAMS_PER_MOL / form::NitrateAsNo3::GRAMS_PER_MOL;
    let nitrogen = |s: &Sample| s.nitrate_mg_per_l * per_nitrate + s.ammonia_mg_n_per_l;
    // What it came to without the steps at water changes.
    let mut course = Vec::with_capacity(samples.len());
    let mut sum = 0.0;
    for pair in samples.windows(2) {
        let [before, after] = pair else { continue };
        let next = changes.partition_point(|&c| c < before.day);
        let stepped = changes.get(next).is_some_and(|&c| c <= after.day);
        if !stepped {
            sum += nitrogen(after) - nitrogen(before);
        }
        course.push((after.day, sum));
    }
    let at = |day: f64| {
        let place = course.partition_point(|c| c.0 < day);
        course.get(place).or(course.last()).map(|c| c.1)
    };
    let mut since = None;
    let mut end = today;
    while end - WEEK >= 0.0 {
        if at(end)? >= at(end - WEEK)? {
            break;
        }
        since = Some(end - WEEK);
        end -= 1.0;
    }
    since
}

/// Uptake per load from which on the screen counts as keeping pace (chosen).
const KEEPS_PACE: f64 = 0.95;

/// Uptake per load; where nothing comes in, whatever is taken out is beyond it.
fn per_load([uptake, load]: [f64; 2]) -> f64 {
    if load > 0.0 {
        uptake / load
    } else {
        f64::INFINITY
    }
}

/// What the members say together; none if there are none.
pub(super) fn removal(balances: &[Balance], window_days: f64) -> Option<Removal> {
    let of = |f: &dyn Fn(&Balance) -> f64| Quantiles::of(balances.iter().map(f));
    let share = |f: &dyn Fn(&Balance) -> bool| {
        balances.iter().filter(|b| f(b)).count() as f64 / balances.len() as f64
    };
    let falling = share(&|b| b.since.is_some());
    Some(Removal {
        window_days,
        nitrogen_mmol_per_day: of(&|b| b.nitrogen[0])?,
        nitrogen_load_mmol_per_day: of(&|b| b.nitrogen[1])?,
        phosphorus_mmol_per_day: of(&|b| b.phosphorus[0])?,
        phosphorus_load_mmol_per_day: of(&|b| b.phosphorus[1])?,
        nitrogen_per_load: of(&|b| per_load(b.nitrogen))?,
        phosphorus_per_load: of(&|b| per_load(b.phosphorus))?,
        nitrogen_keeps_pace: share(&|b| per_load(b.nitrogen) >= KEEPS_PACE),
        phosphorus_keeps_pace: share(&|b| per_load(b.phosphorus) >= KEEPS_PACE),
        nitrogen_exceeds_load: share(&|b| b.nitrogen[0] > b.nitrogen[1]),
        phosphorus_exceeds_load: share(&|b| b.phosphorus[0] > b.phosphorus[1]),
        since_day: (falling >= 0.5)
            .then(|| Quantiles::of(balances.iter().filter_map(|b| b.since)))
            .flatten(),
    })
}
