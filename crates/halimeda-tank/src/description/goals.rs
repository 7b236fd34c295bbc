use serde::{Deserialize, Serialize};

use super::section::Section;
use super::unit::Medium;

/// What the keeper wants the tank to keep to. None where nothing is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Goals {
    /// Nitrate, µmol/kg: low, and above a floor.
    pub nitrate_umol_per_kg: Option<Band>,
    /// Phosphate, µmol/kg: low, and above a floor.
    pub phosphate_umol_per_kg: Option<Band>,
    /// Largest difference of pH within a day.
    pub ph_swing: Option<f64>,
    /// Least dissolved oxygen at night, share of saturation.
    pub night_oxygen_saturation: Option<f64>,
    /// Largest drift of alkalinity either way, µmol/kg per day.
    pub alkalinity_drift_umol_per_kg_per_day: Option<f64>,
}

/// Limits to stay within.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Band {
    /// Lower limit.
    pub low: f64,
    /// Upper limit.
    pub high: f64,
}

pub(super) fn goals(section: &Section<'_>, medium: &Medium) -> Goals {
    Goals {
        nitrate_umol_per_kg: band(section, "nitrate", medium),
        phosphate_umol_per_kg: band(section, "phosphate", medium),
        ph_swing: section.optional("ph_swing", medium),
        night_oxygen_saturation: section.optional("night_oxygen", medium).map(|o| o / 100.0),
        alkalinity_drift_umol_per_kg_per_day: section.optional("alkalinity_drift", medium),
    }
}

fn band(section: &Section<'_>, name: &str, medium: &Medium) -> Option<Band> {
    let section = section.optional_section(name)?;
    let band = Band {
        low: section.quantity("low", medium),
        high: section.quantity("high", medium),
    };
    if band.low >= band.high {
        let found = format!(
            "a band from {} to {}",
            section.written("low"),
            section.written("high")
        );
        section.report_contradiction("low", found, "a lower limit below the upper one");
    }
    Some(band)
}
