//! What a log says in numbers that a followed tank can be held against.

use std::collections::BTreeMap;
use std::f64::consts::TAU;

use super::likelihood::{LogLikelihood, interval};
use crate::error::{Result, within};
use crate::log::{HarvestWeight, Log, Measured, ProbeSeries, Record};
use crate::parameters::Parameters;
use crate::simulate::Run;
use crate::variable::Variable;

/// One number that the log gives.
#[derive(Debug, Clone)]
pub(crate) struct Datum {
    pub(super) source: Source,
    pub(crate) day: f64,
    low: f64,
    high: f64,
    /// Standard uncertainty of the test.
    sd: f64,
    /// What the model errs by in one unit of discrepancy.
    discrepancy_unit: f64,
    expected: Expected,
}

/// Where a datum comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(crate) enum Source {
    Test(Measured),
    Probe(Measured),
    HarvestWeight,
}

/// What of a run stands beside it.
#[derive(Debug, Clone)]
enum Expected {
    At(Variable),
    /// Logarithm of the drained mass of the harvest on that day.
    LogDrainedGrams,
    /// Logarithm of its dry mass.
    LogDryGrams,
    /// A weighted sum over times of the day, each in the mean over days.
    OfDays {
        variable: Variable,
        days: Vec<f64>,
        /// Time of the day, d, and weight.
        times: Vec<(f64, f64)>,
    },
}

/// Standard uncertainty of the logarithm of a wet harvest's weight: how well it is
/// drained, and how much of the turf comes off. Common practice, no source.
const WET_WEIGHT: f64 = 0.15;

/// The same of a dried harvest.
const DRY_WEIGHT: f64 = 0.1;

/// Harvests within so many days of a logged one are that one.
const SAME_HARVEST: f64 = 1e-6;

impl Datum {
    /// What a run gives in its place; none if the run does not reach it.
    pub(super) fn expected(&self, run: &Run, parameters: &Parameters) -> Option<f64> {
        let dry_grams = || {
            let mut harvests = run.harvests.iter();
            let harvest = harvests.find(|h| (h.day - self.day).abs() < SAME_HARVEST)?;
            // A bare screen gives next to nothing, not nothing at all.
            Some(harvest.harvest.dry_grams.max(1e-3))
        };
        match &self.expected {
            Expected::At(variable) => run.value_at(*variable, self.day),
            Expected::LogDryGrams => Some(dry_grams()?.ln()),
            Expected::LogDrainedGrams => {
                Some((dry_grams()? / parameters.turf.dry_per_drained_mass).ln())
            }
            Expected::OfDays {
                variable,
                days,
                times,
            } => {
                let mut sum = 0.0;
                for &(time, weight) in times {
                    let mut values = 0.0;
                    for day in days {
                        values += run.value_at(*variable, day + time)?;
                    }
                    sum += weight * values / days.len() as f64;
                }
                Some(sum)
            }
        }
    }

    /// The middle of what was read, and its variance as that of a normal number: the
    /// test's, the model's and that of the interval, taken as evenly likely throughout.
    pub(crate) fn as_normal(&self, discrepancy: f64) -> (f64, f64) {
        let low = if self.low.is_finite() { self.low } else { 0.0 };
        let width = self.high - low;
        let variance = self.sd(discrepancy).powi(2) + width * width / 12.0;
        (0.5 * (low + self.high), variance)
    }

    fn sd(&self, discrepancy: f64) -> f64 {
        self.sd.hypot(discrepancy * self.discrepancy_unit)
    }

    pub(super) fn log_likelihood(&self, expected: f64, discrepancy: f64) -> LogLikelihood {
        interval(self.low, self.high, self.sd(discrepancy), expected)
    }

    /// Curvature of the logarithm of the likelihood, in the mean over what lies within
    /// reach of the reading: within a wide interval the likelihood itself is flat.
    pub(super) fn weight(&self, expected: f64, discrepancy: f64) -> f64 {
        if self.low == f64::NEG_INFINITY {
            return self.log_likelihood(expected, discrepancy).curvature;
        }
        let width = self.high - self.low;
        1.0 / (self.sd(discrepancy).powi(2) + width * width / 12.0)
    }

    /// Whether what was read lies within the 5 to 95 % that runs, each with its
    /// discrepancy, lead one to expect.
    pub(super) fn is_expected_by(&self, runs: &[(f64, f64)]) -> bool {
        let below = |end: f64| {
            let below = |&(expected, discrepancy): &(f64, f64)| {
                interval(f64::NEG_INFINITY, end, self.sd(discrepancy), expected)
                    .value
                    .exp()
            };
            runs.iter().map(below).sum::<f64>() / runs.len() as f64
        };
        below(self.high) >= 0.05 && (self.low == f64::NEG_INFINITY || below(self.low) <= 0.95)
    }
}

/// What the model errs by in one unit of discrepancy: a constant part and one in
/// proportion to what was read. A choice, no source; how many units there are is
/// fitted.
const fn discrepancy_unit(measured: Measured) -> Option<(f64, f64)> {
    Some(match measured {
        Measured::Nitrate => (0.2, 0.1),
        Measured::Phosphate => (0.01, 0.1),
        Measured::Ammonia => (0.015, 0.3),
        Measured::Alkalinity => (0.0, 0.015),
        Measured::Calcium | Measured::Magnesium => (0.0, 0.012),
        Measured::Ph => (0.03, 0.0),
        Measured::OxygenSaturation => (0.02, 0.0),
        // What the model is given, not what it finds.
        Measured::Salinity | Measured::Temperature => return None,
    })
}

/// Everything in the log that tells of the parameters.
pub(crate) struct Evidence {
    pub(crate) data: Vec<Datum>,
    /// Values of probes that are no numbers.
    pub(super) left_out: usize,
}

impl Evidence {
    pub(crate) fn of(log: &Log) -> Result<Self> {
        let mut data = Vec::new();
        for reading in &log.readings {
            let day = within("day of a reading", reading.day, 0.0, 36_525.0)?;
            let (Some(variable), Some((constant, share))) = (
                reading.measured.variable(),
                discrepancy_unit(reading.measured),
            ) else {
                continue;
            };
            let shown = reading.interval;
            data.push(Datum {
                source: Source::Test(reading.measured),
                day,
                // No test shows less than nothing, whatever its error.
                low: if shown.low() > 0.0 {
                    shown.low()
                } else {
                    f64::NEG_INFINITY
                },
                high: shown.high(),
                sd: shown.standard_uncertainty(),
                discrepancy_unit: constant.hypot(share * shown.middle()),
                expected: Expected::At(variable),
            });
        }
        for entry in &log.entries {
            let Record::Harvest {
                weight: Some(weight),
            } = entry.record
            else {
                continue;
            };
            let (grams, sd, expected) = match weight {
                HarvestWeight::WetGrams(grams) => (grams, WET_WEIGHT, Expected::LogDrainedGrams),
                HarvestWeight::DryGrams(grams) => (grams, DRY_WEIGHT, Expected::LogDryGrams),
            };
            let log = within("weight of a harvest", grams, 1e-3, 1e9)?.ln();
            data.push(Datum {
                source: Source::HarvestWeight,
                day: entry.day,
                low: log,
                high: log,
                sd,
                discrepancy_unit: 0.15,
                expected,
            });
        }
        let mut left_out = 0;
        for series in &log.probes {
            left_out += series.values.iter().filter(|v| !v.is_finite()).count();
            if let Some(summary) = Summary::of(series) {
                data.extend(summary.data(series.measured));
            }
        }
        Ok(Self { data, left_out })
    }

    /// What a run gives beside every datum; none if it does not reach one.
    pub(crate) fn expected(&self, run: &Run, parameters: &Parameters) -> Option<Vec<f64>> {
        let data = self.data.iter();
        data.map(|d| d.expected(run, parameters).filter(|x| x.is_finite()))
            .collect()
    }

    /// Logarithm of the likelihood of all.
    pub(super) fn log_likelihood(&self, expected: &[f64], discrepancy: f64) -> f64 {
        let pairs = self.data.iter().zip(expected);
        pairs
            .map(|(d, &x)| d.log_likelihood(x, discrepancy).value)
            .sum()
    }

    /// The day up to which a tank has to be followed.
    pub(super) fn last_day(&self) -> f64 {
        let last = |d: &Datum| match &d.expected {
            // The last of the days, to its end.
            Expected::OfDays { days, .. } => days.last().map_or(d.day, |day| day + 1.0),
            _ => d.day,
        };
        self.data.iter().map(last).fold(0.0, f64::max)
    }

    /// Days with data of a source.
    pub(super) fn days(&self, source: Source) -> Vec<f64> {
        let of_source = self.data.iter().filter(|d| d.source == source);
        of_source.map(|d| d.day).collect()
    }
}

/// Parts of a day that a probe's record is averaged over.
const BINS: usize = 12;

/// Parts of the record, at the most, whose daily course is taken for itself.
const BLOCKS: usize = 6;

/// Shortest part, d.
const BLOCK_DAYS: f64 = 7.0;

/// A probe's record by day and time of day. Its hundreds of values a week are no
/// independent news: neighbours share the probe's error, and all of them its
/// calibration. What is kept is the mean of the whole record and of every part the
/// first harmonic of its mean day, which says how far the day and the night lie apart
/// and when.
struct Summary {
    variable: Variable,
    blocks: Vec<Block>,
}

struct Block {
    days: Vec<f64>,
    /// Mean time of the day, d, and mean value.
    bins: Vec<(f64, f64)>,
}

impl Summary {
    fn of(series: &ProbeSeries) -> Option<Self> {
        let variable = series.measured.variable()?;
        probe_uncertainty(series.measured)?;
        let values = || {
            let pairs = series
                .days
                .iter()
                .copied()
                .zip(series.values.iter().copied());
            pairs.filter(|(day, value)| *day >= 0.0 && value.is_finite())
        };
        let first = values().map(|(day, _)| day).reduce(f64::min)?.floor();
        let last = values().map(|(day, _)| day).reduce(f64::max)?;
        let block_days = ((last - first) / BLOCKS as f64).ceil().max(BLOCK_DAYS);
        let mut days: BTreeMap<u32, Vec<(f64, f64)>> = BTreeMap::new();
        for (day, value) in values() {
            days.entry(day as u32)
                .or_default()
                .push((day.fract(), value));
        }
        // Of a day with gaps the mean would lean to the hours that are there.
        days.retain(|_, of_day| bins(of_day).is_some());
        let days: Vec<(f64, Vec<(f64, f64)>)> = days
            .into_iter()
            .map(|(day, values)| (f64::from(day), values))
            .collect();
        let block = |day: f64| ((day - first) / block_days) as u32;
        let blocks: Vec<Block> = days
            .chunk_by(|a, b| block(a.0) == block(b.0))
            .filter_map(|of_block| {
                let values = of_block.iter().flat_map(|(_, values)| values.clone());
                Some(Block {
                    days: of_block.iter().map(|(day, _)| *day).collect(),
                    bins: bins(&values.collect::<Vec<_>>())?,
                })
            })
            .collect();
        (!blocks.is_empty()).then_some(Self { variable, blocks })
    }

    fn data(&self, measured: Measured) -> Vec<Datum> {
        let (Some((of_mean, of_harmonic)), Some((unit, _))) =
            (probe_uncertainty(measured), discrepancy_unit(measured))
        else {
            return Vec::new();
        };
        let datum = |block: &Block, sd: f64, weight: &dyn Fn(f64) -> f64| {
            let weight = |time: f64| weight(time) / BINS as f64;
            let bins = block.bins.iter();
            let value = bins.map(|&(time, value)| weight(time) * value).sum();
            Datum {
                source: Source::Probe(measured),
                day: block.days.first().copied().unwrap_or_default(),
                low: value,
                high: value,
                sd,
                discrepancy_unit: unit,
                expected: Expected::OfDays {
                    variable: self.variable,
                    days: block.days.clone(),
                    times: block.bins.iter().map(|&(t, _)| (t, weight(t))).collect(),
                },
            }
        };
        let mut data: Vec<Datum> = self
            .blocks
            .iter()
            .flat_map(|block| {
                [
                    datum(block, of_harmonic, &|t| 2.0 * (TAU * t).cos()),
                    datum(block, of_harmonic, &|t| 2.0 * (TAU * t).sin()),
                ]
            })
            .collect();
        let all_days = self.blocks.iter().flat_map(|b| b.days.clone()).collect();
        let in_all = |of: fn(&(f64, f64)) -> f64, bin: usize| {
            let of_bin = |b: &Block| b.bins.get(bin).map(|pair| of(pair) * b.days.len() as f64);
            let sum: f64 = self.blocks.iter().filter_map(of_bin).sum();
            sum / self.blocks.iter().map(|b| b.days.len() as f64).sum::<f64>()
        };
        let all = Block {
            days: all_days,
            bins: (0..BINS)
                .map(|bin| (in_all(|&(t, _)| t, bin), in_all(|&(_, v)| v, bin)))
                .collect(),
        };
        data.push(datum(&all, of_mean, &|_| 1.0));
        data
    }
}

/// Mean time and value of every part of the day; none if one has no value.
fn bins(values: &[(f64, f64)]) -> Option<Vec<(f64, f64)>> {
    let mut sums = [(0.0, 0.0, 0.0); BINS];
    for &(time, value) in values {
        if let Some((count, times, total)) = sums.get_mut((time * BINS as f64) as usize) {
            *count += 1.0;
            *times += time;
            *total += value;
        }
    }
    sums.iter()
        .map(|&(count, times, total)| (count > 0.0).then_some((times / count, total / count)))
        .collect()
}

/// Standard uncertainty of a record's mean, which its calibration and drift decide,
/// and of a harmonic of its daily course. Common practice, no source.
const fn probe_uncertainty(measured: Measured) -> Option<(f64, f64)> {
    Some(match measured {
        Measured::Ph => (0.06, 0.01),
        Measured::OxygenSaturation => (0.05, 0.01),
        _ => return None,
    })
}
