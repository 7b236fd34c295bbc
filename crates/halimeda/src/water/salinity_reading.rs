use crate::error::{Error, ErrorKind, within};
use crate::quantity::{PracticalSalinity, Temperature};
use crate::real::{Real, sqrt};
use crate::relation::{Extrapolation, Relation, RelationSet};
use crate::{Result, root};

/// A practical salinity worked out from what an instrument shows.
///
/// ```
/// use halimeda::{Extrapolation, Temperature};
/// use halimeda::water::{SpecificGravity, SpecificGravityReference};
/// let read = SpecificGravity::new(1.0264, SpecificGravityReference::AT_25_25)?;
/// let reading = read.practical_salinity(Extrapolation::Refuse)?;
/// assert!((reading.salinity().value() - 35.04).abs() < 0.01);
/// // A hydrometer read to 0.0005 is a salinity known to about 0.7.
/// assert!((reading.standard_uncertainty(0.0005)? - 0.66).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SalinityReading {
    pub(super) salinity: PracticalSalinity,
    pub(super) relation_uncertainty: f64,
    pub(super) sensitivity: f64,
    pub(super) extrapolations: RelationSet,
}

impl SalinityReading {
    /// The salinity.
    #[must_use]
    pub const fn salinity(&self) -> PracticalSalinity {
        self.salinity
    }

    /// Standard uncertainty that the published relation alone leaves, as a
    /// practical salinity. Zero from conductivity: its relation is the
    /// definition of the scale.
    #[must_use]
    pub const fn relation_uncertainty(&self) -> f64 {
        self.relation_uncertainty
    }

    /// Practical salinity per unit of the reading.
    #[must_use]
    pub const fn sensitivity(&self) -> f64 {
        self.sensitivity
    }

    /// Standard uncertainty of the salinity, as a practical salinity, when the
    /// reading has the standard uncertainty `reading`, in the reading's unit.
    ///
    /// # Errors
    /// `reading` is not finite or negative.
    pub fn standard_uncertainty(&self, reading: f64) -> Result<f64> {
        let reading = within(
            "standard uncertainty of the reading",
            reading,
            0.0,
            f64::MAX,
            "(unit of the reading)",
        )?;
        let from_reading = self.sensitivity * reading;
        Ok(sqrt(
            from_reading.square() + self.relation_uncertainty.square(),
        ))
    }

    /// Relations used outside their published range.
    #[must_use]
    pub const fn extrapolations(&self) -> RelationSet {
        self.extrapolations
    }
}

/// Bracket width left when an inversion stops, as a practical salinity.
const TOLERANCE: f64 = 1e-13;

/// An instrument whose reading increases with salinity.
pub(super) struct Instrument<F: Fn(f64) -> f64> {
    pub(super) input: &'static str,
    pub(super) unit: &'static str,
    pub(super) relation: Relation,
    /// Temperature at which the relation is evaluated.
    pub(super) temperature: Temperature,
    pub(super) extrapolation: Extrapolation,
    /// Standard uncertainty of the relation, in the unit of the reading.
    pub(super) relation_uncertainty: f64,
    /// The reading at a practical salinity.
    pub(super) reading_at: F,
}

impl<F: Fn(f64) -> f64> Instrument<F> {
    /// The salinity at which the instrument shows `reading`.
    pub(super) fn salinity(&self, reading: f64) -> Result<SalinityReading> {
        let (lower, upper) = self.salinity_limits();
        self.check(reading, lower, upper)?;
        let salinity = root::of_increasing(&self.reading_at, reading, lower, upper, TOLERANCE);
        let (below, above) = ((salinity - 0.5).max(0.0), salinity + 0.5);
        let slope = ((self.reading_at)(above) - (self.reading_at)(below)) / (above - below);
        self.found(salinity, 1.0 / slope)
    }

    /// The salinities that may be answered with.
    pub(super) const fn salinity_limits(&self) -> (f64, f64) {
        match self.extrapolation {
            Extrapolation::Refuse => self.relation.range().practical_salinity,
            Extrapolation::Allow => (PracticalSalinity::MIN, PracticalSalinity::MAX),
        }
    }

    /// Refuses a temperature outside the relation, and a reading that no
    /// salinity from `lower` to `upper` gives.
    pub(super) fn check(&self, reading: f64, lower: f64, upper: f64) -> Result<()> {
        self.relation.check(
            self.temperature,
            PracticalSalinity::new(lower)?,
            self.extrapolation,
        )?;
        let (min, max) = ((self.reading_at)(lower), (self.reading_at)(upper));
        if reading >= min && reading <= max {
            return Ok(());
        }
        if !reading.is_finite() {
            return Err(Error::non_finite(self.input, reading));
        }
        let (input, value, unit, relation) = (self.input, reading, self.unit, self.relation);
        Err(Error::from(match self.extrapolation {
            Extrapolation::Refuse => ErrorKind::OutsidePublishedRange {
                input,
                value,
                min,
                max,
                unit,
                relation,
            },
            Extrapolation::Allow => ErrorKind::OutOfRange {
                input,
                value,
                min,
                max,
                unit,
            },
        }))
    }

    /// The answer, with what it extrapolates. `sensitivity` is in practical
    /// salinity per unit of the reading.
    pub(super) fn found(&self, salinity: f64, sensitivity: f64) -> Result<SalinityReading> {
        let salinity = PracticalSalinity::new(salinity)?;
        let mut extrapolations = RelationSet::EMPTY;
        extrapolations.check(
            self.relation,
            self.temperature,
            salinity,
            self.extrapolation,
        )?;
        Ok(SalinityReading {
            salinity,
            relation_uncertainty: self.relation_uncertainty * sensitivity,
            sensitivity,
            extrapolations,
        })
    }
}
