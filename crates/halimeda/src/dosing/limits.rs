use crate::error::within;
use crate::quantity::{
    Alkalinity, Aragonite, Concentration, Ph, SaturationState, TotalScale, Volume, form,
};
use crate::{ErrorKind, Result};

/// What a dose is judged by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
#[repr(u8)]
pub enum Limit {
    /// Net rise of alkalinity in a day.
    AlkalinityPerDay,
    /// Net rise of calcium in a day.
    CalciumPerDay,
    /// Net rise of magnesium in a day.
    MagnesiumPerDay,
    /// Net rise of nitrate in a day.
    NitratePerDay,
    /// Net rise of phosphate in a day.
    PhosphatePerDay,
    /// Net rise of salinity in a day.
    SalinityPerDay,
    /// Step of pH, up or down, by one portion.
    PhStep,
    /// Highest pH that a portion, or a day's dosing after CO2 exchange, may reach.
    PhCeiling,
    /// Lowest pH likewise.
    PhFloor,
    /// Highest pH after a day's dosing if the water took up no CO2.
    PhWithoutExchange,
    /// Highest saturation state of aragonite.
    AragoniteSaturation,
    /// Highest alkalinity that dosing may reach.
    AlkalinityCeiling,
    /// Highest calcium that dosing may reach.
    CalciumCeiling,
    /// Highest magnesium that dosing may reach.
    MagnesiumCeiling,
    /// Solution per day against evaporation.
    SolutionPerDay,
}

struct Facts {
    name: &'static str,
    unit: &'static str,
    default: f64,
    hard: f64,
    source: &'static str,
}

const PRACTICE: &str = "common practice, no source";

impl Limit {
    pub(super) const COUNT: usize = 15;

    /// Every limit.
    pub const ALL: [Self; Self::COUNT] = [
        Self::AlkalinityPerDay,
        Self::CalciumPerDay,
        Self::MagnesiumPerDay,
        Self::NitratePerDay,
        Self::PhosphatePerDay,
        Self::SalinityPerDay,
        Self::PhStep,
        Self::PhCeiling,
        Self::PhFloor,
        Self::PhWithoutExchange,
        Self::AragoniteSaturation,
        Self::AlkalinityCeiling,
        Self::CalciumCeiling,
        Self::MagnesiumCeiling,
        Self::SolutionPerDay,
    ];

    const fn facts(self) -> Facts {
        let (name, unit, default, hard, source) = match self {
            // 1 and 3 dKH.
            Self::AlkalinityPerDay => (
                "rise of alkalinity per day",
                "µmol/kg",
                350.0,
                1050.0,
                PRACTICE,
            ),
            Self::CalciumPerDay => ("rise of calcium per day", "mg/L", 20.0, 50.0, PRACTICE),
            Self::MagnesiumPerDay => ("rise of magnesium per day", "mg/L", 50.0, 100.0, PRACTICE),
            Self::NitratePerDay => (
                "rise of nitrate (as NO3) per day",
                "mg/L",
                2.0,
                5.0,
                PRACTICE,
            ),
            Self::PhosphatePerDay => (
                "rise of phosphate (as PO4) per day",
                "mg/L",
                0.03,
                0.1,
                PRACTICE,
            ),
            Self::SalinityPerDay => (
                "rise of salinity per day",
                "(practical salinity)",
                0.3,
                1.0,
                PRACTICE,
            ),
            Self::PhStep => (
                "step of pH (total scale) by one dose",
                "(pH)",
                0.1,
                0.2,
                PRACTICE,
            ),
            Self::PhCeiling => ("pH (total scale) after dosing", "(pH)", 8.4, 8.5, PRACTICE),
            Self::PhFloor => ("pH (total scale) after dosing", "(pH)", 7.7, 7.6, PRACTICE),
            Self::PhWithoutExchange => (
                "pH (total scale) after a day's dosing without CO2 exchange",
                "(pH)",
                8.5,
                8.7,
                PRACTICE,
            ),
            Self::AragoniteSaturation => (
                "aragonite saturation state after dosing",
                "(dimensionless)",
                7.0,
                10.0,
                "calcium carbonate precipitated from seawater dosed with lime above 7 and not at \
                 5: Moras et al. (2022) Biogeosciences 19, 3537-3557, doi \
                 10.5194/bg-19-3537-2022; the hard limit is common practice, no source",
            ),
            // 12 and 14 dKH.
            Self::AlkalinityCeiling => (
                "alkalinity after dosing",
                "µmol/kg",
                4200.0,
                4900.0,
                PRACTICE,
            ),
            Self::CalciumCeiling => ("calcium after dosing", "mg/L", 480.0, 550.0, PRACTICE),
            Self::MagnesiumCeiling => ("magnesium after dosing", "mg/L", 1500.0, 1600.0, PRACTICE),
            Self::SolutionPerDay => (
                "solution dosed per day",
                "L",
                f64::INFINITY,
                f64::INFINITY,
                "more water than evaporates lowers salinity and raises the level",
            ),
        };
        Facts {
            name,
            unit,
            default,
            hard,
            source,
        }
    }

    /// What the limit holds, for messages.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.facts().name
    }

    /// Unit of its numbers.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        self.facts().unit
    }

    /// Where the numbers come from.
    #[must_use]
    pub const fn source(self) -> &'static str {
        self.facts().source
    }

    /// The value a dose may reach unless the keeper chooses otherwise.
    #[must_use]
    pub const fn default_value(self) -> f64 {
        self.facts().default
    }

    /// The value past which no setting lets a dose pass.
    #[must_use]
    pub const fn hard_value(self) -> f64 {
        self.facts().hard
    }

    /// Whether values below the limit, instead of above, exceed it.
    #[must_use]
    pub const fn is_floor(self) -> bool {
        matches!(self, Self::PhFloor)
    }

    const fn index(self) -> usize {
        self as usize
    }
}

/// The limits a dose is judged by: cautious defaults that a keeper may move,
/// each up to a hard value beyond which a dose is always refused.
///
/// The numbers are common practice without a source, but for the saturation
/// state ([`Limit::source`]): they keep daily changes to what reef keepers see
/// animals bear. They are not a promise for every animal.
///
/// ```
/// use halimeda::Alkalinity;
/// use halimeda::dosing::DoseLimits;
/// let patient = DoseLimits::default()
///     .with_alkalinity_per_day(Alkalinity::from_umol_per_kg(180.0)?)?;
/// let reckless = DoseLimits::default()
///     .with_alkalinity_per_day(Alkalinity::from_umol_per_kg(3000.0)?)
///     .unwrap_err();
/// assert_eq!(reckless.limits(), Some((0.0, 1050.0)));
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[must_use]
pub struct DoseLimits {
    values: [f64; Limit::COUNT],
    evaporation: Option<Volume>,
}

impl Default for DoseLimits {
    fn default() -> Self {
        Self {
            values: Limit::ALL.map(Limit::default_value),
            evaporation: None,
        }
    }
}

macro_rules! setters {
    ($( $(#[$doc:meta])* $name:ident($type:ty, $accessor:ident) = $limit:ident; )*) => {
        $(
            $(#[$doc])*
            ///
            /// # Errors
            #[doc = concat!(
                "The value is past the hard value of [`Limit::", stringify!($limit), "`]."
            )]
            pub fn $name(self, value: $type) -> Result<Self> {
                self.with(Limit::$limit, value.$accessor())
            }
        )*
    };
}

impl DoseLimits {
    setters! {
        /// With another limit on the rise of alkalinity in a day.
        with_alkalinity_per_day(Alkalinity, umol_per_kg) = AlkalinityPerDay;
        /// With another limit on the rise of calcium in a day.
        with_calcium_per_day(Concentration<form::CalciumAsCa>, mg_per_l) = CalciumPerDay;
        /// With another limit on the rise of magnesium in a day.
        with_magnesium_per_day(Concentration<form::MagnesiumAsMg>, mg_per_l) = MagnesiumPerDay;
        /// With another limit on the rise of nitrate in a day.
        with_nitrate_per_day(Concentration<form::NitrateAsNo3>, mg_per_l) = NitratePerDay;
        /// With another limit on the rise of phosphate in a day.
        with_phosphate_per_day(Concentration<form::PhosphateAsPo4>, mg_per_l) = PhosphatePerDay;
        /// With another highest pH, which a probe calibrated in NBS buffers
        /// shows as about 0.13 more.
        with_ph_ceiling(Ph<TotalScale>, value) = PhCeiling;
        /// With another lowest pH.
        with_ph_floor(Ph<TotalScale>, value) = PhFloor;
        /// With another highest pH for a day without CO2 exchange.
        with_ph_without_exchange(Ph<TotalScale>, value) = PhWithoutExchange;
        /// With another highest saturation state of aragonite.
        with_aragonite_saturation(SaturationState<Aragonite>, value) = AragoniteSaturation;
        /// With another highest alkalinity.
        with_alkalinity_ceiling(Alkalinity, umol_per_kg) = AlkalinityCeiling;
        /// With another highest calcium.
        with_calcium_ceiling(Concentration<form::CalciumAsCa>, mg_per_l) = CalciumCeiling;
        /// With another highest magnesium.
        with_magnesium_ceiling(Concentration<form::MagnesiumAsMg>, mg_per_l) = MagnesiumCeiling;
    }

    /// With another limit on the rise of practical salinity in a day.
    ///
    /// # Errors
    /// The value is past the hard value of [`Limit::SalinityPerDay`].
    pub fn with_practical_salinity_per_day(self, rise: f64) -> Result<Self> {
        self.with(Limit::SalinityPerDay, rise)
    }

    /// With another limit on the step of pH by one portion.
    ///
    /// # Errors
    /// The value is past the hard value of [`Limit::PhStep`].
    pub fn with_ph_step(self, step: f64) -> Result<Self> {
        self.with(Limit::PhStep, step)
    }

    /// In a system that evaporates this much a day, which solutions, limewater
    /// above all, may not exceed.
    pub const fn with_evaporation_per_day(mut self, evaporation: Volume) -> Self {
        self.evaporation = Some(evaporation);
        self
    }

    /// The value of a limit in [`Limit::unit`].
    #[must_use]
    pub fn value(&self, limit: Limit) -> f64 {
        match (limit, self.evaporation) {
            (Limit::SolutionPerDay, Some(evaporation)) => evaporation.litres(),
            _ => self
                .values
                .get(limit.index())
                .copied()
                .unwrap_or_else(|| limit.default_value()),
        }
    }

    /// Water that evaporates in a day, where it was said.
    #[must_use]
    pub const fn evaporation_per_day(&self) -> Option<Volume> {
        self.evaporation
    }

    fn with(mut self, limit: Limit, value: f64) -> Result<Self> {
        let hard = limit.hard_value();
        let value = if limit.is_floor() {
            within(limit.name(), value, hard, 14.0, limit.unit())?
        } else {
            within(limit.name(), value, 0.0, hard, limit.unit())?
        };
        if let Some(slot) = self.values.get_mut(limit.index()) {
            *slot = value;
        }
        Ok(self)
    }
}

/// What a value past a limit is reported as.
pub(super) fn refusal(limit: Limit, value: f64, allowed: f64) -> crate::Error {
    let (min, max) = if limit.is_floor() {
        (allowed, 14.0)
    } else {
        (0.0, allowed)
    };
    crate::Error::from(ErrorKind::OutOfRange {
        input: limit.name(),
        value,
        min,
        max,
        unit: limit.unit(),
    })
}
