use serde::{Deserialize, Serialize};

use crate::error::{Result, within};

/// Where the value lies that a test showed, and how well the test repeats.
///
/// A kit read to the nearest step says that its value lies within half a step;
/// "<0.02" says that it lies between nothing and 0.02; a titration with a stated
/// repeatability says little else than that. Of a value x in the water the likelihood
/// is the probability that x and an error of the test fall between the two ends.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Interval {
    low: f64,
    high: f64,
    standard_uncertainty: f64,
}

impl Interval {
    /// An interval with the standard uncertainty of the test's error, all in the
    /// unit of what is measured.
    ///
    /// # Errors
    /// An end or the uncertainty is not finite or below zero, the ends are out of
    /// order, or both the width and the uncertainty are zero.
    pub fn new(low: f64, high: f64, standard_uncertainty: f64) -> Result<Self> {
        within("low end", low, 0.0, f64::MAX)?;
        within("high end", high, low, f64::MAX)?;
        let least = if high > low { 0.0 } else { f64::MIN_POSITIVE };
        within(
            "standard uncertainty",
            standard_uncertainty,
            least,
            f64::MAX,
        )?;
        Ok(Self {
            low,
            high,
            standard_uncertainty,
        })
    }

    /// Lower end.
    #[must_use]
    pub const fn low(&self) -> f64 {
        self.low
    }

    /// Upper end.
    #[must_use]
    pub const fn high(&self) -> f64 {
        self.high
    }

    /// Standard uncertainty of the test's error, beside the width.
    #[must_use]
    pub const fn standard_uncertainty(&self) -> f64 {
        self.standard_uncertainty
    }

    /// Middle of the interval.
    #[must_use]
    pub fn middle(&self) -> f64 {
        0.5 * (self.low + self.high)
    }

    /// Standard deviation about the middle: that of the width, taken as evenly
    /// likely throughout, and the test's own (JCGM 100:2008, 4.3.7 and 5.1.2).
    #[must_use]
    pub fn standard_deviation(&self) -> f64 {
        let width = self.high - self.low;
        (width * width / 12.0 + self.standard_uncertainty * self.standard_uncertainty).sqrt()
    }
}
