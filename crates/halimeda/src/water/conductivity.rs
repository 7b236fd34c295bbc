use super::Water;
use super::salinity_reading::{Instrument, SalinityReading};
use crate::error::within;
use crate::quantity::{PracticalSalinity, Temperature, WaterPressure, scalar_quantity};
use crate::real::{Real, polynomial, sqrt};
use crate::relation::{Extrapolation, Relation};
use crate::{Result, root};

scalar_quantity! {
    /// Electrical conductivity at the water's own temperature and pressure, not
    /// reduced to 25 °C; for a meter that reduces it see [`SpecificConductance`].
    ///
    /// Accepted from 0 to 200 mS/cm.
    Conductivity, "conductivity", "mS/cm", ms_per_cm, from_ms_per_cm, 0.0, 200.0
}

/// Conductivity of water of practical salinity 35 at 15 °C (IPTS-68) and one
/// atmosphere, mS/cm: Culkin & Smith (1980) IEEE J. Oceanic Eng. 5, 22-23, as
/// adopted with PSS-78.
const STANDARD_MS_PER_CM: f64 = 42.914;

impl Conductivity {
    /// From µS/cm.
    ///
    /// # Errors
    /// As [`Conductivity::from_ms_per_cm`], with the value converted to mS/cm.
    pub const fn from_us_per_cm(us_per_cm: f64) -> Result<Self> {
        Self::from_ms_per_cm(us_per_cm * 1e-3)
    }

    /// From S/m.
    ///
    /// # Errors
    /// As [`Conductivity::from_ms_per_cm`], with the value converted to mS/cm.
    pub const fn from_s_per_m(s_per_m: f64) -> Result<Self> {
        Self::from_ms_per_cm(s_per_m * 10.0)
    }

    /// From the conductivity ratio R of PSS-78, dimensionless: over that of
    /// water of practical salinity 35 at 15 °C and one atmosphere, 42.914 mS/cm.
    ///
    /// # Errors
    /// As [`Conductivity::from_ms_per_cm`], with the value converted to mS/cm.
    pub const fn from_ratio(ratio: f64) -> Result<Self> {
        Self::from_ms_per_cm(ratio * STANDARD_MS_PER_CM)
    }

    /// The conductivity ratio R of PSS-78, dimensionless.
    #[must_use]
    pub const fn ratio(self) -> f64 {
        self.ms_per_cm / STANDARD_MS_PER_CM
    }
}

/// What a temperature-compensating conductivity meter shows: the conductivity
/// the water would have at a reference temperature if it changed by a fixed
/// percentage of that value per degree.
///
/// Seawater does not, quite: of its value at 25 °C it gains 1.85 %/°C at 15 °C,
/// 1.97 at 25 and 2.01 at 30 (PSS-78, salinity 35). Taking the meter's reduction
/// back with the meter's own coefficient undoes that error; a reading taken at
/// the reference temperature needs no coefficient at all.
///
/// ```
/// use halimeda::{Extrapolation, Temperature, WaterPressure};
/// use halimeda::water::{Conductivity, SpecificConductance, practical_salinity_from_conductivity};
/// let tank = Temperature::from_celsius(27.0)?;
/// let shown = SpecificConductance::new(
///     Conductivity::from_ms_per_cm(53.0)?,
///     Temperature::from_celsius(25.0)?,
///     2.0,
/// )?;
/// let conductivity = shown.conductivity(tank)?;
/// assert!((conductivity.ms_per_cm() - 55.12).abs() < 1e-9);
/// let reading = practical_salinity_from_conductivity(
///     conductivity,
///     tank,
///     WaterPressure::SURFACE,
///     Extrapolation::Refuse,
/// )?;
/// assert!((reading.salinity().value() - 34.97).abs() < 0.01);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpecificConductance {
    at_reference: Conductivity,
    reference: Temperature,
    percent_per_celsius: f64,
}

impl SpecificConductance {
    /// From what the meter shows, its reference temperature (often 25 °C) and
    /// its compensation coefficient in percent of the shown value per °C
    /// (often 1.9 to 2.1; the meter's manual or set-up menu states it).
    ///
    /// # Errors
    /// The coefficient is not finite or outside 0 to 5 %/°C.
    pub const fn new(
        shown: Conductivity,
        reference: Temperature,
        percent_per_celsius: f64,
    ) -> Result<Self> {
        match within(
            "temperature compensation",
            percent_per_celsius,
            0.0,
            5.0,
            "%/°C",
        ) {
            Ok(percent_per_celsius) => Ok(Self {
                at_reference: shown,
                reference,
                percent_per_celsius,
            }),
            Err(e) => Err(e),
        }
    }

    /// What a meter with this reference temperature and coefficient (%/°C)
    /// shows in water of the given conductivity and temperature.
    ///
    /// # Errors
    /// As [`SpecificConductance::new`], or the compensation leaves nothing, or
    /// more than a [`Conductivity`] can be, to show.
    pub const fn from_conductivity(
        conductivity: Conductivity,
        water: Temperature,
        reference: Temperature,
        percent_per_celsius: f64,
    ) -> Result<Self> {
        let reduced = Conductivity::from_ms_per_cm(
            conductivity.ms_per_cm() / compensation(water, reference, percent_per_celsius),
        );
        match reduced {
            Ok(shown) => Self::new(shown, reference, percent_per_celsius),
            Err(e) => Err(e),
        }
    }

    /// What the meter shows.
    #[must_use]
    pub const fn shown(self) -> Conductivity {
        self.at_reference
    }

    /// The conductivity at the water's own temperature: the compensation undone.
    ///
    /// # Errors
    /// The result is not a possible [`Conductivity`], as for cold water with a
    /// large coefficient.
    pub const fn conductivity(self, water: Temperature) -> Result<Conductivity> {
        Conductivity::from_ms_per_cm(
            self.at_reference.ms_per_cm()
                * compensation(water, self.reference, self.percent_per_celsius),
        )
    }
}

/// Conductivity at the water's temperature over that at the reference.
const fn compensation(water: Temperature, reference: Temperature, percent_per_celsius: f64) -> f64 {
    1.0 + percent_per_celsius / 100.0 * (water.celsius() - reference.celsius())
}

// PSS-78 as in Fofonoff & Millard (1983), eqs. 1-4; temperatures IPTS-68.

/// r_t: conductivity of water of salinity 35 at a temperature over that at
/// 15 °C, eq. 3.
fn temperature_ratio(t68_celsius: f64) -> f64 {
    polynomial(
        t68_celsius,
        [0.6766097, 2.00564e-2, 1.104259e-4, -6.9698e-7, 1.0031e-9],
    )
}

/// Practical salinity from the square root of R_t, eqs. 1 and 2.
fn salinity_from_root(root_rt: f64, t68_celsius: f64) -> f64 {
    let above_15 = t68_celsius - 15.0;
    polynomial(
        root_rt,
        [0.0080, -0.1692, 25.3851, 14.0941, -7.0261, 2.7081],
    ) + above_15 / (1.0 + 0.0162 * above_15)
        * polynomial(
            root_rt,
            [0.0005, -0.0056, -0.0066, -0.0375, 0.0636, -0.0144],
        )
}

/// The three parts of R_p = 1 + e/(d + a R), eq. 4: (e, d, a).
fn pressure_terms(t68_celsius: f64, dbar: f64) -> (f64, f64, f64) {
    let p = dbar;
    let t = t68_celsius;
    (
        p * polynomial(p, [2.070e-5, -6.370e-10, 3.989e-15]),
        polynomial(t, [1.0, 3.426e-2, 4.464e-4]),
        4.215e-1 - 3.107e-3 * t,
    )
}

/// Practical salinity from the conductivity ratio R, IPTS-68 °C and dbar.
fn salinity_from_ratio(ratio: f64, t68_celsius: f64, dbar: f64) -> f64 {
    let (e, d, a) = pressure_terms(t68_celsius, dbar);
    let rp = 1.0 + e / (d + a * ratio);
    let rt = ratio / (rp * temperature_ratio(t68_celsius));
    salinity_from_root(sqrt(rt), t68_celsius)
}

/// √R_t above which eq. 2 increases at any temperature, so that salinity
/// determines conductivity; practical salinity 0.015 at 15 °C.
const LOWEST_ROOT: f64 = 0.02;

/// Lowest practical salinity whose conductivity is given: well above what
/// [`LOWEST_ROOT`] has at any temperature.
const LOWEST_SALINITY: f64 = 0.05;

/// Conductivity ratio R from practical salinity, IPTS-68 °C and dbar.
fn ratio_from_salinity(salinity: f64, t68_celsius: f64, dbar: f64) -> f64 {
    // √R_t is 1 at salinity 35 and 1.35 at 70.
    let root_rt = root::of_increasing(
        |x| salinity_from_root(x, t68_celsius),
        salinity,
        LOWEST_ROOT,
        1.6,
        1e-15,
    );
    // R = q R_p(R) with q = R_t r_t is a quadratic in R; e and a are not
    // negative over any temperature water is liquid at, so one root is positive.
    let q = root_rt.square() * temperature_ratio(t68_celsius);
    let (e, d, a) = pressure_terms(t68_celsius, dbar);
    let half = 0.5 * (d - a * q);
    let discriminant = sqrt(half.square() + a * q * (d + e));
    q * (d + e) / (half + discriminant)
}

/// Practical salinity from conductivity: PSS-78, which defines it. Sensitivity
/// per mS/cm.
///
/// Perkin, R. G., Lewis, E. L. (1980) IEEE J. Oceanic Eng. 5, 9-16 (doi
/// 10.1109/JOE.1980.1145441); Fofonoff, N. P., Millard, R. C. (1983) UNESCO
/// Tech. Pap. Mar. Sci. 44, eqs. 1-4; with the temperature converted to
/// IPTS-68. Valid for salinity 2 to 42, −2 to 35 °C, 0 to 10 000 dbar. The
/// extension below salinity 2 (Hill et al. 1986) is not included.
///
/// Salt mixes do not conduct exactly like the seawater the scale was made with.
///
/// ```
/// use halimeda::{Extrapolation, Temperature, WaterPressure};
/// use halimeda::water::{Conductivity, practical_salinity_from_conductivity};
/// let reading = practical_salinity_from_conductivity(
///     Conductivity::from_ms_per_cm(53.0)?,
///     Temperature::from_celsius(25.0)?,
///     WaterPressure::SURFACE,
///     Extrapolation::Refuse,
/// )?;
/// assert!((reading.salinity().value() - 34.95).abs() < 0.01);
/// // Fresh water is no seawater, however good the meter.
/// let refused = practical_salinity_from_conductivity(
///     Conductivity::from_us_per_cm(450.0)?,
///     Temperature::from_celsius(25.0)?,
///     WaterPressure::SURFACE,
///     Extrapolation::Refuse,
/// );
/// assert_eq!(refused.unwrap_err().input(), "conductivity");
/// # Ok::<(), halimeda::Error>(())
/// ```
///
/// # Errors
/// Temperature outside [`Relation::SalinityPss78`], or a conductivity that none
/// of its salinities has there, and extrapolation not allowed; a conductivity
/// outside what salinity 0.05 to 70 has.
pub fn practical_salinity_from_conductivity(
    conductivity: Conductivity,
    temperature: Temperature,
    pressure: WaterPressure,
    extrapolation: Extrapolation,
) -> Result<SalinityReading> {
    let t68 = temperature.celsius_ipts68();
    let dbar = pressure.dbar();
    let instrument = Instrument {
        input: "conductivity",
        unit: "mS/cm",
        relation: Relation::SalinityPss78,
        temperature,
        extrapolation,
        relation_uncertainty: 0.0,
        reading_at: |s| ratio_from_salinity(s, t68, dbar) * STANDARD_MS_PER_CM,
    };
    let (lower, upper) = instrument.salinity_limits();
    let lower = lower.max(LOWEST_SALINITY);
    instrument.check(conductivity.ms_per_cm(), lower, upper)?;
    let at = |ratio| salinity_from_ratio(ratio, t68, dbar);
    let ratio = conductivity.ratio();
    // Rounding may carry a reading at the very end of the range across it.
    let salinity = at(ratio).max(lower).min(upper);
    let step = 1e-3 * ratio;
    let slope = (at(ratio + step) - at(ratio - step)) / (2.0 * step * STANDARD_MS_PER_CM);
    instrument.found(salinity, slope)
}

impl Water {
    /// Electrical conductivity at this water's temperature and pressure:
    /// [`practical_salinity_from_conductivity`] inverted.
    ///
    /// ```
    /// use halimeda::{PracticalSalinity, Temperature, Water};
    /// let water = Water::new(Temperature::from_celsius(25.0)?, PracticalSalinity::new(35.0)?);
    /// assert!((water.conductivity()?.ms_per_cm() - 53.071).abs() < 0.001);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// Temperature or salinity outside [`Relation::SalinityPss78`] and
    /// extrapolation not allowed; salinity below 0.05.
    pub fn conductivity(&self) -> Result<Conductivity> {
        self.check(Relation::SalinityPss78)?;
        let salinity = within(
            "practical salinity",
            self.salinity().value(),
            LOWEST_SALINITY,
            PracticalSalinity::MAX,
            "(practical salinity)",
        )?;
        let ratio = ratio_from_salinity(
            salinity,
            self.temperature().celsius_ipts68(),
            self.water_pressure().dbar(),
        );
        Conductivity::from_ratio(ratio)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Fofonoff & Millard (1983) UNESCO Tech. Pap. Mar. Sci. 44, p. 9 (R, t, p, S)
    // and p. 11 (the last). They are at pressures deeper than WaterPressure accepts.
    const UNESCO_44: [(f64, f64, f64, f64, f64); 4] = [
        (1.0, 15.0, 0.0, 35.000000, 1e-6),
        (1.2, 20.0, 2000.0, 37.245628, 1e-6),
        (0.65, 5.0, 1500.0, 27.995347, 1e-6),
        (1.888091, 40.0, 10_000.0, 40.00000, 1e-5),
    ];

    #[test]
    fn unesco_44_check_values() {
        for (ratio, t68, dbar, salinity, tolerance) in UNESCO_44 {
            let found = salinity_from_ratio(ratio, t68, dbar);
            assert!(
                (found - salinity).abs() < tolerance,
                "{found} for {salinity}"
            );
            let back = ratio_from_salinity(salinity, t68, dbar);
            assert!((back - ratio).abs() < 1e-6, "{back} for {ratio}");
        }
        // R_t of the second and third, same page.
        for (ratio, t68, dbar, rt) in [
            (1.2, 20.0, 2000.0, 1.0568875),
            (0.65, 5.0, 1500.0, 0.81705885),
        ] {
            let (e, d, a) = pressure_terms(t68, dbar);
            let found = ratio / ((1.0 + e / (d + a * ratio)) * temperature_ratio(t68));
            assert!((found - rt).abs() < 1e-7, "{found} for {rt}");
        }
    }

    #[test]
    fn conductivity_increases_with_salinity_wherever_it_is_asked_for() {
        for t68 in [-5.0, 0.0, 15.0, 35.0, 60.1] {
            for dbar in [0.0, 1000.0] {
                let mut last = 0.0;
                for step in 5..=7000 {
                    let salinity = f64::from(step) * 0.01;
                    let ratio = ratio_from_salinity(salinity, t68, dbar);
                    assert!(ratio > last);
                    assert!((salinity_from_ratio(ratio, t68, dbar) - salinity).abs() < 1e-12);
                    last = ratio;
                }
            }
        }
    }
}
