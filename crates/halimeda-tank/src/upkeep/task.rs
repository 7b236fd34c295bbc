use serde::{Deserialize, Serialize};

use crate::log::Measured;

/// What a keeper has to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Task {
    /// Harvest the screen.
    Harvest,
    /// Change water.
    WaterChange,
    /// Replace the screen: scraping has taken its hold.
    NewScreen,
    /// Replace the lamps: they have lost 30 % of their light.
    NewLamps,
    /// Replace the iron-oxide medium: it is loaded.
    NewIronOxide,
    /// Calibrate a probe.
    CalibrateProbe(Measured),
    /// Test the water.
    Test(Measured),
}

impl Task {
    /// The task in words.
    #[must_use]
    pub fn words(self) -> String {
        match self {
            Self::Harvest => "harvest".to_owned(),
            Self::WaterChange => "change water".to_owned(),
            Self::NewScreen => "a new screen".to_owned(),
            Self::NewLamps => "new lamps".to_owned(),
            Self::NewIronOxide => "new iron-oxide medium".to_owned(),
            Self::CalibrateProbe(measured) => format!("calibrate the {} probe", measured.words()),
            Self::Test(measured) => format!("test {}", measured.words()),
        }
    }

    /// What to take care of while doing it; empty where there is nothing.
    #[must_use]
    pub const fn caution(self) -> &'static str {
        match self {
            Self::Harvest => {
                "Switch off pump and lamps first: mains and salt water. Leave some turf on the \
                 screen: it regrows from there."
            }
            Self::WaterChange => {
                "Match temperature and salinity, and let new water mix for a day. Switch off \
                 heaters that would run dry."
            }
            Self::NewScreen => {
                "A bare screen takes up little for weeks: feed less or keep part of the old one, \
                 and test ammonia, nitrate and phosphate meanwhile."
            }
            Self::NewLamps => {
                "Mains near water: unplug first, follow the lamp's own instructions and leave \
                 wiring to a licensed electrician. New lamps are brighter: raise the hours step \
                 by step."
            }
            Self::NewIronOxide => {
                "Rinse it, and begin with half the amount: phosphate that falls within days harms \
                 corals. Never aim for zero."
            }
            Self::CalibrateProbe(_) => {
                "Use fresh buffers or standards at tank temperature. Let no controller dose \
                 while the probe is out of the tank."
            }
            Self::Test(_) => "Keep reagents from children and animals, and mind their dates.",
        }
    }

    /// A name without spaces, the same in every version.
    pub(super) fn slug(self) -> String {
        match self {
            Self::Harvest => "harvest".to_owned(),
            Self::WaterChange => "water-change".to_owned(),
            Self::NewScreen => "new-screen".to_owned(),
            Self::NewLamps => "new-lamps".to_owned(),
            Self::NewIronOxide => "new-iron-oxide".to_owned(),
            Self::CalibrateProbe(measured) => format!("calibrate-{}", measured.words()),
            Self::Test(measured) => format!("test-{}", measured.words()),
        }
    }
}

/// A task and its day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Upkeep {
    /// Time since the start of the description, d. A plan begins today; what a log
    /// makes overdue is due on its last day.
    pub day: f64,
    /// Days between which nine members in ten place it; none where a rhythm sets it.
    pub range: Option<[f64; 2]>,
    /// What is due.
    pub task: Task,
    /// Which of its kind it is since the start, counted from 1: the same while the
    /// day of it is forecast anew.
    pub number: u32,
    /// Why then.
    pub reason: String,
}
