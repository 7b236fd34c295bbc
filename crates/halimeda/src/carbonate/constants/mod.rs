//! The published relations for the equilibria of seawater, bare.
//!
//! Each function evaluates one relation of the register
//! ([`Relation`](crate::Relation)) at the surface, on the pH scale and in the
//! unit its authors published it in; [`PressureEffect`] carries it to depth
//! and [`free_to_total`] and [`free_to_seawater`] from scale to scale. They
//! are generic over [`Real`](crate::Real): on [`Dual`](crate::Dual) they give
//! their derivatives as well.
//!
//! They do not check ranges: outside the range in the register they
//! extrapolate. [`Equilibria`](super::Equilibria) is the checked way to all of
//! them, on one scale.
//!
//! Contents are mol per kg of seawater unless said otherwise.

mod ammonium;
mod boric_acid;
mod calcium_carbonate;
mod carbon_dioxide;
mod carbonic_acid;
mod hydrogen_fluoride;
mod hydrogen_sulfate;
mod hydrogen_sulfide;
mod ph_scale;
mod phosphoric_acid;
mod pressure;
mod silicic_acid;
mod water;

pub use ammonium::knh4_clegg_whitfield1995;
pub use boric_acid::{kb_dickson1990, total_boron_lee2010, total_boron_uppstrom1974};
pub use calcium_carbonate::{ksp_aragonite_mucci1983, ksp_calcite_mucci1983};
pub use carbon_dioxide::{co2_fugacity_coefficient_weiss1974, k0_weiss1974};
pub use carbonic_acid::{
    k1_k2_dickson_millero1987, k1_k2_lueker2000, k1_k2_millero2010, k1_k2_sulpis2020,
    k1_k2_waters2014,
};
pub use hydrogen_fluoride::{kf_dickson_riley1979, kf_perez_fraga1987};
pub use hydrogen_sulfate::{ks_dickson1990, ks_khoo1977};
pub use hydrogen_sulfide::kh2s_millero1988;
pub use ph_scale::{fh_takahashi1982, free_to_seawater, free_to_total};
pub use phosphoric_acid::kp_yao_millero1995;
pub use pressure::PressureEffect;
pub use silicic_acid::ksi_yao_millero1995;
pub use water::kw_millero1995;

/// Molar gas constant, bar cm³ mol⁻¹ K⁻¹; CODATA 2018, to the digits it prints.
const GAS_CONSTANT: f64 = 83.14462618;
