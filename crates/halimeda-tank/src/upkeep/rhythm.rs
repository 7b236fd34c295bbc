//! What comes round by the schedule alone.

use super::{Task, Upkeep};
use crate::parameters::Parameters;
use crate::tank::Setup;

/// Share of its hold at which a screen counts as worn out: after one to two years
/// of weekly to fortnightly scraping. Common practice, no source.
const WORN_OUT: f64 = 0.7;

/// Scrapings until a new screen counts as worn out.
pub(super) fn scrapings_until_worn(parameters: &Parameters) -> f64 {
    WORN_OUT.ln() / (1.0 - parameters.screen.roughness_lost_per_scraping).ln()
}

/// A task every so many days, up to a day.
pub(super) fn recurring(
    task: Task,
    first: f64,
    every: f64,
    until: f64,
    first_number: u32,
    reason: &str,
) -> Vec<Upkeep> {
    if every <= 0.0 {
        return Vec::new();
    }
    (0u32..)
        .map(|n| (n, first + every * f64::from(n)))
        .take_while(|&(_, day)| day < until)
        .map(|(n, day)| Upkeep {
            day,
            range: None,
            task,
            number: first_number + n,
            reason: reason.to_owned(),
        })
        .collect()
}

/// Tasks in order of their day; one that is overdue is due on the first.
pub(super) fn in_order(mut upkeep: Vec<Upkeep>, first_day: f64) -> Vec<Upkeep> {
    upkeep.retain(|u| u.day.is_finite());
    for due in &mut upkeep {
        due.day = due.day.max(first_day);
    }
    upkeep.sort_by(|a, b| a.day.total_cmp(&b.day).then(a.task.cmp(&b.task)));
    upkeep
}

/// What is due over some days, and when screen and lamps will have to be replaced.
pub(crate) fn scheduled(setup: &Setup, parameters: &Parameters, days: f64) -> Vec<Upkeep> {
    let schedule = &setup.schedule;
    let screen = &setup.tank.screen;
    let mut upkeep = Vec::new();
    if let Some(harvest) = &schedule.harvest {
        upkeep.extend(recurring(
            Task::Harvest,
            harvest.first_day,
            harvest.every_days,
            days,
            1,
            "As planned.",
        ));
        upkeep.push(Upkeep {
            day: scrapings_until_worn(parameters) * harvest.every_days - screen.age_days,
            range: None,
            task: Task::NewScreen,
            number: 1,
            reason: "Scraping will have taken a third of its hold.".to_owned(),
        });
    }
    if let Some(change) = &schedule.water_change {
        upkeep.extend(recurring(
            Task::WaterChange,
            change.first_day,
            change.every_days,
            days,
            1,
            "As planned.",
        ));
    }
    let left = parameters.lamp.hours_to_70_percent - screen.lamp_hours;
    upkeep.push(Upkeep {
        day: left / schedule.screen_light.hours,
        range: None,
        task: Task::NewLamps,
        number: 1,
        reason: "They will have lost 30 % of their light.".to_owned(),
    });
    in_order(upkeep, 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tank::HarvestPlan;
    use crate::testing::setup;

    #[test]
    fn dates_follow_the_schedule() {
        let mut setup = setup();
        setup.schedule.harvest = Some(HarvestPlan {
            every_days: 10.0,
            first_day: 4.0,
            kept_share: 0.2,
            fed_back_share: 0.0,
        });
        setup.schedule.screen_light.hours = 20.0;
        setup.tank.screen.lamp_hours = 49_000.0;
        let due = scheduled(&setup, &Parameters::default(), 30.0);
        let days = |task| -> Vec<f64> {
            due.iter()
                .filter(|u| u.task == task)
                .map(|u| u.day)
                .collect()
        };
        assert_eq!(days(Task::Harvest), [4.0, 14.0, 24.0]);
        assert_eq!(days(Task::NewLamps), [50.0]);
        // 0.993^n = 0.7 after 50.8 scrapings.
        let worn = days(Task::NewScreen)[0] + setup.tank.screen.age_days;
        assert!((500.0..520.0).contains(&worn), "{worn}");
        assert!(days(Task::WaterChange).is_empty());
    }
}
