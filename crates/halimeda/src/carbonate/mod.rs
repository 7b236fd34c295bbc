//! The carbonate system: what alkalinity, pH, CO2 and calcium carbonate of one
//! water say about one another.
//!
//! [`Water::equilibria`](crate::Water::equilibria) computes the constants once;
//! [`Equilibria::solve`] takes any two known quantities and gives the full
//! [`CarbonateState`], from which come the exact [`Sensitivities`] and the
//! propagated [`Uncertainties`].

mod bases;
pub(crate) mod constant_set;
pub mod constants;
mod equilibria;
mod follower;
pub(crate) mod known;
mod medium;
mod options;
pub(crate) mod point;
mod sensitivity;
pub(crate) mod solve;
pub(crate) mod speciation;
mod state;
mod uncertainty;

pub use bases::Bases;
pub use equilibria::Equilibria;
pub use follower::{CarbonateFollower, Followed};
pub use known::{Known, KnownKind};
pub use medium::Medium;
pub use options::{Bisulfate, CarbonicAcid, EquilibriumOptions, HydrogenFluoride, TotalBoron};
pub use sensitivity::{Output, Parameter, Sensitivities};
pub use state::{AlkalinityParts, BufferFactors, CarbonateState, Solutions};
pub use uncertainty::{Correlation, Uncertainties, UncertaintyBudget};
