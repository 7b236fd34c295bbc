//! Events in the words of the description: `room_co2 co2=1200 ppm`.

use super::cell::{Marks, leading_number};
use super::column::arguments;
use super::entry::Record;
use super::problem::{Finding, LogProblemKind};
use crate::description::{Medium, events, listed, nearest, quoted, schema, short};
use crate::tank::Event;

/// Between events in one cell.
const BETWEEN: char = '|';

/// Reads the events of a cell.
pub(super) fn read(text: &str, co2_ppm: f64) -> Vec<Result<Record, Finding>> {
    text.split(BETWEEN)
        .filter(|event| !event.trim().is_empty())
        .map(|event| read_one(event, co2_ppm))
        .collect()
}

fn read_one(text: &str, co2_ppm: f64) -> Result<Record, Finding> {
    let mut words = arguments(text).into_iter();
    let what = match words.next() {
        Some((what, "")) => what,
        _ => return Err(unknown(text)),
    };
    let arguments: Vec<(&str, &str)> = words.collect();
    if what == "harvest" && arguments.is_empty() {
        return Ok(Record::Harvest { weight: None });
    }
    if !schema::WHAT.contains(&what) {
        return Err(unknown(what));
    }
    for (key, _) in &arguments {
        let is_own = |(own, owner): &(&str, &str)| own == key && *owner == what;
        if !events::OWN_KEYS.iter().any(is_own) {
            let own = events::OWN_KEYS.iter().filter(|(_, owner)| *owner == what);
            let own: Vec<&str> = own.map(|(key, _)| *key).collect();
            let expected = match own.as_slice() {
                [] => format!("expected `{what}` alone"),
                own => format!(
                    "expected beside `{what}` only {}",
                    listed(own.iter().copied())
                ),
            };
            let kind = LogProblemKind::Contradictory;
            return Err(Finding::new(
                kind,
                format!("`{key}` beside `{what}`"),
                expected,
            ));
        }
    }
    let mut wrong = None;
    let number = |key: &str| {
        let given = arguments.iter().find(|(name, _)| *name == key);
        let read = match given {
            Some((_, value)) => argument(key, value),
            None if events::HAVE_DEFAULT.contains(&key) => Ok(0.0),
            None => {
                let found = format!("`{what}` without `{key}`");
                let expected = format!("expected `{key}=` and its value beside it");
                Err(Finding::new(LogProblemKind::Missing, found, expected))
            }
        };
        read.unwrap_or_else(|finding| {
            wrong = Some(finding);
            f64::NAN
        })
    };
    let (event, _) = events::named(what, number, co2_ppm);
    match wrong {
        Some(finding) => Err(finding),
        None => Ok(Record::Event(event)),
    }
}

/// A number beside an event, within the limits of the description.
fn argument(key: &str, text: &str) -> Result<f64, Finding> {
    let takes = schema::EVENT
        .iter()
        .find(|k| k.name == key)
        .map(|k| k.takes);
    let Some(schema::Takes::Quantity(measure, low, high)) = takes else {
        let expected = "expected a number of the description's events";
        return Err(Finding::new(
            LogProblemKind::UnknownName,
            quoted(key),
            expected,
        ));
    };
    let found = quoted(&format!("{key}={text}"));
    let expected = || {
        let range = format!("{} to {} {}", short(low), short(high), measure.kept_in);
        format!(
            "expected {} ({}) from {}",
            measure.name,
            measure.unit_names(),
            range.trim_end()
        )
    };
    let kept = leading_number(text, Marks::default())
        .ok()
        .and_then(|(number, unit)| {
            measure
                .unit(unit)?
                .to_kept(number.value, &Medium::default())
        });
    match kept {
        Some(kept) if (low..=high).contains(&kept) => Ok(kept),
        Some(_) => Err(Finding::new(LogProblemKind::OutOfRange, found, expected())),
        None => Err(Finding::new(LogProblemKind::Unreadable, found, expected())),
    }
}

fn unknown(what: &str) -> Finding {
    let expected = format!("expected one of {}", listed(schema::WHAT.iter().copied()));
    let meant = nearest(what, schema::WHAT.iter().copied());
    let meant = meant.map(|meant| format!("did you mean `{meant}`?"));
    Finding::new(LogProblemKind::UnknownName, quoted(what), expected).meant(meant)
}

/// An event as it is read.
pub(super) fn write(event: &Event) -> String {
    match event {
        Event::ScreenLampFails => "screen_lamp_fails".to_owned(),
        Event::ScreenLampRepaired => "screen_lamp_repaired".to_owned(),
        Event::ScreenFlowDrops { share } => format!("screen_flow_drops flow_left={share}"),
        Event::ScreenFlowRestored => "screen_flow_restored".to_owned(),
        Event::PumpStops => "pump_stops".to_owned(),
        Event::PumpRestored => "pump_restored".to_owned(),
        Event::FeedingStops => "feeding_stops".to_owned(),
        Event::FeedingResumes => "feeding_resumes".to_owned(),
        Event::FeedingScaled { factor } => format!("feeding_scaled factor={factor}"),
        Event::HarvestsStop => "harvests_stop".to_owned(),
        Event::HarvestsResume => "harvests_resume".to_owned(),
        Event::KeeperLeaves => "keeper_leaves".to_owned(),
        Event::KeeperReturns => "keeper_returns".to_owned(),
        Event::TopOffStops => "top_off_stops".to_owned(),
        Event::TopOffRestored => "top_off_restored".to_owned(),
        Event::Harvest {
            kept_share,
            fed_back_share,
        } => format!("harvest kept_share={kept_share} fed_back_share={fed_back_share}"),
        Event::NewScreen => "new_screen".to_owned(),
        Event::NewScreenLamp => "new_screen_lamp".to_owned(),
        Event::NewIronOxide { grams } => format!("new_iron_oxide mass={grams} g"),
        Event::RoomCo2 { ppm } => format!("room_co2 co2={ppm} ppm"),
        // They have columns of their own.
        Event::Feeding { .. } | Event::WaterChange { .. } | Event::Dose { .. } => String::new(),
    }
}
