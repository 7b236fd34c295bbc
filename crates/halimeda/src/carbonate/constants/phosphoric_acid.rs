use crate::carbonate::Medium;
use crate::real::Real;

/// \[KP1, KP2, KP3\] of phosphoric acid, seawater scale.
///
/// Yao & Millero (1995), doi 10.1007/BF01025231, as in Millero (1995) eqs.
/// 65-67, doi 10.1016/0016-7037(94)00354-O. The constant terms printed by
/// Dickson, Sabine & Christian (2007) are 0.015 smaller, a rounded conversion
/// to the total scale. Range:
/// [`Relation::KpYaoMillero1995`](crate::Relation::KpYaoMillero1995).
#[inline(always)]
#[must_use]
pub fn kp_yao_millero1995<R: Real>(medium: &Medium<R>) -> [R; 3] {
    let (s, root) = (medium.salinity, medium.sqrt_salinity);
    let first = medium.van_t_hoff(115.54, -4576.752, -18.453)
        + root * medium.affine_in_inverse_kelvin(0.69171, -106.736)
        + s * medium.affine_in_inverse_kelvin(-0.01844, -0.65643);
    let second = medium.van_t_hoff(172.1033, -8814.715, -27.927)
        + root * medium.affine_in_inverse_kelvin(1.3566, -160.34)
        + s * medium.affine_in_inverse_kelvin(-0.05778, 0.37335);
    let third = medium.affine_in_inverse_kelvin(-18.126, -3070.75)
        + root * medium.affine_in_inverse_kelvin(2.81197, 17.27039)
        + s * medium.affine_in_inverse_kelvin(-0.09984, -44.99486);
    [first.exp(), second.exp(), third.exp()]
}
