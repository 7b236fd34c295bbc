use halimeda::form;
use halimeda::nutrient::AmmoniaVerdict;
use halimeda::quantity::Form as _;
use serde::{Deserialize, Serialize};

use super::words::{number, with_unit};
use crate::description::{self, Band};
use crate::error::{Result, within};
use crate::model::water_of;
use crate::outcome::Outcome;
use crate::tank::Tank;

/// What a keeper wants of the water.
///
/// The defaults are common practice, no source, but for ammonia.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Goals {
    /// Nitrate, mg/L as NO3: within the band nine tenths of the time.
    pub nitrate_mg_per_l: Band,
    /// Phosphate, mg/L as PO4: within the band nine tenths of the time.
    pub phosphate_mg_per_l: Band,
    /// Largest swing of pH in a day.
    pub daily_ph_swing: f64,
    /// Least oxygen at night, share of saturation.
    pub night_oxygen_saturation: f64,
    /// Largest drift of alkalinity, up or down, µmol/kg per day.
    pub alkalinity_drift_umol_per_kg_per_day: f64,
    /// Most un-ionised ammonia, mg/L as NH3: by default the limit for days of
    /// exposure of the US EPA ([`AmmoniaVerdict::CHRONIC_MG_PER_L`]).
    pub unionised_ammonia_mg_per_l: f64,
}

impl Default for Goals {
    fn default() -> Self {
        Self {
            nitrate_mg_per_l: Band {
                low: 1.0,
                high: 10.0,
            },
            phosphate_mg_per_l: Band {
                low: 0.02,
                high: 0.15,
            },
            daily_ph_swing: 0.3,
            night_oxygen_saturation: 0.8,
            // A tenth of a German degree.
            alkalinity_drift_umol_per_kg_per_day: 36.0,
            unionised_ammonia_mg_per_l: AmmoniaVerdict::CHRONIC_MG_PER_L,
        }
    }
}

/// One of the goals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Goal {
    /// Nitrate in its band.
    Nitrate,
    /// Phosphate in its band.
    Phosphate,
    /// A small daily pH swing.
    PhSwing,
    /// Enough oxygen at night.
    NightOxygen,
    /// Steady alkalinity.
    AlkalinityDrift,
    /// No un-ionised ammonia to speak of.
    Ammonia,
}

impl Goal {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::Nitrate,
        Self::Phosphate,
        Self::PhSwing,
        Self::NightOxygen,
        Self::AlkalinityDrift,
        Self::Ammonia,
    ];
}

/// How an outcome stands to a goal.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct GoalCheck {
    /// The goal.
    pub goal: Goal,
    /// The value farthest from the goal's middle.
    pub value: f64,
    /// Least that meets the goal.
    pub low: Option<f64>,
    /// Most that meets the goal.
    pub high: Option<f64>,
    /// 0 in the middle of a band or far from a limit, 1 on an end or the limit,
    /// more beyond; on the logarithm for nitrate and phosphate.
    pub strain: f64,
}

/// Contents below are no different to animals or test kits, mg/L.
const TRACE_MG_PER_L: f64 = 1e-5;

impl Goals {
    /// What a description asks for, in the units of test kits; by default where it
    /// asks for nothing.
    ///
    /// # Errors
    /// The chemistry does not cover the tank's water.
    pub fn described(goals: &description::Goals, tank: &Tank) -> Result<Self> {
        let kg_per_l = water_of(tank, tank.practical_salinity)?
            .density()?
            .kg_per_l();
        let mg_per_l = |band: Band, grams_per_mol: f64| Band {
            low: band.low * 1e-3 * grams_per_mol * kg_per_l,
            high: band.high * 1e-3 * grams_per_mol * kg_per_l,
        };
        let default = Self::default();
        Ok(Self {
            nitrate_mg_per_l: goals
                .nitrate_umol_per_kg
                .map_or(default.nitrate_mg_per_l, |b| {
                    mg_per_l(b, form::NitrateAsNo3::GRAMS_PER_MOL)
                }),
            phosphate_mg_per_l: goals
                .phosphate_umol_per_kg
                .map_or(default.phosphate_mg_per_l, |b| {
                    mg_per_l(b, form::PhosphateAsPo4::GRAMS_PER_MOL)
                }),
            daily_ph_swing: goals.ph_swing.unwrap_or(default.daily_ph_swing),
            night_oxygen_saturation: goals
                .night_oxygen_saturation
                .unwrap_or(default.night_oxygen_saturation),
            alkalinity_drift_umol_per_kg_per_day: goals
                .alkalinity_drift_umol_per_kg_per_day
                .unwrap_or(default.alkalinity_drift_umol_per_kg_per_day),
            unionised_ammonia_mg_per_l: default.unionised_ammonia_mg_per_l,
        })
    }

    /// Checks that the goals can be asked for.
    ///
    /// # Errors
    /// A number is not finite or outside its limits; a floor is not above zero.
    pub fn check(&self) -> Result<()> {
        for (low, high, band, most) in [
            (
                "goal nitrate low",
                "goal nitrate high",
                self.nitrate_mg_per_l,
                500.0,
            ),
            (
                "goal phosphate low",
                "goal phosphate high",
                self.phosphate_mg_per_l,
                50.0,
            ),
        ] {
            within(low, band.low, 1e-3, most)?;
            within(high, band.high, 1.01 * band.low, most)?;
        }
        within("goal daily_ph_swing", self.daily_ph_swing, 0.01, 2.0)?;
        within(
            "goal night_oxygen_saturation",
            self.night_oxygen_saturation,
            0.1,
            0.99,
        )?;
        within(
            "goal alkalinity_drift_umol_per_kg_per_day",
            self.alkalinity_drift_umol_per_kg_per_day,
            0.1,
            2000.0,
        )?;
        within(
            "goal unionised_ammonia_mg_per_l",
            self.unionised_ammonia_mg_per_l,
            1e-3,
            1.0,
        )?;
        Ok(())
    }

    /// How an outcome stands to every goal, in the order of [`Goal::ALL`].
    #[must_use]
    pub fn checks(&self, outcome: &Outcome) -> [GoalCheck; 6] {
        let o = outcome;
        Goal::ALL.map(|goal| match goal {
            Goal::Nitrate => in_band(
                goal,
                self.nitrate_mg_per_l,
                o.nitrate_p5_mg_per_l,
                o.nitrate_p95_mg_per_l,
            ),
            Goal::Phosphate => in_band(
                goal,
                self.phosphate_mg_per_l,
                o.phosphate_p5_mg_per_l,
                o.phosphate_p95_mg_per_l,
            ),
            Goal::PhSwing => at_most(goal, self.daily_ph_swing, o.daily_ph_swing),
            Goal::NightOxygen => GoalCheck {
                goal,
                value: o.night_oxygen_saturation,
                low: Some(self.night_oxygen_saturation),
                high: None,
                strain: ((1.0 - o.night_oxygen_saturation) / (1.0 - self.night_oxygen_saturation))
                    .max(0.0),
            },
            Goal::AlkalinityDrift => {
                let limit = self.alkalinity_drift_umol_per_kg_per_day;
                let drift = o.alkalinity_drift_umol_per_kg_per_day;
                GoalCheck {
                    goal,
                    value: drift,
                    low: Some(-limit),
                    high: Some(limit),
                    strain: drift.abs() / limit,
                }
            }
            Goal::Ammonia => at_most(
                goal,
                self.unionised_ammonia_mg_per_l,
                o.unionised_ammonia_mg_per_l,
            ),
        })
    }

    /// Whether an outcome meets every goal.
    #[must_use]
    pub fn met_by(&self, outcome: &Outcome) -> bool {
        self.checks(outcome).iter().all(GoalCheck::is_met)
    }
}

fn at_most(goal: Goal, limit: f64, value: f64) -> GoalCheck {
    GoalCheck {
        goal,
        value,
        low: None,
        high: Some(limit),
        strain: value / limit,
    }
}

/// By the end of a spread of values that lies farther from the middle of the band.
fn in_band(goal: Goal, band: Band, least: f64, most: f64) -> GoalCheck {
    let (low, high) = (band.low.ln(), band.high.ln());
    let place = |x: f64| (2.0 * x.max(TRACE_MG_PER_L).ln() - low - high) / (high - low);
    let (below, above) = (-place(least), place(most));
    let (value, strain) = if below > above {
        (least, below)
    } else {
        (most, above)
    };
    GoalCheck {
        goal,
        value,
        low: Some(band.low),
        high: Some(band.high),
        strain: strain.max(0.0),
    }
}

impl GoalCheck {
    /// Whether the goal is met.
    #[must_use]
    pub fn is_met(&self) -> bool {
        self.strain <= 1.0
    }

    /// How far the value lies beyond the nearer limit, in the unit of the goal; 0
    /// if the goal is met.
    #[must_use]
    pub fn shortfall(&self) -> f64 {
        let below = self.low.map_or(0.0, |low| low - self.value);
        let above = self.high.map_or(0.0, |high| self.value - high);
        below.max(above).max(0.0)
    }

    /// What of the goal is missed, in a sentence; none if it is met.
    #[must_use]
    pub fn complaint(&self) -> Option<String> {
        if self.is_met() {
            return None;
        }
        let (what, unit) = match self.goal {
            Goal::Nitrate => ("nitrate", "mg/L"),
            Goal::Phosphate => ("phosphate", "mg/L"),
            Goal::PhSwing => ("the daily pH swing", ""),
            Goal::NightOxygen => ("oxygen at night", "of saturation"),
            Goal::AlkalinityDrift => ("the drift of alkalinity", "µmol/kg per day"),
            Goal::Ammonia => ("un-ionised ammonia", "mg/L"),
        };
        let (side, limit) = match (self.low, self.high) {
            (Some(low), _) if self.value < low => ("below", low),
            (_, Some(high)) => ("above", high),
            // A goal has a limit on the side on which it is missed.
            (Some(low), None) => ("below", low),
            (None, None) => return None,
        };
        Some(format!(
            "{what} reaches {}, {} {side} the limit of {}",
            with_unit(self.value, unit),
            number(self.shortfall()),
            number(limit)
        ))
    }
}

/// Weight of a goal missed against one met: no saving on one makes up for it.
const MISSED: f64 = 50.0;

/// Strain from which a goal counts as missed in a search: a little before it is, so
/// that rounding to what a keeper would set leaves it met.
const NEARLY_MISSED: f64 = 0.95;

/// What a search makes small: the distance from the middle of every band, and far
/// more what is missed of a goal. Without kinks, for a search that fits a quadratic.
pub(super) fn penalty(checks: &[GoalCheck]) -> f64 {
    checks
        .iter()
        .map(|c| c.strain.powi(2) + MISSED * (c.strain - NEARLY_MISSED).max(0.0).powi(2))
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn defaults_can_be_asked_for_and_zero_nutrients_cannot() {
        Goals::default().check().unwrap();
        for band in [
            Band {
                low: 0.0,
                high: 5.0,
            },
            Band {
                low: 5.0,
                high: 5.0,
            },
            Band {
                low: 1.0,
                high: f64::NAN,
            },
        ] {
            let goals = Goals {
                nitrate_mg_per_l: band,
                ..Goals::default()
            };
            assert!(goals.check().is_err(), "{band:?}");
        }
    }

    #[test]
    fn strain_is_one_on_an_end_and_the_complaint_names_the_side() {
        let band = Band {
            low: 1.0,
            high: 9.0,
        };
        let check = |least, most| in_band(Goal::Nitrate, band, least, most);
        assert!(check(3.0, 3.0).strain.abs() < 1e-12);
        assert!((check(1.0, 3.0).strain - 1.0).abs() < 1e-12);
        assert!((check(3.0, 9.0).strain - 1.0).abs() < 1e-12);
        assert_eq!(check(2.0, 5.0).complaint(), None);
        let high = check(2.0, 12.0);
        assert!((high.shortfall() - 3.0).abs() < 1e-12);
        let text = high.complaint().unwrap();
        assert_eq!(text, "nitrate reaches 12 mg/L, 3 above the limit of 9");
        let low = check(0.25, 5.0).complaint().unwrap();
        assert_eq!(low, "nitrate reaches 0.25 mg/L, 0.75 below the limit of 1");
        assert!(check(0.0, 5.0).strain.is_finite());
    }
}
