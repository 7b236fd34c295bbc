//! kLa from a record of re-aeration or degassing.

mod approach;
mod student_t;

use core::marker::PhantomData;

use self::approach::{Failure, Known, fit};
use super::{Gas, TransferBasis};
use crate::error::within;
use crate::quantity::{Content, Temperature, TransferRate};
use crate::{Error, Result};

/// One line of the record: hours since its start, and the content then.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading<G: Gas> {
    hours: f64,
    content: Content<G>,
}

impl<G: Gas> Reading<G> {
    /// From the time in hours.
    ///
    /// # Errors
    /// The time is not finite, negative, or beyond 10⁵ hours.
    pub fn new(hours: f64, content: Content<G>) -> Result<Self> {
        Ok(Self {
            hours: within("hours", hours, 0.0, 1e5, "h")?,
            content,
        })
    }
}

/// Least-squares fit of C(t) = C* − (C* − C0) exp(−kLa t) to a record of
/// readings, as ASCE/EWRI 2-06 does it: kLa, C* and C0 together, or with C* or
/// C0 given.
///
/// For a record bring the water away from equilibrium (driving oxygen out with
/// nitrogen gas is common; never with animals in the water), start the aeration
/// and write down time and reading until little changes: three times 1/kLa give
/// all three numbers. Leave off the first readings while a slow probe
/// catches up.
///
/// In a tank that breathes, C* is not the solubility: it is lower by the oxygen
/// consumption over kLa. That is why it is fitted unless it is known.
///
/// ```
/// use halimeda::gas::{Reading, Reaeration};
/// use halimeda::{Content, species};
/// let record: [(f64, f64); 8] = [
///     (0.0, 61.0), (0.25, 97.0), (0.5, 123.0), (0.75, 145.0),
///     (1.0, 159.0), (1.5, 180.0), (2.0, 190.0), (3.0, 201.0),
/// ];
/// let mut readings = [Reading::<species::Oxygen>::new(0.0, Content::ZERO)?; 8];
/// for (reading, (hours, umol_per_kg)) in readings.iter_mut().zip(record) {
///     *reading = Reading::new(hours, Content::from_umol_per_kg(umol_per_kg)?)?;
/// }
/// let fit = Reaeration::new().fit(&readings)?;
/// let (low, high) = fit.rate_interval_per_hour();
/// assert!(low < 1.13 && 1.13 < high && high - low < 0.2);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reaeration<G: Gas> {
    equilibrium: Option<Content<G>>,
    initial: Option<Content<G>>,
}

impl<G: Gas> Default for Reaeration<G> {
    fn default() -> Self {
        Self::new()
    }
}

/// Fewest readings a fit is made from.
const MIN_READINGS: usize = 6;

impl<G: Gas> Reaeration<G> {
    /// All three numbers unknown.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            equilibrium: None,
            initial: None,
        }
    }

    /// With C* known, as the solubility in water without life or with a
    /// nitrogen-flushed start.
    #[must_use]
    pub const fn with_equilibrium(mut self, equilibrium: Content<G>) -> Self {
        self.equilibrium = Some(equilibrium);
        self
    }

    /// With the content at time zero known.
    #[must_use]
    pub const fn with_initial(mut self, initial: Content<G>) -> Self {
        self.initial = Some(initial);
        self
    }

    /// Fits the record.
    ///
    /// # Errors
    /// Fewer than six readings; times that do not increase; or a record that
    /// does not bound kLa: one cut off while it still runs along a straight
    /// line, one that is over by its second reading, or one without a change
    /// beyond its scatter.
    pub fn fit(&self, readings: &[Reading<G>]) -> Result<ReaerationFit<G>> {
        if readings.len() < MIN_READINGS {
            return Err(Error::too_few("readings", readings.len(), MIN_READINGS));
        }
        for (earlier, later) in readings.iter().zip(readings.iter().skip(1)) {
            if later.hours <= earlier.hours {
                return Err(Error::contradictory(
                    ("hours", earlier.hours),
                    ("following hours", later.hours),
                    "the times of a record must increase",
                ));
            }
        }
        let points = readings
            .iter()
            .map(|reading| (reading.hours, reading.content.umol_per_kg()));
        let known = Known {
            equilibrium: self.equilibrium.map(Content::umol_per_kg),
            initial: self.initial.map(Content::umol_per_kg),
        };
        let fit = fit(points, known).map_err(|failure| {
            Error::uninformative(
                "readings",
                match failure {
                    Failure::TooShort => {
                        "the curve has not bent enough to bound kLa from below; \
                         record for longer or give the equilibrium"
                    }
                    Failure::TooCoarse => {
                        "the change is over too early in the record to bound kLa from above; \
                         read more often or start further from equilibrium"
                    }
                },
            )
        })?;
        Ok(ReaerationFit {
            rate: TransferRate::from_per_hour(fit.rate.value)?,
            fit,
            gas: PhantomData,
        })
    }
}

/// An estimate and its standard error.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub struct Estimate {
    /// The estimate.
    pub value: f64,
    /// Its standard error from the covariance at the optimum; zero where the
    /// value was given.
    pub standard_error: f64,
}

/// What a [`Reaeration`] record says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReaerationFit<G: Gas> {
    rate: TransferRate,
    fit: approach::Fit,
    gas: PhantomData<G>,
}

impl<G: Gas> ReaerationFit<G> {
    /// kLa at the temperature of the record.
    #[must_use]
    pub const fn rate(&self) -> TransferRate {
        self.rate
    }

    /// kLa with its standard error, 1/h.
    #[must_use]
    pub const fn rate_per_hour(&self) -> Estimate {
        self.fit.rate
    }

    /// 95 % interval of kLa, 1/h, from the profile of the sum of squares: not
    /// symmetric, and wider than two standard errors when the record is short.
    #[must_use]
    pub const fn rate_interval_per_hour(&self) -> (f64, f64) {
        self.fit.rate_interval
    }

    /// C*, the content the record tends to, µmol/kg. A bare number because the
    /// estimate may lie below zero within its error.
    #[must_use]
    pub const fn equilibrium_umol_per_kg(&self) -> Estimate {
        self.fit.equilibrium
    }

    /// C0, µmol/kg: the fitted content at the first reading, or the given one
    /// at time zero.
    #[must_use]
    pub const fn initial_umol_per_kg(&self) -> Estimate {
        self.fit.initial
    }

    /// Standard deviation of the readings about the curve, µmol/kg.
    #[must_use]
    pub const fn residual_sd_umol_per_kg(&self) -> f64 {
        self.fit.residual_sd
    }

    /// Number of readings less the number of fitted values.
    #[must_use]
    pub const fn degrees_of_freedom(&self) -> usize {
        self.fit.degrees_of_freedom
    }

    /// The basis that carries this kLa to other gases and temperatures, given
    /// the temperature of the record.
    #[must_use]
    pub const fn basis(&self, temperature: Temperature) -> TransferBasis {
        TransferBasis::new(G::KIND, temperature)
    }
}
