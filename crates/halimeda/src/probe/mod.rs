//! pH probes: calibration, slope health, temperature, uncertainty and drift.
//!
//! A probe gives a potential; two buffers turn it into a pH **on the scale of
//! the buffers**. The buffers sold for hobby use are NBS (NIST) buffers, so the
//! reading is a [`Ph<NbsScale>`](crate::Ph) and must be converted
//! ([`ProbeReading::convert`]) before it meets a constant of seawater; a
//! calibration in [`SeawaterBuffer`]s reads the
//! total scale directly.
//!
//! ```
//! use halimeda::probe::{BufferReading, ProbeCalibration, ProbeHealth, ProbeUncertainty, ReferenceBuffer};
//! use halimeda::{ElectrodePotential, Temperature};
//! let mv = ElectrodePotential::from_millivolts;
//! let room = Temperature::from_celsius(22.0)?;
//! let calibration = ProbeCalibration::new(
//!     BufferReading::new(ReferenceBuffer::Phosphate.ph(room)?, mv(2.4)?, room),
//!     BufferReading::new(ReferenceBuffer::Borax.ph(room)?, mv(-130.1)?, room),
//! )?;
//! assert!((calibration.slope_percent() - 97.0).abs() < 0.1);
//! assert_eq!(calibration.health(), ProbeHealth::Good);
//!
//! let tank = Temperature::from_celsius(25.5)?;
//! let reading = calibration.read(mv(-75.0)?, tank, &ProbeUncertainty::NBS_BUFFERS)?;
//! assert!((reading.ph().value() - 8.22).abs() < 0.01);
//! assert!(reading.standard_uncertainty() > 0.05); // the junction, in seawater
//! # Ok::<(), halimeda::Error>(())
//! ```
//!
//! Buffers of two scales do not make one calibration:
//!
//! ```compile_fail,E0308
//! use halimeda::probe::{BufferReading, ProbeCalibration, ReferenceBuffer, SeawaterBuffer};
//! use halimeda::{ElectrodePotential, PracticalSalinity, Temperature};
//! let t = Temperature::from_celsius(25.0)?;
//! let s = PracticalSalinity::new(35.0)?;
//! let e = ElectrodePotential::from_millivolts(0.0)?;
//! let nbs = BufferReading::new(ReferenceBuffer::Phosphate.ph(t)?, e, t);
//! let total = BufferReading::new(SeawaterBuffer::Tris.ph(t, s)?, e, t);
//! ProbeCalibration::new(nbs, total)?;
//! # Ok::<(), halimeda::Error>(())
//! ```
//!
//! # Two effects of temperature
//! A probe's millivolts per pH grow with its absolute temperature. A meter with
//! automatic temperature compensation corrects for that, and so do
//! [`ProbeCalibration::read`] and [`correct_missing_compensation`]. Neither
//! touches the other effect: the pH of the water itself changes with temperature,
//! by about −0.015 per °C in seawater, because its equilibria move. That is a true
//! change of the sample, to be computed from alkalinity and carbon in the
//! [`carbonate`](crate::carbonate) module, never from the probe.

mod buffer;
mod calibration;
mod compensation;
mod drift;
mod reading;

pub use buffer::{ReferenceBuffer, SeawaterBuffer};
pub use calibration::{BufferReading, ProbeCalibration, ProbeHealth};
pub use compensation::{correct_missing_compensation, nernst_slope_mv_per_ph};
pub use drift::ProbeDrift;
pub use reading::{ProbeBudget, ProbeReading, ProbeUncertainty};

/// pH at which the potential of a common glass probe does not depend on its
/// temperature: that of its inner buffer. Common practice, no source.
pub const ISOPOTENTIAL_PH: f64 = 7.0;
