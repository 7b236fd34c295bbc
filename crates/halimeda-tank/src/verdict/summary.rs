//! A verdict in words.

use super::{Cause, Causes, LoggedCause, Removal, Verdict};
use crate::log::{Log, Measured, Record};
use crate::logged::LoggedTank;
use crate::plan::Goals;
use crate::plan::words::{capitalised, number, percent, range};
use crate::quantiles::Quantiles;
use crate::tank::Event;

/// Readings of nitrate or phosphate that a verdict takes, and the days they must span.
const LEAST_READINGS: usize = 2;
const LEAST_SPAN_DAYS: f64 = 3.0;

/// Readings from which on a trend is told.
const ENOUGH_READINGS: usize = 4;

fn span(log: &Log, measured: Measured, until: f64) -> (usize, f64) {
    let days = || {
        log.readings
            .iter()
            .filter(|r| r.measured == measured && r.day <= until)
            .map(|r| r.day)
    };
    let first = days().fold(f64::INFINITY, f64::min);
    let last = days().fold(f64::NEG_INFINITY, f64::max);
    (days().count(), last - first)
}

/// Whether the log tells anything of nutrients over time.
pub(super) fn is_enough(tank: &LoggedTank<'_>) -> bool {
    [Measured::Nitrate, Measured::Phosphate]
        .into_iter()
        .any(|measured| {
            let (count, days) = span(tank.log, measured, tank.today);
            count >= LEAST_READINGS && days >= LEAST_SPAN_DAYS
        })
}

/// What the log would need to tell more.
pub(super) fn missing(tank: &LoggedTank<'_>) -> Vec<String> {
    let mut missing = Vec::new();
    for measured in [Measured::Nitrate, Measured::Phosphate, Measured::Alkalinity] {
        let (count, _) = span(tank.log, measured, tank.today);
        if count == 0 {
            missing.push(format!("No test of {}: test it weekly.", measured.words()));
        } else if count < ENOUGH_READINGS {
            missing.push(format!(
                "Only {count} of the tests of {} that a trend needs: test it weekly for a month.",
                measured.words()
            ));
        }
    }
    if tank.harvests().next().is_none() {
        missing.push(
            "No harvest is written down: note the day of each, and its weight after draining it \
             the same way every time."
                .to_owned(),
        );
    } else if !tank
        .log
        .entries
        .iter()
        .any(|e| matches!(e.record, Record::Harvest { weight: Some(_) }))
    {
        missing.push("No harvest was weighed: drain and weigh the next one.".to_owned());
    }
    missing
}

pub(super) fn not_enough(missing: &[String]) -> Vec<String> {
    let mut summary = vec![
        "The log does not tell whether the screen works: it needs at least two tests of nitrate \
         or phosphate some days apart."
            .to_owned(),
    ];
    summary.extend(missing.iter().cloned());
    summary
}

pub(super) fn cautions() -> Vec<String> {
    [
        "Never chase zero: corals need some nitrate and phosphate, and turf lives on them. Stay \
         within the bands, and change one thing at a time.",
        "Watch the animals before the numbers. If they gasp, close up, pale or die, act on that \
         first: oxygen, temperature, ammonia, a partial water change; and ask a veterinarian or \
         an experienced keeper.",
        "These are probabilities from a model and test kits. Repeat a surprising test, with \
         another kit if you can, before acting on it.",
    ]
    .map(str::to_owned)
    .to_vec()
}

/// What is the case with a probability, or is not, as people say it.
fn told(probability: f64, yes: &str, no: &str) -> String {
    let (adverb, verb, probability) = match probability {
        p if p >= 0.95 => ("almost surely", yes, p),
        p if p >= 0.8 => ("very likely", yes, p),
        p if p >= 0.6 => ("likely", yes, p),
        p if p > 0.4 => ("as likely as not", yes, p),
        p if p > 0.2 => ("probably", no, 1.0 - p),
        p if p > 0.05 => ("very likely", no, 1.0 - p),
        p => ("almost surely", no, 1.0 - p),
    };
    format!("{adverb} {verb} ({})", chance(probability))
}

/// A harvest so many standard deviations from what was expected is worth a word.
const REMARKABLE: f64 = 1.645;

/// Stalls from this probability on are worth a word.
const WORTH_SAYING: f64 = 0.3;

fn removal_words(removal: &Removal) -> [String; 2] {
    let pace = |probability| told(probability, "keeps pace", "does not keep pace");
    let mut text = format!(
        "Over the last {} days the screen took out {} of the nitrogen that came in, {} a day. It \
         {}; the chance that it takes out more than comes in is {}",
        number(removal.window_days),
        percents(&removal.nitrogen_per_load),
        range(&removal.nitrogen_mmol_per_day, "mmol"),
        pace(removal.nitrogen_keeps_pace),
        chance(removal.nitrogen_exceeds_load),
    );
    if let Some(since) = removal.since_day {
        text += &format!(
            ". Nitrogen in the water has been falling since about day {}",
            number(since.p50.round())
        );
    }
    let phosphorus = format!(
        "Of the phosphorus it took out {}: it {}.",
        percents(&removal.phosphorus_per_load),
        pace(removal.phosphorus_keeps_pace)
    );
    [text + ".", phosphorus]
}

fn causes_words(causes: &Causes) -> String {
    let about = |cause: &Cause| {
        format!(
            "{}, about day {} (between day {} and {})",
            cause.suspect.words(),
            number(cause.day.round()),
            number(cause.range[0].round()),
            number(cause.range[1].round()),
        )
    };
    if let Some(cause) = causes.named() {
        return format!(
            "Most likely {}, though the log does not say so: {}. Go and look; if it is so, write \
             it into the log and fit again, for what else is said here takes the log at its word.",
            about(cause),
            chance(cause.probability),
        );
    }
    let nothing = format!(
        "Since day {} nothing that the log does not mention need have happened ({})",
        number(causes.from_day.round()),
        chance(causes.nothing)
    );
    match causes.worth_a_look() {
        Some(cause) => format!(
            "{nothing}; worth a look is whether {} ({}).",
            about(cause),
            chance(cause.probability)
        ),
        None => nothing + ".",
    }
}

/// A logged change is said to show, or not to, from this probability on.
const SHOWS: f64 = 0.8;

fn logged_words(logged: &LoggedCause) -> Option<String> {
    let day = number(logged.day.floor());
    let what = event_words(&logged.event)?;
    match logged.shows {
        p if p >= SHOWS => Some(format!(
            "The readings show that {what} on day {day}, as written down ({}).",
            chance(p)
        )),
        p if p <= 1.0 - SHOWS => Some(format!(
            "The readings do not go with it that {what} on day {day}, as written down ({}): look \
             whether it was so.",
            chance(p)
        )),
        _ => None,
    }
}

fn event_words(event: &Event) -> Option<String> {
    Some(match event {
        Event::ScreenLampFails => "the screen's lamps failed".to_owned(),
        Event::ScreenFlowDrops { .. } => "the flow over the screen dropped".to_owned(),
        Event::PumpStops => "the pump stopped".to_owned(),
        Event::FeedingStops => "feeding stopped".to_owned(),
        Event::FeedingScaled { factor } => {
            format!("feeding went to {} of the plan's", percent(*factor))
        }
        Event::HarvestsStop => "harvests stopped".to_owned(),
        Event::KeeperLeaves => "the keeper left".to_owned(),
        Event::NewScreen => "the screen was replaced".to_owned(),
        Event::NewScreenLamp => "the lamps were replaced".to_owned(),
        Event::NewIronOxide { .. } => "the iron-oxide medium was replaced".to_owned(),
        Event::RoomCo2 { .. } => "the CO2 of the room changed".to_owned(),
        _ => return None,
    })
}

/// A change, with its sign.
fn signed(x: f64) -> String {
    let sign = if x > 0.0 { "+" } else { "" };
    format!("{sign}{}", number(x))
}

/// A range of shares.
fn percents(q: &Quantiles) -> String {
    format!(
        "{} ({} to {})",
        percent(q.p50),
        percent(q.p5),
        percent(q.p95)
    )
}

/// A probability, which is never nought or one for all that is known.
fn chance(probability: f64) -> String {
    match probability {
        p if p > 0.99 => "over 99 %".to_owned(),
        p if p < 0.01 => "under 1 %".to_owned(),
        p => percent(p),
    }
}

pub(super) fn words(verdict: &Verdict, goals: &Goals) -> Vec<String> {
    let mut summary = Vec::new();
    if let Some(removal) = &verdict.removal {
        summary.extend(removal_words(removal));
    }
    for trend in &verdict.trends {
        summary.push(format!(
            "By its tests alone, water changes taken out, {} {}: since day {} it changes by {} ± \
             {} mg/L a week.",
            trend.measured.words(),
            told(trend.falling, "is falling", "is not falling"),
            number(trend.from_day.round()),
            signed(7.0 * trend.slope_mg_per_l_per_day),
            number(7.0 * trend.standard_error),
        ));
        if let Some(bend) = &trend.bend {
            summary.push(format!(
                "The course of {} bends about day {} (between day {} and {}; {}).",
                trend.measured.words(),
                number(bend.day.round()),
                number(bend.range[0].round()),
                number(bend.range[1].round()),
                chance(bend.probability)
            ));
        }
    }
    if let Some(causes) = &verdict.causes {
        summary.push(causes_words(causes));
        summary.extend(causes.logged.iter().filter_map(logged_words));
    }
    if let Some(balance) = &verdict.balance {
        let short = if balance.nitrogen_limits > 0.5 {
            ("nitrogen", balance.nitrogen_limits)
        } else {
            ("phosphorus", 1.0 - balance.nitrogen_limits)
        };
        summary.push(format!(
            "Of the two nutrients {} is the scarcer for the turf ({}); what it has stored allows \
             {} of the growth of turf that has plenty.",
            short.0,
            chance(short.1),
            percent(balance.growth_allowed)
        ));
    }
    if let Some(last) = verdict.harvests.last() {
        let beside = match last.z_score {
            z if z > REMARKABLE => "more than",
            z if z < -REMARKABLE => "less than",
            _ => "about what",
        };
        summary.push(format!(
            "The last weighed harvest, on day {}, was {beside} was expected, {}; {} of what was \
             likely lies below it.",
            number(last.day.floor()),
            range(&last.expected_grams, "g"),
            chance(last.share_below)
        ));
    }
    for stall in verdict
        .stalls
        .iter()
        .filter(|s| s.probability >= WORTH_SAYING)
    {
        summary.push(format!(
            "{} may hold the turf back ({}): {}.",
            capitalised(stall.stall.words()),
            chance(stall.probability),
            stall.test
        ));
    }
    summary.push(format!(
        "The goals are {} to {} mg/L of nitrate and {} to {} mg/L of phosphate: never aim for \
         zero.",
        number(goals.nitrate_mg_per_l.low),
        number(goals.nitrate_mg_per_l.high),
        number(goals.phosphate_mg_per_l.low),
        number(goals.phosphate_mg_per_l.high)
    ));
    summary.extend(verdict.missing.iter().cloned());
    summary
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The number beside a statement is how likely that statement is, not its contrary.
    #[test]
    fn what_is_likely_is_what_is_said() {
        let falls = |p| told(p, "falls", "does not fall");
        assert_eq!(falls(0.97), "almost surely falls (97 %)");
        assert_eq!(falls(0.45), "as likely as not falls (45 %)");
        assert_eq!(falls(0.1), "very likely does not fall (90 %)");
        assert_eq!(falls(0.0), "almost surely does not fall (over 99 %)");
        assert_eq!([signed(3.94), signed(-3.94)].concat(), "+3.94-3.94");
    }
}
