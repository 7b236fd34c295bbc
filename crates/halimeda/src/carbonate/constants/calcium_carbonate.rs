use core::f64::consts::LN_10;

use crate::carbonate::Medium;
use crate::real::{Real, polynomial};

/// Stoichiometric solubility product of aragonite, \[Ca²⁺\]\[CO3²⁻\], mol² kg⁻².
///
/// Mucci (1983), doi 10.2475/ajs.283.7.780; measured at calcium close to that
/// of natural seawater. Range:
/// [`Relation::KspMucci1983`](crate::Relation::KspMucci1983).
#[inline(always)]
#[must_use]
pub fn ksp_aragonite_mucci1983<R: Real>(medium: &Medium<R>) -> R {
    solubility_product(
        medium,
        [-171.945, 2903.293],
        [-0.068393, 0.0017276, 88.135],
        [-0.10018, 0.0059415],
    )
}

/// Stoichiometric solubility product of calcite, \[Ca²⁺\]\[CO3²⁻\], mol² kg⁻².
///
/// Mucci (1983), doi 10.2475/ajs.283.7.780; measured at calcium close to that
/// of natural seawater. Range:
/// [`Relation::KspMucci1983`](crate::Relation::KspMucci1983).
#[inline(always)]
#[must_use]
pub fn ksp_calcite_mucci1983<R: Real>(medium: &Medium<R>) -> R {
    solubility_product(
        medium,
        [-171.9065, 2839.319],
        [-0.77712, 0.0028426, 178.34],
        [-0.07711, 0.0041249],
    )
}

/// log Ksp = a0 - 0.077993 T + a1/T + 71.595 log T
///           + (b0 + b1 T + b2/T) √S + c0 S + c1 S^1.5.
#[inline(always)]
fn solubility_product<R: Real>(
    medium: &Medium<R>,
    [a0, a1]: [f64; 2],
    [b0, b1, b2]: [f64; 3],
    c: [f64; 2],
) -> R {
    let root = medium.sqrt_salinity;
    (medium.van_t_hoff(a0, a1, 71.595 / LN_10) - medium.kelvin * 0.077993
        + root * (medium.affine_in_inverse_kelvin(b0, b2) + medium.kelvin * b1)
        + medium.salinity * polynomial(root, c))
    .exp10()
}
