use serde::{Deserialize, Serialize};

use crate::parameters::Parameters;
use crate::tank::Setup;

/// What a keeper has to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Task {
    /// Harvest the screen.
    Harvest,
    /// Change water.
    WaterChange,
    /// Replace the screen: scraping has taken its hold.
    NewScreen,
    /// Replace the lamps: they have lost 30 % of their light.
    NewLamps,
}

/// A task and its day.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Upkeep {
    /// Days from today.
    pub day: f64,
    /// What is due.
    pub task: Task,
}

/// Share of its hold at which a screen counts as worn out: after one to two years
/// of weekly to fortnightly scraping. Common practice, no source.
const WORN_OUT: f64 = 0.7;

/// What is due over some days, and when screen and lamps will have to be replaced.
pub(super) fn upkeep(setup: &Setup, parameters: &Parameters, days: f64) -> Vec<Upkeep> {
    let schedule = &setup.schedule;
    let screen = &setup.tank.screen;
    let mut upkeep = Vec::new();
    let mut recurring = |first: f64, every: f64, task| {
        let dates = (0u32..).map(|n| first + every * f64::from(n));
        upkeep.extend(
            dates
                .take_while(|&day| day < days)
                .map(|day| Upkeep { day, task }),
        );
    };
    if let Some(harvest) = &schedule.harvest {
        recurring(harvest.first_day, harvest.every_days, Task::Harvest);
    }
    if let Some(change) = &schedule.water_change {
        recurring(change.first_day, change.every_days, Task::WaterChange);
    }
    if let Some(harvest) = &schedule.harvest {
        let lost = parameters.screen.roughness_lost_per_scraping;
        let scrapings = WORN_OUT.ln() / (1.0 - lost).ln();
        upkeep.push(Upkeep {
            day: scrapings * harvest.every_days - screen.age_days,
            task: Task::NewScreen,
        });
    }
    let left = parameters.lamp.hours_to_70_percent - screen.lamp_hours;
    upkeep.push(Upkeep {
        day: left / schedule.screen_light.hours,
        task: Task::NewLamps,
    });
    upkeep.retain(|u| u.day.is_finite());
    for due in &mut upkeep {
        // Overdue is due today.
        due.day = due.day.max(0.0);
    }
    upkeep.sort_by(|a, b| a.day.total_cmp(&b.day));
    upkeep
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
        let due = upkeep(&setup, &Parameters::default(), 30.0);
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
