//! Forecasts that cost nothing.

use crate::log::{Log, Measured};

/// Days of readings that a straight line is laid through.
const TREND_DAYS: f64 = 30.0;

/// "Nothing changes" and a straight line through the last readings of one measured
/// number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Rivals {
    last: f64,
    /// Day and value in the middle of the line, and its slope per day.
    line: Option<(f64, f64, f64)>,
}

impl Rivals {
    /// From the readings up to a day; none if there are none.
    pub(crate) fn of(log: &Log, measured: Measured, until: f64) -> Option<Self> {
        let mut readings: Vec<(f64, f64)> = log
            .readings
            .iter()
            .filter(|r| r.measured == measured && r.day <= until)
            .map(|r| (r.day, r.interval.middle()))
            .collect();
        readings.sort_by(|a, b| a.0.total_cmp(&b.0));
        let &(last_day, last) = readings.last()?;
        readings.retain(|r| r.0 >= last_day - TREND_DAYS);
        let n = readings.len() as f64;
        let mean = |f: &dyn Fn(&(f64, f64)) -> f64| readings.iter().map(f).sum::<f64>() / n;
        let (day, value) = (mean(&|r| r.0), mean(&|r| r.1));
        let spread = mean(&|r| (r.0 - day).powi(2));
        let slope = mean(&|r| (r.0 - day) * (r.1 - value)) / spread;
        Some(Self {
            last,
            line: (readings.len() >= 3 && slope.is_finite()).then_some((day, value, slope)),
        })
    }

    /// What "nothing changes" says of any day: the last reading.
    pub(crate) const fn persistence(&self) -> f64 {
        self.last
    }

    /// What the line says of a day, no less than nothing; the last reading where there
    /// are too few for a line.
    pub(crate) fn trend(&self, day: f64) -> f64 {
        self.line.map_or(self.last, |(middle, value, slope)| {
            (value + slope * (day - middle)).max(0.0)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::log::{Interval, Reading};

    #[test]
    fn a_line_goes_on_and_does_not_go_below_nothing() {
        let log = Log {
            readings: [
                (0.0, 90.0),
                (60.0, 10.0),
                (70.0, 8.0),
                (80.0, 6.0),
                (90.0, 4.0),
            ]
            .map(|(day, value)| Reading {
                day,
                measured: Measured::Nitrate,
                interval: Interval::new(value, value, 0.1).unwrap(),
            })
            .to_vec(),
            ..Log::default()
        };
        let rivals = Rivals::of(&log, Measured::Nitrate, 100.0).unwrap();
        assert_eq!(rivals.persistence(), 4.0);
        assert!((rivals.trend(100.0) - 2.0).abs() < 1e-9);
        assert_eq!(rivals.trend(200.0), 0.0);
        let early = Rivals::of(&log, Measured::Nitrate, 65.0).unwrap();
        assert_eq!((early.persistence(), early.trend(99.0)), (10.0, 10.0));
        assert_eq!(Rivals::of(&log, Measured::Phosphate, 100.0), None);
    }
}
