//! Turf algae on a lit screen: light through the mat, growth on internal quotas,
//! the holdfast layer that starves in its own shade, harvest.
//!
//! The model, per square metre of lit and covered screen:
//!
//! - Light falls exponentially through the mat (Beer-Lambert). Photosynthesis
//!   follows Smith's saturation curve at every depth, which has a closed
//!   integral over the mat, so no layers are needed ([`TurfEnvironment`]).
//! - Nitrogen and phosphorus are taken up into quotas (Droop): uptake depends on
//!   what is dissolved, growth on what is stored. Uptake passes a boundary layer
//!   that flow thins. No nutrient, no uptake: the turf limits itself.
//! - The lowest layer lives on the light that reaches it. Below its own
//!   compensation irradiance it draws on a reserve; as that runs out, the mat
//!   lets go. Nothing says at which age this happens: light, growth and the size
//!   of the reserve do.
//!
//! Most yields that the parameters rest on are from fresh or brackish water rich
//! in nutrients; on a reef tank they are an extrapolation.

mod environment;
mod lamp;
mod metals;
mod rates;
mod screen;
mod stock;
mod traits;

pub use environment::TurfEnvironment;
pub use lamp::Lamp;
pub use metals::{TissueMetalContents, TissueMetals};
pub use rates::{TurfRates, TurfWater, turf_rates};
pub use screen::{FlowOverScreen, Screen};
pub use stock::{Harvest, TurfStock};
pub use traits::TurfTraits;

use crate::quantity::Form as _;
use crate::quantity::form::InorganicCarbonAsC;

/// Grams per mole of carbon.
pub(crate) const GRAMS_PER_MOL_CARBON: f64 = InorganicCarbonAsC::GRAMS_PER_MOL;
