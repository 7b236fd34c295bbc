use crate::carbonate::{CarbonateState, Known, Parameter, UncertaintyBudget};
use crate::error::{Error, Result, within};
use crate::quantity::{Ph, PhScale, Scale};
use crate::real::{Real as _, sqrt};

/// Standard uncertainties that make up that of a probe's pH.
///
/// Two calibrations on the same day can agree to 0.01 and both be wrong by 0.1:
/// the potential of the liquid junction between the probe's electrolyte and the
/// sample differs between dilute buffers and seawater, by an amount that depends
/// on the probe and its age and that no calibration in dilute buffers shows.
/// Between seawaters 10 apart in salinity it was 0.028 pH (Easley & Byrne 2012,
/// Environ. Sci. Technol. 46, 5018-5024, abstract, doi 10.1021/es300491s).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProbeUncertainty {
    buffer_ph: f64,
    potential_mv: f64,
    temperature_celsius: f64,
    junction_ph: f64,
}

impl ProbeUncertainty {
    /// Bought NBS buffers, a hobby meter, a reading in seawater: buffers 0.01
    /// (labels promise ± 0.02), potentials 0.5 mV, temperatures 0.5 °C (common
    /// practice, no source); residual junction potential 0.05 to 0.1, here 0.05
    /// (from memory).
    pub const NBS_BUFFERS: Self = Self {
        buffer_ph: 0.01,
        potential_mv: 0.5,
        temperature_celsius: 0.5,
        junction_ph: 0.05,
    };

    /// Certified buffers in artificial seawater within 2 of the tank's salinity:
    /// buffers 0.004 (Müller et al. 2018, Front. Mar. Sci. 5, 176, abstract, give
    /// 0.002 to 0.004), potentials 0.5 mV, temperatures 0.5 °C (common practice,
    /// no source), junction 0.005 (0.028 for 10 in salinity, see above).
    pub const SEAWATER_BUFFERS: Self = Self {
        buffer_ph: 0.004,
        potential_mv: 0.5,
        temperature_celsius: 0.5,
        junction_ph: 0.005,
    };

    /// From the standard uncertainty of each buffer's pH, of each potential in
    /// mV, of each temperature in °C, and of the pH through the residual liquid
    /// junction potential.
    ///
    /// # Errors
    /// A value is not finite or outside 0 to 1 pH, 100 mV, 10 °C or 1 pH.
    pub fn new(
        buffer_ph: f64,
        potential_mv: f64,
        temperature_celsius: f64,
        junction_ph: f64,
    ) -> Result<Self> {
        Ok(Self {
            buffer_ph: within("uncertainty of the buffers", buffer_ph, 0.0, 1.0, "(pH)")?,
            potential_mv: within(
                "uncertainty of the potential",
                potential_mv,
                0.0,
                100.0,
                "mV",
            )?,
            temperature_celsius: within(
                "uncertainty of the temperature",
                temperature_celsius,
                0.0,
                10.0,
                "°C",
            )?,
            junction_ph: within(
                "uncertainty of the junction potential",
                junction_ph,
                0.0,
                1.0,
                "(pH)",
            )?,
        })
    }

    /// Propagates through the derivatives of the sample's pH with respect to pH,
    /// potential and temperature of the first buffer, of the second, and to
    /// potential and temperature of the sample.
    pub(super) fn budget(&self, derivatives: [f64; 8]) -> ProbeBudget {
        let [ph1, e1, t1, ph2, e2, t2, e, t] = derivatives;
        let norm = |terms: [f64; 3]| sqrt(terms.into_iter().map(|term| term.square()).sum::<f64>());
        ProbeBudget {
            buffers: self.buffer_ph * norm([ph1, ph2, 0.0]),
            potentials: self.potential_mv * norm([e1, e2, e]),
            temperatures: self.temperature_celsius * norm([t1, t2, t]),
            junction: self.junction_ph,
        }
    }
}

/// What each source contributes to the standard uncertainty of a pH, in pH.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub struct ProbeBudget {
    /// From the pH of the two buffers.
    pub buffers: f64,
    /// From the three potentials.
    pub potentials: f64,
    /// From the three temperatures.
    pub temperatures: f64,
    /// From the residual liquid junction potential.
    pub junction: f64,
}

impl ProbeBudget {
    /// The independent contributions together, in pH.
    #[must_use]
    pub fn standard_uncertainty(&self) -> f64 {
        sqrt(
            self.buffers.square()
                + self.potentials.square()
                + self.temperatures.square()
                + self.junction.square(),
        )
    }
}

/// A pH read with a calibrated probe, with what it is worth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProbeReading<S: Scale> {
    pub(super) ph: Ph<S>,
    pub(super) budget: ProbeBudget,
    pub(super) bracketed: bool,
}

impl<S: Scale> ProbeReading<S> {
    /// The pH.
    #[must_use]
    pub const fn ph(&self) -> Ph<S> {
        self.ph
    }

    /// Its standard uncertainty, in pH.
    #[must_use]
    pub fn standard_uncertainty(&self) -> f64 {
        self.budget.standard_uncertainty()
    }

    /// Its standard uncertainty without the liquid junction, in pH: what
    /// [`UncertaintyBudget::with_probe`] gives the known quantity for an NBS
    /// reading, whose [`Parameter::PFh`] is the junction.
    #[must_use]
    pub fn instrument_uncertainty(&self) -> f64 {
        ProbeBudget {
            junction: 0.0,
            ..self.budget
        }
        .standard_uncertainty()
    }

    /// Where the uncertainty comes from.
    #[must_use]
    pub const fn budget(&self) -> ProbeBudget {
        self.budget
    }

    /// Whether the pH lies between those of the two buffers, as it should (Buck
    /// et al. 2002, sect. 11). Outside them errors of the buffers are magnified.
    #[must_use]
    pub const fn is_bracketed(&self) -> bool {
        self.bracketed
    }

    /// The reading on another scale, by a conversion at fixed temperature,
    /// salinity and composition.
    ///
    /// Under those conditions the scales are a constant apart, so the standard
    /// uncertainty stays as it is. From NBS buffers it already holds the chief
    /// uncertainty of the conversion: the activity coefficient that links the
    /// scales was measured with one junction, and yours is another.
    ///
    /// ```
    /// # use halimeda::probe::*;
    /// # use halimeda::carbonate::EquilibriumOptions;
    /// # use halimeda::{ElectrodePotential, NbsScale, Ph, PracticalSalinity, Temperature, TotalScale, Water};
    /// # let t = Temperature::from_celsius(25.0)?;
    /// # let mv = ElectrodePotential::from_millivolts;
    /// # let calibration = ProbeCalibration::new(
    /// #     BufferReading::new(ReferenceBuffer::Phosphate.ph(t)?, mv(8.0)?, t),
    /// #     BufferReading::new(ReferenceBuffer::Borax.ph(t)?, mv(-128.0)?, t),
    /// # )?;
    /// let water = Water::new(t, PracticalSalinity::new(35.0)?);
    /// let equilibria = water.equilibria(&EquilibriumOptions::default())?;
    /// let nbs = calibration.read(mv(-72.0)?, t, &ProbeUncertainty::NBS_BUFFERS)?;
    /// let total: ProbeReading<TotalScale> = nbs.convert(|ph| equilibria.convert_ph(ph))?;
    /// assert!((nbs.ph().value() - total.ph().value() - 0.13).abs() < 0.02);
    /// assert_eq!(total.standard_uncertainty(), nbs.standard_uncertainty());
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// Those of `convert`.
    pub fn convert<T: Scale>(
        self,
        convert: impl FnOnce(Ph<S>) -> Result<Ph<T>>,
    ) -> Result<ProbeReading<T>> {
        Ok(ProbeReading {
            ph: convert(self.ph)?,
            budget: self.budget,
            bracketed: self.bracketed,
        })
    }
}

impl UncertaintyBudget<'_> {
    /// With the standard uncertainty of the probe that a state was solved from,
    /// its liquid junction counted once.
    ///
    /// Of a reading on the NBS scale the junction goes to [`Parameter::PFh`],
    /// in place of that of [`UncertaintyBudget::CONSTANTS`], and the rest to the
    /// known quantity; a reading on another scale does not meet fH and goes to
    /// the known quantity whole.
    ///
    /// ```
    /// use halimeda::carbonate::{EquilibriumOptions, Output, Parameter, UncertaintyBudget};
    /// use halimeda::probe::{BufferReading, ProbeCalibration, ProbeUncertainty, ReferenceBuffer};
    /// use halimeda::{Alkalinity, ElectrodePotential, PracticalSalinity, Temperature, Water};
    /// let t = Temperature::from_celsius(25.0)?;
    /// let mv = ElectrodePotential::from_millivolts;
    /// let calibration = ProbeCalibration::new(
    ///     BufferReading::new(ReferenceBuffer::Phosphate.ph(t)?, mv(8.0)?, t),
    ///     BufferReading::new(ReferenceBuffer::Borax.ph(t)?, mv(-128.0)?, t),
    /// )?;
    /// let reading = calibration.read(mv(-72.0)?, t, &ProbeUncertainty::NBS_BUFFERS)?;
    /// let state = Water::new(t, PracticalSalinity::new(35.0)?)
    ///     .equilibria(&EquilibriumOptions::default())?
    ///     .solve(Alkalinity::from_umol_per_kg(2800.0)?, reading.ph())?;
    /// let budget = UncertaintyBudget::CONSTANTS.with_probe(&state, &reading)?;
    /// let total = state.uncertainties(&budget)?.standard(Output::PhTotal);
    /// assert!((total - reading.standard_uncertainty()).abs() < 1e-12);
    /// # Ok::<(), halimeda::Error>(())
    /// ```
    ///
    /// # Errors
    /// Neither of the two quantities the state was solved from is this reading.
    pub fn with_probe<S: Scale>(
        self,
        state: &CarbonateState,
        reading: &ProbeReading<S>,
    ) -> Result<Self> {
        let read = Known::from(reading.ph);
        let parameter = match state.knowns() {
            [first, _] if first == read => Parameter::First,
            [_, second] if second == read => Parameter::Second,
            [first, _] => {
                return Err(Error::contradictory(
                    (S::NAME, reading.ph.value()),
                    (first.kind().name(), first.value()),
                    "the state was not solved from this reading of the probe",
                ));
            }
        };
        match S::SCALE {
            PhScale::Nbs => self
                .with(parameter, reading.instrument_uncertainty())?
                .with(Parameter::PFh, reading.budget.junction),
            _ => self.with(parameter, reading.standard_uncertainty()),
        }
    }
}
