use super::{AirGas, check, hydrostatic_atm, partial_pressure, vapour_atm};
use crate::error::within;
use crate::quantity::{Content, DeltaP, GasPressure, PercentSaturation, WaterPressure, species};
use crate::relation::Relation;
use crate::{Error, Flagged, Result, Water};

/// ΔP that fish should not meet in water at least a metre deep: 76 mmHg, about
/// 110 % at sea level (Fidler & Miller 1994, British Columbia Water Quality
/// Guidelines for Dissolved Gas Supersaturation, section 9.1.3, marine fish).
///
/// The guideline is lower in shallower water. A limit for corals is not known
/// to us; keep well below.
pub const FISH_DELTA_P_FIDLER_MILLER1994: DeltaP = match DeltaP::from_mmhg(76.0) {
    Ok(limit) => limit,
    Err(_) => unreachable!(),
};

/// ΔP at which the swim bladders of striped bass larvae over-inflated: about
/// 22 mmHg, 103 % (Cornacchia & Colt 1984, J. Fish Dis. 7, 15-27, as quoted by
/// Fidler & Miller 1994, section 9). The figure to keep below in shallow tanks,
/// with fry, and over weeks.
pub const LARVAE_DELTA_P_CORNACCHIA_COLT1984: DeltaP = match DeltaP::from_mmhg(22.0) {
    Ok(limit) => limit,
    Err(_) => unreachable!(),
};

/// Total gas pressure: the pressures of all dissolved gases and of water
/// vapour together.
///
/// Above the pressure of the air gas can leave solution, in the water and in
/// animals (gas bubble disease). The usual causes are a pump that draws air on
/// its suction side and cold water warmed without a chance to degas; oxygen
/// from photosynthesis alone raises it too, but animals use that up. High
/// readings call for finding the leak and vigorous aeration, and sick animals
/// for a veterinarian.
///
/// Definitions after Colt (1984, American Fisheries Society Special
/// Publication 14) and Standard Methods 2810.
///
/// ```
/// use halimeda::gas::TotalGasPressure;
/// use halimeda::{DeltaP, PracticalSalinity, Temperature, Water, WaterPressure};
/// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?)
///     .with_water_pressure(WaterPressure::from_dbar(0.5)?);
/// let gas = TotalGasPressure::from_delta_p(DeltaP::from_mmhg(38.0)?, &water)?.value();
/// assert!((gas.percent() - 105.0).abs() < 1e-9);
/// // Half a metre down the water column already holds the gas in solution.
/// assert!(gas.uncompensated_delta_p().mmhg() < 1.0);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TotalGasPressure {
    pressure: GasPressure,
    air_atm: f64,
    vapour_atm: f64,
    hydrostatic_atm: f64,
}

/// Share of clean dry air that is neither O2, N2 nor Ar: CO2 and traces,
/// counted as in equilibrium.
const TRACE_MOLE_FRACTION: f64 = 1.0
    - <species::Oxygen as AirGas>::DRY_AIR_MOLE_FRACTION
    - <species::Nitrogen as AirGas>::DRY_AIR_MOLE_FRACTION
    - <species::Argon as AirGas>::DRY_AIR_MOLE_FRACTION;

impl TotalGasPressure {
    /// From readings of oxygen and nitrogen.
    ///
    /// Argon that was not measured is taken as saturated like the nitrogen; CO2
    /// and traces, 0.04 % of air, as at equilibrium.
    ///
    /// # Errors
    /// As [`partial_pressure`] for each gas.
    pub fn from_contents(
        oxygen: Content<species::Oxygen>,
        nitrogen: Content<species::Nitrogen>,
        argon: Option<Content<species::Argon>>,
        water: &Water,
    ) -> Result<Flagged<Self>> {
        let oxygen = partial_pressure(oxygen, water)?;
        let nitrogen = partial_pressure(nitrogen, water)?;
        let mut extrapolated = oxygen.extrapolated().union(nitrogen.extrapolated());
        let argon_atm = match argon {
            Some(content) => {
                let argon = partial_pressure(content, water)?;
                extrapolated = extrapolated.union(argon.extrapolated());
                argon.value().atm()
            }
            None => {
                nitrogen.value().atm() * <species::Argon as AirGas>::DRY_AIR_MOLE_FRACTION
                    / <species::Nitrogen as AirGas>::DRY_AIR_MOLE_FRACTION
            }
        };
        let vapour = vapour_atm(water);
        let traces = TRACE_MOLE_FRACTION * (water.air_pressure().atm() - vapour);
        let total = oxygen.value().atm() + nitrogen.value().atm() + argon_atm + traces + vapour;
        Ok(Flagged::new(
            Self::new(GasPressure::from_atm(total)?, water),
            extrapolated,
        ))
    }

    /// From the ΔP of a saturometer, which is the total gas pressure less the
    /// air pressure at the time.
    ///
    /// # Errors
    /// The total would be below the vapour pressure alone, or temperature or
    /// salinity are outside [`Relation::VapourPressureWeissPrice1980`] and
    /// extrapolation is not allowed.
    pub fn from_delta_p(reading: DeltaP, water: &Water) -> Result<Flagged<Self>> {
        let extrapolated = check(water, &[Relation::VapourPressureWeissPrice1980])?;
        let air = water.air_pressure().atm();
        let lowest = (vapour_atm(water) - air) * 760.0;
        let mmhg = within("delta P", reading.mmhg(), lowest, DeltaP::MAX, "mmHg")?;
        let total = GasPressure::from_atm(air + mmhg / 760.0)?;
        Ok(Flagged::new(Self::new(total, water), extrapolated))
    }

    fn new(pressure: GasPressure, water: &Water) -> Self {
        Self {
            pressure,
            air_atm: water.air_pressure().atm(),
            vapour_atm: vapour_atm(water),
            hydrostatic_atm: hydrostatic_atm(water),
        }
    }

    /// The total gas pressure.
    #[must_use]
    pub const fn pressure(&self) -> GasPressure {
        self.pressure
    }

    /// ΔP: total gas pressure less air pressure.
    #[must_use]
    pub const fn delta_p(&self) -> DeltaP {
        self.pressure.excess_over(self.air_atm)
    }

    /// Total gas pressure as a percentage of the air pressure.
    #[must_use]
    pub const fn percent(&self) -> f64 {
        100.0 * self.pressure.atm() / self.air_atm
    }

    /// The part of ΔP that the water column at the water's depth does not hold
    /// in solution, ΔP − ρgz. Bubbles can form there only if it is positive.
    #[must_use]
    pub const fn uncompensated_delta_p(&self) -> DeltaP {
        self.pressure
            .excess_over(self.air_atm + self.hydrostatic_atm)
    }

    /// Total gas pressure as a percentage of the pressure of air and water
    /// column together.
    #[must_use]
    pub const fn percent_at_depth(&self) -> f64 {
        100.0 * self.pressure.atm() / (self.air_atm + self.hydrostatic_atm)
    }

    /// Water pressure that would just hold the gas in solution, zero if the air
    /// alone does. One decibar is 1.00 m of seawater, within 1 %.
    #[must_use]
    pub fn compensation_pressure(&self) -> WaterPressure {
        let dbar = (self.pressure.atm() - self.air_atm) * 10.1325;
        // A gas pressure is at most 10 atm, so this is in range by construction.
        WaterPressure::from_dbar(dbar.max(0.0)).unwrap_or(WaterPressure::SURFACE)
    }

    /// Saturation of nitrogen and argon together, given the pressure of oxygen
    /// ([`partial_pressure`]): what a saturometer leaves when oxygen and vapour
    /// are taken off.
    ///
    /// # Errors
    /// Oxygen, vapour and traces exceed the total, so the readings contradict
    /// each other; or the result exceeds [`PercentSaturation::MAX`].
    pub fn nitrogen_argon_saturation(&self, oxygen: GasPressure) -> Result<PercentSaturation> {
        let dry = self.air_atm - self.vapour_atm;
        let rest = self.pressure.atm() - oxygen.atm() - self.vapour_atm - TRACE_MOLE_FRACTION * dry;
        if rest < 0.0 {
            return Err(Error::contradictory(
                ("oxygen pressure (atm)", oxygen.atm()),
                ("total gas pressure (atm)", self.pressure.atm()),
                "a part cannot exceed the whole",
            ));
        }
        let share = <species::Nitrogen as AirGas>::DRY_AIR_MOLE_FRACTION
            + <species::Argon as AirGas>::DRY_AIR_MOLE_FRACTION;
        PercentSaturation::from_percent(100.0 * rest / (share * dry))
    }
}
