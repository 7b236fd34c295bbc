//! Why turf would not grow.

use serde::{Deserialize, Serialize};

use super::cause::{Cause, Suspect};
use crate::fit::Member;
use crate::log::{Log, Measured};
use crate::parameters::Parameters;
use crate::quantiles::{quantile, sorted};
use crate::simulate::{Run, Sample};

/// What can keep turf from growing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Stall {
    /// Too little nitrogen.
    NoNitrogen,
    /// Too little phosphorus.
    NoPhosphorus,
    /// Too little light.
    NoLight,
    /// Too little water over the screen.
    NoFlow,
    /// Too cold.
    TooCold,
    /// The mat has grown over its own base.
    Overgrown,
    /// Hardly any turf yet.
    Bare,
}

/// How likely one of them is.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StallLikelihood {
    /// What keeps it from growing.
    pub stall: Stall,
    /// Probability that it does, over the members and the causes held against the log.
    /// More than one can be true.
    pub probability: f64,
    /// What would tell it from the others.
    pub test: &'static str,
}

impl Stall {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::NoNitrogen,
        Self::NoPhosphorus,
        Self::NoLight,
        Self::NoFlow,
        Self::TooCold,
        Self::Overgrown,
        Self::Bare,
    ];

    /// It in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::NoNitrogen => "too little nitrogen",
            Self::NoPhosphorus => "too little phosphorus",
            Self::NoLight => "too little light",
            Self::NoFlow => "too little flow over the screen",
            Self::TooCold => "too cold",
            Self::Overgrown => "a mat that shades its own base",
            Self::Bare => "a screen still nearly bare",
        }
    }

    /// The test that would tell it from the others.
    #[must_use]
    pub const fn test(self) -> &'static str {
        match self {
            Self::NoNitrogen => "test nitrate with a kit that resolves 0.5 mg/L, and ammonia",
            Self::NoPhosphorus => "test phosphate with a kit that resolves 0.01 mg/L",
            Self::NoLight => {
                "look whether every lamp burns for its hours; measure irradiance at the screen, or compare pH before and after its light"
            }
            Self::NoFlow => "catch the water below the screen for ten seconds and measure it",
            Self::TooCold => "measure the temperature of the water at the screen",
            Self::Overgrown => {
                "lift the mat: pale or soft holdfasts mean that it starves at its base"
            }
            Self::Bare => "look again in two weeks: a new screen takes its time",
        }
    }
}

/// Growth relative to what the factor would allow at its best, below which it counts
/// as keeping turf from growing (chosen).
const LOW: f64 = 0.33;

/// Reserve of the holdfast layer below which a mat counts as overgrown (chosen: a
/// quarter).
const SPENT: f64 = 0.25;

/// Cover below which a screen counts as nearly bare (chosen).
const HARDLY_COVERED: f64 = 0.3;

/// Every stall by its probability, most likely first.
pub(super) fn stalls(
    members: &[(&Member, &Run)],
    causes: &[Cause],
    log: &Log,
    described_celsius: f64,
    today: f64,
) -> Vec<StallLikelihood> {
    let celsius = measured_celsius(log, today).unwrap_or(described_celsius);
    let share = |holds: &dyn Fn(&Member, &Sample) -> bool| {
        let all = members
            .iter()
            .filter_map(|(m, run)| Some((*m, run.samples.last()?)));
        all.filter(|(m, s)| holds(m, s)).count() as f64 / members.len().max(1) as f64
    };
    let suspected = |suspect: Suspect| -> f64 {
        let of = causes.iter().filter(|c| c.suspect == suspect);
        of.map(|c| c.probability).sum()
    };
    let mut stalls: Vec<StallLikelihood> = Stall::ALL
        .into_iter()
        .map(|stall| {
            let probability = match stall {
                Stall::NoNitrogen => share(&|m, s| quotas(&m.parameters, s)[0] < LOW),
                Stall::NoPhosphorus => share(&|m, s| quotas(&m.parameters, s)[1] < LOW),
                Stall::NoLight => suspected(Suspect::LampFailed).max(share(&|m, _| is_dim(m))),
                Stall::NoFlow => suspected(Suspect::FlowDropped),
                Stall::TooCold => {
                    share(&|m, _| m.parameters.turf.temperature_response(celsius) < LOW)
                }
                Stall::Overgrown => share(&|_, s| s.turf_reserve < SPENT),
                Stall::Bare => share(&|_, s| s.turf_cover < HARDLY_COVERED),
            };
            StallLikelihood {
                stall,
                probability,
                test: stall.test(),
            }
        })
        .collect();
    stalls.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    stalls
}

/// Growth that stored nitrogen and stored phosphorus allow, of that of replete tissue
/// (Droop).
pub(super) fn quotas(parameters: &Parameters, sample: &Sample) -> [f64; 2] {
    let t = &parameters.turf;
    let growth =
        |q: f64, least: f64, most: f64| (1.0 - least / q.clamp(least, most)) / (1.0 - least / most);
    [
        growth(
            sample.turf_nitrogen_per_carbon,
            t.least_nitrogen_per_carbon,
            t.most_nitrogen_per_carbon,
        ),
        growth(
            sample.turf_phosphorus_per_carbon,
            t.least_phosphorus_per_carbon,
            t.most_phosphorus_per_carbon,
        ),
    ]
}

/// Whether the described light lies below what a third of the best growth needs: by
/// Smith's curve u/√(1 + u²) at the top of the mat.
fn is_dim(member: &Member) -> bool {
    let screen = &member.setup.tank.screen;
    let hours = member.setup.schedule.screen_light.hours;
    let u = screen.irradiance_umol_per_m2_s * member.parameters.lamp.photon_worth
        / member.parameters.turf.saturation_irradiance_umol_per_m2_s;
    // Light for half a day at saturation is what turf grows well on.
    u / (1.0 + u * u).sqrt() * (hours / 12.0).min(1.0) < LOW
}

/// Median temperature of the last week, by probe or thermometer.
fn measured_celsius(log: &Log, today: f64) -> Option<f64> {
    let week = today - 7.0..=today;
    let probed = log
        .probes
        .iter()
        .filter(|p| p.measured == Measured::Temperature)
        .flat_map(|p| p.days.iter().zip(&p.values))
        .filter(|(day, _)| week.contains(day))
        .map(|(_, &value)| value);
    let read = log
        .readings
        .iter()
        .filter(|r| r.measured == Measured::Temperature && week.contains(&r.day))
        .map(|r| r.interval.middle());
    quantile(&sorted(probed.chain(read)), 0.5)
}
