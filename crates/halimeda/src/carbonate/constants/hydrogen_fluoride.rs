use crate::carbonate::Medium;
use crate::real::Real;

/// KF of hydrogen fluoride, total scale.
///
/// Perez & Fraga (1987), doi 10.1016/0304-4203(87)90036-3; total scale
/// according to Dickson, Sabine & Christian (2007) chapter 5. Divide by
/// [`free_to_total`](super::free_to_total) for the free scale. (Programs that
/// take it for a free-scale constant find a seawater-scale factor 0.64 %
/// smaller at S 35, 25 °C.) Range:
/// [`Relation::KfPerezFraga1987`](crate::Relation::KfPerezFraga1987).
#[inline(always)]
#[must_use]
pub fn kf_perez_fraga1987<R: Real>(medium: &Medium<R>) -> R {
    (medium.affine_in_inverse_kelvin(-9.68, 874.0) + medium.sqrt_salinity * 0.111).exp()
}

/// KF of hydrogen fluoride, free scale.
///
/// Dickson & Riley (1979), doi 10.1016/0304-4203(79)90001-X, carried from mol
/// per kg of water to mol per kg of seawater. Range:
/// [`Relation::KfDicksonRiley1979`](crate::Relation::KfDicksonRiley1979).
#[inline(always)]
#[must_use]
pub fn kf_dickson_riley1979<R: Real>(medium: &Medium<R>) -> R {
    (medium.affine_in_inverse_kelvin(-12.641, 1590.2) + medium.sqrt_ionic_strength * 1.525).exp()
        * medium.water_fraction
}
