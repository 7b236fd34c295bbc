//! What a test showed, as the interval that its value lies in.

use super::Interval;
use super::cell::{Cell, Shown};
use super::column::{Precision, Uncertainty};
use super::kit::kit;
use super::problem::{Finding, LogProblemKind};
use super::scale::{Scale, limits_shown};

pub(super) fn beyond(scale: &Scale, found: String, unit: &str) -> Finding {
    let expected = format!("expected {}", limits_shown(scale, unit));
    Finding::new(LogProblemKind::OutOfRange, found, expected.trim_end())
}

/// What a cell says, as an interval, and whether it has no upper end of its own.
pub(super) fn interval(
    scale: &Scale,
    precision: &Precision,
    cell: &Cell,
    found: &str,
    unit: &str,
) -> Result<(Interval, bool), Finding> {
    let out = || beyond(scale, found.to_owned(), unit);
    let turn = |number: f64| scale.value(number).filter(|v| v.is_finite());
    let (limit_low, limit_high) = scale.limits;
    let (low, high, at) = match cell.shown {
        Shown::Value(number, _) => {
            let half = 0.5 * precision.step.unwrap_or(number.step);
            let at = turn(number.value).ok_or_else(out)?;
            let half = scale.difference(number.value, half).unwrap_or(0.0).abs();
            (at - half, at + half, number.value)
        }
        Shown::Below(limit) => (limit_low, turn(limit).ok_or_else(out)?, limit),
        Shown::Above(limit) => (turn(limit).ok_or_else(out)?, limit_high, limit),
        Shown::Between(low, high) => (
            turn(low).ok_or_else(out)?,
            turn(high).ok_or_else(out)?,
            0.5 * (low + high),
        ),
    };
    let value = match cell.shown {
        // A step as coarse as the value does not make the value another one.
        Shown::Value(number, _) => turn(number.value).ok_or_else(out)?,
        Shown::Below(_) => high,
        Shown::Above(_) => low,
        Shown::Between(..) => 0.5 * (low + high),
    };
    if !scale.is_within(value) {
        return Err(out());
    }
    let half_width = match cell.shown {
        // A stated half-width without a confidence: JCGM 100:2008, 4.3.7.
        Shown::Value(_, half) => half.map(|half| half / 3f64.sqrt()),
        _ => None,
    };
    let stated = match (
        cell.standard_uncertainty.or(half_width),
        precision.standard_uncertainty,
    ) {
        (Some(own), _) => scale.difference(at, own),
        (None, Some(Uncertainty::Absolute(u))) => scale.difference(at, u),
        (None, Some(Uncertainty::Relative(share))) => Some(share * value),
        (None, None) => None,
    };
    let uncertainty = stated.unwrap_or_else(|| kit(scale.measured).standard_uncertainty(value));
    let low = low.max(0.0);
    let interval = Interval::new(low, high.max(low), uncertainty).map_err(|error| {
        let expected = format!("expected what a test can show: {error}");
        Finding::new(LogProblemKind::OutOfRange, found, expected)
    })?;
    Ok((interval, matches!(cell.shown, Shown::Above(_))))
}
