//! Quantities as people write them, a number and its unit, for whoever takes
//! readings: the description file, a log, another language.
//!
//! ```
//! use halimeda_tank::units::{self, Medium};
//! let (number, unit) = units::read("8.2 dKH", &units::ALKALINITY)?;
//! let water = halimeda::Water::new(
//!     halimeda::Temperature::from_celsius(25.0)?,
//!     halimeda::PracticalSalinity::new(35.0)?,
//! );
//! let medium = Medium { density: Some(water.density()?), ..Medium::default() };
//! let umol_per_kg = unit.to_kept(number, &medium).ok_or("the density is missing")?;
//! assert!((umol_per_kg - 2857.8).abs() < 0.1);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

use std::fmt;

use crate::description::literal::{NumberError, number_and_unit};

pub use crate::description::unit::*;

/// Why a text is no quantity.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum UnitError {
    /// It does not begin with a number.
    NotANumber,
    /// Its number is not finite.
    NonFinite,
    /// A comma or another sign stands among the digits.
    Separator,
    /// The unit, possibly none, is not of the measure; with those that are.
    Unit {
        /// What was written.
        unit: String,
        /// The units that would have been accepted.
        accepted: String,
    },
}

impl fmt::Display for UnitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotANumber => f.write_str("it does not begin with a number"),
            Self::NonFinite => f.write_str("a finite number is needed"),
            Self::Separator => {
                f.write_str("digits take a decimal point and no other sign among them")
            }
            Self::Unit { unit, accepted } if unit.is_empty() => {
                write!(f, "a unit is missing: {accepted}")
            }
            Self::Unit { unit, accepted } => {
                write!(f, "the unit \"{unit}\" is not one of: {accepted}")
            }
        }
    }
}

impl std::error::Error for UnitError {}

impl From<NumberError> for UnitError {
    fn from(error: NumberError) -> Self {
        match error {
            NumberError::NotANumber => Self::NotANumber,
            NumberError::NonFinite => Self::NonFinite,
            NumberError::Separator => Self::Separator,
        }
    }
}

/// The number a text begins with and what follows it.
///
/// # Errors
/// The text does not begin with a finite number, or has a comma among its digits.
pub fn split(text: &str) -> Result<(f64, &str), UnitError> {
    let (number, unit) = number_and_unit(text)?;
    Ok((number, unit.trim_end()))
}

/// A number and its unit from a text.
///
/// # Errors
/// As [`split`], or the unit is not one of the measure's.
pub fn read(text: &str, measure: &Measure) -> Result<(f64, &'static Unit), UnitError> {
    let (number, name) = split(text)?;
    named(name, measure).map(|unit| (number, unit))
}

/// The unit of a measure by its name, in any usual spelling.
///
/// # Errors
/// The measure has no such unit.
pub fn named(name: &str, measure: &Measure) -> Result<&'static Unit, UnitError> {
    measure.unit(name).ok_or_else(|| UnitError::Unit {
        unit: name.to_owned(),
        accepted: measure.unit_names(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_wrong_is_said() {
        let refused = |text| read(text, &ALKALINITY).unwrap_err().to_string();
        assert_eq!(refused("much"), "it does not begin with a number");
        assert_eq!(refused("inf dKH"), "a finite number is needed");
        assert!(refused("8,2 dKH").starts_with("digits take a decimal point"));
        assert!(refused("8.2").starts_with("a unit is missing: dKH, meq/L"));
        assert!(refused("8.2 °C").starts_with("the unit \"°C\" is not one of: dKH"));
    }
}
