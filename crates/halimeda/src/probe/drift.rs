use super::ProbeCalibration;
use super::calibration::Line;
use crate::error::{Error, Result, within};
use crate::quantity::{ElectrodePotential, Scale, Temperature};

/// Days in a mean month of the Julian year.
const DAYS_PER_MONTH: f64 = 365.25 / 12.0;

/// How a probe changed between two calibrations, taken as linear in time.
///
/// ```
/// use halimeda::probe::{BufferReading, ProbeCalibration, ProbeDrift};
/// use halimeda::{ElectrodePotential, NbsScale, Ph, Temperature};
/// let t = Temperature::from_celsius(25.0)?;
/// let mv = ElectrodePotential::from_millivolts;
/// let calibrate = |e7, e10| -> halimeda::Result<_> {
///     ProbeCalibration::<NbsScale>::new(
///         BufferReading::new(Ph::new(7.0)?, mv(e7)?, t),
///         BufferReading::new(Ph::new(10.01)?, mv(e10)?, t),
///     )
/// };
/// let drift = ProbeDrift::new(calibrate(0.0, -176.0)?, calibrate(-6.0, -178.0)?, 60.0)?;
/// // Thirty days in, readings with the first calibration were about 0.04 high.
/// let bias = drift.bias(mv(-70.0)?, t, 30.0)?;
/// assert!((bias - 0.037).abs() < 0.005);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProbeDrift<S: Scale> {
    earlier: ProbeCalibration<S>,
    later: ProbeCalibration<S>,
    days: f64,
}

impl<S: Scale> ProbeDrift<S> {
    /// From two calibrations and the days between them.
    ///
    /// # Errors
    /// `days` is not finite or outside an hour to ten years, or the calibrations
    /// assume different isopotential points: not the same probe.
    pub fn new(
        earlier: ProbeCalibration<S>,
        later: ProbeCalibration<S>,
        days: f64,
    ) -> Result<Self> {
        let isopotential = |calibration: &ProbeCalibration<S>| calibration.line().isopotential_ph;
        if (isopotential(&earlier) - isopotential(&later)).abs() > 0.0 {
            return Err(Error::contradictory(
                ("earlier isopotential pH", isopotential(&earlier)),
                ("later isopotential pH", isopotential(&later)),
                "both calibrations must be of the same probe",
            ));
        }
        Ok(Self {
            earlier,
            later,
            days: within("days between calibrations", days, 1.0 / 24.0, 3652.5, "d")?,
        })
    }

    /// Change of the potential at pH 7, mV per month.
    #[must_use]
    pub fn offset_mv_per_month(&self) -> f64 {
        (self.later.offset_mv() - self.earlier.offset_mv()) * DAYS_PER_MONTH / self.days
    }

    /// Change of the slope, per cent of theory per month.
    #[must_use]
    pub fn slope_percent_per_month(&self) -> f64 {
        (self.later.slope_percent() - self.earlier.slope_percent()) * DAYS_PER_MONTH / self.days
    }

    /// What a reading taken `days_since_earlier` days after the earlier
    /// calibration was too high by, in pH.
    ///
    /// Up to the later calibration the reading is one of the earlier, and its
    /// drift is interpolated. After it the reading is one of the later, and the
    /// drift is continued, over at most the same time again.
    ///
    /// # Errors
    /// `days_since_earlier` is not finite or outside 0 to twice the days between
    /// the calibrations.
    pub fn bias(
        &self,
        potential: ElectrodePotential,
        temperature: Temperature,
        days_since_earlier: f64,
    ) -> Result<f64> {
        let day = within(
            "days since the earlier calibration",
            days_since_earlier,
            0.0,
            2.0 * self.days,
            "d",
        )?;
        let (earlier, later) = (self.earlier.line(), self.later.line());
        let in_use = if day < self.days { earlier } else { later };
        let weight = day / self.days;
        let drifted = Line {
            isopotential_ph: earlier.isopotential_ph,
            offset_mv: earlier.offset_mv + weight * (later.offset_mv - earlier.offset_mv),
            slope: earlier.slope + weight * (later.slope - earlier.slope),
        };
        // Continued over one more interval a possible slope stays positive only
        // if it does not fall by half: 60 to 110 % cannot become less than 10 %.
        let (e, t) = (potential.millivolts(), temperature.kelvin());
        Ok(in_use.ph(e, t) - drifted.ph(e, t))
    }
}
