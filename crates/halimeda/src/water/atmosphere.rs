use crate::Result;
use crate::error::within;
use crate::quantity::AirPressure;
use crate::real::powf;

/// Standard acceleration of gravity, m/s² (CGPM 1901).
pub(crate) const GRAVITY: f64 = 9.80665;

// International Standard Atmosphere below 11 km: ISO 2533:1975, ICAO Doc 7488.
const SEA_LEVEL_KELVIN: f64 = 288.15;
const LAPSE_KELVIN_PER_M: f64 = 0.0065;
/// g/(R β): gravity over 287.05287 J/(kg K) times the lapse rate.
const EXPONENT: f64 = GRAVITY / (287.05287 * LAPSE_KELVIN_PER_M);

fn altitude(altitude_m: f64) -> Result<f64> {
    within("altitude", altitude_m, -1000.0, 7000.0, "m")
}

impl AirPressure {
    /// Pressure of the standard atmosphere at an altitude above sea level, in
    /// metres from −1000 to 7000: the long-term mean at mid-latitudes, from
    /// which weather departs by up to 5 %.
    ///
    /// ISO 2533:1975 (ICAO standard atmosphere), p = p0 (1 − 0.0065 h/288.15)^5.2559.
    /// The altitude is geopotential; a map's differs by less than 8 m here.
    ///
    /// ```
    /// use halimeda::AirPressure;
    /// let pressure = AirPressure::at_altitude_m(1457.0)?;
    /// assert!((pressure.hpa() - 850.0).abs() < 0.1);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// The altitude is not finite or outside −1000 to 7000 m.
    pub fn at_altitude_m(altitude_m: f64) -> Result<Self> {
        Self::from_sea_level(Self::STANDARD, altitude_m)
    }

    /// Pressure at an altitude in metres (−1000 to 7000) when a weather report
    /// gives `sea_level`, the pressure reduced to sea level with the standard
    /// atmosphere (QNH, "altimeter setting").
    ///
    /// A weather map's sea-level pressure is reduced with the day's temperature
    /// instead (QFF): the same near sea level, a few hPa off at 1000 m.
    ///
    /// ICAO Doc 7488: p = p0 ((QNH/p0)^(1/n) − 0.0065 h/288.15)^n, n = 5.2559.
    ///
    /// ```
    /// use halimeda::AirPressure;
    /// let report = AirPressure::from_hpa(1020.0)?;
    /// let here = AirPressure::from_sea_level(report, 500.0)?;
    /// assert!((here.hpa() - 961.0).abs() < 0.2);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// The altitude is not finite or outside −1000 to 7000 m, or the pressure
    /// there is outside [`AirPressure::MIN`] to [`AirPressure::MAX`].
    pub fn from_sea_level(sea_level: Self, altitude_m: f64) -> Result<Self> {
        shifted(sea_level, -altitude(altitude_m)?)
    }

    /// Pressure reduced to sea level with the standard atmosphere (QNH), for a
    /// barometer that shows this pressure at an altitude in metres:
    /// [`AirPressure::from_sea_level`] inverted.
    ///
    /// # Errors
    /// The altitude is not finite or outside −1000 to 7000 m, or the pressure at
    /// sea level is outside [`AirPressure::MIN`] to [`AirPressure::MAX`].
    pub fn to_sea_level(self, altitude_m: f64) -> Result<Self> {
        shifted(self, altitude(altitude_m)?)
    }
}

/// The pressure `down_m` metres lower in an atmosphere of standard lapse.
fn shifted(pressure: AirPressure, down_m: f64) -> Result<AirPressure> {
    let base =
        powf(pressure.atm(), 1.0 / EXPONENT) + LAPSE_KELVIN_PER_M * down_m / SEA_LEVEL_KELVIN;
    AirPressure::from_atm(powf(base, EXPONENT))
}
