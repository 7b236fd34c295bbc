//! Everything that switches or happens, in order of time.

use crate::tank::{DatedEvent, Event, Photoperiod, Schedule};

/// Something that happens at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Action {
    DisplayLight(bool),
    ScreenLight(bool),
    /// The feeding at this place of the schedule.
    Feed(usize),
    PlannedHarvest,
    WaterChange,
    SalinityCheck,
    DosingCheck,
    Event(Event),
}

/// An action and when it happens, d.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Moment {
    pub(crate) day: f64,
    pub(crate) action: Action,
}

/// Whether a photoperiod is lit at the very start of day 0.
pub(crate) fn lit_at_start(light: &Photoperiod) -> bool {
    // Yesterday's may still burn.
    light.hours >= 24.0
        || (light.hours > 0.0 && (light.start_hour <= 0.0 || light.start_hour + light.hours > 24.0))
}

/// All moments after day 0 and before `end`, d.
pub(crate) fn timeline(schedule: &Schedule, end: f64) -> Vec<Moment> {
    let mut moments = Vec::new();
    let mut add = |day: f64, action: Action| {
        if day >= 0.0 && day < end {
            moments.push(Moment { day, action });
        }
    };
    let mut lit = |light: &Photoperiod, action: fn(bool) -> Action| {
        if light.hours <= 0.0 || light.hours >= 24.0 {
            return;
        }
        let mut day = -1.0;
        while day < end {
            add(day + light.start_hour / 24.0, action(true));
            add(day + (light.start_hour + light.hours) / 24.0, action(false));
            day += 1.0;
        }
    };
    lit(&schedule.display_light, Action::DisplayLight);
    lit(&schedule.screen_light, Action::ScreenLight);
    let mut day = 0.0;
    while day < end {
        for (i, feeding) in schedule.feedings.iter().enumerate() {
            add(day + feeding.hour / 24.0, Action::Feed(i));
        }
        day += 1.0;
    }
    let mut recurring = |first: f64, every: f64, action: Action| {
        for n in 0u32.. {
            let day = first + every * f64::from(n);
            if day >= end || every <= 0.0 {
                break;
            }
            add(day, action);
        }
    };
    if let Some(harvest) = &schedule.harvest {
        recurring(
            harvest.first_day,
            harvest.every_days,
            Action::PlannedHarvest,
        );
    }
    if let Some(change) = &schedule.water_change {
        recurring(change.first_day, change.every_days, Action::WaterChange);
    }
    if let Some(every) = schedule.salinity_check_every_days {
        recurring(every, every, Action::SalinityCheck);
    }
    if let Some(every) = schedule.dosing.adjusted_every_days {
        recurring(every, every, Action::DosingCheck);
    }
    for &DatedEvent { day, event } in &schedule.events {
        add(day, Action::Event(event));
    }
    // Stable: what coincides happens in the order of this function.
    moments.sort_by(|a, b| a.day.total_cmp(&b.day));
    moments
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tank::Dosing;

    fn schedule(start_hour: f64, hours: f64) -> Schedule {
        let light = Photoperiod { start_hour, hours };
        Schedule {
            display_light: Photoperiod {
                start_hour: 0.0,
                hours: 0.0,
            },
            screen_light: light,
            feedings: Vec::new(),
            harvest: None,
            water_change: None,
            salinity_check_every_days: None,
            dosing: Dosing::default(),
            events: Vec::new(),
        }
    }

    /// Hours lit over ten days, whatever the start, are ten times the photoperiod.
    #[test]
    fn a_photoperiod_is_lit_for_its_hours() {
        for (start, hours) in [
            (0.0, 12.0),
            (18.0, 18.0),
            (23.5, 1.0),
            (6.0, 18.0),
            (5.0, 0.0),
            (3.0, 24.0),
        ] {
            let s = schedule(start, hours);
            let mut lit = lit_at_start(&s.screen_light);
            let mut since = 0.0;
            let mut total = 0.0;
            for m in timeline(&s, 10.0) {
                if lit {
                    total += m.day - since;
                }
                since = m.day;
                lit = m.action == Action::ScreenLight(true);
            }
            if lit {
                total += 10.0 - since;
            }
            assert!(
                (total - 10.0 * hours / 24.0).abs() < 1e-9,
                "{start} {hours}: {total}"
            );
        }
    }
}
