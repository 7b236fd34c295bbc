use crate::carbonate::Medium;
use crate::real::Real;

/// KSi of silicic acid, seawater scale.
///
/// Yao & Millero (1995), doi 10.1007/BF01025231, as in Millero (1995), doi
/// 10.1016/0016-7037(94)00354-O, carried from mol per kg of water to mol
/// per kg of seawater. The constant term printed by Dickson, Sabine &
/// Christian (2007) is 0.015 smaller, a rounded conversion to the total scale.
/// Range: [`Relation::KsiYaoMillero1995`](crate::Relation::KsiYaoMillero1995).
#[inline(always)]
#[must_use]
pub fn ksi_yao_millero1995<R: Real>(medium: &Medium<R>) -> R {
    let (i, root) = (medium.ionic_strength, medium.sqrt_ionic_strength);
    let ln_molal = medium.van_t_hoff(117.40, -8904.2, -19.334)
        + root * medium.affine_in_inverse_kelvin(3.5913, -458.79)
        + i * (medium.affine_in_inverse_kelvin(-1.5998, 188.74)
            + i * medium.affine_in_inverse_kelvin(0.07871, -12.1652));
    ln_molal.exp() * medium.water_fraction
}
