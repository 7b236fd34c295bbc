//! pH probes: buffers, calibration, temperature, uncertainty and drift.

use halimeda::carbonate::EquilibriumOptions;
use halimeda::probe::{
    self, BufferReading as InnerBuffer, ProbeCalibration as InnerCalibration,
    ProbeDrift as InnerDrift, ProbeHealth, ProbeReading as InnerReading, ProbeUncertainty,
    ReferenceBuffer, SeawaterBuffer,
};
use halimeda::quantity::Scale;
use halimeda::{ElectrodePotential, NbsScale, Ph, PracticalSalinity, Temperature, TotalScale};
use pyo3::prelude::*;

use crate::choice::name_of;
use crate::elementwise::elementwise;
use crate::error::{Blame, OrRaise, type_error};
use crate::record::{one_water, record};
use crate::water::Water;

elementwise! {
    /// Millivolts per pH of an ideal probe.
    ///
    /// Parameters
    /// ----------
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature of the probe, °C.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     Slope, mV per pH.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The temperature is outside its limits.
    ///
    /// Source
    /// ------
    /// R T ln 10 / F with the constants of CODATA 2018.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> round(hm.probe.nernst_slope_mv_per_ph(temperature_celsius=25.0), 3)
    /// 59.159
    fn nernst_slope_mv_per_ph(temperature_celsius / temperature: TEMPERATURE) -> "mV/pH" {
        Ok(probe::nernst_slope_mv_per_ph(Temperature::from_celsius(temperature_celsius)?))
    }

    /// NBS pH of a sample whose meter worked with another temperature than the probe's.
    ///
    /// About 0.003 per °C and pH away from 7. The change of the water's own pH with
    /// temperature is another matter, for `carbonate`.
    ///
    /// Parameters
    /// ----------
    /// displayed_ph_nbs : number or array
    ///     What the meter shows, NBS scale.
    /// meter_celsius : number or array
    ///     Temperature that the meter worked with, °C.
    /// probe_celsius : number or array
    ///     Temperature that the probe had, °C.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     The pH on the NBS scale.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number is outside its limits.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> round(hm.probe.compensated_ph_nbs(
    /// ...     displayed_ph_nbs=8.2, meter_celsius=25.0, probe_celsius=30.0), 2)
    /// 8.18
    fn compensated_ph_nbs(
        displayed_ph_nbs: PH,
        meter_celsius: TEMPERATURE,
        probe_celsius: TEMPERATURE,
    ) -> "" {
        let corrected = probe::correct_missing_compensation(
            Ph::<NbsScale>::new(displayed_ph_nbs)?,
            Temperature::from_celsius(meter_celsius)?,
            Temperature::from_celsius(probe_celsius)?,
        )?;
        Ok(corrected.value())
    }

    /// Total pH of a sample whose meter worked with another temperature than the probe's.
    ///
    /// As `compensated_ph_nbs`, for a probe calibrated in seawater buffers.
    ///
    /// Parameters
    /// ----------
    /// displayed_ph_total : number or array
    ///     What the meter shows, total scale.
    /// meter_celsius : number or array
    ///     Temperature that the meter worked with, °C.
    /// probe_celsius : number or array
    ///     Temperature that the probe had, °C.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     The pH on the total scale.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number is outside its limits.
    fn compensated_ph_total(
        displayed_ph_total: PH,
        meter_celsius: TEMPERATURE,
        probe_celsius: TEMPERATURE,
    ) -> "" {
        let corrected = probe::correct_missing_compensation(
            Ph::<TotalScale>::new(displayed_ph_total)?,
            Temperature::from_celsius(meter_celsius)?,
            Temperature::from_celsius(probe_celsius)?,
        )?;
        Ok(corrected.value())
    }

    /// NBS pH of a primary standard buffer.
    ///
    /// The technical buffers "4", "7" and "10" are other recipes: take their pH from the
    /// label, at the temperature of the buffer.
    ///
    /// Parameters
    /// ----------
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature of the buffer, 0 to 50 °C.
    /// buffer : {"phthalate", "phosphate", "physiological_phosphate", "borax", "carbonate"}
    ///     The buffer.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     The pH on the NBS scale.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The temperature is outside the table, or there is no such buffer.
    ///
    /// Source
    /// ------
    /// Buck et al. (2002) doi:10.1351/pac200274112169, table 2.
    fn reference_buffer_ph_nbs(
        temperature_celsius / temperature: TEMPERATURE,
    ) with buffer: &str = "phosphate" => ReferenceBuffer -> "" {
        Ok(buffer.ph(Temperature::from_celsius(temperature_celsius)?)?.value())
    }

    /// Total pH of a buffer made up in artificial seawater.
    ///
    /// 2-aminopyridine is toxic: gloves and eye protection, never in the tank, safety data
    /// sheet first.
    ///
    /// Parameters
    /// ----------
    /// temperature_celsius, temperature : number or array, quantity
    ///     Temperature of the buffer, °C.
    /// practical_salinity : number or array
    ///     Practical salinity it was made up to.
    /// buffer : {"tris", "aminopyridine"}
    ///     The buffer, 0.04 mol per kg of water of acid and base.
    /// errors : {"flag", "raise"}
    ///     Refused rows of arrays: NaN and a warning with the reasons, or an exception.
    ///
    /// Returns
    /// -------
    /// number or array
    ///     The pH on the total scale.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     Outside the published range, or there is no such buffer.
    ///
    /// Source
    /// ------
    /// DelValls & Dickson (1998) doi:10.1016/S0967-0637(98)00019-3, eq. 18; Dickson (1993);
    /// both as in Dickson, Sabine & Christian (2007) SOP 6a.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> round(hm.probe.seawater_buffer_ph_total(
    /// ...     temperature_celsius=25.0, practical_salinity=35.0), 3)
    /// 8.094
    fn seawater_buffer_ph_total(
        temperature_celsius / temperature: TEMPERATURE,
        practical_salinity: PRACTICAL_SALINITY,
    ) with buffer: &str = "tris" => SeawaterBuffer -> "" {
        let ph = buffer.ph(
            Temperature::from_celsius(temperature_celsius)?,
            PracticalSalinity::new(practical_salinity)?,
        )?;
        Ok(ph.value())
    }
}

record! {
    /// What a probe showed in one buffer.
    ///
    /// Parameters
    /// ----------
    /// millivolts : float
    ///     The steady potential, mV.
    /// temperature_celsius : float
    ///     Temperature of the buffer, °C.
    /// ph_nbs, ph_total : float
    ///     The pH of the buffer at that temperature, on one of the scales.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number is outside its limits.
    /// HalimedaTypeError
    ///     Not exactly one pH was given.
    "halimeda.probe" BufferReading {
        /// The steady potential, mV.
        millivolts: f64,
        /// Temperature of the buffer, °C.
        temperature_celsius: f64,
        /// The pH of the buffer on the NBS scale, if that was given.
        ph_nbs: Option<f64>,
        /// The pH of the buffer on the total scale, if that was given.
        ph_total: Option<f64>,
    }

    #[new]
    #[pyo3(signature = (millivolts, temperature_celsius, *, ph_nbs = None, ph_total = None))]
    fn new(
        py: Python<'_>,
        millivolts: f64,
        temperature_celsius: f64,
        ph_nbs: Option<f64>,
        ph_total: Option<f64>,
    ) -> PyResult<Self> {
        if ph_nbs.is_some() == ph_total.is_some() {
            return Err(one_scale(py, "give exactly one of ph_nbs= or ph_total="));
        }
        let reading = Self { millivolts, temperature_celsius, ph_nbs, ph_total };
        reading.inner::<NbsScale>().or_raise(py)?;
        Ok(reading)
    }
}

fn one_scale(py: Python<'_>, message: &str) -> PyErr {
    let blame = Blame {
        input: Some("ph_nbs"),
        kind: "argument",
        ..Blame::default()
    };
    type_error(py, message, &blame)
}

impl BufferReading {
    fn inner<S: Scale>(&self) -> halimeda::Result<InnerBuffer<S>> {
        Ok(InnerBuffer::new(
            Ph::new(self.ph_nbs.or(self.ph_total).unwrap_or(f64::NAN))?,
            ElectrodePotential::from_millivolts(self.millivolts)?,
            Temperature::from_celsius(self.temperature_celsius)?,
        ))
    }
}

record! {
    /// Two-point calibration of a glass probe, on the scale of its buffers.
    ///
    /// Parameters
    /// ----------
    /// first, second : BufferReading
    ///     What the probe showed in two buffers of one scale, at least 1 pH apart.
    /// isopotential_ph : float
    ///     Where the potential does not depend on the temperature, on the scale of the
    ///     buffers; 7 of common probes (common practice, no source).
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The potential rises with pH, the buffers are too near, or slope or offset are
    ///     beyond what a probe can show.
    /// HalimedaTypeError
    ///     The buffers are of two scales.
    ///
    /// Source
    /// ------
    /// Buck et al. (2002) doi:10.1351/pac200274112169, sect. 11.
    ///
    /// Examples
    /// --------
    /// >>> import halimeda as hm
    /// >>> calibration = hm.probe.ProbeCalibration(
    /// ...     hm.probe.BufferReading(2.4, 22.0, ph_nbs=6.876),
    /// ...     hm.probe.BufferReading(-130.1, 22.0, ph_nbs=9.207))
    /// >>> round(calibration.slope_percent), calibration.health
    /// (97, 'good')
    "halimeda.probe" ProbeCalibration {
        /// What the probe showed in one buffer.
        first: BufferReading,
        /// What the probe showed in the other.
        second: BufferReading,
        /// Isopotential pH, on the scale of the buffers.
        isopotential_ph: f64,
        /// The scale of the buffers: ``"nbs"`` or ``"total"``.
        scale: String,
        /// Slope, % of the theoretical one.
        slope_percent: f64,
        /// Potential at pH 7 and 25 °C, mV.
        offset_mv: f64,
        /// ``"good"``, ``"ageing"`` or ``"replace"``.
        health: String,
        /// What to do about it.
        cautions: Vec<String>,
    }

    #[new]
    #[pyo3(signature = (first, second, *, isopotential_ph = 7.0))]
    fn new(
        py: Python<'_>,
        first: BufferReading,
        second: BufferReading,
        isopotential_ph: f64,
    ) -> PyResult<Self> {
        if first.ph_nbs.is_some() != second.ph_nbs.is_some() {
            return Err(one_scale(py, "the two buffers are of two scales, which make no calibration"));
        }
        let mut calibration = Self {
            scale: if first.ph_nbs.is_some() { "nbs" } else { "total" }.to_owned(),
            first,
            second,
            isopotential_ph,
            slope_percent: 0.0,
            offset_mv: 0.0,
            health: String::new(),
            cautions: Vec::new(),
        };
        // The line is the same on either scale.
        let inner = calibration.inner::<TotalScale>().or_raise(py)?;
        calibration.slope_percent = inner.slope_percent();
        calibration.offset_mv = inner.offset_mv();
        calibration.health = name_of(&inner.health());
        calibration.cautions = match inner.health() {
            ProbeHealth::Good => Vec::new(),
            ProbeHealth::Ageing => vec![
                "The probe is ageing: clean it, use fresh buffers, calibrate again and watch it."
                    .to_owned(),
            ],
            _ => vec![
                "Do not trust this probe: clean and recondition it; if slope or offset stay, \
                 replace it."
                    .to_owned(),
            ],
        };
        Ok(calibration)
    }

    /// Give the slope at a temperature.
    ///
    /// Parameters
    /// ----------
    /// temperature_celsius : float
    ///     The temperature, °C.
    ///
    /// Returns
    /// -------
    /// float
    ///     Slope, mV per pH, positive.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The temperature is outside its limits.
    #[pyo3(signature = (temperature_celsius, /))]
    fn slope_mv_per_ph(&self, py: Python<'_>, temperature_celsius: f64) -> PyResult<f64> {
        let temperature = Temperature::from_celsius(temperature_celsius).or_raise(py)?;
        Ok(self.inner::<TotalScale>().or_raise(py)?.slope_mv_per_ph(temperature))
    }

    /// Give the pH at which the potential is zero, on the scale of the buffers.
    ///
    /// Parameters
    /// ----------
    /// temperature_celsius : float
    ///     The temperature, °C.
    ///
    /// Returns
    /// -------
    /// float
    ///     The pH.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     It lies outside 0 to 14.
    #[pyo3(signature = (temperature_celsius, /))]
    fn zero_point_ph(&self, py: Python<'_>, temperature_celsius: f64) -> PyResult<f64> {
        Temperature::from_celsius(temperature_celsius)
            .and_then(|temperature| self.inner::<TotalScale>()?.zero_point(temperature))
            .map(Ph::value)
            .or_raise(py)
    }

    /// Turn the potential in a sample into a pH with its uncertainty.
    ///
    /// Parameters
    /// ----------
    /// millivolts : float
    ///     The potential, mV.
    /// temperature_celsius : float
    ///     Temperature of the sample, °C.
    /// buffer_ph : float, optional
    ///     Standard uncertainty of each buffer's pH; 0.01 of NBS buffers, 0.004 of seawater
    ///     buffers unless given.
    /// potential_mv : float
    ///     Standard uncertainty of each potential, mV.
    /// temperature_uncertainty_celsius : float
    ///     Standard uncertainty of each temperature, °C.
    /// junction_ph : float, optional
    ///     Standard uncertainty of the pH through the liquid junction; 0.05 with NBS
    ///     buffers, 0.005 with seawater buffers unless given.
    ///
    /// Returns
    /// -------
    /// ProbeReading
    ///     The pH on the scale of the buffers, with its budget.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The pH lies outside 0 to 14, or an uncertainty outside its limits.
    ///
    /// Source
    /// ------
    /// GUM, JCGM 100:2008; seawater buffers: Müller et al. (2018) Front. Mar. Sci. 5, 176;
    /// Easley & Byrne (2012) doi:10.1021/es300491s. The others are common practice.
    #[pyo3(signature = (millivolts, temperature_celsius, *, buffer_ph = None,
        potential_mv = 0.5, temperature_uncertainty_celsius = 0.5, junction_ph = None))]
    #[allow(clippy::too_many_arguments)]
    fn read(
        &self,
        py: Python<'_>,
        millivolts: f64,
        temperature_celsius: f64,
        buffer_ph: Option<f64>,
        potential_mv: f64,
        temperature_uncertainty_celsius: f64,
        junction_ph: Option<f64>,
    ) -> PyResult<ProbeReading> {
        let is_nbs = self.scale == "nbs";
        let (buffer, junction) = if is_nbs { (0.01, 0.05) } else { (0.004, 0.005) };
        let read = || {
            let reading = self.inner::<TotalScale>()?.read(
                ElectrodePotential::from_millivolts(millivolts)?,
                Temperature::from_celsius(temperature_celsius)?,
                &ProbeUncertainty::new(
                    buffer_ph.unwrap_or(buffer),
                    potential_mv,
                    temperature_uncertainty_celsius,
                    junction_ph.unwrap_or(junction),
                )?,
            )?;
            Ok(ProbeReading::of(&reading, is_nbs))
        };
        let reading: halimeda::Result<_> = read();
        reading.or_raise(py)
    }
}

impl ProbeCalibration {
    fn inner<S: Scale>(&self) -> halimeda::Result<InnerCalibration<S>> {
        InnerCalibration::with_isopotential(
            self.first.inner()?,
            self.second.inner()?,
            Ph::new(self.isopotential_ph)?,
        )
    }
}

record! {
    /// A pH read with a calibrated probe, with what it is worth.
    ///
    /// Made by `ProbeCalibration.read`.
    "halimeda.probe" ProbeReading {
        /// The pH on the NBS scale, if the buffers were on it.
        ph_nbs: Option<f64>,
        /// The pH on the total scale, if the buffers were on it or it was converted.
        ph_total: Option<f64>,
        /// Standard uncertainty, in pH.
        standard_uncertainty: f64,
        /// The same without the liquid junction.
        instrument_uncertainty: f64,
        /// What the pH of the buffers contributes.
        from_buffers: f64,
        /// What the potentials contribute.
        from_potentials: f64,
        /// What the temperatures contribute.
        from_temperatures: f64,
        /// What the liquid junction contributes.
        from_junction: f64,
        /// Whether the pH lies between those of the buffers, as it should.
        is_bracketed: bool,
    }

    /// Convert a reading in NBS buffers to the total scale.
    ///
    /// The standard uncertainty stays: it already holds the chief one of the conversion.
    ///
    /// Parameters
    /// ----------
    /// water : Water
    ///     The water that was read.
    ///
    /// Returns
    /// -------
    /// ProbeReading
    ///     With both pH.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The water is outside the range of the conversion.
    #[pyo3(signature = (water, /))]
    fn on_total_scale(&self, py: Python<'_>, water: &Bound<'_, Water>) -> PyResult<Self> {
        let Some(ph_nbs) = self.ph_nbs else {
            return Ok(self.clone());
        };
        let water = one_water(py, water.get())?;
        let converted = || {
            let equilibria = water.equilibria(&EquilibriumOptions::default())?;
            let ph: Ph<TotalScale> = equilibria.convert_ph(Ph::<NbsScale>::new(ph_nbs)?)?;
            Ok(Self { ph_total: Some(ph.value()), ..self.clone() })
        };
        let converted: halimeda::Result<_> = converted();
        converted.or_raise(py)
    }
}

impl ProbeReading {
    fn of<S: Scale>(reading: &InnerReading<S>, is_nbs: bool) -> Self {
        let budget = reading.budget();
        let ph = reading.ph().value();
        Self {
            ph_nbs: is_nbs.then_some(ph),
            ph_total: (!is_nbs).then_some(ph),
            standard_uncertainty: reading.standard_uncertainty(),
            instrument_uncertainty: reading.instrument_uncertainty(),
            from_buffers: budget.buffers,
            from_potentials: budget.potentials,
            from_temperatures: budget.temperatures,
            from_junction: budget.junction,
            is_bracketed: reading.is_bracketed(),
        }
    }
}

record! {
    /// How a probe changed between two calibrations, taken as linear in time.
    ///
    /// Parameters
    /// ----------
    /// earlier, later : ProbeCalibration
    ///     Two calibrations of one probe, on one scale.
    /// days : float
    ///     Time between them, d.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     The time is outside an hour to ten years, or the isopotential points differ.
    /// HalimedaTypeError
    ///     The calibrations are on two scales.
    "halimeda.probe" ProbeDrift {
        /// The earlier calibration.
        earlier: ProbeCalibration,
        /// The later calibration.
        later: ProbeCalibration,
        /// Time between them, d.
        days: f64,
        /// Change of the potential at pH 7, mV per month.
        offset_mv_per_month: f64,
        /// Change of the slope, % of theory per month.
        slope_percent_per_month: f64,
    }

    #[new]
    #[pyo3(signature = (earlier, later, *, days))]
    fn new(
        py: Python<'_>,
        earlier: ProbeCalibration,
        later: ProbeCalibration,
        days: f64,
    ) -> PyResult<Self> {
        if earlier.scale != later.scale {
            return Err(one_scale(py, "the two calibrations are on two scales"));
        }
        let mut drift = Self {
            earlier,
            later,
            days,
            offset_mv_per_month: 0.0,
            slope_percent_per_month: 0.0,
        };
        let inner = drift.inner().or_raise(py)?;
        drift.offset_mv_per_month = inner.offset_mv_per_month();
        drift.slope_percent_per_month = inner.slope_percent_per_month();
        Ok(drift)
    }

    /// Give what a reading was too high by.
    ///
    /// Parameters
    /// ----------
    /// millivolts : float
    ///     The potential of the reading, mV.
    /// temperature_celsius : float
    ///     Temperature of the sample, °C.
    /// days_since_earlier : float
    ///     When it was read, d after the earlier calibration, up to twice the time between
    ///     the two.
    ///
    /// Returns
    /// -------
    /// float
    ///     Difference of pH, the same on either scale.
    ///
    /// Raises
    /// ------
    /// HalimedaValueError
    ///     A number is outside its limits.
    #[pyo3(signature = (millivolts, temperature_celsius, *, days_since_earlier))]
    fn bias_ph(
        &self,
        py: Python<'_>,
        millivolts: f64,
        temperature_celsius: f64,
        days_since_earlier: f64,
    ) -> PyResult<f64> {
        let bias = || {
            self.inner()?.bias(
                ElectrodePotential::from_millivolts(millivolts)?,
                Temperature::from_celsius(temperature_celsius)?,
                days_since_earlier,
            )
        };
        bias().or_raise(py)
    }
}

impl ProbeDrift {
    fn inner(&self) -> halimeda::Result<InnerDrift<TotalScale>> {
        InnerDrift::new(self.earlier.inner()?, self.later.inner()?, self.days)
    }
}
