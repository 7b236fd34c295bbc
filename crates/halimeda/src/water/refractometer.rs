use super::refractive_index::{STANDARD_DEVIATION, Wavelength, millard_seaver_1990};
use super::salinity_reading::{Instrument, SalinityReading};
use crate::error::within;
use crate::quantity::{PracticalSalinity, Temperature};
use crate::real::{Real, polynomial, sqrt};
use crate::relation::{Extrapolation, Relation};
use crate::{Result, root};

/// What the scale of a hand refractometer counts.
///
/// All scales show the refractive index at 20 °C; they differ in the solution
/// that is supposed to have it. Only the first was made for seawater. A scale of
/// "specific gravity" says neither solution nor reference; read the other one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum RefractometerScale {
    /// Practical salinity of seawater ("ppt" or "‰" of a seawater refractometer).
    Seawater,
    /// Grams of sodium chloride per kilogram of solution ("‰" or "ppt" of a salt
    /// or brine refractometer; ten times its percent).
    SodiumChloride,
    /// Grams of sucrose per 100 g of solution (°Brix).
    Brix,
}

/// The fluid a hand refractometer was adjusted with.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum CalibrationFluid {
    /// Pure water (reverse osmosis or distilled), on the scale's zero.
    PureWater,
    /// Seawater standard of known practical salinity.
    Seawater(PracticalSalinity),
    /// Sodium chloride solution of known content, g per kg of solution, 0 to 260.
    SodiumChloride {
        /// Grams of sodium chloride per kilogram of solution.
        g_per_kg: f64,
    },
}

/// Whether the instrument corrects for temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum TemperatureCompensation {
    /// It claims to ("ATC"): readings are those at 20 °C. The correction is made
    /// for one solution and one prism and good for about 10 to 30 °C (common
    /// practice, no source).
    Automatic,
    /// It does not: fluid and sample are read at their own temperatures. The
    /// small change of the prism itself is left out.
    None {
        /// Temperature of the fluid when the instrument was adjusted.
        fluid: Temperature,
        /// Temperature of the sample when it is read.
        sample: Temperature,
    },
}

/// A hand refractometer: its scale, the fluid it was last adjusted with, and how
/// it treats temperature.
///
/// Adjusting moves the shadow line by a constant, so the instrument is right
/// where it was adjusted and off elsewhere by what the scale's solution and
/// seawater differ in between. A brine scale zeroed in pure water shows 36.4 in
/// water of salinity 35:
///
/// ```
/// use halimeda::{Extrapolation, PracticalSalinity};
/// use halimeda::water::{CalibrationFluid, Refractometer, RefractometerScale};
/// let ocean = PracticalSalinity::new(35.0)?;
/// let zeroed = Refractometer::new(RefractometerScale::SodiumChloride);
/// assert!((zeroed.shows(ocean)? - 36.4).abs() < 0.1);
/// let reading = zeroed.practical_salinity(35.0, Extrapolation::Refuse)?;
/// assert!((reading.salinity().value() - 33.6).abs() < 0.1);
///
/// // Adjusted at 35 with a seawater standard it is right there.
/// let adjusted = zeroed.adjusted(CalibrationFluid::Seawater(ocean), 35.0)?;
/// let reading = adjusted.practical_salinity(35.0, Extrapolation::Refuse)?;
/// assert!((reading.salinity().value() - 35.0).abs() < 1e-9);
/// # Ok::<(), halimeda::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Refractometer {
    scale: RefractometerScale,
    fluid: CalibrationFluid,
    adjusted_to: f64,
    compensation: TemperatureCompensation,
}

const TWENTY_CELSIUS: f64 = 20.0;

/// Index of seawater relative to air, sodium D, one atmosphere.
fn seawater_index(t_celsius: f64, salinity: f64) -> f64 {
    millard_seaver_1990(t_celsius, salinity, 0.0, Wavelength::SODIUM_D.nanometres())
}

/// Index of a sodium chloride solution relative to air, sodium D, 20 °C, from
/// its mass percent.
///
/// Cubic fitted for this crate to the 35 rows, 0.1 to 26 %, of "Concentrative
/// properties of aqueous solutions", CRC Handbook of Chemistry and Physics, 102nd
/// ed. (2021), after Wolf, A. V. (1966) Aqueous Solutions and Body Fluids. Every
/// row within 4.8e-5, the table's own rounding.
fn sodium_chloride_index(mass_percent: f64) -> f64 {
    polynomial(mass_percent, [1.33299, 1.75745e-3, -1.08717e-6, 8.71718e-8])
}

/// Index of a sucrose solution relative to air, sodium D, 20 °C, from its mass
/// percent (°Brix).
///
/// Cubic fitted for this crate to the ICUMSA (1974) values, 0 to 25 %, as in
/// OIV-MA-AS2-02, table II (from 10 % up; below, from memory, in agreement with
/// the four digits of the CRC Handbook table named above). Within 0.6e-5.
fn sucrose_index(mass_percent: f64) -> f64 {
    polynomial(mass_percent, [1.33299, 1.42660e-3, 5.50803e-6, 1.45934e-8])
}

/// Standard uncertainty of [`sodium_chloride_index`] between the rows: that of
/// its least-squares fit.
const SODIUM_CHLORIDE_UNCERTAINTY: f64 = 1e-5;
/// Standard uncertainty of [`sucrose_index`]: rounding and fit.
const SUCROSE_UNCERTAINTY: f64 = 0.5e-5;

impl RefractometerScale {
    /// Index, relative to air at 20 °C, that the scale shows as `shown`.
    fn index(self, shown: f64) -> f64 {
        match self {
            Self::Seawater => seawater_index(TWENTY_CELSIUS, shown),
            Self::SodiumChloride => sodium_chloride_index(shown / 10.0),
            Self::Brix => sucrose_index(shown),
        }
    }

    /// What the scale, continued beyond its ends, shows for an index.
    fn shown(self, index: f64) -> f64 {
        // Wide enough for any water a refractive index is given for; the three
        // polynomials increase throughout.
        let end = match self {
            Self::Seawater | Self::SodiumChloride => 260.0,
            Self::Brix => 26.0,
        };
        root::of_increasing(|x| self.index(x), index, -end, end, 1e-12)
    }

    const fn uncertainty(self) -> f64 {
        match self {
            Self::Seawater => STANDARD_DEVIATION,
            Self::SodiumChloride => SODIUM_CHLORIDE_UNCERTAINTY,
            Self::Brix => SUCROSE_UNCERTAINTY,
        }
    }

    fn checked(self, input: &'static str, shown: f64) -> Result<f64> {
        let (max, unit) = match self {
            Self::Seawater => (100.0, "(practical salinity)"),
            Self::SodiumChloride => (260.0, "g/kg NaCl"),
            Self::Brix => (25.0, "°Brix"),
        };
        within(input, shown, 0.0, max, unit)
    }
}

impl Refractometer {
    /// With the given scale, adjusted to zero in pure water, with automatic
    /// temperature compensation.
    #[must_use]
    pub const fn new(scale: RefractometerScale) -> Self {
        Self {
            scale,
            fluid: CalibrationFluid::PureWater,
            adjusted_to: 0.0,
            compensation: TemperatureCompensation::Automatic,
        }
    }

    /// Adjusted so that it shows `shown`, in the unit of its scale, in the fluid.
    ///
    /// # Errors
    /// `shown` is not finite or not on the scale (0 to 100 seawater, 260 g/kg
    /// sodium chloride, 25 °Brix); the fluid's sodium chloride is not finite or
    /// outside 0 to 260 g/kg; the fluid's salinity is above 40.
    pub fn adjusted(mut self, fluid: CalibrationFluid, shown: f64) -> Result<Self> {
        match fluid {
            CalibrationFluid::PureWater => {}
            CalibrationFluid::Seawater(standard) => {
                within(
                    "salinity of the calibration fluid",
                    standard.value(),
                    0.0,
                    40.0,
                    "(practical salinity)",
                )?;
            }
            CalibrationFluid::SodiumChloride { g_per_kg } => {
                within(
                    "sodium chloride in the calibration fluid",
                    g_per_kg,
                    0.0,
                    260.0,
                    "g/kg",
                )?;
            }
        }
        self.adjusted_to = self
            .scale
            .checked("reading in the calibration fluid", shown)?;
        self.fluid = fluid;
        Ok(self)
    }

    /// With another treatment of temperature.
    #[must_use]
    pub const fn with_compensation(mut self, compensation: TemperatureCompensation) -> Self {
        self.compensation = compensation;
        self
    }

    /// The temperature at which the sample's index is what the scale shows.
    fn sample_temperature(self) -> Result<Temperature> {
        match self.compensation {
            TemperatureCompensation::Automatic => Temperature::from_celsius(TWENTY_CELSIUS),
            TemperatureCompensation::None { sample, .. } => Ok(sample),
        }
    }

    /// What adjusting added to the index.
    fn offset(self) -> Result<f64> {
        let t = match self.compensation {
            TemperatureCompensation::Automatic => TWENTY_CELSIUS,
            TemperatureCompensation::None { fluid, .. } => within(
                "temperature of the calibration fluid",
                fluid.celsius(),
                0.0,
                30.0,
                "°C",
            )?,
        };
        let fluid = match self.fluid {
            CalibrationFluid::PureWater => seawater_index(t, 0.0),
            CalibrationFluid::Seawater(standard) => seawater_index(t, standard.value()),
            CalibrationFluid::SodiumChloride { g_per_kg } => {
                // The table holds at 20 °C; 0.1 °C is 0.05 in salinity.
                within(
                    "temperature of the sodium chloride calibration fluid",
                    t,
                    19.9,
                    20.1,
                    "°C",
                )?;
                sodium_chloride_index(g_per_kg / 10.0)
            }
        };
        Ok(self.scale.index(self.adjusted_to) - fluid)
    }

    /// Standard uncertainty of the index of the sample, from the relations used.
    fn index_uncertainty(self) -> f64 {
        let fluid = match self.fluid {
            // 0.12 ppm, Millard & Seaver (1990), table 1.
            CalibrationFluid::PureWater => 0.12e-6,
            CalibrationFluid::Seawater(_) => STANDARD_DEVIATION,
            CalibrationFluid::SodiumChloride { .. } => SODIUM_CHLORIDE_UNCERTAINTY,
        };
        sqrt(STANDARD_DEVIATION.square() + self.scale.uncertainty().square() + fluid.square())
    }

    fn instrument(self, extrapolation: Extrapolation) -> Result<Instrument<impl Fn(f64) -> f64>> {
        let temperature = self.sample_temperature()?;
        let t = temperature.celsius();
        let offset = self.offset()?;
        let scale = self.scale;
        let reading_at = move |s| scale.shown(seawater_index(t, s) + offset);
        // Near enough the slope of the scale anywhere on it.
        let index_per_shown = (scale.index(1.0) - scale.index(0.0)).abs();
        Ok(Instrument {
            input: "refractometer reading",
            unit: match scale {
                RefractometerScale::Seawater => "(practical salinity)",
                RefractometerScale::SodiumChloride => "g/kg NaCl",
                RefractometerScale::Brix => "°Brix",
            },
            relation: Relation::RefractiveIndexMillardSeaver1990,
            temperature,
            extrapolation,
            relation_uncertainty: self.index_uncertainty() / index_per_shown,
            reading_at,
        })
    }

    /// Practical salinity of the water in which the instrument shows `shown`, in
    /// the unit of its scale; sensitivity per unit of the scale.
    ///
    /// From the refractive indices of seawater (Millard & Seaver 1990), sodium
    /// chloride (CRC Handbook, 102nd ed.) and sucrose (ICUMSA 1974) at the sodium
    /// D line, by a bracketed root search. The relation uncertainty counts those
    /// three, not the instrument, whose finest division is seldom below 1.
    ///
    /// # Errors
    /// `shown` is not finite or not on the scale; a temperature outside 0 to
    /// 30 °C, or outside 19.9 to 20.1 °C for an uncompensated instrument adjusted
    /// in sodium chloride; a reading that no salinity of
    /// [`Relation::RefractiveIndexMillardSeaver1990`] gives and extrapolation not
    /// allowed; one outside what salinity 0 to 70 gives.
    pub fn practical_salinity(
        self,
        shown: f64,
        extrapolation: Extrapolation,
    ) -> Result<SalinityReading> {
        let shown = self.scale.checked("refractometer reading", shown)?;
        self.instrument(extrapolation)?.salinity(shown)
    }

    /// What the instrument shows, in the unit of its scale continued beyond its
    /// ends, in seawater of the given salinity.
    ///
    /// # Errors
    /// A salinity or temperature outside
    /// [`Relation::RefractiveIndexMillardSeaver1990`]; a calibration temperature
    /// as for [`Refractometer::practical_salinity`].
    pub fn shows(self, salinity: PracticalSalinity) -> Result<f64> {
        let instrument = self.instrument(Extrapolation::Refuse)?;
        instrument
            .relation
            .check(instrument.temperature, salinity, Extrapolation::Refuse)?;
        Ok((instrument.reading_at)(salinity.value()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // CRC Handbook of Chemistry and Physics, 102nd ed. (2021), "Concentrative
    // properties of aqueous solutions", sodium chloride: mass percent, n.
    const CRC_SODIUM_CHLORIDE: [(f64, f64); 13] = [
        (0.5, 1.3339),
        (1.0, 1.3347),
        (2.0, 1.3365),
        (3.0, 1.3383),
        (3.5, 1.3391),
        (4.0, 1.3400),
        (5.0, 1.3418),
        (7.0, 1.3453),
        (10.0, 1.3505),
        (14.0, 1.3576),
        (18.0, 1.3648),
        (22.0, 1.3721),
        (26.0, 1.3795),
    ];

    // OIV-MA-AS2-02, table II: mass percent of sucrose, index at 20 °C.
    const OIV_SUCROSE: [(f64, f64); 8] = [
        (10.0, 1.34782),
        (11.0, 1.34937),
        (12.5, 1.35171),
        (14.0, 1.35408),
        (15.0, 1.35568),
        (20.0, 1.36384),
        (22.0, 1.36720),
        (25.0, 1.37233),
    ];

    // The same CRC table, sucrose, below where the OIV table starts.
    const CRC_SUCROSE: [(f64, f64); 7] = [
        (0.5, 1.3337),
        (1.0, 1.3344),
        (2.0, 1.3359),
        (3.0, 1.3373),
        (5.0, 1.3403),
        (7.0, 1.3433),
        (9.0, 1.3463),
    ];

    #[test]
    fn indices_agree_with_the_tables_to_their_rounding() {
        for (percent, n) in CRC_SODIUM_CHLORIDE {
            assert!(
                (sodium_chloride_index(percent) - n).abs() < 5e-5,
                "{percent}"
            );
        }
        for (percent, n) in OIV_SUCROSE {
            assert!((sucrose_index(percent) - n).abs() < 1e-5, "{percent}");
        }
        for (percent, n) in CRC_SUCROSE {
            assert!((sucrose_index(percent) - n).abs() < 5e-5, "{percent}");
        }
    }

    #[test]
    fn scales_are_inverted_over_everything_they_may_show() {
        for scale in [
            RefractometerScale::Seawater,
            RefractometerScale::SodiumChloride,
            RefractometerScale::Brix,
        ] {
            for step in -20..=25 {
                let shown = f64::from(step);
                assert!((scale.shown(scale.index(shown)) - shown).abs() < 1e-9);
            }
        }
        // The most and least refracting waters of any accepted temperature.
        for (t, s) in [(-5.0, 70.0), (60.0, 0.0)] {
            let index = seawater_index(t, s);
            let brix = RefractometerScale::Brix.shown(index);
            assert!((sucrose_index(brix) - index).abs() < 1e-12);
        }
    }
}
