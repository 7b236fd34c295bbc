use super::compensation::nernst_mv_per_ph;
use super::{ISOPOTENTIAL_PH, ProbeReading, ProbeUncertainty};
use crate::error::{Error, Result, within};
use crate::quantity::{ElectrodePotential, Ph, Scale, Temperature};
use crate::real::{Dual, Real};

/// What a probe showed in one buffer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BufferReading<S: Scale> {
    ph: Ph<S>,
    potential: ElectrodePotential,
    temperature: Temperature,
}

impl<S: Scale> BufferReading<S> {
    /// From the pH of the buffer **at the temperature it was measured at**, the
    /// steady potential and that temperature.
    #[must_use]
    pub const fn new(ph: Ph<S>, potential: ElectrodePotential, temperature: Temperature) -> Self {
        Self {
            ph,
            potential,
            temperature,
        }
    }
}

/// Two-point calibration of a glass probe, on the scale of its buffers.
///
/// E = E0 − s k(T) (pH − pH0): potential E, E0 its value at the isopotential
/// point pH0 ([`ISOPOTENTIAL_PH`] unless given), s the practical over the
/// theoretical slope k(T) = R T ln 10 / F (Buck et al. 2002, IUPAC Recommendations, Pure Appl. Chem. 74,
/// 2169-2200, sect. 11, doi 10.1351/pac200274112169).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProbeCalibration<S: Scale> {
    first: BufferReading<S>,
    second: BufferReading<S>,
    line: Line<f64>,
}

/// Isopotential pH, offset there in mV, and slope over the theoretical one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line<R> {
    pub(super) isopotential_ph: f64,
    pub(super) offset_mv: R,
    pub(super) slope: R,
}

impl<R: Real> Line<R> {
    // Through two points of (pH, mV, K).
    fn through(isopotential_ph: f64, first: [R; 3], second: [R; 3]) -> Self {
        let abscissa = |[ph, _, kelvin]: [R; 3]| nernst_mv_per_ph(kelvin) * (ph - isopotential_ph);
        let [_, e1, _] = first;
        let [_, e2, _] = second;
        let slope = (e1 - e2) / (abscissa(second) - abscissa(first));
        Self {
            isopotential_ph,
            offset_mv: e1 + slope * abscissa(first),
            slope,
        }
    }

    pub(super) fn ph(self, millivolts: R, kelvin: R) -> R {
        (self.offset_mv - millivolts) / (self.slope * nernst_mv_per_ph(kelvin))
            + self.isopotential_ph
    }
}

/// Least distance between the two buffers, pH. Common practice, no source.
const LEAST_BUFFER_DISTANCE: f64 = 1.0;

/// Slopes, per cent of the theoretical one, that a glass probe in two buffers
/// can show at all; beyond them a buffer, a reading or a plug is wrong.
const POSSIBLE_SLOPE_PERCENT: (f64, f64) = (60.0, 110.0);

/// Offset, mV, beyond which reference or wiring is broken rather than old.
const POSSIBLE_OFFSET_MV: f64 = 200.0;

impl<S: Scale> ProbeCalibration<S> {
    /// From what the probe showed in two buffers, in either order.
    ///
    /// # Errors
    /// - the buffers are less than 1 pH apart;
    /// - the potential rises with pH: readings or plug swapped;
    /// - the slope is outside 60 to 110 % of theory or the offset beyond ±200 mV.
    pub fn new(first: BufferReading<S>, second: BufferReading<S>) -> Result<Self> {
        Self::from_buffers(first, second, ISOPOTENTIAL_PH)
    }

    /// The same for a probe whose maker states another isopotential point. It
    /// matters only where temperatures differ.
    ///
    /// # Errors
    /// As [`ProbeCalibration::new`].
    pub fn with_isopotential(
        first: BufferReading<S>,
        second: BufferReading<S>,
        isopotential: Ph<S>,
    ) -> Result<Self> {
        Self::from_buffers(first, second, isopotential.value())
    }

    fn from_buffers(
        first: BufferReading<S>,
        second: BufferReading<S>,
        isopotential_ph: f64,
    ) -> Result<Self> {
        let (ph1, ph2) = (first.ph.value(), second.ph.value());
        if (ph1 - ph2).abs() < LEAST_BUFFER_DISTANCE {
            return Err(Error::contradictory(
                ("pH of the first buffer", ph1),
                ("pH of the second buffer", ph2),
                "two buffers at least 1 pH apart are needed",
            ));
        }
        let (e1, e2) = (first.potential.millivolts(), second.potential.millivolts());
        if (e1 - e2) * (ph1 - ph2) >= 0.0 {
            return Err(Error::contradictory(
                ("potential in the first buffer", e1),
                ("potential in the second buffer", e2),
                "the potential of a pH probe falls as pH rises: readings swapped, or one repeated",
            ));
        }
        let line = Line::through(
            isopotential_ph,
            [ph1, e1, first.temperature.kelvin()],
            [ph2, e2, second.temperature.kelvin()],
        );
        let calibration = Self {
            first,
            second,
            line,
        };
        let (min, max) = POSSIBLE_SLOPE_PERCENT;
        within(
            "probe slope",
            calibration.slope_percent(),
            min,
            max,
            "% of theory",
        )?;
        within(
            "probe offset at pH 7",
            calibration.offset_mv(),
            -POSSIBLE_OFFSET_MV,
            POSSIBLE_OFFSET_MV,
            "mV",
        )?;
        Ok(calibration)
    }

    /// Slope in per cent of the theoretical one.
    #[must_use]
    pub const fn slope_percent(&self) -> f64 {
        self.line.slope * 100.0
    }

    /// Slope at a temperature, mV per pH, positive.
    #[must_use]
    pub fn slope_mv_per_ph(&self, temperature: Temperature) -> f64 {
        self.line.slope * nernst_mv_per_ph(temperature.kelvin())
    }

    /// Potential at pH 7 and 25 °C, mV.
    #[must_use]
    pub fn offset_mv(&self) -> f64 {
        let Line {
            isopotential_ph,
            offset_mv,
            slope,
        } = self.line;
        offset_mv - slope * nernst_mv_per_ph(298.15) * (7.0 - isopotential_ph)
    }

    /// pH at which the potential is zero, at a temperature.
    ///
    /// # Errors
    /// It lies outside 0 to 14.
    pub fn zero_point(&self, temperature: Temperature) -> Result<Ph<S>> {
        Ph::new(self.line.ph(0.0, temperature.kelvin()))
    }

    /// Verdict on slope and offset.
    #[must_use]
    pub fn health(&self) -> ProbeHealth {
        ProbeHealth::of(self.slope_percent(), self.offset_mv())
    }

    /// pH of a sample from potential and temperature, with its uncertainty.
    ///
    /// The derivatives are those of the calculation itself (forward-mode), so
    /// temperature, bracketing and slope all weigh in as they do in the value.
    ///
    /// # Errors
    /// The pH lies outside 0 to 14.
    pub fn read(
        &self,
        potential: ElectrodePotential,
        temperature: Temperature,
        uncertainty: &ProbeUncertainty,
    ) -> Result<ProbeReading<S>> {
        let point = |reading: &BufferReading<S>, index| {
            [
                Dual::<8>::variable(reading.ph.value(), index),
                Dual::variable(reading.potential.millivolts(), index + 1),
                Dual::variable(reading.temperature.kelvin(), index + 2),
            ]
        };
        let line = Line::through(
            self.line.isopotential_ph,
            point(&self.first, 0),
            point(&self.second, 3),
        );
        let ph = line.ph(
            Dual::variable(potential.millivolts(), 6),
            Dual::variable(temperature.kelvin(), 7),
        );
        let (ph1, ph2) = (self.first.ph.value(), self.second.ph.value());
        Ok(ProbeReading {
            ph: Ph::new(ph.value)?,
            budget: uncertainty.budget(ph.derivatives),
            bracketed: ph1.min(ph2) <= ph.value && ph.value <= ph1.max(ph2),
        })
    }

    pub(super) const fn line(&self) -> Line<f64> {
        self.line
    }
}

/// Whether a probe's calibration can be trusted.
///
/// Common practice, no single source; the 95 to 102 % of a good slope are those
/// of the US Geological Survey's National Field Manual, chapter A6.4 (from
/// memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum ProbeHealth {
    /// Slope 95 to 102 % of theory and offset within ±30 mV.
    Good,
    /// Slope 90 to 95 or 102 to 105 %: clean, use fresh buffers, calibrate again
    /// and watch it.
    Ageing,
    /// Slope or offset beyond that: clean and recondition; if it stays, replace.
    Replace,
}

impl ProbeHealth {
    /// Verdict on a slope in per cent of theory and an offset at pH 7 in mV.
    #[must_use]
    pub fn of(slope_percent: f64, offset_mv: f64) -> Self {
        let offset_good = offset_mv.abs() <= 30.0;
        if offset_good && (95.0..=102.0).contains(&slope_percent) {
            Self::Good
        } else if offset_good && (90.0..=105.0).contains(&slope_percent) {
            Self::Ageing
        } else {
            Self::Replace
        }
    }
}
