use super::calendar::Calendar;
use super::log::listed;
use super::problem::ProblemKind;
use super::section::Section;
use crate::{DatedEvent, Event};

/// What an event acts on. Two events on one thing at one time leave open which
/// of them holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Subject {
    ScreenLamp,
    ScreenFlow,
    Pump,
    Feeding,
    Harvests,
    Screen,
    IronOxide,
    RoomAir,
    Keeper,
    TopOff,
}

/// Whether an event begins a state that another must end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Effect {
    Begins,
    Ends,
    /// Changes what must be going on.
    Changes,
    Happens,
}

impl Subject {
    const ALL: [Self; 10] = [
        Self::ScreenLamp,
        Self::ScreenFlow,
        Self::Pump,
        Self::Feeding,
        Self::Harvests,
        Self::Screen,
        Self::IronOxide,
        Self::RoomAir,
        Self::Keeper,
        Self::TopOff,
    ];
}

const fn subject(event: &Event) -> (Subject, Effect) {
    use Effect::{Begins, Changes, Ends, Happens};
    match event {
        Event::ScreenLampFails => (Subject::ScreenLamp, Begins),
        Event::ScreenLampRepaired => (Subject::ScreenLamp, Ends),
        Event::NewScreenLamp => (Subject::ScreenLamp, Happens),
        Event::ScreenFlowDrops { .. } => (Subject::ScreenFlow, Begins),
        Event::ScreenFlowRestored => (Subject::ScreenFlow, Ends),
        Event::PumpStops => (Subject::Pump, Begins),
        Event::PumpRestored => (Subject::Pump, Ends),
        Event::FeedingStops => (Subject::Feeding, Begins),
        Event::FeedingResumes => (Subject::Feeding, Ends),
        Event::FeedingScaled { .. } => (Subject::Feeding, Changes),
        Event::HarvestsStop => (Subject::Harvests, Begins),
        Event::HarvestsResume => (Subject::Harvests, Ends),
        Event::Harvest { .. } | Event::NewScreen => (Subject::Screen, Happens),
        Event::NewIronOxide { .. } => (Subject::IronOxide, Happens),
        Event::RoomCo2 { .. } => (Subject::RoomAir, Happens),
        Event::KeeperLeaves => (Subject::Keeper, Begins),
        Event::KeeperReturns => (Subject::Keeper, Ends),
        Event::TopOffStops => (Subject::TopOff, Begins),
        Event::TopOffRestored => (Subject::TopOff, Ends),
        Event::Feeding { .. } => (Subject::Feeding, Happens),
        Event::WaterChange { .. } | Event::Dose { .. } => (Subject::Keeper, Happens),
    }
}

/// An event and the entry it comes from.
struct Placed {
    dated: DatedEvent,
    entry: usize,
}

/// Reads the events, in the order of time.
pub(super) fn events(
    entries: &[Section<'_>],
    calendar: &Calendar,
    co2_ppm: f64,
    horizon_days: f64,
) -> Vec<DatedEvent> {
    let mut placed = Vec::new();
    for (entry, section) in entries.iter().enumerate() {
        let day = section.moment("at", calendar);
        let until = section.optional_moment("until", calendar);
        let Some(what) = section.choice("what") else {
            continue;
        };
        let (event, end) = read(section, what, co2_ppm);
        check_keys(section, what);
        let mut place = |day: f64, event| {
            if !day.is_nan() {
                let dated = DatedEvent { day, event };
                placed.push(Placed { dated, entry });
            }
        };
        place(day, event);
        if day > horizon_days {
            let found = format!("an event on day {day}");
            let expected = format!("an event within the horizon of {horizon_days} days");
            section.report_contradiction("at", found, expected);
        }
        let Some(until) = until else { continue };
        match end {
            Some(_) if until <= day => {
                let found = format!("an end on day {until} of what begins on day {day}");
                section.report_contradiction("until", found, "an end after the beginning");
            }
            Some(end) => place(until, end),
            None => {
                let found = format!("an end of `{what}`, which has none");
                section.report_contradiction("until", found, "`at` alone");
            }
        }
    }
    placed.sort_by(|a, b| a.dated.day.total_cmp(&b.dated.day));
    check_order(entries, &placed);
    placed.into_iter().map(|placed| placed.dated).collect()
}

/// The event that an entry's word means, and the one that ends it.
fn read(section: &Section<'_>, what: &str, co2_ppm: f64) -> (Event, Option<Event>) {
    let number = |name: &str| {
        if !section.has(name) && !HAVE_DEFAULT.contains(&name) {
            let found = format!("`{what}` without `{name}`");
            let expected = format!("`{name}` beside it");
            section.report(name, ProblemKind::MissingKey, found, expected, None);
        }
        section.plain(name)
    };
    named(what, number, co2_ppm)
}

/// Keys that need not be there.
pub(crate) const HAVE_DEFAULT: [&str; 2] = ["flow_left", "fed_back_share"];

/// The event that a word means, with its numbers, and the one that ends it.
pub(crate) fn named(
    what: &str,
    mut number: impl FnMut(&str) -> f64,
    co2_ppm: f64,
) -> (Event, Option<Event>) {
    match what {
        "screen_lamp_fails" => (Event::ScreenLampFails, Some(Event::ScreenLampRepaired)),
        "screen_lamp_repaired" => (Event::ScreenLampRepaired, None),
        "screen_flow_drops" => {
            let share = number("flow_left");
            (
                Event::ScreenFlowDrops { share },
                Some(Event::ScreenFlowRestored),
            )
        }
        "screen_flow_restored" => (Event::ScreenFlowRestored, None),
        "pump_stops" => (Event::PumpStops, Some(Event::PumpRestored)),
        "pump_restored" => (Event::PumpRestored, None),
        "feeding_stops" => (Event::FeedingStops, Some(Event::FeedingResumes)),
        "feeding_resumes" => (Event::FeedingResumes, None),
        "feeding_scaled" => {
            let factor = number("factor");
            (
                Event::FeedingScaled { factor },
                Some(Event::FeedingScaled { factor: 1.0 }),
            )
        }
        "harvests_stop" => (Event::HarvestsStop, Some(Event::HarvestsResume)),
        "harvests_resume" => (Event::HarvestsResume, None),
        "keeper_leaves" => (Event::KeeperLeaves, Some(Event::KeeperReturns)),
        "keeper_returns" => (Event::KeeperReturns, None),
        "top_off_stops" => (Event::TopOffStops, Some(Event::TopOffRestored)),
        "top_off_restored" => (Event::TopOffRestored, None),
        "harvest" => {
            let harvest = Event::Harvest {
                kept_share: number("kept_share"),
                fed_back_share: number("fed_back_share"),
            };
            (harvest, None)
        }
        "new_screen" => (Event::NewScreen, None),
        "new_screen_lamp" => (Event::NewScreenLamp, None),
        "new_iron_oxide" => {
            let grams = number("mass");
            (Event::NewIronOxide { grams }, None)
        }
        _ => {
            let ppm = number("co2");
            (
                Event::RoomCo2 { ppm },
                Some(Event::RoomCo2 { ppm: co2_ppm }),
            )
        }
    }
}

/// Keys that only one kind of event takes.
pub(crate) const OWN_KEYS: [(&str, &str); 6] = [
    ("flow_left", "screen_flow_drops"),
    ("factor", "feeding_scaled"),
    ("kept_share", "harvest"),
    ("fed_back_share", "harvest"),
    ("mass", "new_iron_oxide"),
    ("co2", "room_co2"),
];

fn check_keys(section: &Section<'_>, what: &str) {
    for (key, owner) in OWN_KEYS {
        if section.has(key) && owner != what {
            let found = format!("`{key}` beside `{what}`");
            section.report_contradiction(key, found, format!("it only beside {}", listed([owner])));
        }
    }
}

/// Refuses events that leave open what holds: two at once on one thing, the end
/// of what has not begun, the beginning of what goes on.
fn check_order(entries: &[Section<'_>], placed: &[Placed]) {
    for subject_here in Subject::ALL {
        let (mut previous, mut going_on) = (None::<&Placed>, None::<&Placed>);
        for event in placed {
            let (subject, effect) = subject(&event.dated.event);
            if subject == subject_here {
                let conflict = conflict(entries, event, effect, previous, going_on);
                if let Some((section, (found, expected))) = entries.get(event.entry).zip(conflict) {
                    section.report_contradiction("at", found, expected);
                }
                previous = Some(event);
                match effect {
                    Effect::Begins => going_on = Some(event),
                    Effect::Ends => going_on = None,
                    Effect::Changes | Effect::Happens => {}
                }
            }
        }
    }
}

/// What an event conflicts with among those before it on the same thing.
fn conflict(
    entries: &[Section<'_>],
    event: &Placed,
    effect: Effect,
    previous: Option<&Placed>,
    going_on: Option<&Placed>,
) -> Option<(String, &'static str)> {
    let line = |of: &Placed| {
        entries
            .get(of.entry)
            .map_or(0, |section| section.line_of("at"))
    };
    if let Some(other) = previous.filter(|p| p.dated.day.total_cmp(&event.dated.day).is_eq()) {
        let line = line(other);
        let found = format!("two events on the same thing at one time, the other on line {line}");
        return Some((found, "different times, or one of the two"));
    }
    match (effect, going_on) {
        // A weaker flow may become weaker still.
        (Effect::Begins, Some(begun)) if begun.dated.event != event.dated.event => None,
        (Effect::Begins, Some(begun)) => {
            let found = format!(
                "what already goes on since the event on line {}",
                line(begun)
            );
            Some((found, "an end of it before it begins again"))
        }
        (Effect::Changes, Some(begun)) => {
            let found = format!(
                "a change of what the event on line {} has stopped",
                line(begun)
            );
            Some((found, "an end of it before the change"))
        }
        (Effect::Ends, None) => {
            let found = "the end of what has not begun".to_owned();
            Some((found, "a beginning before it"))
        }
        _ => None,
    }
}
