//! Salinity from what instruments show.

use halimeda::water::{
    CalibrationFluid, Conductivity, Hydrometer, RefractiveIndex, Refractometer, RefractometerScale,
    SpecificConductance, SpecificGravity, SpecificGravityReference, TemperatureCompensation,
    Wavelength, practical_salinity_from_conductivity as from_conductivity,
    practical_salinity_from_density as from_density,
    practical_salinity_from_refractive_index as from_refractive_index,
};
use halimeda::{AirPressure, Density, PracticalSalinity, Temperature, WaterPressure};
use halimeda_tank::units::Medium;
use pyo3::prelude::*;

use crate::argument::{Object, gather, spelled};
use crate::column::Label;
use crate::elementwise::elementwise;
use crate::error::{Blame, OrRaise, value_error};
use crate::knowns::choice;
use crate::rows::{OnRefused, map};
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

elementwise! {
    /// Conductivity at the water's own temperature from one reduced to a reference.
    ///
    /// Parameters
    /// ----------
    /// specific_conductance_ms_per_cm, specific_conductance : number or array, quantity
    ///     What a meter with temperature compensation shows, mS/cm.
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature of the water (ITS-90), °C.
    /// reference_celsius : float
    ///     Temperature the meter reduces to, °C.
    /// percent_per_celsius : float
    ///     Compensation the meter is set to, % per °C, 0 to 5.
    /// errors : str
    ///     Refused rows of arrays: ``"flag"`` for NaN and a warning with the reasons,
    ///     ``"raise"`` for an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Conductivity at the temperature of the water, mS/cm.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     An input is outside its limits.
    fn conductivity_from_specific_conductance(
        specific_conductance_ms_per_cm / specific_conductance: CONDUCTIVITY,
        temperature_celsius / temperature: TEMPERATURE,
    ) with reference_celsius: f64 = 25.0, percent_per_celsius: f64 = 2.0 -> "mS/cm" {
        let shown = SpecificConductance::new(
            Conductivity::from_ms_per_cm(specific_conductance_ms_per_cm)?,
            Temperature::from_celsius(reference_celsius)?,
            percent_per_celsius,
        )?;
        Ok(shown.conductivity(Temperature::from_celsius(temperature_celsius)?)?.ms_per_cm())
    }

    /// Air pressure at the tank from what a weather report gives for sea level.
    ///
    /// Parameters
    /// ----------
    /// sea_level_pressure_atm, sea_level_pressure : number or array, quantity
    ///     Pressure reduced to sea level, atm.
    /// altitude_m, altitude : number or array, quantity
    ///     Altitude of the tank, m.
    /// errors : str
    ///     Refused rows of arrays: ``"flag"`` for NaN and a warning with the reasons,
    ///     ``"raise"`` for an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Air pressure at the tank, atm.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     An input is outside its limits.
    ///
    /// Source
    /// ------
    /// ISO 2533:1975, standard atmosphere.
    fn air_pressure_from_sea_level(
        sea_level_pressure_atm / sea_level_pressure: PRESSURE,
        altitude_m / altitude: ALTITUDE,
    ) -> "atm" {
        let sea_level = AirPressure::from_atm(sea_level_pressure_atm)?;
        Ok(AirPressure::from_sea_level(sea_level, altitude_m)?.atm())
    }
}

/// Practical salinity from what a hand refractometer shows.
///
/// Parameters
/// ----------
/// refractometer : number or array
///     The reading, in the unit of its scale.
/// scale : str
///     What the scale counts: ``"seawater"`` (practical salinity),
///     ``"sodium_chloride"`` (g per kg of brine) or ``"brix"`` (g of sucrose per
///     100 g).
/// adjusted_with : str
///     The fluid it was adjusted with: ``"pure_water"``, ``"seawater"`` or
///     ``"sodium_chloride"``.
/// fluid : float, optional
///     What that fluid holds: practical salinity of the seawater standard, or g
///     of sodium chloride per kg of solution.
/// adjusted_to : float
///     What it was made to show in that fluid.
/// fluid_celsius, sample_celsius : float, optional
///     Temperatures of the fluid when it was adjusted and of the sample when it is
///     read, °C; both for an instrument that does not compensate.
/// extrapolate : bool
///     Go on outside the published range.
/// errors : str
///     Refused rows of arrays: ``"flag"`` for NaN and a warning with the reasons,
///     ``"raise"`` for an exception.
///
/// Returns
/// -------
/// number or array
///     Practical salinity.
///
/// Raises
/// ------
/// HalimedaValueError
///     A choice is unknown or incomplete, or an input is outside its limits.
///
/// Source
/// ------
/// Millard & Seaver (1990) doi:10.1016/0198-0149(90)90086-B; sodium chloride and
/// sucrose: CRC Handbook of Chemistry and Physics (2021), ICUMSA (1974).
///
/// Examples
/// --------
/// >>> import halimeda as hm
/// >>> round(hm.practical_salinity_from_refractometer(
/// ...     refractometer=35.0, scale="sodium_chloride"), 1)
/// 33.6
#[pyfunction]
#[pyo3(signature = (
    *, refractometer = None, scale = "seawater", adjusted_with = "pure_water", fluid = None,
    adjusted_to = 0.0, fluid_celsius = None, sample_celsius = None, extrapolate = false,
    errors = "flag",
))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn practical_salinity_from_refractometer<'py>(
    py: Python<'py>,
    refractometer: Object<'_, 'py>,
    scale: &str,
    adjusted_with: &str,
    fluid: Option<f64>,
    adjusted_to: f64,
    fluid_celsius: Option<f64>,
    sample_celsius: Option<f64>,
    extrapolate: bool,
    errors: &str,
) -> PyResult<Bound<'py, PyAny>> {
    let errors = OnRefused::named(py, errors)?;
    let scale = choice(
        py,
        "scale",
        scale,
        &[
            ("seawater", RefractometerScale::Seawater),
            ("sodium_chloride", RefractometerScale::SodiumChloride),
            ("brix", RefractometerScale::Brix),
        ],
    )?;
    let incomplete = |input, message: &str| {
        let blame = Blame {
            input: Some(input),
            kind: "missing",
            ..Blame::default()
        };
        value_error(py, message, &blame)
    };
    let held =
        || fluid.ok_or_else(|| incomplete("fluid", "fluid is missing: what the fluid holds"));
    let fluid = match choice(
        py,
        "adjusted_with",
        adjusted_with,
        &[("pure_water", 0), ("seawater", 1), ("sodium_chloride", 2)],
    )? {
        0 => CalibrationFluid::PureWater,
        1 => CalibrationFluid::Seawater(PracticalSalinity::new(held()?).or_raise(py)?),
        _ => CalibrationFluid::SodiumChloride { g_per_kg: held()? },
    };
    let mut instrument = Refractometer::new(scale)
        .adjusted(fluid, adjusted_to)
        .or_raise(py)?;
    match (fluid_celsius, sample_celsius) {
        (None, None) => {}
        (Some(fluid), Some(sample)) => {
            instrument = instrument.with_compensation(TemperatureCompensation::None {
                fluid: Temperature::from_celsius(fluid).or_raise(py)?,
                sample: Temperature::from_celsius(sample).or_raise(py)?,
            });
        }
        _ => {
            let message = "fluid_celsius and sample_celsius: without compensation both are needed";
            return Err(incomplete("sample_celsius", message));
        }
    }
    let spelled = spelled![refractometer: PRACTICAL_SALINITY];
    let gathered = gather(py, &spelled, None)?;
    let shown = gathered
        .column(0, &|_| Medium::default())
        .ok_or_else(|| spelled[0].quantity.missing(py))?;
    let label = Label {
        name: "practical_salinity",
        unit: "",
    };
    map(py, &gathered.layout, label, errors, |row| {
        let reading = instrument.practical_salinity(shown.at(row), policy(extrapolate))?;
        Ok::<_, halimeda::Error>(reading.salinity().value())
    })
}
