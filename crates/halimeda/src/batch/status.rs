use crate::error::{Error, ErrorKind};

/// How one row of a batch ended, in one byte.
///
/// ```
/// use halimeda::batch::RowStatus;
/// assert_eq!(RowStatus::Contradictory as u8, 6);
/// assert!(RowStatus::Contradictory.is_refused());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
#[repr(u8)]
pub enum RowStatus {
    /// Answered, every relation within its published range.
    #[default]
    Ok = 0,
    /// Answered with a relation outside its published range, as was allowed.
    Extrapolated = 1,
    /// Answered but for an output that asks for a relation beyond those of
    /// every row (pH on the NBS scale, dry mole fraction), refused its range:
    /// that output is NaN.
    Partial = 2,
    /// Refused: an input is NaN or infinite.
    NonFinite = 3,
    /// Refused: an input outside what is accepted at all.
    OutOfRange = 4,
    /// Refused: the water outside the published range of a relation.
    OutsidePublishedRange = 5,
    /// Refused: no state satisfies the two known quantities.
    Contradictory = 6,
    /// Refused: two states do.
    Ambiguous = 7,
}

impl RowStatus {
    /// All of them, in the order of their codes.
    pub const ALL: &'static [Self] = &[
        Self::Ok,
        Self::Extrapolated,
        Self::Partial,
        Self::NonFinite,
        Self::OutOfRange,
        Self::OutsidePublishedRange,
        Self::Contradictory,
        Self::Ambiguous,
    ];

    /// Name for tables and messages.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ok => "ok",
            Self::Extrapolated => "extrapolated",
            Self::Partial => "partial",
            Self::NonFinite => "not finite",
            Self::OutOfRange => "out of range",
            Self::OutsidePublishedRange => "outside published range",
            Self::Contradictory => "contradictory",
            Self::Ambiguous => "ambiguous",
        }
    }

    /// Whether every output of the row is NaN.
    #[must_use]
    pub const fn is_refused(self) -> bool {
        !matches!(self, Self::Ok | Self::Extrapolated | Self::Partial)
    }

    pub(super) const fn of_refusal(error: &Error) -> Self {
        match error.kind() {
            ErrorKind::NonFinite { .. } => Self::NonFinite,
            ErrorKind::OutsidePublishedRange { .. } => Self::OutsidePublishedRange,
            ErrorKind::Contradictory { .. } => Self::Contradictory,
            ErrorKind::Ambiguous { .. } => Self::Ambiguous,
            // No other kind is an answer to one row's numbers.
            _ => Self::OutOfRange,
        }
    }
}

impl core::fmt::Display for RowStatus {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(self.name())
    }
}

/// How many rows of a batch ended how.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub struct Summary {
    /// Answered, every relation within its published range.
    pub ok: usize,
    /// Answered with a relation outside its published range.
    pub extrapolated: usize,
    /// Answered but for one output.
    pub partial: usize,
    /// Refused.
    pub refused: usize,
}

impl Summary {
    /// All rows.
    #[must_use]
    pub const fn rows(&self) -> usize {
        self.ok + self.extrapolated + self.partial + self.refused
    }

    /// This and another part of the same batch.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self {
            ok: self.ok + other.ok,
            extrapolated: self.extrapolated + other.extrapolated,
            partial: self.partial + other.partial,
            refused: self.refused + other.refused,
        }
    }

    pub(super) fn of(statuses: &[RowStatus]) -> Self {
        let mut summary = Self::default();
        for status in statuses {
            *match status {
                RowStatus::Ok => &mut summary.ok,
                RowStatus::Extrapolated => &mut summary.extrapolated,
                RowStatus::Partial => &mut summary.partial,
                _ => &mut summary.refused,
            } += 1;
        }
        summary
    }
}
