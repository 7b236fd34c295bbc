use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::words::{clock, percent, with_unit};
use crate::error::{Result, within};
use crate::tank::{HarvestPlan, Setup};

/// Something a keeper can change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Lever {
    /// Area of the screen, multiple of the described one; width and height change alike.
    ScreenArea,
    /// Irradiance on each lit face, µmol m⁻² s⁻¹.
    Irradiance,
    /// Daily hours of light over the screen.
    LitHours,
    /// Hour of the day at which the screen's light comes on.
    StartHour,
    /// Water over the screen per width, L/h per cm.
    FlowPerWidth,
    /// Days between harvests.
    HarvestInterval,
    /// Share of the turf left at a harvest.
    KeptShare,
    /// Feed, multiple of the described.
    Feeding,
    /// Share of the water changed at a water change.
    WaterChangeShare,
    /// Days between water changes.
    WaterChangeInterval,
    /// Water over the overflow, L/h.
    Overflow,
    /// Open water surface, m².
    OpenSurface,
    /// Water through the foam fractionator, L/h.
    FoamFlow,
}

/// Bounds of a lever.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Bounds {
    /// Least.
    pub low: f64,
    /// Most.
    pub high: f64,
}

/// A lever and where it stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Setting {
    /// The lever.
    pub lever: Lever,
    /// Its value, in the lever's unit.
    pub value: f64,
}

/// Turf below which a screen counts as new, g dry per m²: too thin to harvest.
const THIN_TURF_G_PER_M2: f64 = 20.0;

/// Day of the first harvest of a new screen: it is left alone for three weeks.
/// Common practice, no source.
const FIRST_HARVEST_DAY: f64 = 21.0;

/// Share left at a harvest if nothing says otherwise: common practice, no source.
const KEPT_SHARE: f64 = 0.25;

/// Days between harvests if nothing says otherwise: common practice, no source.
const HARVEST_DAYS: f64 = 10.0;

impl Lever {
    /// All of them.
    pub const ALL: &'static [Self] = &[
        Self::ScreenArea,
        Self::Irradiance,
        Self::LitHours,
        Self::StartHour,
        Self::FlowPerWidth,
        Self::HarvestInterval,
        Self::KeptShare,
        Self::Feeding,
        Self::WaterChangeShare,
        Self::WaterChangeInterval,
        Self::Overflow,
        Self::OpenSurface,
        Self::FoamFlow,
    ];

    /// What it is, in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        self.facts().0
    }

    /// Its unit.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        self.facts().1
    }

    /// Words, unit, smallest step worth making, least and most that can be asked for.
    const fn facts(self) -> (&'static str, &'static str, f64, f64, f64) {
        match self {
            Self::ScreenArea => ("screen area", "times the present", 0.05, 0.01, 100.0),
            Self::Irradiance => ("irradiance on the screen", "µmol/m²/s", 10.0, 0.0, 3000.0),
            Self::LitHours => ("lit hours of the screen", "h/d", 0.5, 0.0, 24.0),
            Self::StartHour => ("start of the screen's light", "h", 0.5, 0.0, 24.0),
            Self::FlowPerWidth => ("flow over the screen", "L/h per cm", 1.0, 0.0, 1000.0),
            Self::HarvestInterval => ("time between harvests", "d", 1.0, 1.0, 365.0),
            Self::KeptShare => ("share left at a harvest", "", 0.05, 0.0, 0.95),
            Self::Feeding => ("feed", "times the present", 0.05, 0.0, 10.0),
            Self::WaterChangeShare => ("share of a water change", "", 0.01, 0.0, 1.0),
            Self::WaterChangeInterval => ("time between water changes", "d", 1.0, 1.0, 365.0),
            Self::Overflow => ("overflow", "L/h", 10.0, 0.0, 1e7),
            Self::OpenSurface => ("open water surface", "m²", 0.01, 0.0, 1e5),
            Self::FoamFlow => ("water through the foam fractionator", "L/h", 10.0, 0.0, 1e6),
        }
    }

    /// Where the lever stands in a setup; none where the setup lacks it (water
    /// changes, foam fractionator) and nothing says what it would be.
    #[must_use]
    pub fn value(self, setup: &Setup) -> Option<f64> {
        let Setup { tank, schedule } = setup;
        Some(match self {
            Self::ScreenArea | Self::Feeding => 1.0,
            Self::Irradiance => tank.screen.irradiance_umol_per_m2_s,
            Self::LitHours => schedule.screen_light.hours,
            Self::StartHour => schedule.screen_light.start_hour,
            Self::FlowPerWidth => tank.screen.flow_l_per_h_per_cm,
            Self::HarvestInterval => schedule.harvest.map_or(HARVEST_DAYS, |h| h.every_days),
            Self::KeptShare => schedule.harvest.map_or(KEPT_SHARE, |h| h.kept_share),
            Self::WaterChangeShare => schedule.water_change?.share,
            Self::WaterChangeInterval => schedule.water_change?.every_days,
            Self::Overflow => tank.overflow_l_per_h,
            Self::OpenSurface => tank.surface_area_m2,
            Self::FoamFlow => tank.foam_fractionator?.water_l_per_h,
        })
    }

    fn set(self, setup: &mut Setup, value: f64) {
        let Setup { tank, schedule } = setup;
        match self {
            Self::ScreenArea => {
                tank.screen.width_cm *= value.sqrt();
                tank.screen.height_cm *= value.sqrt();
            }
            Self::Irradiance => tank.screen.irradiance_umol_per_m2_s = value,
            Self::LitHours => schedule.screen_light.hours = value,
            Self::StartHour => schedule.screen_light.start_hour = value,
            Self::FlowPerWidth => tank.screen.flow_l_per_h_per_cm = value,
            Self::HarvestInterval | Self::KeptShare => {
                let new = tank.screen.turf_g_dry_per_m2 < THIN_TURF_G_PER_M2;
                let harvest = schedule.harvest.get_or_insert(HarvestPlan {
                    every_days: HARVEST_DAYS,
                    first_day: if new { FIRST_HARVEST_DAY } else { HARVEST_DAYS },
                    kept_share: KEPT_SHARE,
                    fed_back_share: 0.0,
                });
                if self == Self::KeptShare {
                    harvest.kept_share = value;
                } else {
                    harvest.every_days = value;
                }
            }
            Self::Feeding => {
                for feeding in &mut schedule.feedings {
                    feeding.grams *= value;
                }
            }
            Self::WaterChangeShare => {
                if let Some(change) = &mut schedule.water_change {
                    change.share = value;
                }
            }
            Self::WaterChangeInterval => {
                if let Some(change) = &mut schedule.water_change {
                    change.every_days = value;
                }
            }
            Self::Overflow => tank.overflow_l_per_h = value,
            Self::OpenSurface => tank.surface_area_m2 = value,
            Self::FoamFlow => {
                if let Some(foam) = &mut tank.foam_fractionator {
                    foam.water_l_per_h = value;
                }
            }
        }
    }

    /// A value of the lever, in words.
    pub(super) fn worded(self, value: f64) -> String {
        match self {
            Self::StartHour => clock(value),
            Self::KeptShare | Self::WaterChangeShare => percent(value),
            Self::ScreenArea | Self::Feeding => format!("{} of the present", percent(value)),
            _ => with_unit(value, self.unit()),
        }
    }

    /// The smallest step worth making.
    pub(super) const fn step(self) -> f64 {
        self.facts().2
    }

    /// The nearest value a keeper would set, within bounds.
    pub(super) fn rounded(self, value: f64, bounds: Bounds) -> f64 {
        let step = self.step();
        let rounded = (value / step).round() * step;
        // Multiples of a decimal step carry its rounding.
        let rounded = (rounded * 1e6).round() / 1e6;
        rounded.clamp(bounds.low, bounds.high)
    }
}

impl Setup {
    /// This setup with levers set. Area and feeding are multiples of what they
    /// are here; what the setup lacks (water changes, foam fractionator) stays so.
    #[must_use]
    pub fn with(&self, settings: &[Setting]) -> Self {
        let mut setup = self.clone();
        for setting in settings {
            setting.lever.set(&mut setup, setting.value);
        }
        setup
    }
}

/// The levers that may be moved, each within its bounds. All others stay as
/// described.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Levers {
    bounds: BTreeMap<Lever, Bounds>,
}

impl Levers {
    /// None may be moved.
    #[must_use]
    pub fn none() -> Self {
        Self {
            bounds: BTreeMap::new(),
        }
    }

    /// With a lever free within bounds.
    #[must_use]
    pub fn with(mut self, lever: Lever, low: f64, high: f64) -> Self {
        self.bounds.insert(lever, Bounds { low, high });
        self
    }

    /// With a lever held as described.
    #[must_use]
    pub fn without(mut self, lever: Lever) -> Self {
        self.bounds.remove(&lever);
        self
    }

    /// Every free lever with its bounds.
    pub fn iter(&self) -> impl Iterator<Item = (Lever, Bounds)> {
        self.bounds.iter().map(|(&lever, &bounds)| (lever, bounds))
    }

    /// Checks the bounds.
    ///
    /// # Errors
    /// A bound is not finite, out of order or outside what the lever allows.
    pub fn check(&self) -> Result<()> {
        for (lever, bounds) in self.iter() {
            let (words, _, _, least, most) = lever.facts();
            within(words, bounds.low, least, most)?;
            within(words, bounds.high, bounds.low, most)?;
        }
        Ok(())
    }

    /// The free levers that a setup has.
    pub(super) fn of(&self, setup: &Setup) -> Vec<(Lever, Bounds)> {
        self.iter()
            .filter(|(lever, _)| lever.value(setup).is_some())
            .collect()
    }
}

impl Default for Levers {
    /// What a keeper can change without changing the animals' lives: screen, light
    /// and harvests, within common practice (no source).
    fn default() -> Self {
        Self::none()
            .with(Lever::ScreenArea, 0.25, 4.0)
            .with(Lever::Irradiance, 80.0, 500.0)
            .with(Lever::LitHours, 6.0, 22.0)
            .with(Lever::StartHour, 0.0, 24.0)
            .with(Lever::HarvestInterval, 5.0, 21.0)
            .with(Lever::KeptShare, 0.1, 0.5)
    }
}

/// A lever that a plan moves.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Move {
    /// The lever.
    pub lever: Lever,
    /// Where it stands.
    pub from: f64,
    /// Where it should stand.
    pub to: f64,
    /// Unit of both.
    pub unit: String,
}

impl Move {
    /// The move as an instruction.
    #[must_use]
    pub fn words(&self) -> String {
        let words = self.lever.words();
        let (from, to) = (self.lever.worded(self.from), self.lever.worded(self.to));
        if self.from.total_cmp(&self.to).is_eq() {
            format!("keep the {words} at {to}")
        } else {
            format!("set the {words} from {from} to {to}")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::setup;

    /// What is set can be read again, for every lever the setup has.
    #[test]
    fn levers_read_what_they_set() {
        let setup = setup();
        for &lever in Lever::ALL {
            let (_, _, _, least, most) = lever.facts();
            let value = 0.5 * (least + most.min(20.0));
            let changed = setup.with(&[Setting { lever, value }]);
            match lever {
                Lever::ScreenArea => {
                    let ratio = changed.tank.screen.lit_area_m2() / setup.tank.screen.lit_area_m2();
                    assert!((ratio - value).abs() < 1e-12);
                }
                Lever::Feeding => {
                    let ratio =
                        changed.schedule.feedings[0].grams / setup.schedule.feedings[0].grams;
                    assert!((ratio - value).abs() < 1e-12);
                }
                _ if lever.value(&setup).is_none() => assert_eq!(changed, setup),
                _ => assert_eq!(lever.value(&changed), Some(value), "{lever:?}"),
            }
        }
    }

    #[test]
    fn bounds_out_of_order_or_reach_are_refused() {
        Levers::default().check().unwrap();
        for (low, high) in [(12.0, 6.0), (-1.0, 6.0), (0.0, 25.0), (f64::NAN, 3.0)] {
            assert!(
                Levers::none()
                    .with(Lever::LitHours, low, high)
                    .check()
                    .is_err()
            );
        }
    }

    #[test]
    fn rounding_keeps_to_steps_and_bounds() {
        let bounds = Bounds {
            low: 6.0,
            high: 21.75,
        };
        assert_eq!(Lever::LitHours.rounded(12.26, bounds), 12.5);
        assert_eq!(Lever::LitHours.rounded(22.0, bounds), 21.75);
        assert_eq!(
            Lever::KeptShare.rounded(
                0.3201,
                Bounds {
                    low: 0.0,
                    high: 1.0
                }
            ),
            0.3
        );
    }
}
