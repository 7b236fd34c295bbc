//! A fit in words: what is missing, how good it is, what to know about it.

use serde::{Deserialize, Serialize};

use super::Fitted;
use super::draws::Draws;
use super::evidence::{Evidence, Source};
use super::posterior::Point;
use crate::log::Measured;
use crate::quantiles::Quantiles;

/// How well the members agree with the log.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct FitQuality {
    /// Readings, weights and summaries of probes that were held against the tanks.
    pub readings: usize,
    /// Share of them within the 5 to 95 % that the members lead one to expect; 0.9
    /// or more if the ranges are honest, for a kit's steps are counted as met where
    /// any part of them is.
    pub within_range: f64,
    /// How far the model is off beside the errors of the tests, in units of about 10 %
    /// of nitrate and phosphate, 30 % of ammonia, 1.5 % of alkalinity, 1.2 % of calcium
    /// and magnesium, 0.03 of pH and 15 % of a harvest's weight. Less than one is expected.
    pub discrepancy: Quantiles,
    /// What that means.
    pub words: String,
}

/// Units of discrepancy beyond which the log and the model disagree.
const DISAGREE: f64 = 2.5;

impl FitQuality {
    pub(super) fn of(evidence: &Evidence, members: &[Point]) -> Self {
        let as_expected = |(place, datum): &(usize, &super::evidence::Datum)| {
            let runs: Vec<(f64, f64)> = members
                .iter()
                .filter_map(|m| Some((m.expected.get(*place).copied()?, m.discrepancy())))
                .collect();
            datum.is_expected_by(&runs)
        };
        let readings = evidence.data.len();
        let all = evidence.data.iter().enumerate();
        let expected = all.filter(as_expected).count();
        let within_range = expected as f64 / readings as f64;
        let nothing = Quantiles {
            p5: f64::NAN,
            p25: f64::NAN,
            p50: f64::NAN,
            p75: f64::NAN,
            p95: f64::NAN,
        };
        let discrepancy = Quantiles::of(members.iter().map(Point::discrepancy)).unwrap_or(nothing);
        let words = if discrepancy.p50 > DISAGREE || within_range < 0.6 {
            "poor: no tank within the ranges shows what the log says. Readings contradict one \
             another, or something happened that the log does not mention; look at kits, units \
             and dates before trusting any of this"
        } else if discrepancy.p50 > 0.6 * DISAGREE || within_range < 0.8 {
            "fair: the tanks follow the log in its outline but miss parts of it"
        } else {
            "good: the tanks show what the log says within the errors of the tests"
        };
        Self {
            readings,
            within_range,
            discrepancy,
            words: words.to_owned(),
        }
    }
}

const TESTS: [(Measured, &str); 4] = [
    (Measured::Nitrate, "nitrate"),
    (Measured::Phosphate, "phosphate"),
    (Measured::Alkalinity, "alkalinity"),
    (Measured::Calcium, "calcium"),
];

/// Days that tests must lie apart to tell of what happens between them.
const APART: f64 = 0.5;

/// What the log would need to tell more.
pub(super) fn missing(evidence: &Evidence) -> Vec<String> {
    let mut missing = Vec::new();
    for (measured, name) in TESTS {
        let days = evidence.days(Source::Test(measured));
        if days.is_empty() {
            missing.push(format!("no {name} test; take one a week"));
        } else if !lie_apart(&days) {
            missing.push(format!("no {name} test after the first; take one a week"));
        }
    }
    if evidence.days(Source::HarvestWeight).is_empty() {
        missing.push("no weight of a harvest; weigh what comes off the screen".to_owned());
    }
    missing
}

fn lie_apart(days: &[f64]) -> bool {
    let first = days.iter().copied().fold(f64::INFINITY, f64::min);
    days.iter().any(|day| day - first > APART)
}

/// Whether anything in the log tells of what goes on in the tank.
pub(super) fn is_informative(evidence: &Evidence) -> bool {
    let tests = Measured::ALL
        .iter()
        .any(|&measured| lie_apart(&evidence.days(Source::Test(measured))));
    let others = evidence
        .data
        .iter()
        .any(|d| !matches!(d.source, Source::Test(_)));
    tests || others
}

/// What to know about a fit.
pub(super) fn notes(evidence: &Evidence, fitted: &[Fitted], draws: &Draws) -> Vec<String> {
    let mut notes = Vec::new();
    if evidence.left_out > 0 {
        let count = evidence.left_out;
        notes.push(format!(
            "{count} probe values that are no numbers were left out"
        ));
    }
    for known in fitted.iter().filter(|f| f.informed) {
        let (after, before) = (&known.posterior, &known.prior);
        if after.p50 < before.p5 || after.p50 > before.p95 {
            notes.push(format!(
                "the log draws {} to the end of its range: the range may be too narrow, or \
                 something else stands behind it",
                known.path
            ));
        }
    }
    if draws.accepted < 0.05 || draws.effective() < 0.5 * draws.last.len() as f64 {
        notes.push(
            "the draws moved little: take the ranges as rough, or fit with more chain steps"
                .to_owned(),
        );
    }
    notes
}
