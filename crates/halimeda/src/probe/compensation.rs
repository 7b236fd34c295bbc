use super::ISOPOTENTIAL_PH;
use crate::Result;
use crate::quantity::{Ph, Scale, Temperature};
use crate::real::Real;

/// R ln 10 / F in mV/K: molar gas constant 8.314462618 J/(mol K), Faraday
/// constant 96485.33212 C/mol (CODATA 2018, exact since the SI of 2019).
const NERNST_MV_PER_KELVIN: f64 =
    1e3 * core::f64::consts::LN_10 * 8.314_462_618_153_24 / 96_485.332_123_310_01;

pub(super) fn nernst_mv_per_ph<R: Real>(kelvin: R) -> R {
    kelvin * NERNST_MV_PER_KELVIN
}

/// Millivolts per pH of an ideal probe, R T ln 10 / F: 59.159 mV at 25 °C.
#[must_use]
pub fn nernst_slope_mv_per_ph(temperature: Temperature) -> f64 {
    nernst_mv_per_ph(temperature.kelvin())
}

/// pH of a sample whose meter worked with another temperature than the probe's:
/// no temperature sensor, or a wrong manual setting.
///
/// The meter divided by the millivolts per pH of `meter_temperature`; what it
/// shows is stretched about the isopotential point ([`ISOPOTENTIAL_PH`]) by the
/// ratio of absolute temperatures. About 0.003 pH per °C and pH away from 7:
/// −0.02 for a pH of 8.2 at 30 °C on a meter set to 25 °C.
///
/// The change of the water's own pH with temperature is another matter, see
/// [the module](crate::probe).
///
/// ```
/// use halimeda::probe::correct_missing_compensation;
/// use halimeda::{NbsScale, Ph, Temperature};
/// let shown = Ph::<NbsScale>::new(8.2)?;
/// let set = Temperature::from_celsius(25.0)?;
/// let tank = Temperature::from_celsius(30.0)?;
/// let ph = correct_missing_compensation(shown, set, tank)?;
/// assert!((ph.value() - 8.180).abs() < 1e-3);
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// The corrected pH lies outside 0 to 14.
pub fn correct_missing_compensation<S: Scale>(
    displayed: Ph<S>,
    meter_temperature: Temperature,
    probe_temperature: Temperature,
) -> Result<Ph<S>> {
    let stretch = meter_temperature.kelvin() / probe_temperature.kelvin();
    Ph::new(ISOPOTENTIAL_PH + (displayed.value() - ISOPOTENTIAL_PH) * stretch)
}
