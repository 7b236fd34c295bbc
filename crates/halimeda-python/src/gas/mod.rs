//! Dissolved gases and their exchange with the air.

mod paths;
mod reaeration_fit;
mod total_pressure;

pub(crate) use paths::*;
pub(crate) use reaeration_fit::*;
pub(crate) use total_pressure::*;

use halimeda::gas::{
    self, GasKind, Surface, TemperatureLaw, TransferBasis, co2_dry_mole_fraction, co2_fugacity,
    co2_partial_pressure, content_at_saturation,
};
use halimeda::{
    Content, DryMoleFractionCo2, FugacityCo2, PartialPressureCo2, PercentSaturation, Temperature,
    species,
};
use serde::Deserialize;

use crate::elementwise::elementwise;

/// A gas of constant share in clean air.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum AirGas {
    Oxygen,
    Nitrogen,
    Argon,
}

macro_rules! with_gas {
    ($gas:expr, $kind:ident => $body:expr) => {
        match $gas {
            AirGas::Oxygen => {
                type $kind = species::Oxygen;
                $body
            }
            AirGas::Nitrogen => {
                type $kind = species::Nitrogen;
                $body
            }
            AirGas::Argon => {
                type $kind = species::Argon;
                $body
            }
        }
    };
}

elementwise! {
    /// Content of a gas in equilibrium with clean moist air.
    ///
    /// At the water's own air pressure: at 1500 m a tank holds a sixth less.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// gas : {"oxygen", "nitrogen", "argon"}
    ///     The gas.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Content, µmol/kg.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water is outside the published range, or there is no such gas.
    ///
    /// Source
    /// ------
    /// Oxygen: Garcia & Gordon (1992) doi:10.4319/lo.1992.37.6.1307, eq. 8, with the
    /// coefficients fitted to Benson & Krause (1984). Nitrogen and argon: Hamme &
    /// Emerson (2004) doi:10.1016/j.dsr.2004.06.009, table 4. Air pressure through the
    /// vapour pressure of Weiss & Price (1980) doi:10.1016/0304-4203(80)90024-9.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    /// >>> round(hm.gas.solubility_umol_per_kg(water, gas="oxygen"), 2)
    /// 206.77
    fn solubility_umol_per_kg(water;) with gas: &str = "oxygen" => AirGas -> "µmol/kg" {
        with_gas!(gas, G => Ok(gas::solubility::<G>(water)?.value().umol_per_kg()))
    }

    /// Content of a gas at a percentage of the equilibrium with clean moist air.
    ///
    /// The inverse of `percent_saturation`. Percent saturation does not depend on
    /// salinity, mg/L does: a meter told the wrong salinity is put right by way of
    /// percent.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// saturation_percent, saturation : number or array, quantity
    ///     Saturation, %.
    /// gas : {"oxygen", "nitrogen", "argon"}
    ///     The gas.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Content, µmol/kg.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water or the percentage is outside its limits.
    ///
    /// Source
    /// ------
    /// As `solubility_umol_per_kg`.
    fn content_at_saturation_umol_per_kg(
        water;
        saturation_percent / saturation: PERCENT,
    ) with gas: &str = "oxygen" => AirGas -> "µmol/kg" {
        let saturation = PercentSaturation::from_percent(saturation_percent)?;
        with_gas!(gas, G => Ok(content_at_saturation::<G>(saturation, water)?.value().umol_per_kg()))
    }

    /// Content as a percentage of the equilibrium with clean moist air.
    ///
    /// At the water's own air pressure, which is the local one and not that of
    /// weather reports, reduced to sea level.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// content_umol_per_kg, content : number or array, quantity
    ///     Content of the gas, µmol/kg; mg/L become it by
    ///     `halimeda.nutrient.content_umol_per_kg`.
    /// gas : {"oxygen", "nitrogen", "argon"}
    ///     The gas.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Saturation, %.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water or the content is outside its limits.
    ///
    /// Source
    /// ------
    /// As `solubility_umol_per_kg`.
    fn percent_saturation(
        water;
        content_umol_per_kg / content: DISSOLVED_GAS,
    ) with gas: &str = "oxygen" => AirGas -> "%" {
        with_gas!(gas, G => {
            let content = Content::<G>::from_umol_per_kg(content_umol_per_kg)?;
            Ok(gas::percent_saturation(content, water)?.value().percent())
        })
    }

    /// Content as a percentage of the equilibrium with a bubble at the water's depth.
    ///
    /// The gas leaves solution only above 100 %.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water, with its ``water_pressure_dbar``.
    /// content_umol_per_kg, content : number or array, quantity
    ///     Content of the gas, µmol/kg.
    /// gas : {"oxygen", "nitrogen", "argon"}
    ///     The gas.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Saturation, %.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water or the content is outside its limits.
    ///
    /// Source
    /// ------
    /// As `solubility_umol_per_kg`.
    fn percent_saturation_at_depth(
        water;
        content_umol_per_kg / content: DISSOLVED_GAS,
    ) with gas: &str = "oxygen" => AirGas -> "%" {
        with_gas!(gas, G => {
            let content = Content::<G>::from_umol_per_kg(content_umol_per_kg)?;
            Ok(gas::percent_saturation_at_depth(content, water)?.value().percent())
        })
    }

    /// Partial pressure of a dissolved gas.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// content_umol_per_kg, content : number or array, quantity
    ///     Content of the gas, µmol/kg.
    /// gas : {"oxygen", "nitrogen", "argon"}
    ///     The gas.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Partial pressure, atm.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water or the content is outside its limits.
    ///
    /// Source
    /// ------
    /// As `solubility_umol_per_kg`; the share of the gas in dry air of Glueckauf (1951).
    fn partial_pressure_atm(
        water;
        content_umol_per_kg / content: DISSOLVED_GAS,
    ) with gas: &str = "oxygen" => AirGas -> "atm" {
        with_gas!(gas, G => {
            let content = Content::<G>::from_umol_per_kg(content_umol_per_kg)?;
            Ok(gas::partial_pressure(content, water)?.value().atm())
        })
    }

    /// Partial pressure of CO2 in moist air over the water.
    ///
    /// It is what the water tends to, and with its alkalinity gives the pH it tends
    /// to. A meter that shows several thousand ppm is first of all a reason to
    /// ventilate: 5000 ppm is the usual limit for a working day.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// co2_ppm, co2 : number or array, quantity
    ///     Mole fraction of CO2 in dry air, ppm.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Partial pressure, µatm.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water or the mole fraction is outside its limits.
    ///
    /// Source
    /// ------
    /// Dickson, Sabine & Christian (2007) PICES Special Publication 3, SOP 5; vapour
    /// pressure of Weiss & Price (1980) doi:10.1016/0304-4203(80)90024-9.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> water = hm.Water(temperature_celsius=25.0, practical_salinity=35.0)
    /// >>> round(hm.gas.co2_partial_pressure_uatm(water, co2_ppm=420.0), 1)
    /// 407.1
    fn co2_partial_pressure_uatm(water; co2_ppm / co2: CARBON_DIOXIDE) -> "µatm" {
        let fraction = DryMoleFractionCo2::from_ppm(co2_ppm)?;
        Ok(co2_partial_pressure(fraction, water)?.value().uatm())
    }

    /// Mole fraction of CO2 in dry air in equilibrium with a partial pressure.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// partial_pressure_co2_uatm, partial_pressure_co2 : number or array, quantity
    ///     Partial pressure of CO2, µatm.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Mole fraction, ppm.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water is outside its limits, or the pressure above that of the air.
    ///
    /// Source
    /// ------
    /// As `co2_partial_pressure_uatm`.
    fn co2_dry_mole_fraction_ppm(
        water;
        partial_pressure_co2_uatm / partial_pressure_co2: CO2_PRESSURE,
    ) -> "ppm" {
        let pressure = PartialPressureCo2::from_uatm(partial_pressure_co2_uatm)?;
        Ok(co2_dry_mole_fraction(pressure, water)?.value().ppm())
    }

    /// Fugacity of CO2 at a partial pressure.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// partial_pressure_co2_uatm, partial_pressure_co2 : number or array, quantity
    ///     Partial pressure of CO2, µatm.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Fugacity, µatm.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water or the pressure is outside its limits.
    ///
    /// Source
    /// ------
    /// Weiss (1974) doi:10.1016/0304-4203(74)90015-2, as in Dickson, Sabine & Christian
    /// (2007) SOP 24.
    fn co2_fugacity_uatm(
        water;
        partial_pressure_co2_uatm / partial_pressure_co2: CO2_PRESSURE,
    ) -> "µatm" {
        let pressure = PartialPressureCo2::from_uatm(partial_pressure_co2_uatm)?;
        Ok(co2_fugacity(pressure, water)?.value().uatm())
    }

    /// Partial pressure of CO2 at a fugacity.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// fugacity_co2_uatm, fugacity_co2 : number or array, quantity
    ///     Fugacity of CO2, µatm.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Partial pressure, µatm.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water or the fugacity is outside its limits.
    ///
    /// Source
    /// ------
    /// As `co2_fugacity_uatm`.
    fn co2_partial_pressure_from_fugacity_uatm(
        water;
        fugacity_co2_uatm / fugacity_co2: CO2_PRESSURE,
    ) -> "µatm" {
        let fugacity = FugacityCo2::from_uatm(fugacity_co2_uatm)?;
        Ok(gas::co2_partial_pressure_from_fugacity(fugacity, water)?.value().uatm())
    }

    /// Dissolved CO2 in equilibrium with a fugacity.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// fugacity_co2_uatm, fugacity_co2 : number or array, quantity
    ///     Fugacity of CO2, µatm.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Dissolved CO2, µmol/kg.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water or the fugacity is outside its limits.
    ///
    /// Source
    /// ------
    /// Weiss (1974) doi:10.1016/0304-4203(74)90015-2, eq. 12.
    fn carbon_dioxide_solubility_umol_per_kg(
        water;
        fugacity_co2_uatm / fugacity_co2: CO2_PRESSURE,
    ) -> "µmol/kg" {
        let fugacity = FugacityCo2::from_uatm(fugacity_co2_uatm)?;
        Ok(gas::carbon_dioxide_solubility(fugacity, water)?.value().umol_per_kg())
    }

    /// Schmidt number of a gas: kinematic viscosity over diffusivity.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
    ///     The gas.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Schmidt number, dimensionless.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water is outside the published range, or there is no such gas.
    ///
    /// Source
    /// ------
    /// Wanninkhof (2014) doi:10.4319/lom.2014.12.351, table 1, at salinity 35.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> water = hm.Water(temperature_celsius=20.0, practical_salinity=35.0)
    /// >>> round(hm.gas.schmidt_number(water, gas="carbon_dioxide"))
    /// 668
    fn schmidt_number(water;) with gas: &str = "oxygen" => GasKind -> "" {
        Ok(gas::schmidt_number(gas, water)?.value())
    }

    /// Molecular diffusivity of a gas in the water, known to about 5 %.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water.
    /// gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
    ///     The gas.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Diffusivity, m²/s.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water is outside the published range, or there is no such gas.
    ///
    /// Source
    /// ------
    /// Viscosity of Sharqawy et al. (2010) doi:10.5004/dwt.2010.1079 over the density
    /// of EOS-80 and the Schmidt number of Wanninkhof (2014).
    fn diffusivity_m2_per_s(water;) with gas: &str = "oxygen" => GasKind -> "m²/s" {
        Ok(gas::diffusivity_m2_per_s(gas, water)?.value())
    }

    /// What carries a transfer coefficient to another gas and temperature.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water that the coefficient is wanted in.
    /// measured_celsius : number or array
    ///     Temperature that it was measured at, °C.
    /// gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
    ///     The gas it is wanted for.
    /// measured_gas : {"oxygen", "nitrogen", "argon", "carbon_dioxide"}
    ///     The gas it was measured with.
    /// surface : {"mobile", "rigid"}
    ///     Whether waves, bubbles or a fall renew the surface, or it is still or
    ///     stiffened by a film of organics.
    /// temperature_law : {"schmidt", "theta"}
    ///     By the Schmidt number, or the 1.024 per °C of oxygen transfer tests.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     The factor, dimensionless.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A temperature or the salinity is outside the published range.
    ///
    /// Source
    /// ------
    /// Jähne et al. (1987) J. Geophys. Res. 92, 1937-1949; Wanninkhof (2014)
    /// doi:10.4319/lom.2014.12.351; ASCE/EWRI 2-06 for the factor per °C.
    fn transfer_factor(
        water;
        measured_celsius: TEMPERATURE,
    ) with
        gas: &str = "oxygen" => GasKind,
        measured_gas: &str = "oxygen" => GasKind,
        surface: &str = "mobile" => Surface,
        temperature_law: &str = "schmidt" => TemperatureLaw
    -> "" {
        let basis = TransferBasis::new(measured_gas, Temperature::from_celsius(measured_celsius)?)
            .with_surface(surface)
            .with_temperature_law(temperature_law);
        Ok(basis.factor(gas, water)?.value())
    }
}
