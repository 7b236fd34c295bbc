use std::fmt;

/// Result of a fallible function of this crate.
pub type Result<T, E = Error> = std::result::Result<T, E>;

/// Why a tank was not simulated or planned.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Error {
    /// A quantity of the chemistry was refused.
    Chemistry(halimeda::Error),
    /// A number of the description or the schedule lies outside its limits.
    OutOfRange {
        /// Name of the number.
        input: &'static str,
        /// The value given.
        value: f64,
        /// Smallest accepted value.
        min: f64,
        /// Largest accepted value.
        max: f64,
    },
    /// More was taken out of a stock than it held.
    Exhausted {
        /// Name of the stock.
        stock: &'static str,
        /// Time since the start, d.
        day: f64,
    },
    /// No parameter has the name given.
    UnknownParameter(String),
    /// Every member of an ensemble failed; the first to do so, and why.
    AllFailed(Box<Error>),
    /// A log has too few tests of something for a rate.
    TooFewTests {
        /// What was tested.
        measured: &'static str,
        /// Tests there are that can be used.
        found: usize,
        /// Days they were looked for in; infinite for the whole log.
        from_day: f64,
        /// Last of these days.
        to_day: f64,
    },
    /// What is measured is no amount that goes in and out of the water.
    NoNetRate(&'static str),
    /// A log tells nothing that parameters could be fitted to; what is missing.
    Uninformative(String),
    /// The equations could not be followed any further.
    Stuck {
        /// Time since the start, d.
        day: f64,
        /// What went wrong.
        reason: &'static str,
    },
    /// The caller asked to stop.
    Cancelled {
        /// Time reached, d.
        day: f64,
    },
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Chemistry(e) => e.fmt(f),
            Self::OutOfRange {
                input,
                value,
                min,
                max,
            } => write!(f, "{input} is {value}; it must lie between {min} and {max}"),
            Self::Exhausted { stock, day } => write!(
                f,
                "stopped on day {day:.3}: more {stock} is taken out than there is"
            ),
            Self::UnknownParameter(name) => write!(
                f,
                "no parameter is called {name}; names are those of the groups and fields of Parameters, as in turf.reserve_days"
            ),
            Self::AllFailed(first) => {
                write!(f, "every member of the ensemble failed, the first: {first}")
            }
            Self::TooFewTests {
                measured,
                found,
                from_day,
                to_day,
            } => {
                write!(
                    f,
                    "a rate of {measured} needs two tests at least six hours apart, and "
                )?;
                match found {
                    0 => f.write_str("there is none")?,
                    1 => f.write_str("there is one")?,
                    n => write!(f, "the {n} there are lie closer together")?,
                }
                match from_day.is_finite() && to_day.is_finite() {
                    true => write!(f, " between day {from_day:.1} and day {to_day:.1}"),
                    false => f.write_str(" in the log"),
                }
            }
            Self::NoNetRate(measured) => write!(
                f,
                "{measured} has no rate of gain or loss: ask for nitrate, phosphate, ammonia, alkalinity, calcium or magnesium"
            ),
            Self::Uninformative(missing) => {
                write!(
                    f,
                    "the log tells nothing of the tank's parameters: {missing}"
                )
            }
            Self::Stuck { day, reason } => write!(f, "stopped on day {day:.3}: {reason}"),
            Self::Cancelled { day } => write!(f, "cancelled on day {day:.3}"),
        }
    }
}

impl std::error::Error for Error {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Chemistry(e) => Some(e),
            Self::AllFailed(e) => Some(e),
            _ => None,
        }
    }
}

impl From<halimeda::Error> for Error {
    fn from(e: halimeda::Error) -> Self {
        Self::Chemistry(e)
    }
}

/// Accepts a finite value within limits.
pub(crate) fn within(input: &'static str, value: f64, min: f64, max: f64) -> Result<f64> {
    if value.is_finite() && value >= min && value <= max {
        Ok(value)
    } else {
        Err(Error::OutOfRange {
            input,
            value,
            min,
            max,
        })
    }
}

/// An error if every one of some results is one.
pub(crate) fn require_one<'a, T: 'a>(
    results: impl IntoIterator<Item = &'a Result<T>>,
) -> Result<()> {
    let mut results = results.into_iter();
    match results.next() {
        Some(Err(first)) if results.all(Result::is_err) => {
            Err(Error::AllFailed(Box::new(first.clone())))
        }
        _ => Ok(()),
    }
}
