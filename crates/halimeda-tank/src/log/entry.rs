use halimeda::dosing::Salt;
use halimeda::process::FeedKind;
use serde::{Deserialize, Serialize};

use crate::tank::Event;

/// Something that was done or happened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Entry {
    /// Time since the start, d.
    pub day: f64,
    /// What it was.
    pub record: Record,
}

/// What was done or happened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Record {
    /// The screen was harvested.
    Harvest {
        /// What was weighed; none if nobody did.
        weight: Option<HarvestWeight>,
    },
    /// The animals were fed.
    Feeding {
        /// Mass as fed, g.
        grams: f64,
        /// What was fed.
        kind: FeedKind,
    },
    /// Water was changed.
    WaterChange {
        /// Volume, L.
        litres: f64,
    },
    /// A salt was dosed by hand, beside the daily dosing of the description.
    Dose {
        /// The salt.
        salt: Salt,
        /// Its mass, g.
        grams: f64,
    },
    /// A part was changed or something failed.
    Event(Event),
    /// Words that belong to a day.
    Note(String),
}

/// Weight of a harvest.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HarvestWeight {
    /// Fresh, drained or squeezed, g.
    WetGrams(f64),
    /// Dried, g.
    DryGrams(f64),
}
