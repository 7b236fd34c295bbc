use serde::{Deserialize, Serialize};

use super::Interval;
use crate::variable::Variable;

/// What a test or a probe can measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Measured {
    /// Nitrate, mg/L as NO3.
    Nitrate,
    /// Phosphate, mg/L as PO4.
    Phosphate,
    /// Total ammonia, mg/L as N.
    Ammonia,
    /// Total alkalinity, µmol/kg.
    Alkalinity,
    /// Calcium, mg/L.
    Calcium,
    /// Magnesium, mg/L.
    Magnesium,
    /// pH, total scale.
    Ph,
    /// Dissolved oxygen, share of saturation.
    OxygenSaturation,
    /// Practical salinity.
    Salinity,
    /// Temperature, °C.
    Temperature,
}

impl Measured {
    /// All of them.
    pub const ALL: &'static [Self] = &[
        Self::Nitrate,
        Self::Phosphate,
        Self::Ammonia,
        Self::Alkalinity,
        Self::Calcium,
        Self::Magnesium,
        Self::Ph,
        Self::OxygenSaturation,
        Self::Salinity,
        Self::Temperature,
    ];

    /// What is measured, in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Nitrate => "nitrate",
            Self::Phosphate => "phosphate",
            Self::Ammonia => "ammonia",
            Self::Alkalinity => "alkalinity",
            Self::Calcium => "calcium",
            Self::Magnesium => "magnesium",
            Self::Ph => "pH",
            Self::OxygenSaturation => "oxygen",
            Self::Salinity => "salinity",
            Self::Temperature => "temperature",
        }
    }

    /// Unit; empty for pH, salinity and a share.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Nitrate | Self::Phosphate | Self::Ammonia | Self::Calcium | Self::Magnesium => {
                "mg/L"
            }
            Self::Alkalinity => "µmol/kg",
            Self::Temperature => "°C",
            Self::Ph | Self::OxygenSaturation | Self::Salinity => "",
        }
    }

    /// The number of a simulated tank that it stands beside; none for temperature,
    /// which the model is given.
    #[must_use]
    pub const fn variable(self) -> Option<Variable> {
        Some(match self {
            Self::Nitrate => Variable::Nitrate,
            Self::Phosphate => Variable::Phosphate,
            Self::Ammonia => Variable::Ammonia,
            Self::Alkalinity => Variable::Alkalinity,
            Self::Calcium => Variable::Calcium,
            Self::Magnesium => Variable::Magnesium,
            Self::Ph => Variable::Ph,
            Self::OxygenSaturation => Variable::OxygenSaturation,
            Self::Salinity => Variable::Salinity,
            Self::Temperature => return None,
        })
    }
}

/// Result of one test, in the unit of [`Measured`].
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// Time since the start, d.
    pub day: f64,
    /// What was measured.
    pub measured: Measured,
    /// What the test showed.
    pub interval: Interval,
}

/// What one probe recorded, in the unit of [`Measured`].
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ProbeSeries {
    /// What it measures.
    pub measured: Measured,
    /// Times since the start, d, ascending.
    pub days: Vec<f64>,
    /// Values, one for each time.
    pub values: Vec<f64>,
}
