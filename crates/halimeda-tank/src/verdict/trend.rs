//! What the readings alone say: whether a nutrient falls, and since when it does
//! otherwise than before.

use serde::Serialize;
use statrs::distribution::{ContinuousCDF as _, Normal};

use crate::log::{Measured, Record};
use crate::logged::LoggedTank;
use crate::tank::Event;

/// What the readings of one nutrient say.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NutrientTrend {
    /// What was measured.
    pub measured: Measured,
    /// Readings it rests on.
    pub readings: usize,
    /// Day from which the last stretch counts, d since the start.
    pub from_day: f64,
    /// Slope over it, water changes taken out, mg/L per day.
    pub slope_mg_per_l_per_day: f64,
    /// Its standard error.
    pub standard_error: f64,
    /// Probability that it falls.
    pub falling: f64,
    /// A bend in the course, if one is more likely than none.
    pub bend: Option<Bend>,
}

/// A bend in the course of a nutrient.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Bend {
    /// Probability that there is one, against a straight line, even odds beforehand.
    pub probability: f64,
    /// The most likely day, d since the start.
    pub day: f64,
    /// Days between which it lies with nine tenths of probability.
    pub range: [f64; 2],
    /// Slope before, mg/L per day.
    pub before_mg_per_l_per_day: f64,
    /// Slope after, mg/L per day.
    pub after_mg_per_l_per_day: f64,
}

/// Readings that a slope is told from, at least.
const LEAST_READINGS: usize = 4;

/// Readings on either side of a bend, at least.
const LEAST_BESIDE: usize = 3;

/// Longest stretch that "now" is told from, d.
const NOW_DAYS: f64 = 28.0;

/// A reading: day, value, standard uncertainty.
#[derive(Debug, Clone, Copy)]
struct Point {
    day: f64,
    value: f64,
    sd: f64,
}

/// What the readings of a nutrient say up to today; none if they are too few.
///
/// Each logged water change is taken out: from then on readings are raised by what it
/// took away of the last reading before, as if the new water held none. Lines are laid
/// by least squares weighted by the tests' uncertainties; a bend is weighed against a
/// straight line by the Bayesian information criterion, the scatter taken as unknown
/// (Kass & Raftery 1995, J. Am. Stat. Assoc. 90, 773-795, doi
/// 10.1080/01621459.1995.10476572, eq. 9), every day between the third reading and the
/// third last being as likely.
pub(super) fn trend(tank: &LoggedTank<'_>, measured: Measured) -> Option<NutrientTrend> {
    let points = without_water_changes(tank, measured);
    if points.len() < LEAST_READINGS {
        return None;
    }
    let bend = bend(&points);
    let last = points.last()?.day;
    let from = bend
        .map_or(f64::NEG_INFINITY, |b| b.day)
        .max(last - NOW_DAYS);
    let mut recent: Vec<Point> = points.iter().filter(|p| p.day >= from).copied().collect();
    if recent.len() < LEAST_READINGS {
        recent = points
            .iter()
            .rev()
            .take(LEAST_READINGS)
            .rev()
            .copied()
            .collect();
    }
    let line = Line::through(&recent)?;
    let normal = Normal::standard();
    Some(NutrientTrend {
        measured,
        readings: points.len(),
        from_day: recent.first()?.day,
        slope_mg_per_l_per_day: line.slope,
        standard_error: line.standard_error,
        falling: normal.cdf(-line.slope / line.standard_error),
        bend,
    })
}

fn without_water_changes(tank: &LoggedTank<'_>, measured: Measured) -> Vec<Point> {
    let mut points: Vec<Point> = tank
        .log
        .readings
        .iter()
        .filter(|r| r.measured == measured && r.day <= tank.today)
        .map(|r| Point {
            day: r.day,
            value: r.interval.middle(),
            sd: r.interval.standard_deviation(),
        })
        .collect();
    points.sort_by(|a, b| a.day.total_cmp(&b.day));
    let raw = points.clone();
    for entry in tank.log.entries.iter().filter(|e| e.day <= tank.today) {
        let share = match entry.record {
            Record::WaterChange { litres } => litres / tank.setup.tank.net_volume_l,
            Record::Event(Event::WaterChange { share, .. }) => share,
            _ => continue,
        };
        let before = raw.iter().rev().find(|p| p.day <= entry.day);
        let taken = share.clamp(0.0, 1.0) * before.map_or(0.0, |p| p.value);
        for point in points.iter_mut().filter(|p| p.day > entry.day) {
            point.value += taken;
        }
    }
    points
}

/// A straight line through points.
struct Line {
    slope: f64,
    standard_error: f64,
}

impl Line {
    fn through(points: &[Point]) -> Option<Self> {
        let weight = |p: &Point| p.sd.powi(-2);
        let sum = |f: &dyn Fn(&Point) -> f64| points.iter().map(|p| weight(p) * f(p)).sum::<f64>();
        let all = sum(&|_| 1.0);
        let (day, value) = (sum(&|p| p.day) / all, sum(&|p| p.value) / all);
        let spread = sum(&|p| (p.day - day).powi(2));
        let slope = sum(&|p| (p.day - day) * (p.value - value)) / spread;
        let squares = sum(&|p| (p.value - value - slope * (p.day - day)).powi(2));
        // Scatter beyond the tests' own widens the error, less of it does not narrow it.
        let scatter = (squares / (points.len() as f64 - 2.0).max(1.0)).max(1.0);
        let standard_error = (scatter / spread).sqrt();
        (slope.is_finite() && standard_error > 0.0).then_some(Self {
            slope,
            standard_error,
        })
    }
}

/// Weighted squares left by a line that bends on a day, its slopes before and after.
fn bent(points: &[Point], day: f64) -> Option<(f64, [f64; 2])> {
    // Columns 1, t, max(t, 0) by the normal equations.
    let row = |p: &Point| {
        let t = p.day - day;
        [1.0, t, t.max(0.0)]
    };
    let mut matrix = [[0.0; 4]; 3];
    for p in points {
        let (x, w) = (row(p), p.sd.powi(-2));
        for (line, &xi) in matrix.iter_mut().zip(&x) {
            for (cell, factor) in line.iter_mut().zip(x.iter().chain([&p.value])) {
                *cell += w * xi * factor;
            }
        }
    }
    let [a, before, change] = solved(matrix)?;
    let left = points
        .iter()
        .map(|p| {
            let [_, t, after] = row(p);
            ((p.value - a - before * t - change * after) / p.sd).powi(2)
        })
        .sum();
    Some((left, [before, before + change]))
}

/// Solution of three equations, the last column the right-hand side, by Gauss's
/// elimination; their matrix is positive definite.
fn solved(mut m: [[f64; 4]; 3]) -> Option<[f64; 3]> {
    for pivot in 0..3 {
        let line = *m.get(pivot)?;
        let head = *line.get(pivot)?;
        if head.abs() < 1e-12 {
            return None;
        }
        for (i, other) in m.iter_mut().enumerate() {
            if i != pivot {
                let factor = other.get(pivot)? / head;
                for (x, y) in other.iter_mut().zip(line) {
                    *x -= factor * y;
                }
            }
        }
    }
    let [[a, .., x], [_, b, _, y], [.., c, z]] = m;
    Some([x / a, y / b, z / c])
}

fn bend(points: &[Point]) -> Option<Bend> {
    let inner = points.get(LEAST_BESIDE - 1..points.len().checked_sub(LEAST_BESIDE - 1)?)?;
    let (first, last) = (inner.first()?.day, inner.last()?.day);
    if last <= first {
        return None;
    }
    let n = points.len() as f64;
    let straight = {
        let mean_weight: f64 = points.iter().map(|p| p.sd.powi(-2)).sum();
        let of = |f: &dyn Fn(&Point) -> f64| {
            points.iter().map(|p| p.sd.powi(-2) * f(p)).sum::<f64>() / mean_weight
        };
        let (day, value) = (of(&|p| p.day), of(&|p| p.value));
        let slope = of(&|p| (p.day - day) * (p.value - value)) / of(&|p| (p.day - day).powi(2));
        mean_weight * of(&|p| (p.value - value - slope * (p.day - day)).powi(2))
    };
    // No line may fit better than the tests can tell.
    let evidence = |squares: f64, terms: f64| -0.5 * (n * squares.max(n).ln() + terms * n.ln());
    let steps = ((last - first).ceil() as u32).max(1);
    let bends: Vec<(f64, f64, [f64; 2])> = (0..=steps)
        .filter_map(|i| {
            let day = first + (last - first) * f64::from(i) / f64::from(steps);
            let (squares, slopes) = bent(points, day)?;
            // Two terms more: the slope after and the day.
            Some((
                day,
                evidence(squares, 4.0) - evidence(straight, 2.0),
                slopes,
            ))
        })
        .collect();
    let most = bends
        .iter()
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .filter(|b| b.1.is_finite())?;
    let weights: Vec<f64> = bends.iter().map(|b| (b.1 - most.1).exp()).collect();
    let sum: f64 = weights.iter().sum();
    let odds = sum / bends.len() as f64 * most.1.exp();
    let probability = if odds.is_finite() {
        odds / (1.0 + odds)
    } else {
        1.0
    };
    let quantile = |share: f64| {
        let mut below = 0.0;
        bends
            .iter()
            .zip(&weights)
            .find(|(_, w)| {
                below += *w / sum;
                below >= share
            })
            .map_or(last, |(b, _)| b.0)
    };
    (probability > 0.5).then(|| Bend {
        probability,
        day: most.0,
        range: [quantile(0.05), quantile(0.95)],
        before_mg_per_l_per_day: most.2[0],
        after_mg_per_l_per_day: most.2[1],
    })
}
