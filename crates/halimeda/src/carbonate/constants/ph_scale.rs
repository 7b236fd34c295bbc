use crate::carbonate::Medium;
use crate::real::Real;

/// Hydrogen ion on the total scale per free hydrogen ion, 1 + ST/KS.
///
/// `total_sulfate` in mol/kg, `ks` of hydrogen sulfate on the free scale; both
/// at the pressure at which the factor is wanted. A constant converts by the
/// same factor: K(total) = K(free) (1 + ST/KS). Dickson, Sabine & Christian
/// (2007) chapter 5, section 5.
#[inline(always)]
#[must_use]
pub fn free_to_total<R: Real>(total_sulfate: R, ks: R) -> R {
    total_sulfate / ks + 1.0
}

/// Hydrogen ion on the seawater scale per free hydrogen ion, 1 + ST/KS + FT/KF.
///
/// Totals in mol/kg, `ks` and `kf` both on the **free** scale. Dickson, Sabine
/// & Christian (2007) chapter 5, section 5.
#[inline(always)]
#[must_use]
pub fn free_to_seawater<R: Real>(total_sulfate: R, ks: R, total_fluoride: R, kf: R) -> R {
    total_sulfate / ks + total_fluoride / kf + 1.0
}

/// Apparent activity coefficient fH of the hydrogen ion: 10^-pH(NBS) per
/// hydrogen ion on the seawater scale, kg/mol.
///
/// Takahashi et al. (1982), GEOSECS Pacific Expedition vol. 3, from the
/// measurements of Culberson & Pytkowicz (1973). It holds the liquid junction
/// of the electrodes it was measured with: on another electrode it is uncertain
/// by several hundredths of a pH unit. Range:
/// [`Relation::FhTakahashi1982`](crate::Relation::FhTakahashi1982).
#[inline(always)]
#[must_use]
pub fn fh_takahashi1982<R: Real>(medium: &Medium<R>) -> R {
    let t = medium.kelvin;
    t * -0.002036 + 1.2948 + (t * -1.475e-6 + 4.607e-4) * medium.salinity.square()
}
