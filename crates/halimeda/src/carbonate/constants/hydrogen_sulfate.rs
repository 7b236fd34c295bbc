use crate::carbonate::Medium;
use crate::real::Real;

/// KS of hydrogen sulfate, free scale.
///
/// Dickson (1990) eqs. 22 and 23, doi 10.1016/0021-9614(90)90074-Z, carried
/// from mol per kg of water to mol per kg of seawater; also Dickson, Sabine &
/// Christian (2007) chapter 5. Range:
/// [`Relation::KsDickson1990`](crate::Relation::KsDickson1990).
#[inline(always)]
#[must_use]
pub fn ks_dickson1990<R: Real>(medium: &Medium<R>) -> R {
    let (i, root) = (medium.ionic_strength, medium.sqrt_ionic_strength);
    let ln_molal = medium.van_t_hoff(141.328, -4276.1, -23.093)
        + root * medium.van_t_hoff(324.57, -13856.0, -47.986)
        + i * medium.van_t_hoff(-771.54, 35474.0, 114.723)
        + i * (root * -2698.0 + i * 1776.0) * medium.inverse_kelvin;
    ln_molal.exp() * medium.water_fraction
}

/// KS of hydrogen sulfate, free scale.
///
/// Khoo, Ramette, Culberson & Bates (1977), doi 10.1021/ac50009a016,
/// carried from mol per kg of water to mol per kg of seawater. Range:
/// [`Relation::KsKhoo1977`](crate::Relation::KsKhoo1977).
#[inline(always)]
#[must_use]
pub fn ks_khoo1977<R: Real>(medium: &Medium<R>) -> R {
    let pk_molal = medium.affine_in_inverse_kelvin(-6.3451, 647.59) + medium.kelvin * 0.019085
        - medium.sqrt_ionic_strength * 0.5208;
    (-pk_molal).exp10() * medium.water_fraction
}
