//! Salinity from what instruments show.

use halimeda::water::{
    Conductivity, Hydrometer, RefractiveIndex, SpecificGravity, SpecificGravityReference,
    Wavelength, practical_salinity_from_conductivity as from_conductivity,
    practical_salinity_from_density as from_density,
    practical_salinity_from_refractive_index as from_refractive_index,
};
use halimeda::{Density, Temperature, WaterPressure};

use crate::elementwise::elementwise;
use crate::waters::policy;

elementwise! {
    /// Practical salinity from a conductivity at the water's own temperature.
    ///
    /// Parameters
    /// ----------
    /// conductivity_ms_per_cm, conductivity : number or array, quantity
    ///     Conductivity, not reduced to a reference temperature, mS/cm.
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature of the water (ITS-90), °C.
    /// water_pressure_dbar, water_pressure : number or array, quantity
    ///     Pressure of the water column above, dbar.
    /// extrapolate : bool
    ///     Go on outside the published range.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Practical salinity.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     An input is outside its limits or the published range.
    ///
    /// Source
    /// ------
    /// PSS-78: UNESCO (1981) Tech. Pap. Mar. Sci. 37.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> round(hm.practical_salinity_from_conductivity(
    /// ...     conductivity_ms_per_cm=53.1, temperature_celsius=25.0), 2)
    /// 35.02
    fn practical_salinity_from_conductivity(
        conductivity_ms_per_cm / conductivity: CONDUCTIVITY,
        temperature_celsius / temperature: TEMPERATURE,
        water_pressure_dbar / water_pressure: WATER_PRESSURE = 0.0,
    ) with extrapolate: bool = false -> "" {
        let reading = from_conductivity(
            Conductivity::from_ms_per_cm(conductivity_ms_per_cm)?,
            Temperature::from_celsius(temperature_celsius)?,
            WaterPressure::from_dbar(water_pressure_dbar)?,
            policy(extrapolate),
        )?;
        Ok(reading.salinity().value())
    }

    /// Practical salinity from a density at one atmosphere.
    ///
    /// Parameters
    /// ----------
    /// density_kg_per_m3, density : number or array, quantity
    ///     Density at `temperature_celsius`, kg/m³.
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature of the water (ITS-90), °C.
    /// extrapolate : bool
    ///     Go on outside the published range.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Practical salinity.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     An input is outside its limits or the published range.
    ///
    /// Source
    /// ------
    /// EOS-80: Millero & Poisson (1981) doi:10.1016/0198-0149(81)90122-9, inverted.
    fn practical_salinity_from_density(
        density_kg_per_m3 / density: DENSITY,
        temperature_celsius / temperature: TEMPERATURE,
    ) with extrapolate: bool = false -> "" {
        let density = Density::from_kg_per_m3(density_kg_per_m3)?;
        let temperature = Temperature::from_celsius(temperature_celsius)?;
        Ok(from_density(density, temperature, policy(extrapolate))?.salinity().value())
    }

    /// Practical salinity from a refractive index relative to air.
    ///
    /// Parameters
    /// ----------
    /// refractive_index : number or array
    ///     Relative to air, at one atmosphere.
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature of the sample (ITS-90), °C.
    /// wavelength_nm, wavelength : number or array, quantity
    ///     Wavelength of the light, nm; the sodium D line unless given.
    /// extrapolate : bool
    ///     Go on outside the published range.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Practical salinity.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     An input is outside its limits or the published range.
    ///
    /// Source
    /// ------
    /// Millard & Seaver (1990) doi:10.1016/0198-0149(90)90086-B, inverted.
    fn practical_salinity_from_refractive_index(
        refractive_index: SATURATION,
        temperature_celsius / temperature: TEMPERATURE,
        wavelength_nm / wavelength: WAVELENGTH = 589.26,
    ) with extrapolate: bool = false -> "" {
        let reading = from_refractive_index(
            RefractiveIndex::new(refractive_index)?,
            Wavelength::from_nanometres(wavelength_nm)?,
            Temperature::from_celsius(temperature_celsius)?,
            policy(extrapolate),
        )?;
        Ok(reading.salinity().value())
    }

    /// Practical salinity from a specific gravity.
    ///
    /// Parameters
    /// ----------
    /// specific_gravity : number or array
    ///     Density of the sample at `sample_celsius` over that of pure water at
    ///     `pure_water_celsius`.
    /// sample_celsius, pure_water_celsius : float
    ///     The reference temperatures of the scale, °C: 25 and 25 unless given.
    /// extrapolate : bool
    ///     Go on outside the published range.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Practical salinity.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     An input is outside its limits or the published range.
    ///
    /// Source
    /// ------
    /// EOS-80: Millero & Poisson (1981) doi:10.1016/0198-0149(81)90122-9, inverted.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> round(hm.practical_salinity_from_specific_gravity(specific_gravity=1.0264), 2)
    /// 35.04
    fn practical_salinity_from_specific_gravity(
        specific_gravity: SATURATION,
    ) with sample_celsius: f64 = 25.0, pure_water_celsius: f64 = 25.0, extrapolate: bool = false -> "" {
        let reference = reference(sample_celsius, pure_water_celsius)?;
        let reading = SpecificGravity::new(specific_gravity, reference)?;
        Ok(reading.practical_salinity(policy(extrapolate))?.salinity().value())
    }

    /// Practical salinity from what a glass hydrometer shows, floating in the water.
    ///
    /// Parameters
    /// ----------
    /// hydrometer : number or array
    ///     The reading, a specific gravity.
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature of the water (ITS-90), °C.
    /// sample_celsius, pure_water_celsius : float
    ///     The reference temperatures printed on the hydrometer, °C: 25 and 25 unless given.
    /// extrapolate : bool
    ///     Go on outside the published range.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Practical salinity.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     An input is outside its limits or the published range.
    ///
    /// Source
    /// ------
    /// EOS-80: Millero & Poisson (1981) doi:10.1016/0198-0149(81)90122-9, inverted, with
    /// the expansion of the glass.
    fn practical_salinity_from_hydrometer(
        hydrometer: SATURATION,
        temperature_celsius / temperature: TEMPERATURE,
    ) with sample_celsius: f64 = 25.0, pure_water_celsius: f64 = 25.0, extrapolate: bool = false -> "" {
        let reading = Hydrometer::glass(reference(sample_celsius, pure_water_celsius)?)
            .practical_salinity(
                hydrometer,
                Temperature::from_celsius(temperature_celsius)?,
                policy(extrapolate),
            )?;
        Ok(reading.salinity().value())
    }

    /// Specific gravity of a water for other reference temperatures than 25/25 °C.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water; only its salinity counts.
    /// sample_celsius, pure_water_celsius : float
    ///     The reference temperatures of the scale, °C.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Specific gravity, dimensionless.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water is outside the published range.
    ///
    /// Source
    /// ------
    /// EOS-80: Millero & Poisson (1981) doi:10.1016/0198-0149(81)90122-9.
    fn specific_gravity(water;) with sample_celsius: f64 = 25.0, pure_water_celsius: f64 = 25.0 -> "" {
        Ok(water.specific_gravity(reference(sample_celsius, pure_water_celsius)?)?.value())
    }
}

fn reference(sample: f64, pure_water: f64) -> halimeda::Result<SpecificGravityReference> {
    SpecificGravityReference::new(
        Temperature::from_celsius(sample)?,
        Temperature::from_celsius(pure_water)?,
    )
}
