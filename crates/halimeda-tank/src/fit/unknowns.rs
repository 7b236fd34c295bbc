//! What is unknown of a tank before its log is read.

use serde::{Deserialize, Serialize};
use statrs::distribution::{ContinuousCDF, Normal};

use crate::parameters::Parameters;
use crate::ranges::{ParameterRange, Ranges};
use crate::tank::{Event, Setup};

/// What of the setup is known to a factor only.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum SetupUnknown {
    /// Food that is eaten, per food that is said to be fed.
    Feeding,
    /// CO2 of the room's air.
    RoomCo2,
    /// Irradiance on the screen.
    ScreenIrradiance,
    /// Turf at the start.
    Turf,
    /// Detritus at the start.
    Detritus,
    /// Nitrate at the start.
    Nitrate,
    /// Phosphate at the start.
    Phosphate,
    /// Alkalinity at the start.
    Alkalinity,
    /// Calcium at the start.
    Calcium,
    /// Magnesium at the start.
    Magnesium,
}

impl SetupUnknown {
    /// All of them.
    pub const ALL: &'static [Self] = &[
        Self::Feeding,
        Self::RoomCo2,
        Self::ScreenIrradiance,
        Self::Turf,
        Self::Detritus,
        Self::Nitrate,
        Self::Phosphate,
        Self::Alkalinity,
        Self::Calcium,
        Self::Magnesium,
    ];

    /// Its name beside those of the parameters.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Feeding => "feeding.eaten_per_stated",
            Self::RoomCo2 => "air.co2_ppm",
            Self::ScreenIrradiance => "screen.irradiance_umol_per_m2_s",
            Self::Turf => "start.turf_g_dry_per_m2",
            Self::Detritus => "start.detritus_dry_grams",
            Self::Nitrate => "start.nitrate_umol_per_kg",
            Self::Phosphate => "start.phosphate_umol_per_kg",
            Self::Alkalinity => "start.alkalinity_umol_per_kg",
            Self::Calcium => "start.calcium_umol_per_kg",
            Self::Magnesium => "start.magnesium_umol_per_kg",
        }
    }

    /// Its unit; "1" for a ratio.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Feeding => "1",
            Self::RoomCo2 => "ppm",
            Self::ScreenIrradiance => "µmol m⁻² s⁻¹",
            Self::Turf => "g/m²",
            Self::Detritus => "g",
            Self::Nitrate
            | Self::Phosphate
            | Self::Alkalinity
            | Self::Calcium
            | Self::Magnesium => "µmol/kg",
        }
    }

    /// Standard deviation of the logarithm of what is stated: how well a keeper knows
    /// it. Common practice, no source.
    const fn log_sd(self) -> f64 {
        match self {
            Self::Feeding | Self::RoomCo2 => 0.2,
            Self::ScreenIrradiance => 0.15,
            Self::Turf | Self::Phosphate => 0.4,
            Self::Detritus => 0.7,
            Self::Nitrate => 0.25,
            Self::Alkalinity | Self::Calcium | Self::Magnesium => 0.03,
        }
    }

    /// What is added before and taken off after the factor, so that a stated zero
    /// stands for less than a kit can show.
    const fn floor(self) -> f64 {
        match self {
            Self::Nitrate => 2.0,
            Self::Phosphate => 0.1,
            _ => 0.0,
        }
    }

    fn stated(self, setup: &Setup) -> f64 {
        let (tank, water) = (&setup.tank, &setup.tank.water);
        match self {
            Self::Feeding => 1.0,
            Self::RoomCo2 => tank.air.co2_ppm,
            Self::ScreenIrradiance => tank.screen.irradiance_umol_per_m2_s,
            Self::Turf => tank.screen.turf_g_dry_per_m2,
            Self::Detritus => water.detritus_dry_grams,
            Self::Nitrate => water.nitrate_umol_per_kg,
            Self::Phosphate => water.phosphate_umol_per_kg,
            Self::Alkalinity => water.alkalinity_umol_per_kg,
            Self::Calcium => water.calcium_umol_per_kg,
            Self::Magnesium => water.magnesium_umol_per_kg,
        }
    }

    fn set(self, setup: &mut Setup, value: f64) {
        let Setup { tank, schedule } = setup;
        let water = &mut tank.water;
        match self {
            Self::Feeding => {
                for feeding in &mut schedule.feedings {
                    feeding.grams *= value;
                }
                for dated in &mut schedule.events {
                    if let Event::Feeding { grams, .. } = &mut dated.event {
                        *grams *= value;
                    }
                }
            }
            Self::RoomCo2 => {
                if let Some(foam) = &mut tank.foam_fractionator {
                    // Air drawn from the room is the room's.
                    if foam.air_co2_ppm.total_cmp(&tank.air.co2_ppm).is_eq() {
                        foam.air_co2_ppm = value;
                    }
                }
                tank.air.co2_ppm = value;
            }
            Self::ScreenIrradiance => tank.screen.irradiance_umol_per_m2_s = value,
            Self::Turf => tank.screen.turf_g_dry_per_m2 = value,
            Self::Detritus => water.detritus_dry_grams = value,
            Self::Nitrate => water.nitrate_umol_per_kg = value,
            Self::Phosphate => water.phosphate_umol_per_kg = value,
            Self::Alkalinity => water.alkalinity_umol_per_kg = value,
            Self::Calcium => water.calcium_umol_per_kg = value,
            Self::Magnesium => water.magnesium_umol_per_kg = value,
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Unknown {
    Parameter { index: usize, range: ParameterRange },
    Setup { of: SetupUnknown, stated: f64 },
}

impl Unknown {
    /// The value whose prior quantile is that of a standard normal number.
    pub(super) fn value(&self, z: f64) -> f64 {
        match self {
            Self::Parameter { range, .. } => range.at(Normal::standard().cdf(z)),
            Self::Setup { of, stated } => {
                let floor = of.floor();
                ((stated + floor) * (of.log_sd() * z).exp() - floor).max(0.0)
            }
        }
    }

    pub(super) fn path(&self) -> String {
        match self {
            Self::Parameter { index, .. } => Parameters::infos()
                .nth(*index)
                .map_or_else(String::new, |(group, info)| {
                    format!("{group}.{}", info.name)
                }),
            Self::Setup { of, .. } => of.name().to_owned(),
        }
    }

    pub(super) fn unit(&self) -> &'static str {
        match self {
            Self::Parameter { index, .. } => Parameters::infos()
                .nth(*index)
                .map_or("", |(_, info)| info.unit),
            Self::Setup { of, .. } => of.unit(),
        }
    }
}

/// What lies near, in standard deviations.
const NEAR: f64 = 0.7;

/// Everything unknown, each as one standard normal number.
pub(super) struct Unknowns {
    pub(super) all: Vec<Unknown>,
    setup: Setup,
    nominal: Parameters,
}

impl Unknowns {
    pub(super) fn of(setup: &Setup, ranges: &Ranges) -> Self {
        let parameters = ranges.all().enumerate().filter_map(|(index, range)| {
            (range.high > range.low).then_some(Unknown::Parameter { index, range })
        });
        let of_setup = SetupUnknown::ALL.iter().filter_map(|&of| {
            let stated = of.stated(setup);
            (stated + of.floor() > 0.0).then_some(Unknown::Setup { of, stated })
        });
        Self {
            all: parameters.chain(of_setup).collect(),
            setup: setup.clone(),
            nominal: ranges.nominal(),
        }
    }

    pub(super) fn len(&self) -> usize {
        self.all.len()
    }

    /// How much faster an unknown's value changes about a place, in the mean over what
    /// lies near, than over one step from it. The two halves of a range have slopes
    /// of their own, and one step sees one of them.
    pub(super) fn mean_slope(&self, direction: usize, z: f64, step: f64) -> f64 {
        let Some(unknown) = self.all.get(direction) else {
            return 1.0;
        };
        let slope = |from: f64, to: f64| (unknown.value(to) - unknown.value(from)) / (to - from);
        let ratio = slope(z - NEAR, z + NEAR) / slope(z, z + step);
        if ratio.is_finite() { ratio } else { 1.0 }
    }

    /// The tank and the parameters of a point.
    pub(super) fn at(&self, z: &[f64]) -> (Setup, Parameters) {
        let mut setup = self.setup.clone();
        let mut parameters = self.nominal;
        for (unknown, &z) in self.all.iter().zip(z) {
            let value = unknown.value(z);
            match unknown {
                Unknown::Parameter { index, .. } => {
                    parameters = parameters.with_value(*index, value);
                }
                Unknown::Setup { of, .. } => of.set(&mut setup, value),
            }
        }
        (setup, parameters)
    }
}
