use super::GAS_CONSTANT;
use crate::carbonate::Medium;
use crate::real::{Real, polynomial};

/// Solubility of CO2, K0 = \[CO2\] / fCO2, mol kg⁻¹ atm⁻¹.
///
/// ln K0 = A1 + A2 (100/T) + A3 ln(T/100) + S \[B1 + B2 (T/100) + B3 (T/100)²\],
/// Weiss (1974) eq. 12 with table I, doi 10.1016/0304-4203(74)90015-2. Range:
/// [`Relation::K0Weiss1974`](crate::Relation::K0Weiss1974).
#[inline(always)]
#[must_use]
pub fn k0_weiss1974<R: Real>(medium: &Medium<R>) -> R {
    const LN_100: f64 = 2.0 * core::f64::consts::LN_10;
    let hundred_kelvin = medium.kelvin / 100.0;
    let salting_out = polynomial(hundred_kelvin, [0.023517, -0.023656, 0.0047036]);
    ((medium.ln_kelvin - LN_100) * 23.3585 + medium.inverse_kelvin * 9345.17 - 60.2409
        + medium.salinity * salting_out)
        .exp()
}

/// Fugacity coefficient of CO2 in air at one atmosphere, fCO2 / pCO2.
///
/// exp\[(B + 2δ) p / RT\] with the virial coefficients B(T) of CO2 and δ(T) of
/// CO2 with air, cm³/mol, for CO2 as a trace gas (the factor (1 - x)² of δ is
/// 1); Weiss (1974), doi 10.1016/0304-4203(74)90015-2.
#[inline(always)]
#[must_use]
pub fn co2_fugacity_coefficient_weiss1974<R: Real>(medium: &Medium<R>) -> R {
    const BAR_PER_ATM: f64 = 1.01325;
    let b_plus_two_delta = polynomial(
        medium.kelvin,
        [
            -1636.75 + 2.0 * 57.7,
            12.0408 - 2.0 * 0.118,
            -0.0327957,
            3.16528e-5,
        ],
    );
    (b_plus_two_delta * medium.inverse_kelvin * (BAR_PER_ATM / GAS_CONSTANT)).exp()
}
