//! The one error type of the crate.
//!
//! Every refusal names the input as the caller knows it, the value that was
//! given and the limits that would have been accepted, so that a face above
//! this crate (C, Python, a controller's display) can say what to change
//! without parsing text.

use core::fmt;

/// Result of a fallible function of this crate.
pub type Result<T, E = Error> = core::result::Result<T, E>;

/// Why a question was not answered.
///
/// Opaque so that variants can grow; read it through [`Error::kind`] or the
/// accessors.
///
/// ```
/// use halimeda::{Ph, Temperature, TotalScale};
/// let refused = Temperature::from_celsius(180.0).unwrap_err();
/// assert_eq!(refused.input(), "temperature");
/// assert_eq!(refused.value(), Some(180.0));
/// assert!(refused.is_out_of_range());
/// let refused = Ph::<TotalScale>::new(15.0).unwrap_err();
/// assert_eq!(
///     refused.to_string(),
///     "pH (total scale) is 15; it must lie between 0 and 14"
/// );
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Error {
    kind: ErrorKind,
}

/// What went wrong, with the values that say where.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum ErrorKind {
    /// The input is NaN or infinite.
    NonFinite {
        /// Name of the input.
        input: &'static str,
        /// The value given.
        value: f64,
    },
    /// The input lies outside what is physically meaningful or supported at all.
    /// Asking for extrapolation does not lift these limits.
    OutOfRange {
        /// Name of the input.
        input: &'static str,
        /// The value given, in `unit`.
        value: f64,
        /// Smallest accepted value, in `unit`.
        min: f64,
        /// Largest accepted value, in `unit`.
        max: f64,
        /// Unit of the three numbers; in parentheses where they have none.
        unit: &'static str,
    },
    /// The input lies outside the range over which a published relation was
    /// fitted. Accepted, and flagged in the result, under
    /// [`Extrapolation::Allow`](crate::Extrapolation::Allow).
    OutsidePublishedRange {
        /// Name of the input.
        input: &'static str,
        /// The value given, in `unit`.
        value: f64,
        /// Lower end of the published range, in `unit`.
        min: f64,
        /// Upper end of the published range, in `unit`.
        max: f64,
        /// Unit of the three numbers; in parentheses where they have none.
        unit: &'static str,
        /// The relation whose range it is.
        relation: crate::Relation,
    },
    /// Two inputs are each acceptable but cannot both hold.
    Contradictory {
        /// Name of the first input.
        first: &'static str,
        /// Its value.
        first_value: f64,
        /// Name of the second input.
        second: &'static str,
        /// Its value.
        second_value: f64,
        /// Why they exclude each other.
        reason: &'static str,
    },
    /// Two inputs carry the same information, so the state stays undetermined.
    Underdetermined {
        /// Name of the first input.
        first: &'static str,
        /// Name of the second input.
        second: &'static str,
        /// Why they do not determine a state.
        reason: &'static str,
    },
    /// Two different states satisfy the inputs and one was asked for.
    Ambiguous {
        /// Name of the first input.
        first: &'static str,
        /// Name of the second input.
        second: &'static str,
        /// Total-scale pH of the more acid state.
        lower_ph_total: f64,
        /// Total-scale pH of the more basic state.
        higher_ph_total: f64,
    },
    /// Too few records to answer.
    TooFew {
        /// Name of the input.
        input: &'static str,
        /// Number given.
        got: usize,
        /// Number needed.
        need: usize,
    },
    /// A column does not have as many values as there are rows.
    WrongLength {
        /// Name of the column.
        input: &'static str,
        /// Number given.
        got: usize,
        /// Number of rows.
        need: usize,
    },
    /// The records were read but do not determine the answer.
    Uninformative {
        /// Name of the input.
        input: &'static str,
        /// What is missing in them.
        reason: &'static str,
    },
}

impl Error {
    /// What went wrong, for matching.
    #[must_use]
    pub const fn kind(&self) -> ErrorKind {
        self.kind
    }

    /// Name of the offending input; of the first one where two conflict.
    #[must_use]
    pub const fn input(&self) -> &'static str {
        match self.kind {
            ErrorKind::NonFinite { input, .. }
            | ErrorKind::OutOfRange { input, .. }
            | ErrorKind::OutsidePublishedRange { input, .. }
            | ErrorKind::TooFew { input, .. }
            | ErrorKind::WrongLength { input, .. }
            | ErrorKind::Uninformative { input, .. } => input,
            ErrorKind::Contradictory { first, .. }
            | ErrorKind::Underdetermined { first, .. }
            | ErrorKind::Ambiguous { first, .. } => first,
        }
    }

    /// The value that was given, where one number is to blame.
    #[must_use]
    pub const fn value(&self) -> Option<f64> {
        match self.kind {
            ErrorKind::NonFinite { value, .. }
            | ErrorKind::OutOfRange { value, .. }
            | ErrorKind::OutsidePublishedRange { value, .. }
            | ErrorKind::Contradictory {
                first_value: value, ..
            } => Some(value),
            ErrorKind::Underdetermined { .. }
            | ErrorKind::Ambiguous { .. }
            | ErrorKind::TooFew { .. }
            | ErrorKind::WrongLength { .. }
            | ErrorKind::Uninformative { .. } => None,
        }
    }

    /// The limits that would have been accepted, `(min, max)`, in the unit of
    /// [`Error::value`].
    #[must_use]
    pub const fn limits(&self) -> Option<(f64, f64)> {
        match self.kind {
            ErrorKind::OutOfRange { min, max, .. }
            | ErrorKind::OutsidePublishedRange { min, max, .. } => Some((min, max)),
            _ => None,
        }
    }

    /// The input was NaN or infinite.
    #[must_use]
    pub const fn is_non_finite(&self) -> bool {
        matches!(self.kind, ErrorKind::NonFinite { .. })
    }

    /// The input was outside its hard limits or a relation's published range.
    #[must_use]
    pub const fn is_out_of_range(&self) -> bool {
        matches!(
            self.kind,
            ErrorKind::OutOfRange { .. } | ErrorKind::OutsidePublishedRange { .. }
        )
    }

    /// The same question is answered, and flagged, when extrapolation is allowed.
    #[must_use]
    pub const fn is_extrapolation(&self) -> bool {
        matches!(self.kind, ErrorKind::OutsidePublishedRange { .. })
    }

    /// The inputs exclude each other: no state of the water satisfies them.
    #[must_use]
    pub const fn is_contradictory(&self) -> bool {
        matches!(self.kind, ErrorKind::Contradictory { .. })
    }

    /// The inputs leave more than one state open.
    #[must_use]
    pub const fn is_ambiguous(&self) -> bool {
        matches!(
            self.kind,
            ErrorKind::Ambiguous { .. } | ErrorKind::Underdetermined { .. }
        )
    }

    pub(crate) const fn non_finite(input: &'static str, value: f64) -> Self {
        Self {
            kind: ErrorKind::NonFinite { input, value },
        }
    }

    pub(crate) const fn contradictory(
        first: (&'static str, f64),
        second: (&'static str, f64),
        reason: &'static str,
    ) -> Self {
        Self {
            kind: ErrorKind::Contradictory {
                first: first.0,
                first_value: first.1,
                second: second.0,
                second_value: second.1,
                reason,
            },
        }
    }

    pub(crate) const fn too_few(input: &'static str, got: usize, need: usize) -> Self {
        Self {
            kind: ErrorKind::TooFew { input, got, need },
        }
    }

    pub(crate) const fn uninformative(input: &'static str, reason: &'static str) -> Self {
        Self {
            kind: ErrorKind::Uninformative { input, reason },
        }
    }
}

impl From<ErrorKind> for Error {
    fn from(kind: ErrorKind) -> Self {
        Self { kind }
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.kind {
            ErrorKind::NonFinite { input, value } => {
                write!(f, "{input} is {value}; a finite number is needed")
            }
            ErrorKind::OutOfRange {
                input,
                value,
                min,
                max,
                unit,
            } => {
                let unit = Unit(unit);
                write!(
                    f,
                    "{input} is {value}{unit}; it must lie between {min} and {max}{unit}"
                )
            }
            ErrorKind::OutsidePublishedRange {
                input,
                value,
                min,
                max,
                unit,
                relation,
            } => {
                let unit = Unit(unit);
                write!(
                    f,
                    "{input} is {value}{unit}; {relation} was published for {min} to {max}{unit} \
                     (allow extrapolation to go on, flagged)"
                )
            }
            ErrorKind::Contradictory {
                first,
                first_value,
                second,
                second_value,
                reason,
            } => write!(
                f,
                "{first} = {first_value} and {second} = {second_value} exclude each other: {reason}"
            ),
            ErrorKind::Underdetermined {
                first,
                second,
                reason,
            } => write!(f, "{first} with {second} leaves the state open: {reason}"),
            ErrorKind::Ambiguous {
                first,
                second,
                lower_ph_total,
                higher_ph_total,
            } => write!(
                f,
                "{first} with {second} fits two states, pH(total) {lower_ph_total:.4} and \
                 {higher_ph_total:.4}; ask for both or give another pair"
            ),
            ErrorKind::TooFew { input, got, need } => {
                write!(f, "{input} holds {got}; at least {need} are needed")
            }
            ErrorKind::WrongLength { input, got, need } => {
                write!(f, "{input} holds {got} values; there are {need} rows")
            }
            ErrorKind::Uninformative { input, reason } => {
                write!(f, "{input} does not determine the answer: {reason}")
            }
        }
    }
}

impl core::error::Error for Error {}

/// A unit after a number. One in parentheses only says what a number without
/// unit is, which the name of the input says already.
struct Unit(&'static str);

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0.starts_with('(') {
            return Ok(());
        }
        write!(f, " {}", self.0)
    }
}

/// Accepts `value` if it is finite and within `[min, max]`.
///
/// The single gate through which every bare number enters the crate.
pub(crate) const fn within(
    input: &'static str,
    value: f64,
    min: f64,
    max: f64,
    unit: &'static str,
) -> Result<f64> {
    if !value.is_finite() {
        return Err(Error::non_finite(input, value));
    }
    if value < min || value > max {
        return Err(Error {
            kind: ErrorKind::OutOfRange {
                input,
                value,
                min,
                max,
                unit,
            },
        });
    }
    Ok(value)
}
